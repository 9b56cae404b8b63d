//! A translation: every phrase of the catalogue and every text of a protocol in another language, or it does not load.
//!
//! It is a folder named by its language (`de`, `pt-BR`): a file of the same name beside each file of the catalogue, and
//! `protocol.ftl` with the texts of the protocol by their names ([`crate::protocol::wording`]). Nobody reviews it: that is told, and
//! the program's own caution stands in English beside its own.

use super::{Words, WordsText, pattern};
use crate::practice::{self, Script};
use crate::protocol::fault::nearest;
use crate::protocol::{File, Protocol};
use crate::shipped;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser;
use fluent_syntax::unicode::unescape_unicode_to_string;
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use unic_langid::LanguageIdentifier;

/// The file that holds the texts of the protocol.
const PROTOCOL: &str = "protocol";
/// The files that hold what can go wrong, and what scripted birds say and show.
const HAZARDS: &str = "shipped-hazards";
const BIRDS: &str = "shipped-birds";
/// The phrase in it that says which protocol it was made for.
const MADE_FOR: &str = "protocol-fingerprint";

/// A fault of a translation: what, where, what was expected.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WordsFault {
    /// The file, without its ending.
    pub file: String,
    /// The phrase, where it is one.
    pub phrase: String,
    /// What is wrong, and what was expected.
    pub what: String,
}

impl fmt::Display for WordsFault {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        match (self.file.as_str(), self.phrase.as_str()) {
            ("", _) => write!(out, "{}", self.what),
            (_, "") => write!(out, "{}.ftl: {}", self.file, self.what),
            (file, phrase) => write!(out, "{file}.ftl, {phrase}: {}", self.what),
        }
    }
}

/// A phrase as a file has it: what it takes, and its text where it takes nothing.
struct Said {
    file: String,
    takes: BTreeSet<String>,
    text: Option<String>,
    /// All of it, as the file has it.
    whole: String,
}

/// Lays a translation over the shipped catalogue and a protocol.
///
/// # Errors
/// Every fault at once: a file that cannot be read, a phrase that is missing, unknown or takes something else, another protocol.
pub fn load(language: &str, files: &[File], protocol: &mut Protocol) -> Result<Words, Vec<WordsFault>> {
    let fault =
        |file: &str, phrase: &str, what: String| WordsFault { file: file.to_owned(), phrase: phrase.to_owned(), what };
    let Ok(identifier) = language.parse::<LanguageIdentifier>() else {
        let what = format!("`{language}` names no language; a folder was expected that is named like `de` or `pt-BR`");
        return Err(vec![fault("", "", what)]);
    };
    let mut faults = Vec::new();
    let (of_protocol, others): (Vec<&File>, Vec<&File>) = files.iter().partition(|file| file.name == PROTOCOL);
    let is_beside = |file: &&File| [HAZARDS, BIRDS].contains(&file.name.as_str());
    let (of_beside, of_words): (Vec<&File>, Vec<&File>) = others.into_iter().partition(is_beside);
    let said = phrases(of_words.iter().copied(), &mut faults);
    let shipped = shipped::words();
    compare(&phrases(shipped.iter(), &mut Vec::new()), &said, &mut faults);
    let texts = phrases(of_protocol.into_iter(), &mut faults);
    let beside = stand_in(protocol, &of_beside, &mut faults);
    lay_over(protocol, texts, &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let mark = mark(&identifier, files);
    let files = of_words.into_iter().map(|file| (file.name.clone(), WordsText::Plain(file.text.clone())));
    Ok(Words { translated: true, beside, mark, ..Words::of(identifier, files) })
}

/// What tells a translation from every other: its language, and letters of a hash over its files.
fn mark(language: &LanguageIdentifier, files: &[File]) -> String {
    let mut hash = blake3::Hasher::new();
    for File { name, text } in files {
        hash.update(name.as_bytes()).update(&[0]).update(text.as_bytes()).update(&[0]);
    }
    let whole = hash.finalize().to_hex();
    format!("{language}-{}", whole.get(..16).unwrap_or(&whole))
}

/// Every phrase of some files by its name.
fn phrases<'f>(files: impl Iterator<Item = &'f File>, faults: &mut Vec<WordsFault>) -> BTreeMap<String, Said> {
    let mut found: BTreeMap<String, Said> = BTreeMap::new();
    for File { name, text } in files {
        let resource = parser::parse(text.as_str()).unwrap_or_else(|(resource, errors)| {
            faults.extend(errors.iter().map(|error| WordsFault {
                file: name.clone(),
                phrase: String::new(),
                what: pattern::fault(text, error),
            }));
            resource
        });
        for entry in resource.body {
            let Entry::Message(message) = entry else { continue };
            let Some(value) = message.value else { continue };
            let takes = pattern::takes(&value).into_iter().map(str::to_owned).collect();
            let text = plain(&value);
            let said = Said { file: name.clone(), takes, text, whole: format!("{value:?}") };
            if let Some(before) = found.insert(message.id.name.to_owned(), said) {
                let what = format!("it stands in {}.ftl as well; once was expected", before.file);
                faults.push(WordsFault { file: name.clone(), phrase: message.id.name.to_owned(), what });
            }
        }
    }
    found
}

