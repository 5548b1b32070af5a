//! The kinematic figure: joint angles to joint positions, for drawing every exercise and giving every moment arm.
//!
//! Axes: right, forward, up, seen from the person standing. Angles are counted from standing with arms hanging and
//! palms to the thighs. Segment lengths never change with the pose; only the shoulder joint may slide forwards with its
//! blade. Nothing here checks whether a pose is wise; [`outside_range`] says whether it is possible.

//!
//! A [`Motion`] is one repetition: two poses and what touches what; its frames keep every contact.

mod joints;
mod motion;
mod part;
mod pose;
mod range;
mod scene;
mod settle;

pub use joints::{Figure, Limbs, Place, segment_lengths};
pub use motion::{Contact, Frame, Motion, Surface, Touches};
pub use part::Part;
pub use pose::{ArmPose, LegPose, Pose, Root};
pub use range::{Joint, OutOfRange, outside_range};
pub use scene::{BandEnd, Beat, Plane, Scene};
