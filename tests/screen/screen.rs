//! The screen, walked through key by key: what shows, where the cursor is, and that nothing ever breaks.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::{Walk, text};
use crate::common::{PROTOCOL, now};
use coopside::exam::{Hands, Place, Progress};
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{Case, CaseId, Setting};
use coopside::phrase::Text;
use coopside::protocol::question::Asked;
use coopside::protocol::scale::Need;
use coopside::prove::Telling;
use coopside::screen::{Theme, pane};
use coopside::session::Session;
use coopside::session::context::Context;
use coopside::session::line::{TypedLine, TypingOf};
use coopside::update::Input;
use coopside::view::keys::{Key, TABLE};
use proptest::prelude::*;
use ratatui::style::{Color, Modifier};
use unicode_width::UnicodeWidthStr;

/// A calm hen up to the first question about her head: no danger sign, hen, vet within a day, all well to look at.
const STORY: &str = "aaa1n1 3 4 1 a";

#[test]
fn one_key_leads_from_the_first_screen_to_pressing_a_spurting_wound() {
    let mut walk = Walk::new();
    assert_eq!(walk.session.context(), Context::List);
    let frame = walk.press("1").frame(40, 20);
    assert!(frame.contains("PRESS AND HOLD") && frame.contains("Press. Eye, bone, beak: never on it."), "{frame}");
    assert!(frame.contains("Never: take the cloth off"), "{frame}");
}

#[test]
fn each_danger_sign_has_its_own_instruction() {
    for (key, title) in [
        ("1", "PRESS AND HOLD"),
        ("2", "SET HER DOWN"),
        ("3", "LAY HER ON HER BREAST"),
        ("4", "COVER IT, WET"),
        ("5", "PAD ROUND HER"),
    ] {
        for (columns, rows) in [(100, 30), (60, 24), (40, 20)] {
            let frame = Walk::new().press(key).frame(columns, rows);
            assert!(frame.contains(title), "{key} at {columns}x{rows}:\n{frame}");
            assert!(frame.to_lowercase().contains("never:"), "{key} at {columns}x{rows}:\n{frame}");
        }
    }
}

#[test]
fn the_timer_counts_down_and_then_says_what_next() {
    let mut walk = Walk::new();
    assert!(walk.press("1").frame(60, 24).contains("5:00 to go"));
    assert!(walk.wait(60).frame(60, 24).contains("4:00 to go"));
    let after = walk.wait(241).frame(60, 24);
    assert!(after.contains("Time is up.") && after.contains("Still bleeding?"), "{after}");
}

#[test]
fn the_bell_rings_once_when_a_timer_runs_out_however_coarse_the_ticks() {
    let mut walk = Walk::new();
    walk.press("1");
    let rings = |walk: &mut Walk, seconds| {
        walk.session.now += chrono::TimeDelta::seconds(seconds);
        coopside::update::update(&mut walk.session, Input::Tick).contains(&coopside::update::Effect::Bell)
    };
    assert!(!rings(&mut walk, 298));
    assert!(rings(&mut walk, 7));
    assert!(!rings(&mut walk, 1));
}

/// A hen with a nail that bleeds, at the plan.
fn nail_that_bleeds() -> Walk {
    let mut walk = Walk::new();
    walk.press(STORY).session.record(Entry::FoundWound);
    for (question, answer) in [("place", "foot"), ("what", "nail"), ("bleeds", "oozes")] {
        let answer = Answer::Choice(answer.into());
        let said = Statement { about: About::Wound(0), question: question.into(), answer };
        walk.session.record(Entry::Said(vec![said]));
    }
    walk.press("dd");
    walk
}

#[test]
fn a_step_of_the_plan_is_timed_and_its_clock_stands_above_everything_until_it_is_ended() {
    for (columns, rows) in [(100, 30), (60, 24), (40, 20)] {
        let mut walk = nail_that_bleeds();
        assert!(walk.press("t").frame(columns, rows).contains("hold 5:00"), "{}", walk.frame(columns, rows));
        // It goes on whatever shows, and taking an answer back does not stop it.
        walk.press("bb");
        assert!(walk.wait(60).frame(columns, rows).contains("hold 4:00"), "{}", walk.frame(columns, rows));
        let up = walk.wait(241).frame(columns, rows);
        assert!(up.contains("TIME IS UP"), "{up}");
        assert!(!walk.press("t").frame(columns, rows).contains("TIME IS UP"));
    }
}

#[test]
fn the_clock_of_a_step_rings_once_and_survives_leaving() {
    let mut walk = nail_that_bleeds();
    walk.press("t");
    let case = Case { id: CaseId::new(), log: walk.session.log.clone() };
    let mut again = Walk::new();
    again.session = Session::new(&PROTOCOL, Some(case), now(), crate::common::walk::zone());
    again.press("g");
    let rings = |walk: &mut Walk, seconds| {
        walk.session.now += chrono::TimeDelta::seconds(seconds);
        coopside::update::update(&mut walk.session, Input::Tick).contains(&coopside::update::Effect::Bell)
    };
    // The clock of the hand rings before it.
    rings(&mut again, 290);
    assert!(rings(&mut again, 20) && !rings(&mut again, 1));
}

#[test]
fn after_an_instruction_the_check_goes_on_where_it_was() {
    let mut walk = Walk::new();
    // Pressing over, it is asked what came of it; then the other signs.
    assert_eq!(walk.press("1").wait(301).press("<enter>").asked(), "bleeding_now");
    assert_eq!(walk.press("1").asked(), "list danger");
    assert_eq!(walk.press("a").asked(), "list shows");
    assert_eq!(walk.press("aa").asked(), "caught");
    assert_eq!(walk.press("1n").asked(), "kind");
    walk.press("1341a");
    assert_eq!(walk.asked(), "list seems");
    // An emergency in the middle: the list opens, its instruction shows, and then the same question is asked.
    assert_eq!(walk.press("e").asked(), "list danger");
    assert_eq!(walk.press("2").asked(), "instruction breathe");
    // There may be a second sign, so the list stays until it is left.
    assert_eq!(walk.press("<enter>").asked(), "list danger");
    assert_eq!(walk.press("a").asked(), "list seems");
    assert_eq!(walk.press("ea").asked(), "list seems");
    // Bleeding again: the instruction comes again, and then the question whether it has stopped.
    assert_eq!(walk.press("e1").asked(), "instruction press");
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeding_now");
    assert_eq!(walk.press("1").asked(), "list seems");
}

