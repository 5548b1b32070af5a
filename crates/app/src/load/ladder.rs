//! A ladder for one described swimmer: the kit's rungs in even steps, none smaller than its error.

use mechanics::ladder::{Ladder, StepFit, StepTarget, ladder};
use mechanics::strength::Strength;
use quantity::{Mass, Share, Torque};
use serde::Serialize;

use super::fields::{Fields, Found};
use super::kit::{self, Choice, NotOffered, Offered, Roll};
use super::movement::{self, Beside, Described, finished};
use crate::facts::Problem;

/// Name and version of the answer.
pub const SHAPE: &str = "cuffwright.ladder/1";

/// A swimmer, an exercise and the kit.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// The exercise for this body.
    pub described: Described,
    /// Rolls and what may be cut from them.
    pub rolls: Vec<Roll>,
    /// Weights.
    pub weights: Vec<Mass>,
    /// How large a step should be.
    pub target: StepTarget,
}

/// Reads a file. Every problem is listed.
pub fn read(text: &str, beside: Beside<'_>) -> Result<Asked, Vec<Problem>> {
    let table: toml::Table = text.parse().map_err(|error: toml::de::Error| {
        vec![Problem::at("", "load-toml").with("detail", error.to_string())]
    })?;
    let found = Found::default();
    let root = Fields::of(&table, "", &found);
    let asked = asked(&root, beside);
    root.done();
    finished(asked, found)
}

fn asked(root: &Fields<'_>, beside: Beside<'_>) -> Option<Asked> {
    let rolls = kit::rolls(root, beside);
    let weights = weights(root);
    if rolls.is_empty() && weights.is_empty() {
        root.report(root.problem("roll", "load-no-kit"));
    }
    let target = target(root);
    let described = movement::described(root, any_piece(&rolls), beside);
    Some(Asked { described: described?, rolls, weights, target: target? })
}

pub(super) fn weights(root: &Fields<'_>) -> Vec<Mass> {
    let kilograms = root.numbers(&["weights_kg"]).unwrap_or_default().into_iter().map(Mass::from_kilograms);
    let pounds = root.numbers(&["weights_lb"]).unwrap_or_default().into_iter().map(Mass::from_pounds);
    kilograms.chain(pounds).collect()
}

/// A described movement needs some band; which one is decided rung by rung.
pub(super) fn any_piece(rolls: &[Roll]) -> Option<mechanics::elastic::Piece> {
    rolls.iter().find_map(|roll| {
        roll.lengths
            .iter()
            .find_map(|rest| mechanics::elastic::Piece::new(roll.law, *rest, roll.strands).ok())
    })
}

/// The step aimed at: 20 to 30 % where the file does not say.
pub(super) fn target(root: &Fields<'_>) -> Option<StepTarget> {
    let Some(fields) = root.inside(&["target", "step"]) else { return Some(StepTarget::USUAL) };
    let low = fields.share(&["low", "from"]).unwrap_or(StepTarget::USUAL.low);
    let high = fields.share(&["high", "to"]).unwrap_or(StepTarget::USUAL.high);
    fields.done();
    if 0.0 < low.fraction() && low <= high && high.fraction() < 10.0 {
        return Some(StepTarget { low, high });
    }
    let said = fields.problem("low_pct", "load-target");
    fields.report(said.with("low", low.percent().to_string()).with("high", high.percent().to_string()));
    None
}

/// The answer in JSON.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// Name and version.
    pub shape: &'static str,
    /// Which geometry.
    pub geometry: &'static str,
    /// The step aimed at, per cent.
    pub target_pct: [f64; 2],
    /// From light to heavy.
    pub rungs: Vec<OneRung>,
    /// One fewer than there are rungs.
    pub steps: Vec<OneStep>,
    /// Distinct rungs left out for the sake of even steps.
    pub spare: Vec<OneRung>,
    /// What this body is not offered, and why.
    pub not_offered: Vec<Refused>,
}

/// One rung.
#[derive(Debug, Serialize)]
pub struct OneRung {
    /// Roll and length, or weight.
    pub name: String,
    /// Roll, where it is a band.
    pub roll: Option<String>,
    /// Rest length, metres.
    pub rest_m: Option<f64>,
    /// Weight, kilograms.
    pub weight_kg: Option<f64>,
    /// Peak torque, newton metres.
    pub torque_nm: f64,
    /// Its error from the kit alone, which steps are compared by.
    pub sd_kit_nm: f64,
    /// Its whole error.
    pub sd_nm: f64,
    /// Largest stretch, over rest length.
    pub stretch: Option<f64>,
    /// Share of the strength, where one is known.
    pub share_of_strength: Option<f64>,
    /// Others that cannot be told apart from it.
    pub same_as: Vec<String>,
}

