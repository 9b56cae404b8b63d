//! Sums as JSON: an answer, and all there are.

use super::caution;
use crate::phrase::Text;
use crate::protocol::Protocol;
use crate::protocol::strength::Rest;
use crate::reckon::{Answer, AnswerLine, SUMS};
use crate::render::nodes::quantity;
use crate::words::Reader;
use serde_json::{Value, json};

/// The schema of an answer.
pub const SCHEMA: &str = "coopside.reckon/2";
/// The schema of the list.
pub const SUMS_SCHEMA: &str = "coopside.sums/1";

/// An answer: each line as it is read, and low, high and unit where it is a figure.
pub fn answer(protocol: &Protocol, answer: &Answer, reader: Reader) -> Value {
    let line = |AnswerLine { what, told }: &AnswerLine| {
        let [low, high, unit] = match told {
            Text::Quantity(figure) => quantity(figure),
            _ => [Value::Null, Value::Null, Value::Null],
        };
        json!({ "what": reader.say(what), "value": reader.say(told), "low": low, "high": high, "unit": unit })
    };
    json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "reviewed_by_a_veterinarian": false,
        "advice": { "source": null, "ours_unreviewed": true },
        "answer": {
            "title": reader.say(&answer.title),
            "lines": answer.lines.iter().map(line).collect::<Vec<_>>(),
            "formula": reader.say(&answer.formula),
            "rests_on": rests(protocol, &answer.rests_on),
            "notes": answer.notes.iter().map(|note| reader.say(note)).collect::<Vec<_>>(),
        },
    })
}

/// Every sum, what it takes, and an example.
pub fn sums(reader: Reader) -> Value {
    let told = SUMS.iter().map(|sum| {
        let takes = sum
            .takes
            .iter()
            .map(|takes| json!({ "name": takes.name, "what": reader.phrase(&(takes.what)()), "needed": takes.needed }));
        json!({
            "sum": sum.name(), "about": reader.phrase(&(sum.about)()), "takes": takes.collect::<Vec<_>>(),
            "example": sum.example(),
        })
    });
    json!({ "schema": SUMS_SCHEMA, "sums": told.collect::<Vec<_>>() })
}

/// What a sum, a figure or a table rests on.
pub(super) fn rests(protocol: &Protocol, rests: &[Rest]) -> Vec<Value> {
    let rest = |rest: &Rest| {
        let source = protocol.source_id(rest.source);
        json!({ "source": source, "strength": rest.strength, "what": rest.what, "borrowed_from": rest.borrowed })
    };
    rests.iter().map(rest).collect()
}
