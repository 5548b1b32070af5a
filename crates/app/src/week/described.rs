//! The answer to a described week, for other programs and for a terminal: plan or clash, repair, wishes.
//!
//! `shape` holds what the answer is made of.

mod shape;

use schedule::describe::{Described, Note, Problem, read};
use schedule::time::Span;
use schedule::week::audit::{Session, breaches};
use schedule::week::clash::{Buys, Clash, Member};
use schedule::week::plan::{Answer, Plan, allowance, plan, refused};
use schedule::week::prefer::points;
use schedule::week::repair::{Repair, repair};
use schedule::week::request::{Reply, Request, answer, others};
use schedule::week::requirement::{Kind, Requirement, Subject};
use schedule::week::{Override, Week};

use super::say::{Say, short_day};
use crate::text::{Texts, Value};

pub use shape::*;

/// Name and version of the output shape.
pub const SHAPE: &str = "cuffwright.week/1";

/// Answers a described week within so many seconds.
pub fn run(text: &str, seconds: f64) -> Result<WeekAnswer, Vec<Problem>> {
    read(text).map(|described| answer_to(&described, seconds))
}

/// The club's own week as an answer.
pub fn stored_answer(stored: &super::stored::StoredWeek) -> WeekAnswer {
    let described = Described { week: stored.week.clone(), requests: Vec::new(), notes: Vec::new() };
    answer_to(&described, 8.0)
}

/// Answers a week that has been read.
pub fn answer_to(described: &Described, seconds: f64) -> WeekAnswer {
    let week = &described.week;
    let say = Say::about(week);
    let mut said = WeekAnswer {
        shape: SHAPE,
        zone: week.zone.iana_name().unwrap_or("UTC").to_owned(),
        from: week.first.to_string(),
        to: week.last.to_string(),
        outcome: "out-of-time",
        feasible: None,
        proven: false,
        points: None,
        at_most: None,
        gap: None,
        plan: Vec::new(),
        preferences: Vec::new(),
        reduced: reduced(say),
        clash: None,
        repair: None,
        requests: described.requests.iter().map(|request| reply(say, request)).collect(),
        refused: refused_words(say),
        notes: described.notes.iter().map(note).collect(),
    };
    if week.known.is_empty() {
        match plan(week, seconds) {
            Answer::Plan(plan) => said.takes_plan(say, &plan),
            Answer::Clash(clash) => said.takes_clash(say, &clash),
            Answer::OutOfTime => {}
        }
    } else if let Some(repair) = repair(week, seconds) {
        said.takes_plan(say, &repair.plan);
        said.repair = Some(repair_word(say, &repair));
        if let Some(clash) = &repair.clash {
            said.takes_clash(say, clash);
        }
    }
    said
}

impl WeekAnswer {
    fn takes_plan(&mut self, say: Say<'_>, plan: &Plan) {
        self.outcome = "plan";
        self.feasible = Some(true);
        self.proven = plan.is_proven();
        self.points = Some(plan.points);
        self.at_most = (plan.at_most != i64::MAX).then_some(plan.at_most);
        self.gap = self.at_most.map(|most| (most - plan.points) as f64 / (plan.points.abs().max(1)) as f64);
        self.plan = sessions(say, &plan.sessions);
        self.preferences = plan
            .tally
            .iter()
            .map(|tally| TallyWord {
                preference: tally.preference.word(),
                words: Texts::english().word(&format!("prefer-{}", tally.preference.word())),
                sessions: tally.sessions,
                points: tally.points,
            })
            .collect();
    }

    fn takes_clash(&mut self, say: Say<'_>, clash: &Clash) {
        self.outcome = "clash";
        self.feasible = Some(false);
        self.proven = clash.is_smallest;
        let requirements = clash.members.iter().map(|member| member_word(say, member)).collect();
        self.clash = Some(ClashWord { smallest: clash.is_smallest, requirements });
    }
}

