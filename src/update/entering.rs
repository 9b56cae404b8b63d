//! What is typed, added up, tapped or timed: how it begins, goes back, and becomes an answer or a sum's value.

use super::opening::overlay;
use super::record::record;
use super::traffic::Effect;
use super::{birds, house};
use crate::care::label::LINE_END;
use crate::exam::{self, Hands, Place};
use crate::finding::Answer;
use crate::finding::figure::{Figure, FigureOf};
use crate::phrase::{Phrase, Quantity, Text, notice};
use crate::session::draft::{Draft, Pick, Spill, Taken, Taps, Vein};
use crate::session::line::TypingOf;
use crate::session::writing::Writing;
use crate::session::{Overlay, Session};
use crate::typed::weight;
use crate::unit::{Band, Grams};

/// How many letters a typed line takes. A label is read whole, and so is a vet's word: what matters most may stand last.
fn longest(of: TypingOf) -> usize {
    match of {
        TypingOf::Label | TypingOf::Case(Writing::VetSaid | Writing::Noted(_) | Writing::Proved(_)) => 4_000,
        TypingOf::Case(Writing::Name | Writing::Letters | Writing::Novice | Writing::Sure(_)) => 60,
        TypingOf::Case(Writing::Contact(_))
        | TypingOf::Answer
        | TypingOf::Blood
        | TypingOf::Supply(_)
        | TypingOf::Value(_) => 200,
    }
}

/// Takes one letter; one too many is not taken, and said.
pub(super) fn typed(session: &mut Session, letter: char) {
    let Some(line) = &mut session.line else { return };
    session.notice = None;
    let most = longest(line.of());
    if line.text().chars().count() < most {
        line.put(letter);
    } else {
        session.notice = Some(notice::line_full(most).into());
    }
}

/// Takes pasted text where something is typed. Where a line of a label ends is kept; elsewhere a break is a space.
pub(super) fn pasted(session: &mut Session, text: &str) -> Vec<Effect> {
    let before = session.entered();
    let text = text.replace("\r\n", "\n");
    let breaks = |c: char| matches!(c, '\n' | '\r' | '\t' | '\u{b}' | '\u{c}' | '\u{85}' | '\u{2028}' | '\u{2029}');
    if let Some(line) = &mut session.line {
        let between = if line.of() == TypingOf::Label { LINE_END } else { ' ' };
        let letters = text.trim().chars().map(|c| if breaks(c) { between } else { c }).filter(|c| !c.is_control());
        let room = longest(line.of()).saturating_sub(line.text().chars().count());
        letters.clone().take(room).for_each(|letter| line.put(letter));
        if letters.count() > room {
            session.notice = Some(notice::too_long().into());
        }
    }
    if before != session.entered() {
        session.judge();
    }
    Vec::new()
}

/// Takes what was typed, tapped or timed.
pub(super) fn accept(session: &mut Session) -> Vec<Effect> {
    let Some(line) = &session.line else { return take_count(session) };
    let typed = line.text().to_owned();
    match line.of() {
        TypingOf::Case(what) => birds::written(session, what, &typed),
        TypingOf::Supply(at) => house::take_told(session, at, &typed),
        TypingOf::Label => house::take_label(session, typed),
        TypingOf::Value(at) => take_value(session, at, typed),
        TypingOf::Blood => take_blood(session, &typed),
        TypingOf::Answer => take_answer(session, &typed),
    }
}

/// Takes a number of the blood that is added up.
fn take_blood(session: &mut Session, typed: &str) -> Vec<Effect> {
    let Some(Draft::Spill(spill)) = &mut session.draft else { return Vec::new() };
    match spill.take(typed) {
        Ok(Taken::Typing) => session.begin_line(TypingOf::Blood),
        Ok(Taken::Picking | Taken::Done) => session.line = None,
        Err(wrong) => session.notice = Some(wrong),
    }
    Vec::new()
}

/// Takes the answer that was typed; a weight her kind does not reach is asked about once.
fn take_answer(session: &mut Session, typed: &str) -> Vec<Effect> {
    let Place::Ask(asked) = session.exam.place else { return Vec::new() };
    match session.read(session.protocol.ask(asked.question), typed) {
        Ok(answer) => {
            if let Answer::Amount(grams) = answer
                && let Some(doubt) = implausible(session, Grams(grams)).map(Text::from)
                && session.notice.as_ref() != Some(&doubt)
            {
                session.notice = Some(doubt);
                return Vec::new();
            }
            session.line = None;
            let entries = exam::answer(session.protocol, &session.exam, asked, answer, session.now);
            record(session, entries)
        }
        Err(wrong) => {
            session.notice = Some(wrong);
            Vec::new()
        }
    }
}

/// Takes a value of the open sum; one that cannot be read changes nothing, and the last good one stays. Nothing typed takes
/// the value away.
fn take_value(session: &mut Session, at: usize, typed: String) -> Vec<Effect> {
    let Some(sum) = session.sum() else { return Vec::new() };
    let read = sum.takes.get(at).filter(|_| !typed.trim().is_empty()).map_or(Ok(()), |takes| (takes.check)(&typed));
    match read {
        Ok(()) => {
            if let Some(value) = session.values.get_mut(at) {
                *value = typed;
            }
            session.line = None;
        }
        Err(wrong) => session.notice = Some(wrong.told()),
    }
    Vec::new()
}

