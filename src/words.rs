//! What is said, in the reader's language: the catalogue, and the grammar that goes with it.
//!
//! Every sentence a person reads stands in the catalogue or in the protocol. What is to be said comes as a [`Text`] of `phrase`,
//! which knows no language; [`Reader::say`] says it.

use crate::content::document::{Item, Section};
use crate::phrase::{Phrase, Taken, Text, Told};
use crate::protocol::texts::Country;
use crate::shipped;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::borrow::Cow;
use std::fmt;
use std::sync::LazyLock;
use unic_langid::LanguageIdentifier;

static ENGLISH: LazyLock<Words> = LazyLock::new(|| {
    let files = shipped::words().into_iter().map(|file| file.text);
    Words::of(LanguageIdentifier::from_bytes(b"en").unwrap_or_default(), files)
});

/// A catalogue in one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
}

impl fmt::Debug for Words {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        write!(out, "Words({:?})", self.bundle.locales)
    }
}

impl Words {
    /// The catalogue that ships with the program. A test reads every phrase of it.
    pub fn english() -> &'static Self {
        &ENGLISH
    }

    /// A catalogue of some files; what cannot be read of them is left out. `overlay` looks first that nothing is.
    fn of(language: LanguageIdentifier, files: impl Iterator<Item = String>) -> Self {
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        // Marks that isolate what is put in would take a column each in a terminal; what was typed is isolated where it leaves.
        bundle.set_use_isolating(false);
        for text in files {
            let resource = FluentResource::try_new(text).unwrap_or_else(|(resource, _)| resource);
            // A name that stands twice keeps its first meaning; the build refuses it.
            let _ = bundle.add_resource(resource);
        }
        Self { bundle }
    }

    /// The same catalogue with every text of it changed: so that a test sees which texts do not come from it.
    #[must_use]
    pub fn changed(mut self, change: fn(&str) -> Cow<str>) -> Self {
        self.bundle.set_transform(Some(change));
        self
    }

    /// A phrase with what it takes, already said; its name in braces where the catalogue lacks it.
    fn phrase(&self, phrase: &Phrase, say: &dyn Fn(&Text) -> String) -> String {
        let pattern = self.bundle.get_message(phrase.id()).and_then(|message| message.value());
        let Some(pattern) = pattern else { return format!("{{{}}}", phrase.id()) };
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
        self.bundle.format_pattern(pattern, Some(&taken), &mut Vec::new()).into_owned()
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
}

impl<'p> Reader<'p> {
    /// A reader of the catalogue that ships with the program.
    pub fn english(zone: Zone, country: &'p Country) -> Self {
        Self { zone, country, words: Words::english() }
    }

    /// A text as it is read.
    pub fn say(&self, text: &Text) -> String {
        say(self.words, self.zone, text)
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

/// A text as it is read in some words by some clock.
pub fn say(words: &Words, zone: Zone, text: &Text) -> String {
    let each = |texts: &[Text]| -> Vec<String> {
        texts.iter().map(|text| say(words, zone, text)).filter(|said| !said.is_empty()).collect()
    };
    match text {
        Text::Phrase(phrase) => words.phrase(phrase, &|text| say(words, zone, text)),
        Text::Quoted(said) | Text::Typed(said) => said.clone(),
        Text::Moment(at, told) => moment(zone, *at, *told),
        Text::Row(of) => each(of).join(" "),
        Text::List(of) => each(of).join(", "),
        Text::Clauses(of) => each(of).join("; "),
        Text::ListEnded(of) => format!("{}.", each(of).join(", ")),
        Text::Joined(of) => each(of).concat(),
        Text::Opening(of) => upper_first(&say(words, zone, of)),
        Text::GoingOn(of) => lower_first(&say(words, zone, of)),
        Text::Capitals(of) => say(words, zone, of).to_uppercase(),
    }
}

/// A moment by a zone's clock.
fn moment(zone: Zone, at: DateTime<Utc>, told: Told) -> String {
    let form = match told {
        Told::Clock => "%a %H:%M",
        Told::Day => "%a %d %b %H:%M",
        Told::DayAlone => "%a %-d %b",
        Told::Date => "%Y-%m-%d %H:%M",
        Told::Far => "%e %B, %H:%M",
    };
    zone.local(at).format(form).to_string()
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
