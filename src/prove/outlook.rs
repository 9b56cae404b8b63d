//! The outlook: everything that is proven of one bird at one moment, for the screen and every document.

use super::clauses::Work;
use super::envelope::{Envelope, envelope};
use super::exact::{Exact, Whole};
use super::expiry::holds_until;
use super::information::{Telling, most_telling};
use super::matter::matters;
use super::reasons::{RuledOut, ruled_out, why_at_least};
use super::scales::{Rung, Scale};
use super::what_if::{WhatIf, what_if};
use crate::finding::Findings;
use crate::judge::{self, Verdict};
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::question::Asked;
use crate::protocol::question::Step;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::table::At;
use crate::sheet::{Doubt, Sheet, Truth, Weigher};
use crate::unit::Band;
use chrono::{DateTime, Utc};

/// The work allowed at a key press. Real birds need a few restarts at most.
const AT_A_KEY: Work = Work(600);

/// Judges a bird, the bands of the scales exact: no rung is named that no bird with these findings comes to, and the open
/// questions are those that can still change an outcome.
///
/// Where the work allowed does not suffice, the judge's own bands stand: they are never too narrow.
pub fn judge(protocol: &Protocol, findings: &Findings, now: DateTime<Utc>) -> Whole {
    let sheet = Sheet::lay(protocol, findings, now);
    let (exact, envelope) = banded(protocol, findings, &sheet);
    let mut open = judge::open(protocol, &sheet);
    if let Some(envelope) = envelope {
        if let Ok(mattering) = matters(protocol, &sheet, &envelope, &open.questions, AT_A_KEY) {
            open.questions = mattering;
        }
        open.wounds &= !envelope.is_settled();
    }
    Whole::of(exact, open)
}

/// The verdict as [`judge()`] gives it, without what is still open, which costs thirty times as much: for a board of many birds.
pub fn judge_bands(protocol: &Protocol, findings: &Findings, now: DateTime<Utc>) -> Exact {
    banded(protocol, findings, &Sheet::lay(protocol, findings, now)).0
}

/// The verdict in its exact bands, and what they were made out from; none where that would take too long.
fn banded<'p>(protocol: &'p Protocol, findings: &Findings, sheet: &Sheet<'p>) -> (Exact, Option<Envelope<'p>>) {
    let mut verdict = judge::judge(protocol, findings, sheet.now());
    let envelope = envelope(protocol, sheet, AT_A_KEY).ok();
    if let Some(envelope) = &envelope {
        narrow(protocol, &mut verdict, envelope);
    }
    (Exact::of(verdict), envelope)
}

/// How much more than a question of the step one stands in another must settle before the bird is turned over for it.
const WORTH_TURNING: f64 = 2.0;

/// What would settle most now, if anything does: an open question, or the look-over for wounds.
///
/// Nothing further along is named while something nearer still matters: first what is seen from where one stands, then the bird
/// in the hand, then the scale. `here` is the step one stands in; it is left only for what settles a good deal more.
pub fn ask_next(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Whole,
    here: Option<At<Step>>,
    may_be_asked: impl Fn(Telling) -> bool,
) -> Option<Telling> {
    let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
    let wounds = (verdict.open_wounds && !findings.looked_over()).then_some(Telling::Wounds);
    let open = verdict.open.iter().copied().map(Telling::Question).chain(wounds);
    let asked: Vec<Telling> = open.filter(|telling| may_be_asked(*telling)).collect();
    let nearest = asked.iter().filter_map(|telling| stage(protocol, *telling)).min()?;
    let among: Vec<Telling> = asked.into_iter().filter(|telling| stage(protocol, *telling) == Some(nearest)).collect();
    let told = most_telling(protocol, &sheet, &among);
    // So few birds may show nothing of a rare sign that matters all the same: then the order of the body decides.
    let Some((best, settles)) = told.first() else { return among.first().copied() };
    let near = told.iter().find(|(telling, _)| step(protocol, *telling) == here);
    let near = near.filter(|(_, own)| own * WORTH_TURNING >= *settles);
    Some(near.map_or(*best, |(telling, _)| *telling))
}

fn step(protocol: &Protocol, telling: Telling) -> Option<At<Step>> {
    match telling {
        Telling::Question(asked) => Some(protocol.ask(asked.question).step),
        Telling::Wounds => protocol.questions.iter().find(|question| question.wound).map(|question| question.step),
    }
}

/// How often hands go on or come off in the steps before this one: what needs a further change of hold comes later.
fn stage(protocol: &Protocol, telling: Telling) -> Option<usize> {
    let before = protocol.steps.get(..=step(protocol, telling)?.nth())?;
    Some(before.windows(2).filter(|pair| matches!(pair, [one, next] if one.hands_on != next.hands_on)).count())
}

