//! Fit to window: what a session takes, what the slot leaves, and what to do when the one is longer than the other.
//!
//! Plain arithmetic of the trade's time budget (D.4): sets times cap, rests between, change-overs between exercises.

/// How the arms share an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Arms {
    /// Both at once.
    Both,
    /// One after the other, set by set, with a short change.
    Alternating,
    /// All sets of one arm, then all of the other.
    Sequential,
}

/// One exercise of the session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Exercise {
    /// Name.
    pub name: String,
    /// How the arms share it.
    pub arms: Arms,
    /// True for external rotation, which must not stand last.
    pub external_rotation: bool,
    /// True when both arms could work at once with another set-up.
    pub two_arm_set_up: bool,
}

/// What is asked. Times in seconds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Session {
    /// Minutes of the slot.
    pub slot_min: u32,
    /// Minutes of it that are not work.
    pub overhead_min: u32,
    /// The exercises, in order.
    pub exercises: Vec<Exercise>,
    /// Sets of each.
    pub sets: u32,
    /// Longest set: the common clock follows the swimmer who holds longest.
    pub cap: u32,
    /// The full cap, which alone can qualify.
    pub full_cap: u32,
    /// Rest between sets.
    pub rest: u32,
    /// Swimmers.
    pub swimmers: u32,
    /// Adults on deck.
    pub adults: u32,
    /// Swimmers one adult may watch.
    pub ratio: u32,
}

/// Seconds between two exercises.
pub const CHANGE_OVER: u32 = 45;
/// Seconds between the arms when they take turns.
pub const ARM_CHANGE: u32 = 5;
/// The shorter cap of a rotating full dose.
pub const SHORT_CAP: u32 = 60;

/// Seconds that one exercise takes.
pub fn exercise_seconds(arms: Arms, sets: u32, cap: u32, rest: u32) -> u32 {
    let one_round = sets * cap + sets.saturating_sub(1) * rest;
    match arms {
        _ if sets == 0 => 0,
        Arms::Both => one_round,
        Arms::Alternating => 2 * sets * cap + (2 * sets - 1) * ARM_CHANGE,
        Arms::Sequential => 2 * one_round + rest,
    }
}

/// Seconds that a list of exercises takes, change-overs included.
fn total(each: impl Iterator<Item = u32>) -> u32 {
    let (n, sum) = each.fold((0u32, 0u32), |(n, sum), seconds| (n + 1, sum + seconds));
    sum + n.saturating_sub(1) * CHANGE_OVER
}

/// Seconds that a rotation over equal stations takes: as many slots as stations, with a change between.
pub fn station_seconds(stations: u32, slot: u32) -> u32 {
    stations * slot + stations.saturating_sub(1) * CHANGE_OVER
}

/// Another way to do it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// As asked.
    AsAsked,
    /// Two-arm set-ups where they exist.
    TwoArms,
    /// One exercise at the full cap in each session, the others shorter, by turns.
    RotatingFullDose,
    /// A shorter cap for all.
    Cap(u32),
    /// Fewer sets.
    Sets(u32),
    /// The exercises shared out over so many sessions of the week.
    Split(u32),
    /// The first so many exercises only.
    First(usize),
}

/// One way with its time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// Which way.
    pub way: Way,
    /// Seconds it takes; of a split, its longest session.
    pub seconds: u32,
    /// Whether that fits.
    pub fits: bool,
    /// Exercises that get the full cap in no session of this way, and so can never qualify.
    pub never_qualify: Vec<String>,
}

/// Something that must be said beside the numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Warning {
    /// External rotation stands last, where an overrun drops it.
    ExternalRotationLast,
    /// More swimmers than the adults may watch: so many waves, each as long.
    Waves(u32),
    /// The slot leaves no time for work.
    NoTime,
}

/// What fits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fit {
    /// Seconds of work the slot leaves.
    pub usable: u32,
    /// As asked first, then the alternatives.
    pub options: Vec<Choice>,
    /// What must be said.
    pub warnings: Vec<Warning>,
}

