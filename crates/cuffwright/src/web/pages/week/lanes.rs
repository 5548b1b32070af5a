//! Each squad's day as a lane: water in blue, dryland as floats, the hours before water in which nothing loaded may be.
//!
//! Shape says what colour says: water is a wave-edged bar, dryland a capsule, a broken session is crossed out, the
//! hours before water are hatched. The list below says everything in words, and is what a phone shows first.

use std::collections::BTreeSet;

use app::week::say::{Say, clock, short_day, times};
use app::week::stored::StoredWeek;
use door::permit::Thing;
use jiff::ToSpan;
use jiff::civil::{Date, DateTime};
use maud::{Markup, html};
use schedule::time::Span;
use schedule::week::audit::{Session, breaches};

use super::href;
use crate::web::pages::shared::short_day as long_day;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// First and last hour drawn.
const HOURS: (f64, f64) = (6.0, 22.0);

/// Where a civil time of day lies on a lane, in per cent.
fn at(moment: DateTime) -> f64 {
    let hour = f64::from(moment.hour()) + f64::from(moment.minute()) / 60.0;
    ((hour - HOURS.0) / (HOURS.1 - HOURS.0) * 100.0).clamp(0.0, 100.0)
}

fn percent(value: f64) -> String {
    format!("{value:.2}%")
}

/// Known sessions that no longer hold.
fn broken(stored: &StoredWeek) -> BTreeSet<usize> {
    let known: Vec<Session> = stored.week.known.iter().map(Session::from).collect();
    breaches(&stored.week, &known).into_iter().flat_map(|breach| breach.sessions).collect()
}

fn days(stored: &StoredWeek) -> Vec<Date> {
    (0..7).map(|step| stored.week.first.saturating_add(step.days())).collect()
}

/// The drawing: seven days, a lane for each squad.
pub fn drawing(stored: &StoredWeek, today: Date) -> Markup {
    let broken = broken(stored);
    html! {
        section.wk aria-label=(text("week-drawing")) {
            div.wk-head aria-hidden="true" {
                span {}
                svg.wk-hours width="100%" height="20" focusable="false" {
                    @for hour in [6, 8, 10, 12, 14, 16, 18, 20] {
                        text x=(percent(at(stored.week.first.at(hour, 0, 0, 0)))) y="15" { (hour) }
                    }
                }
            }
            @for day in days(stored) {
                div.wk-day.wk-today[day == today] {
                    h3 { (short_day(day)) }
                    div.wk-squads {
                        @for group in 0..stored.week.groups.len() {
                            div.wk-row {
                                span.wk-squad { (stored.week.groups[group].name) }
                                (lane(stored, group, day, &broken))
                            }
                        }
                    }
                }
            }
            (legend())
        }
    }
}

fn lane(stored: &StoredWeek, group: usize, day: Date, broken: &BTreeSet<usize>) -> Markup {
    let week = &stored.week;
    let on_day = |span: Span| span.day() == day;
    let gap = week.settings.gap_minutes();
    let water: Vec<Span> =
        week.water_of(group).into_iter().map(|(_, water)| water.span).filter(|span| on_day(*span)).collect();
    let fallen = stored.fallen_out.iter().filter(|out| {
        out.at.0.date() == day && (out.squad.is_empty() || out.squad == week.groups[group].name)
    });
    html! {
        svg.wk-lane width="100%" height="30" aria-hidden="true" focusable="false" {
            line.wk-cable x1="0" y1="15" x2="100%" y2="15" {}
            @for hour in [8, 12, 16, 20] {
                @let x = percent(at(day.at(hour, 0, 0, 0)));
                line.wk-hour x1=(x) y1="2" x2=(x) y2="28" {}
            }
            @for closure in week.closures.iter().filter(|closure| on_day(closure.span)) {
                (bar("wk-closed", closure.span, 22, 6))
            }
            @for span in &water {
                @let from = span.start.civil().saturating_sub(gap.minutes());
                @let from = if from.date() == day { at(from) } else { 0.0 };
                rect.wk-gap x=(percent(from)) y="11" width=(percent(at(span.start.civil()) - from)) height="8" {}
            }
            @for span in &water { (bar("wk-water", *span, 4, 22)) }
            @for out in fallen {
                rect.wk-fallen x=(percent(at(out.at.0))) y="4" width=(percent(at(out.at.1) - at(out.at.0))) height="22" {}
            }
            @for load in week.loads.iter().filter(|load| load.groups.contains(&group) && on_day(load.span)) {
                (bar("wk-load", load.span, 9, 12))
            }
            @for (index, known) in week.known.iter().enumerate().filter(|(_, known)| known.group == group && on_day(known.span)) {
                (session(known.span, broken.contains(&index), known.overruled.is_some()))
            }
        }
    }
}

