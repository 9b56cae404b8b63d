//! The real program line by line: without a screen, and on a terminal that cannot draw.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::terminal::{PATIENCE, Seat, folder};
use assert_cmd::Command;
use std::path::Path;

fn coopside(data: &Path, arguments: &[&str], lines: &str) -> (i32, String, String) {
    let mut command = Command::cargo_bin("coopside").unwrap_or_else(|error| panic!("{error}"));
    command.args(arguments).env("COOPSIDE_DATA", data).env("TZ", "UTC").timeout(PATIENCE * 2);
    let output = command.write_stdin(lines).output().unwrap_or_else(|error| panic!("{error}"));
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    (output.status.code().unwrap_or(-1), text(output.stdout), text(output.stderr))
}

#[test]
fn a_bird_is_examined_without_a_screen_and_her_case_is_kept() {
    let data = folder();
    let lines = "1\n\nnonsense\na\na\na\na\n1\n2\n1\n3\nv\nx\nx\n";
    let (code, out, err) = coopside(data.path(), &["--spoken"], lines);
    assert_eq!(code, 0, "{out}\n{err}");
    let said = ["1. bleeding hard", "Press and hold.", "\"nonsense\" means nothing here.", "Have you got her?"];
    for line in said.into_iter().chain(["What bird is she?", "So far: Vet at once.", "In short."]) {
        assert!(out.lines().any(|told| told.contains(line)), "{line}\n{out}");
    }
    assert!(!out.contains('\u{1b}'), "{out:?}");
    let caution = "Coopside is no vet, and no vet has reviewed it.";
    assert!(out.contains(caution), "{out}");
    let (code, kept, _) = coopside(data.path(), &["cases"], "");
    assert!(code == 0 && kept.contains("hen"), "{kept}");
    // Where lines end before she is left, what was said is kept as well.
    let (code, _, _) = coopside(data.path(), &["--spoken"], "1\n");
    let (_, kept, _) = coopside(data.path(), &["cases"], "");
    assert_eq!(code, 0);
    assert_eq!(kept.matches("vet at once").count(), 2, "{kept}");
}

#[test]
fn practice_goes_line_by_line_as_well() {
    let data = folder();
    let (code, out, err) = coopside(data.path(), &["practise", "--seed", "7", "--spoken"], "m\nx\nx\n");
    assert_eq!(code, 0, "{out}\n{err}");
    assert!(out.contains("PRACTICE") && out.contains("Coopside"), "{out}");
}

#[test]
fn without_a_terminal_nothing_is_asked_unless_it_goes_line_by_line() {
    let data = folder();
    let (code, out, err) = coopside(data.path(), &[], "1\n");
    assert_eq!((code, out.as_str()), (2, ""), "{err}");
    assert!(err.contains("coopside --spoken"), "{err}");
}

#[test]
fn a_terminal_that_cannot_draw_gets_lines_and_no_control_sequence() {
    let data = folder();
    let mut seat = Seat::take(data.path(), 60, 24, &[("TERM", "dumb")], &[]);
    seat.sends("1. bleeding hard");
    seat.press("1\n");
    seat.sends("Press and hold.");
    seat.press("x\n");
    seat.sends("A clock runs");
    seat.press("x\n");
    assert_eq!(seat.ends(), 0);
    let bytes = seat.sent.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
    assert!(!bytes.contains(&0x1b), "{}", String::from_utf8_lossy(&bytes));
}
