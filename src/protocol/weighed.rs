//! Which answers say something, and which of them anything is made of: so that none is passed over in silence.

use super::Protocol;
use super::cond::{AnswerSet, Cond, Measure, QuestionAt};
use super::question::Asked;
use crate::finding::About;

impl Protocol {
    /// Whether an answer says more than that all is as it should be: of ordered questions each but the first; of others each that
    /// some condition names, or that is not the first.
    pub fn says_something(&self, at: QuestionAt, choice: u8) -> bool {
        let question = self.ask(at);
        let named = || question.adds_to.is_some() || self.sets(at).any(|set| set.holds(choice));
        choice > 0 || (!question.ordered && named())
    }

    /// Whether anything is made of an answer that is not made of the first one: a rule or paragraph reads it, another question is
    /// asked because of it, a measure, a score, her kind or a vet's reach is told by it, an instruction follows, or it is said
    /// aloud of her.
    pub fn makes_something(&self, at: QuestionAt, choice: u8) -> bool {
        let question = self.ask(at);
        let meant = question.choices.get(usize::from(choice));
        let instructs = meant.is_some_and(|choice| choice.instruct.is_some() || choice.reach.is_some());
        let told = question.adds_to.is_some()
            || question.worked_out.is_some()
            || self.said_first.contains(&at)
            || self.said_of_wounds.contains(&at)
            || self.roles.kind.question == at
            || self.scores.iter().any(|score| score.of.contains(&at));
        // Of answers without an order none is the fine one that the others are held against.
        let tells = |set: AnswerSet| set.holds(choice) != set.holds(0) || (!question.ordered && set.holds(choice));
        let read = || self.sets(at).any(tells);
        told || instructs || question.gives.is_some_and(is_reckoned) || read()
    }

    /// What a question hangs on, where it is not asked of every bird: the questions whose answers call for it.
    pub fn asked_by(&self, at: QuestionAt, about: About) -> Vec<Asked> {
        let applies = self.ask(at).applies.iter();
        let mut found: Vec<_> = applies.flat_map(|cond| self.rests_on(cond, about, 0)).collect();
        found.sort_unstable();
        found.dedup();
        found
    }

    /// The sets of a question's answers that something reads, but for what only spares asking.
    fn sets(&self, at: QuestionAt) -> impl Iterator<Item = AnswerSet> {
        let rules = self.rules.iter().flat_map(|rule| std::iter::once(&rule.when).chain(&rule.unless));
        let asked = self.questions.iter().filter_map(|question| question.applies.as_ref());
        let told = self.paragraphs.iter().map(|paragraph| &paragraph.when);
        let beside = [&self.frail_when, &self.bleeds_when, &self.spare_when, &self.spare_in_doubt, &self.stable_when];
        rules.chain(asked).chain(told).chain(self.hands()).chain(beside).flat_map(move |cond| {
            let mut sets = Vec::new();
            cond.walk(&mut |part| match part {
                Cond::Answer(read, set) if *read == at => sets.push(*set),
                _ => {}
            });
            sets
        })
    }
}

/// Whether every answer to a question that gives a measure moves it: of a vein only whether it is slow counts.
const fn is_reckoned(measure: Measure) -> bool {
    match measure {
        Measure::Weight
        | Measure::TimeSince
        | Measure::WoundArea
        | Measure::SkinOpen
        | Measure::BloodLost
        | Measure::BloodOfWeight
        | Measure::BreathRate
        | Measure::Dryness => true,
        Measure::Refill => false,
    }
}
