//! Cases carried out of a ledger and into one, as JSON lines: one event a line, nothing lost, and carried twice is carried once.

use super::fault::is_taken;
use super::{BODY_SCHEMA, CaseId, Cause, Event, INSERT, Ledger, LedgerError, Mark};
use crate::finding::doubt::{self, Doubted, MOST_WOUNDS, has_control};
use crate::finding::log::{self, Entry, Stamped};
use chrono::{DateTime, Utc};
use rusqlite::{TransactionBehavior, params};
use serde::{Deserialize, Serialize};
use std::io::{self, BufRead, Write};

/// The schema of the first line.
pub const SCHEMA: &str = "coopside.events/1";
/// The longest line that is read: a case's event is far shorter.
const LONGEST: u64 = 1 << 20;

/// The first line.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    schema: String,
    caution: String,
    reviewed_by_a_veterinarian: bool,
    /// How many lines follow: a file that ends in the middle is known for it.
    events: u64,
}

/// An event as a line.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ExportLine {
    case: String,
    seq: u64,
    event: String,
    at: DateTime<Utc>,
    zone_min: i32,
    schema: i64,
    body: Entry,
    protocol: String,
    fingerprint: String,
}

/// What came of carrying cases in.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Carried {
    /// How many events were new.
    pub new: u64,
    /// How many were there already.
    pub known: u64,
    /// The cases with something new.
    pub cases: Vec<CaseId>,
}

/// What is wrong with a line; `content::kept` tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CarryFault {
    /// The file is empty.
    Empty,
    /// It follows another schema.
    Schema(String),
    /// A newer Coopside wrote the event's body, in this shape.
    Newer(i64),
    /// A case lacks events between those that are there.
    Gap(String),
    /// A case tells of more wounds than one bird has.
    Wounds(String, usize),
    /// A name holds what no ledger writes.
    Name,
    /// No examination can have said it.
    Doubted(Doubted),
    /// It is longer than any event.
    TooLong,
    /// It is no text.
    NotText,
    /// It cannot be read: what the reader of JSON says, in its own words, and at which letter, from 1.
    Unread(String, usize),
}

