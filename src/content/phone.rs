//! What to say aloud of a bird, in half a minute: to a vet on the phone, and to the next shift.

mod found;
mod room;

use super::document::{Item, Section, Tone, section};
use super::{answers, terms};
use crate::care::Plan;
use crate::finding::{About, Answer, Findings};
use crate::judge::{self, Reason};
use crate::phrase::{Phrase, Quantity, Text, phone as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::cond::Measure;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Exact;
use chrono::{DateTime, TimeDelta, Utc};
use found::{Finding, Found};
use room::{Call, Room};

pub(super) use found::since;

/// How a text is read to whoever hears the call: what finds room is counted in the words that are said.
pub type Say<'s> = &'s dyn Fn(&Text) -> String;

/// The most words a script has: about half a minute read aloud, before the other end asks.
pub const MOST_WORDS: usize = 60;

/// At most this many steps are told to the next shift.
const STEPS: usize = 3;
/// At most this many signs are told to the next shift, and a vet's word where it has no more than so many.
const SIGNS: usize = 3;
/// So many grave signs are told before the worst wound: it is to find room beside them.
const FIRST_SIGNS: usize = 2;
/// At most this many features of the worst wound are told before all else has found room.
const FEATURES: usize = 3;
const VET_WORDS: usize = 16;
/// At most this many words of who she is are told to the next shift.
const BIRD_WORDS: usize = 8;

/// The script, where somebody is to be phoned.
pub fn told(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan, say: Say) -> Option<Section<Text>> {
    let said = plan.phoned.then(|| script(protocol, findings, verdict, say));
    section(phrase::heading(), Tone::Plain, said.map(Item::plain).into_iter().collect())
}

/// What the next shift is told of a bird.
#[derive(Clone, Copy, Debug)]
pub struct Shift<'a> {
    /// Who she is: her name and kind, and her number where she has one.
    pub bird: &'a Text,
    /// The verdict.
    pub verdict: &'a Exact,
    /// The plan.
    pub plan: &'a Plan,
    /// What was found.
    pub findings: &'a Findings,
    /// What a vet said last, if one did.
    pub vet: Option<&'a str>,
    /// When she is to be looked at next, in words.
    pub look: &'a Text,
}

/// What to tell the next shift in at most [`MOST_WORDS`] words: who, how soon, what was found, what to do, what never, when to look.
/// What finds no room is left out, the mildest first; how soon, and when to look, never are.
pub fn shift(protocol: &Protocol, shift: Shift, say: Say) -> Text {
    let Shift { bird, verdict, plan, findings, vet, look } = shift;
    let bird = phrase::this_is(Text::typed(cut(&say(bird), BIRD_WORDS)));
    let begins: Vec<Text> = [Text::from(bird)].into_iter().chain(humane(verdict)).chain([needs(verdict)]).collect();
    let ends = vec![phrase::next_look(look.clone()).into(), phrase::worse().into()];
    let catching = (verdict.authority.low >= Authority::Ask).then(|| phrase::gloves().into());
    let never = plan.never_once().next();
    let never = never.map(|of| phrase::never(Text::going_on(Text::quoted(verdict.fitting.never(protocol, of)))).into());
    let steps = plan.steps.iter().take(STEPS).map(|step| step.say(protocol, verdict, plan));
    let mut room = Room::of(MOST_WORDS, begins, ends, say);
    let found = Found::of(protocol, findings, verdict);
    let signs = grave_signs(&found);
    let wound = found.wounds().first().map(|wounds| wounds.say(FEATURES));
    let (first, then) = (signs.iter().take(FIRST_SIGNS), signs.iter().take(SIGNS).skip(FIRST_SIGNS));
    let seen = first.cloned().chain(wound).chain(then.cloned());
    for told in catching.into_iter().chain(vet.map(vet_said)).chain(seen).chain(never).chain(steps) {
        room.take(told);
    }
    room.end()
}

