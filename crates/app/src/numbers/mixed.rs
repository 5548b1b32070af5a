//! Repeated measurements of many people, each with a value (and a slope) of their own.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use stats::level::{Interval, Level};
use stats::mixed::{Measured, Method, MixedFit, MixedSample, fit};
use stats::numeric::normal;

use super::columns::{GROUP, Troubles, VALUE, need};
use super::covariates::{self, Choice};
use super::grid::{Grid, normal_form};
use super::{Answer, Block, head, say, shown, shown_level, shown_p, shown_range, word};
use crate::error::{AppError, ErrorKind};

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// Level of intervals.
    pub level: Level,
    /// The column of values.
    pub value: Option<String>,
    /// The column of groups.
    pub group: Option<String>,
    /// The covariate that has a slope of each group's own.
    pub slope: Option<String>,
    /// By which criterion.
    pub method: Method,
    /// Columns that explain.
    pub choice: Choice,
}

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    let value = need(grid, options.value.as_deref(), VALUE, &[])?;
    let group = need(grid, options.group.as_deref(), GROUP, &[value])?;
    let covariates = covariates::read(grid, &options.choice, &[value, group])?;
    let slope = match &options.slope {
        None => None,
        Some(name) => {
            let form = normal_form(name);
            let place = covariates.names.iter().position(|known| known == name || normal_form(known) == form);
            Some(place.ok_or_else(|| {
                AppError::new(ErrorKind::Input, "numbers-no-slope")
                    .with("column", name)
                    .with("heads", covariates.names.join(", "))
                    .hint("numbers-no-column-hint")
            })?)
        }
    };
    let mut troubles = Troubles::default();
    let mut labels: BTreeMap<String, u32> = BTreeMap::new();
    let (mut rows, mut left_out) = (Vec::new(), 0);
    for (place, covariates) in covariates.rows.iter().enumerate() {
        let measured = troubles.number(grid, place, value);
        let label = grid.rows[place][group].trim().to_owned();
        let (Some(value), Some(covariates), false) = (measured, covariates, label.is_empty()) else {
            left_out += 1;
            continue;
        };
        let next = u32::try_from(labels.len()).unwrap_or(u32::MAX);
        let group = *labels.entry(label).or_insert(next);
        rows.push(Measured { value, covariates: covariates.clone(), group });
    }
    troubles.settle()?;
    let method = match options.method {
        Method::Restricted => "reml",
        Method::MaximumLikelihood => "ml",
    };
    let counts = json!({
        "method": method, "n": rows.len(), "groups": labels.len(), "group_column": grid.heads[group],
        "left_out": left_out, "not_used": covariates.not_used, "level": options.level.share(),
    });
    let names = &covariates.names;
    let found = MixedSample::new(rows).and_then(|sample| fit(&sample, slope, options.method));
    let found = match found {
        Ok(found) => found,
        Err(lack) => return Ok(Answer::lacking(&lack, names, counts)),
    };
    let slope_name = slope.map(|place| names[place].clone());
    let mut fields = super::object(counts);
    fields.extend(super::object(fit_json(&found, names, options, slope_name.as_deref(), &labels)));
    let share = share_between(&found);
    let mut says = say(
        "numbers-mixed-says",
        &[
            ("n", found.n.to_string()),
            ("groups", found.groups.to_string()),
            ("between", shown(found.between[(0, 0)].max(0.0).sqrt())),
            ("within", shown(found.residual.sqrt())),
            ("share", shown(100.0 * share)),
        ],
    );
    let mut add = |name: &str| {
        says.push(' ');
        says.push_str(&word(name));
    };
    if found.singular {
        add("numbers-mixed-singular");
    }
    if !found.converged {
        add("numbers-not-converged");
    }
    if found.is_ill_conditioned() {
        add("numbers-ill-conditioned");
    }
    if found.groups < 8 {
        add("numbers-mixed-few");
    }
    if 0 < left_out {
        says.push(' ');
        says.push_str(&say("numbers-left-out", &[("number", left_out.to_string())]));
    }
    let mut answer =
        Answer::of(says, Value::Object(fields), vec![Block::Table(table(&found, names, options))]);
    answer.answered = found.converged;
    Ok(answer)
}

