//! A session by hand: all or nothing, every problem at its set, nothing filled in for anybody.

use app::demo::Case;

use super::site::{Asked, demo_site, site_with, swimmer};

/// Names of the fields of a page that end in one of these.
fn fields(body: &str, ending: &str) -> Vec<String> {
    body.split(" name=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .filter(|name| name.ends_with(ending))
        .map(str::to_owned)
        .collect()
}

fn planned(body: &str) -> Vec<(String, String)> {
    body.split(".planned\" value=\"")
        .zip(body.split(".planned\" value=\"").skip(1))
        .map(|(before, after)| {
            let name = before.rsplit(" name=\"").next().unwrap_or_default();
            (format!("{name}.planned"), after.split('"').next().unwrap_or_default().to_owned())
        })
        .collect()
}

async fn page(site: &Asked, who: &str) -> String {
    site.get(&format!("/session?date=2026-11-25&context=after-practice&who={who}")).await.body
}

async fn send(site: &Asked, who: &str, body: &str, more: &[(String, String)]) -> super::site::Answered {
    let mut form: Vec<(String, String)> = vec![
        ("date".to_owned(), "2026-11-25".to_owned()),
        ("context".to_owned(), "after-practice".to_owned()),
        ("who".to_owned(), who.to_owned()),
    ];
    form.extend(planned(body));
    form.extend(more.iter().cloned());
    let form: Vec<(&str, &str)> = form.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    site.post("/session", &form).await
}

#[tokio::test]
async fn a_session_is_stored_and_the_next_proposals_show() {
    let site = site_with(Case::HeldStep);
    let who = swimmer(Case::HeldStep).to_string();
    let body = page(&site, &who).await;
    assert!(!body.contains("value=\"yes\" selected"), "nothing is seen before somebody says so");
    let seconds = fields(&body, ".1.seconds");
    let (first, key) = (seconds[0].clone(), seconds[0].trim_end_matches(".1.seconds").to_owned());
    let swimmer_key = key.split('.').next().unwrap().to_owned();
    let pair = |name: String, value: &str| (name, value.to_owned());
    let sets = [
        pair(first, "35,5"),
        pair(format!("{key}.1.end"), "chose-to-stop"),
        pair(format!("{swimmer_key}.before-left"), "0"),
        pair(format!("{swimmer_key}.before-right"), "0"),
        pair(format!("{swimmer_key}.effort"), "6"),
    ];
    let before = site.site().desk().store().counts().unwrap().facts;
    let sent = send(&site, &who, &body, &sets).await;
    assert_eq!((sent.status.as_u16(), sent.location()), (303, "/review?done=session"), "{}", sent.body);
    let after = site.site().desk().store().counts().unwrap().facts;
    assert_eq!(after - before, 3, "a session, an answer, a set");
    let own = site.get(&format!("/people/{who}")).await;
    assert!(own.body.contains("35.5 s") && own.body.contains("Wed 25 November"));
}

#[tokio::test]
async fn every_problem_stands_at_its_set_and_nothing_is_stored() {
    let site = site_with(Case::HeldStep);
    let who = swimmer(Case::HeldStep).to_string();
    let body = page(&site, &who).await;
    let seconds = fields(&body, ".1.seconds");
    let key = |name: &String| name.trim_end_matches(".1.seconds").to_owned();
    let (one, other) = (key(&seconds[0]), key(&seconds[1]));
    let pair = |name: String, value: &str| (name, value.to_owned());
    let sets = [
        pair(format!("{one}.1.seconds"), "forty"),
        pair(format!("{one}.1.end"), "cap"),
        pair(format!("{other}.1.seconds"), "40"),
        pair(format!("{other}.1.end"), "form"),
        pair(format!("{other}.2.seconds"), "7"),
        pair(format!("{other}.2.end"), "cap"),
    ];
    let before = site.site().desk().store().counts().unwrap().facts;
    let sent = send(&site, &who, &body, &sets).await;
    assert_eq!(sent.status, 422);
    for id in [
        format!("{one}.1.seconds-problem"),
        format!("{other}.1.fault-problem"),
        format!("{other}.2.end-problem"),
        format!("{other}.2.seen-problem"),
    ] {
        assert!(sent.has_id(&id), "{id}");
    }
    assert!(sent.body.contains("value=\"forty\""), "what was typed is still there");
    assert_eq!(site.site().desk().store().counts().unwrap().facts, before);
}

#[tokio::test]
async fn a_plan_that_has_changed_is_not_written_to() {
    let site = site_with(Case::HeldStep);
    let who = swimmer(Case::HeldStep).to_string();
    let body = page(&site, &who).await;
    let seconds = fields(&body, ".1.seconds")[0].clone();
    let key = seconds.trim_end_matches(".1.seconds").to_owned();
    let form = [("date", "2026-11-25".to_owned()), ("context", "rested".to_owned()), ("who", who)];
    let mut form: Vec<(String, String)> = form.map(|(name, value)| (name.to_owned(), value)).to_vec();
    form.push((format!("{key}.planned"), "another-rung".to_owned()));
    form.push((seconds, "30".to_owned()));
    form.push((format!("{key}.1.end"), "chose-to-stop".to_owned()));
    let form: Vec<(&str, &str)> = form.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    let sent = site.post("/session", &form).await;
    assert_eq!(sent.status, 422);
    assert!(sent.body.contains("What was planned has changed"));
}

#[tokio::test]
async fn something_new_is_asked_about_at_once() {
    let site = site_with(Case::HeldStep);
    let who = swimmer(Case::HeldStep).to_string();
    let body = page(&site, &who).await;
    let new = fields(&body, ".new")[0].clone();
    let sent = send(&site, &who, &body, &[(new, "yes".to_owned())]).await;
    assert!(sent.location().starts_with(&format!("/people/{who}/record/pain")), "{}", sent.location());
    assert_eq!(site.get(sent.location()).await.status, 200);
}

#[tokio::test]
async fn a_form_without_anybody_or_place_is_refused() {
    let site = demo_site();
    let sent = site.post("/session", &[("date", "2026-11-25"), ("context", "")]).await;
    assert_eq!(sent.status, 422);
    let ahead = site.post("/session", &[("date", "2027-01-01"), ("context", "rested")]).await;
    assert!(ahead.body.contains("This day lies ahead"));
}
