//! What a judgement says, each line with its reasons; and, apart from it, what is still open.

use super::figures::Figures;
use super::fitting::Fitting;
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::action::Stance;
use crate::protocol::question::{Asked, Reach};
use crate::protocol::rule::{ActionAt, Looks, RuleAt, WatchAt};
use crate::protocol::scale::{Authority, Humane, Need, Severity, System};
use crate::protocol::texts::{ParagraphAt, ScoreAt};
use crate::sheet::{Idle, Subject};
use crate::unit::Band;
use chrono::{DateTime, Utc};
use std::collections::BTreeMap;

/// A scale's rung as a band: at least this, at most that.
pub type Level<T> = Band<T>;

/// Where a bird stands on the three scales.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Levels {
    /// How soon skilled help is needed.
    pub need: Level<Need>,
    /// Whether a humane end has come into question.
    pub humane: Level<Humane>,
    /// Whether an authority has to be called.
    pub authority: Level<Authority>,
}

/// The judgement of one bird at one moment. What could still raise it is asked for apart: [`Open`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verdict {
    /// How soon skilled help is needed.
    pub need: Level<Need>,
    /// Whether a humane end has come into question.
    pub humane: Level<Humane>,
    /// Whether an authority has to be called.
    pub authority: Level<Authority>,
    /// Severity by body system; only those with something found or possible.
    pub severity: BTreeMap<System, Level<Severity>>,
    /// The rules in force, gravest first.
    pub reasons: Vec<Reason>,
    /// What to do, in the order of doing.
    pub acts: Vec<Advised>,
    /// What never to do.
    pub never: Vec<Forbidden>,
    /// What was advised by one rule and ruled out by another.
    pub dropped: Vec<Dropped>,
    /// What is advised unless an open question forbids it.
    pub waiting: Vec<Waiting>,
    /// What is advised once something has been seen.
    pub later: Vec<Later>,
    /// The lines of actions and bans that fit her and her wounds.
    pub fitting: Fitting,
    /// How soon a vet can see her, where that was told.
    pub reach: Option<Reach>,
    /// Signs that end home care.
    pub watch: Vec<Watched>,
    /// What has to be done by when, earliest first.
    pub deadlines: Vec<Deadline>,
    /// Sums for seeing change, where anything was said for them.
    pub scores: Vec<Scored>,
    /// Paragraphs whose conditions are met beyond doubt, in the order of the protocol.
    pub told: Vec<ParagraphAt>,
    /// When to look again.
    pub looks: Vec<Looks>,
    /// The rules that ask for it.
    pub looks_because: Vec<Reason>,
    /// Humane-end rules whose conditions are met and whose exceptions are not all answered.
    pub held: Vec<Held>,
    /// What of her answers cannot all be true.
    pub clashes: Vec<Clash>,
    /// What was said and moves nothing, and why.
    pub idle: Vec<(Asked, Idle)>,
    /// What was said and this protocol does not know, in words.
    pub not_understood: Vec<String>,
    /// What the measures come to.
    pub figures: Figures,
    /// How many wounds were found.
    pub wounds: usize,
    /// Whether she was looked over for them to the end.
    pub looked_over: bool,
    /// Whether all her protocol asks for before a night is left dark is so beyond doubt.
    pub steady: bool,
    /// The moment of the last answer: looks are counted from it.
    pub answered_at: DateTime<Utc>,
    /// The moment it was judged for.
    pub judged_at: DateTime<Utc>,
}

/// What could still raise a verdict. It is no part of one, so that a verdict alone is never read as "nothing is open".
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Open {
    /// Questions whose answers could, in the order of asking.
    pub questions: Vec<Asked>,
    /// Whether a wound not yet found could.
    pub wounds: bool,
}

impl Verdict {
    /// Adds the looks that a need brings by itself, whatever it rests on.
    pub fn look_by_need(&mut self, protocol: &Protocol) {
        let of_need = protocol.looks_by_need.iter().filter(|(need, _)| *need == self.need.low);
        self.looks.extend(of_need.flat_map(|(_, looks)| looks));
        in_order(&mut self.looks);
    }

    /// Whether no vet can be reached, as far as was told: nothing is told of a vet's clock then.
    pub fn no_vet(&self) -> bool {
        self.reach == Some(Reach::Nobody)
    }

