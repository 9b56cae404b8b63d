//! The cover of a case: what a list shows of it. It is kept beside the events in the same transaction, and can be made anew
//! from them at any time.

use super::{CaseId, Ledger, LedgerError};
use crate::finding::log::Outcome;
use chrono::{DateTime, Utc};
use rusqlite::types::{Type, ValueRef};
use rusqlite::{Row, TransactionBehavior, params};

/// Whether a case is open, and how it ended if not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum State {
    /// She is cared for.
    #[default]
    Open,
    /// It ended so.
    Closed(Outcome),
}

impl State {
    /// The word in the file, and in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Closed(Outcome::Recovered) => "recovered",
            Self::Closed(Outcome::Died) => "died",
            Self::Closed(Outcome::HumaneEnd) => "humane_end",
            Self::Closed(Outcome::MovedOn) => "moved_on",
        }
    }

    fn read(word: &str) -> Option<Self> {
        let closed = Outcome::ALL.into_iter().map(Self::Closed);
        [Self::Open].into_iter().chain(closed).find(|state| state.word() == word)
    }
}

/// What a list shows of a case, apart from what the events themselves tell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cover {
    /// The bird's name; empty where none was given.
    pub name: String,
    /// What bird she is, in words; empty where it was not told.
    pub kind: String,
    /// The need in words, as it stood after the last event; empty where it was never worked out.
    pub need: String,
    /// When she is to be looked at next.
    pub due: Option<DateTime<Utc>>,
    /// Whether the case is open.
    pub state: State,
    /// Whether it was put out of sight.
    pub archived: bool,
    /// The clock that runs for her, its time up or not.
    pub clock: Option<Clock>,
    /// The mark of the translation it was said in; empty for the words that ship.
    pub words: String,
}

/// A clock that runs for a bird.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clock {
    /// What goes by it, in a word.
    pub what: String,
    /// When its time is up.
    pub ends_at: DateTime<Utc>,
}

/// A case in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Covered {
    /// Its name.
    pub id: CaseId,
    /// When it began.
    pub begun: DateTime<Utc>,
    /// When something was last kept of it.
    pub last: DateTime<Utc>,
    /// How many events it has.
    pub events: u64,
    /// What its cover says.
    pub cover: Cover,
    /// The fingerprint of the protocol the cover was made with.
    pub fingerprint: String,
    /// The number she is chosen by while she is open: given once, from 1, and no other open bird's; 0 where she has none.
    pub tag: u32,
}

/// A cover made anew, and how many events it tells of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Anew {
    /// The case.
    pub case: CaseId,
    /// How many events it had when it was read.
    pub events: u64,
    /// What its cover says from now on.
    pub cover: Cover,
}

/// Which cases are listed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filter {
    /// Letters that must stand in the bird's name, her kind, the need or the case's name.
    pub text: String,
    /// Closed cases too.
    pub closed: bool,
    /// Those put out of sight too.
    pub archived: bool,
}

const FIELDS: &str = "case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint, \
     tag, clock, clock_utc";

/// Adds one event to a case's cover, or makes it.
pub(super) const UPSERT: &str = "INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint, clock, clock_utc) \
     VALUES (?1, ?2, ?2, 1, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11) ON CONFLICT (case_id) DO UPDATE SET \
     last_utc = ?2, events = events + 1, name = ?3, kind = ?4, need = ?5, due_utc = ?6, state = ?7, archived = ?8, \
     fingerprint = ?9, clock = ?10, clock_utc = ?11, tag = CASE WHEN ?7 = 'open' AND ?8 = 0 THEN tag ELSE -abs(tag) END";

/// Gives an open case that has none the smallest number that no open bird bears, nor one whose case was closed within a day.
pub(super) const TAG: &str = "UPDATE cover SET tag = coalesce((WITH RECURSIVE free(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM free WHERE n < 102) \
     SELECT n FROM free WHERE NOT EXISTS (SELECT 1 FROM cover AS other WHERE other.tag <> 0 AND other.tag = n) \
     AND NOT EXISTS (SELECT 1 FROM cover AS other WHERE other.tag <> 0 AND other.tag = -n AND other.case_id <> ?1 \
     AND other.last_utc > strftime('%Y-%m-%dT%H:%M:%S', 'now', '-1 day')) LIMIT 1), 0) \
     WHERE case_id = ?1 AND tag <= 0 AND state = 'open' AND archived = 0";

/// What parts the fingerprint of a protocol from the mark of a translation.
const PARTED: char = '+';

/// What a cover was made by, as it is kept: a protocol's fingerprint, and the mark of a translation where it was said in one.
pub(super) fn made_by(fingerprint: &str, words: &str) -> String {
    if words.is_empty() { fingerprint.to_owned() } else { format!("{fingerprint}{PARTED}{words}") }
}

