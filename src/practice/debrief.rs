//! What a go is talked over by: what was seen and missed, what came first, minutes in the hand, what harms, the verdict
//! against the reference, and the one thing to do better next time.

use super::course::stretches;
use super::mark::Rungs3;
use super::trial::Trial;
use crate::finding::log::{self, Entry, Stamped};
use crate::finding::{About, Answer, Findings};
use crate::judge::{Reason, Standing};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::question::Step;
use crate::protocol::rule::{ActionAt, Rule};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::table::At;
use crate::prove::{Exact, judge_bands};
use crate::sheet::{Cell, Sheet};
use chrono::{DateTime, TimeDelta, Utc};

/// How a sign was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// As it is.
    Right,
    /// As less than it is.
    Milder,
    /// As more than it is, or as something else.
    Otherwise,
    /// Looked at, and could not be told.
    CouldNotTell,
    /// Nobody looked.
    Unlooked,
}

/// One sign, as it was and as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reading {
    /// The question.
    pub asked: Asked,
    /// What was true when it was answered; at the end, where it was not.
    pub truth: Answer,
    /// What was said.
    pub said: Option<Answer>,
    /// How that compares.
    pub seen: Seen,
    /// Whether the verdict hangs on it, and nothing else that was seen carries it.
    pub decides: bool,
}

impl Reading {
    /// Whether something that was there was missed: taken for less, or not found though the verdict hangs on it.
    pub fn is_missed(&self) -> bool {
        match self.seen {
            Seen::Right | Seen::Otherwise => false,
            Seen::Milder => true,
            Seen::CouldNotTell | Seen::Unlooked => self.decides,
        }
    }
}

/// What had to be done at once and came late, or never.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Late {
    /// The action.
    pub action: ActionAt,
    /// How many looks were taken before it; none where it was never done.
    pub looks: Option<usize>,
}

/// The one thing to do better next time; the gravest that there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// Leave off what harms.
    Leave(ActionAt),
    /// Do first what cannot wait.
    First(ActionAt),
    /// Look her over: a wound was not found.
    LookOver,
    /// Look for this: it was missed, and it decides.
    LookFor(Asked),
    /// The signs were seen; what they mean was set too low.
    TooLow,
    /// Begin with the danger signs.
    DangerSignsFirst,
    /// Watch her from where you stand before taking her in the hand.
    WatchFirst,
    /// Put her down sooner.
    PutDown,
    /// What was seen asks for less.
    TooHigh,
    /// This was read as something it is not.
    Misread(Asked),
    /// Look at the whole bird: parts of her were left out, and nothing was so urgent that they had to be.
    WholeBird,
    /// Nothing: take a harder one.
    Harder,
}

/// A go, talked over.
#[derive(Clone, Debug)]
pub struct Debrief {
    /// When the verdict was given.
    pub at: DateTime<Utc>,
    /// The verdict that was given; what was not given counts as nothing.
    pub given: Rungs3,
    /// The right one, as she stood then.
    pub right: Rungs3,
    /// The reference's verdict in full.
    pub reference: Exact,
    /// Every sign that is more than fine, and what was read otherwise than it is.
    pub readings: Vec<Reading>,
    /// How many answers were given.
    pub looks: usize,
    /// The steps of which nothing was looked at, though something was there to be looked at.
    pub left_out: Vec<At<Step>>,
    /// Whether she was looked over for wounds to the end.
    pub looked_over: bool,
    /// How many wounds were found, and how many there are.
    pub wounds: (usize, usize),
    /// What had to be done at once and was not, or came late.
    pub late: Vec<Late>,
    /// What was done that the reference forbids.
    pub harm: Vec<ActionAt>,
    /// The longest she was held at one stretch.
    pub held: TimeDelta,
    /// For how long she may be held.
    pub hold: TimeDelta,
    /// Whether the danger signs came before all else.
    pub danger_first: bool,
    /// Whether she was watched before she was taken in the hand.
    pub watched_first: bool,
    /// What came of time, the hand and deeds: what was seen, in order.
    pub turned: Vec<(DateTime<Utc>, String)>,
    /// The one thing to do better next time.
    pub advice: Advice,
}

