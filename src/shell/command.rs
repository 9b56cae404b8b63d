//! The commands that need no screen: data to standard output, messages to standard error.

use super::exit::Refusal;
use super::here::here;
use super::options::Options;
use crate::care::cupboard::Cupboard;
use crate::finding::Findings;
use crate::finding::doubt::is_moment;
use crate::phrase::{Phrase, Text, command as phrase, document};
use crate::protocol::fault::Faults;
use crate::protocol::limits::{MOST_BYTES, MOST_FILES};
use crate::protocol::order::FILES;
use crate::protocol::texts::Country;
use crate::protocol::{File, Protocol};
use crate::prove::Whole;
use crate::render::json;
use crate::view::keys;
use crate::words::{self, Words};
use crate::{care, content, notes, prove, reckon};
use anyhow::Result;
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// Judges a notes file and prints verdict and plan.
pub fn judge(options: &Options, file: &Path, at: Option<DateTime<Utc>>) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let Bird { findings, verdict } = bird(protocol, file, at)?;
    let plan = care::plan(protocol, &verdict, &Cupboard::default(), reader.zone);
    if options.json {
        return write_json(&json::verdict(protocol, &findings, &verdict, &plan, reader));
    }
    let parts = content::whole::judged(protocol, &findings, &verdict, &plan, reader);
    let made = content::whole::made(protocol, &verdict);
    write(&format!("{}\n\n{}", reader.say(&made), options.written(&parts, reader)))
}

/// A bird read from notes, and the verdict on her.
pub struct Bird {
    /// What was found.
    pub findings: Findings,
    /// The verdict.
    pub verdict: Whole,
}

/// Reads notes and judges the bird.
pub fn bird(protocol: &Protocol, file: &Path, at: Option<DateTime<Utc>>) -> Result<Bird> {
    let now = at.unwrap_or_else(Utc::now);
    if !is_moment(now) {
        return Err(Refusal::Usage(phrase::no_moment(Text::typed(now.to_string())).into()).into());
    }
    let findings = findings(protocol, file, now)?;
    let verdict = prove::judge(protocol, &findings, now);
    Ok(Bird { findings, verdict })
}

/// What a file of notes says of a bird.
pub fn findings(protocol: &Protocol, file: &Path, now: DateTime<Utc>) -> Result<Findings> {
    let text = read(file)?;
    let told = |faults: Faults| Refusal::Data(phrase::notes_unjudged(shown(&faults)).into());
    Ok(notes::read(protocol, &file.display().to_string(), &text, now).map_err(told)?)
}

/// Checks a protocol and prints what it holds, or every fault.
pub fn check(options: &Options, folder: Option<&Path>) -> Result<()> {
    let protocol = protocol(folder)?;
    options.done(&[counts(&protocol).into()])
}

/// Prints what the protocol holds, or all of it.
pub fn protocol_told(options: &Options) -> Result<()> {
    let opened = options.open()?;
    let protocol = &opened.protocol;
    if options.json {
        return write_json(&json::protocol::protocol(protocol, options.reader(&opened)?));
    }
    options.done(&[counts(protocol).into(), document::own_caution().into()])
}

fn counts(protocol: &Protocol) -> Phrase {
    phrase::protocol_counts(
        Text::typed(&protocol.version),
        protocol.questions.len(),
        protocol.rules.len(),
        protocol.actions.len(),
        protocol.sources.len(),
        Text::typed(&protocol.fingerprint),
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
    let in_words = |faults: Faults| Refusal::Data(phrase::protocol_faults(faults.0.len(), shown(&faults)).into());
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
    let known = known.map(|country| phrase::known(Text::typed(country.id.as_str()), Text::quoted(&country.name)));
    Err(Refusal::Usage(phrase::no_country(Text::typed(told), Text::list(known)).into()).into())
}

/// Prints every source, how well it is known, and what is borrowed; every fact and what became of it; and what forms say of rules.
/// Or what can go wrong.
pub fn sources(options: &Options, hazards: bool) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    if hazards {
        let told = content::hazards::whole(protocol, reader.country);
        return options.tell(&opened, "hazards", &told);
    }
    let facts = crate::shipped::facts()?;
    let forms =
        content::review::said_of_rules(protocol, &super::review::kept(&options.folder()?)?, json::protocol::rule_whole);
    let told = content::basis::whole(protocol, reader.country, &facts, forms);
    options.tell(&opened, "sources", &told)
}

