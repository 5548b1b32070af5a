//! One swimmer and the list: both shoulders, what is given, and never a dose where there is a hold.

use app::demo::Case;

use super::site::{read_site, swimmer};

#[tokio::test]
async fn left_stands_on_the_left_and_the_ropes_have_their_words() {
    let site = read_site();
    let page = site.get(&format!("/people/{}", swimmer(Case::WeakArm))).await;
    assert!(page.body.find("Left shoulder") < page.body.find("Right shoulder"));
    assert!(page.body.contains("class=\"rope-words\"") && page.body.contains("class=\"why-first\""));
}

#[tokio::test]
async fn a_referred_shoulder_shows_no_dose() {
    let site = read_site();
    let page = site.get(&format!("/people/{}", swimmer(Case::DislocationStory))).await;
    assert!(page.body.contains("avail-out-referred"));
    assert!(!page.body.contains("class=\"dose\""), "no dose on a page of a swimmer who is out");
    assert!(page.body.contains("licensed clinician"), "what ends it");
}

#[tokio::test]
async fn another_day_is_looked_at_and_not_decided() {
    let site = read_site();
    let subject = swimmer(Case::Ordinary);
    let past = site.get(&format!("/people/{subject}?on=2026-10-20")).await;
    assert!(past.body.contains("20 October 2026") && !past.body.contains("/decide"));
    let now = site.get(&format!("/people/{subject}")).await;
    assert!(now.body.contains("/decide"));
    let odd = site.get(&format!("/people/{subject}?on=yesterday")).await;
    assert_eq!(odd.status, 200, "a day that cannot be read is today");
}

#[tokio::test]
async fn the_list_is_searched_filtered_and_tells_people_apart() {
    let site = read_site();
    let count = |body: &str| body.matches("class=\"pair-line\"").count();
    assert_eq!(count(&site.get("/people").await.body), 26);
    let both = site.get("/people?name=lukas").await;
    assert_eq!(count(&both.body), 2, "two with one first name");
    assert!(both.body.contains("HV-107") && both.body.contains("HV-106"));
    assert_eq!(count(&site.get("/people?name=soren%20thorvald").await.body), 0, "ø is written oe");
    assert_eq!(count(&site.get("/people?name=soeren").await.body), 1);
    let juniors = count(&site.get("/people?squad=Juniors").await.body);
    let young = count(&site.get("/people?squad=Juniors&track=youth").await.body);
    assert!(0 < young && young <= juniors && juniors < 26, "{young} of {juniors}");
    assert!(0 < count(&site.get("/people?state=limited").await.body));
    assert!(
        site.get("/people?page=99").await.body.contains("pair-line"),
        "a page that is not there is the last"
    );
}

#[tokio::test]
async fn names_with_markup_are_only_names() {
    let site = read_site();
    let page = site.get("/people?name=%3Cscript%3Ealert(1)%3C%2Fscript%3E").await;
    assert!(!page.body.contains("<script>") && page.body.contains("&lt;script&gt;"));
}
