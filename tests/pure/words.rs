//! Words that were given up, because they are another's name or mean another thing: they stand nowhere any more. And what is
//! said of names that do stand here: whose scale a score follows, and that nobody named has endorsed this.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::PROTOCOL;
use coopside::care::cupboard::Cupboard;
use coopside::care::plan;
use coopside::content::basis;
use coopside::protocol::texts::Country;
use coopside::render::{json, text};
use coopside::words::Reader;
use coopside::zone::Zone;
use coopside::{practice, prove, shipped};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Where a word is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kept {
    /// Texts, code, data, tests, and what the documents say.
    Everywhere,
    /// The program and its documents; data may use the word in its plain meaning.
    OutOfTheProgram,
    /// Data alone.
    OutOfTheData,
}

/// A word that was given up.
struct GivenUp {
    /// As it stood, in small letters unless `exactly`.
    word: &'static str,
    /// Whether capital letters make the word.
    exactly: bool,
    /// What may stand before it and makes it another word.
    but_after: &'static [&'static str],
    kept: Kept,
    /// What is said in its place.
    instead: &'static str,
}

const fn word(word: &'static str, instead: &'static str) -> GivenUp {
    GivenUp { word, exactly: false, but_after: &[], kept: Kept::Everywhere, instead }
}

const GIVEN_UP: &[GivenUp] = &[
    GivenUp { but_after: &["phone a ", "phone any "], ..word("vet now", "a vet at once") },
    word("red list", "danger signs"),
    word("red-list", "danger signs"),
    word("red sign", "danger sign"),
    word("red signs", "danger signs"),
    word("lift the cloth", "take the cloth off"),
    word("lift it to look", "the cloth stays where it is"),
    word("lift neither bird nor cloth", "bird and cloth stay where they are"),
    word("gentle end", "humane end"),
    GivenUp { exactly: true, ..word("F1", "1, said \"bird 1\"") },
    GivenUp { exactly: true, ..word("F2", "2, said \"bird 2\"") },
    GivenUp { kept: Kept::OutOfTheProgram, ..word("doctor", "selfcheck") },
    GivenUp { exactly: true, ..word("START", "our own sorting, no all-clear; the paper by author and title") },
    GivenUp { exactly: true, ..word("SALT", "our own sorting, no all-clear; the paper by author and title") },
    word("jumpstart", "our own sorting, no all-clear; the paper by author and title"),
    GivenUp { kept: Kept::OutOfTheProgram, ..word("triage tag", "our own sorting, no all-clear") },
    GivenUp { kept: Kept::OutOfTheData, ..word("scribd", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("vdocuments", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("flipbuilder", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("documentop", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("docslib", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("businessdocbox", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("coek", SHARED) },
    GivenUp { kept: Kept::OutOfTheData, ..word("researcher.life", SHARED) },
];

/// In place of the address of a page where documents are shared.
const SHARED: &str = "the citation alone, \"shared copy\"";

/// Marks of makers, and a name that is fought over as one. Matched where people type them, said nowhere.
const BRANDS: [&str; 4] = ["vaseline", "manuka", "betadine", "dettol"];

/// The files that are read: every document at the top, and what is written by hand or held fixed by tests below.
fn files() -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    // Beside the documents stands what tells git where it keeps its own.
    let at_the_top = entries(root).into_iter().filter(|path| path.is_file() && !path.ends_with(".git"));
    let mut paths: Vec<PathBuf> = at_the_top.collect();
    for folder in FOLDERS {
        collect(&root.join(folder), &mut paths);
    }
    let own = root.join("tests/pure/words.rs");
    let inside = |path: PathBuf| {
        let text = fs::read_to_string(&path).ok()?;
        Some((path.strip_prefix(root).unwrap_or(&path).to_path_buf(), text))
    };
    // What is no text, such as a font, holds no words.
    paths.into_iter().filter(|path| *path != own).filter_map(inside).collect()
}

/// The folders that are read with all that lies in them.
const FOLDERS: [&str; 6] = ["src", "assets", "scenarios", "tests", ".ci", ".cargo"];

fn entries(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    entries.flatten().map(|entry| entry.path()).collect()
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    for path in entries(folder) {
        // A crate of its own below the tests may have been built there.
        if !path.is_dir() {
            found.push(path);
        } else if !path.ends_with("target") {
            collect(&path, found);
        }
    }
}

/// A text in one line, without what begins a comment: a word that is broken over two lines is found, too.
fn in_one_line(text: &str) -> String {
    let bare = |line: &str| line.trim().trim_start_matches(['/', '!', '#', '*', '│']).to_owned();
    let lines: Vec<String> = text.lines().map(bare).collect();
    lines.iter().flat_map(|line| line.split_whitespace()).collect::<Vec<_>>().join(" ")
}

/// Whether a word stands in a text by itself: no letter, digit or underscore touches it.
fn stands(given_up: &GivenUp, text: &str) -> bool {
    let touches = |letter: Option<char>| letter.is_some_and(|c| c.is_alphanumeric() || c == '_');
    text.match_indices(given_up.word).any(|(at, word)| {
        let (before, after) = (&text[..at], &text[at + word.len()..]);
        let alone = !touches(before.chars().next_back()) && !touches(after.chars().next());
        alone && !given_up.but_after.iter().any(|other| before.ends_with(other))
    })
}

fn is_looked_for(kept: Kept, path: &Path) -> bool {
    let is_data = path.starts_with("assets") || path.starts_with("scenarios");
    match kept {
        Kept::Everywhere => true,
        Kept::OutOfTheProgram => path.starts_with("src") || path.components().count() == 1,
        Kept::OutOfTheData => is_data,
    }
}

#[test]
fn no_word_that_was_given_up_comes_back() {
    let mut wrong = Vec::new();
    let files = files();
    assert!(files.len() > 400, "only {} files are read", files.len());
    for (path, text) in &files {
        let (exact, low) = (in_one_line(text), in_one_line(&text.to_lowercase()));
        for given_up in GIVEN_UP.iter().filter(|given_up| is_looked_for(given_up.kept, path)) {
            if stands(given_up, if given_up.exactly { &exact } else { &low }) {
                wrong.push(format!("{}: \"{}\"; say: {}", path.display(), given_up.word, given_up.instead));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// The search itself: over line ends and through comments it finds, and what is another word it lets stand.
#[test]
fn the_search_finds_what_it_looks_for_and_nothing_else() {
    let of = |word: &str| {
        GIVEN_UP.iter().find(|given_up| given_up.word == word).unwrap_or_else(|| panic!("{word} is not given up"))
    };
    let found = |word: &str, text: &str| {
        let text = if of(word).exactly { text.to_owned() } else { text.to_lowercase() };
        stands(of(word), &in_one_line(&text))
    };
    assert!(found("vet now", "Need: Vet now."));
    assert!(found("vet now", "    /// She needs a vet\n    /// now."));
    assert!(!found("vet now", "Phone a vet now. Phone any vet now. The vet nowhere."));
    assert!(found("red list", "the red\nlist") && !found("red list", "an ordered list, red_list"));
    assert!(found("F1", "bird F1") && !found("F1", "press f1, F10"));
    assert!(found("START", "by START.") && !found("START", "DTSTART, start"));
}

/// Where people's own words are listed to be known again on a label; they are told to nobody.
const TYPED: [&str; 3] = ["names", "stems", "label_words"];

/// Every text of a protocol that is told, with the field it stands in.
fn told<'v>(value: &'v Value, field: &'v str, found: &mut Vec<(&'v str, &'v str)>) {
    match value {
        Value::String(text) => found.push((field, text)),
        Value::Array(items) => items.iter().for_each(|item| told(item, field, found)),
        Value::Object(fields) => {
            for (name, value) in fields.iter().filter(|(name, _)| !TYPED.contains(&name.as_str())) {
                told(value, name, found);
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// A maker's mark is typed by people and told by nobody here.
#[test]
fn no_brand_is_the_name_of_anything() {
    let whole = serde_json::to_value(&*PROTOCOL).unwrap_or_else(|error| panic!("{error}"));
    let mut texts = Vec::new();
    told(&whole, "", &mut texts);
    let fields: BTreeSet<&str> = texts.iter().map(|(field, _)| *field).collect();
    let read =
        ["ask", "look", "say", "how", "reason", "lines", "title", "after", "why", "instead", "cite", "what", "because"];
    assert!(texts.len() > 3000 && read.iter().all(|field| fields.contains(field)), "{}: {fields:?}", texts.len());
    for (field, text) in texts {
        let low = text.to_lowercase();
        assert!(!BRANDS.iter().any(|brand| low.contains(brand)), "{field}: {text}");
    }
    // Whoever types one is still answered: the word is matched, in the one spelling.
    let mut typed = PROTOCOL.substances.iter().flat_map(|item| &item.names).flatten();
    assert!(typed.any(|word| word.starts_with("vaselin")));
}

fn no_country() -> &'static Country {
    PROTOCOL.no_country()
}

/// Whose scale the waking score follows is said wherever the score is told. Source: Foss et al. 2023, JAVMA 261(11), doi
/// 10.2460/javma.23.05.0225, a coma scale for raptors: its headings, grades and cut, in our words.
#[test]
fn a_score_says_whose_scale_it_follows_wherever_it_stands() {
    let credit = "after a published scale for birds of prey, reworded";
    let script = shipped::scenarios()
        .iter()
        .find(|file| file.name.contains("waking_score_twelve"))
        .unwrap_or_else(|| panic!("no bird with a waking score"));
    let now = chrono::DateTime::UNIX_EPOCH;
    let (_, findings) =
        practice::read(&PROTOCOL, &script.name, &script.text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
    let verdict = prove::judge(&PROTOCOL, &findings, now);
    let plan = plan(&PROTOCOL, &verdict, &Cupboard::default(), coopside::zone::Zone::UTC);
    let reader = Reader::english(Zone::UTC, no_country());
    let told = in_one_line(&text::whole(&PROTOCOL, &findings, &verdict, &plan, reader)).to_lowercase();
    let score = told.find("waking score: ").unwrap_or_else(|| panic!("no score is told\n{told}"));
    let beside: String = told.chars().skip(score).take(220).collect();
    assert!(beside.contains(credit), "{beside}");
    let data = json::verdict(&PROTOCOL, &findings, &verdict, &plan, Reader::english(Zone::UTC, no_country()));
    let said = data.pointer("/scores/0/say").and_then(serde_json::Value::as_str).unwrap_or_default().to_lowercase();
    assert!(said.contains(credit), "{said}");
}

/// A list of names must not be read as their approval.
#[test]
fn nobody_named_has_endorsed_this_and_it_is_said_once() {
    let facts = shipped::facts().unwrap_or_else(|faults| panic!("\n{faults}"));
    let reader = Reader::english(Zone::UTC, no_country());
    let told = reader.sections(basis::whole(&PROTOCOL, no_country(), &facts, None));
    let told = in_one_line(&coopside::render::text::sections(&told)).to_lowercase();
    assert_eq!(told.matches("endorsed").count(), 1);
    assert!(told.contains("nobody named there has endorsed or reviewed this."));
    let readme = files().into_iter().find(|(path, _)| path.ends_with("README.md"));
    let readme = readme.map_or_else(String::new, |(_, text)| in_one_line(&text));
    assert!(readme.contains("nobody named there has endorsed or reviewed this."));
}
