//! The parameter table: one row a field, from which reading, error text and the Rules page all draw.
//!
//! Ranges of the trade's own table stand as they are there. Where that table leaves a parameter without a range,
//! a club may move it only towards caution, or within what practice describes; the default file carries the marks.

use std::collections::BTreeMap;

use quantity::{HoldTime, Mass, Pain};

use super::spec::{Field, ParameterSpec};
use super::{Listed, Parameters};

macro_rules! parameters {
    ($($field:ident: $kind:ty, $key:literal, $label:literal, $unit:literal, [$(($low:expr, $high:expr)),+]
        $(, percent $percent:literal)? $(, fixed $why:literal)?;)+) => {
        /// Every parameter, in the order of the fields of [`Parameters`].
        pub static PARAMETERS: &[ParameterSpec] = &[$(ParameterSpec {
            key: $key,
            field: stringify!($field),
            label: $label,
            unit: $unit,
            shape: <$kind as Field>::SHAPE,
            within: &[$(($low, $high)),+],
            fixed: or_none!($($why)?),
        }),+];

        /// Builds the parameters from numbers in the file's units; nothing when one is missing or does not fit.
        /// The struct literal names every field, so a parameter without a row does not compile.
        pub(in crate::protocol) fn build(
            numbers: &BTreeMap<&'static str, Vec<f64>>,
            listed: Vec<Listed>,
        ) -> Option<Parameters> {
            Some(Parameters {
                $($field: <$kind as Field>::from_numbers(&shares(numbers.get($key)?, 1.0 $(* $percent)?))?,)+
                listed,
            })
        }
    };
}

macro_rules! or_none {
    () => {
        None
    };
    ($why:literal) => {
        Some($why)
    };
}

/// Numbers as the field wants them: per cent in the file is a share in the field.
fn shares(numbers: &[f64], divisor: f64) -> Vec<f64> {
    numbers.iter().map(|number| number / divisor).collect()
}

