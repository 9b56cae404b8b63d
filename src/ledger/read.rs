//! Cases read back: whole, or refused by name. A case that lacks an event is never shown as if it had all of them.

use super::{Case, CaseId, Cause, Event, EventId, Ledger, LedgerError, Mark, cover};
use crate::finding::doubt;
use crate::finding::log::Stamped;
use chrono::{DateTime, Utc};
use rusqlite::{Connection, OptionalExtension, Row};

/// An event as it is kept, with the protocol that judged while it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The event.
    pub event: Event,
    /// The protocol.
    pub mark: Mark,
}

/// A case of which some events cannot be found any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lacking {
    /// The case.
    pub case: CaseId,
    /// The bird's name; empty where none was given.
    pub bird: String,
    /// How many events can be read.
    pub found: u64,
    /// How many there should be.
    pub expected: u64,
}

const EVENTS: &str =
    "SELECT seq, event_id, at_utc, zone_min, body, protocol, fingerprint FROM event WHERE case_id = ?1 ORDER BY seq";

/// How many events a case has by its cover, and the bird's name.
const TOLD: &str = "SELECT events, name FROM cover WHERE case_id = ?1";

/// Cases whose events are not as many as their covers say, or not numbered without a gap; the events are read where they lie,
/// past every index.
const LACKING: &str = "SELECT told.case_id, coalesce(name, ''), coalesce(found, 0), max(coalesce(events, 0), coalesce(last, 0)) FROM \
     (SELECT case_id FROM cover UNION SELECT case_id FROM event NOT INDEXED) AS told \
     LEFT JOIN cover ON cover.case_id = told.case_id \
     LEFT JOIN (SELECT case_id, count(*) AS found, max(seq) + 1 AS last FROM event NOT INDEXED GROUP BY case_id) AS own \
     ON own.case_id = told.case_id WHERE found IS NOT events OR found IS NOT last ORDER BY told.case_id";

impl Ledger {
    /// One case in full.
    ///
    /// # Errors
    /// Where there is none, the disk fails, an event cannot be read, or one is missing: a case is shown whole or not at all.
    pub fn load(&self, id: CaseId) -> Result<Case, LedgerError> {
        let log = self.events(&id)?.into_iter().map(|kept| kept.event.stamped).collect();
        Ok(Case { id, log })
    }

    /// The events of one case, as they are kept.
    ///
    /// # Errors
    /// As for a case in full.
    pub fn events(&self, id: &CaseId) -> Result<Vec<Kept>, LedgerError> {
        // One moment for all of it: another window may be writing.
        let transaction = self.connection.unchecked_transaction()?;
        let told: Option<(i64, String)> =
            transaction.prepare_cached(TOLD)?.query_row([&id.0], |row| Ok((row.get(0)?, row.get(1)?))).optional()?;
        let mut statement = transaction.prepare_cached(EVENTS)?;
        let mut rows = statement.query([&id.0])?;
        let mut kept = Vec::new();
        let mut in_order = true;
        while let Some(row) = rows.next()? {
            let event = event(row, id)?;
            in_order &= event.event.seq == kept.len() as u64;
            kept.push(event);
        }
        let found = kept.len() as u64;
        let last = kept.last().map_or(0, |last| last.event.seq + 1);
        let (events, bird) = match told {
            None if kept.is_empty() => return Err(LedgerError::NoCase(id.0.clone())),
            None => (0, String::new()),
            Some((events, bird)) => (u64::try_from(events).unwrap_or(0), cover::bare(bird)),
        };
        if !in_order || found != events {
            let expected = events.max(last);
            return Err(LedgerError::NotWhole(Box::new(Lacking { case: id.clone(), bird, found, expected })));
        }
        Ok(kept)
    }

    /// Every case that lacks an event, or its cover.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn lacking(&self) -> Result<Vec<Lacking>, LedgerError> {
        Ok(lacking(&self.connection)?)
    }
}

/// Every case of a file that lacks an event, or its cover.
pub(super) fn lacking(connection: &Connection) -> rusqlite::Result<Vec<Lacking>> {
    let count = |row: &Row, at| row.get::<_, i64>(at).map(|count| u64::try_from(count).unwrap_or(0));
    let mut statement = connection.prepare(LACKING)?;
    let rows = statement.query_map([], |row| {
        let (case, bird) = (CaseId(row.get(0)?), cover::bare(row.get(1)?));
        Ok(Lacking { case, bird, found: count(row, 2)?, expected: count(row, 3)? })
    })?;
    rows.collect()
}

fn event(row: &Row, case: &CaseId) -> Result<Kept, LedgerError> {
    let seq = row.get::<_, i64>(0)?.unsigned_abs();
    let unreadable = |cause: Cause| LedgerError::Unreadable { case: case.0.clone(), seq, cause };
    let (at, body): (String, String) = (row.get(2)?, row.get(4)?);
    let at = at.parse::<DateTime<Utc>>().map_err(|error| unreadable(Cause::said(&error)))?;
    let entry = serde_json::from_str(&body).map_err(|error| unreadable(Cause::said(&error)))?;
    let stamped = Stamped { at, entry };
    if let Some(cause) = doubt::doubt(&stamped) {
        return Err(unreadable(Cause::Doubted(cause)));
    }
    Ok(Kept {
        event: Event { id: EventId(row.get(1)?), case: case.clone(), seq, stamped, zone_min: row.get(3)? },
        mark: Mark { version: row.get(5)?, fingerprint: row.get(6)? },
    })
}
