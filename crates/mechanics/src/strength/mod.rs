//! What a strength test says about the muscle, what may be assumed without one, and how noisy it is.

mod noise;
mod prior;

pub use noise::{exceeds_detectable, implied_mean, trials_to_detect};
pub use prior::{PriorRefusal, Rotation, prior};

use quantity::{Force, Length, Share, Torque};

use crate::spread::{WithError, root_sum_square};

/// A strength about the shoulder, and whether anybody measured it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Strength {
    /// Largest torque, with its error.
    pub torque: WithError<Torque>,
    /// How it was obtained.
    pub from: Obtained,
}

/// How a strength was obtained.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Obtained {
    /// With a dynamometer on this person.
    Measured,
    /// From a mean per body mass; adults only.
    Estimated,
}

/// Why a test gives no strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TestRefusal {
    /// A dynamometer cannot read nothing or less, and no person pushes ten kilonewtons.
    Force(Force),
    /// The lever is not positive, or longer than an arm.
    Lever(Length),
    /// Re-test error outside nothing to all of the reading.
    Noise(Share),
}

/// One test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Test {
    /// What the dynamometer read.
    pub force: Force,
    /// Joint axis to the pad.
    pub lever: Length,
    /// Torque that the limb's own weight took at the test angle; none for rotation with the forearm level or upright.
    pub limb: WithError<Torque>,
    /// Standard error of a re-test as a part of the reading: about 5 % for rotation in young swimmers (Yoma 2021).
    pub noise: Share,
}

impl Test {
    /// The muscle's whole torque: reading times lever plus what held the limb up.
    ///
    /// A dynamometer sees only what is left over; forgetting the limb overstates every share of strength by a quarter.
    pub fn strength(&self) -> Result<Strength, TestRefusal> {
        if !(0.0 < self.force.newtons() && self.force.newtons() <= 1e4) {
            return Err(TestRefusal::Force(self.force));
        }
        if !(0.0 < self.lever.metres() && self.lever.metres() <= 1.5) {
            return Err(TestRefusal::Lever(self.lever));
        }
        if !(0.0..=1.0).contains(&self.noise.fraction()) {
            return Err(TestRefusal::Noise(self.noise));
        }
        let read = self.force * self.lever;
        let sd =
            root_sum_square([read.newton_metres() * self.noise.fraction(), self.limb.sd.newton_metres()]);
        Ok(Strength {
            torque: WithError { value: read + self.limb.value, sd: Torque::from_newton_metres(sd) },
            from: Obtained::Measured,
        })
    }
}

impl Strength {
    /// The share of this strength that a torque asks for, with both errors in it; nothing when there is no strength.
    pub fn share(&self, torque: WithError<Torque>) -> Option<WithError<Share>> {
        let whole = self.torque.value.newton_metres();
        let share = torque.value.newton_metres().abs() / whole;
        let parts = [torque.sd.newton_metres() / whole, share * self.torque.sd.newton_metres() / whole];
        let sd = root_sum_square(parts);
        (0.0 < whole && share.is_finite() && sd.is_finite())
            .then(|| WithError { value: Share::from_fraction(share), sd: Share::from_fraction(sd) })
    }
}
