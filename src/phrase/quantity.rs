//! A figure before anybody says it: low and high in one unit, exactly as it is rounded, and how its unit is told.

use super::Text;
use crate::unit::{Band, Grams, MicrogramsPerLitre, Microlitres, Permille, TenthsOfDegree, TenthsPerMinute};
use std::fmt;

/// A decimal figure as it is told: rounded already, so that every reader sees the same digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Decimal {
    /// The digits, as a whole number.
    digits: i64,
    /// How many of them stand behind the point.
    places: u8,
    /// What of it is told.
    shape: Shape,
}

/// What of a decimal figure is told besides its digits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    /// No noughts at the end.
    Short,
    /// Every place.
    Fixed,
    /// Every place, and the sign of a gain.
    Change,
}

impl Decimal {
    /// So many tenths, hundredths and so on; noughts at the end are not told. The largest figure there is where it would not fit.
    pub fn new(digits: u64, places: u8) -> Self {
        Self { digits: i64::try_from(digits).unwrap_or(i64::MAX), places, shape: Shape::Short }
    }

    /// A whole number.
    pub fn whole(number: impl Into<i64>) -> Self {
        Self { digits: number.into(), places: 0, shape: Shape::Fixed }
    }

    /// A measured value, rounded to so many places, all of them told.
    pub fn rounded(value: f64, places: u8) -> Self {
        let scaled = (value * 10f64.powi(i32::from(places))).round();
        #[expect(clippy::cast_possible_truncation, reason = "a float beyond the integers becomes the nearest of them")]
        let digits = scaled as i64;
        Self { digits, places, shape: Shape::Fixed }
    }

    /// A measured change, rounded to so many places; a gain is told as one.
    pub fn change(value: f64, places: u8) -> Self {
        Self { shape: Shape::Change, ..Self::rounded(value, places) }
    }

    /// The figure as a bird's weight: a whole number of grams; the nearest weight there is otherwise.
    pub fn grams(self) -> Grams {
        Grams(u32::try_from(self.digits).unwrap_or_default())
    }

    /// The figure as a number, for other programs.
    pub fn value(self) -> f64 {
        self.to_string().parse().unwrap_or_default()
    }
}

impl fmt::Display for Decimal {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        let unit = 10u64.saturating_pow(u32::from(self.places));
        let digits = self.digits.unsigned_abs();
        let (whole, part) = (digits / unit, digits % unit);
        let sign = match (self.digits, self.shape) {
            (..0, _) => "-",
            (0.., Shape::Change) => "+",
            (0.., Shape::Short | Shape::Fixed) => "",
        };
        let text = if self.places == 0 {
            format!("{sign}{whole}")
        } else {
            format!("{sign}{whole}.{part:0places$}", places = usize::from(self.places))
        };
        // A whole number keeps its noughts: they are no decimals.
        let short = self.shape == Shape::Short && self.places > 0;
        out.write_str(if short { text.trim_end_matches('0').trim_end_matches('.') } else { &text })
    }
}

/// The unit of a quantity, by an id that no language changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum UnitOf {
    /// A bird's weight in grams: told in both systems.
    Weight,
    /// A bird's weight in grams: one system is enough in a row of values, or for the ear.
    MetricWeight,
    /// Grams of a substance.
    Grams,
    /// Millilitres.
    Millilitres,
    /// Parts in a hundred.
    Percent,
    /// Parts in a hundred, each hour.
    PercentAnHour,
    /// Events a minute.
    PerMinute,
    /// Degrees Celsius.
    Degrees,
    /// Minutes.
    Minutes,
    /// Hours.
    Hours,
    /// Days.
    Days,
    /// Millimetres.
    Millimetres,
    /// Centimetres.
    Centimetres,
    /// Square millimetres.
    SquareMillimetres,
    /// Square centimetres.
    SquareCentimetres,
    /// Grams a day.
    GramsADay,
    /// Pieces of something: drops, spoons, parts; or a ratio.
    Count,
}

impl UnitOf {
    /// Its name in JSON: the sign of the International System where there is one.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Weight | Self::MetricWeight | Self::Grams => "g",
            Self::Millilitres => "mL",
            Self::Percent => "%",
            Self::PercentAnHour => "%/h",
            Self::PerMinute => "1/min",
            Self::Degrees => "°C",
            Self::Minutes => "min",
            Self::Hours => "h",
            Self::Days => "d",
            Self::Millimetres => "mm",
            Self::Centimetres => "cm",
            Self::SquareMillimetres => "mm2",
            Self::SquareCentimetres => "cm2",
            Self::GramsADay => "g/d",
            Self::Count => "1",
        }
    }
}