/// The signs the need rests on, gravest first.
fn grave_signs(found: &Found) -> Vec<Text> {
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
pub(super) fn vet_said(said: &str) -> Text {
    if said.split_whitespace().count() <= VET_WORDS {
        phrase::vet_said(Text::typed(said.trim_end_matches(['.', ',', ' ']))).into()
    } else {
        phrase::vet_on_sheet().into()
    }
}

/// The first words of a text.
fn cut(text: &str, most: usize) -> String {
    text.split_whitespace().take(most).collect::<Vec<_>>().join(" ")
}

/// At most [`MOST_WORDS`] words: the gravest reason's finding first, then all that is as urgent, then what happened, then what else
/// finds room, the mildest left out. Every wound is told or counted; what nobody knows is said to be unknown.
pub fn script(protocol: &Protocol, findings: &Findings, verdict: &Exact, say: Say) -> Text {
    let catching = (verdict.authority.low >= Authority::Ask).then(|| catching(protocol, verdict));
    let says = phrase::guide_says(judge::brief(verdict.need));
    let asks = asks(protocol, verdict).map(Text::from);
    // What nobody has looked at is as much news as what was found.
    let unseen = (!verdict.looked_over).then(|| phrase::not_looked_over().into());
    let ends: Vec<Text> = unseen.into_iter().chain([Text::from(says)]).chain(humane(verdict)).chain(asks).collect();
    let begins: Vec<Text> = catching.into_iter().chain([bird(protocol, findings)]).map(Text::from).collect();
    let found = Found::of(protocol, findings, verdict);
    let mut call = Call::of(&found, Room::of(MOST_WORDS, begins, ends, say));
    call.gravest();
    call.reasons(FIRST_SIGNS, verdict.need.low);
    call.story();
    call.reasons(FIRST_SIGNS, Need::None);
    call.wounds();
    call.other_signs();
    call.take(weighed(verdict));
    call.rest();
    call.end()
}

/// That it may be catching, as firmly as it stands.
fn catching(protocol: &Protocol, verdict: &Exact) -> Phrase {
    let asks = |reason: &&Reason| protocol.rule(reason.rule).authority.is_some();
    let seen = verdict.reasons.iter().filter(asks).any(|reason| !reason.is_doubt());
    if seen { phrase::catching() } else { phrase::catching_not_ruled_out() }
}

/// What is asked of whoever answers.
fn asks(protocol: &Protocol, verdict: &Exact) -> impl Iterator<Item = Phrase> + use<> {
    let (end, asks) = if verdict.no_vet() {
        (phrase::asks_end(), phrase::asks_anyone())
    } else {
        (phrase::asks_mended(), phrase::asks())
    };
    let in_question = verdict.humane.low == Humane::MayComeIntoQuestion && !verdict.end_is_unseen(protocol);
    in_question.then_some(end).into_iter().chain([asks])
}

/// How soon she needs a vet, for whoever has her next; without one in reach how grave it is.
fn needs(verdict: &Exact) -> Text {
    let need = judge::brief_told(verdict.need, verdict.no_vet());
    if verdict.no_vet() { phrase::her_need(need).into() } else { phrase::she_needs(need).into() }
}

/// That a humane end is advised, where it is.
fn humane(verdict: &Exact) -> Option<Text> {
    terms::advice(verdict.humane.low).map(|advice| words::ended(Text::opening(advice)).into())
}

/// What bird.
fn bird(protocol: &Protocol, findings: &Findings) -> Phrase {
    let asked = protocol.kind_question();
    let said = findings.answer(About::Bird, asked.id.as_str()).map(|said| &said.statement.answer);
    match said.filter(|answer| **answer != Answer::CannotTell).map(|answer| answers::of(asked, answer)) {
        None => phrase::bird(),
        Some(Text::Quoted(kind)) => {
            // What stands in brackets explains the answer to whoever gives it.
            let kind = kind.split(" (").next().unwrap_or(&kind);
            let sound = kind.starts_with(['a', 'e', 'i', 'o', 'u']);
            if sound { phrase::an_kind(Text::quoted(kind)) } else { phrase::a_kind(Text::quoted(kind)) }
        }
        Some(kind) => phrase::a_kind(kind),
    }
}

/// What she weighs where she was weighed; one unit is enough for the ear.
fn weighed(verdict: &Exact) -> Option<Text> {
    let weighed = verdict.figures.weight.filter(|weight| weight.weighed)?;
    Some(phrase::weighed(Quantity::metric_weight(weighed.band.low)).into())
}

/// What is not known of the bird and her wounds tell: what happened, or when.
pub(super) fn told_by_wounds(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    question: &str,
) -> Option<Text> {
    Found::of(protocol, findings, verdict).story_of_wounds(protocol.question(question)?)
}

/// Whether an answer tells how long ago something was, and was itself given an hour ago or more.
pub(super) fn is_stale(protocol: &Protocol, findings: &Findings, asked: Asked, now: DateTime<Utc>) -> bool {
    let question = protocol.ask(asked.question);
    let said = findings.answer(asked.about, question.id.as_str());
    question.gives == Some(Measure::TimeSince) && said.is_some_and(|said| now - said.at >= TimeDelta::hours(1))
}
