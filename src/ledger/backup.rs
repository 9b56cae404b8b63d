//! Backups: whole copies beside the ledger, each opened and counted before it is believed, the older ones thinned out.

use super::{Cause, FILE, Ledger, LedgerError, opening, schema};
use chrono::{DateTime, Datelike, NaiveDate, NaiveDateTime, TimeDelta, Utc};
use rusqlite::Connection;
use std::collections::BTreeSet;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

/// The folder of the backups, in the ledger's own.
pub const FOLDER: &str = "backups";
/// How a backup's name begins.
const STEM: &str = "coopside-";
/// The moment in a backup's name.
const MOMENT: &str = "%Y%m%d-%H%M%S";
/// How many of the newest are kept whatever their day, then one a day, then one a week.
pub const NEWEST: usize = 3;
/// For how many days the last backup of the day is kept.
pub const DAYS: usize = 7;
/// For how many weeks the last backup of the week is kept.
pub const WEEKS: usize = 4;

/// A backup that was opened, checked and counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Backup {
    /// Where it stands.
    pub path: PathBuf,
    /// When it was made.
    pub at: DateTime<Utc>,
    /// How many events it holds.
    pub events: u64,
    /// How many of its cases lack an event.
    pub lacking: usize,
}

impl Ledger {
    /// Makes a backup, opens it again to check it, and thins out the older ones.
    ///
    /// # Errors
    /// Where it cannot be written, or does not hold what the ledger holds.
    pub fn back_up(&self, now: DateTime<Utc>) -> Result<Backup, LedgerError> {
        let backup = copy(&self.connection, &self.folder.join(FOLDER), now)?;
        thin_out(&self.folder.join(FOLDER), now);
        Ok(backup)
    }

    /// Whether anything was ever kept.
    ///
    /// # Errors
    /// Where the disk fails.
    pub fn holds_events(&self) -> Result<bool, LedgerError> {
        Ok(events(&self.connection)? > 0)
    }

    /// Makes a backup where the last one is a day old and something has been kept since.
    ///
    /// # Errors
    /// As for a backup.
    pub fn back_up_daily(&self, now: DateTime<Utc>) -> Result<Option<Backup>, LedgerError> {
        let events = events(&self.connection)?;
        let mut names = names(&self.folder.join(FOLDER));
        // A clock that was wrong once may have dated one ahead; that is no reason to make none until then.
        names.retain(|(at, _)| *at <= now);
        let newest = names.pop();
        let fresh = newest.as_ref().is_some_and(|(at, _)| now - *at < TimeDelta::hours(24));
        if events == 0
            || fresh
            || newest.is_some_and(|(at, path)| checked(&path, at).is_some_and(|b| b.events == events))
        {
            return Ok(None);
        }
        self.back_up(now).map(Some)
    }
}

/// A copy of tables that are about to be changed.
pub(super) fn before_migration(connection: &Connection, folder: &Path) -> Result<(), LedgerError> {
    copy(connection, &folder.join(FOLDER), Utc::now()).map(|_| ())
}

/// The good backups in a folder, the oldest first. Every one is opened and checked.
pub fn good(folder: &Path) -> Vec<Backup> {
    names(&folder.join(FOLDER)).into_iter().filter_map(|(at, path)| checked(&path, at)).collect()
}

/// Puts a backup in the ledger's place. What stood there is kept beside it, under a name that says when.
///
/// # Errors
/// Where a window is open, or the files cannot be moved.
pub fn restore(folder: &Path, backup: &Backup, now: DateTime<Utc>) -> Result<Vec<PathBuf>, LedgerError> {
    let path = folder.join(FILE);
    let failed = |error: io::Error| opening(&path, Cause::said(&error));
    let Some(alone) = schema::alone(folder).map_err(failed)? else {
        return Err(opening(&path, Cause::OpenElsewhere));
    };
    let fresh = folder.join(format!("{FILE}.new"));
    fs::copy(&backup.path, &fresh).map_err(failed)?;
    File::open(&fresh).and_then(|file| file.sync_all()).map_err(failed)?;
    let mut aside = Vec::new();
    for ending in ["", "-wal", "-shm"] {
        let from = folder.join(format!("{FILE}{ending}"));
        if from.exists() {
            let to = folder.join(format!("{FILE}.before-{}{ending}", now.format(MOMENT)));
            fs::rename(&from, &to).map_err(failed)?;
            aside.push(to);
        }
    }
    fs::rename(&fresh, &path).map_err(failed)?;
    sync_folder(folder).map_err(failed)?;
    drop(alone);
    Ok(aside)
}

