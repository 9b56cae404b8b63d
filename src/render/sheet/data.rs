//! The sheet and cage cards as JSON, each under a versioned schema (`assets/schema/handover-1.json`, `cards-1.json`); within a version fields are only ever added.

use crate::content::hazards;
use crate::content::sheet::card::{Card, Cards};
use crate::content::sheet::{Part, Plot, Point, Sheet};
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.handover/1";

/// The schema of cage cards.
pub const CARDS: &str = "coopside.cards/1";

/// Cage cards.
pub fn cards(cards: &Cards) -> Value {
    let card = |card: &Card| {
        let Card { name, intake, need, ended, act, never, look, .. } = card;
        let need = if need.is_empty() { ended } else { need };
        json!({ "name": name, "intake": intake, "need": need, "ended": ended, "do_now": act, "never": never, "next_look": look })
    };
    json!({
        "schema": CARDS,
        "caution": cards.caution,
        "reviewed_by_a_veterinarian": false,
        "cards": cards.cards.iter().map(card).collect::<Vec<_>>(),
    })
}

/// The whole sheet, nothing cut.
pub fn json(sheet: &Sheet) -> Value {
    let plot = |plot: &Plot| {
        let point = |point: &Point| json!({ "minute": point.minute, "low": point.low, "value": point.value, "high": point.high });
        json!({
            "words": plot.words, "unit": plot.unit.id(), "from": plot.from, "to": plot.to, "floor": plot.floor,
            "points": plot.points.iter().map(point).collect::<Vec<_>>(),
        })
    };
    let part = |part: &Part| {
        json!({
            "id": part.id.key(),
            "heading": part.heading,
            "rows": part.rows.iter().map(|row| json!({ "name": row.name, "told": row.told })).collect::<Vec<_>>(),
            "table": part.table.as_ref().map(|table| json!({
                "caption": table.caption, "head": table.head, "rows": table.rows,
            })),
            "plots": part.plots.iter().map(plot).collect::<Vec<_>>(),
            "drawing": part.drawing.as_ref().map(|drawing| json!({ "lines": drawing.lines, "words": drawing.words })),
        })
    };
    json!({
        "schema": SCHEMA,
        "caution": sheet.caution,
        "reviewed_by_a_veterinarian": false,
        "bird": sheet.bird,
        "made": sheet.made,
        "script": sheet.script,
        "shift": sheet.shift,
        "order": ["AT-MIST", "SBAR"],
        "parts": sheet.parts.iter().map(part).collect::<Vec<_>>(),
        "hazards": hazards::json(sheet.hazards.iter().copied()),
    })
}
