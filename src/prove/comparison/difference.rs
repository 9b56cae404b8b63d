//! A bird of whom one's own protocol says less than the shipped one: judged by both, what differs told.

use crate::finding::{About, Id};
use crate::judge::{Verdict, of_sheet};
use crate::protocol::Protocol;
use crate::protocol::action::{Action, ActionAt, Harm};
use crate::protocol::question::{Asked, AskedOf, Question};
use crate::protocol::rule::Looks;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::links::Links;
use crate::prove::proof::{in_words, said};
use crate::prove::scales::{Rung, Scale};
use crate::sheet::{Cell, Sheet, Subject, Truth};

/// In what way one's own protocol says less of a bird, or what it should not.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Loss {
    /// A scale stands lower: from the shipped rung to one's own.
    Lower(Scale, Rung, Rung),
    /// A humane end is advised where the shipped protocol advises none.
    Harsher(Rung, Rung),
    /// What the shipped protocol forbids is not forbidden.
    Ban(Id),
    /// What the shipped protocol keeps out of her plan stands in it.
    MayNotBe(Id),
    /// What the shipped plan tells, and harms if it is left out, is not told.
    Missing(Id),
    /// A danger sign is not watched for.
    Watch(Id),
    /// She is looked at again later, or not as long.
    Looks(u32, u32),
    /// Nobody looks at her by night.
    Slept,
    /// What decides something is not asked of her.
    NotAsked(Id),
    /// A sign of danger is not asked first of all.
    NotFirst(Id),
    /// What fills the screen at once at an answer of this question does not.
    NotShown(Id),
}

impl Loss {
    /// Its name in files that leave the program.
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Lower(Scale::Need, ..) => "need_lower",
            Self::Lower(Scale::Humane, ..) => "humane_end_lower",
            Self::Lower(Scale::Authority, ..) => "authority_call_lower",
            Self::Harsher(..) => "humane_end_advised",
            Self::Ban(_) => "ban_missing",
            Self::MayNotBe(_) => "act_that_may_not_be",
            Self::Missing(_) => "act_missing",
            Self::Watch(_) => "danger_sign_not_watched_for",
            Self::Looks(..) => "looks_later",
            Self::Slept => "not_looked_at_by_night",
            Self::NotAsked(_) => "not_asked",
            Self::NotFirst(_) => "not_asked_first",
            Self::NotShown(_) => "instruction_missing",
        }
    }

    /// What it is about: an action, a sign, a question, a scale.
    pub fn of(&self) -> String {
        match self {
            Self::Lower(scale, ..) => scale.id().to_owned(),
            Self::Harsher(..) => Scale::Humane.id().to_owned(),
            Self::Slept => "night".to_owned(),
            Self::Looks(every, until) => format!("every {every} min until hour {until}"),
            Self::Ban(id)
            | Self::MayNotBe(id)
            | Self::Missing(id)
            | Self::Watch(id)
            | Self::NotAsked(id)
            | Self::NotFirst(id)
            | Self::NotShown(id) => id.to_string(),
        }
    }
}

/// One bird and what both protocols say of her.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// In what way one's own says less, the gravest first. Never empty.
    pub losses: Vec<Loss>,
    /// The rules of the shipped protocol that are in force of her and not in one's own, by id.
    pub rules: Vec<Id>,
    /// What was found on her, in the words of the shipped protocol, all else fine.
    pub bird: Vec<String>,
    /// How many minutes before she is judged all of it was said.
    pub minutes: u32,
    /// All of it, as the shipped protocol is told.
    pub said: Vec<(Asked, Cell)>,
    /// All of it, as one's own is told; what it does not ask is left out.
    pub own_said: Vec<(Asked, Cell)>,
    /// What the shipped protocol says of her.
    pub shipped: Rungs,
    /// What one's own says of her.
    pub own: Rungs,
    /// The rules in force by the shipped protocol and by one's own.
    pub(super) in_force: [Vec<Id>; 2],
}

/// At least where a bird stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rungs {
    /// How soon skilled help is needed.
    pub need: Need,
    /// Whether a humane end has come into question.
    pub humane: Humane,
    /// Whether an authority has to be called.
    pub authority: Authority,
}

impl Rungs {
    const fn of(verdict: &Verdict) -> Self {
        Self { need: verdict.need.low, humane: verdict.humane.low, authority: verdict.authority.low }
    }

    /// The rung on one scale.
    pub const fn on(self, scale: Scale) -> Rung {
        match scale {
            Scale::Need => self.need as Rung,
            Scale::Humane => self.humane as Rung,
            Scale::Authority => self.authority as Rung,
        }
    }
}

/// What is not told to one of the protocols, besides what it does not know.
#[derive(Clone, Copy)]
pub struct Unasked {
    /// The question of the shipped protocol that one's own does not ask.
    pub shipped: Asked,
    /// Where it stands in one's own.
    pub own: Asked,
}

