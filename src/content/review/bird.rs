//! A bird of the packet: her story, what was found, what the program tells, and what that rests on.

use super::choice::Chosen;
use super::deadly::{broken, left_out};
use super::repeated::Printed;
use super::rule::{self, never};
use super::{Entry, boxes, fingerprint};
use crate::care::cupboard::Cupboard;
use crate::care::{self, Plan, PlanStep};
use crate::content::booklet::Leaf;
use crate::content::document::{Item, Section, Tone, section};
use crate::content::{answers, phone, plan, steps, terms, why};
use crate::finding::About;
use crate::judge::Reason;
use crate::phrase::{Text, review as phrase, terms as words, verdict, why as because};
use crate::practice::Script;
use crate::protocol::Protocol;
use crate::protocol::action::Part;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane};
use crate::prove::{self, Exact};
use crate::words::english;
use crate::zone::Zone;
use chrono::DateTime;
use std::collections::BTreeMap;

/// The rules that stand in the packet by themselves, each with its mark.
pub type Marks = BTreeMap<String, String>;

/// A bird's leaf. What was told in full on a leaf before hers is told in one line.
pub fn entry(protocol: &Protocol, chosen: &Chosen, number: usize, rules: &Marks, told: &mut Printed) -> Entry {
    let script = chosen.script;
    let verdict = prove::judge(protocol, &script.findings, DateTime::UNIX_EPOCH);
    let plan = care::plan(protocol, &verdict, &Cupboard::default(), Zone::UTC);
    let page = BirdPage { protocol, script, verdict: &verdict, plan: &plan };
    let mark = format!("B{number}");
    let full = page.sections(rules);
    let content = fingerprint(&[&script_text(script), &text_of(&full)]);
    let sections = full.into_iter().map(|section| told.once(&mark, section)).collect();
    let why =
        if chosen.adds.is_empty() { phrase::chosen_for_acts().into() } else { Text::list(chosen.adds.iter().cloned()) };
    let heading = Text::from(words::cite(Text::opening(page.kind()), Text::typed(script.name.replace('_', " "))));
    let id = format!("bird:{}", script.name);
    let title = heading.clone();
    let leaf = Leaf { id: id.clone(), mark, heading, rung: page.rung(), sections, ask: Some(boxes()) };
    Entry { id, title, content, leaf: with_why(leaf, why) }
}

fn with_why(mut leaf: Leaf<Text>, why: Text) -> Leaf<Text> {
    let chosen = Item::plain(phrase::chosen_for(why));
    leaf.sections.push(Section { heading: Text::default(), tone: Tone::Plain, items: vec![chosen] });
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

/// What decides whether a form still holds: all that is told, in the language the program ships with.
fn text_of(sections: &[Section<Text>]) -> String {
    let lines = sections.iter().flat_map(|section| {
        let items = section.items.iter().flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
        std::iter::once(&section.heading).chain(items)
    });
    lines.cloned().map(english).collect::<Vec<_>>().join("\n")
}

struct BirdPage<'a> {
    protocol: &'a Protocol,
    script: &'a Script,
    verdict: &'a Exact,
    plan: &'a Plan,
}

