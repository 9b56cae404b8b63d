//! Birds drawn from the protocol by a number: the same number draws the same bird, each of them one that can be, and of the
//! level and verdict wanted.
//!
//! A bird is drawn well at first; then signs are put on her one at a time, each only where she can still be and where she
//! comes no further than wanted. What can be at all is what the proofs reason over: the envelope of an empty sheet tells
//! beforehand whether any bird gets the verdict wanted.

use super::check::Script;
use super::mark::Rungs3;
use super::scenario::{Expect, Grade, Lesson, Scenario, Teaching};
use super::shown::what_shows;
use crate::finding::{About, Answer, Findings, Statement};
use crate::judge::Reason;
use crate::notes::Pairs;
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::{Asked, Question};
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::{Rung, Scale, Work, answer_of, envelope, floors, is_possible, judge_bands};
use crate::sheet::{Cell, Sheet, Truth};
use chrono::DateTime;
use fastrand::Rng;
use std::collections::BTreeSet;

/// The verdict wanted of a drawn bird; what is not said may come out as it will.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Wanted {
    /// How soon.
    pub need: Option<Need>,
    /// Whether a humane end has come into question.
    pub humane: Option<Humane>,
    /// Whether to call the authority.
    pub authority: Option<Authority>,
    /// How hard.
    pub level: Option<Grade>,
}

/// Why no bird could be drawn; `content::lessons` tells it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DrawError {
    /// No bird at all gets it.
    Nobody {
        /// The scale.
        scale: Scale,
        /// What was wanted.
        wanted: Rung,
        /// The mildest rung there is.
        least: Rung,
        /// The gravest.
        most: Rung,
    },
    /// None was found.
    NotFound,
}

/// A bird that was drawn, before anybody has said what is told of her.
#[derive(Clone, Debug)]
pub struct Drawn {
    /// The number she was drawn with.
    pub seed: u64,
    /// What a keeper would tell on the phone: the answers to the questions of the story, in their order.
    pub told: Vec<(QuestionAt, Answer)>,
    /// What is wrong with her, in the order of asking.
    pub wrong: Vec<(Asked, Answer)>,
    /// The bird, her texts empty.
    script: Script,
}

/// What is told of a bird that was drawn, as it was said.
#[derive(Clone, Debug, Default)]
pub struct DrawnTexts {
    /// What one is told on coming to her.
    pub opens: String,
    /// What she trains.
    pub trains: String,
    /// What is wrong with her.
    pub truth: String,
    /// Where she comes from.
    pub source: String,
}

/// Says what is told of a bird that was drawn.
pub type Tells<'t> = dyn Fn(&Drawn) -> DrawnTexts + 't;

impl Drawn {
    /// The bird with what is told of her.
    pub fn said(self, texts: DrawnTexts) -> Script {
        let DrawnTexts { opens, trains, truth, source } = texts;
        let mut script = self.script;
        script.scenario.story.clone_from(&truth);
        script.scenario.source = source;
        script.scenario.lesson = script.scenario.lesson.map(|lesson| Lesson { opens, trains, truth, ..lesson });
        script
    }
}

/// How much the solver may do to tell whether any bird gets a verdict.
const WORK: u32 = 1_000_000;
/// How often a bird is begun anew before it is given up.
const GOES: usize = 60;
/// How many signs are tried on one bird.
const TRIES: usize = 400;
/// Names of our own for birds that are drawn.
const NAMES: [&str; 12] = [
    "Tuppence", "Wren", "Nettle", "Gorse", "Fable", "Quill", "Thimble", "Bracken", "Sorrel", "Pebble", "Linnet", "Moss",
];

/// Draws a bird.
///
/// # Errors
/// Where no bird comes to what is wanted.
pub fn draw(protocol: &Protocol, seed: u64, wanted: Wanted) -> Result<Drawn, DrawError> {
    reachable(protocol, wanted)?;
    let mut rng = Rng::with_seed(seed);
    let pen = Pen::new(protocol);
    (0..GOES)
        .find_map(|_| pen.bird(&mut rng, wanted))
        .map(|sheet| drawn(protocol, seed, &sheet))
        .ok_or(DrawError::NotFound)
}

