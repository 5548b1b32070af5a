//! Events over exposure, with exact limits, and two rates against each other; or events of so many people.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use stats::level::Level;
use stats::rates::count::{self, Rate};
use stats::rates::power::smallest_reduction_shown;
use stats::rates::ratio::RateRatio;
use stats::rates::share::Share;

use super::columns::{ARM, COUNT, EXPOSURE, GROUP, PEOPLE, Troubles, find, need};
use super::grid::{Grid, normal_form};
use super::{Answer, Block, head, say, shown, shown_level, shown_p, shown_range};
use crate::error::{AppError, ErrorKind};

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// Level of intervals.
    pub level: Level,
    /// Per how much exposure.
    pub per: f64,
    /// The column of events.
    pub events: Option<String>,
    /// The column of exposure.
    pub exposure: Option<String>,
    /// The column of people, for shares.
    pub people: Option<String>,
    /// The column of groups.
    pub group: Option<String>,
    /// The group that others are held against.
    pub reference: Option<String>,
}

/// Words by which a reference is known when none is named.
const REFERENCES: &[&str] = &[
    "reference",
    "ref",
    "control",
    "controls",
    "unexposed",
    "not_exposed",
    "baseline",
    "before",
    "last",
    "last_season",
    "last_year",
    "previous",
    "previous_season",
    "old",
    "none",
    "no",
    "placebo",
    "usual",
];

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    let events = need(grid, options.events.as_deref(), COUNT, &[])?;
    let exposure = find(grid, options.exposure.as_deref(), EXPOSURE, &[events])?;
    let people = match (options.people.as_deref(), exposure) {
        (None, Some(_)) => None,
        (named, _) => find(grid, named, PEOPLE, &[events])?,
    };
    let Some(size) = people.or(exposure) else {
        return Err(need(grid, None, EXPOSURE, &[events]).expect_err("there is no such column"));
    };
    let group = match find(grid, options.group.as_deref(), ARM, &[events, size])? {
        Some(column) => Some(column),
        None => find(grid, None, GROUP, &[events, size])?,
    };
    let mut troubles = Troubles::default();
    let mut groups: BTreeMap<String, (u64, f64)> = BTreeMap::new();
    let mut left_out = 0;
    for row in 0..grid.rows.len() {
        let (count, amount) = (troubles.number(grid, row, events), troubles.number(grid, row, size));
        let (Some(count), Some(amount)) = (count, amount) else {
            left_out += 1;
            continue;
        };
        if count < 0.0 || count.fract() != 0.0 || 1e6 < count {
            troubles.add(grid, row, events, "numbers-not-a-count");
        }
        if amount < 0.0 || (people.is_some() && amount.fract() != 0.0) || 1e12 < amount {
            troubles.add(grid, row, size, "numbers-not-an-amount");
        }
        let label = group.map_or_else(String::new, |column| grid.rows[row][column].trim().to_owned());
        let sum = groups.entry(label).or_default();
        sum.0 = sum.0.saturating_add(count.max(0.0) as u64);
        sum.1 += amount;
    }
    troubles.settle()?;
    if people.is_some() { shares(&groups, left_out, options) } else { rates(&groups, left_out, options) }
}

fn reference(groups: &BTreeMap<String, (u64, f64)>, options: &Options) -> Result<Option<String>, AppError> {
    if let Some(named) = &options.reference {
        let form = normal_form(named);
        let found = groups.keys().find(|name| *name == named || normal_form(name) == form);
        return found.cloned().map(Some).ok_or_else(|| {
            let known = groups.keys().cloned().collect::<Vec<_>>().join(", ");
            AppError::new(ErrorKind::Input, "numbers-no-group")
                .with("group", named)
                .with("groups", known)
                .hint("numbers-no-column-hint")
        });
    }
    let known = groups.keys().find(|name| REFERENCES.contains(&normal_form(name).as_str()));
    Ok(known.or_else(|| groups.keys().next()).cloned())
}

