//! The commands for whoever keeps the ledger: the cases, one case, what is due, backups, and cases carried out and in.

use super::command::{made, path, shown, write, write_json};
use super::covers::{self, CoverMaker};
use super::exit::Refusal;
use super::handover::place;
use super::here::here;
use super::options::{Opened, Options};
use crate::content;
use crate::content::cases::{ListedCase, listed};
use crate::content::days::CaseDays;
use crate::content::document::caution_text;
use crate::content::kept::{carried, fault};
use crate::days::cover::state;
use crate::days::due::{Fate, bird, due};
use crate::days::{self, Days, known};
use crate::finding::Findings;
use crate::ledger::{self, CarryError, CaseId, Covered, Filter, Lacking, Ledger, LedgerError, Setting, State};
use crate::phrase::{Phrase, Text, cases as phrase};
use crate::protocol::Protocol;
use crate::prove::judge_bands;
use crate::render::{calendar, json};
use crate::words::Reader;
use anyhow::Result;
use chrono::{DateTime, Utc};
use std::fs::{self, File};
use std::io::{self, BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

/// How many cases a list shows.
const MOST: usize = 100;

/// Cases to be listed.
#[derive(Clone)]
struct List<'c> {
    cases: &'c [Covered],
    /// How many there are in all.
    all: usize,
    /// What is said where there is none.
    none: Phrase,
}

/// Where the ledger is and with what it is judged.
pub struct CaseCommands {
    opened: Opened,
    options: Options,
    folder: PathBuf,
}

impl CaseCommands {
    /// Finds the ledger's folder and proves the protocol.
    pub fn at(options: &Options) -> Result<Self> {
        Ok(Self { opened: options.open()?, folder: options.folder()?, options: options.clone() })
    }

    const fn protocol(&self) -> &Protocol {
        &self.opened.protocol
    }

