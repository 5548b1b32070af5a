//! A swimmer by what a person types: the beginning of a name, the club's number, the id.
//!
//! Where several fit, nothing is guessed: all of them are listed.

use app::desk::{Desk, Person};
use jiff::civil::Date;
use trade::name::{ExerciseId, RungId};
use trade::protocol::Exercise;

use super::exit::Exit;
use super::failure::{Failure, Trouble};
use super::words::say;

/// The fewest characters by which an id is recognised.
const LEAST_OF_AN_ID: usize = 4;

/// The one swimmer that is meant.
pub(crate) fn swimmer<'d>(desk: &'d Desk, wanted: &str) -> Result<&'d Person, Failure> {
    let wanted = wanted.trim();
    // The closest way of fitting decides, so that a whole name is never ambiguous with a longer one.
    for fits in [is_exactly, begins_with, has_a_word_that_begins_with] {
        let mut found: Vec<&Person> = desk.people().filter(|person| fits(person, wanted)).collect();
        match found.as_slice() {
            [] => {}
            [one] => return Ok(one),
            _ => {
                found.sort_by_key(|person| (&person.read.swimmer.name, person.subject));
                let values = [("wanted", wanted.to_owned()), ("number", found.len().to_string())];
                return Err(Failure::new(Exit::NotFound, "cli-several-swimmers", &values)
                    .hint("cli-several-swimmers-hint")
                    .list(found.into_iter().map(candidate).collect()));
            }
        }
    }
    Err(Failure::new(Exit::NotFound, "cli-no-swimmer", &[("wanted", wanted.to_owned())])
        .hint("cli-no-swimmer-hint"))
}

/// The one swimmer that is named, or the squad of a day; by name.
pub(crate) fn swimmers<'d>(
    desk: &'d Desk,
    wanted: Option<&str>,
    on: Date,
) -> Result<Vec<&'d Person>, Failure> {
    if let Some(wanted) = wanted {
        return Ok(vec![swimmer(desk, wanted)?]);
    }
    let mut squad: Vec<&Person> = desk.squad_on(on).collect();
    squad.sort_by_key(|person| (&person.read.swimmer.name, person.subject));
    Ok(squad)
}

/// The exercise that is named, upper or lower case.
pub(crate) fn exercise<'d>(desk: &'d Desk, wanted: &str) -> Result<&'d Exercise, Failure> {
    let exercises = &desk.protocol().exercises;
    exercises.iter().find(|exercise| exercise.id.as_str().eq_ignore_ascii_case(wanted.trim())).ok_or_else(
        || {
            let known: Vec<&str> = exercises.iter().map(|exercise| exercise.id.as_str()).collect();
            Failure::new(Exit::NotFound, "fact-unknown-exercise", &[("word", wanted.to_owned())])
                .hint_with("cli-known", &[("known", known.join(", "))])
        },
    )
}

/// The rung that is named, alone (`b16`) or with its exercise (`RC-1/b16`).
pub(crate) fn rung(exercise: &Exercise, wanted: &str) -> Result<RungId, Failure> {
    let wanted = wanted.trim();
    let alone = match wanted.split_once('/') {
        Some((of, rung)) if ExerciseId::new(of) == exercise.id => rung,
        _ => wanted,
    };
    exercise.rung(&RungId::new(alone)).map(|rung| rung.id.clone()).ok_or_else(|| {
        let known: Vec<&str> = exercise.ladder.iter().map(|rung| rung.id.as_str()).collect();
        let values = [("exercise", exercise.id.to_string()), ("rung", wanted.to_owned())];
        Failure::new(Exit::NotFound, "error-override-rung", &values)
            .hint_with("cli-known", &[("known", known.join(", "))])
    })
}

fn is_exactly(person: &Person, wanted: &str) -> bool {
    let swimmer = &person.read.swimmer;
    same(&swimmer.name, wanted)
        || swimmer.goes_by.as_ref().is_some_and(|name| same(name, wanted))
        || swimmer.club_number.as_ref().is_some_and(|number| same(number, wanted))
        || same(&person.subject.to_string(), wanted)
}

fn begins_with(person: &Person, wanted: &str) -> bool {
    let swimmer = &person.read.swimmer;
    let id = LEAST_OF_AN_ID <= wanted.len() && starts(&person.subject.to_string(), wanted);
    id || starts(&swimmer.name, wanted) || swimmer.goes_by.as_ref().is_some_and(|name| starts(name, wanted))
}

fn has_a_word_that_begins_with(person: &Person, wanted: &str) -> bool {
    person.read.swimmer.name.split([' ', '-']).any(|word| starts(word, wanted))
}

fn same(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.to_lowercase()
}

fn starts(text: &str, with: &str) -> bool {
    !with.is_empty() && text.to_lowercase().starts_with(&with.to_lowercase())
}

/// How one of several is told from the others.
fn candidate(person: &Person) -> Trouble {
    let swimmer = &person.read.swimmer;
    let says = if swimmer.squad.is_empty() { "cli-candidate" } else { "cli-candidate-squad" };
    Trouble {
        path: person.subject.to_string(),
        says: say(
            says,
            &[
                ("name", swimmer.name.clone()),
                ("born", app::text::day(swimmer.born)),
                ("squad", swimmer.squad.clone()),
            ],
        ),
    }
}
