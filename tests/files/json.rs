//! Every command with `--json`, read as another program reads it: what each document bears, that a moment has one form and a rung its
//! name, and that with a translation nothing is left in English.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{CAUTION, PROTOCOL, pseudo};
use assert_cmd::Command;
use coopside::practice::FLOCK;
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::words::translation::begun;
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A bird of whom every figure is told.
const MEASURED: &str = "(answers: {\"kind\": \"hen\", \"reach\": \"hours\", \"weight\": \"2 kg\", \"bleeding_hard\": \"yes\", \"bleeding_now\": \"stopped\", \"blood_lost\": \"tablespoon\", \"breath_count\": \"20 in 30 s\", \"happened\": \"mammal\", \"when\": \"h3\", \"dryness\": \"plain\", \"cold_wet\": \"yes\"}, wounds: [{\"place\": \"under_wing\", \"what\": \"hole\", \"cause\": \"mammal\", \"size\": \"30 x 20 mm\"}, {\"place\": \"comb\", \"what\": \"cut\"}], looked_over: true)";
/// One who bleeds yet, and of whom little is known.
const BLEEDING: &str =
    "(answers: {\"bleeding_hard\": \"yes\", \"blood_lost\": \"tablespoon\", \"kind\": \"duck\", \"reach\": \"none\"})";
const GOES: &str =
    "(goes: [(novice: \"Ann\", bird: \"bleeding_hard\", need: Now), (novice: \"\", bird: \"fitting\", need: Home)])";

/// What comes with every command.
struct Desk {
    place: TempDir,
    words: Vec<String>,
}

/// A document that a command printed, by the command.
type Told = (String, Value);

impl Desk {
    fn new(words: &[String]) -> Self {
        let place = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
        let desk = Self { place, words: words.to_vec() };
        for (name, text) in [("measured.ron", MEASURED), ("bleeding.ron", BLEEDING), ("goes.ron", GOES)] {
            fs::write(desk.file(name), text).unwrap_or_else(|error| panic!("{error}"));
        }
        // Without a terminal the flock is loaded, and the screen refuses to open.
        let mut command = Self::command(Path::new("."));
        command.env("COOPSIDE_DATA", desk.place.path()).args(["practise", "--flock"]).assert().code(2);
        desk
    }

    fn file(&self, name: &str) -> PathBuf {
        self.place.path().join(name)
    }

    fn command(data: &Path) -> Command {
        let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
        command.env("TZ", "UTC").env("COOPSIDE_DATA", data).env_remove("COOPSIDE_COUNTRY");
        command
    }

    /// What a command prints, in a folder of cases of its own or in the flock's.
    fn told(&self, arguments: &[&str]) -> Told {
        let mut command = Self::command(&self.file("practice"));
        let output = command.args(&self.words).args(arguments).output().unwrap_or_else(|error| panic!("{error}"));
        let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
        let value = serde_json::from_str(&out).unwrap_or_else(|error| panic!("{arguments:?}: {error}\n{out}\n{err}"));
        (arguments.join(" "), value)
    }

    /// What a command prints as text.
    fn read(&self, arguments: &[&str]) -> (String, String) {
        let mut command = Self::command(&self.file("practice"));
        let output = command.args(&self.words).args(arguments).output().unwrap_or_else(|error| panic!("{error}"));
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        (arguments.join(" "), String::from_utf8_lossy(&output.stdout).into_owned())
    }

