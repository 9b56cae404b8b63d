//! A plan laid out in time: to which stage each act and each ban belongs, by how soon harm comes of leaving the one out or of
//! breaking the other. What stands on a card is laid out from this by `content`.

use super::{Phone, Plan, PlanStep};
use crate::finding::Id;
use crate::judge::{Reason, Target};
use crate::protocol::Protocol;
use crate::protocol::action::{CardTest, End, Harm, Part, Until};
use crate::protocol::question::Reach;
use crate::prove::Exact;
use chrono::{DateTime, TimeDelta, Utc};

/// A stretch of a course, in the order they come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// This minute.
    Now,
    /// From then on until a vet sees her.
    UntilSeen,
    /// From then on, where nobody can see her or nobody need.
    NextHours,
    /// Before the day is over; once she is back, where a vet sees her.
    Today,
    /// The days after.
    Days,
}

impl Stage {
    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Now => "now",
            Self::UntilSeen => "until_seen",
            Self::NextHours => "next_hours",
            Self::Today => "today",
            Self::Days => "the_days",
        }
    }
}

/// What ends a ban, as far as a card tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BanEnd {
    /// Nothing, as long as she lives.
    Lives,
    /// A vet's word alone.
    Vet,
    /// A test, or a vet's word.
    Test,
}

impl BanEnd {
    /// What of an end there is for this bird: where no vet can be reached, none is waited for; where nobody knows whether one can,
    /// the test stands, too, so that no ban is without an end.
    const fn of(until: &Until, reach: Option<Reach>) -> Self {
        match (&until.alone, until.vet, reach) {
            // A test beside a vet's word is for where no vet can be had.
            (End::Test { .. }, true, Some(Reach::Now | Reach::Hours | Reach::Day))
            | (End::Lives { .. }, true, None | Some(Reach::Now | Reach::Hours | Reach::Day)) => Self::Vet,
            (End::Test { .. }, ..) => Self::Test,
            (End::Lives { .. }, ..) => Self::Lives,
        }
    }

    /// Its name in files that leave the program.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Lives => "never",
            Self::Vet => "vet",
            Self::Test => "test",
        }
    }
}

/// A ban of a course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CourseBan {
    /// What is never done, to whom.
    pub target: Target,
    /// The rules that forbid it.
    pub because: Vec<Reason>,
    /// How soon it kills or maims if it is done all the same.
    pub harm: Harm,
    /// What ends it, as far as a card tells it.
    pub end: BanEnd,
    /// What ends it.
    pub until: Until,
}

/// A test that can end a ban, and when it is first tried.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CourseTest {
    /// The ban.
    pub target: Target,
    /// When it is first tried.
    pub at: DateTime<Utc>,
    /// The stage that moment falls into.
    pub stage: Stage,
    /// What is asked.
    pub ask: String,
}

impl CourseTest {
    /// The name by which a tick keeps it.
    pub fn name(&self, protocol: &Protocol) -> Id {
        name_of(TEST, protocol, self.target)
    }
}

/// How the name of a test begins.
pub const TEST: &str = "test";

/// The name of what is done to a target: the same as long as the act and the wound are.
pub fn name_of(what: &str, protocol: &Protocol, target: Target) -> Id {
    let id = &protocol.action(target.action).id;
    let name = match target.wound {
        Some(wound) => format!("{what}:{id}:{}", wound + 1),
        None => format!("{what}:{id}"),
    };
    name.as_str().into()
}

/// An act of a course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CourseAct {
    /// What is done.
    pub step: PlanStep,
    /// How soon it kills or maims if it is left out.
    pub harm: Harm,
}

/// A stage with what falls into it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StagePlan {
    /// Which.
    pub stage: Stage,
    /// What is done in it, in the order of doing.
    pub acts: Vec<CourseAct>,
    /// What is never done, the soonest harm first.
    pub bans: Vec<CourseBan>,
}

/// A plan in stages.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StagedPlan {
    /// The stages that are not made pointless by how it stands with her.
    pub stages: Vec<StagePlan>,
    /// The tests that can end a ban, each in the stage in which its time comes.
    pub tests: Vec<CourseTest>,
}

/// Lays a plan out in time.
pub fn course(protocol: &Protocol, verdict: &Exact, plan: &Plan) -> StagedPlan {
    let hours = if plan.seen { Stage::UntilSeen } else { Stage::NextHours };
    // An end that is advised makes all that comes later pointless; now she is still to be kept quiet, dark, untouched.
    let stages: &[Stage] =
        if plan.ends() { &[Stage::Now, hours] } else { &[Stage::Now, hours, Stage::Today, Stage::Days] };
    let acts: Vec<(Stage, CourseAct)> = plan.steps.iter().map(|step| placed(protocol, step, hours)).collect();
    let bans: Vec<CourseBan> = plan.never.iter().filter_map(|ban| told(protocol, verdict, plan, ban)).collect();
    let stage = |stage: Stage| {
        let acts = acts.iter().filter(|(of, _)| *of == stage).map(|(_, act)| act.clone());
        let mut bans: Vec<CourseBan> = bans.iter().filter(|ban| of_ban(ban, hours) == Some(stage)).cloned().collect();
        // What is alike soon keeps the order of the protocol, life first.
        bans.sort_by_key(|ban| ban.harm);
        StagePlan { stage, acts: acts.collect(), bans }
    };
    StagedPlan {
        tests: tests(protocol, verdict, plan, &bans, hours),
        stages: stages.iter().map(|of| stage(*of)).collect(),
    }
}

