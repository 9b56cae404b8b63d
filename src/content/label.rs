//! What is ruled of a product's ingredients, as a page and as JSON.

use super::document::{Item, Section, Tone, section, upper_first};
use crate::care::label::strength::Standing;
use crate::care::label::{By, EXAMPLE, OnUse, Part, Ruled};
use crate::protocol::Protocol;
use crate::protocol::strength::{Family, UseAt};
use crate::protocol::substance::Ruling;
use crate::protocol::texts::{Country, LawOn};
use crate::reckon::{percent_strength, span};
use crate::unit::MilligramsPerLitre;
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.label/1";

/// The ruling on the whole, then on each part, the strictest first; and what holds of eggs and meat.
pub fn sections(protocol: &Protocol, country: &Country, ruled: &Ruled, of_a_bird: bool) -> Vec<Section> {
    let (lead, more) = whole(protocol, ruled, of_a_bird);
    let whole = Item { lead, more: vec![more], ..Item::default() };
    let by_vet = given(ruled);
    let reader = crate::words::Reader::english(crate::zone::Zone::UTC, country);
    let eggs = super::law::limits(country, &[LawOn::EggsAndMeat]).iter().map(|item| reader.item(item)).collect();
    let tone = match ruled.ruling {
        Ruling::Never | Ruling::NotHere => Tone::Never,
        Ruling::Carrier | Ruling::MayBeUsed | Ruling::AsTheVetWrote | Ruling::AskFirst | Ruling::Unknown => Tone::Plain,
    };
    let sections = [
        section("THIS PRODUCT", tone, std::iter::once(whole).chain(by_vet).collect()),
        section("ON WHAT", Tone::Plain, on_what(protocol, ruled, of_a_bird)),
        section(
            "WHAT IS IN IT",
            Tone::Plain,
            ruled.parts.iter().map(|part| item(protocol, part, ruled.ruling)).collect(),
        ),
        section("EGGS AND MEAT", Tone::Plain, eggs),
        crate::content::old::caution(country),
    ];
    sections.into_iter().flatten().collect()
}

/// The ruling on the whole, and what to do next. What may go on some place only is not put away for all.
fn whole(protocol: &Protocol, ruled: &Ruled, of_a_bird: bool) -> (String, String) {
    let told = |(lead, more): (&str, &str)| (lead.to_owned(), more.to_owned());
    if ruled.given.is_whole() {
        return told(given_verdict(ruled.ruling));
    }
    let general = (verdict(ruled.ruling), next(ruled.ruling, of_a_bird));
    let open = ruled.uses.iter().filter(|on| on.ruling == Ruling::MayBeUsed).map(|on| protocol.use_name(on.at));
    let open = open.collect::<Vec<_>>().join(", ");
    let on = ruled.on.map(|at| protocol.use_name(at));
    match (ruled.ruling, on) {
        (Ruling::NotHere, None) if !of_a_bird && !open.is_empty() => (
            format!("ONLY on {open}. NOT elsewhere."),
            format!("Is some elsewhere on her already? Tell the vet. {NAMED}"),
        ),
        (Ruling::NotHere, Some(on)) if open.is_empty() => (format!("NOT on {on}."), general.1.to_owned()),
        (Ruling::NotHere, Some(on)) => {
            (format!("NOT on {on}."), format!("Leave it off there. It may go on: {open}, where her plan asks for it."))
        }
        (Ruling::MayBeUsed, Some(on)) => (format!("MAY BE USED on {on}."), general.1.to_owned()),
        _ => told(general),
    }
}

/// How it is told on what a product is to be put.
const NAMED: &str = "To ask for one place, write it behind: `on: nail`.";

/// On what it may be put and on what not, the strictest first; nothing where that is the same everywhere.
fn on_what(protocol: &Protocol, ruled: &Ruled, of_a_bird: bool) -> Vec<Item> {
    let same = ruled.uses.windows(2).all(|pair| matches!(pair, [one, next] if one.ruling == next.ruling));
    if same || of_a_bird || ruled.on.is_some() || ruled.given.is_whole() {
        return Vec::new();
    }
    let line = |on: &OnUse| {
        let name = upper_first(protocol.use_name(on.at));
        let ruling = if on.ruling == Ruling::NotHere { "not" } else { words(on.ruling) };
        Item::plain(format!("{name}: {ruling}. {}", on.say.unwrap_or_default()).trim_end().to_owned())
    };
    ruled.uses.iter().map(line).collect()
}

