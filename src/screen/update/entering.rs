//! What is typed, added up, tapped or timed: how it begins, goes back, and becomes an answer or a sum's value.

use super::{Effect, Writing, birds, house, overlay, record};
use crate::care::label::LINE_END;
use crate::exam::{self, Hands, Place};
use crate::finding::Answer;
use crate::finding::figure::{Figure, FigureOf};
use crate::phrase::{Phrase, Quantity, Text, notice};
use crate::reckon::Sum;
use crate::screen::draft::{Draft, Pick, Spill, Taken, Taps, Vein};
use crate::screen::keys::Context;
use crate::screen::model::{Model, Overlay, Page};
use crate::typed::weight;
use crate::unit::{Band, Grams};

/// How many letters a typed line takes. A label is read whole, and so is a vet's word: what matters most may stand last.
pub(super) fn longest(model: &Model) -> usize {
    match model.writing {
        Some(Writing::VetSaid | Writing::Noted(_) | Writing::Proved(_)) => 4_000,
        Some(Writing::Name | Writing::Letters | Writing::Novice | Writing::Sure(_)) => 60,
        None if model.overlays.last() == Some(&Overlay::Page(Page::Label)) => 4_000,
        Some(Writing::Contact(_)) | None => 200,
    }
}

/// Takes one letter; one too many is not taken, and said.
pub(super) fn typed(model: &mut Model, letter: char) {
    let most = longest(model);
    let Some(typed) = &mut model.typed else { return };
    model.notice = None;
    if typed.chars().count() < most {
        typed.push(letter);
    } else {
        model.notice = Some(notice::line_full(most).into());
    }
}

/// Takes pasted text where something is typed. Where a line of a label ends is kept; elsewhere a break is a space.
pub(super) fn pasted(model: &mut Model, text: &str) -> Vec<Effect> {
    let before = model.entered();
    let most = longest(model);
    let between = if model.overlays.last() == Some(&Overlay::Page(Page::Label)) { LINE_END } else { ' ' };
    let text = text.replace("\r\n", "\n");
    let breaks = |c: char| matches!(c, '\n' | '\r' | '\t' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}');
    let letters = text.trim().chars().map(|c| if breaks(c) { between } else { c }).filter(|c| !c.is_control());
    if let Some(typed) = &mut model.typed {
        let room = most.saturating_sub(typed.chars().count());
        typed.extend(letters.clone().take(room));
        if letters.count() > room {
            model.notice = Some(notice::too_long().into());
        }
    }
    if before != model.entered() {
        model.judge();
    }
    Vec::new()
}

/// Takes what was typed, tapped or timed.
pub(super) fn accept(model: &mut Model) -> Vec<Effect> {
    if model.context() == Context::Tapping {
        return take_count(model);
    }
    let Some(typed) = model.typed.clone() else { return Vec::new() };
    if let Some(what) = model.writing {
        return birds::written(model, what, &typed);
    }
    match model.overlays.last() {
        Some(Overlay::House) => return house::take_told(model, &typed),
        Some(Overlay::Page(Page::Label)) => return house::take_label(model, typed),
        _ => {}
    }
    if let Some(sum) = model.sum() {
        return take_value(model, sum, typed);
    }
    if let Some(Draft::Spill(spill)) = &mut model.draft {
        match spill.take(&typed) {
            Ok(Taken::Typing) => model.typed = Some(String::new()),
            Ok(Taken::Picking | Taken::Done) => model.typed = None,
            Err(wrong) => model.notice = Some(wrong),
        }
        return Vec::new();
    }
    let Place::Ask(asked) = model.exam.place else { return Vec::new() };
    match model.read(model.protocol.ask(asked.question), &typed) {
        Ok(answer) => {
            if let Answer::Amount(grams) = answer
                && let Some(doubt) = implausible(model, Grams(grams)).map(Text::from)
                && model.notice.as_ref() != Some(&doubt)
            {
                model.notice = Some(doubt);
                return Vec::new();
            }
            model.typed = None;
            let entries = exam::answer(model.protocol, &model.exam, asked, answer, model.now);
            record(model, entries)
        }
        Err(wrong) => {
            model.notice = Some(wrong);
            Vec::new()
        }
    }
}

/// Takes a value of the open sum; one that cannot be read changes nothing, and the last good one stays. Nothing typed takes
/// the value away.
fn take_value(model: &mut Model, sum: &Sum, typed: String) -> Vec<Effect> {
    let read =
        sum.takes.get(model.field).filter(|_| !typed.trim().is_empty()).map_or(Ok(()), |takes| (takes.check)(&typed));
    match read {
        Ok(()) => {
            if let Some(value) = model.values.get_mut(model.field) {
                *value = typed;
            }
            model.typed = None;
        }
        Err(wrong) => model.notice = Some(wrong.told()),
    }
    Vec::new()
}

