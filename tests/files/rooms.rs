//! What rooms that touch the disk decide by themselves.

mod ledger;
