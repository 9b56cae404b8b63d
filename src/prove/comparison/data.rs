//! What no bird can show: what a protocol holds less of as data, and what is only worded otherwise.

use super::Comparison;
use super::difference::Loss;
use crate::finding::Id;
use crate::protocol::Protocol;
use crate::protocol::action::{Action, ActionAt, End, Forbidden, Part, Until};
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Question;
use crate::protocol::rule::{Advice, Conflict, Instruction, Rule, RulesOut};
use crate::protocol::scale::{Severity, System};
use crate::protocol::source::Strength;
use crate::prove::links::Links;
use crate::prove::scales::{Rung, Scale};
use std::collections::BTreeSet;

/// A difference of data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Which sort of thing: rule, question, action.
    pub sort: Sort,
    /// Its key; empty for what has none.
    pub id: String,
    /// What differs.
    pub what: Differs,
}

/// Which sort of thing differs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A question.
    Question,
    /// An answer of a question, by the question's key.
    Answer,
    /// A rule.
    Rule,
    /// An action.
    Action,
    /// The ban on an action.
    Ban,
    /// A conflict of two actions, by the key of the one that goes.
    Conflict,
    /// An action that goes where another is forbidden.
    RulingOut,
    /// An instruction.
    Instruction,
    /// What is said of every bird.
    Protocol,
    /// Answers that rule each other out.
    Exclusion,
}

/// What two instructions list, and what it is where one of ours is missing.
type Listed<'p> = (&'p Vec<ActionAt>, &'p Vec<ActionAt>, fn(Id) -> Differs);

impl Sort {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Question => "question",
            Self::Answer => "answer",
            Self::Rule => "rule",
            Self::Action => "action",
            Self::Ban => "ban",
            Self::Conflict => "conflict",
            Self::RulingOut => "ruling-out",
            Self::Instruction => "instruction",
            Self::Protocol => "protocol",
            Self::Exclusion => "exclusion",
        }
    }
}

/// In what a thing of one's own protocol differs from the shipped one's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Differs {
    /// It is not in one's own.
    Lacking,
    /// The question is not in one's own: nobody is asked it.
    NobodyAsked,
    /// The rule is gone.
    Gone,
    /// It is only in one's own.
    OnlyOwn,
    /// The exclusion is only in one's own: birds it rules out were not compared.
    NotCompared,
    /// The answer of this name is not among one's own.
    AnswerLacking(Id),
    /// The answer of this name is only in one's own.
    AnswerOnlyOwn(Id),
    /// The same words stand for another answer.
    AnswerMoved {
        /// The words.
        say: String,
        /// Whose answer they are in one's own.
        own: Id,
        /// Whose in the shipped one.
        shipped: Id,
    },
    /// The answer of this name reads otherwise.
    AnswerReads {
        /// The answer.
        answer: Id,
        /// How one's own reads.
        own: String,
        /// How the shipped one reads.
        shipped: String,
    },
    /// Its answers stand in another order.
    Order,
    /// Its answers have no order.
    NoOrder,
    /// It is asked in other words.
    AskedOtherwise,
    /// It leads less far on a scale.
    LessFar(Scale, Pairing<Rung>),
    /// It no longer says whose figure it borrows.
    NotBorrowed(String),
    /// It claims to be known better than it is.
    Claims(Pairing<Strength>),
    /// It gives as advice of this source what is an inference.
    AdviceOf(Id),
    /// It no longer keeps the ban on this action until a vet's word.
    BanNotKept(Id),
    /// It no longer forbids this action.
    ForbidsNot(Id),
    /// It no longer tells to do this action.
    TellsNotToDo(Id),
    /// It no longer tells this action.
    TellsNot(Id),
    /// It has to be acted on later, or at no set hour.
    Later,
    /// It calls this less than so grave.
    LessGrave(System, Severity),
    /// It gives its reason in other words.
    ReasonOtherwise,
    /// It no longer comes before any phone call.
    NotAtOnce,
    /// It stands later in the plan.
    LaterInPlan,
    /// It is said to do less harm where it is left out.
    LeftOut,
    /// It has no ban any more.
    NoBan,
    /// It is told in other words.
    ToldOtherwise,
    /// The ban ends otherwise.
    Ends(Box<Pairing<Until>>),
    /// It bars less.
    BarsLess,
    /// It is said to do less harm where it is broken.
    Broken,
    /// It no longer stands back for this action.
    StandsNotBack(Id),
    /// It no longer goes where this action is forbidden.
    GoesNot(Id),
    /// It no longer says whom to phone.
    NoPhone,
    /// It asks nothing once it was carried out.
    AsksNothing,
    /// A bird may be held longer. Seconds.
    Held(Pairing<u32>),
    /// The dark hours are longer, or less keeps her looked at in them.
    Night,
    /// Eggs and meat are withheld in other words.
    WithheldOtherwise,
}

