//! The reference page: written from the help, and never stale.

use std::fs;

use super::run::repository;

const PAGE: &str = "docs/commands.md";

#[test]
fn reference_page_is_the_help_of_every_command() {
    let page = cuffwright::cli::reference::reference();
    let path = repository(PAGE);
    if std::env::var_os("UPDATE_DOCS").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &page).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == page, "{PAGE} is stale: run UPDATE_DOCS=1 cargo test -p cuffwright --test cli reference");
}

/// Every shape that the source names stands on the page, so that none is undocumented.
#[test]
fn reference_page_names_every_shape() {
    let page = cuffwright::cli::reference::reference();
    let mut shapes = Vec::new();
    let mut folders = vec![repository("crates/cuffwright/src/cli")];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            let source = fs::read_to_string(&path).unwrap();
            let named = source.split("\"cuffwright.").skip(1).filter_map(|rest| rest.split('"').next());
            shapes.extend(named.map(|name| format!("cuffwright.{}", name.trim_end_matches('\\'))));
        }
    }
    shapes.push(app::wire::answer::SHAPE.to_owned());
    shapes.push(app::wire::propose::SHAPE.to_owned());
    assert!(shapes.len() > 10, "{shapes:?}");
    for shape in shapes {
        assert!(page.contains(&shape), "{shape} is not on {PAGE}");
    }
}
