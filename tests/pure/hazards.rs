//! The list of what can go wrong: with all of a row's controls the harm stays away from the bird that shows it; without them it is
//! back; controls that double each other each keep it away alone. A control in code is shown by a broken build.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

mod broken;

use crate::common::{PROTOCOL, long};
use coopside::care::cupboard::Cupboard;
use coopside::care::label::{self, Given, Held};
use coopside::care::{self, Plan, PlanStep};
use coopside::content::hazards as told;
use coopside::finding::{Answer, Findings};
use coopside::protocol::action::{End, Pressing};
use coopside::protocol::hazard::{self, Back, Control, Controls, Hazard, Shown};
use coopside::protocol::substance::Ruling;
use coopside::protocol::{File, Protocol};
use coopside::prove::{Exact, judge_bands};
use coopside::words::Reader;
use coopside::zone::Zone;
use coopside::{practice, shipped};
use std::collections::BTreeSet;
use std::{fs, panic, path::Path, thread};

fn file() -> File {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/hazards.ron");
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    File { name: "hazards.ron".into(), text }
}

fn birds() -> Vec<&'static str> {
    shipped::scenarios().iter().map(|bird| bird.name.as_str()).collect()
}

fn hazards() -> Vec<Hazard> {
    hazard::load(&file(), &PROTOCOL, &birds()).unwrap_or_else(|faults| panic!("\n{faults}"))
}

/// The bird that shows a hazard, as her file says.
fn bird(shown: &Shown) -> Findings {
    let file = shipped::scenarios().iter().find(|file| file.name == shown.bird);
    let file = file.unwrap_or_else(|| panic!("{}", shown.bird));
    let now = chrono::DateTime::UNIX_EPOCH;
    let (scenario, findings) =
        practice::read(&PROTOCOL, &file.name, &file.text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
    if shown.no_vet {
        let twin = practice::without_vet(&PROTOCOL, &scenario, &findings, now);
        return twin.unwrap_or_else(|| panic!("{}: she has no vet in reach as it is", shown.bird));
    }
    findings
}

/// A bird under a protocol.
struct Seen<'a> {
    protocol: &'a Protocol,
    findings: &'a Findings,
    verdict: Exact,
    plan: Plan,
}

impl<'a> Seen<'a> {
    fn of(protocol: &'a Protocol, findings: &'a Findings) -> Self {
        let verdict = judge_bands(protocol, findings, chrono::DateTime::UNIX_EPOCH);
        let plan = care::plan(protocol, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
        Self { protocol, findings, verdict, plan }
    }

    fn steps(&self) -> Vec<&str> {
        let acts = self.plan.steps.iter().filter_map(|step| match step {
            PlanStep::Act(target, _) => Some(self.protocol.action(target.action).id.as_str()),
            PlanStep::Phone(_) => None,
        });
        acts.collect()
    }

    fn never(&self, action: &str) -> bool {
        self.verdict.never.iter().any(|never| self.protocol.action(never.target.action).id == *action)
    }

    fn endless(&self, action: &str) -> bool {
        let bans = self.verdict.never.iter().filter(|never| self.protocol.action(never.target.action).id == *action);
        let untils = bans.filter_map(|never| self.verdict.fitting.until(self.protocol, never.target));
        { untils }.any(|until| !until.vet && matches!(until.alone, End::Lives { .. }))
    }

    /// The firmest the action is told to press her, where it stands in her plan.
    fn pressing(&self, action: &str) -> Option<Pressing> {
        let acts = self.plan.steps.iter().filter_map(|step| match step {
            PlanStep::Act(target, _) if self.protocol.action(target.action).id == *action => Some(*target),
            PlanStep::Act(..) | PlanStep::Phone(_) => None,
        });
        acts.map(|target| self.verdict.fitting.pressing(self.protocol, target).unwrap_or_default()).min()
    }

    fn shown(&self) -> BTreeSet<&str> {
        let said = self.findings.said().iter().filter_map(|said| {
            let statement = &said.statement;
            let question = self.protocol.question(statement.question.as_str())?;
            let Answer::Choice(answer) = &statement.answer else { return None };
            question.choices.iter().find(|choice| choice.id == *answer)?.instruct
        });
        said.map(|at| self.protocol.instruction(at).id.as_str()).collect()
    }

    /// Whether the harm is there.
    fn harmed(&self, back: &Back) -> bool {
        let steps = self.steps();
        let at = |action: &str| steps.iter().position(|step| *step == action);
        match back {
            Back::Told(action) => steps.contains(&action.as_str()),
            Back::NotTold(action) => !steps.contains(&action.as_str()),
            Back::NotForbidden(action) => !self.never(action),
            Back::Endless(action) => self.endless(action),
            Back::NeedBelow(need) => self.verdict.need.low < *need,
            Back::HumaneBelow(humane) => self.verdict.humane.low < *humane,
            Back::HumaneAbove(humane) => self.verdict.humane.low > *humane,
            Back::AuthorityBelow(authority) => self.verdict.authority.low < *authority,
            Back::PressedHarder(action, most) => self.pressing(action).is_some_and(|pressing| pressing < *most),
            Back::NotShown(instruction) => !self.shown().contains(instruction.as_str()),
            Back::NotBefore(one, other) => match (at(one), at(other)) {
                (Some(one), Some(other)) => one > other,
                _ => true,
            },
            Back::NotLookedAtWithin(minutes) => {
                let until = self.verdict.judged_at + chrono::TimeDelta::minutes(i64::from(*minutes));
                !self.plan.looks.iter().any(|look| look.at <= until)
            }
            Back::NotWatched(sign) => {
                !self.plan.watch.iter().any(|(watch, _)| self.protocol.watch(*watch).id == *sign.as_str())
            }
            Back::NotRead(paragraph) => !told::is_told(self.protocol, &self.verdict, paragraph),
            Back::NotRefused(printed) => {
                let given = Given::default();
                let held = Held { country: self.protocol.no_country(), given: &given, before: None, on: None };
                label::rule(self.protocol, printed, held).ruling < Ruling::NotHere
            }
        }
    }
}

fn without(row: &Hazard, controls: &[Control]) -> Protocol {
    Protocol::without(&shipped::files(), controls)
        .unwrap_or_else(|faults| panic!("{}, without {controls:?}:\n{faults}", row.id))
}

/// What of a row's harms is there, with some of its controls taken away.
fn harms<'r>(row: &Hazard, shown: &'r Shown, taken: &[Control]) -> Vec<&'r Back> {
    let findings = bird(shown);
    let changed = (!taken.is_empty()).then(|| without(row, taken));
    let seen = Seen::of(changed.as_ref().unwrap_or(&PROTOCOL), &findings);
    shown.comes_back.iter().filter(|back| seen.harmed(back)).collect()
}

