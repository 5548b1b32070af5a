//! The proposals of one swimmer: exercise by exercise, left beside right, with the last sessions as ropes and the
//! form that decides.

use std::collections::BTreeMap;

use app::decide::LineRef;
use app::desk::{Assessment, Desk, Person};
use app::review::{goes_together, needs_a_decision};
use jiff::civil::Date;
use maud::{Markup, html};
use quantity::HoldTime;
use trade::dosing::{Action, Proposal};
use trade::history::{Block, Session};
use trade::name::{ExerciseId, FaultCode, RungId};
use trade::side::{Side, WorkingSide};

use crate::web::pages::shared::{href, reasons, short_day, wording};
use crate::web::parts::form::{Decision, decision};
use crate::web::parts::proposal::{DoseWords, ProposalWords, action_word, proposal};
use crate::web::parts::table::{Column, table};
use crate::web::rope::{Band, Heading, Rope, Ropes, ropes, ropes_label, seconds};
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// Sessions drawn as ropes under one proposal.
const SESSIONS: usize = 3;

/// A decision that was not taken, so that what was chosen and written comes back.
pub struct Given {
    /// Which line.
    pub line: LineRef,
    /// Why not.
    pub says: String,
    /// What was chosen.
    pub choice: String,
    /// What was written.
    pub reason: String,
}

/// An exercise by the name people use.
pub fn exercise_name(desk: &Desk, id: &ExerciseId) -> String {
    desk.protocol().exercise(id).map_or_else(|| id.to_string(), |exercise| exercise.name.clone())
}

/// True where the next session gives sets, or a person is asked. What is only taught has a list of its own.
fn is_given(proposal: &Proposal) -> bool {
    (proposal.dose.is_some() && proposal.action != Action::Teach) || proposal.action == Action::Ask
}

/// One stretch of bands for each exercise that is given or asked about.
pub fn bands(
    desk: &Desk,
    visit: &Visit,
    person: &Person,
    assessment: &Assessment,
    refused: Option<&Given>,
) -> Vec<Band> {
    let mut bands = Vec::new();
    let mut by_exercise: Vec<(&ExerciseId, BTreeMap<WorkingSide, &Proposal>)> = Vec::new();
    for proposal in &assessment.plan.proposals {
        match by_exercise.iter_mut().find(|(id, _)| *id == &proposal.exercise) {
            Some((_, sides)) => {
                sides.insert(proposal.side, proposal);
            }
            None => by_exercise.push((&proposal.exercise, BTreeMap::from([(proposal.side, proposal)]))),
        }
    }
    by_exercise.retain(|(_, sides)| sides.values().any(|proposal| is_given(proposal)));
    for (id, sides) in by_exercise {
        let title = exercise_name(desk, id);
        let link = format!("/rules/exercises/{id}");
        bands.push(Band::Across(html! { h3 id={ "line-" (id) } { a href=(link) { (title) } } }));
        let show = |proposal: &Proposal| one(desk, visit, person, proposal, refused);
        match (sides.get(&WorkingSide::Left), sides.get(&WorkingSide::Right)) {
            (None, None) => {
                for proposal in sides.values() {
                    bands.push(Band::Across(html! { div.one-line { (show(proposal)) } }));
                    bands.extend(ropes_across(desk, person, &title, proposal, assessment.plan.on));
                }
            }
            (left, right) => {
                let shown = |one: Option<&&Proposal>| one.map_or_else(|| html! {}, |proposal| show(proposal));
                bands.push(Band::Apart(shown(left), shown(right)));
                bands.extend(ropes_apart(desk, person, &title, id, assessment.plan.on));
            }
        }
    }
    bands
}

/// What is proposed and the form that decides it.
pub fn one(desk: &Desk, visit: &Visit, person: &Person, shown: &Proposal, refused: Option<&Given>) -> Markup {
    let words = Words::of(desk, shown);
    let reasons = reasons(desk, &shown.trace);
    let side = side_name(shown.side);
    let proposed = ProposalWords {
        exercise: None,
        side: &side,
        action: shown.action,
        dose: words.dose(shown),
        count: counts(shown).then_some(shown.count),
        reasons: &reasons,
        alone: needs_a_decision(shown) && !goes_together(shown),
    };
    proposal(&proposed, &form(desk, visit, person, shown, refused, &href(person), None))
}

