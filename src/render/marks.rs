//! Goes as a table of values parted by commas.

use crate::finding::Id;
use crate::practice::Mark;
use serde::Serialize;

/// The goes as a table of values parted by commas (RFC 4180), one a line.
pub fn csv(marks: &[Mark]) -> Result<String, csv::Error> {
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(COLUMNS)?;
    for mark in marks {
        let ids = |ids: &[Id]| plain(&ids.iter().map(Id::as_str).collect::<Vec<_>>().join(" "));
        out.write_record([
            mark.at.to_rfc3339(),
            plain(&mark.novice),
            plain(&mark.bird),
            plain(&mark.protocol),
            rung(mark.given.need),
            rung(mark.given.humane),
            rung(mark.given.authority),
            rung(mark.reference.need),
            rung(mark.reference.humane),
            rung(mark.reference.authority),
            ids(&mark.missed),
            ids(&mark.harm),
            ids(&mark.late),
            mark.held_s.to_string(),
        ])?;
    }
    let bytes = out.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

const COLUMNS: [&str; 14] = [
    "at",
    "novice",
    "bird",
    "protocol",
    "given_need",
    "given_humane",
    "given_authority",
    "need",
    "humane",
    "authority",
    "missed",
    "harm",
    "late",
    "held_s",
];

/// A table program must not take for a formula what a person typed.
fn plain(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{cell}") } else { cell.to_owned() }
}

/// The name of a rung as files spell it.
fn rung<T: Serialize>(rung: T) -> String {
    serde_json::to_value(rung).ok().and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}
