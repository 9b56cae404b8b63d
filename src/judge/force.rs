//! The rules in force, gravest first, and the questions that what is not in force yet still waits for.

use super::verdict::{Reason, Standing};
use super::weigh::Weighed;
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::question::Asked;
use crate::protocol::rule::Rule;
use crate::protocol::scale::Humane;
use crate::sheet::{Sheet, Subject, Truth};
use std::cmp::Reverse;

/// A rule in force, and whether its condition was seen rather than could not be told.
pub(super) struct Force<'p> {
    pub rule: &'p Rule,
    pub reason: Reason,
    pub seen: bool,
}

/// The rules whose advice is followed now: condition met, and no exception has been answered yes.
///
/// An exception not yet asked holds back a scale's floor, but never a warning.
pub(super) fn in_force<'p>(protocol: &'p Protocol, weighed: &[Weighed]) -> Vec<Force<'p>> {
    let mut force: Vec<Force> = Vec::new();
    for w in weighed.iter().filter(|w| w.when == Truth::Yes && w.held != Truth::Yes) {
        let Some(about) = about(w.subject) else { continue };
        let standing = match (w.sure, w.seen, w.held) {
            (Truth::Yes, ..) => Standing::Seen,
            (_, Truth::Yes, Truth::Open) => Standing::ExceptionOpen,
            _ => Standing::CouldNotTell,
        };
        let reason = Reason { rule: w.rule, about, standing };
        force.push(Force { rule: protocol.rule(w.rule), reason, seen: w.seen == Truth::Yes });
    }
    // Gravest first; the order of rules in the files means nothing, their names settle ties.
    force.sort_by(|one, other| {
        // Doubt leads no further than doubt may, and what was seen comes before it.
        let grave = |force: &Force| {
            let Rule { humane, need, authority, severity, .. } = force.rule;
            let humane = if force.seen { *humane } else { humane.map(|rung| rung.min(Humane::MayComeIntoQuestion)) };
            let grade = severity.iter().map(|(_, grade)| *grade).max();
            // Of what is alike in gravity, breath comes before blood, and both before what can wait.
            let system = severity.iter().map(|(system, _)| Reverse(*system)).max();
            (humane, *need, force.seen, *authority, grade, system)
        };
        let by_name = || one.rule.id.cmp(&other.rule.id);
        grave(other).cmp(&grave(one)).then_with(by_name).then_with(|| one.reason.about.cmp(&other.reason.about))
    });
    force
}

/// The bird or the wound; nothing for a wound nobody has found.
pub(super) fn about(subject: Subject) -> Option<About> {
    match subject {
        Subject::Bird => Some(About::Bird),
        Subject::Wound(number) => Some(About::Wound(number)),
        Subject::Unfound => None,
    }
}

/// The open questions a condition rests on; where it is not known whether one applies, what decides that.
pub(super) fn unanswered(protocol: &Protocol, sheet: &Sheet, cond: &Cond, about: About) -> Vec<Asked> {
    let mut found = Vec::new();
    for asked in protocol.rests_on(cond, about, sheet.wounds()) {
        if sheet.applies(asked.about.into(), asked.question) == Truth::Open
            && let Some(applies) = &protocol.ask(asked.question).applies
        {
            found.extend(unanswered(protocol, sheet, applies, asked.about));
        }
        if sheet.is_open(asked) {
            found.push(asked);
        }
    }
    found
}
