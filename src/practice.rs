//! Scripted birds: a story, what can be found, and what the verdict must be. Lessons and tests are the same files.

mod flock;

pub use flock::{FLOCK, flock};

use crate::finding::{About, Answer, Findings, Statement};
use crate::notes::{self, Notes, Pairs, Text};
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::question::Asked;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::{Protocol, notation};
use crate::sheet::Sheet;
use chrono::{DateTime, Utc};
use serde::Deserialize;

/// A scripted bird.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// What the person sees and tells, in a setting of our own.
    pub story: String,
    /// Where the case comes from, if it was published; else "invented".
    pub source: String,
    /// What is found about the bird.
    pub answers: Pairs,
    /// What is found about each wound.
    #[serde(default)]
    pub wounds: Vec<Pairs>,
    /// Whether the look-over was finished.
    pub looked_over: bool,
    /// Whether every ordered question not named here is answered with its finest answer. The author knows the bird.
    #[serde(default)]
    pub well_otherwise: bool,
    /// What must come out.
    pub expect: Expect,
    /// What must come out for the same bird where no vet can be reached, on the scales.
    #[serde(default)]
    pub no_vet: Option<Rungs>,
    /// What stays hidden until one looks (for practice).
    #[serde(default)]
    pub hidden: Vec<Hidden>,
    /// How she changes with time and treatment (for practice).
    #[serde(default)]
    pub drift: Vec<Drift>,
    /// What a mentor says afterwards (for practice).
    #[serde(default)]
    pub teaches: Vec<String>,
}

/// The rungs the same bird must get where no vet can be reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rungs {
    /// "At least" must be at least this.
    pub need_at_least: Need,
    /// "At most" must be at most this.
    pub need_at_most: Need,
    /// The rung of humane end, as "at least".
    #[serde(default)]
    pub humane: Humane,
}

/// The verdict a scripted bird must get.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Expect {
    /// "At least" must be at least this.
    pub need_at_least: Need,
    /// "At most" must be at most this, so that raising false alarm fails too.
    pub need_at_most: Need,
    /// The rung of humane end, as "at least".
    #[serde(default)]
    pub humane: Humane,
    /// The authority call, as "at least".
    #[serde(default)]
    pub authority: Authority,
    /// Rules that must be in force.
    #[serde(default)]
    pub rules: Vec<String>,
    /// Actions that must be forbidden.
    #[serde(default)]
    pub never: Vec<String>,
    /// Actions that must not be forbidden: near misses of a never.
    #[serde(default)]
    pub allowed: Vec<String>,
    /// Actions that must be advised.
    #[serde(default)]
    pub acts: Vec<String>,
}

/// Something that shows only when a question is asked in a certain way.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hidden {
    /// The question that uncovers it.
    pub question: String,
    /// What is then seen.
    pub shows: String,
}

/// A change after some minutes, with or without an action.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Drift {
    /// Minutes after the beginning.
    pub after_min: u32,
    /// The action that brings it on; none where it comes by itself.
    #[serde(default)]
    pub on: Option<String>,
    /// The question whose answer changes.
    pub question: String,
    /// The new answer.
    pub becomes: String,
}

/// Reads a scenario and the findings it scripts.
///
/// # Errors
/// Every fault at once, with the line.
pub fn read(protocol: &Protocol, file: &str, text: &str, now: DateTime<Utc>) -> Result<(Scenario, Findings), Faults> {
    let scenario: Scenario = notation().from_str(text).map_err(|error| {
        let (line, what) = (error.span.start.line, error.code.to_string());
        Faults(vec![Fault { file: file.into(), line, item: String::new(), what, nearest: None }])
    })?;
    let notes = Notes {
        at: None,
        answers: scenario.answers.clone(),
        wounds: scenario.wounds.clone(),
        looked_over: scenario.looked_over,
    };
    let mut findings = notes::findings(protocol, &notes, &Text { file, text }, now)?;
    if scenario.well_otherwise {
        fill_in_the_finest(protocol, &mut findings, now);
    }
    Ok((scenario, findings))
}

/// The same bird where no vet can be reached; none where the scenario says so already, or leaves reach open.
pub fn without_vet(
    protocol: &Protocol,
    scenario: &Scenario,
    findings: &Findings,
    now: DateTime<Utc>,
) -> Option<Findings> {
    let told = scenario.answers.0.iter().find(|(question, _)| question == REACH)?;
    let worst = protocol.question(REACH)?.choices.last()?;
    (worst.id != *told.1.as_str()).then(|| {
        let mut twin = findings.clone();
        let answer = Answer::Choice(worst.id.clone());
        twin.say(Statement { about: About::Bird, question: REACH.into(), answer }, now);
        twin
    })
}

/// The question that tells how soon a vet can see the bird.
const REACH: &str = "reach";

/// Answers every open ordered question with its finest answer, one at a time, since each may open or close others.
fn fill_in_the_finest(protocol: &Protocol, findings: &mut Findings, now: DateTime<Utc>) {
    for (at, question) in protocol.enumerated().filter(|(_, question)| question.ordered) {
        let abouts =
            if question.wound { (0..findings.wounds()).map(About::Wound).collect() } else { vec![About::Bird] };
        for about in abouts {
            let open = Sheet::lay(protocol, findings, now).is_open(Asked { about, question: at });
            if let Some(first) = question.choices.first().filter(|_| open) {
                let answer = Answer::Choice(first.id.clone());
                findings.say(Statement { about, question: question.id.clone(), answer }, now);
            }
        }
    }
}
