//! What is in the house, and what may be used of a product: how a supply is put in or taken out, and a label is read.

use super::{Effect, overlay};
use crate::care::cupboard::{Cupboard, Kept};
use crate::content::mistyped;
use crate::phrase::{Text, notice};
use crate::protocol::supply::{Supply, SupplyAt};
use crate::screen::change::Change;
use crate::screen::model::{Model, Overlay, Page};
use crate::screen::rows::{self, Meaning, Row};

/// Puts a supply in, or takes it out. A stock is of no use without its strength, so that is asked for at once.
pub(super) fn turn(model: &mut Model, at: SupplyAt) -> Vec<Effect> {
    let supply = model.protocol.supply(at);
    if model.cupboard.kept(supply).is_some() {
        model.cupboard.take(supply);
    } else {
        model.cupboard.put(supply, Kept::default());
        model.told_of = Some(at);
        if supply.thin_to.is_some() {
            model.typed = Some(String::new());
        } else if supply.dated {
            model.notice = Some(notice::put_in(Text::quoted(&supply.name)).into());
        }
    }
    changed(model, at)
}

/// Types the date of the supply the cursor stands on, or else of the one that was put in last.
pub(super) fn date(model: &mut Model) -> Vec<Effect> {
    let at_cursor = model.cursor.and_then(|row| rows::page(model).into_iter().nth(row));
    if let Some(Row { meaning: Meaning::Supply(at), .. }) = at_cursor {
        model.told_of = Some(at);
    }
    let supply = model.told_of.map(|at| model.protocol.supply(at));
    match supply.filter(|supply| model.cupboard.kept(supply).is_some()) {
        Some(supply) if supply.dated || supply.thin_to.is_some() => model.typed = Some(String::new()),
        Some(supply) => model.notice = Some(notice::no_date(Text::quoted(&supply.name)).into()),
        None => model.notice = Some(notice::put_in_first().into()),
    }
    Vec::new()
}

/// Takes the strength and the date that were typed; what cannot be read changes nothing.
pub(super) fn take_told(model: &mut Model, typed: &str) -> Vec<Effect> {
    let Some(at) = model.told_of else { return Vec::new() };
    let supply = model.protocol.supply(at);
    match told(model, supply, typed) {
        Ok(Some(kept)) => model.cupboard.put(supply, kept),
        Ok(None) => {}
        Err(why) => {
            model.notice = Some(why);
            return Vec::new();
        }
    }
    model.typed = None;
    changed(model, at)
}

fn told(model: &Model, supply: &Supply, typed: &str) -> Result<Option<Kept>, Text> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    // A date alone is a date.
    let date = typed.len() >= 7 && typed.chars().nth(4) == Some('-');
    let line = if date { format!("{} until {typed}", supply.id) } else { format!("{} {typed}", supply.id) };
    let read = Cupboard::read(model.protocol, &line).map_err(|error| mistyped::cupboard(&error))?;
    // What was not typed now stays as it was told before.
    let before = model.cupboard.kept(supply).unwrap_or_default();
    let both = |kept: Kept| Kept { strength: kept.strength.or(before.strength), until: kept.until.or(before.until) };
    Ok(read.kept(supply).map(both))
}

fn changed(model: &mut Model, at: SupplyAt) -> Vec<Effect> {
    model.judge();
    let supply = model.protocol.supply(at);
    let change = Change::Supply(supply.id.clone(), model.cupboard.kept(supply));
    vec![Effect::Change(model.changed(change))]
}

/// Starts typing a label.
pub(super) fn label(model: &mut Model) -> Vec<Effect> {
    overlay(model, Overlay::Page(Page::Label));
    model.typed = Some(String::new());
    Vec::new()
}

/// Takes the label that was typed.
pub(super) fn take_label(model: &mut Model, typed: String) -> Vec<Effect> {
    if typed.trim().is_empty() {
        model.notice = Some(notice::copy_label().into());
        return Vec::new();
    }
    model.typed = None;
    model.label = typed;
    model.look_afresh();
    Vec::new()
}
