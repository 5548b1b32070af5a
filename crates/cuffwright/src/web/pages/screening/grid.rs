//! The rows of a station: boxes in the order in which a hand moves on, and a way to say why there is no value.

use app::desk::Desk;
use app::facts::{GrowthFact, Units};
use app::screening::cell::{shown, unit};
use app::screening::row::{Place, Setting, places};
use maud::{Markup, html};
use trade::screening::measure::Station;
use trade::side::Side;

use super::measure_name;
use super::station::Shown;
use crate::web::pages::shared::{href, name, sentence, tells_apart};
use crate::web::parts::notice::Problem;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// What stands in the boxes of a body size on record: its mean, once.
pub fn size_box(place: Place, fact: &GrowthFact, units: Units) -> Vec<(String, String)> {
    let value = match place.measure.key {
        "height" => Some(fact.height_cm / 100.0),
        "sitting_height" => fact.sitting_height_cm.map(|value| value / 100.0),
        _ => fact.mass_kg,
    };
    value.map(|value| (place.name("1"), shown(place.measure, value, units))).into_iter().collect()
}

/// Names of the boxes of one row, in order.
fn box_names(setting: &Setting) -> Vec<String> {
    let mut names: Vec<String> = places(&setting.measures)
        .iter()
        .flat_map(|place| (1..=place.measure.trials).map(|trial| place.name(&trial.to_string())))
        .collect();
    if setting.station == Station::CheckIn {
        names.extend(Side::BOTH.map(|side| format!("pain.{}", side.word())));
    }
    names
}

/// The box to go on with: the first empty one of a row that was begun, else of the first untouched row.
pub fn next_empty(setting: &Setting, rows: &[Shown<'_>]) -> Option<String> {
    let names = box_names(setting);
    let is_free = |row: &Shown<'_>, name: &String| {
        let place = name.rsplit_once('.').map_or("", |(place, _)| place);
        row.typed(name).is_empty() && row.typed(&format!("{place}.why")).is_empty()
    };
    let first = |row: &Shown<'_>| {
        let free = names.iter().find(|name| is_free(row, name))?;
        Some(format!("{}.{free}", row.key))
    };
    let begun = rows.iter().filter(|row| !row.done && !row.typed.is_empty());
    let untouched = rows.iter().filter(|row| row.typed.is_empty());
    begun.chain(untouched).find_map(first)
}

/// One swimmer's row.
pub fn row(
    desk: &Desk,
    visit: &Visit,
    setting: &Setting,
    row: &Shown<'_>,
    wrong: &[Problem],
    next: Option<&str>,
) -> Markup {
    let who = name(row.person);
    let is_open = !row.done && !row.typed.is_empty();
    let own: Vec<&Problem> = wrong
        .iter()
        .filter(|problem| problem.field.as_deref().is_some_and(|field| field.starts_with(&row.key)))
        .collect();
    html! {
        fieldset class={ "station-row" @if row.done { " station-row-done" } } id=(row.key) {
            legend { a href=(href(row.person)) { (who) } }
            div.station-who {
                p.quiet { (tells_apart(row.person)) }
                p.station-state {
                    @if row.saved { b { (text("station-row-saved")) } }
                    @else if row.done { (text("station-row-done")) }
                    @else if is_open { (text("station-row-open")) }
                }
                (papers(desk, visit, row))
            }
            input type="hidden" name={ (row.key) ".was" } value=(row.was);
            div.station-places {
                @for place in places(&setting.measures) { (boxes(setting, row, place, &own, next)) }
                @if setting.station == Station::Looking { (hollow(row)) }
                @if setting.station == Station::CheckIn { (pain(row, &own, next)) }
            }
            @if row.asks_meant {
                @let id = format!("{}.meant", row.key);
                div.choice.tick { input type="checkbox" id=(id) name=(id) value="yes"; label for=(id) { (text("station-meant")) } }
            }
            div.station-do {
                @if !setting.measures.is_empty() { (why_not(row, setting)) }
                button.button.button-plain type="submit" name="do" value={ "row:" (row.key) }
                    aria-label=(say("station-save-of", &[("name", Value::Words(&who))])) { (text("station-save")) }
            }
        }
    }
}

/// Somebody whose papers do not allow a screening is named as such: the hand stops before it measures.
fn papers(desk: &Desk, visit: &Visit, row: &Shown<'_>) -> Markup {
    let assessment = desk.assess(row.person, visit.today());
    let hold =
        assessment.gate.holds.iter().find(|hold| matches!(hold.line.rule.0, "G1" | "G2" | "G3" | "G4"));
    html! { @if let Some(hold) = hold { p.field-problem { (sentence(desk, &hold.line)) } } }
}

