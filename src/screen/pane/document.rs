//! Verdict, plan, why and help: documents that scroll, line by line the same as what is exported.

use super::{Lines, calls, card, clock, plot, question};
use crate::content::document::{Item, Judged, Section, Tone, glossary};
use crate::content::{
    self, basis, chart, days, debrief, group, hazards, in_short, judgement, kit, label, law, plan, steps, sum, why,
};
use crate::exam::Place;
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, page as phrase, terms};
use crate::protocol::rule::ActionAt;
use crate::screen::areas::Areas;
use crate::screen::keys;
use crate::screen::model::{Face, Model, Overlay, Page};
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use ratatui::style::Style;
use ratatui::text::Line;

/// The widest a document is set; longer lines tire the eye.
const WIDEST: usize = 78;

/// How many items the document has that the cursor can stand on.
pub fn items(model: &Model) -> usize {
    sections(model).iter().map(|section| section.items.len()).sum()
}

/// What goes by the clock, of the line the cursor stands on; without a cursor, of the first line that does.
pub fn timed(model: &Model) -> Option<(ActionAt, u16)> {
    let mut items = sections(model).into_iter().flat_map(|section| section.items);
    match model.cursor {
        Some(at) => items.nth(at)?.timed,
        None => items.find_map(|item| item.timed),
    }
}

/// The scroll that brings the cursor's item into view.
pub fn scroll_to_cursor(model: &Model) -> usize {
    let body = Areas::told(model).body;
    let built = build(model, Theme { colour: false }, usize::from(body.width));
    let (height, line) = (usize::from(body.height), built.cursor.unwrap_or(0));
    if line < model.scroll {
        line
    } else if line + 3 > model.scroll + height {
        (line + 3).saturating_sub(height)
    } else {
        model.scroll
    }
}

/// The sections of the document that shows; none for why and help, which have no lines to ask about.
fn sections(model: &Model) -> Vec<Section> {
    match model.overlays.last() {
        None => face_sections(model),
        Some(Overlay::Page(Page::Law)) => model.reader().sections(law::page(model.country)),
        Some(Overlay::Page(Page::Basis)) => {
            let hers = hazards::hers(model.protocol, &model.exam.findings, &model.verdict);
            let hers = hers.map(|section| model.reader().section(&section));
            // After what all of it rests on in short, and before each source.
            let mut all = model.reader().sections(basis::sections(model.protocol, model.country)).into_iter();
            all.next().into_iter().chain(hers).chain(all).collect()
        }
        Some(Overlay::Page(Page::Answer(_))) => match model.answer() {
            Some(Ok(answer)) => model.reader().sections(sum::sections(model.protocol, model.country, &answer)),
            _ => Vec::new(),
        },
        Some(Overlay::Page(Page::Kit)) => {
            let told = kit::sections(model.protocol, model.country, &model.cupboard, model.now.date_naive());
            model.reader().sections(told)
        }
        Some(Overlay::Page(Page::Label)) => {
            let told = label::sections(model.protocol, model.country, &model.ruled(), !model.log.is_empty());
            model.reader().sections(told)
        }
        Some(Overlay::Page(Page::Body)) => {
            model.reader().sections(chart::sections(model.protocol, model.country, &model.exam.findings))
        }
        Some(
            Overlay::Help
            | Overlay::Why(_)
            | Overlay::Map(_)
            | Overlay::Countries
            | Overlay::Sums(_)
            | Overlay::House
            | Overlay::Flock
            | Overlay::Case
            | Overlay::Outcomes
            | Overlay::Death
            | Overlay::Parted
            | Overlay::Lessons
            | Overlay::Deeds
            | Overlay::Judging
            | Overlay::HandOver
            | Overlay::Particulars
            | Overlay::Contacts,
        ) => Vec::new(),
        Some(Overlay::Page(Page::Handover)) => content::sheet::sections(&model.sheet()),
        Some(Overlay::Page(page @ (Page::Debrief | Page::Group | Page::Agreement))) => practice(model, *page),
        Some(Overlay::Page(Page::Days)) => {
            model.reader().sections(days::sections(model.protocol, told(model), model.country))
        }
    }
}

/// What practice tells of a go, of all goes, or of two examinations of one bird.
fn practice(model: &Model, page: Page) -> Vec<Section> {
    let Some(practice) = &model.practice else { return Vec::new() };
    let told = match page {
        Page::Group => Some(group::sections(model.protocol, &practice.marks, model.now, model.country)),
        Page::Agreement => {
            let pair = practice.pair.as_ref().and_then(|pairing| pairing.pair.as_ref());
            pair.map(|pair| content::pair::sections(model.protocol, pair, model.country))
        }
        _ => {
            let go = practice.trial.as_ref().zip(practice.debrief.as_ref());
            go.map(|(trial, told)| debrief::sections(model.protocol, trial, told, model.country))
        }
    };
    model.reader().sections(told.unwrap_or_default())
}

