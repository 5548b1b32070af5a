//! One swimmer's answer in lines for a terminal. `propose`, `gate` and `dose` print the same parts.

use app::desk::{Desk, Person};
use app::wire::answer::{Answer, DoseWord, DueWord, ProposalWord, Reason, Wording};
use jiff::civil::Date;
use serde::Serialize;

use super::page::Page;
use super::words::{say, word};

/// Which swimmer, and what of the record a person still has to settle.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Who {
    /// Random id.
    pub(crate) id: String,
    /// Name.
    pub(crate) name: String,
    /// Squad.
    pub(crate) squad: String,
    /// Facts that cannot be read; they count for nothing until somebody mends them.
    pub(crate) unreadable: usize,
    /// Facts that contradict each other; the more cautious one is used.
    pub(crate) contested: usize,
}

impl Who {
    /// As on record.
    pub(crate) fn of(person: &Person) -> Self {
        Self {
            id: person.subject.to_string(),
            name: person.read.swimmer.name.clone(),
            squad: person.read.swimmer.squad.clone(),
            unreadable: person.read.unreadable.len(),
            contested: person.contested,
        }
    }

    /// The name as a heading, and what is to be settled under it.
    pub(crate) fn print(&self, page: &mut Page) {
        page.heading(&match self.squad.as_str() {
            "" => self.name.clone(),
            squad => format!("{} ({squad})", self.name),
        });
        for (says, number) in [("cli-unreadable", self.unreadable), ("cli-contested", self.contested)] {
            if number > 0 {
                page.paragraph("  ! ", &say(says, &[("number", number.to_string())]));
            }
        }
    }
}

/// Everything the rules say of one swimmer on one day.
pub(crate) fn answer_for(desk: &Desk, person: &Person, on: Date) -> Answer {
    let assessment = desk.assess(person, on);
    wording(desk).answer(&person.read.history, &assessment.gate, &assessment.due, &assessment.plan)
}

/// The words of this desk.
pub(crate) fn wording(desk: &Desk) -> Wording<'_> {
    Wording { texts: desk.texts(), reader: desk.reader() }
}

/// Availability of person and shoulders, in one line.
pub(crate) fn availability(page: &mut Page, answer: &Answer) {
    let values = [
        ("left", shown(answer.availability.left)),
        ("right", shown(answer.availability.right)),
        ("person", shown(answer.availability.person)),
    ];
    page.paragraph("  ", &say("cli-availability", &values));
}

/// An availability for people.
pub(crate) fn shown(availability: &str) -> String {
    word(&format!("availability-{availability}"))
}

/// What holds back, what is stopped, what limits, what to ask.
pub(crate) fn gate(page: &mut Page, answer: &Answer) {
    availability(page, answer);
    if let Some(words) = &answer.urgency_words {
        page.paragraph("  ! ", words);
    }
    if !answer.questions_answered {
        page.paragraph("  ! ", &word("cli-questions-open"));
    }
    if answer.stop_today.session {
        page.paragraph("  ! ", &word("cli-stop-session"));
    } else if answer.stop_today.all_shoulder {
        page.paragraph("  ! ", &word("cli-stop-shoulder"));
    } else if !answer.stop_today.exercises.is_empty() {
        let exercises = answer.stop_today.exercises.join(", ");
        page.paragraph("  ! ", &say("cli-stop-exercises", &[("exercises", exercises)]));
    }
    if answer.holds.is_empty() && answer.limits.is_empty() {
        page.line(&format!("  {}", word("cli-nothing-holds")));
    }
    for hold in &answer.holds {
        let side = match hold.side {
            Some(side) => word(&format!("side-{side}")),
            None => word("cli-whole-person"),
        };
        let mut words = say(
            "cli-hold",
            &[
                ("side", side),
                ("availability", shown(hold.availability)),
                ("words", hold.reason.words.clone()),
                ("ends", word(&format!("ends-by-{}", hold.ends_by))),
            ],
        );
        if let Some(review) = &hold.review {
            words.push(' ');
            words.push_str(&say("cli-look-again", &[("day", review.clone())]));
        }
        coded(page, &hold.reason.code, &words);
    }
    for limit in &answer.limits {
        let side =
            limit.side.map_or_else(|| word("cli-both-shoulders"), |side| word(&format!("side-{side}")));
        let mut locked: Vec<String> =
            limit.locked_tags.iter().map(|tag| word(&format!("tag-{tag}"))).collect();
        locked.extend(limit.locked_exercises.iter().cloned());
        let values = [
            ("side", side),
            ("clinician", limit.clinician.clone()),
            ("until", limit.until.clone()),
            ("locked", if locked.is_empty() { word("cli-nothing") } else { locked.join(", ") }),
            ("sets", limit.sets.map_or_else(|| word("cli-no-limit"), |sets| sets.to_string())),
            ("cap", limit.cap_s.map_or_else(|| word("cli-no-limit"), |cap| format!("{cap} s"))),
        ];
        coded(page, "G12", &say("cli-limit", &values));
    }
    for track in &answer.tracks {
        if let Some(reason) = &track.reason {
            coded(page, &reason.code, &reason.words);
        }
    }
    if let Some(day) = &answer.no_up_before {
        page.paragraph("  ", &say("cli-no-up-before", &[("day", day.clone())]));
    }
    for reason in answer.proposed_ends.iter().chain(&answer.notes) {
        coded(page, &reason.code, &reason.words);
    }
}

