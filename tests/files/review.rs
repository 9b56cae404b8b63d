//! The packet for a vet and the form that comes back, through the real program.

#![expect(clippy::panic, reason = "a failing test panics")]

use assert_cmd::Command;
use std::fs;
use std::path::{Path, PathBuf};

fn folder() -> tempfile::TempDir {
    tempfile::tempdir().unwrap_or_else(|error| panic!("{error}"))
}

fn run(data: &Path, arguments: &[&str], input: &str) -> (i32, Vec<u8>, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_coopside"));
    command.env("COOPSIDE_DATA", data).env_remove("COOPSIDE_COUNTRY").env_remove("COOPSIDE_PROTOCOL").env("TZ", "UTC");
    let output = command.args(arguments).write_stdin(input).output().unwrap_or_else(|error| panic!("{error}"));
    (output.status.code().unwrap_or(-1), output.stdout, String::from_utf8_lossy(&output.stderr).into_owned())
}

fn told(data: &Path, arguments: &[&str], input: &str) -> String {
    let (code, out, err) = run(data, arguments, input);
    assert_eq!(code, 0, "{arguments:?}: {err}");
    String::from_utf8(out).unwrap_or_else(|error| panic!("{error}"))
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The form of the shipped protocol with a role, a date, and every item agreed with.
fn agreed(data: &Path) -> String {
    told(data, &["review", "--form", "ron"], "")
        .replace("role: \"\"", "role: \"avian vet\"")
        .replace("date: \"\"", "date: \"2026-05-01\"")
        .replace("verdict: None,", "verdict: Agree,")
}

#[test]
fn the_packet_is_written_in_every_form_and_never_over_another_file() {
    let data = folder();
    for form in ["txt", "md", "html", "pdf", "ron"] {
        let path = data.path().join(format!("packet.{form}")).display().to_string();
        assert_eq!(told(data.path(), &["review", "-o", &path], ""), format!("Written: {path}\n"));
        let bytes = fs::read(&path).unwrap_or_else(|error| panic!("{error}"));
        let begins =
            [&b"COOPSIDE: A PACKET"[..], b"# Coopside: a packet", b"<!DOCTYPE html>", b"%PDF-", b"// What a vet"];
        assert!(begins.iter().any(|begins| bytes.starts_with(begins)), "{form}");
        let (code, _, err) = run(data.path(), &["review", "-o", &path], "");
        assert!(code == 2 && err.contains("--over"), "{code}: {err}");
        // Written over in the form that is quickest to write: that it may be is asked before any is made.
        if form == "ron" {
            told(data.path(), &["review", "--over", "-o", &path], "");
        }
    }
    for (name, form) in [("text", "COOPSIDE: A PACKET"), ("markdown", "# Coopside: a packet")] {
        assert!(told(data.path(), &["review", "--form", name], "").starts_with(form));
    }
    let (code, _, err) = run(data.path(), &["review", "--form", "pdf"], "");
    assert!(code == 2 && err.contains("give a file with -o"), "{err}");
    let (code, _, err) = run(data.path(), &["review", "-o", "packet.doc"], "");
    assert!(code == 2 && err.contains(".pdf, .html, .md, .txt and .ron"), "{err}");
    // A command that only writes the packet makes no ledger.
    assert!(!data.path().join("coopside.sqlite").exists());
}

#[test]
fn a_form_is_taken_in_once_and_told_beside_its_rules() {
    let data = folder();
    let form = agreed(data.path());
    let first = told(data.path(), &["review", "--read", "-"], &form);
    for wanted in [
        "Kept on this machine.",
        "A form of: avian vet, 2026-05-01, protocol ",
        "A form says: agree",
        "no vet has reviewed it",
    ] {
        assert!(flat(&first).contains(wanted), "{wanted}: {first}");
    }
    let path = data.path().join("form.ron");
    fs::write(&path, &form).unwrap_or_else(|error| panic!("{error}"));
    let path = path.display().to_string();
    let again = told(data.path(), &["review", "--read", &path], "");
    assert!(flat(&again).contains("taken in before; it is kept once"), "{again}");
    let other =
        form.replacen("verdict: Agree", "verdict: Reject", 1).replacen("remark: \"\"", "remark: \"too late\"", 1);
    told(data.path(), &["review", "--read", "-"], &other);

    let packet = flat(&told(data.path(), &["review"], ""));
    assert!(packet.contains("A form says: agree (avian vet, 2026-05-01, protocol "), "{packet}");
    assert_eq!(packet.matches("A form says: reject").count(), 1, "{packet}");
    assert!(packet.contains("): too late"), "{packet}");
    assert!(!told(data.path(), &["review", "--blank"], "").contains("A form says:"));
    let sources = flat(&told(data.path(), &["sources"], ""));
    assert!(sources.contains("WHAT FORMS SAY OF RULES") && sources.contains("A form says: agree"), "{sources}");
    // Elsewhere nothing of it is told.
    assert!(!flat(&told(folder().path(), &["sources"], "")).contains("A form says"));
}

#[cfg(unix)]
#[test]
fn a_form_is_kept_where_nobody_else_reads_it() {
    use std::os::unix::fs::PermissionsExt;
    let data = folder();
    let own = data.path().join("own");
    told(&own, &["review", "--read", "-"], &agreed(&own));
    let mode = fs::metadata(&own).unwrap_or_else(|error| panic!("{error}")).permissions().mode();
    assert_eq!(mode & 0o077, 0, "{mode:o}");
}

/// Every output a form could reach, with one kept and without: what it says of itself stays to the letter.
#[test]
fn no_output_changes_its_caution_for_a_form() {
    let (without, with) = (folder(), folder());
    told(with.path(), &["review", "--read", "-"], &agreed(with.path()));
    // A ledger makes no difference by itself.
    told(without.path(), &["contacts", "--vet", "the mill"], "");
    told(with.path(), &["contacts", "--vet", "the mill"], "");
    let bird = r#"(answers: {"kind": "hen", "bleeding_hard": "yes", "reach": "none"}, looked_over: true)"#;
    let at = "2026-05-01T14:00:00Z";
    let same: [&[&str]; 16] = [
        &["judge", "-", "--at", at],
        &["judge", "-", "--at", at, "--json"],
        &["plan", "-", "--at", at],
        &["plan", "-", "--at", at, "--json"],
        &["handover", "-", "--at", at],
        &["handover", "-", "--at", at, "--form", "md"],
        &["handover", "-", "--at", at, "--form", "html"],
        &["handover", "-", "--at", at, "--form", "json"],
        &["handover", "-", "--at", at, "--cards"],
        &["label", "povidone-iodine 10 %"],
        &["kit"],
        &["contacts"],
        &["protocol"],
        &["protocol", "--json"],
        &["reckon", "weight", "kind=hen"],
        &["cases"],
    ];
    for arguments in same {
        let (one, two) = (run(without.path(), arguments, bird), run(with.path(), arguments, bird));
        assert_eq!(one.1, two.1, "{arguments:?}");
        assert_eq!(one.0, two.0, "{arguments:?}: {}{}", one.2, two.2);
    }
    // The two that tell of forms: as often, and in the same words.
    let differ: [&[&str]; 4] = [&["sources"], &["review"], &["review", "--form", "md"], &["review", "--form", "html"]];
    for arguments in differ {
        let cautions = |data: &Path| {
            let text = flat(&told(data, arguments, "").replace("\n> ", "\n").replace("\n! ", "\n"));
            let begins = text.match_indices("Coopside is no vet").map(|(at, _)| at);
            begins.map(|at| text.get(at..).unwrap_or_default().chars().take(160).collect()).collect::<Vec<String>>()
        };
        let (one, two) = (cautions(without.path()), cautions(with.path()));
        assert!(!one.is_empty() && one.len() == two.len(), "{arguments:?}");
        let stands = |text: &String| {
            text.contains("Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.")
        };
        assert!(one.iter().chain(&two).all(stands), "{arguments:?}: {two:?}");
        let (one, two) = (told(without.path(), arguments, ""), told(with.path(), arguments, ""));
        assert!(!one.contains("A form says:") && flat(&two).contains("A form says: agree"), "{arguments:?}");
    }
}

#[test]
fn a_form_that_cannot_be_taken_is_refused_whole_and_keeps_nothing() {
    let data = folder();
    let blank = told(data.path(), &["review", "--form", "ron"], "");
    let (code, out, err) = run(data.path(), &["review", "--read", "-"], &blank);
    assert!(code == 65 && out.is_empty(), "{code}");
    for wanted in
        ["this form was not taken in", "role: the role is not filled in", "write what signed it", "nothing is marked"]
    {
        assert!(err.contains(wanted), "{wanted}: {err}");
    }
    let hostile = agreed(data.path()).replacen("remark: \"\"", "remark: \"\u{1b}]0;x\u{7}\u{202e}\"", 1);
    let (code, _, err) = run(data.path(), &["review", "--read", "-"], &hostile);
    assert!(code == 65 && err.contains("U+001B") && !err.contains('\u{1b}') && !err.contains('\u{202e}'), "{err:?}");
    let strange = agreed(data.path()).replacen("bird:", "bird:\u{202e}", 1);
    let (code, _, err) = run(data.path(), &["review", "--read", "-"], &strange);
    assert!(code == 65 && err.contains("no such item") && !err.contains('\u{202e}'), "{err:?}");
    let huge = "x".repeat(3 << 20);
    let (code, _, err) = run(data.path(), &["review", "--read", "-"], &huge);
    assert!(code == 65 && err.contains("at most"), "{err}");
    let (code, _, err) = run(data.path(), &["review", "--read", "no/such/form.ron"], "");
    assert!(code == 66 && err.contains("cannot be read"), "{err}");
    let (code, ..) = run(data.path(), &["review", "--read", "-", "--form", "txt"], "");
    assert_eq!(code, 2);
    assert!(!data.path().join("coopside.sqlite").exists(), "nothing is kept of a form that was refused");
}

/// A protocol of one's own that differs in one rule's words: that rule loses what the form says, the others keep it.
#[test]
fn a_changed_rule_loses_what_the_form_says() {
    let data = folder();
    told(data.path(), &["review", "--read", "-"], &agreed(data.path()));
    let own = data.path().join("own");
    copy(&PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("assets/protocol"), &own);
    let blank = told(data.path(), &["review", "--form", "ron"], "");
    let first = blank.lines().find_map(|line| line.trim().strip_prefix("// R1: "));
    let said = format!("reason: \"{}\"", first.unwrap_or_else(|| panic!("no rule: {blank}")));
    let files = fs::read_dir(own.join("rules")).unwrap_or_else(|error| panic!("{error}")).flatten();
    let holds = |path: &PathBuf| fs::read_to_string(path).is_ok_and(|text| text.contains(&said));
    let file = files.map(|entry| entry.path()).find(holds).unwrap_or_else(|| panic!("{said} stands nowhere"));
    let text = fs::read_to_string(&file).unwrap_or_else(|error| panic!("{error}"));
    let changed = format!("{} Changed.\"", said.trim_end_matches('"'));
    fs::write(&file, text.replacen(&said, &changed, 1)).unwrap_or_else(|error| panic!("{error}"));
    let count = |arguments: &[&str]| flat(&told(data.path(), arguments, "")).matches("A form says: agree").count();
    let own = own.display().to_string();
    let (before, after) = (count(&["sources"]), count(&["sources", "--protocol", &own]));
    assert!(before > 10);
    assert_eq!(after, before - 1);
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap_or_else(|error| panic!("{error}"));
    for entry in fs::read_dir(from).unwrap_or_else(|error| panic!("{error}")).flatten() {
        let (path, into) = (entry.path(), to.join(entry.file_name()));
        if path.is_dir() {
            copy(&path, &into);
        } else {
            fs::copy(&path, &into).unwrap_or_else(|error| panic!("{error}"));
        }
    }
}
