//! The verdict and its plan as JSON under a versioned schema name; within a version fields are only ever added.

use crate::care::{self, Plan, PlanStep};
use crate::content::{document, figures, hazards, judgement, phone, unweighed, why};
use crate::finding::{About, Findings};
use crate::judge::{Level, Reason, Target};
use crate::protocol::Protocol;
use crate::protocol::action::{Part, Pressing};
use crate::protocol::question::Asked;
use crate::protocol::rule::Advice;
use crate::protocol::supply::RoundAt;
use crate::protocol::texts::{Country, LawOn, Under};
use crate::prove::{Change, Exact, Scale, Whole, answer_of, explain};
use crate::words::english;
use serde::Serialize;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.verdict/1";

/// All of a verdict, with rule ids.
pub fn verdict(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, country: &Country) -> Value {
    let reasons = |reasons: &[Reason]| reasons.iter().map(|r| protocol.rule(r.rule).id.to_string()).collect::<Vec<_>>();
    let never = |(target, because): &(Target, Vec<Reason>)| {
        let action = protocol.action(target.action);
        let told = verdict.fitting.why_not(protocol, *target);
        json!({ "id": action.id, "wound": wound(*target), "say": action.never(), "why": told.map(|(why, _)| why), "instead": told.map(|(_, instead)| instead), "harm_if_done": action.forbidden.as_ref().map(|told| told.broken), "until": care::until(protocol, &verdict.fitting, *target, because, plan.no_vet).map(english), "rules": reasons(because) })
    };
    let explained = explain(protocol, findings, verdict);
    let later = plan.later.iter().map(|(target, because)| {
        json!({
            "id": protocol.action(target.action).id, "wound": wound(*target),
            "once": protocol.action(target.action).opens.as_ref().map(|opens| &opens.say), "rules": reasons(because),
        })
    });
    let mut whole = json!({
        "schema": SCHEMA,
        "caution": english(document::caution_text(country)),
        "country": country.id,
        "reviewed_by_a_veterinarian": false,
        "protocol": { "version": protocol.version, "fingerprint": protocol.fingerprint },
        "judged_at": verdict.judged_at.to_rfc3339(),
        "need": band(verdict.need),
        "humane_end": band(verdict.humane),
        "authority_call": band(verdict.authority),
        "figures": figures::json(protocol, verdict),
        "severity": verdict.severity.iter().map(|(system, level)| json!({
            "system": system, "at_least": level.low, "at_most": level.high,
        })).collect::<Vec<_>>(),
        "do_now": plan.steps.iter().map(|one| step(protocol, verdict, plan, one)).collect::<Vec<_>>(),
        "never": plan.never.iter().map(never).collect::<Vec<_>>(),
        "left_out": verdict.dropped.iter().map(|dropped| json!({
            "id": protocol.action(dropped.target.action).id, "wound": wound(dropped.target), "because": dropped.because,
        })).collect::<Vec<_>>(),
        "waiting": plan.waiting.iter().map(|waiting| json!({
            "id": protocol.action(waiting.target.action).id,
            "wound": wound(waiting.target),
            "ask": waiting.ask.iter().map(|asked| asked_json(protocol, *asked)).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "by_when": plan.due.iter().map(|due| json!({
            "what": due.what, "by": due.by.map(|by| by.to_rfc3339()), "past": due.past,
            "rule": protocol.rule(due.reason.rule).id,
        })).collect::<Vec<_>>(),
        "look_again": plan.looks.iter().map(|look| look.at.to_rfc3339()).collect::<Vec<_>>(),
        "timetable": plan.looks.iter().map(|look| json!({
            "at": look.at.to_rfc3339(), "all_signs": look.signs,
            "rounds": look.rounds.iter().map(|round| &protocol.round(*round).id).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "rounds": rounds(protocol, plan),
        "left_to_vet": plan.left_to_vet.iter().map(|(target, because)| json!({
            "id": protocol.action(target.action).id, "wound": wound(*target), "rules": reasons(because),
        })).collect::<Vec<_>>(),
        "on_the_phone": plan.phoned.then(|| crate::words::english(phone::script(protocol, findings, verdict, &|text| crate::words::english(text.clone())))),
        "eggs_and_meat_withheld": plan.withheld.iter().map(|at| &protocol.supply(*at).id).collect::<Vec<_>>(),
        "better_with": plan.fetch.iter().map(|at| &protocol.supply(*at).id).collect::<Vec<_>>(),
        "watch_for": plan.watch.iter().map(|(sign, because)| {
            let watch = protocol.watch(*sign);
            json!({ "id": watch.id, "say": watch.say, "rules": reasons(because) })
        }).collect::<Vec<_>>(),
        "scores": verdict.scores.iter().map(|scored| json!({
            "id": protocol.score(scored.score).id, "parts": scored.parts, "total": scored.total(), "most": scored.most,
            "say": protocol.score(scored.score).say,
        })).collect::<Vec<_>>(),
        "reasons": verdict.reasons.iter().map(|r| reason(protocol, *r)).collect::<Vec<_>>(),
        "explained": explained.scales.iter().map(|told| json!({
            "scale": told.scale.id(),
            "at_least_because": told.at_least.iter().map(|asked| asked_json(protocol, *asked)).collect::<Vec<_>>(),
            "worse_ruled_out_by": told.ruled_out.iter().map(|(asked, _)| asked_json(protocol, *asked)).collect::<Vec<_>>(),
            "milder_if": told.what_if.milder.as_ref().map(|change| change_json(protocol, told.scale, change)),
            "graver_if": told.what_if.graver.as_ref().map(|change| change_json(protocol, told.scale, change)),
        })).collect::<Vec<_>>(),
        "holds_until": explained.until.as_ref().map(|(moment, _)| moment.to_rfc3339()),
        "open_questions": verdict.open.iter().map(|asked| asked_json(protocol, *asked)).collect::<Vec<_>>(),
        "wounds_may_be_unfound": !findings.looked_over(),
        "ask_next_for_humane_end": verdict.held.iter().map(|held| json!({
            "rule": protocol.rule(held.rule).id,
            "ask": held.ask.iter().map(|asked| asked_json(protocol, *asked)).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "sources": sources(protocol, verdict),
        "clashes": verdict.clashes.iter().map(|clash| english(judgement::clash(clash))).collect::<Vec<_>>(),
        "not_understood": verdict.not_understood,
    });
    let idle = unweighed::json(protocol, findings, verdict, |asked| asked_json(protocol, asked));
    let (law, law_not_known) = crate::content::law::json(protocol, country, &LawOn::ALL);
    if let Value::Object(fields) = &mut whole {
        fields.insert("law".to_owned(), law);
        fields.insert("law_not_known".to_owned(), law_not_known);
        fields.insert("law_limits".to_owned(), json!(country.limits().collect::<Vec<_>>()));
        fields.insert("told_not_weighed".to_owned(), idle.into());
        fields.insert("later".to_owned(), later.collect());
        fields.extend(texts(protocol, verdict, plan));
        fields.insert("hazards".to_owned(), hazards::json(hazards::of_bird(protocol, findings, verdict)));
    }
    whole
}

/// The paragraphs, by where they stand; null where there is nobody to drive to, to phone, or no end in question.
fn texts(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> impl Iterator<Item = (String, Value)> {
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

/// One step of a plan: an act with all that belongs to it, or a call.
fn step(protocol: &Protocol, verdict: &Exact, plan: &Plan, step: &PlanStep) -> Value {
    let reasons = |reasons: &[Reason]| reasons.iter().map(|r| protocol.rule(r.rule).id.to_string()).collect::<Vec<_>>();
    match step {
        PlanStep::Phone(phone) => json!({ "phone": phone, "say": english(phone.say()), "how": english(phone.why()) }),
        PlanStep::Act(target, because) => {
            let action = protocol.action(target.action);
            let chosen = plan.ways.get(&target.action);
            let beside = verdict.fitting.pressing(protocol, *target) == Some(Pressing::Beside);
            let way = chosen.map(|chosen| protocol.way(chosen.way));
            json!({
                "id": action.id, "wound": wound(*target), "verb": action.verb, "place": action.place, "means": action.means,
                "say": way.and_then(|way| way.say.as_deref()).unwrap_or_else(|| verdict.fitting.say(protocol, *target)), "how": verdict.fitting.how(protocol, *target), "part": part(action.part), "rules": reasons(because),
                "worked": action.worked.as_ref().map(|worked| &worked.say), "alone": action.undoable,
                "ends": action.ends.as_ref().map(|ends| english(care::end_of_act(ends, plan.no_vet))), "harm_if_left_out": action.left_out,
                "with_what_is_there": chosen.filter(|_| !beside).map(|chosen| chosen.lines.iter().cloned().map(english).collect::<Vec<_>>()), "timer_s": way.and_then(|way| way.timer_s),
                "stop_and_phone": way.map(|way| &way.stop).filter(|stop| !stop.is_empty()),
                "go_on_and_phone_if": way.map(|way| &way.phone_if).filter(|sign| !sign.is_empty()),
                "way_source": way.map(|way| protocol.source_id(way.source)), "way_strength": way.map(|way| way.strength),
            })
        }
    }
}

/// The schema of a plan by itself.
pub const PLAN_SCHEMA: &str = "coopside.plan/1";

/// What a plan by itself takes from the whole.
const OF_A_PLAN: [&str; 24] = [
    "caution",
    "country",
    "reviewed_by_a_veterinarian",
    "protocol",
    "judged_at",
    "need",
    "humane_end",
    "authority_call",
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
    let mut plan = json!({ "schema": PLAN_SCHEMA });
    for field in OF_A_PLAN {
        if let (Some(plan), Some(value)) = (plan.as_object_mut(), whole.get(field)) {
            plan.insert(field.to_owned(), value.clone());
        }
    }
    plan
}

/// What comes round, and what it means.
fn rounds(protocol: &Protocol, plan: &Plan) -> Vec<Value> {
    let named: BTreeSet<RoundAt> = plan.looks.iter().flat_map(|look| look.rounds.iter().copied()).collect();
    let told = |at: RoundAt| {
        let round = protocol.round(at);
        json!({
            "id": round.id, "topic": round.topic, "say": round.say, "ends_home_care": round.stop,
            "source": protocol.source_id(round.source), "strength": round.strength, "borrowed_from": round.borrowed,
        })
    };
    named.into_iter().map(told).collect()
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

/// The paragraphs told under a heading, in full.
fn told(protocol: &Protocol, verdict: &Exact, under: Under) -> Vec<Value> {
    document::told(protocol, verdict, under)
        .map(|paragraph| {
            json!({
                "title": paragraph.title, "lines": paragraph.lines, "source": protocol.source_id(paragraph.source),
                "strength": paragraph.strength, "borrowed_from": paragraph.borrowed,
            })
        })
        .collect()
}

/// Other findings and what they would have come to.
fn change_json(protocol: &Protocol, scale: Scale, change: &Change) -> Value {
    let instead = change.instead.iter().map(|one| {
        let answer = answer_of(protocol.ask(one.asked.question), one.cell);
        json!({ "asked": asked_json(protocol, one.asked), "answer": answer })
    });
    json!({ "instead": instead.collect::<Vec<_>>(), "then": scale.words(change.rung) })
}

/// The wound an action is for, counted from 1 as people do.
fn wound(target: Target) -> Option<usize> {
    target.wound.map(|number| number + 1)
}

fn band<T: Serialize + Copy>(level: Level<T>) -> Value {
    let Level { low, high } = level;
    json!({ "at_least": low, "at_most": high })
}

fn reason(protocol: &Protocol, reason: Reason) -> Value {
    let rule = protocol.rule(reason.rule);
    let standing = match reason.standing {
        crate::judge::Standing::Seen => "seen",
        crate::judge::Standing::CouldNotTell => "could_not_tell",
        crate::judge::Standing::ExceptionOpen => "exception_open",
    };
    json!({
        "rule": rule.id, "about": about(reason.about), "standing": standing, "reason": rule.reason,
        "need": rule.need, "humane_end": rule.humane, "authority_call": rule.authority,
        "finding": { "source": protocol.source_id(rule.source), "strength": rule.strength }, "borrowed_from": rule.borrowed,
        "advice": match &rule.advice {
            Advice::Says(source) => json!({ "source": protocol.source_id(*source) }),
            Advice::Ours => json!({ "source": null, "ours_unreviewed": true }),
        },
        "labels": why::labels(protocol, reason).into_iter().map(english).collect::<Vec<_>>(),
    })
}

/// Every source the verdict's rules rest on.
fn sources(protocol: &Protocol, verdict: &Exact) -> Vec<Value> {
    let rules: Vec<_> = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule)).collect();
    let told = protocol.sources.placed().filter(|(at, _)| rules.iter().any(|rule| rule.rests_on(*at)));
    told.map(|(_, source)| json!({ "id": source.id, "cite": source.cite, "at": source.at, "grade": source.grade }))
        .collect()
}

fn asked_json(protocol: &Protocol, asked: Asked) -> Value {
    let question = protocol.ask(asked.question);
    json!({ "question": question.id, "about": about(asked.about), "ask": question.ask })
}

fn about(about: About) -> Value {
    match about {
        About::Bird => json!("bird"),
        About::Wound(number) => json!(format!("wound {}", number + 1)),
    }
}
