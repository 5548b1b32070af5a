//! The head of the file, settings, groups, places; then everything dated, which [`super::entries`] reads.

use jiff::ToSpan;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use toml::de::DeTable;

use super::entries::{self, Names};
use super::problem::{
    AT_LEAST, BAD_DATE, DUPLICATE, MISSING, NO_GROUPS, Report, TOO_LONG, TOO_MANY, UNKNOWN_ZONE, nearest,
};
use super::table::{Key, Table};
use super::when::{Days, FROM, MINUTES, TO, date, times_of, weekdays};
use super::{Described, Note};
use crate::settings::Settings;
use crate::week::slots::{MOST_SLOTS, after_practices, from_known, from_windows};
use crate::week::{Group, Kit, MOST_ENTRIES, Place, Week, Window, Wish};

pub(super) const ZONE: Key = &["zone", "timezone", "time_zone", "tz"];
const FIRST: Key = &["from", "first", "start", "monday", "week", "week_of", "week_start", "starts"];
const LAST: Key = &["to", "last", "end", "until", "week_end", "ends"];
const SETTINGS: Key = &["settings", "rules", "setting", "thresholds"];
pub(super) const GROUPS: Key = &["groups", "group", "squads", "squad"];
pub(super) const PLACES: Key = &["places", "place", "venues", "venue"];
pub(super) const WATER: Key = &[
    "practices",
    "practice",
    "water",
    "water_practices",
    "water_practice",
    "pool_practices",
    "swim",
    "training",
];
pub(super) const WINDOWS: Key = &[
    "windows",
    "window",
    "deck",
    "deck_windows",
    "deck_window",
    "hall_windows",
    "dryland_windows",
    "deck_hours",
];
pub(super) const SLOTS: Key = &["slots", "slot", "dryland_slots"];
pub(super) const SUPERVISORS: Key = &["supervisors", "supervisor", "staff", "coaches"];
pub(super) const MEETS: Key = &["meets", "meet", "competitions", "competition"];
pub(super) const CLOSURES: Key = &["closures", "closure", "closed"];
pub(super) const BUSY: Key = &["school", "busy", "unavailable", "school_times", "away", "exams"];
pub(super) const LOADS: Key = &["loads", "load", "other_loads", "other_load", "gym", "other_sessions"];
pub(super) const CAMPS: Key = &["camps", "camp"];
const KIT: Key = &["kit", "equipment"];
pub(super) const KNOWN: Key = &["known", "planned", "existing", "sessions", "current", "current_plan"];
pub(super) const REQUESTS: Key = &["requests", "request", "wishes", "asked"];
const TITLE: Key = &["title", "name", "club", "note", "notes", "comment"];
pub(super) const NAME: Key = &["name", "id", "title", "what"];

pub(super) fn walk(root: &DeTable<'_>, report: &mut Report<'_>) -> Option<Described> {
    let root = Table::new(root, 0..0, "the file");
    root.only(
        &[
            TITLE,
            ZONE,
            FIRST,
            LAST,
            SETTINGS,
            GROUPS,
            PLACES,
            WATER,
            WINDOWS,
            SLOTS,
            SUPERVISORS,
            MEETS,
            CLOSURES,
            BUSY,
            LOADS,
            CAMPS,
            KIT,
            KNOWN,
            REQUESTS,
        ],
        report,
    );
    let days = head(&root, report)?;
    let mut week = Week::new(days.zone.clone(), days.first, days.last);
    week.settings = settings(&root, report);
    week.kit = kit(&root, report);
    let mut names = Names::default();
    groups(&root, &mut week, &mut names, report);
    places(&root, &mut week, &mut names, report);
    let mut notes = Vec::new();
    let (requests, every) = entries::read(&root, &days, &mut week, &mut names, &mut notes, report)?;
    if !report.is_empty() {
        return None;
    }
    candidates(&mut week, &every, &mut notes);
    if week.slots.len() == MOST_SLOTS {
        report.add(&TOO_MANY, 0..0, ["slots".to_owned(), MOST_SLOTS.to_string(), MOST_SLOTS.to_string()]);
    }
    Some(Described { week, requests, notes })
}

/// Hours at which dryland may be when nobody says when the deck is ours.
const ANY_HOUR: (i8, i8) = (6, 22);

