//! Lines as they are said, and how often; gathered in the order in which they are.

use crate::phrase::{Phrase, spoken as phrase};
use crate::render::speech;
use crate::view::keys::Key;
use crate::words::Reader;

/// A line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpokenLine {
    /// What it says.
    pub text: String,
    /// How often.
    pub said: HowOften,
}

/// How often a line is said.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HowOften {
    /// With each screen it stands on.
    Always,
    /// Once in a sitting: what words mean.
    Once,
    /// With all of a screen, and never only because the clock has changed it.
    Ticks,
    /// Once in a sitting, with others like it: a key that need not always be told.
    Key,
}

/// Lines as they are gathered.
pub struct Saying<'p> {
    reader: Reader<'p>,
    lines: Vec<SpokenLine>,
}

impl<'p> Saying<'p> {
    /// None yet.
    pub const fn new(reader: Reader<'p>) -> Self {
        Self { reader, lines: Vec::new() }
    }

    /// A text, a thought a line.
    pub fn add(&mut self, text: &str) {
        let lines = speech::thoughts_aloud(text, self.reader)
            .into_iter()
            .map(|text| SpokenLine { text, said: HowOften::Always });
        self.lines.extend(lines);
    }

    /// Some texts.
    pub fn all<'a>(&mut self, texts: impl IntoIterator<Item = &'a String>) {
        texts.into_iter().for_each(|text| self.add(text));
    }

    /// A phrase.
    pub fn say(&mut self, told: &Phrase) {
        let text = self.reader.phrase(told);
        self.add(&text);
    }

    /// A text that changes with the clock.
    pub fn tick(&mut self, text: &str) {
        self.lines.push(SpokenLine { text: text.to_owned(), said: HowOften::Ticks });
    }

    /// Some texts that change with the clock.
    pub fn all_ticks<'a>(&mut self, texts: impl IntoIterator<Item = &'a String>) {
        texts.into_iter().for_each(|text| self.tick(text));
    }

    /// Texts that are said once in a sitting.
    pub fn once<'a>(&mut self, texts: impl IntoIterator<Item = &'a String>) {
        let from = self.lines.len();
        self.all(texts);
        self.lines.iter_mut().skip(from).for_each(|line| line.said = HowOften::Once);
    }

    /// Keys that need not always be told.
    pub fn keys(&mut self, keys: impl Iterator<Item = String>) {
        self.lines.extend(keys.map(|text| SpokenLine { text, said: HowOften::Key }));
    }

    /// A text that stays one line.
    pub fn as_one(&mut self, text: Option<&str>) {
        self.ready(text.map(|text| speech::thoughts_aloud(text, self.reader).join(" ")));
    }

    /// A phrase that stays one line.
    pub fn whole(&mut self, told: &Phrase) {
        let text = self.reader.phrase(told);
        self.as_one(Some(&text));
    }

    /// Lines that are ready to be said.
    pub fn ready(&mut self, lines: impl IntoIterator<Item = String>) {
        self.lines.extend(lines.into_iter().map(|text| SpokenLine { text, said: HowOften::Always }));
    }

    /// How a line is typed, and left.
    pub fn type_it(&mut self) {
        self.say(&phrase::type_it(Key::Escape.show()));
    }

    /// A heading in capitals, as a sentence.
    pub fn heading(&mut self, text: &str) {
        let text = crate::words::upper_first(&text.to_lowercase());
        let ends = text.ends_with(['.', '?', '!']);
        self.add(&if ends { text } else { format!("{text}.") });
    }

    /// The lines.
    pub fn done(self) -> Vec<SpokenLine> {
        self.lines
    }
}
