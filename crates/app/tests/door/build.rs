//! A small club with an owner, and a clock that a test moves by hand.

use std::collections::BTreeMap;
use std::net::IpAddr;
use std::sync::LazyLock;

use app::desk::{Author, Desk, Draft};
use app::entry::{Begun, NewAccount, NewCode, SignedIn};
use app::error::AppError;
use app::facts::{ClubFact, SwimmerFact, Units};
use app::moment::Moment;
use door::code::{Code, Purpose};
use door::password::PasswordHash;
use door::principal::{AccountId, Binding, Principal};
use door::role::Role;
use door::token::Token;
use jiff::Timestamp;
use jiff::civil::date;
use jiff::tz::TimeZone;
use store::{Store, SubjectId};
use uuid::Uuid;

pub(crate) const PASSWORD: &str = "nine slow turtles";

/// Another.
pub(crate) const OTHER_PASSWORD: &str = "eleven wet pebbles";

/// Hashing is slow on purpose; here both passwords stand hashed with the least memory that Argon2 knows.
pub(crate) static HASH: LazyLock<PasswordHash> =
    LazyLock::new(|| cheap("8yhTmSKKtAZyUZmP7MwUDcP2fFaOj1wuhn/Tr4LOuMU"));
/// The hash of the other.
pub(crate) static OTHER_HASH: LazyLock<PasswordHash> =
    LazyLock::new(|| cheap("1d+IUeiLRD1LuZbeu/bQJ/9D1RLV3TFkADGAIJQDSUk"));

fn cheap(result: &str) -> PasswordHash {
    PasswordHash::from_kept(format!("$argon2id$v=19$m=8,t=1,p=1$AQEBAQEBAQEBAQEBAQEBAQ${result}"))
}

/// So many minutes after noon of the test's day.
pub(crate) fn at(minutes: i64) -> Moment {
    let noon: Timestamp = "2026-03-09T12:00:00Z".parse().unwrap();
    let instant = noon.checked_add(jiff::SignedDuration::from_mins(minutes)).unwrap();
    Moment::of(instant, &TimeZone::UTC)
}

pub(crate) fn lan(last: u8) -> IpAddr {
    IpAddr::from([192, 168, 1, last])
}

pub(crate) fn token(byte: u8) -> Token {
    Token::from_random([byte; 32])
}

pub(crate) fn id(number: u128) -> Uuid {
    Uuid::from_u128((3 << 100) + number)
}

pub(crate) fn swimmer(number: u128) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((4 << 100) + number))
}

pub(crate) fn author() -> Author {
    Author { name: "Olga Owner".into(), device: "test".into() }
}

pub(crate) fn named(name: &str, born: jiff::civil::Date) -> SwimmerFact {
    serde_json::from_value(serde_json::json!({ "name": name, "born": born.to_string(), "squad": "Seniors" }))
        .unwrap()
}

/// A club with two swimmers and no account.
pub(crate) fn empty_desk() -> Desk {
    let mut desk = Desk::new(Store::in_memory().unwrap(), trade::protocol::read::shipped().clone()).unwrap();
    let club = ClubFact {
        name: "Driftwood Bay".into(),
        zone: "UTC".into(),
        units: Units::Metric,
        practitioner: "Olga Owner".into(),
        practitioner_phone: String::new(),
        daily_practices: false,
    };
    desk.record(&at(0), &author(), SubjectId::CLUB, &[Draft::new(&club)]).unwrap();
    for (number, name, born) in [(1, "Ana Example", date(2011, 5, 1)), (2, "Ben Specimen", date(2012, 6, 1))]
    {
        desk.record(&at(0), &author(), swimmer(number), &[Draft::new(&named(name, born))]).unwrap();
    }
    desk
}

/// The same with an owner's account.
pub(crate) fn desk() -> (Desk, Principal) {
    let mut desk = empty_desk();
    let new = new_account(Role::Owner, "olga");
    let owner = desk.make_owner(&at(0), id(1), &new, &HASH).unwrap();
    let who = desk.account(owner).unwrap().principal();
    (desk, who)
}

pub(crate) fn new_account(role: Role, login: &str) -> NewAccount {
    let bound = match role {
        Role::Swimmer | Role::Guardian => BTreeMap::from([(swimmer(1), Binding::default())]),
        _ => BTreeMap::new(),
    };
    NewAccount { role, login: login.into(), name: format!("Person {login}"), licence: None, bound }
}

pub(crate) fn new_code(number: u128, purpose: Purpose) -> NewCode {
    let byte = u8::try_from(number % 200).unwrap();
    NewCode { id: id(1000 + number), code: Code::from_random(purpose, &[byte; 32]).unwrap() }
}

/// Makes an account, takes its invitation up, and says who it is.
pub(crate) fn let_in(desk: &mut Desk, by: &Principal, number: u128, new: &NewAccount) -> Principal {
    let code = new_code(number, Purpose::Invitation);
    let made = desk.make_account(&at(0), by, id(number), new, &code).unwrap();
    let typed = app::entry::code::Typed { login: &new.login, code: &code.code.shown(), from: lan(99) };
    desk.take_code(&at(0), Purpose::Invitation, &typed, &HASH, token(100 + u8::try_from(number).unwrap()))
        .unwrap();
    desk.account(AccountId(made.0)).unwrap().principal()
}

/// A whole sign-in.
pub(crate) fn sign_in(
    desk: &mut Desk,
    minutes: i64,
    login: &str,
    password: &str,
    from: IpAddr,
    token: Token,
) -> Result<SignedIn, AppError> {
    match desk.begin_sign_in(&at(minutes), login, from)? {
        Begun::Try(begun) => desk.finish_sign_in(&at(minutes), begun.check(password), None, token),
        Begun::Locked { until } => Err(app::entry::problem::locked(until, &TimeZone::UTC)),
    }
}
