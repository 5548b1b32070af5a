//! The most even way from the lightest to the heaviest load, as a shortest path.

/// Indices of the loads to keep, in order. Loads must be positive and ascending, and every load must differ from the
/// next; a step between two that do not differ is never taken.
///
/// A step costs the squared distance of its logarithm from the one aimed at, so one step of the right size is cheaper
/// than two of half of it, and two of the right size are cheaper than one of double.
pub(super) fn most_even(loads: &[f64], differ: impl Fn(usize, usize) -> bool, aim: f64) -> Vec<usize> {
    let Some(last) = loads.len().checked_sub(1) else { return Vec::new() };
    let cost = |from: usize, to: usize| ((loads[to] / loads[from]).ln() - aim).powi(2);
    // Cheapest way to each load, and the load before it on that way.
    let mut ways: Vec<(f64, usize)> = vec![(0.0, 0)];
    for to in 1..loads.len() {
        let way = (0..to)
            .filter(|from| differ(*from, to))
            .map(|from| (ways[from].0 + cost(from, to), from))
            .reduce(|best, other| if other.0 < best.0 { other } else { best });
        ways.push(way.unwrap_or((0.0, 0)));
    }
    let mut chosen = vec![last];
    let mut at = last;
    while 0 < at {
        at = ways[at].1;
        chosen.push(at);
    }
    chosen.reverse();
    chosen
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// Every subset that keeps both ends.
    fn cheapest_of_all(loads: &[f64], aim: f64) -> f64 {
        let inner = loads.len() - 2;
        (0..1_u32 << inner)
            .map(|mask| {
                let mut kept = vec![loads[0]];
                kept.extend((0..inner).filter(|i| mask & (1 << i) != 0).map(|i| loads[i + 1]));
                kept.push(loads[loads.len() - 1]);
                kept.windows(2).map(|pair| ((pair[1] / pair[0]).ln() - aim).powi(2)).sum::<f64>()
            })
            .fold(f64::INFINITY, f64::min)
    }

    proptest! {
        #[test]
        fn no_other_choice_is_more_even(growth in prop::collection::vec(0.02_f64..0.6, 2..9), aim in 0.1_f64..0.4) {
            let loads: Vec<f64> = growth
                .iter()
                .scan(10.0, |load, by| { let now = *load; *load *= 1.0 + by; Some(now) })
                .collect();
            let chosen = most_even(&loads, |_, _| true, aim);
            let cost: f64 =
                chosen.windows(2).map(|p| ((loads[p[1]] / loads[p[0]]).ln() - aim).powi(2)).sum();
            prop_assert!((cost - cheapest_of_all(&loads, aim)).abs() < 1e-12);
            prop_assert_eq!((chosen[0], chosen[chosen.len() - 1]), (0, loads.len() - 1));
        }
    }

    #[test]
    fn one_load_is_a_ladder_of_one() {
        assert_eq!(most_even(&[5.0], |_, _| true, 0.2), [0]);
        assert!(most_even(&[], |_, _| true, 0.2).is_empty());
    }
}
