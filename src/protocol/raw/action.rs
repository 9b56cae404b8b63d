//! What a protocol file may say of an action: its line and how the state of the bird changes it, what opens and ends it, what shows
//! that it worked, and what harm follows where it is left out or, being forbidden, done.

use super::Cond;
use super::care::{Home, Part};
use serde::{Deserialize, Serialize};

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Action {
    pub id: String,
    pub verb: String,
    pub place: String,
    #[serde(default)]
    pub means: String,
    /// The line on screen, at most eight words; it must be true of every bird and place of which nothing more is known.
    pub say: String,
    /// A sentence or two more, for the plan; for an action some rule advises.
    #[serde(default)]
    pub how: String,
    /// Its lines where more is known of her: the first that fits stands.
    #[serde(default)]
    pub fits: Vec<Fit>,
    /// Whether it presses on her: then it says how wherever a region is not pressed firmly.
    #[serde(default)]
    pub presses: bool,
    /// What it waits for; until that is seen it is told as what comes later.
    #[serde(default)]
    pub opens: Option<Seen>,
    /// What is done for her as long as it waits.
    #[serde(default)]
    pub meanwhile: String,
    /// How one sees that it worked.
    #[serde(default)]
    pub worked: Option<Seen>,
    /// What ends it, where it is a state that lasts.
    #[serde(default)]
    pub ends: Option<Until>,
    /// What to do where it cannot be done, mostly because nobody else is there.
    #[serde(default)]
    pub undoable: String,
    /// How soon it kills or maims if it is left out.
    #[serde(default)]
    pub left_out: Option<Harm>,
    /// The actions it comes before, wherever both are told.
    #[serde(default)]
    pub before: Vec<String>,
    /// What state it brings her into or keeps her in: no two lines of one plan may differ in one of these.
    #[serde(default)]
    pub keeps: Vec<Stance>,
    /// Why not, and what instead; for an action some rule forbids.
    #[serde(default)]
    pub forbidden: Option<Forbidden>,
    /// The state whose air it asks for: temperature and dampness are worked out from it.
    #[serde(default)]
    pub air: Option<Air>,
    /// Whether it comes before any phone call.
    #[serde(default)]
    pub at_once: bool,
    /// What becomes of it in doubt: what does nothing to her is advised then, too.
    #[serde(default)]
    pub in_doubt: InDoubt,
    /// Whether it is done to one wound, so that what is said of one wound leaves the others alone.
    #[serde(default)]
    pub wound: bool,
    /// In which part of the plan it stands.
    #[serde(default)]
    pub part: Part,
    /// What becomes of it where a vet will see her within hours.
    #[serde(default)]
    pub home: Home,
    /// What it stands in for, where it is done.
    #[serde(default)]
    pub replaces: Vec<String>,
    /// The action whose ways it is done by, where that is not its own.
    #[serde(default)]
    pub done_like: Option<String>,
    #[serde(default)]
    pub source: Option<String>,
}

impl Action {
    /// Every state it may bring her into: its own, and those of its lines where more is known of her.
    pub fn may_keep(&self) -> impl Iterator<Item = Stance> {
        self.keeps.iter().chain(self.fits.iter().filter_map(|fit| fit.keeps.as_ref()).flatten()).copied()
    }
}

/// Other lines for a bird or a wound of which this is known beyond doubt.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fit {
    pub when: Cond,
    /// In place of the action's `say`.
    pub say: String,
    /// In place of its `how`; left out where that holds all the same.
    #[serde(default)]
    pub how: String,
    /// How hard one presses then, for an action that presses.
    #[serde(default)]
    pub pressing: Option<Pressing>,
    /// In place of the state the action keeps her in.
    #[serde(default)]
    pub keeps: Option<Vec<Stance>>,
    /// Its own source, where it has one.
    #[serde(default)]
    pub source: Option<String>,
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

/// Whether an action is advised where its rule stands on what could not be told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum InDoubt {
    /// It is not: doubt tells nobody to do a thing to a bird.
    #[default]
    Untold,
    /// It is: it does nothing to her.
    Told,
}

/// What is to be seen: answers, and the words for them.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seen {
    /// The answers.
    pub when: Cond,
    /// What to see, in words.
    pub say: String,
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

/// What is told of an action that must not be done.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Forbidden {
    /// The line on screen, where `say` is worded as an instruction.
    #[serde(default)]
    pub say: Option<String>,
    pub why: String,
    pub instead: String,
    pub until: Until,
    /// How soon it kills or maims if it is done all the same.
    pub broken: Harm,
    /// What no other line may then bring her into.
    #[serde(default)]
    pub bars: Vec<Stance>,
    /// Another reason and another way out where more is known of her: the first that fits stands.
    #[serde(default)]
    pub fits: Vec<BanFit>,
}

/// What is told of a ban on a bird or a wound of which this is known beyond doubt.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BanFit {
    pub when: Cond,
    pub why: String,
    pub instead: String,
    /// Its own end, where that is another.
    #[serde(default)]
    pub until: Option<Until>,
}

/// What ends a ban, or a state that lasts.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Until {
    /// A test: the answers with which it is passed, and in words what to see, what then, and when to try again.
    Test { when: Cond, say: String },
    /// A vet's word; where no vet can be reached, the other end.
    Vet { or: Box<Until> },
    /// Nothing, because of this.
    Lives { because: String },
}
