//! Does a plan fit the minutes there are? Arithmetic of the trade's time table (D.4): both arms `S t + (S-1) rest`, one
//! arm in turn `2 S t + (2S-1) change of side`, and a change-over between exercises.

use serde::Serialize;

/// Seconds to change from one arm to the other: common practice.
pub const SIDE_CHANGE_S: f64 = 5.0;
/// Seconds to change from one exercise to the next: common practice.
pub const CHANGE_OVER_S: f64 = 45.0;
/// Cap of the shorter slots in a rotating full dose, seconds: common practice.
const SHORT_CAP_S: f64 = 60.0;

/// One exercise as it takes time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slot {
    /// The arms work in turn.
    pub is_one_arm: bool,
    /// Longest set, seconds.
    pub cap_s: f64,
    /// Sets.
    pub sets: u8,
}

impl Slot {
    /// Seconds it takes with this rest between sets.
    pub fn seconds(&self, rest_s: f64) -> f64 {
        let sets = f64::from(self.sets);
        if self.is_one_arm {
            2.0 * sets * self.cap_s + (2.0 * sets - 1.0) * SIDE_CHANGE_S
        } else {
            sets * self.cap_s + (sets - 1.0) * rest_s
        }
    }
}

/// Seconds of a whole session, one exercise after the other, once for each wave.
pub fn session_seconds(slots: &[Slot], rest_s: f64, waves: u32) -> f64 {
    if slots.is_empty() {
        return 0.0;
    }
    let work: f64 = slots.iter().map(|slot| slot.seconds(rest_s)).sum();
    let blocks = u32::try_from(slots.len()).unwrap_or(u32::MAX).saturating_mul(waves);
    work * f64::from(waves) + f64::from(blocks.saturating_sub(1)) * CHANGE_OVER_S
}

/// Another way of doing it, with what it takes.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Alternative {
    /// Name of its sentence.
    pub says: &'static str,
    /// Seconds.
    pub seconds: f64,
    /// It fits.
    pub fits: bool,
    /// Caps in the order of the exercises, where the caps differ from the plan's.
    pub caps: Vec<f64>,
    /// How many of the exercises, from the first on.
    pub exercises: usize,
}

/// What would fit instead, the fullest dose first.
pub fn alternatives(slots: &[Slot], rest_s: f64, minutes: u16, waves: u32) -> Vec<Alternative> {
    let have = f64::from(minutes) * 60.0;
    let mut found = Vec::new();
    let mut offer = |says: &'static str, slots: &[Slot]| {
        let seconds = session_seconds(slots, rest_s, waves);
        found.push(Alternative {
            says,
            seconds,
            fits: seconds <= have,
            caps: slots.iter().map(|slot| slot.cap_s).collect(),
            exercises: slots.len(),
        });
    };
    if let Some(fullest) = slots.iter().position(|slot| SHORT_CAP_S < slot.cap_s) {
        let rotating: Vec<Slot> = slots
            .iter()
            .enumerate()
            .map(|(place, slot)| if place == fullest { *slot } else { shortened(slot) })
            .collect();
        offer("deck-other-rotating", &rotating);
        offer("deck-other-short", &slots.iter().map(shortened).collect::<Vec<_>>());
    }
    if slots.iter().any(|slot| slot.is_one_arm) {
        offer(
            "deck-other-two-arm",
            &slots.iter().map(|slot| Slot { is_one_arm: false, ..*slot }).collect::<Vec<_>>(),
        );
    }
    if 1 < slots.len() {
        offer("deck-other-split", &slots[..slots.len().div_ceil(2)]);
        let most =
            (1..slots.len()).rev().find(|count| session_seconds(&slots[..*count], rest_s, waves) <= have);
        if let Some(most) = most {
            offer("deck-other-fewer", &slots[..most]);
        }
    }
    if slots.iter().any(|slot| 2 < slot.sets) {
        offer(
            "deck-other-two-sets",
            &slots.iter().map(|slot| Slot { sets: slot.sets.min(2), ..*slot }).collect::<Vec<_>>(),
        );
    }
    found
}

fn shortened(slot: &Slot) -> Slot {
    Slot { cap_s: slot.cap_s.min(SHORT_CAP_S), ..*slot }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(seconds: f64) -> String {
        format!("{}:{:02}", (seconds / 60.0).floor(), (seconds % 60.0).round())
    }

    fn slots(exercises: usize, one_arm: usize, cap_s: f64) -> Vec<Slot> {
        (0..exercises).map(|place| Slot { is_one_arm: place < one_arm, cap_s, sets: 3 }).collect()
    }

    /// Trade handbook D.4, whole sessions and what fits 26 minutes.
    #[test]
    fn sessions_take_what_the_table_says() {
        for (exercises, one_arm, cap, lasts) in [
            (4, 2, 30.0, "14:05"),
            (5, 2, 60.0, "27:50"),
            (6, 3, 120.0, "62:00"),
            (8, 3, 120.0, "77:30"),
            (8, 0, 45.0, "31:15"),
            (3, 0, 120.0, "22:30"),
            (3, 1, 120.0, "27:55"),
            (4, 1, 120.0, "35:40"),
            (4, 1, 60.0, "20:40"),
        ] {
            let got = clock(session_seconds(&slots(exercises, one_arm, cap), 30.0, 1));
            assert_eq!(got, lasts, "{exercises} ({one_arm}) at {cap}");
        }
    }

    #[test]
    fn a_plan_of_27_55_in_26_minutes_has_ways_that_fit() {
        let found = alternatives(&slots(3, 1, 120.0), 30.0, 26, 1);
        let says: Vec<_> =
            found.iter().filter(|one| one.fits).map(|one| (one.says, clock(one.seconds))).collect();
        assert!(says.contains(&("deck-other-two-arm", "22:30".to_owned())), "{says:?}");
        assert!(says.contains(&("deck-other-short", "15:55".to_owned())), "{says:?}");
        assert!(found.iter().all(|one| one.fits == (one.seconds <= 26.0 * 60.0)));
    }

    /// Trade handbook D.4: one full two-arm exercise and three at a minute.
    #[test]
    fn a_rotating_full_dose_takes_21_15() {
        let found = alternatives(&slots(4, 0, 120.0), 30.0, 26, 1);
        let rotating = found.iter().find(|one| one.says == "deck-other-rotating").unwrap();
        assert_eq!(clock(rotating.seconds), "21:15");
        assert_eq!(rotating.caps, [120.0, 60.0, 60.0, 60.0]);
    }

    #[test]
    fn two_waves_take_twice_the_time_and_one_change_over_more() {
        assert_eq!(clock(session_seconds(&slots(1, 0, 60.0), 30.0, 2)), "8:45");
    }
}
