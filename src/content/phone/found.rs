//! What of a bird is said aloud: the finding behind each reason, a sign in a few words, a wound with what is worst of it.

use super::is_stale;
use crate::content::answers;
use crate::content::figures::hurt_ago;
use crate::finding::{About, Answer, Findings};
use crate::judge::{Reason, Standing};
use crate::phrase::{Text, phone as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::cond::{AnswerSet, Cond, Measure, QuestionAt, Threshold};
use crate::protocol::question::{Asked, Question};
use crate::protocol::rule::Rule;
use crate::protocol::scale::Need;
use crate::prove::Exact;
use crate::sheet::{Cell, Sheet, Subject, Truth};
use std::mem::{Discriminant, discriminant};

/// What is said for a reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finding {
    /// An answer about the bird.
    Sign(QuestionAt),
    /// One of what is said of every bird: what happened, and when.
    Story(QuestionAt),
    /// A wound.
    Wound(usize),
    /// The rule's own words: several signs together, or a sum.
    Words(Text),
}

/// A bird as she was found, and what was made of it.
pub struct Found<'a> {
    pub protocol: &'a Protocol,
    pub findings: &'a Findings,
    pub verdict: &'a Exact,
    sheet: Sheet<'a>,
    /// What has become of a sign, told with the sign.
    told_with: Vec<QuestionAt>,
}

impl<'a> Found<'a> {
    /// Lays out what was found.
    pub fn of(protocol: &'a Protocol, findings: &'a Findings, verdict: &'a Exact) -> Self {
        let sheet = Sheet::lay(protocol, findings, verdict.judged_at);
        let told_with =
            protocol.questions.iter().filter_map(|question| asked_after(protocol, findings, question)).collect();
        Self { protocol, findings, verdict, sheet, told_with }
    }

    /// The reasons that move a scale, gravest first.
    pub fn reasons(&self) -> impl Iterator<Item = &'a Reason> + use<'a> {
        let protocol = self.protocol;
        let moves = move |rule: &Rule| rule.need.is_some() || rule.humane.is_some() || rule.authority.is_some();
        self.verdict.reasons.iter().filter(move |reason| moves(protocol.rule(reason.rule)))
    }

    /// What is said for a reason. One answer says itself; where several make it, or a sum, the rule's own words come first. What
    /// could not be told is not told as if it had been.
    pub fn behind(&self, reason: &Reason) -> Vec<Finding> {
        let rule = self.protocol.rule(reason.rule);
        if !self.is_seen(reason) {
            return vec![Finding::Words(self.unclear(reason))];
        }
        let mut parts = self.met(&rule.when, reason.about);
        // A vet who is on the phone need not hear that none is in reach.
        let of_reach = rule.when.questions().contains(&self.protocol.roles.reach);
        let joins = parts.is_empty() || (!of_reach && (parts.len() > 1 || !measures(rule).is_empty()));
        if joins && !self.names_milder(&rule.reason) {
            parts.insert(0, Finding::Words(Text::quoted(first_sentence(&rule.reason))));
        }
        parts
    }

    /// Whether what a reason rests on was seen. What could not be told may stand in an exception alone: then it was.
    pub fn is_seen(&self, reason: &Reason) -> bool {
        let when = &self.protocol.rule(reason.rule).when;
        reason.standing != Standing::CouldNotTell || self.sheet.surely(when, reason.about.into())
    }

    /// What could not be told and holds a rule in force.
    fn unclear(&self, reason: &Reason) -> Text {
        let says = || Text::quoted(&self.protocol.rule(reason.rule).reason);
        let untold = answers::untold(self.protocol, &self.sheet, [reason]);
        untold.map_or_else(|| phrase::not_ruled_out(says()), phrase::untold).into()
    }

    /// The answers that meet a condition, each once, by what they are told as.
    fn met(&self, cond: &Cond, about: About) -> Vec<Finding> {
        let mut literals = Vec::new();
        positive(cond, &mut literals);
        let mut found = Vec::new();
        for (at, set) in literals {
            let question = self.protocol.ask(at);
            let abouts = match (question.wound, about) {
                (false, _) => vec![About::Bird],
                (true, About::Wound(_)) => vec![about],
                (true, About::Bird) => (0..self.sheet.wounds()).map(About::Wound).collect(),
            };
            for about in abouts {
                let told = match (about, self.told_in_story(Asked { about, question: at })) {
                    (_, Some(story)) => Finding::Story(story),
                    (About::Wound(number), None) => Finding::Wound(number),
                    (About::Bird, None) => Finding::Sign(at),
                };
                let met = self.is_met(Asked { about, question: at }, set) && !self.told_with.contains(&at);
                if met && !found.contains(&told) {
                    found.push(told);
                }
            }
        }
        found
    }

