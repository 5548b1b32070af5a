//! What the club's measured kit asks of one swimmer: from the scale to the seconds, exercise by exercise.
//!
//! Only what was measured is reckoned with: a band without a calibration is nominal and stays out. For a minor no
//! strength is ever assumed; without a strength the starting table stands alone.

use jiff::civil::Date;
use mechanics::body::{Body, LengthSet, Person as OfPerson, Sex, Tape, Years};
use mechanics::elastic::{Fit, NotUsable, Piece, Strands};
use mechanics::endurance::Joint;
use mechanics::ladder::{Ladder, Rung as LadderRung, StepTarget, ladder};
use mechanics::spread::WithError;
use mechanics::strength::{Obtained, Rotation, Strength, Test, prior};
use mechanics::torque::{HandLoad, InputErrors, Movement, Outcome, TorqueReport};
use quantity::{Force, HoldTime, Length, Mass, Share, Torque};
use trade::history::{self, Outcome as Value};
use trade::name::RungId;
use trade::protocol::{Exercise, Load, Rung};
use trade::side::Side;

use super::bands::{Band, bands};
use crate::desk::{Desk, Person};
use crate::reckon::{self, Kit};

/// Everything reckoned for one swimmer on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct Loads {
    /// The body, or what is missing for one.
    pub body: Result<Body, Missing>,
    /// Exercise by exercise, left before right.
    pub lines: Vec<LineLoads>,
    /// What the hands carry in each push-up of the protocol, in the order of its ladder.
    pub push_ups: Vec<PushUpLoad>,
}

/// One rung of a push-up.
#[derive(Debug, Clone, PartialEq)]
pub struct PushUpLoad {
    /// Which exercise.
    pub exercise: trade::name::ExerciseId,
    /// What the rung is called.
    pub rung: String,
    /// What the hands carry.
    pub load: HandLoad,
}

/// What keeps a body from being reckoned with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// No height and mass on record together.
    Size,
    /// Sex is not stated, and there is a table for each.
    Sex,
    /// What is on record makes no body.
    NoBody,
}

/// One exercise on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct LineLoads {
    /// Which exercise.
    pub exercise: trade::name::ExerciseId,
    /// Which side, where one arm works.
    pub side: Option<Side>,
    /// Strength of the turning that this exercise works, where it was measured or may be assumed.
    pub strength: Option<Strength>,
    /// What each measured band or each weight asks, in even steps.
    pub ladder: Option<Ladder<usize, Torque>>,
    /// Everything reckoned, by the keys of the ladder.
    pub reckoned: Vec<Reckoned>,
    /// What this body is not offered, and why.
    pub not_offered: Vec<(String, Vec<NotUsable>)>,
    /// Where the calibration set begins.
    pub begins: Option<Begins>,
}

/// One band or weight, reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct Reckoned {
    /// Mark of the piece, or the rung's own name.
    pub name: String,
    /// The protocol's rung that it stands for.
    pub rung: Option<RungId>,
    /// The movement.
    pub movement: Movement,
    /// Torque through it.
    pub report: TorqueReport,
    /// The peak as a part of strength.
    pub share: Option<WithError<Share>>,
}

/// Where the calibration set begins: the lowest of up to three.
#[derive(Debug, Clone, PartialEq)]
pub struct Begins {
    /// What the starting table says.
    pub table: RungId,
    /// The load of the table's rung, where it was measured.
    pub table_load: Option<Torque>,
    /// The largest load whose first set surely lasts a minute, by the curve of adults.
    pub minute: Option<Torque>,
    /// 30 % of measured strength.
    pub part_of_strength: Option<Torque>,
    /// Why the table stands alone, where it does.
    pub alone: Option<Alone>,
    /// The heaviest reckoned rung that none of them is below, by its place; none where even the lightest is too heavy.
    pub chosen: Option<usize>,
}

/// Why the table stands alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Alone {
    /// Under 15.
    Young,
    /// Nobody measured the strength.
    Unmeasured,
    /// The table's rung was not measured, so it cannot be compared.
    NotMeasuredKit,
}

