//! A described exercise: geometry, kit, body and strength in one file. `docs/loads.md` has an example of each.

use std::path::Path;

use mechanics::body::{Body, LengthSet, Person, Sex, Tape, Years};
use mechanics::elastic::{Law, Piece, Strands};
use mechanics::spread::WithError;
use mechanics::strength::{Rotation, Strength, Test, prior};
use mechanics::torque::{
    AnchoredRotation, BallCircles, Exercise, HandRaise, InputErrors, Movement, Point, PushUp, Row, Support,
    Tempo, TwoHandRotation,
};
use quantity::{Angle, Force, Length, Mass, Share, Time, Torque};

use super::band;
use super::fields::{Fields, Found};
use super::refusals;
use crate::facts::Problem;

/// A file beside the description, read by whoever may read files: its text, or why not.
pub type Beside<'a> = &'a dyn Fn(&Path) -> Result<String, Problem>;

/// Everything a description says.
#[derive(Debug, Clone, PartialEq)]
pub struct Described {
    /// Which geometry.
    pub geometry: Geometry,
    /// Geometry, kit and beat.
    pub movement: Movement,
    /// Errors of what was entered.
    pub errors: InputErrors,
    /// Whose body, where one was described.
    pub body: Option<Body>,
    /// Strength, where one was described.
    pub strength: Option<Strength>,
    /// Angles that are asked for beside the curve.
    pub at: Vec<Angle>,
}

/// The geometries, as words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Geometry {
    /// A band held between both hands, both arms turning.
    TwoHandRotation,
    /// One arm turning against an anchored band.
    AnchoredRotation,
    /// Band row.
    Row,
    /// Straight arm raised.
    HandRaise,
    /// Ball circles on a wall.
    BallCircles,
    /// Push-up.
    PushUp,
}

impl Geometry {
    /// Every geometry.
    pub const ALL: [Self; 6] = [
        Self::TwoHandRotation,
        Self::AnchoredRotation,
        Self::Row,
        Self::HandRaise,
        Self::BallCircles,
        Self::PushUp,
    ];

    /// The word in files and answers.
    pub const fn word(self) -> &'static str {
        match self {
            Self::TwoHandRotation => "two-hand-rotation",
            Self::AnchoredRotation => "anchored-rotation",
            Self::Row => "row",
            Self::HandRaise => "hand-raise",
            Self::BallCircles => "ball-circles",
            Self::PushUp => "push-up",
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        let known = Self::ALL.into_iter().find(|geometry| geometry.word() == word);
        known.or(match word {
            "two-hand" | "two-hand-external-rotation" | "hand-to-hand" | "bilateral-rotation" => {
                Some(Self::TwoHandRotation)
            }
            "anchored"
            | "anchored-external-rotation"
            | "anchored-internal-rotation"
            | "external-rotation"
            | "internal-rotation" => Some(Self::AnchoredRotation),
            "band-row" => Some(Self::Row),
            "scaption" | "raise" | "arm-raise" | "prone-t" | "prone-y" | "flexion" | "abduction" => {
                Some(Self::HandRaise)
            }
            "ball" | "wall-circles" | "circles" => Some(Self::BallCircles),
            "pushup" | "push-up-plus" | "press-up" => Some(Self::PushUp),
            _ => None,
        })
    }
}

/// Reads a description. Every problem is listed.
pub fn read(text: &str, beside: Beside<'_>) -> Result<Described, Vec<Problem>> {
    let table: toml::Table = text.parse().map_err(|error: toml::de::Error| {
        vec![Problem::at("", "load-toml").with("detail", error.to_string())]
    })?;
    let found = Found::default();
    let root = Fields::of(&table, "", &found);
    let described = described(&root, None, beside);
    root.done();
    finished(described, found)
}

