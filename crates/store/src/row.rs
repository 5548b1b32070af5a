//! Rows of the tables as values.

use rusqlite::{Connection, Params, Row, params};

use crate::error::Error;
use crate::fact::{Correction, Fact, NewFact, Tombstone};
use crate::payload::Payload;

/// Reads a fact from the columns that every fact query lists in the same order.
pub(crate) fn fact(row: &Row<'_>) -> rusqlite::Result<Fact> {
    let correction = match (row.get(6)?, row.get(12)?) {
        (Some(of), Some(reason)) => Some(Correction { of, reason }),
        _ => None,
    };
    Ok(Fact {
        told: NewFact {
            id: row.get(0)?,
            kind: row.get(1)?,
            version: row.get(2)?,
            subject: row.get(3)?,
            payload: row.get::<_, Option<String>>(7)?.map(Payload::from_stored),
            author: row.get(9)?,
            device: row.get(10)?,
            device_seq: row.get(11)?,
            device_time: row.get(4)?,
            correction,
            natural_key: row.get(13)?,
        },
        received: row.get(5)?,
        content: row.get(8)?,
    })
}

/// Reads a tombstone.
pub(crate) fn tombstone(row: &Row<'_>) -> rusqlite::Result<Tombstone> {
    Ok(Tombstone {
        id: row.get(0)?,
        kind: row.get(1)?,
        version: row.get(2)?,
        subject: row.get(3)?,
        device_time: row.get(4)?,
        received: row.get(5)?,
        replaced: row.get(6)?,
    })
}

/// Runs a query and reads each row.
pub(crate) fn all<T>(
    connection: &Connection,
    query: &str,
    parameters: impl Params,
    read: impl FnMut(&Row<'_>) -> rusqlite::Result<T>,
) -> Result<Vec<T>, Error> {
    let mut statement = connection.prepare_cached(query)?;
    let rows = statement.query_map(parameters, read)?;
    Ok(rows.collect::<rusqlite::Result<_>>()?)
}

/// Writes a fact whose content, salt and time of receipt are given.
pub(crate) fn insert_fact(connection: &Connection, fact: &Fact, salt: &[u8]) -> Result<(), Error> {
    let told = &fact.told;
    connection.prepare_cached(include_str!("../sql/insert_fact.sql"))?.execute(params![
        told.id,
        told.kind,
        told.version,
        told.subject,
        told.device_time,
        fact.received,
        told.supersedes(),
        told.payload.as_ref().map(Payload::as_str),
        fact.content,
        salt,
        told.author,
        told.device,
        told.device_seq,
        told.correction.as_ref().map(|correction| &correction.reason),
        told.natural_key,
    ])?;
    Ok(())
}

/// Writes a tombstone.
pub(crate) fn insert_tombstone(connection: &Connection, stone: &Tombstone) -> Result<(), Error> {
    connection.prepare_cached(include_str!("../sql/insert_tombstone.sql"))?.execute(params![
        stone.id,
        stone.kind,
        stone.version,
        stone.subject,
        stone.device_time,
        stone.received,
        stone.replaced,
    ])?;
    Ok(())
}

/// Keeps a refused fact; one that was kept before is not kept twice. Says whether it is new.
pub(crate) fn insert_refused(connection: &Connection, fact: &Fact) -> Result<bool, Error> {
    let told = &fact.told;
    let added = connection.prepare_cached(include_str!("../sql/insert_refused.sql"))?.execute(params![
        told.id,
        told.kind,
        told.version,
        told.subject,
        told.device_time,
        fact.received,
        told.supersedes(),
        told.payload.as_ref().map(Payload::as_str),
        fact.content,
        told.author,
        told.device,
        told.device_seq,
        told.correction.as_ref().map(|correction| &correction.reason),
        told.natural_key,
    ])?;
    Ok(added > 0)
}