/// Opens a sum, with what is known of the bird already filled in.
pub(super) fn open_sum(session: &mut Session, at: usize) -> Vec<Effect> {
    session.overlays.pop();
    let effects = overlay(session, Overlay::Sums(Some(at)));
    let weight = session.verdict.figures.weight.filter(|weight| weight.weighed).map(|weight| weight.band.low);
    let known = |name: &str| match name {
        "kind" => session.exam.kind().map(|kind| kind.id().to_owned()),
        "weight" => weight.map(weight::write),
        _ => None,
    };
    let takes = session.sum().map_or(&[][..], |sum| sum.takes);
    session.values = takes.iter().map(|takes| known(takes.name).unwrap_or_default()).collect();
    effects
}

/// Starts entering a figure; what stands already is gone on with.
pub(super) fn enter(session: &mut Session, of: FigureOf) -> Vec<Effect> {
    let Place::Ask(asked) = session.exam.place else { return Vec::new() };
    let standing = match session.exam.standing(asked) {
        Some(Answer::Figure(figure)) => Some(figure.clone()),
        _ => None,
    };
    session.draft = match (of, standing) {
        (FigureOf::Blood, Some(Figure::Spilt(seen))) => Some(Draft::Spill(Spill::of(seen))),
        (FigureOf::Blood, _) => Some(Draft::Spill(Spill::default())),
        (FigureOf::Breaths, Some(Figure::Breaths(counts))) => Some(Draft::Taps(Taps::after(counts))),
        (FigureOf::Breaths, _) => Some(Draft::Taps(Taps::after(Vec::new()))),
        (FigureOf::Refill, _) => Some(Draft::Vein(Vein::default())),
        (FigureOf::Wound, _) => None,
    };
    session.look_afresh();
    Vec::new()
}

/// Takes a row of what is being added up.
pub(super) fn pick(session: &mut Session, at: usize) -> Vec<Effect> {
    let Some(Draft::Spill(spill)) = &mut session.draft else { return Vec::new() };
    let taken = spill.choose(at);
    let sizing = matches!(spill.pick, Pick::Width(..));
    match taken {
        Taken::Done => return keep_draft(session),
        Taken::Typing => session.begin_line(TypingOf::Blood),
        // While a pool is sized the cursor stays where it is.
        Taken::Picking if sizing => {}
        Taken::Picking => session.look_afresh(),
    }
    Vec::new()
}

/// The clock jumped: a count that runs by it is thrown away, one that is done stands.
pub(super) fn jumped(session: &mut Session) -> Vec<Effect> {
    let dropped = match &mut session.draft {
        Some(Draft::Taps(taps)) => taps.running.take().is_some(),
        Some(Draft::Vein(vein)) => vein.since.take().is_some(),
        Some(Draft::Spill(_)) | None => false,
    };
    if dropped {
        session.notice = Some(notice::clock_jumped().into());
    }
    Vec::new()
}

/// A tap: a breath, or the vein.
pub(super) fn tap(session: &mut Session) -> Vec<Effect> {
    let (now, held) = (session.now, matches!(session.hands(), Hands::Held(_)));
    match &mut session.draft {
        Some(Draft::Taps(taps)) => taps.tap(now, held),
        Some(Draft::Vein(vein)) => vein.tap(now),
        Some(Draft::Spill(_)) | None => {}
    }
    Vec::new()
}

/// Takes what was counted or timed; while it runs, or before it began, it is a tap like any other.
fn take_count(session: &mut Session) -> Vec<Effect> {
    let runs = match &session.draft {
        Some(Draft::Taps(taps)) => taps.running.is_some() || taps.counts.is_empty(),
        Some(Draft::Vein(vein)) => vein.took.is_none(),
        Some(Draft::Spill(_)) | None => false,
    };
    if runs { tap(session) } else { keep_draft(session) }
}

/// Takes what is being entered as the answer; nothing entered is lost.
pub(super) fn keep_draft(session: &mut Session) -> Vec<Effect> {
    let Some(draft) = session.draft.take() else { return Vec::new() };
    session.line = None;
    if let (Place::Ask(asked), Some(figure)) = (session.exam.place.clone(), draft.figure()) {
        let entries = exam::answer(session.protocol, &session.exam, asked, Answer::Figure(figure), session.now);
        record(session, entries)
    } else {
        session.look_afresh();
        Vec::new()
    }
}

/// A step back in what is being entered; at its beginning, back to the question.
pub(super) fn close_draft(session: &mut Session) -> Vec<Effect> {
    let went = match &mut session.draft {
        Some(Draft::Spill(spill)) => spill.back(),
        Some(Draft::Taps(taps)) => taps.back(),
        Some(Draft::Vein(vein)) => vein.back(),
        None => false,
    };
    if !went {
        session.draft = None;
    }
    session.look_afresh();
    Vec::new()
}

/// What to say of a weight that her kind does not reach; said once, for she may be an odd one.
fn implausible(session: &Session, grams: Grams) -> Option<Phrase> {
    let band = session.exam.kind()?.weight();
    (grams < band.low || grams > band.high).then(|| {
        notice::weight_odd(Quantity::weight(Band::exactly(band.low)), Quantity::weight(Band::exactly(band.high)))
    })
}
