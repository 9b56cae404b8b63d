//! Blood added up: what is picked, step by step, and what each row stands for.

use crate::content::{mistyped, seen};
use crate::finding::figure::{FULLNESS, Floor, Fullness, PADS, Pad, Spilt, WIDEST_POOL};
use crate::phrase::{Phrase, Text, entering as phrase};
use crate::typed::{self, TypedError, weight};
use crate::unit::{Grams, Microlitres, Micrometres};

/// What was seen so far, and what is being picked now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spill {
    /// Everything picked, in order.
    pub seen: Vec<Spilt>,
    /// Where the picking stands.
    pub pick: Pick,
}

/// Where the picking stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pick {
    /// What is it?
    What,
    /// Which sort of pad?
    Sort,
    /// How full is it?
    Full(Pad),
    /// How many of them?
    Pads(Pad, Fullness),
    /// On what floor?
    Ground,
    /// How wide is the pool?
    Width(Floor, Micrometres),
    /// Which spoon or cup?
    Measure,
    /// How many of them?
    Measures(Microlitres),
    /// A number is typed.
    Typed(Number),
}

/// What a typed number is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Number {
    /// Drops.
    Drops,
    /// The weight of a cloth, wet.
    Wet,
    /// The same, dry.
    Dry(Grams),
    /// Drops in a quarter of a minute.
    Rate,
    /// For so many minutes at this rate.
    Minutes(u32),
}

/// What a choice led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taken {
    /// The next thing is picked.
    Picking,
    /// A number is typed next.
    Typing,
    /// That is all.
    Done,
}

/// Spoons and cups, as they are found in a kitchen.
const MEASURES: [(fn() -> Phrase, Microlitres); 5] = [
    (phrase::teaspoon, Microlitres(5_000)),
    (phrase::tablespoon, Microlitres(15_000)),
    (phrase::egg_cup, Microlitres(40_000)),
    (phrase::half_cup, Microlitres(120_000)),
    (phrase::cup, Microlitres(240_000)),
];
/// Over how many seconds drops are counted.
pub const RATE_S: u32 = 15;
const CENTIMETRE: u64 = 10_000;
/// How wide a pool is at first: a palm.
const PALM: Micrometres = Micrometres(8 * CENTIMETRE);

impl Default for Spill {
    fn default() -> Self {
        Self { seen: Vec::new(), pick: Pick::What }
    }
}

impl Spill {
    /// Goes on with what was seen before.
    pub fn of(seen: Vec<Spilt>) -> Self {
        Self { seen, pick: Pick::What }
    }

    /// What is asked, and a word on how to look.
    pub fn words(&self) -> (Phrase, Option<Phrase>) {
        match self.pick {
            Pick::What if self.seen.is_empty() => (phrase::blood(), Some(phrase::blood_look())),
            Pick::What => (phrase::other_blood(), None),
            Pick::Sort => (phrase::sort(), Some(phrase::sort_look())),
            Pick::Full(_) => (phrase::full(), Some(phrase::full_look())),
            Pick::Pads(..) | Pick::Measures(_) => (phrase::how_many(), None),
            Pick::Ground => (phrase::ground(), None),
            Pick::Width(..) => (phrase::width(), Some(phrase::width_look())),
            Pick::Measure => (phrase::measure(), None),
            Pick::Typed(number) => (number.words(), None),
        }
    }

    /// The rows to choose from.
    pub fn rows(&self) -> Vec<Text> {
        let said = |phrases: &[Phrase]| phrases.iter().cloned().map(Text::from).collect();
        match self.pick {
            Pick::What => {
                let what = [
                    phrase::by_drops(),
                    phrase::by_pads(),
                    phrase::by_pool(),
                    phrase::by_measures(),
                    phrase::by_weight(),
                    phrase::by_rate(),
                ];
                let done = (!self.seen.is_empty()).then(phrase::all);
                what.into_iter().chain(done).map(Text::from).collect()
            }
            Pick::Sort => PADS.iter().map(|(_, pad)| seen::pad(*pad).into()).collect(),
            Pick::Full(_) => FULLNESS.iter().map(|(_, full)| seen::full(*full).into()).collect(),
            Pick::Pads(..) | Pick::Measures(_) => (1..=9).map(|count: u8| Text::typed(count.to_string())).collect(),
            Pick::Ground => [Floor::Smooth, Floor::Soil].iter().map(|floor| seen::floor(*floor).into()).collect(),
            Pick::Width(_, width) => {
                let take = phrase::take_width(width.0 / CENTIMETRE);
                said(&[phrase::narrower(), phrase::wider(), phrase::much_wider(), take])
            }
            Pick::Measure => MEASURES.iter().map(|(words, _)| words().into()).collect(),
            Pick::Typed(_) => Vec::new(),
        }
    }