pub(super) fn finished<T>(read: Option<T>, found: Found) -> Result<T, Vec<Problem>> {
    match (read, found.into_problems()) {
        (Some(read), problems) if problems.is_empty() => Ok(read),
        (_, problems) => Err(problems),
    }
}

/// Reads a description out of a table; `kit` is put in where the file leaves the piece or weight to its caller.
pub(super) fn described(root: &Fields<'_>, kit: Option<Piece>, beside: Beside<'_>) -> Option<Described> {
    let geometry = geometry(root);
    let body = root.inside(&["body", "person", "swimmer"]).and_then(|fields| body(&fields));
    let errors = errors(root);
    let strength = root.inside(&["strength"]).and_then(|fields| strength(&fields, body.as_ref(), geometry));
    let at = root.numbers(&["at_deg", "at"]).unwrap_or_default();
    let tempo = tempo(root);
    let geometry = geometry?;
    let (exercise, (from, to)) = match geometry {
        Geometry::TwoHandRotation => (two_hand(root, body.as_ref(), kit, beside), (0.0, 60.0)),
        Geometry::AnchoredRotation => (anchored(root, body.as_ref(), kit, beside), (-30.0, 60.0)),
        Geometry::Row => {
            let row = row(root, body.as_ref(), kit, beside);
            let start = match &row {
                Some(Exercise::Row(row)) => row.start_flexion.degrees(),
                _ => 75.0,
            };
            (row, (start, 0.0))
        }
        Geometry::HandRaise => (hand_raise(root, body.as_ref()), (0.0, 90.0)),
        Geometry::BallCircles => (ball_circles(root, body.as_ref()), (0.0, 360.0)),
        Geometry::PushUp => (push_up(root, body.as_ref()), (0.0, 1.0)),
    };
    let from = root.angle(&["from", "start_angle"]).unwrap_or(Angle::from_degrees(from));
    let to = root.angle(&["to", "end_angle"]).unwrap_or(Angle::from_degrees(to));
    Some(Described {
        geometry,
        movement: Movement { exercise: exercise?, from, to, tempo: tempo? },
        errors,
        body,
        strength,
        at: at.into_iter().map(Angle::from_degrees).collect(),
    })
}

fn geometry(root: &Fields<'_>) -> Option<Geometry> {
    let words: Vec<&str> = Geometry::ALL.iter().map(|geometry| geometry.word()).collect();
    let Some(word) = root.word(&["geometry", "kind", "type"]) else {
        root.report(root.problem("geometry", "load-no-geometry").with("known", words.join(", ")));
        return None;
    };
    let geometry = Geometry::from_word(&word);
    if geometry.is_none() {
        root.report(
            root.problem("geometry", "load-geometry").with("word", word).with("known", words.join(", ")),
        );
    }
    geometry
}

/// `"1/0/1"`, or three keys in seconds; one second each way when nothing is said.
fn tempo(root: &Fields<'_>) -> Option<Tempo> {
    let parts = match root.text(&["tempo"]) {
        Some(text) => {
            let parts: Option<Vec<f64>> =
                text.split(['/', '-']).map(|part| part.trim().parse().ok()).collect();
            match parts.as_deref() {
                Some([out, hold, back]) => [*out, *hold, *back],
                _ => {
                    root.report(root.problem("tempo", "load-tempo").with("tempo", text));
                    return None;
                }
            }
        }
        None => [
            root.number(&["out_s"]).unwrap_or(1.0),
            root.number(&["hold_s"]).unwrap_or(0.0),
            root.number(&["back_s"]).unwrap_or(1.0),
        ],
    };
    let [out, hold, back] =
        parts.map(|part| Time::try_from_seconds(part).unwrap_or(Time::from_seconds(-1.0)));
    Tempo::new(out, hold, back)
        .map_err(|_| root.report(root.problem("tempo", "load-tempo").with("tempo", format!("{parts:?}"))))
        .ok()
}

