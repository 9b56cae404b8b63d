//! From rules in force to what is done, what is never done, what was ruled out, and what has to wait for an answer.

use super::force::{Force, about, unanswered};
use super::verdict::{Advised, Dropped, Forbidden, Later, Reason, Target, Waiting};
use super::weigh::Weighed;
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::action::InDoubt;
use crate::protocol::question::Asked;
use crate::protocol::rule::{ActionAt, Conflict, Rule};
use crate::sheet::{Sheet, Truth};
use std::collections::{BTreeMap, BTreeSet};

/// Everything about actions that goes into a verdict.
pub struct Actions {
    pub acts: Vec<Advised>,
    pub never: Vec<Forbidden>,
    pub dropped: Vec<Dropped>,
    pub waiting: Vec<Waiting>,
    pub later: Vec<Later>,
}

/// Gathers the actions.
pub fn gather(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed], force: &[Force]) -> Actions {
    let never = forbidden(protocol, force);
    // Doubt raises need and forbids; it never tells anybody to do a thing to a bird; what does nothing to her is told.
    let mut acts = by(protocol, force.iter().filter(|in_force| in_force.seen), |rule| &rule.acts);
    let doubtful = by(protocol, force.iter().filter(|in_force| !in_force.seen), |rule| &rule.acts);
    for (target, because) in
        doubtful.into_iter().filter(|(target, _)| protocol.action(target.action).in_doubt == InDoubt::Told)
    {
        acts.entry(target).or_default().extend(because);
    }
    to_its_wounds(protocol, sheet, &mut acts);
    let mut dropped = Vec::new();
    never_beats_do(protocol, &never, &mut acts, &mut dropped);
    let waiting = wait(protocol, sheet, weighed, &mut acts);
    let later = not_yet(protocol, sheet, &mut acts);
    settle_conflicts(protocol, &mut acts, &mut dropped);
    let waiting = still_wanted(protocol, &acts, waiting);
    Actions {
        acts: acts.into_iter().map(|(target, because)| Advised { target, because }).collect(),
        never,
        dropped,
        waiting,
        later,
    }
}

type ByTarget = BTreeMap<Target, Vec<Reason>>;

fn by<'f>(
    protocol: &Protocol,
    force: impl Iterator<Item = &'f Force<'f>>,
    named: impl Fn(&Rule) -> &[ActionAt],
) -> ByTarget {
    let mut found = ByTarget::new();
    for in_force in force {
        for action in named(in_force.rule) {
            found.entry(target(protocol, *action, in_force.reason.about)).or_default().push(in_force.reason);
        }
    }
    // What is said of the whole bird holds for each of her wounds, and is said once; what has a line of its own by the place of a
    // wound is said of each.
    let by_place = |target: &Target| !protocol.action(target.action).fits.is_empty();
    let of_wounds = found.keys().copied().filter(|target| target.wound.is_some() && !by_place(target));
    let of_wounds: Vec<Target> = of_wounds.collect();
    for target in of_wounds {
        let whole = Target { wound: None, ..target };
        if found.contains_key(&whole) {
            let because = found.remove(&target).unwrap_or_default();
            found.entry(whole).or_default().extend(because);
        }
    }
    found
}

/// Once she has been looked over, what was said of a place not known yet is said of the wounds alone: by the same action, or by one
/// that stands in for it.
fn to_its_wounds(protocol: &Protocol, sheet: &Sheet, acts: &mut ByTarget) {
    if !sheet.looked_over() {
        return;
    }
    let placeless: Vec<Target> =
        acts.keys().copied().filter(|act| act.wound.is_none() && protocol.action(act.action).wound).collect();
    for whole in placeless {
        let stands_in = |act: &Target| {
            act.wound.is_some()
                && (act.action == whole.action || protocol.action(act.action).replaces.contains(&whole.action))
        };
        let wounds: Vec<Target> = acts.keys().copied().filter(stands_in).collect();
        if wounds.is_empty() {
            continue;
        }
        let because = acts.remove(&whole).unwrap_or_default();
        for wound in wounds {
            acts.entry(wound).or_default().extend(because.iter().copied());
        }
    }
}

/// Holds back what waits for something to be seen.
fn not_yet(protocol: &Protocol, sheet: &Sheet, acts: &mut ByTarget) -> Vec<Later> {
    let waits = |target: &Target| {
        let opens = protocol.action(target.action).opens.as_ref();
        opens.is_some_and(|opens| !sheet.surely(&opens.when, target.subject()))
    };
    let later: Vec<Target> = acts.keys().copied().filter(waits).collect();
    let taken = |target: Target| Later { target, because: acts.remove(&target).unwrap_or_default() };
    later.into_iter().map(taken).collect()
}

