//! What the ledger could not take, written elsewhere, so that nothing is lost.

use crate::ledger::{Event, Mark, carry_aside};
use crate::protocol::Protocol;
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

/// Writes events that the ledger refused beside the user's own files, or where else there is room, and says where.
pub fn rescue(protocol: &Protocol, ledger: &Path, events: &[Event], caution: &str) -> Option<PathBuf> {
    let name = format!("coopside-not-kept-{}.jsonl", events.first()?.case.short());
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let home = etcetera::home_dir().ok();
    let here = std::env::current_dir().ok();
    let places = home.into_iter().chain(here).chain([std::env::temp_dir()]);
    places.filter(|place| !ledger.starts_with(place) || place != ledger).map(|place| place.join(&name)).find(|path| {
        let written = File::options().write(true).create_new(true).open(path).ok().and_then(|file| {
            let mut out = BufWriter::new(file);
            carry_aside(events, &mark, caution, &mut out).ok()?;
            out.into_inner().ok()?.sync_all().ok()
        });
        written.is_some()
    })
}
