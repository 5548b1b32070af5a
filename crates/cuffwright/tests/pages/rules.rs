//! Every rule, every number and every exercise has its page, and links between them hold.

use std::collections::BTreeSet;

use super::site::read_site;

#[tokio::test]
async fn every_rule_and_exercise_that_is_linked_is_there() {
    let site = read_site();
    let mut links = BTreeSet::new();
    for path in ["/rules", "/rules/exercises", "/", "/review"] {
        let body = site.get(path).await.body;
        links.extend(
            body.split("href=\"/rules/")
                .skip(1)
                .filter_map(|rest| rest.split(['"', '#']).next())
                .map(str::to_owned),
        );
    }
    assert!(50 < links.len(), "{}", links.len());
    for link in links {
        assert_eq!(site.get(&format!("/rules/{link}")).await.status, 200, "{link}");
    }
}

#[tokio::test]
async fn every_number_shows_value_limits_mark_and_the_ground_is_counted() {
    let page = read_site().get("/rules").await;
    let protocol = trade::protocol::shipped();
    for listed in &protocol.parameters.listed {
        assert!(page.has_id(&format!("parameter-{}", listed.key)), "{}", listed.key);
    }
    assert!(page.body.contains(&protocol.hash) && page.body.contains(&protocol.revision));
    assert!(page.body.contains("common practice, no source"));
}

#[tokio::test]
async fn a_source_named_at_a_number_stands_in_the_list() {
    let site = read_site();
    let body = site.get("/rules").await.body;
    let sources = site.get("/rules/sources").await;
    for key in body.split("/rules/sources#").skip(1).filter_map(|rest| rest.split('"').next()) {
        assert!(sources.has_id(key), "{key}");
    }
}
