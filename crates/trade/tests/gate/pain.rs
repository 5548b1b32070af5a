//! The pain table, line by line.

use quantity::Pain;
use trade::gate::Availability::{self, *};
use trade::gate::{EndsBy, StopToday, gate};
use trade::history::PainWhen::*;
use trade::history::*;
use trade::name::ExerciseId;
use trade::side::WorkingSide;

use crate::build::*;

/// What one report of today does: person, left, right, what stops, and days without steps up.
#[derive(Debug, PartialEq)]
struct Outcome(Availability, Availability, Availability, &'static str, i32);

fn stopped(stop: &StopToday) -> &'static str {
    match stop {
        StopToday { session: true, .. } => "session",
        StopToday { all_shoulder: true, .. } => "shoulder",
        StopToday { exercises, .. } if !exercises.is_empty() => "exercise",
        _ => "",
    }
}

fn outcome(history: &History) -> Outcome {
    let gate = today(history);
    let days = gate.no_up_before.as_ref().map_or(0, |(until, _)| days_between(TODAY, *until));
    Outcome(gate.person(), gate.shoulder(LEFT), gate.shoulder(RIGHT), stopped(&gate.stop_today), days)
}

fn told(report: PainReport) -> History {
    let mut history = fit(15, Sex::Female);
    history.pains.push(report);
    history
}

#[test]
fn the_pain_table() {
    let scaption = || during("RC-3");
    let table = [
        (joint(TODAY, Before, 0, 0), Outcome(Full, Full, Full, "", 0)),
        (joint(TODAY, Before, 0, 1), Outcome(Full, Full, OutToday, "", 14)),
        (joint(TODAY, Before, 2, 0), Outcome(Full, OutToday, Full, "", 14)),
        (joint(TODAY, Before, 2, 1), Outcome(Full, OutToday, OutToday, "", 14)),
        (report(TODAY, Before, PainKind::Unstated, 0, 1), Outcome(Full, Full, OutToday, "", 14)),
        (ache(TODAY, Before, 2, 1), Outcome(Full, Full, Full, "", 1)),
        (ache(TODAY, Before, 0, 2), Outcome(Full, Full, OutToday, "", 14)),
        (ache(TODAY, Before, -1, 2), Outcome(Full, Full, OutToday, "", 14)),
        (joint(TODAY, Before, 0, 3), Outcome(OutToday, OutToday, OutToday, "shoulder", 14)),
        (ache(TODAY, Before, 4, 4), Outcome(OutToday, OutToday, OutToday, "shoulder", 14)),
        (joint(TODAY, Before, 0, 5), Outcome(OutToday, OutToday, OutReferred, "session", 14)),
        (joint(TODAY, scaption(), 0, 1), Outcome(Full, Full, Full, "exercise", 14)),
        (joint(TODAY, scaption(), 0, 2), Outcome(Full, Full, Full, "exercise", 14)),
        (ache(TODAY, scaption(), 2, 2), Outcome(Full, Full, Full, "", 1)),
        (joint(TODAY, During(None), 0, 2), Outcome(Full, Full, Full, "shoulder", 14)),
        (joint(TODAY, scaption(), 0, 4), Outcome(OutToday, OutToday, OutToday, "shoulder", 14)),
        (joint(TODAY, scaption(), 6, 0), Outcome(OutToday, OutReferred, OutToday, "session", 14)),
        (joint(TODAY, NextMorning, 0, 2), Outcome(Full, Full, Full, "", 7)),
        (ache(TODAY, NextMorning, 2, 2), Outcome(Full, Full, Full, "", 1)),
        (joint(TODAY, NextMorning, 0, 3), Outcome(OutToday, OutToday, OutToday, "shoulder", 14)),
        (joint(TODAY, NextMorning, 0, 5), Outcome(OutToday, OutToday, OutReferred, "session", 14)),
        (joint(TODAY, After, 0, 2), Outcome(Full, Full, OutToday, "", 14)),
        (joint(TODAY, FollowUp, 0, 2), Outcome(Full, Full, OutToday, "", 14)),
        (joint(TODAY, Other, 1, 0), Outcome(Full, OutToday, Full, "", 14)),
        (joint(TODAY, Other, 3, -1), Outcome(OutToday, OutToday, OutToday, "shoulder", 14)),
    ];
    for (report, expected) in table {
        assert_eq!(outcome(&told(report.clone())), expected, "{report:?}");
    }
}

#[test]
fn who_is_out_today_is_out_until_a_person_reopens() {
    for days in [1, 3, 30] {
        let history = told(joint(ago(days), Before, 0, 1));
        let gate = today(&history);
        assert_eq!(gate.shoulder(RIGHT), OutToday, "{days} days later");
        assert_eq!((codes(&gate), gate.holds[0].ends_by), (vec!["E1"], EndsBy::Practitioner));
        assert!(gate.proposed_ends.is_empty(), "silence proposes nothing");
    }
}

