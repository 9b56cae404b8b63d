//! A bird of the packet: her story, what was found, what the program tells, and what that rests on.

use super::choice::Chosen;
use super::deadly::{broken, left_out};
use super::repeated::Printed;
use super::rule::{self, never};
use super::{Entry, boxes, fingerprint};
use crate::care::cupboard::Cupboard;
use crate::care::{self, Plan, PlanStep};
use crate::content::booklet::Leaf;
use crate::content::document::{Item, Section, Tone, section, upper_first};
use crate::content::{phone, plan, steps};
use crate::finding::About;
use crate::judge::Reason;
use crate::practice::Script;
use crate::protocol::Protocol;
use crate::protocol::action::Part;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, TALK};
use crate::prove::{self, Exact};
use chrono::DateTime;
use std::collections::BTreeMap;

/// The rules that stand in the packet by themselves, each with its mark.
pub type Marks = BTreeMap<String, String>;

/// A bird's leaf. What was told in full on a leaf before hers is told in one line.
pub fn entry(protocol: &Protocol, chosen: &Chosen, number: usize, rules: &Marks, told: &mut Printed) -> Entry {
    let script = chosen.script;
    let verdict = prove::judge(protocol, &script.findings, DateTime::UNIX_EPOCH);
    let plan = care::plan(protocol, &verdict, &Cupboard::default());
    let page = BirdPage { protocol, script, verdict: &verdict, plan: &plan };
    let mark = format!("B{number}");
    let full = page.sections(rules);
    let content = fingerprint(&[&script_text(script), &text_of(&full)]);
    let sections = full.into_iter().map(|section| told.once(&mark, section)).collect();
    let why =
        if chosen.adds.is_empty() { "acts and bans that no other shows".to_owned() } else { chosen.adds.join(", ") };
    let heading = format!("{} ({})", upper_first(&page.kind()), script.name.replace('_', " "));
    let id = format!("bird:{}", script.name);
    let title = heading.clone();
    let leaf = Leaf { id: id.clone(), mark, heading, rung: page.rung(), sections, ask: Some(boxes()) };
    Entry { id, title, content, leaf: with_why(leaf, &why) }
}

fn with_why(mut leaf: Leaf, why: &str) -> Leaf {
    let chosen = Item::plain(format!("Chosen for: {why}."));
    leaf.sections.push(Section { heading: String::new(), tone: Tone::Plain, items: vec![chosen] });
    leaf
}

/// What decides a scripted bird: her answers, as they were written.
fn script_text(script: &Script) -> String {
    format!(
        "{:?}",
        (
            &script.scenario.answers.0,
            &script.scenario.wounds,
            script.scenario.looked_over,
            script.scenario.well_otherwise
        )
    )
}

fn text_of(sections: &[Section]) -> String {
    let lines = sections.iter().flat_map(|section| {
        let items = section.items.iter().flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
        std::iter::once(&section.heading).chain(items)
    });
    lines.map(String::as_str).collect::<Vec<_>>().join("\n")
}

struct BirdPage<'a> {
    protocol: &'a Protocol,
    script: &'a Script,
    verdict: &'a Exact,
    plan: &'a Plan,
}

