//! Why: every reason with its labels, or those of one line.

use super::document::{Because, asked_about};
use crate::content::why;
use crate::judge::Reason;
use crate::phrase::page as phrase;
use crate::session::Session;

/// Why the verdict, or a line, is what it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WhyView {
    /// What it is about.
    pub title: String,
    /// What is told of it by itself.
    pub told: Vec<String>,
    /// The rules behind it.
    pub reasons: Vec<ReasonView>,
    /// The caution.
    pub caution: String,
}

/// A rule behind it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReasonView {
    /// What holds.
    pub headline: String,
    /// What that leads to.
    pub leads_to: Option<String>,
    /// How well it is known, and from where.
    pub labels: Vec<String>,
}

impl WhyView {
    /// As it stands.
    pub fn of(session: &Session, line: Option<usize>) -> Self {
        let Because { title, told, reasons } = asked_about(session, line);
        let reason = |reason: &Reason| {
            let leads_to = why::consequence(session.protocol, *reason, session.verdict.no_vet());
            ReasonView {
                headline: session.say(why::headline(session.protocol, *reason)),
                leads_to: (!leads_to.is_empty()).then(|| session.say(phrase::leads_to(leads_to))),
                labels: why::labels(session.protocol, *reason).into_iter().map(|label| session.say(label)).collect(),
            }
        };
        Self {
            title: session.say(title),
            told,
            reasons: reasons.iter().map(reason).collect(),
            caution: session.say(session.caution()),
        }
    }
}