/// Share of the variance at the intercept that lies between groups.
fn share_between(found: &MixedFit) -> f64 {
    found.between[(0, 0)] / (found.between[(0, 0)] + found.residual)
}

fn fit_json(
    found: &MixedFit,
    names: &[String],
    options: &Options,
    slope: Option<&str>,
    labels: &BTreeMap<String, u32>,
) -> Value {
    let z = options.level.z();
    let estimates = found.coefficients.iter().enumerate().map(|(place, value)| {
        let se = found.se(place);
        json!({
            "name": if place == 0 { "intercept" } else { names[place - 1].as_str() }, "estimate": value, "se": se,
            "low": value - z * se, "high": value + z * se, "t": value / se,
            "p": 2.0 * normal::above((value / se).abs()),
        })
    });
    let (intercept, residual) = (found.between[(0, 0)], found.residual);
    let mut variance = json!({
        "intercept": intercept, "residual": residual, "intercept_sd": intercept.max(0.0).sqrt(),
        "residual_sd": residual.sqrt(), "share_between": share_between(found),
    });
    if let (Value::Object(map), true) = (&mut variance, slope.is_some()) {
        let (own, both) = (found.between[(1, 1)], found.between[(0, 1)]);
        map.insert("slope".into(), json!(own));
        map.insert("slope_sd".into(), json!(own.max(0.0).sqrt()));
        map.insert("covariance".into(), json!(both));
        map.insert("correlation".into(), json!(both / (intercept * own).sqrt()));
    }
    let name_of: BTreeMap<u32, &String> = labels.iter().map(|(name, number)| (*number, name)).collect();
    let mut modes: Vec<_> = found.modes.iter().collect();
    modes.sort_by_key(|mode| name_of.get(&mode.group).copied());
    let modes = modes.into_iter().map(|mode| {
        json!({
            "group": name_of.get(&mode.group), "n": mode.rows, "intercept": mode.modes[0],
            "slope": mode.modes.get(1),
        })
    });
    json!({
        "estimates": estimates.collect::<Value>(), "variance": variance, "slope_column": slope,
        "log_likelihood": found.log_likelihood, "criterion": found.criterion, "deviance": found.criterion,
        "aic": found.aic(), "parameters": found.parameters, "converged": found.converged, "singular": found.singular,
        "convergence": {
            "converged": found.converged, "steps": found.steps, "condition": found.condition,
            "ill_conditioned": found.is_ill_conditioned(), "singular": found.singular,
        },
        "group_values": modes.collect::<Value>(),
    })
}

fn table(found: &MixedFit, names: &[String], options: &Options) -> Vec<Vec<String>> {
    let z = options.level.z();
    let mut rows = vec![head(&[
        "numbers-head-term",
        "numbers-head-estimate",
        "numbers-head-se",
        "numbers-head-p",
        "numbers-head-range",
    ])];
    for (place, value) in found.coefficients.iter().enumerate() {
        let se = found.se(place);
        let name = if place == 0 { word("numbers-intercept") } else { names[place - 1].clone() };
        let p = shown_p(2.0 * normal::above((value / se).abs()));
        rows.push(vec![name, shown(*value), shown(se), p, shown_range(Interval::around(*value, z * se))]);
    }
    let dash = || "-".to_owned();
    let mut one = |name: &str, value: f64| rows.push(vec![word(name), shown(value), dash(), dash(), dash()]);
    one("numbers-between", found.between[(0, 0)].max(0.0).sqrt());
    if 1 < found.between.nrows() {
        one("numbers-between-slope", found.between[(1, 1)].max(0.0).sqrt());
    }
    one("numbers-within", found.residual.sqrt());
    one("numbers-log-likelihood", found.log_likelihood);
    rows.push(vec![word("numbers-level"), shown_level(options.level), dash(), dash(), dash()]);
    rows
}
