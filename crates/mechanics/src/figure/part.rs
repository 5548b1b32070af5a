//! Places of a figure by name, and how much flesh lies round each.

use quantity::Length;

use super::joints::{Figure, Place};

/// A place of the body that can touch something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum Part {
    Head,
    Back,
    Pelvis,
    LeftShoulder,
    RightShoulder,
    LeftElbow,
    RightElbow,
    LeftWrist,
    RightWrist,
    LeftHand,
    RightHand,
    LeftHip,
    RightHip,
    LeftKnee,
    RightKnee,
    LeftAnkle,
    RightAnkle,
    LeftToes,
    RightToes,
}

impl Part {
    /// Every part.
    pub const ALL: [Part; 19] = [
        Part::Head,
        Part::Back,
        Part::Pelvis,
        Part::LeftShoulder,
        Part::RightShoulder,
        Part::LeftElbow,
        Part::RightElbow,
        Part::LeftWrist,
        Part::RightWrist,
        Part::LeftHand,
        Part::RightHand,
        Part::LeftHip,
        Part::RightHip,
        Part::LeftKnee,
        Part::RightKnee,
        Part::LeftAnkle,
        Part::RightAnkle,
        Part::LeftToes,
        Part::RightToes,
    ];

    /// The same part on the other side.
    pub const fn mirrored(self) -> Self {
        match self {
            Self::Head | Self::Back | Self::Pelvis => self,
            Self::LeftShoulder => Self::RightShoulder,
            Self::RightShoulder => Self::LeftShoulder,
            Self::LeftElbow => Self::RightElbow,
            Self::RightElbow => Self::LeftElbow,
            Self::LeftWrist => Self::RightWrist,
            Self::RightWrist => Self::LeftWrist,
            Self::LeftHand => Self::RightHand,
            Self::RightHand => Self::LeftHand,
            Self::LeftHip => Self::RightHip,
            Self::RightHip => Self::LeftHip,
            Self::LeftKnee => Self::RightKnee,
            Self::RightKnee => Self::LeftKnee,
            Self::LeftAnkle => Self::RightAnkle,
            Self::RightAnkle => Self::LeftAnkle,
            Self::LeftToes => Self::RightToes,
            Self::RightToes => Self::LeftToes,
        }
    }

    /// Where it is.
    pub fn of(self, figure: &Figure) -> Place {
        let (left, right) = (&figure.left, &figure.right);
        match self {
            Self::Head => figure.head(),
            Self::Back => figure.neck,
            Self::Pelvis => figure.pelvis,
            Self::LeftShoulder => left.shoulder,
            Self::RightShoulder => right.shoulder,
            Self::LeftElbow => left.elbow,
            Self::RightElbow => right.elbow,
            Self::LeftWrist => left.wrist,
            Self::RightWrist => right.wrist,
            Self::LeftHand => left.hand,
            Self::RightHand => right.hand,
            Self::LeftHip => left.hip,
            Self::RightHip => right.hip,
            Self::LeftKnee => left.knee,
            Self::RightKnee => right.knee,
            Self::LeftAnkle => left.ankle,
            Self::RightAnkle => right.ankle,
            Self::LeftToes => left.toes,
            Self::RightToes => right.toes,
        }
    }

    /// From the joint to the skin, for a person of this stature: for drawing and touching only, no source.
    ///
    /// The ball of the foot already lies on the sole, so it has none.
    pub fn flesh(self, stature: Length) -> Length {
        let share = match self {
            Self::Head => 0.058,
            Self::Back => 0.060,
            Self::Pelvis => 0.055,
            Self::LeftShoulder | Self::RightShoulder => 0.031,
            Self::LeftElbow | Self::RightElbow => 0.0215,
            Self::LeftWrist | Self::RightWrist => 0.016,
            Self::LeftHand | Self::RightHand => 0.0185,
            Self::LeftHip | Self::RightHip => 0.052,
            Self::LeftKnee | Self::RightKnee => 0.033,
            Self::LeftAnkle | Self::RightAnkle => 0.0215,
            Self::LeftToes | Self::RightToes => 0.0,
        };
        Length::from_metres(share * stature.metres())
    }
}

impl Figure {
    /// Middle of the skull: between the shoulders and the crown, nearer to the crown.
    pub fn head(&self) -> Place {
        const ALONG: f64 = 0.68;
        let part =
            |from: Length, to: Length| Length::from_metres(from.metres() + ALONG * (to - from).metres());
        Place {
            right: part(self.neck.right, self.crown.right),
            forward: part(self.neck.forward, self.crown.forward),
            up: part(self.neck.up, self.crown.up),
        }
    }
}
