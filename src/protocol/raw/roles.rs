//! What RON may say of roles: which of a protocol's own names stands for what the program itself asks for.

use crate::bird::Kind;
use crate::typed::Household;
use serde::Deserialize;

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Roles {
    /// The question what bird she is.
    pub kind: Kinds,
    /// The question how soon a vet can see her.
    pub reach: String,
    /// The question what happened to her.
    pub happened: String,
    /// The question when it happened.
    pub when: String,
    /// The question where a wound is.
    pub place: String,
    /// The question on which side of her a wound is.
    pub side: Sides,
    /// What a vet asks about the birds she lives with and the days before.
    pub background: Vec<String>,
    /// What a keeper tells of a drawn bird before anybody looks.
    pub story: Vec<String>,
    /// What is told of a drawn bird's wound, though no answer is worse than another.
    pub of_wounds: Vec<String>,
    /// What the answers of a question are called that is answered with yes or no.
    pub yes: String,
    pub no: String,
    /// What is said of such a sign that is not seen, where the question has no words of its own for it.
    pub not_seen: String,
    /// The list that is asked before anything else, and at any moment.
    pub danger_signs: String,
    /// The steps that are told and not looked at.
    pub told_steps: Vec<String>,
    /// The instruction to let her rest.
    pub rest: String,
    /// The instruction to call the animal-health authority.
    pub authority: String,
    /// The instruction to go, once enough is known.
    pub go: String,
    /// The instruction after which a cloth holds without a hand.
    pub cloth_fixed: String,
    /// The question whether other birds are ill or dead.
    pub others: String,
    /// The action in place of phoning a vet where none can be reached.
    pub phone_any: String,
    pub phone: String,
    /// The action of giving by mouth.
    pub by_mouth: String,
    /// The family of salt water.
    pub salt_water: String,
    /// The country that stands for none.
    pub no_country: String,
    /// Whose spoons and cups are meant in a country, where that is known.
    pub kitchens: Vec<(String, Household)>,
    /// The source that stands for common practice.
    pub common_practice: String,
    /// The source that stands for a proposal of ours.
    pub our_proposal: String,
}

/// A question and which of its answers is which kind.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kinds {
    pub question: String,
    /// Every answer once; several may stand for one kind.
    pub answers: Vec<(String, Kind)>,
}

/// A question and which of its two answers is which side.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sides {
    pub question: String,
    pub left: String,
    pub right: String,
}
