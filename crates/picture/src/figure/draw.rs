//! The three drawings: a strip of poses, one picture with the path of the hand, and a moving one.

use maud::{Markup, html};
use mechanics::figure::{Figure, Frame};

use super::around::{anchors, bands, fixed, held};
use super::body::groups;
use super::camera::{Camera, vector};
use super::shape::{COARSE, FINE, Outline};
use super::{Mark, Shown};
use crate::Ink;
use crate::number::{short, trimmed};

/// The style of [`Ink::Own`]: what a page's style sheet says otherwise, for paper.
pub const STYLE: &str = include_str!("own.css");

/// A box on the page.
#[derive(Debug, Clone, Copy)]
struct Frame2 {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

const PAD: f64 = 8.0;

/// So many poses side by side from start to turn, each with its own words under it (where given).
pub fn strip(shown: &Shown<'_>, poses: usize, words: &[&str]) -> Markup {
    let camera = Camera::of(shown.scene);
    let page = bounds(shown, &camera);
    // A hold looks the same all the time.
    let poses = if shown.beat.is_none() { 1 } else { poses.clamp(1, shown.frames.len().max(1)) };
    let last = shown.frames.len().saturating_sub(1);
    let chosen: Vec<&Frame> = (0..poses)
        .filter_map(|index| {
            let at = if poses == 1 { last } else { (index * last + (poses - 1) / 2) / (poses - 1) };
            shown.frames.get(at)
        })
        .collect();
    let (wide, high) = (page.right - page.left, page.bottom - page.top);
    let under = if words.is_empty() { 0.0 } else { 26.0 };
    let total = wide * chosen.len() as f64;
    html! {
        svg.figure viewBox=(view(0.0, 0.0, total, high + under)) role="img" focusable="false" {
            (heading(shown))
            @for (index, frame) in chosen.iter().enumerate() {
                @let by = (wide * index as f64 - page.left, -page.top);
                g {
                    (still(frame, shown, &camera, by, FINE))
                    (path(shown, &camera, by, "figure-path"))
                    @if let Some(words) = words.get(index) {
                        text.figure-words x=(short(wide * (index as f64 + 0.5))) y=(short(high + 18.0)) text-anchor="middle" { (words) }
                    }
                }
            }
        }
    }
}

/// One picture: the start faint behind, the turn in full, and the path of each working hand with what to watch on it.
pub fn arc(shown: &Shown<'_>, marks: &[Mark]) -> Markup {
    let camera = Camera::of(shown.scene);
    let page = bounds(shown, &camera);
    let by = (-page.left, -page.top);
    let (Some(first), Some(last)) = (shown.frames.first(), shown.frames.last()) else { return html! {} };
    html! {
        svg.figure viewBox=(view(0.0, 0.0, page.right - page.left, page.bottom - page.top)) role="img" focusable="false" {
            (heading(shown))
            (surfaces(shown, &camera, by))
            @if shown.beat.is_some() && 1 < shown.frames.len() {
                g.figure-faint { (body(&first.figure, shown, &camera, by, FINE)) }
            }
            (body(&last.figure, shown, &camera, by, FINE))
            (path(shown, &camera, by, "figure-path"))
            @for mark in marks { (sign(mark, shown, &camera, by)) }
        }
    }
}

/// One repetition after another at its beat. A hold does not move.
pub fn moving(shown: &Shown<'_>) -> Markup {
    let camera = Camera::of(shown.scene);
    let page = bounds(shown, &camera);
    let by = (-page.left, -page.top);
    let Some(first) = shown.frames.first() else { return html! {} };
    let clock = Clock::of(shown);
    html! {
        svg.figure viewBox=(view(0.0, 0.0, page.right - page.left, page.bottom - page.top)) role="img" focusable="false" {
            (heading(shown))
            @match clock {
                None => { (still(first, shown, &camera, by, FINE)) }
                Some(clock) => {
                    (surfaces(shown, &camera, by))
                    (running(shown, &clock, &camera, by))
                }
            }
        }
    }
}

fn heading(shown: &Shown<'_>) -> Markup {
    html! {
        title { (shown.name) }
        desc { (shown.description) }
        @if shown.ink == Ink::Own { style { (maud::PreEscaped(STYLE)) } }
    }
}

fn view(left: f64, top: f64, wide: f64, high: f64) -> String {
    [left, top, wide, high].map(short).join(" ")
}

/// The box that holds every frame and everything beside the body.
fn bounds(shown: &Shown<'_>, camera: &Camera) -> Frame2 {
    let h = shown.stature.metres();
    let mut points: Vec<(f64, f64)> = Vec::new();
    for thing in fixed(shown.frames, shown.scene, camera) {
        points.extend(thing.outline.0);
    }
    for frame in shown.frames {
        for group in groups(&frame.figure, h, &shown.scene.working, camera) {
            for (_, balls) in &group.skins {
                points.extend(Outline::over(balls, camera, COARSE).0);
            }
        }
        for (_, thing) in held(&frame.figure, h, shown.scene) {
            points.extend(Outline::over(&thing.balls, camera, COARSE).0);
        }
    }
    let start = Frame2 { left: f64::MAX, top: f64::MAX, right: f64::MIN, bottom: f64::MIN };
    let found =
        points.into_iter().filter(|(x, y)| x.is_finite() && y.is_finite()).fold(start, |page, (x, y)| {
            Frame2 {
                left: page.left.min(x),
                top: page.top.min(y),
                right: page.right.max(x),
                bottom: page.bottom.max(y),
            }
        });
    Frame2 {
        left: found.left - PAD,
        top: found.top - PAD,
        right: found.right + PAD,
        bottom: found.bottom + PAD,
    }
}

fn still(frame: &Frame, shown: &Shown<'_>, camera: &Camera, by: (f64, f64), points: u32) -> Markup {
    html! {
        (surfaces(shown, camera, by))
        (body(&frame.figure, shown, camera, by, points))
    }
}

fn surfaces(shown: &Shown<'_>, camera: &Camera, by: (f64, f64)) -> Markup {
    html! {
        @for thing in fixed(shown.frames, shown.scene, camera) {
            path class=(thing.class) d=(thing.outline.closed(by)) {}
        }
        @for anchor in anchors(shown.scene) {
            @let (x, y) = camera.page(vector(&anchor));
            circle.figure-anchor cx=(short(x + by.0)) cy=(short(y + by.1)) r="5" {}
        }
    }
}

/// One layer of a drawing: outlines with their classes, and how near the eye they are.
struct Layer {
    class: &'static str,
    rimmed: bool,
    near: f64,
    skins: Vec<(&'static str, Outline)>,
    /// An open line instead of skins: a band.
    line: Option<Outline>,
}

/// Layers of one frame in a fixed order; sorting is left to the caller, because a moving drawing sorts once for all.
fn layers(figure: &Figure, shown: &Shown<'_>, camera: &Camera, points: u32) -> Vec<Layer> {
    let h = shown.stature.metres();
    let mut layers: Vec<Layer> = groups(figure, h, &shown.scene.working, camera)
        .into_iter()
        .map(|group| Layer {
            class: group.class,
            rimmed: group.rimmed,
            near: group.near,
            skins: group
                .skins
                .iter()
                .map(|(class, balls)| (*class, Outline::over(balls, camera, points)))
                .collect(),
            line: None,
        })
        .collect();
    for (_, thing) in held(figure, h, shown.scene) {
        let near = thing.balls.first().map_or(0.0, |(at, _)| camera.near(*at));
        layers.push(Layer {
            class: thing.class,
            rimmed: true,
            // A weight lies in the hand that holds it, on the eye's side.
            near: if thing.class == "figure-weight" { near + 0.15 } else { near },
            skins: vec![("", Outline::over(&thing.balls, camera, points))],
            line: None,
        });
    }
    for ends in bands(figure, shown.scene) {
        layers.push(Layer {
            class: "figure-band",
            rimmed: true,
            near: camera.near(ends[0]) + 0.05,
            skins: Vec::new(),
            line: Some(Outline::corners(&ends, camera)),
        });
    }
    layers
}

fn body(figure: &Figure, shown: &Shown<'_>, camera: &Camera, by: (f64, f64), points: u32) -> Markup {
    let mut layers = layers(figure, shown, camera, points);
    layers.sort_by(|one, other| one.near.total_cmp(&other.near));
    html! {
        @for layer in &layers {
            g class=(layer.class) {
                @if layer.rimmed {
                    @for (_, skin) in &layer.skins { path.figure-rim d=(skin.closed(by)) {} }
                    @if let Some(line) = &layer.line { path.figure-rim d=(line.open(by)) {} }
                }
                @for (class, skin) in &layer.skins { path class=[(!class.is_empty()).then_some(class)] d=(skin.closed(by)) {} }
                @if let Some(line) = &layer.line { path.figure-strand d=(line.open(by)) {} }
            }
        }
    }
}

/// Where the working hands go, with an arrow at the turn.
fn path(shown: &Shown<'_>, camera: &Camera, by: (f64, f64), class: &str) -> Markup {
    let tracks: Vec<Vec<(f64, f64)>> = shown
        .scene
        .working
        .iter()
        .map(|hand| {
            shown.frames.iter().map(|frame| camera.page(vector(&hand.of(&frame.figure)))).collect::<Vec<_>>()
        })
        .filter(|track: &Vec<(f64, f64)>| 6.0 < length(track))
        .collect();
    html! {
        @for track in &tracks {
            path class=(class) d=(Outline(track.clone()).open(by)) {}
            @if let Some(arrow) = arrow(track) { path.figure-arrow d=(Outline(arrow).closed(by)) {} }
        }
    }
}

fn length(track: &[(f64, f64)]) -> f64 {
    track.windows(2).map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1)).sum()
}