fn candidates(week: &mut Week, every: &[Option<i64>], notes: &mut Vec<Note>) {
    if week.supervisors.is_empty() {
        notes.push(Note::NoSupervisors);
    }
    let has_slots = !week.slots.is_empty();
    if week.windows.is_empty() && !has_slots {
        notes.push(Note::NoWindows);
        let mut day = week.first;
        while day <= week.last {
            let at = |hour: i8| day.at(hour, 0, 0, 0);
            for place in 0..week.places.len() {
                if let Ok(span) = crate::time::Span::new(&week.zone, at(ANY_HOUR.0), at(ANY_HOUR.1)) {
                    week.windows.push(Window { place, span });
                }
            }
            day = day.saturating_add(1.day());
        }
    }
    from_windows(week, every);
    // Where slots are listed one by one they are the whole choice, and the time after a practice is outside of it.
    if has_slots && week.windows.is_empty() {
        let slots: Vec<Window> =
            week.slots.iter().map(|slot| Window { place: slot.place, span: slot.span }).collect();
        week.windows = slots;
    }
    after_practices(week);
    from_known(week);
}

fn head(root: &Table<'_>, report: &mut Report<'_>) -> Option<Days> {
    let zone = match root.text(ZONE, report) {
        None => {
            report.add(&MISSING, 0..0, [ZONE[0].to_owned(), root.within.clone()]);
            None
        }
        Some((name, at)) => match TimeZone::get(&name) {
            Ok(zone) => Some(zone),
            Err(_) => {
                let known: Vec<String> =
                    jiff::tz::db().available().map(|name| name.as_str().to_owned()).collect();
                let near = nearest(&name, known.iter().map(String::as_str));
                report.add(&UNKNOWN_ZONE, at, [name, near]);
                None
            }
        },
    };
    let mut day = |key: Key, is_needed: bool| -> Option<Date> {
        let Some((text, at)) = root.text(key, report) else {
            if is_needed {
                report.add(&MISSING, 0..0, [key[0].to_owned(), root.within.clone()]);
            }
            return None;
        };
        let day = date(&text);
        if day.is_none() {
            report.add(&BAD_DATE, at, [text]);
        }
        day
    };
    let first = day(FIRST, true);
    let last = day(LAST, false);
    let (zone, first) = (zone?, first?);
    let last = last.unwrap_or_else(|| first.saturating_add(6.days()));
    let length = crate::time::days_between(first, last);
    if !(0..=6).contains(&length) {
        report.add(&TOO_LONG, 0..0, [first.to_string(), last.to_string()]);
        return None;
    }
    Some(Days { zone, first, last })
}

fn settings(root: &Table<'_>, report: &mut Report<'_>) -> Settings {
    const GAP: Key = &[
        "water_gap_hours",
        "gap_hours",
        "gap_h",
        "pre_water_gap_h",
        "pre_water_gap_hours",
        "hours_before_water",
        "water_gap_h",
        "gap_before_water_hours",
        "gap_before_water_h",
    ];
    const FREE: Key = &["free_days", "free_days_between_loaded", "free_days_between"];
    const HOURS: Key = &["hours_between", "min_hours", "min_hours_between_loaded", "min_hours_between"];
    const MEET: Key = &["meet_gap_hours", "meet_gap_h", "meet_gap_ab_h", "meet_gap_ab_hours"];
    const MEET_C: Key = &["meet_gap_c_hours", "meet_gap_c_h"];
    const MOST: Key =
        &["most_sessions", "sessions_week", "sessions_per_week", "max_sessions", "sessions_most"];
    const RATIO: Key =
        &["ratio", "swimmers_per_supervisor", "supervision_ratio", "ratio_13_plus", "ratio_from_13"];
    const RATIO_YOUNG: Key = &["ratio_under_13", "ratio_young", "ratio_u13"];
    const ACTIVATION: Key = &["activation", "activation_allowed"];
    let mut settings = Settings::default();
    let Some(table) = root.table(SETTINGS, report) else { return settings };
    table.only(&[GAP, FREE, HOURS, MEET, MEET_C, MOST, RATIO, RATIO_YOUNG, ACTIVATION], report);
    // The limits are those of the trade's own table.
    if let Some(gap) = table.number(GAP, (3.0, 8.0), report) {
        settings.pre_water_gap_h = gap;
    }
    if let Some(free) = table.whole(FREE, (0, 2), report) {
        settings.free_days = u8::try_from(free).unwrap_or(2);
    }
    if let Some(hours) = table.number(HOURS, (20.0, 48.0), report) {
        settings.min_hours_between = hours;
    }
    if let Some(gap) = table.number(MEET, (24.0, 72.0), report) {
        settings.meet_gap_ab_h = gap;
    }
    if let Some(gap) = table.number(MEET_C, (24.0, 72.0), report) {
        settings.meet_gap_c_h = gap;
    }
    if let Some(most) = table.whole(MOST, (0, 4), report) {
        settings.sessions_week = u8::try_from(most).unwrap_or(4);
    }
    if let Some(ratio) = table.whole(RATIO, (5, 20), report) {
        settings.ratio[1] = ratio;
    }
    if let Some(ratio) = table.whole(RATIO_YOUNG, (5, 20), report) {
        settings.ratio[0] = ratio;
    }
    settings.activation_allowed = table.flag(ACTIVATION, report).unwrap_or(settings.activation_allowed);
    settings
}

