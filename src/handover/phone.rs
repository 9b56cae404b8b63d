//! What to say aloud of a bird, in half a minute: to a vet on the phone, and to the next shift.

use super::document::{Item, Section, Tone, list, lower_first, section, upper_first};
use super::figures::hurt_ago;
use super::said;
use crate::care::Plan;
use crate::finding::{About, Answer, Findings};
use crate::judge::{self, Reason, Standing, Verdict};
use crate::protocol::Protocol;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::{Asked, Question};
use crate::protocol::raw::Measure;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Need};
use crate::typed::weight;
use chrono::{DateTime, TimeDelta, Utc};

/// The most words a script has: about half a minute read aloud, before the other end asks.
pub const MOST_WORDS: usize = 60;

/// Said first where it may be catching: a practice must know before she comes through the door.
const CATCHING: &str = "First of all: it may be catching.";
/// At most this many steps are told to the next shift.
const STEPS: usize = 3;
/// At most this many signs are told to the next shift, and a vet's word where it has no more than so many.
const SIGNS: usize = 3;
/// So many grave signs are told before the worst wound: it is to find room beside them.
const FIRST_SIGNS: usize = 2;
const VET_WORDS: usize = 16;
/// How every call ends.
const ASKS: &str = "How soon can you see her, and what until then?";

/// The script, where somebody is to be phoned.
pub fn told(protocol: &Protocol, findings: &Findings, verdict: &Verdict, plan: &Plan) -> Option<Section> {
    let said = plan.phoned.then(|| script(protocol, findings, verdict));
    section("ON THE PHONE, READ THIS OUT", Tone::Plain, said.map(Item::plain).into_iter().collect())
}

/// What the next shift is told of a bird.
#[derive(Clone, Copy, Debug)]
pub struct Shift<'a> {
    /// Who she is: her name and kind, and her number where she has one.
    pub bird: &'a str,
    /// The verdict.
    pub verdict: &'a Verdict,
    /// The plan.
    pub plan: &'a Plan,
    /// What was found.
    pub findings: &'a Findings,
    /// What a vet said last, if one did.
    pub vet: Option<&'a str>,
    /// When she is to be looked at next, in words.
    pub look: &'a str,
}

/// What to tell the next shift in at most [`MOST_WORDS`] words: who, how soon, what was found, what to do, what never, when to look.
/// What finds no room is left out, the mildest first; how soon, and when to look, never are.
pub fn shift(protocol: &Protocol, shift: Shift) -> String {
    let Shift { bird, verdict, plan, findings, vet, look } = shift;
    let begins = vec![format!("This is {}.", cut(bird, 8))];
    let begins: Vec<String> = begins.into_iter().chain(humane(verdict)).chain([needs(verdict)]).collect();
    let ends = [format!("Next look: {look}."), "Worse in any way? Do not wait for it.".to_owned()];
    let catching = (verdict.authority.low >= Authority::Ask).then(|| "It may be catching: gloves, apart.".to_owned());
    let never =
        plan.never_once().next().map(|action| format!("Never: {}", lower_first(protocol.action(action).never())));
    let steps = plan.steps.iter().take(STEPS).map(|step| step.say(protocol, verdict, plan));
    let mut room = MOST_WORDS.saturating_sub(words(&begins) + words(&ends));
    let mut said = begins;
    let vet = vet.map(vet_said);
    let (grave, _) = signs(protocol, findings, verdict);
    let wound = wounds(protocol, findings, verdict).next();
    let (first, then) = (grave.iter().take(FIRST_SIGNS), grave.iter().take(SIGNS).skip(FIRST_SIGNS));
    let found = first.cloned().chain(wound).chain(then.cloned());
    let wanted = catching.into_iter().chain(vet).chain(found).chain(never).chain(steps);
    for told in wanted {
        if let Some(left) = room.checked_sub(words(std::slice::from_ref(&told))) {
            room = left;
            said.push(told);
        }
    }
    said.extend(ends);
    said.join(" ")
}

/// A vet's word whole, or that there is one: half of it could be a drug without its dose.
pub(super) fn vet_said(said: &str) -> String {
    if said.split_whitespace().count() <= VET_WORDS {
        format!("A vet said: {}.", said.trim_end_matches(['.', ',', ' ']))
    } else {
        "A vet's word is on her sheet: read it first.".to_owned()
    }
}

/// The first words of a text.
fn cut(text: &str, most: usize) -> String {
    text.split_whitespace().take(most).collect::<Vec<_>>().join(" ")
}

