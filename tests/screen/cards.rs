//! What fills the screen at once: where it leads, that it ends, what is asked beside it, and what it keeps people from.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, now};
use coopside::exam::{self, Place};
use coopside::finding::log::Entry;
use coopside::finding::{About, Answer, Findings, Id, Statement};
use coopside::judge::judge;
use coopside::protocol::question::{Asked, Choice, Question};
use coopside::protocol::rule::{ActionAt, Instruction};
use coopside::protocol::scale::Need;
use coopside::sheet::{Sheet, Truth};
use coopside::view::line::Row;
use coopside::view::meaning::Meaning;
use coopside::view::rows::{page, pages, rows};
use std::collections::BTreeSet;

fn names(acts: &[ActionAt]) -> Vec<&'static str> {
    acts.iter().map(|at| PROTOCOL.action(*at).id.as_str()).collect()
}

/// Every answer that fills the screen.
fn calling() -> Vec<(Asked, &'static Question, &'static Choice, &'static Instruction)> {
    let mut found = Vec::new();
    for (at, question) in PROTOCOL.enumerated() {
        let about = if question.wound { About::Wound(0) } else { About::Bird };
        for choice in &question.choices {
            if let Some(called) = choice.instruct {
                found.push((Asked { about, question: at }, question, choice, PROTOCOL.instruction(called)));
            }
        }
    }
    found
}

/// A walk at one question, turned to.
fn at(asked: Asked) -> Walk {
    let mut walk = Walk::new();
    if asked.about != About::Bird {
        walk.session.record(Entry::FoundWound);
    }
    let spot = walk.session.exam.spot(asked);
    walk.session.record(Entry::Went(Some(spot)));
    walk
}

fn say(walk: &mut Walk, asked: Asked, choice: &Id) {
    for entry in exam::answer(&PROTOCOL, &walk.session.exam, asked, Answer::Choice(choice.clone()), walk.session.now) {
        walk.session.record(entry);
    }
}

/// Whoever gives the same answer again and again comes out, whatever was answered, and each time to something new.
#[test]
fn no_answer_leads_round_in_a_ring() {
    for (asked, question, choice, _) in calling() {
        let mut walk = at(asked);
        say(&mut walk, asked, &choice.id);
        let mut seen = Vec::new();
        let mut rounds = 0;
        while let Place::Instruction(card, _) = walk.session.exam.place {
            let id = &PROTOCOL.instruction(card).id;
            assert!(!seen.contains(&card), "{} {}: {id} comes again", question.id, choice.id);
            seen.push(card);
            walk.wait(301).press("<enter>");
            if let Place::Ask(asked) = walk.session.exam.place
                && walk.session.exam.turned
            {
                // What was asked after it, answered the worst that calls something up.
                let again = PROTOCOL.ask(asked.question).choices.iter().rev().find(|choice| choice.instruct.is_some());
                let again = again.unwrap_or_else(|| panic!("{} is asked after it for nothing", walk.asked()));
                say(&mut walk, asked, &again.id);
            }
            rounds += 1;
            assert!(rounds < 9, "{} {} never ends", question.id, choice.id);
        }
    }
}

/// Press, press on, then go with the cloth fixed: no fourth pressing from the start, and the check goes on.
#[test]
fn a_bleed_that_never_stops_ends_with_the_cloth_fixed() {
    let mut walk = Walk::new();
    assert_eq!(walk.press("1").wait(301).press("<enter> 3").asked(), "instruction press_go");
    let frame = walk.frame(40, 20);
    assert!(frame.contains("Fix the cloth") && !frame.contains("set off"), "{frame}");
    assert_eq!(walk.wait(301).press("<enter> 2").asked(), "instruction fix_go");
    let frame = walk.frame(40, 20);
    assert!(frame.contains("Fix the cloth") && frame.contains("set off") && !frame.contains("to go"), "{frame}");
    assert_eq!(walk.press("<enter>").asked(), "list danger");
    // A wound goes the same way, whichever of its answers is given.
    let wound = PROTOCOL.question_at("bleeds").unwrap_or_else(|| panic!("no bleeds"));
    let asked = Asked { about: About::Wound(0), question: wound };
    for first in ["oozes", "runs", "spurts"] {
        let mut walk = at(asked);
        say(&mut walk, asked, &first.into());
        let mut shown = Vec::new();
        for next in ["spurts", "oozes", "runs"] {
            shown.push(walk.asked());
            if walk.wait(301).press("<enter>").asked() != "bleeds" {
                break;
            }
            say(&mut walk, asked, &next.into());
        }
        assert_eq!(shown.len(), 3, "{first}: {shown:?}");
        assert_eq!(shown.last().map(String::as_str), Some("instruction fix_go"), "{first}: {shown:?}");
    }
}

