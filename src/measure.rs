//! Numbers worked out from answers, one file a number; each is a band with a unit.

pub mod blood;
pub mod breath;
pub mod elapsed;
pub mod fluid;
pub mod healing;
pub mod skin;
pub mod solution;
pub mod trend;
pub mod warmth;
pub mod weight;
