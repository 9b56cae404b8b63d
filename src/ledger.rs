//! Cases on disk: one `SQLite` file, append-only events, one transaction a decision.
//!
//! What a person did is stored; verdicts and plans never are, they are always worked out again.

mod schema;

use crate::finding::Id;
use crate::finding::log::{Entry, Stamped};
use chrono::{DateTime, Utc};
use rusqlite::{Connection, ErrorCode, OptionalExtension, TransactionBehavior, ffi, params};
use std::path::{Path, PathBuf};

/// The newest schema this program can write.
const SCHEMA: i64 = schema::NEWEST;
/// The shape of an event's body; raised when a body can no longer be read as before, not when tables change.
const BODY_SCHEMA: i64 = 1;
/// The name of the file in its folder.
pub const FILE: &str = "coopside.sqlite";
/// The setting that tells the country.
const COUNTRY: &str = "country";
/// The setting that tells what is in the house.
const CUPBOARD: &str = "cupboard";

/// The name of one bird's case.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CaseId(String);

impl CaseId {
    /// A new name that no other machine will make too.
    pub fn new() -> Self {
        Self(uuid::Uuid::now_v7().to_string())
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

/// Why the ledger could not do what was asked; each says what to do next.
#[derive(Debug, thiserror::Error)]
pub enum LedgerError {
    /// The folder or file cannot be made or opened.
    #[error("the ledger {path} cannot be opened ({cause}); free the disk or give another place with --data")]
    Open {
        /// Where it was looked for.
        path: PathBuf,
        /// What the system said.
        cause: String,
    },
    /// A newer Coopside wrote the ledger.
    #[error("the ledger {path} was written by a newer Coopside; use that one, or give another place with --data")]
    Newer {
        /// Where it stands.
        path: PathBuf,
    },
    /// `SQLite` is too old to be trusted with two windows.
    #[error("SQLite {0} can lose data with two windows open; 3.51.3 or newer is needed")]
    OldSqlite(&'static str),
    /// Another window has gone on with the same case.
    #[error("another window has gone on with this bird")]
    Clash,
    /// The disk is full.
    #[error("the disk is full; free some room, it will be tried again")]
    Full,
    /// Something else went wrong with the disk.
    #[error("the disk answers: {0}; it will be tried again")]
    Disk(String),
    /// A stored event cannot be read.
    #[error("event {seq} of a case cannot be read: {cause}")]
    Unreadable {
        /// Its place in the case.
        seq: u64,
        /// What is wrong.
        cause: String,
    },
}

/// Whether a place or a name was already taken, rather than some other rule of the table broken.
fn is_taken(error: &rusqlite::Error) -> bool {
    let code = error.sqlite_error().map(|error| error.extended_code);
    matches!(code, Some(ffi::SQLITE_CONSTRAINT_PRIMARYKEY | ffi::SQLITE_CONSTRAINT_UNIQUE))
}

impl From<rusqlite::Error> for LedgerError {
    fn from(error: rusqlite::Error) -> Self {
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => Self::Full,
            Some(ErrorCode::ConstraintViolation) if is_taken(&error) => Self::Clash,
            _ => Self::Disk(error.to_string()),
        }
    }
}

/// An open ledger.
#[derive(Debug)]
pub struct Ledger {
    connection: Connection,
}

impl Ledger {
    /// Opens the ledger in a folder, making both if need be.
    ///
    /// # Errors
    /// Where the place cannot be written, the file is newer, or `SQLite` is too old.
    pub fn open(folder: &Path) -> Result<Self, LedgerError> {
        if rusqlite::version_number() < 3_051_003 {
            return Err(LedgerError::OldSqlite(rusqlite::version()));
        }
        let path = folder.join(FILE);
        let opening = |cause: String| LedgerError::Open { path: path.clone(), cause };
        schema::make_folder(folder).map_err(|error| opening(error.to_string()))?;
        let mut connection = schema::connect(&path).map_err(|error| opening(error.to_string()))?;
        match schema::migrate(&mut connection).map_err(|error| opening(error.to_string()))? {
            version if version > SCHEMA => Err(LedgerError::Newer { path }),
            _ => Ok(Self { connection }),
        }
    }

    /// Keeps one event. When this returns, the event is on disk; keeping it a second time changes nothing.
    ///
    /// # Errors
    /// `Clash` where another window has written the same place of the case; else what the disk says.
    pub fn append(&mut self, event: &Event, mark: &Mark) -> Result<(), LedgerError> {
        match self.insert(event, mark) {
            // A commit may have landed although its answer was lost.
            Err(LedgerError::Clash) if self.holds(&event.id)? => Ok(()),
            other => other,
        }
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
        transaction.commit()?;
        Ok(forked)
    }

    fn insert(&mut self, event: &Event, mark: &Mark) -> Result<(), LedgerError> {
        let Event { id, case, seq, stamped, zone_min } = event;
        let body = serde_json::to_string(&stamped.entry).map_err(|error| LedgerError::Disk(error.to_string()))?;
        // IMMEDIATE: a deferred transaction that reads first can fail to become a writer, however long it waits.
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute(
            "INSERT INTO event (case_id, seq, event_id, at_utc, zone_min, kind, schema, body, protocol, fingerprint) \
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
            params![
                case.0,
                i64::try_from(*seq).unwrap_or(i64::MAX),
                id.0,
                stamped.at.to_rfc3339(),
                zone_min,
                kind(&stamped.entry),
                BODY_SCHEMA,
                body,
                mark.version,
                mark.fingerprint,
            ],
        )?;
        transaction.commit()?;
        Ok(())
    }

    /// The country that was set, if one was.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn country(&self) -> Result<Option<Id>, LedgerError> {
        Ok(self.setting(COUNTRY)?.map(|id| Id::from(id.as_str())))
    }

    /// Sets the country.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn set_country(&mut self, id: &Id) -> Result<(), LedgerError> {
        self.set(COUNTRY, id.as_str())
    }

