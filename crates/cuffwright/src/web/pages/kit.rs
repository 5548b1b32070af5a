//! What the club owns, when each piece was looked at, and the form for the next look.

use app::desk::{Desk, Draft};
use app::facts::{InspectionFact, KitWord};
use app::text::day;
use app::views::kit::{Piece, pieces};
use door::permit::Thing;
use maud::{Markup, html};
use store::SubjectId;

use super::shared::{back_or, short_day};
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::submit;
use crate::web::parts::notice::{Problem, empty};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let pieces = pieces(desk, visit.today());
    let (title, lede) = (text("place-kit"), text("kit-lede"));
    let here = Here::At(Place::Kit, Spot::Kit);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let body = html! {
        @if pieces.is_empty() { (empty(&text("kit-none"), visit.may(Thing::Import).then(|| text("kit-none-do")).as_deref().map(|words| (words, "/import")))) }
        p { a href="/kit/what-if" { (text("what-if-link")) } }
        ul.kit {
            @for (index, piece) in pieces.iter().enumerate() {
                li.kit-piece id={ "piece-" (index) } {
                    h2 { (piece.fact.mark) }
                    p { (what_it_is(desk, piece)) }
                    p class=[(!piece.may_be_used()).then_some("kit-out")] { (standing(piece)) }
                    @if piece.fact.kind == KitWord::Band {
                        p { a href=(super::band::address(&piece.fact.mark)) { (measured(desk, &piece.fact.mark)) } }
                    }
                    @if piece.fact.withdrawn.is_none() && visit.may(Thing::EditKit) {
                        details.decision {
                            summary.button.button-plain { (say("kit-look", &[("mark", Value::Words(&piece.fact.mark))])) }
                            (inspection(visit, &piece.fact.mark, &format!("k{index}"), "/kit"))
                        }
                    }
                }
            }
        }
    };
    visit.page(desk, frame, body)
}

/// What a band was measured to pull, or that nobody measured it: the words of the link to its page.
fn measured(desk: &Desk, mark: &str) -> String {
    let newest = desk.club().calibrations.iter().rev().find(|fact| fact.mark == mark);
    match newest {
        Some(fact) => say("kit-measured", &[("day", Value::Words(&short_day(fact.date)))]),
        None => text("kit-not-measured"),
    }
}

fn what_it_is(desk: &Desk, piece: &Piece) -> String {
    use quantity::{Force, Mass};
    let fact = &piece.fact;
    let units = desk.reader().units;
    let kind = text(match fact.kind {
        KitWord::Band => "kit-band",
        KitWord::Weight => "kit-weight",
        KitWord::Ball => "kit-ball",
        KitWord::Mat => "kit-mat",
        KitWord::Anchor => "kit-anchor",
        KitWord::Other => "kit-other",
    });
    let mut parts = vec![kind];
    if let Some(force) = fact.force_at_double_n {
        let force = app::text::force(Force::from_newtons(force), units);
        parts.push(say("kit-force", &[("force", Value::Words(&force))]));
    }
    if let Some(length) = fact.rest_length_m {
        let length = format!("{length}");
        parts.push(say("kit-length", &[("length", Value::Words(&length))]));
    }
    if let Some(mass) = fact.mass_kg {
        parts.push(app::text::mass(Mass::from_kilograms(mass), units));
    }
    parts.push(say("kit-pieces", &[("n", Value::Count(i64::from(fact.pieces)))]));
    if let Some(since) = fact.in_service {
        parts.push(say("kit-since", &[("day", Value::Words(&day(since)))]));
    }
    parts.push(text(match fact.latex {
        Some(true) => "kit-latex",
        Some(false) => "kit-no-latex",
        None => "kit-latex-unknown",
    }));
    parts.join(", ")
}

fn standing(piece: &Piece) -> String {
    if let Some((since, why)) = &piece.fact.withdrawn {
        return say("kit-withdrawn", &[("day", Value::Words(&day(*since))), ("why", Value::Words(why))]);
    }
    let last = piece.last.as_ref().map(|look| (short_day(look.date), look.by.clone(), look.sound));
    match last {
        None => text("kit-never"),
        Some((day, by, false)) => {
            say("kit-unsound", &[("day", Value::Words(&day)), ("by", Value::Words(&by))])
        }
        Some((day, by, true)) => {
            let next = piece.by.map(short_day).unwrap_or_default();
            say(
                "kit-sound",
                &[("day", Value::Words(&day)), ("by", Value::Words(&by)), ("next", Value::Words(&next))],
            )
        }
    }
}

/// Why a piece stands on the day's list.
pub fn why_due(piece: &Piece) -> String {
    match &piece.last {
        Some(look) => say("due-kit", &[("day", Value::Words(&short_day(look.date)))]),
        None => text("due-kit-never"),
    }
}

fn look_asks() -> Vec<Ask> {
    let sound = vec![("yes".to_owned(), text("kit-is-sound")), ("no".to_owned(), text("kit-is-not-sound"))];
    vec![
        Ask::new("date", "ask-date", Control::Day).needed(),
        Ask::new("sound", "ask-sound", Control::One(sound)).needed(),
        Ask::new("by", "ask-by", Control::Line).needed(),
    ]
}

/// The form for one look.
pub fn inspection(visit: &Visit, mark: &str, key: &str, back: &str) -> Markup {
    let given = Sent::of(&[("date", &visit.today().to_string()), ("by", &visit.author().name)]);
    look_form(visit, mark, key, back, &given, &[])
}

fn look_form(visit: &Visit, mark: &str, key: &str, back: &str, given: &Sent, wrong: &[Problem]) -> Markup {
    html! {
        form.in-place method="post" action="/kit" {
            (visit.seals())
            input type="hidden" name="mark" value=(mark);
            input type="hidden" name="back" value=(back);
            (asks(key, &look_asks(), given, wrong))
            (submit(&text("record-submit")))
        }
    }
}

/// Takes one look.
pub fn send(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let mark = sent.one("mark");
    if !desk.club().kit.iter().any(|piece| piece.mark == mark) {
        return Err(WebError::missing().back_to("/kit"));
    }
    let asked = look_asks();
    let mut taking = super::record::take::Taking::new(sent, &asked, visit.today());
    let (date, sound, by) = (taking.past_day("date"), taking.yes_no("sound"), taking.words("by"));
    if sound.is_none() && sent.one("sound").is_empty() {
        taking.wrong("sound", text("take-needed"));
    }
    let (Some(date), Some(sound), Some(by)) = (date, sound, by) else {
        let title = say("kit-look", &[("mark", Value::Words(mark))]);
        let here = Here::Below(Place::Kit, Spot::Kit);
        let frame = Frame { title: &title, here, ..Frame::default() };
        let body = html! {
            (crate::web::parts::notice::problems(&taking.problems))
            (look_form(visit, mark, "", sent.one("back"), sent, &taking.problems))
        };
        return visit.page_as(desk, axum::http::StatusCode::UNPROCESSABLE_ENTITY, frame, body);
    };
    let look = InspectionFact { date, mark: mark.to_owned(), sound, by };
    visit.record(desk, SubjectId::CLUB, &[Draft::new(&look)])?;
    Ok(respond::see(&with_done(back_or(sent.one("back"), "/kit"), "recorded")))
}
