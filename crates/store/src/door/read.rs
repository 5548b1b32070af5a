//! Reading the door's rows.

use rusqlite::types::Type;
use rusqlite::{OptionalExtension, Row, params};
use uuid::Uuid;

use super::{AccountRow, BindingRow, CodeRow, DeviceRow, SessionRow, Store};
use crate::error::Error;
use crate::id::SubjectId;
use crate::row;

impl Store {
    /// Every account ever made, in order of making, closed ones too.
    pub fn accounts(&self) -> Result<Vec<AccountRow>, Error> {
        row::all(&self.connection, include_str!("../../sql/door/accounts.sql"), [], account)
    }

    /// One account.
    pub fn account(&self, id: Uuid) -> Result<Option<AccountRow>, Error> {
        let query = include_str!("../../sql/door/account.sql");
        Ok(row::all(&self.connection, query, params![id.as_bytes()], account)?.pop())
    }

    /// The account that has this login name.
    pub fn account_by_login(&self, login: &str) -> Result<Option<AccountRow>, Error> {
        let query = include_str!("../../sql/door/account_by_login.sql");
        Ok(row::all(&self.connection, query, [login], account)?.pop())
    }

    /// The swimmers an account is bound to.
    pub fn bindings_of_account(&self, id: Uuid) -> Result<Vec<BindingRow>, Error> {
        let query = include_str!("../../sql/door/bindings_of_account.sql");
        row::all(&self.connection, query, params![id.as_bytes()], |row| {
            Ok(BindingRow { subject: row.get(0)?, history: row.get(1)? })
        })
    }

    /// The accounts that are bound to a swimmer.
    pub fn accounts_bound_to(&self, subject: SubjectId) -> Result<Vec<Uuid>, Error> {
        let query = include_str!("../../sql/door/bindings_of_subject.sql");
        row::all(&self.connection, query, [subject], |row| id(row, 0))
    }

    /// The session with this token, whether it still holds or not.
    pub fn session(&self, token: &[u8; 32]) -> Result<Option<SessionRow>, Error> {
        let mut query = self.connection.prepare_cached(include_str!("../../sql/door/session.sql"))?;
        Ok(query
            .query_row(params![token], |row| {
                Ok(SessionRow { token: *token, account: id(row, 0)?, began: row.get(1)?, seen: row.get(2)? })
            })
            .optional()?)
    }

    /// Every session of an account.
    pub fn sessions_of(&self, account: Uuid) -> Result<Vec<SessionRow>, Error> {
        let query = include_str!("../../sql/door/sessions_of_account.sql");
        row::all(&self.connection, query, params![account.as_bytes()], |row| {
            Ok(SessionRow { token: bytes(row, 0)?, account, began: row.get(1)?, seen: row.get(2)? })
        })
    }

    /// Every device ever paired.
    pub fn devices(&self) -> Result<Vec<DeviceRow>, Error> {
        row::all(&self.connection, include_str!("../../sql/door/devices.sql"), [], device)
    }

    /// The paired device with this token.
    pub fn device_by_token(&self, token: &[u8; 32]) -> Result<Option<DeviceRow>, Error> {
        let query = include_str!("../../sql/door/device_by_token.sql");
        Ok(row::all(&self.connection, query, params![token], device)?.pop())
    }

    /// The open code for a purpose, and for an account where it is for one.
    pub fn code(&self, purpose: &str, account: Option<Uuid>) -> Result<Option<CodeRow>, Error> {
        let query = include_str!("../../sql/door/codes.sql");
        let account = account.map(Uuid::into_bytes);
        Ok(row::all(&self.connection, query, params![purpose, account], code)?.pop())
    }

    /// What was last settled under a name.
    pub fn setting(&self, name: &str) -> Result<Option<String>, Error> {
        Ok(row::all(&self.connection, include_str!("../../sql/door/setting.sql"), [name], |row| row.get(0))?
            .pop())
    }

    /// When tries were remembered in a bucket, from an instant on.
    pub fn tries(&self, bucket: &[u8; 32], from: u64) -> Result<Vec<u64>, Error> {
        row::all(&self.connection, include_str!("../../sql/door/tries.sql"), params![bucket, from], |row| {
            row.get(0)
        })
    }
}

/// An id in a column.
pub(super) fn id(row: &Row<'_>, column: usize) -> rusqlite::Result<Uuid> {
    bytes(row, column).map(Uuid::from_bytes)
}

/// An id in a column that may be empty.
pub(super) fn id_if_any(row: &Row<'_>, column: usize) -> rusqlite::Result<Option<Uuid>> {
    let found: Option<Vec<u8>> = row.get(column)?;
    found.map(|bytes| exact(column, &bytes).map(Uuid::from_bytes)).transpose()
}

/// So many bytes in a column.
pub(super) fn bytes<const N: usize>(row: &Row<'_>, column: usize) -> rusqlite::Result<[u8; N]> {
    let found: Vec<u8> = row.get(column)?;
    exact(column, &found)
}

fn exact<const N: usize>(column: usize, bytes: &[u8]) -> rusqlite::Result<[u8; N]> {
    <[u8; N]>::try_from(bytes)
        .map_err(|error| rusqlite::Error::FromSqlConversionFailure(column, Type::Blob, Box::new(error)))
}

fn account(row: &Row<'_>) -> rusqlite::Result<AccountRow> {
    let licence: Option<String> = row.get(6)?;
    let until: Option<String> = row.get(7)?;
    Ok(AccountRow {
        id: id(row, 0)?,
        role: row.get(1)?,
        created: row.get(2)?,
        login: row.get(3)?,
        name: row.get(4)?,
        password: row.get(5)?,
        licence: licence.zip(until),
        confirmed: row.get(8)?,
        closed: row.get(9)?,
    })
}

fn device(row: &Row<'_>) -> rusqlite::Result<DeviceRow> {
    let token: Option<Vec<u8>> = row.get(1)?;
    Ok(DeviceRow {
        id: id(row, 0)?,
        token: token.map(|token| exact(1, &token)).transpose()?,
        label: row.get(2)?,
        paired_by: id_if_any(row, 3)?,
        began: row.get(4)?,
        seen: row.get(5)?,
        ended: row.get(6)?,
    })
}

fn code(row: &Row<'_>) -> rusqlite::Result<CodeRow> {
    Ok(CodeRow {
        id: id(row, 0)?,
        purpose: row.get(1)?,
        account: id_if_any(row, 2)?,
        made_by: id_if_any(row, 3)?,
        hash: bytes(row, 4)?,
        ends: row.get(5)?,
        wrong: row.get(6)?,
    })
}
