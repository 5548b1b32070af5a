//! What the tool says of one swimmer on one day, for other programs: the output of `cuffwright propose`.

use serde::Serialize;
use sha2::{Digest, Sha256};
use trade::dosing::own::week_back;
use trade::dosing::{Action, Dose, Plan, Proposal};
use trade::due::Due;
use trade::gate::{Availability, EndsBy, Gate, Hold};
use trade::history::{History, Urgency};
use trade::name::RungId;
use trade::protocol::{Exercise, Tempo};
use trade::rule::catalogue;
use trade::side::Side;
use trade::trace::Line;

use crate::text::{Reader, Texts};

/// Name and version of the output shape.
pub const SHAPE: &str = "cuffwright.answer/1";

/// Version of the engine that decided.
pub const ENGINE: &str = env!("CARGO_PKG_VERSION");

/// The whole answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// [`SHAPE`].
    pub shape: &'static str,
    /// Version of the engine.
    pub engine: &'static str,
    /// Protocol in force.
    pub protocol: ProtocolName,
    /// Digest of the record as it was read.
    pub inputs: String,
    /// The day the doses are for.
    pub on: String,
    /// Completed years on that day.
    pub age: i16,
    /// Tracks that make the dose more careful.
    pub tracks: Vec<TrackWord>,
    /// Availability of the person, and of each shoulder with the person's holds included.
    pub availability: AvailabilityWords,
    /// Today's three questions are answered; without them nobody starts.
    pub questions_answered: bool,
    /// How soon somebody licensed must look, by the most urgent hold.
    pub urgency: Option<&'static str>,
    /// What to do for that urgency.
    pub urgency_words: Option<String>,
    /// Everything that holds back, worst first.
    pub holds: Vec<HoldWord>,
    /// What is stopped on the day itself.
    pub stop_today: StopWord,
    /// Rules that propose the end of "out today"; a person confirms.
    pub proposed_ends: Vec<Reason>,
    /// No step up before this day.
    pub no_up_before: Option<String>,
    /// Signed limits in force.
    pub limits: Vec<LimitWord>,
    /// What to ask and whom to tell; changes no availability.
    pub notes: Vec<Reason>,
    /// What must be closed by a recorded fact.
    pub due: Vec<DueWord>,
    /// What to do next session, line by line.
    pub proposals: Vec<ProposalWord>,
}

/// A protocol by name, revision and hash.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub struct ProtocolName {
    pub name: String,
    pub revision: String,
    pub hash: String,
}

/// One reason: rule, sentence, strength of evidence, source.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reason {
    /// Rule code.
    pub code: String,
    /// The sentence.
    pub words: String,
    /// Strength of evidence behind the rule.
    pub ground: &'static str,
    /// Where the rule comes from.
    pub source: &'static str,
}

/// A track.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrackWord {
    /// `youth`, `hypermobile`, `growth`, `return`, `newcomer`.
    pub track: &'static str,
    /// Week of the track, where it counts weeks.
    pub week: Option<u16>,
    /// Why.
    pub reason: Option<Reason>,
}

/// Availability words: `full`, `limited`, `not-yet`, `out-today`, `out-referred`.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub struct AvailabilityWords {
    pub person: &'static str,
    pub left: &'static str,
    pub right: &'static str,
}

/// One hold.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoldWord {
    /// Shoulder; null for the whole person.
    pub side: Option<&'static str>,
    /// How far it holds back.
    pub availability: &'static str,
    /// `record`, `date`, `practitioner`, `clinician`.
    pub ends_by: &'static str,
    /// How soon somebody licensed must look.
    pub urgency: Option<&'static str>,
    /// Since when.
    pub since: String,
    /// When to look again.
    pub review: Option<String>,
    /// Why.
    #[serde(flatten)]
    pub reason: Reason,
}

/// What is stopped on the day itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub struct StopWord {
    pub session: bool,
    pub all_shoulder: bool,
    pub exercises: Vec<String>,
}

