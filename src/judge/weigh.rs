//! Weighing rules: for every subject a rule speaks of, whether it holds, may hold, or is held back.

use crate::protocol::Protocol;
use crate::protocol::rule::{Rule, RuleAt};
use crate::sheet::{Doubt, Sheet, Subject, Truth, Weigher};

/// How one rule came out for one subject.
#[derive(Clone, Copy, Debug)]
pub struct Weighed {
    pub rule: RuleAt,
    pub subject: Subject,
    /// Condition met and no exception, with doubt counted as the worst.
    pub worst: Truth,
    /// The same with doubt counted as nothing.
    pub sure: Truth,
    /// The condition by itself, doubt counted as the worst.
    pub when: Truth,
    /// The condition by itself, doubt counted as nothing.
    pub seen: Truth,
    /// The exceptions by themselves: `Yes` if one holds the rule back.
    pub held: Truth,
}

/// Weighs every rule for every subject it speaks of.
pub fn rules(protocol: &Protocol, sheet: &Sheet) -> Vec<Weighed> {
    let mut weighed = Vec::with_capacity(protocol.rules.len() * 2);
    for (at, rule) in protocol.rules_enumerated() {
        for subject in subjects(rule, sheet) {
            let (when, held) = parts(rule, sheet, subject, Doubt::CountsAsMet);
            let (seen, sure_held) = parts(rule, sheet, subject, Doubt::CountsAsUnmet);
            let (worst, sure) = (when.min(held.not()), seen.min(sure_held.not()));
            weighed.push(Weighed { rule: at, subject, worst, sure, when, seen, held });
        }
    }
    weighed
}

/// What a rule speaks of: the bird, or each wound found and, while the look-over is unfinished, one that is not.
pub fn subjects(rule: &Rule, sheet: &Sheet) -> impl Iterator<Item = Subject> + use<> {
    let (bird, wounds) = if rule.per_wound { (None, sheet.wounds()) } else { (Some(Subject::Bird), 0) };
    let unfound = (rule.per_wound && !sheet.looked_over()).then_some(Subject::Unfound);
    bird.into_iter().chain((0..wounds).map(Subject::Wound)).chain(unfound)
}

/// The condition and the exceptions, each by itself.
fn parts(rule: &Rule, sheet: &Sheet, subject: Subject, doubt: Doubt) -> (Truth, Truth) {
    let under = Weigher { sheet, doubt };
    let mut when = under.holds(&rule.when, subject, true);
    if subject == Subject::Unfound {
        // A wound nobody has found decides nothing; it only leaves room above.
        when = when.min(Truth::Open);
    }
    (when, Truth::any(rule.unless.iter().map(|cond| under.holds(cond, subject, false))))
}

/// Condition met and no exception, with doubt counted as the worst.
pub fn worst(rule: &Rule, sheet: &Sheet, subject: Subject) -> Truth {
    whole(rule, sheet, subject, Doubt::CountsAsMet)
}

/// The same with doubt counted as nothing.
pub fn sure(rule: &Rule, sheet: &Sheet, subject: Subject) -> Truth {
    whole(rule, sheet, subject, Doubt::CountsAsUnmet)
}

fn whole(rule: &Rule, sheet: &Sheet, subject: Subject, doubt: Doubt) -> Truth {
    let under = Weigher { sheet, doubt };
    let mut when = under.holds(&rule.when, subject, true);
    if subject == Subject::Unfound {
        when = when.min(Truth::Open);
    }
    if when == Truth::No {
        return when;
    }
    when.min(Truth::any(rule.unless.iter().map(|cond| under.holds(cond, subject, false))).not())
}
