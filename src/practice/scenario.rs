//! A scripted bird as it is written: a story, what can be found, what must come out; and, for a lesson, how it teaches.

use crate::finding::{About, Answer, Findings, Statement};
use crate::notes::{self, Notes, Pairs, Text};
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::question::{Asked, Reach};
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
    /// How it teaches; none where the bird is only judged.
    #[serde(default)]
    pub lesson: Option<Lesson>,
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

impl Expect {
    /// These rungs and no others.
    pub fn exactly(rungs: super::mark::Rungs3) -> Self {
        Self {
            need_at_least: rungs.need,
            need_at_most: rungs.need,
            humane: rungs.humane,
            authority: rungs.authority,
            rules: Vec::new(),
            never: Vec::new(),
            allowed: Vec::new(),
            acts: Vec::new(),
        }
    }
}

/// What makes a scripted bird a lesson.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lesson {
    /// The bird's name.
    pub name: String,
    /// For whom it is.
    pub level: Grade,
    /// What one is told on coming to her; it gives nothing away.
    pub opens: String,
    /// What it trains, in a few words; told to mentors, and afterwards.
    pub trains: String,
    /// What is the matter with her, told only afterwards.
    pub truth: String,
    /// What one sees where one looks, in place of the answer's own words: by question.
    pub shows: Pairs,
    /// The same of each wound.
    #[serde(default)]
    pub shows_wounds: Vec<Pairs>,
    /// How she changes with time, with being held, and with what is done to her.
    #[serde(default)]
    pub turns: Vec<Turn>,
    /// Actions that tempt: offered beside what is right, though they harm or help nothing.
    #[serde(default)]
    pub tempts: Vec<String>,
    /// What a mentor says afterwards.
    pub teaches: Vec<Teaching>,
}

/// How much a lesson asks of who takes it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
pub enum Grade {
    /// One thing is wrong, and it shows.
    First,
    /// Several things, or one that hides.
    Second,
    /// A trap, or a hard word to say.
    Third,
}

impl Grade {
    /// Every grade, the easiest first.
    pub const ALL: [Self; 3] = [Self::First, Self::Second, Self::Third];
}

/// A change in the bird.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Turn {
    /// What brings it on.
    pub when: When,
    /// Actions that prevent it where one of them was done before.
    #[serde(default)]
    pub unless: Vec<String>,
    /// The wound that changes, from 1; the bird where nothing is said.
    #[serde(default)]
    pub wound: Option<usize>,
    /// The question whose answer changes; none where only something is seen.
    #[serde(default)]
    pub question: Option<String>,
    /// The new answer.
    #[serde(default)]
    pub becomes: Option<String>,
    /// What is seen of it.
    pub shows: String,
}

/// What brings a change on.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub enum When {
    /// Time alone. Minutes after the beginning.
    After(u32),
    /// Being held at one stretch. Minutes.
    Held(u32),
    /// An action of the protocol.
    Did(String),
}

/// What a mentor says afterwards, and what it rests on.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Teaching {
    /// A sentence or two.
    pub say: String,
    /// A source of the protocol.
    pub source: String,
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
        ..Notes::default()
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
    let asked = protocol.reach_question();
    let told = scenario.answers.0.iter().find(|(question, _)| asked.id == **question)?;
    let worst = asked.choices.iter().find(|choice| choice.reach == Some(Reach::Nobody))?;
    (worst.id != *told.1.as_str()).then(|| {
        let mut twin = findings.clone();
        let answer = Answer::Choice(worst.id.clone());
        twin.say(Statement { about: About::Bird, question: asked.id.clone(), answer }, now);
        twin
    })
}

/// Answers every open ordered question with its finest answer, one at a time, since each may open or close others.
pub(super) fn fill_in_the_finest(protocol: &Protocol, findings: &mut Findings, now: DateTime<Utc>) {
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

impl Lesson {
    /// Every text it tells, with a name of its own within the lesson. Her name is hers in every language.
    pub fn each_text(&self, each: &mut dyn FnMut(&str, &String)) {
        let Self { opens, trains, truth, shows, shows_wounds, turns, teaches, .. } = self;
        for (field, text) in [("opens", opens), ("trains", trains), ("truth", truth)] {
            each(field, text);
        }
        for (question, text) in &shows.0 {
            each(&format!("shows-{question}"), text);
        }
        for (wound, shows) in (1..).zip(shows_wounds) {
            for (question, text) in &shows.0 {
                each(&format!("shows-{wound}-{question}"), text);
            }
        }
        for (number, turn) in (1..).zip(turns) {
            each(&format!("turn-{number}"), &turn.shows);
        }
        for (number, taught) in (1..).zip(teaches) {
            each(&format!("teaches-{number}"), &taught.say);
        }
    }
}
