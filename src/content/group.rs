//! What a mentor sees of a group's goes: tables, agreement, what was set too low or too high, what is missed most, what to
//! practise next.

use super::debrief::practice;
use super::document::{self, Item, Section, Tone, section};
use crate::finding::Id;
use crate::phrase::{Phrase, Text, group as says};
use crate::practice::{Due, Kappa, Mark, Share, Table, Triage, Weighing, due, triage};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::protocol::texts::Country;
use chrono::{DateTime, Utc};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// The goes of one novice, or of all: only those under the protocol in force are counted.
#[derive(Clone, Debug)]
pub struct Goes<'m> {
    /// Whose; none for all.
    pub novice: Option<&'m str>,
    /// The goes under this protocol.
    pub marks: Vec<&'m Mark>,
    /// How many there are under other protocols: told, and never mixed in.
    pub other: usize,
}

/// All goes, then those of each novice, by name.
pub fn goes<'m>(protocol: &Protocol, marks: &'m [Mark]) -> Vec<Goes<'m>> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let of = |novice: Option<&'m str>| {
        let whose = marks.iter().filter(|mark| novice.is_none_or(|name| mark.novice == name));
        let (marks, other): (Vec<&Mark>, Vec<&Mark>) = whose.partition(|mark| mark.fingerprint == protocol.fingerprint);
        Goes { novice, marks, other: other.len() }
    };
    // One novice alone is all there is.
    let several = names.len() > 1;
    std::iter::once(None).chain(names.into_iter().filter(|_| several).map(Some)).map(of).collect()
}

impl Goes<'_> {
    /// The reference's need against the one given.
    pub fn table(&self) -> Table {
        let mut table = Table::new(Need::ALL.len());
        let rung = |need: Need| Need::ALL.iter().position(|known| *known == need).unwrap_or(usize::MAX);
        for mark in &self.marks {
            table.add(rung(mark.reference.need), rung(mark.given.need));
        }
        table
    }

    /// Urgent or not: a vet at once, or a humane end advised.
    pub fn triage(&self) -> Triage {
        triage(self.marks.iter().map(|mark| (mark.reference.is_urgent(), mark.given.is_urgent())))
    }

    /// What was missed, the most often missed first.
    pub fn missed(&self) -> Vec<(&Id, usize)> {
        let mut counts: BTreeMap<&Id, usize> = BTreeMap::new();
        self.marks.iter().flat_map(|mark| &mark.missed).for_each(|sign| *counts.entry(sign).or_default() += 1);
        let mut missed: Vec<_> = counts.into_iter().collect();
        missed.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        missed
    }

    /// How often something was done that harms.
    pub fn harmful(&self) -> usize {
        self.marks.iter().filter(|mark| !mark.harm.is_empty()).count()
    }
}

/// The report as a document.
pub fn sections(protocol: &Protocol, marks: &[Mark], now: DateTime<Utc>, country: &Country) -> Vec<Section<Text>> {
    let mut sections: Vec<Section<Text>> = goes(protocol, marks).iter().filter_map(|of| report(protocol, of)).collect();
    sections.extend(section(says::heading_next(), Tone::Plain, next(marks, now)));
    sections.extend(section(says::heading_how(), Tone::Plain, how().map(Item::plain).into()));
    sections.extend(practice());
    sections.extend(document::caution(country));
    sections
}

/// What the figures mean, and where they come from.
const fn how() -> [Phrase; 6] {
    [
        says::how_urgent(),
        says::how_too_low(),
        says::how_aim(),
        says::how_services(),
        says::how_kappa(),
        says::how_limits(),
    ]
}

fn report(protocol: &Protocol, goes: &Goes) -> Option<Section<Text>> {
    let name = match goes.novice {
        None => says::heading_all().into(),
        Some("") => says::heading_nameless().into(),
        Some(name) => Text::capitals(Text::typed(name)),
    };
    let count = goes.marks.len();
    let mut items = Vec::new();
    if goes.other > 0 {
        items.push(Item::plain(says::other(goes.other)));
    }
    if count > 0 {
        items.push(Item::plain(says::right(count, goes.table().same())));
        items.push(Item { picture: table(goes), ..Item::plain(says::table()) });
        items.push(kappas(goes));
        if count < FEW {
            items.push(Item::plain(says::few()));
        }
        items.extend(shares(goes.triage()));
        items.push(Item::plain(says::harmful(goes.harmful(), count)));
        items.extend(missed(protocol, goes));
    }
    section(name, Tone::Plain, items)
}

