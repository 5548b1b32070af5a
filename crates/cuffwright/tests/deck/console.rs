//! One person runs the demo squad from a phone-sized window with the network off, and the next doses appear.

use std::collections::BTreeSet;

use fantoccini::key::Key;

use super::stage::Stage;

#[tokio::test(flavor = "multi_thread")]
async fn a_whole_session_without_a_network_and_the_next_doses_when_it_comes_back() {
    let mut stage = Stage::open(360, &[("SC-1", 60)]).await;
    stage.network(false).await;
    let who = stage.gather(4).await;
    let before = places(&stage).await;
    for set in 1..=3 {
        if set == 1 {
            stage.begin().await;
        }
        stage.until("deck.session.now(deck.now()).phase?.kind === 'work'").await;
        stage.skip(12.0).await;
        stage.touch(&who[0], "cue").await;
        stage
            .until(&format!(
                "document.querySelector(\".deck-place[data-who='{}']\").dataset.cued === 'grace'",
                who[0]
            ))
            .await;
        stage.skip(6.0).await;
        stage.touch(&who[0], "lost").await;
        stage
            .until(&format!(
                "document.querySelector(\".deck-place[data-who='{}']\").dataset.stands === 'form'",
                who[0]
            ))
            .await;
        let left = stage.ask("return deck.session.now(deck.now()).left / 1000").await.as_f64().unwrap();
        stage.skip((left - 25.0).max(0.0)).await;
        if set < 3 {
            stage.click(".deck-held:not(:disabled)").await;
            stage
                .until(&format!(
                    "deck.session.state.people.get('{}').sets.get('SC-1|both|{set}')?.held",
                    who[1]
                ))
                .await;
        }
        assert_eq!(places(&stage).await, before, "places do not move");
        let left = stage.ask("return deck.session.now(deck.now()).left / 1000").await.as_f64().unwrap();
        stage.skip(left - 1.2).await;
        let stood = if set < 3 { "seen" } else { "unseen" };
        stage.until(&format!("[...deck.session.state.people.get('{}').sets.values()].filter((set) => set.cap?.awake).length === {set}", who[1])).await;
        let last = stage.ask(&format!("const set = deck.session.state.people.get('{}').sets.get('SC-1|both|{set}'); return set.held ? 'seen' : 'unseen'", who[1])).await;
        assert_eq!(last, stood, "set {set}");
        if set < 3 {
            stage.skip(29.0).await;
        }
    }
    stage.until("deck.session.now(deck.now()).kind === 'over'").await;
    stage.click("#go").await;
    stage.click(".deck-after .deck-ask").await;
    stage.click("dialog[open] #after-none").await;
    let waiting = stage.ask("return deck.outbox.waiting").await.as_u64().unwrap();
    let written = stage.written().await;
    assert_eq!(waiting as usize, written.len(), "nothing left the device without a network");
    let took: Vec<f64> = serde_json::from_value(stage.ask("return deck.took").await).unwrap();
    println!("touch to disk, milliseconds: {took:?}");

    stage.network(true).await;
    stage.run("void deck.outbox.send()").await;
    stage.handed_over().await;
    stage.click("#to-review").await;
    stage.until("document.querySelector('main h1') !== null").await;
    let (ids, sets) = stage.on_record();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>(), written.iter().collect(), "every touch arrived once");
    assert_eq!(sets.len(), 12);
    let of = |end: &str| sets.iter().filter(|set| set["end"] == end).count();
    assert_eq!((of("form"), of("cap")), (3, 9));
    assert_eq!(sets.iter().filter(|set| set["seen"] == true).count(), 6);
    for set in sets.iter().filter(|set| set["end"] == "form") {
        let seconds = set["seconds"].as_f64().unwrap();
        assert!((18.0..34.0).contains(&seconds), "{seconds}");
    }
    stage.end().await;
}

async fn places(stage: &Stage) -> String {
    let script =
        "return [...document.querySelectorAll('#wall > li')].map((row) => row.dataset.who ?? 'row').join()";
    stage.ask(script).await.as_str().unwrap().to_owned()
}

