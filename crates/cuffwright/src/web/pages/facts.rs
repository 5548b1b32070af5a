//! Facts as they were written down: a list, one fact, its correction, and taking it back. Nothing is ever changed in
//! place: what replaces a fact names it and says why.

use app::desk::{Desk, Draft, Person};
use app::facts::{EndWord, Kind, SetFact, read_json};
use axum::http::StatusCode;
use door::permit::Thing;
use maud::{Markup, html};
use store::{Correction, FactId, LiveFact, NewFact};

use super::person::past::kind_word;
use super::record::pain::worded;
use super::record::take::Taking;
use super::shared::{href, name};
use crate::web::error::{Kind as ErrorKind, WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::parts::table::{Column, Paging, paging, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Facts on one page.
const ROWS: usize = 60;
const HERE: Here = Here::Below(Place::People, Spot::People);

fn live(desk: &Desk, person: &Person) -> Result<Vec<LiveFact>, WebError> {
    desk.store().live_facts(person.subject).map_err(|error| WebError::from(app::error::AppError::from(error)))
}

/// The list, newest first as the ids were made.
pub fn list(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let own = href(person);
    let kind = visit.query.one("kind");
    let contested = visit.query.has("contested", "yes");
    let mut facts = live(desk, person)?;
    let mut kinds: Vec<String> = facts.iter().map(|fact| fact.fact.told.kind.clone()).collect();
    kinds.sort_unstable();
    kinds.dedup();
    facts.retain(|fact| (kind.is_empty() || fact.fact.told.kind == kind) && (!contested || fact.contested));
    facts.sort_by_cached_key(|fact| {
        std::cmp::Reverse((date_in(fact.payload()).to_owned(), fact.fact.told.id))
    });
    let pages = u32::try_from(facts.len().div_ceil(ROWS)).unwrap_or(u32::MAX).max(1);
    let page = visit.page_number().min(pages);
    let rows: Vec<Vec<Markup>> = facts
        .iter()
        .skip((page as usize - 1) * ROWS)
        .take(ROWS)
        .map(|fact| {
            let told = &fact.fact.told;
            vec![
                html! { a href={ (own) "/facts/" (told.id) } { (word_of(&told.kind)) } @if fact.contested { " " b { (text("fact-contested")) } } },
                html! { (date_in(fact.payload())) },
                html! { span.payload { (brief(fact.payload())) } },
                html! { (told.author) },
            ]
        })
        .collect();
    let heads = [text("col-kind"), text("col-day"), text("col-content"), text("col-by")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let who = name(person);
    let title = say("facts-title", &[("name", Value::Words(&who))]);
    let lede = text("facts-lede");
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let link = format!("{own}/facts?kind={kind}&contested={}&page=", visit.query.one("contested"));
    let body = html! {
        form.search method="get" action={ (own) "/facts" } {
            div.field {
                label for="kind" { (text("col-kind")) }
                select id="kind" name="kind" {
                    option value="" { (text("filter-any")) }
                    @for one in &kinds { option value=(one) selected[one == kind] { (word_of(one)) } }
                }
            }
            div.search-do { (submit(&text("search-submit"))) a.button.button-plain href=(own) { (text("facts-back")) } }
        }
        (table("facts", &text("facts-caption"), &columns, &rows))
        (paging(Paging { page, pages, href: &link }))
    };
    visit.page(desk, frame, body)
}

fn word_of(kind: &str) -> String {
    Kind::from_word(kind).map_or_else(|| kind.to_owned(), kind_word)
}

fn parsed(payload: &str) -> serde_json::Value {
    serde_json::from_str(payload).unwrap_or_default()
}

/// The day in a payload, found without reading all of it: a swimmer of five seasons has thousands.
fn date_in(payload: &str) -> &str {
    ["\"date\":\"", "\"from\":\"", "\"opened\":\"", "\"signed\":\"", "\"start\":\""]
        .iter()
        .find_map(|key| payload.split_once(key).and_then(|(_, rest)| rest.split('"').next()))
        .unwrap_or_default()
}

/// The payload in a line: names and values, without what the list shows already.
pub fn brief(payload: &str) -> String {
    let value = parsed(payload);
    let Some(fields) = value.as_object() else { return payload.to_owned() };
    let shown =
        fields.iter().filter(|(key, value)| !value.is_null() && *key != "date").map(|(key, value)| {
            let value = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
            format!("{} {value}", key.replace('_', " "))
        });
    let line = shown.collect::<Vec<_>>().join(", ");
    if line.chars().count() <= 160 {
        line
    } else {
        format!("{}…", line.chars().take(160).collect::<String>())
    }
}

fn find(desk: &Desk, person: &Person, visit: &Visit) -> Result<LiveFact, WebError> {
    let id: FactId = visit.param("fact").parse().map_err(|_| WebError::missing())?;
    live(desk, person)?
        .into_iter()
        .find(|fact| fact.fact.told.id == id)
        .ok_or_else(|| WebError::missing().back_to(format!("{}/facts", href(person))))
}

/// One fact.
pub fn one(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let fact = find(desk, person, visit)?;
    page(desk, visit, person, &fact, None, &[], StatusCode::OK)
}

fn page(
    desk: &Desk,
    visit: &Visit,
    person: &Person,
    fact: &LiveFact,
    typed: Option<&Sent>,
    wrong: &[Problem],
    status: StatusCode,
) -> Answer {
    let told = &fact.fact.told;
    let address = format!("{}/facts/{}", href(person), told.id);
    let who = name(person);
    let title =
        say("fact-title", &[("kind", Value::Words(&word_of(&told.kind))), ("name", Value::Words(&who))]);
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame = Frame { title: &title, here: HERE, outcome: refused.as_ref(), ..Frame::default() };
    let rows: Vec<Vec<Markup>> = parsed(fact.payload())
        .as_object()
        .map(|fields| {
            fields
                .iter()
                .map(|(key, value)| {
                    let value = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
                    vec![html! { (key.replace('_', " ")) }, html! { (value) }]
                })
                .collect()
        })
        .unwrap_or_default();
    let heads = [text("col-field"), text("col-value")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let check = Kind::from_word(&told.kind)
        .and_then(|kind| app::history::check(desk.protocol(), kind, fact.payload()).err())
        .unwrap_or_default();
    let set: Option<SetFact> =
        (told.kind == Kind::Set.word()).then(|| read_json(fact.payload()).ok()).flatten();
    let empty = Sent::default();
    let typed_reason = typed.unwrap_or(&empty);
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        p.quiet { (say("fact-written", &[("by", Value::Words(&told.author)), ("when", Value::Words(&told.device_time)), ("device", Value::Words(&told.device))])) }
        @if let Some(correction) = &told.correction { p { (say("fact-corrects", &[("reason", Value::Words(&correction.reason))])) } }
        @if fact.contested { p.field-problem { (text("fact-contested-do")) } }
        @for problem in &check { p.field-problem { (desk.texts().say(problem.says, &problem.args)) } }
        (table("fact", &text("fact-caption"), &columns, &rows))
        @if let Some(set) = &set {
            section aria-labelledby="correct" {
                h2 id="correct" { (text("set-correct")) }
                form.record method="post" action={ (address) "/correct" } {
                    (visit.seals())
                    @let given = typed.filter(|typed| typed.some("seconds").is_some() || typed.some("end").is_some()).cloned().unwrap_or_else(|| set_values(set));
                    (asks("", &set_asks(desk, set), &given, wrong))
                    (submit(&text("record-submit")))
                }
            }
        }
        section aria-labelledby="back" {
            h2 id="back" { (text("fact-take-back")) }
            p { (text("fact-take-back-how")) }
            form.record method="post" action={ (address) "/take-back" } {
                (visit.seals())
                (asks("back", &[back_ask()], typed_reason, wrong))
                (submit(&text("fact-take-back-do")))
            }
        }
        p { a href={ (href(person)) "/facts" } { (text("facts-all")) } }
    };
    visit.page_as(desk, status, frame, body)
}

fn back_ask() -> Ask {
    Ask::new("why", "fact-why", Control::Line).needed()
}

/// Ends of a set, as the forms offer them.
pub fn ends() -> Vec<(String, String)> {
    worded(&[
        ("", "choice-choose"),
        ("cap", "set-end-cap"),
        ("form", "set-end-form"),
        ("chose-to-stop", "set-end-chose"),
        ("pain", "set-end-pain"),
        ("kit", "set-end-kit"),
        ("left", "set-end-left"),
    ])
}

/// Seen, not seen, not said.
pub fn seen() -> Vec<(String, String)> {
    worded(&[("", "set-seen-unsaid"), ("yes", "set-seen"), ("no", "set-unseen")])
}

/// Faults of one exercise, the frequent ones first.
pub fn faults(desk: &Desk, exercise: &str) -> Vec<(String, String)> {
    let protocol = desk.protocol();
    let own =
        protocol.exercise(&trade::name::ExerciseId::new(exercise)).map(|exercise| exercise.faults.as_slice());
    let own = own.unwrap_or_default();
    let mut options = vec![(String::new(), text("choice-none"))];
    let rest = protocol.faults.iter().map(|fault| &fault.code).filter(|code| !own.contains(code));
    options.extend(
        own.iter()
            .chain(rest)
            .filter_map(|code| protocol.fault(code))
            .map(|fault| (fault.code.to_string(), fault.name.clone())),
    );
    options
}

fn set_asks(desk: &Desk, set: &SetFact) -> Vec<Ask> {
    vec![
        Ask::new("seconds", "set-seconds", Control::Number).needed(),
        Ask::new("end", "set-end", Control::Pick(ends())).needed(),
        Ask::new("fault", "set-fault", Control::Pick(faults(desk, &set.exercise))),
        Ask::new("seen", "set-seen-ask", Control::Pick(seen())),
        Ask::new("why", "fact-why", Control::Line).needed(),
    ]
}

fn set_values(set: &SetFact) -> Sent {
    let end = serde_json::to_value(set.set.end)
        .ok()
        .and_then(|end| end.as_str().map(str::to_owned))
        .unwrap_or_default();
    let seen = match set.set.seen {
        Some(true) => "yes",
        Some(false) => "no",
        None => "",
    };
    let fault = set.set.fault.clone().unwrap_or_default();
    Sent::of(&[("seconds", &set.set.seconds.to_string()), ("end", &end), ("fault", &fault), ("seen", seen)])
}

/// Replaces a set by what really happened.
pub fn correct(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let subject = visit.subject()?;
    let (draft, own) = {
        let person = desk.person(subject)?;
        let fact = find(desk, person, visit)?;
        let set: SetFact =
            read_json(fact.payload()).map_err(|_| WebError::new(ErrorKind::Refused).back_to(href(person)))?;
        let asked = set_asks(desk, &set);
        let mut taking = Taking::new(sent, &asked, visit.today());
        let (seconds, end) = (taking.number("seconds"), taking.word::<EndWord>("end"));
        let (seen, why) = (taking.yes_no("seen"), taking.words("why"));
        let (Some(seconds), Some(end), Some(why), true) = (seconds, end, why, taking.problems.is_empty())
        else {
            let wrong = taking.problems;
            return page(desk, visit, person, &fact, Some(sent), &wrong, StatusCode::UNPROCESSABLE_ENTITY);
        };
        let fault = sent.some("fault").filter(|_| end == EndWord::Form).map(str::to_owned);
        let new =
            SetFact { set: app::facts::SetWord { seconds, end, fault, seen, ..set.set.clone() }, ..set };
        (Draft::new(&new).correcting(fact.fact.told.id, &why), href(person))
    };
    match visit.record(desk, subject, &[draft]) {
        Ok(_) => Ok(respond::see(&format!("{own}?done=corrected"))),
        Err(error) => {
            let person = desk.person(subject)?;
            let fact = find(desk, person, visit)?;
            let asked = worded_fields();
            let wrong: Vec<Problem> = problems_of(&error)
                .into_iter()
                .map(|mut problem| {
                    if asked.contains(&problem.place.as_str()) {
                        problem.field = Some(problem.place.clone());
                    }
                    problem
                })
                .collect();
            page(desk, visit, person, &fact, Some(sent), &wrong, StatusCode::UNPROCESSABLE_ENTITY)
        }
    }
}

const fn worded_fields() -> [&'static str; 4] {
    ["seconds", "end", "fault", "seen"]
}

/// Takes a fact back: a correction without a value, with a reason.
pub fn take_back(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let subject = visit.subject()?;
    let (fact, own) = {
        let person = desk.person(subject)?;
        (find(desk, person, visit)?, href(person))
    };
    let Some(why) = sent.some("why") else {
        let person = desk.person(subject)?;
        let wrong = [Problem {
            place: text("fact-why"),
            says: text("take-needed"),
            hint: String::new(),
            field: Some("back-why".to_owned()),
        }];
        return page(desk, visit, person, &fact, Some(sent), &wrong, StatusCode::UNPROCESSABLE_ENTITY);
    };
    let is_only = fact.fact.told.kind == Kind::Swimmer.word() && {
        let person = desk.person(subject)?;
        live(desk, person)?.iter().filter(|live| live.fact.told.kind == Kind::Swimmer.word()).count() == 1
    };
    if is_only {
        // Without it nobody would know whose facts the others are; leaving and erasing are their own acts.
        let problem = Problem { says: text("fact-only-swimmer"), ..Problem::default() };
        return Err(WebError { problems: vec![problem], ..WebError::new(ErrorKind::Refused) }.back_to(own));
    }
    let told = &fact.fact.told;
    let author = visit.author();
    let retraction = NewFact {
        id: FactId::fresh(visit.moment.unix_millis),
        payload: None,
        author: author.name.clone(),
        device: author.device.clone(),
        device_seq: 0,
        device_time: visit.moment.stamp.clone(),
        correction: Some(Correction { of: told.id, reason: why.to_owned() }),
        natural_key: None,
        ..told.clone()
    };
    desk.append(&visit.moment, vec![retraction])?;
    desk.changed(&visit.moment, visit.who()?, Thing::Decide, &[subject])?;
    Ok(respond::see(&format!("{own}?done=taken-back")))
}
