//! The order in which a protocol's files are read; questions are asked in it.

/// The files of the shipped protocol, by their names below `assets/protocol`. A club's own files that bear these names keep
/// this order.
pub const FILES: &[&str] = &[
    "protocol.ron",
    "conditions.ron",
    "roles.ron",
    "sources.ron",
    "supplies.ron",
    "actions.ron",
    "care.ron",
    "substances.ron",
    "strengths.ron",
    "sums.ron",
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
