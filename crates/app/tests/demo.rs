//! The demo club: the same from one number, wholly readable, never past the gate, and every named case in the state
//! that docs/demo.md tells.

#![allow(clippy::unwrap_used, reason = "helpers of tests stop where a test would")]

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

use app::demo::{self, CAST, Case, DAY, SEED};
use app::desk::{Assessment, Desk, Person};
use app::facts::Verdict;
use jiff::ToSpan;
use jiff::civil::date;
use quantity::Pain;
use store::{ChainVerdict, Store};
use trade::ask::Reason;
use trade::dosing::{Action, Proposal, plan};
use trade::due::{Due, Kind};
use trade::gate::{Availability, gate};
use trade::history::{End, PainWhen, days_between};
use trade::name::ExerciseId;
use trade::protocol::shipped;
use trade::rule::dose_rules;
use trade::side::{Side, WorkingSide};

/// The cases must stand whatever number the demo starts from.
const SEEDS: [u64; 3] = [SEED, 0, 77];

fn desk(seed: u64) -> Desk {
    demo::open(seed, shipped().clone(), Store::in_memory().unwrap()).unwrap()
}

/// One case on the demo's day.
struct Seen {
    person: Person,
    assessment: Arc<Assessment>,
}

impl Seen {
    fn of(desk: &Desk, case: Case) -> Self {
        let name = CAST.iter().find(|member| member.case == case).unwrap().name;
        let person = desk.people().find(|person| person.read.swimmer.name == name).unwrap();
        Self { person: person.clone(), assessment: desk.assess(person, DAY) }
    }

    fn line(&self, exercise: &str, side: WorkingSide) -> &Proposal {
        let is_it = |proposal: &&Proposal| proposal.exercise.as_str() == exercise && proposal.side == side;
        self.assessment.plan.proposals.iter().find(is_it).unwrap()
    }

    fn person_is(&self, availability: Availability) {
        assert_eq!(self.assessment.gate.person(), availability, "{}", self.person.read.swimmer.name);
    }

    fn due(&self, kind: Kind) -> &Due {
        self.assessment.due.iter().find(|due| due.kind == kind).unwrap()
    }

    fn has_no_dose(&self) {
        let dosed: Vec<_> =
            self.assessment.plan.proposals.iter().filter(|proposal| proposal.dose.is_some()).collect();
        assert!(dosed.is_empty(), "{dosed:?}");
    }

    fn has_never_trained(&self) {
        assert!(self.person.read.history.sessions.iter().all(|session| session.blocks.is_empty()));
    }
}

/// Plays the seasons once for all tests: a desk can be handed from test to test, not shared.
fn for_each_seed(check: impl Fn(&Desk)) {
    static DESKS: LazyLock<Mutex<Vec<Desk>>> = LazyLock::new(|| Mutex::new(SEEDS.map(desk).into()));
    for desk in DESKS.lock().unwrap_or_else(PoisonError::into_inner).iter() {
        check(desk);
    }
}

#[test]
fn the_same_number_gives_the_same_club_and_another_number_another() {
    let digest = |seed| desk(seed).store().digest_of_state().unwrap();
    assert_eq!(digest(SEED), digest(SEED));
    assert_ne!(digest(SEED), digest(SEED + 1));
    let envelope = |seed| demo::facts(seed, shipped());
    assert_eq!(envelope(SEED), envelope(SEED), "author, device and times are the same as well");
}

#[test]
fn everything_can_be_read_and_nothing_is_contested() {
    for_each_seed(|desk| {
        assert!(desk.club().unreadable.is_empty());
        assert_eq!(desk.people().count(), CAST.len());
        for person in desk.people() {
            let name = &person.read.swimmer.name;
            assert!(person.read.unreadable.is_empty(), "{name}: {:?}", person.read.unreadable);
            assert_eq!(person.contested, 0, "{name}");
        }
        assert!(matches!(desk.store().verify_chain().unwrap(), ChainVerdict::Whole { erased: 0, .. }));
        assert!(desk.store().conflicts().unwrap().is_empty());
    });
}

