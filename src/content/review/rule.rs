//! A rule of the packet: when it holds, what it says, what both rest on.

use super::deadly::{Deadly, Soon, broken, left_out};
use super::repeated::Printed;
use super::{Entry, RuleWhole, boxes, fingerprint};
use crate::care;
use crate::content::booklet::Leaf;
use crate::content::document::{Item, Section, Tone};
use crate::content::{condition, terms, why};
use crate::phrase::{Text, review as phrase, terms as words, why as because};
use crate::protocol::Protocol;
use crate::protocol::action::{Action, Harm};
use crate::protocol::rule::{ActionAt, Advice, Rule};
use crate::protocol::source::Strength;
use crate::words::english;

/// The rule's key in a form.
pub fn id(rule: &Rule) -> String {
    format!("rule:{}", rule.id)
}

/// What tells this rule, as it stands, from any other: its condition, all it says, every word of what it advises and forbids, and
/// what both rest on.
pub fn content(protocol: &Protocol, rule: &Rule, whole: RuleWhole) -> String {
    let lines: Vec<String> = lines(protocol, rule).into_iter().map(english).collect();
    fingerprint(&[&whole(protocol, rule), &lines.join("\n")])
}

/// A rule's leaf.
pub fn entry(protocol: &Protocol, deadly: &Deadly, mark: String, whole: RuleWhole, told: &mut Printed) -> Entry {
    let rule = deadly.rule;
    let heading = Text::quoted(&rule.reason);
    let mut items: Vec<Item<Text>> = lines(protocol, rule).into_iter().map(Item::plain).collect();
    items.extend(acts(protocol, rule, &mark, told));
    items.push(Item::plain(rests_after(protocol, rule, &mark, told)));
    let sections = vec![Section { heading: Text::default(), tone: Tone::Plain, items }];
    let (id, title) = (id(rule), heading.clone());
    let leaf = Leaf { id: id.clone(), mark, heading, rung: rung(rule, deadly.soon), sections, ask: Some(boxes()) };
    Entry { id, title, content: content(protocol, rule, whole), leaf }
}

/// What it says on the scales, or that it kills by what it advises and forbids.
fn rung(rule: &Rule, soon: Soon) -> Text {
    let parts = [
        rule.need.map(|need| Text::capitals(terms::need(need, false))),
        rule.humane.map(|rung| because::humane(terms::humane(rung)).into()),
        rule.authority.map(|rung| terms::authority(rung).into()),
    ];
    let alone = || match soon {
        Soon::End | Soon::Minutes => phrase::within_minutes().into(),
        Soon::Hours => phrase::within_hours().into(),
    };
    beside(parts.into_iter().flatten()).unwrap_or_else(alone)
}

/// What stands in one line that stays in view.
pub(super) fn beside(parts: impl IntoIterator<Item = Text>) -> Option<Text> {
    parts.into_iter().reduce(|one, other| phrase::beside(one, other).into())
}

/// When it holds, and what must be done by when.
fn lines(protocol: &Protocol, rule: &Rule) -> Vec<Text> {
    let when = condition::words(protocol, &rule.when);
    let when = if rule.per_wound { phrase::when_wound(when) } else { phrase::when(when) };
    let unless = rule.unless.iter().map(|cond| condition::words(protocol, cond));
    let unless = unless.reduce(|one, other| phrase::or(one, other).into()).map(phrase::unless);
    let by = rule.by.as_ref().map(|by| phrase::by(by.hours, Text::quoted(&by.what)));
    [when].into_iter().chain(unless).chain(by).map(Text::from).collect()
}

/// What it advises and forbids, each with how soon it kills; in full where no leaf before told it.
fn acts(protocol: &Protocol, rule: &Rule, mark: &str, told: &mut Printed) -> Vec<Item<Text>> {
    let act = |at: &ActionAt| {
        let action = protocol.action(*at);
        let ends = action.ends.as_ref().map(|ends| Text::from(care::end_of_act(ends, false)));
        let more = [Text::quoted(&action.how)].into_iter().chain(ends).collect();
        RuleLine { action, of: LineOf::Act, soon: left_out(protocol, *at), more }
    };
    let ban = |at: &ActionAt| {
        let action = protocol.action(*at);
        let more = action.forbidden.as_ref().map(|ban| {
            let instead = Text::going_on(Text::quoted(&ban.instead));
            vec![phrase::instead(Text::quoted(&ban.why), instead).into(), care::end_of_ban(&ban.until, false).into()]
        });
        RuleLine { action, of: LineOf::Ban, soon: broken(protocol, *at), more: more.unwrap_or_default() }
    };
    let acts: Vec<RuleLine> = rule.acts.iter().map(act).collect();
    let bans: Vec<RuleLine> = rule.never.iter().map(ban).collect();
    listed(acts, LineOf::Act, mark, told).into_iter().chain(listed(bans, LineOf::Ban, mark, told)).collect()
}

