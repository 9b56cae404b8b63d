//! An action in checked form: what is done, what it waits for, what ends it, and what is told where it is forbidden.

use super::cond::Cond;
use super::source::Source;
use super::table::At;
use super::whom::Whom;
use crate::finding::Id;
use serde::{Deserialize, Serialize};

/// The position of an action in [`super::Protocol::actions`]; the order is the order of doing, life first.
pub type ActionAt = At<Action>;

/// Something a person does: a verb, a place and a means, so that two actions can be compared.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Action {
    /// Its key.
    pub id: Id,
    /// What is done: press, cover, warm.
    pub verb: String,
    /// Where: this wound, the whole bird.
    pub place: String,
    /// With what, where that matters.
    pub means: String,
    /// The line on screen, at most eight words; true of every bird of which nothing more is known.
    pub say: String,
    /// A sentence or two more; empty for what nobody advises.
    pub how: String,
    /// Its lines where more is known of her; the first that fits stands.
    pub fits: Vec<Fit>,
    /// Whether it presses on her.
    pub presses: bool,
    /// What it waits for.
    pub opens: Option<Seen>,
    /// What is done for her as long as it waits; empty where nothing is.
    pub meanwhile: String,
    /// How one sees that it worked.
    pub worked: Option<Seen>,
    /// What ends it, where it is a state that lasts.
    pub ends: Option<Until>,
    /// What to do where it cannot be done; empty where it always can.
    pub undoable: String,
    /// Who does what, by who is there: the first that holds beyond doubt stands in place of `undoable`, and on a card.
    pub hands: Vec<Seen>,
    /// What stands on a card behind its line, in few words; empty where the line is enough.
    pub on_card: String,
    /// Whom one phones by it, where it is a call.
    pub phones: Option<Whom>,
    /// How soon it kills or maims if it is left out; nothing for what nobody advises.
    pub left_out: Option<Harm>,
    /// The actions it comes before.
    pub before: Vec<ActionAt>,
    /// What state it keeps her in.
    pub keeps: Vec<Stance>,
    /// Why not and what instead, for what some rule forbids.
    pub forbidden: Option<Forbidden>,
    /// The state whose air it asks for.
    pub air: Option<Air>,
    /// Whether it comes before any phone call.
    pub at_once: bool,
    /// What becomes of it in doubt: what does nothing to her is advised then, too.
    pub in_doubt: InDoubt,
    /// Whether it is done to one wound.
    pub wound: bool,
    /// In which part of the plan it stands.
    pub part: Part,
    /// What becomes of it where a vet will see her within hours.
    pub home: Home,
    /// What it stands in for, for the same wound, where it is done.
    pub replaces: Vec<ActionAt>,
    /// The action whose ways it is done by, where that is not its own.
    pub done_like: Option<ActionAt>,
    /// Its source.
    pub source: At<Source>,
}

impl Action {
    /// The line on screen where it must not be done.
    pub fn never(&self) -> &str {
        self.forbidden.as_ref().and_then(|forbidden| forbidden.say.as_deref()).unwrap_or(&self.say)
    }
}

/// Other lines for a bird or a wound of which something is known beyond doubt.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Fit {
    /// What is known.
    pub when: Cond,
    /// Whether it is told, too, where somebody looked and could not tell.
    pub in_doubt: bool,
    /// In place of the action's own line.
    pub say: String,
    /// In place of how it is done; empty where that holds all the same.
    pub how: String,
    /// What stands on a card behind this line; empty where it is enough.
    pub on_card: String,
    /// How hard one presses then.
    pub pressing: Option<Pressing>,
    /// In place of the state the action keeps her in.
    pub keeps: Option<Vec<Stance>>,
    /// Its own source, where it has one.
    pub source: Option<At<Source>>,
}

/// What a line of a plan asks of the state she is in.
#[derive(Clone, Copy, Debug)]
pub struct Asks<'a> {
    /// The state whose air it asks for.
    pub air: Option<Air>,
    /// What it brings her into or keeps her in.
    pub keeps: &'a [Stance],
}

impl Asks<'_> {
    /// Why two lines cannot both be followed, in words that go on after their names; nothing where they can.
    pub fn contradicts(self, other: Asks) -> Option<&'static str> {
        if self.air.zip(other.air).is_some_and(|(one, other)| one != other) {
            Some("ask for air of another warmth")
        } else if self.keeps.iter().any(|one| other.keeps.iter().any(|two| one.contradicts(*two))) {
            Some("bring her into states that contradict each other")
        } else {
            None
        }
    }
}

/// What is to be seen: answers, and the words for them.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Seen {
    /// The answers.
    pub when: Cond,
    /// What to see, in words.
    pub say: String,
}

/// What is told of an action that must not be done.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Forbidden {
    /// The line on screen, where the action's own is worded as an instruction.
    pub say: Option<String>,
    /// Why not, in words a frightened person can read.
    pub why: String,
    /// What to do instead.
    pub instead: String,
    /// What ends it.
    pub until: Until,
    /// How soon it kills or maims if it is done all the same.
    pub broken: Harm,
    /// The acts it stands beside wherever one of them is told: it is broken while that is done.
    pub beside: Vec<ActionAt>,
    /// What no other line may then bring her into.
    pub bars: Vec<Stance>,
    /// Another reason and way out where more is known of her; the first that fits stands.
    pub fits: Vec<BanFit>,
}

