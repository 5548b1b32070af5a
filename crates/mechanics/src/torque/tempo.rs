//! Tempo of a repetition, and the smooth movement that it is taken to be.

use quantity::{Angle, AngularAcceleration, Time};

/// Seconds out, held and back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tempo {
    /// From start to end of the movement.
    pub out: Time,
    /// Held at the end.
    pub hold: Time,
    /// Back to the start.
    pub back: Time,
}

/// A part of a tempo that is negative, or longer than a minute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TempoRefusal(pub Time);

impl Tempo {
    /// A tempo as people write it: seconds out, hold, back.
    pub fn new(out: Time, hold: Time, back: Time) -> Result<Self, TempoRefusal> {
        for part in [out, hold, back] {
            if !(0.0..=60.0).contains(&part.seconds()) {
                return Err(TempoRefusal(part));
            }
        }
        Ok(Self { out, hold, back })
    }
}

/// How much of a smooth movement is done after a part of its time: the minimum-jerk polynomial (Flash & Hogan 1985).
pub fn progress(part: f64) -> f64 {
    let u = part.clamp(0.0, 1.0);
    u * u * u * (10.0 - 15.0 * u + 6.0 * u * u)
}

/// Second derivative of [`progress`].
pub(crate) fn progress_acceleration(part: f64) -> f64 {
    60.0 * part - 180.0 * part * part + 120.0 * part.powi(3)
}

/// Largest acceleration of a smooth movement: (10 / sqrt 3) times the angle over the square of the time.
///
/// Nothing when it takes no time.
pub fn peak_acceleration(through: Angle, lasting: Time) -> Option<AngularAcceleration> {
    let seconds = lasting.seconds();
    let peak = 10.0 / 3_f64.sqrt() * through.radians() / (seconds * seconds);
    AngularAcceleration::try_from_radians_per_second_squared(peak).ok()
}
