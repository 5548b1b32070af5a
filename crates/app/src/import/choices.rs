//! The few words that a cell may hold, in the ways people write them. All words stand squashed.

use crate::facts::{
    ClockWord, ConsentWord, ContextWord, EndWord, ExperienceWord, KitWord, SexWord, WorkingSideWord,
};

/// An answer to a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Answer {
    Yes,
    No,
    NotKnown,
}

/// Yes, no, or said to be not known. A cross is none of them: some tick with it, some strike out.
pub(super) fn yes_no(squashed: &str) -> Option<Answer> {
    Some(match squashed {
        "yes" | "y" | "true" | "1" | "ja" | "j" | "oui" | "si" | "sim" => Answer::Yes,
        "no" | "n" | "false" | "0" | "none" | "nein" | "nee" | "non" | "nao" | "nej" => Answer::No,
        "unknown" | "notknown" | "notasked" | "unsure" | "notsure" | "dontknow" | "na" => Answer::NotKnown,
        _ => return None,
    })
}

/// A cell that holds only a dash, or says that it does not apply.
pub(super) fn is_dash(text: &str) -> bool {
    let lowered = text.trim().to_lowercase();
    matches!(lowered.as_str(), "-" | "--" | "–" | "—" | "n/a" | "n.a.")
}

/// Sex.
pub(super) const SEX: &[(&str, SexWord)] = &[
    ("f", SexWord::Female),
    ("female", SexWord::Female),
    ("girl", SexWord::Female),
    ("woman", SexWord::Female),
    ("w", SexWord::Female),
    ("weiblich", SexWord::Female),
    ("feminin", SexWord::Female),
    ("mujer", SexWord::Female),
    ("m", SexWord::Male),
    ("male", SexWord::Male),
    ("boy", SexWord::Male),
    ("man", SexWord::Male),
    ("mannlich", SexWord::Male),
    ("masculin", SexWord::Male),
    ("x", SexWord::Unstated),
    ("other", SexWord::Unstated),
    ("d", SexWord::Unstated),
    ("divers", SexWord::Unstated),
    ("unstated", SexWord::Unstated),
    ("notstated", SexWord::Unstated),
];

/// Experience in words; a number of seasons is read apart.
pub(super) const EXPERIENCE: &[(&str, ExperienceWord)] = &[
    ("beginner", ExperienceWord::Beginner),
    ("new", ExperienceWord::Beginner),
    ("firstseason", ExperienceWord::Beginner),
    ("none", ExperienceWord::Beginner),
    ("trained", ExperienceWord::Trained),
    ("experienced", ExperienceWord::Trained),
];

/// Consent items.
pub(super) const CONSENT: &[(&str, ConsentWord)] = &[
    ("screening", ConsentWord::Screening),
    ("testing", ConsentWord::Screening),
    ("exercise", ConsentWord::Exercise),
    ("exercises", ConsentWord::Exercise),
    ("programme", ConsentWord::Exercise),
    ("program", ConsentWord::Exercise),
    ("training", ConsentWord::Exercise),
    ("healthrecord", ConsentWord::HealthRecord),
    ("health", ConsentWord::HealthRecord),
    ("healthdata", ConsentWord::HealthRecord),
    ("record", ConsentWord::HealthRecord),
    ("coachsees", ConsentWord::CoachSees),
    ("coach", ConsentWord::CoachSees),
    ("doctor", ConsentWord::Doctor),
    ("photo", ConsentWord::Photo),
    ("photos", ConsentWord::Photo),
    ("film", ConsentWord::Photo),
    ("video", ConsentWord::Photo),
    ("evaluation", ConsentWord::Evaluation),
    ("research", ConsentWord::Evaluation),
    ("assistant", ConsentWord::Assistant),
    ("assent", ConsentWord::Assent),
    ("child", ConsentWord::Assent),
];

/// Every consent item, in the order in which it is recorded.
pub(super) const CONSENT_ITEMS: [ConsentWord; 9] = [
    ConsentWord::Screening,
    ConsentWord::Exercise,
    ConsentWord::HealthRecord,
    ConsentWord::CoachSees,
    ConsentWord::Doctor,
    ConsentWord::Photo,
    ConsentWord::Evaluation,
    ConsentWord::Assistant,
    ConsentWord::Assent,
];

/// Kinds of kit.
pub(super) const KIT: &[(&str, KitWord)] = &[
    ("band", KitWord::Band),
    ("bands", KitWord::Band),
    ("elastic", KitWord::Band),
    ("elasticband", KitWord::Band),
    ("tube", KitWord::Band),
    ("tubing", KitWord::Band),
    ("loop", KitWord::Band),
    ("gummiband", KitWord::Band),
    ("weight", KitWord::Weight),
    ("handweight", KitWord::Weight),
    ("dumbbell", KitWord::Weight),
    ("hantel", KitWord::Weight),
    ("ball", KitWord::Ball),
    ("mat", KitWord::Mat),
    ("matte", KitWord::Mat),
    ("anchor", KitWord::Anchor),
    ("anker", KitWord::Anchor),
    ("other", KitWord::Other),
];

/// Sides an exercise works.
pub(super) const SIDE: &[(&str, WorkingSideWord)] = &[
    ("left", WorkingSideWord::Left),
    ("l", WorkingSideWord::Left),
    ("links", WorkingSideWord::Left),
    ("gauche", WorkingSideWord::Left),
    ("right", WorkingSideWord::Right),
    ("r", WorkingSideWord::Right),
    ("rechts", WorkingSideWord::Right),
    ("droite", WorkingSideWord::Right),
    ("both", WorkingSideWord::Both),
    ("b", WorkingSideWord::Both),
    ("lr", WorkingSideWord::Both),
    ("beide", WorkingSideWord::Both),
    ("midline", WorkingSideWord::Midline),
    ("trunk", WorkingSideWord::Midline),
    ("mid", WorkingSideWord::Midline),
];

/// Where in the day a session stood.
pub(super) const CONTEXT: &[(&str, ContextWord)] = &[
    ("afterpractice", ContextWord::AfterPractice),
    ("afterwater", ContextWord::AfterPractice),
    ("afterswim", ContextWord::AfterPractice),
    ("after", ContextWord::AfterPractice),
    ("rested", ContextWord::Rested),
    ("fresh", ContextWord::Rested),
    ("home", ContextWord::Home),
    ("athome", ContextWord::Home),
];

/// What measured a set.
pub(super) const CLOCK: &[(&str, ClockWord)] = &[
    ("hand", ClockWord::Hand),
    ("stopwatch", ClockWord::Hand),
    ("handheld", ClockWord::Hand),
    ("device", ClockWord::Device),
    ("app", ClockWord::Device),
];

/// Why a set ended. "Left" is not among them: it may mean the arm.
pub(super) const END: &[(&str, EndWord)] = &[
    ("cap", EndWord::Cap),
    ("max", EndWord::Cap),
    ("full", EndWord::Cap),
    ("form", EndWord::Form),
    ("formloss", EndWord::Form),
    ("fault", EndWord::Form),
    ("stop", EndWord::ChoseToStop),
    ("stopped", EndWord::ChoseToStop),
    ("chosetostop", EndWord::ChoseToStop),
    ("tired", EndWord::ChoseToStop),
    ("will", EndWord::ChoseToStop),
    ("pain", EndWord::Pain),
    ("hurt", EndWord::Pain),
    ("schmerz", EndWord::Pain),
    ("kit", EndWord::Kit),
    ("anchor", EndWord::Kit),
    ("out", EndWord::Left),
    ("calledaway", EndWord::Left),
    ("alarm", EndWord::Left),
];
