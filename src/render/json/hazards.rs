//! What could go wrong with a bird, as JSON.

use crate::content::hazards::{self, HazardTold};
use crate::finding::Findings;
use crate::protocol::Protocol;
use crate::protocol::hazard::Hazard;
use crate::prove::Exact;
use crate::words::Reader;
use serde_json::{Value, json};

/// The hazards of one bird.
pub(super) fn of_bird(protocol: &Protocol, findings: &Findings, verdict: &Exact, reader: Reader) -> Value {
    each(hazards::of_bird(protocol, findings, verdict), reader)
}

/// Hazards, as they are read.
pub fn each<'h>(hazards: impl Iterator<Item = &'h Hazard>, reader: Reader) -> Value {
    hazards.map(|hazard| hazard_told(&reader.hazard(&hazards::told(hazard)))).collect()
}

/// A hazard that was said.
pub(super) fn hazard_told(told: &HazardTold) -> Value {
    json!({
        "id": told.id, "hazard": told.hazard, "worst": told.worst.id(),
        "whom": told.whom.iter().map(|whom| whom.id()).collect::<Vec<_>>(),
        "harm_of_doing": told.doing, "harm_of_not_doing": told.not_doing,
        "source": told.source, "strength": told.strength,
    })
}
