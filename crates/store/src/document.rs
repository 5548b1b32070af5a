//! Texts kept whole under their own hash, such as every protocol version ever used.

use rusqlite::{Connection, OptionalExtension, params};

use crate::Store;
use crate::error::Error;
use crate::id::Digest;
use crate::row;

impl Store {
    /// Keeps a text under its SHA-256; keeping it again changes nothing.
    pub fn keep_document(&mut self, text: &str) -> Result<Digest, Error> {
        self.write(|gate| {
            let (hash, new) = keep(gate.transaction, text)?;
            gate.changed |= new;
            Ok(hash)
        })
    }

    /// The text with this hash. One that no longer has it is reported as damage, not returned.
    pub fn document(&self, hash: Digest) -> Result<Option<String>, Error> {
        let mut query = self.connection.prepare_cached(include_str!("../sql/document.sql"))?;
        let text: Option<String> = query.query_row([hash], |row| row.get(0)).optional()?;
        match text {
            Some(text) if Digest::of_text(&text) != hash => {
                Err(Error::Corrupt { detail: format!("document {hash} has another hash") })
            }
            text => Ok(text),
        }
    }

    pub(crate) fn documents(&self) -> Result<Vec<String>, Error> {
        row::all(&self.connection, include_str!("../sql/documents.sql"), [], |row| row.get(0))
    }
}

/// Keeps a text, and says whether it is new.
pub(crate) fn keep(connection: &Connection, text: &str) -> Result<(Digest, bool), Error> {
    let hash = Digest::of_text(text);
    let known = connection.prepare_cached(include_str!("../sql/document.sql"))?.exists([hash])?;
    if !known {
        connection
            .prepare_cached(include_str!("../sql/insert_document.sql"))?
            .execute(params![hash, text])?;
    }
    Ok((hash, !known))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_document_is_kept_once_under_its_hash() {
        let mut store = Store::in_memory().unwrap();
        let hash = store.keep_document("[protocol]\nversion = 1\n").unwrap();
        let revision = store.revision();
        assert_eq!(store.keep_document("[protocol]\nversion = 1\n").unwrap(), hash);
        assert_eq!(store.revision(), revision);
        assert_eq!(store.document(hash).unwrap().as_deref(), Some("[protocol]\nversion = 1\n"));
        assert_eq!(store.document(Digest::of_text("other")).unwrap(), None);
    }
}
