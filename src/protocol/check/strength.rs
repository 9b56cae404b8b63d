//! The table of strengths: known substances, every use ruled exactly once, bands that lie within each other.

use super::Checker;
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::question::Question;
use crate::protocol::raw::{self, Stock};
use crate::protocol::read::Placed;
use crate::protocol::strength::{Family, On, Rest, Use, Wanted};
use crate::protocol::substance::Ruling;
use crate::unit::{Band, MilligramsPerLitre};

/// A strength as the program counts it.
pub const fn strength(Stock::MilligramsPerLitre(strength): Stock) -> MilligramsPerLitre {
    MilligramsPerLitre(strength)
}

/// The family whose substance a supply is, as the files have it.
pub fn family_of_supply<'i>(items: &'i Items, supply: &str) -> Option<&'i raw::Family> {
    let is = |substance: &raw::Substance| substance.supply.as_deref() == Some(supply);
    let substance = items.substances.iter().map(|placed| &placed.item).find(|substance| is(substance))?;
    items.families.iter().map(|placed| &placed.item).find(|family| family.of.contains(&substance.id))
}

impl Checker {
    pub(super) fn uses(&mut self, items: &Items, questions: &[Question]) -> Vec<Use> {
        items.uses.iter().map(|placed| self.one_use(placed, questions)).collect()
    }

    fn one_use(&mut self, placed: &Placed<raw::Use>, questions: &[Question]) -> Use {
        let raw::Use { id, name, told_by } = placed.item.clone();
        let item = format!("use `{id}`");
        self.words(placed, &item, "name", &name);
        for (question, answers) in &told_by {
            let Some(at) = self.known::<Question, _>(placed, &item, "told_by", question) else {
                continue;
            };
            self.told_answers(placed, &item, questions.get(at.nth()), answers);
        }
        let told_by = told_by.into_iter().map(|(question, answers)| {
            (question.as_str().into(), answers.iter().map(|answer| answer.as_str().into()).collect())
        });
        Use { id: id.as_str().into(), name, told_by: told_by.collect() }
    }

    /// A use is told by answers of a wound's question.
    fn told_answers(&mut self, placed: &Placed<raw::Use>, item: &str, question: Option<&Question>, answers: &[String]) {
        let Some(question) = question else { return };
        if !question.wound {
            let what = format!("`{}` is not asked of a wound; a use is told by what a wound is", question.id);
            self.faults.push(placed.fault(format!("{item}, field told_by"), question.id.as_str(), what));
        }
        let known = || question.choices.iter().map(|choice| choice.id.as_str());
        for answer in answers.iter().filter(|answer| !known().any(|known| known == answer.as_str())) {
            self.unknown(placed, item, "told_by", "answer", answer, nearest(answer, known()));
        }
    }

    pub(super) fn families(&mut self, items: &Items) -> Vec<Family> {
        items.families.iter().map(|placed| self.family(placed, items)).collect()
    }

    fn family(&mut self, placed: &Placed<raw::Family>, items: &Items) -> Family {
        let raw = placed.item.clone();
        let item = format!("family `{}`", raw.id);
        self.words(placed, &item, "name", &raw.name);
        self.made_of(placed, &item, items);
        if let Some((_, because)) = &raw.at_most {
            self.instructs(placed, &item, "at_most", because);
        }
        if !raw.note.is_empty() {
            self.instructs(placed, &item, "note", &raw.note);
        }
        self.other_bottles(placed, &item);
        if raw.rests.is_empty() {
            self.faults.push(placed.fault(item.clone(), "rests", "a family rests on something: name it".to_owned()));
        }
        let rests = raw.rests.iter().map(|rest| self.rest(placed, &item, rest)).collect();
        Family {
            id: raw.id.as_str().into(),
            on: self.ruled_on(placed, &item, items),
            name: raw.name,
            of: raw.of.iter().map(|name| name.as_str().into()).collect(),
            thinned: raw.thinned,
            others: raw.others.into_iter().map(|other| (strength(other.at), other.say)).collect(),
            at_most: raw.at_most.map(|(at, because)| (strength(at), because)),
            note: raw.note,
            rests,
        }
    }

    /// Its substances are known, of no other family, and none is barred by law or harms whatever it is put on.
    fn made_of(&mut self, placed: &Placed<raw::Family>, item: &str, items: &Items) {
        let known = || items.substances.iter().map(|substance| &substance.item);
        let usable = placed.item.on.iter().any(|on| on.ruling == Ruling::MayBeUsed);
        for name in &placed.item.of {
            let Some(substance) = known().find(|substance| substance.id == *name) else {
                let near = nearest(name, known().map(|substance| substance.id.as_str()));
                self.unknown(placed, item, "of", "substance", name, near);
                continue;
            };
            if items.families.iter().filter(|other| other.item.of.contains(name)).count() > 1 {
                let what = format!("substance `{name}` is of two families; it can be of one only");
                self.faults.push(placed.fault(item.to_owned(), name, what));
            }
            if substance.ruling == Ruling::Never || !substance.law_of.is_empty() {
                let what = format!("substance `{name}` is never used, or a law bars it: no use of it is ruled here");
                self.faults.push(placed.fault(item.to_owned(), name, what));
            }
            let stems = substance.starts.len() + substance.ends.len() + substance.holds.len();
            if usable && stems > 0 {
                let what =
                    format!("substance `{name}` is known by a stem; what may be used is known by its names only");
                self.faults.push(placed.fault(item.to_owned(), name, what));
            }
            if substance.ruling == Ruling::MayBeUsed && !usable {
                let what = format!("substance `{name}` may be used, and no use of its family says on what");
                self.faults.push(placed.fault(item.to_owned(), name, what));
            }
        }
    }

