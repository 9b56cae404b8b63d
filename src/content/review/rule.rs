//! A rule of the packet: when it holds, what it says, what both rest on.

use super::deadly::{Deadly, Soon, broken, left_out};
use super::repeated::Printed;
use super::{Entry, boxes, fingerprint};
use crate::content::booklet::Leaf;
use crate::content::document::{Item, Section, Tone, lower_first, upper_first};
use crate::content::{condition, rules};
use crate::protocol::Protocol;
use crate::protocol::action::Harm;
use crate::protocol::rule::{ActionAt, Advice, Rule};
use std::fmt::Write as _;

/// The rule's key in a form.
pub fn id(rule: &Rule) -> String {
    format!("rule:{}", rule.id)
}

/// What tells this rule, as it stands, from any other: its condition, all it says, every word of what it advises and forbids, and
/// what both rest on.
pub fn content(protocol: &Protocol, rule: &Rule) -> String {
    fingerprint(&[&rules::rule_whole(protocol, rule).to_string(), &lines(protocol, rule).join("\n")])
}

/// A rule's leaf.
pub fn entry(protocol: &Protocol, deadly: &Deadly, mark: String, told: &mut Printed) -> Entry {
    let rule = deadly.rule;
    let heading = rule.reason.clone();
    let mut items: Vec<Item> = lines(protocol, rule).into_iter().map(Item::plain).collect();
    items.extend(acts(protocol, rule, &mark, told));
    items.push(Item::plain(rests(protocol, rule)));
    let sections = vec![Section { heading: String::new(), tone: Tone::Plain, items }];
    let (id, title) = (id(rule), heading.clone());
    let leaf = Leaf { id: id.clone(), mark, heading, rung: rung(rule, deadly.soon), sections, ask: Some(boxes()) };
    Entry { id, title, content: content(protocol, rule), leaf }
}

/// What it says on the scales, or that it kills by what it advises and forbids.
fn rung(rule: &Rule, soon: Soon) -> String {
    let parts = [
        rule.need.map(|need| need.words().to_uppercase()),
        rule.humane.map(|rung| format!("humane end {}", rung.words())),
        rule.authority.map(|rung| rung.words().to_owned()),
    ];
    let told = parts.into_iter().flatten().collect::<Vec<_>>().join(" · ");
    let alone = match soon {
        Soon::End | Soon::Minutes => "advice only; counts within minutes",
        Soon::Hours => "advice only; counts within hours",
    };
    if told.is_empty() { alone.to_owned() } else { told }
}

/// When it holds, and what must be done by when.
fn lines(protocol: &Protocol, rule: &Rule) -> Vec<String> {
    let of = if rule.per_wound { "When a wound is so: " } else { "When: " };
    let mut lines = vec![format!("{of}{}.", condition::words(protocol, &rule.when))];
    let unless: Vec<String> = rule.unless.iter().map(|cond| condition::words(protocol, cond)).collect();
    if !unless.is_empty() {
        lines.push(format!("Not where: {}.", unless.join("; or ")));
    }
    lines.extend(rule.by.as_ref().map(|by| format!("By {} h after the injury: {}.", by.hours, by.what)));
    lines
}

/// What it advises and forbids, each with how soon it kills; in full where no leaf before told it.
fn acts(protocol: &Protocol, rule: &Rule, mark: &str, told: &mut Printed) -> Vec<Item> {
    let act = |at: &ActionAt| {
        let action = protocol.action(*at);
        let ends = action.ends.as_ref().map(|ends| ends.say_of_act(false));
        let more = [action.how.clone()].into_iter().chain(ends).collect();
        RuleLine { lead: action.say.clone(), told_as: action.say.clone(), soon: left_out(protocol, *at), more }
    };
    let ban = |at: &ActionAt| {
        let action = protocol.action(*at);
        let more = action
            .forbidden
            .as_ref()
            .map(|ban| [format!("{} Instead: {}", ban.why, lower_first(&ban.instead)), ban.until.say(false)].into());
        let lead = never(protocol, *at);
        RuleLine { told_as: lead.clone(), lead, soon: broken(protocol, *at), more: more.unwrap_or_default() }
    };
    let acts: Vec<RuleLine> = rule.acts.iter().map(act).collect();
    let bans: Vec<RuleLine> = rule.never.iter().map(ban).collect();
    [("Do", acts), ("", bans)].into_iter().flat_map(|(name, lines)| listed(name, lines, mark, told)).collect()
}

/// A ban in one line.
pub(super) fn never(protocol: &Protocol, ban: ActionAt) -> String {
    format!("Never: {}", lower_first(protocol.action(ban).never()))
}

/// An act or a ban of a rule.
struct RuleLine {
    lead: String,
    /// The line under which a bird's leaf told it.
    told_as: String,
    /// How soon it kills, where that is within hours.
    soon: Option<Harm>,
    more: Vec<String>,
}

/// Those told before in one line; each of the others in full, where it can kill.
fn listed(name: &str, lines: Vec<RuleLine>, mark: &str, told: &mut Printed) -> Vec<Item> {
    let mut before = String::new();
    let mut items = Vec::new();
    for RuleLine { lead, told_as, soon, more } in lines {
        let soon = match soon {
            Some(Harm::Minutes) => " [minutes]",
            Some(Harm::Hours) => " [hours]",
            Some(Harm::Days | Harm::Slight) | None => "",
        };
        let bare = lead.trim_end_matches('.');
        match told.of(&told_as) {
            None if !soon.is_empty() => {
                told.note(mark, &told_as);
                let name = if name.is_empty() { String::new() } else { format!("{name}: ") };
                items.push(Item::plain(format!("{name}{}. {}", marked(bare, soon), more.join(" "))));
            }
            place => {
                let place = place.map_or_else(String::new, |place| format!(" ({place})"));
                let _ = write!(before, " {}.", marked(bare, &format!("{soon}{place}")));
            }
        }
    }
    if !before.is_empty() {
        let name = if name.is_empty() { String::new() } else { format!("{name}:") };
        items.insert(0, Item::plain(format!("{name}{before}").trim().to_owned()));
    }
    items
}

/// A line with marks behind it; one that ends in a question keeps its sign.
fn marked(bare: &str, marks: &str) -> String {
    if marks.is_empty() { bare.trim_end_matches('?').to_owned() } else { format!("{bare}{marks}") }
}

/// Both labels in one line.
pub(super) fn rests(protocol: &Protocol, rule: &Rule) -> String {
    let finding = crate::content::old::cite(protocol, protocol.source_id(rule.source).as_str(), rule.strength);
    let advice = match &rule.advice {
        Advice::Says(source) if *source == rule.source => "the source's own".to_owned(),
        Advice::Says(source) => protocol.sources.of(*source).cite.clone(),
        Advice::Ours => "our inference".to_owned(),
    };
    let borrowed = rule.borrowed.as_ref().map(|kind| format!(" Borrowed from {kind}.")).unwrap_or_default();
    format!("Finding: {}. Advice: {advice}.{borrowed}", upper_first(&finding))
}
