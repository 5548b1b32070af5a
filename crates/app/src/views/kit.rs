//! When each piece of kit must be looked at.

use jiff::civil::Date;

use crate::desk::Desk;
use crate::facts::{InspectionFact, KitPieceFact, KitWord};

/// One piece and its looks.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// What it is.
    pub fact: KitPieceFact,
    /// The newest inspection; none before the first.
    pub last: Option<InspectionFact>,
    /// By when it must be looked at; none for what is not inspected, and once it is withdrawn.
    pub by: Option<Date>,
}

impl Piece {
    /// In service and not found unsound at the last look.
    pub fn may_be_used(&self) -> bool {
        self.fact.withdrawn.is_none() && self.last.as_ref().is_none_or(|look| look.sound)
    }
}

/// What wears, tears or lets go: a hand weight is not inspected by the calendar.
const fn is_inspected(kind: KitWord) -> bool {
    matches!(kind, KitWord::Band | KitWord::Anchor)
}

/// Every piece, by its mark. An elastic piece or anchor that nobody has looked at yet is to be looked at today.
pub fn pieces(desk: &Desk, on: Date) -> Vec<Piece> {
    use jiff::ToSpan;
    let weeks = i32::from(desk.protocol().parameters.kit_inspection_weeks);
    let club = desk.club();
    club.kit
        .iter()
        .map(|fact| {
            let looks = club.inspections.iter().filter(|look| look.mark == fact.mark && look.date <= on);
            // Of two looks on one day the one that found something counts.
            let last = looks.max_by_key(|look| (look.date, !look.sound)).cloned();
            let mut piece = Piece { fact: fact.clone(), last, by: None };
            if is_inspected(fact.kind) && piece.may_be_used() {
                let again = piece.last.as_ref().map(|look| look.date.saturating_add(weeks.weeks()));
                piece.by = Some(again.unwrap_or(on));
            }
            piece
        })
        .collect()
}
