//! The other birds, as far as they were asked for, and how keeping goes.

use crate::days::due::{Running, Waits};
use crate::ledger::{CaseId, Covered, Filter};
use crate::phrase::Text;
use chrono::{DateTime, Utc};

/// The birds that are kept, as far as they were asked for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Flock {
    /// Which are asked for.
    pub filter: Filter,
    /// The first of them.
    pub cases: Vec<Covered>,
    /// How many there are in all.
    pub all: usize,
    /// Whether they were listed yet: before that nobody can tell how many there are.
    pub is_listed: bool,
    /// Those that are due a look now or soon, the soonest first.
    pub waiting: Waits,
    /// Whether they are for practice.
    pub practice: bool,
    /// The case another window went on with, while that is asked about.
    pub parted: Option<CaseId>,
    /// The clocks that run for other birds than the one that lies open.
    pub clocks: Vec<Running>,
    /// The clocks that were ended here or told of as gone by.
    pub done_with: Vec<Running>,
    /// The figures typed so far of the number a bird bears.
    pub typed: String,
}

/// How keeping goes.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Keeping {
    /// How many events are not on disk yet.
    pub waiting: usize,
    /// When the last one reached the disk.
    pub last: Option<DateTime<Utc>>,
    /// What the disk said, while it refuses.
    pub refusal: Option<Text>,
}
