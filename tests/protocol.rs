//! The shipped protocol, and how a faulty one is refused.

use coopside::protocol::Protocol;

#[test]
fn the_shipped_protocol_loads() {
    if let Err(faults) = Protocol::shipped() {
        panic!("\n{faults}");
    }
}
