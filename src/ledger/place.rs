//! The file a ledger was opened as: whether it is still the one at its path, and still as long as it was.
//!
//! A file that was deleted, renamed or cut short goes on taking what is written to it, and loses all of it when it is closed.

use std::fs::{self, Metadata};
use std::path::{Path, PathBuf};

/// The ledger's file and the log beside it, as they were when they were opened.
#[derive(Debug)]
pub struct Place {
    path: PathBuf,
    files: Vec<FileSeen>,
}

/// A file as it was seen last.
#[derive(Debug)]
struct FileSeen {
    path: PathBuf,
    id: Id,
    /// How long it was; nothing for a file that may grow shorter.
    length: Option<u64>,
}

/// What tells a file from any other, whatever its name: device and inode.
#[cfg(unix)]
type Id = (u64, u64);

#[cfg(unix)]
fn id(of: &Metadata) -> Id {
    use std::os::unix::fs::MetadataExt;
    (of.dev(), of.ino())
}

/// Elsewhere an open file cannot be deleted or renamed under us.
#[cfg(not(unix))]
type Id = ();

#[cfg(not(unix))]
fn id(_: &Metadata) -> Id {}

impl Place {
    /// Takes down which files stand at the path now.
    pub fn of(path: &Path) -> Self {
        let seen = |path: PathBuf, grows_only: bool| {
            let told = fs::metadata(&path).ok()?;
            Some(FileSeen { path, id: id(&told), length: grows_only.then_some(told.len()) })
        };
        // The log beside it is written over from its beginning again and again; it stays while the ledger is open.
        let beside = path.with_extension("sqlite-wal");
        let files = [seen(path.to_owned(), true), seen(beside, false)];
        Self { path: path.to_owned(), files: files.into_iter().flatten().collect() }
    }

    /// The ledger's file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Puts the log beside the ledger out of the way where another ledger, or none, stands at the path by now: it belongs to the
    /// one that was taken away, and must not be read as if it were the new one's.
    pub fn set_log_aside(&self) {
        let stands = |path: &Path| fs::metadata(path).ok().map(|told| id(&told));
        let is_other = |seen: &&FileSeen| stands(&seen.path) != Some(seen.id);
        let (Some(ledger), Some(log)) = (self.files.first(), self.files.get(1)) else { return };
        if is_other(&ledger) && !is_other(&log) {
            let name = format!("sqlite-wal.lost-{}", uuid::Uuid::now_v7());
            // What stays in the way is told by the next opening; nothing can be done about it here.
            let _ = fs::rename(&log.path, self.path.with_extension(name));
            let _ = fs::remove_file(self.path.with_extension("sqlite-shm"));
        }
    }

    /// Whether the same files still stand there, none shorter than before.
    pub fn is_as_it_was(&mut self) -> bool {
        self.files.iter_mut().all(|seen| {
            let Ok(told) = fs::metadata(&seen.path) else { return false };
            let whole = id(&told) == seen.id && seen.length.is_none_or(|before| told.len() >= before);
            if let (true, Some(length)) = (whole, &mut seen.length) {
                *length = told.len();
            }
            whole
        })
    }
}
