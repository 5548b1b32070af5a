//! A screening day at speed: nothing typed is lost, nothing is filled in, pain fires the pain rule, laxity takes a
//! licence; and the pages that say what came of it.

use app::demo::Case;
use app::facts::{Kind, ScreeningFact, WeeklyCheckFact, read_json};
use store::SubjectId;
use trade::gate::Availability;
use trade::side::Side;

use super::site::{Asked, demo_site, read_site, site_with, swimmer};

const DAY: &str = "2026-11-25";

fn key(subject: SubjectId) -> String {
    format!("s{}", subject.uuid().simple())
}

fn facts<T: serde::de::DeserializeOwned>(site: &Asked, subject: SubjectId, kind: Kind) -> Vec<T> {
    let desk = site.site().desk();
    let live = desk.store().live_facts(subject).unwrap();
    live.iter()
        .filter(|fact| fact.fact.told.kind == kind.word())
        .map(|fact| read_json(fact.payload()).unwrap())
        .collect()
}

fn of_station(site: &Asked, subject: SubjectId, station: &str) -> Option<ScreeningFact> {
    facts::<ScreeningFact>(site, subject, Kind::Screening)
        .into_iter()
        .find(|fact| fact.date.to_string() == DAY && fact.station.as_deref() == Some(station))
}

fn left_of(site: &Asked, subject: SubjectId) -> Availability {
    let desk = site.site().desk();
    desk.assess(desk.person(subject).unwrap(), app::demo::DAY).gate.shoulder(Side::Left)
}

/// A form of one row, with the head that every station asks.
fn form<'a>(act: &'a str, boxes: &'a [(String, &'a str)]) -> Vec<(&'a str, &'a str)> {
    let mut all = vec![("do", act), ("date", DAY), ("tester", "Ronja")];
    all.extend(boxes.iter().map(|(name, value)| (name.as_str(), *value)));
    all
}

fn value(body: &str, id: &str) -> String {
    let head = format!(" name=\"{id}\" value=\"");
    body.split(&head).nth(1).and_then(|rest| rest.split('"').next()).unwrap_or_default().to_owned()
}

#[tokio::test]
async fn enter_saves_complete_rows_keeps_the_rest_and_moves_on() {
    let site = demo_site();
    let (full, begun) = (swimmer(Case::Ordinary), swimmer(Case::WeakArm));
    let (one, other) = (key(full), key(begun));
    let boxes = [
        (format!("{one}.shoulder_er_rom.left.1"), "98"),
        (format!("{one}.shoulder_er_rom.left.2"), "100"),
        (format!("{one}.shoulder_er_rom.right.1"), "97"),
        (format!("{one}.shoulder_ir_rom.left.1"), "58,5"),
        (format!("{one}.shoulder_ir_rom.right.1"), "r"),
        (format!("{other}.shoulder_er_rom.left.1"), "101"),
    ];
    let page = site.post("/screening/range", &form("next", &boxes)).await;
    assert_eq!(page.status, 200);
    assert!(page.body.contains("One row was saved") && page.body.contains("One row is not saved yet"));
    let fact = of_station(&site, full, "range").expect("the complete row is on record");
    let left = &fact.findings[0];
    assert_eq!(
        (left.key.as_str(), left.value, left.trials.as_slice()),
        ("shoulder_er_rom", Some(99.0), &[98.0, 100.0][..])
    );
    assert_eq!(fact.findings.len(), 4);
    assert!(of_station(&site, begun, "range").is_none(), "a row that was only begun is not stored");
    assert_eq!(
        value(&page.body, &format!("{other}.shoulder_er_rom.left.1")),
        "101",
        "and comes back as typed"
    );
    let focus = page.body.split(" autofocus").next().unwrap_or_default();
    assert!(focus.ends_with("aria-label=\"External rotation range, left (°), try 2\""), "on to the next box");
    assert!(focus.rsplit("<input").next().unwrap_or_default().contains(&other), "of the row that was begun");

    // The same sent again changes nothing; a changed box is a correction, and what was not typed stays.
    let count = || site.site().desk().store().counts().unwrap().facts;
    let before = count();
    site.post("/screening/range", &form("next", &boxes[..5])).await;
    assert_eq!(count(), before);
    let changed = [(format!("{one}.shoulder_er_rom.right.1"), "95")];
    site.post("/screening/range", &form(&format!("row:{one}"), &changed)).await;
    let fact = of_station(&site, full, "range").unwrap();
    assert_eq!(fact.findings.len(), 4);
    assert_eq!(
        fact.findings.iter().filter_map(|finding| finding.value).collect::<Vec<_>>(),
        [99.0, 95.0, 58.5]
    );
}

