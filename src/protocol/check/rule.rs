//! Rules: what they may raise, in which direction, and what both halves must rest on.

use super::Checker;
use super::basis::Basis;
use super::cond::Belongs;
use super::direction::Written;
use crate::protocol::cond::Cond;
use crate::protocol::item::Items;
use crate::protocol::limits::LAST_HOUR;
use crate::protocol::question::Question;
use crate::protocol::raw;
use crate::protocol::read::Placed;
use crate::protocol::rule::{ActionAt, Advice, Looks, Rule};
use crate::protocol::scale::Humane;
use crate::protocol::source::Strength;

impl Checker {
    pub(super) fn rules(&mut self, items: &Items, questions: &[Question]) -> Vec<Rule> {
        items.rules.iter().filter_map(|placed| self.rule(placed, items, questions)).collect()
    }

    fn rule(&mut self, placed: &Placed<raw::Rule>, items: &Items, questions: &[Question]) -> Option<Rule> {
        let raw = placed.item.clone();
        let item = format!("rule `{}`", raw.id);
        self.reasons_with(placed, &item, &raw.reason);
        let basis = self.basis(placed, &item, raw.source.as_deref(), raw.strength, raw.borrowed.clone());
        let advice = match &raw.says {
            Some(source) => Advice::Says(self.source_in(placed, &item, "says", source)),
            None => Advice::Ours,
        };
        self.weight_of_evidence(placed, &item, &basis);
        let when = self.cond(&Belongs { placed, item: &item, field: "when" }, &raw.when, items);
        let unless: Vec<Option<Cond>> = raw
            .unless
            .iter()
            .map(|cond| self.cond(&Belongs { placed, item: &item, field: "unless" }, cond, items))
            .collect();
        let acts = self.all_known(placed, &item, "acts", &raw.acts);
        let never = self.all_known(placed, &item, "never", &raw.never);
        let watch: Vec<_> = raw.watch.iter().map(|name| self.known(placed, &item, "watch", name)).collect();
        self.told_how(placed, &item, items);
        let when = when?;
        let unless: Vec<Cond> = unless.into_iter().collect::<Option<_>>()?;
        let [of_when, of_unless] = ["when", "unless"].map(|field| Belongs { placed, item: &item, field });
        let written_when = Written { raw: &raw.when, cond: &when, items };
        let exceptions = raw.unless.iter().zip(&unless).map(|(raw, cond)| Written { raw, cond, items });
        if raw.need.is_some() || raw.humane.is_some() || raw.authority.is_some() || !raw.severity.is_empty() {
            self.direction(&of_when, written_when, true, questions);
            for exception in exceptions.clone() {
                self.direction(&of_unless, exception, false, questions);
                self.always_applies(&of_unless, exception, questions);
            }
        }
        let all = std::iter::once((&of_when, written_when)).chain(exceptions.map(|written| (&of_unless, written)));
        let mut per_wound = false;
        for (of, written) in all {
            self.only_tells(of, written, questions);
            per_wound |= self.parts(written, true).iter().any(|part| part.wound_question(questions).is_some());
        }
        let mut nested = false;
        when.walk(&mut |cond| nested |= matches!(cond, Cond::SomeWound(_)));
        if per_wound && nested {
            let what = "`some wound` cannot stand beside questions about the wound itself".to_owned();
            self.faults.push(placed.fault(item.clone(), "some wound", what));
        }
        let stays = self.stays(placed, &item)?;
        Some(Rule {
            id: raw.id.as_str().into(),
            per_wound,
            when,
            unless,
            need: raw.need,
            humane: raw.humane,
            authority: raw.authority,
            severity: raw.severity,
            acts: acts?,
            never: never?,
            stays,
            watch: watch.into_iter().collect::<Option<_>>()?,
            by: raw.by,
            looks: raw.looks,
            reason: raw.reason,
            source: basis.source,
            strength: basis.strength,
            advice,
            borrowed: basis.borrowed,
        })
    }

    /// Bans of this rule that no test at home ends: each is among its nevers, and says why.
    fn stays(&mut self, placed: &Placed<raw::Rule>, item: &str) -> Option<Vec<(ActionAt, String)>> {
        let raw = &placed.item;
        for (name, because) in &raw.stays {
            self.words(placed, item, "stays", because);
            if !raw.never.contains(name) {
                let what = format!("`{name}` stays forbidden here, but stands not in `never`");
                self.faults.push(placed.fault(format!("{item}, field stays"), name, what));
            }
        }
        let names: Vec<String> = raw.stays.iter().map(|(name, _)| name.clone()).collect();
        let known = self.all_known(placed, item, "stays", &names)?;
        Some(known.into_iter().zip(raw.stays.iter().map(|(_, because)| because.clone())).collect())
    }

