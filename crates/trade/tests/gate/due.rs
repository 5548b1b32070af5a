//! What is due, by when, and which fact closes it.

use jiff::civil::{Date, date};
use trade::due::{Due, Kind, Owner, due};
use trade::history::PainWhen::*;
use trade::history::*;
use trade::protocol::read::shipped;

use crate::build::*;

fn list(history: &History, on: Date, next_practice: Option<Date>) -> Vec<Due> {
    due(shipped(), &history.clone().in_order(), on, next_practice)
}

/// Dates of one kind, on the day asked about.
fn of(history: &History, kind: Kind) -> Vec<Date> {
    list(history, TODAY, None).into_iter().filter(|due| due.kind == kind).map(|due| due.by).collect()
}

fn told(reports: Vec<PainReport>) -> History {
    let mut history = fit(15, Sex::Female);
    history.growth.push(measure(ago(10), 165.0));
    history.pains = reports;
    history
}

#[test]
fn nothing_is_due_for_somebody_in_order() {
    assert_eq!(list(&told(vec![]), TODAY, None), []);
}

#[test]
fn after_a_pain_event_somebody_asks_the_next_morning_and_after_a_week() {
    let event = || joint(ago(3), during("RC-3"), 0, 4);
    let history = told(vec![event()]);
    assert_eq!(
        (of(&history, Kind::NextMorning), of(&history, Kind::SevenDays)),
        (vec![ago(2)], vec![ahead(4)])
    );
    let answered = told(vec![event(), joint(ago(2), NextMorning, 0, 1)]);
    assert_eq!((of(&answered, Kind::NextMorning), of(&answered, Kind::SevenDays)), (vec![], vec![ahead(4)]));
    let half = told(vec![event(), joint(ago(2), NextMorning, 0, -1)]);
    assert_eq!(of(&half, Kind::NextMorning), [ago(2)], "the shoulder that hurt was not answered");
    let week = told(vec![joint(ago(8), during("RC-3"), 0, 4), free(ago(1))]);
    assert_eq!((of(&week, Kind::NextMorning), of(&week, Kind::SevenDays)), (vec![], vec![]));
}

#[test]
fn a_minors_guardian_is_told_the_same_day() {
    let cases = [
        (vec![joint(ago(2), during("RC-3"), 0, 4)], vec![ago(2)], "a pain event"),
        (vec![sign(ago(2), Sign::Tingling, Some(RIGHT))], vec![ago(2)], "a sign"),
        (vec![sign(ago(2), Sign::PoorSleep, None)], vec![], "a talk"),
        (vec![joint(ago(2), Before, 0, 1)], vec![], "one-sided 1-2 once"),
        (vec![joint(ago(9), Before, 0, 1), joint(ago(2), Before, 2, 0)], vec![ago(2)], "twice in the window"),
        (vec![joint(ago(17), Before, 0, 1), joint(ago(2), Before, 2, 0)], vec![], "fifteen days apart"),
        (vec![ache(ago(9), Before, 1, 1), ache(ago(2), Before, 1, 1)], vec![], "ache"),
    ];
    for (reports, expected, name) in cases {
        let mut history = told(reports);
        assert_eq!(of(&history, Kind::TellGuardian), expected, "{name}");
        history.guardian_told.push(GuardianTold { date: ago(3), by: "P".to_owned() });
        assert_eq!(of(&history, Kind::TellGuardian), expected, "{name}: told before it happened");
        history.guardian_told.push(GuardianTold { date: ago(2), by: "P".to_owned() });
        assert_eq!(of(&history, Kind::TellGuardian), [], "{name}");
    }
    let mut adult = fit(19, Sex::Female);
    adult.pains = vec![joint(ago(2), during("RC-3"), 0, 4)];
    assert_eq!(of(&adult, Kind::TellGuardian), []);
}