    /// By what covers are made.
    fn maker(&self) -> CoverMaker<'_> {
        CoverMaker { protocol: &self.opened.protocol, words: self.opened.words, zone: here() }
    }

    fn reader(&self) -> Result<Reader<'_>> {
        self.options.reader(&self.opened)
    }

    fn caution(&self) -> Result<String> {
        let reader = self.reader()?;
        Ok(reader.say(&caution_text(reader.country)))
    }

    fn tell(&self, phrase: Phrase) -> Result<()> {
        self.options.done(&[phrase.into()])
    }

    /// The ledger, to write where it can be written; none where there is none: a command that only reads makes no file.
    fn ledger(&self) -> Result<Option<Ledger>> {
        if ledger::is_there(&self.folder)? { Ok(Some(Ledger::open_or_read(&self.folder)?)) } else { Ok(None) }
    }

    /// Lists cases, those due first.
    pub fn cases(&self, filter: &Filter) -> Result<()> {
        let now = Utc::now();
        let (mut cases, mut all) = (Vec::new(), 0);
        if let Some(mut ledger) = self.ledger()? {
            covers::renew(&mut ledger, self.maker(), now)?;
            cases = ledger.cases(filter, 0, MOST)?;
            all = ledger.count(filter)?;
        }
        self.list(&List { cases: &cases, all, none: phrase::none() }, now)
    }

    /// Lists what is due now, the longest overdue first.
    pub fn due(&self) -> Result<()> {
        let now = Utc::now();
        let (mut cases, mut all) = (Vec::new(), 0);
        if let Some(mut ledger) = self.ledger()? {
            covers::renew(&mut ledger, self.maker(), now)?;
            cases = ledger.due_before(now, MOST)?;
            all = ledger.count_due(now)?;
        }
        self.list(&List { cases: &cases, all, none: phrase::none_due() }, now)
    }

    fn list(&self, List { cases, all, none }: &List, now: DateTime<Utc>) -> Result<()> {
        let (reader, caution) = (self.reader()?, self.caution()?);
        if self.options.json {
            let listed: Vec<ListedCase> = cases.iter().map(|case| self.listed(case)).collect();
            return write_json(&json::cases::cases(&listed, *all, now, reader));
        }
        let mut told: Vec<Phrase> = cases.iter().map(|case| line(case, now)).collect();
        told.extend(cases.is_empty().then(|| none.clone()));
        told.extend((*all > cases.len()).then(|| phrase::more(all - cases.len())));
        let told: String = told.iter().map(|line| reader.phrase(line) + "\n").collect();
        write(&format!("{told}\n{caution}\n"))
    }

    /// Tells one case: what is due, how she has gone, what a vet said, how it ended.
    pub fn case(&self, name: &str) -> Result<()> {
        let (reader, now) = (self.reader()?, Utc::now());
        let ledger = self.ledger()?.ok_or_else(|| LedgerError::NoCase(name.to_owned()))?;
        let case = ledger.load(ledger.find(name)?)?;
        let cupboard = covers::cupboard(&ledger)?;
        let days = Days::of(&case.log);
        let due = due(self.protocol(), &case.log, &days, &cupboard, reader.zone, now);
        let verdict =
            days.sittings.last().map(|last| judge_bands(self.protocol(), &known(&case.log, last), last.ended));
        let verdict = verdict.unwrap_or_else(|| judge_bands(self.protocol(), &Findings::default(), now));
        let need = state(self.protocol(), &case.log, &days, &verdict);
        let bird = Text::opening(bird(self.protocol(), &case.log, &days));
        let told = content::days::sections(
            self.protocol(),
            CaseDays { log: &case.log, days: &days, due: &due, no_vet: verdict.no_vet() },
            reader.country,
        );
        let marks = ledger.marks(&case.id)?;
        let kept = marks.iter().map(|mark| named(&mark.version, &mark.fingerprint));
        let kept = kept.reduce(phrase::then_protocol).unwrap_or_else(|| named("", ""));
        let by = named(&self.protocol().version, &self.protocol().fingerprint);
        let head = phrase::case(bird, need, Text::typed(case.id.as_str()), by, kept);
        if self.options.json {
            let (id, need) = (case.id.as_str(), verdict.need);
            return write_json(&json::cases::case(self.protocol(), (id, head), &told, need, reader));
        }
        write(&format!("{}\n\n{}", reader.phrase(&head), self.options.written(&reader.sections(told), reader)))
    }

    /// A case of a list, judged anew where it can be read.
    fn listed<'c>(&self, case: &'c Covered) -> ListedCase<'c> {
        let read = || {
            let ledger = self.ledger().ok()??;
            Some(ledger.load(case.id.clone()).ok()?.log)
        };
        listed(self.protocol(), case, read().as_deref())
    }

    /// Writes the looks of the next two weeks as a calendar. What was told before and is no longer due is cancelled in it.
    pub fn reminders(&self, to: Option<&Path>) -> Result<()> {
        let (reader, now) = (self.reader()?, Utc::now());
        let Some(mut ledger) = self.ledger()? else {
            return Err(Refusal::NoInput(phrase::no_ledger().into()).into());
        };
        covers::renew(&mut ledger, self.maker(), now)?;
        let cupboard = covers::cupboard(&ledger)?;
        let (mut reminders, mut unread) = (Vec::new(), Vec::new());
        // Every bird that waits for a look by then, however many are overdue.
        for covered in ledger.due_before(now + calendar::AHEAD, usize::MAX)? {
            let case = match ledger.load(covered.id) {
                Ok(case) => case,
                // One case that cannot be read takes nobody else's reminders away.
                Err(error @ (LedgerError::Unreadable { .. } | LedgerError::NotWhole(_))) => {
                    unread.push(fault(&error));
                    continue;
                }
                Err(error) => return Err(error.into()),
            };
            let days = Days::of(&case.log);
            let bird = bird(self.protocol(), &case.log, &days);
            let due = due(self.protocol(), &case.log, &days, &cupboard, reader.zone, now);
            reminders.extend(due.examine.map(|_| calendar::examination(case.id.as_str(), &bird, now, reader)));
            let ahead = due.with(Fate::Ahead).filter(|look| look.at < now + calendar::AHEAD);
            reminders
                .extend(ahead.map(|look| calendar::reminder(self.protocol(), case.id.as_str(), &bird, look, reader)));
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
                writeln!(io::stderr(), "{}", self.reader()?.phrase(&phrase::cannot_cancel()))?;
            }
            other => other?,
        }
        if let Some(to) = to {
            self.tell(phrase::reminders(reminders.len(), path(to)))?;
        }
        if unread.is_empty() {
            return Ok(());
        }
        let unread = Text::clauses(unread);
        Err(Refusal::Data(phrase::not_in_calendar(unread).into()).into())
    }

    /// Makes a backup, and says where.
    pub fn backup(&self) -> Result<()> {
        let Some(ledger) = self.ledger()? else { return self.tell(phrase::no_ledger_yet()) };
        let backup = ledger.back_up(Utc::now())?;
        self.tell(phrase::backup(path(&backup.path), backup.events))
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
            let folder = path(&self.folder.join(ledger::BACKUPS));
            let what = match file {
                Some(file) => phrase::no_such_backup(path(file), folder),
                None => phrase::no_backup(folder),
            };
            return Err(Refusal::Data(what.into()).into());
        };
        let aside = ledger::restore(&self.folder, backup, Utc::now())?;
        let restored = phrase::restored(backup.events, Text::date(backup.at));
        let lacking = (backup.lacking > 0).then(|| phrase::restored_lacking(backup.lacking));
        let aside = aside.iter().map(|kept| phrase::kept_aside(path(kept)));
        let told: Vec<Text> = [restored].into_iter().chain(lacking).chain(aside).map(Text::from).collect();
        self.options.done(&told)
    }

    /// Writes a case, or all, as JSON lines. A file that is there is not written over.
    pub fn export(&self, name: Option<&str>, to: Option<&Path>) -> Result<()> {
        let caution = self.caution()?;
        let Some(mut ledger) = self.ledger()? else {
            return Err(Refusal::NoInput(phrase::no_ledger().into()).into());
        };
        let case = name.map(|name| ledger.find(name)).transpose()?;
        let Some(to) = to else {
            ledger.carry_out(case.as_ref(), &caution, &mut BufWriter::new(io::stdout().lock()))?;
            return told_whole(&ledger, case.as_ref());
        };
        let mut out = BufWriter::new(made(to)?);
        let carried = ledger.carry_out(case.as_ref(), &caution, &mut out);
        let events = match carried {
            Ok(events) => events,
            Err(error) => {
                // Nothing half-written is left behind; it is our own file, made a moment ago.
                let _ = fs::remove_file(to);
                return Err(error.into());
            }
        };
        out.into_inner().map_err(io::IntoInnerError::into_error)?.sync_all()?;
        self.tell(phrase::exported(events, path(to)))?;
        told_whole(&ledger, case.as_ref())
    }

    /// Takes in what was carried out: all of it or nothing. A backup is made first.
    pub fn import(&self, file: &Path) -> Result<()> {
        let named = |error: io::Error| Refusal::NoInput(phrase::file(path(file), shown(&error)).into());
        let mut from = BufReader::new(File::open(file).map_err(named)?);
        let mut ledger = Ledger::open(&self.folder)?;
        let now = Utc::now();
        if ledger.holds_events()? {
            ledger.back_up(now)?;
        }
        let carried = ledger.carry_in(&mut from).map_err(|error| match error {
            CarryError::Ledger(error) => anyhow::Error::from(error),
            other => Refusal::Data(phrase::file(path(file), carried(&other)).into()).into(),
        })?;
        covers::renew(&mut ledger, self.maker(), now)?;
        self.tell(phrase::imported(carried.new, carried.known, carried.cases.len()))?;
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
        let (case, bird) = (Text::typed(lacking.case.short()), Text::typed(&lacking.bird));
        let told = if bird.is_empty() {
            phrase::lacking(case, lacking.found, lacking.expected)
        } else {
            phrase::lacking_bird(case, bird, lacking.found, lacking.expected)
        };
        Text::from(told)
    };
    Err(Refusal::Data(phrase::not_whole(Text::lines(lacking.iter().map(of))).into()).into())
}