/// Below this age the starting table alone says where to begin.
const TABLE_ALONE_UNDER: i16 = 15;
/// The part of measured strength above which no calibration set begins.
const PART_OF_STRENGTH: f64 = 0.30;
/// A first set should surely last this long.
const MINUTE: HoldTime = HoldTime::from_seconds(60.0);
/// Re-test error of a rotation test in young swimmers (Yoma 2021), as a part of the reading.
const NOISE: Share = Share::from_fraction(0.05);

/// The body of a swimmer on a day.
pub fn body(person: &Person, on: Date) -> Result<Body, Missing> {
    let history = &person.read.history;
    let sized = history.growth.iter().rev().find(|measure| measure.date <= on && measure.mass.is_some());
    let sized = sized.ok_or(Missing::Size)?;
    let mass = sized.mass.ok_or(Missing::Size)?;
    let sex = match history.swimmer.sex {
        history::Sex::Female => Sex::Female,
        history::Sex::Male => Sex::Male,
        history::Sex::Unstated => return Err(Missing::Sex),
    };
    let age = Years(u8::try_from(history.swimmer.age_on(on).clamp(0, 120)).unwrap_or(0));
    // The newest length of each part counts, whenever it was taken.
    let newest = |of: fn(&crate::facts::ArmLengthsFact) -> Option<f64>| {
        let known = person.read.arms.iter().rev().filter(|arms| arms.date <= on).find_map(of);
        known.and_then(|metres| Length::try_from_metres(metres).ok())
    };
    let tape = Tape {
        upper_arm: newest(|arms| arms.upper_arm_m),
        forearm: newest(|arms| arms.forearm_m),
        wrist_to_knuckle: newest(|arms| arms.wrist_to_knuckle_m),
        elbow_spacing: newest(|arms| arms.elbow_spacing_m),
        ..Tape::default()
    };
    let who = OfPerson { sex, age, mass, stature: sized.height };
    Body::estimate(who, LengthSet::DrillisContini, &tape).map_err(|_| Missing::NoBody)
}

/// Everything for one swimmer.
pub fn loads(desk: &Desk, person: &Person, on: Date) -> Loads {
    let body = body(person, on);
    let bands: Vec<Band> = bands(desk, on).into_iter().filter(Band::may_be_used).collect();
    let lines = match &body {
        Err(_) => Vec::new(),
        Ok(body) => {
            let exercises = desk.protocol().exercises.iter();
            exercises
                .flat_map(|exercise| {
                    let sides: &[Option<Side>] = match exercise.arms {
                        trade::protocol::Arms::One => &[Some(Side::Left), Some(Side::Right)],
                        trade::protocol::Arms::Both | trade::protocol::Arms::Midline => &[None],
                    };
                    sides.iter().map(move |side| (exercise, *side))
                })
                .filter_map(|(exercise, side)| line(desk, person, body, &bands, exercise, side, on))
                .collect()
        }
    };
    let push_ups = body.as_ref().map(|body| push_ups(desk, body)).unwrap_or_default();
    Loads { body, lines, push_ups }
}

fn push_ups(desk: &Desk, body: &Body) -> Vec<PushUpLoad> {
    let exercises = desk.protocol().exercises.iter();
    exercises
        .flat_map(|exercise| exercise.ladder.iter().map(move |rung| (exercise, rung)))
        .filter_map(|(exercise, rung)| {
            let load = reckon::push_up(exercise, &rung.id, body)?;
            Some(PushUpLoad { exercise: exercise.id.clone(), rung: desk.reader().rung_name(rung), load })
        })
        .collect()
}

