//! A question in checked form: how it is asked, how to look without harm, and what may be answered.

use super::cond::{Cond, Measure, QuestionAt};
use super::rule::InstructionAt;
use super::source::Source;
use super::table::At;
use crate::bird::{Build, Kind};
use crate::finding::figure::FigureOf;
use crate::finding::{About, Answer, Id};
use crate::unit::{Band, Minutes};
use serde::{Deserialize, Serialize};

/// What two answers, or two looks at her, come to, where nobody is asked.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub enum Course {
    /// How much of her best weight has gone: its steps are the question's answers.
    WeightGone,
    /// Whether a wound has grown.
    WoundGrown,
    /// Whether an answer that has been changed since was one of these. A ban can so outlive the sign that brought it.
    Was {
        /// The answers: one literal, or any of several.
        so: Cond,
        /// How long ago it was changed at most.
        within: Minutes,
    },
}

impl Course {
    /// Its name in files that leave the program.
    pub const fn id(&self) -> &'static str {
        match self {
            Self::WeightGone => "weight_gone",
            Self::WoundGrown => "wound_grown",
            Self::Was { .. } => "was",
        }
    }

    /// How many steps it is told in, and whether it is told of a wound; nothing where a wound and the whole bird can have it.
    pub const fn shape(&self) -> (usize, Option<bool>) {
        match self {
            // Noise, a little, a twentieth, a tenth, fifteen hundredths, a fifth.
            Self::WeightGone => (6, Some(false)),
            // No, or not to be told; clearly, as far as a ruler can tell.
            Self::WoundGrown => (2, Some(true)),
            // No, or not that anybody said; yes.
            Self::Was { .. } => (2, None),
        }
    }
}

/// A step of the examination, in head-to-tail order.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Step {
    /// Its key in the protocol.
    pub id: Id,
    /// Its name on screen.
    pub name: String,
    /// Whether the bird has to be held for it.
    pub hands_on: bool,
}

/// The position of a list among the lists.
pub type ListAt = At<SignList>;

/// Signs that stand on one screen: pressed if seen, "none of these" at the end.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct SignList {
    /// Its key.
    pub id: Id,
    /// The question over all of them, as it is asked aloud.
    pub ask: String,
    /// How to look without harm.
    pub look: String,
}

/// A question of the protocol.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Question {
    /// Its key.
    pub id: Id,
    /// The position of its step.
    pub step: At<Step>,
    /// Two or three words for summaries.
    pub topic: String,
    /// The question as it is asked aloud.
    pub ask: String,
    /// How to look without harm.
    pub look: String,
    /// Whether it is asked of each wound instead of the bird.
    pub wound: bool,
    /// Whether she has to be touched for it.
    pub touches: bool,
    /// Whether the answers run from fine to worst.
    pub ordered: bool,
    /// The answers; where a weight is typed, the builds to go by without a scale.
    pub choices: Vec<Choice>,
    /// The list it stands on, where several questions share one screen.
    pub list: Option<ListAt>,
    /// The measure its answer feeds.
    pub gives: Option<Measure>,
    /// Other words for kinds that are looked at differently.
    pub for_kinds: Vec<Wording>,
    /// When it applies; always, where nothing is said.
    pub applies: Option<Cond>,
    /// When it is passed over because asking has become pointless. Judging does not look at this.
    pub moot: Option<Cond>,
    /// When it is asked at all, what could not be told counted as so. Judging does not look at this either.
    pub asked_if: Option<Cond>,
    /// When it is asked again at a later look.
    pub again: Again,
    /// What its answer is worked out from, where nobody is asked.
    pub worked_out: Option<Course>,
    /// The question about the bird that asks the same in general: what was said there is shown beside the answer alike.
    pub asks_after: Option<QuestionAt>,
    /// The question whose answer is told more fully by this one's, for example by its side. It decides nothing: no rule weighs
    /// it, and whoever is in haste may skip it.
    pub adds_to: Option<QuestionAt>,
    /// Whether it asks how a sign goes on that was seen: where that could not be told, this is not asked, and counts as not to
    /// be told either.
    pub asked_of: AskedOf,
    /// When a bird of practice shows it, where nobody wrote down whether she does. Judging does not look at this.
    pub shown_if: Option<Cond>,
    /// Its source.
    pub source: At<Source>,
}

