//! Fluids: what a dry bird lacks and needs in a day, by both published plans. For a vet or a trained hand only.

use crate::unit::{Band, Grams, Microlitres, Permille};

/// What is lacking: weight times the share that is dry (Exotic Animal Formulary, 5th edition, Table 5-36, read).
pub fn deficit(weight: Grams, dry: Permille) -> Microlitres {
    Microlitres(u64::from(weight.0) * u64::from(dry.0))
}

/// One published way of giving it back.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DayPlan {
    /// The first day.
    pub first: Microlitres,
    /// The second day.
    pub second: Microlitres,
}

/// Both published plans side by side; they disagree, and both are shown.
///
/// The formulary (Table 5-36, read): 50 mL/kg a day, and half of what is lacking on each of two days. `LafeberVet` (read):
/// 48 mL/kg a day, and all that is lacking on the first.
pub fn plans(weight: Grams, dry: Permille) -> [DayPlan; 2] {
    let (lacks, grams) = (deficit(weight, dry).0, u64::from(weight.0));
    let formulary =
        DayPlan { first: Microlitres(grams * 50 + lacks / 2), second: Microlitres(grams * 50 + (lacks - lacks / 2)) };
    let lafeber = DayPlan { first: Microlitres(grams * 48 + lacks), second: Microlitres(grams * 48) };
    [formulary, lafeber]
}

/// Why nothing may go by mouth. Cold, limp, gut blocked: read (Duerr and Gage); the others common practice, no source. A bird
/// has no lid on its windpipe, so what is put into the beak can run into the lungs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unsafe {
    /// Cold: the gut stands still; warm first.
    Cold,
    /// Limp or not responding.
    Limp,
    /// Fitting.
    Fitting,
    /// Short of breath.
    Breathless,
    /// Cannot hold her head up or swallow.
    HeadDown,
    /// Crop full, or it comes up again.
    CropFull,
    /// Hurt on head, neck or crop.
    NeckHurt,
    /// Lies on her side.
    OnHerSide,
}

impl Unsafe {
    /// Each with its name.
    pub const ALL: [(&str, Self); 8] = [
        ("cold", Self::Cold),
        ("limp", Self::Limp),
        ("fit", Self::Fitting),
        ("breath", Self::Breathless),
        ("head", Self::HeadDown),
        ("crop", Self::CropFull),
        ("neck", Self::NeckHurt),
        ("side", Self::OnHerSide),
    ];
}

/// What a trained hand gives at one time by tube. Unit: microlitres.
///
/// First 10 to 20 mL/kg, the low end of the sources (10-25 Duerr and Gage, 17-25 `LafeberVet`, read), which also suits ducks and
/// geese without a true crop (our proposal); never above 50 mL/kg, what a crop holds (`LafeberVet`, read).
pub fn first_dose(weight: Grams) -> Band<Microlitres> {
    let grams = u64::from(weight.0);
    Band { low: Microlitres(grams * 10), high: Microlitres(grams * 20) }
}

/// Above this nothing is given at one time: 50 mL/kg (`LafeberVet`, read); 20 in ducks and geese, which have no true crop (our
/// proposal). Unit: microlitres.
pub fn ceiling(weight: Grams, water_fowl: bool) -> Microlitres {
    Microlitres(u64::from(weight.0) * if water_fowl { 20 } else { 50 })
}