/// How the unit of a quantity is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum UnitTold {
    /// By the sentence the figure stands in, or with the figure where that cannot do without (a weight in both systems).
    BySentence,
    /// By its sign, which is the same in every language.
    BySign,
    /// By words.
    ByWords(Box<Text>),
}

/// Low and high in one unit. Both are possible; where they agree, one figure is told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quantity {
    band: Band<Decimal>,
    unit: UnitOf,
    told: UnitTold,
}

impl Quantity {
    /// A band; its unit stands in the sentence around it.
    pub const fn new(band: Band<Decimal>, unit: UnitOf) -> Self {
        Self { band, unit, told: UnitTold::BySentence }
    }

    /// A band of exact units, each end as it is rounded for telling.
    pub fn of<T: Copy>(band: Band<T>, rounded: impl Fn(T) -> Decimal, unit: UnitOf) -> Self {
        Self::new(Band { low: rounded(band.low), high: rounded(band.high) }, unit)
    }

    /// One figure; its unit stands in the sentence around it.
    pub const fn one(figure: Decimal, unit: UnitOf) -> Self {
        Self::new(Band::exactly(figure), unit)
    }

    /// The same with the sign of its unit.
    #[must_use]
    pub fn signed(self) -> Self {
        Self { told: UnitTold::BySign, ..self }
    }

    /// The same with its unit in words.
    #[must_use]
    pub fn in_words(self, words: impl Into<Text>) -> Self {
        Self { told: UnitTold::ByWords(Box::new(words.into())), ..self }
    }

    /// Low and high.
    pub const fn band(&self) -> Band<Decimal> {
        self.band
    }

    /// Its unit.
    pub const fn unit(&self) -> UnitOf {
        self.unit
    }

    /// How its unit is told.
    pub const fn told(&self) -> &UnitTold {
        &self.told
    }

    /// A bird's weight.
    pub fn weight(band: Band<Grams>) -> Self {
        Self::of(band, |grams| Decimal::whole(grams.0), UnitOf::Weight)
    }

    /// A bird's weight, told in one system.
    pub fn metric_weight(weight: Grams) -> Self {
        Self::one(Decimal::whole(weight.0), UnitOf::MetricWeight)
    }

    /// Volumes, to a tenth of a millilitre; below one to a hundredth.
    pub fn volume(band: Band<Microlitres>) -> Self {
        Self::of(band, millilitres, UnitOf::Millilitres)
    }

    /// Shares, in a hundred.
    pub fn share(band: Band<Permille>) -> Self {
        Self::of(band, percent, UnitOf::Percent)
    }

    /// Strengths, in a hundred.
    pub fn strength<T: Copy + Into<MicrogramsPerLitre>>(band: Band<T>) -> Self {
        Self::of(band, percent_strength, UnitOf::Percent)
    }

    /// Rates.
    pub fn rate(band: Band<TenthsPerMinute>) -> Self {
        Self::of(band, |rate| Decimal::new(rate.0.into(), 1), UnitOf::PerMinute)
    }

    /// Temperatures. None of ours lies below freezing.
    pub fn degrees(band: Band<TenthsOfDegree>) -> Self {
        Self::of(band, |tenths| Decimal::new(u64::try_from(tenths.0).unwrap_or(0), 1), UnitOf::Degrees)
    }
}

impl From<Quantity> for Text {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(Box::new(quantity))
    }
}

/// A volume in millilitres, to a tenth; below one to a hundredth.
pub fn millilitres(volume: Microlitres) -> Decimal {
    if volume.0 < 1_000 {
        Decimal::new(volume.0.saturating_add(5) / 10, 2)
    } else {
        Decimal::new(volume.0.saturating_add(50) / 100, 1)
    }
}

/// A strength as percent, to three significant figures.
pub fn percent_strength(strength: impl Into<MicrogramsPerLitre>) -> Decimal {
    let MicrogramsPerLitre(strength) = strength.into();
    // A thousandth of what is told is the last figure.
    let digits = strength.checked_ilog10().map_or(1, |ten| ten + 1);
    let last = 10u64.saturating_pow(digits.saturating_sub(3));
    Decimal::new(strength.saturating_add(last / 2) / last * last, 7)
}

/// Milligrams as grams, to a hundredth.
pub fn grams(milligrams: u64) -> Decimal {
    Decimal::new(milligrams.saturating_add(5) / 10, 2)
}

/// Thousandths as percent.
pub fn percent(share: Permille) -> Decimal {
    Decimal::new(share.0.into(), 1)
}