    /// Bottles that are another product, and the strongest, are stronger than what is wanted.
    fn other_bottles(&mut self, placed: &Placed<raw::Family>, item: &str) {
        let raw = &placed.item;
        for other in &raw.others {
            self.instructs(placed, item, "others", &other.say);
        }
        let wanted = raw.on.iter().find_map(|on| on.wanted.as_ref());
        let Some(raw::Wanted { right: (_, most), .. }) = wanted else {
            if raw.thinned {
                let what = "what is thinned needs a strength that is wanted".to_owned();
                self.faults.push(placed.fault(item.to_owned(), "thinned", what));
            }
            return;
        };
        let bottles = raw.others.iter().map(|other| other.at).chain(raw.at_most.as_ref().map(|(at, _)| *at));
        for at in bottles.map(strength).filter(|at| *at < strength(*most)) {
            let what = format!("a bottle of {} mg a litre would be right to use: it cannot be refused", at.0);
            self.faults.push(placed.fault(item.to_owned(), "right", what));
        }
    }

    /// Every use is ruled exactly once, in the order of the uses.
    fn ruled_on(&mut self, placed: &Placed<raw::Family>, item: &str, items: &Items) -> Vec<On> {
        let known = || items.uses.iter().map(|one| one.item.id.as_str());
        for on in &placed.item.on {
            for name in on.on.iter().filter(|name| !known().any(|known| known == name.as_str())) {
                self.unknown(placed, item, "on", "use", name, nearest(name, known()));
            }
            self.instructs(placed, item, "say", &on.say);
            if matches!(on.ruling, Ruling::Unknown | Ruling::AsTheVetWrote | Ruling::Carrier) {
                let what = "a use is ruled MayBeUsed, AskFirst, NotHere or Never".to_owned();
                self.faults.push(placed.fault(item.to_owned(), "ruling", what));
            }
        }
        let mut ruled = Vec::new();
        for name in known() {
            let mut of = placed.item.on.iter().filter(|on| on.on.iter().any(|on| on == name));
            match (of.next(), of.next()) {
                (Some(on), None) => {
                    let wanted = on.wanted.as_ref().map(|wanted| self.wanted(placed, item, wanted));
                    ruled.push(On { ruling: on.ruling, say: on.say.clone(), wanted });
                }
                (first, _) => {
                    let twice = if first.is_some() { "twice" } else { "not" };
                    let what = format!("use `{name}` is {twice} ruled; each is ruled exactly once");
                    self.faults.push(placed.fault(item.to_owned(), name, what));
                }
            }
        }
        ruled
    }

    fn wanted(&mut self, placed: &Placed<raw::Family>, item: &str, wanted: &raw::Wanted) -> Wanted {
        let band = |(low, high): (Stock, Stock)| Band { low: strength(low), high: strength(high) };
        let (published, right) = (band(wanted.published), band(wanted.right));
        let make = strength(wanted.make);
        let within = right.holds(&published.low) && right.holds(&published.high) && published.holds(&make);
        if published.low > published.high || !within || right.low.0 == 0 {
            let what = "`make` lies in `published`, and `published` in `right`; the weakest is more than nothing";
            self.faults.push(placed.fault(item.to_owned(), "wanted", what.to_owned()));
        }
        for (field, text) in [("strong", &wanted.strong), ("weak", &wanted.weak)] {
            self.words(placed, item, field, text);
        }
        Wanted { published, right, make, strong: wanted.strong.clone(), weak: wanted.weak.clone() }
    }

    pub(super) fn rest<T>(&mut self, placed: &Placed<T>, item: &str, rest: &raw::Rest) -> Rest {
        self.words(placed, item, "what", &rest.what);
        let basis = self.basis(placed, item, rest.source.as_deref(), rest.strength, rest.borrowed.clone());
        if let Some(name) = self.lacks_source(&basis) {
            let what = format!("strength {:?} goes with source \"{name}\"", basis.strength);
            self.faults.push(placed.fault(format!("{item}, field rests"), &rest.what, what));
        }
        Rest { source: basis.source, strength: basis.strength, what: rest.what.clone(), borrowed: basis.borrowed }
    }
}
