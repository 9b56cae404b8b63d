//! The outside world: command line, files, clock, terminal. The only room with effects.

mod cases;
mod clocks;
mod command;
mod covers;
mod examine;
mod exit;
mod flock;
mod front;
mod gathered;
mod handover;
mod here;
pub mod input;
mod layout;
mod lesson;
pub mod moment;
mod opened;
mod options;
mod output;
mod planning;
mod prove;
mod review;
mod scenario;
mod set_aside;
mod signals;
mod sitting;
mod terminal;
mod words;
mod writer;

use crate::ledger::Filter;
use cases::CaseCommands;
use clap::{Args, Parser, Subcommand};
use options::Options;
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
    #[command(flatten)]
    told: HowTold,
    /// A translation in place of English: a folder named by its language, as `coopside words new` makes one. It must be whole.
    #[arg(long, value_name = "FOLDER", env = "COOPSIDE_WORDS", global = true)]
    words: Option<PathBuf>,
    /// Break down on purpose once the screen shows, to see that the terminal is given back.
    #[arg(long, hide = true)]
    break_down: bool,
    #[command(subcommand)]
    command: Option<Command>,
}

/// How it is told.
#[derive(Clone, Copy, Debug, Args)]
struct HowTold {
    /// Print it as JSON, for another program; each schema stands in the field `schema`.
    #[arg(long, global = true)]
    json: bool,
    /// Write it for a voice: one thought a line, no marks, no pictures, units and times of day in words.
    #[arg(long, global = true, conflicts_with = "json")]
    aloud: bool,
    /// Examine or practise line by line, for a screen reader or a terminal that cannot draw: nothing moves, each answer is a line.
    #[arg(long, global = true, conflicts_with = "json")]
    spoken: bool,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Judge a bird from a file of notes (RON or JSON; `-` reads standard input) and print verdict and plan.
    Judge {
        /// The notes, for example `(answers: {"kind": "hen", "eyelid": "white"})`.
        file: PathBuf,
        /// Judge as if it were this moment, for example `2026-05-01T14:00:00Z`.
        #[arg(long, value_name = "TIME")]
        at: Option<chrono::DateTime<chrono::Utc>>,
    },
    /// The plan for a bird from a file of notes, made for what is in the house.
    Plan {
        /// The notes, as for `judge`.
        file: PathBuf,
        /// What is in the house, for example `gauze; povidone_iodine 10 %`; else what was kept on screen.
        #[arg(long, value_name = "LIST")]
        with: Option<String>,
        /// The cards alone, as the screen shows them: what to do now, then, and in the days.
        #[arg(long)]
        course: bool,
        /// Plan as if it were this moment, for example `2026-05-01T14:00:00Z`.
        #[arg(long, value_name = "TIME")]
        at: Option<chrono::DateTime<chrono::Utc>>,
    },
    /// What may be used of a product: its ingredients as printed on the label.
    Label(planning::Product),
    /// What to have in the house before it happens, and why; and what of it is there.
    Kit {
        /// What is in the house; else what was kept on screen.
        #[arg(long, value_name = "LIST")]
        with: Option<String>,
    },
    /// Write down whom you call about a bird, once; without a name given, print it.
    Contacts(planning::Calls),
    /// List the cases, those due first.
    Cases {
        /// Letters that must stand in the bird's name, her kind, the need or the case's name.
        letters: Option<String>,
        /// Closed cases too.
        #[arg(long)]
        closed: bool,
        /// Cases put out of sight too.
        #[arg(long)]
        archived: bool,
    },
    /// Tell one case: what is due, need and weights over time, what a vet said, how it ended.
    Case {
        /// The bird's name, or the case's as `cases` shows it.
        name: String,
    },
    /// List the cases that are due a look, the longest overdue first.
    Due,
    /// Write the looks of the next two weeks as a calendar (iCalendar); told again, it replaces, and cancels what is no longer due.
    Reminders {
        /// Where to; standard output where nothing is said. A file that is no calendar of ours is not written over.
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
    /// Practise on scripted birds that cannot be hurt: the list of lessons, one by name, or one drawn with a number.
    #[command(visible_alias = "practice")]
    Practise(lesson::PractiseArguments),
    /// Make scripted birds of your own: check them, or begin with a skeleton.
    Scenario {
        #[command(subcommand)]
        what: scenario::What,
    },
    /// Make a backup of the ledger, opened and checked.
    Backup,
    /// Put a backup in the ledger's place; what stood there is kept beside it.
    Restore {
        /// Which one; the newest good one where none is named.
        file: Option<PathBuf>,
    },
    /// Write a case, or all of them, as JSON lines (schema `coopside.events/1`), nothing left out.
    Export {
        /// The bird's name, or the case's; all cases where none is named.
        name: Option<String>,
        /// Where to; standard output where nothing is said. A file that is there is not written over.
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
    },
    /// Take in cases that were exported: all of a file or nothing; what is there already is not doubled.
    Import {
        /// The file.
        file: PathBuf,
    },
    /// Hand a bird over: one page for a vet, another volunteer or the next shift; or cage cards.
    Handover(handover::HandoverArguments),
    /// Write the packet for an avian vet: birds and every rule that can kill, to agree with, change or reject; take a form back in.
    Review(review::ReviewArguments),
    /// Do one sum by itself, for example `coopside reckon solution stock=10% target=0.5% make=500ml`.
    Reckon {
        /// The sum; without one, all of them are told.
        what: Option<String>,
        /// Its values, as `name=value`.
        values: Vec<String>,
    },
    /// Print every source, how well it is known, what is borrowed, and what was left out on purpose.
    Sources {
        /// Print instead what can go wrong: the harm of doing and of not doing, a bird that shows it, what keeps it away, the tests.
        #[arg(long)]
        hazards: bool,
    },
    /// Prove a protocol: that worse never looks better, that every rule decides some bird, and more; else a bird that refutes it.
    Prove {
        /// A folder of protocol files, held against the shipped one as well; the shipped protocol where none is given.
        folder: Option<PathBuf>,
    },
    /// Print what the protocol holds; with `--json` all of it (schema `coopside.protocol/1`), for a program that judges by itself.
    Protocol,
    /// Print every key and where it works.
    Keys,
    /// Check a protocol: every fault at once, with file and line.
    Check {
        /// A folder of protocol files; the shipped protocol where none is given.
        folder: Option<PathBuf>,
    },
    /// Translate every sentence: begin a translation, or check one. Use it with `--words FOLDER`.
    Words {
        #[command(subcommand)]
        what: words::What,
    },
    /// Lay out the files of a protocol: no line wider than 120 columns. What they say stays the same.
    Format {
        /// The folder of protocol files.
        folder: PathBuf,
        /// Change nothing; name the files that would change, and end with 65 if there is one.
        #[arg(long)]
        check: bool,
    },
}

const AFTER_HELP: &str = "\
Exit codes: 0 done; 1 refuted, or not decided; 2 wrong usage; 65 a file's content is wrong; 66 a file cannot be read;
74 the disk would not read or write; 128 + n ended by signal n.

Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";

/// Runs the program and says how it went.
pub fn main() -> ExitCode {
    let Arguments { data, country, protocol, words, told, break_down, command } = Arguments::parse();
    let HowTold { json, aloud, spoken } = told;
    let options = Options { protocol, data, country, words, json, aloud, spoken, ..Options::default() };
    let done = match command {
        Some(command) => run(command, &options),
        None => examine::examine(&options, break_down, None),
    };
    exit::code(done, options.words())
}

fn run(command: Command, options: &Options) -> anyhow::Result<ExitCode> {
    let own = options.protocol.as_deref();
    let done = match command {
        Command::Practise(asked) => return lesson::practise(options, asked),
        Command::Handover(asked) => handover::handover(options, &asked),
        Command::Review(asked) => review::review(options, &asked),
        Command::Scenario { what } => scenario::run(options, &what),
        Command::Judge { file, at } => command::judge(options, &file, at),
        Command::Plan { file, with, course, at } => {
            planning::plan(options, &file, at, &planning::Asked { with: with.as_deref(), course })
        }
        Command::Label(product) => planning::label(options, &product),
        Command::Contacts(calls) => planning::contacts(options, &calls),
        Command::Kit { with } => planning::kit(options, with.as_deref()),
        Command::Cases { letters, closed, archived } => {
            let filter = Filter { text: letters.unwrap_or_default(), closed, archived };
            CaseCommands::at(options)?.cases(&filter)
        }
        Command::Case { name } => CaseCommands::at(options)?.case(&name),
        Command::Due => CaseCommands::at(options)?.due(),
        Command::Reminders { output } => CaseCommands::at(options)?.reminders(output.as_deref()),
        Command::Backup => CaseCommands::at(options)?.backup(),
        Command::Restore { file } => CaseCommands::at(options)?.restore(file.as_deref()),
        Command::Export { name, output } => CaseCommands::at(options)?.export(name.as_deref(), output.as_deref()),
        Command::Import { file } => CaseCommands::at(options)?.import(&file),
        Command::Reckon { what, values } => command::reckon(options, what.as_deref(), &values),
        Command::Sources { hazards } => command::sources(options, hazards),
        Command::Check { folder } => command::check(options, folder.as_deref().or(own)),
        Command::Format { folder, check } => layout::format(options, &folder, check),
        Command::Prove { folder } => prove::prove(folder.as_deref().or(own), options.json),
        Command::Protocol => command::protocol_told(options),
        Command::Keys => command::keys(options),
        Command::Words { what } => words::run(options, &what),
    };
    done.map(|()| ExitCode::SUCCESS)
}
