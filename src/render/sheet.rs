//! The handover sheet, the cards for her cage and the packet for a vet, written out: text, Markdown, HTML, PDF; JSON stands with
//! the other JSON.

mod markdown;
mod page;
mod pdf;
mod plain;

pub use super::json::sheet::{cards as cards_json, sheet as json};
pub use markdown::{booklet as booklet_markdown, cards as cards_markdown, markdown};
pub use page::{booklet_html, cards_html, html};
pub use pdf::{PdfError, booklet as booklet_pdf, cards as cards_pdf, pdf};
pub use plain::{booklet as booklet_text, cards as cards_text, text};