/// Puts what a cover says in a statement's places 3 to 8, and its clock in the last two.
pub(super) type CoverRow<'c> =
    (&'c str, &'c str, &'c str, Option<String>, &'static str, bool, Option<&'c str>, Option<String>);

/// What a cover says, as it is kept.
pub(super) fn said(cover: &Cover) -> CoverRow<'_> {
    let Cover { name, kind, need, due, state, archived, clock, words: _ } = cover;
    let (what, ends_at) = clock.as_ref().map(|clock| (clock.what.as_str(), clock.ends_at.to_rfc3339())).unzip();
    (name, kind, need, due.map(|due| due.to_rfc3339()), state.word(), *archived, what, ends_at)
}

impl Ledger {
    /// The cases that are asked for, those due first, then the one written last; so many from this place on.
    ///
    /// # Errors
    /// Where the disk fails or a cover cannot be read.
    pub fn cases(&self, filter: &Filter, from: usize, most: usize) -> Result<Vec<Covered>, LedgerError> {
        let sql = format!("SELECT {FIELDS} FROM cover {} LIMIT ?2 OFFSET ?3", wanted(filter));
        let mut statement = self.connection.prepare_cached(&sql)?;
        let (most, from) = (i64::try_from(most).unwrap_or(i64::MAX), i64::try_from(from).unwrap_or(i64::MAX));
        let rows = statement.query_map(params![pattern(filter), most, from], covered)?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// How many cases are asked for.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn count(&self, filter: &Filter) -> Result<usize, LedgerError> {
        let sql = format!("SELECT count(*) FROM cover {}", chosen(filter));
        let count: i64 = self.connection.prepare_cached(&sql)?.query_row([pattern(filter)], |row| row.get(0))?;
        Ok(usize::try_from(count).unwrap_or(0))
    }

    /// Open cases with a look before this moment, the longest overdue first.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn due_before(&self, moment: DateTime<Utc>, most: usize) -> Result<Vec<Covered>, LedgerError> {
        let sql = format!(
            // Left to itself the planner sorts every open case: the cost would grow with the ledger.
            "SELECT {FIELDS} FROM cover INDEXED BY cover_due WHERE state = 'open' AND archived = 0 AND due_utc < ?1 \
             ORDER BY due_utc LIMIT ?2"
        );
        let mut statement = self.connection.prepare_cached(&sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map(params![moment.to_rfc3339(), most], covered)?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// Open cases with a look from one moment to another, the soonest first: every one.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn due_between(&self, from: DateTime<Utc>, to: DateTime<Utc>) -> Result<Vec<Covered>, LedgerError> {
        let sql = format!(
            "SELECT {FIELDS} FROM cover INDEXED BY cover_due WHERE state = 'open' AND archived = 0 AND due_utc >= ?1 \
             AND due_utc < ?2 ORDER BY due_utc"
        );
        let mut statement = self.connection.prepare_cached(&sql)?;
        let rows = statement.query_map([from.to_rfc3339(), to.to_rfc3339()], covered)?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// Open cases for whose birds a clock runs, or ran out since this moment; the first to ring first.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn clocks(&self, since: DateTime<Utc>, most: usize) -> Result<Vec<Covered>, LedgerError> {
        let sql = format!(
            "SELECT {FIELDS} FROM cover INDEXED BY cover_clock WHERE clock_utc IS NOT NULL AND clock_utc > ?1 \
             AND state = 'open' AND archived = 0 ORDER BY clock_utc LIMIT ?2"
        );
        let mut statement = self.connection.prepare_cached(&sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map(params![since.to_rfc3339(), most], covered)?;
        rows.map(|row| Ok(row?)).collect()
    }

    /// How many open cases have a look before this moment.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn count_due(&self, moment: DateTime<Utc>) -> Result<usize, LedgerError> {
        let sql =
            "SELECT count(*) FROM cover INDEXED BY cover_due WHERE state = 'open' AND archived = 0 AND due_utc < ?1";
        let count: i64 = self.connection.prepare_cached(sql)?.query_row([moment.to_rfc3339()], |row| row.get(0))?;
        Ok(usize::try_from(count).unwrap_or(0))
    }

    /// The case a name, a short name or a bird's name stands for.
    ///
    /// # Errors
    /// Where there is none, or several.
    pub fn find(&self, name: &str) -> Result<CaseId, LedgerError> {
        // Letters stand for themselves, large or small: a pattern would take some of them for any.
        let sql = "SELECT case_id FROM cover WHERE substr(case_id, -length(?1)) = ?1 COLLATE NOCASE OR name = ?1 COLLATE NOCASE";
        let mut statement = self.connection.prepare_cached(sql)?;
        let found: Vec<String> = statement.query_map([name], |row| row.get(0))?.collect::<Result<_, _>>()?;
        match found.as_slice() {
            [one] => Ok(CaseId(one.clone())),
            [] => Err(LedgerError::NoCase(name.to_owned())),
            several => Err(LedgerError::SeveralCases { name: name.to_owned(), count: several.len() }),
        }
    }

