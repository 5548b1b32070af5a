//! What columns each kind of file may have, and by which headers they are known.
//!
//! The tables themselves stand one per kind in the modules below; `docs/import.md` prints them and a test keeps it so.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use quantity::reading::{Dimension, Unit};
use trade::side::Side;

use super::Kind;
use super::dates::DateOrder;
use super::words::{squashed, tokens};

mod kit;
mod roster;
mod screening;
mod sets;

/// One column, whatever its header says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[allow(missing_docs, reason = "each column is described once, in its table")]
pub enum Col {
    Name,
    FirstName,
    LastName,
    GoesBy,
    Born,
    Sex,
    Squad,
    ClubNumber,
    Seasons,
    ProgrammeStart,
    LeftOn,
    GuardianName,
    GuardianPhone,
    GuardianRelation,
    EmergencyNote,
    Height,
    SittingHeight,
    BodyMass,
    MeasuredOn,
    ConsentSigned,
    ConsentItems,
    ConsentSigner,
    ConsentRelation,
    IntakeDate,
    PainYear,
    Dislocated,
    Operation,
    SignsAsked,
    Signs,
    Date,
    Tester,
    Hollow,
    Finding(&'static str),
    Mark,
    KitKind,
    DoubleForce,
    RestLength,
    PieceMass,
    Pieces,
    InService,
    Latex,
    Session,
    Exercise,
    WorkingSide,
    Rung,
    Level,
    Force,
    Weight,
    PlannedRung,
    PrescribedSets,
    SetNumber,
    SetTime,
    End,
    Fault,
    Seen,
    Context,
    Cap,
    ClockKind,
    Rest,
    Effort,
    PainBefore,
    PainAfter,
}

/// How the cells of a column read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reads {
    /// As written.
    Text,
    /// A day.
    Day,
    /// Yes or no.
    YesNo,
    /// One of a few words.
    Choice,
    /// A number with a unit.
    Quantity(Dimension),
}

/// Whether a header names a side or a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carries {
    /// Neither.
    Nothing,
    /// A side must stand in it.
    Side,
    /// A side may stand in it.
    MaybeSide,
    /// A number may stand in it, and a side.
    Number,
}

/// One column of one kind of file.
#[derive(Debug)]
pub struct Spec {
    /// Which column.
    pub col: Col,
    /// What the documents call it; also its first alias.
    pub label: &'static str,
    /// Other headers by which it is known.
    pub aliases: &'static [&'static str],
    /// How its cells read.
    pub reads: Reads,
    /// What else the header says.
    pub carries: Carries,
}

const fn column(col: Col, label: &'static str, reads: Reads, aliases: &'static [&'static str]) -> Spec {
    Spec { col, label, aliases, reads, carries: Carries::Nothing }
}

impl Spec {
    const fn carrying(self, carries: Carries) -> Spec {
        Spec { carries, ..self }
    }

    fn dimension(&self) -> Option<Dimension> {
        match self.reads {
            Reads::Quantity(dimension) => Some(dimension),
            _ => None,
        }
    }
}

/// The columns of one kind of file.
pub fn of(kind: Kind) -> &'static [Spec] {
    match kind {
        Kind::Roster => roster::COLUMNS,
        Kind::Screening => screening::COLUMNS,
        Kind::Kit => kit::COLUMNS,
        Kind::Sets => sets::COLUMNS,
    }
}

/// What a header turned out to be.
#[derive(Debug, Clone)]
pub struct Heading {
    /// The column.
    pub spec: &'static Spec,
    /// Side named in it.
    pub side: Option<Side>,
    /// Number named in it.
    pub number: Option<u8>,
    /// Unit named in it.
    pub unit: Option<Unit>,
    /// Something in brackets that should be a unit and is none.
    pub unknown_unit: Option<String>,
    /// Order of day and month named in it.
    pub order: Option<DateOrder>,
}

/// Left and right as lists write them.
pub(super) fn side_of(word: &str) -> Option<Side> {
    match word {
        "l" | "left" | "lt" | "lhs" | "links" | "li" | "gauche" | "izquierdo" | "izquierda" | "izq"
        | "sinistra" | "sinistro" | "sx" | "venstre" | "vanster" | "vasen" | "lewa" | "lewy" => {
            Some(Side::Left)
        }
        "r" | "right" | "rt" | "rhs" | "rechts" | "re" | "droite" | "droit" | "derecho" | "derecha"
        | "der" | "destra" | "destro" | "dx" | "hoyre" | "hojre" | "hoger" | "oikea" | "prawa" | "prawy" => {
            Some(Side::Right)
        }
        _ => None,
    }
}

