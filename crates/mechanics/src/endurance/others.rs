//! Other published endurance curves, shown beside the chosen one to say how far print disagrees. They dose nothing.

use quantity::{HoldTime, Share};

/// Curves gathered by El Ahrache, Imbeau & Farbos 2006 (Int J Ind Ergon 36:99-108), and one from Hincapie-Ramos 2014.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OtherCurve {
    /// Rohmert 1960, any muscle, from 15 % of strength.
    Rohmert1960,
    /// Sato 1984, shoulder.
    Sato1984Shoulder,
    /// Rohmert 1986, shoulder.
    Rohmert1986Shoulder,
    /// Mathiassen & Ahsberg 1999, shoulder.
    Mathiassen1999Shoulder,
    /// Monod & Scherrer 1965, any muscle, above 14 %.
    Monod1965,
    /// Arm held out, Hincapie-Ramos 2014 after Rohmert, above 15 %.
    ArmHolding2014,
}

impl OtherCurve {
    /// All of them.
    pub const ALL: [Self; 6] = [
        Self::Rohmert1960,
        Self::Sato1984Shoulder,
        Self::Rohmert1986Shoulder,
        Self::Mathiassen1999Shoulder,
        Self::Monod1965,
        Self::ArmHolding2014,
    ];

    /// The curve's time at a share of strength, or nothing where the curve is not defined.
    pub fn time(self, share: Share) -> Option<HoldTime> {
        let f = share.fraction();
        if !(f <= 1.0 && self.lightest() < f) {
            return None;
        }
        let seconds = match self {
            Self::Rohmert1960 => 60.0 * (-1.5 + 2.1 / f - 0.6 / (f * f) + 0.1 / (f * f * f)),
            Self::Sato1984Shoulder => 60.0 * 0.398 * f.powf(-1.29),
            Self::Rohmert1986Shoulder => 60.0 * 0.2955 * f.powf(-1.658),
            Self::Mathiassen1999Shoulder => 60.0 * 40.6092 * (-9.7 * f).exp(),
            Self::Monod1965 => 60.0 * 0.4167 * (f - 0.14).powf(-2.4),
            Self::ArmHolding2014 => 1236.5 / (100.0 * f - 15.0).powf(0.618) - 72.5,
        };
        (0.0 < seconds).then(|| HoldTime::from_seconds(seconds))
    }

    /// Whether the curve is of the shoulder.
    pub fn is_of_the_shoulder(self) -> bool {
        matches!(self, Self::Sato1984Shoulder | Self::Rohmert1986Shoulder | Self::Mathiassen1999Shoulder)
    }

    fn lightest(self) -> f64 {
        match self {
            Self::Rohmert1960 | Self::ArmHolding2014 => 0.15,
            Self::Monod1965 => 0.14,
            _ => 0.10,
        }
    }
}

/// Shortest and longest time that the shoulder curves other than the chosen one give at a share.
pub fn disagreement(share: Share) -> Option<(HoldTime, HoldTime)> {
    let times = || {
        OtherCurve::ALL
            .into_iter()
            .filter(|curve| curve.is_of_the_shoulder())
            .filter_map(|curve| curve.time(share))
    };
    Some((times().reduce(HoldTime::min)?, times().reduce(HoldTime::max)?))
}
