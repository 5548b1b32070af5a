//! What the club's measured kit asks of this swimmer: ladder, torque through the movement, share of strength, the
//! figure, and where the calibration set begins, from the scale to the seconds.

use app::desk::Desk;
use app::views::loads::{Alone, Begins, LineLoads, Missing, PushUpLoad, Reckoned, kit_load, loads};
use maud::{Markup, html};
use mechanics::body::{Body, Provenance};
use mechanics::endurance::Joint;
use mechanics::ladder::StepFit;
use mechanics::strength::Obtained;
use mechanics::torque::Foundation;
use picture::plot::{Axis, Mark, Plot, Role};
use quantity::Torque;
use trade::side::WorkingSide;

use super::lines::{exercise_name, side_name};
use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::pages::shared::{href, name};
use crate::web::parts::drawn::{figure, plotted};
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let person = desk.person(visit.subject()?)?;
    let found = loads(desk, person, visit.day());
    let who = name(person);
    let title = say("loads-title", &[("name", Value::Words(&who))]);
    let lede = text("loads-lede");
    let here = Here::Below(Place::People, Spot::People);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let own = href(person);
    let body = html! {
        p { a href=(own) { (say("loads-back", &[("name", Value::Words(&who))])) } }
        @match &found.body {
            Err(missing) => {
                p { (text(match missing { Missing::Size => "loads-no-size", Missing::Sex => "loads-no-sex", Missing::NoBody => "loads-no-body" })) }
                p { a href={ (own) "/record/growth" } { (text("record-growth")) } }
            }
            Ok(body) => {
                (of_body(body, &own))
                @if found.lines.is_empty() { p.quiet { (text("loads-none")) } }
                @for line in &found.lines { (one(desk, line, body)) }
                (push_ups(desk, &found.push_ups, body))
            }
        }
        (crate::web::pages::band::safety())
    };
    visit.page(desk, frame, body)
}

fn figures(value: f64) -> String {
    match value.abs() {
        size if size >= 10.0 => format!("{value:.0}"),
        _ => format!("{value:.1}"),
    }
}

fn of_body(body: &Body, own: &str) -> Markup {
    let estimated = matches!(body.forearm.length.from, Provenance::Estimated { .. });
    let minor = body.person.age.is_minor();
    let height = format!("{:.0}", body.person.stature.centimetres());
    let mass = format!("{:.0}", body.person.mass.kilograms());
    let grip = format!("{:.0}", body.elbow_to_grip().value.centimetres());
    html! {
        section.loads-body {
            p { (say("loads-body", &[("height", Value::Words(&height)), ("mass", Value::Words(&mass)), ("grip", Value::Words(&grip))])) }
            @if estimated { p { (text("loads-estimated")) " " a href={ (own) "/record/arms" } { (text("loads-measure")) } } }
            @if minor { p.quiet { (text("loads-adult-tables")) } }
        }
    }
}

fn one(desk: &Desk, line: &LineLoads, body: &Body) -> Markup {
    let Some(exercise) = desk.protocol().exercise(&line.exercise) else { return html! {} };
    let side = match line.side {
        Some(trade::side::Side::Left) => WorkingSide::Left,
        Some(trade::side::Side::Right) => WorkingSide::Right,
        None => WorkingSide::Both,
    };
    let title = format!("{}, {}", exercise_name(desk, &line.exercise), side_name(side));
    let shown = line.begins.as_ref().and_then(|begins| begins.chosen).unwrap_or(0);
    html! {
        section.loads-line {
            h2 { (title) }
            (figure(exercise, None, line.side, Some(body)))
            (strength(line))
            (ladder(line))
            @if let Some(reckoned) = line.reckoned.get(shown) { (torque(line, shown, reckoned)) }
            @if let Some(begins) = &line.begins { (start(desk, line, begins)) }
            @if !line.not_offered.is_empty() {
                p { (text("loads-not-offered")) }
                ul { @for (mark, why) in &line.not_offered { li { (mark) ": " @for reason in why { (refused(reason)) " " } } } }
            }
        }
    }
}