    /// An exception that a worse answer elsewhere could bring into play would let worse look better.
    fn always_applies(&mut self, of: &Belongs<raw::Rule>, written: Written, questions: &[Question]) {
        for part in self.parts(written, false) {
            let Some(question) = part.question(questions) else { continue };
            if question.applies.as_ref().is_some_and(|applies| !may_not_turn(applies, questions)) {
                let what = format!(
                    "an exception must rest on questions that always apply; give `{}` a `moot` in place of its `applies`",
                    question.id
                );
                self.complain_of(of, &part, question.id.as_str(), what);
            }
        }
    }

    /// What only tells another answer more fully stands in no condition of a rule.
    fn only_tells(&mut self, of: &Belongs<raw::Rule>, written: Written, questions: &[Question]) {
        for part in self.parts(written, true) {
            if let Some(told) = part.question(questions).filter(|question| question.adds_to.is_some()) {
                let what = format!("`{}` only tells another answer more fully; no rule weighs it", told.id);
                self.complain_of(of, &part, told.id.as_str(), what);
            }
        }
    }

    /// No inference of ours and nothing without a source can by itself advise a humane end.
    fn weight_of_evidence(&mut self, placed: &Placed<raw::Rule>, item: &str, basis: &Basis) {
        let raw = &placed.item;
        let advises = raw.humane.is_some_and(|humane| humane >= Humane::AdvisedUnlessVet);
        let supported = raw.says.is_some() && !matches!(basis.strength, Strength::Practice | Strength::Proposal);
        if advises && !supported {
            let what = "only a source that itself recommends it may advise a humane end; ours may at most say `MayComeIntoQuestion`"
                .to_owned();
            self.faults.push(placed.fault(format!("{item}, field humane"), "humane", what));
        }
        if let Some(name) = self.lacks_source(basis) {
            let what = format!("strength {:?} goes with source \"{name}\"", basis.strength);
            self.faults.push(placed.fault(format!("{item}, field strength"), "strength", what));
        }
        if !raw.says_something() {
            let what = "nothing follows from this rule".to_owned();
            self.faults.push(placed.fault(item.to_owned(), &raw.id, what));
        }
        self.looks(placed, &format!("{item}, field looks"), "looks", &raw.looks);
        if raw.by.as_ref().is_some_and(|by| by.hours > LAST_HOUR) {
            let what = format!("nothing is put off for more than {LAST_HOUR} hours");
            self.faults.push(placed.fault(format!("{item}, field by"), "by", what));
        }
    }

    /// Looks that come: at least a minute apart, before the last hour that is kept, the soonest first.
    pub(super) fn looks<T>(&mut self, placed: &Placed<T>, item: &str, field: &str, looks: &[Looks]) {
        let comes = |looks: &Looks| {
            (1..=LAST_HOUR).contains(&looks.until_h) && looks.every_min > 0 && looks.every_min <= looks.until_h * 60
        };
        if !looks.iter().all(comes) || !looks.is_sorted_by_key(|looks| looks.until_h) {
            let what = format!(
                "looks run from soonest to latest, each at least a minute apart and within its hours, until hour {LAST_HOUR} at most"
            );
            self.faults.push(placed.fault(item.to_owned(), field, what));
        }
    }

    /// Whoever is told never to do a thing must be told why and what instead; whoever is told to do it, how.
    fn told_how(&mut self, placed: &Placed<raw::Rule>, item: &str, items: &Items) {
        let twice = self.lost.names.clone();
        let find = |name: &String| {
            items.actions.iter().find(|action| action.item.id == *name).filter(|_| !twice.contains(name))
        };
        for name in &placed.item.never {
            if find(name).is_some_and(|action| action.item.forbidden.is_none()) {
                let what = format!("action `{name}` is forbidden here but has no `forbidden: (why: .., instead: ..)`");
                self.faults.push(placed.fault(format!("{item}, field never"), name, what));
            }
        }
        for name in &placed.item.acts {
            if find(name).is_some_and(|action| action.item.how.trim().is_empty()) {
                let what = format!("action `{name}` is advised here but has no `how`");
                self.faults.push(placed.fault(format!("{item}, field acts"), name, what));
            }
        }
    }
}

/// Whether no worse answer can switch this off: it rests on questions without an order alone, that always apply.
fn may_not_turn(applies: &Cond, questions: &[Question]) -> bool {
    let is_fixed = |question: &Question| !question.ordered && question.applies.is_none();
    applies.questions().into_iter().all(|at| questions.get(at.nth()).is_some_and(is_fixed))
}
