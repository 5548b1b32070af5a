//! Which swimmer a row is about, and what else is on record.

use std::collections::BTreeMap;

use jiff::civil::Date;
use quantity::{HoldTime, Mass};
use serde_json::Value;
use store::{FactId, SubjectId};
use trade::protocol::{Exercise, Fault, Protocol};

use super::problem::{Problem, Said};
use super::words::{name_key, nearest, number_key};
use crate::facts;

/// A swimmer on record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownSwimmer {
    /// Subject id.
    pub subject: SubjectId,
    /// Name as on record.
    pub name: String,
    /// Birth date.
    pub born: Date,
    /// Club number.
    pub club_number: Option<String>,
}

/// A live fact on record: the last of its line of corrections.
#[derive(Debug, Clone, PartialEq)]
pub struct Existing {
    /// Its id.
    pub fact: FactId,
    /// Its payload.
    pub payload: Value,
    /// What a file last said under this key, where a person has corrected it since.
    pub imported: Option<Value>,
}

/// What stands on record under a natural key.
#[derive(Debug, Clone, PartialEq)]
pub enum OnRecord {
    /// Nothing.
    Nothing,
    /// One live fact.
    Live(Existing),
    /// A person has taken it back, or the swimmer was erased: it stays so.
    LeftAlone,
    /// Several facts claim the place; a person must settle that first.
    Contested,
}

impl OnRecord {
    /// The payload of the live fact.
    pub(super) fn payload(&self) -> Option<&Value> {
        match self {
            OnRecord::Live(existing) => Some(&existing.payload),
            _ => None,
        }
    }
}

/// What the protocol says about past set times.
#[derive(Debug, Clone, Copy)]
pub struct Exercises<'a> {
    /// Exercises with their ladders.
    pub exercises: &'a [Exercise],
    /// Form faults.
    pub faults: &'a [Fault],
    /// Usual cap.
    pub cap: HoldTime,
    /// Usual number of sets.
    pub sets: u8,
    /// Heaviest hand weight in scaption, inclusive.
    pub scaption_limit: Mass,
}

impl<'a> Exercises<'a> {
    /// What the import needs of a protocol.
    pub fn of(protocol: &'a Protocol) -> Self {
        Self {
            exercises: &protocol.exercises,
            faults: &protocol.faults,
            cap: protocol.parameters.cap,
            sets: protocol.parameters.sets,
            scaption_limit: protocol.parameters.scaption_limit,
        }
    }
}

/// What is on record.
#[derive(Clone, Copy)]
pub struct Known<'a> {
    /// Swimmers.
    pub swimmers: &'a [KnownSwimmer],
    /// Exercises.
    pub exercises: Exercises<'a>,
    /// What stands under a kind's natural key.
    pub on_record: &'a dyn Fn(facts::Kind, &str) -> OnRecord,
}

/// What a row says about who it is about.
#[derive(Debug, Clone, Default)]
pub(super) struct Whom {
    pub(super) number: Option<String>,
    pub(super) name: Option<String>,
    pub(super) born: Option<Date>,
}

/// Swimmers with their names and numbers ready for comparison.
pub(super) struct People<'a> {
    swimmers: &'a [KnownSwimmer],
    by_number: BTreeMap<String, Vec<&'a KnownSwimmer>>,
    by_name: BTreeMap<String, Vec<&'a KnownSwimmer>>,
}

impl<'a> People<'a> {
    pub(super) fn of(swimmers: &'a [KnownSwimmer]) -> Self {
        let mut by_number: BTreeMap<String, Vec<&KnownSwimmer>> = BTreeMap::new();
        let mut by_name: BTreeMap<String, Vec<&KnownSwimmer>> = BTreeMap::new();
        for swimmer in swimmers {
            by_name.entry(name_key(&swimmer.name)).or_default().push(swimmer);
            if let Some(number) = &swimmer.club_number {
                by_number.entry(number_key(number)).or_default().push(swimmer);
            }
        }
        Self { swimmers, by_number, by_name }
    }
}

