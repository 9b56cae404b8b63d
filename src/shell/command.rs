//! The commands that need no screen: data to standard output, messages to standard error.

use super::examine::data_folder;
use super::exit::Refusal;
use super::here::here;
use super::prove::proven;
use crate::care::cupboard::Cupboard;
use crate::content::old::CAUTION;
use crate::finding::Findings;
use crate::finding::doubt::is_moment;
use crate::protocol::fault::Faults;
use crate::protocol::limits::{MOST_BYTES, MOST_FILES};
use crate::protocol::order::FILES;
use crate::protocol::texts::Country;
use crate::protocol::{File, Protocol};
use crate::prove::Exact;
use crate::words::{Reader, english};
use crate::{care, content, notes, prove, reckon, render};
use anyhow::{Context, Result};
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// Judges a notes file and prints verdict and plan.
pub fn judge(
    own: Option<&Path>,
    file: &Path,
    json: bool,
    at: Option<DateTime<Utc>>,
    country: Option<&str>,
) -> Result<()> {
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let Bird { findings, verdict } = bird(&protocol, file, at)?;
    let plan = care::plan(&protocol, &verdict, &Cupboard::default());
    let out = if json {
        let value = render::json::verdict(&protocol, &findings, &verdict, &plan, country);
        serde_json::to_string_pretty(&value)? + "\n"
    } else {
        render::text::whole(&protocol, &findings, &verdict, &plan, Reader::english(here(), country))
    };
    write(&out)
}

/// A bird read from notes, and the verdict on her.
pub struct Bird {
    /// What was found.
    pub findings: Findings,
    /// The verdict.
    pub verdict: Exact,
}

/// Reads notes and judges the bird.
pub fn bird(protocol: &Protocol, file: &Path, at: Option<DateTime<Utc>>) -> Result<Bird> {
    let now = at.unwrap_or_else(Utc::now);
    if !is_moment(now) {
        let what = format!("{now} is no moment of an examination; give one of our time, as 2026-05-01T08:30:00Z");
        return Err(Refusal::Usage(what).into());
    }
    let findings = findings(protocol, file, now)?;
    let verdict = prove::judge(protocol, &findings, now);
    Ok(Bird { findings, verdict })
}

/// What a file of notes says of a bird.
pub fn findings(protocol: &Protocol, file: &Path, now: DateTime<Utc>) -> Result<Findings> {
    let text = read(file)?;
    let told = |faults| Refusal::Data(format!("these notes cannot be judged:\n{faults}"));
    Ok(notes::read(protocol, &file.display().to_string(), &text, now).map_err(told)?)
}

/// Checks a protocol and prints what it holds, or every fault.
pub fn check(folder: Option<&Path>) -> Result<()> {
    let protocol = protocol(folder)?;
    write(&counts(&protocol))
}

/// Prints what the protocol holds, or all of it.
pub fn protocol_told(own: Option<&Path>, json: bool) -> Result<()> {
    let protocol = proven(own)?;
    if json {
        return write(&(serde_json::to_string_pretty(&content::rules::whole(&protocol))? + "\n"));
    }
    write(&(counts(&protocol) + CAUTION + "\n"))
}

fn counts(protocol: &Protocol) -> String {
    format!(
        "protocol {}: {} questions, {} rules, {} actions, {} sources; fingerprint {}\n",
        protocol.version,
        protocol.questions.len(),
        protocol.rules.len(),
        protocol.actions.len(),
        protocol.sources.len(),
        protocol.fingerprint,
    )
}

/// A club's or clinic's own protocol, or the shipped one; every fault at once where it cannot be loaded.
pub fn protocol(folder: Option<&Path>) -> Result<Protocol> {
    folder.map_or_else(shipped, |folder| load(&protocol_files(folder)?))
}

/// The shipped protocol, as it was left when the program was built.
pub fn shipped() -> Result<Protocol> {
    told(Protocol::shipped())
}

/// The files of a club's or clinic's own protocol, or of the shipped one.
pub fn protocol_text(folder: Option<&Path>) -> Result<Vec<File>> {
    folder.map_or_else(|| Ok(crate::shipped::files()), protocol_files)
}

/// Loads a protocol; every fault at once where that cannot be.
pub fn load(files: &[File]) -> Result<Protocol> {
    told(Protocol::load(files))
}

