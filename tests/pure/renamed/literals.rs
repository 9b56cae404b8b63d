//! No text in the code is a name of the shipped protocol, but for words that are the program's own.

use crate::common::PROTOCOL;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Words of the program that are names of the protocol, too: where, why, which. The first row that a file's path begins with
/// holds for it.
const OWN_WORDS: &[(&str, &str, &[&str])] = &[
    ("src/finding/kind.rs", "entries, as they are stored", &["put_down"]),
    (
        "src/bird.rs",
        "kinds and builds, which are the program's own",
        &["bantam", "chick", "cock", "duck", "goose", "guinea_fowl", "hen", "quail", "turkey"],
    ),
    ("src/finding/", "how figures are typed", &["drops", "dry", "held"]),
    ("src/care/course.rs", "stages of a course, in JSON too", &["now"]),
    ("src/content/course.rs", "when a card opens, in JSON too", &["at_once"]),
    ("src/content/", "heads of a table", &["day", "hours", "none", "now"]),
    ("src/ledger/", "what is stored of cases", &["open"]),
    (
        "src/measure/",
        "values of the sums, in JSON too",
        &["breath", "edge", "faster", "fit", "head", "limp", "little", "neck", "side", "slower"],
    ),
    ("src/notes.rs", "fields of notes", &["wounds"]),
    ("src/practice/", "fields of a scripted bird", &["authority", "shows", "story", "wounds"]),
    (
        "src/render/",
        "fields of JSON",
        &[
            "air",
            "alone",
            "at_once",
            "authority",
            "bird",
            "bleeds",
            "blood",
            "blood_lost",
            "dryness",
            "flock",
            "head",
            "intake",
            "kind",
            "level",
            "lost",
            "more",
            "not",
            "now",
            "one",
            "open_skin",
            "other",
            "pain",
            "place",
            "plain",
            "reach",
            "scale",
            "second",
            "skin",
            "stays",
            "until",
            "watch",
            "weight",
            "what",
            "when",
            "whole",
            "wound",
        ],
    ),
    ("src/shell/", "what a seed may ask for, and settings", &["day", "flock", "hours", "now", "yes"]),
    ("src/words/translation.rs", "plain words, and a field of a bird", &["nothing", "story"]),
    ("src/protocol/wording.rs", "fields of an act", &["place"]),
    ("src/protocol/misread.rs", "fields of RON", &["broken", "until"]),
    (
        "src/protocol/check/action.rs",
        "fields of the protocol's files, and the verb of an action that presses",
        &["place", "press", "until"],
    ),
    (
        "src/protocol/check/",
        "fields of the protocol's files, as faults tell them",
        &[
            "authority",
            "by_mouth",
            "danger",
            "grave",
            "happened",
            "kind",
            "not",
            "one",
            "other",
            "others",
            "phone_any",
            "place",
            "reach",
            "rest",
            "right",
            "salt_water",
            "side",
            "slight",
            "stays",
            "story",
            "strong",
            "watch",
            "weak",
            "what",
            "when",
            "yes",
        ],
    ),
    ("src/protocol/raw/cond/", "the words conditions are made of", &["not", "some", "wound"]),
    ("src/protocol/hazard.rs", "whom a hazard harms, in JSON", &["bird", "flock"]),
    ("src/protocol/spelling.rs", "an ending of words", &["us"]),
    ("src/protocol/sum.rs", "the sums, which are the program's own", &["blood", "saline", "skin", "warmth", "weight"]),
    (
        "src/protocol/scale.rs",
        "rungs and body systems, in files and JSON",
        &["blood", "breathing", "grave", "none", "now", "slight"],
    ),
    (
        "src/protocol/",
        "measures, reaches, air and whom to call, in JSON",
        &["authority", "blood_lost", "chick", "day", "dryness", "hours", "ill", "now", "weight", "weight_gone"],
    ),
    ("src/prove/", "measures and scales, as they are told", &["authority", "dryness", "weight"]),
    (
        "src/reckon.rs",
        "what the sums take",
        &["air", "chick", "days", "dry", "held", "hen", "kind", "no", "now", "plain", "weight", "wounds", "yes"],
    ),
    ("src/reckon/mistyped.rs", "what is typed before a measure", &["us"]),
    (
        "src/reckon/",
        "what the sums take",
        &[
            "air", "chick", "days", "dry", "head", "held", "ill", "kind", "no", "now", "plain", "salt", "weight",
            "wounds", "yes",
        ],
    ),
    ("src/update/", "what the sums take", &["kind", "weight"]),
    ("src/typed", "units as they are typed", &["day", "days", "hour", "hours", "second", "tablespoon", "teaspoon"]),
];

