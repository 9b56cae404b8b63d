//! Draws what a sitting comes to: one file a pane, areas by the size of the screen, styles by meaning.

#[expect(missing_docs, reason = "the areas are named as the panes are")]
pub mod areas;
pub mod draw;
pub mod pane;
pub mod theme;
pub mod wrap;

pub use draw::draw;
pub use theme::Theme;
