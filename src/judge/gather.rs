//! From weighed rules to one verdict: maximum over each scale, nevers before actions, everything in a fixed order.

use super::actions::{self, Actions};
use super::fitting::Fitting;
use super::force::{Force, about, in_force, unanswered};
use super::verdict::{
    Advised, Clash, Deadline, Forbidden, Held, Level, Levels, Open, Reason, Scored, Verdict, Watched, barred,
};
use super::weigh::Weighed;
use crate::finding::About;
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, QuestionAt};
use crate::protocol::question::{Asked, Reach};
use crate::protocol::rule::{Exclusion, Looks, WatchAt};
use crate::protocol::scale::{Authority, Severity, System};
use crate::protocol::texts::{Paragraph, ParagraphAt, Under};
use crate::sheet::{Cell, Sheet, Subject, Truth};
use chrono::{DateTime, TimeDelta, Utc};
use std::collections::{BTreeMap, BTreeSet};

/// Gathers the verdict.
pub fn verdict(
    protocol: &Protocol,
    sheet: &Sheet,
    weighed: &[Weighed],
    answered_at: DateTime<Utc>,
    now: DateTime<Utc>,
) -> Verdict {
    let levels = levels(protocol, weighed);
    let severity = severity(protocol, weighed);
    let force = in_force(protocol, weighed);
    let Actions { acts, never, dropped, waiting, later } = actions::gather(protocol, sheet, weighed, &force);
    let fitting = Fitting::of(protocol, sheet);
    let Levels { need, humane, authority } = levels;
    Verdict {
        need,
        humane,
        authority,
        severity,
        reasons: force.iter().map(|in_force| in_force.reason).collect(),
        told: told(protocol, sheet, &fitting, (&acts, &never), authority.low),
        acts,
        never,
        dropped,
        waiting,
        later,
        fitting,
        reach: reach(protocol, sheet),
        watch: watched(&force),
        deadlines: deadlines(sheet, &force),
        scores: scores(protocol, sheet),
        looks: looks(&force),
        looks_because: looks_because(&force),
        held: held(protocol, sheet, weighed),
        clashes: clashes(protocol, sheet),
        idle: sheet.idle().collect(),
        not_understood: sheet.not_understood.clone(),
        figures: super::figures::Figures::default(),
        wounds: sheet.wounds(),
        looked_over: sheet.looked_over(),
        steady: sheet.surely(&protocol.stable_when, Subject::Bird),
        answered_at,
        judged_at: now,
    }
}

/// The bands of the three scales.
fn levels(protocol: &Protocol, weighed: &[Weighed]) -> Levels {
    let mut levels = Levels::mildest();
    for w in weighed {
        levels.raise(protocol.rule(w.rule), w.worst, || w.sure);
    }
    levels
}

/// Every score of which some part is known.
fn scores(protocol: &Protocol, sheet: &Sheet) -> Vec<Scored> {
    // What does not apply (any more) counts for nothing, whatever was once said.
    let points = |at: QuestionAt| match sheet.cell(Subject::Bird, at) {
        _ if sheet.applies(Subject::Bird, at) == Truth::No => None,
        Cell::Given(choice) => u8::try_from(protocol.ask(at).choices.len()).ok()?.checked_sub(choice),
        Cell::NotAsked | Cell::Amount(_) | Cell::Worked(..) | Cell::CannotTell => None,
    };
    let most = |at: QuestionAt| u8::try_from(protocol.ask(at).choices.len()).unwrap_or(u8::MAX);
    let scored = protocol.scores.placed().map(|(at, score)| Scored {
        score: at,
        parts: score.of.iter().map(|at| points(*at)).collect(),
        most: score.of.iter().map(|at| most(*at)).fold(0, u8::saturating_add),
    });
    scored.filter(|scored| scored.parts.iter().any(Option::is_some)).collect()
}

/// How soon a vet can see her, where that was told.
fn reach(protocol: &Protocol, sheet: &Sheet) -> Option<Reach> {
    let at = protocol.roles.reach;
    match sheet.cell(Subject::Bird, at) {
        Cell::Given(choice) => protocol.ask(at).choices.get(usize::from(choice))?.reach,
        Cell::NotAsked | Cell::Amount(_) | Cell::Worked(..) | Cell::CannotTell => None,
    }
}

