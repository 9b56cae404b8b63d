//! Whether a text tells a vet's clock: where no vet can be reached, nothing does.

/// What tells one, in small letters.
const OF_A_VET: [&str; 8] = [
    "set off",
    "vet at once",
    "phone a vet now",
    "vet within",
    "by a vet:",
    "treatment by a vet",
    "seen by a vet",
    "until a vet says",
];

/// What sounds like one and is right all the same: a vet may be phoned, wherever one sits.
const OF_ANY: [&str; 2] = ["phone any vet now", "phone a vet at once"];

/// The first sentence that tells a vet's clock, where one does.
pub fn of_a_vet(text: &str) -> Option<String> {
    let tells = |sentence: &&str| {
        let sentence = sentence.to_lowercase();
        let rest = OF_ANY.iter().fold(sentence, |rest, right| rest.replace(right, ""));
        OF_A_VET.iter().any(|words| rest.contains(words))
    };
    text.split(['.', '│']).find(tells).map(str::to_owned)
}
