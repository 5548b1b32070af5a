//! Why something cannot be worked out, in the sentences of the catalogue, each with the numbers that led to it.

use mechanics::body::BodyRefusal;
use mechanics::elastic::{PieceRefusal, Refusal};
use mechanics::fatigue::LoadRefusal;
use mechanics::strength::TestRefusal;
use mechanics::torque::{ExerciseRefusal, PushUpRefusal};
use quantity::{Force, Length};

use crate::facts::Problem;

fn metres(length: Length) -> String {
    format!("{:.3} m", length.metres())
}

fn newtons(force: Force) -> String {
    format!("{:.1} N", force.newtons())
}

/// Why readings make no law. Readings are named by their line.
pub(super) fn calibration(refusal: &Refusal, lines: &[u64]) -> Problem {
    let place = |reading: &usize| {
        lines.get(*reading).map_or_else(|| format!("reading {}", reading + 1), |line| format!("line {line}"))
    };
    let stretch = |stretch: &mechanics::elastic::Stretch| format!("{:.2}", stretch.ratio());
    match refusal {
        Refusal::RestLength(rest) => Problem::at("rest", "load-rest-length").with("rest", metres(*rest)),
        Refusal::NotFinite { reading } => Problem::at(place(reading), "load-no-number").with("cell", ""),
        Refusal::NegativeForce { reading, force } => {
            Problem::at(place(reading), "load-negative-force").with("force", newtons(*force))
        }
        Refusal::TooStrong { reading, force } => {
            Problem::at(place(reading), "load-too-strong").with("force", newtons(*force))
        }
        Refusal::AtOrBelowRest { reading, length, rest } => Problem::at(place(reading), "load-below-rest")
            .with("length", metres(*length))
            .with("rest", metres(*rest)),
        Refusal::BeyondBreaking { reading, stretch: at } => {
            Problem::at(place(reading), "load-beyond-breaking").with("stretch", stretch(at))
        }
        Refusal::TooFew { have, need } => {
            Problem::at("", "load-too-few").with("have", have.to_string()).with("need", need.to_string())
        }
        Refusal::FallsWithLength { shorter, longer, drop, explained } => {
            Problem::at(place(longer), "load-falls-with-length")
                .with("shorter", place(shorter))
                .with("drop", newtons(*drop))
                .with("explained", newtons(*explained))
        }
        Refusal::NoPull { readings } => {
            Problem::at("", "load-no-pull").with("readings", readings.to_string())
        }
        Refusal::TooNarrow { lowest, highest } => Problem::at("", "load-too-narrow")
            .with("lowest", stretch(lowest))
            .with("highest", stretch(highest)),
    }
}

/// A load that is no share of strength.
pub(super) fn share(line: u64, load: f64) -> Problem {
    Problem::at(format!("line {line}"), "load-share").with("load", format!("{load}"))
}

/// Why a plan cannot be worked through.
pub(super) fn plan(refusal: &LoadRefusal) -> Problem {
    match refusal {
        LoadRefusal::Load { segment, load } => Problem::at(format!("load {}", segment + 1), "load-share")
            .with("load", load.fraction().to_string()),
        LoadRefusal::Lasts { segment, lasts } => {
            Problem::at(format!("load {}", segment + 1), "load-negative-time")
                .with("seconds", lasts.seconds().to_string())
        }
        LoadRefusal::TooLong(whole) => {
            Problem::at("", "load-longer-than-hour").with("minutes", format!("{:.0}", whole.seconds() / 60.0))
        }
    }
}

/// Why there is no body.
pub(super) fn body(refusal: &BodyRefusal) -> Problem {
    match refusal {
        BodyRefusal::Mass(mass) => {
            Problem::at("body.mass_kg", "load-body-mass").with("mass", format!("{} kg", mass.kilograms()))
        }
        BodyRefusal::Stature(stature) => {
            Problem::at("body.stature_m", "load-body-stature").with("stature", metres(*stature))
        }
        BodyRefusal::Tape { what, length } => {
            Problem::at(format!("body.{what}"), "load-body-tape").with("length", metres(*length))
        }
    }
}

/// Why there is no piece.
pub(super) fn piece(within: &str, refusal: &PieceRefusal) -> Problem {
    match refusal {
        PieceRefusal::Rest(rest) => {
            Problem::at(format!("{within}.rest_m"), "load-rest-length").with("rest", metres(*rest))
        }
        PieceRefusal::Around(around) => {
            Problem::at(format!("{within}.around_m"), "load-around").with("length", metres(*around))
        }
        PieceRefusal::Law(_) => Problem::at(within, "load-law"),
    }
}

/// Why a strength test gives no strength.
pub(super) fn strength(refusal: &TestRefusal) -> Problem {
    match refusal {
        TestRefusal::Force(force) => {
            Problem::at("strength.force_n", "load-test-force").with("force", newtons(*force))
        }
        TestRefusal::Lever(lever) => {
            Problem::at("strength.lever_m", "load-test-lever").with("lever", metres(*lever))
        }
        TestRefusal::Noise(noise) => Problem::at("strength.noise_pct", "load-test-noise")
            .with("noise", format!("{} %", noise.percent())),
    }
}

/// Why an exercise makes no sense.
pub(super) fn exercise(refusal: &ExerciseRefusal) -> Problem {
    match refusal {
        ExerciseRefusal::Length { what, length } => {
            Problem::at(*what, "load-length").with("length", metres(*length))
        }
        ExerciseRefusal::Anchor(length) => {
            Problem::at("anchor", "load-anchor").with("length", metres(*length))
        }
        ExerciseRefusal::Angle { what, angle } => {
            Problem::at(*what, "load-angle").with("angle", format!("{}", angle.degrees()))
        }
        ExerciseRefusal::NoMovement(angle) => {
            Problem::at("to_deg", "load-no-movement").with("angle", format!("{}", angle.degrees()))
        }
        ExerciseRefusal::Weight(mass) => {
            Problem::at("weight_kg", "load-weight").with("mass", format!("{} kg", mass.kilograms()))
        }
        ExerciseRefusal::Press(force) => Problem::at("press_n", "load-press").with("force", newtons(*force)),
        ExerciseRefusal::PushUp(refusal) => push_up(refusal),
        ExerciseRefusal::Errors(_) => Problem::at("errors", "load-errors"),
    }
}

fn push_up(refusal: &PushUpRefusal) -> Problem {
    match refusal {
        PushUpRefusal::Mass(mass) => {
            Problem::at("body.mass_kg", "load-body-mass").with("mass", format!("{} kg", mass.kilograms()))
        }
        PushUpRefusal::Stature(stature) => {
            Problem::at("body.stature_m", "load-body-stature").with("stature", metres(*stature))
        }
        PushUpRefusal::Wall(angle) => {
            Problem::at("wall_deg", "load-wall").with("angle", format!("{}", angle.degrees()))
        }
        PushUpRefusal::Height(height) => {
            Problem::at("height_m", "load-height").with("height", metres(*height))
        }
    }
}
