//! Thresholds of the timetable, with the trade's defaults. A club's protocol may set others within its limits.

/// Every threshold the timetable reads.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Hours from the end of dryland to the next water. Common practice for "several hours"; 3 to 8.
    pub pre_water_gap_h: f64,
    /// Free calendar days between loaded sessions; 0 to 2.
    pub free_days: u8,
    /// Least hours between loaded sessions, end to start; 20 to 48.
    pub min_hours_between: f64,
    /// Hours without load before an A or B meet; 24 to 72.
    pub meet_gap_ab_h: f64,
    /// Hours without load before a C meet; 24 to 72.
    pub meet_gap_c_h: f64,
    /// Most loaded sessions in a calendar week; 0 to 4.
    pub sessions_week: u8,
    /// Fewest sessions a week worth planning, outside planned reductions.
    pub worth_planning: u8,
    /// Swimmers one adult may watch: under 13 or in teaching, and from 13.
    pub ratio: [u32; 2],
    /// Minutes after the end of the last practice that still count as directly after it.
    pub directly_after_min: i64,
    /// Whether 5 to 8 easy minutes without times may stand right before the water.
    pub activation_allowed: bool,
}

impl Settings {
    /// Limits of the gap before water, hours.
    pub const GAP_LIMITS: [f64; 2] = [3.0, 8.0];

    /// The gap before water in whole minutes, rounded up.
    pub fn gap_minutes(&self) -> i64 {
        minutes(self.pre_water_gap_h)
    }
}

/// Hours as whole minutes, rounded up: a gap is never rounded away.
pub fn minutes(hours: f64) -> i64 {
    // Thresholds are small and checked, so the conversion is exact.
    (hours * 60.0 - 1e-9).ceil() as i64
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            pre_water_gap_h: 4.0,
            free_days: 1,
            min_hours_between: 24.0,
            meet_gap_ab_h: 48.0,
            meet_gap_c_h: 24.0,
            sessions_week: 3,
            worth_planning: 2,
            ratio: [8, 15],
            directly_after_min: 30,
            activation_allowed: false,
        }
    }
}
