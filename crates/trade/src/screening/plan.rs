//! How long a screening day takes, and which station holds it up.
//!
//! Everybody passes every station in the same order. With equal slots on a whistle the day lasts
//! (N + S − 1) · m; where each moves on when done it lasts Σ mᵢ + (N − 1) · max mᵢ, and with several testers at one
//! station it is played through exactly. Both are shown, because a whistle is what a hall can keep.

/// One station of the day.
#[derive(Debug, Clone, PartialEq)]
pub struct Stand {
    /// Name.
    pub name: String,
    /// Minutes for one swimmer.
    pub minutes: f64,
    /// Testers side by side.
    pub testers: u16,
}

/// A planned day.
#[derive(Debug, Clone, PartialEq)]
pub struct Throughput {
    /// Swimmers.
    pub swimmers: u32,
    /// Minutes of one swimmer at all stations together.
    pub per_swimmer: f64,
    /// Minutes until the last one is done, moving on when done.
    pub flowing: f64,
    /// Minutes until the last one is done, everybody moving on a whistle as long as the slowest station.
    pub whistle: f64,
    /// Length of the whistle.
    pub slot: f64,
    /// Place in the list of the station that holds the day up.
    pub bottleneck: usize,
    /// Minutes with one more tester at that station.
    pub with_one_more: f64,
}

/// Why no day can be planned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlanError {
    /// No swimmer or no station.
    Nothing,
    /// Minutes that are not positive, or no tester.
    Stand(usize),
    /// Too many swimmers for one day.
    TooMany,
}

/// Most swimmers of one plan; beyond it somebody has mistyped.
pub const MOST_SWIMMERS: u32 = 500;

/// Equal slots: (N + S − 1) · m.
pub fn equal_slots(swimmers: u32, stations: u32, minutes: f64) -> f64 {
    f64::from((swimmers + stations).saturating_sub(1)) * minutes
}

/// Plans the day.
pub fn throughput(swimmers: u32, stands: &[Stand]) -> Result<Throughput, PlanError> {
    if swimmers == 0 || stands.is_empty() {
        return Err(PlanError::Nothing);
    }
    if MOST_SWIMMERS < swimmers {
        return Err(PlanError::TooMany);
    }
    let is_sound = |stand: &Stand| stand.minutes.is_finite() && 0.0 < stand.minutes && 0 < stand.testers;
    if let Some(at) = stands.iter().position(|stand| !is_sound(stand)) {
        return Err(PlanError::Stand(at));
    }
    let pace = |stand: &Stand| stand.minutes / f64::from(stand.testers);
    // The first of equals, so that the answer does not depend on a rounding.
    let mut bottleneck = 0;
    for (at, stand) in stands.iter().enumerate() {
        if pace(&stands[bottleneck]) < pace(stand) {
            bottleneck = at;
        }
    }
    let mut more = stands.to_vec();
    more[bottleneck].testers = more[bottleneck].testers.saturating_add(1);
    let slot = stands.iter().map(pace).fold(0.0, f64::max);
    let stations = u32::try_from(stands.len()).unwrap_or(u32::MAX);
    Ok(Throughput {
        swimmers,
        per_swimmer: stands.iter().map(|stand| stand.minutes).sum(),
        flowing: played(swimmers, stands),
        whistle: equal_slots(swimmers, stations, slot),
        slot,
        bottleneck,
        with_one_more: played(swimmers, &more),
    })
}

/// Plays the day through: first come, first served, which is as quick as any order since all swimmers are alike.
fn played(swimmers: u32, stands: &[Stand]) -> f64 {
    let mut free: Vec<Vec<f64>> = stands.iter().map(|stand| vec![0.0; usize::from(stand.testers)]).collect();
    let mut last = 0.0_f64;
    for _ in 0..swimmers {
        let mut now = 0.0_f64;
        for (stand, testers) in stands.iter().zip(&mut free) {
            let soonest = testers.iter_mut().min_by(|one, other| one.total_cmp(other));
            let Some(soonest) = soonest else { continue };
            now = now.max(*soonest) + stand.minutes;
            *soonest = now;
        }
        last = last.max(now);
    }
    last
}

/// Stations shared among fewer testers: neighbours are put together so that the longest stretch is shortest.
/// Fewer stretches than wanted where there are fewer stations.
pub fn shared(stands: &[Stand], testers: usize) -> Vec<Stand> {
    let wanted = testers.clamp(1, stands.len().max(1));
    let best = best_cuts(stands, wanted);
    let mut from = 0;
    best.into_iter()
        .map(|to| {
            let part = &stands[from..to];
            from = to;
            Stand {
                name: part.iter().map(|stand| stand.name.as_str()).collect::<Vec<_>>().join(" + "),
                minutes: part.iter().map(|stand| stand.minutes).sum(),
                testers: 1,
            }
        })
        .collect()
}

