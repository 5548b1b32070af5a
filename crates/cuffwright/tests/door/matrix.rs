//! Every address × everybody who may ask, from the router's own table: shut where it must be, and no mark of the
//! record on any page for somebody who may not see what it marks.

use cuffwright::web::routes::{Does, Method, ROUTES, Route};
use cuffwright::web::site::needs::Needs;
use door::permit::{About, Reach, may};
use door::principal::{DeviceId, Principal};
use jiff::civil::date;

use super::site::{Asker, Club};
use crate::build::*;
use crate::canaries::MARKS;

/// The addresses of a row, with every name filled in: once for each thing that such a name can be.
fn filled(route: &Route, session: &str) -> Vec<String> {
    let mut all = vec![route.path.to_owned()];
    let mut fill = |name: &str, values: &[String]| {
        let with = |path: &String| -> Vec<String> {
            if !path.contains(name) {
                return vec![path.clone()];
            }
            values.iter().map(|value| path.replace(name, value)).collect()
        };
        all = all.iter().flat_map(with).collect();
    };
    let sheets = cuffwright::web::pages::record::SHEETS.iter().map(|sheet| sheet.word.to_owned());
    fill("{id}", &[swimmer(1).to_string()]);
    fill("{sheet}", &sheets.collect::<Vec<_>>());
    fill("{account}", &[id(3).to_string()]);
    fill("{act}", &["unlock".to_owned()]);
    fill("{device}", &[id(70).to_string()]);
    fill("{fact}", &[store::FactId::fresh(0).to_string()]);
    fill("{key}", &["0".to_owned()]);
    fill("{code}", &["E1".to_owned()]);
    fill("{exercise}", &["RC-1".to_owned()]);
    fill("{name}", &["style.css".to_owned()]);
    fill("{session}", &[session.to_owned()]);
    fill("{kind}", &["beat.wav".to_owned()]);
    fill("{version}", &["0".to_owned()]);
    fill("{kind}", &["beat.flac".to_owned()]);
    fill("{squad}", &["Seniors".to_owned()]);
    fill("{what}", &["practice".to_owned(), "plan".to_owned()]);
    let stations = trade::screening::measure::Station::ALL.iter().map(|station| station.word().to_owned());
    fill("{station}", &stations.collect::<Vec<_>>());
    for path in &all {
        assert!(!path.contains('{'), "{path}: say in `filled` what this name can be");
    }
    all
}

/// A session on deck with everybody, so that its bag is full.
async fn session_of(club: &Club) -> String {
    let form = [
        ("context", "rested"),
        ("minutes", "26"),
        ("pattern", "together"),
        ("exercise", "RC-1"),
        ("act", "prepare"),
    ];
    club.post("/deck", Asker::As(door::role::Role::Owner), &form).await;
    let page = club.get("/deck", Asker::As(door::role::Role::Owner)).await.body;
    let id = page.split("/deck/session/").nth(1).and_then(|rest| rest.split(['"', '/']).next());
    id.expect("the session is prepared").to_owned()
}

fn principal(club: &Club, who: Asker) -> Option<Principal> {
    match who {
        Asker::Stranger => None,
        Asker::Device => Some(Principal::device(DeviceId(id(70)), "blue phone")),
        Asker::As(_) => {
            let known = club.site.desk().who(&at(0), &who.token().unwrap()).unwrap();
            Some(known.expect("the session holds").who)
        }
    }
}

/// Somebody who sees only their own reads nobody else's name.
fn keeps_others_unnamed(text: &str, who: Option<&Principal>, place: &str) {
    if who.is_none_or(|who| who.role.is_bound()) {
        assert!(!text.contains("Ben Specimen"), "another swimmer is named at {place}");
    }
}

/// No mark stands in a text for somebody who may not see it.
fn keeps_its_marks(text: &str, who: Option<&Principal>, place: &str) {
    let about = About::Person { subject: door::principal::Subject(swimmer(1).uuid()), age: 14 };
    for (mark, things) in MARKS {
        if text.contains(mark) {
            let may_see = who.is_some_and(|who| {
                things.iter().any(|thing| may(who, *thing, about, date(2026, 3, 9)).is_ok())
            });
            assert!(may_see, "{mark} ({things:?}) is shown at {place}");
        }
    }
    for (place_in, _) in text.match_indices("CANARY") {
        let end = (place_in + 40).min(text.len());
        let piece = text.get(place_in..end).unwrap_or_default();
        assert!(
            MARKS.iter().any(|(mark, _)| piece.starts_with(mark))
                || who.is_some_and(|who| who.role <= door::role::Role::Practitioner),
            "{piece} at {place}"
        );
    }
}

/// Whether a row stands open for somebody, by the permission table alone.
fn is_open(route: &Route, path: &str, who: Option<&Principal>, asker: Asker) -> bool {
    let reach = |thing| who.map_or(Reach::Nothing, |who| door::permit::reach(who.role, thing));
    match route.needs {
        Needs::Nothing => true,
        Needs::Demo => false,
        Needs::Known => who.is_some(),
        Needs::Account => matches!(asker, Asker::As(_)),
        Needs::Everybody(thing) => reach(thing) == Reach::All,
        Needs::Some(thing) => reach(thing) != Reach::Nothing,
        Needs::Swimmer(thing) => {
            let about = About::Person { subject: door::principal::Subject(swimmer(1).uuid()), age: 14 };
            who.is_some_and(|who| may(who, thing, about, date(2026, 3, 9)).is_ok())
        }
        Needs::Sheet => {
            let word = path.rsplit('/').next().unwrap();
            let kind = cuffwright::web::pages::record::sheet(word).unwrap().kind;
            reach(app::entry::permit::recording(kind)) != Reach::Nothing
        }
    }
}

