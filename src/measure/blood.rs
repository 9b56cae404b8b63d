//! Blood: how much a bird has, how much was spilt, and the share that is gone.

use crate::bird::Kind;
use crate::finding::figure::{Floor, Fullness, Pad, Spilt};
use crate::unit::{Band, Grams, Microlitres, Micrometres, Permille, Round, quotient};

/// Blood by weight. Unit: microlitres a gram, which is millilitres a kilogram.
///
/// A chick may be of any week: 92 falls to a hen's share by some weeks. Hens, cocks and chicks rest on figures read: 66 mL/kg in White Leghorn cocks (Proc Soc Exp Biol Med 108:242-244, 1961),
/// 92 in eight-day chicks (Glomski and Pica 2011). The bands, and every other kind, are a proposal of ours from published
/// values of 5 to 9 in chickens and 4 to 12 in birds at large; no value was found for duck, goose, turkey or quail.
pub const fn per_gram(kind: Option<Kind>) -> Band<u64> {
    let (low, high) = match kind {
        Some(Kind::Hen) => (55, 75),
        Some(Kind::Turkey | Kind::GuineaFowl) => (55, 80),
        Some(Kind::Cock | Kind::Bantam) => (60, 85),
        Some(Kind::Duck | Kind::Goose) => (65, 110),
        Some(Kind::Quail) => (60, 90),
        Some(Kind::Chick) | None => (55, 120),
    };
    Band { low, high }
}

/// The middle of the same, for a second reading that decides nothing. Unit: microlitres a gram.
pub const fn middle(kind: Option<Kind>) -> u64 {
    match kind {
        Some(Kind::Hen | Kind::Turkey | Kind::GuineaFowl) => 65,
        Some(Kind::Cock) => 66,
        Some(Kind::Bantam | Kind::Quail) => 70,
        Some(Kind::Chick) => 92,
        Some(Kind::Duck | Kind::Goose) => 90,
        None => 75,
    }
}

/// The share of packed cells once so much blood was lost and its room filled again with fluid: cells x (1 - share lost).
/// Unit: hundredths of the blood, in tenths. For a vet: below 20 in 100 blood is given (`LafeberVet`, read).
pub fn cells_after(cells_tenths: u32, lost: Band<Permille>) -> Band<u32> {
    let left = |lost: Permille| cells_tenths * (1000 - lost.0.min(1000));
    Band { low: left(lost.high) / 1000, high: left(lost.low).div_ceil(1000) }
}

/// What a frail bird has at least of the blood of a sound one. Unit: hundredths.
pub const FRAIL_HUNDREDTHS: u64 = 85;

/// A kitchen scale is read to within this.
pub const SCALE: Grams = Grams(1);

/// Microlitres a gram of blood, as fractions: 1 g is 1 mL (ratio 0.994 to 1.06, see [`Spilt::volume`]).
pub const OF_A_GRAM: Band<[u64; 2]> = Band { low: [100_000, 106], high: [1_000_000, 994] };

/// All the blood of a bird. Low end: the lightest bird with the least blood; a sick, old or fat one may have 15 in 100 less
/// (University of Michigan guideline on taking blood, read).
pub fn volume(kind: Option<Kind>, weight: Band<Grams>, frail: bool) -> Band<Microlitres> {
    let per = per_gram(kind);
    let part = if frail { FRAIL_HUNDREDTHS } else { 100 };
    Band {
        low: Microlitres(u64::from(weight.low.0) * per.low * part / 100),
        high: Microlitres(u64::from(weight.high.0) * per.high),
    }
}

impl Pad {
    /// What it holds when it is full.
    ///
    /// A thin pad of 10 cm 10 +- 2 mL and a small one of 5 cm 3.25 +- 1.25 (Hughes et al. 2007, second-hand); a thick one of
    /// 10 cm 60 (Bose et al. 2006, from memory); a cloth of 30 cm 61 (second-hand) or 100, a towel of 45 cm 160 (Ali Algadiem
    /// et al. 2016, from memory) or 350 (Bose et al. 2006, read).
    pub const fn full(self) -> Band<Microlitres> {
        let (low, high) = match self {
            Self::Thin10 => (8_000, 12_000),
            Self::Small5 => (2_000, 4_500),
            Self::Thick10 => (60_000, 60_000),
            Self::Any10 => (8_000, 60_000),
            Self::Cloth30 => (61_000, 100_000),
            Self::Cloth45 => (160_000, 350_000),
        };
        Band { low: Microlitres(low), high: Microlitres(high) }
    }
}

impl Fullness {
    /// The share of a full pad, in hundredths. The shares are ours; that a dripping one holds a quarter more is read
    /// (Ali Algadiem et al. 2016).
    pub const fn hundredths(self) -> Band<u64> {
        let (low, high) = match self {
            Self::Spotted => (5, 35),
            Self::Half => (35, 70),
            Self::Full => (70, 100),
            Self::Dripping => (100, 125),
        };
        Band { low, high }
    }
}

impl Floor {
    /// How deep the blood stands or soaks in: 0.943 mm on PVC (Kreutziger et al. 2014, read) to 2.55 on a ward floor (Bose et
    /// al. 2006, read); 13 mm in soil (Kreutziger et al. 2014, read).
    pub const fn depth(self) -> Band<Micrometres> {
        let (low, high) = match self {
            Self::Smooth => (943, 2_550),
            Self::Soil => (13_000, 13_000),
        };
        Band { low: Micrometres(low), high: Micrometres(high) }
    }
}

