//! What somebody said shows is not lost: its bans and its acts stand on the plan, its line is marked, and what would contradict it is
//! asked once more.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use crate::common::walk::Walk;
use coopside::exam::Place;
use coopside::finding::log::Entry;
use coopside::finding::{About, Answer};
use coopside::protocol::cond::Cond;
use coopside::protocol::question::Question;
use coopside::protocol::scale::Need;
use coopside::view::meaning::Meaning;
use coopside::view::rows;

/// Every sign of what shows.
fn signs() -> Vec<&'static Question> {
    PROTOCOL.questions.iter().filter(|question| question.shown_if.is_some()).collect()
}

/// A walk in which this sign was chosen, its instruction carried out, and nothing else said.
fn told(sign: &Question) -> Walk {
    let mut walk = Walk::new();
    walk.press("a").say(sign.id.as_str(), "yes");
    while matches!(walk.session.exam.place, Place::Instruction(..)) {
        walk.press("<enter>");
    }
    walk
}

#[test]
fn what_its_instruction_forbids_stays_forbidden_and_what_it_tells_stays_told() {
    for sign in signs() {
        let walk = told(sign);
        let called = sign.choices.last().and_then(|yes| yes.instruct).unwrap_or_else(|| panic!("{}", sign.id));
        let instruction = PROTOCOL.instruction(called);
        let verdict = &walk.session.verdict;
        let forbidden = verdict.never.iter().map(|never| never.target.action).collect::<Vec<_>>();
        // What is broken within hours is on the plan as soon as it is on the screen.
        let never = instruction.never.iter().filter(|never| !forbidden.contains(never));
        let lost: Vec<_> = never.map(|at| PROTOCOL.action(*at).id.as_str()).collect();
        let only_there = ["steroid", "harsh", "lift_cloth", "close_home", "grease", "squeeze_breast"];
        assert!(lost.iter().all(|id| only_there.contains(id)), "{}: {lost:?}", sign.id);
        assert!(!walk.session.cards.is_empty(), "{}", sign.id);
        assert!(walk.session.plan.steps.len() > 1, "{}: nothing of it is on the plan", sign.id);
    }
}

/// What is needed at least is no less than the mildest of what it may turn out to be, and never more.
#[test]
fn its_need_is_the_least_of_what_it_may_be() {
    let least = [
        ("shows_bite", Need::WithinADay),
        ("shows_string", Need::WithinHours),
        ("shows_eye", Need::WithinADay),
        ("shows_vent", Need::Now),
        ("shows_maggots", Need::Now),
        ("shows_burn", Need::WithinHours),
        ("shows_limb", Need::WithinHours),
        ("shows_neck", Need::WithinHours),
        ("shows_down", Need::WithinHours),
        ("shows_beak", Need::WithinHours),
        ("shows_cold", Need::WithinHours),
        ("shows_egg", Need::WithinHours),
        ("shows_other", Need::WithinADay),
    ];
    for sign in signs() {
        let needed = told(sign).session.verdict.need.low;
        let expected = least.iter().find(|(id, _)| sign.id == **id).map_or(Need::Home, |(_, need)| *need);
        assert!(needed == expected || expected == Need::Home && needed <= Need::Home, "{}: {needed:?}", sign.id);
    }
}

