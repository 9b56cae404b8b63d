//! The cards of a course on the screen: what fits, what a tick does, which card comes next.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use crate::common::now;
use crate::common::walk::Walk;
use chrono::{DateTime, TimeDelta, Utc};
use coopside::care::cupboard::Cupboard;
use coopside::content::course::{CardOf, Does, cards};
use coopside::days::due::{TestDue, Waiting, Waits, waiting};
use coopside::finding::log::{Entry, Stamped, ticked};
use coopside::ledger::{Case, CaseId, Setting};
use coopside::phrase::Text;
use coopside::practice;
use coopside::session::context::Context;
use coopside::update::Input;

/// A walk that has come to a scripted bird, whatever was pressed for it.
fn at(name: &str, text: &str) -> Walk {
    let (_, known) = practice::read(&PROTOCOL, name, text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
    let mut walk = Walk::at(&known);
    walk.press("d");
    walk
}

fn ticks(walk: &Walk) -> Vec<(String, bool)> {
    let tick = |entry: &Entry| match entry {
        Entry::Ticked { what, done } => Some((what.to_string(), *done)),
        _ => None,
    };
    walk.kept.iter().filter_map(|stamped| tick(&stamped.entry)).collect()
}

/// Something that happens to a walk.
type Happens = Box<dyn FnMut(&mut Walk)>;

#[test]
fn every_card_fits_a_phone_without_scrolling() {
    let mut cards = 0;
    let mut over = Vec::new();
    for (name, text) in practice::shipped() {
        let mut walk = at(name, text);
        if walk.session.context() != Context::Course {
            continue;
        }
        let all = walk.session.cards.len();
        for card in 0..all {
            walk.session.turned_card = Some(card);
            for (columns, rows) in [(40, 20), (60, 24), (100, 30)] {
                cards += 1;
                let frame = walk.frame(columns, rows);
                if frame.contains("more below") {
                    over.push(format!("{name}, {columns}x{rows}, card {card}:\n{frame}"));
                }
            }
        }
    }
    assert!(cards > 1_000, "{cards}");
    assert!(over.is_empty(), "{} of {cards}\n{}", over.len(), over.join("\n"));
}

#[test]
fn enter_ticks_line_after_line_and_the_next_card_comes() {
    let (name, text) = ("bleeding_hard", shipped("bleeding_hard"));
    let mut walk = at(name, text);
    let cards = walk.session.cards.clone();
    assert_eq!(walk.session.context(), Context::Course);
    let first = cards[0].acts.len();
    assert!(first >= 2, "{first}");
    for _ in 0..first {
        assert_eq!(walk.session.card_at(&cards), 0);
        walk.press("<enter>");
    }
    assert_eq!(ticks(&walk).len(), first);
    assert!(ticks(&walk).iter().all(|(_, done)| *done));
    assert_ne!(walk.session.card_at(&walk.session.cards), 0, "all of the first card is done");
    // No tick says anything of the bird.
    assert!(walk.frame(40, 20).contains("Done. Next:"), "{}", walk.frame(40, 20));
}

#[test]
fn a_digit_ticks_and_the_same_digit_takes_it_back() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    let (need, cards) = (walk.session.verdict.need, walk.session.cards.clone());
    walk.press("2");
    walk.press("2");
    let told = ticks(&walk);
    assert_eq!(told.len(), 2);
    assert_eq!((told[0].1, told[1].1), (true, false));
    assert_eq!(told[0].0, told[1].0);
    assert!(ticked(&walk.session.log).is_empty());
    assert_eq!(walk.session.verdict.need, need);
    // A line that is not there ticks nothing, and says so.
    walk.press("9");
    assert_eq!(ticks(&walk).len(), 2);
    assert!(walk.frame(60, 24).contains("No such line"), "{}", walk.frame(60, 24));
    assert_eq!(walk.session.cards, cards);
}

#[test]
fn a_line_tells_how_it_is_done_and_its_clock_can_be_started_again() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    let how = walk.press("w").frame(60, 60);
    assert!(how.contains("WHY:") && how.contains("Finding:"), "{how}");
    walk.press("b");
    assert_eq!(walk.session.context(), Context::Course);
    assert!(walk.session.timed_here().is_some());
    walk.press("t");
    let first = walk.session.timer();
    assert!(first.is_some());
    // Five minutes are up and it bleeds again: the same key ends that clock, and starts another.
    walk.wait(301);
    walk.press("tt");
    assert!(walk.session.timer().is_some_and(|timer| Some(timer) != first));
    assert!(ticks(&walk).is_empty(), "a clock ticks nothing off");
}

#[test]
fn what_is_ticked_is_kept_whatever_is_taken_back() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    walk.press("1");
    let done = ticked(&walk.session.log);
    walk.session.record(Entry::TookBack);
    assert_eq!(ticked(&walk.session.log), done);
    // A new look asks for what is to be done then.
    walk.session.record(Entry::LookBegan(Vec::new()));
    assert!(ticked(&walk.session.log).is_empty());
}

