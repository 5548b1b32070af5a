//! What the parameter table says of one parameter, and how numbers from a file become a field.

use quantity::{HoldTime, Mass, Pain};

/// One row of the parameter table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ParameterSpec {
    /// Key in the protocol file.
    pub key: &'static str,
    /// Field of [`Parameters`](super::Parameters) that it fills.
    pub field: &'static str,
    /// What it is, for people.
    pub label: &'static str,
    /// Unit in the file; empty for counts and ratios.
    pub unit: &'static str,
    /// What kind of value it takes.
    pub shape: Shape,
    /// Lowest and highest allowed, both included, in the file's unit: one pair a number.
    pub within: &'static [(f64, f64)],
    /// Message that says why no club may go beyond, where the limit is a fixed safety limit.
    pub fixed: Option<&'static str>,
}

/// What kind of value a parameter takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Whole numbers only.
    Whole,
    /// Any finite number.
    Decimal,
    /// A whole number, or the word `off`.
    WholeOrOff,
    /// Yes or no.
    Flag,
}

impl ParameterSpec {
    /// Looks a parameter up by its key in the file or by its field.
    pub fn of(name: &str) -> Option<&'static ParameterSpec> {
        super::PARAMETERS.iter().find(|spec| spec.key == name || spec.field == name)
    }

    /// What a club may set, in words.
    pub fn allowed(&self) -> String {
        if self.shape == Shape::Flag {
            return "yes or no".to_owned();
        }
        let ranges: Vec<String> = self
            .within
            .iter()
            .map(|(low, high)| if low == high { format!("{low}") } else { format!("{low} to {high}") })
            .collect();
        let same = ranges.iter().all(|range| *range == ranges[0]);
        let mut words = match (self.within.len(), same) {
            (1, _) => ranges[0].clone(),
            (_, true) => format!("each {}", ranges[0]),
            (_, false) => ranges.join(" / "),
        };
        if !self.unit.is_empty() {
            words = format!("{words} {}", self.unit);
        }
        if self.shape == Shape::WholeOrOff {
            words.push_str(", or off");
        }
        words
    }

    /// A value with its unit, as the Rules page shows it. No numbers stand for `off`.
    pub fn shown(&self, numbers: &[f64]) -> String {
        match (self.shape, numbers) {
            (_, []) => "off".to_owned(),
            (Shape::Flag, [flag, ..]) => if *flag == 0.0 { "no" } else { "yes" }.to_owned(),
            _ => {
                let joined = numbers.iter().map(f64::to_string).collect::<Vec<_>>().join(" / ");
                if self.unit.is_empty() { joined } else { format!("{joined} {}", self.unit) }
            }
        }
    }
}

/// A field of the parameters, as it is made from numbers the reader has found inside their ranges.
pub(super) trait Field: Sized {
    /// The kind of value the file must hold.
    const SHAPE: Shape;

    /// Takes the numbers; nothing when they do not fit, which the reader has then reported.
    fn from_numbers(numbers: &[f64]) -> Option<Self>;
}

/// A checked whole number that fits the target, or nothing.
fn whole<T: TryFrom<i64>>(number: f64) -> Option<T> {
    // Every whole parameter is far below 2^53, so the conversion is exact; anything else is refused by the test.
    let candidate = number as i64;
    if candidate as f64 == number { T::try_from(candidate).ok() } else { None }
}

macro_rules! field {
    ($kind:ty, $shape:ident, |$numbers:ident| $make:expr) => {
        impl Field for $kind {
            const SHAPE: Shape = Shape::$shape;
            fn from_numbers($numbers: &[f64]) -> Option<Self> {
                $make
            }
        }
    };
}

field!(u8, Whole, |numbers| whole(*numbers.first()?));
field!(u16, Whole, |numbers| whole(*numbers.first()?));
field!(f64, Decimal, |numbers| numbers.first().copied());
field!(HoldTime, Decimal, |numbers| HoldTime::try_from_seconds(*numbers.first()?).ok());
field!(Mass, Decimal, |numbers| Mass::try_from_kilograms(*numbers.first()?).ok());
field!(Pain, Whole, |numbers| Pain::new(whole(*numbers.first()?)?).ok());
field!(bool, Flag, |numbers| Some(*numbers.first()? != 0.0));
field!(Option<u8>, WholeOrOff, |numbers| match numbers {
    [] => Some(None),
    [weeks, ..] => whole(*weeks).map(Some),
});

impl<T: Field, const N: usize> Field for [T; N] {
    const SHAPE: Shape = T::SHAPE;

    fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let fields: Vec<T> =
            numbers.iter().map(|number| T::from_numbers(&[*number])).collect::<Option<_>>()?;
        fields.try_into().ok()
    }
}
