//! What a club measures on a band, and why a set of readings cannot be used.

use quantity::{Force, Length};

use super::law::Stretch;
use crate::spread::root_sum_square;

/// One reading: the piece pulled to a length, and what the scale said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Length between the marks while pulled.
    pub length: Length,
    /// Force on the scale.
    pub force: Force,
}

/// How far a reading may be off before it counts as a contradiction.
///
/// An allowance for a luggage scale: half a newton of display plus 3 % of the reading for scale, creep and hysteresis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ScaleError {
    /// The part that does not grow with the force.
    pub display: Force,
    /// The part that does, as a fraction of the force.
    pub part: quantity::Share,
}

impl ScaleError {
    /// An ordinary luggage scale.
    pub const LUGGAGE_SCALE: Self =
        Self { display: Force::from_newtons(0.5), part: quantity::Share::from_fraction(0.03) };

    pub(crate) fn sd_n(&self, force_n: f64) -> f64 {
        root_sum_square([self.display.newtons(), self.part.fraction() * force_n])
    }
}

/// Why readings cannot be used. Every variant carries the numbers that led to it; readings are counted from 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Refusal {
    /// The rest length is below two centimetres or above ten metres.
    RestLength(Length),
    /// A length or force was not a finite number.
    NotFinite {
        /// Which reading.
        reading: usize,
    },
    /// A scale cannot read less than nothing.
    NegativeForce {
        /// Which reading.
        reading: usize,
        /// What was entered.
        force: Force,
    },
    /// No band a person pulls is this strong; a unit was probably mistaken.
    TooStrong {
        /// Which reading.
        reading: usize,
        /// What was entered.
        force: Force,
    },
    /// A slack piece says nothing about its force.
    AtOrBelowRest {
        /// Which reading.
        reading: usize,
        /// What was entered.
        length: Length,
        /// The rest length it does not exceed.
        rest: Length,
    },
    /// Beyond eightfold length rubber breaks; a unit was probably mistaken.
    BeyondBreaking {
        /// Which reading.
        reading: usize,
        /// The stretch it would mean.
        stretch: Stretch,
    },
    /// Too few readings for two constants and an error.
    TooFew {
        /// How many there are.
        have: usize,
        /// How many it takes.
        need: usize,
    },
    /// A longer piece pulled less than the scale's error explains: a slipped mark, a swapped line or a damaged band.
    FallsWithLength {
        /// The shorter reading.
        shorter: usize,
        /// The longer reading, which pulled less.
        longer: usize,
        /// By how much the force fell.
        drop: Force,
        /// The largest fall that the scale's error would explain.
        explained: Force,
    },
    /// Nothing pulled: no reading is above zero, so there is no law to fit.
    NoPull {
        /// How many readings there are.
        readings: usize,
    },
    /// All readings lie so close together that the two constants cannot be told apart.
    TooNarrow {
        /// The smallest stretch read.
        lowest: Stretch,
        /// The largest stretch read.
        highest: Stretch,
    },
}

/// Readings it takes to fit two constants and leave an error to speak of.
pub(crate) const FEWEST: usize = 4;
/// Largest over smallest stretch below which the two terms look alike.
const NARROWEST: f64 = 1.1;
/// A fall is a contradiction when it exceeds this many standard deviations of a difference (95 %).
const NOISE: f64 = 1.96;
/// Ten kilonewtons: the weight of a small car.
const STRONGEST_N: f64 = 1e4;
/// Stretch at which tubing breaks (de Lima 2019).
const BREAKS: f64 = 8.0;

impl Reading {
    /// Builds a reading from bare numbers in SI, as a file gives them; the index names it in a refusal.
    pub fn try_new(reading: usize, length_m: f64, force_n: f64) -> Result<Self, Refusal> {
        match (Length::try_from_metres(length_m), Force::try_from_newtons(force_n)) {
            (Ok(length), Ok(force)) => Ok(Self { length, force }),
            _ => Err(Refusal::NotFinite { reading }),
        }
    }
}

/// Every reason why these readings cannot be used, or none.
pub(crate) fn refusals(rest: Length, readings: &[Reading], scale: &ScaleError) -> Vec<Refusal> {
    if !(0.02..=10.0).contains(&rest.metres()) {
        return vec![Refusal::RestLength(rest)];
    }
    let mut refusals = Vec::new();
    for (index, reading) in readings.iter().enumerate() {
        if reading.force.newtons() < 0.0 {
            refusals.push(Refusal::NegativeForce { reading: index, force: reading.force });
        }
        if STRONGEST_N < reading.force.newtons() {
            refusals.push(Refusal::TooStrong { reading: index, force: reading.force });
        }
        if reading.length <= rest {
            refusals.push(Refusal::AtOrBelowRest { reading: index, length: reading.length, rest });
        } else if let Some(stretch) = Stretch::of(reading.length, rest)
            && BREAKS < stretch.ratio()
        {
            refusals.push(Refusal::BeyondBreaking { reading: index, stretch });
        }
    }
    if readings.len() < FEWEST {
        refusals.push(Refusal::TooFew { have: readings.len(), need: FEWEST });
    }
    if refusals.is_empty() {
        refusals.extend(contradictions(readings, scale));
        refusals.extend(narrowness(rest, readings));
    }
    refusals
}

fn contradictions(readings: &[Reading], scale: &ScaleError) -> Vec<Refusal> {
    let mut order: Vec<usize> = (0..readings.len()).collect();
    order.sort_by(|one, other| readings[*one].length.total_cmp(&readings[*other].length));
    let mut found = Vec::new();
    let mut strongest = order[0];
    for &longer in &order[1..] {
        let (before, after) = (readings[strongest], readings[longer]);
        let drop = before.force.newtons() - after.force.newtons();
        let explained =
            NOISE * root_sum_square([before.force, after.force].map(|force| scale.sd_n(force.newtons())));
        if before.length < after.length && explained < drop {
            found.push(Refusal::FallsWithLength {
                shorter: strongest,
                longer,
                drop: Force::from_newtons(drop),
                explained: Force::from_newtons(explained),
            });
        }
        if before.force < after.force {
            strongest = longer;
        }
    }
    found
}

fn narrowness(rest: Length, readings: &[Reading]) -> Option<Refusal> {
    let lengths = || readings.iter().map(|reading| reading.length);
    let lowest = Stretch::of(lengths().reduce(Length::min)?, rest)?;
    let highest = Stretch::of(lengths().reduce(Length::max)?, rest)?;
    (highest.ratio() < NARROWEST * lowest.ratio()).then_some(Refusal::TooNarrow { lowest, highest })
}