    /// Every command that tells a person something, as text and for a voice.
    fn all_read(&self) -> Vec<(String, String)> {
        let path = |name: &str| self.file(name).display().to_string();
        let (measured, bleeding) = (path("measured.ron"), path("bleeding.ron"));
        let mut told = Vec::new();
        for bird in [&measured, &bleeding] {
            for arguments in [
                &["judge", bird][..],
                &["judge", bird, "--aloud"],
                &["plan", bird, "--with", "gauze; povidone_iodine 10 %"],
                &["plan", bird, "--course"],
                &["plan", bird, "--course", "--aloud"],
                &["handover", bird],
                &["handover", bird, "--form", "md"],
                &["label", "povidone-iodine 10 %, water", "--bird", bird],
            ] {
                told.push(self.read(arguments));
            }
        }
        for name in ["Saffron", "Clover"] {
            told.push(self.read(&["case", name]));
            told.push(self.read(&["handover", name]));
        }
        for sum in coopside::reckon::SUMS {
            let values: Vec<String> = sum.example.iter().map(|(name, value)| format!("{name}={value}")).collect();
            let values: Vec<&str> = values.iter().map(String::as_str).collect();
            told.push(self.read(&[&["reckon", sum.name()], &values[..]].concat()));
        }
        // What was found out is told as it was written down (`sources`).
        let others: [&[&str]; 6] = [&["cases"], &["due"], &["kit"], &["keys"], &["contacts"], &["practise", "--list"]];
        told.extend(others.map(|arguments| self.read(arguments)));
        told
    }

    /// Every command that prints JSON; `prove` stands apart.
    fn all(&self) -> Vec<Told> {
        let path = |name: &str| self.file(name).display().to_string();
        let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/handover");
        let mut birds = vec![path("measured.ron"), path("bleeding.ron")];
        let names = ["bitten", "catching", "empty", "hostile", "straining"];
        birds.extend(names.map(|name| shipped.join(format!("{name}.ron")).display().to_string()));
        let mut told = Vec::new();
        for bird in &birds {
            told.push(self.told(&["judge", bird, "--json"]));
            told.push(self.told(&["plan", bird, "--json", "--with", "gauze; povidone_iodine 10 %; scissors"]));
            told.push(self.told(&["plan", bird, "--json", "--with", ""]));
            told.push(self.told(&["handover", bird, "--form", "json"]));
            told.push(self.told(&["label", "povidone-iodine 10 %, water, calendula", "--bird", bird, "--json"]));
        }
        let cards = vec!["handover", "--cards", "--form", "json"];
        told.push(self.told(&[cards.clone(), birds.iter().map(String::as_str).collect()].concat()));
        for name in ["Saffron", "Borage", "Clover", "Tansy"] {
            told.push(self.told(&["case", name, "--json"]));
            told.push(self.told(&["handover", name, "--form", "json"]));
        }
        told.push(self.told(&[&cards[..], &["Saffron", "Clover"]].concat()));
        for label in ["fusidic acid 2 %, betamethasone 0.1 %", "chlorhexidine 4 %", "water"] {
            told.push(self.told(&["label", label, "--json", "--country", "au"]));
        }
        let given = ["--vet", "Grey", "--given", "2026-05-01", "--for", "Rue"];
        told.push(self.told(&[&["label", "enrofloxacin 10 %", "--json"], &given[..]].concat()));
        told.push(self.told(&["kit", "--json", "--with", "gauze until 2020-01; povidone_iodine 7.5 %; scissors"]));
        let goes = path("goes.ron");
        told.push(self.told(&["practise", "--score", &goes, "--keep", "--json"]));
        told.push(self.told(&["practise", "--pair", &path("measured.ron"), &path("bleeding.ron"), "--json"]));
        for sum in coopside::reckon::SUMS {
            let values: Vec<String> = sum.example.iter().map(|(name, value)| format!("{name}={value}")).collect();
            let values: Vec<&str> = values.iter().map(String::as_str).collect();
            told.push(self.told(&[&["reckon", sum.name(), "--json"], &values[..]].concat()));
        }
        let (sheet, calendar, birds) = (path("sheet.html"), path("looks.ics"), path("birds.jsonl"));
        let others: [&[&str]; 17] = [
            &["cases", "--closed"],
            &["due"],
            &["contacts", "--vet", "555 0111"],
            &["contacts"],
            &["practise", "--list"],
            &["practise", "--group"],
            &["reckon"],
            &["sources"],
            &["sources", "--hazards"],
            &["protocol"],
            &["check"],
            &["keys"],
            &["backup"],
            &["export", "-o", &birds],
            &["import", &birds],
            &["reminders", "-o", &calendar],
            &["handover", "Saffron", "-o", &sheet],
        ];
        told.extend(others.map(|arguments| self.told(&[arguments, &["--json"]].concat())));
        told
    }
}

