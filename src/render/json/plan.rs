//! The plan as JSON: its steps, its looks and its paragraphs, and the plan by itself, taken out of a whole verdict.

use super::{rules, worded, wound};
use crate::care::{self, Plan, PlanStep};
use crate::content::document;
use crate::judge::Target;
use crate::protocol::Protocol;
use crate::protocol::action::{Part, Pressing};
use crate::protocol::supply::RoundAt;
use crate::protocol::texts::Under;
use crate::prove::Exact;
use crate::words::Reader;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The schema of a plan by itself.
pub const SCHEMA: &str = "coopside.plan/2";

/// What a plan by itself takes from the whole.
const OF_A_PLAN: [&str; 25] = [
    "caution",
    "country",
    "reviewed_by_a_veterinarian",
    "protocol",
    "judged_at",
    "need",
    "humane_end",
    "authority_call",
    "course",
    "do_now",
    "on_the_phone",
    "left_to_vet",
    "on_the_way",
    "eggs_and_meat_withheld",
    "better_with",
    "never",
    "waiting",
    "by_when",
    "timetable",
    "rounds",
    "watch_for",
    "law",
    "law_not_known",
    "law_limits",
    "told_not_weighed",
];

/// The plan by itself, without reasons and figures.
pub fn plan(whole: &Value) -> Value {
    let mut plan = json!({ "schema": SCHEMA });
    for field in OF_A_PLAN {
        if let (Some(plan), Some(value)) = (plan.as_object_mut(), whole.get(field)) {
            plan.insert(field.to_owned(), value.clone());
        }
    }
    plan
}

/// One step of a plan: an act with all that belongs to it, or a call. Each has every field; what is not of it is null.
pub(super) fn step(protocol: &Protocol, verdict: &Exact, plan: &Plan, reader: Reader, step: &PlanStep) -> Value {
    let call = Target { action: protocol.roles.phone, wound: None };
    let hands = |target| verdict.fitting.hands(protocol, target);
    match step {
        PlanStep::Phone(phone) => json!({
            "id": null, "phone": phone, "wound": null, "verb": null, "place": null, "means": null,
            "say": reader.phrase(&phone.say()), "how": reader.phrase(&phone.why(hands(call).is_some())), "part": part(step.part(protocol)),
            "rules": [], "worked": null, "alone": null, "hands": hands(call), "ends": null, "harm_if_left_out": null, "with_what_is_there": null,
            "timer_s": null, "stop_and_phone": null, "go_on_and_phone_if": null, "way_source": null, "way_strength": null,
        }),
        PlanStep::Act(target, because) => {
            let action = protocol.action(target.action);
            let chosen = plan.ways.get(&target.action);
            let beside = verdict.fitting.pressing(protocol, *target) == Some(Pressing::Beside);
            let way = chosen.map(|chosen| protocol.way(chosen.way));
            let say = way.and_then(|way| way.say.as_deref()).unwrap_or_else(|| verdict.fitting.say(protocol, *target));
            let lines = chosen.filter(|_| !beside).map(|chosen| &chosen.lines);
            json!({
                "id": action.id, "phone": null, "wound": wound(*target), "verb": worded(&action.verb),
                "place": worded(&action.place), "means": worded(&action.means), "say": say,
                "how": worded(verdict.fitting.how(protocol, *target)), "part": part(action.part),
                "rules": rules(protocol, because),
                "worked": action.worked.as_ref().map(|worked| &worked.say), "alone": worded(&action.undoable), "hands": hands(*target),
                "ends": action.ends.as_ref().map(|ends| reader.phrase(&care::end_of_act(ends, plan.no_vet))),
                "harm_if_left_out": action.left_out,
                "with_what_is_there": lines.map(|lines| lines.iter().map(|line| reader.say(line)).collect::<Vec<_>>()),
                "timer_s": way.and_then(|way| way.timer_s),
                "stop_and_phone": way.map(|way| worded(&way.stop)), "go_on_and_phone_if": way.map(|way| worded(&way.phone_if)),
                "way_source": way.map(|way| protocol.source_id(way.source)), "way_strength": way.map(|way| way.strength),
            })
        }
    }
}

/// The part of the plan an action stands in.
const fn part(part: Part) -> &'static str {
    match part {
        Part::First => "first",
        Part::Wound => "wound",
        Part::House => "house",
        Part::Flock => "flock",
    }
}

/// What is never done, each with its instead and its end.
pub(super) fn never(protocol: &Protocol, verdict: &Exact, plan: &Plan, reader: Reader) -> Vec<Value> {
    let never = plan.never.iter().map(|(target, because)| {
        let action = protocol.action(target.action);
        let told = verdict.fitting.why_not(protocol, *target);
        let until = care::until(protocol, &verdict.fitting, *target, because, plan.no_vet);
        json!({
            "id": action.id, "wound": wound(*target), "say": verdict.fitting.never(protocol, *target), "why": told.map(|(why, _)| why),
            "instead": told.map(|(_, instead)| instead),
            "harm_if_done": action.forbidden.as_ref().map(|told| told.broken),
            "until": until.map(|until| reader.phrase(&until)), "rules": rules(protocol, because),
        })
    });
    never.collect()
}

/// What is done once something has been seen.
pub(super) fn later(protocol: &Protocol, plan: &Plan) -> Value {
    let later = plan.later.iter().map(|(target, because)| {
        let action = protocol.action(target.action);
        json!({
            "id": action.id, "wound": wound(*target), "once": action.opens.as_ref().map(|opens| &opens.say),
            "rules": rules(protocol, because),
        })
    });
    later.collect()
}

/// What comes round, and what it means.
pub(super) fn rounds(protocol: &Protocol, plan: &Plan) -> Vec<Value> {
    let named: BTreeSet<RoundAt> = plan.looks.iter().flat_map(|look| look.rounds.iter().copied()).collect();
    let told = |at: RoundAt| {
        let round = protocol.round(at);
        json!({
            "id": round.id, "topic": round.topic, "say": round.say, "ends_home_care": worded(&round.stop),
            "source": protocol.source_id(round.source), "strength": round.strength, "borrowed_from": round.borrowed,
        })
    };
    named.into_iter().map(told).collect()
}

/// The paragraphs, by where they stand; null where there is nobody to drive to, to phone, or no end in question.
pub(super) fn paragraphs(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> impl Iterator<Item = (String, Value)> {
    let places = [
        ("on_the_way", Under::OnTheWay, plan.seen),
        ("humane_end_text", Under::HumaneEnd, plan.humane.is_some()),
        ("could_also_be", Under::CouldBe, true),
        ("pain", Under::Pain, true),
        ("asking_a_vet", Under::Asking, plan.phoned),
        ("people", Under::People, true),
        ("days_after", Under::DaysAfter, true),
    ];
    places.into_iter().map(move |(field, under, stands)| {
        (field.to_owned(), stands.then(|| told(protocol, verdict, under)).map_or(Value::Null, Value::from))
    })
}

/// The paragraphs told under a heading, in full.
fn told(protocol: &Protocol, verdict: &Exact, under: Under) -> Vec<Value> {
    let told = document::told(protocol, verdict, under).map(|paragraph| {
        json!({
            "title": worded(&paragraph.title), "lines": paragraph.lines,
            "source": protocol.source_id(paragraph.source),
            "strength": paragraph.strength, "borrowed_from": paragraph.borrowed,
        })
    });
    told.collect()
}
