//! What happens to whom beside training: absence, pain, letters, papers, talks.

use jiff::civil::{Date, date};

use super::cast::{Case, Member};
use super::diary::{Diary, Hand};
use crate::facts::{
    AbsenceFact, AbsenceWord, ClinicianFact, GuardianToldFact, IllnessFact, LimitFact, PainFact,
    PainKindWord, ReferralFact, ReopeningFact, SideWord, UrgencyWord, WaterAdviceFact, WhenWord,
};

/// The one licensed clinician who writes letters and limits.
fn clinician() -> ClinicianFact {
    ClinicianFact {
        name: "Dr Anneke Solheim-Bapteste".to_owned(),
        licence: "demo 0417".to_owned(),
        licence_until: date(2029, 12, 31),
    }
}

fn said(date: Date, when: WhenWord, left: i64, right: i64) -> PainFact {
    let kind = if left + right == 0 { PainKindWord::Unstated } else { PainKindWord::Joint };
    PainFact {
        date,
        when,
        exercise: None,
        left: Some(left),
        right: Some(right),
        kind,
        signs: Vec::new(),
        sign_side: None,
        asked: None,
    }
}

/// What the swimmer answers before a session: left, right, and whether it is an ache of both sides.
pub(super) fn before(diary: &mut Diary<'_>, member: &Member, day: Date) -> PainFact {
    let told = match (member.case, day) {
        (Case::LimitEnding, day) if day == date(2026, 11, 2) => Some((2, 0)),
        (Case::Ordinary, day) if member.name == EARLY_PAIN && day == date(2026, 10, 7) => Some((0, 1)),
        _ => None,
    };
    let mut fact = match told {
        Some((left, right)) => said(day, WhenWord::Before, left, right),
        None => said(day, WhenWord::Before, 0, 0),
    };
    let by_chance = told.is_none() && !super::script::is_steady(member.case) && day < QUIET_FROM;
    if by_chance && diary.random.happens(0.015) {
        (fact.left, fact.right, fact.kind) = (Some(1), Some(1), PainKindWord::Ache);
    } else if by_chance && diary.random.happens(0.01) {
        // Half an answer stays half an answer.
        fact.right = None;
    }
    fact.asked = Some(if diary.random.happens(0.8) { "alone" } else { "by a finger sign" }.to_owned());
    fact
}

/// Who had a mild one-sided pain in October that ended by the book.
const EARLY_PAIN: &str = "Aiko Fairwether";
/// From here on nothing happens by chance, so that every case stands where it is told to stand.
pub(super) const QUIET_FROM: Date = date(2026, 11, 14);

/// The number and side spoken when a scripted set ends for pain.
pub(super) fn during(case: Case, day: Date, exercise: &str) -> PainFact {
    let right = if case == Case::PainOnMonday { 4 } else { 2 };
    PainFact { exercise: Some(exercise.to_owned()), ..said(day, WhenWord::During, 0, right) }
}

