//! Making, confirming and closing accounts.

use app::entry::NewAccount;
use door::code::Purpose;
use door::principal::{AccountId, Principal};
use door::role::{Licence, Role};
use jiff::civil::date;

use crate::build::*;

#[test]
fn the_first_run_makes_the_owner_and_only_the_first() {
    let mut desk = empty_desk();
    assert!(desk.is_first_run().unwrap());
    assert_eq!(desk.open_accounts().unwrap(), 0);
    let owner = desk.make_owner(&at(0), id(1), &new_account(Role::HeadCoach, "Olga"), &HASH).unwrap();
    assert_eq!(desk.account(owner).unwrap().role, Role::Owner, "whatever was asked for");
    assert_eq!(desk.account(owner).unwrap().login.as_deref(), Some("olga"));
    assert_eq!(desk.open_accounts().unwrap(), 1);
    let second = desk.make_owner(&at(0), id(2), &new_account(Role::Owner, "otto"), &HASH);
    assert_eq!(second.unwrap_err().says, "door-not-first");
    // Not even once every account is closed does the first run come back.
    let closed = desk.close_account(&at(1), &Principal::laptop("L"), owner);
    assert_eq!(closed.unwrap_err().says, "door-last-owner");
}

#[test]
fn an_account_that_an_administrator_made_waits_for_the_owner_where_it_sees_health_data() {
    let (mut desk, owner) = desk();
    let admin = let_in(&mut desk, &owner, 2, &new_account(Role::Administrator, "ada"));
    let refused = |desk: &mut app::desk::Desk, role| {
        let code = new_code(3, Purpose::Invitation);
        desk.make_account(&at(0), &admin, id(3), &new_account(role, "eve"), &code).unwrap_err().says
    };
    assert_eq!(refused(&mut desk, Role::Owner), "denied-give-role");
    assert_eq!(refused(&mut desk, Role::Practitioner), "denied-give-role");

    let guardian = let_in(&mut desk, &admin, 4, &new_account(Role::Guardian, "gus"));
    let account = AccountId(id(4));
    assert!(!desk.account(account).unwrap().is_open());
    assert_eq!(desk.who(&at(0), &token(104)).unwrap(), None);
    assert!(sign_in(&mut desk, 1, "gus", PASSWORD, lan(5), token(5)).is_err());
    assert_eq!(
        desk.confirm_account(&at(1), &admin, account).unwrap_err().says,
        "denied-owner-only",
        "not by whoever made it"
    );
    desk.confirm_account(&at(1), &owner, account).unwrap();
    assert_eq!(sign_in(&mut desk, 1, "gus", PASSWORD, lan(5), token(5)).unwrap().who, guardian);

    // Inviting anew would be a way to take it over: it waits again.
    desk.invite_again(&at(2), &admin, account, &new_code(6, Purpose::Invitation)).unwrap();
    assert!(!desk.account(account).unwrap().is_open());
    assert_eq!(desk.who(&at(2), &token(5)).unwrap(), None);
    let coach = let_in(&mut desk, &admin, 7, &new_account(Role::HeadCoach, "cleo"));
    assert_eq!(sign_in(&mut desk, 3, "cleo", PASSWORD, lan(6), token(6)).unwrap().who, coach);
    assert!(desk.invite_again(&at(3), &admin, AccountId(id(1)), &new_code(8, Purpose::Invitation)).is_err());
}

#[test]
fn nobody_else_makes_accounts_and_only_an_owner_records_a_licence() {
    let (mut desk, owner) = desk();
    let admin = let_in(&mut desk, &owner, 2, &new_account(Role::Administrator, "ada"));
    let licence = Licence { number: "PT 4711".into(), until: date(2027, 1, 31) };
    for (number, role) in
        [(3, Role::Practitioner), (4, Role::Supervisor), (5, Role::HeadCoach), (6, Role::Swimmer)]
    {
        let who = let_in(&mut desk, &owner, number, &new_account(role, &format!("p{number}")));
        let code = new_code(9, Purpose::Invitation);
        let made = desk.make_account(&at(0), &who, id(9), &new_account(Role::HeadCoach, "eve"), &code);
        assert_eq!(made.unwrap_err().says, "denied-role", "{role:?}");
        assert!(desk.set_licence(&at(0), &who, AccountId(id(number)), Some(&licence)).is_err());
    }
    assert!(desk.set_licence(&at(0), &admin, AccountId(id(3)), Some(&licence)).is_err());
    desk.set_licence(&at(0), &owner, AccountId(id(3)), Some(&licence)).unwrap();
    assert_eq!(desk.account(AccountId(id(3))).unwrap().licence, Some(licence));
}

#[test]
fn an_account_fits_its_role_or_is_not_made() {
    let (mut desk, owner) = desk();
    let mut said = |change: &dyn Fn(&mut NewAccount)| {
        let mut new = new_account(Role::Swimmer, "ana");
        change(&mut new);
        let made = desk.make_account(&at(0), &owner, id(2), &new, &new_code(2, Purpose::Invitation));
        made.map(drop).map_err(|error| error.says)
    };
    assert_eq!(said(&|new| new.bound.clear()), Err("door-bound-shape"));
    assert_eq!(said(&|new| _ = new.bound.insert(swimmer(2), Default::default())), Err("door-bound-shape"));
    assert_eq!(said(&|new| new.role = Role::HeadCoach), Err("door-bound-shape"));
    assert_eq!(said(&|new| new.bound = [(swimmer(9), Default::default())].into()), Err("error-no-swimmer"));
    assert_eq!(said(&|new| new.login = "olga".into()), Err("door-login-taken"));
    assert_eq!(said(&|new| new.login = "../olga".into()), Err("door-login-shape"));
    assert_eq!(said(&|new| new.name = " ".into()), Err("door-name-shape"));
    assert_eq!(said(&|_| {}), Ok(()));
}

#[test]
fn closing_an_account_ends_its_sessions_at_once() {
    let (mut desk, owner) = desk();
    let_in(&mut desk, &owner, 2, &new_account(Role::HeadCoach, "cleo"));
    sign_in(&mut desk, 0, "cleo", PASSWORD, lan(1), token(7)).unwrap();
    desk.close_account(&at(1), &owner, AccountId(id(2))).unwrap();
    assert_eq!(desk.who(&at(1), &token(7)).unwrap(), None);
    assert!(sign_in(&mut desk, 1, "cleo", PASSWORD, lan(1), token(8)).is_err());
}