#[test]
fn the_examination_runs_from_the_danger_signs_to_the_story() {
    let mut walk = Walk::new();
    let mut steps = Vec::new();
    for _ in 0..80 {
        if let Some(step) = walk.session.exam.step()
            && steps.last() != Some(&step)
        {
            steps.push(step);
        }
        if walk.session.exam.place == Place::Done {
            break;
        }
        walk.fine();
    }
    assert_eq!(walk.asked(), "done");
    assert!(steps.into_iter().eq(PROTOCOL.steps.placed().map(|(at, _)| at)));
    assert_eq!(walk.session.context(), Context::Verdict);
}

#[test]
fn back_takes_back_exactly_the_last_answer() {
    let mut walk = Walk::new();
    walk.press(STORY).to("eyelid");
    assert_eq!(walk.asked(), "eyelid");
    let before = walk.session.exam.findings.clone();
    assert_eq!(walk.press("1").asked(), "list bearing");
    assert_eq!(walk.press("b").asked(), "eyelid");
    assert_eq!(walk.session.exam.findings, before);
    // A mistaken danger sign is taken back together with its instruction.
    let mut walk = Walk::new();
    assert_eq!(walk.press("2b").asked(), "list danger");
    // Even the mildest bird that can be told of is cared for at home.
    assert_eq!(walk.session.verdict.need.low, Need::Home);
}

#[test]
fn a_skipped_question_stays_open_and_can_be_turned_to() {
    let mut walk = Walk::new();
    walk.press(STORY).to("eyelid").press("n");
    assert_eq!(walk.asked(), "list bearing");
    let eyelid = PROTOCOL.question_at("eyelid").unwrap_or_else(|| panic!("no eyelid"));
    assert!(walk.session.verdict.open.contains(&Asked { about: About::Bird, question: eyelid }));
    // Steps, head (4), inner eyelid (1).
    assert_eq!(walk.press("m51").asked(), "eyelid");
    // White: enough to go, and one may go on asking.
    assert_eq!(walk.press("2").asked(), "instruction go_now");
    assert_eq!(walk.press("q").asked(), "list bearing");
    assert_eq!(walk.session.verdict.need.low, Need::Now);
}

#[test]
fn an_answer_can_be_changed_from_the_steps() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 3 4 1 a 3 <enter>");
    assert_eq!(walk.session.verdict.need.low, Need::Now);
    // Steps, watch (3), alertness (1): dull instead of nothing.
    walk.press("qm41").press("1");
    assert_eq!(walk.session.verdict.need.low, Need::WithinHours);
}

#[test]
fn a_question_a_humane_end_hangs_on_comes_next_but_never_before_the_danger_signs() {
    let mut walk = Walk::new();
    // Not responding, then fighting for breath: an exception (cold and wet) is open, and the list still comes first.
    assert_eq!(walk.press("3<enter>2<enter>").asked(), "list danger");
    assert_eq!(walk.press("a").asked(), "cold_wet");
    // The list opens at any moment, and what a person turns to stays.
    assert_eq!(walk.press("e").asked(), "list danger");
    assert_eq!(walk.press("1").asked(), "instruction press");
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeding_now");
    assert_eq!(walk.press("1").asked(), "cold_wet");
    assert_eq!(walk.press("m21").asked(), "caught");
    // Skipped, it does not come back by itself.
    walk.press("1");
    assert_eq!(walk.asked(), "cold_wet");
    assert_eq!(walk.press("n").asked(), "list shows");
}

#[test]
fn a_skipped_look_over_can_be_taken_up_again() {
    let mut walk = Walk::new();
    walk.press(STORY).to("any wound");
    assert_eq!(walk.asked(), "any wound");
    assert_eq!(walk.press("n").asked(), "weight");
    assert!(walk.session.verdict.open_wounds);
    // Steps, page two, wounds (2): look for wounds again.
    assert_eq!(walk.press("m<space>21").asked(), "any wound");
    assert_eq!(walk.press("1").asked(), "place");
    walk.press("<space>3 5 1 1 4 1 1");
    assert_eq!(walk.asked(), "weight", "the look-over stays skipped until it is taken up");
    assert_eq!(walk.press("m<space>21").asked(), "any wound");
    assert_eq!(walk.press("a").asked(), "weight");
    assert!(!walk.session.verdict.open_wounds);
}

#[test]
fn what_an_open_question_could_forbid_waits_for_its_answer() {
    let mut walk = Walk::new();
    // Dull: a warm box, but not before it is known that her head was not hit.
    walk.press("aaa1n1 3 4 1 a 1 a a").to("eyelid");
    let plan = walk.press("dd").frame(80, 90);
    let (first, then) = plan.split_once("NOT BEFORE A QUESTION IS ANSWERED").unwrap_or_else(|| panic!("{plan}"));
    assert!(!first.contains("Warm box") && first.contains("Dark, quiet box"), "{plan}");
    assert!(then.contains("Warm box") && then.contains("blow to the head"), "{plan}");
    // Lid, comb twice, head not swollen, no blow, pupils alike, beak whole: now it is advised.
    let plan = walk.press("b").to("air").press("dd").frame(80, 90);
    let (first, _) = plan.split_once("NOT BEFORE A QUESTION").unwrap_or((&plan, ""));
    assert!(first.contains("Warm box"), "{plan}");
}

#[test]
fn looks_are_counted_from_the_last_answer_and_do_not_recede() {
    let mut walk = Walk::new();
    walk.press(STORY).to("head_blow").press("2");
    let first = walk.session.plan.looks.first().cloned();
    walk.wait(600);
    assert_eq!(walk.session.plan.looks.first().cloned(), first);
    walk.wait(1500);
    assert_eq!(walk.session.plan.looks_gone, 1);
    assert!(walk.press("dd").frame(80, 90).contains("Last looked at") && walk.frame(80, 90).contains("Look now."));
}

