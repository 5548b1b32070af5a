//! Facts: a set put right, a fact taken back, and what cannot be read is shown.

use app::demo::Case;
use app::desk::Draft;
use app::facts::Kind;
use store::{FactId, NewFact, Payload};

use super::site::{Asked, site_with, swimmer};

async fn first_set(site: &Asked, own: &str) -> String {
    let list = site.get(&format!("{own}/facts?kind=set")).await;
    let link = list.body.split(&format!("{own}/facts/")).nth(1).and_then(|rest| rest.split('"').next());
    format!("{own}/facts/{}", link.expect("a set is on record"))
}

#[tokio::test]
async fn a_set_is_put_right_and_the_reason_kept() {
    let site = site_with(Case::Ordinary);
    let own = format!("/people/{}", swimmer(Case::Ordinary));
    let fact = first_set(&site, &own).await;
    let page = site.get(&fact).await;
    assert!(page.has_id("correct") && page.has_id("seconds"));
    let no_reason = [("seconds", "41"), ("end", "chose-to-stop")];
    let refused = site.post(&format!("{fact}/correct"), &no_reason).await;
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("value=\"41\""), "what was typed is still there");
    let odd = [("seconds", "41"), ("end", "cap"), ("seen", "yes"), ("why", "slip")];
    let refused = site.post(&format!("{fact}/correct"), &odd).await;
    assert_eq!(refused.status, 422, "41 s is no cap");
    let right = [("seconds", "41"), ("end", "chose-to-stop"), ("why", "wrong row on the sheet")];
    assert_eq!(site.post(&format!("{fact}/correct"), &right).await.status, 303);
    assert_eq!(site.get(&fact).await.status, 404, "the old set no longer holds");
    let new = first_set(&site, &own).await;
    let page = site.get(&new).await;
    assert!(page.body.contains("wrong row on the sheet"));
}

#[tokio::test]
async fn a_fact_is_taken_back_with_a_reason() {
    let site = site_with(Case::Ordinary);
    let own = format!("/people/{}", swimmer(Case::Ordinary));
    let fact = first_set(&site, &own).await;
    assert_eq!(site.post(&format!("{fact}/take-back"), &[("why", " ")]).await.status, 422);
    let sent = site.post(&format!("{fact}/take-back"), &[("why", "another swimmer")]).await;
    assert_eq!(sent.location(), format!("{own}?done=taken-back"));
    assert_eq!(site.get(&fact).await.status, 404);
}

#[tokio::test]
async fn who_a_swimmer_is_cannot_be_taken_back() {
    let site = site_with(Case::Ordinary);
    let own = format!("/people/{}", swimmer(Case::Ordinary));
    let list = site.get(&format!("{own}/facts?kind=swimmer")).await;
    let link =
        list.body.split(&format!("{own}/facts/")).nth(1).and_then(|rest| rest.split('"').next()).unwrap();
    let refused = site.post(&format!("{own}/facts/{link}/take-back"), &[("why", "no")]).await;
    assert_eq!(refused.status, 409);
    assert_eq!(site.get(&own).await.status, 200);
}

#[tokio::test]
async fn what_cannot_be_read_is_shown_with_what_to_do() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let moment = app::demo::morning();
    let fact = NewFact {
        id: FactId::fresh(moment.unix_millis),
        kind: Kind::Pain.word().to_owned(),
        version: 1,
        subject,
        payload: Some(Payload::from_text(r#"{"date":"2026-11-24","when":"sometimes"}"#).unwrap()),
        author: "import".to_owned(),
        device: "test".to_owned(),
        device_seq: 0,
        device_time: moment.stamp.clone(),
        correction: None,
        natural_key: None,
    };
    let id = fact.id;
    site.site().desk().append(&moment, vec![fact]).unwrap();
    let own = site.get(&format!("/people/{subject}")).await;
    assert!(own.has_id("settle") && own.body.contains(&format!("/facts/{id}")));
    assert!(site.get("/").await.body.contains("1 record to settle"));
    let back = site.post(&format!("/people/{subject}/facts/{id}/take-back"), &[("why", "unreadable")]).await;
    assert_eq!(back.status, 303);
    assert!(!site.get(&format!("/people/{subject}")).await.has_id("settle"));
}

#[tokio::test]
async fn two_corrections_of_one_fact_are_shown_as_contested() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let told = app::facts::GuardianToldFact { date: "2026-11-20".parse().unwrap(), by: "A".to_owned() };
    let (author, moment) = (super::site::author(), app::demo::morning());
    let first = site.site().desk().record(&moment, &author, subject, &[Draft::new(&told)]).unwrap()[0];
    for by in ["B", "C"] {
        let told = app::facts::GuardianToldFact { by: by.to_owned(), ..told.clone() };
        let draft = Draft::new(&told).correcting(first, "who it was");
        site.site().desk().record(&moment, &author, subject, &[draft]).unwrap();
    }
    let own = site.get(&format!("/people/{subject}")).await;
    assert!(own.body.contains("2 records stand against other corrections"));
    let list = site.get(&format!("/people/{subject}/facts?contested=yes")).await;
    assert_eq!(list.body.matches("contested</b>").count(), 2);
}
