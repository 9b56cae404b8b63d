//! The real program, its files and its terminal: commands, the ledger, kills and failing disks, sheets.

#[path = "../common/mod.rs"]
mod common;

mod command;
mod covers;
mod crash;
mod damage;
mod handover;
mod json;
mod keeper;
mod ledger;
mod model;
mod review;
mod rooms;
mod spoken;
mod terminal;
mod typed;

/// What the ledger answers, as it is read.
fn fault(error: &coopside::ledger::LedgerError) -> String {
    coopside::words::english(coopside::content::kept::fault(error))
}

/// Why nothing was taken in, as it is read.
fn carried(error: &coopside::ledger::CarryError) -> String {
    coopside::words::english(coopside::content::kept::carried(error))
}
