//! What a protocol file may say: the shapes of RON, before anything is checked.

use super::scale::{Authority, Humane, Need, Severity, System};
use super::source::{Grade, Strength};
use serde::Deserialize;

/// The protocol's own facts, from `protocol.ron`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    pub version: String,
    pub caution: String,
    /// How long a bird may be in the hand before she is put down. Seconds.
    pub hold_s: u32,
    /// How soon she is looked at again while a vet is needed now.
    pub urgent_looks: Looks,
    /// When a bird should not be handled more than she must, and what is then said above every look that needs hands.
    pub spare_when: Cond,
    pub spare_say: String,
    pub hold_source: String,
    pub steps: Vec<Step>,
    pub lists: Vec<List>,
}

/// Signs that stand on one screen.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct List {
    pub id: String,
    pub ask: String,
    pub look: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    pub id: String,
    pub name: String,
    pub hands_on: bool,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    pub id: String,
    pub cite: String,
    #[serde(default)]
    pub at: String,
    pub grade: Grade,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Question {
    pub id: String,
    pub step: String,
    /// Two or three words for the summary: "inner eyelid".
    pub topic: String,
    pub ask: String,
    pub look: String,
    #[serde(default)]
    pub wound: bool,
    pub form: Form,
    /// Questions of one step that share a list stand on one screen.
    #[serde(default)]
    pub list: Option<String>,
    #[serde(default)]
    pub gives: Option<Measure>,
    #[serde(default)]
    pub applies: Option<Cond>,
    #[serde(default)]
    pub moot: Option<Cond>,
    pub source: String,
}

#[derive(Clone, Debug, Deserialize)]
pub enum Form {
    /// Answers from fine to worst.
    Ordered(Vec<Answer>),
    /// Answers without an order.
    Unordered(Vec<Answer>),
    /// A typed weight.
    Weight,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    pub id: String,
    pub say: String,
    #[serde(default)]
    pub band: Option<Span>,
    #[serde(default)]
    pub instruct: Option<String>,
}

/// What an answer is worth to a measure, low to high.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Span {
    Hours(u32, u32),
    SquareMillimetres(u32, u32),
}

/// The measures a protocol can speak of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Measure {
    /// Body weight.
    Weight,
    /// Time since the injury: of the wound in a wound's rule, else of the bird.
    TimeSince,
    /// The area of one wound.
    WoundArea,
    /// The share of skin open over all wounds.
    SkinOpen,
}

/// A value a measure is held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Amount {
    Grams(u32),
    Hours(u32),
    Percent(u32),
}

#[derive(Clone, Debug, Deserialize)]
pub enum Cond {
    /// Holds for every bird.
    Always,
    /// The question has this answer.
    Is(String, String),
    /// The question has one of these answers.
    OneOf(String, Vec<String>),
    /// The ordered question has this answer or a worse one.
    AtLeast(String, String),
    All(Vec<Cond>),
    Any(Vec<Cond>),
    Not(Box<Cond>),
    /// At least this many of these hold.
    Count(usize, Vec<Cond>),
    /// Some wound fulfils this.
    SomeWound(Box<Cond>),
    MeasureAtLeast(Measure, Amount),
    MeasureUnder(Measure, Amount),
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rule {
    pub id: String,
    pub when: Cond,
    /// Named exceptions: any of them, answered, holds the rule back.
    #[serde(default)]
    pub unless: Vec<Cond>,
    #[serde(default)]
    pub need: Option<Need>,
    #[serde(default)]
    pub humane: Option<Humane>,
    #[serde(default)]
    pub authority: Option<Authority>,
    #[serde(default)]
    pub severity: Vec<(System, Severity)>,
    #[serde(default)]
    pub acts: Vec<String>,
    #[serde(default)]
    pub never: Vec<String>,
    #[serde(default)]
    pub watch: Vec<String>,
    #[serde(default)]
    pub by: Option<By>,
    #[serde(default)]
    pub looks: Vec<Looks>,
    pub reason: String,
    pub finding: Basis,
    pub advice: Advice,
    /// The kind a figure is borrowed from, where it is not poultry.
    #[serde(default)]
    pub borrowed: Option<String>,
}

/// Something that has to be done by some hour.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct By {
    pub what: String,
    pub hours: u32,
}

/// Look again every so many minutes, until so many hours have gone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Looks {
    pub every_min: u32,
    pub until_h: u32,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Basis {
    pub source: String,
    pub strength: Strength,
}

#[derive(Clone, Debug, Deserialize)]
pub enum Advice {
    /// The named source itself recommends it.
    Says(String),
    /// Our inference, unreviewed.
    Ours,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Action {
    pub id: String,
    pub verb: String,
    pub place: String,
    #[serde(default)]
    pub means: String,
    /// The line on screen, at most eight words.
    pub say: String,
    /// A sentence or two more, for the plan.
    pub how: String,
    /// What to do instead, for an action some rule forbids.
    #[serde(default)]
    pub instead: String,
    /// Whether it comes before any phone call.
    #[serde(default)]
    pub at_once: bool,
    /// Whether it is done to one wound, so that what is said of one wound leaves the others alone.
    #[serde(default)]
    pub wound: bool,
    pub source: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Watch {
    pub id: String,
    pub say: String,
    pub source: String,
}

/// Two actions that must not be advised together; `keep` stays.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conflict {
    pub keep: String,
    pub drop: String,
    /// Why; left out where `keep` says the same and more, so that nothing is lost.
    #[serde(default)]
    pub because: String,
}

/// Where `never` is forbidden, `drop` is not advised either.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RulesOut {
    pub never: String,
    pub drop: String,
    pub because: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Instruction {
    pub id: String,
    pub title: String,
    pub acts: Vec<String>,
    pub never: Vec<String>,
    #[serde(default)]
    pub timer_s: Option<u32>,
    /// What to do when the time is up.
    #[serde(default)]
    pub after: String,
    /// The question that is asked when it has been carried out.
    #[serde(default)]
    pub then: Option<String>,
    pub source: String,
}

/// Two answers that cannot both be true of one bird.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exclusion {
    pub id: String,
    pub one: (String, String),
    pub other: (String, String),
    pub say: String,
}

/// A paragraph of the plan that is always told in full, under a heading.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paragraph {
    pub id: String,
    pub title: String,
    pub lines: Vec<String>,
    pub source: String,
    pub strength: Strength,
}
