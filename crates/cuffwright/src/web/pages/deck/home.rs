//! Work at home: one page for one swimmer that needs no server, and the code in which the result comes back.

use app::deck::home::{HomePage, HomeShown, NotACode, decode};
use app::desk::Desk;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use picture::Ink;
use store::SubjectId;
use trade::side::Side;

use super::BELOW;
use super::figure::figure;
use crate::web::console::MODULES;
use crate::web::error::WebError;
use crate::web::layout::Frame;
use crate::web::pages::shared::{name, tells_apart_to};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Outcome, Problem, outcome, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// What a code is called in the form.
const FIELD: &str = "code";

/// Makes pages, and takes codes.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &Sent::default(), &[], StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, given: &Sent, wrong: &[Problem], status: StatusCode) -> Answer {
    let (title, lede) = (text("deck-home-title"), text("deck-home-lede"));
    let refused = (!wrong.is_empty()).then(|| outcome(Outcome::Refused, &text("record-refused")));
    let frame = Frame {
        title: &title,
        lede: Some(&lede),
        here: BELOW,
        outcome: refused.as_ref(),
        ..Frame::default()
    };
    let mut people: Vec<_> = desk.squad_on(visit.today()).collect();
    people.sort_by_key(|person| name(person));
    let body = html! {
        h2 { (text("deck-code-head")) }
        @if !wrong.is_empty() { (problems(wrong)) }
        form.record method="post" action="/deck/code" {
            (visit.seals())
            (asks("", &[Ask::new(FIELD, "deck-code-ask", Control::Line).hint("deck-code-hint").needed()], given, wrong))
            (submit(&text("deck-code-submit")))
        }
        h2 { (text("deck-home-make")) }
        ul.deck-home { @for person in people {
            li {
                form.in-place method="post" action={ "/deck/home/" (person.subject) } {
                    (visit.seals())
                    button.button.button-plain type="submit" { (name(person)) " " span.quiet { (tells_apart_to(visit, person)) } }
                }
            }
        } }
    };
    visit.page_as(desk, status, frame, body)
}

/// Makes the page of one swimmer: a file to save, send or print.
pub fn make(desk: &mut Desk, visit: &Visit, _: &Sent) -> Answer {
    let subject: SubjectId = visit.subject()?;
    let Some(made) = desk.issue_home_sheet(&visit.moment, &visit.author(), subject)? else {
        return super::prepare::told(desk, visit, &text("deck-home-nothing"), false);
    };
    Ok(file(desk, &made))
}

fn file(desk: &Desk, page: &HomePage) -> Response {
    let body = html! {
        (DOCTYPE)
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (say("deck-home-of", &[("name", Value::Words(&page.name))])) }
                style { (PreEscaped(include_str!("../../../../assets/css/home.css"))) }
            }
            body {
                h1 { (say("deck-home-of", &[("name", Value::Words(&page.name))])) }
                (rules(page))
                @for (place, line) in page.lines.iter().enumerate() { (shown(desk, place, line)) }
                (questions())
                p { (text("deck-home-code")) }
                p #code {}
                p { (say("deck-home-ring", &[("name", Value::Words(&page.practitioner))])) }
                table { caption { (text("deck-home-paper")) }
                    @for line in &page.lines { tr { th { (line.name) " " (side(line.side)) } @for _ in 0..line.sets { td {} } } }
                }
                script type="application/json" id="sheet" { (PreEscaped(json(page))) }
                script type="application/json" id="words" { (PreEscaped(json(&spoken()))) }
                script { (PreEscaped(script())) }
            }
        }
    };
    let mut response = respond::page_with(StatusCode::OK, body);
    response.headers_mut().insert(
        header::CONTENT_DISPOSITION,
        HeaderValue::from_static("attachment; filename=\"at-home.html\""),
    );
    response
}

/// JSON inside a page: no value can end the element it stands in.
fn json(value: &impl serde::Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default().replace('<', "\\u003c")
}

fn spoken() -> std::collections::BTreeMap<&'static str, String> {
    const NAMES: [(&str, &str); 8] = [
        ("home-rest", "deck-home-rest"),
        ("home-line-done", "deck-home-line-done"),
        ("beat-ready", "deckui-beat-ready"),
        ("beat-out", "deckui-beat-out"),
        ("beat-hold", "deckui-beat-hold"),
        ("beat-back", "deckui-beat-back"),
        ("beat-clockwise", "deckui-beat-clockwise"),
        ("beat-counter", "deckui-beat-counter"),
    ];
    NAMES.iter().map(|(short, id)| (*short, say(id, &[("s", Value::Words("{s}"))]))).collect()
}

