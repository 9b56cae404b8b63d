//! What survives: kills at any moment, a disk that fails at the nth write, a full one, and the power cut. A short form runs by
//! default; `COOPSIDE_LONG=1 cargo test --test files crash` runs the long one.

#![cfg(target_os = "linux")]
#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::lacking::lacking;
use crate::common::long;
use crate::common::mounted::Mounted;
use chrono::{DateTime, TimeDelta, Utc};
use coopside::finding::log::{Entry, Stamped};
use coopside::ledger::{CaseId, Cover, Event, EventId, FILE, Ledger, LedgerError, Mark};
use rusqlite::Connection;
use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs, thread};
use tempfile::TempDir;

/// Where the writer writes, how many events, and how many it keeps before it opens the ledger anew.
const WRITER: &str = "COOPSIDE_WRITER";
const EVENTS: &str = "COOPSIDE_WRITER_EVENTS";
const SESSION: u64 = 12;

fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn event(case: &CaseId, seq: u64, said: &str) -> Event {
    let at: DateTime<Utc> = DateTime::UNIX_EPOCH + TimeDelta::days(20_000);
    let stamped = Stamped { at, entry: Entry::VetSaid(said.to_owned()) };
    Event { id: EventId::new(), case: case.clone(), seq, stamped, zone_min: 0 }
}

fn mark() -> Mark {
    Mark { version: "0".into(), fingerprint: "f".into() }
}

/// The writer: this program started again as a process of its own. It says what was kept, each time once it is, and goes on
/// as the clerk does: what was refused is tried again over a new connection.
#[test]
fn writer() {
    let Some(folder) = env::var_os(WRITER).map(PathBuf::from) else { return };
    let events = env::var(EVENTS).ok().and_then(|events| events.parse().ok()).unwrap_or(u64::MAX);
    let case = CaseId::new();
    let mut ledger = None;
    let mut seq = 0;
    let mut refused = 0;
    while seq < events && refused < 50 {
        let said = format!("{}-{seq}", case.as_str());
        let kept = open_if(&mut ledger, &folder)
            .and_then(|ledger| ledger.append(&event(&case, seq, &said), &mark(), &Cover::default()));
        if kept.is_err() {
            (ledger, refused) = (None, refused + 1);
            thread::sleep(Duration::from_millis(1));
            continue;
        }
        // Past the test's own capture: what reads this is another process.
        let _ = writeln!(io::stdout().lock(), "kept {said}").and_then(|()| io::stdout().flush());
        seq += 1;
        if seq % SESSION == 0 {
            ledger = None;
        }
    }
}

fn open_if<'l>(ledger: &'l mut Option<Ledger>, folder: &Path) -> Result<&'l mut Ledger, LedgerError> {
    if ledger.is_none() {
        *ledger = Some(Ledger::open(folder)?);
    }
    ledger.as_mut().ok_or(LedgerError::Clash)
}

/// How to start the writer, with words before it (for a tracer).
fn command(before: &[&str], folder: &Path, events: u64) -> Command {
    let own = env::current_exe().unwrap_or_else(|error| panic!("{error}"));
    let mut words = before.iter().map(std::ffi::OsStr::new).chain([own.as_os_str()]);
    let mut command = Command::new(words.next().unwrap_or_default());
    command.args(words).args(["--exact", "crash::writer", "--nocapture", "--test-threads=1"]);
    command.env(WRITER, folder).env(EVENTS, events.to_string()).env_remove("RUST_BACKTRACE");
    command.stdout(Stdio::piped()).stderr(Stdio::null()).stdin(Stdio::null());
    command
}

fn start(command: &mut Command) -> Child {
    command.spawn().unwrap_or_else(|error| panic!("{error}"))
}

/// What a writer that has ended says was kept. A last line that was cut off is no promise.
fn acknowledged(child: &mut Child) -> BTreeSet<String> {
    let mut text = String::new();
    if let Some(out) = child.stdout.take() {
        let _ = BufReader::new(out).read_to_string(&mut text);
    }
    let _ = child.wait();
    let whole = text.rfind('\n').map_or("", |end| text.get(..end).unwrap_or_default());
    whole.lines().filter_map(|line| line.split_once("kept ").map(|(_, said)| said.to_owned())).collect()
}