/// Does one sum, or tells all there are.
pub fn reckon(options: &Options, what: Option<&str>, values: &[String]) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let Some(what) = what else {
        return if options.json { write_json(&json::reckon::sums(reader)) } else { write(&sums(opened.words)) };
    };
    let country = reader.country;
    let pairs: Vec<(String, String)> = values
        .iter()
        .map(|value| match value.split_once('=') {
            Some((name, value)) => Ok((name.to_owned(), value.to_owned())),
            None => Err(Refusal::Usage(phrase::no_value(Text::typed(value)).into())),
        })
        .collect::<Result<_, _>>()?;
    let moment = reckon::Moment::of(protocol, Utc::now(), here(), country);
    let answer = reckon::reckon(what, &pairs, &moment).map_err(|error| Refusal::Usage(error.told()))?;
    if options.json {
        return write_json(&json::reckon::answer(protocol, &answer, reader));
    }
    let told = content::sum::sections(protocol, country, &answer);
    options.write(&reader.sections(told), reader)
}

/// Every sum, what it takes, and an example.
fn sums(words: &Words) -> String {
    let say = |phrase: Phrase| words::say(words, here(), &phrase.into());
    let told = reckon::SUMS.iter().map(|sum| {
        let mut told = format!("\n  {}: {}\n", sum.name(), say((sum.about)()));
        for reckon::Takes { name, what, needed, .. } in sum.takes {
            let may = if *needed { String::new() } else { format!(" {}", say(phrase::may_be_left_out())) };
            let _ = writeln!(told, "    {name:<8} {}{may}", say(what()));
        }
        let example = Text::typed(format!("coopside reckon {} {}", sum.name(), sum.example()));
        let _ = writeln!(told, "    {}", say(phrase::for_example(example)));
        told
    });
    std::iter::once(say(phrase::sums()) + "\n").chain(told).collect()
}

/// Prints the key page.
pub fn keys(options: &Options) -> Result<()> {
    let opened = options.open()?;
    if options.json {
        return write_json(&json::keys::keys(&keys::told(), options.reader(&opened)?));
    }
    write(&keys::page(opened.words))
}

/// A file's text; standard input for `-`.
pub fn read(file: &Path) -> Result<String> {
    let mut text = String::new();
    let read = if file == Path::new("-") {
        io::stdin().lock().read_to_string(&mut text).map(|_| text)
    } else {
        fs::read_to_string(file)
    };
    read.map_err(|error| unread(file, &error))
}

