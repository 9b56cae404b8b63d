//! Proving a protocol from the command line: claim by claim, with the bird that refutes one.

use super::command::{protocol, write};
use super::exit::Refusal;
use crate::protocol::Protocol;
use crate::prove::{self, Outcome, Proof, Report, Witness, Work};
use anyhow::Result;
use std::fmt::Write as _;
use std::path::Path;
use std::time::Instant;

/// The work allowed for each question to the solver. The shipped protocol needs a hundredth of it.
const ALLOWED: Work = Work(2000);

/// Proves a protocol and tells what holds; refused where something does not.
pub fn prove(folder: Option<&Path>) -> Result<()> {
    let protocol = protocol(folder)?;
    let (told, holds) = report(&protocol);
    write(&told)?;
    if holds { Ok(()) } else { Err(Refusal::Refuted(NOT_PROVEN.into()).into()) }
}

/// What a protocol that does not prove is told.
const NOT_PROVEN: &str = "the protocol is not proven: see above. Until it is, it judges no bird.";

/// The protocol that judges: the shipped one, which a test proves; or one's own, refused unless it loads and proves.
pub fn proven(own: Option<&Path>) -> Result<Protocol> {
    let protocol = protocol(own)?;
    if own.is_none() {
        return Ok(protocol);
    }
    let (told, holds) = report(&protocol);
    if holds { Ok(protocol) } else { Err(Refusal::Data(format!("{NOT_PROVEN}\n{told}")).into()) }
}

fn report(protocol: &Protocol) -> (String, bool) {
    let began = Instant::now();
    let report = prove::prove(protocol, ALLOWED);
    let took = began.elapsed();
    let Report { forms, wounds, .. } = &report;
    let mut out = format!(
        "protocol {}, fingerprint {}\n{} questions, {} rules; at most 10^{forms} ways to fill the form in, with up to {wounds} wounds\n\n",
        protocol.version,
        protocol.fingerprint,
        protocol.questions.len(),
        protocol.rules.len(),
    );
    for proof in &report.proofs {
        told(&mut out, proof);
    }
    let _ = writeln!(out, "\nin {:.2} s. {}", took.as_secs_f64(), protocol.caution);
    (out, report.holds())
}

fn told(out: &mut String, Proof { claim, cases, outcome }: &Proof) {
    let verdict = match outcome {
        Outcome::Proven | Outcome::Noted(_) => "proven",
        Outcome::Refuted(_) => "REFUTED",
        Outcome::GivenUp => "NOT DECIDED: the work allowed did not suffice; nothing is claimed",
    };
    let _ = writeln!(out, "{verdict}: {}\n    {cases} cases; {}", claim.words(), claim.method());
    match outcome {
        Outcome::Proven | Outcome::GivenUp => {}
        Outcome::Noted(notes) => notes.iter().for_each(|note| {
            let _ = writeln!(out, "    note: {note}");
        }),
        Outcome::Refuted(witnesses) => witnesses.iter().for_each(|witness| shown(out, witness)),
    }
}

fn shown(out: &mut String, Witness { what, bird, .. }: &Witness) {
    let _ = writeln!(out, "    x {what}");
    if !bird.is_empty() {
        let _ = writeln!(out, "      a bird that shows it, all else fine: {}", bird.join("; "));
    }
}
