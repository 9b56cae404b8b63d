//! How a scripted bird stands at a moment: what was true at the beginning, and what time, the hand and deeds made of it.

use super::check::Script;
use super::scenario::{Turn, When};
use super::trial::Deed;
use crate::finding::log::{Entry, Stamped};
use crate::finding::{About, Answer, Findings, Id, Statement};
use chrono::{DateTime, TimeDelta, Utc};

/// The bird at one moment.
#[derive(Clone, Debug)]
pub struct Course<'a> {
    /// What is true of her now.
    pub truth: Findings,
    /// The changes that have come, in their order, and when.
    pub turned: Vec<(DateTime<Utc>, &'a Turn)>,
}

impl<'a> Course<'a> {
    /// The bird as she stands at `now`, `began` being when the novice came to her.
    pub fn at(script: &'a Script, began: DateTime<Utc>, log: &[Stamped], deeds: &[Deed], now: DateTime<Utc>) -> Self {
        let held = stretches(log, now);
        let turns = script.lesson().map_or(&[][..], |lesson| lesson.turns.as_slice());
        let due = |turn: &'a Turn| Some((comes(turn, began, &held, deeds)?, turn));
        let mut turned: Vec<_> = turns.iter().filter_map(due).filter(|(at, _)| *at <= now).collect();
        turned.retain(|(at, turn)| {
            let before = |deed: &Deed| deed.at < *at && turn.unless.iter().any(|action| deed.action == **action);
            !deeds.iter().any(before)
        });
        turned.sort_by_key(|(at, _)| *at);
        let mut truth = script.findings.as_of(began);
        for (at, turn) in &turned {
            if let (Some(question), Some(becomes)) = (&turn.question, &turn.becomes) {
                let answer = Answer::Choice(becomes.as_str().into());
                truth.say(Statement { about: about(turn), question: question.as_str().into(), answer }, *at);
            }
        }
        Self { truth, turned }
    }

    /// What is seen of the change that made a question's answer what it is, where one did.
    pub fn shows(&self, about: About, question: &Id) -> Option<&'a str> {
        let of = |turn: &Turn| turn.question.as_deref() == Some(question.as_str()) && self::about(turn) == about;
        self.turned.iter().rev().find(|(_, turn)| of(turn)).map(|(_, turn)| turn.shows.as_str())
    }
}

/// What a turn is about.
fn about(turn: &Turn) -> About {
    turn.wound.map_or(About::Bird, |number| About::Wound(number.saturating_sub(1)))
}

/// When a turn comes, where nothing prevents it.
fn comes(
    turn: &Turn,
    began: DateTime<Utc>,
    held: &[(DateTime<Utc>, DateTime<Utc>)],
    deeds: &[Deed],
) -> Option<DateTime<Utc>> {
    let minutes = |minutes: u32| TimeDelta::minutes(i64::from(minutes));
    match &turn.when {
        When::After(after) => Some(began + minutes(*after)),
        When::Held(for_min) => {
            held.iter().find(|(from, to)| *to - *from >= minutes(*for_min)).map(|(from, _)| *from + minutes(*for_min))
        }
        When::Did(action) => deeds.iter().find(|deed| deed.action == **action).map(|deed| deed.at),
    }
}

/// Every stretch of time for which the bird was held, the last one up to `now` where she is held still.
pub fn stretches(log: &[Stamped], now: DateTime<Utc>) -> Vec<(DateTime<Utc>, DateTime<Utc>)> {
    let (mut stretches, mut since) = (Vec::new(), None);
    for Stamped { at, entry } in log {
        match (entry, since) {
            (Entry::PickedUp, None) => since = Some(*at),
            (Entry::PutDown, Some(from)) => {
                stretches.push((from, *at));
                since = None;
            }
            _ => {}
        }
    }
    stretches.extend(since.map(|from| (from, now.max(from))));
    stretches
}
