//! Withdrawal, archive, erasure and retention.

use std::collections::BTreeMap;
use std::io::Read;

use app::bring_in::Incoming;
use app::desk::{Desk, Draft};
use app::entry::NewAccount;
use app::facts::{ConsentWord, Kind};
use app::privacy::consent::Withdrawal;
use app::privacy::{Archive, Ground, Retention};
use door::principal::{AccountId, Principal};
use door::role::Role;
use jiff::civil::{Date, date};
use proptest::prelude::*;
use store::{AuditVerdict, ChainVerdict, Open, Store, SubjectId};
use trade::gate::Availability;
use trade::history::ConsentItem;

use crate::build::*;
use crate::canaries::{MARKS, facts, mark};

fn papers(desk: &mut Desk, subject: SubjectId) {
    let drafts: Vec<Draft> = facts()
        .into_iter()
        .filter(|(kind, _)| matches!(kind, Kind::Consent | Kind::Intake | Kind::Screening))
        .map(|(kind, payload)| Draft {
            kind,
            payload: payload.to_string().replace("\"worry\"", ""),
            corrects: None,
        })
        .collect();
    desk.record(&at(0), &author(), subject, &drafts).unwrap();
}

fn person(desk: &Desk) -> Availability {
    let person = desk.person(swimmer(1)).unwrap();
    desk.assess(person, at(0).today).gate.person()
}

#[test]
fn a_withdrawal_acts_the_same_day_and_leaves_what_was_agreed_before_to_be_seen() {
    let (mut desk, owner) = desk();
    papers(&mut desk, swimmer(1));
    assert_eq!(person(&desk), Availability::Full);
    let guardian = let_in(&mut desk, &owner, 2, &new_account(Role::Guardian, "gus"));
    assert_eq!(
        desk.withdraw_consent(&at(1), &guardian, swimmer(2), &Withdrawal::All).unwrap_err().says,
        "denied-not-yours"
    );
    desk.withdraw_consent(&at(1), &guardian, swimmer(1), &Withdrawal::All).unwrap();
    assert_eq!(person(&desk), Availability::NotYet);
    let history = desk.store().history(swimmer(1)).unwrap();
    let consents: Vec<_> = history.iter().filter(|fact| fact.told.kind == "consent").collect();
    assert_eq!(consents.len(), 2, "the first stays");
    assert_eq!(consents[1].told.author, "Person gus");
    let again = desk.withdraw_consent(&at(2), &guardian, swimmer(1), &Withdrawal::All);
    assert_eq!(again.unwrap_err().says, "privacy-nothing-to-withdraw");
}

#[test]
fn one_item_is_withdrawn_alone_and_nothing_is_renewed_by_it() {
    let (mut desk, owner) = desk();
    papers(&mut desk, swimmer(1));
    let granted = |desk: &Desk| desk.person(swimmer(1)).unwrap().read.history.consents.clone();
    let signed = granted(&desk)[0].signed;
    let items = |items: &[ConsentWord]| Withdrawal::Items(items.to_vec());
    desk.withdraw_consent(&at(1), &owner, swimmer(1), &items(&[ConsentWord::Photo])).unwrap();
    assert_eq!(person(&desk), Availability::Full, "refusing a photo keeps nobody out");
    assert!(!granted(&desk)[0].granted.contains(&ConsentItem::Photo));
    assert_eq!((granted(&desk).len(), granted(&desk)[0].signed), (1, signed), "its last day stays");
    desk.withdraw_consent(&at(1), &owner, swimmer(1), &items(&[ConsentWord::Exercise])).unwrap();
    assert_eq!(person(&desk), Availability::NotYet);
    let coach = let_in(&mut desk, &owner, 3, &new_account(Role::HeadCoach, "cleo"));
    assert!(desk.withdraw_consent(&at(1), &coach, swimmer(1), &Withdrawal::All).is_err());
}

fn text_of(archive: &Archive) -> String {
    archive
        .files
        .iter()
        .map(|(path, bytes)| format!("{path}\n{}\n", String::from_utf8_lossy(bytes)))
        .collect()
}

