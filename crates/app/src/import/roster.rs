//! A roster row: who the swimmer is. Body size, consent and intake answers of the same row are read in `body`.

use std::collections::BTreeMap;

use jiff::civil::Date;
use serde_json::{Map, Value, json};

use super::cells::Line;
use super::columns::Col;
use super::gather::{Draft, Given};
use super::grid::Grid;
use super::people::{Known, KnownSwimmer, listed};
use super::plan::Subject;
use super::problem::{Problem, Said};
use super::words::{name_key, number_key, squashed};
use super::{Options, body, choices, key};
use crate::facts::{ExperienceWord, Kind};

/// Club numbers that the file itself gives to a name and birth date, so that a second row without the number is
/// taken for the same swimmer, whichever of the two comes first.
pub(super) struct Identities(BTreeMap<(String, Date), Vec<String>>);

impl Identities {
    /// Looks through all rows; problems are reported when each row is read.
    pub(super) fn of(grid: &Grid<'_>, options: &Options) -> Self {
        let mut numbers: BTreeMap<(String, Date), Vec<String>> = BTreeMap::new();
        for row in grid.rows {
            let mut line = Line::new(grid, row, options);
            let (name, born) = (name_of(&mut line), line.day(Col::Born));
            let number = line.text(Col::ClubNumber);
            if let (Some(name), Some(born), Some(number)) = (name, born, number) {
                let given = numbers.entry((name_key(&name), born)).or_default();
                if !given.iter().any(|other| number_key(other) == number_key(&number)) {
                    given.push(number);
                    given.sort();
                }
            }
        }
        Self(numbers)
    }

    fn numbers(&self, name: &str, born: Date) -> &[String] {
        self.0.get(&(name_key(name), born)).map_or(&[], Vec::as_slice)
    }
}

/// The name as written, or put together from first and last name.
pub(super) fn name_of(line: &mut Line<'_>) -> Option<String> {
    if let Some(name) = line.text(Col::Name) {
        return Some(name);
    }
    match (line.text(Col::FirstName), line.text(Col::LastName)) {
        (Some(first), Some(last)) => Some(format!("{first} {last}")),
        _ => None,
    }
}

/// Reads a roster row.
pub(super) fn read(line: &mut Line<'_>, known: &Known<'_>, options: &Options, people: &Identities) -> Given {
    let name = name_of(line);
    let about = name.clone().unwrap_or_default();
    let born = line.past_day(Col::Born);
    let number = line.text(Col::ClubNumber);
    if name.is_none() {
        let col = if line.has(Col::Name) { Col::Name } else { Col::LastName };
        line.push_in(col, Problem::new("import-name-missing"));
    }
    if born.is_none() && !line.is_blocked() {
        line.push_in(Col::Born, Problem::new("import-birth-date-missing"));
    }
    if let Some(born) = born {
        judge_age(line, born, options.today);
    }
    let mut given = Given { about, drafts: Vec::new() };
    let subject = match (&name, born) {
        (Some(name), Some(born)) => whose(line, known, options, people, name, born, number.as_deref()),
        _ => None,
    };
    let swimmer = swimmer(line, name, born, number.clone());
    let guardian = guardian(line);
    // Read in any case, so that every problem of the row is named at once.
    let nobody = Subject::Club;
    let whom = subject.unwrap_or(nobody);
    let mut drafts = Vec::new();
    drafts.extend(body::growth(line, known, whom));
    drafts.extend(body::consent(line, whom, born, guardian.as_ref()));
    drafts.extend(body::intake(line, whom));
    if let Some(id) = subject.and_then(Subject::id) {
        let mut payload = swimmer;
        if let Some(guardian) = guardian {
            payload.insert("contacts".to_owned(), contacts(known, id, &guardian));
        }
        given.drafts.push(Draft {
            key: format!("{}/{id}", Kind::Swimmer.word()),
            subject: whom,
            kind: Kind::Swimmer,
            payload: Value::Object(payload),
        });
        given.drafts.append(&mut drafts);
    }
    given
}

/// Ages that are asked about or refused; they catch a swapped century, and say nothing about who may swim.
fn judge_age(line: &mut Line<'_>, born: Date, today: Date) {
    let years = i32::from(today.year()) - i32::from(born.year());
    if 110 < years {
        line.push_in(Col::Born, Problem::new("import-age-impossible").with("years", years));
    } else if !(6..=90).contains(&years) {
        let problem = Problem::ask("import-age-unusual")
            .with("years", years)
            .suggest(Said::new("import-try-accept-unusual"));
        line.push_in(Col::Born, problem);
    }
}

