//! Writing the door's rows: what belongs together is one transaction.

use rusqlite::{Transaction, TransactionBehavior, params};
use uuid::Uuid;

use super::audit::{self, NewAudit};
use super::{AccountRow, BindingRow, CodeRow, Store};
use crate::error::Error;
use crate::id::SubjectId;

/// One open change at the door.
#[derive(Debug)]
pub struct DoorGate<'a> {
    transaction: &'a Transaction<'a>,
}

impl Store {
    /// Makes changes at the door, all of them or none. When this returns, they are on the disk.
    pub fn at_door<T>(
        &mut self,
        change: impl FnOnce(&mut DoorGate<'_>) -> Result<T, Error>,
    ) -> Result<T, Error> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let done = change(&mut DoorGate { transaction: &transaction })?;
        transaction.commit()?;
        Ok(done)
    }
}

macro_rules! run {
    ($gate:expr, $file:literal, $($parameter:expr),* $(,)?) => {
        $gate.transaction.prepare_cached(include_str!(concat!("../../sql/door/", $file)))?
            .execute(params![$($parameter),*])?
    };
}

impl<'a> DoorGate<'a> {
    pub(crate) fn within(transaction: &'a Transaction<'a>) -> Self {
        Self { transaction }
    }

    /// Adds an open account.
    pub fn insert_account(&mut self, account: &AccountRow) -> Result<(), Error> {
        let (licence, until) = account.licence.as_ref().map(|(number, until)| (number, until)).unzip();
        run!(
            self,
            "insert_account.sql",
            account.id.as_bytes(),
            account.role,
            account.created,
            account.login,
            account.name,
            account.password,
            licence,
            until,
            account.confirmed,
        );
        Ok(())
    }

    /// Changes an open account; its login and times stay. False if there is no such open account.
    pub fn update_account(&mut self, account: &AccountRow) -> Result<bool, Error> {
        let (licence, until) = account.licence.as_ref().map(|(number, until)| (number, until)).unzip();
        let changed = run!(
            self,
            "update_account.sql",
            account.id.as_bytes(),
            account.role,
            account.name,
            account.password,
            licence,
            until,
            account.confirmed,
        );
        Ok(changed == 1)
    }

    /// Closes an account for good: sessions, bindings, open codes and the password go, the name stays for the audit.
    pub fn close_account(&mut self, id: Uuid, at: u64) -> Result<bool, Error> {
        self.end_sessions_of(id)?;
        run!(self, "unbind_all.sql", id.as_bytes());
        run!(self, "drop_codes_of_account.sql", id.as_bytes());
        Ok(run!(self, "close_account.sql", id.as_bytes(), at) == 1)
    }

    /// Binds an account to a swimmer, or changes how.
    pub fn bind(&mut self, account: Uuid, binding: BindingRow) -> Result<(), Error> {
        run!(self, "bind.sql", account.as_bytes(), binding.subject, binding.history);
        Ok(())
    }

    /// Ends a binding.
    pub fn unbind(&mut self, account: Uuid, subject: SubjectId) -> Result<(), Error> {
        run!(self, "unbind.sql", account.as_bytes(), subject);
        Ok(())
    }

    /// Adds a session that begins now.
    pub fn insert_session(&mut self, token: &[u8; 32], account: Uuid, now: u64) -> Result<(), Error> {
        run!(self, "insert_session.sql", token, account.as_bytes(), now);
        Ok(())
    }

    /// Notes the use of a session.
    pub fn note_session(&mut self, token: &[u8; 32], now: u64) -> Result<(), Error> {
        run!(self, "note_session.sql", token, now);
        Ok(())
    }

    /// Ends a session. False if there is none.
    pub fn end_session(&mut self, token: &[u8; 32]) -> Result<bool, Error> {
        Ok(run!(self, "end_session.sql", token) == 1)
    }

    /// Ends every session of an account, and says how many.
    pub fn end_sessions_of(&mut self, account: Uuid) -> Result<usize, Error> {
        Ok(run!(self, "end_sessions_of_account.sql", account.as_bytes()))
    }