    /// Whether an answer stands, is one of these, and says more than that all is as it should be.
    fn is_met(&self, asked: Asked, set: AnswerSet) -> bool {
        let question = self.protocol.ask(asked.question);
        let worst = match self.cell(asked) {
            Some(Cell::Given(choice)) if set.holds(choice) => choice,
            Some(Cell::Worked(_, _, last)) if set.holds(last) => last,
            _ => return false,
        };
        let roles = &self.protocol.roles;
        let known = [roles.kind.question, roles.reach].contains(&asked.question);
        !(known || question.ordered && worst == 0)
    }

    /// What stands of a question that applies.
    fn cell(&self, asked: Asked) -> Option<Cell> {
        let subject = Subject::from(asked.about);
        let applies = self.sheet.applies(subject, asked.question) != Truth::No;
        applies.then(|| self.sheet.cell(subject, asked.question))
    }

    /// Whether words are those of a milder answer than the one that was given: pus is not to be told as dirt.
    fn names_milder(&self, words: &str) -> bool {
        let low = words.to_lowercase();
        self.protocol.enumerated().filter(|(_, question)| question.ordered).any(|(at, question)| {
            let given =
                self.sheet.abouts(question).filter_map(|about| match self.cell(Asked { about, question: at })? {
                    Cell::Given(choice) | Cell::Worked(_, _, choice) => Some(usize::from(choice)),
                    Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => None,
                });
            let worst = given.max().unwrap_or(0);
            let says = |choice: &crate::protocol::question::Choice| {
                is_phrase(&choice.say) && low.contains(&choice.say.to_lowercase())
            };
            question.choices.iter().take(worst).skip(1).any(says) && !question.choices.get(worst).is_some_and(says)
        })
    }

    /// An answer about the bird in a few words, with what became of it since.
    pub fn sign(&self, at: QuestionAt) -> Option<Text> {
        let question = self.protocol.ask(at);
        let words = answers::known(self.protocol, self.findings, About::Bird, question)?;
        if says_itself(question) && matches!(self.cell(Asked::of_bird(at)), Some(Cell::Given(_))) {
            let words = Text::opening(words);
            let since = since(self.protocol, self.findings, question);
            let told =
                since.map_or_else(|| terms::ended(words.clone()), |since| terms::named_ended(words.clone(), since));
            return Some(told.into());
        }
        Some(terms::named_ended(topic_of(question), words).into())
    }

    /// Signs that are not as they should be and that no reason tells, the worst first.
    pub fn other_signs(&self) -> Vec<QuestionAt> {
        let mut found = Vec::new();
        for (at, question) in self.protocol.enumerated().filter(|(at, _)| self.protocol.is_sign(*at)) {
            let rung = match self.cell(Asked::of_bird(at)) {
                Some(Cell::Given(choice) | Cell::Worked(_, _, choice)) => usize::from(choice),
                _ => 0,
            };
            // What somebody said shows and a second look did not bear out is no news to a vet.
            let gone = question.shown_if.as_ref().is_some_and(|cond| self.sheet.surely_not(cond, Subject::Bird));
            if rung > 0 && !gone && !self.told_with.contains(&at) {
                found.push((question.choices.len() - rung, at));
            }
        }
        found.sort_by_key(|(from_worst, _)| *from_worst);
        found.into_iter().map(|(_, at)| at).collect()
    }

    /// One of what is said of every bird. Where it is not known of her, her wounds may tell it.
    pub fn story(&self, at: QuestionAt) -> Text {
        let question = self.protocol.ask(at);
        let asked = Asked::of_bird(at);
        // "Less than an hour ago" is said of the moment it was told; days later the clock has gone on.
        let stale = is_stale(self.protocol, self.findings, asked, self.verdict.judged_at);
        let since = self.verdict.figures.hurt.filter(|_| stale).map(|hurt| Text::from(hurt_ago(hurt)));
        let of_bird = since.or_else(|| answers::known(self.protocol, self.findings, About::Bird, question));
        let words = of_bird.or_else(|| self.story_of_wounds(question)).unwrap_or_else(|| phrase::not_known().into());
        terms::named_ended(topic_of(question), words).into()
    }

