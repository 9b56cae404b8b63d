//! Covers made anew where another protocol made them, other words said them, or none did, and the birds that wait for a look.

use crate::care::cupboard::Cupboard;
use crate::days::cover::cover;
use crate::days::due::{self, Running, Waiting, Waits};
use crate::finding::log::Stamped;
use crate::ledger::{Anew, Cover, Covered, Ledger, LedgerError, Setting};
use crate::phrase::{Text, days as phrase};
use crate::protocol::Protocol;
use crate::words::{Words, english, say};
use crate::zone::Zone;
use chrono::{DateTime, TimeDelta, Utc};

/// How many covers are made anew at a time.
const BATCH: usize = 100;
/// How far ahead a bird waits for a look.
const SOON: TimeDelta = TimeDelta::hours(24);
/// How far ahead her tests are told.
const NEAR: TimeDelta = TimeDelta::minutes(15);
/// How many birds that are overdue are told of by name; those to come are told of all.
const WAITING: usize = 30;

/// How many clocks are told of, and since when one that ran out still is.
const CLOCKS: usize = 20;
const OF_LATE: TimeDelta = TimeDelta::hours(2);

/// By which protocol covers are worked out, and in which words they are said.
#[derive(Clone, Copy, Debug)]
pub struct CoverMaker<'p> {
    /// The protocol.
    pub protocol: &'p Protocol,
    /// The words.
    pub words: &'p Words,
    /// The zone whose nights count.
    pub zone: Zone,
}

impl CoverMaker<'_> {
    /// The cover of a case as it stands now.
    pub fn cover(self, log: &[Stamped], cupboard: &Cupboard, now: DateTime<Utc>) -> Cover {
        let words = self.words.mark().to_owned();
        Cover { words, ..cover(self.protocol, log, cupboard, self.zone, now, &|text| self.say(text)) }
    }

    /// How soon she needs a vet, of a bird whose case cannot be read: what was told of her last still counts.
    fn unread(self, before: Cover) -> Cover {
        let unread = self.say(phrase::unread());
        let told = |said: &str| before.need.contains(said);
        let need = match before.need.as_str() {
            "" => unread,
            need if told(&unread) || told(&english(phrase::unread())) => need.to_owned(),
            need => self.say(phrase::unread_last(phrase::unread(), Text::typed(need))),
        };
        Cover { need, words: self.words.mark().to_owned(), ..before }
    }

    /// A cover holds no moment, so any clock will do.
    fn say(self, text: impl Into<Text>) -> String {
        say(self.words, Zone::UTC, &text.into())
    }
}

/// What is in the house, as it was kept.
pub fn cupboard(ledger: &Ledger) -> Result<Cupboard, LedgerError> {
    Ok(ledger.setting(Setting::Cupboard)?.map(|kept| Cupboard::recall(&kept)).unwrap_or_default())
}

/// Makes anew some of what another protocol or other words wrote on the covers, or what came in from another ledger; tells whether more waits.
pub fn renew_some(ledger: &mut Ledger, maker: CoverMaker, now: DateTime<Utc>) -> Result<bool, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let doubted = ledger.doubted(&maker.protocol.fingerprint, maker.words.mark(), BATCH)?;
    let mut made = Vec::with_capacity(doubted.len());
    for covered in doubted {
        let Covered { id, events, cover: before, .. } = covered;
        made.push(match ledger.load(id.clone()) {
            Ok(case) => Anew { case: id, events: case.log.len() as u64, cover: maker.cover(&case.log, &cupboard, now) },
            // One case that cannot be read hides no other; what its cover said of her stays.
            Err(LedgerError::Unreadable { .. } | LedgerError::NotWhole(_)) => {
                Anew { case: id, events, cover: maker.unread(before) }
            }
            Err(error) => return Err(error),
        });
    }
    match ledger.cover_anew(&made, &maker.protocol.fingerprint) {
        // Where nothing can be written the old covers are shown.
        Err(LedgerError::ReadOnly) => Ok(false),
        other => other.map(|put| put > 0 && made.len() == BATCH),
    }
}

/// Makes all of them anew.
pub fn renew(ledger: &mut Ledger, maker: CoverMaker, now: DateTime<Utc>) -> Result<(), LedgerError> {
    while renew_some(ledger, maker, now)? {}
    Ok(())
}

/// The birds that wait for a look: the longest overdue, and apart from them every one whose look comes within a day, so that
/// however many are overdue, no other bird's look goes by in silence.
pub fn waiting(ledger: &Ledger, maker: CoverMaker, now: DateTime<Utc>) -> Result<Waits, LedgerError> {
    let cupboard = cupboard(ledger)?;
    let overdue = ledger.due_before(now, WAITING)?;
    let more_overdue = ledger.count_due(now)?.saturating_sub(overdue.len());
    let mut birds = Vec::new();
    for covered in overdue {
        match ledger.load(covered.id.clone()) {
            Ok(case) => birds.extend(due::waiting(maker.protocol, &case, &cupboard, maker.zone, now)),
            // Her case cannot be shown; that she waits is known from its cover all the same.
            Err(LedgerError::Unreadable { .. } | LedgerError::NotWhole(_)) => birds.extend(by_cover(covered)),
            Err(error) => return Err(error),
        }
    }
    for covered in ledger.due_between(now, now + SOON)? {
        // Of a look that is near the tests that come with it are told, too: those her log alone tells.
        let near = covered.cover.due.is_some_and(|due| due <= now + NEAR);
        let case = near.then(|| ledger.load(covered.id.clone()));
        match case {
            Some(Ok(case)) => {
                let told = due::waiting(maker.protocol, &case, &cupboard, maker.zone, now);
                let tests = told.map(|told| told.tests).unwrap_or_default();
                birds.extend(by_cover(covered).map(|own| Waiting { tests, ..own }));
            }
            Some(Err(LedgerError::Unreadable { .. } | LedgerError::NotWhole(_))) | None => {
                birds.extend(by_cover(covered));
            }
            Some(Err(error)) => return Err(error),
        }
    }
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
    Some(Waiting {
        case: id,
        bird: bird(cover),
        at: due?,
        next: None,
        last: None,
        unexamined: false,
        tests: Vec::new(),
    })
}
