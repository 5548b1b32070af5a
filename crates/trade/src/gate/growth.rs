//! Growth: velocity with its error, maturity offset by two published equations, and the growth hold.
//!
//! Symbols of the equations (Mirwald 2002; Moore 2015), age in years, lengths in cm, mass in kg:
//! `leg` = height - sitting height. Both are estimates with a standard error of more than half a year, they drift
//! with the age at which they are used, and they are read here only as a reason for caution.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::{Length, Mass};

use super::moments::Moment;
use super::papers::OF_AGE;
use super::record::{Record, days_after};
use super::{GrowthHold, pain};
use crate::history::{GrowthMeasure, Sex, Sign, days_between};
use crate::protocol::Parameters;
use crate::rule::{RuleCode, gate_rules as codes};
use crate::trace::{Arg, Class, Line};

/// Ages for which growth is judged; the equations were made from children within these years.
pub const AGES: std::ops::RangeInclusive<i16> = 8..=18;
/// Technical error of one height, each the mean of two readings: 0.3 cm, as the handbooks of measuring allow.
const READING_ERROR: Length = Length::from_metres(0.003);
/// Span between two heights that is long enough to judge and short enough to be about now, days.
const BEST_SPAN_DAYS: i32 = 150;
/// Pain-free days after which the hold ends by itself: three months, common practice.
const PAIN_FREE_DAYS: u16 = 91;
/// Half-width of a 95 % interval in standard errors.
const Z95: f64 = 1.96;

/// How fast somebody grew between two heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Velocity {
    /// Day of the earlier height.
    pub from: Date,
    /// Day of the later height.
    pub to: Date,
    /// Centimetres a year.
    pub cm_per_year: f64,
    /// Standard error from the readings alone, centimetres a year.
    pub standard_error: f64,
}

impl Velocity {
    /// From two heights; none unless the second is later.
    pub fn between(earlier: &GrowthMeasure, later: &GrowthMeasure) -> Option<Velocity> {
        let days = days_between(earlier.date, later.date);
        if days <= 0 {
            return None;
        }
        let years = f64::from(days) / 365.25;
        Some(Velocity {
            from: earlier.date,
            to: later.date,
            cm_per_year: (later.height - earlier.height).centimetres() / years,
            standard_error: std::f64::consts::SQRT_2 * READING_ERROR.centimetres() / years,
        })
    }

    /// Half-width of the 95 % interval, centimetres a year.
    pub fn half_width(&self) -> f64 {
        Z95 * self.standard_error
    }

    /// Up to one measurement, against the earlier one that is old enough and closest to five months before it.
    fn up_to(
        later: &GrowthMeasure,
        measures: &[&GrowthMeasure],
        parameters: &Parameters,
    ) -> Option<Velocity> {
        measures
            .iter()
            .filter(|earlier| i32::from(parameters.growth_min_days) <= days_between(earlier.date, later.date))
            .min_by_key(|earlier| {
                let span = days_between(earlier.date, later.date);
                ((span - BEST_SPAN_DAYS).abs(), span)
            })
            .and_then(|earlier| Velocity::between(earlier, later))
    }
}

/// Years from the height spurt, negative before it, by one equation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MaturityOffset {
    /// By the first equation (Mirwald 2002), which needs sitting height and mass.
    pub first: Option<f64>,
    /// By the simplified equation (Moore 2015), which needs sitting height for boys and height for girls.
    pub simplified: Option<f64>,
}

impl MaturityOffset {
    /// From one measurement. For somebody whose sex is not stated there is none: see [`MaturityOffset::readings`].
    pub fn of(
        sex: Sex,
        age: f64,
        height: Length,
        sitting: Option<Length>,
        mass: Option<Mass>,
    ) -> MaturityOffset {
        let height = height.centimetres();
        let sitting = sitting.map(Length::centimetres);
        let mass = mass.map(Mass::in_kilograms);
        let first = || {
            let (sitting, mass) = (sitting?, mass?);
            let leg = height - sitting;
            // The ratio enters as per cent; without the factor of 100 every offset comes out about 0.7 years low.
            let mass_by_height = mass / height * 100.0;
            match sex {
                Sex::Male => Some(
                    -9.236 + 0.000_270_8 * leg * sitting - 0.001_663 * age * leg
                        + 0.007_216 * age * sitting
                        + 0.022_92 * mass_by_height,
                ),
                Sex::Female => Some(
                    -9.376 + 0.000_188_2 * leg * sitting + 0.0022 * age * leg + 0.005_841 * age * sitting
                        - 0.002_658 * age * mass
                        + 0.076_93 * mass_by_height,
                ),
                Sex::Unstated => None,
            }
        };
        let simplified = match sex {
            Sex::Male => sitting.map(|sitting| -8.128_741 + 0.007_034_6 * age * sitting),
            Sex::Female => Some(-7.709_133 + 0.004_223_2 * age * height),
            Sex::Unstated => None,
        };
        MaturityOffset { first: first().filter(|years| years.is_finite()), simplified }
    }

    /// Every offset that can be told from one measurement. Where the sex is not stated, both are read.
    pub fn readings(sex: Sex, age: f64, measure: &GrowthMeasure) -> Vec<f64> {
        let sexes: &[Sex] = match sex {
            Sex::Unstated => &[Sex::Female, Sex::Male],
            Sex::Female => &[Sex::Female],
            Sex::Male => &[Sex::Male],
        };
        sexes
            .iter()
            .flat_map(|sex| {
                let offset = MaturityOffset::of(*sex, age, measure.height, measure.sitting, measure.mass);
                [offset.first, offset.simplified]
            })
            .flatten()
            .collect()
    }
}

