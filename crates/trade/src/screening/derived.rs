//! Values that follow from what was measured, sides kept apart, each with its rule and its inputs.
//!
//! They describe one day. Published thresholds stand beside a value with the people they come from; none was
//! validated in swimmers, and none decides anything here. What can be acted on is the gate's to say.

use jiff::civil::Date;

use super::day::Day;
use super::error::{self, Size, smallest_change};
use crate::history::{History, Outcome, Sex};
use crate::protocol::Protocol;
use crate::rule::{RuleCode, gate_rules, screening_rules as codes};
use crate::side::Side;
use crate::trace::{Arg, Class, Line};

/// Standard gravity, m/s²; exact by definition (ISO 80000-3).
const GRAVITY: f64 = 9.806_65;
/// Days before a screening for which a height or a mass still describes the body: a choice of this project.
const BODY_DAYS: i32 = 90;
/// Spread of one strength test of one arm, share of its value; middle of what Job 2024 saw in swimmers (5.2 to 8.8 %).
const STRENGTH_CV: f64 = 0.07;
/// IR deficit and arc deficit, degrees, of which throwers' studies speak: wilk2011, 122 pitchers. `>=` and `>`.
const THROWER_IR: f64 = 20.0;
const THROWER_ARC: f64 = 5.0;

/// One value that follows from measured ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Value {
    /// Rule that says how it is worked out.
    pub rule: RuleCode,
    /// Name of the value, a message of the text catalogue.
    pub name: &'static str,
    /// Shoulder it belongs to; of a difference the one that has less; none for the person.
    pub side: Option<Side>,
    /// The value.
    pub value: f64,
    /// Its unit.
    pub unit: &'static str,
    /// Decimals worth showing.
    pub decimals: u8,
    /// How it came about, with every input.
    pub line: Line,
    /// What stands beside it in print or by rule, each with its own ground.
    pub beside: Vec<Line>,
}

/// A value that cannot be worked out, with what is missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// Rule that says how it would be worked out.
    pub rule: RuleCode,
    /// Name of the value.
    pub name: &'static str,
    /// Shoulder.
    pub side: Option<Side>,
    /// Measures that are missing, with their side.
    pub missing: Vec<(&'static str, Option<Side>)>,
}

/// Known, or cannot tell.
#[derive(Debug, Clone, PartialEq)]
pub enum Derived {
    /// Known.
    Known(Value),
    /// Cannot tell.
    Missing(Gap),
}

/// Total arc of rotation: external plus internal.
pub fn arc(external: f64, internal: f64) -> f64 {
    external + internal
}

/// How much one arm lacks of the other: positive is a loss of the first.
pub fn deficit(own: f64, other: f64) -> f64 {
    other - own
}

/// Torque in N·m from a force in newtons at a lever in metres.
pub fn torque(force: f64, lever: f64) -> f64 {
    force * lever
}

/// Force as a share of body weight.
pub fn share_of_body_weight(force: f64, mass: f64) -> Option<f64> {
    (0.0 < mass).then(|| force / (mass * GRAVITY))
}

/// One over the other; nothing where the divisor is not positive. Which way round is always said by the name.
pub fn ratio(over: f64, under: f64) -> Option<f64> {
    (0.0 < under).then(|| over / under)
}

/// Half-width of the 95 % noise of one symmetry index, as a share, when each side has this coefficient of variation:
/// log-normal errors, independent sides.
pub fn symmetry_noise(cv: f64) -> f64 {
    (error::Z95 * std::f64::consts::SQRT_2 * (1.0 + cv * cv).ln().sqrt()).exp() - 1.0
}

/// Everything that follows from one day of one swimmer.
pub fn derived(protocol: &Protocol, history: &History, day: &Day<'_>) -> Vec<Derived> {
    let body = Body::of(history, day.date);
    let maker = Maker { protocol, history, day, body };
    let mut all = Vec::new();
    for side in Side::BOTH {
        maker.arc(side, &mut all);
    }
    maker.range_differences(&mut all);
    for key in ["er_force", "ir_force"] {
        for side in Side::BOTH {
            maker.strength(key, side, &mut all);
        }
    }
    for side in Side::BOTH {
        maker.ratio(side, &mut all);
    }
    for key in ["er_force", "ir_force"] {
        maker.symmetry(key, &mut all);
    }
    for key in ["posterior_endurance_reps", "posterior_endurance_time", "side_bridge_time"] {
        maker.hold_difference(key, &mut all);
    }
    for side in Side::BOTH {
        maker.pectoral(side, &mut all);
    }
    maker.touches(&mut all);
    all
}

