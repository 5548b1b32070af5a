//! A cut list for a squad: which few loops give most swimmers a rung to stand on, one above and one below.

use cutting::{Candidate, Cut, Need, Proof, Question, Wave, cut, stock};
use mechanics::ladder::StepTarget;
use quantity::{Mass, Share, Torque};
use serde::Serialize;

use super::fields::{Fields, Found};
use super::kit::{self, Choice, Roll};
use super::ladder::{any_piece, target};
use super::movement::{self, Beside, Described, finished};
use crate::facts::Problem;

/// Name and version of the answer.
pub const SHAPE: &str = "cuffwright.cut-list/1";

/// One swimmer of the squad.
#[derive(Debug, Clone, PartialEq)]
pub struct Swimmer {
    /// What the file calls them.
    pub name: String,
    /// The exercise for this body.
    pub described: Described,
    /// The peak torque they train at now.
    pub now: Torque,
    /// Sessions they take part in, by name.
    pub sessions: Vec<String>,
}

/// A squad and what it can cut from.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// Everybody.
    pub swimmers: Vec<Swimmer>,
    /// Rolls and what may be cut from them.
    pub rolls: Vec<Roll>,
    /// How large a step should be.
    pub target: StepTarget,
    /// Most lengths of one roll.
    pub most_per_roll: Option<usize>,
    /// Most lengths in all.
    pub most_in_all: Option<usize>,
    /// How many more pieces than people: 1.2 is common practice.
    pub spare: f64,
    /// Loops that a swimmer uses at once.
    pub each_uses: u32,
    /// Seconds the search may take.
    pub seconds: f64,
}

/// Half of the smallest step: nearer than this a rung is as good as the load asked for.
const AS_GOOD: f64 = 0.1;

/// Reads a file. Every problem is listed.
pub fn read(text: &str, beside: Beside<'_>) -> Result<Asked, Vec<Problem>> {
    let table: toml::Table = text.parse().map_err(|error: toml::de::Error| {
        vec![Problem::at("", "load-toml").with("detail", error.to_string())]
    })?;
    let found = Found::default();
    let root = Fields::of(&table, "", &found);
    let asked = asked(&root, &table, &found, beside);
    root.done();
    finished(asked, found)
}

fn asked(root: &Fields<'_>, table: &toml::Table, found: &Found, beside: Beside<'_>) -> Option<Asked> {
    let rolls = kit::rolls(root, beside);
    if rolls.is_empty() {
        root.report(root.problem("roll", "load-no-kit"));
    }
    let whole = |names: &[&str]| root.number(names).map(|number| number.max(0.0) as usize);
    let (most_per_roll, most_in_all) = (whole(&["most_per_roll"]), whole(&["most_in_all"]));
    let spare = root.number(&["spare_factor"]).unwrap_or(1.2);
    let each_uses = root.number(&["each_uses"]).map_or(1, |number| number.clamp(1.0, 4.0) as u32);
    let seconds = root.number(&["seconds"]).unwrap_or(10.0);
    let target = target(root);
    let swimmers = root.list(&["swimmer", "swimmers"]);
    if swimmers.is_empty() {
        root.report(root.problem("swimmer", "load-no-swimmers"));
    }
    let mut read = Vec::new();
    for (index, fields) in swimmers.iter().enumerate() {
        read.extend(swimmer(fields, index, table, &rolls, found, beside));
    }
    // Everything that describes the exercise was read once for each swimmer; here it only counts as known.
    read_once(root, beside, &rolls);
    let all_there = read.len() == swimmers.len();
    (all_there && !rolls.is_empty() && !read.is_empty()).then_some(())?;
    Some(Asked {
        swimmers: read,
        rolls,
        target: target?,
        most_per_roll,
        most_in_all,
        spare,
        each_uses,
        seconds,
    })
}

/// Marks the keys of the exercise as known without reporting anything twice.
fn read_once(root: &Fields<'_>, beside: Beside<'_>, rolls: &[Roll]) {
    root.silently(|| movement::described(root, any_piece(rolls), beside));
}

/// A swimmer: the shared exercise with their own body, and what they pull now.
fn swimmer(
    fields: &Fields<'_>,
    index: usize,
    shared: &toml::Table,
    rolls: &[Roll],
    found: &Found,
    beside: Beside<'_>,
) -> Option<Swimmer> {
    let name = fields.text(&["name"]).unwrap_or_else(|| format!("swimmer {}", index + 1));
    let now = fields.number(&["now_nm", "torque_nm"]).map(Torque::from_newton_metres);
    let strength = fields.number(&["strength_nm"]).map(Torque::from_newton_metres);
    let share = fields.share(&["share"]).unwrap_or(Share::from_fraction(0.30));
    let sessions = match fields.texts(&["sessions", "session"]) {
        Some(sessions) if !sessions.is_empty() => sessions,
        _ => vec![String::new()],
    };
    let own = fields.rest_of_table();
    // The exercise stands once in the file; a swimmer's own keys (body, lengths) come on top of it.
    let mut table = shared.clone();
    for key in ["roll", "rolls", "swimmer", "swimmers", "target", "step", "strength"] {
        table.remove(key);
    }
    table.extend(own);
    let within = Fields::of(&table, &format!("swimmer {name}"), found);
    let described = movement::described(&within, any_piece(rolls), beside);
    let now = now.or_else(|| {
        strength.map(|strength| Torque::from_newton_metres(strength.newton_metres() * share.fraction()))
    });
    let now = now.filter(|now| 0.0 < now.newton_metres() && now.newton_metres() < 500.0);
    if now.is_none() {
        fields.report(fields.problem("now_nm", "load-no-load-now").with("name", name.clone()));
    }
    Some(Swimmer { name, described: described?, now: now?, sessions })
}

