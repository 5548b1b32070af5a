//! Who saw and changed what, and who may read that.

use app::desk::Draft;
use app::entry::audit::Of;
use app::facts::{PainFact, WhenWord};
use door::permit::Thing;
use door::principal::AccountId;
use door::role::{Licence, Role};
use jiff::civil::date;
use store::AuditVerdict;

use crate::build::*;

fn pain() -> Draft {
    Draft::new(&PainFact {
        date: at(0).today,
        when: WhenWord::Before,
        exercise: None,
        left: Some(0),
        right: Some(0),
        kind: Default::default(),
        signs: vec![],
        sign_side: None,
        asked: None,
    })
}

#[test]
fn what_is_seen_and_recorded_stands_in_the_audit_by_record_and_by_person() {
    let (mut desk, owner) = desk();
    let supervisor = let_in(&mut desk, &owner, 2, &new_account(Role::Supervisor, "sam"));
    desk.saw(&at(0), &owner, Thing::Pain, Some(swimmer(1))).unwrap();
    desk.saw(&at(9), &owner, Thing::Pain, Some(swimmer(1))).unwrap();
    desk.saw(&at(10), &owner, Thing::Pain, Some(swimmer(1))).unwrap();
    desk.saw(&at(10), &supervisor, Thing::Card, None).unwrap();
    let ids = desk.record_as(&at(11), &supervisor, swimmer(1), &[pain()]).unwrap();
    desk.record_as(&at(12), &supervisor, swimmer(2), &[pain()]).unwrap();
    let rows = desk.audit(&at(13), &owner, Of::Record(swimmer(1)), None, 99).unwrap();
    let told: Vec<(&str, &str, Option<Thing>)> =
        rows.iter().map(|row| (row.name.as_str(), row.act.as_str(), row.thing)).collect();
    assert_eq!(
        told,
        [
            ("Person sam", "changed", Some(Thing::ReportPain)),
            ("Person sam", "saw", Some(Thing::Card)),
            ("Person olga", "saw", Some(Thing::Pain)),
            ("Person olga", "saw", Some(Thing::Pain)),
        ],
        "a look within ten minutes of the same is one look"
    );
    assert_eq!(rows[0].item, Some(ids[0].uuid()));
    assert!(rows[1].everybody);
    let by = desk.audit(&at(13), &supervisor, Of::Account(AccountId(id(2))), None, 2).unwrap();
    assert_eq!(by.iter().map(|row| row.subject).collect::<Vec<_>>(), [Some(swimmer(2)), Some(swimmer(1))]);
    assert!(matches!(desk.store().verify_audit().unwrap(), AuditVerdict::Whole { .. }));
}

#[test]
fn the_audit_of_others_is_for_owners_and_of_a_record_for_its_own() {
    let (mut desk, owner) = desk();
    let guardian = let_in(&mut desk, &owner, 2, &new_account(Role::Guardian, "gus"));
    let coach = let_in(&mut desk, &owner, 3, &new_account(Role::HeadCoach, "cleo"));
    let read = |who, of| desk.audit(&at(1), who, of, None, 9).map(drop).map_err(|error| error.says);
    assert_eq!(read(&owner, Of::All), Ok(()));
    assert_eq!(read(&guardian, Of::All), Err("denied-role"));
    assert_eq!(read(&guardian, Of::Record(swimmer(1))), Ok(()));
    assert_eq!(read(&guardian, Of::Record(swimmer(2))), Err("denied-not-yours"));
    assert_eq!(read(&guardian, Of::Account(AccountId(id(2)))), Ok(()));
    assert_eq!(read(&guardian, Of::Account(AccountId(id(1)))), Err("denied-role"));
    assert_eq!(read(&coach, Of::Record(swimmer(1))), Err("denied-role"));
}

#[test]
fn nobody_records_what_is_not_theirs_to_record() {
    let (mut desk, owner) = desk();
    let guardian = let_in(&mut desk, &owner, 2, &new_account(Role::Guardian, "gus"));
    let coach = let_in(&mut desk, &owner, 3, &new_account(Role::HeadCoach, "cleo"));
    let said = |desk: &mut app::desk::Desk, who, whom, draft: Draft| {
        desk.record_as(&at(0), who, whom, &[draft]).map(drop).map_err(|error| error.says)
    };
    let facts = desk.store().counts().unwrap().facts;
    assert_eq!(said(&mut desk, &coach, swimmer(1), pain()), Err("denied-role"));
    assert_eq!(said(&mut desk, &guardian, swimmer(2), pain()), Err("denied-not-yours"));
    assert_eq!(said(&mut desk, &guardian, swimmer(9), pain()), Err("denied-not-yours"));
    let first = desk.store().live_facts(swimmer(1)).unwrap()[0].fact.told.id;
    assert_eq!(said(&mut desk, &guardian, swimmer(1), pain().correcting(first, "no")), Err("denied-role"));
    assert_eq!(desk.store().counts().unwrap().facts, facts);
    assert_eq!(said(&mut desk, &guardian, swimmer(1), pain()), Ok(()));
}

#[test]
fn a_letter_under_ones_own_licence_takes_that_licence_on_that_day() {
    let (mut desk, owner) = desk();
    let mut new = new_account(Role::Practitioner, "pia");
    new.licence = Some(Licence { number: "PT 4711".into(), until: date(2026, 3, 8) });
    let expired = let_in(&mut desk, &owner, 2, &new);
    let letter = |licence: &str| Draft {
        kind: app::facts::Kind::Clearance,
        payload: serde_json::json!({
            "date": "2026-03-07",
            "clinician": { "name": "Pia", "licence": licence, "licence_until": "2026-03-08" },
        })
        .to_string(),
        corrects: None,
    };
    let own = desk.record_as(&at(0), &expired, swimmer(1), &[letter("PT 4711")]);
    assert_eq!(own.unwrap_err().says, "denied-licence");
    assert!(
        desk.record_as(&at(0), &expired, swimmer(1), &[letter("DR 9")]).is_ok(),
        "somebody else's is filed"
    );
    let valid = Licence { number: "PT 4711".into(), until: date(2026, 3, 9) };
    desk.set_licence(&at(0), &owner, AccountId(id(2)), Some(&valid)).unwrap();
    let renewed = desk.account(AccountId(id(2))).unwrap().principal();
    assert!(desk.record_as(&at(0), &renewed, swimmer(1), &[letter("PT 4711")]).is_ok());
}
