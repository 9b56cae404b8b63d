//! Translations from the command line: the files one begins with, and whether one is whole.

use super::command::{made, path, shown, texts_in};
use super::exit::Refusal;
use super::options::{Options, translated};
use super::prove::proven;
use crate::phrase::command as phrase;
use crate::words::translation;
use anyhow::Result;
use clap::Subcommand;
use std::fs;
use std::io::Write as _;
use std::path::PathBuf;

/// What can be done with translations.
#[derive(Debug, Subcommand)]
pub enum What {
    /// Write every sentence in English into a folder named by the language, to be translated there.
    New {
        /// The folder, for example `de` or `pt-BR`. It must not be there.
        folder: PathBuf,
    },
    /// Check a translation: every phrase that is missing, unknown or takes something else.
    Check {
        /// The folder.
        folder: PathBuf,
    },
}

/// Does it.
pub fn run(options: &Options, what: &What) -> Result<()> {
    match what {
        What::New { folder } => {
            let protocol = proven(options.protocol.as_deref())?;
            let unmade = |error| Refusal::Failed(phrase::folder_unmade(path(folder), shown(&error)).into());
            if folder.exists() {
                return Err(Refusal::Usage(phrase::words_there(path(folder)).into()).into());
            }
            fs::create_dir(folder).map_err(unmade)?;
            let files = translation::begun(&protocol);
            for file in &files {
                let to = folder.join(&file.name).with_extension("ftl");
                let lost = |error| Refusal::Failed(phrase::unwritten(path(&to), shown(&error)).into());
                made(&to)?.write_all(file.text.as_bytes()).map_err(lost)?;
            }
            options.done(&[phrase::words_begun(files.len(), path(folder)).into()])
        }
        What::Check { folder } => {
            let protocol = proven(options.protocol.as_deref())?;
            let files = texts_in(folder, "ftl")?;
            translated(folder, &files, &mut protocol.clone())?;
            let (same, all) = translation::untranslated(&files, &protocol);
            options.done(&[phrase::words_whole(path(folder), same, all).into()])
        }
    }
}
