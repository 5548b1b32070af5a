//! Record files: made, copied, refused. A file that is refused keeps every byte.

use std::fs;

use super::club::{asking, club, made};
use super::run::{Folder, cuffwright, ended, nothing_starts, start};

#[test]
fn a_new_store_is_made_once() {
    let folder = Folder::new();
    let store = folder.path("new.cuff");
    made(&store);
    let before = fs::read(&store).unwrap();
    let again =
        ["init", "--store", &store, "--club", "Other", "--zone", "Europe/Vienna", "--practitioner", "X"];
    cuffwright(&again).ends_with(4).says(&["is already there, and is never overwritten"]);
    assert!(fs::read(&store).unwrap() == before);
    cuffwright(&asking(&store, &["gate"])).ends_with(0).says(&["Nobody is on record for this day."]);
    // Without a day the clock is read, in the club's zone.
    cuffwright(&["gate", "--store", &store]).ends_with(0);
}

#[test]
fn a_store_that_cannot_be_made_leaves_nothing() {
    let folder = Folder::new();
    let store = folder.path("new.cuff");
    let init = |club: &str, zone: &str, by: &str| {
        cuffwright(&["init", "--store", &store, "--club", club, "--zone", zone, "--practitioner", by])
    };
    init("SC Talbach", "Europe/Nowhere", "M. Roth")
        .ends_with(2)
        .says(&["is not a time zone", "Europe/Vienna"]);
    init(" ", "Europe/Vienna", "M. Roth").ends_with(2).says(&["--club is blank"]);
    init("SC Talbach", "Europe/Vienna", "").ends_with(2).says(&["--practitioner is blank"]);
    let nowhere = folder.path("no/such/folder/new.cuff");
    cuffwright(&["init", "--store", &nowhere, "--club", "C", "--zone", "UTC", "--practitioner", "P"])
        .ends_with(5);
    assert_eq!(folder.names(), [""; 0]);
}

#[test]
fn a_backup_is_whole_and_never_overwrites() {
    let folder = Folder::new();
    let store = club(&folder);
    let to = folder.path("copy.cuff");
    let json =
        cuffwright(&["backup", "--store", &store, &to, "--json"]).ends_with(0).json("cuffwright.backup/1");
    let verified = cuffwright(&["log", "verify", "--store", &to, "--json"]).json("cuffwright.log-verify/1");
    assert_eq!((&verified["whole"], &verified["chain"]["head"]), (&true.into(), &json["chain_head"]));
    let before = fs::read(&to).unwrap();
    cuffwright(&["backup", "--store", &store, &to]).ends_with(4).says(&["copy.cuff is already there"]);
    assert!(fs::read(&to).unwrap() == before);
    cuffwright(&["backup", "--store", &folder.path("none.cuff"), &folder.path("x.cuff")]).ends_with(3);
}

#[test]
fn what_is_no_store_is_refused_and_left_as_it_is() {
    let folder = Folder::new();
    let whole = fs::read(club(&folder)).unwrap();
    let mut damaged = whole.clone();
    // The middle of the file, beyond the header: pages that no longer hold together.
    let (from, to) = (damaged.len() / 3, damaged.len() / 3 * 2);
    damaged[from..to].fill(0x5a);
    let mut newer = whole.clone();
    newer[60..64].copy_from_slice(&999_u32.to_be_bytes());
    let mut other = whole.clone();
    other[68..72].copy_from_slice(b"ABCD");
    for (name, bytes, says) in [
        ("empty.cuff", Vec::new(), "is not a record file"),
        ("notes.cuff", b"name,born\nMara Lind,2004-05-01\n".to_vec(), "is not a record file"),
        ("cut.cuff", whole[..whole.len() / 2].to_vec(), "is damaged"),
        ("damaged.cuff", damaged, "is damaged"),
        ("newer.cuff", newer, "was written by a newer version"),
        ("other.cuff", other, "belongs to another program"),
    ] {
        let store = folder.file(name, &bytes);
        let by = ["--by", "M. Roth"];
        let confirm = ["confirm", "Mara Lind", "RC-1", "left", "up", "b20", by[0], by[1]];
        for arguments in [&["gate"][..], &["dose"], &["log", "verify"], &["log", "replay"], &confirm] {
            cuffwright(&asking(&store, arguments)).ends_with(5).says(&[says, "hint: "]);
        }
        assert!(fs::read(&store).unwrap() == bytes, "{name} was touched");
        for beside in ["-wal", "-shm", "-journal"] {
            assert!(!folder.names().contains(&format!("{name}{beside}")), "{name}{beside} was left");
        }
    }
    cuffwright(&asking(&folder.path("none.cuff"), &["gate"])).ends_with(3).says(&["There is no record file"]);
    assert!(!folder.names().contains(&"none.cuff".to_owned()));
}

#[test]
fn a_store_in_use_is_left_to_its_owner() {
    let folder = Folder::new();
    let store = club(&folder);
    let guard = nothing_starts();
    let owner = store::Store::open(&store, store::Open { create: false }).unwrap();
    let process = std::process::id().to_string();
    let refused = ended(start(&asking(&store, &["gate"])), b"");
    drop(owner);
    drop(guard);
    refused.ends_with(5).says(&["is in use by another process", &process]);
    cuffwright(&asking(&store, &["gate"])).ends_with(0);
}
