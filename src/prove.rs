//! What can be proven of a bird and of a protocol: which outcomes are still possible, what can still matter, and why.
//!
//! The judge says what follows from what was found; this room reasons over everything that may still be found. Pure
//! functions over plain data; a solver of Boolean clauses does the searching, and every bird it names is judged again.

mod clauses;
mod comparison;
mod domain;
mod envelope;
mod exact;
mod expiry;
mod form;
mod gauge;
mod information;
mod links;
mod matter;
mod outlook;
mod proof;
mod reading;
mod reasons;
mod scales;
mod what_if;

pub use clauses::{Bit, Clauses, OutOfBudget, Work};
pub use comparison::{Comparison, Difference, Differs, Loss, MOST_SHOWN, Pairing, Rungs, Shown, Sort, Sought, compare};
pub use domain::{answer_of, domain, is_possible};
pub use envelope::{Envelope, bands, envelope, floors};
pub use exact::{Exact, Whole};
pub use expiry::holds_until;
pub use information::{Telling, most_telling};
pub use matter::matters;
pub use outlook::{Bearing, Explained, ScaleTold, ask_next, bearing, explain, judge, judge_bands};
pub use proof::{Claim, Outcome, Proof, Report, Witness, prove, prove_one};
pub use reasons::{RuledOut, ruled_out, why_at_least};
pub use scales::{Rung, Scale};
pub use what_if::{Change, Otherwise, WhatIf, what_if};
