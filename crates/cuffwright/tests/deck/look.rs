//! From a phone to a projector: nothing runs over, targets are large, nobody is named on the wall, and a checker for
//! accessibility has nothing serious to say.

use std::path::Path;

use serde_json::Value;

use super::stage::{Stage, is_long};

async fn overflow(stage: &Stage) -> i64 {
    let script = "return document.documentElement.scrollWidth - document.documentElement.clientWidth";
    stage.ask(script).await.as_i64().unwrap()
}

async fn small_targets(stage: &Stage) -> Value {
    stage
        .ask("return [...document.querySelectorAll('.deck-touch, .deck-here, .deck-ask, .deck-primary, .deck-stop, .deck-held')].filter((one) => one.offsetParent && (one.getBoundingClientRect().height < 64 || one.getBoundingClientRect().width < 64)).map((one) => one.className)")
        .await
}

#[tokio::test(flavor = "multi_thread")]
async fn nothing_runs_over_from_a_phone_to_a_projector() {
    // Minutes of a real browser, not steady on a busy machine: `./check --long` runs it.
    if !is_long() {
        return;
    }
    for width in [360, 768, 1920] {
        let stage = Stage::open(width, &[("SC-1", 60)]).await;
        assert_eq!(overflow(&stage).await, 0, "before at {width}");
        stage.gather(3).await;
        stage.begin().await;
        assert_eq!(overflow(&stage).await, 0, "live at {width}");
        assert_eq!(small_targets(&stage).await, serde_json::json!([]), "at {width}");
        stage.click("#tab-after").await;
        assert_eq!(overflow(&stage).await, 0, "after at {width}");
        stage.end().await;
    }
}

#[tokio::test(flavor = "multi_thread")]
async fn the_group_sees_clock_figure_and_side_and_no_name() {
    let stage = Stage::open(1200, &[("SC-1", 60)]).await;
    let names: Vec<String> = serde_json::from_value(
        stage.ask("return deck.bag.swimmers.flatMap((one) => [one.name, one.full_name])").await,
    )
    .unwrap();
    let rungs: Vec<String> = serde_json::from_value(
        stage
            .ask("return deck.bag.swimmers.flatMap((one) => one.lines.clear.map((line) => line.rung_name))")
            .await,
    )
    .unwrap();
    stage.gather(3).await;
    stage.click("#go").await;
    stage.until("deck.session.state.go !== undefined").await;
    stage.go(&format!("/deck/session/{}/wall", stage.session)).await;
    stage.until("document.querySelector('#deck-wall')?.dataset.ready === 'yes'").await;
    stage.until("document.querySelector('.deck-clock').textContent.includes(':')").await;
    let page = stage.ask("return document.documentElement.outerHTML").await;
    let page = page.as_str().unwrap();
    for word in names.iter().chain(&rungs) {
        assert!(!page.contains(word.as_str()), "{word} stands on the wall");
    }
    stage.end().await;
}

/// axe-core from the tests' own folder; `./check` installs it.
#[tokio::test(flavor = "multi_thread")]
async fn a_checker_for_accessibility_finds_nothing_serious() {
    // Minutes of a real browser, not steady on a busy machine: `./check --long` runs it.
    if !is_long() {
        return;
    }
    let axe = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/console/node_modules/axe-core/axe.min.js");
    let axe =
        std::fs::read_to_string(&axe).expect("./check installs axe-core; by hand: npm ci in tests/console");
    let stage = Stage::open(360, &[("SC-1", 60)]).await;
    look_over(&stage, &axe, "before").await;
    stage.click(".deck-person .deck-here").await;
    stage.until("!document.querySelector('.deck-person .deck-ask').disabled").await;
    stage.click(".deck-person .deck-ask").await;
    stage.click("dialog[open] #ask-self").await;
    look_over(&stage, &axe, "questions").await;
    stage.run("document.querySelector('dialog[open] .deck-close').click()").await;
    stage.run("scrollTo(0, 0)").await;
    stage.gather(3).await;
    stage.begin().await;
    look_over(&stage, &axe, "live").await;
    stage.click(".deck-place .deck-who").await;
    look_over(&stage, &axe, "sheet").await;
    stage.run("document.querySelector('dialog[open] .deck-close').click()").await;
    stage.click(".deck-stop").await;
    look_over(&stage, &axe, "card").await;
    stage.run("document.querySelector('dialog[open] .deck-close').click()").await;
    stage.click("#tab-after").await;
    look_over(&stage, &axe, "after").await;
    stage.end().await;
}

async fn look_over(stage: &Stage, axe: &str, place: &str) {
    stage.run(axe).await;
    let found = stage
        .client
        .execute_async(
            "const done = arguments[0]; axe.run(document, { resultTypes: ['violations'] }).then((found) => done(found.violations.filter((one) => one.impact === 'serious' || one.impact === 'critical').map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120) + ' ' + node.any.map((why) => why.message).join()).slice(0, 3).join(' | ')}`)))",
            Vec::new(),
        )
        .await
        .unwrap();
    assert_eq!(found, serde_json::json!([]), "{place}");
}
