//! What a person does in a real browser: first run, import, review, override, pain, keyboard, phone, no scripts.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

mod browser;
#[path = "../../../app/tests/door/build.rs"]
#[allow(dead_code, reason = "shared with the tests of the layer below")]
mod build;
#[path = "../../../app/tests/door/canaries.rs"]
#[allow(dead_code, reason = "shared with the tests of the layer below")]
mod canaries;
mod door;

use browser::{Begin, Journey, Scripts};
use fantoccini::Locator;
use fantoccini::key::Key;

fn example(name: &str) -> String {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples").join(name);
    path.canonicalize().expect("the example is there").display().to_string()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_newcomer_brings_in_a_roster_and_sees_what_is_missing() {
    let journey = Journey::begin(&Begin::Empty, Scripts::On, 1200).await;
    assert!(journey.has("#first-steps").await);
    journey.click(".first .button").await;
    journey.fill("#name", "Driftwood Bay").await;
    journey.fill("#practitioner", "Ronja Ahvenlaine").await;
    journey.fill("#zone", "Europe/Lisbon").await;
    journey.click("form.record button[type=submit]").await;
    journey.click_link("Bring in a roster").await;

    journey.find("#file").await.send_keys(&example("broken-roster.csv")).await.unwrap();
    journey.click("form[enctype] button[type=submit]").await;
    journey.find("#problems").await;
    assert!(!journey.has("#confirm").await, "nothing to confirm while something is in the way");
    journey.says("Mabel Crookshank-Ley").await;

    journey.click_link("Another file").await;
    journey.find("#file").await.send_keys(&example("roster.csv")).await.unwrap();
    journey.click("form[enctype] button[type=submit]").await;
    journey.says("Nothing is stored yet").await;
    if journey.has("#confirm #unusual").await {
        journey.click("#confirm #unusual").await;
    }
    journey.click("#confirm button[type=submit]").await;
    journey.says("The file is on record").await;
    journey.counts(".pair-line", 26).await;

    journey.click(".wordmark").await;
    journey.says("Screen this swimmer").await;
    journey.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn proposals_are_accepted_together_and_one_is_decided_otherwise() {
    let journey = Journey::begin(&Begin::Demo, Scripts::On, 1200).await;
    journey.go("/review").await;
    let together = journey.count(".together input[type=checkbox]").await;
    let alone = journey.count(".waiting > li").await;
    assert!(0 < together && 0 < alone);
    assert_eq!(journey.count(".together input:checked").await, 0, "nothing is marked for anybody");
    journey.click(".mark-all button").await;
    journey.counts(".together input:checked", together).await;
    journey.click(".together-do button").await;
    journey.says("Everything that was marked is confirmed").await;
    assert!(journey.count(".together input").await < together, "what is confirmed no longer waits");
    assert_eq!(journey.count(".waiting > li").await, alone, "exceptions wait for their own decision");

    let who = journey.text(".waiting-who a").await;
    journey.click(".waiting .decision > summary").await;
    journey.click(".waiting .decision-override").await;
    journey.click(".waiting .decision button[type=submit]").await;
    journey.says("An override needs a reason in words").await;
    let open = journey.find(".decision[open] textarea").await;
    open.send_keys("Exam week, sleeps badly.").await.unwrap();
    journey.click(".decision[open] button[type=submit]").await;
    journey.says("The decision is on record").await;
    journey.counts(".waiting > li", alone - 1).await;
    journey.to_swimmer(&who).await;
    for part in journey.client.find_all(Locator::Css(".past-part > summary")).await.unwrap() {
        part.click().await.unwrap();
    }
    journey.says("Exam week, sleeps badly.").await;
    journey.end().await;
}

/// Pain is spoken: out at once, and the guardian stands on the day's list.
async fn pain_is_spoken(journey: &Journey) {
    journey.to_swimmer("Kwabena").await;
    assert!(journey.text(".shoulder-head").await.contains("full"));
    journey.click(".quick .button").await;
    journey.choose("#when", "during").await;
    journey.click("#right-4").await;
    journey.click("form.record button[type=submit]").await;
    journey.says("It is on record").await;
    journey.find(".outcome-done").await;
    let heads = journey.text(".span").await;
    assert!(heads.contains("out today"), "{heads}");
    journey.click(".wordmark").await;
    let line = "//li[contains(@class,'due-line')][contains(.,'Kwabena')][contains(.,'Tell the guardian')]";
    let found =
        journey.client.wait().for_element(Locator::XPath(line)).await.expect("the guardian is to be told");
    found.find(Locator::Css("summary.button")).await.unwrap().click().await.unwrap();
    found.find(Locator::Css("form.in-place button[type=submit]")).await.unwrap().click().await.unwrap();
    journey.says("It is on record").await;
    assert!(journey.client.find(Locator::XPath(line)).await.is_err(), "told is closed");
}

#[tokio::test(flavor = "multi_thread")]
async fn pain_puts_a_shoulder_out_at_once_and_the_guardian_on_the_list() {
    let journey = Journey::begin(&Begin::Demo, Scripts::On, 1200).await;
    pain_is_spoken(&journey).await;
    journey.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn everything_works_without_scripts() {
    let journey = Journey::begin(&Begin::Demo, Scripts::Off, 1200).await;
    journey
        .client
        .goto("data:text/html,<title>off</title><script>document.title='on'</script>")
        .await
        .unwrap();
    assert_eq!(journey.client.title().await.unwrap(), "off", "scripts are really off");
    pain_is_spoken(&journey).await;
    journey.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn an_emergency_sign_answers_before_anything_is_sent() {
    let journey = Journey::begin(&Begin::Demo, Scripts::Off, 1200).await;
    journey.to_swimmer("Kwabena").await;
    journey.click(".quick .button").await;
    let then = journey.find(".several-emergency .several-then").await;
    let before = then.css_value("font-size").await.unwrap();
    journey.click("label[for='signs-chest-pain']").await;
    assert_ne!(then.css_value("font-size").await.unwrap(), before, "what to do is said large at once");
    journey.choose("#when", "other").await;
    journey.click("form.record button[type=submit]").await;
    journey.find("#urgent").await;
    journey.says("Ring the emergency number").await;
    journey.end().await;
}

/// Presses Tab until the focused element matches, as somebody without a mouse does.
async fn tab_to(journey: &Journey, css: &str) {
    for _ in 0..400 {
        let active = journey.client.active_element().await.unwrap();
        for wanted in journey.client.find_all(Locator::Css(css)).await.unwrap() {
            if wanted.element_id() == active.element_id() {
                return;
            }
        }
        active.send_keys(&Key::Tab.to_string()).await.unwrap();
    }
    panic!("{css} is not reached by the keyboard on {}", journey.address().await);
}

async fn press(journey: &Journey, keys: &str) {
    journey.client.active_element().await.unwrap().send_keys(keys).await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn the_keyboard_alone_is_enough() {
    let journey = Journey::begin(&Begin::Demo, Scripts::On, 1200).await;
    press(&journey, &Key::Tab.to_string()).await;
    let first = journey.client.active_element().await.unwrap();
    assert_eq!(
        first.attr("class").await.unwrap().as_deref(),
        Some("skip"),
        "the way past the head comes first"
    );
    assert!(first.is_displayed().await.unwrap());
    press(&journey, &Key::Enter.to_string()).await;
    assert!(journey.address().await.ends_with("#main"));

    journey.go("/review").await;
    let alone = journey.count(".waiting > li").await;
    tab_to(&journey, ".waiting .decision > summary").await;
    press(&journey, &Key::Enter.to_string()).await;
    tab_to(&journey, ".decision[open] input[type=radio]").await;
    press(&journey, " ").await;
    assert_eq!(journey.count(".decision[open] input[value=confirm]:checked").await, 1);
    tab_to(&journey, ".decision[open] button[type=submit]").await;
    press(&journey, &Key::Enter.to_string()).await;
    journey.find(".outcome-done").await;
    journey.counts(".waiting > li", alone - 1).await;
    journey.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_phone_never_scrolls_sideways_and_targets_fit_a_thumb() {
    let journey = Journey::begin(&Begin::Demo, Scripts::On, 360).await;
    journey.to_swimmer("Ines").await;
    journey.find(".quick").await;
    let own = journey.address().await;
    let id = own.rsplit('/').next().unwrap().split('?').next().unwrap().to_owned();
    let paths = [
        "/".to_owned(),
        "/review".to_owned(),
        "/people".to_owned(),
        format!("/people/{id}"),
        format!("/people/{id}/record/pain"),
        format!("/people/{id}/record/limit"),
        format!("/people/{id}/facts"),
        "/session".to_owned(),
        format!("/session?date=2026-11-25&context=rested&who={id}"),
        "/import".to_owned(),
        "/kit".to_owned(),
        "/rules".to_owned(),
        "/rules/E1".to_owned(),
        "/rules/exercises/RC-1".to_owned(),
        "/rules/sources".to_owned(),
    ];
    for path in &paths {
        journey.go(path).await;
        let script = "return [document.documentElement.scrollWidth, document.documentElement.clientWidth]";
        let widths = journey.client.execute(script, Vec::new()).await.unwrap();
        assert_eq!(widths[1], 360, "{path}");
        assert!(widths[0].as_i64() <= widths[1].as_i64(), "{path} scrolls sideways: {widths}");
        let script = "return [...document.querySelectorAll('button, .button, main select, main input:not([type=hidden])')]\
             .filter(e => e.checkVisibility() && e.type !== 'checkbox' && e.type !== 'radio')\
             .map(e => [e.outerHTML.slice(0, 80), e.getBoundingClientRect().height])\
             .filter(e => e[1] < 44)";
        let small = journey.client.execute(script, Vec::new()).await.unwrap();
        assert_eq!(small.as_array().map(Vec::len), Some(0), "too small for a thumb on {path}: {small}");
    }
    journey.end().await;
}
