//! Warning signs: how soon, whom they hold, and what ends them.

use trade::gate::Availability::*;
use trade::gate::EndsBy;
use trade::history::*;

use crate::build::*;

fn told(report: PainReport) -> History {
    let mut history = fit(17, Sex::Male);
    history.pains.push(report);
    history
}

// Story S15: heavy, swollen, bluish, and only 2 of 10.
#[test]
fn a_blue_swollen_arm_is_an_emergency_whatever_the_number() {
    for number in [0, 2, 9] {
        let mut report = joint(TODAY, PainWhen::Other, 0, number);
        report.signs.insert(Sign::ArmSwollenBlueOrCold);
        report.sign_side = Some(RIGHT);
        let gate = today(&told(report));
        let hold = gate.holds.iter().find(|hold| hold.line.rule.0 == "U1").unwrap();
        assert_eq!((hold.side, hold.urgency), (Some(RIGHT), Some(Urgency::Emergency)), "{number}");
        assert_eq!(hold.ends_by, EndsBy::Clinician);
        assert_eq!(gate.holds[0].urgency, Some(Urgency::Emergency), "worst first");
        assert_eq!(
            (gate.person(), gate.shoulder(LEFT)),
            (OutReferred, OutReferred),
            "nobody trains the other arm"
        );
        assert!(gate.stop_today.session);
    }
}

#[test]
fn every_sign_holds_as_its_urgency_says() {
    for one in Sign::ALL {
        let gate = today(&told(sign(TODAY, one, Some(LEFT))));
        let word = one.word();
        match one.urgency() {
            Urgency::Talk => {
                assert_eq!((gate.person(), gate.shoulder(LEFT)), (Full, Full), "{word}");
                assert_eq!(notes(&gate), ["U5"], "{word}");
                assert!(!gate.stop_today.session, "{word}");
            }
            urgency => {
                assert_eq!(gate.shoulder(LEFT), OutReferred, "{word}");
                assert_eq!(gate.holds[0].urgency, Some(urgency), "{word}");
                assert!(gate.stop_today.session, "{word}");
                let whole = one.is_of_the_whole_person() || urgency == Urgency::Emergency;
                assert_eq!(gate.person() == OutReferred, whole, "{word}");
                assert_eq!(gate.shoulder(RIGHT) == OutReferred, whole, "{word}");
            }
        }
    }
}

#[test]
fn a_sign_without_a_side_holds_both_shoulders_each_until_a_letter_covers_it() {
    let mut history = told(sign(ago(3), Sign::NightPain, None));
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (OutReferred, OutReferred));
    history.clearances.push(letter(ago(1), Some(LEFT)));
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (Full, OutReferred));
}

#[test]
fn only_a_licensed_letter_of_that_day_or_later_ends_a_sign() {
    let letters = [
        (letter(ago(3), Some(RIGHT)), true),
        (letter(ago(1), Some(RIGHT)), true),
        (letter(ago(1), None), true),
        (letter(ago(4), Some(RIGHT)), false),
        (letter(ago(1), Some(LEFT)), false),
        (letter(ahead(1), Some(RIGHT)), false),
        (
            Clearance {
                clinician: Clinician { licence: " ".to_owned(), ..clinician() },
                ..letter(ago(1), None)
            },
            false,
        ),
        (
            Clearance { clinician: Clinician { name: String::new(), ..clinician() }, ..letter(ago(1), None) },
            false,
        ),
        (
            Clearance {
                clinician: Clinician { licence_until: ago(2), ..clinician() },
                ..letter(ago(1), None)
            },
            false,
        ),
    ];
    for (letter, ends) in letters {
        let mut history = told(sign(ago(3), Sign::Tingling, Some(RIGHT)));
        history.reopenings.push(reopening(ago(1), None));
        history.pains.extend([free(ago(2)), free(ago(1))]);
        history.clearances.push(letter.clone());
        let expected = if ends { Full } else { OutReferred };
        assert_eq!(today(&history).shoulder(RIGHT), expected, "{letter:?}");
    }
}

#[test]
fn a_letter_for_one_shoulder_says_nothing_about_the_person() {
    let mut history = told(sign(ago(3), Sign::ChestPain, Some(RIGHT)));
    history.clearances.push(letter(ago(1), Some(RIGHT)));
    assert_eq!(today(&history).person(), OutReferred);
    history.clearances.push(letter(ago(1), None));
    assert_eq!(today(&history).person(), Full);
}

#[test]
fn an_emergency_of_one_arm_ends_for_the_person_with_the_letter_for_that_arm() {
    let mut history = told(sign(ago(3), Sign::ArmSwollenBlueOrCold, Some(RIGHT)));
    history.clearances.push(letter(ago(1), Some(RIGHT)));
    assert_eq!(today(&history).person(), Full);
}

#[test]
fn a_sign_at_intake_holds_the_person_until_somebody_licensed_has_looked() {
    let mut history = fit(17, Sex::Male);
    history.intakes[0].signs.push(Sign::Tingling);
    assert_eq!((today(&history).person(), codes(&today(&history))), (OutReferred, vec!["U4"]));
    history.clearances.push(letter(ago(1), None));
    assert_eq!(today(&history).person(), Full);
}

#[test]
fn a_talk_is_closed_by_a_later_follow_up() {
    let mut history = told(sign(ago(3), Sign::PoorSleep, None));
    assert_eq!(notes(&today(&history)), ["U5"]);
    history.pains.push(free(ago(1)));
    assert_eq!(notes(&today(&history)), [""; 0]);
}
