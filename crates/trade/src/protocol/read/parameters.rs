//! Reading the master parameters by their table.

use std::collections::BTreeMap;
use std::ops::Range;

use toml::Spanned;
use toml::de::DeValue;

use super::lists::{Known, MARK, SOURCE, evidence};
use super::problem::{
    DISAGREE, FIXED_LIMIT, NOT_ASCENDING, NOT_WHOLE, OUT_OF_RANGE, Report, SCAPTION, WRONG_COUNT,
};
use super::safety;
use super::table::{Table, number, wrong_type};
use crate::protocol::parameter::{Listed, PARAMETERS, ParameterSpec, Parameters, Shape, rows};

/// Pairs of which the first may at most be the second, or must stay below it.
const PAIRS: &[(&str, &str, Bound)] = &[
    ("n_qualify", "n_qualify_careful", Bound::AtMost),
    ("deload_sets", "sets", Bound::AtMost),
    ("deload_cap_s", "cap_s", Bound::AtMost),
    ("growth_cap_s", "cap_s", Bound::AtMost),
    ("growth_end_velocity_cm_y", "growth_velocity_cm_y", Bound::AtMost),
    ("side_diff_strength_adapt_pct", "side_diff_strength_refer_pct", Bound::Below),
    ("meet_gap_c_h", "meet_gap_ab_h", Bound::AtMost),
    ("beighton_cut_u18", "beighton_cut_girls", Bound::AtMost),
];

/// How the first of a pair stands to the second.
#[derive(Clone, Copy, PartialEq)]
enum Bound {
    AtMost,
    Below,
}

/// Numbers as they stand in the file, with their place.
type Numbers = BTreeMap<&'static str, (Vec<f64>, Range<usize>)>;

/// Reads the parameters; nothing where one is missing or outside what is allowed.
pub(super) fn read(root: &Table<'_>, known: &Known, report: &mut Report<'_>) -> Option<Parameters> {
    let keys: Vec<&str> = PARAMETERS.iter().map(|spec| spec.key).collect();
    let table = root.table("parameters", &keys, report)?;
    let mut numbers = Numbers::new();
    let mut listed = Vec::new();
    for spec in PARAMETERS {
        let Some(row) = table.need(spec.key, report) else { continue };
        let Some(row) = Table::open(row, spec.key, None, &["value", MARK, SOURCE], report) else { continue };
        let mark = evidence(&row, known, report);
        let Some(value) = row.need("value", report) else { continue };
        let Some(read) = value_of(spec, value, report) else { continue };
        if let Some(evidence) = mark {
            listed.push((
                value.span().start,
                Listed {
                    key: spec.key,
                    field: spec.field,
                    label: spec.label,
                    value: spec.shown(&read),
                    allowed: spec.allowed(),
                    evidence,
                },
            ));
        }
        numbers.insert(spec.key, (read, value.span()));
    }
    refuse_disagreement(&numbers, report);
    let numbers = numbers.into_iter().map(|(key, (numbers, _))| (key, numbers)).collect();
    listed.sort_by_key(|(at, _)| *at);
    rows::build(&numbers, listed.into_iter().map(|(_, listed)| listed).collect())
}

/// Reads one parameter's numbers; nothing where they are wrong, which is then reported.
fn value_of(
    spec: &'static ParameterSpec,
    value: &Spanned<DeValue<'_>>,
    report: &mut Report<'_>,
) -> Option<Vec<f64>> {
    match (spec.shape, value.get_ref()) {
        (Shape::Flag, DeValue::Boolean(flag)) => return Some(vec![f64::from(u8::from(*flag))]),
        (Shape::Flag, _) => {
            wrong_type(spec.key, "flag", value, report);
            return None;
        }
        (Shape::WholeOrOff, DeValue::String(word)) if word == "off" => return Some(Vec::new()),
        (Shape::WholeOrOff, DeValue::String(_)) => {
            wrong_type(spec.key, "whole-or-off", value, report);
            return None;
        }
        _ => {}
    }
    let items: Vec<&Spanned<DeValue<'_>>> = match value.get_ref().as_array() {
        Some(list) => list.iter().collect(),
        None => vec![value],
    };
    if spec.within.len() > 1 && value.get_ref().as_array().is_none() {
        wrong_type(spec.key, "numbers", value, report);
        return None;
    }
    if items.len() != spec.within.len() {
        let values = [spec.key.to_owned(), spec.within.len().to_string(), items.len().to_string()];
        report.add(&WRONG_COUNT, value.span(), values);
        return None;
    }
    let mut numbers = Vec::new();
    for (item, limits) in items.iter().zip(spec.within) {
        let Some(number) = number(spec.key, item, report) else { continue };
        if accept(spec, number, *limits, item.span(), report) {
            numbers.push(number);
        }
    }
    if numbers.len() != items.len() {
        return None;
    }
    let is_span = spec.within.len() > 1 && !["sessions_week", "supervise_ratio"].contains(&spec.key);
    if is_span && numbers.windows(2).any(|pair| pair[0] > pair[1]) {
        report.add(&NOT_ASCENDING, value.span(), [spec.key.to_owned()]);
        return None;
    }
    Some(numbers)
}

/// Whether one number is allowed; a number that is not is reported, a fixed limit with the reason it stands.
fn accept(
    spec: &'static ParameterSpec,
    number: f64,
    (low, high): (f64, f64),
    at: Range<usize>,
    report: &mut Report<'_>,
) -> bool {
    if number < low || high < number {
        if spec.key == safety::SCAPTION_KEY && number > high {
            report.add(&SCAPTION, at, safety::weight_values(spec.key, number, high));
            return false;
        }
        let values = [spec.key.to_owned(), number.to_string(), spec.allowed()];
        match spec.fixed {
            Some(why) => report.add_because(&FIXED_LIMIT, why, at, values),
            None => report.add(&OUT_OF_RANGE, at, values),
        }
        return false;
    }
    if spec.shape != Shape::Decimal && number.fract() != 0.0 {
        report.add(&NOT_WHOLE, at, [spec.key.to_owned(), number.to_string()]);
        return false;
    }
    true
}

fn refuse_disagreement(numbers: &Numbers, report: &mut Report<'_>) {
    let only = |key: &str| match numbers.get(key) {
        Some((numbers, at)) => numbers.first().map(|number| (*number, at.clone())),
        None => None,
    };
    for (key, other, bound) in PAIRS {
        let (Some((value, at)), Some((limit, _))) = (only(key), only(other)) else { continue };
        if value > limit || (value == limit && *bound == Bound::Below) {
            let values = [(*key).to_owned(), value.to_string(), (*other).to_owned(), limit.to_string()];
            report.add(&DISAGREE, at, values);
        }
    }
}
