//! What is said alike of several wounds, said once.

use crate::content::terms;
use crate::judge::Target;
use crate::phrase::Text;
use crate::protocol::rule::ActionAt;
use crate::prove::Exact;

/// One action, the wounds it is said of (none for the whole bird), and what is said.
pub struct Said<T> {
    pub action: ActionAt,
    pub wounds: Vec<usize>,
    pub of_each: Vec<T>,
}

/// Joins what is said of one action for several wounds, in the order it was said first; only what is said in the same words.
pub fn together<T, W: PartialEq>(
    said: impl IntoIterator<Item = (Target, T)>,
    words: impl Fn(Target) -> W,
) -> Vec<Said<T>> {
    let mut joined: Vec<Said<T>> = Vec::new();
    for (target, told) in said {
        let alike = |before: &&mut Said<T>| {
            let first = Target { action: before.action, wound: before.wounds.first().copied() };
            before.action == target.action && words(first) == words(target)
        };
        if let Some(before) = joined.iter_mut().find(alike) {
            before.wounds.extend(target.wound);
            before.of_each.push(told);
        } else {
            let wounds = target.wound.into_iter().collect();
            joined.push(Said { action: target.action, wounds, of_each: vec![told] });
        }
    }
    joined
}

/// A line with the wounds it is about before it; by itself where it is about all of them, or about the bird.
pub fn of_some(verdict: &Exact, wounds: &[usize], line: impl Into<Text>) -> Text {
    if wounds.len() >= verdict.wounds { line.into() } else { terms::of_wounds(wounds, line) }
}
