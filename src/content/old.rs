//! What is converted already, said in English at once, for what is not.

#![expect(missing_docs, reason = "gone once every document is converted")]

use super::document::{self, Item, Section};
use super::{answers, why};
use crate::finding::{About, Findings};
use crate::judge::{Level, Reason};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Question};
use crate::protocol::source::Strength;
use crate::protocol::texts::{Country, Under};
use crate::prove::Exact;
use crate::sheet::Sheet;
use crate::words::{Reader, english};
use crate::zone::Zone;

/// The program's own caution. No protocol can put another in its place.
pub const CAUTION: &str = "Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";

pub fn headline(protocol: &Protocol, reason: Reason) -> String {
    english(why::headline(protocol, reason))
}

pub fn headline_of(protocol: &Protocol, reason: Reason, of: &[Reason]) -> String {
    english(why::headline_of(protocol, reason, of))
}

pub fn consequence(protocol: &Protocol, reason: Reason, no_vet: bool) -> String {
    english(why::consequence(protocol, reason, no_vet))
}

pub fn labels(protocol: &Protocol, reason: Reason) -> Vec<String> {
    why::labels(protocol, reason).into_iter().map(english).collect()
}

pub fn cite(protocol: &Protocol, source: &str, strength: Strength) -> String {
    let at = protocol.sources.at(source);
    at.map_or_else(|| source.to_owned(), |at| english(why::cite(protocol, at, strength)))
}

pub fn known(protocol: &Protocol, findings: &Findings, about: About, question: &Question) -> Option<String> {
    answers::known(protocol, findings, about, question).map(english)
}

pub fn untold<'a>(protocol: &Protocol, sheet: &Sheet, reasons: impl IntoIterator<Item = &'a Reason>) -> Option<String> {
    answers::untold(protocol, sheet, reasons).map(english)
}

pub fn topic(protocol: &Protocol, asked: Asked) -> String {
    english(document::topic(protocol, asked))
}

pub fn list(items: &[String]) -> String {
    format!("{}.", items.join(", "))
}

pub fn slower(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<String> {
    document::slower(protocol, findings, verdict).map(english)
}

pub fn wound_name(protocol: &Protocol, findings: &Findings, number: usize) -> String {
    english(document::wound_name(protocol, findings, number))
}

pub fn wound_place(protocol: &Protocol, findings: &Findings, number: usize) -> Option<String> {
    document::wound_place(protocol, findings, number).map(english)
}

pub fn caution(country: &Country) -> Option<Section> {
    document::caution(country).map(|section| Reader::english(Zone::UTC, country).section(&section))
}

pub fn caution_text(country: &Country) -> String {
    english(document::caution_text(country))
}

pub fn paragraphs(protocol: &Protocol, verdict: &Exact, under: Under) -> Vec<Item> {
    let reader = Reader::english(Zone::UTC, protocol.no_country());
    document::paragraphs(protocol, verdict, under).iter().map(|item| reader.item(item)).collect()
}

pub fn glossary(protocol: &Protocol, sections: &[Section]) -> Option<Section> {
    let reader = Reader::english(Zone::UTC, protocol.no_country());
    document::glossary(protocol, sections).map(|section| reader.section(&section))
}

pub fn line(protocol: &Protocol, findings: &Findings, asked: Asked) -> String {
    english(super::unweighed::line(protocol, findings, asked))
}

pub fn band<T: Copy + PartialEq + Default>(level: Level<T>, words: impl Fn(T) -> &'static str) -> String {
    english(super::judgement::band_of(level, |rung| crate::phrase::Text::typed(words(rung))))
}

pub fn settled(verdict: &crate::prove::Whole, told: bool) -> String {
    english(super::proven::settled(verdict, told))
}

/// A section that is said already, among those that are not.
pub fn loose(section: Section) -> Section<crate::phrase::Text> {
    use crate::phrase::Text;
    let item = |item: Item| Item {
        lead: Text::typed(item.lead),
        more: item.more.into_iter().map(Text::typed).collect(),
        picture: item.picture,
        asked: item.asked.into_iter().map(Text::typed).collect(),
        why: item.why,
        timed: item.timed,
    };
    Section {
        heading: Text::typed(section.heading),
        tone: section.tone,
        items: section.items.into_iter().map(item).collect(),
    }
}
