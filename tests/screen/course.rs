//! The cards of a course on the screen: what fits, what a tick does, which card comes next.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use crate::common::now;
use crate::common::walk::Walk;
use coopside::content::course::CardOf;
use coopside::finding::log::{Entry, ticked};
use coopside::practice;
use coopside::screen::keys::Context;

/// A walk that has come to a scripted bird, whatever was pressed for it.
fn at(name: &str, text: &str) -> Walk {
    let (_, known) = practice::read(&PROTOCOL, name, text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
    let mut walk = Walk::new();
    for _ in 0..known.wounds() {
        walk.model.record(Entry::FoundWound);
    }
    walk.model.record(Entry::Said(known.said().iter().map(|said| said.statement.clone()).collect()));
    if known.looked_over() {
        walk.model.record(Entry::LookedOver);
    }
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

#[test]
fn every_card_fits_a_phone_without_scrolling() {
    let mut cards = 0;
    let mut over = Vec::new();
    for (name, text) in practice::shipped() {
        let mut walk = at(name, text);
        if walk.model.context() != Context::Course {
            continue;
        }
        let all = walk.model.cards().len();
        for card in 0..all {
            walk.model.turned_card = Some(card);
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
    let cards = walk.model.cards();
    assert_eq!(walk.model.context(), Context::Course);
    let first = cards[0].acts.len();
    assert!(first >= 2, "{first}");
    for _ in 0..first {
        assert_eq!(walk.model.card_at(&cards), 0);
        walk.press("<enter>");
    }
    assert_eq!(ticks(&walk).len(), first);
    assert!(ticks(&walk).iter().all(|(_, done)| *done));
    assert_ne!(walk.model.card_at(&walk.model.cards()), 0, "all of the first card is done");
    // No tick says anything of the bird.
    assert!(walk.frame(40, 20).contains("Done. Next:"), "{}", walk.frame(40, 20));
}

#[test]
fn a_digit_ticks_and_the_same_digit_takes_it_back() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    let (need, cards) = (walk.model.verdict.need, walk.model.cards());
    walk.press("2");
    walk.press("2");
    let told = ticks(&walk);
    assert_eq!(told.len(), 2);
    assert_eq!((told[0].1, told[1].1), (true, false));
    assert_eq!(told[0].0, told[1].0);
    assert!(ticked(&walk.model.log).is_empty());
    assert_eq!(walk.model.verdict.need, need);
    // A line that is not there ticks nothing, and says so.
    walk.press("9");
    assert_eq!(ticks(&walk).len(), 2);
    assert!(walk.frame(60, 24).contains("No such line"), "{}", walk.frame(60, 24));
    assert_eq!(walk.model.cards(), cards);
}

#[test]
fn a_line_tells_how_it_is_done_and_its_clock_can_be_started_again() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    let how = walk.press("w").frame(60, 60);
    assert!(how.contains("WHY:") && how.contains("Finding:"), "{how}");
    walk.press("b");
    assert_eq!(walk.model.context(), Context::Course);
    assert!(walk.model.timed_here().is_some());
    walk.press("t");
    let first = walk.model.timer();
    assert!(first.is_some());
    // Five minutes are up and it bleeds again: the same key ends that clock, and starts another.
    walk.wait(301);
    walk.press("tt");
    assert!(walk.model.timer().is_some_and(|timer| Some(timer) != first));
    assert!(ticks(&walk).is_empty(), "a clock ticks nothing off");
}

#[test]
fn what_is_ticked_is_kept_whatever_is_taken_back() {
    let mut walk = at("bleeding_hard", shipped("bleeding_hard"));
    walk.press("1");
    let done = ticked(&walk.model.log);
    walk.model.record(Entry::TookBack);
    assert_eq!(ticked(&walk.model.log), done);
    // A new look asks for what is to be done then.
    walk.model.record(Entry::LookBegan(Vec::new()));
    assert!(ticked(&walk.model.log).is_empty());
}

#[test]
fn cards_are_turned_in_a_ring_and_the_whole_plan_is_one_key_away() {
    let mut walk = at("open_break", shipped("open_break"));
    let cards = walk.model.cards();
    for at in 0..cards.len() {
        assert_eq!(walk.model.card_at(&cards), at);
        walk.press("<space>");
    }
    assert_eq!(walk.model.card_at(&cards), 0);
    let humane = cards.iter().any(|card| matches!(card.of, CardOf::Humane(_)));
    assert_eq!(humane, walk.model.plan.humane.is_some());
    walk.press("d");
    assert_eq!(walk.model.context(), Context::Plan);
    assert!(ticks(&walk).is_empty());
}

#[test]
fn each_line_of_a_course_has_a_name_of_its_own() {
    for (name, text) in practice::shipped() {
        let walk = at(name, text);
        let mut names: Vec<String> = Vec::new();
        for card in walk.model.cards().iter().filter(|card| matches!(card.of, CardOf::Stage(_))) {
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
