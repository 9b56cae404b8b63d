//! The commands for whoever keeps the ledger: the cases, one case, what is due, backups, and cases carried out and in.

use super::command::{country_of, made, write};
use super::covers;
use super::examine::data_folder;
use super::exit::Refusal;
use super::handover::place;
use super::here::here;
use super::prove::proven;
use crate::content;
use crate::content::days::CaseDays;
use crate::content::document::upper_first;
use crate::content::old::caution_text;
use crate::days::Days;
use crate::days::cover::state;
use crate::days::due::{Fate, bird, due, judged};
use crate::finding::Findings;
use crate::ledger::{self, CarryError, CaseId, Covered, Filter, Lacking, Ledger, LedgerError, Setting, State};
use crate::protocol::Protocol;
use crate::protocol::texts::Country;
use crate::prove::judge_bands;
use crate::render::{self, calendar};
use crate::words::{Reader, english};
use crate::zone::Zone;
use anyhow::Result;
use chrono::{DateTime, Utc};
use serde_json::json;
use std::fmt::Write as _;
use std::fs::{self, File};
use std::io::{self, BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

/// How many cases a list shows.
const MOST: usize = 100;

/// Cases to be listed.
#[derive(Clone, Copy)]
struct List<'c> {
    cases: &'c [Covered],
    /// How many there are in all.
    all: usize,
    /// What is said where there is none.
    none: &'static str,
}

/// Where the ledger is and with what it is judged.
pub struct CaseCommands {
    protocol: Protocol,
    folder: PathBuf,
}

impl CaseCommands {
    /// Finds the ledger's folder and proves the protocol.
    pub fn at(own: Option<&Path>, data: Option<PathBuf>) -> Result<Self> {
        Ok(Self { protocol: proven(own)?, folder: data_folder(data)? })
    }

    fn country(&self, named: Option<&str>) -> Result<&Country> {
        country_of(&self.protocol, named)
    }

    /// The ledger, to write where it can be written; none where there is none: a command that only reads makes no file.
    fn ledger(&self) -> Result<Option<Ledger>> {
        if ledger::is_there(&self.folder)? { Ok(Some(Ledger::open_or_read(&self.folder)?)) } else { Ok(None) }
    }

    /// Lists cases, those due first.
    pub fn cases(&self, filter: &Filter, as_json: bool, country: Option<&str>) -> Result<()> {
        let (country, now) = (self.country(country)?, Utc::now());
        let (mut cases, mut all) = (Vec::new(), 0);
        if let Some(mut ledger) = self.ledger()? {
            covers::renew(&mut ledger, &self.protocol, now)?;
            cases = ledger.cases(filter, 0, MOST)?;
            all = ledger.count(filter)?;
        }
        Self::list(List { cases: &cases, all, none: "No case here." }, as_json, country, now)
    }

    /// Lists what is due now, the longest overdue first.
    pub fn due(&self, as_json: bool, country: Option<&str>) -> Result<()> {
        let (country, now) = (self.country(country)?, Utc::now());
        let (mut cases, mut all) = (Vec::new(), 0);
        if let Some(mut ledger) = self.ledger()? {
            covers::renew(&mut ledger, &self.protocol, now)?;
            cases = ledger.due_before(now, MOST)?;
            all = ledger.count_due(now)?;
        }
        Self::list(
            List { cases: &cases, all, none: "Nothing is due now. `coopside cases` tells what comes next." },
            as_json,
            country,
            now,
        )
    }

    fn list(list: List, as_json: bool, country: &Country, now: DateTime<Utc>) -> Result<()> {
        let List { cases, all, none } = list;
        let caution = caution_text(country);
        if as_json {
            let told = json!({
                "schema": "coopside.cases/1", "caution": caution, "reviewed_by_a_veterinarian": false,
                "now": now.to_rfc3339(), "count": all, "cases": cases.iter().map(case_json).collect::<Vec<_>>(),
            });
            return write(&(serde_json::to_string_pretty(&told)? + "\n"));
        }
        let mut out = String::new();
        for case in cases {
            let _ = writeln!(out, "{}", line(case, here(), now));
        }
        if cases.is_empty() {
            let _ = writeln!(out, "{none}");
        }
        if all > cases.len() {
            let _ = writeln!(out, "and {} more; `coopside cases LETTERS` looks for some.", all - cases.len());
        }
        write(&format!("{out}\n{caution}\n"))
    }

