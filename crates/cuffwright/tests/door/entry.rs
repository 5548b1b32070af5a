//! Coming in: the first run, passwords, codes, devices; and those who try to get in otherwise.

use door::role::Role;

use super::site::{Asker, Club, cookie};
use crate::build::*;

const OWNER: Asker = Asker::As(Role::Owner);

/// What a page that a stranger opened gives: the cookie and the word of its form.
async fn visitor(club: &Club, path: &str) -> (String, String) {
    let page = club.get_with(path, "").await;
    let cookie = page.cookie("cuffwright").expect("a visitor gets something to be known by");
    let word = page.body.split("name=\"token\" value=\"").nth(1).and_then(|rest| rest.split('"').next());
    (format!("cuffwright={cookie}"), word.expect("the form carries a word").to_owned())
}

async fn sign_in_by(club: &Club, login: &str, password: &str, from: Option<u8>) -> super::site::Answered {
    let (cookie, word) = visitor(club, "/sign-in").await;
    club.post_with("/sign-in", &cookie, &word, &[("login", login), ("password", password)], from).await
}

#[tokio::test]
async fn the_first_run_makes_the_owner_and_leads_in() {
    let club = Club::new_file();
    for path in ["/", "/people", "/due", "/session"] {
        assert_eq!(club.get_with(path, "").await.location(), "/first", "{path}");
    }
    let (cookie, word) = visitor(&club, "/first").await;
    let form = |password, again| {
        [("name", "Olga Owner"), ("login", "Olga"), ("password", password), ("again", again)]
    };
    let weak = club.post_with("/first", &cookie, &word, &form("olga", "olga"), None).await;
    assert_eq!(weak.status, 422);
    assert!(
        weak.body.contains("at least 10 characters") && !weak.body.contains("value=\"olga\" autocomplete")
    );
    let differs = club.post_with("/first", &cookie, &word, &form(PASSWORD, "nine slow turtle"), None).await;
    assert_eq!(differs.status, 422);
    let elsewhere = club.post_with("/first", &cookie, &word, &form(PASSWORD, PASSWORD), Some(9)).await;
    assert_eq!(elsewhere.status, 403, "only at the laptop");
    let made = club.post_with("/first", &cookie, &word, &form(PASSWORD, PASSWORD), None).await;
    assert_eq!((made.status.as_u16(), made.location()), (303, "/?done=owner"));
    let inside = format!("cuffwright={}", made.cookie("cuffwright").unwrap());
    assert_ne!(inside, cookie, "the browser has got another token");
    assert_eq!(club.get_with("/people", &inside).await.status, 200);
    assert_eq!(club.get_with("/first", "").await.location(), "/", "the first run comes once");
    let second = club.post_with("/first", &cookie, &word, &form(PASSWORD, PASSWORD), None).await;
    assert_eq!(second.status, 422);
    assert!(second.body.contains("There are accounts already"));
}

#[tokio::test]
async fn a_right_password_leads_where_one_wanted_to_go_and_a_wrong_one_says_nothing_of_who_there_is() {
    let club = Club::peopled();
    assert_eq!(club.get_with("/people", "").await.location(), "/sign-in?to=%2Fpeople");
    let (cookie, word) = visitor(&club, "/sign-in?to=/people").await;
    let form = [("login", "OLGA "), ("password", PASSWORD), ("to", "/people")];
    let right = club.post_with("/sign-in", &cookie, &word, &form, None).await;
    assert_eq!((right.status.as_u16(), right.location()), (303, "/people"));
    let evil = [("login", "olga"), ("password", PASSWORD), ("to", "//evil.example/")];
    assert_eq!(club.post_with("/sign-in", &cookie, &word, &evil, None).await.location(), "/");
    let wrong = sign_in_by(&club, "olga", "nine slow turtle", None).await;
    let nobody = sign_in_by(&club, "nobody", "nine slow turtle", None).await;
    assert_eq!((wrong.status, nobody.status.as_u16()), (nobody.status, 422));
    let said = |page: &str| page.split("id=\"problems\"").nth(1).map(|rest| rest[..200].to_owned());
    assert_eq!(said(&wrong.body), said(&nobody.body));
    assert!(!wrong.body.contains("nine slow"), "a password never comes back");
}

#[tokio::test]
async fn a_token_planted_before_signing_in_is_worth_nothing_after() {
    let club = Club::peopled();
    let planted = format!("cuffwright={}", token(9).reveal());
    let form = [("login", "olga"), ("password", PASSWORD)];
    let signed = club.post_with("/sign-in", &planted, &token(9).form_word(), &form, None).await;
    assert_eq!(signed.status, 303);
    let fresh = signed.cookie("cuffwright").unwrap();
    assert_ne!(fresh, token(9).reveal());
    assert_eq!(club.get_with("/people", &planted).await.status, 303, "whoever planted it stays outside");
    assert_eq!(club.get_with("/people", &format!("cuffwright={fresh}")).await.status, 200);
    // Somebody who signs in on top of another's open session ends that one.
    let again = format!("cuffwright={fresh}");
    let word = door::token::Token::read(&fresh).unwrap().form_word();
    assert_eq!(club.post_with("/sign-in", &again, &word, &form, None).await.status, 303);
    assert_eq!(club.get_with("/people", &again).await.status, 303);
}