impl BirdPage<'_> {
    fn kind(&self) -> String {
        let asked = self.protocol.kind_question();
        let kind = crate::content::old::known(self.protocol, &self.script.findings, About::Bird, asked);
        kind.unwrap_or_else(|| "bird, kind not told".to_owned())
    }

    /// Where she stands, in one line that stays in view.
    fn rung(&self) -> String {
        let (humane, authority) = (self.verdict.humane, self.verdict.authority);
        let end = (humane.low > Humane::NotInQuestion).then(|| format!("humane end {}", humane.low.words()));
        let call = (authority.low > Authority::None).then(|| authority.low.words().to_owned());
        let no_vet = self.verdict.no_vet().then(|| "no vet in reach".to_owned());
        let need = crate::words::english(crate::judge::brief(self.verdict.need)).to_uppercase();
        [Some(need), end, call, no_vet].into_iter().flatten().collect::<Vec<_>>().join(" · ")
    }

    fn sections(&self, rules: &Marks) -> Vec<Section> {
        let first = [Part::First];
        let then = [Part::Wound, Part::House, Part::Flock];
        let script = phone::script(self.protocol, &self.script.findings, self.verdict);
        [
            section("", Tone::Plain, self.story()),
            section("IT TELLS HER KEEPER", Tone::Grave, self.scales()),
            section("DO NOW, IN THIS ORDER", Tone::Act, self.steps(&first)),
            section("THEN", Tone::Act, self.steps(&then)),
            section("NEVER", Tone::Never, self.nevers()),
            section("ON THE PHONE", Tone::Plain, vec![Item::plain(script)]),
            section("BECAUSE", Tone::Plain, self.reasons(rules)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn story(&self) -> Vec<Item> {
        let wounds = self.script.scenario.wounds.iter().enumerate();
        let wounds = wounds.map(|(number, pairs)| (format!("Wound {}", number + 1), About::Wound(number), pairs));
        let all = [("Found".to_owned(), About::Bird, &self.script.scenario.answers)].into_iter().chain(wounds);
        let found = all.map(|(name, about, pairs)| Item::plain(format!("{name}: {}.", self.found(about, &pairs.0))));
        let rest = match (self.script.scenario.well_otherwise, self.script.scenario.looked_over) {
            (true, true) => "All else that was asked: as in a sound bird. Looked over to the end.",
            (true, false) => "All else that was asked: as in a sound bird. Not looked over to the end.",
            (false, true) => "Nothing else was asked yet. Looked over to the end.",
            (false, false) => "Nothing else was asked yet.",
        };
        [Item::plain(&self.script.scenario.story)].into_iter().chain(found).chain([Item::plain(rest)]).collect()
    }

    /// What was said, in the words of the questions.
    fn found(&self, about: About, pairs: &[(String, String)]) -> String {
        let told = pairs.iter().filter_map(|(id, _)| {
            let at = self.protocol.question_at(id)?;
            let question = self.protocol.ask(at);
            if at == self.protocol.roles.kind.question || question.adds_to.is_some() {
                return None;
            }
            let words = crate::content::old::known(self.protocol, &self.script.findings, about, question);
            let words = words.unwrap_or_else(|| "cannot be told".to_owned());
            Some(if words == question.topic { words } else { format!("{}: {words}", question.topic) })
        });
        told.collect::<Vec<_>>().join("; ")
    }

    fn scales(&self) -> Vec<Item> {
        let no_vet = self.verdict.no_vet();
        let need = format!("Need: {}.", crate::words::english(crate::judge::brief_told(self.verdict.need, no_vet)));
        let humane = self.verdict.humane.low;
        let talk = if humane.is_advised() { format!(" {TALK}") } else { String::new() };
        let humane = format!("Humane end: {}.{talk}", humane.words());
        let authority = format!("Animal-health authority: {}.", self.verdict.authority.low.words());
        [need, humane, authority].into_iter().map(Item::plain).collect()
    }

    /// What is done. After the first minutes only what kills within hours where it is left out is told in full.
    fn steps(&self, parts: &[Part]) -> Vec<Item> {
        let of_parts = self.plan.steps.iter().filter(|step| parts.contains(&step.part(self.protocol)));
        let item = |step: &PlanStep| {
            let item = steps::item(self.protocol, &self.script.findings, self.verdict, self.plan, step);
            let item = english(self.protocol).item(&item);
            match step {
                PlanStep::Act(target, _)
                    if !parts.contains(&Part::First) && left_out(self.protocol, target.action).is_none() =>
                {
                    Item::plain(item.lead)
                }
                PlanStep::Act(..) | PlanStep::Phone(_) => item,
            }
        };
        of_parts.map(item).collect()
    }

    /// What is never done; in full where doing it kills within hours.
    fn nevers(&self) -> Vec<Item> {
        let deadly = self.plan.never_once().filter(|ban| broken(self.protocol, *ban).is_some());
        let deadly: Vec<String> = deadly.map(|ban| never(self.protocol, ban)).collect();
        let nevers = plan::nevers(self.protocol, self.verdict, self.plan).into_iter();
        let nevers = nevers.map(|item| english(self.protocol).item(&item));
        let short = |item: Item| {
            if deadly.iter().any(|ban| item.lead.ends_with(ban)) { item } else { Item::plain(item.lead) }
        };
        nevers.map(short).collect()
    }

    /// The rules that bring her to where she stands, each with what it rests on; the others by their marks.
    fn reasons(&self, rules: &Marks) -> Vec<Item> {
        let all = &self.verdict.reasons;
        let first = |at: usize, reason: &Reason| !all.iter().take(at).any(|before| before.rule == reason.rule);
        let once = all.iter().enumerate().filter(|(at, reason)| first(*at, reason)).map(|(_, reason)| *reason);
        let (bring, others): (Vec<Reason>, Vec<Reason>) =
            once.partition(|reason| self.brings(self.protocol.rule(reason.rule)));
        let mark = |reason: &Reason| rules.get(self.protocol.rule(reason.rule).id.as_str());
        let item = |reason: &Reason| {
            let of: Vec<Reason> = all.iter().filter(|other| other.rule == reason.rule).copied().collect();
            let mark = mark(reason).map_or_else(String::new, |mark| format!("{mark} "));
            let lead = format!("{mark}{}", crate::content::old::headline_of(self.protocol, *reason, &of));
            let leads = upper_first(&crate::content::old::consequence(self.protocol, *reason, false));
            let rests = rule::rests(self.protocol, self.protocol.rule(reason.rule));
            Item::with(lead, format!("{leads}. {rests}"), &[])
        };
        let marks: Vec<&str> = others.iter().filter_map(|reason| mark(reason).map(String::as_str)).collect();
        let also = (!marks.is_empty()).then(|| Item::plain(format!("Also in force: {}.", marks.join(", "))));
        bring.iter().map(item).chain(also).collect()
    }

    /// Whether a rule by itself comes to a rung where she stands.
    fn brings(&self, rule: &Rule) -> bool {
        let (need, humane, authority) = (self.verdict.need, self.verdict.humane, self.verdict.authority);
        rule.need == Some(need.low)
            || (humane.low > Humane::NotInQuestion && rule.humane >= Some(humane.low))
            || (authority.low > Authority::None && rule.authority >= Some(authority.low))
    }
}

/// The reader of a packet, which tells no moment and no law.
fn english(protocol: &Protocol) -> crate::words::Reader<'_> {
    crate::words::Reader::english(crate::zone::Zone::UTC, protocol.no_country())
}
