//! Numbers entered in the examination: panes of their own, a summary that moves with them, and sums without a bird.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, now};
use coopside::finding::figure::{Count, Figure, Floor, Fullness, Pad, Spilt};
use coopside::finding::log::Entry;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::measure::warmth::State;
use coopside::protocol::question::Asked;
use coopside::protocol::scale::Need;
use coopside::prove::judge_bands;
use coopside::session::Overlay;
use coopside::session::context::Context;
use coopside::unit::{Microlitres, Micrometres, TenthsOfSecond};
use coopside::view::keys::Key;
use coopside::words::Reader;

/// A hen, at the question of this name.
fn at(question: &str) -> Walk {
    let mut walk = Walk::new();
    walk.press("aaa1n1");
    turn_to(&mut walk, question);
    walk
}

fn turn_to(walk: &mut Walk, question: &str) {
    let at = PROTOCOL.question_at(question).unwrap_or_else(|| panic!("no {question}"));
    let spot = walk.session.exam.spot(Asked::of_bird(at));
    walk.session.record(Entry::Went(Some(spot)));
}

fn typed(walk: &mut Walk, text: &str) {
    for c in text.chars() {
        walk.key(Key::Char(c));
    }
}

#[track_caller]
fn said(walk: &Walk, question: &str) -> Answer {
    let said = walk.session.exam.findings.answer(About::Bird, question);
    said.map_or_else(|| panic!("{question} has no answer"), |said| said.statement.answer.clone())
}

#[test]
fn blood_is_added_up_by_single_keys_and_moves_the_need_while_it_is_picked() {
    let mut walk = at("weight");
    walk.press("1");
    typed(&mut walk, "2 kg");
    walk.press("<enter>");
    turn_to(&mut walk, "blood_lost");
    walk.press("6");
    assert_eq!(walk.session.context(), Context::Adding);
    assert!(walk.session.verdict.need.low < Need::WithinADay);
    // Two thin pads, red all over: by the graver end more than a fifth of a 2 kg hen's least blood.
    walk.press("2 1 3 2");
    assert_eq!(walk.session.verdict.need.low, Need::Now, "before anything is taken as the answer");
    assert!(walk.session.exam.findings.answer(About::Bird, "blood_lost").is_none());
    let frame = walk.frame(60, 24);
    assert!(frame.contains("+ 2 x thin pad, 10 cm, red all over") && frame.contains("% of her blood gone"), "{frame}");
    // A pool of 10 cm on tile, three tablespoons, twelve drops; then that is all.
    walk.press("3 1 2 2 4  4 2 3  1 1 2 <enter> 7");
    let expected = vec![
        Spilt::Pads(2, Pad::Thin10, Fullness::Full),
        Spilt::Pool { width: Micrometres(100_000), floor: Floor::Smooth },
        Spilt::Amount(Microlitres(45_000)),
        Spilt::Drops(12),
    ];
    assert_eq!(said(&walk, "blood_lost"), Answer::Figure(Figure::Spilt(expected)));
    assert_eq!(walk.session.draft, None);
}

#[test]
fn what_was_added_up_is_gone_on_with_and_lost_by_no_way_out() {
    let mut walk = at("blood_lost");
    walk.press("6 2 1 3 2");
    // An emergency, and leaving, keep what was added up.
    walk.press("e");
    assert!(matches!(said(&walk, "blood_lost"), Answer::Figure(Figure::Spilt(seen)) if seen.len() == 1));
    turn_to(&mut walk, "blood_lost");
    walk.press("6 4 1 1 x");
    assert!(walk.left);
    assert!(matches!(said(&walk, "blood_lost"), Answer::Figure(Figure::Spilt(seen)) if seen.len() == 2));
    // Back takes back what was seen last, and at the beginning leaves the question as it was.
    let mut walk = at("blood_lost");
    walk.press("6 4 1 1 b b");
    assert_eq!((walk.session.context(), walk.asked().as_str()), (Context::Ask, "blood_lost"));
    assert!(walk.session.exam.findings.answer(About::Bird, "blood_lost").is_none());
}

#[test]
fn while_she_bleeds_nothing_but_press_is_told() {
    let bleeding = |now_bleeds: &str| {
        let mut findings = Findings::default();
        for (question, answer) in [
            ("kind", "hen"),
            ("bleeding_hard", "yes"),
            ("bleeding_now", now_bleeds),
            ("weight", "light_hen"),
            ("blood_lost", "tablespoon"),
        ] {
            let answer = Answer::Choice(answer.into());
            findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
        }
        let verdict = coopside::prove::judge(&PROTOCOL, &findings, now());
        let reader = Reader::english(crate::common::walk::zone(), PROTOCOL.no_country());
        let plan = coopside::care::plan(
            &PROTOCOL,
            &verdict,
            &coopside::care::cupboard::Cupboard::default(),
            coopside::zone::Zone::UTC,
        );
        let text = coopside::render::text::whole(&PROTOCOL, &findings, &verdict, &plan, reader);
        let json = coopside::render::json::verdict(&PROTOCOL, &findings, &verdict, &plan, reader);
        (text, json)
    };
    let (text, json) = bleeding("slower");
    assert!(text.contains("Blood: press.") && !text.contains("% of her blood"), "{text}");
    let blood = json["figures"]["blood"].as_object().cloned().unwrap_or_default();
    assert!(blood.len() > 10 && blood["bleeds"] == true, "{blood:?}");
    assert!(blood.iter().all(|(field, told)| field == "bleeds" || told.is_null()), "{blood:?}");
    let (text, json) = bleeding("stopped");
    assert!(text.contains("% of her blood gone"), "{text}");
    assert_eq!(json["figures"]["blood"]["decides"], "high");
}

