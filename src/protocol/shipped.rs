//! The protocol that ships inside the program; it is never written to a user's disk.

use super::read::File;

macro_rules! files {
    ($($name:literal),* $(,)?) => {
        /// Every file of the shipped protocol: its name below `assets/protocol` and its text.
        pub const FILES: &[(&str, &str)] =
            &[$(($name, include_str!(concat!("../../assets/protocol/", $name)))),*];
    };
}

files![
    "protocol.ron",
    "sources.ron",
    "supplies.ron",
    "actions.ron",
    "care.ron",
    "substances.ron",
    "instructions.ron",
    "watches.ron",
    "humane.ron",
    "after.ron",
    "alikes.ron",
    "body.ron",
    "words.ron",
    "countries.ron",
    "questions/watch.ron",
    "questions/hands.ron",
    "questions/wounds.ron",
    "questions/weight.ron",
    "rules/urgent.ron",
    "rules/body.ron",
    "rules/sites.ron",
    "rules/wounds.ron",
    "rules/care.ron",
    "rules/story.ron",
];

/// The shipped files in the form [`super::Protocol::load`] takes.
pub fn shipped_files() -> Vec<File> {
    FILES.iter().map(|(name, text)| File { name: (*name).to_owned(), text: (*text).to_owned() }).collect()
}