/// Holds the phrases of a translation against those of the catalogue.
fn compare(shipped: &BTreeMap<String, Said>, said: &BTreeMap<String, Said>, faults: &mut Vec<WordsFault>) {
    for (phrase, own) in shipped {
        let what = match said.get(phrase) {
            None => "it is missing; every phrase was expected".to_owned(),
            Some(theirs) if theirs.takes != own.takes => {
                let names = |takes: &BTreeSet<String>| match takes.len() {
                    0 => "nothing".to_owned(),
                    _ => takes.iter().map(|name| format!("${name}")).collect::<Vec<_>>().join(", "),
                };
                format!("it takes {}; {} was expected", names(&theirs.takes), names(&own.takes))
            }
            Some(_) => continue,
        };
        faults.push(WordsFault { file: own.file.clone(), phrase: phrase.clone(), what });
    }
    for (phrase, theirs) in said.iter().filter(|(phrase, _)| !shipped.contains_key(*phrase)) {
        let near = nearest(phrase, shipped.keys().map(String::as_str));
        let near = near.map_or_else(String::new, |near| format!("; did you mean `{near}`?"));
        let what = format!("the catalogue has no such phrase{near}");
        faults.push(WordsFault { file: theirs.file.clone(), phrase: phrase.clone(), what });
    }
}

/// What stands in for the texts that ship beside the protocol: what can go wrong, and scripted birds. They are known by their words.
fn stand_in(protocol: &Protocol, files: &[&File], faults: &mut Vec<WordsFault>) -> BTreeMap<String, String> {
    let mut said = phrases(files.iter().copied(), faults);
    let mut beside = BTreeMap::new();
    for Shipped { file, name, text } in shipped_texts(protocol) {
        if let Some(told) = said.remove(&name).and_then(|said| said.text) {
            beside.insert(text, told);
        } else {
            let what = format!("it is missing, or takes something; `{text}` ships with the program");
            faults.push(WordsFault { file: file.to_owned(), phrase: name, what });
        }
    }
    faults.extend(said.into_iter().map(|(phrase, said)| WordsFault {
        file: said.file,
        phrase,
        what: "the program ships no such text".to_owned(),
    }));
    beside
}

/// A text that ships beside the protocol, with the name a translation knows it by.
struct Shipped {
    file: &'static str,
    name: String,
    text: String,
}

/// All of them: the hazards, then the scripted birds.
fn shipped_texts(protocol: &Protocol) -> Vec<Shipped> {
    let mut texts = Vec::new();
    for hazard in shipped::hazards() {
        let of = |field: &str, text: &String| Shipped {
            file: HAZARDS,
            name: format!("hazard-{}-{field}", hazard.id),
            text: text.clone(),
        };
        texts.extend([of("is", &hazard.hazard), of("doing", &hazard.doing), of("not-doing", &hazard.not_doing)]);
    }
    for (bird, text) in practice::shipped() {
        // One of whom this protocol does not know all names is no bird of it.
        let Ok(script) = Script::read(protocol, bird, bird, text) else { continue };
        let mut each = |field: &str, text: &String| {
            if !text.is_empty() {
                let name = format!("bird-{bird}-{field}");
                texts.push(Shipped { file: BIRDS, name, text: text.clone() });
            }
        };
        each("story", &script.scenario.story);
        if let Some(lesson) = script.lesson() {
            lesson.each_text(&mut each);
        }
    }
    texts
}

