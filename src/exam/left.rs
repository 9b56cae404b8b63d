//! What of her was not looked at yet: whoever goes to a vet before the end tells it.

use super::{Exam, Progress};

impl Exam<'_> {
    /// The names of the steps of which something is not looked at, of those in which somebody looks at her.
    pub fn not_looked_at(&self) -> Vec<&str> {
        let protocol = self.protocol;
        let looks = |(at, _): &(_, _)| !protocol.roles.told_steps.contains(at);
        let steps = protocol.steps.placed().zip(self.progress()).filter(|(step, _)| looks(step));
        let left = steps.filter(|(_, progress)| !matches!(progress, Progress::Done));
        left.map(|((_, step), _)| step.name.as_str()).collect()
    }
}
