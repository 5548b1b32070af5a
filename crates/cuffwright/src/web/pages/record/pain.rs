//! Pain and signs, as spoken or seen.

use app::desk::Draft;
use app::facts::PainFact;
use trade::history::{Sign, Urgency};

use super::Sheet;
use super::take::{Setting, Taking};
use crate::web::pages::shared::what_to_do;
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::site::sent::Sent;
use crate::web::words::text;

/// The sheet.
pub const PAIN: Sheet = Sheet {
    word: "pain",
    kind: app::facts::Kind::Pain,
    title: "record-pain",
    lede: "record-pain-lede",
    asks,
    take,
};

fn asks(setting: &Setting<'_>) -> Vec<Ask> {
    let when = [
        ("", "choice-choose"),
        ("before", "pain-when-before"),
        ("during", "pain-when-during"),
        ("after", "pain-when-after"),
        ("next-morning", "pain-when-next-morning"),
        ("follow-up", "pain-when-follow-up"),
        ("other", "pain-when-other"),
    ];
    let kind = [("unstated", "pain-kind-unstated"), ("joint", "pain-kind-joint"), ("ache", "pain-kind-ache")];
    let exercises = setting.desk.protocol().exercises.iter();
    let mut during = vec![(String::new(), text("choice-none"))];
    during.extend(exercises.map(|exercise| (exercise.id.to_string(), exercise.name.clone())));
    vec![
        Ask::new("date", "ask-date", Control::Day).needed(),
        Ask::new("when", "ask-pain-when", Control::Pick(worded(&when))).needed(),
        Ask::new("left", "ask-pain-left", Control::Pain),
        Ask::new("right", "ask-pain-right", Control::Pain),
        Ask::new("kind", "ask-pain-kind", Control::Pick(worded(&kind))).hint("ask-pain-kind-hint"),
        Ask::new("exercise", "ask-pain-exercise", Control::Pick(during)),
        Ask::new("signs", "ask-signs", Control::Several(sign_groups())),
        Ask::new("sign_side", "ask-sign-side", Control::Pick(sides("choice-side-unknown")))
            .hint("ask-sign-side-hint"),
        Ask::new("asked", "ask-pain-asked", Control::Line).hint("ask-pain-asked-hint"),
    ]
}

/// Value and name of the words, put into words.
pub fn worded(options: &[(&str, &str)]) -> Vec<(String, String)> {
    options.iter().map(|(value, id)| ((*value).to_owned(), text(id))).collect()
}

/// Left, right, or what an empty answer means.
pub fn sides(empty: &str) -> Vec<(String, String)> {
    worded(&[("", empty), ("left", "side-left"), ("right", "side-right")])
}

/// Every sign under how soon somebody must look, the most urgent first.
pub fn sign_groups() -> Vec<Group> {
    let groups = [
        (Urgency::Emergency, "emergency", "signs-emergency"),
        (Urgency::SameDay, "same-day", "signs-same-day"),
        (Urgency::WithinAWeek, "within-a-week", "signs-within-a-week"),
        (Urgency::Talk, "talk", "signs-talk"),
    ];
    groups
        .into_iter()
        .map(|(urgency, word, heading)| Group {
            heading: text(heading),
            then: what_to_do(urgency),
            word,
            options: Sign::ALL
                .into_iter()
                .filter(|sign| sign.urgency() == urgency)
                .map(|sign| (sign.word().to_owned(), text(&format!("sign-{}", sign.word()))))
                .collect(),
        })
        .collect()
}

/// True when a form ticks an emergency sign, whatever else it says.
pub fn names_an_emergency(sent: &Sent) -> bool {
    sent.all("signs").filter_map(Sign::from_word).any(|sign| sign.urgency() == Urgency::Emergency)
}

fn take(_: &Setting<'_>, taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let date = taking.past_day("date");
    let when = taking.word("when");
    let (left, right) = (taking.whole_or_none("left"), taking.whole_or_none("right"));
    let kind = taking.word_or_none("kind").unwrap_or_default();
    let signs: Vec<String> =
        taking.sent().all("signs").filter(|sign| !sign.is_empty()).map(str::to_owned).collect();
    let sign_side = taking.word_or_none("sign_side");
    if left.is_none() && right.is_none() && signs.is_empty() && taking.problems.is_empty() {
        taking.wrong("left", text("take-nothing-said"));
    }
    let some = |name: &str| taking.sent().some(name).map(str::to_owned);
    let (exercise, asked) = (some("exercise"), some("asked"));
    Some(vec![Draft::new(&PainFact {
        date: date?,
        when: when?,
        exercise,
        left,
        right,
        kind,
        signs,
        sign_side,
        asked,
    })])
}
