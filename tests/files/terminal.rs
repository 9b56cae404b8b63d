//! The real program in a real pseudo-terminal: what only that can show.

#![cfg(unix)]
#![expect(clippy::panic, reason = "a failing test panics")]

use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::days::cover::cover;
use coopside::finding::log::{Entry, Stamped};
use coopside::ledger::{CaseId, Cover, Event, EventId, Ledger, Mark};
use coopside::protocol::Protocol;
use coopside::update::seen::SAME_MOVEMENT;
use coopside::words::english;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::num::NonZeroU16;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard};
use std::thread;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// How long the slowest machine may take to show something.
pub(super) const PATIENCE: Duration = Duration::from_secs(20);

/// A running Coopside and the screen a person would see.
pub(super) struct Seat {
    pub(super) master: Box<dyn MasterPty + Send>,
    pub(super) child: Box<dyn Child + Send + Sync>,
    pub(super) keys: Box<dyn Write + Send>,
    screen: Arc<Mutex<vt100::Parser>>,
    /// Every byte it sent: also what shows nowhere on the screen, such as the window's title.
    pub(super) sent: Arc<Mutex<Vec<u8>>>,
    /// While it is so, nobody reads what it sends.
    pub(super) stalled: Arc<AtomicBool>,
    modes_before: String,
}

pub(super) fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

pub(super) fn some(size: u16) -> NonZeroU16 {
    NonZeroU16::new(size).unwrap_or(NonZeroU16::MIN)
}

impl Seat {
    pub(super) fn take(data: &Path, columns: u16, rows: u16, environment: &[(&str, &str)], arguments: &[&str]) -> Self {
        let size = PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 };
        let pair = native_pty_system().openpty(size).unwrap_or_else(|error| panic!("{error}"));
        let modes_before = modes(pair.master.as_ref());
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_coopside"));
        command.args(arguments);
        command.env("COOPSIDE_DATA", data);
        command.env("TERM", "xterm-256color");
        command.env_remove("NO_COLOR");
        for (name, value) in environment {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap_or_else(|error| panic!("{error}"));
        drop(pair.slave);
        let screen = Arc::new(Mutex::new(vt100::Parser::new(some(rows), some(columns), 0)));
        let mut reader = pair.master.try_clone_reader().unwrap_or_else(|error| panic!("{error}"));
        let shown = Arc::clone(&screen);
        let sent = Arc::new(Mutex::new(Vec::new()));
        let bytes_sent = Arc::clone(&sent);
        let stalled = Arc::new(AtomicBool::new(false));
        let stands_still = Arc::clone(&stalled);
        thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = reader.read(&mut bytes) {
                while stands_still.load(Ordering::Relaxed) {
                    thread::sleep(Duration::from_millis(5));
                }
                let Some(read) = bytes.get(..count) else { return };
                bytes_sent.lock().unwrap_or_else(std::sync::PoisonError::into_inner).extend_from_slice(read);
                shown.lock().unwrap_or_else(std::sync::PoisonError::into_inner).process(read);
            }
        });
        let keys = pair.master.take_writer().unwrap_or_else(|error| panic!("{error}"));
        Self { master: pair.master, child, keys, screen, sent, stalled, modes_before }
    }

    pub(super) fn screen(&self) -> MutexGuard<'_, vt100::Parser> {
        self.screen.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    pub(super) fn text(&self) -> String {
        self.screen().screen().contents()
    }

    #[track_caller]
    pub(super) fn sees(&self, text: &str) {
        let deadline = Instant::now() + PATIENCE;
        while !self.text().contains(text) {
            assert!(Instant::now() < deadline, "waited for {text:?}; the screen shows\n{}", self.text());
            thread::sleep(Duration::from_millis(10));
        }
    }

    #[track_caller]
    pub(super) fn sends(&self, text: &str) {
        let deadline = Instant::now() + PATIENCE;
        let sent = || {
            let sent = self.sent.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
            String::from_utf8_lossy(&sent).contains(text)
        };
        while !sent() {
            assert!(Instant::now() < deadline, "waited for {text:?}; the screen shows\n{}", self.text());
            thread::sleep(Duration::from_millis(10));
        }
    }

    /// Presses keys as a hand does: what it presses next it has seen, and the same key again is another movement.
    pub(super) fn press(&mut self, keys: &str) {
        thread::sleep(SAME_MOVEMENT + Duration::from_millis(50));
        let sent = self.keys.write_all(keys.as_bytes()).and_then(|()| self.keys.flush());
        sent.unwrap_or_else(|error| panic!("{error}"));
    }

    /// None of the danger signs, and nothing that shows.
    #[track_caller]
    fn sees_no_sign(&mut self) {
        self.press("a");
        self.sees("What shows?");
        self.press("a");
        self.sees("2 of 2");
        self.press("a");
        self.sees("Have you got her?");
    }

    pub(super) fn signal(&self, signal: i32) {
        let pid =
            self.child.process_id().and_then(|pid| i32::try_from(pid).ok()).unwrap_or_else(|| panic!("no process"));
        let pid = rustix::process::Pid::from_raw(pid).unwrap_or_else(|| panic!("no process"));
        let signal = rustix::process::Signal::from_named_raw(signal).unwrap_or_else(|| panic!("no signal"));
        rustix::process::kill_process(pid, signal).unwrap_or_else(|error| panic!("{error}"));
    }

    #[track_caller]
    pub(super) fn ends(&mut self) -> u32 {
        let deadline = Instant::now() + PATIENCE;
        loop {
            match self.child.try_wait() {
                Ok(Some(status)) => {
                    // What it wrote last is still on its way to the screen.
                    thread::sleep(Duration::from_millis(50));
                    return status.exit_code();
                }
                Ok(None) => assert!(Instant::now() < deadline, "it does not end; the screen shows\n{}", self.text()),
                Err(error) => panic!("{error}"),
            }
            thread::sleep(Duration::from_millis(10));
        }
    }

    #[track_caller]
    pub(super) fn terminal_is_given_back(&self) {
        let screen = self.screen();
        assert!(!screen.screen().alternate_screen(), "still on the other screen");
        assert!(!screen.screen().hide_cursor(), "the cursor is still hidden");
        assert!(!screen.screen().bracketed_paste(), "pastes are still marked");
        assert_eq!(modes(self.master.as_ref()), self.modes_before, "echo and line mode");
    }
}