#[test]
fn a_reopening_ends_out_today_from_its_day_on() {
    let cases = [
        (joint(ago(3), Before, 0, 2), reopening(ago(4), None), OutToday),
        (joint(ago(3), Before, 0, 2), reopening(ago(2), None), Full),
        (joint(ago(3), Before, 0, 2), reopening(ago(2), Some(RIGHT)), Full),
        (joint(ago(3), Before, 0, 2), reopening(ago(2), Some(LEFT)), OutToday),
        (joint(ago(3), Before, 0, 2), reopening(ago(3), None), Full),
        // The order of two records of one day is not known: what hurt in a session came after a reopening.
        (joint(ago(3), during("RC-1"), 0, 4), reopening(ago(3), None), OutToday),
        (joint(ago(3), Before, 0, 3), reopening(ago(3), None), OutToday),
        (joint(ago(3), Before, 0, 3), reopening(ago(2), Some(RIGHT)), Full),
        (joint(ago(3), Before, 3, 3), reopening(ago(2), Some(RIGHT)), OutToday),
        (joint(ago(3), Before, 0, 4), reopening(ahead(1), None), OutToday),
    ];
    for (report, reopening, expected) in cases {
        let mut history = told(report.clone());
        history.reopenings.push(reopening.clone());
        assert_eq!(today(&history).shoulder(RIGHT), expected, "{report:?} {reopening:?}");
    }
}

#[test]
fn a_younger_letter_ends_out_today_as_well() {
    let mut history = told(joint(ago(3), during("RC-1"), 0, 4));
    history.clearances.push(letter(ago(3), Some(RIGHT)));
    assert_eq!(today(&history).person(), OutToday, "of the same day");
    history.clearances.push(letter(ago(2), Some(RIGHT)));
    assert_eq!(today(&history).person(), Full);
}

#[test]
fn five_and_more_is_ended_by_a_licensed_letter_only() {
    let six = |add: fn(&mut History)| {
        let mut history = told(joint(ago(3), during("RC-1"), 0, 6));
        history.reopenings.push(reopening(ago(2), None));
        history.pains.extend([free(ago(2)), free(ago(1)), free(TODAY)]);
        add(&mut history);
        today(&history)
    };
    let still_out = six(|_| {});
    assert_eq!((still_out.shoulder(RIGHT), still_out.shoulder(LEFT)), (OutReferred, Full));
    assert!(still_out.proposed_ends.is_empty(), "nothing is proposed for a shoulder that is referred");
    assert_eq!(
        six(|history| history.clearances.push(letter(ago(1), Some(LEFT)))).shoulder(RIGHT),
        OutReferred
    );
    assert_eq!(six(|history| history.clearances.push(letter(ago(4), None))).shoulder(RIGHT), OutReferred);
    let answered = |history: &mut History| {
        history.referrals.push(Referral {
            opened: ago(3),
            side: Some(RIGHT),
            urgency: Urgency::WithinAWeek,
            answered: Some(ago(1)),
        });
    };
    assert_eq!(six(answered).shoulder(RIGHT), OutReferred, "an answer is not a clearance");
    let lapsed = |history: &mut History| {
        let mut late = letter(ago(1), Some(RIGHT));
        late.clinician.licence_until = ago(2);
        history.clearances.push(late);
    };
    assert_eq!(six(lapsed).shoulder(RIGHT), OutReferred, "the licence had run out");
    assert_eq!(six(|history| history.clearances.push(letter(ago(3), Some(RIGHT)))).shoulder(RIGHT), Full);
    assert_eq!(six(|history| history.clearances.push(letter(ago(1), None))).shoulder(RIGHT), Full);
}

#[test]
fn the_number_decides_how_soon() {
    for (number, urgency) in [(5, Urgency::WithinAWeek), (6, Urgency::WithinAWeek), (7, Urgency::SameDay)] {
        let gate = today(&told(joint(TODAY, Before, number, 0)));
        let hold = gate.holds.iter().find(|hold| hold.line.rule.0 == "E5").unwrap();
        assert_eq!((hold.side, hold.urgency), (Some(LEFT), Some(urgency)), "{number}");
    }
}

