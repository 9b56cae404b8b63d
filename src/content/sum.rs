//! A sum's answer as a document: its figures, what to keep in mind, how it was worked out and what it rests on.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::protocol::Protocol;
use crate::protocol::strength::Rest;
use crate::protocol::texts::Country;
use crate::reckon::Answer;
use serde_json::{Value, json};

/// The answer in full.
pub fn sections(protocol: &Protocol, country: &Country, answer: &Answer) -> Vec<Section> {
    let lines =
        answer.lines.iter().map(|line| Item::plain(format!("{}: {}", upper_first(&line.what), line.told.value)));
    let rests = answer.rests_on.iter().map(|rest| rests(protocol, rest));
    let ours = "What it says to do about it: our inference, not reviewed by a vet.";
    let rests = rests.chain([Item::plain(ours)]);
    let sections = [
        section(&answer.title.to_uppercase(), Tone::Plain, lines.collect()),
        section("KEEP IN MIND", Tone::Plain, answer.notes.iter().map(Item::plain).collect()),
        section("HOW", Tone::Plain, vec![Item::plain(format!("{}.", upper_first(answer.formula)))]),
        section("RESTS ON", Tone::Plain, rests.collect()),
        crate::content::old::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// What a sum or a table rests on, for files that leave the program.
pub fn rests_json(protocol: &Protocol, rests: &[Rest]) -> Vec<Value> {
    let json = |rest: &Rest| {
        let source = protocol.source_id(rest.source);
        json!({ "source": source, "strength": rest.strength, "what": rest.what, "borrowed_from": rest.borrowed })
    };
    rests.iter().map(json).collect()
}

/// An answer, for files that leave the program.
pub fn json(protocol: &Protocol, answer: &Answer) -> Value {
    json!({
        "title": answer.title, "lines": answer.lines, "formula": answer.formula,
        "rests_on": rests_json(protocol, &answer.rests_on), "notes": answer.notes,
    })
}

/// One thing a sum rests on: what is taken, from whom, how well known, and whose figure it is.
pub fn rests(protocol: &Protocol, rest: &Rest) -> Item {
    let borrowed = rest.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
    let source = crate::content::old::cite(protocol, protocol.source_id(rest.source).as_str(), rest.strength);
    Item::plain(format!("{}: {source}{borrowed}.", upper_first(&rest.what)))
}
