//! How long a static load may last: Frey-Law & Avin 2010, with its wide band, and how far other curves disagree.
//!
//! Valid for isometric contractions of healthy adults of 18 to 50, held to failure, between 10 and 100 % of strength.
//! There is no adolescent data and no curve for the rotators: the shoulder curve stands in for them. It is a prior
//! only; a swimmer's own set times replace it. It says nothing about recovery, and nothing about hours.

mod others;

pub use others::{OtherCurve, disagreement};

use quantity::{HoldTime, Share};

use crate::spread::{NORMAL_95, WithError, root_sum_square};

/// The joints of the published table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joint {
    /// All joints together.
    General,
    /// Ankle.
    Ankle,
    /// Knee.
    Knee,
    /// Trunk.
    Trunk,
    /// Shoulder, the least enduring.
    Shoulder,
    /// Elbow.
    Elbow,
    /// Hand grip.
    Grip,
}

/// A prior for static loads of adults, to be replaced by the swimmer's own set times; it promises no seconds.
///
/// An expected time and the band that holds a new person's time 95 times in 100.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Endurance {
    /// The curve.
    pub expected: HoldTime,
    /// Lower prediction limit.
    pub low: HoldTime,
    /// Upper prediction limit.
    pub high: HoldTime,
}

/// Why no time can be given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum OutsideCurve {
    /// Below 10 % of strength the curve was not fitted and must not be used.
    TooLight(Share),
    /// More than the whole strength.
    TooHeavy(Share),
    /// A time that no load inside the curve gives.
    Time(HoldTime),
}

/// The lightest load that the curve is used for.
pub const LIGHTEST: Share = Share::from_fraction(0.10);

/// Half width of the 95 % prediction band as a part of the time. Print says 29 to 47 %, by joint and load; the wider
/// end is taken everywhere.
const BAND: f64 = 0.47;

impl Joint {
    /// Time in seconds is the first times share of strength to the power of the second (Table 2).
    const fn coefficients(self) -> (f64, f64) {
        match self {
            Self::General => (21.92, -1.98),
            Self::Ankle => (34.71, -2.06),
            Self::Knee => (19.38, -1.88),
            Self::Trunk => (22.69, -2.27),
            Self::Shoulder => (14.86, -1.83),
            Self::Elbow => (17.98, -2.21),
            Self::Grip => (33.55, -1.61),
        }
    }

    /// Expected time to failure at a share of strength.
    pub fn endurance(self, share: Share) -> Result<Endurance, OutsideCurve> {
        if share < LIGHTEST {
            return Err(OutsideCurve::TooLight(share));
        }
        if Share::WHOLE < share {
            return Err(OutsideCurve::TooHeavy(share));
        }
        Ok(band(self.seconds(share), BAND))
    }

    /// The same for a share that is itself uncertain: the band widens by the curve's slope times the share's error.
    pub fn endurance_of(self, share: WithError<Share>) -> Result<Endurance, OutsideCurve> {
        self.endurance(share.value)?;
        let steepness = self.coefficients().1.abs();
        let from_share = NORMAL_95 * steepness * share.relative().unwrap_or(0.0);
        Ok(band(self.seconds(share.value), root_sum_square([BAND, from_share])))
    }

    /// The share of strength that lasts a given time on the curve itself.
    pub fn share_lasting(self, time: HoldTime) -> Result<Share, OutsideCurve> {
        self.inverse(time, 1.0)
    }

    /// The largest share whose *lower* prediction limit still reaches a given time.
    pub fn share_surely_lasting(self, time: HoldTime) -> Result<Share, OutsideCurve> {
        self.inverse(time, 1.0 - BAND)
    }

    fn seconds(self, share: Share) -> f64 {
        let (scale, power) = self.coefficients();
        scale * share.fraction().powf(power)
    }

    fn inverse(self, time: HoldTime, part: f64) -> Result<Share, OutsideCurve> {
        let (scale, power) = self.coefficients();
        let share = (time.seconds() / (part * scale)).powf(1.0 / power);
        let inside = LIGHTEST.fraction() <= share && share <= 1.0;
        if inside { Ok(Share::from_fraction(share)) } else { Err(OutsideCurve::Time(time)) }
    }
}

/// A band that never reaches below nothing: a very uncertain share makes the lower limit zero, not negative.
fn band(seconds: f64, part: f64) -> Endurance {
    Endurance {
        expected: HoldTime::from_seconds(seconds),
        low: HoldTime::from_seconds(seconds * (1.0 - part).max(0.0)),
        high: HoldTime::from_seconds(seconds * (1.0 + part)),
    }
}
