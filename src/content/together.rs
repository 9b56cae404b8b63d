//! What is said alike of several wounds, said once.

use crate::content::old::list;
use crate::judge::Target;
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

/// The wounds a line is about, before it; nothing where it is about all of them, or about the bird.
pub fn whose(verdict: &Exact, wounds: &[usize]) -> String {
    if wounds.len() >= verdict.wounds || wounds.is_empty() {
        return String::new();
    }
    let numbers: Vec<String> = wounds.iter().map(|wound| (wound + 1).to_string()).collect();
    let noun = if numbers.len() == 1 { "Wound" } else { "Wounds" };
    format!("{noun} {}: ", list(&numbers).trim_end_matches('.'))
}
