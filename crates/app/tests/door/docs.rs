//! The page that says who sees what is generated from the permission table.

use app::text::Texts;
use door::permit::{Reach, TABLE};
use door::role::Role;

fn page() -> String {
    let texts = Texts::english();
    let mut out = String::from(
        "# Who sees and does what\n\n\
         Generated from the permission table (`crates/door/src/permit/table.rs`) by the test `the_page_is_up_to_date`; \
         `CUFFWRIGHT_WRITE=1 cargo test -p app --test door the_page` writes it anew.\n\n\
         *own*: the swimmer's own record, or a guardian's wards until they come of age. \
         *agreed*: the same, and from 14 years on only where the swimmer has agreed. \
         *licence*: takes a licence that is valid on that day.\n\n|",
    );
    out.push_str(" |");
    for role in Role::ALL {
        out.push_str(&format!(" {} |", texts.word(&format!("role-{}", role.word()))));
    }
    out.push_str(&format!("\n|{}\n", "---|".repeat(1 + Role::ALL.len())));
    for row in TABLE {
        out.push_str(&format!("| {} |", texts.word(&format!("thing-{}", row.thing.word()))));
        for reach in row.reach {
            let word = match (reach, row.licence) {
                (Reach::Nothing, _) => "",
                (Reach::Own, _) => "own",
                (Reach::Agreed, _) => "agreed",
                (Reach::All, true) => "licence",
                (Reach::All, false) => "yes",
            };
            out.push_str(&format!(" {word} |"));
        }
        out.push('\n');
    }
    out
}

#[test]
fn the_page_is_up_to_date() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/who-sees-what.md");
    let page = page();
    assert!(!page.contains('['), "a sentence is missing: {page}");
    if std::env::var_os("CUFFWRIGHT_WRITE").is_some() {
        std::fs::write(path, &page).unwrap();
    }
    assert_eq!(std::fs::read_to_string(path).unwrap(), page);
}

#[test]
fn every_act_of_the_audit_and_every_step_on_a_phone_has_its_words() {
    let texts = Texts::english();
    for act in app::entry::audit::Act::ALL {
        assert!(texts.has(&format!("act-{}", act.word())), "{act:?}");
    }
    for family in app::entry::install::FAMILIES {
        assert!(texts.has(family.title) && family.steps.iter().all(|step| texts.has(step)));
    }
    for name in [app::entry::install::INTRODUCTION, app::entry::install::AFTERWARDS].concat() {
        assert!(texts.has(name), "{name}");
    }
}
