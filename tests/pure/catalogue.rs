//! The catalogue: every phrase is used, says something, and can be said in another language; a translation is whole or is refused.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, pseudo};
use coopside::phrase::{Text, terms};
use coopside::protocol::{File, Protocol};
use coopside::shipped;
use coopside::words::translation::{self, WordsFault};
use coopside::words::{Words, say};
use coopside::zone::Zone;
use fluent_syntax::ast::Entry;
use fluent_syntax::parser;
use std::collections::BTreeMap;
use std::path::Path;

/// Every phrase of the catalogue with its file.
fn phrases() -> Vec<(String, String)> {
    let of = |file: File| {
        let resource = parser::parse(file.text).unwrap_or_else(|(_, errors)| panic!("{}: {errors:?}", file.name));
        let names = resource.body.into_iter().filter_map(|entry| match entry {
            Entry::Message(message) => Some(message.id.name),
            _ => None,
        });
        names.map(|name| (file.name.clone(), name)).collect::<Vec<_>>()
    };
    shipped::words().into_iter().flat_map(of).collect()
}

fn sources(folder: &Path, found: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap_or_else(|error| panic!("{error}")).flatten() {
        let path = entry.path();
        if path.is_dir() {
            sources(&path, found);
        } else {
            *found += &std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{error}"));
        }
    }
}

/// A phrase that nobody says would be translated for nothing.
#[test]
fn every_phrase_is_said_somewhere() {
    let mut code = String::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut code);
    let all = phrases();
    assert!(all.len() > 100, "{}", all.len());
    let idle = all.iter().filter(|(file, name)| {
        let function = name.strip_prefix(&format!("{file}-")).unwrap_or(name).replace('-', "_");
        ![
            format!("::{function}("),
            format!("::{function})"),
            format!("::{function},"),
            format!("::{function} "),
            format!("::{function};"),
        ]
        .iter()
        .any(|used| code.contains(used.as_str()))
    });
    let idle: Vec<&String> = idle.map(|(_, name)| name).collect();
    assert!(idle.is_empty(), "{} phrases are said nowhere: {idle:#?}", idle.len());
}

/// The names a translation knows the texts of a protocol by are each one's own, and no text is left out that is told.
#[test]
fn every_text_of_the_protocol_has_a_name_of_its_own() {
    let mut named: BTreeMap<String, String> = BTreeMap::new();
    let mut protocol = PROTOCOL.clone();
    protocol.each_text(&mut |name, text| {
        assert!(name.chars().all(|letter| letter.is_ascii_alphanumeric() || "-_".contains(letter)), "{name}");
        let before = named.insert(name.to_owned(), text.clone());
        assert!(before.is_none(), "{name} names two texts");
        text.clear();
    });
    assert!(named.len() > 1_500, "{}", named.len());
    let left = serde_json::to_value(&protocol).unwrap_or_else(|error| panic!("{error}"));
    let mut found = Vec::new();
    left_over("", &left, &mut found);
    assert!(found.is_empty(), "{} texts are told and have no name: {found:#?}", found.len());
}

/// What is no text: addresses and names of works, laws as they are cited, drawings, words a label is held against.
const NO_TEXTS: &[&str] =
    &["cite", "at", "law", "dated", "lines", "names", "starts", "ends", "holds", "but", "label_words"];

/// Every sentence left in a protocol whose texts were taken away, with the field it stands in.
fn left_over(field: &str, value: &serde_json::Value, found: &mut Vec<String>) {
    match value {
        serde_json::Value::String(text) if text.contains(' ') && !NO_TEXTS.contains(&field) => {
            found.push(format!("{field}: {text}"));
        }
        serde_json::Value::Array(of) => of.iter().for_each(|value| left_over(field, value, found)),
        serde_json::Value::Object(of) => of.iter().for_each(|(field, value)| left_over(field, value, found)),
        _ => {}
    }
}

fn load(files: &[File]) -> Result<(Words, Protocol), Vec<WordsFault>> {
    let mut protocol = PROTOCOL.clone();
    translation::load("de", files, &mut protocol).map(|words| (words, protocol))
}

#[test]
fn a_whole_translation_loads_and_replaces_every_text() {
    let (words, translated) = load(&pseudo::files(&PROTOCOL)).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let told = say(&words, Zone::UTC, &Text::from(terms::need_now()));
    assert_eq!(told, pseudo::said("vet at once"));
    let own = PROTOCOL.questions.iter().zip(translated.questions.iter());
    for (own, other) in own {
        assert_eq!(pseudo::said(&own.ask), other.ask);
        assert_eq!(own.id, other.id);
    }
}

/// A translation is taken whole or not at all, and says everything that is wrong with it at once.
#[test]
fn a_translation_that_lacks_or_bends_a_phrase_is_refused_and_names_it() {
    let bent = |change: &dyn Fn(&File) -> String| -> Vec<String> {
        let files = pseudo::files(&PROTOCOL)
            .iter()
            .map(|file| File { name: file.name.clone(), text: change(file) })
            .collect::<Vec<_>>();
        load(&files).err().unwrap_or_default().iter().map(ToString::to_string).collect()
    };
    let line = |file: &File, starts: &str, to: &str| {
        file.text.lines().map(|line| if line.starts_with(starts) { to } else { line }).collect::<Vec<_>>().join("\n")
    };
    let faults = bent(&|file| line(file, "terms-need-now =", ""));
    assert!(faults.iter().any(|fault| fault.starts_with("terms.ftl, terms-need-now: it is missing")), "{faults:#?}");
    let faults = bent(&|file| line(file, "terms-need-now =", "terms-need-nowe = x"));
    assert!(faults.iter().any(|fault| fault.contains("did you mean `terms-need-now`?")), "{faults:#?}");
    let faults = bent(&|file| line(file, "terms-ended =", "terms-ended = { $texd }."));
    assert!(faults.iter().any(|fault| fault.contains("it takes $texd; $text was expected")), "{faults:#?}");
    let faults = bent(&|file| line(file, "protocol-fingerprint =", "protocol-fingerprint = abc"));
    assert!(faults.iter().any(|fault| fault.contains("made for another protocol")), "{faults:#?}");
    let faults = bent(&|file| line(file, "question-eyelid-ask =", ""));
    assert!(
        faults.iter().any(|fault| fault.starts_with("protocol.ftl, question-eyelid-ask: it is missing")),
        "{faults:#?}"
    );
    let faults = bent(&|file| line(file, "terms-need-now =", "terms-need-now = { $"));
    assert!(faults.iter().any(|fault| fault.contains("terms.ftl: line ")), "{faults:#?}");
}

/// No translation can say that a vet has reviewed anything: the program's own caution stands beside whatever it says.
#[test]
fn no_translation_takes_the_caution_away() {
    let files = pseudo::files(&PROTOCOL).into_iter().map(|file| {
        let bent = |line: &str| {
            if line.starts_with("document-caution =") {
                "document-caution = Reviewed by a vet. { $law }".to_owned()
            } else {
                line.to_owned()
            }
        };
        File { text: file.text.lines().map(bent).collect::<Vec<_>>().join("\n"), name: file.name }
    });
    let (words, protocol) = load(&files.collect::<Vec<_>>()).unwrap_or_else(|faults| panic!("{faults:#?}"));
    let told = say(&words, Zone::UTC, &coopside::content::document::caution_text(protocol.no_country()));
    assert!(told.contains("no vet has reviewed it") && told.contains("Nobody has reviewed this translation"), "{told}");
}
