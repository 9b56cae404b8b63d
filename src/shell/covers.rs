//! Covers made anew where another protocol made them, or none did, and the birds that wait for a look.

use crate::care::cupboard::Cupboard;
use crate::days::cover::cover;
use crate::days::due::{self, Running, Waiting, Waits};
use crate::ledger::{Anew, Cover, Covered, Ledger, LedgerError, Setting};
use crate::phrase::{Text, days as phrase};
use crate::protocol::Protocol;
use crate::words::english;
use chrono::{DateTime, TimeDelta, Utc};

/// How many covers are made anew at a time.
const BATCH: usize = 100;
/// How far ahead a bird waits for a look.
const SOON: TimeDelta = TimeDelta::hours(24);
/// How many birds that are overdue are told of by name; those to come are told of all.
const WAITING: usize = 30;

/// How many clocks are told of, and since when one that ran out still is.
const CLOCKS: usize = 20;
const OF_LATE: TimeDelta = TimeDelta::hours(2);

/// What is told of a bird whose case cannot be read.
const UNREAD: &str = "cannot be read here";

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
            Ok(case) => Anew {
                case: id,
                events: case.log.len() as u64,
                cover: cover(protocol, &case.log, &cupboard, now, &english),
            },
            // One case that cannot be read hides no other; what its cover said of her stays.
            Err(LedgerError::Unreadable { .. } | LedgerError::NotWhole(_)) => {
                Anew { case: id, events, cover: Cover { need: unread(&before.need), ..before } }
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

/// How soon she needs a vet, of a bird whose case cannot be read: what was told of her last still counts.
fn unread(before: &str) -> String {
    match before {
        "" => UNREAD.to_owned(),
        told if told.starts_with(UNREAD) => told.to_owned(),
        told => format!("{UNREAD}; last told: {told}"),
    }
}

/// Makes all of them anew.
pub fn renew(ledger: &mut Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<(), LedgerError> {
    while renew_some(ledger, protocol, now)? {}
    Ok(())
}

/// The birds that wait for a look: the longest overdue, and apart from them every one whose look comes within a day, so that
/// however many are overdue, no other bird's look goes by in silence.
pub fn waiting(ledger: &Ledger, protocol: &Protocol, now: DateTime<Utc>) -> Result<Waits, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let overdue = ledger.due_before(now, WAITING)?;
    let more_overdue = ledger.count_due(now)?.saturating_sub(overdue.len());
    let mut birds = Vec::new();
    for covered in overdue {
        match ledger.load(covered.id.clone()) {
            Ok(case) => birds.extend(due::waiting(protocol, &case, &cupboard, now)),
            // Her case cannot be shown; that she waits is known from its cover all the same.
            Err(LedgerError::Unreadable { .. } | LedgerError::NotWhole(_)) => birds.extend(by_cover(covered)),
            Err(error) => return Err(error),
        }
    }
    birds.extend(ledger.due_between(now, now + SOON)?.into_iter().filter_map(by_cover));
    birds.sort_by_key(|waiting| waiting.at);
    let clocks = ledger.clocks(now - OF_LATE, CLOCKS)?.into_iter().filter_map(running).collect();
    Ok(Waits { birds, more_overdue, clocks })
}

/// The clock that runs for a bird, as her cover tells of it.
fn running(covered: Covered) -> Option<Running> {
    let Covered { id, begun, mut cover, .. } = covered;
    let clock = cover.clock.take()?;
    Some(Running { case: Some(id), begun, bird: bird(cover), what: Text::typed(clock.what), ends_at: clock.ends_at })
}

/// What a bird is called, by her cover.
fn bird(cover: Cover) -> Text {
    let told = [cover.name, cover.kind].into_iter().find(|words| !words.is_empty());
    told.map_or_else(|| phrase::not_named().into(), Text::typed)
}

/// A bird that waits, as her cover tells of her.
fn by_cover(covered: Covered) -> Option<Waiting> {
    let Covered { id, cover, .. } = covered;
    let due = cover.due;
    Some(Waiting { case: id, bird: bird(cover), at: due?, next: None, missed: 0, unexamined: false })
}