fn kit(root: &Table<'_>, report: &mut Report<'_>) -> Vec<Kit> {
    const PIECES: Key = &["pieces", "count", "number", "stock", "quantity"];
    let mut all: Vec<Kit> = Vec::new();
    for table in root.tables(KIT, report) {
        table.only(&[NAME, PIECES], report);
        let name = table.need(NAME, report).and_then(|_| table.text(NAME, report));
        let pieces = table.need(PIECES, report).and_then(|_| table.whole(PIECES, (0, 10_000), report));
        if let (Some((name, at)), Some(pieces)) = (name, pieces) {
            if all.iter().any(|kit| kit.name.eq_ignore_ascii_case(&name)) {
                report.add(&DUPLICATE, at, ["kit".to_owned(), name]);
                continue;
            }
            all.push(Kit { name, pieces });
        }
    }
    all
}

fn groups(root: &Table<'_>, week: &mut Week, names: &mut Names, report: &mut Report<'_>) {
    const SIZE: Key = &["swimmers", "size", "people", "members", "n"];
    const AGE: Key = &["age", "youngest", "min_age", "youngest_age"];
    const YOUNG: Key = &["under_13", "under13", "young", "u13"];
    const TEACHING: Key = &["teaching", "in_teaching", "learning"];
    const SESSIONS: Key = &["sessions", "sessions_per_week", "sessions_week", "per_week", "wanted"];
    const LEAST: Key = &["at_least", "least", "min_sessions", "sessions_min", "minimum"];
    const NEEDS: Key = &["kit", "needs", "equipment"];
    const PREFER: Key = &["prefer", "prefers", "preference", "preferences", "wishes"];
    let tables = root.tables(GROUPS, report);
    if tables.is_empty() {
        report.add(&NO_GROUPS, 0..0, []);
    }
    if too_many("groups", tables.len(), 200, report) {
        return;
    }
    for table in tables {
        table.only(&[NAME, SIZE, AGE, YOUNG, TEACHING, SESSIONS, LEAST, MINUTES, NEEDS, PREFER], report);
        let Some((name, at)) = table.need(NAME, report).and_then(|_| table.text(NAME, report)) else {
            continue;
        };
        if !names.add_group(&name) {
            report.add(&DUPLICATE, at, ["group".to_owned(), name]);
            continue;
        }
        let size = table.need(SIZE, report).and_then(|_| table.whole(SIZE, (1, 500), report)).unwrap_or(1);
        let age = table.number(AGE, (4.0, 100.0), report);
        let young = table.flag(YOUNG, report).unwrap_or(false)
            || table.flag(TEACHING, report).unwrap_or(false)
            || age.is_some_and(|age| age < 13.0);
        let sessions = table.whole(SESSIONS, (0, 7), report).unwrap_or(2);
        let at_least = table.whole(LEAST, (0, 7), report).unwrap_or(sessions);
        if sessions < at_least {
            let values = [name.clone(), at_least.to_string(), sessions.to_string()];
            report.add(&AT_LEAST, table.at.clone(), values);
        }
        week.groups.push(Group {
            name,
            size,
            young,
            sessions: u8::try_from(sessions).unwrap_or(7),
            at_least: u8::try_from(at_least).unwrap_or(7),
            minutes: table.whole(MINUTES, (5, 240), report).map_or(45, i64::from),
            needs: needs(&table, NEEDS, week, report),
            wishes: wishes(&table, PREFER, report),
        });
    }
}

