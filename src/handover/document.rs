//! A document as headed lists of lines: the one shape that panes and exports show.

use super::{answers, why};
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Reach};
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::Need;
use crate::protocol::texts::{Country, Paragraph, Under};
use crate::prove::{Exact, Explained, Whole};
use crate::zone::Zone;

/// For whom a document is written: where the clock stands, and whose law holds.
#[derive(Clone, Copy, Debug)]
pub struct Reader<'p> {
    /// The zone whose clock times are told.
    pub zone: Zone,
    /// The country, or the one that stands for none.
    pub country: &'p Country,
}

/// What is told of: a bird's findings, the verdict on them, and, where it is at hand, what was proven of it.
#[derive(Clone, Copy, Debug)]
pub struct Judged<'a> {
    /// What was found.
    pub findings: &'a Findings,
    /// The verdict on it.
    pub verdict: &'a Whole,
    /// Why at least this, and what would change it.
    pub explained: Option<&'a Explained>,
}

/// What a section is for; a pane may mark it, words always say it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// To be read in order.
    Plain,
    /// To be done.
    Act,
    /// Never to be done.
    Never,
    /// A humane end.
    Grave,
    /// The caution that stands on everything.
    Caution,
}

/// A headed list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// Its heading, in capitals.
    pub heading: String,
    /// What it is for.
    pub tone: Tone,
    /// Its lines.
    pub items: Vec<Item>,
}

/// A line, what belongs under it, and the rules behind it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Item {
    /// The line itself.
    pub lead: String,
    /// More, in smaller type as it were.
    pub more: Vec<String>,
    /// A picture in letters, where the page is wide enough for it; words say the same.
    pub picture: Vec<String>,
    /// What is told only to someone who asks why: other readings, the formula, the sources of a figure.
    pub asked: Vec<String>,
    /// The rules it rests on.
    pub why: Vec<Reason>,
    /// What of it is done by the clock, and how long. Seconds.
    pub timed: Option<(ActionAt, u16)>,
}

impl Item {
    /// A line by itself.
    pub fn plain(lead: impl Into<String>) -> Self {
        Self { lead: lead.into(), ..Self::default() }
    }

    /// A line with one more under it, and why.
    pub fn with(lead: impl Into<String>, more: impl Into<String>, why: &[Reason]) -> Self {
        Self { lead: lead.into(), more: vec![more.into()], why: why.to_vec(), ..Self::default() }
    }
}

/// A section, where there is anything in it.
pub fn section(heading: &str, tone: Tone, items: Vec<Item>) -> Option<Section> {
    (!items.is_empty()).then(|| Section { heading: heading.to_owned(), tone, items })
}

/// The paragraphs a verdict tells under a heading.
pub fn told<'p>(protocol: &'p Protocol, verdict: &Exact, under: Under) -> impl Iterator<Item = &'p Paragraph> {
    verdict.told.iter().map(|at| protocol.paragraph(*at)).filter(move |paragraph| paragraph.under == under)
}

/// The same as lines, each with what it rests on.
pub fn paragraphs(protocol: &Protocol, verdict: &Exact, under: Under) -> Vec<Item> {
    told(protocol, verdict, under)
        .map(|paragraph| {
            let rests_on = why::cite(protocol, protocol.source_id(paragraph.source).as_str(), paragraph.strength);
            let borrowed =
                paragraph.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
            let more = paragraph.lines.iter().cloned().chain([format!("Rests on: {rests_on}{borrowed}.")]).collect();
            Item { lead: format!("{}:", paragraph.title), more, ..Item::default() }
        })
        .collect()
}

/// Topics in one line.
pub fn list(items: &[String]) -> String {
    format!("{}.", items.join(", "))
}

/// A question's topic, with its wound where it belongs to one.
pub fn topic(protocol: &Protocol, asked: Asked) -> String {
    let topic = &protocol.ask(asked.question).topic;
    match asked.about {
        About::Bird => topic.clone(),
        About::Wound(number) => format!("wound {}: {topic}", number + 1),
    }
}

/// What to do where the vet who can be had comes later than she needs one.
pub fn slower(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<&'static str> {
    let asked = protocol.reach_question();
    let Answer::Choice(told) = &findings.answer(About::Bird, asked.id.as_str())?.statement.answer else { return None };
    let reach = asked.choices.iter().find(|choice| choice.id == *told)?.reach?;
    let in_time = match verdict.need.low {
        Need::Now => Reach::Now,
        Need::WithinHours => Reach::Hours,
        Need::WithinADay | Need::Home | Need::None => Reach::Day,
    };
    // Where no vet can be reached at all, the protocol itself says whom to phone.
    (reach > in_time && reach < Reach::Nobody).then_some("Phone other vets too: one may see her sooner.")
}

/// A wound by its number and, once that is known, its place: so that nobody answers for another one.
pub fn wound_name(protocol: &Protocol, findings: &Findings, number: usize) -> String {
    let place = wound_place(protocol, findings, number).map_or_else(String::new, |place| format!(", {place}"));
    format!("Wound {}{place}", number + 1)
}

/// Where a wound is, as far as it is known.
pub fn wound_place(protocol: &Protocol, findings: &Findings, number: usize) -> Option<String> {
    answers::known(protocol, findings, About::Wound(number), protocol.place_question())
}

/// The caution, which stands on everything that leaves the program.
pub fn caution(country: &Country) -> Option<Section> {
    section("CAUTION", Tone::Caution, vec![Item::plain(caution_text(country))])
}

/// The program's own caution. No protocol can put another in its place.
pub const CAUTION: &str = "Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";

/// The caution in words, with what it says of the law.
pub fn caution_text(country: &Country) -> String {
    format!("{CAUTION} {}", country.caution)
}

/// The words in some sections that a keeper may not know, with their meaning.
pub fn glossary(protocol: &Protocol, sections: &[Section]) -> Option<Section> {
    let items = sections.iter().flat_map(|section| &section.items);
    let texts = items.flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
    let told = protocol.terms_in(texts.map(String::as_str));
    let told = told.into_iter().map(|term| Item::plain(format!("{}: {}.", term.term, term.means))).collect();
    section("WORDS", Tone::Plain, told)
}

/// A text with its first letter small, for going on after "Never:".
pub fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// A text with its first letter large.
pub fn upper_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
