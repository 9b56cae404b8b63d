//! What is counted of the code: sentences outside the catalogue, circles of files, names that several types share, the longest function.
//! A number may fall; where it has, the table follows.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::renamed::literals::{files, texts};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// Where English stands in code, why, and how many sentences of it at most. What is told to the author of a protocol or a scripted bird is
/// English on purpose.
const ENGLISH: &[(&str, &str, usize)] = &[
    ("src/build", "what the build tells", 20),
    ("src/protocol", "faults and proofs, for a protocol's author", 299),
    ("src/prove", "faults and proofs, for a protocol's author", 47),
    ("src/shell/prove.rs", "proofs, for a protocol's author", 8),
    ("src/practice", "faults of scripted birds and goes, for their author", 36),
    ("src/notes.rs", "faults of notes, for their author", 13),
    ("src/content/review/form.rs", "faults of a form, for its author", 13),
    ("src/words", "faults of a translation, for its author", 13),
    ("src/ledger", "SQL", 39),
    ("src/render/json/measuring.rs", "the steps of the arithmetic, for who writes a program", 15),
    (
        "src/bird.rs",
        "a weight her kind has not, for the author of notes; a keeper is told the same from the catalogue",
        4,
    ),
    (
        "src/typed/mistyped.rs",
        "what is wrong with an amount, for the author of notes; a keeper is told the same from the catalogue",
        29,
    ),
    ("src/typed", "units as they are typed", 25),
    ("src/finding", "figures as they are typed", 3),
    ("src/measure", "why a lint has nothing to say", 5),
    ("src/shell.rs", "help of the command line", 1),
    ("src/", "what is typed the same in every language, and what nobody but a developer meets", 12),
];

/// Every file below `src`.
fn sources() -> Vec<(String, String)> {
    let mut found = Vec::new();
    files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut found);
    found
}

/// Whether a text is a sentence or a part of one: two words side by side.
fn is_sentence(text: &str) -> bool {
    let mut plain = String::new();
    let mut depth = 0_usize;
    for letter in text.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            _ if depth == 0 => plain.push(letter),
            _ => {}
        }
    }
    let word = |word: &str| {
        word.len() > 1 && word.trim_end_matches([',', ';', ':', '.']).chars().all(|letter| letter.is_ascii_alphabetic())
    };
    plain.split(' ').zip(plain.split(' ').skip(1)).any(|(one, other)| word(one) && word(other))
}

/// The code of a file without attributes: their reasons are for who reads the code.
fn code(text: &str) -> String {
    text.lines()
        .filter(|line| !line.trim_start().starts_with("#[") && !line.trim_start().starts_with("#!["))
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn sentences_outside_the_catalogue_are_few_and_known() {
    let mut counted: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (path, text) in sources() {
        let (place, ..) =
            ENGLISH.iter().find(|(place, ..)| path.starts_with(place)).unwrap_or_else(|| panic!("{path}"));
        let code = code(&text);
        let sentences = texts(&code).into_iter().filter(|text| is_sentence(text));
        counted.entry(place).or_default().extend(sentences.map(|text| format!("{path}: {text}")));
    }
    let more: Vec<String> = ENGLISH
        .iter()
        .filter_map(|(place, _, most)| {
            let found = counted.get(place).map_or(&[][..], Vec::as_slice);
            (found.len() > *most)
                .then(|| format!("{place}: {} where {most} were known\n{}", found.len(), found.join("\n")))
        })
        .collect();
    assert!(more.is_empty(), "{}", more.join("\n\n"));
}

#[test]
fn a_sentence_is_told_from_a_name() {
    for sentence in ["the disk is full", "{count} rules, all of them", "look again"] {
        assert!(is_sentence(sentence), "{sentence}");
    }
    for other in ["need_low", "{a} {b}", "coopside.cases/2", "12 mL", "%d %b"] {
        assert!(!is_sentence(other), "{other}");
    }
}

/// The file a path of modules leads to, as far as it does.
fn file_of(path: &[&str], known: &BTreeSet<String>) -> Option<String> {
    (1..=path.len()).rev().map(|length| path[..length].join("/")).find(|module| known.contains(module))
}

/// Which files name which others, by `crate::` and `super::` paths.
fn named(sources: &[(String, String)]) -> BTreeMap<String, BTreeSet<String>> {
    let module = |path: &str| path.trim_start_matches("src/").trim_end_matches(".rs").to_owned();
    let known: BTreeSet<String> = sources.iter().map(|(path, _)| module(path)).collect();
    let mut edges = BTreeMap::new();
    for (path, text) in sources {
        let own = module(path);
        let parent: Vec<&str> = own.split('/').collect();
        let mut to = BTreeSet::new();
        for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
            for (start, base) in [("crate::", Vec::new()), ("super::", parent[..parent.len() - 1].to_vec())] {
                for (at, _) in line.match_indices(start) {
                    let rest: String = line[at + start.len()..]
                        .chars()
                        .take_while(|c| c.is_ascii_lowercase() || *c == '_' || *c == ':')
                        .collect();
                    let mut path = base.clone();
                    path.extend(rest.split("::").filter(|part| !part.is_empty()));
                    to.extend(file_of(&path, &known).filter(|file| *file != own));
                }
            }
        }
        edges.insert(own, to);
    }
    edges
}

