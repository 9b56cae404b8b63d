//! The list of birds moves, and no key with it: a number is a bird's own, and opens her wherever she stands by then.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::now;
use crate::common::walk::Walk;
use chrono::TimeDelta;
use coopside::ledger::{CaseId, Cover, Covered, State};
use coopside::session::Overlay;
use coopside::update::{Effect, Input};
use coopside::view::keys::Key;
use coopside::view::line::Row;
use coopside::view::meaning::{Doing, Meaning};
use coopside::view::rows::{self, PAGE, TOOLS};
use proptest::prelude::*;
use std::collections::BTreeSet;

fn covered(tag: u32) -> Covered {
    Covered {
        id: CaseId::new(),
        begun: now(),
        last: now(),
        events: 3,
        cover: Cover {
            name: format!("Bird {tag}"),
            kind: "hen".into(),
            need: "care at home".into(),
            due: Some(now() + TimeDelta::hours(i64::from(tag))),
            state: State::Open,
            ..Cover::default()
        },
        fingerprint: String::new(),
        tag,
    }
}

fn listed(cases: &[Covered]) -> Input {
    Input::Listed(cases.to_vec(), cases.len())
}

/// Each bird's row: its number, and the case it opens.
fn numbers(walk: &Walk) -> Vec<(String, CaseId)> {
    let of = |row: Row| match &row.meaning {
        Meaning::Case(Doing::Open(id)) => {
            Some((row.number().unwrap_or_else(|| panic!("no number")).to_owned(), id.clone()))
        }
        _ => None,
    };
    rows::rows(&walk.session).into_iter().filter_map(of).collect()
}

fn at_the_list(cases: &[Covered]) -> Walk {
    let mut walk = Walk::new();
    walk.press("f").take(listed(cases));
    assert_eq!(walk.session.overlays, [Overlay::Flock]);
    walk.asked_for.clear();
    walk
}

/// Types a number; one of several figures is confirmed.
fn type_number(walk: &mut Walk, number: &str) {
    walk.press(number);
    if number.len() > 1 {
        assert!(walk.asked_for.is_empty(), "{number} is confirmed before it opens");
        walk.press("<enter>");
    }
}

#[test]
fn every_number_can_be_typed_and_is_the_beginning_of_no_other() {
    let cases: Vec<Covered> = (1..=102).map(covered).collect();
    let numbers: Vec<String> = numbers(&at_the_list(&cases)).into_iter().map(|(number, _)| number).collect();
    assert_eq!(numbers.iter().collect::<BTreeSet<_>>().len(), 102);
    for number in &numbers {
        let first = number.chars().next().and_then(|figure| figure.to_digit(10)).unwrap_or(0);
        assert!(!number.contains('0') && first > 3, "{number}");
        assert_eq!(numbers.iter().filter(|other| other.starts_with(number.as_str())).count(), 1, "{number}");
    }
    assert_eq!(&numbers[..4], ["4", "5", "6", "71"]);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(80) })]

    /// Between drawing and key a look falls due, another desk closes a bird and begins one: the number opens the bird whose row
    /// bore it, and the cursor stays on its bird.
    #[test]
    fn the_number_on_a_row_opens_its_bird_however_the_order_moves(
        order in Just((1..=40u32).collect::<Vec<_>>()).prop_shuffle(),
        again in Just((1..=40u32).collect::<Vec<_>>()).prop_shuffle(),
        shown in 1..40usize, pick in any::<prop::sample::Index>(), gone in 0..4usize, moves in 0..60usize,
    ) {
        let all: Vec<Covered> = (1..=40).map(covered).collect();
        let of = |order: &[u32]| -> Vec<Covered> {
            order.iter().filter(|tag| **tag as usize <= shown).map(|tag| all[*tag as usize - 1].clone()).collect()
        };
        let mut walk = at_the_list(&of(&order));
        let drawn = numbers(&walk);
        let (number, bird) = pick.get(&drawn).clone();
        // What is drawn bears the number: on its page, the row of the bird begins with it.
        walk.session.page = (TOOLS + drawn.iter().position(|(_, id)| *id == bird).unwrap_or(0)) / PAGE;
        let name = all.iter().find(|case| case.id == bird).map(|case| case.cover.name.clone()).unwrap_or_default();
        let begins = |line: &str| line.trim_start().starts_with(&format!("{number} ")) && line.contains(&format!("{name},"));
        prop_assert!(walk.frame(100, 40).lines().any(begins), "{} {}\n{}", number, name, walk.frame(100, 40));
        // The cursor is brought somewhere by hand.
        walk.session.page = 0;
        for _ in 0..moves % PAGE {
            walk.press("<down>");
        }
        let under = walk.session.cursor.and_then(|at| rows::page(&walk.session).get(at).map(|row| row.meaning.clone()));
        // Another order; some others gone.
        let mut moved = of(&again);
        let mut left = gone;
        moved.retain(|case| case.id == bird || left == 0 || { left -= 1; false });
        walk.take(listed(&moved));
        if let Some(meaning) = under {
            let stays = moved.iter().any(|case| meaning == Meaning::Case(Doing::Open(case.id.clone())));
            let now = walk.session.cursor.and_then(|at| rows::page(&walk.session).get(at).map(|row| row.meaning.clone()));
            match meaning {
                Meaning::Case(Doing::Open(_)) if !stays => prop_assert_eq!(now, None),
                meaning => prop_assert_eq!(now, Some(meaning)),
            }
        }
        type_number(&mut walk, &number);
        prop_assert_eq!(&walk.asked_for, &[Effect::Open(bird)]);
    }
}

#[test]
fn a_number_half_typed_waits_and_any_other_key_gives_it_up() {
    let cases: Vec<Covered> = (1..=6).map(covered).collect();
    let mut walk = at_the_list(&cases);
    assert!(walk.press("7").frame(60, 30).contains("type the rest"), "{}", walk.frame(60, 30));
    // The order moves in the middle of a number.
    walk.take(listed(&cases.iter().rev().cloned().collect::<Vec<_>>()));
    walk.press("2");
    assert!(walk.asked_for.is_empty() && walk.frame(60, 30).contains("Enter opens her case"), "{}", walk.frame(60, 30));
    walk.take(listed(&cases));
    walk.press("<enter>");
    assert_eq!(walk.asked_for, [Effect::Open(cases[4].id.clone())]);
    // Given up by another key, the next figure begins anew.
    let mut walk = at_the_list(&cases);
    walk.press("7<down>4");
    assert_eq!(walk.asked_for, [Effect::Open(cases[0].id.clone())]);
    // What nobody bears opens nobody.
    let mut walk = at_the_list(&cases);
    walk.press("99");
    assert!(walk.asked_for.is_empty() && walk.session.overlays == [Overlay::Flock]);
    walk.press("75");
    assert!(walk.asked_for.is_empty() && walk.frame(60, 30).contains("No bird here bears the number 75"));
    // The lines before the birds keep their keys, from any page.
    walk.press("<space>");
    walk.key(Key::Char('2'));
    assert!(walk.session.line.is_some(), "letters are asked for");
}

/// A bird whose case is closed bears no number: the cursor opens her.
#[test]
fn who_bears_no_number_is_opened_by_the_cursor() {
    let closed = covered(0);
    let mut walk = at_the_list(&[covered(1), closed.clone()]);
    assert_eq!(numbers(&walk).last().map(|(number, _)| number.clone()), Some("-".to_owned()));
    for _ in 0..5 {
        walk.press("<down>");
    }
    walk.press("<enter>");
    assert_eq!(walk.asked_for, [Effect::Open(closed.id)]);
}
