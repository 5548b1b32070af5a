//! What must not be lost: the network goes, the page is reloaded, the server is killed, all in the middle of a set.

use std::collections::BTreeSet;

use super::stage::{Stage, is_long};

#[tokio::test(flavor = "multi_thread")]
async fn a_page_reloaded_in_a_set_without_a_network_stands_where_it_stood() {
    let mut stage = Stage::open(360, &[("SC-1", 60)]).await;
    // The worker has the shell once it is active; a second load puts the page itself into its keeping.
    stage.until("deck.worker === 'active'").await;
    stage.client.refresh().await.unwrap();
    stage.ready().await;
    let who = stage.gather(3).await;
    stage.begin().await;
    stage.touch(&who[0], "lost").await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{}']\").dataset.stands === 'form'",
            who[0]
        ))
        .await;
    // The server goes, and with it the network for page and worker alike.
    stage.server.kill();
    stage.client.refresh().await.unwrap();
    stage.ready().await;
    stage.until("deck.session.now(deck.now()).kind === 'run'").await;
    assert_eq!(stage.stands(&who[0]).await, "form");
    assert_eq!(stage.stands(&who[1]).await, "open");
    stage.touch(&who[1], "lost").await;
    stage
        .until(&format!(
            "document.querySelector(\".deck-place[data-who='{}']\").dataset.stands === 'form'",
            who[1]
        ))
        .await;
    let written = stage.written().await;
    stage.server.again();
    stage.run("void deck.outbox.send()").await;
    stage.handed_over().await;
    let (ids, sets) = stage.on_record();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>(), written.iter().collect());
    assert_eq!(sets.len(), 2);
    stage.end().await;
}

/// A few kills at any moment of a set; fifty in the long run.
#[tokio::test(flavor = "multi_thread")]
async fn nothing_acknowledged_is_lost_when_the_server_is_killed_in_a_set() {
    let kills = if is_long() { 50 } else { 3 };
    let mut stage = Stage::open(1000, &[("SC-1", 120)]).await;
    let who = stage.gather(6).await;
    stage.begin().await;
    for kill in 0..kills {
        let one = &who[kill % who.len()];
        stage.touch(one, "lost").await;
        stage
            .until(&format!(
                "document.querySelector(\".deck-place[data-who='{one}']\").dataset.stands === 'form'"
            ))
            .await;
        // Sometimes in the middle of the hand-over, sometimes before it, sometimes after it.
        tokio::time::sleep(std::time::Duration::from_millis([0, 15, 120][kill % 3])).await;
        stage.server.kill();
        stage.skip(0.7).await;
        stage.click(&format!(".deck-place[data-who='{one}'] .deck-undo-touch")).await;
        stage
            .until(&format!(
                "document.querySelector(\".deck-place[data-who='{one}']\").dataset.stands === 'open'"
            ))
            .await;
        stage.skip(0.7).await;
        stage.server.again();
        // Fifty kills take longer than a set: the page's clock is set back, a little further on each time.
        let at = 20_000 + 700 * kill;
        stage.run(&format!("skipped -= Math.max(0, deck.session.now(deck.now()).ms - {at});")).await;
    }
    stage.touch(&who[5], "lost").await;
    stage.run("void deck.outbox.send()").await;
    stage.handed_over().await;
    assert_eq!(stage.ask("return deck.outbox.refused.length").await, 0);
    let written = stage.written().await;
    let (ids, sets) = stage.on_record();
    assert_eq!(ids.len(), written.len(), "each entry once");
    assert_eq!(ids.iter().collect::<BTreeSet<_>>(), written.iter().collect());
    assert_eq!(sets.len(), 1, "what was taken back is no set: {sets:?}");
    stage.end().await;
}