fn bar(class: &str, span: Span, y: u8, height: u8) -> Markup {
    let (from, to) = (at(span.start.civil()), at(span.end.civil()));
    html! { rect class=(class) x=(percent(from)) y=(y) width=(percent((to - from).max(0.6))) height=(height) rx="2" {} }
}

fn session(span: Span, is_broken: bool, is_overruled: bool) -> Markup {
    let (from, to) = (at(span.start.civil()), at(span.end.civil()));
    let width = (to - from).max(1.2);
    html! {
        rect.wk-dry.wk-broken[is_broken].wk-overruled[is_overruled] x=(percent(from)) y="3" width=(percent(width)) height="24" rx="7" {}
        @if is_broken {
            line.wk-cross x1=(percent(from)) y1="3" x2=(percent(from + width)) y2="27" {}
            line.wk-cross x1=(percent(from)) y1="27" x2=(percent(from + width)) y2="3" {}
        }
    }
}

fn legend() -> Markup {
    html! {
        ul.wk-legend {
            li { svg width="34" height="20" aria-hidden="true" focusable="false" { rect.wk-water x="0" y="1" width="34" height="18" rx="2" {} } (text("week-key-water")) }
            li { svg width="34" height="20" aria-hidden="true" focusable="false" { rect.wk-gap x="0" y="6" width="34" height="8" {} } (text("week-key-gap")) }
            li { svg width="34" height="20" aria-hidden="true" focusable="false" { rect.wk-dry x="2" y="1" width="28" height="18" rx="7" {} } (text("week-key-dry")) }
            li { svg width="34" height="20" aria-hidden="true" focusable="false" {
                rect.wk-dry.wk-broken x="2" y="1" width="28" height="18" rx="7" {}
                line.wk-cross x1="2" y1="1" x2="30" y2="19" {} line.wk-cross x1="2" y1="19" x2="30" y2="1" {}
            } (text("week-key-broken")) }
            li { svg width="34" height="20" aria-hidden="true" focusable="false" { rect.wk-fallen x="1" y="1" width="32" height="18" {} } (text("week-key-fallen")) }
            li { svg width="34" height="20" aria-hidden="true" focusable="false" { rect.wk-closed x="0" y="12" width="34" height="6" {} } (text("week-key-closed")) }
        }
    }
}

/// One line of the list.
struct Line {
    from: DateTime,
    times: String,
    class: &'static str,
    words: String,
    uid: Option<String>,
}

/// Everything of the week in words, day by day.
pub fn list(visit: &Visit, stored: &StoredWeek, monday: Date) -> Markup {
    let broken = broken(stored);
    html! {
        section.wk-list {
            h2 { (text("week-list")) }
            @for day in days(stored) {
                @let lines = lines(visit, stored, day, &broken);
                div.wk-list-day {
                    h3 { (long_day(day)) }
                    @if lines.is_empty() { p.quiet { (text("week-nothing")) } }
                    ul { @for line in lines {
                        li class={ "wk-line " (line.class) } {
                            span.wk-times { (line.times) }
                            span.wk-words { (line.words) }
                            @if let Some(uid) = line.uid.filter(|_| visit.may(Thing::EditCalendar)) { (take_out(visit, monday, &uid)) }
                        }
                    } }
                }
            }
        }
    }
}

