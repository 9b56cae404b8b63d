//! Every scripted bird in `scenarios/` gets the verdict it must get: no less, and (over-alarm fails too) no more; with a
//! vet in reach and, the same bird, with none.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use coopside::judge::{Verdict, judge};
use coopside::practice::{self, Expect, Scenario};
use coopside::protocol::scale::Need;
use std::collections::BTreeSet;
use std::{fs, path::PathBuf};

/// A scripted bird, its verdict, and that of its twin without a vet.
struct Judged {
    scenario: Scenario,
    verdict: Verdict,
    twin: Option<Verdict>,
}

/// Name and text of every file, in the order of their names.
fn files() -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let paths = fs::read_dir(folder).unwrap_or_else(|error| panic!("scenarios/: {error}"));
    let read = |entry: std::io::Result<fs::DirEntry>| {
        let path = entry.unwrap_or_else(|error| panic!("scenarios/: {error}")).path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(path).unwrap_or_else(|error| panic!("{name}: {error}"));
        (name, text)
    };
    let mut files: Vec<_> = paths.map(read).collect();
    files.sort();
    files
}

fn judged() -> Vec<Judged> {
    files().into_iter().map(|(name, text)| one(&name, &text)).collect()
}

fn one(name: &str, text: &str) -> Judged {
    let now = chrono::DateTime::UNIX_EPOCH;
    let (scenario, findings) = practice::read(&PROTOCOL, name, text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
    let verdict = judge(&PROTOCOL, &findings, now);
    let twin = practice::without_vet(&PROTOCOL, &scenario, &findings, now).map(|twin| judge(&PROTOCOL, &twin, now));
    Judged { scenario, verdict, twin }
}

fn rules(verdict: &Verdict) -> Vec<&str> {
    verdict.reasons.iter().map(|reason| PROTOCOL.rule(reason.rule).id.as_str()).collect()
}

#[test]
fn every_scripted_bird_gets_its_verdict() {
    let wrong: Vec<String> = files()
        .iter()
        .filter_map(|(name, text)| practice::check(&PROTOCOL, name, name, text).err())
        .map(|faults| faults.to_string())
        .collect();
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
fn every_danger_sign_has_a_twin_without_a_vet() {
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
