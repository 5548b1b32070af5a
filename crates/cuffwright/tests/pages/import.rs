//! A club's own file: shown before anything is stored, all or nothing, and the second time nothing is added.

use super::site::{Asked, empty_site};

fn example(name: &str) -> Vec<u8> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    std::fs::read(path).expect("the example is there")
}

async fn with_club() -> Asked {
    let site = empty_site();
    let club = [
        ("name", "Driftwood Bay"),
        ("practitioner", "Ronja"),
        ("zone", "Europe/Lisbon"),
        ("units", "metric"),
        ("back", "/import"),
    ];
    let sent = site.post("/club", &club).await;
    assert_eq!(sent.location(), "/import?done=recorded");
    site
}

#[tokio::test]
async fn a_roster_is_looked_at_then_stored_and_the_second_time_adds_nothing() {
    let site = with_club().await;
    let facts = || site.site().desk().store().counts().unwrap().facts;
    let before = facts();
    let sent = site.send_file("roster.csv", &example("roster.csv"), "").await;
    assert_eq!(sent.status, 303, "{}", sent.body);
    let address = sent.location().to_owned();
    let preview = site.get(&address).await;
    assert_eq!(preview.status, 200);
    assert!(preview.body.contains("Swimmers: 26 rows") && preview.has_id("rows"), "{}", preview.body);
    assert!(preview.has_id("confirm"));
    assert_eq!(facts(), before, "looking stores nothing");
    let path = address.split('?').next().unwrap().to_owned();
    let done = site.post(&path, &[("kind", ""), ("dates", ""), ("unusual", "yes")]).await;
    assert_eq!(done.location(), "/people?done=imported", "{}", done.body);
    let list = site.get("/people").await;
    assert_eq!(list.body.matches("class=\"pair-line\"").count(), 26);
    assert_eq!(list.body.matches("Ada Fenwick-Moss").count(), 2, "two of one name are two");
    let after = facts();
    let again = site.send_file("roster.csv", &example("roster.csv"), "roster").await;
    let path = again.location().split('?').next().unwrap().to_owned();
    let done = site.post(&path, &[("kind", "roster"), ("unusual", "yes")]).await;
    assert_eq!(done.location(), "/import?done=import-unchanged");
    assert!(site.get(done.location()).await.body.contains("0 added"));
    assert_eq!(facts(), after);
}

#[tokio::test]
async fn a_broken_file_shows_row_column_value_and_suggestion_and_stores_nothing() {
    let site = with_club().await;
    let before = site.site().desk().store().counts().unwrap().facts;
    let sent = site.send_file("broken-roster.csv", &example("broken-roster.csv"), "").await;
    let preview = site.get(sent.location()).await;
    assert!(preview.has_id("problems") && !preview.has_id("confirm"), "nothing to confirm");
    assert!(preview.body.contains("31.04.2012") && preview.body.contains("In the way"));
    let path = sent.location().split('?').next().unwrap().to_owned();
    let refused = site.post(&path, &[("unusual", "yes")]).await;
    assert_eq!(refused.status, 422);
    assert_eq!(site.site().desk().store().counts().unwrap().facts, before);
}

#[tokio::test]
async fn a_file_that_is_no_list_is_said_to_be_none() {
    let site = with_club().await;
    for (name, bytes) in [("notes.txt", &b"hello"[..]), ("empty.csv", b""), ("x.xlsx", b"PK\x03\x04rubbish")]
    {
        let sent = site.send_file(name, bytes, "").await;
        let page = if sent.status == 303 { site.get(sent.location()).await } else { sent };
        assert!(page.status == 200 || page.status == 422, "{name}: {}", page.status);
        assert!(page.body.contains("Nothing was stored") || page.body.contains("Choose a file"), "{name}");
    }
    let none = site.post("/import", &[]).await;
    assert_eq!(none.status, 422);
}
