//! The verdict and its plan as JSON, with the rules behind each line by their names.

use super::plan::{later, never, paragraphs, rounds, step};
use super::{about, asked, band, caution, course, figures, hazards, law, rules, said, wound};
use crate::care::Plan;
use crate::care::contacts::Contacts;
use crate::content::course::cards;
use crate::content::{judgement, phone, unweighed, why};
use crate::finding::Findings;
use crate::judge::{Reason, Standing};
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::protocol::rule::Advice;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::texts::LawOn;
use crate::prove::{Change, Exact, Explained, Rung, Scale, Whole, answer_of, explain};
use crate::render::nodes::moment;
use crate::sheet::Idle;
use crate::words::Reader;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.verdict/2";

/// All of a verdict, with the plan made of it.
pub fn verdict(protocol: &Protocol, findings: &Findings, verdict: &Whole, plan: &Plan, reader: Reader) -> Value {
    with_calls(protocol, findings, verdict, plan, &Contacts::default(), reader)
}

/// The same; a card on which somebody is phoned tells whom, as the keeper wrote it down.
pub fn with_calls(
    protocol: &Protocol,
    findings: &Findings,
    verdict: &Whole,
    plan: &Plan,
    contacts: &Contacts,
    reader: Reader,
) -> Value {
    let explained = explain(protocol, findings, verdict);
    let each = |of: &[Asked]| of.iter().map(|one| asked(protocol, *one)).collect::<Vec<_>>();
    let script = || phone::script(protocol, findings, verdict, &|text| reader.say(text));
    let mut whole = json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "country": reader.country.id,
        "reviewed_by_a_veterinarian": false,
        "protocol": { "version": protocol.version, "fingerprint": protocol.fingerprint },
        "judged_at": moment(verdict.judged_at),
        "need": band(verdict.need),
        "humane_end": band(verdict.humane),
        "authority_call": band(verdict.authority),
        "figures": figures::figures(protocol, verdict, reader),
        "severity": verdict.severity.iter().map(|(system, level)| json!({
            "system": system, "at_least": level.low, "at_most": level.high,
        })).collect::<Vec<_>>(),
        "course": course::course(protocol, &cards(protocol, verdict, plan, contacts, reader), reader),
        "do_now": plan.steps.iter().map(|one| step(protocol, verdict, plan, reader, one)).collect::<Vec<_>>(),
        "never": never(protocol, verdict, plan, reader),
        "left_out": verdict.dropped.iter().map(|dropped| json!({
            "id": protocol.action(dropped.target.action).id, "wound": wound(dropped.target),
            "because": super::worded(&dropped.because),
        })).collect::<Vec<_>>(),
        "waiting": plan.waiting.iter().map(|waiting| json!({
            "id": protocol.action(waiting.target.action).id, "wound": wound(waiting.target), "ask": each(&waiting.ask),
        })).collect::<Vec<_>>(),
        "later": later(protocol, plan),
        "by_when": plan.due.iter().map(|due| json!({
            "what": due.what, "by": due.by.map(moment), "past": due.past, "rule": protocol.rule(due.reason.rule).id,
        })).collect::<Vec<_>>(),
        "look_again": plan.looks.iter().map(|look| moment(look.at)).collect::<Vec<_>>(),
        "timetable": plan.looks.iter().map(|look| json!({
            "at": moment(look.at), "all_signs": look.signs,
            "rounds": look.rounds.iter().map(|round| &protocol.round(*round).id).collect::<Vec<_>>(),
        })).collect::<Vec<_>>(),
        "rounds": rounds(protocol, plan),
        "left_to_vet": plan.left_to_vet.iter().map(|(target, because)| json!({
            "id": protocol.action(target.action).id, "wound": wound(*target), "rules": rules(protocol, because),
        })).collect::<Vec<_>>(),
        "on_the_phone": plan.phoned.then(|| said(reader, script())),
        "eggs_and_meat_withheld": plan.withheld.iter().map(|at| &protocol.supply(*at).id).collect::<Vec<_>>(),
        "better_with": plan.fetch.iter().map(|at| &protocol.supply(*at).id).collect::<Vec<_>>(),
        "watch_for": plan.watch.iter().map(|(sign, because)| {
            let watch = protocol.watch(*sign);
            json!({ "id": watch.id, "say": watch.say, "rules": rules(protocol, because) })
        }).collect::<Vec<_>>(),
        "open_questions": each(&verdict.open),
        "wounds_may_be_unfound": !findings.looked_over(),
        "ask_next_for_humane_end": verdict.held.iter().map(|held| json!({
            "rule": protocol.rule(held.rule).id, "ask": each(&held.ask),
        })).collect::<Vec<_>>(),
    });
    if let Value::Object(fields) = &mut whole {
        fields.extend(why_so(protocol, verdict, &explained, reader));
        fields.extend(paragraphs(protocol, verdict, plan));
        fields.extend(beside(protocol, findings, verdict, reader));
    }
    whole
}

type Fields = serde_json::Map<String, Value>;