fn told<'a>(model: &'a Model) -> days::CaseDays<'a> {
    days::CaseDays { log: &model.log, days: &model.days, due: &model.due, no_vet: model.verdict.no_vet() }
}

/// A document with the words in it explained before the caution.
fn with_words(model: &Model, mut sections: Vec<Section>) -> Vec<Section> {
    let words = glossary(model.protocol, &sections).map(|words| model.reader().section(&words));
    let before_caution = sections.len().saturating_sub(1);
    sections.splice(before_caution..before_caution, words);
    sections
}

/// The sections of the verdict or the plan, whatever lies on top.
fn face_sections(model: &Model) -> Vec<Section> {
    if model.shown() != Face::Exam
        && let Some(ended) = days::ended(&model.days, &model.verdict, model.country)
    {
        return model.reader().sections(ended);
    }
    match model.shown() {
        Face::Verdict => {
            // What stays of a long page is what stands first; then what has changed, and whom to call.
            let short = in_short::section(model.protocol, &model.verdict, &model.plan);
            let vet = days::vet_first(model.protocol, &model.log, &model.days);
            let since = days::since_last(model.protocol, &model.log, &model.days);
            let first = [Some(short), vet, since].into_iter().flatten().map(|section| model.reader().section(&section));
            let mut told: Vec<Section> = first.collect();
            told.extend(calls::of_verdict(model));
            told.extend(model.reader().sections(judgement::sections(model.protocol, model.judged(), model.country)));
            told.splice(0..0, days::moved_on(&model.days).map(|section| model.reader().section(&section)));
            with_words(model, told)
        }
        Face::Plan => {
            let Judged { findings, verdict, .. } = model.judged();
            let told = plan::sections(model.protocol, findings, verdict, &model.plan, model.reader());
            let mut told = model.reader().sections(told);
            calls::into_plan(model, &mut told);
            if let Some(vet) = days::vet_first(model.protocol, &model.log, &model.days) {
                told.insert(0, model.reader().section(&vet));
            }
            told.splice(0..0, days::moved_on(&model.days).map(|section| model.reader().section(&section)));
            with_words(model, told)
        }
        Face::Exam | Face::Course => Vec::new(),
    }
}

/// The document that shows, as lines.
pub fn build(model: &Model, theme: Theme, width: usize) -> Lines {
    let width = width.min(WIDEST);
    match model.overlays.last() {
        Some(Overlay::Why(line)) => why_lines(model, theme, width, *line),
        Some(Overlay::Help) => help(model, theme, width),
        None if model.shown() == Face::Course => card::lines(model, theme, width),
        _ => of_sections(model, theme, width),
    }
}

fn of_sections(model: &Model, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    let mut at = 0;
    let sections = sections(model);
    let press = clock::press(model);
    let first = sections.iter().flat_map(|section| &section.items).position(|item| item.timed.is_some());
    let (folded, last) = (folds_after(model, &sections), sections.len());
    for (number, section) in (1..).zip(sections) {
        lines.gap();
        lines.add(wrapped(&section.heading, width, "", heading(theme, section.tone)));
        if model.overlays.last() == Some(&Overlay::Page(Page::Days)) {
            lines.add(plot::under(model, &section.heading, width));
        }
        for (number, item) in (1..).zip(&section.items) {
            if model.cursor == Some(at) || (model.cursor.is_none() && at == 0) {
                lines.cursor_here();
            }
            let before = lines.lines.len();
            let here = model.cursor.or(first) == Some(at);
            let timed = item.timed.map(|timed| model.say(clock::beside(model, press, here, timed)));
            let item = ItemLine { number, item, timed, focused: model.cursor == Some(at) };
            item_lines(theme, width, section.tone, item, &mut lines);
            let need = at == 0 && model.days.end.is_none();
            if model.overlays.is_empty() && model.shown() == Face::Verdict && need && model.cursor != Some(0) {
                // The need is the one line that must be seen first.
                lines.lines.iter_mut().skip(before).for_each(|line| line.style = theme.need(model.verdict.need));
            }
            at += 1;
        }
        if folded == Some(number) && number < last {
            // What else is told begins on the next page.
            let height = usize::from(Areas::told(model).body.height);
            let missing = height.saturating_sub(lines.lines.len());
            lines.add(std::iter::repeat_n(Line::default(), missing));
        }
    }
    lines
}