#[test]
fn the_club_is_told_before_its_morning_and_in_a_few_thousand_facts() {
    let facts = demo::facts(SEED, shipped());
    let morning = demo::morning();
    assert!(facts.iter().all(|fact| fact.device_time < morning.stamp));
    assert!((3_000..15_000).contains(&facts.len()), "{}", facts.len());
    let corrections = facts.iter().filter(|fact| fact.correction.is_some()).count();
    assert_eq!(corrections, 1, "one typing slip stands corrected");
    let ids: BTreeSet<_> = facts.iter().map(|fact| fact.id).collect();
    assert_eq!(ids.len(), facts.len());
    assert!(facts.is_sorted_by(|one, other| one.device_time <= other.device_time));
    let mut running: BTreeMap<&str, u64> = BTreeMap::new();
    for fact in &facts {
        let last = running.entry(&fact.device).or_default();
        assert_eq!(fact.device_seq, *last + 1);
        *last = fact.device_seq;
    }
}

#[test]
fn names_are_varied_and_nobody_is_mixed_up() {
    let names: BTreeSet<&str> = CAST.iter().map(|member| member.name).collect();
    assert_eq!(names.len(), 26);
    let first = |name: &str| name.split(' ').next().unwrap().to_owned();
    let lukas = names.iter().filter(|name| first(name) == "Lukas").count();
    assert_eq!(lukas, 2, "two with one first name");
    let right_to_left = |name: &&&str| name.chars().any(|letter| ('\u{0590}'..='\u{08ff}').contains(&letter));
    assert_eq!(names.iter().filter(right_to_left).count(), 1);
    assert!(names.iter().any(|name| 40 < name.chars().count()), "a long one");
    let desk = desk(SEED);
    let ages: BTreeSet<i16> = desk.people().map(|person| person.read.history.swimmer.age_on(DAY)).collect();
    assert_eq!((ages.first(), ages.last()), (Some(&11), Some(&19)));
}

#[test]
fn nobody_trains_what_the_rules_do_not_give_on_that_day() {
    for_each_seed(|desk| {
        let protocol = desk.protocol();
        for person in desk.people() {
            let name = &person.read.swimmer.name;
            for session in &person.read.history.sessions {
                let day = session.date;
                let mut known = person.read.history.clone();
                known.sessions.retain(|other| other.date < day);
                known.taught.retain(|taught| taught.date < day);
                known.sign_offs.retain(|sign| sign.date < day);
                // Only what was said before the first set was known when it began.
                known.pains.retain(|report| {
                    report.date < day || matches!(report.when, PainWhen::NextMorning | PainWhen::Before)
                });
                let answer = gate(protocol, &known, day);
                let plan = plan(protocol, &known, &answer);
                for block in &session.blocks {
                    let is_it = |line: &&Proposal| line.exercise == block.exercise && line.side == block.side;
                    let line = plan.proposals.iter().find(is_it).unwrap();
                    let dose = line.dose.as_ref().unwrap_or_else(|| panic!("{name} {day} {line:?}"));
                    let exercise = protocol.exercise(&block.exercise).unwrap();
                    let rung = dose.rung.as_ref().unwrap();
                    assert!(dose.timed, "{name} {day} {line:?}");
                    assert!(
                        exercise.place_of(&block.used) <= exercise.place_of(rung),
                        "{name} {day} {line:?}"
                    );
                    assert!(block.sets.len() <= usize::from(dose.sets), "{name} {day} {line:?}");
                    assert!(block.sets.iter().all(|set| set.cap <= dose.cap), "{name} {day} {line:?}");
                }
            }
        }
    });
}

#[test]
fn nobody_goes_on_after_pain() {
    let desk = desk(SEED);
    let mut ends = 0;
    for person in desk.people() {
        for session in &person.read.history.sessions {
            for block in &session.blocks {
                if let Some(at) = block.sets.iter().position(|set| set.end == End::Pain) {
                    assert_eq!(at + 1, block.sets.len());
                    ends += 1;
                }
            }
        }
    }
    assert_eq!(ends, 3);
}

#[test]
fn sets_end_in_every_way_that_sets_end() {
    let desk = desk(SEED);
    let mut ends: BTreeMap<&str, usize> = BTreeMap::new();
    let mut faults = BTreeSet::new();
    for person in desk.people() {
        for session in &person.read.history.sessions {
            for set in session.blocks.iter().flat_map(|block| &block.sets) {
                let word = match &set.end {
                    End::Form(fault) => {
                        faults.insert(fault.clone());
                        "form"
                    }
                    End::Cap if set.watched == trade::history::Watched::Unseen => "unseen",
                    End::Cap => "cap",
                    End::ChoseToStop => "chose",
                    End::Pain => "pain",
                    End::Kit => "kit",
                    End::Left => "left",
                };
                *ends.entry(word).or_default() += 1;
            }
        }
    }
    assert_eq!(ends.len(), 7, "{ends:?}");
    assert!(10 <= faults.len(), "{faults:?}");
    assert!(ends["unseen"] * 5 < ends["cap"], "{ends:?}");
}

