//! What stands beside the body: floor, wall, bench, anchor, band, ball and weight.

use mechanics::figure::{BandEnd, Figure, Frame, Part, Place, Scene};

use super::camera::{Camera, Vector, add, vector};
use super::shape::{Ball, Outline};

/// A flat thing that does not move.
pub(super) struct Fixed {
    pub(super) class: &'static str,
    pub(super) outline: Outline,
}

/// Something that moves with the hand.
pub(super) struct Held {
    pub(super) class: &'static str,
    pub(super) balls: Vec<Ball>,
}

/// Smallest and largest of one axis over places.
fn extent(places: &[Vector], axis: usize) -> (f64, f64) {
    places.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), place| {
        (low.min(place[axis]), high.max(place[axis]))
    })
}

fn places(frames: &[Frame], parts: &[Part]) -> Vec<Vector> {
    frames.iter().flat_map(|frame| parts.iter().map(|part| vector(&part.of(&frame.figure)))).collect()
}

/// Everything fixed, from the back to the front.
pub(super) fn fixed(frames: &[Frame], scene: &Scene, camera: &Camera) -> Vec<Fixed> {
    let all = places(frames, &Part::ALL);
    let on_bench = scene.bench.as_ref().map(|bench| places(frames, &bench.touched_by)).unwrap_or_default();
    let mut things = vec![floor(&all, &places(frames, &scene.on_floor), &on_bench, scene, camera)];
    if let Some(wall) = &scene.wall {
        let touched = places(frames, &wall.touched_by);
        let (low, high) = extent(if touched.is_empty() { &all } else { &touched }, 0);
        let margin = scene.wall_margin.metres();
        let (left, right, at) = (low - margin, high + margin, wall.at.metres());
        let (_, top) = extent(&all, 2);
        let top = top.max(extent(&touched, 2).1 + 0.25) + 0.1;
        let corners = [[left, at, 0.0], [right, at, 0.0], [right, at, top], [left, at, top]];
        things.push(Fixed { class: "figure-wall", outline: Outline::corners(&corners, camera) });
    }
    if let Some(bench) = &scene.bench {
        things.extend(block(&on_bench, bench.at.metres(), camera));
    }
    for (_, end) in &scene.bands {
        if let BandEnd::Anchor(at) = end {
            let at = vector(at);
            let foot = [at[0], at[1], 0.0];
            things.push(Fixed {
                class: "figure-post",
                outline: Outline::corners(&[foot, add(at, [0.0, 0.0, 1.0], 0.12)], camera),
            });
        }
    }
    things
}

fn floor(all: &[Vector], touched: &[Vector], on_bench: &[Vector], scene: &Scene, camera: &Camera) -> Fixed {
    let mut under: Vec<Vector> = all.iter().filter(|place| place[2] < 0.45).copied().collect();
    under.extend_from_slice(touched);
    for (_, end) in &scene.bands {
        if let BandEnd::Anchor(at) = end {
            under.push(vector(at));
        }
    }
    if let Some(bench) = &scene.bench {
        let [left, right, back, front] = block_sides(on_bench, bench.at.metres());
        under.extend([[left, back, 0.0], [right, front, 0.0]]);
    }
    if let Some(wall) = &scene.wall {
        under.push([under.first().map_or(0.0, |place| place[0]), wall.at.metres() - 0.2, 0.0]);
    }
    let ((left, right), (back, front)) = (extent(&under, 0), extent(&under, 1));
    let (left, right, back, front) = (left - 0.13, right + 0.13, back - 0.12, front + 0.12);
    let front = scene.wall.as_ref().map_or(front, |wall| wall.at.metres());
    let corners = [[left, back, 0.0], [right, back, 0.0], [right, front, 0.0], [left, front, 0.0]];
    Fixed { class: "figure-floor", outline: Outline::corners(&corners, camera) }
}

/// Left, right, back and front of a box under what rests on it; a roll is narrower than a bench.
fn block_sides(touched: &[Vector], height: f64) -> [f64; 4] {
    let ((left, right), (back, front)) = (extent(touched, 0), extent(touched, 1));
    let deep = if height < 0.2 { 0.08 } else { 0.16 };
    [left - 0.22, right + 0.22, back - deep * 0.6, front + deep]
}

/// A box under what rests on it: top, and the two sides that can be seen.
fn block(touched: &[Vector], height: f64, camera: &Camera) -> Vec<Fixed> {
    if touched.is_empty() {
        return Vec::new();
    }
    let [left, right, back, front] = block_sides(touched, height);
    let corner = |x: f64, y: f64, z: f64| [x, y, z];
    let face = |class, corners: [Vector; 4]| Fixed { class, outline: Outline::corners(&corners, camera) };
    let side = if camera.near([1.0, 0.0, 0.0]) > 0.0 { right } else { left };
    let end = if camera.near([0.0, 1.0, 0.0]) > 0.0 { front } else { back };
    vec![
        face(
            "figure-block",
            [
                corner(left, end, 0.0),
                corner(right, end, 0.0),
                corner(right, end, height),
                corner(left, end, height),
            ],
        ),
        face(
            "figure-block",
            [
                corner(side, back, 0.0),
                corner(side, front, 0.0),
                corner(side, front, height),
                corner(side, back, height),
            ],
        ),
        face(
            "figure-block figure-block-top",
            [
                corner(left, back, height),
                corner(right, back, height),
                corner(right, front, height),
                corner(left, front, height),
            ],
        ),
    ]
}

/// The bands of one frame, each as its two ends.
pub(super) fn bands(figure: &Figure, scene: &Scene) -> Vec<[Vector; 2]> {
    let end = |end: &BandEnd| match end {
        BandEnd::Hand(part) => vector(&part.of(figure)),
        BandEnd::Anchor(at) => vector(at),
    };
    scene.bands.iter().map(|(hand, to)| [vector(&hand.of(figure)), end(to)]).collect()
}

/// Where the bands are anchored.
pub(super) fn anchors(scene: &Scene) -> Vec<Place> {
    let mut found: Vec<Place> = Vec::new();
    for (_, end) in &scene.bands {
        if let BandEnd::Anchor(at) = end
            && !found.contains(at)
        {
            found.push(*at);
        }
    }
    found
}

/// Ball and weights of one frame.
pub(super) fn held(figure: &Figure, stature: f64, scene: &Scene) -> Vec<(Part, Held)> {
    let ball = scene.ball.map(|(hand, radius)| {
        let at = vector(&hand.of(figure));
        let away = radius.metres() + 0.0185 * stature;
        (hand, Held { class: "figure-ball", balls: vec![(add(at, [0.0, 1.0, 0.0], away), radius.metres())] })
    });
    let weight = |hand: &Part| {
        let at = vector(&hand.of(figure));
        (*hand, Held { class: "figure-weight", balls: vec![(at, 0.027 * stature)] })
    };
    ball.into_iter().chain(scene.weights.iter().map(weight)).collect()
}