fn narrow(protocol: &Protocol, verdict: &mut Verdict, envelope: &Envelope) {
    verdict.need = rungs(envelope.of(Scale::Need), &Need::ALL, verdict.need);
    verdict.look_by_need(protocol);
    verdict.humane = rungs(envelope.of(Scale::Humane), &Humane::ALL, verdict.humane);
    verdict.authority = rungs(envelope.of(Scale::Authority), &Authority::ALL, verdict.authority);
}

fn rungs<T: Copy>(band: Band<u8>, all: &[T], otherwise: Band<T>) -> Band<T> {
    let at = |rung: u8, otherwise: T| all.get(usize::from(rung)).copied().unwrap_or(otherwise);
    Band { low: at(band.low, otherwise.low), high: at(band.high, otherwise.high) }
}

/// What a question that is still open bears on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bearing {
    /// How soon, whether a humane end, whether an authority.
    Outcome,
    /// Only what to do, what never to do, or what to watch for.
    Care,
    /// Nothing any more.
    Nothing,
}

/// What an open question can still change, as a verdict of [`judge()`] has it. The danger signs and what calls up an instruction
/// always weigh; one that is shown once and only keeps from harm is care.
pub fn bearing(protocol: &Protocol, findings: &Findings, verdict: &Whole, asked: Asked) -> Bearing {
    let question = protocol.ask(asked.question);
    let called = question.choices.iter().filter_map(|choice| Some(protocol.instruction(choice.instruct?)));
    let urgent = question.list.is_some() || called.into_iter().any(|instruction| !instruction.once);
    let decides = verdict.held.iter().any(|held| held.ask.contains(&asked));
    if urgent || decides || verdict.open.contains(&asked) || protocol.roles.kind.question == asked.question {
        return Bearing::Outcome;
    }
    let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
    let reads = |cond: &Cond| protocol.rests_on(cond, asked.about, sheet.wounds()).contains(&asked);
    // What stands in doubt warns, and only what was seen advises: a rule is open while it is under either.
    let is_open = |cond: &Cond, unfound: bool| {
        [Doubt::CountsAsMet, Doubt::CountsAsUnmet]
            .into_iter()
            .any(|doubt| Weigher { sheet: &sheet, doubt }.holds(cond, asked.about.into(), unfound) == Truth::Open)
    };
    let steers = |rule: &Rule| {
        let conds = || std::iter::once(&rule.when).chain(&rule.unless);
        conds().any(&reads) && is_open(&rule.when, true)
            || rule.unless.iter().any(|cond| reads(cond) && is_open(cond, false))
    };
    let scored = protocol.scores.iter().any(|score| score.of.contains(&asked.question));
    let measured = question.gives.is_some();
    if protocol.rules.iter().any(steers) || protocol.read_beside_rules().any(reads) || scored || measured {
        Bearing::Care
    } else {
        Bearing::Nothing
    }
}

/// What is told of one scale beyond its band.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScaleTold {
    /// The scale.
    pub scale: Scale,
    /// Where it stands at least.
    pub floor: Rung,
    /// The fewest findings that bring it there.
    pub at_least: Vec<Asked>,
    /// Where it can still come at most.
    pub top: Rung,
    /// What ruled out worse, the most telling first.
    pub ruled_out: Vec<RuledOut>,
    /// What other findings would have come to.
    pub what_if: WhatIf,
}

/// A verdict explained: why at least this, what ruled out worse, what would change it, and until when it holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// Scale by scale.
    pub scales: Vec<ScaleTold>,
    /// When the clock alone changes it, and into what.
    pub until: Option<(DateTime<Utc>, Box<Exact>)>,
}

/// Explains a verdict of the same findings.
pub fn explain(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Explained {
    let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
    let told = |scale: Scale| {
        let (floor, top) = match scale {
            Scale::Need => (verdict.need.low as Rung, verdict.need.high as Rung),
            Scale::Humane => (verdict.humane.low as Rung, verdict.humane.high as Rung),
            Scale::Authority => (verdict.authority.low as Rung, verdict.authority.high as Rung),
        };
        ScaleTold {
            scale,
            floor,
            top,
            at_least: why_at_least(protocol, &sheet, scale, floor),
            ruled_out: ruled_out(protocol, &sheet, scale, top),
            what_if: what_if(protocol, &sheet, scale, floor, AT_A_KEY),
        }
    };
    let later = |moment| judge_bands(protocol, findings, moment);
    let until = holds_until(protocol, findings, verdict, later).map(|(moment, then)| (moment, Box::new(then)));
    Explained { scales: Scale::ALL.map(told).into(), until }
}