/// The same of both protocols.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pairing<T> {
    /// Of one's own.
    pub own: T,
    /// Of the shipped one.
    pub shipped: T,
}

/// Tells every difference of data.
pub fn differences(shipped: &Protocol, own: &Protocol, links: &Links, found: &mut Comparison) {
    let mut desk = Comparing { shipped, own, found };
    desk.questions(links);
    desk.rules();
    desk.actions();
    desk.pairs();
    desk.instructions();
    desk.whole();
}

/// Takes out of the differences of data what a bird shows more plainly.
pub fn shown_by_birds(shipped: &Protocol, found: &mut Comparison) {
    let Comparison { shown, weaker, .. } = found;
    let lost = |loss: &Loss| shown.iter().any(|shown| shown.losses.contains(loss));
    weaker.retain(|difference| {
        let action = shipped.actions.iter().find(|action| action.id == *difference.id);
        let shown = action.is_some_and(|action| lost(&Loss::MayNotBe(action.id.clone())));
        !(shown && matches!(difference.sort, Sort::Conflict | Sort::RulingOut))
    });
}

struct Comparing<'a> {
    shipped: &'a Protocol,
    own: &'a Protocol,
    found: &'a mut Comparison,
}

impl Comparing<'_> {
    fn weaker(&mut self, sort: Sort, id: &str, what: Differs) {
        self.found.weaker.push(Difference { sort, id: id.to_owned(), what });
    }

    fn otherwise(&mut self, sort: Sort, id: &str, what: Differs) {
        self.found.otherwise.push(Difference { sort, id: id.to_owned(), what });
    }

    fn questions(&mut self, links: &Links) {
        let (shipped, own) = (self.shipped, self.own);
        for (at, question) in shipped.enumerated() {
            match links.own(at) {
                None => self.weaker(Sort::Question, question.id.as_str(), Differs::NobodyAsked),
                Some(own_at) => self.answers(links, (at, question), (own_at, own.ask(own_at))),
            }
        }
        for (at, question) in own.enumerated().filter(|(at, _)| links.shipped(*at).is_none()) {
            let _ = at;
            self.otherwise(Sort::Question, question.id.as_str(), Differs::OnlyOwn);
        }
    }

    fn answers(&mut self, links: &Links, (_, there): (QuestionAt, &Question), (own_at, here): (QuestionAt, &Question)) {
        let id = there.id.as_str();
        for (answer, choice) in (0u8..).zip(&there.choices) {
            let Some(own) = links.own_answer(own_at, answer) else {
                self.weaker(Sort::Answer, id, Differs::AnswerLacking(choice.id.clone()));
                continue;
            };
            let Some(ours) = here.choices.get(usize::from(own)) else { continue };
            if ours.id != choice.id {
                let (say, own, shipped) = (choice.say.clone(), ours.id.clone(), choice.id.clone());
                let what = Differs::AnswerMoved { say, own, shipped };
                self.weaker(Sort::Answer, id, what);
            } else if ours.say != choice.say {
                let (answer, own, shipped) = (choice.id.clone(), ours.say.clone(), choice.say.clone());
                let what = Differs::AnswerReads { answer, own, shipped };
                self.otherwise(Sort::Answer, id, what);
            }
        }
        for (_, choice) in (0u8..).zip(&here.choices).filter(|(answer, _)| links.answer(own_at, *answer).is_none()) {
            self.otherwise(Sort::Answer, id, Differs::AnswerOnlyOwn(choice.id.clone()));
        }
        let places: Vec<Option<u8>> = (0u8..).zip(&here.choices).map(|(own, _)| links.answer(own_at, own)).collect();
        let known: Vec<u8> = places.into_iter().flatten().collect();
        if there.ordered && !known.is_sorted() {
            self.weaker(Sort::Question, id, Differs::Order);
        }
        if there.ordered && !here.ordered {
            self.weaker(Sort::Question, id, Differs::NoOrder);
        }
        if there.ask != here.ask || there.look != here.look {
            self.otherwise(Sort::Question, id, Differs::AskedOtherwise);
        }
    }

    fn rules(&mut self) {
        for rule in &self.shipped.rules {
            let id = rule.id.as_str();
            match self.own.rules.iter().find(|own| own.id == rule.id) {
                None => self.weaker(Sort::Rule, id, Differs::Gone),
                Some(own) => self.rule(rule, own),
            }
        }
        for rule in &self.own.rules {
            if !self.shipped.rules.iter().any(|other| other.id == rule.id) {
                self.otherwise(Sort::Rule, rule.id.as_str(), Differs::OnlyOwn);
            }
        }
    }

    fn rule(&mut self, there: &Rule, here: &Rule) {
        let id = there.id.as_str();
        for scale in Scale::ALL.into_iter().filter(|scale| scale.of(here) < scale.of(there)) {
            let rungs = Pairing { own: scale.of(here), shipped: scale.of(there) };
            self.weaker(Sort::Rule, id, Differs::LessFar(scale, rungs));
        }
        if let (Some(kind), None) = (&there.borrowed, &here.borrowed) {
            self.weaker(Sort::Rule, id, Differs::NotBorrowed(kind.clone()));
        }
        if rank(here.strength) > rank(there.strength) {
            let known = Pairing { own: here.strength, shipped: there.strength };
            self.weaker(Sort::Rule, id, Differs::Claims(known));
        }
        if let (Advice::Ours, Advice::Says(source)) = (&there.advice, &here.advice) {
            self.weaker(Sort::Rule, id, Differs::AdviceOf(self.own.source_id(*source).clone()));
        }
        for (action, _) in &there.stays {
            let key = &self.shipped.action(*action).id;
            if !here.stays.iter().any(|(own, _)| self.own.action(*own).id == *key) {
                self.weaker(Sort::Rule, id, Differs::BanNotKept(key.clone()));
            }
        }
        let less = |theirs: &[ActionAt], ours: &[ActionAt]| {
            let gone = theirs.iter().map(|at| &self.shipped.action(*at).id);
            gone.filter(|id| !ours.iter().any(|own| self.own.action(*own).id == **id)).cloned().collect::<Vec<Id>>()
        };
        for gone in less(&there.never, &here.never) {
            self.weaker(Sort::Rule, id, Differs::ForbidsNot(gone));
        }
        for gone in less(&there.acts, &here.acts) {
            self.weaker(Sort::Rule, id, Differs::TellsNotToDo(gone));
        }
        let by = |rule: &Rule| rule.by.as_ref().map(|by| by.hours);
        if by(there).is_some_and(|hours| by(here).is_none_or(|own| own > hours)) {
            self.weaker(Sort::Rule, id, Differs::Later);
        }
        for (system, grade) in &there.severity {
            if !here.severity.iter().any(|(own, graver)| own == system && graver >= grade) {
                self.weaker(Sort::Rule, id, Differs::LessGrave(*system, *grade));
            }
        }
        if there.reason != here.reason {
            self.otherwise(Sort::Rule, id, Differs::ReasonOtherwise);
        }
    }

    fn actions(&mut self) {
        for there in &self.shipped.actions {
            let id = there.id.as_str();
            match self.own.actions.iter().find(|own| own.id == there.id) {
                None => self.weaker(Sort::Action, id, Differs::Lacking),
                Some(here) => self.action(there, here),
            }
        }
    }

    fn action(&mut self, there: &Action, here: &Action) {
        let id = there.id.as_str();
        let place = |action: &Action| match action.part {
            Part::First => 0,
            Part::Wound => 1,
            Part::House => 2,
            Part::Flock => 3,
        };
        if there.at_once && !here.at_once {
            self.weaker(Sort::Action, id, Differs::NotAtOnce);
        }
        if place(here) > place(there) {
            self.weaker(Sort::Action, id, Differs::LaterInPlan);
        }
        let less = |theirs| here.left_out.is_none_or(|ours| ours as u8 > theirs as u8);
        if there.left_out.is_some_and(less) {
            self.weaker(Sort::Action, id, Differs::LeftOut);
        }
        match (&there.forbidden, &here.forbidden) {
            (Some(theirs), Some(ours)) => self.ban(id, theirs, ours),
            (Some(_), None) => self.weaker(Sort::Action, id, Differs::NoBan),
            (None, _) => {}
        }
        if there.say != here.say || there.how != here.how {
            self.otherwise(Sort::Action, id, Differs::ToldOtherwise);
        }
    }

    fn ban(&mut self, id: &str, there: &Forbidden, here: &Forbidden) {
        if self.ends_sooner(&there.until, &here.until) {
            let ends = Pairing { own: here.until.clone(), shipped: there.until.clone() };
            self.weaker(Sort::Ban, id, Differs::Ends(Box::new(ends)));
        }
        if there.bars.iter().any(|stance| !here.bars.contains(stance)) {
            self.weaker(Sort::Ban, id, Differs::BarsLess);
        }
        if (here.broken as u8) > (there.broken as u8) {
            self.weaker(Sort::Ban, id, Differs::Broken);
        }
    }

    /// Whether an end asks for less: a vet's word no longer, a test where nothing ended it, another test.
    fn ends_sooner(&self, there: &Until, here: &Until) -> bool {
        let test = match (&there.alone, &here.alone) {
            (End::Lives { .. }, End::Test { .. }) => true,
            (End::Test { when, .. }, End::Test { when: own, .. }) => named(self.shipped, when) != named(self.own, own),
            (_, End::Lives { .. }) => false,
        };
        test || (there.vet && !here.vet)
    }

    /// Conflicts and rulings-out, by the names of the actions that go.
    fn pairs(&mut self) {
        let conflict = |of: &Protocol, one: &Conflict| (of.action(one.keep).id.clone(), of.action(one.drop).id.clone());
        let out = |of: &Protocol, one: &RulesOut| (of.action(one.never).id.clone(), of.action(one.drop).id.clone());
        let gone = |theirs: Vec<(Id, Id)>, ours: &[(Id, Id)]| {
            theirs.into_iter().filter(|pair| !ours.contains(pair)).collect::<Vec<_>>()
        };
        let all = |of: &Protocol| of.conflicts.iter().map(|one| conflict(of, one)).collect::<Vec<_>>();
        for (keep, drop) in gone(all(self.shipped), &all(self.own)) {
            self.weaker(Sort::Conflict, drop.as_str(), Differs::StandsNotBack(keep));
        }
        let all = |of: &Protocol| of.rules_out.iter().map(|one| out(of, one)).collect::<Vec<_>>();
        for (never, drop) in gone(all(self.shipped), &all(self.own)) {
            self.weaker(Sort::RulingOut, drop.as_str(), Differs::GoesNot(never));
        }
    }

    fn instructions(&mut self) {
        for there in &self.shipped.instructions {
            let Some(here) = self.own.instructions.iter().find(|own| own.id == there.id) else {
                self.weaker(Sort::Instruction, there.id.as_str(), Differs::Lacking);
                continue;
            };
            self.instruction(there, here);
        }
    }

    fn instruction(&mut self, there: &Instruction, here: &Instruction) {
        let id = there.id.as_str();
        let ids = |of: &Protocol, all: &[ActionAt]| all.iter().map(|at| of.action(*at).id.clone()).collect::<Vec<Id>>();
        let lists: [Listed; 2] =
            [(&there.acts, &here.acts, Differs::TellsNot), (&there.never, &here.never, Differs::ForbidsNot)];
        for (theirs, ours, differs) in lists {
            let ours = ids(self.own, ours);
            for gone in ids(self.shipped, theirs).into_iter().filter(|id| !ours.contains(id)) {
                self.weaker(Sort::Instruction, id, differs(gone));
            }
        }
        if there.phones.is_some() && here.phones.is_none() {
            self.weaker(Sort::Instruction, id, Differs::NoPhone);
        }
        if there.then.is_some() && here.then.is_none() {
            self.weaker(Sort::Instruction, id, Differs::AsksNothing);
        }
    }

    /// What is said of every bird.
    fn whole(&mut self) {
        let (there, here) = (self.shipped, self.own);
        if here.hold_s > there.hold_s {
            let held = Pairing { own: here.hold_s, shipped: there.hold_s };
            self.weaker(Sort::Protocol, "hold_s", Differs::Held(held));
        }
        let ids = |protocol: &Protocol| -> BTreeSet<Id> {
            protocol.night.acts.iter().map(|act| protocol.action(*act).id.clone()).collect()
        };
        let longer = here.night.from_h < there.night.from_h || here.night.until_h > there.night.until_h;
        if longer || !ids(there).is_subset(&ids(here)) {
            self.weaker(Sort::Protocol, "night", Differs::Night);
        }
        for exclusion in &here.exclusions {
            if !there.exclusions.iter().any(|other| other.id == exclusion.id) {
                self.weaker(Sort::Exclusion, exclusion.id.as_str(), Differs::NotCompared);
            }
        }
        if here.withheld_until != there.withheld_until {
            self.otherwise(Sort::Protocol, "withheld_until", Differs::WithheldOtherwise);
        }
    }
}

