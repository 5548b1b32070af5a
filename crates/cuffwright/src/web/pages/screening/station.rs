//! One station of a screening day: everybody in one form, saved row by row. Whatever was typed and not yet saved comes
//! back as it was. Enter saves the rows that are complete and moves on to the next empty box.

use app::desk::{Desk, Person};
use app::facts::{ClinicianFact, PainFact, Problem as FactProblem, Units};
use app::screening::row::{self, Row, Setting, boxes, places};
use app::screening::save::{Prepared, on_record, prepare};
use app::views::people::{Find, find, squads};
use axum::http::StatusCode;
use maud::{Markup, html};
use trade::screening::measure::{Measure, Station};

use super::{grid, measure_name, station_name};
use crate::web::error::WebError;
use crate::web::layout::Frame;
use crate::web::pages::record::take::Taking;
use crate::web::pages::shared::name;
use crate::web::parts::ask::{Ask, Control, Group, asks};
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// One swimmer's row as it will be drawn.
pub struct Shown<'a> {
    /// Who.
    pub person: &'a Person,
    /// Begins the names of its boxes.
    pub key: String,
    /// What stands in the boxes, by name without the key.
    pub typed: Vec<(String, String)>,
    /// What stood there when it was last in step with the record.
    pub was: String,
    /// Every place has a value or a reason, and the record says the same.
    pub done: bool,
    /// A person must say that it is meant.
    pub asks_meant: bool,
    /// It was saved just now.
    pub saved: bool,
}

impl Shown<'_> {
    /// What stands in one box.
    pub fn typed(&self, name: &str) -> &str {
        self.typed.iter().find(|(known, _)| known == name).map_or("", |(_, value)| value)
    }
}

fn station_of(visit: &Visit) -> Result<Station, WebError> {
    Station::from_word(visit.param("station")).ok_or_else(WebError::missing)
}

/// The empty grid, or what is on record of that day already.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let station = station_of(visit)?;
    let given = with_defaults(visit, station, &visit.query);
    let (setting, wrong) = setting_of(desk, visit, station, &given);
    let mut rows = Vec::new();
    for person in people(desk, visit, &given) {
        let key = key_of(person);
        let found = on_record(desk, person.subject, setting.date, station.word())?;
        let mut typed: Vec<(String, String)> = Vec::new();
        for place in places(&setting.measures) {
            if place.measure.is_body_size {
                typed.extend(
                    found.growth.iter().flat_map(|(_, fact)| grid::size_box(place, fact, setting.units)),
                );
                continue;
            }
            let side = place.side.map(Into::into);
            let finding = found.screening.iter().find_map(|(_, fact)| {
                fact.findings.iter().find(|finding| finding.key == place.measure.key && finding.side == side)
            });
            typed.extend(finding.iter().flat_map(|finding| boxes(place, finding, setting.units)));
        }
        if let Some((_, fact)) = &found.screening {
            for side in trade::side::Side::BOTH {
                let seen = fact.visible_hollow.contains(&side.into());
                if seen || fact.looked_behind {
                    let word = if seen { "yes" } else { "no" };
                    typed.push((format!("hollow.{}", side.word()), word.to_owned()));
                }
            }
        }
        if station == Station::CheckIn {
            // Of several reports of the day the higher number is shown.
            let highest = |of: fn(&PainFact) -> Option<i64>| found.pains.iter().filter_map(of).max();
            for (side, number) in [("left", highest(|pain| pain.left)), ("right", highest(|pain| pain.right))]
            {
                typed.extend(number.map(|number| (format!("pain.{side}"), number.to_string())));
            }
        }
        let was = joined(&typed);
        let read = row::read(&setting, |name| value_of(&typed, name), true);
        rows.push(Shown { person, key, typed, was, done: read.complete, asks_meant: false, saved: false });
    }
    page(desk, visit, &setting, &given, &rows, &wrong, None)
}

