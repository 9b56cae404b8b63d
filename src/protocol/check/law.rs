//! The laws of countries: each matter told or said not to be known, the strictest first, a law never mere practice.

use super::Checker;
use crate::protocol::item::Items;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::source::Strength;
use crate::protocol::texts::{Country, Gap, Law, LawOn, Limit};
use crate::typed::Household;

impl Checker {
    /// Every country; where nothing was found in its law, with what is strictest of all that ship.
    pub(super) fn countries(&mut self, items: &Items) -> Vec<Country> {
        let mut countries: Vec<_> = items.countries.iter().map(|placed| self.country(placed)).collect();
        self.strictest(items, &countries);
        if let Some((unset, others)) = countries.split_first_mut() {
            for gap in others.iter_mut().flat_map(|country| &mut country.gaps) {
                gap.holds = unset.on(gap.on).cloned().collect();
            }
        }
        countries
    }

    fn country(&mut self, placed: &Placed<raw::Country>) -> Country {
        let raw::Country { id, name, caution, laws, not_found } = placed.item.clone();
        let item = format!("country `{id}`");
        for (field, text) in [("name", &name), ("caution", &caution)] {
            self.words(placed, &item, field, text);
        }
        let laws: Vec<_> = laws.into_iter().map(|law| self.law(placed, &item, law)).collect();
        let gaps: Vec<_> = not_found.into_iter().map(|gap| self.gap(placed, &item, gap)).collect();
        for matter in LawOn::ALL {
            if !laws.iter().any(|law| law.on == matter) && !gaps.iter().any(|gap| gap.on == matter) {
                let what =
                    format!("nothing is told on {matter:?}: name a law, or say under `not_found` what was looked for");
                self.faults.push(placed.fault(item.clone(), "laws", what));
            }
        }
        let roles = self.roles.as_ref();
        let kitchen = roles.and_then(|roles| roles.kitchens.iter().find(|(country, _)| *country == id));
        Country {
            stands_for_none: roles.is_some_and(|roles| roles.no_country == id),
            household: kitchen.map_or(Household::Unknown, |(_, household)| *household),
            id: id.as_str().into(),
            name,
            caution,
            laws,
            gaps,
        }
    }

    fn law(&mut self, placed: &Placed<raw::Country>, item: &str, raw: raw::Law) -> Law {
        let raw::Law { on, say, law, dated, limits, source, strength } = raw;
        for (field, text) in [("say", &say), ("law", &law), ("dated", &dated)] {
            self.words(placed, item, field, text);
        }
        let super::basis::Basis { source, strength, .. } = self.basis(placed, item, source.as_deref(), strength, None);
        if matches!(strength, Strength::Practice | Strength::Proposal) {
            let what =
                format!("a law on {on:?} is read, told second-hand or remembered; else it stands under `not_found`");
            self.faults.push(placed.fault(item.to_owned(), "strength", what));
        }
        Law { on, say, law, dated, limits, source, strength }
    }

    fn gap(&mut self, placed: &Placed<raw::Country>, item: &str, raw: raw::NotFound) -> Gap {
        let raw::NotFound { on, what, looked } = raw;
        for (field, text) in [("what", &what), ("looked", &looked)] {
            self.words(placed, item, field, text);
        }
        Gap { on, what, looked, holds: Vec::new() }
    }

    /// Where no country is set nothing may be laxer than in any country that ships, and nothing unknown.
    fn strictest(&mut self, items: &Items, countries: &[Country]) {
        let first = items.countries.first().zip(countries.first());
        let Some((placed, unset)) = first.filter(|(_, country)| country.stands_for_none) else { return };
        let item = format!("country `{}`", unset.id);
        for gap in &unset.gaps {
            let what = format!("what is not known on {:?} elsewhere holds by this country: it needs a law", gap.on);
            self.faults.push(placed.fault(item.clone(), "not_found", what));
        }
        for (country, limit) in
            countries.iter().flat_map(|country| country.own_limits().map(move |limit| (&country.id, limit)))
        {
            let mut of_its_sort = unset.own_limits().filter_map(|own| as_strict(own, limit)).peekable();
            let kept = of_its_sort.peek().is_some() && of_its_sort.all(|strict| strict);
            if !kept {
                let what = format!(
                    "{limit:?} of `{country}` is stricter than what holds where none is set: write at least that here"
                );
                self.faults.push(placed.fault(item.clone(), "limits", what));
            }
        }
    }
}

/// Whether one limit is at least as strict as another; nothing where they are of two sorts.
const fn as_strict(own: Limit, other: Limit) -> Option<bool> {
    match (own, other) {
        (Limit::EggDays(own), Limit::EggDays(other)) | (Limit::MeatDays(own), Limit::MeatDays(other)) => {
            Some(own >= other)
        }
        (Limit::ByHandGrams(own), Limit::ByHandGrams(other))
        | (Limit::WithToolGrams(own), Limit::WithToolGrams(other))
        | (Limit::BodyHours(own), Limit::BodyHours(other)) => Some(own <= other),
        _ => None,
    }
}
