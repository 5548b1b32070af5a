//! One swimmer: both shoulders side by side, what is proposed and why, what is on record, and what can be recorded.
//!
//! - [`lines`]: the proposals, each with its ropes and the form that decides it.
//! - [`decide`]: what a person says to one.
//! - [`loads`]: what the club's measured kit asks of this body.
//! - [`past`]: what is on record.

pub mod decide;
pub mod lines;
pub mod loads;
pub mod past;

use app::desk::{Assessment, Desk, Person};
use app::text::day;
use maud::{Markup, html};
use trade::gate::{Gate, Hold};
use trade::history::Urgency;
use trade::side::Side;

use super::record::SHEETS;
use super::shared::{
    ends_by, href, name, practitioner, reason, short_day, shoulder_state, side_word, tells_apart, what_to_do,
    whom_to_ring,
};
use super::{due, record};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::notice::{Outcome, outcome};
use crate::web::parts::shoulder::{Water, availability_key, shoulder_head, water};
use crate::web::parts::why::rule_link;
use crate::web::rope::{self, Band};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if !visit.is_clinical() {
        return super::seen::one::show(desk, visit);
    }
    let person = desk.person(visit.subject()?)?;
    page(desk, visit, person, None, axum::http::StatusCode::OK)
}

/// The page, with what came of a decision that was not taken.
pub fn page(
    desk: &Desk,
    visit: &Visit,
    person: &Person,
    refused: Option<&lines::Given>,
    status: axum::http::StatusCode,
) -> Answer {
    let on = visit.day();
    let assessment = desk.assess(person, on);
    let gate = &assessment.gate;
    let who = name(person);
    let lede = lede(person, visit, &assessment);
    let wrong = refused.map(|given| outcome(Outcome::Refused, &given.says));
    let frame = Frame {
        title: &who,
        lede: Some(&lede),
        here: Here::Below(Place::People, Spot::People),
        outcome: wrong.as_ref(),
        ..Frame::default()
    };
    let heads = [Band::Together(
        shoulder_head(Side::Left, &shoulder_state(desk, gate, Side::Left)),
        shoulder_head(Side::Right, &shoulder_state(desk, gate, Side::Right)),
    )];
    let bands = lines::bands(desk, visit, person, &assessment, refused);
    let next = say("person-next", &[("name", Value::Words(&who))]);
    let own = href(person);
    let body = html! {
        @if on != visit.today() { p.other-day { (say("person-other-day", &[("day", Value::Words(&day(on)))])) " " a href=(own) { (text("person-to-today")) } } }
        (urgent(desk, person, gate))
        (settle(desk, person))
        (rope::both_shoulders(&who, &heads))
        (quick(person))
        (water_line(desk, person, gate))
        (holds(desk, gate))
        @if !assessment.due.is_empty() {
            section aria-labelledby="due-heading" {
                h2 id="due-heading" { (text("person-due")) }
                (due::of_one(desk, visit, person, &assessment.due, &own))
            }
        }
        h2 { (text("person-next-heading")) }
        @if bands.is_empty() { p.quiet { (text("person-next-none")) } }
        @else { (rope::both_shoulders(&next, &bands)) }
        p { a href={ (own) "/loads" } { (text("loads-link")) } }
        (lines::taught(desk, person, &assessment))
        (lines::not_given(desk, &assessment))
        (rope::key())
        (availability_key())
        (limits_and_tracks(desk, gate))
        (past::show(desk, person, on))
        (sheets(desk, person))
        p { a href={ (own) "/consent" } { (text("privacy-consent-link")) } }
        form.search.on-day method="get" action=(own) {
            div.field {
                label for="on" { (text("person-on")) }
                input type="date" id="on" name="on" value=(on);
            }
            div.search-do { button.button.button-plain type="submit" { (text("search-submit")) } }
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn lede(person: &Person, visit: &Visit, assessment: &Assessment) -> String {
    let age = person.read.history.swimmer.age_on(visit.day());
    let open = assessment.due.len();
    let apart = tells_apart(person);
    say(
        "person-lede",
        &[
            ("apart", Value::Words(&apart)),
            ("age", Value::Count(i64::from(age))),
            ("open", Value::Count(i64::try_from(open).unwrap_or(i64::MAX))),
        ],
    )
}

fn urgent(desk: &Desk, person: &Person, gate: &Gate) -> Markup {
    let worst = gate.holds.iter().filter_map(|hold| hold.urgency).max();
    html! {
        @if let Some(urgency) = worst.filter(|urgency| Urgency::SameDay <= *urgency) {
            section.urgent role="alert" id="urgent" {
                p.urgent-do { (what_to_do(urgency)) }
                (whom_to_ring(desk, person))
            }
        } @else if let Some(note) = &person.read.swimmer.emergency_note {
            p.ring-note { (say("ring-note", &[("note", Value::Words(note))])) }
        }
    }
}

/// Facts that cannot be read, and facts that contradict each other: shown, with what a person can do.
fn settle(desk: &Desk, person: &Person) -> Markup {
    let own = href(person);
    html! {
        @if !person.read.unreadable.is_empty() || person.contested > 0 {
            section.settle id="settle" {
                h2 { (text("settle-heading")) }
                @for unreadable in &person.read.unreadable {
                    p {
                        (say("settle-unreadable", &[("kind", Value::Words(&past::kind_word(unreadable.kind)))])) " "
                        @for problem in &unreadable.problems { (desk.texts().say(problem.says, &problem.args)) " " }
                        a href={ (own) "/facts/" (unreadable.id) } { (text("settle-look")) }
                    }
                }
                @if person.contested > 0 {
                    p { (say("settle-contested", &[("n", Value::Count(person.contested as i64))])) " "
                        a href={ (own) "/facts?contested=yes" } { (text("settle-look")) } }
                }
            }
        }
    }
}

/// What is recorded most often stands at the top, in reach of a thumb.
fn quick(person: &Person) -> Markup {
    let own = href(person);
    html! {
        p.quick {
            a.button href=(record::address(&own, "pain")) { (text("quick-pain")) }
            a.button.button-plain href="#record" { (text("quick-other")) }
        }
    }
}

fn water_line(desk: &Desk, person: &Person, gate: &Gate) -> Markup {
    let out = gate.holds.iter().filter(|hold| trade::gate::Availability::OutToday <= hold.availability);
    let newest = out.map(|hold| hold.since).max();
    let advice = person.read.history.water_advice.iter().rfind(|advice| advice.date <= gate.on);
    let valid = advice.filter(|advice| newest.is_none_or(|since| since <= advice.date));
    match (valid, newest) {
        (Some(advice), _) => {
            let day = short_day(advice.date);
            let values = [
                ("advice", Value::Words(&advice.advice)),
                ("by", Value::Words(&advice.by)),
                ("day", Value::Words(&day)),
            ];
            water(Water::Written(&say("water-written", &values)))
        }
        (None, Some(_)) => water(Water::Undecided(&practitioner(desk))),
        (None, None) => html! {},
    }
}

/// Everything that holds back, worst first, each with what ends it.
fn holds(desk: &Desk, gate: &Gate) -> Markup {
    html! {
        @if !gate.holds.is_empty() {
            section.holds aria-labelledby="holds-heading" {
                h2 id="holds-heading" { (text("holds-heading")) }
                ul { @for hold in &gate.holds { li.hold { (one_hold(desk, hold)) } } }
            }
        }
        @for (side, line) in &gate.proposed_ends {
            p.proposed-end { b { (side_word(*side)) } ": " (super::shared::sentence(desk, line)) }
        }
        @if !gate.questions_answered { p.quiet { (text("questions-open")) } }
    }
}

fn one_hold(desk: &Desk, hold: &Hold) -> Markup {
    let reason = reason(desk, &hold.line);
    let ends = ends_by(desk, hold);
    html! {
        p { b { (side_word(hold.side)) } ", " (crate::web::parts::shoulder::availability_word(hold.availability)) ": " (reason.sentence) }
        p.quiet {
            (say("hold-ends", &[("by", Value::Words(&ends))]))
            @if let Some(review) = hold.review { " " (say("hold-review", &[("date", Value::Words(&short_day(review)))])) }
            " " (rule_link(&reason.code)) "."
        }
    }
}

fn limits_and_tracks(desk: &Desk, gate: &Gate) -> Markup {
    let tracks = &gate.tracks;
    let growth = tracks.growth.as_ref().map(|growth| &growth.line);
    let lines = [
        ("track-youth", tracks.youth.as_ref()),
        ("track-hypermobile", tracks.hypermobile.as_ref()),
        ("track-growth", growth),
        ("track-newcomer", tracks.newcomer.as_ref()),
    ];
    let any = lines.iter().any(|(_, line)| line.is_some())
        || tracks.reentry.is_some()
        || !gate.limits.is_empty()
        || !gate.notes.is_empty();
    html! {
        @if any {
            section.tracks aria-labelledby="tracks-heading" {
                h2 id="tracks-heading" { (text("tracks-heading")) }
                ul {
                    @for (word, line) in lines {
                        @if let Some(line) = line { li { b { (text(word)) } ": " (super::shared::sentence(desk, line)) " " (rule_link(line.rule.0)) } }
                    }
                    @if let Some(reentry) = &tracks.reentry {
                        li { b { (text("track-return")) } ": " (say("track-return-week", &[("week", Value::Count(i64::from(reentry.week)))]))
                            @for line in &reentry.open_conditions { " " (super::shared::sentence(desk, line)) } }
                    }
                    @for limit in &gate.limits { li { (limit_line(desk, limit)) } }
                    @for note in &gate.notes { li { (super::shared::sentence(desk, note)) " " (rule_link(note.rule.0)) } }
                }
            }
        }
    }
}

fn limit_line(desk: &Desk, limit: &trade::gate::ActiveLimit) -> Markup {
    let until = short_day(limit.until);
    let values = [("name", Value::Words(&limit.clinician.name)), ("until", Value::Words(&until))];
    let mut locked: Vec<String> =
        limit.locked_tags.iter().map(|tag| text(&format!("tag-{}", tag.word()))).collect();
    locked.extend(limit.locked_exercises.iter().map(|id| lines::exercise_name(desk, id)));
    html! {
        b { (side_word(limit.side)) } ": " (say("limit-in-force", &values))
        @if !locked.is_empty() { " " (say("limit-locks", &[("what", Value::Words(&locked.join(", ")))])) }
        @if let Some(sets) = limit.sets { " " (say("limit-sets", &[("n", Value::Count(i64::from(sets)))])) }
        @if let Some(cap) = limit.cap { " " (say("limit-cap", &[("cap", Value::Words(&rope::seconds(cap)))])) }
        @if let Some(pain) = limit.allows_pain_up_to { " " (say("limit-pain", &[("pain", Value::Words(&pain.to_string()))])) }
    }
}

/// Every form by which something is recorded.
fn sheets(desk: &Desk, person: &Person) -> Markup {
    let daily = desk.club().about.as_ref().is_some_and(|club| club.daily_practices);
    let own = href(person);
    html! {
        section.sheets id="record" aria-labelledby="record-heading" {
            h2 id="record-heading" { (text("record-heading")) }
            (super::screening::values::links(person))
            ul {
                @for sheet in SHEETS.iter().filter(|sheet| daily || sheet.word != "water-session") { li { a href=(record::address(&own, sheet.word)) { (text(sheet.title)) } } }
                li { a href={ (own) "/facts" } { (text("record-put-right")) } }
            }
        }
    }
}
