//! The practice flock: invented birds over days, as they would stand in a ledger now.

use super::scenario::fill_in_the_finest;
use crate::finding::log::{Entry, Outcome, Spot, Stamped};
use crate::finding::{Findings, Statement};
use crate::notes::{self, Notes, Pairs, Text};
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::{Protocol, notation};
use chrono::{DateTime, TimeDelta, Utc};
use serde::Deserialize;

/// The birds that ship.
pub const FLOCK: (&str, &str) = ("flock.ron", include_str!("../../assets/flock.ron"));

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Flock {
    birds: Vec<Bird>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Bird {
    name: String,
    /// The earliest first; the first one is the examination.
    sittings: Vec<FlockLook>,
    #[serde(default)]
    heard: Vec<Heard>,
    #[serde(default)]
    ended: Option<FlockEnd>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct FlockLook {
    hours_ago: u32,
    answers: Pairs,
    #[serde(default)]
    wounds: Vec<Pairs>,
    #[serde(default)]
    looked_over: bool,
    #[serde(default)]
    well_otherwise: bool,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Heard {
    hours_ago: u32,
    said: String,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct FlockEnd {
    hours_ago: u32,
    outcome: Outcome,
    proved: String,
}

/// Every bird of the practice flock as the log of a case, its hours counted back from now.
///
/// # Errors
/// The faults of the first bird that is faulty, with the line.
pub fn flock(protocol: &Protocol, now: DateTime<Utc>) -> Result<Vec<Vec<Stamped>>, Faults> {
    let (file, text) = FLOCK;
    let flock: Flock = notation().from_str(text).map_err(|error| {
        let (line, what) = (error.span.start.line, error.code.to_string());
        Faults(vec![Fault { file: file.into(), line, item: String::new(), what, nearest: None }])
    })?;
    flock.birds.iter().map(|bird| log(protocol, bird, now)).collect()
}

fn log(protocol: &Protocol, bird: &Bird, now: DateTime<Utc>) -> Result<Vec<Stamped>, Faults> {
    let ago = |hours: u32| now - TimeDelta::hours(i64::from(hours));
    let mut log = Vec::new();
    for (nth, sitting) in bird.sittings.iter().enumerate() {
        let at = ago(sitting.hours_ago);
        let findings = findings(protocol, bird, sitting, at)?;
        let said: Vec<Statement> = findings.said().iter().map(|said| said.statement.clone()).collect();
        let mut add = |entry: Entry| log.push(Stamped { at, entry });
        if nth == 0 {
            (0..findings.wounds()).for_each(|_| add(Entry::FoundWound));
            add(Entry::Said(said));
            if sitting.looked_over {
                add(Entry::LookedOver);
            }
            add(Entry::Named(bird.name.clone()));
        } else {
            let asks = said.iter().map(|said| Spot { about: said.about, question: said.question.clone() });
            add(Entry::LookBegan(asks.collect()));
            add(Entry::Said(said));
            add(Entry::LookDone);
        }
    }
    log.extend(
        bird.heard.iter().map(|heard| Stamped { at: ago(heard.hours_ago), entry: Entry::VetSaid(heard.said.clone()) }),
    );
    log.extend(bird.ended.iter().map(|end| Stamped {
        at: ago(end.hours_ago),
        entry: Entry::Closed { outcome: end.outcome, proved: end.proved.clone() },
    }));
    log.sort_by_key(|stamped| stamped.at);
    Ok(log)
}

fn findings(protocol: &Protocol, bird: &Bird, sitting: &FlockLook, at: DateTime<Utc>) -> Result<Findings, Faults> {
    let notes = Notes {
        at: Some(at),
        answers: sitting.answers.clone(),
        wounds: sitting.wounds.clone(),
        looked_over: sitting.looked_over,
        ..Notes::default()
    };
    let (file, text) = FLOCK;
    let mut findings = notes::findings(protocol, &notes, &Text { file, text }, at).map_err(|Faults(faults)| {
        Faults(
            faults.into_iter().map(|fault| Fault { item: format!("{}, {}", bird.name, fault.item), ..fault }).collect(),
        )
    })?;
    if sitting.well_otherwise {
        fill_in_the_finest(protocol, &mut findings, at);
    }
    Ok(findings)
}
