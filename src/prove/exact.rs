//! The verdict everything above this room takes: the judge's, its three scales made exact.

use crate::judge::Verdict;
use std::ops::Deref;

/// A verdict whose scales name no rung that no bird with these findings comes to, as far as the work at a key press allows;
/// where it does not, they are the judge's own, never too narrow. Only this room makes one, so that whatever is told of a bird,
/// in a list, on a sheet or of a later look, is told from the same bands.
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