/// What fits, with the alternatives of the trade's time budget.
pub fn fit(session: &Session) -> Fit {
    let usable = session.slot_min.saturating_sub(session.overhead_min) * 60;
    let mut options = vec![option(session, usable, Way::AsAsked)];
    if !options[0].fits {
        let has_two_arm = session.exercises.iter().any(|one| one.two_arm_set_up && one.arms != Arms::Both);
        let splits = (2..=3)
            .filter(|parts| usize::try_from(*parts).is_ok_and(|parts| parts <= session.exercises.len()));
        let ways = has_two_arm
            .then_some(Way::TwoArms)
            .into_iter()
            .chain((SHORT_CAP < session.cap).then_some(Way::RotatingFullDose))
            .chain(splits.map(Way::Split))
            .chain([90, 60, 45, 30].into_iter().filter(|cap| *cap < session.cap).map(Way::Cap))
            .chain((1..session.sets).rev().map(Way::Sets))
            .chain((1..session.exercises.len()).rev().map(Way::First));
        let mut first_found = false;
        for way in ways {
            let is_first = matches!(way, Way::First(_));
            if is_first && first_found {
                continue;
            }
            let option = option(session, usable, way);
            first_found |= is_first && option.fits;
            // Of leaving exercises out, only the longest list that fits is worth a line.
            if !is_first || option.fits {
                options.push(option);
            }
        }
    }
    Fit { usable, options, warnings: warnings(session, usable) }
}

fn option(session: &Session, usable: u32, way: Way) -> Choice {
    let lasts = |arms: Arms, sets: u32, cap: u32| exercise_seconds(arms, sets, cap, session.rest);
    let all = &session.exercises;
    let plain = |one: &Exercise| lasts(one.arms, session.sets, session.cap);
    let seconds = match way {
        Way::AsAsked => total(all.iter().map(plain)),
        Way::TwoArms => total(all.iter().map(|one| {
            let arms = if one.two_arm_set_up { Arms::Both } else { one.arms };
            lasts(arms, session.sets, session.cap)
        })),
        Way::RotatingFullDose => (0..all.len())
            .map(|full| {
                total(all.iter().enumerate().map(|(at, one)| {
                    let cap = if at == full { session.cap } else { SHORT_CAP };
                    lasts(one.arms, session.sets, cap)
                }))
            })
            .max()
            .unwrap_or(0),
        Way::Cap(cap) => total(all.iter().map(|one| lasts(one.arms, session.sets, cap))),
        Way::Sets(sets) => total(all.iter().map(|one| lasts(one.arms, sets, session.cap))),
        Way::First(count) => total(all.iter().take(count).map(plain)),
        Way::Split(parts) => split(&all.iter().map(plain).collect::<Vec<_>>(), parts),
    };
    let cap = match way {
        Way::Cap(cap) => cap,
        _ => session.cap,
    };
    let left_out = match way {
        Way::First(count) => count,
        _ => all.len(),
    };
    let never = |at: usize| cap < session.full_cap || left_out <= at || matches!(way, Way::Sets(_));
    Choice {
        way,
        seconds,
        fits: seconds <= usable && usable != 0,
        never_qualify: (0..all.len()).filter(|at| never(*at)).map(|at| all[at].name.clone()).collect(),
    }
}

/// The longest of so many sessions when exercises are shared out as evenly as can be. Lists of a session are short, so
/// every way to share is tried.
fn split(seconds: &[u32], parts: u32) -> u32 {
    let parts = usize::try_from(parts).unwrap_or(1).max(1);
    let mut best = u32::MAX;
    let most = parts.checked_pow(u32::try_from(seconds.len().min(12)).unwrap_or(12)).unwrap_or(0);
    for way in 0..most {
        let mut left = way;
        let mut shares: Vec<Vec<u32>> = vec![Vec::new(); parts];
        for time in seconds {
            shares[left % parts].push(*time);
            left /= parts;
        }
        let longest = shares.iter().map(|share| total(share.iter().copied())).max().unwrap_or(0);
        best = best.min(longest);
    }
    best
}

