//! The integer program: one yes-or-no for each group in each slot, one for each adult at each place and moment.
//!
//! Every row carries the requirement it stands for, so that a row can be left out by name or given slack by name.

use std::collections::{BTreeMap, BTreeSet};

use good_lp::{Expression, ProblemVariables, Variable, constraint, variable, variables};
use jiff::ToSpan;

use super::plan::{Allowance, allowance};
use super::refuse::{Reason, SupervisionRow, present, reasons, supervision_rows};
use super::requirement::{Kind, Requirement, Subject};
use super::solver::{self, Nothing};
use super::{Placed, Week};
use crate::settings::minutes;
use crate::time::{Span, Stamp, days_between};

/// Reasons against every group in every slot, worked out once.
pub(super) struct Table {
    /// By group, then by slot.
    pub(super) reasons: Vec<Vec<Vec<Reason>>>,
    /// What each group may have.
    pub(super) allowances: Vec<Allowance>,
}

impl Table {
    pub(super) fn new(week: &Week) -> Self {
        let of_slot = |group: usize, slot: &super::Slot| {
            reasons(week, group, slot.place, slot.span, slot.in_window, slot.exact)
        };
        Self {
            reasons: (0..week.groups.len())
                .map(|group| week.slots.iter().map(|slot| of_slot(group, slot)).collect())
                .collect(),
            allowances: (0..week.groups.len()).map(|group| allowance(week, group)).collect(),
        }
    }
}

/// What is asked of the program.
pub(super) struct Ask<'a> {
    /// Requirements that do not hold this time.
    pub(super) dropped: &'a BTreeSet<Requirement>,
    /// Points of each session; missing means none.
    pub(super) points: &'a dyn Fn(Placed) -> i64,
    /// Sessions that stand although a reason speaks against them: overruled by name.
    pub(super) standing: &'a BTreeSet<Placed>,
    /// Fewest sessions of each group, where it is not the group's own.
    pub(super) at_least: Option<&'a [u8]>,
    /// A requirement that gets slack, each unit of which costs.
    pub(super) loosened: Option<Requirement>,
    /// Longest time, seconds.
    pub(super) seconds: f64,
}

/// What the program answered.
pub(super) enum Solved {
    /// A plan.
    Plan {
        sessions: Vec<Placed>,
        /// Points of the plan.
        points: i64,
        /// No plan has more.
        at_most: i64,
        /// Slack used.
        slack: i64,
    },
    /// There is none.
    Impossible,
    /// Time was up before one was found.
    Unknown,
}

struct Program<'a> {
    week: &'a Week,
    ask: &'a Ask<'a>,
    variables: ProblemVariables,
    session: BTreeMap<Placed, Variable>,
    rows: Vec<good_lp::Constraint>,
    slack: Vec<Variable>,
}

/// Price of a unit of slack, above every sum of points.
const SLACK_PRICE: f64 = 1_000.0;

/// Builds and solves.
pub(super) fn solve(week: &Week, table: &Table, ask: &Ask<'_>) -> Solved {
    let mut program = Program {
        week,
        ask,
        variables: variables!(),
        session: BTreeMap::new(),
        rows: Vec::new(),
        slack: Vec::new(),
    };
    program.sessions(table);
    for (group, allowance) in table.allowances.iter().enumerate() {
        if !program.count(group, allowance) {
            return Solved::Impossible;
        }
        program.days(group);
    }
    program.rooms();
    program.kit();
    program.adults();
    program.solve(table)
}

