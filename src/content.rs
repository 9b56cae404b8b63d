//! What is told, before anybody says it: verdict, plan, days, sums and sheets as headed lists. `words` says them, `render` and the panes
//! show them.

pub mod answers;
pub mod basis;
mod beside;
pub mod booklet;
pub mod chart;
pub mod compared;
pub mod condition;
pub mod days;
pub mod debrief;
pub mod differences;
pub mod document;
pub mod figures;
pub mod group;
pub mod hazards;
pub mod judgement;
pub mod kept;
pub mod kit;
pub mod label;
pub mod law;
pub mod lessons;
mod measuring;
pub mod pair;
pub mod particulars;
pub mod phone;
pub mod plan;
pub mod proven;
pub mod review;
pub mod rules;
pub mod seen;
pub mod sheet;
pub mod steps;
pub mod sum;
pub mod terms;
mod together;
pub mod unweighed;
pub mod why;
