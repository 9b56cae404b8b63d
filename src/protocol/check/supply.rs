//! Supplies, ways and rounds: known names, a last way that needs nothing, and times that come.

use super::Checker;
use super::strength::{family_of_supply, strength};
use crate::protocol::item::Items;
use crate::protocol::limits::LAST_HOUR;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::supply::{Round, Supply, Way};

/// Where the amount of stock stands in a line of a way.
pub const MIX: &str = "{mix}";

/// The strength a stock of this family is thinned to.
fn thinned_to(family: &raw::Family) -> Option<raw::Stock> {
    family.on.iter().find_map(|on| on.wanted.as_ref()).filter(|_| family.thinned).map(|wanted| wanted.make)
}

impl Checker {
    /// A supply; how strong it may be is told by the table of strengths.
    pub(super) fn supply(&mut self, placed: &Placed<raw::Supply>, items: &Items) -> Supply {
        let raw::Supply { id, name, why, dated, withholds, source } = placed.item.clone();
        let item = format!("supply `{id}`");
        self.words(placed, &item, "name", &name);
        self.instructs(placed, &item, "why", &why);
        let source = self.known_source(placed, &item, source.as_deref());
        let family = family_of_supply(items, &id);
        let others =
            family.iter().flat_map(|family| &family.others).map(|other| (strength(other.at), other.say.clone()));
        let at_most = family.and_then(|family| family.at_most.clone());
        Supply {
            id: id.as_str().into(),
            name,
            why,
            dated,
            thin_to: family.and_then(thinned_to).map(strength),
            others: others.collect(),
            at_most: at_most.map(|(at, because)| (strength(at), because)),
            withholds,
            source,
        }
    }

    /// Every action that has ways ends with one that needs nothing: nobody is left without.
    pub(super) fn ways(&mut self, items: &Items) -> Vec<Way> {
        // What could not be read may be the last way of its action.
        let known = !self.lost.some;
        for placed in items.ways.iter().filter(|_| known) {
            let of_action = |other: &&Placed<raw::Way>| other.item.act == placed.item.act;
            let (item, act) = (format!("way to `{}`", placed.item.act), &placed.item.act);
            let last = items.ways.iter().rfind(of_action);
            let is_last = last.is_some_and(|last| std::ptr::eq(last, placed));
            // What a ban may bar is not open to every bird.
            let open_to_all = placed.item.needs.is_empty() && placed.item.keeps.is_empty();
            let what = match (is_last, open_to_all) {
                (true, false) => {
                    "the last way to do an action must need nothing and keep no state, so that nobody is left without"
                }
                (false, true) => {
                    "a way that needs nothing is the last of its action: those after it would never be used"
                }
                (true, true) | (false, false) => continue,
            };
            self.faults.push(placed.fault(item, act, what.to_owned()));
        }
        items.ways.iter().filter_map(|placed| self.way(placed, items)).collect()
    }

    fn way(&mut self, placed: &Placed<raw::Way>, items: &Items) -> Option<Way> {
        let raw = placed.item.clone();
        let item = format!("way to `{}`", raw.act);
        for line in &raw.lines {
            self.instructs(placed, &item, "lines", line);
        }
        for (field, sign) in
            [("stop", &raw.stop), ("phone_if", &raw.phone_if)].into_iter().filter(|(_, sign)| !sign.is_empty())
        {
            self.instructs(placed, &item, field, sign);
        }
        for line in raw.picture.iter().filter(|line| !line.is_empty()) {
            self.words(placed, &item, "picture", line);
        }
        let basis = self.basis(placed, &item, raw.source.as_deref(), raw.strength, raw.borrowed.clone());
        if raw.lines.is_empty() {
            self.faults.push(placed.fault(item.clone(), "lines", "a way needs at least one line".to_owned()));
        }
        if let Some(say) = &raw.say {
            self.words(placed, &item, "say", say);
            self.fits_a_phone(placed, &item, "say", say);
        }
        if raw.undone && raw.say.is_none() {
            let what = "what is done in place of an action needs a `say` of its own".to_owned();
            self.faults.push(placed.fault(item.clone(), "undone", what));
        }
        let needs: Vec<_> = raw.needs.iter().map(|name| self.known(placed, &item, "needs", name)).collect();
        let stock = |name: &String| family_of_supply(items, name).and_then(thinned_to).is_some();
        if !self.lost.some && raw.lines.iter().any(|line| line.contains(MIX)) && !raw.needs.iter().any(stock) {
            let what = format!(
                "`{MIX}` stands for an amount of stock, and none of what this needs is thinned by the table of strengths"
            );
            self.faults.push(placed.fault(item.clone(), MIX, what));
        }
        Some(Way {
            act: self.known(placed, &item, "act", &raw.act)?,
            needs: needs.into_iter().collect::<Option<_>>()?,
            say: raw.say,
            undone: raw.undone,
            lines: raw.lines,
            keeps: raw.keeps,
            picture: raw.picture,
            timer_s: raw.timer_s,
            stop: raw.stop,
            phone_if: raw.phone_if,
            source: basis.source,
            strength: basis.strength,
            borrowed: basis.borrowed,
        })
    }

    pub(super) fn round(&mut self, placed: &Placed<raw::Round>) -> Option<Round> {
        let raw = placed.item.clone();
        let item = format!("round `{}`", raw.id);
        self.words(placed, &item, "topic", &raw.topic);
        for (field, text) in [("say", &raw.say), ("stop", &raw.stop)] {
            self.instructs(placed, &item, field, text);
        }
        let basis = self.basis(placed, &item, raw.source.as_deref(), raw.strength, raw.borrowed.clone());
        let comes = raw.every_min > 0
            && (1..=LAST_HOUR).contains(&raw.until_h)
            && raw.every_min <= raw.until_h * 60
            && raw.at_min.iter().all(|at| *at <= raw.until_h * 60);
        if !comes || !raw.at_min.is_sorted() {
            let what = format!(
                "a round comes at least a minute apart and within its hours, until hour {LAST_HOUR} at most, its first times from soonest to latest"
            );
            self.faults.push(placed.fault(item.clone(), "every_min", what));
        }
        Some(Round {
            id: raw.id.as_str().into(),
            with: self.all_known(placed, &item, "with", &raw.with)?,
            told_by: self.all_known(placed, &item, "told_by", &raw.told_by)?,
            at_min: raw.at_min,
            every_min: raw.every_min,
            until_h: raw.until_h,
            topic: raw.topic,
            say: raw.say,
            stop: raw.stop,
            source: basis.source,
            strength: basis.strength,
            borrowed: basis.borrowed,
        })
    }
}
