//! The rates of a muscle group and what follows from them in closed form.

use quantity::{Share, Time};

use super::curve::TwoRates;
use crate::endurance::Joint;

/// Rates of one muscle group, per second.
///
/// Fitted to static, single-joint contractions of adults to failure; valid for seconds to tens of minutes, never for
/// hours. Repetitions and adolescents are extensions by analogy, so use it to compare plans, not to promise seconds.
///
/// Symbols of the papers: F fatigue, R recovery, r its factor at rest, LD and LR the speed at which the controller
/// brings motor units in and lets them go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Muscle {
    pub(super) fatigue: f64,
    pub(super) recovery: f64,
    pub(super) at_rest: f64,
    pub(super) drive: f64,
    pub(super) release: f64,
}

/// Why rates make no muscle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MuscleRefusal {
    /// Fatigue rate outside 0.0001 to 1 per second.
    Fatigue(f64),
    /// Recovery rate outside 0.00001 to 0.1 per second.
    Recovery(f64),
    /// Rest factor outside 1 to 60.
    AtRest(f64),
}

/// Both controller speeds, per second.
const CONTROLLER: f64 = 10.0;

impl Muscle {
    /// The published rates of a joint: Frey-Law, Looft & Heitsman 2012, J Biomech 45(10):1803-1808 (the general row is
    /// the default of Looft 2018). Rest factor 15, and 30 for the grip, Looft 2018; for the shoulder 15 fitted somewhat
    /// better than 30, Looft & Frey-Law 2020. Later fits differ by factors of two and five: that is the honest size of
    /// the uncertainty.
    pub const fn of(joint: Joint) -> Self {
        let (fatigue, recovery, at_rest) = match joint {
            Joint::Ankle => (0.005_89, 0.000_58, 15.0),
            Joint::Knee => (0.015, 0.001_49, 15.0),
            Joint::Trunk => (0.007_55, 0.000_75, 15.0),
            Joint::Shoulder => (0.018_2, 0.001_68, 15.0),
            Joint::Elbow => (0.009_12, 0.000_94, 15.0),
            Joint::Grip => (0.009_8, 0.000_64, 30.0),
            Joint::General => (0.009_7, 0.000_91, 15.0),
        };
        Self { fatigue, recovery, at_rest, drive: CONTROLLER, release: CONTROLLER }
    }

    /// A muscle with other rates, per second.
    pub fn new(fatigue: f64, recovery: f64, at_rest: f64) -> Result<Self, MuscleRefusal> {
        if !(1e-4..=1.0).contains(&fatigue) {
            return Err(MuscleRefusal::Fatigue(fatigue));
        }
        if !(1e-5..=0.1).contains(&recovery) {
            return Err(MuscleRefusal::Recovery(recovery));
        }
        // 60 times 0.1 per second stays below the controller, so the two rates of a region never meet.
        if !(1.0..=60.0).contains(&at_rest) {
            return Err(MuscleRefusal::AtRest(at_rest));
        }
        Ok(Self { fatigue, recovery, at_rest, drive: CONTROLLER, release: CONTROLLER })
    }

    /// The same muscle with another factor on recovery at rest; 1 is the model of 2008.
    pub fn with_rest_factor(self, at_rest: f64) -> Result<Self, MuscleRefusal> {
        Self::new(self.fatigue, self.recovery, at_rest)
    }

    /// The load that could be held without end: 1 / (1 + F LD / (R (LD + F))), about R / (F + R).
    pub fn endless_share(&self) -> Share {
        let Self { fatigue: f, recovery: r, drive: d, .. } = *self;
        Share::from_fraction(1.0 / (1.0 + f * d / (r * (d + f))))
    }

    /// The rough form of [`Muscle::endless_share`]: R / (F + R).
    pub fn endless_share_roughly(&self) -> Share {
        Share::from_fraction(self.recovery / (self.fatigue + self.recovery))
    }

    /// Where fatigue levels off when work and rest alternate quickly: F D TL / (R (D + r (1 - D))), for a part of the
    /// time worked D. Good to about 2 %; a plan whose plateau lies above one less its load fails.
    /// Nothing when load or duty is no share of a whole.
    pub fn plateau(&self, load: Share, worked: Share) -> Option<Share> {
        let d = worked.fraction();
        let whole = |share: Share| (0.0..=1.0).contains(&share.fraction());
        let level = self.fatigue * d * load.fraction() / (self.recovery * (d + self.at_rest * (1.0 - d)));
        (whole(load) && whole(worked)).then(|| Share::from_fraction(level))
    }

    /// The state that a load beyond reach tends to: active and fatigued part.
    pub fn exhausted(&self) -> (Share, Share) {
        let (active, fatigued) = TwoRates::exhausted(self);
        (Share::from_fraction(active), Share::from_fraction(fatigued))
    }

    /// How fast the exhausted state is approached: the two time constants, the short one first.
    pub fn exhaustion_times(&self) -> (Time, Time) {
        let (fast, slow) = TwoRates::exhaustion_rates(self);
        (Time::from_seconds(-1.0 / fast), Time::from_seconds(-1.0 / slow))
    }
}
