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

use super::booklet::{Ask, Begins, Booklet, Chapter, Leaf, PageLabels};
use super::document::{Item, Section, Tone, caution_text, short};
use crate::phrase::{Text, booklet, review as phrase, terms};
use crate::practice::Script;
use crate::protocol::Protocol;
use crate::protocol::rule::Rule;
use crate::words::Reader;
use form::Verdict;
use kept::Kept;

/// Writes a rule down with all it rests on, so that any other wording of it is told from this one: a form is held against it.
pub type RuleWhole = fn(&Protocol, &Rule) -> String;

/// One bird or rule, as it is printed and as a form names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its key in a form: `bird:NAME` or `rule:NAME`.
    pub id: String,
    /// What it is, in a line.
    pub title: Text,
    /// A fingerprint of all it says, in whatever language it is read: a form holds as long as this stays the same.
    pub content: String,
    /// As it is printed.
    pub leaf: Leaf<Text>,
}

/// The rules of one degree that are about one step of the examination.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// How soon they kill.
    pub soon: Soon,
    /// What they are about.
    pub about: Text,
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
    pub fn of(protocol: &Protocol, scripts: &[Script], whole: RuleWhole) -> Self {
        let deadly = deadly(protocol);
        let marks: bird::Marks =
            (1..).zip(&deadly).map(|(number, of): (usize, _)| (of.rule.id.to_string(), format!("R{number}"))).collect();
        let mut told = repeated::Printed::default();
        let chosen = choice::choose(protocol, scripts);
        let birds: Vec<Entry> =
            (1..).zip(&chosen).map(|(number, of)| bird::entry(protocol, of, number, &marks, &mut told)).collect();
        let mut rules: Vec<Group> = Vec::new();
        for (number, of) in (1..).zip(&deadly) {
            let about = protocol.steps.get(of.step).map_or_else(Text::default, |step| {
                let hands = if step.hands_on { phrase::in_the_hand() } else { phrase::hands_off() };
                terms::cite(Text::quoted(&step.name), hands).into()
            });
            let entry = rule::entry(protocol, of, format!("R{number}"), whole, &mut told);
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
    pub fn booklet(&self, kept: &Kept, reader: Reader) -> Booklet<Text> {
        let leaf = |entry: &Entry| beside(entry, &self.version, kept);
        let birds = Chapter {
            id: "birds".into(),
            heading: phrase::heading_birds(self.birds.len()).into(),
            intro: Vec::new(),
            leaves: self.birds.iter().map(leaf).collect(),
            begins: Begins::EachOnAPage,
        };
        let mut soon = None;
        let rules = self.rules.iter().enumerate().map(|(at, group)| {
            let first = soon.replace(group.soon) != Some(group.soon);
            Chapter {
                id: format!("rules-{}", at + 1),
                heading: terms::named(cover::heading(group.soon), Text::capitals(group.about.clone())).into(),
                intro: if first { vec![cover::why(group.soon).into()] } else { Vec::new() },
                leaves: group.rules.iter().map(leaf).collect(),
                begins: if first { Begins::OnAPage } else { Begins::Below },
            }
        });
        let mut chapters: Vec<Chapter<Text>> = [birds].into_iter().chain(rules).collect();
        chapters.push(cover::missing());
        let mut booklet = Booklet {
            title: phrase::title().into(),
            made: phrase::made(Text::typed(&self.version), Text::typed(short(&self.fingerprint))).into(),
            caution: caution_text(reader.country),
            chapters,
            labels: PageLabels::every(),
        };
        let first = cover::cover(self, reader.booklet(&booklet).words(), kept);
        booklet.chapters.insert(0, first);
        booklet
    }
}

/// An item's leaf with what forms say of it below.
fn beside(entry: &Entry, version: &str, kept: &Kept) -> Leaf<Text> {
    let mut leaf = entry.leaf.clone();
    let said = kept.of(version, &entry.id, &entry.content);
    if !said.is_empty() {
        let items = said.into_iter().map(Item::plain).collect();
        leaf.sections.push(Section { heading: Text::default(), tone: Tone::Plain, items });
    }
    leaf
}

/// What forms say of rules, as they stand now; nothing where none says anything.
pub fn said_of_rules(protocol: &Protocol, kept: &Kept, whole: RuleWhole) -> Option<Section<Text>> {
    let item = |rule: &Rule| {
        let id = id_of_rule(rule);
        if !kept.names(&id) {
            return None;
        }
        let more = kept.of(&protocol.version, &id, &content_of_rule(protocol, rule, whole));
        let lead = terms::named(Text::typed(rule.id.as_str()), Text::quoted(&rule.reason));
        (!more.is_empty()).then(|| Item { lead: lead.into(), more, ..Item::default() })
    };
    let mut items: Vec<Item<Text>> = protocol.rules.iter().filter_map(item).collect();
    if items.is_empty() {
        return None;
    }
    items.insert(0, Item::plain(phrase::no_review()));
    Some(Section { heading: phrase::heading_forms().into(), tone: Tone::Plain, items })
}

/// The choice that stands beside every item.
fn boxes() -> Ask<Text> {
    Ask::Choice(Verdict::ALL.map(|verdict| verdict.word().into()).to_vec(), booklet::remark().into())
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
