//! Making scripted birds: checking them, and a skeleton to begin with.

use super::command::{made, read, write};
use super::exit::Refusal;
use super::prove::proven;
use crate::practice;
use anyhow::{Context, Result};
use clap::Subcommand;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::{Path, PathBuf};

/// A scripted bird with a comment on every line.
pub const SKELETON: &str = include_str!("../../assets/skeleton.ron");

/// What can be done with scripted birds.
#[derive(Debug, Subcommand)]
pub enum What {
    /// Check scripted birds: every fault at once, with file, line and hint.
    Check {
        /// The files.
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// Write a skeleton with a comment on every line.
    New {
        /// Where to; standard output where nothing is said. A file that is there is not written over.
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
}

/// Does it.
pub fn run(own: Option<&Path>, what: &What) -> Result<()> {
    match what {
        What::New { output: None } => write(SKELETON),
        What::New { output: Some(file) } => {
            let mut out = made(file)?;
            out.write_all(SKELETON.as_bytes()).with_context(|| format!("{} could not be written", file.display()))?;
            write(&format!("Written: {}. Check it with: coopside scenario check {}\n", file.display(), file.display()))
        }
        What::Check { files } => check(own, files),
    }
}

fn check(own: Option<&Path>, files: &[PathBuf]) -> Result<()> {
    let protocol = proven(own)?;
    let (mut good, mut faults, mut count) = (String::new(), String::new(), 0);
    for file in files {
        let text = read(file)?;
        let (name, shown) = (file.file_stem().unwrap_or_default().to_string_lossy(), file.display().to_string());
        match practice::check(&protocol, &name, &shown, &text) {
            Ok(script) => {
                let what = if script.lesson().is_some() { "a lesson" } else { "a bird to be judged" };
                let _ = writeln!(good, "{shown}: {what}; the protocol gives what it expects");
            }
            Err(found) => {
                count += found.0.len();
                let _ = writeln!(faults, "{found}");
            }
        }
    }
    write(&good)?;
    if count == 0 {
        return Ok(());
    }
    let noun = if count == 1 { "fault" } else { "faults" };
    Err(Refusal::Data(format!("{count} {noun}:\n{}", faults.trim_end())).into())
}