/// Puts the texts of a translation in the place of a protocol's own.
fn lay_over(protocol: &mut Protocol, mut texts: BTreeMap<String, Said>, faults: &mut Vec<WordsFault>) {
    let fault = |phrase: &str, what: String| WordsFault { file: PROTOCOL.to_owned(), phrase: phrase.to_owned(), what };
    let made_for = texts.remove(MADE_FOR).and_then(|said| said.text);
    if made_for.as_deref() != Some(protocol.fingerprint.as_str()) {
        let what = format!(
            "it was made for another protocol; hold its texts against this one's, then write `{}` here",
            protocol.fingerprint
        );
        faults.push(fault(MADE_FOR, what));
    }
    protocol.each_text(&mut |name, text| match texts.remove(name).map(|said| said.text) {
        Some(Some(said)) => *text = said,
        Some(None) => faults.push(fault(name, "it takes something; a text by itself was expected".to_owned())),
        None => faults.push(fault(name, format!("it is missing; `{text}` stands in the protocol"))),
    });
    faults.extend(texts.keys().map(|name| fault(name, "the protocol has no such text".to_owned())));
}

/// The text of a phrase that takes nothing; blanks and braces may stand in quotation marks.
fn plain(pattern: &Pattern<&str>) -> Option<String> {
    let parts = pattern.elements.iter().map(|element| match element {
        PatternElement::TextElement { value } => Some(Cow::Borrowed(*value)),
        PatternElement::Placeable { expression: Expression::Inline(InlineExpression::StringLiteral { value }) } => {
            Some(unescape_unicode_to_string(value))
        }
        PatternElement::Placeable { .. } => None,
    });
    parts.collect()
}

/// How many of its texts say the same as the English ones, and how many there are in all.
pub fn untranslated(files: &[File], protocol: &Protocol) -> (usize, usize) {
    let said = phrases(files.iter(), &mut Vec::new());
    let english = begun(protocol);
    let english = phrases(english.iter(), &mut Vec::new());
    let same = english.iter().filter(|(phrase, own)| said.get(*phrase).is_some_and(|theirs| theirs.whole == own.whole));
    let same = same.filter(|(phrase, _)| *phrase != MADE_FOR).count();
    (same, english.len().saturating_sub(1))
}

/// The files a translation begins with: the catalogue as it ships, and the texts of a protocol by their names, all in English.
pub fn begun(protocol: &Protocol) -> Vec<File> {
    let mut files = shipped::words();
    let mut text = format!("{MADE_FOR} = {}\n", protocol.fingerprint);
    protocol.clone().each_text(&mut |name, told| text.extend([name, " = ", &value(told), "\n"]));
    files.push(File { name: PROTOCOL.to_owned(), text });
    for of in [HAZARDS, BIRDS] {
        let texts = shipped_texts(protocol).into_iter().filter(|shipped| shipped.file == of);
        let mut text = String::new();
        texts.for_each(|shipped| text.extend([&shipped.name, " = ", &value(&shipped.text), "\n"]));
        files.push(File { name: of.to_owned(), text });
    }
    files
}

/// A text as a value of a file: in quotation marks where a letter of it would mean something there.
fn value(text: &str) -> String {
    let begins = text.starts_with(|letter: char| letter.is_whitespace() || "[*.}".contains(letter));
    let ends = text.ends_with(char::is_whitespace);
    if !begins && !ends && !text.contains(['{', '}', '\n']) {
        return text.to_owned();
    }
    let quoted = text.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\u000A");
    format!("{{ \"{quoted}\" }}")
}