/// Paragraphs whose conditions are met beyond doubt; what protects people is told in doubt, too. One that contradicts what is
/// done, or brings her into what is barred, is not told.
fn told(
    protocol: &Protocol,
    sheet: &Sheet,
    fitting: &Fitting,
    (acts, never): (&[Advised], &[Forbidden]),
    authority: Authority,
) -> Vec<ParagraphAt> {
    let done = |paragraph: &Paragraph| {
        acts.iter().any(|advised| fitting.asks(protocol, advised.target).contradicts(paragraph.asks()).is_some())
    };
    let bars = |paragraph: &Paragraph| barred(protocol, never).any(|stance| paragraph.keeps.contains(&stance));
    let placed = protocol.paragraphs.placed();
    let holds = |paragraph: &Paragraph| match paragraph.under {
        Under::People => sheet.in_doubt_too(&paragraph.when, Subject::Bird),
        Under::HumaneEnd | Under::CouldBe | Under::OnTheWay | Under::Pain | Under::Asking | Under::DaysAfter => {
            sheet.surely(&paragraph.when, Subject::Bird)
        }
    };
    let asked = |paragraph: &Paragraph| paragraph.unless_authority && authority > Authority::None;
    let stands = |paragraph: &Paragraph| holds(paragraph) && !asked(paragraph) && !done(paragraph) && !bars(paragraph);
    let mut told: Vec<(ParagraphAt, &Paragraph)> = Vec::new();
    for (at, paragraph) in placed.filter(|(_, paragraph)| stands(paragraph)) {
        // Of two that contradict each other, the first stands.
        if !told.iter().any(|(_, before)| paragraph.asks().contradicts(before.asks()).is_some()) {
            told.push((at, paragraph));
        }
    }
    let replaced: Vec<ParagraphAt> = told.iter().filter_map(|(_, paragraph)| paragraph.in_place_of).collect();
    told.into_iter().map(|(at, _)| at).filter(|at| !replaced.contains(at)).collect()
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

fn watched(force: &[Force]) -> Vec<Watched> {
    let mut found: BTreeMap<WatchAt, Vec<Reason>> = BTreeMap::new();
    for in_force in force {
        for sign in &in_force.rule.watch {
            found.entry(*sign).or_default().push(in_force.reason);
        }
    }
    found.into_iter().map(|(sign, because)| Watched { sign, because }).collect()
}

fn deadlines(sheet: &Sheet, force: &[Force]) -> Vec<Deadline> {
    let mut found: Vec<Deadline> = force
        .iter()
        .filter_map(|Force { rule, reason, .. }| {
            let by = rule.by.as_ref()?;
            let hurt = sheet.hurt(reason.about.into());
            let at = hurt.map(|ago| ago.earliest() + TimeDelta::hours(i64::from(by.hours)));
            Some(Deadline { what: by.what.clone(), by: at, reason: *reason })
        })
        .collect();
    found.sort_by_key(|deadline| deadline.by);
    found
}

fn looks(force: &[Force]) -> Vec<Looks> {
    let mut found: Vec<Looks> = force.iter().flat_map(|in_force| in_force.rule.looks.iter().copied()).collect();
    super::verdict::in_order(&mut found);
    found
}

/// The rules that ask for looks, and the gravest rule, whose need may ask for more of them.
fn looks_because(force: &[Force]) -> Vec<Reason> {
    let asking = force.iter().enumerate().filter(|(at, in_force)| *at == 0 || !in_force.rule.looks.is_empty());
    asking.map(|(_, in_force)| in_force.reason).collect()
}

/// The questions that could raise a scale, and whether an unfound wound could.
pub fn open(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed]) -> Open {
    let levels = levels(protocol, weighed);
    let (mut open, mut wounds) = (BTreeSet::new(), false);
    for w in weighed.iter().filter(|w| w.worst == Truth::Open || (w.worst == Truth::Yes && w.sure == Truth::Open)) {
        let rule = protocol.rule(w.rule);
        if !levels.could_be_raised_by(rule) {
            continue;
        }
        let Some(about) = about(w.subject) else {
            wounds = true;
            continue;
        };
        for cond in std::iter::once(&rule.when).chain(&rule.unless) {
            let mut some_wound = false;
            cond.walk(&mut |part| some_wound |= matches!(part, Cond::SomeWound(_)));
            wounds |= some_wound && !sheet.looked_over();
            open.extend(unanswered(protocol, sheet, cond, about));
        }
    }
    let mut questions: Vec<Asked> = open.into_iter().collect();
    questions.sort_by_key(|asked| (asked.question, asked.about));
    Open { questions, wounds }
}

fn held(protocol: &Protocol, sheet: &Sheet, weighed: &[Weighed]) -> Vec<Held> {
    weighed
        .iter()
        .filter(|w| w.when == Truth::Yes && w.held == Truth::Open && protocol.rule(w.rule).humane.is_some())
        .map(|w| {
            let about = about(w.subject).unwrap_or(About::Bird);
            let unless = &protocol.rule(w.rule).unless;
            let ask = unless.iter().flat_map(|cond| unanswered(protocol, sheet, cond, about)).collect();
            Held { rule: w.rule, ask }
        })
        .collect()
}

fn clashes(protocol: &Protocol, sheet: &Sheet) -> Vec<Clash> {
    let both = |subject: Subject| {
        let clash = move |exclusion: &&Exclusion| {
            sheet.surely(&exclusion.one, subject) && sheet.surely(&exclusion.other, subject)
        };
        protocol.exclusions.iter().filter(clash)
    };
    let subjects = std::iter::once(Subject::Bird).chain((0..sheet.wounds()).map(Subject::Wound));
    let said = subjects.flat_map(both).map(|exclusion| Clash::Told(exclusion.say.clone()));
    let mut found: Vec<Clash> = said.chain(sheet.misweighed().then_some(Clash::Misweighed)).collect();
    found.sort();
    found.dedup();
    found
}
