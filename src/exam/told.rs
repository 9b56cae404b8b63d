//! What somebody said shows on her, as long as the look-over has neither found it nor looked for it in vain: it is not dropped unseen.

use super::Exam;
use crate::finding::log::{Entry, Stamped};
use crate::finding::{About, Answer, Statement};
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::{Asked, Choice};
use crate::sheet::{Cell, Subject};
use chrono::{DateTime, Utc};

impl<'p> Exam<'p> {
    /// What was said to show, and what of her it will be found by.
    fn told(&self) -> impl Iterator<Item = (QuestionAt, &'p Cond)> + '_ {
        let shown = self.protocol.enumerated().filter_map(|(at, question)| Some((at, question.shown_if.as_ref()?)));
        shown.filter(|(at, _)| self.said_yes(*at))
    }

    fn said_yes(&self, sign: QuestionAt) -> bool {
        let Some(Answer::Choice(said)) = self.standing(Asked::of_bird(sign)) else { return false };
        let yes = self.protocol.ask(sign).choices.last();
        yes.is_some_and(|yes| yes.id == *said)
    }

    /// What was said to show, and is neither found yet nor looked for in vain.
    fn still_told(&self) -> impl Iterator<Item = (QuestionAt, &'p Cond)> + '_ {
        let settled =
            |cond: &Cond| self.sheet.surely(cond, Subject::Bird) || self.sheet.surely_not(cond, Subject::Bird);
        self.told().filter(move |(_, cond)| !settled(cond))
    }

    /// Whether an answer is what somebody said shows on her. Where several answers would be, nobody said which.
    pub fn bears_out(&self, asked: Asked, answer: &Answer) -> bool {
        let signs: Vec<QuestionAt> = self.still_told().map(|(sign, _)| sign).collect();
        signs.into_iter().any(|sign| self.is_borne_out(sign, asked, answer))
    }

    fn is_borne_out(&self, sign: QuestionAt, asked: Asked, answer: &Answer) -> bool {
        let (Some(cond), Answer::Choice(id)) = (&self.protocol.ask(sign).shown_if, answer) else { return false };
        let question = self.protocol.ask(asked.question);
        let Some(choice) = question.choice_at(id.as_str()) else { return false };
        let found_by = |choice: u8| {
            let mut sheet = self.sheet.clone();
            sheet.suppose(asked, Cell::Given(choice));
            sheet.suppose_applies();
            sheet.surely(cond, Subject::Bird)
        };
        let others = || (0u8..).zip(&question.choices).map(|(at, _)| at).filter(|at| *at != choice);
        cond.questions().contains(&asked.question) && found_by(choice) && !others().any(found_by)
    }

    /// What was said to show and these entries pass over where it would stand.
    pub fn passed_over(&self, entries: &[Entry]) -> Option<QuestionAt> {
        let said = entries.iter().flat_map(|entry| match entry {
            Entry::Said(statements) => statements.as_slice(),
            _ => &[],
        });
        let denies = |said: &Statement, sign: QuestionAt| {
            let Some(question) = self.protocol.question_at(said.question.as_str()) else { return false };
            let asked = Asked { about: said.about, question };
            let choices = &self.protocol.ask(question).choices;
            let stands = |choice: &Choice| self.is_borne_out(sign, asked, &Answer::Choice(choice.id.clone()));
            choices.iter().any(stands) && !self.is_borne_out(sign, asked, &said.answer)
        };
        let said: Vec<&Statement> = said.collect();
        self.still_told().map(|(sign, _)| sign).find(|sign| said.iter().any(|said| denies(said, *sign)))
    }

    /// What was said to show and could no longer be found after these entries.
    pub fn contradicted(&self, log: &[Stamped], entries: &[Entry], now: DateTime<Utc>) -> Vec<QuestionAt> {
        let told: Vec<QuestionAt> = self.still_told().map(|(sign, _)| sign).collect();
        if told.is_empty() {
            return told;
        }
        let said = entries.iter().map(|entry| Stamped { at: now, entry: entry.clone() });
        let log: Vec<Stamped> = log.iter().cloned().chain(said).collect();
        let after = Exam::from_log(self.protocol, &log);
        let in_vain =
            |(sign, cond): &(QuestionAt, &Cond)| told.contains(sign) && after.sheet.surely_not(cond, Subject::Bird);
        after.told().filter(in_vain).map(|(sign, _)| sign).collect()
    }
}

/// Entries with what they take back: of each of these signs, that it does not show after all.
pub fn taken_back(protocol: &Protocol, signs: &[QuestionAt], entries: Vec<Entry>) -> Vec<Entry> {
    let no = |sign: &QuestionAt| {
        let question = protocol.ask(*sign);
        Some(Statement { about: About::Bird, question: question.id.clone(), answer: question.first_answer()? })
    };
    let back: Vec<Statement> = signs.iter().filter_map(no).collect();
    let mut entries = entries;
    match entries.first_mut() {
        _ if back.is_empty() => {}
        // What was answered stands last: it is what an instruction is called up by.
        Some(Entry::Said(said)) => {
            said.splice(0..0, back);
        }
        _ => entries.insert(0, Entry::Said(back)),
    }
    entries
}
