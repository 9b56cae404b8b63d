//! Any text read as notes: findings, or faults in words; and what was read is judged.

#![no_main]

use chrono::DateTime;
use coopside::judge::judge;
use coopside::notes;
use coopside::protocol::Protocol;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static PROTOCOL: LazyLock<Protocol> = LazyLock::new(|| Protocol::shipped().expect("the shipped protocol"));

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    match notes::read(&PROTOCOL, "notes", text, DateTime::UNIX_EPOCH) {
        Ok(findings) => drop(judge(&PROTOCOL, &findings, DateTime::UNIX_EPOCH)),
        Err(faults) => assert!(!faults.to_string().is_empty()),
    }
});
