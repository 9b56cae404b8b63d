//! From weighed rules to one verdict: maximum over each scale, nevers before actions, everything in a fixed order.

use super::verdict::{Advised, Deadline, Dropped, Forbidden, Held, Level, Reason, Standing, Verdict, Watched};
use super::weigh::Weighed;
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::cond::Cond;
use crate::protocol::question::Asked;
use crate::protocol::raw::Looks;
use crate::protocol::rule::Rule;
use crate::protocol::scale::{Authority, Humane, Severity, System};
use crate::sheet::{Doubt, Sheet, Subject, Truth, Weigher};
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeMap, BTreeSet};

/// Gathers the verdict.
pub fn verdict(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed], now: DateTime<Utc>) -> Verdict {
    let need = level(weighed, |w| protocol.rule(w.rule).need);
    let authority = level_doubted(weighed, Authority::Ask, |w| protocol.rule(w.rule).authority);
    let humane = level_doubted(weighed, Humane::MayComeIntoQuestion, |w| protocol.rule(w.rule).humane);
    let severity = severity(protocol, weighed);
    let force: Vec<(&Rule, Reason)> = in_force(protocol, weighed);
    let never = forbidden(&force);
    let (acts, dropped) = advised(protocol, &force, &never);
    let (open, open_wounds) = still_open(protocol, sheet, weighed, |rule| {
        rule.need.is_some_and(|rung| rung > need.low)
            || rule.humane.is_some_and(|rung| rung > humane.low)
            || rule.authority.is_some_and(|rung| rung > authority.low)
    });
    Verdict {
        need,
        humane,
        authority,
        severity,
        reasons: force.iter().map(|(_, reason)| *reason).collect(),
        acts,
        never,
        dropped,
        watch: by(&force, |rule| &rule.watch).into_iter().map(|(sign, because)| Watched { sign, because }).collect(),
        deadlines: deadlines(sheet, &force),
        looks: looks(&force),
        looks_because: force.iter().filter(|(rule, _)| !rule.looks.is_empty()).map(|(_, reason)| *reason).collect(),
        open,
        open_wounds,
        held: held(protocol, sheet, weighed),
        clashes: clashes(protocol, sheet),
        not_understood: sheet.not_understood.clone(),
        judged_at: now,
    }
}

/// The band of a scale: rules that hold raise the floor, rules that may yet hold raise the ceiling.
fn level<T: Copy + Ord + Default>(weighed: &[Weighed], rung: impl Fn(&Weighed) -> Option<T>) -> Level<T> {
    let mut level = Level::exactly(T::default());
    for w in weighed {
        let Some(rung) = rung(w) else { continue };
        if w.worst == Truth::Yes {
            level.low = level.low.max(rung);
        }
        if w.worst != Truth::No {
            level.high = level.high.max(rung);
        }
    }
    level
}

/// The band of a scale on which doubt alone raises no further than `most`.
///
/// A humane end may come into question because something could not be told, but is never advised for it; an authority
/// may be asked, but is never called out.
fn level_doubted<T: Copy + Ord + Default>(
    weighed: &[Weighed],
    most: T,
    rung: impl Fn(&Weighed) -> Option<T>,
) -> Level<T> {
    let mut level = Level::exactly(T::default());
    for w in weighed {
        let Some(rung) = rung(w) else { continue };
        let from_doubt = rung.min(most);
        let floor = match (w.worst, w.sure) {
            (_, Truth::Yes) => rung,
            (Truth::Yes, _) => from_doubt,
            _ => T::default(),
        };
        let ceiling = match (w.worst, w.sure) {
            (Truth::No, Truth::No) => T::default(),
            (_, Truth::No) => from_doubt,
            _ => rung,
        };
        level.low = level.low.max(floor);
        level.high = level.high.max(ceiling);
    }
    level
}

fn severity(protocol: &Protocol, weighed: &[Weighed]) -> BTreeMap<System, Level<Severity>> {
    let mut systems = BTreeMap::new();
    for system in System::ALL {
        let level = level(weighed, |w| {
            protocol.rule(w.rule).severity.iter().filter(|(of, _)| *of == system).map(|(_, grade)| *grade).max()
        });
        if level.high > Severity::Nothing {
            systems.insert(system, level);
        }
    }
    systems
}

