//! The keys as JSON: where each works, and what it does.

use crate::content::keys::KeyTold;
use crate::words::Reader;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.keys/1";

/// Every key.
pub fn keys(told: &[KeyTold], reader: Reader) -> Value {
    let keys = told.iter().map(|KeyTold { place, keys, does }| {
        json!({
            "where": reader.phrase(place), "keys": keys.iter().map(|key| reader.say(key)).collect::<Vec<_>>(),
            "does": reader.phrase(does),
        })
    });
    json!({ "schema": SCHEMA, "keys": keys.collect::<Vec<_>>() })
}
