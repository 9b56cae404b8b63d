//! The law of every country that ships: each figure beside its source, what was not found told as that, and the strictest of
//! all where no country is set.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::caution_text;
use crate::common::{PROTOCOL, now};
use crate::protocol::refused;
use coopside::care::cupboard::Cupboard;
use coopside::care::label::{Given, Held, rule};
use coopside::care::plan;
use coopside::content::{label, law};
use coopside::practice;
use coopside::protocol::source::Strength;
use coopside::protocol::texts::Limit::{BodyHours, ByHandGrams, EggDays, MeatDays, WithToolGrams};
use coopside::protocol::texts::{Country, LawOn, Limit};
use coopside::prove::judge;
use coopside::render::{json, text};
use coopside::words::Reader;
use coopside::zone::Zone;
use serde_json::Value;
use std::fs;
use std::mem::discriminant;

fn own(country: &str) -> Vec<Limit> {
    PROTOCOL.country(country).own_limits().collect()
}

/// Source: Regulation (EU) 2019/6, Article 115 (10 days eggs, 28 days meat); Veterinary Medicines Regulations 2013,
/// Schedule 4 (14 days eggs), and the guide to withdrawal periods of noahcompendium.co.uk (28 days meat); Regulation (EC)
/// 1099/2009, Annex I (3 kg by hand, 5 kg with a tool, second-hand). Ministry for Primary Industries, New Zealand, default
/// withholding periods, older copy (eggs 10 days, meat of birds 63). Manitoba, mortality management (48 hours unless frozen or
/// refrigerated). Pennsylvania guide on poultry mortality (48 hours).
#[test]
fn every_figure_is_the_published_one() {
    assert_eq!(own("eu"), [ByHandGrams(3000), WithToolGrams(5000), EggDays(10), MeatDays(28)]);
    assert_eq!(own("ie"), own("eu"));
    assert_eq!(own("uk"), [ByHandGrams(3000), WithToolGrams(5000), EggDays(14), MeatDays(28)]);
    assert_eq!(own("us"), [BodyHours(48)], "the vet sets the days there");
    assert_eq!(own("nz"), [EggDays(10), MeatDays(63)]);
    assert_eq!(own("au"), [], "no figure was found");
    assert_eq!(own("ca"), [BodyHours(48)]);
    let strictest = [ByHandGrams(3000), WithToolGrams(5000), EggDays(14), MeatDays(63), BodyHours(48)];
    assert_eq!(own("unset"), strictest);
    assert_eq!(own("no such land"), own("unset"));
}

/// Where no figure was found the strictest of its sort holds, and is told.
#[test]
fn what_was_not_found_holds_by_the_strictest() {
    let holds = |country: &str| PROTOCOL.country(country).limits().collect::<Vec<_>>();
    assert_eq!(holds("nz"), [EggDays(10), MeatDays(63), ByHandGrams(3000), WithToolGrams(5000)]);
    let all = [ByHandGrams(3000), WithToolGrams(5000), EggDays(14), MeatDays(63), BodyHours(48)];
    assert_eq!(holds("au"), all);
    assert_eq!(holds("ca"), [BodyHours(48), ByHandGrams(3000), WithToolGrams(5000), EggDays(14), MeatDays(63)]);
    assert_eq!(holds("us"), [BodyHours(48), ByHandGrams(3000), WithToolGrams(5000)], "no number of days is set there");
    assert_eq!(holds("eu"), own("eu"));
    let unset = PROTOCOL.country("unset");
    assert!(unset.gaps.is_empty(), "the strictest knows what it says");
    for country in &PROTOCOL.countries {
        for gap in &country.gaps {
            let sayings: Vec<_> = gap.holds.iter().map(|law| law.say.as_str()).collect();
            let strictest: Vec<_> = unset.on(gap.on).map(|law| law.say.as_str()).collect();
            assert_eq!(sayings, strictest, "{}: {}", country.id, gap.what);
            let named: Vec<_> = country.limits().map(|limit| discriminant(&limit)).collect();
            let missing =
                unset.on(gap.on).flat_map(|law| &law.limits).find(|limit| !named.contains(&discriminant(*limit)));
            assert_eq!(missing, None, "{}: {}", country.id, gap.what);
        }
    }
}

