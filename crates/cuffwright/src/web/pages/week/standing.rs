//! How the week stands: sound, broken with its least repair, or unplanned with the best plan or the clash.

use app::week::act::Standing;
use app::week::say::{Say, when};
use app::week::stored::StoredWeek;
use door::permit::Thing;
use jiff::civil::Date;
use maud::{Markup, html};
use schedule::week::audit::{Breach, Session};
use schedule::week::clash::{Buys, Clash};
use schedule::week::plan::{Answer, Plan};
use schedule::week::repair::Repair;
use schedule::week::requirement::Kind;

use super::href;
use crate::web::parts::form::submit;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// The block at the head of the page.
pub fn block(visit: &Visit, stored: &StoredWeek, standing: &Standing, monday: Date) -> Markup {
    html! {
        section.wk-standing aria-labelledby="standing" {
            @match standing {
                Standing::Sound => h2 id="standing" { (text("week-sound")) },
                Standing::OutOfTime => h2 id="standing" { (text("week-out-of-time")) },
                Standing::Broken(repair) => (broken(visit, stored, repair, monday)),
                Standing::Unplanned(Answer::Plan(plan)) if plan.sessions.is_empty() => h2 id="standing" { (text("week-nobody-asks")) },
                Standing::Unplanned(Answer::Plan(plan)) => (unplanned(visit, stored, plan, monday)),
                Standing::Unplanned(Answer::Clash(found)) => (clash(stored, found)),
                Standing::Unplanned(Answer::OutOfTime) => h2 id="standing" { (text("week-out-of-time")) },
            }
            @for skipped in &stored.skipped { p { (say("week-skipped", &[("what", Value::Words(skipped))])) } }
        }
    }
}

fn count(n: usize) -> Value<'static> {
    Value::Count(i64::try_from(n).unwrap_or(i64::MAX))
}

/// True where the requirement says more than the reason does: a rule with its figure, not the fact itself again.
pub fn says_more(requirement: &str) -> bool {
    [Kind::BeforeWater, Kind::FreeDay, Kind::HoursBetween, Kind::MeetGap, Kind::OtherLoad, Kind::PlannedFewer]
        .into_iter()
        .any(|kind| kind.word() == requirement)
}

/// What is broken, each reason once with the sessions it is about.
fn reasons(stored: &StoredWeek, broken: &[Breach]) -> Markup {
    let words = Say::about(&stored.week);
    let known: Vec<Session> = stored.week.known.iter().map(Session::from).collect();
    html! {
        ul.wk-reasons { @for breach in broken {
            li {
                b { (sessions(words, &known, &breach.sessions)) } ": "
                (words.breach(breach, &known))
                @if says_more(breach.requirement.kind.word()) { " " span.quiet { (words.requirement(breach.requirement)) "." } }
            }
        } }
    }
}

fn sessions(words: Say<'_>, known: &[Session], which: &[usize]) -> String {
    let each: Vec<String> = which
        .iter()
        .filter_map(|at| known.get(*at))
        .map(|session| format!("{}, {}", words.group(session.group), when(session.span)))
        .collect();
    each.join("; ")
}

fn broken(visit: &Visit, stored: &StoredWeek, repair: &Repair, monday: Date) -> Markup {
    let words = Say::about(&stored.week);
    html! {
        h2 id="standing" { (say("week-broken", &[("n", count(repair.broken.len()))])) }
        (reasons(stored, &repair.broken))
        h3 { (say("week-repair", &[("moves", count(repair.moves.len())), ("kept", count(repair.kept.len()))])) }
        ol.wk-moves { @for change in &repair.moves {
            li {
                b { (words.group(change.group)) } ": "
                @match change.from {
                    Some(at) => s { (when(stored.week.known[at].span)) " " (words.place(stored.week.known[at].place)) },
                    None => (text("week-move-new")),
                }
                span.wk-arrow aria-hidden="true" { " → " }
                span.unseen { (text("week-move-to")) }
                @match change.to {
                    Some(at) => b { (when(stored.week.slots[at].span)) " " (words.place(stored.week.slots[at].place)) },
                    None => b { (text("week-move-out")) },
                }
            }
        } }
        @if let Some(found) = &repair.clash { (members(stored, found)) }
        @if visit.may(Thing::EditCalendar) { (confirm(visit, stored, monday, "repair", &text("week-repair-confirm"))) }
    }
}

