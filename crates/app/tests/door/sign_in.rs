//! Name and password: guessing, planted and stolen tokens, and what ends a session.

use app::entry::{Begun, TryIn};
use door::limit::PER_ACCOUNT;
use door::principal::AccountId;
use door::role::Role;
use proptest::prelude::*;

use crate::build::*;

fn begin(desk: &mut app::desk::Desk, minutes: i64, login: &str, last: u8) -> Option<TryIn> {
    match desk.begin_sign_in(&at(minutes), login, lan(last)).unwrap() {
        Begun::Try(begun) => Some(begun),
        Begun::Locked { .. } => None,
    }
}

#[test]
fn the_right_password_comes_in_and_anything_else_gets_one_answer() {
    let (mut desk, _) = desk();
    let inside = sign_in(&mut desk, 0, " OLGA ", PASSWORD, lan(1), token(1)).unwrap();
    assert_eq!((inside.account, inside.who.role), (AccountId(id(1)), Role::Owner));
    assert_eq!(desk.who(&at(1), &token(1)).unwrap().unwrap().who, inside.who);
    let wrong = |desk: &mut app::desk::Desk, login: &str, password: &str| {
        sign_in(desk, 2, login, password, lan(1), token(2)).unwrap_err()
    };
    let answer = wrong(&mut desk, "olga", "nine slow turtle");
    assert_eq!(answer.says, "door-wrong");
    assert_eq!(wrong(&mut desk, "nobody", PASSWORD), answer, "unknown name");
    assert_eq!(wrong(&mut desk, "", PASSWORD), answer);
    assert_eq!(desk.who(&at(2), &token(2)).unwrap(), None);
}

#[test]
fn the_sixth_try_is_locked_out_even_when_it_is_right_and_the_laptop_still_opens() {
    let (mut desk, _) = desk();
    for minute in 0..5 {
        assert_eq!(
            sign_in(&mut desk, minute, "olga", "wrong password", lan(1), token(1)).unwrap_err().says,
            "door-wrong"
        );
    }
    // From any address: what is counted is the account.
    let locked = sign_in(&mut desk, 5, "olga", PASSWORD, lan(2), token(1)).unwrap_err();
    assert_eq!((locked.says, locked.args[0].1.as_str()), ("door-locked", "12:16"));
    assert!(sign_in(&mut desk, 5, "olga", PASSWORD, [127, 0, 0, 1].into(), token(1)).is_ok());
    assert!(sign_in(&mut desk, 14, "olga", PASSWORD, lan(1), token(2)).is_err());
    assert!(sign_in(&mut desk, 15, "olga", PASSWORD, lan(1), token(2)).is_ok());
    let acts: Vec<String> =
        desk.store().audit_page(None, 99).unwrap().into_iter().map(|row| row.entry.act).collect();
    assert_eq!(acts.iter().filter(|act| *act == "locked").count(), 1, "{acts:?}");
}

#[test]
fn an_owner_lifts_a_lock_and_nobody_else() {
    let (mut desk, owner) = desk();
    let coach = let_in(&mut desk, &owner, 2, &new_account(Role::HeadCoach, "cleo"));
    for _ in 0..5 {
        assert!(sign_in(&mut desk, 0, "cleo", "wrong password", lan(1), token(1)).is_err());
    }
    assert_eq!(desk.lift_lock(&at(1), &coach, "cleo").unwrap_err().says, "denied-role");
    assert!(sign_in(&mut desk, 1, "cleo", PASSWORD, lan(1), token(1)).is_err());
    desk.lift_lock(&at(1), &owner, "Cleo").unwrap();
    assert!(sign_in(&mut desk, 1, "cleo", PASSWORD, lan(1), token(1)).is_ok());
}

#[test]
fn one_address_that_tries_many_names_is_locked_out() {
    let (mut desk, _) = desk();
    for number in 0..20 {
        assert!(begin(&mut desk, 0, &format!("name{number}"), 1).is_some());
    }
    assert!(begin(&mut desk, 0, "olga", 1).is_none());
    assert!(begin(&mut desk, 0, "olga", 2).is_some());
}

#[test]
fn a_planted_token_is_worth_nothing_and_each_sign_in_has_a_new_one() {
    let (mut desk, _) = desk();
    let planted = token(9);
    let Begun::Try(begun) = desk.begin_sign_in(&at(0), "olga", lan(1)).unwrap() else { panic!("locked") };
    let inside = desk.finish_sign_in(&at(0), begun.check(PASSWORD), Some(&planted), token(1)).unwrap();
    assert_eq!(inside.token, token(1));
    assert_eq!(desk.who(&at(0), &planted).unwrap(), None);
    // A browser that comes back with its old session gets another, and the old one ends.
    let Begun::Try(begun) = desk.begin_sign_in(&at(1), "olga", lan(1)).unwrap() else { panic!("locked") };
    desk.finish_sign_in(&at(1), begun.check(PASSWORD), Some(&token(1)), token(2)).unwrap();
    assert_eq!(desk.who(&at(1), &token(1)).unwrap(), None);
    assert!(desk.who(&at(1), &token(2)).unwrap().is_some());
}