/// What is wrong with a ledger, held against what was acknowledged; nothing, if all is well.
fn wrong(folder: &Path, acknowledged: &BTreeSet<String>) -> Option<String> {
    let path = folder.join(FILE);
    if acknowledged.is_empty() && !path.exists() {
        return None;
    }
    let look = || -> rusqlite::Result<Option<String>> {
        let connection = Connection::open(&path)?;
        let whole: String = connection.query_row("PRAGMA integrity_check", [], |row| row.get(0))?;
        if whole != "ok" {
            return Ok(Some(format!("integrity check: {whole}")));
        }
        let tables: i64 =
            connection.query_row("SELECT count(*) FROM sqlite_master WHERE name = 'event'", [], |row| row.get(0))?;
        if tables == 0 {
            return Ok((!acknowledged.is_empty()).then(|| "the tables are gone".to_owned()));
        }
        let mut statement = connection.prepare("SELECT json_extract(body, '$.vet_said') FROM event")?;
        let kept: BTreeSet<String> = statement.query_map([], |row| row.get(0))?.collect::<Result<_, _>>()?;
        if let Some(lost) = acknowledged.iter().find(|said| !kept.contains(*said)) {
            return Ok(Some(format!("{lost} was acknowledged and is lost")));
        }
        // Event and cover are kept in one transaction, and no case has a hole.
        let torn = "SELECT count(*) FROM (SELECT case_id, count(*) AS kept, max(seq) + 1 AS next FROM event GROUP BY case_id) AS own \
             LEFT JOIN cover ON cover.case_id = own.case_id WHERE cover.events IS NOT own.kept OR own.next <> own.kept";
        let torn: i64 = connection.query_row(torn, [], |row| row.get(0))?;
        Ok((torn != 0).then(|| format!("{torn} cases are torn")))
    };
    look().unwrap_or_else(|error| Some(error.to_string()))
}

/// 1,000 rounds in the long form; two writers on one file each round.
#[test]
fn a_kill_at_any_moment_loses_nothing_that_was_acknowledged() {
    let rounds = if long() { 1_000 } else { 20 };
    let mut random = fastrand::Rng::with_seed(7);
    let mut all = 0;
    let mut place = folder();
    let mut kept = BTreeSet::new();
    for round in 0..rounds {
        if round % 50 == 0 {
            (place, kept) = (folder(), BTreeSet::new());
        }
        let mut writers: Vec<Child> = (0..2).map(|_| start(&mut command(&[], place.path(), u64::MAX))).collect();
        thread::sleep(Duration::from_millis(random.u64(1..80)));
        for writer in &mut writers {
            let _ = writer.kill();
        }
        for writer in &mut writers {
            let acknowledged = acknowledged(writer);
            all += acknowledged.len();
            kept.extend(acknowledged);
        }
        assert_eq!(wrong(place.path(), &kept), None, "round {round}");
    }
    println!("{rounds} rounds, {all} events acknowledged, none lost, no failed integrity check");
    assert!(all > 0, "nothing was ever acknowledged: this shows nothing");
}

fn can_trace() -> bool {
    let traced = Command::new("strace").args(["-qq", "-o", "/dev/null", "true"]).status();
    let can = traced.is_ok_and(|status| status.success());
    if !can {
        lacking("strace is not there or may not trace");
    }
    can
}

