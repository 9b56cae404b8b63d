//! Whom to call, with the keeper's own numbers, where the verdict or an instruction asks for it.

use crate::care::contacts::needed;
use crate::content::document::{Item, Section, Tone, section};
use crate::content::terms::whom as whom_called;
use crate::phrase::{Phrase, Text, birds as phrase, terms};
use crate::protocol::whom::Whom;
use crate::session::Session;

/// Whom to call, where the verdict asks for it; where nobody is written down, how to do that.
pub fn of_verdict(session: &Session) -> Option<Section> {
    let needed = needed(&session.verdict);
    if needed.is_empty() || in_practice(session) {
        return None;
    }
    told(session, &needed).or_else(|| {
        let none = section(phrase::whom_to_call(), Tone::Plain, vec![Item::plain(phrase::nobody_written())]);
        none.map(|none| session.reader().section(&none))
    })
}

/// Puts whom to call under what to do, where somebody is written down.
pub fn into_plan(session: &Session, sections: &mut Vec<Section>) {
    if !in_practice(session) {
        let under = 1.min(sections.len());
        sections.splice(under..under, told(session, &needed(&session.verdict)));
    }
}

fn in_practice(session: &Session) -> bool {
    session.practice.is_some() || session.flock.practice
}

fn told(session: &Session, needed: &[Whom]) -> Option<Section> {
    let known = known(session, needed).into_iter().map(Item::plain).collect();
    section(phrase::whom_to_call(), Tone::Plain, known).map(|told| session.reader().section(&told))
}

/// The numbers an instruction asks for, as far as they are written down.
pub fn numbers(session: &Session, phones: Option<Whom>) -> Vec<String> {
    let whom: &[Whom] = match phones {
        Some(Whom::Vet | Whom::EmergencyVet) => &[Whom::EmergencyVet, Whom::Vet],
        Some(Whom::Authority) => &[Whom::Authority],
        None => &[],
    };
    known(session, whom).into_iter().map(|line| session.say(line)).collect()
}

fn known(session: &Session, whom: &[Whom]) -> Vec<Phrase> {
    let told = |whom: &Whom| {
        let said = Text::typed(whole(session.contacts.of(*whom)?));
        Some(terms::named(Text::opening(whom_called(*whom)), said))
    };
    whom.iter().filter_map(told).collect()
}

/// A line in which no number is parted at the end of a row: a blank between digits holds them together.
pub fn whole(said: &str) -> String {
    let letters: Vec<char> = said.chars().collect();
    let digit = |at: Option<usize>| {
        at.and_then(|at| letters.get(at)).is_some_and(|letter| letter.is_ascii_digit() || "+()/-".contains(*letter))
    };
    let kept = |(at, letter): (usize, &char)| {
        if *letter == ' ' && digit(at.checked_sub(1)) && digit(Some(at + 1)) { '\u{a0}' } else { *letter }
    };
    letters.iter().enumerate().map(kept).collect()
}
