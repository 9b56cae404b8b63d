//! What the ledger could not take, written elsewhere, so that nothing is lost.

use crate::ledger::{Event, Mark, carry_aside};
use crate::protocol::Protocol;
use chrono::{DateTime, Utc};
use std::fs::File;
use std::io::BufWriter;
use std::path::{Path, PathBuf};

/// Writes events that the ledger refused beside the user's own files, or where else there is room, and says where.
pub fn rescue(
    protocol: &Protocol,
    ledger: &Path,
    events: &[Event],
    caution: &str,
    now: DateTime<Utc>,
) -> Option<PathBuf> {
    // The moment stands in the name: what was rescued of this bird before is never in the way.
    let name = format!("coopside-not-kept-{}-{}.jsonl", events.first()?.case.short(), now.format("%Y%m%d-%H%M%S-%3f"));
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let home = etcetera::home_dir().ok();
    let here = std::env::current_dir().ok();
    let places = home.into_iter().chain(here).chain([std::env::temp_dir()]);
    places.filter(|place| !ledger.starts_with(place) || place != ledger).map(|place| place.join(&name)).find(|path| {
        let Ok(file) = File::options().write(true).create_new(true).open(path) else { return false };
        let write = || {
            let mut out = BufWriter::new(file);
            carry_aside(events, &mark, caution, &mut out).ok()?;
            out.into_inner().ok()?.sync_all().ok()
        };
        let written = write().is_some();
        if !written {
            // Half a file is no rescue; it is our own, made a moment ago.
            let _ = std::fs::remove_file(path);
        }
        written
    })
}