#[test]
fn cards_are_turned_in_a_ring_and_the_whole_plan_is_one_key_away() {
    let mut walk = at("open_break", shipped("open_break"));
    let cards = walk.session.cards.clone();
    for at in 0..cards.len() {
        assert_eq!(walk.session.card_at(&cards), at);
        walk.press("<space>");
    }
    assert_eq!(walk.session.card_at(&cards), 0);
    let humane = cards.iter().any(|card| matches!(card.of, CardOf::Humane(_)));
    assert_eq!(humane, walk.session.plan.humane.is_some());
    walk.press("d");
    assert_eq!(walk.session.context(), Context::Plan);
    assert!(ticks(&walk).is_empty());
}

#[test]
fn each_line_of_a_course_has_a_name_of_its_own() {
    for (name, text) in practice::shipped() {
        let walk = at(name, text);
        let mut names: Vec<String> = Vec::new();
        for card in walk.session.cards.iter().filter(|card| matches!(card.of, CardOf::Stage(_))) {
            for act in &card.acts {
                names.push(act.does.name(&PROTOCOL).to_string());
            }
        }
        let all = names.len();
        names.sort();
        names.dedup();
        assert_eq!(names.len(), all, "{name}: {names:?}");
    }
}

fn shipped(name: &str) -> &'static str {
    let found = practice::shipped().into_iter().find(|(of, _)| *of == name);
    found.map_or_else(|| panic!("{name}"), |(_, text)| text)
}

#[test]
fn whom_to_call_stands_below_the_call_and_every_card_still_fits() {
    let mut told = 0;
    for (name, text) in practice::shipped().into_iter().step_by(4) {
        let mut walk = at(name, text);
        walk.take(Input::Set(Setting::Contacts, "vet The mill, 555 0100\nauthority 555 0122\n".into()));
        for card in 0..walk.session.cards.len() {
            walk.session.turned_card = Some(card);
            let frame = walk.frame(40, 20);
            assert!(!frame.contains("more below"), "{name}\n{frame}");
            let calls = walk.session.cards[card].acts.iter().any(|act| matches!(act.does, Does::Phone(_)));
            told += usize::from(calls);
            assert!(!calls || frame.replace('\u{a0}', " ").contains("The mill, 555 0100"), "{name}\n{frame}");
        }
        walk.take(Input::Set(Setting::Practice, String::new()));
        assert!(
            walk.session.cards.iter().flat_map(|card| &card.acts).all(|act| act.call.is_none()),
            "practice phones nobody"
        );
    }
    assert!(told > 20, "{told}");
}

#[test]
fn cards_follow_whatever_they_are_laid_out_from() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    let fresh = |walk: &Walk| {
        let session = &walk.session;
        cards(session.protocol, &session.verdict, &session.plan, &session.contacts, session.reader())
    };
    let mut steps: Vec<Happens> = vec![
        Box::new(|walk| {
            walk.press("1");
        }),
        Box::new(|walk| walk.take(Input::Set(Setting::Contacts, "vet 555 0100\n".into()))),
        Box::new(|walk| walk.take(Input::Set(Setting::Cupboard, "gauze\n".into()))),
        Box::new(|walk| {
            walk.wait(3_600);
        }),
        Box::new(|walk| drop(walk.session.record(Entry::LookedOver))),
        Box::new(|walk| drop(walk.session.record(Entry::TookBack))),
    ];
    for (number, step) in steps.iter_mut().enumerate() {
        step(&mut walk);
        assert_eq!(walk.session.cards, fresh(&walk), "after step {number}");
    }
}

#[test]
fn the_test_of_a_ban_and_the_next_day_ring_once_and_say_whose_they_are() {
    let mut walk = at("fighting_breath", shipped("fighting_breath"));
    walk.session.record(Entry::Named("Saffron".into()));
    let tests = |walk: &Walk| {
        let acts =
            walk.session.cards.iter().flat_map(|card| &card.acts).filter(|act| matches!(act.does, Does::Test(_)));
        acts.filter_map(|act| act.at).collect::<Vec<_>>()
    };
    let first = tests(&walk)[0];
    let to = |walk: &Walk, at: DateTime<Utc>| (at - walk.session.now).num_seconds();
    let before = to(&walk, first) - 1;
    walk.wait(before);
    walk.asked_for.clear();
    walk.wait(2);
    let told = walk.session.notice.clone().map(|told| walk.session.say(told)).unwrap_or_default();
    assert!(told.starts_with("Saffron, ") && told.contains('?'), "{told}");
    assert!(walk.titles().iter().any(|title| title.starts_with("DUE: Saffron, ")), "{:?}", walk.titles());
    // Once: the next ticks of that minute say nothing.
    walk.asked_for.clear();
    walk.session.notice = None;
    walk.wait(1).wait(1);
    assert!(walk.session.notice.is_none() && walk.titles().is_empty(), "{:?}", walk.titles());
}