/// A count towards a step says something only where steps can be taken.
fn counts(proposal: &Proposal) -> bool {
    matches!(proposal.action, Action::Up | Action::Stay | Action::Hold | Action::Switch)
        && proposal.dose.as_ref().is_some_and(|dose| dose.timed)
}

/// The name of a working side as a heading.
pub fn side_name(side: WorkingSide) -> String {
    text(match side {
        WorkingSide::Left => "shoulder-left",
        WorkingSide::Right => "shoulder-right",
        WorkingSide::Both => "working-both",
        WorkingSide::Midline => "working-midline",
    })
}

/// Words of a dose, held so that the parts can borrow them.
pub struct Words {
    rung: Option<String>,
    from: Option<String>,
    cap: Option<String>,
    rest: String,
    tempo: String,
}

impl Words {
    /// The words of one proposal's dose.
    pub fn of(desk: &Desk, proposal: &Proposal) -> Self {
        let wording = wording(desk);
        let exercise = desk.protocol().exercise(&proposal.exercise);
        let name = |rung: &RungId| wording.rung(exercise, rung).name;
        let dose = proposal.dose.as_ref();
        let to = dose.and_then(|dose| dose.rung.as_ref());
        let from = proposal.from.as_ref().filter(|from| to.is_some_and(|to| to != *from));
        Self {
            rung: to.map(name),
            from: from.map(name),
            cap: dose.filter(|dose| dose.timed).map(|dose| seconds(dose.cap)),
            rest: dose.map(|dose| seconds(dose.rest)).unwrap_or_default(),
            tempo: dose.map(|dose| tempo(dose.tempo)).unwrap_or_default(),
        }
    }

    /// The dose as the parts show it.
    pub fn dose<'a>(&'a self, proposal: &Proposal) -> Option<DoseWords<'a>> {
        proposal.dose.as_ref().map(|dose| DoseWords {
            rung: self.rung.as_deref(),
            from: self.from.as_deref(),
            sets: dose.sets,
            cap: self.cap.as_deref(),
            rest: &self.rest,
            tempo: &self.tempo,
        })
    }
}

/// A tempo in words.
pub fn tempo(tempo: trade::protocol::Tempo) -> String {
    let number = |value: f64| value.to_string();
    match tempo {
        trade::protocol::Tempo::Beat { out, hold: 0.0, back } => {
            say("tempo-beat", &[("out", Value::Words(&number(out))), ("back", Value::Words(&number(back)))])
        }
        trade::protocol::Tempo::Beat { out, hold, back } => say(
            "tempo-beat-held",
            &[
                ("out", Value::Words(&number(out))),
                ("hold", Value::Words(&number(hold))),
                ("back", Value::Words(&number(back))),
            ],
        ),
        trade::protocol::Tempo::Hold => text("tempo-hold"),
        trade::protocol::Tempo::Circles { reverse_every } => {
            say("tempo-circles", &[("every", Value::Words(&seconds(reverse_every)))])
        }
    }
}

/// The form that decides one line. `whose` is said on the button where a page has lines of many swimmers.
pub fn form(
    desk: &Desk,
    visit: &Visit,
    person: &Person,
    shown: &Proposal,
    refused: Option<&Given>,
    back: &str,
    whose: Option<&str>,
) -> Markup {
    if visit.day() < visit.today() {
        // A day that has gone is looked at, not decided.
        return html! {};
    }
    let wording = wording(desk);
    let exercise = desk.protocol().exercise(&shown.exercise);
    let rung =
        shown.dose.as_ref().and_then(|dose| dose.rung.as_ref()).map(ToString::to_string).unwrap_or_default();
    let on = visit.day().to_string();
    let once = crate::web::site::fresh_key();
    let (id, side) = (shown.exercise.to_string(), shown.side.word());
    let hidden = [
        ("token", visit.site.token()),
        ("once", &once),
        ("exercise", &id),
        ("side", side),
        ("on", &on),
        ("action", shown.action.word()),
        ("rung", &rung),
        ("back", back),
    ];
    let mut instead: Vec<(String, String)> = vec![(String::new(), text("decide-nothing"))];
    if let Some(exercise) = exercise.filter(|_| shown.dose.is_some() || shown.from.is_some()) {
        instead.extend(exercise.ladder.iter().map(|rung| {
            let name = wording.reader.rung_name(rung);
            (rung.id.to_string(), say("decide-rung", &[("rung", Value::Words(&name))]))
        }));
    }
    let instead: Vec<(&str, &str)> =
        instead.iter().map(|(value, words)| (value.as_str(), words.as_str())).collect();
    let mine = refused.filter(|given| {
        given.line.exercise == shown.exercise
            && given.line.side == shown.side
            && given.line.subject == person.subject
    });
    let title = exercise_name(desk, &shown.exercise);
    let (about, about_unseen) = match whose {
        Some(name) => (name.to_owned(), format!("{title}, {}", side_name(shown.side))),
        None => (side_name(shown.side), title),
    };
    let key = format!("{}-{id}-{side}", &person.subject.to_string()[..13]);
    let action = format!("{}/decide?on={on}", href(person));
    let confirms = confirms(desk, shown);
    decision(&Decision {
        action: &action,
        key: &key,
        about: &about,
        about_unseen: &about_unseen,
        confirms: &confirms,
        instead: &instead,
        most_sets: shown.dose.as_ref().map_or(0, |dose| dose.sets),
        pressing: needs_a_decision(shown),
        hidden: &hidden,
        problem: mine.map(|given| given.says.as_str()),
        given: mine.map(|given| (given.choice.as_str(), given.reason.as_str())),
    })
}

