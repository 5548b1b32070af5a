//! Corrections, forks and loops, case by case.

use super::*;
use crate::testing::{id, subject};
use proptest::prelude::*;

/// `(correction, what it replaces, has a value)`; every named fact has arrived unless it is above 90.
fn links(of: &[(u64, u64, bool)]) -> Vec<Link> {
    of.iter()
        .map(|(own, target, has_value)| Link {
            id: id(*own),
            of: id(*target),
            subject: subject(1),
            kind: "set".into(),
            has_value: *has_value,
            fits: (*target <= 90).then_some(true),
        })
        .collect()
}

fn ids(numbers: &[u64]) -> Vec<FactId> {
    numbers.iter().map(|number| id(*number)).collect()
}

#[track_caller]
fn check(given: &[(u64, u64, bool)], superseded: &[u64], contested: &[u64], forks: &[(u64, &[u64])]) {
    let found = resolve(links(given));
    assert_eq!(found.superseded, ids(superseded).into_iter().collect(), "superseded");
    assert_eq!(found.contested, ids(contested).into_iter().collect(), "contested");
    let expected: Vec<_> = forks
        .iter()
        .map(|(of, heads)| Conflict::Fork { subject: subject(1), of: id(*of), heads: ids(heads) })
        .collect();
    assert_eq!(found.conflicts, expected);
}

#[test]
fn a_chain_of_corrections_ends_in_its_last() {
    check(&[(2, 1, true), (3, 2, true), (4, 3, true)], &[1, 2, 3], &[], &[]);
}

#[test]
fn a_retraction_ends_a_chain() {
    check(&[(2, 1, true), (3, 2, false)], &[1, 2], &[], &[]);
}

#[test]
fn two_corrections_of_one_fact_are_a_fork_even_if_one_retracts() {
    check(&[(2, 1, true), (3, 1, true)], &[1], &[2, 3], &[(1, &[2, 3])]);
    check(&[(2, 1, true), (3, 1, false)], &[1], &[2, 3], &[(1, &[2, 3])]);
    check(&[(2, 1, true), (3, 1, true), (4, 3, true)], &[1, 3], &[2, 4], &[(1, &[2, 4])]);
}

#[test]
fn two_retractions_agree() {
    check(&[(2, 1, false), (3, 1, false)], &[1], &[], &[]);
}

#[test]
fn retracting_the_wrong_correction_settles_a_fork() {
    check(&[(2, 1, true), (3, 1, true), (4, 3, false)], &[1, 3], &[], &[]);
    // The wrong one was a retraction itself.
    check(&[(2, 1, true), (3, 1, false), (4, 3, false)], &[1, 3], &[], &[]);
}

#[test]
fn a_fork_inside_a_branch_is_its_own() {
    let given = [(2, 1, true), (3, 2, true), (4, 2, true)];
    check(&given, &[1, 2], &[3, 4], &[(2, &[3, 4])]);
}

#[test]
fn corrections_of_a_missing_fact_wait_and_can_already_disagree() {
    check(&[(2, 95, true), (3, 95, true)], &[95], &[2, 3], &[(95, &[2, 3])]);
    assert_eq!(resolve(links(&[(2, 95, true)])).waiting, ids(&[2]));
}

#[test]
fn a_loop_loses_nothing() {
    let found = resolve(links(&[(1, 3, true), (2, 1, true), (3, 2, true), (4, 3, true)]));
    assert_eq!(found.superseded, ids(&[3]).into_iter().collect());
    assert_eq!(found.contested, ids(&[1, 2, 3]).into_iter().collect());
    assert_eq!(found.conflicts, [Conflict::Loop { subject: subject(1), members: ids(&[1, 2, 3]) }]);
}

#[test]
fn a_stray_replaces_nothing() {
    let mut given = links(&[(2, 1, true)]);
    given[0].fits = Some(false);
    let found = resolve(given);
    assert!(found.superseded.is_empty());
    assert_eq!(found.contested, ids(&[2]).into_iter().collect());
    let stray = Conflict::Stray { subject: subject(1), correction: id(2), of: id(1) };
    assert_eq!(found.conflicts, [stray]);
}

/// The same answer by the definition, without any of the orderings above.
fn by_definition(links: &[Link]) -> (BTreeSet<FactId>, BTreeSet<FactId>) {
    let leads_to = |from: FactId, to: FactId| {
        let mut here = from;
        for _ in 0..=links.len() {
            match links.iter().find(|link| link.id == here) {
                Some(link) if link.of == to => return true,
                Some(link) => here = link.of,
                None => return false,
            }
        }
        false
    };
    let looped: BTreeSet<_> = links.iter().map(|link| link.id).filter(|id| leads_to(*id, *id)).collect();
    let edges: Vec<_> = links.iter().filter(|link| !looped.contains(&link.id)).collect();
    let superseded: BTreeSet<_> = edges.iter().map(|link| link.of).collect();
    let mut contested = looped;
    for of in &superseded {
        // All facts at or under a branch that nothing replaces.
        let heads = |branch: FactId| -> Vec<&Link> {
            edges
                .iter()
                .copied()
                .filter(|link| link.id == branch || leads_to(link.id, branch))
                .filter(|link| !superseded.contains(&link.id))
                .collect()
        };
        let standing: Vec<_> = edges
            .iter()
            .filter(|link| link.of == *of)
            .map(|link| (link.id, heads(link.id)))
            .filter(|(branch, heads)| {
                heads.iter().any(|head| head.has_value) || heads.iter().all(|head| head.id == *branch)
            })
            .collect();
        let a_value = standing.iter().any(|(_, heads)| heads.iter().any(|head| head.has_value));
        if standing.len() > 1 && a_value {
            contested.extend(standing.iter().flat_map(|(_, heads)| heads.iter().map(|head| head.id)));
        }
    }
    (superseded, contested)
}

proptest! {
    #[test]
    fn the_fast_way_agrees_with_the_definition(
        targets in prop::collection::vec((0_u64..14, any::<bool>()), 0..12),
    ) {
        let given: Vec<_> = (0..).zip(targets)
            .filter(|(own, (target, _))| own != target)
            .map(|(own, (target, has_value))| (own, target, has_value))
            .collect();
        let given = links(&given);
        let (superseded, contested) = by_definition(&given);
        let mut backwards = given.clone();
        backwards.reverse();
        let found = resolve(given);
        prop_assert_eq!(&found.superseded, &superseded);
        prop_assert_eq!(&found.contested, &contested);
        prop_assert_eq!(found, resolve(backwards));
    }
}
