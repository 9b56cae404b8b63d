//! What has been told in full on an earlier leaf: an evening has no room to read the same twice.

use crate::content::document::{Item, Section};
use crate::phrase::{Text, terms};
use crate::words::english;
use std::collections::BTreeMap;

/// The lines told so far, each with what belongs under it and the mark of the leaf where it stands in full. Two lines are the same
/// where they say the same, however they were put together; English stands for whatever language they are read in.
#[derive(Clone, Debug, Default)]
pub struct Printed {
    whole: BTreeMap<(String, Vec<String>), String>,
    leads: BTreeMap<String, String>,
    sources: BTreeMap<String, String>,
}

impl Printed {
    /// A section with what an earlier leaf told in full cut to its first line and that leaf's mark.
    pub fn once(&mut self, mark: &str, section: Section<Text>) -> Section<Text> {
        let items = section.items.into_iter().map(|item| self.item(mark, item)).collect();
        Section { items, ..section }
    }

    /// Where an act or a ban stands in full, by its line.
    pub fn of(&self, lead: &Text) -> Option<&str> {
        self.leads.get(&english(lead.clone())).map(String::as_str)
    }

    /// Notes that a line stands in full on a leaf.
    pub fn note(&mut self, mark: &str, lead: &Text) {
        self.leads.entry(english(lead.clone())).or_insert_with(|| mark.to_owned());
    }

    /// The mark of the earlier leaf that names a source in full, with how well it is known; noted where none does.
    pub fn source(&mut self, mark: &str, whole: &Text) -> Option<&str> {
        let before = self.sources.entry(english(whole.clone())).or_insert_with(|| mark.to_owned());
        (before != mark).then_some(before.as_str())
    }

    fn item(&mut self, mark: &str, item: Item<Text>) -> Item<Text> {
        if item.more.is_empty() {
            return item;
        }
        let key = (english(item.lead.clone()), item.more.iter().cloned().map(english).collect());
        if let Some(before) = self.whole.get(&key) {
            return Item::plain(terms::cite(item.lead, Text::typed(before)));
        }
        self.note(mark, &item.lead);
        self.whole.insert(key, mark.to_owned());
        item
    }
}
