//! From a luggage scale to a starting dose on the pages: bands, loads, what if, drawings.

use app::demo::Case;

use super::site::{site_with, swimmer};

/// A form as a club fills it in.
fn measured<'a>(readings: &'a str, rest: &'a str) -> [(&'a str, &'a str); 7] {
    [
        ("mark", "B-32"),
        ("date", "2026-11-20"),
        ("by", "A. Name"),
        ("length_unit", "cm"),
        ("force_unit", "kgf"),
        ("rest", rest),
        ("readings", readings),
    ]
}

#[tokio::test]
async fn a_band_is_measured_in_the_clubs_own_units_and_shown_with_plot_table_and_reason() {
    let site = site_with(Case::Ordinary);
    let before = site.get("/kit/band?mark=B-32").await;
    assert_eq!(before.status, 200);
    assert!(before.body.contains("Nobody has measured this band"));
    let readings = "60 0.98\n70 1.62\r\n80;2,10\n90 2.50\n100 2.90\n115 3.40\n130 3.85";
    let sent = site.post("/kit/band", &measured(readings, "50")).await;
    assert_eq!(sent.status, 303, "{}", sent.body);
    let after = site.get("/kit/band?mark=B-32").await.body;
    for part in [
        "<svg class=\"plot\"",
        "<title>",
        "<desc>",
        "class=\"plot-twin\"",
        "At double length it pulls 28",
        "Mooney",
    ] {
        assert!(after.contains(part), "{part}");
    }
    assert!(after.contains("no knot lies across the line to a face"));
    let kit = site.get("/kit").await.body;
    assert!(kit.contains("/kit/band?mark=B-32") && kit.contains("Measured on 20 Nov"), "the list says so");
    let rules = site.get("/rules/exercises/RC-1").await.body;
    assert!(rules.contains("B-32, measured"), "the rung is named by what was measured");
}

#[tokio::test]
async fn readings_without_a_law_come_back_with_the_reason_and_nothing_is_kept() {
    let site = site_with(Case::Ordinary);
    let cases = [
        ("60 0.98", "50", "take at least 4"),
        ("60 0.98\n70 -1\n80 2.1\n90 2.5", "50", "a scale cannot read less than nothing"),
        ("40 0.98\n70 1.6\n80 2.1\n90 2.5", "50", "is not longer than the rest length"),
        ("60 much\n70 1.6\n80 2.1\n90 2.5", "50", "is not a number"),
        ("60 0.98\n70 1.6\n80 2.1\n90 2.5", "slack", "is not a length"),
    ];
    for (readings, rest, says) in cases {
        let sent = site.post("/kit/band", &measured(readings, rest)).await;
        assert_eq!(sent.status, 422, "{readings}");
        assert!(sent.body.contains(says), "{says}: {}", sent.body);
        assert!(sent.body.contains(readings.lines().next().unwrap()), "what was typed is still there");
    }
    assert!(site.get("/kit/band?mark=B-32").await.body.contains("Nobody has measured this band"));
    assert_eq!(site.get("/kit/band?mark=none-such").await.status, 404);
}

#[tokio::test]
async fn the_loads_of_a_swimmer_go_from_the_scale_to_the_seconds() {
    let site = site_with(Case::Ordinary);
    let own = format!("/people/{}", swimmer(Case::Ordinary));
    assert!(site.get(&own).await.body.contains(&format!("{own}/loads")));
    let page = site.get(&format!("{own}/loads")).await;
    assert_eq!(page.status, 200);
    for part in [
        "Band external rotation",
        "class=\"loads-rungs\"",
        "N m at its peak",
        "Torque against angle",
        "Where a calibration set begins",
        "A clean calibration set of 45 to 60 s then decides",
        "<svg class=\"figure\"",
        "<animate ",
        "An adult checks every door anchor",
    ] {
        assert!(page.body.contains(part), "{part}");
    }
    assert!(!page.body.contains("style="), "no style stands in the page");
}

#[tokio::test]
async fn an_arm_is_measured_with_a_tape_and_replaces_the_estimate() {
    let site = site_with(Case::Ordinary);
    let own = format!("/people/{}", swimmer(Case::Ordinary));
    let wrong = [("date", "2026-11-20"), ("forearm_m", "240")];
    assert_eq!(site.post(&format!("{own}/record/arms"), &wrong).await.status, 422, "2.4 m is no forearm");
    let none = [("date", "2026-11-20")];
    assert_eq!(site.post(&format!("{own}/record/arms"), &none).await.status, 422, "nothing was measured");
    let right = [("date", "2026-11-20"), ("forearm_m", "24,5"), ("wrist_to_knuckle_m", "8")];
    let sent = site.post(&format!("{own}/record/arms"), &right).await;
    assert_eq!(sent.status, 303, "{}", sent.body);
    let page = site.get(&format!("{own}/loads")).await.body;
    assert!(
        page.contains("and 32 cm from elbow to grip") || page.contains("and 33 cm from elbow to grip"),
        "24.5 and 8"
    );
}

#[tokio::test]
async fn every_exercise_shows_its_drawing_named_and_still_for_those_who_want_no_motion() {
    let site = site_with(Case::Ordinary);
    for exercise in &trade::protocol::shipped().exercises {
        let page = site.get(&format!("/rules/exercises/{}", exercise.id)).await.body;
        assert!(page.contains("<svg class=\"figure\""), "{}", exercise.id);
        assert!(page.contains("Drawn"), "{} names its side", exercise.id);
        if let Some(moving) = page.find("<animate ") {
            let opened = page[..moving].rfind("<details class=\"figure-moves\"").unwrap();
            assert!(
                !page[opened..moving].contains("</details>"),
                "{}: it moves only when opened",
                exercise.id
            );
        }
    }
    let css = cuffwright::web::assets::SHEETS.iter().find(|(name, _)| *name == "figure").unwrap().1;
    assert!(css.contains("prefers-reduced-motion: reduce"));
}

#[tokio::test]
async fn what_if_compares_two_orders_and_says_what_it_is_not_for() {
    let site = site_with(Case::Ordinary);
    let page = site.get("/kit/what-if?first=60&second=15&sets=3&cap=90&rest=15&between=60").await.body;
    assert!(page.contains("falls short after"), "60 % is not held for 90 s");
    assert!(page.contains("It says nothing about hours") && page.contains("Fitted to adults"));
    assert_eq!(page.matches("<table").count() - page.matches("plot-twin").count(), 2, "one table an order");
}
