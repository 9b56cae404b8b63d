//! The order of doing, and how each part of her is pressed: what holds between several actions.

use super::Desk;
use crate::protocol::PLACE;
use crate::protocol::action::{Action, Fit};
use crate::protocol::body::Region;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Question;
use crate::protocol::raw::{self, Pressing};
use crate::protocol::read::{Items, Placed};

impl Desk {
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
    pub(super) fn pressing(&mut self, items: &Items, actions: &[Action], regions: &[Region], questions: &[Question]) {
        let place = (0u16..).map(QuestionAt).zip(questions).find(|(_, question)| question.id == *PLACE);
        let Some((at, question)) = place else { return };
        // Where some item could not be read, a region may be one of those.
        let in_part = self.in_part;
        for action in actions.iter().filter(|action| action.presses && !in_part) {
            let Some(placed) = items.actions.iter().find(|placed| action.id == *placed.item.id) else { continue };
            for region in regions {
                let Some(choice) = question.choice_at(region.place.as_str()) else { continue };
                let line = action.fits.iter().find(|fit| decides(&fit.when, at, choice));
                self.pressed(placed, region, line);
            }
        }
    }

    fn pressed(&mut self, placed: &Placed<raw::Action>, region: &Region, line: Option<&Fit>) {
        let said = line.and_then(|line| line.pressing).unwrap_or(Pressing::Firmly);
        if said >= region.pressing {
            return;
        }
        let how = match region.pressing {
            Pressing::Firmly => "firmly",
            Pressing::Lightly => "lightly",
            Pressing::Beside => "only beside it",
        };
        let id = &placed.item.id;
        let what = format!(
            "no line for `{}`, which is pressed {how}; expected (when: OneOf(\"{PLACE}\", [\"{}\"]), ..) under `fits`",
            region.place, region.place
        );
        self.faults.push(placed.fault(format!("action `{id}`, field fits"), id, what));
    }
}

/// Whether one answer alone fulfils a condition.
fn decides(cond: &Cond, question: QuestionAt, choice: u8) -> bool {
    match cond {
        Cond::Answer(at, set) => *at == question && set.holds(choice),
        Cond::Any(parts) => parts.iter().any(|part| decides(part, question, choice)),
        Cond::All(parts) => !parts.is_empty() && parts.iter().all(|part| decides(part, question, choice)),
        Cond::Always | Cond::Not(_) | Cond::Count(..) | Cond::SomeWound(_) | Cond::AtLeast(_) | Cond::Under(_) => false,
    }
}