/// What is told of a ban on a bird or a wound of which something is known beyond doubt.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct BanFit {
    /// What is known.
    pub when: Cond,
    /// Whether it is told, too, where somebody looked and could not tell.
    pub in_doubt: bool,
    /// In place of the ban's own line, where it has another.
    pub say: Option<String>,
    /// Why not.
    pub why: String,
    /// What to do instead.
    pub instead: String,
    /// What ends it then, in place of the ban's own end.
    pub until: Option<Until>,
}

/// What ends a ban, or a state that lasts. A clock never ends a ban: it can only be time to try the test again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Until {
    /// Whether a vet's word ends it.
    pub vet: bool,
    /// What ends it without a vet.
    pub alone: End,
}

/// What ends something without a vet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum End {
    /// A test is passed.
    Test {
        /// The answers with which it is passed.
        when: Cond,
        /// What to see, in words, and what then.
        say: String,
        /// The same in few words, as a card asks it once its time has come; none where no card asks it.
        card: Option<CardTest>,
    },
    /// Nothing does, because of this.
    Lives {
        /// Why not.
        because: String,
    },
}

/// A test as a card asks it. The clock opens the test and never lifts the ban.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CardTest {
    /// How long after the last answer it is first tried. Minutes.
    pub after_min: u32,
    /// What is looked for and what may be done then, in few words.
    pub ask: String,
}

impl Until {
    /// An end that only a vet's word is.
    pub fn only_a_vet(because: &str) -> Self {
        Self { vet: true, alone: End::Lives { because: because.to_owned() } }
    }
}

/// A state that decides how warm the air should be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Air {
    /// Ill, hurt or in shock.
    Ill,
    /// Hurt on the head: no added heat.
    HeadHurt,
    /// Hot: no heat, shade and moving air.
    Hot,
    /// Still under heat.
    Chick,
}

impl Air {
    /// The state's name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Ill => "ill",
            Self::HeadHurt => "head_hurt",
            Self::Hot => "hot",
            Self::Chick => "chick",
        }
    }
}

/// How soon harm comes of leaving an action out, or of doing what is forbidden.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all(serialize = "snake_case"))]
pub enum Harm {
    /// It can kill or maim within minutes.
    Minutes,
    /// Within hours.
    Hours,
    /// Within days.
    Days,
    /// It costs comfort or time, and neither kills nor maims by itself.
    Slight,
}

/// Whether an action is advised where its rule stands on what could not be told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum InDoubt {
    /// It is not: doubt tells nobody to do a thing to a bird.
    #[default]
    Untold,
    /// It is: it does nothing to her.
    Told,
}

/// How hard one may press on a part of her, from the firmest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Pressing {
    /// Firmly.
    #[default]
    Firmly,
    /// Lightly: she must breathe, or what lies under it gives way.
    Lightly,
    /// Beside it only.
    Beside,
}

/// A state that a line of a plan brings her into or keeps her in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Stance {
    /// Water stands beside her.
    Water,
    /// Food stands beside her.
    Food,
    /// The wound lies under something wet.
    CoveredWet,
    /// The wound lies under something dry.
    CoveredDry,
    /// The wound lies open.
    Uncovered,
    /// Liquid goes onto or into the wound.
    Rinsed,
    /// She is taken up, searched or worked on.
    Handled,
    /// She is left untouched.
    Untouched,
    /// She stays where others see her.
    InSight,
    /// She is kept away from every bird.
    Away,
    /// The air round her is open and moves.
    OpenAir,
    /// She sits in a closed, dark box.
    ClosedBox,
    /// Something is wound round a limb or the body.
    Bandaged,
    /// Nothing is wound round her.
    Unbandaged,
}

impl Stance {
    /// Whether it lasts until something ends it.
    pub const fn lasts(self) -> bool {
        match self {
            Self::Water | Self::Food | Self::Rinsed | Self::Handled => false,
            Self::CoveredWet
            | Self::CoveredDry
            | Self::Uncovered
            | Self::Untouched
            | Self::InSight
            | Self::Away
            | Self::OpenAir
            | Self::ClosedBox
            | Self::Bandaged
            | Self::Unbandaged => true,
        }
    }

    /// Whether two lines, one of each, cannot both be followed.
    pub const fn contradicts(self, other: Self) -> bool {
        self.one_way(other) || other.one_way(self)
    }

    const fn one_way(self, other: Self) -> bool {
        use Stance::{
            Away, Bandaged, ClosedBox, CoveredDry, CoveredWet, Handled, InSight, OpenAir, Unbandaged, Uncovered,
            Untouched,
        };
        matches!(
            (self, other),
            (CoveredWet, CoveredDry | Uncovered)
                | (CoveredDry, Uncovered)
                | (Handled, Untouched)
                | (InSight, Away)
                | (OpenAir, ClosedBox)
                | (Bandaged, Unbandaged)
        )
    }
}

/// When an action of the verdict is not carried out: mostly where a vet will see her within hours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Home {
    /// It is done all the same.
    #[default]
    Done,
    /// It is left to the vet, and said so; where she is seen within a day only, it is done meanwhile.
    LeftToVet,
    /// It is left to the vet, and said so, however long that takes.
    ForTheVet,
    /// It is not told at all.
    Untold,
    /// It is done then only: until she is there.
    OnTheWay,
    /// It is done until she has been looked over and a wound was found; a bite without a hole is looked for again.
    UntilFound,
}

/// In which part of the plan an action stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Part {
    /// What cannot wait.
    #[default]
    First,
    /// The wounds.
    Wound,
    /// Where she stays.
    House,
    /// The other birds.
    Flock,
}