/// The modules that the page needs, in front of its own script, as one plain script.
fn script() -> String {
    let of = |wanted: &str| MODULES.iter().find(|(name, _)| *name == wanted).map_or("", |(_, body)| *body);
    let all = ["clock.js", "beat.js", "homecode.js"].map(of).join("\n");
    let plain: String = all.lines().map(|line| line.strip_prefix("export ").unwrap_or(line)).fold(
        String::new(),
        |mut text, line| {
            text.push_str(line);
            text.push('\n');
            text
        },
    );
    format!("\"use strict\";\n{plain}\n{}", include_str!("../../../../assets/deck/home.js"))
}

fn rules(page: &HomePage) -> Markup {
    html! {
        ul.rules {
            li { (text("deck-home-stop")) }
            li { (text("deck-home-form")) }
            li { (text("deck-home-mirror")) }
            @if page.with_adult { li { strong { (text("deck-home-adult")) } } }
            @if page.anchored { li { (text("deck-home-anchor")) } }
            li { (text("deck-home-no-step")) }
            li { (text("caution-water")) }
            li { (text("caution-aim")) }
        }
    }
}

fn side(word: &str) -> String {
    match word {
        "left" => text("deckui-side-left"),
        "right" => text("deckui-side-right"),
        "midline" => text("deckui-side-midline"),
        _ => text("deckui-side-both"),
    }
}

fn shown(desk: &Desk, place: usize, line: &HomeShown) -> Markup {
    let exercise = desk.protocol().exercise(&trade::name::ExerciseId::new(&line.exercise));
    let arm = match line.side {
        "left" => Some(Side::Left),
        "right" => Some(Side::Right),
        _ => None,
    };
    let drawn = exercise.and_then(|exercise| figure(exercise, arm, Ink::Own));
    let cap = format!("{:.0}", line.cap_s);
    html! {
        section.line id={ "line-" (place) } {
            h2 { (line.name) ", " (side(line.side)) }
            p { strong { (line.rung) } " " (say("deck-home-dose", &[("n", Value::Count(i64::from(line.sets))), ("cap", Value::Words(&cap))])) }
            p { (line.set_up) }
            p { (line.movement) }
            @if let Some(drawn) = drawn { div.figure { (drawn) } }
            ul { @for caution in &line.cautions { li { (caution) } } }
            p { (text("deck-home-faults")) " " (line.faults.join(", ")) "." }
            p.clock role="timer" { "–" }
            p.beat {}
            button.go type="button" { (text("deck-home-go")) }
            button.stop type="button" hidden { (text("deck-home-done")) }
        }
    }
}

fn questions() -> Markup {
    html! {
        h2 { (text("deck-home-after")) }
        @for (place, id) in ["deckui-ask-left", "deckui-ask-right", "deckui-after-effort"].into_iter().enumerate() {
            label for={ "answer-" (place) } { (text(id)) }
            select.answer id={ "answer-" (place) } {
                option value="" { "–" }
                @for number in 0..=10 { option value=(number) { (number) } }
            }
        }
    }
}

/// Takes a code: the same code twice is stored once.
pub fn take(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let refuse = |desk: &Desk, says: &'static str| {
        let wrong = [Problem {
            place: text("deck-code-ask"),
            says: text(says),
            hint: String::new(),
            field: Some(FIELD.to_owned()),
        }];
        page(desk, visit, sent, &wrong, StatusCode::UNPROCESSABLE_ENTITY)
    };
    let told = match decode(sent.one(FIELD)) {
        Ok(told) => told,
        Err(NotACode::Letters) => return refuse(desk, "deck-code-letters"),
        Err(NotACode::Check) => return refuse(desk, "deck-code-check"),
    };
    let Ok((subject, drafts)) = desk.home_facts(&told) else { return refuse(desk, "deck-code-no-sheet") };
    if desk.home_is_told(subject, &told) {
        return super::prepare::told(desk, visit, &text("deck-code-known"), true);
    }
    visit
        .record_many(desk, &drafts.into_iter().map(|draft| (subject, draft)).collect::<Vec<_>>())
        .map_err(WebError::from)?;
    let called = desk.person(subject).map(name).unwrap_or_default();
    super::prepare::told(desk, visit, &say("deck-code-done", &[("name", Value::Words(&called))]), true)
}
