//! The three scales as numbered rungs, so that one piece of reasoning serves all of them.

use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};

/// One of the scales a verdict stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Scale {
    /// How soon skilled help is needed.
    Need,
    /// Whether a humane end has come into question.
    Humane,
    /// Whether an authority has to be called.
    Authority,
}

/// A rung, counted from 0 at the mildest.
pub type Rung = u8;

impl Scale {
    /// All three.
    pub const ALL: [Self; 3] = [Self::Need, Self::Humane, Self::Authority];

    /// The top rung.
    pub const fn top(self) -> Rung {
        match self {
            Self::Need => Need::Now as Rung,
            Self::Humane => Humane::Advised as Rung,
            Self::Authority => Authority::CallNow as Rung,
        }
    }

    /// The rung doubt alone can reach: a humane end may come into question, an authority may be asked.
    pub const fn most_in_doubt(self) -> Rung {
        match self {
            Self::Need => Need::Now as Rung,
            Self::Humane => Humane::MayComeIntoQuestion as Rung,
            Self::Authority => Authority::Ask as Rung,
        }
    }

    /// The rung a rule raises this scale to; 0 where it does not.
    pub fn of(self, rule: &Rule) -> Rung {
        match self {
            Self::Need => rule.need.unwrap_or_default() as Rung,
            Self::Humane => rule.humane.unwrap_or_default() as Rung,
            Self::Authority => rule.authority.unwrap_or_default() as Rung,
        }
    }

    /// The scale's name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Need => "need",
            Self::Humane => "humane_end",
            Self::Authority => "authority_call",
        }
    }

    /// The scale in plain words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Need => "need",
            Self::Humane => "humane end",
            Self::Authority => "authority",
        }
    }

    /// A rung in plain words.
    pub fn words(self, rung: Rung) -> &'static str {
        let at = usize::from(rung);
        match self {
            Self::Need => Need::ALL.get(at).map(|rung| rung.words()),
            Self::Humane => Humane::ALL.get(at).map(|rung| rung.words()),
            Self::Authority => Authority::ALL.get(at).map(|rung| rung.words()),
        }
        .unwrap_or_default()
    }
}
