//! Making scripted birds: checking them, and a skeleton to begin with.

use super::command::{made, path, read, shown, write};
use super::exit::Refusal;
use super::options::Options;
use crate::phrase::{Text, command, lessons as phrase};
use crate::practice;
use anyhow::Result;
use clap::Subcommand;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::PathBuf;

/// A scripted bird to begin with: a lesson that holds against the shipped protocol, its parts explained in comments.
pub const SKELETON: &str = include_str!("../../assets/skeleton.ron");

/// What can be done with scripted birds.
#[derive(Debug, Subcommand)]
pub enum What {
    /// Check scripted birds: every fault at once, with file, line and hint. Birds of your own protocol need --protocol.
    Check {
        /// The files.
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// Write a skeleton to be changed: a bird that holds, its parts explained in comments.
    New {
        /// Where to; standard output where nothing is said. A file that is there is not written over.
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
}

/// Does it.
pub fn run(options: &Options, what: &What) -> Result<()> {
    match what {
        What::New { output: None } => write(SKELETON),
        What::New { output: Some(file) } => {
            let mut out = made(file)?;
            let lost = |error| Refusal::Failed(command::unwritten(path(file), shown(&error)).into());
            out.write_all(SKELETON.as_bytes()).map_err(lost)?;
            options.done(&[phrase::written(path(file)).into()])
        }
        What::Check { files } => check(options, files),
    }
}

fn check(options: &Options, files: &[PathBuf]) -> Result<()> {
    let protocol = options.open()?.protocol;
    let (mut good, mut faults, mut count) = (Vec::new(), String::new(), 0_usize);
    for file in files {
        let text = read(file)?;
        let (name, file_shown) = (file.file_stem().unwrap_or_default().to_string_lossy(), file.display().to_string());
        match practice::check(&protocol, &name, &file_shown, &text) {
            Ok(script) => {
                let told = if script.lesson().is_some() { phrase::is_lesson } else { phrase::is_bird };
                good.push(told(Text::typed(file_shown)).into());
            }
            Err(found) => {
                count += found.0.len();
                let _ = writeln!(faults, "{found}");
            }
        }
    }
    options.done(&good)?;
    if count == 0 {
        return Ok(());
    }
    let faults = Text::typed(faults.trim_end());
    // A question of one's own is unknown to the shipped protocol, and nothing else shows which one was asked.
    let told = if options.protocol.is_some() { phrase::faults } else { phrase::faults_of_shipped };
    Err(Refusal::Data(told(count, faults).into()).into())
}
