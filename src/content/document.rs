//! A document as headed lists of lines: the one shape that panes and exports show.

use super::{answers, terms, why};
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, document, heading, terms as words};
use crate::protocol::Protocol;
use crate::protocol::question::{Asked, Reach};
use crate::protocol::rule::ActionAt;
use crate::protocol::scale::Need;
use crate::protocol::texts::{Country, Paragraph, ParagraphAt, Under};
use crate::prove::{Exact, Explained, Whole};

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

/// A headed list: of texts nobody has said yet, or of what was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section<T = String> {
    /// Its heading, in capitals.
    pub heading: T,
    /// What it is for.
    pub tone: Tone,
    /// Its lines.
    pub items: Vec<Item<T>>,
}

/// A line, what belongs under it, and the rules behind it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Item<T = String> {
    /// The line itself.
    pub lead: T,
    /// More, in smaller type as it were.
    pub more: Vec<T>,
    /// A picture in letters, where the page is wide enough for it; words say the same.
    pub picture: Vec<String>,
    /// What is told only to someone who asks why: other readings, the formula, the sources of a figure.
    pub asked: Vec<T>,
    /// The rules it rests on.
    pub why: Vec<Reason>,
    /// What of it is done by the clock, and how long. Seconds.
    pub timed: Option<(ActionAt, u16)>,
}

impl<T: Default> Item<T> {
    /// A line by itself.
    pub fn plain(lead: impl Into<T>) -> Self {
        Self { lead: lead.into(), ..Self::default() }
    }

    /// A line with one more under it, and why.
    pub fn with(lead: impl Into<T>, more: impl Into<T>, why: &[Reason]) -> Self {
        Self { lead: lead.into(), more: vec![more.into()], why: why.to_vec(), ..Self::default() }
    }
}

/// A section, where there is anything in it.
pub fn section<T>(heading: impl Into<T>, tone: Tone, items: Vec<Item<T>>) -> Option<Section<T>> {
    (!items.is_empty()).then(|| Section { heading: heading.into(), tone, items })
}

/// The paragraphs a verdict tells under a heading.
pub fn told<'p>(protocol: &'p Protocol, verdict: &Exact, under: Under) -> impl Iterator<Item = &'p Paragraph> {
    all_told(protocol, verdict).map(|(_, paragraph)| paragraph).filter(move |paragraph| paragraph.under == under)
}

/// Every paragraph a verdict tells, with its place in the protocol.
pub fn all_told<'p>(protocol: &'p Protocol, verdict: &Exact) -> impl Iterator<Item = (ParagraphAt, &'p Paragraph)> {
    verdict.told.iter().map(|at| (*at, protocol.paragraph(*at)))
}

/// The same as lines, each with what it rests on.
pub fn paragraphs(protocol: &Protocol, verdict: &Exact, under: Under) -> Vec<Item<Text>> {
    told(protocol, verdict, under)
        .map(|paragraph| {
            let source = why::cite(protocol, paragraph.source, paragraph.strength);
            let rests_on = terms::rests_on(source, paragraph.borrowed.as_deref());
            let more = paragraph.lines.iter().map(Text::quoted).chain([rests_on.into()]).collect();
            Item { lead: words::follows(Text::quoted(&paragraph.title)).into(), more, ..Item::default() }
        })
        .collect()
}

/// A question's topic, with its wound where it belongs to one.
pub fn topic(protocol: &Protocol, asked: Asked) -> Text {
    let topic = Text::quoted(&protocol.ask(asked.question).topic);
    match asked.about {
        About::Bird => topic,
        About::Wound(number) => words::of_wound(number + 1, topic).into(),
    }
}

/// What to do where the vet who can be had comes later than she needs one.
pub fn slower(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Phrase> {
    let asked = protocol.reach_question();
    let Answer::Choice(told) = &findings.answer(About::Bird, asked.id.as_str())?.statement.answer else { return None };
    let reach = asked.choices.iter().find(|choice| choice.id == *told)?.reach?;
    let in_time = match verdict.need.low {
        Need::Now => Reach::Now,
        Need::WithinHours => Reach::Hours,
        Need::WithinADay | Need::Home | Need::None => Reach::Day,
    };
    // Where no vet can be reached at all, the protocol itself says whom to phone.
    (reach > in_time && reach < Reach::Nobody).then(document::other_vets)
}

/// A wound by its number and, once that is known, its place: so that nobody answers for another one.
pub fn wound_name(protocol: &Protocol, findings: &Findings, number: usize) -> Phrase {
    match wound_place(protocol, findings, number) {
        Some(place) => words::wound_at(number + 1, place),
        None => words::wound(number + 1),
    }
}

/// Where a wound is, as far as it is known.
pub fn wound_place(protocol: &Protocol, findings: &Findings, number: usize) -> Option<Text> {
    answers::known(protocol, findings, About::Wound(number), protocol.place_question())
}

/// The caution, which stands on everything that leaves the program.
pub fn caution(country: &Country) -> Option<Section<Text>> {
    section(heading::caution(), Tone::Caution, vec![Item::plain(caution_text(country))])
}

/// The program's own caution with what it says of the law. No protocol can put another in its place.
pub fn caution_text(country: &Country) -> Text {
    document::caution(Text::quoted(&country.caution)).into()
}

/// The words in some sections that a keeper may not know, with their meaning.
pub fn glossary(protocol: &Protocol, sections: &[Section]) -> Option<Section<Text>> {
    let items = sections.iter().flat_map(|section| &section.items);
    let texts = items.flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
    let told = protocol.terms_in(texts.map(String::as_str));
    let told = told
        .into_iter()
        .map(|term| Item::plain(words::named_ended(Text::quoted(&term.term), Text::quoted(&term.means))));
    section(heading::words(), Tone::Plain, told.collect())
}

/// The first characters of a fingerprint: enough to tell two protocols apart by eye.
pub fn short(fingerprint: &str) -> &str {
    fingerprint.get(..12).unwrap_or(fingerprint)
}