#[test]
fn a_bird_that_may_not_bear_handling_is_spared() {
    let mut walk = Walk::new();
    walk.press("2 <enter> aaa1n1 1 4 1 a a a 3 1 a").to("head_swollen");
    let words = |frame: String| frame.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words(walk.frame(40, 20)).contains("Only look. Bird and cloth stay, her beak free."));
    assert!(!matches!(walk.session.hands(), Hands::Held(_)));
    // Nothing that needs a touch is asked any more, and all of it stays open.
    while walk.session.exam.place != Place::Done {
        if let Place::Ask(asked) = walk.session.exam.place {
            assert!(!PROTOCOL.ask(asked.question).touches, "{} is asked", walk.asked());
        }
        if walk.session.exam.place == Place::Wounds {
            let frame = walk.frame(40, 20).split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(frame.contains("Touch nothing"), "{frame}");
        }
        walk.fine();
    }
    let step = |id: &str| PROTOCOL.question(id).map_or(0, |question| question.step.nth());
    let open = |id: &str| walk.session.exam.progress().get(step(id)) == Some(&Progress::LeftOpen);
    assert!(open("vent") && open("maggots"), "what was passed over still counts as open");
    // Whoever looks all the same can turn to it: steps, head, inner eyelid.
    assert_eq!(walk.press("m51").asked(), "eyelid");
}

/// Who cannot judge the eyelid by lamplight looks on; who cannot tell whether she stands keeps the hands off.
#[test]
fn what_tells_from_afar_spares_her_in_doubt_and_an_eyelid_does_not() {
    for (question, answer, spared) in [
        ("eyelid", Answer::CannotTell, false),
        ("fitting", Answer::CannotTell, false),
        ("posture", Answer::CannotTell, true),
    ] {
        let mut walk = Walk::new();
        walk.press("6").to("eyelid");
        let said = Statement { about: About::Bird, question: question.into(), answer };
        walk.session.log.push(Stamped { at: walk.session.now, entry: Entry::Said(vec![said]) });
        walk.session.work_out();
        assert_eq!(walk.session.exam.spares_her(), spared, "{question}");
    }
}

/// Letting her rest is no card to go back to: back after it takes the last answer back.
#[test]
fn back_after_a_rest_takes_back_the_answer_before() {
    let mut walk = Walk::new();
    walk.press("aaa");
    let asked = walk.press("1").asked();
    let before = walk.press("b").asked();
    walk.press("1 p").press("b");
    assert_eq!(walk.asked(), asked);
    assert_eq!(walk.press("b").asked(), before, "back is stuck at the rest");
}

#[test]
fn every_wound_is_asked_about_until_there_is_no_more() {
    let mut walk = Walk::new();
    // Head, neck, wings, legs, body, vent: the first answer to everything.
    walk.press(STORY).to("any wound");
    assert_eq!(walk.asked(), "any wound");
    assert_eq!(walk.press("1").asked(), "place");
    // More places than digits: the second page holds the foot.
    let frame = walk.frame(40, 20);
    assert!(frame.contains("1 of 2"), "{frame}");
    walk.press("<space>3");
    assert_eq!(walk.asked(), "what");
    // A torn nail, dry, an hour old, sharp thing, clean, on the right: no size or depth is asked.
    walk.press("5 1 1 4 1 2");
    assert_eq!(walk.asked(), "any wound");
    assert!(walk.frame(60, 24).contains("another wound"));
    assert_eq!(walk.press("a").asked(), "weight");
}

#[test]
fn a_weight_is_typed_in_a_mode_of_its_own_and_echoed() {
    let mut walk = Walk::new();
    walk.press(STORY).to("weight");
    assert_eq!(walk.asked(), "weight");
    walk.press("1");
    assert_eq!(walk.session.context(), Context::Typing);
    for c in "4 lb 6 oz".chars() {
        walk.key(Key::Char(c));
    }
    let frame = walk.frame(40, 20);
    assert!(frame.contains("TYPING") && frame.contains("1.98 kg (4 lb 6 oz)"), "{frame}");
    assert_eq!(walk.press("<enter>").asked(), "blood_lost");
    // A wrong weight stays in the field and says what is wanted.
    let mut walk = Walk::new();
    walk.press(STORY).to("weight").press("1 2 <enter>");
    assert_eq!(walk.session.context(), Context::Typing);
    assert!(walk.frame(60, 24).contains("no unit"));
}

#[test]
fn the_hand_has_a_clock_and_a_rest() {
    let mut walk = Walk::new();
    walk.press(STORY).to("eyelid");
    assert!(matches!(walk.session.hands(), Hands::Held(_)), "the first look that needs hands starts the clock");
    assert!(walk.wait(100).frame(60, 24).contains("in the hand 1:40"));
    assert!(walk.wait(90).frame(60, 24).contains("Let her rest: p"));
    assert_eq!(walk.press("p").asked(), "instruction rest");
    assert!(matches!(walk.session.hands(), Hands::Down(_)));
    assert_eq!(walk.press("<enter>").asked(), "eyelid");
    assert!(walk.frame(60, 24).contains("in the hand 0:00"));
    assert!(walk.frame(60, 24).contains("Take her in the hand now"));
}

#[test]
fn at_the_end_back_shows_the_last_question_and_takes_nothing_away() {
    let mut walk = Walk::new();
    walk.press(STORY).to("done");
    assert_eq!(walk.asked(), "done");
    let findings = walk.session.exam.findings.clone();
    assert_eq!(walk.press("b").asked(), "eating");
    assert_eq!(walk.session.exam.findings, findings);
    assert_eq!(walk.press("1").asked(), "done");
}

#[test]
fn a_sign_pressed_by_mistake_is_pressed_again() {
    let mut walk = Walk::new();
    walk.press(STORY).to("list nerves").press("3");
    assert!(walk.frame(60, 24).contains("*3  head tilted"));
    // A hand that shakes takes nothing back.
    walk.press("3");
    assert!(walk.frame(60, 24).contains("*3  head tilted"));
    assert!(walk.frame(60, 24).contains("taken already"), "{}", walk.frame(60, 24));
    walk.press("b");
    assert!(!walk.frame(60, 24).contains("*3  head tilted"));
    assert_eq!(walk.session.verdict.need.low, Need::Home);
}

