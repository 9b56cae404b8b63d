//! What no bird can show: what a protocol holds less of as data, and what is only worded otherwise.

use super::Comparison;
use super::difference::Loss;
use crate::finding::Id;
use crate::protocol::Protocol;
use crate::protocol::action::{Action, ActionAt, End, Forbidden, Part, Until};
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::Question;
use crate::protocol::rule::{Advice, Conflict, Instruction, Rule, RulesOut};
use crate::protocol::source::Strength;
use crate::prove::links::Links;
use crate::prove::scales::Scale;

/// A difference of data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Difference {
    /// Which sort of thing: rule, question, action.
    pub sort: &'static str,
    /// Its key; empty for what has none.
    pub id: String,
    /// What differs, in words.
    pub what: String,
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
        !(shown && matches!(difference.sort, "conflict" | "ruling-out"))
    });
}

struct Comparing<'a> {
    shipped: &'a Protocol,
    own: &'a Protocol,
    found: &'a mut Comparison,
}

impl Comparing<'_> {
    fn weaker(&mut self, sort: &'static str, id: &str, what: String) {
        self.found.weaker.push(Difference { sort, id: id.to_owned(), what });
    }

    fn otherwise(&mut self, sort: &'static str, id: &str, what: String) {
        self.found.otherwise.push(Difference { sort, id: id.to_owned(), what });
    }

    fn questions(&mut self, links: &Links) {
        let (shipped, own) = (self.shipped, self.own);
        for (at, question) in shipped.enumerated() {
            match links.own(at) {
                None => self.weaker("question", question.id.as_str(), "is not in yours: nobody is asked it".into()),
                Some(own_at) => self.answers(links, (at, question), (own_at, own.ask(own_at))),
            }
        }
        for (at, question) in own.enumerated().filter(|(at, _)| links.shipped(*at).is_none()) {
            let _ = at;
            self.otherwise("question", question.id.as_str(), "is only in yours".into());
        }
    }

    fn answers(&mut self, links: &Links, (_, there): (QuestionAt, &Question), (own_at, here): (QuestionAt, &Question)) {
        let id = there.id.as_str();
        for (answer, choice) in (0u8..).zip(&there.choices) {
            let Some(own) = links.own_answer(own_at, answer) else {
                self.weaker("answer", id, format!("`{}` is not among the answers of yours", choice.id));
                continue;
            };
            let Some(ours) = here.choices.get(usize::from(own)) else { continue };
            if ours.id != choice.id {
                let what = format!(
                    "the words \"{}\" are `{}` in yours and `{}` in the shipped one",
                    choice.say, ours.id, choice.id
                );
                self.weaker("answer", id, what);
            } else if ours.say != choice.say {
                let what =
                    format!("`{}` reads \"{}\" in yours, \"{}\" in the shipped one", choice.id, ours.say, choice.say);
                self.otherwise("answer", id, what);
            }
        }
        for (_, choice) in (0u8..).zip(&here.choices).filter(|(answer, _)| links.answer(own_at, *answer).is_none()) {
            let what = format!(
                "the answer `{}` is only in yours: birds it is given for tell the shipped one nothing by it",
                choice.id
            );
            self.otherwise("answer", id, what);
        }
        let places: Vec<Option<u8>> = (0u8..).zip(&here.choices).map(|(own, _)| links.answer(own_at, own)).collect();
        let known: Vec<u8> = places.into_iter().flatten().collect();
        if there.ordered && !known.is_sorted() {
            self.weaker(
                "question",
                id,
                "its answers stand in another order in yours: what is worse has changed".into(),
            );
        }
        if there.ordered && !here.ordered {
            self.weaker("question", id, "its answers have no order in yours".into());
        }
        if there.ask != here.ask || there.look != here.look {
            self.otherwise("question", id, "is asked in other words".into());
        }
    }

    fn rules(&mut self) {
        for rule in &self.shipped.rules {
            let id = rule.id.as_str();
            match self.own.rules.iter().find(|own| own.id == rule.id) {
                None => self.weaker("rule", id, "is gone from yours".into()),
                Some(own) => self.rule(rule, own),
            }
        }
        for rule in &self.own.rules {
            if !self.shipped.rules.iter().any(|other| other.id == rule.id) {
                self.otherwise("rule", rule.id.as_str(), "is only in yours".into());
            }
        }
    }

    fn rule(&mut self, there: &Rule, here: &Rule) {
        let id = there.id.as_str();
        for scale in Scale::ALL.into_iter().filter(|scale| scale.of(here) < scale.of(there)) {
            let [ours, theirs] = [here, there].map(|rule| scale.words(scale.of(rule)));
            self.weaker("rule", id, format!("leads less far, {}: {ours} instead of {theirs}", scale.name()));
        }
        if let (Some(kind), None) = (&there.borrowed, &here.borrowed) {
            self.weaker("rule", id, format!("no longer says that its figure is borrowed from {kind}"));
        }
        if rank(here.strength) > rank(there.strength) {
            let what =
                format!("claims \"{}\"; the shipped one says \"{}\"", here.strength.words(), there.strength.words());
            self.weaker("rule", id, what);
        }
        if let (Advice::Ours, Advice::Says(source)) = (&there.advice, &here.advice) {
            self.weaker(
                "rule",
                id,
                format!(
                    "gives as advice of `{}` what the shipped one calls its own inference",
                    self.own.source_id(*source)
                ),
            );
        }
        for (action, _) in &there.stays {
            let key = &self.shipped.action(*action).id;
            if !here.stays.iter().any(|(own, _)| self.own.action(*own).id == *key) {
                self.weaker("rule", id, format!("no longer keeps the ban on `{key}` until a vet's word"));
            }
        }
        let less = |theirs: &[ActionAt], ours: &[ActionAt]| {
            let gone = theirs.iter().map(|at| &self.shipped.action(*at).id);
            gone.filter(|id| !ours.iter().any(|own| self.own.action(*own).id == **id)).cloned().collect::<Vec<Id>>()
        };
        for gone in less(&there.never, &here.never) {
            self.weaker("rule", id, format!("no longer forbids `{gone}`"));
        }
        for gone in less(&there.acts, &here.acts) {
            self.weaker("rule", id, format!("no longer tells to do `{gone}`"));
        }
        let by = |rule: &Rule| rule.by.as_ref().map(|by| by.hours);
        if by(there).is_some_and(|hours| by(here).is_none_or(|own| own > hours)) {
            self.weaker("rule", id, "has to be acted on later, or at no set hour".into());
        }
        for (system, grade) in &there.severity {
            if !here.severity.iter().any(|(own, graver)| own == system && graver >= grade) {
                self.weaker("rule", id, format!("calls {} less than {}", system.words(), grade.words()));
            }
        }
        if there.reason != here.reason {
            self.otherwise("rule", id, "gives its reason in other words".into());
        }
    }

    fn actions(&mut self) {
        for there in &self.shipped.actions {
            let id = there.id.as_str();
            match self.own.actions.iter().find(|own| own.id == there.id) {
                None => self.weaker("action", id, "is not in yours".into()),
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
            self.weaker("action", id, "no longer comes before any phone call".into());
        }
        if place(here) > place(there) {
            self.weaker("action", id, "stands later in the plan".into());
        }
        let less = |theirs| here.left_out.is_none_or(|ours| ours as u8 > theirs as u8);
        if there.left_out.is_some_and(less) {
            self.weaker("action", id, "is said to do less harm where it is left out".into());
        }
        match (&there.forbidden, &here.forbidden) {
            (Some(theirs), Some(ours)) => self.ban(id, theirs, ours),
            (Some(_), None) => self.weaker("action", id, "has no ban any more".into()),
            (None, _) => {}
        }
        if there.say != here.say || there.how != here.how {
            self.otherwise("action", id, "is told in other words".into());
        }
    }

    fn ban(&mut self, id: &str, there: &Forbidden, here: &Forbidden) {
        if self.ends_sooner(&there.until, &here.until) {
            let [ours, theirs] = [&here.until, &there.until].map(|until| until.say(false));
            self.weaker("ban", id, format!("ends otherwise: \"{ours}\" in yours, \"{theirs}\" in the shipped one"));
        }
        if there.bars.iter().any(|stance| !here.bars.contains(stance)) {
            self.weaker("ban", id, "bars less than in the shipped one".into());
        }
        if (here.broken as u8) > (there.broken as u8) {
            self.weaker("ban", id, "is said to do less harm where it is broken".into());
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
            self.weaker("conflict", drop.as_str(), format!("no longer stands back for `{keep}`"));
        }
        let all = |of: &Protocol| of.rules_out.iter().map(|one| out(of, one)).collect::<Vec<_>>();
        for (never, drop) in gone(all(self.shipped), &all(self.own)) {
            self.weaker("ruling-out", drop.as_str(), format!("no longer goes where `{never}` is forbidden"));
        }
    }

    fn instructions(&mut self) {
        for there in &self.shipped.instructions {
            let Some(here) = self.own.instructions.iter().find(|own| own.id == there.id) else {
                self.weaker("instruction", there.id.as_str(), "is not in yours".into());
                continue;
            };
            self.instruction(there, here);
        }
    }

    fn instruction(&mut self, there: &Instruction, here: &Instruction) {
        let id = there.id.as_str();
        let ids = |of: &Protocol, all: &[ActionAt]| all.iter().map(|at| of.action(*at).id.clone()).collect::<Vec<Id>>();
        for (theirs, ours, verb) in [(&there.acts, &here.acts, "tells"), (&there.never, &here.never, "forbids")] {
            let ours = ids(self.own, ours);
            for gone in ids(self.shipped, theirs).into_iter().filter(|id| !ours.contains(id)) {
                self.weaker("instruction", id, format!("no longer {verb} `{gone}`"));
            }
        }
        if there.phones.is_some() && here.phones.is_none() {
            self.weaker("instruction", id, "no longer says whom to phone".into());
        }
        if there.then.is_some() && here.then.is_none() {
            self.weaker("instruction", id, "asks nothing once it was carried out".into());
        }
    }

    /// What is said of every bird.
    fn whole(&mut self) {
        let (there, here) = (self.shipped, self.own);
        if here.hold_s > there.hold_s {
            let what = format!("a bird may be held {} s; the shipped one says {} s", here.hold_s, there.hold_s);
            self.weaker("protocol", "hold_s", what);
        }
        for exclusion in &here.exclusions {
            if !there.exclusions.iter().any(|other| other.id == exclusion.id) {
                self.weaker(
                    "exclusion",
                    exclusion.id.as_str(),
                    "is only in yours: birds it rules out were not compared".into(),
                );
            }
        }
        if here.withheld_until != there.withheld_until {
            self.otherwise("protocol", "withheld_until", "eggs and meat are withheld in other words".into());
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