/// A limit in force.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field is named after what it carries")]
pub struct LimitWord {
    pub side: Option<&'static str>,
    pub until: String,
    pub clinician: String,
    pub locked_tags: Vec<&'static str>,
    pub locked_exercises: Vec<String>,
    pub sets: Option<u8>,
    pub cap_s: Option<f64>,
}

/// One thing to close.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DueWord {
    /// What kind of fact closes it.
    pub kind: &'static str,
    /// By when.
    pub by: String,
    /// Who has to close it.
    pub owner: &'static str,
    /// Shoulder, where it is one.
    pub side: Option<&'static str>,
    /// Why.
    #[serde(flatten)]
    pub reason: Reason,
}

/// A rung by name, level and what a person calls it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RungWord {
    /// Stable name.
    pub rung: String,
    /// Level counted from one; null for a rung the protocol does not have.
    pub level: Option<usize>,
    /// What a person calls it.
    pub name: String,
}

/// What to do next session.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DoseWord {
    /// Rung; null for plain exercises.
    #[serde(flatten)]
    pub rung: Option<RungWord>,
    /// Sets.
    pub sets: u8,
    /// Longest a set may last, seconds.
    pub cap_s: f64,
    /// Rest between sets, seconds.
    pub rest_s: f64,
    /// Tempo: `2/0/2`, `hold`, or `circles, reversed every 15 s`.
    pub tempo: String,
    /// Timed to form loss.
    pub timed: bool,
}

/// One proposal.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ProposalWord {
    /// Exercise.
    pub exercise: String,
    /// `left`, `right`, `both`, `midline`.
    pub side: &'static str,
    /// What is proposed.
    pub action: &'static str,
    /// Rungs moved: 1 up, -1 down.
    pub rungs_moved: i64,
    /// Rung now.
    pub from: Option<RungWord>,
    /// What to do; null when nothing is given.
    pub dose: Option<DoseWord>,
    /// Qualifying sessions on record.
    pub qualifying_have: u8,
    /// Qualifying sessions needed.
    pub qualifying_need: u8,
    /// Rule codes, most important first.
    pub codes: Vec<String>,
    /// Why, most important first.
    pub reasons: Vec<Reason>,
    /// What to say, where a fault ended the last set.
    pub cue: Option<String>,
    /// Why it must be confirmed by itself; empty when it may be accepted with others.
    pub confirm_alone: Vec<Reason>,
}

/// Puts an answer into words.
pub struct Wording<'a> {
    /// Catalogue.
    pub texts: &'a Texts,
    /// Reader.
    pub reader: Reader<'a>,
}

/// A digest of the record as it was read: the same for the same facts, whatever their order.
pub fn digest_of(history: &History) -> String {
    hex(&Sha256::digest(format!("{history:?}").as_bytes()))
}

