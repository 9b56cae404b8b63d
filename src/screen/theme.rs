//! Styles by meaning, declared once; words and marks carry the meaning, colour only helps the eye.
//!
//! Only colours that stand out on a light and on a dark ground are used: no yellow, no white, no blue.

use crate::judge::Level;
use crate::protocol::scale::Need;
use ratatui::style::{Color, Modifier, Style};

/// How the screen looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// Whether colours may be used.
    pub colour: bool,
}

impl Theme {
    fn tint(self, colour: Color, modifier: Modifier) -> Style {
        let style = Style::new().add_modifier(modifier);
        if self.colour { style.fg(colour) } else { style }
    }

    /// Plain text.
    pub fn plain(self) -> Style {
        Style::new()
    }

    /// What is being asked.
    pub fn question(self) -> Style {
        Style::new().add_modifier(Modifier::BOLD)
    }

    /// A heading.
    pub fn heading(self) -> Style {
        self.tint(Color::Cyan, Modifier::BOLD)
    }

    /// What helps but can be passed over: the terminal's own text colour, which is readable on light and dark alike.
    pub fn aside(self) -> Style {
        self.plain()
    }

    /// What must be done now.
    pub fn urgent(self) -> Style {
        self.tint(Color::Red, Modifier::BOLD)
    }

    /// What must never be done.
    pub fn never(self) -> Style {
        self.tint(Color::Red, Modifier::BOLD)
    }

    /// The row the cursor stands on.
    pub fn focus(self) -> Style {
        Style::new().add_modifier(Modifier::REVERSED)
    }

    /// The colour of blood in a picture; words beside it say the same.
    pub fn blood(self) -> Color {
        if self.colour { Color::Red } else { self.ink() }
    }

    /// The colour of what else is drawn: the terminal's own.
    pub const fn ink(self) -> Color {
        Color::Reset
    }

    /// A frame or rule.
    pub fn frame(self) -> Style {
        self.plain()
    }

    /// The style of a need, as far as it is settled. What may still turn out grave is not drawn in the colour of calm.
    pub fn need(self, need: Level<Need>) -> Style {
        match need.low {
            Need::Home if need.low != need.high => self.question(),
            Need::None => self.plain(),
            Need::Home => self.tint(Color::Green, Modifier::BOLD),
            Need::WithinADay => self.tint(Color::Magenta, Modifier::BOLD),
            Need::WithinHours | Need::Now => self.urgent(),
        }
    }
}

/// The mark of a need: as many strokes as rungs, readable without colour.
pub fn need_mark(need: Level<Need>) -> &'static str {
    match need.low {
        Need::Home if need.low != need.high => "?",
        Need::None => "-",
        Need::Home => "+",
        Need::WithinADay => "!",
        Need::WithinHours => "!!",
        Need::Now => "!!!",
    }
}
