//! What stands around the sessions: who supervises, meets, camps.

use super::entries::{Names, ONLY_THE_WEEK, who};
use super::parts::{CAMPS, GROUPS, MEETS, NAME, SUPERVISORS};
use super::problem::{BAD_DATE, BAD_GRADE, Report};
use super::table::{Key, Table};
use super::when::{DAYS, Days, FROM, MINUTES, TIME, TO, WHEN, date, days_of, span, spans_of, written_spans};
use crate::time::Span;
use crate::week::{Camp, Grade, Meet, Supervisor, Week};

pub(super) fn supervisors(root: &Table<'_>, days: &Days, week: &mut Week, report: &mut Report<'_>) {
    const HOURS: Key = &["hours", "available", "availability", "shifts"];
    const RATIO: Key = &["ratio", "swimmers", "max_swimmers", "ratio_from_13"];
    const RATIO_YOUNG: Key = &["ratio_under_13", "ratio_young", "ratio_u13"];
    for table in root.tables(SUPERVISORS, report) {
        table.only(&[NAME, HOURS, RATIO, RATIO_YOUNG, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
        let Some((name, _)) = table.need(NAME, report).and_then(|_| table.text(NAME, report)) else {
            continue;
        };
        let mut hours = Vec::new();
        let is_text = table.find(HOURS, report).is_some_and(|value| {
            let first = value.get_ref().as_array().and_then(|list| list.first()).unwrap_or(value);
            first.get_ref().as_str().is_some()
        });
        if is_text {
            let texts = table.texts(HOURS, report).unwrap_or_default();
            hours.extend(written_spans(texts, days, ONLY_THE_WEEK, report));
        } else if table.find(HOURS, report).is_some() {
            for shift in table.tables(HOURS, report) {
                shift.only(&[DAYS, FROM, TO, TIME, MINUTES], report);
                hours.extend(spans_of(&shift, days, ONLY_THE_WEEK, None, report));
            }
        }
        let has_own = [FROM, TIME, WHEN].iter().any(|key| table.find(key, report).is_some());
        if has_own {
            hours.extend(spans_of(&table, days, ONLY_THE_WEEK, None, report));
        } else if table.find(HOURS, report).is_none() {
            table.need(HOURS, report);
        }
        let ratio = table.whole(RATIO, (1, 40), report);
        let young = table.whole(RATIO_YOUNG, (1, 40), report);
        let usual = week.settings.ratio;
        // Whoever may watch few may watch no more of the young.
        let ratio = match (young, ratio) {
            (None, None) => None,
            (young, ratio) => {
                let older = ratio.unwrap_or(usual[1]);
                Some([young.unwrap_or(usual[0].min(older)), older])
            }
        };
        // Hours that touch are one stretch: a session may run over the seam.
        hours.sort_unstable();
        let mut joined: Vec<Span> = Vec::new();
        for span in hours {
            match joined.last_mut() {
                Some(last) if span.start <= last.end => last.end = last.end.max(span.end),
                _ => joined.push(span),
            }
        }
        week.supervisors.push(Supervisor { name, hours: joined, ratio });
    }
}

pub(super) fn meets(root: &Table<'_>, days: &Days, week: &mut Week, names: &Names, report: &mut Report<'_>) {
    const GRADE: Key = &["grade", "importance", "level", "class"];
    const UNTIL: Key = &["last_day", "until_day", "last"];
    for table in root.tables(MEETS, report) {
        table.only(&[NAME, GRADE, GROUPS, DAYS, FROM, TO, TIME, MINUTES, UNTIL], report);
        let name = table.text(NAME, report).map_or_else(|| "meet".to_owned(), |(name, _)| name);
        let grade = match table.need(GRADE, report).and_then(|_| table.text(GRADE, report)) {
            None => continue,
            Some((text, at)) => match text.trim().to_uppercase().as_str() {
                "A" => Grade::A,
                "B" => Grade::B,
                "C" => Grade::C,
                _ => {
                    report.add(&BAD_GRADE, at, [text]);
                    continue;
                }
            },
        };
        let groups = who(&table, names, report);
        // `from` and `to` of a meet may be days; then the times are those of the whole day.
        let dates = [FROM, TO].map(|key| table.text(key, report).and_then(|(text, _)| date(&text)));
        let has_times =
            (table.find(FROM, report).is_some() || table.find(TIME, report).is_some()) && dates[0].is_none();
        let spans = if has_times {
            let spans = spans_of(&table, days, ONLY_THE_WEEK, Some(10 * 60), report);
            joined(spans)
        } else {
            let mut on = match dates[0] {
                Some(first) => vec![first],
                None => {
                    table.need(DAYS, report);
                    days_of(&table, days, ONLY_THE_WEEK, report).unwrap_or_default()
                }
            };
            let last = dates[1].or_else(|| {
                table.text(UNTIL, report).and_then(|(text, at)| {
                    let day = date(&text);
                    if day.is_none() {
                        report.add(&BAD_DATE, at, [text]);
                    }
                    day
                })
            });
            on.extend(last);
            let (Some(first), Some(last)) = (on.iter().min(), on.iter().max()) else { continue };
            // Without a time the first start is taken to be at 08:00: early, so on the careful side.
            span(&days.zone, first.at(8, 0, 0, 0), last.at(20, 0, 0, 0), table.at.clone(), report)
                .into_iter()
                .collect()
        };
        for span in spans {
            week.meets.push(Meet { name: name.clone(), grade, groups: groups.clone(), span });
        }
    }
}

/// Days of one meet are one meet, from the first start to the last end.
fn joined(spans: Vec<Span>) -> Vec<Span> {
    let first = spans.iter().min().copied();
    let last = spans.iter().map(|span| span.end).max();
    first.zip(last).map(|(first, end)| Span { start: first.start, end }).into_iter().collect()
}

pub(super) fn camps(root: &Table<'_>, week: &mut Week, names: &Names, report: &mut Report<'_>) {
    for table in root.tables(CAMPS, report) {
        table.only(&[NAME, GROUPS, FROM, TO], report);
        let mut day = |key: Key| {
            table.need(key, report)?;
            let (text, at) = table.text(key, report)?;
            let day = date(&text);
            if day.is_none() {
                report.add(&BAD_DATE, at, [text]);
            }
            day
        };
        if let (Some(from), Some(to)) = (day(FROM), day(TO)) {
            if to < from {
                report.add(&super::problem::BACKWARDS, table.at.clone(), [from.to_string(), to.to_string()]);
            }
            week.camps.push(Camp { groups: who(&table, names, report), from, to });
        }
    }
}
