//! What a bird of practice shows before anybody looks closely: worked out from what is so of her.

use crate::finding::{About, Answer, Findings, Statement};
use crate::protocol::Protocol;
use crate::sheet::{Sheet, Subject};
use chrono::DateTime;

/// Says of every sign that shows by itself whether she shows it, but of those somebody wrote down.
pub fn what_shows(protocol: &Protocol, findings: &mut Findings) {
    let sheet = Sheet::lay(protocol, findings, DateTime::UNIX_EPOCH);
    let signs = protocol.questions.iter().filter_map(|question| {
        let shown_if = question.shown_if.as_ref()?;
        let (no, yes) = (question.choices.first()?, question.choices.last()?);
        let shows = sheet.surely(shown_if, Subject::Bird);
        let unsaid = findings.answer(About::Bird, question.id.as_str()).is_none();
        unsaid.then(|| (question.id.clone(), Answer::Choice(if shows { yes } else { no }.id.clone())))
    });
    for (question, answer) in signs.collect::<Vec<_>>() {
        findings.say(Statement { about: About::Bird, question, answer }, DateTime::UNIX_EPOCH);
    }
}
