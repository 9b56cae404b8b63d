//! A course as cards: what fits a card is the gravest and soonest for this bird, within a count of words that a frightened person can
//! take in. What harms within a stage stands on one of its cards, whatever the count; all else is one key away.

mod apart;
mod layout;

use super::document::{Item, Section, Tone};
use crate::care::contacts::Contacts;
use crate::care::course::{BanEnd, Stage, TEST, course, name_of};
use crate::care::{Phone, Plan};
use crate::finding::Id;
use crate::judge::Target;
use crate::phrase::{Phrase, Text, course as phrase};
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Humane};
use crate::protocol::texts::ParagraphAt;
use crate::prove::Exact;
use crate::words::Reader;
use chrono::{DateTime, Utc};
use layout::CardLayout;

/// The cards of a plan, in the order they open; those of a humane end and of the authority stand last and are open at once.
pub fn cards(
    protocol: &Protocol,
    verdict: &Exact,
    plan: &Plan,
    contacts: &Contacts,
    reader: Reader,
) -> Vec<CourseCard> {
    let course = course(protocol, verdict, plan);
    CardLayout { protocol, verdict, plan, contacts, course: &course, reader }.cards()
}

/// What a card holds at most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Budget {
    /// Words, said.
    pub words: usize,
    /// Acts.
    pub acts: usize,
    /// Bans.
    pub bans: usize,
}

/// The first card.
pub const NOW: Budget = Budget { words: 60, acts: 5, bans: 3 };
/// Every other one.
pub const LATER: Budget = Budget { words: 80, acts: 5, bans: 3 };

/// What a card is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardOf {
    /// A stage of the course.
    Stage(Stage),
    /// A humane end that has come into question.
    Humane(Humane),
    /// A call of the authority that is in force.
    Authority(Authority),
}

impl CardOf {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Stage(stage) => stage.id(),
            Self::Humane(_) => "humane_end",
            Self::Authority(_) => "authority_call",
        }
    }

    /// What it holds at most.
    pub const fn budget(self) -> Budget {
        match self {
            Self::Stage(Stage::Now) => NOW,
            Self::Stage(Stage::UntilSeen | Stage::NextHours | Stage::Today | Stage::Days)
            | Self::Humane(_)
            | Self::Authority(_) => LATER,
        }
    }

    /// Its heading.
    pub const fn heading(self) -> Phrase {
        match self {
            Self::Stage(Stage::Now) => phrase::first(),
            Self::Stage(Stage::UntilSeen) => phrase::until_seen(),
            Self::Stage(Stage::NextHours) => phrase::next_hours(),
            Self::Stage(Stage::Today) => phrase::today(),
            Self::Stage(Stage::Days) => phrase::days(),
            Self::Humane(_) => phrase::humane(),
            Self::Authority(_) => phrase::authority(),
        }
    }
}

/// When a card opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Opens {
    /// With the verdict.
    AtOnce,
    /// When the card before it is done.
    Ticked,
    /// When she is back from the vet.
    Back,
    /// On the next day.
    Tomorrow,
}

impl Opens {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::AtOnce => "at_once",
            Self::Ticked => "ticked",
            Self::Back => "back_from_the_vet",
            Self::Tomorrow => "tomorrow",
        }
    }

    /// The same in words.
    pub const fn told(self) -> Phrase {
        match self {
            Self::AtOnce => phrase::opens_at_once(),
            Self::Ticked => phrase::opens_ticked(),
            Self::Back => phrase::opens_back(),
            Self::Tomorrow => phrase::opens_tomorrow(),
        }
    }
}

/// What is done, by a name that a tick keeps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Does {
    /// An act of the protocol.
    Act(Target),
    /// A call.
    Phone(Phone),
    /// A test that can end a ban.
    Test(Target),
    /// A look.
    Look(DateTime<Utc>),
    /// What a paragraph asks for.
    Told(ParagraphAt),
}

const ACT: &str = "act";
const PHONE: &str = "phone";

/// What a tick was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ticked<'n> {
    /// An act, by its id.
    Act(&'n str),
    /// A call.
    Phone,
    /// A look, a test, or what a paragraph asks for.
    Other,
}