/// Lower-case hexadecimal.
pub fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Wording<'_> {
    /// The whole answer for one swimmer.
    pub fn answer(&self, history: &History, gate: &Gate, due: &[Due], plan: &Plan) -> Answer {
        let protocol = self.reader.protocol;
        let urgency = gate.holds.iter().filter_map(|hold| hold.urgency).max();
        Answer {
            shape: SHAPE,
            engine: ENGINE,
            protocol: ProtocolName {
                name: protocol.name.clone(),
                revision: protocol.revision.clone(),
                hash: protocol.hash.clone(),
            },
            inputs: digest_of(history),
            on: gate.on.to_string(),
            age: history.swimmer.age_on(gate.on),
            tracks: self.tracks(history, gate),
            availability: AvailabilityWords {
                person: gate.person().word(),
                left: gate.shoulder(Side::Left).word(),
                right: gate.shoulder(Side::Right).word(),
            },
            questions_answered: gate.questions_answered,
            urgency: urgency.map(urgency_word),
            urgency_words: urgency
                .map(|urgency| self.texts.word(&format!("urgency-{}-do", urgency_word(urgency)))),
            holds: gate.holds.iter().map(|hold| self.hold(hold)).collect(),
            stop_today: StopWord {
                session: gate.stop_today.session,
                all_shoulder: gate.stop_today.all_shoulder,
                exercises: gate.stop_today.exercises.iter().map(ToString::to_string).collect(),
            },
            proposed_ends: gate.proposed_ends.iter().map(|(_, line)| self.reason(line)).collect(),
            no_up_before: gate.no_up_before.as_ref().map(|(day, _)| day.to_string()),
            limits: gate
                .limits
                .iter()
                .map(|limit| LimitWord {
                    side: limit.side.map(Side::word),
                    until: limit.until.to_string(),
                    clinician: limit.clinician.name.clone(),
                    locked_tags: limit.locked_tags.iter().map(|tag| tag.word()).collect(),
                    locked_exercises: limit.locked_exercises.iter().map(ToString::to_string).collect(),
                    sets: limit.sets,
                    cap_s: limit.cap.map(|cap| cap.seconds()),
                })
                .collect(),
            notes: gate.notes.iter().map(|line| self.reason(line)).collect(),
            due: due.iter().map(|due| self.due(due)).collect(),
            proposals: plan.proposals.iter().map(|proposal| self.proposal(proposal)).collect(),
        }
    }

    /// One reason in words.
    pub fn reason(&self, line: &Line) -> Reason {
        let rule = catalogue::rule_of(line.rule);
        Reason {
            code: line.rule.to_string(),
            words: self.texts.line(line, self.reader),
            ground: rule.map_or("", |rule| rule.ground.word()),
            source: rule.map_or("", |rule| rule.source),
        }
    }

    fn tracks(&self, history: &History, gate: &Gate) -> Vec<TrackWord> {
        let tracks = &gate.tracks;
        let plain = |track, line: &Option<Line>| {
            line.as_ref().map(|line| TrackWord { track, week: None, reason: Some(self.reason(line)) })
        };
        let growth = tracks.growth.as_ref().map(|growth| TrackWord {
            track: "growth",
            week: Some(growth.week),
            reason: Some(self.reason(&growth.line)),
        });
        let reentry = tracks.reentry.as_ref().map(|reentry| TrackWord {
            track: "return",
            week: Some(week_back(history, reentry, gate.on)),
            reason: None,
        });
        [
            plain("youth", &tracks.youth),
            plain("hypermobile", &tracks.hypermobile),
            growth,
            reentry,
            plain("newcomer", &tracks.newcomer),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn hold(&self, hold: &Hold) -> HoldWord {
        HoldWord {
            side: hold.side.map(Side::word),
            availability: hold.availability.word(),
            ends_by: ends_by_word(hold.ends_by),
            urgency: hold.urgency.map(urgency_word),
            since: hold.since.to_string(),
            review: hold.review.map(|day| day.to_string()),
            reason: self.reason(&hold.line),
        }
    }

    fn due(&self, due: &Due) -> DueWord {
        DueWord {
            kind: due.kind.word(),
            by: due.by.to_string(),
            owner: owner_word(due.owner),
            side: due.side.map(Side::word),
            reason: self.reason(&due.line),
        }
    }

    /// One proposal in words.
    pub fn proposal(&self, proposal: &Proposal) -> ProposalWord {
        let exercise = self.reader.protocol.exercise(&proposal.exercise);
        let rung = |rung: &RungId| self.rung(exercise, rung);
        let mut codes: Vec<String> = proposal.trace.iter().map(|line| line.rule.to_string()).collect();
        dedup_in_order(&mut codes);
        ProposalWord {
            exercise: proposal.exercise.to_string(),
            side: proposal.side.word(),
            action: proposal.action.word(),
            rungs_moved: rungs_moved(exercise, proposal),
            from: proposal.from.as_ref().map(rung),
            dose: proposal.dose.as_ref().map(|dose| self.dose(exercise, dose)),
            qualifying_have: proposal.count.have,
            qualifying_need: proposal.count.need,
            codes,
            reasons: proposal.trace.iter().map(|line| self.reason(line)).collect(),
            cue: self.cue(proposal),
            confirm_alone: proposal.alone.iter().map(|line| self.reason(line)).collect(),
        }
    }

    fn cue(&self, proposal: &Proposal) -> Option<String> {
        proposal.trace.iter().flat_map(|line| &line.args).find_map(|(_, arg)| match arg {
            trade::trace::Arg::Fault(code) => self.reader.protocol.fault(code).map(|fault| fault.cue.clone()),
            _ => None,
        })
    }

    /// A rung by name, level and what a person calls it.
    pub fn rung(&self, exercise: Option<&Exercise>, rung: &RungId) -> RungWord {
        let found = exercise.and_then(|exercise| exercise.rung(rung));
        RungWord {
            rung: rung.to_string(),
            level: exercise.and_then(|exercise| exercise.place_of(rung)).map(|place| place + 1),
            name: found.map_or_else(|| rung.to_string(), |rung| self.reader.rung_name(rung)),
        }
    }

    fn dose(&self, exercise: Option<&Exercise>, dose: &Dose) -> DoseWord {
        DoseWord {
            rung: dose.rung.as_ref().map(|rung| self.rung(exercise, rung)),
            sets: dose.sets,
            cap_s: dose.cap.seconds(),
            rest_s: dose.rest.seconds(),
            tempo: tempo_word(dose.tempo),
            timed: dose.timed,
        }
    }
}

fn dedup_in_order(codes: &mut Vec<String>) {
    let mut seen = std::collections::BTreeSet::new();
    codes.retain(|code| seen.insert(code.clone()));
}

/// Places moved on the ladder from the rung now to the rung of the dose; zero where nothing moves.
pub fn rungs_moved(exercise: Option<&Exercise>, proposal: &Proposal) -> i64 {
    let place = |rung: Option<&RungId>| {
        rung.and_then(|rung| exercise?.place_of(rung)).and_then(|place| i64::try_from(place).ok())
    };
    let moves = matches!(
        proposal.action,
        Action::Up | Action::Down | Action::Switch | Action::Restart | Action::Hold | Action::Stay
    );
    match (place(proposal.from.as_ref()), place(proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()))) {
        (Some(from), Some(to)) if moves => to - from,
        _ => 0,
    }
}

