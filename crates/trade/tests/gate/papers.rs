//! Consent, intake, screening, and what others have said.

use jiff::civil::{Date, date};
use trade::gate::Availability::*;
use trade::gate::{EndsBy, gate};
use trade::history::*;

use crate::build::*;

#[test]
fn with_every_paper_in_order_nothing_holds_back() {
    for (age, sex) in [(11, Sex::Female), (16, Sex::Male), (25, Sex::Unstated)] {
        let gate = today(&fit(age, sex));
        assert_eq!((gate.person(), gate.shoulder(LEFT), gate.shoulder(RIGHT)), (Full, Full, Full), "{age}");
        assert_eq!(codes(&gate), [""; 0], "{age}");
    }
}

#[test]
fn nobody_takes_part_without_any_record() {
    let history = History::new(fit(15, Sex::Female).swimmer);
    let gate = today(&history);
    assert_eq!(gate.person(), NotYet);
    assert_eq!(codes(&gate), ["G1", "G5", "G5", "G5", "G5", "G8"]);
    assert!(gate.holds.iter().all(|hold| hold.ends_by == EndsBy::Record));
}

// Story S18: a consent of twelve months and three days.
#[test]
fn a_consent_holds_to_the_same_day_of_the_year_after_and_no_longer() {
    for (signed, expected) in [
        (date(2025, 3, 15), NotYet),
        (date(2025, 3, 17), NotYet),
        (date(2025, 3, 18), Full),
        (date(2025, 3, 19), Full),
    ] {
        let mut history = fit(15, Sex::Female);
        history.consents = vec![consent(signed, "mother")];
        let gate = today(&history);
        assert_eq!(gate.person(), expected, "signed {signed}");
        assert_eq!(codes(&gate).contains(&"G2"), expected == NotYet, "signed {signed}");
    }
}

#[test]
fn a_consent_of_a_leap_day_ends_on_the_last_of_february() {
    let mut history = fit(15, Sex::Female);
    history.consents = vec![consent(date(2024, 2, 29), "mother")];
    history.intakes = vec![intake(date(2024, 2, 29))];
    history.screenings = vec![screening(date(2024, 2, 29), &[])];
    assert_eq!(on(&history, date(2025, 2, 28)).person(), Full);
    assert_eq!(on(&history, date(2025, 3, 1)).person(), NotYet);
}

#[test]
fn joining_without_a_record_is_a_note_and_leaves_not_yet_in_place() {
    let mut history = fit(15, Sex::Female);
    history.consents = vec![consent(date(2025, 3, 15), "mother")];
    let mut lenient = protocol();
    assert!(!lenient.parameters.join_without_consent, "the default is no");
    lenient.parameters.join_without_consent = true;
    let gate = gate(&lenient, &history.in_order(), TODAY);
    assert_eq!(gate.person(), NotYet);
    assert!(gate.notes.iter().any(|line| line.says == "gate-join-without-record"));
}

// Story S11, edge: consent item 3 missing.
#[test]
fn only_the_three_needed_items_matter() {
    for item in ConsentItem::ALL {
        let mut history = fit(12, Sex::Female);
        history.consents[0].granted.retain(|granted| *granted != item);
        let expected = if ConsentItem::NEEDED.contains(&item) { NotYet } else { Full };
        assert_eq!(today(&history).person(), expected, "{}", item.word());
    }
}

#[test]
fn a_newer_consent_replaces_the_older_one_as_a_whole() {
    let mut history = fit(12, Sex::Female);
    history.consents.push(Consent { granted: vec![ConsentItem::Photo], ..consent(ago(3), "father") });
    assert_eq!(codes(&today(&history)), ["G1", "G1", "G1"]);
}

#[test]
fn papers_of_one_day_count_only_where_they_agree() {
    let mut history = fit(12, Sex::Female);
    let mut fathers = consent(history.consents[0].signed, "father");
    fathers.granted.retain(|item| *item != ConsentItem::Exercise);
    history.consents.push(fathers);
    assert_eq!(codes(&today(&history)), ["G1"]);
}

