//! Answers nobody is asked for, since they come from two looks at her: weight that has gone, a wound that has grown, what was so
//! a while ago.

use super::{Cell, Sheet};
use crate::finding::figure::{Figure, Lines};
use crate::finding::{About, Answer, Findings, Said};
use crate::measure::healing;
use crate::measure::trend::{self, Step, Weighing};
use crate::protocol::Protocol;
use crate::protocol::cond::{AnswerSet, Measure, QuestionAt};
use crate::protocol::question::{Asked, Course};
use crate::unit::Grams;
use chrono::{DateTime, TimeDelta, Utc};

impl Sheet<'_> {
    /// Works out what was not said outright. Fewer than two looks tell of no change: she is told to be weighed again.
    pub(super) fn work_out_courses(&mut self, findings: &Findings) {
        let protocol = self.protocol;
        for (at, question) in protocol.enumerated() {
            let Some(course) = &question.worked_out else { continue };
            for about in self.abouts(question) {
                let asked = Asked { about, question: at };
                if self.cell(about.into(), at) == Cell::NotAsked {
                    self.put(asked, Cell::Given(step(protocol, findings, course, (about, self.now))), self.now);
                }
            }
            // A wound not found yet was not measured twice.
            if let Some(cell) = self.unfound.cells.get_mut(at.nth()).filter(|_| question.wound) {
                *cell = Cell::Given(0);
            }
        }
    }
}

/// The step, from 0, that a course comes to.
fn step(protocol: &Protocol, findings: &Findings, course: &Course, (about, now): (About, DateTime<Utc>)) -> u8 {
    match course {
        Course::WeightGone => gone(&weights(protocol, findings)),
        Course::WoundGrown => u8::from(has_grown(&sizes(protocol, findings, about))),
        Course::Was { so, within } => {
            let within = TimeDelta::minutes(i64::from(within.0));
            u8::from(so.literals().any(|(at, set)| was(protocol, findings, (at, set), about, now - within)))
        }
    }
}

/// A shorter time is a slip of the finger that was put right.
const STOOD: TimeDelta = TimeDelta::minutes(1);

/// Whether an answer was one of these for a while, and has been changed since this moment.
fn was(
    protocol: &Protocol,
    findings: &Findings,
    (at, set): (QuestionAt, AnswerSet),
    about: About,
    since: DateTime<Utc>,
) -> bool {
    let question = protocol.ask(at);
    let about = if question.wound { about } else { About::Bird };
    let of = |said: &&Said| said.statement.about == about && said.statement.question == question.id;
    let told: Vec<&Said> = findings.said().iter().filter(of).collect();
    let so = |said: &Said| match &said.statement.answer {
        Answer::Choice(id) => question.choice_at(id.as_str()).is_some_and(|choice| set.holds(choice)),
        Answer::Amount(_) | Answer::Figure(_) | Answer::CannotTell => false,
    };
    let then = told.iter().skip(1);
    told.iter().zip(then).any(|(said, next)| so(said) && !so(next) && next.at - said.at >= STOOD && next.at >= since)
}

fn gone(weighings: &[Weighing]) -> u8 {
    let lost = trend::best_before_last(weighings)
        .zip(weighings.last())
        .and_then(|(best, last)| trend::lost_permille(best.weight, last.weight));
    lost.map_or(0, |lost| Step::of(lost) as u8)
}

/// Whether a wound is larger than it ever was before, past what a ruler can tell, or, after the third day, at all.
fn has_grown(sizes: &[(DateTime<Utc>, Lines)]) -> bool {
    let Some(((last_at, last), before)) = sizes.split_last() else { return false };
    let Some((first_at, _)) = before.first() else { return false };
    let Some((_, smallest)) = before.iter().min_by(|(_, one), (_, other)| one.area().total_cmp(&other.area())) else {
        return false;
    };
    let days = u32::try_from((*last_at - *first_at).num_days()).unwrap_or(0);
    let clearly = healing::advance_read(*smallest, *last).is_some_and(|come| come.high < 0.0);
    clearly || healing::flag(*smallest, *last, days) == Some(healing::Flag::GrewAfterDay3)
}

fn weights(protocol: &Protocol, findings: &Findings) -> Vec<Weighing> {
    let Some(at) = protocol.giving(Measure::Weight, false) else { return Vec::new() };
    // Only which came first counts here; a clock that was set back tells that wrongly, the order of saying does not.
    let told = findings.over_time(About::Bird, &protocol.ask(at).id).into_iter();
    let grams = told.filter_map(|said| match said.statement.answer {
        Answer::Amount(grams) => Some(Grams(grams)),
        Answer::Choice(_) | Answer::Figure(_) | Answer::CannotTell => None,
    });
    (0..).zip(grams).map(|(hour, weight)| Weighing { hour, weight }).collect()
}

fn sizes(protocol: &Protocol, findings: &Findings, about: About) -> Vec<(DateTime<Utc>, Lines)> {
    let Some(at) = protocol.giving(Measure::WoundArea, true) else { return Vec::new() };
    let told = findings.over_time(about, &protocol.ask(at).id).into_iter();
    let lines = told.filter_map(|said| match &said.statement.answer {
        Answer::Figure(Figure::Lines(lines)) => Some((said.at, *lines)),
        Answer::Figure(_) | Answer::Choice(_) | Answer::Amount(_) | Answer::CannotTell => None,
    });
    lines.collect()
}
