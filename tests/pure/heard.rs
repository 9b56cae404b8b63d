//! No answer is passed over in silence: something is made of it, or it is told that nothing is, and why.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, now};
use coopside::care;
use coopside::care::cupboard::Cupboard;
use coopside::content::document::Judged;
use coopside::content::{answers, judgement};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::protocol::cond::{Cond, QuestionAt};
use coopside::protocol::question::Asked;
use coopside::prove::{Whole, judge};
use coopside::render::{json, text};
use coopside::sheet::{Idle, Sheet, Truth};
use coopside::words::{Reader, english};
use coopside::zone::Zone;

const HEADING: &str = "TOLD, BUT NOT WEIGHED";

fn about(at: QuestionAt) -> About {
    if PROTOCOL.ask(at).wound { About::Wound(0) } else { About::Bird }
}

pub(super) fn say(findings: &mut Findings, at: QuestionAt, answer: Answer) {
    findings.say(Statement { about: about(at), question: PROTOCOL.ask(at).id.clone(), answer }, now());
}

/// What decides whether a question applies, and what decides that.
fn gates(at: QuestionAt) -> Vec<QuestionAt> {
    let mut found: Vec<QuestionAt> = Vec::new();
    let mut waiting = vec![at];
    while let Some(next) = waiting.pop() {
        for gate in PROTOCOL.ask(next).applies.iter().flat_map(Cond::questions) {
            if !found.contains(&gate) {
                found.push(gate);
                waiting.push(gate);
            }
        }
    }
    found
}

/// The first bird, of all that answers to what it hangs on make, to whom a question applies or does not.
pub(super) fn bird_to_whom(at: QuestionAt, applies: Truth) -> Option<Findings> {
    let gates = gates(at);
    let many: usize = gates.iter().map(|gate| PROTOCOL.ask(*gate).choices.len()).product();
    (0..many)
        .map(|nth| {
            let mut rest = nth;
            let mut findings = Findings::default();
            findings.find_wound();
            for gate in &gates {
                let choices = &PROTOCOL.ask(*gate).choices;
                let choice = choices.get(rest % choices.len()).map(|choice| choice.id.clone());
                rest /= choices.len();
                say(&mut findings, *gate, Answer::Choice(choice.unwrap_or_else(|| panic!("no answer"))));
            }
            findings.look_over();
            findings
        })
        .find(|findings| Sheet::lay(&PROTOCOL, findings, now()).applies(about(at).into(), at) == applies)
}

fn reader() -> Reader<'static> {
    Reader::english(Zone::UTC, PROTOCOL.no_country())
}