/// Every text in a file of code, in the order they stand: comments and letters left out.
pub(crate) fn texts(code: &str) -> Vec<&str> {
    let (mut found, mut rest) = (Vec::new(), code);
    while let Some(at) = rest.find(['"', '\'', '/', 'r']) {
        let from = &rest[at..];
        let part_of_word = rest[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        if from.starts_with("//") {
            rest = from.split_once('\n').map_or("", |(_, after)| after);
        } else if let Some((hashes, _)) = from
            .strip_prefix('r')
            .and_then(|raw| raw.split_once('"'))
            .filter(|(hashes, _)| !part_of_word && hashes.chars().all(|c| c == '#'))
        {
            let inner = &from[hashes.len() + 2..];
            let (text, after) = inner.split_once(&format!("\"{hashes}")).unwrap_or((inner, ""));
            found.push(text);
            rest = after;
        } else if let Some(inner) = from.strip_prefix('"') {
            let end = end_of(inner, '"');
            found.push(&inner[..end]);
            rest = inner.get(end + 1..).unwrap_or_default();
        } else {
            rest = &from[letter(from)..];
        }
    }
    found
}

/// Where a text or a letter ends that has begun.
fn end_of(inner: &str, mark: char) -> usize {
    let mut escaped = false;
    let end = inner.find(|c| {
        let ends = c == mark && !escaped;
        escaped = c == '\\' && !escaped;
        ends
    });
    end.unwrap_or(inner.len())
}

/// How long a letter is that begins here; one, where none does.
fn letter(from: &str) -> usize {
    let Some(inner) = from.strip_prefix('\'') else { return 1 };
    let end = end_of(inner, '\'');
    let one = inner.get(..end).is_some_and(|text| text.starts_with('\\') || text.chars().count() == 1);
    if one { end + 2 } else { 1 }
}

/// Every name of the shipped protocol.
fn names() -> BTreeSet<String> {
    super::names(&PROTOCOL).into_iter().flat_map(|(_, names)| names).collect()
}

/// The files below a folder, by their paths from the root of the repository, and what is in them.
pub(crate) fn files(folder: &Path, found: &mut Vec<(String, String)>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for path in entries.flatten().map(|entry| entry.path()) {
        if path.is_dir() {
            files(&path, found);
        } else {
            let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            found.push((path.strip_prefix(root).unwrap_or(&path).display().to_string(), text));
        }
    }
}

#[test]
fn texts_are_found_and_comments_and_letters_are_not() {
    let code = "let a = \"one\"; // \"two\"\nlet b = '\"'; let c = \"t\\\"h\"; let d = r#\"f\"o\"#; let e: &'static str = for_(\"six\");";
    assert_eq!(texts(code), ["one", "t\\\"h", "f\"o", "six"]);
}

#[test]
fn no_text_in_the_code_is_a_name_of_the_protocol() {
    let (names, mut sources) = (names(), Vec::new());
    files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut sources);
    let (mut wrong, mut used) = (BTreeSet::new(), BTreeSet::new());
    for (path, code) in &sources {
        let row = OWN_WORDS.iter().find(|(place, ..)| path.starts_with(place));
        for text in texts(code).into_iter().filter(|text| names.contains(*text)) {
            match row.filter(|(.., words)| words.contains(&text)) {
                Some((place, ..)) => _ = used.insert((*place, text)),
                None => _ = wrong.insert(format!("{path}: \"{text}\"")),
            }
        }
    }
    assert!(wrong.is_empty(), "ask `protocol.roles` instead, or say why the word is the program's own:\n{wrong:#?}");
    let listed = OWN_WORDS.iter().flat_map(|(place, _, words)| words.iter().map(move |word| (*place, *word)));
    let idle: Vec<_> = listed.filter(|own| !used.contains(own)).collect();
    assert!(idle.is_empty(), "no longer in the code, or no name any more; take them off the list: {idle:?}");
    assert!(OWN_WORDS.iter().all(|(_, why, _)| !why.is_empty()) && names.len() > 500, "{}", names.len());
}
