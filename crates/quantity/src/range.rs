//! What a measured value may be: one table that feeds validation, form hints and error text.
//!
//! Outside the hard range a value is refused. Outside the plausible range a person is asked to confirm it.
//! Nothing is ever clamped. The limits are engineering choices of this project, not norms: they catch typing
//! slips (a swapped unit, a lost decimal point) and say nothing about anybody's health.

/// One measured value's limits, in its stored unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Stable key, used in files and in the database.
    pub key: &'static str,
    /// What a person calls it.
    pub label: &'static str,
    /// Unit in which the value is stored and in which the limits below stand.
    pub unit: &'static str,
    /// Lowest and highest value that is accepted at all, both included.
    pub hard: (f64, f64),
    /// Lowest and highest value that is accepted without asking, both included.
    pub plausible: (f64, f64),
}

/// What the table says of one value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Judgement {
    /// Inside the plausible range.
    Plausible,
    /// Possible, but far enough out that a person must confirm it.
    Ask,
    /// Impossible, or not a number: refused.
    Refuse,
}

impl Range {
    /// Looks up a range by its key.
    pub fn of(key: &str) -> Option<&'static Range> {
        RANGES.iter().find(|range| range.key == key)
    }

    /// Judges one value in the range's own unit.
    pub fn judge(&self, value: f64) -> Judgement {
        let inside = |(low, high): (f64, f64)| low <= value && value <= high;
        if !inside(self.hard) {
            Judgement::Refuse
        } else if !inside(self.plausible) {
            Judgement::Ask
        } else {
            Judgement::Plausible
        }
    }
}

const fn range(
    key: &'static str,
    label: &'static str,
    unit: &'static str,
    hard: (f64, f64),
    plausible: (f64, f64),
) -> Range {
    Range { key, label, unit, hard, plausible }
}

/// Every measured value the tool accepts.
pub static RANGES: &[Range] = &[
    range("shoulder_er_rom", "external rotation range", "deg", (0.0, 180.0), (60.0, 135.0)),
    range("shoulder_ir_rom", "internal rotation range", "deg", (0.0, 120.0), (20.0, 95.0)),
    range("shoulder_flexion_rom", "flexion range", "deg", (0.0, 230.0), (140.0, 205.0)),
    range("horizontal_adduction", "horizontal adduction", "deg", (-45.0, 90.0), (-20.0, 60.0)),
    range("er_force", "external rotation strength", "N", (0.0, 1000.0), (25.0, 400.0)),
    range("ir_force", "internal rotation strength", "N", (0.0, 1000.0), (25.0, 400.0)),
    range("lever_arm", "lever arm of the strength test", "m", (0.05, 0.6), (0.12, 0.4)),
    range("posterior_endurance_time", "posterior shoulder endurance, hold", "s", (0.0, 600.0), (10.0, 180.0)),
    range(
        "posterior_endurance_reps",
        "posterior shoulder endurance, repetitions",
        "reps",
        (0.0, 300.0),
        (5.0, 80.0),
    ),
    range("plank_time", "front plank hold", "s", (0.0, 3600.0), (10.0, 300.0)),
    range("side_bridge_time", "side bridge hold", "s", (0.0, 1800.0), (10.0, 240.0)),
    range("stability_touches", "closed-chain stability test", "touches", (0.0, 60.0), (8.0, 40.0)),
    range("pec_minor_length", "pectoralis minor length", "cm", (5.0, 30.0), (9.0, 22.0)),
    range("beighton", "Beighton score", "of 9", (0.0, 9.0), (0.0, 9.0)),
    range("body_mass", "body mass", "kg", (15.0, 200.0), (25.0, 120.0)),
    range("height", "height", "m", (0.9, 2.4), (1.2, 2.1)),
    range("sitting_height", "sitting height", "m", (0.4, 1.3), (0.6, 1.1)),
    range("set_time", "time of a set", "s", (0.0, 600.0), (1.0, 180.0)),
    range("band_length", "length of an elastic piece", "m", (0.02, 10.0), (0.1, 3.0)),
    range("band_force", "force of an elastic piece", "N", (0.0, 1000.0), (2.0, 300.0)),
    range("hand_weight", "hand weight", "kg", (0.0, 30.0), (0.0, 5.0)),
    range("swim_week", "water distance in a week", "km", (0.0, 140.0), (2.0, 90.0)),
    range("swim_session", "water distance of one practice", "m", (0.0, 25_000.0), (200.0, 10_000.0)),
    range("session_minutes", "length of one practice", "min", (0.0, 480.0), (5.0, 240.0)),
    range("week_minutes", "time in the water in a week", "min", (0.0, 3360.0), (30.0, 1800.0)),
    range("session_effort", "effort of a practice", "of 10", (0.0, 10.0), (0.0, 10.0)),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_plausible_range_lies_inside_its_hard_range() {
        for range in RANGES {
            assert!(range.hard.0 <= range.plausible.0 && range.plausible.1 <= range.hard.1, "{}", range.key);
            assert!(range.plausible.0 < range.plausible.1, "{}", range.key);
        }
    }

    #[test]
    fn keys_are_unique() {
        for (index, range) in RANGES.iter().enumerate() {
            assert!(RANGES[..index].iter().all(|other| other.key != range.key), "{}", range.key);
        }
    }

    #[test]
    fn a_value_is_refused_asked_about_or_taken() {
        let height = Range::of("height").expect("height is in the table");
        assert_eq!(height.judge(1.62), Judgement::Plausible);
        assert_eq!(height.judge(1.05), Judgement::Ask);
        assert_eq!(height.judge(162.0), Judgement::Refuse);
        assert_eq!(height.judge(f64::NAN), Judgement::Refuse);
    }
}