    /// The same as her wounds tell it, the worst first.
    pub fn story_of_wounds(&self, question: &Question) -> Option<Text> {
        let of = self.protocol.question_at(question.id.as_str())?;
        let (at, asks) = self.protocol.enumerated().find(|(_, other)| other.asks_after == Some(of))?;
        let mut told: Vec<Text> = Vec::new();
        for number in self.wounds_worst_first() {
            let about = About::Wound(number);
            let stale = is_stale(self.protocol, self.findings, Asked { about, question: at }, self.verdict.judged_at);
            let since = stale.then(|| Text::from(hurt_ago(self.sheet.time_since(about.into()).band)));
            let words = since.or_else(|| answers::known(self.protocol, self.findings, about, asks));
            told.extend(words.filter(|words| !told.contains(words)));
        }
        told.truncate(STORIES);
        (!told.is_empty()).then(|| Text::clauses(told))
    }

    /// Whether a wound by itself brings a need of at least this.
    pub fn brings(&self, wound: usize, need: Need) -> bool {
        self.reasons()
            .any(|reason| reason.about == About::Wound(wound) && self.protocol.rule(reason.rule).need >= Some(need))
    }

    /// Her wounds, those first that the graver rules speak of.
    fn wounds_worst_first(&self) -> Vec<usize> {
        let mut wounds: Vec<usize> = (0..self.findings.wounds()).collect();
        let speaks = |number: usize| self.reasons().position(|reason| reason.about == About::Wound(number));
        wounds.sort_by_key(|number| speaks(*number).unwrap_or(usize::MAX));
        wounds
    }

    /// Her wounds, the worst first; such as nothing tells apart stand together.
    pub fn wounds(&self) -> Vec<Wounds> {
        let mut found: Vec<Wounds> = Vec::new();
        for number in self.wounds_worst_first() {
            let wound = self.features(number);
            match found.iter_mut().find(|wounds| wounds.is == wound.is && wounds.more == wound.more) {
                Some(wounds) => wounds.numbers.push(number),
                None => found.push(wound),
            }
        }
        found
    }

    /// What a wound is, and what is not as it should be of it: what the graver rules read of it first.
    fn features(&self, number: usize) -> Wounds {
        let about = About::Wound(number);
        let is_about = |question: &Question| question.wound && !question.ordered;
        let first = self.protocol.said_of_wounds.iter().copied();
        let (is, then): (Vec<QuestionAt>, Vec<QuestionAt>) = first.partition(|at| is_about(self.protocol.ask(*at)));
        let reasons = self.verdict.reasons.iter();
        let mut of_it: Vec<&Reason> = reasons.filter(|reason| reason.about == about && self.is_seen(reason)).collect();
        // What brings her need comes before what is grave in another way.
        of_it.sort_by_key(|reason| self.protocol.rule(reason.rule).need < Some(self.verdict.need.low));
        let mut order: Vec<Vec<QuestionAt>> = Vec::new();
        for reason in of_it {
            let mut literals = Vec::new();
            positive(&self.protocol.rule(reason.rule).when, &mut literals);
            let met = |(at, set): &(QuestionAt, AnswerSet)| {
                self.protocol.ask(*at).wound && self.is_met(Asked { about, question: *at }, *set)
            };
            order.push(literals.into_iter().filter(met).map(|(at, _)| at).collect());
        }
        order.push(then);
        let (mut more, mut never_without): (Vec<QuestionAt>, usize) = (Vec::new(), 0);
        for at_once in order {
            for at in at_once {
                let asked = Asked { about, question: at };
                let told = is.contains(&at) || more.contains(&at) || self.told_in_story(asked).is_some();
                if !told && !self.is_fine(asked) {
                    more.push(at);
                }
            }
            if never_without == 0 {
                never_without = more.len();
            }
        }
        let words = |of: Vec<QuestionAt>| {
            of.into_iter()
                .filter_map(|at| answers::known(self.protocol, self.findings, about, self.protocol.ask(at)))
                .collect()
        };
        Wounds { numbers: vec![number], is: words(is), more: words(more), never_without }
    }

    /// Whether the answer to an ordered question is its finest: that a wound is dry needs no words.
    fn is_fine(&self, asked: Asked) -> bool {
        let question = self.protocol.ask(asked.question);
        let said = self.findings.answer(asked.about, question.id.as_str()).map(|said| &said.statement.answer);
        question.ordered && said == question.first_answer().as_ref()
    }

