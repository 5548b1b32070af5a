//! The weekly check of the demo club, and its own trial of one test.

use jiff::civil::{Date, Weekday, date};

use super::cast::{Case, Member};
use super::days::{DAY, SEASON};
use super::diary::{Diary, Hand};
use super::random::Random;
use crate::facts::{AnswersFact, TrialFact, WeeklyCheckFact};

const WELL: AnswersFact =
    AnswersFact { taking_part: 0, less_training: None, performance: None, symptoms: None };

const fn answers(part: u8, less: u8, swim: u8, felt: u8) -> AnswersFact {
    AnswersFact {
        taking_part: part,
        less_training: Some(less),
        performance: Some(swim),
        symptoms: Some(felt),
    }
}

/// First day of the week in which the club began to ask.
const ASKED_FROM: Date = date(2026, 10, 5);

/// Answers on Sunday evening; this week's early birds on the Tuesday before the demo's day.
pub(super) fn tell(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let is_early = day == date(2026, 11, 24);
    if day < ASKED_FROM || day < SEASON || DAY <= day || day < member.joined() {
        return;
    }
    if day.weekday() != Weekday::Sunday && !is_early {
        return;
    }
    let mut aside = Random::aside(diary.subject.uuid().as_u128() ^ 7, day);
    let share = if is_early { 0.55 } else { 0.85 };
    let answered = aside.happens(share);
    let (left, right) = match member.case {
        // Went quiet at the end of October.
        Case::TurnedEighteen if date(2026, 11, 1) < day => return,
        Case::SecondPainEvent if day == date(2026, 11, 22) => (WELL, answers(2, 2, 2, 2)),
        Case::SecondPainEvent if day == date(2026, 11, 15) => (WELL, answers(1, 1, 0, 1)),
        Case::Hypermobile if date(2026, 11, 8) <= day => (answers(1, 0, 0, 1), WELL),
        Case::PainOnMonday if is_early => return,
        Case::SecondPainEvent | Case::Hypermobile | Case::FallingTimes => (WELL, WELL),
        _ if !answered => return,
        _ if !is_early && aside.happens(0.06) => (WELL, answers(1, 0, 0, 1)),
        _ => (WELL, WELL),
    };
    diary.at(day, 19 * 60);
    let fact = WeeklyCheckFact { date: day, left: Some(left), right: Some(right), from_paper: true };
    diary.write(Hand::Practitioner, &fact);
}

/// External rotation range, twelve shoulders measured again two days later: invented like everything here.
const AGAIN: [(f64, f64); 12] = [
    (96.0, 99.0),
    (104.0, 101.0),
    (91.0, 93.0),
    (110.0, 108.0),
    (98.0, 98.0),
    (101.0, 105.0),
    (88.0, 90.0),
    (107.0, 104.0),
    (94.0, 96.0),
    (99.0, 97.0),
    (103.0, 106.0),
    (92.0, 90.0),
];

pub(super) fn trial(diary: &mut Diary<'_>) {
    diary.at(date(2026, 9, 14), 12 * 60);
    let fact = TrialFact {
        date: date(2026, 9, 14),
        measure: "shoulder_er_rom".to_owned(),
        rows: AGAIN.iter().map(|(first, second)| vec![*first, *second]).collect(),
        how: "the same tester, two days apart".to_owned(),
    };
    diary.write(Hand::Practitioner, &fact);
}