/// Nobody drives with a hand on her: whoever is told to set off is not told to press, and what holds the cloth is told before.
#[test]
fn nobody_is_told_to_press_and_to_set_off_at_once() {
    for instruction in &PROTOCOL.instructions {
        let acts = names(&instruction.acts);
        assert!(!(acts.contains(&"press") && acts.contains(&"phone_go")), "{}", instruction.id);
        let texts = [instruction.title.to_lowercase(), instruction.after.to_lowercase()];
        let drives =
            texts.iter().any(|text| text.contains("press on, all the way") || text.contains("press on, and go"));
        assert!(!drives, "{}", instruction.id);
        if acts.contains(&"phone_go") && names(&instruction.never).contains(&"lift_cloth") {
            let at = |name: &str| acts.iter().position(|act| *act == name);
            assert!(at("fix_cloth").is_some() && at("fix_cloth") < at("phone_go"), "{}", instruction.id);
        }
    }
    let how = &PROTOCOL.actions.iter().find(|action| action.id == *"fix_cloth").map(|action| action.how.as_str());
    let how = how.unwrap_or_default();
    assert!(how.to_lowercase().contains("breast free") && how.contains("someone else drives"), "{how}");
}

/// How a sign goes on is asked of nobody who could not tell whether it is there; and it counts as not to be told.
#[test]
fn how_it_goes_on_is_asked_only_where_it_was_seen() {
    let mut walk = Walk::new();
    assert_eq!(walk.press("0").asked(), "list shows");
    let now_bleeds = |walk: &Walk| {
        let said = walk.session.exam.findings.answer(About::Bird, "bleeding_now");
        said.map(|said| said.statement.answer.clone())
    };
    assert_eq!(now_bleeds(&walk), Some(Answer::CannotTell));
    assert_eq!(walk.session.verdict.need.low, Need::Now);
    assert_eq!(walk.press("b").asked(), "list danger", "one key takes it back");
    assert!(walk.session.exam.findings.said().is_empty());
    // The whole way with nothing that can be told.
    let mut walk = Walk::new();
    for _ in 0..150 {
        let asked: Vec<Asked> = match &walk.session.exam.place {
            Place::Ask(asked) => vec![*asked],
            Place::List(list) => walk.session.exam.signs(*list),
            _ => Vec::new(),
        };
        for asked in asked {
            assert!(
                !PROTOCOL.ask(asked.question).is_of_seen(),
                "{} is asked in doubt",
                PROTOCOL.ask(asked.question).id
            );
        }
        match walk.session.exam.place {
            Place::Done => break,
            Place::Instruction(..) => walk.press("<enter>"),
            _ => walk.press("0"),
        };
    }
    assert_eq!(walk.session.exam.place, Place::Done);
    // Nothing is milder than if all of it had been asked, and not told.
    let mut all = Findings::default();
    for question in PROTOCOL.questions.iter().filter(|question| !question.wound && question.worked_out.is_none()) {
        let told = Statement { about: About::Bird, question: question.id.clone(), answer: Answer::CannotTell };
        all.say(told, now());
    }
    let (walked, asked) = (&walk.session.verdict, judge(&PROTOCOL, &all, now()));
    assert!(walked.need.low >= asked.need.low && walked.humane.low >= asked.humane.low);
    assert!(walked.authority.low >= asked.authority.low);
    // Where it was seen after all, it is asked.
    let mut seen = Walk::new();
    assert_eq!(seen.press("0 e 1").wait(301).press("<enter>").asked(), "bleeding_now");
    let mut nerves = Walk::new();
    nerves.press("0").to("list nerves");
    let row = rows(&nerves.session)
        .iter()
        .position(|row| nerves.session.reader().say(&row.label).contains("staggers"))
        .unwrap_or(0);
    nerves.press(&(row + 1).to_string()).fine();
    assert_eq!(nerves.asked(), "nerve_hours");
}

