//! How large a protocol may be: far beyond what anybody could check by reading, and small enough to be told of at once. And how
//! long its texts may be, for one who is frightened.

/// The most all its files hold together. Bytes.
pub const MOST_BYTES: usize = 8 << 20;

/// The most files.
pub const MOST_FILES: usize = 1_000;

/// The most items of one sort, as rules or questions.
pub const MOST_ITEMS: usize = 16_384;

/// The most parts of one condition, once every name in it stands for its own words.
pub const MOST_PARTS: usize = 1_000;

/// The most one item holds. Bytes.
pub const MOST_IN_ONE: usize = 64 << 10;

/// The latest hour looks and rounds go on until: 60 days.
pub const LAST_HOUR: u32 = 60 * 24;

/// The longest a timer runs. Seconds: one hour.
pub const LONGEST_TIMER: u32 = 3_600;

/// The most words a question asks with.
pub const MOST_ASKED: usize = 12;

/// The most words an answer has.
pub const MOST_ANSWERED: usize = 7;

/// The most words a sentence has that tells to do, to look at or to leave something.
pub const MOST_INSTRUCTED: usize = 12;

/// The most words a line of "do now" has.
pub const MOST_SAID: usize = 8;

/// The most letters it has, blanks among them: what a phone shows without cutting it.
pub const WIDEST_SAID: usize = 36;

/// The most words a sentence has that tells why a rule moves a scale.
pub const MOST_REASONED: usize = 18;

/// The most words a topic has: what a question is called in a summary.
pub const MOST_CALLED: usize = 6;
