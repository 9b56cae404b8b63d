//! Covers made anew where another protocol made them, or none did, and the birds that wait for a look.

use crate::care::cupboard::Cupboard;
use crate::days::cover::cover;
use crate::days::due::{self, Waiting};
use crate::ledger::{Anew, Cover, Covered, Ledger, LedgerError, Setting};
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
    Ok(ledger.setting(Setting::Cupboard)?.map(|kept| Cupboard::recall(&kept)).unwrap_or_default())
}

/// Makes anew some of what another protocol wrote on the covers, or what came in from another ledger; tells whether more waits.
pub fn renew_some(ledger: &mut Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<bool, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let doubted = ledger.doubted(&protocol.fingerprint, BATCH)?;
    let mut made = Vec::with_capacity(doubted.len());
    for covered in doubted {
        let Covered { id, events, cover: before, .. } = covered;
        made.push(match ledger.load(id.clone()) {
            Ok(case) => {
                Anew { case: id, events: case.log.len() as u64, cover: cover(protocol, &case.log, &cupboard, now) }
            }
            // One case that cannot be read hides no other; what its cover said of her stays.
            Err(LedgerError::Unreadable { .. }) => {
                Anew { case: id, events, cover: Cover { need: "cannot be read here".into(), ..before } }
            }
            Err(error) => return Err(error),
        });
    }
    match ledger.cover_anew(&made, &protocol.fingerprint) {
        // Where nothing can be written the old covers are shown.
        Err(LedgerError::ReadOnly) => Ok(false),
        other => other.map(|put| put > 0 && made.len() == BATCH),
    }
}

/// Makes all of them anew.
pub fn renew(ledger: &mut Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<(), LedgerError> {
    while renew_some(ledger, protocol, now)? {}
    Ok(())
}

/// The birds that wait for a look now or within a day, the soonest first, each with what was missed.
pub fn waiting(ledger: &Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<Vec<Waiting>, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let mut waiting = Vec::new();
    for covered in ledger.due_before(now + SOON, WAITING)? {
        match ledger.load(covered.id) {
            Ok(case) => waiting.extend(due::waiting(protocol, &case, &cupboard, now)),
            Err(LedgerError::Unreadable { .. }) => {}
            Err(error) => return Err(error),
        }
    }
    waiting.sort_by_key(|waiting| waiting.at);
    Ok(waiting)
}
