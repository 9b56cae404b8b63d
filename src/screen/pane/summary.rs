//! The running summary: need, humane end, do now, never, why, and how much could still change.

use super::Lines;
use crate::care::PlanStep;
use crate::content::terms::need as need_of;
use crate::content::why;
use crate::phrase::{Phrase, Text, summary as phrase, terms};
use crate::protocol::scale::Authority;
use crate::screen::theme::{Theme, need_mark};
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::view::keys::Action;
use crate::view::named;
use crate::view::summary::{
    alarms, authority_line, bare_step, calls_any, could_change, figure_lines, is_done, need_words, never_beside,
    never_text, now, phone_after, step_text, telling,
};
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// At most this many lines of "do now".
const DO_NOW: usize = 3;
/// At most this many lines of "never".
const NEVER: usize = 3;

/// The summary beside the question.
pub fn column(session: &Session, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    let add = |lines: &mut Lines, text: Text, first: &str, style| {
        lines.add(wrapped(&session.say(text), width, first, style));
    };
    let heading = |lines: &mut Lines, text: Phrase| {
        lines.gap();
        add(lines, text.into(), "", theme.heading());
    };
    heading(&mut lines, phrase::so_far());
    let need = session.verdict.need;
    add(&mut lines, need_words(session), &format!("{} ", need_mark(need)), theme.need(need));
    for alarm in alarms(session) {
        add(&mut lines, alarm.into(), "! ", theme.urgent());
    }
    for told in [could_change(session), telling(session)].into_iter().flatten() {
        add(&mut lines, told.into(), "", theme.aside());
    }
    if now(session).next().is_some() {
        heading(&mut lines, phrase::do_now());
        for (number, step) in (1..).zip(now(session).take(DO_NOW)) {
            add(&mut lines, step_text(session, step), &format!("{number} "), theme.question());
        }
        let more = now(session).count().saturating_sub(DO_NOW);
        if more > 0 {
            let key = named::key(session, Action::Plan);
            let told = key.map_or_else(|| phrase::more(more), |key| phrase::more_key(more, key));
            add(&mut lines, told.into(), "  ", theme.aside());
        }
    }
    let figures = figure_lines(session);
    if !figures.is_empty() {
        heading(&mut lines, phrase::figures());
        for (name, figure) in figures {
            add(&mut lines, figure, &format!("{} ", session.say(terms::follows(name))), theme.plain());
        }
    }
    if !session.plan.never.is_empty() {
        heading(&mut lines, phrase::never_heading());
        for (target, _) in session.plan.never.iter().take(NEVER) {
            add(&mut lines, never_text(session, *target), "x ", theme.never());
        }
    }
    if let Some(reason) = session.verdict.reasons.iter().find(|r| session.protocol.rule(r.rule).need.is_some()) {
        heading(&mut lines, phrase::why());
        add(&mut lines, why::headline(session.protocol, *reason), "", theme.plain());
    }
    lines
}

/// The summary as a band of lines above the question, most important first.
pub fn band(session: &Session, theme: Theme, width: usize, height: usize) -> Vec<Line<'static>> {
    let need = session.verdict.need;
    let mut lines = wrapped(&band_line(session, width), width, "", theme.need(need));
    let line =
        |told: Vec<Phrase>, style| fitting(session, told, width).map(|told| Line::from(Span::styled(told, style)));
    let act = |step: &PlanStep, says: fn(Text) -> Phrase| {
        let bare = bare_step(session, step);
        [Some(step_text(session, step)), bare].into_iter().flatten().map(says).collect::<Vec<_>>()
    };
    let first = now(session).find(|step| !is_done(session, step));
    if let Some(step) = first {
        let whole = named::key(session, Action::Plan).map(phrase::act_key);
        lines.extend(line(act(step, phrase::act).into_iter().chain(whole).collect(), theme.question()));
    }
    let alarm = |told: Phrase| wrapped(&session.say(told), width, "! ", theme.urgent());
    // What comes last gives way first. Where the authority is only to be asked, the call to the vet is not pushed out by it.
    let authority = authority_line(session.verdict.authority.low).map(alarm).unwrap_or_default();
    let then = phone_after(session).and_then(|step| line(act(step, phrase::then), theme.question()));
    let never = never_beside(session, first).and_then(|target| {
        let bare = Text::quoted(session.verdict.fitting.never(session.protocol, target));
        let told = [never_text(session, target), bare].map(phrase::never).into_iter().collect();
        line(told, theme.never())
    });
    // How soon a vet is needed says already that one is phoned: what the hands must not do stands before it.
    if session.verdict.authority.low == Authority::CallNow {
        lines.extend(authority.into_iter().chain(never).chain(then));
    } else {
        lines.extend(never.into_iter().chain(then).chain(authority));
    }
    lines.truncate(height);
    lines
}

/// The first of some lines that is not cut at this width; nothing where each would be: half an instruction can harm.
fn fitting(session: &Session, told: Vec<Phrase>, width: usize) -> Option<String> {
    told.into_iter().map(|told| session.say(told)).find(|told| told.width() <= width)
}

/// The need and, where there is room, how much could still change it.
fn band_line(session: &Session, width: usize) -> String {
    let marked = |told: Text| format!("{} {}", need_mark(session.verdict.need), session.say(told));
    let mut need = marked(need_words(session));
    if need.chars().count() > width && calls_any(session) {
        need = marked(phrase::need_no_vet(Text::opening(need_of(session.verdict.need.low, true))).into());
    }
    match could_change(session).map(|could| session.say(could)) {
        Some(could) if need.chars().count() + could.chars().count() + 3 <= width => format!("{need} · {could}"),
        _ => need,
    }
}