#[test]
fn breaths_are_tapped_and_the_time_ends_the_count() {
    let mut walk = at("breathing");
    walk.press("1");
    turn_to(&mut walk, "breath_count");
    walk.press("2 1 <space>");
    assert_eq!(walk.session.context(), Context::Tapping);
    for _ in 0..16 {
        walk.press("<space>");
    }
    assert!(walk.frame(60, 24).contains("s to go"));
    // The bird's time, not the number of keys, ends it: 16 in 15 s is more than a breath a second.
    walk.wait(15);
    assert_eq!(walk.session.verdict.figures.breaths.map(|breaths| breaths.rate.low.0), Some(600));
    walk.press("<enter>");
    let count = Count { breaths: 16, seconds: 15, held: false };
    assert_eq!(said(&walk, "breath_count"), Answer::Figure(Figure::Breaths(vec![count])));
    assert!(walk.session.verdict.need.low >= Need::WithinADay);
}

#[test]
fn a_vein_is_timed_and_stands_for_an_answer() {
    let mut walk = at("dryness");
    walk.press("2");
    turn_to(&mut walk, "vein");
    walk.press("3 <space>").wait(3).press("<space>");
    let frame = walk.frame(60, 24);
    assert!(frame.contains("longer than two seconds"), "{frame}");
    walk.press("<enter>");
    assert_eq!(said(&walk, "vein"), Answer::Figure(Figure::Refill(TenthsOfSecond(30))));
}

#[test]
fn a_wound_is_measured_in_place_of_being_judged_by_eye() {
    let mut walk = at("weight");
    walk.press("1");
    typed(&mut walk, "2 kg");
    walk.press("<enter>").to("any wound").press("1 7 1 1 6");
    assert_eq!(walk.session.context(), Context::Typing);
    typed(&mut walk, "8 x 5");
    assert!(walk.press("<enter>").frame(60, 24).contains("has no unit"), "{}", walk.frame(60, 24));
    typed(&mut walk, " cm");
    assert!(walk.frame(60, 24).contains("read as 80 mm x 50 mm"));
    walk.press("<enter>");
    let answer = walk.session.exam.findings.answer(About::Wound(0), "size").map(|said| said.statement.answer.clone());
    assert!(matches!(answer, Some(Answer::Figure(Figure::Lines(_)))), "{answer:?}");
}

#[test]
fn builds_are_those_of_her_kind() {
    let frame = at("weight").frame(60, 24);
    assert!(frame.contains("light, a laying breed") && !frame.contains("goose"), "{frame}");
    let mut walk = at("weight");
    walk.press("2");
    assert_eq!(said(&walk, "weight"), Answer::Choice("light_hen".into()));
    let weight =
        walk.session.verdict.figures.weight.map(|weight| (weight.band.low.0, weight.band.high.0, weight.weighed));
    assert_eq!(weight, Some((1600, 2700, false)));
}

#[test]
fn a_figure_for_another_question_is_not_understood_and_counts_as_the_worst() {
    let mut findings = Findings::default();
    let wrong = Answer::Figure(Figure::Refill(TenthsOfSecond(5)));
    findings.say(Statement { about: About::Bird, question: "blood_lost".into(), answer: wrong }, now());
    let verdict = coopside::judge::judge(&PROTOCOL, &findings, now());
    assert_eq!(verdict.not_understood.len(), 1);
    assert_eq!(verdict.need.low, Need::None, "by the rules alone: what she weighs is open yet");
    let kind = |question: &str, answer| Statement { about: About::Bird, question: question.into(), answer };
    findings.say(kind("kind", Answer::Choice("hen".into())), now());
    findings.say(kind("weight", Answer::CannotTell), now());
    assert_eq!(coopside::judge::judge(&PROTOCOL, &findings, now()).need.low, Need::Now);
}

