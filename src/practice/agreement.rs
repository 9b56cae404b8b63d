//! How well two people, or a novice and the reference, agree: kappa, shares with their limits, and both meanings of triage
//! set too low or too high.

use statrs::distribution::{Beta, ContinuousCDF, Normal};

/// How much a disagreement by so many rungs still counts as agreement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weighing {
    /// Not at all (Cohen 1960).
    Same,
    /// In proportion to the distance (Cohen 1968, linear).
    Linear,
    /// In proportion to its square (Cohen 1968, quadratic).
    Quadratic,
}

/// A confusion table: rows are the reference, columns what was given, both from the mildest rung on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    cells: Vec<Vec<u32>>,
}

/// Agreement beyond chance, from -1 to 1, with its 95 % limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kappa {
    /// The value.
    pub value: f64,
    /// Its standard error (Fleiss, Cohen and Everitt 1969).
    pub error: f64,
}

impl Kappa {
    /// The 95 % limits: the value and 1.96 standard errors to each side, within -1 and 1.
    pub fn limits(self) -> (f64, f64) {
        let reach = z() * self.error;
        ((self.value - reach).max(-1.0), (self.value + reach).min(1.0))
    }
}

impl Table {
    /// An empty table of so many rungs.
    pub fn new(rungs: usize) -> Self {
        Self { cells: vec![vec![0; rungs]; rungs] }
    }

    /// A table of counts; none where it is not square.
    pub fn of(cells: Vec<Vec<u32>>) -> Option<Self> {
        cells.iter().all(|row| row.len() == cells.len()).then_some(Self { cells })
    }

    /// Counts one more: the reference's rung and the one given, from 0. What stands outside the table is not counted.
    pub fn add(&mut self, reference: usize, given: usize) {
        if let Some(cell) = self.cells.get_mut(reference).and_then(|row| row.get_mut(given)) {
            *cell += 1;
        }
    }

    /// The counts, row by row.
    pub fn rows(&self) -> impl Iterator<Item = &[u32]> {
        self.cells.iter().map(Vec::as_slice)
    }

    /// How many were counted.
    pub fn count(&self) -> u32 {
        self.cells.iter().flatten().sum()
    }

    /// How many were the same.
    pub fn same(&self) -> u32 {
        self.cells.iter().enumerate().filter_map(|(at, row)| row.get(at)).sum()
    }

    /// Kappa with the standard error of Fleiss, Cohen and Everitt 1969; none where nothing was counted, or where both only
    /// ever said one and the same thing: then chance alone explains it all.
    pub fn kappa(&self, weighing: Weighing) -> Option<Kappa> {
        let count = f64::from(self.count());
        let rungs = self.cells.len();
        let share = |n: u32| f64::from(n) / count;
        let row = |at: usize| self.cells.get(at).map_or(0.0, |row| row.iter().copied().map(share).sum());
        let column = |at: usize| self.cells.iter().filter_map(|row| row.get(at)).copied().map(share).sum::<f64>();
        let (rows, columns): (Vec<f64>, Vec<f64>) = (0..rungs).map(|at| (row(at), column(at))).unzip();
        let weight = |one: usize, other: usize| weight(weighing, one, other, rungs);
        let over = |sum: &dyn Fn(usize, usize) -> f64| {
            (0..rungs).flat_map(|i| (0..rungs).map(move |j| (i, j))).map(|(i, j)| sum(i, j)).sum::<f64>()
        };
        let at = |of: &[f64], i: usize| of.get(i).copied().unwrap_or_default();
        let cell = |i: usize, j: usize| self.cells.get(i).and_then(|row| row.get(j)).copied().map_or(0.0, share);
        let seen = over(&|i, j| weight(i, j) * cell(i, j));
        let chance = over(&|i, j| weight(i, j) * at(&rows, i) * at(&columns, j));
        if count == 0.0 || (1.0 - chance).abs() < f64::EPSILON {
            return None;
        }
        let value = (seen - chance) / (1.0 - chance);
        let mean_row = |i: usize| (0..rungs).map(|j| at(&columns, j) * weight(i, j)).sum::<f64>();
        let mean_column = |j: usize| (0..rungs).map(|i| at(&rows, i) * weight(i, j)).sum::<f64>();
        let spread = over(&|i, j| cell(i, j) * (weight(i, j) - (mean_row(i) + mean_column(j)) * (1.0 - value)).powi(2));
        let variance = (spread - (value - chance * (1.0 - value)).powi(2)) / (count * (1.0 - chance).powi(2));
        Some(Kappa { value, error: variance.max(0.0).sqrt() })
    }
}

fn weight(weighing: Weighing, one: usize, other: usize, rungs: usize) -> f64 {
    let small = |n: usize| f64::from(u32::try_from(n).unwrap_or(u32::MAX));
    let apart = small(one.abs_diff(other)) / small(rungs.saturating_sub(1).max(1));
    match weighing {
        Weighing::Same => f64::from(u8::from(one == other)),
        Weighing::Linear => 1.0 - apart,
        Weighing::Quadratic => 1.0 - apart * apart,
    }
}