/// All controls but one, for each.
fn but_one(controls: &[Control]) -> Vec<(Control, Vec<Control>)> {
    let left = |kept: usize| controls.iter().enumerate().filter(move |(at, _)| *at != kept).map(|(_, c)| c.clone());
    controls.iter().enumerate().map(|(at, control)| (control.clone(), left(at).collect())).collect()
}

/// What is wrong with a row.
fn faults(row: &Hazard) -> Vec<String> {
    let Some(shown) = &row.shown else { return Vec::new() };
    let all = shown.controls.all();
    let mut faults = Vec::new();
    let there = harms(row, shown, &[]);
    if !there.is_empty() {
        faults.push(format!("{}: with all its controls there is still {there:?}", row.id));
    }
    let back = harms(row, shown, all);
    let missing: Vec<&Back> = shown.comes_back.iter().filter(|one| !back.contains(one)).collect();
    if !missing.is_empty() {
        faults.push(format!("{}: without its controls {missing:?} does not come back", row.id));
    }
    if all.len() < 2 {
        return faults;
    }
    // One by one in the long form; in the short one the first of each row.
    let tried = if long() { all.len() } else { 1 };
    match &shown.controls {
        Controls::Each(_) => {
            for control in all.iter().take(tried) {
                if harms(row, shown, std::slice::from_ref(control)).is_empty() {
                    faults.push(format!("{}: without {control:?} alone nothing comes back; list it under Any", row.id));
                }
            }
        }
        Controls::Any(_) => {
            for (kept, taken) in but_one(all).into_iter().take(tried) {
                let back = harms(row, shown, &taken);
                if !back.is_empty() {
                    faults.push(format!("{}: {kept:?} alone does not keep away {back:?}", row.id));
                }
            }
        }
    }
    faults
}

