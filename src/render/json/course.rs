//! A course as JSON: its cards in the order they open, each with its acts, its bans and what ends them, and the words counted.

use super::{said, wound};
use crate::care::Phone;
use crate::content::course::{CardAct, CardNever, CourseCard, Does};
use crate::judge::Target;
use crate::protocol::Protocol;
use crate::render::nodes::moment;
use crate::words::Reader;
use serde_json::{Value, json};

/// Every card.
pub fn course(protocol: &Protocol, cards: &[CourseCard], reader: Reader) -> Vec<Value> {
    let never = |never: &CardNever| {
        json!({
            "id": never.target.map(|target| &protocol.action(target.action).id), "wound": never.target.and_then(wound),
            "say": reader.say(&never.say), "ends": never.end.id(), "until": said(reader, never.until.clone()),
        })
    };
    let act = |act: &CardAct| {
        let Done { id, target, phone } = Done::of(&act.does);
        json!({
            "does": id, "id": target.map(|target| &protocol.action(target.action).id), "wound": target.and_then(wound),
            "phone": phone, "call": act.call.as_ref().map(|call| reader.say(call)), "at": act.at.map(moment),
            "say": reader.say(&act.say),
            "nevers": act.nevers.iter().map(never).collect::<Vec<_>>(),
        })
    };
    let card = |card: &CourseCard| {
        json!({
            "stage": card.of.id(), "card": card.number.0, "cards": card.number.1, "opens": card.opens.id(),
            "opens_at": card.opens_at.map(moment),
            "first": card.first.as_ref().map(|first| reader.say(first)),
            "acts": card.acts.iter().map(act).collect::<Vec<_>>(),
            "nevers": card.nevers.iter().map(never).collect::<Vec<_>>(),
            "words": card.words,
        })
    };
    cards.iter().map(card).collect()
}

/// What an act is, by names.
struct Done {
    id: &'static str,
    target: Option<Target>,
    phone: Option<Phone>,
}

impl Done {
    const fn of(does: &Does) -> Self {
        let none = Self { id: "told", target: None, phone: None };
        match does {
            Does::Act(target) => Self { id: "act", target: Some(*target), ..none },
            Does::Test(target) => Self { id: "test", target: Some(*target), ..none },
            Does::Phone(phone) => Self { id: "phone", phone: Some(*phone), ..none },
            Does::Look(_) => Self { id: "look", ..none },
            Does::Told(_) => none,
        }
    }
}
