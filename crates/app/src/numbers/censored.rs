//! Set times explained by covariates, caps censored, with a value of each group's own.

use std::collections::BTreeMap;

use serde_json::{Value, json};
use stats::censored::{Family, Fit, Known, Row, Sample, fit};
use stats::level::{Interval, Level};
use stats::numeric::normal;

use super::columns::{GROUP, find};
use super::covariates::{self, Choice};
use super::grid::Grid;
use super::survival::times;
use super::{Answer, Block, head, say, shown, shown_level, shown_p, shown_range, word};
use crate::error::AppError;

/// What may be said beside the table.
#[derive(Debug, Clone)]
pub struct Options {
    /// Level of intervals.
    pub level: Level,
    /// The column of times.
    pub time: Option<String>,
    /// The column that says whether the event came.
    pub event: Option<String>,
    /// The column of groups.
    pub group: Option<String>,
    /// Fit no value of each group's own.
    pub no_groups: bool,
    /// Form of the error.
    pub family: Family,
    /// Rows without the event are at most, not at least, the time.
    pub left: bool,
    /// Columns that explain.
    pub choice: Choice,
}

/// Answers.
pub fn answer(grid: &Grid, options: &Options) -> Result<Answer, AppError> {
    let logarithmic = options.family.is_logarithmic();
    let times = times(grid, options.time.as_deref(), options.event.as_deref(), logarithmic)?;
    let mut taken: Vec<usize> =
        [Some(times.time_column), times.event_column, times.seen_column].into_iter().flatten().collect();
    let group = find(grid, options.group.as_deref(), GROUP, &taken)?;
    taken.extend(group);
    let covariates = covariates::read(grid, &options.choice, &taken)?;
    let mut labels: BTreeMap<String, u32> = BTreeMap::new();
    let mut rows = Vec::new();
    let mut gaps = times.gaps;
    for (place, (found, covariates)) in times.rows.iter().zip(&covariates.rows).enumerate() {
        let Some((time, event)) = *found else { continue };
        let label = group.map_or_else(String::new, |column| grid.rows[place][column].trim().to_owned());
        let Some(covariates) = covariates else {
            gaps += 1;
            continue;
        };
        if group.is_some() && label.is_empty() {
            gaps += 1;
            continue;
        }
        let next = u32::try_from(labels.len()).unwrap_or(u32::MAX);
        let known = match (event, options.left) {
            (true, _) => Known::Exactly,
            (false, false) => Known::AtLeast,
            (false, true) => Known::AtMost,
        };
        rows.push(Row {
            time,
            known,
            covariates: covariates.clone(),
            group: *labels.entry(label).or_insert(next),
        });
    }
    let names = &covariates.names;
    let events = rows.iter().filter(|row| row.known == Known::Exactly).count();
    let with_groups = group.is_some() && !options.no_groups;
    let counts = json!({
        "family": family_word(options.family), "n": rows.len(), "events": events, "censored": rows.len() - events,
        "groups": if group.is_some() { labels.len() } else { 0 },
        "group_column": group.map(|column| grid.heads[column].clone()), "left_out": gaps, "not_used": covariates.not_used, "unseen": times.unseen,
        "level": options.level.share(),
    });
    let longest = rows.iter().fold(0.0_f64, |longest, row| longest.max(row.time));
    let sample = Sample::new(rows, options.family);
    let fitted =
        sample.as_ref().map_err(Clone::clone).and_then(|sample| fit(sample, options.family, with_groups));
    let (sample, found) = match (sample, fitted) {
        (Ok(sample), Ok(found)) => (sample, found),
        (_, Err(lack)) | (Err(lack), _) => {
            let mut answer = Answer::lacking(&lack, names, counts);
            if lack == stats::lack::Lack::AllCensored {
                answer.json.insert("at_least".into(), json!(longest));
            }
            return Ok(answer);
        }
    };
    let mut fields = super::object(counts);
    fields.extend(super::object(fit_json(&found, names, options, &labels)));
    let without = (with_groups).then(|| fit(&sample, options.family, false)).and_then(Result::ok);
    if let Some(without) = &without {
        fields.insert("ignoring_groups".into(), fit_json(without, names, options, &labels));
    }
    let mut says = sentence(&found, options, with_groups);
    let gap_words = super::survival::Times { gaps, ..times }.left_out_words();
    says.push_str(&gap_words);
    Ok(Answer::of(says, Value::Object(fields), vec![Block::Table(table(&found, names, options))]))
}

/// The word of a family.
pub fn family_word(family: Family) -> &'static str {
    match family {
        Family::LogNormal => "log-normal",
        Family::Weibull => "weibull",
        Family::Exponential => "exponential",
        Family::LogLogistic => "log-logistic",
        Family::Normal => "normal",
    }
}

