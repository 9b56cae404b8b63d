//! Labels: what is named in published lists is known for what it is, and unknown is never "may be used".

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use chrono::NaiveDate;
use coopside::care::cupboard::Cupboard;
use coopside::care::label::{Because, Before, By, EXAMPLE, Given, Held, Missing, Ruled, day, rule};
use coopside::care::plan;
use coopside::practice;
use coopside::protocol::substance::Ruling;
use coopside::prove::judge_bands;
use coopside::words::{Reader, english};
use coopside::zone::Zone;
use proptest::prelude::*;
use std::fs;

fn ruled(printed: &str) -> Ruled<'static> {
    ruled_in("unset", printed, &Given::default())
}

fn ruled_in(country: &str, printed: &str, given: &Given) -> Ruled<'static> {
    rule(&PROTOCOL, printed, Held { country: PROTOCOL.country(country), given, on: None, before: None })
}

/// What a vet gave for an invented bird.
fn given() -> Given {
    Given { vet: Some("Grey".into()), on: day("2026-05-01", today()), bird: Some("Rue".into()) }
}

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 20).unwrap_or_default()
}

#[track_caller]
fn read_as(id: &str, names: &[&str]) {
    for name in names {
        let ruled = ruled(name);
        let read = ruled.parts.first().and_then(|part| part.read_as);
        assert_eq!(read.map(|read| read.substance.id.to_string()).as_deref(), Some(id), "{name}: {ruled:?}");
    }
}

/// Source: ATC index of the WHO Collaborating Centre, D07AC as read at atcddd.fhi.no; D07AA, AB and AD and H02AB from memory.
#[test]
fn every_steroid_for_the_skin_and_by_mouth_is_known_as_one() {
    read_as(
        "corticosteroid",
        &[
            "betamethasone",
            "fluclorolone",
            "desoximetasone",
            "fluocinolone acetonide",
            "fluocortolone",
            "diflucortolone",
            "fludroxycortide",
            "fluocinonide",
            "budesonide",
            "diflorasone",
            "amcinonide",
            "halometasone",
            "mometasone",
            "methylprednisolone aceponate",
            "beclometasone",
            "hydrocortisone aceponate",
            "fluticasone",
            "prednicarbate",
            "difluprednate",
            "ulobetasol",
            "methylprednisolone",
            "hydrocortisone",
            "prednisolone",
            "clobetasone",
            "hydrocortisone butyrate",
            "flumetasone",
            "fluocortin",
            "fluperolone",
            "fluorometholone",
            "fluprednidene",
            "desonide",
            "triamcinolone",
            "alclometasone",
            "dexamethasone",
            "clocortolone",
            "clobetasol",
            "halcinonide",
            "prednisone",
            "cortisone",
            "fludrocortisone",
            "paramethasone",
            "deflazacort",
            "cloprednol",
            "meprednisone",
            "cortivazol",
            "rimexolone",
            "loteprednol",
            "medrysone",
        ],
    );
    // Coupled with an antiseptic (ATC D07B) the steroid still rules.
    for printed in
        ["clioquinol, betamethasone", "chlorhexidine, hydrocortisone", "povidone-iodine 10 %; dexamethasone 0.1 %"]
    {
        assert_eq!(ruled(printed).ruling, Ruling::Never, "{printed}");
    }
}

/// Source: ATC index, N01B (local anaesthetics) and M01A, N02 (painkillers), from memory; INN stems -caine, -profen, -coxib,
/// -fenac, -icam (WHO, use of stems, 2018; from memory).
#[test]
fn numbing_drugs_and_painkillers_are_known_by_their_stems() {
    read_as(
        "local_anaesthetic",
        &[
            "procaine",
            "benzocaine",
            "tetracaine",
            "lidocaine",
            "mepivacaine",
            "prilocaine",
            "bupivacaine",
            "articaine",
            "ropivacaine",
            "levobupivacaine",
            "cinchocaine",
            "cocaine",
            "pramocaine",
            "Lidocainhydrochlorid-freies Lidocain",
        ],
    );
    read_as(
        "painkiller",
        &[
            "ibuprofen",
            "ketoprofen",
            "carprofen",
            "flurbiprofen",
            "naproxen",
            "diclofenac",
            "aceclofenac",
            "celecoxib",
            "etoricoxib",
            "firocoxib",
            "piroxicam",
            "acetylsalicylic acid",
            "methyl salicylate",
            "paracetamol",
            "acetaminophen",
            "metamizole",
            "tramadol",
            "tapentadol",
        ],
    );
}