#[test]
fn every_sum_is_done_without_a_bird_and_keeps_its_last_good_value() {
    for (at, sum) in coopside::reckon::SUMS.iter().enumerate() {
        let mut walk = Walk::new();
        walk.press("c").press(if at < 9 { "" } else { "<space>" }).press(&(at % 9 + 1).to_string());
        assert_eq!(walk.session.overlays.last(), Some(&Overlay::Sums(Some(at))));
        for (name, value) in sum.example {
            let field = sum.takes.iter().position(|takes| takes.name == *name).unwrap_or_default();
            walk.press(&(field + 1).to_string());
            typed(&mut walk, value);
            walk.press("<enter>");
        }
        let frame = walk.frame(100, 30);
        assert!(frame.contains("= "), "{}:\n{frame}", sum.name());
        assert!(matches!(walk.session.answer(), Some(Ok(_))), "{}", sum.name());
        walk.press("w");
        assert!(walk.session.context() == Context::Page && walk.frame(100, 100).contains("CAUTION"), "{}", sum.name());
        assert!(walk.session.log.is_empty(), "a sum says nothing of a bird");
    }
    // A value that cannot be read stays in the field, and the one before stays what counts.
    let mut walk = Walk::new();
    walk.press("c 5 1");
    typed(&mut walk, "1 tbsp salt in 600 ml");
    walk.press("<enter> 1");
    typed(&mut walk, "a pinch in a bucket");
    walk.press("<enter>");
    assert_eq!(walk.session.context(), Context::Typing);
    walk.press("<esc>");
    let frame = walk.frame(60, 24);
    assert!(frame.contains("TOO STRONG") && frame.contains("1 tbsp salt in 600 ml"), "{frame}");
}

#[test]
fn a_sum_begins_with_what_is_known_of_the_bird() {
    let mut walk = at("weight");
    walk.press("1");
    typed(&mut walk, "1.9 kg");
    walk.press("<enter> c 1");
    let frame = walk.frame(100, 30);
    assert!(frame.contains("kind: hen") && frame.contains("weight: 1900 g"), "{frame}");
}

/// A figure stands for the answers its measure reaches, by the high ends of their bands.
#[test]
fn a_figure_stands_for_the_answers_it_reaches() {
    let question = |id: &str| PROTOCOL.question(id).unwrap_or_else(|| panic!("no {id}"));
    let stands = |id: &str, low, high| {
        let question = question(id);
        let (first, last) = question.stands_for(coopside::unit::Band { low, high }).unwrap_or_else(|| panic!("{id}"));
        [first, last].map(|at| question.choices[usize::from(at)].id.to_string())
    };
    assert_eq!(stands("blood_lost", 0, 0), ["none", "none"]);
    assert_eq!(stands("blood_lost", 400, 5_001), ["drops", "tablespoon"]);
    assert_eq!(stands("blood_lost", 50_000, 9_000_000_000), ["more", "more"]);
    assert_eq!(stands("breath_count", 580, 620), ["second", "faster"]);
    assert_eq!(stands("vein", 21, 21), ["slow", "slow"]);
    let figures: Vec<&str> =
        PROTOCOL.questions.iter().filter(|q| q.figure().is_some()).map(|q| q.id.as_str()).collect();
    assert_eq!(figures, ["breath_count", "vein", "size", "blood_lost"]);
}

/// A breath counted for a bird that breathes quietly, a slow vein in one that is not dry: told as what does not fit, and no
/// rate is made of it.
#[test]
fn what_does_not_apply_is_told_and_not_reckoned() {
    let mut findings = Findings::default();
    let count = Figure::Breaths(vec![Count { breaths: 60, seconds: 30, held: false }]);
    for (question, answer) in [
        ("breathing", Answer::Choice("quiet".into())),
        ("breath_count", Answer::Figure(count)),
        ("dryness", Answer::Choice("well".into())),
        ("vein", Answer::Choice("slow".into())),
    ] {
        findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
    }
    let verdict = judge_bands(&PROTOCOL, &findings, now());
    assert_eq!(verdict.figures.breaths, None);
    let told: Vec<&str> = verdict.idle.iter().map(|(asked, _)| PROTOCOL.ask(asked.question).id.as_str()).collect();
    assert_eq!(told, ["breath_count", "vein"]);
}

/// Nobody can tell whether it still bleeds: she is taken to, and no share is told.
#[test]
fn whether_she_bleeds_cannot_be_told_so_she_is_pressed() {
    let mut findings = Findings::default();
    for (question, answer) in [
        ("kind", Answer::Choice("hen".into())),
        ("bleeding_hard", Answer::CannotTell),
        ("bleeding_now", Answer::CannotTell),
        ("weight", Answer::Amount(2000)),
        ("blood_lost", Answer::Choice("tablespoon".into())),
    ] {
        findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
    }
    assert!(judge_bands(&PROTOCOL, &findings, now()).figures.blood.is_some_and(|blood| blood.bleeds));
}

#[test]
fn a_weighed_chick_is_given_no_week_it_was_not_told() {
    let air = |weight| {
        let mut findings = Findings::default();
        for (question, answer) in
            [("kind", Answer::Choice("chick".into())), ("weight", weight), ("cold_wet", Answer::Choice("yes".into()))]
        {
            findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
        }
        judge_bands(&PROTOCOL, &findings, now()).figures.air
    };
    assert_eq!(air(Answer::Choice("chick_small".into())), Some(State::Chick(Some((2, 3)))));
    assert_eq!(air(Answer::Amount(900)), Some(State::Chick(None)));
}
