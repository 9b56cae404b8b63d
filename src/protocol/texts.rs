//! What is told rather than judged: paragraphs, words explained, laws, scores and what the grades mean.

use super::action::{Air, Asks, Stance};
use super::cond::{Cond, QuestionAt};
use super::scale::{Severity, System};
use super::source::{Source, Strength};
use super::table::At;
use crate::finding::Id;
use crate::typed::Household;
use serde::{Deserialize, Serialize};
use std::mem::discriminant;

/// The position of a score in [`super::Protocol::scores`].
pub type ScoreAt = At<Score>;

/// The position of a paragraph in [`super::Protocol::paragraphs`].
pub type ParagraphAt = At<Paragraph>;

/// A paragraph of the plan, told where its condition is met beyond doubt.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Paragraph {
    /// Its key.
    pub id: Id,
    /// Where it stands.
    pub under: Under,
    /// When it is told.
    pub when: Cond,
    /// Its heading.
    pub title: String,
    /// Its sentences.
    pub lines: Vec<String>,
    /// What of it stands on a card; the rest is one key away.
    pub card: Option<OnCard>,
    /// The paragraph it is told in place of, wherever it is told.
    pub in_place_of: Option<ParagraphAt>,
    /// Whether it is told only where no authority has a word in it: whoever is phoned says what becomes of her then.
    pub unless_authority: bool,
    /// What state they keep her in: it is not told beside what contradicts it.
    pub keeps: Vec<Stance>,
    /// The state whose air they ask for.
    pub air: Option<Air>,
    /// Its source.
    pub source: At<Source>,
    /// How well it is known.
    pub strength: Strength,
    /// The kind it is borrowed from, where that is not poultry.
    pub borrowed: Option<String>,
}

impl Paragraph {
    /// What it asks of the state she is in.
    pub fn asks(&self) -> Asks<'_> {
        Asks { air: self.air, keeps: &self.keeps }
    }
}

/// A word a keeper may not know.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Term {
    /// The word.
    pub term: String,
    /// What it means, in a few everyday words.
    pub means: String,
}

/// How a word may go on and still be the same word.
const ENDINGS: [&str; 4] = ["", "s", "ing", "ed"];

impl Term {
    /// Whether a text, in small letters, uses the word, alone or with an ending.
    pub fn is_in(&self, text: &str) -> bool {
        text.match_indices(&self.term).any(|(at, _)| {
            let before = text.get(..at).and_then(|before| before.chars().next_back());
            let after = text.get(at + self.term.len()..).unwrap_or_default();
            let ends = ENDINGS.iter().any(|ending| {
                after.strip_prefix(ending).is_some_and(|after| !after.chars().next().is_some_and(char::is_alphanumeric))
            });
            ends && !before.is_some_and(char::is_alphanumeric)
        })
    }
}

/// What a law limits. A limit is never advice.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Law {
    /// What it is about.
    pub on: LawOn,
    /// The limit in everyday words.
    pub say: String,
    /// Its name and article.
    pub law: String,
    /// Its date, as far as we know it.
    pub dated: String,
    /// The figures in it.
    pub limits: Vec<Limit>,
    /// Its source.
    pub source: At<Source>,
    /// How well it is known.
    pub strength: Strength,
}

/// A country, and what its law limits.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Country {
    /// Its key.
    pub id: Id,
    /// Whether it stands for none: the strictest law of all that ship.
    pub stands_for_none: bool,
    /// Whose spoons and cups are meant there.
    pub household: Household,
    /// Its name.
    pub name: String,
    /// What the caution adds.
    pub caution: String,
    /// Its laws.
    pub laws: Vec<Law>,
    /// What was looked for in them and not found.
    pub gaps: Vec<Gap>,
}

/// What was looked for in a country's law and not found, and what holds in its place.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Gap {
    /// What it is about.
    pub on: LawOn,
    /// What is not known.
    pub what: String,
    /// Where it was looked for.
    pub looked: String,
    /// What holds meanwhile: the strictest on the matter of all that ship.
    pub holds: Vec<Law>,
}

