//! The bird drawn: every place can be reached with the arrows, wounds stand where they are, and a danger stays one until a
//! wound there is known to be skin only.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, now};
use coopside::content::chart::{Lies, Mark, Zone, drawn, mark, read, told, zones};
use coopside::content::document;
use coopside::exam::Place;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::session::context::Context;
use coopside::view::body::{distance, looked_at};
use coopside::view::keys::{Key, Toward};
use coopside::view::meaning::Meaning;
use coopside::view::rows::{self, pages};
use std::collections::BTreeSet;

fn wounded(of: &[(&str, Option<&str>)]) -> Findings {
    let mut known = Findings::default();
    for (number, (place, depth)) in of.iter().enumerate() {
        known.find_wound();
        let told = [("place", Some(*place)), ("what", Some("cut")), ("depth", *depth)];
        for (question, choice) in told.into_iter().filter_map(|(question, choice)| Some((question, choice?))) {
            let answer = if choice == "cannot tell" { Answer::CannotTell } else { Answer::Choice(choice.into()) };
            known.say(Statement { about: About::Wound(number), question: question.into(), answer }, now());
        }
    }
    known
}

fn zone(known: &Findings, place: &str) -> Zone {
    let at = PROTOCOL.regions.iter().position(|region| region.place == *place);
    at.and_then(|at| zones(&PROTOCOL, known).get(at).cloned()).unwrap_or_else(|| panic!("{place} is not drawn"))
}

/// Source: where air sacs lie in birds (the pigeon atlas cited in the protocol): neck base, armpit, flank, belly, upper wing.
/// Common practice, no source: nothing is put into crop, eye or vent.
/// A wound by its name, as it is read.
fn wound_name(
    protocol: &coopside::protocol::Protocol,
    findings: &coopside::finding::Findings,
    number: usize,
) -> String {
    coopside::words::english(document::wound_name(protocol, findings, number))
}

#[test]
fn a_danger_stays_one_until_the_wound_is_known_to_be_skin_only() {
    for place in ["eye", "neck", "breast", "back", "under_wing", "wing", "belly", "vent"] {
        assert!(zone(&Findings::default(), place).danger, "{place} before anything is found");
        for depth in [None, Some("cannot tell"), Some("flesh"), Some("deep")] {
            assert!(zone(&wounded(&[(place, depth)]), place).danger, "{place}, depth {depth:?}");
        }
        assert!(!zone(&wounded(&[(place, Some("skin"))]), place).danger, "{place}, the skin only");
        // One that is not known keeps it, whatever is known of the other.
        assert!(zone(&wounded(&[(place, Some("skin")), (place, None)]), place).danger, "{place}, two wounds");
    }
    for place in ["comb", "head", "leg", "foot"] {
        assert!(!zone(&wounded(&[(place, Some("deep"))]), place).danger, "{place}");
    }
}

#[test]
fn wounds_are_drawn_by_number_in_every_view_that_shows_their_place() {
    let known = wounded(&[("back", None), ("leg", Some("flesh")), ("wing", Some("skin")), ("wing", None)]);
    let zones = zones(&PROTOCOL, &known);
    let view = |at: usize| {
        let line = |pieces: &Vec<_>| {
            pieces.iter().map(|piece: &coopside::content::chart::Piece| piece.text.as_str()).collect::<String>()
        };
        drawn(&PROTOCOL, at, &zones, None).iter().map(line).collect::<Vec<_>>().join("\n")
    };
    for (at, seen) in [(0, ["!1!", "(2)", "3+4"].as_slice()), (1, &["!1!", "3+4"])] {
        assert!(seen.iter().all(|mark| view(at).contains(mark)), "{}", view(at));
    }
    // A mark neither widens a line nor covers its neighbour.
    for at in 0..PROTOCOL.views.len() {
        let bare = drawn(&PROTOCOL, at, &coopside::content::chart::zones(&PROTOCOL, &Findings::default()), None);
        assert!(view(at).lines().all(|line| line.chars().count() <= 32), "{}", view(at));
        assert_eq!(view(at).lines().count(), bare.len());
    }
    let wounds = (1..=3).map(|number| Mark { number, lies: Lies::Middle }).collect();
    assert_eq!(mark(&Zone { wounds, danger: true }), "1++");
}