fn warnings(session: &Session, usable: u32) -> Vec<Warning> {
    let mut warnings = Vec::new();
    if usable == 0 {
        warnings.push(Warning::NoTime);
    }
    if 1 < session.exercises.len() && session.exercises.last().is_some_and(|last| last.external_rotation) {
        warnings.push(Warning::ExternalRotationLast);
    }
    let watched = session.adults * session.ratio;
    if watched != 0 && watched < session.swimmers {
        warnings.push(Warning::Waves(session.swimmers.div_ceil(watched)));
    }
    warnings
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(text: &str) -> u32 {
        let (minutes, seconds) = text.split_once(':').expect("minutes:seconds");
        minutes.parse::<u32>().expect("minutes") * 60 + seconds.parse::<u32>().expect("seconds")
    }

    #[test]
    fn exercises_take_what_the_time_budget_says() {
        // The trade's table of slot times: cap, both, alternating, sequential, both in two sets, alternating in two.
        for (cap, both, alternating, sequential, both_2, alternating_2) in [
            (30, "2:30", "3:25", "5:30", "1:30", "2:15"),
            (45, "3:15", "4:55", "7:00", "2:00", "3:15"),
            (60, "4:00", "6:25", "8:30", "2:30", "4:15"),
            (90, "5:30", "9:25", "11:30", "3:30", "6:15"),
            (120, "7:00", "12:25", "14:30", "4:30", "8:15"),
        ] {
            for (arms, sets, expected) in [
                (Arms::Both, 3, both),
                (Arms::Alternating, 3, alternating),
                (Arms::Sequential, 3, sequential),
                (Arms::Both, 2, both_2),
                (Arms::Alternating, 2, alternating_2),
            ] {
                assert_eq!(exercise_seconds(arms, sets, cap, 30), clock(expected), "{arms:?} {sets} x {cap}");
            }
        }
    }

    fn session(both: usize, one_arm: usize, cap: u32) -> Session {
        let exercise = |at: usize| Exercise {
            name: format!("E{at}"),
            arms: if at < one_arm { Arms::Alternating } else { Arms::Both },
            external_rotation: at < one_arm,
            two_arm_set_up: at < one_arm,
        };
        Session {
            slot_min: 45,
            overhead_min: 19,
            exercises: (0..both + one_arm).map(exercise).collect(),
            sets: 3,
            cap,
            full_cap: 120,
            rest: 30,
            swimmers: 12,
            adults: 1,
            ratio: 15,
        }
    }

    #[test]
    fn sessions_take_what_the_time_budget_says() {
        for (both, one_arm, times) in [
            (2, 2, ["14:05", "18:35", "23:05", "32:05", "41:05"]),
            (3, 2, ["17:20", "22:35", "27:50", "38:20", "48:50"]),
            (3, 3, ["21:30", "28:15", "35:00", "48:30", "62:00"]),
            (4, 3, ["24:45", "32:15", "39:45", "54:45", "69:45"]),
            (5, 3, ["28:00", "36:15", "44:30", "61:00", "77:30"]),
            (5, 0, ["15:30", "19:15", "23:00", "30:30", "38:00"]),
            (8, 0, ["25:15", "31:15", "37:15", "49:15", "61:15"]),
        ] {
            for (cap, time) in [30, 45, 60, 90, 120].into_iter().zip(times) {
                let fit = fit(&session(both, one_arm, cap));
                assert_eq!(fit.options[0].seconds, clock(time), "{both} + {one_arm} at {cap}");
            }
        }
    }

    #[test]
    fn what_fits_twenty_six_minutes() {
        let fits = |both, one_arm, cap| fit(&session(both, one_arm, cap)).options[0].fits;
        assert!(fits(3, 0, 120), "22:30");
        assert!(!fits(2, 1, 120), "27:55");
        assert!(!fits(3, 1, 120), "35:40");
        assert!(fits(3, 1, 60), "20:40");
    }

    #[test]
    fn a_session_that_does_not_fit_comes_with_ways_that_do() {
        let fit = fit(&session(4, 0, 120));
        assert!(!fit.options[0].fits);
        let rotating =
            fit.options.iter().find(|option| option.way == Way::RotatingFullDose).expect("offered");
        assert_eq!(rotating.seconds, clock("21:15"), "one full two-arm and three at 60 s");
        assert!(rotating.fits && rotating.never_qualify.is_empty());
        let shorter = fit.options.iter().find(|option| option.way == Way::Cap(60)).expect("offered");
        assert_eq!(shorter.never_qualify.len(), 4, "a cap below the full one never qualifies");
        let split = fit.options.iter().find(|option| option.way == Way::Split(2)).expect("offered");
        assert_eq!(split.seconds, 2 * 420 + 45);
        let one_arm = super::fit(&session(0, 3, 120));
        let two_arms = one_arm.options.iter().find(|option| option.way == Way::TwoArms).expect("offered");
        assert_eq!(one_arm.options[0].seconds - two_arms.seconds, 3 * clock("5:25"));
    }

    #[test]
    fn stations_and_warnings() {
        assert_eq!(station_seconds(5, 240), clock("23:00"));
        let mut asked = session(1, 1, 60);
        asked.exercises.reverse();
        asked.swimmers = 40;
        assert_eq!(fit(&asked).warnings, vec![Warning::ExternalRotationLast, Warning::Waves(3)]);
        asked.slot_min = 15;
        assert!(fit(&asked).warnings.contains(&Warning::NoTime));
        assert!(!fit(&asked).options[0].fits);
    }
}
