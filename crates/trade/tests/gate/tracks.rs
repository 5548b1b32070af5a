//! Youth, newcomers, and signed limits.

use quantity::HoldTime;
use trade::gate::Availability::*;
use trade::history::*;
use trade::protocol::Tag;

use crate::build::*;

// Story S11: 12.1 years, first season, nothing found.
#[test]
fn a_twelve_year_old_beginner_is_let_in_on_careful_tracks() {
    let mut history = fit(12, Sex::Female);
    history.swimmer.experience = Experience::Beginner;
    history.swimmer.programme_started = Some(ago(5));
    let gate = today(&history);
    assert_eq!(gate.person(), Full);
    assert!(gate.tracks.youth.is_some() && gate.tracks.newcomer.is_some());
    assert!(
        gate.tracks.growth.is_none() && gate.tracks.hypermobile.is_none() && gate.tracks.reentry.is_none()
    );
}

// Story S11, edge: a velocity of 8 cm a year from the start.
#[test]
fn fast_growth_at_the_start_is_a_hold_from_the_start() {
    let mut history = fit(12, Sex::Female);
    history.growth = vec![measure(ago(150), 140.0), measure(TODAY, 143.3)];
    let gate = today(&history);
    assert_eq!((gate.person(), gate.tracks.growth.map(|hold| hold.week)), (Full, Some(1)));
}

#[test]
fn youth_ends_on_the_fourteenth_birthday() {
    let mut history = fit(13, Sex::Female);
    history.swimmer.born = jiff::civil::date(2012, 3, 18);
    assert!(on(&history, ago(1)).tracks.youth.is_some());
    assert!(today(&history).tracks.youth.is_none());
}

#[test]
fn the_first_six_weeks_are_careful() {
    for (started, expected) in [
        (None, true),
        (Some(ahead(3)), true),
        (Some(TODAY), true),
        (Some(ago(41)), true),
        (Some(ago(42)), false),
    ] {
        let mut history = fit(20, Sex::Male);
        history.swimmer.programme_started = started;
        assert_eq!(today(&history).tracks.newcomer.is_some(), expected, "{started:?}");
    }
}

#[test]
fn a_signed_limit_is_in_force_to_its_last_day() {
    for (signed, until, expected) in [
        (ago(10), TODAY, Limited),
        (TODAY, ahead(10), Limited),
        (ago(10), ago(1), Full),
        (ahead(1), ahead(10), Full),
    ] {
        let mut history = fit(16, Sex::Male);
        let mut limit = limit(signed, until, Some(RIGHT));
        limit.locked_tags.insert(Tag::Overhead);
        limit.cap = Some(HoldTime::from_seconds(60.0));
        history.limits.push(limit);
        let gate = today(&history);
        assert_eq!((gate.shoulder(RIGHT), gate.shoulder(LEFT)), (expected, Full), "{signed} {until}");
        assert_eq!(gate.limits.len(), usize::from(expected == Limited));
    }
}

#[test]
fn a_limit_without_a_valid_licence_restricts_but_permits_nothing() {
    let mut history = fit(16, Sex::Male);
    let mut limit = limit(ago(5), ahead(10), None);
    limit.clinician.licence_until = ago(6);
    limit.locked_tags.insert(Tag::Overhead);
    limit.allows_pain_up_to = Some(pain_of(2));
    history.limits.push(limit);
    let gate = today(&history);
    assert_eq!((gate.shoulder(LEFT), notes(&gate)), (Limited, vec!["G12"]));
    assert!(gate.limits[0].locked_tags.contains(&Tag::Overhead));
    assert_eq!(gate.limits[0].allows_pain_up_to, None);
}