impl Debrief {
    /// The signs that were there and were missed.
    pub fn missed(&self) -> impl Iterator<Item = &Reading> {
        self.readings.iter().filter(|reading| reading.is_missed())
    }
}

/// Talks a go over.
pub fn debrief(protocol: &Protocol, trial: &Trial, log: &[Stamped], now: DateTime<Utc>) -> Debrief {
    let at = trial.ended.unwrap_or(now);
    let course = trial.course(log, at);
    let reference = trial.reference(protocol, log, at);
    let right = Rungs3 { need: reference.need.low, humane: reference.humane.low, authority: reference.authority.low };
    let given = Rungs3 {
        need: trial.given.need.unwrap_or_default(),
        humane: trial.given.humane.unwrap_or_default(),
        authority: trial.given.authority.unwrap_or_default(),
    };
    let standing = log::standing(log);
    let found = log::findings(&standing);
    let mut readings = readings(protocol, trial, log, &course.truth, &found, at);
    let own = judge_bands(protocol, &found, at);
    mark_what_decides(protocol, &reference, &own, right, &mut readings);
    let held = stretches(log, at).into_iter().map(|(from, to)| to - from).max().unwrap_or_default();
    let harm = harm(protocol, trial, &reference);
    let mut debrief = Debrief {
        at,
        given,
        right,
        readings,
        looks: found.said().len(),
        left_out: left_out(protocol, &course.truth, &found, at),
        looked_over: found.looked_over(),
        wounds: (found.wounds().min(course.truth.wounds()), course.truth.wounds()),
        late: late(protocol, trial, &standing),
        harm,
        held,
        hold: TimeDelta::seconds(i64::from(protocol.hold_s)),
        danger_first: danger_first(protocol, &standing),
        watched_first: watched_first(protocol, &standing),
        turned: course.turned.iter().map(|(at, turn)| (*at, turn.shows.clone())).collect(),
        reference,
        advice: Advice::Harder,
    };
    debrief.advice = advice(&debrief);
    debrief
}

/// The steps that ask something of this bird, and of which nothing was answered.
fn left_out(protocol: &Protocol, truth: &Findings, found: &Findings, at: DateTime<Utc>) -> Vec<At<Step>> {
    let sheet = Sheet::lay(protocol, truth, at);
    let of_step = |step: At<Step>| {
        let asked =
            protocol.enumerated().filter(|(_, question)| question.step == step && question.worked_out.is_none());
        let mut asked = asked.flat_map(|(_, question)| sheet.abouts(question).map(move |about| (about, question)));
        let mut any = false;
        let none = asked.all(|(about, question)| {
            any = true;
            found.answer(about, question.id.as_str()).is_none()
        });
        any && none
    };
    protocol.steps.placed().map(|(at, _)| at).filter(|step| of_step(*step)).collect()
}

/// Every sign worse than its finest answer, and every answer that is not the truth.
fn readings(
    protocol: &Protocol,
    trial: &Trial,
    log: &[Stamped],
    end: &Findings,
    found: &Findings,
    at: DateTime<Utc>,
) -> Vec<Reading> {
    let now = Sheet::lay(protocol, end, at);
    let said = Sheet::lay(protocol, found, at);
    let turns = trial.script.lesson().is_some_and(|lesson| !lesson.turns.is_empty());
    let mut readings = Vec::new();
    for (question_at, question) in protocol.enumerated().filter(|(at, _)| *at != protocol.roles.reach) {
        for about in now.abouts(question) {
            let answer = found.answer(about, question.id.as_str());
            // She may have changed since: an answer was right if it was when it was given.
            let then = answer.filter(|_| turns).map(|said| trial.course(log, said.at).truth);
            let truth_then = then.as_ref().map(|truth| Sheet::lay(protocol, truth, at));
            let truth = truth_then.as_ref().unwrap_or(&now).cell(about.into(), question_at);
            let Some(stands) = then.as_ref().unwrap_or(end).answer(about, question.id.as_str()) else { continue };
            let seen = seen(truth, said.cell(about.into(), question_at), question.ordered);
            let is_sign = question.has_a_fine_answer() && rank(truth).is_some_and(|rank| rank.0 > 0);
            let is_otherwise = matches!(seen, Seen::Milder | Seen::Otherwise);
            if is_sign || is_otherwise {
                readings.push(Reading {
                    asked: Asked { about, question: question_at },
                    truth: stands.statement.answer.clone(),
                    said: answer.map(|said| said.statement.answer.clone()),
                    seen,
                    decides: false,
                });
            }
        }
    }
    readings
}