#[tokio::test]
async fn guessing_is_stopped_with_a_notice_and_the_laptop_stays_open() {
    let club = Club::peopled();
    for left in [4, 3, 2, 1, 0] {
        let page = sign_in_by(&club, "olga", "wrong guess here", Some(9)).await;
        assert_eq!(page.status, 422);
        assert_eq!(
            page.body.contains("tries are left") || page.body.contains("One try is left"),
            (1..3).contains(&left),
            "{left}"
        );
        assert_eq!(page.body.contains("That was the last try"), left == 0);
    }
    let locked = sign_in_by(&club, "olga", PASSWORD, Some(9)).await;
    assert_eq!(locked.status, 429);
    assert!(locked.body.contains("opens again at 12:16"), "{}", locked.body);
    let elsewhere = sign_in_by(&club, "olga", PASSWORD, Some(10)).await;
    assert_eq!(elsewhere.status, 429, "another address does not help");
    assert_eq!(sign_in_by(&club, "olga", PASSWORD, None).await.status, 303, "the laptop itself does");
    assert_eq!(club.get("/people", OWNER).await.status, 200, "an open session goes on");
    club.later(16);
    assert_eq!(sign_in_by(&club, "olga", PASSWORD, Some(9)).await.status, 303);
    // Somebody who works through the names from one address is stopped as well.
    let mut last = 0;
    for name in 0..25 {
        let page = sign_in_by(&club, &format!("name{name}"), "wrong guess here", Some(33)).await;
        last = page.status.as_u16();
    }
    assert_eq!(last, 429);
}

#[tokio::test]
async fn a_form_without_the_word_of_this_very_session_is_refused() {
    let club = Club::peopled();
    let others = Asker::As(Role::Practitioner).token().unwrap().form_word();
    let own = OWNER.token().unwrap();
    for word in ["", &others, &own.reveal(), "0"] {
        let page = club.post_with("/retention", &cookie(OWNER), word, &[("years", "3")], None).await;
        assert_eq!(page.status, 403, "{word}");
    }
    assert!(club.site.desk().retention().unwrap().is_none());
    assert_eq!(club.post("/retention", OWNER, &[("years", "3")]).await.status, 303);
    // A sign-in form is sealed as well, so that nobody is signed in to somebody else's account unawares.
    let form = [("login", "olga"), ("password", PASSWORD)];
    assert_eq!(club.post_with("/sign-in", "", "", &form, None).await.status, 403);
}

#[tokio::test]
async fn sessions_end_by_signing_out_by_neglect_and_by_a_new_password() {
    let club = Club::peopled();
    let coach = Asker::As(Role::HeadCoach);
    assert_eq!(club.post("/sign-out", coach, &[]).await.location(), "/sign-in?done=signed-out");
    assert_eq!(club.get("/people", coach).await.status, 303);
    let form = |old| [("old", old), ("password", OTHER_PASSWORD), ("again", OTHER_PASSWORD)];
    assert_eq!(club.post("/me/password", OWNER, &form("not this one")).await.status, 422);
    let changed = club.post("/me/password", OWNER, &form(PASSWORD)).await;
    assert_eq!(changed.location(), "/me?done=password", "{}", changed.body);
    let fresh = format!("cuffwright={}", changed.cookie("cuffwright").unwrap());
    assert_eq!(club.get("/people", OWNER).await.status, 303, "the session before has ended");
    assert_eq!(club.get_with("/people", &fresh).await.status, 200);
    club.later(61);
    assert_eq!(club.get_with("/people", &fresh).await.status, 303, "an hour without use");
    assert_eq!(club.get("/people", Asker::Device).await.status, 200, "a device outlasts it");
    club.later(31 * 24 * 60);
    assert_eq!(club.get("/people", Asker::Device).await.status, 303, "a month in the drawer");
}

