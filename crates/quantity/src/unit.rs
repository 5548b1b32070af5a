//! Units as people write them, with what each measures and its exact factor.

/// What kind of quantity is expected.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// A mass; canonical unit kilogram.
    Mass,
    /// A force; canonical unit newton.
    Force,
    /// A length; canonical unit metre.
    Length,
    /// An angle; canonical unit degree.
    Angle,
    /// A time; canonical unit second.
    Time,
    /// A bare count or score.
    Count,
}

/// A unit as a person writes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum Unit {
    Kilogram,
    Gram,
    Pound,
    Ounce,
    Newton,
    KilogramForce,
    PoundForce,
    Metre,
    Centimetre,
    Millimetre,
    Inch,
    Foot,
    Degree,
    Second,
    Minute,
    One,
}

/// Every unit: kind, canonical units in one of it, the symbol it is written back with, and the ways people write it.
/// Factors: international yard and pound agreement of 1959 and ISO 80000-4, exact by definition.
pub(crate) type UnitRow = (Unit, Dimension, f64, &'static str, &'static [&'static str]);

#[rustfmt::skip]
pub(crate) const UNITS: &[UnitRow] = &[
    (Unit::Kilogram, Dimension::Mass, 1.0, "kg", &["kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"]),
    (Unit::Gram, Dimension::Mass, 0.001, "g", &["g", "gr", "gram", "grams", "gramme", "grammes"]),
    (Unit::Pound, Dimension::Mass, 0.453_592_37, "lb", &["lb", "lbs", "pound", "pounds", "#"]),
    (Unit::Ounce, Dimension::Mass, 0.028_349_523_125, "oz", &["oz", "ounce", "ounces"]),
    (Unit::Newton, Dimension::Force, 1.0, "N", &["n", "newton", "newtons"]),
    (Unit::KilogramForce, Dimension::Force, 9.806_65, "kgf", &["kgf", "kp", "kg", "kgs"]),
    (Unit::PoundForce, Dimension::Force, 4.448_221_615_260_5, "lbf", &["lbf", "lbsf", "lb", "lbs"]),
    (Unit::Metre, Dimension::Length, 1.0, "m", &["m", "metre", "metres", "meter", "meters"]),
    (Unit::Centimetre, Dimension::Length, 0.01, "cm", &["cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"]),
    (Unit::Millimetre, Dimension::Length, 0.001, "mm", &["mm", "millimetre", "millimetres", "millimeter", "millimeters"]),
    (Unit::Inch, Dimension::Length, 0.0254, "in", &["in", "ins", "inch", "inches", "\""]),
    (Unit::Foot, Dimension::Length, 0.3048, "ft", &["ft", "foot", "feet", "'"]),
    (Unit::Degree, Dimension::Angle, 1.0, "°", &["deg", "degs", "degree", "degrees", "°", "º", "grad"]),
    (Unit::Second, Dimension::Time, 1.0, "s", &["s", "sec", "secs", "second", "seconds", "sek", "\""]),
    (Unit::Minute, Dimension::Time, 60.0, "min", &["min", "mins", "minute", "minutes", "'"]),
    (Unit::One, Dimension::Count, 1.0, "", &["x", "reps", "rep", "pcs", "points", "pts"]),
];

impl Unit {
    fn row(self) -> &'static UnitRow {
        UNITS.iter().find(|row| row.0 == self).expect("every unit stands in the table")
    }

    /// Reads a unit as people write it, where this kind of quantity is expected.
    ///
    /// A force may be written in kg or lb, as scales and dynamometers show it: beside a force these can only mean
    /// kilogram-force and pound-force.
    pub fn from_word(word: &str, dimension: Dimension) -> Option<Unit> {
        UNITS.iter().find(|row| row.1 == dimension && written_as(row, word)).map(|row| row.0)
    }

    /// Some unit is written like this.
    pub fn is_word(word: &str) -> bool {
        UNITS.iter().any(|row| written_as(row, word))
    }

    /// What it measures.
    pub fn dimension(self) -> Dimension {
        self.row().1
    }

    /// The symbol it is written back with.
    pub fn symbol(self) -> &'static str {
        self.row().3
    }

    /// From this unit to the canonical one.
    pub fn to_canonical(self, value: f64) -> f64 {
        value * self.row().2
    }

    /// From the canonical unit to this one.
    pub fn from_canonical(self, value: f64) -> f64 {
        value / self.row().2
    }
}

/// A unit is written like this, whatever the capitals, with or without a full stop.
pub(crate) fn written_as(row: &UnitRow, word: &str) -> bool {
    let word = word.trim().trim_end_matches('.');
    row.4.iter().any(|written| written.eq_ignore_ascii_case(word))
}