/// Reads a body; mass, stature and sex must be there.
pub(super) fn body(fields: &Fields<'_>) -> Option<Body> {
    let sex = match fields.word(&["sex", "table"]).as_deref() {
        Some("female" | "f" | "woman" | "girl") => Some(Sex::Female),
        Some("male" | "m" | "man" | "boy") => Some(Sex::Male),
        other => {
            let word = other.unwrap_or("").to_owned();
            fields.report(fields.problem("sex", "load-sex").with("word", word));
            None
        }
    };
    let mass = fields.mass(&["mass", "body_mass", "weight"]);
    if mass.is_none() {
        fields.report(fields.problem("mass_kg", "load-no-mass"));
    }
    let stature = fields.length(&["stature", "height"]);
    if stature.is_none() {
        fields.report(fields.problem("stature_m", "load-no-stature"));
    }
    let age = fields.number(&["age_y", "age", "age_years"]);
    let age = age.map_or(Years::ADULT, |age| Years(age.clamp(0.0, 120.0) as u8));
    let set = match fields.word(&["length_set", "lengths"]).as_deref() {
        Some("de-leva" | "deleva") => LengthSet::DeLeva,
        _ => LengthSet::DrillisContini,
    };
    let tape = Tape {
        upper_arm: fields.length(&["upper_arm"]),
        forearm: fields.length(&["forearm"]),
        wrist_to_knuckle: fields.length(&["wrist_to_knuckle", "hand"]),
        thigh: fields.length(&["thigh"]),
        shank: fields.length(&["shank"]),
        trunk: fields.length(&["trunk"]),
        shoulder_breadth: fields.length(&["shoulder_breadth"]),
        elbow_spacing: fields.length(&["elbow_spacing"]),
    };
    fields.done();
    let person = Person { sex: sex?, age, mass: mass?, stature: stature? };
    match Body::estimate(person, set, &tape) {
        Ok(body) => Some(body),
        Err(refused) => {
            refused.iter().for_each(|refusal| fields.report(refusals::body(refusal)));
            None
        }
    }
}

fn errors(root: &Fields<'_>) -> InputErrors {
    let usual = InputErrors::CALIBRATED;
    let Some(fields) = root.inside(&["errors"]) else { return usual };
    let errors = InputErrors {
        band: fields.share(&["band"]).unwrap_or(usual.band),
        grip: fields.length(&["grip"]).unwrap_or(usual.grip),
        length: fields.length(&["length"]).unwrap_or(usual.length),
        angle: fields.angle(&["angle"]).unwrap_or(usual.angle),
        weight: fields.share(&["weight"]).unwrap_or(usual.weight),
    };
    fields.done();
    errors
}

/// A torque; or a dynamometer reading at a lever, with the arm's own weight where the test was against gravity; or,
/// for an adult's rotation, the assumed mean.
fn strength(fields: &Fields<'_>, body: Option<&Body>, geometry: Option<Geometry>) -> Option<Strength> {
    let noise = fields.share(&["noise", "sem"]).unwrap_or(Share::from_fraction(0.05));
    let torque = fields.number(&["torque_nm", "torque_n_m", "torque"]).map(Torque::from_newton_metres);
    let force = fields.force(&["force"]);
    let lever = fields.length(&["lever"]);
    let elevation = fields.angle(&["arm_elevation", "elevation"]);
    let arm_torque = fields.number(&["arm_torque_nm"]).map(Torque::from_newton_metres);
    let assumed = fields.flag(&["assumed", "estimate"]).unwrap_or(false);
    fields.done();
    let limb = match (arm_torque, elevation, body) {
        (Some(torque), ..) => WithError { value: torque, sd: Torque::ZERO },
        (None, Some(elevation), Some(body)) => {
            body.arm().gravity_torque(elevation, Mass::from_kilograms(0.0))
        }
        (None, Some(_), None) => {
            fields.missing("arm_torque_nm", "load-why-arm");
            return None;
        }
        (None, None, _) => WithError { value: Torque::ZERO, sd: Torque::ZERO },
    };
    let test = match (torque, force, lever) {
        (Some(torque), ..) => Test {
            force: Force::from_newtons(torque.newton_metres()),
            lever: Length::from_metres(1.0),
            limb,
            noise,
        },
        (None, Some(force), Some(lever)) => Test { force, lever, limb, noise },
        _ if assumed => {
            let rotation = match geometry {
                Some(Geometry::TwoHandRotation | Geometry::AnchoredRotation) => Rotation::External,
                _ => {
                    fields.report(fields.problem("assumed", "load-assumed-rotation"));
                    return None;
                }
            };
            let Some(body) = body else {
                fields.report(fields.problem("assumed", "load-no-mass"));
                return None;
            };
            return prior(rotation, body.person.mass, body.person.age)
                .map_err(|_| fields.report(fields.problem("assumed", "load-assumed-minor")))
                .ok();
        }
        _ => {
            fields.missing("force_n", "load-why-strength");
            return None;
        }
    };
    test.strength().map_err(|refusal| fields.report(refusals::strength(&refusal))).ok()
}

