//! From raw items to a checked protocol, or to every problem at once.

mod action;
mod basis;
mod body;
mod cond;
mod direction;
mod law;
mod named;
mod night;
mod order;
mod question;
mod ring;
mod roles;
mod rule;
mod steps;
mod strength;
mod substance;
mod sum;
mod supply;
mod text;
mod told;

use super::cond::Cond;
use super::fault::{Fault, Faults, nearest};
use super::item::{Class, Items, Known};
use super::limits::LONGEST_TIMER;
use super::misread::{Lost, Misread};
use super::question::{ListAt, Question, SignList, Step};
use super::read::{File, Placed, read};
use super::source::Source;
use super::spelling::spelled;
use super::table::{At, placed};
use super::{Gravity, Positions, Protocol, raw};
use basis::SourceFacts;
use direction::Written;
use std::collections::BTreeMap;

/// Checks the files of a protocol.
pub fn check(files: &[File]) -> Result<Protocol, Faults> {
    check_changed(files, |_| ())
}

/// The same, with a change made to what they say before it is checked.
pub fn check_changed(files: &[File], change: impl FnOnce(&mut Items)) -> Result<Protocol, Faults> {
    let (mut items, Misread { faults, mut lost }) = read(files);
    change(&mut items);
    let manifest = items.manifest.as_ref().map(|placed| &placed.item);
    let steps = manifest.map_or(&[][..], |manifest| &manifest.steps);
    let lists = manifest.map_or(&[][..], |manifest| &manifest.lists);
    let facts = |placed: &Placed<raw::Source>| (placed.item.id.clone(), SourceFacts::of(&placed.item));
    if items.manifest.is_none() {
        // Nobody knows the steps and lists then.
        lost.everything();
    }
    let mut desk = Checker {
        faults,
        lost,
        names: Known::of(&items),
        roles: items.roles.as_ref().map(|placed| placed.item.clone()),
        steps: placed(steps).map(|(at, step)| (step.id.clone(), at)).collect(),
        lists: placed(lists).map(|(at, list)| (list.id.clone(), at)).collect(),
        sources: items.sources.iter().map(facts).collect(),
        conditions: Vec::new(),
    };
    let protocol = desk.protocol(&items, fingerprint(files));
    match protocol {
        Some(protocol) if desk.faults.is_empty() => Ok(protocol),
        _ => {
            desk.faults.sort();
            desk.faults.dedup();
            Err(Faults(desk.faults))
        }
    }
}

/// BLAKE3 over every file's name and text, in the order given.
fn fingerprint(files: &[File]) -> String {
    let mut hasher = blake3::Hasher::new();
    for file in files {
        for part in [&file.name, &file.text] {
            hasher.update(&(part.len() as u64).to_le_bytes());
            hasher.update(part.as_bytes());
        }
    }
    hasher.finalize().to_hex().to_string()
}

/// Where the checking is done: the faults found so far and the names that are known.
struct Checker {
    faults: Vec<Fault>,
    /// What could not be read, so a name that is not known may be one of those.
    lost: Lost,
    names: Known,
    /// The roles, as they are told.
    roles: Option<raw::Roles>,
    /// The steps by name, in their order.
    steps: BTreeMap<String, At<Step>>,
    /// The lists by name, likewise.
    lists: BTreeMap<String, ListAt>,
    /// What every source says of whatever rests on it.
    sources: BTreeMap<String, SourceFacts>,
    /// The conditions that bear a name, checked; nothing where one has a fault, which is told already.
    conditions: Vec<Option<Cond>>,
}

