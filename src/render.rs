//! What leaves the program: documents as text, verdicts as JSON, looks as a calendar, lines for speech, the sheet in five forms.

pub mod calendar;
pub mod json;
pub mod marks;
pub mod nodes;
pub mod sheet;
pub mod speech;
pub mod text;
