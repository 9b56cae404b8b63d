//! The handover sheet: the same in every form, nothing typed is ever run, nothing half-written is left behind.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::mounted::Mounted;
use assert_cmd::Command;
use chrono::{DateTime, TimeDelta};
use coopside::finding::figure::{Figure, FigureOf};
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{About, Answer, Statement};
use coopside::ledger::{CaseId, Cover, Event, EventId, Ledger, Mark};
use coopside::practice;
use coopside::protocol::Protocol;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};

const AT: [&str; 2] = ["--at", "2026-05-01T14:00:00Z"];

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn bird(name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/data/handover").join(format!("{name}.ron"));
    path.display().to_string()
}

fn handover(data: &Path, arguments: &[&str]) -> (i32, Vec<u8>, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_coopside"));
    command.env("COOPSIDE_DATA", data).env_remove("COOPSIDE_COUNTRY").env("TZ", "UTC");
    let output = command.arg("handover").args(arguments).output().unwrap_or_else(|error| panic!("{error}"));
    (output.status.code().unwrap_or(-1), output.stdout, String::from_utf8_lossy(&output.stderr).into_owned())
}

fn written(name: &str, form: &str, more: &[&str]) -> Vec<u8> {
    let data = folder();
    let to = data.path().join(format!("sheet.{form}"));
    let (bird, path) = (bird(name), to.display().to_string());
    let arguments = [&[bird.as_str(), "-o", path.as_str()], &AT[..], more].concat();
    let (code, _, err) = handover(data.path(), &arguments);
    assert_eq!(code, 0, "{err}");
    fs::read(&to).unwrap_or_else(|error| panic!("{error}"))
}

fn words(name: &str, form: &str, more: &[&str]) -> String {
    String::from_utf8(written(name, form, more)).unwrap_or_else(|error| panic!("{error}"))
}

fn json(name: &str, more: &[&str]) -> Value {
    serde_json::from_str(&words(name, "json", more)).unwrap_or_else(|error| panic!("{error}"))
}

/// The order of handing over: AT-MIST (ambulance services), then SBAR. British Columbia's emergency services use the first to hand
/// over and the second to ask.
const ORDER: [&str; 10] = [
    "AGE AND TIME",
    "MECHANISM",
    "INJURIES",
    "SIGNS",
    "TREATMENT",
    "SITUATION",
    "BACKGROUND",
    "ASSESSMENT",
    "RECOMMENDATION",
    "NOT KNOWN",
];

#[test]
fn every_form_tells_the_same_in_the_order_of_handing_over() {
    for name in ["bitten", "straining", "catching", "empty", "hostile"] {
        let whole = json(name, &[]);
        for form in ["txt", "md", "html"] {
            let text = words(name, form, &[]);
            let mut from = 0;
            for heading in ORDER {
                let wanted = if form == "md" {
                    format!("## {}{}", &heading[..1], heading[1..].to_lowercase())
                } else {
                    heading.to_owned()
                };
                let found = text.get(from..).and_then(|rest| rest.find(&wanted));
                from += found.unwrap_or_else(|| panic!("{name}.{form}: no {wanted} in its place\n{text}"));
            }
            assert!(text.contains("no vet has reviewed it"), "{name}.{form} bears no caution");
            let has_reasons = whole.to_string().contains("Finding: ");
            assert_eq!(
                (text.contains("Finding: "), text.contains("Advice: ")),
                (has_reasons, has_reasons),
                "{name}.{form}"
            );
            // What the JSON tells stands in the others, where it is short enough not to be cut or broken.
            let rows = whole["parts"]
                .as_array()
                .into_iter()
                .flatten()
                .flat_map(|part| part["rows"].as_array().into_iter().flatten());
            let flat: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
            for row in rows.filter_map(|row| row["told"].as_str()).filter(|told| told.len() < 60 && told.is_ascii()) {
                let plain = !row.contains(['<', '>', '[', '&', '\'', '!', '*', '`', '|', '_', '"']);
                assert!(!plain || flat.contains(row), "{name}.{form}: {row:?} is missing");
            }
        }
    }
}

