//! What all of it rests on: every source, how well it is known, what is borrowed, and what was left out on purpose.

use super::document::{Item, Section, Tone, section};
use crate::content::old::caution;
use crate::protocol::Protocol;
use crate::protocol::evidence::{Fact, Fate};
use crate::protocol::rule::Advice;
use crate::protocol::source::{Grade, Source, Strength};
use crate::protocol::table::At;
use crate::protocol::texts::Country;
use std::collections::{BTreeMap, BTreeSet};

/// The sources by what sort of thing they are, each with what rests on it.
pub fn sections(protocol: &Protocol, country: &Country) -> Vec<Section> {
    let carrying = protocol.sources.placed().map(|(at, _)| (at, carries(protocol, at)));
    let (carrying, idle): (Vec<_>, Vec<_>) = carrying.partition(|(_, carries)| !carries.is_empty());
    let items =
        |of: &[(At<Source>, Vec<String>)]| of.iter().map(|(at, carries)| item(protocol, *at, carries)).collect();
    let by_grade = Grade::ALL.map(|grade| {
        let of_grade: Vec<_> =
            carrying.iter().filter(|(at, _)| protocol.sources.of(*at).grade == grade).cloned().collect();
        section(&grade.words().to_uppercase(), Tone::Plain, items(&of_grade))
    });
    let first = section("WHAT IT RESTS ON", Tone::Plain, summary(protocol));
    let apart = section("NOTHING HERE RESTS ON THESE", Tone::Plain, items(&idle));
    [first].into_iter().chain(by_grade).chain([apart, caution(country)]).flatten().collect()
}

/// All of it, with every fact and what became of it, and what forms say of rules.
pub fn whole(protocol: &Protocol, country: &Country, facts: &[Fact], forms: Option<Section>) -> Vec<Section> {
    let mut sections = sections(protocol, country);
    let caution = sections.pop();
    let told = |fact: &Fact, fate: String| Item::with(format!("{} {}", fact.id, fact.fact), fate, &[]);
    let (mut covered, mut declined) = (Vec::new(), Vec::new());
    for fact in facts {
        match &fact.fate {
            Fate::Covered(by) => covered.push(told(fact, format!("Carried by: {}.", by.join(", ")))),
            Fate::Declined(because) => declined.push(told(fact, format!("Left out: {because}"))),
        }
    }
    sections.extend(section("FACTS, AND WHAT CARRIES THEM", Tone::Plain, covered));
    sections.extend(section("LEFT OUT ON PURPOSE", Tone::Plain, declined));
    sections.extend(forms);
    sections.extend(caution);
    sections
}

/// What a name in a list of sources must not be taken for.
const ENDORSED_BY_NOBODY: &str = "The sources are named. Nobody named there has endorsed or reviewed this.";

/// How many rules rest on what, and how many advise more than their source says.
fn summary(protocol: &Protocol) -> Vec<Item> {
    let rules = &protocol.rules;
    let ours = rules.iter().filter(|rule| matches!(rule.advice, Advice::Ours)).count();
    let mut by_strength: BTreeMap<&str, usize> = BTreeMap::new();
    for rule in rules {
        *by_strength.entry(rule.strength.words()).or_default() += 1;
    }
    let strengths: Vec<String> = by_strength.iter().map(|(words, count)| format!("{words}: {count}")).collect();
    let lines = [
        format!("{} rules. What their findings rest on: {}.", rules.len(), strengths.join("; ")),
        format!(
            "In {ours} of them the advice is our inference, not reviewed by a vet; in the others the source itself gives it."
        ),
        ENDORSED_BY_NOBODY.to_owned(),
        "None of our inferences alone advises a humane end. It can only say that one may come into question."
            .to_owned(),
    ];
    lines.into_iter().map(Item::plain).collect()
}

fn item(protocol: &Protocol, at: At<Source>, carries: &[String]) -> Item {
    let source = protocol.sources.of(at);
    let mut strengths: BTreeSet<&str> = BTreeSet::new();
    let mut borrowed: BTreeSet<&str> = BTreeSet::new();
    for rule in &protocol.rules {
        if rule.rests_on(at) {
            borrowed.extend(rule.borrowed.as_deref());
        }
        if rule.source == at {
            strengths.insert(rule.strength.words());
        }
    }
    let paragraphs = protocol.paragraphs.iter().filter(|paragraph| paragraph.source == at);
    let paragraphs: Vec<(Strength, Option<&str>)> =
        paragraphs.map(|paragraph| (paragraph.strength, paragraph.borrowed.as_deref())).collect();
    borrowed.extend(paragraphs.iter().filter_map(|(_, borrowed)| *borrowed));
    strengths.extend(paragraphs.iter().map(|(strength, _)| strength.words()));
    let laws = protocol.countries.iter().flat_map(|country| &country.laws).filter(|law| law.source == at);
    strengths.extend(laws.map(|law| law.strength.words()));
    let mut more = Vec::new();
    if !source.at.is_empty() {
        more.push(source.at.clone());
    }
    more.extend((!carries.is_empty()).then(|| format!("Carries {}.", carries.join(", "))));
    more.extend((!strengths.is_empty()).then(|| format!("How we know it: {}.", joined(&strengths))));
    more.extend((!borrowed.is_empty()).then(|| format!("Borrowed from: {}.", joined(&borrowed))));
    Item { lead: source.cite.clone(), more, ..Item::default() }
}

/// What rests on a source, counted by sort.
fn carries(protocol: &Protocol, at: At<Source>) -> Vec<String> {
    let laws = protocol.countries.iter().flat_map(|country| &country.laws);
    let counted = [
        count(usize::from(protocol.hold_source == at), "time in the hand"),
        count(protocol.rules.iter().filter(|rule| rule.rests_on(at)).count(), "rule"),
        count(protocol.questions.iter().filter(|question| question.source == at).count(), "question"),
        count(protocol.actions.iter().filter(|action| action.source == at).count(), "action"),
        count(protocol.watches.iter().filter(|watch| watch.source == at).count(), "watch sign"),
        count(protocol.instructions.iter().filter(|instruction| instruction.source == at).count(), "instruction"),
        count(protocol.paragraphs.iter().filter(|paragraph| paragraph.source == at).count(), "paragraph"),
        count(protocol.supplies.iter().filter(|supply| supply.source == at).count(), "supply"),
        count(protocol.substances.iter().filter(|item| item.source == at).count(), "substance"),
        count(protocol.ways.iter().filter(|way| way.source == at).count(), "way"),
        count(protocol.rounds.iter().filter(|round| round.source == at).count(), "round"),
        count(protocol.scores.iter().filter(|score| score.source == at).count(), "score"),
        count(laws.filter(|law| law.source == at).count(), "law"),
        count(protocol.sums.iter().filter(|sum| sum.rests.iter().any(|rest| rest.source == at)).count(), "sum"),
    ];
    counted.into_iter().flatten().collect()
}

fn joined(words: &BTreeSet<&str>) -> String {
    words.iter().copied().collect::<Vec<_>>().join("; ")
}

fn count(count: usize, noun: &str) -> Option<String> {
    match count {
        0 => None,
        1 => Some(format!("1 {noun}")),
        count => Some(format!("{count} {noun}s")),
    }
}