#[tokio::test(flavor = "multi_thread")]
async fn a_second_contact_a_sleeping_screen_pain_and_who_may_not() {
    let mut stage = Stage::open(360, &[("SC-1", 30)]).await;
    let blocked =
        stage.ask("return deck.bag.swimmers.find((one) => one.lines.clear.length === 0)?.id ?? ''").await;
    let blocked = blocked.as_str().unwrap().to_owned();
    stage.click(&format!(".deck-person[data-who='{blocked}'] .deck-here")).await;
    let who = stage.gather(3).await;
    stage.begin().await;
    let mine = format!(".deck-place[data-who='{blocked}'] .deck-lost-touch");
    assert_eq!(
        stage.ask(&format!("return document.querySelector(\"{mine}\").disabled")).await,
        true,
        "who may not cannot be started"
    );

    stage.skip(5.0).await;
    // Two contacts of one wet finger, 80 ms apart.
    stage.run(&format!(
        "const lost = document.querySelector(\".deck-place[data-who='{}'] .deck-lost-touch\"); const down = () => lost.dispatchEvent(new PointerEvent('pointerdown', {{ bubbles: true, button: 0 }})); down(); setTimeout(down, 80);",
        who[0]
    )).await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{}']\").dataset.stands === 'form'",
            who[0]
        ))
        .await;
    tokio::time::sleep(std::time::Duration::from_millis(400)).await;
    assert_eq!(
        stage.ask("return deck.session.state.entries().filter((entry) => entry.k === 'end').length").await,
        1
    );

    // Pain opens the rule at once.
    stage.click(&format!(".deck-place[data-who='{}'] .deck-who", who[1])).await;
    stage.click("#pain").await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{}']\").dataset.stands === 'pain'",
            who[1]
        ))
        .await;
    stage
        .run("document.querySelectorAll('dialog[open] .deck-scale')[1].querySelectorAll('button')[4].click()")
        .await;
    stage.click("#pain-done").await;
    stage.until("document.querySelector('#pain-told')?.textContent.includes('all shoulder exercises')").await;
    stage.run("document.querySelector('dialog[open] .deck-close').click()").await;

    // The screen was dark over the cap: nothing is claimed for the third.
    stage.skip(60.0).await;
    stage.until("deck.session.state.entries().some((entry) => entry.k === 'cap')").await;
    assert_eq!(stage.ask("return deck.session.state.entries().filter((entry) => entry.k === 'cap').every((entry) => entry.awake === false)").await, true);
    stage.handed_over().await;
    let (_, sets) = stage.on_record();
    let ends: Vec<_> = sets.iter().map(|set| set["end"].as_str().unwrap().to_owned()).collect();
    assert_eq!(ends.iter().filter(|end| *end == "cap").count(), 0, "{ends:?}");
    assert_eq!(sets.len(), 2);
    stage.end().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn all_stop_opens_the_card_without_a_network_and_an_incident_takes_a_band_out() {
    let mut stage = Stage::open(360, &[("SC-1", 30)]).await;
    stage.gather(2).await;
    stage.network(false).await;
    stage.begin().await;
    stage.click(".deck-stop").await;
    stage.until("document.querySelector('dialog[open] .deck-ring') !== null").await;
    let card = stage.ask("return document.querySelector('dialog[open]').innerText").await;
    assert!(card.as_str().unwrap().contains("Everything has stopped"), "{card}");
    assert_eq!(stage.ask("return deck.session.now(deck.now()).kind").await, "idle");
    stage.run("const box = document.querySelector('.deck-incident'); box.querySelector(\"[data-value='band']\").click(); box.querySelector(\"[data-value='B-16']\").click(); box.querySelector('textarea').value = 'Snapped at the loop.';").await;
    stage.run("document.querySelector('#incident-keep').click()").await;
    stage.until("deck.session.state.incidents.length === 1").await;
    stage.network(true).await;
    stage.run("void deck.outbox.send()").await;
    stage.handed_over().await;
    let (_, sets) = stage.on_record();
    assert!(sets.iter().all(|set| set["end"] == "left"), "called away, and it proves nothing: {sets:?}");
    stage.end().await;
}