#[test]
fn a_habitual_as_always_is_asked_once_more_and_drops_nothing_unseen() {
    let mut walk = Walk::new();
    walk.press("a").say("shows_cold", "yes").press("<enter>").press("a").to("cold_wet");
    let marked = rows::page(&walk.session).iter().any(|row| {
        matches!(&row.meaning, Meaning::Answer(_, Answer::Choice(id)) if *id == *"yes")
            && walk.session.say(row.label.clone()).contains("was it this?")
    });
    assert!(marked, "{}", walk.frame(40, 20));
    let before = walk.session.log.len();
    walk.press("a");
    assert_eq!(walk.session.log.len(), before, "the first time nothing is taken");
    let notice = walk.session.notice.clone().map(|notice| walk.session.say(notice)).unwrap_or_default();
    assert!(notice.contains("cold or soaked") && notice.contains("Same key again"), "{notice}");
    for size in [(100, 30), (60, 24), (40, 20)] {
        let frame = walk.frame(size.0, size.1);
        // Beside the summary a line of it is broken by what stands there.
        let told = frame.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains("cold or soaked") && told.contains("Same key"), "{frame}");
    }
    assert_eq!(walk.session.verdict.need.low, Need::WithinHours);
    // Another answer is taken at once; the same one the second time.
    let mut other = Walk { session: walk.session.clone(), ..Walk::new() };
    other.say("cold_wet", "yes");
    assert!(other.session.exam.findings.answer(About::Bird, "cold_wet").is_some());
    walk.press("a");
    assert!(walk.session.exam.findings.answer(About::Bird, "cold_wet").is_some());
    // Said twice that she is not cold, that she is so is taken back: nothing contradicts itself from then on.
    let shows = walk.session.exam.findings.answer(About::Bird, "shows_cold").map(|said| said.statement.answer.clone());
    assert_eq!(shows, Some(Answer::Choice("no".into())));
    assert!(walk.session.verdict.clashes.is_empty());
    walk.press("b");
    assert_eq!(walk.session.verdict.need.low, Need::WithinHours, "one key takes both back");
}

/// The exclusions say the same as what a bird of practice shows: no sign is found by other answers than it is drawn by.
#[test]
fn a_sign_is_found_by_what_it_is_drawn_by() {
    for sign in signs() {
        let exclusion = PROTOCOL.exclusions.iter().find(|exclusion| exclusion.id == sign.id);
        let exclusion = exclusion.unwrap_or_else(|| panic!("nothing is excluded by {}", sign.id));
        let Some(shown_if) = sign.shown_if.clone() else { continue };
        assert_eq!(exclusion.other, Cond::Not(Box::new(shown_if)), "{}", sign.id);
    }
}

#[test]
fn no_wound_is_asked_once_more_where_one_was_told_of() {
    let mut walk = Walk::new();
    walk.press("a").say("shows_wound", "yes").press("<enter>").press("a");
    for _ in 0..120 {
        if walk.session.exam.place == Place::Wounds {
            break;
        }
        walk.fine();
    }
    walk.press("a");
    let frame = walk.frame(40, 20);
    assert_eq!(walk.session.exam.place, Place::Wounds, "{frame}");
    assert!(frame.contains("open wound"), "{frame}");
    walk.press("a");
    assert!(walk.session.exam.findings.looked_over());
}

/// "Cannot tell" and "not looked" on the first page say nothing of what the second one asks.
#[test]
fn what_was_not_shown_yet_is_not_spoken_of() {
    for key in ["0", "n", "a"] {
        let mut walk = Walk::new();
        walk.press("a");
        let shown: Vec<_> = rows::page(&walk.session).into_iter().map(|row| row.meaning).collect();
        walk.press(key);
        let Place::List(list) = walk.session.exam.place else { panic!("{key}: {}", walk.asked()) };
        assert_eq!(walk.session.page, 1, "{key}");
        for sign in walk.session.exam.signs(list) {
            let was_shown = shown.iter().any(|row| matches!(row, Meaning::Sign(asked, _) if *asked == sign));
            let said = walk.session.exam.findings.answer(About::Bird, PROTOCOL.ask(sign.question).id.as_str());
            let passed = said.is_some() || walk.session.exam.was_skipped(sign);
            assert_eq!(passed, was_shown, "{key}: {}", PROTOCOL.ask(sign.question).id);
        }
        walk.press(key);
        assert_ne!(walk.session.exam.place, Place::List(list), "{key}");
        // One key takes the page back.
        walk.press("b");
        assert_eq!(walk.session.exam.place, Place::List(list), "{key}");
    }
}

