//! What is ruled of a product's ingredients, as JSON.

use super::{caution, law, said};
use crate::care::label::{By, OnUse, Part, Ruled};
use crate::content::label as told;
use crate::protocol::Protocol;
use crate::protocol::strength::UseAt;
use crate::protocol::texts::LawOn;
use crate::unit::MilligramsPerLitre;
use crate::words::Reader;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.label/1";

/// The ruling on the whole, on each use and on each part, and what holds of eggs and meat.
pub fn label(protocol: &Protocol, ruled: &Ruled, reader: Reader) -> Value {
    let (law, law_not_known) = law::law(protocol, reader.country, &[LawOn::EggsAndMeat]);
    let id = |at: UseAt| protocol.uses_enumerated().find(|(one, _)| *one == at).map(|(_, one)| &one.id);
    let on = |on: &OnUse| json!({ "on": id(on.at), "ruling": on.ruling, "say": on.say });
    json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "reviewed_by_a_veterinarian": false,
        "country": reader.country.id,
        "given": ruled.given.is_told().then(|| json!({
            "vet": ruled.given.vet, "on": ruled.given.on, "bird": ruled.given.bird, "whole": ruled.given.is_whole(),
        })),
        "ruling": ruled.ruling,
        "on": ruled.on.and_then(id),
        "uses": ruled.uses.iter().map(on).collect::<Vec<_>>(),
        "parts": ruled.parts.iter().map(|one| part(protocol, one, reader)).collect::<Vec<_>>(),
        "law": law,
        "law_not_known": law_not_known,
    })
}

fn part(protocol: &Protocol, part: &Part, reader: Reader) -> Value {
    let read = part.read_as.map(|read| read.substance);
    let known_by = part.read_as.map(|read| match read.by {
        By::Name => "name",
        By::Stem => "stem",
        By::Likeness => "likeness",
    });
    json!({
        "printed": said(reader, told::printed(part)), "ruling": part.ruling, "read_as": read.map(|read| &read.id),
        "known_by": known_by, "because": part.because.as_ref().map(|why| said(reader, told::because(why))),
        "say": part.say, "law_of": read.map(|read| &read.law_of), "source": read.map(|read| protocol.source_id(read.source)),
        "strength": read.map(|read| read.strength), "family": part.family.map(|family| &family.id),
        "printed_mg_per_l": part.strength.and_then(|(printed, _)| printed).map(|MilligramsPerLitre(strength)| strength),
        "printed_strength": part.strength.map(|(_, standing)| standing.id()),
        "strength_says": told::strength(part).map(|says| reader.phrase(&says)),
    })
}
