//! A verdict in so few words that they stay: how soon, whom to phone, why; and what must not be missed beside it.

use super::document::{Item, Section, Tone};
use super::terms;
use crate::care::{Plan, PlanStep};
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, in_short as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Exact;

/// The most words it has.
pub const MOST_WORDS: usize = 40;

/// Its heading.
pub const fn heading() -> Phrase {
    phrase::heading()
}

/// How soon, whom, why: a line each. A humane end is told gently and never first.
pub fn section(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Section<Text> {
    let because = |moves: &dyn Fn(&Rule) -> bool| -> Vec<Reason> {
        verdict.reasons.iter().filter(|reason| moves(protocol.rule(reason.rule))).copied().collect()
    };
    let need = because(&|rule| rule.need.is_some());
    let call = plan.steps.iter().find(|step| match step {
        PlanStep::Phone(_) => true,
        PlanStep::Act(target, _) => target.action == protocol.roles.phone_any,
    });
    let more = verdict.authority.low > Authority::None || verdict.humane.low > Humane::NotInQuestion;
    // Where more is told below, what the finding means stands under why.
    let gravest = need.first().map(|reason| {
        let told = &protocol.rule(reason.rule).reason;
        let told = if more || reason.is_doubt() { finding(told) } else { first_sentence(told) };
        // What nobody could tell counts, and is not told as if it had been seen.
        Item::plain(if reason.is_doubt() { phrase::not_ruled_out(Text::going_on(told)).into() } else { told })
    });
    let mut items = vec![Item { why: need, ..Item::plain(how_soon(verdict)) }];
    let authority = authority(verdict).map(|told| Item { why: because(&|rule| rule.authority.is_some()), ..told });
    // Who is called first stands first.
    let (first, last) = if verdict.authority.low == Authority::CallNow { (authority, None) } else { (None, authority) };
    items.extend(first);
    items.extend(call.map(|step| Item::plain(step.say(protocol, verdict, plan))));
    items.extend(gravest);
    items.extend(last);
    items.extend(humane(verdict).map(|told| Item { why: because(&|rule| rule.humane.is_some()), ..told }));
    Section { heading: heading().into(), tone: Tone::Plain, items }
}

/// The finding alone: what more a rule tells stands under why.
fn first_sentence(reason: &str) -> Text {
    let end = reason.find(['.', '?']).map_or(reason.len(), |at| at + 1);
    Text::quoted(reason.get(..end).unwrap_or(reason))
}

/// What was found, without what it means.
fn finding(reason: &str) -> Text {
    match reason.split_once([':', ';', '.', '?']) {
        Some((found, _)) => words::ended(Text::quoted(found)).into(),
        None => Text::quoted(reason),
    }
}

/// How soon she needs a vet; without one in reach how grave it is.
fn how_soon(verdict: &Exact) -> Text {
    let level = verdict.need;
    let told = Text::opening(terms::need(level.low, verdict.no_vet()));
    match (level.low == level.high, level.low) {
        (true, _) => words::ended(told).into(),
        (false, Need::None) => phrase::so_far(told).into(),
        (false, _) => phrase::at_least(told).into(),
    }
}

fn authority(verdict: &Exact) -> Option<Item<Text>> {
    match verdict.authority.low {
        Authority::None => None,
        Authority::Ask => Some(Item::plain(phrase::authority_ask())),
        Authority::CallNow => Some(Item::plain(phrase::authority_call())),
    }
}

fn humane(verdict: &Exact) -> Option<Item<Text>> {
    match verdict.humane.low {
        Humane::NotInQuestion => None,
        Humane::MayComeIntoQuestion => Some(Item::plain(phrase::humane_may())),
        Humane::AdvisedUnlessVet => Some(Item::plain(phrase::humane_unless())),
        Humane::Advised => Some(Item::plain(phrase::humane_advised())),
    }
}
