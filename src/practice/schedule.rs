//! When a novice practises a lesson again: the schedule SM-2, published by P. A. Wozniak ("Optimization of learning",
//! master's thesis, Poznan 1990, chapter 3.2; also on its author's pages).

use super::mark::Mark;
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::BTreeMap;

/// A lesson and when it is practised again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Due {
    /// The scripted bird.
    pub bird: String,
    /// From when on.
    pub at: DateTime<Utc>,
}

/// How well one lesson sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    /// How often in a row it went well.
    in_a_row: u32,
    /// How fast the pauses grow; never under 1.3.
    ease: f64,
    /// The pause after the last time. Days.
    days: f64,
}

impl Card {
    /// The card of a lesson that was never practised.
    pub const NEW: Self = Self { in_a_row: 0, ease: 2.5, days: 0.0 };

    /// The card after one more go of this quality, from 0 to 5.
    #[must_use]
    pub fn after(self, quality: u8) -> Self {
        // Published so: what went badly begins anew, and its ease is left as it was.
        if quality < 3 {
            return Self { in_a_row: 0, days: 1.0, ..self };
        }
        let short = f64::from(5 - quality.min(5));
        let ease = (self.ease + 0.1 - short * (0.08 + short * 0.02)).max(1.3);
        let days = match self.in_a_row {
            0 => 1.0,
            1 => 6.0,
            _ => (self.days * ease).ceil(),
        };
        Self { in_a_row: self.in_a_row + 1, ease, days }
    }

    /// How fast the pauses grow.
    pub const fn ease(self) -> f64 {
        self.ease
    }

    /// The pause after the last time. Days.
    pub const fn days(self) -> f64 {
        self.days
    }
}

/// When a novice practises each lesson again, the soonest first, from the goes there were.
pub fn due(marks: &[Mark], novice: &str) -> Vec<Due> {
    let mut goes: Vec<&Mark> = marks.iter().filter(|mark| mark.novice == novice).collect();
    goes.sort_by_key(|mark| mark.at);
    let mut cards: BTreeMap<&str, (DateTime<Utc>, Card)> = BTreeMap::new();
    for mark in goes {
        let (at, card) = cards.entry(&mark.bird).or_insert((mark.at, Card::NEW));
        (*at, *card) = (mark.at, card.after(mark.quality()));
    }
    // Whole seconds are exact enough for days.
    #[expect(clippy::cast_possible_truncation, reason = "pauses are days, far below what an i64 holds in seconds")]
    let pause = |card: Card| TimeDelta::seconds((card.days.min(36_500.0) * 86_400.0) as i64);
    let mut due: Vec<Due> =
        cards.into_iter().map(|(bird, (at, card))| Due { bird: bird.to_owned(), at: at + pause(card) }).collect();
    due.sort_by_key(|due| due.at);
    due
}
