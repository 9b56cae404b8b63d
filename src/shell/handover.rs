//! The handover sheet and cage cards from the command line, for a kept case or a file of notes.

use super::command::{path, read, shown, write};
use super::covers;
use super::exit::Refusal;
use super::here::here;
use super::options::Options;
use super::planning::kept_contacts;
use crate::care::contacts::Contacts;
use crate::care::cupboard::Cupboard;
use crate::care::{self, Plan};
use crate::content::sheet::{Sheet, SheetCase, card, sheet};
use crate::days::due::{Due, due};
use crate::days::{Days, known};
use crate::finding::Findings;
use crate::finding::log::{Entry, Stamped};
use crate::ledger::{self, Ledger, LedgerError, Setting};
use crate::notes;
use crate::phrase::{Phrase, Text, command as phrase};
use crate::protocol::Protocol;
use crate::protocol::fault::Faults;
use crate::prove::{self, Whole};
use crate::render::sheet::{
    cards_html, cards_json, cards_markdown, cards_pdf, cards_text, html, json, markdown, pdf, text,
};
use crate::zone::Zone;
use anyhow::Result;
use chrono::{DateTime, Utc};
use clap::{Args, ValueEnum};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// What is asked of the sheet.
#[derive(Debug, Args)]
pub struct HandoverArguments {
    /// A bird's name, a case's, or a file of notes (`.ron`, `.json`). Several with `--cards`.
    #[arg(required = true)]
    birds: Vec<String>,
    /// Where to: `.html`, `.pdf`, `.md`, `.txt` or `.json`; plain text to standard output where nothing is said.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The form, where the file's name does not say it.
    #[arg(long, value_name = "FORM")]
    form: Option<Format>,
    /// Write over a file that is there.
    #[arg(long)]
    over: bool,
    /// Tell who keeps her and where, and whom they call; left out unless you ask for it.
    #[arg(long)]
    with_keeper: bool,
    /// Cage cards in place of the sheet, one a bird.
    #[arg(long)]
    cards: bool,
    /// Tell it as if it were this moment, for example `2026-05-01T14:00:00Z`.
    #[arg(long, value_name = "TIME")]
    at: Option<DateTime<Utc>>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    Txt,
    Md,
    Html,
    Pdf,
    Json,
}

/// A bird as it is kept or written down.
struct Bird {
    log: Vec<Stamped>,
    days: Days,
    findings: Findings,
    verdict: Whole,
    plan: Plan,
    due: Due,
    practice: bool,
}

/// Writes the sheet, or cards.
pub fn handover(options: &Options, asked: &HandoverArguments) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let now = asked.at.unwrap_or_else(Utc::now);
    let folder = options.folder()?;
    let birds =
        asked.birds.iter().map(|name| bird(protocol, &folder, name, reader.zone, now)).collect::<Result<Vec<_>>>()?;
    let form = form(asked)?;
    let bytes = if asked.cards {
        let told: Vec<SheetCase> = birds.iter().map(|bird| bird.told(None)).collect();
        cards_in(form, &reader.cards(&card::cards(protocol, &told, reader)))?
    } else {
        let [bird] = birds.as_slice() else {
            return Err(Refusal::Usage(phrase::one_bird().into()).into());
        };
        let keeper = asked.with_keeper.then(|| kept_contacts(&folder)).transpose()?;
        let sheet = reader.sheet(&sheet(protocol, bird.told(keeper.as_ref()), reader, now));
        sheet_in(form, &sheet)?
    };
    match &asked.output {
        Some(to) => {
            place(to, &bytes, asked.over)?;
            options.done(&[phrase::written(path(to)).into()])
        }
        None => write(&String::from_utf8(bytes).map_err(|_| Refusal::Usage(phrase::pdf_to_screen().into()))?),
    }
}

fn sheet_in(form: Format, sheet: &Sheet) -> Result<Vec<u8>> {
    Ok(match form {
        Format::Txt => text(sheet).into_bytes(),
        Format::Md => markdown(sheet).into_bytes(),
        Format::Html => html(sheet).map_err(unset(phrase::page_unset))?.into_bytes(),
        Format::Pdf => pdf(sheet).map_err(unset(phrase::pdf_unset))?,
        Format::Json => (serde_json::to_string_pretty(&json(sheet))? + "\n").into_bytes(),
    })
}

fn cards_in(form: Format, cards: &card::Cards) -> Result<Vec<u8>> {
    Ok(match form {
        Format::Txt => cards_text(cards).into_bytes(),
        Format::Md => cards_markdown(cards).into_bytes(),
        Format::Html => cards_html(cards).map_err(unset(phrase::cards_unset))?.into_bytes(),
        Format::Pdf => cards_pdf(cards).map_err(unset(phrase::pdf_unset))?,
        Format::Json => (serde_json::to_string_pretty(&cards_json(cards))? + "\n").into_bytes(),
    })
}

