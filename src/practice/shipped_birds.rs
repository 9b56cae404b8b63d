//! The scripted birds that ship inside the program, by name.

use super::check::Script;
use crate::protocol::Protocol;
use crate::protocol::fault::Faults;
use crate::shipped;

/// Name and text of every scripted bird that ships, in the order of their names.
pub fn shipped() -> Vec<(&'static str, &'static str)> {
    shipped::scenarios().iter().map(|file| (file.name.as_str(), file.text.as_str())).collect()
}

/// The lessons that ship, the easiest first.
///
/// # Errors
/// The faults of the first that is faulty.
///
/// A lesson is known by its text, laid out as `scenario new` lays it out: reading every scripted bird to find the lessons would
/// hold back the first frame.
pub fn lessons(protocol: &Protocol) -> Result<Vec<Script>, Faults> {
    let is_lesson = |(_, text): &(&str, &str)| text.contains("\n    lesson: (");
    let read = |(name, text): (&str, &str)| Script::read(protocol, name, &format!("{name}.ron"), text);
    let mut lessons = shipped().into_iter().filter(is_lesson).map(read).collect::<Result<Vec<_>, _>>()?;
    lessons.sort_by_key(|script| script.lesson().map(|lesson| lesson.level));
    Ok(lessons)
}
