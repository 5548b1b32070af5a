//! Every drawing of the shipped protocol, frame by frame: rigid limbs, hands on the band, supports on their surface,
//! joints within reach; for both sides and for bodies from a child's to a tall man's.

use app::drawn::{Drawn, drawn};
use mechanics::body::{Body, LengthSet, Person, Sex, Tape, Years};
use mechanics::figure::{BandEnd, Frame, Part, outside_range, segment_lengths};
use quantity::{Length, Mass};
use trade::protocol::figure::{BandRun, FigureScript};
use trade::protocol::{Exercise, Load, Tempo, shipped};
use trade::side::Side;

fn body(stature: f64, kilograms: f64, sex: Sex) -> Body {
    let person = Person {
        sex,
        age: Years(18),
        mass: Mass::from_kilograms(kilograms),
        stature: Length::from_metres(stature),
    };
    Body::estimate(person, LengthSet::DrillisContini, &Tape::default()).expect("an invented body is measured")
}

fn every(mut check: impl FnMut(&Exercise, &FigureScript, &Drawn, &[Frame])) {
    for (stature, mass, sex) in
        [(1.35, 31.0, Sex::Female), (1.65, 57.0, Sex::Female), (1.95, 88.0, Sex::Male)]
    {
        let body = body(stature, mass, sex);
        for exercise in &shipped().exercises {
            for script in &exercise.figures {
                for side in Side::BOTH {
                    let drawing = drawn(exercise, script, &body, Some(side));
                    let frames = drawing.way_out(9);
                    check(exercise, script, &drawing, &frames);
                }
            }
        }
    }
}

#[test]
fn every_exercise_is_drawn() {
    for exercise in &shipped().exercises {
        assert!(exercise.figures.iter().any(|script| script.rungs.is_empty()), "{}", exercise.id);
        for rung in &exercise.ladder {
            assert!(exercise.figure(Some(&rung.id)).is_some(), "{} {}", exercise.id, rung.id);
        }
    }
    let push_up = shipped().exercise(&trade::name::ExerciseId::new("SC-2")).unwrap();
    let wall = push_up.figure(Some(&trade::name::RungId::new("p2"))).unwrap();
    assert!(wall.wall.is_some(), "a rung with a drawing of its own is shown by that one");
}

#[test]
fn limbs_keep_their_length_in_every_frame() {
    every(|exercise, _, _, frames| {
        let first = segment_lengths(&frames[0].figure);
        for frame in frames {
            for ((name, length), (_, began)) in segment_lengths(&frame.figure).iter().zip(&first) {
                assert!((length.metres() - began.metres()).abs() < 1e-9, "{} {name}", exercise.id);
            }
        }
    });
}

#[test]
fn joints_stay_within_reach_in_every_frame() {
    every(|exercise, script, drawing, frames| {
        for frame in frames {
            let wrong = outside_range(&frame.pose);
            assert!(wrong.is_empty(), "{} {:?}: {wrong:?}", exercise.id, script.rungs);
        }
        assert!(drawing.is_sound(frames), "{} {:?}", exercise.id, script.rungs);
    });
}

#[test]
fn what_supports_lies_on_its_surface_and_nothing_sinks_through_the_floor() {
    every(|exercise, script, drawing, frames| {
        for frame in frames {
            let miss = drawing.motion.miss(&drawing.body, frame).metres();
            assert!(miss < 0.003, "{} {:?} misses by {miss} m", exercise.id, script.rungs);
            for part in Part::ALL {
                let up = part.of(&frame.figure).up.metres();
                let toes = matches!(part, Part::LeftToes | Part::RightToes);
                let floor = if toes { -0.03 } else { 0.0 };
                assert!(floor <= up + 0.02, "{} {:?}: {part:?} at {up} m", exercise.id, script.rungs);
            }
        }
    });
}

#[test]
fn supports_do_not_slip() {
    every(|exercise, script, drawing, frames| {
        let began = &frames[0].figure;
        for contact in drawing.motion.contacts.iter().filter(|contact| !contact.slides) {
            let circles = drawing.scene.ball.is_some_and(|(hand, _)| hand == contact.part);
            let on_part = matches!(contact.touches, mechanics::figure::Touches::Part(_));
            if circles || on_part {
                continue;
            }
            for frame in frames {
                let slip = contact.part.of(&frame.figure).distance(&contact.part.of(began)).metres();
                assert!(
                    slip < 0.004,
                    "{} {:?}: {:?} slips {slip} m",
                    exercise.id,
                    script.rungs,
                    contact.part
                );
            }
        }
    });
}

#[test]
fn every_band_exercise_shows_a_band_that_gets_longer() {
    let mut seen = 0;
    every(|exercise, script, drawing, frames| {
        let has_band = exercise.ladder.iter().any(|rung| matches!(rung.load, Load::Band(_)));
        assert_eq!(has_band, script.band.is_some(), "{}", exercise.id);
        for (hand, end) in &drawing.scene.bands {
            let span = |frame: &Frame| {
                let to = match end {
                    BandEnd::Hand(other) => other.of(&frame.figure),
                    BandEnd::Anchor(at) => *at,
                };
                hand.of(&frame.figure).distance(&to).metres()
            };
            let spans: Vec<f64> = frames.iter().map(span).collect();
            assert!(spans.windows(2).all(|pair| pair[0] < pair[1] + 1e-6), "{}: {spans:?}", exercise.id);
            assert!(spans[0] + 0.02 < spans[8], "{}: {spans:?}", exercise.id);
            seen += 1;
        }
        if let Some(BandRun::Anchored { .. }) = script.band {
            assert!(!drawing.scene.bands.is_empty(), "{}", exercise.id);
        }
    });
    assert!(seen >= 4 * 6, "four exercises with bands, two sides, three bodies: {seen}");
}

#[test]
fn left_is_the_mirror_image_of_right() {
    let body = body(1.65, 57.0, Sex::Female);
    for exercise in &shipped().exercises {
        for script in &exercise.figures {
            let right = drawn(exercise, script, &body, Some(Side::Right)).way_out(5);
            let left = drawn(exercise, script, &body, Some(Side::Left)).way_out(5);
            let one_arm = exercise.arms == trade::protocol::Arms::One;
            for (right, left) in right.iter().zip(&left) {
                let hand = right.figure.right.hand;
                let other = if one_arm { left.figure.left.hand } else { left.figure.right.hand };
                let sign = if one_arm { -1.0 } else { 1.0 };
                assert!((hand.right.metres() - sign * other.right.metres()).abs() < 1e-6, "{}", exercise.id);
                assert!((hand.up.metres() - other.up.metres()).abs() < 1e-6, "{}", exercise.id);
            }
        }
    }
}

#[test]
fn circles_go_round_at_their_radius_and_close() {
    every(|exercise, script, drawing, frames| {
        if let (Tempo::Circles { .. }, Some((hand, _)), Some(radius)) =
            (exercise.tempo, drawing.scene.ball, drawing.motion.circle)
        {
            let at: Vec<_> = frames.iter().map(|frame| hand.of(&frame.figure)).collect();
            let widest = at.iter().map(|place| place.distance(&at[0]).metres()).fold(0.0, f64::max);
            assert!((widest - 2.0 * radius.metres().abs()).abs() < 0.01, "{widest} {:?}", script.circle);
            assert!(at[8].distance(&at[0]).metres() < 0.003);
        }
    });
}
