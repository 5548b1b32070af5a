//! Preparing a session: who, how, what, how long; and what else fits when it does not.

use std::collections::BTreeMap;

use app::deck::budget::{Slot, alternatives, session_seconds};
use app::deck::plan::Wish;
use app::desk::Desk;
use app::facts::{ContextWord, PatternWord, PlannedExercise};
use app::views::people::squads;
use axum::http::StatusCode;
use jiff::civil::Time;
use maud::{Markup, html};
use trade::protocol::{Arms, Counting, Exercise};

use super::{HERE, clock};
use crate::web::layout::Frame;
use crate::web::pages::record::pain::worded;
use crate::web::pages::record::take::{Taking, word_of};
use crate::web::pages::{first, session};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::respond;
use crate::web::site::fresh_key;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Caps that are offered, seconds.
const CAPS: [u16; 5] = [120, 90, 60, 45, 30];
/// Minutes of work in a slot of 45, trade handbook D.4.
const USUAL_MINUTES: u16 = 26;
/// Exercises that are marked to begin with.
const USUAL_COUNT: usize = 3;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    if desk.people().next().is_none() {
        return first::show(desk, visit, HERE);
    }
    page(desk, visit, &usual(desk, visit), &[], None, StatusCode::OK)
}

/// The page with what a hand-over came to.
pub fn told(desk: &Desk, visit: &Visit, says: &str, is_done: bool) -> Answer {
    let (title, status) =
        (text("deck-hand-in"), if is_done { StatusCode::OK } else { StatusCode::UNPROCESSABLE_ENTITY });
    let said = outcome(if is_done { Outcome::Done } else { Outcome::Refused }, says);
    let frame = Frame { title: &title, here: HERE, outcome: Some(&said), ..Frame::default() };
    visit.page_as(desk, status, frame, html! { p { a href="/deck" { (text("deck-title")) } } })
}

/// What is marked before anybody has chosen: what most of the squad has in its plan.
fn usual(desk: &Desk, visit: &Visit) -> Sent {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for person in desk.squad_on(visit.today()) {
        for proposal in &desk.assess(person, visit.today()).plan.proposals {
            *counts.entry(proposal.exercise.to_string()).or_default() += 1;
        }
    }
    let mut order: Vec<(&String, &usize)> = counts.iter().collect();
    order.sort_by(|one, other| other.1.cmp(one.1).then(one.0.cmp(other.0)));
    let minutes = USUAL_MINUTES.to_string();
    order
        .iter()
        .take(USUAL_COUNT)
        .fold(Sent::of(&[("minutes", &minutes)]), |sent, (exercise, _)| sent.with("exercise", exercise))
}

fn head() -> Vec<Ask> {
    vec![
        Ask::new("context", "ask-session-context", Control::Pick(session::contexts())).needed(),
        Ask::new("minutes", "deck-ask-minutes", Control::Number).hint("deck-ask-minutes-hint").needed(),
        Ask::new(
            "pattern",
            "deck-ask-pattern",
            Control::Pick(worded(&[
                ("together", "deck-pattern-together"),
                ("stations", "deck-pattern-stations"),
                ("pairs", "deck-pattern-pairs"),
            ])),
        ),
        Ask::new("before_water", "ask-before-water", Control::Line).hint("ask-before-water-hint"),
    ]
}

fn timed(desk: &Desk) -> impl Iterator<Item = &Exercise> {
    desk.protocol().exercises.iter().filter(|exercise| exercise.counting == Counting::Timed)
}