/// Ends of the stretches: the textbook linear partition, by trying every first cut over a table of shorter answers.
fn best_cuts(stands: &[Stand], parts: usize) -> Vec<usize> {
    let n = stands.len();
    let sum = |from: usize, to: usize| stands[from..to].iter().map(|stand| stand.minutes).sum::<f64>();
    // worst[p][i]: the shortest longest stretch when the first i stations fall into p parts; cut[p][i] its last cut.
    let mut worst = vec![vec![f64::INFINITY; n + 1]; parts + 1];
    let mut cut = vec![vec![0; n + 1]; parts + 1];
    worst[0][0] = 0.0;
    for part in 1..=parts {
        for end in part..=n {
            for begin in (part - 1)..end {
                let longest = worst[part - 1][begin].max(sum(begin, end));
                if longest < worst[part][end] {
                    worst[part][end] = longest;
                    cut[part][end] = begin;
                }
            }
        }
    }
    let mut ends = vec![n];
    for part in (2..=parts).rev() {
        let end = ends[ends.len() - 1];
        ends.push(cut[part][end]);
    }
    ends.reverse();
    ends
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::screening::measure::Station;

    fn stands(minutes: &[f64]) -> Vec<Stand> {
        minutes
            .iter()
            .map(|minutes| Stand { name: format!("{minutes}"), minutes: *minutes, testers: 1 })
            .collect()
    }

    // Source: trade handbook A4, throughput: 30 swimmers at 6 x 6, 5 x 7 and 4 x 8 minutes; two people doing all
    // 38 minutes need 570.
    #[test]
    fn the_days_of_the_handbook() {
        for (stations, minutes, wanted) in [(6, 6.0, 210.0), (5, 7.0, 238.0), (4, 8.0, 264.0)] {
            assert_eq!(equal_slots(30, stations, minutes), wanted);
            let plan = throughput(30, &stands(&vec![minutes; stations as usize])).expect("a sound day");
            assert_eq!((plan.whistle, plan.flowing), (wanted, wanted), "equal stations need no whistle");
        }
        let alone = [Stand { name: "all".to_owned(), minutes: 38.0, testers: 2 }];
        assert_eq!(throughput(30, &alone).expect("a sound day").flowing, 570.0);
    }

    #[test]
    fn the_slowest_station_is_named_and_one_more_tester_there_helps() {
        let day: Vec<Stand> = Station::ALL
            .iter()
            .map(|station| Stand { name: station.word().to_owned(), minutes: station.minutes(), testers: 1 })
            .collect();
        let plan = throughput(30, &day).expect("a sound day");
        assert_eq!(day[plan.bottleneck].name, "strength");
        // Flow shop of equal jobs: sum of stations plus (N - 1) times the slowest.
        assert_eq!(plan.flowing, 38.0 + 29.0 * 7.0);
        assert_eq!(plan.whistle, 36.0 * 7.0);
        assert!(plan.with_one_more < plan.flowing && plan.flowing <= plan.whistle);
    }

    #[test]
    fn what_is_no_day_is_refused() {
        assert_eq!(throughput(0, &stands(&[6.0])), Err(PlanError::Nothing));
        assert_eq!(throughput(30, &[]), Err(PlanError::Nothing));
        assert_eq!(throughput(30, &stands(&[6.0, 0.0])), Err(PlanError::Stand(1)));
        assert_eq!(throughput(30, &stands(&[f64::NAN])), Err(PlanError::Stand(0)));
        assert_eq!(throughput(501, &stands(&[6.0])), Err(PlanError::TooMany));
    }

    proptest::proptest! {
        /// Against every way of cutting the row of stations.
        #[test]
        fn sharing_is_as_even_as_any_cut(
            minutes in proptest::collection::vec(1_u32..15, 1..7), testers in 1_usize..5,
        ) {
            let day = stands(&minutes.iter().map(|m| f64::from(*m)).collect::<Vec<_>>());
            let given = shared(&day, testers);
            let longest = |parts: &[f64]| parts.iter().copied().fold(0.0, f64::max);
            let got = longest(&given.iter().map(|stand| stand.minutes).collect::<Vec<_>>());
            proptest::prop_assert_eq!(given.len(), testers.min(day.len()));
            proptest::prop_assert_eq!(
                given.iter().map(|stand| stand.minutes).sum::<f64>(),
                day.iter().map(|stand| stand.minutes).sum::<f64>()
            );
            let mut best = f64::INFINITY;
            for cuts in 0_u32..(1 << (day.len() - 1)) {
                if cuts.count_ones() as usize + 1 != given.len() {
                    continue;
                }
                let mut parts = vec![day[0].minutes];
                for (at, stand) in day.iter().enumerate().skip(1) {
                    if cuts & (1 << (at - 1)) == 0 {
                        *parts.last_mut().expect("there is a part") += stand.minutes;
                    } else {
                        parts.push(stand.minutes);
                    }
                }
                best = best.min(longest(&parts));
            }
            proptest::prop_assert_eq!(got, best);
        }
    }
}