/// What the hands carry, rung by rung: it ranks variants and is no torque at the shoulder.
fn push_ups(desk: &Desk, loads: &[PushUpLoad], body: &Body) -> Markup {
    let Some(first) = loads.first() else { return html! {} };
    let rows: Vec<Vec<Markup>> = loads
        .iter()
        .map(|one| {
            let note = match one.load.foundation {
                Foundation::Published => text("loads-push-published"),
                Foundation::Extrapolated => text("loads-push-extrapolated"),
            };
            vec![
                html! { (one.rung) },
                html! { (format!("{:.0} % (± {:.0})", one.load.pressed.value.percent(), one.load.pressed.sd.percent())) },
                html! { (figures(one.load.each_hand.value.newtons())) },
                html! { (note) },
            ]
        })
        .collect();
    let heads = ["col-rung", "loads-push-share", "loads-push-hand", "loads-push-ground"].map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let title = exercise_name(desk, &first.exercise);
    let exercise = desk.protocol().exercise(&first.exercise);
    html! {
        section.loads-line {
            h2 { (title) }
            @if let Some(exercise) = exercise { (figure(exercise, None, None, Some(body))) }
            p { (text("loads-push-what")) }
            (table("push-ups", &title, &columns, &rows))
        }
    }
}

fn refused(reason: &mechanics::elastic::NotUsable) -> String {
    use mechanics::elastic::NotUsable;
    match reason {
        NotUsable::PastCalibration(by) => {
            say("loads-past-calibration", &[("by", Value::Words(&format!("{:.0}", by.percent())))])
        }
        NotUsable::PastLimit { stretch, .. } => say(
            "loads-past-limit",
            &[("stretch", Value::Words(&format!("{:.0}", stretch.percent_elongation())))],
        ),
        NotUsable::Slack(_) => text("loads-slack"),
    }
}

