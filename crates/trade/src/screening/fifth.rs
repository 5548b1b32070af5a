//! Posterior endurance in the lowest fifth of one's own age group: the one finding that looks at the squad.

/// Years by which a peer may be older or younger: a choice of this project, so that a squad of thirty has groups.
pub const PEER_YEARS: i16 = 1;
/// Fewest of a group, oneself included, in which a fifth means anything.
pub const FEWEST: usize = 10;

/// What the group says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// In the lowest fifth.
    Lowest,
    /// Not in it.
    Above,
    /// Too few were tested: how many.
    TooFew(usize),
}

/// Where a value lies among the group's values, one's own included. The lowest fifth is as many as fit into a fifth
/// of the group; whoever ties with them belongs to it, so that one more low value never makes another's outcome milder.
pub fn place(own: f64, group: &[f64]) -> Place {
    if group.len() < FEWEST {
        return Place::TooFew(group.len());
    }
    let below = group.iter().filter(|value| **value < own).count();
    if below < group.len() / 5 { Place::Lowest } else { Place::Above }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fifth_is_a_fifth_and_ties_belong_to_it() {
        let group: Vec<f64> = (1..=15).map(f64::from).collect();
        let lowest: Vec<f64> =
            group.iter().copied().filter(|own| place(*own, &group) == Place::Lowest).collect();
        assert_eq!(lowest, [1.0, 2.0, 3.0]);
        let tied = [5.0; 12];
        assert_eq!(place(5.0, &tied), Place::Lowest);
        assert_eq!(place(5.0, &tied[..9]), Place::TooFew(9));
    }

    proptest::proptest! {
        #[test]
        fn a_lower_value_is_never_placed_higher(
            mut group in proptest::collection::vec(1.0_f64..90.0, 10..30), less in 0.0_f64..20.0,
        ) {
            let before = place(group[0], &group);
            group[0] -= less;
            let after = place(group[0], &group);
            proptest::prop_assert!(before != Place::Lowest || after == Place::Lowest);
        }
    }
}
