//! The timetable as files: feeds and tables out, calendars of others in. A file that comes in is shown first.

use app::desk::Desk;
use app::week::calendar_file::{As, Incoming, read};
use app::week::described::stored_answer;
use axum::body::Body;
use axum::http::{HeaderValue, Response as HttpResponse, StatusCode, header};
use axum::response::Response;
use door::permit::Thing;
use maud::{Markup, html};
use store::SubjectId;

use super::monday;
use crate::web::error::WebError;
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::ask::{Ask, Control, asks};
use crate::web::parts::form::{Field, file, submit};
use crate::web::parts::notice::{Problem, problems};
use crate::web::respond;
use crate::web::site::sent::Sent;
use crate::web::site::visit::{Answer, Visit, with_done};
use crate::web::words::{Value, say, text};

/// A file that a browser keeps.
fn download(body: String, kind: &'static str, name: &str) -> Response {
    let mut response = HttpResponse::new(Body::from(body));
    let plain: String = name
        .chars()
        .map(|letter| if letter.is_ascii_alphanumeric() || letter == '.' { letter } else { '-' })
        .collect();
    let disposition = format!("attachment; filename=\"{plain}\"");
    let headers = response.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    if let Ok(value) = HeaderValue::from_str(&disposition) {
        headers.insert(header::CONTENT_DISPOSITION, value);
    }
    response
}

const CALENDAR: &str = "text/calendar; charset=utf-8";

fn stamp(visit: &Visit) -> jiff::Timestamp {
    visit.moment.stamp.parse().unwrap_or(jiff::Timestamp::UNIX_EPOCH)
}

/// The feed of a squad.
pub fn squad_feed(desk: &Desk, visit: &Visit) -> Answer {
    let squad = visit.param("squad");
    if !desk.squads(visit.today()).iter().any(|known| known == squad) {
        return Err(WebError::missing().back_to("/week"));
    }
    Ok(download(desk.squad_feed(squad, stamp(visit))?, CALENDAR, &format!("dryland-{squad}.ics")))
}

/// The feed of one person.
pub fn person_feed(desk: &Desk, visit: &Visit) -> Answer {
    let feed = desk.person_feed(visit.subject()?, stamp(visit))?;
    Ok(download(feed, CALENDAR, "dryland.ics"))
}

/// Every session as a table.
pub fn table(desk: &Desk, _: &Visit) -> Answer {
    Ok(download(desk.timetable_csv(), "text/csv; charset=utf-8", "dryland.csv"))
}

/// The week as JSON, in the shape of the command.
pub fn week_json(desk: &Desk, visit: &Visit) -> Answer {
    let answer = stored_answer(&desk.week_of(monday(visit))?);
    let text = serde_json::to_string_pretty(&answer).map_err(|_| WebError::defect("week-json".to_owned()))?;
    Ok(download(text, "application/json", "week.json"))
}

fn questions(desk: &Desk, visit: &Visit) -> Vec<Ask> {
    let mut squads = vec![(String::new(), text("week-all"))];
    squads.extend(desk.squads(visit.today()).into_iter().map(|squad| (squad.clone(), squad)));
    let kinds = ["practices", "loads", "elsewhere"]
        .map(|kind| (kind.to_owned(), text(&format!("week-import-{kind}"))));
    vec![
        Ask::new("as", "week-import-as", Control::One(kinds.to_vec())).needed(),
        Ask::new("squad", "week-ask-squad", Control::Pick(squads)),
    ]
}

/// The form for a file.
pub fn import(desk: &Desk, visit: &Visit) -> Answer {
    import_page(desk, visit, &Sent::default(), None, StatusCode::OK)
}

fn import_page(
    desk: &Desk,
    visit: &Visit,
    given: &Sent,
    above: Option<Markup>,
    status: StatusCode,
) -> Answer {
    let (title, lede) = (text("week-import"), text("week-import-lede"));
    let here = Here::Below(Place::Week, Spot::Week);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let label = text("week-import-file");
    let field = Field { name: "file", label: &label, needed: true, ..Field::default() };
    let body = html! {
        @if let Some(above) = above { (above) }
        form.record method="post" action="/week/import" enctype="multipart/form-data" {
            (visit.seals())
            (asks("", &questions(desk, visit), given, &[]))
            (file(&field, ".ics,.csv,text/calendar,text/csv"))
            (submit(&text("week-import-read")))
        }
    };
    visit.page_as(desk, status, frame, body)
}

fn what(sent: &Sent) -> Option<As> {
    let squad = sent.one("squad").to_owned();
    match sent.one("as") {
        "practices" => Some(As::Practices(squad)),
        "loads" => Some(As::Loads(squad)),
        "elsewhere" => Some(As::Elsewhere(squad)),
        _ => None,
    }
}

/// Shows what a file would make; or, sent again from there, records it.
pub fn take(desk: &mut Desk, visit: &Visit, sent: &Sent) -> Answer {
    let chosen = sent.file.as_ref().map(|file| String::from_utf8_lossy(&file.bytes).into_owned());
    let sure = sent.one("sure") == "yes";
    let contents = if sure { Some(sent.one("text").to_owned()) } else { chosen };
    let (Some(contents), Some(what)) = (contents, what(sent)) else {
        let wrong = [Problem { says: text("week-import-missing"), ..Problem::default() }];
        return import_page(desk, visit, sent, Some(problems(&wrong)), StatusCode::UNPROCESSABLE_ENTITY);
    };
    let zone = desk.club_zone()?;
    let incoming = read(&contents, &what, &zone, visit.today());
    if !incoming.refused.is_empty() {
        let wrong: Vec<Problem> = incoming.refused.iter().map(|problem| refused(desk, problem)).collect();
        return import_page(desk, visit, sent, Some(problems(&wrong)), StatusCode::UNPROCESSABLE_ENTITY);
    }
    if !sure {
        return preview(desk, visit, sent, &contents, &incoming);
    }
    let done = desk.bring_in_calendar(&visit.moment, &visit.author(), &incoming)?;
    desk.changed(&visit.moment, visit.who()?, Thing::EditCalendar, &[SubjectId::CLUB])?;
    let word = if done.added + done.changed == 0 { "import-unchanged" } else { "imported" };
    Ok(respond::see(&with_done("/week", word)))
}

fn refused(desk: &Desk, problem: &app::facts::Problem) -> Problem {
    let place = if problem.path.is_empty() {
        String::new()
    } else {
        say("week-import-line", &[("line", Value::Words(&problem.path))])
    };
    Problem { place, says: desk.texts().say(problem.says, &problem.args), ..Problem::default() }
}

fn preview(desk: &Desk, visit: &Visit, sent: &Sent, contents: &str, incoming: &Incoming) -> Answer {
    let title = text("week-import-preview");
    let here = Here::Below(Place::Week, Spot::Week);
    let frame = Frame { title: &title, here, ..Frame::default() };
    let count = i64::try_from(incoming.entries.len()).unwrap_or(i64::MAX);
    let body = html! {
        p { (say("week-import-count", &[("n", Value::Count(count))])) }
        ul.wk-links { @for entry in incoming.entries.iter().take(200) { li { (entry.words) } } }
        form method="post" action="/week/import" {
            (visit.seals())
            input type="hidden" name="sure" value="yes";
            input type="hidden" name="as" value=(sent.one("as"));
            input type="hidden" name="squad" value=(sent.one("squad"));
            textarea.unseen name="text" aria-hidden="true" tabindex="-1" readonly { (contents) }
            (submit(&text("week-import-keep")))
        }
    };
    visit.page(desk, frame, body)
}
