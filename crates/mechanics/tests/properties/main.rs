//! What must hold for any input: conservation, mirror images, virtual work, more load never less torque, no panic.

mod bands;
mod fatigue;
mod figure;
mod ladder;
mod session;
mod torque;
mod wear;
