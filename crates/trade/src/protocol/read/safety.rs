//! The limits no club may loosen, wherever in a protocol they could be passed.
//!
//! Each check errs towards refusing: a limit is tied to what an exercise does (its group, tags and loads), not to
//! its name, so that renaming an exercise does not lift it.

use std::ops::Range;

use quantity::{HoldTime, Mass};

use super::problem::{
    CLOSED_CHAIN, HEAVIER, LOAD_ORDER, LOAD_TAG, LOADED_NO_SHOULDER, LOADS_CONTRADICT, NINETY, OWN_CAP,
    PRONE, Report, SCAPTION, STRETCH_ON_TRACK, TEMPO_LIMIT,
};
use crate::protocol::{Arms, Exercise, Group, Load, Loads, Parameters, Rung, Tag, Tempo};

/// Key of the scaption limit in the parameters.
pub(super) const SCAPTION_KEY: &str = "scaption_limit_kg";

/// No hand weight of this programme is heavier, in kilograms: core practice of the trade, inclusive.
pub(super) const HAND_WEIGHT_TOP_KG: f64 = 2.2;

/// The prone limit where the file's own could not be read, in kilograms.
const PRONE_TOP_KG: f64 = 1.0;

/// Age in whole years from which heavier prone lifts and ninety-ninety positions may be offered.
const FROM_AGE: u8 = 15;

/// The pain code, which names no fault of form.
pub(super) const PAIN_CODE: &str = "F20";

/// Values of the message about a hand weight, in kilograms and pounds.
pub(super) fn weight_values(place: &str, kg: f64, limit_kg: f64) -> [String; 5] {
    let pounds = |kg: f64| format!("{:.2}", Mass::from_kilograms(kg).pounds());
    [place.to_owned(), kg.to_string(), pounds(kg), limit_kg.to_string(), pounds(limit_kg)]
}

/// Where the parts of an exercise stand in the file.
pub(super) struct Places {
    pub(super) exercise: Range<usize>,
    pub(super) loads: Range<usize>,
    pub(super) tempo: Range<usize>,
    pub(super) own_cap: Range<usize>,
    /// One a rung.
    pub(super) rungs: Vec<Range<usize>>,
}

/// Checks one exercise against every fixed limit.
pub(super) fn check(
    exercise: &Exercise,
    places: &Places,
    parameters: Option<&Parameters>,
    report: &mut Report<'_>,
) {
    let id = exercise.id.as_str();
    loads(exercise, places, report);
    if exercise.tags.iter().any(|tag| matches!(tag, Tag::Stretch | Tag::EndRange))
        && !exercise.hypermobile.left_out
    {
        report.add(&STRETCH_ON_TRACK, places.exercise.clone(), [id.to_owned()]);
    }
    let cap = parameters.map_or(HoldTime::from_seconds(120.0), |parameters| parameters.cap);
    if let Some(own) = exercise.own_cap
        && own > cap
    {
        let values = [id.to_owned(), own.seconds().to_string(), cap.seconds().to_string()];
        report.add(&OWN_CAP, places.own_cap.clone(), values);
    }
    // The exercise's tempo is that of every rung without one of its own, so their tags count as well.
    let plain_rungs = exercise.ladder.iter().filter(|rung| rung.tempo.is_none());
    let tags: Vec<Tag> =
        exercise.tags.iter().chain(plain_rungs.flat_map(|rung| &rung.tags)).copied().collect();
    tempo(exercise, id, exercise.tempo, &tags, &places.tempo, report);
    if let Some(on_track) = exercise.hypermobile.tempo {
        tempo(exercise, id, on_track, &tags, &places.exercise, report);
    }
    for (rung, at) in exercise.ladder.iter().zip(&places.rungs) {
        check_rung(exercise, rung, at, parameters, report);
    }
    order(exercise, &places.rungs, report);
}

/// A shoulder that works or bears weight must be declared as loaded: the gate goes by that declaration.
fn loads(exercise: &Exercise, places: &Places, report: &mut Report<'_>) {
    let id = exercise.id.as_str().to_owned();
    let closed_chain = exercise.tags.contains(&Tag::ClosedChain)
        || exercise.ladder.iter().any(|rung| rung.tags.contains(&Tag::ClosedChain));
    match (exercise.arms, exercise.loads) {
        (_, Loads::NoShoulder) if closed_chain => {
            report.add(&CLOSED_CHAIN, places.loads.clone(), [id]);
        }
        (Arms::One, Loads::NoShoulder)
        | (Arms::Both, Loads::NoShoulder | Loads::WorkingShoulder)
        | (Arms::Midline, Loads::WorkingShoulder) => {
            let values = [id, exercise.arms.word().to_owned(), exercise.loads.word().to_owned()];
            report.add(&LOADS_CONTRADICT, places.loads.clone(), values);
        }
        _ => {}
    }
}

