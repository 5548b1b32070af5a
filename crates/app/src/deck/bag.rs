//! The deck bag: everything one device needs to run one session without a network.
//!
//! The rules are asked beforehand, once for every kind of answer that a swimmer can give to the question before the
//! session, so that a device without a network gives the same doses as the desk would. A device never judges by itself;
//! it only finds the answer that was given among those that were judged.

use std::collections::{BTreeMap, BTreeSet};

use door::role::Role;
use jiff::civil::Date;
use quantity::Pain;
use trade::dosing::{Action, Proposal, plan};
use trade::gate::gate;
use trade::history::{PainKind, PainReport, PainWhen, Sign, Urgency};
use trade::name::{ExerciseId, RungId};
use trade::protocol::{Arms, Exercise, Loads, Tag, Tempo};
use trade::side::WorkingSide;

use super::budget::{CHANGE_OVER_S, SIDE_CHANGE_S};
use super::prior::prior;
pub use super::shape::*;
use crate::desk::{Desk, Person};
use crate::facts::{DeckSessionFact, KitWord};
use crate::review::waiting_for;
use crate::roles::called;
use crate::roles::lines::may_read;
use crate::text::Reader;

/// Shape of the bag.
pub const SHAPE: &str = "cuffwright.bag/1";
/// Seconds between "go" and the first beat: common practice.
const LEAD_S: f64 = 5.0;
/// Largest group with two adults on deck: common practice, trade handbook A12.
const TWO_ADULTS: u8 = 20;
/// Pain from which everybody's shoulders stop, and from which only a clinician ends it (trade handbook E.3, fixed).
const EVENT_FROM: u8 = 3;
const REFER_FROM: u8 = 5;
/// Age below which a session needs more supervisors.
const YOUNG_BELOW: i16 = 13;

/// An answer to the question before the session, as the rules tell answers apart.
struct Answer {
    word: &'static str,
    left: u8,
    right: u8,
    kind: PainKind,
}

const fn answer(word: &'static str, left: u8, right: u8, kind: PainKind) -> Answer {
    Answer { word, left, right, kind }
}

/// One of each: nothing, an ache, one side, both sides, out of shoulder work, over for today.
fn answers(out_from: u8) -> [Answer; 7] {
    let mild = out_from.saturating_sub(1).max(1);
    [
        answer("clear", 0, 0, PainKind::Unstated),
        answer("ache", mild, mild, PainKind::Ache),
        answer("left", mild, 0, PainKind::JointOrOneSided),
        answer("right", 0, mild, PainKind::JointOrOneSided),
        answer("both", mild, mild, PainKind::JointOrOneSided),
        answer("out", EVENT_FROM.max(out_from), EVENT_FROM.max(out_from), PainKind::JointOrOneSided),
        answer("stop", REFER_FROM, REFER_FROM, PainKind::JointOrOneSided),
    ]
}

impl Desk {
    /// Packs the bag of a session for one device.
    pub fn deck_bag(&self, session: &DeckSessionFact, device: &str, stamp: (&str, u64)) -> Bag {
        let parameters = &self.protocol().parameters;
        let exercises: Vec<Run> = session
            .exercises
            .iter()
            .filter_map(|planned| {
                let exercise = self.protocol().exercise(&ExerciseId::new(&planned.exercise))?;
                Some(self.run(exercise, planned.cap_s, planned.sets))
            })
            .collect();
        let ids: BTreeSet<String> = exercises.iter().map(|run| run.id.clone()).collect();
        let mut people: Vec<&Person> = self
            .squad_on(session.date)
            .filter(|person| session.squads.is_empty() || session.squads.contains(&person.read.swimmer.squad))
            .collect();
        people.sort_by(|one, other| called(one).cmp(&called(other)).then(one.subject.cmp(&other.subject)));
        let about = self.club().about.as_ref();
        Bag {
            shape: SHAPE,
            device: device.to_owned(),
            session: Session {
                id: session.session.clone(),
                date: session.date.to_string(),
                number: session.number,
                context: session.context,
                title: crate::text::day(session.date),
                pattern: session.pattern,
                minutes: session.minutes,
                by: session.by.clone(),
            },
            made_at: stamp.0.to_owned(),
            made_ms: stamp.1,
            may_decide: false,
            club: about.map(|club| club.name.clone()).unwrap_or_default(),
            practitioner: Named {
                name: about.map(|club| club.practitioner.clone()).unwrap_or_default(),
                phone: about.map(|club| club.practitioner_phone.clone()).unwrap_or_default(),
            },
            place: self.deck_place(),
            timing: Timing {
                rest_s: parameters.rest.seconds(),
                side_s: SIDE_CHANGE_S,
                change_s: CHANGE_OVER_S,
                lead_s: LEAD_S,
                cue_grace_s: parameters.cue_grace.seconds(),
            },
            pain: PainRule {
                out_from: parameters.pain_pre_out.get(),
                stop_exercise_from: parameters.pain_during_stop_joint.get(),
                event_from: EVENT_FROM,
                refer_from: REFER_FROM,
            },
            ratio: Ratio {
                under_13: parameters.supervise_ratio[0],
                from_13: parameters.supervise_ratio[1],
                two_adults: TWO_ADULTS,
            },
            swimmers: people.into_iter().map(|person| self.packed(person, session.date, &ids)).collect(),
            exercises,
            kit: self.packed_kit(session.date),
            signs: Sign::ALL
                .iter()
                .filter(|sign| sign.urgency() == Urgency::Emergency)
                .map(|sign| SignWord {
                    sign: sign.word(),
                    words: self.texts().word(&format!("sign-{}", sign.word())),
                })
                .collect(),
            words: console_words(self.texts()),
        }
    }

