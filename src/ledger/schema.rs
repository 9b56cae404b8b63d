//! The ledger's tables, how they came to be, and how a connection is made safe.

use rusqlite::{Connection, ErrorCode, OpenFlags, TransactionBehavior};
use std::fs::{File, TryLockError};
use std::path::Path;
use std::time::{Duration, Instant};
use std::{fs, io, thread};

/// "coop", so that other tools can tell whose file this is.
const APPLICATION_ID: i64 = 0x636f_6f70;

/// How long another window is waited for.
const PATIENCE: Duration = Duration::from_secs(5);

/// The file that tells who has the ledger open.
const LOCK: &str = "coopside.lock";

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
    "
    CREATE TABLE cover (
        case_id     TEXT NOT NULL PRIMARY KEY,
        begun_utc   TEXT NOT NULL,
        last_utc    TEXT NOT NULL,
        events      INTEGER NOT NULL,
        name        TEXT NOT NULL,
        kind        TEXT NOT NULL,
        need        TEXT NOT NULL,
        due_utc     TEXT,
        state       TEXT NOT NULL CHECK (state IN ('open', 'recovered', 'died', 'humane_end', 'moved_on')),
        archived    INTEGER NOT NULL CHECK (archived IN (0, 1)),
        fingerprint TEXT NOT NULL
    ) STRICT;
    CREATE INDEX cover_listed ON cover (archived, state, coalesce(due_utc, '9'), last_utc DESC);
    CREATE INDEX cover_due ON cover (due_utc) WHERE state = 'open' AND archived = 0;
    CREATE INDEX cover_doubted ON cover (fingerprint, state);
    INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint)
        SELECT case_id, min(at_utc), max(at_utc), count(*), '', '', '', NULL, 'open', 0, '' FROM event GROUP BY case_id;
",
    // What a cover says of a bird that was not examined, or whose case has ended, is worked out in another way from here on.
    "
    UPDATE cover SET fingerprint = '';
",
    // While she is open a bird is chosen by a number that stays hers; below zero it rests for a day after. The clock that runs
    // for her is told by her cover, so that no case has to be read for it.
    "
    ALTER TABLE cover ADD COLUMN tag INTEGER NOT NULL DEFAULT 0;
    ALTER TABLE cover ADD COLUMN clock TEXT;
    ALTER TABLE cover ADD COLUMN clock_utc TEXT;
    CREATE INDEX cover_tag ON cover (tag, last_utc) WHERE tag <> 0;
    CREATE INDEX cover_clock ON cover (clock_utc) WHERE clock_utc IS NOT NULL;
    UPDATE cover SET tag = numbered.tag FROM (SELECT case_id, row_number() OVER (ORDER BY begun_utc, case_id) AS tag
        FROM cover WHERE state = 'open' AND archived = 0) AS numbered
        WHERE numbered.case_id = cover.case_id AND numbered.tag <= 102;
    UPDATE cover SET fingerprint = '';
",
];

/// The version the last step leads to.
pub const NEWEST: i64 = 5;

/// From this version on a case has a cover.
pub const COVERS: i64 = 3;

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
    connection.busy_timeout(PATIENCE)?;
    // Two windows that make a new file at once can meet "locked" here in spite of the timeout.
    retry(|| connection.pragma_update(None, "journal_mode", "WAL"))?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "trusted_schema", false)?;
    // On macOS a plain fsync does not reach the disk.
    connection.pragma_update(None, "fullfsync", true)?;
    connection.pragma_update(None, "checkpoint_fullfsync", true)?;
    Ok(connection)
}

/// Opens the file to be read only. Where not even the files beside it can be written, it is read as it lies; but only while
/// nothing waits beside it to be taken in.
pub fn connect_to_read(path: &Path) -> rusqlite::Result<Connection> {
    let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let connection = Connection::open_with_flags(path, flags)?;
    connection.busy_timeout(PATIENCE)?;
    match version(&connection) {
        Err(error)
            if matches!(
                error.sqlite_error_code(),
                Some(ErrorCode::CannotOpen | ErrorCode::ReadOnly | ErrorCode::SystemIoFailure)
            ) =>
        {
            let waits = path.with_extension("sqlite-wal");
            if fs::metadata(&waits).is_ok_and(|waits| waits.len() > 0) {
                return Err(error);
            }
            let escaped = path.to_string_lossy().replace('%', "%25").replace('?', "%3f").replace('#', "%23");
            Connection::open_with_flags(format!("file:{escaped}?immutable=1"), flags)
        }
        Err(error) => Err(error),
        Ok(_) => Ok(connection),
    }
}

/// The version of the tables.
pub fn version(connection: &Connection) -> rusqlite::Result<i64> {
    connection.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Whether there are tables, and older ones than this program writes.
pub fn is_old(connection: &Connection) -> rusqlite::Result<bool> {
    Ok((1..NEWEST).contains(&version(connection)?))
}

/// Shares the folder with whoever else has the ledger open; whoever puts a backup in its place needs it alone.
pub fn share(folder: &Path) -> io::Result<File> {
    let lock = lock_file(folder)?;
    lock.lock_shared()?;
    Ok(lock)
}

/// Takes the folder for oneself; nothing where somebody has the ledger open.
pub fn alone(folder: &Path) -> io::Result<Option<File>> {
    let lock = lock_file(folder)?;
    match lock.try_lock() {
        Ok(()) => Ok(Some(lock)),
        Err(TryLockError::WouldBlock) => Ok(None),
        Err(TryLockError::Error(error)) => Err(error),
    }
}

fn lock_file(folder: &Path) -> io::Result<File> {
    File::options().create(true).truncate(false).write(true).open(folder.join(LOCK))
}

/// Brings the tables up to date and returns the version found; a newer one is left as it is.
pub fn migrate(connection: &mut Connection) -> rusqlite::Result<i64> {
    let found = version(connection)?;
    if found >= NEWEST {
        return Ok(found);
    }
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Another window may have done it between the look and the lock.
    let found = version(&transaction)?;
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
    let since = Instant::now();
    for pause_ms in [5, 20, 80, 320] {
        match attempt() {
            // Each attempt may itself have waited: whoever holds the file that long does not let go.
            Err(error) if error.sqlite_error_code() == Some(ErrorCode::DatabaseBusy) && since.elapsed() < PATIENCE => {
                thread::sleep(Duration::from_millis(pause_ms));
            }
            other => return other,
        }
    }
    attempt()
}
