//! Cases on disk: one `SQLite` file, append-only events, one transaction a decision.
//!
//! What a person did is stored; verdicts and plans never are, they are always worked out again.

pub mod backup;
mod carry;
mod cover;
mod fault;
mod place;
mod read;
mod schema;
mod setting;

pub use backup::{Backup, FOLDER as BACKUPS, good, restore};
pub use carry::{Carried, CarryError, CarryFault, SCHEMA as EVENTS_SCHEMA, carry_aside};
pub use cover::{Anew, Clock, Cover, Covered, Filter, State};
pub use fault::{Cause, LedgerError};
pub use read::{Kept, Lacking};
pub use schema::{NEWEST as NEWEST_SCHEMA, STEPS};
pub use setting::Setting;

use crate::finding::log::Stamped;
use place::Place;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OptionalExtension, TransactionBehavior, ffi, params};
use std::fs::File;
use std::path::{Path, PathBuf};

/// The newest schema this program can write.
const SCHEMA: i64 = schema::NEWEST;
/// The shape of an event's body; raised when a body can no longer be read as before, not when tables change.
const BODY_SCHEMA: i64 = 1;
/// The name of the file in its folder.
pub const FILE: &str = "coopside.sqlite";
/// The name of one bird's case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseId(pub(crate) String);

impl CaseId {
    /// A new name that no other machine will make too.
    pub fn new() -> Self {
        Self(uuid::Uuid::now_v7().to_string())
    }

    /// The whole name.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Its last letters, by which a person can ask for it.
    pub fn short(&self) -> &str {
        self.0.get(self.0.len().saturating_sub(8)..).unwrap_or(&self.0)
    }
}

impl Default for CaseId {
    fn default() -> Self {
        Self::new()
    }
}

/// The name of one event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EventId(String);

impl EventId {
    /// A new name that no other machine will make too.
    pub fn new() -> Self {
        Self(uuid::Uuid::now_v7().to_string())
    }
}

impl Default for EventId {
    fn default() -> Self {
        Self::new()
    }
}

/// Which protocol judged while an event was made, so that an old case still explains itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The protocol's version.
    pub version: String,
    /// Its fingerprint.
    pub fingerprint: String,
}

/// One event to be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// Its own name, given once: keeping it twice is keeping it once.
    pub id: EventId,
    /// The case it belongs to.
    pub case: CaseId,
    /// Its place in the case, from 0; no two events share one.
    pub seq: u64,
    /// What happened, and when.
    pub stamped: Stamped,
    /// The wall clock's distance from UTC, in minutes.
    pub zone_min: i32,
}

/// A case as it was kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Case {
    /// Its name.
    pub id: CaseId,
    /// Everything that was done, in order.
    pub log: Vec<Stamped>,
}

/// Keeps one event.
const INSERT: &str = "INSERT INTO event (case_id, seq, event_id, at_utc, zone_min, kind, schema, body, protocol, fingerprint) \
     VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";

/// The case written last that can be gone on with.
const LATEST: &str = "SELECT case_id FROM event WHERE (SELECT state = 'open' AND archived = 0 FROM cover WHERE \
     cover.case_id = event.case_id) ORDER BY event.rowid DESC LIMIT 1";

/// What is kept of a setting.
const SETTING: &str = "SELECT value FROM setting WHERE name = ?1";

/// Keeps a setting in place of what was kept of it.
const SET: &str = "INSERT INTO setting (name, value) VALUES (?1, ?2) ON CONFLICT (name) DO UPDATE SET value = ?2";

/// An open ledger.
#[derive(Debug)]
pub struct Ledger {
    connection: Connection,
    folder: PathBuf,
    /// The file that was opened to be written.
    place: Option<Place>,
    /// Held, shared, while the ledger is open for writing: nobody puts a backup in its place meanwhile.
    _lock: Option<File>,
}

fn old_enough() -> Result<(), LedgerError> {
    if rusqlite::version_number() < 3_051_003 { Err(LedgerError::OldSqlite(rusqlite::version())) } else { Ok(()) }
}

fn opening(path: &Path, cause: Cause) -> LedgerError {
    LedgerError::Open { path: path.to_owned(), cause }
}

/// Whether a folder holds a ledger. What is no folder, or one that may not be looked into, is a slip or a lock and no empty list.
///
/// # Errors
/// Where that cannot be told.
pub fn is_there(folder: &Path) -> Result<bool, LedgerError> {
    let path = folder.join(FILE);
    path.try_exists().map_err(|error| LedgerError::Open { path, cause: Cause::said(&error) })
}

