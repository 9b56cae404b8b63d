//! Two protocols side by side: which question, which answer of the one is which of the other, and one bird told to both.

use super::clauses::{Bit, Clauses};
use super::form::{Form, Options, open_options};
use super::gauge::Dial;
use crate::protocol::Protocol;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::Question;
use crate::sheet::Cell;

/// Which questions and answers of one's own protocol are which of the shipped one.
///
/// Questions are matched by id; answers by their words and id, then by their words, then by id: a keeper goes by the words.
#[derive(Clone, Debug)]
pub struct Links {
    /// By the place of one's own question: where it stands in the shipped protocol, and the place there of each answer.
    own: Vec<Option<(QuestionAt, Vec<Option<u8>>)>>,
    /// By the place of a shipped question: where it stands in one's own.
    shipped: Vec<Option<QuestionAt>>,
}

impl Links {
    /// Matches two protocols.
    pub fn of(shipped: &Protocol, own: &Protocol) -> Self {
        let link = |question: &Question| {
            let at = shipped.question_at(question.id.as_str())?;
            let other = shipped.ask(at);
            (other.wound == question.wound).then(|| (at, answers(other, question)))
        };
        let own_links: Vec<_> = own.questions.iter().map(link).collect();
        let of = |at: QuestionAt| {
            let linked =
                |link: &Option<(QuestionAt, Vec<Option<u8>>)>| link.as_ref().is_some_and(|(linked, _)| *linked == at);
            own.questions.placed().zip(&own_links).find(|(_, link)| linked(link)).map(|((own, _), _)| own)
        };
        Self { shipped: shipped.enumerated().map(|(at, _)| of(at)).collect(), own: own_links }
    }

    /// The shipped question one's own is.
    pub fn shipped(&self, own: QuestionAt) -> Option<QuestionAt> {
        Some(self.link(own)?.0)
    }

    /// One's own question a shipped one is.
    pub fn own(&self, shipped: QuestionAt) -> Option<QuestionAt> {
        self.shipped.get(shipped.nth()).copied().flatten()
    }

    /// The shipped answer one's own is.
    pub fn answer(&self, own: QuestionAt, answer: u8) -> Option<u8> {
        self.link(own)?.1.get(usize::from(answer)).copied().flatten()
    }

    /// One's own answer a shipped one is.
    pub fn own_answer(&self, own: QuestionAt, shipped: u8) -> Option<u8> {
        let at = self.link(own)?.1.iter().position(|answer| *answer == Some(shipped))?;
        u8::try_from(at).ok()
    }

    fn link(&self, own: QuestionAt) -> Option<&(QuestionAt, Vec<Option<u8>>)> {
        self.own.get(own.nth())?.as_ref()
    }

    /// What one's own cell is in the shipped protocol.
    fn cell(&self, own: QuestionAt, cell: Cell) -> Option<Cell> {
        match cell {
            Cell::Given(answer) => Some(Cell::Given(self.answer(own, answer)?)),
            Cell::NotAsked | Cell::CannotTell | Cell::Amount(_) | Cell::Worked(..) => Some(cell),
        }
    }
}

/// For each of one's own answers the shipped one it is.
fn answers(shipped: &Question, own: &Question) -> Vec<Option<u8>> {
    let mut found: Vec<Option<u8>> = vec![None; own.choices.len()];
    let alike: [fn(&Choice, &Choice) -> bool; 3] = [
        |one, other| one.id == other.id && one.say == other.say,
        |one, other| one.say == other.say,
        |one, other| one.id == other.id,
    ];
    for alike in alike {
        for (at, choice) in own.choices.iter().enumerate() {
            if found.get(at).is_none_or(Option::is_some) {
                continue;
            }
            let free = (0u8..).zip(&shipped.choices).filter(|(place, _)| !found.contains(&Some(*place)));
            let like = free.filter(|(_, other)| alike(choice, other)).map(|(place, _)| place).next();
            if let (Some(into), Some(_)) = (found.get_mut(at), like) {
                *into = like;
            }
        }
    }
    found
}

type Choice = crate::protocol::question::Choice;

/// The form a second one stands beside: of the same bird, for another protocol.
pub struct Beside<'a, 's, 'p> {
    /// The form that was there first, of the shipped protocol.
    pub first: &'a Form<'s, 'p>,
    /// Where its questions and answers stand in one's own.
    pub links: &'a Links,
}

