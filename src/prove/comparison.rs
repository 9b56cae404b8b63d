//! The comparison of a protocol with another, rule by rule: where it is milder. Which of the two is right no proof can tell.

use super::scales::Scale;
use crate::protocol::Protocol;
use crate::protocol::rule::Rule;

/// Where `own` is milder than `other`, by rules of the same name: gone, lower on a scale, or with an exception more.
pub fn milder(own: &Protocol, other: &Protocol) -> Vec<String> {
    let rule_of = |id| own.rules.iter().find(|rule| rule.id == id);
    other
        .rules
        .iter()
        .flat_map(|rule| match rule_of(rule.id.clone()) {
            None => vec![format!("rule `{}` is gone", rule.id)],
            Some(ours) => lower(ours, rule),
        })
        .collect()
}

fn lower(ours: &Rule, theirs: &Rule) -> Vec<String> {
    let id = &ours.id;
    let scales = Scale::ALL.into_iter().filter(|scale| scale.of(ours) < scale.of(theirs)).map(|scale| {
        let [here, there] = [ours, theirs].map(|rule| scale.words(scale.of(rule)));
        format!("rule `{id}`, {}: {here} instead of {there}", scale.name())
    });
    let excused = (ours.unless.len() > theirs.unless.len()).then(|| format!("rule `{id}` has an exception more"));
    let allowed = theirs.never.len().saturating_sub(ours.never.len());
    let allowed = (allowed > 0).then(|| format!("rule `{id}` forbids {allowed} fewer"));
    scales.chain(excused).chain(allowed).collect()
}
