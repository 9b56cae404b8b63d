//! What a terminal may send and refuse to take, in a real one: nothing of it holds up a frame, a clock, the ledger or a signal, and
//! none of it says anything of a bird.

#![cfg(unix)]
#![expect(clippy::panic, reason = "a failing test panics")]

use super::terminal::{PATIENCE, Seat, answered, folder, kept, some};
use portable_pty::PtySize;
use std::io::Write;
use std::sync::PoisonError;
use std::sync::atomic::Ordering;
use std::thread;
use std::time::{Duration, Instant};

const FIRST: &str = "Is any of this happening right now?";
/// Longer than half a sequence waits for its other half, and than a paste for its end.
const SILENCE: Duration = Duration::from_millis(700);

impl Seat {
    /// Bytes just as they are, at once.
    fn types(&mut self, bytes: &[u8]) {
        self.keys.write_all(bytes).and_then(|()| self.keys.flush()).unwrap_or_else(|error| panic!("{error}"));
    }

    /// How often it has sent this.
    fn sent_times(&self, text: &str) -> usize {
        let sent = self.sent.lock().unwrap_or_else(PoisonError::into_inner);
        String::from_utf8_lossy(&sent).matches(text).count()
    }

    #[track_caller]
    fn comes_to(&self, what: &str, is_so: impl Fn(&Self) -> bool) {
        let deadline = Instant::now() + PATIENCE;
        while !is_so(self) {
            assert!(Instant::now() < deadline, "waited until {what}; the screen shows\n{}", self.text());
            thread::sleep(Duration::from_millis(10));
        }
    }

    /// The terminal takes nothing more: nobody reads, and it is full.
    fn stalls(&mut self) {
        self.stalled.store(true, Ordering::Relaxed);
        for _ in 0..100 {
            self.types(b"\x0c");
            thread::sleep(Duration::from_millis(20));
        }
    }

    /// Its end, within this time.
    #[track_caller]
    fn ends_within(&mut self, time: Duration) -> u32 {
        let deadline = Instant::now() + time;
        loop {
            match self.child.try_wait() {
                Ok(Some(status)) => return status.exit_code(),
                Ok(None) => assert!(Instant::now() < deadline, "it does not end; the screen shows\n{}", self.text()),
                Err(error) => panic!("{error}"),
            }
            thread::sleep(Duration::from_millis(10));
        }
    }
}

/// Sequences that are begun and never ended, again and again: the clock on screen goes on, and so does whoever ends the program.
#[test]
fn half_a_sequence_stops_neither_a_clock_nor_a_signal() {
    for begun in [&b"\x1b["[..], b"\x1b]0;", b"\x1b[200~", b"\xf0\x9f"] {
        let data = folder();
        let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
        seat.sees(FIRST);
        seat.press("1");
        seat.sees("PRESS AND HOLD");
        seat.types(begun);
        let clock = |seat: &Seat| seat.text();
        for _ in 0..2 {
            let before = clock(&seat);
            let deadline = Instant::now() + PATIENCE;
            while clock(&seat) == before {
                assert!(Instant::now() < deadline, "the clock stands still; the screen shows\n{before}");
                seat.types(begun.get(begun.len() - 1..).unwrap_or_default());
                thread::sleep(Duration::from_millis(20));
            }
        }
        seat.types(begun);
        seat.signal(15);
        assert_eq!(seat.ends_within(Duration::from_secs(3)), 143, "{begun:?}");
    }
}

#[test]
fn control_with_c_leaves_whatever_was_begun() {
    for (begun, silence) in
        [(&b"\x1b["[..], Duration::ZERO), (b"\x1b]0;a title", Duration::ZERO), (b"\x1b[200~1 2 3", SILENCE)]
    {
        let data = folder();
        let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
        seat.sees(FIRST);
        seat.types(begun);
        thread::sleep(silence);
        seat.types(b"\x03");
        assert_eq!(seat.ends(), 0, "{begun:?}");
        seat.terminal_is_given_back();
    }
}

