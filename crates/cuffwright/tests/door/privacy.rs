//! Consent, archive, erasure and the audit, through the pages.

use std::io::Read;

use axum::body::{Body, to_bytes};
use axum::http::Request;
use door::role::Role;
use store::ChainVerdict;

use super::site::{Asker, Club};
use crate::build::*;

const OWNER: Asker = Asker::As(Role::Owner);
const GUARDIAN: Asker = Asker::As(Role::Guardian);

#[tokio::test]
async fn withdrawing_acts_the_same_day_for_one_item_and_for_all() {
    let club = Club::peopled();
    let path = format!("/people/{}/consent", swimmer(1));
    let page = club.get(&path, GUARDIAN).await;
    assert!(page.body.contains("keeping health records") && page.body.contains("CANARY-consent"));
    let nothing = club.post(&format!("{path}/withdraw"), GUARDIAN, &[]).await;
    assert_eq!(nothing.status, 422);
    let photo = club.post(&format!("{path}/withdraw"), GUARDIAN, &[("item", "photo")]).await;
    assert_eq!(photo.status, 303);
    let holds = |club: &Club| {
        let desk = club.site.desk();
        let person = desk.person(swimmer(1)).unwrap();
        person
            .read
            .history
            .consents
            .iter()
            .filter(|one| one.withdrawn.is_none())
            .map(|one| one.granted.len())
            .sum::<usize>()
    };
    assert_eq!(holds(&club), 3, "the others stay");
    let all = club.post(&format!("{path}/withdraw"), GUARDIAN, &[("all", "yes")]).await;
    assert_eq!(all.status, 303);
    assert_eq!(holds(&club), 0);
    let own = club.get(&format!("/people/{}", swimmer(1)), OWNER).await;
    assert!(own.body.contains("G1"), "the gate knows at once: {}", own.status);
    let twice = club.post(&format!("{path}/withdraw"), GUARDIAN, &[("all", "yes")]).await;
    assert_eq!(twice.status, 409);
}

#[tokio::test]
async fn the_whole_record_leaves_as_a_readable_archive_and_is_written_down() {
    let club = Club::peopled();
    let word = OWNER.token().unwrap().form_word();
    let request = Request::post(format!("/people/{}/archive", swimmer(1)))
        .header("host", super::site::HOST)
        .header("cookie", super::site::cookie(OWNER))
        .header("sec-fetch-site", "same-origin")
        .header("content-type", "application/x-www-form-urlencoded")
        .body(Body::from(format!("token={word}")))
        .unwrap();
    let response = tower::ServiceExt::oneshot(cuffwright::web::routes::router(club.site.clone()), request)
        .await
        .unwrap();
    assert_eq!(response.headers()["content-type"], "application/zip");
    assert!(!response.headers()["content-disposition"].to_str().unwrap().contains("Ana"));
    let bytes = to_bytes(response.into_body(), usize::MAX).await.unwrap();
    let mut zip = zip::ZipArchive::new(std::io::Cursor::new(bytes.to_vec())).unwrap();
    let mut page = String::new();
    zip.by_name("record.html").unwrap().read_to_string(&mut page).unwrap();
    assert!(page.contains("CANARY-talk") && page.contains("CANARY-screening"));
    let audit = club.get(&format!("/people/{}/audit", swimmer(1)), GUARDIAN).await;
    assert!(audit.body.contains("handed out the whole record") && audit.body.contains("Person olga"));
}

#[tokio::test]
async fn erasing_asks_for_the_name_and_leaves_a_log_that_verifies() {
    let club = Club::peopled();
    let path = format!("/people/{}/erase", swimmer(1));
    let before = club.site.desk().store().counts().unwrap();
    for (name, ground) in
        [("Ana", "person-asked"), ("", "person-asked"), ("Ana Example", ""), ("Ana Example", "x")]
    {
        assert_eq!(club.post(&path, OWNER, &[("name", name), ("ground", ground)]).await.status, 422);
    }
    assert_eq!(club.site.desk().store().counts().unwrap(), before);
    let erased = club.post(&path, OWNER, &[("name", "Ana Example"), ("ground", "guardian-asked")]).await;
    assert_eq!(erased.status, 200, "{}", erased.body);
    assert!(erased.body.contains("entries are gone"));
    {
        let desk = club.site.desk();
        let after = desk.store().counts().unwrap();
        assert_eq!(after.facts, before.facts, "counts still match: tombstones stand in for what is gone");
        assert!(
            matches!(desk.store().verify_chain().unwrap(), ChainVerdict::Whole { .. }),
            "the log verifies"
        );
    }
    // Nothing is left on any page, and whoever's account it was is out.
    for path in ["/people", "/audit", "/due", "/accounts"] {
        let page = club.get(path, OWNER).await;
        assert!(page.status == 200 && !page.body.contains("CANARY") && !page.body.contains("Ana"), "{path}");
    }
    assert_eq!(club.get(&format!("/people/{}", swimmer(1)), OWNER).await.status, 404);
    assert_eq!(club.get("/people", Asker::As(Role::Swimmer)).await.status, 303);
    let audit = club.get("/audit", OWNER).await;
    assert!(audit.body.contains("erased"));
}

#[tokio::test]
async fn the_audit_says_who_looked_and_is_filtered_by_person_and_by_record() {
    let club = Club::peopled();
    let practitioner = Asker::As(Role::Practitioner);
    club.get(&format!("/people/{}", swimmer(1)), practitioner).await;
    club.get(&format!("/people/{}", swimmer(2)), practitioner).await;
    club.get("/", practitioner).await;
    let all = club.get("/audit", OWNER).await;
    assert!(all.body.contains("Person practitioner") && all.body.contains("saw"));
    assert!(all.body.contains("why something is held back"), "the day of everybody was looked at");
    let account =
        club.site.desk().accounts().unwrap().into_iter().find(|one| one.role == Role::Practitioner).unwrap();
    let by = club.get(&format!("/audit?account={}", account.id.0), OWNER).await;
    let rows = by.body.split("<tbody>").nth(1).unwrap();
    assert!(rows.contains("Ana Example") && rows.contains("Ben Specimen") && !rows.contains("Person olga"));
    let about = club.get(&format!("/audit?subject={}", swimmer(2)), OWNER).await;
    let rows = about.body.split("<tbody>").nth(1).unwrap();
    assert!(rows.contains("Ben Specimen") && !rows.contains("Ana Example"));
    let own = club.get(&format!("/people/{}/audit", swimmer(1)), Asker::As(Role::Swimmer)).await;
    assert!(own.body.contains("Person practitioner"));
    let mine = club.get("/me/audit", practitioner).await;
    assert!(mine.body.contains("saw"));
}

#[tokio::test]
async fn for_how_long_is_settled_by_a_person_and_proposes_only() {
    let club = Club::peopled();
    assert!(club.get("/retention", OWNER).await.body.contains("Nothing is settled yet"));
    for (years, age) in [("", ""), ("x", ""), ("60", ""), ("3", "12")] {
        assert_eq!(club.post("/retention", OWNER, &[("years", years), ("age", age)]).await.status, 422);
    }
    assert_eq!(club.post("/retention", OWNER, &[("years", "3"), ("age", "21")]).await.status, 303);
    assert!(club.get("/retention", OWNER).await.body.contains("value=\"21\""));
}