#[test]
fn an_archive_holds_everything_and_only_of_that_person() {
    let (mut desk, owner) = desk();
    mark(&mut desk, swimmer(1));
    papers(&mut desk, swimmer(2));
    let told = Draft::new(&named("Ben Specimen-Other", date(2012, 6, 1)));
    let old = desk.store().live_facts(swimmer(2)).unwrap()[0].fact.told.id;
    desk.record(&at(0), &author(), swimmer(2), &[told.correcting(old, "OTHER-reason")]).unwrap();
    desk.saw(&at(1), &owner, door::permit::Thing::Pain, Some(swimmer(1))).unwrap();

    let archive = desk.archive_of(&at(2), &owner, swimmer(1)).unwrap();
    let (json, html) = (file(&archive, "record.json"), file(&archive, "record.html"));
    for (mark, _) in MARKS {
        assert!(json.contains(mark), "{mark} in record.json");
        assert!(html.contains(mark), "{mark} in record.html");
    }
    assert!(json.contains("CANARY-correction") && html.contains("CANARY-correction"));
    let record: serde_json::Value = serde_json::from_str(&json).unwrap();
    let stored = desk.store().history(swimmer(1)).unwrap();
    let listed = record["facts"].as_array().unwrap();
    assert_eq!(listed.len(), stored.len());
    for (line, fact) in listed.iter().zip(&stored) {
        assert_eq!(line["id"], fact.told.id.to_string());
        let payload: serde_json::Value = fact
            .told
            .payload
            .as_ref()
            .map_or(serde_json::Value::Null, |payload| serde_json::from_str(payload.as_str()).unwrap());
        assert_eq!(line["payload"], payload);
    }
    assert_eq!(listed.iter().filter(|line| line["stands"] == "replaced").count(), 1);
    assert!(html.contains("P4: "), "the rule of a decision stands in words");
    let protocol = format!("protocols/{}.toml", desk.protocol().hash);
    assert_eq!(file(&archive, &protocol), *desk.protocol().text);
    assert!(file(&archive, "seen-and-changed.json").contains("Person olga"));

    let whole = text_of(&archive);
    for other in ["Ben Specimen", "OTHER-reason", &swimmer(2).to_string(), "2012-06-01"] {
        assert!(!whole.contains(other), "{other}");
    }
    assert!(!whole.contains("]["), "no sentence is missing");
    for (path, _) in &archive.files {
        assert!(!path.starts_with('/') && !path.contains(".."), "{path}");
    }
    let mut zip = zip::ZipArchive::new(std::io::Cursor::new(archive.to_zip().unwrap())).unwrap();
    assert_eq!(zip.len(), archive.files.len());
    let mut bytes = Vec::new();
    zip.by_name("record.json").unwrap().read_to_end(&mut bytes).unwrap();
    assert_eq!(bytes, json.as_bytes());
    assert_eq!(archive.to_zip().unwrap(), archive.to_zip().unwrap());
}

fn file(archive: &Archive, name: &str) -> String {
    let found = archive.files.iter().find(|(path, _)| path == name);
    String::from_utf8(found.unwrap_or_else(|| panic!("no {name}")).1.clone()).unwrap()
}

#[test]
fn what_a_person_wrote_cannot_become_markup_in_the_archive() {
    let (mut desk, owner) = desk();
    let nasty = "<script>alert(1)</script>";
    let talk = serde_json::json!({ "date": "2026-03-08", "by": nasty, "about": "E3" });
    let draft = Draft { kind: Kind::Talk, payload: talk.to_string(), corrects: None };
    desk.record(&at(0), &author(), swimmer(1), &[draft]).unwrap();
    let archive = desk.archive_of(&at(1), &owner, swimmer(1)).unwrap();
    let html = file(&archive, "record.html");
    assert!(!html.contains("<script") && html.contains("&lt;script&gt;"));
}

#[test]
fn an_archive_is_handed_out_by_whoever_may() {
    let (mut desk, owner) = desk();
    for (number, role) in
        [(2, Role::Supervisor), (3, Role::HeadCoach), (4, Role::Administrator), (5, Role::Swimmer)]
    {
        let who = let_in(&mut desk, &owner, number, &new_account(role, &format!("p{number}")));
        assert_eq!(desk.archive_of(&at(0), &who, swimmer(1)).unwrap_err().says, "denied-role", "{role:?}");
    }
}

