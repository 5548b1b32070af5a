//! Facts that came under a taken id: kept for a person, who closes each with a reason.

use rusqlite::params;

use crate::Store;
use crate::error::Error;
use crate::fact::Fact;
use crate::row;

/// A refused fact that waits for a person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refusal {
    /// Names it in [`Store::close_refusal`].
    pub number: i64,
    /// The fact as it came. [`Store::fact`] has the one that is stored under its id.
    pub offered: Fact,
}

/// How a person deals with a refusal; what the refused fact said can be told anew under another id.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Closing {
    /// The refusal's number.
    pub number: i64,
    /// Who.
    pub author: String,
    /// When, by the caller's clock.
    pub at: String,
    /// Why.
    pub reason: String,
}

impl Store {
    /// The refused facts that wait for a person, oldest first.
    pub fn open_refusals(&self) -> Result<Vec<Refusal>, Error> {
        row::all(&self.connection, include_str!("../sql/open_refusals.sql"), [], |row| {
            Ok(Refusal { number: row.get(14)?, offered: row::fact(row)? })
        })
    }

    /// Closes a refusal. The refused fact is kept.
    pub fn close_refusal(&mut self, closing: &Closing) -> Result<(), Error> {
        self.write(|gate| {
            let Closing { number, author, at, reason } = closing;
            let closed = gate
                .transaction
                .execute(include_str!("../sql/close_refusal.sql"), params![number, author, at, reason])?;
            if closed == 0 {
                return Err(Error::NoSuchRefusal { number: *number });
            }
            gate.changed = true;
            Ok(())
        })
    }
}