/// A ban in one line.
pub(super) fn never(says: &str) -> Text {
    LineOf::Ban.line(says)
}

/// What a line is of.
#[derive(Clone, Copy, PartialEq, Eq)]
enum LineOf {
    Act,
    Ban,
}

impl LineOf {
    /// The action in the protocol's words.
    fn says(self, action: &Action) -> &str {
        match self {
            Self::Act => &action.say,
            Self::Ban => action.never(),
        }
    }

    /// The same as a line. A ban says at each that it is one.
    fn line(self, says: &str) -> Text {
        match self {
            Self::Act => Text::quoted(says),
            Self::Ban => phrase::never(Text::going_on(Text::quoted(says))).into(),
        }
    }

    /// Lines under their name, where they have one.
    fn named(self, lines: Text) -> Text {
        match self {
            Self::Act => phrase::to_do(lines).into(),
            Self::Ban => lines,
        }
    }
}

/// An act or a ban of a rule.
struct RuleLine<'p> {
    action: &'p Action,
    of: LineOf,
    /// How soon it kills, where that is within hours.
    soon: Option<Harm>,
    more: Vec<Text>,
}

impl RuleLine<'_> {
    /// The line with how soon it kills and where it stands in full; one that ends in a question keeps its sign where marks follow.
    fn marked(&self, place: Option<&str>) -> Text {
        let bare = self.of.says(self.action).trim_end_matches('.');
        let line = match self.soon {
            Some(Harm::Minutes) => phrase::kills_minutes(self.of.line(bare)).into(),
            Some(Harm::Hours) => phrase::kills_hours(self.of.line(bare)).into(),
            Some(Harm::Days | Harm::Slight) | None if place.is_some() => self.of.line(bare),
            Some(Harm::Days | Harm::Slight) | None => self.of.line(bare.trim_end_matches('?')),
        };
        let line = match place {
            Some(place) => words::cite(line, Text::typed(place)).into(),
            None => line,
        };
        words::ended(line).into()
    }

    fn kills(&self) -> bool {
        match self.soon {
            Some(Harm::Minutes | Harm::Hours) => true,
            Some(Harm::Days | Harm::Slight) | None => false,
        }
    }
}

/// Those told before in one line; each of the others in full, where it can kill.
fn listed(lines: Vec<RuleLine>, of: LineOf, mark: &str, told: &mut Printed) -> Vec<Item<Text>> {
    let mut before: Vec<Text> = Vec::new();
    let mut items = Vec::new();
    for line in lines {
        // The line under which a bird's leaf told it.
        let told_as = of.line(of.says(line.action));
        match told.of(&told_as) {
            None if line.kills() => {
                told.note(mark, &told_as);
                let first = line.marked(None);
                let whole = [first].into_iter().chain(line.more);
                items.push(Item::plain(of.named(Text::row(whole))));
            }
            place => before.push(line.marked(place)),
        }
    }
    if !before.is_empty() {
        items.insert(0, Item::plain(of.named(Text::row(before))));
    }
    items
}

/// Both labels in one line.
pub(super) fn rests(protocol: &Protocol, rule: &Rule) -> Text {
    labels(protocol, rule, Text::opening(why::cite(protocol, rule.source, rule.strength)))
}

/// The same on a leaf of its own: a source that an earlier leaf names in full is named in few words, with that leaf's mark.
fn rests_after(protocol: &Protocol, rule: &Rule, mark: &str, told: &mut Printed) -> Text {
    let whole = Text::opening(why::cite(protocol, rule.source, rule.strength));
    let named = match rule.strength {
        Strength::Practice | Strength::Proposal => whole,
        Strength::Read | Strength::SecondHand | Strength::Memory => match told.source(mark, &whole) {
            Some(before) => {
                words::cite(Text::quoted(protocol.sources.of(rule.source).short()), Text::typed(before)).into()
            }
            None => whole,
        },
    };
    labels(protocol, rule, named)
}

fn labels(protocol: &Protocol, rule: &Rule, named: Text) -> Text {
    let finding = because::finding(named);
    let advice = match &rule.advice {
        Advice::Says(source) if *source == rule.source => phrase::advice_own(),
        Advice::Says(source) => phrase::advice(Text::quoted(&protocol.sources.of(*source).cite)),
        Advice::Ours => phrase::advice_ours(),
    };
    let borrowed = rule.borrowed.as_ref().map(|kind| phrase::borrowed(Text::quoted(kind)));
    Text::row([finding, advice].into_iter().chain(borrowed))
}
