//! Where an item of a protocol stands: its file and line, found by its sort and its name.

use super::File;
use super::read::{Placed, read};

/// A sort of item that faults are told in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A question.
    Question,
    /// A rule.
    Rule,
    /// An action.
    Action,
    /// An instruction.
    Instruction,
}

impl Sort {
    /// Its name in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Question => "question",
            Self::Rule => "rule",
            Self::Action => "action",
            Self::Instruction => "instruction",
        }
    }
}

/// The file and line an item begins on. Items of different sorts may share a name.
pub fn place(files: &[File], sort: Sort, id: &str) -> Option<String> {
    fn of<T>(items: &[Placed<T>], id: impl Fn(&T) -> bool) -> Option<String> {
        items.iter().find(|placed| id(&placed.item)).map(|placed| format!("{}:{}", placed.file, placed.line()))
    }
    let (items, _) = read(files);
    match sort {
        Sort::Question => of(&items.questions, |item| item.id == id),
        Sort::Rule => of(&items.rules, |item| item.id == id),
        Sort::Action => of(&items.actions, |item| item.id == id),
        Sort::Instruction => of(&items.instructions, |item| item.id == id),
    }
}