fn rates(
    groups: &BTreeMap<String, (u64, f64)>,
    left_out: usize,
    options: &Options,
) -> Result<Answer, AppError> {
    let level = options.level;
    let total = groups.values().fold((0_u64, 0.0), |sum, one| (sum.0.saturating_add(one.0), sum.1 + one.1));
    let counts = json!({
        "events": total.0, "exposure": total.1, "per": options.per, "left_out": left_out, "level": level.share(),
    });
    let whole = match Rate::new(total.0, total.1, options.per, level) {
        Ok(rate) => rate,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], counts)),
    };
    let one = |name: Option<&str>, rate: &Rate| {
        let scale = rate.per / rate.exposure;
        let (mid, byar) = (count::mid_p(rate.events, level), count::byar(rate.events, level));
        let exact = count::exact(rate.events, level);
        json!({
            "group": name, "events": rate.events, "exposure": rate.exposure, "rate": rate.rate,
            "estimate": rate.rate, "low": rate.interval.low, "high": rate.interval.high,
            "se": (rate.events as f64).sqrt() * scale,
            "count_low": exact.low, "count_high": exact.high,
            "mid_p_low": mid.low * scale, "mid_p_high": mid.high * scale,
            "byar_low": byar.low * scale, "byar_high": byar.high * scale,
        })
    };
    let mut fields = super::object(counts);
    fields.extend(super::object(one(None, &whole)));
    fields.remove("group");
    let mut table = vec![head(&[
        "numbers-head-group",
        "numbers-head-events",
        "numbers-head-exposure",
        "numbers-head-rate",
        "numbers-head-range",
    ])];
    let mut list = Vec::new();
    for (name, (events, exposure)) in groups {
        match Rate::new(*events, *exposure, options.per, level) {
            Ok(rate) => {
                list.push(one(Some(name), &rate));
                table.push(vec![
                    name.clone(),
                    events.to_string(),
                    shown(*exposure),
                    shown(rate.rate),
                    shown_range(rate.interval),
                ]);
            }
            Err(lack) => list
                .push(json!({"group": name, "events": events, "exposure": exposure, "reason": lack.word()})),
        }
    }
    fields.insert("rates".into(), Value::Array(list));
    let mut says = say(
        "numbers-rate-says",
        &[
            ("events", total.0.to_string()),
            ("rate", shown(whole.rate)),
            ("per", shown(options.per)),
            ("range", shown_range(whole.interval)),
            ("level", shown_level(level)),
        ],
    );
    let mut ratios = Vec::new();
    let reference = reference(groups, options)?;
    if 1 < groups.len() {
        for (first, (x1, t1)) in groups {
            for (second, (x0, t0)) in groups {
                if first == second {
                    continue;
                }
                let Ok(found) = RateRatio::new((*x1, *t1), (*x0, *t0), level) else { continue };
                let shown_one = json!({
                    "group": first, "reference": second, "ratio": found.ratio, "estimate": found.ratio,
                    "low": found.exact.low, "high": found.exact.high, "mid_p_low": found.mid_p.low,
                    "mid_p_high": found.mid_p.high, "wald_low": found.wald.map(|wald| wald.low),
                    "wald_high": found.wald.map(|wald| wald.high), "p": found.p,
                });
                if Some(second) == reference.as_ref() {
                    says.push(' ');
                    says.push_str(&say(
                        "numbers-ratio-says",
                        &[
                            ("group", first.clone()),
                            ("reference", second.clone()),
                            ("ratio", found.ratio.map_or_else(|| "-".to_owned(), shown)),
                            ("range", shown_range(found.exact)),
                            ("p", shown_p(found.p)),
                        ],
                    ));
                    if groups.len() == 2 {
                        fields.insert("ratio".into(), shown_one.clone());
                    }
                }
                ratios.push(shown_one);
            }
        }
    }
    fields.insert("ratios".into(), Value::Array(ratios));
    fields.insert("reference".into(), json!(reference.filter(|_| 1 < groups.len())));
    // Groups stand for seasons here: each has its part of the events.
    let a_season = whole.events as f64 / groups.len().max(1) as f64;
    let shown_reduction = smallest_reduction_shown(a_season, 0.8, level);
    fields.insert("smallest_reduction_shown".into(), json!(shown_reduction));
    says.push(' ');
    says.push_str(&match shown_reduction {
        Some(share) => {
            say("numbers-rate-power", &[("events", shown(a_season)), ("percent", shown(100.0 * share))])
        }
        None => say("numbers-rate-no-power", &[("events", shown(a_season))]),
    });
    if 0 < left_out {
        says.push(' ');
        says.push_str(&say("numbers-left-out", &[("number", left_out.to_string())]));
    }
    fields.insert("converged".into(), Value::Bool(true));
    let blocks = if 1 < groups.len() { vec![Block::Table(table)] } else { Vec::new() };
    Ok(Answer::of(says, Value::Object(fields), blocks))
}

fn shares(
    groups: &BTreeMap<String, (u64, f64)>,
    left_out: usize,
    options: &Options,
) -> Result<Answer, AppError> {
    let level = options.level;
    let total = groups.values().fold((0_u64, 0.0), |sum, one| (sum.0.saturating_add(one.0), sum.1 + one.1));
    let counts = json!({"events": total.0, "people": total.1, "left_out": left_out, "level": level.share()});
    let one = |name: Option<&str>, share: &Share| {
        json!({
            "group": name, "events": share.k, "people": share.n, "share": share.share, "estimate": share.share,
            "low": share.wilson.low, "high": share.wilson.high, "corrected_low": share.corrected.low,
            "corrected_high": share.corrected.high, "exact_low": share.exact.low, "exact_high": share.exact.high,
        })
    };
    let whole = match Share::new(total.0, total.1 as u64, level) {
        Ok(share) => share,
        Err(lack) => return Ok(Answer::lacking(&lack, &[], counts)),
    };
    let mut fields = super::object(counts);
    fields.extend(super::object(one(None, &whole)));
    fields.remove("group");
    let mut list = Vec::new();
    let mut table = vec![head(&[
        "numbers-head-group",
        "numbers-head-events",
        "numbers-head-people",
        "numbers-head-share",
        "numbers-head-range",
    ])];
    for (name, (events, people)) in groups {
        match Share::new(*events, *people as u64, level) {
            Ok(share) => {
                list.push(one(Some(name), &share));
                table.push(vec![
                    name.clone(),
                    events.to_string(),
                    shown(*people),
                    shown(share.share),
                    shown_range(share.wilson),
                ]);
            }
            Err(lack) => {
                list.push(json!({"group": name, "events": events, "people": people, "reason": lack.word()}))
            }
        }
    }
    fields.insert("shares".into(), Value::Array(list));
    fields.insert("converged".into(), Value::Bool(true));
    let mut says = say(
        "numbers-share-says",
        &[
            ("events", whole.k.to_string()),
            ("people", whole.n.to_string()),
            ("percent", shown(100.0 * whole.share)),
            ("range", shown_range(whole.wilson.map(|share| 100.0 * share))),
            ("level", shown_level(level)),
        ],
    );
    if 0 < left_out {
        says.push(' ');
        says.push_str(&say("numbers-left-out", &[("number", left_out.to_string())]));
    }
    let blocks = if 1 < groups.len() { vec![Block::Table(table)] } else { Vec::new() };
    Ok(Answer::of(says, Value::Object(fields), blocks))
}