fn sentence(found: &Fit, options: &Options, with_groups: bool) -> String {
    let mut says = say(
        "numbers-censored-says",
        &[("n", found.n.to_string()), ("events", found.events.to_string()), ("spread", shown(found.scale()))],
    );
    let mut add = |text: String| {
        says.push(' ');
        says.push_str(&text);
    };
    match &found.between {
        Some(between) if between.on_boundary => add(word("numbers-censored-no-spread")),
        Some(between) => add(say(
            "numbers-censored-groups",
            &[("groups", found.groups.to_string()), ("between", shown(between.sd))],
        )),
        None if with_groups => {
            for lack in &found.lacks {
                add(super::lack_words(lack, &[]));
            }
        }
        None => {}
    }
    if found.coefficients.len() == 1 {
        let (median, se) = found.quantile(&[], 0.5);
        let range = if options.family.is_logarithmic() {
            Interval::around(median.ln(), options.level.z() * se / median).map(f64::exp)
        } else {
            Interval::around(median, options.level.z() * se)
        };
        add(say(
            "numbers-censored-median",
            &[
                ("median", shown(median)),
                ("range", shown_range(range)),
                ("level", shown_level(options.level)),
            ],
        ));
    }
    if found.settled.is_ill_conditioned() {
        add(word("numbers-ill-conditioned"));
    }
    says
}

fn fit_json(found: &Fit, names: &[String], options: &Options, labels: &BTreeMap<String, u32>) -> Value {
    let z = options.level.z();
    let robust = |place: usize| found.robust.as_ref().map(|robust| robust[(place, place)].max(0.0).sqrt());
    let estimates = found.coefficients.iter().enumerate().map(|(place, value)| {
        let se = found.se(place);
        let mut one = json!({
            "name": if place == 0 { "intercept" } else { names[place - 1].as_str() }, "estimate": value, "se": se,
            "low": value - z * se, "high": value + z * se, "z": value / se,
            "p": 2.0 * normal::above((value / se).abs()),
        });
        if let Value::Object(one) = &mut one {
            if found.between.is_none() {
                one.insert("robust_se".into(), json!(robust(place)));
            }
            if options.family.is_logarithmic() && 0 < place {
                let of = |value: f64| json!(value.exp());
                one.insert("time_ratio".into(), of(*value));
                one.insert("time_ratio_low".into(), of(value - z * se));
                one.insert("time_ratio_high".into(), of(value + z * se));
            }
        }
        one
    });
    let spread = found.between.as_ref();
    let group_se = spread.and_then(|spread| spread.log_sd_se.map(|se| se * spread.sd));
    let mut fields = json!({
        "estimates": estimates.collect::<Value>(), "scale": found.scale(),
        "scale_se": found.log_scale_se().map(|se| se * found.scale()), "log_scale": found.log_scale,
        "log_scale_se": found.log_scale_se(), "log_likelihood": found.log_likelihood,
        "parameters": found.covariance.nrows() + usize::from(spread.is_some_and(|spread| spread.on_boundary)),
        "converged": found.settled.converged,
        "convergence": {
            "converged": found.settled.converged, "steps": found.settled.steps, "largest_slope": found.settled.slope,
            "condition": found.settled.condition, "ill_conditioned": found.settled.is_ill_conditioned(),
            "integral_error": found.settled.integral_error, "groups_on_even_grid": found.settled.grid_groups,
        },
        "notes": found.lacks.iter().map(stats::lack::Lack::word).collect::<Value>(),
    });
    let Value::Object(map) = &mut fields else { return fields };
    map.insert(
        "aic".into(),
        json!(-2.0 * found.log_likelihood + 2.0 * map["parameters"].as_f64().unwrap_or(f64::NAN)),
    );
    if let Some(spread) = spread {
        let name_of: BTreeMap<u32, &String> = labels.iter().map(|(name, number)| (*number, name)).collect();
        let mut values: Vec<_> = spread.values.iter().collect();
        values.sort_by_key(|value| name_of.get(&value.group).copied());
        let values = values.into_iter().map(|value| {
            json!({
                "group": name_of.get(&value.group), "estimate": value.mean, "sd": value.sd, "n": value.rows,
                "events": value.events,
            })
        });
        map.insert("group_sd".into(), json!(spread.sd));
        map.insert("group_sd_se".into(), json!(group_se));
        map.insert("log_group_sd_se".into(), json!(spread.log_sd_se));
        map.insert("group_sd_on_boundary".into(), json!(spread.on_boundary));
        map.insert("group_values".into(), values.collect::<Value>());
    }
    if found.coefficients.len() == 1 {
        let quantiles = [0.25, 0.5, 0.75].map(|p| {
            let (time, se) = found.quantile(&[], p);
            json!({"p": p, "time": time, "se": se})
        });
        map.insert("median".into(), quantiles[1]["time"].clone());
        map.insert("median_se".into(), quantiles[1]["se"].clone());
        map.insert("quantiles".into(), Value::Array(quantiles.to_vec()));
    }
    fields
}

fn table(found: &Fit, names: &[String], options: &Options) -> Vec<Vec<String>> {
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
    let spread = |name: &str, sd: f64, log_se: Option<f64>| {
        let range = log_se.map(|se| shown_range(Interval::around(sd.ln(), z * se).map(f64::exp)));
        let dash = || "-".to_owned();
        vec![
            word(name),
            shown(sd),
            log_se.map_or_else(dash, |se| shown(se * sd)),
            dash(),
            range.unwrap_or_else(dash),
        ]
    };
    rows.push(spread("numbers-within", found.scale(), found.log_scale_se()));
    if let Some(between) = &found.between {
        rows.push(spread("numbers-between", between.sd, between.log_sd_se));
    }
    let fit = [word("numbers-log-likelihood"), shown(found.log_likelihood)];
    rows.push(fit.into_iter().chain(["-", "-", "-"].map(str::to_owned)).collect());
    rows
}
