//! One more warning never makes any proposal milder.
//!
//! What "milder" means: a proposal allows nothing, or a rung, a number of sets, a longest set, whether the sets run to
//! form loss, and whether it is a step. One proposal is milder than another when it allows more in any of these; two
//! short untimed sets of teaching are less than any timed set. So
//! the actions order themselves by what they allow: out, stop, left out and ask without a dose allow nothing; teach
//! allows a short untimed set; calibrate, restart and down allow less than stay, hold and a switch on the same rung;
//! a step up allows most. Two sets at the top of a ladder are no caution but what is left to do there, so they are
//! read as a full number of sets. Whether two proposals that allow the same are called stay or hold does not matter here.
//!
//! What a warning is: pain that is spoken, a sign, a ban, a referral, an illness, an absence that was not a holiday with
//! swimming, a set that turns out to have been unseen, a fault that turns out to have ended a set. A sign without
//! numbers carries no pain answer: a report that says "0, both sides" beside a sign is also an answer, and answers may
//! make a session count. A number spoken about a set that had ended for pain without one is an answer too: it replaces
//! "unknown", which holds more than a low number does, so those pairs are left out.

use proptest::prelude::*;
use quantity::Pain;
use trade::dosing::{Action, Proposal};
use trade::history::*;

use crate::build::*;
use crate::records::{absence, any_side, day, kind, record, when};

/// One more warning.
#[derive(Debug, Clone)]
enum Warning {
    Report(PainReport),
    Ban(Ban),
    Referral(Referral),
    Illness(Illness),
    Absence(Absence),
    /// The so-manieth cap was not seen after all.
    Unseen(usize),
    /// The so-manieth cap was form loss after so many seconds.
    Fault(usize, f64),
}

fn hurting() -> impl Strategy<Value = PainReport> {
    let number = || (0_i64..8).prop_map(pain);
    (day(), when(), number(), number(), kind())
        .prop_map(|(date, when, left, right, kind)| PainReport { kind, ..report(date, when, left, right) })
        .prop_filter("it hurts", |report| report.worst() != Some(Pain::NONE))
}

fn sign() -> impl Strategy<Value = PainReport> {
    (day(), prop::sample::select(Sign::ALL.to_vec()), any_side()).prop_map(|(date, sign, sign_side)| {
        PainReport { signs: [sign].into(), sign_side, ..report(date, PainWhen::Other, None, None) }
    })
}

fn warning() -> impl Strategy<Value = Warning> {
    let urgency = prop::sample::select(vec![Urgency::WithinAWeek, Urgency::SameDay, Urgency::Emergency]);
    prop_oneof![
        4 => hurting().prop_map(Warning::Report),
        2 => sign().prop_map(Warning::Report),
        1 => (day(), prop::option::of(day())).prop_map(|(from, until)| Warning::Ban(Ban { from, until, by: "D".to_owned() })),
        1 => (day(), any_side(), urgency).prop_map(|(opened, side, urgency)| Warning::Referral(Referral { opened, side, urgency, answered: None })),
        2 => (day(), any::<bool>(), prop::option::of(0_u16..9), day()).prop_map(|(from, fever, bed_days, free)| {
            Warning::Illness(Illness { from, fever, bed_days, symptom_free_from: (from <= free).then_some(free) })
        }),
        3 => absence()
            .prop_filter("not a holiday with swimming", |gone| gone.reason != AbsenceReason::Healthy || gone.kept_swimming == Some(false))
            .prop_map(Warning::Absence),
        2 => (0_usize..30).prop_map(Warning::Unseen),
        2 => ((0_usize..30), 1.0..119.0_f64).prop_map(|(which, time)| Warning::Fault(which, time.round())),
    ]
}

fn warned(history: &History, warning: &Warning) -> History {
    let mut history = history.clone();
    let mut caps = |which: usize, change: &dyn Fn(&mut Set)| {
        let sets = history
            .sessions
            .iter_mut()
            .flat_map(|session| &mut session.blocks)
            .flat_map(|block| &mut block.sets);
        if let Some(set) = sets.filter(|set| set.end == End::Cap).nth(which) {
            change(set);
        }
    };
    match warning {
        Warning::Unseen(which) => caps(*which, &|set| set.watched = Watched::Unseen),
        Warning::Fault(which, time) => caps(*which, &|set| {
            set.end = form("F03");
            set.time = seconds(*time).min(set.time);
        }),
        Warning::Report(report) => history.pains.push(report.clone()),
        Warning::Ban(ban) => history.bans.push(ban.clone()),
        Warning::Referral(referral) => history.referrals.push(referral.clone()),
        Warning::Illness(illness) => history.illnesses.push(illness.clone()),
        Warning::Absence(absence) => history.absences.push(absence.clone()),
    }
    history
}

fn answers_a_set_that_ended_for_pain(history: &History, warning: &Warning) -> bool {
    let Warning::Report(PainReport { when: PainWhen::During(_), date, .. }) = warning else { return false };
    let sessions = history.sessions.iter().filter(|session| session.date == *date);
    sessions.flat_map(|session| &session.blocks).flat_map(|block| &block.sets).any(|set| set.end == End::Pain)
}

/// What a proposal allows: rung, sets, longest set, to form loss, a step.
fn allows(proposal: &Proposal) -> (usize, u8, f64, bool, bool) {
    let Some(dose) = &proposal.dose else { return (0, 0, 0.0, false, false) };
    let exercise = protocol().exercise(&proposal.exercise).expect("known");
    let place = dose.rung.as_ref().and_then(|rung| exercise.place_of(rung)).map_or(1, |place| place + 1);
    let moves = dose.rung != proposal.from;
    let step = matches!(proposal.action, Action::Up | Action::Switch) && moves;
    (place, dose.sets, dose.cap.seconds(), dose.timed, step)
}

/// The rung is reached and there is nothing above it: kept with fewer sets.
fn only_keeps(proposal: &Proposal) -> bool {
    let says = |name: &str| proposal.trace.iter().any(|line| line.says == name);
    proposal.action == Action::Hold && says("progress-earned") && !says("progress-held")
}

fn is_milder(now: &Proposal, before: &Proposal) -> bool {
    let keeps = only_keeps(before);
    let (now, mut before) = (allows(now), allows(before));
    if keeps {
        before.1 = before.1.max(protocol().parameters.sets);
    }
    if before.3 && !now.3 {
        return before.0 < now.0 || before.2 < now.2;
    }
    before.0 < now.0 || before.1 < now.1 || before.2 < now.2 || (now.3 && !before.3) || (now.4 && !before.4)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, ..ProptestConfig::default() })]

    #[test]
    fn one_more_warning_never_makes_a_dose_milder(history in record(), warning in warning()) {
        prop_assume!(!answers_a_set_that_ended_for_pain(&history, &warning));
        let (_, before) = judged(protocol(), &history);
        let (_, after) = judged(protocol(), &warned(&history, &warning));
        for (before, after) in before.proposals.iter().zip(&after.proposals) {
            prop_assert!(!is_milder(after, before), "before {before:#?}\nafter {after:#?}");
        }
    }
}
