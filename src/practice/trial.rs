//! One go at a scripted bird: who takes it, what was done to her, and the verdict given. What was answered stands in a log.

use super::check::Script;
use super::course::Course;
use crate::finding::log::Stamped;
use crate::finding::{About, Answer, Id};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Exact, judge_bands};
use chrono::{DateTime, TimeDelta, Utc};
use std::sync::Arc;

/// What is seen by who looks where a question points.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shows {
    /// Nothing out of the ordinary.
    Usual,
    /// What the lesson tells of it.
    Told(String),
    /// What the answer says by itself.
    Answer(Answer),
}

/// How many actions are offered at most: as many as there are digits, but one.
const OFFERED: usize = 8;

/// Something done to the bird.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deed {
    /// When.
    pub at: DateTime<Utc>,
    /// The action of the protocol.
    pub action: Id,
}

/// A verdict of the novice's own, as far as it has been given.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Given {
    /// How soon.
    pub need: Option<Need>,
    /// Whether a humane end has come into question.
    pub humane: Option<Humane>,
    /// Whether to call the authority.
    pub authority: Option<Authority>,
}

/// One go at a scripted bird.
#[derive(Clone, Debug)]
pub struct Trial {
    /// The bird.
    pub script: Arc<Script>,
    /// Who takes it; empty where nobody said.
    pub novice: String,
    /// When the novice came to her.
    pub began: DateTime<Utc>,
    /// How much time was skipped.
    pub skipped: TimeDelta,
    /// What was done to her, in order.
    pub deeds: Vec<Deed>,
    /// The verdict given.
    pub given: Given,
    /// When the last part of it was given.
    pub ended: Option<DateTime<Utc>>,
}

impl Trial {
    /// A go that begins now.
    pub fn begin(script: Arc<Script>, novice: String, now: DateTime<Utc>) -> Self {
        let (skipped, given) = (TimeDelta::zero(), Given::default());
        Self { script, novice, began: now, skipped, deeds: Vec::new(), given, ended: None }
    }

    /// The bird as she stands; once a verdict was given, as she stood then.
    pub fn course(&self, log: &[Stamped], now: DateTime<Utc>) -> Course<'_> {
        Course::at(&self.script, self.began, log, &self.deeds, self.ended.unwrap_or(now))
    }

    /// What the reference makes of her as she stands.
    pub fn reference(&self, protocol: &Protocol, log: &[Stamped], now: DateTime<Utc>) -> Exact {
        let now = self.ended.unwrap_or(now);
        judge_bands(protocol, &self.course(log, now).truth, now)
    }

    /// What is seen by who looks where a question points; none where nobody could say.
    pub fn shows(&self, protocol: &Protocol, course: &Course, asked: Asked) -> Option<Shows> {
        let question = protocol.ask(asked.question);
        if let Some(turned) = course.shows(asked.about, &question.id) {
            return Some(Shows::Told(turned.to_owned()));
        }
        if let Some(told) = self.script.told_of(asked.about, question.id.as_str()) {
            return Some(Shows::Told(told.to_owned()));
        }
        let answer = &course.truth.answer(asked.about, question.id.as_str())?.statement.answer;
        let finest = question.first_answer();
        let looked_at = !protocol.roles.told_steps.contains(&question.step);
        match answer {
            Answer::CannotTell => None,
            // Which answer that makes is the novice's to find.
            answer if question.ordered && looked_at && finest.as_ref() == Some(answer) => Some(Shows::Usual),
            answer => Some(Shows::Answer(answer.clone())),
        }
    }

    /// How many wounds of hers there are to be found.
    pub fn wounds(&self, course: &Course) -> usize {
        course.truth.wounds()
    }

    /// What the reference made of her at the beginning.
    pub fn at_first(&self, protocol: &Protocol) -> Exact {
        judge_bands(protocol, &self.script.findings.as_of(self.began), self.began)
    }

    /// The actions offered: what is right, what is forbidden and what tempts, in an order that tells nothing; what the
    /// instruction that fills the screen asks for is among them. They stay the same whatever comes of them.
    pub fn offered(&self, protocol: &Protocol, asked: &[ActionAt]) -> Vec<ActionAt> {
        let reference = self.at_first(protocol);
        let mut offered: Vec<ActionAt> = Vec::new();
        let tempts = self.script.lesson().map_or(&[][..], |lesson| lesson.tempts.as_slice());
        let tempting = protocol.actions_enumerated().filter(|(_, action)| tempts.iter().any(|t| action.id == **t));
        let wrong = tempting.map(|(at, _)| at).chain(reference.never.iter().map(|never| never.target.action));
        let right = asked
            .iter()
            .copied()
            .chain(self.first_deeds(protocol))
            .chain(reference.acts.iter().map(|act| act.target.action))
            .filter(|at| !protocol.action(*at).how.is_empty());
        let half = |of: &mut dyn Iterator<Item = ActionAt>, offered: &mut Vec<ActionAt>| {
            let before = offered.len();
            for at in of {
                if offered.len() < before + OFFERED / 2 && !offered.contains(&at) {
                    offered.push(at);
                }
            }
        };
        half(&mut { right }, &mut offered);
        half(&mut { wrong }, &mut offered);
        in_no_order(protocol, &mut offered);
        offered
    }

    /// What has to be done before anything else: the first deed of the instruction each danger sign of hers calls up.
    pub fn first_deeds(&self, protocol: &Protocol) -> Vec<ActionAt> {
        let signs = protocol.questions.iter().filter(|question| protocol.is_danger_sign(question));
        let instructs = signs.filter_map(|question| {
            let said = self.script.findings.answer(About::Bird, question.id.as_str())?;
            let Answer::Choice(id) = &said.statement.answer else { return None };
            let choice = question.choices.iter().find(|choice| choice.id == *id)?;
            Some(protocol.instruction(choice.instruct?))
        });
        instructs.filter_map(|instruction| instruction.acts.first().copied()).collect()
    }
}

/// Puts actions in an order by a number made from their words: the same each time, and no hint.
fn in_no_order(protocol: &Protocol, acts: &mut [ActionAt]) {
    acts.sort_by_key(|at| blake3::hash(protocol.action(*at).say.as_bytes()).as_bytes().first().copied());
}