/// The first and last answer a cell may stand for.
fn rank(cell: Cell) -> Option<(u8, u8)> {
    match cell {
        Cell::Given(at) => Some((at, at)),
        Cell::Worked(_, first, last) => Some((first, last)),
        Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => None,
    }
}

fn seen(truth: Cell, said: Cell, ordered: bool) -> Seen {
    match (rank(truth), rank(said)) {
        _ if said == Cell::NotAsked => Seen::Unlooked,
        _ if said == Cell::CannotTell => {
            if truth == Cell::CannotTell {
                Seen::Right
            } else {
                Seen::CouldNotTell
            }
        }
        (Some((low, high)), Some((first, last))) if first <= high && low <= last => Seen::Right,
        (Some((low, _)), Some((_, last))) if ordered && last < low => Seen::Milder,
        (Some(_), Some(_)) => Seen::Otherwise,
        // A weight typed for a build, or the other way round, is not held against it.
        _ => Seen::Right,
    }
}

/// Marks the signs on which the right rungs hang, where what was found puts no rule in force that comes to the same rung.
fn mark_what_decides(protocol: &Protocol, reference: &Exact, own: &Exact, right: Rungs3, readings: &mut [Reading]) {
    let scales: [&dyn Fn(&Rule) -> bool; 3] = [
        &|rule| rule.need == Some(right.need) && right.need > Need::None,
        &|rule| rule.humane == Some(right.humane) && right.humane > Humane::NotInQuestion,
        &|rule| rule.authority == Some(right.authority) && right.authority > Authority::None,
    ];
    for moves in scales {
        let of = |verdict: &Exact| -> Vec<Reason> {
            let seen = |reason: &Reason| reason.standing == Standing::Seen && moves(protocol.rule(reason.rule));
            verdict.reasons.iter().copied().filter(seen).collect()
        };
        let rules = of(reference);
        if of(own).iter().any(|found| rules.iter().any(|reason| reason.rule == found.rule)) {
            continue;
        }
        let reads = |reason: &Reason, asked: Asked| {
            let about = asked.about == reason.about || asked.about == About::Bird || reason.about == About::Bird;
            about && protocol.rule(reason.rule).when.questions().contains(&asked.question)
        };
        for reading in readings.iter_mut() {
            reading.decides |= rules.iter().any(|reason| reads(reason, reading.asked));
        }
    }
}

/// What was done that the reference forbids, each once.
fn harm(protocol: &Protocol, trial: &Trial, reference: &Exact) -> Vec<ActionAt> {
    let tempts = trial.script.lesson().map_or(&[][..], |lesson| lesson.tempts.as_slice());
    let at_first = trial.at_first(protocol);
    let mut harm: Vec<ActionAt> = Vec::new();
    for deed in &trial.deeds {
        let Some((at, action)) = protocol.actions_enumerated().find(|(_, action)| action.id == deed.action) else {
            continue;
        };
        let tempted = tempts.iter().any(|tempt| action.id == **tempt) && action.how.is_empty();
        if (reference.forbids(protocol, at) || at_first.forbids(protocol, at) || tempted) && !harm.contains(&at) {
            harm.push(at);
        }
    }
    harm
}

