//! What RON may say of a question: how it is asked, what may be answered, and when it is asked again.

use super::Cond;
use crate::protocol::cond::Measure;
use crate::protocol::question::{Again, Reach, Span};
use serde::Deserialize;

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
    /// Whether she has to be touched for it: a bird that may not bear handling is not asked about it.
    #[serde(default)]
    pub touches: bool,
    pub form: Form,
    /// Questions of one step that share a list stand on one screen.
    #[serde(default)]
    pub list: Option<String>,
    #[serde(default)]
    pub gives: Option<Measure>,
    /// Other words for kinds that are looked at differently.
    #[serde(default)]
    pub for_kinds: Vec<Wording>,
    #[serde(default)]
    pub applies: Option<Cond>,
    #[serde(default)]
    pub moot: Option<Cond>,
    /// When it is asked at all; what could not be told counts as so. Judging does not look at this either.
    #[serde(default)]
    pub asked_if: Option<Cond>,
    /// When it is asked again at a later look; where nothing is said, an ordered question while its last answer is not fine.
    #[serde(default)]
    pub again: Option<Again>,
    /// What its answer is worked out from, where nobody is asked.
    #[serde(default)]
    pub worked_out: Option<Course>,
    /// The question about the bird that asks the same in general: what was said there is shown beside the answer alike.
    #[serde(default)]
    pub asks_after: Option<String>,
    /// The question whose answer is told more fully by this one's. It decides nothing.
    #[serde(default)]
    pub adds_to: Option<String>,
    /// Whether it asks how a sign goes on, and so only of a bird that was seen to have it. Where that could not be told, this
    /// is not asked either, and counts as not to be told.
    #[serde(default)]
    pub of_seen: bool,
    /// When a bird of practice shows it, where nobody wrote down whether she does: what one sees before any look comes from what
    /// is so of her. Judging does not look at this.
    #[serde(default)]
    pub shown_if: Option<Cond>,
    #[serde(default)]
    pub source: Option<String>,
}

/// What two answers, or two looks at her, come to, where nobody is asked.
#[derive(Clone, Debug, Deserialize)]
pub enum Course {
    /// How much of her best weight has gone: its steps are the question's answers.
    WeightGone,
    /// Whether a wound has grown.
    WoundGrown,
    /// Whether an answer that has been changed since was one of these, so many minutes ago at most.
    Was { so: Cond, within_min: u32 },
}

/// What is asked of some kinds instead; what is left out stays as it is.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wording {
    pub kinds: Vec<String>,
    #[serde(default)]
    pub ask: Option<String>,
    #[serde(default)]
    pub look: Option<String>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Form {
    /// Answers from fine to worst.
    Ordered(Vec<Answer>),
    /// Answers without an order.
    Unordered(Vec<Answer>),
    /// A sign that is seen or not.
    YesNo {
        /// What is said where it is seen.
        say: String,
        /// What is said where it is not, if more than "no".
        #[serde(default)]
        no: Option<String>,
        /// How many birds in a hundred have it.
        #[serde(default)]
        often: Option<u32>,
        #[serde(default)]
        instruct: Option<String>,
    },
    /// A typed weight; without a scale, one of the builds of her kind.
    Weight,
}

impl Form {
    /// Whether the answers run from fine to worst.
    pub const fn is_ordered(&self) -> bool {
        match self {
            Self::Ordered(_) | Self::YesNo { .. } => true,
            Self::Unordered(_) | Self::Weight => false,
        }
    }

    /// What the answers are called, in order; none of a typed weight.
    pub fn ids<'a>(&'a self, called: &'a YesNo) -> Vec<&'a str> {
        match self {
            Self::Ordered(answers) | Self::Unordered(answers) => {
                answers.iter().map(|answer| answer.id.as_str()).collect()
            }
            Self::YesNo { .. } => vec![&called.no, &called.yes],
            Self::Weight => Vec::new(),
        }
    }

    /// The answers, in order; none of a typed weight. What the answers of a question for one sign are called is told.
    pub fn answers(self, called: &YesNo) -> Vec<Answer> {
        match self {
            Self::Ordered(answers) | Self::Unordered(answers) => answers,
            Self::YesNo { say, no, often, instruct } => {
                let share = |yes: u32| (Some(100u32.saturating_sub(yes)), Some(yes));
                let (rest, often) = often.map_or((None, None), share);
                let answer = |id: &str, say, often, instruct| Answer {
                    id: id.to_owned(),
                    say,
                    often,
                    instruct,
                    band: None,
                    reach: None,
                };
                vec![
                    answer(&called.no, no.unwrap_or_else(|| called.not_seen.clone()), rest, None),
                    answer(&called.yes, say, often, instruct),
                ]
            }
            Self::Weight => Vec::new(),
        }
    }
}

/// What the answers of a question that is asked for one sign are called.
#[derive(Clone, Debug)]
pub struct YesNo {
    pub yes: String,
    pub no: String,
    /// What is said where it is not seen.
    pub not_seen: String,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    pub id: String,
    pub say: String,
    /// Its share against the others; where none of a question says one, the more answers are in order the rarer the last.
    #[serde(default)]
    pub often: Option<u32>,
    #[serde(default)]
    pub band: Option<Span>,
    #[serde(default)]
    pub instruct: Option<String>,
    /// How soon a vet can see her, where the question asks for that.
    #[serde(default)]
    pub reach: Option<Reach>,
}
