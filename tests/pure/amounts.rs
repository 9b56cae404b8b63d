//! Amounts as people type them: one reader for all, held against the units of the law; and strengths told to three figures.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use coopside::content::seen;
use coopside::finding::figure::{Figure, FigureOf, Lines, Spilt};
use coopside::measure::blood;
use coopside::phrase::percent_strength;
use coopside::reckon::{Answer, AnswerLine, Moment, ReckonError, reckon};
use coopside::typed::{self, Household, TypedError, weight};
use coopside::unit::{Band, Grams, MicrogramsPerLitre, Microlitres, Micrometres, MilligramsPerLitre, TenthsOfSecond};
use coopside::words::english;
use coopside::zone::Zone;
use proptest::prelude::*;

fn microlitres(text: &str, household: Household) -> (u64, u64) {
    let read = typed::volume(text, household).unwrap_or_else(|error| panic!("{error:?}"));
    (read.low.0, read.high.0)
}

/// NIST Handbook 44, Appendix C, units of capacity (from memory): cup 236.5882365 mL, liquid pint 473.176473, liquid quart
/// 946.352946, gallon 3785.411784, fluid ounce 29.5735295625, tablespoon 14.78676478125, teaspoon 4.92892159375.
#[test]
fn measures_of_the_united_states_are_those_of_their_handbook() {
    for (text, expected) in [
        ("us cup", 236_588),
        ("us pint", 473_176),
        ("us quart", 946_353),
        ("us gallon", 3_785_412),
        ("us fl oz", 29_574),
        ("us tbsp", 14_787),
        ("us tsp", 4_929),
    ] {
        for household in [Household::Unknown, Household::UnitedStates, Household::Elsewhere] {
            assert_eq!(microlitres(&format!("1 {text}"), household), (expected, expected), "{text}");
        }
    }
}

/// Weights and Measures Act 1985 (United Kingdom), Schedule 1 (from memory): pint 0.56826125 L, quart 1.1365225, gallon
/// 4.54609, fluid ounce 0.0284130625.
#[test]
fn imperial_measures_are_those_of_the_act() {
    for (text, expected) in
        [("pint", 568_261), ("quart", 1_136_523), ("gallon", 4_546_090), ("fl oz", 28_413), ("fluid ounce", 28_413)]
    {
        assert_eq!(microlitres(&format!("1 {text}"), Household::Elsewhere), (expected, expected), "{text}");
        assert_eq!(microlitres(&format!("1 imperial {text}"), Household::UnitedStates), (expected, expected), "{text}");
    }
}

/// Where nobody said whose measures they are, both readings lie in the band, and what is to be measured out is refused.
#[test]
fn a_measure_that_differs_between_countries_is_a_band() {
    for unit in ["tsp", "tbsp", "cup", "fl oz", "pint", "quart", "gallon"] {
        let of = |household| microlitres(&format!("2 {unit}"), household);
        let (us, elsewhere, australia) =
            (of(Household::UnitedStates), of(Household::Elsewhere), of(Household::Australia));
        let (low, high) = of(Household::Unknown);
        let ends = (us.0.min(elsewhere.0), us.1.max(elsewhere.1).max(australia.1));
        // Rounded outwards, by less than a microlitre.
        assert!(low <= ends.0 && ends.0 - low <= 1 && ends.1 <= high && high - ends.1 <= 1, "{unit}: {low} to {high}");
        assert!(us != elsewhere, "{unit}");
        let error = typed::one_volume(&format!("2 {unit}"), Household::Unknown).err().map(|error| error.for_author());
        assert!(error.is_some_and(|told| told.contains("type it in ml")), "{unit}");
    }
    assert_eq!(typed::one_volume("1 pint", Household::Elsewhere), Ok(Microlitres(568_261)));
    assert_eq!(PROTOCOL.country("us").household, Household::UnitedStates);
    assert_eq!(PROTOCOL.country("ie").household, Household::Elsewhere);
    assert_eq!(PROTOCOL.country("nz").household, Household::Elsewhere);
    // Its tablespoon is 20 ml, or 15 where it came from abroad (common practice, no source); all else is as elsewhere.
    assert_eq!(PROTOCOL.country("au").household, Household::Australia);
    assert_eq!(microlitres("1 tbsp", Household::Australia), (15_000, 20_000));
    assert_eq!(microlitres("1 tsp", Household::Australia), microlitres("1 tsp", Household::Elsewhere));
    // In Canada imperial, metric and United States measures are all in use (common practice, no source).
    assert_eq!(PROTOCOL.country("ca").household, Household::Unknown);
    assert_eq!(PROTOCOL.country("unset").household, Household::Unknown);
}