    /// Tells one case: what is due, how she has gone, what a vet said, how it ended.
    pub fn case(&self, name: &str, country: Option<&str>) -> Result<()> {
        let (country, now) = (self.country(country)?, Utc::now());
        let ledger = self.ledger()?.ok_or_else(|| LedgerError::NoCase(name.to_owned()))?;
        let case = ledger.load(ledger.find(name)?)?;
        let cupboard = covers::cupboard(&ledger)?;
        let days = Days::of(&case.log);
        let due = due(&self.protocol, &case.log, &days, &cupboard, now);
        let verdict = days.sittings.last().map(|last| judged(&self.protocol, &case.log, last, &cupboard).0);
        let verdict = verdict.unwrap_or_else(|| judge_bands(&self.protocol, &Findings::default(), now));
        let need = english(state(&self.protocol, &case.log, &days, &verdict));
        let bird = upper_first(&english(bird(&self.protocol, &case.log, &days)));
        let reader = Reader::english(here(), country);
        let told = content::days::sections(
            &self.protocol,
            CaseDays { log: &case.log, days: &days, due: &due, no_vet: verdict.no_vet() },
            country,
        );
        let text = render::text::sections(&reader.sections(told));
        let kept: Vec<String> =
            ledger.marks(&case.id)?.iter().map(|mark| named(&mark.version, &mark.fingerprint)).collect();
        let by = named(&self.protocol.version, &self.protocol.fingerprint);
        let kept = format!("Told by protocol {by}; kept while it was {}.", kept.join(", then "));
        write(&format!("{bird}: {need}\ncase {}\n{kept}\n\n{text}", case.id.as_str()))
    }

    /// Writes the looks of the next two weeks as a calendar. What was told before and is no longer due is cancelled in it.
    pub fn reminders(&self, to: Option<&Path>, country: Option<&str>) -> Result<()> {
        let (country, now) = (self.country(country)?, Utc::now());
        let caution = caution_text(country);
        let Some(mut ledger) = self.ledger()? else {
            return Err(Refusal::NoInput("there is no ledger yet".into()).into());
        };
        covers::renew(&mut ledger, &self.protocol, now)?;
        let cupboard = covers::cupboard(&ledger)?;
        let (mut reminders, mut unread) = (Vec::new(), Vec::new());
        // Every bird that waits for a look by then, however many are overdue.
        for covered in ledger.due_before(now + calendar::AHEAD, usize::MAX)? {
            let case = match ledger.load(covered.id) {
                Ok(case) => case,
                // One case that cannot be read takes nobody else's reminders away.
                Err(error @ (LedgerError::Unreadable { .. } | LedgerError::NotWhole(_))) => {
                    unread.push(error.to_string());
                    continue;
                }
                Err(error) => return Err(error.into()),
            };
            let days = Days::of(&case.log);
            let bird = english(bird(&self.protocol, &case.log, &days));
            let due = due(&self.protocol, &case.log, &days, &cupboard, now);
            reminders.extend(due.examine.map(|_| calendar::examination(case.id.as_str(), &bird, &caution, now)));
            let ahead = due.with(Fate::Ahead).filter(|look| look.at < now + calendar::AHEAD);
            reminders
                .extend(ahead.map(|look| calendar::reminder(&self.protocol, case.id.as_str(), &bird, look, &caution)));
        }
        // A memory that cannot be read is none: the calendar is told all of it again.
        let before =
            ledger.setting(Setting::Reminded)?.and_then(|kept| serde_json::from_str(&kept).ok()).unwrap_or_default();
        let (text, memory) = calendar::calendar(&reminders, &before, now);
        match to {
            Some(path) => replace_own(path, &text)?,
            None => write(&text)?,
        }
        match ledger.set(Setting::Reminded, &serde_json::to_string(&memory)?) {
            Err(LedgerError::ReadOnly) => {
                let what = "coopside: the ledger can only be read: looks that fall away later cannot be cancelled";
                writeln!(io::stderr(), "{what}")?;
            }
            other => other?,
        }
        if let Some(path) = to {
            let what = "Your calendar may not sound the alarm; Coopside does while it is open.";
            write(&format!("{} looks in {}. {what}\n", reminders.len(), path.display()))?;
        }
        if unread.is_empty() {
            return Ok(());
        }
        Err(Refusal::Data(format!("no look of these stands in the calendar: {}", unread.join("; "))).into())
    }