fn told(loaded: Result<Protocol, Faults>) -> Result<Protocol> {
    let in_words = |faults: Faults| {
        let count = faults.0.len();
        let noun = if count == 1 { "fault" } else { "faults" };
        Refusal::Data(format!("the protocol has {count} {noun}:\n{faults}"))
    };
    Ok(loaded.map_err(in_words)?)
}

/// The country asked for; the one that stands for none where nothing is said.
pub fn country_of<'p>(protocol: &'p Protocol, told: Option<&str>) -> Result<&'p Country> {
    told.map_or_else(|| Ok(protocol.no_country()), |told| known_country(protocol, told))
}

/// The country with this key or name, whatever its case.
pub fn known_country<'p>(protocol: &'p Protocol, told: &str) -> Result<&'p Country> {
    let is = |country: &&Country| [country.id.as_str(), &country.name].iter().any(|own| own.eq_ignore_ascii_case(told));
    if let Some(country) = protocol.countries.iter().find(is) {
        return Ok(country);
    }
    let known = protocol.countries.iter().filter(|country| !country.stands_for_none);
    let known: Vec<String> = known.map(|country| format!("{} ({})", country.id, country.name)).collect();
    let what = format!(
        "`{told}` (from --country or COOPSIDE_COUNTRY) is no country this program knows; it knows {}",
        known.join(", ")
    );
    Err(Refusal::Usage(what).into())
}

/// Prints every source, how well it is known, and what is borrowed; every fact and what became of it; and what forms say of rules.
/// Or what can go wrong.
pub fn sources(own: Option<&Path>, data: Option<PathBuf>, country: Option<&str>, hazards: bool) -> Result<()> {
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    if hazards {
        return write(&render::text::sections(&content::hazards::whole(&protocol, country)));
    }
    let facts = crate::shipped::facts()?;
    let forms = content::review::said_of_rules(&protocol, &super::review::kept(&data_folder(data)?)?);
    write(&render::text::sections(&content::basis::whole(&protocol, country, &facts, forms)))
}

/// Does one sum, or tells all there are.
pub fn reckon(
    own: Option<&Path>,
    what: Option<&str>,
    values: &[String],
    json: bool,
    country: Option<&str>,
) -> Result<()> {
    let Some(what) = what else {
        return write(&sums());
    };
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let pairs: Vec<(String, String)> = values
        .iter()
        .map(|value| match value.split_once('=') {
            Some((name, value)) => Ok((name.to_owned(), value.to_owned())),
            None => Err(Refusal::Usage(format!("`{value}` is no value; write name=value, for example weight='2 kg'"))),
        })
        .collect::<Result<_, _>>()?;
    let moment = reckon::Moment::of(&protocol, Utc::now(), here(), country);
    let answer = reckon::reckon(what, &pairs, &moment).map_err(|error| Refusal::Usage(english(error.told())))?;
    let caution = crate::content::old::caution_text(country);
    if json {
        let value = serde_json::json!({
            "schema": "coopside.reckon/1", "caution": caution, "reviewed_by_a_veterinarian": false,
            "advice": { "source": null, "ours_unreviewed": true },
            "answer": content::sum::json(&protocol, &answer),
        });
        return write(&(serde_json::to_string_pretty(&value)? + "\n"));
    }
    let told = content::sum::sections(&protocol, country, &answer);
    let reader = Reader::english(here(), country);
    write(&render::text::sections(&reader.sections(told)))
}

/// Every sum, what it takes, and an example.
fn sums() -> String {
    let told = reckon::SUMS.iter().map(|sum| {
        let (name, about) = (sum.name(), english((sum.about)()));
        let mut told = format!("\n  {name}: {about}\n");
        for reckon::Takes { name, what, needed, .. } in sum.takes {
            let may = if *needed { "" } else { " (may be left out)" };
            let _ = writeln!(told, "    {name:<8} {}{may}", english(what()));
        }
        let _ = writeln!(told, "    for example: coopside reckon {name} {}", sum.example());
        told
    });
    std::iter::once("Sums: coopside reckon WHAT name=value ..\n".to_owned()).chain(told).collect()
}

/// Prints the key page.
pub fn keys() -> Result<()> {
    write(&crate::screen::keys::page())
}