/// Tells what a day brings, before any session of it.
pub(super) fn tell(diary: &mut Diary<'_>, member: &Member, day: Date) {
    let is = |case: Case, month: i8, on: i8| member.case == case && day == date(2026, month, on);
    let practitioner = || Hand::Practitioner.name().to_owned();
    diary.at(day, 8 * 60 + 15);
    if is(Case::Absence, 11, 3) {
        // Announced by the family before the flight.
        away(diary, date(2026, 11, 3), date(2026, 11, 24), false);
    }
    if is(Case::HeldStep, 11, 7) {
        away(diary, date(2026, 11, 7), date(2026, 11, 19), true);
    }
    if is(Case::WaterJump, 10, 9) {
        let fact = IllnessFact {
            from: date(2026, 10, 5),
            fever: true,
            bed_days: Some(2),
            symptom_free_from: Some(date(2026, 10, 9)),
        };
        diary.write(Hand::Practitioner, &fact);
    }
    if is(Case::ReferralUnanswered, 11, 15) {
        let report = PainFact {
            signs: vec!["night-pain".to_owned()],
            sign_side: Some(SideWord::Right),
            asked: Some("message from home".to_owned()),
            ..said(day, WhenWord::Other, 0, 2)
        };
        diary.write(Hand::Practitioner, &report);
        diary.write(Hand::Practitioner, &GuardianToldFact { date: day, by: practitioner() });
    }
    if is(Case::ReferralUnanswered, 11, 16) {
        let referral = ReferralFact {
            opened: day,
            side: Some(SideWord::Right),
            urgency: UrgencyWord::WithinAWeek,
            answered: None,
        };
        diary.write(Hand::Practitioner, &referral);
        advise(diary, day, "Legs only with a board, arms by the side, until the letter is here.");
    }
    if is(Case::LimitEnding, 11, 4) {
        let limit = LimitFact {
            signed: day,
            until: date(2026, 12, 2),
            side: Some(SideWord::Left),
            clinician: clinician(),
            locked_tags: vec!["overhead".to_owned()],
            locked_exercises: Vec::new(),
            sets: Some(2),
            cap_s: Some(90.0),
            allows_pain_up_to: Some(2),
            note: "Nothing above shoulder height on the left, two sets of up to 90 s. Mild ache may be trained with; \
                   look again before the limit ends."
                .to_owned(),
        };
        diary.write(Hand::Practitioner, &limit);
        advise(diary, day, "Swims with the squad, without paddles.");
    }
    if is(Case::SecondPainEvent, 11, 12) || is(Case::SecondPainEvent, 11, 21) {
        diary.write(Hand::Practitioner, &said(day, WhenWord::NextMorning, 0, 0));
    }
    if is(Case::DislocationStory, 11, 20) {
        advise(diary, day, "May swim; no starts from the block and no paddles until the letter is here.");
    }
    if member.name == EARLY_PAIN {
        if day == date(2026, 10, 8) || day == date(2026, 10, 9) {
            diary.write(Hand::Practitioner, &said(day, WhenWord::NextMorning, 0, 0));
        }
        if day == date(2026, 10, 8) {
            advise(diary, day, "Swims as usual, butterfly left out for the rest of the week.");
        }
        if day == date(2026, 10, 10) {
            let fact = ReopeningFact { date: day, side: Some(SideWord::Right), by: practitioner() };
            diary.write(Hand::Practitioner, &fact);
        }
    }
}

/// What the evening of a day brings, after the session.
pub(super) fn tell_after(diary: &mut Diary<'_>, member: &Member, day: Date) {
    if member.case == Case::SecondPainEvent && day == date(2026, 11, 18) {
        diary.at(day, 21 * 60);
        diary.write(Hand::Practitioner, &said(day, WhenWord::FollowUp, 0, 0));
    }
    let told = [date(2026, 11, 11), date(2026, 11, 20)].contains(&day);
    if member.case == Case::SecondPainEvent && told {
        diary.at(day, 21 * 60);
        let by = Hand::Practitioner.name().to_owned();
        diary.write(Hand::Practitioner, &GuardianToldFact { date: day, by });
        if day == date(2026, 11, 20) {
            advise(diary, day, "Legs only until somebody has looked at the shoulder.");
        }
    }
}

fn away(diary: &mut Diary<'_>, from: Date, to: Date, kept_swimming: bool) {
    let fact =
        AbsenceFact { from, to: Some(to), reason: AbsenceWord::Healthy, kept_swimming: Some(kept_swimming) };
    diary.write(Hand::Office, &fact);
}

fn advise(diary: &mut Diary<'_>, day: Date, advice: &str) {
    let fact =
        WaterAdviceFact { date: day, advice: advice.to_owned(), by: Hand::Practitioner.name().to_owned() };
    diary.write(Hand::Practitioner, &fact);
}