impl Program<'_> {
    fn holds(&self, kind: Kind, subject: Subject) -> bool {
        !self.ask.dropped.contains(&Requirement { kind, subject })
    }

    fn loosens(&self, kind: Kind, subject: Subject) -> bool {
        self.ask.loosened == Some(Requirement { kind, subject })
    }

    fn sessions(&mut self, table: &Table) {
        for (group, row) in table.reasons.iter().enumerate() {
            for (slot, reasons) in row.iter().enumerate() {
                let placed = Placed { group, slot };
                let dropped = |reason: &Reason| {
                    reason.requirement.is_some_and(|requirement| {
                        self.ask.dropped.contains(&requirement) || self.ask.loosened == Some(requirement)
                    })
                };
                if reasons.iter().all(dropped) || self.ask.standing.contains(&placed) {
                    let variable = self.variables.add(variable().binary());
                    self.session.insert(placed, variable);
                }
            }
        }
    }

    fn sum(&self, take: impl Fn(Placed) -> bool) -> Option<Expression> {
        let mut sum = Expression::default();
        let mut any = false;
        for (placed, variable) in &self.session {
            if take(*placed) {
                sum += *variable;
                any = true;
            }
        }
        any.then_some(sum)
    }

    /// At most so many of some sessions, with slack where the requirement is loosened.
    fn at_most(&mut self, sum: Option<Expression>, most: f64, kind: Kind, subject: Subject) {
        if !self.holds(kind, subject) {
            return;
        }
        let Some(mut sum) = sum else { return };
        if self.loosens(kind, subject) {
            sum -= self.new_slack();
        }
        self.rows.push(constraint!(sum <= most));
    }

    fn new_slack(&mut self) -> Variable {
        let slack = self.variables.add(variable().integer().min(0).max(50));
        self.slack.push(slack);
        slack
    }

    /// How many sessions; false when a group cannot have the fewest it needs, whatever is chosen.
    fn count(&mut self, group: usize, allowance: &Allowance) -> bool {
        let subject = Subject::Group(group);
        let own = self.ask.at_least.map_or(allowance.at_least, |all| all[group]);
        let all = self.sum(|placed| placed.group == group);
        if 0 < own && self.holds(Kind::Sessions, subject) && !self.loosens(Kind::Sessions, subject) {
            match &all {
                Some(sum) => self.rows.push(constraint!(sum.clone() >= f64::from(own))),
                None => return false,
            }
        }
        if let Some(sum) = all.clone() {
            self.rows.push(constraint!(sum <= f64::from(allowance.wanted)));
        }
        self.at_most(all, f64::from(self.week.settings.sessions_week), Kind::WeekMost, subject);
        for limit in &allowance.limits {
            let days = self
                .sum(|placed| placed.group == group && limit.covers(self.week.slots[placed.slot].span.day()));
            self.at_most(days, f64::from(limit.most), Kind::PlannedFewer, subject);
        }
        true
    }

    /// Once a day, free days, hours between.
    fn days(&mut self, group: usize) {
        let subject = Subject::Group(group);
        let week = self.week;
        let free = i64::from(week.settings.free_days);
        let mut day = week.first;
        while day <= week.last {
            let within = |placed: Placed, days: i64| {
                let apart = days_between(day, week.slots[placed.slot].span.day());
                placed.group == group && (0..=days).contains(&apart)
            };
            let one = self.sum(|placed| within(placed, 0));
            self.at_most(one, 1.0, Kind::OnceADay, subject);
            if 0 < free {
                let run = self.sum(|placed| within(placed, free));
                self.at_most(run, 1.0, Kind::FreeDay, subject);
            }
            match day.checked_add(1.day()) {
                Ok(next) => day = next,
                Err(_) => break,
            }
        }
        let own: Vec<(Placed, Variable)> = self
            .session
            .iter()
            .filter(|(placed, _)| placed.group == group)
            .map(|(at, it)| (*at, *it))
            .collect();
        let least = minutes(week.settings.min_hours_between);
        for (at, (one, first)) in own.iter().enumerate() {
            for (other, second) in &own[at + 1..] {
                let (a, b) = (week.slots[one.slot].span, week.slots[other.slot].span);
                let apart = days_between(a.day(), b.day()).abs();
                let gap = a.minutes_to(b).max(b.minutes_to(a));
                // Days that the row above keeps apart need no row of their own, unless that row is left out.
                let is_covered = apart <= free && self.holds(Kind::FreeDay, subject) || apart == 0;
                if gap < least && !is_covered {
                    let pair: Expression = *first + *second;
                    self.at_most(Some(pair), 1.0, Kind::HoursBetween, subject);
                }
            }
        }
    }

    /// Moments at which something changes at any place, each with the stretch until the next.
    fn moments(&self) -> Vec<Span> {
        let mut ends: Vec<Stamp> = self
            .session
            .keys()
            .flat_map(|placed| {
                let span = self.week.slots[placed.slot].span;
                [span.start, span.end]
            })
            .collect();
        ends.sort_unstable();
        ends.dedup();
        ends.windows(2).map(|pair| Span { start: pair[0], end: pair[1] }).collect()
    }

    fn active(&self, moment: Span, place: Option<usize>) -> Vec<(Placed, Variable)> {
        self.session
            .iter()
            .filter(|(placed, _)| {
                let slot = &self.week.slots[placed.slot];
                place.is_none_or(|place| place == slot.place) && slot.span.covers(moment)
            })
            .map(|(placed, variable)| (*placed, *variable))
            .collect()
    }

    fn rooms(&mut self) {
        for place in 0..self.week.places.len() {
            let subject = Subject::Place(place);
            for moment in self.moments() {
                let active = self.active(moment, Some(place));
                let groups: Expression = active.iter().map(|(_, variable)| *variable).sum();
                let at_once = self.week.places[place].groups_at_once;
                if usize::try_from(at_once).is_ok_and(|at_once| at_once < active.len()) {
                    self.at_most(Some(groups), f64::from(at_once), Kind::Room, subject);
                }
                if let Some(room) = self.week.places[place].people {
                    let size = |placed: &Placed| f64::from(self.week.groups[placed.group].size);
                    let people: Expression =
                        active.iter().map(|(placed, variable)| size(placed) * *variable).sum();
                    if 1 < active.len() {
                        self.at_most(Some(people), f64::from(room), Kind::Room, subject);
                    }
                }
            }
        }
    }

    fn kit(&mut self) {
        for kit in 0..self.week.kit.len() {
            let need = |placed: &Placed| -> f64 {
                let needs = &self.week.groups[placed.group].needs;
                needs.iter().filter(|(which, _)| *which == kit).map(|(_, pieces)| f64::from(*pieces)).sum()
            };
            for moment in self.moments() {
                let active = self.active(moment, None);
                let used: Vec<(f64, Variable)> = active
                    .iter()
                    .map(|(placed, variable)| (need(placed), *variable))
                    .filter(|(pieces, _)| 0.0 < *pieces)
                    .collect();
                if 1 < used.len() {
                    let sum: Expression = used.iter().map(|(pieces, variable)| *pieces * *variable).sum();
                    self.at_most(
                        Some(sum),
                        f64::from(self.week.kit[kit].pieces),
                        Kind::Kit,
                        Subject::Kit(kit),
                    );
                }
            }
        }
    }

    fn adults(&mut self) {
        let week = self.week;
        if week.supervisors.is_empty() || !self.holds(Kind::Supervision, Subject::All) {
            return;
        }
        let rows = supervision_rows(week);
        for moment in self.moments() {
            let there = present(week, moment);
            let places: Vec<(usize, Vec<(Placed, Variable)>)> = (0..week.places.len())
                .map(|place| (place, self.active(moment, Some(place))))
                .filter(|(_, active)| !active.is_empty())
                .collect();
            let mut at_place: BTreeMap<(usize, usize), Variable> = BTreeMap::new();
            if 1 < places.len() {
                for adult in &there {
                    let mut once = Expression::default();
                    for (place, _) in &places {
                        let variable = self.variables.add(variable().binary());
                        at_place.insert((*adult, *place), variable);
                        once += variable;
                    }
                    self.rows.push(constraint!(once <= 1.0));
                }
            }
            for (place, active) in &places {
                self.watch(&rows, *place, active, &there, &at_place);
            }
        }
    }

    fn watch(
        &mut self,
        rows: &[SupervisionRow],
        place: usize,
        active: &[(Placed, Variable)],
        there: &[usize],
        at_place: &BTreeMap<(usize, usize), Variable>,
    ) {
        let week = self.week;
        for row in rows {
            let mut sum: Expression =
                active.iter().map(|(placed, variable)| (row.asks)(week, placed.group) * *variable).sum();
            let mut offered = if there.is_empty() { 0.0 } else { row.first };
            for adult in there {
                let offers = (row.offers)(week, *adult);
                match at_place.get(&(*adult, place)) {
                    Some(variable) => sum -= offers * *variable,
                    None => offered += offers,
                }
            }
            if self.loosens(Kind::Supervision, Subject::All) {
                let more = self.new_slack();
                let one = match week.supervisors.first() {
                    Some(_) => (row.offers)(week, there.first().copied().unwrap_or(0)).max(1.0),
                    None => 1.0,
                };
                sum -= one * more;
            }
            self.rows.push(constraint!(sum <= offered));
        }
    }

    fn solve(self, table: &Table) -> Solved {
        let Program { ask, variables, session, rows, slack, .. } = self;
        if session.is_empty() && rows.is_empty() {
            return Solved::Plan { sessions: Vec::new(), points: 0, at_most: 0, slack: 0 };
        }
        let mut objective: Expression =
            session.iter().map(|(placed, variable)| (ask.points)(*placed) as f64 * *variable).sum();
        if let Some(loosened) = ask.loosened {
            for (placed, variable) in &session {
                let short: i64 = table.reasons[placed.group][placed.slot]
                    .iter()
                    .filter(|reason| reason.requirement == Some(loosened))
                    .map(|reason| reason.short)
                    .sum();
                objective += -SLACK_PRICE * short as f64 * *variable;
            }
        }
        for variable in &slack {
            objective += -SLACK_PRICE * *variable;
        }
        let placed: Vec<Placed> = session.keys().copied().collect();
        let asked: Vec<Variable> = session.values().chain(&slack).copied().collect();
        match solver::run(variables.maximise(objective), rows, &asked, ask.seconds) {
            Ok(found) => {
                let (taken, used) = found.values.split_at(placed.len());
                let sessions: Vec<Placed> =
                    placed.iter().zip(taken).filter(|(_, value)| 0.5 < **value).map(|(at, _)| *at).collect();
                let points: i64 = sessions.iter().map(|placed| (ask.points)(*placed)).sum();
                // Points are whole, so a bound between two whole numbers is the lower of them.
                let at_most = match found.bound {
                    _ if found.is_proven => points,
                    Some(bound) if bound.is_finite() => ((bound + 1e-6).floor() as i64).max(points),
                    _ => i64::MAX,
                };
                let used: f64 = used.iter().sum();
                Solved::Plan { sessions, points, at_most, slack: used.round() as i64 }
            }
            Err(Nothing::Impossible) => Solved::Impossible,
            Err(Nothing::Unknown) => Solved::Unknown,
        }
    }
}