fn needs(table: &Table<'_>, key: Key, week: &Week, report: &mut Report<'_>) -> Vec<(usize, u32)> {
    let Some(table) = table.table(key, report) else { return Vec::new() };
    let mut all = Vec::new();
    for (name, value) in table.entries() {
        let found = week.kit.iter().position(|kit| kit.name.eq_ignore_ascii_case(&name));
        match (found, value.get_ref().as_integer().and_then(|digits| digits.as_str().parse::<u32>().ok())) {
            (Some(at), Some(pieces)) => all.push((at, pieces)),
            (None, _) => {
                let known: Vec<&str> = week.kit.iter().map(|kit| kit.name.as_str()).collect();
                entries::unknown("kit", &name, &known, value.span(), report);
            }
            (_, None) => super::table::wrong(value, &name, "number", report),
        }
    }
    all
}

fn wishes(table: &Table<'_>, key: Key, report: &mut Report<'_>) -> Vec<Wish> {
    const WEIGHT: Key = &["weight", "points"];
    let mut all = Vec::new();
    for wish in table.tables(key, report) {
        wish.only(&[super::when::DAYS, FROM, TO, super::when::TIME, MINUTES, WEIGHT], report);
        let mut days = Vec::new();
        for (word, at) in wish.texts(super::when::DAYS, report).unwrap_or_default() {
            match weekdays(&word) {
                Some(more) => days.extend(more),
                None => report.add(&super::problem::BAD_DAY, at, [word]),
            }
        }
        let has_times = wish.find(FROM, report).is_some() || wish.find(super::when::TIME, report).is_some();
        let (from, to) = if has_times {
            match times_of(&wish, None, report) {
                Some((super::when::Times::Daily(from, to), _)) => {
                    let minute =
                        |time: jiff::civil::Time| i64::from(time.hour()) * 60 + i64::from(time.minute());
                    (minute(from), minute(to))
                }
                _ => continue,
            }
        } else {
            (0, 24 * 60)
        };
        let weight = wish.number(WEIGHT, (-50.0, 50.0), report).unwrap_or(5.0);
        // Within limits, so the conversion is exact but for a fraction of a point.
        all.push(Wish { weekdays: days, from, to, weight: weight.round() as i32 });
    }
    all
}

fn places(root: &Table<'_>, week: &mut Week, names: &mut Names, report: &mut Report<'_>) {
    const AT_ONCE: Key = &["groups_at_once", "groups", "capacity_groups", "at_once", "max_groups"];
    const PEOPLE: Key = &["swimmers", "people", "capacity", "max_swimmers", "room"];
    for table in root.tables(PLACES, report) {
        table.only(&[NAME, AT_ONCE, PEOPLE], report);
        let Some((name, at)) = table.need(NAME, report).and_then(|_| table.text(NAME, report)) else {
            continue;
        };
        if names.place(&name).is_some() {
            report.add(&DUPLICATE, at, ["place".to_owned(), name]);
            continue;
        }
        let at_once = table.whole(AT_ONCE, (1, 100), report);
        let people = table.whole(PEOPLE, (1, 10_000), report);
        names.add_place(&name);
        // With a number of people and none of groups, people are the limit.
        let groups_at_once = at_once.unwrap_or(if people.is_some() { 100 } else { 1 });
        week.places.push(Place { name, groups_at_once, people });
    }
}

/// Reports a list that is longer than a week can be.
pub(super) fn too_many(kind: &str, count: usize, most: usize, report: &mut Report<'_>) -> bool {
    let is_too_many = most.min(MOST_ENTRIES) < count;
    if is_too_many {
        report.add(&TOO_MANY, 0..0, [kind.to_owned(), count.to_string(), most.min(MOST_ENTRIES).to_string()]);
    }
    is_too_many
}
