//! Equal stays by formula: in each round every group stands one station further on.
//!
//! With `n` the larger of groups and stations, group `g` visits station `s` in round `(g + s) mod n`. Every group meets
//! every station once, no two groups meet, and the length is that of the busiest side, so it is the shortest there is.

use super::{Method, Rota, Timetable, Visit, need};

/// The rota when every group visits every station for equally long and the kit allows all stations at once.
pub(super) fn equal_stays(rota: &Rota) -> Option<Timetable> {
    let stations = rota.n_stations();
    let stay = *rota.stays.first()?.first()?;
    if stay == 0 || rota.stays.iter().flatten().any(|other| *other != stay) {
        return None;
    }
    let rounds = rota.stays.len().max(stations);
    let mut visits = Vec::new();
    for round in 0..rounds {
        let start = u32::try_from(round).ok()? * (stay + rota.change);
        for (group, _) in rota.stays.iter().enumerate() {
            let station = (round + rounds - group % rounds) % rounds;
            if station < stations {
                visits.push(Visit { group, station, start, end: start + stay });
            }
        }
        let here = |visit: &&Visit| visit.start == start;
        let enough = rota.kit.iter().all(|shared| {
            visits.iter().filter(here).map(|visit| need(shared, visit.station)).sum::<u32>() <= shared.pieces
        });
        if !enough {
            return None;
        }
    }
    let length = visits.iter().map(|visit| visit.end).max()?;
    Some(Timetable { visits, length, at_least: length, method: Method::Formula })
}
