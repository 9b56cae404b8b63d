//! What is being written, where the typing is for the case and not for a question.

use crate::finding::log::Outcome;
use crate::finding::particular::Particular;
use crate::phrase::{Phrase, birds as phrase};
use crate::protocol::whom::Whom;

/// What is being written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Writing {
    /// The bird's name.
    Name,
    /// What a vet said.
    VetSaid,
    /// What an outcome proved right or wrong.
    Proved(Outcome),
    /// Her name, or a word that is shown, so that no other bird's case is closed or put away.
    Sure(Closing),
    /// Letters by which birds are looked for.
    Letters,
    /// Who practises.
    Novice,
    /// What a vet will ask.
    Noted(Particular),
    /// Whom to call.
    Contact(Whom),
}

/// What is not done before her name was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Closing {
    /// Her case is closed: she died, or her life was ended.
    Ended(Outcome),
    /// Her case is put out of sight.
    Away,
}

impl Closing {
    /// The word that is typed for a bird without a name.
    pub const fn word(self) -> Phrase {
        match self {
            Self::Ended(Outcome::HumaneEnd) => phrase::word_ended(),
            Self::Ended(_) => phrase::word_died(),
            Self::Away => phrase::word_away(),
        }
    }
}
