//! The sheet as JSON under a versioned schema (`assets/schema/handover-1.json`); within a version fields are only ever added.

use super::{Part, Sheet};
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.handover/1";

/// The whole sheet, nothing cut.
pub fn json(sheet: &Sheet) -> Value {
    let part = |part: &Part| {
        json!({
            "id": part.id,
            "heading": part.heading,
            "rows": part.rows.iter().map(|row| json!({ "name": row.name, "told": row.told })).collect::<Vec<_>>(),
            "table": part.table.as_ref().map(|table| json!({
                "caption": table.caption, "head": table.head, "rows": table.rows,
            })),
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
        "order": ["AT-MIST", "SBAR"],
        "parts": sheet.parts.iter().map(part).collect::<Vec<_>>(),
    })
}