impl Country {
    /// The laws on a matter.
    pub fn on(&self, matter: LawOn) -> impl Iterator<Item = &Law> {
        self.laws.iter().filter(move |law| law.on == matter)
    }

    /// What is not known on a matter.
    pub fn gaps_on(&self, matter: LawOn) -> impl Iterator<Item = &Gap> {
        self.gaps.iter().filter(move |gap| gap.on == matter)
    }

    /// The limits its own laws name.
    pub fn own_limits(&self) -> impl Iterator<Item = Limit> {
        self.laws.iter().flat_map(|law| law.limits.iter().copied())
    }

    /// The limits that hold: those its laws name, and where none was found the strictest of their sort.
    pub fn limits(&self) -> impl Iterator<Item = Limit> {
        let own: Vec<_> = self.own_limits().collect();
        let named: Vec<_> = own.iter().map(discriminant).collect();
        let held = self.gaps.iter().flat_map(|gap| &gap.holds).flat_map(|law| law.limits.iter().copied());
        own.into_iter().chain(held.filter(move |limit| !named.contains(&discriminant(limit))))
    }
}

/// A sum over ordered questions: each is worth as many points as it has answers, one less for every step from fine.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Score {
    /// Its key.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// The questions.
    pub of: Vec<QuestionAt>,
    /// What it is for.
    pub say: String,
    /// Its source.
    pub source: At<Source>,
}

/// What the grades mean in one body system.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Grades {
    /// The system.
    pub system: System,
    /// Slight, serious, grave.
    pub words: [String; 3],
}

impl Grades {
    /// The words for a grade; none where nothing was found.
    pub fn of(&self, found: Severity) -> Option<&str> {
        let [slight, serious, grave] = &self.words;
        match found {
            Severity::Nothing => None,
            Severity::Slight => Some(slight),
            Severity::Serious => Some(serious),
            Severity::Grave => Some(grave),
        }
    }
}

/// Where a paragraph stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Under {
    /// Told once a humane end has come into question.
    HumaneEnd,
    /// What else the signs could come from, and what tells it apart.
    CouldBe,
    /// How she travels to whoever will see her.
    OnTheWay,
    /// Pain: what shows it, what may be given.
    Pain,
    /// What to say to a vet, and what it may cost.
    Asking,
    /// What people who touch her must know.
    People,
    /// The days after.
    DaysAfter,
}

/// What of a paragraph stands on a card, in few words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum OnCard {
    /// It is read.
    Say(String),
    /// It is done.
    Do(String),
    /// It is never done.
    Never(String),
}

impl OnCard {
    /// The words, whatever they are for.
    pub fn text(&self) -> &str {
        match self {
            Self::Say(text) | Self::Do(text) | Self::Never(text) => text,
        }
    }

    /// The same, to be put in another language.
    pub fn text_mut(&mut self) -> &mut String {
        match self {
            Self::Say(text) | Self::Do(text) | Self::Never(text) => text,
        }
    }

    /// What it is for, in files that leave the program.
    pub const fn id(&self) -> &'static str {
        match self {
            Self::Say(_) => "say",
            Self::Do(_) => "do",
            Self::Never(_) => "never",
        }
    }
}

/// What a law is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum LawOn {
    /// Who may end her life, and how.
    HumaneEnd,
    /// Who may treat her.
    Treating,
    /// When her eggs and meat may be eaten.
    EggsAndMeat,
    /// What must be reported.
    Reporting,
    /// What becomes of her body.
    Disposal,
}

impl LawOn {
    /// Every matter: of each a country has a law, or says that none was found.
    pub const ALL: [Self; 5] = [Self::HumaneEnd, Self::Treating, Self::EggsAndMeat, Self::Reporting, Self::Disposal];
}

/// A figure in a law.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Limit {
    /// At least this many days eggs are not eaten, where the medicine's label says nothing.
    EggDays(u32),
    /// The same for meat.
    MeatDays(u32),
    /// Above this weight a bird may not be killed by hand. Grams.
    ByHandGrams(u32),
    /// The same with a tool. Grams.
    WithToolGrams(u32),
    /// Within so many hours her body is disposed of, where it is not kept cold.
    BodyHours(u32),
}
