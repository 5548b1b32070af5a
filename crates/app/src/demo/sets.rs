//! How long form holds: a hidden strength and endurance that grow, with noise as the trade knows it.
//!
//! Time to form loss of one set = place on the ladder x what training has added x tiredness by set number x noise.
//! Noise is log-normal, of a session and of a set, wide enough that a re-test of one hold differs by tens of seconds.
//! The figures are the demo's own: they are chosen to look right on a page and prove nothing about swimmers.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::HoldTime;
use trade::dosing::Dose;
use trade::protocol::Exercise;
use trade::side::WorkingSide;

use super::days::season_days;
use super::random::{Random, exp};
use super::script::How;
use crate::facts::{ClockWord, EndWord, SetWord};

/// Spread of noise between sessions and between sets, as log-normal sigma.
const SESSION_NOISE: f64 = 0.09;
const SET_NOISE: f64 = 0.06;
/// What is left of a fresh set in the second and third set after half a minute.
const TIRED: [f64; 3] = [1.0, 0.9, 0.8];
/// What one rung costs, as a logarithm: about a quarter of the time.
const RUNG_COSTS: f64 = 0.28;
/// A cap that nobody looked at, now and then.
const UNSEEN: f64 = 0.03;
/// Ends that are neither form nor cap.
const CHOSE_TO_STOP: f64 = 0.02;
const KIT: f64 = 0.004;
const LEFT: f64 = 0.004;

/// One line of sets on one day.
pub(super) struct Line<'a> {
    pub(super) exercise: &'a Exercise,
    pub(super) side: WorkingSide,
    /// Place of the rung on its ladder.
    pub(super) place: usize,
    /// The cap of a full set.
    pub(super) full: HoldTime,
    pub(super) day: Date,
    /// The last set is never filled.
    pub(super) steady: bool,
}

/// One swimmer's hidden side.
pub(super) struct Body {
    /// First full set on the first rung, as a share of the cap.
    fresh: f64,
    /// Growth a week, as a logarithm.
    gain: f64,
    today: f64,
    /// Per line: own talent, and the place of its first rung.
    lines: BTreeMap<(String, WorkingSide), (f64, usize)>,
}

impl Body {
    pub(super) fn new(random: &mut Random, strong: bool) -> Self {
        let fresh = if strong { 0.95 } else { 0.74 } * random.factor(0.12);
        let gain = if strong { 0.075 } else { random.between(0.035, 0.08) };
        Self { fresh, gain, today: 1.0, lines: BTreeMap::new() }
    }

    pub(super) fn new_session(&mut self, random: &mut Random) {
        self.today = random.factor(SESSION_NOISE);
    }

    /// One set: by the script if there is one, else by chance.
    pub(super) fn set(
        &mut self,
        random: &mut Random,
        line: &Line<'_>,
        dose: &Dose,
        number: u8,
        how: Option<How>,
    ) -> SetWord {
        let index = usize::from(number.clamp(1, 3)) - 1;
        let cap = dose.cap.seconds();
        let own = self.seconds(random, line, index);
        let seconds = match how {
            None if line.steady && number == dose.sets => {
                own.min(line.full.seconds() * random.between(0.72, 0.86))
            }
            None => own,
            Some(How::Full | How::Unseen | How::FullBelow(_)) => cap,
            Some(How::Gaining(base)) => base[index] + 0.25 * season_days(line.day) + random.between(0.0, 0.3),
            Some(How::Flat(base)) => base[index] - random.between(0.0, 2.0),
            Some(How::Short) => random.between(12.0, 18.5),
            Some(How::Pain(at, seconds)) if at == number => return ended(EndWord::Pain, seconds, cap),
            Some(How::Pain(..)) => own.min(0.6 * cap),
        };
        if cap <= seconds {
            let unseen = match how {
                None => random.happens(UNSEEN),
                Some(how) => how == How::Unseen && number == dose.sets,
            };
            return SetWord { seen: Some(!unseen), ..ended(EndWord::Cap, cap, cap) };
        }
        if how.is_none() {
            let chance = random.share();
            let early = seconds * random.between(0.4, 0.9);
            if chance < CHOSE_TO_STOP {
                return ended(EndWord::ChoseToStop, early, cap);
            } else if chance < CHOSE_TO_STOP + KIT {
                return ended(EndWord::Kit, early, cap);
            } else if chance < CHOSE_TO_STOP + KIT + LEFT {
                return ended(EndWord::Left, early, cap);
            }
        }
        let fault = fault(random, line.exercise);
        SetWord { fault: Some(fault), ..ended(EndWord::Form, seconds, cap) }
    }

    fn seconds(&mut self, random: &mut Random, line: &Line<'_>, index: usize) -> f64 {
        let key = (line.exercise.id.to_string(), line.side);
        let (talent, first) = *self.lines.entry(key).or_insert_with(|| (random.factor(0.10), line.place));
        let steps = place(line.place) - place(first);
        let grown = exp(self.gain * season_days(line.day) / 7.0 - RUNG_COSTS * steps);
        let share = self.fresh * talent * grown * TIRED[index] * self.today * random.factor(SET_NOISE);
        (share * line.full.seconds()).max(4.0)
    }
}

fn place(index: usize) -> f64 {
    f64::from(u32::try_from(index).expect("no ladder is that long"))
}

fn ended(end: EndWord, seconds: f64, cap: f64) -> SetWord {
    SetWord {
        seconds: (seconds * 10.0).round() / 10.0,
        end,
        fault: None,
        cap_s: Some(cap),
        seen: None,
        rest_before_s: None,
        clock: ClockWord::Device,
        fault_left: None,
    }
}

/// Faults stand in the order in which they usually end a set; each is about half as frequent as the one before.
fn fault(random: &mut Random, exercise: &Exercise) -> String {
    let mut faults = exercise.faults.iter().peekable();
    let mut chosen = String::new();
    while let Some(fault) = faults.next() {
        chosen = fault.to_string();
        if faults.peek().is_none() || random.happens(0.5) {
            break;
        }
    }
    chosen
}
