//! From what was typed to facts: a session, its answers and its sets for each swimmer, or every problem with its
//! place.

use app::desk::{Desk, Draft};
use app::facts::{
    ClockWord, ContextWord, EndWord, PainFact, PainKindWord, SessionFact, SetFact, SetWord, WhenWord,
};
use jiff::civil::Date;
use store::SubjectId;
use trade::name::RungId;

use super::{Planned, There, field, head_asks, there};
use crate::web::pages::person::lines::{exercise_name, side_name};
use crate::web::pages::record::take::{Taking, word_of};
use crate::web::pages::shared::name;
use crate::web::parts::notice::Problem;
use crate::web::site::sent::Sent;
use crate::web::site::visit::Visit;
use crate::web::words::{Value, say, text};

/// What a form of a session comes to.
pub struct Taken {
    /// Facts of everybody who was there.
    pub drafts: Vec<(SubjectId, Draft)>,
    /// Swimmers who said that something is new.
    pub something_new: Vec<SubjectId>,
}

/// Reads the whole form.
pub fn drafts(desk: &Desk, visit: &Visit, sent: &Sent) -> Result<Taken, Vec<Problem>> {
    let asked = head_asks();
    let mut taking = Taking::new(sent, &asked, visit.today());
    let (date, context) = (taking.past_day("date"), taking.word::<ContextWord>("context"));
    let mut problems = taking.problems;
    let (Some(date), Some(context)) = (date, context) else { return Err(problems) };
    let everybody = there(desk, sent, date);
    if everybody.is_empty() {
        problems.push(Problem { says: text("session-nobody"), ..Problem::default() });
    }
    let mut taken = Taken { drafts: Vec::new(), something_new: Vec::new() };
    for one in &everybody {
        let subject = one.person.subject;
        let number = next_number(one, date);
        let effort = whole(sent, &format!("{}.effort", one.key));
        let session = SessionFact {
            date,
            number,
            context,
            before_water_override: sent.some("before_water").map(str::to_owned),
            last_practice_effort: effort,
        };
        taken.drafts.push((subject, Draft::new(&session)));
        for (part, when) in [("before", WhenWord::Before), ("after", WhenWord::After)] {
            let answer = |side: &str| whole(sent, &format!("{}.{part}-{side}", one.key));
            let (left, right) = (answer("left"), answer("right"));
            // Nobody asked is not a report of no pain; it is no report.
            if left.is_none() && right.is_none() {
                continue;
            }
            let pain = PainFact {
                date,
                when,
                exercise: None,
                left,
                right,
                kind: PainKindWord::Unstated,
                signs: Vec::new(),
                sign_side: None,
                asked: None,
            };
            taken.drafts.push((subject, Draft::new(&pain)));
        }
        if sent.one(&format!("{}.new", one.key)) == "yes" {
            taken.something_new.push(subject);
        }
        for planned in &one.planned {
            for set in sets_of(desk, sent, one, planned, date, number, &mut problems) {
                taken.drafts.push((subject, Draft::new(&set)));
            }
        }
    }
    // Every payload is checked once more when it is stored; here each problem gets its field.
    if problems.is_empty() { Ok(taken) } else { Err(problems) }
}

fn whole(sent: &Sent, name: &str) -> Option<i64> {
    sent.some(name)?.parse().ok().filter(|number| (0..=10).contains(number))
}

/// A second session of one day gets the next number.
fn next_number(one: &There<'_>, date: Date) -> u8 {
    let of_day = one.person.read.history.sessions.iter().filter(|session| session.date == date);
    of_day.map(|session| session.number).max().unwrap_or(0).saturating_add(1)
}

fn sets_of(
    desk: &Desk,
    sent: &Sent,
    one: &There<'_>,
    planned: &Planned,
    date: Date,
    session: u8,
    problems: &mut Vec<Problem>,
) -> Vec<SetFact> {
    let proposal = &planned.proposal;
    let Some(dose) = &proposal.dose else { return Vec::new() };
    let rung = dose.rung.as_ref().map(ToString::to_string).unwrap_or_default();
    let place = |set: u8| {
        let who = name(one.person);
        let exercise = exercise_name(desk, &proposal.exercise);
        let side = side_name(proposal.side);
        let set = set.to_string();
        say(
            "session-place",
            &[
                ("name", Value::Words(&who)),
                ("exercise", Value::Words(&exercise)),
                ("side", Value::Words(&side)),
                ("set", Value::Words(&set)),
            ],
        )
    };
    let typed = |set: u8, part: &str| sent.some(&field(&planned.key, set, part));
    let is_typed =
        |set: u8| ["seconds", "end", "fault", "seen"].iter().any(|part| typed(set, part).is_some());
    if !(1..=dose.sets).any(is_typed) {
        return Vec::new();
    }
    if sent.one(&format!("{}.planned", planned.key)) != rung {
        problems.push(Problem { place: place(1), says: text("session-plan-changed"), ..Problem::default() });
        return Vec::new();
    }
    let used = sent.some(&format!("{}.used", planned.key)).unwrap_or(&rung).to_owned();
    let known =
        desk.protocol().exercise(&proposal.exercise).and_then(|exercise| exercise.rung(&RungId::new(&used)));
    if known.is_none() {
        problems.push(Problem { place: place(1), says: text("take-not-a-choice"), ..Problem::default() });
        return Vec::new();
    }
    let mut sets = Vec::new();
    for number in (1..=dose.sets).filter(|set| is_typed(*set)) {
        let mut wrong = |part: &str, says: String| {
            let field = Some(field(&planned.key, number, part));
            problems.push(Problem { place: place(number), says, hint: String::new(), field });
        };
        let seconds = typed(number, "seconds").map(|text| text.replace(',', ".").parse::<f64>());
        let end = typed(number, "end").map(word_of::<EndWord>);
        let seconds = match seconds {
            Some(Ok(seconds)) if seconds.is_finite() => Some(seconds),
            Some(_) => {
                wrong("seconds", text("take-not-a-number"));
                None
            }
            None => {
                wrong("seconds", text("take-needed"));
                None
            }
        };
        let Some(Some(end)) = end else {
            wrong("end", text("take-needed"));
            continue;
        };
        let Some(seconds) = seconds else { continue };
        let seen = match typed(number, "seen") {
            Some("yes") => Some(true),
            Some("no") => Some(false),
            _ => None,
        };
        let set = SetWord {
            seconds,
            end,
            fault: typed(number, "fault").map(str::to_owned).filter(|_| end == EndWord::Form),
            cap_s: Some(dose.cap.seconds()),
            seen,
            rest_before_s: None,
            clock: ClockWord::Hand,
            // A fault beside a set that reached the cap was cued and still there.
            fault_left: typed(number, "fault").map(str::to_owned).filter(|_| end == EndWord::Cap),
        };
        if let Err(found) = set.to_trade(number, dose.cap) {
            for problem in found {
                let says = desk.texts().say(problem.says, &problem.args);
                wrong(&problem.path, says);
            }
            continue;
        }
        sets.push(SetFact {
            date,
            session,
            exercise: proposal.exercise.to_string(),
            side: proposal.side.into(),
            planned: rung.clone(),
            used: used.clone(),
            prescribed_sets: dose.sets,
            number,
            set,
        });
    }
    sets
}