    /// Puts covers made anew in place of those that are there, all in one transaction. One whose case has gone on since it was
    /// read (it then has more events than these) is left as it is: the next round makes it anew. Tells how many
    /// were put.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn cover_anew(&mut self, covers: &[Anew], fingerprint: &str) -> Result<usize, LedgerError> {
        let mut made = 0;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        for Anew { case, events, cover } in covers {
            let (name, kind, need, due, state, archived, clock, clock_utc) = said(cover);
            made += transaction
                .prepare_cached(
                    "UPDATE cover SET name = ?2, kind = ?3, need = ?4, due_utc = ?5, state = ?6, archived = ?7, \
                     fingerprint = ?8, clock = ?10, clock_utc = ?11, \
                     tag = CASE WHEN ?6 = 'open' AND ?7 = 0 THEN tag ELSE -abs(tag) END WHERE case_id = ?1 AND events = ?9",
                )?
                .execute(params![
                    case.0,
                    name,
                    kind,
                    need,
                    due,
                    state,
                    archived,
                    made_by(fingerprint, &cover.words),
                    i64::try_from(*events).unwrap_or(i64::MAX),
                    clock,
                    clock_utc,
                ])?;
            transaction.prepare_cached(TAG)?.execute([&case.0])?;
        }
        transaction.commit()?;
        Ok(made)
    }

    /// Cases whose covers were made with another protocol, said in other words, or never made.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn doubted(&self, fingerprint: &str, words: &str, most: usize) -> Result<Vec<Covered>, LedgerError> {
        // How a case ended is the same by every protocol; in another language it is not.
        let sql = format!(
            "SELECT {FIELDS} FROM cover WHERE fingerprint <> ?1 AND (state = 'open' OR fingerprint = '' \
             OR substr(fingerprint, instr(fingerprint || '{PARTED}', '{PARTED}') + 1) <> ?3) LIMIT ?2"
        );
        let mut statement = self.connection.prepare_cached(&sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map(params![made_by(fingerprint, words), most, words], covered)?;
        rows.map(|row| Ok(row?)).collect()
    }
}

/// A text out of a file that may be damaged, without what would drive a terminal.
pub(super) fn bare(text: String) -> String {
    if text.chars().any(char::is_control) { String::new() } else { text }
}

/// The condition for what is asked for.
fn chosen(filter: &Filter) -> String {
    let state = if filter.closed { "" } else { "state = 'open' AND " };
    let archived = if filter.archived { "" } else { "archived = 0 AND " };
    let text = if filter.text.is_empty() {
        "?1 = ?1"
    } else {
        "(name LIKE ?1 ESCAPE '\\' OR kind LIKE ?1 ESCAPE '\\' OR need LIKE ?1 ESCAPE '\\' OR case_id LIKE ?1 ESCAPE '\\')"
    };
    format!("WHERE {state}{archived}{text}")
}

/// The same, in the order of a list: whoever is due soonest, then whoever was written last.
fn wanted(filter: &Filter) -> String {
    format!("{} ORDER BY coalesce(due_utc, '9'), last_utc DESC", chosen(filter))
}

fn pattern(filter: &Filter) -> String {
    let escaped = filter.text.replace('\\', "\\\\").replace('%', "\\%").replace('_', "\\_");
    format!("%{escaped}%")
}

fn unreadable(at: usize, error: impl std::error::Error + Send + Sync + 'static) -> rusqlite::Error {
    rusqlite::Error::FromSqlConversionFailure(at, Type::Text, Box::new(error))
}

fn covered(row: &Row) -> rusqlite::Result<Covered> {
    // Read in place: a list has three moments a line.
    let text = |at: usize| row.get_ref(at)?.as_str().map_err(|error| unreadable(at, error));
    let moment = |at: usize| {
        let read = DateTime::parse_from_rfc3339(text(at)?).map_err(|error| unreadable(at, error));
        read.map(|moment| moment.to_utc())
    };
    let is_told = |at: usize| Ok::<_, rusqlite::Error>(matches!(row.get_ref(at)?, ValueRef::Text(_)));
    let due = is_told(7)?.then(|| moment(7)).transpose()?;
    let clock = (is_told(12)? && is_told(13)?)
        .then(|| Ok::<_, rusqlite::Error>(Clock { what: bare(row.get(12)?), ends_at: moment(13)? }));
    let state = State::read(text(8)?).unwrap_or_default();
    let (fingerprint, words) = text(10)?.split_once(PARTED).unwrap_or((text(10)?, ""));
    let (fingerprint, words) = (fingerprint.to_owned(), words.to_owned());
    Ok(Covered {
        id: CaseId(row.get(0)?),
        begun: moment(1)?,
        last: moment(2)?,
        events: u64::try_from(row.get::<_, i64>(3)?).unwrap_or(0),
        cover: Cover {
            name: row.get(4)?,
            kind: row.get(5)?,
            need: row.get(6)?,
            due,
            state,
            archived: row.get(9)?,
            clock: clock.transpose()?,
            words,
        },
        fingerprint,
        tag: u32::try_from(row.get::<_, i64>(11)?).unwrap_or(0),
    })
}