/// What had to come first: how many looks were taken before it, or that it was never done.
fn late(protocol: &Protocol, trial: &Trial, standing: &[&Stamped]) -> Vec<Late> {
    let looks_before = |before: DateTime<Utc>| {
        let said = standing.iter().filter(|stamped| stamped.at < before).filter_map(|stamped| match &stamped.entry {
            Entry::Said(statements) => Some(statements),
            _ => None,
        });
        let of_danger = |id: &str| protocol.question(id).is_some_and(|question| protocol.is_danger_sign(question));
        said.flatten().filter(|said| !of_danger(said.question.as_str())).count()
    };
    let of = |action: ActionAt| {
        let id = &protocol.action(action).id;
        let looks = trial.deeds.iter().find(|deed| deed.action == *id).map(|deed| looks_before(deed.at));
        Late { action, looks }
    };
    trial.first_deeds(protocol).into_iter().map(of).filter(|late| late.looks != Some(0)).collect()
}

fn first_said<'s>(standing: &'s [&Stamped]) -> impl Iterator<Item = &'s str> {
    standing
        .iter()
        .flat_map(|stamped| match &stamped.entry {
            Entry::Said(statements) => statements.as_slice(),
            _ => &[],
        })
        .map(|said| said.question.as_str())
}

fn danger_first(protocol: &Protocol, standing: &[&Stamped]) -> bool {
    let danger = |id: &str| protocol.question(id).is_some_and(|question| protocol.is_danger_sign(question));
    first_said(standing).next().is_none_or(danger)
}

/// Whether something was seen of her from where one stands before the first look that needs her in the hand.
fn watched_first(protocol: &Protocol, standing: &[&Stamped]) -> bool {
    let hands = |id: &str| {
        let step = protocol.question(id).map(|question| protocol.steps.of(question.step));
        step.is_some_and(|step| step.hands_on)
    };
    let first = protocol.steps.iter().position(|step| step.hands_on).unwrap_or(0);
    let watch = |id: &str| protocol.question(id).is_some_and(|question| question.step.nth() + 1 == first);
    let before: Vec<&str> = first_said(standing).take_while(|id| !hands(id)).collect();
    let never_touched = before.len() == first_said(standing).count();
    never_touched || before.into_iter().any(watch)
}

/// The verdict is right: was it by the way there, too? Where she needs a vet at once, what is left open can wait.
fn with_care(debrief: &Debrief) -> Advice {
    let misread = debrief.readings.iter().find(|reading| reading.seen == Seen::Otherwise);
    let in_part = debrief.left_out.len() > 1 || !debrief.looked_over;
    match misread {
        Some(reading) => Advice::Misread(reading.asked),
        None if in_part && debrief.right.need < Need::Now => Advice::WholeBird,
        None => Advice::Harder,
    }
}

fn advice(debrief: &Debrief) -> Advice {
    let (given, right) = (debrief.given, debrief.right);
    let too_low = given.need < right.need || given.humane < right.humane || given.authority < right.authority;
    if let Some(harm) = debrief.harm.first() {
        return Advice::Leave(*harm);
    }
    if let Some(late) = debrief.late.first() {
        return Advice::First(late.action);
    }
    if debrief.wounds.0 < debrief.wounds.1 && given.need < right.need {
        return Advice::LookOver;
    }
    let missed = debrief.missed().find(|reading| reading.decides).or_else(|| debrief.missed().next());
    match missed {
        Some(reading) => return Advice::LookFor(reading.asked),
        None if too_low => return Advice::TooLow,
        None => {}
    }
    match (debrief.danger_first, debrief.watched_first, debrief.held > debrief.hold, given == right) {
        (false, ..) => Advice::DangerSignsFirst,
        (true, false, ..) => Advice::WatchFirst,
        (true, true, true, _) => Advice::PutDown,
        (true, true, false, false) => Advice::TooHigh,
        (true, true, false, true) => with_care(debrief),
    }
}
