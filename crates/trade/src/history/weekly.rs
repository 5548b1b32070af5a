//! What a swimmer answers and does in a week: the weekly check, and single practices where a club writes them down.

use jiff::civil::Date;

use crate::weekly::Answers;

/// One weekly check. A shoulder that was not answered is none, never a zero.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeeklyCheck {
    /// Day it was answered.
    pub date: Date,
    /// Left shoulder.
    pub left: Option<Answers>,
    /// Right shoulder.
    pub right: Option<Answers>,
}

impl WeeklyCheck {
    /// The answers about one shoulder.
    pub fn of(&self, side: crate::side::Side) -> Option<Answers> {
        match side {
            crate::side::Side::Left => self.left,
            crate::side::Side::Right => self.right,
        }
    }
}

/// One water practice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterSession {
    /// Day.
    pub date: Date,
    /// Metres swum.
    pub metres: Option<f64>,
    /// Minutes.
    pub minutes: Option<f64>,
    /// Effort, 0 to 10.
    pub effort: Option<f64>,
}
