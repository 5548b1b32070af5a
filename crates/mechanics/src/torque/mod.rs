//! What an exercise asks of the shoulder through its movement.
//!
//! One rule for every band: if d is the length of the band's path and F its pull, the torque it takes is F dd/dphi, so
//! the integral of torque over the arc is the gain of stored energy. Valid for controlled tempo (a raise of 1.5 s or
//! more), where inertia never carries the peak; not for thrown or jerked movements.

mod circles;
mod curve;
mod design;
mod error;
mod exercise;
mod point;
mod push_up;
mod raise;
mod rotation;
mod row;
mod tempo;

pub use circles::BallCircles;
pub use curve::{Curve, CurvePoint};
pub use design::{Design, DesignRefusal, free_length};
pub use error::{InputErrors, TorqueError};
pub use exercise::{BandAt, Exercise, ExerciseRefusal, Movement, Outcome, TorqueReport};
pub use point::Point;
pub use push_up::{
    ARM_HALF_WAY, Foundation, FromFloor, HandLoad, KNEES_OVER_FLOOR, Levers, Pivot, PushUp, PushUpRefusal,
    Support, body_angle, floor_model, incline_share, levers, wall_share,
};
pub use raise::{HandRaise, MotionPeak};
pub use rotation::{AnchoredRotation, TwoHandRotation};
pub use row::Row;
pub use tempo::{Tempo, TempoRefusal, peak_acceleration, progress};
