//! What was told and moves nothing, by name: an answer given is never passed over in silence.

use super::answers;
use super::document::{Item, Section, Tone, section, topic};
use crate::finding::{Answer, Findings};
use crate::phrase::{Phrase, Text, heading, terms, verdict as phrase};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::prove::Exact;
use crate::sheet::Idle;

/// In a plan by itself so many are named; more would push out what is done.
const IN_A_PLAN: usize = 3;

/// Each answer with why it moves nothing.
pub fn told(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section<Text>> {
    let items = verdict.idle.iter().map(|(asked, why)| Item {
        lead: line(protocol, findings, *asked).into(),
        more: because(protocol, *asked, *why),
        ..Item::default()
    });
    section(heading::not_weighed(), Tone::Plain, items.collect())
}

/// The same for a plan by itself: the answers that other answers leave no room for, where they are few.
pub fn in_short(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section<Text>> {
    let misplaced = verdict.idle.iter().filter(|(_, why)| *why == Idle::NotAsked);
    let items: Vec<Item<Text>> = misplaced.map(|(asked, _)| Item::plain(line(protocol, findings, *asked))).collect();
    section(heading::not_weighed(), Tone::Plain, items).filter(|section| section.items.len() <= IN_A_PLAN)
}

/// The answer by its name and in its words.
pub fn line(protocol: &Protocol, findings: &Findings, asked: Asked) -> Phrase {
    let question = protocol.ask(asked.question);
    let told = answers::known(protocol, findings, asked.about, question);
    let told = told.unwrap_or_else(|| answers::of(question, &Answer::CannotTell));
    terms::named_ended(Text::opening(topic(protocol, asked)), told)
}

fn because(protocol: &Protocol, asked: Asked, why: Idle) -> Vec<Text> {
    match why {
        Idle::NotAsked => {
            let asks = protocol.asked_by(asked.question, asked.about);
            let topics = Text::list_ended(asks.into_iter().map(|asked| topic(protocol, asked)));
            vec![phrase::asked_only(topics).into(), phrase::asked_only_do().into()]
        }
        Idle::NothingMade => vec![phrase::nothing_made().into()],
    }
}