/// The law of a strand: two constants, a straight line, or a calibration file.
pub(super) fn law(fields: &Fields<'_>, rest: Option<Length>, beside: Beside<'_>) -> Option<Law> {
    let (a, b) = (fields.force(&["a"]), fields.force(&["b"]));
    let at_double = fields.force(&["at_double", "at_double_length"]);
    let stiffness = fields.number(&["stiffness_n_per_m", "k_n_per_m", "stiffness_n_m"]);
    let file = fields.text(&["calibration", "calibration_file"]);
    let file_rest = fields.length(&["calibration_rest"]);
    let given = [a.is_some() || b.is_some(), at_double.is_some(), stiffness.is_some(), file.is_some()];
    if given.iter().filter(|given| **given).count() != 1 {
        fields.report(fields.problem("a_n", "load-no-law"));
        return None;
    }
    if let Some(file) = file {
        let Some(rest) = file_rest.or(rest) else {
            fields.missing("calibration_rest_m", "load-why-rest");
            return None;
        };
        let read = beside(Path::new(&file)).map_err(|problem| vec![problem]);
        return match read.and_then(|text| band::read(&text, &band::Asked::of(rest))) {
            Ok(fitted) => Some(fitted.fit.law()),
            Err(problems) => {
                problems.into_iter().for_each(|problem| {
                    let path = format!("{file}: {}", problem.path);
                    fields.report(Problem { path, ..problem });
                });
                None
            }
        };
    }
    let zero = Force::from_newtons(0.0);
    Some(match (at_double, stiffness, rest) {
        (Some(at_double), ..) => Law::Linear { at_double },
        (None, Some(stiffness), Some(rest)) => {
            Law::Linear { at_double: Force::from_newtons(stiffness * rest.metres()) }
        }
        (None, Some(_), None) => return None,
        (None, None, _) => Law::MooneyRivlin { a: a.unwrap_or(zero), b: b.unwrap_or(zero) },
    })
}

/// A piece of band.
pub(super) fn piece(fields: &Fields<'_>, within: &str, beside: Beside<'_>) -> Option<Piece> {
    let piece = piece_of(fields, within, beside);
    fields.done();
    piece
}

fn piece_of(fields: &Fields<'_>, within: &str, beside: Beside<'_>) -> Option<Piece> {
    let rest = fields.length(&["rest", "rest_length", "free_length", "circumference"]);
    let looped = fields.has(&["circumference"]);
    if rest.is_none() {
        fields.missing("rest_m", "load-why-rest");
    }
    let around = fields.length(&["around", "hand_diameter", "diameter"]);
    let strands = match fields.word(&["strands", "form"]).as_deref() {
        Some("loop" | "closed" | "2" | "two") => strands_of_loop(around),
        Some("single" | "open" | "1" | "one") => Strands::Single,
        None if around.is_some() || looped => strands_of_loop(around),
        None => Strands::Single,
        Some(word) => {
            fields.report(fields.problem("strands", "load-strands").with("word", word.to_owned()));
            Strands::Single
        }
    };
    let law = law(fields, rest, beside);
    Piece::new(law?, rest?, strands).map_err(|refusal| fields.report(refusals::piece(within, &refusal))).ok()
}

