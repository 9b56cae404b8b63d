//! Figures a person counted, measured or added up, kept as they were seen: what they amount to is worked out elsewhere.
//!
//! Every figure can be written down in one line and read again as the same.

use crate::typed::{self, Household, Mistyped, TypedError};
use crate::unit::{Band, Grams, Microlitres, Micrometres, TenthsOfSecond};
use serde::{Deserialize, Serialize};

/// A figure said in place of one of a question's answers.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Figure {
    /// What was seen of the blood spilt.
    Spilt(Vec<Spilt>),
    /// Breaths counted, once or several times.
    Breaths(Vec<Count>),
    /// A wound by two lines.
    Lines(Lines),
    /// How long the wing vein took to fill again.
    Refill(TenthsOfSecond),
}

/// What soaks up blood.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pad {
    /// 10 x 10 cm, four layers, thin.
    Thin10,
    /// 5 x 5 cm, twelve layers.
    Small5,
    /// 10 x 10 cm, thick.
    Thick10,
    /// 10 x 10 cm, nobody knows how thick: anything between the two.
    Any10,
    /// A cloth or towel of 30 x 30 cm.
    Cloth30,
    /// A cloth or towel of 45 x 45 cm.
    Cloth45,
}

/// How full a pad looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fullness {
    /// Spotted.
    Spotted,
    /// Half red.
    Half,
    /// Red all over.
    Full,
    /// It drips.
    Dripping,
}

/// What blood lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Floor {
    /// Tile, concrete, plastic: it stands in a film.
    Smooth,
    /// Soil or litter: it soaks in.
    Soil,
}

/// One thing that was seen of the blood spilt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Spilt {
    /// Drops.
    Drops(u32),
    /// Pads of one sort and fullness.
    Pads(u32, Pad, Fullness),
    /// A swab, towel or bedding, weighed on a kitchen scale.
    Weighed {
        /// With the blood in it.
        wet: Grams,
        /// Without.
        dry: Grams,
    },
    /// A round pool.
    Pool {
        /// Across.
        width: Micrometres,
        /// What it lies on.
        floor: Floor,
    },
    /// A measured amount: spoons, cups.
    Amount(Microlitres),
    /// The same in a measure that holds less in one country than in another: from so much to so much.
    Between(Microlitres, Microlitres),
    /// A rate that goes on, or went on for so long.
    Dripping {
        /// So many drops.
        drops: u32,
        /// In so many seconds.
        seconds: u32,
        /// For so many minutes, until it stopped or until now.
        minutes: u32,
    },
}

/// Breaths counted once.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Count {
    /// So many.
    pub breaths: u32,
    /// In so many seconds.
    pub seconds: u32,
    /// Whether she was in the hand meanwhile.
    #[serde(default)]
    pub held: bool,
}

/// A wound by its longest line and the longest at right angles to it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lines {
    /// The longest line.
    pub length: Micrometres,
    /// The longest at right angles to it.
    pub width: Micrometres,
}

/// What a figure is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureOf {
    /// Blood spilt.
    Blood,
    /// Breaths.
    Breaths,
    /// A wound's size.
    Wound,
    /// The wing vein.
    Refill,
}

impl FigureOf {
    /// The most such a figure is taken to come to, in the base unit of its measure: what stands for all above an answer, and
    /// what cannot be told, reach as far.
    pub const fn most(self) -> u64 {
        match self {
            // Microlitres: 120 a gram, the most any kind has, in the heaviest bird.
            Self::Blood => crate::unit::HEAVIEST.0 as u64 * 120,
            // Tenths a minute: far above what panting quail reach, about 800 a minute.
            Self::Breaths => 20_000,
            // Square millimetres: a round wound as wide as [`LONGEST_LINE`], read to 2 mm.
            Self::Wound => 200_000,
            // Tenths of a second: a minute.
            Self::Refill => 610,
        }
    }

    /// A figure that comes to so much, in the base unit of its measure; in English, for a protocol's author.
    pub fn for_author(self, value: u64) -> String {
        match self {
            Self::Blood => typed::write_volume(Microlitres(value)),
            Self::Breaths => format!("{}.{} a minute", value / 10, value % 10),
            Self::Wound => format!("{}.{:02} cm2 open", value / 100, value % 100),
            Self::Refill => format!("{}.{} s", value / 10, value % 10),
        }
    }

    /// One way to write such a figure.
    pub const fn example(self) -> &'static str {
        match self {
            Self::Blood => "2 thin10 full; pool 10 cm smooth; 12 drops",
            Self::Breaths => "15 in 30 s",
            Self::Wound => "8 x 5 cm",
            Self::Refill => "1.2 s",
        }
    }
}

/// The longest line taken across one wound.
pub const LONGEST_LINE: Micrometres = Micrometres(500_000);

/// The widest pool taken for one bird's blood.
pub const WIDEST_POOL: Micrometres = Micrometres(2_000_000);

