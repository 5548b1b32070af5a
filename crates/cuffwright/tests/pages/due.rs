//! The day: what is open, in which order, and the form that closes each.

use app::demo::Case;

use super::site::{demo_site, read_site, site_with, swimmer};

#[tokio::test]
async fn an_open_line_is_closed_by_its_fact_right_there() {
    let site = site_with(Case::PainOnMonday);
    let subject = swimmer(Case::PainOnMonday);
    let page = site.get("/").await;
    assert!(page.body.contains("Tell the guardian today"));
    let action = format!("action=\"/people/{subject}/record/guardian-told\"");
    assert!(page.body.contains(&action), "the form stands on the day's list");
    let form = [("date", "2026-11-25"), ("by", "Ronja"), ("back", "/due")];
    let sent = site.post(&format!("/people/{subject}/record/guardian-told"), &form).await;
    assert_eq!((sent.status.as_u16(), sent.location()), (303, "/due?done=recorded"));
    let after = site.get(sent.location()).await;
    assert!(after.body.contains("It is on record."));
    assert!(!after.body.contains(&action), "what is closed is gone");
}

#[tokio::test]
async fn the_next_morning_is_asked_with_both_shoulders() {
    let site = site_with(Case::PainOnMonday);
    let subject = swimmer(Case::PainOnMonday);
    let path = format!("/people/{subject}/record/pain");
    let form = [
        ("date", "2026-11-25"),
        ("when", "next-morning"),
        ("left", "0"),
        ("right", "1"),
        ("kind", "joint"),
        ("back", "/due"),
    ];
    let asks = "Ask how the shoulder is the morning after";
    assert!(site.get("/").await.body.contains(asks));
    assert_eq!(site.post(&path, &form).await.status, 303);
    assert!(!site.get("/").await.body.contains(asks));
}

#[tokio::test]
async fn an_emergency_heads_everything_with_what_to_do() {
    let site = demo_site();
    let subject = swimmer(Case::Ordinary);
    let form = [("date", "2026-11-25"), ("when", "other"), ("signs", "chest-pain")];
    let sent = site.post(&format!("/people/{subject}/record/pain"), &form).await;
    assert_eq!(sent.location(), format!("/people/{subject}?done=emergency"));
    let own = site.get(sent.location()).await;
    assert!(own.has_id("urgent") && own.body.contains("Ring the emergency number"));
    let day = site.get("/").await;
    let urgent = day.body.find("class=\"urgent\"").expect("the emergency stands on the day");
    assert!(urgent < day.body.find("class=\"due\"").unwrap(), "before anything else");
}

#[tokio::test]
async fn it_says_how_much_lies_where() {
    let page = read_site().get("/").await;
    for id in ["late", "today"] {
        assert!(page.has_id(id) && page.body.contains(&format!("href=\"#{id}\"")), "{id}");
    }
    let late = page.body.find(" id=\"late\"").unwrap();
    assert!(late < page.body.find(" id=\"today\"").unwrap());
    assert!(page.body.contains("href=\"/review\"") && page.body.contains("href=\"/people?state=out-today\""));
}

#[tokio::test]
async fn kit_is_looked_at_from_the_list() {
    let site = demo_site();
    let page = site.get("/").await;
    assert!(page.body.contains("name=\"mark\" value=\"B-25\""));
    let refused = site.post("/kit", &[("mark", "B-25"), ("date", "2026-11-25"), ("by", "Ronja")]).await;
    assert_eq!(refused.status, 422, "sound or not is not guessed");
    let form = [("mark", "B-25"), ("date", "2026-11-25"), ("by", "Ronja"), ("sound", "no"), ("back", "/")];
    assert_eq!(site.post("/kit", &form).await.status, 303);
    assert!(!site.get("/").await.body.contains("name=\"mark\" value=\"B-25\""));
    assert!(site.get("/kit").await.body.contains("Not sound on"));
    assert_eq!(site.post("/kit", &[("mark", "none")]).await.status, 404);
}
