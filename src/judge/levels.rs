//! Levels: where a bird stands on the three scales, raised rule by rule, the gravest first.

use super::verdict::{Level, Levels};
use super::weigh;
use crate::protocol::Protocol;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::sheet::{Sheet, Truth};

impl Levels {
    /// Where a bird stands of whom no rule says anything.
    pub(super) fn mildest() -> Self {
        Self {
            need: Level::exactly(Need::default()),
            humane: Level::exactly(Humane::default()),
            authority: Level::exactly(Authority::default()),
        }
    }

    /// Whether a rule can raise anything that does not stand as high already.
    pub(super) fn could_be_raised_by(self, rule: &Rule) -> bool {
        rule.need.is_some_and(|rung| rung > self.need.low)
            || rule.humane.is_some_and(|rung| rung > self.humane.low)
            || rule.authority.is_some_and(|rung| rung > self.authority.low)
    }

    /// Raises what a rule moves: where it holds the floor, where it may yet hold the ceiling.
    ///
    /// A humane end may come into question because something could not be told, but is never advised for it; an authority may
    /// be asked, but is never called out. `sure` is the rule weighed with doubt counted as nothing: never more than `worst`.
    pub(super) fn raise(&mut self, rule: &Rule, worst: Truth, sure: impl Fn() -> Truth) {
        if worst == Truth::No {
            return;
        }
        if let Some(rung) = rule.need {
            raise(&mut self.need, rung, rung, worst, Truth::No);
        }
        if let Some(rung) = rule.humane {
            raise(&mut self.humane, rung, rung.min(Humane::MayComeIntoQuestion), worst, sure());
        }
        if let Some(rung) = rule.authority {
            raise(&mut self.authority, rung, rung.min(Authority::Ask), worst, sure());
        }
    }
}

/// Raises one scale to `rung` as far as a rule surely holds, and to `in_doubt` as far as doubt counts.
fn raise<T: Copy + Ord>(level: &mut Level<T>, rung: T, in_doubt: T, worst: Truth, sure: Truth) {
    match sure {
        Truth::Yes => level.low = level.low.max(rung),
        Truth::Open | Truth::No if worst == Truth::Yes => level.low = level.low.max(in_doubt),
        Truth::Open | Truth::No => {}
    }
    let ceiling = if sure == Truth::No { in_doubt } else { rung };
    level.high = level.high.max(ceiling).max(level.low);
}

/// Where a bird stands, and nothing else. A rule that could raise nothing any more is not weighed.
pub fn levels(protocol: &Protocol, sheet: &Sheet) -> Levels {
    let mut levels = Levels::mildest();
    for at in protocol.gravest_first() {
        let rule = protocol.rule(*at);
        if !levels.could_be_raised_by(rule) {
            continue;
        }
        for subject in weigh::subjects(rule, sheet) {
            let worst = weigh::worst(rule, sheet, subject);
            levels.raise(rule, worst, || weigh::sure(rule, sheet, subject));
        }
    }
    levels
}