/// Whether any bird that has been looked over comes to each rung wanted.
fn reachable(protocol: &Protocol, wanted: Wanted) -> Result<(), DrawError> {
    let asks = wants(wanted);
    if asks.iter().all(Option::is_none) {
        return Ok(());
    }
    let mut blank = Sheet::blank(protocol, DateTime::UNIX_EPOCH);
    blank.suppose_looked_over();
    let Ok(envelope) = envelope(protocol, &blank, Work(WORK)) else { return Ok(()) };
    for (scale, rung) in Scale::ALL.into_iter().zip(asks) {
        let band = envelope.of(scale);
        if let Some(wanted) = rung.filter(|rung| *rung < band.low || *rung > band.high) {
            return Err(DrawError::Nobody { scale, wanted, least: band.low, most: band.high });
        }
    }
    Ok(())
}

/// The rungs wanted, as numbers.
fn wants(wanted: Wanted) -> [Option<Rung>; 3] {
    [
        wanted.need.map(|rung| rung as Rung),
        wanted.humane.map(|rung| rung as Rung),
        wanted.authority.map(|rung| rung as Rung),
    ]
}

struct Pen<'p> {
    protocol: &'p Protocol,
    blank: Sheet<'p>,
    /// The questions on whose answers it hangs whether others apply.
    gates: BTreeSet<QuestionAt>,
}

impl<'p> Pen<'p> {
    fn new(protocol: &'p Protocol) -> Self {
        let gates = protocol.questions.iter().filter_map(|question| question.applies.as_ref());
        let gates = gates.flat_map(Cond::questions).collect();
        Self { protocol, blank: Sheet::blank(protocol, DateTime::UNIX_EPOCH), gates }
    }