/// The nth write and the nth sync fail, or the process is killed at them; n from 1 to 200 in the long form.
#[test]
fn a_write_or_sync_that_fails_or_kills_loses_nothing_that_was_acknowledged() {
    if !can_trace() {
        return;
    }
    let each: Vec<u32> = if long() { (1..=200).collect() } else { vec![1, 2, 5, 9, 14, 23, 40] };
    let faults =
        ["pwrite64:error=EIO", "pwrite64:error=ENOSPC", "fsync:error=EIO", "pwrite64:signal=KILL", "fsync:signal=KILL"];
    let (mut runs, mut all) = (0, 0);
    for nth in each {
        for fault in faults {
            let place = folder();
            let call = fault.split(':').next().unwrap_or_default();
            let (trace, inject) = (format!("trace={call}"), format!("inject={fault}:when={nth}"));
            let tracer = ["strace", "-f", "-qq", "-o", "/dev/null", "-e", &trace, "-e", &inject];
            let acknowledged = acknowledged(&mut start(&mut command(&tracer, place.path(), 40)));
            assert_eq!(wrong(place.path(), &acknowledged), None, "{inject}");
            (runs, all) = (runs + 1, all + acknowledged.len());
        }
    }
    println!("{runs} runs, {all} events acknowledged, none lost, no failed integrity check");
    assert!(all > 0);
}

/// What a process did to its files, in order.
#[derive(Clone, Debug)]
enum Did {
    Write { file: String, at: usize, bytes: Vec<u8> },
    Cut { file: String, to: usize },
    Sync { file: String },
    Remove { file: String },
    Said(String),
}

/// Reads a trace (`strace -y -xx -s ..`). A line that is not understood is a fault of this test, not of the ledger.
fn did(trace: &str) -> Vec<Did> {
    trace
        .lines()
        .filter_map(|line| {
            let (_, call) = line.split_once(' ')?;
            let call = call.trim_start();
            assert!(!call.contains("<unfinished") && !call.contains("resumed>"), "two threads write: {line:.120}");
            let (name, rest) = call.split_once('(')?;
            if !call.contains(" = ") || call.contains("= -1") {
                return None;
            }
            let file = || {
                rest.split_once('<')
                    .and_then(|(_, rest)| rest.split_once('>'))
                    .map(|(path, _)| file_name(&String::from_utf8_lossy(&unescaped(path))))
            };
            let bytes = || rest.split('"').nth(1).map(unescaped);
            let numbers = || -> Vec<usize> {
                let after = rest.rsplit_once('"').map_or(rest, |(_, after)| after);
                after.split(['(', ')', ',', ' ', '=']).filter_map(|word| word.parse().ok()).collect()
            };
            match name {
                "pwrite64" => Some(Did::Write { file: file()?, at: *numbers().get(1)?, bytes: bytes()? }),
                "write" if rest.starts_with('1') => Some(Did::Said(String::from_utf8_lossy(&bytes()?).into_owned())),
                "ftruncate" => {
                    Some(Did::Cut { file: file()?, to: *numbers().last().and(numbers().iter().rev().nth(1))? })
                }
                "fsync" | "fdatasync" => Some(Did::Sync { file: file()? }),
                "unlink" => Some(Did::Remove { file: file_name(&String::from_utf8_lossy(&bytes()?)) }),
                _ => None,
            }
        })
        .collect()
}

