//! Fluids: what a dry bird lacks and needs in a day, by both published plans. For a vet or a trained hand only.

use crate::unit::{Grams, Microlitres, Permille};

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

#[cfg(test)]
mod tests {
    use super::*;

    /// Hen of 2000 g, 8 % dry (arithmetic from both sources): lacks 160 mL; 180 and 180, or 256 and 96.
    #[test]
    fn the_worked_hen() {
        let (hen, dry) = (Grams(2000), Permille(80));
        assert_eq!(deficit(hen, dry), Microlitres(160_000));
        let day =
            |first: u64, second: u64| DayPlan { first: Microlitres(first * 1000), second: Microlitres(second * 1000) };
        assert_eq!(plans(hen, dry), [day(180, 180), day(256, 96)]);
    }
}
