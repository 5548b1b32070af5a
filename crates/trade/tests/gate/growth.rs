//! Growth velocity and its noise, the maturity equations, and the growth hold.

use jiff::ToSpan;
use jiff::civil::{Date, date};
use quantity::{Length, Mass};
use trade::gate::gate;
use trade::gate::growth::{MaturityOffset, Velocity};
use trade::history::*;

use crate::build::*;

// Source: check values of the two equations (Mirwald 2002, Moore 2015), recomputed by hand from the printed
// coefficients; tolerance half a unit of the last digit.
#[test]
fn maturity_equations_give_their_check_values() {
    for (sex, age, height, sitting, mass, first, simplified) in [
        (Sex::Male, 13.0, 156.0, 80.5, 46.0, -0.995, -0.767),
        (Sex::Male, 14.0, 168.0, 86.0, 56.0, 0.217, 0.341),
        (Sex::Female, 12.0, 154.0, 80.0, 44.0, 0.094, 0.095),
        (Sex::Female, 11.0, 146.0, 76.0, 37.0, -0.930, -0.927),
    ] {
        let offset = MaturityOffset::of(
            sex,
            age,
            Length::from_centimetres(height),
            Some(Length::from_centimetres(sitting)),
            Some(Mass::from_kilograms(mass)),
        );
        assert!((offset.first.unwrap() - first).abs() <= 0.0005, "{sex:?} {age}: {:?}", offset.first);
        assert!(
            (offset.simplified.unwrap() - simplified).abs() <= 0.0005,
            "{sex:?} {age}: {:?}",
            offset.simplified
        );
    }
}

#[test]
fn an_offset_needs_what_its_equation_needs() {
    let height = Length::from_centimetres(156.0);
    let boy = MaturityOffset::of(Sex::Male, 13.0, height, None, Some(Mass::from_kilograms(46.0)));
    assert_eq!((boy.first, boy.simplified), (None, None));
    let girl = MaturityOffset::of(Sex::Female, 12.0, height, None, None);
    assert!(girl.first.is_none() && girl.simplified.is_some());
}

// Source: 0.3 cm a reading gives standard errors of 1.7, 1.3 and 0.85 cm a year over 3, 4 and 6 months; tolerance
// half a unit of the last digit.
#[test]
fn velocity_over_a_short_span_is_mostly_noise() {
    for (days, expected, tolerance) in [(91, 1.7, 0.05), (122, 1.3, 0.05), (183, 0.85, 0.005)] {
        let from = date(2025, 9, 1);
        let later = from.checked_add(days.days()).unwrap();
        let velocity = Velocity::between(&measure(from, 150.0), &measure(later, 152.0)).unwrap();
        let error = velocity.standard_error;
        assert!((error - expected).abs() <= tolerance, "{days}: {error}");
        assert!((velocity.half_width() / error - 1.96).abs() < 1e-12);
    }
    assert_eq!(Velocity::between(&measure(TODAY, 150.0), &measure(TODAY, 151.0)), None);
    let fast = Velocity::between(&measure(ago(150), 150.0), &measure(TODAY, 153.5)).unwrap();
    assert!((fast.cm_per_year - 8.5).abs() < 0.05 && (fast.half_width() - 2.0).abs() < 0.05);
}

/// A boy far from his spurt, so that height alone decides: without sitting height no offset can be told.
fn boy(measures: &[(i64, f64)]) -> History {
    let mut history = fit(13, Sex::Male);
    history.growth = measures.iter().map(|(days, height)| measure(ago(*days), *height)).collect();
    history
}

fn hold_of(history: &History, day: Date) -> Option<(Date, u16, bool, &'static str)> {
    on(history, day).tracks.growth.map(|hold| (hold.since, hold.week, hold.pain_free, hold.line.rule.0))
}

#[test]
fn fast_growth_starts_the_hold_on_the_measuring_day() {
    // 3.0 cm in 150 days are 7.3 cm a year, 2.8 cm are 6.8.
    assert_eq!(hold_of(&boy(&[(150, 150.0), (0, 153.0)]), TODAY), Some((TODAY, 1, true, "W1")));
    assert_eq!(hold_of(&boy(&[(150, 150.0), (0, 152.8)]), TODAY), None);
    assert_eq!(hold_of(&boy(&[(80, 150.0), (0, 153.0)]), TODAY), None, "less than 85 days say nothing");
    assert_eq!(hold_of(&boy(&[(180, 150.0), (30, 153.0)]), TODAY), Some((ago(30), 5, true, "W1")));
}

