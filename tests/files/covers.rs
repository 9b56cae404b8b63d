//! What is kept of a case for lists, and what a command refuses, in the words of whoever asks.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::{PROTOCOL, pseudo};
use assert_cmd::Command;
use coopside::ledger::{Covered, Filter, Ledger};
use std::fs;
use std::path::Path;
use tempfile::TempDir;

/// A folder for cases, and in it a translation into a language whose every letter bears an accent.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"));
    let words = folder.path().join("de");
    fs::create_dir(&words).unwrap_or_else(|error| panic!("{error}"));
    for file in pseudo::files(&PROTOCOL) {
        let path = words.join(format!("{}.ftl", file.name));
        fs::write(path, file.text).unwrap_or_else(|error| panic!("{error}"));
    }
    folder
}

/// Runs a command in English, or in that language.
fn coopside(folder: &Path, translated: bool, arguments: &[&str]) -> (i32, String, String) {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    command.args(arguments).env("TZ", "UTC").env("COOPSIDE_DATA", folder.join("practice"));
    if translated {
        command.env("COOPSIDE_WORDS", folder.join("de"));
    }
    let output = command.output().unwrap_or_else(|error| panic!("{error}"));
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

/// Every cover as it is kept, after all cases were listed.
fn listed(folder: &Path, translated: bool) -> Vec<Covered> {
    let (code, _, err) = coopside(folder, translated, &["cases", "--closed", "--archived"]);
    assert_eq!(code, 0, "{err}");
    let ledger = Ledger::read(&folder.join("practice")).unwrap_or_else(|error| panic!("{error}"));
    let all = Filter { closed: true, archived: true, ..Filter::default() };
    let mut covers = ledger.cases(&all, 0, 100).unwrap_or_else(|error| panic!("{error}"));
    covers.sort_by(|one, other| one.id.as_str().cmp(other.id.as_str()));
    covers
}

/// The words of English a text holds, of four letters or more.
fn english(told: &str) -> Vec<&str> {
    told.split(|letter: char| !letter.is_alphabetic()).filter(|word| word.len() > 3 && word.is_ascii()).collect()
}

#[test]
fn covers_are_said_in_the_words_of_whoever_lists_them() {
    let folder = folder();
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    // Without a terminal the flock is loaded, and the screen that would open then refuses.
    command.args(["practise", "--flock"]).env("COOPSIDE_DATA", folder.path()).assert().code(2);
    let before = listed(folder.path(), false);
    assert!(before.len() > 3 && before.iter().any(|case| !english(&case.cover.need).is_empty()), "{before:#?}");
    assert!(before.iter().all(|case| case.cover.words.is_empty()), "{before:#?}");
    let translated = listed(folder.path(), true);
    for case in &translated {
        let (cover, told) = (&case.cover, format!("{} {}", case.cover.kind, case.cover.need));
        assert!(english(&told).is_empty(), "{told}");
        assert!(cover.words.starts_with("de-") && case.fingerprint == PROTOCOL.fingerprint, "{case:#?}");
    }
    // Nothing else of them changed; and whoever asks in English is told in English again, closed cases too.
    let mut again = listed(folder.path(), false);
    for (one, other) in before.iter().zip(&mut again) {
        // How soon she is due, and so how it is told, may have moved on by a second.
        other.cover.due = one.cover.due;
    }
    assert_eq!(before, again);
}

#[test]
fn what_is_refused_is_told_in_the_words_that_were_asked_for() {
    let folder = folder();
    let empty = folder.path().join("q.jsonl");
    fs::write(&empty, "").unwrap_or_else(|error| panic!("{error}"));
    let empty = empty.to_string_lossy();
    let refused: [&[&str]; 4] = [
        &["reckon", "weight", "weight=31 kg"],
        &["reckon", "weight", "weight=29 kg", "kind=hen"],
        &["kit", "--with", "qq"],
        &["import", &empty],
    ];
    for arguments in refused {
        let (plain, _, told) = coopside(folder.path(), false, arguments);
        let (code, _, err) = coopside(folder.path(), true, arguments);
        assert!(plain > 0 && code == plain, "{arguments:?}: {plain} {code} {told} {err}");
        let typed = ["coopside", "weight", "jsonl", "events"];
        let place = folder.path().to_string_lossy();
        let err = err.replace(&*place, "");
        let words: Vec<&str> = english(&err).into_iter().filter(|word| !typed.contains(word)).collect();
        assert!(words.is_empty(), "{arguments:?}: {words:?} in {err}");
    }
}
