//! Return from injury: the letter, its limits, and the conditions beside it.

use trade::gate::Availability::*;
use trade::gate::EndsBy;
use trade::history::*;
use trade::protocol::Tag;
use trade::side::Side;

use crate::build::*;

fn injured(add: impl Fn(&mut History)) -> History {
    let mut history = fit(16, Sex::Male);
    history.pains.push(sign(ago(42), Sign::CameOutAndBack, Some(RIGHT)));
    history.absences.push(Absence {
        from: ago(42),
        to: Some(ago(1)),
        reason: AbsenceReason::Injury,
        kept_swimming: Some(false),
    });
    add(&mut history);
    history
}

fn met() -> ReturnConditions {
    ReturnConditions {
        daily_life_pain_free: Some(true),
        range_gap_deg: Some(10.0),
        strength_share: Some(0.9),
        half_water_weeks: Some(1.0),
    }
}

fn cleared(side: Option<Side>, injury: InjuryKind, conditions: ReturnConditions) -> Clearance {
    Clearance { injury: Some(injury), conditions, ..letter(ago(2), side) }
}

// Story S17: six weeks after a dislocation, "the doctor said it is fine", and no letter.
#[test]
fn back_without_papers_stays_out() {
    let gate = today(&injured(|_| {}));
    assert_eq!((gate.person(), gate.shoulder(RIGHT)), (OutReferred, OutReferred));
    assert_eq!(codes(&gate), ["U3", "B1"]);
    assert!(gate.holds.iter().all(|hold| hold.ends_by == EndsBy::Clinician));

    let reopened = today(&injured(|history| history.reopenings.push(reopening(ago(1), None))));
    assert_eq!(reopened.person(), OutReferred, "nobody but a clinician ends it");
}

// Story S17: a licensed letter with "nothing overhead for four weeks".
#[test]
fn back_with_a_letter_is_limited_until_its_last_day() {
    let history = injured(|history| {
        history.clearances.push(cleared(Some(RIGHT), InjuryKind::Dislocation, met()));
        let mut limit = limit(ago(2), ahead(26), Some(RIGHT));
        limit.locked_tags.insert(Tag::Overhead);
        history.limits.push(limit);
    });
    let gate = today(&history);
    assert_eq!((gate.person(), gate.shoulder(RIGHT), gate.shoulder(LEFT)), (Full, Limited, Full));
    let way_back = gate.tracks.reentry.clone().unwrap();
    assert_eq!((way_back.since, way_back.week, way_back.side), (ago(2), 1, Some(RIGHT)));
    assert!(way_back.by_clinicians_plan && way_back.open_conditions.is_empty());
    assert!(gate.tracks.hypermobile.is_some(), "once out, careful for good");
    assert_eq!(on(&history, ahead(26)).shoulder(RIGHT), Limited);
    assert_eq!(on(&history, ahead(27)).shoulder(RIGHT), Full);
}

#[test]
fn a_letter_without_a_valid_licence_is_no_letter() {
    let history = injured(|history| {
        let mut letter = cleared(Some(RIGHT), InjuryKind::Dislocation, met());
        letter.clinician.licence_until = ago(3);
        history.clearances.push(letter);
    });
    let gate = today(&history);
    assert_eq!(gate.shoulder(RIGHT), OutReferred);
    assert!(gate.tracks.reentry.is_none());
}

// Story S5: three healthy weeks away are for the dose to answer, not for the gate.
#[test]
fn a_healthy_absence_holds_nobody_back() {
    let mut history = fit(14, Sex::Female);
    history.absences.push(Absence {
        from: ago(21),
        to: None,
        reason: AbsenceReason::Healthy,
        kept_swimming: Some(true),
    });
    assert_eq!(today(&history).person(), Full);
}

#[test]
fn weeks_of_the_way_back_count_from_the_letter() {
    let history = injured(|history| history.clearances.push(cleared(None, InjuryKind::Other, met())));
    for (day, week) in [(ago(2), 1), (ahead(4), 1), (ahead(5), 2), (ahead(19), 4)] {
        let way_back = on(&history, day).tracks.reentry.unwrap();
        assert_eq!((way_back.week, way_back.side, way_back.by_clinicians_plan), (week, None, false), "{day}");
    }
}

#[test]
fn a_condition_known_not_to_be_met_holds_and_an_unwritten_one_is_listed() {
    let unwritten = ReturnConditions::default();
    let cases = [
        (met(), 0, Full),
        (ReturnConditions { daily_life_pain_free: Some(false), ..met() }, 1, OutToday),
        (ReturnConditions { range_gap_deg: Some(10.5), ..met() }, 1, OutToday),
        (ReturnConditions { strength_share: Some(0.89), ..met() }, 1, OutToday),
        (ReturnConditions { half_water_weeks: Some(0.5), ..met() }, 1, OutToday),
        (ReturnConditions { strength_share: None, ..met() }, 1, Full),
        (unwritten, 4, Full),
    ];
    for (conditions, open, expected) in cases {
        let mut history =
            injured(|history| history.clearances.push(cleared(Some(RIGHT), InjuryKind::Other, conditions)));
        history.reopenings.push(reopening(TODAY, None));
        let gate = today(&history);
        assert_eq!(gate.tracks.reentry.as_ref().unwrap().open_conditions.len(), open, "{conditions:?}");
        assert_eq!((gate.shoulder(RIGHT), gate.shoulder(LEFT)), (expected, Full), "{conditions:?}");
    }
}

#[test]
fn the_other_shoulders_younger_way_back_is_not_forgotten() {
    let both = |days: i64| {
        injured(|history| {
            let older = Clearance { date: ago(days), ..cleared(Some(LEFT), InjuryKind::Other, met()) };
            history.clearances.extend([older, cleared(Some(RIGHT), InjuryKind::Other, met())]);
        })
    };
    assert_eq!(today(&both(20)).tracks.reentry.unwrap().side, None);
    assert_eq!(today(&both(40)).tracks.reentry.unwrap().side, Some(RIGHT));
}
