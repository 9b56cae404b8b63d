//! The clocks of other birds: known from the start, rung by name wherever one is, and ended from anywhere.

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, now};
use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::days::Days;
use coopside::days::cover::{clock, cover};
use coopside::days::due::{Running, Waits};
use coopside::finding::log::{Entry, Outcome, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{Case, CaseId};
use coopside::phrase::Text;
use coopside::session::{Face, Overlay, Page};
use coopside::update::{Effect, Input};
use coopside::view::keys::Key;
use coopside::words::english;

fn words(frame: &str) -> String {
    frame.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn running(bird: &str, case: &CaseId, ends_in: i64) -> Running {
    Running {
        case: Some(case.clone()),
        begun: now() - TimeDelta::hours(1),
        bird: Text::typed(bird),
        what: Text::typed("press"),
        ends_at: now() + TimeDelta::seconds(ends_in),
    }
}

fn waits(clocks: Vec<Running>) -> Input {
    Input::Waiting(Waits { clocks, ..Waits::default() })
}

fn log(entries: Vec<(i64, Entry)>) -> Vec<Stamped> {
    entries.into_iter().map(|(s, entry)| Stamped { at: now() + TimeDelta::seconds(s), entry }).collect()
}

fn press(seconds: u16) -> Entry {
    Entry::Timed { action: "press".into(), seconds }
}

fn ends(log: &[Stamped]) -> Option<DateTime<Utc>> {
    clock(&PROTOCOL, log, &Days::of(log)).map(|clock| clock.ends_at)
}

#[test]
fn a_clock_kept_for_another_bird_shows_rings_by_name_and_ends_in_her_own_log() {
    let (saffron, mut walk) = (CaseId::new(), Walk::new());
    walk.take(waits(vec![running("saffron", &saffron, 60)]));
    assert!(words(&walk.frame(100, 30)).contains("Saffron: press 1:00"), "{}", walk.frame(100, 30));
    walk.press("aaa");
    walk.wait(59);
    assert!(walk.asked_for.is_empty());
    walk.wait(2);
    assert_eq!(walk.titles(), ["TIME IS UP: Saffron, press"]);
    let told = words(&walk.frame(60, 24));
    assert!(told.contains("Time is up for Saffron") && told.contains("t ends it"), "{told}");
    // Told again of it, it rings no second time.
    walk.take(waits(vec![running("saffron", &saffron, 60)]));
    walk.wait(1);
    assert_eq!(walk.asked_for.len(), 1);
    walk.asked_for.clear();
    let log = walk.session.log.len();
    let told = words(&walk.press("t").frame(60, 24));
    let ends_at = now() + TimeDelta::seconds(60);
    assert_eq!(walk.asked_for, [Effect::EndClock(saffron.clone(), ends_at)]);
    assert!(told.contains("The press clock of Saffron is ended") && !told.contains("Time is up"), "{told}");
    assert_eq!(walk.session.log.len(), log, "nothing is written into the bird that lies open");
    // What was read before that was on disk brings it back no more.
    walk.take(waits(vec![running("saffron", &saffron, 60)]));
    assert!(walk.session.flock.clocks.is_empty());
}

#[test]
fn the_key_that_ends_it_works_wherever_one_is() {
    let places: [(&str, Vec<Overlay>, Face); 9] = [
        ("the list of birds", vec![Overlay::Flock], Face::Exam),
        ("her case", vec![Overlay::Case], Face::Exam),
        ("help", vec![Overlay::Help], Face::Exam),
        ("a page", vec![Overlay::Page(Page::Law)], Face::Exam),
        ("the house", vec![Overlay::House], Face::Exam),
        ("the sums", vec![Overlay::Sums(None)], Face::Exam),
        ("why", vec![Overlay::Why(None)], Face::Verdict),
        ("the plan", Vec::new(), Face::Plan),
        ("a question", Vec::new(), Face::Exam),
    ];
    for (place, overlays, face) in places {
        let (case, mut walk) = (CaseId::new(), Walk::new());
        walk.press("aaa").take(waits(vec![running("saffron", &case, 5)]));
        (walk.session.overlays, walk.session.face) = (overlays, face);
        walk.wait(6);
        assert!(words(&walk.frame(100, 30)).contains("Time is up for Saffron"), "{place}: {}", walk.frame(100, 30));
        walk.asked_for.clear();
        walk.press("t");
        assert!(matches!(walk.asked_for.as_slice(), [Effect::EndClock(of, _)] if *of == case), "{place}");
        assert!(!words(&walk.frame(100, 30)).contains("Time is up"), "{place}");
    }
    // Where her own case is over, too.
    let (case, mut walk) = (CaseId::new(), Walk::new());
    walk.press("aaa").session.record(Entry::Closed { outcome: Outcome::Died, proved: String::new() });
    walk.take(waits(vec![running("saffron", &case, 5)]));
    walk.wait(6).press("t");
    assert!(walk.session.flock.clocks.is_empty());
}

/// Whatever showed when the time was up: the key that ends the clock asks what has come of it.
#[test]
fn what_has_come_of_a_press_is_asked_from_wherever_its_clock_is_ended() {
    for keys in ["", "d", "v", "dd", "dh", "i", "m"] {
        let mut walk = Walk::new();
        walk.press("1<enter>aa").press(keys).wait(301);
        assert!(words(&walk.frame(60, 24)).contains("say what came of it"), "{keys}\n{}", walk.frame(60, 24));
        walk.press("t");
        assert_eq!(walk.asked(), "bleeding_now", "{keys}");
        assert_eq!((walk.session.shown(), walk.session.overlays.len()), (Face::Exam, 0), "{keys}");
    }
}

/// The key ends what the screen says is up: never another clock.
#[test]
fn the_key_ends_the_clock_that_is_said_to_be_up() {
    let (case, mut walk) = (CaseId::new(), Walk::new());
    walk.press("aaa").session.record(press(300));
    walk.take(waits(vec![running("saffron", &case, 5)]));
    walk.wait(6);
    assert!(words(&walk.frame(60, 24)).contains("Time is up for Saffron"));
    walk.press("t");
    assert!(walk.session.timer().is_some() && walk.session.flock.clocks.is_empty(), "her own clock runs on");
    walk.press("t");
    assert!(walk.session.timer().is_none(), "alone, it is the one that ends");
    // Both up: her own is told first, and ends first.
    walk.session.record(press(1));
    walk.take(waits(vec![running("tansy", &case, 8)]));
    walk.wait(5);
    assert!(words(&walk.frame(60, 24)).contains("Time is up: the press clock"));
    walk.press("t");
    assert!(walk.session.timer().is_none() && walk.session.flock.clocks.len() == 1);
}

#[test]
fn what_ran_out_while_nobody_was_here_is_told_once_by_name() {
    let (saffron, tansy, mut walk) = (CaseId::new(), CaseId::new(), Walk::new());
    walk.take(waits(vec![running("saffron", &saffron, -600), running("tansy", &tansy, 30)]));
    let at = walk.session.zone.clock(now() - TimeDelta::seconds(600));
    let told = format!("The press clock of Saffron ran out at {at}.");
    assert!(words(&walk.frame(60, 40)).contains(&told), "{}", walk.frame(60, 40));
    assert!(walk.asked_for.is_empty(), "it rings no more");
    walk.press("aaa").take(waits(vec![running("saffron", &saffron, -600), running("tansy", &tansy, 30)]));
    let later = words(&walk.frame(60, 40));
    assert!(!later.contains("ran out at") && !later.contains("Time is up for Saffron"), "{later}");
    assert_eq!(walk.session.flock.clocks.len(), 1);
    // One that ran out since the start, before it was told of, rings at once.
    let mut walk = Walk::new();
    walk.wait(20).take(waits(vec![running("saffron", &saffron, 10)]));
    assert_eq!(walk.titles(), ["TIME IS UP: Saffron, press"]);
}

/// Her clock is her own again once she lies open, whichever way she was opened; another window's clock of her is no second one.
#[test]
fn the_clock_of_the_bird_that_lies_open_is_never_anothers() {
    let (case, log) = (CaseId::new(), log(vec![(0, Entry::Named("Saffron".into())), (1, press(300))]));
    let own = Running { begun: now(), ..running("Saffron", &case, 301) };
    for opens in [Input::Opened(Case { id: case.clone(), log: log.clone() }), Input::Left(Case { id: case, log })] {
        let mut walk = Walk::new();
        walk.take(waits(vec![own.clone()]));
        assert_eq!(walk.session.flock.clocks.len(), 1);
        let resumes = matches!(opens, Input::Left(_));
        walk.take(opens);
        if resumes {
            walk.press("g");
        }
        assert!(walk.session.flock.clocks.is_empty() && walk.session.timer().is_some());
        walk.take(waits(vec![own.clone()]));
        assert!(walk.session.flock.clocks.is_empty());
    }
}

#[test]
fn a_cover_tells_the_clock_that_runs_until_it_is_ended() {
    let own = |entries| ends(&log(entries));
    let at = |s| Some(now() + TimeDelta::seconds(s));
    assert_eq!(own(vec![(0, press(300))]), at(300));
    assert_eq!(own(vec![(0, press(300)), (9, press(60))]), at(69));
    assert_eq!(own(vec![(0, press(300)), (9, Entry::ClockEnded)]), None);
    assert_eq!(own(vec![(0, press(300)), (9, Entry::Closed { outcome: Outcome::Died, proved: String::new() })]), None);
    // The card that lies open brings its own clock; it ends with the card, or by a key pressed elsewhere.
    let card = |more: Vec<(i64, Entry)>| {
        let said =
            Statement { about: About::Bird, question: "bleeding_hard".into(), answer: Answer::Choice("yes".into()) };
        own([(0, Entry::Said(vec![said])), (5, Entry::Began("press".into()))].into_iter().chain(more).collect())
    };
    assert_eq!(card(vec![]), at(305));
    assert_eq!(card(vec![(9, Entry::Ended("press".into()))]), None);
    assert_eq!(card(vec![(9, Entry::ClockEnded)]), None);
    assert_eq!(card(vec![(9, Entry::ClockEnded), (10, Entry::Began("press".into()))]), at(310));
    // A card that comes up ends the clock of its step, not its own.
    assert_eq!(own(vec![(0, press(600)), (5, Entry::Began("press".into())), (5, Entry::ClockEnded)]), at(305));
    let cover =
        cover(&PROTOCOL, &log(vec![(0, press(300))]), &Cupboard::default(), coopside::zone::Zone::UTC, now(), &english);
    assert_eq!(cover.clock.map(|clock| (clock.what, Some(clock.ends_at))), Some(("press".to_owned(), at(300))));
}

/// Leaving in the middle of something is asked about once, by every key that leaves; another key is no yes.
#[test]
fn leaving_with_a_clock_or_half_a_line_is_asked_about_once() {
    let mut walk = Walk::new();
    walk.press("1");
    assert!(walk.press("x").frame(60, 24).contains("A clock runs"), "{}", walk.frame(60, 24));
    assert!(!walk.left);
    walk.press("w").press("<esc>").press("x");
    assert!(!walk.left, "another key came between");
    walk.press("x");
    assert!(walk.left);
    let mut walk = Walk::new();
    walk.press("aaa").to("weight").press("1 2 2");
    walk.key(Key::Control('c'));
    assert!(!walk.left && walk.session.typed() == Some("22"), "{:?}", walk.session.typed());
    assert!(walk.frame(40, 20).contains("what is typed is not kept"), "{}", walk.frame(40, 20));
    walk.key(Key::Control('c'));
    assert!(walk.left);
    // Where nothing is lost, nothing is asked.
    let mut walk = Walk::new();
    walk.press("a").press("x");
    assert!(walk.left);
}

/// Somebody presses, and the machine's clock is set an hour on or back: five minutes stay five minutes, and it is said.
#[test]
fn a_clock_that_is_set_ends_no_pressing_and_lengthens_none() {
    for hours in [1, -1] {
        let mut walk = Walk::new();
        walk.press("1").wait(60);
        let by = TimeDelta::hours(hours);
        walk.session.now += by;
        walk.take(Input::ClockSet(by));
        let frame = walk.frame(60, 24);
        assert!(frame.contains("4:00 to go"), "{hours}: {frame}");
        assert!(words(&frame).contains("clock was set"), "{hours}: {frame}");
        walk.wait(239);
        assert!(walk.frame(60, 24).contains("0:01 to go"), "{hours}: {}", walk.frame(60, 24));
        walk.wait(2);
        assert!(walk.frame(60, 24).contains("Time is up"), "{hours}: {}", walk.frame(60, 24));
    }
}
