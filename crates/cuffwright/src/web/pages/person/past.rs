//! What is on record about one swimmer: sessions as ropes, what hurt, what was decided, how the body grew, what was
//! measured. Long lists show their newest part and lead to the rest.

use app::desk::{Desk, Person};
use app::facts::{DecisionFact, Kind, Verdict};
use app::text::day;
use jiff::civil::Date;
use maud::{Markup, html};
use quantity::{Judgement, Range};
use trade::history::{Outcome, PainReport, PainWhen};
use trade::name::{ExerciseId, RungId};
use trade::side::WorkingSide;

use super::lines::{block_ropes, exercise_name, session_words, side_name, used};
use crate::web::pages::shared::{href, wording};
use crate::web::parts::table::{Column, table};
use crate::web::rope::{Heading, ropes_label};
use crate::web::words::{Value, say, text};

/// Rows of one list.
const ROWS: usize = 12;
/// Sessions drawn in full.
const SESSIONS: usize = 4;

/// Everything, newest first.
pub fn show(desk: &Desk, person: &Person, on: Date) -> Markup {
    html! {
        section.past aria-labelledby="past-heading" {
            h2 id="past-heading" { (text("past-heading")) }
            (folded("past-sessions", sessions(desk, person, on)))
            (folded("past-pain", pains(desk, person, on)))
            (folded("past-decisions", decisions(desk, person, on)))
            (folded("past-growth", growth(person, on)))
            (folded("past-screenings", screenings(person, on)))
            p { a href={ (href(person)) "/facts" } { (text("past-all-facts")) } }
        }
    }
}

fn folded(heading: &'static str, inside: Option<Markup>) -> Markup {
    html! {
        @if let Some(inside) = inside { details.past-part { summary { (text(heading)) } (inside) } }
    }
}

fn sessions(desk: &Desk, person: &Person, on: Date) -> Option<Markup> {
    let all: Vec<_> =
        person.read.history.sessions.iter().rev().filter(|session| session.date <= on).collect();
    if all.is_empty() {
        return None;
    }
    let more = all.len().saturating_sub(SESSIONS);
    Some(html! {
        @for session in all.iter().take(SESSIONS) {
            h4 { (session_words(session)) }
            div.past-session {
                @for block in &session.blocks {
                    @let title = exercise_name(desk, &block.exercise);
                    @let label = ropes_label(&side_name(block.side), &title, &session_words(session));
                    @let scale = block.sets.iter().map(|set| set.cap).fold(quantity::HoldTime::from_seconds(30.0), |most, cap| if most < cap { cap } else { most });
                    div { p { b { (title) } ", " (side_name(block.side)) } (used(desk, block)) (block_ropes(desk, block, &label, scale, Heading::Rightward)) }
                }
            }
        }
        @if more > 0 { p { a href={ (href(person)) "/facts?kind=set" } { (say("past-more", &[("n", Value::Count(more as i64))])) } } }
    })
}

/// When a pain number was spoken, in words.
pub fn when_words(desk: &Desk, when: &PainWhen) -> String {
    match when {
        PainWhen::Before => text("pain-when-before"),
        PainWhen::During(None) => text("pain-when-during"),
        PainWhen::During(Some(id)) => {
            say("pain-when-during-of", &[("exercise", Value::Words(&exercise_name(desk, id)))])
        }
        PainWhen::After => text("pain-when-after"),
        PainWhen::NextMorning => text("pain-when-next-morning"),
        PainWhen::FollowUp => text("pain-when-follow-up"),
        PainWhen::Other => text("pain-when-other"),
    }
}

fn spoken(report: &PainReport, side: trade::side::Side) -> Markup {
    html! { @match report.of(side) { Some(pain) => (pain), None => span.quiet { (text("pain-not-asked")) } } }
}