#[test]
fn a_weight_her_kind_does_not_reach_is_asked_back_once() {
    let mut walk = Walk::new();
    walk.press(STORY).to("weight").press("1");
    for c in "9 kg".chars() {
        walk.key(Key::Char(c));
    }
    walk.press("<enter>");
    assert!(walk.frame(60, 24).contains("Her kind weighs"));
    assert_eq!(walk.press("<enter>").asked(), "blood_lost");
}

/// More than twice the heaviest, or less than half the lightest, is not taken of her kind, however often it is pressed.
#[test]
fn a_weight_no_bird_of_her_kind_has_is_not_taken() {
    for (typed, told) in [("19 kg", "more than twice"), ("700 g", "less than half")] {
        let mut walk = Walk::new();
        walk.press(STORY).to("weight").press("1");
        for c in typed.chars() {
            walk.key(Key::Char(c));
        }
        walk.press("<enter> <enter>");
        assert_eq!(walk.asked(), "weight", "{typed}");
        assert!(walk.frame(80, 24).contains(told), "{}", walk.frame(80, 24));
    }
}

#[test]
fn after_pressing_a_wound_it_is_asked_again_whether_it_bleeds() {
    let mut walk = Walk::new();
    walk.press(STORY).to("any wound").press("1 8 2 4");
    assert_eq!(walk.asked(), "instruction press");
    // As long as it is pressed, nobody can tell what has come of it: the check goes on beside it.
    let mut early = Walk { session: walk.session.clone(), ..Walk::new() };
    assert_eq!(early.wait(20).press("<enter>").asked(), "comes_out");
    assert_eq!(early.wait(281).press("t").asked(), "bleeds");
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeds");
    assert_eq!(walk.press("1").asked(), "size");
}

/// What has been pressed once and runs on is pressed once more, and a vet is phoned; more of the same is not told again.
#[test]
fn a_bleed_that_pressing_did_not_stop_sends_you_off() {
    let mut walk = Walk::new();
    // Twenty seconds are no five minutes: nothing of it is asked yet, the clock runs on, and what the hand must not do is told.
    assert_eq!(walk.press("1").wait(20).press("<enter>").asked(), "list danger");
    let frame = walk.frame(40, 20);
    assert!(frame.contains("press 4:40") && frame.contains("NEVER: Take the cloth off."), "{frame}");
    // Its time up, one key asks what came of it; what is answered then was pressed for.
    let frame = walk.wait(281).frame(40, 20);
    assert!(frame.contains("t: look, and say"), "{frame}");
    assert_eq!(walk.press("t").asked(), "bleeding_now");
    assert_eq!(walk.press("3").asked(), "instruction press_go");
    assert!(walk.frame(40, 20).contains("PRESS ON, AND PHONE") && walk.frame(40, 20).contains("Phone a vet"));
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeding_now");
    assert_eq!(walk.press("2").asked(), "instruction fix_go");
    // A second wound that bleeds is pressed like any first one.
    let mut walk = Walk::new();
    walk.press(STORY).to("any wound").press("1 8 2 4");
    assert_eq!(walk.asked(), "instruction press");
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeds");
    assert_eq!(walk.press("4").asked(), "instruction press_go");
}

/// A wound turned to out of order is asked about to its end.
#[test]
fn a_wound_found_early_is_asked_about_before_the_rest_goes_on() {
    let mut walk = Walk::new();
    walk.press(STORY).to("head_blow").press("m<space>21");
    assert_eq!(walk.asked(), "any wound");
    assert_eq!(walk.press("1").asked(), "place");
    assert_eq!(walk.press("1").asked(), "what");
    assert_eq!(walk.press("1").asked(), "bleeds");
}

#[test]
fn the_country_is_set_in_two_keys_and_told_from_then_on() {
    let mut walk = Walk::new();
    assert!(walk.press("l").frame(40, 20).contains("United Kingdom"));
    let page = walk.press("3").frame(60, 40).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(page.contains("SI 2013/2033") && page.contains("14 days"), "{page}");
    assert_eq!(walk.session.country.id, *"uk");
    // The page is left with one key, and the caution tells whose law it is.
    assert_eq!(walk.press("b").asked(), "list danger");
    assert!(walk.frame(60, 24).contains("Law is told for the"));
    // What the disk held before comes too late now.
    walk.take(Input::Set(Setting::Country, "eu".into()));
    assert_eq!(walk.session.country.id, *"uk");
    assert_eq!(walk.countries, ["uk"], "it went to the disk once");
    let mut walk = Walk::new();
    walk.take(Input::Set(Setting::Country, "eu".into()));
    assert_eq!(walk.session.country.id, *"eu");
    // A country this protocol does not know counts as none, and is told.
    let mut walk = Walk::new();
    walk.take(Input::Set(Setting::Country, "nowhere".into()));
    assert_eq!(walk.session.country.id, *"unset");
    assert!(walk.frame(60, 24).contains("nowhere"));
}

#[test]
fn what_all_of_it_rests_on_can_be_read() {
    let mut walk = Walk::new();
    let first = walk.press("1 <enter> 3 6 v r").frame(80, 24);
    assert!(first.contains("WHAT IT RESTS ON") && first.contains("our inference"), "{first}");
    let mut seen = String::new();
    for _ in 0..60 {
        seen.push_str(&walk.frame(80, 24));
        walk.press("<pgdn>");
    }
    assert!(seen.contains("Borrowed from: raptors") && seen.contains("Foss et al. 2023"), "{seen}");
    assert!(seen.contains("WHAT COULD GO WRONG WITH HER") && seen.contains("Not done:"), "{seen}");
    assert!(seen.contains("Coopside is no vet"));
    assert!(walk.press("b").frame(80, 24).contains("IN SHORT"));
}