/// Of which birds a question is asked, where it applies by a sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum AskedOf {
    /// Of those, too, of which that sign could not be told.
    InDoubtToo,
    /// Of those only that were seen to have it.
    Seen,
}

/// What is asked of some kinds instead; what is left out stays as it is.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Wording {
    /// The kinds.
    pub kinds: Vec<Kind>,
    /// The question in other words.
    pub ask: Option<String>,
    /// How to look, in other words.
    pub look: Option<String>,
}

/// One answer a person may choose.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Choice {
    /// Its key, unique within the question.
    pub id: Id,
    /// The answer in everyday words; empty where it is a [build](Question::build), which the catalogue names.
    pub say: String,
    /// How often it is given, against the question's other answers: a guess of the authors', which orders a hint and decides
    /// nothing.
    pub often: u32,
    /// What it stands for in the base unit of the question's measure, if it stands for anything.
    pub worth: Option<Band<u64>>,
    /// The kinds it is offered for; every kind, where none is named.
    pub kinds: Vec<Kind>,
    /// The instruction it calls up at once.
    pub instruct: Option<InstructionAt>,
    /// How soon a vet can see her, where the question asks for that.
    pub reach: Option<Reach>,
}

impl Span {
    /// The span in the measure's base unit: minutes, square millimetres, microlitres, tenths a minute, thousandths,
    /// tenths of a second.
    pub fn worth(self) -> Band<u64> {
        let (low, high, unit) = match self {
            Self::Hours(low, high) => (low, high, 60),
            Self::SquareMillimetres(low, high) | Self::Microlitres(low, high) | Self::TenthsOfSecond(low, high) => {
                (low, high, 1)
            }
            Self::PerMinute(low, high) | Self::Percent(low, high) => (low, high, 10),
        };
        Band { low: u64::from(low) * unit, high: u64::from(high) * unit }
    }
}

impl Question {
    /// Whether a weight is typed here.
    pub fn is_weight(&self) -> bool {
        self.gives == Some(Measure::Weight)
    }

    /// Whether it asks how a sign goes on, and so only of a bird that was seen to have it.
    pub fn is_of_seen(&self) -> bool {
        self.asked_of == AskedOf::Seen
    }

    /// Whether its first answer is the fine one, of her or of a wound.
    pub fn has_a_fine_answer(&self) -> bool {
        self.ordered || self.again == Again::WhileBad
    }

    /// The answer that says of the bird "I looked: as always"; none where she is not looked at, or how a sign goes on is asked.
    pub fn as_always(&self) -> Option<Answer> {
        let of_her = !self.wound && !self.is_of_seen() && !self.is_weight() && self.worked_out.is_none();
        let of_a_vet = self.choices.iter().any(|choice| choice.reach.is_some());
        // Without an order the first of two is the one without the sign; of more, none is as always.
        let has_one = self.ordered || (self.again == Again::WhileBad && self.choices.len() == 2);
        self.first_answer().filter(|_| of_her && !of_a_vet && has_one)
    }

    /// Its first answer; of an ordered question the finest.
    pub fn first_answer(&self) -> Option<Answer> {
        self.choices.first().map(|first| Answer::Choice(first.id.clone()))
    }

    /// The figure that may be given in place of an answer, if one may.
    pub fn figure(&self) -> Option<FigureOf> {
        match self.gives? {
            Measure::WoundArea => Some(FigureOf::Wound),
            Measure::BloodLost => Some(FigureOf::Blood),
            Measure::BreathRate => Some(FigureOf::Breaths),
            Measure::Refill => Some(FigureOf::Refill),
            Measure::Weight | Measure::TimeSince | Measure::SkinOpen | Measure::BloodOfWeight | Measure::Dryness => {
                None
            }
        }
    }