/// A file's text; standard input for `-`.
pub fn read(file: &Path) -> Result<String> {
    let mut text = String::new();
    let read = if file == Path::new("-") {
        io::stdin().lock().read_to_string(&mut text).map(|_| text)
    } else {
        fs::read_to_string(file)
    };
    read.map_err(|error| Refusal::NoInput(format!("{} cannot be read: {error}", file.display())).into())
}

/// Every `.ron` file below a folder, in the order of their names so that the order of questions is the author's.
pub fn protocol_files(folder: &Path) -> Result<Vec<File>> {
    if !folder.is_dir() {
        let what = format!("{} is no folder; a protocol is a folder of .ron files", folder.display());
        return Err(Refusal::NoInput(what).into());
    }
    let mut files = Vec::new();
    collect(&mut Below { root: folder, been: BTreeSet::new(), bytes: 0 }, folder, &mut files)?;
    if files.is_empty() {
        let what = format!(
            "{} holds no .ron file; start from a copy of the folder assets/protocol that comes with the source",
            folder.display()
        );
        return Err(Refusal::NoInput(what).into());
    }
    // Files known from the shipped protocol keep its order; new ones follow by name.
    let rank = |name: &str| FILES.iter().position(|known| *known == name).unwrap_or(usize::MAX);
    files.sort_by(|one, other| rank(&one.name).cmp(&rank(&other.name)).then_with(|| one.name.cmp(&other.name)));
    Ok(files)
}

/// A folder that is being read, with all below it.
struct Below<'a> {
    root: &'a Path,
    /// Every folder read already, by its own name: a link may lead back into one.
    been: BTreeSet<PathBuf>,
    bytes: usize,
}

impl Below<'_> {
    /// Counts one more file.
    fn counts(&mut self, path: &Path, size: u64, files: usize) -> Result<()> {
        self.bytes = self.bytes.saturating_add(usize::try_from(size).unwrap_or(usize::MAX));
        if files < MOST_FILES && self.bytes <= MOST_BYTES {
            return Ok(());
        }
        let what = format!(
            "{}: with this file the folder holds more than a protocol may, {MOST_FILES} .ron files and {MOST_BYTES} bytes; is {} the folder of a protocol?",
            path.display(),
            self.root.display()
        );
        Err(Refusal::Data(what).into())
    }
}

fn collect(below: &mut Below, folder: &Path, files: &mut Vec<File>) -> Result<()> {
    let unread =
        |path: &Path, error: &io::Error| Refusal::NoInput(format!("{} cannot be read: {error}", path.display()));
    let own = fs::canonicalize(folder).map_err(|error| unread(folder, &error))?;
    if !below.been.insert(own) {
        let what = format!(
            "{} leads to a folder that was read already; a protocol holds each once: take the link out",
            folder.display()
        );
        return Err(Refusal::Data(what).into());
    }
    for entry in fs::read_dir(folder).map_err(|error| unread(folder, &error))? {
        let path = entry.map_err(|error| unread(folder, &error))?.path();
        if path.is_dir() {
            collect(below, &path, files)?;
        } else if path.extension().is_some_and(|extension| extension == "ron") {
            // Named as the shipped ones are, whatever parts folders on this system.
            let size = fs::metadata(&path).map_err(|error| unread(&path, &error))?.len();
            below.counts(&path, size, files.len())?;
            let named = path.strip_prefix(below.root).unwrap_or(&path);
            let name = named.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/");
            let bytes = fs::read(&path).map_err(|error| unread(&path, &error))?;
            let text = String::from_utf8(bytes).map_err(|error| {
                let line =
                    1 + error.as_bytes().iter().take(error.utf8_error().valid_up_to()).filter(|b| **b == b'\n').count();
                Refusal::Data(format!("{name}:{line}: this is not text (UTF-8); a protocol file is plain text"))
            })?;
            files.push(File { name, text });
        }
    }
    Ok(())
}

/// Makes a file; what is there is never written over.
pub fn made(path: &Path) -> Result<fs::File> {
    fs::File::options().write(true).create_new(true).open(path).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => {
            anyhow::anyhow!("{} is there already and was left as it is: give another name", path.display())
        }
        _ => anyhow::Error::from(error).context(format!("{} cannot be written", path.display())),
    })
}

pub fn write(text: &str) -> Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes()).and_then(|()| out.flush()).context("the output could not be written")
}