impl Beside<'_, '_, '_> {
    /// What one's own question may hold: the same values as the shipped one where both have the same answers.
    ///
    /// Of an answer only the shipped one has, one's own protocol is told nothing: it may turn out to be any of its own. Of
    /// one that only one's own has, the shipped one is told nothing: that is its finest where answers get worse, else any.
    pub fn options(
        &self,
        clauses: &mut Clauses,
        protocol: &Protocol,
        cells: Vec<Cell>,
        column: usize,
        at: QuestionAt,
    ) -> Options {
        let Some(shipped_at) = self.links.shipped(at) else { return open_options(clauses, cells) };
        let shipped = self.first.options(column, shipped_at);
        let of = |cell: Cell| {
            let there = self.links.cell(at, cell)?;
            shipped.iter().find(|(other, _)| like(*other, there)).map(|(_, bit)| *bit)
        };
        let linked: Vec<(Cell, Option<Bit>)> = cells.iter().map(|cell| (*cell, of(*cell))).collect();
        let bits: Vec<Bit> = linked.iter().filter_map(|(_, bit)| *bit).collect();
        let only_shipped: Vec<Bit> = shipped.iter().map(|(_, bit)| *bit).filter(|bit| !bits.contains(bit)).collect();
        if only_shipped.is_empty() && bits.len() == cells.len() {
            return linked.into_iter().filter_map(|(cell, bit)| Some((cell, bit?))).collect();
        }
        let options = open_options(clauses, cells);
        let only_own: Vec<Bit> =
            options.iter().zip(&linked).filter(|(_, (_, bit))| bit.is_none()).map(|((_, own), _)| *own).collect();
        let ordered = protocol.ask(at).ordered;
        let finest = shipped.iter().find(|(cell, _)| *cell == Cell::Given(0)).map(|(_, bit)| *bit);
        for ((_, own), (_, there)) in options.iter().zip(&linked) {
            let mut clause = vec![own.not()];
            clause.extend(&only_shipped);
            match there {
                Some(there) => {
                    clause.push(*there);
                    clauses.require(&clause);
                    let mut back = vec![there.not(), *own];
                    back.extend(only_own.iter().filter(|_| !ordered || finest == Some(*there)));
                    clauses.require(&back);
                }
                None if ordered => {
                    clause.extend(finest);
                    clauses.require(&clause);
                }
                None => {}
            }
        }
        options
    }

    /// Lends the second form every gauge that reads the same of both: same questions, same answers that stand for the same.
    pub fn lend_gauges(first: &mut Form, second: &mut Form, links: &Links, clauses: &mut Clauses) {
        let wounds = first.wounds();
        let whole = [
            Dial::Weight,
            Dial::TimeSince(0),
            Dial::SkinOpen,
            Dial::BloodLost(true),
            Dial::BloodLost(false),
            Dial::BloodOfWeight,
            Dial::BreathRate,
            Dial::Dryness,
        ];
        for dial in whole.into_iter().chain(wounds.map(Dial::TimeSince)) {
            if !reads_alike(first, second, links, dial) {
                continue;
            }
            let gauge = first.gauge(clauses, dial);
            first.gauges.insert(dial, gauge.clone());
            second.gauges.insert(dial, gauge);
        }
    }
}

/// Whether two cells say the same; a figure may stand for other answers in another protocol.
fn like(one: Cell, other: Cell) -> bool {
    match (one, other) {
        (Cell::Worked(band, ..), Cell::Worked(there, ..)) => band == there,
        _ => one == other,
    }
}

/// Whether everything a dial is read from is the very same value in both forms.
fn reads_alike(first: &Form, second: &Form, links: &Links, dial: Dial) -> bool {
    let (shipped, own) = (first.protocol(), second.protocol());
    let fed = |protocol: &Protocol| {
        let (of_bird, of_wounds) = dial.fed_by(protocol);
        of_bird.into_iter().chain(of_wounds).collect::<Vec<_>>()
    };
    let (theirs, ours) = (fed(shipped), fed(own));
    let same = |(at, own_at): (&QuestionAt, &QuestionAt)| {
        let (one, other) = (shipped.ask(*at), own.ask(*own_at));
        let worth = |question: &Question| question.choices.iter().map(|choice| choice.worth).collect::<Vec<_>>();
        links.shipped(*own_at) == Some(*at)
            && worth(one) == worth(other)
            && (0..first.columns_in_all()).all(|column| {
                let applies = |form: &Form, at| [form.applies(column, at, true), form.applies(column, at, false)];
                first.options(column, *at) == second.options(column, *own_at)
                    && applies(first, *at) == applies(second, *own_at)
            })
    };
    theirs.len() == ours.len() && theirs.iter().zip(&ours).all(same)
}