/// Height and mass that describe the body on a day, with the day they were measured.
#[derive(Debug, Clone, Copy)]
struct Body {
    height: Option<f64>,
    mass: Option<f64>,
}

impl Body {
    fn of(history: &History, on: Date) -> Self {
        let near = |date: Date| (0..=BODY_DAYS).contains(&crate::history::days_between(date, on));
        let newest = history.growth.iter().rev().filter(|measure| near(measure.date));
        Self {
            height: newest.clone().next().map(|measure| measure.height.metres()),
            mass: newest.clone().find_map(|measure| measure.mass).map(quantity::Mass::in_kilograms),
        }
    }
}

struct Maker<'a> {
    protocol: &'a Protocol,
    history: &'a History,
    day: &'a Day<'a>,
    body: Body,
}

fn line(code: RuleCode, says: &'static str) -> Line {
    Line::new(code, says, Class::Health)
}

fn number(value: f64, decimals: u8) -> Arg {
    Arg::Number(value, decimals)
}

fn measure_word(key: &str) -> Arg {
    Arg::Word(format!("measure-{key}"))
}

/// Less is on this side; none where both are equal.
fn lesser(left: f64, right: f64) -> Option<Side> {
    match left.total_cmp(&right) {
        std::cmp::Ordering::Less => Some(Side::Left),
        std::cmp::Ordering::Greater => Some(Side::Right),
        std::cmp::Ordering::Equal => None,
    }
}

