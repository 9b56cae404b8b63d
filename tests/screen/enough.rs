//! Enough is known to act on: what cannot wait comes on screen, and once it is done, "go now"; never where that would harm.

use crate::common::walk::Walk;
use coopside::finding::log::Entry;
use coopside::finding::{About, Answer, Statement};
use coopside::session::Face;

/// She fights for breath; a helper is there; how soon a vet is in reach, what happened and whether others are ill as given.
fn gasping(reach: &str, others: &str) -> Walk {
    let mut walk = Walk::new();
    walk.press("2<enter>aaa1 1 1").press(reach).press("4 1").press(others);
    walk
}

fn told(walk: &Walk) -> usize {
    walk.session.log.iter().filter(|stamped| matches!(&stamped.entry, Entry::Began(id) if *id == *"go_now")).count()
}

#[test]
fn it_is_time_to_go_once_what_cannot_wait_has_had_its_time() {
    let mut walk = gasping("2", "a");
    assert_eq!(told(&walk), 0, "she was set down to rest, and has not rested yet");
    walk.wait(200);
    assert_eq!(told(&walk), 0);
    walk.wait(150);
    assert_eq!((told(&walk), walk.asked().as_str()), (1, "instruction go_now"));
    for size in [(100, 30), (60, 24), (40, 20)] {
        let frame = walk.frame(size.0, size.1);
        // The list of what was not looked at gives way on a phone.
        let unseen = if size.0 == 40 { "Not all of her was looked at" } else { "Not looked at yet" };
        assert!(frame.contains("GO NOW") && frame.contains(unseen), "{frame}");
        assert!(!frame.contains("more below"), "{frame}");
    }
    // One key goes on asking, and it is not said again; what was not looked at stays open.
    let mut on = Walk { session: walk.session.clone(), ..Walk::new() };
    assert_eq!(on.press("q").asked(), "list seems");
    on.wait(60).fine();
    assert_eq!(told(&on), 1);
    assert!(on.session.verdict.open_wounds);
    // The other goes: the cards of the way. Half an hour later it is said that she was not looked all over.
    walk.press("<enter>");
    assert_eq!(walk.session.face, Face::Course);
    walk.wait(1_790);
    assert!(!walk.frame(60, 24).contains("Still here?"));
    walk.wait(20);
    assert!(walk.frame(60, 24).contains("Still here?"), "{}", walk.frame(60, 24));
}

/// Whoever ticks off the last of what cannot wait reads that it is time to go, and not the next card.
#[test]
fn the_last_tick_of_what_cannot_wait_leads_to_going() {
    let mut walk = Walk::new();
    walk.asks_on = false;
    walk.press("2<enter>a").say("shows_bleeds", "yes").press("<enter>aa");
    for (question, answer) in [("caught", "held"), ("alone", "help"), ("kind", "chick"), ("reach", "hours")] {
        walk.say(question, answer);
    }
    walk.say("happened", "accident").say("when", "h1").say("others", "none").wait(700);
    assert_eq!((told(&walk), walk.session.face), (0, Face::Course), "{}", walk.frame(40, 20));
    for _ in 0..8 {
        if told(&walk) == 0 {
            walk.press("<enter>");
        }
    }
    let frame = walk.frame(40, 20);
    assert!(told(&walk) == 1 && frame.contains("GO NOW"), "{frame}");
}

/// Hands stay off a gasping hen that only oozes, so no hand is wanted on her: she goes.
#[test]
fn a_gasping_hen_that_only_oozes_goes() {
    let mut walk = gasping("2", "a");
    walk.asks_on = false;
    walk.session.record(Entry::FoundWound);
    for (question, answer) in [("place", "wing"), ("what", "scrape"), ("bleeds", "oozes")] {
        let (question, answer) = (question.into(), Answer::Choice(answer.into()));
        walk.session.record(Entry::Said(vec![Statement { about: About::Wound(0), question, answer }]));
    }
    walk.wait(700).press("n");
    for _ in 0..12 {
        if told(&walk) == 0 {
            walk.press("<enter>");
        }
    }
    assert_eq!(told(&walk), 1, "{}", walk.frame(40, 20));
}

#[test]
fn nobody_is_sent_off_where_that_would_harm() {
    // No vet in reach; two others died within a day: an authority is phoned first, and no bird moved.
    for (reach, others) in [("4", "a"), ("2", "3")] {
        let mut walk = gasping(reach, others);
        walk.press("<enter>").wait(700).fine();
        assert_eq!(told(&walk), 0, "reach {reach}, others {others}");
        assert!(!walk.session.enough_told);
    }
    // Whether others are ill is asked first.
    let mut walk = Walk::new();
    walk.press("2<enter>aaa1 1 1 2 4 1").wait(700);
    assert_eq!((told(&walk), walk.asked().as_str()), (0, "others"));
    // She bleeds on: a hand is wanted on her.
    let mut bleeds = Walk::new();
    bleeds.press("1").wait(301).press("<enter>0");
    while bleeds.asked() != "list seems" {
        bleeds.wait(301).fine();
        assert_eq!(told(&bleeds), 0, "at {}", bleeds.asked());
    }
}

#[test]
fn what_cannot_wait_stands_on_the_screen_first() {
    let mut walk = Walk::new();
    walk.asks_on = false;
    walk.press("aaa1 1 1 2 1 1 a").to("eyelid").wait(10).say("eyelid", "white");
    assert!(walk.session.enough_told || told(&walk) == 1, "{}", walk.frame(40, 20));
    if walk.session.face == Face::Course {
        let frame = walk.frame(40, 20);
        assert!(frame.contains("Enough known") && !frame.contains("more below"), "{frame}");
        for _ in 0..12 {
            if told(&walk) == 1 {
                break;
            }
            walk.press("<enter>");
        }
    }
    assert_eq!((told(&walk), walk.asked().as_str()), (1, "instruction go_now"));
}

/// Whoever left the pressing for the check and comes to the cards with it is asked what came of it before anything says "go".
#[test]
fn nobody_goes_before_it_is_known_whether_the_bleeding_stopped() {
    let mut walk = Walk::new();
    walk.press("1 <enter> a").say("shows_bite", "yes").press("<enter> aa");
    for (question, answer) in [("caught", "held"), ("alone", "no_help"), ("kind", "hen"), ("reach", "hours")] {
        walk.say(question, answer);
    }
    walk.say("happened", "mammal").say("when", "h1").say("others", "none");
    for _ in 0..12 {
        if walk.session.face != Face::Course {
            walk.fine();
        }
    }
    walk.press("d");
    if walk.session.face != Face::Course {
        walk.press("d");
    }
    assert_eq!(walk.session.face, Face::Course);
    // Its clock runs: the line of pressing is not ticked off.
    walk.press("<enter>");
    assert!(walk.frame(40, 20).contains("keep on with it"), "{}", walk.frame(40, 20));
    // Its time up, the same key asks.
    walk.wait(301).press("<enter>");
    assert_eq!((told(&walk), walk.session.face, walk.asked().as_str()), (0, Face::Exam, "bleeding_now"));
}