fn label_of(place: Place, units: Units) -> String {
    let measure = measure_name(place.measure.key);
    let symbol = unit(place.measure.key, units).symbol();
    let side = place.side.map_or_else(String::new, |side| text(&format!("side-{}", side.word())));
    let id = match (place.side.is_some(), symbol.is_empty()) {
        (true, false) => "place-sided",
        (true, true) => "place-sided-bare",
        (false, false) => "place-whole",
        (false, true) => "place-whole-bare",
    };
    say(
        id,
        &[("measure", Value::Words(&measure)), ("side", Value::Words(&side)), ("unit", Value::Words(symbol))],
    )
}

fn boxes(setting: &Setting, row: &Shown<'_>, place: Place, own: &[&Problem], next: Option<&str>) -> Markup {
    let label = label_of(place, setting.units);
    let label_id = format!("{}.{}", row.key, place.name("label"));
    html! {
        div.station-place role="group" aria-labelledby=(label_id) {
            p.station-label id=(label_id) { (label) }
            div.station-boxes {
                @for trial in 1..=place.measure.trials {
                    @let part = place.name(&trial.to_string());
                    @let id = format!("{}.{part}", row.key);
                    @let problem = own.iter().find(|problem| problem.field.as_deref() == Some(id.as_str()));
                    @let spoken = say("place-trial", &[("label", Value::Words(&label)), ("n", Value::Words(&trial.to_string()))]);
                    input type="text" id=(id) name=(id) value=(row.typed(&part)) autocomplete="off" autocapitalize="off"
                        enterkeyhint="next" aria-label=(spoken) autofocus[next == Some(id.as_str())]
                        aria-invalid=[problem.map(|_| "true")] aria-describedby=[problem.map(|_| format!("{id}-problem"))];
                }
                @if !row.typed(&place.name("why")).is_empty() { span.station-why { (text(&format!("why-none-{}", row.typed(&place.name("why"))))) } }
            }
            @for trial in 1..=place.measure.trials {
                @let id = format!("{}.{}", row.key, place.name(&trial.to_string()));
                @for problem in own.iter().filter(|problem| problem.field.as_deref() == Some(id.as_str())).take(1) {
                    p.field-problem id={ (id) "-problem" } { (problem.says) }
                }
            }
        }
    }
}

/// Why there is no value, for fingers that would rather not type a word. Folded: it is needed once in ten rows.
fn why_not(row: &Shown<'_>, setting: &Setting) -> Markup {
    html! {
        details.station-none {
            summary { (text("station-none")) }
            div.station-places {
                @for place in places(&setting.measures) {
                    @let part = place.name("why");
                    @let id = format!("{}.{part}", row.key);
                    div.small-field {
                        label for=(id) { (label_of(place, setting.units)) }
                        select id=(id) name=(id) {
                            @for (value, words) in [("", "why-none-measured"), ("not-tested", "why-none-not-tested"), ("refused", "why-none-refused"), ("pain", "why-none-pain")] {
                                option value=(value) selected[row.typed(&part) == value] { (text(words)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn hollow(row: &Shown<'_>) -> Markup {
    html! {
        @for side in Side::BOTH {
            @let part = format!("hollow.{}", side.word());
            @let id = format!("{}.{part}", row.key);
            div.station-place {
                label.station-label for=(id) { (text(&format!("station-hollow-{}", side.word()))) }
                select id=(id) name=(id) {
                    @for (value, words) in [("", "pain-not-asked"), ("no", "station-hollow-no"), ("yes", "station-hollow-yes")] {
                        option value=(value) selected[row.typed(&part) == value] { (text(words)) }
                    }
                }
            }
        }
    }
}

fn pain(row: &Shown<'_>, own: &[&Problem], next: Option<&str>) -> Markup {
    html! {
        @for side in Side::BOTH {
            @let part = format!("pain.{}", side.word());
            @let id = format!("{}.{part}", row.key);
            @let problem = own.iter().find(|problem| problem.field.as_deref() == Some(id.as_str()));
            div.station-place {
                label.station-label for=(id) { (text(&format!("station-pain-{}", side.word()))) }
                div.station-boxes {
                    input type="text" id=(id) name=(id) value=(row.typed(&part)) inputmode="numeric" autocomplete="off" enterkeyhint="next"
                        autofocus[next == Some(id.as_str())] aria-invalid=[problem.map(|_| "true")] aria-describedby=[problem.map(|_| format!("{id}-problem"))];
                }
                @if let Some(problem) = problem { p.field-problem id={ (id) "-problem" } { (problem.says) } }
            }
        }
        p.quiet { a href={ (href(row.person)) "/record/intake?back=/screening/check-in" } { (text("station-intake")) } }
    }
}
