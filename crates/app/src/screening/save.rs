//! A row into the record: new, unchanged, or a correction. What is on record and was not typed again stays; a test that
//! was stopped for pain is not turned into a value in passing.

use jiff::civil::Date;
use store::{FactId, SubjectId};
use trade::screening::measure::Measure;

use super::cell::shown;
use super::row::{Row, Setting};
use crate::desk::{Desk, Draft};
use crate::error::AppError;
use crate::facts::{FindingFact, GrowthFact, Kind, PainFact, ScreeningFact, Units, WithoutValue, read_json};

/// What a row comes to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Prepared {
    /// Nothing new.
    Unchanged,
    /// Facts to record, all or none.
    Record(Vec<Draft>),
    /// It would turn "stopped for pain" into a value: a person must say so.
    TakesPainBack,
}

/// What a station wrote of one swimmer on one day, as it is on record.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OnRecord {
    /// Its screening fact.
    pub screening: Option<(FactId, ScreeningFact)>,
    /// The growth fact of that day.
    pub growth: Option<(FactId, GrowthFact)>,
    /// Pain reports of that day that a station wrote.
    pub pains: Vec<PainFact>,
}

/// Looks up what a station wrote.
pub fn on_record(desk: &Desk, subject: SubjectId, date: Date, station: &str) -> Result<OnRecord, AppError> {
    let mut found = OnRecord::default();
    for live in desk.store().live_facts(subject)? {
        let id = live.fact.told.id;
        match Kind::from_word(&live.fact.told.kind) {
            Some(Kind::Screening) => {
                let fact = read_json::<ScreeningFact>(live.payload()).ok();
                let own = fact.filter(|fact| fact.date == date && fact.station.as_deref() == Some(station));
                if let Some(fact) = own {
                    found.screening = Some((id, fact));
                }
            }
            Some(Kind::Growth) => {
                let fact = read_json::<GrowthFact>(live.payload()).ok();
                if let Some(fact) = fact.filter(|fact| fact.date == date) {
                    found.growth = Some((id, fact));
                }
            }
            Some(Kind::Pain) => {
                let fact = read_json::<PainFact>(live.payload()).ok();
                let own = fact.filter(|fact| fact.date == date && fact.asked.as_deref() == Some("screening"));
                found.pains.extend(own);
            }
            _ => {}
        }
    }
    Ok(found)
}

/// A row that has no problem left, as facts. `meant` when a person has said that unusual values, or a value in place
/// of pain, are meant. `why` is the reason that a correction carries.
pub fn prepare(
    desk: &Desk,
    subject: SubjectId,
    setting: &Setting,
    row: &Row,
    (meant, why): (bool, &str),
) -> Result<Prepared, AppError> {
    let before = on_record(desk, subject, setting.date, setting.station.word())?;
    let mut drafts = Vec::new();
    if let Some(new) = row.screening(setting) {
        match &before.screening {
            None => drafts.push(Draft::new(&new)),
            Some((id, old)) => {
                let whole = over(old, new, setting.units);
                if !meant && takes_pain_back(old, &whole) {
                    return Ok(Prepared::TakesPainBack);
                }
                if differs(old, &whole) {
                    drafts.push(Draft::new(&whole).correcting(*id, why));
                }
            }
        }
    }
    if let Some(new) = &row.growth {
        match &before.growth {
            None => drafts.push(Draft::new(new)),
            Some((id, old)) => {
                let whole = GrowthFact {
                    sitting_height_cm: new.sitting_height_cm.or(old.sitting_height_cm),
                    mass_kg: new.mass_kg.or(old.mass_kg),
                    ..new.clone()
                };
                if whole != *old {
                    drafts.push(Draft::new(&whole).correcting(*id, why));
                }
            }
        }
    }
    if let Some(pain) = &row.pain
        && !before.pains.contains(pain)
    {
        // Pain is added, never put in the place of pain that was said before.
        drafts.push(Draft::new(pain));
    }
    Ok(if drafts.is_empty() { Prepared::Unchanged } else { Prepared::Record(drafts) })
}

/// The new findings over the old ones; what was not typed again stays.
fn over(old: &ScreeningFact, new: ScreeningFact, units: Units) -> ScreeningFact {
    let mut findings = old.findings.clone();
    for finding in &new.findings {
        let same = |known: &&mut FindingFact| known.key == finding.key && known.side == finding.side;
        match findings.iter_mut().find(same) {
            Some(known) if is_same_value(known, finding, units) => {}
            Some(known) => *known = finding.clone(),
            None => findings.push(finding.clone()),
        }
    }
    findings.sort_by(|one, other| (&one.key, one.side).cmp(&(&other.key, other.side)));
    let mut visible_hollow = old.visible_hollow.clone();
    visible_hollow.extend(&new.visible_hollow);
    visible_hollow.sort_unstable();
    visible_hollow.dedup();
    ScreeningFact {
        findings,
        visible_hollow,
        looked_behind: old.looked_behind || new.looked_behind,
        device: new.device.clone().or_else(|| old.device.clone()),
        hours_since_swim: new.hours_since_swim.or(old.hours_since_swim),
        clinician: new.clinician.clone().or_else(|| old.clinician.clone()),
        ..new
    }
}

/// A box shows two decimals: a value that comes back as it was shown is the same value.
fn is_same_value(one: &FindingFact, other: &FindingFact, units: Units) -> bool {
    let Some(measure) = Measure::of(&one.key) else { return one.value == other.value };
    let alike = |one: f64, other: f64| shown(measure, one, units) == shown(measure, other, units);
    match (one.value, other.value) {
        (Some(one_value), Some(other_value)) => {
            alike(one_value, other_value)
                && one.trials.len() == other.trials.len()
                && one.trials.iter().zip(&other.trials).all(|(one, other)| alike(*one, *other))
        }
        (None, None) => one.without_value == other.without_value,
        _ => false,
    }
}

fn differs(old: &ScreeningFact, new: &ScreeningFact) -> bool {
    old.findings != new.findings
        || old.visible_hollow != new.visible_hollow
        || old.looked_behind != new.looked_behind
}

fn takes_pain_back(old: &ScreeningFact, new: &ScreeningFact) -> bool {
    let hurt = |finding: &&FindingFact| finding.without_value == Some(WithoutValue::Pain);
    old.findings.iter().filter(hurt).any(|finding| {
        let now = new.findings.iter().find(|now| now.key == finding.key && now.side == finding.side);
        now.is_none_or(|now| now.without_value != Some(WithoutValue::Pain))
    })
}
