//! Proofs over a whole protocol: claims that hold of every bird that can be, or a bird that refutes them.

mod actions;
mod dominance;
mod meaning;
mod rules;
mod witness;

use super::clauses::{Clauses, OutOfBudget, Work};
use super::domain::domain;
use super::envelope::more_wounds;
use super::form::Form;
use crate::protocol::Protocol;
use crate::sheet::Sheet;
use chrono::DateTime;

pub use crate::protocol::place::Sort;
pub use witness::Witness;
pub(super) use witness::{healthiest_of, in_words, said};

/// How a claim came out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It holds of every bird.
    Proven,
    /// It holds, and something is worth a second look.
    Noted(Vec<String>),
    /// It does not hold; each with a bird that shows it, where there is one.
    Refuted(Vec<Witness>),
    /// The work allowed did not suffice; nothing is claimed.
    GivenUp,
}

/// A claim, how it was looked into, and how it came out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Proof {
    /// What is claimed.
    pub claim: Claim,
    /// How many cases were decided.
    pub cases: usize,
    /// How it came out.
    pub outcome: Outcome,
}

/// What was proven of a protocol.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Claim by claim.
    pub proofs: Vec<Proof>,
    /// The decimal exponent of how many forms could be filled in, impossible birds among them: an upper bound.
    pub forms: u32,
    /// With how many wounds at most.
    pub wounds: usize,
}

impl Report {
    /// Whether every claim holds.
    pub fn holds(&self) -> bool {
        self.failed() == 0
    }

    /// How many claims do not hold, or were not decided.
    pub fn failed(&self) -> usize {
        let failed = |proof: &&Proof| matches!(proof.outcome, Outcome::Refuted(_) | Outcome::GivenUp);
        self.proofs.iter().filter(failed).count()
    }
}

/// Faults found so far, and what is only worth a second look.
#[derive(Default)]
struct Found {
    cases: usize,
    refuted: Vec<Witness>,
    noted: Vec<String>,
}

type Looked = Result<(), OutOfBudget>;

/// What is claimed of a protocol.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Claim {
    /// Every answer can be given by some bird.
    AnswersPossible,
    /// Every bird gets a verdict, and every rung is reached.
    RungsReached,
    /// A danger sign needs a vet at once.
    DangerIsNow,
    /// No danger sign is slept on.
    NightIsSafe,
    /// Worse never looks better.
    WorseNeverMilder,
    /// Measures grow with what they are read from.
    MeasuresGrow,
    /// Every rule decides some bird.
    RulesDecide,
    /// Every question and every answer matters.
    AnswersMatter,
    /// Nothing is both told and forbidden.
    NoConflict,
    /// No inference alone advises a humane end.
    NoInferenceAdvises,
    /// Exceptions to a humane end are asked.
    ExceptionsAsked,
    /// Every never has its instead.
    NeverHasInstead,
}

impl Claim {
    /// All of them.
    pub const ALL: [Self; 12] = [
        Self::AnswersPossible,
        Self::RungsReached,
        Self::DangerIsNow,
        Self::NightIsSafe,
        Self::WorseNeverMilder,
        Self::MeasuresGrow,
        Self::RulesDecide,
        Self::AnswersMatter,
        Self::NoConflict,
        Self::NoInferenceAdvises,
        Self::ExceptionsAsked,
        Self::NeverHasInstead,
    ];

