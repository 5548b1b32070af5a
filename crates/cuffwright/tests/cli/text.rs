//! Every sentence that the commands name stands in the text catalogue. That none is left over is `tidy`'s to say.

use std::collections::BTreeSet;
use std::fs;

use app::text::Texts;

use super::run::repository;

#[test]
fn every_named_sentence_exists_and_so_does_every_part_of_an_explanation() {
    let mut sources = String::new();
    let mut folders = vec![repository("crates/cuffwright/src/cli")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                sources.push_str(&fs::read_to_string(&path).unwrap());
            }
        }
    }
    let named: Vec<&str> =
        sources.split("\"cli-").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    for name in &named {
        // A name that is put together at run time holds a place for a word.
        if !name.contains('{') {
            assert!(Texts::english().has(&format!("cli-{name}")), "cli-{name} is not in the catalogue");
        }
    }
    let mut parts = BTreeSet::new();
    for part in sources.split(".part(\"").skip(1).chain(sources.split(".part_if(\"").skip(1)) {
        let part = part.split('"').next().unwrap();
        assert!(Texts::english().has(&format!("cli-part-{part}")), "cli-part-{part} is not in the catalogue");
        parts.insert(part);
    }
    let catalogue = fs::read_to_string(repository("crates/app/text/en/cli.ftl")).unwrap();
    for part in catalogue.lines().filter_map(|line| line.strip_prefix("cli-part-")?.split(" =").next()) {
        assert!(parts.contains(part), "no explanation has the part {part}");
    }
}
