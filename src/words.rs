//! What is said, in the reader's language: the catalogue, and the grammar that goes with it.
//!
//! Every sentence a person reads stands in the catalogue or in the protocol. What is to be said comes as a [`Text`] of `phrase`,
//! which knows no language; [`Reader::say`] says it.

mod paper;
mod pattern;
pub mod translation;
mod value;

pub use value::spoken_clock;

use crate::content::document::{Item, Section};
use crate::phrase::{Phrase, Taken, Text, document, grammar};
use crate::protocol::texts::Country;
use crate::shipped;
use crate::zone::Zone;
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::{LazyLock, OnceLock};
use unic_langid::LanguageIdentifier;

static ENGLISH: LazyLock<Words> = LazyLock::new(|| {
    let files = shipped::folded_words().into_iter().map(|(name, folded)| (name.to_owned(), WordsText::Folded(folded)));
    Words::of(LanguageIdentifier::from_bytes(b"en").unwrap_or_default(), files)
});

/// Said of every translation, in the language the program is written in.
const UNREVIEWED: &str = "(Nobody has reviewed this translation.)";

/// A catalogue in one language.
#[derive(Debug)]
pub struct Words {
    language: LanguageIdentifier,
    /// Its files, by their names. One is read when the first phrase of it is said: a start says few of them.
    files: BTreeMap<String, WordsFile>,
    /// Whether it is a translation, which nobody has reviewed.
    translated: bool,
    /// What stands in for texts that ship beside the protocol.
    beside: BTreeMap<String, String>,
    /// What tells it from every other: nothing for the one that ships, else its language and letters of a hash over its files.
    mark: String,
}

/// The text of a file of a catalogue.
enum WordsText {
    /// As it ships.
    Folded(&'static [u8]),
    /// As it was read from a folder.
    Plain(String),
}

/// A file of a catalogue, and what was read of it.
struct WordsFile {
    text: WordsText,
    read: OnceLock<FluentBundle<FluentResource>>,
}

impl fmt::Debug for WordsFile {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        out.write_str(if self.read.get().is_some() { "WordsFile(read)" } else { "WordsFile(not read yet)" })
    }
}

impl WordsFile {
    /// What is in it; what cannot be read is left out, and `translation` looks first that nothing is.
    fn bundle(&self, language: &LanguageIdentifier) -> &FluentBundle<FluentResource> {
        self.read.get_or_init(|| {
            let mut bundle = FluentBundle::new_concurrent(vec![language.clone()]);
            // Marks that isolate what is put in would take a column each in a terminal; what was typed is isolated where it leaves.
            bundle.set_use_isolating(false);
            let text = match &self.text {
                WordsText::Folded(folded) => shipped::text_of(folded),
                WordsText::Plain(text) => text.clone(),
            };
            let resource = FluentResource::try_new(text).unwrap_or_else(|(resource, _)| resource);
            // A name that stands twice keeps its first meaning; the build refuses it.
            let _ = bundle.add_resource(resource);
            bundle
        })
    }
}

impl Words {
    /// The catalogue that ships with the program. A test reads every phrase of it.
    pub fn english() -> &'static Self {
        &ENGLISH
    }

    /// What tells it from every other, for what is kept as it was said: nothing for the one that ships.
    pub fn mark(&self) -> &str {
        &self.mark
    }

    /// A catalogue of some files, by their names.
    /// Its language, by its standard tag.
    pub fn language(&self) -> String {
        self.language.to_string()
    }

    fn of(language: LanguageIdentifier, files: impl IntoIterator<Item = (String, WordsText)>) -> Self {
        let files = files.into_iter().map(|(name, text)| (name, WordsFile { text, read: OnceLock::new() }));
        Self { language, files: files.collect(), translated: false, beside: BTreeMap::new(), mark: String::new() }
    }

    /// A phrase with what it takes, already said; its name in braces where the catalogue lacks it.
    fn phrase(&self, phrase: &Phrase, say: &dyn Fn(&Text) -> String) -> String {
        let bundle = self.files.get(phrase.file()).map(|file| file.bundle(&self.language));
        let message = bundle.and_then(|bundle| Some((bundle, bundle.get_message(phrase.id())?.value()?)));
        let Some((bundle, pattern)) = message else { return format!("{{{}}}", phrase.id()) };
        let taken = phrase.takes().iter().map(|(name, taken)| {
            let value = match taken {
                // A count above what the grammar of plurals can hold is told as one of many.
                Taken::Number(count) => FluentValue::from(*count),
                Taken::Text(text) => FluentValue::from(say(text)),
            };
            (*name, value)
        });
        let taken: FluentArgs = taken.collect();
        // What went wrong stands in the text in braces; a test of every phrase finds it.
        let said = bundle.format_pattern(pattern, Some(&taken), &mut Vec::new()).into_owned();
        // A translation can put nothing in the place of the caution, only beside it.
        if self.translated && phrase.id() == document::caution(Text::default()).id() {
            let own = Self::english().phrase(phrase, say);
            return if said == own { format!("{own} {UNREVIEWED}") } else { format!("{said} {own} {UNREVIEWED}") };
        }
        said
    }
}

