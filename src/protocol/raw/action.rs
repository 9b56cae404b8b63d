//! What a protocol file may say of an action: its line and how the state of the bird changes it, what opens and ends it, what shows
//! that it worked, and what harm follows where it is left out or, being forbidden, done.

use super::Cond;
use crate::protocol::action::{Air, CardTest, Harm, Home, InDoubt, Part, Pressing, Stance};
use crate::protocol::whom::Whom;
use serde::Deserialize;

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
    /// Who does what, by who is there, in few words; the first that holds beyond doubt stands in place of `undoable`.
    #[serde(default)]
    pub hands: Vec<Seen>,
    /// What stands on a card behind its line: how long, how hard, what then; a dozen words at most.
    #[serde(default)]
    pub on_card: String,
    /// Whom one phones by it.
    #[serde(default)]
    pub phones: Option<Whom>,
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
    /// Whether it is told, too, where somebody looked and could not tell.
    #[serde(default)]
    pub in_doubt: bool,
    /// In place of the action's `say`.
    pub say: String,
    /// In place of its `how`; left out where that holds all the same.
    #[serde(default)]
    pub how: String,
    /// What stands on a card behind this line; the action's own holds of its own line alone.
    #[serde(default)]
    pub on_card: String,
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

/// What is to be seen: answers, and the words for them.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seen {
    /// The answers.
    pub when: Cond,
    /// What to see, in words.
    pub say: String,
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
    /// The acts it stands beside wherever one of them is told: it is broken while that is done.
    #[serde(default)]
    pub beside: Vec<String>,
    /// What no other line may then bring her into.
    #[serde(default)]
    pub bars: Vec<Stance>,
    /// Another reason and another way out where more is known of her: the first that fits stands.
    #[serde(default)]
    pub fits: Vec<BanFit>,
}

/// What is told of a ban on a bird or a wound of which this is known.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BanFit {
    pub when: Cond,
    /// Whether it is told, too, where somebody looked and could not tell.
    #[serde(default)]
    pub in_doubt: bool,
    /// The line on screen, where the ban's own would contradict what is told of such a bird.
    #[serde(default)]
    pub say: Option<String>,
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
    Test {
        when: Cond,
        say: String,
        /// The test in few words, as a card asks it.
        #[serde(default)]
        card: Option<CardTest>,
    },
    /// A vet's word; where no vet can be reached, the other end.
    Vet { or: Box<Until> },
    /// Nothing, because of this.
    Lives { because: String },
}
