//! Proving a protocol from the command line: claim by claim, with the bird that refutes one.

use super::command::{load, protocol_text, shipped, shown, write, write_json};
use super::exit::Refusal;
use crate::content::compared;
use crate::phrase::document::own_caution;
use crate::protocol::place::place;
use crate::protocol::{File, Protocol};
use crate::prove::{self, Outcome, Proof, Report, Witness, Work};
use crate::render::json;
use crate::words::english;
use anyhow::Result;
use std::fmt::Write as _;
use std::path::Path;
use std::time::Instant;

/// The work allowed for each case. The shipped protocol needs a hundredth of it.
const ALLOWED: Work = Work(2000);

/// Proves a protocol and tells what holds; refused where something does not.
pub fn prove(folder: Option<&Path>, as_json: bool) -> Result<()> {
    let (files, protocol) = loaded(folder)?;
    let own = shipped()?;
    let compared = folder.map(|_| prove::compare(&own, &protocol, ALLOWED));
    let beside = compared.as_ref().map_or_else(String::new, |found| compared::text(&own, &protocol, found));
    let (told, report) = report(&files, &protocol, &beside);
    if as_json {
        let value = json::proof::proof([&own, &protocol], &files, &report, compared.as_ref());
        write_json(&value)?;
    } else {
        write(&told)?;
    }
    match report.failed() {
        0 => Ok(()),
        failed => Err(Refusal::Refuted(shown(&format!("{failed} of {} {NOT_PROVEN}", report.proofs.len()))).into()),
    }
}

/// What a protocol that does not prove is told.
const NOT_PROVEN: &str = "claims do not hold or were not decided. Until they hold, this protocol judges no bird.";

/// The protocol that judges: the shipped one, which a test proves; or one's own, refused unless it loads and proves.
pub fn proven(own: Option<&Path>) -> Result<Protocol> {
    if own.is_none() {
        return shipped();
    }
    let (files, protocol) = loaded(own)?;
    let (told, report) = report(&files, &protocol, "");
    match report.failed() {
        0 => Ok(protocol),
        failed => {
            let claims = report.proofs.len();
            Err(Refusal::Data(shown(&format!("{failed} of {claims} {NOT_PROVEN} See coopside prove.\n{told}"))).into())
        }
    }
}

fn loaded(own: Option<&Path>) -> Result<(Vec<File>, Protocol)> {
    let files = protocol_text(own)?;
    let protocol = load(&files)?;
    Ok((files, protocol))
}

/// What holds, then what is worth a second look and what stands `beside` it, then what does not hold: the last lines are the
/// ones that are read.
fn report(files: &[File], protocol: &Protocol, beside: &str) -> (String, Report) {
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
    let holds = |proof: &&Proof| matches!(proof.outcome, Outcome::Proven | Outcome::Noted(_));
    for proof in report.proofs.iter().filter(holds) {
        claim(&mut out, "proven", proof);
    }
    let notes = report.proofs.iter().flat_map(|proof| match &proof.outcome {
        Outcome::Noted(notes) => notes.clone(),
        Outcome::Proven | Outcome::Refuted(_) | Outcome::GivenUp => Vec::new(),
    });
    list(&mut out, "Worth a second look; no fault:", notes.collect());
    out.push_str(beside);
    for proof in report.proofs.iter().filter(|proof| !holds(proof)) {
        out.push('\n');
        failed(&mut out, files, proof);
    }
    let _ = writeln!(
        out,
        "\nin {:.2} s. A proof shows that a protocol holds together; whether its advice is right only a vet can say.\n{}",
        took.as_secs_f64(),
        english(own_caution())
    );
    (out, report)
}

fn claim(out: &mut String, word: &str, Proof { claim, cases, .. }: &Proof) {
    let _ = writeln!(out, "{word}: {}\n    {cases} cases; {}", claim.words(), claim.method());
}

fn list(out: &mut String, title: &str, lines: Vec<String>) {
    if !lines.is_empty() {
        let _ = writeln!(out, "\n{title}");
    }
    for line in lines {
        let _ = writeln!(out, "    - {line}");
    }
}

fn failed(out: &mut String, files: &[File], proof: &Proof) {
    match &proof.outcome {
        Outcome::Refuted(witnesses) => {
            claim(out, "REFUTED", proof);
            for witness in witnesses {
                bird_shown(out, files, witness);
            }
        }
        Outcome::GivenUp => {
            claim(out, "NOT DECIDED", proof);
            let _ = writeln!(
                out,
                "    the work allowed did not suffice; nothing is claimed. Fewer or plainer rules prove sooner."
            );
        }
        Outcome::Proven | Outcome::Noted(_) => {}
    }
}

fn bird_shown(out: &mut String, files: &[File], Witness { what, item, sort, bird, .. }: &Witness) {
    let place = item.as_ref().zip(*sort).and_then(|(item, sort)| place(files, sort, item.as_str()));
    let place = place.map_or_else(String::new, |place| format!("{place}: "));
    let _ = writeln!(out, "    x {place}{what}");
    if !bird.is_empty() {
        let _ = writeln!(out, "      a bird that shows it, all else fine: {}", bird.join("; "));
    }
}
