//! What is in the house, and what may be used of a product: how a supply is put in or taken out, and a label is read.

use super::opening::overlay;
use super::traffic::Effect;
use crate::care::cupboard::{Cupboard, Kept};
use crate::content::mistyped;
use crate::phrase::{Text, notice};
use crate::protocol::supply::{Supply, SupplyAt};
use crate::session::change::Change;
use crate::session::line::TypingOf;
use crate::session::{Overlay, Page, Session};
use crate::view::line::Row;
use crate::view::meaning::Meaning;
use crate::view::rows;

/// Puts a supply in, or takes it out. A stock is of no use without its strength, so that is asked for at once.
pub(super) fn turn(session: &mut Session, at: SupplyAt) -> Vec<Effect> {
    let supply = session.protocol.supply(at);
    if session.cupboard.kept(supply).is_some() {
        session.cupboard.take(supply);
    } else {
        session.cupboard.put(supply, Kept::default());
        session.told_of = Some(at);
        if supply.thin_to.is_some() {
            session.begin_line(TypingOf::Supply(at));
        } else if supply.dated {
            session.notice = Some(notice::put_in(Text::quoted(&supply.name)).into());
        }
    }
    changed(session, at)
}

/// Types the date of the supply the cursor stands on, or else of the one that was put in last.
pub(super) fn date(session: &mut Session) -> Vec<Effect> {
    let at_cursor = session.cursor.and_then(|row| rows::page(session).into_iter().nth(row));
    if let Some(Row { meaning: Meaning::Supply(at), .. }) = at_cursor {
        session.told_of = Some(at);
    }
    let supply = session.told_of.map(|at| (at, session.protocol.supply(at)));
    match supply.filter(|(_, supply)| session.cupboard.kept(supply).is_some()) {
        Some((at, supply)) if supply.dated || supply.thin_to.is_some() => session.begin_line(TypingOf::Supply(at)),
        Some((_, supply)) => session.notice = Some(notice::no_date(Text::quoted(&supply.name)).into()),
        None => session.notice = Some(notice::put_in_first().into()),
    }
    Vec::new()
}

/// Takes the strength and the date that were typed; what cannot be read changes nothing.
pub(super) fn take_told(session: &mut Session, at: SupplyAt, typed: &str) -> Vec<Effect> {
    let supply = session.protocol.supply(at);
    match told(session, supply, typed) {
        Ok(Some(kept)) => session.cupboard.put(supply, kept),
        Ok(None) => {}
        Err(why) => {
            session.notice = Some(why);
            return Vec::new();
        }
    }
    session.line = None;
    changed(session, at)
}

fn told(session: &Session, supply: &Supply, typed: &str) -> Result<Option<Kept>, Text> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    // A date alone is a date.
    let date = typed.len() >= 7 && typed.chars().nth(4) == Some('-');
    let line = if date { format!("{} until {typed}", supply.id) } else { format!("{} {typed}", supply.id) };
    let read = Cupboard::read(session.protocol, &line).map_err(|error| mistyped::cupboard(&error))?;
    // What was not typed now stays as it was told before.
    let before = session.cupboard.kept(supply).unwrap_or_default();
    let both = |kept: Kept| Kept { strength: kept.strength.or(before.strength), until: kept.until.or(before.until) };
    Ok(read.kept(supply).map(both))
}

fn changed(session: &mut Session, at: SupplyAt) -> Vec<Effect> {
    session.judge();
    let supply = session.protocol.supply(at);
    let change = Change::Supply(supply.id.clone(), session.cupboard.kept(supply));
    vec![Effect::Change(session.changed(change))]
}

/// Starts typing a label.
pub(super) fn label(session: &mut Session) -> Vec<Effect> {
    overlay(session, Overlay::Page(Page::Label));
    session.begin_line(TypingOf::Label);
    Vec::new()
}

/// Takes the label that was typed.
pub(super) fn take_label(session: &mut Session, typed: String) -> Vec<Effect> {
    if typed.trim().is_empty() {
        session.notice = Some(notice::copy_label().into());
        return Vec::new();
    }
    session.line = None;
    session.label = typed;
    session.look_afresh();
    Vec::new()
}
