//! The cases as JSON: a list of them, and one by itself.

use super::{band, caution, said, worded};
use crate::content::cases::ListedCase;
use crate::content::document::Section;
use crate::judge::Level;
use crate::phrase::{Phrase, Text};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::render::nodes::{self, moment};
use crate::words::Reader;
use chrono::{DateTime, Utc};
use serde_json::{Value, json};

/// The schema of a list.
pub const SCHEMA: &str = "coopside.cases/2";

/// Some cases, of so many in all.
pub fn cases(cases: &[ListedCase], all: usize, now: DateTime<Utc>, reader: Reader) -> Value {
    json!({
        "schema": SCHEMA, "caution": caution(reader), "reviewed_by_a_veterinarian": false,
        "now": moment(now), "count": all, "cases": cases.iter().map(|case| listed(case, reader)).collect::<Vec<_>>(),
    })
}

/// A case of a list; her need is null where her case cannot be read.
fn listed(case: &ListedCase, reader: Reader) -> Value {
    let ListedCase { covered, kind, need, stands } = case;
    json!({
        "case": covered.id.as_str(), "short": covered.id.short(), "name": worded(&covered.cover.name),
        "kind": kind.as_ref().map(|kind| said(reader, kind.clone())), "need": need.map(band),
        "say": stands.as_ref().map(|stands| said(reader, stands.clone())), "due": covered.cover.due.map(moment),
        "state": covered.cover.state.word(), "archived": covered.cover.archived,
        "begun": moment(covered.begun), "last": moment(covered.last), "events": covered.events,
    })
}

/// One case: her page, with her need by its names.
pub fn case(
    protocol: &Protocol,
    (id, head): (&str, Phrase),
    told: &[Section<Text>],
    need: Level<Need>,
    reader: Reader,
) -> Value {
    let mut whole = nodes::document(protocol, "case", told, reader);
    if let Some(fields) = whole.as_object_mut() {
        fields.insert("case".to_owned(), json!(id));
        fields.insert("need".to_owned(), band(need));
        fields.insert("head".to_owned(), nodes::text(&head.into(), &|text| reader.say(text)));
    }
    whole
}
