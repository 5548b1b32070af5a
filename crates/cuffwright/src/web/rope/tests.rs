//! What a rope must show, whatever its numbers.

use proptest::prelude::*;

use super::*;

const FULL: HoldTime = HoldTime::from_seconds(120.0);

fn s(seconds: f64) -> HoldTime {
    HoldTime::from_seconds(seconds)
}

fn drawn(rope: &Rope) -> String {
    one(rope, FULL, Heading::Rightward).into_string()
}

fn rope(held: f64, cap: f64, end: RopeEnd) -> Rope {
    Rope { number: 1, held: s(held), cap: s(cap), end, fault_left: None }
}

fn every_end() -> [RopeEnd; 7] {
    [
        RopeEnd::CapSeen,
        RopeEnd::CapUnseen,
        RopeEnd::Form("elbow leaves its place".to_owned()),
        RopeEnd::ChoseToStop,
        RopeEnd::Pain,
        RopeEnd::Kit,
        RopeEnd::CalledAway,
    ]
}

#[test]
fn one_float_stands_for_ten_seconds_of_cap() {
    for (cap, floats) in [(120.0, 12), (60.0, 6), (45.0, 5), (10.0, 1), (10.1, 2), (0.0, 0)] {
        let geometry = Geometry::of(s(0.0), s(cap), FULL, Heading::Rightward);
        assert_eq!(geometry.floats.len(), floats, "cap {cap}");
    }
}

#[test]
fn floats_fill_as_far_as_the_set_was_held() {
    let geometry = Geometry::of(s(75.0), FULL, FULL, Heading::Rightward);
    let shares: Vec<f64> = geometry.floats.iter().map(|float| float.filled / float.width).collect();
    assert_eq!(&shares[..7], &[1.0; 7]);
    assert!((shares[7] - 0.5).abs() < 1e-9);
    assert!(shares[8..].iter().all(|share| *share == 0.0));
}

#[test]
fn a_shorter_cap_is_a_shorter_rope_at_the_same_scale() {
    let long = Geometry::of(FULL, FULL, FULL, Heading::Rightward);
    let short = Geometry::of(s(60.0), s(60.0), FULL, Heading::Rightward);
    assert_eq!(long.width, short.width);
    assert_eq!(long.floats[5], short.floats[5]);
    assert!(short.wall_at < long.wall_at);
}

#[test]
fn a_time_past_the_cap_is_drawn_as_the_cap_and_said_as_recorded() {
    let past = rope(121.4, 120.0, RopeEnd::CapSeen);
    assert_eq!(
        Geometry::of(s(121.4), FULL, FULL, Heading::Rightward),
        Geometry::of(FULL, FULL, FULL, Heading::Rightward)
    );
    assert!(drawn(&past).contains("121.4 s"));
}

#[test]
fn seconds_are_never_rounded_up() {
    for (held, said) in [(119.96, "119.9"), (120.0, "120"), (0.0, "0"), (72.3, "72.3"), (118.0, "118")] {
        assert_eq!(seconds(s(held)), said);
    }
}

#[test]
fn every_end_has_its_own_shape_and_its_own_words() {
    let pictures: Vec<String> = every_end().into_iter().map(|end| drawn(&rope(120.0, 120.0, end))).collect();
    for (index, picture) in pictures.iter().enumerate() {
        assert!(!picture.contains('‹'), "a message is missing: {picture}");
        // The classes carry colour; without them the drawings must still differ.
        let shape = |picture: &str| -> Vec<String> {
            picture
                .split(" d=\"")
                .skip(1)
                .map(|rest| rest.split('"').next().unwrap_or_default().to_owned())
                .collect()
        };
        for other in &pictures[..index] {
            let differs = shape(picture) != shape(other)
                || picture.contains("rope-dashed") != other.contains("rope-dashed");
            assert!(differs, "two ends look alike without colour");
        }
    }
}

#[test]
fn an_unseen_cap_is_dashed_unfilled_and_says_so() {
    let unseen = drawn(&rope(120.0, 120.0, RopeEnd::CapUnseen));
    assert!(unseen.contains("not seen"));
    assert!(!unseen.contains("rope-filled"));
    assert_eq!(unseen.matches("rope-float rope-dashed").count(), 12);
    let seen = drawn(&rope(120.0, 120.0, RopeEnd::CapSeen));
    assert!(seen.contains("rope-filled") && !seen.contains("not seen"));
}

#[test]
fn a_rope_has_a_name_a_description_and_its_words() {
    let form = drawn(&rope(118.0, 120.0, RopeEnd::Form("elbow <leaves>".to_owned())));
    assert!(form.contains("<title>Set 1, drawn as a rope</title>"));
    assert!(
        form.contains("<desc>12 floats, one for each 10 s of the cap; 11.8 filled. An open angle"),
        "{form}"
    );
    assert!(form.contains("form: elbow &lt;leaves&gt;") && form.contains("118 s"));
}

#[test]
fn a_set_from_the_record_keeps_reason_and_seen() {
    let set = |end: End, watched: Watched| Set {
        number: 2,
        time: FULL,
        cap: FULL,
        rest_before: None,
        end,
        watched,
        clock: trade::history::Clock::Device,
        fault_left: None,
    };
    let name = |code: &FaultCode| format!("fault {code}");
    let ends = [
        (End::Cap, Watched::Seen, RopeEnd::CapSeen),
        (End::Cap, Watched::Unseen, RopeEnd::CapUnseen),
        (End::Form(FaultCode::new("F06")), Watched::Unseen, RopeEnd::Form("fault F06".to_owned())),
        (End::ChoseToStop, Watched::Seen, RopeEnd::ChoseToStop),
        (End::Pain, Watched::Seen, RopeEnd::Pain),
        (End::Kit, Watched::Seen, RopeEnd::Kit),
        (End::Left, Watched::Seen, RopeEnd::CalledAway),
    ];
    for (end, watched, drawn_as) in ends {
        assert_eq!(Rope::of(&set(end, watched), name).end, drawn_as);
    }
}

proptest! {
    #[test]
    fn left_is_the_mirror_of_right(held in 0.0_f64..180.0, cap in 1.0_f64..180.0) {
        let right = Geometry::of(s(held), s(cap), FULL, Heading::Rightward);
        let left = Geometry::of(s(held), s(cap), FULL, Heading::Leftward);
        prop_assert_eq!(right.floats.len(), left.floats.len());
        for (r, l) in right.floats.iter().zip(&left.floats) {
            prop_assert!((r.x + r.width + l.x - right.width).abs() < 1e-9);
            prop_assert!((r.filled_x + r.filled + l.filled_x - right.width).abs() < 1e-9);
        }
        prop_assert!((right.held_at + left.held_at - right.width).abs() < 1e-9);
    }

    #[test]
    fn nothing_leaves_the_drawing_and_longer_is_never_shorter(held in 0.0_f64..300.0, more in 0.0_f64..100.0, cap in 0.0_f64..300.0) {
        let drawn = Geometry::of(s(held), s(cap), FULL, Heading::Rightward);
        let longer = Geometry::of(s(held + more), s(cap), FULL, Heading::Rightward);
        prop_assert!(drawn.held_at <= longer.held_at + 1e-9);
        for float in &drawn.floats {
            prop_assert!(0.0 <= float.x && float.x + float.width <= drawn.width);
            prop_assert!(float.filled <= float.width + 1e-9);
        }
        prop_assert!(drawn.wall_at <= drawn.width);
    }
}
