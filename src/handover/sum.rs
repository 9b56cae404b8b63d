//! A sum's answer as a document: its figures, what to keep in mind, how it was worked out and what it rests on.

use super::document::{self, Item, Section, Tone, section, upper_first};
use crate::protocol::Protocol;
use crate::protocol::told::Country;
use crate::reckon::Answer;

/// The answer in full.
pub fn sections(protocol: &Protocol, country: &Country, answer: &Answer) -> Vec<Section> {
    let lines =
        answer.lines.iter().map(|line| Item::plain(format!("{}: {}", upper_first(&line.what), line.told.value)));
    let rests = answer.rests_on.iter().map(|cited| {
        let borrowed = cited.borrowed_from.map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
        Item::plain(format!("{} ({}{borrowed}).", upper_first(cited.source), cited.strength.words()))
    });
    let sections = [
        section(&answer.title.to_uppercase(), Tone::Plain, lines.collect()),
        section("KEEP IN MIND", Tone::Plain, answer.notes.iter().map(Item::plain).collect()),
        section("HOW", Tone::Plain, vec![Item::plain(format!("{}.", upper_first(answer.formula)))]),
        section("RESTS ON", Tone::Plain, rests.collect()),
        document::caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}
