//! Laying out the files of a protocol.

use super::command::{protocol_files, write};
use super::exit::Refusal;
use super::handover::place;
use crate::protocol::layout::laid_out;
use anyhow::{Context, Result};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

/// Lays out every file of a folder in its place; or only tells which would change, and that as a fault.
pub fn format(folder: &Path, only_check: bool) -> Result<()> {
    let mut changed = Vec::new();
    for file in protocol_files(folder)? {
        let path = folder.join(&file.name);
        let laid = laid_out(&file.text)
            .map_err(|error| Refusal::Data(format!("{}, {error}; none of its lines was changed", path.display())))?;
        if laid != file.text {
            changed.push((path, laid));
        }
    }
    let mut told = String::new();
    for (path, laid) in &changed {
        if let (false, Err(error)) = (only_check, put(path, laid)) {
            // What is done already is told before what could not be.
            write(&told)?;
            return Err(error);
        }
        let _ = writeln!(told, "{}{}", if only_check { "" } else { "laid out: " }, path.display());
    }
    if only_check && !changed.is_empty() {
        let what = format!("these files are laid out differently; `coopside format {}` mends them:", folder.display());
        return Err(Refusal::Data(format!("{what}\n{}", told.trim_end())).into());
    }
    write(if told.is_empty() { "every file is laid out already\n" } else { &told })
}

/// Puts a file in its place with the rights it had; a link keeps leading to the file it leads to.
fn put(path: &Path, laid: &str) -> Result<()> {
    let what = || format!("{} could not be written; it is as it was", path.display());
    let real = path.canonicalize().with_context(what)?;
    let rights = fs::metadata(&real).with_context(what)?.permissions();
    place(&real, laid.as_bytes(), true)?;
    fs::set_permissions(&real, rights).with_context(what)
}