/// A time in words.
pub fn time_word(say: Say<'_>, place: usize, span: Span) -> TimeWord {
    let clock = super::say::clock;
    TimeWord {
        place: say.place(place).to_owned(),
        day: span.day().to_string(),
        from: clock(span.start.civil()),
        to: clock(span.end.civil()),
    }
}

fn sessions(say: Say<'_>, placed: &[schedule::week::Placed]) -> Vec<SessionWord> {
    let week = say.week;
    placed
        .iter()
        .map(|placed| {
            let slot = &week.slots[placed.slot];
            let each = points(week, placed.group, slot.span);
            let known = week.known.iter().find(|known| {
                known.group == placed.group && known.place == slot.place && known.span == slot.span
            });
            SessionWord {
                group: say.group(placed.group).to_owned(),
                at: time_word(say, slot.place, slot.span),
                points: each.iter().map(|(_, points)| points).sum(),
                because: each
                    .iter()
                    .map(|(preference, points)| PointWord { preference: preference.word(), points: *points })
                    .collect(),
                overruled: known.and_then(|known| known.overruled.as_ref()).map(override_word),
            }
        })
        .collect()
}

fn override_word(own: &Override) -> OverrideWord {
    OverrideWord { by: own.by.clone(), reason: own.reason.clone(), counts: false }
}

fn requirement_word(say: Say<'_>, requirement: Requirement) -> RequirementWord {
    let name = say.subject(requirement.subject);
    let is_group = matches!(requirement.subject, Subject::Group(_));
    RequirementWord {
        requirement: requirement.kind.word(),
        group: is_group.then(|| name.clone()),
        about: (!is_group && !name.is_empty()).then_some(name),
        words: say.requirement(requirement),
    }
}

fn member_word(say: Say<'_>, member: &Member) -> MemberWord {
    let texts = Texts::english();
    let (relaxing_helps, buys, plan) = match &member.buys {
        Buys::Nothing => (Some(false), texts.word("buys-fixed"), Vec::new()),
        Buys::OtherClash => (Some(false), texts.word("buys-other-clash"), Vec::new()),
        Buys::Unknown => (None, texts.word("buys-unknown"), Vec::new()),
        Buys::Plan { sessions: placed, breaks, missing } => {
            let words = if !breaks.is_empty() {
                let list: Vec<String> = breaks
                    .iter()
                    .map(|(placed, reason)| {
                        let place = say.week.slots[placed.slot].place;
                        format!(
                            "{} ({})",
                            say.placed(*placed),
                            say.cause(reason.cause, placed.group, place).trim_end_matches('.')
                        )
                    })
                    .collect();
                texts.say("buys-breaks", &[("list", list.join("; "))])
            } else if 0 < *missing {
                let is_sessions = member.requirement.kind == Kind::Sessions;
                let says = if is_sessions { "buys-sessions" } else { "buys-missing" };
                texts.phrase(says, &[("missing", Value::Count(*missing))])
            } else {
                texts.word("buys-plan")
            };
            (Some(true), words, sessions(say, placed))
        }
    };
    MemberWord {
        what: requirement_word(say, member.requirement),
        fixed: member.requirement.kind.is_fixed(),
        relaxing_helps,
        buys,
        plan,
    }
}

fn broken(say: Say<'_>, breach: &schedule::week::audit::Breach, all: &[Session]) -> BrokenWord {
    BrokenWord {
        what: requirement_word(say, breach.requirement),
        why: say.breach(breach, all),
        sessions: breach
            .sessions
            .iter()
            .filter_map(|at| all.get(*at))
            .map(|session| format!("{}, {}", say.group(session.group), super::say::when(session.span)))
            .collect(),
    }
}

fn repair_word(say: Say<'_>, repair: &Repair) -> RepairWord {
    let week = say.week;
    let known: Vec<Session> = week.known.iter().map(Session::from).collect();
    RepairWord {
        broken: repair.broken.iter().map(|breach| broken(say, breach, &known)).collect(),
        kept: repair.kept.len(),
        moves: repair
            .moves
            .iter()
            .map(|one| MoveWord {
                group: say.group(one.group).to_owned(),
                from: one.from.map(|at| time_word(say, week.known[at].place, week.known[at].span)),
                to: one.to.map(|at| time_word(say, week.slots[at].place, week.slots[at].span)),
            })
            .collect(),
    }
}