/// Calls `each` with every text of a document: where it stands, by names of fields alone, and what it says.
fn walk<'v>(value: &'v Value, path: &mut Vec<&'v str>, each: &mut dyn FnMut(&[&'v str], &'v str)) {
    match value {
        Value::String(text) => each(path, text),
        Value::Array(of) => of.iter().for_each(|value| walk(value, path, each)),
        Value::Object(of) => {
            for (field, value) in of {
                path.push(field);
                walk(value, path, each);
                path.pop();
            }
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

fn schema(value: &Value) -> &str {
    value.get("schema").and_then(Value::as_str).unwrap_or_default()
}

/// Whether a text begins as a moment does, and whether it is one in the form of ours: RFC 3339, in UTC, to the second.
fn moment(text: &str) -> Option<bool> {
    let form: String = text.chars().map(|letter| if letter.is_ascii_digit() { '0' } else { letter }).collect();
    form.starts_with("0000-00-00T").then(|| form == "0000-00-00T00:00:00Z")
}

/// Documents that tell of no bird.
const OF_NO_BIRD: [&str; 3] = ["coopside.done/1", "coopside.keys/1", "coopside.sums/1"];

#[test]
fn every_document_is_named_and_bears_the_caution() {
    let mut schemas = BTreeSet::new();
    let desk = Desk::new(&[]);
    for (what, value) in desk.all().into_iter().chain([desk.told(&["prove", "--json"])]) {
        let schema = schema(&value);
        let version = schema.strip_prefix("coopside.").and_then(|rest| rest.split_once('/'));
        assert!(version.is_some_and(|(_, version)| version.parse::<u8>().is_ok()), "{what}: {schema}");
        schemas.insert(schema.to_owned());
        if !OF_NO_BIRD.contains(&schema) {
            let caution = value.get("caution").and_then(Value::as_str).unwrap_or_default();
            assert!(caution.starts_with(CAUTION), "{what}: {caution}");
            assert_eq!(value.get("reviewed_by_a_veterinarian"), Some(&Value::Bool(false)), "{what}");
        }
        walk(&value, &mut Vec::new(), &mut |path, text| {
            assert!(moment(text) != Some(false), "{what}, {path:?}: {text}");
            // The lines of a drawing may be blank; what a protocol leaves open is told as its files have it.
            let may_be_empty = schema == "coopside.protocol/1" || path.ends_with(&["drawing", "lines"]);
            assert!(may_be_empty || !text.is_empty(), "{what}, {path:?}: an empty text");
        });
    }
    let known = [
        "cards/2",
        "cases/2",
        "document/1",
        "done/1",
        "group/2",
        "handover/2",
        "keys/1",
        "kit/1",
        "label/1",
        "lessons/1",
        "plan/2",
        "proof/1",
        "protocol/1",
        "reckon/2",
        "sums/1",
        "verdict/2",
    ];
    let known: BTreeSet<String> = known.iter().map(|name| format!("coopside.{name}")).collect();
    assert_eq!(schemas, known);
}

/// Fields that hold the name of a value, never words.
const NAMES: [&str; 28] = [
    "against",
    "at_least",
    "at_most",
    "authority",
    "authority_call",
    "counts",
    "decides",
    "given",
    "grade",
    "harm_if_done",
    "harm_if_left_out",
    "humane",
    "humane_end",
    "known_by",
    "level",
    "line",
    "need",
    "part",
    "phone",
    "printed_strength",
    "reference",
    "ruling",
    "rungs",
    "scale",
    "standing",
    "state",
    "then",
    "worst",
];

#[test]
fn a_rung_stands_by_its_name_and_never_in_words() {
    let displayed: BTreeSet<&str> = Need::ALL
        .iter()
        .flat_map(|need| [need.words(), need.gravity()])
        .chain(Humane::ALL.map(Humane::words))
        .chain(Authority::ALL.map(Authority::words))
        .filter(|words| words.contains(' '))
        .collect();
    let mut named: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (what, value) in Desk::new(&[]).all() {
        let of_us = !schema(&value).starts_with("coopside.document/");
        walk(&value, &mut Vec::new(), &mut |path, text| {
            let field = path.last().copied().unwrap_or_default();
            let is_name =
                text.chars().all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_');
            if NAMES.contains(&field) && of_us {
                assert!(is_name, "{what}, {path:?}: {text}");
                named.entry(field.to_owned()).or_default().insert(text.to_owned());
            }
            // Where it is read, it stands beside its name.
            assert!(!displayed.contains(text) || ["say", "told"].contains(&field), "{what}, {path:?}: {text}");
        });
    }
    for (field, rung) in [("then", "within_hours"), ("at_least", "now"), ("at_most", "may_come_into_question")] {
        assert!(named.get(field).is_some_and(|names| names.contains(rung)), "{field}: {named:?}");
    }
}

/// Which fields objects have, by where they stand; not those that have one field, whose name is part of what it says.
fn fields_of(value: &Value, path: &str, of_one: &[&str], found: &mut BTreeMap<String, BTreeSet<Vec<String>>>) {
    match value {
        Value::Object(of) if !of_one.iter().any(|last| path.ends_with(last)) => {
            found.entry(path.to_owned()).or_default().insert(of.keys().cloned().collect());
            of.iter().for_each(|(field, value)| fields_of(value, &format!("{path}/{field}"), of_one, found));
        }
        Value::Array(of) => of.iter().for_each(|value| fields_of(value, path, of_one, found)),
        Value::Object(_) | Value::String(_) | Value::Null | Value::Bool(_) | Value::Number(_) => {}
    }
}

/// What one bird's document tells, another's does too: null, where there is nothing to tell.
#[test]
fn no_field_is_left_out_where_another_bird_has_it() {
    let mut fields: BTreeMap<String, BTreeSet<Vec<String>>> = BTreeMap::new();
    // Each has one field: its name is part of what it says.
    let of_one = ["answer", "limits", "law_limits"];
    for (_, value) in Desk::new(&[]).all() {
        let free = ["coopside.document/1", "coopside.done/1", "coopside.protocol/1"];
        if !free.contains(&schema(&value)) {
            let of_one = if schema(&value).starts_with("coopside.reckon/") { &of_one[1..] } else { &of_one[..] };
            fields_of(&value, schema(&value), of_one, &mut fields);
        }
    }
    let uneven: Vec<_> = fields.iter().filter(|(_, sets)| sets.len() > 1).collect();
    assert!(fields.len() > 100 && uneven.is_empty(), "{uneven:#?}");
}

/// What is cited or written down as it is, whatever the language: works, laws, what somebody types; and the steps of the arithmetic,
/// for who writes a program.
const AS_IT_IS: [&str; 7] = ["caution", "cite", "law", "dated", "at", "example", "measuring"];

/// Whether a text is names of the protocol, one after the other, or a part of it is.
fn is_a_row_of_names(text: &str, part: &str) -> bool {
    if part.split(' ').all(|word| word.ends_with(',')) {
        return true;
    }
    text.split(", ")
        .all(|name| name.chars().all(|letter| letter.is_ascii_lowercase() || letter.is_ascii_digit() || letter == '_'))
}

/// So many words of English side by side are one of its sentences, or a part of one.
const SENTENCE: usize = 2;

/// The words of English that stand side by side in a text, as far as they go.
fn english(text: &str) -> Vec<String> {
    let word = |word: &str| {
        word.len() > 1 && word.trim_end_matches([',', ';', ':', '.']).chars().all(|letter| letter.is_ascii_alphabetic())
    };
    let (mut runs, mut run): (Vec<Vec<&str>>, Vec<&str>) = (Vec::new(), Vec::new());
    for part in text.split_whitespace().chain([""]) {
        if word(part) {
            run.push(part);
        } else if !run.is_empty() {
            runs.push(std::mem::take(&mut run));
        }
    }
    runs.into_iter().filter(|run| run.len() >= SENTENCE).map(|run| run.join(" ")).collect()
}

#[test]
fn with_a_translation_nothing_is_left_in_english() {
    let place = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
    let folder = place.path().join("de");
    fs::create_dir(&folder).unwrap_or_else(|error| panic!("{error}"));
    for file in pseudo::files(&PROTOCOL) {
        let path = folder.join(format!("{}.ftl", file.name));
        fs::write(path, file.text).unwrap_or_else(|error| panic!("{error}"));
    }
    let desk = Desk::new(&["--words".to_owned(), folder.display().to_string()]);
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/handover");
    let birds = fs::read_dir(shipped).unwrap_or_else(|error| panic!("{error}")).flatten();
    let typed: Vec<String> = birds.filter_map(|file| fs::read_to_string(file.path()).ok()).collect();
    // What was found out, and what was made of it, is told as it was written down.
    let facts = include_str!("../../assets/evidence.ron");
    let typed = format!("{}\n{}\n{facts}", FLOCK.1, typed.join("\n")).split_whitespace().collect::<Vec<_>>().join(" ");
    // All there is to translate, as it stands in English.
    let catalogue: Vec<String> = begun(&PROTOCOL).into_iter().map(|file| file.text).collect();
    let catalogue = catalogue.join("\n").split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(catalogue.len() > 200_000 && catalogue.contains("Phone a vet now."), "{}", catalogue.len());
    let (mut left, mut accents) = (Map::new(), 0_usize);
    // What is told to the author of a protocol is English on purpose.
    for (what, value) in desk.all().into_iter().filter(|(what, _)| !what.starts_with("check ")) {
        walk(&value, &mut Vec::new(), &mut |path, text| {
            accents += text.chars().filter(|letter| !letter.is_ascii()).count();
            // A work is cited as it is wherever it stands.
            let cited = PROTOCOL.sources.iter().any(|source| source.cite == text);
            if cited || path.iter().any(|field| AS_IT_IS.contains(field)) {
                return;
            }
            let own = text.replace(CAUTION, "").replace("(Nobody has reviewed this translation.)", "");
            let of_it = |run: &String| catalogue.contains(run) && !typed.contains(run) && !is_a_row_of_names(text, run);
            for run in english(&own).into_iter().filter(of_it) {
                left.insert(format!("{what}, {}: {run}", path.join("/")), Value::from(text));
            }
        });
    }
    // What is read as text is in the same words; works and laws are cited as they are.
    let cited: Vec<String> =
        PROTOCOL.sources.iter().flat_map(|source| [source.cite.clone(), source.at.clone()]).collect();
    let laws = PROTOCOL.countries.iter().flat_map(|country| &country.laws);
    let cited: Vec<String> =
        cited.into_iter().chain(laws.flat_map(|law| [law.law.clone(), law.dated.clone()])).collect();
    for (what, told) in desk.all_read() {
        let whole = told.split_whitespace().collect::<Vec<_>>().join(" ");
        let whole = whole.replace(CAUTION, "").replace("(Nobody has reviewed this translation.)", "");
        let own =
            cited.iter().filter(|cited| !cited.is_empty()).fold(whole, |own, cited| own.replace(cited.as_str(), "|"));
        let of_it = |run: &String| catalogue.contains(run) && !typed.contains(run);
        for run in english(&own).into_iter().filter(of_it) {
            left.insert(format!("{what}: {run}"), Value::from(run));
        }
    }
    assert!(accents > 100_000, "{accents}");
    assert!(left.is_empty(), "{left:#?}");
}
