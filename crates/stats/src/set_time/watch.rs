//! The set that runs: the chance of form loss within the next seconds, given that form has held so far.

use crate::lack::Lack;
use crate::numeric::normal;
use crate::numeric::quadrature::hermite;

/// One swimmer whose set runs, as the model knows him: a log-normal time with a doubt about its middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Running {
    /// Middle of the logarithm of the time, in seconds.
    pub middle: f64,
    /// Standard deviation of what is not known of that middle.
    pub doubt: f64,
    /// Spread of the logarithm from set to set.
    pub scale: f64,
    /// Seconds held so far.
    pub held: f64,
}

/// Eleven nodes: this runs for everybody on deck, many times a minute.
const NODES: usize = 1;

impl Running {
    /// Chance that form is lost within the next `seconds`. What has been held so far counts: it makes a strong swimmer
    /// likelier. Between 0 and 1.
    pub fn loss_within(&self, seconds: f64) -> Result<f64, Lack> {
        let numbers = [self.middle, self.doubt, self.scale, self.held, seconds];
        if numbers.iter().any(|number| !number.is_finite()) {
            return Err(Lack::NotFinite);
        }
        if self.scale <= 0.0 || self.doubt < 0.0 || self.held < 0.0 || seconds <= 0.0 {
            return Err(Lack::Setting { name: "scale, doubt, held, seconds" });
        }
        let until = (self.held + seconds).ln();
        let since = if self.held == 0.0 { f64::NEG_INFINITY } else { self.held.ln() };
        let log_above = |log: f64, own: f64| {
            if log == f64::NEG_INFINITY {
                0.0
            } else {
                normal::log_above_and_hazard((log - self.middle - own) / self.scale).0
            }
        };
        let (mut still, mut held, mut top) = (0.0, 0.0, f64::NEG_INFINITY);
        for &(z, weight) in hermite(NODES) {
            let own = std::f64::consts::SQRT_2 * self.doubt * z;
            let (now, then) = (weight.ln() + log_above(since, own), weight.ln() + log_above(until, own));
            if top < now {
                let factor = (top - now).exp();
                (still, held, top) = (still * factor, held * factor, now);
            }
            held += (now - top).exp();
            still += (then - top).exp();
        }
        Ok((1.0 - still / held).clamp(0.0, 1.0))
    }
}