fn arrow(track: &[(f64, f64)]) -> Option<Vec<(f64, f64)>> {
    let tip = *track.last()?;
    let from = track.iter().rev().find(|point| 5.0 < (tip.0 - point.0).hypot(tip.1 - point.1))?;
    let (dx, dy) = (tip.0 - from.0, tip.1 - from.1);
    let long = dx.hypot(dy);
    let (ux, uy) = (dx / long, dy / long);
    let back = |along: f64, side: f64| (tip.0 - ux * along - uy * side, tip.1 - uy * along + ux * side);
    Some(vec![tip, back(9.0, 4.5), back(9.0, -4.5)])
}

fn sign(mark: &Mark, shown: &Shown<'_>, camera: &Camera, by: (f64, f64)) -> Markup {
    let Some(hand) = shown.scene.working.first() else { return html! {} };
    let last = shown.frames.len().saturating_sub(1);
    let index = (mark.part.clamp(0.0, 1.0) * last as f64).round() as usize;
    let Some(frame) = shown.frames.get(index) else { return html! {} };
    let (x, y) = camera.page(vector(&hand.of(&frame.figure)));
    let (x, y) = (x + by.0, y + by.1);
    html! {
        g.figure-sign {
            circle cx=(short(x)) cy=(short(y)) r="9" {}
            text x=(short(x)) y=(short(y + 4.0)) text-anchor="middle" { (mark.sign) }
        }
    }
}