fn check_rung(
    exercise: &Exercise,
    rung: &Rung,
    at: &Range<usize>,
    parameters: Option<&Parameters>,
    report: &mut Report<'_>,
) {
    let place = format!("{} {}", exercise.id, rung.id);
    let tags: Vec<Tag> = exercise.tags.union(&rung.tags).copied().collect();
    if tags.contains(&Tag::NinetyNinety) && rung.from_age.is_none_or(|age| age < FROM_AGE) {
        report.add(&NINETY, at.clone(), [place.clone()]);
    }
    let wanted = match rung.load {
        Load::Band(_) => Some(Tag::Band),
        Load::Weight(_) => Some(Tag::Weight),
        Load::Unloaded | Load::Position => None,
    };
    if let Some(tag) = wanted {
        if !tags.contains(&tag) {
            report.add(&LOAD_TAG, at.clone(), [place.clone(), tag.word().to_owned()]);
        }
        if exercise.loads == Loads::NoShoulder {
            report.add(&LOADED_NO_SHOULDER, at.clone(), [place.clone()]);
        }
    }
    if let Load::Weight(mass) = rung.load {
        weight(exercise, rung, &place, mass.in_kilograms(), at, parameters, report);
    }
    if let Some(own) = rung.tempo {
        tempo(exercise, &place, own, &tags, at, report);
    }
}

/// Hand weights: scaption (the cuff's raises) ends at the club's limit, which is at most 2.2 kg; nothing else goes
/// above 2.2 kg either; prone lifts above their limit are for fifteen and older.
fn weight(
    exercise: &Exercise,
    rung: &Rung,
    place: &str,
    kg: f64,
    at: &Range<usize>,
    parameters: Option<&Parameters>,
    report: &mut Report<'_>,
) {
    let own_limit =
        parameters.map_or(HAND_WEIGHT_TOP_KG, |parameters| parameters.scaption_limit.in_kilograms());
    let limit = if exercise.group == Group::Cuff { own_limit } else { HAND_WEIGHT_TOP_KG };
    if kg > limit.min(HAND_WEIGHT_TOP_KG) {
        report.add(&SCAPTION, at.clone(), weight_values(place, kg, limit));
        return;
    }
    let prone_limit =
        parameters.map_or(PRONE_TOP_KG, |parameters| parameters.prone_limit_under_15.in_kilograms());
    if exercise.group == Group::Scapula && kg > prone_limit && rung.from_age.is_none_or(|age| age < FROM_AGE)
    {
        report.add(&PRONE, at.clone(), [place.to_owned(), kg.to_string(), prone_limit.to_string()]);
    }
}

/// Tempo: weights are lifted in 2 to 4 s a phase and bands pulled in 1 to 3 s, so that nothing is swung or whipped;
/// a push-up plus is held 1 to 3 s; circles turn every 10 to 30 s.
fn tempo(
    exercise: &Exercise,
    place: &str,
    tempo: Tempo,
    tags: &[Tag],
    at: &Range<usize>,
    report: &mut Report<'_>,
) {
    let mut refuse = |what: f64, (low, high): (f64, f64)| {
        if what < low || high < what {
            let values = [place.to_owned(), what.to_string(), format!("{low} to {high} s")];
            report.add(&TEMPO_LIMIT, at.clone(), values);
        }
    };
    match tempo {
        Tempo::Beat { out, hold, back } => {
            let phases = if tags.contains(&Tag::Weight) {
                Some((2.0, 4.0))
            } else if tags.contains(&Tag::Band) {
                Some((1.0, 3.0))
            } else {
                None
            };
            if let Some(limits) = phases {
                refuse(out.min(back), limits);
                if out.max(back) != out.min(back) {
                    refuse(out.max(back), limits);
                }
            }
            if tags.contains(&Tag::ClosedChain) && exercise.group == Group::Scapula {
                refuse(hold, (1.0, 3.0));
            }
        }
        Tempo::Circles { reverse_every } => refuse(reverse_every.seconds(), (10.0, 30.0)),
        Tempo::Hold => {}
    }
}

/// Loads of one kind ascend along the ladder, and a step that claims not to be heavier is not.
fn order(exercise: &Exercise, places: &[Range<usize>], report: &mut Report<'_>) {
    let mut heaviest_band: Option<(f64, &Rung)> = None;
    let mut heaviest_weight: Option<(f64, &Rung)> = None;
    for (rung, at) in exercise.ladder.iter().zip(places) {
        let (heaviest, load) = match rung.load {
            Load::Band(force) => (&mut heaviest_band, force.in_newtons()),
            Load::Weight(mass) => (&mut heaviest_weight, mass.in_kilograms()),
            Load::Unloaded | Load::Position => continue,
        };
        let place = format!("{} {}", exercise.id, rung.id);
        match heaviest {
            Some((before, _)) if rung.not_heavier && load <= *before => {}
            _ if rung.not_heavier => report.add(&HEAVIER, at.clone(), [place]),
            Some((before, other)) if load <= *before => {
                report.add(&LOAD_ORDER, at.clone(), [place, other.id.to_string()]);
            }
            _ => *heaviest = Some((load, rung)),
        }
    }
}
