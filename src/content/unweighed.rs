//! What was told and moves nothing, by name: an answer given is never passed over in silence.

use super::answers;
use super::document::{Item, Section, Tone, list, section, topic, upper_first};
use crate::finding::{Answer, Findings};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::prove::Exact;
use crate::sheet::Idle;
use serde_json::{Value, json};

/// Its heading.
pub const HEADING: &str = "TOLD, BUT NOT WEIGHED";
/// In a plan by itself so many are named; more would push out what is done.
const IN_A_PLAN: usize = 3;

/// Each answer with why it moves nothing.
pub fn told(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section> {
    let items = verdict.idle.iter().map(|(asked, why)| Item {
        lead: line(protocol, findings, *asked),
        more: because(protocol, *asked, *why),
        ..Item::default()
    });
    section(HEADING, Tone::Plain, items.collect())
}

/// The same for a plan by itself: the answers that other answers leave no room for, where they are few.
pub fn in_short(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> Option<Section> {
    let misplaced = verdict.idle.iter().filter(|(_, why)| *why == Idle::NotAsked);
    let items: Vec<Item> = misplaced.map(|(asked, _)| Item::plain(line(protocol, findings, *asked))).collect();
    section(HEADING, Tone::Plain, items).filter(|section| section.items.len() <= IN_A_PLAN)
}

/// The answer by its name and in its words.
pub fn line(protocol: &Protocol, findings: &Findings, asked: Asked) -> String {
    let question = protocol.ask(asked.question);
    let told = answers::known(protocol, findings, asked.about, question);
    format!(
        "{}: {}.",
        upper_first(&topic(protocol, asked)),
        told.unwrap_or_else(|| question.words(&Answer::CannotTell))
    )
}

fn because(protocol: &Protocol, asked: Asked, why: Idle) -> Vec<String> {
    match why {
        Idle::NotAsked => {
            let asks = protocol.asked_by(asked.question, asked.about);
            let topics: Vec<String> = asks.into_iter().map(|asked| topic(protocol, asked)).collect();
            vec![
                format!("Asked only where other answers call for it, and they do not: {}", list(&topics)),
                "Is it so? Look at those again. Tell the vet of it.".to_owned(),
            ]
        }
        Idle::NothingMade => vec!["It changes nothing here. Tell the vet of it.".to_owned()],
    }
}

/// The same as JSON.
pub fn json(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    asked_json: impl Fn(Asked) -> Value,
) -> Vec<Value> {
    let told = |(asked, why): &(Asked, Idle)| {
        let said = findings.answer(asked.about, protocol.ask(asked.question).id.as_str());
        let (because, asks) = match why {
            Idle::NotAsked => ("not_asked_of_such_a_bird", protocol.asked_by(asked.question, asked.about)),
            Idle::NothingMade => ("nothing_is_made_of_it", Vec::new()),
        };
        json!({
            "asked": asked_json(*asked), "answer": said.map(|said| &said.statement.answer), "say": line(protocol, findings, *asked),
            "because": because, "asked_by": asks.into_iter().map(&asked_json).collect::<Vec<_>>(),
        })
    };
    verdict.idle.iter().map(told).collect()
}