fn file_name(path: &str) -> String {
    Path::new(path).file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

fn unescaped(text: &str) -> Vec<u8> {
    text.split("\\x").skip(1).filter_map(|hex| u8::from_str_radix(hex.get(..2)?, 16).ok()).collect()
}

/// One file as the disk has it, and what was done to it since it was last synced.
#[derive(Clone, Default)]
struct OnDisk {
    there: bool,
    synced: Vec<u8>,
    since: Vec<Did>,
}

impl OnDisk {
    fn carry_out(bytes: &mut Vec<u8>, there: &mut bool, did: &Did, only: Option<usize>) {
        match did {
            Did::Write { at, bytes: written, .. } => {
                let written = written.get(..only.unwrap_or(written.len())).unwrap_or(written);
                if bytes.len() < at + written.len() {
                    bytes.resize(at + written.len(), 0);
                }
                if let Some(into) = bytes.get_mut(*at..at + written.len()) {
                    into.copy_from_slice(written);
                }
                *there = true;
            }
            Did::Cut { to, .. } => bytes.resize(*to, 0),
            Did::Remove { .. } => {
                bytes.clear();
                *there = false;
            }
            Did::Sync { .. } | Did::Said(_) => {}
        }
    }

    fn sync(&mut self) {
        let (mut bytes, mut there) = (std::mem::take(&mut self.synced), self.there);
        for did in std::mem::take(&mut self.since) {
            Self::carry_out(&mut bytes, &mut there, &did, None);
        }
        (self.synced, self.there) = (bytes, there);
    }

    /// Makes sure of a removal, with what came before it.
    fn sync_name(&mut self) {
        let Some(last) = self.since.iter().rposition(|did| matches!(did, Did::Remove { .. })) else { return };
        let after = self.since.split_off(last + 1);
        self.sync();
        self.since = after;
    }

    /// What may be left after the power went: what was synced, and of the rest any part, in order, the last of it perhaps torn
    /// at a sector.
    fn left(&self, random: &mut fastrand::Rng) -> Option<Vec<u8>> {
        let (mut bytes, mut there) = (self.synced.clone(), self.there);
        for did in &self.since {
            if random.bool() {
                let torn = matches!(did, Did::Write { .. }) && random.u8(..) < 32;
                let sectors = if torn { Some(512 * random.usize(0..8)) } else { None };
                Self::carry_out(&mut bytes, &mut there, did, sectors);
            }
        }
        there.then_some(bytes)
    }
}

/// The power goes at every point of a run, with any part of what was not synced lost or torn. Taken from a trace of the real
/// program's system calls. What it leaves out: that a disk may lie about a sync, that a new file's own name may be lost, and
/// what the file system itself does when it is mounted again.
#[test]
fn a_power_cut_at_any_moment_loses_nothing_that_was_acknowledged() {
    if !can_trace() {
        return;
    }
    let (place, beside) = (folder(), folder());
    let log = beside.path().join("trace");
    let log_name = log.to_string_lossy().into_owned();
    let calls = "trace=pwrite64,write,ftruncate,fsync,fdatasync,unlink";
    let tracer = ["strace", "-f", "-qq", "-y", "-xx", "-s", "1000000", "-o", &log_name, "-e", calls];
    let acknowledged = acknowledged(&mut start(&mut command(&tracer, place.path(), 30)));
    assert_eq!(acknowledged.len(), 30, "the traced run keeps all");
    let trace = fs::read_to_string(&log).unwrap_or_else(|error| panic!("{error}"));
    let done = did(&trace);
    let mut random = fastrand::Rng::with_seed(11);
    let (mut files, mut said) = (BTreeMap::<String, OnDisk>::new(), BTreeSet::new());
    let times = if long() { 20 } else { 1 };
    let mut cuts = 0;
    for (nth, did) in done.iter().enumerate() {
        match did {
            Did::Said(text) => {
                said.extend(text.lines().filter_map(|line| line.strip_prefix("kept ")).map(str::to_owned));
            }
            Did::Sync { file } if file.starts_with(FILE) => files.entry(file.clone()).or_default().sync(),
            // The folder: what was removed stays removed.
            Did::Sync { .. } => files.values_mut().for_each(OnDisk::sync_name),
            Did::Write { file, .. } | Did::Cut { file, .. } | Did::Remove { file } => {
                files.entry(file.clone()).or_default().since.push(did.clone());
            }
        }
        if !long() && nth % 3 != 0 {
            continue;
        }
        for _ in 0..times {
            let left = folder();
            for (name, file) in files.iter().filter(|(name, _)| name.starts_with(FILE) && !name.ends_with("-shm")) {
                if let Some(bytes) = file.left(&mut random) {
                    fs::write(left.path().join(name), bytes).unwrap_or_else(|error| panic!("{error}"));
                }
            }
            assert_eq!(wrong(left.path(), &said), None, "the power goes after call {nth}: {did:.200?}");
            cuts += 1;
        }
    }
    println!("{cuts} power cuts over {} calls, nothing acknowledged lost, no failed integrity check", done.len());
    assert_eq!(said, acknowledged);
    assert!(cuts > 50);
}

/// The kernel may give freed pages back a moment after the file is gone.
fn opened_once_there_is_room(place: &Path) -> Ledger {
    let mut last = String::new();
    for _ in 0..50 {
        match Ledger::open(place) {
            Ok(ledger) => return ledger,
            Err(error) => last = error.to_string(),
        }
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    panic!("{last}");
}

#[test]
fn a_full_disk_says_so_calmly_loses_nothing_and_goes_on_once_there_is_room() {
    let Some(mounted) = Mounted::tmpfs(256) else { return };
    let place = mounted.0.path();
    let ballast = place.join("ballast");
    fs::write(&ballast, vec![1; 64 * 1024]).unwrap_or_else(|error| panic!("{error}"));
    let mut ledger = Ledger::open(place).unwrap_or_else(|error| panic!("{error}"));
    let (case, mut kept) = (CaseId::new(), BTreeSet::new());
    let full = (0..).find_map(|seq| {
        let said = format!("{}-{seq}", case.as_str());
        let error = ledger.append(&event(&case, seq, &said), &mark(), &Cover::default()).err();
        if error.is_none() {
            kept.insert(said);
        }
        error.map(|error| (seq, crate::fault(&error)))
    });
    let (seq, told) = full.unwrap_or_default();
    assert!(told.contains("full") && told.contains("free some room"), "{told}");
    assert!(!kept.is_empty());
    assert_eq!(wrong(place, &kept), None);
    fs::remove_file(&ballast).unwrap_or_else(|error| panic!("{error}"));
    drop(ledger);
    let mut ledger = opened_once_there_is_room(place);
    let said = format!("{}-{seq}", case.as_str());
    assert!(ledger.append(&event(&case, seq, &said), &mark(), &Cover::default()).is_ok());
    kept.insert(said);
    assert_eq!(wrong(place, &kept), None);
}

#[test]
fn a_folder_that_cannot_be_written_is_read_and_left_as_it_is() {
    let Some(mounted) = Mounted::tmpfs(2048) else { return };
    let place = mounted.0.path();
    let case = CaseId::new();
    {
        let mut ledger = Ledger::open(place).unwrap_or_else(|error| panic!("{error}"));
        assert!(ledger.append(&event(&case, 0, "one"), &mark(), &Cover::default()).is_ok());
    }
    mounted.read_only();
    let before = fs::read(place.join(FILE)).unwrap_or_default();
    let refused = Ledger::open(place).err().map(|error| crate::fault(&error)).unwrap_or_default();
    assert!(refused.contains("cannot be opened") && refused.contains("--data"), "{refused}");
    let mut ledger = Ledger::read(place).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(ledger.load(case.clone()).map(|case| case.log.len()).ok(), Some(1));
    let told = ledger.append(&event(&case, 1, "two"), &mark(), &Cover::default()).err();
    assert!(told.is_some_and(|error| crate::fault(&error).contains("only be read")));
    assert_eq!(fs::read(place.join(FILE)).unwrap_or_default(), before);
}

/// A writer that is stopped in the middle holds nobody up for longer than the other waits, and both go on.
#[test]
fn a_window_that_stands_still_does_not_stop_the_other() {
    let place = folder();
    let mut still = start(&mut command(&[], place.path(), u64::MAX));
    let mut line = String::new();
    if let Some(out) = still.stdout.as_mut() {
        let mut out = BufReader::new(out);
        while !line.contains("kept ") && out.read_line(&mut line).is_ok_and(|read| read > 0) {}
    }
    let pid = rustix::process::Pid::from_child(&still);
    let _ = rustix::process::kill_process(pid, rustix::process::Signal::STOP);
    let since = Instant::now();
    let mut ledger = Ledger::open(place.path());
    // Stopped in the middle of a write it holds the lock; then waiting ends in words, not in silence.
    let told = match &mut ledger {
        Ok(ledger) => ledger.append(&event(&CaseId::new(), 0, "other"), &mark(), &Cover::default()).err(),
        Err(_) => None,
    };
    assert!(since.elapsed() < Duration::from_secs(30), "{told:?}");
    let _ = rustix::process::kill_process(pid, rustix::process::Signal::CONT);
    let _ = still.kill();
    let _ = still.wait();
    assert!(Ledger::open(place.path()).is_ok());
}