#[test]
fn without_its_controls_each_harm_is_back_and_with_them_it_is_not() {
    let hazards = hazards();
    let half = |part: usize| hazards.iter().skip(part).step_by(2).flat_map(faults).collect::<Vec<String>>();
    let wrong: Vec<String> = thread::scope(|scope| {
        let other = scope.spawn(|| half(1));
        let own = half(0);
        own.into_iter().chain(other.join().unwrap_or_else(|error| panic::resume_unwind(error))).collect()
    });
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn the_list_covers_what_can_kill_maim_or_mislead() {
    let hazards = hazards();
    let (data, code) = (
        hazards.iter().filter(|row| row.shown.is_some()).count(),
        hazards.iter().filter(|row| !row.code.is_empty()).count(),
    );
    println!("{} hazards: {data} shown on a bird, {code} with a control in code", hazards.len());
    assert!(hazards.len() >= 40 && data >= 30 && code >= 8, "{} rows, {data} on a bird, {code} in code", hazards.len());
}

/// Tests a row names stand where it says.
#[test]
fn every_test_named_is_there() {
    for row in hazards() {
        for test in row.tests.iter().chain(row.code.iter().map(|code| &code.test)) {
            let parts: Vec<&str> = test.split("::").collect();
            let [binary, module, name] = parts.as_slice() else { panic!("{}: `{test}`", row.id) };
            let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/{binary}/{module}.rs"));
            let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {test}: {error}", row.id));
            assert!(text.contains(&format!("fn {name}(")), "{}: no test `{test}`", row.id);
        }
    }
}

fn refused(from: &str, to: &str, expected: &str) {
    let File { name, text } = file();
    assert!(text.contains(from), "`{from}` stands no more in hazards.ron");
    let spoiled = File { name, text: text.replacen(from, to, 1) };
    let faults = hazard::load(&spoiled, &PROTOCOL, &birds()).err().unwrap_or_else(|| panic!("{to} was taken"));
    let line = 1 + spoiled.text.split(to).next().unwrap_or_default().matches('\n').count();
    let told = faults.to_string();
    assert!(told.contains(expected) && told.contains(&format!("hazards.ron:{line}: ")), "line {line}, not in:\n{told}");
}

#[test]
fn an_unknown_name_is_told_with_its_line_and_the_nearest_known_one() {
    refused("bird: \"eye_bleeds\"", "bird: \"eye_bleed\"", "bird `eye_bleed` is not known; did you mean `eye_bleeds`?");
    refused("Ban(\"tie_off\")", "Ban(\"tie_of\")", "action `tie_of` is not known; did you mean `tie_off`?");
    refused("NotForbidden(\"tie_off\")", "NotForbidden(\"tieoff\")", "did you mean `tie_off`?");
    refused("Rule(\"bitten_unseen\")", "Rule(\"biten_unseen\")", "did you mean `bitten_unseen`?");
    refused("source: \"merck_trauma\"", "source: \"merk_trauma\"", "source `merk_trauma` is not known");
    refused("Ban(\"tie_off\")", "Ban(\"gloves\")", "no rule forbids `gloves`");
    refused("worst: Kills", "worst: Kilz", "Kilz");
}

#[test]
fn what_ships_is_the_list_that_was_checked() {
    let shipped: Vec<&str> = shipped::hazards().iter().map(|row| row.id.as_str()).collect();
    let read = hazards();
    assert_eq!(shipped, read.iter().map(|row| row.id.as_str()).collect::<Vec<_>>());
}

/// Every bird that shows a hazard has it among hers, and a bird of whom nothing is known has few.
#[test]
fn the_hazards_of_a_bird_are_those_whose_controls_are_at_work() {
    for row in hazards() {
        let Some(shown) = &row.shown else { continue };
        let findings = bird(shown);
        let Seen { verdict, .. } = Seen::of(&PROTOCOL, &findings);
        let of_label = shown.controls.all().iter().all(|control| matches!(control, Control::Substance(_)));
        let hers = told::of_bird(&PROTOCOL, &findings, &verdict).any(|hazard| hazard.id == row.id);
        assert!(hers != of_label, "{}", row.id);
    }
    let nothing = Findings::default();
    let verdict = judge_bands(&PROTOCOL, &nothing, chrono::DateTime::UNIX_EPOCH);
    assert!(told::of_bird(&PROTOCOL, &nothing, &verdict).count() < 3);
}

#[test]
fn every_row_is_read_in_short_sentences() {
    for row in hazards() {
        for text in [&row.hazard, &row.doing, &row.not_doing] {
            let most = text.split(['.', ':', ';']).map(|part| part.split_whitespace().count()).max().unwrap_or(0);
            assert!(most <= 12 && text.ends_with('.'), "{}: {text}", row.id);
        }
    }
}

/// The whole list and a bird's own say both harms; the list names what keeps each away and bears the caution.
#[test]
fn the_list_tells_both_harms_and_bears_the_caution() {
    let country = PROTOCOL.no_country();
    let whole = words(&coopside::render::text::sections(
        &Reader::english(Zone::UTC, country).sections(told::whole(&PROTOCOL, country)),
    ));
    assert!(whole.contains("no vet has reviewed it"), "{whole}");
    for row in hazards() {
        for part in [&row.hazard, &row.doing, &row.not_doing] {
            assert!(whole.contains(part.as_str()), "{}: {part}", row.id);
        }
        let file = row.shown.map_or_else(|| row.code[0].file.clone(), |shown| format!("Shown on {}", shown.bird));
        assert!(whole.contains(&file), "{file}");
    }
}

/// A text without its line ends.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
