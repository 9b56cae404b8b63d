//! Which rules can kill, told by the protocol's own data: what they say at once, what they end, and how soon harm comes of what
//! they advise and forbid.

use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::action::Harm;
use crate::protocol::rule::{ActionAt, Rule};
use crate::protocol::scale::{Authority, Need};
use std::cmp::Reverse;

/// How soon a bird can die of a rule that is wrong, the soonest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Soon {
    /// Beyond mending: the rule brings a humane end into question, or advises it.
    End,
    /// At once: the rule says "vet at once", or advises or forbids what kills or maims within minutes.
    Minutes,
    /// Within hours: it advises or forbids what kills or maims within hours, or calls the authority now, for a flock.
    Hours,
}

impl Soon {
    /// Every degree, the soonest first.
    pub const ALL: [Self; 3] = [Self::End, Self::Minutes, Self::Hours];
}

/// A rule that can kill.
#[derive(Clone, Copy, Debug)]
pub struct Deadly<'p> {
    /// The rule.
    pub rule: &'p Rule,
    /// How soon.
    pub soon: Soon,
    /// The step of the examination its condition begins with: what it is about.
    pub step: usize,
}

/// Every rule that can kill: those that speak of an end first, then the soonest; then by what it is about, in the order of the
/// examination; then the gravest.
pub fn deadly(protocol: &Protocol) -> Vec<Deadly<'_>> {
    let of = |rule| Some(Deadly { rule, soon: soon(protocol, rule)?, step: step(protocol, rule) });
    let mut deadly: Vec<Deadly> = protocol.rules.iter().filter_map(of).collect();
    deadly.sort_by_key(|Deadly { rule, soon, step }| {
        (*soon, *step, Reverse((rule.humane, rule.need, rule.authority)), rule.id.as_str().to_owned())
    });
    deadly
}

/// How soon a bird can die of a rule that is wrong; nothing where none can of it alone.
pub fn soon(protocol: &Protocol, rule: &Rule) -> Option<Soon> {
    let acts = rule.acts.iter().filter_map(|at| left_out(protocol, *at));
    let harm = acts.chain(rule.never.iter().filter_map(|at| broken(protocol, *at))).min();
    if rule.humane.is_some() {
        Some(Soon::End)
    } else if rule.need == Some(Need::Now) || harm == Some(Harm::Minutes) {
        Some(Soon::Minutes)
    } else if harm == Some(Harm::Hours) || rule.authority == Some(Authority::CallNow) {
        Some(Soon::Hours)
    } else {
        None
    }
}

/// How soon an act kills or maims if it is left out, where that is within hours.
pub fn left_out(protocol: &Protocol, act: ActionAt) -> Option<Harm> {
    protocol.action(act).left_out.filter(|harm| is_within_hours(*harm))
}

/// How soon a forbidden act kills or maims if it is done all the same, where that is within hours.
pub fn broken(protocol: &Protocol, ban: ActionAt) -> Option<Harm> {
    protocol.action(ban).forbidden.as_ref().map(|ban| ban.broken).filter(|harm| is_within_hours(*harm))
}

const fn is_within_hours(harm: Harm) -> bool {
    match harm {
        Harm::Minutes | Harm::Hours => true,
        Harm::Days | Harm::Slight => false,
    }
}

/// The step of the first question its condition rests on; the first step where it rests on none.
fn step(protocol: &Protocol, rule: &Rule) -> usize {
    let about = if rule.per_wound { About::Wound(0) } else { About::Bird };
    let read = protocol.rests_on(&rule.when, about, 1);
    // A rule of one wound is about wounds, whatever else it reads.
    let steps = read.iter().map(|asked| protocol.ask(asked.question));
    let of_wounds = steps.clone().find(|question| rule.per_wound && question.wound);
    of_wounds.or_else(|| steps.into_iter().next()).map_or(0, |question| question.step.nth())
}
