//! A sum's answer as a document: its figures, what to keep in mind, how it was worked out and what it rests on.

use super::document::{self, Item, Section, Tone, section};
use super::why;
use crate::phrase::{Text, sum, terms as words};
use crate::protocol::Protocol;
use crate::protocol::strength::Rest;
use crate::protocol::texts::Country;
use crate::reckon::{Answer, AnswerLine};

/// The answer in full.
pub fn sections(protocol: &Protocol, country: &Country, answer: &Answer) -> Vec<Section<Text>> {
    let line = |line: &AnswerLine| Item::plain(words::named(Text::opening(line.what.clone()), line.told.clone()));
    let how = words::ended(Text::opening(answer.formula.clone()));
    let rests = answer.rests_on.iter().map(|rest| Item::plain(rests(protocol, rest)));
    let rests = rests.chain([Item::plain(sum::ours())]);
    let sections = [
        section(Text::capitals(answer.title.clone()), Tone::Plain, answer.lines.iter().map(line).collect()),
        section(sum::heading_keep_in_mind(), Tone::Plain, answer.notes.iter().cloned().map(Item::plain).collect()),
        section(sum::heading_how(), Tone::Plain, vec![Item::plain(how)]),
        section(sum::heading_rests_on(), Tone::Plain, rests.collect()),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// One thing a sum rests on: what is taken, from whom, how well known, and whose figure it is.
pub fn rests(protocol: &Protocol, rest: &Rest) -> Text {
    let source = why::cite(protocol, rest.source, rest.strength);
    sum::rests(Text::opening(Text::quoted(&rest.what)), source, borrowed(rest.borrowed.as_deref())).into()
}

/// Whose figure it is, as it goes on after a source; nothing where it is the bird's own.
pub fn borrowed(kind: Option<&str>) -> Text {
    kind.map_or_else(Text::default, |kind| words::borrowed(Text::quoted(kind)).into())
}
