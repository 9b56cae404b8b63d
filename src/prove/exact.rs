//! The verdicts everything above this room takes: the judge's, its three scales made exact, without and with what is still open.

use crate::judge::{Open, Verdict};
use crate::protocol::question::Asked;
use std::ops::Deref;

/// A verdict whose scales name no rung that no bird with these findings comes to, as far as the work at a key press allows;
/// where it does not, they are the judge's own, never too narrow. Only this room makes one, so that whatever is told of a bird,
/// in a list, on a sheet or of a later look, is told from the same bands. It does not say what is still open: [`Whole`] does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Exact(Verdict);

impl Exact {
    /// What was narrowed to the exact bands.
    pub(super) const fn of(verdict: Verdict) -> Self {
        Self(verdict)
    }
}

impl Deref for Exact {
    type Target = Verdict;

    fn deref(&self) -> &Verdict {
        &self.0
    }
}

/// An exact verdict with what can still change it. Whoever tells what is open takes this: of a verdict nobody looked for open
/// questions of, there is no list that could be read as "nothing".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Whole {
    exact: Exact,
    /// Questions whose answers can change an outcome, in the order of asking.
    pub open: Vec<Asked>,
    /// Whether a wound not yet found can.
    pub open_wounds: bool,
}

impl Whole {
    /// An exact verdict and what was found to be open.
    pub(super) fn of(exact: Exact, open: Open) -> Self {
        Self { exact, open: open.questions, open_wounds: open.wounds }
    }
}

impl Deref for Whole {
    type Target = Exact;

    fn deref(&self) -> &Exact {
        &self.exact
    }
}
