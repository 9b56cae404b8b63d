//! Screens as plain data: what stands on one, in the order it is read, whoever draws or speaks it.

pub mod card;