/// An oozing bird that is short of breath is not held, and a burnt one that is cold is not cooled.
#[test]
fn what_would_harm_her_gives_way_to_what_fits_her() {
    let began = |walk: &Walk| {
        let began = walk.session.log.iter().rev().find_map(|stamped| match &stamped.entry {
            Entry::Began(id) => Some(id.to_string()),
            _ => None,
        });
        began.unwrap_or_default()
    };
    let mut gasping = Walk::new();
    gasping.press("2<enter>a").say("shows_bleeds", "yes");
    assert_eq!(began(&gasping), "let_her_sit");
    assert!(!gasping.session.plan.steps.iter().any(|step| format!("{step:?}").contains("press")));
    let mut sound = Walk::new();
    sound.press("a").say("shows_bleeds", "yes");
    assert_eq!(began(&sound), "press_little");
    let mut cold = Walk::new();
    cold.press("a").say("shows_cold", "yes").press("<enter>").say("shows_burn", "yes");
    assert_eq!(began(&cold), "cover_burn");
    let mut eye = Walk::new();
    eye.press("a a a");
    eye.session.record(Entry::FoundWound);
    eye.to("place").say("place", "eye");
    while matches!(eye.session.exam.place, Place::Instruction(..)) {
        eye.press("<enter>");
    }
    eye.say("what", "burn");
    assert_ne!(began(&eye), "scald", "no water runs into an eye");
    let mut quail = Walk::new();
    quail.press("aaa1 1 8").say("reach", "day").say("happened", "scald");
    assert_eq!(began(&quail), "cover_burn");
}

/// On a phone the question itself stands on the screen, whatever the last key is told of besides.
#[test]
fn no_notice_takes_the_place_of_a_question_nobody_has_read() {
    let mut walk = Walk::new();
    walk.size = (40, 20);
    walk.press("a").say("shows_string", "yes").press("<enter>a");
    let mut asked = 0;
    for _ in 0..120 {
        if let Place::Ask(at) = walk.session.exam.place {
            asked += 1;
            let begins: Vec<&str> = PROTOCOL.ask(at.question).ask.split_whitespace().take(3).collect();
            let frame = walk.frame(40, 20);
            let read = frame.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(walk.session.asked_again.is_some() || read.contains(&begins.join(" ")), "{begins:?}\n{frame}");
        }
        walk.fine();
    }
    assert!(asked > 10, "{asked}");
}

/// As long as the minutes of a bleed are not over, whatever else is told: pressing is the first line, and what it would let go for
/// waits; after them the instruction stands as ever.
#[test]
fn what_else_shows_lets_go_of_no_bleed() {
    let mut walk = Walk::new();
    walk.press("1 <enter> a").say("shows_bite", "yes");
    let frame = walk.frame(40, 20);
    assert!(frame.contains("BITES HIDE") && frame.contains("1  Press. Eye, bone, beak"), "{frame}");
    assert!(!frame.contains("quiet box") && !frame.contains("Look for blood"), "{frame}");
    let mut late = Walk::new();
    late.press("1").wait(301).press("<enter> 1 a").say("shows_bite", "yes");
    assert!(late.frame(40, 20).contains("quiet box"), "{}", late.frame(40, 20));
}

/// On a list both of two answers to one question may be seen of her: the milder one, said after it, takes the graver one back nowhere.
#[test]
fn no_milder_sign_replaces_a_graver_one_of_the_same_question() {
    let (mut refused, mut taken) = (0, 0);
    for question in PROTOCOL.questions.iter().filter(|question| question.ordered && question.list.is_some()) {
        let signs: Vec<&str> = question.choices.iter().skip(1).map(|choice| choice.id.as_str()).collect();
        let Some(list) = question.list else { continue };
        for (at, graver) in signs.iter().enumerate() {
            for milder in signs.iter().take(at) {
                let mut walk = Walk::new();
                walk.asks_on = false;
                walk.press("aaa").session.record(Entry::Opened(PROTOCOL.sign_list(list).id.clone()));
                if !walk.stands_at(question.id.as_str()) {
                    continue;
                }
                walk.say(question.id.as_str(), milder).session.overlays.clear();
                if !walk.stands_at(question.id.as_str()) {
                    continue;
                }
                // Worse replaces milder; then milder leaves it as it is, and says so.
                walk.say(question.id.as_str(), graver);
                if !walk.stands_at(question.id.as_str()) {
                    continue;
                }
                taken += 1;
                let log = walk.session.log.clone();
                walk.say(question.id.as_str(), milder);
                assert_eq!(walk.session.log, log, "{}: {graver}, then {milder}", question.id);
                assert!(walk.frame(60, 60).contains("The worse of the two stands."), "{}", question.id);
                refused += 1;
            }
        }
    }
    assert!(refused > 3 && refused == taken, "{refused} of {taken}");
}
