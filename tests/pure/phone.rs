//! The call to a vet, held against random birds: the gravest is in it, nothing is told milder than it was found, no wound is lost.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{Bird, PROTOCOL, complete, now, partial};
use coopside::content::{answers, phone, seen};
use coopside::finding::{About, Answer, Findings};
use coopside::judge::{Reason, Standing};
use coopside::protocol::cond::{AnswerSet, Cond, QuestionAt};
use coopside::protocol::scale::Need;
use coopside::prove::{Exact, judge_bands};
use coopside::words::english;
use proptest::prelude::*;

/// The words of the choices that stand, of the bird and of all her wounds.
fn given(findings: &Findings) -> Vec<(QuestionAt, About, usize)> {
    let wounds = (0..findings.wounds()).map(About::Wound);
    let abouts: Vec<About> = std::iter::once(About::Bird).chain(wounds).collect();
    let mut found = Vec::new();
    for (at, question) in PROTOCOL.enumerated() {
        for about in abouts.iter().filter(|about| question.wound == (**about != About::Bird)) {
            let said = findings.answer(*about, question.id.as_str()).map(|said| &said.statement.answer);
            if let Some(Answer::Choice(id)) = said
                && let Some(choice) = question.choice_at(id.as_str())
            {
                found.push((at, *about, usize::from(choice)));
            }
        }
    }
    found
}

fn words(at: QuestionAt, choice: usize) -> String {
    let question = PROTOCOL.ask(at);
    let choice = question.choices.get(choice).map(|choice| english(answers::choice(question, choice)));
    choice.unwrap_or_default().to_lowercase()
}

fn literals(cond: &Cond) -> Vec<(QuestionAt, AnswerSet)> {
    let mut found = Vec::new();
    cond.walk(&mut |part| {
        if let Cond::Answer(at, set) = part {
            found.push((*at, *set));
        }
    });
    found
}

/// Whether a call holds what a reason rests on: its own words, one of the answers that make it, or what could not be told.
fn holds(call: &str, findings: &Findings, reason: &Reason) -> bool {
    let rule = PROTOCOL.rule(reason.rule);
    let low = call.to_lowercase();
    let doubted = ["could not be told:", "not ruled out."].iter().any(|words| low.contains(words));
    if reason.standing == Standing::CouldNotTell && doubted {
        return true;
    }
    let read = literals(&rule.when);
    let answers = given(findings).into_iter().filter(|(at, about, choice)| {
        let question = PROTOCOL.ask(*at);
        let about = !question.wound || !rule.per_wound || *about == reason.about;
        let set = |(read, set): &(QuestionAt, AnswerSet)| {
            read == at && u8::try_from(*choice).is_ok_and(|choice| set.holds(choice))
        };
        let beside = [PROTOCOL.roles.kind.question, PROTOCOL.roles.reach].contains(at);
        about && !beside && !(question.ordered && *choice == 0) && read.iter().any(set)
    });
    // What made a wound is told with what happened to her, where that is the same.
    let in_story = |at: QuestionAt| {
        let general = PROTOCOL.ask(at).asks_after?;
        let (_, _, choice) = given(findings).into_iter().find(|(said, ..)| *said == general)?;
        Some(words(general, choice))
    };
    let told = answers.flat_map(|(at, _, choice)| [Some(words(at, choice)), in_story(at)]);
    let told = told.flatten().any(|words| low.contains(&words));
    // A figure in an answer's place says itself.
    let figures = findings.said().iter().filter_map(|said| match &said.statement.answer {
        Answer::Figure(figure) => Some(english(seen::figure(figure)).to_lowercase()),
        Answer::Choice(_) | Answer::Amount(_) | Answer::CannotTell => None,
    });
    let first = rule.reason.split_inclusive(". ").next().unwrap_or_default().trim().to_lowercase();
    told || low.contains(&first) || figures.into_iter().any(|words| low.contains(&words))
}

fn gravest(verdict: &Exact) -> Option<&Reason> {
    let moves = |reason: &&Reason| {
        let rule = PROTOCOL.rule(reason.rule);
        rule.need.is_some() || rule.humane.is_some() || rule.authority.is_some()
    };
    // What was seen and brings her need comes before what could not be told.
    let brings = |reason: &&Reason| !reason.is_doubt() && PROTOCOL.rule(reason.rule).need >= Some(verdict.need.low);
    // Where what somebody said shows brings it, no rule does: then no one reason is the gravest.
    let told = |reason: &Reason| {
        let read = PROTOCOL.rule(reason.rule).when.questions();
        read.into_iter().any(|at| PROTOCOL.ask(at).shown_if.is_some())
    };
    let is_told = verdict.reasons.iter().any(told);
    let mut reasons = verdict.reasons.iter().filter(moves);
    reasons.clone().find(brings).or_else(|| if is_told { None } else { reasons.next() })
}

/// What is said is nowhere the milder answer to a question that got a graver one, unless another answer says the same.
fn milder(call: &str, findings: &Findings) -> Option<String> {
    let (low, given) = (call.to_lowercase(), given(findings));
    let told: Vec<String> = given.iter().map(|(at, _, choice)| words(*at, *choice)).collect();
    given.iter().filter(|(at, ..)| PROTOCOL.ask(*at).ordered).find_map(|(at, _, choice)| {
        let milder = (1..*choice).map(|milder| words(*at, milder)).filter(|words| words.split(' ').count() > 2);
        milder.into_iter().find(|words| low.contains(words) && !told.iter().any(|told| told.contains(words)))
    })
}