/// The line settings of the terminal, for comparing.
fn modes(master: &dyn MasterPty) -> String {
    master
        .get_termios()
        .map(|termios| format!("{:?} {:?}", termios.local_flags, termios.input_flags))
        .unwrap_or_default()
}

#[test]
fn launch_answer_interrupt_kill_resume_verdict_leave() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees("Is any of this happening right now?");
    // Interrupt: a spurting wound is one key away.
    seat.press("1");
    seat.sees("PRESS AND HOLD");
    seat.press("\r");
    seat.sees("nothing else of these");
    seat.sees_no_sign();
    seat.press("1");
    seat.sees("who can help?");
    seat.press("2");
    seat.sees("What bird is she?");
    seat.press("1");
    seat.sees("How soon can a vet see her?");
    seat.press("3");
    seat.sees("What happened to her?");
    seat.sees("saved ");
    // Killed without warning; the next launch offers to go on exactly there.
    seat.signal(9);
    assert_ne!(seat.ends(), 0);
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees("go on with the bird you left");
    seat.press("g");
    seat.sees("What happened to her?");
    seat.sees("Coopside: hen");
    seat.press("4");
    seat.sees("When did it happen");
    seat.press("v");
    seat.sees("Vet at once.");
    seat.press("d");
    seat.sees("NOW - card 1 of");
    seat.press("d");
    seat.sees("DO NOW, IN THIS ORDER");
    seat.press("b");
    seat.sees("When did it happen");
    // A clock runs: leaving is asked about once.
    seat.press("x");
    seat.sees("A clock runs");
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    seat.terminal_is_given_back();
    assert!(seat.text().contains("press g to go on with this bird"), "{}", seat.text());
}

