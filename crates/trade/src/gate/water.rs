//! A week of water well above the four before it: worth a talk, never a ban.

use jiff::civil::Date;

use super::Gate;
use super::record::{Record, days_after};
use crate::rule::gate_rules as codes;
use crate::trace::{Arg, Class, Line};

/// Weeks that make the usual.
const WEEKS_BEFORE: u16 = 4;
/// Days after the end of a week for which it still says something about now.
const FRESH_DAYS: u16 = 13;

pub(super) fn judge(record: &Record<'_>, gate: &mut Gate) {
    gate.notes.extend(jump(record).map(|(_, line)| line));
}

/// The last whole week, when it was a jump: its last day and the sentence. A week that nobody wrote down is unknown,
/// not zero, so without all four there is no mean and nothing is said.
pub(crate) fn jump(record: &Record<'_>) -> Option<(Date, Line)> {
    let km_of = |from: Date| {
        record.water_weeks.iter().filter(|week| week.from == from).map(|week| week.km).max_by(f64::total_cmp)
    };
    let from = record
        .water_weeks
        .iter()
        .map(|week| week.from)
        .filter(|from| days_after(*from, 6) <= record.on)
        .max()?;
    let last_day = days_after(from, 6);
    if days_after(last_day, FRESH_DAYS) < record.on {
        return None;
    }
    let km = km_of(from)?;
    let before: Vec<f64> = record
        .water_weeks
        .iter()
        .map(|week| week.from)
        .filter(|earlier| (1..=WEEKS_BEFORE).any(|weeks| days_after(*earlier, weeks * 7) == from))
        .collect::<std::collections::BTreeSet<Date>>()
        .into_iter()
        .filter_map(km_of)
        .collect();
    if before.len() < usize::from(WEEKS_BEFORE) {
        return None;
    }
    let mean = before.iter().sum::<f64>() / f64::from(WEEKS_BEFORE);
    let share = km / mean;
    let limit = record.parameters().load_jump_pct / 100.0;
    (0.0 < mean && share.is_finite() && limit < share).then(|| {
        let line = Line::new(codes::M1, "gate-water-jump", Class::Health)
            .with("km", Arg::Number(km, 0))
            .with("mean", Arg::Number(mean, 0))
            .with("share", Arg::Share(share))
            .with("limit", Arg::Share(limit))
            .with("from", Arg::Date(from));
        (last_day, line)
    })
}
