//! `log verify` and `log replay`: the witness of the log.

use std::fs;

use super::club::{asking, club};
use super::run::{Folder, cuffwright};

#[test]
fn two_hundred_random_orders_give_one_digest_of_state() {
    let folder = Folder::new();
    let store = club(&folder);
    let yes = ["confirm", "Mara Lind", "RC-1", "left", "up", "b20", "--by", "M. Roth"];
    cuffwright(&asking(&store, &yes)).ends_with(0);
    let verified =
        cuffwright(&["log", "verify", "--store", &store, "--json"]).json("cuffwright.log-verify/1");
    let json = cuffwright(&["log", "replay", "--store", &store, "--json"])
        .ends_with(0)
        .json("cuffwright.log-replay/1");
    assert_eq!((&json["orders"], &json["same"]), (&200.into(), &true.into()));
    assert_eq!(json["digests"].as_array().unwrap().len(), 1);
    assert_eq!((&json["digests"][0]["digest"], &json["state"]), (&verified["state"], &verified["state"]));
    cuffwright(&["log", "replay", "--store", &store, "--orders", "3", "--seed", "9"])
        .ends_with(0)
        .says(&["orders 3, seed 9: every order gives the digest of state of the file"]);
    cuffwright(&["log", "replay", "--store", &store, "--orders", "0"]).ends_with(2);
}

#[test]
fn a_whole_log_is_called_whole() {
    let folder = Folder::new();
    let store = club(&folder);
    let json = cuffwright(&["log", "verify", "--store", &store, "--json"])
        .ends_with(0)
        .json("cuffwright.log-verify/1");
    assert_eq!((&json["whole"], &json["pages"]), (&true.into(), &"ok".into()));
    assert_eq!(json["chain"]["entries"], json["facts"]);
    assert_eq!(json["unreadable"].as_array().unwrap().len(), 0);
    cuffwright(&["log", "verify", "--store", &store]).ends_with(0).says(&["The log is whole."]);
}

#[test]
fn an_altered_fact_breaks_the_chain() {
    let folder = Folder::new();
    let store = club(&folder);
    let mut bytes = fs::read(&store).unwrap();
    // One letter of a stored name: the pages stay sound, the fact is no longer what was stored.
    let at = bytes.windows(9).position(|window| window == b"Lindqvist").unwrap();
    bytes[at + 8] = b'd';
    fs::write(&store, bytes).unwrap();
    let json = cuffwright(&["log", "verify", "--store", &store, "--json"])
        .ends_with(1)
        .json("cuffwright.log-verify/1");
    assert_eq!((&json["whole"], &json["pages"]), (&false.into(), &"ok".into()));
    assert_eq!(json["chain"]["fault"], "content");
    cuffwright(&["log", "verify", "--store", &store])
        .ends_with(1)
        .says(&["The log is not whole.", "the fact is not what was stored"]);
}
