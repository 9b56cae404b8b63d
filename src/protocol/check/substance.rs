//! Substances: known actions and supplies, names that stand for one thing only, and stems long enough to mean something.

use super::Checker;
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::spelling::words;
use crate::protocol::substance::{Elsewhere, Ruling, Substance};
use std::collections::BTreeMap;

impl Checker {
    pub(super) fn substances(&mut self, items: &Items) -> Vec<Substance> {
        let mut taken: BTreeMap<Vec<String>, String> = BTreeMap::new();
        let mut found = Vec::new();
        for placed in &items.substances {
            self.barred(placed, items);
            let Some(substance) = self.substance(placed) else { continue };
            for (name, spelled) in placed.item.names.iter().zip(&substance.names) {
                match taken.insert(spelled.clone(), substance.id.to_string()) {
                    Some(before) if substance.id != *before => {
                        let what = format!("`{name}` is a name of `{before}` too; it can stand for one thing only");
                        self.faults.push(placed.fault(format!("substance `{}`", substance.id), name, what));
                    }
                    Some(_) | None => {}
                }
            }
            found.push(substance);
        }
        found
    }

    fn substance(&mut self, placed: &Placed<raw::Substance>) -> Option<Substance> {
        let raw = placed.item.clone();
        let item = format!("substance `{}`", raw.id);
        self.words(placed, &item, "name", &raw.name);
        self.instructs(placed, &item, "say", &raw.say);
        let basis = self.basis(placed, &item, raw.source.as_deref(), raw.strength, raw.borrowed.clone());
        if matches!(raw.ruling, Ruling::Unknown | Ruling::AsTheVetWrote) {
            let what = "what is not listed is unknown, and what a vet wrote is told by the person; a substance that is listed needs a ruling of its own".to_owned();
            self.faults.push(placed.fault(item.clone(), "ruling", what));
        }
        let stems = || raw.starts.iter().chain(&raw.ends).chain(&raw.holds);
        if let Some(short) = stems().find(|stem| stem.len() < 3) {
            let what = format!("stem `{short}` is too short to mean anything; three letters at least");
            self.faults.push(placed.fault(item.clone(), short, what));
        }
        // What may be used is known by its full name only: a stem or a slip of the pen must never make it so.
        if raw.ruling < Ruling::AskFirst && stems().next().is_some() {
            let what = "what may be used is known by its names only, never by a stem".to_owned();
            self.faults.push(placed.fault(item.clone(), "ruling", what));
        }
        let names: Vec<Vec<String>> = raw.names.iter().map(|name| words(name)).collect();
        for (name, _) in raw.names.iter().zip(&names).filter(|(_, words)| words.is_empty()) {
            self.faults.push(placed.fault(item.clone(), name, format!("`{name}` is no name")));
        }
        let act = match &raw.act {
            Some(name) => Some(self.known(placed, &item, "act", name)?),
            None => None,
        };
        let supply = match &raw.supply {
            Some(name) => Some(self.known(placed, &item, "supply", name)?),
            None => None,
        };
        Some(Substance {
            id: raw.id.as_str().into(),
            name: raw.name,
            ruling: raw.ruling,
            act,
            supply,
            names,
            starts: raw.starts,
            ends: raw.ends,
            holds: raw.holds,
            but: raw.but,
            say: raw.say,
            source: basis.source,
            strength: basis.strength,
            borrowed: basis.borrowed,
            law_of: raw.law_of.iter().map(|country| country.as_str().into()).collect(),
            elsewhere: raw.elsewhere,
            by_vet: raw.by_vet,
        })
    }

    /// A law is some country's that is told of; where it does not hold the ruling is milder, and a vet is asked at the least.
    fn barred(&mut self, placed: &Placed<raw::Substance>, items: &Items) {
        let raw::Substance { id, law_of, elsewhere, ruling, .. } = &placed.item;
        let item = format!("substance `{id}`");
        // The first stands for none.
        let countries = || items.countries.iter().skip(1).map(|country| country.item.id.as_str());
        for name in law_of.iter().filter(|name| !countries().any(|known| known == name.as_str())) {
            self.unknown(placed, &item, "law_of", "country", name, nearest(name, countries()));
        }
        let Some(Elsewhere { ruling: milder, say }) = elsewhere else { return };
        self.words(placed, &item, "elsewhere", say);
        if law_of.is_empty() || !matches!(milder, Ruling::AskFirst | Ruling::NotHere) || milder >= ruling {
            let what =
                "`elsewhere` goes with `law_of`; its ruling is AskFirst or NotHere, milder than the law's".to_owned();
            self.faults.push(placed.fault(format!("{item}, field elsewhere"), "elsewhere", what));
        }
    }
}