    fn run(&self, exercise: &Exercise, cap_s: f64, sets: u8) -> Run {
        let faults = exercise.faults.iter().filter_map(|code| self.protocol().fault(code));
        Run {
            id: exercise.id.to_string(),
            name: exercise.name.clone(),
            arms: match exercise.arms {
                Arms::One => "one",
                Arms::Both => "both",
                Arms::Midline => "midline",
            },
            loads_shoulder: exercise.loads != Loads::NoShoulder,
            uses_band: exercise.tags.contains(&Tag::Band),
            tempo: tempo(exercise.tempo),
            cap_s: cap_s.min(exercise.cap(&self.protocol().parameters).seconds()),
            sets,
            movement: exercise.movement.clone(),
            set_up: exercise.set_up.clone(),
            cautions: exercise.cautions.clone(),
            faults: faults
                .map(|fault| FaultWord {
                    code: fault.code.to_string(),
                    name: fault.name.clone(),
                    cue: fault.cue.clone(),
                })
                .collect(),
            figure: String::new(),
        }
    }

    /// One swimmer, judged beforehand for every answer that can be given.
    fn packed(&self, person: &Person, on: Date, exercises: &BTreeSet<String>) -> Swimmer {
        let swimmer = &person.read.swimmer;
        let asked_today = self.assess(person, on).gate.questions_answered;
        let mut lines = BTreeMap::new();
        let mut why_not = String::new();
        for answer in answers(self.protocol().parameters.pain_pre_out.get()) {
            let (allowed, why) = self.lines_after(person, on, &answer, exercises);
            if answer.word == "clear" && allowed.is_empty() {
                why_not = why;
            }
            lines.insert(answer.word, allowed);
        }
        let first = exercises.iter().map(|exercise| (exercise.clone(), weaker(person, exercise))).collect();
        let note = swimmer.emergency_note.clone().unwrap_or_default();
        Swimmer {
            id: person.subject.to_string(),
            name: called(person),
            full_name: swimmer.name.clone(),
            under_13: person.read.history.swimmer.age_on(on) < YOUNG_BELOW,
            teaching: lines
                .get("clear")
                .is_some_and(|lines: &Vec<LineWord>| lines.iter().any(|line| !line.timed)),
            latex: if note.to_lowercase().contains("latex") { "yes" } else { "" },
            emergency: note,
            contacts: swimmer.contacts.clone(),
            asked_today,
            lines,
            why_not,
            first,
        }
    }

    /// What may be done after an answer, and why nothing may.
    fn lines_after(
        &self,
        person: &Person,
        on: Date,
        answer: &Answer,
        exercises: &BTreeSet<String>,
    ) -> (Vec<LineWord>, String) {
        let mut history = person.read.history.clone();
        let number = |value: u8| Pain::new(i64::from(value)).ok();
        history.pains.push(PainReport {
            date: on,
            when: PainWhen::Before,
            left: number(answer.left),
            right: number(answer.right),
            kind: answer.kind,
            signs: BTreeSet::new(),
            sign_side: None,
        });
        let history = history.in_order();
        let gate = gate(self.protocol(), &history, on);
        let plan = plan(self.protocol(), &history, &gate);
        let waiting = waiting_for(person, &plan);
        let is_over = gate.stop_today.session;
        let lines: Vec<LineWord> = plan
            .proposals
            .iter()
            .filter(|proposal| !is_over && exercises.contains(proposal.exercise.as_str()))
            .filter_map(|proposal| {
                let waits = waiting.iter().any(|one| one.proposal == *proposal);
                self.line(&history, proposal, waits)
            })
            .collect();
        // A bag may be read by whoever runs the session: a reason that is health is not in it.
        let reasons = gate.holds.iter().map(|hold| &hold.line).chain(
            plan.proposals
                .iter()
                .filter(|proposal| exercises.contains(proposal.exercise.as_str()))
                .flat_map(|proposal| &proposal.trace),
        );
        let why = reasons
            .filter(|line| may_read(Role::Supervisor, line.class))
            .map(|line| self.texts().line(line, self.reader()))
            .next();
        (lines, why.unwrap_or_else(|| self.texts().word("deck-not-today")))
    }

