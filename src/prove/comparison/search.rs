//! The search for a bird of whom one's own protocol says less: rule by rule, ban by ban, act by act, question by question.

use super::difference::{Loss, Shown, Telling, Unasked, about, harms_left_out, instruct, judged};
use super::effects::{Effects, asked, looked_at, some_rule, watched};
use super::{Comparison, MOST_SHOWN};
use crate::finding::Id;
use crate::protocol::Protocol;
use crate::protocol::action::ActionAt;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::{Asked, Question};
use crate::protocol::rule::{Looks, RuleAt};
use crate::protocol::scale::{Humane, Need};
use crate::prove::clauses::{Bit, Clauses, Work};
use crate::prove::envelope::{more_wounds, reaches};
use crate::prove::form::{BIRD, Form};
use crate::prove::gauge::Marks;
use crate::prove::links::{Beside, Links};
use crate::prove::proof::healthiest_of;
use crate::prove::scales::{Rung, Scale};
use crate::sheet::{Cell, Sheet};
use chrono::{DateTime, TimeDelta};

/// Searches birds that were examined so many minutes before they are judged.
pub fn search(
    protocols: [&Protocol; 2],
    links: &Links,
    marks: &Marks,
    minutes: u32,
    work: Work,
    found: &mut Comparison,
) {
    let [shipped, own] = protocols;
    let sheets = protocols.map(|protocol| blank(protocol, minutes));
    let [there, here] = &sheets;
    let mut clauses = Clauses::new(work);
    let more = more_wounds(shipped).max(more_wounds(own)) + 1;
    let mut first = Form::with(shipped, there, &mut clauses, more, marks.clone());
    let mut second = Form::beside(own, here, &mut clauses, &Beside { first: &first, links });
    Beside::lend_gauges(&mut first, &mut second, links, &mut clauses);
    let strangers = strangers(&first, &second, links);
    let mut search = Search { protocols, links, minutes, clauses, first, second, strangers, found };
    search.scales();
    search.actions();
    search.watches();
    search.looks();
    search.night();
    search.asked();
    search.called_up();
}

fn blank(protocol: &Protocol, minutes: u32) -> Sheet<'_> {
    let now = DateTime::UNIX_EPOCH;
    let mut sheet = Sheet::blank(protocol, now);
    sheet.suppose_at(now - TimeDelta::minutes(i64::from(minutes)));
    sheet
}

struct Search<'a, 's, 'p> {
    protocols: [&'p Protocol; 2],
    links: &'a Links,
    minutes: u32,
    clauses: Clauses,
    /// The bird as the shipped protocol is told of her.
    first: Form<'s, 'p>,
    /// The same bird as one's own is told of her.
    second: Form<'s, 'p>,
    /// Answers only one of the two knows.
    strangers: Vec<Bit>,
    found: &'a mut Comparison,
}

/// What a case looks for: something the shipped protocol does and one's own does not, or the other way round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sought {
    /// That a rule leads as far on a scale.
    Leads(Scale, Id),
    /// That a rule of one's own advises a humane end.
    Advises(Id),
    /// The ban on an action.
    Ban(Id),
    /// An action where it may not be.
    MayNotBe(Id),
    /// An action where it has to be.
    HasToBe(Id),
    /// A sign that is watched for.
    Sign(Id),
    /// Looks every so many minutes until an hour.
    Looks(u32, u32),
    /// That she is looked at by night.
    Night,
    /// That a question is asked.
    Asked(Id),
    /// What a question calls up.
    CallsUp(Id),
}

/// A case: what is looked for, what would show it, and what has to be true of the bird.
struct Case<'c> {
    sought: Sought,
    shows: &'c dyn Fn(&Shown) -> bool,
    assumed: Vec<Bit>,
    /// What is wished for before health.
    first: Vec<Bit>,
    unasked: Option<Unasked>,
}

