//! The closed form inside one region: both compartments as a constant and two exponentials.
//!
//! With MR = 1 - MA - MF the model is linear in (MA, MF) inside each region, so its solution is exact:
//! region 1 (driving) and 3 (releasing) are triangular, region 2 (reserve-limited) has two real negative rates.

use super::muscle::Muscle;

/// x(t) = constant + first e^(rate1 t) + second e^(rate2 t).
#[derive(Debug, Clone, Copy)]
pub(super) struct Exponentials {
    constant: f64,
    first: f64,
    second: f64,
    rates: (f64, f64),
}

/// Whether a curve begins on the level that is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum StartsAt {
    AwayFromIt,
    TheLevel,
}

/// Both compartments of one region.
#[derive(Debug, Clone, Copy)]
pub(super) struct TwoRates {
    pub(super) active: Exponentials,
    pub(super) fatigued: Exponentials,
}

impl Exponentials {
    pub(super) fn at(&self, t: f64) -> f64 {
        self.constant + self.first * (self.rates.0 * t).exp() + self.second * (self.rates.1 * t).exp()
    }

    fn slope(&self, t: f64) -> f64 {
        self.first * self.rates.0 * (self.rates.0 * t).exp()
            + self.second * self.rates.1 * (self.rates.1 * t).exp()
    }

    /// First time in (0, until] at which the curve comes to a level.
    ///
    /// Two exponentials turn at most once, so the turning point splits the span into two monotone parts; a curve that
    /// starts at the level can only come back to it after it has turned.
    pub(super) fn first_reach(&self, level: f64, until: f64, starts: StartsAt) -> Option<f64> {
        let turn = self.turning_point().filter(|turn| 0.0 < *turn && *turn < until);
        let (mut from, ends) = match starts {
            StartsAt::AwayFromIt => (0.0, [turn, Some(until)]),
            StartsAt::TheLevel => (turn?, [Some(until), None]),
        };
        for to in ends.into_iter().flatten() {
            let (start, end) = (self.at(from) - level, self.at(to) - level);
            if start != 0.0 && (start < 0.0) != (end < 0.0) {
                return Some(self.root(level, from, to));
            }
            if end == 0.0 && start != 0.0 {
                return Some(to);
            }
            from = to;
        }
        None
    }

    /// Where the slope is zero: first r1 e^(r1 t) + second r2 e^(r2 t) = 0.
    fn turning_point(&self) -> Option<f64> {
        let ratio = -(self.second * self.rates.1) / (self.first * self.rates.0);
        (0.0 < ratio && ratio.is_finite()).then(|| ratio.ln() / (self.rates.0 - self.rates.1))
    }

    /// Newton's method inside a bracket that a halving step keeps safe.
    fn root(&self, level: f64, from: f64, to: f64) -> f64 {
        let rises = self.at(from) < level;
        let (mut low, mut high) = (from, to);
        let mut t = self.guess(level).filter(|t| low < *t && *t < high).unwrap_or(0.5 * (low + high));
        for _ in 0..100 {
            let off = self.at(t) - level;
            if (off < 0.0) == rises {
                low = t
            } else {
                high = t
            }
            let newton = t - off / self.slope(t);
            let next = if low < newton && newton < high { newton } else { 0.5 * (low + high) };
            if (next - t).abs() <= 1e-14 * (1.0 + t.abs()) {
                return next;
            }
            t = next;
        }
        t
    }

    /// The crossing when the fast exponential has died out, which after two seconds it has.
    fn guess(&self, level: f64) -> Option<f64> {
        let t = ((level - self.constant) / self.second).ln() / self.rates.1;
        t.is_finite().then_some(t)
    }
}

impl TwoRates {
    /// Regions 1 and 3: the controller moves the active part towards the target with a speed of its own.
    pub(super) fn controlled(
        muscle: &Muscle,
        speed: f64,
        recovery: f64,
        target: f64,
        start: (f64, f64),
    ) -> Self {
        let f = muscle.fatigue;
        let quick = speed + f;
        let settled = speed * target / quick;
        let level = f * settled / recovery;
        let k = f * (start.0 - settled) / (recovery - quick);
        let rates = (-quick, -recovery);
        Self {
            active: Exponentials { constant: settled, first: start.0 - settled, second: 0.0, rates },
            fatigued: Exponentials { constant: level, first: k, second: start.1 - level - k, rates },
        }
    }

    /// Region 2: all that rests is called in, and it is not enough.
    pub(super) fn limited(muscle: &Muscle, recovery: f64, start: (f64, f64)) -> Self {
        let Muscle { fatigue: f, drive, .. } = *muscle;
        let (one, two) = rates(f, recovery, drive);
        let (active, fatigued) = equilibrium(f, recovery, drive);
        let (x, y) = (start.0 - active, start.1 - fatigued);
        // y(t) = y* + [e^(one t) (A - two I) - e^(two t) (A - one I)] / (one - two) (y0 - y*)
        let moved = |rate: f64| (-(drive + f + rate) * x - drive * y, f * x - (recovery + rate) * y);
        let (by_one, by_two) = (moved(two), moved(one));
        let over = one - two;
        Self {
            active: Exponentials {
                constant: active,
                first: by_one.0 / over,
                second: -by_two.0 / over,
                rates: (one, two),
            },
            fatigued: Exponentials {
                constant: fatigued,
                first: by_one.1 / over,
                second: -by_two.1 / over,
                rates: (one, two),
            },
        }
    }

    pub(super) fn exhausted(muscle: &Muscle) -> (f64, f64) {
        equilibrium(muscle.fatigue, muscle.recovery, muscle.drive)
    }

    pub(super) fn exhaustion_rates(muscle: &Muscle) -> (f64, f64) {
        rates(muscle.fatigue, muscle.recovery, muscle.drive)
    }
}

/// The two rates of region 2, the fast one first; the slow one as determinant over fast, which loses no digits.
fn rates(f: f64, recovery: f64, drive: f64) -> (f64, f64) {
    let trace = -(drive + f + recovery);
    let discriminant = (drive - f - recovery).powi(2) - 4.0 * f * recovery;
    let fast = 0.5 * (trace - discriminant.max(0.0).sqrt());
    (fast, determinant(f, recovery, drive) / fast)
}

fn determinant(f: f64, recovery: f64, drive: f64) -> f64 {
    drive * (f + recovery) + f * recovery
}

fn equilibrium(f: f64, recovery: f64, drive: f64) -> (f64, f64) {
    let determinant = determinant(f, recovery, drive);
    (drive * recovery / determinant, drive * f / determinant)
}