/// Longest text that is looked at as a header, in bytes.
const LONGEST_HEADER: usize = 120;

/// Reads a header as one of the columns of a kind.
pub fn read_heading(header: &str, kind: Kind) -> Option<Heading> {
    if LONGEST_HEADER < header.len() {
        return None;
    }
    let (outside, aside) = match header.find(['(', '[']) {
        Some(open) => {
            let inner = header[open + 1..].trim_end().trim_end_matches([')', ']']);
            (&header[..open], Some(inner.trim()))
        }
        None => (header, None),
    };
    let Some(aside) = aside else { return best(kind, &tokens(header)) };
    // What stands in brackets may be part of the name, a unit, a side, a pattern of dates, or a remark.
    let (mut heading, remark) = match best(kind, &tokens(header)) {
        Some(heading) => (heading, false),
        None => (best(kind, &tokens(outside))?, true),
    };
    if let Some(dimension) = heading.spec.dimension()
        && heading.unit.is_none()
        && !aside.is_empty()
    {
        heading.unit = Unit::from_word(aside, dimension);
        let stands_for_a_unit =
            remark && dimension != Dimension::Count && side_of(&squashed(aside)).is_none();
        if heading.unit.is_none() && stands_for_a_unit {
            heading.unknown_unit = Some(aside.to_owned());
        }
    }
    if heading.side.is_none() && heading.spec.carries != Carries::Nothing {
        heading.side = side_of(&squashed(aside));
    }
    if heading.spec.reads == Reads::Day {
        heading.order = DateOrder::from_pattern(aside);
    }
    Some(heading)
}

fn best(kind: Kind, words: &[String]) -> Option<Heading> {
    // A header that is an alias as it stands wins over one that needs parts taken away.
    let some = |fits: &dyn Fn(&str) -> bool| words.iter().any(|word| fits(word));
    let there = (
        some(&Unit::is_word),
        some(&|word| side_of(word).is_some()),
        some(&|word| number_of(word).is_some()),
    );
    PARTS
        .into_iter()
        .filter(|parts| (!parts.0 || there.0) && (!parts.1 || there.1) && (!parts.2 || there.2))
        .find_map(|parts| without(kind, words, parts))
}

/// Which parts are taken out of a header before it is looked up: unit, side, number.
const PARTS: [(bool, bool, bool); 8] = [
    (false, false, false),
    (true, false, false),
    (false, true, false),
    (false, false, true),
    (true, true, false),
    (true, false, true),
    (false, true, true),
    (true, true, true),
];

/// Looks a header up with some parts taken out; the column must be one that carries them.
fn without(kind: Kind, words: &[String], (unit, side, number): (bool, bool, bool)) -> Option<Heading> {
    let mut rest = words.to_vec();
    let mut take = |wanted: bool, fits: &dyn Fn(&str) -> bool| -> Option<Option<String>> {
        if !wanted {
            return Some(None);
        }
        let place = rest.iter().rposition(|word| fits(word))?;
        Some(Some(rest.remove(place)))
    };
    let unit = take(unit, &Unit::is_word)?;
    let side = take(side, &|word| side_of(word).is_some())?;
    let number = take(number, &|word| number_of(word).is_some())?;
    let spec = by_alias(kind).get(&rest.concat()).copied()?;
    let unit = match (unit, spec.dimension()) {
        (None, _) => None,
        (Some(word), Some(dimension)) => Some(Unit::from_word(&word, dimension)?),
        (Some(_), None) => return None,
    };
    if (side.is_some() && spec.carries == Carries::Nothing)
        || (number.is_some() && spec.carries != Carries::Number)
    {
        return None;
    }
    Some(Heading {
        spec,
        side: side.as_deref().and_then(side_of),
        number: number.as_deref().and_then(number_of),
        unit,
        unknown_unit: None,
        order: None,
    })
}

