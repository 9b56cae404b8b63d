//! Kinds of poultry, and what differs between them where it matters to a hurt bird.

use crate::unit::{Band, Grams, HEAVIEST, LIGHTEST};
use serde::{Deserialize, Serialize};

/// A kind of poultry as a keeper would name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Kind {
    /// A full-sized domestic hen.
    Hen,
    /// A full-sized cock.
    Cock,
    /// A bantam of either sex.
    Bantam,
    /// Any young bird still under heat, up to about six weeks.
    Chick,
    /// A domestic duck or drake, Muscovy included.
    Duck,
    /// A domestic goose or gander.
    Goose,
    /// A turkey, hen or stag.
    Turkey,
    /// A quail.
    Quail,
    /// A guinea fowl.
    GuineaFowl,
}

impl Kind {
    /// Every kind, in the order the question offers them.
    pub const ALL: [Self; 9] = [
        Self::Hen,
        Self::Cock,
        Self::Bantam,
        Self::Chick,
        Self::Duck,
        Self::Goose,
        Self::Turkey,
        Self::Quail,
        Self::GuineaFowl,
    ];

    /// The kind's name in protocol and findings files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Hen => "hen",
            Self::Cock => "cock",
            Self::Bantam => "bantam",
            Self::Chick => "chick",
            Self::Duck => "duck",
            Self::Goose => "goose",
            Self::Turkey => "turkey",
            Self::Quail => "quail",
            Self::GuineaFowl => "guinea_fowl",
        }
    }

    /// The kind whose name this is, if there is one.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.id() == id)
    }

    /// What a bird of this kind may weigh, from the lightest to the heaviest adult met in a yard.
    ///
    /// Unit: grams. Sources, read second-hand unless marked: hens 1.8-5.9 kg and bantams to 1.1 kg
    /// (aglifemedia.com, standard chickens; the lightest hen 1.6 kg and the lightest bantam 0.5 kg from memory);
    /// cocks to 5.9 kg (htfbw.com); ducks from the call duck's 0.6 kg (memory, British Waterfowl Association standards)
    /// to the heavy Muscovy drake's 8 kg (goldcoastchooks.com); geese 2.5 to over 10 kg (Poultry Hub, read);
    /// turkeys 2.5-11.5 kg, heavy stags to 20 kg from memory; quail 0.10-0.45 kg (biologyinsights.com);
    /// guinea fowl 1.3-1.8 kg (memory); chicks from a hatched quail's 6 g (memory) to a six-week
    /// meat bird's 3 kg (memory, breeder guides).
    pub const fn weight(self) -> Band<Grams> {
        let (low, high) = match self {
            Self::Hen => (1600, 5900),
            Self::Cock => (2000, 5900),
            Self::Bantam => (500, 1100),
            Self::Chick => (6, 3000),
            Self::Duck => (600, 8000),
            Self::Goose => (2500, 12_000),
            Self::Turkey => (2500, 20_000),
            Self::Quail => (100, 450),
            Self::GuineaFowl => (1300, 1800),
        };
        Band { low: Grams(low), high: Grams(high) }
    }

    /// The weights that are taken of a bird of this kind, wherever one is typed, written down or supposed: from half the
    /// lightest, as the young and the starved weigh, to twice the heaviest. The halves and doubles are a proposal of ours.
    pub fn taken(self) -> Band<Grams> {
        let Band { low, high } = self.weight();
        Band { low: Grams(low.0 / 2).max(LIGHTEST), high: Grams(high.0 * 2).min(HEAVIEST) }
    }

    /// The same where the kind may not be known: then any bird's.
    pub fn taken_of(kind: Option<Self>) -> Band<Grams> {
        kind.map_or(Band { low: LIGHTEST, high: HEAVIEST }, Self::taken)
    }

    /// Refuses a weight that is not [taken](Self::taken) of a bird of this kind, as a wrong unit or a wrong kind would give it.
    ///
    /// # Errors
    /// That it is far too light or too heavy for her kind.
    pub fn could_weigh(self, grams: Grams) -> Result<(), Unlikely> {
        let (taken, band) = (self.taken(), self.weight());
        if grams > taken.high {
            Err(Unlikely { kind: self, much: Much::TooHeavy, than: band.high })
        } else if grams < taken.low {
            Err(Unlikely { kind: self, much: Much::TooLight, than: band.low })
        } else {
            Ok(())
        }
    }

    /// What an adult bird of unknown kind may weigh: every kind's band joined.
    pub fn any_weight() -> Band<Grams> {
        Self::ALL.into_iter().map(Self::weight).reduce(Band::hull).unwrap_or(Self::Hen.weight())
    }
}