#[test]
fn an_answer_that_was_shown_as_saved_survives_a_kill() {
    let data = folder();
    for round in 0..8 {
        let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
        seat.sees("Is any of this happening right now?");
        seat.sees_no_sign();
        seat.press("1");
        seat.sees("who can help?");
        seat.press("2");
        seat.sees("What bird is she?");
        seat.sees("saved ");
        seat.signal(9);
        seat.ends();
        let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
        seat.sees("go on with the bird you left");
        seat.press("g");
        seat.sees("What bird is she?");
        seat.press("x");
        assert_eq!(seat.ends(), 0, "round {round}");
    }
}

#[test]
fn the_country_is_kept_from_one_start_to_the_next() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees("Is any of this happening right now?");
    seat.press("l");
    seat.sees("Whose law holds?");
    seat.press("3");
    seat.sees("WHOSE LAW");
    seat.press("b");
    seat.sees("Law is told for the United");
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees("Law is told for the United");
    seat.press("x");
    assert_eq!(seat.ends(), 0);
}

#[test]
fn a_signal_ends_it_with_the_terminal_given_back() {
    for (signal, code) in [(15, 143), (1, 129), (2, 130), (3, 131)] {
        let data = folder();
        let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
        seat.sees("Is any of this happening right now?");
        seat.signal(signal);
        assert_eq!(seat.ends(), code, "signal {signal}");
        seat.terminal_is_given_back();
    }
}

#[test]
fn a_fault_gives_the_terminal_back_and_says_what_to_do() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 80, 24, &[], &["--break-down"]);
    assert_eq!(seat.ends(), 101);
    seat.terminal_is_given_back();
    assert!(seat.text().contains("start it again and press g"), "{}", seat.text());
}

#[test]
fn a_vanished_terminal_ends_it() {
    let data = folder();
    let pair = native_pty_system().openpty(PtySize::default()).unwrap_or_else(|error| panic!("{error}"));
    let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_coopside"));
    command.env("COOPSIDE_DATA", data.path());
    let mut child = pair.slave.spawn_command(command).unwrap_or_else(|error| panic!("{error}"));
    drop(pair.slave);
    // Read until the screen shows, then let go of every end of the terminal that we hold.
    let mut reader = pair.master.try_clone_reader().unwrap_or_else(|error| panic!("{error}"));
    let (mut shown, mut bytes) = (String::new(), [0; 512]);
    while !shown.contains("happening") {
        let count = reader.read(&mut bytes).unwrap_or(0);
        shown.push_str(&String::from_utf8_lossy(bytes.get(..count).unwrap_or_default()));
    }
    drop((reader, pair.master));
    let deadline = Instant::now() + PATIENCE;
    while !matches!(child.try_wait(), Ok(Some(_))) {
        assert!(Instant::now() < deadline, "it goes on without a terminal");
        thread::sleep(Duration::from_millis(10));
    }
}

#[test]
fn without_colour_bold_and_reverse_still_arrive() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[("NO_COLOR", "1")], &[]);
    seat.sees("Is any of this happening right now?");
    seat.sees_no_sign();
    seat.press("1");
    seat.sees("who can help?");
    seat.press("2");
    seat.sees("What bird is she?");
    seat.press("\x1b[B");
    seat.sees(">1  hen");
    let screen = seat.screen();
    let cells: Vec<vt100::Cell> = (0..24)
        .flat_map(|row| (0..60).map(move |column| (row, column)))
        .filter_map(|(row, column)| screen.screen().cell(row, column).cloned())
        .collect();
    assert!(cells.iter().any(vt100::Cell::bold), "no bold");
    assert!(cells.iter().any(vt100::Cell::inverse), "no reverse");
    assert!(
        cells.iter().all(|cell| cell.fgcolor() == vt100::Color::Default && cell.bgcolor() == vt100::Color::Default)
    );
}

