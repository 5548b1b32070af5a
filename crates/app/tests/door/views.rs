//! What each role is shown: what it must be, and nothing that it must not be.

use std::collections::BTreeMap;

use app::demo;
use app::roles::{CoachView, View};
use door::permit::{Reach, reach};
use door::principal::{AccountId, Binding, Principal, Via};
use door::role::Role;
use store::{Store, SubjectId};
use trade::protocol::read::shipped;
use trade::trace::Class;

use crate::build::*;
use crate::canaries::{MARKS, mark};

fn someone(role: Role, history: bool) -> Principal {
    let bound = match role.is_bound() {
        true => BTreeMap::from([(app::entry::subject_of(swimmer(1)), Binding { history })]),
        false => BTreeMap::new(),
    };
    Principal { via: Via::Account(AccountId(id(9))), name: "Sam".into(), role, licence: None, bound }
}

fn shown(view: &View) -> String {
    serde_json::to_string(view).unwrap()
}

#[test]
fn every_mark_is_seen_by_whoever_may_see_it_and_by_nobody_else() {
    let (mut desk, _) = desk();
    mark(&mut desk, swimmer(1));
    for role in Role::ALL {
        let who = someone(role, true);
        let one = shown(&desk.view_for(&who, swimmer(1), at(0).today).unwrap());
        let all: String = desk.views_for(&who, at(0).today).unwrap().iter().map(shown).collect();
        for (canary, things) in MARKS {
            let may = things.iter().any(|thing| reach(role, *thing) != Reach::Nothing);
            assert_eq!(one.contains(canary), may, "{role:?} and {canary}: {one}");
            assert_eq!(all.contains(canary), may, "{role:?} and {canary} in the list");
        }
        assert!(!one.contains("CANARY-correction") || role == Role::Owner, "{role:?}");
    }
}

#[test]
fn a_guardian_of_a_teenager_who_has_not_agreed_sees_no_history() {
    let (mut desk, _) = desk();
    mark(&mut desk, swimmer(1));
    let told = shown(&desk.view_for(&someone(Role::Guardian, false), swimmer(1), at(0).today).unwrap());
    let agreed = shown(&desk.view_for(&someone(Role::Guardian, true), swimmer(1), at(0).today).unwrap());
    for mark in ["171.37", "2026-01-17", "2026-01-03", "\"worry\""] {
        assert!(!told.contains(mark), "{mark}");
        assert!(agreed.contains(mark), "{mark}");
    }
    assert!(told.contains("CANARY-pain") && told.contains("CANARY-limit"));
}

#[test]
fn the_record_of_another_is_refused_as_if_it_were_not_there() {
    let (mut desk, _) = desk();
    mark(&mut desk, swimmer(1));
    let today = at(0).today;
    for role in [Role::Swimmer, Role::Guardian] {
        let who = someone(role, true);
        let other = desk.view_for(&who, swimmer(2), today).unwrap_err();
        assert_eq!(other.says, "denied-not-yours");
        assert_eq!(desk.view_for(&who, swimmer(99), today).unwrap_err(), other);
        let listed = desk.views_for(&who, today).unwrap();
        assert_eq!(listed.len(), 1);
        assert!(!shown(&listed[0]).contains("Ben Specimen"));
    }
    let grown = jiff::civil::date(2029, 5, 1);
    assert_eq!(
        desk.view_for(&someone(Role::Guardian, true), swimmer(1), grown).unwrap_err().says,
        "denied-of-age"
    );
    assert_eq!(desk.views_for(&someone(Role::Guardian, true), grown).unwrap(), []);
    assert!(desk.view_for(&someone(Role::Swimmer, true), swimmer(1), grown).is_ok());
    for role in [Role::Owner, Role::Supervisor, Role::HeadCoach, Role::Administrator] {
        assert_eq!(desk.views_for(&someone(role, false), today).unwrap().len(), 2, "{role:?}");
    }
}

/// Every swimmer of the demo club, with everything that is awkward about them.
#[test]
fn no_health_word_reaches_the_coach_of_the_demo_club() {
    let desk = demo::open(demo::SEED, shipped().clone(), Store::in_memory().unwrap()).unwrap();
    let mut kinds_of_availability = std::collections::BTreeSet::new();
    let mut sentences = 0;
    for person in desk.people() {
        let mut view = CoachView::of(&desk, person, demo::DAY);
        kinds_of_availability.insert(view.availability);
        // What a person wrote for the coach is that person's to answer for.
        view.water = String::new();
        let json = serde_json::to_string(&view).unwrap().to_lowercase();
        let assessment = desk.assess(person, demo::DAY);
        let gate = &assessment.gate;
        let holds = gate.holds.iter().map(|hold| &hold.line).chain(&gate.notes);
        let traces = assessment.plan.proposals.iter().flat_map(|proposal| &proposal.trace);
        let due = assessment.due.iter().map(|due| &due.line);
        for line in holds.chain(traces).chain(due).filter(|line| line.class != Class::Availability) {
            let says = desk.texts().line(line, desk.reader()).to_lowercase();
            assert!(!json.contains(&says), "{says}");
            sentences += 1;
        }
        for word in [
            "pain",
            "sore",
            "fever",
            "ill",
            "injur",
            "shoulder",
            "left",
            "right",
            "screen",
            "consent",
            "refer",
            "clinic",
            "doctor",
            "growth",
            "lax",
            "weak",
            "sign",
            "hurt",
            "emergency",
            "asthma",
        ] {
            let values = json.replace("\"availability\"", "");
            assert!(!values.contains(word), "{word} in {json}");
        }
    }
    assert!(3 <= kinds_of_availability.len(), "{kinds_of_availability:?}");
    assert!(100 < sentences);
}

#[test]
fn what_is_out_referred_and_what_is_out_today_look_the_same_to_the_coach() {
    let desk = demo::open(demo::SEED, shipped().clone(), Store::in_memory().unwrap()).unwrap();
    let words: std::collections::BTreeSet<&str> =
        desk.people().map(|person| CoachView::of(&desk, person, demo::DAY).availability).collect();
    assert!(words.iter().all(|word| ["full", "limited", "not yet", "out"].contains(word)), "{words:?}");
}

#[test]
fn the_club_itself_is_nobodys_record() {
    let (desk, owner) = desk();
    assert!(desk.view_for(&owner, SubjectId::CLUB, at(0).today).is_err());
}