/// Common practice, no source: a turkey's bare head is blue, white and red by nature; a duck has no true crop.
#[test]
fn kinds_that_differ_are_asked_differently() {
    let mut hen = Walk::new();
    assert!(hen.press(STORY).to("head_swollen").frame(60, 24).contains("head swollen, or blue"));
    let mut turkey = Walk::new();
    turkey.press("aaa1n7 3 4 1 a").to("head_swollen").press("h");
    let frame = turkey.frame(120, 60);
    assert!(frame.contains("by nature"), "{frame}");
    // A cock lays no egg: the signs of a stuck one are not offered.
    let mut cock = Walk::new();
    cock.press("aaa1n2 3 4 1 a").to("list vent");
    let frame = cock.frame(60, 24);
    assert!(frame.contains("fresh blood") && !frame.contains("egg"), "{frame}");
}

#[test]
fn the_duty_to_an_authority_and_the_call_to_a_vet_stay_in_sight() {
    let mut walk = Walk::new();
    // Found ill, several others ill, fighting for breath.
    walk.press("2 <enter> aaa1n1 3 8 1 2 <enter>").to("alert");
    for (columns, rows) in [(40, 20), (60, 24), (100, 30)] {
        let frame = walk.frame(columns, rows);
        assert!(frame.contains("Call the authority now"), "{columns}x{rows}\n{frame}");
    }
    assert!(walk.frame(60, 24).contains("Phone a vet too"));
    // Weak in the hand: first she is set down, and the call is not lost behind it.
    let mut walk = Walk::new();
    walk.press(STORY).to("in_hand").say("in_hand", "weak").press("<enter>");
    for (columns, rows) in [(40, 20), (60, 24), (100, 30)] {
        let frame = walk.frame(columns, rows);
        assert!(frame.contains("Set her down") && frame.contains("Phone a vet now"), "{columns}x{rows}\n{frame}");
    }
}

/// Amazon parrots in the hand breathed significantly faster and were warmer by minute 4 (Amazon parrots under manual
/// restraint, 2004; borrowed from parrots).
#[test]
fn the_hand_clock_warns_before_harm_was_measured() {
    assert!(PROTOCOL.hold_s < 4 * 60);
}

#[test]
fn signs_of_a_notifiable_disease_interrupt_once() {
    let mut walk = Walk::new();
    walk.press(STORY).to("head_swollen").say("head_swollen", "both");
    assert_eq!(walk.asked(), "instruction authority");
    let frame = walk.frame(40, 20);
    assert!(frame.contains("No bird leaves"), "{frame}");
    assert_eq!(walk.press("<enter>").asked(), "list front");
    assert_eq!(walk.press("a").asked(), "list face");
}

#[test]
fn leaving_is_one_key_and_loses_nothing() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 x");
    assert!(walk.left);
    assert_eq!(walk.kept, walk.session.log, "every entry went to the disk as it was made");
}

#[test]
fn the_bird_that_was_left_is_offered_and_goes_on_exactly_there() {
    let mut before = Walk::new();
    before.press(STORY).to("eyelid").press("1");
    let case = Case { id: CaseId::new(), log: before.session.log.clone() };
    let mut walk = Walk::new();
    walk.session = Session::new(&PROTOCOL, Some(case), now(), crate::common::walk::zone());
    assert!(walk.frame(40, 20).contains("go on with the bird you left"));
    walk.press("g");
    assert_eq!(walk.asked(), before.asked());
    assert_eq!(walk.session.exam.findings, before.session.exam.findings);
    assert!(matches!(walk.session.hands(), Hands::Held(since) if since == now()), "the clock of the hand starts anew");
}

#[test]
fn a_failing_disk_is_told_and_holds_nothing_back() {
    let mut walk = Walk::new();
    walk.press("aaa");
    walk.take(Input::NotKept(Text::typed("the disk is full; free some room, it will be tried again")));
    let frame = walk.frame(60, 24);
    assert!(frame.contains("NOT KEPT: the disk is full"), "{frame}");
    assert_eq!(walk.press("e1").asked(), "instruction press");
    walk.take(Input::Kept(now()));
    assert!(!walk.frame(60, 24).contains("NOT KEPT"));
}

#[test]
fn saved_is_shown_only_when_all_is_on_disk() {
    let mut walk = Walk::new();
    walk.press("aaa");
    assert_eq!(walk.session.keeping.waiting, 3);
    walk.take(Input::Kept(now()));
    walk.take(Input::Kept(now()));
    assert!(walk.frame(60, 24).contains("saving"));
    walk.take(Input::Kept(now()));
    assert!(walk.frame(60, 24).contains("saved "));
}

#[test]
fn enter_on_an_untouched_question_answers_nothing() {
    let mut walk = Walk::new();
    walk.press(STORY).to("breathing").press("<enter>");
    assert_eq!(walk.asked(), "breathing");
    assert!(walk.frame(60, 24).contains("Press the number of a line"));
    assert_ne!(walk.press("<down><enter>").asked(), "breathing");
}

#[test]
fn why_tells_both_labels_and_the_source() {
    let frame = Walk::new().press("1w").frame(100, 30);
    assert!(frame.contains("Finding:") && frame.contains("Merck Veterinary Manual"), "{frame}");
    assert!(frame.contains("Advice:"), "{frame}");
    // In the plan, the line under the cursor.
    let frame = Walk::new().press("1 <enter> d d <down> w").frame(100, 30);
    assert!(frame.contains("WHY: Press. Eye, bone, beak: never on it"), "{frame}");
    // In the verdict, the need itself.
    let frame = Walk::new().press("1 <enter> v <down> w").frame(100, 30);
    assert!(frame.contains("WHY: Vet at once") && frame.contains("Leads to: vet at once"), "{frame}");
}

#[test]
fn a_document_opened_in_the_middle_is_read_and_not_answered() {
    let mut walk = Walk::new();
    walk.press("1 <enter> aaa1n1 3 4 1 a 1");
    assert_eq!(walk.asked(), "list seems");
    let asked = walk.asked();
    let first = walk.press("dd").frame(60, 24);
    assert!(first.contains("space more"), "the footer says that there is more:\n{first}");
    let second = walk.press("<space>").frame(60, 24);
    assert_ne!(first, second);
    // The cursor reaches every line of it, however few answers the question below has.
    for _ in 0..12 {
        walk.press("<down>");
    }
    assert_eq!(walk.session.cursor, Some(11));
    assert_eq!(walk.press("b").asked(), asked);
}