/// How a bird is told to the two protocols.
#[derive(Clone, Copy)]
pub struct Telling {
    /// What one's own is not told.
    pub unasked: Option<Unasked>,
    /// How many minutes before she is judged.
    pub minutes: u32,
    /// Whether what nobody would be asked of such a bird is left out.
    pub as_asked: bool,
}

/// Judges one bird by both protocols.
///
/// What only one of them has as an answer the other is told nothing of; nor is one's own told what it does not ask.
pub fn judged(
    [shipped, own]: [&Protocol; 2],
    links: &Links,
    [mut there, mut here]: [Sheet; 2],
    Telling { unasked, minutes, as_asked }: Telling,
) -> Shown {
    untell(own, links, &mut there, &mut here);
    if as_asked {
        leave_out(shipped, &mut there);
        leave_out(own, &mut here);
    }
    if let Some(Unasked { own, .. }) = unasked {
        here.suppose(own, Cell::NotAsked);
        here.suppose_applies();
    }
    let told_at = there.now() - chrono::TimeDelta::minutes(i64::from(minutes));
    let (by_shipped, by_own) = (of_sheet(shipped, &there, told_at), of_sheet(own, &here, told_at));
    let mut losses = Vec::new();
    scales(&by_shipped, &by_own, &mut losses);
    told([shipped, own], [&by_shipped, &by_own], &mut losses);
    if let Some(Unasked { shipped: asked_there, own: asked_here }) = unasked
        && asks(shipped, &there, asked_there)
        && !asks(own, &here, asked_here)
    {
        losses.push(Loss::NotAsked(shipped.ask(asked_there.question).id.clone()));
    }
    called_up([shipped, own], links, &there, &mut losses);
    let ids = |protocol: &Protocol, verdict: &Verdict| {
        let mut ids: Vec<Id> = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule).id.clone()).collect();
        ids.sort();
        ids.dedup();
        ids
    };
    let in_force = [ids(shipped, &by_shipped), ids(own, &by_own)];
    let [first, second] = &in_force;
    let rules = first.iter().filter(|id| !second.contains(id)).cloned().collect();
    let (answers, told_own) = (said(shipped, &there), said(own, &here));
    Shown {
        losses,
        rules,
        bird: in_words(shipped, &answers),
        minutes,
        said: answers,
        own_said: told_own.into_iter().filter(|(_, cell)| *cell != Cell::NotAsked).collect(),
        shipped: Rungs::of(&by_shipped),
        own: Rungs::of(&by_own),
        in_force,
    }
}

/// Takes out what is asked of no such bird.
fn leave_out(protocol: &Protocol, sheet: &mut Sheet) {
    for (at, question) in protocol.enumerated() {
        let Some(asked_if) = &question.asked_if else { continue };
        for about in sheet.abouts(question) {
            if !sheet.in_doubt_too(asked_if, about.into()) {
                sheet.suppose(Asked { about, question: at }, Cell::NotAsked);
            }
        }
    }
    sheet.suppose_applies();
}

/// Takes out what the other protocol does not know as an answer.
fn untell(own: &Protocol, links: &Links, there: &mut Sheet, here: &mut Sheet) {
    for (at, question) in own.enumerated() {
        let Some(shipped_at) = links.shipped(at) else { continue };
        for about in here.abouts(question) {
            let (asked, asked_there) = (Asked { about, question: at }, Asked { about, question: shipped_at });
            let (own_cell, cell) = (here.cell(about.into(), at), there.cell(about.into(), shipped_at));
            let only_shipped = matches!(cell, Cell::Given(answer) if links.own_answer(at, answer).is_none());
            let foreign = matches!(own_cell, Cell::Given(answer) if links.answer(at, answer).is_none());
            // Where both hold, the answer is one of the shipped protocol that one's own knows nothing of.
            if only_shipped {
                here.suppose(asked, Cell::NotAsked);
            } else if foreign {
                there.suppose(asked_there, Cell::NotAsked);
            }
        }
    }
    here.suppose_applies();
    there.suppose_applies();
}

fn scales(shipped: &Verdict, own: &Verdict, losses: &mut Vec<Loss>) {
    let (there, here) = (Rungs::of(shipped), Rungs::of(own));
    for scale in Scale::ALL {
        if here.on(scale) < there.on(scale) {
            losses.push(Loss::Lower(scale, there.on(scale), here.on(scale)));
        }
    }
    if here.humane > there.humane && here.humane.is_advised() {
        losses.push(Loss::Harsher(there.humane as Rung, here.humane as Rung));
    }
}

/// Whether leaving an action out harms her.
pub fn harms_left_out(action: &Action) -> bool {
    action.at_once || matches!(action.left_out, Some(Harm::Minutes | Harm::Hours | Harm::Days))
}