/// International yard and pound agreement, 1959 (from memory): pound 453.59237 g, ounce a sixteenth of it, inch 25.4 mm.
#[test]
fn pounds_ounces_and_inches_are_exact() {
    for (text, grams) in [
        ("1 lb", 454),
        ("16 oz", 454),
        ("4 lb 6 oz", 1984), // 1984.4666
        ("4lb6oz", 1984),
        ("4lb6", 1984),
        ("4 lb 6", 1984),
        ("4 1/2 lb", 2041), // 2041.1657
        ("4½ lb", 2041),
        ("4 ½ lb", 2041),
        ("4 lb 6½ oz", 1999), // 1998.6413
        ("70 oz.", 1984),
        ("1.900 kg", 1900),
        ("1,9 kg", 1900),
        ("0.950 kg", 950),
    ] {
        assert_eq!(weight::parse(text), Ok(Grams(grams)), "{text}");
    }
    assert_eq!(typed::length("2 1/2 in"), Ok(Micrometres(63_500)));
    assert_eq!(typed::milligrams("1/4 oz"), Ok(7_087));
    assert_eq!(Lines::read("3 1/2 x 2 in"), Lines::read("88.9 mm x 50.8 mm"));
}

/// One reader: what is a number for one amount is one for every other.
#[test]
fn every_amount_reads_numbers_alike() {
    let ml = |text: &str| typed::one_volume(text, Household::Elsewhere);
    for (text, microlitres) in [
        ("1.900 l", 1_900_000),
        ("1,900 l", 1_900_000),
        ("0.500 ml", 500),
        ("1 1/2 tsp", 7_500),
        ("1½ tsp", 7_500),
        ("1/3 metric cup", 83_333),
        ("⅓ metric cup", 83_333),
        ("1/2 tsp", 2_500),
        ("3/4 pint", 426_196),
        ("1 l 250 ml", 1_250_000),
        (".5 l", 500_000),
        ("0.0625 l", 62_500),
    ] {
        assert_eq!(ml(text), Ok(Microlitres(microlitres)), "{text}");
    }
    assert_eq!(typed::strength("0.125 %"), Ok(MilligramsPerLitre(1_250)));
    assert_eq!(typed::strength("1/2 %"), Ok(MilligramsPerLitre(5_000)));
    assert_eq!(typed::minutes("1 1/2 h"), Ok(90));
    assert_eq!(typed::minutes("1 h 30 min"), Ok(90));
    assert_eq!(Figure::read(FigureOf::Refill, "1 1/2 s"), Ok(Figure::Refill(TenthsOfSecond(15))));
    assert_eq!(Figure::read(FigureOf::Refill, "1.2"), Ok(Figure::Refill(TenthsOfSecond(12))));
    let told = |error: Option<TypedError>| error.map(|error| error.for_author()).unwrap_or_default();
    for (text, why) in [
        ("1,500 ml", "two ways"),
        ("12.345 ml", "two ways"),
        ("5", "has no unit"),
        ("5 stone", "no unit we know"),
        ("-5 ml", "is no number"),
        ("0 ml", "more than nothing"),
        ("ml", "is no number"),
        ("1.2.3 ml", "is no number"),
        ("1/0 cup", "no unit we know"),
        ("1.5½ tsp", "is no number"),
        ("5 ml 1 l", "the larger unit first"),
        ("4 ml 6", "has no unit"),
        ("99999999999 ml", "is no number"),
        ("", "nothing typed"),
    ] {
        let error = told(ml(text).err());
        assert!(error.contains(why), "{text}: {error}");
    }
    for (text, why) in
        [("1,500 g", "two ways"), ("2", "has no unit"), ("4 stone", "is not a weight"), ("31 kg", "30 kg")]
    {
        let error = told(weight::mass(text).err());
        assert!(error.contains(why), "{text}: {error}");
    }
    assert!(Figure::read(FigureOf::Refill, "61 s").is_err() && Figure::read(FigureOf::Refill, "soon").is_err());
}

/// A pint of blood by either pint: both lie in the band, and it is written down and read again as the same.
#[test]
fn blood_in_a_pint_of_nobodys_country_is_a_band() {
    let figure = Figure::read(FigureOf::Blood, "1 pint").unwrap_or_else(|error| panic!("{error:?}"));
    assert_eq!(Figure::read(FigureOf::Blood, &figure.write()), Ok(figure.clone()));
    let Figure::Spilt(seen) = &figure else { panic!("{figure:?}") };
    let spilt = blood::spilt(seen);
    assert_eq!((spilt.low, spilt.high), (Microlitres(473_176), Microlitres(568_262)));
    assert!(matches!(seen[..], [Spilt::Between(..)]), "{seen:?}");
    assert_eq!(english(seen::figure(&figure)), "473 to 569 ml");
}