    /// Takes the row of this number, from 0.
    pub fn choose(&mut self, at: usize) -> Taken {
        let count = u32::try_from(at).unwrap_or(0) + 1;
        match self.pick {
            Pick::What => return self.what(at),
            Pick::Sort => self.go(PADS.get(at).map(|(_, pad)| Pick::Full(*pad))),
            Pick::Full(pad) => self.go(FULLNESS.get(at).map(|(_, full)| Pick::Pads(pad, *full))),
            Pick::Pads(pad, full) => self.add(Spilt::Pads(count, pad, full)),
            Pick::Ground => self.go([Floor::Smooth, Floor::Soil].get(at).map(|floor| Pick::Width(*floor, PALM))),
            Pick::Width(floor, width) => match at {
                0 => self.pick = Pick::Width(floor, wider(width, -1)),
                1 => self.pick = Pick::Width(floor, wider(width, 1)),
                2 => self.pick = Pick::Width(floor, wider(width, 10)),
                _ => self.add(Spilt::Pool { width, floor }),
            },
            Pick::Measure => self.go(MEASURES.get(at).map(|(_, volume)| Pick::Measures(*volume))),
            Pick::Measures(volume) => self.add(Spilt::Amount(Microlitres(volume.0 * u64::from(count)))),
            Pick::Typed(_) => return Taken::Typing,
        }
        Taken::Picking
    }

    fn what(&mut self, at: usize) -> Taken {
        let pick = match at {
            0 => Pick::Typed(Number::Drops),
            1 => Pick::Sort,
            2 => Pick::Ground,
            3 => Pick::Measure,
            4 => Pick::Typed(Number::Wet),
            5 => Pick::Typed(Number::Rate),
            _ => return Taken::Done,
        };
        self.pick = pick;
        if matches!(pick, Pick::Typed(_)) { Taken::Typing } else { Taken::Picking }
    }

    fn go(&mut self, to: Option<Pick>) {
        self.pick = to.unwrap_or(self.pick);
    }

    fn add(&mut self, seen: Spilt) {
        self.seen.push(seen);
        self.pick = Pick::What;
    }

    /// Takes a typed number.
    ///
    /// # Errors
    /// Where it cannot be read, what is wrong with it; nothing changes then.
    pub fn take(&mut self, text: &str) -> Result<Taken, Text> {
        let Pick::Typed(number) = self.pick else { return Ok(Taken::Picking) };
        let next = |pick: Number| Pick::Typed(pick);
        match number {
            Number::Drops => self.add(Spilt::Drops(some(text, number)?)),
            Number::Wet => self.pick = next(Number::Dry(mass(text)?)),
            Number::Dry(wet) => {
                let dry = mass(text)?;
                if dry > wet {
                    let (typed, example) = (Text::typed(text), Text::typed(number.example()));
                    return Err(phrase::heavier_dry(typed, example).into());
                }
                self.add(Spilt::Weighed { wet, dry });
            }
            Number::Rate => self.pick = next(Number::Minutes(some(text, number)?)),
            Number::Minutes(drops) => {
                self.add(Spilt::Dripping { drops, seconds: RATE_S, minutes: some(text, number)? });
            }
        }
        Ok(if matches!(self.pick, Pick::Typed(_)) { Taken::Typing } else { Taken::Picking })
    }

    /// A step back; at the first step what was seen last is taken back. False where there is nothing to go back to.
    pub fn back(&mut self) -> bool {
        let pick = match self.pick {
            Pick::What => return self.seen.pop().is_some(),
            Pick::Sort | Pick::Ground | Pick::Measure | Pick::Typed(Number::Drops | Number::Wet | Number::Rate) => {
                Pick::What
            }
            Pick::Full(_) => Pick::Sort,
            Pick::Pads(pad, _) => Pick::Full(pad),
            Pick::Width(..) => Pick::Ground,
            Pick::Measures(_) => Pick::Measure,
            Pick::Typed(Number::Dry(_)) => Pick::Typed(Number::Wet),
            Pick::Typed(Number::Minutes(_)) => Pick::Typed(Number::Rate),
        };
        self.pick = pick;
        true
    }
}

impl Number {
    /// What is asked.
    pub const fn words(self) -> Phrase {
        match self {
            Self::Drops => phrase::drops(),
            Self::Wet => phrase::wet(),
            Self::Dry(_) => phrase::dry(),
            Self::Rate => phrase::rate(),
            Self::Minutes(_) => phrase::minutes(),
        }
    }

    /// One that would be taken.
    pub const fn example(self) -> &'static str {
        match self {
            Self::Drops => "12",
            Self::Wet => "25 g",
            Self::Dry(_) => "5 g",
            Self::Rate => "10",
            Self::Minutes(_) => "5",
        }
    }
}

fn some(text: &str, number: Number) -> Result<u32, Text> {
    match typed::count(text).map_err(|error| unread(&error))? {
        0 => Err(phrase::none(Text::typed(text), Text::typed(number.example())).into()),
        count => Ok(count),
    }
}

fn mass(text: &str) -> Result<Grams, Text> {
    weight::mass(text).map_err(|error| unread(&error))
}

fn unread(error: &TypedError) -> Text {
    mistyped::told(error)
}

/// A pool some centimetres wider, between one and the widest.
fn wider(width: Micrometres, by: i64) -> Micrometres {
    let centimetres = (width.0 / CENTIMETRE).saturating_add_signed(by).clamp(1, WIDEST_POOL.0 / CENTIMETRE);
    Micrometres(centimetres * CENTIMETRE)
}