/// Whether a backup was meant: by its name alone, or by a path that leads to it.
fn names(told: &Path, backup: &Path) -> bool {
    let alone = told.parent().is_none_or(|folder| folder.as_os_str().is_empty());
    let same = |(one, other): (PathBuf, PathBuf)| one == other;
    (alone && told.file_name() == backup.file_name())
        || fs::canonicalize(told).ok().zip(fs::canonicalize(backup).ok()).is_some_and(same)
}

/// Writes a calendar in place of one of our own; any other file is left as it is. What stands there is whole at any moment.
fn replace_own(file: &Path, text: &str) -> Result<()> {
    let foreign = match fs::read_to_string(file) {
        Ok(there) => !there.contains(calendar::PRODID),
        Err(error) => error.kind() != io::ErrorKind::NotFound,
    };
    if foreign {
        return Err(Refusal::Usage(phrase::no_calendar(path(file)).into()).into());
    }
    place(file, text.as_bytes(), true)
}

/// A protocol by its version and enough of its fingerprint to tell two apart.
fn named(version: &str, fingerprint: &str) -> Phrase {
    phrase::protocol(Text::typed(version), Text::typed(fingerprint.get(..8).unwrap_or(fingerprint)))
}

/// A case in one line.
fn line(case: &Covered, now: DateTime<Utc>) -> Phrase {
    let cover = &case.cover;
    let (name, kind, need) = (Text::typed(&cover.name), Text::typed(&cover.kind), Text::typed(&cover.need));
    let bird: Text = match (cover.name.as_str(), cover.kind.as_str()) {
        ("", "") => phrase::not_told().into(),
        ("", _) => kind,
        (_, "") => name,
        _ => phrase::bird(name, kind).into(),
    };
    let state: Text = match (cover.archived, cover.state) {
        // How it ended stands first, and what it ended is told once.
        (_, State::Closed(outcome)) if outcome.is_over() => days::outcome(outcome).into(),
        (_, State::Closed(outcome)) => phrase::then(days::outcome(outcome), need).into(),
        (true, State::Open) => phrase::archived(need).into(),
        (false, State::Open) => phrase::open(need).into(),
    };
    let short = Text::typed(case.id.short());
    match cover.due {
        None => phrase::line(short, bird, state),
        Some(due) if due <= now => phrase::line_due(short, bird, state, Text::day(due)),
        Some(due) => phrase::line_ahead(short, bird, state, Text::day(due)),
    }
}
