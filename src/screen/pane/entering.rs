//! Panes for numbers: blood added up piece by piece, breaths tapped, a vein timed; each with what it comes to so far.

use super::rows::{numbered, typing_line};
use super::{Lines, picture};
use crate::content::{figures, seen};
use crate::finding::figure::{FULLNESS, Spilt};
use crate::phrase::{Phrase, Text, entering as phrase, question as of_question, terms};
use crate::protocol::cond::Measure;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::Session;
use crate::session::draft::{Draft, OVER, Pick, Spill, Taps, Vein};
use crate::view::question;
use ratatui::text::{Line, Span};

/// The pane, where something is being entered with keys of its own.
pub fn lines(session: &Session, theme: Theme, width: usize, height: usize) -> Option<Lines> {
    let draft = session.draft.as_ref().filter(|_| session.overlays.is_empty())?;
    let mut lines = Lines::default();
    match draft {
        Draft::Spill(spill) => spilling(session, theme, (width, height), spill, &mut lines),
        Draft::Taps(taps) => tapping(session, theme, (width, height), taps, &mut lines),
        Draft::Vein(vein) => timing(session, theme, (width, height), *vein, &mut lines),
    }
    if let Some(notice) = &session.notice {
        let told = wrapped(&session.reader().say(notice), width, "", theme.never());
        match draft {
            Draft::Spill(_) => {
                lines.gap();
                lines.add(told);
            }
            // Nobody looks down the page while counting.
            Draft::Taps(_) | Draft::Vein(_) => {
                lines.cursor = lines.cursor.map(|at| at + told.len());
                lines.lines.splice(0..0, told);
            }
        }
    }
    Some(lines)
}

fn spilling(session: &Session, theme: Theme, (width, height): (usize, usize), spill: &Spill, lines: &mut Lines) {
    let (ask, look) = spill.words();
    lines.add(wrapped(&session.say(ask), width, "", theme.question()));
    let rows = spill.rows().len();
    // What was seen, what it comes to, and the rows must show; how to look and the picture take the room that is left.
    let left = height.saturating_sub(rows + 4 + spill.seen.len().min(3));
    // A pool is told by its picture before it is by words.
    let pictured = matches!(spill.pick, Pick::Width(..)) && left < 10;
    if let Some(look) = look.filter(|_| left > 2 && !pictured) {
        lines.add(wrapped(&session.say(look), width, "", theme.aside()));
    }
    match spill.pick {
        Pick::Full(_) if left > 7 && width >= 54 => {
            lines.gap();
            lines.add(picture::pads(theme));
        }
        Pick::Width(_, pool) => {
            let room = height.saturating_sub(lines.lines.len() + rows + 3);
            lines.add(picture::pool(session, theme, pool, (width, room)));
        }
        _ => lines.gap(),
    }
    if let Pick::Typed(number) = spill.pick {
        typing_line(session, theme, width, lines);
        let example = of_question::for_example(Text::typed(number.example()));
        lines.add(wrapped(&session.say(example), width, "", theme.aside()));
    } else if matches!(spill.pick, Pick::Full(_)) {
        full_rows(session, theme, width, lines);
    } else {
        numbered(session, theme, width, lines);
    }
    lines.gap();
    sum_so_far(session, theme, width, &spill.seen, lines);
}

/// How full: each row with its swatch, so that it can be told where there is no room for the picture.
fn full_rows(session: &Session, theme: Theme, width: usize, lines: &mut Lines) {
    for (at, (_, full)) in FULLNESS.iter().enumerate() {
        let focused = session.cursor == Some(at);
        if focused || (session.cursor.is_none() && at == 0) {
            lines.cursor_here();
        }
        let mark = if focused { '>' } else { ' ' };
        let style = if focused { theme.focus() } else { theme.plain() };
        lines.add(wrapped(
            &session.say(seen::full(*full)),
            width,
            &format!("{mark}{}  {} ", at + 1, picture::swatch(*full)),
            style,
        ));
    }
}