    /// Drops sessions that began or were last used no later than these instants.
    pub fn drop_old_sessions(&mut self, began: u64, seen: u64) -> Result<usize, Error> {
        Ok(run!(self, "end_old_sessions.sql", began, seen))
    }

    /// Adds a paired device.
    pub fn insert_device(
        &mut self,
        id: Uuid,
        token: &[u8; 32],
        label: &str,
        paired_by: Option<Uuid>,
        now: u64,
    ) -> Result<(), Error> {
        let paired_by = paired_by.map(Uuid::into_bytes);
        run!(self, "insert_device.sql", id.as_bytes(), token, label, paired_by, now);
        Ok(())
    }

    /// Notes the use of a device.
    pub fn note_device(&mut self, id: Uuid, now: u64) -> Result<(), Error> {
        run!(self, "note_device.sql", id.as_bytes(), now);
        Ok(())
    }

    /// Ends a pairing. False if it has ended, or there is none.
    pub fn end_device(&mut self, id: Uuid, at: u64) -> Result<bool, Error> {
        Ok(run!(self, "end_device.sql", id.as_bytes(), at) == 1)
    }

    /// Puts a code in the place of any other for the same purpose and account.
    pub fn put_code(&mut self, code: &CodeRow) -> Result<(), Error> {
        self.drop_code(&code.purpose, code.account)?;
        run!(
            self,
            "insert_code.sql",
            code.id.as_bytes(),
            code.purpose,
            code.account.map(Uuid::into_bytes),
            code.made_by.map(Uuid::into_bytes),
            code.hash,
            code.ends,
        );
        Ok(())
    }

    /// Counts a wrong try at a code.
    pub fn wrong_code(&mut self, id: Uuid) -> Result<(), Error> {
        run!(self, "wrong_code.sql", id.as_bytes());
        Ok(())
    }

    /// Drops the code for a purpose and account.
    pub fn drop_code(&mut self, purpose: &str, account: Option<Uuid>) -> Result<(), Error> {
        run!(self, "drop_codes.sql", purpose, account.map(Uuid::into_bytes));
        Ok(())
    }

    /// Remembers a try.
    pub fn insert_try(&mut self, bucket: &[u8; 32], at: u64) -> Result<(), Error> {
        run!(self, "insert_try.sql", bucket, at);
        Ok(())
    }

    /// Takes one try back.
    pub fn forget_try(&mut self, bucket: &[u8; 32], at: u64) -> Result<(), Error> {
        run!(self, "forget_try.sql", bucket, at);
        Ok(())
    }

    /// Forgets every try in a bucket.
    pub fn forget_bucket(&mut self, bucket: &[u8; 32]) -> Result<(), Error> {
        run!(self, "forget_bucket.sql", bucket);
        Ok(())
    }

    /// Forgets tries up to an instant.
    pub fn forget_old_tries(&mut self, until: u64) -> Result<(), Error> {
        run!(self, "forget_old_tries.sql", until);
        Ok(())
    }

    /// Settles something under a name; what was settled before is kept.
    pub fn insert_setting(&mut self, name: &str, value: &str, at: u64) -> Result<(), Error> {
        run!(self, "insert_setting.sql", name, value, at);
        Ok(())
    }

    /// Appends a row to the audit.
    pub fn audit(&mut self, entry: &NewAudit) -> Result<(), Error> {
        audit::append(self.transaction, entry)
    }

    /// Ends the accounts of an erased person: bindings to the subject go, and an account that is bound to nobody any
    /// more by it is closed and loses its name.
    pub(crate) fn erase(&mut self, subject: SubjectId, at: u64) -> Result<usize, Error> {
        let query = include_str!("../../sql/door/bindings_of_subject.sql");
        let bound = crate::row::all(self.transaction, query, [subject], |row| super::read::id(row, 0))?;
        let mut closed = 0;
        for account in bound {
            self.unbind(account, subject)?;
            let left = include_str!("../../sql/door/bindings_of_account.sql");
            if !self.transaction.prepare_cached(left)?.exists(params![account.as_bytes()])? {
                closed += usize::from(self.close_account(account, at)?);
                run!(self, "blank_account.sql", account.as_bytes());
            }
        }
        Ok(closed)
    }
}