    /// The claim in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::AnswersPossible => "Every answer can be given by some bird.",
            Self::RungsReached => {
                "Every bird gets a verdict, and every rung above the mildest is one some bird comes to."
            }
            Self::DangerIsNow => "Every danger sign needs a vet at once, whatever else is found.",
            Self::NightIsSafe => {
                "No bird is left in the dark for a night with a danger sign, or with one that could not be told."
            }
            Self::WorseNeverMilder => "Worse never looks better: need, humane end, authority.",
            Self::MeasuresGrow => "Measures grow with what they are read from.",
            Self::RulesDecide => "Every rule holds of some bird.",
            Self::AnswersMatter => "Every question and every answer matters.",
            Self::NoConflict => {
                "Nothing is both told and forbidden, conflicts can be settled, no bird is warmed and cooled at once, and every instruction leaves something to do."
            }
            Self::NoInferenceAdvises => "No inference alone advises a humane end.",
            Self::ExceptionsAsked => "Every exception to a humane end is asked.",
            Self::NeverHasInstead => "Every never has its instead.",
        }
    }

    /// How it is looked into.
    pub const fn method(self) -> &'static str {
        match self {
            Self::AnswersPossible
            | Self::RungsReached
            | Self::DangerIsNow
            | Self::NightIsSafe
            | Self::WorseNeverMilder
            | Self::RulesDecide
            | Self::AnswersMatter
            | Self::NoConflict
            | Self::ExceptionsAsked => "every bird at once, by a solver of clauses",
            Self::MeasuresGrow => "every combination of answers, tried one by one",
            Self::NoInferenceAdvises | Self::NeverHasInstead => "every rule and action, one by one",
        }
    }

    fn look(self, desk: &Prover, found: &mut Found) -> Looked {
        match self {
            Self::AnswersPossible => meaning::every_answer_possible(desk, found),
            Self::RungsReached => rules::every_rung(desk, found),
            Self::WorseNeverMilder => dominance::worse_is_never_milder(desk, found),
            Self::DangerIsNow => rules::danger_is_now(desk, found),
            Self::NightIsSafe => rules::night_is_safe(desk, found),
            Self::MeasuresGrow => {
                dominance::measures_grow(desk, found);
                Ok(())
            }
            Self::RulesDecide => rules::every_rule(desk, found),
            Self::AnswersMatter => meaning::every_answer_matters(desk, found),
            Self::NoConflict => actions::no_conflict(desk, found),
            Self::NoInferenceAdvises => {
                rules::no_inference_advises(desk, found);
                Ok(())
            }
            Self::ExceptionsAsked => rules::exceptions_are_asked(desk, found),
            Self::NeverHasInstead => {
                actions::every_never_has_an_instead(desk, found);
                actions::every_action_is_used(desk, found);
                Ok(())
            }
        }
    }
}

/// Looks into every claim.
pub fn prove(protocol: &Protocol, work: Work) -> Report {
    let proofs = Claim::ALL.into_iter().map(|claim| prove_one(protocol, claim, work)).collect();
    Report { proofs, forms: forms(protocol), wounds: wounds(protocol) }
}

/// Looks into one claim. A claim that would take more work than is allowed is given up and says so.
pub fn prove_one(protocol: &Protocol, claim: Claim, work: Work) -> Proof {
    let desk = Prover { protocol, sheet: blank(protocol), work };
    let mut found = Found::default();
    let looked = claim.look(&desk, &mut found);
    let Found { cases, refuted, noted } = found;
    // What was refuted stays so, however far the work reached.
    let outcome = match (looked, refuted.is_empty(), noted.is_empty()) {
        (_, false, _) => Outcome::Refuted(refuted),
        (Err(OutOfBudget), true, _) => Outcome::GivenUp,
        (Ok(()), true, false) => Outcome::Noted(noted),
        (Ok(()), true, true) => Outcome::Proven,
    };
    Proof { claim, cases, outcome }
}

/// One wound more than any rule speaks of: so that two of them can be told apart.
fn wounds(protocol: &Protocol) -> usize {
    more_wounds(protocol) + 1
}

/// What every proof starts from.
struct Prover<'p> {
    protocol: &'p Protocol,
    sheet: Sheet<'p>,
    work: Work,
}

impl<'p> Prover<'p> {
    /// Clauses of their own, so that the same proof always takes the same course, and a form nothing is known on.
    fn form(&self) -> (Clauses, Form<'_, 'p>) {
        let mut clauses = Clauses::new(self.work);
        let form = Form::new(self.protocol, &self.sheet, &mut clauses, wounds(self.protocol));
        (clauses, form)
    }
}

fn blank(protocol: &Protocol) -> Sheet<'_> {
    Sheet::blank(protocol, DateTime::UNIX_EPOCH)
}

/// The decimal exponent of the number of forms, rounded up.
fn forms(protocol: &Protocol) -> u32 {
    let wounds = f64::from(u32::try_from(wounds(protocol)).unwrap_or(u32::MAX));
    let digits: f64 = protocol
        .enumerated()
        .map(|(at, question)| {
            let many = f64::from(u32::try_from(domain(protocol, at).len()).unwrap_or(u32::MAX));
            many.log10() * if question.wound { wounds } else { 1.0 }
        })
        .sum();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a sum of a few hundred logarithms")]
    let digits = digits.ceil() as u32;
    digits
}
