//! What a later look asks again: how she is, what tells of the signs that end home care, and what was not fine last time.

use crate::care::Plan;
use crate::finding::log::Spot;
use crate::finding::{About, Answer, Findings};
use crate::protocol::Protocol;
use crate::protocol::question::{Again, Asked, Question};
use crate::prove::Exact;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::BTreeSet;

/// What is asked daily is asked again after so long: a look in the morning and one the next morning are a day apart, a little
/// more or less.
const DAILY: TimeDelta = TimeDelta::hours(18);

/// What a look that begins now asks, in the order of asking. `verdict` is the one the last sitting left.
pub fn asks(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan, now: DateTime<Utc>) -> Vec<Spot> {
    let mut told = telling(protocol, findings, verdict);
    let rounds = protocol.rounds.iter().filter(|round| round.with.iter().any(|act| plan.done.contains(act)));
    told.extend(rounds.flat_map(|round| &round.told_by).copied().map(Asked::of_bird));
    let mut spots = Vec::new();
    for (at, question) in protocol.enumerated().filter(|(_, question)| question.worked_out.is_none()) {
        for about in abouts(question, findings) {
            let asked = Asked { about, question: at };
            if is_due(question, findings, about, now) || (told.contains(&asked) && !keeps_its_time(question)) {
                spots.push(Spot { about, question: question.id.clone() });
            }
        }
    }
    spots
}

/// The questions that tell of the signs she is watched for: of the wound a sign is watched for, else of all of them.
pub fn telling(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> BTreeSet<Asked> {
    let mut telling = BTreeSet::new();
    for watched in &verdict.watch {
        for at in &protocol.watch(watched.sign).told_by {
            let of_wounds: BTreeSet<About> =
                watched.because.iter().map(|reason| reason.about).filter(|about| *about != About::Bird).collect();
            let question = protocol.ask(*at);
            let all = || abouts(question, findings).collect::<Vec<_>>();
            let these = if question.wound && !of_wounds.is_empty() { of_wounds.into_iter().collect() } else { all() };
            telling.extend(these.into_iter().map(|about| Asked { about, question: *at }));
        }
    }
    telling
}

/// Whether it is asked by its own time alone, whatever she is watched for.
fn keeps_its_time(question: &Question) -> bool {
    match question.again {
        Again::Daily | Again::UntilSeen => true,
        Again::Never | Again::WhileBad | Again::Always => false,
    }
}

fn abouts(question: &Question, findings: &Findings) -> impl Iterator<Item = About> + use<> {
    let (bird, wounds) = if question.wound { (None, findings.wounds()) } else { (Some(About::Bird), 0) };
    bird.into_iter().chain((0..wounds).map(About::Wound))
}

fn is_due(question: &Question, findings: &Findings, about: About, now: DateTime<Utc>) -> bool {
    let last = findings.answer(about, question.id.as_str());
    match (question.again, last) {
        (Again::Never, _) | (Again::WhileBad, None) => false,
        (Again::Always, _) | (Again::UntilSeen, None) => true,
        // What was left out at first waits a day, too: she is not taken up for it at every look.
        (Again::Daily, last) => last.or(findings.said().first()).is_none_or(|said| now - said.at >= DAILY),
        (Again::WhileBad, Some(said)) => !is_fine(question, &said.statement.answer),
        (Again::UntilSeen, Some(said)) => !is_seen(question, &said.statement.answer),
    }
}

/// Whether an answer says that it was seen: it is none of the fine one and of what could not be told.
fn is_seen(question: &Question, answer: &Answer) -> bool {
    *answer != Answer::CannotTell && !is_fine(question, answer)
}

/// Whether an answer is the first, the fine one; what could not be told is not.
fn is_fine(question: &Question, answer: &Answer) -> bool {
    match answer {
        Answer::Choice(id) => question.choice_at(id.as_str()) == Some(0),
        Answer::Amount(_) | Answer::Figure(_) | Answer::CannotTell => false,
    }
}
