//! What came of proving a protocol and of holding it against the shipped one, as JSON. In the program's own words: it is for the
//! author of a protocol, as `prove` is.

use crate::content::differences;
use crate::phrase::document::own_caution;
use crate::protocol::{File, Protocol, place::place};
use crate::prove::{Comparison, Difference, Outcome, Report, Rungs, Shown, Witness};
use crate::words::english;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.proof/1";

/// Every claim and how it came out. `found` is none where the shipped protocol itself was proven.
pub fn proof([shipped, own]: [&Protocol; 2], files: &[File], report: &Report, found: Option<&Comparison>) -> Value {
    let claims = report.proofs.iter().map(|proof| {
        let (word, notes, witnesses) = match &proof.outcome {
            Outcome::Proven => ("proven", Vec::new(), Vec::new()),
            Outcome::Noted(notes) => ("proven", notes.clone(), Vec::new()),
            Outcome::Refuted(witnesses) => {
                ("refuted", Vec::new(), witnesses.iter().map(|one| witness(files, one)).collect())
            }
            Outcome::GivenUp => ("not_decided", Vec::new(), Vec::new()),
        };
        json!({
            "claim": proof.claim.words(), "outcome": word, "cases": proof.cases, "notes": notes, "shown_by": witnesses,
        })
    });
    json!({
        "schema": SCHEMA,
        "caution": english(own_caution()),
        "reviewed_by_a_veterinarian": false,
        "version": own.version,
        "fingerprint": own.fingerprint,
        "holds": report.holds(),
        "claims": claims.collect::<Vec<_>>(),
        "against_the_shipped": found.map(|found| compared(shipped, found)),
    })
}

fn witness(files: &[File], Witness { what, item, sort, bird, .. }: &Witness) -> Value {
    let place = item.as_ref().zip(*sort).and_then(|(item, sort)| place(files, sort, item.as_str()));
    json!({ "what": what, "place": place, "bird": bird })
}

fn compared(shipped: &Protocol, found: &Comparison) -> Value {
    let differences = |all: &[Difference]| {
        let all = all.iter().map(|Difference { sort, id, what }| json!({ "sort": sort.id(), "id": id, "what": english(differences::what(what)) }));
        all.collect::<Vec<_>>()
    };
    json!({
        "version": shipped.version,
        "fingerprint": shipped.fingerprint,
        "nothing_milder": found.nothing_milder(),
        "cases": found.cases,
        "ended_early": found.ended_early,
        "not_decided": found.undecided.iter().map(|sought| english(differences::sought(sought))).collect::<Vec<_>>(),
        "birds": found.shown.iter().map(|shown| one(shipped, shown)).collect::<Vec<_>>(),
        "less_as_data": differences(&found.weaker),
        "otherwise": differences(&found.otherwise),
    })
}

fn one(shipped: &Protocol, shown: &Shown) -> Value {
    let losses = shown
        .losses
        .iter()
        .map(|loss| json!({ "what": loss.id(), "of": loss.of(), "say": english(differences::loss(shipped, loss)) }));
    let rungs = |Rungs { need, humane, authority }: Rungs| json!({ "need": need, "humane_end": humane, "authority_call": authority });
    json!({
        "losses": losses.collect::<Vec<_>>(), "rules": shown.rules, "bird": shown.bird,
        "judged_after_min": shown.minutes, "shipped": rungs(shown.shipped), "own": rungs(shown.own),
    })
}