#[test]
fn a_test_that_was_ticked_off_does_not_ring() {
    let mut walk = at("fighting_breath", shipped("fighting_breath"));
    let acts = walk.session.cards.iter().flat_map(|card| &card.acts).filter(|act| matches!(act.does, Does::Test(_)));
    let tests: Vec<_> = acts.map(|act| (act.does.name(&PROTOCOL), act.at)).collect();
    for (what, _) in &tests {
        walk.session.record(Entry::Ticked { what: what.clone(), done: true });
    }
    let due = tests.iter().filter_map(|(_, at)| *at).max().unwrap_or_else(|| panic!("no test"));
    let seconds = (due - walk.session.now).num_seconds() + 1;
    walk.wait(seconds);
    assert!(walk.session.notice.is_none(), "{:?}", walk.session.notice);
}

#[test]
fn the_next_day_opens_by_the_clock() {
    let mut walk = at("closed_break_no_vet", shipped("closed_break_no_vet"));
    let (name, opens) = practice::shipped()
        .into_iter()
        .find_map(|(name, text)| {
            walk = at(name, text);
            Some((name, walk.session.cards.iter().find_map(|card| card.opens_at)?))
        })
        .unwrap_or_else(|| panic!("no card opens by the clock"));
    let card = walk.session.cards.iter().position(|card| card.opens_at.is_some());
    walk.session.turned_card = card;
    assert!(walk.frame(60, 24).contains("Opens "), "{name}\n{}", walk.frame(60, 24));
    let seconds = (opens - walk.session.now).num_seconds() + 1;
    walk.wait(seconds);
    let told = walk.session.notice.clone().map(|told| walk.session.say(told)).unwrap_or_default();
    assert!(told.contains("THE DAYS") && told.contains("begins"), "{name}: {told}");
    walk.session.turned_card = walk.session.cards.iter().position(|card| card.opens_at.is_some());
    assert!(!walk.frame(60, 24).contains("Opens "), "{name}\n{}", walk.frame(60, 24));
}

#[test]
fn the_test_of_another_bird_rings_by_name() {
    let mut walk = at("mild_scrape", shipped("mild_scrape"));
    let at = now() + TimeDelta::minutes(10);
    let tests = vec![TestDue { at, ask: Text::typed("Dry three hours? Rinse.") }];
    let bird = Waiting {
        case: CaseId::new(),
        bird: Text::typed("dill"),
        at: now() + TimeDelta::hours(5),
        next: None,
        last: None,
        unexamined: false,
        tests,
    };
    walk.take(Input::Waiting(Waits { birds: vec![bird], ..Waits::default() }));
    walk.wait(601);
    let told = walk.session.notice.clone().map(|told| walk.session.say(told)).unwrap_or_default();
    assert!(told.starts_with("Dill, ") && told.ends_with("Dry three hours? Rinse."), "{told}");
}

/// What a log tells of a bird's tests: what the writer tells of one who does not lie open.
#[test]
fn a_bird_that_waits_brings_her_tests_until_they_are_ticked_off() {
    let walk = at("fighting_breath", shipped("fighting_breath"));
    let mut case = Case { id: CaseId::new(), log: walk.session.log.clone() };
    let tests = |case: &Case| {
        let waits = waiting(&PROTOCOL, case, &Cupboard::default(), coopside::zone::Zone::UTC, now());
        waits.map(|waits| waits.tests).unwrap_or_default()
    };
    let all = tests(&case);
    assert!(!all.is_empty());
    let card = walk.session.cards.iter().flat_map(|card| &card.acts).find(|act| matches!(act.does, Does::Test(_)));
    let what = card.unwrap_or_else(|| panic!("no test")).does.name(&PROTOCOL);
    case.log.push(Stamped { at: now(), entry: Entry::Ticked { what, done: true } });
    assert_eq!(tests(&case).len() + 1, all.len());
}

#[test]
fn who_ticks_line_after_line_comes_by_every_card() {
    let mut bare = 0;
    for (name, text) in practice::shipped().into_iter().step_by(3) {
        let mut walk = at(name, text);
        if walk.session.context() != Context::Course {
            continue;
        }
        let all = walk.session.cards.len();
        let mut seen = vec![walk.session.card_at(&walk.session.cards)];
        for _ in 0..60 {
            walk.press("<enter>");
            seen.push(walk.session.card_at(&walk.session.cards));
        }
        bare += walk.session.cards.iter().filter(|card| card.acts.is_empty()).count();
        let missed: Vec<usize> = (0..all).filter(|card| !seen.contains(card)).collect();
        assert!(missed.is_empty(), "{name}: {missed:?} of {all}");
    }
    assert!(bare > 5, "{bare}");
}
