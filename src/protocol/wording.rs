//! Every text a protocol tells, each by a name of its own: what a translation lays over it.
//!
//! A name says the class, the item and the field, as in `rule-comb_white-reason`; where an item has several of a sort, their number
//! from 1 stands in it. Names follow from the protocol alone, so a translation made for one version shows what another one changed.

use super::Protocol;
use super::action::{Action, BanFit, End, Fit, Forbidden, Until};
use super::body::{BodyView, Region};
use super::question::{Question, SignList};
use super::rule::Rule;
use super::strength::{Family, On, Rest};
use super::substance::Substance;
use super::supply::{Supply, Way};
use super::texts::{Country, Law, Paragraph};

/// What is done to each text: its name, and the text to be read or replaced.
pub type Each<'e> = dyn FnMut(&str, &mut String) + 'e;

impl Protocol {
    /// Every text it tells, in the order of the classes and of the files. Empty texts are left out.
    pub fn each_text(&mut self, each: &mut Each) {
        let mut walk = Walk { each };
        walk.one("protocol-each-look", &mut self.each_look);
        walk.one("protocol-withheld-until", &mut self.withheld_until);
        walk.one("protocol-spare-say", &mut self.spare_say);
        self.each_asked(&mut walk);
        self.each_judged(&mut walk);
        self.each_done(&mut walk);
        self.each_kept(&mut walk);
    }

    /// What is asked.
    fn each_asked(&mut self, walk: &mut Walk) {
        for step in self.steps.iter_mut() {
            walk.one(&format!("step-{}-name", step.id), &mut step.name);
        }
        for SignList { id, ask, look, .. } in self.lists.iter_mut() {
            walk.one(&format!("list-{id}-ask"), ask);
            walk.one(&format!("list-{id}-look"), look);
        }
        for Question { id, topic, ask, look, choices, for_kinds, .. } in self.questions.iter_mut() {
            let of = format!("question-{id}");
            walk.one(&format!("{of}-topic"), topic);
            walk.one(&format!("{of}-ask"), ask);
            walk.one(&format!("{of}-look"), look);
            for choice in choices {
                walk.one(&format!("{of}-answer-{}", choice.id), &mut choice.say);
            }
            for (number, wording) in (1..).zip(for_kinds) {
                walk.some(&format!("{of}-kinds-{number}-ask"), &mut wording.ask);
                walk.some(&format!("{of}-kinds-{number}-look"), &mut wording.look);
            }
        }
        for BodyView { id, name, turns, .. } in self.views.iter_mut() {
            walk.one(&format!("view-{id}-name"), name);
            if let Some(turns) = turns {
                walk.one(&format!("view-{id}-left"), &mut turns.left);
                walk.one(&format!("view-{id}-right"), &mut turns.right);
            }
        }
        for Region { place, name, danger, .. } in self.regions.iter_mut() {
            walk.one(&format!("region-{place}-name"), name);
            walk.some(&format!("region-{place}-danger"), danger);
        }
    }

    /// What is judged and told.
    fn each_judged(&mut self, walk: &mut Walk) {
        for Rule { id, reason, by, stays, borrowed, .. } in self.rules.iter_mut() {
            let of = format!("rule-{id}");
            walk.one(&format!("{of}-reason"), reason);
            if let Some(by) = by {
                walk.one(&format!("{of}-by"), &mut by.what);
            }
            for (number, (_, stay)) in (1..).zip(stays) {
                walk.one(&format!("{of}-stays-{number}"), stay);
            }
            walk.some(&format!("{of}-borrowed"), borrowed);
        }
        for watch in self.watches.iter_mut() {
            walk.one(&format!("watch-{}-say", watch.id), &mut watch.say);
        }
        for (number, conflict) in (1..).zip(self.conflicts.iter_mut()) {
            walk.one(&format!("conflict-{number}-because"), &mut conflict.because);
        }
        for (number, ruled) in (1..).zip(self.rules_out.iter_mut()) {
            walk.one(&format!("rules-out-{number}-because"), &mut ruled.because);
        }
        for exclusion in self.exclusions.iter_mut() {
            walk.one(&format!("exclusion-{}-say", exclusion.id), &mut exclusion.say);
        }
        for Paragraph { id, title, lines, card, borrowed, .. } in self.paragraphs.iter_mut() {
            walk.one(&format!("paragraph-{id}-title"), title);
            walk.all(&format!("paragraph-{id}-line"), lines);
            if let Some(card) = card {
                walk.one(&format!("paragraph-{id}-card"), card.text_mut());
            }
            walk.some(&format!("paragraph-{id}-borrowed"), borrowed);
        }
        for (number, term) in (1..).zip(self.terms.iter_mut()) {
            walk.one(&format!("term-{number}-term"), &mut term.term);
            walk.one(&format!("term-{number}-means"), &mut term.means);
        }
        for score in self.scores.iter_mut() {
            walk.one(&format!("score-{}-name", score.id), &mut score.name);
            walk.one(&format!("score-{}-say", score.id), &mut score.say);
        }
        for (number, grades) in (1..).zip(self.grades.iter_mut()) {
            walk.all(&format!("grades-{number}-words"), &mut grades.words);
        }
        for country in self.countries.iter_mut() {
            walk.country(country);
        }
    }