#[tokio::test]
async fn impossible_is_refused_unusual_needs_a_word_and_nothing_is_half_stored() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let key = key(subject);
    let mut boxes = vec![
        (format!("{key}.er_force.left.1"), "1200"),
        (format!("{key}.er_force.right.1"), "90"),
        (format!("{key}.ir_force.left.1"), "nine"),
    ];
    let act = format!("row:{key}");
    let page = site.post("/screening/strength", &form(&act, &boxes)).await;
    assert_eq!(page.status, 422);
    assert!(
        page.body.contains("cannot be that: it lies between 0 and 1000 N")
            && page.body.contains("“nine” is no number")
    );
    assert!(of_station(&site, subject, "strength").is_none());
    boxes[0].1 = "12";
    boxes[2].1 = "100";
    let page = site.post("/screening/strength", &form(&act, &boxes)).await;
    assert!(page.body.contains("mostly lies between 25 and 400 N"));
    let meant = format!("{key}.meant");
    assert!(page.has_id(&meant) && of_station(&site, subject, "strength").is_none());
    boxes.push((meant, "yes"));
    assert_eq!(site.post("/screening/strength", &form(&act, &boxes)).await.status, 200);
    let fact = of_station(&site, subject, "strength").unwrap();
    let unusual = fact.findings.iter().find(|finding| finding.value == Some(12.0)).unwrap();
    assert!(unusual.meant, "that somebody meant it stays on record");
}

#[tokio::test]
async fn a_test_that_hurts_fires_the_pain_rule_and_is_not_turned_into_a_value_in_passing() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    assert_eq!(left_of(&site, subject), Availability::Full);
    let key = key(subject);
    let act = format!("row:{key}");
    let hurt = [
        (format!("{key}.posterior_endurance_time.left.1"), "p 4"),
        (format!("{key}.posterior_endurance_time.right.1"), "41"),
    ];
    assert_eq!(site.post("/screening/endurance", &form(&act, &hurt)).await.status, 200);
    assert_eq!(left_of(&site, subject), Availability::OutToday, "by the pain rule");
    let pains: Vec<app::facts::PainFact> = facts(&site, subject, Kind::Pain);
    assert!(
        pains.iter().any(|pain| pain.date.to_string() == DAY && pain.left == Some(4) && pain.right.is_none())
    );
    let better = [(format!("{key}.posterior_endurance_time.left.1"), "50")];
    let page = site.post("/screening/endurance", &form(&act, &better)).await;
    assert_eq!(page.status, 422);
    assert!(page.body.contains("On record this test was stopped for pain"));
    let fact = of_station(&site, subject, "endurance").unwrap();
    assert!(fact.findings.iter().all(|finding| finding.value != Some(50.0)));
}

#[tokio::test]
async fn laxity_is_locked_to_a_licence_that_is_valid_on_the_day() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let key = key(subject);
    let locked = site.get("/screening/looking").await;
    assert!(locked.body.contains("Locked.") && !locked.body.contains("beighton.whole.1"));
    let act = format!("row:{key}");
    let boxes = [
        (format!("{key}.beighton.whole.1"), "5"),
        (format!("{key}.hollow.left"), "no"),
        (format!("{key}.hollow.right"), "no"),
    ];
    for until in ["", "2026-11-24"] {
        let mut form = form(&act, &boxes);
        form.extend([("clinician", "Dr Quist"), ("licence", "L-1"), ("licence_until", until)]);
        site.post("/screening/looking", &form).await;
        assert!(of_station(&site, subject, "looking").is_none(), "{until}");
    }
    let mut form = form(&act, &boxes);
    form.extend([("clinician", "Dr Quist"), ("licence", "L-1"), ("licence_until", "2026-11-25")]);
    assert_eq!(site.post("/screening/looking", &form).await.status, 200);
    let fact = of_station(&site, subject, "looking").unwrap();
    assert_eq!(fact.clinician.map(|clinician| clinician.name).as_deref(), Some("Dr Quist"));
    assert!(fact.looked_behind && fact.visible_hollow.is_empty());
}

#[tokio::test]
async fn a_swimmers_values_answer_why_and_no_page_scores_anybody() {
    let site = read_site();
    let subject = swimmer(Case::WeakArm);
    let page = site.get(&format!("/people/{subject}/screening")).await;
    for part in [
        "left has less",
        "External over internal rotation strength",
        "href=\"/rules/V5\"",
        "mclaine2018",
        "href=\"/rules/C3\"",
    ] {
        assert!(page.body.contains(part), "{part}");
    }
    for path in [format!("/people/{subject}/screening"), "/screening/findings".to_owned(), "/due".to_owned()]
    {
        let body = site.get(&path).await.body.to_lowercase();
        for word in ["at risk", "risk score", "injury risk of", "% risk", "likely to be injured"] {
            assert!(!body.contains(word), "{word} on {path}");
        }
    }
}

