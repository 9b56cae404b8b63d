//! A key, as it is told outside the screen.

use crate::phrase::{Phrase, Text};

/// Where keys work, which they are, and what they do there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyTold {
    /// Where.
    pub place: Phrase,
    /// The keys, each by what stands on it.
    pub keys: Vec<Text>,
    /// What they do.
    pub does: Phrase,
}