/// From one rung to the next.
#[derive(Debug, Serialize)]
pub struct OneStep {
    /// The lower rung.
    pub from: String,
    /// The upper rung.
    pub to: String,
    /// Growth of the load, per cent.
    pub size_pct: f64,
    /// Its error, per cent points.
    pub sd_pct: f64,
    /// `small`, `within` or `too-large`.
    pub fit: &'static str,
}

/// Something that is not offered.
#[derive(Debug, Serialize)]
pub struct Refused {
    /// Roll and length, or weight.
    pub name: String,
    /// Words for a program: `past-calibration`, `past-200-percent`, `slack`, or a sentence's name.
    pub why: Vec<&'static str>,
    /// By how much stretch, where it is stretched too far.
    pub by_stretch: Option<f64>,
}

/// Makes the ladder.
pub fn answer(asked: &Asked) -> Result<Answer, Vec<Problem>> {
    let offered = kit::offered(&asked.described, &asked.rolls, &asked.weights);
    let rungs = kit::rungs(&offered);
    let not_offered = offered.iter().filter_map(|one| refused(one, &asked.rolls)).collect();
    let strength = asked.described.strength.as_ref();
    let one = |key: usize, same: Vec<String>| one_rung(&offered[key], &asked.rolls, strength, same);
    let empty = Answer {
        shape: SHAPE,
        geometry: asked.described.geometry.word(),
        target_pct: [asked.target.low.percent(), asked.target.high.percent()],
        rungs: Vec::new(),
        steps: Vec::new(),
        spare: Vec::new(),
        not_offered,
    };
    if rungs.is_empty() {
        return Ok(empty);
    }
    let Ladder { rungs, steps, spare } = ladder(&rungs, &asked.target)
        .map_err(|_| vec![Problem::at("target", "load-target").with("low", "").with("high", "")])?;
    let standing = |standing: &mechanics::ladder::Standing<usize, Torque>| {
        let same = standing.same.iter().map(|rung| name(&offered[rung.key], &asked.rolls)).collect();
        one(standing.rung.key, same)
    };
    let shown: Vec<OneRung> = rungs.iter().filter_map(standing).collect();
    let steps = steps
        .iter()
        .zip(shown.windows(2))
        .map(|(step, pair)| OneStep {
            from: pair[0].name.clone(),
            to: pair[1].name.clone(),
            size_pct: step.size.value.percent(),
            sd_pct: step.size.sd.percent(),
            fit: match step.fit {
                StepFit::Small => "small",
                StepFit::Within => "within",
                StepFit::TooLarge => "too-large",
            },
        })
        .collect();
    Ok(Answer { rungs: shown, steps, spare: spare.iter().filter_map(standing).collect(), ..empty })
}

/// What people call a rung.
pub(super) fn name(offered: &Offered, rolls: &[Roll]) -> String {
    match &offered.option {
        Choice::Cut { roll, rest } => {
            let roll = rolls.get(*roll).map_or("", |roll| roll.name.as_str());
            format!("{roll}, {:.0} cm", rest.centimetres())
        }
        Choice::Weight(mass) => format!("{} kg", mass.kilograms()),
    }
}

fn one_rung(
    offered: &Offered,
    rolls: &[Roll],
    strength: Option<&Strength>,
    same_as: Vec<String>,
) -> Option<OneRung> {
    let load = offered.load.as_ref().ok()?;
    let (roll, rest_m, weight_kg) = match &offered.option {
        Choice::Cut { roll, rest } => {
            (rolls.get(*roll).map(|roll| roll.name.clone()), Some(rest.metres()), None)
        }
        Choice::Weight(mass) => (None, None, Some(mass.kilograms())),
    };
    Some(OneRung {
        name: name(offered, rolls),
        roll,
        rest_m,
        weight_kg,
        torque_nm: load.kit.value.newton_metres(),
        sd_kit_nm: load.kit.sd.newton_metres(),
        sd_nm: load.whole.sd.newton_metres(),
        stretch: load.stretch,
        share_of_strength: strength
            .and_then(|strength| strength.share(load.whole))
            .map(|share| share.value.fraction()),
        same_as,
    })
}

fn refused(offered: &Offered, rolls: &[Roll]) -> Option<Refused> {
    use mechanics::elastic::NotUsable;
    let reasons = offered.load.as_ref().err()?;
    let mut by_stretch: Option<Share> = None;
    let why = reasons
        .iter()
        .map(|reason| match reason {
            NotOffered::Band(NotUsable::PastCalibration(by)) => {
                by_stretch = Some(*by);
                "past-calibration"
            }
            NotOffered::Band(NotUsable::PastLimit { stretch, limit }) => {
                by_stretch = by_stretch.or(Some(Share::from_fraction(stretch.ratio() - limit.ratio())));
                "past-200-percent"
            }
            NotOffered::Band(NotUsable::Slack(_)) => "slack",
            NotOffered::Problem(problem) => problem.says,
        })
        .collect();
    Some(Refused { name: name(offered, rolls), why, by_stretch: by_stretch.map(Share::fraction) })
}
