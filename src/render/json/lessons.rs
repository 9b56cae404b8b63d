//! The lessons as JSON.

use super::{caution, said};
use crate::phrase::Text;
use crate::practice::{Grade, Script};
use crate::words::Reader;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.lessons/1";

/// Every lesson: its bird, what it is called, how much it asks, and what it trains.
pub fn lessons(scripts: &[Script], reader: Reader) -> Value {
    let lessons = scripts.iter().filter_map(|script| Some((script, script.lesson()?))).map(|(script, lesson)| {
        json!({
            "bird": script.name, "name": said(reader, Text::quoted(&lesson.name)), "level": level(lesson.level),
            "trains": said(reader, Text::quoted(&lesson.trains)),
        })
    });
    json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "reviewed_by_a_veterinarian": false,
        "lessons": lessons.collect::<Vec<_>>(),
    })
}

const fn level(level: Grade) -> &'static str {
    match level {
        Grade::First => "first",
        Grade::Second => "second",
        Grade::Third => "third",
    }
}
