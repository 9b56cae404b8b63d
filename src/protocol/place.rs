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
    fn of<T>(items: &[Placed<T>], id: &str, named: impl Fn(&T) -> &String) -> Option<String> {
        let placed = items.iter().find(|placed| named(&placed.item) == id)?;
        // A remark may stand above it: the line is that of its name.
        Some(format!("{}:{}", placed.file, placed.line_of(id)))
    }
    let (items, _) = read(files);
    match sort {
        Sort::Question => of(&items.questions, id, |item| &item.id),
        Sort::Rule => of(&items.rules, id, |item| &item.id),
        Sort::Action => of(&items.actions, id, |item| &item.id),
        Sort::Instruction => of(&items.instructions, id, |item| &item.id),
    }
}