    /// Where in the story an answer is told: what is said of every bird is; of a wound, the same answer as hers, or one in place of
    /// hers where that is not known.
    fn told_in_story(&self, asked: Asked) -> Option<QuestionAt> {
        let question = self.protocol.ask(asked.question);
        if self.protocol.said_first.contains(&asked.question) {
            return Some(asked.question);
        }
        let at = question.asks_after?;
        let general = self.protocol.ask(at);
        let answer = |about: About, question: &Question| {
            let said = self.findings.answer(about, question.id.as_str())?;
            (said.statement.answer != Answer::CannotTell).then_some(&said.statement.answer)
        };
        let hers = answer(About::Bird, general);
        let told =
            question.gives == Some(Measure::TimeSince) || hers.is_none() || hers == answer(asked.about, question);
        told.then_some(at)
    }
}

/// At most so many stories of her wounds are told.
const STORIES: usize = 2;

/// Wounds that nothing tells apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wounds {
    /// Which they are, counted from 0.
    pub numbers: Vec<usize>,
    /// Where and what: always told.
    is: Vec<Text>,
    /// What is worse of it first.
    more: Vec<Text>,
    /// So many of them make the gravest of it.
    never_without: usize,
}

impl Wounds {
    /// In words, with at most so many of the features that are not as they should be.
    pub fn say(&self, features: usize) -> Text {
        // What it is and each feature may hold commas of its own.
        let is = (!self.is.is_empty()).then(|| Text::list(self.is.clone()));
        let told: Vec<Text> = is.into_iter().chain(self.more.iter().take(features).cloned()).collect();
        let told = if told.is_empty() { phrase::nothing_known().into() } else { Text::clauses(told) };
        match self.numbers.len() {
            1 => phrase::wound(told).into(),
            many => phrase::wounds_alike(many, told).into(),
        }
    }

    /// The fewest features without which it would look milder than it is.
    pub fn fewest(&self) -> usize {
        self.never_without.min(self.more.len())
    }

    /// How many there are.
    pub fn most(&self) -> usize {
        self.more.len()
    }
}

/// A question's topic, as a line begins with it.
fn topic_of(question: &Question) -> Text {
    Text::opening(Text::quoted(&question.topic))
}

/// Whether an answer is long enough to be known again in other words: "pale" alone is said of much.
fn is_phrase(say: &str) -> bool {
    say.split(' ').count() > 2
}

/// The literals of a condition whose answers meet it, in order; what stands under `Not` meets it by not being so.
fn positive(cond: &Cond, found: &mut Vec<(QuestionAt, AnswerSet)>) {
    match cond {
        Cond::Answer(at, set) => found.push((*at, *set)),
        Cond::All(parts) | Cond::Any(parts) | Cond::Count(_, parts) => {
            for part in parts {
                positive(part, found);
            }
        }
        Cond::SomeWound(part) => positive(part, found),
        Cond::Always | Cond::Not(_) | Cond::AtLeast(_) | Cond::Under(_) => {}
    }
}

/// The measures that a rule reads.
pub fn measures(rule: &Rule) -> Vec<Discriminant<Threshold>> {
    let mut found = Vec::new();
    rule.when.walk(&mut |cond| {
        if let Cond::AtLeast(threshold) | Cond::Under(threshold) = cond {
            found.push(discriminant(threshold));
        }
    });
    found
}

/// What has become of a sign since, where its instruction asks for that and it was told.
pub fn since(protocol: &Protocol, findings: &Findings, question: &Question) -> Option<Text> {
    let after = asked_after(protocol, findings, question)?;
    answers::known(protocol, findings, About::Bird, protocol.ask(after))
}

/// A sign that is there or not says itself, and what became of it is said with it.
const fn says_itself(question: &Question) -> bool {
    question.list.is_some() || question.choices.len() == 2
}

/// The question that the instruction of the answer that stands asks when it is done.
fn asked_after(protocol: &Protocol, findings: &Findings, question: &Question) -> Option<QuestionAt> {
    let answer =
        &findings.answer(About::Bird, question.id.as_str()).filter(|_| says_itself(question))?.statement.answer;
    let choice = question.choices.iter().find(|choice| *answer == Answer::Choice(choice.id.clone()))?;
    protocol.instruction(choice.instruct?).then
}

/// The first sentence of a reason: what else it says is read, not heard.
fn first_sentence(reason: &str) -> &str {
    reason.find(". ").map_or(reason, |end| &reason[..=end])
}
