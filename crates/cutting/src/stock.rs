//! How many of each loop must hang on the hook: enough for the busiest session, and some to spare.

use std::collections::BTreeMap;

/// People who work at the same time, each with the loops they need at that time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wave {
    /// Loops in use at once, one entry for each in use.
    pub in_use: Vec<usize>,
}

/// Pieces of each loop: the most that any wave uses at once, times a factor for spares, rounded up.
///
/// A factor below one, or that is no number, is taken as one: fewer loops than people would help nobody.
pub fn stock(waves: &[Wave], spare: f64) -> BTreeMap<usize, u32> {
    let spare = if spare.is_finite() { spare.max(1.0) } else { 1.0 };
    let mut most = BTreeMap::<usize, u32>::new();
    for wave in waves {
        let mut here = BTreeMap::<usize, u32>::new();
        for used in &wave.in_use {
            *here.entry(*used).or_default() += 1;
        }
        for (used, count) in here {
            let most = most.entry(used).or_default();
            *most = (*most).max(count);
        }
    }
    most.into_iter().map(|(used, count)| (used, (f64::from(count) * spare - 1e-9).ceil() as u32)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_busiest_wave_counts_and_spares_come_on_top() {
        let waves = [Wave { in_use: vec![1, 1, 2] }, Wave { in_use: vec![1, 2, 2, 2] }];
        assert_eq!(stock(&waves, 1.0), BTreeMap::from([(1, 2), (2, 3)]));
        assert_eq!(stock(&waves, 1.2), BTreeMap::from([(1, 3), (2, 4)]));
        assert_eq!(stock(&waves, f64::NAN), BTreeMap::from([(1, 2), (2, 3)]));
        assert!(stock(&[], 1.2).is_empty());
    }
}
