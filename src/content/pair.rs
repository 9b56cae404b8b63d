//! A paired examination as a document: where two people agree on one bird, question by question.

use super::document::{self, Item, Section, Tone, section, topic};
use super::{answers, terms};
use crate::finding::Answer;
use crate::phrase::{Phrase, Text, pair as says, terms as words};
use crate::practice::{Alike, Compared, Pair, Rungs3};
use crate::protocol::Protocol;
use crate::protocol::texts::Country;

/// The whole document.
pub fn sections(protocol: &Protocol, pair: &Pair, country: &Country) -> Vec<Section<Text>> {
    let differs = |compared: &&Compared| !matches!(compared.alike, Alike::Same | Alike::OnlyOne);
    let told = |compared: &Compared| Item::plain(row(protocol, compared));
    let of = |keep: &dyn Fn(&&Compared) -> bool| pair.compared.iter().filter(keep).map(told).collect::<Vec<_>>();
    let sections = [
        section(says::heading_both(), Tone::Plain, summary(pair)),
        section(says::heading_differently(), Tone::Plain, of(&differs)),
        section(says::heading_only_one(), Tone::Plain, of(&|compared| compared.alike == Alike::OnlyOne)),
        section(says::heading_same(), Tone::Plain, of(&|compared| compared.alike == Alike::Same)),
        document::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

fn summary(pair: &Pair) -> Vec<Item<Text>> {
    let (low, high) = pair.same.wilson();
    let share = pair.same.value().unwrap_or_default();
    let [share, low, high] = [share, low, high].map(|share| Text::typed(format!("{:.0}", share * 100.0)));
    let Rungs3 { need, humane, authority } = pair.one;
    let scale = |name: Phrase, one: Phrase, other: Phrase| {
        if one == other { says::both(name, one) } else { says::apart(name, one, other) }
    };
    let told = [
        says::alike(pair.same.hits, pair.same.of, share, low, high),
        scale(says::need(), terms::need(need, false), terms::need(pair.other.need, false)),
        scale(says::humane(), terms::humane(humane), terms::humane(pair.other.humane)),
        scale(says::authority(), terms::authority(authority), terms::authority(pair.other.authority)),
        says::graver_counts(),
    ];
    told.into_iter().map(Item::plain).collect()
}

fn row(protocol: &Protocol, compared: &Compared) -> Phrase {
    let question = protocol.ask(compared.asked.question);
    let said = |answer: &Option<Answer>| {
        answer.as_ref().map_or_else(|| says::not_answered().into(), |answer| answers::of(question, answer))
    };
    let (one, other) = (said(&compared.one), said(&compared.other));
    let topic = Text::opening(topic(protocol, compared.asked));
    let how = match compared.alike {
        Alike::Same => return words::named_ended(topic, one),
        Alike::Milder(1) => says::one_milder(),
        Alike::Milder(_) => says::much_milder(),
        Alike::Graver(1) => says::one_graver(),
        Alike::Graver(_) => says::much_graver(),
        Alike::Other => says::otherwise(),
        Alike::OnlyOne => return says::apart(topic, one, other),
    };
    says::differs(topic, one, how, other)
}
