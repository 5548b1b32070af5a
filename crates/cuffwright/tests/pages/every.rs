//! Every page of the demo club and of an empty store: whole, guarded, and sound for those who hear it.

use app::demo::Case;

use super::site::{Answered, empty_site, read_site, swimmer};

const PLAIN: &[&str] = &[
    "/",
    "/due",
    "/due?all=yes",
    "/review",
    "/review?mark=all",
    "/people",
    "/people?state=out-referred",
    "/people?track=youth",
    "/people?name=zzz",
    "/session",
    "/import",
    "/kit",
    "/kit/band?mark=B-16",
    "/kit/band?mark=F-13",
    "/kit/what-if",
    "/kit/what-if?first=45&second=10&sets=9&cap=abc&rest=-3",
    "/club",
    "/week",
    "/week?of=2026-12-07",
    "/week/import",
    "/week/enter/closure",
    "/week/enter/change",
    "/week/enter/practice",
    "/week/enter/meet",
    "/week/enter/other",
    "/week/enter/deck",
    "/week/enter/supervisor",
    "/week/enter/plan",
    "/week/enter/holiday",
    "/year",
    "/rules",
    "/rules/E1",
    "/rules/p1",
    "/rules/exercises",
    "/rules/exercises/RC-1",
    "/rules/exercises/SC-2",
    "/rules/exercises/CO-1",
    "/rules/sources",
    "/rules/V10",
    "/screening",
    "/screening?swimmers=30&testers=4",
    "/screening?swimmers=0",
    "/screening/check-in",
    "/screening/body",
    "/screening/looking",
    "/screening/range?measure=shoulder_er_rom&measure=pec_minor_length",
    "/screening/strength?date=2026-11-14",
    "/screening/endurance",
    "/screening/trunk",
    "/screening/findings",
    "/screening/form",
    "/screening/form?names=yes",
    "/screening/trials",
    "/weekly",
    "/weekly/form",
];

fn check(path: &str, page: &Answered) {
    assert_eq!(page.status, 200, "{path}");
    let body = &page.body;
    assert!(
        !body.contains('‹'),
        "a message is missing in {path}: {:?}",
        body.split('‹').nth(1).map(|rest| &rest[..40.min(rest.len())])
    );
    for once in ["<h1", "<main", "lang=\"en-GB\"", "id=\"main\""] {
        assert_eq!(body.matches(once).count(), 1, "{once} in {path}");
    }
    for forbidden in ["<script", " style=", "javascript:", " onclick"] {
        assert!(!body.contains(forbidden), "{forbidden} in {path}");
    }
    assert!(body.contains("Pain stops the set"), "the cautions stand on {path}");
    assert_eq!(page.headers["cache-control"], "no-store", "{path}");
    assert!(page.headers.contains_key("content-security-policy"), "{path}");
    let ids: Vec<&str> = attribute(body, " id=\"").collect();
    let mut seen = std::collections::BTreeSet::new();
    for id in &ids {
        assert!(seen.insert(*id), "{id} stands twice on {path}");
    }
    for reference in [" for=\"", " aria-describedby=\"", " aria-labelledby=\""] {
        for found in attribute(body, reference).flat_map(str::split_whitespace) {
            assert!(seen.contains(found), "{found} is referred to on {path} and does not exist");
        }
    }
    for target in attribute(body, " href=\"#") {
        assert!(seen.contains(target), "#{target} leads nowhere on {path}");
    }
    for form in body.split("<form").skip(1) {
        let (head, inside) =
            (form.split('>').next().unwrap_or_default(), form.split("</form>").next().unwrap_or_default());
        if head.contains("method=\"post\"") {
            assert_eq!(inside.matches("name=\"token\"").count(), 1, "a form without seal on {path}: {head}");
        }
    }
}

fn attribute<'a>(page: &'a str, opening: &'a str) -> impl Iterator<Item = &'a str> {
    page.split(opening).skip(1).filter_map(|rest| rest.split('"').next())
}

#[tokio::test]
async fn every_plain_page_is_whole() {
    let site = read_site();
    for path in PLAIN {
        check(path, &site.get(path).await);
    }
}

#[tokio::test]
async fn every_page_of_every_swimmer_is_whole() {
    let site = read_site();
    let list = site.get("/people").await;
    let people: std::collections::BTreeSet<String> =
        attribute(&list.body, " href=\"/people/").map(str::to_owned).collect();
    assert_eq!(people.len(), 26, "the demo club has 26 swimmers");
    for id in &people {
        for below in
            ["", "?on=2026-10-20", "/facts", "/facts?kind=set", "/screening", "/retest", "/weekly", "/water"]
        {
            let path = format!("/people/{id}{below}");
            check(&path, &site.get(&path).await);
        }
        let path = format!("/session?date=2026-11-25&context=rested&who={id}");
        check(&path, &site.get(&path).await);
    }
}

#[tokio::test]
async fn every_form_is_whole() {
    let site = read_site();
    let subject = swimmer(Case::PainOnMonday);
    for sheet in cuffwright::web::pages::record::SHEETS {
        let path = format!("/people/{subject}/record/{}", sheet.word);
        check(&path, &site.get(&path).await);
    }
}

#[tokio::test]
async fn an_empty_store_leads_by_the_hand() {
    let site = empty_site();
    for path in ["/", "/people", "/session"] {
        let page = site.get(path).await;
        check(path, &page);
        assert!(page.has_id("first-steps"), "{path}");
        assert!(page.body.contains("href=\"/club\"") && page.body.contains("href=\"/import\""), "{path}");
    }
    assert_eq!(site.get("/import").await.location(), "/club?back=/import");
}

#[tokio::test]
async fn what_does_not_exist_says_so_and_leads_on() {
    let site = read_site();
    let nobody = "/people/00000000-0000-4000-8000-000000000000";
    for path in [
        "/nothing",
        nobody,
        "/people/x",
        "/rules/Z99",
        "/rules/exercises/none",
        "/assets/none.css",
        "/import/none",
    ] {
        let page = site.get(path).await;
        assert_eq!(page.status, 404, "{path}");
        assert!(page.body.contains("href=\"/people\""), "{path}");
    }
}
