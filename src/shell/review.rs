//! The packet for a vet from the command line, and the form that comes back.

use super::command::{path, shown, unread, write};
use super::exit::Refusal;
use super::handover::{place, unset};
use super::options::Options;
use crate::content::document::{Item, Section, Tone, caution, section};
use crate::content::review::Packet;
use crate::content::review::form::{self, Form, LONGEST};
use crate::content::review::kept::{Kept, MOST, Taken, signed};
use crate::ledger::{self, Ledger, Setting};
use crate::phrase::{Phrase, Text, command, lessons as phrase, review, terms};
use crate::practice::{self, Script};
use crate::protocol::Protocol;
use crate::protocol::fault::Faults;
use crate::protocol::texts::Country;
use crate::render::json::protocol::rule_whole;
use crate::render::sheet::{booklet_html, booklet_markdown, booklet_pdf, booklet_text};
use crate::render::text;
use crate::words::Reader;
use anyhow::Result;
use chrono::Utc;
use clap::{Args, ValueEnum};
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// What is asked of the packet.
#[derive(Debug, Args)]
pub struct ReviewArguments {
    /// Where to: `.pdf`, `.html`, `.md`, `.txt`, or `.ron` for the form; plain text to standard output where nothing is said.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The form, where the file's name does not say it.
    #[arg(long, value_name = "FORM")]
    form: Option<Written>,
    /// Write over a file that is there.
    #[arg(long)]
    over: bool,
    /// Leave out what forms say, for a vet who is to judge without them.
    #[arg(long)]
    blank: bool,
    /// Take in a form that was filled in (`-` reads standard input), and list what was taken.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["output", "form", "over", "blank"])]
    read: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Written {
    #[value(alias = "text")]
    Txt,
    #[value(alias = "markdown")]
    Md,
    Html,
    Pdf,
    /// The form to be filled in and read back.
    Ron,
}

/// Writes the packet or its form, or takes a form in.
pub fn review(options: &Options, asked: &ReviewArguments) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let folder = options.folder()?;
    let packet = Packet::of(protocol, &birds(protocol), rule_whole);
    if let Some(file) = &asked.read {
        return write(&taken(reader, &folder, &packet, file)?);
    }
    let written = written(asked)?;
    let kept = if asked.blank { Kept::default() } else { kept(&folder)? };
    let bytes = in_form(written, &packet, &kept, reader)?;
    match &asked.output {
        Some(to) => {
            place(to, &bytes, asked.over)?;
            options.done(&[command::written(path(to)).into()])
        }
        None => write(&String::from_utf8(bytes).map_err(|_| Refusal::Usage(command::pdf_to_screen().into()))?),
    }
}

/// The scripted birds that ship; a protocol of one's own may know other names, and leaves out those it does not understand.
fn birds(protocol: &Protocol) -> Vec<Script> {
    let read = |(name, text)| Script::read(protocol, name, name, text).ok();
    practice::shipped().into_iter().filter_map(read).collect()
}

fn written(asked: &ReviewArguments) -> Result<Written> {
    let by_name = asked.output.as_ref().and_then(|path| path.extension()?.to_str().map(str::to_lowercase));
    match (asked.form, by_name.as_deref()) {
        (Some(form), _) => Ok(form),
        (None, Some("html" | "htm")) => Ok(Written::Html),
        (None, Some("pdf")) => Ok(Written::Pdf),
        (None, Some("md")) => Ok(Written::Md),
        (None, Some("txt")) => Ok(Written::Txt),
        (None, Some("ron")) => Ok(Written::Ron),
        (None, None) if asked.output.is_none() => Ok(Written::Txt),
        (None, other) => {
            let what = other.map_or_else(phrase::no_ending, |other| phrase::no_form(Text::typed(other)));
            Err(Refusal::Usage(what.into()).into())
        }
    }
}