/// At most [`MOST_WORDS`] words. What finds no room is left out, the mildest first; what nobody knows is said to be unknown.
pub fn script(protocol: &Protocol, findings: &Findings, verdict: &Verdict) -> String {
    let catching = (verdict.authority.low >= Authority::Ask).then(|| CATCHING.to_owned());
    let says = format!("My guide, no vet, says: {}.", judge::brief(verdict.need));
    let ends: Vec<String> = [says].into_iter().chain(humane(verdict)).chain([ASKS.to_owned()]).collect();
    let mut said: Vec<String> = catching.into_iter().chain([bird(protocol, findings, verdict)]).collect();
    let story = protocol.said_first.iter().map(|at| {
        let asked = Asked::of_bird(*at);
        // "Less than an hour ago" is said of the moment it was told; days later the clock has gone on.
        let since = verdict.figures.hurt.filter(|_| is_stale(protocol, findings, asked, verdict.judged_at));
        let words = since.map(hurt_ago).or_else(|| known(protocol, findings, asked));
        let words = words.unwrap_or_else(|| "not known".to_owned());
        format!("{}: {words}.", upper_first(&protocol.ask(*at).topic))
    });
    said.extend(story);
    let mut room = MOST_WORDS.saturating_sub(words(&said) + words(&ends));
    // What was seen, not what we make of it: the gravest signs and the wound the gravest rule speaks of come first; then the
    // other grave signs, what was measured, the other wounds, what else is not as it should be, and our reasons, as they find
    // room.
    let mut wounds = wounds(protocol, findings, verdict);
    let (worst_wound, (mut grave, mild)) = (wounds.next(), signs(protocol, findings, verdict));
    let others = grave.split_off(grave.len().min(FIRST_SIGNS));
    let wanted = grave.into_iter().chain(worst_wound).chain(others).chain(measured(protocol, verdict));
    let wanted = wanted.chain(wounds).chain(mild).chain(gravest(protocol, verdict));
    for told in wanted {
        match room.checked_sub(words(std::slice::from_ref(&told))) {
            Some(left) if !said.contains(&told) => {
                room = left;
                said.push(told);
            }
            Some(_) | None => {}
        }
    }
    said.extend(ends);
    said.join(" ")
}

/// How soon she needs a vet, for whoever has her next; without one in reach how grave it is.
fn needs(verdict: &Verdict) -> String {
    let what = if verdict.no_vet { "Her need" } else { "She needs" };
    format!("{what}: {}.", judge::brief_told(verdict.need, verdict.no_vet))
}

/// That a humane end is advised, where it is.
fn humane(verdict: &Verdict) -> Option<String> {
    verdict.humane.low.advice().map(|advice| format!("{}.", upper_first(advice)))
}

/// What bird, and what she weighs where she was weighed.
fn bird(protocol: &Protocol, findings: &Findings, verdict: &Verdict) -> String {
    let kind = protocol.kind_at().and_then(|at| known(protocol, findings, Asked::of_bird(at)));
    let kind = kind.map_or_else(|| "bird".to_owned(), |kind| kind.replace(", any kind", ""));
    let weighed = verdict.figures.weight.filter(|weight| weight.weighed).map(|told| weight::show(told.band.low));
    // One unit is enough for the ear.
    let weighs = weighed.and_then(|shown| Some(format!(", weighed {}", shown.split(" (").next()?)));
    format!("I have a hurt {kind}{}.", weighs.unwrap_or_default())
}

/// Her wounds, the one that the gravest rule speaks of first.
fn wounds(protocol: &Protocol, findings: &Findings, verdict: &Verdict) -> impl Iterator<Item = String> {
    let worst = verdict.reasons.iter().find_map(|reason| match reason.about {
        About::Wound(number) => Some(number),
        About::Bird => None,
    });
    let mut wounds: Vec<usize> = (0..findings.wounds()).collect();
    wounds.sort_by_key(|number| Some(*number) != worst);
    wounds.into_iter().filter_map(|number| wound(protocol, findings, number))
}

/// A wound in a few words: what of it is known, and not as it should be.
fn wound(protocol: &Protocol, findings: &Findings, number: usize) -> Option<String> {
    let asked = protocol.said_of_wounds.iter().map(|at| Asked { about: About::Wound(number), question: *at });
    let told: Vec<String> = asked
        .filter(|asked| !is_fine(protocol, findings, *asked))
        .filter_map(|asked| known(protocol, findings, asked))
        .collect();
    (!told.is_empty()).then(|| format!("Wound: {}", list(&told)))
}

/// Whether the answer to an ordered question is its finest: that a wound is dry needs no words.
fn is_fine(protocol: &Protocol, findings: &Findings, asked: Asked) -> bool {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str()).map(|said| &said.statement.answer);
    question.ordered && said == question.first_answer().as_ref()
}

