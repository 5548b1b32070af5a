//! Second events and pain that stays.

use trade::gate::Availability::*;
use trade::history::PainWhen::*;
use trade::history::*;

use crate::build::*;

fn told(reports: Vec<PainReport>) -> History {
    let mut history = fit(15, Sex::Female);
    history.pains = reports;
    history
}

#[test]
fn what_is_one_event_and_what_are_two() {
    let scaption = || during("RC-3");
    let cases = [
        (vec![joint(ago(10), scaption(), 0, 4), joint(ago(9), NextMorning, 0, 3)], 1, "the morning after"),
        (vec![joint(ago(10), scaption(), 0, 4), joint(ago(10), After, 0, 3)], 1, "the same day"),
        (vec![joint(ago(10), scaption(), 0, 4), joint(ago(3), FollowUp, 0, 3)], 1, "a follow-up"),
        (vec![joint(ago(10), scaption(), 0, 4), joint(ago(3), scaption(), 0, 2)], 2, "training again"),
        (vec![joint(ago(10), scaption(), 0, 4), joint(ago(3), Before, 0, 3)], 2, "about to train again"),
        (
            vec![joint(ago(10), scaption(), 0, 4), free(ago(5)), joint(ago(3), Other, 0, 3)],
            2,
            "a pain-free answer between",
        ),
        (vec![joint(ago(10), Before, 0, 2), joint(ago(3), Before, 0, 2)], 0, "1-2 before a session is none"),
    ];
    for (reports, expected, name) in cases {
        assert_eq!(today(&told(reports)).pain_events.len(), expected, "{name}");
    }
}

#[test]
fn a_second_event_within_the_window_is_referred() {
    for (first, second, expected) in [(15, 1, true), (16, 1, false), (14, 0, true), (5, 4, true)] {
        let history =
            told(vec![joint(ago(first), during("RC-3"), 0, 2), joint(ago(second), during("RC-1"), 0, 2)]);
        let gate = today(&history);
        assert_eq!(codes(&gate).contains(&"E7"), expected, "{first} and {second} days ago");
        if expected {
            let hold = gate.holds.iter().find(|hold| hold.line.rule.0 == "E7").unwrap();
            assert_eq!((hold.availability, hold.side), (OutReferred, Some(RIGHT)));
            assert_eq!((hold.since, hold.urgency), (ago(second), Some(Urgency::WithinAWeek)));
        }
    }
}

#[test]
fn follow_ups_of_one_event_are_no_second_event() {
    let history = told(vec![joint(ago(3), during("RC-3"), 0, 4), joint(ago(2), NextMorning, 0, 3)]);
    assert_eq!(codes(&today(&history)), ["E4"]);
}

#[test]
fn events_in_both_shoulders_hold_both() {
    let history = told(vec![joint(ago(9), during("RC-3"), 2, 0), joint(ago(2), during("RC-1"), 0, 2)]);
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (OutReferred, OutReferred));
}

#[test]
fn a_reopening_does_not_end_a_referral_and_a_letter_since_does() {
    let mut history = told(vec![joint(ago(9), during("RC-3"), 0, 2), joint(ago(4), during("RC-1"), 0, 2)]);
    history.reopenings.push(reopening(ago(1), None));
    assert_eq!(today(&history).shoulder(RIGHT), OutReferred);
    history.clearances.push(letter(ago(5), Some(RIGHT)));
    assert_eq!(today(&history).shoulder(RIGHT), OutReferred, "from between the two");
    history.clearances.push(letter(ago(2), Some(RIGHT)));
    assert_eq!(today(&history).shoulder(RIGHT), Full);
}

#[test]
fn pain_that_nobody_called_gone_is_referred_after_seven_days() {
    let four = |days| joint(ago(days), during("RC-3"), 0, 4);
    let cases = [
        (vec![four(7)], false, "seven days"),
        (vec![four(8)], true, "silence for eight days"),
        (vec![four(8), free(ago(3))], false, "gone"),
        (vec![four(8), joint(ago(3), FollowUp, -1, 0)], true, "half an answer"),
        (vec![four(8), joint(ago(3), FollowUp, 0, 1)], true, "less, but not gone"),
        (vec![four(8), joint(ago(8), After, 0, 0)], true, "gone the same evening is not gone"),
        (vec![four(8), sign(ago(3), Sign::FallWithCrack, Some(LEFT))], true, "no pain, but a sign"),
        (vec![joint(ago(8), Before, 0, 2)], false, "below 3"),
    ];
    for (reports, expected, name) in cases {
        let gate = today(&told(reports));
        assert_eq!(codes(&gate).contains(&"E8"), expected, "{name}");
        assert_eq!(gate.shoulder(RIGHT) == OutReferred, expected, "{name}");
    }
}

#[test]
fn one_sided_pain_twice_within_the_window_is_a_note() {
    for (first, expected) in [(14, true), (15, false)] {
        let mut history = told(vec![joint(ago(first), Before, 1, 0), joint(TODAY, Before, 0, 2)]);
        history.reopenings.push(reopening(ago(first - 1), None));
        assert_eq!(notes(&today(&history)).contains(&"E13"), expected, "{first} days");
    }
}