#[test]
fn the_earlier_height_is_the_one_closest_to_five_months_back() {
    // Against 150 days back 8.5 cm a year; against 90 or 330 days back far less.
    let history = boy(&[(330, 150.0), (150, 150.0), (90, 153.0), (0, 153.5)]);
    assert_eq!(hold_of(&history, TODAY), Some((TODAY, 1, true, "W1")));
    let history = boy(&[(330, 146.0), (150, 152.0), (90, 151.0), (0, 153.5)]);
    assert_eq!(hold_of(&history, TODAY), None);
}

#[test]
fn a_spurt_starts_the_hold_without_a_second_height() {
    let mut girl = fit(12, Sex::Female);
    girl.swimmer.born = date(2014, 3, 18);
    girl.growth = vec![body(TODAY, 154.0, 80.0, 44.0)];
    assert_eq!(hold_of(&girl, TODAY), Some((TODAY, 1, true, "W2")));
    girl.growth = vec![body(TODAY, 140.0, 73.0, 33.0)];
    assert_eq!(hold_of(&girl, TODAY), None);
    girl.swimmer.sex = Sex::Unstated;
    girl.growth = vec![body(TODAY, 154.0, 80.0, 44.0)];
    assert!(hold_of(&girl, TODAY).is_some(), "where the sex is not stated both equations are read");
}

#[test]
fn clumsiness_or_pain_at_a_tendon_starts_the_hold_under_18() {
    for (age, one, expected) in [
        (13, Sign::Clumsiness, true),
        (13, Sign::TendonSitePain, true),
        (13, Sign::PoorSleep, false),
        (17, Sign::Clumsiness, true),
        (18, Sign::Clumsiness, false),
    ] {
        let mut history = fit(age, Sex::Male);
        history.pains.push(sign(ago(7), one, None));
        assert_eq!(hold_of(&history, TODAY).is_some(), expected, "{age} {}", one.word());
    }
}

#[test]
fn the_hold_ends_after_three_quiet_months() {
    let mut history = boy(&[(150, 150.0), (0, 153.5)]);
    assert_eq!(hold_of(&history, ahead(28)), Some((TODAY, 5, true, "W1")));
    assert!(hold_of(&history, ahead(90)).is_some());
    assert_eq!(hold_of(&history, ahead(91)), None);
    history.pains.push(joint(ahead(40), during("RC-1"), 0, 2));
    assert_eq!(
        hold_of(&history, ahead(100)),
        Some((TODAY, 15, false, "W1")),
        "a pain event begins the wait anew"
    );
    assert_eq!(hold_of(&history, ahead(131)), None);
}

#[test]
fn the_hold_ends_when_growth_is_slow_and_the_spurt_is_known_to_be_past() {
    let later = |sitting: Option<f64>| {
        let mut history = boy(&[(150, 150.0), (0, 153.5)]);
        let mut slow = measure(ahead(90), 154.0);
        slow.sitting = sitting.map(Length::from_centimetres);
        history.growth.push(slow);
        // Judged a day before the three months would end it anyway.
        hold_of(&history, ahead(90))
    };
    assert_eq!(later(Some(78.0)), None, "simplified offset about -0.9");
    assert!(later(None).is_some(), "slow, but where the spurt stands is not known");
    assert!(later(Some(84.0)).is_some(), "slow, but within half a year of the spurt");
}

#[test]
fn measuring_again_in_a_hold_does_not_start_its_weeks_anew_but_a_report_does() {
    let mut history = boy(&[(150, 150.0), (0, 153.5)]);
    history.growth.push(measure(ahead(42), 155.0));
    assert_eq!(hold_of(&history, ahead(42)), Some((TODAY, 7, true, "W1")));
    history.pains.push(sign(ahead(40), Sign::Clumsiness, None));
    assert_eq!(hold_of(&history, ahead(42)), Some((ahead(40), 1, true, "W3")));
    history.pains.clear();
    history.pains.push(sign(ago(40), Sign::Clumsiness, None));
    assert_eq!(
        hold_of(&history, TODAY),
        Some((TODAY, 1, true, "W1")),
        "an older report never makes it milder"
    );
}

#[test]
fn a_club_may_set_another_speed() {
    let mut patient = shipped_with(9.0);
    let history = boy(&[(150, 150.0), (0, 153.5)]).in_order();
    assert!(gate(&patient, &history, TODAY).tracks.growth.is_none());
    patient.parameters.growth_velocity_cm_y = 8.0;
    assert!(gate(&patient, &history, TODAY).tracks.growth.is_some());
}

fn shipped_with(velocity: f64) -> trade::protocol::Protocol {
    let mut protocol = protocol();
    protocol.parameters.growth_velocity_cm_y = velocity;
    protocol
}