/// Source: 21 CFR 530.41 as at ecfr.io (read): chloramphenicol, clenbuterol, diethylstilbestrol, dimetridazole, ipronidazole,
/// other nitroimidazoles, furazolidone, nitrofurazone, fluoroquinolones, glycopeptides, cephalosporins, adamantanes,
/// neuraminidase inhibitors. Source: Regulation (EU) 37/2010, Table 2, as listed by seafish.org (second-hand): Aristolochia,
/// chloramphenicol, chloroform, chlorpromazine, colchicine, dapsone, dimetridazole, metronidazole, nitrofurans, ronidazole.
#[test]
fn what_the_law_bars_in_food_birds_is_known() {
    read_as(
        "banned_in_food_birds",
        &[
            "chloramphenicol",
            "clenbuterol",
            "diethylstilbestrol",
            "dimetridazole",
            "ipronidazole",
            "metronidazole",
            "tinidazole",
            "furazolidone",
            "nitrofurazone",
            "nitrofurantoin",
            "nifursol",
            "ronidazole",
        ],
    );
    let bound = [
        "vancomycin",
        "amantadine",
        "oseltamivir",
        "Aristolochia",
        "chloroform",
        "chlorpromazine",
        "colchicine",
        "dapsone",
    ];
    read_as("bound_in_food_birds", &bound);
    read_as("barred_in_us", &["cefalexin", "cephalexin", "ceftiofur"]);
    read_as("fluoroquinolone", &["enrofloxacin", "ciprofloxacin"]);
}

/// Source: 21 CFR 530.41 (read) bars fluoroquinolones off the label in the United States; the product page of an enrofloxacin
/// for chickens and turkeys in the United Kingdom (noahcompendium.co.uk, read): authorised there, not for birds that lay eggs
/// for people. Chloramphenicol stands on both lists. Source: Cheng 2012, abstract (second-hand): fluoroquinolones are not
/// permitted in food animals in Australia; of the European Union, New Zealand and Canada nothing was found, so nothing is claimed.
#[test]
fn a_label_is_ruled_by_the_law_of_its_country() {
    for (country, printed, ruling) in [
        ("unset", "enrofloxacin 10 %", Ruling::Never),
        ("us", "enrofloxacin 10 %", Ruling::Never),
        ("uk", "enrofloxacin 10 %", Ruling::AskFirst),
        ("ie", "enrofloxacin 10 %", Ruling::AskFirst),
        ("au", "enrofloxacin 10 %", Ruling::Never),
        ("nz", "enrofloxacin 10 %", Ruling::AskFirst),
        ("ca", "enrofloxacin 10 %", Ruling::AskFirst),
        ("eu", "ceftiofur", Ruling::AskFirst),
        ("au", "ceftiofur", Ruling::AskFirst),
        ("uk", "chloramphenicol", Ruling::Never),
        ("uk", "lidocaine", Ruling::Never),
    ] {
        let found = ruled_in(country, printed, &Given::default());
        assert_eq!(found.ruling, ruling, "{printed} in {country}: {found:?}");
    }
    let uk = ruled_in("uk", "enrofloxacin 10 %", &Given::default());
    let said = uk.parts.first().and_then(|part| part.say).unwrap_or_default();
    assert!(said.contains("Ask about eggs") && !said.contains("United States"), "{said}");
}

