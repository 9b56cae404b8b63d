//! The handover sheet and cage cards as JSON (`assets/schema/handover-2.json`, `cards-2.json`). They are written from what was said
//! for a page, with rungs and moments beside the words.

use super::hazards::hazard_told;
use super::{band, worded};
use crate::content::sheet::card::{Card, Cards};
use crate::content::sheet::{Part, Plot, Point, RungsTold, Sheet};
use crate::render::nodes::moment;
use serde_json::{Value, json};

/// The schema of a sheet.
pub const SCHEMA: &str = "coopside.handover/2";

/// The schema of cage cards.
pub const CARDS: &str = "coopside.cards/2";

/// Cage cards. How soon she needs a vet is null where her case is over, and how it ended where it is not.
pub fn cards(cards: &Cards) -> Value {
    let card = |card: &Card| {
        let Card { name, intake, need, ended, act, never, look, look_at, rungs, .. } = card;
        json!({
            "name": worded(name), "intake": worded(intake), "need": rungs.map(|rungs| band(rungs.need)),
            "humane_end": rungs.map(|rungs| band(rungs.humane)), "authority_call": rungs.map(|rungs| band(rungs.authority)),
            "say": worded(need), "ended": worded(ended), "do_now": act, "never": never, "next_look": worded(look),
            "next_look_at": look_at.map(moment),
        })
    };
    json!({
        "schema": CARDS,
        "caution": cards.caution,
        "reviewed_by_a_veterinarian": false,
        "cards": cards.cards.iter().map(card).collect::<Vec<_>>(),
    })
}

/// The whole sheet, nothing cut.
pub fn sheet(sheet: &Sheet) -> Value {
    let rungs: Option<RungsTold> = sheet.rungs;
    json!({
        "schema": SCHEMA,
        "caution": sheet.caution,
        "reviewed_by_a_veterinarian": false,
        "bird": sheet.bird,
        "made": sheet.made,
        "made_at": moment(sheet.made_at),
        "need": rungs.map(|rungs| band(rungs.need)),
        "humane_end": rungs.map(|rungs| band(rungs.humane)),
        "authority_call": rungs.map(|rungs| band(rungs.authority)),
        "script": sheet.script,
        "shift": sheet.shift,
        "order": ["AT-MIST", "SBAR"],
        "parts": sheet.parts.iter().map(part).collect::<Vec<_>>(),
        "hazards": sheet.hazards.iter().map(hazard_told).collect::<Vec<_>>(),
    })
}

fn part(part: &Part) -> Value {
    let rows = part.rows.iter().map(|row| json!({ "name": worded(&row.name), "told": row.told }));
    json!({
        "id": part.id.key(),
        "heading": part.heading,
        "rows": rows.collect::<Vec<_>>(),
        "table": part.table.as_ref().map(|table| json!({
            "caption": table.caption, "head": table.head, "rows": table.rows,
        })),
        "plots": part.plots.iter().map(plot).collect::<Vec<_>>(),
        "drawing": part.drawing.as_ref().map(|drawing| json!({ "lines": drawing.lines, "words": drawing.words })),
    })
}

fn plot(plot: &Plot) -> Value {
    let point =
        |point: &Point| json!({ "minute": point.minute, "low": point.low, "value": point.value, "high": point.high });
    json!({
        "words": plot.words, "unit": plot.unit.id(), "from": plot.ends.map(|(first, _)| moment(first)),
        "to": plot.ends.map(|(_, last)| moment(last)), "floor": plot.floor,
        "points": plot.points.iter().map(point).collect::<Vec<_>>(),
    })
}