fn target(protocol: &Protocol, action: ActionAt, about: About) -> Target {
    let wound = match about {
        About::Wound(number) if protocol.action(action).wound => Some(number),
        About::Wound(_) | About::Bird => None,
    };
    Target { action, wound }
}

fn forbidden(protocol: &Protocol, force: &[Force]) -> Vec<Forbidden> {
    let mut found: Vec<Forbidden> = by(protocol, force.iter(), |rule| &rule.never)
        .into_iter()
        .map(|(target, because)| Forbidden { target, because })
        .collect();
    // The gravest rule in force puts its own nevers first.
    found.sort_by_key(|forbidden| force.iter().position(|in_force| forbidden.because.contains(&in_force.reason)));
    found
}

/// Takes out what is forbidden, and what a forbidden action drags along.
fn never_beats_do(protocol: &Protocol, never: &[Forbidden], acts: &mut ByTarget, dropped: &mut Vec<Dropped>) {
    let mut rule_out = |target: Target, action: ActionAt, because: &dyn Fn() -> String| {
        let goes = |act: &Target| act.action == action && act.meets(target);
        remove(acts, goes, |target| dropped.push(Dropped { target, because: because() }));
    };
    // What is forbidden itself is told by its own ban before it is told by another's: an eye is not rinsed once she is stronger.
    for Forbidden { target, because } in never {
        let why = || because.first().map_or_else(String::new, |reason| protocol.rule(reason.rule).reason.clone());
        rule_out(*target, target.action, &why);
    }
    for Forbidden { target, .. } in never {
        for out in protocol.rules_out.iter().filter(|out| out.never == target.action) {
            rule_out(*target, out.drop, &|| out.because.clone());
        }
    }
}

/// Of two actions in declared conflict one goes.
fn settle_conflicts(protocol: &Protocol, acts: &mut ByTarget, dropped: &mut Vec<Dropped>) {
    for conflict in &protocol.conflicts {
        let kept: Vec<Target> = acts.keys().copied().filter(|act| act.action == conflict.keep).collect();
        let goes = |act: &Target| act.action == conflict.drop && kept.iter().any(|keep| keep.meets(*act));
        remove(acts, goes, |target| {
            if !conflict.because.is_empty() {
                dropped.push(Dropped { target, because: conflict.because.clone() });
            }
        });
    }
}

/// What waits for an answer, but for what would stand back for an act that is done anyway: a chick's heat does not wait for a hen's box.
fn still_wanted(protocol: &Protocol, acts: &ByTarget, waiting: Vec<Waiting>) -> Vec<Waiting> {
    let stands_back = |target: Target| {
        // Where one stands in for the other without a word; what stands back for a reason is told, and waits with it.
        let silent = |conflict: &&Conflict| conflict.drop == target.action && conflict.because.is_empty();
        let kept = |conflict: &Conflict| acts.keys().any(|act| act.action == conflict.keep && act.meets(target));
        protocol.conflicts.iter().filter(silent).any(kept)
    };
    waiting.into_iter().filter(|waits| !stands_back(waits.target)).collect()
}

fn remove(acts: &mut ByTarget, goes: impl Fn(&Target) -> bool, mut gone: impl FnMut(Target)) {
    acts.retain(|target, _| {
        let goes = goes(target);
        if goes {
            gone(*target);
        }
        !goes
    });
}

/// Holds back what an open rule could still forbid, and says which questions decide. What cannot wait does not.
fn wait(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed], acts: &mut ByTarget) -> Vec<Waiting> {
    let mut waiting = Vec::new();
    let targets: Vec<Target> = acts.keys().copied().filter(|act| !protocol.action(act.action).at_once).collect();
    for act in targets {
        let mut ask: BTreeSet<Asked> = BTreeSet::new();
        for w in weighed.iter().filter(|w| w.when == Truth::Open && w.held != Truth::Yes) {
            let Some(about) = about(w.subject) else { continue };
            let rule = protocol.rule(w.rule);
            let forbids = |never: &ActionAt| {
                let dragged = protocol.rules_out.iter().any(|out| out.never == *never && out.drop == act.action);
                (*never == act.action || dragged) && target(protocol, *never, about).meets(act)
            };
            if rule.never.iter().any(forbids) {
                ask.extend(unanswered(protocol, sheet, &rule.when, about));
            }
        }
        // What is never asked of such a bird would hold it back for ever.
        ask.retain(|asked| !sheet.is_moot(*asked));
        if !ask.is_empty() {
            acts.remove(&act);
            waiting.push(Waiting { target: act, ask: ask.into_iter().collect() });
        }
    }
    waiting
}
