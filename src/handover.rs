//! What leaves the program in words: one document model, written as plain text or drawn by the panes; and JSON.

pub mod basis;
mod beside;
pub mod calendar;
pub mod chart;
pub mod days;
pub mod debrief;
pub mod document;
pub mod figures;
pub mod group;
pub mod json;
pub mod judgement;
pub mod kit;
pub mod label;
pub mod law;
pub mod pair;
pub mod phone;
pub mod plan;
pub mod proven;
pub mod rules;
pub mod said;
pub mod sheet;
pub mod steps;
pub mod sum;
pub mod text;
mod together;
mod unweighed;
pub mod why;