/// Every `.ron` file below a folder, in the order of their names so that the order of questions is the author's.
pub fn protocol_files(folder: &Path) -> Result<Vec<File>> {
    if !folder.is_dir() {
        return Err(Refusal::NoInput(phrase::no_folder(path(folder)).into()).into());
    }
    let mut files = Vec::new();
    collect(&mut Below { root: folder, been: BTreeSet::new(), bytes: 0 }, folder, &mut files)?;
    if files.is_empty() {
        return Err(Refusal::NoInput(phrase::no_ron(path(folder)).into()).into());
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
    fn counts(&mut self, file: &Path, size: u64, files: usize) -> Result<()> {
        self.bytes = self.bytes.saturating_add(usize::try_from(size).unwrap_or(usize::MAX));
        if files < MOST_FILES && self.bytes <= MOST_BYTES {
            return Ok(());
        }
        let bytes = Text::typed(MOST_BYTES.to_string());
        Err(Refusal::Data(phrase::too_large(path(file), MOST_FILES, bytes, path(self.root)).into()).into())
    }
}

fn collect(below: &mut Below, folder: &Path, files: &mut Vec<File>) -> Result<()> {
    let own = fs::canonicalize(folder).map_err(|error| unread(folder, &error))?;
    if !below.been.insert(own) {
        return Err(Refusal::Data(phrase::link_back(path(folder)).into()).into());
    }
    for entry in fs::read_dir(folder).map_err(|error| unread(folder, &error))? {
        let file = entry.map_err(|error| unread(folder, &error))?.path();
        if file.is_dir() {
            collect(below, &file, files)?;
        } else if file.extension().is_some_and(|extension| extension == "ron") {
            // Named as the shipped ones are, whatever parts folders on this system.
            let size = fs::metadata(&file).map_err(|error| unread(&file, &error))?.len();
            below.counts(&file, size, files.len())?;
            let named = file.strip_prefix(below.root).unwrap_or(&file);
            let name = named.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/");
            let bytes = fs::read(&file).map_err(|error| unread(&file, &error))?;
            let text = String::from_utf8(bytes).map_err(|error| {
                let line =
                    1 + error.as_bytes().iter().take(error.utf8_error().valid_up_to()).filter(|b| **b == b'\n').count();
                Refusal::Data(phrase::no_utf8(Text::typed(&name), line).into())
            })?;
            files.push(File { name, text });
        }
    }
    Ok(())
}

/// Every file of a folder that ends so, by its name without that ending, in the order of their names.
pub fn texts_in(folder: &Path, ends: &str) -> Result<Vec<File>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(|error| unread(folder, &error))? {
        let file = entry.map_err(|error| unread(folder, &error))?.path();
        if file.extension().is_some_and(|ending| ending == ends) {
            let text = fs::read_to_string(&file).map_err(|error| unread(&file, &error))?;
            let name = file.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            files.push(File { name, text });
        }
    }
    files.sort_by(|one, other| one.name.cmp(&other.name));
    if files.is_empty() {
        return Err(Refusal::NoInput(phrase::no_texts(path(folder), Text::typed(ends)).into()).into());
    }
    Ok(files)
}

/// Makes a file; what is there is never written over.
pub fn made(file: &Path) -> Result<fs::File> {
    let refused = |error: io::Error| match error.kind() {
        io::ErrorKind::AlreadyExists => phrase::there_already(path(file)),
        _ => phrase::unwritten(path(file), shown(&error)),
    };
    let made = fs::File::options().write(true).create_new(true).open(file);
    made.map_err(|error| Refusal::Failed(refused(error).into()).into())
}

/// Writes to the standard output.
pub fn write(text: &str) -> Result<()> {
    let mut out = io::stdout().lock();
    out.write_all(text.as_bytes()).and_then(|()| out.flush()).map_err(|error| match error.kind() {
        // A reader that closed the pipe early is no failure.
        io::ErrorKind::BrokenPipe => error.into(),
        _ => Refusal::Failed(phrase::output_unwritten(shown(&error)).into()).into(),
    })
}

/// Writes JSON to the standard output.
pub fn write_json(value: &serde_json::Value) -> Result<()> {
    write(&(serde_json::to_string_pretty(value)? + "\n"))
}

/// That a file cannot be read.
pub fn unread(file: &Path, error: &io::Error) -> anyhow::Error {
    Refusal::NoInput(phrase::unread(path(file), shown(error)).into()).into()
}

/// A place on the disk.
pub fn path(path: &Path) -> Text {
    Text::typed(path.display().to_string())
}

/// What says itself: faults for whoever writes a file, what the system said.
pub fn shown(what: &impl std::fmt::Display) -> Text {
    Text::typed(what.to_string())
}