impl Maker<'_> {
    fn measured(&self, key: &str, side: Option<Side>) -> Option<f64> {
        self.day.measured(key, side)
    }

    /// Names what is missing, where something of it was measured: what nobody set out to measure is not a gap.
    fn gap(
        &self,
        rule: RuleCode,
        name: &'static str,
        side: Option<Side>,
        needs: &[(&'static str, Option<Side>)],
        all: &mut Vec<Derived>,
    ) {
        let is_there = |(key, side): &(&'static str, Option<Side>)| match *key {
            "height" => self.body.height.is_some(),
            "body_mass" => self.body.mass.is_some(),
            "lever_arm" => self.lever(*side).is_some(),
            key => self.measured(key, *side).is_some(),
        };
        let set_out = needs.iter().any(|need| {
            let (key, side) = *need;
            is_there(need)
                && !matches!(key, "height" | "body_mass" | "lever_arm")
                && matches!(
                    self.day.entry(key, side).map(|entry| &entry.finding.outcome),
                    Some(Outcome::Measured(_))
                )
        });
        if set_out {
            let missing = needs.iter().filter(|need| !is_there(need)).copied().collect();
            all.push(Derived::Missing(Gap { rule, name, side, missing }));
        }
    }

    /// The lever of one arm; one lever for both where only one was taken.
    fn lever(&self, side: Option<Side>) -> Option<f64> {
        self.measured("lever_arm", side).or_else(|| self.measured("lever_arm", None))
    }

    fn both(&self, key: &str) -> Option<(f64, f64)> {
        Some((self.measured(key, Some(Side::Left))?, self.measured(key, Some(Side::Right))?))
    }

    fn arc_of(&self, side: Side) -> Option<f64> {
        let external = self.measured("shoulder_er_rom", Some(side))?;
        Some(arc(external, self.measured("shoulder_ir_rom", Some(side))?))
    }

    fn arc(&self, side: Side, all: &mut Vec<Derived>) {
        let needs = [("shoulder_er_rom", Some(side)), ("shoulder_ir_rom", Some(side))];
        let values = needs.map(|(key, side)| self.measured(key, side));
        let ([Some(external), Some(internal)], Some(value)) = (values, self.arc_of(side)) else {
            return self.gap(codes::V1, "derived-arc", Some(side), &needs, all);
        };
        let line = line(codes::V1, "value-arc")
            .with("external", number(external, 0))
            .with("internal", number(internal, 0));
        all.push(Derived::Known(Value {
            rule: codes::V1,
            name: "derived-arc",
            side: Some(side),
            value,
            unit: "deg",
            decimals: 0,
            line,
            beside: Vec::new(),
        }));
    }

    fn range_differences(&self, all: &mut Vec<Derived>) {
        let keys = [
            ("shoulder_er_rom", "derived-er-difference"),
            ("shoulder_ir_rom", "derived-ir-difference"),
            ("shoulder_flexion_rom", "derived-flexion-difference"),
            ("horizontal_adduction", "derived-adduction-difference"),
        ];
        for (key, name) in keys {
            let needs = [(key, Some(Side::Left)), (key, Some(Side::Right))];
            match self.both(key) {
                None => self.gap(codes::V2, name, None, &needs, all),
                Some((left, right)) => {
                    let mut value = self.difference(codes::V2, name, key, left, right, "deg");
                    if key == "shoulder_ir_rom" {
                        value.beside.extend(self.beside_ir(left, right));
                    }
                    all.push(Derived::Known(value));
                }
            }
        }
        if let [Some(left), Some(right)] = Side::BOTH.map(|side| self.arc_of(side)) {
            // Two measures stand behind an arc; no error of their sum was published, so none is named.
            let mut value = self.difference(codes::V2, "derived-arc-difference", "arc", left, right, "deg");
            if THROWER_ARC < value.value {
                value.beside.push(thrower("beside-arc-throwers", THROWER_ARC));
            }
            all.push(Derived::Known(value));
        }
    }

    /// A side difference, with what the error of the test says to it.
    fn difference(
        &self,
        rule: RuleCode,
        name: &'static str,
        key: &str,
        left: f64,
        right: f64,
        unit: &'static str,
    ) -> Value {
        let line = line(rule, "value-difference")
            .with("measure", measure_word(key))
            .with("left", number(left, 0))
            .with("right", number(right, 0));
        let value = (left - right).abs();
        let beside =
            error::published(key).map(|published| self.against_error(value, (left, right), published));
        Value {
            rule,
            name,
            side: lesser(left, right),
            value,
            unit,
            decimals: 0,
            line,
            beside: beside.into_iter().collect(),
        }
    }

    fn against_error(&self, value: f64, sides: (f64, f64), published: &error::Published) -> Line {
        let smallest = smallest_change(published.size.at((sides.0 + sides.1) / 2.0));
        let says = if value < smallest { "beside-within-error" } else { "beside-beyond-error" };
        line(codes::V9, says)
            .with("smallest", number(smallest, 0))
            .with("source", Arg::Verbatim(published.source.to_owned()))
            .with("people", Arg::Word(published.population.to_owned()))
    }

    fn beside_ir(&self, left: f64, right: f64) -> Option<Line> {
        let tighter = lesser(left, right)?;
        let lack = (left - right).abs();
        let other = self.arc_of(tighter.other());
        let share = other.and_then(|arc| ratio(lack, arc));
        (THROWER_IR <= lack).then(|| match share {
            Some(share) => thrower("beside-ir-throwers-share", THROWER_IR).with("share", Arg::Share(share)),
            None => thrower("beside-ir-throwers", THROWER_IR),
        })
    }

    fn strength(&self, key: &'static str, side: Side, all: &mut Vec<Derived>) {
        let (per_weight, turning, per_mass) = if key == "er_force" {
            ("derived-er-weight", "derived-er-torque", "derived-er-torque-mass")
        } else {
            ("derived-ir-weight", "derived-ir-torque", "derived-ir-torque-mass")
        };
        let needs = [(key, Some(side)), ("body_mass", None)];
        let force = self.measured(key, Some(side));
        let newtons = |force| Arg::Force(quantity::Force::from_newtons(force));
        match (force, self.body.mass) {
            (Some(force), Some(mass)) => {
                if let Some(share) = share_of_body_weight(force, mass) {
                    let line = line(codes::V3, "value-share-of-weight")
                        .with("force", newtons(force))
                        .with("mass", Arg::Mass(quantity::Mass::from_kilograms(mass)));
                    all.push(known(codes::V3, per_weight, Some(side), share * 100.0, ("%", 0), line));
                }
            }
            _ => self.gap(codes::V3, per_weight, Some(side), &needs, all),
        }
        let (Some(force), Some(lever)) = (force, self.lever(Some(side))) else { return };
        let value = torque(force, lever);
        let worked = line(codes::V4, "value-torque")
            .with("force", newtons(force))
            .with("lever", number(lever * 100.0, 1));
        all.push(known(codes::V4, turning, Some(side), value, ("N m", 1), worked));
        if let Some(per_kilogram) = self.body.mass.and_then(|mass| ratio(value, mass)) {
            let line = line(codes::V4, "value-torque-mass")
                .with("torque", number(value, 1))
                .with("mass", Arg::Mass(quantity::Mass::from_kilograms(self.body.mass.unwrap_or(0.0))));
            all.push(known(codes::V4, per_mass, Some(side), per_kilogram, ("N m/kg", 2), line));
        }
    }

    fn ratio(&self, side: Side, all: &mut Vec<Derived>) {
        let needs = [("er_force", Some(side)), ("ir_force", Some(side))];
        let [external, internal] = needs.map(|(key, side)| self.measured(key, side));
        let value = external.zip(internal).and_then(|(external, internal)| ratio(external, internal));
        let (Some(external), Some(internal), Some(value)) = (external, internal, value) else {
            return self.gap(codes::V5, "derived-ratio", Some(side), &needs, all);
        };
        let worked = line(codes::V5, "value-ratio")
            .with("external", Arg::Force(quantity::Force::from_newtons(external)))
            .with("internal", Arg::Force(quantity::Force::from_newtons(internal)));
        let norm = line(
            codes::V5,
            match self.history.swimmer.sex {
                Sex::Female => "beside-ratio-girls",
                Sex::Male => "beside-ratio-boys",
                Sex::Unstated => "beside-ratio-both",
            },
        );
        let mut beside = vec![norm];
        let flag = self.protocol.parameters.ratio_flag;
        if value < flag {
            beside.push(line(gate_rules::C4, "beside-ratio-flag").with("limit", number(flag, 2)));
        }
        all.push(Derived::Known(Value {
            rule: codes::V5,
            name: "derived-ratio",
            side: Some(side),
            value,
            unit: "",
            decimals: 2,
            line: worked,
            beside,
        }));
    }

    fn symmetry(&self, key: &'static str, all: &mut Vec<Derived>) {
        let name = if key == "er_force" { "derived-er-symmetry" } else { "derived-ir-symmetry" };
        let needs = [(key, Some(Side::Left)), (key, Some(Side::Right))];
        let Some((left, right)) = self.both(key) else {
            return self.gap(codes::V6, name, None, &needs, all);
        };
        let Some(index) = ratio(left.min(right), left.max(right)) else { return };
        let force = |value| Arg::Force(quantity::Force::from_newtons(value));
        let worked = line(codes::V6, "value-symmetry")
            .with("weaker", force(left.min(right)))
            .with("stronger", force(left.max(right)));
        let noise = line(codes::V6, "beside-symmetry-noise")
            .with("noise", Arg::Share(symmetry_noise(STRENGTH_CV)))
            .with("cv", Arg::Share(STRENGTH_CV));
        all.push(Derived::Known(Value {
            rule: codes::V6,
            name,
            side: lesser(left, right),
            value: index * 100.0,
            unit: "%",
            decimals: 0,
            line: worked,
            beside: vec![noise],
        }));
    }

    fn hold_difference(&self, key: &'static str, all: &mut Vec<Derived>) {
        let (name, unit) = match key {
            "posterior_endurance_reps" => ("derived-endurance-reps-difference", "reps"),
            "posterior_endurance_time" => ("derived-endurance-time-difference", "s"),
            _ => ("derived-bridge-difference", "s"),
        };
        let needs = [(key, Some(Side::Left)), (key, Some(Side::Right))];
        match self.both(key) {
            None => self.gap(codes::V7, name, None, &needs, all),
            Some((left, right)) => {
                all.push(Derived::Known(self.difference(codes::V7, name, key, left, right, unit)));
            }
        }
    }

    fn pectoral(&self, side: Side, all: &mut Vec<Derived>) {
        let needs = [("pec_minor_length", Some(side)), ("height", None)];
        let length = self.measured("pec_minor_length", Some(side));
        let (Some(length), Some(height)) = (length, self.body.height) else {
            return self.gap(codes::V8, "derived-pectoral", Some(side), &needs, all);
        };
        let Some(index) = ratio(length, height * 100.0) else { return };
        let worked = line(codes::V8, "value-pectoral")
            .with("length", number(length, 1))
            .with("height", number(height * 100.0, 1));
        all.push(known(codes::V8, "derived-pectoral", Some(side), index * 100.0, ("%", 1), worked));
    }

    fn touches(&self, all: &mut Vec<Derived>) {
        let needs = [("stability_touches", None), ("height", None)];
        let touches = self.measured("stability_touches", None);
        let (Some(touches), Some(height)) = (touches, self.body.height) else {
            return self.gap(codes::V8, "derived-touches", None, &needs, all);
        };
        let Some(per_height) = ratio(touches, height) else { return };
        let worked = line(codes::V8, "value-touches")
            .with("touches", number(touches, 1))
            .with("height", number(height, 2));
        all.push(known(codes::V8, "derived-touches", None, per_height, ("touches/m", 1), worked));
    }
}

fn thrower(says: &'static str, limit: f64) -> Line {
    line(codes::V2, says).with("limit", number(limit, 0))
}

fn known(
    rule: RuleCode,
    name: &'static str,
    side: Option<Side>,
    value: f64,
    (unit, decimals): (&'static str, u8),
    line: Line,
) -> Derived {
    Derived::Known(Value { rule, name, side, value, unit, decimals, line, beside: Vec::new() })
}

impl Size {
    /// The standard error of measurement at this level of the value.
    pub fn at(self, level: f64) -> f64 {
        match self {
            Size::Absolute(sem) => sem,
            Size::Share(share) => share * level.abs(),
        }
    }
}
