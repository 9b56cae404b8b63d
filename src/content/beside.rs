//! What stands beside a figure: signs of the same part of the body that weigh more than the sum, or as well.

use crate::judge::Standing;
use crate::phrase::{Phrase, figures as phrase};
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, Threshold};
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Severity, System};
use crate::prove::Exact;
use std::collections::BTreeSet;

/// A measure, by the values rules hold it against.
pub type Of = fn(&Threshold) -> bool;

/// The blood that was seen.
pub const BLOOD: Of = |of| matches!(of, Threshold::BloodLost(_) | Threshold::BloodOfWeight(_));
/// The breaths that were counted.
pub const BREATHS: Of = |of| matches!(of, Threshold::BreathRate(_));
/// The skin that is open.
pub const SKIN: Of = |of| matches!(of, Threshold::SkinOpen(_));
/// What she lacks in water.
pub const DRYNESS: Of = |of| matches!(of, Threshold::Dryness(_));

/// How signs that a measure does not read stand to what it comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// They are graver.
    WeighMore,
    /// Graver ones could not be told.
    MayWeighMore,
    /// They are serious or grave, and no graver than the measure.
    CountToo,
}

impl Beside {
    /// In a sentence.
    pub const fn told(self) -> Phrase {
        match self {
            Self::WeighMore => phrase::weigh_more(),
            Self::MayWeighMore => phrase::may_weigh_more(),
            Self::CountToo => phrase::count_too(),
        }
    }

    /// Whether the sum by itself would look milder than she is.
    pub const fn is_graver(self) -> bool {
        match self {
            Self::WeighMore | Self::MayWeighMore => true,
            Self::CountToo => false,
        }
    }
}

/// Whether a rule holds a measure against a value.
pub fn reads(rule: &Rule, of: Of) -> bool {
    let mut found = false;
    rule.when.walk(&mut |cond| {
        found |= matches!(cond, Cond::AtLeast(threshold) | Cond::Under(threshold) if of(threshold));
    });
    found
}

/// What rules in force that do not read a measure say of the parts of the body it tells of, where that is serious or grave.
pub fn beside(protocol: &Protocol, verdict: &Exact, of: Of) -> Option<Beside> {
    let told_by_it = protocol.rules.iter().filter(|rule| reads(rule, of));
    let systems: BTreeSet<System> = told_by_it.flat_map(|rule| &rule.severity).map(|(system, _)| *system).collect();
    let gravest = |by_it: bool, doubt: bool| {
        let told = verdict.reasons.iter().filter(|reason| doubt || reason.standing != Standing::CouldNotTell);
        let rules = told.map(|reason| protocol.rule(reason.rule)).filter(|rule| reads(rule, of) == by_it);
        let grades = rules.flat_map(|rule| &rule.severity).filter(|(system, _)| systems.contains(system));
        grades.map(|(_, grade)| *grade).max().unwrap_or_default()
    };
    let (own, seen, most) = (gravest(true, true), gravest(false, false), gravest(false, true));
    if most < Severity::Serious {
        return None;
    }
    Some(match (seen > own, most > own) {
        (true, _) => Beside::WeighMore,
        (false, true) => Beside::MayWeighMore,
        (false, false) => Beside::CountToo,
    })
}