fn pains(desk: &Desk, person: &Person, on: Date) -> Option<Markup> {
    let rows: Vec<Vec<Markup>> = person
        .read
        .history
        .pains
        .iter()
        .rev()
        .filter(|report| report.date <= on)
        .take(ROWS)
        .map(|report| {
            let signs: Vec<String> =
                report.signs.iter().map(|sign| text(&format!("sign-{}", sign.word()))).collect();
            vec![
                html! { (day(report.date)) },
                html! { (when_words(desk, &report.when)) },
                spoken(report, trade::side::Side::Left),
                spoken(report, trade::side::Side::Right),
                html! { (signs.join(", ")) },
            ]
        })
        .collect();
    let heads = [
        text("col-day"),
        text("col-when"),
        text("shoulder-left-short"),
        text("shoulder-right-short"),
        text("col-signs"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    (!rows.is_empty()).then(|| table("past-pain", &text("past-pain"), &columns, &rows))
}

/// What was decided, in words.
pub fn decision_words(desk: &Desk, decision: &DecisionFact) -> String {
    let wording = wording(desk);
    let exercise = desk.protocol().exercise(&ExerciseId::new(&decision.exercise));
    let rung = |rung: &Option<String>| {
        rung.as_ref()
            .map_or_else(|| text("decide-nothing"), |rung| wording.rung(exercise, &RungId::new(rung)).name)
    };
    match decision.verdict {
        Verdict::Confirmed => say("decision-confirmed", &[("rung", Value::Words(&rung(&decision.rung)))]),
        Verdict::Overridden => {
            let (proposed, decided) = (rung(&decision.proposed_rung), rung(&decision.rung));
            let values = [
                ("proposed", Value::Words(&proposed)),
                ("decided", Value::Words(&decided)),
                ("reason", Value::Words(decision.reason.as_deref().unwrap_or_default())),
            ];
            say("decision-overridden", &values)
        }
    }
}

fn decisions(desk: &Desk, person: &Person, on: Date) -> Option<Markup> {
    let rows: Vec<Vec<Markup>> = person
        .read
        .decisions
        .iter()
        .rev()
        .filter(|decision| decision.date <= on)
        .take(ROWS)
        .map(|decision| {
            vec![
                html! { (day(decision.date)) },
                html! { (exercise_name(desk, &ExerciseId::new(&decision.exercise))) ", " (side_name(WorkingSide::from(decision.side))) },
                html! { (decision_words(desk, decision)) },
                html! { (decision.by) },
            ]
        })
        .collect();
    let heads = [text("col-day"), text("col-line"), text("col-decided"), text("col-by")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    (!rows.is_empty()).then(|| table("past-decisions", &text("past-decisions"), &columns, &rows))
}

fn growth(person: &Person, on: Date) -> Option<Markup> {
    let number = |value: f64| format!("{value:.1}");
    let rows: Vec<Vec<Markup>> = person
        .read
        .history
        .growth
        .iter()
        .rev()
        .filter(|measure| measure.date <= on)
        .take(ROWS)
        .map(|measure| {
            vec![
                html! { (day(measure.date)) },
                html! { (number(measure.height.centimetres())) },
                html! { @if let Some(sitting) = measure.sitting { (number(sitting.centimetres())) } @else { "–" } },
                html! { @if let Some(mass) = measure.mass { (number(mass.kilograms())) } @else { "–" } },
            ]
        })
        .collect();
    let heads = [text("col-day"), text("col-height"), text("col-sitting"), text("col-mass")];
    let columns = [
        Column::words(&heads[0]),
        Column::number(&heads[1]),
        Column::number(&heads[2]),
        Column::number(&heads[3]),
    ];
    (!rows.is_empty()).then(|| table("past-growth", &text("past-growth"), &columns, &rows))
}

fn screenings(person: &Person, on: Date) -> Option<Markup> {
    let all = trade::screening::day::days(&person.read.history, on);
    let screening = all.last()?;
    let value = |key: &str, side: Option<trade::side::Side>| {
        let found = screening.entry(key, side);
        html! {
            @match found.map(|entry| &entry.finding.outcome) {
                None => "–",
                Some(Outcome::Measured(value)) => {
                    (value)
                    @if Range::of(key).is_some_and(|range| range.judge(*value) == Judgement::Ask) {
                        " " span.out-of-range { (text("screening-unusual")) }
                    }
                }
                Some(Outcome::NotTested(reason)) => (say("screening-not-tested", &[("reason", Value::Words(reason))])),
                Some(Outcome::Refused) => (text("screening-refused")),
                Some(Outcome::NotDonePain) => (text("screening-pain")),
            }
        }
    };
    let mut keys: Vec<&str> = screening.entries.iter().map(|entry| entry.finding.key.as_str()).collect();
    keys.dedup();
    keys.sort_unstable();
    keys.dedup();
    let rows: Vec<Vec<Markup>> = keys
        .into_iter()
        .map(|key| {
            let range = Range::of(key);
            let (label, unit) = range.map_or((key, ""), |range| (range.label, range.unit));
            let usual = range.map(|range| format!("{} – {}", range.plausible.0, range.plausible.1));
            vec![
                html! { (label) },
                value(key, Some(trade::side::Side::Left)),
                value(key, Some(trade::side::Side::Right)),
                value(key, None),
                html! { (unit) },
                html! { (usual.unwrap_or_default()) },
            ]
        })
        .collect();
    let heads = [
        text("col-measure"),
        text("shoulder-left-short"),
        text("shoulder-right-short"),
        text("col-whole"),
        text("col-unit"),
        text("col-usual"),
    ];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    let when = day(screening.date);
    let caption = say(
        "screening-caption",
        &[
            ("day", Value::Words(&when)),
            ("tester", Value::Words(screening.entries.first().map_or("", |entry| entry.tester))),
        ],
    );
    Some(
        html! { (table("past-screening", &caption, &columns, &rows)) p.quiet { (text("screening-usual-note")) } },
    )
}

/// What a fact is about, in words.
pub fn kind_word(kind: Kind) -> String {
    text(match kind {
        Kind::Swimmer => "fact-kind-swimmer",
        Kind::Consent => "record-consent",
        Kind::Intake => "record-intake",
        Kind::Screening => "record-screening",
        Kind::Growth => "record-growth",
        Kind::Pain => "record-pain",
        Kind::Illness => "record-illness",
        Kind::Absence => "record-absence",
        Kind::Ban => "record-ban",
        Kind::Referral => "record-referral",
        Kind::Clearance => "record-clearance",
        Kind::Limit => "record-limit",
        Kind::Reopening => "record-reopening",
        Kind::WaterAdvice => "record-water",
        Kind::GuardianTold => "record-guardian",
        Kind::Talk => "record-talk",
        Kind::Taught => "record-taught",
        Kind::SignOff => "record-sign-off",
        Kind::Session => "fact-kind-session",
        Kind::Set => "fact-kind-set",
        Kind::Decision => "fact-kind-decision",
        Kind::WaterWeek => "record-water-week",
        Kind::WaterSession => "record-water-session",
        Kind::WeeklyCheck => "record-weekly",
        Kind::Trial => "fact-kind-trial",
        Kind::Club => "fact-kind-club",
        Kind::Practice => "fact-kind-practice",
        Kind::Season => "fact-kind-season",
        Kind::Period => "fact-kind-period",
        Kind::Meet => "fact-kind-meet",
        Kind::KitPiece => "fact-kind-kit-piece",
        Kind::Inspection => "fact-kind-inspection",
        Kind::SquadPlan => "fact-kind-squad-plan",
        Kind::DeckHours => "fact-kind-deck-hours",
        Kind::Supervisor => "fact-kind-supervisor",
        Kind::OtherTime => "fact-kind-other-time",
        Kind::Closure => "fact-kind-closure",
        Kind::Holiday => "fact-kind-holiday",
        Kind::PracticeChange => "fact-kind-practice-change",
        Kind::Dryland => "fact-kind-dryland",
        Kind::Calibration => "fact-kind-calibration",
        Kind::ArmLengths => "record-arms",
        Kind::DeckSession => "fact-kind-deck-session",
        Kind::DeckEntry => "fact-kind-deck-entry",
        Kind::DeckPlace => "fact-kind-deck-place",
        Kind::Incident => "fact-kind-incident",
        Kind::HomeSheet => "fact-kind-home-sheet",
    })
}