/// A terminal that nobody reads: what is said still comes to disk, a signal and a key still end it.
#[test]
fn a_terminal_that_takes_nothing_holds_up_neither_the_ledger_nor_leaving() {
    for (leaves, code) in [(None, 143), (Some(b"\x03"), 0)] {
        let data = folder();
        let mut seat = answered(data.path(), &[]);
        let before = kept(data.path());
        seat.stalls();
        // The question has been on screen all the time; its answer counts.
        seat.types(b"1");
        seat.comes_to("the answer is on disk", |_| kept(data.path()) > before);
        match leaves {
            None => seat.signal(15),
            Some(key) => seat.types(key),
        }
        assert_eq!(seat.ends_within(Duration::from_secs(4)), code);
        assert!(kept(data.path()) > before);
        seat.stalled.store(false, Ordering::Relaxed);
    }
}

#[test]
fn a_new_size_is_seen_while_nothing_is_typed() {
    let data = folder();
    let seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees(FIRST);
    let wide = |seat: &Seat| seat.text().lines().any(|line| line.trim_end().chars().count() > 100);
    assert!(!wide(&seat));
    seat.screen().screen_mut().set_size(some(40), some(120));
    let size = PtySize { rows: 40, cols: 120, pixel_width: 0, pixel_height: 0 };
    seat.master.resize(size).unwrap_or_else(|error| panic!("{error}"));
    seat.comes_to("it is drawn as wide as the screen", wide);
}

#[test]
fn everything_is_drawn_again_after_a_stop_and_when_asked_for() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees(FIRST);
    let times = seat.sent_times(FIRST);
    seat.types(b"\x0c");
    seat.comes_to("it is drawn again", |seat| seat.sent_times(FIRST) > times);
    let times = seat.sent_times(FIRST);
    seat.signal(rustix::process::Signal::STOP.as_raw());
    thread::sleep(Duration::from_millis(50));
    seat.signal(rustix::process::Signal::CONT.as_raw());
    seat.comes_to("it is drawn again", |seat| seat.sent_times(FIRST) > times);
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    seat.terminal_is_given_back();
}

/// Reports of a mouse, answers nobody asked for, numbers without an end, bytes that are no letters, a text pasted unmarked.
#[test]
fn hostile_bytes_end_nothing_and_answer_nothing() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[], &[]);
    seat.sees(FIRST);
    let hostile: [&[u8]; 16] = [
        b"\x1b[<0;0;0M\x1b[<0;0;0m",
        b"\x1b[M\xff\xff\xff\x1b[M   \x1b[M!!1",
        b"\x1b[99999999999999999999;99999999999999999999999999A",
        b"\x1b[1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1;1~",
        b"\x1b[[1\x1b[[A",
        b"\x1b]11;rgb:1111/1111/1111\x1b\\\x1bP1$r1m\x1b\\",
        b"\x1b[?1;2c\x1b[24;80R",
        b"\x9b1~\x8f1\x9d1\x07\xc2\x9b1~",
        b"\xff\xfe\xc3\x28\xf0\x9f\x90",
        b"\0\0\0\0\x1c\x1d\x1e\x1f",
        b"\x1b1\x1ba\x1b\xc3\xa9",
        b"\x1b[200~1\r1\ra\x1b[201~",
        b"1\r1\ra\r",
        b"\x1b[201~\x1b[200~\x1b[200~1\x1b[201~",
        b"\x1b[1",
        b"\x1b[200~1",
    ];
    for bytes in hostile {
        seat.types(bytes);
        thread::sleep(Duration::from_millis(150));
    }
    let mut dice = 1_u32;
    let noise: Vec<u8> = (0..20_000)
        .map(|_| {
            dice = dice.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            u8::try_from(0x80 | (dice >> 24)).unwrap_or_default()
        })
        .collect();
    seat.types(&noise);
    thread::sleep(SILENCE);
    seat.sees(FIRST);
    seat.press("x");
    assert_eq!(seat.ends(), 0);
    assert_eq!(kept(data.path()), 0, "something was answered");
    seat.terminal_is_given_back();
}