#[test]
fn the_same_bird_and_moment_give_the_same_sheet_to_the_byte() {
    for form in ["txt", "md", "html", "pdf", "json"] {
        assert_eq!(written("bitten", form, &[]), written("bitten", form, &[]), "{form}");
    }
    assert!(written("bitten", "pdf", &[]).starts_with(b"%PDF-"));
}

/// A phone call, and what the next shift is told, of at most 60 words each.
#[test]
fn what_is_read_out_is_short_enough() {
    for name in ["bitten", "straining", "catching", "empty", "hostile"] {
        for to in ["script", "shift"] {
            let said = json(name, &[])[to].as_str().map(str::to_owned).unwrap_or_default();
            let count = said.split_whitespace().count();
            assert!((10..=60).contains(&count), "{name} {to}: {count} words: {said}");
        }
    }
    let shift = json("straining", &[])["shift"].as_str().map(str::to_owned).unwrap_or_default();
    for part in ["This is Pansy, hen, number 2026-014.", "She needs: vet at once", "Never: ", "Next look: "] {
        assert!(shift.contains(part), "{part}: {shift}");
    }
    assert!(json("catching", &[])["script"].as_str().is_some_and(|script| script.starts_with("It may be catching")));
}

#[test]
fn what_is_typed_is_never_run_and_long_notes_do_not_break_the_page() {
    let html = words("hostile", "html", &[]);
    assert!(!html.contains("<script>alert") && !html.contains("<img"), "{html}");
    assert!(html.contains("script"), "it is told, escaped");
    let markdown = words("hostile", "md", &[]);
    assert!(!markdown.contains("<script>") && !markdown.contains("[link](javascript"), "{markdown}");
    assert!(words("hostile", "txt", &[]).contains("(cut here; the JSON holds all of it)"));
    // Nothing is cut in the JSON.
    let whole = json("hostile", &[]).to_string();
    assert!(whole.len() > 10_000, "{}", whole.len());
}

#[test]
fn who_keeps_her_is_told_only_where_it_is_asked_for() {
    for form in ["txt", "md", "html", "json"] {
        assert!(!words("hostile", form, &[]).contains("555 0100"), "{form}");
        assert!(words("hostile", form, &["--with-keeper"]).contains("555 0100"), "{form}");
    }
}

#[test]
fn unknowns_are_listed_as_unknown() {
    let text = words("empty", "txt", &[]);
    for part in ["NOT KNOWN", "Not asked", "Not written down: breed or class, age, sex"] {
        assert!(text.contains(part), "{part}\n{text}");
    }
    assert!(text.contains("kind not told"), "{text}");
    let bitten = words("bitten", "txt", &[]);
    assert!(bitten.contains("Could not be told: inner eyelid"), "{bitten}");
}

#[test]
fn a_file_that_is_there_is_left_alone_and_nothing_half_written_stays() {
    let data = folder();
    let to = data.path().join("sheet.html").display().to_string();
    let bird = bird("bitten");
    assert_eq!(handover(data.path(), &[&bird, "-o", &to]).0, 0);
    fs::write(&to, "mine").unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = handover(data.path(), &[&bird, "-o", &to]);
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("is there already; it is left as it is. --over writes over it"), "{err}");
    assert_eq!(fs::read_to_string(&to).unwrap_or_default(), "mine");
    assert_eq!(handover(data.path(), &[&bird, "-o", &to, "--over"]).0, 0);
    assert!(fs::read_to_string(&to).unwrap_or_default().starts_with("<!DOCTYPE html>"));
    // A folder that is not there: one message, nothing left behind.
    let (code, _, err) = handover(data.path(), &[&bird, "-o", &data.path().join("no/sheet.pdf").display().to_string()]);
    assert_eq!(code, 74, "{err}");
    assert!(err.contains("could not be written; nothing was left behind"), "{err}");
    let left: Vec<_> = fs::read_dir(data.path()).into_iter().flatten().flatten().collect();
    assert_eq!(left.len(), 1, "{left:?}");
}

