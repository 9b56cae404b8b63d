//! A control in code, shown by a broken build: a copy of the tree in which one line is replaced, built, and the test that must then
//! fail. The long form builds; the short one sees that the line still stands, once.

use super::hazards;
use crate::common::long;
use coopside::protocol::hazard::InCode;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::{env, fs};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

#[test]
fn what_a_broken_build_replaces_stands_exactly_once() {
    for row in hazards() {
        for code in &row.code {
            let found = text(&root().join(&code.file)).matches(&code.find).count();
            assert_eq!(found, 1, "{}: `{}` in {}", row.id, code.find, code.file);
            assert!(code.find != code.replace && !code.control.is_empty(), "{}", row.id);
        }
    }
}

/// `COOPSIDE_BROKEN=a,b` tries only those rows; the copy and what is built of it are kept beside the tests' own scratch.
#[test]
fn a_broken_build_fails_its_test() {
    if !long() {
        eprintln!("NOT RUN HERE: broken builds are for the long form, COOPSIDE_LONG=1");
        return;
    }
    let only = env::var("COOPSIDE_BROKEN").unwrap_or_default();
    let copy = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("broken");
    let tried = |id: &str| only.is_empty() || only.split(',').any(|one| one == id);
    let all = hazards();
    let rows = all.iter().filter(|row| tried(&row.id));
    let codes: Vec<(&str, &InCode)> =
        rows.flat_map(|row| row.code.iter().map(|code| (row.id.as_str(), code))).collect();
    let mut wrong = Vec::new();
    copy_tree(&root(), &copy);
    // A test that fails in the whole tree would show nothing in the broken one.
    for (id, code) in &codes {
        let told = outcome(&copy, code);
        if told != Outcome::Passes {
            wrong.push(format!("{id}: {} {told:?} though nothing is broken", code.test));
        }
    }
    for (id, code) in &codes {
        let broken = copy.join(&code.file);
        let whole = text(&broken);
        write(&broken, &whole.replacen(&code.find, &code.replace, 1));
        let told = outcome(&copy, code);
        write(&broken, &whole);
        println!("{id}: {}: {told:?}", code.test);
        if told != Outcome::Fails {
            wrong.push(format!("{id}: {} {told:?} though `{}` is broken", code.test, code.file));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What came of the test in the broken tree.
#[derive(Debug, PartialEq, Eq)]
enum Outcome {
    Fails,
    Passes,
    DoesNotBuild(String),
}

fn outcome(copy: &Path, code: &InCode) -> Outcome {
    let (binary, name) = code.test.split_once("::").unwrap_or_else(|| panic!("{}", code.test));
    let cargo = |args: &[&str]| {
        let mut cargo = Command::new(env!("CARGO"));
        cargo.args(["test", "--locked", "--test", binary]).args(args).current_dir(copy);
        cargo.env("CARGO_TARGET_DIR", copy.join("target")).env("INSTA_UPDATE", "no").env_remove("COOPSIDE_LONG");
        // Built for one test: what it takes to optimise it is not won back.
        cargo.env("CARGO_PROFILE_DEV_OPT_LEVEL", "0");
        // What few random birds show, more do.
        cargo.env("PROPTEST_CASES", "5000");
        cargo.output().unwrap_or_else(|error| panic!("cargo: {error}"))
    };
    let built = cargo(&["--no-run"]);
    if !built.status.success() {
        return Outcome::DoesNotBuild(String::from_utf8_lossy(&built.stderr).into_owned());
    }
    let ran = cargo(&["--", "--exact", name]);
    let out = String::from_utf8_lossy(&ran.stdout).into_owned();
    assert!(out.contains("running 1 test"), "{}: {out}", code.test);
    if ran.status.success() { Outcome::Passes } else { Outcome::Fails }
}

fn write(path: &Path, text: &str) {
    fs::write(path, text).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
}

/// Copies what a build needs; a file that is there with the same content is left alone, so that little is built anew.
fn copy_tree(from: &Path, to: &Path) {
    for name in ["Cargo.toml", "Cargo.lock", "README.md", ".cargo", "assets", "scenarios", "src", "tests"] {
        copy(&from.join(name), &to.join(name));
    }
}

fn copy(from: &Path, to: &Path) {
    if from.is_dir() {
        fs::create_dir_all(to).unwrap_or_else(|error| panic!("{}: {error}", to.display()));
        let entries = fs::read_dir(from).unwrap_or_else(|error| panic!("{}: {error}", from.display()));
        for entry in entries.flatten() {
            copy(&entry.path(), &to.join(entry.file_name()));
        }
        return;
    }
    let bytes = fs::read(from).unwrap_or_else(|error| panic!("{}: {error}", from.display()));
    if fs::read(to).ok().as_ref() != Some(&bytes) {
        fs::create_dir_all(to.parent().unwrap_or(to)).unwrap_or_else(|error| panic!("{}: {error}", to.display()));
        fs::write(to, bytes).unwrap_or_else(|error| panic!("{}: {error}", to.display()));
    }
}