    /// What is done and never done.
    fn each_done(&mut self, walk: &mut Walk) {
        for action in self.actions.iter_mut() {
            walk.action(action);
        }
        for instruction in self.instructions.iter_mut() {
            walk.one(&format!("instruction-{}-title", instruction.id), &mut instruction.title);
            walk.one(&format!("instruction-{}-after", instruction.id), &mut instruction.after);
        }
        for (number, Way { say, lines, picture, stop, phone_if, borrowed, .. }) in (1..).zip(self.ways.iter_mut()) {
            let of = format!("way-{number}");
            walk.some(&format!("{of}-say"), say);
            walk.all(&format!("{of}-line"), lines);
            walk.all(&format!("{of}-picture"), picture);
            walk.one(&format!("{of}-stop"), stop);
            walk.one(&format!("{of}-phone-if"), phone_if);
            walk.some(&format!("{of}-borrowed"), borrowed);
        }
        for round in self.rounds.iter_mut() {
            let of = format!("round-{}", round.id);
            walk.one(&format!("{of}-topic"), &mut round.topic);
            walk.one(&format!("{of}-say"), &mut round.say);
            walk.one(&format!("{of}-stop"), &mut round.stop);
            walk.some(&format!("{of}-borrowed"), &mut round.borrowed);
        }
    }

    /// What is in the house, and what is held against a label.
    fn each_kept(&mut self, walk: &mut Walk) {
        for Supply { id, name, why, others, at_most, .. } in self.supplies.iter_mut() {
            walk.one(&format!("supply-{id}-name"), name);
            walk.one(&format!("supply-{id}-why"), why);
            walk.bottles(&format!("supply-{id}"), others, at_most);
        }
        for Substance { id, name, say, elsewhere, borrowed, .. } in self.substances.iter_mut() {
            walk.one(&format!("substance-{id}-name"), name);
            walk.one(&format!("substance-{id}-say"), say);
            if let Some(elsewhere) = elsewhere {
                walk.one(&format!("substance-{id}-elsewhere"), &mut elsewhere.say);
            }
            walk.some(&format!("substance-{id}-borrowed"), borrowed);
        }
        for of in self.uses.iter_mut() {
            walk.one(&format!("use-{}-name", of.id), &mut of.name);
        }
        for Family { id, name, on, others, at_most, note, rests, .. } in self.families.iter_mut() {
            let of = format!("family-{id}");
            walk.one(&format!("{of}-name"), name);
            walk.one(&format!("{of}-note"), note);
            for (number, On { say, wanted, .. }) in (1..).zip(on) {
                walk.one(&format!("{of}-on-{number}-say"), say);
                if let Some(wanted) = wanted {
                    walk.one(&format!("{of}-on-{number}-strong"), &mut wanted.strong);
                    walk.one(&format!("{of}-on-{number}-weak"), &mut wanted.weak);
                }
            }
            walk.bottles(&of, others, at_most);
            walk.rests(&of, rests);
        }
        for (number, sum) in (1..).zip(self.sums.iter_mut()) {
            walk.rests(&format!("sum-{number}"), &mut sum.rests);
        }
    }
}

/// A walk over all texts.
struct Walk<'w, 'e> {
    each: &'w mut Each<'e>,
}

impl Walk<'_, '_> {
    fn one(&mut self, name: &str, text: &mut String) {
        if !text.is_empty() {
            (self.each)(name, text);
        }
    }

    fn some(&mut self, name: &str, text: &mut Option<String>) {
        if let Some(text) = text {
            self.one(name, text);
        }
    }

