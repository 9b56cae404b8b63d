//! What ships inside the program and is never written to a user's disk: the protocol, ready-made, its files and its
//! evidence, the hazards, scripted birds, and the letters of a printed page.

use crate::protocol::evidence::Fact;
use crate::protocol::fault::{Fault, Faults};
use crate::protocol::hazard::{self, Hazard};
use crate::protocol::{File, Protocol, evidence, ready};
use flate2::{Decompress, FlushDecompress};
use std::sync::LazyLock;

/// The protocol as `src/build.rs` left it: checked, then packed.
const READY: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/protocol.ready"));
/// Its files, packed and folded small: they are read only where a fault has to be shown in them.
const TEXTS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/protocol.files"));
/// The scripted birds, likewise: their names and texts.
const SCENARIOS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/scenarios"));
/// `DejaVu` Sans Condensed, free, with most of the world's alphabets; folded small.
const LETTERS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/letters"));

/// The catalogue: every sentence of the program, each file folded by itself.
const WORDS: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/words"));

static UNFOLDED: LazyLock<Vec<u8>> = LazyLock::new(|| unfolded(LETTERS));
static HAZARDS: LazyLock<Vec<Hazard>> = LazyLock::new(|| hazard::read(&hazards_file()).unwrap_or_default());
static BIRDS: LazyLock<Vec<File>> = LazyLock::new(|| ready::unpack_files(&unfolded(SCENARIOS)).unwrap_or_default());

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
    ready::unpack_files(&unfolded(TEXTS)).unwrap_or_default()
}

/// The scripted birds, each by the name of its file without its ending, in the order of their names.
pub fn scenarios() -> &'static [File] {
    &BIRDS
}

/// The files of the catalogue the program ships with, each by its name without its ending, in the order of their names.
pub fn words() -> Vec<File> {
    let unfolded = |(name, folded): (&str, &[u8])| File { name: name.to_owned(), text: text_of(folded) };
    folded_words().into_iter().map(unfolded).collect()
}

/// The same, still folded: a start needs few of them.
pub fn folded_words() -> Vec<(&'static str, &'static [u8])> {
    ready::unpack_folded(WORDS).unwrap_or_default()
}

/// The text of a file that was folded by itself.
pub fn text_of(folded: &[u8]) -> String {
    String::from_utf8(unfolded(folded)).unwrap_or_default()
}

/// The letters a printed page is set in: a font, as its file is.
pub fn letters() -> &'static [u8] {
    &UNFOLDED
}

/// What was folded small; as much of it as can be unfolded. A test unfolds all.
fn unfolded(bytes: &[u8]) -> Vec<u8> {
    let mut whole = Vec::new();
    let mut reader = Decompress::new(true);
    loop {
        let (taken, made) = (reader.total_in(), reader.total_out());
        whole.reserve(bytes.len().max(4_096));
        let rest = usize::try_from(taken).ok().and_then(|taken| bytes.get(taken..)).unwrap_or_default();
        let ended = reader.decompress_vec(rest, &mut whole, FlushDecompress::Finish);
        let stuck = reader.total_in() == taken && reader.total_out() == made;
        if stuck || !matches!(ended, Ok(flate2::Status::Ok | flate2::Status::BufError)) {
            return whole;
        }
    }
}

/// The facts behind the shipped protocol.
///
/// # Errors
/// Where the file is not a list of facts: one fault with its line. A test reads it, so a released program never meets one.
pub fn facts() -> Result<Vec<Fact>, Faults> {
    evidence::read("evidence.ron", include_str!("../assets/evidence.ron"))
}

/// What can go wrong, and what keeps it away. The build has held every name against the protocol, so a program always reads it.
pub fn hazards() -> &'static [Hazard] {
    &HAZARDS
}

/// The file they stand in.
pub fn hazards_file() -> File {
    File { name: "hazards.ron".to_owned(), text: include_str!("../assets/hazards.ron").to_owned() }
}