/// Saves what can be saved and gives everything else back.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let station = station_of(visit)?;
    let (setting, mut wrong) = setting_of(desk, visit, station, sent);
    let act = sent.one("do").to_owned();
    let may_save = wrong.is_empty() && act != "setup";
    let subjects: Vec<_> = people(desk, visit, sent).iter().map(|person| person.subject).collect();
    let mut states = Vec::new();
    let mut saved = 0;
    let mut unsaved = 0;
    for subject in subjects {
        let (key, who) = {
            let person = desk.person(subject)?;
            (key_of(person), name(person))
        };
        let prefix = format!("{key}.");
        let typed: Vec<(String, String)> = sent
            .pairs()
            .iter()
            .filter_map(|(name, value)| Some((name.strip_prefix(&prefix)?, value.trim())))
            .filter(|(name, value)| !value.is_empty() && *name != "was" && *name != "meant")
            .map(|(name, value)| (name.to_owned(), value.to_owned()))
            .collect();
        let mut was = sent.one(&format!("{key}.was")).to_owned();
        let now = joined(&typed);
        let meant = sent.has(&format!("{key}.meant"), "yes");
        let read = row::read(&setting, |name| value_of(&typed, name), meant);
        let mut state =
            State { subject, key, typed, asks_meant: false, saved: false, done: false, was: String::new() };
        if now != was || meant {
            let wanted = match act.strip_prefix("row:") {
                Some(only) => only == state.key,
                None => read.begun && (act == "all" || read.complete || !read.wrong.is_empty()),
            };
            if may_save && wanted {
                match keep(desk, visit, &setting, &read, &state, meant, &who, &mut wrong)? {
                    Kept::Saved(is_new) => {
                        was.clone_from(&now);
                        state.saved = is_new;
                        saved += usize::from(is_new);
                    }
                    Kept::Asks => state.asks_meant = true,
                    Kept::Wrong => {}
                }
            }
        }
        unsaved += usize::from(now != was);
        state.done = read.complete && now == was;
        state.was = was;
        states.push(state);
    }
    let count = |id: &str, n: usize| say(id, &[("n", Value::Count(i64::try_from(n).unwrap_or(i64::MAX)))]);
    let said = format!("{} {}", count("station-saved", saved), count("station-unsaved", unsaved));
    let told = match (wrong.is_empty(), act.as_str()) {
        (true, "setup") => None,
        (true, _) if 0 < saved => Some(outcome(Outcome::Done, &said)),
        (true, _) => Some(outcome(Outcome::Unchanged, &said)),
        (false, _) => {
            let asks = states.iter().any(|state| state.asks_meant);
            Some(outcome(if asks { Outcome::Ask } else { Outcome::Refused }, &said))
        }
    };
    let mut rows = Vec::new();
    for state in states {
        rows.push(Shown {
            person: desk.person(state.subject)?,
            key: state.key,
            typed: state.typed,
            was: state.was,
            done: state.done,
            asks_meant: state.asks_meant,
            saved: state.saved,
        });
    }
    page(desk, visit, &setting, sent, &rows, &wrong, told)
}

struct State {
    subject: store::SubjectId,
    key: String,
    typed: Vec<(String, String)>,
    was: String,
    done: bool,
    asks_meant: bool,
    saved: bool,
}

enum Kept {
    Saved(bool),
    Asks,
    Wrong,
}

#[expect(clippy::too_many_arguments, reason = "one step of a loop, taken out to be read by itself")]
fn keep(
    desk: &mut Desk,
    visit: &Visit,
    setting: &Setting,
    read: &Row,
    state: &State,
    meant: bool,
    who: &str,
    wrong: &mut Vec<Problem>,
) -> Result<Kept, WebError> {
    let mut tell = |boxes: &[(String, FactProblem)]| {
        for (at, problem) in boxes {
            wrong.push(Problem {
                place: who.to_owned(),
                says: app::text::Texts::english().say(problem.says, &problem.args),
                hint: String::new(),
                field: Some(format!("{}.{at}", state.key)),
            });
        }
    };
    tell(&read.wrong);
    if !read.wrong.is_empty() {
        return Ok(Kept::Wrong);
    }
    if !read.unusual.is_empty() && !meant {
        tell(&read.unusual);
        return Ok(Kept::Asks);
    }
    let why = text("station-correction");
    match prepare(desk, state.subject, setting, read, (meant, &why))? {
        Prepared::Record(drafts) => {
            visit.record(desk, state.subject, &drafts)?;
            Ok(Kept::Saved(true))
        }
        Prepared::Unchanged => Ok(Kept::Saved(false)),
        Prepared::TakesPainBack => {
            let first = places(&setting.measures).first().map(|place| place.name("1")).unwrap_or_default();
            tell(&[(first, FactProblem::at("", "screening-takes-pain-back"))]);
            Ok(Kept::Asks)
        }
    }
}

