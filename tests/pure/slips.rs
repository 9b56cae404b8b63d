//! A slip of the hand by rule: the key beside the right one. Each that makes a bird look milder is listed; what a screen does about it
//! (the answer is echoed, one key takes it back) stands with the tests of the screen. No person took part.

use crate::common::{PROTOCOL, now};
use crate::heard::{bird_to_whom, say};
use coopside::finding::{Answer, Findings};
use coopside::protocol::cond::QuestionAt;
use coopside::protocol::question::{Choice, Question};
use coopside::prove::{Exact, judge_bands};
use coopside::sheet::Truth;
use std::fmt::Write;

/// As many lines as there are figures stand on a page.
const PAGE: usize = 9;

/// The lines of a question or a list, in the order of their keys: each a question with one of its answers.
fn lines() -> Vec<Vec<(QuestionAt, &'static Choice)>> {
    let mut found: Vec<Vec<(QuestionAt, &'static Choice)>> = Vec::new();
    let mut lists = Vec::new();
    for (at, question) in PROTOCOL.enumerated() {
        match question.list {
            Some(list) if lists.contains(&list) => {}
            Some(list) => {
                lists.push(list);
                let signs = PROTOCOL.list(list).into_iter();
                let rows = signs.flat_map(|sign| PROTOCOL.ask(sign).choices.iter().skip(1).map(move |one| (sign, one)));
                let rows: Vec<_> = rows.collect();
                found.extend(rows.chunks(PAGE).map(<[_]>::to_vec));
            }
            None if question.worked_out.is_some() => {}
            None => {
                let rows: Vec<_> = figured(question).map(|choice| (at, choice)).collect();
                found.extend(rows.chunks(PAGE).map(<[_]>::to_vec));
            }
        }
    }
    found
}

/// The answers that have a figure for a key: what is as always has another one.
fn figured(question: &'static Question) -> impl Iterator<Item = &'static Choice> {
    let always = question.as_always();
    question.choices.iter().filter(move |choice| always != Some(Answer::Choice(choice.id.clone())))
}

/// A bird of whom this is answered, and nothing else but what it hangs on.
fn told(at: QuestionAt, choice: &Choice) -> Option<(Findings, Exact)> {
    let mut findings = bird_to_whom(at, Truth::Yes)?;
    say(&mut findings, at, Answer::Choice(choice.id.clone()));
    let verdict = judge_bands(&PROTOCOL, &findings, now());
    Some((findings, verdict))
}

#[test]
fn every_key_beside_the_right_one_that_makes_her_milder_is_listed() {
    let (mut listed, mut slips, mut milder) = (String::new(), 0, 0);
    for page in lines() {
        for pair in page.windows(2) {
            let [one, other] = pair else { continue };
            for ((at, meant), (beside, pressed)) in [(one, other), (other, one)] {
                let (Some((_, meant_so)), Some((_, pressed_so))) = (told(*at, meant), told(*beside, pressed)) else {
                    continue;
                };
                slips += 1;
                let lower = pressed_so.need.low < meant_so.need.low
                    || pressed_so.humane.low < meant_so.humane.low
                    || pressed_so.authority.low < meant_so.authority.low;
                if lower {
                    milder += 1;
                    let (question, other) = (PROTOCOL.ask(*at), PROTOCOL.ask(*beside));
                    let _ = writeln!(
                        listed,
                        "{} = {}, pressed {} = {}: {:?} {:?} {:?} becomes {:?} {:?} {:?}",
                        question.id,
                        meant.id,
                        other.id,
                        pressed.id,
                        meant_so.need.low,
                        meant_so.humane.low,
                        meant_so.authority.low,
                        pressed_so.need.low,
                        pressed_so.humane.low,
                        pressed_so.authority.low
                    );
                    // Neither is what is fine: that has a key of its own, beside no figure.
                    assert_ne!(other.as_always(), Some(Answer::Choice(pressed.id.clone())), "{}", other.id);
                }
            }
        }
    }
    assert!(slips > 300, "{slips}");
    insta::assert_snapshot!("slips", format!("{slips} slips, {milder} of them milder\n{listed}"));
}
