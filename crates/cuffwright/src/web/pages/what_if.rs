//! What if: two exercises of one muscle in either order, another rest, another cap. For comparing, never for promising.

use app::desk::Desk;
use maud::{Markup, html};
use mechanics::endurance::Joint;
use mechanics::fatigue::{AfterSet, Muscle, Repetitions, Segment, Session, SetPlan, State};
use picture::plot::{Axis, Mark, Plot, Role};
use quantity::{Share, Time};

use crate::web::layout::{Frame, Here, Place, Spot};
use crate::web::parts::drawn::plotted;
use crate::web::parts::form::submit;
use crate::web::parts::table::{Column, table};
use crate::web::site::visit::{Answer, Visit};
use crate::web::words::{Value, say, text};

/// One plan as asked for.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Asked {
    /// Shares of strength of the two exercises, per cent.
    first: f64,
    second: f64,
    sets: u32,
    cap: f64,
    rest: f64,
    between: f64,
}

impl Asked {
    fn of(visit: &Visit) -> Self {
        let number = |name: &str, usual: f64, (low, high): (f64, f64)| {
            let given = visit.query.one(name).replace(',', ".").parse::<f64>().ok();
            given.filter(|number| number.is_finite()).map_or(usual, |number| number.clamp(low, high))
        };
        Self {
            first: number("first", 30.0, (1.0, 100.0)),
            second: number("second", 20.0, (1.0, 100.0)),
            sets: number("sets", 3.0, (1.0, 5.0)) as u32,
            cap: number("cap", 60.0, (10.0, 120.0)),
            rest: number("rest", 30.0, (0.0, 300.0)),
            between: number("between", 60.0, (0.0, 600.0)),
        }
    }

    /// Sets of both exercises in an order of loads.
    fn session(&self, loads: [f64; 2]) -> Session {
        let exercise = |load: f64, after: f64| {
            (0..self.sets).map(move |set| SetPlan {
                work: Repetitions {
                    count: 1,
                    each: vec![Segment {
                        load: Share::from_percent(load),
                        lasts: Time::from_seconds(self.cap),
                    }],
                },
                cap: Some(Time::from_seconds(self.cap)),
                rest: Time::from_seconds(if set + 1 == self.sets { after } else { self.rest }),
            })
        };
        Session { sets: exercise(loads[0], self.between).chain(exercise(loads[1], self.rest)).collect() }
    }
}

/// The page.
pub fn show(desk: &Desk, visit: &Visit) -> Answer {
    let asked = Asked::of(visit);
    let muscle = Muscle::of(Joint::Shoulder);
    let run = |loads: [f64; 2]| asked.session(loads).run(&muscle, State::RESTED).unwrap_or_default();
    let (title, lede) = (text("what-if-title"), text("what-if-lede"));
    let here = Here::Below(Place::Kit, Spot::Kit);
    let frame = Frame { title: &title, lede: Some(&lede), here, ..Frame::default() };
    let orders = [
        (text("what-if-as-asked"), [asked.first, asked.second]),
        (text("what-if-other-way"), [asked.second, asked.first]),
    ];
    let done: Vec<(String, [f64; 2], Vec<AfterSet>)> =
        orders.into_iter().map(|(name, loads)| (name, loads, run(loads))).collect();
    let body = html! {
        (form(&asked))
        ul.exercise-cautions { @for limit in ["what-if-limit-static", "what-if-limit-adults", "what-if-limit-hours", "what-if-limit-compare"] { li { (text(limit)) } } }
        (left(&asked, &done))
        @for (index, (name, loads, after)) in done.iter().enumerate() { (sets(index, name, *loads, &asked, after)) }
        p.quiet { (text("what-if-source")) }
    };
    visit.page(desk, frame, body)
}

fn form(asked: &Asked) -> Markup {
    let fields = [
        ("first", "what-if-first", asked.first),
        ("second", "what-if-second", asked.second),
        ("sets", "what-if-sets", f64::from(asked.sets)),
        ("cap", "what-if-cap", asked.cap),
        ("rest", "what-if-rest", asked.rest),
        ("between", "what-if-between", asked.between),
    ];
    html! {
        form.record method="get" action="/kit/what-if" {
            @for (name, label, value) in fields {
                div.field { label for=(name) { (text(label)) } input type="text" id=(name) name=(name) inputmode="decimal" value=(value); }
            }
            (submit(&text("what-if-do")))
        }
    }
}

/// What is left after every set, in both orders.
fn left(asked: &Asked, done: &[(String, [f64; 2], Vec<AfterSet>)]) -> Markup {
    let roles = [Role::First, Role::Second];
    let marks =
        done.iter()
            .zip(roles)
            .map(|((name, _, after), role)| Mark::Line {
                name,
                role,
                points: std::iter::once((0.0, 100.0))
                    .chain(after.iter().enumerate().map(|(set, after)| {
                        (f64::from(set as u32) + 1.0, after.after_work.capacity().percent())
                    }))
                    .collect(),
            })
            .collect();
    let (name, description) = (text("what-if-plot"), text("what-if-plot-desc"));
    let (x, y) = (text("what-if-plot-x"), text("what-if-plot-y"));
    let x = Axis { from: Some(0.0), to: Some(f64::from(asked.sets * 2)), ..Axis::of(&x) };
    let plot = Plot {
        name: &name,
        description: &description,
        x,
        y: Axis { to: Some(100.0), ..Axis::from_nought(&y) },
        marks,
    };
    plotted(&plot, (0, 0))
}

fn sets(index: usize, name: &str, loads: [f64; 2], asked: &Asked, after: &[AfterSet]) -> Markup {
    let rows: Vec<Vec<Markup>> = after
        .iter()
        .enumerate()
        .map(|(set, after)| {
            let load = if set < asked.sets as usize { loads[0] } else { loads[1] };
            let short = after.fell_short_after.map_or_else(
                || text("what-if-lasts"),
                |at| say("what-if-short", &[("seconds", Value::Words(&format!("{:.0}", at.seconds())))]),
            );
            let percent = |share: Share| format!("{:.0} %", share.percent());
            vec![
                html! { (set + 1) },
                html! { (format!("{load} %")) },
                html! { (short) },
                html! { (percent(after.after_work.capacity())) },
                html! { (percent(after.after_rest.capacity())) },
            ]
        })
        .collect();
    let heads =
        ["what-if-col-set", "what-if-col-load", "what-if-col-held", "what-if-col-left", "what-if-col-rested"]
            .map(text);
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! { (table(&format!("order-{index}"), name, &columns, &rows)) }
}
