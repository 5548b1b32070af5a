//! Every exercise: what it is for, how it is done, its ladder, the faults that end a set, its cautions, its evidence.

use app::desk::Desk;
use maud::{Markup, html};
use trade::name::ExerciseId;
use trade::protocol::{Arms, Exercise, Group, Tempo};
use trade::side::Side;

use super::evidence;
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::drawn::figure;
use crate::web::parts::table::{Column, table};
use crate::web::rope::seconds;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The list, by what the exercises are for.
pub fn list(desk: &Desk, visit: &Visit) -> Answer {
    let groups = [
        (Group::Cuff, "group-cuff"),
        (Group::Scapula, "group-scapula"),
        (Group::Trunk, "group-trunk"),
        (Group::Mobility, "group-mobility"),
        (Group::Balance, "group-balance"),
    ];
    let (title, lede) = (text("spot-exercises"), text("exercises-lede"));
    let here = Here::At(Place::Rules, Spot::Exercises);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let of = |group: Group| desk.protocol().exercises.iter().filter(move |exercise| exercise.group == group);
    let body = html! {
        @for (group, words) in groups {
            @if of(group).next().is_some() {
                section {
                    h2 { (text(words)) }
                    dl.rule-list {
                        @for exercise in of(group) {
                            dt { a href={ "/rules/exercises/" (exercise.id) } { (exercise.name) } " " span.quiet { (exercise.id) } }
                            dd { (exercise.purpose) }
                        }
                    }
                }
            }
        }
    };
    visit.page(desk, frame, body)
}

/// One exercise.
pub fn one(desk: &Desk, visit: &Visit) -> Answer {
    let id = ExerciseId::new(visit.param("exercise"));
    let exercise =
        desk.protocol().exercise(&id).ok_or_else(|| WebError::missing().back_to("/rules/exercises"))?;
    let here = Here::Below(Place::Rules, Spot::Exercises);
    let frame = Frame { title: &exercise.name, lede: Some(&exercise.purpose), here, ..Frame::default() };
    let tags: Vec<String> = exercise.tags.iter().map(|tag| text(&format!("tag-{}", tag.word()))).collect();
    let cap = seconds(exercise.cap(&desk.protocol().parameters));
    let body = html! {
        @if !exercise.cautions.is_empty() {
            ul.exercise-cautions aria-label=(text("exercise-cautions")) { @for caution in &exercise.cautions { li { (caution) } } }
        }
        (drawings(exercise))
        dl.rule-whole {
            dt { (text("exercise-arms")) } dd { (text(match exercise.arms { Arms::One => "arms-one", Arms::Both => "arms-both", Arms::Midline => "arms-midline" })) }
            dt { (text("exercise-kit")) } dd { (exercise.kit) }
            dt { (text("exercise-set-up")) } dd { (exercise.set_up) }
            dt { (text("exercise-movement")) } dd { (exercise.movement) }
            dt { (text("exercise-errors")) } dd { (exercise.errors) }
            dt { (text("exercise-tempo")) } dd { (tempo(exercise.tempo)) }
            @match &exercise.plain_dose {
                Some(dose) => { dt { (text("exercise-dose")) } dd { (dose) } }
                None => { dt { (text("exercise-cap")) } dd { (say("exercise-cap-s", &[("cap", Value::Words(&cap))])) } }
            }
            @if !tags.is_empty() { dt { (text("exercise-tags")) } dd { (tags.join(", ")) } }
            @if let Some(note) = &exercise.hypermobile.note { dt { (text("track-hypermobile")) } dd { (note) } }
        }
        (ladder(desk, exercise))
        (faults(desk, exercise))
        @if !exercise.evidence.is_empty() {
            section { h2 { (text("exercise-evidence")) } ul { @for note in &exercise.evidence { li { (note.text) " " (evidence(&note.evidence)) } } } }
        }
        p { a href="/rules/exercises" { (text("exercises-all")) } }
    };
    visit.page(desk, frame, body)
}

/// How it is done, and how its rungs differ where they are drawn by themselves.
fn drawings(exercise: &Exercise) -> Markup {
    let own: Vec<_> = exercise
        .figures
        .iter()
        .filter_map(|script| script.rungs.first().map(|rung| (rung, script)))
        .collect();
    html! {
        (figure(exercise, None, Some(Side::Right), None))
        @if !own.is_empty() {
            details { summary { (text("figure-variants")) }
                @for (rung, script) in own {
                    @let names: Vec<&str> = script.rungs.iter().filter_map(|rung| exercise.rung(rung)).map(|rung| rung.name.as_str()).collect();
                    h3 { (names.join(", ")) }
                    (figure(exercise, Some(rung), Some(Side::Right), None))
                }
            }
        }
    }
}

fn tempo(tempo: Tempo) -> String {
    crate::web::pages::person::lines::tempo(tempo)
}

fn ladder(desk: &Desk, exercise: &Exercise) -> Markup {
    let rows: Vec<Vec<Markup>> = exercise
        .ladder
        .iter()
        .enumerate()
        .map(|(place, rung)| {
            let mut notes = Vec::new();
            if rung.not_heavier {
                notes.push(text("rung-not-heavier"));
            }
            if let Some(age) = rung.from_age {
                notes.push(say("rung-from-age", &[("age", Value::Count(i64::from(age)))]));
            }
            vec![
                html! { (place + 1) },
                html! { (desk.reader().rung_name(rung)) },
                html! { code { (rung.id) } },
                html! { (notes.join(" ")) },
            ]
        })
        .collect();
    let heads = [text("col-level"), text("col-rung"), text("col-name"), text("col-notes")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! { @if !rows.is_empty() { (table("ladder", &text("exercise-ladder"), &columns, &rows)) } }
}

fn faults(desk: &Desk, exercise: &Exercise) -> Markup {
    let rows: Vec<Vec<Markup>> = exercise
        .faults
        .iter()
        .filter_map(|code| desk.protocol().fault(code))
        .map(|fault| {
            vec![
                html! { (fault.name) },
                html! { (fault.seen_as) },
                html! { (fault.cue) },
                html! { (fault.code) },
            ]
        })
        .collect();
    let heads = [text("col-fault"), text("col-seen-as"), text("col-cue"), text("col-kind")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! { @if !rows.is_empty() { (table("faults", &text("exercise-faults"), &columns, &rows)) } }
}
