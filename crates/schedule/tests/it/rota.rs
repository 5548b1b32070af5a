//! Rotas: by formula, by solver, with scarce kit, against brute force.

use proptest::prelude::*;
use schedule::rota::{Method, Rota, RotaFault, SharedKit, faults, shortest};

fn solved(rota: &Rota) -> schedule::rota::Timetable {
    let table = shortest(rota, &mut || false).expect("a rota of the tests");
    assert_eq!(faults(rota, &table), Vec::<String>::new());
    table
}

#[test]
fn equal_stays_follow_the_formula() {
    // The trade's example: five stations of 4:00, five groups, 45 s between: 23 minutes.
    let rota = Rota { stays: vec![vec![240; 5]; 5], change: 45, kit: vec![] };
    let table = solved(&rota);
    assert_eq!((table.length, table.method), (23 * 60, Method::Formula));
    assert!(table.is_proven());
    for (groups, stations, rounds) in [(3, 5, 5), (6, 4, 6), (1, 1, 1), (1, 4, 4)] {
        let rota = Rota { stays: vec![vec![7; stations]; groups], change: 0, kit: vec![] };
        assert_eq!(solved(&rota).length, rounds * 7, "{groups} groups at {stations} stations");
    }
}

#[test]
fn scarce_kit_is_kept_to() {
    let kit = SharedKit { name: "anchors".into(), pieces: 6, needs: vec![6, 6, 0] };
    let rota = Rota { stays: vec![vec![5; 3]; 3], change: 0, kit: vec![kit] };
    let table = solved(&rota);
    assert_eq!(table.length, 30, "two stations share the anchors, so six stays follow one another");
    assert!(table.is_proven());
    let short = SharedKit { name: "anchors".into(), pieces: 5, needs: vec![6, 0, 0] };
    let rota = Rota { stays: vec![vec![5; 3]; 3], change: 0, kit: vec![short] };
    assert_eq!(shortest(&rota, &mut || false), Err(RotaFault::KitShort { kit: 0, station: 0 }));
}

#[test]
fn what_is_not_visited_is_not_planned() {
    let rota = Rota { stays: vec![vec![5, 0], vec![0, 0]], change: 0, kit: vec![] };
    let table = solved(&rota);
    assert_eq!((table.length, table.visits.len()), (5, 1));
    let nobody = Rota { stays: vec![vec![0, 0]], change: 0, kit: vec![] };
    assert!(solved(&nobody).is_proven());
    let ragged = Rota { stays: vec![vec![1, 2], vec![1]], change: 0, kit: vec![] };
    assert_eq!(shortest(&ragged, &mut || false), Err(RotaFault::Ragged { group: 1 }));
}

#[test]
fn a_rota_cut_short_says_what_is_left() {
    // Taillard's first 4x4 instance, stopped before the solver may begin.
    let rota =
        Rota { stays: crate::taillard::instance(4, 1_166_510_396, 164_000_672), change: 0, kit: vec![] };
    let table = shortest(&rota, &mut || true).expect("a rota");
    assert!(!table.is_proven() && 0.0 < table.gap() && 193 <= table.length && table.at_least <= 193);
    assert_eq!(faults(&rota, &table), Vec::<String>::new());
}

/// Shortest length over every order of visits, each put as early as it goes: an optimal rota is among those.
fn brute_force(rota: &Rota) -> u32 {
    fn place(
        rota: &Rota,
        left: &mut Vec<(usize, usize, u32)>,
        group: &mut Vec<u32>,
        station: &mut Vec<u32>,
    ) -> u32 {
        if left.is_empty() {
            return group.iter().copied().max().unwrap_or(0).saturating_sub(rota.change);
        }
        let mut best = u32::MAX;
        for at in 0..left.len() {
            let (who, stop, stay) = left.remove(at);
            let (was_group, was_station) = (group[who], station[stop]);
            let end = was_group.max(was_station) + stay + rota.change;
            (group[who], station[stop]) = (end, end);
            best = best.min(place(rota, left, group, station));
            (group[who], station[stop]) = (was_group, was_station);
            left.insert(at, (who, stop, stay));
        }
        best
    }
    let mut left: Vec<(usize, usize, u32)> = rota
        .stays
        .iter()
        .enumerate()
        .flat_map(|(who, row)| row.iter().enumerate().map(move |(stop, stay)| (who, stop, *stay)))
        .filter(|(_, _, stay)| *stay != 0)
        .collect();
    place(rota, &mut left, &mut vec![0; rota.stays.len()], &mut vec![0; rota.n_stations()])
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(80))]
    #[test]
    fn the_rota_is_as_short_as_brute_force(stays in prop::collection::vec(prop::collection::vec(0..9u32, 2..4), 1..4), change in 0..3u32) {
        let stations = stays[0].len();
        let stays: Vec<Vec<u32>> = stays.into_iter().map(|mut row| { row.resize(stations, 0); row }).collect();
        let visits = stays.iter().flatten().filter(|stay| **stay != 0).count();
        prop_assume!(visits <= 7);
        let rota = Rota { stays, change, kit: vec![] };
        let table = shortest(&rota, &mut || false).expect("a rota");
        prop_assert_eq!(faults(&rota, &table), Vec::<String>::new());
        prop_assert!(table.is_proven());
        prop_assert_eq!(table.length, brute_force(&rota));
    }
}

proptest! {
    // Each case may ask the solver for a proof, which is slow where kit is scarce.
    #![proptest_config(ProptestConfig::with_cases(20))]
    #[test]
    fn a_rota_with_scarce_kit_is_sound(stays in prop::collection::vec(prop::collection::vec(0..6u32, 3), 1..4), pieces in 2..5u32, needs in prop::collection::vec(0..3u32, 3)) {
        let rota = Rota { stays, change: 1, kit: vec![SharedKit { name: "balls".into(), pieces, needs }] };
        let table = shortest(&rota, &mut || false).expect("a rota");
        prop_assert_eq!(faults(&rota, &table), Vec::<String>::new());
        prop_assert!(table.is_proven());
    }
}