/// What a yes means, in one line.
pub fn confirms(desk: &Desk, shown: &Proposal) -> String {
    let words = Words::of(desk, shown);
    let action = action_word(shown.action);
    let Some(dose) = &shown.dose else { return action };
    let mut parts = vec![action];
    if let Some(rung) = &words.rung {
        parts.push(match &words.from {
            Some(from) => {
                say("dose-rung-change", &[("from", Value::Words(from)), ("to", Value::Words(rung))])
            }
            None => say("dose-rung", &[("rung", Value::Words(rung))]),
        });
    }
    if let Some(cap) = &words.cap {
        let sets = dose.sets.to_string();
        parts.push(say("dose-sets-cap", &[("sets", Value::Words(&sets)), ("cap", Value::Words(cap))]));
    }
    parts.join(", ")
}

fn sessions_of<'a>(
    person: &'a Person,
    exercise: &'a ExerciseId,
    on: Date,
) -> impl Iterator<Item = &'a Session> {
    let has = move |session: &&Session| session.blocks.iter().any(|block| block.exercise == *exercise);
    person
        .read
        .history
        .sessions
        .iter()
        .rev()
        .filter(move |session| session.date <= on)
        .filter(has)
        .take(SESSIONS)
}

fn fault(desk: &Desk, code: &FaultCode) -> String {
    desk.protocol().fault(code).map_or_else(|| code.to_string(), |fault| fault.name.clone())
}

/// The sets of one block, drawn.
pub fn block_ropes(desk: &Desk, block: &Block, label: &str, scale: HoldTime, heading: Heading) -> Markup {
    let sets: Vec<Rope> = block.sets.iter().map(|set| Rope::of(set, |code| fault(desk, code))).collect();
    ropes(&Ropes { label, sets: &sets, scale, heading })
}

fn scale(person: &Person, exercise: &ExerciseId, on: Date) -> HoldTime {
    let caps = sessions_of(person, exercise, on)
        .flat_map(|session| &session.blocks)
        .filter(|block| block.exercise == *exercise)
        .flat_map(|block| &block.sets)
        .map(|set| set.cap);
    caps.fold(HoldTime::from_seconds(30.0), |longest, cap| if longest < cap { cap } else { longest })
}

fn ropes_apart(desk: &Desk, person: &Person, title: &str, id: &ExerciseId, on: Date) -> Vec<Band> {
    let scale = scale(person, id, on);
    let mut bands = Vec::new();
    for (index, session) in sessions_of(person, id, on).enumerate() {
        let when = session_words(session);
        let of = |side: Side| {
            let block =
                session.blocks.iter().find(|block| block.exercise == *id && block.side == side.into());
            let label = ropes_label(&side_name(side.into()), title, &when);
            let heading = if side == Side::Left { Heading::Leftward } else { Heading::Rightward };
            match block {
                Some(block) => {
                    html! { (used(desk, block)) (block_ropes(desk, block, &label, scale, heading)) }
                }
                None => html! { p.quiet { (text("rope-none")) } },
            }
        };
        let pair = (of(Side::Left), of(Side::Right));
        bands.push(Band::Across(html! { h4 { (when) } }));
        bands.push(if index == 0 { Band::Together(pair.0, pair.1) } else { Band::Earlier(pair.0, pair.1) });
    }
    bands
}