/// Presses Tab until the focused element matches.
async fn tab_to(stage: &Stage, css: &str) {
    for _ in 0..300 {
        if stage.ask(&format!("return document.activeElement?.matches(\"{css}\") ?? false")).await == true {
            return;
        }
        stage.client.active_element().await.unwrap().send_keys(&Key::Tab.to_string()).await.unwrap();
    }
    panic!("Tab never reaches {css}");
}

async fn press(stage: &Stage) {
    stage.client.active_element().await.unwrap().send_keys(&Key::Enter.to_string()).await.unwrap();
}

#[tokio::test(flavor = "multi_thread")]
async fn a_session_runs_by_keyboard_alone() {
    let stage = Stage::open(1200, &[("SC-1", 30)]).await;
    let script = "return deck.bag.swimmers.find((one) => one.lines.clear.some((line) => line.timed)).id";
    let who = stage.ask(script).await.as_str().unwrap().to_owned();
    tab_to(&stage, &format!(".deck-person[data-who='{who}'] .deck-here")).await;
    press(&stage).await;
    stage
        .until(&format!("!document.querySelector(\".deck-person[data-who='{who}'] .deck-ask\").disabled"))
        .await;
    tab_to(&stage, &format!(".deck-person[data-who='{who}'] .deck-ask")).await;
    press(&stage).await;
    tab_to(&stage, "dialog[open] #ask-spoken").await;
    press(&stage).await;
    tab_to(&stage, "dialog[open] #ask-none").await;
    press(&stage).await;
    stage.until("document.querySelector('dialog[open]') === null").await;
    tab_to(&stage, "#to-live").await;
    press(&stage).await;
    tab_to(&stage, "#go").await;
    press(&stage).await;
    stage.until("deck.session.now(deck.now()).kind === 'lead'").await;
    stage.skip(4.5).await;
    stage.until("deck.session.now(deck.now()).kind === 'run'").await;
    stage.skip(3.0).await;
    tab_to(&stage, &format!(".deck-place[data-who='{who}'] .deck-lost-touch")).await;
    press(&stage).await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{who}']\").dataset.stands === 'form'"
        ))
        .await;
    tab_to(&stage, &format!(".deck-place[data-who='{who}'] .deck-undo-touch")).await;
    press(&stage).await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{who}']\").dataset.stands === 'open'"
        ))
        .await;
    stage.end().await;
}

/// Onsets found in the rendered sound, ten minutes of it, beside where they should be.
#[tokio::test(flavor = "multi_thread")]
async fn the_beat_rendered_offline_does_not_drift() {
    let stage = Stage::open(1000, &[("SC-1", 30)]).await;
    let script = "const done = arguments[0]; const base = document.querySelector('script[type=module]').src.replace('main.js', 'beat.js'); import(base).then(async ({ cuesOf, sound }) => { const audio = new OfflineAudioContext(1, 600 * 8000, 8000); const cues = cuesOf({ kind: 'beat', out: 1, hold: 0, back: 1 }, 600, 0); for (const cue of cues) sound(audio, audio.destination, cue.tone, cue.at); const data = (await audio.startRendering()).getChannelData(0); let worst = 0; for (const cue of cues.slice(1, -1)) { let at = Math.round((cue.at - 0.02) * 8000); while (at < data.length && Math.abs(data[at]) < 0.02) at += 1; worst = Math.max(worst, Math.abs(at / 8000 - cue.at)); } done(worst); })";
    let worst = stage.client.execute_async(script, Vec::new()).await.unwrap().as_f64().unwrap();
    println!("worst onset: {:.2} ms", worst * 1000.0);
    assert!(worst < 0.010, "{worst} s");
    stage.end().await;
}