#[test]
fn the_day_begins_full_but_manageable() {
    for_each_seed(|desk| {
        let queue = desk.review_on(DAY);
        let (together, alone): (Vec<_>, Vec<_>) = queue.iter().partition(|waiting| waiting.may_go_together());
        assert!(5 <= together.len() && 5 <= alone.len() && queue.len() <= 60, "{}", queue.len());
        for action in [Action::Up, Action::Down, Action::Switch, Action::Restart, Action::Calibrate] {
            assert!(queue.iter().any(|waiting| waiting.proposal.action == action), "{action:?}");
        }
        let full = |person: &&Person| {
            let gate = &desk.assess(person, DAY).gate;
            Side::BOTH.iter().all(|side| gate.shoulder(*side) == Availability::Full)
        };
        assert!(16 <= desk.people().filter(full).count());
        let due: usize = desk.people().map(|person| desk.assess(person, DAY).due.len()).sum();
        assert!((12..=20).contains(&due), "{due}");
    });
}

#[test]
fn decisions_were_made_as_a_practitioner_makes_them() {
    let desk = desk(SEED);
    let decisions: Vec<_> = desk.people().flat_map(|person| &person.read.decisions).collect();
    let overridden: Vec<_> =
        decisions.iter().filter(|decision| decision.verdict == Verdict::Overridden).collect();
    assert!(3 <= overridden.len() && overridden.len() * 5 < decisions.len(), "{}", overridden.len());
    assert!(overridden.iter().all(|decision| decision.reason.is_some()));
    for decision in &decisions {
        assert_eq!(decision.protocol, desk.protocol().hash);
        assert!(!decision.codes.is_empty() && decision.date < DAY);
    }
    for person in desk.people() {
        for decision in &person.read.decisions {
            let up = decision.because == Some(app::facts::MoveWord::Up);
            assert!(!up || decision.proposed == "up");
        }
    }
}

#[test]
fn kit_is_known_by_its_force_and_one_inspection_is_overdue() {
    let desk = desk(SEED);
    let club = desk.club();
    assert!(club.kit.iter().any(|piece| piece.latex == Some(false) && piece.force_at_double_n.is_some()));
    let weeks = i32::from(desk.protocol().parameters.kit_inspection_weeks);
    let overdue: Vec<&str> = club
        .kit
        .iter()
        .filter(|piece| piece.force_at_double_n.is_some() && piece.withdrawn.is_none())
        .filter(|piece| {
            let looks = club.inspections.iter().filter(|look| look.mark == piece.mark);
            looks.map(|look| look.date).max().is_none_or(|last| weeks * 7 < days_between(last, DAY))
        })
        .map(|piece| piece.mark.as_str())
        .collect();
    assert_eq!(overdue, ["B-25"]);
    assert_eq!(club.about.as_ref().unwrap().zone, demo::ZONE);
    assert_eq!(club.calendar.meets.len(), 2);
    assert!(desk.next_practice("Youth", DAY).is_some());
}