    fn line(&self, history: &trade::history::History, proposal: &Proposal, waits: bool) -> Option<LineWord> {
        let dose = proposal.dose.as_ref()?;
        let exercise = self.protocol().exercise(&proposal.exercise)?;
        // A step up that nobody has confirmed is not taken on deck.
        let is_unconfirmed_step = waits && matches!(proposal.action, Action::Up | Action::Switch);
        let rung: RungId = match (&proposal.from, &dose.rung) {
            (Some(from), _) if is_unconfirmed_step => from.clone(),
            (_, Some(rung)) => rung.clone(),
            _ => return None,
        };
        let place = exercise.place_of(&rung)?;
        let here = exercise.rung(&rung)?;
        Some(LineWord {
            exercise: exercise.id.to_string(),
            side: side_word(proposal.side),
            planned: rung.to_string(),
            rung_name: self.reader().rung_name(here),
            sets: dose.sets,
            cap_s: dose.cap.seconds(),
            timed: dose.timed,
            tempo: tempo(if is_unconfirmed_step { here.tempo.unwrap_or(exercise.tempo) } else { dose.tempo }),
            prior: prior(history, &exercise.id, proposal.side, &rung),
            easier: easier(exercise, place, self.reader()),
        })
    }

    fn packed_kit(&self, on: Date) -> Vec<KitPiece> {
        let weeks = i32::from(self.protocol().parameters.kit_inspection_weeks);
        let pieces = self.club().kit.iter().filter(|piece| {
            piece.withdrawn.is_none() && matches!(piece.kind, KitWord::Band | KitWord::Anchor)
        });
        pieces
            .map(|piece| {
                let looked = self.club().inspections.iter().rev().find(|look| look.mark == piece.mark);
                let last = looked.map(|look| look.date);
                let is_old = last.is_none_or(|last| weeks * 7 < trade::history::days_between(last, on));
                KitPiece {
                    mark: piece.mark.clone(),
                    what: if piece.kind == KitWord::Band { "band" } else { "anchor" },
                    pieces: piece.pieces,
                    latex: match piece.latex {
                        Some(true) => "yes",
                        Some(false) => "",
                        None => "unknown",
                    },
                    inspected: last.map(|last| last.to_string()).unwrap_or_default(),
                    due: is_old || looked.is_some_and(|look| !look.sound),
                }
            })
            .collect()
    }
}

fn easier(exercise: &Exercise, place: usize, reader: Reader<'_>) -> Vec<Easier> {
    let below = exercise.ladder[..place].iter().rev().filter(|rung| !rung.not_heavier).take(2);
    below.map(|rung| Easier { rung: rung.id.to_string(), name: reader.rung_name(rung) }).collect()
}

/// The arm that goes first: the weaker by the last session, the left where nothing tells them apart.
fn weaker(person: &Person, exercise: &str) -> &'static str {
    let last = person.read.history.sessions.iter().rev().find_map(|session| {
        let total = |side| {
            session
                .blocks
                .iter()
                .find(|block| block.exercise.as_str() == exercise && block.side == side)
                .map(|block| block.total().seconds())
        };
        Some((total(WorkingSide::Left)?, total(WorkingSide::Right)?))
    });
    match last {
        Some((left, right)) if right < left => "right",
        _ => "left",
    }
}

fn tempo(tempo: Tempo) -> TempoWord {
    match tempo {
        Tempo::Beat { out, hold, back } => TempoWord::Beat { out, hold, back },
        Tempo::Hold => TempoWord::Hold,
        Tempo::Circles { reverse_every } => TempoWord::Circles { every_s: reverse_every.seconds() },
    }
}

const fn side_word(side: WorkingSide) -> &'static str {
    match side {
        WorkingSide::Left => "left",
        WorkingSide::Right => "right",
        WorkingSide::Both => "both",
        WorkingSide::Midline => "midline",
    }
}

/// The console's own sentences; values stand in braces and are put in on the device.
fn console_words(texts: &crate::text::Texts) -> BTreeMap<String, String> {
    const NAMES: [&str; 12] =
        ["name", "n", "of", "time", "need", "have", "what", "side", "set", "s", "who", "date"];
    let values: Vec<(&str, String)> = NAMES.iter().map(|name| (*name, format!("{{{name}}}"))).collect();
    let said = include_str!("../../text/en/deck.ftl").lines().filter_map(|line| line.split_once(" = "));
    said.filter_map(|(id, _)| {
        let short = id.strip_prefix("deckui-")?;
        Some((short.to_owned(), texts.say(id, &values)))
    })
    .collect()
}