/// So many of so many, with limits that hold for small counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    /// How many.
    pub hits: u32,
    /// Of how many.
    pub of: u32,
}

impl Share {
    /// The share, from 0 to 1; none of nothing.
    pub fn value(self) -> Option<f64> {
        (self.of > 0).then(|| f64::from(self.hits) / f64::from(self.of))
    }

    /// The 95 % limits of Wilson 1927; all of it where nothing was counted.
    pub fn wilson(self) -> (f64, f64) {
        let Some(share) = self.value() else { return (0.0, 1.0) };
        let (z, n) = (z(), f64::from(self.of));
        let scale = 1.0 + z * z / n;
        let centre = (share + z * z / (2.0 * n)) / scale;
        let reach = z / scale * (share * (1.0 - share) / n + z * z / (4.0 * n * n)).sqrt();
        let low = if self.hits == 0 { 0.0 } else { centre - reach };
        let high = if self.hits == self.of { 1.0 } else { centre + reach };
        (low.max(0.0), high.min(1.0))
    }

    /// The exact two-sided 95 % limits of Clopper and Pearson 1934; all of it where nothing was counted.
    pub fn exact(self) -> (f64, f64) {
        (self.exact_low(0.025), self.exact_high(0.025))
    }

    /// The exact one-sided 95 % upper limit: what the true share may still be.
    pub fn at_most(self) -> f64 {
        self.exact_high(0.05)
    }

    fn exact_low(self, tail: f64) -> f64 {
        if self.hits == 0 {
            return 0.0;
        }
        let beta = Beta::new(f64::from(self.hits), f64::from(self.of.saturating_sub(self.hits)) + 1.0);
        beta.map_or(0.0, |beta| beta.inverse_cdf(tail))
    }

    fn exact_high(self, tail: f64) -> f64 {
        if self.hits >= self.of {
            return 1.0;
        }
        let beta = Beta::new(f64::from(self.hits) + 1.0, f64::from(self.of - self.hits));
        beta.map_or(1.0, |beta| beta.inverse_cdf(1.0 - tail))
    }
}

/// The two-sided 95 % point of the normal curve.
fn z() -> f64 {
    Normal::standard().inverse_cdf(0.975)
}

/// Urgent or not, as it was and as it was given: both published meanings of a triage set too low or too high.
///
/// One divides the missed by all that were urgent (one minus the sensitivity); the other, of the trauma handbooks' matrix,
/// divides them by all that were sent away as not urgent. Neither is wrong; papers differ, so both are told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Triage {
    /// Urgent, and given as urgent.
    pub found: u32,
    /// Not urgent, but given as urgent.
    pub over: u32,
    /// Urgent, but given as not.
    pub missed: u32,
    /// Not urgent, and given as not.
    pub spared: u32,
}

impl Triage {
    /// Of the urgent, how many were found.
    pub fn sensitivity(self) -> Share {
        Share { hits: self.found, of: self.found + self.missed }
    }

    /// Of those that were not urgent, how many were left alone.
    pub fn specificity(self) -> Share {
        Share { hits: self.spared, of: self.spared + self.over }
    }

    /// Too low: of the urgent, how many were missed.
    pub fn too_low_of_urgent(self) -> Share {
        Share { hits: self.missed, of: self.found + self.missed }
    }

    /// Too low: of those given as not urgent, how many were.
    pub fn too_low_of_given(self) -> Share {
        Share { hits: self.missed, of: self.missed + self.spared }
    }

    /// Too high: of those not urgent, how many were given as urgent.
    pub fn too_high_of_mild(self) -> Share {
        Share { hits: self.over, of: self.over + self.spared }
    }

    /// Too high: of those given as urgent, how many were not.
    pub fn too_high_of_given(self) -> Share {
        Share { hits: self.over, of: self.found + self.over }
    }
}

