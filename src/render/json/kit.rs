//! The kit as JSON: what to have before it happens, and what of it is in the house.

use super::{caution, said};
use crate::care::cupboard::{Cupboard, Standing};
use crate::content::kit::standing;
use crate::protocol::Protocol;
use crate::protocol::supply::Supply;
use crate::typed::write_strength;
use crate::words::Reader;
use chrono::NaiveDate;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.kit/1";

/// Every supply, and how it stands today.
pub fn kit(protocol: &Protocol, cupboard: &Cupboard, today: NaiveDate, reader: Reader) -> Value {
    let supply = |supply: &Supply| {
        let kept = cupboard.kept(supply);
        let found = cupboard.standing(supply, today);
        json!({
            "id": supply.id, "name": supply.name, "why": supply.why, "source": protocol.source_id(supply.source),
            "in_the_house": kept.is_some(), "counts": found == Standing::Ready,
            "because": standing(supply, &found).map(|why| said(reader, why)),
            "strength": kept.and_then(|kept| kept.strength).map(write_strength), "until": kept.and_then(|kept| kept.until),
        })
    };
    json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "reviewed_by_a_veterinarian": false,
        "supplies": protocol.supplies.iter().map(supply).collect::<Vec<_>>(),
    })
}