/// A weight that no bird of a kind has: a wrong unit, or a wrong kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unlikely {
    /// The kind.
    pub kind: Kind,
    /// Which way it is wrong.
    pub much: Much,
    /// What the lightest or the heaviest of the kind weighs. Grams.
    pub than: Grams,
}

/// Which way a weight is wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Much {
    /// Less than half of what the lightest weighs.
    TooLight,
    /// More than twice what the heaviest weighs.
    TooHeavy,
}

impl Unlikely {
    /// In English, for whoever wrote it down; it goes after the weight. A keeper is told it by `reckon::mistyped`.
    pub fn for_author(self) -> String {
        let (what, young) = match self.much {
            Much::TooHeavy => ("more than twice what the heaviest", ""),
            Much::TooLight => ("less than half of what the lightest", "; a young bird goes as a chick"),
        };
        let name = self.kind.id().replace('_', " ");
        format!("is {what} {name} weighs, {} g; look at unit and kind again{young}", self.than.0)
    }
}

/// Which build.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BuildOf {
    /// A light hen of a laying breed.
    LightHen,
    /// A heavy hen.
    HeavyHen,
    /// A light cock of a laying breed.
    LightCock,
    /// A heavy cock.
    HeavyCock,
    /// A tiny bantam.
    TinyBantam,
    /// A large bantam.
    LargeBantam,
    /// A call or runner duck.
    SmallDuck,
    /// A farm duck or drake.
    FarmDuck,
    /// A Muscovy duck.
    MuscovyDuck,
    /// A Muscovy drake.
    MuscovyDrake,
    /// A light goose.
    LightGoose,
    /// A middling goose.
    MiddleGoose,
    /// A heavy goose.
    HeavyGoose,
    /// A turkey hen.
    TurkeyHen,
    /// A turkey stag.
    TurkeyStag,
    /// A Japanese quail.
    SmallQuail,
    /// A bobwhite or jumbo quail.
    LargeQuail,
    /// A chick of quail.
    QuailChick,
    /// A chick in its first week, not of quail.
    ChickNew,
    /// A chick of two or three weeks.
    ChickSmall,
    /// A chick of four to six weeks.
    ChickBig,
}

impl BuildOf {
    /// Its name in protocol and findings files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::LightHen => "light_hen",
            Self::HeavyHen => "heavy_hen",
            Self::LightCock => "light_cock",
            Self::HeavyCock => "heavy_cock",
            Self::TinyBantam => "tiny_bantam",
            Self::LargeBantam => "bantam",
            Self::SmallDuck => "small_duck",
            Self::FarmDuck => "farm_duck",
            Self::MuscovyDuck => "muscovy_duck",
            Self::MuscovyDrake => "muscovy_drake",
            Self::LightGoose => "light_goose",
            Self::MiddleGoose => "middle_goose",
            Self::HeavyGoose => "heavy_goose",
            Self::TurkeyHen => "turkey_hen",
            Self::TurkeyStag => "turkey_stag",
            Self::SmallQuail => "small_quail",
            Self::LargeQuail => "large_quail",
            Self::QuailChick => "quail_chick",
            Self::ChickNew => "chick_new",
            Self::ChickSmall => "chick_small",
            Self::ChickBig => "chick_big",
        }
    }
}

