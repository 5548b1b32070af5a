//! The day: emergencies with what to do, then everything that must be closed, each with the form that closes it.

use app::desk::{Desk, Person};
use app::views::board::{About, Board, Line, Stretch, board};
use jiff::civil::Date;
use maud::{Markup, html};
use trade::due::{Due, Kind, Owner};
use trade::gate::Availability;
use trade::history::days_between;
use trade::side::Side;

use super::record::take::Setting;
use super::record::{address, in_place};
use super::shared::{
    AVAILABILITIES, encoded, href, name, reason, sentence, short_day, side_word, what_to_do, whom_to_ring,
};
use super::{asking, first, kit};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::due::{Closing, DueLine, When, due_list};
use crate::web::parts::shoulder::{availability, availability_key};
use crate::web::parts::table::{Paging, paging};
use crate::web::parts::why::why;
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// Lines on one page: what a person can close in one sitting. The head says how many there are in all.
const LINES: usize = 40;

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let day = visit.today();
    let here = Here::At(Place::Due, Spot::Due);
    if desk.people().next().is_none() {
        return first::show(desk, visit, here);
    }
    let board = board(desk, day);
    let to_ask = asking::today(desk, visit);
    let everything = visit.query.has("all", "yes");
    let wanted = |line: &&Line| everything || Stretch::of(line.by, day) != Stretch::Ahead;
    let lines: Vec<&Line> = board.lines.iter().filter(wanted).collect();
    let pages = u32::try_from(lines.len().div_ceil(LINES)).unwrap_or(u32::MAX).max(1);
    let page = visit.page_number().min(pages);
    let shown = lines.iter().skip((page as usize - 1) * LINES).take(LINES);
    let title = say("due-title", &[("n", Value::Count(lines.len() as i64))]);
    let lede = say("due-lede", &[("day", Value::Words(&short_day(day)))]);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let back = visit.path.clone();
    let body = html! {
        (urgent(desk, &board))
        (counts(desk, &board, day, &asking::count(&to_ask)))
        @for stretch in Stretch::ALL {
            @let of_stretch: Vec<DueLine> = shown.clone()
                .filter(|line| Stretch::of(line.by, day) == stretch)
                .enumerate()
                .map(|(index, line)| due_line(desk, visit, line, &format!("{}{index}", stretch_word(stretch)), &back))
                .collect();
            @if !of_stretch.is_empty() {
                section.stretch id=(stretch_word(stretch)) {
                    h2 { (text(stretch_heading(stretch))) }
                    (due_list(&text(stretch_heading(stretch)), &of_stretch))
                }
            }
        }
        @if lines.is_empty() { p.all-closed { (text("due-nothing")) } }
        @let link = if everything { "/due?all=yes&page=" } else { "/due?page=" };
        (paging(Paging { page, pages, href: link }))
        @let ahead = board.count(Stretch::Ahead, day);
        @if !everything && ahead > 0 {
            p { a href="/due?all=yes" { (say("due-ahead", &[("n", Value::Count(ahead as i64))])) } }
        }
        (asking::section(desk, visit, &to_ask))
        (availability_key())
    };
    visit.page(desk, frame, body)
}

const fn stretch_word(stretch: Stretch) -> &'static str {
    match stretch {
        Stretch::Late => "late",
        Stretch::Today => "today",
        Stretch::Tomorrow => "tomorrow",
        Stretch::ThisWeek => "week",
        Stretch::Ahead => "ahead",
    }
}

const fn stretch_heading(stretch: Stretch) -> &'static str {
    match stretch {
        Stretch::Late => "stretch-late",
        Stretch::Today => "stretch-today",
        Stretch::Tomorrow => "stretch-tomorrow",
        Stretch::ThisWeek => "stretch-week",
        Stretch::Ahead => "stretch-ahead",
    }
}

/// Emergencies head everything, with what to do and whom to ring.
fn urgent(desk: &Desk, board: &Board) -> Markup {
    html! {
        @for urgent in &board.urgent {
            @if let Ok(person) = desk.person(urgent.subject) {
                section.urgent aria-label=(name(person)) {
                    h2 { a href=(href(person)) { (name(person)) } }
                    p.urgent-do { (what_to_do(urgent.urgency)) }
                    @for hold in urgent.holds.iter().take(2) { p { (sentence(desk, &hold.line)) } }
                    (whom_to_ring(desk, person))
                }
            }
        }
    }
}

/// How many lie where, so that nobody takes the top of the list for all of it; then the shoulders.
fn counts(desk: &Desk, board: &Board, day: Date, to_ask: &Markup) -> Markup {
    let waiting = desk.review_on(day).len();
    html! {
        div.standing {
            ul.jumps aria-label=(text("due-jumps")) {
                @for stretch in Stretch::ALL {
                    @let n = board.count(stretch, day);
                    @if n > 0 && stretch != Stretch::Ahead {
                        li { a href={ "#" (stretch_word(stretch)) } { b { (n) } " " (text(stretch_heading(stretch))) } }
                    }
                }
                (to_ask)
                @for (monday, n) in app::week::act::no_longer_hold(desk, day) {
                    li { a href=(super::week::href(monday)) { (say("due-week-broken", &[("n", Value::Count(n as i64))])) } }
                }
                @if waiting > 0 { li { a href="/review" { (say("due-waiting", &[("n", Value::Count(waiting as i64))])) } } }
                @if !board.to_settle.is_empty() {
                    li { (say("due-to-settle", &[("n", Value::Count(board.to_settle.len() as i64))])) ": "
                        @for (index, subject) in board.to_settle.iter().enumerate() {
                            @if let Ok(person) = desk.person(*subject) {
                                @if index > 0 { ", " } a href={ (href(person)) "#settle" } { (name(person)) }
                            }
                        }
                    }
                }
            }
            ul.tally aria-label=(say("tally-label", &[("n", Value::Count(board.swimmers as i64))])) {
                @for one in AVAILABILITIES {
                    @let n = board.shoulders.get(&one).copied().unwrap_or_default();
                    li { a href={ "/people?state=" (Availability::word(one)) } { b { (n) } " " (availability(one)) } }
                }
            }
        }
    }
}