/// A sentence behind its rule code.
pub(crate) fn coded(page: &mut Page, code: &str, words: &str) {
    page.paragraph(&format!("  {code:<4} "), words);
}

/// One line of the due list: by when, who, code, what.
pub(crate) fn due_row(due: &DueWord, on: &str) -> Vec<String> {
    let late = if due.by.as_str() < on { word("cli-overdue") } else { String::new() };
    vec![due.by.clone(), late, due.owner.to_owned(), due.reason.code.clone(), due.reason.words.clone()]
}

/// The next session: what is given with its reasons, then in short what is still taught and what is not given.
pub(crate) fn proposals(page: &mut Page, proposals: &[ProposalWord]) {
    let is_told = |proposal: &&ProposalWord| standing_of(proposal) == Standing::Told;
    for proposal in proposals.iter().filter(is_told) {
        proposal_block(page, proposal);
    }
    for (standing, title) in [(Standing::Taught, "cli-taught"), (Standing::NotGiven, "cli-not-given")] {
        let rest: Vec<&ProposalWord> =
            proposals.iter().filter(|proposal| standing_of(proposal) == standing).collect();
        if !rest.is_empty() {
            page.gap();
            page.line(&format!("  {}", word(title)));
            in_short(page, &rest);
        }
    }
}

/// How much room a line needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Standing {
    /// Given, or to be decided by a person: told in full.
    Told,
    /// Taught, untimed.
    Taught,
    /// Not given.
    NotGiven,
}

/// How much room a line needs.
pub(crate) fn standing_of(proposal: &ProposalWord) -> Standing {
    match proposal.action {
        "teach" => Standing::Taught,
        "ask" => Standing::Told,
        _ if proposal.dose.is_some() => Standing::Told,
        _ => Standing::NotGiven,
    }
}

/// Exercise, side and rung of a line.
pub(crate) fn line_words(proposal: &ProposalWord) -> String {
    let line = format!("{} {}", proposal.exercise, word(&format!("side-{}", proposal.side)));
    match proposal.dose.as_ref().and_then(|dose| dose.rung.as_ref()) {
        Some(rung) => format!("{line} ({})", rung.rung),
        None => line,
    }
}

/// The same reason for many lines is said once.
fn in_short(page: &mut Page, proposals: &[&ProposalWord]) {
    let mut said: Vec<(String, &Reason, Vec<String>)> = Vec::new();
    for proposal in proposals {
        let Some(reason) = proposal.reasons.first() else { continue };
        let action = word(&format!("action-{}", proposal.action));
        let line = line_words(proposal);
        match said.iter_mut().find(|(known, first, _)| *known == action && *first == reason) {
            Some((_, _, lines)) => lines.push(line),
            None => said.push((action, reason, vec![line])),
        }
    }
    for (action, reason, lines) in said {
        coded(page, &reason.code, &format!("{action}: {}", reason.words));
        page.paragraph("       ", &lines.join(", "));
    }
}

/// One proposal with every reason.
pub(crate) fn proposal_block(page: &mut Page, proposal: &ProposalWord) {
    let side = word(&format!("side-{}", proposal.side));
    let action = word(&format!("action-{}", proposal.action));
    let dose = proposal.dose.as_ref().map_or_else(|| word("cli-nothing-given"), dose_words);
    page.gap();
    page.paragraph(&format!("  {:<5}{side:<10}", proposal.exercise), &format!("{action}: {dose}"));
    if proposal.qualifying_have > 0 {
        let values =
            [("have", proposal.qualifying_have.to_string()), ("need", proposal.qualifying_need.to_string())];
        page.paragraph("       ", &say("cli-qualifying", &values));
    }
    for reason in &proposal.reasons {
        page.paragraph(&format!("       {:<4} ", reason.code), &reason.words);
    }
    if let Some(cue) = &proposal.cue {
        page.paragraph("       ", &say("cli-cue", &[("cue", cue.clone())]));
    }
    if !proposal.confirm_alone.is_empty() {
        let why: Vec<String> =
            proposal.confirm_alone.iter().map(|reason| format!("{} {}", reason.code, reason.words)).collect();
        page.paragraph("       ", &say("cli-confirm-alone", &[("why", why.join(" "))]));
    }
}

/// A dose in one line.
pub(crate) fn dose_words(dose: &DoseWord) -> String {
    let values = [
        ("sets", dose.sets.to_string()),
        ("cap", format!("{} s", dose.cap_s)),
        ("rest", format!("{} s", dose.rest_s)),
        ("tempo", dose.tempo.clone()),
    ];
    let words = say(if dose.timed { "cli-dose-timed" } else { "cli-dose-plain" }, &values);
    match &dose.rung {
        Some(rung) => {
            say("cli-dose-rung", &[("name", rung.name.clone()), ("rung", rung.rung.clone()), ("dose", words)])
        }
        None => words,
    }
}
