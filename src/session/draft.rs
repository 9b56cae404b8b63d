//! What is being entered with keys of its own: blood added up piece by piece, breaths tapped, a vein timed.

mod blood;
mod taps;

pub use blood::{Number, Pick, Spill, Taken};
pub use taps::{OVER, Taps, Vein};

use crate::finding::figure::{Figure, Spilt};

/// What is being entered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Draft {
    /// Blood, added up.
    Spill(Spill),
    /// Breaths, tapped.
    Taps(Taps),
    /// The wing vein, timed.
    Vein(Vein),
}

impl Draft {
    /// What it would come to if what is being sized were taken: for the summary only.
    pub fn preview(&self) -> Option<Figure> {
        match self {
            Self::Spill(spill) => {
                let sized = match spill.pick {
                    Pick::Width(floor, width) => Some(Spilt::Pool { width, floor }),
                    _ => None,
                };
                let seen: Vec<Spilt> = spill.seen.iter().copied().chain(sized).collect();
                (!seen.is_empty()).then_some(Figure::Spilt(seen))
            }
            Self::Taps(_) | Self::Vein(_) => self.figure(),
        }
    }

    /// The figure as it stands, if it stands for anything yet.
    pub fn figure(&self) -> Option<Figure> {
        match self {
            Self::Spill(spill) => (!spill.seen.is_empty()).then(|| Figure::Spilt(spill.seen.clone())),
            Self::Taps(taps) => (!taps.counts.is_empty()).then(|| Figure::Breaths(taps.counts.clone())),
            Self::Vein(vein) => vein.took.map(Figure::Refill),
        }
    }
}