/// The rules whose advice is followed now: condition met, and no exception has been answered yes.
///
/// An exception not yet asked holds back a scale's floor, but never a warning.
fn in_force<'p>(protocol: &'p Protocol, weighed: &[Weighed]) -> Vec<(&'p Rule, Reason)> {
    let mut force: Vec<(&Rule, Reason)> = Vec::new();
    for w in weighed.iter().filter(|w| w.when == Truth::Yes && w.held != Truth::Yes) {
        let about = match w.subject {
            Subject::Bird => About::Bird,
            Subject::Wound(number) => About::Wound(number),
            Subject::Unfound => continue,
        };
        let standing = match (w.sure, w.held) {
            (Truth::Yes, _) => Standing::Seen,
            (_, Truth::Open) => Standing::ExceptionOpen,
            (Truth::No | Truth::Open, _) => Standing::CouldNotTell,
        };
        force.push((protocol.rule(w.rule), Reason { rule: w.rule, about, standing }));
    }
    // Gravest first; the order of rules in the files means nothing, their names settle ties.
    force.sort_by(|(one, a), (other, b)| {
        let grave =
            |rule: &Rule| (rule.humane, rule.need, rule.authority, rule.severity.iter().map(|(_, grade)| *grade).max());
        grave(other).cmp(&grave(one)).then_with(|| one.id.cmp(&other.id)).then_with(|| a.about.cmp(&b.about))
    });
    force
}

/// What the rules in force name, each with the rules that name it.
fn by<T: Copy + Ord>(force: &[(&Rule, Reason)], named: impl Fn(&Rule) -> &[T]) -> BTreeMap<T, Vec<Reason>> {
    let mut found: BTreeMap<T, Vec<Reason>> = BTreeMap::new();
    for (rule, reason) in force {
        for one in named(rule) {
            found.entry(*one).or_default().push(*reason);
        }
    }
    found
}

fn forbidden(force: &[(&Rule, Reason)]) -> Vec<Forbidden> {
    let mut found: Vec<Forbidden> =
        by(force, |rule| &rule.never).into_iter().map(|(action, because)| Forbidden { action, because }).collect();
    // The rule in force that is gravest puts its own nevers first.
    let rank = |forbidden: &Forbidden| {
        force.iter().position(|(_, reason)| forbidden.because.contains(reason)).unwrap_or(usize::MAX)
    };
    found.sort_by_key(rank);
    found
}

/// Never beats do, and of two actions in declared conflict one goes; both are told.
fn advised(protocol: &Protocol, force: &[(&Rule, Reason)], never: &[Forbidden]) -> (Vec<Advised>, Vec<Dropped>) {
    let mut acts = by(force, |rule| &rule.acts);
    let mut dropped = Vec::new();
    for forbidden in never {
        if acts.remove(&forbidden.action).is_some() {
            let because = forbidden.because.first().map_or_else(String::new, |r| protocol.rule(r.rule).reason.clone());
            dropped.push(Dropped { action: forbidden.action, because });
        }
    }
    for ruled_out in &protocol.rules_out {
        let forbidden = never.iter().any(|forbidden| forbidden.action == ruled_out.never);
        if forbidden && acts.remove(&ruled_out.drop).is_some() {
            dropped.push(Dropped { action: ruled_out.drop, because: ruled_out.because.clone() });
        }
    }
    for conflict in &protocol.conflicts {
        let both = acts.contains_key(&conflict.keep) && acts.remove(&conflict.drop).is_some();
        if both && !conflict.because.is_empty() {
            dropped.push(Dropped { action: conflict.drop, because: conflict.because.clone() });
        }
    }
    (acts.into_iter().map(|(action, because)| Advised { action, because }).collect(), dropped)
}

