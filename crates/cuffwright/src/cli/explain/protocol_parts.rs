//! What stands in the protocol: exercises, rungs, faults, parameters, references.

use std::collections::BTreeSet;

use app::wire::answer::tempo_word;
use trade::protocol::parameter::ParameterSpec;
use trade::protocol::{Evidence, Exercise, Load, Protocol, Rung, Tag};
use trade::rule::catalogue;

use super::entry::Entry;
use super::level_words;
use crate::cli::protocol::citation;
use crate::cli::words::{say, word};

/// A form fault by its code.
pub(super) fn fault(protocol: &Protocol, code: &str) -> Option<Entry> {
    let fault = protocol.faults.iter().find(|fault| fault.code.as_str().eq_ignore_ascii_case(code))?;
    let exercises: Vec<&str> = protocol
        .exercises
        .iter()
        .filter(|exercise| exercise.faults.contains(&fault.code))
        .map(|exercise| exercise.id.as_str())
        .collect();
    Some(
        Entry::new("fault", fault.code.as_str(), &fault.name)
            .part("seen", fault.seen_as.as_str())
            .part("cue", format!("“{}”", fault.cue))
            .part("exercises", exercises.join(", "))
            .part("then", word("cli-fault-then"))
            .part("ground", Evidence::CommonPractice.mark())
            .numbers(protocol, &["cue_grace"]),
    )
}

/// An exercise by its name.
pub(super) fn exercise(protocol: &Protocol, code: &str) -> Option<Entry> {
    let exercise = named(protocol, code)?;
    let faults: Vec<&str> = exercise.faults.iter().map(|fault| fault.as_str()).collect();
    let rungs: Vec<String> =
        exercise.ladder.iter().map(|rung| format!("{} ({})", rung.id, rung.name)).collect();
    let on_track = if exercise.hypermobile.left_out {
        Some(word("cli-left-out-on-track"))
    } else {
        exercise.hypermobile.note.clone()
    };
    Some(
        Entry::new("exercise", exercise.id.as_str(), &exercise.name)
            .part("purpose", exercise.purpose.as_str())
            .part("kit", exercise.kit.as_str())
            .part("set-up", exercise.set_up.as_str())
            .part("movement", exercise.movement.as_str())
            .part("errors", exercise.errors.as_str())
            .part("faults", faults.join(", "))
            .part("cautions", exercise.cautions.join(" "))
            .part("loads", exercise.loads.word())
            .part("tempo", tempo_word(exercise.tempo))
            .part("cap", app::text::seconds(exercise.cap(&protocol.parameters)))
            .part("ladder", rungs.join("; "))
            .part_if("plain-dose", exercise.plain_dose.clone())
            .part_if("hypermobile", on_track)
            .part("tags", tag_words(&exercise.tags))
            .known(protocol, &exercise.evidence),
    )
}

/// A rung by exercise and name, for instance `RC-1/b16`.
pub(super) fn rung(protocol: &Protocol, code: &str) -> Option<Entry> {
    let (of, name) = code.split_once('/')?;
    let exercise = named(protocol, of)?;
    let place = exercise.ladder.iter().position(|rung| rung.id.as_str().eq_ignore_ascii_case(name))?;
    let rung = &exercise.ladder[place];
    let next = exercise.ladder.get(place + 1);
    let before = place.checked_sub(1).and_then(|place| exercise.ladder.get(place));
    let neighbour = |rung: Option<&Rung>| rung.map(|rung| format!("{} ({})", rung.id, rung.name));
    let tags: BTreeSet<Tag> = exercise.tags.union(&rung.tags).copied().collect();
    Some(
        Entry::new("rung", &format!("{}/{}", exercise.id, rung.id), &rung.name)
            .part("exercise", format!("{} ({})", exercise.id, exercise.name))
            .part("level", level_words(place + 1, exercise.ladder.len()))
            .part("resists", load_words(rung))
            .part("tempo", tempo_word(rung.tempo.unwrap_or(exercise.tempo)))
            .part("tags", tag_words(&tags))
            .part_if("from-age", rung.from_age.map(|age| say("cli-from-age", &[("age", age.to_string())])))
            .part_if("before", neighbour(before))
            .part_if("next", neighbour(next))
            .part("ground", Evidence::CommonPractice.mark()),
    )
}

/// A parameter by its key in the file or by the field that rules name.
pub(super) fn parameter(protocol: &Protocol, code: &str) -> Option<Entry> {
    let code = code.to_lowercase();
    let listed = protocol.parameters.listed_of(&code)?;
    let fixed = ParameterSpec::of(listed.key).and_then(|spec| spec.fixed);
    let readers: Vec<&str> = catalogue::all()
        .filter(|rule| rule.parameters.iter().any(|name| *name == listed.key || *name == listed.field))
        .map(|rule| rule.code.0)
        .collect();
    Some(
        Entry::new("parameter", listed.key, listed.label)
            .part("value", listed.value.as_str())
            .part("allowed", listed.allowed.as_str())
            .part_if("fixed", fixed.map(word))
            .part("rules", readers.join(", "))
            .part("ground", listed.evidence.mark())
            .part_if("source", citation(protocol, &listed.evidence)),
    )
}

/// A reference by its key.
pub(super) fn source(protocol: &Protocol, code: &str) -> Option<Entry> {
    let source = protocol.sources.iter().find(|source| source.key.as_str().eq_ignore_ascii_case(code))?;
    Some(Entry::new("source", source.key.as_str(), &source.citation).part("seen-of-it", source.seen.as_str()))
}

fn named<'p>(protocol: &'p Protocol, code: &str) -> Option<&'p Exercise> {
    protocol.exercises.iter().find(|exercise| exercise.id.as_str().eq_ignore_ascii_case(code))
}

fn load_words(rung: &Rung) -> String {
    use app::facts::Units::{Imperial, Metric};
    use app::text::{force, mass};
    let both = |metric: String, imperial: String| format!("{metric} ({imperial})");
    let words = match rung.load {
        Load::Unloaded => word("cli-load-unloaded"),
        Load::Position => word("cli-load-position"),
        Load::Band(pull) => {
            say("cli-load-band", &[("force", both(force(pull, Metric), force(pull, Imperial)))])
        }
        Load::Weight(weight) => {
            say("cli-load-weight", &[("mass", both(mass(weight, Metric), mass(weight, Imperial)))])
        }
    };
    if rung.not_heavier { format!("{words} {}", word("cli-not-heavier")) } else { words }
}

fn tag_words(tags: &BTreeSet<Tag>) -> String {
    let words: Vec<String> = tags.iter().map(|tag| word(&format!("tag-{}", tag.word()))).collect();
    words.join(", ")
}