#[test]
fn a_childs_own_signature_is_agreement_and_replaces_nothing() {
    let mut history = fit(15, Sex::Female);
    history.consents.push(Consent { granted: vec![ConsentItem::Assent], ..consent(ago(3), "self") });
    assert_eq!(today(&history).person(), Full);
    history.consents.remove(0);
    assert_eq!(codes(&today(&history)), ["G1"], "alone it opens nothing");
}

#[test]
fn taking_back_acts_from_that_day_on() {
    for (withdrawn, renewed, expected) in [
        (Some(TODAY), None, NotYet),
        (Some(ago(10)), None, NotYet),
        (Some(ahead(1)), None, Full),
        (Some(ago(10)), Some(ago(9)), Full),
        (Some(ago(10)), Some(ago(10)), Full),
        (Some(ago(10)), Some(ago(11)), NotYet),
    ] {
        let mut history = fit(15, Sex::Male);
        history.consents[0].withdrawn = withdrawn;
        history.consents.extend(renewed.map(|day| consent(day, "mother")));
        assert_eq!(today(&history).person(), expected, "{withdrawn:?} {renewed:?}");
    }
}

#[test]
fn from_the_eighteenth_birthday_on_only_the_own_signature_counts() {
    let birthday = date(2026, 3, 18);
    let mut history = fit(17, Sex::Male);
    history.swimmer.born = date(2008, 3, 18);
    assert_eq!(on(&history, ago(1)).person(), Full);
    assert_eq!(codes(&on(&history, birthday)), ["G4"]);
    history.consents.push(consent(birthday, "self"));
    assert_eq!(on(&history, birthday).person(), Full);
}

type Blank = fn(&mut Intake);

#[test]
fn an_intake_question_without_an_answer_is_not_a_no() {
    let blanks: [(&str, Blank); 4] = [
        ("pain", |intake| intake.shoulder_pain_12_months = None),
        ("dislocation", |intake| intake.dislocation_or_slipping = None),
        ("operation", |intake| intake.operation = None),
        ("signs", |intake| intake.signs_asked = false),
    ];
    for (name, blank) in blanks {
        let mut history = fit(15, Sex::Female);
        blank(&mut history.intakes[0]);
        let gate = today(&history);
        assert_eq!((gate.person(), codes(&gate)), (NotYet, vec!["G5"]), "{name}");
    }
}

// Story S9, edge: "it slipped out last month".
#[test]
fn a_shoulder_that_came_out_or_was_operated_on_waits_for_a_letter() {
    let dislocated: Blank = |intake| intake.dislocation_or_slipping = Some(true);
    let operated: Blank = |intake| intake.operation = Some(true);
    for (code, injury, yes) in
        [("G6", InjuryKind::Dislocation, dislocated), ("G7", InjuryKind::Operation, operated)]
    {
        let told = |letters: &[(Date, Option<trade::side::Side>, Option<InjuryKind>)]| {
            let mut history = fit(15, Sex::Female);
            yes(&mut history.intakes[0]);
            for (day, side, injury) in letters {
                history.clearances.push(Clearance { injury: *injury, ..letter(*day, *side) });
            }
            let gate = today(&history);
            let held = gate.holds.iter().find(|hold| hold.line.rule.0 == code).map(|hold| hold.side);
            (held, gate.person())
        };
        assert_eq!(told(&[]), (Some(None), OutReferred));
        assert_eq!(
            told(&[(ago(61), None, Some(injury))]),
            (Some(None), OutReferred),
            "older than the answer"
        );
        assert_eq!(told(&[(ago(5), None, None)]).0, None);
        assert_eq!(told(&[(ago(5), Some(RIGHT), Some(injury))]).0, None, "the letter names the injury");
        assert_eq!(told(&[(ago(5), Some(RIGHT), None)]).0, Some(Some(LEFT)), "a letter for one shoulder");
        assert_eq!(told(&[(ago(5), Some(RIGHT), None), (ago(4), Some(LEFT), None)]).0, None);
    }
}

#[test]
fn a_later_no_does_not_take_back_an_ever() {
    let mut history = fit(15, Sex::Female);
    history.intakes[0].dislocation_or_slipping = Some(true);
    history.intakes.push(intake(ago(2)));
    assert_eq!(codes(&today(&history)), ["G6"]);
}