#[test]
fn the_caution_stands_on_verdict_and_plan() {
    for (key, columns, rows) in
        [("v", 80, 24), ("dd", 80, 24), ("v", 60, 24), ("dd", 60, 24), ("v", 40, 20), ("dd", 40, 20), ("dd", 36, 14)]
    {
        let mut walk = Walk::new();
        walk.press("1<enter>1").press(key);
        let mut seen = String::new();
        for _ in 0..40 {
            seen = walk.frame(columns, rows);
            walk.press("<pgdn>");
        }
        assert!(
            seen.contains("rule it knows") || seen.contains("applies."),
            "the end of the caution at {columns}x{rows}:\n{seen}"
        );
        assert!(!seen.contains("more below"), "{seen}");
    }
}

#[test]
fn meaning_survives_without_colour() {
    for script in
        ["", "1", "aaa", "aaa1n1 3 4 1 a 1", "aaa1n1 3 4 1 a 1 v", "aaa1n1 3 4 1 a 1 d", "h", "m", "v m", "d m 2"]
    {
        let mut walk = Walk::new();
        walk.press(script);
        let (with, _) = walk.draw(100, 30, Theme { colour: true });
        let (without, _) = walk.draw(100, 30, Theme { colour: false });
        assert_eq!(text(&with), text(&without), "{script}");
        for cell in without.content() {
            assert_eq!((cell.fg, cell.bg), (Color::Reset, Color::Reset), "{script}");
        }
    }
}

#[test]
fn the_line_under_the_cursor_is_marked_twice() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 3 4 1 a <down><down>");
    let (buffer, cursor) = walk.draw(60, 24, Theme { colour: false });
    let cursor = cursor.unwrap_or_else(|| panic!("no cursor"));
    assert_eq!(buffer[(cursor.x, cursor.y)].symbol(), ">");
    assert!(buffer[(cursor.x, cursor.y)].modifier.contains(Modifier::REVERSED));
}

#[test]
fn every_question_fits_a_phone_with_all_its_answers() {
    for (at, question) in PROTOCOL.enumerated() {
        let about = if question.wound { About::Wound(0) } else { About::Bird };
        let mut walk = Walk::new();
        if question.wound {
            walk.session.record(Entry::FoundWound);
        }
        let spot = walk.session.exam.spot(Asked { about, question: at });
        walk.session.record(Entry::Went(Some(spot)));
        let mut seen = String::new();
        for _ in 0..3 {
            let frame = walk.frame(40, 20);
            assert!(!frame.contains("more lines below"), "{}:\n{frame}", question.id);
            seen.push_str(&frame);
            walk.press("<space>");
        }
        // A word with a hyphen may be parted at it.
        let flat = seen.split_whitespace().collect::<Vec<_>>().join(" ").replace("- ", "-");
        // Builds are offered to their kind; no kind is told here.
        for (_, choice) in (0u8..).zip(&question.choices).filter(|(at, _)| question.is_offered(*at, None)) {
            let words = choice.say.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(flat.contains(&words), "{}: {} does not show\n{seen}", question.id, choice.say);
        }
        assert!(flat.contains(question.ask.split_whitespace().last().unwrap_or_default()), "{}", question.id);
    }
}

#[test]
fn every_instruction_fits_a_phone() {
    for instruction in &PROTOCOL.instructions {
        let mut walk = Walk::new();
        walk.session.record(Entry::Began(instruction.id.clone()));
        let frame = walk.wait(1000).frame(40, 20);
        assert!(!frame.contains("more lines below"), "{}:\n{frame}", instruction.id);
    }
}

/// Keys that people press, digits most of all.
fn any_key() -> impl Strategy<Value = Key> {
    let keys: Vec<Key> =
        TABLE.iter().flat_map(|b| b.keys).copied().filter(|k| !matches!(k, Key::Char('x') | Key::Control(_))).collect();
    prop_oneof![3 => prop::sample::select(('0'..='9').map(Key::Char).collect::<Vec<_>>()), 2 => prop::sample::select(keys)]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(30) })]

    /// Nothing panics at any size, the cursor stays on screen, every sign is one column wide, need is told in words.
    #[test]
    fn any_keys_at_any_size(keys in prop::collection::vec(any_key(), 0..60), columns in 1u16..130, rows in 1u16..45) {
        let mut walk = Walk::new();
        for key in keys {
            walk.key(key);
            let (buffer, cursor) = walk.draw(columns, rows, Theme { colour: true });
            if let Some(cursor) = cursor {
                prop_assert!(cursor.x < columns && cursor.y < rows);
            }
            for cell in buffer.content() {
                prop_assert_eq!(cell.symbol().width(), 1, "{}", cell.symbol());
            }
        }
        prop_assert_eq!(&walk.kept, &walk.session.log);
    }

    /// Whatever was pressed, what is kept goes on exactly where it was.
    #[test]
    fn the_log_alone_is_the_whole_examination(keys in prop::collection::vec(any_key(), 0..80)) {
        let mut walk = Walk::new();
        for key in keys {
            walk.key(key);
        }
        let again = coopside::exam::Exam::from_log(&PROTOCOL, &walk.kept);
        prop_assert_eq!(again.place, walk.session.exam.place.clone());
        prop_assert_eq!(again.findings, walk.session.exam.findings.clone());
    }

    /// An answer and "back" leave the findings as they were, whatever came before.
    #[test]
    fn back_undoes_an_answer(keys in prop::collection::vec(any_key(), 0..40)) {
        let mut walk = Walk::new();
        for key in keys {
            walk.key(key);
        }
        if matches!(walk.session.context(), Context::Ask) {
            let (findings, place) = (walk.session.exam.findings.clone(), walk.session.exam.place.clone());
            walk.press("0");
            if walk.session.exam.place == Place::Done {
                // At the end back only shows the last question.
                return Ok(());
            }
            // An authority call puts itself on top; it is put aside first.
            if matches!(&walk.session.exam.place, Place::Instruction(at, _) if PROTOCOL.roles.is_called_by_itself(*at)) {
                walk.press("b");
            }
            walk.press("b");
            prop_assert_eq!(&walk.session.exam.findings, &findings);
            prop_assert_eq!(&walk.session.exam.place, &place);
        }
    }
}