#[test]
fn what_cannot_be_told_is_one_clear_message() {
    let data = folder();
    let (code, _, err) = handover(data.path(), &["Nobody"]);
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("no case `Nobody`"), "{err}");
    let (code, _, err) = handover(data.path(), &[&bird("bitten"), "-o", "sheet.docx"]);
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("the ending `.docx` names no form"), "{err}");
    let (code, _, err) = handover(data.path(), &[&bird("bitten"), "--form", "pdf"]);
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("give a file with -o"), "{err}");
    let (code, _, err) = handover(data.path(), &[&bird("bitten"), &bird("empty")]);
    assert_eq!(code, 2, "{err}");
    assert!(err.contains("--cards"), "{err}");
}

#[test]
fn cage_cards_tell_need_do_never_and_the_next_look_of_each() {
    let (one, other) = (bird("straining"), bird("bitten"));
    let (code, out, err) = handover(folder().path(), &[&[one.as_str(), other.as_str(), "--cards"], &AT[..]].concat());
    let out = String::from_utf8_lossy(&out).into_owned();
    assert_eq!(code, 0, "{err}");
    for part in [
        "Pansy, hen No. 2026-014",
        "NEED: VET AT ONCE",
        "NEVER: ",
        "NEXT LOOK: ",
        "Saffron, hen",
        "no vet has reviewed it",
    ] {
        assert!(out.contains(part), "{part}\n{out}");
    }
    assert!(out.lines().all(|line| line.chars().count() <= 72), "{out}");
    assert!(!out.contains("Keeper"), "{out}");
}

/// The same cards in every form, each with the caution; the PDF has as many pages as the cards need.
#[test]
fn cage_cards_come_in_every_form() {
    let data = folder();
    let birds = ["straining", "bitten", "catching", "empty", "hostile"].map(bird);
    for form in ["txt", "md", "html", "json", "pdf"] {
        let to = data.path().join(format!("cards.{form}")).display().to_string();
        let mut arguments: Vec<&str> = birds.iter().map(String::as_str).collect();
        arguments.extend(["--cards", "-o", &to]);
        let (code, _, err) = handover(data.path(), &[&arguments[..], &AT[..]].concat());
        assert_eq!(code, 0, "{form}: {err}");
        let bytes = fs::read(&to).unwrap_or_default();
        if form == "pdf" {
            assert!(bytes.starts_with(b"%PDF-"));
            continue;
        }
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let runs = text.contains("<script>") && form != "txt" && form != "json";
        assert!(!text.contains("555 0100") && !runs, "{form}: {text}");
        let text = text.replace('\\', "");
        for part in ["Pansy, hen", "2026-014", "Saffron, hen", "no vet has reviewed it"] {
            assert!(text.contains(part), "{form}: no {part}\n{text}");
        }
    }
    let cards = fs::read_to_string(data.path().join("cards.json")).unwrap_or_default();
    let cards: Value = serde_json::from_str(&cards).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(
        (cards["schema"].as_str(), cards["cards"].as_array().map(Vec::len)),
        (Some("coopside.cards/2"), Some(5))
    );
}

