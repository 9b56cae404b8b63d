//! Rings: nothing leads back to where it began, neither instructions, nor the order of doing, nor what stands in for what.

use super::Checker;
use crate::protocol::item::Items;

impl Checker {
    /// What comes where an instruction has not helped ends some time; no action comes before itself, by whatever way round; and none
    /// stands in for itself, for then none of the ring would be told.
    pub(super) fn rings(&mut self, items: &Items) {
        let instruction = |id: &str| items.instructions.iter().map(|placed| &placed.item).find(|item| item.id == id);
        let action = |id: &str| items.actions.iter().map(|placed| &placed.item).find(|item| item.id == id);
        let again = |id: &str| instruction(id).into_iter().filter_map(|item| item.again.as_deref());
        let before = |id: &str| action(id).into_iter().flat_map(|item| item.before.iter().map(String::as_str));
        let replaces = |id: &str| action(id).into_iter().flat_map(|item| item.replaces.iter().map(String::as_str));
        for placed in &items.instructions {
            let id = placed.item.id.as_str();
            if let Some(way) = ring(id, again) {
                let way = way.join(", then ");
                let what = format!("`again` leads back to where it began: nobody would ever come out of {way}");
                self.faults.push(placed.fault(format!("instruction `{id}`"), "again", what));
            }
        }
        for placed in &items.actions {
            let id = placed.item.id.as_str();
            if let Some(way) = ring(id, before) {
                let what = format!("it would have to come before itself: {}", way.join(", then "));
                self.faults.push(placed.fault(format!("action `{id}`, field before"), id, what));
            }
            if let Some(way) = ring(id, replaces) {
                let what = format!(
                    "it would stand in for itself: {}; where all of them are advised none would be told, so take one out of `replaces`",
                    way.join(", then ")
                );
                self.faults.push(placed.fault(format!("action `{id}`, field replaces"), "replaces", what));
            }
        }
    }
}

/// The way by which one comes back to where one started, each step one that `next` names; nothing where none leads back.
fn ring<'i, N: Iterator<Item = &'i str>>(start: &'i str, next: impl Fn(&str) -> N) -> Option<Vec<&'i str>> {
    let mut ways = vec![vec![start]];
    let mut seen = Vec::new();
    while let Some(way) = ways.pop() {
        for on in next(way.last()?) {
            let longer = way.iter().copied().chain([on]).collect();
            if on == start {
                return Some(longer);
            }
            if !seen.contains(&on) {
                seen.push(on);
                ways.push(longer);
            }
        }
    }
    None
}