#[test]
fn a_small_screen_says_so_and_still_says_what_to_do() {
    let frame = Walk::new().press("1").frame(30, 10);
    assert!(frame.contains("Press. Eye, bone") && frame.contains("larger"), "{frame}");
    assert!(pane::small::is_too_small(ratatui::layout::Rect::new(0, 0, 35, 20)));
    assert!(!pane::small::is_too_small(ratatui::layout::Rect::new(0, 0, 40, 20)));
}

#[test]
fn one_key_turns_to_the_question_that_settles_most_and_never_before_the_danger_signs() {
    let mut walk = Walk::new();
    assert!(walk.press("u").frame(40, 20).contains("First these five signs"));
    walk.press("6 1 1 3 1 2 1").to("alert");
    let telling = walk.session.telling.and_then(|telling| match telling {
        Telling::Question(asked) => Some(asked),
        Telling::Wounds => None,
    });
    let asked = telling.map(|asked| PROTOCOL.ask(asked.question).id.to_string());
    assert!(telling.is_some_and(|asked| walk.session.verdict.open.contains(&asked)), "{asked:?}");
    let hands_on = |at| PROTOCOL.steps.of(PROTOCOL.ask(at).step).hands_on;
    assert!(telling.is_some_and(|asked| !hands_on(asked.question)), "no bird is taken in the hand for a hint");
    walk.press("u");
    let place = match &walk.session.exam.place {
        Place::Ask(asked) => vec![*asked],
        Place::List(list) => walk.session.exam.signs(*list),
        _ => Vec::new(),
    };
    assert!(telling.is_some_and(|asked| place.contains(&asked)));
}

/// What can no longer change how soon says so, and is skipped in one key; the danger signs never are.
#[test]
fn a_question_that_cannot_change_the_outcome_says_so() {
    let mut walk = Walk::new();
    walk.press("2 <enter> aaa");
    assert!(!walk.frame(100, 30).contains("n skips it"), "kind is asked of every bird");
    let mut seen = 0;
    while walk.session.exam.place != Place::Done && seen == 0 {
        seen += usize::from(walk.frame(100, 30).contains("n skips it"));
        if seen == 0 {
            walk.fine();
        }
    }
    assert_eq!(seen, 1, "a bird that needs a vet at once has questions that change nothing of that");
    let before = walk.asked();
    assert_ne!(walk.press("n").asked(), before);
}

/// What is in the house is put in with one key, kept, and the plan is made for it; a label is ruled on for the bird.
#[test]
fn the_house_and_a_label_are_one_key_away_from_the_plan() {
    let mut walk = Walk::new();
    walk.press("i");
    assert!(walk.frame(100, 40).contains("What is in the house?"), "{}", walk.frame(100, 40));
    // A line that bears a strength and a date asks for them; what cannot be read changes nothing.
    walk.press("6 1 0 <space> % <space> u n t i l <space> s o o n <enter>");
    assert!(walk.frame(100, 40).contains("2027-03-31"), "{}", walk.frame(100, 40));
    for _ in 0..4 {
        walk.key(coopside::view::keys::Key::Backspace);
    }
    walk.press("2 0 9 0 - 0 3 <enter>");
    assert_eq!(walk.cupboard, "povidone_iodine 10 % until 2090-03-31");
    assert!(walk.frame(40, 20).contains("povidone-iodine solution: here"), "{}", walk.frame(40, 20));
    walk.press("6");
    assert_eq!(walk.cupboard, "");
    // What only bears a date is put in at once, and the next number is the next line; its date is typed when asked for.
    walk.press("4 5");
    assert_eq!(walk.cupboard, "saline; salt");
    walk.press("5 4 4 d 2 0 9 0 - 0 3 <enter>");
    assert_eq!(walk.cupboard, "saline until 2090-03-31");
    walk.press("4");
    // The kit, and back.
    walk.press("2");
    assert!(walk.frame(60, 24).contains("TO HAVE BEFORE IT HAPPENS"), "{}", walk.frame(60, 24));
    walk.press("b 1");
    for letter in "fusidic acid, betamethasone".chars() {
        walk.key(coopside::view::keys::Key::Char(letter));
    }
    walk.press("<enter>");
    assert!(walk.frame(60, 24).contains("NEVER on a bird"), "{}", walk.frame(60, 24));
    walk.press("b b");
    assert!(walk.frame(40, 20).contains("fighting for breath") || walk.session.overlays.is_empty());
}

/// The keeper's own numbers: under the instruction that says to phone, in the verdict that needs a vet, and nowhere else.
#[test]
fn whom_to_call_shows_where_it_is_needed() {
    let mut walk = Walk::new();
    walk.take(Input::Set(Setting::Contacts, "emergency_vet night clinic 555 0133\nauthority 555 0144\n".into()));
    assert!(!walk.frame(40, 20).contains("night clinic"));
    let pressing = walk.press("1").frame(40, 20);
    // No number is parted at the end of a row: the blank in it is one that holds.
    assert!(pressing.contains("555\u{a0}0133") && !pressing.contains("555\u{a0}0144"), "{pressing}");
    let verdict = walk.press("<enter> v").frame(60, 60);
    assert!(
        verdict.contains("WHOM TO CALL") && verdict.contains("Emergency vet: night clinic 555\u{a0}0133"),
        "{verdict}"
    );
    let plan = walk.press("dd").frame(60, 60);
    assert!(plan.contains("WHOM TO CALL"), "{plan}");
    let mut calm = Walk::new();
    calm.take(Input::Set(Setting::Contacts, "vet 555 0155\n".into()));
    assert!(!calm.press("v").frame(60, 24).contains("WHOM TO CALL"), "nothing asks for a vet yet");
}