/// The tests of some bans: each from its time on, at the first look then; one test of several wounds once.
fn tests(protocol: &Protocol, verdict: &Exact, plan: &Plan, bans: &[CourseBan], hours: Stage) -> Vec<CourseTest> {
    let mut tests: Vec<CourseTest> = Vec::new();
    for ban in bans {
        let (BanEnd::Test, End::Test { card: Some(CardTest { after_min, ask }), .. }) = (ban.end, &ban.until.alone)
        else {
            continue;
        };
        // What another ban bars as well is not tried as long as that one stands.
        if bans.iter().any(|other| bars_more(protocol, other.target, ban.target)) {
            continue;
        }
        let from = verdict.answered_at + TimeDelta::minutes(i64::from(*after_min));
        let at = plan.looks.iter().map(|look| look.at).find(|at| *at >= from).unwrap_or(from);
        let stage = match at - verdict.judged_at {
            wait if wait <= HOURS => hours,
            wait if wait <= DAY => Stage::Today,
            _ => Stage::Days,
        };
        if !tests.iter().any(|test| test.ask == *ask) {
            tests.push(CourseTest { target: ban.target, at, stage, ask: ask.clone() });
        }
    }
    tests.sort_by_key(|test| test.at);
    tests
}

/// Whether one ban keeps her from all that the other does, and from more.
fn bars_more(protocol: &Protocol, one: Target, other: Target) -> bool {
    let bars = |target: Target| protocol.action(target.action).forbidden.as_ref().map(|ban| &ban.bars);
    let (Some(more), Some(less)) = (bars(one), bars(other)) else { return false };
    !less.is_empty() && more.len() > less.len() && less.iter().all(|stance| more.contains(stance))
}

/// Whether some test of hers is still to be tried: until then she is looked at by night, too.
pub(super) fn tests_wait(protocol: &Protocol, verdict: &Exact, no_vet: bool) -> bool {
    let reach = reach(verdict, no_vet);
    verdict.never.iter().any(|ban| {
        let until = super::end(protocol, &verdict.fitting, ban.target, &ban.because);
        let test = |until: Until| match (BanEnd::of(&until, reach), until.alone) {
            (BanEnd::Test, End::Test { card, .. }) => card.is_some(),
            (BanEnd::Test | BanEnd::Vet | BanEnd::Lives, _) => false,
        };
        until.is_some_and(test)
    })
}

/// How soon a vet can see her; nobody where those who are phoned do not send her to one.
fn reach(verdict: &Exact, no_vet: bool) -> Option<Reach> {
    if no_vet { Some(Reach::Nobody) } else { verdict.reach }
}

/// So long the next hours last.
const HOURS: TimeDelta = TimeDelta::hours(8);
/// So long a day lasts.
pub const DAY: TimeDelta = TimeDelta::hours(24);

/// A step with the stage it falls into.
fn placed(protocol: &Protocol, step: &PlanStep, hours: Stage) -> (Stage, CourseAct) {
    let (harm, at_once, part) = match step {
        PlanStep::Act(target, _) => {
            let action = protocol.action(target.action);
            // Whom to phone where no vet can be reached is the call of the first minute.
            let at_once = action.at_once || target.action == protocol.roles.phone_any;
            (action.left_out.unwrap_or(Harm::Slight), at_once, action.part)
        }
        PlanStep::Phone(Phone::VetToday) => (Harm::Days, true, Part::First),
        PlanStep::Phone(Phone::VetAndGo | Phone::Vet | Phone::VetBeforeMoving | Phone::VetToBeSafe) => {
            (Harm::Hours, true, Part::First)
        }
    };
    let stage = match (harm, at_once, part) {
        (Harm::Minutes, ..) | (_, true, _) => Stage::Now,
        // What is asked of a vet, or done for her as a whole, does not wait until she is back.
        (Harm::Hours, false, _) | (Harm::Days | Harm::Slight, false, Part::First) => hours,
        // What is done to a wound at home is done before a vet sees it, or not at all.
        (Harm::Days | Harm::Slight, false, Part::Wound) if hours == Stage::UntilSeen => hours,
        // Bed and company are for this night.
        (Harm::Days | Harm::Slight, false, Part::Wound | Part::House | Part::Flock) => Stage::Today,
    };
    (stage, CourseAct { step: step.clone(), harm })
}

/// A ban with its harm and its end; nothing for an action nobody forbids.
fn told(protocol: &Protocol, verdict: &Exact, plan: &Plan, ban: &(Target, Vec<Reason>)) -> Option<CourseBan> {
    let (target, because) = ban;
    let forbidden = protocol.action(target.action).forbidden.as_ref()?;
    let until = super::end(protocol, &verdict.fitting, *target, because)?;
    let end = BanEnd::of(&until, reach(verdict, plan.no_vet));
    Some(CourseBan { target: *target, because: because.clone(), harm: forbidden.broken, end, until })
}

/// The stage a ban stands in; none where it neither kills nor maims by itself.
const fn of_ban(ban: &CourseBan, hours: Stage) -> Option<Stage> {
    match (ban.harm, ban.target.wound) {
        (Harm::Minutes, _) => Some(Stage::Now),
        (Harm::Hours, _) => Some(hours),
        (Harm::Days, Some(_)) => Some(Stage::Today),
        (Harm::Days, None) => Some(Stage::Days),
        (Harm::Slight, _) => None,
    }
}