#[tokio::test]
async fn every_page_shows_each_role_what_it_may_see_and_no_more() {
    let club = Club::peopled();
    let session = session_of(&club).await;
    let mut asked = 0;
    for route in ROUTES.iter().filter(|route| route.method() == Method::Get) {
        for path in filled(route, &session) {
            for asker in Asker::all() {
                let who = principal(&club, asker);
                let answer = club.get(&path, asker).await;
                let place = format!("{path} as {asker:?}: {}", answer.status);
                let open = is_open(route, &path, who.as_ref(), asker);
                match (open, &who) {
                    (true, _) => {
                        // A page may still say that what it was asked for is not there, or not enough.
                        let is_said = matches!(answer.status.as_u16(), 404 | 422);
                        assert!(answer.status.as_u16() < 400 || is_said, "{place}");
                        assert!(!answer.location().starts_with("/sign-in"), "{place}");
                    }
                    (false, None) => {
                        assert_eq!(answer.status, 303, "{place}");
                        assert!(answer.location().starts_with("/sign-in"), "{place}");
                    }
                    (false, Some(_)) => {
                        let shut = if route.needs == Needs::Demo { 404 } else { 403 };
                        assert_eq!(answer.status, shut, "{place}");
                    }
                }
                keeps_its_marks(&answer.body, who.as_ref(), &place);
                keeps_others_unnamed(&answer.body, who.as_ref(), &place);
                asked += 1;
            }
        }
    }
    assert!(300 < asked, "the table has been read: {asked}");
}

#[tokio::test]
async fn every_form_is_taken_from_whom_it_may_be_and_changes_nothing_for_others() {
    for route in ROUTES.iter().filter(|route| route.method() == Method::Post) {
        // One club for everybody who must be turned away, one for those who are let in, since a form may act.
        let shut = Club::peopled();
        let let_in = Club::peopled();
        let session = session_of(&shut).await;
        for path in filled(route, &session) {
            for asker in Asker::all() {
                let who = principal(&shut, asker);
                let open = is_open(route, &path, who.as_ref(), asker);
                if open {
                    if route.needs == Needs::Nothing
                        || path.ends_with("/record/talk")
                        || !path.contains("/record/")
                    {
                        let answer = let_in.post(&path, asker, &[]).await;
                        let place = format!("POST {path} as {asker:?}: {}", answer.status);
                        assert_ne!(answer.status, 401, "{place}");
                        // A stranger's form without any word is refused as foreign, whoever may send it.
                        assert!(answer.status != 403 || who.is_none(), "{place}");
                        keeps_its_marks(&answer.body, who.as_ref(), &place);
                    }
                    continue;
                }
                let before = shut.site.desk().store().counts().unwrap();
                let answer = shut.post(&path, asker, &[("name", "x"), ("date", "2026-03-09")]).await;
                let place = format!("POST {path} as {asker:?}: {}", answer.status);
                let wanted = match (route.needs, &who) {
                    (Needs::Demo, _) => 404,
                    (_, None) => 401,
                    _ => 403,
                };
                assert_eq!(answer.status, wanted, "{place}");
                keeps_its_marks(&answer.body, who.as_ref(), &place);
                assert_eq!(shut.site.desk().store().counts().unwrap(), before, "{place}");
            }
        }
    }
}

#[tokio::test]
async fn a_record_that_is_not_ones_own_looks_like_one_that_is_not_there() {
    let club = Club::peopled();
    let nobody = "00000000-0000-4000-8000-000000000000";
    for role in [door::role::Role::Swimmer, door::role::Role::Guardian] {
        for route in
            ROUTES.iter().filter(|route| route.path.contains("{id}") && route.method() == Method::Get)
        {
            let path = |id: &str| {
                let path = route.path.replace("{id}", id).replace("{sheet}", "pain");
                path.replace("{fact}", nobody)
            };
            let other = club.get(&path(&swimmer(2).to_string()), Asker::As(role)).await;
            let none = club.get(&path(nobody), Asker::As(role)).await;
            assert_eq!(
                (other.status, none.status.as_u16()),
                (none.status, 403),
                "{} as {role:?}",
                route.path
            );
            assert!(!other.body.contains("Ben"), "{}", route.path);
        }
    }
}

#[tokio::test]
async fn no_link_on_a_page_leads_to_a_door_that_is_shut() {
    let club = Club::peopled();
    for asker in Asker::all() {
        let Some(who) = principal(&club, asker) else { continue };
        for start in ["/people", "/kit", "/rules", &format!("/people/{}", swimmer(1))] {
            let page = club.get(start, asker).await;
            if page.status != 200 {
                continue;
            }
            let links: std::collections::BTreeSet<&str> =
                page.body.split(" href=\"/").skip(1).filter_map(|rest| rest.split('"').next()).collect();
            for link in
                links.iter().filter(|link| !link.starts_with("assets/") && !link.starts_with("rules/"))
            {
                let there = club.get(&format!("/{link}"), asker).await;
                assert!(
                    there.status.as_u16() < 400,
                    "/{link} on {start} as {:?}: {}",
                    who.role,
                    there.status
                );
            }
        }
    }
}

#[test]
fn slow_forms_are_taken_without_the_desk_in_hand() {
    let apart: Vec<&str> = ROUTES
        .iter()
        .filter(|route| matches!(route.does, Does::TakesApart(..)))
        .map(|route| route.path)
        .collect();
    assert_eq!(apart, ["/first", "/sign-in", "/invited", "/me/password"]);
}
