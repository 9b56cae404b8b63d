//! A paired examination as a document: where two people agree on one bird, question by question.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::content::old::topic;
use crate::finding::Answer;
use crate::practice::{Alike, Compared, Pair, Rungs3};
use crate::protocol::Protocol;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::words::Reader;

/// The whole document.
pub fn sections(protocol: &Protocol, pair: &Pair, reader: Reader) -> Vec<Section> {
    let differs = |compared: &&Compared| !matches!(compared.alike, Alike::Same | Alike::OnlyOne);
    let told = |compared: &Compared| row(protocol, compared);
    let of = |keep: &dyn Fn(&&Compared) -> bool| pair.compared.iter().filter(keep).map(told).collect::<Vec<_>>();
    let sections = vec![
        section("BOTH EXAMINATIONS", Tone::Plain, summary(pair)),
        section("TALK OVER: SEEN DIFFERENTLY", Tone::Plain, of(&differs)),
        section("ONLY ONE OF YOU ANSWERED", Tone::Plain, of(&|compared| compared.alike == Alike::OnlyOne)),
        section("THE SAME", Tone::Plain, of(&|compared| compared.alike == Alike::Same)),
        crate::content::old::caution(reader.country),
    ];
    sections.into_iter().flatten().collect()
}

fn summary(pair: &Pair) -> Vec<Item> {
    let (low, high) = pair.same.wilson();
    let share = pair.same.value().unwrap_or_default();
    let same = format!(
        "Alike in {} of {} answers, {:.0} % (95 % {:.0} to {:.0}, Wilson 1927).",
        pair.same.hits,
        pair.same.of,
        share * 100.0,
        low * 100.0,
        high * 100.0
    );
    let Rungs3 { need, humane, authority } = pair.one;
    let scale = |name: &str, one: &str, other: &str| {
        let lead = if one == other {
            format!("{name}: both {one}.")
        } else {
            format!("{name}: novice {one}; mentor {other}.")
        };
        Item::plain(lead)
    };
    let mut items = vec![Item::plain(same)];
    items.push(scale("Need, at least", need.words(), Need::words(pair.other.need)));
    items.push(scale("Humane end", humane.words(), Humane::words(pair.other.humane)));
    items.push(scale("Animal-health authority", authority.words(), Authority::words(pair.other.authority)));
    items.push(Item::plain("For her, the graver of the two counts until you have looked again together."));
    items
}

fn row(protocol: &Protocol, compared: &Compared) -> Item {
    let question = protocol.ask(compared.asked.question);
    let words = |answer: &Option<Answer>| answer.as_ref().map_or_else(|| "not answered".into(), |a| question.words(a));
    let (one, other) = (words(&compared.one), words(&compared.other));
    let topic = upper_first(&topic(protocol, compared.asked));
    let how = match compared.alike {
        Alike::Same => return Item::plain(format!("{topic}: {one}.")),
        Alike::Milder(1) => "one step milder",
        Alike::Milder(_) => "much milder",
        Alike::Graver(1) => "one step graver",
        Alike::Graver(_) => "much graver",
        Alike::Other => "otherwise",
        Alike::OnlyOne => return Item::plain(format!("{topic}: novice {one}; mentor {other}.")),
    };
    Item::plain(format!("{topic}: novice {one} ({how}); mentor {other}."))
}
