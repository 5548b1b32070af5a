//! One-time codes: pairing a deck device, invitation, recovery.

use app::entry::code::Typed;
use door::code::Purpose;
use door::permit::Thing;
use door::principal::{DeviceId, Via};
use door::role::Role;

use crate::build::*;

#[test]
fn the_right_code_pairs_one_device_once_as_a_supervisor() {
    let (mut desk, owner) = desk();
    let code = new_code(2, Purpose::Pairing);
    desk.open_pairing(&at(0), &owner, &code).unwrap();
    let typed = code.code.shown().to_lowercase();
    let device = desk.pair(&at(4), &typed, " Deck phone ", lan(7), (id(50), &token(50))).unwrap();
    assert_eq!((device.role, device.name.as_str()), (Role::Supervisor, "Deck phone"));
    assert_eq!(desk.who(&at(5), &token(50)).unwrap().unwrap().who, device);
    let again = desk.pair(&at(4), &typed, "Second", lan(8), (id(51), &token(51)));
    assert_eq!(again.unwrap_err().says, "door-code-wrong", "it is used up");
    assert_eq!(desk.devices().unwrap().len(), 1);

    desk.end_device(&at(6), &owner, DeviceId(id(50))).unwrap();
    assert_eq!(desk.who(&at(6), &token(50)).unwrap(), None, "a lost phone is out at once");
    assert_eq!(desk.end_device(&at(6), &owner, DeviceId(id(50))).unwrap_err().says, "door-no-device");
}

#[test]
fn a_pairing_ends_after_five_minutes_or_five_wrong_tries() {
    let (mut desk, owner) = desk();
    let code = new_code(2, Purpose::Pairing);
    let pair = |desk: &mut app::desk::Desk, minutes, typed: &str| {
        desk.pair(&at(minutes), typed, "Phone", lan(7), (id(50), &token(50)))
            .map(drop)
            .map_err(|error| error.says)
    };
    assert_eq!(pair(&mut desk, 0, "2222-2222"), Err("door-code-wrong"), "nothing is open");
    desk.open_pairing(&at(0), &owner, &code).unwrap();
    assert_eq!(pair(&mut desk, 5, &code.code.shown()), Err("door-code-wrong"), "too late");

    desk.open_pairing(&at(10), &owner, &code).unwrap();
    for _ in 0..5 {
        assert_eq!(pair(&mut desk, 10, "2222-2222"), Err("door-code-wrong"));
    }
    assert_eq!(pair(&mut desk, 10, &code.code.shown()), Err("door-code-wrong"), "tried too often");
    let acts: Vec<String> =
        desk.store().audit_page(None, 99).unwrap().into_iter().map(|row| row.entry.act).collect();
    assert!(acts.iter().any(|act| act == "spent-code"), "{acts:?}");
    // A new code takes the place of the old one.
    let newer = new_code(3, Purpose::Pairing);
    desk.open_pairing(&at(11), &owner, &code).unwrap();
    desk.open_pairing(&at(11), &owner, &newer).unwrap();
    assert_eq!(pair(&mut desk, 11, &code.code.shown()), Err("door-code-wrong"));
    assert_eq!(pair(&mut desk, 11, &newer.code.shown()), Ok(()));
}

#[test]
fn somebody_who_guesses_pairings_is_locked_out_by_address() {
    let (mut desk, _) = desk();
    for _ in 0..20 {
        assert!(desk.pair(&at(0), "2222-2222", "Phone", lan(7), (id(50), &token(50))).is_err());
    }
    let locked = desk.pair(&at(0), "2222-2222", "Phone", lan(7), (id(50), &token(50))).unwrap_err();
    assert_eq!(locked.says, "door-locked");
}

#[test]
fn a_paired_device_opens_no_pairing_and_sees_no_accounts() {
    let (mut desk, owner) = desk();
    desk.open_pairing(&at(0), &owner, &new_code(2, Purpose::Pairing)).unwrap();
    let shown = new_code(2, Purpose::Pairing).code.shown();
    let device = desk.pair(&at(0), &shown, "Phone", lan(7), (id(50), &token(50))).unwrap();
    assert!(matches!(device.via, Via::Device(_)));
    assert_eq!(
        desk.open_pairing(&at(1), &device, &new_code(3, Purpose::Pairing)).unwrap_err().says,
        "denied-role"
    );
    for thing in [Thing::Accounts, Thing::Pain, Thing::Notes, Thing::Archive, Thing::Import] {
        assert!(desk.may_about(&device, thing, swimmer(1), at(0).today).is_err(), "{thing:?}");
    }
}

#[test]
fn a_recovery_code_is_made_at_the_laptop_and_used_once_within_a_quarter_of_an_hour() {
    let (mut desk, _) = desk();
    sign_in(&mut desk, 0, "olga", PASSWORD, lan(1), token(1)).unwrap();
    let code = new_code(2, Purpose::Recovery);
    desk.make_recovery(&at(0), "Olga", &code).unwrap();
    let shown = code.code.shown();
    let take = |desk: &mut app::desk::Desk, minutes, login: &str, typed: &str, purpose| {
        let typed = Typed { login, code: typed, from: lan(3) };
        desk.take_code(&at(minutes), purpose, &typed, &OTHER_HASH, token(4)).map_err(|error| error.says)
    };
    assert_eq!(
        take(&mut desk, 1, "olga", &shown, Purpose::Invitation),
        Err("door-code-wrong"),
        "other purpose"
    );
    assert_eq!(take(&mut desk, 1, "nobody", &shown, Purpose::Recovery), Err("door-code-wrong"));
    assert_eq!(take(&mut desk, 15, "olga", &shown, Purpose::Recovery), Err("door-code-wrong"), "too late");
    desk.make_recovery(&at(20), "olga", &code).unwrap();
    assert!(take(&mut desk, 21, "olga", &shown, Purpose::Recovery).unwrap().is_some());
    assert_eq!(desk.who(&at(21), &token(1)).unwrap(), None, "every other session ends");
    assert!(desk.who(&at(21), &token(4)).unwrap().is_some());
    assert_eq!(take(&mut desk, 22, "olga", &shown, Purpose::Recovery), Err("door-code-wrong"), "used up");
    assert!(sign_in(&mut desk, 40, "olga", OTHER_PASSWORD, lan(1), token(5)).is_ok());
    assert_eq!(desk.make_recovery(&at(0), "nobody", &code).unwrap_err().says, "door-no-account");
}
