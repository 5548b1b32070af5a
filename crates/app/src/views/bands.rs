//! What each band was measured to pull, how far it has moved since, and whether it may stay in use.

use jiff::civil::Date;
use mechanics::elastic::{
    Drift, Finding, Fit, Inspection, Service, Stretch, Unknown, WearRule, WearVerdict, drift, wear,
};
use quantity::Force;

use super::kit::{Piece, pieces};
use crate::desk::{Club, Desk};
use crate::facts::{CalibrationFact, KitPieceFact, KitWord, Problem};
use crate::text::MeasuredBand;

/// One band with what was measured on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// The piece and its looks.
    pub piece: Piece,
    /// Calibrations up to the day asked about, newest first, each with its law or why there is none.
    pub calibrations: Vec<(CalibrationFact, Result<Fit, Vec<Problem>>)>,
    /// What the wear rule says.
    pub wear: WearVerdict,
}

impl Band {
    /// The newest law.
    pub fn fit(&self) -> Option<&Fit> {
        self.calibrations.iter().find_map(|(_, fit)| fit.as_ref().ok())
    }

    /// The calibration that the newest law comes from.
    pub fn newest(&self) -> Option<&CalibrationFact> {
        self.calibrations.iter().find(|(_, fit)| fit.is_ok()).map(|(fact, _)| fact)
    }

    /// In service, found sound, and not withdrawn by the wear rule.
    pub fn may_be_used(&self) -> bool {
        self.piece.may_be_used() && !matches!(self.wear, WearVerdict::Withdrawn(_))
    }
}

/// Every band, by its mark.
pub fn bands(desk: &Desk, on: Date) -> Vec<Band> {
    let parameters = &desk.protocol().parameters;
    let rule = WearRule {
        largest_drift: quantity::Share::from_percent(parameters.band_drift_pct),
        longest_months: u32::from(parameters.band_replace_months),
        days_between_inspections: u32::from(parameters.kit_inspection_weeks) * 7,
        ..WearRule::USUAL
    };
    pieces(desk, on)
        .into_iter()
        .filter(|piece| piece.fact.kind == KitWord::Band)
        .map(|piece| {
            let calibrations = calibrations(desk.club(), &piece.fact.mark, on);
            let wear = wear(&service(&piece, &calibrations, on), &rule);
            Band { piece, calibrations, wear }
        })
        .collect()
}

type Calibrated = (CalibrationFact, Result<Fit, Vec<Problem>>);

fn calibrations(club: &Club, mark: &str, on: Date) -> Vec<Calibrated> {
    let of = club.calibrations.iter().rev().filter(|fact| fact.mark == mark && fact.date <= on);
    of.map(|fact| (fact.clone(), fact.fit())).collect()
}

/// What is on record about a piece. Repetitions are not counted by anybody yet, and stay unknown.
fn service(piece: &Piece, calibrations: &[Calibrated], on: Date) -> Service {
    let days = |since: Date| u32::try_from(trade::history::days_between(since, on)).unwrap_or(0);
    Service {
        repetitions: None,
        months: piece.fact.in_service.map(|since| days(since) * 12 / 365),
        inspection: piece.last.as_ref().map(|look| Inspection {
            days_ago: days(look.date),
            nick: !look.sound,
            whitened_or_sticky: false,
        }),
        drift: since_first(calibrations),
    }
}

/// Newest against oldest, at double length or as near to it as both were measured.
fn since_first(calibrations: &[Calibrated]) -> Option<Drift> {
    let fits: Vec<&Fit> = calibrations.iter().filter_map(|(_, fit)| fit.as_ref().ok()).collect();
    let (now, first) = (fits.first()?, fits.last()?);
    if fits.len() < 2 {
        return None;
    }
    let most = now.range().1.ratio().min(first.range().1.ratio()).min(2.0);
    drift(first, now, Stretch::from_ratio(most)?)
}

/// Bands in service with a law, by what they pull at double length.
///
/// A piece that was withdrawn, or whose double length was not reached in the measuring, stands for no rung.
pub fn measured(club: &Club) -> Vec<MeasuredBand> {
    let in_service = |piece: &&KitPieceFact| piece.kind == KitWord::Band && piece.withdrawn.is_none();
    let mut all: Vec<MeasuredBand> = club
        .kit
        .iter()
        .filter(in_service)
        .filter_map(|piece| {
            let newest = club.calibrations.iter().rev().find(|fact| fact.mark == piece.mark)?;
            let fit = newest.fit().ok()?;
            let double = Stretch::from_ratio(2.0)?;
            (double <= fit.range().1).then(|| MeasuredBand {
                mark: piece.mark.clone(),
                at_double: fit.predict(double).curve.value,
            })
        })
        .collect();
    all.sort_by(|one, other| one.at_double.total_cmp(&other.at_double).then(one.mark.cmp(&other.mark)));
    all
}

/// Force at double length, for a list.
pub fn at_double(fit: &Fit) -> Option<Force> {
    Some(fit.predict(Stretch::from_ratio(2.0)?).curve.value)
}

/// A sentence's name, with the numbers it takes.
pub type Sentence = (&'static str, Vec<(&'static str, String)>);

/// The words of a wear verdict: the name of its sentence, and of each finding with its numbers.
pub fn wear_words(verdict: &WearVerdict) -> (&'static str, Vec<Sentence>) {
    match verdict {
        WearVerdict::InUse => ("wear-in-use", Vec::new()),
        WearVerdict::CannotTell(missing) => {
            let word = |unknown: &Unknown| match unknown {
                Unknown::Inspection => "wear-unknown-inspection",
                Unknown::Months => "wear-unknown-months",
                Unknown::Repetitions => "wear-unknown-repetitions",
                Unknown::Drift => "wear-unknown-drift",
            };
            ("wear-cannot-tell", missing.iter().map(|unknown| (word(unknown), Vec::new())).collect())
        }
        WearVerdict::Recheck(found) => ("wear-recheck", found.iter().map(finding).collect()),
        WearVerdict::Withdrawn(found) => ("wear-withdrawn", found.iter().map(finding).collect()),
    }
}

fn finding(finding: &Finding) -> (&'static str, Vec<(&'static str, String)>) {
    match finding {
        Finding::Damaged(_) => ("wear-damaged", Vec::new()),
        Finding::Drifted { drift, limit } => (
            "wear-drifted",
            vec![
                ("change", format!("{:+.0}", drift.change.value.percent())),
                ("sd", format!("{:.0}", drift.change.sd.percent())),
                ("limit", format!("{:.0}", limit.percent())),
            ],
        ),
        Finding::Old { months, limit } => {
            ("wear-old", vec![("months", months.to_string()), ("limit", limit.to_string())])
        }
        Finding::Pulled { repetitions, limit } => {
            ("wear-pulled", vec![("repetitions", repetitions.to_string()), ("limit", limit.to_string())])
        }
        Finding::InspectionOverdue { days_ago, limit } => {
            ("wear-inspection", vec![("days", days_ago.to_string()), ("limit", limit.to_string())])
        }
    }
}
