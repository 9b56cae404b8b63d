//! A protocol with some of its controls taken away, to show what they keep from a bird. What would be left dangling goes with
//! them; the check itself stays as strict as ever.

use super::Protocol;
use super::action::{Pressing, Stance};
use super::check::check_changed;
use super::fault::Faults;
use super::hazard::Control;
use super::item::Items;
use super::raw::{self, Form, Until};
use super::read::{File, Placed};

impl Protocol {
    /// The protocol of these files without some of its controls.
    ///
    /// # Errors
    /// Every fault at once, where what is left does not load.
    pub fn without(files: &[File], controls: &[Control]) -> Result<Self, Faults> {
        check_changed(files, |items| {
            for control in controls {
                remove(items, control);
            }
            items.rules.retain(|rule| rule.item.says_something());
        })
    }
}

fn remove(items: &mut Items, control: &Control) {
    match control {
        Control::Rule(id) => items.rules.retain(|rule| rule.item.id != *id),
        Control::Act(id, action) => of_rule(items, id, |rule| rule.acts.retain(|act| act != action)),
        Control::Exceptions(id) => of_rule(items, id, |rule| rule.unless.clear()),
        Control::Looks(id) => of_rule(items, id, |rule| rule.looks.clear()),
        Control::Ban(action) => ban(items, action),
        Control::End(action) => of_action(items, action, |action| action.forbidden.iter_mut().for_each(endless)),
        Control::Instruction(question, answer) => instruction(items, question, answer),
        Control::Conflict(keep, drop) => {
            items.conflicts.retain(|conflict| conflict.item.keep != *keep || conflict.item.drop != *drop);
        }
        Control::RulesOut(never, drop) => ruled_out(items, never, drop),
        Control::Opens(action) => of_action(items, action, |action| action.opens = None),
        Control::Fits(action) => fits(items, action),
        Control::Before(action, then) => of_action(items, action, |action| action.before.retain(|id| id != then)),
        Control::Paragraph(id) => items.paragraphs.retain(|paragraph| paragraph.item.id != *id),
        Control::Substance(id) => items.substances.retain(|substance| substance.item.id != *id),
    }
}

fn of_rule(items: &mut Items, id: &str, change: impl Fn(&mut raw::Rule)) {
    items.rules.iter_mut().map(|placed| &mut placed.item).filter(|rule| rule.id == id).for_each(change);
}

fn of_action(items: &mut Items, id: &str, change: impl Fn(&mut raw::Action)) {
    items.actions.iter_mut().map(|placed| &mut placed.item).filter(|action| action.id == id).for_each(change);
}

/// Nobody forbids the action any more, and nothing stays forbidden.
fn ban(items: &mut Items, action: &str) {
    for Placed { item: rule, .. } in &mut items.rules {
        rule.never.retain(|never| never != action);
        rule.stays.retain(|(never, _)| never != action);
    }
    for Placed { item: instruction, .. } in &mut items.instructions {
        instruction.never.retain(|never| never != action);
    }
}

/// The ban lasts as long as she does.
fn endless(ban: &mut raw::Forbidden) {
    ban.until = Until::Lives { because: "Nothing ends it.".to_owned() };
    for fit in &mut ban.fits {
        fit.until = None;
    }
}

fn instruction(items: &mut Items, question: &str, answer: &str) {
    let seen = items.roles.as_ref().is_some_and(|roles| roles.item.yes == answer);
    for Placed { item, .. } in items.questions.iter_mut().filter(|placed| placed.item.id == question) {
        match &mut item.form {
            Form::Ordered(answers) | Form::Unordered(answers) => {
                for answer in answers.iter_mut().filter(|own| own.id == answer) {
                    answer.instruct = None;
                }
            }
            Form::YesNo { instruct, .. } if seen => *instruct = None,
            Form::YesNo { .. } | Form::Weight => {}
        }
    }
}

/// The ban no longer drags the action along, and so bars none of the states it brings her into.
fn ruled_out(items: &mut Items, never: &str, drop: &str) {
    items.rules_out.retain(|out| out.item.never != never || out.item.drop != drop);
    let kept: Vec<Stance> = items
        .actions
        .iter()
        .filter(|placed| placed.item.id == drop)
        .flat_map(|placed| placed.item.may_keep())
        .collect();
    of_action(items, never, |action| {
        if let Some(ban) = &mut action.forbidden {
            ban.bars.retain(|stance| !kept.contains(stance));
        }
    });
}

/// One line stands for every bird and place; where it presses, every place is then thought to bear it.
fn fits(items: &mut Items, action: &str) {
    of_action(items, action, |action| action.fits.clear());
    if items.actions.iter().any(|placed| placed.item.id == action && placed.item.presses) {
        for Placed { item: region, .. } in &mut items.regions {
            region.pressing = Pressing::Firmly;
        }
    }
}