/// The answer in JSON.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// Name and version.
    pub shape: &'static str,
    /// What to cut.
    pub cut: Vec<OneCut>,
    /// What each swimmer gets.
    pub swimmers: Vec<OneSwimmer>,
    /// How many swimmers have a rung to stand on and one above.
    pub with_next: usize,
    /// Swimmers in all.
    pub n_swimmers: usize,
    /// Lengths that were looked at.
    pub n_candidates: usize,
    /// `proven` or `gap`.
    pub proof: &'static str,
    /// How far the best possible value may lie above what was found, as a part of it; nought when proven.
    pub gap: f64,
    /// Needs met, of those that any choice could meet, and of all.
    pub needs: Needs,
    /// The step aimed at, per cent.
    pub target_pct: [f64; 2],
}

/// How many needs are met.
#[derive(Debug, Serialize)]
pub struct Needs {
    /// Met.
    pub met: u64,
    /// Some length of some roll would meet them, were there no limit on how many are cut.
    pub meetable: u64,
    /// Weight of what is met: a rung now counts 3, one above 2, one below 1.
    pub met_weight: u64,
    /// No choice within the limits meets more weight than this.
    pub best_weight: u64,
    /// In all: a rung now, one above and one below for everybody.
    pub all: u64,
}

/// One length to cut.
#[derive(Debug, Serialize)]
pub struct OneCut {
    /// Roll and length.
    pub name: String,
    /// Roll.
    pub roll: String,
    /// Rest length, metres.
    pub rest_m: f64,
    /// Pieces for the busiest session, spares included.
    pub pieces: u32,
    /// Swimmers who stand on it now.
    pub now_for: usize,
}

/// What one swimmer gets.
#[derive(Debug, Serialize)]
pub struct OneSwimmer {
    /// What the file calls them.
    pub name: String,
    /// What they pull now, newton metres.
    pub now_nm: f64,
    /// The rung to stand on.
    pub now: Option<Given>,
    /// The next one up.
    pub next: Option<Given>,
    /// The one below, to fall back on.
    pub below: Option<Given>,
}

/// A rung for one swimmer.
#[derive(Debug, Clone, Serialize)]
pub struct Given {
    /// Roll and length.
    pub name: String,
    /// Peak torque for this body, newton metres.
    pub torque_nm: f64,
    /// Against what is pulled now, per cent.
    pub change_pct: f64,
}

/// Which of a swimmer's needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    Now,
    Next,
    Below,
}

impl Wanted {
    const ALL: [Self; 3] = [Self::Now, Self::Next, Self::Below];

    /// Loads that meet it, as parts of the present one.
    fn span(self, target: &StepTarget) -> (f64, f64) {
        let (low, high) = (1.0 + target.low.fraction(), 1.0 + target.high.fraction());
        match self {
            Self::Now => (1.0 - AS_GOOD, 1.0 + AS_GOOD),
            Self::Next => (low, high),
            Self::Below => (1.0 / high, 1.0 / low),
        }
    }

    /// To stand somewhere counts most, to have a next step more than to have one to fall back on.
    fn weight(self) -> u32 {
        match self {
            Self::Now => 3,
            Self::Next => 2,
            Self::Below => 1,
        }
    }
}

/// Chooses what to cut.
pub fn answer(asked: &Asked) -> Result<Answer, Vec<Problem>> {
    let cuts: Vec<(usize, quantity::Length)> = asked
        .rolls
        .iter()
        .enumerate()
        .flat_map(|(roll, of)| of.lengths.iter().map(move |rest| (roll, *rest)))
        .collect();
    let loads: Vec<Vec<Option<f64>>> =
        asked.swimmers.iter().map(|swimmer| loads(swimmer, &asked.rolls)).collect();
    let needs: Vec<Need> = asked
        .swimmers
        .iter()
        .zip(&loads)
        .flat_map(|(swimmer, loads)| {
            let now = swimmer.now.newton_metres();
            Wanted::ALL.map(|wanted| {
                let (low, high) = wanted.span(&asked.target);
                let meets =
                    |load: &Option<f64>| load.is_some_and(|load| (now * low..=now * high).contains(&load));
                let met_by =
                    loads.iter().enumerate().filter(|(_, load)| meets(load)).map(|(at, _)| at).collect();
                Need { met_by, weight: wanted.weight() }
            })
        })
        .collect();
    let question = Question {
        candidates: cuts.iter().map(|(roll, _)| Candidate { roll: *roll }).collect(),
        needs,
        most_per_roll: asked.most_per_roll,
        most_in_all: asked.most_in_all,
    };
    let found = cut(&question, asked.seconds).map_err(|_| vec![Problem::at("", "load-squad-too-large")])?;
    Ok(said(asked, &cuts, &loads, &question, &found))
}

