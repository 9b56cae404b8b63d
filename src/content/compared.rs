//! What came of proving a protocol and of holding it against the shipped one, as text and as data.

use super::differences;
use crate::phrase::document::own_caution;
use crate::phrase::{Text, compared as phrase, differences as says};
use crate::protocol::{File, Protocol, place::place};
use crate::prove::{Comparison, Difference, MOST_SHOWN, Outcome, Report, Rungs, Shown, Witness};
use crate::words::english;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.proof/1";

/// How many differences of words are told in the text; the data holds all.
const MOST_LINES: usize = 20;

/// Everything that is milder, the birds first. `shipped` is the protocol that comes with the program.
pub fn text(shipped: &Protocol, own: &Protocol, found: &Comparison) -> String {
    let mut out = String::new();
    if !found.shown.is_empty() {
        let _ = writeln!(out, "\n{}", english(phrase::milder()));
    }
    for shown in &found.shown {
        bird(&mut out, shipped, shown);
    }
    if found.ended_early {
        let _ = writeln!(out, "    {}", english(phrase::ended_early(MOST_SHOWN)));
    }
    list(&mut out, &english(phrase::less()), &found.weaker, usize::MAX);
    if !found.undecided.is_empty() {
        let names = Text::list(found.undecided.iter().map(differences::sought));
        let _ = writeln!(out, "\n{}", english(phrase::not_decided(names)));
    }
    list(&mut out, &english(phrase::otherwise()), &found.otherwise, MOST_LINES);
    if found.nothing_milder() {
        let same = shipped.fingerprint == own.fingerprint;
        let told = if same { phrase::the_same(found.cases) } else { phrase::nothing_milder(found.cases) };
        let _ = writeln!(out, "\n{}", english(told));
    }
    out
}

fn bird(out: &mut String, shipped: &Protocol, shown: &Shown) {
    for (nth, loss) in shown.losses.iter().enumerate() {
        let _ = writeln!(out, "    {} {}", if nth == 0 { "x" } else { " " }, english(differences::loss(shipped, loss)));
    }
    if !shown.rules.is_empty() {
        let rules = Text::list(shown.rules.iter().map(|id| Text::typed(format!("`{id}`"))));
        let _ = writeln!(out, "      {}", english(phrase::rules(rules)));
    }
    let signs = Text::clauses(shown.bird.iter().map(Text::quoted));
    let _ = writeln!(out, "      {}", english(phrase::bird(signs)));
    if shown.minutes > 0 {
        let _ = writeln!(out, "      {}", english(phrase::judged_after(shown.minutes / 60, shown.minutes % 60)));
    }
    let _ = writeln!(out, "      shipped: {}", english(differences::rungs(shown.shipped)));
    let _ = writeln!(out, "      yours:   {}", english(differences::rungs(shown.own)));
}

fn list(out: &mut String, title: &str, all: &[Difference], most: usize) {
    if !all.is_empty() {
        let _ = writeln!(out, "\n{title}");
    }
    for Difference { sort, id, what } in all.iter().take(most) {
        let line = says::line(differences::sort(*sort), Text::typed(id), differences::what(what));
        let _ = writeln!(out, "    - {}", english(line));
    }
    if all.len() > most {
        let _ = writeln!(out, "    {}", english(phrase::and_more(all.len() - most)));
    }
}

/// The same as data, with every claim and how it came out. `found` is none where the shipped protocol itself was proven.
pub fn data([shipped, own]: [&Protocol; 2], files: &[File], report: &Report, found: Option<&Comparison>) -> Value {
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
