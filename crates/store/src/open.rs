//! Opening and making a store.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, OpenFlags};

use crate::error::Error;
use crate::file::{beside, inspect_body, inspect_header, remove, sync_directory_of};
use crate::lock::Lock;
use crate::{Store, schema};

/// How to open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Open {
    /// Make the file if there is none.
    pub create: bool,
}

impl Store {
    /// Opens the store at `path` and keeps every other process out until it is dropped.
    ///
    /// A file that is refused keeps every byte, and nothing is left beside it but the empty lock file.
    pub fn open(path: impl AsRef<Path>, how: Open) -> Result<Self, Error> {
        let path = settled(path.as_ref(), how)?;
        if path.exists() {
            // Before the lock, so that a file which is not ours gets no company.
            inspect_header(&path)?;
        }
        let lock = Lock::take(&path)?;
        if !path.exists() {
            make(&path)?;
        }
        inspect_body(&path)?;
        let mut connection = connect(&path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        connection.pragma_update(None, "journal_mode", "WAL")?;
        if schema::migrate(&mut connection)? {
            // So that the version can be read from the file alone, as the next opening does first.
            checkpoint(&connection)?;
        }
        Self::ready(connection, Some(lock))
    }

    /// A store that ends with the process, for rehearsals and tests.
    pub fn in_memory() -> Result<Self, Error> {
        let mut connection = Connection::open_in_memory()?;
        prepare(&connection)?;
        schema::migrate(&mut connection)?;
        Self::ready(connection, None)
    }

    fn ready(connection: Connection, lock: Option<Lock>) -> Result<Self, Error> {
        connection.set_prepared_statement_cache_capacity(64);
        let revision = connection.query_row(include_str!("../sql/revision.sql"), [], |row| row.get(0))?;
        Ok(Self { connection, revision, _lock: lock })
    }
}

/// The one real path of the file, so that two spellings of it meet the same lock.
fn settled(path: &Path, how: Open) -> Result<PathBuf, Error> {
    let failed = |source| Error::Io { path: path.to_owned(), source };
    if path.exists() {
        return fs::canonicalize(path).map_err(failed);
    }
    let (true, Some(name)) = (how.create, path.file_name()) else {
        return Err(Error::Missing { path: path.to_owned() });
    };
    let parent = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    Ok(fs::canonicalize(parent).map_err(failed)?.join(name))
}

/// Builds a new store under another name and renames it when it is whole: no crash leaves half a store.
fn make(path: &Path) -> Result<(), Error> {
    let unfinished = beside(path, ".new");
    let journal = beside(&unfinished, "-journal");
    remove(&unfinished)?;
    remove(&journal)?;
    let built = build(&unfinished).and_then(|()| {
        fs::rename(&unfinished, path).map_err(|source| Error::Io { path: path.to_owned(), source })
    });
    if built.is_err() {
        remove(&unfinished)?;
        remove(&journal)?;
    }
    built?;
    sync_directory_of(path)
}

fn build(path: &Path) -> Result<(), Error> {
    let mut connection = connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE)?;
    schema::migrate(&mut connection)?;
    connection.close().map_err(|(_, source)| source.into())
}

fn connect(path: &Path, flags: OpenFlags) -> Result<Connection, Error> {
    // A connection is never shared between threads (it is not `Sync`), so it needs no lock of its own.
    let flags = flags | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(path, flags)?;
    prepare(&connection)?;
    Ok(connection)
}

fn prepare(connection: &Connection) -> Result<(), Error> {
    connection.busy_timeout(Duration::from_secs(5))?;
    connection.execute_batch(include_str!("../sql/connection.sql"))?;
    Ok(())
}

/// Moves the write-ahead log into the file and empties it.
pub(crate) fn checkpoint(connection: &Connection) -> Result<(), Error> {
    let busy: bool = connection.query_row(include_str!("../sql/checkpoint.sql"), [], |row| row.get(0))?;
    if busy { Err(Error::Corrupt { detail: "the log is held by another reader".to_owned() }) } else { Ok(()) }
}