fn take_out(visit: &Visit, monday: Date, uid: &str) -> Markup {
    html! {
        details.decision {
            summary.button.button-plain { (text("week-take-out")) }
            form.in-place method="post" action="/week" {
                (visit.seals())
                input type="hidden" name="do" value="cancel";
                input type="hidden" name="uid" value=(uid);
                input type="hidden" name="of" value=(monday);
                input type="hidden" name="back" value=(href(monday));
                (crate::web::parts::form::submit(&text("week-take-out-sure")))
            }
        }
    }
}

fn lines(visit: &Visit, stored: &StoredWeek, day: Date, broken: &BTreeSet<usize>) -> Vec<Line> {
    let week = &stored.week;
    let words = Say::about(week);
    let names = |groups: &[usize]| -> String {
        if groups.len() == week.groups.len() {
            text("week-all")
        } else {
            groups.iter().map(|group| words.group(*group)).collect::<Vec<_>>().join(", ")
        }
    };
    let line = |span: Span, class: &'static str, words: String, uid: Option<String>| Line {
        from: span.start.civil(),
        times: times(span),
        class,
        words,
        uid,
    };
    let mut all: Vec<Line> = Vec::new();
    for water in week.water.iter().filter(|water| water.span.day() == day) {
        let who = names(&water.groups);
        all.push(line(
            water.span,
            "wk-line-water",
            say("week-line-water", &[("who", Value::Words(&who))]),
            None,
        ));
    }
    for out in stored.fallen_out.iter().filter(|out| out.at.0.date() == day) {
        let who = if out.squad.is_empty() { text("week-all") } else { out.squad.clone() };
        all.push(Line {
            from: out.at.0,
            times: format!("{}-{}", clock(out.at.0), clock(out.at.1)),
            class: "wk-line-fallen",
            words: say("week-line-fallen", &[("who", Value::Words(&who)), ("why", Value::Words(&out.why))]),
            uid: None,
        });
    }
    for (index, known) in week.known.iter().enumerate().filter(|(_, known)| known.span.day() == day) {
        let (who, place) = (words.group(known.group), words.place(known.place));
        let values = [("who", Value::Words(who)), ("place", Value::Words(place))];
        let mut sentence = say("week-line-dry", &values);
        if broken.contains(&index) {
            sentence = say("week-line-broken", &[("session", Value::Words(&sentence))]);
        }
        if let Some(own) = &known.overruled {
            // The reason is the practitioner's own words, and may say more than everybody needs to know.
            let reason = if visit.is_clinical() { own.reason.clone() } else { text("week-reason-kept") };
            let values = [("by", Value::Words(&own.by)), ("reason", Value::Words(&reason))];
            sentence = format!("{sentence} {}", say("week-line-overruled", &values));
        }
        let sitting: usize =
            stored.sit_out.iter().filter(|one| one.uid == stored.known[index].fact.uid).count();
        if sitting != 0 {
            let count = Value::Count(i64::try_from(sitting).unwrap_or(0));
            sentence = format!("{sentence} {}", say("week-line-sit-out", &[("n", count)]));
        }
        all.push(line(known.span, "wk-line-dry", sentence, Some(stored.known[index].fact.uid.clone())));
    }
    for closure in week.closures.iter().filter(|closure| closure.span.day() == day) {
        let place = closure.place.map_or_else(|| text("week-all"), |place| words.place(place).to_owned());
        let values = [("place", Value::Words(&place)), ("why", Value::Words(&closure.why))];
        let mut closed = line(closure.span, "wk-line-closed", say("week-line-closed", &values), None);
        if 23 * 60 <= closure.span.minutes() {
            closed.times = text("week-all-day");
        }
        all.push(closed);
    }
    for (entries, class) in [
        (
            week.busy.iter().map(|busy| (&busy.name, &busy.groups, busy.span)).collect::<Vec<_>>(),
            "wk-line-busy",
        ),
        (week.loads.iter().map(|load| (&load.name, &load.groups, load.span)).collect(), "wk-line-load"),
    ] {
        for (name, groups, span) in entries.into_iter().filter(|(_, _, span)| span.day() == day) {
            let who = names(groups);
            let values = [("what", Value::Words(name)), ("who", Value::Words(&who))];
            all.push(line(span, class, say("week-line-other", &values), None));
        }
    }
    all.sort_by(|one, other| (one.from, &one.words).cmp(&(other.from, &other.words)));
    all
}