/// One key asks where it bleeds while one presses; the clock runs on, and the answer leads back to it.
#[test]
fn where_it_bleeds_is_asked_through_a_key_and_the_clock_runs_on() {
    let first = || {
        let mut walk = Walk::new();
        walk.press("1");
        walk
    };
    let second = || {
        let mut walk = first();
        walk.wait(301).press("<enter> 3");
        walk
    };
    for (began, card) in [(first(), "press"), (second(), "press_go")] {
        let mut walk = began;
        assert!(walk.frame(40, 20).contains("o where?"), "{}", walk.frame(40, 20));
        assert!(walk.frame(100, 30).contains("o where?"));
        assert!(walk.press("h").frame(100, 60).contains("Asks where on her it bleeds"));
        walk.press("b").wait(10);
        assert_eq!(walk.press("o").asked(), "bleeds_where");
        assert!(walk.frame(60, 24).contains("press 4:50"), "{}", walk.frame(60, 24));
        // Its bell rings over the question, too.
        let mut late = if card == "press" { first() } else { second() };
        late.press("o");
        late.session.now += chrono::TimeDelta::seconds(301);
        let rung = coopside::update::update(&mut late.session, coopside::update::Input::Tick);
        assert!(rung.contains(&coopside::update::Effect::Bell));
        assert_eq!(walk.wait(5).press("6").asked(), format!("instruction {card}"));
        assert!(walk.frame(60, 24).contains("4:45 to go"), "{}", walk.frame(60, 24));
        assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeding_now");
        let said = walk.session.exam.findings.answer(About::Bird, "bleeds_where");
        assert_eq!(said.map(|said| said.statement.answer.clone()), Some(Answer::Choice("leg".into())));
    }
    // Back from the question is back at the card, and takes nothing else away.
    let mut walk = Walk::new();
    assert_eq!(walk.press("1 o b").asked(), "instruction press");
    assert_eq!(walk.session.verdict.need.low, Need::Now);
    for key in ["n", "0"] {
        assert_eq!(walk.press("o").press(key).asked(), "instruction press");
    }
    // A wound that is pressed is asked about again, whatever was asked beside it.
    let wound = PROTOCOL.question_at("bleeds").unwrap_or_else(|| panic!("no bleeds"));
    let asked = Asked { about: About::Wound(0), question: wound };
    let mut walk = Walk::new();
    walk.press("1 <enter> 1");
    walk.session.record(Entry::FoundWound);
    say(&mut walk, asked, &"runs".into());
    assert_eq!(walk.press("o 5").asked(), "instruction press");
    assert_eq!(walk.wait(301).press("<enter>").asked(), "bleeds");
    // Other cards have no such key, and by itself it is never asked.
    let mut other = Walk::new();
    assert!(!other.press("2").frame(100, 30).contains("o where?"));
    assert_eq!(other.press("o").asked(), "instruction breathe");
    let mut whole = Walk::new();
    whole.press("1 <enter> 1 aaa");
    for _ in 0..90 {
        assert_ne!(whole.asked(), "bleeds_where");
        whole.fine();
    }
    assert_eq!(whole.asked(), "done");
}

