//! Everything dated: water, deck, supervisors, meets, closures, school, other loads, camps, known sessions, requests.

use std::ops::Range;

use super::parts::{
    BUSY, CLOSURES, GROUPS, KNOWN, LOADS, MEETS, NAME, REQUESTS, SLOTS, SUPERVISORS, WATER, WINDOWS, too_many,
};
use super::problem::{BLANK_REASON, OVERLAP, Report, UNKNOWN_NAME, nearest};
use super::table::{Key, Table};
use super::when::{DAYS, Days, FROM, MINUTES, Reach, TIME, TO, WHEN, days_of, span, spans_of};
use super::{Note, around};
use crate::time::Span;
use crate::week::request::Request;
use crate::week::{Busy, Closure, Known, Load, MOST_ENTRIES, Override, Place, Slot, Water, Week, Window};

/// Names of groups and places, without regard to case.
#[derive(Default)]
pub(super) struct Names {
    groups: Vec<String>,
    places: Vec<String>,
}

impl Names {
    /// Adds a group; false when it is there already.
    pub(super) fn add_group(&mut self, name: &str) -> bool {
        let is_new = self.groups.iter().all(|known| !known.eq_ignore_ascii_case(name));
        if is_new {
            self.groups.push(name.to_owned());
        }
        is_new
    }

    pub(super) fn add_place(&mut self, name: &str) {
        self.places.push(name.to_owned());
    }

    pub(super) fn place(&self, name: &str) -> Option<usize> {
        self.places.iter().position(|known| known.eq_ignore_ascii_case(name))
    }

    fn group(&self, name: &str) -> Option<usize> {
        self.groups.iter().position(|known| known.eq_ignore_ascii_case(name))
    }
}

/// Reports a name nobody has introduced.
pub(super) fn unknown(kind: &str, name: &str, known: &[&str], at: Range<usize>, report: &mut Report<'_>) {
    let near = nearest(name, known.iter().copied());
    report.add(&UNKNOWN_NAME, at, [kind.to_owned(), name.to_owned(), near, known.join(", ")]);
}

/// Place of a session when none is named.
const DECK: &str = "deck";
const PLACE: Key = &["place", "where", "venue", "location", "hall", "deck", "pool"];
pub(super) const ONLY_THE_WEEK: Reach = Reach { before: 0, after: 0 };
/// A weekly practice also stands on the day after the last: dryland late on a Sunday must keep away from Monday.
const WATER_REACH: Reach = Reach { before: 1, after: 1 };
/// A weekly load also stands on the days around: it takes free days on both sides.
const LOAD_REACH: Reach = Reach { before: 3, after: 3 };

