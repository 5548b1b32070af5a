//! Round numbers along an axis: steps of 1, 2 or 5 times a power of ten.

use crate::number::trimmed;

/// One tick.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Where.
    pub at: f64,
    /// What stands there.
    pub words: String,
}

/// Round ticks between two values, about so many; none when there is no span.
pub fn ticks(from: f64, to: f64, about: usize) -> Vec<Tick> {
    let Some(step) = step(from, to, about) else { return Vec::new() };
    let (first, last) = ((from / step - 1e-9).ceil(), (to / step + 1e-9).floor());
    let decimals = decimals(step);
    (0..=(last - first).max(-1.0) as i64)
        .map(|index| (first + index as f64) * step)
        .map(|at| Tick { at, words: fixed(at, decimals) })
        .collect()
}

/// Ends widened to the next round number, unless the caller set them, and the ticks between.
pub(super) fn ends_and_ticks(
    low: f64,
    high: f64,
    about: usize,
    low_is_set: bool,
    high_is_set: bool,
) -> (f64, f64, Vec<Tick>) {
    let Some(step) = step(low, high, about) else { return (low, high, Vec::new()) };
    let from = if low_is_set { low } else { (low / step + 1e-9).floor() * step };
    let to = if high_is_set { high } else { (high / step - 1e-9).ceil() * step };
    (from, to, ticks(from, to, about))
}

fn step(from: f64, to: f64, about: usize) -> Option<f64> {
    let span = to - from;
    if !(0.0 < span && span.is_finite()) || about == 0 {
        return None;
    }
    let rough = span / about as f64;
    let power = 10_f64.powf(rough.log10().floor());
    let times = rough / power;
    let round = [1.0, 2.0, 5.0, 10.0].into_iter().find(|round| times <= round * 1.000_001).unwrap_or(10.0);
    Some(round * power)
}

fn decimals(step: f64) -> usize {
    if step < 1.0 { (-step.log10()).ceil().clamp(0.0, 9.0) as usize } else { 0 }
}

fn fixed(at: f64, decimals: usize) -> String {
    let text = format!("{at:.decimals$}");
    if text.trim_start_matches('-').chars().all(|digit| matches!(digit, '0' | '.')) {
        trimmed(0.0, 0)
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(from: f64, to: f64, about: usize) -> Vec<String> {
        ticks(from, to, about).into_iter().map(|tick| tick.words).collect()
    }

    #[test]
    fn ticks_are_round_and_lie_inside() {
        assert_eq!(words(0.0, 10.0, 5), ["0", "2", "4", "6", "8", "10"]);
        assert_eq!(
            words(-0.3, 0.9, 6),
            ["-0.2", "0.0", "0.2", "0.4", "0.6", "0.8"].map(|w| if w == "0.0" { "0" } else { w })
        );
        assert_eq!(words(1.0, 1.0, 5), [""; 0]);
        assert_eq!(words(f64::NAN, 1.0, 5), [""; 0]);
        assert_eq!(words(-45.0, 45.0, 7), ["-40", "-20", "0", "20", "40"]);
    }

    #[test]
    fn ends_are_widened_only_where_nobody_set_them() {
        assert_eq!((0.0, 8.0), {
            let (a, b, _) = ends_and_ticks(0.3, 7.1, 4, false, false);
            (a, b)
        });
        assert_eq!((0.3, 7.1), {
            let (a, b, _) = ends_and_ticks(0.3, 7.1, 4, true, true);
            (a, b)
        });
    }
}
