//! What has been told in full on an earlier leaf: an evening has no room to read the same twice.

use crate::content::document::{Item, Section};
use std::collections::BTreeMap;

/// The lines told so far, each with what belongs under it and the mark of the leaf where it stands in full.
#[derive(Clone, Debug, Default)]
pub struct Printed {
    whole: BTreeMap<(String, Vec<String>), String>,
    leads: BTreeMap<String, String>,
}

impl Printed {
    /// A section with what an earlier leaf told in full cut to its first line and that leaf's mark.
    pub fn once(&mut self, mark: &str, section: Section) -> Section {
        let items = section.items.into_iter().map(|item| self.item(mark, item)).collect();
        Section { items, ..section }
    }

    /// Where an act or a ban stands in full, by its line.
    pub fn of(&self, lead: &str) -> Option<&str> {
        self.leads.get(lead).map(String::as_str)
    }

    /// Notes that a line stands in full on a leaf.
    pub fn note(&mut self, mark: &str, lead: &str) {
        self.leads.entry(lead.to_owned()).or_insert_with(|| mark.to_owned());
    }

    fn item(&mut self, mark: &str, item: Item) -> Item {
        if item.more.is_empty() {
            return item;
        }
        let key = (item.lead.clone(), item.more.clone());
        if let Some(before) = self.whole.get(&key) {
            return Item::plain(format!("{} ({before})", item.lead));
        }
        self.note(mark, &item.lead);
        self.whole.insert(key, mark.to_owned());
        item
    }
}