/// Of each matter a country has a law or says that none was found; a law was read, told or remembered, never made up.
#[test]
fn every_country_speaks_of_every_matter() {
    for country in &PROTOCOL.countries {
        for matter in LawOn::ALL {
            let told = country.on(matter).next().is_some() || country.gaps_on(matter).next().is_some();
            assert!(told, "{} on {matter:?}", country.id);
        }
        for law in &country.laws {
            assert!(!matches!(law.strength, Strength::Practice | Strength::Proposal), "{}: {}", country.id, law.say);
        }
        let place = if country.id == *"unset" { "No country is set" } else { "Law is told for" };
        assert!(caution_text(country).contains(place), "{}", country.id);
    }
}

/// No telephone number ships: they change, and a keeper writes down her own.
#[test]
fn no_number_to_call_stands_in_a_law() {
    for country in &PROTOCOL.countries {
        let of = country.laws.iter().flat_map(|law| [&law.say, &law.law, &law.dated]);
        for text in of.chain(country.gaps.iter().flat_map(|gap| [&gap.what, &gap.looked])) {
            let mut run = 0;
            let longest = text.chars().filter(|c| *c != ' ').map(|c| {
                run = if c.is_ascii_digit() { run + 1 } else { 0 };
                run
            });
            // A year and a number beside it, as in `SI 1988/526`, are parted.
            assert!(longest.max().unwrap_or(0) < 9, "{text}");
        }
    }
}

/// A text without its blanks: lines end anywhere, within a hyphened word, too.
fn solid(text: &str) -> String {
    text.split_whitespace().collect()
}

fn page(country: &Country) -> String {
    solid(&text::sections(&Reader::english(Zone::UTC, country).sections(law::page(country))))
}

/// The page of a country tells every law and every gap under its heading, and what holds there.
#[test]
fn the_page_of_a_country_tells_what_is_not_known() {
    for country in &PROTOCOL.countries {
        let page = page(country);
        for law in &country.laws {
            let told = solid(&law.say);
            assert!(page.contains(&told) && page.contains(&solid(law.strength.words())), "{}: {told}", country.id);
        }
        for gap in &country.gaps {
            let unknown = format!("Not known here: {}. What is strictest elsewhere holds:", gap.what);
            assert!(page.contains(&solid(&unknown)), "{page}");
            let looked = format!("Looked for in {}; not found. Ask locally.", gap.looked);
            assert!(page.contains(&solid(&looked)), "{page}");
        }
        assert!(page.contains(&solid("Look up your country's animal-health authority")), "{page}");
        assert_eq!(page.contains("Notknownhere"), !country.gaps.is_empty(), "{}", country.id);
    }
}

/// A scripted bird for whom a humane end is in question: her plan, as text and as JSON.
fn planned(country: &Country) -> (String, Value) {
    let path = format!("{}/scenarios/open_break_no_vet.ron", env!("CARGO_MANIFEST_DIR"));
    let script = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let read = practice::read(&PROTOCOL, "open_break_no_vet", &script, now());
    let (_, known) = read.unwrap_or_else(|faults| panic!("\n{faults}"));
    let verdict = judge(&PROTOCOL, &known, now());
    let cupboard = Cupboard::read(&PROTOCOL, "").unwrap_or_else(|error| panic!("{error:?}"));
    let plan = plan(&PROTOCOL, &verdict, &cupboard, coopside::zone::Zone::UTC);
    let reader = Reader::english(Zone::UTC, country);
    let told = text::plan(&PROTOCOL, &known, &verdict, &plan, reader);
    let whole = json::verdict(&PROTOCOL, &known, &verdict, &plan, reader);
    (solid(&told), json::plan(&whole))
}