/// What the printed strength means by the table; nothing where it is not to be used anyway, or why it is refused is told.
fn strength(part: &Part) -> Option<String> {
    let (family, (printed, standing)) = (part.family?, part.strength?);
    let wanted = family.wanted().filter(|_| part.because.is_none() && part.ruling <= Ruling::AskFirst)?;
    let percent = |strength: MilligramsPerLitre| format!("{} %", percent_strength(strength));
    let published = span(wanted.published, percent_strength, "%").value;
    let (make, printed) = (percent(wanted.make), printed.map(percent).unwrap_or_default());
    Some(match standing {
        Standing::Stock => format!(
            "{printed} is a stock: thin it to {make} first; published is {published}. The sum `solution` reckons it: {}",
            sum(family, &printed, &make)
        ),
        Standing::AsPublished => format!("{printed} is as strong as is published: {published}. Use it as it is."),
        Standing::TooStrong => format!("STRONGER than the {published} that is published: {}.", wanted.strong),
        Standing::TooWeak => format!("{printed}: {}. Published is {published}.", wanted.weak),
        Standing::Untold => {
            format!("No strength is printed here. Read the bottle, then thin it to {make}; published is {published}.")
        }
    })
}

/// How the sum is asked for.
fn sum(family: &Family, stock: &str, target: &str) -> String {
    let bare = |strength: &str| strength.replace(' ', "");
    format!("stock={} target={} make=500ml name={}", bare(stock), bare(target), family.name)
}

fn item(protocol: &Protocol, part: &Part, whole: Ruling) -> Item {
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
    // What is in the same bottle as worse is not used, however it is thinned: nothing of its own use is told.
    let spoilt = part.ruling < whole && whole > Ruling::AskFirst;
    let ruling = if spoilt && part.ruling > Ruling::Carrier {
        "By itself it is another matter; not out of this product"
    } else {
        words(part.ruling)
    };
    let lead = format!("{}: read as {}{guessed}. {}.", part.printed, substance.name, upper_first(ruling));
    let borrowed = substance.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
    let rests = crate::content::old::cite(protocol, protocol.source_id(substance.source).as_str(), substance.strength);
    // What is said against a drug from the house is not said against a vet's.
    let say = part.say.filter(|_| part.ruling != Ruling::AsTheVetWrote && !spoilt);
    let note = part.family.filter(|family| say.is_some() && !family.note.is_empty()).map(|family| family.note.clone());
    let more = part
        .because
        .iter()
        .cloned()
        .chain(say.map(str::to_owned))
        .chain(strength(part).filter(|_| !spoilt))
        .chain(note)
        .collect();
    let asked = [format!("Rests on: {rests}{borrowed}.")].into_iter();
    let asked = asked.chain(part.family.into_iter().flat_map(|family| table(protocol, family))).collect();
    Item { lead, more, asked, ..Item::default() }
}

/// What a family of the table rests on.
fn table(protocol: &Protocol, family: &Family) -> Vec<String> {
    let rests = family.rests.iter().map(|rest| {
        let borrowed = rest.borrowed.as_ref().map(|kind| format!("; borrowed from {kind}")).unwrap_or_default();
        let source = crate::content::old::cite(protocol, protocol.source_id(rest.source).as_str(), rest.strength);
        format!("{}: {source}{borrowed}.", upper_first(&rest.what))
    });
    rests.collect()
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
        (Ruling::MayBeUsed, false) => "Only where the plan for a bird asks for it, as told below.",
    }
}

/// The same as JSON.
pub fn json(protocol: &Protocol, country: &Country, ruled: &Ruled) -> Value {
    let part = |part: &Part| {
        let read = part.read_as.map(|read| read.substance);
        json!({
            "printed": part.printed, "ruling": part.ruling, "read_as": read.map(|s| &s.id),
            "known_by": part.read_as.map(|read| match read.by { By::Name => "name", By::Stem => "stem", By::Likeness => "likeness" }),
            "because": part.because, "say": part.say, "law_of": read.map(|s| &s.law_of), "source": read.map(|s| protocol.source_id(s.source)), "strength": read.map(|s| s.strength),
            "family": part.family.map(|family| &family.id),
            "printed_mg_per_l": part.strength.and_then(|(printed, _)| printed).map(|MilligramsPerLitre(strength)| strength),
            "printed_strength": part.strength.map(|(_, standing)| standing.id()), "strength_says": strength(part),
        })
    };
    let (law, law_not_known) = super::law::json(protocol, country, &[LawOn::EggsAndMeat]);
    let id = |at: UseAt| protocol.uses_enumerated().find(|(one, _)| *one == at).map(|(_, one)| &one.id);
    let uses = ruled.uses.iter().map(|on| json!({ "on": id(on.at), "ruling": on.ruling, "say": on.say }));
    json!({
        "schema": SCHEMA,
        "caution": crate::content::old::caution_text(country),
        "reviewed_by_a_veterinarian": false,
        "country": country.id,
        "given": ruled.given.is_told().then(|| json!({
            "vet": ruled.given.vet, "on": ruled.given.on, "bird": ruled.given.bird, "whole": ruled.given.is_whole(),
        })),
        "ruling": ruled.ruling,
        "on": ruled.on.and_then(id),
        "uses": uses.collect::<Vec<_>>(),
        "parts": ruled.parts.iter().map(part).collect::<Vec<_>>(),
        "law": law,
        "law_not_known": law_not_known,
    })
}
