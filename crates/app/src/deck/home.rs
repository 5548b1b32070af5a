//! Work at home: what a page for one swimmer holds, and the short code in which the result comes back.
//!
//! The page needs no server. The code carries a check, so that a slip of the pen is seen before anything is stored; what
//! it says is a swimmer's own word: at home nobody sees a cap, and no time there counts towards a step up.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;
use store::{FactId, SubjectId};
use trade::protocol::Tag;
use trade::side::WorkingSide;

use super::bag::{Bag, LineWord};
use crate::desk::{Author, Desk, Draft};
use crate::error::{AppError, ErrorKind};
use crate::facts::{
    ClockWord, ContextWord, DeckSessionFact, EndWord, HomeLine, HomeSheetFact, Kind, PainFact, PainKindWord,
    PatternWord, PlannedExercise, SessionFact, SetFact, SetWord, WhenWord, WorkingSideWord, read_json,
};
use crate::moment::Moment;

/// Letters of a code: none that is taken for another (Crockford's base 32).
const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/// Letters in a code.
const LENGTH: usize = 20;
/// Lines on a sheet, sets of a line, seconds a set lasts at most at home: common practice.
const LINES: usize = 4;
const SETS: u8 = 2;
const CAP_S: f64 = 60.0;
/// A set is told to the nearest so many seconds.
const STEP_S: u32 = 5;
/// Stands for a set that was not done, and for a question that was not answered.
const NONE: u32 = 31;
const NOT_SAID: u32 = 15;
/// Version of the code.
const VERSION: u32 = 1;

/// What a code says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Told {
    /// Number of the sheet.
    pub sheet: u32,
    /// Days since it was made.
    pub days: u32,
    /// Pain left and right, effort; none where not said.
    pub said: [Option<u8>; 3],
    /// Seconds of each set, line by line; none where not done.
    pub sets: [[Option<u32>; 2]; LINES],
}

/// Why a code cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotACode {
    /// Not as many letters as a code has, or another letter.
    Letters,
    /// The check does not fit: a letter is wrong, or two changed places.
    Check,
}

/// Widths of the fields, in order: version, sheet, days, three answers, eight sets.
fn fields(told: &Told) -> Vec<(u32, u32)> {
    let answer = |value: Option<u8>| (value.map_or(NOT_SAID, u32::from), 4);
    let mut all = vec![(VERSION, 3), (told.sheet, 13), (told.days, 7)];
    all.extend(told.said.map(answer));
    all.extend(told.sets.iter().flatten().map(|set| (set.map_or(NONE, |seconds| seconds / STEP_S), 5)));
    all
}

/// A check over the letters before it: a sum weighted by place, modulo a prime below two to the twenty-fifth; it finds
/// every single slip and every exchange of neighbours.
fn check(letters: &[u8]) -> [u8; 5] {
    let mut sum = 7_u64;
    for letter in letters {
        sum = (sum * 37 + u64::from(*letter) + 1) % 33_554_393;
    }
    std::array::from_fn(|place| ((sum >> (5 * (4 - place))) & 31) as u8)
}

/// Writes a code in groups of four.
pub fn encode(told: &Told) -> String {
    let mut bits = 0_u128;
    let mut width = 0;
    for (value, wide) in fields(told) {
        bits = (bits << wide) | u128::from(value & ((1 << wide) - 1));
        width += wide;
    }
    let count = LENGTH - 5;
    bits <<= count as u32 * 5 - width;
    let mut letters: Vec<u8> =
        (0..count).map(|place| ((bits >> (5 * (count - 1 - place))) & 31) as u8).collect();
    letters.extend(check(&letters));
    let text: Vec<char> = letters.iter().map(|value| char::from(LETTERS[usize::from(*value)])).collect();
    text.chunks(4).map(|group| group.iter().collect::<String>()).collect::<Vec<_>>().join("-")
}