/// A hand is about eight centimetres round the middle of its grip: for a loop whose file does not say.
fn strands_of_loop(around: Option<Length>) -> Strands {
    Strands::Loop { around: around.unwrap_or(Length::from_metres(0.08)) }
}

fn band_of(root: &Fields<'_>, kit: Option<Piece>, beside: Beside<'_>) -> Option<Piece> {
    if kit.is_some() {
        return kit;
    }
    match root.inside(&["band", "piece", "loop"]) {
        Some(fields) => piece(&fields, "band", beside),
        // A short description may do without a table of its own for the band.
        None if root.has(&["rest", "rest_length", "free_length", "circumference"]) => {
            piece_of(root, "band", beside)
        }
        None => {
            root.missing("band", "load-why-band");
            None
        }
    }
}

/// A length of the file, or of the body.
fn length_or(root: &Fields<'_>, names: &[&str], of_body: Option<Length>) -> Option<Length> {
    let length = root.length(names).or(of_body);
    if length.is_none() {
        root.missing(&format!("{}_m", names.first().copied().unwrap_or_default()), "load-why-length");
    }
    length
}

const FOREARM: &[&str] = &["forearm", "elbow_to_grip", "elbow_to_hand", "ell"];

fn two_hand(
    root: &Fields<'_>,
    body: Option<&Body>,
    kit: Option<Piece>,
    beside: Beside<'_>,
) -> Option<Exercise> {
    let spacing = length_or(
        root,
        &["elbow_spacing", "elbow_distance"],
        body.map(|body| body.elbow_spacing.value.value),
    );
    let forearm = length_or(root, FOREARM, body.map(|body| body.elbow_to_grip().value));
    let piece = band_of(root, kit, beside);
    Some(Exercise::TwoHandRotation(TwoHandRotation {
        elbow_spacing: spacing?,
        forearm: forearm?,
        piece: piece?,
    }))
}

fn anchored(
    root: &Fields<'_>,
    body: Option<&Body>,
    kit: Option<Piece>,
    beside: Beside<'_>,
) -> Option<Exercise> {
    let forearm = length_or(root, FOREARM, body.map(|body| body.elbow_to_grip().value));
    let piece = band_of(root, kit, beside);
    let anchor = anchor(root);
    Some(Exercise::AnchoredRotation(AnchoredRotation { forearm: forearm?, anchor: anchor?, piece: piece? }))
}

/// The anchor seen from the elbow axis: three numbers of one key, or a table.
fn anchor(root: &Fields<'_>) -> Option<Point> {
    if let Some(parts) = root.lengths(&["anchor"]) {
        if let [outward, forward, up] = parts.as_slice() {
            return Some(Point { outward: *outward, forward: *forward, up: *up });
        }
        root.report(root.problem("anchor_m", "load-anchor-parts"));
        return None;
    }
    let Some(fields) = root.inside(&["anchor"]) else {
        root.missing("anchor_m", "load-why-anchor");
        return None;
    };
    let zero = Length::from_metres(0.0);
    let outward = fields.length(&["outward", "x"]);
    if outward.is_none() {
        fields.missing("outward_m", "load-why-anchor");
    }
    let forward = fields.length(&["forward", "y"]).unwrap_or(zero);
    let up = fields.length(&["up", "z"]).unwrap_or(zero);
    fields.done();
    Some(Point { outward: outward?, forward, up })
}