/// Why a file was not carried in. Nothing was changed.
#[derive(Debug, thiserror::Error)]
pub enum CarryError {
    /// A line is not what it must be.
    #[error("{self:?}")]
    Line {
        /// Its number, from 1.
        line: u64,
        /// What is wrong.
        what: CarryFault,
    },
    /// The file ends early or goes on too long.
    #[error("{self:?}")]
    NotWhole {
        /// How many its first line tells of.
        told: u64,
        /// How many it holds.
        found: u64,
    },
    /// The ledger has gone on differently.
    #[error("{self:?}")]
    Differs {
        /// Its number, from 1.
        line: u64,
        /// The case.
        case: String,
    },
    /// The file cannot be read, or the other one written.
    #[error(transparent)]
    Io(#[from] io::Error),
    /// The ledger.
    #[error(transparent)]
    Ledger(#[from] LedgerError),
}

impl From<rusqlite::Error> for CarryError {
    fn from(error: rusqlite::Error) -> Self {
        Self::Ledger(error.into())
    }
}

impl Ledger {
    /// Writes a case, or all of them, in the order they were kept. Returns how many events that were.
    ///
    /// # Errors
    /// Where the disk fails or an event cannot be read.
    pub fn carry_out(&mut self, case: Option<&CaseId>, caution: &str, out: &mut impl Write) -> Result<u64, CarryError> {
        // One transaction, so that the count and the lines tell of the same moment.
        let transaction = self.connection.transaction()?;
        let wanted = case.map(CaseId::as_str);
        let count: i64 =
            transaction
                .query_row("SELECT count(*) FROM event WHERE ?1 IS NULL OR case_id = ?1", [wanted], |row| row.get(0))?;
        let head = Head {
            schema: SCHEMA.to_owned(),
            caution: caution.to_owned(),
            reviewed_by_a_veterinarian: false,
            events: u64::try_from(count).unwrap_or(0),
        };
        line(out, &head)?;
        let mut statement = transaction.prepare(
            "SELECT case_id, seq, event_id, at_utc, zone_min, schema, body, protocol, fingerprint FROM event \
             WHERE ?1 IS NULL OR case_id = ?1 ORDER BY rowid",
        )?;
        let mut rows = statement.query([wanted])?;
        while let Some(row) = rows.next()? {
            let seq = u64::try_from(row.get::<_, i64>(1)?).unwrap_or(0);
            let case: String = row.get(0)?;
            let unreadable = |cause: Cause| LedgerError::Unreadable { case: case.clone(), seq, cause };
            let (at, body): (String, String) = (row.get(3)?, row.get(6)?);
            let told = ExportLine {
                case: case.clone(),
                seq,
                event: row.get(2)?,
                at: at.parse().map_err(|error: chrono::ParseError| unreadable(Cause::said(&error)))?,
                zone_min: row.get(4)?,
                schema: row.get(5)?,
                body: serde_json::from_str(&body).map_err(|error| unreadable(Cause::said(&error)))?,
                protocol: row.get(7)?,
                fingerprint: row.get(8)?,
            };
            line(out, &told)?;
        }
        out.flush()?;
        Ok(head.events)
    }

    /// Takes in what was carried out of another ledger, or of this one: all of it or nothing. Covers are made anew afterwards.
    ///
    /// # Errors
    /// Where a line is wrong, the file is not whole, or a case has gone on differently here.
    pub fn carry_in(&mut self, from: &mut impl BufRead) -> Result<Carried, CarryError> {
        self.still_there()?;
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut carried = Carried::default();
        let mut lines = ExportLines { from, number: 0 };
        let head: Head = match lines.next()? {
            Some(text) => lines.read(&text)?,
            None => return Err(CarryError::Line { line: 1, what: CarryFault::Empty }),
        };
        if head.schema != SCHEMA {
            return Err(CarryError::Line { line: 1, what: CarryFault::Schema(head.schema) });
        }
        let mut found = 0;
        while let Some(text) = lines.next()? {
            let (told, number): (ExportLine, u64) = (lines.read(&text)?, lines.number);
            if told.schema != BODY_SCHEMA {
                return Err(CarryError::Line { line: number, what: CarryFault::Newer(told.schema) });
            }
            if take_in(&transaction, &told, number)? {
                carried.new += 1;
                if !carried.cases.iter().any(|case| case.0 == told.case) {
                    carried.cases.push(CaseId(told.case));
                }
            } else {
                carried.known += 1;
            }
            found += 1;
        }
        if found != head.events {
            return Err(CarryError::NotWhole { told: head.events, found });
        }
        for case in &carried.cases {
            if transaction.query_row(GAPS, [case.as_str()], |row| row.get(0))? {
                let what = CarryFault::Gap(case.0.clone());
                return Err(CarryError::Line { line: lines.number, what });
            }
            let wounds = wounds(&transaction, case)?;
            if wounds > MOST_WOUNDS {
                let what = CarryFault::Wounds(case.0.clone(), wounds);
                return Err(CarryError::Line { line: lines.number, what });
            }
            transaction.execute(COVER, [case.as_str()])?;
        }
        transaction.commit()?;
        self.still_there()?;
        Ok(carried)
    }
}

/// Writes events that no ledger has taken yet, for one to take in later. Of one case they may be only the last.
///
/// # Errors
/// Where they cannot be written.
pub fn carry_aside(events: &[Event], mark: &Mark, caution: &str, out: &mut impl Write) -> io::Result<()> {
    let head = Head {
        schema: SCHEMA.to_owned(),
        caution: caution.to_owned(),
        reviewed_by_a_veterinarian: false,
        events: events.len() as u64,
    };
    line(out, &head)?;
    for event in events {
        let told = ExportLine {
            case: event.case.0.clone(),
            seq: event.seq,
            event: event.id.0.clone(),
            at: event.stamped.at,
            zone_min: event.zone_min,
            schema: BODY_SCHEMA,
            body: event.stamped.entry.clone(),
            protocol: mark.version.clone(),
            fingerprint: mark.fingerprint.clone(),
        };
        line(out, &told)?;
    }
    out.flush()
}

/// Whether a case lacks an event before its last.
const GAPS: &str = "SELECT count(*) <> max(seq) + 1 FROM event WHERE case_id = ?1";

/// How many wounds a case comes to, by all that stands in it: found, or spoken of.
fn wounds(transaction: &rusqlite::Transaction, case: &CaseId) -> Result<usize, CarryError> {
    let mut statement = transaction.prepare_cached("SELECT body FROM event WHERE case_id = ?1 ORDER BY seq")?;
    let bodies = statement.query_map([case.as_str()], |row| row.get::<_, String>(0))?;
    let mut log = Vec::new();
    for body in bodies {
        let entry = serde_json::from_str(&body?).map_err(|error| LedgerError::Disk(Cause::said(&error)))?;
        log.push(Stamped { at: DateTime::UNIX_EPOCH, entry });
    }
    Ok(log::findings(&log::standing(&log)).wounds())
}

/// Makes an empty cover for a case from its events, or counts them anew; what it says is worked out by whoever can judge.
const COVER: &str = "INSERT INTO cover (case_id, begun_utc, last_utc, events, name, kind, need, due_utc, state, archived, fingerprint) \
     SELECT case_id, min(at_utc), max(at_utc), count(*), '', '', '', NULL, 'open', 0, '' FROM event WHERE case_id = ?1 \
     GROUP BY case_id \
     ON CONFLICT (case_id) DO UPDATE SET last_utc = excluded.last_utc, events = excluded.events, fingerprint = ''";

/// The longest name of a case, an event or a protocol, in letters.
const LONGEST_NAME: usize = 200;

/// Why a line cannot have come out of a ledger; nothing where it can.
fn doubted(told: &ExportLine) -> Option<CarryFault> {
    let names = [&told.case, &told.event, &told.protocol, &told.fingerprint];
    if names.iter().any(|name| has_control(name) || name.chars().count() > LONGEST_NAME) {
        return Some(CarryFault::Name);
    }
    doubt::doubt(&Stamped { at: told.at, entry: told.body.clone() }).map(CarryFault::Doubted)
}

/// Whether the event was new; where it is there already, it must be the same.
fn take_in(transaction: &rusqlite::Transaction, told: &ExportLine, number: u64) -> Result<bool, CarryError> {
    if let Some(what) = doubted(told) {
        return Err(CarryError::Line { line: number, what });
    }
    let body = serde_json::to_string(&told.body).map_err(|error| LedgerError::Disk(Cause::said(&error)))?;
    let seq = i64::try_from(told.seq).unwrap_or(i64::MAX);
    let differs = || CarryError::Differs { line: number, case: told.case.clone() };
    let kept = transaction.prepare_cached(INSERT)?.execute(params![
        told.case,
        seq,
        told.event,
        told.at.to_rfc3339(),
        told.zone_min,
        told.body.kind().name,
        told.schema,
        body,
        told.protocol,
        told.fingerprint,
    ]);
    match kept {
        Ok(_) => Ok(true),
        Err(error) if is_taken(&error) => {
            let same: i64 = transaction
                .prepare_cached(
                    "SELECT count(*) FROM event WHERE case_id = ?1 AND seq = ?2 AND event_id = ?3 AND body = ?4",
                )?
                .query_row(params![told.case, seq, told.event, body], |row| row.get(0))?;
            if same == 1 { Ok(false) } else { Err(differs()) }
        }
        Err(error) => Err(error.into()),
    }
}

fn line(out: &mut impl Write, told: &impl Serialize) -> io::Result<()> {
    serde_json::to_writer(&mut *out, told)?;
    out.write_all(b"\n")
}

/// The lines of a file, counted as an editor counts them.
struct ExportLines<'r, R> {
    from: &'r mut R,
    /// The number of the line read last, from 1.
    number: u64,
}

impl<R: BufRead> ExportLines<'_, R> {
    /// The next line that is not empty. One that is too long or no text is refused before it fills the memory.
    fn next(&mut self) -> Result<Option<String>, CarryError> {
        loop {
            let mut bytes = Vec::new();
            let length = io::Read::take(&mut *self.from, LONGEST).read_until(b'\n', &mut bytes)?;
            if length == 0 {
                return Ok(None);
            }
            self.number += 1;
            if bytes.len() as u64 == LONGEST {
                return Err(self.wrong(CarryFault::TooLong));
            }
            let text = String::from_utf8(bytes).map_err(|_| self.wrong(CarryFault::NotText))?;
            if !text.trim().is_empty() {
                return Ok(Some(text));
            }
        }
    }

    /// Reads the line that came last.
    fn read<T: for<'de> Deserialize<'de>>(&self, text: &str) -> Result<T, CarryError> {
        serde_json::from_str(text).map_err(|error| {
            // A line of its own is always line 1 to the reader of JSON; here it has another number.
            let what = error.to_string();
            let before = text.as_bytes().get(..error.column()).unwrap_or(text.as_bytes());
            let column = String::from_utf8_lossy(before).chars().count();
            let what = what.split(" at line ").next().unwrap_or_default();
            self.wrong(CarryFault::Unread(what.to_owned(), column))
        })
    }

    fn wrong(&self, what: CarryFault) -> CarryError {
        CarryError::Line { line: self.number, what }
    }
}
