//! Every scripted bird in `scenarios/` gets the verdict it must get: no less, and (over-alarm fails too) no more; with a
//! vet in reach and, the same bird, with none.

#![expect(clippy::panic, reason = "a failing test panics")]

mod common;

use common::PROTOCOL;
use coopside::judge::{Verdict, judge};
use coopside::practice::{self, Expect, Scenario};
use coopside::protocol::scale::Need;
use std::collections::BTreeSet;
use std::{fs, path::PathBuf};

/// A scripted bird, its verdict, and that of its twin without a vet.
struct Judged {
    name: String,
    scenario: Scenario,
    verdict: Verdict,
    twin: Option<Verdict>,
}

fn judged() -> Vec<Judged> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap_or_else(|error| panic!("scenarios/: {error}"))
        .map(|entry| entry.unwrap_or_else(|error| panic!("scenarios/: {error}")).path())
        .collect();
    files.sort();
    files.iter().map(one).collect()
}

fn one(path: &PathBuf) -> Judged {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let text = fs::read_to_string(path).unwrap_or_else(|error| panic!("{name}: {error}"));
    let now = chrono::DateTime::UNIX_EPOCH;
    let (scenario, findings) =
        practice::read(&PROTOCOL, &name, &text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
    let verdict = judge(&PROTOCOL, &findings, now);
    let twin = practice::without_vet(&PROTOCOL, &scenario, &findings, now).map(|twin| judge(&PROTOCOL, &twin, now));
    Judged { name, scenario, verdict, twin }
}

fn rules(verdict: &Verdict) -> Vec<&str> {
    verdict.reasons.iter().map(|reason| PROTOCOL.rule(reason.rule).id.as_str()).collect()
}

fn nevers(verdict: &Verdict) -> Vec<&str> {
    verdict.never.iter().map(|never| PROTOCOL.action(never.target.action).id.as_str()).collect()
}

fn acts(verdict: &Verdict) -> Vec<&str> {
    verdict.acts.iter().map(|act| PROTOCOL.action(act.target.action).id.as_str()).collect()
}

/// What came out other than it must.
fn wrong(judged: &Judged) -> Vec<String> {
    let Judged { name, scenario, verdict, twin } = judged;
    let Expect { need_at_least, need_at_most, humane, authority, .. } = &scenario.expect;
    let mut wrong = Vec::new();
    let mut check = |holds: bool, what: String| {
        if !holds {
            wrong.push(format!("{name}: {what}"));
        }
    };
    check(verdict.need.low >= *need_at_least, format!("need at least {:?}", verdict.need.low));
    check(verdict.need.high <= *need_at_most, format!("need at most {:?}", verdict.need.high));
    check(verdict.humane.low == *humane, format!("humane end {:?}", verdict.humane.low));
    check(verdict.authority.low == *authority, format!("authority call {:?}", verdict.authority.low));
    for rule in &scenario.expect.rules {
        check(rules(verdict).contains(&rule.as_str()), format!("rule {rule} is not in force"));
    }
    for action in &scenario.expect.never {
        check(nevers(verdict).contains(&action.as_str()), format!("{action} is not forbidden"));
    }
    for action in &scenario.expect.allowed {
        check(PROTOCOL.actions.iter().any(|known| known.id == **action), format!("no action {action}"));
        check(!nevers(verdict).contains(&action.as_str()), format!("{action} is forbidden"));
    }
    for action in &scenario.expect.acts {
        check(acts(verdict).contains(&action.as_str()), format!("{action} is not advised"));
    }
    check(verdict.clashes.is_empty(), format!("its answers clash: {:?}", verdict.clashes));
    match (twin, &scenario.no_vet) {
        (Some(twin), Some(rungs)) => {
            check(twin.need.low >= rungs.need_at_least, format!("no vet: need at least {:?}", twin.need.low));
            check(twin.need.high <= rungs.need_at_most, format!("no vet: need at most {:?}", twin.need.high));
            check(twin.humane.low == rungs.humane, format!("no vet: humane end {:?}", twin.humane.low));
            // Who cannot reach a vet is never told less.
            check(twin.need.low >= verdict.need.low, "no vet: needs less than with one".to_owned());
            check(twin.humane.low >= verdict.humane.low, "no vet: a milder rung of humane end".to_owned());
        }
        (Some(twin), None) => check(
            false,
            format!(
                "says nothing of the same bird without a vet; it is judged no_vet: (need_at_least: {:?}, need_at_most: {:?}, humane: {:?})",
                twin.need.low, twin.need.high, twin.humane.low
            ),
        ),
        (None, Some(_)) => check(false, "has a twin without a vet, but no vet in reach itself".to_owned()),
        (None, None) => {}
    }
    wrong
}

#[test]
fn every_scripted_bird_gets_its_verdict() {
    let wrong: Vec<String> = judged().iter().flat_map(wrong).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn there_are_enough_of_them_and_enough_are_mild() {
    let judged = judged();
    assert!(judged.len() >= 60, "{} scenarios", judged.len());
    let mild = judged.iter().filter(|judged| judged.scenario.expect.need_at_most <= Need::Home).count();
    assert!(mild >= 14, "only {mild} scenarios are capped at home");
    let twins = judged.iter().filter(|judged| judged.twin.is_some()).count();
    assert!(twins >= 50, "only {twins} have a twin without a vet");
}

#[test]
fn every_red_list_sign_has_a_twin_without_a_vet() {
    let judged = judged();
    for sign in ["bleeding_hard", "fighting_breath", "not_responding", "bone_or_gut", "fitting"] {
        let seen =
            judged.iter().filter(|judged| judged.scenario.answers.0.iter().any(|(q, a)| q == sign && a == "yes"));
        assert!(seen.filter(|judged| judged.twin.is_some()).count() > 0, "{sign}");
    }
}

#[test]
fn every_never_has_a_bird_for_which_it_must_fire_and_one_for_which_it_must_not() {
    let judged = judged();
    let named = |of: &dyn Fn(&Expect) -> &Vec<String>| -> BTreeSet<String> {
        judged.iter().flat_map(|judged| of(&judged.scenario.expect).clone()).collect()
    };
    let (fires, is_silent) = (named(&|expect| &expect.never), named(&|expect| &expect.allowed));
    let forbidden: BTreeSet<String> =
        PROTOCOL.rules.iter().flat_map(|rule| &rule.never).map(|at| PROTOCOL.action(*at).id.to_string()).collect();
    let missing = |have: &BTreeSet<String>| forbidden.difference(have).cloned().collect::<Vec<_>>();
    assert!(missing(&fires).is_empty(), "no scenario must fire {:?}", missing(&fires));
    assert!(missing(&is_silent).is_empty(), "no scenario must leave alone {:?}", missing(&is_silent));
}

#[test]
fn every_rule_is_in_force_for_some_scripted_bird() {
    let judged = judged();
    let in_force: BTreeSet<&str> =
        judged.iter().flat_map(|judged| std::iter::once(&judged.verdict).chain(&judged.twin)).flat_map(rules).collect();
    let never: Vec<&str> =
        PROTOCOL.rules.iter().map(|rule| rule.id.as_str()).filter(|rule| !in_force.contains(rule)).collect();
    assert!(never.is_empty(), "in force for no bird: {never:?}");
}