/// Finds the swimmer a row is about: by club number, else by name and birth date, else by a name that only one has.
pub(super) fn find<'a>(people: &People<'a>, whom: &Whom) -> Result<&'a KnownSwimmer, Problem> {
    let swimmers = people.swimmers;
    if let Some(number) = &whom.number {
        let numbered = people.by_number.get(&number_key(number)).map_or(&[][..], Vec::as_slice);
        return match numbered {
            [swimmer] => agrees(swimmer, whom).map(|()| *swimmer),
            [] => Err(Problem::new("import-swimmer-unknown-number")
                .showing(number)
                .with("number", number)
                .suggest(Said::new("import-try-roster-first"))),
            several => Err(Problem::new("import-swimmer-number-twice")
                .showing(number)
                .with("number", number)
                .with("names", listed(several))),
        };
    }
    let Some(name) = &whom.name else {
        return Err(Problem::new("import-swimmer-not-named").suggest(Said::new("import-try-name-or-number")));
    };
    let named = people.by_name.get(&name_key(name)).map_or(&[][..], Vec::as_slice);
    if named.is_empty() {
        return Err(unknown(swimmers, name));
    }
    match whom.born {
        Some(born) => {
            let fitting: Vec<&KnownSwimmer> =
                named.iter().copied().filter(|swimmer| swimmer.born == born).collect();
            match fitting.as_slice() {
                [swimmer] => Ok(swimmer),
                [] => Err(Problem::new("import-swimmer-other-birth-date")
                    .showing(name)
                    .with("name", name)
                    .with("born", born)
                    .with("names", listed(named))),
                several => Err(two_of_a_name(name, several)),
            }
        }
        None => match named {
            [swimmer] => Ok(swimmer),
            several => Err(two_of_a_name(name, several)),
        },
    }
}

/// A row that gives a number and also a name or birth date must not contradict itself.
fn agrees(swimmer: &KnownSwimmer, whom: &Whom) -> Result<(), Problem> {
    let name_fits = whom.name.as_deref().is_none_or(|name| name_key(name) == name_key(&swimmer.name));
    let born_fits = whom.born.is_none_or(|born| born == swimmer.born);
    if name_fits && born_fits {
        return Ok(());
    }
    Err(Problem::new("import-swimmer-number-of-another")
        .showing(whom.name.as_deref().unwrap_or_default())
        .with("number", swimmer.club_number.as_deref().unwrap_or_default())
        .with("name", &swimmer.name)
        .with("year", swimmer.born.year()))
}

fn unknown(swimmers: &[KnownSwimmer], name: &str) -> Problem {
    let near = nearest(name, swimmers.iter().map(|swimmer| swimmer.name.as_str()));
    let problem = Problem::new("import-swimmer-unknown").showing(name).with("name", name);
    if near.is_empty() {
        problem.suggest(Said::new("import-try-roster-first"))
    } else {
        problem.suggest(Said::new("import-try-nearest").with("names", near.join(", ")))
    }
}

fn two_of_a_name(name: &str, several: &[&KnownSwimmer]) -> Problem {
    Problem::new("import-swimmer-name-shared")
        .showing(name)
        .with("name", name)
        .with("names", listed(several))
        .suggest(Said::new("import-try-number-or-birth-date"))
}

/// Swimmers with their birth years, in an order that does not depend on the store.
pub(super) fn listed(swimmers: &[&KnownSwimmer]) -> String {
    let mut lines: Vec<String> = swimmers
        .iter()
        .map(|swimmer| {
            let number = swimmer.club_number.as_deref().map(|n| format!(", no. {n}")).unwrap_or_default();
            format!("{} (born {}{number})", swimmer.name, swimmer.born.year())
        })
        .collect();
    lines.sort();
    lines.join("; ")
}
