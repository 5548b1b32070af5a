//! The page of addresses is written from the route table and is never stale.

use cuffwright::web::routes::{Method, ROUTES};
use cuffwright::web::site::needs::Needs;
use door::permit::Reach;
use door::role::Role;

fn page() -> String {
    let texts = app::text::Texts::english();
    let mut page = String::from(
        "# Addresses and who may open them\n\nGenerated from the route table (`crates/cuffwright/src/web/routes.rs`) by the test \
         `the_page_of_addresses_is_up_to_date`; `CUFFWRIGHT_WRITE=1 cargo test -p cuffwright --test door the_page` writes it anew.\n\n\
         *own*: the swimmer's own record or a guardian's wards. A paired device opens what a supervisor opens, except what takes an account.\n\
         *demo*: only in the demo, where nobody signs in.\n\n| address | | asks for |",
    );
    for role in Role::ALL {
        page.push_str(&format!(" {} |", texts.word(&format!("role-{}", role.word()))));
    }
    page.push_str("\n|---|---|---|---|---|---|---|---|---|---|\n");
    for route in ROUTES {
        let method = if route.method() == Method::Get { "read" } else { "send" };
        let asks = match route.needs {
            Needs::Nothing => "nothing".to_owned(),
            Needs::Demo => "the demo".to_owned(),
            Needs::Known => "an account or a paired device".to_owned(),
            Needs::Account => "an account".to_owned(),
            Needs::Sheet => "what the sheet records".to_owned(),
            Needs::Everybody(thing) | Needs::Some(thing) | Needs::Swimmer(thing) => {
                texts.word(&format!("thing-{}", thing.word()))
            }
        };
        page.push_str(&format!("| `{}` | {method} | {asks} |", route.path));
        for role in Role::ALL {
            let word = match (route.needs, route.needs.reaches(role)) {
                (Needs::Demo, _) => "demo",
                (_, Reach::Nothing) => "",
                (_, Reach::All) => "yes",
                (_, Reach::Own | Reach::Agreed) => "own",
            };
            page.push_str(&format!(" {word} |"));
        }
        page.push('\n');
    }
    page
}

#[test]
fn the_page_of_addresses_is_up_to_date() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/addresses.md");
    if std::env::var_os("CUFFWRIGHT_WRITE").is_some() {
        std::fs::write(&path, page()).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert_eq!(kept, page(), "docs/addresses.md is stale: CUFFWRIGHT_WRITE=1 writes it anew");
}

#[test]
fn every_row_asks_for_something_but_the_door_itself() {
    let open: Vec<&str> =
        ROUTES.iter().filter(|route| route.needs == Needs::Nothing).map(|route| route.path).collect();
    for path in open {
        let is_door = [
            "/first",
            "/sign-in",
            "/invited",
            "/pair",
            "/install",
            "/assets/",
            "/deck/app/",
            "/deck/worker.js",
        ];
        assert!(is_door.iter().any(|begins| path.starts_with(begins)), "{path} asks for nothing");
    }
}
