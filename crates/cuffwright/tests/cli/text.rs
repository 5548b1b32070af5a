//! Every sentence that the commands name stands in the text catalogue.

use std::fs;

use app::text::Texts;

use super::run::repository;

#[test]
fn every_named_sentence_exists_and_every_sentence_is_named() {
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
        // Names that are put together at run time end with a hyphen or hold a place for a word.
        if !name.contains('{') {
            assert!(Texts::english().has(&format!("cli-{name}")), "cli-{name} is not in the catalogue");
        }
    }
    for part in sources.split(".part(\"").skip(1).chain(sources.split(".part_if(\"").skip(1)) {
        let part = part.split('"').next().unwrap();
        assert!(Texts::english().has(&format!("cli-part-{part}")), "cli-part-{part} is not in the catalogue");
    }
    let catalogue = fs::read_to_string(repository("crates/app/text/en/cli.ftl")).unwrap();
    let put_together = ["part-", "codes-", "chain-", "recorded-"];
    for name in catalogue.lines().filter_map(|line| line.strip_prefix("cli-")?.split(" =").next()) {
        let known = named.contains(&name)
            || put_together.iter().any(|start| name.starts_with(start))
            || name.strip_suffix("-hint").is_some_and(|of| named.contains(&of));
        assert!(known, "nothing says cli-{name}");
    }
}
