//! Letters: referral, answer, clearance, limit. The last two are a licensed clinician's own, and refused without a
//! licence that is valid on their day.

use app::desk::Draft;
use app::facts::{ClearanceFact, ClinicianFact, Kind, LimitFact, ReferralFact, read_json};
use trade::protocol::Tag;

use super::Sheet;
use super::away::yes_no_unknown;
use super::pain::{sides, worded};
use super::take::{Setting, Taking};
use crate::web::pages::shared::short_day;
use crate::web::parts::ask::{Ask, Control, Group};
use crate::web::words::{Value, say, text};

/// A referral.
pub const REFERRAL: Sheet = Sheet {
    word: "referral",
    kind: app::facts::Kind::Referral,
    title: "record-referral",
    lede: "record-referral-lede",
    asks: |_| {
        let how_soon = [
            ("within-a-week", "urgency-within-a-week"),
            ("same-day", "urgency-same-day"),
            ("emergency", "urgency-emergency"),
        ];
        vec![
            Ask::new("opened", "ask-letter-day", Control::Day).needed(),
            Ask::new("side", "ask-shoulder", Control::Pick(sides("shoulder-person"))),
            Ask::new("urgency", "ask-urgency", Control::One(worded(&how_soon))).needed(),
        ]
    },
    take: |_, taking| {
        let (opened, side) = (taking.past_day("opened"), taking.word_or_none("side"));
        let urgency = taking.word("urgency");
        Some(vec![Draft::new(&ReferralFact { opened: opened?, side, urgency: urgency?, answered: None })])
    },
};

/// The answer to a referral: puts its day into the referral that waits for it.
pub const ANSWER: Sheet = Sheet {
    word: "referral-answer",
    kind: app::facts::Kind::Referral,
    title: "record-answer",
    lede: "record-answer-lede",
    asks: |setting| {
        let waiting: Vec<(String, String)> = setting
            .person
            .read
            .history
            .referrals
            .iter()
            .filter(|referral| referral.answered.is_none())
            .map(|referral| {
                let (day, side) = (referral.opened.to_string(), referral.side.map_or("", |side| side.word()));
                let (shown, whose) =
                    (short_day(referral.opened), crate::web::pages::shared::side_word(referral.side));
                let words =
                    say("answer-of", &[("day", Value::Words(&shown)), ("side", Value::Words(&whose))]);
                (format!("{day} {side}"), words)
            })
            .collect();
        vec![
            Ask::new("letter", "ask-which-letter", Control::Pick(waiting)).needed(),
            Ask::new("date", "ask-answer-day", Control::Day).needed(),
        ]
    },
    take: |setting, taking| {
        let (letter, answered) = (taking.words("letter"), taking.past_day("date"));
        let (letter, answered) = (letter?, answered?);
        let facts = setting.desk.store().live_facts(setting.person.subject).ok()?;
        let found =
            facts.iter().filter(|live| live.fact.told.kind == Kind::Referral.word()).find_map(|live| {
                let referral: ReferralFact = read_json(live.payload()).ok()?;
                let side = referral.side.map_or("", |side| trade::side::Side::word(side_of(side)));
                let key = format!("{} {side}", referral.opened);
                (referral.answered.is_none() && key.trim() == letter.trim())
                    .then_some((live.fact.told.id, referral))
            });
        let Some((id, referral)) = found else {
            taking.wrong("letter", text("take-no-letter"));
            return None;
        };
        if answered < referral.opened {
            taking.wrong("date", text("take-answer-early"));
        }
        let answer = ReferralFact { answered: Some(answered), ..referral };
        Some(vec![Draft::new(&answer).correcting(id, &text("reason-answer-came"))])
    },
};

fn side_of(word: app::facts::SideWord) -> trade::side::Side {
    word.into()
}

fn clinician_asks() -> Vec<Ask> {
    vec![
        Ask::new("clinician", "ask-clinician", Control::Line).needed(),
        Ask::new("licence", "ask-licence", Control::Line).needed(),
        Ask::new("licence_until", "ask-licence-until", Control::Day).needed(),
    ]
}

fn clinician(taking: &mut Taking<'_>) -> Option<ClinicianFact> {
    let (name, licence) = (taking.words("clinician"), taking.words("licence"));
    let licence_until = taking.day("licence_until");
    Some(ClinicianFact { name: name?, licence: licence?, licence_until: licence_until? })
}

