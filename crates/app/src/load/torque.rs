//! What an exercise asks of the shoulder, as a documented answer.

use mechanics::body::{Body, Provenance};
use mechanics::elastic::STRETCH_LIMIT;
use mechanics::endurance::{Joint, OutsideCurve};
use mechanics::spread::WithError;
use mechanics::strength::Obtained;
use mechanics::torque::{Exercise, Foundation, HandLoad, Outcome, TorqueReport};
use quantity::{Angle, Share, Torque};
use serde::Serialize;

use super::movement::Described;
use super::refusals;
use crate::facts::Problem;

/// Name and version of the answer.
pub const SHAPE: &str = "cuffwright.torque/1";

/// The answer in JSON. A push-up has `hand_load` instead of a curve.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// Name and version.
    pub shape: &'static str,
    /// Which geometry.
    pub geometry: &'static str,
    /// What the sign of the torque means.
    pub sign: &'static str,
    /// Beat: seconds out, held, back.
    pub tempo_s: [f64; 3],
    /// The curve, start and end included.
    pub curve: Vec<Point>,
    /// Angles that were asked for.
    pub at: Vec<Point>,
    /// Largest torque.
    pub peak: Option<Peak>,
    /// Mean over the arc, newton metres.
    pub mean_nm: Option<f64>,
    /// Work of one arm from start to end, joules.
    pub work_j: Option<f64>,
    /// Energy the band gains from start to end, joules.
    pub band_energy_gain_j: Option<f64>,
    /// Torque over the time of one repetition, newton metre seconds.
    pub impulse_nms: Option<f64>,
    /// Smallest and largest stretch of the band.
    pub stretch: Option<[f64; 2]>,
    /// The peak beside the strength.
    pub share_of_strength: Option<ShareOfStrength>,
    /// What the hands carry in a push-up.
    pub hand_load: Option<Hands>,
    /// How each length and mass of the body was obtained.
    pub body: Vec<OfBody>,
    /// What to be careful about, as words for a program.
    pub cautions: Vec<&'static str>,
}

/// One point of the curve.
#[derive(Debug, Serialize)]
pub struct Point {
    /// Angle of the exercise, degrees.
    pub angle_deg: f64,
    /// Torque at the shoulder, newton metres.
    pub torque_nm: f64,
    /// Between the ends of the band, metres.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub span_m: Option<f64>,
    /// Length over rest length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub stretch: Option<f64>,
    /// Pull on each end, newtons.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pull_n: Option<f64>,
    /// Force of one strand, newtons.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub strand_force_n: Option<f64>,
    /// Torque at the elbow, newton metres: rows only.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub elbow_torque_nm: Option<f64>,
}

/// The peak.
#[derive(Debug, Serialize)]
pub struct Peak {
    /// Where, degrees.
    pub angle_deg: f64,
    /// How much, newton metres.
    pub torque_nm: f64,
    /// Standard deviation, newton metres.
    pub sd_nm: f64,
    /// Its part from band or weight.
    pub sd_kit_nm: f64,
    /// Its part from body and holding, the same on every rung.
    pub sd_body_nm: f64,
    /// Holds the true value 95 times in 100, newton metres.
    pub interval_95_nm: [f64; 2],
}

/// The peak as a part of strength.
#[derive(Debug, Serialize)]
pub struct ShareOfStrength {
    /// Share of the strength, as a fraction.
    pub share: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Holds the true value 95 times in 100.
    pub interval_95: [f64; 2],
    /// Strength, newton metres, what the arm itself weighs included.
    pub strength_nm: f64,
    /// `measured` or `estimated`.
    pub strength_is: &'static str,
    /// Seconds a static load of this share lasts an adult; absent outside the curve.
    pub endurance_s: Option<Endurance>,
}

/// A wide prior.
#[derive(Debug, Serialize)]
pub struct Endurance {
    /// Expected, seconds.
    pub expected: f64,
    /// Lower prediction limit.
    pub low: f64,
    /// Upper prediction limit.
    pub high: f64,
    /// Where it comes from and whom it is for.
    pub source: &'static str,
}

