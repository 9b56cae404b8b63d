//! Warmth: how warm the air should be for a bird that is ill, chilled, hot, hurt on the head, or still a chick.

use crate::unit::{Band, TenthsOfDegree};

/// What decides the warmth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Ill, hurt or in shock.
    Ill,
    /// Soaked or cold to the touch.
    Chilled,
    /// Hurt on the head: no extra heat.
    HeadHurt,
    /// Hot or panting: no heat, shade and air.
    Hot,
    /// A chick in these weeks of life, from 1, first and last; every week under heat, where nobody knows.
    Chick(Option<(u8, u8)>),
}

/// The weeks a chick is under heat.
const UNDER_HEAT: (u8, u8) = (1, 6);

/// The air for it, on the warm side; there is always a cooler side. Nothing where no heat may be given. Tenths of a degree.
///
/// Sick birds 26 to 32 degrees (`LafeberVet`, read); ours is the overlap of the sources, 27 to 30, for a carer who cannot watch
/// all the time. A chilled bird may have up to 32 while someone stays with it. Chicks 35 degrees in the first week and 2.8 less each
/// week, not below 21 (rearing texts, second-hand). Hens are past their comfort from about 24 (read), so a bird that pants
/// gets none; neither does a hurt head (Merck Veterinary Manual, read).
pub fn air(state: State) -> Option<Band<TenthsOfDegree>> {
    let band = |low, high| Some(Band { low: TenthsOfDegree(low), high: TenthsOfDegree(high) });
    match state {
        State::Ill => band(270, 300),
        State::Chilled => band(270, 320),
        State::HeadHurt | State::Hot => None,
        State::Chick(weeks) => {
            let (first, last) = weeks.unwrap_or(UNDER_HEAT);
            band((brooder(last).0 - 10).max(ROOM.0), brooder(first).0)
        }
    }
}

/// How damp the air should be, in hundredths: 40 to 50 for chilled young (Duerr and Gage, herons, read), about 70 in hospital
/// cages (Quesenberry and Hillyer, from memory). The hull of both; a dry room is drier than either.
pub const DAMP: Band<u32> = Band { low: 40, high: 70 };

/// The most the air is lowered in a day, in tenths of a degree: 3 degrees (pet birds, second-hand).
pub const STEP_DOWN: TenthsOfDegree = TenthsOfDegree(30);
/// Where stepping down ends, in tenths of a degree: room warmth for herons 21 to 24 (Duerr and Gage, read).
pub const ROOM: TenthsOfDegree = TenthsOfDegree(210);

/// The warm side day by day once she eats and stands: down by [`STEP_DOWN`] a day to [`ROOM`]. Begins with the day after.
pub fn step_down(from: TenthsOfDegree) -> Vec<TenthsOfDegree> {
    let steps = (1..).map(|day| TenthsOfDegree(from.0.saturating_sub(STEP_DOWN.0 * day)));
    let above = steps.take_while(|warm| warm.0 > ROOM.0);
    if from.0 > ROOM.0 { above.chain([ROOM]).collect() } else { Vec::new() }
}

/// The warm side of a brooder in this week of life, from 1: 35 - 2.8 x (week - 1), not below 21. Tenths of a degree.
pub fn brooder(week: u8) -> TenthsOfDegree {
    TenthsOfDegree((350 - 28 * (i32::from(week.max(1)) - 1)).max(210))
}
