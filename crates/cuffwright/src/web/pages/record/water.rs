//! The water of a week, and single practices where the club writes them down.

use app::desk::Draft;
use app::facts::{WaterSessionFact, WaterWeekFact};

use super::Sheet;
use super::body::{ask_again, unusual};
use crate::web::parts::ask::{Ask, Control};
use crate::web::words::text;

/// The water of a week.
pub const WATER_WEEK: Sheet = Sheet {
    word: "water-week",
    kind: app::facts::Kind::WaterWeek,
    title: "record-water-week",
    lede: "record-water-week-lede",
    asks: |_| {
        vec![
            Ask::new("from", "ask-monday", Control::Day).needed(),
            Ask::new("km", "ask-km", Control::Number).needed(),
            Ask::new("sessions", "ask-practices", Control::Number),
            Ask::new("minutes", "ask-week-minutes", Control::Number),
            Ask::new("effort", "ask-week-effort", Control::Number).hint("ask-effort-hint"),
            unusual(),
        ]
    },
    take: |_, taking| {
        let (from, km) = (taking.past_day("from"), taking.number("km"));
        let sessions = taking.whole_or_none("sessions");
        let (minutes, effort) = (taking.number_or_none("minutes"), taking.number_or_none("effort"));
        ask_again(taking, "km", "swim_week", km);
        ask_again(taking, "minutes", "week_minutes", minutes);
        let from = from?;
        if from.weekday() != jiff::civil::Weekday::Monday {
            taking.wrong("from", text("take-not-monday"));
        }
        Some(vec![Draft::new(&WaterWeekFact { from, km: km?, sessions, minutes, effort })])
    },
};

/// One practice. Off until a club turns it on: a form that nobody keeps up is worse than none.
pub const WATER_SESSION: Sheet = Sheet {
    word: "water-session",
    kind: app::facts::Kind::WaterSession,
    title: "record-water-session",
    lede: "record-water-session-lede",
    asks: |_| {
        vec![
            Ask::new("date", "ask-date", Control::Day).needed(),
            Ask::new("metres", "ask-metres", Control::Number),
            Ask::new("minutes", "ask-minutes", Control::Number),
            Ask::new("effort", "ask-effort", Control::Number).hint("ask-effort-hint"),
            unusual(),
        ]
    },
    take: |setting, taking| {
        let date = taking.past_day("date");
        if !setting.desk.club().about.as_ref().is_some_and(|club| club.daily_practices) {
            taking.wrong("date", text("take-daily-off"));
        }
        let metres = taking.number_or_none("metres");
        let (minutes, effort) = (taking.number_or_none("minutes"), taking.number_or_none("effort"));
        ask_again(taking, "metres", "swim_session", metres);
        ask_again(taking, "minutes", "session_minutes", minutes);
        Some(vec![Draft::new(&WaterSessionFact { date: date?, metres, minutes, effort })])
    },
};