// Story S3 and its edges.
#[test]
fn pain_during_scaption() {
    let history = |number, kind, sides: (i64, i64), ended: bool| {
        let mut history = fit(15, Sex::Female);
        history.pains.push(joint(TODAY, Before, 0, 0));
        history.pains.push(report(TODAY, during("RC-3"), kind, sides.0, sides.1));
        if ended {
            history.sessions.push(session(TODAY, "RC-3", WorkingSide::Both, End::Pain));
        }
        assert!(sides.0.max(sides.1) == number);
        history
    };
    let four = today(&history(4, PainKind::JointOrOneSided, (0, 4), true));
    assert!(four.stop_today.all_shoulder && !four.stop_today.session);
    assert_eq!((four.person(), codes(&four)), (OutToday, vec!["E4"]), "out, and no letter");
    assert_eq!(four.pain_events.len(), 1);
    assert_eq!(four.pain_events[0].worst, Some(pain_of(4)));
    assert_eq!(four.pain_events[0].sides, [RIGHT].into());
    assert_eq!(four.no_up_before.as_ref().map(|(until, _)| *until), Some(ahead(14)));

    let ache = today(&history(2, PainKind::Ache, (2, 2), false));
    assert_eq!((ache.person(), stopped(&ache.stop_today), notes(&ache)), (Full, "", vec!["E2"]));
    assert!(ache.pain_events.is_empty());
    assert!(ache.no_up_before.is_some(), "may finish the set, but nothing steps up");

    let one_sided = today(&history(2, PainKind::JointOrOneSided, (0, 2), true));
    assert_eq!(one_sided.stop_today.exercises, [ExerciseId::new("RC-3")].into(), "scaption only");
    assert!(!one_sided.stop_today.all_shoulder && one_sided.shoulder(RIGHT) == Full);
    assert_eq!(one_sided.pain_events.len(), 1);

    let six = today(&history(6, PainKind::JointOrOneSided, (0, 6), true));
    assert!(six.stop_today.session);
    assert_eq!(six.shoulder(RIGHT), OutReferred);

    let mut at_night = history(4, PainKind::JointOrOneSided, (0, 4), true);
    at_night.pains[1].signs.insert(Sign::NightPain);
    at_night.pains[1].sign_side = Some(RIGHT);
    let gate = today(&at_night);
    assert_eq!((gate.shoulder(RIGHT), gate.holds[0].urgency), (OutReferred, Some(Urgency::WithinAWeek)));
}

// Story S3: 42 km after four weeks of 31 km on average.
#[test]
fn a_jump_in_water_load_is_a_note() {
    let weeks = |last: f64, before: &[f64]| {
        let mut history = fit(15, Sex::Female);
        for (index, km) in [last].iter().chain(before).enumerate() {
            let from = jiff::civil::date(2026, 3, 9)
                .checked_sub(jiff::ToSpan::days(7 * i64::try_from(index).unwrap()))
                .unwrap();
            history.water_weeks.push(WaterWeek::of(from, *km));
        }
        let gate = today(&history);
        assert_eq!(gate.person(), Full, "a talk, not a ban");
        notes(&gate)
    };
    assert_eq!(weeks(42.0, &[31.0, 30.0, 32.0, 31.0]), ["M1"]);
    assert_eq!(weeks(40.0, &[31.0, 30.0, 32.0, 31.0]), [""; 0]);
    assert_eq!(weeks(42.0, &[31.0, 30.0, 32.0]), [""; 0], "a week that is not on record is not zero");
    assert_eq!(weeks(42.0, &[0.0, 0.0, 0.0, 0.0]), [""; 0], "no share of nothing");
}

#[test]
fn a_set_that_ended_for_pain_without_a_number_is_read_with_caution() {
    for (side, left, right) in [
        (WorkingSide::Right, Full, OutToday),
        (WorkingSide::Left, OutToday, Full),
        (WorkingSide::Both, OutToday, OutToday),
    ] {
        let mut history = fit(15, Sex::Female);
        history.sessions.push(session(TODAY, "RC-1", side, End::Pain));
        let gate = today(&history);
        assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (left, right), "{side:?}");
        assert!(gate.stop_today.all_shoulder);
        assert_eq!((gate.pain_events.len(), gate.pain_events[0].worst), (1, None));
        history.pains.push(joint(TODAY, during("RC-1"), 0, 0));
        assert!(today(&history).stop_today.all_shoulder, "a zero does not explain why it ended");
    }
}

#[test]
fn one_set_without_a_number_is_no_number_for_the_next() {
    for (first, second) in
        [(WorkingSide::Left, WorkingSide::Midline), (WorkingSide::Right, WorkingSide::Midline)]
    {
        let mut history = fit(15, Sex::Female);
        history.sessions.push(session(ago(3), "RC-1", first, End::Pain));
        history.sessions.push(session(ago(3), "RC-1", second, End::Pain));
        let gate = today(&history);
        assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (OutToday, OutToday), "{first:?}");
    }
}

#[test]
fn an_exercise_on_the_floor_may_have_hurt_either_shoulder() {
    let mut history = fit(15, Sex::Female);
    history.sessions.push(session(TODAY, "SC-2", WorkingSide::Midline, End::Pain));
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT)), (OutToday, OutToday));
}

