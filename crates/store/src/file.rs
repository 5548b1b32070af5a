//! The file before it is opened: is it ours at all? Asked without leaving a trace in or beside it.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use rusqlite::config::DbConfig;
use rusqlite::{Connection, OpenFlags};

use crate::error::Error;
use crate::schema;

/// Marks a SQLite file as this program's: "CUFF".
pub(crate) const APPLICATION_ID: u32 = 0x4355_4646;

/// The path with something after its name.
pub(crate) fn beside(path: &Path, suffix: &str) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(suffix);
    PathBuf::from(name)
}

/// Removes a file; that there is none is fine.
pub(crate) fn remove(path: &Path) -> Result<(), Error> {
    match fs::remove_file(path) {
        Err(source) if source.kind() != ErrorKind::NotFound => {
            Err(Error::Io { path: path.to_owned(), source })
        }
        _ => Ok(()),
    }
}

/// Makes a rename or a new file in this file's directory last through a power cut.
pub(crate) fn sync_directory_of(path: &Path) -> Result<(), Error> {
    let directory = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    File::open(directory)
        .and_then(|directory| directory.sync_all())
        .map_err(|source| Error::Io { path: directory.to_owned(), source })
}

/// Reads the first 100 bytes, as the SQLite file format describes them, and nothing else.
///
/// Every store has its mark and version there from its first moment, since it is built under another name and
/// renamed when it is whole.
pub(crate) fn inspect_header(path: &Path) -> Result<(), Error> {
    let failed = |source| Error::Io { path: path.to_owned(), source };
    let not_a_database = || Error::NotADatabase { path: path.to_owned() };
    if !fs::metadata(path).map_err(failed)?.is_file() {
        return Err(not_a_database());
    }
    let mut header = Vec::new();
    File::open(path).map_err(failed)?.take(100).read_to_end(&mut header).map_err(failed)?;
    if header.len() < 100 || !header.starts_with(b"SQLite format 3\0") {
        return Err(not_a_database());
    }
    let number = |at: usize| {
        u32::from_be_bytes(header[at..at + 4].try_into().expect("four bytes of a header of a hundred"))
    };
    let (version, application_id) = (number(60), number(68));
    if application_id != APPLICATION_ID {
        return Err(Error::OtherProgram { path: path.to_owned(), application_id });
    }
    refuse_newer(path, version)
}

/// Looks for damage, and for a newer schema that so far stands only in the write-ahead log.
pub(crate) fn inspect_body(path: &Path) -> Result<(), Error> {
    let (log, index) = (beside(path, "-wal"), beside(path, "-shm"));
    let unclean = fs::metadata(&log).is_ok_and(|log| log.len() > 0);
    if !unclean {
        // "Immutable" reads without locks, log or index, and so cannot leave any behind.
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        return look_for_damage(path, &Connection::open_with_flags(immutable_uri(path), flags)?);
    }
    let had_index = index.exists();
    let connection = Connection::open_with_flags(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
    // Without this, closing would move the log into a file that is about to be refused.
    connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true)?;
    let found = look_for_damage(path, &connection);
    drop(connection);
    if found.is_err() && !had_index {
        remove(&index)?;
    }
    found
}

fn look_for_damage(path: &Path, connection: &Connection) -> Result<(), Error> {
    let version: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    refuse_newer(path, version)?;
    check_pages(connection, "quick_check")
}

/// Runs one of SQLite's own checks.
pub(crate) fn check_pages(connection: &Connection, check: &str) -> Result<(), Error> {
    let said: String = connection.pragma_query_value(None, check, |row| row.get(0))?;
    if said == "ok" { Ok(()) } else { Err(Error::Corrupt { detail: said }) }
}

fn refuse_newer(path: &Path, found: u32) -> Result<(), Error> {
    let known = schema::newest();
    match found {
        0 => Err(Error::Corrupt { detail: "no schema number".to_owned() }),
        _ if found > known => Err(Error::NewerSchema { path: path.to_owned(), found, known }),
        _ => Ok(()),
    }
}

/// The path as a URI; everything but plain characters is escaped, so a name with `?` or `#` stays a name.
fn immutable_uri(path: &Path) -> String {
    use std::fmt::Write as _;
    let mut uri = String::from("file:");
    for byte in path.as_os_str().as_encoded_bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'/' | b'.' | b'_' | b'-' => {
                uri.push(char::from(*byte))
            }
            _ => write!(uri, "%{byte:02X}").expect("writing to a string cannot fail"),
        }
    }
    uri.push_str("?immutable=1");
    uri
}
