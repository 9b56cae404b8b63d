//! The order of doing, and how each part of her is pressed: what holds between several actions.

use super::Checker;
use crate::protocol::action::{Action, Fit, Pressing};
use crate::protocol::body::Region;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;

impl Checker {
    /// No action comes before one of an earlier part of the plan.
    pub(super) fn in_order(&mut self, items: &Items) {
        let named = |id: &String| items.actions.iter().find(|placed| placed.item.id == *id);
        for placed in &items.actions {
            let raw::Action { id, before, part, .. } = &placed.item;
            for later in before.iter().filter_map(named).filter(|later| later.item.part < *part) {
                let later = &later.item.id;
                let what = format!("`{later}` stands in an earlier part of the plan, and cannot come after it");
                self.faults.push(placed.fault(format!("action `{id}`, field before"), later, what));
            }
        }
    }

    /// Whatever presses says how, wherever a part of her is not pressed firmly.
    pub(super) fn pressing(
        &mut self,
        items: &Items,
        actions: &[Action],
        regions: &[Region],
        place: Option<QuestionAt>,
        questions: &[Question],
    ) {
        let question = place.and_then(|at| questions.get(at.nth()));
        let Some((at, question)) = place.zip(question) else { return };
        // Where some item could not be read, a region may be one of those.
        let in_part = self.lost.some;
        for action in actions.iter().filter(|action| action.presses && !in_part) {
            let Some(placed) = items.actions.iter().find(|placed| action.id == *placed.item.id) else { continue };
            for region in regions {
                let Some(choice) = question.choice_at(region.place.as_str()) else { continue };
                let decisive = action.fits.iter().position(|fit| decides(&fit.when, at, choice));
                let lines = decisive.and_then(|last| action.fits.get(..=last));
                let could_stand = |fit: &&Fit| !excludes(&fit.when, at, choice);
                self.pressed(placed, question, region, lines.map(|lines| lines.iter().filter(could_stand)));
            }
        }
    }

    /// Of the lines that could stand for a region, down to the first that it alone decides, none presses harder than it bears.
    fn pressed<'f>(
        &mut self,
        placed: &Placed<raw::Action>,
        place: &Question,
        region: &Region,
        lines: Option<impl Iterator<Item = &'f Fit>>,
    ) {
        let how = match region.pressing {
            Pressing::Firmly => return,
            Pressing::Lightly => "lightly",
            Pressing::Beside => "only beside it",
        };
        let id = &placed.item.id;
        let Some(lines) = lines else {
            let what = format!(
                "no line for `{}`, which is pressed {how}; expected (when: \"{} = {}\", ..) under `fits`",
                region.place, place.id, region.place
            );
            self.faults.push(placed.fault(format!("action `{id}`, field fits"), id, what));
            return;
        };
        for line in lines.filter(|line| line.pressing.unwrap_or_default() < region.pressing) {
            let what = format!(
                "this line could stand for `{}`, which is pressed {how}; expected `pressing: {:?}`, or this line further down, below the one for `{}`",
                region.place, region.pressing, region.place
            );
            self.faults.push(placed.fault(format!("action `{id}`, field fits"), &line.say, what));
        }
    }
}

/// Whether one answer alone fulfils a condition, whatever else is known.
fn decides(cond: &Cond, question: QuestionAt, choice: u8) -> bool {
    let fulfils = |part: &Cond| decides(part, question, choice);
    match cond {
        Cond::Always => true,
        Cond::Answer(at, set) => *at == question && set.holds(choice),
        Cond::Any(parts) => parts.iter().any(fulfils),
        Cond::All(parts) => parts.iter().all(fulfils),
        Cond::Count(least, parts) => parts.iter().filter(|part| fulfils(part)).count() >= *least,
        Cond::Not(part) => excludes(part, question, choice),
        Cond::SomeWound(_) | Cond::AtLeast(_) | Cond::Under(_) => false,
    }
}

/// Whether one answer alone keeps a condition from being fulfilled, whatever else is known.
fn excludes(cond: &Cond, question: QuestionAt, choice: u8) -> bool {
    let excluded = |part: &Cond| excludes(part, question, choice);
    match cond {
        Cond::Answer(at, set) => *at == question && !set.holds(choice),
        Cond::Any(parts) => parts.iter().all(excluded),
        Cond::All(parts) => parts.iter().any(excluded),
        Cond::Count(least, parts) => parts.iter().filter(|part| !excluded(part)).count() < *least,
        Cond::Not(part) => decides(part, question, choice),
        Cond::Always | Cond::SomeWound(_) | Cond::AtLeast(_) | Cond::Under(_) => false,
    }
}