fn told([shipped, own]: [&Protocol; 2], [there, here]: [&Verdict; 2], losses: &mut Vec<Loss>) {
    let own_at = |id: &Id| own.actions_enumerated().find(|(_, action)| action.id == *id).map(|(at, _)| at);
    for (at, action) in shipped.actions_enumerated() {
        let own_at = own_at(&action.id);
        let ours_tells = own_at.is_some_and(|at| has(&here.acts, |act| act.target.action == at));
        let planned = has(&there.acts, |act| act.target.action == at);
        let banned = |verdict: &Verdict, at: ActionAt| has(&verdict.never, |never| never.target.action == at);
        if banned(there, at) && !own_at.is_some_and(|at| banned(here, at)) {
            losses.push(Loss::Ban(action.id.clone()));
        }
        let dropped = there.forbids(shipped, at) || wanted(shipped, there, at);
        let waits = has(&there.later, |later| later.target.action == at);
        if ours_tells && !planned && dropped && !waits {
            losses.push(Loss::MayNotBe(action.id.clone()));
        }
        if planned && !ours_tells && harms_left_out(action) {
            losses.push(Loss::Missing(action.id.clone()));
        }
    }
    for watched in &there.watch {
        let id = &shipped.watch(watched.sign).id;
        if !has(&here.watch, |watched| own.watch(watched.sign).id == *id) {
            losses.push(Loss::Watch(id.clone()));
        }
    }
    // A bird that goes to a vet sooner is looked at by that need's own looks.
    if here.need.low <= there.need.low {
        let later = there.looks.iter().filter(|looks| !super::effects::covers(&here.looks, **looks));
        losses.extend(later.map(|Looks { every_min, until_h, .. }| Loss::Looks(*every_min, *until_h)));
    }
    if here.steady && !there.steady && here.need.low <= Need::WithinADay {
        losses.push(Loss::Slept);
    }
}

fn has<T>(of: &[T], is: impl Fn(&T) -> bool) -> bool {
    of.iter().any(is)
}

/// Whether some rule in force names an action, whatever became of it.
fn wanted(protocol: &Protocol, verdict: &Verdict, at: ActionAt) -> bool {
    verdict.reasons.iter().any(|reason| protocol.rule(reason.rule).acts.contains(&at))
}

/// Whether a question is asked in the course of the examination, were it not answered yet.
fn asks(protocol: &Protocol, sheet: &Sheet, asked: Asked) -> bool {
    let question = protocol.ask(asked.question);
    let subject = Subject::from(asked.about);
    let seen = question.asked_of == AskedOf::Seen;
    let doubt = if seen { crate::sheet::Doubt::CountsAsUnmet } else { crate::sheet::Doubt::CountsAsMet };
    let applies = sheet.applies_under(doubt, subject, asked.question) == Truth::Yes;
    let spared = question.touches
        && (sheet.surely(&protocol.spare_when, Subject::Bird)
            || sheet.in_doubt_too(&protocol.spare_in_doubt, Subject::Bird));
    let asked_if = question.asked_if.as_ref().is_none_or(|cond| sheet.in_doubt_too(cond, subject));
    applies && !sheet.is_moot(asked) && asked_if && !spared
}

/// What her answers call up at once by the shipped protocol and not by one's own, and the danger signs asked late.
fn called_up([shipped, own]: [&Protocol; 2], links: &Links, there: &Sheet, losses: &mut Vec<Loss>) {
    for (at, question) in shipped.enumerated() {
        let Some(own_at) = links.own(at) else { continue };
        for subject in there.abouts(question).map(Subject::from) {
            let Cell::Given(answer) = there.cell(subject, at) else { continue };
            let Some(own_answer) = links.own_answer(own_at, answer) else { continue };
            if instruct(shipped, question, answer).is_none() || there.applies(subject, at) != Truth::Yes {
                continue;
            }
            if instruct(own, own.ask(own_at), own_answer) != instruct(shipped, question, answer) {
                losses.push(Loss::NotShown(question.id.clone()));
            }
            if shipped.is_danger_sign(question) && !own.is_danger_sign(own.ask(own_at)) {
                losses.push(Loss::NotFirst(question.id.clone()));
            }
        }
    }
    losses.dedup();
}

/// The instruction an answer calls up, by name: its position in another protocol says nothing.
pub fn instruct<'p>(protocol: &'p Protocol, question: &Question, answer: u8) -> Option<&'p Id> {
    let at = question.choices.get(usize::from(answer))?.instruct?;
    Some(&protocol.instruction(at).id)
}

/// What a column is about.
pub fn about(column: usize) -> About {
    column.checked_sub(1).map_or(About::Bird, About::Wound)
}
