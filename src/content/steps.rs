//! The steps of a plan: what is done, part by part, and how, with what is in the house.

use super::document::{Item, Section, Tone, paragraphs, section, slower, wound_place};
use super::plan::going_on;
use super::{kit, phone, why};
use crate::care::way::Chosen;
use crate::care::{self, Plan, PlanStep};
use crate::finding::Findings;
use crate::judge::{Reason, Target};
use crate::phrase::{Phrase, Text, steps as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::action::{Part, Pressing};
use crate::protocol::scale::{Authority, Need};
use crate::protocol::supply::{SupplyAt, Way};
use crate::protocol::texts::Under;
use crate::prove::Exact;

/// What is done, one section a part; what is read out on the phone among it, in the words it is said in.
pub fn sections(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Exact,
    plan: &Plan,
    say: phone::Say,
) -> Vec<Option<Section<Text>>> {
    let part = |part: Part, heading: Phrase| {
        let of_part = plan.steps.iter().filter(|step| step.part(protocol) == part);
        section(heading, Tone::Act, of_part.map(|step| item(protocol, findings, verdict, plan, step)).collect())
    };
    vec![
        part(Part::First, phrase::heading_now()),
        phone::told(protocol, findings, verdict, plan, say),
        part(Part::Wound, wounds(protocol, findings, verdict, plan)),
        left(protocol, verdict, plan),
        later(protocol, verdict, plan),
        section(phrase::heading_way(), Tone::Plain, on_the_way(protocol, verdict, plan)),
        part(Part::House, phrase::heading_stays()),
        part(Part::Flock, phrase::heading_flock()),
        section(phrase::heading_house(), Tone::Plain, in_the_house(protocol, plan)),
    ]
}

/// What stands over what is done for her wounds. Where she is hurt elsewhere too, nobody is to take the one for the other.
fn wounds(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan) -> Phrase {
    let then = plan.steps.iter().any(|step| step.part(protocol) == Part::First);
    let place = wound_place(protocol, findings, 0);
    match (verdict.wounds, place, then) {
        (1, Some(place), true) => phrase::heading_then_wound_at(place),
        (1, Some(place), false) => phrase::heading_wound_at(place),
        (1, None, true) => phrase::heading_then_wound(),
        (1, None, false) => phrase::heading_wound(),
        (_, _, true) => phrase::heading_then_wounds(),
        (_, _, false) => phrase::heading_wounds(),
    }
}

/// One thing to do, and how.
pub fn item(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan, step: &PlanStep) -> Item<Text> {
    let lead = step.say(protocol, verdict, plan);
    match step {
        PlanStep::Act(target, because) => act(protocol, verdict, plan, lead, *target, because),
        // The gravest rule is the reason to phone; where a call is only to be safe, the open questions are.
        PlanStep::Phone(phone) => {
            let gravest: Vec<Reason> = verdict.reasons.first().copied().into_iter().collect();
            let call = Target { action: protocol.roles.phone, wound: None };
            let hands = verdict.fitting.hands(protocol, call);
            let mut item = Item::with(lead, phone.why(hands.is_some()), &gravest);
            item.more.splice(0..0, hands.map(Text::quoted));
            item.more.extend(slower(protocol, findings, verdict).map(Text::from));
            item
        }
    }
}

fn act(
    protocol: &Protocol,
    verdict: &Exact,
    plan: &Plan,
    lead: Text,
    target: Target,
    because: &[Reason],
) -> Item<Text> {
    let how = Text::quoted(verdict.fitting.how(protocol, target));
    let Some(Chosen { way, lines, .. }) = plan.ways.get(&target.action) else {
        let mut item = Item::with(lead, how, because);
        item.more.extend(around(protocol, verdict, plan, target));
        return item;
    };
    let way = protocol.way(*way);
    // What is done in an action's place has nothing to do with how the action is done.
    let more = (!way.undone).then_some(how).into_iter().collect();
    let mut item = Item { lead, more, why: because.to_vec(), ..Item::default() };
    // What lies on the place is no way to press beside it.
    let beside = verdict.fitting.pressing(protocol, target) == Some(Pressing::Beside);
    item.more.extend(lines.iter().filter(|_| !beside).cloned());
    item.picture.clone_from(&way.picture);
    item.timed = plan.timed(protocol, target.action).map(|seconds| (target.action, seconds));
    if !way.undone {
        item.more.extend(around(protocol, verdict, plan, target));
    }
    item.more.extend(ended_by(way).map(Text::from));
    let rests = why::cite(protocol, way.source, way.strength);
    let borrowed = way.borrowed.as_ref().map(|kind| Text::from(terms::borrowed(Text::quoted(kind))));
    item.asked.push(phrase::way_rests_on(rests, borrowed.unwrap_or_default()).into());
    item
}

/// What ends a way, or calls for a vet while it goes on.
fn ended_by(way: &Way) -> impl Iterator<Item = Phrase> {
    let stop = (!way.stop.is_empty()).then(|| phrase::stop_if(going_on(&way.stop)));
    let phone = (!way.phone_if.is_empty()).then(|| phrase::phone_if(going_on(&way.phone_if)));
    [stop, phone].into_iter().flatten()
}

/// What shows that it worked, what to do where it cannot be done, and what ends it.
fn around(protocol: &Protocol, verdict: &Exact, plan: &Plan, target: Target) -> Vec<Text> {
    let action = protocol.action(target.action);
    let worked = action.worked.as_ref().map(|worked| phrase::worked_if(going_on(&worked.say)).into());
    let alone = Some(action.undoable.as_str()).filter(|alone| !alone.is_empty());
    let undoable = verdict.fitting.hands(protocol, target).or(alone).map(Text::quoted);
    let ends = action.ends.as_ref().map(|ends| care::end_of_act(ends, plan.no_vet).into());
    [worked, undoable, ends].into_iter().flatten().collect()
}

/// What is done once something has been seen: what, and what until then.
fn later(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Option<Section<Text>> {
    let item = |(target, because): &(Target, Vec<Reason>)| {
        let action = protocol.action(target.action);
        let opens = action.opens.as_ref().map(|opens| phrase::opens(going_on(&opens.say)).into());
        let meanwhile = (!action.meanwhile.is_empty()).then(|| Text::quoted(&action.meanwhile));
        Item {
            lead: care::line(protocol, verdict, *target),
            more: opens.into_iter().chain(meanwhile).collect(),
            why: because.clone(),
            ..Item::default()
        }
    };
    section(phrase::heading_later(), Tone::Plain, plan.later.iter().map(item).collect())
}

/// What is left to the vet who will see her, or waits until the check has shown that none need.
fn left(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Option<Section<Text>> {
    let lines = plan.left_to_vet.iter().map(|(target, because)| Item {
        lead: care::line(protocol, verdict, *target),
        why: because.clone(),
        ..Item::default()
    });
    let (heading, why) = if verdict.need.low >= Need::WithinHours {
        (phrase::heading_leave(), phrase::leave())
    } else {
        (phrase::heading_not_yet(), phrase::not_yet())
    };
    let first = (!plan.left_to_vet.is_empty()).then(|| Item::plain(why));
    section(heading, Tone::Plain, first.into_iter().chain(lines).collect())
}

/// How she travels, where she is to be seen. While she may not be moved, only once somebody has said so.
fn on_the_way(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item<Text>> {
    if !plan.seen {
        return Vec::new();
    }
    let unmoved = verdict.authority.low == Authority::CallNow;
    let first = unmoved.then(|| Item::plain(phrase::only_if_told()));
    first.into_iter().chain(paragraphs(protocol, verdict, Under::OnTheWay)).collect()
}

/// What would do better than what is there, and what does not count.
fn in_the_house(protocol: &Protocol, plan: &Plan) -> Vec<Item<Text>> {
    let name = |at: &SupplyAt| Text::quoted(&protocol.supply(*at).name);
    let better = (!plan.fetch.is_empty()).then(|| phrase::better_with(Text::clauses(plan.fetch.iter().map(name))));
    let of_no_use = plan.of_no_use.iter().filter_map(|(at, standing)| {
        Some(Item::with(Text::opening(name(at)), kit::standing(protocol.supply(*at), standing)?, &[]))
    });
    better.map(Item::plain).into_iter().chain(of_no_use).collect()
}