/// What was found that is not as it should be: first what the need rests on, then the rest; in each the worst first.
fn signs(protocol: &Protocol, findings: &Findings, verdict: &Verdict) -> (Vec<String>, Vec<String>) {
    let mut found: Vec<(Option<Need>, usize, String)> = Vec::new();
    // What has become of a sign is told with the sign.
    let told_with: Vec<QuestionAt> =
        protocol.questions.iter().filter_map(|question| asked_after(protocol, findings, question)).collect();
    let is_told = |at: &QuestionAt, question: &Question| question.is_sign() && !told_with.contains(at);
    for (at, question) in protocol.enumerated().filter(|(at, question)| is_told(at, question)) {
        let asked = Asked::of_bird(at);
        let answer = findings.answer(About::Bird, question.id.as_str()).map(|said| &said.statement.answer);
        let Some(Answer::Choice(id)) = answer else { continue };
        let Some(rung) = question.choice_at(id.as_str()).map(usize::from).filter(|rung| *rung > 0) else { continue };
        let words = known(protocol, findings, asked).unwrap_or_default();
        // A sign that is there or not says itself; what became of it is said with it.
        let told = if question.choices.len() == 2 {
            let since = since(protocol, findings, question).map_or_else(String::new, |since| format!(": {since}"));
            format!("{}{since}", upper_first(&words))
        } else {
            format!("{}: {words}", upper_first(&question.topic))
        };
        found.push((leads_to(protocol, verdict, at), question.choices.len() - rung, format!("{told}.")));
    }
    found.sort_by_key(|(need, from_worst, _)| (std::cmp::Reverse(*need), *from_worst));
    let (grave, mild): (Vec<_>, Vec<_>) = found.into_iter().partition(|(need, ..)| *need >= Some(verdict.need.low));
    let told = |found: Vec<(Option<Need>, usize, String)>| found.into_iter().map(|(.., told)| told).collect();
    (told(grave), told(mild))
}

/// What has become of a sign since, where its instruction asks for that and it was told.
pub(super) fn since(protocol: &Protocol, findings: &Findings, question: &Question) -> Option<String> {
    known(protocol, findings, Asked::of_bird(asked_after(protocol, findings, question)?))
}

/// The question that the instruction of the answer that stands asks when it is done.
fn asked_after(protocol: &Protocol, findings: &Findings, question: &Question) -> Option<QuestionAt> {
    let answer = &findings.answer(About::Bird, question.id.as_str())?.statement.answer;
    let choice = question.choices.iter().find(|choice| *answer == Answer::Choice(choice.id.clone()))?;
    let then = protocol.instruction(choice.instruct.as_ref()?.as_str())?.then.as_ref()?;
    protocol.question_at(then.as_str())
}

/// The gravest need that a rule in force draws from a sign.
fn leads_to(protocol: &Protocol, verdict: &Verdict, sign: QuestionAt) -> Option<Need> {
    let rules = seen(verdict).map(|reason| protocol.rule(reason.rule));
    rules.filter(|rule| rule.when.questions().contains(&sign)).filter_map(|rule| rule.need).max()
}

/// What the need rests on that was worked out from figures, in birds of her kind or in all, and that no single sign tells.
fn measured<'a>(protocol: &'a Protocol, verdict: &'a Verdict) -> impl Iterator<Item = String> {
    let rules = seen(verdict).map(|reason| protocol.rule(reason.rule));
    let of_figures = |rule: &&Rule| rule.when.questions().iter().all(|at| protocol.kind_at() == Some(*at));
    let grave = rules.filter(|rule| rule.need >= Some(verdict.need.low)).filter(of_figures);
    grave.map(|rule| rule.reason.clone())
}

/// The reasons that were seen: what could not be told is not told as if it had been.
fn seen(verdict: &Verdict) -> impl Iterator<Item = &Reason> {
    verdict.reasons.iter().filter(|reason| reason.standing != Standing::CouldNotTell)
}

/// The answer to a question in words, where it is known.
fn known(protocol: &Protocol, findings: &Findings, asked: Asked) -> Option<String> {
    said::known(protocol, findings, asked.about, protocol.ask(asked.question))
}

/// Whether an answer tells how long ago something was, and was itself given an hour ago or more.
pub(super) fn is_stale(protocol: &Protocol, findings: &Findings, asked: Asked, now: DateTime<Utc>) -> bool {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str());
    question.gives == Some(Measure::TimeSince) && said.is_some_and(|said| now - said.at >= TimeDelta::hours(1))
}

/// The reasons to see a vet that no sign tells, gravest first, in the words of their rules.
fn gravest<'a>(protocol: &'a Protocol, verdict: &'a Verdict) -> impl Iterator<Item = String> {
    let to_vet = |reason: &&Reason| {
        let rule = protocol.rule(reason.rule);
        rule.need >= Some(Need::WithinADay) && !rule.when.questions().iter().any(|at| protocol.ask(*at).is_sign())
    };
    seen(verdict).filter(to_vet).map(|reason| protocol.rule(reason.rule).reason.clone())
}

/// How many words a person reads.
fn words(said: &[String]) -> usize {
    said.iter().flat_map(|text| text.split_whitespace()).count()
}
