//! Verdict, plan, why and help: documents that scroll, line by line the same as what is exported.

use super::{Lines, card, plot};
use crate::content::document::{Item, Section, Tone};
use crate::content::{in_short, why};
use crate::exam::Place;
use crate::phrase::{Text, page as phrase, terms};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use crate::session::{Face, Overlay, Page, Session};
use crate::view::document::{Because, asked_about, sections};
use crate::view::keys;
use crate::view::{clock, clock_line, question};
use ratatui::style::Style;
use ratatui::text::Line;

/// The widest a document is set; longer lines tire the eye.
const WIDEST: usize = 78;

/// The document that shows, as lines.
pub fn build(session: &Session, theme: Theme, width: usize, height: usize) -> Lines {
    let width = width.min(WIDEST);
    match session.overlays.last() {
        Some(Overlay::Why(line)) => why_lines(session, theme, width, *line),
        Some(Overlay::Help) => help(session, theme, width),
        None if session.shown() == Face::Course => card::lines(session, theme, (width, height)),
        _ => of_sections(session, theme, (width, height)),
    }
}

fn of_sections(session: &Session, theme: Theme, (width, height): (usize, usize)) -> Lines {
    let mut lines = Lines::default();
    let mut at = 0;
    let sections = sections(session);
    let press = clock::press(session);
    let first = sections.iter().flat_map(|section| &section.items).position(|item| item.timed.is_some());
    let (folded, last) = (folds_after(session, &sections, height), sections.len());
    for (number, section) in (1..).zip(sections) {
        lines.gap();
        lines.add(wrapped(&section.heading, width, "", heading(theme, section.tone)));
        if session.overlays.last() == Some(&Overlay::Page(Page::Days)) {
            lines.add(plot::under(session, &section.heading, width));
        }
        for (number, item) in (1..).zip(&section.items) {
            if session.cursor == Some(at) || (session.cursor.is_none() && at == 0) {
                lines.cursor_here();
            }
            let before = lines.lines.len();
            let here = session.cursor.or(first) == Some(at);
            let timed = item.timed.map(|timed| session.say(clock_line::beside(session, press, here, timed)));
            let item = ItemLine { number, item, timed, focused: session.cursor == Some(at) };
            item_lines(theme, width, section.tone, item, &mut lines);
            let need = at == 0 && session.days.end.is_none();
            if session.overlays.is_empty() && session.shown() == Face::Verdict && need && session.cursor != Some(0) {
                // The need is the one line that must be seen first.
                lines.lines.iter_mut().skip(before).for_each(|line| line.style = theme.need(session.verdict.need));
            }
            at += 1;
        }
        if folded == Some(number) && number < last {
            // What else is told begins on the next page.
            let missing = height.saturating_sub(lines.lines.len());
            lines.add(std::iter::repeat_n(Line::default(), missing));
        }
    }
    lines
}

/// From more rows than these on, what is told in short leaves room for more that the eye takes in at once.
const FOLDED_ROWS: usize = 20;

/// After how many sections the first page of a verdict ends on a small screen: with what is told in short, however much room is left.
fn folds_after(session: &Session, sections: &[Section], height: usize) -> Option<usize> {
    let small = session.overlays.is_empty() && session.shown() == Face::Verdict && height <= FOLDED_ROWS;
    let short = session.say(in_short::heading());
    sections.iter().position(|section| small && section.heading == short).map(|at| at + 1)
}

fn heading(theme: Theme, tone: Tone) -> Style {
    match tone {
        Tone::Plain | Tone::Caution => theme.heading(),
        Tone::Act | Tone::Grave => theme.urgent(),
        Tone::Never => theme.never(),
    }
}

/// An item as it stands in the document: its number, what is said of its clock, whether the cursor is on it.
struct ItemLine<'a> {
    number: usize,
    item: &'a Item,
    timed: Option<String>,
    focused: bool,
}