#[test]
fn a_ledger_that_cannot_be_opened_holds_nothing_back() {
    let data = folder();
    let in_the_way = data.path().join("file");
    std::fs::write(&in_the_way, "in the way").unwrap_or_else(|error| panic!("{error}"));
    let mut seat = Seat::take(&in_the_way.join("inside"), 60, 24, &[], &[]);
    seat.sees("NOT KEPT");
    seat.press("1");
    seat.sees("PRESS AND HOLD");
    seat.press("x");
    seat.sees("A clock runs");
    seat.press("x");
    assert_eq!(seat.ends(), 74);
    seat.terminal_is_given_back();
}

#[test]
fn resizing_to_anything_and_back_keeps_the_question() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees_no_sign();
    seat.press("1");
    seat.sees("who can help?");
    seat.press("2");
    seat.sees("What bird is she?");
    for (columns, rows) in [(1, 1), (200, 60), (10, 5), (40, 20), (60, 24)] {
        seat.screen().screen_mut().set_size(some(rows), some(columns));
        let size = PtySize { rows, cols: columns, pixel_width: 0, pixel_height: 0 };
        seat.master.resize(size).unwrap_or_else(|error| panic!("{error}"));
        thread::sleep(Duration::from_millis(60));
    }
    seat.sees("What bird is she?");
    seat.press("x");
    assert_eq!(seat.ends(), 0);
}

/// A whole practice session: a lesson, a deed, a verdict of one's own, the debrief, the group; nothing in the ledger.
#[test]
fn a_practice_session_is_played_and_touches_no_bird_of_ones_own() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 100, 30, &[], &["practise", "--novice", "Ann"]);
    seat.sees("Practice: which bird?");
    // Her name stands among the lessons; she is chosen by the number before it.
    let line = seat.text().lines().find(|line| line.contains("Saffron, hen")).map(str::to_owned);
    let number = line.and_then(|line| line.trim().chars().next()).unwrap_or_else(|| panic!("{}", seat.text()));
    seat.press(&number.to_string());
    seat.sees("What do you look at first?");
    seat.sees("caught herself on the gate");
    seat.press("1");
    seat.sees("Bright blood runs down the wing");
    assert!(!seat.text().contains("vet at once"), "nothing is judged beforehand\n{}", seat.text());
    seat.press("1");
    seat.sees("What do you do?");
    let press = seat.text().lines().find(|line| line.contains("Press. Eye, bone")).map(str::to_owned);
    let press = press.and_then(|line| line.trim().chars().next()).unwrap_or_else(|| panic!("{}", seat.text()));
    seat.press(&press.to_string());
    seat.sees("Under the cloth the flow slows");
    let on = seat.text().lines().find(|line| line.contains("nothing more")).map(str::to_owned);
    let on = on.and_then(|line| line.trim().chars().next()).unwrap_or_else(|| panic!("{}", seat.text()));
    seat.press(&on.to_string());
    seat.press("v");
    seat.sees("how soon does she need a vet?");
    seat.press("5");
    seat.sees("Has a humane end come into question?");
    seat.press("1");
    seat.sees("animal-health authority have to hear");
    seat.press("1");
    seat.sees("FOR NEXT TIME, ONE THING");
    seat.sees("Need: vet at once. You said so too.");
    seat.press("b");
    seat.press("5");
    seat.sees("1 go; the need was right in 1.");
    assert_eq!(seat.text().matches(" PRACTICE ").count(), 2, "both rules say so\n{}", seat.text());
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    seat.terminal_is_given_back();
    assert!(!data.path().join("coopside.sqlite").exists(), "no ledger of one's own was opened");
    let marks = std::fs::read_to_string(data.path().join("practice/marks.jsonl")).unwrap_or_default();
    assert!(marks.contains("\"novice\":\"Ann\"") && marks.contains("\"bird\":\"bleeding_hard\""), "{marks}");
    let mut real = Seat::take(data.path(), 100, 30, &[], &[]);
    real.sees("Is any of this happening right now?");
    assert!(!real.text().contains("PRACTICE") && !real.text().contains("go on with the bird"), "{}", real.text());
    real.press("x");
    assert_eq!(real.ends(), 0);
}