    /// One bird, where she came to what is wanted.
    fn bird(&self, rng: &mut Rng, wanted: Wanted) -> Option<Sheet<'p>> {
        let level = wanted.level.or_else(|| rng.choice(Grade::ALL))?;
        let (signs, wounds) = match level {
            Grade::First => (rng.usize(0..=1), rng.usize(0..=1)),
            Grade::Second => (rng.usize(1..=3), rng.usize(0..=1)),
            Grade::Third => (rng.usize(3..=5), rng.usize(0..=2)),
        };
        let mut bird = self.well(rng, wounds);
        let asks = wants(wanted);
        let mut put = 0;
        for _ in 0..TRIES {
            let done = put >= signs && self.comes_to(&bird, asks);
            if done {
                break;
            }
            let before = self.short_of(&bird, asks);
            let toward = before > 0 && rng.bool();
            let next = if toward { self.toward(rng, &bird, asks) } else { self.with_a_sign(rng, &bird) };
            let Some(next) = next else { continue };
            let after = self.short_of(&next, asks);
            // Once there are signs enough, another one must bring her nearer; now and then one that only prepares it may.
            let nearer = after < before || (after == before && (put < signs || rng.u8(..) < 8));
            if nearer && !self.beyond(&next, asks) {
                (bird, put) = (next, put + 1);
            }
        }
        self.leave_moot(&mut bird);
        (self.comes_to(&bird, asks) && is_possible(self.protocol, &self.blank, &bird)).then_some(bird)
    }

    /// What has become moot for her is as always: nobody is asked it, so that nobody could find it.
    fn leave_moot(&self, bird: &mut Sheet) {
        for (question_at, question) in self.protocol.enumerated().filter(|(_, question)| question.moot.is_some()) {
            for about in bird.abouts(question).collect::<Vec<_>>() {
                let asked = Asked { about, question: question_at };
                if bird.is_moot(asked) {
                    bird.suppose(asked, Cell::Given(0));
                }
            }
        }
    }

    /// A bird with a story, so many wounds, and nothing else the matter.
    fn well(&self, rng: &mut Rng, wounds: usize) -> Sheet<'p> {
        let mut bird = self.blank.clone();
        (0..wounds).for_each(|_| {
            bird.suppose_wound();
        });
        bird.suppose_looked_over();
        bird.suppose_applies();
        self.fill(rng, &mut bird);
        bird
    }

    /// Answers everything that is open: what is ordered with its finest answer, the rest by chance.
    fn fill(&self, rng: &mut Rng, bird: &mut Sheet<'p>) {
        for (question_at, question) in self.protocol.enumerated() {
            for about in bird.abouts(question) {
                let asked = Asked { about, question: question_at };
                if !bird.is_open(asked) {
                    continue;
                }
                let fine = question.ordered || bird.is_moot(asked);
                let cell = if fine { Cell::Given(0) } else { Self::any(rng, bird, question) };
                bird.suppose(asked, cell);
                if !question.ordered && !is_possible(self.protocol, &self.blank, bird) {
                    bird.suppose(asked, self.fitting(bird, asked, question));
                }
                if self.gates.contains(&question_at) {
                    bird.suppose_applies();
                }
            }
        }
    }

    /// An answer by chance, the frequent ones more often.
    fn any(rng: &mut Rng, bird: &Sheet, question: &Question) -> Cell {
        let offered = (0u8..).zip(&question.choices).filter(|(at, _)| question.is_offered(*at, bird.kind()));
        let offered: Vec<(u8, u32)> = offered.map(|(at, choice)| (at, choice.often.max(1))).collect();
        let all: u32 = offered.iter().map(|(_, often)| often).sum();
        let mut left = rng.u32(0..all.max(1));
        for (at, often) in offered {
            if left < often {
                return Cell::Given(at);
            }
            left -= often;
        }
        Cell::CannotTell
    }

    /// The first answer with which she can be; "cannot tell" where there is none.
    fn fitting(&self, bird: &Sheet<'p>, asked: Asked, question: &Question) -> Cell {
        let mut tried = bird.clone();
        let mut fits = |at: &u8| {
            tried.suppose(asked, Cell::Given(*at));
            question.is_offered(*at, bird.kind()) && is_possible(self.protocol, &self.blank, &tried)
        };
        (0u8..).zip(&question.choices).map(|(at, _)| at).find(|at| fits(at)).map_or(Cell::CannotTell, Cell::Given)
    }

    /// The bird with one answer changed, where she can still be.
    fn with_a_sign(&self, rng: &mut Rng, bird: &Sheet<'p>) -> Option<Sheet<'p>> {
        let (at, question) = self.protocol.enumerated().nth(rng.usize(..self.protocol.questions.len()))?;
        // A danger sign is rare, and settles most by itself.
        let rare = self.protocol.is_danger_sign(question) && rng.u8(..) > 64;
        if rare || question.worked_out.is_some() || question.shown_if.is_some() {
            return None;
        }
        let abouts: Vec<About> = bird.abouts(question).collect();
        let asked = Asked { about: *abouts.get(rng.usize(..abouts.len().max(1)))?, question: at };
        if bird.applies(asked.about.into(), at) == Truth::No || bird.is_moot(asked) {
            return None;
        }
        let cell = Self::any(rng, bird, question);
        let mut next = bird.clone();
        next.suppose(asked, cell);
        if self.gates.contains(&at) {
            next.suppose_applies();
            self.fill(rng, &mut next);
        }
        (bird.cell(asked.about.into(), at) != cell && is_possible(self.protocol, &self.blank, &next)).then_some(next)
    }

    /// The bird with chance answers to all that some rule reads which leads where she falls short.
    fn toward(&self, rng: &mut Rng, bird: &Sheet<'p>, asks: [Option<Rung>; 3]) -> Option<Sheet<'p>> {
        let short = Scale::ALL.into_iter().zip(asks).zip(self.floor(bird));
        let short: Vec<(Scale, Rung)> =
            short.filter_map(|((scale, ask), is)| Some((scale, ask.filter(|ask| is < *ask)?))).collect();
        let leads = |rule: &&Rule| short.iter().any(|(scale, rung)| scale.of(rule) == *rung);
        let rules: Vec<_> = self.protocol.rules.iter().filter(leads).collect();
        let mut questions = rules.get(rng.usize(..rules.len().max(1)))?.when.questions();
        questions.sort_unstable();
        let mut next = bird.clone();
        for at in questions {
            let question = self.protocol.ask(at);
            let abouts: Vec<About> = next.abouts(question).collect();
            let asked = Asked { about: *abouts.get(rng.usize(..abouts.len().max(1)))?, question: at };
            let choice = u8::try_from(rng.usize(..question.choices.len().max(1))).ok()?;
            if next.applies(asked.about.into(), at) == Truth::No || !question.is_offered(choice, next.kind()) {
                continue;
            }
            next.suppose(asked, Cell::Given(choice));
            if self.gates.contains(&at) {
                next.suppose_applies();
                self.fill(rng, &mut next);
            }
        }
        is_possible(self.protocol, &self.blank, &next).then_some(next)
    }

    fn floor(&self, bird: &Sheet) -> [Rung; 3] {
        floors(self.protocol, bird)
    }

    /// By how many rungs she falls short of what is wanted.
    fn short_of(&self, bird: &Sheet, asks: [Option<Rung>; 3]) -> u8 {
        let short = |(ask, is): (Option<Rung>, Rung)| ask.map_or(0, |ask| ask.saturating_sub(is));
        asks.into_iter().zip(self.floor(bird)).map(short).sum()
    }

    /// Whether she came further than wanted.
    fn beyond(&self, bird: &Sheet, asks: [Option<Rung>; 3]) -> bool {
        asks.into_iter().zip(self.floor(bird)).any(|(ask, is)| ask.is_some_and(|ask| is > ask))
    }

    fn comes_to(&self, bird: &Sheet, asks: [Option<Rung>; 3]) -> bool {
        asks.into_iter().zip(self.floor(bird)).all(|(ask, is)| ask.is_none_or(|ask| is == ask))
    }
}

/// The bird as a script, with what a keeper would tell of her and what is wrong.
fn drawn(protocol: &Protocol, seed: u64, bird: &Sheet) -> Drawn {
    let mut findings = Findings::default();
    (0..bird.wounds()).for_each(|_| {
        findings.find_wound();
    });
    let (mut told, mut wrong) = (Vec::new(), Vec::new());
    for (at, question) in protocol.enumerated() {
        for about in bird.abouts(question) {
            let cell = bird.cell(about.into(), at);
            // What stands where nobody is asked any more is no answer; what shows comes from the rest.
            if bird.applies(about.into(), at) == Truth::No || question.shown_if.is_some() {
                continue;
            }
            let Some(answer) = answer_of(question, cell) else { continue };
            if protocol.roles.story.contains(&at) {
                told.push((at, answer.clone()));
            }
            let of_wound = about != About::Bird && protocol.roles.of_wounds.contains(&at);
            if of_wound
                || (question.has_a_fine_answer() && matches!(cell, Cell::Given(1..)) && at != protocol.roles.reach)
            {
                wrong.push((Asked { about, question: at }, answer.clone()));
            }
            findings.say(Statement { about, question: question.id.clone(), answer }, DateTime::UNIX_EPOCH);
        }
    }
    findings.look_over();
    what_shows(protocol, &mut findings);
    let verdict = judge_bands(protocol, &findings, DateTime::UNIX_EPOCH);
    let right = Rungs3 { need: verdict.need.low, humane: verdict.humane.low, authority: verdict.authority.low };
    let teach = |reason: &Reason| {
        let rule = protocol.rule(reason.rule);
        Teaching { say: rule.reason.clone(), source: protocol.source_id(rule.source).to_string() }
    };
    let at = usize::try_from(seed % (NAMES.len() as u64)).unwrap_or(0);
    let lesson = Lesson {
        name: NAMES.get(at).copied().unwrap_or_default().to_owned(),
        level: level_of(wrong.len()),
        opens: String::new(),
        trains: String::new(),
        truth: String::new(),
        shows: Pairs::default(),
        shows_wounds: Vec::new(),
        turns: Vec::new(),
        tempts: Vec::new(),
        teaches: verdict.reasons.iter().take(2).map(teach).collect(),
    };
    let scenario = Scenario {
        story: String::new(),
        source: String::new(),
        answers: Pairs::default(),
        wounds: Vec::new(),
        looked_over: true,
        well_otherwise: false,
        expect: Expect::exactly(right),
        no_vet: None,
        lesson: Some(lesson),
    };
    Drawn { seed, told, wrong, script: Script { name: format!("drawn-{seed}"), scenario, findings } }
}

fn level_of(signs: usize) -> Grade {
    match signs {
        0..=2 => Grade::First,
        3..=6 => Grade::Second,
        _ => Grade::Third,
    }
}