#[test]
fn the_law_of_new_zealand_australia_and_canada_stands_in_plan_label_and_json() {
    for id in ["nz", "au", "ca"] {
        let country = PROTOCOL.country(id);
        let (told, json) = planned(country);
        for on in [LawOn::HumaneEnd, LawOn::Disposal, LawOn::Treating, LawOn::EggsAndMeat] {
            for say in country.on(on).map(|law| solid(&law.say)) {
                assert!(told.contains(&say), "{id}: {say}\n{told}");
            }
            for gap in country.gaps_on(on) {
                assert!(told.contains(&solid(&gap.what)), "{id}: {}\n{told}", gap.what);
            }
        }
        assert!(told.contains(&solid(&country.caution)), "{told}");
        assert_eq!(json.get("country").and_then(Value::as_str), Some(id));
        let count = |field| json.get(field).and_then(Value::as_array).map(Vec::len);
        assert_eq!(count("law"), Some(country.laws.len()));
        assert_eq!(count("law_not_known"), Some(country.gaps.len()));
        assert_eq!(count("law_limits"), Some(country.limits().count()));

        let (given, reader) = (Given::default(), Reader::english(Zone::UTC, country));
        let ruled = rule(&PROTOCOL, "fusidic acid 2 %", Held { country, given: &given, before: None, on: None });
        let told = solid(&text::sections(&reader.sections(label::sections(&PROTOCOL, country, &ruled, false))));
        let eggs: Vec<_> = country.on(LawOn::EggsAndMeat).map(|law| law.say.as_str()).collect();
        assert!(!eggs.is_empty() && eggs.iter().all(|say| told.contains(&solid(say))), "{told}");
        assert_eq!(told.contains("Notknownhere"), id != "nz", "{told}");
        let json = json::label(&PROTOCOL, &ruled, reader).to_string();
        assert!(eggs.iter().all(|say| json.contains(say)), "{json}");
        assert_eq!(json.contains("looked_for_in"), id != "nz", "{json}");
    }
}

#[test]
fn a_law_that_is_laxer_untold_or_made_up_is_refused() {
    const STRICTER: &str = "is stricter than what holds where none is set";
    let laws = "countries.ron";
    refused(laws, "limits: [EggDays(14)]", "limits: [EggDays(13)]", STRICTER);
    refused(laws, "limits: [EggDays(14)]", "limits: [EggDays(14), EggDays(7)]", STRICTER);
    refused(laws, "limits: [MeatDays(63)]", "limits: [MeatDays(62)]", STRICTER);
    refused(laws, "limits: [BodyHours(48)]", "limits: [BodyHours(72)]", STRICTER);
    let by_weight = "limits: [ByHandGrams(3000), WithToolGrams(5000)]";
    refused(laws, by_weight, "limits: [ByHandGrams(4000), WithToolGrams(5000)]", STRICTER);
    refused(
        laws,
        "(on: Reporting, say: \"If it could",
        "(on: Disposal, say: \"If it could",
        "nothing is told on Reporting",
    );
    refused(laws, "(id: \"unset\"", "(id: \"nobody\"", "roles, field no_country: country `unset` is not known");
    refused(laws, "source: \"eu1069\"", "source: \"eu1096\"", "did you mean `eu1069`?");
    refused(laws, "strength: Memory", "strength: Practice", "else it stands under `not_found`");
    // What was not found has no figure and no source: neither can be written down.
    let gap = "(on: Treating, what: \"which small";
    refused(laws, gap, "(on: Treating, limits: [EggDays(1)], what: \"which small", "limits");
    refused(laws, gap, "(on: Treating, source: \"nz_welfare\", what: \"which small", "source");
    // The strictest may not say that it does not know.
    let end = "source: \"ca_deadstock\")]),";
    let unknown = end.replace("]),", "], not_found: [(on: Disposal, what: \"all\", looked: \"nowhere\")]),");
    refused(laws, end, &unknown, "it needs a law");
}