fn line(
    desk: &Desk,
    person: &Person,
    body: &Body,
    bands: &[Band],
    exercise: &Exercise,
    side: Option<Side>,
    on: Date,
) -> Option<LineLoads> {
    let rotation = reckon::rotation(exercise);
    let strength = strength(person, body, rotation, side, on);
    let mut reckoned = Vec::new();
    let mut not_offered = Vec::new();
    for rung in exercise.ladder.iter().filter(|rung| !rung.not_heavier) {
        match rung.load {
            Load::Band(_) => {}
            Load::Weight(mass) => {
                reckoned.extend(weight(desk, exercise, rung, mass, body, strength.as_ref()))
            }
            Load::Unloaded => {
                let none = Mass::from_kilograms(0.0);
                reckoned.extend(weight(desk, exercise, rung, none, body, strength.as_ref()));
            }
            Load::Position => {}
        }
    }
    let pulls_bands = exercise.ladder.iter().any(|rung| matches!(rung.load, Load::Band(_)));
    for band in bands.iter().filter(|_| pulls_bands) {
        let Some(fit) = band.fit() else { continue };
        match pulled(desk, exercise, band, fit, body, strength.as_ref()) {
            Some(Ok(one)) => reckoned.push(one),
            Some(Err(why)) => not_offered.push((band.piece.fact.mark.clone(), why)),
            None => {}
        }
    }
    if reckoned.is_empty() && not_offered.is_empty() {
        return None;
    }
    let target = target(desk);
    let rungs: Vec<LadderRung<usize, Torque>> = reckoned
        .iter()
        .enumerate()
        .map(|(key, one)| LadderRung { key, load: kit_load(&one.report) })
        .filter(|rung| 0.0 < rung.load.value.newton_metres())
        .collect();
    let begins = begins(desk, person, exercise, &reckoned, strength.as_ref(), on);
    Some(LineLoads {
        exercise: exercise.id.clone(),
        side,
        strength,
        ladder: ladder(&rungs, &target).ok(),
        reckoned,
        not_offered,
        begins,
    })
}

/// The step aimed at by the protocol.
fn target(desk: &Desk) -> StepTarget {
    let [low, high] = desk.protocol().parameters.level_step_target.map(Share::from_fraction);
    StepTarget { low, high }
}

/// The size of the peak with the error of the kit alone, which steps are compared by.
pub fn kit_load(report: &TorqueReport) -> WithError<Torque> {
    let size = Torque::from_newton_metres(report.curve.peak.torque.newton_metres().abs());
    WithError { value: size, sd: report.error.kit }
}

fn weight(
    desk: &Desk,
    exercise: &Exercise,
    rung: &Rung,
    mass: Mass,
    body: &Body,
    strength: Option<&Strength>,
) -> Option<Reckoned> {
    let movement = reckon::movement(exercise, Some(&rung.id), body, Kit::Weight(mass))?;
    let Ok(Outcome::Torque(report)) = movement.report(&InputErrors::CALIBRATED) else { return None };
    let share = strength.and_then(|strength| strength.share(report.peak()));
    Some(Reckoned {
        name: desk.reader().rung_name(rung),
        rung: Some(rung.id.clone()),
        movement,
        report,
        share,
    })
}

fn pulled(
    desk: &Desk,
    exercise: &Exercise,
    band: &Band,
    fit: &Fit,
    body: &Body,
    strength: Option<&Strength>,
) -> Option<Result<Reckoned, Vec<NotUsable>>> {
    let fact = &band.piece.fact;
    let rest = Length::try_from_metres(fact.rest_length_m?).ok()?;
    let piece = Piece::new(fit.law(), rest, Strands::Single).ok()?;
    let movement = reckon::movement(exercise, None, body, Kit::Band(piece))?;
    let longest = [movement.from, movement.to]
        .iter()
        .filter_map(|angle| movement.exercise.band_at(*angle).map(|at| at.span))
        .fold(Length::from_metres(0.0), Length::max);
    if let Err(why) = piece.usable(longest, fit) {
        return Some(Err(why));
    }
    let at_end = movement.exercise.band_at(movement.to)?.stretch;
    let known = fit.band_error(at_end).unwrap_or(InputErrors::CALIBRATED.band);
    let Ok(Outcome::Torque(report)) =
        movement.report(&InputErrors { band: known, ..InputErrors::CALIBRATED })
    else {
        return None;
    };
    let share = strength.and_then(|strength| strength.share(report.peak()));
    let reader = desk.reader();
    let rung = exercise
        .ladder
        .iter()
        .find(|rung| reader.measured_for(rung).is_some_and(|measured| measured.mark == fact.mark))
        .map(|rung| rung.id.clone());
    Some(Ok(Reckoned { name: fact.mark.clone(), rung, movement, report, share }))
}

