//! Covers made anew where another protocol made them, or none did, and the birds that wait for a look.

use crate::care::cupboard::Cupboard;
use crate::days::cover::cover;
use crate::days::due::{self, Waiting};
use crate::ledger::{Ledger, LedgerError};
use crate::protocol::Protocol;
use chrono::{DateTime, TimeDelta, Utc};

/// How many covers are made anew at a time.
const BATCH: usize = 100;
/// How far ahead a bird waits for a look.
const SOON: TimeDelta = TimeDelta::hours(24);
/// How many birds that wait are told of.
const WAITING: usize = 30;

/// What is in the house, as it was kept.
pub fn cupboard(ledger: &Ledger) -> Result<Cupboard, LedgerError> {
    Ok(ledger.cupboard()?.map(|kept| Cupboard::recall(&kept)).unwrap_or_default())
}

/// Makes anew what another protocol wrote on the covers, or what came in from another ledger.
pub fn renew(ledger: &mut Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<(), LedgerError> {
    let cupboard = cupboard(ledger)?;
    loop {
        let doubted = ledger.doubted(&protocol.fingerprint, BATCH)?;
        for id in &doubted {
            let case = ledger.load(id.clone())?;
            let made = cover(protocol, &case.log, &cupboard, now);
            match ledger.cover_anew(id, &made, &protocol.fingerprint) {
                // Where nothing can be written the old covers are shown.
                Err(LedgerError::ReadOnly) => return Ok(()),
                other => other?,
            }
        }
        if doubted.len() < BATCH {
            return Ok(());
        }
    }
}

/// The birds that wait for a look now or within a day, the soonest first, each with what was missed.
pub fn waiting(ledger: &Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<Vec<Waiting>, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let mut waiting = Vec::new();
    for covered in ledger.due_before(now + SOON, WAITING)? {
        waiting.extend(due::waiting(protocol, &ledger.load(covered.id)?, &cupboard, now));
    }
    waiting.sort_by_key(|waiting| waiting.at);
    Ok(waiting)
}