/// Below so many goes a figure says little: our own choice.
const FEW: usize = 20;

/// The rungs' heads in a table.
const HEADS: [&str; 5] = ["none", "home", "day", "hours", "now"];

fn table(goes: &Goes) -> Vec<String> {
    let mut lines = vec![HEADS.iter().fold(format!("{:6}", ""), |mut line, head| {
        let _ = write!(line, "{head:>6}");
        line
    })];
    for (head, row) in HEADS.iter().zip(goes.table().rows()) {
        lines.push(row.iter().fold(format!("{head:6}"), |mut line, count| {
            let _ = write!(line, "{count:>6}");
            line
        }));
    }
    lines
}

fn kappas(goes: &Goes) -> Item<Text> {
    let table = goes.table();
    let told = |name: Phrase, weighing| -> Text {
        match table.kappa(weighing) {
            Some(kappa) => show(name, kappa).into(),
            None => says::no_kappa(name).into(),
        }
    };
    let more = vec![told(says::linear(), Weighing::Linear), told(says::quadratic(), Weighing::Quadratic)];
    Item { lead: told(says::unweighted(), Weighing::Same), more, ..Item::default() }
}

fn show(name: Phrase, kappa: Kappa) -> Phrase {
    let (low, high) = kappa.limits();
    let [value, low, high] = [kappa.value, low, high].map(|figure| Text::typed(format!("{figure:.2}")));
    says::kappa(name, value, low, high)
}

fn shares(triage: Triage) -> Vec<Item<Text>> {
    let told = |name: Phrase, share: Share| {
        let Some(value) = share.value() else { return says::nothing_to_count(name) };
        let percent = |share: f64| Text::typed(format!("{:.0}", share * 100.0));
        let ((low, high), (exact_low, exact_high)) = (share.wilson(), share.exact());
        let [value, low, high, exact_low, exact_high] = [value, low, high, exact_low, exact_high].map(percent);
        says::share(name, share.hits, share.of, value, says::limits(low, high, exact_low, exact_high))
    };
    vec![
        Item::plain(told(says::sensitivity(), triage.sensitivity())),
        Item::with(
            told(says::too_low(), triage.too_low_of_urgent()),
            told(says::too_low_given(), triage.too_low_of_given()),
            &[],
        ),
        Item::with(
            told(says::too_high(), triage.too_high_of_mild()),
            told(says::too_high_given(), triage.too_high_of_given()),
            &[],
        ),
    ]
}

fn missed(protocol: &Protocol, goes: &Goes) -> Option<Item<Text>> {
    let topic = |id: &Id| {
        protocol.question(id.as_str()).map_or_else(|| Text::typed(id.to_string()), |known| Text::quoted(&known.topic))
    };
    let most = goes.missed().into_iter().take(5).map(|(sign, count)| says::sign(topic(sign), count));
    let most: Vec<Phrase> = most.collect();
    (!most.is_empty()).then(|| Item::plain(says::missed_most(Text::list_ended(most))))
}

/// For each novice the lessons that are due, or the next one.
fn next(marks: &[Mark], now: DateTime<Utc>) -> Vec<Item<Text>> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let of = |novice: &str| {
        let due = due(marks, novice);
        let (now_due, later): (Vec<&Due>, Vec<&Due>) = due.iter().partition(|due| due.at <= now);
        let name = if novice.is_empty() { says::nameless().into() } else { Text::typed(novice) };
        let bird = |due: &&Due| Text::typed(due.bird.replace('_', " "));
        Item::plain(match (now_due.is_empty(), later.first()) {
            (false, _) => says::next_now(name, Text::list(now_due.iter().map(bird))),
            (true, Some(first)) => says::next_later(name, bird(first), Text::day_alone(first.at)),
            (true, None) => says::next_anything(name),
        })
    };
    names.into_iter().map(of).collect()
}

/// A lesson that a novice practises again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NextGo<'m> {
    /// Who.
    pub novice: &'m str,
    /// Which, and from when on.
    pub due: Due,
}

/// When each lesson is practised again: by this novice, or by each where all are meant.
pub fn next_goes<'m>(marks: &'m [Mark], novice: Option<&str>) -> Vec<NextGo<'m>> {
    let names: BTreeSet<&str> = marks.iter().map(|mark| mark.novice.as_str()).collect();
    let wanted = names.into_iter().filter(|name| novice.is_none_or(|novice| novice == *name));
    wanted.flat_map(|novice| due(marks, novice).into_iter().map(move |due| NextGo { novice, due })).collect()
}