fn ropes_across(desk: &Desk, person: &Person, title: &str, shown: &Proposal, on: Date) -> Vec<Band> {
    let scale = scale(person, &shown.exercise, on);
    sessions_of(person, &shown.exercise, on)
        .take(2)
        .filter_map(|session| {
            let block = session
                .blocks
                .iter()
                .find(|block| block.exercise == shown.exercise && block.side == shown.side)?;
            let when = session_words(session);
            let label = ropes_label(&side_name(shown.side), title, &when);
            Some(Band::Across(html! {
                h4 { (when) }
                (used(desk, block))
                (block_ropes(desk, block, &label, scale, Heading::Rightward))
            }))
        })
        .collect()
}

/// Which rung, and that it was another than planned.
pub fn used(desk: &Desk, block: &Block) -> Markup {
    let wording = wording(desk);
    let exercise = desk.protocol().exercise(&block.exercise);
    let name = |rung: &RungId| wording.rung(exercise, rung).name;
    html! {
        p.quiet {
            @if block.used == block.planned { (name(&block.used)) }
            @else { (say("rung-used-instead", &[("used", Value::Words(&name(&block.used))), ("planned", Value::Words(&name(&block.planned)))])) }
        }
    }
}

/// Day and place of a session.
pub fn session_words(session: &Session) -> String {
    let day = short_day(session.date);
    let context = text(match session.context {
        trade::history::Context::AfterPractice => "context-after-practice",
        trade::history::Context::Rested => "context-rested",
        trade::history::Context::Home => "context-home",
    });
    format!("{day}, {context}")
}

/// Exercises that are taught, untimed, each with the form that records it.
pub fn taught(desk: &Desk, person: &Person, assessment: &Assessment) -> Markup {
    let own = href(person);
    let of_teaching = assessment.plan.proposals.iter().filter(|proposal| proposal.action == Action::Teach);
    let rows: Vec<Vec<Markup>> = of_teaching
        .map(|proposal| {
            let words = Words::of(desk, proposal);
            let id = &proposal.exercise;
            let reasons = reasons(desk, &proposal.trace[..proposal.trace.len().min(1)]);
            vec![
                html! { a href={ "/rules/exercises/" (id) } { (exercise_name(desk, id)) } },
                html! { (side_name(proposal.side)) },
                html! { (words.rung.unwrap_or_default()) },
                html! { @for reason in &reasons { (reason.sentence) " " (crate::web::parts::why::rule_link(&reason.code)) } },
                html! {
                    a href={ (own) "/record/taught?exercise=" (id) } { (text("teach-taught")) } " "
                    a href={ (own) "/record/sign-off?exercise=" (id) } { (text("teach-sign-off")) }
                },
            ]
        })
        .collect();
    let heads =
        [text("col-exercise"), text("col-side"), text("col-rung"), text("col-why"), text("col-record")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! {
        @if !rows.is_empty() {
            details.not-given {
                summary { (say("teach-lines", &[("n", Value::Count(rows.len() as i64))])) }
                (table("teach", &text("teach-caption"), &columns, &rows))
            }
        }
    }
}

/// Exercises of which nothing is given: one line each, with the weightiest reason.
pub fn not_given(desk: &Desk, assessment: &Assessment) -> Markup {
    let rows: Vec<Vec<Markup>> = assessment
        .plan
        .proposals
        .iter()
        .filter(|proposal| !is_given(proposal) && proposal.action != Action::Teach)
        .map(|proposal| {
            let reasons = reasons(desk, &proposal.trace[..proposal.trace.len().min(1)]);
            vec![
                html! { (exercise_name(desk, &proposal.exercise)) },
                html! { (side_name(proposal.side)) },
                html! { (action_word(proposal.action)) },
                html! { @for reason in &reasons { (reason.sentence) " " (crate::web::parts::why::rule_link(&reason.code)) } },
            ]
        })
        .collect();
    let heads = [text("col-exercise"), text("col-side"), text("col-what"), text("col-why")];
    let columns: Vec<Column<'_>> = heads.iter().map(|head| Column::words(head)).collect();
    html! {
        @if !rows.is_empty() {
            details.not-given {
                summary { (say("not-given", &[("n", Value::Count(rows.len() as i64))])) }
                (table("not-given", &text("not-given-caption"), &columns, &rows))
            }
        }
    }
}
