//! What the warmth of a swimming hall does to a band.

use quantity::Temperature;

/// Factor on the force when a band calibrated at one temperature is used at another.
///
/// Classical rubber elasticity: the modulus grows with absolute temperature, 3.4 % from 20 to 30 C. Small beside the
/// other errors, so it is shown and not applied. Nothing outside 0-60 C, where the theory is not meant.
pub fn stiffening(calibrated_at: Temperature, used_at: Temperature) -> Option<f64> {
    let plausible = |t: Temperature| (0.0..=60.0).contains(&t.celsius());
    (plausible(calibrated_at) && plausible(used_at)).then(|| used_at.kelvin() / calibrated_at.kelvin())
}