/// From more rows than these on, what is told in short leaves room for more that the eye takes in at once.
const FOLDED_ROWS: u16 = 24;

/// After how many sections the first page of a verdict ends on a small screen: with what is told in short, however much room is left.
fn folds_after(model: &Model, sections: &[Section]) -> Option<usize> {
    let small = model.overlays.is_empty() && model.shown() == Face::Verdict && model.size.1 <= FOLDED_ROWS;
    let short = model.say(in_short::heading());
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
fn why_lines(model: &Model, theme: Theme, width: usize, line: Option<usize>) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let Because { title, told, reasons } = asked_about(model, line);
    lines.add(wrapped(&model.say(title), width, "", theme.heading()));
    for told in told {
        lines.add(wrapped(&told, width, "- ", theme.plain()));
    }
    for reason in &reasons {
        lines.gap();
        lines.add(wrapped(&model.say(why::headline(model.protocol, *reason)), width, "- ", theme.question()));
        let leads_to = why::consequence(model.protocol, *reason, model.verdict.no_vet());
        if !leads_to.is_empty() {
            lines.add(wrapped(&model.say(phrase::leads_to(leads_to)), width, "  ", theme.plain()));
        }
        for label in why::labels(model.protocol, *reason) {
            lines.add(wrapped(&model.say(label), width, "  ", theme.aside()));
        }
    }
    lines.gap();
    lines.add(wrapped(&model.say(model.caution()), width, "! ", theme.aside()));
    lines
}

/// What was asked about: its title, what is told of it by itself, and the rules behind it.
struct Because {
    title: Phrase,
    told: Vec<String>,
    reasons: Vec<Reason>,
}

fn asked_about(model: &Model, line: Option<usize>) -> Because {
    // On a card: how the next open line is done, and the rules behind it.
    if model.shown() == Face::Course
        && let Some(step) = model.step_here()
    {
        let Judged { findings, verdict, .. } = model.judged();
        let item = steps::item(model.protocol, findings, verdict, &model.plan, step);
        let told = item.more.iter().chain(&item.asked).map(|told| model.say(told.clone()));
        return Because { title: phrase::why(item.lead), told: told.collect(), reasons: item.why };
    }
    let item = line.and_then(|line| face_sections(model).into_iter().flat_map(|section| section.items).nth(line));
    match item {
        Some(item) if !item.why.is_empty() || !item.asked.is_empty() => {
            Because { title: phrase::why(Text::typed(item.lead)), told: item.asked, reasons: item.why }
        }
        _ if model.verdict.reasons.is_empty() => {
            Because { title: phrase::why_nothing(), told: Vec::new(), reasons: Vec::new() }
        }
        _ => Because { title: phrase::why_all(), told: Vec::new(), reasons: model.verdict.reasons.clone() },
    }
}

/// How to look at what is asked, and every key that works there.
fn help(model: &Model, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    lines.cursor_here();
    let mut below = model.clone();
    below.overlays.pop();
    let (ask, look) = question::words(&below);
    let (ask, look) = (model.say(ask), model.say(look));
    if !ask.is_empty() && below.shown() == Face::Exam {
        lines.add(wrapped(&ask, width, "", theme.question()));
        lines.add(wrapped(&look, width, "", theme.plain()));
        if let Place::List(list) = &below.exam.place {
            let kind = model.exam.kind();
            for sign in below.exam.signs(*list).into_iter().map(|asked| model.protocol.ask(asked.question)) {
                let told = terms::named(Text::quoted(&sign.topic), Text::quoted(sign.look_at(kind)));
                lines.add(wrapped(&model.say(told), width, "- ", theme.plain()));
            }
        }
        for words in question::terms(&below, &ask, &look) {
            lines.add(wrapped(&model.say(words), width, "", theme.aside()));
        }
        lines.gap();
    }
    lines.add(wrapped(&model.say(phrase::keys(below.context().name())), width, "", theme.heading()));
    for binding in keys::of(below.context()) {
        let keys = model.say(binding.shown_keys());
        lines.add(wrapped(&model.say((binding.about)()), width, &format!("{keys:<19} "), theme.plain()));
    }
    lines.gap();
    lines.add(wrapped(&model.say(phrase::marks()), width, "", theme.heading()));
    let needs = if model.verdict.no_vet() { phrase::marks_no_vet() } else { phrase::marks_need() };
    for mark in [phrase::marks_calm(), needs, phrase::marks_steps(), phrase::marks_rows()] {
        lines.add(wrapped(&model.say(mark), width, "", theme.plain()));
    }
    lines.gap();
    lines.add(wrapped(&model.say(model.caution()), width, "! ", theme.aside()));
    lines
}
