//! Screens as plain data: what stands on one, in the order it is read, whoever draws or speaks it.

pub mod birds;
pub mod body;
pub mod calls;
pub mod card;
pub mod clock;
pub mod document;
pub mod header;
pub mod keys;
pub mod meaning;
pub mod named;
pub mod question;
pub mod rows;
pub mod summary;