/// What is said to one wish.
pub fn reply(say: Say<'_>, request: &Request) -> ReplyWord {
    let reply = answer(say.week, request);
    reply_word(say, request, &reply)
}

fn reply_word(say: Say<'_>, request: &Request, reply: &Reply) -> ReplyWord {
    let texts = Texts::english();
    let week: &Week = say.week;
    let mut all: Vec<Session> = others(week, reply.instead_of);
    all.push(Session { group: request.group, place: request.place, span: request.span, overruled: None });
    let own = all.len() - 1;
    let found = breaches(week, &all);
    let mut reasons: Vec<BrokenWord> = Vec::new();
    for breach in found.iter().filter(|breach| breach.sessions.contains(&own)) {
        // The wish stands first, so that its place and group are those that the words are about.
        let mut breach = breach.clone();
        breach.sessions.sort_by_key(|at| *at != own);
        reasons.push(broken(say, &breach, &all));
    }
    let mut remarks = Vec::new();
    if !reply.is_granted() {
        let is_about_water = reply.breaks.iter().any(|breach| breach.requirement.kind == Kind::BeforeWater);
        if is_about_water {
            remarks.push(texts.word("week-evidence"));
        }
        if reply.activation {
            remarks.push(texts.word("week-activation"));
        }
        remarks.push(texts.word(if reply.can_be_overruled { "week-overrule" } else { "week-no-overrule" }));
    }
    ReplyWord {
        group: say.group(request.group).to_owned(),
        at: time_word(say, request.place, request.span),
        allowed: reply.is_granted(),
        reasons,
        offers: reply
            .offers
            .iter()
            .map(|offer| OfferWord {
                kind: offer.kind.word(),
                words: texts.word(&format!("offer-{}", offer.kind.word())),
                at: time_word(say, offer.place, offer.span),
            })
            .collect(),
        instead_of: reply.instead_of.map(|at| known_word(say, at)),
        offers_instead_of: reply.offers_instead_of.map(|at| known_word(say, at)),
        can_be_overruled: reply.can_be_overruled,
        remarks,
    }
}

fn known_word(say: Say<'_>, at: usize) -> TimeWord {
    time_word(say, say.week.known[at].place, say.week.known[at].span)
}

fn refused_words(say: Say<'_>) -> Vec<RefusedWord> {
    refused(say.week)
        .into_iter()
        .map(|(placed, reasons)| {
            let slot = &say.week.slots[placed.slot];
            RefusedWord {
                group: say.group(placed.group).to_owned(),
                at: time_word(say, slot.place, slot.span),
                reasons: reasons
                    .iter()
                    .map(|reason| WhyWord {
                        requirement: reason.requirement.map(|one| one.kind.word()),
                        why: say.cause(reason.cause, placed.group, slot.place),
                    })
                    .collect(),
            }
        })
        .collect()
}

fn reduced(say: Say<'_>) -> Vec<ReducedWord> {
    (0..say.week.groups.len())
        .filter_map(|group| {
            let (usual, allowance) = (say.week.groups[group].sessions, allowance(say.week, group));
            let why: Vec<String> = allowance.limits.iter().map(|limit| say.fewer(limit.why)).collect();
            (allowance.wanted < usual).then(|| ReducedWord {
                group: say.group(group).to_owned(),
                usual,
                planned: allowance.wanted,
                words: why.join("; "),
            })
        })
        .collect()
}

fn note(note: &Note) -> String {
    let texts = Texts::english();
    match note {
        Note::PracticeCancelled { practice, place, day } => {
            let day = ("day", short_day(*day));
            texts.say(
                "note-practice-cancelled",
                &[("practice", practice.clone()), ("place", place.clone()), day],
            )
        }
        Note::NoWindows => texts.word("note-no-windows"),
        Note::NoSupervisors => texts.word("note-no-supervisors"),
    }
}
