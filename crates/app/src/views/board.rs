//! The day: who is in an emergency, what must be closed and by when, and how many shoulders may do what.

use std::collections::BTreeMap;

use jiff::civil::Date;
use store::SubjectId;
use trade::due::{Due, Kind};
use trade::gate::{Availability, Hold};
use trade::history::{Urgency, days_between};
use trade::side::Side;

use super::kit::{Piece, pieces};
use crate::desk::Desk;

/// One swimmer for whom somebody licensed must be found today.
#[derive(Debug, Clone, PartialEq)]
pub struct Urgent {
    /// Who.
    pub subject: SubjectId,
    /// How soon.
    pub urgency: Urgency,
    /// Why, worst first.
    pub holds: Vec<Hold>,
}

/// What one line is about.
#[derive(Debug, Clone, PartialEq)]
pub enum About {
    /// A swimmer.
    Swimmer(SubjectId, Due),
    /// A piece of kit.
    Kit(Piece),
}

/// One thing to close.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// By when.
    pub by: Date,
    /// What.
    pub about: About,
}

/// When something is due, seen from one day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stretch {
    /// Should have been closed.
    Late,
    /// Today.
    Today,
    /// Tomorrow.
    Tomorrow,
    /// Within the week.
    ThisWeek,
    /// After that.
    Ahead,
}

impl Stretch {
    /// Every stretch, most urgent first.
    pub const ALL: [Stretch; 5] =
        [Stretch::Late, Stretch::Today, Stretch::Tomorrow, Stretch::ThisWeek, Stretch::Ahead];

    /// Where a day lies, seen from another.
    pub fn of(by: Date, on: Date) -> Self {
        match days_between(on, by) {
            ..0 => Stretch::Late,
            0 => Stretch::Today,
            1 => Stretch::Tomorrow,
            2..=7 => Stretch::ThisWeek,
            _ => Stretch::Ahead,
        }
    }
}

/// The day.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Board {
    /// Swimmers for whom somebody licensed must be found today, the most urgent first.
    pub urgent: Vec<Urgent>,
    /// What must be closed, earliest first.
    pub lines: Vec<Line>,
    /// How many shoulders stand at each availability.
    pub shoulders: BTreeMap<Availability, usize>,
    /// Swimmers of the squad.
    pub swimmers: usize,
    /// Swimmers of whom something cannot be read or is contested.
    pub to_settle: Vec<SubjectId>,
}

impl Board {
    /// How many lines lie in one stretch.
    pub fn count(&self, stretch: Stretch, on: Date) -> usize {
        self.lines.iter().filter(|line| Stretch::of(line.by, on) == stretch).count()
    }
}

/// The board of one day.
pub fn board(desk: &Desk, on: Date) -> Board {
    let mut board = Board::default();
    for person in desk.squad_on(on) {
        let assessment = desk.assess(person, on);
        board.swimmers += 1;
        for side in Side::BOTH {
            *board.shoulders.entry(assessment.gate.shoulder(side)).or_default() += 1;
        }
        let holds = assessment.gate.holds.iter();
        let urgent: Vec<Hold> = holds
            .filter(|hold| hold.urgency.is_some_and(|urgency| Urgency::SameDay <= urgency))
            .cloned()
            .collect();
        if let Some(urgency) = urgent.iter().filter_map(|hold| hold.urgency).max() {
            board.urgent.push(Urgent { subject: person.subject, urgency, holds: urgent });
        }
        if person.contested > 0 || !person.read.unreadable.is_empty() {
            board.to_settle.push(person.subject);
        }
        board.lines.extend(
            assessment
                .due
                .iter()
                .map(|due| Line { by: due.by, about: About::Swimmer(person.subject, due.clone()) }),
        );
    }
    for piece in pieces(desk, on) {
        if let Some(by) = piece.by {
            board.lines.push(Line { by, about: About::Kit(piece) });
        }
    }
    board.urgent.sort_by_key(|urgent| std::cmp::Reverse(urgent.urgency));
    // What is late or due now goes by what waits least well; what lies ahead goes by its day. Stable, so that what
    // concerns one swimmer stays together, in the order the trade gave it.
    board.lines.sort_by_key(|line| {
        let stretch = Stretch::of(line.by, on);
        let weight = weight(&line.about);
        if stretch < Stretch::ThisWeek {
            (stretch, weight, line.by, 0)
        } else {
            (stretch, 0, line.by, weight)
        }
    });
    board
}

/// What waits least well comes first: a person before a paper, a paper before a piece of kit.
const fn weight(about: &About) -> u8 {
    let About::Swimmer(_, due) = about else { return u8::MAX };
    match due.kind {
        Kind::TellGuardian => 0,
        Kind::WriteReferral => 1,
        Kind::NextMorning => 2,
        Kind::Water => 3,
        Kind::SevenDays => 4,
        Kind::ReferralAnswer => 5,
        Kind::ConfirmEnd => 6,
        Kind::Talk => 7,
        Kind::LimitEnds => 8,
        Kind::Consent => 9,
        Kind::Intake => 10,
        Kind::Screening => 11,
        Kind::Growth => 12,
        Kind::Retest => 13,
        Kind::KitInspection => 14,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_day_lies_in_one_stretch() {
        let on = date(2026, 3, 9);
        for (by, stretch) in [
            (date(2026, 3, 8), Stretch::Late),
            (on, Stretch::Today),
            (date(2026, 3, 10), Stretch::Tomorrow),
            (date(2026, 3, 11), Stretch::ThisWeek),
            (date(2026, 3, 16), Stretch::ThisWeek),
            (date(2026, 3, 17), Stretch::Ahead),
        ] {
            assert_eq!(Stretch::of(by, on), stretch, "{by}");
        }
    }
}
