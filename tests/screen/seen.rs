//! No key counts for a screen that was not there yet, and a key struck twice or held down counts once.

use crate::common::walk::Walk;
use coopside::finding::log::Entry;
use coopside::practice;
use coopside::update::Input;
use coopside::update::seen::{KeysFor, OnScreen, SAME_MOVEMENT};
use coopside::view::keys::{Key, Untaken};
use std::time::Duration;

/// A walk through a terminal that draws after each key that was taken.
struct Desk {
    walk: Walk,
    seen: OnScreen,
    at: Duration,
}

impl Desk {
    fn new() -> Self {
        let (walk, mut seen) = (Walk::new(), OnScreen::default());
        seen.shows(KeysFor::of(&walk.session));
        Self { walk, seen, at: Duration::ZERO }
    }

    /// A key some time after the one before, with nothing drawn since.
    fn blind(&mut self, c: char, after: Duration) -> Result<(), Untaken> {
        self.at += after;
        let taken = self.seen.takes(&self.walk.session, Key::Char(c), self.at);
        if taken.is_ok() {
            self.walk.key(Key::Char(c));
        }
        taken
    }

    /// The same, and what came of it is drawn.
    fn key(&mut self, c: char, after: Duration) -> Result<(), Untaken> {
        let taken = self.blind(c, after);
        self.seen.shows(KeysFor::of(&self.walk.session));
        taken
    }
}

const SOON: Duration = Duration::from_millis(30);
const LATER: Duration = Duration::from_secs(1);

#[test]
fn a_key_pressed_before_its_screen_was_drawn_is_not_taken() {
    let mut desk = Desk::new();
    assert_eq!(desk.blind('2', LATER), Ok(()));
    assert_eq!(desk.walk.asked(), "instruction breathe");
    // Nothing has been drawn since: neither this key nor another counts, however late it is.
    for c in ['b', 'v', 'd', 'e', '1', 'a'] {
        assert_eq!(desk.blind(c, LATER), Err(Untaken::TooSoon), "{c}");
    }
    assert_eq!(desk.walk.asked(), "instruction breathe");
    desk.seen.shows(KeysFor::of(&desk.walk.session));
    assert_eq!(desk.key('b', LATER), Ok(()));
    // It is told.
    desk.walk.take(Input::Untaken(Untaken::TooSoon));
    assert!(desk.walk.frame(40, 20).contains("not taken"), "{}", desk.walk.frame(40, 20));
}

#[test]
fn a_key_struck_twice_or_held_down_counts_once() {
    for repeats in [1, 2, 20] {
        let mut desk = Desk::new();
        assert_eq!(desk.key('a', LATER), Ok(()));
        for _ in 0..repeats {
            assert_eq!(desk.key('a', SOON), Err(Untaken::TooSoon), "held down, {repeats} times");
        }
        assert_eq!(desk.walk.asked(), "list shows");
        assert_eq!(desk.walk.session.page, 0, "the second page was not seen");
        // Let go, and pressed again.
        assert_eq!(desk.key('a', SAME_MOVEMENT), Ok(()));
        assert_eq!(desk.walk.session.page, 1);
    }
    // Another key is another movement.
    let mut desk = Desk::new();
    assert_eq!(desk.key('a', LATER), Ok(()));
    assert_eq!(desk.key('3', SOON), Ok(()));
    assert_eq!(desk.walk.asked(), "instruction after_bite");
}

#[test]
fn what_is_typed_and_leaving_are_exempt() {
    let mut desk = Desk::new();
    desk.walk.press("aaa").to("weight").press("1");
    assert!(desk.walk.session.line.is_some());
    // Nothing of it has been drawn.
    for c in ['2', '2', '0', '0', '0'] {
        assert_eq!(desk.blind(c, SOON), Ok(()));
    }
    assert_eq!(desk.walk.session.typed(), Some("22000"));
    let mut desk = Desk::new();
    desk.walk.press("2");
    assert_eq!(desk.seen.takes(&desk.walk.session, Key::Control('c'), LATER), Ok(()));
    assert!(OnScreen::takes_early(&desk.walk.session, Key::Control('c')));
    assert!(!OnScreen::takes_early(&desk.walk.session, Key::Char('x')));
}

#[test]
fn what_a_small_screen_does_not_show_takes_no_answer() {
    for size in [(35, 20), (40, 13), (10, 4)] {
        let mut desk = Desk::new();
        desk.walk.frame(size.0, size.1);
        desk.seen.shows(KeysFor::of(&desk.walk.session));
        for c in ['1', 'a', '0', 'n'] {
            assert_eq!(desk.key(c, LATER), Err(Untaken::NotShown), "{size:?} {c}");
        }
        assert!(desk.walk.session.log.is_empty());
        assert_eq!(desk.seen.takes(&desk.walk.session, Key::Control('c'), LATER), Ok(()));
    }
}

/// Every key of every screen on the way of a bird, struck twice within one movement: nothing is said twice.
#[test]
fn no_key_struck_twice_says_more_than_once() {
    let shipped = practice::shipped();
    assert!(shipped.len() > 100);
    for start in
        ["", "a", "aa1", "aaa", "aaa1", "aaa1n", "aaa1n1", "aaa1n1 3", "aaa1n1 3 4 1 a", "1 <enter>", "2 <enter>"]
    {
        for c in "123456789a0n".chars() {
            let mut desk = Desk::new();
            desk.walk.press(start);
            desk.seen.shows(KeysFor::of(&desk.walk.session));
            let before = desk.walk.session.log.len();
            let _ = desk.key(c, LATER);
            let once = desk.walk.session.log.clone();
            let said = |log: &[coopside::finding::log::Stamped]| {
                log.iter().skip(before).filter(|stamped| matches!(stamped.entry, Entry::Said(_))).count()
            };
            let place = desk.walk.asked();
            let _ = desk.key(c, SOON);
            assert_eq!(said(&desk.walk.session.log), said(&once), "{start:?} then {c} twice, at {place}");
        }
    }
}
