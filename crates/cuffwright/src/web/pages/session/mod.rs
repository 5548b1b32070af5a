//! A session written down by hand: first the day and who was there, then the answers and the sets of each.
//!
//! All of it is stored or nothing. A row that stays empty is a set that was not done; nothing is filled in for
//! anybody.
//!
//! - [`take`]: from what was typed to facts.

pub mod take;

use std::collections::BTreeSet;
use std::sync::Arc;

use app::desk::{Assessment, Desk, Person};
use app::roles::lines::may_read;
use app::views::people::{Find, find, squads};
use axum::http::StatusCode;
use jiff::civil::Date;
use maud::{Markup, html};
use trade::dosing::Proposal;
use trade::gate::Availability;
use trade::side::Side;

use super::facts::{ends, faults, seen};
use super::first;
use super::person::lines::{confirms, exercise_name, side_name};
use super::record::pain::worded;
use super::shared::{href, name, sentence, tells_apart_to, what_to_do};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::parts::shoulder::availability;
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::text;

const HERE: Here = Here::At(Place::Deck, Spot::Session);

/// Where a session was held, as the forms offer it.
pub fn contexts() -> Vec<(String, String)> {
    worded(&[
        ("", "choice-choose"),
        ("after-practice", "context-after-practice"),
        ("rested", "context-rested"),
        ("home", "context-home"),
    ])
}

/// The page: without names in the address the first step, with names the second.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if desk.people().next().is_none() {
        return first::show(desk, visit, HERE);
    }
    let who: BTreeSet<&str> = visit.query.all("who").collect();
    if who.is_empty() { choose(desk, visit) } else { sets(desk, visit, &visit.query, &[], StatusCode::OK) }
}

/// Day, place and who was there. Sent by GET: nothing is recorded yet.
fn choose(desk: &Desk, visit: &Visit) -> Answer {
    let given = if visit.query.some("date").is_some() {
        visit.query.clone()
    } else {
        visit.query.clone().with("date", &visit.today().to_string())
    };
    let squad = visit.query.one("squad");
    let squads = squads(desk, visit.today());
    let found = find(desk, visit.today(), &Find { squad: squad.to_owned(), ..Find::default() });
    let (title, lede) = (text("session-title"), text("session-lede-who"));
    let frame = Frame { title: &title, lede: Some(&lede), here: HERE, ..Frame::default() };
    let body = html! {
        @if 1 < squads.len() {
            nav.squads aria-label=(text("filter-squad")) { ul {
                li { a href="/session" aria-current=[squad.is_empty().then_some("true")] { (text("session-all")) } }
                @for one in &squads {
                    li { a href={ "/session?squad=" (super::shared::encoded(one)) } aria-current=[(one == squad).then_some("true")] { (one) } }
                }
            } }
        }
        form method="get" action="/session" {
            (asks("", &head_asks(), &given, &[]))
            fieldset.choices.who {
                legend { (text("session-who")) }
                @for found in &found {
                    @let id = format!("who-{}", found.person.subject);
                    @let gate = &found.assessment.gate;
                    div.choice {
                        input type="checkbox" id=(id) name="who" value=(found.person.subject);
                        label for=(id) {
                            (name(found.person))
                            span.choice-hint {
                                (tells_apart_to(visit, found.person)) " "
                                @for side in Side::BOTH {
                                    @if gate.shoulder(side) != Availability::Full {
                                        (text(if side == Side::Left { "shoulder-left-short" } else { "shoulder-right-short" })) " " (availability(gate.shoulder(side))) " "
                                    }
                                }
                            }
                        }
                    }
                }
            }
            (submit(&text("session-to-sets")))
        }
    };
    visit.page(desk, frame, body)
}

/// What is asked of the session as a whole.
pub fn head_asks() -> Vec<Ask> {
    vec![
        Ask::new("date", "ask-session-day", Control::Day).needed(),
        Ask::new("context", "ask-session-context", Control::Pick(contexts())).needed(),
        Ask::new("before_water", "ask-before-water", Control::Line).hint("ask-before-water-hint"),
    ]
}

/// One line of sets that was planned for one swimmer.
pub struct Planned {
    /// What was planned.
    pub proposal: Proposal,
    /// Begins the names of its fields.
    pub key: String,
}