    /// The answers a value of this question's measure may stand for, first and last. The answers part the measure at their
    /// high ends; above the last one it is still the last.
    pub fn stands_for(&self, worth: Band<u64>) -> Option<(u8, u8)> {
        let at = |value: u64| {
            let below = self.choices.iter().filter_map(|choice| choice.worth).filter(|band| band.high < value).count();
            u8::try_from(below.min(self.choices.len().checked_sub(1)?)).ok()
        };
        Some((at(worth.low)?, at(worth.high)?))
    }

    fn wording(&self, kind: Option<Kind>) -> impl Iterator<Item = &Wording> {
        self.for_kinds.iter().filter(move |wording| kind.is_some_and(|kind| wording.kinds.contains(&kind)))
    }

    /// The question as it is asked of a bird of this kind.
    pub fn ask_of(&self, kind: Option<Kind>) -> &str {
        self.wording(kind).find_map(|wording| wording.ask.as_deref()).unwrap_or(&self.ask)
    }

    /// How to look at a bird of this kind without harm.
    pub fn look_at(&self, kind: Option<Kind>) -> &str {
        self.wording(kind).find_map(|wording| wording.look.as_deref()).unwrap_or(&self.look)
    }

    /// The position of the answer with this key.
    pub fn choice_at(&self, id: &str) -> Option<u8> {
        self.choices.iter().position(|choice| choice.id == *id).and_then(|at| u8::try_from(at).ok())
    }

    /// Whether the answer at this position is offered for a bird of this kind.
    pub fn is_offered(&self, at: u8, kind: Option<Kind>) -> bool {
        let Some(choice) = self.choices.get(usize::from(at)) else { return false };
        choice.kinds.is_empty() || kind.is_some_and(|kind| choice.kinds.contains(&kind))
    }

    /// The build an answer stands for, where a weight is asked.
    pub fn build(&self, choice: &Choice) -> Option<&'static Build> {
        self.is_weight().then(|| Build::from_id(choice.id.as_str())).flatten()
    }

    /// The answer in English, for a protocol's author; a build by its name in files.
    pub fn for_author(&self, answer: &Answer) -> String {
        match answer {
            Answer::CannotTell => "cannot tell".to_owned(),
            Answer::Amount(grams) => crate::typed::weight::show(crate::unit::Grams(*grams)),
            Answer::Figure(figure) => figure.write(),
            Answer::Choice(id) => {
                self.choice_at(id.as_str()).and_then(|at| self.choices.get(usize::from(at))).map_or_else(
                    || format!("`{id}`, which this protocol does not know"),
                    |choice| if choice.say.is_empty() { id.to_string() } else { choice.say.clone() },
                )
            }
        }
    }
}

/// A question asked of the bird or of one wound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Asked {
    /// The bird or a wound.
    pub about: About,
    /// Which question.
    pub question: QuestionAt,
}

impl Asked {
    /// A question asked of the bird.
    pub const fn of_bird(question: QuestionAt) -> Self {
        Self { about: About::Bird, question }
    }
}

/// When a question is asked again at a later look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Again {
    /// Never: it tells what was, not how she is.
    Never,
    /// While its last answer is not its first.
    WhileBad,
    /// Once a day.
    Daily,
    /// At every look.
    Always,
    /// At every look until it was seen: from then on a cover hides it, and what was seen stands.
    UntilSeen,
}

/// How soon a vet can see her, the soonest first: several answers may stand for one of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Reach {
    /// Within an hour or so: in time for a bird that needs one now.
    Now,
    /// Within hours.
    Hours,
    /// Within a day.
    Day,
    /// Later, or not at all.
    Nobody,
}

impl Reach {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Now => "now",
            Self::Hours => "hours",
            Self::Day => "day",
            Self::Nobody => "nobody",
        }
    }
}

/// What an answer is worth to a measure, low to high.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Span {
    /// Hours since.
    Hours(u32, u32),
    /// The area of a wound.
    SquareMillimetres(u32, u32),
    /// Blood lost.
    Microlitres(u32, u32),
    /// Breaths.
    PerMinute(u32, u32),
    /// A share of her weight.
    Percent(u32, u32),
    /// How long a vein takes to fill.
    TenthsOfSecond(u32, u32),
}
