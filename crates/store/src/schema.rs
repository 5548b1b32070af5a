//! Numbered migrations, each applied in one transaction together with its record.

use rusqlite::{Connection, TransactionBehavior, params};

use crate::error::Error;
use crate::file::APPLICATION_ID;

pub(crate) struct Migration {
    name: &'static str,
    script: &'static str,
}

/// Every schema change ever released, in order; a released one is never edited.
const MIGRATIONS: &[Migration] = &[
    Migration { name: "facts", script: include_str!("../migrations/0001_facts.sql") },
    Migration { name: "door", script: include_str!("../migrations/0002_door.sql") },
];

/// The schema this program writes.
pub(crate) fn newest() -> u32 {
    count(MIGRATIONS)
}

/// Brings the schema up to date; says whether anything had to be done.
pub(crate) fn migrate(connection: &mut Connection) -> Result<bool, Error> {
    migrate_by(MIGRATIONS, connection)
}

fn migrate_by(migrations: &[Migration], connection: &mut Connection) -> Result<bool, Error> {
    let found: u32 = connection.pragma_query_value(None, "user_version", |row| row.get(0))?;
    for (number, migration) in (1..).zip(migrations).skip_while(|(number, _)| *number <= found) {
        let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute_batch(migration.script)?;
        transaction.execute(include_str!("../sql/record_migration.sql"), params![number, migration.name])?;
        transaction.pragma_update(None, "user_version", number)?;
        transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
        transaction.commit()?;
    }
    Ok(found < count(migrations))
}

fn count(migrations: &[Migration]) -> u32 {
    u32::try_from(migrations.len()).expect("a handful of migrations")
}

#[cfg(test)]
mod tests {
    use super::*;

    const FIRST: Migration = Migration {
        name: "first",
        script: "CREATE TABLE migrations (number INTEGER PRIMARY KEY, name TEXT); CREATE TABLE a (x);",
    };
    const SECOND: Migration = Migration { name: "second", script: "ALTER TABLE a ADD COLUMN y;" };
    const BROKEN: Migration =
        Migration { name: "broken", script: "CREATE TABLE b (x); INSERT INTO missing VALUES (1);" };

    fn state(connection: &Connection) -> (u32, String, u32) {
        let version = connection.pragma_query_value(None, "user_version", |row| row.get(0)).unwrap();
        let names = "SELECT group_concat(name, ' ') FROM (SELECT name FROM migrations ORDER BY number)";
        let tables = "SELECT count(*) FROM sqlite_schema WHERE type = 'table'";
        (
            version,
            connection.query_row(names, [], |row| row.get(0)).unwrap(),
            connection.query_row(tables, [], |row| row.get(0)).unwrap(),
        )
    }

    #[test]
    fn each_migration_is_applied_once_and_recorded() {
        let mut connection = Connection::open_in_memory().unwrap();
        assert!(migrate_by(&[FIRST], &mut connection).unwrap());
        assert_eq!(state(&connection), (1, "first".into(), 2));
        assert!(migrate_by(&[FIRST, SECOND], &mut connection).unwrap());
        assert_eq!(state(&connection), (2, "first second".into(), 2));
        assert!(!migrate_by(&[FIRST, SECOND], &mut connection).unwrap());
    }

    #[test]
    fn a_failing_migration_leaves_the_one_before() {
        let mut connection = Connection::open_in_memory().unwrap();
        assert!(migrate_by(&[FIRST, BROKEN, SECOND], &mut connection).is_err());
        assert_eq!(state(&connection), (1, "first".into(), 2));
    }
}
