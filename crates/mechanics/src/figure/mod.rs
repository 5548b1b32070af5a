//! The kinematic figure: joint angles to joint positions, for drawing every exercise and giving every moment arm.
//!
//! Axes: right, forward, up, seen from the person standing. Angles are counted from standing with arms hanging and
//! palms to the thighs. Segment lengths never change with the pose; only the shoulder joint may slide forwards with its
//! blade. Nothing here checks whether a pose is wise; [`outside_range`] says whether it is possible.

mod joints;
mod pose;
mod range;

pub use joints::{Figure, Limbs, Place, segment_lengths};
pub use pose::{ArmPose, LegPose, Pose, Root};
pub use range::{Joint, OutOfRange, outside_range};
