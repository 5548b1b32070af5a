//! A club's own file: choose it, look at every row and every problem, then say yes. Looking stores nothing.

use app::bring_in::{Incoming, NoPreview};
use app::desk::Desk;
use app::facts::ContextWord;
use app::import::{Change, DateOrder, FileProblem, Kind, Outcome, Preview, Problem, Said, Weight};
use app::text::Texts;
use axum::http::StatusCode;
use door::permit::Thing;
use maud::{Markup, html};

use super::facts::brief;
use super::person::past::kind_word;
use super::record::pain::worded;
use super::shared::encoded;
use crate::web::error::{Kind as ErrorKind, WebError, problems_of};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::{Field, file, submit};
use crate::web::parts::notice::{self, outcome, problems};
use crate::web::parts::table::{Column, table};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

const HERE: Here = Here::At(Place::People, Spot::Import);
/// Rows and problems shown; a file with more is mended in the spreadsheet, not on this page.
const ROWS: usize = 400;

/// The first step.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    choose(desk, visit, &[], StatusCode::OK)
}

fn choose(desk: &Desk, visit: &Visit, wrong: &[notice::Problem], status: StatusCode) -> Answer {
    if desk.club().about.is_none() {
        // Ids of new swimmers follow from the club's own; and units and time zone must be known before a row is read.
        return Ok(respond::see("/club?back=/import"));
    }
    let (title, lede) = (text("bring-title"), text("bring-lede"));
    let refused = (!wrong.is_empty()).then(|| outcome(notice::Outcome::Refused, &text("bring-refused")));
    let frame =
        Frame { title: &title, lede: Some(&lede), here: HERE, outcome: refused.as_ref(), ..Frame::default() };
    let (label, hint) = (text("bring-file"), text("bring-file-hint"));
    let field = Field { name: "file", label: &label, hint: Some(&hint), needed: true, ..Field::default() };
    let body = html! {
        @if !wrong.is_empty() { (problems(wrong)) }
        form method="post" action="/import" enctype="multipart/form-data" {
            (visit.seals())
            (file(&field, ".csv,.tsv,.txt,.xlsx,.xls,.ods"))
            (asks("", &how(), &visit.query, &[]))
            (submit(&text("bring-look")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

/// What a person can say about a file.
fn how() -> Vec<Ask> {
    let mut kinds = vec![(String::new(), text("bring-kind-detect"))];
    kinds.extend(Kind::ALL.iter().map(|kind| (kind.word().to_owned(), list_word(*kind))));
    let orders =
        [("", "bring-dates-detect"), ("day-first", "bring-dates-dmy"), ("month-first", "bring-dates-mdy")];
    let places = [
        ("", "bring-context-detect"),
        ("after-practice", "context-after-practice"),
        ("rested", "context-rested"),
        ("home", "context-home"),
    ];
    vec![
        Ask::new("kind", "bring-kind", Control::Pick(kinds)),
        Ask::new("dates", "bring-dates", Control::Pick(worded(&orders))).hint("bring-dates-hint"),
        Ask::new("context", "bring-context", Control::Pick(worded(&places))).hint("bring-context-hint"),
    ]
}

/// Where past sessions were held, for lists that do not say.
fn context_from(word: &str) -> Option<ContextWord> {
    match word {
        "after-practice" => Some(ContextWord::AfterPractice),
        "rested" => Some(ContextWord::Rested),
        "home" => Some(ContextWord::Home),
        _ => None,
    }
}

fn list_word(kind: Kind) -> String {
    text(match kind {
        Kind::Roster => "bring-kind-roster",
        Kind::Screening => "bring-kind-screening",
        Kind::Kit => "bring-kind-kit",
        Kind::Sets => "bring-kind-sets",
    })
}

/// Takes the file and leads to its preview, which can be loaded again as often as one likes.
pub fn take(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let Some(file) = &sent.file else {
        let wrong = notice::Problem {
            place: text("bring-file"),
            says: text("bring-no-file"),
            field: Some("file".to_owned()),
            ..notice::Problem::default()
        };
        return choose(desk, visit, &[wrong], StatusCode::UNPROCESSABLE_ENTITY);
    };
    let held = visit.site.hold(file.name.clone(), file.bytes.clone());
    let [kind, dates, context] = ["kind", "dates", "context"].map(|name| encoded(sent.one(name)));
    Ok(respond::see(&format!("/import/{}?kind={kind}&dates={dates}&context={context}", held.key)))
}

fn preview_of(
    desk: &Desk,
    visit: &Visit,
    said: &Sent,
) -> Result<(String, Result<Preview, FileProblem>), WebError> {
    let held = visit.site.held(visit.param("key")).ok_or_else(|| {
        let gone = notice::Problem { says: text("bring-gone"), ..notice::Problem::default() };
        WebError { problems: vec![gone], ..WebError::missing() }.back_to("/import")
    })?;
    let incoming = Incoming {
        bytes: &held.bytes,
        name: &held.name,
        kind: Kind::from_word(said.one("kind")),
        dates: DateOrder::from_word(said.one("dates")),
        context: context_from(said.one("context")),
        accept_unusual: said.has("unusual", "yes"),
    };
    match desk.preview_import(visit.today(), &incoming) {
        Ok(preview) => Ok((held.name, Ok(preview))),
        Err(NoPreview::File(problem)) => Ok((held.name, Err(problem))),
        Err(NoPreview::Record(error)) => Err(WebError::from(error).back_to("/import")),
    }
}

/// The preview.
pub fn preview(desk: &Desk, visit: &Visit) -> Answer {
    page(desk, visit, &visit.query, None, StatusCode::OK)
}

fn page(desk: &Desk, visit: &Visit, said: &Sent, refused: Option<&str>, status: StatusCode) -> Answer {
    let (name, found) = preview_of(desk, visit, said)?;
    let title = say("bring-preview", &[("name", Value::Words(&name))]);
    let address = format!("/import/{}", visit.param("key"));
    let wrong = refused.map(|says| outcome(notice::Outcome::Refused, says));
    let (lede, body) = match &found {
        Err(problem) => (text("bring-unreadable"), file_problem(problem)),
        Ok(preview) => (counted(preview), previewed(visit, preview, said, &address)),
    };
    let frame =
        Frame { title: &title, lede: Some(&lede), here: HERE, outcome: wrong.as_ref(), ..Frame::default() };
    let body = html! {
        (body)
        form.reread method="get" action=(address) {
            h2 { (text("bring-otherwise")) }
            (asks("", &how(), said, &[]))
            button.button.button-plain type="submit" { (text("bring-look-again")) }
            " " a.button.button-plain href="/import" { (text("bring-other-file")) }
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn counted(preview: &Preview) -> String {
    let count = |n: usize| Value::Count(i64::try_from(n).unwrap_or(i64::MAX));
    let (counts, kind) = (&preview.counts, list_word(preview.kind));
    say(
        "bring-counts",
        &[
            ("kind", Value::Words(&kind)),
            ("rows", count(counts.rows)),
            ("added", count(counts.added)),
            ("unchanged", count(counts.unchanged)),
            ("corrected", count(counts.corrected)),
        ],
    )
}

fn said(words: &Said) -> String {
    Texts::english().say(words.id, &words.args)
}

fn file_problem(problem: &FileProblem) -> Markup {
    let hints: Vec<String> = problem.suggestions.iter().map(said).collect();
    problems(&[notice::Problem {
        says: said(&problem.says),
        hint: hints.join(" "),
        ..notice::Problem::default()
    }])
}

fn previewed(visit: &Visit, preview: &Preview, given: &Sent, address: &str) -> Markup {
    let ready = preview.is_ready();
    let changes = preview.changes().count();
    html! {
        (remarks(preview))
        @if preview.counts.blocking > 0 {
            p.bring-blocked { (say("bring-blocked", &[("n", Value::Count(preview.counts.blocking as i64))])) }
        } @else {
            form.bring-yes method="post" action=(address) id="confirm" {
                (visit.seals())
                input type="hidden" name="kind" value=(given.one("kind"));
                input type="hidden" name="dates" value=(given.one("dates"));
                input type="hidden" name="context" value=(given.one("context"));
                @if preview.counts.to_confirm > 0 || given.has("unusual", "yes") {
                    (asks("", &[Ask::new("unusual", "ask-unusual", Control::Tick).hint("ask-unusual-hint")], given, &[]))
                }
                @if changes == 0 { p { (text("bring-nothing-new")) } }
                @let label = if changes == 0 { text("bring-confirm-nothing") } else { say("bring-confirm", &[("n", Value::Count(changes as i64))]) };
                (submit(&label))
                @if !ready { p.quiet { (text("bring-unusual-first")) } }
            }
        }
        (rows(preview))
        (corrections(preview))
    }
}

/// Every problem and note with its place, what stands there, and what would mend it.
fn remarks(preview: &Preview) -> Markup {
    let row = |problem: &Problem| {
        let place = problem.row.map_or_else(|| text("bring-whole-file"), |row| row.to_string());
        let weight = text(match problem.weight {
            Weight::Blocks => "bring-weight-blocks",
            Weight::Ask => "bring-weight-ask",
            Weight::Note => "bring-weight-note",
        });
        let suggestion = problem.suggestion.as_ref().map(|suggestion| said(suggestion)).unwrap_or_default();
        vec![
            html! { (place) },
            html! { (problem.column.clone().unwrap_or_default()) },
            html! { (problem.value.clone().unwrap_or_default()) },
            html! { b { (weight) ": " } (Texts::english().say(problem.says, &problem.args)) },
            html! { (suggestion) },
        ]
    };
    let list: Vec<Vec<Markup>> = preview.problems.iter().take(ROWS).map(row).collect();
    let heads =
        [text("col-row"), text("col-column"), text("col-value"), text("col-problem"), text("col-suggestion")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let more = preview.problems.len().saturating_sub(ROWS);
    html! {
        @if !list.is_empty() {
            (table("problems", &say("list-problems", &[("n", Value::Count(preview.problems.len() as i64))]), &columns, &list))
            @if more > 0 { p { (say("bring-more", &[("n", Value::Count(more as i64))])) } }
        }
    }
}

fn rows(preview: &Preview) -> Markup {
    let word = |outcome: Outcome| {
        text(match outcome {
            Outcome::Blocked => "bring-row-blocked",
            Outcome::Corrects => "bring-row-corrects",
            Outcome::Adds => "bring-row-adds",
            Outcome::Unchanged => "bring-row-unchanged",
            Outcome::Nothing => "bring-row-nothing",
        })
    };
    let list: Vec<Vec<Markup>> = preview
        .rows
        .iter()
        .take(ROWS)
        .map(|row| vec![html! { (row.row) }, html! { (row.about) }, html! { (word(row.outcome)) }])
        .collect();
    let heads = [text("col-row"), text("col-about"), text("col-outcome")];
    let columns = [Column::number(&heads[0]), Column::words(&heads[1]), Column::words(&heads[2])];
    let more = preview.rows.len().saturating_sub(ROWS);
    html! {
        details.bring-rows open[preview.rows.len() <= 60] {
            summary { (text("bring-rows")) }
            (table("rows", &text("bring-rows"), &columns, &list))
            @if more > 0 { p { (say("bring-more", &[("n", Value::Count(more as i64))])) } }
        }
    }
}

fn corrections(preview: &Preview) -> Markup {
    let list: Vec<Vec<Markup>> = preview
        .facts
        .iter()
        .filter_map(|planned| match &planned.change {
            Change::Corrects { before, .. } => Some(vec![
                html! { (kind_word(planned.kind)) },
                html! { span.payload { (brief(&before.to_string())) } },
                html! { span.payload { (brief(&planned.payload.to_string())) } },
            ]),
            Change::Added | Change::Unchanged(_) => None,
        })
        .take(ROWS)
        .collect();
    let heads = [text("col-kind"), text("col-before"), text("col-after")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! { @if !list.is_empty() { (table("corrections", &text("bring-corrections"), &columns, &list)) } }
}

/// Stores what the preview shows, all of it or nothing.
pub fn confirm(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let (name, found) = preview_of(desk, visit, sent)?;
    let Ok(preview) = found else {
        return page(desk, visit, sent, Some(&text("bring-refused")), StatusCode::UNPROCESSABLE_ENTITY);
    };
    match desk.import(&visit.moment, &visit.author(), &preview, &name) {
        Ok(done) if done.added == 0 && done.corrected == 0 => {
            Ok(respond::see("/import?done=import-unchanged"))
        }
        Ok(_) => {
            desk.changed(&visit.moment, visit.who()?, Thing::Import, &[])?;
            Ok(respond::see(match preview.kind {
                Kind::Kit => "/kit?done=imported",
                _ => "/people?done=imported",
            }))
        }
        Err(error) if error.kind == app::error::ErrorKind::Storage => Err(WebError::from(error)),
        Err(error) => {
            let says: Vec<String> = problems_of(&error)
                .iter()
                .map(|problem| format!("{} {}", problem.says, problem.hint))
                .collect();
            page(desk, visit, sent, Some(says.join(" ").trim()), ErrorKind::Input.status())
        }
    }
}