impl Checker {
    fn protocol(&mut self, items: &Items, fingerprint: String) -> Option<Protocol> {
        if !self.is_named(items) {
            return None;
        }
        self.named_conditions(items);
        let sources = items.sources.iter().map(|placed| self.source(placed)).collect();
        let actions: Vec<_> = items.actions.iter().filter_map(|placed| self.action(placed, items)).collect();
        let watches = items.watches.iter().map(|placed| self.watch(placed)).collect();
        let instructions = items.instructions.iter().filter_map(|placed| self.instruction(placed, items)).collect();
        self.rings(items);
        let questions = self.questions(items);
        let asked_for = self.roles(items, &questions);
        let place = asked_for.as_ref().map(|roles| roles.place);
        let rules = self.rules(items, &questions);
        let conflicts = items.conflicts.iter().filter_map(|placed| self.conflict(placed)).collect();
        let rules_out = items.rules_out.iter().filter_map(|placed| self.ruled_out(placed)).collect();
        let exclusions = items.exclusions.iter().filter_map(|placed| self.exclusion(placed, items)).collect();
        let paragraphs =
            items.paragraphs.iter().filter_map(|placed| self.paragraph(placed, items, &questions)).collect();
        let countries = self.countries(items);
        let scores = items.scores.iter().map(|placed| self.score(placed, &questions)).collect();
        let grades = self.grades(items);
        let supplies = items.supplies.iter().map(|placed| self.supply(placed, items)).collect();
        let ways = self.ways(items);
        let substances = self.substances(items);
        let uses = self.uses(items, &questions);
        let families = self.families(items);
        let sums = self.sums(items);
        let rounds = items.rounds.iter().filter_map(|placed| self.round(placed)).collect();
        let views = self.views(items);
        let regions = self.regions(items, place, &questions);
        self.in_order(items);
        self.pressing(items, &actions, &regions, place, &questions);
        let Some(manifest) = &items.manifest else {
            self.faults.push(no_manifest());
            return None;
        };
        self.manifest_words(manifest);
        let [spare_when, spare_in_doubt, bleeds_when, skin_only_when, frail_when] =
            self.states(manifest, items, &questions);
        let stable_when = self.stable_when(manifest, items, &questions);
        let night = self.night(manifest);
        let said_first = self.said(manifest, ("said_first", false), &manifest.item.said_first, &questions);
        let said_of_wounds = self.said(manifest, ("said_of_wounds", true), &manifest.item.said_of_wounds, &questions);
        self.lists(manifest, items);
        let hold_source = self.known_source(manifest, "protocol", Some(&manifest.item.hold_source));
        let item = manifest.item.clone();
        Some(Protocol {
            lists: lists(item.lists).into(),
            version: item.version,
            fingerprint,
            hold_s: item.hold_s,
            each_look: item.each_look,
            hold_source,
            looks_by_need: item.looks_by_need.clone(),
            spare_when: spare_when?,
            spare_in_doubt: spare_in_doubt?,
            stable_when: stable_when?,
            night: night?,
            frail_when: frail_when?,
            bleeds_when: bleeds_when?,
            skin_only_when: skin_only_when?,
            withheld_until: item.withheld_until,
            said_first,
            said_of_wounds,
            spare_say: item.spare_say,
            steps: steps(item.steps).into(),
            roles: asked_for?,
            positions: Positions::of(&questions),
            gravity: Gravity::default(),
            questions: questions.into(),
            rules: rules.into(),
            actions: actions.into(),
            watches,
            conflicts,
            rules_out,
            instructions,
            exclusions,
            paragraphs,
            terms: items.terms.iter().map(|placed| self.term(placed)).collect(),
            countries: countries.into(),
            scores,
            grades: grades.into(),
            supplies,
            ways: ways.into(),
            rounds,
            substances: substances.into(),
            label_words: items.label_words.iter().map(|placed| spelled(&placed.item)).collect(),
            uses: uses.into(),
            families: families.into(),
            sums: sums.into(),
            views: views.into(),
            regions: regions.into(),
            sources,
        })
    }