/// A clinician's clearance.
pub const CLEARANCE: Sheet = Sheet {
    word: "clearance",
    kind: app::facts::Kind::Clearance,
    title: "record-clearance",
    lede: "record-clearance-lede",
    asks: |_| {
        let injury = [
            ("", "injury-none"),
            ("dislocation", "injury-dislocation"),
            ("operation", "injury-operation"),
            ("other", "injury-other"),
        ];
        let mut asks = vec![
            Ask::new("date", "ask-letter-day", Control::Day).needed(),
            Ask::new("side", "ask-shoulder", Control::Pick(sides("shoulder-person"))),
        ];
        asks.extend(clinician_asks());
        asks.extend([
            Ask::new("injury", "ask-injury", Control::Pick(worded(&injury))),
            Ask::new("daily_life_pain_free", "ask-daily-life", Control::One(yes_no_unknown())),
            Ask::new("range_gap_deg", "ask-range-gap", Control::Number),
            Ask::new("strength_pct_of_other", "ask-strength-share", Control::Number),
            Ask::new("half_water_weeks", "ask-half-water", Control::Number),
        ]);
        asks
    },
    take: |_, taking| {
        let (date, side, clinician) =
            (taking.past_day("date"), taking.word_or_none("side"), clinician(taking));
        let injury = taking.word_or_none("injury");
        let daily_life_pain_free = taking.yes_no("daily_life_pain_free");
        let range_gap_deg = taking.number_or_none("range_gap_deg");
        let strength_pct_of_other = taking.number_or_none("strength_pct_of_other");
        let half_water_weeks = taking.number_or_none("half_water_weeks");
        Some(vec![Draft::new(&ClearanceFact {
            date: date?,
            side,
            clinician: clinician?,
            injury,
            daily_life_pain_free,
            range_gap_deg,
            strength_pct_of_other,
            half_water_weeks,
        })])
    },
};

/// A clinician's signed limit.
pub const LIMIT: Sheet = Sheet {
    word: "limit",
    kind: app::facts::Kind::Limit,
    title: "record-limit",
    lede: "record-limit-lede",
    asks: limit_asks,
    take: limit,
};

fn limit_asks(setting: &Setting<'_>) -> Vec<Ask> {
    let tags = Tag::ALL.iter().map(|tag| (tag.word().to_owned(), text(&format!("tag-{}", tag.word()))));
    let group = |word, options: Vec<(String, String)>| {
        vec![Group { heading: String::new(), then: String::new(), word, options }]
    };
    let exercises = setting.desk.protocol().exercises.iter();
    let exercises = exercises.map(|exercise| (exercise.id.to_string(), exercise.name.clone())).collect();
    let mut asks = vec![
        Ask::new("signed", "ask-signed", Control::Day).needed(),
        Ask::new("until", "ask-last-day", Control::Day).needed(),
        Ask::new("side", "ask-shoulder", Control::Pick(sides("shoulder-both"))),
    ];
    asks.extend(clinician_asks());
    asks.extend([
        Ask::new("locked_tags", "ask-locked-tags", Control::Several(group("tags", tags.collect()))),
        Ask::new("locked_exercises", "ask-locked-exercises", Control::Several(group("exercises", exercises))),
        Ask::new("sets", "ask-most-sets", Control::Number),
        Ask::new("cap_s", "ask-longest-set", Control::Number),
        Ask::new("allows_pain_up_to", "ask-covered-pain", Control::Pain).hint("ask-covered-pain-hint"),
        Ask::new("note", "ask-clinicians-words", Control::Lines),
    ]);
    asks
}

fn limit(_: &Setting<'_>, taking: &mut Taking<'_>) -> Option<Vec<Draft>> {
    let (signed, until) = (taking.past_day("signed"), taking.day("until"));
    let (side, clinician) = (taking.word_or_none("side"), clinician(taking));
    let all = |name| {
        taking.sent().all(name).filter(|value| !value.is_empty()).map(str::to_owned).collect::<Vec<_>>()
    };
    let (locked_tags, locked_exercises) = (all("locked_tags"), all("locked_exercises"));
    let sets = taking.whole_or_none("sets");
    let cap_s = taking.number_or_none("cap_s");
    let allows_pain_up_to = taking.whole_or_none("allows_pain_up_to");
    Some(vec![Draft::new(&LimitFact {
        signed: signed?,
        until: until?,
        side,
        clinician: clinician?,
        locked_tags,
        locked_exercises,
        sets,
        cap_s,
        allows_pain_up_to,
        note: taking.sent().one("note").to_owned(),
    })])
}