/// Numbers are the keeper's own, written down once; a sheet bears them only where that is asked for.
#[test]
fn whom_to_call_is_kept_once_and_stays_off_the_sheet() {
    let data = folder();
    let contacts = |arguments: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_coopside"));
        let output = command.env("COOPSIDE_DATA", data.path()).arg("contacts").args(arguments).output();
        let output = output.unwrap_or_else(|error| panic!("{error}"));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    assert!(contacts(&[]).contains("Your vet: not written down"));
    assert_eq!(fs::read_dir(data.path()).into_iter().flatten().count(), 0, "asking makes no ledger");
    let told = contacts(&["--vet", "the mill clinic, 555 0111", "--authority", "555 0122"]);
    assert!(told.contains("Your vet: the mill clinic, 555 0111") && told.contains("no vet has reviewed it"), "{told}");
    let planned = |more: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_coopside"));
        let output = command.env("COOPSIDE_DATA", data.path()).arg("plan").arg(bird("bitten")).args(more).output();
        let output = output.unwrap_or_else(|error| panic!("{error}"));
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8_lossy(&output.stdout).into_owned()
    };
    assert!(planned(&["--course"]).contains("the mill clinic, 555 0111"), "{}", planned(&["--course"]));
    assert!(planned(&["--json"]).contains(r#""call": "the mill clinic, 555 0111""#), "{}", planned(&["--json"]));
    contacts(&["--authority", ""]);
    let told = contacts(&[]);
    assert!(told.contains("555 0111") && told.contains("Animal-health authority: not written down"), "{told}");
    let sheet = |more: &[&str]| {
        let (code, out, err) = handover(data.path(), &[&[bird("bitten").as_str()], more].concat());
        assert_eq!(code, 0, "{err}");
        String::from_utf8_lossy(&out).into_owned()
    };
    assert!(!sheet(&[]).contains("555 0111"));
    assert!(sheet(&["--with-keeper"]).contains("Your vet: the mill clinic, 555 0111"));
}

#[test]
fn a_full_disk_leaves_nothing_half_written_behind() {
    let Some(mounted) = Mounted::tmpfs(64) else { return };
    let place = mounted.0.path();
    fs::write(place.join("room"), vec![0; 40 * 1024]).unwrap_or_else(|error| panic!("{error}"));
    let data = folder();
    let to = place.join("sheet.pdf").display().to_string();
    let (code, _, err) = handover(data.path(), &[&bird("bitten"), "-o", &to]);
    assert_eq!(code, 74, "{err}");
    assert!(err.contains("could not be written; nothing was left behind"), "{err}");
    let left: Vec<_> = fs::read_dir(place).into_iter().flatten().flatten().map(|file| file.file_name()).collect();
    assert_eq!(left, ["room"], "{left:?}");
    // One that is there is still whole, even where it was to be written over.
    fs::write(place.join("sheet.pdf"), "mine").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(handover(data.path(), &[&bird("bitten"), "-o", &to, "--over"]).0, 74);
    assert_eq!(fs::read_to_string(&to).unwrap_or_default(), "mine");
}

/// The hardest sheet: five wounds, each measured on each of twelve days, and weighed as often. Left in `target/tmp/five` for the
/// browser and the reader of PDF in `tests/oracle/sheet.sh`, which hold both to one page.
#[test]
fn twelve_days_of_five_wounds_are_told_and_two_are_drawn() {
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("five");
    let _ = fs::remove_dir_all(&place);
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("\n{faults}"));
    let text = include_str!("../bench/five_wounds.ron");
    let first = DateTime::UNIX_EPOCH + TimeDelta::days(20_562);
    let (_, found) = practice::read(&protocol, "five", text, first).unwrap_or_else(|faults| panic!("\n{faults}"));
    let said: Vec<_> = found.said().iter().map(|said| said.statement.clone()).collect();
    let mut log: Vec<(i64, Entry)> = (0..found.wounds()).map(|_| (0, Entry::FoundWound)).collect();
    log.extend([(0, Entry::Named("Rue".into())), (0, Entry::Said(said)), (0, Entry::LookedOver)]);
    for day in 1..12 {
        let size = |number| {
            let typed = format!("{} x 8 mm", 30 - day - i64::try_from(number).unwrap_or(0));
            let lines = Figure::read(FigureOf::Wound, &typed).unwrap_or_else(|error| panic!("{error:?}"));
            Statement { about: About::Wound(number), question: "size".into(), answer: Answer::Figure(lines) }
        };
        let weight = 2_100 - 10 * u32::try_from(day % 5).unwrap_or(0);
        let weighed = Statement { about: About::Bird, question: "weight".into(), answer: Answer::Amount(weight) };
        let looked = (0..5).map(size).chain([weighed]).collect();
        log.extend([Entry::LookBegan(Vec::new()), Entry::Said(looked), Entry::LookDone].map(|entry| (day, entry)));
    }
    let mut ledger = Ledger::open(&place).unwrap_or_else(|error| panic!("{error}"));
    let mark = Mark { version: protocol.version.clone(), fingerprint: protocol.fingerprint.clone() };
    let (case, cover) = (CaseId::new(), Cover { name: "Rue".into(), ..Cover::default() });
    for (seq, (day, entry)) in (0..).zip(log) {
        let stamped = Stamped { at: first + TimeDelta::days(day), entry };
        let event = Event { id: EventId::new(), case: case.clone(), seq, stamped, zone_min: 0 };
        ledger.append(&event, &mark, &cover).unwrap_or_else(|error| panic!("{error}"));
    }
    drop(ledger);
    let (code, out, err) = handover(&place, &[&["Rue", "--form", "json"], &AT[..]].concat());
    assert_eq!(code, 0, "{err}");
    let whole: Value = serde_json::from_slice(&out).unwrap_or_else(|error| panic!("{error}"));
    let course = whole["parts"].as_array().into_iter().flatten().find(|part| part["id"] == "course");
    let course = course.unwrap_or_else(|| panic!("{whole:#}"));
    let rows = course["rows"].as_array().into_iter().flatten();
    let names: Vec<&str> = rows.map(|row| row["name"].as_str().unwrap_or("none")).collect();
    assert_eq!(names, ["Need", "Weight", "Wound 1", "Wound 2", "Wound 3", "Wound 4", "Wound 5", "none", "none"]);
    assert_eq!(course["plots"].as_array().map(Vec::len), Some(3), "her weight and two wounds");
    let points = course["plots"][1]["points"].as_array().cloned().unwrap_or_default();
    assert_eq!((points.len(), points[0]["value"].as_u64(), points[11]["value"].as_u64()), (12, Some(126), Some(119)));
}

