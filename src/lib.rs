//! Coopside leads a person through a head-to-tail check of a hurt bird and judges what has to happen next.
//!
//! Data flows one way:
//!
//! ```text
//!  answers ──► findings ──► measures ──► judgement ──► plan ──► panes
//!                               ▲            ▲
//!                           bird kinds    protocol (RON, checked when built or loaded)
//! ```

pub mod bird;
pub mod care;
pub mod content;
pub mod days;
pub mod exam;
pub mod finding;
pub mod judge;
pub mod ledger;
pub mod measure;
pub mod notes;
pub mod phrase;
pub mod practice;
pub mod protocol;
pub mod prove;
pub mod reckon;
pub mod render;
pub mod screen;
pub mod session;
pub mod sheet;
pub mod shell;
pub mod shipped;
pub mod spoken;
pub mod typed;
pub mod unit;
pub mod update;
pub mod view;
pub mod words;
pub mod zone;