    /// Makes a backup, and says where.
    pub fn backup(&self) -> Result<()> {
        let Some(ledger) = self.ledger()? else { return write("There is no ledger yet.\n") };
        let backup = ledger.back_up(Utc::now())?;
        write(&format!("{} holds {} events, opened and checked.\n", backup.path.display(), backup.events))
    }

    /// Puts a backup in the ledger's place: the newest good one, or the one named.
    pub fn restore(&self, file: Option<&Path>) -> Result<()> {
        let good = ledger::good(&self.folder);
        let chosen = match file {
            // One that holds every case whole goes before a newer one that does not.
            None => good.iter().rev().find(|backup| backup.lacking == 0).or(good.last()),
            Some(file) => good.iter().find(|backup| names(file, &backup.path)),
        };
        let Some(backup) = chosen else {
            let named =
                file.map_or_else(String::new, |file| format!("{} is no good backup of this ledger; ", file.display()));
            let folder = self.folder.join(ledger::BACKUPS);
            let what = format!("{named}none was restored; those there are stand in {}", folder.display());
            return Err(Refusal::Data(what).into());
        };
        let aside = ledger::restore(&self.folder, backup, Utc::now())?;
        let mut out = format!(
            "Restored {} events as they were {}.\n",
            backup.events,
            here().local(backup.at).format("%Y-%m-%d %H:%M")
        );
        if backup.lacking > 0 {
            let _ = writeln!(out, "{} of its cases are not whole; no backup holds them all.", backup.lacking);
        }
        for path in aside {
            let _ = writeln!(out, "What stood there is kept as {}.", path.display());
        }
        write(&out)
    }

    /// Writes a case, or all, as JSON lines. A file that is there is not written over.
    pub fn export(&self, name: Option<&str>, to: Option<&Path>, country: Option<&str>) -> Result<()> {
        let caution = caution_text(self.country(country)?);
        let Some(mut ledger) = self.ledger()? else {
            return Err(Refusal::NoInput("there is no ledger yet".into()).into());
        };
        let case = name.map(|name| ledger.find(name)).transpose()?;
        let Some(path) = to else {
            ledger.carry_out(case.as_ref(), &caution, &mut BufWriter::new(io::stdout().lock()))?;
            return told_whole(&ledger, case.as_ref());
        };
        let mut out = BufWriter::new(made(path)?);
        let carried = ledger.carry_out(case.as_ref(), &caution, &mut out);
        let events = match carried {
            Ok(events) => events,
            Err(error) => {
                // Nothing half-written is left behind; it is our own file, made a moment ago.
                let _ = fs::remove_file(path);
                return Err(error.into());
            }
        };
        out.into_inner().map_err(io::IntoInnerError::into_error)?.sync_all()?;
        write(&format!("{events} events in {}.\n", path.display()))?;
        told_whole(&ledger, case.as_ref())
    }

    /// Takes in what was carried out: all of it or nothing. A backup is made first.
    pub fn import(&self, file: &Path) -> Result<()> {
        let named = |error: io::Error| Refusal::NoInput(format!("{}: {error}", file.display()));
        let mut from = BufReader::new(File::open(file).map_err(named)?);
        let mut ledger = Ledger::open(&self.folder)?;
        let now = Utc::now();
        if ledger.holds_events()? {
            ledger.back_up(now)?;
        }
        let carried = ledger.carry_in(&mut from).map_err(|error| match error {
            CarryError::Ledger(error) => anyhow::Error::from(error),
            other => Refusal::Data(format!("{}: {other}", file.display())).into(),
        })?;
        covers::renew(&mut ledger, &self.protocol, now)?;
        let touched = match carried.cases.len() {
            0 => "no case has".to_owned(),
            1 => "1 case has".to_owned(),
            more => format!("{more} cases have"),
        };
        write(&format!(
            "{} events taken in, {} were there already; {touched} something new.\n",
            carried.new, carried.known
        ))?;
        Ok(io::stdout().flush()?)
    }
}

