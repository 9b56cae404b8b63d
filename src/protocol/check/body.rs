//! The drawing of the bird: every place a wound can have is marked in it, and nothing else is.

use super::Checker;
use crate::protocol::body::{BodyView, Region, Side, Spot};
use crate::protocol::cond::QuestionAt;
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use std::cmp::Ordering;

impl Checker {
    pub(super) fn views(&mut self, items: &Items) -> Vec<BodyView> {
        let letters: Vec<char> = items.regions.iter().map(|placed| placed.item.letter).collect();
        let mut views = Vec::new();
        for placed in &items.views {
            let raw::View { id, name, turns, lines, .. } = placed.item.clone();
            let item = format!("view `{id}`");
            let turned = turns.iter().flat_map(|turns| [&turns.left, &turns.right]);
            for name in [&name].into_iter().chain(turned) {
                self.words(placed, &item, "name", name);
            }
            let stray =
                lines.iter().flat_map(|line| line.chars()).find(|c| c.is_ascii_uppercase() && !letters.contains(c));
            if let (Some(stray), false) = (stray, self.lost.some) {
                let what = format!("`{stray}` marks no region; a capital letter in a picture is the letter of one");
                self.faults.push(placed.fault(item.clone(), "lines", what));
            }
            if lines.iter().any(|line| !line.is_ascii()) {
                let what = "a picture is drawn in plain letters, so that every terminal shows it alike".to_owned();
                self.faults.push(placed.fault(item, "lines", what));
            }
            let blank = |line: String| line.replace(|c: char| c.is_ascii_uppercase(), " ");
            views.push(BodyView { id: id.as_str().into(), name, turns, lines: lines.into_iter().map(blank).collect() });
        }
        views
    }

    pub(super) fn regions(&mut self, items: &Items, place: Option<QuestionAt>, questions: &[Question]) -> Vec<Region> {
        let Some(question) = place.and_then(|at| questions.get(at.nth())) else { return Vec::new() };
        let regions =
            items.regions.iter().filter_map(|placed| self.region(placed, items, question)).collect::<Vec<_>>();
        for place in question.choices.iter().filter(|_| !self.lost.some) {
            let marked = items.regions.iter().filter(|placed| place.id == *placed.item.place).count();
            if let (0, Some(view)) = (marked, items.views.first()) {
                let what = format!("no region for `{}`: every answer to `{}` needs one", place.id, question.id);
                self.faults.push(view.fault("regions".to_owned(), "lines", what));
            }
        }
        regions
    }

    fn region(&mut self, placed: &Placed<raw::Region>, items: &Items, question: &Question) -> Option<Region> {
        let raw::Region { place, letter, danger, pressing, source } = placed.item.clone();
        let item = format!("region `{place}`");
        let source = self.known_source(placed, &item, source.as_deref());
        if let Some(danger) = &danger {
            self.words(placed, &item, "danger", danger);
        }
        let spots = spots(items, letter);
        if spots.is_empty() && !self.lost.some {
            let what = format!("its letter `{letter}` stands in no picture");
            self.faults.push(placed.fault(item.clone(), "letter", what));
        }
        if items.regions.iter().filter(|other| other.item.letter == letter).count() > 1 {
            let what = format!("two regions share the letter `{letter}`");
            self.faults.push(placed.fault(item.clone(), &place, what));
        }
        let Some(choice) = question.choices.iter().find(|choice| choice.id == *place) else {
            let near = nearest(&place, question.choices.iter().map(|choice| choice.id.as_str()));
            self.unknown(placed, &item, "place", "answer", &place, near);
            return None;
        };
        Some(Region { place: choice.id.clone(), name: choice.say.clone(), spots, danger, pressing, source })
    }
}

/// Where a letter stands in the pictures.
fn spots(items: &Items, letter: char) -> Vec<Spot> {
    let of_view = |(view, placed): (usize, &Placed<raw::View>)| {
        let of_line = move |(row, line): (usize, &String)| {
            let columns = line.chars().enumerate().filter(move |(_, c)| *c == letter);
            let above = placed.item.left_below.then(|| side(row, placed.item.lines.len())).flatten();
            let pair = placed.item.turns.is_some() && columns.clone().count() == 2;
            let side =
                move |nth: usize| if pair { Some(if nth == 0 { Side::Left } else { Side::Right }) } else { above };
            columns
                .enumerate()
                .map(move |(nth, (column, _))| Spot { view, row, column, side: side(nth) })
                .collect::<Vec<_>>()
        };
        placed.item.lines.iter().enumerate().flat_map(of_line).collect::<Vec<_>>()
    };
    items.views.iter().enumerate().flat_map(of_view).collect()
}

/// The side of her a line is on, seen from above with her beak to the left; the middle line is on none.
fn side(row: usize, lines: usize) -> Option<Side> {
    match (2 * row + 1).cmp(&lines) {
        Ordering::Less => Some(Side::Right),
        Ordering::Equal => None,
        Ordering::Greater => Some(Side::Left),
    }
}
