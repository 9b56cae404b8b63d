//! What can go wrong with a bird in somebody's hands: whom it harms, the harm of doing and the harm of not doing, a bird that
//! shows it, and what controls it. The idea of such a list is that of ISO 14971; the words are ours.

mod check;

use super::action::Pressing;
use super::fault::Faults;
use super::misread::{Loses, Misread};
use super::read::{File, Placed, place};
use super::scale::{Authority, Humane, Need};
use super::source::Strength;
use super::{Protocol, notation};
use ron::value::RawValue;
use serde::Deserialize;

/// A way in which a bird, or somebody, comes to harm.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// Its key.
    pub id: String,
    /// What can go wrong, in one sentence.
    pub hazard: String,
    /// Whom it harms.
    pub whom: Vec<Harmed>,
    /// The worst it can do.
    pub worst: Worst,
    /// The harm of doing.
    pub doing: String,
    /// The harm of not doing.
    pub not_doing: String,
    /// What of the protocol keeps it away, and the bird that shows it.
    #[serde(default)]
    pub shown: Option<Shown>,
    /// What of the program's code keeps it away.
    #[serde(default)]
    pub code: Vec<InCode>,
    /// The tests that hold it, each `binary::file::name`.
    pub tests: Vec<String>,
    /// Where it comes from.
    pub source: String,
    /// How well that is known.
    pub strength: Strength,
}

/// Whom a hazard harms.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Harmed {
    /// The bird herself.
    Bird,
    /// The birds she lives with.
    Flock,
    /// Whoever holds her or lives near her.
    People,
    /// Whoever eats her eggs or meat.
    Eaters,
}

impl Harmed {
    /// In plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bird => "the bird",
            Self::Flock => "the other birds",
            Self::People => "people",
            Self::Eaters => "whoever eats eggs or meat",
        }
    }

    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Bird => "bird",
            Self::Flock => "flock",
            Self::People => "people",
            Self::Eaters => "eaters",
        }
    }
}

/// The worst a hazard can do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Worst {
    /// It kills.
    Kills,
    /// It maims, or she suffers for days.
    Maims,
    /// It misleads whoever acts on it.
    Misleads,
}

impl Worst {
    /// In plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Kills => "can kill",
            Self::Maims => "can maim",
            Self::Misleads => "misleads",
        }
    }

    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Kills => "kills",
            Self::Maims => "maims",
            Self::Misleads => "misleads",
        }
    }
}

/// A bird, the controls that keep the harm from her, and the harm that comes back once they are taken away.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shown {
    /// The scripted bird, by the name of her file.
    pub bird: String,
    /// Whether she is the one for whom no vet can be reached.
    #[serde(default)]
    pub no_vet: bool,
    /// What keeps the harm away.
    pub controls: Controls,
    /// What is then told, or told no more.
    pub comes_back: Vec<Back>,
}

/// Controls, and how they hang together.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub enum Controls {
    /// Each is needed: without any one of them some of the harm is back.
    Each(Vec<Control>),
    /// They double each other: any one of them alone keeps all of the harm away.
    Any(Vec<Control>),
}

impl Controls {
    /// All of them.
    pub fn all(&self) -> &[Control] {
        match self {
            Self::Each(controls) | Self::Any(controls) => controls,
        }
    }
}

/// Something of the protocol that keeps harm away.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub enum Control {
    /// A rule, with all it says.
    Rule(String),
    /// What one rule advises: rule and action.
    Act(String, String),
    /// The ban on an action, whoever forbids it.
    Ban(String),
    /// What ends the ban on an action.
    End(String),
    /// The exceptions of a rule.
    Exceptions(String),
    /// The looks a rule asks for.
    Looks(String),
    /// What fills the screen at an answer: question and answer.
    Instruction(String, String),
    /// A conflict: what stays and what goes.
    Conflict(String, String),
    /// What a ban drags along: the ban and what goes with it.
    RulesOut(String, String),
    /// What an action waits for.
    Opens(String),
    /// The lines of an action for the place, kind or state.
    Fits(String),
    /// That one action comes before another.
    Before(String, String),
    /// A paragraph.
    Paragraph(String),
    /// A substance known on labels.
    Substance(String),
}

/// The harm that comes back: how one sees on the bird that nothing keeps it away.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub enum Back {
    /// The action stands in her plan.
    Told(String),
    /// The action does not stand in her plan.
    NotTold(String),
    /// The action is not forbidden.
    NotForbidden(String),
    /// The ban on the action has no end but her death.
    Endless(String),
    /// She is said to need help less soon than this.
    NeedBelow(Need),
    /// A humane end is further from being spoken of than this.
    HumaneBelow(Humane),
    /// A humane end is advised more firmly than this.
    HumaneAbove(Humane),
    /// An authority is called with less weight than this.
    AuthorityBelow(Authority),
    /// The action presses her harder than this.
    PressedHarder(String, Pressing),
    /// None of her answers brings up the instruction.
    NotShown(String),
    /// The first action no longer stands before the second.
    NotBefore(String, String),
    /// She is not looked at within so many minutes.
    NotLookedAtWithin(u32),
    /// The sign is not watched for.
    NotWatched(String),
    /// The paragraph is not told.
    NotRead(String),
    /// A product with this on its label is no longer refused.
    NotRefused(String),
}

/// A control in code, shown by a broken build: with these words replaced the test fails.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct InCode {
    /// What keeps the harm away, in plain words.
    pub control: String,
    /// The file, from the top of the repository.
    pub file: String,
    /// What stands there exactly once.
    pub find: String,
    /// What breaks it.
    pub replace: String,
    /// The test that must then fail, as `binary::file::name`.
    pub test: String,
}

/// The outer shape of the file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Outer<'a> {
    #[serde(borrow)]
    hazards: Vec<&'a RawValue>,
}

/// The hazards a file holds, their names not held against anything yet.
///
/// # Errors
/// Every row that cannot be read, with its line.
pub fn read(file: &File) -> Result<Vec<Hazard>, Faults> {
    Ok(rows(file)?.into_iter().map(|placed| placed.item).collect())
}

/// The same, every name held against the protocol and the scripted birds.
///
/// # Errors
/// Every fault at once: a row that cannot be read, a name that is not known, a control that is not there; with line and nearest name.
pub fn load(file: &File, protocol: &Protocol, birds: &[&str]) -> Result<Vec<Hazard>, Faults> {
    let rows = rows(file)?;
    check::check(&rows, protocol, birds)?;
    Ok(rows.into_iter().map(|placed| placed.item).collect())
}

fn rows(file: &File) -> Result<Vec<Placed<Hazard>>, Faults> {
    let outer = notation().from_str::<Outer>(&file.text).map_err(|error| {
        let what = format!("this is no list of hazards: {}", error.code);
        let line = error.span.start.line;
        Faults(vec![super::fault::Fault { file: file.name.clone(), line, item: String::new(), what, nearest: None }])
    })?;
    let (mut rows, mut misread) = (Vec::new(), Misread::default());
    place(file, &outer.hazards, &mut rows, Loses::Nothing, &mut misread);
    if misread.faults.is_empty() { Ok(rows) } else { Err(Faults(misread.faults)) }
}
