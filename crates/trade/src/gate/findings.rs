//! What the screening showed. Every line is a prompt for attention; none is a prediction.

use quantity::{Angle, Force};

use super::record::{Record, days_after};
use super::{Availability, EndsBy, Gate, Hold};
use crate::history::{Screening, Urgency};
use crate::name::ExerciseId;
use crate::rule::{RuleCode, gate_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Smallest detectable change of a hand-held strength test off the bench, as a share: mclaine2016 (abstract).
const STRENGTH_ERROR: f64 = 0.16;
/// Side difference of internal rotation or cross-body range, degrees, at which the stretch was studied: mcclure2007.
const STRETCH_GAP: Angle = Angle::from_degrees(10.0);
/// Band internal rotation, which waits for the strength ratio.
const INTERNAL_ROTATION: &str = "RC-2";
/// Cross-body stretch, which waits for a side difference of range.
const CROSS_BODY_STRETCH: &str = "FL-1";

pub(super) fn judge(record: &Record<'_>, gate: &mut Gate) {
    for side in Side::BOTH {
        hollow(record, side, gate);
        strength_gap_to_refer(record, side, gate);
    }
    weaker_arm(record, gate);
    ratio(record, gate);
    range_gap(record, gate);
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

fn referred(line: Line, side: Side, screening: &Screening) -> Hold {
    Hold {
        availability: Availability::OutReferred,
        side: Some(side),
        line: line.with("side", Arg::Shoulder(side)).with("date", Arg::Date(screening.date)),
        since: screening.date,
        review: Some(days_after(screening.date, 7)),
        ends_by: EndsBy::Clinician,
        urgency: Some(Urgency::WithinAWeek),
    }
}

/// A hollow that was once seen stays a reason until somebody licensed has looked; a later screening that does not
/// mention it is not that.
fn hollow(record: &Record<'_>, side: Side, gate: &mut Gate) {
    let seen = record.screenings.iter().find(|screening| {
        screening.visible_hollow.contains(&side) && !record.is_cleared(Some(side), screening.date)
    });
    if let Some(screening) = seen {
        gate.holds.push(referred(line(codes::C1, "gate-hollow"), side, screening));
    }
}

/// Difference of external rotation strength between the arms.
struct Gap {
    weaker: Side,
    weaker_value: Force,
    stronger_value: Force,
    /// Share of the stronger arm that the weaker one lacks.
    share: f64,
}

fn strength_gap(screening: &Screening) -> Option<Gap> {
    let force = |side| Force::try_from_newtons(screening.measured("er_force", Some(side))?).ok();
    let (left, right) = (force(Side::Left)?, force(Side::Right)?);
    let (weaker, weaker_value, stronger_value) =
        if left < right { (Side::Left, left, right) } else { (Side::Right, right, left) };
    let share = (stronger_value - weaker_value).ratio_to(stronger_value)?;
    Some(Gap { weaker, weaker_value, stronger_value, share })
}

fn strength_gap_to_refer(record: &Record<'_>, side: Side, gate: &mut Gate) {
    let limit = record.parameters().side_diff_strength_refer;
    let found = record.screenings.iter().find_map(|screening| {
        let gap = strength_gap(screening)?;
        let is_open =
            gap.weaker == side && limit < gap.share && !record.is_cleared(Some(side), screening.date);
        is_open.then_some((*screening, gap))
    });
    if let Some((screening, gap)) = found {
        let line = line(codes::C2, "gate-strength-gap-refer")
            .with("difference", Arg::Share(gap.share))
            .with("limit", Arg::Share(limit))
            .with("weaker", Arg::Force(gap.weaker_value))
            .with("stronger", Arg::Force(gap.stronger_value));
        gate.holds.push(referred(line, side, screening));
    }
}

/// The newest strength test of both arms names the weaker arm, if the difference is larger than the test's own error.
fn weaker_arm(record: &Record<'_>, gate: &mut Gate) {
    let newest = record.newest_screenings().find_map(|screening| Some((screening, strength_gap(screening)?)));
    let Some((screening, gap)) = newest else { return };
    let limit = record.parameters().side_diff_strength_adapt;
    if limit < gap.share && STRENGTH_ERROR < gap.share {
        gate.weaker_arm = Some(gap.weaker);
        gate.notes.push(
            line(codes::C3, "gate-strength-gap")
                .with("side", Arg::Shoulder(gap.weaker))
                .with("difference", Arg::Share(gap.share))
                .with("limit", Arg::Share(limit))
                .with("error", Arg::Share(STRENGTH_ERROR))
                .with("date", Arg::Date(screening.date)),
        );
    }
}

/// External over internal rotation strength, each arm from its own newest test that has both.
fn ratio(record: &Record<'_>, gate: &mut Gate) {
    let flag = record.parameters().ratio_flag;
    for side in Side::BOTH {
        let newest = record.newest_screenings().find_map(|screening| {
            let external = screening.measured("er_force", Some(side))?;
            let internal = screening.measured("ir_force", Some(side)).filter(|internal| 0.0 < *internal)?;
            Some((screening, external / internal))
        });
        match newest {
            Some((screening, ratio)) if ratio < flag => {
                let line = line(codes::C4, "gate-ratio-low")
                    .with("side", Arg::Shoulder(side))
                    .with("ratio", Arg::Number(ratio, 2))
                    .with("limit", Arg::Number(flag, 2))
                    .with("date", Arg::Date(screening.date));
                gate.notes.push(line.clone());
                let internal_rotation = ExerciseId::new(INTERNAL_ROTATION);
                let is_new = gate.left_out.iter().all(|(left_out, _)| *left_out != internal_rotation);
                if record.parameters().rc2_needs_ratio && is_new {
                    gate.left_out.push((internal_rotation, line));
                }
            }
            None if !record.screenings.is_empty() => {
                gate.notes.push(line(codes::C5, "gate-ratio-unknown").with("side", Arg::Shoulder(side)));
            }
            _ => {}
        }
    }
}

/// A side difference of range is the one finding that asks for the cross-body stretch.
fn range_gap(record: &Record<'_>, gate: &mut Gate) {
    for key in ["shoulder_ir_rom", "horizontal_adduction"] {
        let newest = record.newest_screenings().find_map(|screening| {
            let [left, right] = Side::BOTH.map(|side| screening.measured(key, Some(side)));
            Some((screening, left?, right?))
        });
        let Some((screening, left, right)) = newest else { continue };
        if STRETCH_GAP.degrees() <= (left - right).abs() {
            let tighter = if left < right { Side::Left } else { Side::Right };
            gate.with_finding.insert(ExerciseId::new(CROSS_BODY_STRETCH));
            gate.notes.push(
                line(codes::C7, "gate-range-gap")
                    .with("side", Arg::Shoulder(tighter))
                    .with("difference", Arg::Number((left - right).abs(), 0))
                    .with("measure", Arg::Word(format!("measure-{key}")))
                    .with("date", Arg::Date(screening.date)),
            );
        }
    }
}
