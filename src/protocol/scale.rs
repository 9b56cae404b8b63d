//! The ordered scales a rule may move: need, humane end, authority call, and severity by body system.

use serde::{Deserialize, Serialize};

/// How soon skilled help is needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Need {
    /// Nothing was found that asks for anything.
    #[serde(alias = "none")]
    #[default]
    None,
    /// Care at home, with looks at set times.
    #[serde(alias = "home")]
    Home,
    /// A vet within a day.
    #[serde(alias = "within_a_day")]
    WithinADay,
    /// A vet within hours.
    #[serde(alias = "within_hours")]
    WithinHours,
    /// A vet at once.
    #[serde(alias = "now")]
    Now,
}

impl Need {
    /// Every rung, lowest first.
    pub const ALL: [Self; 5] = [Self::None, Self::Home, Self::WithinADay, Self::WithinHours, Self::Now];

    /// The rung in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::None => "nothing found",
            Self::Home => "care at home",
            Self::WithinADay => "vet within a day",
            Self::WithinHours => "vet within hours",
            Self::Now => "vet at once",
        }
    }

    /// How grave it is, for a bird for whom no vet can be reached: no vet's clock is told of her. [`NO_VET`] stands beside it.
    pub const fn gravity(self) -> &'static str {
        match self {
            Self::None | Self::Home => self.words(),
            Self::WithinADay => "serious",
            Self::WithinHours => "grave",
            Self::Now => "gravest",
        }
    }

    /// The words of the rungs, as a bird's keeper reads them: how soon a vet, or without one in reach how grave.
    pub const fn told(no_vet: bool) -> fn(Self) -> &'static str {
        if no_vet { Self::gravity } else { Self::words }
    }
}

/// What stands beside a need for help where no vet can be reached.
pub const NO_VET: &str = "no vet: phone any for advice";

/// Whether a humane end has come into question.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Humane {
    /// Not in question.
    #[serde(alias = "not_in_question")]
    #[default]
    NotInQuestion,
    /// It may come into question; the only rung an inference of ours can reach.
    #[serde(alias = "may_come_into_question")]
    MayComeIntoQuestion,
    /// Advised unless a vet can act in time.
    #[serde(alias = "advised_unless_vet")]
    AdvisedUnlessVet,
    /// Advised.
    #[serde(alias = "advised")]
    Advised,
}

impl Humane {
    /// Every rung, lowest first.
    pub const ALL: [Self; 4] = [Self::NotInQuestion, Self::MayComeIntoQuestion, Self::AdvisedUnlessVet, Self::Advised];

    /// The rung in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::NotInQuestion => "not in question",
            Self::MayComeIntoQuestion => "may come into question",
            Self::AdvisedUnlessVet => "advised unless a vet can act in time",
            Self::Advised => "advised",
        }
    }

    /// Whether it is advised, unless a vet can act in time or whatever may come.
    pub fn is_advised(self) -> bool {
        self >= Self::AdvisedUnlessVet
    }

    /// That a humane end is advised, in one line; nothing while it may only come into question.
    pub const fn advice(self) -> Option<&'static str> {
        match self {
            Self::NotInQuestion | Self::MayComeIntoQuestion => None,
            Self::AdvisedUnlessVet => Some("a humane end is advised unless a vet can act in time"),
            Self::Advised => Some("a humane end is advised"),
        }
    }
}

/// Whom to talk to where a humane end is advised.
pub const TALK: &str = "Talk to a vet or a trained, lawful person.";

/// Whether the signs could be those of a notifiable disease.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Authority {
    /// No such sign.
    #[serde(alias = "none")]
    #[default]
    None,
    /// Ask a vet or the animal-health authority about it.
    #[serde(alias = "ask")]
    Ask,
    /// Call now, before any bird is moved.
    #[serde(alias = "call_now")]
    CallNow,
}

impl Authority {
    /// Every rung, lowest first.
    pub const ALL: [Self; 3] = [Self::None, Self::Ask, Self::CallNow];

    /// The rung in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::None => "no call",
            Self::Ask => "ask the animal-health authority",
            Self::CallNow => "call the animal-health authority now",
        }
    }
}

/// A part of the bird's workings that severity is told by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum System {
    /// Breathing: windpipe, lungs, air sacs.
    Breath,
    /// Blood and its flow.
    Blood,
    /// Mind, balance and nerves.
    Nerves,
    /// Eyes, beak and head.
    Head,
    /// Wings, legs, bones and muscles.
    Limbs,
    /// Skin and what lies under it.
    Skin,
    /// Belly, gut and vent.
    Belly,
}

impl System {
    /// Every system, in the order a handover tells them.
    pub const ALL: [Self; 7] =
        [Self::Breath, Self::Blood, Self::Nerves, Self::Head, Self::Limbs, Self::Skin, Self::Belly];

    /// The system in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Breath => "breathing",
            Self::Blood => "blood",
            Self::Nerves => "mind and nerves",
            Self::Head => "head, eyes, beak",
            Self::Limbs => "wings and legs",
            Self::Skin => "skin and wounds",
            Self::Belly => "belly and vent",
        }
    }
}

/// Severity of one body system: structure for a handover, never odds of survival.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Severity {
    /// Nothing found.
    #[default]
    Nothing,
    /// Hurt, but working.
    Slight,
    /// Working poorly.
    Serious,
    /// Failing.
    Grave,
}

impl Severity {
    /// The grade in plain words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Nothing => "nothing found",
            Self::Slight => "slight",
            Self::Serious => "serious",
            Self::Grave => "grave",
        }
    }
}
