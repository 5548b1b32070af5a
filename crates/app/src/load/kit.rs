//! What a club can cut and lift: rolls with their lengths, weights; and what each asks of one swimmer.

use mechanics::elastic::{Fit, Law, NotUsable, Piece, Strands};
use mechanics::ladder::Rung;
use mechanics::spread::WithError;
use mechanics::torque::{Exercise, HandRaise, InputErrors, Movement, Outcome};
use quantity::{Length, Mass, Share, Torque};

use super::band;
use super::fields::Fields;
use super::movement::{self, Beside, Described};
use super::refusals;
use crate::facts::Problem;

/// A roll, and the lengths that may be cut from it.
#[derive(Debug, Clone, PartialEq)]
pub struct Roll {
    /// What the club calls it.
    pub name: String,
    /// How one strand pulls.
    pub law: Law,
    /// The calibration, where the law comes from one: what bounds its use.
    pub fit: Option<Fit>,
    /// Rest lengths that may be cut; for a loop all the way round.
    pub lengths: Vec<Length>,
    /// How it runs.
    pub strands: Strands,
}

/// One thing that can be pulled or lifted.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// A length of a roll, by its place.
    Cut {
        /// Which roll.
        roll: usize,
        /// Its rest length.
        rest: Length,
    },
    /// A weight.
    Weight(Mass),
}

/// What one thing asks of one swimmer, or why it is not offered.
#[derive(Debug, Clone, PartialEq)]
pub struct Offered {
    /// Which.
    pub option: Choice,
    /// Peak torque with the error of the kit alone, and with all of it.
    pub load: Result<Loaded, Vec<NotOffered>>,
}

/// What an offered thing asks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Loaded {
    /// Peak with the error of the kit alone: what steps are compared by.
    pub kit: WithError<Torque>,
    /// Peak with its whole error.
    pub whole: WithError<Torque>,
    /// Largest stretch of the movement, over rest length.
    pub stretch: Option<f64>,
}

/// Why a thing is not offered to this body.
#[derive(Debug, Clone, PartialEq)]
pub enum NotOffered {
    /// The band says why.
    Band(NotUsable),
    /// The piece or the movement makes no sense.
    Problem(Problem),
}

/// Reads every `[[roll]]` of a file.
pub(super) fn rolls(root: &Fields<'_>, beside: Beside<'_>) -> Vec<Roll> {
    root.list(&["roll", "rolls"])
        .iter()
        .enumerate()
        .filter_map(|(index, fields)| roll(fields, index, beside))
        .collect()
}

fn roll(fields: &Fields<'_>, index: usize, beside: Beside<'_>) -> Option<Roll> {
    let name = fields.text(&["name", "mark"]).unwrap_or_else(|| format!("roll {}", index + 1));
    let lengths = fields.lengths(&["lengths", "length", "rest"]);
    if lengths.as_ref().is_none_or(Vec::is_empty) {
        fields.missing("lengths_m", "load-why-lengths");
    }
    let around = fields.length(&["around", "hand_diameter"]);
    let strands = match fields.word(&["strands", "form"]).as_deref() {
        Some("single" | "open") => Strands::Single,
        Some("loop" | "closed") => Strands::Loop { around: around.unwrap_or(Length::from_metres(0.08)) },
        None if around.is_some() => Strands::Loop { around: around.unwrap_or(Length::from_metres(0.08)) },
        None => Strands::Single,
        Some(word) => {
            fields.report(fields.problem("strands", "load-strands").with("word", word.to_owned()));
            return None;
        }
    };
    let (law, fit) = law(fields, beside)?;
    fields.done();
    Some(Roll { name, law, fit, lengths: lengths?, strands })
}

/// The law of a roll, with its calibration where it comes from a file.
fn law(fields: &Fields<'_>, beside: Beside<'_>) -> Option<(Law, Option<Fit>)> {
    let Some(file) = fields.text(&["calibration", "calibration_file"]) else {
        return movement::law(fields, None, beside).map(|law| (law, None));
    };
    let Some(rest) = fields.length(&["calibration_rest"]) else {
        fields.missing("calibration_rest_m", "load-why-rest");
        return None;
    };
    let read = beside(std::path::Path::new(&file)).map_err(|problem| vec![problem]);
    match read.and_then(|text| band::read(&text, &band::Asked::of(rest))) {
        Ok(fitted) => Some((fitted.fit.law(), Some(fitted.fit))),
        Err(problems) => {
            for problem in problems {
                let path = format!("{file}: {}", problem.path);
                fields.report(Problem { path, ..problem });
            }
            None
        }
    }
}

/// What every length of every roll, or every weight, asks in one described movement.
pub fn offered(described: &Described, rolls: &[Roll], weights: &[Mass]) -> Vec<Offered> {
    let cuts = rolls.iter().enumerate().flat_map(|(roll, of)| {
        of.lengths.iter().map(move |rest| Offered {
            option: Choice::Cut { roll, rest: *rest },
            load: cut(described, of, *rest),
        })
    });
    let lifts =
        weights.iter().map(|mass| Offered { option: Choice::Weight(*mass), load: lift(described, *mass) });
    cuts.chain(lifts).collect()
}

