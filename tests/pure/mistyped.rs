//! What is wrong with something typed: told to a keeper from the catalogue, and to an author in the very same words.

use coopside::bird::Kind;
use coopside::finding::figure::{Count, Figure, FigureOf, Lines};
use coopside::reckon::mistyped::{told, unlikely};
use coopside::typed::{self, Household, Mistyped, TypedError, weight};
use coopside::unit::Grams;
use coopside::words::english;
use std::collections::BTreeSet;

/// One error for each thing that can be wrong with a typed amount.
pub(crate) fn errors() -> Vec<TypedError> {
    let volume = |text: &str| typed::one_volume(text, Household::Unknown).err();
    let blood = |text: &str| Figure::read(FigureOf::Blood, text).err();
    let all = [
        volume("qq"),
        volume("5"),
        volume("5 qq"),
        volume("1,500 ml"),
        volume("5 ml 1 l"),
        volume("0 ml"),
        volume("1 pt"),
        volume(""),
        typed::strength("101 %").err(),
        typed::dryness("16 %").err(),
        typed::minutes("4000 d").err(),
        typed::tenths_of_second("61 s", "1.2 s").err(),
        typed::count("q").err(),
        typed::count("100001").err(),
        typed::word("q", &[("x", ()), ("y", ())]).err(),
        weight::parse("1 g").err(),
        weight::parse("q g").err(),
        weight::parse("31 kg").err(),
        blood(" "),
        blood("wet 5 g"),
        blood("wet 5 g dry 6 g"),
        blood("pool 3 m soil"),
        blood("10 ml to 5 ml"),
        Count::read("q in 30 s").err(),
        Count::read("q").err(),
        Count::read("15 in 2 s").err(),
        Count::read("0 in 30 s").err(),
        Lines::read("8 cm").err(),
        Lines::read("600 x 5 cm").err(),
        Lines::read("5 x q").err(),
    ];
    all.into_iter().flatten().collect()
}

/// Weights no bird of a kind has, each with its kind.
pub(crate) fn odd_weights() -> impl Iterator<Item = coopside::bird::Unlikely> {
    let ends = [weight::LEAST, weight::MOST];
    Kind::ALL.into_iter().flat_map(move |kind| ends.map(|grams| kind.could_weigh(grams).err())).flatten()
}

/// What can be wrong, by its name and, of an amount, by why it is none.
fn sort(what: &Mistyped) -> String {
    format!("{what:?}").split(['{', '[']).next().unwrap_or_default().trim().to_owned()
}

#[test]
fn a_keeper_and_an_author_are_told_the_same() {
    let errors = errors();
    let sorts: BTreeSet<String> = errors.iter().map(|error| sort(&error.what)).collect();
    assert_eq!(sorts.len(), 27, "{sorts:#?}");
    for error in errors {
        assert_eq!(english(told(&error)), error.for_author());
    }
    assert!(odd_weights().count() > Kind::ALL.len());
    for odd in odd_weights() {
        assert_eq!(english(unlikely(odd)), odd.for_author());
    }
    assert_eq!(
        Kind::GuineaFowl.could_weigh(Grams(600)).err().map(|odd| english(unlikely(odd))).as_deref(),
        Some(
            "is less than half of what the lightest guinea fowl weighs, 1300 g; look at unit and kind again; a young bird goes as a chick"
        )
    );
}