#[test]
fn pain_in_the_year_before_is_watched_and_holds_nobody_back() {
    let mut history = fit(15, Sex::Female);
    history.intakes[0].shoulder_pain_12_months = Some(true);
    let gate = today(&history);
    assert_eq!((gate.person(), notes(&gate)), (Full, vec!["C6"]));
}

#[test]
fn facts_of_a_later_day_do_not_exist_yet() {
    let mut history = fit(15, Sex::Female);
    history.pains.push(joint(ahead(1), PainWhen::Before, 6, 0));
    history.bans.push(Ban { from: ahead(1), until: None, by: "Dr Sample".to_owned() });
    history.illnesses.push(Illness { from: ahead(1), fever: true, bed_days: None, symptom_free_from: None });
    history.screenings.push(Screening { visible_hollow: vec![LEFT], ..screening(ahead(1), &[]) });
    assert_eq!(today(&history), today(&fit(15, Sex::Female)));
    assert_eq!(on(&history, ahead(1)).person(), OutToday);
    assert_eq!(on(&history, ahead(1)).shoulder(LEFT), OutReferred);
}

// Story S5, edge: fever in the gap.
#[test]
fn after_a_fever_two_days_without_symptoms_come_first() {
    for (fever, free, expected) in [
        (true, None, OutToday),
        (true, Some(ahead(1)), OutToday),
        (true, Some(TODAY), OutToday),
        (true, Some(ago(1)), OutToday),
        (true, Some(ago(2)), Full),
        (false, None, Full),
    ] {
        let mut history = fit(14, Sex::Female);
        history.illnesses.push(Illness { from: ago(9), fever, bed_days: Some(2), symptom_free_from: free });
        let gate = today(&history);
        assert_eq!(gate.person(), expected, "{fever} {free:?}");
        let known = free.is_some_and(|day| day <= TODAY);
        for hold in &gate.holds {
            assert_eq!(hold.ends_by, if known { EndsBy::Date } else { EndsBy::Record });
        }
    }
}

#[test]
fn a_ban_holds_on_its_last_day_and_not_after() {
    for (until, expected) in [(None, OutToday), (Some(TODAY), OutToday), (Some(ago(1)), Full)] {
        let mut history = fit(14, Sex::Female);
        history.bans.push(Ban { from: ago(9), until, by: "Dr Sample".to_owned() });
        assert_eq!(today(&history).person(), expected, "{until:?}");
    }
}

#[test]
fn an_open_referral_holds_its_own_shoulder_until_it_is_answered_or_cleared() {
    let referral =
        |answered| Referral { opened: ago(5), side: Some(RIGHT), urgency: Urgency::WithinAWeek, answered };
    let held = |answered, cleared: Option<Option<trade::side::Side>>| {
        let mut history = fit(14, Sex::Female);
        history.referrals.push(referral(answered));
        history.clearances.extend(cleared.map(|side| letter(ago(1), side)));
        let gate = today(&history);
        assert_eq!(gate.shoulder(LEFT), Full);
        gate.shoulder(RIGHT)
    };
    assert_eq!(held(None, None), OutReferred);
    assert_eq!(held(Some(ahead(1)), None), OutReferred);
    assert_eq!(held(Some(ago(1)), None), Full);
    assert_eq!(held(None, Some(Some(RIGHT))), Full);
    assert_eq!(held(None, Some(None)), Full);
    assert_eq!(held(None, Some(Some(LEFT))), OutReferred);
}

#[test]
fn the_three_questions_count_as_answered_only_for_both_shoulders_today() {
    for (told, expected) in [
        (joint(TODAY, PainWhen::Before, 0, 0), true),
        (joint(TODAY, PainWhen::Before, 0, -1), false),
        (joint(TODAY, PainWhen::NextMorning, 0, 0), false),
        (joint(ago(1), PainWhen::Before, 0, 0), false),
    ] {
        let mut history = fit(14, Sex::Female);
        history.pains.push(told.clone());
        assert_eq!(today(&history).questions_answered, expected, "{told:?}");
    }
}
