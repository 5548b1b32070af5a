//! `docs/import.md` prints the tables of columns that the code reads, and the catalogue has every sentence.

use app::import::Kind;
use app::import::columns::{Carries, Reads, of};
use app::text::Texts;
use quantity::reading::Dimension;

/// The tables as the page prints them.
fn tables() -> String {
    let mut page = String::new();
    for kind in Kind::ALL {
        page.push_str(&format!(
            "\n### {}\n\n| column | also known as | holds |\n| --- | --- | --- |\n",
            kind.word()
        ));
        for spec in of(*kind) {
            let holds = match spec.reads {
                Reads::Text => "text",
                Reads::Day => "a day",
                Reads::YesNo => "yes or no",
                Reads::Choice => "one of a few words",
                Reads::Quantity(Dimension::Mass) => "a mass",
                Reads::Quantity(Dimension::Force) => "a force",
                Reads::Quantity(Dimension::Length) => "a length",
                Reads::Quantity(Dimension::Angle) => "an angle",
                Reads::Quantity(Dimension::Time) => "a time",
                Reads::Quantity(Dimension::Count) => "a number",
            };
            let carries = match spec.carries {
                Carries::Nothing => "",
                Carries::Side => "; side in the header",
                Carries::MaybeSide => "; side may stand in the header",
                Carries::Number => "; number and side may stand in the header",
            };
            page.push_str(&format!("| {} | {} | {holds}{carries} |\n", spec.label, spec.aliases.join(", ")));
        }
    }
    page
}

#[test]
fn the_page_prints_the_columns_that_the_code_reads() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/import.md");
    let page = std::fs::read_to_string(&path).expect("the page is there");
    let (begin, end) = ("<!-- columns: printed by the code -->\n", "<!-- end of columns -->");
    let start = page.find(begin).expect("the page has a place for the columns") + begin.len();
    let stop = page.find(end).expect("the place ends");
    let printed = &page[start..stop];
    if std::env::var_os("REPRINT").is_some() {
        let reprinted = format!("{}{}\n{}", &page[..start], tables(), &page[stop..]);
        std::fs::write(&path, reprinted).expect("the page can be written");
        return;
    }
    assert!(printed.trim() == tables().trim(), "docs/import.md is stale: run this test once with REPRINT=1");
}

#[test]
fn the_catalogue_has_every_sentence_of_the_import() {
    let mut found = 0;
    let mut folders = vec![std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/import")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let text = std::fs::read_to_string(&path).unwrap();
            for name in text.split('"').filter(|piece| piece.starts_with("import-") && !piece.contains(' ')) {
                found += 1;
                assert!(Texts::english().has(name), "{}: {name}", path.display());
            }
        }
    }
    assert!(100 < found, "the sentences were looked for in the right place");
}
