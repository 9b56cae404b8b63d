//! The practice flock, loaded on request into a ledger of its own that says what it is; never into the real one.

use super::command::path;
use super::covers::CoverMaker;
use super::examine;
use super::exit::Refusal;
use super::here::here;
use super::options::{Opened, Options};
use crate::care::cupboard::Cupboard;
use crate::finding::log::Stamped;
use crate::ledger::{self, CaseId, Event, EventId, Filter, Ledger, Mark, Setting};
use crate::phrase::cases as phrase;
use crate::practice::flock;
use anyhow::{Result, anyhow};
use chrono::{DateTime, Utc};
use std::path::Path;
use std::process::ExitCode;

/// The folder of the practice ledger, in the ledger's own.
pub const FOLDER: &str = "practice";

/// Opens the examination on the practice flock, which is made where there is none yet. `afresh` makes one more beside
/// it: what was practised on the birds before stays.
pub fn open(options: &Options, afresh: bool) -> Result<ExitCode> {
    let real = options.folder()?;
    let folder = real.join(FOLDER);
    let Opened { protocol, words } = options.open()?;
    load(CoverMaker { protocol: &protocol, words, zone: here() }, &folder, afresh)?;
    let is_known = |id: &String| protocol.countries.iter().any(|country| *country.id.as_str() == **id);
    let kept = kept_country(&real).filter(is_known);
    let country = options.country.clone().or(kept);
    examine::examine(&Options { data: Some(folder), country, ..options.clone() }, false, None)
}

/// The country that is set for real birds: practice is held to the same law.
pub fn kept_country(folder: &Path) -> Option<String> {
    if !ledger::is_there(folder).ok()? {
        return None;
    }
    Ledger::read(folder).ok()?.setting(Setting::Country).ok()?
}

fn load(maker: CoverMaker, folder: &Path, afresh: bool) -> Result<()> {
    let there = ledger::is_there(folder)?;
    let mut ledger = Ledger::open(folder)?;
    let all = Filter { closed: true, archived: true, ..Filter::default() };
    if there && ledger.setting(Setting::Practice)?.is_none() && ledger.count(&all)? > 0 {
        return Err(Refusal::Data(phrase::not_for_practice(path(folder)).into()).into());
    }
    ledger.set(Setting::Practice, "yes")?;
    if ledger.count(&all)? > 0 && !afresh {
        return Ok(());
    }
    let protocol = maker.protocol;
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let now = Utc::now();
    for log in flock(protocol, now).map_err(|faults| anyhow!("{faults}"))? {
        keep(&mut ledger, maker, &mark, &log, now)?;
    }
    Ok(())
}

fn keep(ledger: &mut Ledger, maker: CoverMaker, mark: &Mark, log: &[Stamped], now: DateTime<Utc>) -> Result<()> {
    let case = CaseId::new();
    for (seq, stamped) in (0..).zip(log) {
        let event = Event { id: EventId::new(), case: case.clone(), seq, stamped: stamped.clone(), zone_min: 0 };
        ledger.append(&event, mark, &maker.cover(log, &Cupboard::default(), now))?;
    }
    Ok(())
}
