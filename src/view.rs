//! Screens as plain data: what stands on one, in the order it is read, whoever draws or speaks it.

pub mod birds;
pub mod body;
pub mod calls;
pub mod card;
pub mod clock;
pub mod clock_line;
pub mod document;
pub mod header;
pub mod keys;
pub mod line;
pub mod meaning;
pub mod named;
pub mod practice_bird;
pub mod question;
pub mod rows;
pub mod summary;
