//! What must hold for any input: conservation, mirror images, virtual work, more load never less torque.

mod fatigue;