/// Opens a sum, with what is known of the bird already filled in.
pub(super) fn open_sum(model: &mut Model, at: usize) -> Vec<Effect> {
    model.overlays.pop();
    let effects = overlay(model, Overlay::Sums(Some(at)));
    let weight = model.verdict.figures.weight.filter(|weight| weight.weighed).map(|weight| weight.band.low);
    let known = |name: &str| match name {
        "kind" => model.exam.kind().map(|kind| kind.id().to_owned()),
        "weight" => weight.map(weight::write),
        _ => None,
    };
    let takes = model.sum().map_or(&[][..], |sum| sum.takes);
    model.values = takes.iter().map(|takes| known(takes.name).unwrap_or_default()).collect();
    effects
}

/// Starts entering a figure; what stands already is gone on with.
pub(super) fn enter(model: &mut Model, of: FigureOf) -> Vec<Effect> {
    let Place::Ask(asked) = model.exam.place else { return Vec::new() };
    let standing = match model.exam.standing(asked) {
        Some(Answer::Figure(figure)) => Some(figure.clone()),
        _ => None,
    };
    model.draft = match (of, standing) {
        (FigureOf::Blood, Some(Figure::Spilt(seen))) => Some(Draft::Spill(Spill::of(seen))),
        (FigureOf::Blood, _) => Some(Draft::Spill(Spill::default())),
        (FigureOf::Breaths, Some(Figure::Breaths(counts))) => Some(Draft::Taps(Taps::after(counts))),
        (FigureOf::Breaths, _) => Some(Draft::Taps(Taps::after(Vec::new()))),
        (FigureOf::Refill, _) => Some(Draft::Vein(Vein::default())),
        (FigureOf::Wound, _) => None,
    };
    model.look_afresh();
    Vec::new()
}

/// Takes a row of what is being added up.
pub(super) fn pick(model: &mut Model, at: usize) -> Vec<Effect> {
    let Some(Draft::Spill(spill)) = &mut model.draft else { return Vec::new() };
    let taken = spill.choose(at);
    let sizing = matches!(spill.pick, Pick::Width(..));
    match taken {
        Taken::Done => return keep_draft(model),
        Taken::Typing => model.typed = Some(String::new()),
        // While a pool is sized the cursor stays where it is.
        Taken::Picking if sizing => {}
        Taken::Picking => model.look_afresh(),
    }
    Vec::new()
}

/// The clock jumped: a count that runs by it is thrown away, one that is done stands.
pub(super) fn jumped(model: &mut Model) -> Vec<Effect> {
    let dropped = match &mut model.draft {
        Some(Draft::Taps(taps)) => taps.running.take().is_some(),
        Some(Draft::Vein(vein)) => vein.since.take().is_some(),
        Some(Draft::Spill(_)) | None => false,
    };
    if dropped {
        model.notice = Some(notice::clock_jumped().into());
    }
    Vec::new()
}

/// A tap: a breath, or the vein.
pub(super) fn tap(model: &mut Model) -> Vec<Effect> {
    let (now, held) = (model.now, matches!(model.hands(), Hands::Held(_)));
    match &mut model.draft {
        Some(Draft::Taps(taps)) => taps.tap(now, held),
        Some(Draft::Vein(vein)) => vein.tap(now),
        Some(Draft::Spill(_)) | None => {}
    }
    Vec::new()
}

/// Takes what was counted or timed; while it runs, or before it began, it is a tap like any other.
fn take_count(model: &mut Model) -> Vec<Effect> {
    let runs = match &model.draft {
        Some(Draft::Taps(taps)) => taps.running.is_some() || taps.counts.is_empty(),
        Some(Draft::Vein(vein)) => vein.took.is_none(),
        Some(Draft::Spill(_)) | None => false,
    };
    if runs { tap(model) } else { keep_draft(model) }
}

/// Takes what is being entered as the answer; nothing entered is lost.
pub(super) fn keep_draft(model: &mut Model) -> Vec<Effect> {
    let Some(draft) = model.draft.take() else { return Vec::new() };
    model.typed = None;
    if let (Place::Ask(asked), Some(figure)) = (model.exam.place.clone(), draft.figure()) {
        let entries = exam::answer(model.protocol, &model.exam, asked, Answer::Figure(figure), model.now);
        record(model, entries)
    } else {
        model.look_afresh();
        Vec::new()
    }
}

/// A step back in what is being entered; at its beginning, back to the question.
pub(super) fn close_draft(model: &mut Model) -> Vec<Effect> {
    let went = match &mut model.draft {
        Some(Draft::Spill(spill)) => spill.back(),
        Some(Draft::Taps(taps)) => taps.back(),
        Some(Draft::Vein(vein)) => vein.back(),
        None => false,
    };
    if !went {
        model.draft = None;
    }
    model.look_afresh();
    Vec::new()
}

/// What to say of a weight that her kind does not reach; said once, for she may be an odd one.
fn implausible(model: &Model, grams: Grams) -> Option<Phrase> {
    let band = model.exam.kind()?.weight();
    (grams < band.low || grams > band.high).then(|| {
        notice::weight_odd(Quantity::weight(Band::exactly(band.low)), Quantity::weight(Band::exactly(band.high)))
    })
}