/// What the verdict says under the heading, as one text.
fn told(findings: &Findings, verdict: &Whole) -> String {
    let text = whole(findings, verdict);
    let part = text.split(HEADING).nth(1).unwrap_or_default().split("\n\n").next().unwrap_or_default();
    part.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// All the verdict says.
fn whole(findings: &Findings, verdict: &Whole) -> String {
    let reader = reader();
    let judged = Judged { findings, verdict, explained: None };
    let sections = reader.sections(judgement::sections(&PROTOCOL, judged, reader.country));
    text::sections(&sections)
}

fn same_scales(one: &Whole, other: &Whole) -> bool {
    (one.need, one.humane, one.authority, &one.severity) == (other.need, other.humane, other.authority, &other.severity)
}

/// Whether a rule, a paragraph, or a question asked because of it, tells an answer from the first one.
fn read(at: QuestionAt, choice: u8) -> bool {
    let rules = PROTOCOL.rules.iter().flat_map(|rule| std::iter::once(&rule.when).chain(&rule.unless));
    let asked = PROTOCOL.questions.iter().filter_map(|question| question.applies.as_ref());
    let told = PROTOCOL.paragraphs.iter().map(|paragraph| &paragraph.when);
    let mut found = false;
    for cond in rules.chain(asked).chain(told).chain([
        &PROTOCOL.frail_when,
        &PROTOCOL.bleeds_when,
        &PROTOCOL.spare_when,
        &PROTOCOL.stable_when,
    ]) {
        cond.walk(&mut |part| {
            if let Cond::Answer(read, set) = part {
                let tells = set.holds(choice) != set.holds(0) || (!PROTOCOL.ask(at).ordered && set.holds(choice));
                found |= *read == at && tells;
            }
        });
    }
    found
}

/// Every answer of the protocol that is not the first: a rule reads it, or it is told with another, on the phone, in a figure or a
/// sum; and where nothing is made of it, the verdict says so in its words.
#[test]
fn of_every_answer_something_is_made_or_it_is_said_that_nothing_is() {
    let (mut silent, mut nothing) = (Vec::new(), Vec::new());
    for (at, question) in PROTOCOL.enumerated().filter(|(_, question)| question.worked_out.is_none()) {
        let Some(bird) = bird_to_whom(at, Truth::Yes) else { panic!("{} applies to nobody", question.id) };
        let with = |choice: usize| {
            let mut findings = bird.clone();
            let id = question.choices.get(choice).map(|choice| choice.id.clone());
            say(&mut findings, at, Answer::Choice(id.unwrap_or_else(|| panic!("no answer"))));
            let verdict = judge(&PROTOCOL, &findings, now());
            (findings, verdict)
        };
        let (fine, first) = with(0);
        for (nth, choice) in question.choices.iter().enumerate().skip(1) {
            let (findings, verdict) = with(nth);
            let id = format!("{}: {}", question.id, choice.id);
            let asked = Asked { about: about(at), question: at };
            let idle = verdict.idle.iter().any(|(idle, why)| *idle == asked && *why == Idle::NothingMade);
            let said = told(&findings, &verdict)
                .to_lowercase()
                .contains(&english(answers::choice(question, choice)).to_lowercase());
            assert_eq!(idle, said, "{id}: {}", told(&findings, &verdict));
            let place = u8::try_from(nth).unwrap_or(u8::MAX);
            let aloud =
                crate::common::call(&PROTOCOL, &findings, &verdict) != crate::common::call(&PROTOCOL, &fine, &first);
            let with_another = question.adds_to.map(|other| PROTOCOL.ask(other));
            let with_another = with_another.is_some_and(|_| {
                coopside::content::answers::known(&PROTOCOL, &findings, about(at), question).is_some()
            });
            let in_figures = verdict.figures != first.figures;
            let scored = verdict.scores != first.scores;
            // A build tells her weight, which every share is reckoned against; a reach, which vets are phoned.
            let followed = choice.instruct.is_some() || choice.reach.is_some() || question.is_weight();
            if idle {
                nothing.push(id);
            } else if !(read(at, place) || with_another || in_figures || scored || followed || aloud) {
                silent.push(id);
            }
        }
    }
    println!("nothing is made of, and told: {nothing:?}");
    assert!(silent.is_empty(), "passed over in silence: {silent:?}");
    assert!(!nothing.is_empty() && nothing.iter().all(|id| !id.contains(": yes")), "{nothing:?}");
}

/// What was true at an earlier look, and is not asked of her now, is her history: nothing in it contradicts what is found now.
#[test]
fn what_a_later_look_has_outlived_is_not_told_again() {
    let told = |hours: i64| {
        let mut findings = Findings::default();
        for (question, answer, after) in [("gait", "hardly", 0), ("reach_food", "not", 0), ("gait", "level", hours)] {
            let answer = Answer::Choice(answer.into());
            let statement = Statement { about: About::Bird, question: question.into(), answer };
            findings.say(statement, now() + chrono::TimeDelta::hours(after));
        }
        judge(&PROTOCOL, &findings, now()).idle.len()
    };
    assert_eq!((told(0), told(1)), (1, 0));
}

/// What is not asked of such a bird and was told all the same, by notes or before another answer was changed: every answer that says
/// something, and "cannot tell". It moves no scale, and verdict, plan and JSON tell it by name.
#[test]
fn what_does_not_apply_is_told_by_name_and_moves_no_scale() {
    let mut questions = 0;
    for (at, question) in PROTOCOL.enumerated() {
        let Some(bird) = bird_to_whom(at, Truth::No) else { continue };
        questions += 1;
        let without = judge(&PROTOCOL, &bird, now());
        let choices =
            question.choices.iter().skip(usize::from(question.ordered)).map(|choice| Answer::Choice(choice.id.clone()));
        for answer in choices.chain([Answer::CannotTell]) {
            let mut findings = bird.clone();
            say(&mut findings, at, answer.clone());
            let verdict = judge(&PROTOCOL, &findings, now());
            assert!(same_scales(&without, &verdict), "{}: {answer:?} moves a scale", question.id);
            let asked = Asked { about: about(at), question: at };
            let idle = verdict.idle.contains(&(asked, Idle::NotAsked));
            let says = match &answer {
                Answer::Choice(id) => {
                    question.choice_at(id.as_str()).is_some_and(|choice| PROTOCOL.says_something(at, choice))
                }
                _ => true,
            };
            assert_eq!(idle, says, "{}: {answer:?}", question.id);
            if !idle {
                assert!(!question.ordered && question.first_answer() == Some(answer), "{}", question.id);
                continue;
            }
            let words = english(answers::of(question, &answer)).to_lowercase();
            let told = told(&findings, &verdict).to_lowercase();
            assert!(told.contains(&words) && told.contains("asked only where"), "{}: {told}", question.id);
            let plan = care::plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
            let text = text::plan(&PROTOCOL, &findings, &verdict, &plan, reader());
            let few = verdict.idle.iter().filter(|(_, why)| *why == Idle::NotAsked).count() <= 3;
            assert_eq!(text.contains(HEADING), few, "{}: {text}", question.id);
            if question.list.is_some() {
                let whole = json::verdict(&PROTOCOL, &findings, &verdict, &plan, reader());
                let listed = whole["told_not_weighed"].as_array().cloned().unwrap_or_default();
                let named = |told: &serde_json::Value| told["asked"]["question"] == question.id.as_str();
                assert!(listed.iter().any(named), "{}: {listed:?}", question.id);
            }
        }
    }
    assert!(questions > 15, "only {questions} questions do not apply to some bird");
}

/// Where the need stands on nothing but what could not be told, the verdict says what to look at again; seen, it says nothing of it.
#[test]
fn what_nobody_could_tell_and_decides_is_to_be_looked_at_again() {
    for (sign, seen) in [("maggots", "yes"), ("neck_limp", "yes"), ("alert", "touch")] {
        let said = |answer: Answer| {
            let mut findings = Findings::default();
            findings.say(Statement { about: About::Bird, question: sign.into(), answer }, now());
            let verdict = judge(&PROTOCOL, &findings, now());
            whole(&findings, &verdict).split_whitespace().collect::<Vec<_>>().join(" ")
        };
        let topic = PROTOCOL.question(sign).map_or_else(String::new, |question| question.topic.clone());
        let (untold, told) = (said(Answer::CannotTell), said(Answer::Choice(seen.into())));
        let again = format!("Nobody could tell, so it counts: {topic}");
        assert!(untold.contains(&again), "{sign}: {untold}");
        assert!(!told.contains("Nobody could tell, so it counts"), "{sign}: {told}");
    }
}

/// What was looked at again and answered is told: the verdict no longer says that something could not be.
#[test]
fn what_was_answered_at_another_look_could_be_told() {
    let mut findings = Findings::default();
    for (at, question) in PROTOCOL.enumerated().filter(|(_, question)| !question.wound) {
        let answer = question.first_answer().unwrap_or(Answer::CannotTell);
        say(&mut findings, at, answer);
    }
    findings.look_over();
    let words = |findings: &Findings| {
        let told = whole(findings, &judge(&PROTOCOL, findings, now()));
        told.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let maggots = PROTOCOL.question_at("maggots").unwrap_or_else(|| panic!("no question of maggots"));
    let mut answer = |answer: Answer| {
        say(&mut findings, maggots, answer);
        words(&findings)
    };
    assert!(answer(Answer::CannotTell).contains("As far as could be told, settled"));
    let seen = answer(Answer::Choice("yes".into()));
    assert!(seen.contains("ettled") && !seen.contains("As far as could be told"), "{seen}");
}
