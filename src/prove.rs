//! What can be proven of a bird and of a protocol: which outcomes are still possible, what can still matter, and why.
//!
//! The judge says what follows from what was found; this room reasons over everything that may still be found. Pure
//! functions over plain data; a solver of Boolean clauses does the searching, and every bird it names is judged again.

mod because;
mod change;
mod clauses;
mod domain;
mod envelope;
mod form;
mod gauge;
mod matter;
mod outlook;
mod proof;
mod reading;
mod scales;
mod telling;

pub use because::{RuledOut, ruled_out, why_at_least};
pub use change::{Change, Otherwise, WhatIf, holds_until, what_if};
pub use clauses::{OutOfBudget, Work};
pub use domain::{answer_of, domain, is_possible};
pub use envelope::{Envelope, bands, envelope};
pub use matter::matters;
pub use outlook::{Explained, ScaleTold, Weight, ask_next, explain, judge, weight};
pub use proof::{Claim, Outcome, Proof, Report, Witness, prove, prove_one};
pub use scales::{Rung, Scale};
pub use telling::most_telling;