/// How well a finding is said to be known: the higher, the better.
const fn rank(strength: Strength) -> u8 {
    match strength {
        Strength::Read => 4,
        Strength::SecondHand => 3,
        Strength::Memory => 2,
        Strength::Practice => 1,
        Strength::Proposal => 0,
    }
}

/// A condition by names, so that conditions of two protocols can be held against each other.
fn named(protocol: &Protocol, cond: &Cond) -> String {
    let each = |parts: &[Cond]| parts.iter().map(|part| named(protocol, part)).collect::<Vec<_>>().join(", ");
    match cond {
        Cond::Always => "always".into(),
        Cond::Answer(at, set) => {
            let question = protocol.ask(*at);
            let held = (0u8..).zip(&question.choices).filter(|(at, _)| set.holds(*at));
            let held: Vec<&str> = held.map(|(_, choice)| choice.id.as_str()).collect();
            format!("{}: {}", question.id, held.join(" or "))
        }
        Cond::All(parts) => format!("all({})", each(parts)),
        Cond::Any(parts) => format!("any({})", each(parts)),
        Cond::Not(part) => format!("not({})", named(protocol, part)),
        Cond::Count(least, parts) => format!("{least} of({})", each(parts)),
        Cond::SomeWound(part) => format!("some wound({})", named(protocol, part)),
        Cond::AtLeast(threshold) => format!("at least {threshold:?}"),
        Cond::Under(threshold) => format!("under {threshold:?}"),
    }
}