/// What the hands carry.
#[derive(Debug, Serialize)]
pub struct Hands {
    /// Force of both hands over body weight.
    pub share_of_body_weight: f64,
    /// Spread between people.
    pub sd: f64,
    /// What a scale under the hands reads, over body weight; absent on a wall.
    pub on_a_scale: Option<f64>,
    /// Force of one hand, newtons.
    pub each_hand_n: f64,
    /// Its spread, newtons.
    pub each_hand_sd_n: f64,
    /// `published` or `extrapolated`.
    pub foundation: &'static str,
}

/// One number of the body and its origin.
#[derive(Debug, Serialize)]
pub struct OfBody {
    /// Which.
    pub what: &'static str,
    /// Value in metres or kilograms.
    pub value: f64,
    /// Standard deviation.
    pub sd: f64,
    /// `measured`, `estimated`, or `estimated-from-adults`.
    pub from: &'static str,
}

/// Works a description out.
pub fn answer(described: &Described) -> Result<Answer, Vec<Problem>> {
    let movement = &described.movement;
    let said = |refused: Vec<_>| refused.iter().map(refusals::exercise).collect::<Vec<Problem>>();
    let outcome = movement.report(&described.errors).map_err(said)?;
    let mut answer = Answer {
        shape: SHAPE,
        geometry: described.geometry.word(),
        sign: sign(&movement.exercise),
        tempo_s: [movement.tempo.out, movement.tempo.hold, movement.tempo.back].map(|time| time.seconds()),
        curve: Vec::new(),
        at: Vec::new(),
        peak: None,
        mean_nm: None,
        work_j: None,
        band_energy_gain_j: None,
        impulse_nms: None,
        stretch: None,
        share_of_strength: None,
        hand_load: None,
        body: described.body.as_ref().map(of_body).unwrap_or_default(),
        cautions: Vec::new(),
    };
    match outcome {
        Outcome::HandLoad(load) => answer.hand_load = Some(hands(&load)),
        Outcome::Torque(report) => {
            for angle in &described.at {
                let torque = movement.torque_at(*angle).map_err(said)?.unwrap_or(Torque::ZERO);
                answer.at.push(point(&movement.exercise, *angle, torque));
            }
            fill(&mut answer, described, &report);
        }
    }
    Ok(answer)
}

fn fill(answer: &mut Answer, described: &Described, report: &TorqueReport) {
    let exercise = &described.movement.exercise;
    let (curve, peak) = (&report.curve, report.peak());
    answer.curve = curve.points.iter().map(|at| point(exercise, at.angle, at.torque)).collect();
    let (low, high) = peak.interval_95();
    answer.peak = Some(Peak {
        angle_deg: curve.peak.angle.degrees(),
        torque_nm: curve.peak.torque.newton_metres(),
        sd_nm: peak.sd.newton_metres(),
        sd_kit_nm: report.error.kit.newton_metres(),
        sd_body_nm: report.error.body.newton_metres(),
        interval_95_nm: [low.newton_metres(), high.newton_metres()],
    });
    answer.mean_nm = Some(curve.mean.newton_metres());
    answer.work_j = Some(curve.work.joules());
    answer.impulse_nms = Some(curve.impulse.newton_metre_seconds());
    answer.band_energy_gain_j = exercise.piece().and_then(|piece| {
        let energy = |angle: Angle| exercise.band_at(angle).map(|band| piece.energy(band.span).joules());
        Some(energy(described.movement.to)? - energy(described.movement.from)?)
    });
    answer.stretch = report.stretch.map(|(low, high)| [low.ratio(), high.ratio()]);
    if let Some((low, high)) = report.stretch {
        if 1.0 + STRETCH_LIMIT.fraction() < high.ratio() {
            answer.cautions.push("stretched-beyond-200-percent");
        }
        if low.ratio() < 1.0 {
            answer.cautions.push("slack-in-part-of-the-movement");
        }
    }
    if described.body.as_ref().is_some_and(|body| body.person.age.is_minor()) {
        answer.cautions.push("tables-are-of-adults");
    }
    if let Exercise::BallCircles(_) = exercise {
        answer.cautions.push("no-published-load");
    }
    answer.share_of_strength = described.strength.as_ref().and_then(|strength| {
        let share = strength.share(peak)?;
        let (low, high) = share.interval_95();
        Some(ShareOfStrength {
            share: share.value.fraction(),
            sd: share.sd.fraction(),
            interval_95: [low.fraction().max(0.0), high.fraction()],
            strength_nm: strength.torque.value.newton_metres(),
            strength_is: match strength.from {
                Obtained::Measured => "measured",
                Obtained::Estimated => "estimated",
            },
            endurance_s: endurance(share).ok(),
        })
    });
}