parameters! {
    cap: HoldTime, "cap_s", "longest a set may last", "s", [(30.0, 120.0)], fixed "protocol-why-cap";
    sets: u8, "sets", "sets of a full session", "", [(1.0, 3.0)];
    rest: HoldTime, "rest_s", "rest between sets", "s", [(20.0, 90.0)];
    n_qualify: u8, "n_qualify", "qualifying sessions for a step up", "", [(1.0, 3.0)];
    n_qualify_careful: u8, "n_qualify_careful", "the same on a careful track", "", [(1.0, 3.0)];
    tolerance: HoldTime, "tolerance_s", "slack of a hand-held clock", "s", [(0.0, 2.0)];
    cue_grace: HoldTime, "cue_grace_s", "time to mend a fault after one cue", "s", [(2.0, 10.0)];
    scaption_limit: Mass, "scaption_limit_kg", "heaviest hand weight in scaption", "kg", [(0.0, 2.2)],
        fixed "protocol-why-scaption";
    prone_limit_under_15: Mass, "prone_limit_under_15_kg", "heaviest hand weight in prone lifts under 15", "kg",
        [(0.0, 1.0)], fixed "protocol-why-prone";
    pre_water_gap_h: f64, "pre_water_gap_h", "end of dryland to the next water", "h", [(3.0, 8.0)],
        fixed "protocol-why-water";
    free_days_between_loaded: u8, "free_days_between_loaded", "free days between loaded sessions", "days",
        [(0.0, 2.0)];
    min_hours_between_loaded: f64, "min_hours_between_loaded", "hours between loaded sessions, end to start", "h",
        [(20.0, 48.0)];
    meet_gap_ab_h: f64, "meet_gap_ab_h", "hours without load before A and B meets", "h", [(24.0, 72.0)];
    meet_gap_c_h: f64, "meet_gap_c_h", "hours without load before C meets", "h", [(24.0, 72.0)];
    sessions_week: [u8; 3], "sessions_week", "sessions a week: base / meets / taper", "",
        [(0.0, 4.0), (0.0, 4.0), (0.0, 4.0)];
    max_exercises: u8, "max_exercises", "most exercises in a session", "", [(3.0, 8.0)];
    max_ups_per_session: u8, "max_ups_per_session", "most exercises that step up together", "", [(1.0, 5.0)];
    deload_every_weeks: Option<u8>, "deload_every_weeks", "a lighter week every so many weeks", "weeks", [(3.0, 6.0)];
    deload_sets: u8, "deload_sets", "sets in a lighter week", "", [(1.0, 2.0)];
    deload_cap: HoldTime, "deload_cap_s", "longest set in a lighter week", "s", [(30.0, 90.0)];
    gap_days: [u16; 4], "gap_days", "upper ends of the four absence bands", "days",
        [(3.0, 7.0), (7.0, 14.0), (14.0, 28.0), (28.0, 56.0)], fixed "protocol-why-gap";
    level_step_target: [f64; 2], "level_step_target_pct", "smallest and largest step wanted between rungs", "%",
        [(15.0, 40.0), (15.0, 40.0)], percent 100.0;
    step_too_big: HoldTime, "step_too_big_s", "first set on a new rung below which the step was too big", "s",
        [(15.0, 45.0)];
    step_too_big_sessions: u8, "step_too_big_sessions", "sessions of it before the rung goes down", "", [(1.0, 2.0)];
    plateau_sessions: u8, "plateau_sessions", "sessions without gain that make a plateau", "", [(4.0, 10.0)];
    fall_share: f64, "fall_pct", "fall of total time that asks a question", "%", [(15.0, 25.0)], percent 100.0;
    fall_sessions: u8, "fall_sessions", "sessions of such a fall", "", [(1.0, 2.0)];
    held_up_valid_weeks: u8, "held_up_valid_weeks", "how long a held step up stays valid", "weeks", [(2.0, 12.0)];
    held_up_gap_days: u16, "held_up_gap_days", "absence after which a held step up lapses", "days", [(7.0, 14.0)];
    newcomer_days: u16, "newcomer_days", "first days during which the careful count applies", "days", [(42.0, 84.0)];
    slot_overhead_min: f64, "slot_overhead_min", "minutes of a slot that are not work", "min", [(8.0, 25.0)];
    side_diff_time_share: f64, "side_diff_time_pct", "side difference of set times that asks: share", "%",
        [(15.0, 25.0)], percent 100.0;
    side_diff_time: HoldTime, "side_diff_time_s", "side difference of set times that asks: time", "s", [(10.0, 30.0)];
    side_diff_time_sessions: u8, "side_diff_time_sessions", "sessions of such a difference", "", [(1.0, 2.0)];
    side_diff_strength_adapt: f64, "side_diff_strength_adapt_pct", "side difference of strength: weaker arm gates",
        "%", [(10.0, 30.0)], percent 100.0;
    side_diff_strength_refer: f64, "side_diff_strength_refer_pct",
        "side difference of strength: a clinician should see it", "%", [(10.0, 30.0)], percent 100.0;
    ratio_flag: f64, "ratio_flag", "external to internal strength below which external rotation comes first", "",
        [(0.6, 0.95)];
    beighton_cut_u18: u8, "beighton_cut_u18", "Beighton score of the hypermobile track, under 18", "of 9",
        [(4.0, 6.0)], fixed "protocol-why-beighton";
    beighton_cut_girls: u8, "beighton_cut_girls", "the same for girls under 18", "of 9", [(4.0, 7.0)],
        fixed "protocol-why-beighton";
    beighton_cut_woman: u8, "beighton_cut_woman", "the same for adult women to 50", "of 9", [(3.0, 5.0)],
        fixed "protocol-why-beighton";
    beighton_cut_man: u8, "beighton_cut_man", "the same for adult men", "of 9", [(3.0, 4.0)],
        fixed "protocol-why-beighton";
    growth_velocity_cm_y: f64, "growth_velocity_cm_y", "growth that starts the growth hold", "cm/year", [(6.0, 9.0)],
        fixed "protocol-why-growth";
    growth_end_velocity_cm_y: f64, "growth_end_velocity_cm_y", "growth below which the hold may end", "cm/year",
        [(4.0, 6.0)], fixed "protocol-why-growth";
    growth_min_days: u16, "growth_min_days", "shortest span between two heights that may be judged", "days",
        [(60.0, 180.0)], fixed "protocol-why-growth";
    maturity_window_y: f64, "maturity_window_y", "half-width of the window around the growth spurt", "years",
        [(0.5, 1.0)], fixed "protocol-why-growth";
    growth_cap: HoldTime, "growth_cap_s", "longest set in the first weeks of the growth hold", "s", [(30.0, 90.0)],
        fixed "protocol-why-growth";
    growth_no_up_weeks: u8, "growth_no_up_weeks", "weeks of the growth hold without steps up", "weeks", [(4.0, 12.0)],
        fixed "protocol-why-growth";
    pain_pre_out: Pain, "pain_pre_out", "pain before a session from which the swimmer is out", "of 10", [(1.0, 4.0)],
        fixed "protocol-why-pain";
    pain_during_stop_joint: Pain, "pain_during_stop_joint", "one-sided or joint pain that stops the exercise",
        "of 10", [(1.0, 2.0)], fixed "protocol-why-pain";
    no_up_after_pain_days: u16, "no_up_after_pain_days", "days without steps up after a pain event", "days",
        [(7.0, 28.0)], fixed "protocol-why-pain-window";
    repeat_event_window_days: u16, "repeat_event_window_days", "days within which a second pain event is referred",
        "days", [(7.0, 28.0)], fixed "protocol-why-pain-window";
    pain_free_days: u8, "pain_free_days", "pain-free days before the end of out today may be proposed", "days",
        [(2.0, 7.0)], fixed "protocol-why-pain-window";
    load_jump_pct: f64, "load_jump_pct", "week of water beside the four before, worth a talk", "%", [(120.0, 150.0)];
    consent_valid_months: u8, "consent_valid_months", "how long a consent holds", "months", [(6.0, 24.0)];
    supervise_ratio: [u8; 2], "supervise_ratio", "swimmers an adult: under 13 or in teaching / from 13", "",
        [(5.0, 20.0), (5.0, 20.0)], fixed "protocol-why-supervise";
    min_group_for_report: u8, "min_group_for_report", "smallest group a report may show", "", [(5.0, 10.0)],
        fixed "protocol-why-small-group";
    band_replace_months: u8, "band_replace_months", "how long a band stays in service", "months", [(3.0, 12.0)];
    band_drift_pct: f64, "band_drift_pct", "loss of force that withdraws a band", "%", [(10.0, 25.0)];
    kit_inspection_weeks: u8, "kit_inspection_weeks", "time between kit inspections", "weeks", [(1.0, 12.0)];
    spare_factor: f64, "spare_factor", "stock over simultaneous use", "times", [(1.0, 1.5)];
    retest_weeks: [u8; 2], "retest_weeks", "time between re-tests", "weeks", [(6.0, 16.0), (6.0, 16.0)];
    teaching_sessions: u8, "teaching_sessions", "teaching sessions before an exercise is timed", "", [(2.0, 6.0)],
        fixed "protocol-why-teaching";
    teaching_sets: u8, "teaching_sets", "sets of a teaching session", "", [(1.0, 2.0)];
    teaching_seconds: [HoldTime; 2], "teaching_s", "length of a teaching set", "s", [(10.0, 30.0), (10.0, 30.0)];
    calibration_seconds: [HoldTime; 2], "calibration_s", "length of a calibration set", "s", [(30.0, 60.0), (30.0, 60.0)];
    rc2_needs_ratio: bool, "rc2_needs_ratio", "internal rotation is left out while the ratio is below the flag", "",
        [(0.0, 1.0)];
    home_counts: bool, "home_counts", "sessions at home count towards a step up", "", [(0.0, 1.0)];
    join_without_consent: bool, "join_without_consent", "joining without a record while consent has run out", "",
        [(0.0, 1.0)];
}
