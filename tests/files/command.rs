//! The commands that need no screen: data on standard output, one clear message on standard error, exit codes.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::spliced;
use assert_cmd::Command;
use std::fs;
use std::path::Path;
use tempfile::TempDir;

const NOTES: &str = "(answers: {\"kind\": \"hen\", \"reach\": \"day\", \"eyelid\": \"white\"}, wounds: [{\"place\": \"under_wing\", \"what\": \"hole\", \"cause\": \"mammal\", \"wound_age\": \"h3\"}])";

fn folder() -> TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn coopside(arguments: &[&str]) -> (i32, String, String) {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    let output = command.args(arguments).env("TZ", "UTC").output().unwrap_or_else(|error| panic!("{error}"));
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

fn judged(text: &str, name: &str, more: &[&str]) -> (i32, String, String) {
    let folder = folder();
    let path = folder.path().join(name);
    fs::write(&path, text).unwrap_or_else(|error| panic!("{error}"));
    let path = path.display().to_string();
    coopside(&[&["judge", path.as_str()], more].concat())
}

#[test]
fn notes_are_judged_into_plain_text() {
    let (code, out, err) = judged(NOTES, "saffron.ron", &["--at", "2026-05-01T14:00:00Z"]);
    assert_eq!((code, err.as_str()), (0, ""));
    for part in [
        "Need: vet at once",
        "DO NOW, IN THIS ORDER",
        "NEVER",
        "Phone a vet now.",
        "Finding:",
        "Advice:",
        "no vet has reviewed it",
    ] {
        assert!(out.contains(part), "{part}\n{out}");
    }
    // A bite of 1 to 3 hours ago: treatment is due 12 hours after the earliest moment, 11:00.
    // Source of the 12 hours: Burge Bird Services, wounds and bites.
    assert!(out.contains("Now. Tell the vet too. At the latest about Fri 23:00"), "{out}");
    assert!(out.lines().all(|line| line.chars().count() <= 72), "{out}");
}

#[test]
fn the_same_notes_give_the_same_text_and_json_and_ron_mean_the_same() {
    let at: &[&str] = &["--at", "2026-05-01T14:00:00Z"];
    let json = NOTES.replace("(answers:", "{\"answers\":").replace("wounds:", "\"wounds\":").replace("])", "]}");
    assert_eq!(judged(NOTES, "a.ron", at), judged(&json, "a.json", at));
}

#[test]
fn json_holds_everything_under_a_versioned_name() {
    let (code, out, _) = judged(NOTES, "a.ron", &["--json", "--at", "2026-05-01T14:00:00Z"]);
    assert_eq!(code, 0);
    let value: serde_json::Value = serde_json::from_str(&out).unwrap_or_else(|error| panic!("{error}\n{out}"));
    assert_eq!(value["schema"], "coopside.verdict/2");
    assert_eq!(value["need"]["at_least"], "now");
    assert_eq!(value["reviewed_by_a_veterinarian"], false);
    assert!(value["caution"].as_str().is_some_and(|caution| caution.contains("Local law")));
    let rules: Vec<&str> =
        value["reasons"].as_array().into_iter().flatten().filter_map(|r| r["rule"].as_str()).collect();
    assert!(rules.contains(&"bite") && rules.contains(&"lid_white"), "{rules:?}");
    assert!(
        value["never"]
            .as_array()
            .is_some_and(|never| never.iter().all(|n| n["instead"].as_str().is_some_and(|i| !i.is_empty())))
    );
    assert_eq!(value["by_when"][0]["by"], "2026-05-01T23:00:00Z");
    assert!(value["sources"].as_array().is_some_and(|sources| sources.len() > 3));
    assert!(value["reasons"][0]["labels"].as_array().is_some_and(|labels| labels.len() >= 2));
    let hazards = value["hazards"].as_array().cloned().unwrap_or_default();
    assert!(hazards.iter().any(|hazard| hazard["id"] == "closed_at_home"), "a bite is not sewn: {hazards:?}");
    for field in ["hazard", "harm_of_doing", "harm_of_not_doing"] {
        assert!(hazards.iter().all(|hazard| hazard[field].as_str().is_some_and(|told| told.len() > 10)), "{field}");
    }
}

#[test]
fn wrong_names_are_told_all_at_once_with_line_and_nearest_name() {
    let text = "(answers: {\n  \"kind\": \"hen\",\n  \"eyeld\": \"white\",\n  \"alert\": \"vioce\",\n  \"size\": \"small\",\n}, wounds: [\n  {\"place\": \"wing\"},\n  {\"place\": \"wnig\"},\n])";
    let (code, out, err) = judged(text, "a.ron", &[]);
    assert_eq!((code, out.as_str()), (65, ""));
    for part in [
        ":3: answers, `eyeld`: there is no such question; did you mean `eyelid`?",
        ":4: answers, `alert`: `vioce` is no answer to it; the answers are alert, voice, touch, nothing, cannot_tell; did you mean `voice`?",
        ":5: answers, `size`: this is asked of a wound",
        ":8: wound 2, `place`: `wnig` is no answer",
    ] {
        assert!(err.contains(part), "{part}\n{err}");
    }
}

#[test]
fn what_is_no_notes_file_is_told_with_its_line() {
    for (text, line) in [
        ("(answers: {\"kind\": \"hen\"},\n  wonds: [])", ":2:"),
        ("{\"answers\": {\n \"kind\": 3}}", ":2:"),
        ("", ":1:"),
    ] {
        let (code, out, err) = judged(text, "a.ron", &[]);
        assert_eq!((code, out.as_str()), (65, ""), "{text}");
        assert!(err.contains(line) && err.contains("notes look like"), "{text}\n{err}");
    }
}

#[test]
fn a_weight_that_can_be_read_in_two_ways_is_refused() {
    let (code, _, err) = judged("(answers: {\"kind\": \"hen\", \"weight\": \"1,500 g\"})", "a.ron", &[]);
    assert_eq!(code, 65);
    assert!(err.contains("can be read in two ways"), "{err}");
}

#[test]
fn a_file_that_is_not_there_and_wrong_usage_have_codes_of_their_own() {
    let (code, _, err) = coopside(&["judge", "no/such/file.ron"]);
    assert_eq!(code, 66);
    assert!(err.contains("no/such/file.ron cannot be read"), "{err}");
    assert_eq!(coopside(&["jugde"]).0, 2);
    let (code, _, err) = coopside(&[]);
    assert_eq!(code, 2, "without a terminal the examination refuses");
    assert!(err.contains("needs a terminal") && err.contains("coopside judge FILE"), "{err}");
}

#[test]
fn notes_come_from_standard_input_too() {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    command.args(["judge", "-"]).write_stdin(NOTES).assert().success();
}

#[test]
fn a_reader_that_leaves_early_is_no_failure() {
    let binary = assert_cmd::cargo::cargo_bin("coopside");
    let script = format!("{} keys | head -n 1; exit ${{PIPESTATUS[0]}}", binary.display());
    Command::new("bash").args(["-c", &script]).assert().success().stderr("");
}

#[test]
fn a_protocol_is_checked_where_it_lies() {
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/protocol").display().to_string();
    let (code, out, _) = coopside(&["check", &shipped]);
    assert_eq!(code, 0);
    assert_eq!(coopside(&["check"]).1, out, "the shipped protocol is the one in assets/");
    let folder = folder();
    assert_eq!(coopside(&["check", &folder.path().display().to_string()]).0, 66);
    fs::write(folder.path().join("a.ron"), "(rules: [(id: 3)])").unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(&["check", &folder.path().display().to_string()]);
    assert_eq!(code, 65);
    assert!(err.contains("a.ron:1"), "{err}");
}

#[test]
fn every_scripted_bird_can_be_written_as_text_and_json() {
    use coopside::{care, practice, protocol::Protocol, prove, render, words::Reader};
    let protocol = Protocol::shipped().unwrap_or_else(|faults| panic!("\n{faults}"));
    let now = chrono::DateTime::UNIX_EPOCH;
    let zone = chrono::FixedOffset::east_opt(3600).unwrap_or_else(|| panic!("no zone"));
    let zone = coopside::zone::Zone::Fixed(zone);
    let country = protocol.country("unset");
    let entries = fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios"));
    for entry in entries.unwrap_or_else(|error| panic!("{error}")).flatten() {
        let text = fs::read_to_string(entry.path()).unwrap_or_default();
        let (_, findings) =
            practice::read(&protocol, "scenario", &text, now).unwrap_or_else(|faults| panic!("\n{faults}"));
        let verdict = prove::judge(&protocol, &findings, now);
        let plan =
            care::plan(&protocol, &verdict, &coopside::care::cupboard::Cupboard::default(), coopside::zone::Zone::UTC);
        let text = render::text::whole(&protocol, &findings, &verdict, &plan, Reader::english(zone, country));
        let json =
            render::json::verdict(&protocol, &findings, &verdict, &plan, Reader::english(zone, country)).to_string();
        for out in [&text, &json] {
            assert!(out.contains("no vet has reviewed it"), "{}", entry.path().display());
        }
        assert!(text.lines().all(|line| line.chars().count() <= render::text::COLUMNS), "{text}");
    }
}

#[test]
fn the_notes_in_the_readme_are_judged_as_they_stand() {
    let readme = include_str!("../../README.md");
    let block = readme.split("```ron\n").nth(1).and_then(|rest| rest.split("```").next()).unwrap_or_default();
    let (code, out, err) = judged(block, "saffron.ron", &[]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("NEVER"), "{out}");
}

/// The shipped protocol in a folder of its own, one text in one file replaced.
fn own_protocol(file: &str, from: &str, to: &str) -> TempDir {
    let folder = folder();
    for shipped in coopside::shipped::files() {
        let path = folder.path().join(&shipped.name);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent).unwrap_or_else(|error| panic!("{error}"));
        }
        let changed = spliced(&shipped.text, from, to).filter(|_| shipped.name == file);
        assert!(shipped.name != file || changed.is_some(), "{file} does not hold {from}");
        let text = changed.unwrap_or(shipped.text);
        fs::write(path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    folder
}

#[test]
fn the_shipped_protocol_is_proven_from_the_command_line() {
    let (code, out, err) = coopside(&["prove"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    assert_eq!(out.lines().filter(|line| line.starts_with("proven: ")).count(), 12, "{out}");
    assert!(out.contains("no vet has reviewed it") && out.contains("cases;"), "{out}");
}

#[test]
fn a_spoiled_protocol_is_refuted_by_a_bird_and_judges_nobody() {
    let never_asked = own_protocol(
        "questions/watch.ron",
        "moot: \"breathing = quiet and fighting_breath = no\"",
        "moot: \"fighting_breath\"",
    );
    let path = never_asked.path().display().to_string();
    let (code, out, err) = coopside(&["prove", &path]);
    assert_eq!(code, 1, "{out}{err}");
    assert!(out.contains("REFUTED: Every exception to a humane end is asked."), "{out}");
    assert!(out.contains("x questions/watch.ron:") && err.contains("1 of 12 claims do not hold"), "{out}{err}");
    assert!(out.contains("a bird that shows it, all else fine: ") && out.contains("fighting for breath"), "{out}");
    let notes = folder();
    let file = notes.path().join("saffron.ron");
    fs::write(&file, NOTES).unwrap_or_else(|error| panic!("{error}"));
    let (code, out, err) = coopside(&["judge", &file.display().to_string(), "--protocol", &path]);
    assert_eq!((code, out.as_str()), (65, ""));
    assert!(err.contains("judges no bird") && err.contains("REFUTED"), "{err}");
}

#[test]
fn ones_own_protocol_judges_once_it_is_proven() {
    let own = own_protocol("protocol.ron", "version: \"", "version: \"club-");
    let path = own.path().display().to_string();
    let notes = folder();
    let file = notes.path().join("saffron.ron");
    fs::write(&file, NOTES).unwrap_or_else(|error| panic!("{error}"));
    let (code, out, err) = coopside(&["judge", &file.display().to_string(), "--protocol", &path]);
    assert_eq!((code, err.as_str()), (0, ""));
    assert!(out.contains("protocol club-"), "{out}");
}

/// The whole protocol leaves the program: nothing a verdict rests on is missing.
#[test]
fn the_protocol_is_told_in_full() {
    let (code, out, _) = coopside(&["protocol", "--json"]);
    let told: serde_json::Value = serde_json::from_str(&out).unwrap_or_else(|error| panic!("{error}"));
    let protocol = coopside::protocol::Protocol::shipped().unwrap_or_else(|faults| panic!("{faults}"));
    let many = |part: &str| told[part].as_array().map_or(0, Vec::len);
    assert_eq!((code, told["schema"].as_str()), (0, Some("coopside.protocol/1")));
    assert_eq!(many("questions"), protocol.questions.len());
    assert_eq!(many("rules"), protocol.rules.len());
    assert_eq!(many("actions"), protocol.actions.len());
    assert_eq!(many("conflicts"), protocol.conflicts.len());
    assert_eq!(many("exclusions"), protocol.exclusions.len());
    assert_eq!(many("strengths"), protocol.families.len());
    assert_eq!(many("uses"), protocol.uses.len());
    assert_eq!(told["reviewed_by_a_veterinarian"].as_bool(), Some(false));
}

/// A proof cannot tell which of two rungs is right; but what is milder than the shipped protocol is said.
#[test]
fn what_is_milder_than_the_shipped_protocol_is_told() {
    let milder = own_protocol("rules/wounds.ron", "need: Now", "need: Home");
    let (code, out, _) = coopside(&["prove", &milder.path().display().to_string()]);
    let told = out.split("Milder than the protocol").nth(1).unwrap_or_default();
    assert!(told.contains("need: care at home instead of vet at once"), "{code} {out}");
    for part in [
        "a bird that shows it, all else fine: ",
        "shipped: vet at once;",
        "yours:   vet within hours;",
        "no vet has reviewed it",
    ] {
        assert!(told.contains(part), "{part}\n{out}");
    }
    let (_, out, _) = coopside(&["prove", &milder.path().display().to_string(), "--json"]);
    let told: serde_json::Value = serde_json::from_str(&out).unwrap_or_else(|error| panic!("{error}\n{out}"));
    let against = &told["against_the_shipped"];
    assert_eq!(
        (told["schema"].as_str(), told["reviewed_by_a_veterinarian"].as_bool()),
        (Some("coopside.proof/1"), Some(false))
    );
    assert_eq!(against["nothing_milder"].as_bool(), Some(false));
    let bird = &against["birds"][0];
    assert_eq!(
        (bird["shipped"]["need"].as_str(), bird["own"]["need"].as_str()),
        (Some("now"), Some("within_hours")),
        "{bird}"
    );
    let (_, out, _) = coopside(&["prove"]);
    assert!(!out.contains("Milder"), "{out}");
    let same = own_protocol("protocol.ron", "version: \"", "version: \"club-");
    let (code, out, _) = coopside(&["prove", &same.path().display().to_string()]);
    assert!(code == 0 && out.contains("No bird of whom it says less") && !out.contains("Milder"), "{out}");
}

/// A folder that leads back into itself is read once; one that is no protocol's is not read to its end.
#[cfg(unix)]
#[test]
fn a_folder_without_end_is_refused_by_name() {
    let own = own_protocol("protocol.ron", "version: \"", "version: \"club-");
    let path = own.path().display().to_string();
    std::os::unix::fs::symlink(own.path(), own.path().join("again")).unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(&["check", &path]);
    assert!(code == 65 && err.contains("again leads to a folder that was read already"), "{code} {err:.500}");
    assert!(err.contains("take the link out") && err.lines().count() == 1, "{err:.500}");
    let many = folder();
    for at in 0..1_001 {
        fs::write(many.path().join(format!("f{at}.ron")), "()").unwrap_or_else(|error| panic!("{error}"));
    }
    let (code, _, err) = coopside(&["check", &many.path().display().to_string()]);
    assert!(
        code == 65 && err.contains("1000 .ron files") && err.contains("the folder of a protocol?"),
        "{code} {err:.500}"
    );
}

/// A year before any hen was kept is no moment of an examination.
#[test]
fn a_moment_no_bird_was_examined_at_is_refused() {
    let (code, _, err) = judged(NOTES, "saffron.ron", &["--at=-6140-05-01T14:00:00Z"]);
    assert!(code == 2 && err.contains("no moment of an examination"), "{code} {err}");
}

#[test]
fn a_folder_that_is_no_protocol_is_told_apart() {
    let own = folder();
    let path = own.path().display().to_string();
    let (code, _, err) = coopside(&["prove", &path]);
    assert!(code == 66 && err.contains("holds no .ron file"), "{code} {err}");
    fs::write(own.path().join("a.ron"), b"(rules: [\n\xff])").unwrap_or_else(|error| panic!("{error}"));
    let (code, _, err) = coopside(&["prove", &path]);
    assert!(code == 65 && err.contains("a.ron:2: this is not text"), "{code} {err}");
    let file = own.path().join("a.ron").display().to_string();
    let (code, _, err) = coopside(&["prove", &file]);
    assert!(code == 66 && err.contains("is no folder"), "{code} {err}");
}

#[test]
fn a_plan_a_kit_and_a_label_are_told_with_what_is_in_the_house() {
    let data = folder();
    let data = data.path().display().to_string();
    let notes = folder();
    let file = notes.path().join("saffron.ron");
    fs::write(&file, NOTES).unwrap_or_else(|error| panic!("{error}"));
    let file = file.display().to_string();
    let (code, out, err) = coopside(&["plan", &file, "--data", &data, "--with", "gauze; povidone_iodine 10 %"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    assert!(out.starts_with("VERDICT") && out.contains("NEVER") && out.contains("no vet has reviewed it"), "{out}");
    let (code, out, _) = coopside(&["plan", &file, "--json", "--with", ""]);
    assert!(
        code == 0 && out.contains("\"coopside.plan/2\"") && out.contains("\"reviewed_by_a_veterinarian\": false"),
        "{out}"
    );
    let (code, _, err) = coopside(&["plan", &file, "--with", "gauzze"]);
    assert!(code == 2 && err.contains("nearest: `gauze`"), "{err}");
    let (code, out, _) = coopside(&["kit", "--with", "gauze until 2020-01; povidone_iodine 7.5 %", "--data", &data]);
    assert!(code == 0 && out.contains("Its date has gone") && out.contains("scrub with soap"), "{out}");
    assert!(out.contains("TO HAVE BEFORE IT HAPPENS") && out.contains("no vet has reviewed it"), "{out}");
    let (code, out, _) = coopside(&["label", "fusidic acid 2 %, betamethasone 0.1 %"]);
    assert!(code == 0 && out.contains("NEVER on a bird") && out.contains("no vet has reviewed it"), "{out}");
    let (code, out, _) = coopside(&["label", "calendula", "--json"]);
    assert!(code == 0 && out.contains("\"unknown\"") && out.contains("coopside.label/1"), "{out}");
    let (code, out, _) = coopside(&["label", "cornstarch", "--bird", &file]);
    assert!(code == 0 && out.contains("NOT on this bird"), "{out}");
    let (code, out, _) = coopside(&["label", "silver nitrate", "--on", "nail", "--json"]);
    assert!(code == 0 && out.contains("\"on\": \"nail\"") && out.contains("\"may_be_used\""), "{out}");
    assert!(out.contains("no vet has reviewed it") && out.contains("\"family\": \"styptic\""), "{out}");
    let (code, _, err) = coopside(&["label", "silver nitrate", "--on", "claw"]);
    assert!(code == 2 && err.contains("`nail` (a nail or beak tip)"), "{err}");
    let drug = "enrofloxacin 10 %";
    let (code, out, _) = coopside(&["label", drug, "--country", "uk"]);
    assert!(code == 0 && out.contains("ASK a vet first.") && !out.contains("NEVER"), "{out}");
    let (code, out, _) = coopside(&["label", drug, "--country", "us"]);
    assert!(code == 0 && out.contains("NEVER on a bird.") && out.contains("leftover"), "{out}");
    let (code, out, _) = coopside(&["label", drug, "--country", "New Zealand"]);
    assert!(code == 0 && out.contains("ASK a vet first.") && out.contains("no meat for 63"), "{out}");
    let (code, out, _) = coopside(&["label", drug, "--country", "au"]);
    assert!(code == 0 && out.contains("NEVER on a bird.") && out.contains("Not known here"), "{out}");
    let by_vet = ["label", drug, "--country", "uk", "--vet", "Grey", "--given", "2026-05-01", "--for", "Rue"];
    let (code, out, _) = coopside(&by_vet);
    assert!(
        code == 0 && out.contains("AS THE VET WROTE.") && out.contains("Given by Grey on 2026-05-01 for Rue"),
        "{out}"
    );
    assert!(out.contains("Ask about eggs and meat.") && out.contains("no vet has reviewed it"), "{out}");
    let (code, out, _) = coopside(&["label", drug, "--vet", "Grey", "--for", "Rue", "--json"]);
    assert!(code == 0 && out.contains("\"whole\": false") && out.contains("\"never\""), "{out}");
    let (code, _, err) = coopside(&["label", drug, "--given", "2999-01-01"]);
    assert!(code == 2 && err.contains("no day that has come"), "{err}");
    let (code, _, err) = coopside(&["label", " "]);
    assert!(code == 2 && err.contains("copy them from the label"), "{err}");
    assert_eq!(fs::read_dir(&data).map_or(9, Iterator::count), 0, "a command that reads makes no ledger");
}

#[test]
fn what_can_go_wrong_is_listed_and_told_of_each_bird() {
    let (code, out, _) = coopside(&["sources", "--hazards"]);
    assert_eq!(code, 0);
    for told in ["WHAT CAN GO WRONG", "Done: ", "Not done: ", "Shown on ", "Tests: ", "no vet has reviewed it"] {
        assert!(out.contains(told), "{told}:\n{out}");
    }
}
