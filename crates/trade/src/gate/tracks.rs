//! Tracks: each only ever makes the dose more careful, and several can hold at once.

use jiff::civil::Date;

use super::moments::Moment;
use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate, Hold, Reentry, growth};
use crate::history::{Clearance, InjuryKind, Sex, Sign, days_between};
use crate::rule::gate_rules as codes;
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Age in whole years below which the youth track holds; fixed.
const YOUTH_BELOW: i16 = 14;
/// Age to which the laxity cut for women was studied: mobilex_elig. Older women get the lower cut of the two.
const WOMAN_TO: i16 = 50;
/// Largest difference of range to the other side at a return, degrees: common practice.
const RETURN_RANGE_GAP_DEG: f64 = 10.0;
/// Least strength at a return, as a share of the other side: common practice.
const RETURN_STRENGTH_SHARE: f64 = 0.9;
/// Least weeks at half of the usual water without pain: common practice.
const RETURN_WATER_WEEKS: f64 = 1.0;
/// Days of the written way back, to the first step up: common practice.
const RETURN_DAYS: u16 = 28;

pub(super) fn judge(record: &Record<'_>, moments: &[Moment], gate: &mut Gate) {
    let age = record.age();
    if age < YOUTH_BELOW {
        let line = Line::new(codes::W4, "gate-youth", Class::Dose).with("age", Arg::Count(age.into()));
        gate.tracks.youth = Some(line);
    }
    gate.tracks.hypermobile = unstable(record).or_else(|| lax(record));
    gate.tracks.growth = growth::hold(record, moments);
    gate.tracks.newcomer = newcomer(record);
    gate.tracks.reentry = reentry(record, gate);
    if gate.tracks.hypermobile.is_some() {
        // Lax shoulders are not stretched, whatever one side lacks.
        gate.with_finding.clear();
    }
}

/// The lowest laxity score that puts this person on the track. Where the sex is not stated the lower cut is used.
fn laxity_cut(record: &Record<'_>) -> u8 {
    let parameters = record.parameters();
    let (girl, boy) = (parameters.beighton_cut_girls, parameters.beighton_cut_u18);
    let (woman, man) = (parameters.beighton_cut_woman, parameters.beighton_cut_man);
    match (record.swimmer.sex, record.age()) {
        (Sex::Female, ..=17) => girl,
        (Sex::Male, ..=17) => boy,
        (Sex::Unstated, ..=17) => girl.min(boy),
        (Sex::Female, 18..=WOMAN_TO) => woman,
        (Sex::Male, _) => man,
        (Sex::Female | Sex::Unstated, _) => woman.min(man),
    }
}

fn lax(record: &Record<'_>) -> Option<Line> {
    let (screening, score) = record
        .newest_screenings()
        .find_map(|screening| Some((screening, screening.measured("beighton", None)?)))?;
    let cut = laxity_cut(record);
    (f64::from(cut) <= score).then(|| {
        Line::new(codes::L1, "gate-lax", Class::Health)
            .with("score", Arg::Number(score, 0))
            .with("cut", Arg::Count(cut.into()))
            .with("date", Arg::Date(screening.date))
    })
}

/// A shoulder that slipped or came out, ever: careful for good, cleared or not.
fn unstable(record: &Record<'_>) -> Option<Line> {
    let is_story =
        |sign: &Sign| matches!(sign, Sign::Slipping | Sign::CameOutAndBack | Sign::ShoulderStillOut);
    let reported =
        record.pains.iter().filter(|report| report.signs.iter().any(is_story)).map(|report| report.date);
    let asked = record
        .intakes
        .iter()
        .filter(|intake| intake.dislocation_or_slipping == Some(true) || intake.signs.iter().any(is_story))
        .map(|intake| intake.date);
    let letters = record
        .clearances
        .iter()
        .filter(|letter| letter.injury == Some(InjuryKind::Dislocation))
        .map(|letter| letter.date);
    let first = reported.chain(asked).chain(letters).min()?;
    Some(Line::new(codes::L2, "gate-slipped-once", Class::Health).with("date", Arg::Date(first)))
}