/// What a file that does not open as a ledger is: damaged, or out of reach.
fn refused(path: &Path, error: &rusqlite::Error) -> LedgerError {
    match error.sqlite_error_code() {
        Some(ErrorCode::NotADatabase | ErrorCode::DatabaseCorrupt) => {
            LedgerError::Damaged { path: path.to_owned(), cause: Cause::said(error) }
        }
        Some(ErrorCode::DiskFull) => LedgerError::Full,
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => LedgerError::Held,
        // The file that windows share beside the ledger finds no room.
        _ if error.sqlite_error().is_some_and(|error| error.extended_code == ffi::SQLITE_IOERR_SHMSIZE) => {
            LedgerError::Full
        }
        _ => opening(path, Cause::said(error)),
    }
}

impl Ledger {
    /// Opens the ledger in a folder, making both if need be. Before its tables are brought up to date a backup is made.
    ///
    /// # Errors
    /// Where the place cannot be written, the file is newer or damaged, or `SQLite` is too old.
    pub fn open(folder: &Path) -> Result<Self, LedgerError> {
        old_enough()?;
        let path = folder.join(FILE);
        schema::make_folder(folder).map_err(|error| opening(&path, Cause::said(&error)))?;
        let lock = schema::share(folder).map_err(|error| opening(&path, Cause::said(&error)))?;
        let mut connection = schema::connect(&path).map_err(|error| refused(&path, &error))?;
        if schema::is_old(&connection).map_err(|error| refused(&path, &error))? {
            backup::before_migration(&connection, folder)?;
        }
        match schema::migrate(&mut connection).map_err(|error| refused(&path, &error))? {
            version if version > SCHEMA => Err(LedgerError::Newer { path }),
            _ => {
                let place = Some(Place::of(&path));
                Ok(Self { connection, folder: folder.to_owned(), place, _lock: Some(lock) })
            }
        }
    }

    /// Opens the ledger in a folder to write where it can be written, else to read.
    ///
    /// # Errors
    /// Where it can be opened in neither way: what stands in the way of writing.
    pub fn open_or_read(folder: &Path) -> Result<Self, LedgerError> {
        match Self::open(folder) {
            Err(refused @ (LedgerError::Open { .. } | LedgerError::ReadOnly | LedgerError::Full)) => {
                Self::read(folder).map_err(|_| refused)
            }
            other => other,
        }
    }

    /// Opens the ledger to read only: nothing is made and nothing changed, also where the folder cannot be written.
    ///
    /// # Errors
    /// Where there is none, or it is newer, older or damaged.
    pub fn read(folder: &Path) -> Result<Self, LedgerError> {
        old_enough()?;
        let path = folder.join(FILE);
        let connection = schema::connect_to_read(&path).map_err(|error| refused(&path, &error))?;
        match schema::version(&connection).map_err(|error| refused(&path, &error))? {
            version if version > SCHEMA => Err(LedgerError::Newer { path }),
            version if version < SCHEMA => Err(LedgerError::Older { path }),
            _ => Ok(Self { connection, folder: folder.to_owned(), place: None, _lock: None }),
        }
    }

    /// Keeps one event and the cover it leaves the case with, in one transaction. When this returns, both are on disk; keeping
    /// them a second time changes nothing.
    ///
    /// # Errors
    /// `Clash` where another window has written the same place of the case, `Gone` where the open file is no longer the one at
    /// its path; else what the disk says.
    pub fn append(&mut self, event: &Event, mark: &Mark, cover: &Cover) -> Result<(), LedgerError> {
        self.still_there()?;
        match self.insert(event, mark, cover) {
            // A commit may have landed although its answer was lost.
            Err(LedgerError::Clash) if self.holds(&event.id)? => {}
            other => other?,
        }
        // Only a file that is still the one at its path keeps what was written to it.
        self.still_there()
    }

    /// Whether the open file is still the one at its path, and no shorter than it was.
    ///
    /// # Errors
    /// `Gone` where it is not. Nothing that is written from then on would be kept: open the ledger again.
    pub fn still_there(&mut self) -> Result<(), LedgerError> {
        let Some(place) = &mut self.place else { return Ok(()) };
        if place.is_as_it_was() {
            return Ok(());
        }
        // When this connection is closed it must not clear away the log of whatever stands at the path by then.
        let _ = self.connection.set_db_config(DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, true);
        place.set_log_aside();
        Err(LedgerError::Gone { path: place.path().to_owned() })
    }

    fn holds(&self, id: &EventId) -> Result<bool, LedgerError> {
        let sql = "SELECT EXISTS (SELECT 1 FROM event WHERE event_id = ?1)";
        Ok(self.connection.query_row(sql, [&id.0], |row| row.get(0))?)
    }

