//! How large a file may be and what numbers it may hold: told with what, where, what was expected and what next. That time does
//! not grow with the square of a file cannot be timed; what a file allocates is counted in `tests/growth.rs`.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, count, now};
use coopside::protocol::limits::{MOST_BYTES, MOST_IN_ONE, MOST_ITEMS};
use coopside::protocol::place::{Sort, place};
use coopside::protocol::{File, Protocol};
use coopside::{notes, shipped};
use std::fmt::Write as _;

/// The first fault of the shipped files with one more.
fn with_file(text: String) -> Vec<String> {
    let mut files = shipped::files();
    files.push(File { name: "more.ron".into(), text });
    Protocol::load(&files).err().map_or_else(Vec::new, |faults| faults.0.iter().map(ToString::to_string).collect())
}

fn told(faults: &[String], expected: &str) {
    assert!(faults.iter().any(|fault| fault.contains(expected)), "expected {expected:?} among {:?}", faults.first());
}

#[test]
fn a_protocol_larger_than_anyone_could_check_is_refused_at_once() {
    let words = |many: usize| {
        let mut text = String::from("(label_words: [\n");
        for at in 0..many {
            let _ = writeln!(text, "\"w{at}\",");
        }
        text + "])"
    };
    told(&with_file(words(MOST_ITEMS + 1)), &format!("one more than the {MOST_ITEMS} of its sort"));
    let long = format!("(label_words: [\"{}\"])", "a".repeat(MOST_IN_ONE));
    told(&with_file(long), &format!("one holds at most {MOST_IN_ONE}"));
    let faults = with_file(format!("// {}\n()", "a".repeat(MOST_BYTES)));
    told(&faults, "more.ron: the files hold");
    told(&faults, "take out what no rule needs");
}

/// An item's line is counted on from the one before; every item of the shipped files begins where its line says.
#[test]
fn every_item_begins_on_the_line_it_is_told_on() {
    let files = shipped::files();
    // Every one in the long form: each is looked for in all files.
    for rule in PROTOCOL.rules.iter().step_by(count(7, 1)) {
        let told =
            place(&files, Sort::Rule, rule.id.as_str()).unwrap_or_else(|| panic!("`{}` stands nowhere", rule.id));
        let (name, line) = told.split_once(':').unwrap_or_else(|| panic!("{told}"));
        let line: usize = line.parse().unwrap_or_else(|error| panic!("{told}: {error}"));
        let text = files.iter().find(|file| file.name == name).and_then(|file| file.text.lines().nth(line - 1));
        let begins = format!("(id: \"{}\"", rule.id);
        assert!(text.is_some_and(|text| text.trim_start().starts_with(&begins)), "{told}: {text:?}");
    }
}

/// A sign to watch for may have a rule's name: the rule is found where the rules are.
#[test]
fn a_rule_is_found_where_a_sign_has_its_name() {
    let rule = &(*PROTOCOL.rules)[0].id;
    let mut files = shipped::files();
    let right = place(&files, Sort::Rule, rule.as_str());
    assert!(right.as_ref().is_some_and(|place| place.starts_with("rules/")), "{right:?}");
    let sign =
        format!("(watches: [\n(id: \"{rule}\", say: \"a sign\", told_by: [\"eyelid\"], source: \"PRACTICE\"),\n])");
    files.insert(0, File { name: "a_watches.ron".into(), text: sign });
    assert_eq!(place(&files, Sort::Rule, rule.as_str()), right);
    assert_eq!(place(&files, Sort::Action, rule.as_str()), None);
}

#[test]
fn notes_longer_than_any_bird_needs_are_refused() {
    let told = |text: &str| {
        let faults = notes::read(&PROTOCOL, "long.ron", text, now()).err();
        faults.map_or_else(String::new, |faults| faults.to_string())
    };
    let long = format!("(answers: {{}}) // {}", "a".repeat(notes::MOST_BYTES));
    assert!(
        told(&long).contains("long.ron: these notes hold") && told(&long).contains("a file of her own"),
        "{}",
        told(&long)
    );
    // Each fault stands on its own line, however many there are.
    let mut text = String::from("(answers: {\n");
    for at in 0..3_000 {
        let _ = writeln!(text, "\"no{at}\": \"such\",");
    }
    text.push_str("\"kind\": \"hen\",\n\"kind\": \"duck\",\n})");
    let faults = told(&text);
    assert!(faults.lines().next().is_some_and(|line| line.starts_with("long.ron:2: answers, `no0`")), "{faults:.300}");
    assert!(faults.contains("long.ron:2001: answers, `no1999`"));
    assert!(faults.contains("long.ron:3003: answers, `kind`: this question is answered twice"), "{faults:.300}");
    assert_eq!(faults.lines().count(), 3_001);
}