/// When each frame of a repetition is reached.
struct Clock {
    /// Index of the frame at each moment.
    frames: Vec<usize>,
    /// Moments as parts of a repetition.
    times: String,
    /// Seconds of a repetition.
    lasts: String,
}

impl Clock {
    fn of(shown: &Shown<'_>) -> Option<Self> {
        let beat = shown.beat?;
        let last = shown.frames.len().checked_sub(1).filter(|last| 0 < *last)?;
        let (out, hold, back) = (beat.out.seconds(), beat.hold.seconds(), beat.back.seconds());
        let whole = out + hold + back;
        if !(0.0 < whole && whole.is_finite()) {
            return None;
        }
        let mut moments: Vec<(usize, f64)> =
            (0..=last).map(|index| (index, out * index as f64 / last as f64)).collect();
        if 0.0 < hold {
            moments.push((last, out + hold));
        }
        if 0.0 < back {
            moments
                .extend((1..=last).map(|step| (last - step, out + hold + back * step as f64 / last as f64)));
        }
        Some(Self {
            frames: moments.iter().map(|(frame, _)| *frame).collect(),
            times: moments.iter().map(|(_, moment)| trimmed(moment / whole, 3)).collect::<Vec<_>>().join(";"),
            lasts: format!("{}s", trimmed(whole, 2)),
        })
    }
}

fn running(shown: &Shown<'_>, clock: &Clock, camera: &Camera, by: (f64, f64)) -> Markup {
    let frames: Vec<Vec<Layer>> =
        shown.frames.iter().map(|frame| layers(&frame.figure, shown, camera, COARSE)).collect();
    let mut order: Vec<usize> = (0..frames[0].len()).collect();
    let near = |layer: usize| frames.iter().map(|frame| frame[layer].near).sum::<f64>();
    order.sort_by(|one, other| near(*one).total_cmp(&near(*other)));
    html! {
        @for layer in order {
            @let first = &frames[0][layer];
            g class=(first.class) {
                @for rim in [true, false] {
                    @for skin in 0..first.skins.len() {
                        @if !rim || first.rimmed {
                            @let class = if rim { "figure-rim" } else { first.skins[skin].0 };
                            @let shapes: Vec<&Outline> = frames.iter().map(|frame| &frame[layer].skins[skin].1).collect();
                            (animated(class, &shapes, |outline| outline.closed(by), clock))
                        }
                    }
                    @if first.line.is_some() {
                        @let class = if rim { "figure-rim" } else { "figure-strand" };
                        @let shapes: Vec<&Outline> = frames.iter().filter_map(|frame| frame[layer].line.as_ref()).collect();
                        (animated(class, &shapes, |outline| outline.open(by), clock))
                    }
                }
            }
        }
    }
}

/// What moves less than this on the page is drawn once: contacts shift a resting limb by hairs.
const STILL: f64 = 0.8;

fn animated(class: &str, shapes: &[&Outline], path: impl Fn(&Outline) -> String, clock: &Clock) -> Markup {
    let Some(first) = shapes.first() else { return html! {} };
    let apart = |one: &Outline, other: &Outline| {
        one.0.iter().zip(&other.0).map(|(a, b)| (a.0 - b.0).hypot(a.1 - b.1)).fold(0.0, f64::max)
    };
    let still = shapes.iter().all(|shape| apart(first, shape) < STILL);
    let spelled: Vec<String> =
        if still { Vec::new() } else { shapes.iter().map(|shape| path(shape)).collect() };
    let values: Vec<&str> =
        clock.frames.iter().filter_map(|frame| spelled.get(*frame)).map(String::as_str).collect();
    html! {
        path class=[(!class.is_empty()).then_some(class)] d=(path(first)) {
            @if !still {
                animate attributeName="d" dur=(clock.lasts) repeatCount="indefinite" calcMode="linear" keyTimes=(clock.times) values=(values.join(";")) {}
            }
        }
    }
}
