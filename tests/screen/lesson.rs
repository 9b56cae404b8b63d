//! Practice on the screen: what shows, what is kept back, and what is never written down.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use crate::common::walk::Walk;
use coopside::session::{Face, Overlay};
use coopside::update::{self, Effect};

const SIZES: [(u16, u16); 4] = [(100, 30), (60, 24), (40, 20), (36, 14)];

fn with_bird(name: &str) -> Walk {
    let mut walk = Walk::practising();
    let lessons = walk.session.practice.as_ref().map(|practice| practice.lessons.clone()).unwrap_or_default();
    let script = lessons.into_iter().find(|script| script.name == name).unwrap_or_else(|| panic!("no lesson {name}"));
    assert!(update::begin(&mut walk.session, script).is_empty());
    walk
}

/// The lines numbered on the screen, at a size.
fn numbers(walk: &mut Walk, size: (u16, u16)) -> String {
    let frame = walk.frame(size.0, size.1);
    frame
        .lines()
        .filter_map(|line| line.get(1..3))
        .filter(|at| at.trim().parse::<u8>().is_ok())
        .map(str::trim)
        .collect()
}

#[test]
fn every_screen_of_a_lesson_says_practice_and_fits() {
    for size in SIZES {
        let mut walk = Walk::practising();
        for keys in ["", "<space>", "<esc>"] {
            walk.press(keys);
            assert!(walk.frame(size.0, size.1).contains("PRACTICE"), "{size:?}");
        }
        let mut walk = with_bird("bleeding_hard");
        for keys in ["1", "1", "5", "9", "1", "m", "v", "5", "1", "1"] {
            let frame = walk.press(keys).frame(size.0, size.1);
            assert!(frame.matches(" PRACTICE ").count() >= 2, "{size:?}\n{frame}");
        }
    }
    // Every deed can be chosen on a phone.
    let mut walk = with_bird("bleeding_hard");
    walk.press("11");
    assert_eq!(numbers(&mut walk, (40, 20)), "123456789");
}

/// Nothing of the program's own verdict shows before the novice's.
#[test]
fn the_verdict_is_kept_back_until_the_novice_has_given_one() {
    let mut walk = with_bird("bleeding_hard");
    for keys in ["1", "1", "5", "9", "1", "<esc>", "d", "<esc>", "m", "2", "w", "t", "f", "i", "l", "c"] {
        let frame = walk.press(keys).frame(100, 30);
        for told in ["SO FAR", "DO NOW", "vet at once", "NEVER"] {
            assert!(!frame.contains(told), "{told} shows after {keys}\n{frame}");
        }
        assert_eq!(walk.session.shown(), Face::Exam);
    }
}

#[test]
fn nothing_of_a_lesson_is_kept_but_its_mark() {
    let mut walk = with_bird("bleeding_hard");
    walk.press("1 1 5 9 v 5 1 1");
    assert!(walk.kept.is_empty(), "{:?}", walk.kept);
    let marks = walk.session.practice.as_ref().map_or(0, |practice| practice.marks.len());
    assert_eq!(marks, 1);
    // The effect that keeps it is the only one.
    let mut again = with_bird("bleeding_hard");
    again.press("1 1 5 9 v 5 1");
    let effects =
        update::update(&mut again.session, coopside::update::Input::Key(coopside::view::keys::Key::Char('1')));
    assert!(matches!(effects.as_slice(), [Effect::KeepMark(mark)] if mark.bird == "bleeding_hard"), "{effects:?}");
}

#[test]
fn the_novice_stays_in_the_step_that_was_chosen_and_then_chooses_again() {
    let mut walk = with_bird("mild_torn_nail");
    walk.press("4");
    let watch = walk.session.exam.step();
    assert_eq!(watch.map(|step| PROTOCOL.steps.of(step).id.as_str()), Some("watch"));
    let mut looks = 0;
    while walk.session.overlays.is_empty() {
        assert_eq!(walk.session.exam.step(), watch);
        walk.fine();
        looks += 1;
        assert!(looks < 30, "{}", walk.frame(100, 30));
    }
    assert_eq!(walk.session.overlays, [Overlay::Map(None)]);
    assert!(looks > 3);
    let frame = walk.frame(100, 30);
    assert!(!frame.contains("watch: still to come") && frame.contains("head: still to come"), "{frame}");
}