/// Common practice, no source: left and right are the bird's own. From above, her beak to the left, her left wing is drawn below.
#[test]
fn a_wound_told_to_be_on_one_side_is_drawn_and_named_on_that_side_alone() {
    let mut known = wounded(&[("wing", None)]);
    let on = |known: &mut Findings, place: &str, side: &str| {
        for (question, choice) in [("place", place), ("side", side)] {
            let answer = Answer::Choice(choice.into());
            known.say(Statement { about: About::Wound(0), question: question.into(), answer }, now());
        }
        let zones = zones(&PROTOCOL, known);
        let above: Vec<String> = drawn(&PROTOCOL, 1, &zones, None)
            .iter()
            .map(|pieces| pieces.iter().map(|piece| piece.text.as_str()).collect())
            .collect();
        let rows: Vec<usize> =
            above.iter().enumerate().filter(|(_, line)| line.contains('1')).map(|(row, _)| row).collect();
        (rows, above.len(), wound_name(&PROTOCOL, known, 0))
    };
    let (rows, lines, name) = on(&mut known, "wing", "left");
    assert!(matches!(rows.as_slice(), [row] if *row > lines / 2), "{rows:?} of {lines}");
    assert_eq!(name, "Wound 1, wing (left)");
    let (rows, lines, name) = on(&mut known, "wing", "right");
    assert!(matches!(rows.as_slice(), [row] if *row < lines / 2), "{rows:?} of {lines}");
    assert_eq!(name, "Wound 1, wing (right)");
    // Where only her right is hurt, the right is drawn; her beak then points the other way.
    for (side, from, beak) in [("left", "from her left", "<=="), ("right", "from her right", "==>")] {
        on(&mut known, "wing", side);
        let (name, lines) = read(&PROTOCOL, 0, &zones(&PROTOCOL, &known));
        assert_eq!(name, from);
        assert!(
            lines.iter().any(|line| line.contains(beak)) && lines.iter().any(|line| line.contains("!1!")),
            "{lines:?}"
        );
    }
    // Of two feet only the one is marked: the near one, from either side.
    for side in ["left", "right"] {
        on(&mut known, "foot", side);
        let (_, lines) = read(&PROTOCOL, 0, &zones(&PROTOCOL, &known));
        assert_eq!(lines.concat().matches('1').count(), 1, "{lines:?}");
    }
    on(&mut known, "wing", "right");
    // Where the side of one is not known, none is picked for it.
    let mut doubtful = known.clone();
    doubtful.find_wound();
    let leg = Statement { about: About::Wound(1), question: "place".into(), answer: Answer::Choice("leg".into()) };
    doubtful.say(leg, now());
    assert_eq!(read(&PROTOCOL, 0, &zones(&PROTOCOL, &doubtful)).0, "from the side");
    // Of a place in the middle of her no side is told, even where one was.
    let (rows, _, name) = on(&mut known, "back", "right");
    assert_eq!((rows.len(), name.as_str()), (1, "Wound 1, back or tail"));
    on(&mut known, "wing", "left");
    let zone = zone(&known, "wing");
    let wing = PROTOCOL.regions.iter().find(|region| region.place == *"wing");
    assert!(
        wing.is_some_and(|wing| coopside::words::english(told(wing, &zone)).contains("Wound 1 (left).")),
        "{zone:?}"
    );
}

/// Which leg it is, is asked where a leg is known to be hurt, and told with it; of a leg nobody could judge it is not asked.
#[test]
fn a_side_is_asked_only_of_what_is_known_to_be_hurt() {
    for (answer, asked) in [("1a", true), ("0", false)] {
        let mut walk = Walk::new();
        walk.press("aaa1n1").to("leg").press(answer);
        assert_eq!(walk.asked() == "leg_side", asked, "after {answer}: {}", walk.asked());
    }
}

/// Up and down go through the list, so every place is reached; left and right go to what lies there, and to nothing else.
#[test]
fn every_place_is_reached_with_the_arrows_and_what_lies_aside_lies_aside() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 3 4 1 a").to("any wound").press("1");
    let mut reached = BTreeSet::new();
    for page in 0..pages(&walk.session) {
        for _ in 0..rows::page(&walk.session).len() {
            walk.key(Key::Down);
            reached.extend(looked_at(&walk.session));
        }
        assert_eq!(walk.session.page, page);
        walk.press("<space>");
    }
    assert_eq!(reached.len(), PROTOCOL.regions.len(), "{reached:?}");
    for (at, from) in PROTOCOL.regions.iter().enumerate() {
        for (other, to) in PROTOCOL.regions.iter().enumerate().filter(|(other, _)| *other != at) {
            let both = distance(from, to, Toward::Left).is_some() && distance(from, to, Toward::Right).is_some();
            assert!(!both || from.spots.len() > 1 || to.spots.len() > 1, "{at} {other}");
        }
    }
}

#[test]
fn a_place_is_chosen_on_the_drawing_or_from_the_list() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 3 4 1 a").to("any wound").press("1");
    assert_eq!(walk.session.context(), Context::Body);
    walk.key(Key::Right);
    walk.key(Key::Down);
    let frame = walk.frame(100, 30);
    assert!(frame.contains(">•<"), "{frame}");
    let under = walk.session.cursor.and_then(|at| rows::page(&walk.session).into_iter().nth(at));
    walk.press("<enter>");
    assert_eq!(walk.asked(), "what");
    let place = walk.session.exam.findings.answer(About::Wound(0), "place").map(|said| said.statement.answer.clone());
    let chosen = under.map(|row| row.meaning);
    assert!(matches!((&chosen, &place), (Some(Meaning::Answer(_, under)), Some(place)) if under == place), "{place:?}");
    // On a small terminal the same places are a list, and the same keys mean the same: an arrow takes nothing back.
    walk.press("b");
    walk.size = (40, 20);
    assert_eq!(walk.session.context(), Context::Body);
    let frame = walk.frame(40, 20);
    assert!(!frame.contains("<=="), "{frame}");
    walk.press("<left>");
    assert_eq!(walk.asked(), "place");
    walk.press("b");
    assert_eq!(walk.session.exam.place, Place::Wounds);
}

#[test]
fn her_body_is_one_key_away_and_says_in_words_what_it_draws() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 3 4 1 a").to("any wound").press("1 4 3 1").press("o");
    let page = walk.frame(100, 60);
    assert!(page.contains("!1!") && page.contains("HER WOUNDS"), "{page}");
    let words = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("Neck or crop. Wound 1. Under it: air sacs and the crop. Nothing goes in."), "{page}");
    assert!(words.contains("no vet has reviewed it"), "{page}");
    assert_eq!(walk.press("b").asked(), "size");
}