fn item_lines(theme: Theme, width: usize, tone: Tone, told: ItemLine, lines: &mut Lines) {
    let ItemLine { number, item, timed, focused } = told;
    let mark = match tone {
        Tone::Act => format!("{number:2}"),
        Tone::Never => " x".into(),
        Tone::Plain | Tone::Grave => " -".into(),
        Tone::Caution => " !".into(),
    };
    let pointer = if focused { '>' } else { ' ' };
    let style = match (focused, tone) {
        (true, _) => theme.focus(),
        (false, Tone::Act) => theme.question(),
        (false, _) => theme.plain(),
    };
    lines.add(wrapped(&item.lead, width, &format!("{pointer}{mark} "), style));
    for more in &item.more {
        lines.add(wrapped(more, width, "    ", theme.aside()));
    }
    if let Some(timed) = timed {
        lines.add(wrapped(&timed, width, "    ", theme.aside()));
    }
    // A picture that would be cut is left out: the words say the same.
    if item.picture.iter().all(|line| Line::from(line.as_str()).width() + 6 <= width) {
        lines.add(item.picture.iter().map(|line| Line::styled(format!("      {line}"), theme.plain())));
    }
}

/// Every reason with both labels; for one line of a document, only its own.
fn why_lines(session: &Session, theme: Theme, width: usize, line: Option<usize>) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let Because { title, told, reasons } = asked_about(session, line);
    lines.add(wrapped(&session.say(title), width, "", theme.heading()));
    for told in told {
        lines.add(wrapped(&told, width, "- ", theme.plain()));
    }
    for reason in &reasons {
        lines.gap();
        lines.add(wrapped(&session.say(why::headline(session.protocol, *reason)), width, "- ", theme.question()));
        let leads_to = why::consequence(session.protocol, *reason, session.verdict.no_vet());
        if !leads_to.is_empty() {
            lines.add(wrapped(&session.say(phrase::leads_to(leads_to)), width, "  ", theme.plain()));
        }
        for label in why::labels(session.protocol, *reason) {
            lines.add(wrapped(&session.say(label), width, "  ", theme.aside()));
        }
    }
    lines.gap();
    lines.add(wrapped(&session.say(session.caution()), width, "! ", theme.aside()));
    lines
}

/// How to look at what is asked, and every key that works there.
fn help(session: &Session, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let mut below = session.clone();
    below.overlays.pop();
    let (ask, look) = question::words(&below);
    let (ask, look) = (session.say(ask), session.say(look));
    if !ask.is_empty() && below.shown() == Face::Exam {
        lines.add(wrapped(&ask, width, "", theme.question()));
        lines.add(wrapped(&look, width, "", theme.plain()));
        if let Place::List(list) = &below.exam.place {
            let kind = session.exam.kind();
            for sign in below.exam.signs(*list).into_iter().map(|asked| session.protocol.ask(asked.question)) {
                let told = terms::named(Text::quoted(&sign.topic), Text::quoted(sign.look_at(kind)));
                lines.add(wrapped(&session.say(told), width, "- ", theme.plain()));
            }
        }
        for words in question::terms(&below, &ask, &look) {
            lines.add(wrapped(&session.say(words), width, "", theme.aside()));
        }
        lines.gap();
    }
    lines.add(wrapped(&session.say(phrase::keys(below.context().name())), width, "", theme.heading()));
    for binding in keys::of(below.context()) {
        let keys = session.say(binding.shown_keys());
        lines.add(wrapped(&session.say((binding.about)()), width, &format!("{keys:<19} "), theme.plain()));
    }
    lines.gap();
    lines.add(wrapped(&session.say(phrase::marks()), width, "", theme.heading()));
    let needs = if session.verdict.no_vet() { phrase::marks_no_vet() } else { phrase::marks_need() };
    for mark in [phrase::marks_calm(), needs, phrase::marks_steps(), phrase::marks_rows()] {
        lines.add(wrapped(&session.say(mark), width, "", theme.plain()));
    }
    lines.gap();
    lines.add(wrapped(&session.say(session.caution()), width, "! ", theme.aside()));
    lines
}
