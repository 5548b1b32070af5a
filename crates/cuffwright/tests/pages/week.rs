//! The week on the demo: a closure repaired with two moves, and 15:20 before the 16:00 practice refused with three offers.

use super::site::{demo_site, read_site};

/// Value of a hidden field of the form that does something.
fn hidden<'a>(page: &'a str, name: &str) -> &'a str {
    let mark = format!("name=\"{name}\" value=\"");
    page.split(&mark).nth(1).and_then(|rest| rest.split('"').next()).unwrap_or_default()
}

#[tokio::test]
async fn a_closed_pool_is_repaired_with_two_moves() {
    let site = demo_site();
    let page = site.get("/week").await;
    assert_eq!(page.status, 200);
    assert!(page.body.contains("2 things no longer hold") && page.body.contains("2 changes mend it"));
    let seen = hidden(&page.body, "seen").to_owned();
    let stale = site.post("/week", &[("do", "repair"), ("of", "2026-11-23"), ("seen", "other")]).await;
    assert_eq!(stale.status, 409, "a week that was not read is not confirmed");
    let done = site.post("/week", &[("do", "repair"), ("of", "2026-11-23"), ("seen", &seen)]).await;
    assert_eq!((done.status.as_u16(), done.location()), (303, "/week?of=2026-11-23&done=recorded"));
    let after = site.get("/week").await;
    assert!(after.body.contains("Everything people know of holds"));
    let feed = site.get("/week/feed/Youth").await;
    assert!(feed.body.contains("SEQUENCE:1") && feed.body.contains("dryland-youth-2026-11-27"));
    assert_eq!(feed.headers["content-type"], "text/calendar; charset=utf-8");
}

#[tokio::test]
async fn fifteen_twenty_before_the_practice_at_sixteen_is_refused_with_three_better_offers() {
    let site = demo_site();
    let asked = "/week/wish?of=2026-11-23&squad=Performance&place=Pool&date=2026-11-25&from=15:20&to=15:45";
    let page = site.get(asked).await;
    assert_eq!(page.status, 200);
    assert!(page.body.contains("15 min from the end of dryland to the water"));
    assert_eq!(page.body.matches(">Take this<").count(), 3, "{}", page.body);
    let offer = page.body.split("wk-offers").nth(1).unwrap();
    let field = |name| hidden(offer, name);
    let pairs = ["of", "squad", "place", "date", "from", "to"].map(|name| (name, field(name)));
    let taken = site.post("/week/wish", &pairs).await;
    assert_eq!(taken.status, 303, "{}", taken.body);
    let refused = site
        .post(
            "/week/wish",
            &[
                ("squad", "Performance"),
                ("place", "Pool"),
                ("date", "2026-11-25"),
                ("from", "15:20"),
                ("to", "15:45"),
            ],
        )
        .await;
    assert_eq!(refused.status, 409);
}

#[tokio::test]
async fn a_closure_is_entered_by_hand_and_a_wrong_one_comes_back() {
    let site = demo_site();
    let wrong = site
        .post(
            "/week/enter/closure",
            &[("place", "Pool"), ("first", "2026-12-02"), ("last", "2026-12-01"), ("why", "x")],
        )
        .await;
    assert_eq!(wrong.status, 422);
    assert!(wrong.body.contains("It ends before it begins"));
    let done = site
        .post(
            "/week/enter/closure",
            &[
                ("place", "Pool"),
                ("first", "2026-12-02"),
                ("last", ""),
                ("why", "tiles"),
                ("back", "/week?of=2026-11-30"),
            ],
        )
        .await;
    assert_eq!(done.status, 303);
    let page = site.get("/week?of=2026-11-30").await;
    assert!(page.body.contains("Pool is closed: tiles") && page.body.contains("Confirm this repair"));
}

#[tokio::test]
async fn the_year_shows_phases_and_meets() {
    let page = read_site().get("/year?squad=Youth").await;
    for part in ["Season of Youth", "Candle meet", "Holiday", "Learning", "(now)"] {
        assert!(page.body.contains(part), "{part}");
    }
    let json = read_site().get("/week/week.json").await;
    assert!(json.body.contains("\"cuffwright.week/1\""));
}