#[tokio::test]
async fn a_retest_says_up_down_or_cannot_tell_with_the_error_and_the_club_s_own_comes_first() {
    let site = read_site();
    let page = site.get(&format!("/people/{}/retest", swimmer(Case::WeakArm))).await;
    assert!(
        page.body.contains("cannot tell")
            && page.body.contains("The club's own trial of 14 September 2026, 12 people")
    );
    assert!(page.body.contains("No error was published"), "the plank has none");
    assert!(page.body.contains("role=\"img\"") && page.has_id("retest"), "a drawing and its table");
}

#[tokio::test]
async fn a_trial_is_brought_in_as_a_table_or_refused_with_its_lines() {
    let site = demo_site();
    let table = "person,test,retest\na,90,92\nb,80,x\n";
    let page = site.post_file("/screening/trials", &[("measure", "er_force"), ("date", DAY)], table).await;
    assert_eq!(page.status, 422);
    assert!(page.body.contains("line 3, retest") && page.body.contains("“x” is no number"));
    let table = "person,test,retest\na,90,92\nb,80,83\nc,101,97\nd,66,66\ne,120,117\n";
    let page = site.post_file("/screening/trials", &[("measure", "er_force"), ("date", DAY)], table).await;
    assert_eq!(page.location(), "/screening/trials?done=recorded");
    let retest = site.get(&format!("/people/{}/retest", swimmer(Case::WeakArm))).await;
    assert!(retest.body.contains("The club's own trial of 25 November 2026, 5 people"));
}

#[tokio::test]
async fn the_weekly_check_is_scored_asks_for_contact_and_is_due() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let path = format!("/people/{subject}/weekly");
    let mut form = vec![
        ("date", DAY),
        ("left_taking_part", "1"),
        ("left_less_training", "2"),
        ("right_taking_part", "0"),
    ];
    let page = site.post(&path, &form).await;
    assert_eq!(page.status, 422, "two answers are missing, and are not zeros");
    assert_eq!(page.body.matches("After the answer above").count(), 4, "in the list and at each field");
    form.extend([("left_performance", "1"), ("left_symptoms", "1"), ("pain_left", "2")]);
    assert_eq!(site.post(&path, &form).await.status, 303);
    let checks: Vec<WeeklyCheckFact> = facts(&site, subject, Kind::WeeklyCheck);
    assert!(checks.iter().any(|check| check.date.to_string() == DAY));
    let due = site.get("/due?all=yes").await;
    assert!(
        due.body.contains("cost training or performance (41 of 100)")
            && due.body.contains("href=\"/rules/Q1\"")
    );
    assert!(due.body.contains("Contact within two days"));
    let pains: Vec<app::facts::PainFact> = facts(&site, subject, Kind::Pain);
    assert!(pains.iter().any(|pain| pain.left == Some(2) && pain.asked.as_deref() == Some("weekly check")));
}

#[tokio::test]
async fn single_practices_are_off_until_a_club_turns_them_on() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let own = format!("/people/{subject}");
    let path = format!("{own}/record/water-session");
    let form = [("date", DAY), ("metres", "4200"), ("minutes", "90"), ("effort", "6")];
    assert!(!site.get(&own).await.body.contains("/record/water-session"));
    assert_eq!(site.post(&path, &form).await.status, 422);
    let club = [
        ("name", "Hallavesi"),
        ("practitioner", "Ronja"),
        ("zone", "Europe/Helsinki"),
        ("units", "metric"),
        ("daily_practices", "yes"),
    ];
    assert_eq!(site.post("/club", &club).await.status, 303);
    assert_eq!(site.post(&path, &form).await.status, 303);
    assert!(site.get(&own).await.body.contains("/record/water-session"));
}

#[tokio::test]
async fn whom_to_ask_says_why_what_and_how_many_lie_below() {
    let site = read_site();
    let page = site.get("/due").await;
    let list = page.body.split("id=\"ask\"").nth(1).unwrap();
    for part in [
        "Ask:",
        "answers about pain in four weeks were zero",
        "cost training or performance",
        "No weekly check since",
    ] {
        assert!(list.contains(part), "{part}");
    }
    let first = list.find("cost training or performance").unwrap();
    assert!(first < list.find("were zero").unwrap(), "the one that waits least well first");
}

#[tokio::test]
async fn too_few_answers_publish_no_numbers() {
    let site = read_site();
    let page = site.get("/weekly").await;
    assert!(page.body.contains("have answered since Mon 23 November"));
    assert!(
        page.body.contains("Under 70 % have answered") && !page.body.contains("have some shoulder problem")
    );
    let before = site.get("/weekly?on=2026-11-22").await;
    assert!(before.body.contains("have some shoulder problem"), "last week enough did");
}