#[test]
fn a_stolen_token_is_worth_nothing_after_any_way_out() {
    let (mut desk, owner) = desk();
    let inside = |desk: &mut app::desk::Desk, minutes, byte| {
        sign_in(desk, minutes, "olga", PASSWORD, lan(1), token(byte)).unwrap();
    };
    let is_in =
        |desk: &app::desk::Desk, minutes, byte| desk.who(&at(minutes), &token(byte)).unwrap().is_some();
    inside(&mut desk, 0, 1);
    desk.sign_out(&at(1), &owner, &token(1)).unwrap();
    assert!(!is_in(&desk, 1, 1));

    inside(&mut desk, 2, 2);
    inside(&mut desk, 2, 3);
    assert_eq!(desk.sign_out_everywhere(&at(3), &owner).unwrap(), 2);
    assert!(!is_in(&desk, 3, 2) && !is_in(&desk, 3, 3));

    // Neglect and age, whoever holds it.
    inside(&mut desk, 10, 4);
    assert!(is_in(&desk, 69, 4) && !is_in(&desk, 70, 4));
    for minutes in (10..730).step_by(30) {
        let known = desk.who(&at(minutes), &token(4)).unwrap().unwrap();
        assert_eq!(known.note, minutes != 10);
        desk.note_use(&at(minutes), &known, &token(4)).unwrap();
    }
    assert!(is_in(&desk, 729, 4) && !is_in(&desk, 730, 4));
}

#[test]
fn a_new_password_ends_every_other_session_and_the_old_one_no_longer_opens() {
    let (mut desk, owner) = desk();
    for byte in [1, 2] {
        sign_in(&mut desk, 0, "olga", PASSWORD, lan(1), token(byte)).unwrap();
    }
    let checked =
        |desk: &mut app::desk::Desk, password: &str| begin(desk, 1, "olga", 1).unwrap().check(password);
    let wrong = checked(&mut desk, "not the password");
    assert!(desk.change_password(&at(1), &owner, wrong, &OTHER_HASH, &token(3)).is_err());
    let right = checked(&mut desk, PASSWORD);
    desk.change_password(&at(1), &owner, right, &OTHER_HASH, &token(3)).unwrap();
    for (byte, is_in) in [(1, false), (2, false), (3, true)] {
        assert_eq!(desk.who(&at(1), &token(byte)).unwrap().is_some(), is_in, "{byte}");
    }
    assert!(sign_in(&mut desk, 2, "olga", PASSWORD, lan(1), token(4)).is_err());
    assert!(sign_in(&mut desk, 2, "olga", OTHER_PASSWORD, lan(1), token(4)).is_ok());
}

#[test]
fn a_password_that_changed_while_it_was_checked_does_not_open() {
    let (mut desk, owner) = desk();
    let slow = begin(&mut desk, 0, "olga", 1).unwrap().check(PASSWORD);
    let right = begin(&mut desk, 0, "olga", 1).unwrap().check(PASSWORD);
    desk.change_password(&at(0), &owner, right, &OTHER_HASH, &token(3)).unwrap();
    assert!(desk.finish_sign_in(&at(0), slow, None, token(4)).is_err());
    let slow = begin(&mut desk, 1, "olga", 1).unwrap().check(OTHER_PASSWORD);
    desk.make_account(
        &at(1),
        &owner,
        id(2),
        &new_account(Role::Owner, "otto"),
        &new_code(2, door::code::Purpose::Invitation),
    )
    .unwrap();
    let closed = desk.close_account(&at(1), &owner, AccountId(id(1)));
    assert_eq!(closed.unwrap_err().says, "door-last-owner", "an invitation is no owner yet");
    assert!(desk.finish_sign_in(&at(1), slow, None, token(4)).is_ok());
}

#[derive(Debug, Clone)]
enum Step {
    Begin { last: u8 },
    Finish { which: usize, right: bool },
    Wait { minutes: i64 },
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        4 => (0_u8..4).prop_map(|last| Step::Begin { last }),
        2 => (0_usize..8, prop::bool::weighted(0.2)).prop_map(|(which, right)| Step::Finish { which, right }),
        1 => (0_i64..20).prop_map(|minutes| Step::Wait { minutes }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// However tries are begun, left hanging, finished out of order, spread over addresses and mixed with right ones:
    /// in no stretch do more passwords get looked at, beyond the right ones, than its limit says.
    #[test]
    fn never_more_tries_than_the_limit_whatever_the_interleaving(steps in prop::collection::vec(step(), 1..120)) {
        let (mut desk, _) = desk();
        let mut now = 0;
        let mut finished = 0;
        let mut open: Vec<(i64, TryIn)> = Vec::new();
        let mut looked_at: Vec<i64> = Vec::new();
        for step in steps {
            match step {
                Step::Wait { minutes } => now += minutes,
                Step::Begin { last } => if let Some(begun) = begin(&mut desk, now, "olga", last) {
                    open.push((now, begun));
                    looked_at.push(now);
                },
                Step::Finish { which, right } if !open.is_empty() => {
                    let (began, begun) = open.remove(which % open.len());
                    let done = desk.finish_sign_in(&at(now), begun.check(if right { PASSWORD } else { "wrong password" }), None, token(finished));
                    finished += 1;
                    prop_assert_eq!(done.is_ok(), right);
                    if right {
                        let place = looked_at.iter().position(|at| *at == began).unwrap();
                        looked_at.remove(place);
                    }
                }
                Step::Finish { .. } => {}
            }
            for limit in PER_ACCOUNT {
                let minutes = i64::try_from(limit.within.0 / 60_000).unwrap();
                for start in &looked_at {
                    let within = looked_at.iter().filter(|at| (*start..start + minutes).contains(*at)).count();
                    prop_assert!(within <= limit.tries, "{} in {} minutes", within, minutes);
                }
            }
        }
    }
}
