//! A line that is being typed: what it is for, and where in it the next letter goes.

use super::writing::Writing;
use crate::protocol::supply::SupplyAt;
use tui_input::{Input, InputRequest};

/// What is being typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TypingOf {
    /// The answer to the question that is asked.
    Answer,
    /// A number of the blood that is added up.
    Blood,
    /// Something of the case, of the list of birds, or whom to call.
    Case(Writing),
    /// The strength or the date of a supply.
    Supply(SupplyAt),
    /// A product's label.
    Label,
    /// A value of the open sum, by its place.
    Value(usize),
}

/// A way to move or to erase in a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edit {
    /// One letter back.
    Back,
    /// One letter on.
    On,
    /// To its beginning.
    Start,
    /// To its end.
    End,
    /// Erases the letter before.
    Erase,
    /// Erases the letter after.
    EraseAfter,
    /// Erases the word before.
    EraseWord,
    /// Erases all before.
    EraseAll,
}

impl Edit {
    const fn request(self) -> InputRequest {
        match self {
            Self::Back => InputRequest::GoToPrevChar,
            Self::On => InputRequest::GoToNextChar,
            Self::Start => InputRequest::GoToStart,
            Self::End => InputRequest::GoToEnd,
            Self::Erase => InputRequest::DeletePrevChar,
            Self::EraseAfter => InputRequest::DeleteNextChar,
            Self::EraseWord => InputRequest::DeletePrevWord,
            Self::EraseAll => InputRequest::DeleteFromStart,
        }
    }
}

/// A line that is being typed.
#[derive(Clone, Debug)]
pub struct TypedLine {
    of: TypingOf,
    input: Input,
}

impl TypedLine {
    /// An empty line.
    pub fn new(of: TypingOf) -> Self {
        Self::with(of, String::new())
    }

    /// A line that begins with a text; the next letter goes to its end.
    pub fn with(of: TypingOf, text: String) -> Self {
        Self { of, input: Input::new(text) }
    }

    /// What it is for.
    pub const fn of(&self) -> TypingOf {
        self.of
    }

    /// What stands in it.
    pub fn text(&self) -> &str {
        self.input.value()
    }

    /// How many letters stand before the next one.
    pub fn before(&self) -> usize {
        self.input.cursor()
    }

    /// Types a letter.
    pub fn put(&mut self, letter: char) {
        self.input.handle(InputRequest::InsertChar(letter));
    }

    /// Moves or erases.
    pub fn edit(&mut self, edit: Edit) {
        self.input.handle(edit.request());
    }
}