#[test]
fn after_an_erasure_the_log_verifies_the_counts_match_and_no_byte_is_left() {
    let folder = std::env::temp_dir().join(format!("door-erase-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let store = Store::open(folder.join("club.db"), Open { create: true }).unwrap();
    let mut desk = Desk::new(store, trade::protocol::read::shipped().clone()).unwrap();
    for (number, name) in [(1, "Ana Example"), (2, "Ben Specimen")] {
        let born = date(2011, 5, 1);
        desk.record(&at(0), &author(), swimmer(number), &[Draft::new(&named(name, born))]).unwrap();
    }
    let owner = desk.make_owner(&at(0), id(1), &new_account(Role::Owner, "olga"), &HASH).unwrap();
    let owner = desk.account(owner).unwrap().principal();
    mark(&mut desk, swimmer(1));
    let new = NewAccount { name: "CANARY-account".into(), ..new_account(Role::Swimmer, "canary-login") };
    let_in(&mut desk, &owner, 2, &new);
    desk.saw(&at(1), &owner, door::permit::Thing::Pain, Some(swimmer(1))).unwrap();
    let (facts, others) = (desk.store().counts().unwrap().facts, desk.store().history(swimmer(2)).unwrap());
    let personal = desk.store().history(swimmer(1)).unwrap().len();

    let erase = |desk: &mut Desk, who: &Principal, name: &str| {
        desk.erase_person(&at(2), who, swimmer(1), name, Ground::Guardian)
    };
    assert_eq!(erase(&mut desk, &owner, "Ana").unwrap_err().says, "privacy-erase-name");
    let swimmer_account = desk.account(AccountId(id(2))).unwrap().principal();
    assert_eq!(erase(&mut desk, &swimmer_account, "Ana Example").unwrap_err().says, "denied-role");
    let erased = erase(&mut desk, &owner, "Ana Example").unwrap();
    assert_eq!((erased.facts, erased.accounts, erased.scrubbed), (personal, 1, true));

    assert!(desk.person(swimmer(1)).is_err());
    let counts = desk.store().counts().unwrap();
    assert_eq!((counts.facts, counts.tombstones), (facts, personal as u64));
    assert!(matches!(
        desk.store().verify_chain().unwrap(),
        ChainVerdict::Whole { erased, .. } if erased == personal as u64
    ));
    assert!(matches!(desk.store().verify_audit().unwrap(), AuditVerdict::Whole { .. }));
    assert_eq!(desk.store().history(swimmer(2)).unwrap(), others);
    assert_eq!(desk.store().erasures().unwrap()[0].ground, "guardian-asked");
    assert_eq!(desk.who(&at(3), &token(102)).unwrap(), None, "the erased swimmer's session ends");
    let acts: Vec<String> = desk
        .store()
        .audit_of_subject(swimmer(1), None, 9)
        .unwrap()
        .into_iter()
        .map(|row| row.entry.act)
        .collect();
    assert_eq!(acts[0], "erased", "the act stays to be seen");
    for entry in std::fs::read_dir(&folder).unwrap() {
        let bytes = std::fs::read(entry.unwrap().path()).unwrap();
        for mark in [&b"CANARY"[..], b"canary-login", b"Ana Example"] {
            assert!(!bytes.windows(mark.len()).any(|part| part == mark), "{}", String::from_utf8_lossy(mark));
        }
    }
    drop(desk);
    std::fs::remove_dir_all(&folder).unwrap();
}

#[test]
fn retention_proposes_and_never_acts() {
    let (mut desk, owner) = desk();
    let gone = |desk: &mut Desk, whom: SubjectId, left: Date| {
        let old = desk.store().live_facts(whom).unwrap()[0].fact.clone();
        let mut swimmer: serde_json::Value =
            serde_json::from_str(old.told.payload.unwrap().as_str()).unwrap();
        swimmer["left"] = serde_json::json!(left.to_string());
        let draft = Draft { kind: Kind::Swimmer, payload: swimmer.to_string(), corrects: None };
        desk.record(&at(0), &author(), whom, &[draft.correcting(old.told.id, "left")]).unwrap();
    };
    gone(&mut desk, swimmer(1), date(2026, 1, 31));
    let later = date(2036, 1, 31);
    assert_eq!(desk.overdue_for_erasure(later).unwrap(), [], "nothing is settled");
    let ten = Retention { years_after_leaving: 10, until_age: Some(18) };
    desk.set_retention(&at(0), &owner, &ten).unwrap();
    assert_eq!(desk.retention().unwrap(), Some(ten));
    assert_eq!(desk.overdue_for_erasure(date(2036, 1, 30)).unwrap(), []);
    let overdue = desk.overdue_for_erasure(later).unwrap();
    assert_eq!(overdue.iter().map(|one| (one.subject, one.since)).collect::<Vec<_>>(), [(swimmer(1), later)]);
    assert!(desk.person(swimmer(1)).is_ok());
    let coach = let_in(&mut desk, &owner, 3, &new_account(Role::HeadCoach, "cleo"));
    assert!(desk.set_retention(&at(0), &coach, &ten).is_err());
}

fn roster(rows: &[(usize, bool)]) -> Vec<u8> {
    let mut text = String::from("No.,Last name,First name,Born,Sex,Squad\n");
    for (number, changed) in rows {
        let squad = if *changed { "Herons" } else { "Otters" };
        text.push_str(&format!("{},Sample{number},Kim,2012-0{}-17,f,{squad}\n", 100 + number, 1 + number));
    }
    text.into_bytes()
}

fn import(desk: &mut Desk, bytes: &[u8]) {
    let file =
        Incoming { bytes, name: "roster.csv", kind: None, dates: None, context: None, accept_unusual: true };
    let preview = desk.preview_import(at(0).today, &file).unwrap();
    assert!(preview.is_ready(), "{preview:?}");
    desk.import(&at(0), &author(), &preview, "roster.csv").unwrap();
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 16, ..ProptestConfig::default() })]

    /// Whoever was erased, entered by hand or by the file, does not come back by any later version of the club's list.
    #[test]
    fn an_import_never_brings_an_erased_person_back(
        first in Just((0..6).collect::<Vec<usize>>()).prop_shuffle(),
        by_hand in prop::collection::btree_set(0_usize..6, 0..4),
        erased in prop::collection::btree_set(0_usize..6, 1..5),
        again in prop::collection::vec((0_usize..6, any::<bool>()), 1..6),
    ) {
        let (mut desk, owner) = desk();
        let name = |number: usize| format!("Kim Sample{number}");
        let mut known: BTreeMap<usize, SubjectId> = BTreeMap::new();
        for number in &by_hand {
            let subject = swimmer(100 + *number as u128);
            let mut fact = named(&name(*number), date(2012, 1 + *number as i8, 17));
            fact.club_number = Some((100 + number).to_string());
            desk.record(&at(0), &author(), subject, &[Draft::new(&fact)]).unwrap();
            known.insert(*number, subject);
        }
        let listed: Vec<(usize, bool)> = first.iter().take(4).map(|number| (*number, false)).collect();
        import(&mut desk, &roster(&listed));
        let found: Vec<(String, SubjectId)> =
            desk.people().map(|person| (person.read.swimmer.name.clone(), person.subject)).collect();
        for number in &erased {
            if let Some((full, subject)) = found.iter().find(|(full, _)| *full == name(*number)) {
                desk.erase_person(&at(1), &owner, *subject, full, Ground::Person).unwrap();
                known.remove(number);
            }
        }
        let was_there = |number: &usize| found.iter().any(|(full, _)| *full == name(*number));
        let mut rows: Vec<(usize, bool)> = again;
        rows.sort_unstable();
        rows.dedup_by_key(|(number, _)| *number);
        import(&mut desk, &roster(&rows));
        import(&mut desk, &roster(&rows));
        for number in erased.iter().filter(|number| was_there(number)) {
            let back = desk.people().any(|person| person.read.swimmer.name == name(*number));
            prop_assert!(!back, "{} came back", name(*number));
        }
        for (number, _) in rows.iter().filter(|(number, _)| !(erased.contains(number) && was_there(number))) {
            let there = desk.people().any(|person| person.read.swimmer.name == name(*number));
            prop_assert!(there, "{} is missing", name(*number));
        }
        let is_whole = matches!(desk.store().verify_chain().unwrap(), ChainVerdict::Whole { .. });
        prop_assert!(is_whole);
    }
}