    /// What is in the house, as it was written.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn cupboard(&self) -> Result<Option<String>, LedgerError> {
        self.setting(CUPBOARD)
    }

    /// Keeps what is in the house.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn set_cupboard(&mut self, written: &str) -> Result<(), LedgerError> {
        self.set(CUPBOARD, written)
    }

    fn setting(&self, name: &str) -> Result<Option<String>, LedgerError> {
        let sql = "SELECT value FROM setting WHERE name = ?1";
        Ok(self.connection.query_row(sql, [name], |row| row.get(0)).optional()?)
    }

    fn set(&mut self, name: &str, value: &str) -> Result<(), LedgerError> {
        let sql = "INSERT INTO setting (name, value) VALUES (?1, ?2) ON CONFLICT (name) DO UPDATE SET value = ?2";
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute(sql, [name, value])?;
        transaction.commit()?;
        Ok(())
    }

    /// Lets the file grow to so many pages and no further, as a full disk would.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn limit_pages(&self, pages: i64) -> Result<(), LedgerError> {
        Ok(self.connection.pragma_update(None, "max_page_count", pages)?)
    }

    /// The case that was written last, if there is one.
    ///
    /// # Errors
    /// Where the disk fails or a stored event cannot be read.
    pub fn latest(&self) -> Result<Option<Case>, LedgerError> {
        let id: Option<String> = self
            .connection
            .query_row("SELECT case_id FROM event ORDER BY rowid DESC LIMIT 1", [], |row| row.get(0))
            .optional()?;
        id.map(|id| self.load(CaseId(id))).transpose()
    }

    /// One case in full.
    ///
    /// # Errors
    /// Where the disk fails or a stored event cannot be read.
    pub fn load(&self, id: CaseId) -> Result<Case, LedgerError> {
        let mut statement =
            self.connection.prepare("SELECT seq, at_utc, body FROM event WHERE case_id = ?1 ORDER BY seq")?;
        let rows = statement.query_map([&id.0], |row| {
            Ok((row.get::<_, i64>(0)?, row.get::<_, String>(1)?, row.get::<_, String>(2)?))
        })?;
        let mut log = Vec::new();
        for row in rows {
            let (seq, at, body) = row?;
            let unreadable = |cause: String| LedgerError::Unreadable { seq: seq.unsigned_abs(), cause };
            let at = at.parse::<DateTime<Utc>>().map_err(|error| unreadable(error.to_string()))?;
            let entry = serde_json::from_str(&body).map_err(|error| unreadable(error.to_string()))?;
            log.push(Stamped { at, entry });
        }
        Ok(Case { id, log })
    }
}

/// The kind of an event, for people who look into the file with other tools.
const fn kind(entry: &Entry) -> &'static str {
    match entry {
        Entry::Said(_) => "said",
        Entry::FoundWound => "found_wound",
        Entry::LookedOver => "looked_over",
        Entry::Skipped(_) => "skipped",
        Entry::Went(_) => "went",
        Entry::Opened(_) => "opened",
        Entry::Turned(_) => "turned",
        Entry::Began(_) => "began",
        Entry::Ended(_) => "ended",
        Entry::PickedUp => "picked_up",
        Entry::PutDown => "put_down",
        Entry::Timed { .. } => "timed",
        Entry::ClockEnded => "clock_ended",
        Entry::TookBack => "took_back",
    }
}