/// Reads a code: blanks, dashes and case do not matter, and letters that look alike are taken for the right one.
pub fn decode(text: &str) -> Result<Told, NotACode> {
    let mut letters = Vec::new();
    for letter in text.to_uppercase().chars().filter(|letter| !letter.is_whitespace() && *letter != '-') {
        let letter = match letter {
            'O' => '0',
            'I' | 'L' => '1',
            'U' => 'V',
            other => other,
        };
        let found = LETTERS.iter().position(|known| char::from(*known) == letter).ok_or(NotACode::Letters)?;
        letters.push(u8::try_from(found).map_err(|_| NotACode::Letters)?);
    }
    if letters.len() != LENGTH {
        return Err(NotACode::Letters);
    }
    let (said, told_check) = letters.split_at(LENGTH - 5);
    if check(said) != told_check {
        return Err(NotACode::Check);
    }
    let bits = said.iter().fold(0_u128, |bits, letter| (bits << 5) | u128::from(*letter));
    let mut left = said.len() as u32 * 5;
    let mut take = |wide: u32| {
        left -= wide;
        u32::try_from((bits >> left) & ((1 << wide) - 1)).unwrap_or(0)
    };
    if take(3) != VERSION {
        return Err(NotACode::Check);
    }
    let (sheet, days) = (take(13), take(7));
    let said = std::array::from_fn(|_| u8::try_from(take(4)).ok().filter(|value| *value <= 10));
    let sets = std::array::from_fn(|_| {
        std::array::from_fn(|_| Some(take(5)).filter(|value| *value != NONE).map(|value| value * STEP_S))
    });
    Ok(Told { sheet, days, said, sets })
}

/// Everything that a page for home shows.
#[derive(Debug, Clone, Serialize)]
pub struct HomePage {
    /// Number of the sheet, in every code from it.
    pub sheet: u32,
    /// Day it was made.
    pub made: String,
    /// What the swimmer is called.
    pub name: String,
    /// An adult must be there.
    pub with_adult: bool,
    /// An anchor is used.
    pub anchored: bool,
    /// Whom to ring.
    pub practitioner: String,
    /// Rest between sets, seconds.
    pub rest_s: f64,
    /// Lines in the order of the code.
    pub lines: Vec<HomeShown>,
}

/// One line as the page shows it.
#[derive(Debug, Clone, Serialize)]
pub struct HomeShown {
    /// Which.
    pub exercise: String,
    /// What it is called.
    pub name: String,
    /// Side.
    pub side: &'static str,
    /// Rung in words.
    pub rung: String,
    /// Starting position.
    pub set_up: String,
    /// The movement.
    pub movement: String,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Faults that end a set.
    pub faults: Vec<String>,
    /// Tempo.
    pub tempo: super::bag::TempoWord,
    /// Sets.
    pub sets: u8,
    /// Longest set, seconds.
    pub cap_s: f64,
}

/// Age below which an adult is there, at home too (trade handbook E.1).
const ADULT_BELOW: i16 = 14;

impl Desk {
    /// Makes a page for one swimmer and writes down what stands on it. None where nothing may be done at home.
    pub fn issue_home_sheet(
        &mut self,
        moment: &Moment,
        author: &Author,
        subject: SubjectId,
    ) -> Result<Option<HomePage>, AppError> {
        let exercises = self.protocol().exercises.iter().filter(|exercise| !exercise.ladder.is_empty());
        let session = DeckSessionFact {
            session: String::new(),
            date: moment.today,
            number: 0,
            context: ContextWord::Home,
            squads: Vec::new(),
            pattern: PatternWord::Together,
            minutes: 15,
            exercises: exercises
                .map(|exercise| PlannedExercise {
                    exercise: exercise.id.to_string(),
                    cap_s: CAP_S,
                    sets: SETS,
                })
                .collect(),
            by: author.name.clone(),
            before_water_override: None,
        };
        let bag = self.deck_bag(&session, "", (&moment.stamp, moment.unix_millis));
        let person = self.person(subject)?;
        let with_adult = person.read.history.swimmer.age_on(moment.today) < ADULT_BELOW;
        let Some(swimmer) = bag.swimmers.iter().find(|swimmer| swimmer.id == subject.to_string()) else {
            return Ok(None);
        };
        let lines: Vec<&LineWord> =
            swimmer.lines["clear"].iter().filter(|line| self.is_for_home(line)).take(LINES).collect();
        if lines.is_empty() {
            return Ok(None);
        }
        let sheet = self.next_sheet();
        let page = self.home_page(&bag, &lines, (sheet, moment.today, swimmer.name.clone(), with_adult));
        let fact = HomeSheetFact {
            sheet,
            date: moment.today,
            lines: lines
                .iter()
                .map(|line| HomeLine {
                    exercise: line.exercise.clone(),
                    side: side_of(line.side),
                    rung: line.planned.clone(),
                    cap_s: line.cap_s.min(CAP_S),
                })
                .collect(),
        };
        self.record(moment, author, subject, &[Draft::new(&fact)])?;
        Ok(Some(page))
    }

