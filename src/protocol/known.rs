//! What words on a label or a bottle stand for: by exact name first, then by the stem of a name, then by likeness.

use super::Protocol;
use super::spelling::words;
use super::substance::{Ruling, Substance};

/// A substance, and how sure the reading is.
#[derive(Clone, Copy, Debug)]
pub struct ReadAs<'p> {
    /// The substance.
    pub substance: &'p Substance,
    /// How it was known.
    pub by: By,
}

impl PartialEq for ReadAs<'_> {
    fn eq(&self, other: &Self) -> bool {
        (&self.substance.id, self.by) == (&other.substance.id, other.by)
    }
}

impl Eq for ReadAs<'_> {}

/// How a substance was known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// By its name.
    Name,
    /// By the stem of its name.
    Stem,
    /// By a name spelled nearly so.
    Likeness,
}

/// The most words a name has.
pub const LONGEST: usize = 6;

impl Protocol {
    /// What goes by exactly these words.
    pub fn named(&self, words: &[String]) -> Option<&Substance> {
        self.substances.iter().find(|substance| substance.names.iter().any(|name| name == words))
    }

    /// What the next words stand for, and how many of them: the longest name first, then stems, then likeness.
    pub fn next_known(&self, rest: &[String]) -> (usize, Option<ReadAs<'_>>) {
        for taken in (1..=LONGEST.min(rest.len())).rev() {
            if let Some(substance) = rest.get(..taken).and_then(|words| self.named(words)) {
                return (taken, Some(ReadAs { substance, by: By::Name }));
            }
        }
        let Some(word) = rest.first() else { return (1, None) };
        if self.label_words.contains(word) {
            return (1, None);
        }
        let with = |by: By| move |substance| ReadAs { substance, by };
        let stem = self.substances.iter().filter(|substance| substance.has_stem(word));
        let stem = stem.max_by_key(|substance| substance.ruling).map(with(By::Stem));
        (1, stem.or_else(|| self.alike(word).map(with(By::Likeness))))
    }

    /// Every substance a bottle's name tells of; words nobody knows are passed over.
    pub fn known_in(&self, text: &str) -> Vec<ReadAs<'_>> {
        let words = words(text);
        let (mut found, mut at) = (Vec::new(), 0);
        while let Some(rest) = words.get(at..).filter(|rest| !rest.is_empty()) {
            let (taken, read_as) = self.next_known(rest);
            at += taken;
            found.extend(read_as);
        }
        found
    }

    /// What must not be used and is spelled nearly so. What may be used is never guessed.
    fn alike(&self, word: &str) -> Option<&Substance> {
        let slips = match word.len() {
            0..6 => return None,
            6..10 => 1,
            _ => 2,
        };
        let near =
            |name: &Vec<String>| matches!(name.as_slice(), [one] if strsim::damerau_levenshtein(one, word) <= slips);
        let harmful = self.substances.iter().filter(|substance| substance.ruling >= Ruling::AskFirst);
        harmful.filter(|substance| substance.names.iter().any(near)).max_by_key(|substance| substance.ruling)
    }
}