fn row(root: &Fields<'_>, body: Option<&Body>, kit: Option<Piece>, beside: Beside<'_>) -> Option<Exercise> {
    let start_distance = length_or(root, &["start_distance", "anchor_distance"], None);
    let pull = length_or(root, &["pull", "pull_length"], None);
    let upper_arm = length_or(root, &["upper_arm"], body.map(|body| body.upper_arm.length.value.value));
    let forearm = length_or(root, FOREARM, body.map(|body| body.elbow_to_grip().value));
    let piece = band_of(root, kit, beside);
    let rise = root.angle(&["rise", "band_rise"]).unwrap_or(Angle::from_degrees(0.0));
    let start_flexion = root.angle(&["start_flexion"]).unwrap_or(Angle::from_degrees(75.0));
    Some(Exercise::Row(Row {
        start_distance: start_distance?,
        pull: pull?,
        upper_arm: upper_arm?,
        forearm: forearm?,
        rise,
        start_flexion,
        piece: piece?,
    }))
}

fn need_body<'b>(root: &Fields<'_>, body: Option<&'b Body>) -> Option<&'b Body> {
    if body.is_none() && !root.has(&["body", "person", "swimmer"]) {
        root.missing("body", "load-why-body");
    }
    body
}

fn hand_raise(root: &Fields<'_>, body: Option<&Body>) -> Option<Exercise> {
    let weight = root.mass(&["weight", "hand_mass", "hand_weight"]).unwrap_or(Mass::from_kilograms(0.0));
    let body = need_body(root, body)?;
    Some(Exercise::HandRaise(HandRaise { arm: body.arm(), weight }))
}

fn ball_circles(root: &Fields<'_>, body: Option<&Body>) -> Option<Exercise> {
    let ball = root.mass(&["ball", "ball_mass"]).unwrap_or(Mass::from_kilograms(0.0));
    let press = root.force(&["press"]).unwrap_or(Force::from_newtons(5.0));
    let radius = root.length(&["radius", "circle_radius"]).unwrap_or(Length::from_metres(0.09));
    let elevation = root.angle(&["elevation"]).unwrap_or(Angle::from_degrees(90.0));
    let body = need_body(root, body)?;
    Some(Exercise::BallCircles(BallCircles { arm: body.arm(), ball, press, radius, elevation }))
}

fn push_up(root: &Fields<'_>, body: Option<&Body>) -> Option<Exercise> {
    let variant = root.word(&["variant", "support", "on"]);
    let height = root.length(&["height", "bench_height", "hand_height"]);
    let feet = root.length(&["feet_height"]);
    let wall = root.angle(&["wall", "body_angle"]);
    let raised = |length: Length| Length::from_metres(-length.metres());
    let support = match (variant.as_deref(), height, feet, wall) {
        (Some("knees"), ..) => Some(Support::Knees),
        (Some("wall"), _, _, angle) => Some(Support::Wall(angle.unwrap_or(Angle::from_degrees(75.0)))),
        (None, None, None, Some(angle)) => Some(Support::Wall(angle)),
        (Some("floor"), None, None, _) | (None, None, None, None) => {
            Some(Support::Height(Length::from_metres(0.0)))
        }
        (Some("bench" | "box" | "incline" | "floor") | None, Some(height), None, _) => {
            Some(Support::Height(height))
        }
        (Some("feet-raised" | "decline" | "bench" | "box" | "floor") | None, None, Some(feet), _) => {
            Some(Support::Height(raised(feet)))
        }
        (Some("bench" | "box" | "incline"), None, None, _) => {
            root.missing("height_m", "load-why-height");
            None
        }
        (word, ..) => {
            root.report(root.problem("variant", "load-variant").with("word", word.unwrap_or("").to_owned()));
            None
        }
    };
    let person = need_body(root, body)?.person;
    Some(Exercise::PushUp(PushUp {
        sex: person.sex,
        mass: person.mass,
        stature: person.stature,
        support: support?,
    }))
}