impl BirdPage<'_> {
    fn kind(&self) -> Text {
        let asked = self.protocol.kind_question();
        let kind = answers::known(self.protocol, &self.script.findings, About::Bird, asked);
        kind.unwrap_or_else(|| phrase::kind_not_told().into())
    }

    /// Where she stands, in one line that stays in view.
    fn rung(&self) -> Text {
        let (humane, authority) = (self.verdict.humane, self.verdict.authority);
        let end = (humane.low > Humane::NotInQuestion).then(|| because::humane(terms::humane(humane.low)).into());
        let call = (authority.low > Authority::None).then(|| terms::authority(authority.low).into());
        let no_vet = self.verdict.no_vet().then(|| phrase::no_vet().into());
        let need = Text::capitals(crate::judge::brief(self.verdict.need));
        rule::beside([Some(need), end, call, no_vet].into_iter().flatten()).unwrap_or_default()
    }

    fn sections(&self, rules: &Marks) -> Vec<Section<Text>> {
        let first = [Part::First];
        let then = [Part::Wound, Part::House, Part::Flock];
        // What finds room in the call is part of what a form is about, whatever language it is read in.
        let say = |text: &Text| english(text.clone());
        let script = phone::script(self.protocol, &self.script.findings, self.verdict, &say);
        [
            section(Text::default(), Tone::Plain, self.story()),
            section(phrase::heading_tells(), Tone::Grave, self.scales()),
            section(phrase::heading_now(), Tone::Act, self.steps(&first)),
            section(phrase::heading_then(), Tone::Act, self.steps(&then)),
            section(phrase::heading_never(), Tone::Never, self.nevers()),
            section(phrase::heading_phone(), Tone::Plain, vec![Item::plain(script)]),
            section(phrase::heading_because(), Tone::Plain, self.reasons(rules)),
        ]
        .into_iter()
        .flatten()
        .collect()
    }

    fn story(&self) -> Vec<Item<Text>> {
        let scenario = &self.script.scenario;
        let wounds = scenario.wounds.iter().enumerate();
        let wounds = wounds.map(|(number, pairs)| (words::wound(number + 1), About::Wound(number), pairs));
        let all = [(phrase::found(), About::Bird, &scenario.answers)].into_iter().chain(wounds);
        let found = all.map(|(name, about, pairs)| Item::plain(words::named_ended(name, self.found(about, &pairs.0))));
        let rest = match (scenario.well_otherwise, scenario.looked_over) {
            (true, true) => phrase::rest_sound(),
            (true, false) => phrase::rest_sound_not_over(),
            (false, true) => phrase::rest_not_asked_over(),
            (false, false) => phrase::rest_not_asked(),
        };
        [Item::plain(Text::quoted(&scenario.story))].into_iter().chain(found).chain([Item::plain(rest)]).collect()
    }

    /// What was said, in the words of the questions.
    fn found(&self, about: About, pairs: &[(String, String)]) -> Text {
        let told = pairs.iter().filter_map(|(id, _)| {
            let at = self.protocol.question_at(id)?;
            let question = self.protocol.ask(at);
            if at == self.protocol.roles.kind.question || question.adds_to.is_some() {
                return None;
            }
            let told = answers::known(self.protocol, &self.script.findings, about, question);
            let told = told.unwrap_or_else(|| phrase::cannot_be_told().into());
            let topic = Text::quoted(&question.topic);
            Some(if told == topic { told } else { words::named(topic, told).into() })
        });
        Text::clauses(told)
    }

    fn scales(&self) -> Vec<Item<Text>> {
        let need = crate::judge::brief_told(self.verdict.need, self.verdict.no_vet());
        let humane = self.verdict.humane.low;
        let talk = humane.is_advised().then(words::talk);
        let end = Text::row([words::ended(verdict::humane(terms::humane(humane)))].into_iter().chain(talk));
        let authority = words::ended(verdict::authority(terms::authority(self.verdict.authority.low)));
        [words::ended(verdict::need(need)).into(), end, authority.into()].into_iter().map(Item::plain).collect()
    }

    /// What is done. After the first minutes only what kills within hours where it is left out is told in full.
    fn steps(&self, parts: &[Part]) -> Vec<Item<Text>> {
        let of_parts = self.plan.steps.iter().filter(|step| parts.contains(&step.part(self.protocol)));
        let item = |step: &PlanStep| {
            let item = steps::item(self.protocol, &self.script.findings, self.verdict, self.plan, step);
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
    fn nevers(&self) -> Vec<Item<Text>> {
        let deadly = self.plan.never_once().filter(|ban| broken(self.protocol, ban.action).is_some());
        let deadly: Vec<String> =
            deadly.map(|ban| english(never(self.verdict.fitting.never(self.protocol, ban)))).collect();
        let nevers = plan::nevers(self.protocol, self.verdict, self.plan).into_iter();
        let short = |item: Item<Text>| {
            let lead = english(item.lead.clone());
            if deadly.iter().any(|ban| lead.ends_with(ban)) { item } else { Item::plain(item.lead) }
        };
        nevers.map(short).collect()
    }

    /// The rules that bring her to where she stands, each with what it rests on; the others by their marks.
    fn reasons(&self, rules: &Marks) -> Vec<Item<Text>> {
        let all = &self.verdict.reasons;
        let first = |at: usize, reason: &Reason| !all.iter().take(at).any(|before| before.rule == reason.rule);
        let once = all.iter().enumerate().filter(|(at, reason)| first(*at, reason)).map(|(_, reason)| *reason);
        let (bring, others): (Vec<Reason>, Vec<Reason>) =
            once.partition(|reason| self.brings(self.protocol.rule(reason.rule)));
        let mark = |reason: &Reason| rules.get(self.protocol.rule(reason.rule).id.as_str());
        let item = |reason: &Reason| {
            let of: Vec<Reason> = all.iter().filter(|other| other.rule == reason.rule).copied().collect();
            let headline = why::headline_of(self.protocol, *reason, &of);
            let lead = Text::row(mark(reason).map(Text::typed).into_iter().chain([headline]));
            let leads = words::ended(Text::opening(why::consequence(self.protocol, *reason, false)));
            let rests = rule::rests(self.protocol, self.protocol.rule(reason.rule));
            Item::with(lead, Text::row([leads.into(), rests]), &[])
        };
        let marks: Vec<Text> = others.iter().filter_map(|reason| mark(reason).map(Text::typed)).collect();
        let also = (!marks.is_empty()).then(|| Item::plain(phrase::also(Text::list(marks))));
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
