//! Roles: which of a protocol's own names stands for what the program itself asks for. No name of a protocol stands in code.

use super::Protocol;
use super::body::Side;
use super::cond::QuestionAt;
use super::question::{ListAt, Question};
use super::rule::{ActionAt, InstructionAt};
use super::source::{Source, Strength};
use super::strength::Family;
use crate::bird::Kind;
use crate::finding::{Answer, Id};
use crate::protocol::question::Step;
use crate::protocol::table::At;
use serde::{Deserialize, Serialize};

/// What the program asks for, found once when a protocol is checked.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Roles {
    /// The question what bird she is.
    pub kind: KindAsked,
    /// The question how soon a vet can see her.
    pub reach: QuestionAt,
    /// The question what happened to her.
    pub happened: QuestionAt,
    /// The question when it happened.
    pub when: QuestionAt,
    /// The question where a wound is; its answers are the regions of the body.
    pub place: QuestionAt,
    /// The question on which side of her a wound is.
    pub side: SideAsked,
    /// What a vet asks about the birds she lives with and the days before.
    pub background: Vec<QuestionAt>,
    /// What a keeper tells of a drawn bird before anybody looks.
    pub story: Vec<QuestionAt>,
    /// What is told of a drawn bird's wound, though no answer to it is worse than another.
    pub of_wounds: Vec<QuestionAt>,
    /// What yes is called, where a question is answered with yes or no.
    pub yes: Id,
    /// What no is called there.
    pub no: Id,
    /// The list of danger signs: asked before anything else, and at any moment.
    pub danger_signs: ListAt,
    /// The positions of the steps that are told and not looked at.
    pub told_steps: Vec<At<Step>>,
    /// The instruction the program calls up when the bird has to rest.
    pub rest: InstructionAt,
    /// The instruction the program calls up when signs could be those of a notifiable disease.
    pub authority: InstructionAt,
    /// The instruction the program calls up once enough is known to go to a vet.
    pub go: InstructionAt,
    /// The instruction after which a cloth holds without a hand.
    pub cloth_fixed: InstructionAt,
    /// The question whether other birds are ill or dead.
    pub others: QuestionAt,
    /// The action that stands in for phoning a vet where none can be reached.
    pub phone_any: ActionAt,
    /// The action whose words on who phones stand beside a call of the plan.
    pub phone: ActionAt,
    /// The action whose being forbidden means that no amount of fluid is told.
    pub by_mouth: ActionAt,
    /// The family the program makes salt water by.
    pub salt_water: At<Family>,
    /// The source that stands for common practice.
    pub common_practice: At<Source>,
    /// The source that stands for a proposal of ours.
    pub our_proposal: At<Source>,
}

/// The question what bird she is, and which kind each of its answers stands for.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct KindAsked {
    /// The question.
    pub question: QuestionAt,
    /// The kind of each answer, in the order of the answers.
    pub kinds: Vec<Kind>,
}

impl KindAsked {
    /// The kind the answer at this position stands for.
    pub fn of(&self, choice: u8) -> Option<Kind> {
        self.kinds.get(usize::from(choice)).copied()
    }
}

/// The question on which side of her a wound is, and which answer is which side.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct SideAsked {
    /// The question.
    pub question: QuestionAt,
    /// The answer that means her left.
    pub left: Id,
    /// The answer that means her right.
    pub right: Id,
}

impl SideAsked {
    /// The side an answer names, where it names one.
    pub fn of(&self, answer: &Answer) -> Option<Side> {
        match answer {
            Answer::Choice(id) if *id == self.left => Some(Side::Left),
            Answer::Choice(id) if *id == self.right => Some(Side::Right),
            Answer::Choice(_) | Answer::Amount(_) | Answer::Figure(_) | Answer::CannotTell => None,
        }
    }
}

impl Roles {
    /// Whether an instruction answers nothing she was asked: letting her rest, calling an authority, and going to a vet.
    pub fn is_called_by_itself(&self, instruction: InstructionAt) -> bool {
        [self.rest, self.authority, self.go].contains(&instruction)
    }

    /// The sources that are none.
    pub const fn unsourced(&self) -> Unsourced {
        Unsourced { common_practice: self.common_practice, our_proposal: self.our_proposal }
    }
}

impl Protocol {
    /// The question what bird she is.
    pub fn kind_question(&self) -> &Question {
        self.ask(self.roles.kind.question)
    }

    /// The question how soon a vet can see her.
    pub fn reach_question(&self) -> &Question {
        self.ask(self.roles.reach)
    }

    /// The question where a wound is.
    pub fn place_question(&self) -> &Question {
        self.ask(self.roles.place)
    }

    /// The question on which side of her a wound is.
    pub fn side_question(&self) -> &Question {
        self.ask(self.roles.side.question)
    }

    /// The kind an answer to [`Self::kind_question`] stands for.
    pub fn kind_of(&self, answer: &Answer) -> Option<Kind> {
        let Answer::Choice(id) = answer else { return None };
        self.roles.kind.of(self.kind_question().choice_at(id.as_str())?)
    }

    /// Whether a question asks for a danger sign.
    pub fn is_danger_sign(&self, question: &Question) -> bool {
        question.list == Some(self.roles.danger_signs)
    }

    /// Whether a question asks for a sign of the bird that can be fine or not; its first answer is then the fine one. How soon a
    /// vet can see her is none.
    pub fn is_sign(&self, at: QuestionAt) -> bool {
        let question = self.ask(at);
        !question.wound && at != self.roles.reach && question.has_a_fine_answer()
    }
}

/// The source that is none, which goes with a strength: common practice, or a proposal of ours.
#[derive(Clone, Copy, Debug)]
pub struct Unsourced {
    /// Stands for common practice.
    pub common_practice: At<Source>,
    /// Stands for a proposal of ours.
    pub our_proposal: At<Source>,
}

impl Unsourced {
    /// What the source must be, where it is none.
    pub const fn of(self, strength: Strength) -> Option<At<Source>> {
        match strength {
            Strength::Practice => Some(self.common_practice),
            Strength::Proposal => Some(self.our_proposal),
            Strength::Read | Strength::SecondHand | Strength::Memory => None,
        }
    }
}
