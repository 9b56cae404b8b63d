//! Random birds: findings drawn from the protocol's own questions.

#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]
#![allow(clippy::allow_attributes, reason = "not every test file meets what is expected here")]

pub mod clock;
pub mod lacking;
pub mod mounted;
pub mod pseudo;
pub mod reference;
pub mod rolled;
pub mod walk;

use chrono::{DateTime, Utc};
use coopside::content::phone::{self, Shift};
use coopside::finding::figure::{Count, Figure, FigureOf, Lines, Spilt};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::phrase::Text;
use coopside::protocol::Protocol;
use coopside::protocol::question::Question;
use coopside::prove::Exact;
use coopside::unit::{Micrometres, TenthsOfSecond};
use proptest::prelude::*;
use std::sync::LazyLock;

pub static PROTOCOL: LazyLock<Protocol> =
    LazyLock::new(|| Protocol::shipped().unwrap_or_else(|faults| panic!("\n{faults}")));

/// A text as it is read in the language the program ships with.
pub fn read_out(text: &Text) -> String {
    coopside::words::english(text.clone())
}

/// The program's own caution, which no protocol and no translation replaces.
pub const CAUTION: &str = "Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";

/// The caution with what it says of a country's law.
pub fn caution_text(country: &coopside::protocol::texts::Country) -> String {
    read_out(&coopside::content::document::caution_text(country))
}

/// What is read out on the phone.
pub fn call(protocol: &Protocol, findings: &Findings, verdict: &Exact) -> String {
    read_out(&phone::script(protocol, findings, verdict, &read_out))
}

/// What is read out to the next shift.
pub fn told_to_shift(protocol: &Protocol, shift: Shift) -> String {
    read_out(&phone::shift(protocol, shift, &read_out))
}

/// What was said of one subject: for each question nothing, an answer by its position, or "cannot tell".
pub type Column = Vec<Said>;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    Nothing,
    Choice(usize),
    /// A figure in place of an answer, larger where it is worse.
    Figure(u32),
    CannotTell,
}

/// A bird that may be found out about in part.
#[derive(Clone, Debug)]
pub struct Bird {
    pub whole: Column,
    pub wounds: Vec<Column>,
    pub looked_over: bool,
}

/// Whether the long forms run: more kills, more failing writes, more random steps.
pub fn long() -> bool {
    std::env::var_os("COOPSIDE_LONG").is_some()
}

/// How many: `short` where the tests run before every change, `long` in the long form.
pub fn count<T>(short: T, long_form: T) -> T {
    if long() { long_form } else { short }
}

pub fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH + chrono::TimeDelta::days(20_000)
}

fn questions(wound: bool) -> Vec<&'static Question> {
    PROTOCOL.questions.iter().filter(|question| question.wound == wound).collect()
}

/// One answer in three is not given and one in ten cannot be told; the first answer is as likely as all others together,
/// so that birds are not all at death's door.
fn said(question: &Question, open: u32) -> BoxedStrategy<Said> {
    let count = question.choices.len().max(1);
    let figure = if question.figure().is_some() || question.is_weight() {
        (0..400u32).prop_map(Said::Figure).boxed()
    } else {
        Just(Said::Choice(0)).boxed()
    };
    let told = prop_oneof![
        3 => Just(Said::Choice(0)),
        4 => (0..count).prop_map(Said::Choice),
        1 => figure,
        1 => Just(Said::CannotTell),
    ];
    // What comes from two looks at her is never open.
    if open == 0 || question.worked_out.is_some() {
        told.boxed()
    } else {
        prop_oneof![9 => told, open => Just(Said::Nothing)].boxed()
    }
}

fn column(wound: bool, open: u32) -> BoxedStrategy<Column> {
    questions(wound).into_iter().map(|question| said(question, open)).collect::<Vec<_>>().boxed()
}

/// A bird of which about a third has been found out.
pub fn partial() -> impl Strategy<Value = Bird> {
    (column(false, 6), prop::collection::vec(column(true, 4), 0..3), any::<bool>())
        .prop_map(|(bird, wounds, looked_over)| Bird { whole: bird, wounds, looked_over })
}

/// A bird of which everything has been found out.
pub fn complete() -> impl Strategy<Value = Bird> {
    (column(false, 0), prop::collection::vec(column(true, 0), 0..4)).prop_map(|(bird, wounds)| Bird {
        whole: bird,
        wounds,
        looked_over: true,
    })
}

impl Bird {
    pub fn findings(&self) -> Findings {
        let mut findings = Findings::default();
        let subjects = std::iter::once((About::Bird, &self.whole))
            .chain(self.wounds.iter().enumerate().map(|(number, wound)| (About::Wound(number), wound)));
        for (about, column) in subjects {
            if about != About::Bird {
                findings.find_wound();
            }
            for (question, said) in questions(about != About::Bird).into_iter().zip(column) {
                if let Some(answer) = answer(question, *said) {
                    findings.say(Statement { about, question: question.id.clone(), answer }, now());
                }
            }
        }
        if self.looked_over {
            findings.look_over();
        }
        findings
    }