#[test]
fn a_referral_is_written_as_soon_as_its_urgency_asks() {
    for (one, by) in
        [(Sign::ArmSwollenBlueOrCold, ago(2)), (Sign::SuddenWeakness, ago(1)), (Sign::Tingling, ahead(5))]
    {
        let mut history = told(vec![sign(ago(2), one, Some(RIGHT))]);
        let open: Vec<Due> =
            list(&history, TODAY, None).into_iter().filter(|due| due.kind == Kind::WriteReferral).collect();
        assert_eq!(open.len(), 1, "{}", one.word());
        assert_eq!((open[0].by, open[0].side), (by, Some(RIGHT)), "{}", one.word());
        let referral = |side| Referral { opened: ago(1), side, urgency: one.urgency(), answered: None };
        history.referrals.push(referral(Some(LEFT)));
        assert_eq!(of(&history, Kind::WriteReferral), [by], "the other shoulder's letter");
        history.referrals.push(referral(Some(RIGHT)));
        assert_eq!(of(&history, Kind::WriteReferral), []);
    }
}

#[test]
fn a_referral_without_an_answer_is_asked_about() {
    let with = |answered, urgency| {
        let mut history = told(vec![]);
        history.referrals.push(Referral { opened: ago(9), side: None, urgency, answered });
        of(&history, Kind::ReferralAnswer)
    };
    assert_eq!(with(None, Urgency::WithinAWeek), [ago(2)]);
    assert_eq!(with(None, Urgency::SameDay), [ago(8)]);
    assert_eq!(with(Some(ago(1)), Urgency::WithinAWeek), []);
    assert_eq!(with(Some(ahead(1)), Urgency::WithinAWeek), [ago(2)]);
}

#[test]
fn the_water_is_decided_before_the_next_practice() {
    let mut history = told(vec![joint(ago(1), Before, 0, 2)]);
    let by = |history: &History, next| {
        let all = list(history, TODAY, next);
        all.into_iter().find(|due| due.kind == Kind::Water).map(|due| (due.by, due.owner))
    };
    assert_eq!(by(&history, Some(ahead(2))), Some((ahead(2), Owner::Practitioner)));
    assert_eq!(by(&history, None), Some((TODAY, Owner::Practitioner)));
    let advice = |date| WaterAdvice { date, advice: "legs only".to_owned(), by: "P".to_owned() };
    history.water_advice.push(advice(ago(2)));
    assert!(by(&history, None).is_some(), "from before it began");
    history.water_advice.push(advice(ago(1)));
    assert_eq!(by(&history, None), None);
    history.pains.push(joint(TODAY, During(None), 4, 0));
    assert!(by(&history, None).is_some(), "a new hold asks anew");
}

#[test]
fn who_is_only_missing_papers_needs_no_word_about_the_water() {
    let mut history = told(vec![]);
    history.screenings.clear();
    assert_eq!(of(&history, Kind::Water), []);
    assert_eq!(of(&history, Kind::Screening).len(), 1);
}

#[test]
fn an_end_is_confirmed_or_refused_by_a_person() {
    let mut history = told(vec![joint(ago(4), Before, 0, 2), free(ago(2)), free(ago(1))]);
    let open: Vec<Due> =
        list(&history, TODAY, None).into_iter().filter(|due| due.kind == Kind::ConfirmEnd).collect();
    assert_eq!((open.len(), open[0].by, open[0].side), (1, TODAY, Some(RIGHT)));
    history.reopenings.push(reopening(TODAY, Some(RIGHT)));
    assert_eq!(of(&history, Kind::ConfirmEnd), []);
}

// Story S18 and what comes before it.
#[test]
fn consent_is_asked_for_in_time() {
    let signed = |day: Date| {
        let mut history = told(vec![]);
        history.consents = vec![consent(day, "mother")];
        history
    };
    assert_eq!(of(&signed(date(2025, 3, 15)), Kind::Consent), [date(2026, 3, 15)], "run out");
    assert_eq!(of(&signed(date(2025, 4, 17)), Kind::Consent), [date(2026, 4, 17)], "thirty days ahead");
    assert_eq!(of(&signed(date(2025, 4, 18)), Kind::Consent), [], "thirty-one days ahead");
    let mut never = told(vec![]);
    never.consents.clear();
    assert_eq!(of(&never, Kind::Consent), [TODAY]);
    let mut withdrawn = signed(ago(60));
    withdrawn.consents[0].withdrawn = Some(ago(1));
    assert_eq!(of(&withdrawn, Kind::Consent), [], "taking back is an answer");
    let mut soon_18 = signed(ago(60));
    soon_18.swimmer.born = date(2008, 4, 1);
    assert_eq!(of(&soon_18, Kind::Consent), [date(2026, 4, 1)]);
    soon_18.consents.push(consent(ago(1), "self"));
    assert_eq!(of(&soon_18, Kind::Consent), []);
}

