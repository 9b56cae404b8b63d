//! Goes written down in a file, for a mentor who held a session on paper: who, which bird, what was found, done and said.

use super::check::Script;
use super::debrief::{Debrief, debrief};
use super::drawn::{DrawError, Tells, Wanted, draw};
use super::mark::Mark;
use super::shipped_birds::shipped;
use super::trial::{Deed, Given, Trial};
use crate::finding::log::{Entry, Stamped};
use crate::notes::{self, Notes, Pairs, Text};
use crate::protocol::fault::{Fault, Faults, nearest};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::protocol::{Protocol, notation};
use chrono::{DateTime, TimeDelta, Utc};
use serde::Deserialize;
use std::sync::Arc;

/// What a file of goes may say.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Answers {
    goes: Vec<Go>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Go {
    novice: String,
    /// The name of a scripted bird, or `drawn-` and a number.
    bird: String,
    need: Need,
    #[serde(default)]
    humane: Humane,
    #[serde(default)]
    authority: Authority,
    /// What was found; left out, what was missed is not counted.
    #[serde(default)]
    answers: Option<Pairs>,
    #[serde(default)]
    wounds: Vec<Pairs>,
    #[serde(default)]
    looked_over: bool,
    /// What was done to her, in order.
    #[serde(default)]
    did: Vec<String>,
    /// How long she was held at most at one stretch. Seconds.
    #[serde(default)]
    held_s: u32,
}

/// A go of a file, talked over.
#[derive(Clone, Debug)]
pub struct Scored {
    /// The go.
    pub trial: Trial,
    /// What there is to say about it.
    pub debrief: Debrief,
    /// Its mark.
    pub mark: Mark,
}

/// The longest a bird is held in one go. Seconds: a day.
const LONGEST_HELD_S: u32 = 86_400;

/// Reads goes and marks them, as if all had ended now. RON, or JSON where it begins with `{`. What is told of birds that were
/// drawn comes from `tells`.
///
/// # Errors
/// Every fault at once, with the line.
pub fn score(
    protocol: &Protocol,
    file: &str,
    text: &str,
    now: DateTime<Utc>,
    tells: &Tells,
) -> Result<Vec<Scored>, Faults> {
    let fault = |line, what: String| {
        let what = format!("{what}; goes look like (goes: [(novice: \"Ann\", bird: \"bleeding_hard\", need: Now)])");
        Faults(vec![Fault { file: file.into(), line, item: String::new(), what, nearest: None }])
    };
    let answers: Answers = if text.trim_start().starts_with('{') {
        serde_json::from_str(text).map_err(|error| fault(error.line(), error.to_string()))?
    } else {
        notation().from_str(text).map_err(|error| fault(error.span.start.line, error.code.to_string()))?
    };
    let (mut scored, mut faults) = (Vec::new(), Vec::new());
    for (number, go) in (1..).zip(&answers.goes) {
        match one(protocol, &Text { file, text }, go, now, tells) {
            Ok(one) => scored.push(one),
            Err(Faults(found)) => faults.extend(found.into_iter().map(|fault| Fault {
                item: format!("go {number}, {}", fault.item).trim_end_matches(", ").to_owned(),
                ..fault
            })),
        }
    }
    if faults.is_empty() { Ok(scored) } else { Err(Faults(faults)) }
}

