//! Every scripted bird in `scenarios/` gets the verdict it must get: no less, and (over-alarm fails too) no more.

#![expect(clippy::panic, reason = "a failing test panics")]

use coopside::judge::judge;
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::protocol::scale::Need;
use std::{fs, path::PathBuf};

type Scenarios = Vec<(String, practice::Scenario, Vec<String>)>;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("scenarios")
}

/// Reads and judges every scenario; the last part lists what came out wrong.
fn judged() -> Scenarios {
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("\n{faults}"));
    let mut files: Vec<PathBuf> = fs::read_dir(folder())
        .unwrap_or_else(|error| panic!("scenarios/: {error}"))
        .map(|entry| entry.unwrap_or_else(|error| panic!("scenarios/: {error}")).path())
        .collect();
    files.sort();
    files.into_iter().map(|path| one(&protocol, &path)).collect()
}

fn one(protocol: &Protocol, path: &std::path::Path) -> (String, practice::Scenario, Vec<String>) {
    let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let text = fs::read_to_string(path).unwrap_or_else(|error| panic!("{name}: {error}"));
    let now = chrono::DateTime::UNIX_EPOCH;
    let (scenario, findings) =
        practice::read(protocol, &name, &text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
    let verdict = judge(protocol, &findings, now);
    let expect = &scenario.expect;
    let mut wrong = Vec::new();
    let mut check = |holds: bool, what: String| {
        if !holds {
            wrong.push(format!("{name}: {what}"));
        }
    };
    check(verdict.need.low >= expect.need_at_least, format!("need at least {:?}", verdict.need.low));
    check(verdict.need.high <= expect.need_at_most, format!("need at most {:?}", verdict.need.high));
    check(verdict.humane.low == expect.humane, format!("humane end {:?}", verdict.humane.low));
    check(verdict.authority.low == expect.authority, format!("authority call {:?}", verdict.authority.low));
    let rules: Vec<&str> = verdict.reasons.iter().map(|reason| protocol.rule(reason.rule).id.as_str()).collect();
    for rule in &expect.rules {
        check(rules.contains(&rule.as_str()), format!("rule {rule} is not in force"));
    }
    let never: Vec<&str> = verdict.never.iter().map(|never| protocol.action(never.target.action).id.as_str()).collect();
    for action in &expect.never {
        check(never.contains(&action.as_str()), format!("{action} is not forbidden"));
    }
    let acts: Vec<&str> = verdict.acts.iter().map(|act| protocol.action(act.target.action).id.as_str()).collect();
    for action in &expect.acts {
        check(acts.contains(&action.as_str()), format!("{action} is not advised"));
    }
    check(verdict.clashes.is_empty(), format!("its answers clash: {:?}", verdict.clashes));
    (name, scenario, wrong)
}

#[test]
fn every_scripted_bird_gets_its_verdict() {
    let wrong: Vec<String> = judged().into_iter().flat_map(|(_, _, wrong)| wrong).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn mild_birds_are_not_alarmed_about() {
    let mild = judged().iter().filter(|(_, scenario, _)| scenario.expect.need_at_most <= Need::Home).count();
    assert!(mild >= 8, "only {mild} scenarios are capped at home");
}

#[test]
fn every_red_list_sign_has_a_twin_without_a_vet() {
    let judged = judged();
    for sign in ["bleeding_hard", "fighting_breath", "not_responding", "bone_or_gut", "fitting"] {
        let with = |reach_none: bool| {
            judged.iter().any(|(_, scenario, _)| {
                let says =
                    |question: &str, answer: &str| scenario.answers.0.iter().any(|(q, a)| q == question && a == answer);
                says(sign, "yes") && says("reach", "none") == reach_none
            })
        };
        assert!(with(true) && with(false), "{sign}");
    }
}