    /// This bird without answers that are offered to other kinds only: by her build, where it is not one of her kind.
    pub fn possible(&self) -> Bird {
        let mut bird = self.clone();
        let kind = questions(false).iter().position(|q| q.id == PROTOCOL.kind_question().id);
        let kind = match kind.map(|at| bird.whole[at]) {
            Some(Said::Choice(at)) => PROTOCOL.roles.kind.kinds.get(at).copied(),
            _ => None,
        };
        for (question, said) in questions(false).into_iter().zip(&mut bird.whole) {
            if let Said::Choice(at) = *said
                && !question.is_offered(u8::try_from(at).unwrap_or(u8::MAX), kind)
            {
                *said = Said::CannotTell;
            }
        }
        bird
    }

    /// Leaves one place open: of the bird or of a wound.
    pub fn leave_open(&mut self, (wound, at): (Option<usize>, usize)) {
        match wound {
            None => self.whole[at] = Said::Nothing,
            Some(wound) => self.wounds[wound][at] = Said::Nothing,
        }
    }

    /// This bird with everything that is open answered as in `rest`; its own answers stand.
    pub fn completed(&self, rest: &Bird) -> Bird {
        let fill = |own: &Column, rest: &Column| {
            own.iter().zip(rest).map(|(own, rest)| if *own == Said::Nothing { *rest } else { *own }).collect()
        };
        let mut wounds: Vec<Column> = self
            .wounds
            .iter()
            .enumerate()
            .map(|(at, own)| rest.wounds.get(at).map_or_else(|| worst_of_nothing(own), |rest| fill(own, rest)))
            .collect();
        if !self.looked_over {
            wounds.extend(rest.wounds.iter().skip(self.wounds.len()).cloned());
        }
        Bird { whole: fill(&self.whole, &rest.whole), wounds, looked_over: true }
    }

    /// The bird with one ordered answer made worse, if `pick` finds one that can be.
    pub fn worsened(&self, pick: usize) -> Option<Bird> {
        let mut places = Vec::new();
        for (wound, column) in std::iter::once((None, &self.whole))
            .chain(self.wounds.iter().enumerate().map(|(number, column)| (Some(number), column)))
        {
            for (at, question) in questions(wound.is_some()).into_iter().enumerate() {
                match column[at] {
                    Said::Choice(choice) if question.ordered && choice + 1 < question.choices.len() => {
                        places.push((wound, at, Said::Choice(choice + 1)));
                    }
                    Said::Figure(figure) if question.figure().is_some() => {
                        places.push((wound, at, Said::Figure(figure + 7)));
                    }
                    _ => {}
                }
            }
        }
        let (wound, at, worse) = *places.get(pick.checked_rem(places.len())?)?;
        let mut worsened = self.clone();
        let column = match wound {
            None => &mut worsened.whole,
            Some(number) => &mut worsened.wounds[number],
        };
        column[at] = worse;
        Some(worsened)
    }

    /// The bird with everything that could not be told forgotten.
    pub fn without_doubt(&self) -> Bird {
        // A weight that cannot be told is still told by her kind, so it stays.
        let forget = |column: &Column, wound: bool| {
            let said = column.iter().zip(questions(wound));
            said.map(|(said, asked)| match said {
                Said::CannotTell if !asked.is_weight() => Said::Nothing,
                said => *said,
            })
            .collect()
        };
        Bird {
            whole: forget(&self.whole, false),
            wounds: self.wounds.iter().map(|wound| forget(wound, true)).collect(),
            looked_over: self.looked_over,
        }
    }
}

fn worst_of_nothing(own: &Column) -> Column {
    own.iter().map(|said| if *said == Said::Nothing { Said::CannotTell } else { *said }).collect()
}

fn answer(question: &Question, said: Said) -> Option<Answer> {
    match said {
        Said::Nothing => None,
        Said::CannotTell => Some(Answer::CannotTell),
        Said::Figure(figure) => Some(figured(question, figure)),
        Said::Choice(at) => question.choices.get(at).map(|choice| Answer::Choice(choice.id.clone())),
    }
}

/// A figure that grows with a number: drops, breaths, a wound, a slow vein; or a weight.
fn figured(question: &Question, number: u32) -> Answer {
    let line = Micrometres(u64::from(number + 1) * 300);
    match question.figure() {
        Some(FigureOf::Blood) => Answer::Figure(Figure::Spilt(vec![Spilt::Drops(number)])),
        Some(FigureOf::Breaths) => {
            Answer::Figure(Figure::Breaths(vec![Count { breaths: number / 4, seconds: 30, held: false }]))
        }
        Some(FigureOf::Wound) => Answer::Figure(Figure::Lines(Lines { length: line, width: line })),
        Some(FigureOf::Refill) => Answer::Figure(Figure::Refill(TenthsOfSecond(number / 10))),
        None => Answer::Amount(150 + 25 * number),
    }
}

/// A text with the first place that says `from` saying `to` instead; blanks and ends of lines are not looked at. Nothing where no
/// place says so.
pub fn spliced(text: &str, from: &str, to: &str) -> Option<String> {
    let letters: Vec<(usize, char)> = text.char_indices().filter(|(_, letter)| !letter.is_whitespace()).collect();
    let wanted: Vec<char> = from.chars().filter(|letter| !letter.is_whitespace()).collect();
    let at = letters.windows(wanted.len()).position(|window| window.iter().map(|(_, c)| c).eq(&wanted))?;
    let (first, _) = letters[at];
    let (last, letter) = letters[at + wanted.len() - 1];
    Some(format!("{}{to}{}", &text[..first], &text[last + letter.len_utf8()..]))
}