/// One swimmer who was there.
pub struct There<'a> {
    /// Who.
    pub person: &'a Person,
    /// What the rules said on the day.
    pub assessment: Arc<Assessment>,
    /// What was planned.
    pub planned: Vec<Planned>,
    /// Begins the names of the swimmer's fields.
    pub key: String,
}

/// Everybody named, in the order of the list, with what was planned on that day.
pub fn there<'a>(desk: &'a Desk, sent: &Sent, date: Date) -> Vec<There<'a>> {
    let who: BTreeSet<&str> = sent.all("who").collect();
    find(desk, date, &Find::default())
        .into_iter()
        .filter(|found| who.contains(found.person.subject.to_string().as_str()))
        .map(|found| {
            // The id, not the place in the list: a list that has changed meanwhile must not move sets to another.
            let key = format!("s{}", found.person.subject.uuid().simple());
            let planned = found
                .assessment
                .plan
                .proposals
                .iter()
                .filter(|proposal| {
                    proposal.dose.as_ref().is_some_and(|dose| dose.timed && dose.rung.is_some())
                })
                .map(|proposal| Planned {
                    key: format!("{key}.{}.{}", proposal.exercise, proposal.side.word()),
                    proposal: proposal.clone(),
                })
                .collect();
            There { person: found.person, assessment: found.assessment, planned, key }
        })
        .collect()
}

/// Names of the fields of one set.
pub fn field(key: &str, set: u8, part: &str) -> String {
    format!("{key}.{set}.{part}")
}