/// Tempo in the trade's own notation.
pub fn tempo_word(tempo: Tempo) -> String {
    match tempo {
        Tempo::Beat { out, hold, back } => format!("{out}/{hold}/{back}"),
        Tempo::Hold => "hold".to_owned(),
        Tempo::Circles { reverse_every } => {
            format!("circles, reversed every {:.0} s", reverse_every.seconds())
        }
    }
}

/// The word of an urgency.
pub const fn urgency_word(urgency: Urgency) -> &'static str {
    match urgency {
        Urgency::Talk => "talk",
        Urgency::WithinAWeek => "within-a-week",
        Urgency::SameDay => "same-day",
        Urgency::Emergency => "emergency",
    }
}

const fn ends_by_word(ends_by: EndsBy) -> &'static str {
    match ends_by {
        EndsBy::Record => "record",
        EndsBy::Date => "date",
        EndsBy::Practitioner => "practitioner",
        EndsBy::Clinician => "clinician",
    }
}

const fn owner_word(owner: trade::due::Owner) -> &'static str {
    use trade::due::Owner;
    match owner {
        Owner::Practitioner => "practitioner",
        Owner::Clinician => "clinician",
        Owner::Supervisor => "supervisor",
        Owner::Administrator => "administrator",
    }
}

/// The word shown for an availability: out is out, whoever ends it.
pub const fn shown_word(availability: Availability) -> &'static str {
    match availability {
        Availability::Full => "full",
        Availability::Limited => "limited",
        Availability::NotYet => "not yet",
        Availability::OutToday | Availability::OutReferred => "out",
    }
}