    /// Copies a case up to (not including) one place into a case of its own, and returns its name.
    ///
    /// So two windows that went on with one bird both keep what they were told.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn fork(&mut self, case: &CaseId, before: u64) -> Result<CaseId, LedgerError> {
        let forked = CaseId::new();
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let before = i64::try_from(before).unwrap_or(i64::MAX);
        transaction.execute(
            "INSERT INTO event (case_id, seq, event_id, at_utc, zone_min, kind, schema, body, protocol, fingerprint) \
             SELECT ?1, seq, ?1 || ':' || seq, at_utc, zone_min, kind, schema, body, protocol, fingerprint \
             FROM event WHERE case_id = ?2 AND seq < ?3",
            params![forked.0, case.0, before],
        )?;
        // The cover of the other window's case is the nearest there is; the next event brings its own.
        transaction.execute(
            "INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint) \
             SELECT ?1, begun_utc, last_utc, own.kept, name, kind, need, due_utc, state, archived, fingerprint \
             FROM cover, (SELECT count(*) AS kept FROM event WHERE case_id = ?1) AS own WHERE case_id = ?2 AND own.kept > 0",
            params![forked.0, case.0],
        )?;
        transaction.commit()?;
        Ok(forked)
    }

    fn insert(&mut self, event: &Event, mark: &Mark, cover: &Cover) -> Result<(), LedgerError> {
        let Event { id, case, seq, stamped, zone_min } = event;
        let body = serde_json::to_string(&stamped.entry).map_err(|error| LedgerError::Disk(Cause::said(&error)))?;
        let at = stamped.at.to_rfc3339();
        // IMMEDIATE: a deferred transaction that reads first can fail to become a writer, however long it waits.
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.prepare_cached(INSERT)?.execute(params![
            case.0,
            i64::try_from(*seq).unwrap_or(i64::MAX),
            id.0,
            at,
            zone_min,
            stamped.entry.kind().name,
            BODY_SCHEMA,
            body,
            mark.version,
            mark.fingerprint,
        ])?;
        let (name, kind, need, due, state, archived, clock, clock_utc) = cover::said(cover);
        transaction.prepare_cached(cover::UPSERT)?.execute(params![
            case.0,
            at,
            name,
            kind,
            need,
            due,
            state,
            archived,
            cover::made_by(&mark.fingerprint, &cover.words),
            clock,
            clock_utc,
        ])?;
        transaction.prepare_cached(cover::TAG)?.execute([&case.0])?;
        transaction.commit()?;
        Ok(())
    }

    /// What was kept of a setting, if anything was.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn setting(&self, setting: Setting) -> Result<Option<String>, LedgerError> {
        Ok(self.connection.query_row(SETTING, [setting.name()], |row| row.get(0)).optional()?)
    }

    /// Keeps a setting in place of what was kept of it.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn set(&mut self, setting: Setting, value: &str) -> Result<(), LedgerError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute(SET, [setting.name(), value])?;
        transaction.commit()?;
        self.still_there()
    }

    /// Changes what is kept of a setting, whoever kept it, and gives back what is kept from now on.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn amend(&mut self, setting: Setting, change: impl FnOnce(&str) -> String) -> Result<String, LedgerError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let before: Option<String> = transaction.query_row(SETTING, [setting.name()], |row| row.get(0)).optional()?;
        let now = change(&before.unwrap_or_default());
        transaction.execute(SET, [setting.name(), &now])?;
        transaction.commit()?;
        self.still_there()?;
        Ok(now)
    }

    /// Lets the file grow to so many pages and no further, as a full disk would.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn limit_pages(&self, pages: i64) -> Result<(), LedgerError> {
        Ok(self.connection.pragma_update(None, "max_page_count", pages)?)
    }

    /// The protocols under which a case was kept, in the order they came in.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn marks(&self, id: &CaseId) -> Result<Vec<Mark>, LedgerError> {
        let sql = "SELECT protocol, fingerprint FROM event WHERE case_id = ?1 GROUP BY protocol, fingerprint ORDER BY min(seq)";
        let mut statement = self.connection.prepare_cached(sql)?;
        let rows = statement.query_map([&id.0], |row| Ok(Mark { version: row.get(0)?, fingerprint: row.get(1)? }))?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// The events of the case that was written last, if there is one that is open and in sight.
    ///
    /// # Errors
    /// As for one case in full.
    pub fn latest(&self) -> Result<Option<Vec<Kept>>, LedgerError> {
        let id: Option<String> = self.connection.query_row(LATEST, [], |row| row.get(0)).optional()?;
        id.map(|id| self.events(&CaseId(id))).transpose()
    }
}