/// The files that stand in circles, each with the size of its own.
pub(super) fn circles(edges: &BTreeMap<String, BTreeSet<String>>) -> Vec<(&String, usize)> {
    let reach = |from: &String| {
        let (mut seen, mut left) = (BTreeSet::new(), vec![from.clone()]);
        while let Some(file) = left.pop() {
            for next in edges.get(&file).into_iter().flatten() {
                if seen.insert(next.clone()) {
                    left.push(next.clone());
                }
            }
        }
        seen
    };
    let all: BTreeMap<&String, BTreeSet<String>> = edges.keys().map(|file| (file, reach(file))).collect();
    let circle =
        |file: &String| all.iter().filter(|(other, to)| to.contains(file) && all[file].contains(**other)).count();
    edges.keys().map(|file| (file, circle(file))).filter(|(_, size)| *size > 1).collect()
}

/// A file and its parent may name each other; a circle beyond that is a room whose walls are missing.
#[test]
fn circles_of_files_grow_no_larger() {
    let sources = sources();
    let named = named(&sources);
    let circles = circles(&named);
    let (files, largest) = (circles.len(), circles.iter().map(|(_, size)| *size).max().unwrap_or_default());
    assert!(largest <= 8 && files <= 38, "{files} files stand in circles, {largest} in the largest");
}

#[test]
fn names_that_several_types_share_grow_no_more() {
    let mut types: BTreeMap<String, usize> = BTreeMap::new();
    for (path, text) in sources().iter().filter(|(path, _)| !path.starts_with("src/protocol/raw")) {
        let _ = path;
        for line in text.lines() {
            let line = line
                .trim_start()
                .trim_start_matches("pub(super) ")
                .trim_start_matches("pub(crate) ")
                .trim_start_matches("pub ");
            if let Some(rest) = line.strip_prefix("struct ").or_else(|| line.strip_prefix("enum ")) {
                let name: String = rest.chars().take_while(|c| c.is_alphanumeric()).collect();
                *types.entry(name).or_default() += 1;
            }
        }
    }
    let shared: Vec<(&String, &usize)> = types.iter().filter(|(_, count)| **count > 1).collect();
    let of_them: usize = shared.iter().map(|(_, count)| **count).sum();
    assert!(shared.len() <= 76 && of_them <= 171, "{} names of {of_them} types: {shared:?}", shared.len());
}

#[test]
fn no_function_is_longer_than_a_hundred_lines() {
    let mut longest = (0, String::new());
    for (path, text) in sources() {
        let mut begun: Option<(usize, usize, String)> = None;
        for (number, line) in text.lines().enumerate() {
            let indent = line.len() - line.trim_start().len();
            let bare = line.trim_start();
            let is_fn =
                !bare.starts_with("//") && (bare.starts_with("fn ") || bare.contains(" fn ")) && bare.ends_with('{');
            if begun.is_none() && is_fn {
                begun = Some((number, indent, format!("{path}: {bare}")));
            } else if let Some((from, at, what)) = &begun
                && indent == *at
                && bare.starts_with('}')
            {
                longest = longest.max((number - from, what.clone()));
                begun = None;
            }
        }
    }
    assert!(longest.0 <= 100, "{longest:?}");
}