/// What every length asks of one swimmer; nothing where it is not offered to this body.
fn loads(swimmer: &Swimmer, rolls: &[Roll]) -> Vec<Option<f64>> {
    kit::offered(&swimmer.described, rolls, &[] as &[Mass])
        .iter()
        .map(|offered| match (&offered.option, &offered.load) {
            (Choice::Cut { .. }, Ok(load)) => Some(load.kit.value.newton_metres()),
            _ => None,
        })
        .collect()
}

fn said(
    asked: &Asked,
    cuts: &[(usize, quantity::Length)],
    loads: &[Vec<Option<f64>>],
    question: &Question,
    found: &Cut,
) -> Answer {
    let label = |at: usize| {
        let (roll, rest) = cuts[at];
        format!("{}, {:.0} cm", asked.rolls[roll].name, rest.centimetres())
    };
    // Of the chosen rungs that meet a need the one nearest to the middle of what is asked for.
    let given = |swimmer: usize, wanted: Wanted| -> Option<(usize, Given)> {
        let now = asked.swimmers[swimmer].now.newton_metres();
        let (low, high) = wanted.span(&asked.target);
        let middle = now * (low * high).sqrt();
        let off = |load: f64| (load / middle).ln().abs();
        found
            .chosen
            .iter()
            .filter_map(|at| loads[swimmer][*at].map(|load| (*at, load)))
            .filter(|(_, load)| (now * low..=now * high).contains(load))
            .min_by(|one, other| off(one.1).total_cmp(&off(other.1)))
            .map(|(at, load)| {
                let given =
                    Given { name: label(at), torque_nm: load, change_pct: 100.0 * (load / now - 1.0) };
                (at, given)
            })
    };
    let mut sessions = std::collections::BTreeMap::<&str, Vec<usize>>::new();
    let mut standing = vec![0_usize; cuts.len()];
    let mut swimmers = Vec::new();
    for (index, swimmer) in asked.swimmers.iter().enumerate() {
        let now = given(index, Wanted::Now);
        // Without a rung to stand on somebody begins on the one below, or waits.
        let used = now.as_ref().map(|(at, _)| *at).or_else(|| given(index, Wanted::Below).map(|(at, _)| at));
        if let Some(at) = used {
            standing[at] += 1;
            for session in &swimmer.sessions {
                let wave = sessions.entry(session.as_str()).or_default();
                wave.extend((0..asked.each_uses).map(|_| at));
            }
        }
        swimmers.push(OneSwimmer {
            name: swimmer.name.clone(),
            now_nm: swimmer.now.newton_metres(),
            now: now.map(|(_, given)| given),
            next: given(index, Wanted::Next).map(|(_, given)| given),
            below: given(index, Wanted::Below).map(|(_, given)| given),
        });
    }
    let waves: Vec<Wave> = sessions.into_values().map(|in_use| Wave { in_use }).collect();
    let pieces = stock(&waves, asked.spare);
    let (proof, gap) = match found.proof {
        Proof::Proven => ("proven", 0.0),
        Proof::Gap(gap) => ("gap", gap),
    };
    Answer {
        shape: SHAPE,
        cut: found
            .chosen
            .iter()
            .map(|at| OneCut {
                name: label(*at),
                roll: asked.rolls[cuts[*at].0].name.clone(),
                rest_m: cuts[*at].1.metres(),
                // A rung nobody stands on yet is cut once, so that the next step is there when it is earned.
                pieces: pieces.get(at).copied().unwrap_or(asked.each_uses),
                now_for: standing[*at],
            })
            .collect(),
        with_next: swimmers.iter().filter(|swimmer| swimmer.now.is_some() && swimmer.next.is_some()).count(),
        n_swimmers: swimmers.len(),
        swimmers,
        n_candidates: cuts.len(),
        proof,
        gap,
        needs: Needs {
            met: found.met.iter().filter(|met| **met).count() as u64,
            met_weight: found.met_weight,
            best_weight: found.most_possible,
            meetable: question.needs.iter().filter(|need| !need.met_by.is_empty()).count() as u64,
            all: question.needs.len() as u64,
        },
        target_pct: [asked.target.low.percent(), asked.target.high.percent()],
    }
}