/// Source: Food and Drug Regulations (Canada), B.01.048, text of 4 May 2016 (read): chloramphenicol, 5-nitrofurans, clenbuterol,
/// 5-nitroimidazoles and stilbenes by name, and no more. A vet's drug on that list is told of; one that is not claims no such law.
#[test]
fn a_vets_drug_that_the_law_of_canada_bars_is_told_of() {
    for (printed, barred) in [
        ("chloramphenicol", true),
        ("nitrofurantoin", true),
        ("clenbuterol", true),
        ("metronidazole", true),
        ("diethylstilbestrol", true),
        ("vancomycin", false),
    ] {
        let because = |country| {
            let ruled = ruled_in(country, printed, &given());
            ruled.parts.iter().any(|part| part.because == Some(Because::Barred))
        };
        assert_eq!(because("ca"), barred, "{printed}");
        assert!(because("us") && !because("nz"), "{printed}");
    }
}

/// Nothing is milder where no country is set than in any country.
#[test]
fn no_country_set_is_the_strictest() {
    for substance in &PROTOCOL.substances {
        let unset = substance.ruled_in(PROTOCOL.country("unset")).0;
        for country in &PROTOCOL.countries {
            assert!(substance.ruled_in(country).0 <= unset, "{} in {}", substance.id, country.id);
        }
    }
}

/// What a vet gave for this bird is as the vet wrote; what harms whoever gave it still warns, and a strength that cannot be.
#[test]
fn a_vets_drug_for_this_bird_is_as_the_vet_wrote() {
    for (country, printed, ruling) in [
        ("uk", "enrofloxacin 10 %", Ruling::AsTheVetWrote),
        ("us", "enrofloxacin 10 %", Ruling::AsTheVetWrote),
        ("unset", "meloxicam 1.5 mg", Ruling::AsTheVetWrote),
        ("unset", "tramadol", Ruling::AsTheVetWrote),
        ("unset", "prednisolone", Ruling::AsTheVetWrote),
        ("unset", "a brand nobody knows", Ruling::AsTheVetWrote),
        ("unset", "silver sulfadiazine, cetostearyl alcohol", Ruling::NotHere),
        ("unset", "neomycin, lidocaine", Ruling::Never),
        ("unset", "hydrogen peroxide", Ruling::Never),
        ("unset", "zinc oxide", Ruling::NotHere),
        ("unset", "meloxicam 400 %", Ruling::Unknown),
    ] {
        let found = ruled_in(country, printed, &given());
        assert_eq!(found.ruling, ruling, "{printed}: {found:?}");
    }
    let barred = ruled_in("us", "enrofloxacin", &given());
    assert!(barred.parts.iter().any(|part| part.because == Some(Because::Barred)));
    let text = |printed: &str, given: &Given| {
        let country = PROTOCOL.country("uk");
        let ruled = ruled_in("uk", printed, given);
        let sections = coopside::content::label::sections(&PROTOCOL, country, &ruled, false);
        coopside::render::text::sections(&Reader::english(Zone::UTC, PROTOCOL.no_country()).sections(sections))
    };
    let told = text("enrofloxacin 10 %", &given());
    assert!(told.contains("AS THE VET WROTE.") && told.contains("Ask about eggs and meat."), "{told}");
    assert!(
        told.contains("judges no dose") && !told.contains("Put it away") && told.contains("no vet has reviewed it"),
        "{told}"
    );
    let told = text("neomycin, lidocaine", &given());
    assert!(told.contains("PHONE THE VET before you use it."), "{told}");
}