/// Why it is so: scores, rules, sources, what would have changed it, and how long it holds.
fn why_so(protocol: &Protocol, verdict: &Whole, explained: &Explained, reader: Reader) -> Fields {
    let each = |of: &mut dyn Iterator<Item = Asked>| of.map(|one| asked(protocol, one)).collect::<Vec<_>>();
    let explain = explained.scales.iter().map(|told| {
        let change = |change: &Option<Change>| change.as_ref().map(|change| changed(protocol, told.scale, change));
        json!({
            "scale": told.scale.id(),
            "at_least_because": each(&mut told.at_least.iter().copied()),
            "worse_ruled_out_by": each(&mut told.ruled_out.iter().map(|(asked, _)| *asked)),
            "milder_if": change(&told.what_if.milder),
            "graver_if": change(&told.what_if.graver),
        })
    });
    let scores = verdict.scores.iter().map(|scored| {
        let score = protocol.score(scored.score);
        json!({ "id": score.id, "parts": scored.parts, "total": scored.total(), "most": scored.most, "say": score.say })
    });
    let mut fields = Fields::new();
    let mut tell = |field: &str, told: Value| fields.insert(field.to_owned(), told);
    tell("scores", scores.collect());
    tell("reasons", verdict.reasons.iter().map(|one| reason(protocol, *one, reader)).collect());
    tell("explained", explain.collect());
    tell("holds_until", explained.until.as_ref().map(|(at, _)| moment(*at)).into());
    tell("sources", sources(protocol, verdict).into());
    tell("clashes", verdict.clashes.iter().map(|clash| said(reader, judgement::clash(clash))).collect());
    tell("not_understood", json!(verdict.not_understood));
    fields
}

/// What stands beside it: the law, what was told and moves nothing, and what could go wrong with her.
fn beside(protocol: &Protocol, findings: &Findings, verdict: &Exact, reader: Reader) -> Fields {
    let (law, law_not_known) = law::law(protocol, reader.country, &LawOn::ALL);
    let mut fields = Fields::new();
    let mut tell = |field: &str, told: Value| fields.insert(field.to_owned(), told);
    tell("law", law);
    tell("law_not_known", law_not_known);
    tell("law_limits", json!(reader.country.limits().collect::<Vec<_>>()));
    tell("told_not_weighed", unmoving(protocol, findings, verdict, reader).into());
    tell("hazards", hazards::of_bird(protocol, findings, verdict, reader));
    fields
}

/// Each answer that moves nothing, and why.
fn unmoving(protocol: &Protocol, findings: &Findings, verdict: &Exact, reader: Reader) -> Vec<Value> {
    let told = |(one, why): &(Asked, Idle)| {
        let said = findings.answer(one.about, protocol.ask(one.question).id.as_str());
        let (because, asks) = match why {
            Idle::NotAsked => ("not_asked_of_such_a_bird", protocol.asked_by(one.question, one.about)),
            Idle::NothingMade => ("nothing_is_made_of_it", Vec::new()),
        };
        json!({
            "asked": asked(protocol, *one), "answer": said.map(|said| &said.statement.answer),
            "say": reader.phrase(&unweighed::line(protocol, findings, *one)),
            "because": because, "asked_by": asks.into_iter().map(|one| asked(protocol, one)).collect::<Vec<_>>(),
        })
    };
    verdict.idle.iter().map(told).collect()
}

/// Other findings, and the rung they would have come to.
fn changed(protocol: &Protocol, scale: Scale, change: &Change) -> Value {
    let instead = change.instead.iter().map(|one| {
        let answer = answer_of(protocol.ask(one.asked.question), one.cell);
        json!({ "asked": asked(protocol, one.asked), "answer": answer })
    });
    json!({ "instead": instead.collect::<Vec<_>>(), "then": rung(scale, change.rung) })
}

/// A rung by its name.
fn rung(scale: Scale, rung: Rung) -> Value {
    let at = usize::from(rung);
    match scale {
        Scale::Need => json!(Need::ALL.get(at)),
        Scale::Humane => json!(Humane::ALL.get(at)),
        Scale::Authority => json!(Authority::ALL.get(at)),
    }
}

fn reason(protocol: &Protocol, reason: Reason, reader: Reader) -> Value {
    let rule = protocol.rule(reason.rule);
    let standing = match reason.standing {
        Standing::Seen => "seen",
        Standing::CouldNotTell => "could_not_tell",
        Standing::ExceptionOpen => "exception_open",
    };
    let labels = why::labels(protocol, reason).into_iter().map(|label| said(reader, label));
    json!({
        "rule": rule.id, "about": about(reason.about), "standing": standing, "reason": rule.reason,
        "need": rule.need, "humane_end": rule.humane, "authority_call": rule.authority,
        "finding": { "source": protocol.source_id(rule.source), "strength": rule.strength }, "borrowed_from": rule.borrowed,
        "advice": match &rule.advice {
            Advice::Says(source) => json!({ "source": protocol.source_id(*source), "ours_unreviewed": false }),
            Advice::Ours => json!({ "source": null, "ours_unreviewed": true }),
        },
        "labels": labels.collect::<Vec<_>>(),
    })
}

/// Every source the verdict's rules rest on.
fn sources(protocol: &Protocol, verdict: &Exact) -> Vec<Value> {
    let rules: Vec<_> = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule)).collect();
    let told = protocol.sources.placed().filter(|(at, _)| rules.iter().any(|rule| rule.rests_on(*at)));
    told.map(|(_, source)| {
        json!({ "id": source.id, "cite": source.cite, "at": super::worded(&source.at), "grade": source.grade })
    })
    .collect()
}
