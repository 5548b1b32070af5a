//! Short notes: guardian told, water advice, reopening, a talk, taught, signed off.

use app::desk::Draft;
use app::facts::{GuardianToldFact, ReopeningFact, SignOffFact, TalkFact, TaughtFact, WaterAdviceFact};
use trade::name::ExerciseId;
use trade::rule::catalogue;

use super::Sheet;
use super::pain::sides;
use super::take::{Setting, Taking};
use crate::web::parts::ask::{Ask, Control};
use crate::web::words::text;

/// A guardian was told.
pub const GUARDIAN: Sheet = Sheet {
    word: "guardian-told",
    kind: app::facts::Kind::GuardianTold,
    title: "record-guardian",
    lede: "record-guardian-lede",
    asks: |_| vec![day(), by()],
    take: |_, taking| {
        let (date, by) = (taking.past_day("date"), taking.words("by"));
        Some(vec![Draft::new(&GuardianToldFact { date: date?, by: by? })])
    },
};

/// What was decided about the water.
pub const WATER: Sheet = Sheet {
    word: "water-advice",
    kind: app::facts::Kind::WaterAdvice,
    title: "record-water",
    lede: "record-water-lede",
    asks: |_| {
        vec![day(), Ask::new("advice", "ask-advice", Control::Lines).hint("ask-advice-hint").needed(), by()]
    },
    take: |_, taking| {
        let (date, advice, by) = (taking.past_day("date"), taking.words("advice"), taking.words("by"));
        Some(vec![Draft::new(&WaterAdviceFact { date: date?, advice: advice?, by: by? })])
    },
};

/// "Out today" ended by a person.
pub const REOPENING: Sheet = Sheet {
    word: "reopening",
    kind: app::facts::Kind::Reopening,
    title: "record-reopening",
    lede: "record-reopening-lede",
    asks: |_| vec![day(), Ask::new("side", "ask-shoulder", Control::Pick(sides("shoulder-both"))), by()],
    take: |_, taking| {
        let (date, side, by) = (taking.past_day("date"), taking.word_or_none("side"), taking.words("by"));
        Some(vec![Draft::new(&ReopeningFact { date: date?, side, by: by? })])
    },
};

/// A talk took place.
pub const TALK: Sheet = Sheet {
    word: "talk",
    kind: app::facts::Kind::Talk,
    title: "record-talk",
    lede: "record-talk-lede",
    asks: |_| {
        let about = ["U5", "M1"].iter().filter_map(|code| catalogue::find(code));
        let about = about.map(|rule| (rule.code.to_string(), rule.name.to_owned())).collect();
        vec![day(), Ask::new("about", "ask-talk-about", Control::Pick(about)).needed(), by()]
    },
    take: |_, taking| {
        let (date, about, by) = (taking.past_day("date"), taking.words("about"), taking.words("by"));
        Some(vec![Draft::new(&TalkFact { date: date?, by: by?, about: about? })])
    },
};

/// An exercise was taught, untimed.
pub const TAUGHT: Sheet = Sheet {
    word: "taught",
    kind: app::facts::Kind::Taught,
    title: "record-taught",
    lede: "record-taught-lede",
    asks: |setting| vec![day(), exercise(setting)],
    take: |setting, taking| {
        let (date, exercise) = (taking.past_day("date"), known(setting, taking));
        Some(vec![Draft::new(&TaughtFact { date: date?, exercise: exercise? })])
    },
};

/// An exercise was signed off.
pub const SIGN_OFF: Sheet = Sheet {
    word: "sign-off",
    kind: app::facts::Kind::SignOff,
    title: "record-sign-off",
    lede: "record-sign-off-lede",
    asks: |setting| vec![day(), exercise(setting), by()],
    take: |setting, taking| {
        let (date, exercise, by) = (taking.past_day("date"), known(setting, taking), taking.words("by"));
        Some(vec![Draft::new(&SignOffFact { date: date?, exercise: exercise?, by: by? })])
    },
};

fn day() -> Ask {
    Ask::new("date", "ask-date", Control::Day).needed()
}

fn by() -> Ask {
    Ask::new("by", "ask-by", Control::Line).needed()
}

fn known(setting: &Setting<'_>, taking: &mut Taking<'_>) -> Option<String> {
    let exercise = taking.words("exercise")?;
    if setting.desk.protocol().exercise(&ExerciseId::new(&exercise)).is_none() {
        taking.wrong("exercise", text("take-not-a-choice"));
        return None;
    }
    Some(exercise)
}

fn exercise(setting: &Setting<'_>) -> Ask {
    let mut options = vec![(String::new(), text("choice-choose"))];
    options.extend(
        setting
            .desk
            .protocol()
            .exercises
            .iter()
            .map(|exercise| (exercise.id.to_string(), exercise.name.clone())),
    );
    Ask::new("exercise", "ask-exercise", Control::Pick(options)).needed()
}