/// Who, when and which bird: without all three it stays what it is from the house, and is told to be a leftover.
#[test]
fn a_bottle_of_which_not_all_is_told_is_a_leftover() {
    for lacking in 0..3 {
        let mut part = given();
        match lacking {
            0 => part.vet = None,
            1 => part.on = None,
            _ => part.bird = None,
        }
        for printed in ["enrofloxacin 10 %", "meloxicam", "prednisolone", "a brand nobody knows"] {
            let (with, without) = (ruled_in("uk", printed, &part), ruled_in("uk", printed, &Given::default()));
            assert_eq!(with.ruling, without.ruling, "{printed}");
            let sections = coopside::content::label::sections(&PROTOCOL, PROTOCOL.country("uk"), &with, false);
            let told =
                coopside::render::text::sections(&Reader::english(Zone::UTC, PROTOCOL.no_country()).sections(sections));
            assert!(
                told.contains("A LEFTOVER")
                    && told.contains(&english(coopside::content::label::missing(part.missing()[0]))),
                "{told}"
            );
        }
    }
    let typed = format!("enrofloxacin 10 %, {EXAMPLE}");
    let (ingredients, read) = Given::behind(&typed, today());
    assert_eq!((ingredients, read), ("enrofloxacin 10 %", given()));
    assert_eq!(Given::behind("velvet: dye", today()), ("velvet: dye", Given::default()));
    let (_, late) = Given::behind("meloxicam | vet: Grey, 2026-05-21, Rue", today());
    assert_eq!(late.missing(), [Missing::Day], "a day to come is none");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(300) })]

    /// A vet's word makes nothing "may be used", and never lifts what harms whoever gave it.
    #[test]
    fn a_vets_word_settles_only_what_a_vet_can(pick in any::<usize>(), country in prop::sample::select(vec!["unset", "uk", "us", "eu", "ie", "nz", "au", "ca"])) {
        let substance = &(*PROTOCOL.substances)[pick % PROTOCOL.substances.len()];
        prop_assume!(!substance.names.is_empty());
        let printed = substance.names[pick % substance.names.len()].join(" ");
        let (with, without) = (ruled_in(country, &printed, &given()), ruled_in(country, &printed, &Given::default()));
        prop_assert!(with.ruling == without.ruling || with.ruling == Ruling::AsTheVetWrote, "{printed}");
        if without.ruling >= Ruling::NotHere && !substance.by_vet {
            prop_assert_eq!(with.ruling, without.ruling, "{}", printed);
        }
        prop_assert!(ruled_in(country, &printed, &Given::default()).ruling <= ruled(&printed).ruling, "{printed}");
    }
}

/// Common practice, no source, and the published warnings cited in the protocol: what else people reach for.
#[test]
fn what_people_reach_for_is_known_for_what_it_is() {
    for (id, names) in [
        ("peroxide", &["hydrogen peroxide 3 %", "Wasserstoffperoxid", "peróxido de hidrógeno", "eau oxygénée"][..]),
        ("alcohol", &["isopropyl alcohol 70 %", "Ethanol", "alcool", "iodine in alcohol"]),
        ("zinc", &["zinc oxide", "Zinkoxid", "oxyde de zinc", "ossido di zinco"]),
        (
            "grease",
            &["petrolatum", "Paraffinum liquidum", "lanolin", "coconut oil", "cetostearyl alcohol", "huile d'olive"],
        ),
        ("phenol", &["phenol", "chlorocresol", "chloroxylenol", "pine tar"]),
        ("plant_oil_strong", &["tea tree oil", "Melaleuca alternifolia", "Teebaumöl", "menthol"]),
        ("soap", &["surgical scrub", "sodium lauryl sulfate"]),
        ("styptic_salt", &["ferric subsulfate", "silver nitrate", "potassium alum"]),
        ("salt_water", &["sodium chloride 0.9 %", "Natriumchlorid", "chlorure de sodium", "cloruro sódico"]),
        ("povidone", &["povidone-iodine 10 %", "PVP-Jod", "Povidon-Iod", "povidona yodada", "iodopovidone"]),
        (
            "chlorhexidine_salt",
            &["chlorhexidine digluconate 2 %", "clorhexidina", "Chlorhexidindigluconat", "klorheksidin"],
        ),
        ("silver_sulfadiazine", &["silver sulfadiazine 1 %", "Sulfadiazin-Silber"]),
        ("medical_honey", &["medical-grade honey"]),
        ("kitchen_honey", &["honey", "Honig"]),
    ] {
        for name in names {
            let of = ruled(name);
            let found = of.parts.iter().any(|part| part.read_as.is_some_and(|read| read.substance.id == *id));
            assert!(found, "{name} is not read as {id}: {of:?}");
        }
    }
}

