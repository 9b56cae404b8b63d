//! What a test needs and this machine has not: CI fails for it, anywhere else it is said where nobody can overlook it.

use std::io::Write;

/// Says that a test cannot be run here, and why. Where `CI` is set, the test fails instead.
///
/// # Panics
/// Where `CI` is set.
pub fn lacking(what: &str) {
    assert!(std::env::var_os("CI").is_none(), "{what}: CI has to bring what every test needs");
    // Written past the test runner, which keeps back what a passing test prints.
    let _ = writeln!(std::io::stderr(), "NOT RUN HERE: {what}");
}
