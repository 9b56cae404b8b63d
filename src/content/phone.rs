//! What to say aloud of a bird, in half a minute: to a vet on the phone, and to the next shift.

mod found;
mod room;

use super::document::{Item, Section, Tone, lower_first, section, upper_first};
use crate::care::Plan;
use crate::finding::{About, Findings};
use crate::judge::{self, Reason};
use crate::protocol::Protocol;
use crate::protocol::cond::Measure;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Exact;
use crate::typed::weight;
use chrono::{DateTime, TimeDelta, Utc};
use found::{Finding, Found};
use room::{Room, words};

pub(super) use found::since;

/// The most words a script has: about half a minute read aloud, before the other end asks.
pub const MOST_WORDS: usize = 60;

/// Said first where it may be catching: a practice must know before she comes through the door.
const CATCHING: &str = "First of all: it may be catching.";
/// The same where it rests on nothing but what could not be told.
const NOT_RULED_OUT: &str = "Catching? Not ruled out.";
/// At most this many steps are told to the next shift.
const STEPS: usize = 3;
/// At most this many signs are told to the next shift, and a vet's word where it has no more than so many.
const SIGNS: usize = 3;
/// So many grave signs are told before the worst wound: it is to find room beside them.
const FIRST_SIGNS: usize = 2;
/// At most this many features of the worst wound are told before all else has found room.
const FEATURES: usize = 3;
const VET_WORDS: usize = 16;
/// How a call ends: with a vet in reach, and with none.
const ASKS: &str = "When can you see her? What until then?";
const ASKS_ANYONE: &str = "Who could see her? What until then?";
/// Asked where a humane end has come into question: with no vet in reach, and of the vet who will see her.
const ASKS_END: &str = "Would a humane end be kinder?";
const ASKS_MENDED: &str = "Can this be mended?";

/// The script, where somebody is to be phoned.
pub fn told(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan) -> Option<Section> {
    let said = plan.phoned.then(|| script(protocol, findings, verdict));
    section("ON THE PHONE, READ THIS OUT", Tone::Plain, said.map(Item::plain).into_iter().collect())
}

/// What the next shift is told of a bird.
#[derive(Clone, Copy, Debug)]
pub struct Shift<'a> {
    /// Who she is: her name and kind, and her number where she has one.
    pub bird: &'a str,
    /// The verdict.
    pub verdict: &'a Exact,
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
    let steps = plan.steps.iter().take(STEPS).map(|step| crate::words::english(step.say(protocol, verdict, plan)));
    let mut room = Room::with(MOST_WORDS.saturating_sub(words(&begins) + words(&ends)), begins);
    let found = Found::of(protocol, findings, verdict);
    let signs = grave_signs(&found);
    let wound = found.wounds().first().map(|wounds| wounds.say(FEATURES));
    let (first, then) = (signs.iter().take(FIRST_SIGNS), signs.iter().take(SIGNS).skip(FIRST_SIGNS));
    let seen = first.cloned().chain(wound).chain(then.cloned());
    for told in catching.into_iter().chain(vet.map(vet_said)).chain(seen).chain(never).chain(steps) {
        room.take(told);
    }
    room.end(ends)
}

/// The signs the need rests on, gravest first.
fn grave_signs(found: &Found) -> Vec<String> {
    let need = found.verdict.need.low;
    let grave = found.reasons().filter(|reason| found.protocol.rule(reason.rule).need >= Some(need));
    let mut signs = Vec::new();
    for finding in grave.flat_map(|reason| found.behind(reason)) {
        if let Finding::Sign(at) = finding
            && let Some(told) = found.sign(at).filter(|told| !signs.contains(told))
        {
            signs.push(told);
        }
    }
    signs
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

/// At most [`MOST_WORDS`] words: the gravest reason's finding first, then all that is as urgent, then what happened, then what else
/// finds room, the mildest left out. Every wound is told or counted; what nobody knows is said to be unknown.
pub fn script(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> String {
    let catching = (verdict.authority.low >= Authority::Ask).then(|| catching(protocol, verdict).to_owned());
    let says = format!("My guide, no vet, says: {}.", crate::words::english(judge::brief(verdict.need)));
    let ends: Vec<String> = [says].into_iter().chain(humane(verdict)).chain(asks(verdict)).collect();
    let begins: Vec<String> = catching.into_iter().chain([bird(protocol, findings)]).collect();
    let found = Found::of(protocol, findings, verdict);
    let room = Room::with(MOST_WORDS.saturating_sub(words(&begins) + words(&ends)), begins);
    let mut call = room::Call::of(&found, room);
    call.gravest();
    call.reasons(FIRST_SIGNS, verdict.need.low);
    call.story();
    call.reasons(FIRST_SIGNS, Need::None);
    call.wounds();
    call.other_signs();
    call.take(weighed(verdict));
    call.rest();
    call.end(ends)
}

/// That it may be catching, as firmly as it stands.
fn catching(protocol: &Protocol, verdict: &Exact) -> &'static str {
    let asks = |reason: &&Reason| protocol.rule(reason.rule).authority.is_some();
    let seen = verdict.reasons.iter().filter(asks).any(|reason| !reason.is_doubt());
    if seen { CATCHING } else { NOT_RULED_OUT }
}

/// What is asked of whoever answers.
fn asks(verdict: &Exact) -> impl Iterator<Item = String> + use<> {
    let (end, asks) = if verdict.no_vet() { (ASKS_END, ASKS_ANYONE) } else { (ASKS_MENDED, ASKS) };
    let in_question = verdict.humane.low == Humane::MayComeIntoQuestion;
    in_question.then(|| end.to_owned()).into_iter().chain([asks.to_owned()])
}

/// How soon she needs a vet, for whoever has her next; without one in reach how grave it is.
fn needs(verdict: &Exact) -> String {
    let what = if verdict.no_vet() { "Her need" } else { "She needs" };
    format!("{what}: {}.", crate::words::english(judge::brief_told(verdict.need, verdict.no_vet())))
}

/// That a humane end is advised, where it is.
fn humane(verdict: &Exact) -> Option<String> {
    verdict.humane.low.advice().map(|advice| format!("{}.", upper_first(advice)))
}

/// What bird.
fn bird(protocol: &Protocol, findings: &Findings) -> String {
    let kind = crate::content::old::known(protocol, findings, About::Bird, protocol.kind_question());
    // What stands in brackets explains the answer to whoever gives it.
    let named = |kind: String| kind.split(" (").next().map(ToOwned::to_owned);
    let kind = kind.and_then(named).unwrap_or_else(|| "bird".to_owned());
    let an = if kind.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("I have {an} {kind}.")
}

/// What she weighs where she was weighed; one unit is enough for the ear.
fn weighed(verdict: &Exact) -> Option<String> {
    let weighed = verdict.figures.weight.filter(|weight| weight.weighed).map(|told| weight::show(told.band.low))?;
    Some(format!("Weighed {}.", weighed.split(" (").next()?))
}

/// What is not known of the bird and her wounds tell: what happened, or when.
pub(super) fn told_by_wounds(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    question: &str,
) -> Option<String> {
    Found::of(protocol, findings, verdict).story_of_wounds(protocol.question(question)?)
}

/// Whether an answer tells how long ago something was, and was itself given an hour ago or more.
pub(super) fn is_stale(protocol: &Protocol, findings: &Findings, asked: Asked, now: DateTime<Utc>) -> bool {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str());
    question.gives == Some(Measure::TimeSince) && said.is_some_and(|said| now - said.at >= TimeDelta::hours(1))
}
