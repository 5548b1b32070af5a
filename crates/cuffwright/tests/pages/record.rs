//! The forms: every problem at its field, and what was typed comes back.

use app::demo::Case;

use super::site::{site_with, swimmer};

#[tokio::test]
async fn a_refused_form_keeps_what_was_typed_and_names_every_problem() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let form = [
        ("date", "2026-12-24"),
        ("when", ""),
        ("left", "3"),
        ("signs", "night-pain"),
        ("asked", "alone, <by> the wall"),
    ];
    let page = site.post(&format!("/people/{subject}/record/pain"), &form).await;
    assert_eq!(page.status, 422);
    assert!(page.body.contains("2 problems"), "the day ahead and the missing moment");
    assert!(page.body.contains("alone, &lt;by&gt; the wall"));
    assert!(page.body.contains("value=\"3\" checked") && page.body.contains("value=\"night-pain\" checked"));
    assert!(page.body.contains("id=\"when-problem\"") && page.body.contains("id=\"date-problem\""));
}

#[tokio::test]
async fn nobody_asked_is_not_recorded_as_no_pain() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let form = [("date", "2026-11-25"), ("when", "other"), ("left", ""), ("right", "")];
    assert_eq!(site.post(&format!("/people/{subject}/record/pain"), &form).await.status, 422);
    let page = site.get(&format!("/people/{subject}/record/pain")).await;
    assert!(page.body.contains("id=\"left-none\" name=\"left\" value=\"\" checked"));
    assert!(!page.body.contains("value=\"0\" checked"));
}

#[tokio::test]
async fn a_letter_without_a_licence_valid_that_day_is_refused() {
    let site = site_with(Case::SecondPainEvent);
    let subject = swimmer(Case::SecondPainEvent);
    let path = format!("/people/{subject}/record/clearance");
    let mut form = vec![
        ("date", "2026-11-25"),
        ("side", "right"),
        ("clinician", "Dr Quist"),
        ("licence", "L-1"),
        ("licence_until", "2026-11-24"),
    ];
    let refused = site.post(&path, &form).await;
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("has no valid licence on 2026-11-25") && refused.body.contains("Dr Quist"));
    form.pop();
    form.push(("licence_until", "2027-06-30"));
    assert_eq!(site.post(&path, &form).await.status, 303);
    let page = site.post(&path, &[("date", "2026-11-25"), ("side", "right")]).await;
    assert!(page.body.contains("3 problems"), "name, number and validity are needed");
}

#[tokio::test]
async fn reopening_never_ends_a_referral() {
    let site = site_with(Case::SecondPainEvent);
    let subject = swimmer(Case::SecondPainEvent);
    let before = site.get(&format!("/people/{subject}")).await;
    assert!(before.body.contains("out, referred"));
    let form = [("date", "2026-11-25"), ("side", ""), ("by", "Ronja")];
    assert_eq!(site.post(&format!("/people/{subject}/record/reopening"), &form).await.status, 303);
    assert!(site.get(&format!("/people/{subject}")).await.body.contains("avail-out-referred"));
}

#[tokio::test]
async fn an_unusual_number_is_asked_about_once_more() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    let path = format!("/people/{subject}/record/growth");
    let mut form = vec![("date", "2026-11-25"), ("height_cm", "218,5")];
    let asked = site.post(&path, &form).await;
    assert_eq!(asked.status, 422);
    assert!(asked.body.contains("Unusual for height") && asked.body.contains("218,5"));
    form.push(("unusual", "yes"));
    assert_eq!(site.post(&path, &form).await.status, 303);
    let impossible =
        site.post(&path, &[("date", "2026-11-25"), ("height_cm", "1850"), ("unusual", "yes")]).await;
    assert_eq!(impossible.status, 422, "impossible stays impossible");
}

#[tokio::test]
async fn the_answer_to_a_letter_closes_it() {
    let site = site_with(Case::ReferralUnanswered);
    let subject = swimmer(Case::ReferralUnanswered);
    let page = site.get(&format!("/people/{subject}/record/referral-answer")).await;
    let letter = page.body.split("<option value=\"").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
    let letter = letter.to_owned();
    let form = [("letter", letter.as_str()), ("date", "2026-11-25")];
    let path = format!("/people/{subject}/record/referral-answer");
    assert_eq!(site.post(&path, &form).await.status, 303);
    assert_eq!(site.post(&path, &form).await.status, 422, "no letter waits any more");
    let own = site.get(&format!("/people/{subject}")).await;
    assert!(!own.body.contains("has no answer"));
}

#[tokio::test]
async fn words_instead_of_a_number_say_why_there_is_none() {
    let site = site_with(Case::MissedScreening);
    let subject = swimmer(Case::MissedScreening);
    let path = format!("/people/{subject}/record/screening");
    let form = [
        ("date", "2026-11-25"),
        ("tester", "Ronja"),
        ("er_force_left", "92,5"),
        ("er_force_right", "pain"),
        ("beighton", "12"),
    ];
    let refused = site.post(&path, &form).await;
    assert_eq!(refused.status, 422, "a score of 12 of 9 is impossible");
    assert!(refused.body.contains("id=\"beighton-problem\""));
    let form = [&form[..4], &[("beighton", "4")]].concat();
    assert_eq!(site.post(&path, &form).await.status, 422, "laxity takes a licence");
    let licence = [("clinician", "Ronja"), ("licence", "L-1"), ("licence_until", "2027-01-01")];
    let form = [&form[..], &licence].concat();
    assert_eq!(site.post(&path, &form).await.status, 303);
    let own = site.get(&format!("/people/{subject}")).await;
    assert!(own.body.contains("92.5") && own.body.contains("stopped for pain"));
}

#[tokio::test]
async fn a_form_never_leads_off_the_site() {
    let site = site_with(Case::Ordinary);
    let subject = swimmer(Case::Ordinary);
    for back in ["https://evil.example/", "//evil.example", "/\\evil.example"] {
        let form = [("date", "2026-11-25"), ("by", "Ronja"), ("back", back)];
        let sent = site.post(&format!("/people/{subject}/record/guardian-told"), &form).await;
        assert_eq!(sent.location(), format!("/people/{subject}?done=recorded"), "{back}");
    }
}
