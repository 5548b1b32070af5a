//! A plot as SVG. Roles are told apart by dash, shape and words; colour comes from the page.

use std::fmt::Write as _;

use maud::{Markup, PreEscaped, html};

use super::{Mark, Plot, Role, Scale};
use crate::Ink;
use crate::number::short;

/// The style of [`Ink::Own`]: what a page's style sheet says otherwise, for paper.
pub const STYLE: &str = include_str!("own.css");

/// Size of the page a plot is drawn on; it is shown at any width.
const WIDE: f64 = 560.0;
const HIGH: f64 = 330.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 16.0;
const TOP: f64 = 28.0;
const BOTTOM: f64 = 50.0;

/// Both axes on the page.
struct Page {
    x: Scale,
    y: Scale,
}

impl Page {
    fn across(&self, value: f64) -> f64 {
        LEFT + self.x.part(value).clamp(-1.0, 2.0) * (WIDE - LEFT - RIGHT)
    }

    fn down(&self, value: f64) -> f64 {
        TOP + (1.0 - self.y.part(value).clamp(-1.0, 2.0)) * (HIGH - TOP - BOTTOM)
    }

    fn path(&self, points: impl IntoIterator<Item = (f64, f64)>) -> String {
        let mut path = String::new();
        let mut letter = 'M';
        for (x, y) in points {
            if x.is_finite() && y.is_finite() {
                let _ = write!(path, "{letter}{} {}", short(self.across(x)), short(self.down(y)));
                letter = 'L';
            } else {
                letter = 'M';
            }
        }
        path
    }
}

/// Draws a plot. What lies beyond a set end of an axis is cut off there.
pub fn svg(plot: &Plot<'_>, ink: Ink) -> Markup {
    let (x, y) = plot.scales();
    let page = Page { x, y };
    let (right, bottom) = (WIDE - RIGHT, HIGH - BOTTOM);
    html! {
        svg.plot viewBox=(format!("0 0 {} {}", short(WIDE), short(HIGH))) role="img" focusable="false" {
            title { (plot.name) }
            desc { (plot.description) }
            @if ink == Ink::Own { style { (PreEscaped(STYLE)) } }
            g.plot-grid {
                @for tick in &page.y.ticks {
                    @let y = short(page.down(tick.at));
                    path d=(format!("M{} {y}H{}", short(LEFT), short(right))) {}
                }
            }
            g.plot-ticks {
                @for tick in &page.y.ticks {
                    text x=(short(LEFT - 8.0)) y=(short(page.down(tick.at) + 4.0)) text-anchor="end" { (tick.words) }
                }
                @for tick in &page.x.ticks {
                    @let x = short(page.across(tick.at));
                    path d=(format!("M{x} {}v5", short(bottom))) {}
                    text x=(x) y=(short(bottom + 18.0)) text-anchor="middle" { (tick.words) }
                }
            }
            // A nested drawing cuts off what lies outside, without an id that another plot on the page could share.
            svg x=(short(LEFT)) y=(short(TOP)) width=(short(right - LEFT)) height=(short(bottom - TOP))
                viewBox=(format!("{} {} {} {}", short(LEFT), short(TOP), short(right - LEFT), short(bottom - TOP))) {
                @for mark in &plot.marks { (shape(mark, &page)) }
            }
            path.plot-axis d=(format!("M{l} {t}V{b}H{r}", l = short(LEFT), t = short(TOP), b = short(bottom), r = short(right))) {}
            (names(plot, &page))
            text.plot-label x=(short((LEFT + right) / 2.0)) y=(short(HIGH - 8.0)) text-anchor="middle" { (plot.x.label) }
            text.plot-label x="14" y="12" text-anchor="start" { (plot.y.label) }
        }
    }
}

fn shape(mark: &Mark<'_>, page: &Page) -> Markup {
    match mark {
        Mark::Line { role, points, .. } => html! {
            path class={ "plot-line " (role.class()) } d=(page.path(points.iter().copied())) {}
        },
        Mark::Steps { role, points, .. } => {
            let turns = points.windows(2).flat_map(|pair| [pair[0], (pair[1].0, pair[0].1)]);
            let all = turns.chain(points.last().copied());
            html! { path class={ "plot-line " (role.class()) } d=(page.path(all)) {} }
        }
        Mark::Band { role, points, .. } => {
            let low = points.iter().map(|(x, low, _)| (*x, *low));
            let high = points.iter().rev().map(|(x, _, high)| (*x, *high));
            html! { path class={ "plot-band " (role.class()) } d=(page.path(low.chain(high)) + "Z") {} }
        }
        Mark::Points { role, points, .. } => html! {
            g class={ "plot-points " (role.class()) } {
                @for (x, y) in points { (point(*role, page.across(*x), page.down(*y))) }
            }
        },
        Mark::Intervals { role, points, .. } => html! {
            g class={ "plot-points " (role.class()) } {
                @for (x, low, value, high) in points {
                    @let x = page.across(*x);
                    path.plot-whisker d=(whisker(x, page.down(*low), page.down(*high))) {}
                    (point(*role, x, page.down(*value)))
                }
            }
        },
        Mark::Bars { role, width, bars, .. } => html! {
            g class={ "plot-bars " (role.class()) } {
                @for (x, y) in bars {
                    @let (left, right) = (page.across(x - width / 2.0), page.across(x + width / 2.0));
                    @let (a, b) = (page.down(*y), page.down(0.0));
                    rect x=(short(left)) y=(short(a.min(b))) width=(short((right - left).abs())) height=(short((a - b).abs())) {}
                }
            }
        },
        Mark::Level { role, at, .. } => html! {
            path class={ "plot-rule " (role.class()) } d=(format!("M{} {}H{}", short(LEFT), short(page.down(*at)), short(WIDE - RIGHT))) {}
        },
        Mark::Moment { role, at, .. } => html! {
            path class={ "plot-rule " (role.class()) } d=(format!("M{} {}V{}", short(page.across(*at)), short(TOP), short(HIGH - BOTTOM))) {}
        },
        Mark::Words { .. } => html! {},
    }
}