    /// Whether names can be looked up at all: else one cause would bring a fault wherever a name is used.
    fn is_named(&mut self, items: &Items) -> bool {
        self.all_unique(items);
        // Without the roles nobody knows what a source that is none, or an answer to a sign, is called.
        let missing = items.roles.is_none() && items.manifest.is_some() && !self.lost.some;
        if missing {
            self.faults.push(roles::no_roles());
        }
        !missing
    }

    /// The states of a bird the protocol itself names, each by its condition.
    fn states(&mut self, manifest: &Placed<raw::Manifest>, items: &Items, questions: &[Question]) -> [Option<Cond>; 5] {
        let spared = [("spare_when", &manifest.item.spare_when), ("spare_in_doubt", &manifest.item.spare_in_doubt)];
        let [spare_when, spare_in_doubt] = spared
            .map(|(field, cond)| self.cond(&cond::Belongs { placed: manifest, item: "protocol", field }, cond, items));
        let of = cond::Belongs { placed: manifest, item: "protocol", field: "bleeds_when" };
        let bleeds_when = self.cond(&of, &manifest.item.bleeds_when, items);
        if let Some(cond) = &bleeds_when {
            self.direction(&of, Written { raw: &manifest.item.bleeds_when, cond, items }, true, questions);
        }
        let of = cond::Belongs { placed: manifest, item: "protocol", field: "skin_only_when" };
        let skin_only_when = self.cond(&of, &manifest.item.skin_only_when, items);
        let of = cond::Belongs { placed: manifest, item: "protocol", field: "frail_when" };
        let frail_when = self.cond(&of, &manifest.item.frail_when, items);
        if let Some(cond) = &frail_when {
            self.frailty(&of, Written { raw: &manifest.item.frail_when, cond, items }, questions);
        }
        [spare_when, spare_in_doubt, bleeds_when, skin_only_when, frail_when]
    }

    /// Whether a bird is frail rests on answers, and grows with them.
    fn frailty(&mut self, of: &cond::Belongs<raw::Manifest>, written: Written, questions: &[Question]) {
        self.direction(of, written, true, questions);
        let parts = self.parts(written, true);
        if let Some((part, near)) = parts.iter().find_map(|part| Some((part, part.beyond_answers()?))) {
            let what = "whether a bird is frail decides what measures come to, so it may rest on answers only";
            self.complain_of(of, part, near, what.into());
        }
    }

    fn manifest_words(&mut self, manifest: &Placed<raw::Manifest>) {
        let item = &manifest.item;
        for (_, looks) in &item.looks_by_need {
            self.looks(manifest, "protocol, field looks_by_need", "looks_by_need", looks);
        }
        self.between(manifest, "hold_s", item.hold_s, 1..=LONGEST_TIMER);
        if item.caution.is_some() {
            let what = "the caution is the program's own and stands on all it says; delete this line".to_owned();
            self.faults.push(manifest.fault("protocol, field caution".into(), "caution:", what));
        }
        self.words(manifest, "protocol", "withheld_until", &item.withheld_until);
        for (field, text) in [("spare_say", &item.spare_say), ("each_look", &item.each_look)] {
            self.instructs(manifest, "protocol", field, text);
        }
    }

    /// No two items of a class share a name, and no watch sign has a rule's: both stand in one list of what a bird is judged by.
    fn all_unique(&mut self, items: &Items) {
        let Misread { faults, lost } = items.twice();
        self.faults.extend(faults);
        self.lost.names.extend(lost.names);
        for placed in &items.watches {
            let id = &placed.item.id;
            if let Some(rule) = items.rules.iter().find(|rule| rule.item.id == *id) {
                let what = format!(
                    "a rule in {}, line {}, has this `id` too; give one of the two another",
                    rule.file,
                    rule.line_of(id)
                );
                self.faults.push(placed.fault(format!("watch sign `{id}`"), id, what));
            }
        }
    }

