//! Everything that leaves the program as JSON, a file a document: what `content` tells, in the words and by the clock of who reads it.
//!
//! Each document names its schema and version. Within a version fields are only ever added; what nothing is known of is null, never
//! left out and never an empty text. Rungs and other values of a scale stand by their names, words beside them.

pub mod cases;
pub mod course;
pub mod figures;
pub mod group;
pub mod hazards;
pub mod keys;
pub mod kit;
pub mod label;
pub mod law;
pub mod lessons;
mod measuring;
pub mod plan;
pub mod proof;
pub mod protocol;
pub mod reckon;
pub mod sheet;
pub mod verdict;

pub use label::label;
pub use plan::plan;
pub use verdict::{verdict, with_calls};

use crate::content::document;
use crate::finding::About;
use crate::judge::{Level, Reason, Target};
use crate::phrase::Text;
use crate::protocol::Protocol;
use crate::protocol::question::Asked;
use crate::words::Reader;
use serde::Serialize;
use serde_json::{Value, json};

/// What stands on everything that leaves the program.
fn caution(reader: Reader) -> String {
    reader.say(&document::caution_text(reader.country))
}

/// A text as it is read; null where it says nothing.
fn said(reader: Reader, text: impl Into<Text>) -> Value {
    worded(&reader.say(&text.into()))
}

/// Words; null where there are none.
fn worded(words: &str) -> Value {
    if words.is_empty() { Value::Null } else { json!(words) }
}

/// Where a bird stands on a scale: the names of both rungs.
fn band<T: Serialize + Copy>(level: Level<T>) -> Value {
    let Level { low, high } = level;
    json!({ "at_least": low, "at_most": high })
}

/// Rules by their names.
fn rules(protocol: &Protocol, reasons: &[Reason]) -> Vec<String> {
    reasons.iter().map(|reason| protocol.rule(reason.rule).id.to_string()).collect()
}

/// A question, and of what it is asked.
fn asked(protocol: &Protocol, asked: Asked) -> Value {
    let question = protocol.ask(asked.question);
    json!({ "question": question.id, "about": about(asked.about), "ask": question.ask })
}

fn about(about: About) -> String {
    match about {
        About::Bird => "bird".to_owned(),
        About::Wound(number) => format!("wound {}", number + 1),
    }
}

/// The wound an action is for, counted from 1 as people do.
fn wound(target: Target) -> Option<usize> {
    target.wound.map(|number| number + 1)
}
