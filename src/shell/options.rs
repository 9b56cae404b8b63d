//! The options every command takes, and what follows from them: the protocol, its words, the country, the folder.

use super::command::{country_of, path, texts_in, write, write_json};
use super::exit::Refusal;
use super::handover::unset;
use super::here::here;
use super::prove::proven;
use crate::content::document::Section;
use crate::phrase::{Text, command as phrase};
use crate::protocol::texts::Country;
use crate::protocol::{File, Protocol};
use crate::render::{nodes, speech, text};
use crate::words::{Reader, Voice, Words, say, translation};
use anyhow::Result;
use etcetera::BaseStrategy;
use std::cell::OnceCell;
use std::path::{Path, PathBuf};

/// The options.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// A protocol of one's own, in place of the shipped one.
    pub protocol: Option<PathBuf>,
    /// Where cases are kept.
    pub data: Option<PathBuf>,
    /// Whose law is told.
    pub country: Option<String>,
    /// A translation.
    pub words: Option<PathBuf>,
    /// Whether it is told as JSON.
    pub json: bool,
    /// Whether it is told for a voice.
    pub aloud: bool,
    /// Whether a sitting goes line by line.
    pub spoken: bool,
    /// The catalogue, once the protocol was opened.
    pub said_in: OnceCell<&'static Words>,
}

/// A protocol that judges, in the words it is told in.
#[derive(Debug)]
pub struct Opened {
    /// The protocol; its texts are those of the translation, where there is one.
    pub protocol: Protocol,
    /// The catalogue. It stays for as long as the program runs.
    pub words: &'static Words,
}

impl Options {
    /// The protocol, proven, with a translation laid over it.
    ///
    /// # Errors
    /// Where the protocol does not load or prove, or the translation is not whole: every fault at once.
    pub fn open(&self) -> Result<Opened> {
        let mut protocol = proven(self.protocol.as_deref())?;
        let words = match self.words.as_deref() {
            Some(folder) => Box::leak(Box::new(translated(folder, &texts_in(folder, "ftl")?, &mut protocol)?)),
            None => Words::english(),
        };
        // Where it is opened twice, it is opened from the same folder.
        let _ = self.said_in.set(words);
        Ok(Opened { protocol, words })
    }

    /// Tells a document: as JSON where that is asked for.
    pub fn tell(&self, opened: &Opened, of: &str, sections: &[Section<Text>]) -> Result<()> {
        let reader = self.reader(opened)?;
        if self.json {
            return write_json(&nodes::document(&opened.protocol, of, sections, reader));
        }
        let said: Vec<Section> = sections.iter().map(|section| reader.section(section)).collect();
        self.write(&said, reader)
    }

    /// Writes headed lists: as lines for a voice where that is asked for.
    pub fn write(&self, parts: &[Section], reader: Reader) -> Result<()> {
        write(&self.written(parts, reader))
    }

    /// Headed lists as they are written.
    pub fn written(&self, parts: &[Section], reader: Reader) -> String {
        if self.aloud {
            return speech::lines(parts, reader).into_iter().map(|line| line + "\n").collect();
        }
        text::sections(parts)
    }

    /// Tells what was done, a line each: as JSON where that is asked for.
    pub fn done(&self, lines: &[Text]) -> Result<()> {
        let said = |line: &Text| say(self.words(), here(), line);
        if self.json {
            return write_json(&nodes::done(lines, &said));
        }
        write(&lines.iter().map(|line| said(line) + "\n").collect::<String>())
    }

    /// The words a failure is told in: English where it came before the translation was read.
    pub fn words(&self) -> &'static Words {
        self.said_in.get().copied().unwrap_or_else(Words::english)
    }

    /// Where cases are kept.
    ///
    /// # Errors
    /// Where no place is named and the system knows none.
    pub fn folder(&self) -> Result<PathBuf> {
        data_folder(self.data.clone())
    }

    /// The country that is named; the one that stands for none where none is.
    ///
    /// # Errors
    /// Where no such country is known.
    pub fn country<'p>(&self, protocol: &'p Protocol) -> Result<&'p Country> {
        country_of(protocol, self.country.as_deref())
    }

    /// For whom it is told.
    ///
    /// # Errors
    /// Where no such country is known.
    pub fn reader<'p>(&self, opened: &'p Opened) -> Result<Reader<'p>> {
        let voice = if self.aloud { Voice::Aloud } else { Voice::Written };
        Ok(Reader { zone: here(), country: self.country(&opened.protocol)?, words: opened.words, voice })
    }
}

/// Lays the files of a translation over a protocol; their folder is named by its language.
pub fn translated(folder: &Path, files: &[File], protocol: &mut Protocol) -> Result<Words> {
    let language = folder.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let words = translation::load(&language, files, protocol).map_err(|faults| {
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        Refusal::Data(phrase::translation_faults(path(folder), lines.len(), Text::typed(lines.join("\n"))).into())
    })?;
    Ok(words)
}

/// Where cases are kept: as asked, or where this system keeps a user's data.
fn data_folder(data: Option<PathBuf>) -> Result<PathBuf> {
    if let Some(folder) = data {
        return Ok(folder);
    }
    let base = etcetera::choose_base_strategy().map_err(unset(phrase::no_home))?;
    Ok(base.data_dir().join("coopside"))
}