/// Says which of the cases that were carried out lack an event: what could be read is written, and is not all of it.
fn told_whole(ledger: &Ledger, case: Option<&CaseId>) -> Result<()> {
    let carried = |lacking: &Lacking| case.is_none_or(|case| *case == lacking.case);
    let lacking: Vec<Lacking> = ledger.lacking()?.into_iter().filter(carried).collect();
    if lacking.is_empty() {
        return Ok(());
    }
    let of = |lacking: &Lacking| {
        let bird = if lacking.bird.is_empty() { String::new() } else { format!(" ({})", lacking.bird) };
        format!("case {}{bird}: {} of {} entries", lacking.case.short(), lacking.found, lacking.expected)
    };
    let cases: Vec<String> = lacking.iter().map(of).collect();
    let what =
        "what could be read is written, and is not all; a backup from before may hold it whole: `coopside restore`";
    Err(Refusal::Data(format!("{what}\n{}", cases.join("\n"))).into())
}

/// Whether a backup was meant: by its name alone, or by a path that leads to it.
fn names(told: &Path, backup: &Path) -> bool {
    let alone = told.parent().is_none_or(|folder| folder.as_os_str().is_empty());
    let same = |(one, other): (PathBuf, PathBuf)| one == other;
    (alone && told.file_name() == backup.file_name())
        || fs::canonicalize(told).ok().zip(fs::canonicalize(backup).ok()).is_some_and(same)
}

/// Writes a calendar in place of one of our own; any other file is left as it is. What stands there is whole at any moment.
fn replace_own(path: &Path, text: &str) -> Result<()> {
    let foreign = match fs::read_to_string(path) {
        Ok(there) => !there.contains(calendar::PRODID),
        Err(error) => error.kind() != io::ErrorKind::NotFound,
    };
    if foreign {
        let what = format!("{} is there and is no calendar of ours; give another name", path.display());
        return Err(Refusal::Usage(what).into());
    }
    place(path, text.as_bytes(), true)
}

/// A protocol by its version and enough of its fingerprint to tell two apart.
fn named(version: &str, fingerprint: &str) -> String {
    format!("{version} ({})", fingerprint.get(..8).unwrap_or(fingerprint))
}

fn case_json(case: &Covered) -> serde_json::Value {
    json!({
        "case": case.id.as_str(), "short": case.id.short(), "name": case.cover.name, "kind": case.cover.kind,
        "need": case.cover.need, "due": case.cover.due.map(|due| due.to_rfc3339()), "state": case.cover.state.words(),
        "archived": case.cover.archived, "begun": case.begun.to_rfc3339(), "last": case.last.to_rfc3339(),
        "events": case.events,
    })
}

/// A case in one line.
fn line(case: &Covered, zone: Zone, now: DateTime<Utc>) -> String {
    let cover = &case.cover;
    let bird = match (cover.name.as_str(), cover.kind.as_str()) {
        ("", "") => "a bird not told".to_owned(),
        ("", kind) => kind.to_owned(),
        (name, "") => name.to_owned(),
        (name, kind) => format!("{name}, {kind}"),
    };
    let due = match cover.due {
        None => String::new(),
        Some(due) if due <= now => format!("; LOOK NOW, due since {}", zone.local(due).format("%a %d %b %H:%M")),
        Some(due) => format!("; next look {}", zone.local(due).format("%a %d %b %H:%M")),
    };
    let state = match (cover.archived, cover.state) {
        // How it ended stands first, and what it ended is told once.
        (_, State::Closed(outcome)) if outcome.is_over() => outcome.words().to_owned(),
        (_, state @ State::Closed(_)) => format!("{}; then: {}", state.words(), cover.need),
        (true, State::Open) => format!("archived; {}", cover.need),
        (false, State::Open) => format!("{}; open", cover.need),
    };
    format!("{}  {bird}; {state}{due}", case.id.short())
}