/// For whom something is written: in which words, by which clock, under whose law.
#[derive(Clone, Copy, Debug)]
pub struct Reader<'p> {
    /// The zone whose clock times are told.
    pub zone: Zone,
    /// The country, or the one that stands for none.
    pub country: &'p Country,
    /// The catalogue.
    pub words: &'p Words,
    /// Whether it is read or heard.
    pub voice: Voice,
}

impl<'p> Reader<'p> {
    /// A reader of the catalogue that ships with the program.
    pub fn english(zone: Zone, country: &'p Country) -> Self {
        Self { zone, country, words: Words::english(), voice: Voice::Written }
    }

    /// The same reader, hearing it read aloud.
    #[must_use]
    pub const fn aloud(self) -> Self {
        Self { voice: Voice::Aloud, ..self }
    }

    /// A text as it is read.
    pub fn say(&self, text: &Text) -> String {
        said(self.words, self.zone, self.voice, text)
    }

    /// Headed lists as they are read.
    pub fn sections(&self, sections: impl IntoIterator<Item = Section<Text>>) -> Vec<Section> {
        sections.into_iter().map(|section| self.section(&section)).collect()
    }

    /// A headed list as it is read.
    pub fn section(&self, section: &Section<Text>) -> Section {
        Section {
            heading: self.say(&section.heading),
            tone: section.tone,
            items: section.items.iter().map(|item| self.item(item)).collect(),
        }
    }

    /// A line as it is read; what would say nothing is left out.
    pub fn item(&self, item: &Item<Text>) -> Item {
        let each = |texts: &[Text]| texts.iter().map(|text| self.say(text)).collect();
        Item {
            lead: self.say(&item.lead),
            more: each(&item.more),
            picture: item.picture.clone(),
            asked: each(&item.asked),
            why: item.why.clone(),
            timed: item.timed,
        }
    }

    /// A phrase as it is read.
    pub fn phrase(&self, phrase: &Phrase) -> String {
        self.words.phrase(phrase, &|text| self.say(text))
    }
}

/// Whether a text is written, or read aloud: what is read aloud has no signs in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    /// Figures with the signs of their units, times of day in digits.
    Written,
    /// Units and times of day in words.
    Aloud,
}

/// A text as it is read in some words by some clock.
pub fn say(words: &Words, zone: Zone, text: &Text) -> String {
    said(words, zone, Voice::Written, text)
}

fn said(words: &Words, zone: Zone, voice: Voice, text: &Text) -> String {
    let say = |text: &Text| said(words, zone, voice, text);
    let phrase = |phrase: Phrase| words.phrase(&phrase, &say);
    // What would say nothing leaves no comma behind.
    let joined = |of: &[Text], join: fn(Text, Text) -> Phrase| {
        let said = of.iter().map(&say).filter(|said| !said.is_empty());
        said.reduce(|before, last| phrase(join(Text::Typed(before), Text::Typed(last)))).unwrap_or_default()
    };
    match text {
        Text::Phrase(it) => words.phrase(it, &say),
        Text::Quoted(said) => words.beside.get(said).unwrap_or(said).clone(),
        Text::Typed(said) => said.clone(),
        Text::Moment(at, told) => value::moment(zone, (*at, *told), voice, &say, &phrase),
        Text::Left(seconds) => value::left(*seconds, voice, &phrase),
        Text::Quantity(of) => value::quantity(of, voice, &say, &phrase),
        Text::Row(of) => joined(of, grammar::row),
        Text::List(of) => joined(of, grammar::list),
        Text::Clauses(of) => joined(of, grammar::clauses),
        Text::ListEnded(of) => phrase(grammar::ended(Text::Typed(joined(of, grammar::list)))),
        Text::Lines(of) => of.iter().map(say).collect::<Vec<_>>().join("\n"),
        Text::Joined(of) => of.iter().map(say).collect(),
        Text::Opening(of) => upper_first(&say(of)),
        Text::GoingOn(of) => lower_first(&say(of)),
        Text::Capitals(of) => say(of).to_uppercase(),
    }
}

/// A text with its first letter small, for going on after "Never:".
pub fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// A text with its first letter large.
pub fn upper_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// A text without a moment in it, in the language the program ships with: for what does not know its reader yet.
pub fn english(text: impl Into<Text>) -> String {
    say(Words::english(), Zone::UTC, &text.into())
}
