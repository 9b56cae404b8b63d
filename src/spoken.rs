//! A sitting line by line, for screen readers, terminals that cannot draw, and reading aloud: what stands on a screen, one thought
//! a line, only what is new; and what a typed line means.
//!
//! ```text
//!  View ──► told: every scene as lines ──► teller: what was not said yet ──► lines
//!  a typed line ──► heard: keys, a text, or a word of this mode
//! ```

pub mod heard;
mod line;
mod scene;
mod teller;
mod told;

pub use heard::{Keyed, LineMeaning, heard};
pub use line::{HowOften, SpokenLine};
pub use teller::{Teller, clocks};
pub use told::SpokenScreen;
