//! The order of questions: each stands among those of its step, or it would be asked too early or too late.

use super::Checker;
use crate::protocol::item::Items;
use crate::protocol::question::Step;
use crate::protocol::raw;
use crate::protocol::table::At;
use std::collections::BTreeSet;

impl Checker {
    /// Questions are asked in the order they stand in: none stands below one of a later step. Told is what has to be moved for
    /// that, no more; where either of two may be moved, the first.
    pub(super) fn step_by_step(&mut self, items: &Items) {
        let once = items.questions.iter().filter(|placed| !self.lost.names.contains(&placed.item.id));
        let questions: Vec<_> = once.filter_map(|placed| Some((*self.steps.get(&placed.item.step)?, placed))).collect();
        let stays = most_in_order(&questions);
        let mut faults = Vec::new();
        let mut above = None;
        for (at, (step, placed)) in questions.iter().enumerate() {
            if stays.contains(&at) {
                above = Some((*step, *placed));
                continue;
            }
            let below = || stays.range(at..).next().and_then(|next| questions.get(*next)).map(|(_, next)| *next);
            let late = "too late; a new file is read after those of the shipped protocol";
            let (order, other, place, when) = match above {
                Some((of, above)) if of > *step => ("before", Some(above), "further up", late),
                Some(_) | None => ("after", below(), "further down", "too early"),
            };
            let Some(other) = other else { continue };
            let raw::Question { id, step, .. } = &placed.item;
            let what = format!(
                "step `{step}` comes {order} step `{}` of `{}`, which stands {place}, in {}, line {}; expected among the questions of its step: where it stands it would be asked {when}",
                other.item.step,
                other.item.id,
                other.file,
                other.line_of(&other.item.id)
            );
            faults.push(placed.fault(format!("question `{id}`, field step"), step, what));
        }
        self.faults.extend(faults);
    }
}

/// The positions of the most questions that stand in the order of their steps as it is; of several such choices the one that
/// keeps those further down.
fn most_in_order<T>(questions: &[(At<Step>, T)]) -> BTreeSet<usize> {
    // For every length, the last question of a row that long which ends in the earliest step; and before each question, the one
    // before it in its row.
    let mut ends: Vec<(At<Step>, usize)> = Vec::new();
    let mut before: Vec<Option<usize>> = Vec::with_capacity(questions.len());
    for (at, (step, _)) in questions.iter().enumerate() {
        let length = ends.partition_point(|(last, _)| last <= step);
        before.push(length.checked_sub(1).and_then(|shorter| ends.get(shorter)).map(|(_, at)| *at));
        match ends.get_mut(length) {
            Some(end) => *end = (*step, at),
            None => ends.push((*step, at)),
        }
    }
    let last = ends.last().map(|(_, at)| *at);
    std::iter::successors(last, |at| before.get(*at).copied().flatten()).collect()
}