fn copy(connection: &Connection, folder: &Path, now: DateTime<Utc>) -> Result<Backup, LedgerError> {
    let failed = |error: io::Error| opening(folder, Cause::said(&error));
    schema::make_folder(folder).map_err(failed)?;
    let path = folder.join(format!("{STEM}{}.sqlite", now.format(MOMENT)));
    let part = folder.join(format!("{STEM}{}.part", uuid::Uuid::now_v7()));
    let before = events(connection)?;
    let written = connection.execute("VACUUM INTO ?1", [part.to_string_lossy()]).map_err(LedgerError::from);
    let checked = written.and_then(|_| {
        File::open(&part).and_then(|file| file.sync_all()).map_err(failed)?;
        let here = events(connection)?;
        // Another window may have kept something since: the copy holds at least what it held then.
        match checked(&part, now) {
            Some(copy) if (before..=here).contains(&copy.events) => Ok(copy),
            _ => Err(opening(&part, Cause::BackupDiffers)),
        }
    });
    match checked {
        Ok(copy) => {
            fs::rename(&part, &path).and_then(|()| sync_folder(folder)).map_err(failed)?;
            Ok(Backup { path, ..copy })
        }
        Err(error) => {
            // Nothing half-written is left behind; if it cannot be removed, its name says it is only a part.
            let _ = fs::remove_file(&part);
            Err(error)
        }
    }
}

/// A backup that opens, is whole, and is a ledger; nothing of any other file.
fn checked(path: &Path, at: DateTime<Utc>) -> Option<Backup> {
    let connection = schema::connect_to_read(path).ok()?;
    let whole: String = connection.query_row("PRAGMA quick_check(1)", [], |row| row.get(0)).ok()?;
    let version = schema::version(&connection).ok()?;
    let events = events(&connection).ok()?;
    let lacking = if version < schema::COVERS { 0 } else { super::read::lacking(&connection).ok()?.len() };
    (whole == "ok" && (1..=schema::NEWEST).contains(&version)).then(|| Backup {
        path: path.to_owned(),
        at,
        events,
        lacking,
    })
}

/// How many events lie in the table itself: an index may be damaged by itself.
fn events(connection: &Connection) -> rusqlite::Result<u64> {
    let count: i64 = connection.query_row("SELECT count(*) FROM event NOT INDEXED", [], |row| row.get(0))?;
    Ok(u64::try_from(count).unwrap_or(0))
}

/// The files named as backups are, the oldest first.
fn names(folder: &Path) -> Vec<(DateTime<Utc>, PathBuf)> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let dated = |path: PathBuf| {
        let moment = path.file_name()?.to_str()?.strip_prefix(STEM)?.strip_suffix(".sqlite")?.to_owned();
        Some((NaiveDateTime::parse_from_str(&moment, MOMENT).ok()?.and_utc(), path))
    };
    let mut names: Vec<_> = entries.flatten().filter_map(|entry| dated(entry.path())).collect();
    names.sort_unstable();
    names
}

/// Removes what is neither among the newest, nor the last of one of the last days, nor of one of the last weeks. A file that
/// cannot be removed stays: too many backups are no harm.
fn thin_out(folder: &Path, now: DateTime<Utc>) {
    let names = names(folder);
    let moments: Vec<DateTime<Utc>> = names.iter().map(|(at, _)| *at).collect();
    let kept = kept(&moments, now);
    for (_, path) in names.iter().filter(|(at, _)| !kept.contains(at)) {
        let _ = fs::remove_file(path);
    }
}

/// Which of these moments (the oldest first) are kept.
pub fn kept(moments: &[DateTime<Utc>], now: DateTime<Utc>) -> BTreeSet<DateTime<Utc>> {
    let mut kept: BTreeSet<DateTime<Utc>> = moments.iter().rev().take(NEWEST).copied().collect();
    let last_of = |of: &dyn Fn(NaiveDate) -> (i32, u32), most: usize| {
        let mut seen = BTreeSet::new();
        let mut last = Vec::new();
        // A clock that was set back may have made backups in what is now the future; they count as today's.
        for at in moments.iter().rev() {
            if seen.len() < most && seen.insert(of((*at).min(now).date_naive())) {
                last.push(*at);
            }
        }
        last
    };
    kept.extend(last_of(&|day| (day.year(), day.ordinal()), DAYS));
    kept.extend(last_of(&|day| (day.iso_week().year(), day.iso_week().week()), WEEKS));
    kept
}

/// A name is on disk only once its folder is.
#[cfg(unix)]
fn sync_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn sync_folder(_: &Path) -> io::Result<()> {
    Ok(())
}
