//! Master parameters: every threshold of the rules, with its unit, what is allowed, and what no club may change.
//!
//! - [`rows`]: the one table that reading, error text and the Rules page share.
//! - [`spec`]: what a row of that table says.

pub mod rows;
pub mod spec;

use quantity::{HoldTime, Mass, Pain};

use super::Evidence;

pub use rows::PARAMETERS;
pub use spec::{ParameterSpec, Shape};

/// The thresholds the rules read. Every field has a row in [`PARAMETERS`], which gives its unit and limits.
#[derive(Debug, Clone, PartialEq)]
pub struct Parameters {
    /// Longest a set may last.
    pub cap: HoldTime,
    /// Sets of a full session.
    pub sets: u8,
    /// Rest between sets.
    pub rest: HoldTime,
    /// Qualifying sessions for a step up.
    pub n_qualify: u8,
    /// Qualifying sessions on a careful track.
    pub n_qualify_careful: u8,
    /// Slack of a hand-held clock.
    pub tolerance: HoldTime,
    /// Seconds a swimmer has to mend a fault after one cue.
    pub cue_grace: HoldTime,
    /// Heaviest hand weight in scaption, inclusive.
    pub scaption_limit: Mass,
    /// Heaviest hand weight in prone lifts under 15.
    pub prone_limit_under_15: Mass,
    /// Hours between dryland and the next water.
    pub pre_water_gap_h: f64,
    /// Free calendar days between loaded sessions.
    pub free_days_between_loaded: u8,
    /// Least hours between loaded sessions, end to start.
    pub min_hours_between_loaded: f64,
    /// Hours without load before A and B meets.
    pub meet_gap_ab_h: f64,
    /// Hours without load before C meets.
    pub meet_gap_c_h: f64,
    /// Sessions a week in base, meet and taper phases.
    pub sessions_week: [u8; 3],
    /// Most exercises in a session.
    pub max_exercises: u8,
    /// Most exercises that step up together.
    pub max_ups_per_session: u8,
    /// A deload week comes every so many weeks; nothing when off.
    pub deload_every_weeks: Option<u8>,
    /// Sets in a deload week.
    pub deload_sets: u8,
    /// Cap in a deload week.
    pub deload_cap: HoldTime,
    /// Upper ends, in days, of the four absence bands.
    pub gap_days: [u16; 4],
    /// Smallest and largest step wanted between rungs, as shares.
    pub level_step_target: [f64; 2],
    /// A first set shorter than this on a new rung says the step was too big.
    pub step_too_big: HoldTime,
    /// Sessions with so short a first set before the rung goes down.
    pub step_too_big_sessions: u8,
    /// Sessions without gain that make a plateau.
    pub plateau_sessions: u8,
    /// Fall of total time, as a share, that asks a question.
    pub fall_share: f64,
    /// Sessions of such a fall.
    pub fall_sessions: u8,
    /// Weeks a held step up stays valid.
    pub held_up_valid_weeks: u8,
    /// Absence, in days, after which a held step up lapses.
    pub held_up_gap_days: u16,
    /// Days in the programme during which a newcomer needs the careful count.
    pub newcomer_days: u16,
    /// Minutes of a slot that are not work.
    pub slot_overhead_min: f64,
    /// Side difference of set times that asks: share.
    pub side_diff_time_share: f64,
    /// Side difference of set times that asks: seconds.
    pub side_diff_time: HoldTime,
    /// Sessions of such a difference.
    pub side_diff_time_sessions: u8,
    /// Side difference of strength, as a share, at which the weaker arm gates.
    pub side_diff_strength_adapt: f64,
    /// Side difference of strength, as a share, that a clinician should see.
    pub side_diff_strength_refer: f64,
    /// External to internal rotation strength below which external rotation has priority.
    pub ratio_flag: f64,
    /// Beighton score from which the hypermobile track applies, under 18.
    pub beighton_cut_u18: u8,
    /// The same for girls under 18, where a club chooses another.
    pub beighton_cut_girls: u8,
    /// The same for adult women to 50.
    pub beighton_cut_woman: u8,
    /// The same for adult men.
    pub beighton_cut_man: u8,
    /// Growth velocity that starts the growth hold, cm a year.
    pub growth_velocity_cm_y: f64,
    /// Growth velocity below which the hold may end, cm a year.
    pub growth_end_velocity_cm_y: f64,
    /// Shortest span between two heights that may be judged, days.
    pub growth_min_days: u16,
    /// Half-width of the maturity window around the growth spurt, years.
    pub maturity_window_y: f64,
    /// Cap in the first weeks of the growth hold.
    pub growth_cap: HoldTime,
    /// Weeks of the growth hold without steps up.
    pub growth_no_up_weeks: u8,
    /// Pain before a session from which the swimmer is out.
    pub pain_pre_out: Pain,
    /// One-sided or joint pain during a set that stops the exercise.
    pub pain_during_stop_joint: Pain,
    /// Days without steps up after a pain event.
    pub no_up_after_pain_days: u16,
    /// Days within which a second pain event is referred.
    pub repeat_event_window_days: u16,
    /// Pain-free days that let a rule propose the end of "out today".
    pub pain_free_days: u8,
    /// Week of water, per cent of the mean of the four before, worth a talk.
    pub load_jump_pct: f64,
    /// Months a consent holds.
    pub consent_valid_months: u8,
    /// Swimmers per adult under 13 or in teaching, and from 13.
    pub supervise_ratio: [u8; 2],
    /// Smallest group a report may show.
    pub min_group_for_report: u8,
    /// Months a band stays in service.
    pub band_replace_months: u8,
    /// Loss of force, per cent, that withdraws a band.
    pub band_drift_pct: f64,
    /// Weeks between kit inspections.
    pub kit_inspection_weeks: u8,
    /// Stock over simultaneous use.
    pub spare_factor: f64,
    /// Weeks between re-tests, shortest and longest.
    pub retest_weeks: [u8; 2],
    /// Teaching sessions before an exercise is timed.
    pub teaching_sessions: u8,
    /// Sets of a teaching session.
    pub teaching_sets: u8,
    /// Seconds of a teaching set, shortest and longest.
    pub teaching_seconds: [HoldTime; 2],
    /// Seconds of a calibration set, shortest and longest.
    pub calibration_seconds: [HoldTime; 2],
    /// Internal rotation is left out while the strength ratio is below the flag.
    pub rc2_needs_ratio: bool,
    /// Sessions at home count towards a step up.
    pub home_counts: bool,
    /// A club lets swimmers join without a record while consent has run out.
    pub join_without_consent: bool,
    /// What each parameter is, for the Rules page: one row a parameter, in file order.
    pub listed: Vec<Listed>,
}

impl Parameters {
    /// Finds what is listed of one parameter, by its key in the file or by its field.
    pub fn listed_of(&self, name: &str) -> Option<&Listed> {
        self.listed.iter().find(|listed| listed.key == name || listed.field == name)
    }
}

/// One parameter as it stands in the protocol, for people.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// Key in the file.
    pub key: &'static str,
    /// Field of [`Parameters`], by which rules name it.
    pub field: &'static str,
    /// What it is.
    pub label: &'static str,
    /// Its value with its unit, as written.
    pub value: String,
    /// What a club may set, in words.
    pub allowed: String,
    /// How strong the ground is.
    pub evidence: Evidence,
}