#[test]
fn those_who_may_not_take_part() {
    for_each_seed(|desk| {
        let pain = Seen::of(desk, Case::PainOnMonday);
        pain.person_is(Availability::OutToday);
        let report = pain.person.read.history.pains.iter().rfind(|report| report.worst() > Some(Pain::NONE));
        assert_eq!(report.unwrap().when, PainWhen::During(Some(ExerciseId::new("RC-3"))));
        assert_eq!(report.unwrap().worst().map(Pain::get), Some(4));
        for kind in [Kind::NextMorning, Kind::TellGuardian, Kind::Water] {
            assert!(pain.due(kind).by <= DAY, "{kind:?}");
        }

        let expired = Seen::of(desk, Case::ConsentExpired);
        expired.person_is(Availability::NotYet);
        expired.has_no_dose();
        assert!((1..=14).contains(&days_between(expired.due(Kind::Consent).by, DAY)));

        let referred = Seen::of(desk, Case::ReferralUnanswered);
        assert_eq!(referred.assessment.gate.shoulder(Side::Right), Availability::OutReferred);
        assert_eq!(days_between(referred.person.read.history.referrals[0].opened, DAY), 9);
        assert!(referred.due(Kind::ReferralAnswer).by < DAY);

        let second = Seen::of(desk, Case::SecondPainEvent);
        assert_eq!(second.assessment.gate.shoulder(Side::Right), Availability::OutReferred);
        assert_eq!(second.assessment.gate.pain_events.len(), 2);
        second.due(Kind::WriteReferral);

        let story = Seen::of(desk, Case::DislocationStory);
        story.person_is(Availability::OutReferred);
        story.has_no_dose();
        story.has_never_trained();
        story.due(Kind::WriteReferral);

        let open = Seen::of(desk, Case::IntakeOpen);
        open.person_is(Availability::NotYet);
        open.has_no_dose();
        open.due(Kind::Intake);

        let missed = Seen::of(desk, Case::MissedScreening);
        missed.person_is(Availability::NotYet);
        missed.has_never_trained();
        assert!(missed.due(Kind::Screening).by < DAY);

        let eighteen = Seen::of(desk, Case::TurnedEighteen);
        assert_eq!(eighteen.person.read.history.swimmer.age_on(DAY), 18);
        let consents = &eighteen.person.read.history.consents;
        assert!(consents.iter().all(|consent| consent.relation != "self" && consent.withdrawn.is_none()));
        eighteen.person_is(Availability::NotYet);
        eighteen.due(Kind::Consent);
    });
}

#[test]
fn those_who_take_part_with_less() {
    for_each_seed(|desk| {
        let back = Seen::of(desk, Case::Absence);
        back.person_is(Availability::Full);
        let line = back.line("RC-1", WorkingSide::Left);
        assert_eq!(line.action, Action::Restart);
        assert!(line.dose.as_ref().unwrap().sets < desk.protocol().parameters.sets);
        let last = back.person.read.history.sessions.last().unwrap().date;
        assert!((21..=24).contains(&days_between(last, DAY)));

        let growth = Seen::of(desk, Case::GrowthSpurt);
        let hold = growth.assessment.gate.tracks.growth.as_ref().unwrap();
        assert!(hold.week <= 4, "{hold:?}");
        let caps = growth.assessment.plan.proposals.iter().filter_map(|line| line.dose.as_ref());
        assert!(
            caps.clone().count() > 5
                && caps.clone().all(|dose| dose.cap <= desk.protocol().parameters.growth_cap)
        );
        let in_hold =
            desk.people().filter(|person| desk.assess(person, DAY).gate.tracks.growth.is_some()).count();
        assert_eq!(in_hold, 1, "nobody else grows by accident");

        let limited = Seen::of(desk, Case::LimitEnding);
        assert_eq!(limited.assessment.gate.shoulder(Side::Left), Availability::Limited);
        assert_eq!(limited.assessment.gate.shoulder(Side::Right), Availability::Full);
        assert!((1..=12).contains(&days_between(DAY, limited.due(Kind::LimitEnds).by)));
        assert_eq!(limited.line("RC-1", WorkingSide::Left).dose.as_ref().unwrap().sets, 2);

        let lax = Seen::of(desk, Case::Hypermobile);
        assert!(lax.assessment.gate.tracks.hypermobile.is_some());
        assert_eq!(lax.line("RC-1", WorkingSide::Left).count.need, 2);

        let beginner = Seen::of(desk, Case::Beginner);
        assert_eq!(beginner.person.read.history.swimmer.age_on(DAY), 11);
        let line = beginner.line("SC-1", WorkingSide::Both);
        assert!(line.action == Action::Up && !line.alone.is_empty(), "{line:?}");

        let teaching = Seen::of(desk, Case::Teaching);
        let actions: BTreeSet<Action> =
            teaching.assessment.plan.proposals.iter().map(|line| line.action).collect();
        assert!(actions.is_superset(&BTreeSet::from([Action::Teach, Action::Calibrate])), "{actions:?}");
        teaching.has_never_trained();
        assert!(!teaching.person.read.history.taught.is_empty());
    });
}