    /// Whether nothing of what brings a humane end into question was seen: it could not be told, no more.
    pub fn end_is_unseen(&self, protocol: &Protocol) -> bool {
        let ends = |reason: &&Reason| protocol.rule(reason.rule).humane.is_some();
        self.humane.low > Humane::NotInQuestion && self.reasons.iter().filter(ends).all(|reason| reason.is_doubt())
    }

    /// Whether an action is forbidden now, by itself or dragged along by what is.
    pub fn forbids(&self, protocol: &Protocol, action: ActionAt) -> bool {
        self.never.iter().any(|never| {
            let never = never.target.action;
            never == action || protocol.rules_out.iter().any(|out| out.never == never && out.drop == action)
        })
    }
}

/// What of her answers cannot all be true.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Clash {
    /// Two answers, as the protocol says it.
    Told(String),
    /// Her kind, and her weight or build.
    Misweighed,
}

/// What no line may bring her into, because of what must never be done.
pub fn barred<'a>(protocol: &'a Protocol, never: &'a [Forbidden]) -> impl Iterator<Item = Stance> + 'a {
    let bans = never.iter().filter_map(|ban| protocol.action(ban.target.action).forbidden.as_ref());
    bans.flat_map(|ban| ban.bars.iter().copied())
}

/// The soonest looks first, each once.
pub(super) fn in_order(looks: &mut Vec<Looks>) {
    looks.sort_by_key(|looks| (looks.until_h, looks.every_min, !looks.late));
    looks.dedup_by_key(|looks| (looks.until_h, looks.every_min));
}

/// A score, part by part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scored {
    /// Which score.
    pub score: ScoreAt,
    /// The points of each of its questions; none where it was not asked or could not be told.
    pub parts: Vec<Option<u8>>,
    /// The most it can reach.
    pub most: u8,
}

impl Scored {
    /// The sum, once every part is known.
    pub fn total(&self) -> Option<u8> {
        self.parts.iter().copied().sum()
    }
}

/// A rule in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reason {
    /// The rule.
    pub rule: RuleAt,
    /// What it is about.
    pub about: About,
    /// How firmly it stands.
    pub standing: Standing,
}

impl Reason {
    /// Whether it stands on what could not be told alone.
    pub fn is_doubt(self) -> bool {
        self.standing == Standing::CouldNotTell
    }
}

/// How firmly a rule stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// On what was seen.
    Seen,
    /// On something that could not be told, counted as the worst.
    CouldNotTell,
    /// On what was seen, while an exception is still to be asked.
    ExceptionOpen,
}

/// An action, and the wound it is for where it is done to one wound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Target {
    /// The action.
    pub action: ActionAt,
    /// The wound, counted from 0; none where the action is for the whole bird.
    pub wound: Option<usize>,
}

impl Target {
    /// Whether what is said of one target reaches the other: the same wound, or one of them is the whole bird.
    pub fn meets(self, other: Self) -> bool {
        self.wound == other.wound || self.wound.is_none() || other.wound.is_none()
    }

    /// What its conditions are read of.
    pub(super) fn subject(self) -> Subject {
        self.wound.map_or(Subject::Bird, Subject::Wound)
    }
}

/// An action and the rules that advise it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Advised {
    /// The action.
    pub target: Target,
    /// The rules.
    pub because: Vec<Reason>,
}

/// A forbidden action and the rules that forbid it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Forbidden {
    /// The action.
    pub target: Target,
    /// The rules.
    pub because: Vec<Reason>,
}

/// An action that one rule advised and another ruled out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dropped {
    /// The action that is not advised after all.
    pub target: Target,
    /// Why not.
    pub because: String,
}

/// An action that waits, because an open question could still forbid it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Waiting {
    /// The action.
    pub target: Target,
    /// The questions that decide.
    pub ask: Vec<Asked>,
}

/// An action that is done later: what opens it has not been seen yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Later {
    /// The action.
    pub target: Target,
    /// The rules.
    pub because: Vec<Reason>,
}

/// A sign to watch for and the rules that name it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watched {
    /// The sign.
    pub sign: WatchAt,
    /// The rules.
    pub because: Vec<Reason>,
}

/// Something to be done by some hour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Deadline {
    /// What.
    pub what: String,
    /// By when, counted from the earliest moment the injury can have happened; `None` where that is not known.
    pub by: Option<DateTime<Utc>>,
    /// The rule it comes from.
    pub reason: Reason,
}

/// A humane-end rule held back, or about to be, by a named exception.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Held {
    /// The rule.
    pub rule: RuleAt,
    /// The questions that decide the exception, to be asked next.
    pub ask: Vec<Asked>,
}