/// A case of twelve days from the practice flock, by the bird's name.
#[test]
fn a_kept_case_tells_how_she_was_at_first_and_how_she_is() {
    let data = folder();
    let mut command = Command::new(env!("CARGO_BIN_EXE_coopside"));
    let made = command.env("COOPSIDE_DATA", data.path()).args(["practise", "--flock"]).output();
    made.unwrap_or_else(|error| panic!("{error}"));
    let practice = data.path().join("practice");
    let mut list = Command::new(env!("CARGO_BIN_EXE_coopside"));
    let cases = list.env("COOPSIDE_DATA", &practice).args(["cases", "--json", "--closed"]).output();
    let cases = cases.unwrap_or_else(|error| panic!("{error}"));
    let cases: Value = serde_json::from_slice(&cases.stdout).unwrap_or_else(|error| panic!("{error}"));
    let names: Vec<&str> =
        cases["cases"].as_array().into_iter().flatten().filter_map(|case| case["name"].as_str()).collect();
    assert!(names.len() >= 3, "{cases}");
    for name in &names {
        let path = data.path().join(format!("{name}.html")).display().to_string();
        assert_eq!(handover(&practice, &[name, "-o", &path]).0, 0, "{name}");
        let (code, out, err) = handover(&practice, &[name, "--form", "json"]);
        assert_eq!(code, 0, "{name}: {err}");
        let whole: Value = serde_json::from_slice(&out).unwrap_or_else(|error| panic!("{error}"));
        let course = whole["parts"].as_array().into_iter().flatten().find(|part| part["id"] == "course");
        let plots = course.and_then(|course| course["plots"].as_array()).map_or(0, Vec::len);
        let drawn = fs::read_to_string(&path).unwrap_or_default().matches("<polyline").count();
        assert_eq!(plots, drawn, "{name}: what the JSON draws, the page draws");
        // Borage and Saffron were weighed, and a wound of each measured, more than once.
        assert_eq!(plots, if matches!(*name, "Borage" | "Saffron") { 2 } else { 0 }, "{name}");
    }
    let sheets: Vec<String> = names
        .iter()
        .map(|name| {
            let (code, out, err) = handover(&practice, &[name]);
            assert_eq!(code, 0, "{name}: {err}");
            String::from_utf8_lossy(&out).into_owned()
        })
        .collect();
    assert!(sheets.iter().any(|sheet| sheet.contains("at first: ")), "{}", sheets.join("\n"));
    assert!(sheets.iter().any(|sheet| sheet.contains("A vet said: ")), "{}", sheets.join("\n"));
    // Days later nobody is told that it happened less than an hour ago.
    let saffron = sheets
        .iter()
        .find(|sheet| sheet.starts_with("HANDOVER: PRACTICE, no real bird: Saffron"))
        .cloned()
        .unwrap_or_default();
    assert!(saffron.contains("When: 12 days ago.") && !saffron.contains("When: less"), "{saffron}");
}