fn sum_so_far(session: &Session, theme: Theme, width: usize, seen: &[Spilt], lines: &mut Lines) {
    let shown = seen.iter().rev().take(3).rev();
    let hidden = seen.len().saturating_sub(3);
    if hidden > 0 {
        lines.add(wrapped(&session.say(phrase::before(hidden)), width, "  ", theme.aside()));
    }
    for one in shown {
        lines.add(wrapped(&session.say(seen::spilt(*one)), width, "+ ", theme.plain()));
    }
    if let Some(blood) = &session.verdict.figures.blood {
        let sizing = matches!(&session.draft, Some(Draft::Spill(Spill { pick: Pick::Width(..), .. })));
        let first = if sizing { format!("{} = ", session.say(phrase::with_this())) } else { "= ".to_owned() };
        lines.add(wrapped(&session.say(figures::blood_line(blood)), width, &first, theme.urgent()));
    }
}

fn tapping(session: &Session, theme: Theme, (width, height): (usize, usize), taps: &Taps, lines: &mut Lines) {
    let say = |told: Phrase| session.say(told);
    let (ask, look) = question::words(session);
    lines.add(wrapped(&session.say(ask), width, "", theme.question()));
    if height > 14 {
        lines.add(wrapped(&session.say(look), width, "", theme.aside()));
    }
    lines.gap();
    lines.cursor_here();
    if let Some((_, breaths)) = taps.running {
        lines.add(picture::digits(&breaths.to_string(), theme.question(), width, 4));
        let left = taps.left(session.now).unwrap_or(0);
        lines.add(wrapped(&say(phrase::to_go(left)), width, "", theme.heading()));
    } else {
        if let Some(last) = taps.counts.last() {
            lines.add(picture::digits(&last.breaths.to_string(), theme.question(), width, 4));
        }
        lines.add(wrapped(&say(phrase::begin(taps.over)), width, "", theme.heading()));
        let key = |(key, over): (u8, u32)| terms::named(Text::typed(key.to_string()), phrase::seconds(over));
        let keys = Text::list((1..).zip(OVER).map(key));
        lines.add(wrapped(&session.say(keys), width, "", theme.aside()));
        if taps.ended.is_some_and(|(_, none)| none) {
            lines.add(wrapped(&say(phrase::no_breath()), width, "! ", theme.urgent()));
        }
    }
    for (number, count) in (1_u32..).zip(&taps.counts) {
        let told = if count.held {
            phrase::count_held(number, count.breaths, count.seconds)
        } else {
            phrase::count(number, count.breaths, count.seconds)
        };
        lines.add(wrapped(&say(told), width, "", theme.plain()));
    }
    if let Some(breaths) = &session.verdict.figures.breaths {
        lines.add(wrapped(&session.reader().say(&figures::breaths_line(breaths)), width, "= ", theme.question()));
        if breaths.held {
            lines.add(wrapped(&say(phrase::held()), width, "! ", theme.urgent()));
        }
        if taps.running.is_none() {
            lines.add(wrapped(&say(phrase::once_more()), width, "", theme.aside()));
        }
    }
}

fn timing(session: &Session, theme: Theme, (width, _): (usize, usize), vein: Vein, lines: &mut Lines) {
    let (ask, look) = question::words(session);
    lines.add(wrapped(&session.say(ask), width, "", theme.question()));
    lines.add(wrapped(&session.say(look), width, "", theme.aside()));
    lines.gap();
    lines.cursor_here();
    match (vein.since, vein.took) {
        (Some(since), _) => {
            let gone = (session.now - since).num_seconds().max(0);
            lines.add(picture::digits(&gone.to_string(), theme.question(), width, 4));
            lines.add(wrapped(&session.say(phrase::vein_full()), width, "", theme.heading()));
        }
        (None, Some(took)) => {
            let seconds = format!("{}.{}", took.0 / 10, took.0 % 10);
            lines.add(picture::digits(&seconds, theme.question(), width, 4));
            lines.add([Line::from(Span::styled(meaning(session, took.0), theme.question()))]);
            lines.add(wrapped(&session.say(phrase::vein_took()), width, "", theme.heading()));
        }
        (None, None) => lines.add(wrapped(&session.say(phrase::vein()), width, "", theme.heading())),
    }
}

/// The answer a time stands for, in words.
fn meaning(session: &Session, tenths: u32) -> String {
    let at = session.protocol.giving(Measure::Refill, false);
    let question = at.map(|at| session.protocol.ask(at));
    let worth = crate::unit::Band::exactly(u64::from(tenths));
    question
        .and_then(|question| question.choices.get(usize::from(question.stands_for(worth)?.1)))
        .map_or_else(String::new, |choice| choice.say.clone())
}
