//! The clock of a bird that does not lie open here, ended in her own log.

use super::covers::{self, CoverMaker};
use crate::days::Days;
use crate::days::cover::clock;
use crate::finding::log::{Entry, Stamped};
use crate::ledger::{CaseId, Event, EventId, Kept, Ledger, LedgerError, Mark};
use chrono::{DateTime, Utc};

/// A clock that a person ended.
#[derive(Debug)]
pub struct Ended {
    /// The case of its bird.
    pub case: CaseId,
    /// When its time was up: another one that runs for her by now is left alone.
    pub ends_at: DateTime<Utc>,
    /// When it was ended.
    pub at: DateTime<Utc>,
    /// The wall clock's distance from UTC then, in minutes.
    pub zone_min: i32,
}

/// Ends it, and gives back the case as it is kept from then on. Nothing where another window ended it, or goes on with her.
///
/// # Errors
/// Where her case cannot be read, or the disk refuses.
pub fn end(
    ledger: &mut Ledger,
    maker: CoverMaker,
    mark: &Mark,
    ended: &Ended,
) -> Result<Option<Vec<Kept>>, LedgerError> {
    let events = ledger.events(&ended.case)?;
    let mut log: Vec<Stamped> = events.iter().map(|kept| kept.event.stamped.clone()).collect();
    let runs = clock(maker.protocol, &log, &Days::of(&log));
    if runs.is_none_or(|clock| clock.ends_at != ended.ends_at) {
        return Ok(None);
    }
    let stamped = Stamped { at: ended.at, entry: Entry::ClockEnded };
    log.push(stamped.clone());
    let (case, seq, zone_min) = (ended.case.clone(), events.len() as u64, ended.zone_min);
    let event = Event { id: EventId::new(), case, seq, stamped, zone_min };
    let cover = maker.cover(&log, &covers::cupboard(ledger)?, ended.at);
    match ledger.append(&event, mark, &cover) {
        // Whoever wrote there first has her in hand.
        Err(LedgerError::Clash) => Ok(None),
        Err(error) => Err(error),
        Ok(()) => ledger.events(&ended.case).map(Some),
    }
}
