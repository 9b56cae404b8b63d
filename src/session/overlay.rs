//! What fills the screen, and what lies on top of it.

use super::context::Context;
use crate::protocol::question::Step;
use crate::protocol::table::At;

/// Which document or question fills the screen below the overlays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The place the examination stands at.
    Exam,
    /// The verdict.
    Verdict,
    /// A card of the course.
    Course,
    /// The plan.
    Plan,
}

/// What lies on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Overlay {
    /// How to look, and the keys.
    Help,
    /// Why the verdict is what it is, or why this line of the document below stands.
    Why(Option<usize>),
    /// The steps, or the questions of one.
    Map(Option<At<Step>>),
    /// The countries to choose from.
    Countries,
    /// The sums, or one of them with its values.
    Sums(Option<usize>),
    /// What is in the house.
    House,
    /// The birds that are kept.
    Flock,
    /// What can be done with this bird's case.
    Case,
    /// The ways a case can end.
    Outcomes,
    /// Whether she is dead, before her case is closed so.
    Death,
    /// Two windows went on with one bird: with which this one goes on.
    Parted,
    /// The lessons.
    Lessons,
    /// What can be done to the practice bird.
    Deeds,
    /// A verdict of the novice's own, scale by scale.
    Judging,
    /// One of two examinations of one bird is over.
    HandOver,
    /// What a vet will ask that no look at her answers.
    Particulars,
    /// Whom to call.
    Contacts,
    /// A page to read.
    Page(Page),
}

/// A page to read, from which nothing is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Page {
    /// What the law of the country says.
    Law,
    /// Every source, how well it is known, and what is borrowed.
    Basis,
    /// A sum's answer in full.
    Answer(usize),
    /// What to have in the house, and why.
    Kit,
    /// A product's label: typed, then ruled on.
    Label,
    /// Her body, with her wounds.
    Body,
    /// Her days: looks, weights, wounds, need.
    Days,
    /// A practice go, talked over.
    Debrief,
    /// How all goes went.
    Group,
    /// How two examinations of one bird compare.
    Agreement,
    /// The sheet she is handed over with.
    Handover,
}

/// How something lies on top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OnTop {
    /// Where keys go meanwhile.
    pub keys: Context,
    /// Whether it is read, rather than chosen from.
    pub read: bool,
}

impl Overlay {
    /// How it lies on top: the one table of all that can.
    pub const fn lies(&self) -> OnTop {
        let (keys, read) = match self {
            Self::Help => (Context::Help, true),
            Self::Why(_) => (Context::Why, true),
            Self::Page(_) => (Context::Page, true),
            Self::Map(_) => (Context::Map, false),
            Self::Countries => (Context::Countries, false),
            Self::Sums(_) => (Context::Sums, false),
            Self::House => (Context::House, false),
            Self::Flock
            | Self::Case
            | Self::Outcomes
            | Self::Death
            | Self::Parted
            | Self::Particulars
            | Self::Contacts => (Context::Birds, false),
            Self::Lessons | Self::Deeds | Self::Judging | Self::HandOver => (Context::Practice, false),
        };
        OnTop { keys, read }
    }
}
