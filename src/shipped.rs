//! What ships inside the program and is never written to a user's disk: the protocol, ready-made, its files, and its evidence.

use crate::protocol::evidence::Fact;
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::order::FILES;
use crate::protocol::{File, Protocol, evidence, ready};
use include_dir::{Dir, include_dir};

/// The protocol as `src/build.rs` left it: checked, then packed.
const READY: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/protocol.ready"));
static TEXTS: Dir = include_dir!("$CARGO_MANIFEST_DIR/assets/protocol");

impl Protocol {
    /// The protocol that ships with the program: read as it was left when the program was built.
    ///
    /// # Errors
    /// Never for a released program: a test reads it, and holds it against the files.
    pub fn shipped() -> Result<Self, Faults> {
        ready::unpack(READY).map_err(|error| {
            let what = format!("the protocol inside this program cannot be read ({error}); build the program anew");
            Faults(vec![Fault { file: String::new(), line: 0, item: String::new(), what, nearest: None }])
        })
    }
}

/// The files the shipped protocol was made of, in the form [`Protocol::load`] takes.
pub fn files() -> Vec<File> {
    let text = |name: &&str| TEXTS.get_file(name).and_then(include_dir::File::contents_utf8).map(str::to_owned);
    FILES.iter().filter_map(|name| Some(File { name: (*name).to_owned(), text: text(name)? })).collect()
}

/// The facts behind the shipped protocol.
///
/// # Errors
/// Where the file is not a list of facts: one fault with its line. A test reads it, so a released program never meets one.
pub fn facts() -> Result<Vec<Fact>, Faults> {
    evidence::read("evidence.ron", include_str!("../assets/evidence.ron"))
}