#[test]
fn time_that_is_skipped_shows_on_her_and_stops_with_the_go() {
    let mut walk = with_bird("bleeding_hard");
    walk.press("1");
    let before = walk.session.now;
    walk.press("ttt");
    assert_eq!((walk.session.now - before).num_minutes(), 15);
    let frame = walk.frame(100, 30);
    assert!(frame.contains("15 min with her") && frame.contains("Her lid is white"), "{frame}");
    walk.press("v 5 1 1 b");
    let lessons = walk.session.practice.as_ref().map(|practice| practice.lessons.clone()).unwrap_or_default();
    let script = lessons.into_iter().next().unwrap_or_else(|| panic!("no lesson"));
    update::begin(&mut walk.session, script);
    assert!(walk.frame(100, 30).contains("0 min with her"), "{}", walk.frame(100, 30));
}

#[test]
fn a_mentor_reads_the_question_and_what_to_tell() {
    let mut walk = with_bird("trap_hole_flank");
    if let Some(practice) = &mut walk.session.practice {
        practice.aloud = true;
    }
    let frame = walk.press("41").frame(100, 30);
    assert!(frame.contains("SAY: ") && frame.contains("TELL: You see: "), "{frame}");
}

/// No clock runs for a hand that does not press: what was not chosen to be done is not done, and that is said.
#[test]
fn a_card_passed_over_starts_no_clock() {
    let mut walk = with_bird("bleeding_hard");
    let row = |walk: &Walk, says: &str| {
        let at = coopside::view::rows::rows(&walk.session)
            .iter()
            .position(|row| walk.session.reader().say(&row.label).contains(says));
        (at.unwrap_or_else(|| panic!("no row {says}")) + 1).to_string()
    };
    walk.press("1 1");
    let (press, on) = (row(&walk, "Press. Eye"), row(&walk, "nothing more"));
    let frame = walk.press(&on).frame(60, 24);
    assert_eq!(walk.session.timer(), None, "{frame}");
    assert!(!frame.contains("press ") && frame.contains("Not done yet: Press"), "{frame}");
    assert_eq!(walk.asked(), "bleeding_now");
    // Something else that is done presses no more than nothing does.
    let mut other = with_bird("bleeding_hard");
    other.press("1 1");
    let deed = if press == "1" { "2" } else { "1" };
    other.press(deed).press(&on);
    assert_eq!(other.session.timer(), None);
    // Chosen, it is done, and its clock runs on.
    let mut done = with_bird("bleeding_hard");
    let frame = done.press("1 1").press(&press).press(&on).frame(60, 24);
    assert!(done.session.timer().is_some() && frame.contains("press 5:00"), "{frame}");
}

/// Two people, one real bird: what she needs at once is shown to both, the verdict to neither until both have looked.
#[test]
fn two_look_at_one_real_bird_and_are_compared() {
    let mut walk = Walk::practising();
    walk.press("4");
    // The novice sees hard bleeding: the instruction is for a real bird, and comes.
    let frame = walk.press("1").frame(100, 30);
    assert!(frame.contains("PRESS AND HOLD"), "{frame}");
    walk.press("<enter>");
    assert!(walk.kept.is_empty());
    walk.press("v1");
    assert!(walk.session.log.is_empty(), "the mentor begins anew");
    walk.press("a");
    let frame = walk.press("v1").frame(100, 30);
    assert!(frame.contains("BOTH EXAMINATIONS") && frame.contains("novice vet at once"), "{frame}");
    assert!(frame.contains("Bleeding hard: novice bleeding hard (one step graver); mentor no."), "{frame}");
}
