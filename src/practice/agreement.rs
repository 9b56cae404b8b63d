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