    /// Lists are told, and the signs on them are about the bird and run from fine to worst.
    fn lists(&mut self, manifest: &Placed<raw::Manifest>, items: &Items) {
        for list in &manifest.item.lists {
            self.asks_with(manifest, &format!("list `{}`", list.id), "ask", &list.ask);
            self.instructs(manifest, &format!("list `{}`", list.id), "look", &list.look);
        }
        for placed in &items.questions {
            let Some(list) = &placed.item.list else {
                continue;
            };
            let item = format!("question `{}`, field list", placed.item.id);
            if !self.lists.contains_key(list) {
                let near = nearest(list, self.lists.keys().map(String::as_str));
                let fault = placed.fault(item.clone(), list, format!("list `{list}` is not known"));
                self.faults.push(Fault { nearest: near, ..fault });
            }
            if placed.item.wound || !placed.item.form.is_ordered() {
                let what = "a sign on a list is about the bird, and its answers are ordered".to_owned();
                self.faults.push(placed.fault(item, list, what));
            }
        }
    }

    fn source(&mut self, placed: &Placed<raw::Source>) -> Source {
        let raw::Source { id, cite, at, grade, .. } = placed.item.clone();
        self.words(placed, &format!("source `{id}`"), "cite", &cite);
        Source { id: id.as_str().into(), cite, at, grade }
    }

    /// The position of an item by its name; where there is none, a fault with the nearest name.
    fn known<T: Class, P>(&mut self, placed: &Placed<P>, item: &str, field: &str, name: &str) -> Option<At<T>> {
        let at = T::names(&self.names).get(name).copied();
        if at.is_none() {
            let near = nearest(name, T::names(&self.names).keys().map(String::as_str));
            self.unknown(placed, item, field, T::WORD, name, near);
        }
        at
    }

    /// The position of a step by its name, likewise.
    fn known_step<P>(&mut self, placed: &Placed<P>, item: &str, field: &str, name: &str) -> Option<At<Step>> {
        let at = self.steps.get(name).copied();
        if at.is_none() {
            let near = nearest(name, self.steps.keys().map(String::as_str));
            self.unknown(placed, item, field, "step", name, near);
        }
        at
    }

    /// The same for several: each that is not known is told.
    fn all_known<T: Class, P>(
        &mut self,
        placed: &Placed<P>,
        item: &str,
        field: &str,
        names: &[String],
    ) -> Option<Vec<At<T>>> {
        let found: Vec<_> = names.iter().map(|name| self.known(placed, item, field, name)).collect();
        found.into_iter().collect()
    }

    fn unknown<T>(
        &mut self,
        placed: &Placed<T>,
        item: &str,
        field: &str,
        class: &str,
        name: &str,
        nearest: Option<String>,
    ) {
        if self.lost.may_hold(name) {
            // One unreadable action would otherwise bring a fault for every rule that names it.
            return;
        }
        // Nothing is near a source one has to add.
        let next = if nearest.is_none() && class == Source::WORD {
            "; expected one of `sources.ron`, or one that is added there; where there is none, leave the field out"
        } else {
            ""
        };
        let what = format!("{class} `{name}` is not known{next}");
        let fault = placed.fault(format!("{item}, field {field}"), name, what);
        self.faults.push(Fault { nearest, ..fault });
    }
}

fn no_manifest() -> Fault {
    let what = "no file holds `protocol: (version: .., steps: [..])`".to_owned();
    Fault { file: "protocol.ron".into(), line: 0, item: String::new(), what, nearest: None }
}

fn steps(steps: Vec<raw::Step>) -> Vec<Step> {
    let step = |step: raw::Step| Step { id: step.id.as_str().into(), name: step.name, hands_on: step.hands_on };
    steps.into_iter().map(step).collect()
}

fn lists(lists: Vec<raw::List>) -> Vec<SignList> {
    let list = |list: raw::List| SignList { id: list.id.as_str().into(), ask: list.ask, look: list.look };
    lists.into_iter().map(list).collect()
}
