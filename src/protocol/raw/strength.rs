//! What a protocol file may say of strengths: on what a thing may be put, how strong, and which bottles are something else.

use super::care::Stock;
use crate::protocol::source::Strength;
use crate::protocol::substance::Ruling;
use serde::Deserialize;

/// Something a product may be put on.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Use {
    pub id: String,
    pub name: String,
    /// The answers of a wound that tell it: each a question and its answers.
    pub told_by: Vec<(String, Vec<String>)>,
}

/// A family of substances that are put on a bird alike.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Family {
    pub id: String,
    pub name: String,
    /// The substances it is made of.
    pub of: Vec<String>,
    /// Whether it comes as a stock that is thinned before it is used.
    #[serde(default)]
    pub thinned: bool,
    /// How it is ruled on each use; every use exactly once.
    pub on: Vec<RuledOn>,
    /// Strengths at which a bottle of that name is as a rule another product.
    #[serde(default)]
    pub others: Vec<Other>,
    /// The strongest that is thinned or used, and why nothing stronger is.
    #[serde(default)]
    pub at_most: Option<(Stock, String)>,
    /// What is kept in mind with this family alone.
    #[serde(default)]
    pub note: String,
    pub rests: Vec<Rest>,
}

/// How a family is ruled on some uses.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RuledOn {
    pub on: Vec<String>,
    pub ruling: Ruling,
    pub say: String,
    #[serde(default)]
    pub wanted: Option<Wanted>,
}

/// How strong it is wanted there.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// The weakest and the strongest that sources print.
    pub published: (Stock, Stock),
    /// What counts as that.
    pub right: (Stock, Stock),
    /// What this program makes.
    pub make: Stock,
    /// What is said of one that is stronger, and of one that is weaker.
    pub strong: String,
    pub weak: String,
}

/// A strength at which a bottle is as a rule another product.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Other {
    pub at: Stock,
    pub say: String,
}

/// What a sum rests on; which sums there are is the program's own.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sum {
    /// The sum by its name.
    pub sum: String,
    pub rests: Vec<Rest>,
}

/// What a family or a sum rests on.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rest {
    #[serde(default)]
    pub source: Option<String>,
    #[serde(default)]
    pub strength: Option<Strength>,
    pub what: String,
    #[serde(default)]
    pub borrowed: Option<String>,
}
