//! What a person sees and presses: one key table, one model, a pure `update`, one file a pane.
//!
//! `update(model, input)` changes the model and returns effects for the shell to carry out; drawing reads only.

#[expect(missing_docs, reason = "the areas are named as the panes are")]
pub mod areas;
pub mod change;
mod course;
pub mod draft;
pub mod draw;
pub mod keys;
pub mod model;
pub mod overlay;
pub mod pane;
pub mod practice;
pub mod rows;
pub mod seen;
mod settings;
pub mod theme;
pub mod update;
pub mod wrap;

pub use change::Change;
pub use draw::draw;
pub use model::Model;
pub use theme::Theme;
pub use update::{Effect, Input, begin, update};
