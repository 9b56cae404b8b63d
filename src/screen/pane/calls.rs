//! Whom to call, with the keeper's own numbers, where the verdict or an instruction asks for it.

use crate::care::contacts::needed;
use crate::content::document::{Item, Section, Tone, section, upper_first};
use crate::protocol::whom::Whom;
use crate::screen::model::Model;
use crate::screen::theme::Theme;
use crate::screen::wrap::wrapped;
use ratatui::text::Line;

/// Puts whom to call right under what the verdict comes to. Where nobody is written down, how to do that stands under the reasons.
pub fn into_verdict(model: &Model, sections: &mut Vec<Section>) {
    let needed = needed(&model.verdict);
    if needed.is_empty() || in_practice(model) {
        return;
    }
    if let Some(known) = told(model, &needed) {
        sections.insert(1.min(sections.len()), known);
    } else {
        let none = Item::plain("Nobody is written down yet. y: write it once, for every bird.");
        let under = 2.min(sections.len());
        sections.splice(under..under, section(HEADING, Tone::Plain, vec![none]));
    }
}

/// Puts whom to call under what to do, where somebody is written down.
pub fn into_plan(model: &Model, sections: &mut Vec<Section>) {
    if !in_practice(model) {
        let under = 1.min(sections.len());
        sections.splice(under..under, told(model, &needed(&model.verdict)));
    }
}

fn in_practice(model: &Model) -> bool {
    model.practice.is_some() || model.flock.practice
}

fn told(model: &Model, needed: &[Whom]) -> Option<Section> {
    section(HEADING, Tone::Plain, known(model, needed).into_iter().map(Item::plain).collect())
}

const HEADING: &str = "WHOM TO CALL";

/// The numbers an instruction asks for, as far as they are written down.
pub fn numbers(model: &Model, phones: Option<Whom>, theme: Theme, width: usize) -> Vec<Line<'static>> {
    let whom: &[Whom] = match phones {
        Some(Whom::Vet | Whom::EmergencyVet) => &[Whom::EmergencyVet, Whom::Vet],
        Some(Whom::Authority) => &[Whom::Authority],
        None => &[],
    };
    known(model, whom).iter().flat_map(|line| wrapped(line, width, "   ", theme.plain())).collect()
}

fn known(model: &Model, whom: &[Whom]) -> Vec<String> {
    let told = |whom: &Whom| Some(format!("{}: {}", upper_first(whom.words()), whole(model.contacts.of(*whom)?)));
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
