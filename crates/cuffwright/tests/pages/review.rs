//! What waits for a person: exceptions by themselves, the rest together, nothing marked beforehand.

use super::site::{Asked, demo_site, read_site};

fn marks(body: &str) -> Vec<String> {
    body.split("name=\"line\" value=\"")
        .skip(1)
        .filter_map(|rest| rest.split('"').next())
        .map(str::to_owned)
        .collect()
}

async fn waiting(site: &Asked) -> usize {
    site.get("/review").await.body.matches("class=\"decision\"").count()
}

#[tokio::test]
async fn nothing_is_marked_until_somebody_marks_it() {
    let site = read_site();
    let page = site.get("/review").await;
    let alone = page.body.find(" id=\"alone\"").unwrap();
    assert!(alone < page.body.find(" id=\"together\"").unwrap(), "exceptions first");
    let lines = marks(&page.body);
    assert!(5 < lines.len());
    assert!(!page.body.contains(" checked"), "nothing is preselected");
    let marked = site.get("/review?mark=all").await;
    assert_eq!(marked.body.matches(" checked").count(), lines.len());
}

#[tokio::test]
async fn what_is_marked_is_confirmed_together_and_stays_in_place() {
    let site = demo_site();
    let lines = marks(&site.get("/review").await.body);
    let form: Vec<(&str, &str)> = std::iter::once(("on", "2026-11-25"))
        .chain(lines.iter().take(3).map(|line| ("line", line.as_str())))
        .collect();
    let sent = site.post("/review", &form).await;
    assert_eq!((sent.status.as_u16(), sent.location()), (303, "/review?done=together"));
    assert_eq!(marks(&site.get("/review").await.body).len(), lines.len() - 3);
}

#[tokio::test]
async fn one_line_that_may_not_go_along_keeps_all_of_them_back() {
    let site = demo_site();
    let body = site.get("/review").await.body;
    let alone = alone_line(&body);
    let lines = marks(&body);
    let form = [("on", "2026-11-25"), ("line", lines[0].as_str()), ("line", alone.as_str())];
    let refused = site.post("/review", &form).await;
    assert_eq!(refused.status, 409);
    assert!(refused.body.contains("confirmed by itself"));
    assert_eq!(marks(&site.get("/review").await.body).len(), lines.len(), "nothing was confirmed");
    let empty = site.post("/review", &[("on", "2026-11-25")]).await;
    assert_eq!(empty.location(), "/review?done=nothing-marked");
}

/// The sealed words of the first exception, put together as the page would.
fn alone_line(body: &str) -> String {
    let form = body.split("class=\"decision\"").nth(1).unwrap();
    let subject = form.split("/people/").nth(1).and_then(|rest| rest.split('/').next()).unwrap();
    let value = |name: &str| {
        form.split(&format!("name=\"{name}\" value=\""))
            .nth(1)
            .and_then(|rest| rest.split('"').next())
            .unwrap()
    };
    format!("{subject}|{}|{}|{}|{}", value("exercise"), value("side"), value("action"), value("rung"))
}

#[tokio::test]
async fn an_override_needs_a_reason_and_comes_back_with_what_was_chosen() {
    let site = demo_site();
    let before = waiting(&site).await;
    let line = alone_line(&site.get("/review").await.body);
    let parts: Vec<&str> = line.split('|').collect();
    let path = format!("/people/{}/decide?on=2026-11-25", parts[0]);
    let base = [
        ("exercise", parts[1]),
        ("side", parts[2]),
        ("on", "2026-11-25"),
        ("action", parts[3]),
        ("rung", parts[4]),
        ("back", "/review"),
    ];
    let refused = site.post(&path, &[&base[..], &[("choice", "override"), ("reason", " ")]].concat()).await;
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("An override needs a reason in words."));
    assert_eq!(refused.body.matches("<details class=\"decision\" open").count(), 1, "the form is still open");
    let strange =
        [&base[..], &[("choice", "override"), ("instead", "no-such-rung"), ("reason", "because")]].concat();
    let strange = site.post(&path, &strange).await;
    assert!(strange.status.is_client_error() && strange.body.contains("because"));
    let taken = [&base[..], &[("choice", "override"), ("instead", ""), ("reason", "exam week")]].concat();
    let taken = site.post(&path, &taken).await;
    assert_eq!((taken.status.as_u16(), taken.location()), (303, "/review?done=decided"));
    assert_eq!(waiting(&site).await, before - 1);
    let own = site.get(&format!("/people/{}", parts[0])).await;
    assert!(own.body.contains("exam week"), "the override stands in the history");
}

#[tokio::test]
async fn a_proposal_that_has_moved_on_is_not_confirmed_unseen() {
    let site = demo_site();
    let line = alone_line(&site.get("/review").await.body);
    let parts: Vec<&str> = line.split('|').collect();
    let form = [
        ("exercise", parts[1]),
        ("side", parts[2]),
        ("on", "2026-11-25"),
        ("action", if parts[3] == "down" { "up" } else { "down" }),
        ("rung", parts[4]),
        ("choice", "confirm"),
        ("back", "/review"),
    ];
    let refused = site.post(&format!("/people/{}/decide", parts[0]), &form).await;
    assert_eq!(refused.status, 409);
    assert!(refused.body.contains("has changed since it was read"));
}