fn endurance(share: WithError<Share>) -> Result<Endurance, OutsideCurve> {
    let said = Joint::Shoulder.endurance_of(share)?;
    Ok(Endurance {
        expected: said.expected.seconds(),
        low: said.low.seconds(),
        high: said.high.seconds(),
        source: "Frey Law & Avin 2010, shoulder: adults, static, to exhaustion; a wide prior",
    })
}

fn sign(exercise: &Exercise) -> &'static str {
    match exercise {
        Exercise::TwoHandRotation(_) | Exercise::AnchoredRotation(_) => {
            "positive: the external rotators work; negative: the internal rotators work"
        }
        Exercise::Row(_) => "positive: the extensors of the shoulder work",
        Exercise::HandRaise(_) => "positive: the arm is held up against gravity",
        Exercise::BallCircles(_) => "size of the torque at the shoulder",
        Exercise::PushUp(_) => "no torque: the share of body weight at the hands",
    }
}

fn point(exercise: &Exercise, angle: Angle, torque: Torque) -> Point {
    let band = exercise.band_at(angle);
    Point {
        angle_deg: angle.degrees(),
        torque_nm: torque.newton_metres(),
        span_m: band.map(|band| band.span.metres()),
        stretch: band.map(|band| band.stretch.ratio()),
        pull_n: band.map(|band| band.pull.newtons()),
        strand_force_n: band.map(|band| band.strand_force.newtons()),
        elbow_torque_nm: match exercise {
            Exercise::Row(row) => Some(row.elbow_torque(angle).newton_metres()),
            _ => None,
        },
    }
}

fn hands(load: &HandLoad) -> Hands {
    Hands {
        share_of_body_weight: load.pressed.value.fraction(),
        sd: load.pressed.sd.fraction(),
        on_a_scale: load.on_a_scale.map(Share::fraction),
        each_hand_n: load.each_hand.value.newtons(),
        each_hand_sd_n: load.each_hand.sd.newtons(),
        foundation: match load.foundation {
            Foundation::Published => "published",
            Foundation::Extrapolated => "extrapolated",
        },
    }
}

/// Lengths and masses of the arm with their origin.
pub fn of_body(body: &Body) -> Vec<OfBody> {
    let from = |provenance: Provenance| match provenance {
        Provenance::Measured => "measured",
        Provenance::Estimated { adult_derived: true, .. } => "estimated-from-adults",
        Provenance::Estimated { adult_derived: false, .. } => "estimated",
    };
    let mut all = Vec::new();
    for (length, mass, segment) in [
        ("upper_arm_m", "upper_arm_kg", &body.upper_arm),
        ("forearm_m", "forearm_kg", &body.forearm),
        ("wrist_to_knuckle_m", "hand_kg", &body.hand),
    ] {
        all.push(OfBody {
            what: length,
            value: segment.length.value.value.metres(),
            sd: segment.length.value.sd.metres(),
            from: from(segment.length.from),
        });
        all.push(OfBody {
            what: mass,
            value: segment.mass.value.value.kilograms(),
            sd: segment.mass.value.sd.kilograms(),
            from: from(segment.mass.from),
        });
    }
    all.push(OfBody {
        what: "elbow_spacing_m",
        value: body.elbow_spacing.value.value.metres(),
        sd: body.elbow_spacing.value.sd.metres(),
        from: from(body.elbow_spacing.from),
    });
    all
}