fn page(
    desk: &Desk,
    visit: &Visit,
    given: &Sent,
    wrong: &[Problem],
    reckoned: Option<Markup>,
    status: StatusCode,
) -> Answer {
    let (title, lede) = (text("deck-title"), text("deck-lede"));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame =
        Frame { title: &title, lede: Some(&lede), here: HERE, outcome: refused.as_ref(), ..Frame::default() };
    let squads = squads(desk, visit.today());
    let body = html! {
        (today(desk, visit))
        h2 id="prepare" { (text("deck-prepare")) }
        @if !wrong.is_empty() { (problems(wrong)) }
        @if let Some(reckoned) = reckoned { (reckoned) }
        form.record method="post" action="/deck" {
            (visit.seals())
            (asks("", &head(), given, wrong))
            @if 1 < squads.len() {
                fieldset.choices { legend { (text("deck-ask-squad")) }
                    @for (place, squad) in squads.iter().enumerate() {
                        div.choice {
                            input type="checkbox" id={ "squad-" (place) } name="squad" value=(squad) checked[given.has("squad", squad)];
                            label for={ "squad-" (place) } { (squad) }
                        }
                    }
                }
            }
            fieldset.choices.deck-exercises { legend { (text("deck-ask-exercises")) }
                @for exercise in timed(desk) { (one(desk, exercise, given)) }
            }
            div.deck-submit {
                button.button.button-plain type="submit" name="act" value="reckon" { (text("deck-reckon")) }
                button.button type="submit" name="act" value="prepare" { (text("deck-submit")) }
            }
        }
        h2 id="hand-in" { (text("deck-hand-in")) }
        form.record method="post" action="/deck/hand-in" enctype="multipart/form-data" {
            (visit.seals())
            p.quiet { (text("deck-hand-in-hint")) }
            label for="file" { (text("deck-hand-in-file")) }
            input type="file" id="file" name="file" accept=".json,application/json";
            (crate::web::parts::form::submit(&text("deck-hand-in")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn one(desk: &Desk, exercise: &Exercise, given: &Sent) -> Markup {
    let id = exercise.id.as_str();
    let cap = format!("cap.{id}");
    let longest = exercise.cap(&desk.protocol().parameters).seconds();
    let chosen = given.some(&cap).map_or_else(|| longest.to_string(), str::to_owned);
    html! {
        div.choice.deck-exercise {
            input type="checkbox" id={ "exercise-" (id) } name="exercise" value=(id) checked[given.has("exercise", id)];
            label for={ "exercise-" (id) } { (exercise.name) }
            label.unseen for=(cap) { (say("deck-ask-cap-of", &[("name", Value::Words(&exercise.name))])) }
            select id=(cap) name=(cap) {
                @for seconds in CAPS.iter().filter(|seconds| f64::from(**seconds) <= longest) {
                    option value=(seconds) selected[chosen == seconds.to_string()] { (seconds) " s" }
                }
            }
        }
    }
}

/// What is prepared for today, with everything that leads on from it.
fn today(desk: &Desk, visit: &Visit) -> Markup {
    let sessions: Vec<_> =
        desk.deck_sessions().into_iter().filter(|session| session.date == visit.today()).collect();
    let is_empty_card = desk.deck_place().number.is_empty();
    html! {
        h2 { (text("deck-today")) }
        @if sessions.is_empty() { p { (text("deck-none")) } }
        @for session in &sessions {
            @let path = format!("/deck/session/{}", session.session);
            section.deck-prepared id={ "session-" (session.number) } {
                h3 { (session.number) ". " (exercises(desk, &session.exercises)) }
                p.quiet { (if session.squads.is_empty() { text("session-all") } else { session.squads.join(", ") }) }
                ul.ways {
                    li { a.button href=(path) { (text("deck-open")) } }
                    li { a href={ (path) "/wall" } { (text("deck-open-wall")) } }
                    li { a href={ (path) "/record" } { (text("deck-record")) } }
                }
            }
        }
        @if is_empty_card { p.field-problem { (text("deck-place-missing")) " " a href="/deck/place" { (text("deck-place-title")) } } }
        @else { p { a href="/deck/place" { (text("deck-place-title")) } } }
    }
}

fn exercises(desk: &Desk, planned: &[PlannedExercise]) -> String {
    let names = planned.iter().map(|one| {
        let id = trade::name::ExerciseId::new(&one.exercise);
        desk.protocol().exercise(&id).map_or_else(|| one.exercise.clone(), |exercise| exercise.name.clone())
    });
    names.collect::<Vec<_>>().join(", ")
}

/// Takes the form: reckons the time, or prepares the session.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let asked = head();
    let mut taking = Taking::new(sent, &asked, visit.today());
    let context = taking.word::<ContextWord>("context");
    let minutes = taking.number("minutes").filter(|minutes| (5.0..=120.0).contains(minutes));
    if minutes.is_none() && sent.some("minutes").is_some() {
        taking.wrong("minutes", text("deck-minutes-range"));
    }
    let exercises = planned(desk, sent);
    let most = desk.protocol().parameters.max_exercises;
    if exercises.is_empty() {
        taking.wrong("exercise", text("deck-no-exercise"));
    } else if usize::from(most) < exercises.len() {
        taking.wrong("exercise", say("deck-too-many", &[("n", Value::Count(i64::from(most)))]));
    }
    let squads: Vec<String> = sent.all("squad").map(str::to_owned).collect();
    let soon = water_soon(desk, visit, &squads);
    if soon.is_some() && sent.some("before_water").is_none() {
        let says = soon.clone().unwrap_or_default();
        taking.wrong("before_water", format!("{says} {}", text("deck-water-needs-reason")));
    }
    let minutes = minutes.map_or(USUAL_MINUTES, |minutes| minutes.round() as u16);
    let reckoned = reckon(desk, &exercises, minutes);
    let wrong = taking.problems;
    if sent.one("act") == "reckon" {
        return page(desk, visit, sent, &[], Some(reckoned), StatusCode::OK);
    }
    let (Some(context), true) = (context, wrong.is_empty()) else {
        return page(desk, visit, sent, &wrong, Some(reckoned), StatusCode::UNPROCESSABLE_ENTITY);
    };
    let wish = Wish {
        context,
        squads,
        pattern: word_of::<PatternWord>(sent.one("pattern")).unwrap_or_default(),
        minutes,
        exercises,
        before_water_override: soon.and(sent.some("before_water")).map(str::to_owned),
    };
    desk.prepare_deck(&visit.moment, &visit.author(), &fresh_key(), wish)?;
    Ok(respond::see("/deck?done=deck-prepared"))
}

fn planned(desk: &Desk, sent: &Sent) -> Vec<PlannedExercise> {
    timed(desk)
        .filter(|exercise| sent.has("exercise", exercise.id.as_str()))
        .map(|exercise| {
            let longest = exercise.cap(&desk.protocol().parameters).seconds();
            let cap_s = sent.one(&format!("cap.{}", exercise.id)).parse().unwrap_or(longest);
            PlannedExercise {
                exercise: exercise.id.to_string(),
                cap_s: f64::min(cap_s, longest),
                sets: desk.protocol().parameters.sets,
            }
        })
        .collect()
}

/// "This plan needs 27:55, there are 26 minutes", and what fits instead.
fn reckon(desk: &Desk, exercises: &[PlannedExercise], minutes: u16) -> Markup {
    let slots: Vec<Slot> = exercises
        .iter()
        .filter_map(|planned| {
            let exercise = desk.protocol().exercise(&trade::name::ExerciseId::new(&planned.exercise))?;
            Some(Slot { is_one_arm: exercise.arms == Arms::One, cap_s: planned.cap_s, sets: planned.sets })
        })
        .collect();
    if slots.is_empty() {
        return html! {};
    }
    let rest = desk.protocol().parameters.rest.seconds();
    let seconds = session_seconds(&slots, rest, 1);
    let fits = seconds <= f64::from(minutes) * 60.0;
    let need = clock(seconds);
    let values = [("need", Value::Words(&need)), ("have", Value::Count(i64::from(minutes)))];
    let ways: Vec<String> = alternatives(&slots, rest, minutes, 1)
        .into_iter()
        .filter(|way| !fits && way.fits)
        .map(|way| {
            let need = clock(way.seconds);
            let n = i64::try_from(way.exercises).unwrap_or(0);
            say(way.says, &[("need", Value::Words(&need)), ("n", Value::Count(n))])
        })
        .collect();
    html! {
        section.deck-reckoned id="reckoned" {
            p.lede { (say(if fits { "deck-time-fits" } else { "deck-time-over" }, &values)) }
            @if !ways.is_empty() {
                h3 { (text("deck-other-head")) }
                ul { @for way in &ways { li { (way) } } }
                p.quiet { (text("deck-never-qualifies")) }
            }
        }
    }
}

/// The first practice of a chosen squad that begins too soon after now.
fn water_soon(desk: &Desk, visit: &Visit, squads: &[String]) -> Option<String> {
    let now = visit.moment.time;
    let weekday = visit.today().weekday().to_monday_one_offset();
    let gap = desk.protocol().parameters.pre_water_gap_h;
    let hours = |time: Time| f64::from(time.hour()) + f64::from(time.minute()) / 60.0;
    let soon = desk.club().practices.iter().find(|practice| {
        let concerns = practice.squad.is_empty() || squads.is_empty() || squads.contains(&practice.squad);
        let until = hours(practice.from) - hours(now);
        concerns && practice.weekday == weekday && (0.0..gap).contains(&until)
    })?;
    let squad = if soon.squad.is_empty() { text("session-all") } else { soon.squad.clone() };
    let at = format!("{:02}:{:02}", soon.from.hour(), soon.from.minute());
    let values =
        [("squad", Value::Words(&squad)), ("at", Value::Words(&at)), ("n", Value::Count(gap as i64))];
    Some(say("deck-water-soon", &values))
}