/// A sign of a list comes back to its list; told once, its card is not forced again, and a sign pressed by mistake is unsaid.
#[test]
fn a_card_of_a_list_leads_back_to_it_and_is_shown_once() {
    let mut told = 0;
    for (asked, question, _, instruction) in calling() {
        let Some(list) = question.list.filter(|_| instruction.once) else { continue };
        let list = &PROTOCOL.sign_list(list).id;
        let mut walk = Walk::new();
        let reach = |walk: &mut Walk| {
            walk.press("a");
            if *list != *"shows" {
                walk.press("aa1n1 3 4 1 a").to(&format!("list {list}"));
            }
        };
        reach(&mut walk);
        let calls =
            question.choices.iter().find(|choice| choice.instruct == PROTOCOL.instructions.at(instruction.id.as_str()));
        let answer = calls.unwrap_or_else(|| panic!("{} calls nothing up", question.id)).id.as_str();
        let is_its = |row: &Row| matches!(row.meaning, Meaning::Sign(of, _) if of == asked);
        let marked = |walk: &Walk| rows(&walk.session).iter().any(|row| is_its(row) && row.marked);
        assert_eq!(walk.say(question.id.as_str(), answer).asked(), format!("instruction {}", instruction.id));
        walk.press("<enter>");
        if walk.asked() == "instruction go_now" {
            walk.press("q");
        }
        assert_eq!(walk.asked(), format!("list {list}"), "{}", question.id);
        assert!(marked(&walk), "{}", question.id);
        // The same key again, as by a hand that shakes, makes nothing milder and forces nothing twice.
        assert_eq!(walk.say(question.id.as_str(), answer).asked(), format!("list {list}"), "{}", question.id);
        assert!(marked(&walk), "{}", question.id);
        walk.press("b");
        assert!(!marked(&walk), "{} cannot be taken back", question.id);
        told += 1;
    }
    assert!(told >= 7, "{told}");
    let mut scald = Walk::new();
    scald.press("aaa1n1 3 7");
    assert_eq!(scald.asked(), "instruction scald");
    let what = PROTOCOL.question_at("what").unwrap_or_else(|| panic!("no what"));
    let asked = Asked { about: About::Wound(0), question: what };
    scald.press("<enter>").session.record(Entry::FoundWound);
    say(&mut scald, asked, &"burn".into());
    assert_ne!(scald.asked(), "instruction scald", "shown already");
}

/// Every list can be read on a phone with all of its signs chosen.
#[test]
fn every_list_fits_a_phone_with_all_its_signs() {
    for (at, list) in PROTOCOL.lists.placed() {
        let mut walk = Walk::new();
        let said = |id: &str, answer: &str| Statement {
            about: About::Bird,
            question: id.into(),
            answer: Answer::Choice(answer.into()),
        };
        walk.session.record(Entry::Said(vec![said("kind", "hen"), said("happened", "ill"), said("wing", "open")]));
        walk.session.record(Entry::Opened(list.id.clone()));
        let signs = walk.session.exam.signs(at);
        let worst = |asked: &Asked| {
            let question = PROTOCOL.ask(asked.question);
            Some(said(question.id.as_str(), question.choices.last()?.id.as_str()))
        };
        walk.session.record(Entry::Said(signs.iter().filter_map(worst).collect()));
        for at in 0..pages(&walk.session) {
            walk.session.page = at;
            let frame = walk.frame(40, 20);
            assert!(!frame.contains("more lines below"), "{}:\n{frame}", list.id);
            let flat = frame.split_whitespace().collect::<Vec<_>>().join(" ");
            for row in page(&walk.session) {
                let label = walk.session.say(row.label);
                assert!(flat.contains(&label), "{}: {label} does not show\n{frame}", list.id);
            }
        }
    }
}

/// What a hand does before the head has thought, and what it breaks.
const REFLEXES: &[&str] = &[
    "pull_string",
    "pull_object",
    "push_back",
    "pull_egg",
    "straighten",
    "rub_frost",
    "lance",
    "grease",
    "by_mouth",
    "close_home",
];

/// Answers that forbid one of these and fill no screen, each with why.
const NO_CARD: &[(&str, &str, &str)] = &[
    ("happened", "mammal", "A bite is not found yet: nobody sews what they have not seen."),
    ("what", "sewn", "It is shut, and nothing hurries; the plan forbids opening it."),
    ("happened", "fire", "Mostly smoke; a burn is a wound, and says so itself."),
    ("grip", "one", "Nothing looks bent, so nothing is straightened."),
    ("grip", "neither", "Nothing looks bent, so nothing is straightened."),
    ("back_raw", "yes", "Old: there is time to read the plan."),
    ("what", "scrape", "So is every open wound; while it may bleed, nothing stands before that question."),
    ("what", "cut", "So is every open wound; while it may bleed, nothing stands before that question."),
    ("what", "hole", "So is every open wound; while it may bleed, nothing stands before that question."),
    ("what", "skin_gone", "So is every open wound; while it may bleed, nothing stands before that question."),
    ("depth", "deep", "Sewing takes its time: the plan forbids it first."),
    ("cause", "mammal", "Sewing takes its time: the plan forbids it first."),
    ("cause", "raptor", "Sewing takes its time: the plan forbids it first."),
];