/// Counts pairs of (urgent by the reference, given as urgent).
pub fn triage(pairs: impl IntoIterator<Item = (bool, bool)>) -> Triage {
    let mut triage = Triage { found: 0, over: 0, missed: 0, spared: 0 };
    for pair in pairs {
        *match pair {
            (true, true) => &mut triage.found,
            (false, true) => &mut triage.over,
            (true, false) => &mut triage.missed,
            (false, false) => &mut triage.spared,
        } += 1;
    }
    triage
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: f64, want: f64, within: f64) {
        assert!((got - want).abs() < within, "{got} is not {want}");
    }

    fn table<const N: usize>(cells: [[u32; N]; N]) -> Table {
        Table { cells: cells.iter().map(|row| row.to_vec()).collect() }
    }

    #[track_caller]
    fn kappa(table: &Table, weighing: Weighing) -> Kappa {
        table.kappa(weighing).unwrap_or(Kappa { value: f64::NAN, error: f64::NAN })
    }

    /// The worked example of `cohens_kappa` in the tests of statsmodels 0.15.0 (`test_inter_rater.py`), which gives the output
    /// of a commercial statistics package.
    #[test]
    fn the_worked_table_of_statsmodels_comes_out() {
        let table = table([[0, 4, 1], [0, 8, 0], [0, 1, 5]]);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.4842, 5e-5);
        close(plain.error, 0.1380, 5e-5);
        let (low, high) = plain.limits();
        close(low, 0.2137, 1e-4);
        close(high, 0.7547, 1e-4);
        let linear = kappa(&table, Weighing::Linear);
        close(linear.value, 0.4701, 5e-5);
        close(linear.error, 0.1457, 5e-5);
        let (low, high) = linear.limits();
        close(low, 0.1845, 1e-4);
        close(high, 0.7558, 1e-4);
    }

    /// The data set `SexualFun` of the R package vcd (Agresti 1990, after Hout and others 1987); kappas from memory of the
    /// published example, recomputed.
    #[test]
    fn the_table_of_91_couples_comes_out() {
        let table = table([[7, 7, 2, 3], [2, 8, 3, 7], [1, 5, 4, 9], [2, 8, 9, 14]]);
        assert_eq!(table.count(), 91);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.12933, 5e-6);
        close(plain.error, 0.0686, 5e-5);
        let linear = kappa(&table, Weighing::Linear);
        close(linear.value, 0.23738, 5e-6);
        close(linear.error, 0.0783, 5e-5);
        let quadratic = kappa(&table, Weighing::Quadratic);
        close(quadratic.value, 0.33205, 5e-6);
        close(quadratic.error, 0.097, 5e-4);
    }

    /// The classroom table 20/5, 10/15 (textbook; from memory): 0.70 seen, 0.50 by chance.
    #[test]
    fn the_classroom_table_comes_out() {
        let table = table([[20, 5], [10, 15]]);
        let plain = kappa(&table, Weighing::Same);
        close(plain.value, 0.4, 1e-9);
        close(plain.error, 0.127, 5e-4);
        // With two rungs there is but one distance: all weights agree.
        close(kappa(&table, Weighing::Quadratic).value, 0.4, 1e-9);
        assert_eq!(table.same(), 35);
    }

    #[test]
    fn nothing_counted_and_only_one_thing_said_have_no_kappa() {
        assert_eq!(Table::new(5).kappa(Weighing::Linear), None);
        let mut one = Table::new(5);
        one.add(4, 4);
        one.add(9, 0);
        assert_eq!((one.count(), one.kappa(Weighing::Same)), (1, None));
    }

    /// Newcombe 1998, Statistics in Medicine 17:857-872, table I: 81 of 263, 15 of 148, 0 of 20, 1 of 29; methods 3 (Wilson)
    /// and 5 (Clopper-Pearson). From memory, and each limit recomputed.
    #[test]
    fn the_limits_of_newcombe_come_out() {
        let rows = [
            (81, 263, (0.2553, 0.3662), (0.2527, 0.3676)),
            (15, 148, (0.0624, 0.1605), (0.0578, 0.1617)),
            (0, 20, (0.0, 0.1611), (0.0, 0.1684)),
            (1, 29, (0.0061, 0.1718), (0.0009, 0.1776)),
        ];
        for (hits, of, wilson, exact) in rows {
            let share = Share { hits, of };
            close(share.wilson().0, wilson.0, 5e-5);
            close(share.wilson().1, wilson.1, 5e-5);
            close(share.exact().0, exact.0, 5e-5);
            close(share.exact().1, exact.1, 5e-5);
        }
    }

    /// The rule of three, exactly (common practice in statistics): 59 without a miss still allow one in twenty.
    #[test]
    fn no_miss_in_59_allows_five_in_a_hundred() {
        close(Share { hits: 0, of: 59 }.at_most(), 0.0495, 5e-4);
        close(Share { hits: 0, of: 60 }.wilson().1, 0.060, 5e-4);
        assert_eq!(Share { hits: 0, of: 0 }.wilson(), (0.0, 1.0));
    }

    /// Both definitions, as a study of graded mountain trauma teams sets them side by side (BMC Emergency Medicine); numbers
    /// of our own.
    #[test]
    fn too_low_and_too_high_have_two_meanings() {
        let triage = Triage { found: 36, over: 3, missed: 4, spared: 47 };
        let percent = |share: Share| share.value().map(|value| (value * 1000.0).round() / 10.0);
        assert_eq!(percent(triage.sensitivity()), Some(90.0));
        assert_eq!(percent(triage.too_low_of_urgent()), Some(10.0));
        assert_eq!(percent(triage.too_low_of_given()), Some(7.8));
        assert_eq!(percent(triage.too_high_of_mild()), Some(6.0));
        assert_eq!(percent(triage.too_high_of_given()), Some(7.7));
        assert_eq!(percent(triage.specificity()), Some(94.0));
    }
}
