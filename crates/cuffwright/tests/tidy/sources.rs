//! The project's own files, as the other checks read them.

use std::fs;
use std::path::{Path, PathBuf};

/// The top folder of the project.
pub(crate) fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .canonicalize()
        .expect("the crate stands in the project")
}

/// One file with its path below the top folder.
pub(crate) struct File {
    pub(crate) path: String,
    pub(crate) text: String,
}

/// Every file below a folder that ends in one of these ways, in a fixed order.
pub(crate) fn files(below: &str, endings: &[&str]) -> Vec<File> {
    let top = top();
    let mut found = Vec::new();
    collect(&top, &top.join(below), endings, &mut found);
    found.sort_by(|one, other| one.path.cmp(&other.path));
    assert!(!found.is_empty(), "no file below {below} ends in {endings:?}");
    found
}

fn collect(top: &Path, folder: &Path, endings: &[&str], found: &mut Vec<File>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let path = entry.path();
        let name = entry.file_name().to_string_lossy().into_owned();
        if path.is_dir() {
            if !["target", "node_modules"].contains(&name.as_ref()) && !name.starts_with('.') {
                collect(top, &path, endings, found);
            }
        } else if endings.iter().any(|ending| name.ends_with(ending)) {
            let text =
                fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            let path = path.strip_prefix(top).expect("the walk began at the top").display().to_string();
            found.push(File { path, text });
        }
    }
}