#[test]
fn the_whole_is_ruled_by_its_worst_part_and_by_what_nobody_knows() {
    for (printed, ruling) in [
        ("povidone-iodine 10 %, glycerol, water", Ruling::MayBeUsed),
        ("povidone-iodine 10 %, calendula", Ruling::Unknown),
        ("povidone-iodine 7.5 %", Ruling::NotHere),
        ("povidone-iodine 7,5 %", Ruling::NotHere),
        ("chlorhexidine digluconate 4 %", Ruling::NotHere),
        ("chlorhexidine digluconate 2 %", Ruling::MayBeUsed),
        ("chlorhexidine 25 %", Ruling::NotHere),
        ("povidone-iodine 20 %", Ruling::NotHere),
        ("sodium chloride 0.9 %", Ruling::MayBeUsed),
        ("sodium chloride 3 %", Ruling::NotHere),
        ("iodine 2 %", Ruling::NotHere),
        ("sodium chloride, potassium chloride, calcium chloride, water", Ruling::AskFirst),
        ("povidone-iodine 400 %", Ruling::Unknown),
        ("povidone-iodine 0 %", Ruling::Unknown),
        ("meloxicam 1.5 mg", Ruling::AskFirst),
        ("zinc oxide 10 %", Ruling::NotHere),
        ("silver sulfadiazine, lanolin", Ruling::NotHere),
        ("calendula, hydrocortisone", Ruling::Never),
        ("water, glycerol", Ruling::Unknown),
        ("sulfate", Ruling::Unknown),
        ("???", Ruling::Unknown),
        ("povidone", Ruling::Unknown),
        ("Lorem ipsum", Ruling::Unknown),
    ] {
        assert_eq!(ruled(printed).ruling, ruling, "{printed}: {:?}", ruled(printed));
    }
}

/// A line of a label may end within a name: what belongs together is read together, and nothing is read milder for it.
#[test]
fn a_name_that_goes_on_in_the_next_line_is_read_whole() {
    for (printed, ruling) in [
        ("gentian\nviolet", Ruling::Never),
        ("water, silver\nnitrate, glycerol", Ruling::NotHere),
        ("aqua, tea | tree oil | glycerin", Ruling::Never),
        ("povidone\niodine 7.5 %", Ruling::NotHere),
        ("povidone-iodine 10 %\nglycerol\nwater", Ruling::MayBeUsed),
        ("povidone-iodine 10 %\ncalendula", Ruling::Unknown),
    ] {
        assert_eq!(ruled(printed).ruling, ruling, "{printed}: {:?}", ruled(printed));
    }
}

