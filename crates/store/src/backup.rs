//! A copy of the open store, whole and checked before it gets its name.

use std::fs::{self, File};
use std::path::Path;
use std::time::Duration;

use rusqlite::Connection;
use rusqlite::backup::Backup;

use crate::Store;
use crate::error::Error;
use crate::file::{beside, check_pages, remove, sync_directory_of};

impl Store {
    /// Copies the store to a new file. A file that is there already is never overwritten.
    pub fn backup_to(&self, path: impl AsRef<Path>) -> Result<(), Error> {
        let path = path.as_ref();
        if path.exists() {
            return Err(Error::AlreadyThere { path: path.to_owned() });
        }
        let unfinished = beside(path, ".part");
        remove(&unfinished)?;
        let copied = copy(&self.connection, &unfinished).and_then(|()| {
            let failed = |source| Error::Io { path: path.to_owned(), source };
            File::open(&unfinished).and_then(|file| file.sync_all()).map_err(failed)?;
            fs::rename(&unfinished, path).map_err(failed)
        });
        if copied.is_err() {
            remove(&unfinished)?;
        }
        copied?;
        sync_directory_of(path)
    }

    /// Runs SQLite's full check of the file.
    pub fn integrity_check(&self) -> Result<(), Error> {
        check_pages(&self.connection, "integrity_check")
    }
}

fn copy(from: &Connection, path: &Path) -> Result<(), Error> {
    let mut to = Connection::open(path)?;
    Backup::new(from, &mut to)?.run_to_completion(1024, Duration::ZERO, None)?;
    // So that the copy is one file, with nothing beside it that could be forgotten.
    to.pragma_update(None, "journal_mode", "DELETE")?;
    check_pages(&to, "integrity_check")?;
    to.close().map_err(|(_, source)| source.into())
}