fn whisker(x: f64, low: f64, high: f64) -> String {
    let (x, left) = (short(x), short(x - 4.0));
    format!("M{x} {l}V{h}M{left} {l}h8M{left} {h}h8", l = short(low), h = short(high))
}

fn point(role: Role, x: f64, y: f64) -> Markup {
    let at = |points: &[(f64, f64)]| {
        let spelled: Vec<String> =
            points.iter().map(|(dx, dy)| format!("{} {}", short(x + dx), short(y + dy))).collect();
        format!("M{}Z", spelled.join("L"))
    };
    match role {
        Role::First | Role::Quiet => html! { circle cx=(short(x)) cy=(short(y)) r="4" {} },
        Role::Second => html! { path d=(at(&[(-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)])) {} },
        Role::Third => html! { path d=(at(&[(0.0, -5.0), (5.0, 4.0), (-5.0, 4.0)])) {} },
        Role::Limit => html! { path d=(at(&[(0.0, -5.5), (5.5, 0.0), (0.0, 5.5), (-5.5, 0.0)])) {} },
    }
}

/// Names at the marks themselves, moved apart where two would stand on each other; a key would have to be looked up.
fn names(plot: &Plot<'_>, page: &Page) -> Markup {
    let (right, bottom) = (WIDE - RIGHT, HIGH - BOTTOM);
    let mut placed: Vec<(f64, f64, &str, &str, &str)> = Vec::new();
    for mark in &plot.marks {
        let (name, role, at) = match mark {
            Mark::Line { name, role, points } | Mark::Steps { name, role, points } => {
                (*name, role.class(), points.last().copied())
            }
            Mark::Points { name, role, points } => (*name, role.class(), points.first().copied()),
            Mark::Intervals { name, role, points } => {
                (*name, role.class(), points.first().map(|(x, _, value, _)| (*x, *value)))
            }
            // Under its lower edge, clear of the curve that runs through it.
            Mark::Band { name, role, points } => {
                (*name, role.class(), points.get(points.len() / 2).map(|(x, low, _)| (*x, *low)))
            }
            Mark::Bars { name, role, bars, .. } => (*name, role.class(), bars.last().copied()),
            Mark::Level { name, role, at } => (*name, role.class(), Some((page.x.to, *at))),
            Mark::Moment { name, role, at } => (*name, role.class(), Some((*at, page.y.to))),
            Mark::Words { words, at } => (*words, "plot-quiet", Some(*at)),
        };
        let Some((x, y)) = at.filter(|_| !name.is_empty()) else { continue };
        let (x, y) = (page.across(x).clamp(LEFT, right), page.down(y).clamp(TOP, bottom));
        // About six units a letter: enough to keep words inside the frame and off each other.
        let long = 6.4 * name.chars().count() as f64;
        let (anchor, x) =
            if x + 8.0 + long < right { ("start", x + 8.0) } else { ("end", (x - 6.0).max(LEFT + long)) };
        let aside = if matches!(mark, Mark::Band { .. }) { 20.0 } else { -7.0 };
        let mut y = (y + aside).clamp(TOP + 10.0, bottom - 4.0);
        let crowded = |y: f64, placed: &[(f64, f64, &str, &str, &str)]| {
            placed.iter().any(|(_, other, ..)| (other - y).abs() < 14.0)
        };
        let mut tries = 0;
        while crowded(y, &placed) && tries < 20 {
            y += 14.0;
            if bottom - 4.0 < y {
                y = TOP + 10.0 + f64::from(tries);
            }
            tries += 1;
        }
        placed.push((x, y, name, role, anchor));
    }
    html! {
        @for (x, y, name, role, anchor) in placed {
            text class={ "plot-name " (role) } x=(short(x)) y=(short(y)) text-anchor=(anchor) { (name) }
        }
    }
}
