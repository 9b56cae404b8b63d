//! Verdict, plan and pages as sections: the same on every screen, and the same as what is exported.

use super::calls;
use crate::content::document::{Judged, Section, glossary};
use crate::content::{
    self, basis, chart, days, debrief, group, hazards, in_short, judgement, kit, label, law, plan, steps, sum,
};
use crate::judge::Reason;
use crate::phrase::{Phrase, Text, page as phrase};
use crate::protocol::rule::ActionAt;
use crate::session::{Face, Overlay, Page, Session};

/// How many items the document has that the cursor can stand on.
pub fn items(session: &Session) -> usize {
    sections(session).iter().map(|section| section.items.len()).sum()
}

/// What goes by the clock, of the line the cursor stands on; without a cursor, of the first line that does.
pub fn timed(session: &Session) -> Option<(ActionAt, u16)> {
    let mut items = sections(session).into_iter().flat_map(|section| section.items);
    match session.cursor {
        Some(at) => items.nth(at)?.timed,
        None => items.find_map(|item| item.timed),
    }
}

/// The sections of the document that shows; none for why and help, which have no lines to ask about.
pub fn sections(session: &Session) -> Vec<Section> {
    match session.overlays.last() {
        None => face_sections(session),
        Some(Overlay::Page(page)) => page_sections(session, *page),
        Some(_) => Vec::new(),
    }
}

/// The sections of a page.
fn page_sections(session: &Session, page: Page) -> Vec<Section> {
    match page {
        Page::Law => session.reader().sections(law::page(session.country)),
        Page::Basis => {
            let hers = hazards::hers(session.protocol, &session.exam.findings, &session.verdict);
            let hers = hers.map(|section| session.reader().section(&section));
            // After what all of it rests on in short, and before each source.
            let mut all = session.reader().sections(basis::sections(session.protocol, session.country)).into_iter();
            all.next().into_iter().chain(hers).chain(all).collect()
        }
        Page::Answer(_) => match session.answer() {
            Some(Ok(answer)) => session.reader().sections(sum::sections(session.protocol, session.country, &answer)),
            _ => Vec::new(),
        },
        Page::Kit => {
            let told = kit::sections(session.protocol, session.country, &session.cupboard, session.now.date_naive());
            session.reader().sections(told)
        }
        Page::Label => {
            let told = label::sections(session.protocol, session.country, &session.ruled(), !session.log.is_empty());
            session.reader().sections(told)
        }
        Page::Body => {
            session.reader().sections(chart::sections(session.protocol, session.country, &session.exam.findings))
        }
        Page::Handover => content::sheet::sections(&session.sheet()),
        Page::Debrief | Page::Group | Page::Agreement => practice(session, page),
        Page::Days => session.reader().sections(days::sections(session.protocol, told(session), session.country)),
    }
}

/// What practice tells of a go, of all goes, or of two examinations of one bird.
fn practice(session: &Session, page: Page) -> Vec<Section> {
    let Some(practice) = &session.practice else { return Vec::new() };
    let told = match page {
        Page::Group => Some(group::sections(session.protocol, &practice.marks, session.now, session.country)),
        Page::Agreement => {
            let pair = practice.pair.as_ref().and_then(|pairing| pairing.pair.as_ref());
            pair.map(|pair| content::pair::sections(session.protocol, pair, session.country))
        }
        _ => {
            let go = practice.trial.as_ref().zip(practice.debrief.as_ref());
            go.map(|(trial, told)| debrief::sections(session.protocol, trial, told, session.country))
        }
    };
    session.reader().sections(told.unwrap_or_default())
}

fn told<'a>(session: &'a Session) -> days::CaseDays<'a> {
    days::CaseDays { log: &session.log, days: &session.days, due: &session.due, no_vet: session.verdict.no_vet() }
}

/// A document with the words in it explained before the caution.
fn with_words(session: &Session, mut sections: Vec<Section>) -> Vec<Section> {
    let words = glossary(session.protocol, &sections).map(|words| session.reader().section(&words));
    let before_caution = sections.len().saturating_sub(1);
    sections.splice(before_caution..before_caution, words);
    sections
}

/// The sections of the verdict or the plan, whatever lies on top.
fn face_sections(session: &Session) -> Vec<Section> {
    if session.shown() != Face::Exam
        && let Some(ended) = days::ended(&session.days, &session.verdict, session.country)
    {
        return session.reader().sections(ended);
    }
    match session.shown() {
        Face::Verdict => {
            // What stays of a long page is what stands first; then what has changed, and whom to call.
            let short = in_short::section(session.protocol, &session.verdict, &session.plan);
            let vet = days::vet_first(session.protocol, &session.log, &session.days);
            let since = days::since_last(session.protocol, &session.log, &session.days);
            let first =
                [Some(short), vet, since].into_iter().flatten().map(|section| session.reader().section(&section));
            let mut told: Vec<Section> = first.collect();
            told.extend(calls::of_verdict(session));
            told.extend(session.reader().sections(judgement::sections(
                session.protocol,
                session.judged(),
                session.country,
            )));
            told.splice(0..0, days::moved_on(&session.days).map(|section| session.reader().section(&section)));
            with_words(session, told)
        }
        Face::Plan => {
            let Judged { findings, verdict, .. } = session.judged();
            let told = plan::sections(session.protocol, findings, verdict, &session.plan, session.reader());
            let mut told = session.reader().sections(told);
            calls::into_plan(session, &mut told);
            if let Some(vet) = days::vet_first(session.protocol, &session.log, &session.days) {
                told.insert(0, session.reader().section(&vet));
            }
            told.splice(0..0, days::moved_on(&session.days).map(|section| session.reader().section(&section)));
            with_words(session, told)
        }
        Face::Exam | Face::Course => Vec::new(),
    }
}

/// What was asked about: its title, what is told of it by itself, and the rules behind it.
pub struct Because {
    /// What it is about.
    pub title: Phrase,
    /// What is told of it.
    pub told: Vec<String>,
    /// The rules behind it.
    pub reasons: Vec<Reason>,
}

/// What somebody asks the reason of: a line, or all of the verdict.
pub fn asked_about(session: &Session, line: Option<usize>) -> Because {
    // On a card: how the next open line is done, and the rules behind it.
    if session.shown() == Face::Course
        && let Some(step) = session.step_here()
    {
        let Judged { findings, verdict, .. } = session.judged();
        let item = steps::item(session.protocol, findings, verdict, &session.plan, step);
        let told = item.more.iter().chain(&item.asked).map(|told| session.say(told.clone()));
        return Because { title: phrase::why(item.lead), told: told.collect(), reasons: item.why };
    }
    let item = line.and_then(|line| face_sections(session).into_iter().flat_map(|section| section.items).nth(line));
    match item {
        Some(item) if !item.why.is_empty() || !item.asked.is_empty() => {
            Because { title: phrase::why(Text::typed(item.lead)), told: item.asked, reasons: item.why }
        }
        _ if session.verdict.reasons.is_empty() => {
            Because { title: phrase::why_nothing(), told: Vec::new(), reasons: Vec::new() }
        }
        _ => Because { title: phrase::why_all(), told: Vec::new(), reasons: session.verdict.reasons.clone() },
    }
}