impl Search<'_, '_, '_> {
    /// Looks for a bird of one case, unless one is shown already; judges what the solver found before it is told.
    fn look(&mut self, case: Case) {
        if self.found.shown.len() >= MOST_SHOWN {
            self.found.ended_early = true;
            return;
        }
        if self.found.shown.iter().any(case.shows) {
            return;
        }
        self.found.cases += 1;
        // What is the same in both is the very same value: nothing to search for.
        if self.clauses.all(&case.assumed) == Bit::Known(false) {
            return;
        }
        self.clauses.allow_anew();
        // Of an answer only one of them knows the judge tells the other nothing, which the solver cannot in full: where the two
        // differ over that, birds whose answers both know decide. That an answer is missing is told by itself.
        for only_known in [false, true] {
            let mut assumed = case.assumed.clone();
            assumed.extend(self.strangers.iter().filter(|_| only_known).map(|bit| bit.not()));
            let forms = [&self.first, &self.second];
            let Ok(birds) = healthiest_of(&forms, &mut self.clauses, &assumed, &case.first) else { break };
            let Some([there, here]) = birds.and_then(|birds| <[Sheet; 2]>::try_from(birds).ok()) else { return };
            for as_asked in [true, false] {
                let telling = Telling { unasked: case.unasked, minutes: self.minutes, as_asked };
                let shown = judged(self.protocols, self.links, [there.clone(), here.clone()], telling);
                if (case.shows)(&shown) {
                    self.found.shown.push(shown);
                    return;
                }
            }
            if self.strangers.is_empty() {
                break;
            }
        }
        // The work did not suffice, or the judge tells otherwise than the solver: nothing is claimed.
        self.found.undecided.push(case.sought);
    }

    fn plain(&mut self, sought: Sought, shows: &dyn Fn(&Shown) -> bool, assumed: Vec<Bit>) {
        self.look(Case { sought, shows, assumed, first: Vec::new(), unasked: None });
    }

    /// Each shipped rule that moves a scale, gravest rungs first: one's own leads less far while it is in force. And each own
    /// rule that advises a humane end where the shipped protocol does not.
    fn scales(&mut self) {
        let [shipped, own] = self.protocols;
        for scale in Scale::ALL {
            for at in by_rung(shipped, scale) {
                let rule = shipped.rule(at);
                let rung = scale.of(rule);
                let in_doubt = rung <= scale.most_in_doubt();
                let stands = self.first.in_force(&mut self.clauses, at, in_doubt);
                let reached = reaches(&mut self.second, &mut self.clauses, scale, rung);
                let shows = |shown: &Shown| {
                    let (there, here) = (shown.shipped.on(scale), shown.own.on(scale));
                    here < rung && there >= rung && shown.in_force[0].contains(&rule.id)
                };
                self.plain(Sought::Leads(scale, rule.id.clone()), &shows, vec![stands, reached.not()]);
            }
        }
        for at in by_rung(own, Scale::Humane) {
            let rule = own.rule(at);
            let rung = Scale::Humane.of(rule);
            if rung < Humane::AdvisedUnlessVet as Rung {
                continue;
            }
            let stands = self.second.in_force(&mut self.clauses, at, false);
            let advised = reaches(&mut self.first, &mut self.clauses, Scale::Humane, rung);
            let shows = |shown: &Shown| {
                shown.shipped.on(Scale::Humane) < rung
                    && shown.own.on(Scale::Humane) >= rung
                    && shown.in_force[1].contains(&rule.id)
            };
            self.plain(Sought::Advises(rule.id.clone()), &shows, vec![stands, advised.not()]);
        }
    }

    /// Bans that are missing, acts that may not be, acts that are missing.
    fn actions(&mut self) {
        let [shipped, own] = self.protocols;
        let there = Effects::of(&mut self.first, &mut self.clauses);
        let here = Effects::of(&mut self.second, &mut self.clauses);
        for (at, action) in shipped.actions_enumerated() {
            let id = &action.id;
            let own_at = own.actions_enumerated().find(|(_, own)| own.id == *id).map(|(at, _)| at);
            let banned = there.forbidden(&mut self.clauses, at);
            let banned_here = self.of_own(own_at, |clauses, at| here.forbidden(clauses, at));
            let loss = Loss::Ban(id.clone());
            self.plain(Sought::Ban(id.clone()), &shows(&loss), vec![banned, banned_here.not()]);
            let planned_here = self.of_own(own_at, |clauses, at| here.planned(clauses, at));
            let barred = there.barred(&self.first, &mut self.clauses, at);
            let loss = Loss::MayNotBe(id.clone());
            self.plain(Sought::MayNotBe(id.clone()), &shows(&loss), vec![planned_here, barred]);
            if harms_left_out(action) {
                let planned = there.planned(&mut self.clauses, at);
                let loss = Loss::Missing(id.clone());
                self.plain(Sought::HasToBe(id.clone()), &shows(&loss), vec![planned, planned_here.not()]);
            }
        }
    }

    fn of_own(&mut self, at: Option<ActionAt>, bit: impl Fn(&mut Clauses, ActionAt) -> Bit) -> Bit {
        at.map_or(Bit::Known(false), |at| bit(&mut self.clauses, at))
    }

    fn watches(&mut self) {
        let [shipped, own] = self.protocols;
        for (at, watch) in shipped.watches.placed() {
            let own_at = own.watches.placed().find(|(_, own)| own.id == watch.id);
            let there = watched(&mut self.first, &mut self.clauses, at);
            let here = own_at.map_or(Bit::Known(false), |(at, _)| watched(&mut self.second, &mut self.clauses, at));
            let loss = Loss::Watch(watch.id.clone());
            self.plain(Sought::Sign(watch.id.clone()), &shows(&loss), vec![there, here.not()]);
        }
    }

    /// Looks that a rule or a need asks for, of a bird that needs a vet no sooner by one's own.
    fn looks(&mut self) {
        let [shipped, _] = self.protocols;
        let by_rules = shipped.rules.iter().flat_map(|rule| &rule.looks);
        let mut all: Vec<Looks> =
            by_rules.chain(shipped.looks_by_need.iter().flat_map(|(_, looks)| looks)).copied().collect();
        all.sort_by_key(|looks| (looks.every_min, looks.until_h));
        all.dedup_by_key(|looks| (looks.every_min, looks.until_h));
        let mut sooner = Vec::new();
        for rung in 1..=Scale::Need.top() {
            let here = reaches(&mut self.second, &mut self.clauses, Scale::Need, rung);
            let there = reaches(&mut self.first, &mut self.clauses, Scale::Need, rung);
            sooner.push(self.clauses.all(&[here, there.not()]));
        }
        let no_sooner = self.clauses.any(&sooner).not();
        for Looks { every_min, until_h, late } in all {
            let looks = Looks { every_min, until_h, late };
            let by_need = shipped.looks_by_need.iter().filter(|(_, of)| of.contains(&looks)).map(|(need, _)| *need);
            let mut there = vec![some_rule(&mut self.first, &mut self.clauses, |rule| rule.looks.contains(&looks))];
            for need in by_need {
                there.push(super::effects::exactly(&mut self.first, &mut self.clauses, need));
            }
            let there = self.clauses.any(&there);
            let here = looked_at(&mut self.second, &mut self.clauses, looks);
            let loss = Loss::Looks(every_min, until_h);
            self.plain(Sought::Looks(every_min, until_h), &shows(&loss), vec![there, here.not(), no_sooner]);
        }
    }

    /// A bird left in the dark for a night by one's own alone, with no more than a day's need by it.
    fn night(&mut self) {
        let [shipped, own] = self.protocols;
        let there = self.first.holds(&mut self.clauses, &shipped.stable_when, BIRD, false);
        let here = self.second.holds(&mut self.clauses, &own.stable_when, BIRD, false);
        let sooner = reaches(&mut self.second, &mut self.clauses, Scale::Need, Need::WithinHours as Rung);
        self.plain(Sought::Night, &shows(&Loss::Slept), vec![here, there.not(), sooner.not()]);
    }

    /// What decides something by the shipped protocol and is not asked by one's own: its worst answer, where that can be.
    fn asked(&mut self) {
        let [shipped, _] = self.protocols;
        for (at, question) in
            shipped.enumerated().filter(|(at, question)| shipped.is_danger_sign(question) || decides(shipped, *at))
        {
            let Some(own_at) = self.links.own(at) else { continue };
            let column = if question.wound { BIRD + 1 } else { BIRD };
            let there = asked(&mut self.first, &mut self.clauses, at, column);
            let here = asked(&mut self.second, &mut self.clauses, own_at, column);
            let loss = Loss::NotAsked(question.id.clone());
            let about = about(column);
            let unasked = Unasked { shipped: Asked { about, question: at }, own: Asked { about, question: own_at } };
            self.look(Case {
                sought: Sought::Asked(question.id.clone()),
                shows: &shows(&loss),
                assumed: vec![there, here.not()],
                first: self.worst(question, column, at),
                unasked: Some(unasked),
            });
        }
    }

    /// Its gravest answers first: the one that calls up an instruction, else the last of an ordered question.
    fn worst(&self, question: &Question, column: usize, at: QuestionAt) -> Vec<Bit> {
        let given = self.first.options(column, at).iter().filter_map(|(cell, bit)| match cell {
            Cell::Given(answer) => Some((*answer, *bit)),
            _ => None,
        });
        let mut given: Vec<(u8, Bit)> = given.collect();
        let calls = |answer: u8| question.choices.get(usize::from(answer)).and_then(|choice| choice.instruct);
        given.sort_by_key(|(answer, _)| (calls(*answer).is_none(), std::cmp::Reverse(*answer)));
        if question.ordered || given.iter().any(|(answer, _)| calls(*answer).is_some()) {
            given.into_iter().map(|(_, bit)| bit).collect()
        } else {
            Vec::new()
        }
    }

    /// Answers that fill the screen at once by the shipped protocol alone, and signs of danger asked late.
    fn called_up(&mut self) {
        let [shipped, own] = self.protocols;
        for (at, question) in shipped.enumerated() {
            let Some(own_at) = self.links.own(at) else { continue };
            let column = if question.wound { BIRD + 1 } else { BIRD };
            let applies = self.first.applies(column, at, false);
            let present = self.first.present(column);
            for (cell, bit) in self.first.options(column, at).to_vec() {
                let Cell::Given(answer) = cell else { continue };
                let (Some(calls), Some(own_answer)) =
                    (instruct(shipped, question, answer), self.links.own_answer(own_at, answer))
                else {
                    continue;
                };
                let mut losses = Vec::new();
                if instruct(own, own.ask(own_at), own_answer) != Some(calls) {
                    losses.push(Loss::NotShown(question.id.clone()));
                }
                if shipped.is_danger_sign(question) && !own.is_danger_sign(own.ask(own_at)) {
                    losses.push(Loss::NotFirst(question.id.clone()));
                }
                for loss in losses {
                    self.plain(Sought::CallsUp(question.id.clone()), &shows(&loss), vec![present, applies, bit]);
                }
            }
        }
    }
}

