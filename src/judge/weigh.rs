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
    those(protocol, sheet, |_| true)
}

/// Weighs some of the rules.
pub fn those(protocol: &Protocol, sheet: &Sheet, wanted: impl Fn(&Rule) -> bool) -> Vec<Weighed> {
    let mut weighed = Vec::with_capacity(protocol.rules.len() * 2);
    for (at, rule) in (0u16..).map(RuleAt).zip(&protocol.rules).filter(|(_, rule)| wanted(rule)) {
        let subjects = if rule.per_wound {
            let unfound = (!sheet.looked_over()).then_some(Subject::Unfound);
            (0..sheet.wounds()).map(Subject::Wound).chain(unfound).collect()
        } else {
            vec![Subject::Bird]
        };
        for subject in subjects {
            let weigh = |doubt| {
                let under = Weigher { sheet, doubt };
                let when = under.holds(&rule.when, subject, true);
                let held = rule.unless.iter().map(|cond| under.holds(cond, subject, false)).max();
                (when, held.unwrap_or(Truth::No))
            };
            let (mut when, held) = weigh(Doubt::CountsAsMet);
            let (mut sure_when, sure_held) = weigh(Doubt::CountsAsUnmet);
            if subject == Subject::Unfound {
                // A wound nobody has found decides nothing; it only leaves room above.
                when = when.min(Truth::Open);
                sure_when = sure_when.min(Truth::Open);
            }
            weighed.push(Weighed {
                rule: at,
                subject,
                worst: when.min(held.not()),
                sure: sure_when.min(sure_held.not()),
                when,
                seen: sure_when,
                held,
            });
        }
    }
    weighed
}