/// Which swimmer on record the row is about, or a new one.
fn whose(
    line: &mut Line<'_>,
    known: &Known<'_>,
    options: &Options,
    people: &Identities,
    name: &str,
    born: Date,
    number: Option<&str>,
) -> Option<Subject> {
    let in_file = people.numbers(name, born);
    if let [_, _, ..] = in_file {
        let problem = Problem::ask("import-swimmer-two-numbers")
            .with("name", name)
            .with("numbers", in_file.join(", "))
            .suggest(Said::new("import-try-accept-unusual"));
        line.push_in(Col::ClubNumber, problem);
    }
    let number = number.or(in_file.first().map(String::as_str));
    let same_person =
        |swimmer: &&KnownSwimmer| name_key(&swimmer.name) == name_key(name) && swimmer.born == born;
    let numbered = number.and_then(|number| {
        let wanted = number_key(number);
        known
            .swimmers
            .iter()
            .find(|swimmer| swimmer.club_number.as_deref().is_some_and(|other| number_key(other) == wanted))
    });
    if let Some(swimmer) = numbered {
        // A name or a birth date may have been mistyped; both at once mean another person.
        if name_key(&swimmer.name) == name_key(name) || swimmer.born == born {
            return Some(Subject::Existing(swimmer.subject));
        }
        let problem = Problem::new("import-number-taken")
            .with("number", number.unwrap_or_default())
            .with("names", listed(&[swimmer]));
        line.push_in(Col::ClubNumber, problem);
        return None;
    }
    let named: Vec<&KnownSwimmer> = known.swimmers.iter().filter(same_person).collect();
    match (named.as_slice(), number) {
        ([], number) => Some(Subject::New(key::subject_id(options.namespace, number, name, born))),
        ([swimmer], Some(number)) if swimmer.club_number.is_some() => {
            let problem = Problem::ask("import-number-changed")
                .with("names", listed(&[swimmer]))
                .with("number", number)
                .suggest(Said::new("import-try-accept-unusual"));
            line.push_in(Col::ClubNumber, problem);
            Some(Subject::Existing(swimmer.subject))
        }
        ([swimmer], _) => Some(Subject::Existing(swimmer.subject)),
        (several, _) => {
            let problem = Problem::new("import-swimmer-name-shared")
                .with("name", name)
                .with("names", listed(several))
                .suggest(Said::new("import-try-number"));
            line.push_in(Col::ClubNumber, problem);
            None
        }
    }
}

/// What the row says about the swimmer; what it leaves blank stays open.
fn swimmer(
    line: &mut Line<'_>,
    name: Option<String>,
    born: Option<Date>,
    number: Option<String>,
) -> Map<String, Value> {
    let mut fields = Map::new();
    let mut put = |name: &str, value: Option<Value>| {
        if let Some(value) = value {
            fields.insert(name.to_owned(), value);
        }
    };
    put("name", name.map(Value::from));
    put("goes_by", line.text(Col::GoesBy).map(Value::from));
    put("born", born.map(|day| json!(day)));
    put("sex", line.choice(Col::Sex, choices::SEX, &["f", "m", "x"]).map(|sex| json!(sex)));
    put("squad", line.text(Col::Squad).map(Value::from));
    put("experience", experience(line).map(|word| json!(word)));
    put("programme_started", line.day(Col::ProgrammeStart).map(|day| json!(day)));
    put("left", line.day(Col::LeftOn).map(|day| json!(day)));
    put(
        "emergency_note",
        line.text(Col::EmergencyNote).filter(|note| !choices::is_dash(note)).map(Value::from),
    );
    put("club_number", number.map(Value::from));
    fields
}

/// Seasons of dryland, as a number or a word. Less than one whole season counts as none.
fn experience(line: &mut Line<'_>) -> Option<ExperienceWord> {
    let text = line.text(Col::Seasons).filter(|text| !choices::is_dash(text))?;
    let wanted = squashed(&text);
    if let Some((_, word)) = choices::EXPERIENCE.iter().find(|(word, _)| *word == wanted) {
        return Some(*word);
    }
    match quantity::reading::number(&text, None) {
        Ok(number) if (0.0..=60.0).contains(&number.value) => {
            Some(if number.value < 1.0 { ExperienceWord::Beginner } else { ExperienceWord::Trained })
        }
        _ => {
            line.push_in(Col::Seasons, Problem::new("import-seasons-unreadable"));
            None
        }
    }
}

/// Somebody to ring, as the row names them.
pub(super) struct Guardian {
    pub(super) name: String,
    pub(super) relation: String,
    phone: String,
}

fn guardian(line: &mut Line<'_>) -> Option<Guardian> {
    let name = line.text(Col::GuardianName);
    let phone = line.text(Col::GuardianPhone);
    let relation = line.text(Col::GuardianRelation);
    if name.is_none() && phone.is_none() {
        return None;
    }
    if name.is_none() {
        line.push_in(Col::GuardianPhone, Problem::note("import-note-guardian-not-named"));
    }
    Some(Guardian {
        name: name.unwrap_or_default(),
        relation: relation.unwrap_or_else(|| "guardian".to_owned()),
        phone: phone.unwrap_or_default(),
    })
}

/// The contacts on record with the row's guardian first.
fn contacts(known: &Known<'_>, swimmer: store::SubjectId, guardian: &Guardian) -> Value {
    let on_record = (known.on_record)(Kind::Swimmer, &format!("{}/{swimmer}", Kind::Swimmer.word()));
    let mut contacts: Vec<Value> = on_record
        .payload()
        .and_then(|payload| payload.get("contacts").and_then(Value::as_array).cloned())
        .unwrap_or_default();
    let text = |contact: &Value, name: &str| {
        contact.get(name).and_then(Value::as_str).unwrap_or_default().to_owned()
    };
    let place = contacts
        .iter()
        .position(|contact| name_key(&text(contact, "name")) == name_key(&guardian.name))
        .or(if contacts.is_empty() { None } else { Some(0) });
    let phone = match place {
        Some(place) if guardian.phone.is_empty() => text(&contacts[place], "phone"),
        _ => guardian.phone.clone(),
    };
    let contact = json!({ "name": guardian.name, "relation": guardian.relation, "phone": phone });
    match place {
        Some(place) => contacts[place] = contact,
        None => contacts.push(contact),
    }
    Value::Array(contacts)
}
