//! `cuffwright track`: the beat of a session as a sound file.

use std::path::PathBuf;

use app::deck::track::{Part, flac, samples, session, wav};
use serde::Serialize;
use trade::name::ExerciseId;
use trade::protocol::Arms;

use super::Context;
use super::answer::Answer;
use super::exit::Exit;
use super::failure::Failure;
use super::open;
use super::page::Page;
use super::words::say;

/// Makes the beat of a whole session as a sound file, for clubs that allow no phone on deck.
///
/// A low tone begins the way out, a high one the way back, a short tick counts a hold, a longer one says that circles
/// turn round. A change-over lasts as long as it is planned for. A file that is there already is never overwritten.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.track/1 with to, seconds, tones, bytes.")]
pub(super) struct Args {
    /// An exercise by its name in the protocol, with its longest set in seconds: RC-1:60. Repeat it, in order.
    #[arg(long = "exercise", value_name = "NAME[:SECONDS]", required = true)]
    exercises: Vec<String>,
    /// The protocol, instead of the one that is built in.
    #[arg(long, value_name = "FILE")]
    protocol: Option<PathBuf>,
    /// The file to make; its ending, .wav or .flac, says which kind.
    #[arg(value_name = "TO")]
    to: PathBuf,
}

#[derive(Serialize)]
struct Shape {
    shape: &'static str,
    to: String,
    seconds: f64,
    tones: usize,
    bytes: usize,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let protocol = open::protocol(args.protocol.as_deref())?;
    let mut parts = Vec::new();
    for named in &args.exercises {
        let (name, cap) =
            named.split_once(':').map_or((named.as_str(), None), |(name, cap)| (name, Some(cap)));
        let unknown = || Failure::new(Exit::Input, "cli-track-exercise", &[("exercise", named.clone())]);
        let exercise = protocol
            .exercise(&ExerciseId::new(&name.trim().to_uppercase()))
            .ok_or_else(|| unknown().hint("cli-track-exercise-hint"))?;
        let longest = exercise.cap(&protocol.parameters).seconds();
        let cap_s = match cap {
            None => longest,
            Some(text) => text
                .trim()
                .parse()
                .ok()
                .filter(|seconds| (5.0..=longest).contains(seconds))
                .ok_or_else(|| unknown().hint("cli-track-cap-hint"))?,
        };
        let is_one_arm = exercise.arms == Arms::One;
        parts.push(Part { tempo: exercise.tempo, is_one_arm, cap_s, sets: protocol.parameters.sets });
    }
    let (cues, seconds) = session(&parts, protocol.parameters.rest.seconds());
    let made = samples(&cues, seconds);
    let ending = args.to.extension().and_then(|ending| ending.to_str()).map(str::to_lowercase);
    let bytes = match ending.as_deref() {
        Some("wav") => wav(&made),
        Some("flac") => flac(&made),
        _ => return Err(Failure::new(Exit::Input, "cli-track-ending", &[]).hint("cli-track-ending-hint")),
    };
    let no_sound = |detail: String| Failure::new(Exit::Storage, "cli-track-failed", &[("detail", detail)]);
    let bytes = bytes.map_err(|error| no_sound(error.0))?;
    let failed = |error: std::io::Error| Failure::file(&args.to, &error);
    let mut file = std::fs::File::create_new(&args.to).map_err(failed)?;
    std::io::Write::write_all(&mut file, &bytes).map_err(failed)?;
    let shape = Shape {
        shape: "cuffwright.track/1",
        to: args.to.display().to_string(),
        seconds,
        tones: cues.len(),
        bytes: bytes.len(),
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    let lasts = format!("{}:{:02}", (seconds / 60.0).floor(), (seconds % 60.0).floor());
    page.paragraph("", &say("cli-track-made", &[("to", shape.to), ("lasts", lasts)]));
    Ok(Answer::page(Exit::Well, page))
}
