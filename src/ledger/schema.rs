//! The ledger's tables, how they came to be, and how a connection is made safe.

use rusqlite::{Connection, ErrorCode, TransactionBehavior};
use std::path::Path;
use std::time::Duration;
use std::{fs, io, thread};

/// "coop", so that other tools can tell whose file this is.
const APPLICATION_ID: i64 = 0x636f_6f70;

/// Each step from one version to the next; the first makes the tables. Never change a step, only add one.
pub const STEPS: &[&str] = &[
    "
    CREATE TABLE event (
        case_id     TEXT NOT NULL,
        seq         INTEGER NOT NULL,
        event_id    TEXT NOT NULL UNIQUE,
        at_utc      TEXT NOT NULL,
        zone_min    INTEGER NOT NULL,
        kind        TEXT NOT NULL,
        schema      INTEGER NOT NULL,
        body        TEXT NOT NULL CHECK (json_valid(body)),
        protocol    TEXT NOT NULL,
        fingerprint TEXT NOT NULL,
        PRIMARY KEY (case_id, seq)
    ) STRICT;
    CREATE TRIGGER event_is_never_changed BEFORE UPDATE ON event
        BEGIN SELECT RAISE(ABORT, 'events are never changed'); END;
    CREATE TRIGGER event_is_never_removed BEFORE DELETE ON event
        BEGIN SELECT RAISE(ABORT, 'events are never removed'); END;
",
    "
    CREATE TABLE setting (
        name  TEXT NOT NULL PRIMARY KEY,
        value TEXT NOT NULL
    ) STRICT;
",
];

/// The version the last step leads to.
pub const NEWEST: i64 = 2;

/// Makes the folder, readable by its owner only.
pub fn make_folder(folder: &Path) -> io::Result<()> {
    if folder.is_dir() {
        return Ok(());
    }
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

/// Opens the file and sets what keeps it whole: write-ahead log, a sync with every commit, waiting for other windows.
pub fn connect(path: &Path) -> rusqlite::Result<Connection> {
    let connection = Connection::open(path)?;
    connection.busy_timeout(Duration::from_secs(5))?;
    // Two windows that make a new file at once can meet "locked" here in spite of the timeout.
    retry(|| connection.pragma_update(None, "journal_mode", "WAL"))?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // On macOS a plain fsync does not reach the disk.
    connection.pragma_update(None, "fullfsync", true)?;
    connection.pragma_update(None, "checkpoint_fullfsync", true)?;
    Ok(connection)
}

/// Brings the tables up to date and returns the version found; a newer one is left as it is.
pub fn migrate(connection: &mut Connection) -> rusqlite::Result<i64> {
    let version = |connection: &Connection| connection.pragma_query_value(None, "user_version", |row| row.get(0));
    let found: i64 = version(connection)?;
    if found >= NEWEST {
        return Ok(found);
    }
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Another window may have done it between the look and the lock.
    let found: i64 = version(&transaction)?;
    for (step, sql) in (0i64..).zip(STEPS) {
        if step >= found {
            transaction.execute_batch(sql)?;
        }
    }
    transaction.pragma_update(None, "application_id", APPLICATION_ID)?;
    transaction.pragma_update(None, "user_version", NEWEST.max(found))?;
    transaction.commit()?;
    Ok(NEWEST.max(found))
}

fn retry(mut attempt: impl FnMut() -> rusqlite::Result<()>) -> rusqlite::Result<()> {
    for pause_ms in [5, 20, 80, 320] {
        match attempt() {
            Err(error) if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy) => {
                thread::sleep(Duration::from_millis(pause_ms));
            }
            other => return other,
        }
    }
    attempt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_version_is_the_number_of_steps() {
        assert_eq!(usize::try_from(NEWEST), Ok(STEPS.len()));
    }
}
