//! A packet for an avian vet: twenty birds and every rule that can kill, each to be agreed with, changed or rejected. What comes
//! back is a form, which is told beside its items and alters nothing else: no verdict, and no word of the caution.

mod bird;
mod choice;
mod cover;
mod deadly;
pub mod form;
pub mod kept;
mod repeated;
mod rule;

pub use choice::BIRDS;
pub use deadly::{Deadly, Soon, deadly, soon};
pub use rule::{content as content_of_rule, id as id_of_rule};

use super::booklet::{Ask, Begins, Booklet, Chapter, Leaf};
use super::document::{Item, Section, Tone, short};
use crate::content::old::caution_text;
use crate::practice::Script;
use crate::protocol::Protocol;
use crate::protocol::texts::Country;
use form::Verdict;
use kept::Kept;

/// One bird or rule, as it is printed and as a form names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its key in a form: `bird:NAME` or `rule:NAME`.
    pub id: String,
    /// What it is, in a line.
    pub title: String,
    /// A fingerprint of all it says: a form holds as long as this stays the same.
    pub content: String,
    /// As it is printed.
    pub leaf: Leaf,
}

/// The rules of one degree that are about one step of the examination.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// How soon they kill.
    pub soon: Soon,
    /// What they are about.
    pub about: String,
    /// The rules.
    pub rules: Vec<Entry>,
}

/// What a vet is asked to decide, in the order of reading: so that whoever stops early has decided on the gravest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packet {
    /// The protocol's version.
    pub version: String,
    /// The protocol's fingerprint.
    pub fingerprint: String,
    /// The birds, the gravest first.
    pub birds: Vec<Entry>,
    /// The rules that can kill, those that kill within minutes first.
    pub rules: Vec<Group>,
    /// How many rules cannot.
    pub others: usize,
}

impl Packet {
    /// The packet of a protocol, with birds out of these.
    pub fn of(protocol: &Protocol, scripts: &[Script]) -> Self {
        let deadly = deadly(protocol);
        let marks: bird::Marks =
            (1..).zip(&deadly).map(|(number, of): (usize, _)| (of.rule.id.to_string(), format!("R{number}"))).collect();
        let mut told = repeated::Printed::default();
        let chosen = choice::choose(protocol, scripts);
        let birds: Vec<Entry> =
            (1..).zip(&chosen).map(|(number, of)| bird::entry(protocol, of, number, &marks, &mut told)).collect();
        let mut rules: Vec<Group> = Vec::new();
        for (number, of) in (1..).zip(&deadly) {
            let about = protocol.steps.get(of.step).map_or_else(String::new, |step| {
                format!("{} ({})", step.name, if step.hands_on { "in the hand" } else { "hands off" })
            });
            let entry = rule::entry(protocol, of, format!("R{number}"), &mut told);
            match rules.last_mut().filter(|group| group.soon == of.soon && group.about == about) {
                Some(group) => group.rules.push(entry),
                None => rules.push(Group { soon: of.soon, about, rules: vec![entry] }),
            }
        }
        let others = protocol.rules.len().saturating_sub(deadly.len());
        Self { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone(), birds, rules, others }
    }

    /// Everything that is asked, in the order of reading.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.birds.iter().chain(self.rules.iter().flat_map(|group| &group.rules))
    }

    /// The packet as a booklet; beside each item what forms say of it.
    pub fn booklet(&self, kept: &Kept, country: &Country) -> Booklet {
        let leaf = |entry: &Entry| beside(entry, &self.version, kept);
        let birds = Chapter {
            id: "birds".into(),
            heading: format!("{} BIRDS, THE GRAVEST FIRST", self.birds.len()),
            intro: Vec::new(),
            leaves: self.birds.iter().map(leaf).collect(),
            begins: Begins::EachOnAPage,
        };
        let mut soon = None;
        let rules = self.rules.iter().enumerate().map(|(at, group)| {
            let first = soon.replace(group.soon) != Some(group.soon);
            Chapter {
                id: format!("rules-{}", at + 1),
                heading: format!("{}: {}", cover::heading(group.soon), group.about.to_uppercase()),
                intro: if first { vec![cover::why(group.soon).to_owned()] } else { Vec::new() },
                leaves: group.rules.iter().map(leaf).collect(),
                begins: if first { Begins::OnAPage } else { Begins::Below },
            }
        });
        let mut chapters: Vec<Chapter> = [birds].into_iter().chain(rules).collect();
        chapters.push(cover::missing());
        let mut booklet = Booklet {
            title: "Coopside: a packet for an avian vet".to_owned(),
            made: format!("Protocol {} ({})", self.version, short(&self.fingerprint)),
            caution: caution_text(country),
            chapters,
        };
        let first = cover::cover(self, booklet.words(), kept);
        booklet.chapters.insert(0, first);
        booklet
    }
}

/// An item's leaf with what forms say of it below.
fn beside(entry: &Entry, version: &str, kept: &Kept) -> Leaf {
    let mut leaf = entry.leaf.clone();
    let said = kept.of(version, &entry.id, &entry.content);
    if !said.is_empty() {
        let items = said.into_iter().map(Item::plain).collect();
        leaf.sections.push(Section { heading: String::new(), tone: Tone::Plain, items });
    }
    leaf
}

/// What forms say of rules, as they stand now; nothing where none says anything.
pub fn said_of_rules(protocol: &Protocol, kept: &Kept) -> Option<Section> {
    let item = |rule: &crate::protocol::rule::Rule| {
        let id = id_of_rule(rule);
        if !kept.names(&id) {
            return None;
        }
        let more = kept.of(&protocol.version, &id, &content_of_rule(protocol, rule));
        (!more.is_empty()).then(|| Item { lead: format!("{}: {}", rule.id, rule.reason), more, ..Item::default() })
    };
    let mut items: Vec<Item> = protocol.rules.iter().filter_map(item).collect();
    if items.is_empty() {
        return None;
    }
    items.insert(0, Item::plain(NO_REVIEW));
    Some(Section { heading: "WHAT FORMS SAY OF RULES".to_owned(), tone: Tone::Plain, items })
}

/// What a form is not.
pub const NO_REVIEW: &str =
    "A form is what somebody sent back. It is no review, and it alters no verdict and no caution.";

/// The choice that stands beside every item.
fn boxes() -> Ask {
    Ask::Choice(Verdict::ALL.map(Verdict::words).to_vec())
}

/// A short fingerprint of texts, each by itself.
fn fingerprint(texts: &[&str]) -> String {
    let mut hasher = blake3::Hasher::new();
    for text in texts {
        hasher.update(&text.len().to_le_bytes());
        hasher.update(text.as_bytes());
    }
    hasher.finalize().to_hex().chars().take(LETTERS).collect()
}

/// How many letters of a fingerprint stand in a form: 64 bits, so that no two contents ever share them by chance.
const LETTERS: usize = 16;
