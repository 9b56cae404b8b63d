//! What all of it rests on: every source, how well it is known, what is borrowed, and what was left out on purpose.

use super::document::{Item, Section, Tone, caution, section};
use super::terms;
use crate::phrase::{Phrase, Text, basis as phrase};
use crate::protocol::Protocol;
use crate::protocol::evidence::{Fact, Fate};
use crate::protocol::rule::Advice;
use crate::protocol::source::{Grade, Source, Strength};
use crate::protocol::table::At;
use crate::protocol::texts::Country;
use std::collections::BTreeSet;

/// The sources by what sort of thing they are, each with what rests on it.
pub fn sections(protocol: &Protocol, country: &Country) -> Vec<Section<Text>> {
    let carrying = protocol.sources.placed().map(|(at, _)| (at, carries(protocol, at)));
    let (carrying, idle): (Vec<_>, Vec<_>) = carrying.partition(|(_, carries)| !carries.is_empty());
    let items =
        |of: &[(At<Source>, Vec<Phrase>)]| of.iter().map(|(at, carries)| item(protocol, *at, carries)).collect();
    let by_grade = Grade::ALL.map(|grade| {
        let of_grade: Vec<_> =
            carrying.iter().filter(|(at, _)| protocol.sources.of(*at).grade == grade).cloned().collect();
        section(Text::capitals(sort(grade)), Tone::Plain, items(&of_grade))
    });
    let first = section(phrase::heading_rests_on(), Tone::Plain, summary(protocol));
    let apart = section(phrase::heading_idle(), Tone::Plain, items(&idle));
    [first].into_iter().chain(by_grade).chain([apart, caution(country)]).flatten().collect()
}

/// A sort of source.
const fn sort(grade: Grade) -> Phrase {
    match grade {
        Grade::Paper => phrase::papers(),
        Grade::Manual => phrase::manuals(),
        Grade::Law => phrase::law(),
        Grade::Clinic => phrase::clinics(),
        Grade::Lay => phrase::lay(),
        Grade::Practice => phrase::no_source(),
    }
}

/// All of it, with every fact and what became of it, and what forms say of rules.
pub fn whole(
    protocol: &Protocol,
    country: &Country,
    facts: &[Fact],
    forms: Option<Section<Text>>,
) -> Vec<Section<Text>> {
    let mut sections = sections(protocol, country);
    let caution = sections.pop();
    let told = |fact: &Fact, fate: Phrase| {
        Item::with(phrase::fact(Text::typed(&fact.id), Text::quoted(&fact.fact)), fate, &[])
    };
    let (mut covered, mut declined) = (Vec::new(), Vec::new());
    for fact in facts {
        match &fact.fate {
            Fate::Covered(by) => covered.push(told(fact, phrase::carried_by(Text::list(by.iter().map(Text::typed))))),
            Fate::Declined(because) => declined.push(told(fact, phrase::left_out_because(Text::quoted(because)))),
        }
    }
    sections.extend(section(phrase::heading_facts(), Tone::Plain, covered));
    sections.extend(section(phrase::heading_left_out(), Tone::Plain, declined));
    sections.extend(forms);
    sections.extend(caution);
    sections
}

/// How well things are known, in the order in which that is told of many at once.
const TOLD_IN_ORDER: [Strength; 5] =
    [Strength::Practice, Strength::Memory, Strength::Proposal, Strength::Read, Strength::SecondHand];

/// How many rules rest on what, and how many advise more than their source says; and what a name in a list of sources must not be
/// taken for.
fn summary(protocol: &Protocol) -> Vec<Item<Text>> {
    let rules = &protocol.rules;
    let ours = rules.iter().filter(|rule| matches!(rule.advice, Advice::Ours)).count();
    let strengths = TOLD_IN_ORDER.into_iter().filter_map(|strength| {
        let count = rules.iter().filter(|rule| rule.strength == strength).count();
        (count > 0).then(|| phrase::so_many(terms::strength(strength), count))
    });
    let lines = [
        phrase::all_rules(rules.len(), Text::clauses(strengths)),
        phrase::ours(ours),
        phrase::endorsed_by_nobody(),
        phrase::no_inference(),
    ];
    lines.into_iter().map(Item::plain).collect()
}

