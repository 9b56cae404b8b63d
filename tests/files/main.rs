//! The real program, its files and its terminal: commands, the ledger, kills and failing disks, sheets.

#[path = "../common/mod.rs"]
mod common;

mod command;
mod crash;
mod damage;
mod handover;
mod keeper;
mod ledger;
mod model;
mod review;
mod rooms;
mod terminal;