/// How many wounds are told or counted.
fn wounds(call: &str) -> usize {
    let number = |text: &str| text.split(' ').next_back().and_then(|word| word.parse::<usize>().ok()).unwrap_or(0);
    let alone = call.matches("Wound: ").count();
    let alike: usize = call.match_indices(" wounds alike: ").map(|(at, _)| number(call.get(..at).unwrap_or(""))).sum();
    let more =
        ["more wounds.", "more wound.", "wounds.", "wound."].iter().filter_map(|ends| call.find(&format!(" {ends}")));
    alone + alike + more.map(|at| number(call.get(..at).unwrap_or(""))).sum::<usize>()
}

/// A bird with one of her wounds there again, word for word.
fn with_twins(bird: &Bird, twins: usize) -> Bird {
    let mut bird = bird.clone();
    if let Some(first) = bird.wounds.first().cloned() {
        bird.wounds.extend(std::iter::repeat_n(first, twins));
    }
    bird
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(crate::common::count(600, 1500)) })]

    /// Sixty words, the gravest reason's finding among them and before what happened, nothing milder than it was found, and as many
    /// wounds as there are.
    #[test]
    fn a_call_holds_the_gravest_and_every_wound(
        bird in prop_oneof![partial().boxed(), complete().boxed()], twins in 0usize..4,
    ) {
        let findings = with_twins(&bird.possible(), twins).findings();
        let verdict = judge_bands(&PROTOCOL, &findings, now());
        let call = crate::common::call(&PROTOCOL, &findings, &verdict);
        prop_assert!(call.split_whitespace().count() <= phone::MOST_WORDS, "{}", call);
        if let Some(gravest) = gravest(&verdict) {
            prop_assert!(holds(&call, &findings, gravest), "{}: {}", PROTOCOL.rule(gravest.rule).id, call);
        }
        prop_assert_eq!(milder(&call, &findings), None, "{}", call);
        prop_assert_eq!(wounds(&call), findings.wounds(), "{}", call);
        // What needs a vet within hours is told, or it is said that there is more; and then nothing milder stands in its place.
        let told = |reason: &Reason| holds(&call, &findings, reason) || reason.standing == Standing::CouldNotTell;
        // Of two lines of the same sum the graver is enough.
        let sums = |reason: &Reason| {
            let mut found = false;
            PROTOCOL.rule(reason.rule).when.walk(&mut |cond| found |= matches!(cond, Cond::AtLeast(_) | Cond::Under(_)));
            found
        };
        let mut left = urgent(&verdict).filter(|reason| reason.about == About::Bird && !sums(reason));
        let untold = left.find(|reason| !told(reason));
        let untold = untold.map(|reason| PROTOCOL.rule(reason.rule).id.to_string());
        prop_assert!(untold.is_none() || call.contains("There is more: ask."), "{:?}: {}", untold, call);
        prop_assert!(!call.contains("There is more") || !call.contains("Weighed "), "{}", call);
    }
}

/// The reasons that ask for a vet within hours.
fn urgent(verdict: &Exact) -> impl Iterator<Item = &Reason> {
    verdict.reasons.iter().filter(|reason| PROTOCOL.rule(reason.rule).need >= Some(Need::WithinHours))
}

fn call(text: &str) -> String {
    let read = coopside::notes::read(&PROTOCOL, "call", text, now());
    let findings = read.unwrap_or_else(|faults| panic!("{faults}"));
    crate::common::call(&PROTOCOL, &findings, &judge_bands(&PROTOCOL, &findings, now()))
}

/// What could be lost on the way to the phone, each once: foul told as dirt, what shows that she bleeds inside, a story that only her
/// wounds know, two wounds that look alike.
#[test]
fn nothing_grave_is_lost_on_the_way_to_the_phone() {
    let foul = call(
        r#"(answers: {"kind": "hen"}, wounds: [{"place": "back", "what": "hole", "dirt": "foul", "cause": "mammal"}])"#,
    );
    assert!(foul.contains("pus, smell, black edges") && !foul.contains("dirt or feathers"), "{foul}");
    assert!(foul.contains("What happened: tooth or claw: dog, cat, fox, rat."), "{foul}");
    let inside = call(
        r#"(answers: {"kind": "hen", "comb_kind": "red", "comb": "white", "eyelid": "pink", "posture": "down", "breathing": "open",
            "mouth": "pink", "happened": "accident", "when": "h1"})"#,
    );
    assert!(inside.contains("she may bleed inside") || inside.contains("perhaps bleeding inside"), "{inside}");
    assert!(inside.contains("Comb white or nearly white"), "{inside}");
    let wound = r#"{"place": "back", "what": "hole", "depth": "deep"}"#;
    let alike = call(&format!(
        r#"(answers: {{"kind": "hen"}}, wounds: [{wound}, {wound}, {{"place": "wing", "what": "scrape"}}])"#
    ));
    assert!(alike.contains("2 wounds alike: back or tail, hole") && alike.contains("Wound: wing, scrape"), "{alike}");
}