#[test]
fn sets_that_ended_otherwise_say_nothing_about_pain() {
    for end in [End::Cap, End::ChoseToStop, End::Kit, End::Left] {
        let mut history = fit(15, Sex::Female);
        history.sessions.push(session(TODAY, "RC-1", WorkingSide::Right, end.clone()));
        assert_eq!(outcome(&history), Outcome(Full, Full, Full, "", 0), "{end:?}");
    }
}

#[test]
fn a_test_stopped_for_pain_is_a_pain_event() {
    let mut history = fit(15, Sex::Female);
    history.screenings[0].findings.push(Finding {
        key: "er_force".to_owned(),
        side: Some(LEFT),
        outcome: trade::history::Outcome::NotDonePain,
    });
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), gate.shoulder(RIGHT), gate.pain_events.len()), (OutToday, Full, 1));
}

#[test]
fn a_signed_limit_may_cover_one_sided_pain_below_three() {
    let with = |pain: i64, limit: Limit| {
        let mut history = told(joint(TODAY, Before, 0, pain));
        history.limits.push(limit);
        today(&history).shoulder(RIGHT)
    };
    let allows = |side, until, number| Limit {
        allows_pain_up_to: Some(pain_of(number)),
        ..limit(ago(10), until, side)
    };
    assert_eq!(with(2, allows(Some(RIGHT), ahead(10), 2)), Limited);
    assert_eq!(with(2, allows(None, TODAY, 2)), Limited);
    assert_eq!(with(2, allows(Some(RIGHT), ahead(10), 1)), OutToday);
    assert_eq!(with(2, allows(Some(LEFT), ahead(10), 2)), OutToday);
    assert_eq!(with(2, allows(Some(RIGHT), ago(1), 2)), OutToday, "it had run out");
    assert_eq!(with(3, allows(Some(RIGHT), ahead(10), 4)), OutToday, "never from 3 on");
    let mut unlicensed = allows(Some(RIGHT), ahead(10), 2);
    unlicensed.clinician.licence_until = ago(11);
    assert_eq!(with(2, unlicensed), OutToday);
}

#[test]
fn two_answered_pain_free_days_propose_and_a_person_decides() {
    let proposed = |reports: Vec<PainReport>| {
        let mut history = told(joint(ago(5), during("RC-1"), 0, 4));
        history.pains.extend(reports);
        let gate = today(&history);
        assert_eq!(gate.person(), OutToday, "a proposal ends nothing");
        gate.proposed_ends.len()
    };
    assert_eq!(proposed(vec![free(ago(2)), free(ago(1))]), 1);
    assert_eq!(proposed(vec![ache(ago(2), FollowUp, 1, 1), free(ago(1))]), 1, "an ache of 1 passes");
    assert_eq!(proposed(vec![free(ago(2))]), 0, "one day");
    assert_eq!(proposed(vec![free(ago(3)), free(ago(1))]), 0, "a day without an answer between");
    assert_eq!(proposed(vec![free(ago(2)), joint(ago(1), FollowUp, 0, -1)]), 0, "half an answer");
    assert_eq!(proposed(vec![free(ago(2)), joint(ago(1), FollowUp, 0, 1)]), 0, "1 in one shoulder");
    assert_eq!(proposed(vec![free(ago(3)), free(ago(2)), ache(ago(1), FollowUp, 2, 2)]), 0, "it came again");
    assert_eq!(
        proposed(vec![free(ago(2)), joint(ago(2), NextMorning, 0, 1), free(ago(1))]),
        0,
        "that morning"
    );
}

#[test]
fn a_club_may_be_stricter_before_a_session() {
    let mut strict = protocol();
    strict.parameters.pain_pre_out = Pain::new(1).unwrap();
    let history = told(joint(TODAY, Before, 0, 1)).in_order();
    assert_eq!(gate(&strict, &history, TODAY).person(), OutToday);
    let mut lenient = protocol();
    lenient.parameters.pain_pre_out = Pain::new(4).unwrap();
    let history = told(joint(TODAY, Before, 0, 3)).in_order();
    let gate = gate(&lenient, &history, TODAY);
    assert_eq!((gate.person(), gate.shoulder(RIGHT), gate.pain_events.len()), (Full, OutToday, 1));
}

#[test]
fn the_latest_day_without_steps_up_wins() {
    let mut history = told(joint(ago(6), during("RC-1"), 0, 2));
    history.pains.push(joint(TODAY, NextMorning, 0, 1));
    let (until, line) = today(&history).no_up_before.unwrap();
    assert_eq!((until, line.rule.0), (ahead(8), "E9"), "14 days from six days ago, not 7 from today");
    assert!(on(&history, ahead(8)).no_up_before.is_none());
}