    /// Signed off, without a partner, and neither a weight nor a position overhead.
    fn is_for_home(&self, line: &LineWord) -> bool {
        let exercise = self.protocol().exercise(&trade::name::ExerciseId::new(&line.exercise));
        exercise.is_some_and(|exercise| {
            let rung = exercise.rung(&trade::name::RungId::new(&line.planned));
            let tags = exercise.tags.iter().chain(rung.iter().flat_map(|rung| &rung.tags));
            line.timed && tags.into_iter().all(|tag| !matches!(tag, Tag::Weight | Tag::NinetyNinety))
        })
    }

    fn home_page(
        &self,
        bag: &Bag,
        lines: &[&LineWord],
        (sheet, made, name, with_adult): (u32, Date, String, bool),
    ) -> HomePage {
        let shown = lines.iter().filter_map(|line| {
            let run = bag.exercises.iter().find(|run| run.id == line.exercise)?;
            Some(HomeShown {
                exercise: run.id.clone(),
                name: run.name.clone(),
                side: line.side,
                rung: line.rung_name.clone(),
                set_up: run.set_up.clone(),
                movement: run.movement.clone(),
                cautions: run.cautions.clone(),
                faults: run.faults.iter().map(|fault| fault.name.clone()).collect(),
                tempo: line.tempo.clone(),
                sets: SETS.min(line.sets),
                cap_s: line.cap_s.min(CAP_S),
            })
        });
        HomePage {
            sheet,
            made: made.to_string(),
            name,
            with_adult,
            anchored: lines.iter().any(|line| {
                let exercise = self.protocol().exercise(&trade::name::ExerciseId::new(&line.exercise));
                exercise.is_some_and(|exercise| exercise.tags.contains(&Tag::Anchor))
            }),
            practitioner: format!("{} {}", bag.practitioner.name, bag.practitioner.phone).trim().to_owned(),
            rest_s: bag.timing.rest_s,
            lines: shown.collect(),
        }
    }

    fn home_sheets(&self) -> Vec<(SubjectId, FactId, HomeSheetFact)> {
        let live = self.store().live_facts_of_kind(Kind::HomeSheet.word()).unwrap_or_default();
        live.into_iter()
            .filter_map(|live| {
                let fact = read_json(live.payload()).ok()?;
                Some((live.fact.told.subject, live.fact.told.id, fact))
            })
            .collect()
    }

    fn next_sheet(&self) -> u32 {
        self.home_sheets().iter().map(|(.., sheet)| sheet.sheet).max().unwrap_or(0) + 1
    }