fn one(protocol: &Protocol, text: &Text, go: &Go, now: DateTime<Utc>, tells: &Tells) -> Result<Scored, Faults> {
    let script = Arc::new(bird(protocol, &go.bird, tells).map_err(|error| {
        let (what, nearest) = error.for_author();
        let item = format!("bird `{}`", go.bird);
        Faults(vec![Fault { file: text.file.into(), line: text.line_of(&go.bird), item, what, nearest }])
    })?);
    let missing = |action: &&String| !protocol.actions.iter().any(|own| own.id == ***action);
    let unknown: Vec<Fault> = go
        .did
        .iter()
        .filter(missing)
        .map(|action| Fault {
            file: text.file.into(),
            line: text.line_of(action),
            item: format!("did `{action}`"),
            what: "there is no such action".into(),
            nearest: nearest(action, protocol.actions.iter().map(|own| own.id.as_str())),
        })
        .collect();
    if !unknown.is_empty() {
        return Err(Faults(unknown));
    }
    if go.held_s > LONGEST_HELD_S {
        let what = format!("{} seconds in the hand; a go has at most {LONGEST_HELD_S}", go.held_s);
        let line = text.line_of(&go.bird);
        return Err(Faults(vec![Fault { file: text.file.into(), line, item: "held_s".into(), what, nearest: None }]));
    }
    let began = now - TimeDelta::seconds(i64::from(go.held_s) + 60);
    let log = log(protocol, text, go, began)?;
    let mut trial = Trial::begin(script, go.novice.clone(), began);
    // On paper nobody wrote down when; what was done counts as done before the looks.
    trial.deeds = go.did.iter().map(|action| Deed { at: began, action: action.as_str().into() }).collect();
    trial.given = Given { need: Some(go.need), humane: Some(go.humane), authority: Some(go.authority) };
    trial.ended = Some(now);
    let debrief = debrief(protocol, &trial, &log, now);
    let mut mark = Mark::of(protocol, &trial, &debrief);
    if go.answers.is_none() {
        mark.missed.clear();
    }
    Ok(Scored { trial, debrief, mark })
}

/// Why there is no bird of a name.
#[derive(Clone, Debug)]
pub enum NoBird {
    /// None ships under it; the nearest name that one does.
    Unknown(Option<String>),
    /// None could be drawn with its number.
    Undrawn(DrawError),
    /// This protocol does not know all that is said of her.
    Unread(Faults),
}

impl NoBird {
    /// In English, for whoever wrote the goes down, with the nearest name.
    fn for_author(self) -> (String, Option<String>) {
        match self {
            Self::Unknown(nearest) => ("there is no such scripted bird".into(), nearest),
            Self::Undrawn(_) => ("no bird could be drawn with this number; take another one".into(), None),
            Self::Unread(faults) => (faults.to_string(), None),
        }
    }
}

/// The bird of this name: one that ships, or one drawn with a number, of whom is told what `tells` says.
///
/// # Errors
/// Why there is none.
pub fn bird(protocol: &Protocol, name: &str, tells: &Tells) -> Result<Script, NoBird> {
    if let Some(seed) = name.strip_prefix("drawn-").and_then(|seed| seed.parse().ok()) {
        let drawn = draw(protocol, seed, Wanted::default()).map_err(NoBird::Undrawn)?;
        let texts = tells(&drawn);
        return Ok(drawn.said(texts));
    }
    let shipped = shipped();
    let Some((name, text)) = shipped.iter().find(|(known, _)| *known == name) else {
        let nearest = nearest(name, shipped.iter().map(|(known, _)| *known));
        return Err(NoBird::Unknown(nearest));
    };
    Script::read(protocol, name, &format!("{name}.ron"), text).map_err(NoBird::Unread)
}

fn log(protocol: &Protocol, text: &Text, go: &Go, began: DateTime<Utc>) -> Result<Vec<Stamped>, Faults> {
    let notes = Notes {
        at: Some(began),
        answers: go.answers.clone().unwrap_or_default(),
        wounds: go.wounds.clone(),
        looked_over: go.looked_over,
        ..Notes::default()
    };
    let findings = notes::findings(protocol, &notes, text, began)?;
    let at = |seconds: u32| began + TimeDelta::seconds(i64::from(seconds));
    let mut log: Vec<Stamped> =
        (0..findings.wounds()).map(|_| Stamped { at: at(1), entry: Entry::FoundWound }).collect();
    let said = findings.said().iter().map(|said| vec![said.statement.clone()]);
    log.extend(said.map(|said| Stamped { at: at(1), entry: Entry::Said(said) }));
    if go.looked_over {
        log.push(Stamped { at: at(1), entry: Entry::LookedOver });
    }
    if go.held_s > 0 {
        log.push(Stamped { at: at(2), entry: Entry::PickedUp });
        log.push(Stamped { at: at(2 + go.held_s), entry: Entry::PutDown });
    }
    Ok(log)
}