fn form(asked: &HandoverArguments) -> Result<Format> {
    let by_name = asked.output.as_ref().and_then(|path| path.extension()?.to_str().map(str::to_lowercase));
    match (asked.form, by_name.as_deref()) {
        (Some(form), _) => Ok(form),
        (None, Some("html" | "htm")) => Ok(Format::Html),
        (None, Some("pdf")) => Ok(Format::Pdf),
        (None, Some("md")) => Ok(Format::Md),
        (None, Some("json")) => Ok(Format::Json),
        (None, Some("txt")) => Ok(Format::Txt),
        (None, None) if asked.output.is_none() => Ok(Format::Txt),
        (None, other) => {
            let what = other.map_or_else(phrase::no_ending, |other| phrase::no_form(Text::typed(other)));
            Err(Refusal::Usage(what.into()).into())
        }
    }
}

impl Bird {
    fn told<'a>(&'a self, keeper: Option<&'a Contacts>) -> SheetCase<'a> {
        let Self { log, days, findings, verdict, plan, due, practice } = self;
        SheetCase { log, days, findings, verdict, plan, due, keeper, practice: *practice }
    }

    fn of(protocol: &Protocol, log: Vec<Stamped>, cupboard: &Cupboard, zone: Zone, now: DateTime<Utc>) -> Self {
        let days = Days::of(&log);
        let findings = days.sittings.last().map(|last| known(&log, last)).unwrap_or_default();
        let verdict = prove::judge(protocol, &findings, now);
        let plan = care::plan(protocol, &verdict, cupboard, zone);
        let due = due(protocol, &log, &days, cupboard, zone, now);
        Self { log, days, findings, verdict, plan, due, practice: false }
    }
}

fn bird(protocol: &Protocol, folder: &Path, name: &str, zone: Zone, now: DateTime<Utc>) -> Result<Bird> {
    let path = Path::new(name);
    let is_file = path.extension().is_some_and(|extension| extension == "ron" || extension == "json") || name == "-";
    if is_file {
        let mut bird = Bird::of(protocol, written(protocol, path, now)?, &Cupboard::default(), zone, now);
        // Notes hold what somebody chose to write down: what they leave out was not left open.
        bird.due.examine = None;
        return Ok(bird);
    }
    if !ledger::is_there(folder)? {
        return Err(LedgerError::NoCase(name.to_owned()).into());
    }
    let ledger = Ledger::open_or_read(folder)?;
    let case = ledger.load(ledger.find(name)?)?;
    let cupboard = covers::cupboard(&ledger)?;
    let practice = ledger.setting(Setting::Practice)?.is_some();
    Ok(Bird { practice, ..Bird::of(protocol, case.log, &cupboard, zone, now) })
}

/// A file of notes as the log of an examination.
fn written(protocol: &Protocol, file: &Path, now: DateTime<Utc>) -> Result<Vec<Stamped>> {
    let text = read(file)?;
    let told = |faults: Faults| Refusal::Data(phrase::notes_untold(shown(&faults)).into());
    let (findings, noted) = notes::read_whole(protocol, &file.display().to_string(), &text, now).map_err(told)?;
    let at = findings.said().first().map_or(now, |said| said.at);
    let stamp = |entry| Stamped { at, entry };
    let mut log: Vec<Stamped> = (0..findings.wounds()).map(|_| stamp(Entry::FoundWound)).collect();
    log.extend(findings.said().iter().map(|said| stamp(Entry::Said(vec![said.statement.clone()]))));
    if findings.looked_over() {
        log.push(stamp(Entry::LookedOver));
    }
    log.extend(noted.name.map(|name| stamp(Entry::Named(name))));
    log.extend(noted.particulars.into_iter().map(|(what, said)| stamp(Entry::Noted(what, said))));
    Ok(log)
}

/// Puts the sheet by as a page that prints, in the folder of the cases; returns where.
pub fn put_by(folder: &Path, sheet: &Sheet, now: DateTime<Utc>) -> Result<PathBuf> {
    let letters = sheet.bird.chars().map(|letter| if letter.is_alphanumeric() { letter } else { '-' });
    let name: String = letters.take(40).collect();
    let sheets = folder.join("sheets");
    let to = sheets.join(format!("{name}-{}.html", here().local(now).format("%Y-%m-%d-%H%M%S")));
    let unmade = |error| Refusal::Failed(phrase::folder_unmade(path(&sheets), shown(&error)).into());
    std::fs::create_dir_all(&sheets).map_err(unmade)?;
    place(&to, html(sheet).map_err(unset(phrase::page_unset))?.as_bytes(), false)?;
    Ok(to)
}

/// What could not be set, with what went wrong.
pub fn unset<E: std::fmt::Display>(what: fn(Text) -> Phrase) -> impl Fn(E) -> Refusal {
    move |error| Refusal::Failed(what(shown(&error)).into())
}

/// Puts a file in place whole or not at all; one that is there is left alone unless it is asked for.
pub fn place(to: &Path, bytes: &[u8], over: bool) -> Result<()> {
    let lost = |error: io::Error| Refusal::Failed(phrase::nothing_left(path(to), shown(&error)).into());
    if to.exists() && !over {
        return Err(Refusal::Usage(phrase::over(path(to)).into()).into());
    }
    let folder = to.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = NamedTempFile::new_in(folder).map_err(lost)?;
    file.write_all(bytes).and_then(|()| file.as_file().sync_all()).map_err(lost)?;
    let put = if over { file.persist(to) } else { file.persist_noclobber(to) };
    put.map(|_| ()).map_err(|error| lost(error.error).into())
}