fn recipe(recipe: &str, household: Household) -> Result<Answer, ReckonError> {
    let moment = Moment { protocol: &PROTOCOL, now: chrono::DateTime::UNIX_EPOCH, zone: Zone::UTC, household };
    reckon("recipe", &[("recipe".to_owned(), recipe.to_owned())], &moment)
}

#[track_caller]
fn told(answer: &Result<Answer, ReckonError>, what: &str) -> String {
    let answer = answer.as_ref().unwrap_or_else(|error| panic!("{}", english(error.told())));
    let of = |line: &&AnswerLine| english(line.what.clone()) == what;
    answer.lines.iter().find(of).map_or_else(|| panic!("no {what} in {answer:?}"), |line| english(line.told.clone()))
}

/// Arithmetic: 25 mL of 2 % is 0.5 g; in 2 L made up 0.025 %, added to 2 L 0.5 / 2.025 = 0.0246914 %. In a quart of 946.35 mL
/// or 1136.52 mL 5 mL of 10 % are between 0.5 / 1.14152 = 0.438 % and 0.5 / 0.946353 = 0.528 %.
#[test]
fn a_strength_is_told_to_three_figures_by_both_readings() {
    let strength = |text: &str, household| told(&recipe(text, household), "true strength, the stock");
    let of = |text: &str| strength(text, Household::Unknown);
    assert_eq!(of("25 ml of 2 % chlorhexidine in 2 l"), "0.0247 to 0.025 %");
    assert_eq!(of("1 ml of 0.05 % in 1 l"), "0.0000499 to 0.00005 %");
    assert_eq!(of("5 ml of 10 % in 1 quart"), "0.0438 to 0.0528 %");
    assert_eq!(strength("5 ml of 10 % in 1 quart", Household::UnitedStates), "0.0526 to 0.0528 %");
    assert_eq!(strength("5 ml of 10 % in 1 quart", Household::Elsewhere), "0.0438 to 0.044 %");
    // A teaspoon of 4.2 to 6 g in a pint of 568.26 mL: 0.739 to 1.06 % (table of printed recipes: 1.06 by 6 g).
    let salt = recipe("1 tsp salt in 1 pint", Household::Elsewhere);
    assert_eq!(told(&salt, "true strength, salt"), "0.739 to 1.06 %");
    let error = recipe("1 l of 10 % in 500 ml", Household::Unknown).err().map(|error| english(error.told()));
    assert!(error.is_some_and(|error| error.contains("more stock than water")));
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// What is told of a strength is off by no more than half of its third figure.
    #[test]
    fn three_figures_are_kept(strength in 1u64..2_000_000_000) {
        let text = percent_strength(MicrogramsPerLitre(strength)).to_string();
        let told: f64 = text.parse().unwrap_or_else(|error| panic!("{text}: {error}"));
        let exact = f64::from(u32::try_from(strength).unwrap_or(u32::MAX)) / 10_000_000.0;
        prop_assert!((told - exact).abs() <= exact * 0.005_001, "{text} for {exact}");
        prop_assert!(text.trim_start_matches(['0', '.']).chars().filter(char::is_ascii_digit).count() <= 3 || exact >= 100.0, "{text}");
    }

    /// Halves, decimals and unit by unit, the same amount reads as the same; nothing typed breaks the reader.
    #[test]
    fn one_amount_reads_as_one(whole in 0u64..900, quarters in 1u64..4, any in "\\PC{0,24}") {
        let microlitres = |text: String| typed::one_volume(&text, Household::Unknown).map(|volume| volume.0);
        let expected = Ok(whole * 1000 + quarters * 250);
        prop_assert_eq!(microlitres(format!("{whole} {quarters}/4 ml")), expected.clone());
        prop_assert_eq!(microlitres(format!("{whole},{:02} ml", quarters * 25)), expected.clone());
        if whole > 0 {
            prop_assert_eq!(microlitres(format!("{whole} ml {} ul", quarters * 250)), expected);
        }
        if let Ok(Band { low, high }) = typed::volume(&any, Household::Unknown) {
            prop_assert!(low <= high && low.0 > 0);
        }
        let _ = (weight::mass(&any), typed::strength(&any), typed::length(&any), typed::minutes(&any));
    }
}
