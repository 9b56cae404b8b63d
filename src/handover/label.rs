//! What is ruled of a product's ingredients, as a page and as JSON.

use super::document::{self, Item, Section, Tone, section, upper_first};
use super::why;
use crate::care::label::{By, EXAMPLE, Part, Ruled};
use crate::protocol::Protocol;
use crate::protocol::raw::{LawOn, Ruling};
use crate::protocol::told::Country;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.label/1";

/// The ruling on the whole, then on each part, the strictest first; and what holds of eggs and meat.
pub fn sections(protocol: &Protocol, country: &Country, ruled: &Ruled, of_a_bird: bool) -> Vec<Section> {
    let (lead, more) = if ruled.given.is_whole() {
        given_verdict(ruled.ruling)
    } else {
        (verdict(ruled.ruling), next(ruled.ruling, of_a_bird))
    };
    let whole = Item { lead: lead.to_owned(), more: vec![more.to_owned()], ..Item::default() };
    let by_vet = given(ruled);
    let eggs = super::law::limits(country, &[LawOn::EggsAndMeat]);
    let tone = match ruled.ruling {
        Ruling::Never | Ruling::NotHere => Tone::Never,
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AsTheVetWrote | Ruling::AskFirst | Ruling::Unknown => Tone::Plain,
    };
    let sections = [
        section("THIS PRODUCT", tone, std::iter::once(whole).chain(by_vet).collect()),
        section("WHAT IS IN IT", Tone::Plain, ruled.parts.iter().map(|part| item(protocol, part)).collect()),
        section("EGGS AND MEAT", Tone::Plain, eggs),
        document::caution(country),
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
    // What is said against a drug from the house is not said against a vet's.
    let say = part.say.filter(|_| part.ruling != Ruling::AsTheVetWrote);
    let more = part.because.iter().cloned().chain(say.map(str::to_owned)).collect();
    Item { lead, more, asked: vec![format!("Rests on: {rests}{borrowed}.")], ..Item::default() }
}

/// A ruling in a few words.
pub const fn words(ruling: Ruling) -> &'static str {
    match ruling {
        Ruling::Carrier => "only carries the rest",
        Ruling::MayBeUsed => "may be used",
        Ruling::AsTheVetWrote => "as the vet wrote",
        Ruling::AskFirst => "only with a vet's word",
        Ruling::Unknown => "unknown: ask a vet or pharmacist",
        Ruling::NotHere => "not on this bird or place",
        Ruling::Never => "never",
    }
}

const fn verdict(ruling: Ruling) -> &'static str {
    match ruling {
        Ruling::Never => "NEVER on a bird.",
        Ruling::NotHere => "NOT on this bird or place.",
        Ruling::Carrier | Ruling::Unknown => "UNKNOWN: ask a vet or pharmacist.",
        Ruling::AskFirst => "ASK a vet first.",
        Ruling::AsTheVetWrote => "AS THE VET WROTE.",
        Ruling::MayBeUsed => "MAY BE USED, in its place.",
    }
}

/// What is said of a product that a vet gave for this bird. Nothing is judged of a dose.
const fn given_verdict(ruling: Ruling) -> (&'static str, &'static str) {
    match ruling {
        Ruling::Never | Ruling::NotHere => (
            "PHONE THE VET before you use it.",
            "Something in it harms birds, whoever gave it: see below. Read it out to the vet.",
        ),
        Ruling::Unknown => {
            ("PHONE THE VET before you use it.", "What is printed cannot be right. Read it out to the vet.")
        }
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AsTheVetWrote | Ruling::AskFirst => {
            ("AS THE VET WROTE.", "Ask about eggs and meat. This program judges no dose.")
        }
    }
}

/// Who gave it, when and for which bird; or what of it is not told, and that it is a leftover then.
fn given(ruled: &Ruled) -> Option<Item> {
    let told = &ruled.given;
    if let (Some(vet), Some(on), Some(bird)) = (&told.vet, told.on, &told.bird) {
        return Some(Item::with(
            format!("Given by {vet} on {on} for {bird}."),
            "For another bird or another trouble it is a leftover: ask again.",
            &[],
        ));
    }
    let drug = ruled.parts.iter().any(|part| part.read_as.is_some_and(|read| read.substance.by_vet));
    if told.is_told() {
        let missing = told.missing().join(", ");
        return Some(Item::with(format!("A LEFTOVER: not told is {missing}."), how(), &[]));
    }
    drug.then(|| Item::with("From the house it is a leftover. Did a vet give it for this bird?", how(), &[]))
}

fn how() -> String {
    format!("Then write who, when and which bird behind it: {EXAMPLE}")
}

const fn next(ruling: Ruling, of_a_bird: bool) -> &'static str {
    match (ruling, of_a_bird) {
        (Ruling::Never | Ruling::NotHere, _) => "Put it away. Is some on her already? Tell the vet which, and when.",
        (Ruling::AskFirst, _) => "Leave it off until then: clean and dry is enough.",
        (Ruling::AsTheVetWrote, _) => "Ask about eggs and meat.",
        (Ruling::Carrier | Ruling::Unknown, _) => "Until then leave it off: clean and dry is enough.",
        (Ruling::MayBeUsed, true) => "As her plan says, no stronger and no more.",
        (Ruling::MayBeUsed, false) => "Only where the plan for a bird asks for it. Thin it as told below.",
    }
}

/// The same as JSON.
pub fn json(country: &Country, ruled: &Ruled) -> Value {
    let part = |part: &Part| {
        let read = part.read_as.map(|read| read.substance);
        json!({
            "printed": part.printed, "ruling": part.ruling, "read_as": read.map(|s| &s.id),
            "known_by": part.read_as.map(|read| match read.by { By::Name => "name", By::Stem => "stem", By::Likeness => "likeness" }),
            "because": part.because, "say": part.say, "law_of": read.map(|s| &s.law_of), "source": read.map(|s| &s.source), "strength": read.map(|s| s.strength),
        })
    };
    let (law, law_not_known) = super::law::json(country, &[LawOn::EggsAndMeat]);
    json!({
        "schema": SCHEMA,
        "caution": document::caution_text(country),
        "reviewed_by_a_veterinarian": false,
        "country": country.id,
        "given": ruled.given.is_told().then(|| json!({
            "vet": ruled.given.vet, "on": ruled.given.on, "bird": ruled.given.bird, "whole": ruled.given.is_whole(),
        })),
        "ruling": ruled.ruling,
        "parts": ruled.parts.iter().map(part).collect::<Vec<_>>(),
        "law": law,
        "law_not_known": law_not_known,
    })
}
