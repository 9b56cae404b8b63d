//! Laying out the files of a protocol.

use super::command::{path as place_of, protocol_files, shown};
use super::exit::Refusal;
use super::handover::place;
use super::options::Options;
use crate::phrase::{Text, command as phrase};
use crate::protocol::layout::laid_out;
use anyhow::Result;
use std::fs;
use std::path::Path;

/// Lays out every file of a folder in its place; or only tells which would change, and that as a fault.
pub fn format(options: &Options, folder: &Path, only_check: bool) -> Result<()> {
    let mut changed = Vec::new();
    for file in protocol_files(folder)? {
        let path = folder.join(&file.name);
        let laid = laid_out(&file.text)
            .map_err(|error| Refusal::Data(phrase::not_laid_out(place_of(&path), shown(&error)).into()))?;
        if laid != file.text {
            changed.push((path, laid));
        }
    }
    let mut told = Vec::new();
    for (path, laid) in &changed {
        if let (false, Err(error)) = (only_check, put(path, laid)) {
            // What is done already is told before what could not be.
            options.done(&told)?;
            return Err(error);
        }
        told.push(if only_check { place_of(path) } else { phrase::laid_out(place_of(path)).into() });
    }
    if only_check && !changed.is_empty() {
        let what = phrase::laid_out_differently(place_of(folder), Text::lines(told));
        return Err(Refusal::Data(what.into()).into());
    }
    if told.is_empty() { options.done(&[phrase::all_laid_out().into()]) } else { options.done(&told) }
}

/// Puts a file in its place with the rights it had; a link keeps leading to the file it leads to.
fn put(path: &Path, laid: &str) -> Result<()> {
    let stays = |error| Refusal::Failed(phrase::stays(place_of(path), shown(&error)).into());
    let real = path.canonicalize().map_err(stays)?;
    let rights = fs::metadata(&real).map_err(stays)?.permissions();
    place(&real, laid.as_bytes(), true)?;
    Ok(fs::set_permissions(&real, rights).map_err(stays)?)
}