/// A seat at which the danger signs are answered and kept.
pub(super) fn answered(data: &Path, environment: &[(&str, &str)]) -> Seat {
    let mut seat = Seat::take(data, 60, 24, environment, &[]);
    seat.sees("Is any of this happening right now?");
    seat.sees_no_sign();
    seat.press("1");
    seat.sees("who can help?");
    seat.press("2");
    seat.sees("What bird is she?");
    seat.sees("saved ");
    seat
}

/// How many entries of the one case are kept in a folder.
pub(super) fn kept(data: &Path) -> usize {
    let ledger = Ledger::open(data).unwrap_or_else(|error| panic!("{error}"));
    let events = ledger.latest().unwrap_or_else(|error| panic!("{error}"));
    events.map_or(0, |events| events.len())
}

/// A way a ledger is taken away under whoever has it open.
type Way<'a> = (&'a str, &'a dyn Fn(&Path) -> std::io::Result<()>);

/// Files are deleted and moved under programs: by a sync, by a clean-up, by hand. What was said is written again where it belongs.
#[test]
fn what_was_said_is_written_again_where_the_ledger_was_taken_away() {
    let whole = {
        let data = folder();
        let mut seat = answered(data.path(), &[]);
        seat.press("1");
        seat.sees("How soon can a vet see her?");
        seat.press("x");
        assert_eq!(seat.ends(), 0);
        kept(data.path())
    };
    assert!(whole >= 2);
    let delete = |ledger: &Path| std::fs::remove_file(ledger);
    let rename = |ledger: &Path| std::fs::rename(ledger, ledger.with_extension("away"));
    let all = |ledger: &Path| std::fs::remove_dir_all(ledger.parent().unwrap_or(ledger));
    let cut = |ledger: &Path| std::fs::File::options().write(true).open(ledger)?.set_len(0);
    let ways: [Way; 4] =
        [("deleted", &delete), ("renamed", &rename), ("its folder deleted", &all), ("cut short", &cut)];
    for (way, take_away) in ways {
        // Before one more answer.
        let base = folder();
        let data = base.path().join("birds");
        let mut seat = answered(&data, &[]);
        take_away(&data.join("coopside.sqlite")).unwrap_or_else(|error| panic!("{way}: {error}"));
        seat.press("1");
        seat.sees("How soon can a vet see her?");
        seat.sees("written again");
        seat.press("x");
        assert_eq!(seat.ends(), 0, "{way}: {}", seat.text());
        assert_eq!(kept(&data), whole, "{way}");
        // After the last one: nobody writes any more, and yet it is there.
        let base = folder();
        let data = base.path().join("birds");
        let mut seat = answered(&data, &[]);
        let before = kept(&data);
        take_away(&data.join("coopside.sqlite")).unwrap_or_else(|error| panic!("{way}: {error}"));
        seat.press("x");
        assert_eq!(seat.ends(), 0, "{way}: {}", seat.text());
        assert_eq!(kept(&data), before, "{way}, at the end");
    }
}

/// What cannot be written again is told, put elsewhere whole, and can be taken in by any ledger.
#[test]
fn what_cannot_be_written_again_is_told_and_put_elsewhere_whole() {
    let (data, home, other) = (folder(), folder(), folder());
    let place = home.path().display().to_string();
    let mut seat = answered(data.path(), &[("HOME", &place)]);
    let whole = kept(data.path());
    // Another file stands in its place, and is no ledger.
    let ledger = data.path().join("coopside.sqlite");
    std::fs::remove_file(&ledger).unwrap_or_else(|error| panic!("{error}"));
    std::fs::write(&ledger, "something else altogether").unwrap_or_else(|error| panic!("{error}"));
    seat.sees("NOT KEPT");
    seat.press("1");
    seat.sees("How soon can a vet see her?");
    seat.press("x");
    assert_eq!(seat.ends(), 74, "{}", seat.text());
    assert_eq!(std::fs::read_to_string(&ledger).ok().as_deref(), Some("something else altogether"));
    let rescued = std::fs::read_dir(home.path()).unwrap_or_else(|error| panic!("{error}")).flatten().next();
    let rescued = rescued.unwrap_or_else(|| panic!("nothing was put elsewhere: {}", seat.text())).path();
    let import = std::process::Command::new(env!("CARGO_BIN_EXE_coopside"))
        .arg("import")
        .arg(&rescued)
        .env("COOPSIDE_DATA", other.path())
        .output()
        .unwrap_or_else(|error| panic!("{error}"));
    assert!(import.status.success(), "{}", String::from_utf8_lossy(&import.stderr));
    assert!(kept(other.path()) > whole, "the answer from before the loss and the one after it");
}

