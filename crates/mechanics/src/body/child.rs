//! What is known of how a child's body differs from the adult tables, and the allowance made for it.

use quantity::Share;

use super::Years;

/// Share of body mass in the head of a boy, linear in age.
///
/// Jensen 1986, J Biomech 19(5):359-368: twelve boys of 4 to 15 years, so nothing is given outside those ages. The
/// slope is -0.0114 a year; a database page prints ten times that, which would give a boy of twelve a head of
/// negative mass. It shows how far an adult table (0.067-0.069) is off for a child; no arm coefficients were found.
pub fn boy_head_share(age: Years) -> Option<Share> {
    (4..=15).contains(&age.0).then(|| Share::from_fraction(0.2376 - 0.0114 * f64::from(age.0)))
}

/// Relative standard deviation allowed for on segment masses: an engineering allowance, not a published interval.
pub(crate) fn mass_allowance(age: Years) -> f64 {
    if age < Years(16) { 0.15 } else { 0.10 }
}