/// Strength of a rotation: the newest test of that side with its lever, or for an adult the assumed mean.
fn strength(
    person: &Person,
    body: &Body,
    rotation: Option<Rotation>,
    side: Option<Side>,
    on: Date,
) -> Option<Strength> {
    let rotation = rotation?;
    let key = match rotation {
        Rotation::External => "er_force",
        Rotation::Internal => "ir_force",
    };
    measured(person, body, key, side, on).or_else(|| prior(rotation, body.person.mass, body.person.age).ok())
}

fn measured(person: &Person, body: &Body, key: &str, side: Option<Side>, on: Date) -> Option<Strength> {
    let newest = |key: &str, side: Option<Side>| -> Option<f64> {
        person
            .read
            .history
            .screenings
            .iter()
            .rev()
            .filter(|screening| screening.date <= on)
            .flat_map(|screening| &screening.findings)
            .find_map(|finding| match finding.outcome {
                Value::Measured(value) if finding.key == key && finding.side == side => Some(value),
                _ => None,
            })
    };
    let force = newest(key, side)?;
    // The pad sits just above the wrist; where nobody wrote the lever down it is the forearm by the body.
    let lever = newest("lever_arm", side).or_else(|| newest("lever_arm", None));
    let lever = lever
        .and_then(|metres| Length::try_from_metres(metres).ok())
        .unwrap_or(body.forearm.length.value.value);
    // Turning with the forearm level: the arm's weight has no part in it.
    let limb = WithError { value: Torque::ZERO, sd: Torque::ZERO };
    Test { force: Force::from_newtons(force), lever, limb, noise: NOISE }.strength().ok()
}

fn begins(
    desk: &Desk,
    person: &Person,
    exercise: &Exercise,
    reckoned: &[Reckoned],
    strength: Option<&Strength>,
    on: Date,
) -> Option<Begins> {
    let swimmer = &person.read.history.swimmer;
    let row = trade::dosing::start::row_for(desk.protocol(), swimmer, on)?;
    let lax = desk.assess(person, on).gate.tracks.hypermobile.is_some();
    let table = trade::dosing::start::rung_for(row, exercise, lax)?;
    let size = |one: &Reckoned| kit_load(&one.report).value;
    let table_at = reckoned.iter().find(|one| one.rung.as_ref() == Some(&table));
    let measured = strength.filter(|strength| strength.from == Obtained::Measured);
    let young = swimmer.age_on(on) < TABLE_ALONE_UNDER;
    let of_strength = |share: f64| {
        measured
            .filter(|_| !young)
            .map(|strength| Torque::from_newton_metres(strength.torque.value.newton_metres() * share))
    };
    let surely = Joint::Shoulder.share_surely_lasting(MINUTE).ok().map(Share::fraction);
    let minute = surely.and_then(of_strength);
    let part_of_strength = of_strength(PART_OF_STRENGTH);
    let table_load = table_at.map(size);
    let alone = if young {
        Some(Alone::Young)
    } else if measured.is_none() {
        Some(Alone::Unmeasured)
    } else if table_at.is_none() {
        Some(Alone::NotMeasuredKit)
    } else {
        None
    };
    let limit = [table_load, minute, part_of_strength].into_iter().flatten().reduce(Torque::min);
    let slack = 1.0 + 1e-9;
    let chosen = limit.and_then(|limit| {
        reckoned
            .iter()
            .enumerate()
            .filter(|(_, one)| size(one).newton_metres() <= limit.newton_metres() * slack)
            .max_by(|one, other| size(one.1).total_cmp(&size(other.1)))
            .map(|(at, _)| at)
    });
    // Without the table's own load nothing may be chosen above it, so nothing is chosen at all.
    let chosen = if table_load.is_some() { chosen } else { None };
    Some(Begins { table, table_load, minute, part_of_strength, alone, chosen })
}
