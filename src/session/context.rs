//! The places where a key can mean something of its own.

use crate::phrase::{Phrase, keys as told};

/// Where a key works.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Context {
    /// Several signs on one screen.
    List,
    /// One question.
    Ask,
    /// "Is there a wound (more)?"
    Wounds,
    /// Something is being typed.
    Typing,
    /// Where a wound is, asked beside a drawing.
    Body,
    /// Blood is being added up.
    Adding,
    /// Breaths are being tapped, or a vein timed.
    Tapping,
    /// An instruction fills the screen.
    Instruction,
    /// The verdict.
    Verdict,
    /// A card of the course.
    Course,
    /// The plan.
    Plan,
    /// The way through the steps.
    Map,
    /// Why.
    Why,
    /// The countries.
    Countries,
    /// The sums.
    Sums,
    /// What is in the house.
    House,
    /// The birds that are kept, or what can be done with one.
    Birds,
    /// A look at a practice bird.
    Look,
    /// The lessons, what can be done in one, and a verdict of one's own.
    Practice,
    /// What the law says; what all rests on.
    Page,
    /// Help.
    Help,
}

impl Context {
    /// Every context, in the order of the key page.
    pub const ALL: [Self; 21] = [
        Self::List,
        Self::Ask,
        Self::Body,
        Self::Wounds,
        Self::Typing,
        Self::Adding,
        Self::Tapping,
        Self::Instruction,
        Self::Verdict,
        Self::Course,
        Self::Plan,
        Self::Map,
        Self::Why,
        Self::Countries,
        Self::Sums,
        Self::House,
        Self::Birds,
        Self::Look,
        Self::Practice,
        Self::Page,
        Self::Help,
    ];

    /// Its name on the key page.
    pub const fn name(self) -> Phrase {
        match self {
            Self::List => told::where_list(),
            Self::Ask => told::where_ask(),
            Self::Body => told::where_body(),
            Self::Wounds => told::where_wounds(),
            Self::Typing => told::where_typing(),
            Self::Adding => told::where_adding(),
            Self::Tapping => told::where_tapping(),
            Self::Instruction => told::where_instruction(),
            Self::Verdict => told::where_verdict(),
            Self::Course => told::where_course(),
            Self::Plan => told::where_plan(),
            Self::Map => told::where_map(),
            Self::Why => told::where_why(),
            Self::Countries => told::where_countries(),
            Self::Sums => told::where_sums(),
            Self::House => told::where_house(),
            Self::Birds => told::where_birds(),
            Self::Look => told::where_look(),
            Self::Practice => told::where_practice(),
            Self::Page => told::where_page(),
            Self::Help => told::where_help(),
        }
    }
}