fn in_form(form: Written, packet: &Packet, kept: &Kept, reader: Reader) -> Result<Vec<u8>> {
    let booklet = || reader.booklet(&packet.booklet(kept, reader));
    Ok(match form {
        Written::Txt => booklet_text(&booklet()).into_bytes(),
        Written::Md => booklet_markdown(&booklet()).into_bytes(),
        Written::Html => booklet_html(&booklet()).map_err(unset(command::page_unset))?.into_bytes(),
        Written::Pdf => booklet_pdf(&booklet()).map_err(unset(command::pdf_unset))?,
        Written::Ron => form::blank(packet).into_bytes(),
    })
}

/// The forms that were taken in; a command that only reads makes no ledger.
pub fn kept(folder: &Path) -> Result<Kept> {
    if !ledger::is_there(folder)? {
        return Ok(Kept::default());
    }
    let ledger = Ledger::open_or_read(folder)?;
    Ok(ledger.setting(Setting::Reviews)?.map(|kept| Kept::recall(&kept)).unwrap_or_default())
}

/// Takes a form in, and tells what was taken.
fn taken(reader: Reader, folder: &Path, packet: &Packet, file: &Path) -> Result<String> {
    let text = text_of(file)?;
    let told = |faults: Faults| Refusal::Data(phrase::form_refused(shown(&faults)).into());
    let today = reader.zone.local(Utc::now()).date_naive();
    let form = form::read(packet, &file.display().to_string(), &text, today).map_err(told)?;
    let mut ledger = Ledger::open(folder)?;
    let mut became = Taken::Before;
    ledger.amend(Setting::Reviews, |kept| {
        let (now, taken) = Kept::add(kept, &form);
        became = taken;
        now
    })?;
    let first = match became {
        Taken::New => phrase::form_new(),
        Taken::Before => phrase::form_before(),
        Taken::Full => return Err(Refusal::Data(phrase::form_full(MOST).into()).into()),
        Taken::Unwritable => return Err(Refusal::Data(phrase::form_unwritable().into()).into()),
    };
    Ok(text::sections(&reader.sections(listed(packet, &form, first, reader.country))))
}

/// A file's text, or as much of it as a form may have and a byte more.
fn text_of(file: &Path) -> Result<String> {
    let most = u64::try_from(LONGEST).unwrap_or(u64::MAX) + 1;
    let mut text = Vec::new();
    let read = if file == Path::new("-") {
        io::stdin().lock().take(most).read_to_end(&mut text)
    } else {
        File::open(file).and_then(|open| open.take(most).read_to_end(&mut text))
    };
    read.map_err(|error| unread(file, &error))?;
    // Cut within a letter it is too long anyway; otherwise it is no text.
    let is_long = text.len() > LONGEST;
    String::from_utf8(text)
        .or_else(|error| if is_long { Ok(" ".repeat(LONGEST + 1)) } else { Err(error) })
        .map_err(|_| Refusal::Data(phrase::form_no_text(path(file)).into()).into())
}

/// What was taken of a form.
fn listed(packet: &Packet, form: &Form, first: Phrase, country: &Country) -> Vec<Section<Text>> {
    let kept = Kept::of_one(form);
    let (mut stands, mut lost) = (Vec::new(), Vec::new());
    for filled in &form.items {
        let Some(entry) = packet.entries().find(|entry| entry.id == filled.id) else { continue };
        let more = kept.of(&packet.version, &entry.id, &entry.content);
        let lead = terms::named(Text::typed(&entry.id), entry.title.clone()).into();
        let to = if more.is_empty() { &mut lost } else { &mut stands };
        to.push(Item { lead, more, ..Item::default() });
    }
    let head: [Text; 3] = [first.into(), phrase::form_of(signed(form)).into(), review::no_review().into()];
    let missing = kept.missing(&packet.version).into_iter().map(Item::plain);
    [
        section(phrase::taken_in(), Tone::Plain, head.into_iter().map(Item::plain).collect()),
        section(phrase::told_beside(), Tone::Plain, stands),
        section(phrase::changed_since(), Tone::Plain, lost),
        section(phrase::missing(), Tone::Plain, missing.collect()),
        caution(country),
    ]
    .into_iter()
    .flatten()
    .collect()
}