    fn all<'t>(&mut self, name: &str, texts: impl IntoIterator<Item = &'t mut String>) {
        for (number, text) in (1..).zip(texts) {
            self.one(&format!("{name}-{number}"), text);
        }
    }

    fn action(&mut self, action: &mut Action) {
        let Action {
            id,
            verb,
            place,
            means,
            say,
            how,
            fits,
            meanwhile,
            undoable,
            hands,
            on_card,
            opens,
            worked,
            ends,
            forbidden,
            ..
        } = action;
        let of = format!("act-{id}");
        for (field, text) in [
            ("verb", verb),
            ("place", place),
            ("means", means),
            ("say", say),
            ("how", how),
            ("meanwhile", meanwhile),
            ("undoable", undoable),
            ("on-card", on_card),
        ] {
            self.one(&format!("{of}-{field}"), text);
        }
        for (number, Fit { say, how, on_card, .. }) in (1..).zip(fits) {
            self.one(&format!("{of}-fit-{number}-say"), say);
            self.one(&format!("{of}-fit-{number}-how"), how);
            self.one(&format!("{of}-fit-{number}-on-card"), on_card);
        }
        for (number, hands) in (1..).zip(hands) {
            self.one(&format!("{of}-hands-{number}"), &mut hands.say);
        }
        if let Some(seen) = opens {
            self.one(&format!("{of}-opens"), &mut seen.say);
        }
        if let Some(seen) = worked {
            self.one(&format!("{of}-worked"), &mut seen.say);
        }
        if let Some(ends) = ends {
            self.end(&format!("{of}-ends"), ends);
        }
        if let Some(forbidden) = forbidden {
            self.ban(&of, forbidden);
        }
    }

    fn ban(&mut self, of: &str, ban: &mut Forbidden) {
        let Forbidden { say, why, instead, until, fits, .. } = ban;
        self.some(&format!("{of}-never"), say);
        self.one(&format!("{of}-why"), why);
        self.one(&format!("{of}-instead"), instead);
        self.end(&format!("{of}-until"), until);
        for (number, BanFit { say, why, instead, until, .. }) in (1..).zip(fits) {
            self.some(&format!("{of}-ban-fit-{number}-never"), say);
            self.one(&format!("{of}-ban-fit-{number}-why"), why);
            self.one(&format!("{of}-ban-fit-{number}-instead"), instead);
            if let Some(until) = until {
                self.end(&format!("{of}-ban-fit-{number}-until"), until);
            }
        }
    }

    fn end(&mut self, name: &str, until: &mut Until) {
        match &mut until.alone {
            End::Test { say, card, .. } => {
                self.one(name, say);
                if let Some(card) = card {
                    self.one(&format!("{name}-card"), &mut card.ask);
                }
            }
            End::Lives { because } => self.one(name, because),
        }
    }

    /// What is said of other strengths of a thing.
    fn bottles<S>(&mut self, of: &str, others: &mut [(S, String)], at_most: &mut Option<(S, String)>) {
        for (number, (_, say)) in (1..).zip(others) {
            self.one(&format!("{of}-other-{number}"), say);
        }
        if let Some((_, say)) = at_most {
            self.one(&format!("{of}-at-most"), say);
        }
    }

    fn rests(&mut self, of: &str, rests: &mut [Rest]) {
        for (number, Rest { what, borrowed, .. }) in (1..).zip(rests) {
            self.one(&format!("{of}-rest-{number}-what"), what);
            self.some(&format!("{of}-rest-{number}-borrowed"), borrowed);
        }
    }

    /// A country's texts. The names and dates of laws stay as they are: they are what one looks them up by.
    fn country(&mut self, country: &mut Country) {
        let of = format!("country-{}", country.id);
        self.one(&format!("{of}-name"), &mut country.name);
        self.one(&format!("{of}-caution"), &mut country.caution);
        for (number, Law { say, .. }) in (1..).zip(&mut country.laws) {
            self.one(&format!("{of}-law-{number}"), say);
        }
        for (number, gap) in (1..).zip(&mut country.gaps) {
            self.one(&format!("{of}-gap-{number}-what"), &mut gap.what);
            self.one(&format!("{of}-gap-{number}-looked"), &mut gap.looked);
            for (held, Law { say, .. }) in (1..).zip(&mut gap.holds) {
                self.one(&format!("{of}-gap-{number}-holds-{held}"), say);
            }
        }
    }
}