pub(super) fn read(
    root: &Table<'_>,
    days: &Days,
    week: &mut Week,
    names: &mut Names,
    notes: &mut Vec<Note>,
    report: &mut Report<'_>,
) -> Option<(Vec<Request>, Vec<Option<i64>>)> {
    for (kind, key) in [
        ("practices", WATER),
        ("windows", WINDOWS),
        ("slots", SLOTS),
        ("supervisors", SUPERVISORS),
        ("meets", MEETS),
        ("closures", CLOSURES),
        ("school", BUSY),
        ("loads", LOADS),
        ("known", KNOWN),
        ("requests", REQUESTS),
    ] {
        if too_many(kind, root.tables(key, report).len(), MOST_ENTRIES, report) {
            return None;
        }
    }
    let every = windows(root, days, week, names, report);
    slots(root, days, week, names, report);
    let closed_water = closures(root, days, week, names, report);
    water(root, days, week, names, &closed_water, notes, report);
    around::supervisors(root, days, week, report);
    around::meets(root, days, week, names, report);
    for (key, reach) in [(BUSY, WATER_REACH), (LOADS, LOAD_REACH)] {
        for table in root.tables(key, report) {
            table.only(&[NAME, GROUPS, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
            let name = table.text(NAME, report).map_or_else(|| table.within.clone(), |(name, _)| name);
            let groups = who(&table, names, report);
            for span in spans_of(&table, days, reach, None, report) {
                let (name, groups) = (name.clone(), groups.clone());
                if key == BUSY {
                    week.busy.push(Busy { name, groups, span });
                } else {
                    week.loads.push(Load { name, groups, span });
                }
            }
        }
    }
    around::camps(root, week, names, report);
    known(root, days, week, names, report);
    let requests = requests(root, days, week, names, report);
    if week.places.is_empty() {
        place_named(DECK, week, names);
    }
    Some((requests, every))
}

/// Groups an entry is about; all when none is named.
pub(super) fn who(table: &Table<'_>, names: &Names, report: &mut Report<'_>) -> Vec<usize> {
    let Some(words) = table.texts(GROUPS, report) else { return (0..names.groups.len()).collect() };
    let mut groups = Vec::new();
    for (word, at) in words {
        if matches!(word.to_lowercase().as_str(), "all" | "everybody" | "everyone") {
            groups.extend(0..names.groups.len());
            continue;
        }
        for word in word.split([',', ';']).map(str::trim).filter(|word| !word.is_empty()) {
            match names.group(word) {
                Some(group) => groups.push(group),
                None => {
                    let known: Vec<&str> = names.groups.iter().map(String::as_str).collect();
                    unknown("group", word, &known, at.clone(), report);
                }
            }
        }
    }
    groups.sort_unstable();
    groups.dedup();
    groups
}

fn place_named(name: &str, week: &mut Week, names: &mut Names) -> usize {
    names.place(name).unwrap_or_else(|| {
        names.add_place(name);
        week.places.push(Place { name: name.to_owned(), groups_at_once: 1, people: None });
        names.places.len() - 1
    })
}

/// The place of an entry: named, or the only one there is, or the deck.
fn place_of(table: &Table<'_>, week: &mut Week, names: &mut Names, report: &mut Report<'_>) -> usize {
    match table.text(PLACE, report) {
        Some((name, _)) => place_named(&name, week, names),
        None if week.places.len() == 1 => 0,
        None => place_named(DECK, week, names),
    }
}

fn windows(
    root: &Table<'_>,
    days: &Days,
    week: &mut Week,
    names: &mut Names,
    report: &mut Report<'_>,
) -> Vec<Option<i64>> {
    const EVERY: Key = &["every", "every_minutes", "step", "step_minutes"];
    const AT_ONCE: Key = &["groups_at_once", "groups", "capacity", "at_once"];
    let mut every = Vec::new();
    for table in root.tables(WINDOWS, report) {
        table.only(&[NAME, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES, EVERY, AT_ONCE], report);
        let place = match (table.find(PLACE, report), table.text(NAME, report)) {
            (None, Some((name, _))) => place_named(&name, week, names),
            _ => place_of(&table, week, names, report),
        };
        if let Some(at_once) = table.whole(AT_ONCE, (1, 100), report) {
            week.places[place].groups_at_once = week.places[place].groups_at_once.max(at_once);
        }
        let step = table.whole(EVERY, (5, 240), report).map(i64::from);
        for span in spans_of(&table, days, ONLY_THE_WEEK, None, report) {
            week.windows.push(Window { place, span });
            every.push(step);
        }
    }
    every
}

fn slots(root: &Table<'_>, days: &Days, week: &mut Week, names: &mut Names, report: &mut Report<'_>) {
    for table in root.tables(SLOTS, report) {
        table.only(&[NAME, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
        let place = place_of(&table, week, names, report);
        let usual = week.groups.iter().map(|group| group.minutes).max();
        for span in spans_of(&table, days, ONLY_THE_WEEK, usual, report) {
            if week.slot_at(place, span).is_none() {
                week.slots.push(Slot { place, span, in_window: true, exact: false });
            }
        }
    }
}

/// A closed place by its name, with where that stands: a place of dryland, a pool, or a slip of the pen.
struct ClosedPlace {
    name: String,
    at: Range<usize>,
    spans: Vec<Span>,
}

/// Closures of places; all are handed back, for the practices there.
fn closures(
    root: &Table<'_>,
    days: &Days,
    week: &mut Week,
    names: &mut Names,
    report: &mut Report<'_>,
) -> Vec<ClosedPlace> {
    const WHY: Key = &["reason", "why", "name", "what", "note"];
    let mut closed = Vec::new();
    for table in root.tables(CLOSURES, report) {
        table.only(&[WHY, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
        let named = table.text(PLACE, report);
        let why = table.text(WHY, report).map_or_else(|| "closed".to_owned(), |(why, _)| why);
        let has_times = [FROM, TIME, WHEN].iter().any(|key| table.find(key, report).is_some());
        let spans = if has_times {
            spans_of(&table, days, ONLY_THE_WEEK, None, report)
        } else {
            if table.find(DAYS, report).is_none() {
                table.need(DAYS, report);
            }
            days_of(&table, days, ONLY_THE_WEEK, report)
                .unwrap_or_default()
                .into_iter()
                .filter_map(|day| {
                    span(&days.zone, day.at(0, 0, 0, 0), day.at(23, 59, 0, 0), table.at.clone(), report)
                })
                .collect()
        };
        for span in &spans {
            match named.as_ref().map(|(name, _)| names.place(name)) {
                // A place where no dryland is: a pool.
                Some(None) => {}
                Some(place) => week.closures.push(Closure { place, span: *span, why: why.clone() }),
                None => week.closures.push(Closure { place: None, span: *span, why: why.clone() }),
            }
        }
        if let Some((name, at)) = named {
            closed.push(ClosedPlace { name, at, spans });
        }
    }
    closed
}

fn water(
    root: &Table<'_>,
    days: &Days,
    week: &mut Week,
    names: &Names,
    closed: &[ClosedPlace],
    notes: &mut Vec<Note>,
    report: &mut Report<'_>,
) {
    let mut pools: Vec<String> = Vec::new();
    for table in root.tables(WATER, report) {
        table.only(&[NAME, GROUPS, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
        let groups = who(&table, names, report);
        let place = table.text(PLACE, report).map(|(place, _)| place);
        let named = table.text(NAME, report).map(|(name, _)| name);
        pools.extend(place.clone());
        for span in spans_of(&table, days, WATER_REACH, None, report) {
            let name = named.clone().unwrap_or_else(|| {
                let (from, to) = (span.start.civil().strftime("%H:%M"), span.end.civil().strftime("%H:%M"));
                format!("practice {from}-{to}")
            });
            let is_closed = place.as_deref().is_some_and(|place| {
                closed.iter().any(|one| {
                    one.name.eq_ignore_ascii_case(place)
                        && one.spans.iter().any(|stretch| stretch.overlaps(span))
                })
            });
            if is_closed {
                let place = place.clone().unwrap_or_default();
                notes.push(Note::PracticeCancelled { practice: name, place, day: span.day() });
                continue;
            }
            overlap(week, names, &groups, span, &table, report);
            week.water.push(Water { name, groups: groups.clone(), span });
        }
        if MOST_ENTRIES < week.water.len() {
            too_many("practices", week.water.len(), MOST_ENTRIES, report);
            return;
        }
    }
    for one in closed {
        let is_pool = pools.iter().any(|pool| pool.eq_ignore_ascii_case(&one.name));
        if !is_pool && names.place(&one.name).is_none() {
            let known: Vec<&str> = names.places.iter().chain(&pools).map(String::as_str).collect();
            unknown("place", &one.name, &known, one.at.clone(), report);
        }
    }
}

/// Nobody swims in two practices at once.
fn overlap(
    week: &Week,
    names: &Names,
    groups: &[usize],
    span: Span,
    table: &Table<'_>,
    report: &mut Report<'_>,
) {
    let clash = week.water.iter().find_map(|other| {
        let both = groups.iter().find(|group| other.groups.contains(group));
        both.filter(|_| other.span.overlaps(span)).map(|group| (*group, other.span))
    });
    if let Some((group, other)) = clash {
        report.add(
            &OVERLAP,
            table.at.clone(),
            [names.groups[group].clone(), other.to_string(), span.to_string()],
        );
    }
}

fn one_group(table: &Table<'_>, names: &Names, report: &mut Report<'_>) -> Vec<usize> {
    if table.need(GROUPS, report).is_none() { Vec::new() } else { who(table, names, report) }
}

fn known(root: &Table<'_>, days: &Days, week: &mut Week, names: &mut Names, report: &mut Report<'_>) {
    const OVERRIDE: Key = &["override", "overruled", "overrule"];
    const BY: Key = &["by", "name", "who"];
    const REASON: Key = &["reason", "why"];
    for table in root.tables(KNOWN, report) {
        table.only(&[NAME, GROUPS, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES, OVERRIDE], report);
        let groups = one_group(&table, names, report);
        let place = place_of(&table, week, names, report);
        let overruled = table.table(OVERRIDE, report).and_then(|own| {
            own.only(&[BY, REASON], report);
            let by = own.need(BY, report).and_then(|_| own.text(BY, report));
            let reason = own.text(REASON, report);
            if reason.is_none() {
                report.add(&BLANK_REASON, own.at.clone(), []);
            }
            Some(Override { by: by?.0, reason: reason?.0 })
        });
        let usual = groups.first().map(|group| week.groups[*group].minutes);
        for span in spans_of(&table, days, ONLY_THE_WEEK, usual, report) {
            for group in &groups {
                // A session of the days around is a load: it stands, and takes free days.
                if span.day() < week.first || week.last < span.day() {
                    let name = "session".to_owned();
                    week.loads.push(Load { name, groups: vec![*group], span });
                } else {
                    week.known.push(Known { group: *group, place, span, overruled: overruled.clone() });
                }
            }
        }
    }
}

fn requests(
    root: &Table<'_>,
    days: &Days,
    week: &mut Week,
    names: &mut Names,
    report: &mut Report<'_>,
) -> Vec<Request> {
    let mut all = Vec::new();
    for table in root.tables(REQUESTS, report) {
        table.only(&[NAME, GROUPS, PLACE, WHEN, DAYS, FROM, TO, TIME, MINUTES], report);
        let groups = one_group(&table, names, report);
        let place = place_of(&table, week, names, report);
        let usual = groups.first().map(|group| week.groups[*group].minutes);
        for span in spans_of(&table, days, ONLY_THE_WEEK, usual, report) {
            all.extend(groups.iter().map(|group| Request { group: *group, place, span }));
        }
    }
    all
}
