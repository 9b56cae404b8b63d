//! Checks the shipped protocol when the program is built, and leaves it ready-made for the program to read at its start. What a
//! program seldom needs, the texts of the protocol and the letters of a printed page, it leaves folded small.

#![expect(dead_code, reason = "the rooms are those of the program; a build needs a part of each")]
#![allow(unfulfilled_lint_expectations, reason = "a lint that only looks at libraries has nothing to say here")]
#![allow(clippy::struct_field_names, reason = "what a library shows the world keeps its names; here it is private")]
#![allow(clippy::allow_attributes, reason = "nobody can expect an expectation to be unfulfilled")]

mod bird;
mod finding;
#[path = "words/pattern.rs"]
mod pattern;
#[path = "build/phrases.rs"]
mod phrases;
mod protocol;
mod typed;
mod unit;

use flate2::{Compress, Compression, FlushCompress, Status};
use protocol::{File, Protocol, hazard, order, ready};
use std::path::Path;
use std::process::ExitCode;
use std::{env, fs};

const FOLDER: &str = "assets/protocol";
const SCENARIOS: &str = "scenarios";
const HAZARDS: &str = "assets/hazards.ron";
const LETTERS: &str = "assets/fonts/DejaVuSansCondensed.ttf";
const WORDS: &str = "assets/words/en";

fn main() -> ExitCode {
    println!("cargo::rerun-if-changed={FOLDER}");
    println!("cargo::rerun-if-changed={HAZARDS}");
    println!("cargo::rerun-if-changed={LETTERS}");
    println!("cargo::rerun-if-changed={SCENARIOS}");
    println!("cargo::rerun-if-changed={WORDS}");
    match made() {
        Ok(()) => ExitCode::SUCCESS,
        Err(told) => {
            eprintln!("{told}");
            ExitCode::FAILURE
        }
    }
}

/// Leaves the packed protocol where the program takes it in; what stands in the way, in words.
fn made() -> Result<(), String> {
    let root = env::var_os("CARGO_MANIFEST_DIR").ok_or("this is run by cargo")?;
    let out = env::var_os("OUT_DIR").ok_or("this is run by cargo")?;
    let read = |name: &&str| {
        let path = Path::new(&root).join(FOLDER).join(name);
        let text = fs::read_to_string(&path).map_err(|error| format!("{} cannot be read: {error}", path.display()))?;
        Ok(File { name: (*name).to_owned(), text })
    };
    let files = order::FILES.iter().map(read).collect::<Result<Vec<_>, String>>()?;
    let protocol = Protocol::load(&files).map_err(|faults| format!("{FOLDER} has faults:\n{faults}"))?;
    let bytes = ready::pack(&protocol).map_err(|error| format!("the protocol cannot be packed: {error}"))?;
    let texts = ready::pack_files(&files).map_err(|error| format!("its files cannot be packed: {error}"))?;
    let letters =
        fs::read(Path::new(&root).join(LETTERS)).map_err(|error| format!("{LETTERS} cannot be read: {error}"))?;
    let birds = texts_of(&Path::new(&root).join(SCENARIOS), "ron")?;
    hazards(&Path::new(&root).join(HAZARDS), &protocol, &birds)?;
    let birds = ready::pack_files(&birds).map_err(|error| format!("the scripted birds cannot be packed: {error}"))?;
    let words = texts_of(&Path::new(&root).join(WORDS), "ftl")?;
    let functions = phrases::written(&words).map_err(|faults| format!("{WORDS} has faults:\n{faults}"))?;
    let words = words.iter().map(|file| Ok((file.name.as_str(), folded(file.text.as_bytes())?)));
    let words = words.collect::<Result<Vec<_>, String>>()?;
    let words = ready::pack_folded(&words).map_err(|error| format!("the catalogue cannot be packed: {error}"))?;
    for (name, bytes) in [
        ("phrases.rs", functions.into_bytes()),
        ("words", words),
        ("protocol.ready", bytes),
        ("protocol.files", folded(&texts)?),
        ("scenarios", folded(&birds)?),
        ("letters", folded(&letters)?),
    ] {
        let path = Path::new(&out).join(name);
        fs::write(&path, bytes).map_err(|error| format!("{} cannot be written: {error}", path.display()))?;
    }
    Ok(())
}

/// Holds every name in the list of hazards against the protocol and the scripted birds.
fn hazards(path: &Path, protocol: &Protocol, birds: &[File]) -> Result<(), String> {
    let text = fs::read_to_string(path).map_err(|error| format!("{} cannot be read: {error}", path.display()))?;
    let names: Vec<&str> = birds.iter().map(|bird| bird.name.as_str()).collect();
    let loaded = hazard::load(&File { name: HAZARDS.to_owned(), text }, protocol, &names);
    loaded.map(|_| ()).map_err(|faults| format!("what can go wrong is listed with faults:\n{faults}"))
}

/// Every file of a folder that ends so, by its name without that ending, in the order of their names.
fn texts_of(folder: &Path, ends: &str) -> Result<Vec<File>, String> {
    let unread = |path: &Path, error: &dyn std::fmt::Display| format!("{} cannot be read: {error}", path.display());
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(|error| unread(folder, &error))? {
        let path = entry.map_err(|error| unread(folder, &error))?.path();
        if path.extension().is_some_and(|ending| ending == ends) {
            let text = fs::read_to_string(&path).map_err(|error| unread(&path, &error))?;
            let name = path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            files.push(File { name, text });
        }
    }
    files.sort_by(|one, other| one.name.cmp(&other.name));
    Ok(files)
}

/// Bytes folded small (zlib).
fn folded(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let mut folded = Vec::with_capacity(bytes.len());
    match Compress::new(Compression::best(), true).compress_vec(bytes, &mut folded, FlushCompress::Finish) {
        Ok(Status::StreamEnd) => Ok(folded),
        other => Err(format!("folding ended with {other:?}")),
    }
}