/// What a tick was for, by the name it was kept under.
pub fn ticked(name: &Id) -> Ticked<'_> {
    let mut parts = name.as_str().split(':');
    match (parts.next(), parts.next()) {
        (Some(ACT), Some(id)) => Ticked::Act(id),
        (Some(PHONE), None) => Ticked::Phone,
        _ => Ticked::Other,
    }
}

impl Does {
    /// The name by which a tick keeps it: the same as long as the act, the wound and the moment are.
    pub fn name(&self, protocol: &Protocol) -> Id {
        let name = match self {
            Self::Act(target) => return name_of(ACT, protocol, *target),
            Self::Test(target) => return name_of(TEST, protocol, *target),
            Self::Phone(_) => PHONE.to_owned(),
            Self::Look(at) => format!("look:{}", at.timestamp()),
            Self::Told(at) => format!("told:{}", protocol.paragraph(*at).id),
        };
        name.as_str().into()
    }
}

/// A line of a card: an act with the bans that are broken while it is done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardAct {
    /// What it is.
    pub does: Does,
    /// How it is said.
    pub say: Text,
    /// Whom to call, by name and number, where it is a call and the keeper wrote that down. Its words do not count.
    pub call: Option<Text>,
    /// When its time comes, where it waits for the clock.
    pub at: Option<DateTime<Utc>>,
    /// What is never done meanwhile.
    pub nevers: Vec<CardNever>,
}

impl CardAct {
    /// A line without bans, that waits for no clock.
    const fn plain(does: Does, say: Text) -> Self {
        Self { does, say, call: None, at: None, nevers: Vec::new() }
    }
}

/// A ban on a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CardNever {
    /// What is never done; none where a paragraph says it.
    pub target: Option<Target>,
    /// How it is said.
    pub say: Text,
    /// What ends it.
    pub end: BanEnd,
    /// What ends it, in full.
    pub until: Text,
}

/// One card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CourseCard {
    /// Of what.
    pub of: CardOf,
    /// Which of its stage's cards it is, counted from 1, and how many there are.
    pub number: (usize, usize),
    /// When it opens.
    pub opens: Opens,
    /// The moment at which it opens, where the clock opens it.
    pub opens_at: Option<DateTime<Utc>>,
    /// What is read first, where there is anything.
    pub first: Option<Text>,
    /// What is done, in the order of doing.
    pub acts: Vec<CardAct>,
    /// What is never done, by itself.
    pub nevers: Vec<CardNever>,
    /// How many words it has, header, footer and caution apart.
    pub words: usize,
}

impl CourseCard {
    /// How many bans it holds.
    pub fn bans(&self) -> usize {
        self.nevers.len() + self.acts.iter().map(|act| act.nevers.len()).sum::<usize>()
    }

    /// Its heading, with its number where its stage has several.
    pub fn heading(&self) -> Phrase {
        match self.number {
            (_, 1) => self.of.heading(),
            (number, of) => phrase::card_of(self.of.heading(), number, of),
        }
    }

    /// The bans on it, each once.
    pub fn all_nevers(&self) -> impl Iterator<Item = &CardNever> {
        self.acts.iter().flat_map(|act| &act.nevers).chain(&self.nevers)
    }

    /// The card as a headed list: acts each with its bans, then the bans that stand alone.
    pub fn sections(&self) -> Vec<Section<Text>> {
        let first = self.first.iter().cloned().chain([self.opens.told().into()]);
        let mut sections = vec![Section {
            heading: self.heading().into(),
            tone: Tone::Plain,
            items: first.map(Item::plain).collect(),
        }];
        let act = |act: &CardAct| Item {
            lead: act.say.clone(),
            more: act.call.iter().cloned().chain(act.nevers.iter().map(|never| never.say.clone())).collect(),
            ..Item::default()
        };
        sections.push(Section {
            heading: Text::default(),
            tone: Tone::Act,
            items: self.acts.iter().map(act).collect(),
        });
        let never = |never: &CardNever| Item::plain(never.say.clone());
        let nevers = self.nevers.iter().map(never).collect();
        sections.push(Section { heading: Text::default(), tone: Tone::Never, items: nevers });
        sections.retain(|section| !section.items.is_empty());
        sections
    }
}
