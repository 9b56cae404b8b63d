//! What a person said of one bird: the ground truth from which everything else is worked out again.

pub mod doubt;
pub mod figure;
pub mod kind;
pub mod log;
pub mod particular;

use chrono::{DateTime, TimeDelta, Utc};
use figure::Figure;
use serde::{Deserialize, Serialize};
use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

/// The name of a question, an answer, a rule or an action, as the protocol spells it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Id(Arc<str>);

impl Id {
    /// The name as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl From<&str> for Id {
    fn from(text: &str) -> Self {
        Self(text.into())
    }
}

impl Borrow<str> for Id {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl PartialEq<str> for Id {
    fn eq(&self, other: &str) -> bool {
        self.as_str() == other
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// What a question is about: the bird, or one of her wounds, counted from 0 in the order they were found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum About {
    /// The whole bird.
    Bird,
    /// The wound with this number, from 0.
    Wound(usize),
}

/// What was answered. *Not yet asked* is the absence of an answer; *does not apply* is never said but worked out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// One of the question's answers.
    Choice(Id),
    /// A typed amount in the base unit of the question, for example grams.
    Amount(u32),
    /// What was counted, measured or added up, in place of an answer by eye.
    Figure(Figure),
    /// The person looked and could not tell: a final answer, and never "fine".
    CannotTell,
}

/// One answer to one question.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Statement {
    /// The bird or a wound.
    pub about: About,
    /// The question that was asked.
    pub question: Id,
    /// What was answered.
    pub answer: Answer,
}

/// A statement and when it was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// What was said.
    pub statement: Statement,
    /// When.
    pub at: DateTime<Utc>,
}

/// An examination's findings: an ordered list of what was said, the last answer to a question winning.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    said: Vec<Said>,
    wounds: usize,
    looked_over: bool,
}

impl Findings {
    /// Adds an answer. Speaking of a wound that is not listed yet lists it, and any before it.
    pub fn say(&mut self, statement: Statement, at: DateTime<Utc>) {
        if let About::Wound(number) = statement.about {
            self.wounds = self.wounds.max(number.saturating_add(1));
        }
        self.said.push(Said { statement, at });
    }

    /// Lists one more wound and returns its number. Where there was one more than thought, there may be others.
    pub fn find_wound(&mut self) -> usize {
        self.looked_over = false;
        self.wounds += 1;
        self.wounds - 1
    }

    /// Says that the whole bird has been looked over: no further wound will be found.
    pub fn look_over(&mut self) {
        self.looked_over = true;
    }

    /// The same findings as if all had been said at this moment.
    #[must_use]
    pub fn as_of(&self, at: DateTime<Utc>) -> Self {
        let said = self.said.iter().map(|said| Said { statement: said.statement.clone(), at });
        Self { said: said.collect(), ..*self }
    }

    /// How many wounds have been found.
    pub fn wounds(&self) -> usize {
        self.wounds
    }

    /// Whether the look-over for wounds is finished.
    pub fn looked_over(&self) -> bool {
        self.looked_over
    }

    /// Everything said, oldest first, answers given twice included.
    pub fn said(&self) -> &[Said] {
        &self.said
    }

    /// The standing answer to a question, if it has been asked.
    pub fn answer(&self, about: About, question: &str) -> Option<&Said> {
        self.said.iter().rev().find(|said| said.statement.about == about && said.statement.question == *question)
    }

    /// The answers to a question over time, in the order they were given. Of answers within an hour of each other only the
    /// last counts: it corrects the ones before.
    pub fn over_time(&self, about: About, question: &Id) -> Vec<&Said> {
        let mut over: Vec<&Said> = Vec::new();
        for said in
            self.said.iter().filter(|said| said.statement.about == about && said.statement.question == *question)
        {
            if over.last().is_some_and(|before| (said.at - before.at).abs() < TimeDelta::hours(1)) {
                over.pop();
            }
            over.push(said);
        }
        over
    }
}
