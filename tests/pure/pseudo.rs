//! No sentence escapes the catalogue: in a language whose every letter bears an accent, whatever is read without one was said by the
//! code itself.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, pseudo};
use crate::renamed::{self, Telling, World};
use coopside::protocol::Protocol;
use coopside::shipped;
use coopside::words::translation;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

/// The shipped world in that language.
static PSEUDO: LazyLock<World> = LazyLock::new(|| {
    let mut world = World::of(&shipped::files(), &shipped::hazards_file(), shipped::scenarios());
    let words = translation::load("de", &pseudo::files(&PROTOCOL), &mut world.protocol);
    accent_what_is_never_translated(&mut world.protocol);
    world.words = Box::leak(Box::new(words.unwrap_or_else(|faults| panic!("{faults:#?}"))));
    world
});

/// Works, laws and addresses are cited as they are, whatever the language; here they bear accents as well, so that nothing else hides
/// behind them.
fn accent_what_is_never_translated(protocol: &mut Protocol) {
    for source in protocol.sources.iter_mut() {
        (source.cite, source.at) = (pseudo::said(&source.cite), pseudo::said(&source.at));
    }
    for law in protocol.countries.iter_mut().flat_map(|country| &mut country.laws) {
        (law.law, law.dated) = (pseudo::said(&law.law), pseudo::said(&law.dated));
    }
}

/// Words that are the same in every language: units, names of works and laws, forms of files, what is typed at a prompt.
const SAME: &[&str] = &["coopside", "mL", "Coopside"];

/// What the birds of the stories are called, and the names they are known by in forms and at a prompt.
static NAMES: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let named = shipped::scenarios().iter().filter_map(|file| file.text.split_once("name: \""));
    let files = shipped::scenarios().iter().flat_map(|file| file.name.split('_')).map(str::to_owned);
    named.filter_map(|(_, rest)| Some(rest.split_once('"')?.0.to_owned())).chain(files).collect()
});

/// A word of plain letters of so many or more is a word of English.
const LONG: usize = 4;

/// The words of English in what is told: the program's own caution, which no translation replaces, left out.
fn escaped(told: &str) -> Vec<String> {
    let caution = "Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";
    let whole: String = told.split_whitespace().collect::<Vec<_>>().join(" ");
    let whole = whole.replace(caution, "").replace("(Nobody has reviewed this translation.)", "");
    let words = whole.split(|letter: char| !letter.is_alphabetic());
    let english = words.filter(|word| {
        word.len() >= LONG && word.is_ascii() && !SAME.contains(word) && !NAMES.contains(*word) && !typed(word)
    });
    english.map(str::to_owned).collect()
}

/// Whether somebody typed a word: the walks press these letters, also where something is written.
fn typed(word: &str) -> bool {
    word.chars().all(|letter| "vdwstbepi".contains(letter))
}

/// Counts the words of English by where they were told.
fn count(telling: Telling, found: &mut BTreeMap<String, BTreeMap<String, usize>>) {
    for (what, told) in telling {
        for word in escaped(&told) {
            *found.entry(what.clone()).or_default().entry(word).or_default() += 1;
        }
    }
}

#[test]
fn no_sentence_of_a_document_escapes() {
    let mut found = BTreeMap::new();
    let mut read = 0;
    for script in PSEUDO.scripts.iter().step_by(7) {
        let telling = renamed::of_bird(&PSEUDO, &script.findings).into_iter();
        let prose = telling.filter(|(what, _)| matches!(what.as_str(), "verdict" | "plan" | "phone" | "sheet"));
        let telling: Telling = prose.chain(renamed::of_go(&PSEUDO, script).into_iter().take(1)).collect();
        read += telling.iter().map(|(_, told)| told.len()).sum::<usize>();
        count(telling, &mut found);
    }
    let else_told = renamed::all_else(&PSEUDO).into_iter();
    count(
        else_told.filter(|(what, _)| !what.contains("JSON") && what != "kit" && what != "labels").collect(),
        &mut found,
    );
    assert!(read > 100_000, "{read}");
    assert!(found.is_empty(), "{found:?}");
}

#[test]
fn no_sentence_of_a_screen_escapes() {
    let mut found = BTreeMap::new();
    for seed in 0..4 {
        let walk = renamed::of_walk(&PSEUDO, seed).into_iter();
        let frames = walk.filter(|(what, _)| !what.ends_with("kept"));
        count(frames.map(|(_, frame)| ("screen".to_owned(), frame)).collect(), &mut found);
    }
    assert!(found.is_empty(), "{found:?}");
}
