//! How a word of a label is spelled, whatever the language: one spelling for `hydrocortisone`, `Hydrocortison` and
//! `idrocortisone`.

use deunicode::deunicode;

/// One spelling for all the ways a word is written: without accents and silent letters, sounds that are written in several ways
/// written in one, endings cut.
pub fn spelled(word: &str) -> String {
    let mut letters = deunicode(word).to_lowercase();
    letters.retain(|c| c.is_ascii_alphabetic());
    for (from, to) in [
        ("ph", "f"),
        ("qu", "k"),
        ("ae", "e"),
        ("oe", "e"),
        ("h", ""),
        ("y", "i"),
        ("j", "i"),
        ("w", "v"),
        ("c", "k"),
        ("x", "ks"),
        ("z", "s"),
    ] {
        letters = letters.replace(from, to);
    }
    let mut spelled = String::with_capacity(letters.len());
    for letter in letters.chars().filter(char::is_ascii_alphabetic) {
        if !spelled.ends_with(letter) {
            spelled.push(letter);
        }
    }
    let spelled = spelled.replace("ks", "s");
    let cut = ["um", "us"].iter().find_map(|ending| spelled.strip_suffix(ending)).unwrap_or(&spelled);
    let bare = cut.trim_end_matches(['a', 'e', 'i', 'o']);
    // A word that is hardly more than an ending stays as it is.
    if bare.len() < 3 { spelled } else { bare.to_owned() }
}

/// The words of a text, each in the one spelling; numbers are left out.
pub fn words(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !c.is_alphabetic());
    parts.filter(|part| !part.is_empty()).map(spelled).filter(|word| !word.is_empty()).collect()
}