/// However many birds are overdue, another one's look rings; and all that wait are counted.
#[test]
fn a_look_rings_however_many_others_are_overdue() {
    let data = folder();
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}"));
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let mut ledger = Ledger::open(data.path()).unwrap_or_else(|error| panic!("{error}"));
    let mut bird = |name: &str, due: DateTime<Utc>| {
        let at = Utc::now() - TimeDelta::hours(2);
        let stamped = Stamped { at, entry: Entry::Named(name.into()) };
        let event = Event { id: EventId::new(), case: CaseId::new(), seq: 0, stamped, zone_min: 0 };
        let cover = Cover { name: name.into(), need: "not examined".into(), due: Some(due), ..Cover::default() };
        ledger.append(&event, &mark, &cover).unwrap_or_else(|error| panic!("{error}"));
    };
    (0..35).for_each(|nth| bird(&format!("Rue {nth}"), Utc::now() - TimeDelta::hours(1)));
    bird("Pepper", Utc::now() + TimeDelta::seconds(8));
    let seat = Seat::take(data.path(), 80, 40, &[], &[]);
    seat.sees("and 32 more birds wait");
    seat.sends("LOOK NOW: Pepper");
}

/// A clock that was left running is known at the next start, rings by name, and is ended in its bird's own log.
#[test]
fn a_clock_left_running_rings_after_a_new_start_and_ends_in_its_own_case() {
    let data = folder();
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}"));
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let mut ledger = Ledger::open(data.path()).unwrap_or_else(|error| panic!("{error}"));
    let mut bird = |name: &str, seconds_ago: i64| {
        let (case, at) = (CaseId::new(), Utc::now() - TimeDelta::seconds(seconds_ago));
        let entries = [Entry::Named(name.into()), Entry::Timed { action: "press".into(), seconds: 300 }];
        let mut log: Vec<Stamped> = Vec::new();
        for (seq, entry) in (0..).zip(entries) {
            log.push(Stamped { at, entry });
            let stamped = log.last().cloned().unwrap_or_else(|| panic!("just put there"));
            let cover = cover(&protocol, &log, &Cupboard::default(), coopside::zone::Zone::UTC, at, &english);
            let event = Event { id: EventId::new(), case: case.clone(), seq, stamped, zone_min: 0 };
            ledger.append(&event, &mark, &cover).unwrap_or_else(|error| panic!("{error}"));
        }
        case
    };
    let (saffron, _) = (bird("Saffron", 288), bird("Tansy", 900));
    let mut seat = Seat::take(data.path(), 100, 30, &[], &[]);
    seat.sees("The press clock of Tansy ran out at");
    seat.sees("Saffron: press 0:");
    seat.press("a");
    seat.sends("TIME IS UP: Saffron, press");
    seat.sees("Time is up for Saffron");
    seat.press("t");
    seat.sees("The press clock of Saffron is ended.");
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    let ledger = Ledger::open(data.path()).unwrap_or_else(|error| panic!("{error}"));
    let log = ledger.load(saffron).map_or_else(|error| panic!("{error}"), |case| case.log);
    assert_eq!(log.last().map(|last| &last.entry), Some(&Entry::ClockEnded));
    let clocks = ledger.clocks(Utc::now() - TimeDelta::hours(2), 20).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(clocks.iter().map(|case| case.cover.name.as_str()).collect::<Vec<_>>(), ["Tansy"]);
}