fn strength(line: &LineLoads) -> Markup {
    html! {
        p { @match &line.strength {
            Some(strength) => {
                @let (low, high) = strength.torque.interval_95();
                @let values = [
                    ("torque", figures(strength.torque.value.newton_metres())),
                    ("low", figures(low.newton_metres().max(0.0))),
                    ("high", figures(high.newton_metres())),
                ];
                @let values: Vec<(&str, Value<'_>)> = values.iter().map(|(name, value)| (*name, Value::Words(value))).collect();
                (say(if strength.from == Obtained::Measured { "loads-strength-measured" } else { "loads-strength-assumed" }, &values))
            }
            None => (text("loads-strength-none")),
        } }
    }
}

/// The ladder as rungs, lightest at the foot.
fn ladder(line: &LineLoads) -> Markup {
    let Some(ladder) = &line.ladder else { return html! {} };
    html! {
        h3 { (text("loads-ladder")) }
        ol.loads-rungs reversed {
            @for (index, standing) in ladder.rungs.iter().enumerate().rev() {
                @let one = &line.reckoned[standing.rung.key];
                li.loads-rung {
                    b { (one.name) } " "
                    (say("loads-rung", &[
                        ("torque", Value::Words(&figures(standing.rung.load.value.newton_metres()))),
                        ("sd", Value::Words(&figures(one.report.peak().sd.newton_metres()))),
                    ]))
                    @if let Some(share) = &one.share {
                        @let (low, high) = share.interval_95();
                        (say("loads-share", &[
                            ("share", Value::Words(&format!("{:.0}", share.value.percent()))),
                            ("low", Value::Words(&format!("{:.0}", low.percent().max(0.0)))),
                            ("high", Value::Words(&format!("{:.0}", high.percent()))),
                        ]))
                    }
                    @if !standing.same.is_empty() {
                        @let same: Vec<&str> = standing.same.iter().map(|rung| line.reckoned[rung.key].name.as_str()).collect();
                        " " span.quiet { (say("loads-same", &[("others", Value::Words(&same.join(", ")))])) }
                    }
                }
                @if 0 < index {
                    @let step = &ladder.steps[index - 1];
                    li.loads-step {
                        (say("loads-step", &[
                            ("size", Value::Words(&format!("{:.0}", step.size.value.percent()))),
                            ("sd", Value::Words(&format!("{:.0}", step.size.sd.percent()))),
                        ]))
                        @match step.fit {
                            StepFit::TooLarge => { " " b { (text("loads-step-large")) } }
                            StepFit::Small => { " " span.quiet { (text("loads-step-small")) } }
                            StepFit::Within => {}
                        }
                    }
                }
            }
        }
    }
}

/// Torque through the movement, for the rung shown and its neighbours.
fn torque(line: &LineLoads, shown: usize, reckoned: &Reckoned) -> Markup {
    let order: Vec<usize> = line
        .ladder
        .as_ref()
        .map(|ladder| ladder.rungs.iter().map(|standing| standing.rung.key).collect())
        .unwrap_or_default();
    let place = order.iter().position(|key| *key == shown);
    let next = place.and_then(|place| order.get(place + 1)).and_then(|key| line.reckoned.get(*key));
    let points = |one: &Reckoned| -> Vec<(f64, f64)> {
        let points = one.report.curve.points.iter();
        points.map(|at| (at.angle.degrees(), at.torque.newton_metres().abs())).collect()
    };
    let (name, description) = (text("loads-plot"), text("loads-plot-desc"));
    let (x, y) = (text("loads-plot-x"), text("loads-plot-y"));
    let mut marks = vec![Mark::Line { name: &reckoned.name, role: Role::First, points: points(reckoned) }];
    if let Some(next) = next {
        marks.push(Mark::Line { name: &next.name, role: Role::Second, points: points(next) });
    }
    let plot =
        Plot { name: &name, description: &description, x: Axis::of(&x), y: Axis::from_nought(&y), marks };
    let curve = &reckoned.report.curve;
    html! {
        h3 { (text("loads-torque")) }
        p { (say("loads-peak", &[
            ("name", Value::Words(&reckoned.name)),
            ("torque", Value::Words(&figures(curve.peak.torque.newton_metres().abs()))),
            ("angle", Value::Words(&format!("{:.0}", curve.peak.angle.degrees()))),
            ("mean", Value::Words(&figures(curve.mean.newton_metres().abs()))),
            ("impulse", Value::Words(&figures(curve.impulse.newton_metre_seconds().abs()))),
        ])) }
        (plotted(&plot, (0, 2)))
    }
}

/// Where the calibration set begins, and every step from the scale to the seconds.
fn start(desk: &Desk, line: &LineLoads, begins: &Begins) -> Markup {
    let exercise = desk.protocol().exercise(&line.exercise);
    let table = exercise
        .and_then(|exercise| exercise.rung(&begins.table))
        .map_or_else(|| begins.table.to_string(), |rung| desk.reader().rung_name(rung));
    let chosen = begins.chosen.and_then(|at| line.reckoned.get(at));
    let newton_metres = |torque: &Torque| figures(torque.newton_metres());
    html! {
        h3 { (text("loads-begins")) }
        p.lead { @match chosen {
            Some(one) => (say("loads-begins-on", &[("name", Value::Words(&one.name))])),
            None => (say("loads-begins-table", &[("rung", Value::Words(&table))])),
        } }
        @if let Some(alone) = begins.alone {
            p { (text(match alone { Alone::Young => "loads-alone-young", Alone::Unmeasured => "loads-alone-unmeasured", Alone::NotMeasuredKit => "loads-alone-kit" })) }
        }
        p.quiet { (text("loads-begins-decides")) }
        details.why {
            summary { (text("why")) }
            ol {
                li { (say("loads-why-table", &[("rung", Value::Words(&table))]))
                    @if let Some(load) = &begins.table_load { " " (say("loads-why-load", &[("torque", Value::Words(&newton_metres(load)))])) } }
                @if let Some(minute) = &begins.minute { li { (say("loads-why-minute", &[("torque", Value::Words(&newton_metres(minute)))])) } }
                @if let Some(part) = &begins.part_of_strength { li { (say("loads-why-part", &[("torque", Value::Words(&newton_metres(part)))])) } }
                @if let Some(one) = chosen { (trace(one)) }
            }
        }
    }
}

/// Scale, stretch, torque, share, seconds.
fn trace(one: &Reckoned) -> Markup {
    let report = &one.report;
    html! {
        @if let Some((low, high)) = report.stretch {
            li { (say("loads-why-stretch", &[
                ("name", Value::Words(&one.name)),
                ("low", Value::Words(&format!("{:.2}", low.ratio()))),
                ("high", Value::Words(&format!("{:.2}", high.ratio()))),
            ])) }
        }
        li { (say("loads-why-torque", &[
            ("torque", Value::Words(&figures(kit_load(report).value.newton_metres()))),
            ("kit", Value::Words(&figures(report.error.kit.newton_metres()))),
            ("body", Value::Words(&figures(report.error.body.newton_metres()))),
        ])) }
        @if let Some(share) = &one.share {
            li { (say("loads-why-share", &[("share", Value::Words(&format!("{:.0}", share.value.percent())))])) }
            @if let Ok(lasts) = Joint::Shoulder.endurance_of(*share) {
                li { (say("loads-why-seconds", &[
                    ("seconds", Value::Words(&format!("{:.0}", lasts.expected.seconds()))),
                    ("low", Value::Words(&format!("{:.0}", lasts.low.seconds()))),
                    ("high", Value::Words(&format!("{:.0}", lasts.high.seconds()))),
                ])) }
            } @else { li { (text("loads-why-outside")) } }
        }
    }
}
