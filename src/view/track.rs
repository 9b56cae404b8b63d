//! Where we are, head to tail.

use crate::exam::Progress;
use crate::phrase::{Text, header as phrase};
use crate::session::Session;

/// The steps, and how far each is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TrackView {
    /// Each by its name.
    pub steps: Vec<(String, Progress)>,
    /// The same in short: "head, step 4 of 12".
    pub short: String,
}

impl TrackView {
    /// As they stand.
    pub fn of(session: &Session) -> Self {
        let names = session.protocol.steps.iter().map(|step| step.name.clone());
        let count = session.protocol.steps.len();
        let here = session.exam.step().map(|at| (at, session.protocol.steps.of(at)));
        let short = here.map_or_else(
            || phrase::steps(count),
            |(at, step)| phrase::step(Text::quoted(&step.name), at.nth() + 1, count),
        );
        Self { steps: names.zip(session.exam.progress()).collect(), short: session.say(short) }
    }
}
