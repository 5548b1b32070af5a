//! The door's rows: what is kept, what goes together, and what erasure does to them.

use store::{AccountRow, AuditVerdict, BindingRow, ChainVerdict, CodeRow, Erasure, NewAudit, Store, Via};
use uuid::Uuid;

use crate::build::*;

fn who(number: u128) -> Uuid {
    Uuid::from_u128((2 << 100) + number)
}

fn account(number: u128, login: &str, role: &str) -> AccountRow {
    AccountRow {
        id: who(number),
        role: role.into(),
        created: 1000,
        login: Some(login.into()),
        name: format!("MARK {login}"),
        password: Some("MARK-password".into()),
        licence: Some(("MARK-licence".into(), "2027-01-31".into())),
        confirmed: true,
        closed: None,
    }
}

fn look(number: u128, whom: Option<u64>) -> NewAudit {
    NewAudit {
        at: 5000,
        via: Via::Account(who(number)),
        role: Some("owner".into()),
        act: "saw".into(),
        thing: Some("pain".into()),
        subject: whom.map(subject),
        everybody: whom.is_none(),
        item: None,
    }
}

fn with_two() -> Store {
    let mut store = store_of(vec![fact(1), about(fact(2), 2)]);
    store
        .at_door(|door| {
            door.insert_account(&account(1, "ana", "owner"))?;
            door.insert_account(&account(2, "eva", "guardian"))?;
            door.bind(who(2), BindingRow { subject: subject(1), history: false })?;
            door.insert_session(&[1; 32], who(1), 2000)?;
            door.insert_session(&[2; 32], who(2), 2000)
        })
        .unwrap();
    store
}

#[test]
fn rows_come_back_as_they_were_put() {
    let mut store = with_two();
    assert_eq!(store.accounts().unwrap(), [account(1, "ana", "owner"), account(2, "eva", "guardian")]);
    assert_eq!(store.account_by_login("ana").unwrap(), store.account(who(1)).unwrap());
    assert_eq!(store.account_by_login("Ana").unwrap(), None);
    assert_eq!(store.accounts_bound_to(subject(1)).unwrap(), [who(2)]);
    let session = store.session(&[2; 32]).unwrap().unwrap();
    assert_eq!((session.account, session.began, session.seen), (who(2), 2000, 2000));
    store
        .at_door(|door| {
            door.note_session(&[2; 32], 3000)?;
            door.note_session(&[2; 32], 2500)?;
            door.drop_old_sessions(0, 2000)
        })
        .unwrap();
    assert_eq!(store.session(&[2; 32]).unwrap().unwrap().seen, 3000, "use is never noted backwards");
    assert_eq!(store.session(&[1; 32]).unwrap(), None);

    store.at_door(|door| door.insert_device(who(9), &[9; 32], "phone", Some(who(1)), 4000)).unwrap();
    assert_eq!(store.device_by_token(&[9; 32]).unwrap().unwrap().label, "phone");
    assert!(store.at_door(|door| door.end_device(who(9), 4500)).unwrap());
    assert_eq!(store.device_by_token(&[9; 32]).unwrap(), None);
    assert_eq!(store.devices().unwrap()[0].ended, Some(4500));
}

#[test]
fn a_change_that_fails_leaves_nothing_and_facts_are_untouched() {
    let mut store = with_two();
    let (digest, revision) = (store.digest_of_state().unwrap(), store.revision());
    let failed = store.at_door(|door| {
        door.end_sessions_of(who(1))?;
        door.audit(&look(1, None))?;
        door.insert_account(&account(3, "ana", "owner"))
    });
    assert!(failed.is_err(), "the login is taken");
    assert!(store.session(&[1; 32]).unwrap().is_some());
    assert_eq!(store.audit_page(None, 9).unwrap(), []);
    assert_eq!((store.digest_of_state().unwrap(), store.revision()), (digest, revision));
    let said: Vec<String> = store.export_facts().unwrap().iter().map(|record| record.to_line()).collect();
    assert!(!said.concat().contains("MARK"), "nothing of the door is in the log");
}

#[test]
fn one_code_is_open_for_one_purpose() {
    let mut store = with_two();
    let code = |number, account: Option<u128>| CodeRow {
        id: who(number),
        purpose: "pairing".into(),
        account: account.map(who),
        made_by: Some(who(1)),
        hash: [7; 32],
        ends: 9000,
        wrong: 0,
    };
    for row in [code(20, None), code(21, Some(2)), code(22, None)] {
        store.at_door(|door| door.put_code(&row)).unwrap();
    }
    store.at_door(|door| door.wrong_code(who(22))).unwrap();
    assert_eq!(store.code("pairing", None).unwrap(), Some(CodeRow { wrong: 1, ..code(22, None) }));
    assert_eq!(store.code("pairing", Some(who(2))).unwrap(), Some(code(21, Some(2))));
    assert_eq!(store.code("recovery", None).unwrap(), None);
    store.at_door(|door| door.drop_code("pairing", None)).unwrap();
    assert_eq!(store.code("pairing", None).unwrap(), None);
}

#[test]
fn tries_are_remembered_and_forgotten() {
    let mut store = with_two();
    store.at_door(|door| [10, 20, 20, 30].iter().try_for_each(|at| door.insert_try(&[1; 32], *at))).unwrap();
    assert_eq!(store.tries(&[1; 32], 20).unwrap(), [20, 20, 30]);
    store.at_door(|door| door.forget_try(&[1; 32], 20)).unwrap();
    assert_eq!(store.tries(&[1; 32], 0).unwrap(), [10, 20, 30]);
    store.at_door(|door| door.forget_old_tries(20)).unwrap();
    assert_eq!(store.tries(&[1; 32], 0).unwrap(), [30]);
    store.at_door(|door| door.forget_bucket(&[1; 32])).unwrap();
    assert!(store.tries(&[1; 32], 0).unwrap().is_empty());
}

