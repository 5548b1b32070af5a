//! A good rota quickly: whenever somebody is free, the visit with the most still to do goes first.
//!
//! Several orders are tried, each a fixed sequence, and the shortest is kept. Often it already meets the lower bound.

use super::{Method, Rota, Timetable, Visit, need};

/// Orders tried. Each is cheap, and a few hundred find the optimum of most rotas of a deck.
const ORDERS: u32 = 400;

/// The shortest of many list rotas.
pub(super) fn best(rota: &Rota, at_least: u32) -> Timetable {
    let visits: Vec<(usize, usize, u32)> = rota.visits().collect();
    let mut best: Option<Timetable> = None;
    let orders = if visits.len() <= 200 { ORDERS } else { 20 };
    for order in 0..orders {
        let table = list(rota, &visits, order, at_least);
        let is_shorter = best.as_ref().is_none_or(|best| table.length < best.length);
        if is_shorter {
            best = Some(table);
        }
        if best.as_ref().is_some_and(Timetable::is_proven) {
            break;
        }
    }
    best.unwrap_or(Timetable { visits: Vec::new(), length: 0, at_least: 0, method: Method::List })
}

/// One list rota. The first order weighs by what is left to do; the others disturb it by a fixed sequence.
fn list(rota: &Rota, visits: &[(usize, usize, u32)], order: u32, at_least: u32) -> Timetable {
    let mut group_left: Vec<u32> = rota.stays.iter().map(|row| row.iter().sum()).collect();
    let mut station_left: Vec<u32> =
        (0..rota.n_stations()).map(|station| rota.stays.iter().map(|row| row[station]).sum()).collect();
    let mut group_free = vec![0u32; rota.stays.len()];
    let mut station_free = vec![0u32; rota.n_stations()];
    let mut left: Vec<(usize, usize, u32)> = visits.to_vec();
    let mut placed: Vec<Visit> = Vec::new();
    let mut shuffle = Sequence(order);
    while !left.is_empty() {
        let mut chosen: Option<(u32, i64, usize)> = None;
        for (at, (group, station, stay)) in left.iter().enumerate() {
            let free = group_free[*group].max(station_free[*station]);
            let start = kit_allows_from(rota, &placed, *station, *stay, free);
            let weight = i64::from(group_left[*group].max(station_left[*station])) * 100
                + i64::from(*stay)
                + if order == 0 { 0 } else { i64::from(shuffle.next() % 7_000) };
            if chosen.is_none_or(|(from, heavy, _)| (start, -weight) < (from, -heavy)) {
                chosen = Some((start, weight, at));
            }
        }
        let Some((start, _, at)) = chosen else { break };
        let (group, station, stay) = left.swap_remove(at);
        placed.push(Visit { group, station, start, end: start + stay });
        group_free[group] = start + stay + rota.change;
        station_free[station] = start + stay + rota.change;
        group_left[group] -= stay;
        station_left[station] -= stay;
    }
    let length = placed.iter().map(|visit| visit.end).max().unwrap_or(0);
    Timetable { visits: placed, length, at_least, method: Method::List }
}

/// The first start from `free` on at which every shared kit suffices.
fn kit_allows_from(rota: &Rota, placed: &[Visit], station: usize, stay: u32, free: u32) -> u32 {
    let fits = |start: u32| {
        rota.kit.iter().all(|shared| {
            let wanted = need(shared, station);
            let during = |moment: u32| {
                placed
                    .iter()
                    .filter(|visit| visit.start <= moment && moment < visit.end)
                    .map(|visit| need(shared, visit.station))
                    .sum::<u32>()
            };
            let moments =
                placed.iter().map(|visit| visit.start).filter(|at| start < *at && *at < start + stay);
            wanted == 0
                || std::iter::once(start).chain(moments).all(|at| during(at) + wanted <= shared.pieces)
        })
    };
    if rota.kit.is_empty() || fits(free) {
        return free;
    }
    let mut later: Vec<u32> = placed.iter().map(|visit| visit.end).filter(|end| free < *end).collect();
    later.sort_unstable();
    later.into_iter().find(|start| fits(*start)).unwrap_or(free)
}

/// A fixed sequence of numbers, for trying orders: the same on every machine and every run.
struct Sequence(u32);

impl Sequence {
    fn next(&mut self) -> u32 {
        // Marsaglia's xorshift of 32 bits; zero would stay zero, so the order is moved off it.
        let mut value = self.0.wrapping_mul(2_654_435_761) | 1;
        value ^= value << 13;
        value ^= value >> 17;
        value ^= value << 5;
        self.0 = value;
        value
    }
}