#[test]
fn missing_questions_and_a_missing_screening_are_listed() {
    let mut history = told(vec![]);
    history.intakes[0].operation = None;
    assert_eq!(of(&history, Kind::Intake), [TODAY]);
    history.intakes.clear();
    assert_eq!(of(&history, Kind::Intake), [TODAY]);
    history.screenings.clear();
    history.swimmer.programme_started = Some(ago(4));
    assert_eq!(of(&history, Kind::Screening), [ahead(10)], "a late joiner has two weeks");
}

#[test]
fn a_limit_is_listed_two_weeks_before_it_ends() {
    for (until, expected) in [(ahead(14), vec![ahead(14)]), (ahead(15), vec![])] {
        let mut history = told(vec![]);
        history.limits.push(limit(ago(5), until, Some(RIGHT)));
        assert_eq!(of(&history, Kind::LimitEnds), expected);
        history.limits.push(limit(ago(1), ahead(40), Some(RIGHT)));
        assert_eq!(of(&history, Kind::LimitEnds), [], "followed by another");
    }
}

#[test]
fn growth_is_measured_every_three_to_four_months() {
    let measured = |age, day: Option<Date>| {
        let mut history = fit(age, Sex::Male);
        history.growth.extend(day.map(|day| measure(day, 165.0)));
        of(&history, Kind::Growth)
    };
    assert_eq!(measured(13, None), [TODAY]);
    assert_eq!(measured(13, Some(date(2025, 12, 18))), [date(2026, 4, 18)]);
    assert_eq!(measured(13, Some(date(2025, 12, 19))), []);
    assert_eq!(measured(8, None), []);
    assert_eq!(measured(18, None), []);
    let mut in_hold = fit(13, Sex::Male);
    in_hold.growth = vec![measure(ago(180), 150.0), measure(ago(30), 153.5)];
    assert_eq!(of(&in_hold, Kind::Growth), [ahead(12)], "six weeks into the hold");
}

#[test]
fn a_retest_is_due_twelve_weeks_after_the_last_screening() {
    let screened = |days, right| {
        let mut history = told(vec![]);
        history.screenings =
            vec![screening(ago(days), &[("er_force", 100.0, right), ("ir_force", 100.0, 100.0)])];
        of(&history, Kind::Retest)
    };
    assert_eq!(screened(55, 100.0), []);
    assert_eq!(screened(56, 100.0), [ahead(28)]);
    assert_eq!(screened(90, 100.0), [ago(6)]);
    assert_eq!(screened(10, 80.0), [ahead(32)], "six weeks where one arm is weaker");
}

#[test]
fn talks_are_listed_until_somebody_has_followed_up() {
    let mut history = told(vec![sign(ago(2), Sign::UnderEating, None)]);
    assert_eq!(of(&history, Kind::Talk), [ahead(5)]);
    history.pains.push(free(ago(1)));
    assert_eq!(of(&history, Kind::Talk), []);
}

#[test]
fn the_earliest_comes_first() {
    let mut history = told(vec![joint(ago(3), during("RC-3"), 0, 6), sign(ago(1), Sign::Worry, None)]);
    history.consents = vec![consent(date(2025, 3, 25), "mother")];
    history.screenings.clear();
    let all = list(&history, TODAY, Some(ahead(1)));
    assert!(6 <= all.len());
    assert!(all.windows(2).all(|pair| (pair[0].by, pair[0].kind) <= (pair[1].by, pair[1].kind)));
}
