//! What is ruled of a product's ingredients, as a page and as JSON.

use super::document::{self, Item, Section, Tone, section, upper_first};
use super::why;
use crate::care::label::{By, Part, Ruled};
use crate::protocol::Protocol;
use crate::protocol::raw::{LawOn, Ruling};
use crate::protocol::told::Country;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.label/1";

/// The ruling on the whole, then on each part, the strictest first; and what holds of eggs and meat.
pub fn sections(protocol: &Protocol, country: &Country, ruled: &Ruled, of_a_bird: bool) -> Vec<Section> {
    let whole = Item::with(verdict(ruled.ruling), next(ruled.ruling, of_a_bird), &[]);
    let eggs = super::law::limits(country, &[LawOn::EggsAndMeat]);
    let tone = match ruled.ruling {
        Ruling::Never | Ruling::NotHere => Tone::Never,
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AskFirst | Ruling::Unknown => Tone::Plain,
    };
    let sections = [
        section("THIS PRODUCT", tone, vec![whole]),
        section("WHAT IS IN IT", Tone::Plain, ruled.parts.iter().map(|part| item(protocol, part)).collect()),
        section("EGGS AND MEAT", Tone::Plain, eggs),
        document::caution(protocol, country),
    ];
    sections.into_iter().flatten().collect()
}

fn item(protocol: &Protocol, part: &Part) -> Item {
    let Some(read) = part.read_as else {
        return Item::with(
            format!("{}: unknown", part.printed),
            "This program does not know it. A brand name hides what is in it: copy the small print, or ask a vet or a pharmacist.",
            &[],
        );
    };
    let substance = read.substance;
    let guessed = match read.by {
        By::Name => "",
        By::Stem => ", by the stem of its name",
        By::Likeness => ", spelled nearly so",
    };
    let lead = format!("{}: read as {}{guessed}. {}.", part.printed, substance.name, upper_first(words(part.ruling)));
    let borrowed = substance.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
    let rests = why::cite(protocol, substance.source.as_str(), substance.strength);
    let more = part.because.iter().cloned().chain([substance.say.clone()]).collect();
    Item { lead, more, asked: vec![format!("Rests on: {rests}{borrowed}.")], ..Item::default() }
}

/// A ruling in a few words.
pub const fn words(ruling: Ruling) -> &'static str {
    match ruling {
        Ruling::Carrier => "only carries the rest",
        Ruling::MayBeUsed => "may be used",
        Ruling::AskFirst => "only with a vet's word",
        Ruling::Unknown => "unknown: ask a vet or pharmacist",
        Ruling::NotHere => "not on this bird or place",
        Ruling::Never => "never",
    }
}

fn verdict(ruling: Ruling) -> String {
    match ruling {
        Ruling::Never => "NEVER on a bird.".to_owned(),
        Ruling::NotHere => "NOT on this bird or place.".to_owned(),
        Ruling::Carrier | Ruling::Unknown => "UNKNOWN: ask a vet or pharmacist.".to_owned(),
        Ruling::AskFirst => "ASK a vet first.".to_owned(),
        Ruling::MayBeUsed => "MAY BE USED, in its place.".to_owned(),
    }
}

const fn next(ruling: Ruling, of_a_bird: bool) -> &'static str {
    match (ruling, of_a_bird) {
        (Ruling::Never | Ruling::NotHere, _) => "Put it away. Is some on her already? Tell the vet which, and when.",
        (Ruling::AskFirst, _) => {
            "Given by a vet for this bird? Then go on as told. Else leave it off: clean and dry is enough."
        }
        (Ruling::Carrier | Ruling::Unknown, _) => "Until then leave it off: clean and dry is enough.",
        (Ruling::MayBeUsed, true) => "As her plan says, no stronger and no more.",
        (Ruling::MayBeUsed, false) => "Only where the plan for a bird asks for it. Thin it as told below.",
    }
}

/// The same as JSON.
pub fn json(protocol: &Protocol, country: &Country, ruled: &Ruled) -> Value {
    let part = |part: &Part| {
        let read = part.read_as.map(|read| read.substance);
        json!({
            "printed": part.printed, "ruling": part.ruling, "read_as": read.map(|s| &s.id),
            "known_by": part.read_as.map(|read| match read.by { By::Name => "name", By::Stem => "stem", By::Likeness => "likeness" }),
            "because": part.because, "say": read.map(|s| &s.say), "source": read.map(|s| &s.source), "strength": read.map(|s| s.strength),
        })
    };
    json!({
        "schema": SCHEMA,
        "caution": document::caution_text(protocol, country),
        "reviewed_by_a_veterinarian": false,
        "ruling": ruled.ruling,
        "parts": ruled.parts.iter().map(part).collect::<Vec<_>>(),
    })
}