fn value_of<'a>(typed: &'a [(String, String)], name: &str) -> &'a str {
    typed.iter().find(|(known, _)| known == name).map_or("", |(_, value)| value.as_str())
}

/// Everything typed in a row, in one line and in a fixed order: what tells whether something changed.
fn joined(typed: &[(String, String)]) -> String {
    let mut all: Vec<String> = typed
        .iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(name, value)| format!("{name}={value}"))
        .collect();
    all.sort_unstable();
    all.join("|")
}

/// The id, not the place in the list: a list that has changed meanwhile must not move values to another.
fn key_of(person: &Person) -> String {
    format!("s{}", person.subject.uuid().simple())
}

fn people<'a>(desk: &'a Desk, visit: &Visit, given: &Sent) -> Vec<&'a Person> {
    let sought = Find { squad: given.one("squad").to_owned(), ..Find::default() };
    find(desk, visit.today(), &sought).into_iter().map(|found| found.person).collect()
}

/// Today, whoever asks, and the licence of whoever asks, if there is one that is valid.
fn with_defaults(visit: &Visit, station: Station, given: &Sent) -> Sent {
    let mut with = given.clone();
    let mut fill = |name: &str, value: &str| {
        if with.one(name).is_empty() {
            with = with.clone().with(name, value);
        }
    };
    fill("date", &visit.today().to_string());
    fill("tester", &visit.author().name);
    let licence = visit.who.as_ref().and_then(|who| who.licence.as_ref().map(|licence| (who, licence)));
    if let Some((who, licence)) = licence.filter(|(_, licence)| licence.is_valid_on(visit.today()))
        && station.is_licensed()
    {
        fill("clinician", &who.name);
        fill("licence", &licence.number);
        fill("licence_until", &licence.until.to_string());
    }
    with
}

fn head_asks(desk: &Desk, visit: &Visit, station: Station) -> Vec<Ask> {
    let mut all = vec![
        Ask::new("date", "ask-date", Control::Day).needed(),
        Ask::new("tester", "ask-tester", Control::Line).needed(),
    ];
    let squads = squads(desk, visit.today());
    if 1 < squads.len() {
        let mut options = vec![(String::new(), text("session-all"))];
        options.extend(squads.into_iter().map(|squad| (squad.clone(), squad)));
        all.push(Ask::new("squad", "filter-squad", Control::Pick(options)));
    }
    if station.is_licensed() {
        all.push(Ask::new("clinician", "ask-clinician", Control::Line).needed());
        all.push(Ask::new("licence", "ask-licence", Control::Line).needed());
        all.push(Ask::new("licence_until", "ask-licence-until", Control::Day).needed());
    }
    if !matches!(station, Station::CheckIn | Station::Body) {
        all.push(Ask::new("device", "station-device", Control::Line).hint("station-device-hint"));
        all.push(Ask::new("hours", "station-hours", Control::Number).hint("station-hours-hint"));
    }
    let extra: Vec<&Measure> = {
        let usual = row::usual(station);
        station.measures().filter(|measure| !usual.iter().any(|one| one.key == measure.key)).collect()
    };
    if !extra.is_empty() {
        let options = station.measures().map(|measure| (measure.key.to_owned(), measure_name(measure.key)));
        let group = Group {
            heading: String::new(),
            then: String::new(),
            word: "measures",
            options: options.collect(),
        };
        all.push(Ask::new("measure", "station-measures", Control::Several(vec![group])));
    }
    all
}