#[test]
fn whom_to_call_is_written_down_once_and_nothing_typed_takes_it_out() {
    let mut walk = Walk::new();
    let verdict = walk.press("1 <enter> v").frame(60, 60);
    assert!(verdict.contains("Nobody is written down yet. y: write it once"), "{verdict}");
    let asked = walk.press("y").frame(60, 24);
    assert!(asked.contains("Whom do you call?") && asked.contains("your vet: not written down"), "{asked}");
    walk.press("1 m i l l <enter>");
    assert_eq!(walk.contacts, "vet mill\n");
    // What the disk kept before comes too late to count.
    walk.take(Input::Set(Setting::Contacts, "vet barn\n".into()));
    assert!(walk.frame(60, 24).contains("your vet: mill"));
    let verdict = walk.press("b").frame(60, 60);
    assert!(verdict.contains("Your vet: mill"), "{verdict}");
    walk.press("y 1 <back> <back> <back> <back> <enter>");
    assert_eq!(walk.contacts, "");
}

#[test]
fn the_sheet_bears_a_name_only_while_it_is_asked_for() {
    let mut walk = Walk::new();
    walk.take(Input::Set(Setting::Contacts, "vet mill 555 0166\n".into()));
    walk.press("1 <enter> v s");
    assert!(!walk.session.sheet().parts.iter().flat_map(|part| &part.rows).any(|row| row.told.contains("555 0166")));
    let told = walk.press("y").frame(60, 24);
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("Your own name and numbers stand on this sheet now."), "{told}");
    let bears = |walk: &Walk| {
        walk.session.sheet().parts.iter().flat_map(|part| &part.rows).any(|row| row.told.contains("555 0166"))
    };
    assert!(bears(&walk));
    walk.press("b s");
    assert!(!bears(&walk), "each sheet asks anew");
}

/// What is typed keeps its capitals; a letter that is pressed means what it says with the shift lock on, too.
#[test]
fn names_keep_their_capitals() {
    let mut walk = Walk::new();
    walk.press("1 <enter> V");
    assert!(walk.frame(60, 24).contains("IN SHORT"));
    walk.press("y 1 D r <space> R u e <enter>");
    assert_eq!(walk.contacts, "vet Dr Rue\n");
}

/// A card put aside before its time says so; its numbers are steps, not answers.
#[test]
fn a_card_put_aside_early_says_what_was_left() {
    let mut walk = Walk::new();
    let frame = walk.press("1 2").frame(60, 24);
    assert!(frame.contains("These are steps to take, in order.") && frame.contains("PRESS AND HOLD"), "{frame}");
    let frame = walk.wait(18).press("<enter>").frame(60, 24);
    assert!(frame.contains("4:42 were still to go"), "{frame}");
    assert!(walk.session.timer().is_some_and(|timer| timer.seconds == 282), "its clock does not run on");
    // Another card for the same step brings its own clock.
    walk.wait(282).press("t").press("2");
    assert_eq!((walk.asked().as_str(), walk.session.timer()), ("instruction press_go", None));
    let mut whole = Walk::new();
    let frame = whole.press("1").wait(301).press("<enter>").frame(60, 24);
    assert!(!frame.contains("still to go"), "{frame}");
}

/// Nobody answers for another wound: each is named by its place, and what was told of the bird stands beside the answer alike.
#[test]
fn a_wound_is_named_by_its_place_and_what_was_told_of_her_is_shown() {
    let mut walk = Walk::new();
    walk.press("aaa1n1 1 1 1 a");
    while walk.session.exam.place != Place::Wounds {
        walk.fine();
    }
    walk.press("1");
    let mut seen = String::new();
    while let Place::Ask(asked) = walk.session.exam.place {
        if walk.session.exam.findings.wounds() == 0 || asked.about == About::Bird {
            break;
        }
        seen.push_str(&walk.frame(60, 40));
        walk.press("1");
    }
    assert!(seen.contains("Wound 1: Where"), "{seen}");
    let place =
        PROTOCOL.question("place").and_then(|place| Some(place.choices.first()?.say.clone())).unwrap_or_default();
    assert!(seen.contains(&format!("Wound 1, {place}:")), "{seen}");
    assert!(seen.contains("less than an hour (as told of her)"), "{seen}");
    assert!(seen.contains("tooth or claw: dog, cat, fox, rat (as told of her)"), "{seen}");
}

/// What is put aside before its time is one key away, and comes back as it was; only then is the answer behind it taken back.
#[test]
fn back_returns_to_a_card_put_aside_before_it_takes_anything_back() {
    let mut walk = Walk::new();
    walk.press("1").wait(3).press("<enter> b");
    assert!(walk.frame(40, 20).contains("PRESS AND HOLD"), "{}", walk.frame(40, 20));
    assert_eq!(walk.session.verdict.need.low, Need::Now);
    // Its time up, the question behind it is asked, and back takes the answer back as ever.
    walk.wait(301).press("<enter> b");
    assert!(!walk.frame(40, 20).contains("PRESS AND HOLD") && walk.session.verdict.need.low < Need::Now);
    // What comes of it is not asked before its time.
    let mut early = Walk::new();
    assert_eq!(early.press("1").wait(3).press("<enter>").asked(), "list danger");
    // Where no step of it goes by a clock, it is asked, and an answer before the time was up is taken, and says so.
    let mut cooled = Walk::new();
    cooled.press(STORY).to("breathing").say("breathing", "fast").to("heat").say("heat", "stays");
    assert_eq!(cooled.wait(3).press("<enter>").asked(), "heat");
    let frame = cooled.press("1").frame(60, 24);
    assert!(frame.contains("Its time was not up: keep on until it is"), "{frame}");
}

/// The lines of a label part its ingredients: what stands after a break is read by itself, however late it stands.
#[test]
fn a_pasted_label_is_read_line_by_line_and_to_its_end() {
    let mut walk = Walk::new();
    walk.press("i 1");
    walk.take(Input::Paste(format!("{}\nlidocaine\r\n", "sodium chloride, ".repeat(30))));
    let frame = walk.press("<enter>").frame(60, 24);
    assert!(frame.contains("NEVER on a bird"), "{frame}");
}

/// Nobody types on into what was being written of another bird.
#[test]
fn opening_a_bird_gives_up_what_was_being_written() {
    let mut walk = Walk::new();
    let letters = TypingOf::Case(coopside::session::writing::Writing::Letters);
    walk.session.line = Some(TypedLine::with(letters, "ru".into()));
    walk.take(Input::Opened(Case { id: CaseId::new(), log: Vec::new() }));
    assert!(walk.session.writing().is_none() && walk.session.line.is_none());
}