/// The answers and the sets.
pub fn sets(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let date = given.one("date").parse().unwrap_or(visit.today());
    let there = there(desk, given, date);
    let (title, lede) = (text("session-title"), text("session-lede-sets"));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame =
        Frame { title: &title, lede: Some(&lede), here: HERE, outcome: refused.as_ref(), ..Frame::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form.session method="post" action="/session" novalidate[!wrong.is_empty()] {
            (visit.seals())
            @for one in &there { input type="hidden" name="who" value=(one.person.subject); }
            (asks("", &head_asks(), given, wrong))
            @for one in &there { (swimmer(desk, visit, one, given, wrong)) }
            (submit(&text("session-submit")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn swimmer(desk: &Desk, visit: &Visit, one: &There<'_>, given: &Sent, wrong: &[Problem]) -> Markup {
    // Who runs the session reads what holds back only as far as it is no health word.
    let role = visit.who.as_ref().map(|who| who.role);
    let reads = |line: &trade::trace::Line| role.is_some_and(|role| may_read(role, line.class));
    let holds: Vec<_> = one.assessment.gate.holds.iter().filter(|hold| reads(&hold.line)).collect();
    let urgency = holds.iter().filter_map(|hold| hold.urgency).max();
    html! {
        section.there id=(one.key) {
            h2 { a href=(href(one.person)) { (name(one.person)) } }
            @if let Some(urgency) = urgency { p.field-problem { (what_to_do(urgency)) } }
            @for hold in holds.iter().take(2) { p.quiet { (sentence(desk, &hold.line)) } }
            (questions(&one.key, given, wrong))
            @if one.planned.is_empty() { p.quiet { (text("session-nothing-planned")) } }
            @for planned in &one.planned { (line(desk, planned, given, wrong)) }
        }
    }
}

/// The three questions before a start: pain left and right, anything new, effort of the last practice.
fn questions(key: &str, given: &Sent, wrong: &[Problem]) -> Markup {
    let options: Vec<(String, String)> = std::iter::once((String::new(), text("pain-not-asked")))
        .chain((0..=10).map(|number: i32| (number.to_string(), number.to_string())))
        .collect();
    html! {
        fieldset.questions {
            legend { (text("session-questions")) }
            @for (part, label) in [("before-left", "session-before-left"), ("before-right", "session-before-right"), ("after-left", "session-after-left"), ("after-right", "session-after-right"), ("effort", "session-effort")] {
                @let name = format!("{key}.{part}");
                (small_pick(&name, &text(label), &options, given.one(&name), problem_at(wrong, &name)))
            }
            @let new = format!("{key}.new");
            div.small-field.small-wide {
                label for=(new) { (text("session-new")) }
                select id=(new) name=(new) {
                    @for (value, words) in [("", "pain-not-asked"), ("no", "session-nothing-new"), ("yes", "session-something-new")] {
                        option value=(value) selected[given.one(&new) == value] { (text(words)) }
                    }
                }
            }
        }
    }
}

fn problem_at<'a>(wrong: &'a [Problem], name: &str) -> Option<&'a str> {
    wrong.iter().find(|problem| problem.field.as_deref() == Some(name)).map(|problem| problem.says.as_str())
}

fn small_pick(
    name: &str,
    label: &str,
    options: &[(String, String)],
    value: &str,
    problem: Option<&str>,
) -> Markup {
    html! {
        div.small-field {
            label for=(name) { (label) }
            @if let Some(problem) = problem { p.field-problem id={ (name) "-problem" } { (problem) } }
            select id=(name) name=(name) aria-invalid=[problem.map(|_| "true")] aria-describedby=[problem.map(|_| format!("{name}-problem"))] {
                @for (option, words) in options { option value=(option) selected[option == value] { (words) } }
            }
        }
    }
}

/// One line of sets: heading with the dose, then a row for each set.
fn line(desk: &Desk, planned: &Planned, given: &Sent, wrong: &[Problem]) -> Markup {
    let proposal = &planned.proposal;
    let sets = proposal.dose.as_ref().map_or(0, |dose| dose.sets);
    let title = format!("{}, {}", exercise_name(desk, &proposal.exercise), side_name(proposal.side));
    let (ends, seen) = (ends(), seen());
    let faults = faults(desk, proposal.exercise.as_str());
    let rungs: Vec<(String, String)> =
        desk.protocol().exercise(&proposal.exercise).map_or_else(Vec::new, |exercise| {
            exercise.ladder.iter().map(|rung| (rung.id.to_string(), desk.reader().rung_name(rung))).collect()
        });
    let planned_rung = proposal
        .dose
        .as_ref()
        .and_then(|dose| dose.rung.as_ref())
        .map(ToString::to_string)
        .unwrap_or_default();
    let used = format!("{}.used", planned.key);
    let used_now = given.some(&used).unwrap_or(&planned_rung);
    html! {
        fieldset.set-line {
            legend { (title) }
            p.quiet { (confirms(desk, proposal)) }
            // What was read goes along, so that sets are never written under a plan that changed meanwhile.
            input type="hidden" name={ (planned.key) ".planned" } value=(planned_rung);
            (small_pick(&used, &text("session-used"), &rungs, used_now, None))
            ol.set-rows {
                @for set in 1..=sets {
                    @let name = |part: &str| field(&planned.key, set, part);
                    @let seconds = name("seconds");
                    li.set-row {
                        span.set-number { (set) }
                        div.small-field {
                            label for=(seconds) { (text("set-seconds")) }
                            @let problem = problem_at(wrong, &seconds);
                            @if let Some(problem) = problem { p.field-problem id={ (seconds) "-problem" } { (problem) } }
                            input type="text" id=(seconds) name=(seconds) inputmode="decimal" autocomplete="off" value=(given.one(&seconds))
                                aria-invalid=[problem.map(|_| "true")] aria-describedby=[problem.map(|_| format!("{seconds}-problem"))];
                        }
                        (small_pick(&name("end"), &text("set-end"), &ends, given.one(&name("end")), problem_at(wrong, &name("end"))))
                        (small_pick(&name("fault"), &text("set-fault"), &faults, given.one(&name("fault")), problem_at(wrong, &name("fault"))))
                        (small_pick(&name("seen"), &text("set-seen-ask"), &seen, given.one(&name("seen")), problem_at(wrong, &name("seen"))))
                    }
                }
            }
        }
    }
}

/// Stores the session, all of it or nothing.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    match take::drafts(desk, visit, sent) {
        Err(wrong) => sets(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY),
        Ok(taken) => {
            visit.record_many(desk, &taken.drafts)?;
            let back = if visit.is_clinical() { "/review" } else { "/session" };
            let Some(first) = taken.something_new.first() else {
                return Ok(respond::see(&format!("{back}?done=session")));
            };
            // Something new was said: the questions that follow are asked at once.
            Ok(respond::see(&format!("/people/{first}/record/pain?when=before&back={back}?done=session")))
        }
    }
}