/// A torn nail takes starch and styptic, a hole over an air sac no disinfectant, and an eye nothing at all.
#[test]
fn a_label_is_held_against_the_bird() {
    let before = |name: &str, printed: &str| {
        let path = format!("{}/scenarios/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
        let now = chrono::DateTime::UNIX_EPOCH;
        let known = practice::read(&PROTOCOL, name, &text, now).unwrap_or_else(|faults| panic!("\n{faults}")).1;
        let verdict = judge_bands(&PROTOCOL, &known, now);
        let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
        let before = Some(Before { findings: &known, verdict: &verdict, plan: &plan });
        let given = Given::default();
        rule(&PROTOCOL, printed, Held { country: PROTOCOL.country("unset"), given: &given, on: None, before }).ruling
    };
    for (bird, printed, ruling) in [
        ("mild_nail_still_bleeds", "cornstarch", Ruling::MayBeUsed),
        ("mild_torn_nail", "cornstarch", Ruling::NotHere),
        ("dirty_leg_scrape_rinsed", "povidone-iodine 10 %", Ruling::MayBeUsed),
        ("dirty_leg_scrape_rinsed", "hydrocortisone", Ruling::Never),
        ("dirty_leg_scrape_rinsed", "silver nitrate", Ruling::NotHere),
        ("trap_hole_flank", "povidone-iodine 10 %", Ruling::NotHere),
        ("eye_cut", "sodium chloride 0.9 %", Ruling::NotHere),
        ("nothing_found", "chlorhexidine 2 %", Ruling::NotHere),
    ] {
        let found = before(bird, printed);
        assert_eq!(found, ruling, "{bird}: {printed}");
    }
}

fn harmful() -> Vec<(String, Ruling)> {
    let of = PROTOCOL.substances.iter().filter(|substance| substance.ruling >= Ruling::AskFirst);
    of.flat_map(|s| s.names.iter().map(|name| (name.join(" "), s.ruling))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(4000) })]

    /// A slip of the pen never makes a thing better than unknown.
    #[test]
    fn a_slip_makes_nothing_usable(pick in any::<usize>(), at in any::<usize>(), letter in "[a-z]", what in 0..3) {
        let names = harmful();
        let name = &names[pick % names.len()].0;
        let mut letters: Vec<char> = name.chars().collect();
        let at = at % letters.len();
        match what {
            0 => { letters.remove(at); }
            1 => letters.insert(at, letter.chars().next().unwrap_or('a')),
            _ => letters[at] = letter.chars().next().unwrap_or('a'),
        }
        let slipped: String = letters.into_iter().collect();
        let ruled = ruled(&slipped);
        prop_assert!(ruled.ruling >= Ruling::AskFirst || ruled.parts.iter().all(|part| part.read_as.is_some_and(|read| read.by == By::Name)), "{slipped}: {ruled:?}");
    }

    /// Nothing typed breaks it, and nothing but known names may be used.
    #[test]
    fn whatever_is_typed_is_ruled(printed in "\\PC{0,60}") {
        let ruled = ruled(&printed);
        prop_assert!(!ruled.parts.is_empty());
        if ruled.ruling <= Ruling::MayBeUsed {
            prop_assert!(ruled.parts.iter().all(|part| part.read_as.is_some_and(|read| read.by == By::Name)));
        }
    }

    /// One part more never makes the whole milder.
    #[test]
    fn more_in_it_is_never_milder(one in prop::sample::select(harmful()), other in "[a-z]{3,12}") {
        let (name, ruling) = one;
        // "PVP" beside "iodine" is one thing, and not the sum of two.
        let part_of_a_name = PROTOCOL.substances.iter().any(|s| s.names.iter().flatten().any(|word| *word == *other));
        prop_assume!(!part_of_a_name);
        let (before, after) = (format!("{other}, {name}"), format!("{name}, {other}"));
        prop_assert!(ruled(&before).ruling >= ruling && ruled(&after).ruling >= ruling);
    }
}

/// What may be used by itself is not told how to thin out of a bottle that holds worse.
#[test]
fn nothing_is_thinned_out_of_a_bottle_that_holds_worse() {
    let text = |printed: &str| {
        let sections = coopside::content::label::sections(&PROTOCOL, PROTOCOL.no_country(), &ruled(printed), false);
        coopside::render::text::sections(&Reader::english(Zone::UTC, PROTOCOL.no_country()).sections(sections))
    };
    let alone = text("chlorhexidine 2 %");
    assert!(alone.contains("thin it to"), "{alone}");
    for worse in ["lidocaine 2 %", "zinc oxide", "wondersalve"] {
        let told = text(&format!("chlorhexidine 2 %, {worse}"));
        assert!(!told.contains("thin it to") && !told.contains("Thinned to"), "{told}");
        assert!(told.contains("not out of this product"), "{told}");
    }
}
