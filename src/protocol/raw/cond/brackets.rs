//! Where `and` stands beside `or`: both ways in which brackets may be put, so that one may be picked.

/// The words that join parts.
const JOINTS: [&str; 2] = ["and", "or"];

/// A part of a condition, and the word that joins it to the one before it; none before the first.
type Part<'t> = (Option<&'static str>, &'t str);

/// Both ways to put brackets, where the word at this place is the second of two that want them.
pub(super) fn both_ways(text: &str, at: usize) -> Option<[String; 2]> {
    let parts = parts(row(text, at)?);
    Some(JOINTS.map(|round| bracketed(&parts, round)))
}

/// What stands between the same two brackets, or commas, as this place.
fn row(text: &str, at: usize) -> Option<&str> {
    let (mut starts, mut ends) = (0, text.len());
    let mut depth = 0usize;
    for (place, letter) in text.get(..at)?.char_indices().rev() {
        match letter {
            ')' => depth += 1,
            '(' if depth > 0 => depth -= 1,
            '(' | ',' if depth == 0 => {
                starts = place + 1;
                break;
            }
            _ => {}
        }
    }
    depth = 0;
    for (place, letter) in text.get(at..)?.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' if depth > 0 => depth -= 1,
            ')' | ',' if depth == 0 => {
                ends = at + place;
                break;
            }
            _ => {}
        }
    }
    text.get(starts..ends)
}

/// Its parts, those in brackets whole.
fn parts(row: &str) -> Vec<Part<'_>> {
    let is_part = |letter: char| letter.is_ascii_alphanumeric() || letter == '_';
    let (mut parts, mut joint, mut from, mut depth) = (Vec::new(), None, 0, 0usize);
    for (at, letter) in row.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        let (before, rest) = row.split_at(at);
        let alone = |word: &&str| {
            let after = rest.strip_prefix(*word);
            after.is_some_and(|after| !after.starts_with(is_part)) && !before.ends_with(is_part)
        };
        if let Some(word) = JOINTS.into_iter().find(alone).filter(|_| depth == 0) {
            parts.push((joint, row.get(from..at).unwrap_or_default().trim()));
            (joint, from) = (Some(word), at + word.len());
        }
    }
    parts.push((joint, row.get(from..).unwrap_or_default().trim()));
    parts
}

/// The same with brackets round whatever this word joins.
fn bracketed(parts: &[Part], round: &str) -> String {
    let mut groups: Vec<(Option<&str>, Vec<&str>)> = Vec::new();
    for (joint, part) in parts {
        match groups.last_mut() {
            Some((_, group)) if *joint == Some(round) => group.push(part),
            Some(_) | None => groups.push((*joint, vec![part])),
        }
    }
    let told = groups.iter().map(|(joint, group)| {
        let lead = joint.map_or_else(String::new, |joint| format!(" {joint} "));
        let joined = group.join(&format!(" {round} "));
        if group.len() > 1 { format!("{lead}({joined})") } else { format!("{lead}{joined}") }
    });
    told.collect()
}
