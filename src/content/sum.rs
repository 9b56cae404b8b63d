//! A sum's answer as a document: its figures, what to keep in mind, how it was worked out and what it rests on.

use super::document::{self, Item, Section, Tone, section};
use super::why;
use crate::phrase::{Text, sum, terms as words};
use crate::protocol::Protocol;
use crate::protocol::strength::Rest;
use crate::protocol::texts::Country;
use crate::reckon::{Answer, AnswerLine};
use crate::unit::Band;
use crate::words::english;
use serde_json::{Value, json};

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

/// What a sum or a table rests on, for files that leave the program.
pub fn rests_json(protocol: &Protocol, rests: &[Rest]) -> Vec<Value> {
    let json = |rest: &Rest| {
        let source = protocol.source_id(rest.source);
        json!({ "source": source, "strength": rest.strength, "what": rest.what, "borrowed_from": rest.borrowed })
    };
    rests.iter().map(json).collect()
}

/// An answer, for files that leave the program.
pub fn json(protocol: &Protocol, answer: &Answer) -> Value {
    let say = |text: &Text| english(text.clone());
    let lines = answer.lines.iter().map(|AnswerLine { what, told }| {
        let (what, value) = (say(what), say(told));
        match told {
            Text::Quantity(figure) => {
                let Band { low, high } = figure.band();
                let unit = figure.unit().id();
                json!({ "what": what, "value": value, "low": low.value(), "high": high.value(), "unit": unit })
            }
            _ => json!({ "what": what, "value": value }),
        }
    });
    json!({
        "title": say(&answer.title), "lines": lines.collect::<Vec<_>>(), "formula": say(&answer.formula),
        "rests_on": rests_json(protocol, &answer.rests_on), "notes": answer.notes.iter().map(say).collect::<Vec<_>>(),
    })
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
