//! The steps of a plan: what is done, part by part, and how, with what is in the house.

use super::document::{Item, Section, Tone, lower_first, section, upper_first};
use super::{kit, phone};
use crate::care::way::Chosen;
use crate::care::{self, Plan, PlanStep};
use crate::content::old::{paragraphs, slower, wound_place};
use crate::finding::Findings;
use crate::judge::{Reason, Target};
use crate::protocol::Protocol;
use crate::protocol::action::{Part, Pressing};
use crate::protocol::scale::{Authority, Need};
use crate::protocol::supply::SupplyAt;
use crate::protocol::texts::Under;
use crate::prove::Exact;

/// What is done, one section a part.
pub fn sections(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan) -> Vec<Option<Section>> {
    let first = plan.steps.iter().any(|step| step.part(protocol) == Part::First);
    let then = if first { "THEN " } else { "" };
    let wounds = match verdict.wounds {
        // Where she is hurt elsewhere too, nobody is to take the one for the other.
        1 => {
            let place = wound_place(protocol, findings, 0).map_or_else(String::new, |place| format!(" ({place})"));
            format!("{then}THE WOUND{place}")
        }
        _ => format!("{then}HER WOUNDS, ONE BY ONE"),
    };
    let part = |part: Part, heading: &str| {
        let of_part = plan.steps.iter().filter(|step| step.part(protocol) == part);
        section(heading, Tone::Act, of_part.map(|step| item(protocol, findings, verdict, plan, step)).collect())
    };
    vec![
        part(Part::First, "DO NOW, IN THIS ORDER"),
        phone::told(protocol, findings, verdict, plan, &|text| crate::words::english(text.clone()))
            .map(|part| crate::words::Reader::english(crate::zone::Zone::UTC, protocol.no_country()).section(&part)),
        part(Part::Wound, &wounds),
        left(protocol, verdict, plan),
        later(protocol, verdict, plan),
        section("ON THE WAY", Tone::Plain, on_the_way(protocol, verdict, plan)),
        part(Part::House, "WHERE SHE STAYS"),
        part(Part::Flock, "THE OTHER BIRDS"),
        section("IN THE HOUSE", Tone::Plain, in_the_house(protocol, plan)),
    ]
}

/// One thing to do, and how.
pub(super) fn item(protocol: &Protocol, findings: &Findings, verdict: &Exact, plan: &Plan, step: &PlanStep) -> Item {
    let lead = step.say(protocol, verdict, plan);
    match step {
        PlanStep::Act(target, because) => act(protocol, verdict, plan, lead, *target, because),
        // The gravest rule is the reason to phone; where a call is only to be safe, the open questions are.
        PlanStep::Phone(phone) => {
            let gravest: Vec<Reason> = verdict.reasons.first().copied().into_iter().collect();
            let mut item = Item::with(lead, phone.why(), &gravest);
            item.more.extend(slower(protocol, findings, verdict));
            item
        }
    }
}

fn act(protocol: &Protocol, verdict: &Exact, plan: &Plan, lead: String, target: Target, because: &[Reason]) -> Item {
    let how = verdict.fitting.how(protocol, target).to_owned();
    let Some(Chosen { way, lines, .. }) = plan.ways.get(&target.action) else {
        let mut item = Item::with(lead, how, because);
        item.more.extend(around(protocol, plan, target));
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
    item.timed = way.timer_s.filter(|_| !way.undone).map(|seconds| (target.action, seconds));
    if !way.undone {
        item.more.extend(around(protocol, plan, target));
    }
    if !way.stop.is_empty() {
        item.more.push(format!("Stop, and phone, if: {}", lower_first(&way.stop)));
    }
    if !way.phone_if.is_empty() {
        item.more.push(format!("Keep at it, and phone a vet, if: {}", lower_first(&way.phone_if)));
    }
    let borrowed = way.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
    item.asked.push(format!(
        "This way rests on: {}{borrowed}.",
        crate::content::old::cite(protocol, protocol.source_id(way.source).as_str(), way.strength)
    ));
    item
}

/// What shows that it worked, what to do where it cannot be done, and what ends it.
fn around(protocol: &Protocol, plan: &Plan, target: Target) -> Vec<String> {
    let action = protocol.action(target.action);
    let worked = action.worked.as_ref().map(|worked| format!("It has worked if: {}", lower_first(&worked.say)));
    let undoable = (!action.undoable.is_empty()).then(|| action.undoable.clone());
    let ends = action.ends.as_ref().map(|ends| ends.say_of_act(plan.no_vet));
    [worked, undoable, ends].into_iter().flatten().collect()
}

/// What is done once something has been seen: what, and what until then.
fn later(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Option<Section> {
    let item = |(target, because): &(Target, Vec<Reason>)| {
        let action = protocol.action(target.action);
        let opens = action.opens.as_ref().map(|opens| format!("Not before this is seen: {}", lower_first(&opens.say)));
        let meanwhile = (!action.meanwhile.is_empty()).then(|| action.meanwhile.clone());
        Item {
            lead: care::line(protocol, verdict, *target),
            more: opens.into_iter().chain(meanwhile).collect(),
            why: because.clone(),
            ..Item::default()
        }
    };
    section("LATER", Tone::Plain, plan.later.iter().map(item).collect())
}

/// What is left to the vet who will see her, or waits until the check has shown that none need.
fn left(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Option<Section> {
    let lines = plan.left_to_vet.iter().map(|(target, because)| Item {
        lead: care::line(protocol, verdict, *target),
        why: because.clone(),
        ..Item::default()
    });
    let settled = verdict.need.low >= Need::WithinHours;
    let heading = if settled { "LEAVE THIS TO THE VET" } else { "NOT BEFORE THE CHECK IS DONE" };
    let why = if settled {
        "Cover, warmth and the drive come first. She will be cleaned and dressed there."
    } else {
        "A vet may have to see her first. The check will tell."
    };
    let first = (!plan.left_to_vet.is_empty()).then(|| Item::plain(why));
    section(heading, Tone::Plain, first.into_iter().chain(lines).collect())
}

/// How she travels, where she is to be seen. While she may not be moved, only once somebody has said so.
fn on_the_way(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> Vec<Item> {
    if !plan.seen {
        return Vec::new();
    }
    let unmoved = verdict.authority.low == Authority::CallNow;
    let first = unmoved.then(|| Item::plain("Only if you are told to bring her."));
    first.into_iter().chain(paragraphs(protocol, verdict, Under::OnTheWay)).collect()
}

/// What would do better than what is there, and what does not count.
fn in_the_house(protocol: &Protocol, plan: &Plan) -> Vec<Item> {
    let name = |at: &SupplyAt| protocol.supply(*at).name.clone();
    let fetch: Vec<String> = plan.fetch.iter().map(name).collect();
    let better = (!fetch.is_empty()).then(|| Item::plain(format!("Better with: {}.", fetch.join("; "))));
    let of_no_use = plan.of_no_use.iter().filter_map(|(at, standing)| {
        let supply = protocol.supply(*at);
        Some(Item::with(upper_first(&supply.name), kit::standing(supply, standing)?, &[]))
    });
    better.into_iter().chain(of_no_use).collect()
}