#[test]
fn those_whose_sets_say_something() {
    for_each_seed(|desk| {
        let weak = Seen::of(desk, Case::WeakArm);
        assert_eq!(weak.assessment.gate.weaker_arm, Some(Side::Left));
        let right = weak.line("RC-1", WorkingSide::Right);
        assert_eq!((right.action, right.trace[0].rule), (Action::Hold, dose_rules::P13));

        let limit = Seen::of(desk, Case::ScaptionLimit);
        let line = limit.line("RC-3", WorkingSide::Both);
        assert_eq!(line.action, Action::Switch);
        assert_eq!(line.from.as_ref().unwrap().as_str(), "w220");

        let plateau = Seen::of(desk, Case::Plateau);
        let line = plateau.line("SC-2", WorkingSide::Both);
        assert_eq!((line.action, line.trace[0].rule), (Action::Switch, dose_rules::P9));
        assert!(!line.alone.is_empty());

        let falling = Seen::of(desk, Case::FallingTimes);
        let line = falling.line("RC-1", WorkingSide::Left);
        assert_eq!((line.action, line.trace[0].rule), (Action::Hold, dose_rules::P10));
        let told: Vec<_> =
            falling.person.read.history.pains.iter().filter(|pain| date(2026, 11, 16) <= pain.date).collect();
        assert!(
            4 <= told.len() && told.iter().all(|pain| pain.is_complete() && pain.worst() == Some(Pain::NONE))
        );

        let too_big = Seen::of(desk, Case::RungTooBig);
        for side in [WorkingSide::Left, WorkingSide::Right] {
            assert_eq!(too_big.line("RC-1", side).action, Action::Down);
        }

        let unseen = Seen::of(desk, Case::UnseenCaps);
        let line = unseen.line("SC-1", WorkingSide::Both);
        assert_eq!(line.count.have, 0);
        assert!(line.alone.iter().any(|line| line.says == "alone-unseen"), "{line:?}");

        let held = Seen::of(desk, Case::HeldStep);
        let line = held.line("SC-1", WorkingSide::Both);
        assert_eq!(line.action, Action::Up);
        let last = held.person.read.history.sessions.iter().rfind(|session| {
            session.blocks.iter().any(|block| block.exercise == line.exercise && block.prescribed_sets == 2)
        });
        assert!(last.is_some(), "the lighter week lies between");
        assert!(
            held.person
                .read
                .decisions
                .iter()
                .all(|decision| decision.exercise != "SC-1" || decision.proposed != "up")
        );

        let jump = Seen::of(desk, Case::WaterJump);
        jump.due(Kind::Talk);
        jump.person_is(Availability::Full);

        let adult = Seen::of(desk, Case::Adult);
        assert!(18 <= adult.person.read.history.swimmer.age_on(DAY));
        adult.person_is(Availability::Full);
        adult.due(Kind::Retest);

        let latex = Seen::of(desk, Case::LatexAllergy);
        assert!(latex.person.read.swimmer.emergency_note.as_ref().unwrap().contains("atex"));
    });
}

#[test]
fn the_page_about_the_demo_names_everybody() {
    let page = include_str!("../../../docs/demo.md");
    for member in &CAST {
        assert!(page.contains(member.name), "{}", member.name);
    }
    let monday = DAY.saturating_sub(2.days());
    assert!(page.contains("Wednesday 25 November 2026") && monday == date(2026, 11, 23));
}

#[test]
fn whom_to_ask_begins_with_what_waits_least_well() {
    for_each_seed(|desk| {
        let asking = app::asking::whom_to_ask(desk, DAY);
        let reasons = |case: Case| {
            let name = CAST.iter().find(|member| member.case == case).unwrap().name;
            let whom = asking.whom.iter().find(|whom| whom.person.read.swimmer.name == name);
            whom.map(|whom| whom.asks.iter().map(|ask| ask.reason).collect::<Vec<_>>()).unwrap_or_default()
        };
        assert_eq!(asking.whom[0].asks[0].reason, Reason::Substantial);
        assert!(reasons(Case::SecondPainEvent).contains(&Reason::Substantial));
        assert!(reasons(Case::FallingTimes).contains(&Reason::HiddenPain));
        assert!(reasons(Case::Hypermobile).contains(&Reason::StaysOrGrows));
        assert!(reasons(Case::WaterJump).contains(&Reason::Water));
        assert!(reasons(Case::TurnedEighteen).contains(&Reason::Silence));
        assert!(asking.whom.is_sorted_by_key(|whom| whom.asks[0].reason));
    });
}
