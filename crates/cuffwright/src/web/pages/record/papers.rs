//! Consent, taken back, intake.

use app::desk::Draft;
use app::facts::{ConsentFact, IntakeFact, Kind, read_json};
use trade::history::ConsentItem;

use super::Sheet;
use super::away::yes_no_unknown;
use super::pain::sign_groups;
use super::take::{Setting, Taking, word_of};
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::words::text;

/// A consent, as signed.
pub const CONSENT: Sheet = Sheet {
    word: "consent",
    kind: app::facts::Kind::Consent,
    title: "record-consent",
    lede: "record-consent-lede",
    asks: consent_asks,
    take: consent,
};

fn consent_asks(_: &Setting<'_>) -> Vec<Ask> {
    let item = |item: &ConsentItem| (item.word().to_owned(), text(&format!("consent-item-{}", item.word())));
    let group = |heading: &str, word, items: Vec<(String, String)>| Group {
        heading: text(heading),
        then: String::new(),
        word,
        options: items,
    };
    let needed = ConsentItem::NEEDED.iter().map(item).collect();
    let other =
        ConsentItem::ALL.iter().filter(|item| !ConsentItem::NEEDED.contains(item)).map(item).collect();
    let groups =
        vec![group("consent-needed", "needed", needed), group("consent-asked-apart", "asked-apart", other)];
    vec![
        Ask::new("signed", "ask-signed", Control::Day).needed(),
        Ask::new("signer", "ask-signer", Control::Line).needed(),
        Ask::new("relation", "ask-relation", Control::Line).hint("ask-relation-hint").needed(),
        Ask::new("granted", "ask-granted", Control::Several(groups)).hint("ask-granted-hint"),
        Ask::new("text_version", "ask-text-version", Control::Line),
    ]
}

fn consent(_: &Setting<'_>, taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let signed = taking.past_day("signed");
    let (signer, relation) = (taking.words("signer"), taking.words("relation"));
    let granted = taking.sent().all("granted").filter_map(word_of).collect();
    let text_version = taking.sent().one("text_version").to_owned();
    Some(vec![Draft::new(&ConsentFact {
        signed: signed?,
        granted,
        signer: signer?,
        relation: relation?,
        text_version,
        withdrawn: None,
    })])
}

/// A consent, taken back.
pub const WITHDRAWAL: Sheet = Sheet {
    word: "consent-taken-back",
    kind: app::facts::Kind::Consent,
    title: "record-withdrawal",
    lede: "record-withdrawal-lede",
    asks: |_| vec![Ask::new("date", "ask-date", Control::Day).needed()],
    take: |setting, taking| {
        let date = taking.past_day("date")?;
        let facts = setting.desk.store().live_facts(setting.person.subject).ok()?;
        let newest = facts
            .iter()
            .filter(|live| live.fact.told.kind == Kind::Consent.word())
            .filter_map(|live| Some((live.fact.told.id, read_json::<ConsentFact>(live.payload()).ok()?)))
            .filter(|(_, consent)| consent.withdrawn.is_none())
            .max_by_key(|(_, consent)| consent.signed);
        let Some((id, consent)) = newest else {
            taking.wrong("date", text("take-no-consent"));
            return None;
        };
        let withdrawn = ConsentFact { withdrawn: Some(date), ..consent };
        Some(vec![Draft::new(&withdrawn).correcting(id, &text("reason-taken-back"))])
    },
};

/// Intake answers.
pub const INTAKE: Sheet = Sheet {
    word: "intake",
    kind: app::facts::Kind::Intake,
    title: "record-intake",
    lede: "record-intake-lede",
    asks: |_| {
        let question = |name, label| Ask::new(name, label, Control::One(yes_no_unknown()));
        vec![
            Ask::new("date", "ask-date", Control::Day).needed(),
            question("shoulder_pain_12_months", "ask-pain-12-months"),
            question("dislocation_or_slipping", "ask-dislocation"),
            question("operation", "ask-operation"),
            Ask::new("signs", "ask-signs", Control::Several(sign_groups())),
            Ask::new("signs_asked", "ask-signs-asked", Control::Tick).hint("ask-signs-asked-hint"),
        ]
    },
    take: |_, taking| {
        let date = taking.past_day("date");
        let shoulder_pain_12_months = taking.yes_no("shoulder_pain_12_months");
        let dislocation_or_slipping = taking.yes_no("dislocation_or_slipping");
        let operation = taking.yes_no("operation");
        let signs = taking.sent().all("signs").filter(|sign| !sign.is_empty()).map(str::to_owned).collect();
        let signs_asked = taking.sent().has("signs_asked", "yes");
        Some(vec![Draft::new(&IntakeFact {
            date: date?,
            shoulder_pain_12_months,
            dislocation_or_slipping,
            operation,
            signs,
            signs_asked,
        })])
    },
};