#[tokio::test]
async fn an_invited_person_sets_a_password_and_is_in() {
    let club = Club::peopled();
    let form = [("role", "head-coach"), ("name", "Cora Coach"), ("login", "cora")];
    let made = club.post("/accounts/new", OWNER, &form).await;
    assert_eq!(made.status, 200);
    let code = made.body.split("id=\"code\">").nth(1).and_then(|rest| rest.split('<').next()).unwrap();
    let (cookie, word) = visitor(&club, "/invited").await;
    let take =
        |code| [("login", "cora"), ("code", code), ("password", OTHER_PASSWORD), ("again", OTHER_PASSWORD)];
    let wrong = club.post_with("/invited", &cookie, &word, &take("2222-2222-2222"), Some(8)).await;
    assert_eq!(wrong.status, 422);
    let right = club.post_with("/invited", &cookie, &word, &take(code), Some(8)).await;
    assert_eq!(right.status, 303, "{}", right.body);
    let inside = format!("cuffwright={}", right.cookie("cuffwright").unwrap());
    assert_eq!(club.get_with("/", &inside).await.location(), "/people");
    let twice = club.post_with("/invited", &cookie, &word, &take(code), Some(8)).await;
    assert_eq!(twice.status, 422, "it works once");
    // Closed by the owner: out at the next request.
    let account =
        club.site.desk().accounts().unwrap().into_iter().find(|one| one.login.as_deref() == Some("cora"));
    let path = format!("/accounts/{}/close", account.unwrap().id.0);
    assert_eq!(club.post(&path, OWNER, &[]).await.status, 303);
    assert_eq!(club.get_with("/people", &inside).await.status, 303);
}

#[tokio::test]
async fn a_recovery_code_from_the_command_line_sets_a_new_password() {
    let club = Club::peopled();
    let code = new_code(9, door::code::Purpose::Recovery);
    club.site.desk().make_recovery(&at(0), "olga", &code).unwrap();
    let (cookie, word) = visitor(&club, "/invited").await;
    let shown = code.code.shown();
    let form = [
        ("login", "olga"),
        ("code", shown.as_str()),
        ("password", OTHER_PASSWORD),
        ("again", OTHER_PASSWORD),
    ];
    assert_eq!(club.post_with("/invited", &cookie, &word, &form, None).await.status, 303);
    assert_eq!(sign_in_by(&club, "olga", OTHER_PASSWORD, None).await.status, 303);
    assert_eq!(sign_in_by(&club, "olga", PASSWORD, None).await.status, 422);
}

#[tokio::test]
async fn a_device_is_paired_by_a_code_becomes_a_supervisor_and_can_be_locked_out() {
    let club = Club::peopled();
    let shown = club.post("/devices/pair", OWNER, &[]).await;
    assert!(shown.body.contains("<svg") && shown.body.contains("id=\"code\""));
    let code =
        shown.body.split("id=\"code\">").nth(1).and_then(|rest| rest.split('<').next()).unwrap().to_owned();
    let (cookie, word) = visitor(&club, &format!("/pair?code={code}")).await;
    let form = |code| [("code", code), ("label", "red phone")];
    assert_eq!(club.post_with("/pair", &cookie, &word, &form("2345-6789"), Some(8)).await.status, 422);
    let paired = club.post_with("/pair", &cookie, &word, &form(&code), Some(8)).await;
    assert_eq!(paired.status, 303, "{}", paired.body);
    let token = paired.cookie("cuffwright-deck").unwrap();
    let device = format!("cuffwright-deck={token}");
    let page = club.get_with("/people", &device).await;
    assert_eq!(page.status, 200);
    assert!(page.body.contains("red phone"));
    for path in ["/due", "/accounts", "/me", "/audit"] {
        assert_eq!(club.get_with(path, &device).await.status, 403, "{path}");
    }
    // What the store keeps is no token.
    let kept = club.site.desk().store().device_by_token(&door::token::Token::read(&token).unwrap().hash().0);
    assert!(kept.unwrap().is_some());
    // Pairing again with the same code is over, and so is guessing: the code ends after five wrong tries.
    assert_eq!(club.post_with("/pair", &cookie, &word, &form(&code), Some(8)).await.status, 422);
    let id = club.site.desk().devices().unwrap().into_iter().find(|one| one.label == "red phone").unwrap().id;
    assert_eq!(club.post(&format!("/devices/{}/end", id.0), OWNER, &[]).await.status, 303);
    assert_eq!(club.get_with("/people", &device).await.status, 303);
}

#[tokio::test]
async fn five_wrong_codes_end_a_pairing_whoever_types_them() {
    let club = Club::peopled();
    let shown = club.post("/devices/pair", OWNER, &[]).await;
    let code =
        shown.body.split("id=\"code\">").nth(1).and_then(|rest| rest.split('<').next()).unwrap().to_owned();
    for from in 20..25 {
        let (cookie, word) = visitor(&club, "/pair").await;
        let form = [("code", "2345-6789"), ("label", "guess")];
        assert_eq!(club.post_with("/pair", &cookie, &word, &form, Some(from)).await.status, 422);
    }
    let (cookie, word) = visitor(&club, "/pair").await;
    let form = [("code", code.as_str()), ("label", "late")];
    assert_eq!(club.post_with("/pair", &cookie, &word, &form, Some(30)).await.status, 422);
}