/// What holds for the whole station, as far as it can be read.
fn setting_of(desk: &Desk, visit: &Visit, station: Station, given: &Sent) -> (Setting, Vec<Problem>) {
    let asked = head_asks(desk, visit, station);
    let mut taking = Taking::new(given, &asked, visit.today());
    let date = taking.past_day("date").unwrap_or(visit.today());
    let tester = taking.words("tester").unwrap_or_default();
    let hours = taking.number_or_none("hours");
    if hours.is_some_and(|hours| !(0.0..=1000.0).contains(&hours)) {
        taking.wrong("hours", text("station-hours-range"));
    }
    let clinician = match (given.some("clinician"), given.some("licence"), given.some("licence_until")) {
        (Some(name), Some(licence), Some(_)) => {
            taking.day_or_none("licence_until").flatten().map(|licence_until| ClinicianFact {
                name: name.to_owned(),
                licence: licence.to_owned(),
                licence_until,
            })
        }
        _ => None,
    };
    let chosen: Vec<&str> = given.all("measure").filter(|key| !key.is_empty()).collect();
    let measures: Vec<&'static Measure> = if chosen.is_empty() {
        row::usual(station)
    } else {
        station.measures().filter(|measure| chosen.contains(&measure.key)).collect()
    };
    let units = desk.club().about.as_ref().map_or(Units::Metric, |club| club.units);
    let setting = Setting {
        station,
        measures,
        date,
        tester,
        device: given.some("device").map(str::to_owned),
        hours_since_swim: hours,
        clinician,
        units,
    };
    (setting, taking.problems)
}

fn page(
    desk: &Desk,
    visit: &Visit,
    setting: &Setting,
    given: &Sent,
    rows: &[Shown<'_>],
    wrong: &[Problem],
    told: Option<Markup>,
) -> Answer {
    let station = setting.station;
    let title = say("station-title", &[("station", Value::Words(&station_name(station)))]);
    let lede = text(&format!("station-{}-lede", station.word()));
    let frame = Frame {
        title: &title,
        lede: Some(&lede),
        here: super::HERE,
        outcome: told.as_ref(),
        ..Frame::default()
    };
    let done = rows.iter().filter(|row| row.done).count();
    let is_open = setting.is_open();
    let mut head = given.clone();
    if given.all("measure").all(str::is_empty) {
        for measure in &setting.measures {
            head = head.with("measure", measure.key);
        }
    }
    let next = grid::next_empty(setting, rows);
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        (stations(visit, station, setting))
        form.station method="post" action={ "/screening/" (station.word()) } novalidate {
            (visit.seals())
            // Enter presses the first button of a form: this one.
            div.station-bar {
                p { (say("station-done", &[("n", Value::Count(done as i64)), ("of", Value::Count(rows.len() as i64))])) }
                button.button type="submit" name="do" value="next" { (text("station-next")) }
            }
            details.station-setup open[!is_open || wrong.iter().any(|problem| problem.field.as_deref().is_some_and(|field| !field.starts_with('s') || !field.contains('.')))] {
                summary { (text("station-setup")) }
                div.station-asks { (asks("", &head_asks(desk, visit, station), &head, wrong)) }
                button.button.button-plain type="submit" name="do" value="setup" { (text("station-apply")) }
            }
            @if is_open {
                p.quiet { (text("station-how")) }
                @for row in rows { (grid::row(desk, visit, setting, row, wrong, next.as_deref())) }
                div.station-end {
                    button.button.button-plain type="submit" name="do" value="all" { (text("station-all")) }
                }
            } @else {
                p.station-locked { b { (text("station-locked")) } " " (text("station-locked-why")) }
            }
        }
    };
    let status = if wrong.is_empty() { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY };
    visit.page_as(desk, status, frame, body)
}

/// The other stations, in the order of the day.
fn stations(visit: &Visit, here: Station, setting: &Setting) -> Markup {
    let is_today = setting.date == visit.today();
    html! {
        nav.squads aria-label=(text("screening-stations")) { ul {
            @for station in Station::ALL {
                li {
                    a href={ "/screening/" (station.word()) @if !is_today { "?date=" (setting.date) } }
                        aria-current=[(station == here).then_some("page")] { (station_name(station)) }
                }
            }
        } }
    }
}