/// The values of answers that only one of the two protocols knows, of questions both ask.
fn strangers(first: &Form, second: &Form, links: &Links) -> Vec<Bit> {
    let mut found = Vec::new();
    for (own_at, question) in second.protocol().enumerated() {
        let Some(at) = links.shipped(own_at) else { continue };
        for column in second.columns(question) {
            let given = |form: &Form, at, knows: &dyn Fn(u8) -> bool| {
                let unknown = form
                    .options(column, at)
                    .iter()
                    .filter(|(cell, _)| matches!(cell, Cell::Given(answer) if !knows(*answer)));
                unknown.map(|(_, bit)| *bit).collect::<Vec<Bit>>()
            };
            found.extend(given(first, at, &|answer| links.own_answer(own_at, answer).is_some()));
            found.extend(given(second, own_at, &|answer| links.answer(own_at, answer).is_some()));
        }
    }
    found
}

/// Whether a bird shows this.
fn shows(loss: &Loss) -> impl Fn(&Shown) -> bool {
    move |shown| shown.losses.contains(loss)
}

/// The rules that move a scale, the highest rung first.
fn by_rung(protocol: &Protocol, scale: Scale) -> Vec<RuleAt> {
    let placed = protocol.rules_enumerated();
    let mut moving: Vec<(RuleAt, Rung, &Id)> =
        placed.map(|(at, rule)| (at, scale.of(rule), &rule.id)).filter(|(_, rung, _)| *rung > 0).collect();
    moving.sort_by_key(|(_, rung, id)| (std::cmp::Reverse(*rung), *id));
    moving.into_iter().map(|(at, ..)| at).collect()
}

/// Whether some rule that moves a scale, forbids or tells to do something reads the question, by itself or by what it feeds.
fn decides(protocol: &Protocol, at: QuestionAt) -> bool {
    let question = protocol.ask(at);
    if question.worked_out.is_some() {
        return false;
    }
    let reads = |cond: &Cond| cond.questions().contains(&at);
    let by_rule = protocol.rules.iter().any(|rule| std::iter::once(&rule.when).chain(&rule.unless).any(reads));
    by_rule || question.gives.is_some() || question.choices.iter().any(|choice| choice.instruct.is_some())
}