impl Spilt {
    /// How much blood that is.
    ///
    /// A drop 0.02 to 0.05 mL (pharmacy and forensic pages, second-hand), 0.1 by a lay leaflet on bleeding (read): all of it. Weighed, 1 g is 1 mL (J Vet Med 2015, 152730, read: ratio 0.994; others 1.06),
    /// and a kitchen scale is read to within a gram.
    pub fn volume(self) -> Band<Microlitres> {
        match self {
            Self::Drops(count) => drops(u64::from(count)),
            Self::Pads(count, pad, fullness) => {
                let (full, share) = (pad.full(), fullness.hundredths());
                let of = |full: u64, share: u64| u64::from(count).saturating_mul(full).saturating_mul(share) / 100;
                band(of(full.low.0, share.low), of(full.high.0, share.high))
            }
            Self::Weighed { wet, dry } => {
                let grams = u64::from(wet.0.saturating_sub(dry.0));
                let (read, Band { low: [part, of], high: [most, least] }) = (u64::from(SCALE.0), OF_A_GRAM);
                band(grams.saturating_sub(read) * part / of, ((grams + read) * most).div_ceil(least))
            }
            Self::Pool { width, floor } => {
                let depth = floor.depth();
                band(disc(width, depth.low, Round::Down), disc(width, depth.high, Round::Up))
            }
            Self::Amount(amount) => Band::exactly(amount),
            Self::Between(low, high) => Band { low: low.min(high), high: low.max(high) },
            Self::Dripping { drops: count, seconds, minutes } => {
                let of = |round| quotient(u128::from(count) * u128::from(minutes) * 60, u128::from(seconds), round);
                Band { low: drops(of(Round::Down)).low, high: drops(of(Round::Up)).high }
            }
        }
    }
}

/// Drops of 0.02 to 0.1 mL.
const fn drops(count: u64) -> Band<Microlitres> {
    band(count.saturating_mul(20), count.saturating_mul(100))
}

const fn band(low: u64, high: u64) -> Band<Microlitres> {
    Band { low: Microlitres(low), high: Microlitres(high) }
}

/// A disc of blood in microlitres (cubic millimetres): pi/4 d^2 h, in whole numbers with pi held to nine digits.
fn disc(width: Micrometres, depth: Micrometres, round: Round) -> u64 {
    let square = u128::from(width.0) * u128::from(width.0) * u128::from(depth.0) * 785_398_163;
    // Cubic micrometres and the nine digits of pi/4: down to cubic millimetres.
    quotient(square, 1_000_000_000_000_000_000, round)
}

/// Everything spilt, added up.
pub fn spilt(seen: &[Spilt]) -> Band<Microlitres> {
    seen.iter()
        .map(|one| one.volume())
        .fold(band(0, 0), |sum, one| band(sum.low.0.saturating_add(one.low.0), sum.high.0.saturating_add(one.high.0)))
}

/// The share of her blood that is gone, in thousandths: the least lost of the most blood, the most lost of the least.
/// The high end decides.
pub fn share(lost: Band<Microlitres>, all: Band<Microlitres>) -> Band<Permille> {
    let of = |part: u64, whole: u64, round| {
        let share = quotient(u128::from(part) * 1000, u128::from(whole), round);
        Permille(u32::try_from(share.min(1000)).unwrap_or(1000))
    };
    Band { low: of(lost.low.0, all.high.0, Round::Down), high: of(lost.high.0, all.low.0, Round::Up) }
}

/// The blood lost against the bird's weight, in thousandths: 1 g of blood is taken as 1 mL. The high end decides.
pub fn share_of_weight(lost: Band<Microlitres>, weight: Band<Grams>) -> Band<Permille> {
    share(
        lost,
        Band { low: Microlitres(u64::from(weight.low.0) * 1000), high: Microlitres(u64::from(weight.high.0) * 1000) },
    )
}

/// The line a loss has crossed. Up to a tenth of the blood is a safe blood sample; a fast loss of 20 to 25 in 100 can kill
/// (Veterinary Medicine, stabilising companion birds, read); 30 was borne by healthy quail; half of mallards died at 60
/// (Lichtenberger et al. 2009, read). Against weight, 0.6 and 1 in 100 are worked out by us from a lay leaflet's 6 to 11 mL a
/// 100 g and its tenth. None is published for hens; whichever line is crossed first counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Line {
    /// No line.
    Little,
    /// 0.6 in 100 of the weight.
    SixThousandths,
    /// A tenth of the blood.
    Tenth,
    /// 1 in 100 of the weight.
    Hundredth,
    /// A fifth of the blood.
    Fifth,
    /// Three tenths of the blood.
    ThreeTenths,
    /// Half of the blood.
    Half,
}

impl Line {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Little => "little",
            Self::SixThousandths => "six_thousandths_of_weight",
            Self::Tenth => "tenth_of_blood",
            Self::Hundredth => "hundredth_of_weight",
            Self::Fifth => "fifth_of_blood",
            Self::ThreeTenths => "three_tenths_of_blood",
            Self::Half => "half_of_blood",
        }
    }

    /// The gravest line crossed by a share of the blood and of the weight.
    pub const fn of(blood: Permille, weight: Permille) -> Self {
        match (blood.0, weight.0) {
            (500.., _) => Self::Half,
            (300.., _) => Self::ThreeTenths,
            (200.., _) => Self::Fifth,
            (_, 10..) => Self::Hundredth,
            (100.., _) => Self::Tenth,
            (_, 6..) => Self::SixThousandths,
            _ => Self::Little,
        }
    }
}