fn number_of(word: &str) -> Option<u8> {
    word.parse::<u8>().ok().filter(|number| (1..=20).contains(number))
}

/// Every alias of a kind, squashed.
fn by_alias(kind: Kind) -> &'static BTreeMap<String, &'static Spec> {
    type Aliases = BTreeMap<String, &'static Spec>;
    static ALL: OnceLock<BTreeMap<Kind, Aliases>> = OnceLock::new();
    let build = |kind: Kind| -> Aliases {
        let mut aliases = Aliases::new();
        for spec in of(kind) {
            for alias in std::iter::once(&spec.label).chain(spec.aliases) {
                aliases.entry(squashed(alias)).or_insert(spec);
            }
        }
        aliases
    };
    let all = ALL.get_or_init(|| Kind::ALL.iter().map(|&kind| (kind, build(kind))).collect());
    all.get(&kind).expect("aliases were built for every kind")
}

/// How many of these cells are headers of any kind of file; tells a delimiter.
pub(super) fn known_headers(cells: &[&str]) -> usize {
    let wordy: Vec<&&str> = cells.iter().filter(|cell| cell.chars().any(char::is_alphabetic)).collect();
    Kind::ALL
        .iter()
        .map(|kind| wordy.iter().filter(|cell| read_heading(cell, *kind).is_some()).count())
        .max()
        .unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_alias_stands_for_two_columns_of_one_kind() {
        for kind in Kind::ALL {
            let mut seen = BTreeMap::new();
            for spec in of(*kind) {
                for alias in std::iter::once(&spec.label).chain(spec.aliases) {
                    let before = seen.insert(squashed(alias), spec.col);
                    assert!(before.is_none_or(|col| col == spec.col), "{kind:?}: {alias}");
                }
            }
        }
    }

    #[test]
    fn headers_as_lists_write_them() {
        use Col::{BodyMass, Born, Finding, Height, SetTime};
        use Kind::{Roster, Screening, Sets};
        let cases = [
            ("Height (cm)", Roster, Height, None, None, Some(Unit::Centimetre)),
            ("HEIGHT in", Roster, Height, None, None, Some(Unit::Inch)),
            ("mass lb", Roster, BodyMass, None, None, Some(Unit::Pound)),
            ("Größe [cm]", Roster, Height, None, None, Some(Unit::Centimetre)),
            ("Date of birth", Roster, Born, None, None, None),
            ("dateOfBirth", Roster, Born, None, None, None),
            ("Geburtsdatum", Roster, Born, None, None, None),
            (
                "ER force L (lb)",
                Screening,
                Finding("er_force"),
                Some(Side::Left),
                None,
                Some(Unit::PoundForce),
            ),
            ("er_force_r_n", Screening, Finding("er_force"), Some(Side::Right), None, Some(Unit::Newton)),
            (
                "left ER ROM (°)",
                Screening,
                Finding("shoulder_er_rom"),
                Some(Side::Left),
                None,
                Some(Unit::Degree),
            ),
            (
                "ER strength (N, right)",
                Screening,
                Finding("er_force"),
                Some(Side::Right),
                None,
                Some(Unit::Newton),
            ),
            (
                "Posterior endurance (reps) left",
                Screening,
                Finding("posterior_endurance_reps"),
                Some(Side::Left),
                None,
                None,
            ),
            ("Set1", Sets, SetTime, None, Some(1), None),
            ("Set 2 (s)", Sets, SetTime, None, Some(2), Some(Unit::Second)),
            ("set 3 L", Sets, SetTime, Some(Side::Left), Some(3), None),
        ];
        for (header, kind, col, side, number, unit) in cases {
            let heading = read_heading(header, kind).unwrap_or_else(|| panic!("{header}"));
            assert_eq!(
                (heading.spec.col, heading.side, heading.number, heading.unit),
                (col, side, number, unit),
                "{header}"
            );
        }
        assert!(read_heading("Lane", Roster).is_none());
        assert!(read_heading("Set 21", Sets).is_none());
        let stone = read_heading("Mass (stone)", Roster).unwrap();
        assert_eq!(stone.unknown_unit.as_deref(), Some("stone"));
        let born = read_heading("Born (DD.MM.YYYY)", Roster).unwrap();
        assert_eq!(born.order, Some(DateOrder::DayFirst));
    }
}