fn unplanned(visit: &Visit, stored: &StoredWeek, plan: &Plan, monday: Date) -> Markup {
    let words = Say::about(&stored.week);
    html! {
        h2 id="standing" { (say("week-unplanned", &[("n", count(plan.sessions.len()))])) }
        p { (text(if plan.is_proven() { "week-plan-proven" } else { "week-plan-gap" })) }
        ol.wk-moves { @for placed in &plan.sessions {
            @let slot = &stored.week.slots[placed.slot];
            li { b { (words.group(placed.group)) } ": " (when(slot.span)) " " (words.place(slot.place)) }
        } }
        (tally(plan))
        @if visit.may(Thing::EditCalendar) { (confirm(visit, stored, monday, "adopt", &text("week-plan-confirm"))) }
    }
}

/// Where the points come from.
fn tally(plan: &Plan) -> Markup {
    html! {
        details {
            summary { (text("week-points")) }
            table {
                thead { tr { th scope="col" { (text("week-points-what")) } th scope="col" { (text("week-points-sessions")) } th scope="col" { (text("week-points-points")) } } }
                tbody { @for one in &plan.tally {
                    tr { th scope="row" { (text(&format!("prefer-{}", one.preference.word()))) } td { (one.sessions) } td { (one.points) } }
                } }
            }
        }
    }
}

fn clash(stored: &StoredWeek, found: &Clash) -> Markup {
    html! {
        h2 id="standing" { (text("week-clash")) }
        (members(stored, found))
    }
}

fn members(stored: &StoredWeek, found: &Clash) -> Markup {
    let words = Say::about(&stored.week);
    html! {
        p { (text("week-clash-lede")) }
        ul.wk-reasons { @for member in &found.members {
            li {
                b { (words.requirement(member.requirement)) "." } " "
                span.quiet { (buys(words, &member.buys, member.requirement.kind)) }
            }
        } }
    }
}

fn buys(words: Say<'_>, buys: &Buys, kind: Kind) -> String {
    match buys {
        Buys::Nothing => text("buys-fixed"),
        Buys::OtherClash => text("buys-other-clash"),
        Buys::Unknown => text("buys-unknown"),
        Buys::Plan { breaks, missing, .. } if breaks.is_empty() => {
            let says = match (kind, 0 < *missing) {
                (Kind::Sessions, true) => "buys-sessions",
                (_, true) => "buys-missing",
                (_, false) => "buys-plan",
            };
            say(says, &[("missing", Value::Count(*missing))])
        }
        Buys::Plan { breaks, .. } => {
            let list: Vec<String> = breaks
                .iter()
                .map(|(placed, reason)| {
                    let place = words.week.slots[placed.slot].place;
                    let why = words.cause(reason.cause, placed.group, place);
                    format!("{} ({})", words.placed(*placed), why.trim_end_matches('.'))
                })
                .collect();
            say("buys-breaks", &[("list", Value::Words(&list.join("; ")))])
        }
    }
}

fn confirm(visit: &Visit, stored: &StoredWeek, monday: Date, what: &str, label: &str) -> Markup {
    html! {
        form.wk-confirm method="post" action="/week" {
            (visit.seals())
            input type="hidden" name="do" value=(what);
            input type="hidden" name="of" value=(monday);
            input type="hidden" name="seen" value=(stored.digest);
            input type="hidden" name="back" value=(href(monday));
            (submit(label))
        }
    }
}