/// The names of pads.
pub const PADS: [(&str, Pad); 6] = [
    ("thin10", Pad::Thin10),
    ("small5", Pad::Small5),
    ("thick10", Pad::Thick10),
    ("any10", Pad::Any10),
    ("cloth30", Pad::Cloth30),
    ("cloth45", Pad::Cloth45),
];
/// The names of how full a pad is.
pub const FULLNESS: [(&str, Fullness); 4] = [
    ("spotted", Fullness::Spotted),
    ("half", Fullness::Half),
    ("full", Fullness::Full),
    ("dripping", Fullness::Dripping),
];
/// The names of floors.
pub const FLOORS: [(&str, Floor); 2] = [("smooth", Floor::Smooth), ("soil", Floor::Soil)];

fn name_of<T: PartialEq>(names: &[(&'static str, T)], value: &T) -> &'static str {
    names.iter().find(|(_, known)| known == value).map_or("", |(name, _)| name)
}

impl Spilt {
    fn write(self) -> String {
        match self {
            Self::Drops(count) => format!("{count} drops"),
            Self::Pads(count, pad, fullness) => {
                format!("{count} {} {}", name_of(&PADS, &pad), name_of(&FULLNESS, &fullness))
            }
            Self::Weighed { wet, dry } => format!("wet {} g dry {} g", wet.0, dry.0),
            Self::Pool { width, floor } => format!("pool {} {}", typed::write_length(width), name_of(&FLOORS, &floor)),
            Self::Amount(volume) => typed::write_volume(volume),
            Self::Between(low, high) => format!("{} to {}", typed::write_volume(low), typed::write_volume(high)),
            Self::Dripping { drops, seconds, minutes } => format!("{drops} drops in {seconds} s for {minutes} min"),
        }
    }

    /// Reads one thing seen: `12 drops`, `2 thin10 full`, `wet 25 g dry 5 g`, `pool 10 cm smooth`, `2 tsp`,
    /// `10 drops in 15 s for 8 min`.
    ///
    /// # Errors
    /// Where it is none of these.
    pub fn read(text: &str) -> Result<Self, TypedError> {
        // What is wrong with a part is told with an example of the whole.
        Self::parse(text).map_err(|error| error.example_of(FigureOf::Blood.example()))
    }

    fn parse(text: &str) -> Result<Self, TypedError> {
        let lower = text.trim().to_lowercase();
        let words: Vec<&str> = lower.split_whitespace().collect();
        match words[..] {
            [count, "drop" | "drops"] => Ok(Self::Drops(typed::count(count)?)),
            [drops, "drop" | "drops", "in", seconds, "s", "for", minutes, "min"] => {
                let (drops, seconds) = (typed::count(drops)?, self::seconds(seconds)?);
                Ok(Self::Dripping { drops, seconds, minutes: typed::count(minutes)? })
            }
            ["wet", ..] => {
                let (wet, dry) = lower
                    .trim_start_matches("wet")
                    .split_once("dry")
                    .ok_or_else(|| TypedError::new(text, Mistyped::NoDryWeight, "wet 25 g dry 5 g"))?;
                let (wet, dry) = (typed::weight::mass(wet)?, typed::weight::mass(dry)?);
                if wet < dry {
                    return Err(TypedError::new(text, Mistyped::LighterWet, "wet 25 g dry 5 g"));
                }
                Ok(Self::Weighed { wet, dry })
            }
            ["pool", .., floor] => {
                let width = lower.trim_start_matches("pool").trim_end_matches(floor);
                let (width, floor) = (typed::length(width)?, typed::word(floor, &FLOORS)?);
                if width > WIDEST_POOL {
                    return Err(TypedError::new(text, Mistyped::PoolTooWide, "pool 10 cm smooth"));
                }
                Ok(Self::Pool { width, floor })
            }
            [count, pad, fullness] if PADS.iter().any(|(name, _)| *name == pad) => {
                Ok(Self::Pads(typed::count(count)?, typed::word(pad, &PADS)?, typed::word(fullness, &FULLNESS)?))
            }
            _ => poured(&lower).ok_or_else(|| TypedError::new(text, Mistyped::NoBlood, FigureOf::Blood.example())),
        }
    }
}

/// Reads what was poured or would fill a spoon: `5 ml`, `2 tsp`, `10 ml to 15 ml`. Whose spoons they are is not known here.
fn poured(text: &str) -> Option<Spilt> {
    let read = |text: &str| typed::volume(text, Household::Unknown).ok();
    let Band { low, high } = match text.split_once(" to ") {
        Some((low, high)) => Band { low: read(low)?.low, high: read(high)?.high },
        None => read(text)?,
    };
    match low.cmp(&high) {
        std::cmp::Ordering::Less => Some(Spilt::Between(low, high)),
        std::cmp::Ordering::Equal => Some(Spilt::Amount(low)),
        std::cmp::Ordering::Greater => None,
    }
}

impl Count {
    fn write(self) -> String {
        format!("{} in {} s{}", self.breaths, self.seconds, if self.held { " held" } else { "" })
    }

    /// Reads one count: `15 in 30 s`, `15 in 30 s held`.
    ///
    /// # Errors
    /// Where it is not written so, or the time is not 5 to 300 seconds.
    pub fn read(text: &str) -> Result<Self, TypedError> {
        let lower = text.trim().to_lowercase();
        let words: Vec<&str> = lower.split_whitespace().collect();
        let (breaths, seconds, held) = match words[..] {
            [breaths, "in", seconds, "s"] => (breaths, seconds, false),
            [breaths, "in", seconds, "s", "held"] => (breaths, seconds, true),
            _ => return Err(TypedError::new(text, Mistyped::NoCount, FigureOf::Breaths.example())),
        };
        Ok(Self { breaths: self::breaths(breaths)?, seconds: self::seconds(seconds)?, held })
    }
}

/// The times one count may run over, in seconds: shorter tells nothing, longer is not one count.
pub const COUNTED_OVER: std::ops::RangeInclusive<u32> = 5..=300;

/// Reads over how many seconds something was counted.
///
/// # Errors
/// Where it is no number, or not 5 to 300.
pub fn seconds(text: &str) -> Result<u32, TypedError> {
    let seconds = typed::count(text)?;
    if COUNTED_OVER.contains(&seconds) {
        Ok(seconds)
    } else {
        Err(TypedError::new(text, Mistyped::NotCountedOver, "30"))
    }
}

/// Reads breaths counted; none at all is no count of a living bird.
///
/// # Errors
/// Where it is no number, or nought.
pub fn breaths(text: &str) -> Result<u32, TypedError> {
    match typed::count(text)? {
        0 => Err(TypedError::new(text, Mistyped::NoBreath, "15")),
        breaths => Ok(breaths),
    }
}

impl Lines {
    /// The two lines as they are typed.
    pub fn write(self) -> String {
        format!("{} x {}", typed::write_length(self.length), typed::write_length(self.width))
    }

    /// Reads two lines: `8 x 5 cm`, `8 cm x 45 mm`, `3 by 2 in`; the longer one is the length. At most half a metre.
    ///
    /// # Errors
    /// Where there are not two, or one cannot be read.
    pub fn read(text: &str) -> Result<Self, TypedError> {
        let lower = text.trim().to_lowercase().replace(" by ", " x ").replace('×', "x");
        let wrong = |what: Mistyped| TypedError::new(text, what, FigureOf::Wound.example());
        let (one, other) = lower.split_once('x').ok_or_else(|| wrong(Mistyped::NotTwoLines))?;
        // "8 x 5 cm": the unit stands once, for both.
        let unit = other.trim().trim_start_matches(|c: char| c.is_numeric() || matches!(c, '.' | ',' | '/' | ' '));
        let first = typed::length(one).or_else(|_| typed::length(&format!("{} {unit}", one.trim())));
        let own = |error: TypedError| error.example_of(FigureOf::Wound.example());
        let (one, other) = (first.map_err(own)?, typed::length(other).map_err(own)?);
        if one.max(other) > LONGEST_LINE {
            return Err(wrong(Mistyped::LineTooLong));
        }
        Ok(Self { length: one.max(other), width: one.min(other) })
    }
}

impl Figure {
    /// What it is a figure of.
    pub const fn of(&self) -> FigureOf {
        match self {
            Self::Spilt(_) => FigureOf::Blood,
            Self::Breaths(_) => FigureOf::Breaths,
            Self::Lines(_) => FigureOf::Wound,
            Self::Refill(_) => FigureOf::Refill,
        }
    }

    /// The figure in one line, as it can be read again.
    pub fn write(&self) -> String {
        let joined = |parts: Vec<String>| parts.join("; ");
        match self {
            Self::Spilt(seen) => joined(seen.iter().map(|one| one.write()).collect()),
            Self::Breaths(counts) => joined(counts.iter().map(|one| one.write()).collect()),
            Self::Lines(lines) => lines.write(),
            Self::Refill(TenthsOfSecond(tenths)) => format!("{}.{} s", tenths / 10, tenths % 10),
        }
    }

    /// Reads a figure of a kind.
    ///
    /// # Errors
    /// Where it is not written as such a figure is; what is wrong is said with an example.
    pub fn read(of: FigureOf, text: &str) -> Result<Self, TypedError> {
        let parts = || text.split(';').filter(|part| !part.trim().is_empty());
        let empty = || TypedError::new(text, Mistyped::Empty, of.example());
        match of {
            FigureOf::Blood => {
                let seen: Vec<Spilt> = parts().map(Spilt::read).collect::<Result<_, _>>()?;
                if seen.is_empty() { Err(empty()) } else { Ok(Self::Spilt(seen)) }
            }
            FigureOf::Breaths => {
                let counts: Vec<Count> = parts().map(Count::read).collect::<Result<_, _>>()?;
                if counts.is_empty() { Err(empty()) } else { Ok(Self::Breaths(counts)) }
            }
            FigureOf::Wound => Lines::read(text).map(Self::Lines),
            FigureOf::Refill => typed::tenths_of_second(text, of.example()).map(Self::Refill),
        }
    }
}