fn item(protocol: &Protocol, at: At<Source>, carries: &[Phrase]) -> Item<Text> {
    let source = protocol.sources.of(at);
    let mut strengths: Vec<Strength> = Vec::new();
    let mut borrowed: BTreeSet<&str> = BTreeSet::new();
    for rule in &protocol.rules {
        if rule.rests_on(at) {
            borrowed.extend(rule.borrowed.as_deref());
        }
        if rule.source == at {
            strengths.push(rule.strength);
        }
    }
    let paragraphs = protocol.paragraphs.iter().filter(|paragraph| paragraph.source == at);
    let paragraphs: Vec<(Strength, Option<&str>)> =
        paragraphs.map(|paragraph| (paragraph.strength, paragraph.borrowed.as_deref())).collect();
    borrowed.extend(paragraphs.iter().filter_map(|(_, borrowed)| *borrowed));
    strengths.extend(paragraphs.iter().map(|(strength, _)| *strength));
    let laws = protocol.countries.iter().flat_map(|country| &country.laws).filter(|law| law.source == at);
    strengths.extend(laws.map(|law| law.strength));
    let mut more: Vec<Text> = Vec::new();
    if !source.at.is_empty() {
        more.push(Text::typed(&source.at));
    }
    let known = TOLD_IN_ORDER.into_iter().filter(|strength| strengths.contains(strength)).map(terms::strength);
    let known = Text::clauses(known);
    more.extend((!carries.is_empty()).then(|| phrase::carries(Text::list(carries.iter().cloned())).into()));
    more.extend((!known.is_empty()).then(|| phrase::known(known).into()));
    let from = Text::clauses(borrowed.iter().copied().map(Text::quoted));
    more.extend((!borrowed.is_empty()).then(|| phrase::borrowed(from).into()));
    Item { lead: Text::quoted(&source.cite), more, ..Item::default() }
}

/// What rests on a source, counted by sort.
fn carries(protocol: &Protocol, at: At<Source>) -> Vec<Phrase> {
    let laws = protocol.countries.iter().flat_map(|country| &country.laws);
    let counted = [
        count(usize::from(protocol.hold_source == at), phrase::hold_times),
        count(usize::from(protocol.night.source == at), phrase::nights),
        count(protocol.rules.iter().filter(|rule| rule.rests_on(at)).count(), phrase::rules),
        count(protocol.questions.iter().filter(|question| question.source == at).count(), phrase::questions),
        count(protocol.actions.iter().filter(|action| action.source == at).count(), phrase::actions),
        count(protocol.watches.iter().filter(|watch| watch.source == at).count(), phrase::watch_signs),
        count(protocol.instructions.iter().filter(|one| one.source == at).count(), phrase::instructions),
        count(protocol.paragraphs.iter().filter(|paragraph| paragraph.source == at).count(), phrase::paragraphs),
        count(protocol.supplies.iter().filter(|supply| supply.source == at).count(), phrase::supplies),
        count(protocol.substances.iter().filter(|item| item.source == at).count(), phrase::substances),
        count(protocol.ways.iter().filter(|way| way.source == at).count(), phrase::ways),
        count(protocol.rounds.iter().filter(|round| round.source == at).count(), phrase::rounds),
        count(protocol.scores.iter().filter(|score| score.source == at).count(), phrase::scores),
        count(laws.filter(|law| law.source == at).count(), phrase::laws),
        count(protocol.sums.iter().filter(|sum| sum.rests.iter().any(|rest| rest.source == at)).count(), phrase::sums),
    ];
    counted.into_iter().flatten().collect()
}

/// So many of a sort; nothing where there is none.
fn count(count: usize, of: fn(usize) -> Phrase) -> Option<Phrase> {
    (count > 0).then(|| of(count))
}