#[test]
fn the_audit_is_read_by_person_and_by_record_and_only_grows() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    for entry in [look(1, Some(1)), look(2, Some(2)), look(1, None), look(2, Some(1))] {
        store.at_door(|door| door.audit(&entry)).unwrap();
    }
    let places = |rows: Vec<store::AuditRow>| rows.iter().map(|row| row.seq).collect::<Vec<_>>();
    assert_eq!(places(store.audit_of_subject(subject(1), None, 9).unwrap()), [4, 3, 1]);
    assert_eq!(places(store.audit_of_subject(subject(1), Some(4), 1).unwrap()), [3]);
    assert_eq!(places(store.audit_of_who(who(1), None, 9).unwrap()), [3, 1]);
    assert_eq!(places(store.audit_page(None, 2).unwrap()), [4, 3]);
    assert_eq!(store.audit_page(None, 9).unwrap()[3].entry, look(1, Some(1)));
    assert_eq!(store.last_alike(&look(2, Some(1))).unwrap(), Some(5000));
    assert_eq!(store.last_alike(&look(2, None)).unwrap(), None);
    assert!(matches!(store.verify_audit().unwrap(), AuditVerdict::Whole { rows: 4, .. }));
    drop(store);

    let connection = raw(&path);
    for statement in [
        "UPDATE door_audit SET who = NULL, via = 'nobody' WHERE seq = 2",
        "DELETE FROM door_audit WHERE seq = 4",
        "INSERT OR REPLACE INTO door_audit SELECT * FROM door_audit WHERE seq = 1",
        "DELETE FROM door_accounts",
    ] {
        let refused = connection.execute(statement, []);
        assert!(refused.is_err() || refused == Ok(0), "{statement}");
    }
    connection.execute_batch("DROP TRIGGER door_audit_is_not_changed").unwrap();
    connection.execute("UPDATE door_audit SET thing = 'roster' WHERE seq = 2", []).unwrap();
    drop(connection);
    let verdict = Store::open(&path, EXISTING).unwrap().verify_audit().unwrap();
    assert_eq!(verdict, AuditVerdict::Broken { seq: 2 });
}

#[test]
fn a_closed_account_stays_closed_and_frees_its_login() {
    let mut store = with_two();
    assert!(store.at_door(|door| door.close_account(who(1), 7000)).unwrap());
    assert!(!store.at_door(|door| door.close_account(who(1), 8000)).unwrap());
    let closed = store.account(who(1)).unwrap().unwrap();
    assert_eq!((closed.closed, closed.password, closed.licence), (Some(7000), None, None));
    assert_eq!(closed.name, "MARK ana", "the audit still names who it was");
    assert_eq!(store.session(&[1; 32]).unwrap(), None);
    assert!(!store.at_door(|door| door.update_account(&account(1, "ana", "owner"))).unwrap());
    store.at_door(|door| door.insert_account(&account(4, "ana", "owner"))).unwrap();
}

#[test]
fn erasing_a_swimmer_closes_the_accounts_that_were_theirs_alone() {
    let scratch = Scratch::new();
    let path = scratch.path("club.db");
    let mut store = Store::open(&path, CREATE).unwrap();
    store.append(&batch(vec![fact(1), about(fact(2), 2)])).unwrap();
    store
        .at_door(|door| {
            door.insert_account(&account(1, "alone", "swimmer"))?;
            door.insert_account(&account(2, "both", "guardian"))?;
            door.bind(who(1), BindingRow { subject: subject(1), history: true })?;
            door.bind(who(2), BindingRow { subject: subject(1), history: false })?;
            door.bind(who(2), BindingRow { subject: subject(2), history: false })?;
            door.insert_session(&[1; 32], who(1), 2000)?;
            door.insert_session(&[2; 32], who(2), 2000)?;
            door.audit(&look(1, Some(1)))
        })
        .unwrap();
    let act = Erasure {
        subject: subject(1),
        author: "administrator".into(),
        at: "2026-06-01T10:00:00Z".into(),
        ground: "request".into(),
    };
    assert_eq!(store.erase_subject(&act).unwrap().accounts, 1);
    let alone = store.account(who(1)).unwrap().unwrap();
    assert_eq!((alone.login, alone.name.as_str(), alone.closed), (None, "", Some(1_780_308_000_000)));
    assert_eq!(store.session(&[1; 32]).unwrap(), None);
    assert!(store.session(&[2; 32]).unwrap().is_some());
    assert_eq!(store.bindings_of_account(who(2)).unwrap().len(), 1);
    assert!(matches!(store.verify_chain().unwrap(), ChainVerdict::Whole { erased: 1, .. }));
    assert!(matches!(store.verify_audit().unwrap(), AuditVerdict::Whole { rows: 1, .. }));
    let bytes = scratch.contents().into_iter().flat_map(|(_, bytes)| bytes).collect::<Vec<_>>();
    assert!(!bytes.windows(10).any(|ten| ten == b"MARK alone"));
}

#[test]
fn the_newest_setting_counts_and_earlier_ones_are_kept() {
    let mut store = Store::in_memory().unwrap();
    assert_eq!(store.setting("retention").unwrap(), None);
    for value in ["10", "8"] {
        store.at_door(|door| door.insert_setting("retention", value, 1)).unwrap();
    }
    assert_eq!(store.setting("retention").unwrap().as_deref(), Some("8"));
}