/// The least that has to be said for a question to apply.
fn needed(asked: Asked) -> Vec<Statement> {
    let question = PROTOCOL.ask(asked.question);
    let hen = Statement { about: About::Bird, question: "kind".into(), answer: Answer::Choice("hen".into()) };
    let applies = |said: &[Statement]| {
        let sheet = Sheet::lay(&PROTOCOL, &findings(said), now());
        sheet.applies(asked.about.into(), asked.question) == Truth::Yes
    };
    if applies(std::slice::from_ref(&hen)) {
        return vec![hen];
    }
    for read in question.applies.iter().flat_map(coopside::protocol::cond::Cond::questions) {
        let other = PROTOCOL.ask(read);
        for choice in &other.choices {
            let about = if other.wound { asked.about } else { About::Bird };
            let answer = Answer::Choice(choice.id.clone());
            let said = vec![hen.clone(), Statement { about, question: other.id.clone(), answer }];
            if applies(&said) {
                return said;
            }
        }
    }
    panic!("{} never applies", question.id)
}

fn findings(said: &[Statement]) -> Findings {
    let mut findings = Findings::default();
    findings.find_wound();
    for statement in said {
        findings.say(statement.clone(), now());
    }
    findings
}

/// What the rules in force forbid of these; by mouth only where something inside is open.
fn forbidden(said: &[Statement]) -> BTreeSet<&'static str> {
    let verdict = judge(&PROTOCOL, &findings(said), now());
    let mut forbidden = BTreeSet::new();
    for rule in verdict.reasons.iter().map(|reason| PROTOCOL.rule(reason.rule)) {
        for at in &rule.never {
            let id = PROTOCOL.action(*at).id.as_str();
            let of_leak = id != "by_mouth" || rule.stays.iter().any(|(stays, _)| stays == at);
            if REFLEXES.contains(&id) && of_leak {
                forbidden.insert(id);
            }
        }
    }
    forbidden
}

/// Whatever answer forbids what the first reflex does says so at once, over the whole screen.
#[test]
fn every_answer_whose_first_reflex_harms_fills_the_screen() {
    let (mut missing, mut needless) = (Vec::new(), Vec::new());
    for (at, question) in PROTOCOL.enumerated().filter(|(_, question)| question.worked_out.is_none()) {
        let asked = Asked { about: if question.wound { About::Wound(0) } else { About::Bird }, question: at };
        let base = needed(asked);
        let before = forbidden(&base);
        for choice in &question.choices {
            let answer = Answer::Choice(choice.id.clone());
            let statement = Statement { about: asked.about, question: question.id.clone(), answer };
            let said: Vec<Statement> = base.iter().cloned().chain([statement]).collect();
            let card = choice.instruct.map(|at| names(&PROTOCOL.instruction(at).never)).unwrap_or_default();
            let own: Vec<&str> = forbidden(&said).difference(&before).copied().collect();
            let excused = NO_CARD.iter().any(|(of, answer, _)| question.id == **of && choice.id == **answer);
            let left: Vec<&str> = own.into_iter().filter(|id| !card.contains(id)).collect();
            match (left.is_empty(), excused) {
                (false, false) => missing.push(format!("{} {}: {left:?}", question.id, choice.id)),
                (true, true) => needless.push(format!("{} {}", question.id, choice.id)),
                _ => {}
            }
        }
    }
    assert!(missing.is_empty(), "\n{}", missing.join("\n"));
    assert!(needless.is_empty(), "excused, and needs no excuse: {needless:?}");
    assert!(NO_CARD.iter().all(|(.., why)| !why.is_empty()));
}