    /// Whose sheet a code comes from, and the facts that it says. Told twice it says the same.
    pub fn home_facts(&self, told: &Told) -> Result<(SubjectId, Vec<Draft>), AppError> {
        let missing = || AppError::new(ErrorKind::NotFound, "deck-code-no-sheet");
        let found = self.home_sheets().into_iter().find(|(.., sheet)| sheet.sheet == told.sheet);
        let (subject, _, sheet) = found.ok_or_else(missing)?;
        let date = sheet.date.saturating_add(i64::from(told.days).days());
        let person = self.person(subject)?;
        let of_day = person.read.history.sessions.iter().filter(|session| session.date == date);
        let number = of_day.map(|session| session.number).max().unwrap_or(0).saturating_add(1);
        let mut drafts = vec![Draft::new(&SessionFact {
            date,
            number,
            context: ContextWord::Home,
            before_water_override: None,
            last_practice_effort: None,
        })];
        for (line, sets) in sheet.lines.iter().zip(told.sets) {
            for (place, seconds) in sets.iter().enumerate() {
                let Some(seconds) = seconds.filter(|seconds| 0 < *seconds) else { continue };
                let number_of_set = u8::try_from(place + 1).unwrap_or(1);
                drafts.push(Draft::new(&home_set(line, (date, number), number_of_set, seconds)));
            }
        }
        let [left, right, _] = told.said.map(|value| value.map(i64::from));
        if left.is_some() || right.is_some() {
            drafts.push(Draft::new(&PainFact {
                date,
                when: WhenWord::After,
                exercise: None,
                left,
                right,
                kind: PainKindWord::Unstated,
                signs: Vec::new(),
                sign_side: None,
                asked: Some("self".to_owned()),
            }));
        }
        Ok((subject, drafts))
    }

    /// True when this code was stored before.
    pub fn home_is_told(&self, subject: SubjectId, told: &Told) -> bool {
        let Some((.., sheet)) = self.home_sheets().into_iter().find(|(.., sheet)| sheet.sheet == told.sheet)
        else {
            return false;
        };
        let date = sheet.date.saturating_add(i64::from(told.days).days());
        self.person(subject).is_ok_and(|person| {
            person
                .read
                .history
                .sessions
                .iter()
                .any(|session| session.date == date && session.context == trade::history::Context::Home)
        })
    }
}

fn home_set(line: &HomeLine, (date, session): (Date, u8), number: u8, seconds: u32) -> SetFact {
    let seconds = f64::from(seconds);
    let is_cap = line.cap_s <= seconds;
    SetFact {
        date,
        session,
        exercise: line.exercise.clone(),
        side: line.side,
        planned: line.rung.clone(),
        used: line.rung.clone(),
        prescribed_sets: SETS,
        number,
        set: SetWord {
            seconds: seconds.min(line.cap_s),
            end: if is_cap { EndWord::Cap } else { EndWord::ChoseToStop },
            fault: None,
            cap_s: Some(line.cap_s),
            // Nobody who knows the exercise looked.
            seen: is_cap.then_some(false),
            rest_before_s: None,
            clock: ClockWord::Hand,
            fault_left: None,
        },
    }
}

fn side_of(word: &str) -> WorkingSideWord {
    WorkingSide::from_word(word).unwrap_or(WorkingSide::Both).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told() -> Told {
        Told {
            sheet: 4711,
            days: 3,
            said: [Some(0), Some(2), None],
            sets: [[Some(60), Some(45)], [Some(5), None], [None, None], [Some(120), Some(0)]],
        }
    }

    /// The same code that the page's own script makes; its test reads the same words.
    #[test]
    fn a_code_comes_back_as_it_was_told() {
        let code = encode(&told());
        assert_eq!(code, "69KG-C1FC-91ZZ-ZR08-1RMM");
        assert_eq!(decode(&code), Ok(told()));
        assert_eq!(decode(&code.to_lowercase().replace('-', " ")), Ok(told()));
    }

    #[test]
    fn every_single_slip_and_every_exchange_of_neighbours_is_seen() {
        let code: Vec<char> = encode(&told()).chars().filter(|letter| *letter != '-').collect();
        for place in 0..code.len() {
            for letter in LETTERS {
                let mut slip = code.clone();
                slip[place] = char::from(*letter);
                if slip != code {
                    assert!(decode(&slip.iter().collect::<String>()).is_err(), "{place} {letter}");
                }
            }
            if place + 1 < code.len() && code[place] != code[place + 1] {
                let mut swapped = code.clone();
                swapped.swap(place, place + 1);
                assert!(decode(&swapped.iter().collect::<String>()).is_err(), "{place}");
            }
        }
        assert_eq!(decode("HELLO"), Err(NotACode::Letters));
        assert_eq!(decode(&"0".repeat(20)), Err(NotACode::Check));
    }
}
