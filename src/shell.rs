//! The outside world: command line, files, clock, terminal. The only room with effects.

mod carer;
mod clerk;
mod command;
mod examine;
mod exit;
mod here;
mod press;
mod prove;
mod signals;
mod terminal;

use clap::{Parser, Subcommand};
use std::path::PathBuf;
use std::process::ExitCode;

/// Leads you through a head-to-tail check of a hurt hen, judges how bad it is, and says what to do.
///
/// Without a command the examination opens on the whole screen.
#[derive(Debug, Parser)]
#[command(version, after_help = AFTER_HELP)]
struct Arguments {
    /// Where cases are kept; a folder of your own data where nothing is said.
    #[arg(long, value_name = "FOLDER", env = "COOPSIDE_DATA", global = true)]
    data: Option<PathBuf>,
    /// Whose law is told, for example `uk`; else what was set on screen (or, without the screen, the strictest of all).
    #[arg(long, value_name = "COUNTRY", env = "COOPSIDE_COUNTRY", global = true)]
    country: Option<String>,
    /// A club's or clinic's own protocol in place of the shipped one: a folder. It must load and prove before it judges anything.
    #[arg(long, value_name = "FOLDER", env = "COOPSIDE_PROTOCOL", global = true)]
    protocol: Option<PathBuf>,
    /// Break down on purpose once the screen shows, to see that the terminal is given back.
    #[arg(long, hide = true)]
    break_down: bool,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Judge a bird from a file of notes (RON or JSON; `-` reads standard input) and print verdict and plan.
    Judge {
        /// The notes, for example `(answers: {"kind": "hen", "eyelid": "white"})`.
        file: PathBuf,
        /// Print all of it as JSON (schema `coopside.verdict/1`), with rule ids.
        #[arg(long)]
        json: bool,
        /// Judge as if it were this moment, for example `2026-05-01T14:00:00Z`.
        #[arg(long, value_name = "TIME")]
        at: Option<chrono::DateTime<chrono::Utc>>,
    },
    /// The plan for a bird from a file of notes, made for what is in the house.
    Plan {
        /// The notes, as for `judge`.
        file: PathBuf,
        /// Print it as JSON (schema `coopside.plan/1`).
        #[arg(long)]
        json: bool,
        /// What is in the house, for example `gauze; povidone_iodine 10 %`; else what was kept on screen.
        #[arg(long, value_name = "LIST")]
        with: Option<String>,
        /// Plan as if it were this moment, for example `2026-05-01T14:00:00Z`.
        #[arg(long, value_name = "TIME")]
        at: Option<chrono::DateTime<chrono::Utc>>,
    },
    /// What may be used of a product: its ingredients as printed on the label.
    Label {
        /// The ingredients, for example `povidone-iodine 10 %, glycerol, water`.
        ingredients: String,
        /// A bird to hold it against: a file of notes, as for `judge`.
        #[arg(long, value_name = "FILE")]
        bird: Option<PathBuf>,
        /// Print it as JSON (schema `coopside.label/1`).
        #[arg(long)]
        json: bool,
    },
    /// What to have in the house before it happens, and why; and what of it is there.
    Kit {
        /// What is in the house; else what was kept on screen.
        #[arg(long, value_name = "LIST")]
        with: Option<String>,
        /// Print it as JSON (schema `coopside.kit/1`).
        #[arg(long)]
        json: bool,
    },
    /// Do one sum by itself, for example `coopside reckon solution stock=10% target=0.5% make=500ml`.
    Reckon {
        /// The sum; without one, all of them are told.
        what: Option<String>,
        /// Its values, as `name=value`.
        values: Vec<String>,
        /// Print it as JSON (schema `coopside.reckon/1`).
        #[arg(long)]
        json: bool,
    },
    /// Print every source, how well it is known, what is borrowed, and what was left out on purpose.
    Sources,
    /// Prove a protocol: that worse never looks better, that every rule decides some bird, and more; else a bird that refutes it.
    Prove {
        /// A folder of protocol files; the shipped protocol where none is given.
        folder: Option<PathBuf>,
    },
    /// Print what the protocol holds; with `--json` all of it (schema `coopside.protocol/1`), for a program that judges by itself.
    Protocol {
        /// Print the whole checked protocol as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print every key and where it works.
    Keys,
    /// Check a protocol: every fault at once, with file and line.
    Check {
        /// A folder of protocol files; the shipped protocol where none is given.
        folder: Option<PathBuf>,
    },
}

const AFTER_HELP: &str = "\
Exit codes: 0 done; 1 refuted, or not decided; 2 wrong usage; 65 a file's content is wrong; 66 a file cannot be read;
74 output or answers could not be written; 128 + n ended by signal n.

Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";

/// Runs the program and says how it went.
pub fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let country = arguments.country.as_deref();
    let own = arguments.protocol.as_deref();
    let done = match arguments.command {
        Some(Command::Judge { file, json, at }) => command::judge(own, &file, json, at, country),
        Some(Command::Plan { file, json, with, at }) => {
            let at_hand = carer::AtHand { data: arguments.data, with };
            carer::plan(own, &file, json, at, country, &at_hand)
        }
        Some(Command::Label { ingredients, bird, json }) => {
            carer::label(own, country, &ingredients, bird.as_deref(), json)
        }
        Some(Command::Kit { with, json }) => {
            carer::kit(own, country, &carer::AtHand { data: arguments.data, with }, json)
        }
        Some(Command::Reckon { what, values, json }) => command::reckon(own, what.as_deref(), &values, json, country),
        Some(Command::Sources) => command::sources(own, country),
        Some(Command::Check { folder }) => command::check(folder.as_deref().or(own)),
        Some(Command::Prove { folder }) => prove::prove(folder.as_deref().or(own)),
        Some(Command::Protocol { json }) => command::protocol_told(own, json),
        Some(Command::Keys) => command::keys(),
        None => match examine::examine(own, arguments.data, country, arguments.break_down) {
            Ok(code) => return code,
            Err(error) => Err(error),
        },
    };
    exit::code(done)
}