fn cut(described: &Described, roll: &Roll, rest: Length) -> Result<Loaded, Vec<NotOffered>> {
    let problem = |problem: Problem| vec![NotOffered::Problem(problem)];
    let piece = Piece::new(roll.law, rest, roll.strands)
        .map_err(|refusal| problem(refusals::piece(&roll.name, &refusal)))?;
    let exercise = match described.movement.exercise {
        Exercise::TwoHandRotation(it) => {
            Exercise::TwoHandRotation(mechanics::torque::TwoHandRotation { piece, ..it })
        }
        Exercise::AnchoredRotation(it) => {
            Exercise::AnchoredRotation(mechanics::torque::AnchoredRotation { piece, ..it })
        }
        Exercise::Row(it) => Exercise::Row(mechanics::torque::Row { piece, ..it }),
        Exercise::HandRaise(_) | Exercise::BallCircles(_) | Exercise::PushUp(_) => {
            return Err(problem(Problem::at("geometry", "load-no-band-here")));
        }
    };
    let movement = Movement { exercise, ..described.movement };
    // The calibration says how well this roll's force is known where it is used.
    let errors = InputErrors { band: band_error(roll, &movement), ..described.errors };
    let loaded = loaded(&movement, &errors)?;
    let end = widest(&movement);
    let refusals = match &roll.fit {
        Some(fit) => piece.usable(end, fit).err().unwrap_or_default(),
        None => beyond_limit(&piece, end),
    };
    if refusals.is_empty() { Ok(loaded) } else { Err(refusals.into_iter().map(NotOffered::Band).collect()) }
}

/// Without a calibration only the common-practice ceiling of stretch, and slack, are known.
fn beyond_limit(piece: &Piece, end: Length) -> Vec<NotUsable> {
    use mechanics::elastic::{STRETCH_LIMIT, Stretch};
    let stretch = piece.stretch(end);
    let limit = Stretch::from_ratio(1.0 + STRETCH_LIMIT.fraction()).unwrap_or(Stretch::REST);
    if stretch <= Stretch::REST {
        vec![NotUsable::Slack(stretch)]
    } else if limit < stretch {
        vec![NotUsable::PastLimit { stretch, limit }]
    } else {
        Vec::new()
    }
}

/// The longest the band gets anywhere in the movement.
fn widest(movement: &Movement) -> Length {
    const STEPS: u32 = 60;
    let (from, to) = (movement.from.degrees(), movement.to.degrees());
    (0..=STEPS)
        .filter_map(|step| {
            let angle =
                quantity::Angle::from_degrees(from + (to - from) * f64::from(step) / f64::from(STEPS));
            movement.exercise.band_at(angle).map(|band| band.span)
        })
        .fold(Length::from_metres(0.0), Length::max)
}

fn band_error(roll: &Roll, movement: &Movement) -> Share {
    let usual = InputErrors::CALIBRATED.band;
    let at_end = movement.exercise.band_at(movement.to).map(|band| band.stretch);
    match (&roll.fit, at_end) {
        (Some(fit), Some(stretch)) => fit.band_error(stretch).unwrap_or(usual),
        // Nobody measured this roll: a fifth of the force.
        (None, _) => Share::from_fraction(0.2),
        (Some(_), None) => usual,
    }
}

fn lift(described: &Described, mass: Mass) -> Result<Loaded, Vec<NotOffered>> {
    let exercise = match described.movement.exercise {
        Exercise::HandRaise(it) => Exercise::HandRaise(HandRaise { weight: mass, ..it }),
        Exercise::BallCircles(it) => {
            Exercise::BallCircles(mechanics::torque::BallCircles { ball: mass, ..it })
        }
        _ => return Err(vec![NotOffered::Problem(Problem::at("geometry", "load-no-weight-here"))]),
    };
    loaded(&Movement { exercise, ..described.movement }, &described.errors)
}

fn loaded(movement: &Movement, errors: &InputErrors) -> Result<Loaded, Vec<NotOffered>> {
    let said = |refused: Vec<_>| -> Vec<NotOffered> {
        refused.iter().map(|refusal| NotOffered::Problem(refusals::exercise(refusal))).collect()
    };
    match movement.report(errors).map_err(said)? {
        Outcome::Torque(report) => {
            let size = |torque: Torque| Torque::from_newton_metres(torque.newton_metres().abs());
            let peak = report.peak();
            Ok(Loaded {
                kit: WithError { value: size(peak.value), sd: report.error.kit },
                whole: WithError { value: size(peak.value), sd: peak.sd },
                stretch: report.stretch.map(|(_, high)| high.ratio()),
            })
        }
        Outcome::HandLoad(_) => Err(vec![NotOffered::Problem(Problem::at("geometry", "load-no-band-here"))]),
    }
}

/// The rungs of a ladder: everything offered, keyed by its place in the list.
pub fn rungs(offered: &[Offered]) -> Vec<Rung<usize, Torque>> {
    offered
        .iter()
        .enumerate()
        .filter_map(|(key, offered)| {
            let load = offered.load.as_ref().ok()?.kit;
            (0.0 < load.value.newton_metres()).then_some(Rung { key, load })
        })
        .collect()
}