fn deadlines(sheet: &Sheet, force: &[(&Rule, Reason)]) -> Vec<Deadline> {
    let mut found: Vec<Deadline> = force
        .iter()
        .filter_map(|(rule, reason)| {
            let by = rule.by.as_ref()?;
            let hurt = sheet.hurt(reason.about.into());
            let at = hurt.map(|ago| ago.earliest() + TimeDelta::hours(i64::from(by.hours)));
            Some(Deadline { what: by.what.clone(), by: at, reason: *reason })
        })
        .collect();
    found.sort_by_key(|deadline| deadline.by);
    found
}

fn looks(force: &[(&Rule, Reason)]) -> Vec<Looks> {
    let mut found: Vec<Looks> = force.iter().flat_map(|(rule, _)| rule.looks.iter().copied()).collect();
    found.sort_by_key(|looks| (looks.until_h, looks.every_min));
    found.dedup_by_key(|looks| (looks.until_h, looks.every_min));
    found
}

/// The questions that could raise a scale, and whether an unfound wound could.
fn still_open(
    protocol: &Protocol,
    sheet: &Sheet,
    weighed: &[Weighed],
    would_raise: impl Fn(&Rule) -> bool,
) -> (Vec<Asked>, bool) {
    let (mut open, mut open_wounds) = (BTreeSet::new(), false);
    for w in weighed.iter().filter(|w| w.worst == Truth::Open || (w.worst == Truth::Yes && w.sure == Truth::Open)) {
        let rule = protocol.rule(w.rule);
        if !would_raise(rule) {
            continue;
        }
        let about = match w.subject {
            Subject::Bird => About::Bird,
            Subject::Wound(number) => About::Wound(number),
            Subject::Unfound => {
                open_wounds = true;
                continue;
            }
        };
        for cond in std::iter::once(&rule.when).chain(&rule.unless) {
            let mut some_wound = false;
            cond.walk(&mut |part| some_wound |= matches!(part, Cond::SomeWound(_)));
            open_wounds |= some_wound && !sheet.looked_over();
            open.extend(unanswered(protocol, sheet, cond, about));
        }
    }
    let mut open: Vec<Asked> = open.into_iter().collect();
    open.sort_by_key(|asked| (asked.question, asked.about));
    (open, open_wounds)
}

/// The open questions a condition rests on; where it is not known whether one applies, what decides that.
fn unanswered(protocol: &Protocol, sheet: &Sheet, cond: &Cond, about: About) -> Vec<Asked> {
    let mut found = Vec::new();
    for asked in protocol.rests_on(cond, about, sheet.wounds()) {
        if sheet.applies(asked.about.into(), asked.question) == Truth::Open
            && let Some(applies) = &protocol.ask(asked.question).applies
        {
            found.extend(unanswered(protocol, sheet, applies, asked.about));
        }
        if sheet.is_open(asked) {
            found.push(asked);
        }
    }
    found
}

fn held(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed]) -> Vec<Held> {
    weighed
        .iter()
        .filter(|w| w.when == Truth::Yes && w.held == Truth::Open && protocol.rule(w.rule).humane.is_some())
        .map(|w| {
            let about = match w.subject {
                Subject::Wound(number) => About::Wound(number),
                Subject::Bird | Subject::Unfound => About::Bird,
            };
            let unless = &protocol.rule(w.rule).unless;
            let ask = unless.iter().flat_map(|cond| unanswered(protocol, sheet, cond, about)).collect();
            Held { rule: w.rule, ask }
        })
        .collect()
}

fn clashes(protocol: &Protocol, sheet: &Sheet) -> Vec<String> {
    let weigher = Weigher { sheet, doubt: Doubt::CountsAsUnmet };
    let both = |subject: Subject| {
        protocol.exclusions.iter().filter(move |exclusion| {
            [&exclusion.one, &exclusion.other].into_iter().all(|c| weigher.holds(c, subject, true) == Truth::Yes)
        })
    };
    let subjects = std::iter::once(Subject::Bird).chain((0..sheet.wounds()).map(Subject::Wound));
    let mut found: Vec<String> = subjects.flat_map(both).map(|exclusion| exclusion.say.clone()).collect();
    found.sort();
    found.dedup();
    found
}