fn due_line(desk: &Desk, visit: &Visit, line: &Line, key: &str, back: &str) -> DueLine {
    let day = visit.today();
    let when = match Stretch::of(line.by, day) {
        Stretch::Late => When::Late(days_between(line.by, day).unsigned_abs()),
        Stretch::Today => When::Today,
        Stretch::Tomorrow => When::Tomorrow,
        Stretch::ThisWeek | Stretch::Ahead => When::On(short_day(line.by)),
    };
    match &line.about {
        About::Kit(piece) => DueLine {
            when,
            about: Some((piece.fact.mark.clone(), "/kit".to_owned())),
            what: kit::why_due(piece),
            owner: text("owner-supervisor"),
            close: Closing::Here(kit::inspection(visit, &piece.fact.mark, key, back)),
            why: html! {},
        },
        About::Swimmer(subject, due) => match desk.person(*subject) {
            Ok(person) => DueLine {
                when,
                about: Some((name(person), href(person))),
                what: what(desk, due),
                owner: owner(desk, due.owner),
                close: closing(&Setting { desk, person, visit }, due, key, back),
                why: rule(desk, due),
            },
            // Between reading the board and reading the person nothing can change: the desk is held.
            Err(_) => DueLine {
                when,
                about: None,
                what: what(desk, due),
                owner: String::new(),
                close: Closing::None,
                why: html! {},
            },
        },
    }
}

fn what(desk: &Desk, due: &Due) -> String {
    let says = sentence(desk, &due.line);
    match due.side {
        Some(side) => format!("{}: {says}", side_word(Some(side))),
        None => says,
    }
}

/// The sentence stands in the line already, so here only where it comes from.
fn rule(desk: &Desk, due: &Due) -> Markup {
    let mut reason = reason(desk, &due.line);
    reason.sentence = trade::rule::catalogue::rule_of(due.line.rule)
        .map_or_else(String::new, |rule| rule.matters.to_owned());
    why(&[reason])
}

/// Who has to close it, by name where there is one.
fn owner(desk: &Desk, owner: Owner) -> String {
    match owner {
        Owner::Practitioner => super::shared::practitioner(desk),
        Owner::Clinician => text("owner-clinician"),
        Owner::Supervisor => text("owner-supervisor"),
        Owner::Administrator => text("owner-administrator"),
    }
}

/// The fact that closes one line: short ones right here, long ones on their own page.
pub fn closing(setting: &Setting<'_>, due: &Due, key: &str, back: &str) -> Closing {
    let side = due.side.map_or("", Side::word);
    let rule = due.line.rule.to_string();
    let here = |word, shown: &[&str], preset: &[(&str, &str)]| {
        Closing::Here(in_place(setting, word, key, shown, preset, back))
    };
    let page = |word: &str, more: &str| {
        let own = href(setting.person);
        Closing::There(format!("{}?back={}{more}", address(&own, word), encoded(back)))
    };
    match due.kind {
        Kind::NextMorning => here("pain", &["date", "left", "right", "kind"], &[("when", "next-morning")]),
        Kind::SevenDays => here("pain", &["date", "left", "right", "kind"], &[("when", "follow-up")]),
        Kind::TellGuardian => here("guardian-told", &["date", "by"], &[]),
        Kind::WriteReferral => here("referral", &["opened", "urgency"], &[("side", side)]),
        Kind::ReferralAnswer => here("referral-answer", &["letter", "date"], &[]),
        Kind::ConfirmEnd => here("reopening", &["date", "by"], &[("side", side)]),
        Kind::Water => here("water-advice", &["advice", "by"], &[]),
        Kind::Growth => here("growth", &["date", "height_cm", "sitting_height_cm", "mass_kg"], &[]),
        Kind::Talk => here("talk", &["date", "by"], &[("about", &rule)]),
        Kind::LimitEnds => page("limit", &format!("&side={side}")),
        Kind::Consent => page("consent", ""),
        Kind::Intake => page("intake", ""),
        Kind::Screening | Kind::Retest => page("screening", ""),
        Kind::KitInspection => Closing::There("/kit".to_owned()),
    }
}

/// What is due of one swimmer, for the swimmer's own page.
pub fn of_one(desk: &Desk, visit: &Visit, person: &Person, dues: &[Due], back: &str) -> Markup {
    let lines: Vec<DueLine> = dues
        .iter()
        .enumerate()
        .map(|(index, due)| {
            let line = Line { by: due.by, about: About::Swimmer(person.subject, due.clone()) };
            DueLine { about: None, ..due_line(desk, visit, &line, &format!("due{index}"), back) }
        })
        .collect();
    html! { @if !lines.is_empty() { (due_list(&text("due-of-one"), &lines)) } }
}