fn newcomer(record: &Record<'_>) -> Option<Line> {
    let days = record.parameters().newcomer_days;
    let line = |says| Line::new(codes::G13, says, Class::Dose);
    match record.swimmer.programme_started.filter(|started| *started <= record.on) {
        None => Some(line("gate-newcomer-not-begun")),
        Some(started) => (record.on < days_after(started, days)).then(|| {
            line("gate-newcomer")
                .with("started", Arg::Date(started))
                .with("until", Arg::Date(days_after(started, days)))
        }),
    }
}

/// The newest letter after an injury opens the way back. One for the other shoulder that is still in its first weeks
/// joins it, since there is one way back at a time and it must be careful enough for both.
fn reentry(record: &Record<'_>, gate: &mut Gate) -> Option<Reentry> {
    let letters: Vec<&Clearance> =
        record.clearances.iter().copied().filter(|letter| letter.injury.is_some()).collect();
    let newest_for = |side: Side| {
        letters
            .iter()
            .filter(|letter| letter.side.is_none_or(|cleared| cleared == side))
            .map(|letter| letter.date)
            .max()
    };
    let since = letters.iter().map(|letter| letter.date).max()?;
    let is_on_the_way = |day: Date| day == since || record.on < days_after(day, RETURN_DAYS);
    let sides: Vec<Side> =
        Side::BOTH.into_iter().filter(|side| newest_for(*side).is_some_and(is_on_the_way)).collect();
    let side = if let [only] = sides[..] { Some(only) } else { None };
    let in_force: Vec<&Clearance> = letters
        .iter()
        .copied()
        .filter(|letter| {
            sides.iter().any(|side| {
                newest_for(*side) == Some(letter.date) && letter.side.is_none_or(|cleared| cleared == *side)
            })
        })
        .collect();
    let mut open_conditions = Vec::new();
    for letter in &in_force {
        for condition in conditions(letter) {
            match condition {
                Condition::Met => {}
                Condition::NotRecorded(line) => open_conditions.push(line),
                Condition::NotMet(line) => {
                    gate.holds.push(not_met(line.clone(), letter));
                    open_conditions.push(line);
                }
            }
        }
    }
    Some(Reentry {
        since,
        week: u16::try_from(days_between(since, record.on) / 7 + 1).unwrap_or(u16::MAX),
        side,
        by_clinicians_plan: in_force
            .iter()
            .any(|letter| matches!(letter.injury, Some(InjuryKind::Dislocation | InjuryKind::Operation))),
        open_conditions,
    })
}

fn not_met(line: Line, letter: &Clearance) -> Hold {
    Hold {
        availability: Availability::OutToday,
        side: letter.side,
        line,
        since: letter.date,
        review: None,
        ends_by: EndsBy::Record,
        urgency: None,
    }
}

enum Condition {
    Met,
    NotRecorded(Line),
    NotMet(Line),
}

/// The four conditions beside the letter. One that was not written down is open, never met.
fn conditions(letter: &Clearance) -> [Condition; 4] {
    let judge = |word: &str, is_met: Option<bool>, value: Option<Arg>| {
        let word = Arg::Word(format!("return-condition-{word}"));
        match is_met {
            Some(true) => Condition::Met,
            None => Condition::NotRecorded(
                Line::new(codes::B3, "gate-return-not-recorded", Class::Health).with("condition", word),
            ),
            Some(false) => {
                let line = Line::new(codes::B2, "gate-return-not-met", Class::Health).with("condition", word);
                Condition::NotMet(match value {
                    Some(value) => line.with("value", value),
                    None => line.with("value", Arg::Word("return-condition-no".to_owned())),
                })
            }
        }
    };
    let given = &letter.conditions;
    [
        judge("daily-life", given.daily_life_pain_free, None),
        judge(
            "range",
            given.range_gap_deg.map(|gap| gap <= RETURN_RANGE_GAP_DEG),
            given.range_gap_deg.map(|gap| Arg::Number(gap, 0)),
        ),
        judge(
            "strength",
            given.strength_share.map(|share| RETURN_STRENGTH_SHARE <= share),
            given.strength_share.map(Arg::Share),
        ),
        judge(
            "water",
            given.half_water_weeks.map(|weeks| RETURN_WATER_WEEKS <= weeks),
            given.half_water_weeks.map(|weeks| Arg::Number(weeks, 1)),
        ),
    ]
}