/// The growth hold in force on the day asked about, if one is.
///
/// Measurements and reports each have a hold of their own, and the younger one speaks: so one more report can only
/// make the outcome more careful, while measuring again during a hold does not start its weeks anew.
pub(super) fn hold(record: &Record<'_>, moments: &[Moment]) -> Option<GrowthHold> {
    if !AGES.contains(&record.age()) {
        return None;
    }
    let pains = pain::days_of_events(record, moments);
    let readings = readings(record);
    let measured = latest_hold(record, &pains, &readings, &starts_by_measure(&readings), false);
    let reported = latest_hold(record, &pains, &readings, &starts_by_report(record), true);
    let (since, line) = measured.into_iter().chain(reported).max_by_key(|(since, _)| *since)?;
    let week = u16::try_from(days_between(since, record.on) / 7 + 1).unwrap_or(u16::MAX);
    Some(GrowthHold { since, week, pain_free: pains.iter().all(|day| *day < since), line })
}

/// What one measuring day says.
struct Reading {
    day: Date,
    /// Why a hold starts here, if one does.
    starts: Option<Line>,
    /// Slow again and clear of the spurt, and both are known.
    ends: bool,
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

fn readings(record: &Record<'_>) -> Vec<Reading> {
    let parameters = record.parameters();
    record
        .growth
        .iter()
        .filter(|measure| AGES.contains(&record.swimmer.age_on(measure.date)))
        .map(|measure| {
            let velocity = Velocity::up_to(measure, &record.growth, parameters);
            let age = record.swimmer.exact_age_on(measure.date);
            let offsets = MaturityOffset::readings(record.swimmer.sex, age, measure);
            let in_window =
                offsets.iter().copied().find(|offset| offset.abs() <= parameters.maturity_window_y);
            let fast = velocity.filter(|velocity| parameters.growth_velocity_cm_y <= velocity.cm_per_year);
            let starts = match (fast, in_window) {
                (Some(velocity), _) => Some(fast_line(&velocity, parameters)),
                (None, Some(offset)) => Some(
                    line(codes::W2, "gate-growth-spurt")
                        .with("offset", Arg::Number(offset, 1))
                        .with("window", Arg::Number(parameters.maturity_window_y, 1))
                        .with("date", Arg::Date(measure.date)),
                ),
                (None, None) => None,
            };
            let is_slow =
                velocity.is_some_and(|velocity| velocity.cm_per_year < parameters.growth_end_velocity_cm_y);
            let is_clear = !offsets.is_empty() && in_window.is_none();
            Reading { day: measure.date, ends: starts.is_none() && is_slow && is_clear, starts }
        })
        .collect()
}

fn fast_line(velocity: &Velocity, parameters: &Parameters) -> Line {
    line(codes::W1, "gate-growth-fast")
        .with("velocity", Arg::Number(velocity.cm_per_year, 1))
        .with("error", Arg::Number(velocity.half_width(), 1))
        .with("limit", Arg::Number(parameters.growth_velocity_cm_y, 1))
        .with("from", Arg::Date(velocity.from))
        .with("to", Arg::Date(velocity.to))
}

fn starts_by_measure(readings: &[Reading]) -> Vec<(Date, Line)> {
    readings.iter().filter_map(|reading| Some((reading.day, reading.starts.clone()?))).collect()
}

fn starts_by_report(record: &Record<'_>) -> Vec<(Date, Line)> {
    let reported =
        record.pains.iter().map(|report| (report.date, report.signs.iter().copied().collect::<Vec<_>>()));
    let asked = record.intakes.iter().map(|intake| (intake.date, intake.signs.clone()));
    let is_minor = |date: Date| (*AGES.start()..OF_AGE).contains(&record.swimmer.age_on(date));
    let mut starts: BTreeMap<Date, Sign> = BTreeMap::new();
    for (date, signs) in reported.chain(asked).filter(|(date, _)| is_minor(*date)) {
        for sign in signs.into_iter().filter(|sign| matches!(sign, Sign::Clumsiness | Sign::TendonSitePain)) {
            let first = starts.entry(date).or_insert(sign);
            *first = sign.min(*first);
        }
    }
    starts
        .into_iter()
        .map(|(date, sign)| {
            let sign = Arg::Word(format!("sign-{}", sign.word()));
            (date, line(codes::W3, "gate-growth-reported").with("sign", sign).with("date", Arg::Date(date)))
        })
        .collect()
}

/// Walks through the starts in order of time and says which hold, if any, is still in force.
fn latest_hold(
    record: &Record<'_>,
    pains: &[Date],
    readings: &[Reading],
    starts: &[(Date, Line)],
    begins_anew: bool,
) -> Option<(Date, Line)> {
    let mut hold: Option<(Date, Line)> = None;
    for (day, line) in starts {
        let holds_still =
            hold.as_ref().is_some_and(|(since, _)| *day < end_of(*since, pains, readings, record.on));
        if !holds_still || begins_anew {
            hold = Some((*day, line.clone()));
        }
    }
    hold.filter(|(since, _)| record.on < end_of(*since, pains, readings, record.on))
}

/// First day on which a hold that began then is over: slow again and clear of the spurt, or three months without a
/// pain event, which each pain event begins anew.
fn end_of(since: Date, pains: &[Date], readings: &[Reading], on: Date) -> Date {
    let measured =
        readings.iter().find(|reading| since < reading.day && reading.ends).map(|reading| reading.day);
    let mut quiet_from = since;
    for pain in pains.iter().filter(|pain| since <= **pain && **pain <= on) {
        if *pain < days_after(quiet_from, PAIN_FREE_DAYS) {
            quiet_from = *pain;
        }
    }
    let waited = days_after(quiet_from, PAIN_FREE_DAYS);
    measured.map_or(waited, |measured| measured.min(waited))
}