/// A build within a kind, told by eye: what a bird weighs without a scale. What it is called stands in `reckon::kinds`.
#[derive(Clone, Copy, Debug)]
pub struct Build {
    /// Which it is.
    pub of: BuildOf,
    /// The kinds that have it.
    pub kinds: &'static [Kind],
    /// What such a bird weighs. Unit: grams.
    pub weight: Band<Grams>,
    /// A chick's weeks of life, from 1, first and last; none where the build does not tell them.
    pub weeks: Option<(u8, u8)>,
}

impl Build {
    /// Its name in protocol and findings files.
    pub const fn id(&self) -> &'static str {
        self.of.id()
    }

    /// The build whose name this is, if there is one.
    pub fn from_id(id: &str) -> Option<&'static Self> {
        BUILDS.iter().find(|build| build.id() == id)
    }
}

const fn build(of: BuildOf, kinds: &'static [Kind], low: u32, high: u32) -> Build {
    Build { of, kinds, weight: Band { low: Grams(low), high: Grams(high) }, weeks: None }
}

const fn chick(of: BuildOf, weeks: (u8, u8), low: u32, high: u32) -> Build {
    Build { weeks: Some(weeks), ..build(of, &[Kind::Chick], low, high) }
}

/// The builds, by kind and, where it tells, by sex.
///
/// Second-hand unless marked: light hens 1.8-2.7 kg, heavy ones 2.7-5.9 (aglifemedia.com); cocks about a quarter more
/// (htfbw.com); ducks: call and runner (memory, British Waterfowl Association), farm ducks 2.7-5.4, Muscovy ducks 2.7-5 and
/// drakes 4.6-8 (goldcoastchooks.com and others); geese 2.5-6.4, 6.4-9.5 and above (Poultry Hub, read); turkey hens 2.5-7.2,
/// stags 5-20 (encyclopaedia text; the heaviest from memory); quail: Japanese 0.10-0.16 (tamilnadufarms.com; Wilson et al.,
/// California Agriculture, read), bobwhite and jumbo to 0.45 (biologyinsights.com). Chicks: quail from memory; others from the
/// means of the R data set `ChickWeight` (read: 41 g at hatching, 219 g at three weeks) to fast meat birds (memory).
pub const BUILDS: &[Build] = &[
    build(BuildOf::LightHen, &[Kind::Hen], 1600, 2700),
    build(BuildOf::HeavyHen, &[Kind::Hen], 2700, 5900),
    build(BuildOf::LightCock, &[Kind::Cock], 2000, 3400),
    build(BuildOf::HeavyCock, &[Kind::Cock], 3400, 5900),
    build(BuildOf::TinyBantam, &[Kind::Bantam], 500, 700),
    build(BuildOf::LargeBantam, &[Kind::Bantam], 700, 1100),
    build(BuildOf::SmallDuck, &[Kind::Duck], 600, 2300),
    build(BuildOf::FarmDuck, &[Kind::Duck], 2300, 5400),
    build(BuildOf::MuscovyDuck, &[Kind::Duck], 2700, 5000),
    build(BuildOf::MuscovyDrake, &[Kind::Duck], 4600, 8000),
    build(BuildOf::LightGoose, &[Kind::Goose], 2500, 6400),
    build(BuildOf::MiddleGoose, &[Kind::Goose], 6400, 9500),
    build(BuildOf::HeavyGoose, &[Kind::Goose], 9500, 12_000),
    build(BuildOf::TurkeyHen, &[Kind::Turkey], 2500, 7200),
    build(BuildOf::TurkeyStag, &[Kind::Turkey], 5000, 20_000),
    build(BuildOf::SmallQuail, &[Kind::Quail], 100, 160),
    build(BuildOf::LargeQuail, &[Kind::Quail], 130, 450),
    build(BuildOf::QuailChick, &[Kind::Chick], 6, 100),
    chick(BuildOf::ChickNew, (1, 1), 30, 200),
    chick(BuildOf::ChickSmall, (2, 3), 60, 1000),
    chick(BuildOf::ChickBig, (4, 6), 150, 3000),
];
