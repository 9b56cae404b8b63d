//! How she stands so far: the need, what to do now, what never, and what could still change it.

use super::named;
use crate::care::{Phone, PlanStep, never_line};
use crate::content::document::topic;
use crate::content::enough::carried_out;
use crate::content::figures;
use crate::content::terms::need as need_of;
use crate::exam::Place;
use crate::judge::Target;
use crate::judge::figures::Figures;
use crate::phrase::{Phrase, Quantity, Text, summary as phrase, terms};
use crate::protocol::action::Harm;
use crate::protocol::rule::{ActionAt, Instruction};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Telling;
use crate::session::Session;
use crate::unit::{Band, Permille};
use crate::view::keys::Action;

/// From so many open questions on their number only daunts.
const MANY: usize = 16;

/// A step of the plan as it is told.
pub fn step_text(session: &Session, step: &PlanStep) -> Text {
    step.say(session.protocol, &session.verdict, &session.plan)
}

/// What is never done, as it is told.
pub fn never_text(session: &Session, target: Target) -> Text {
    never_line(session.protocol, &session.verdict, target)
}

/// The figures in a line each, the gravest sort first; of blood only "press" while she bleeds.
pub fn figure_lines(session: &Session) -> Vec<(Phrase, Text)> {
    let Figures { blood, breaths, dryness, skin, .. } = &session.verdict.figures;
    let share = |band: Band<Permille>| Text::from(Quantity::share(band).signed());
    let blood_told = |blood| figures::blood_told(session.protocol, &session.verdict, blood);
    [
        blood.as_ref().map(|blood| (phrase::blood(), blood_told(blood))),
        breaths.as_ref().map(|breaths| (phrase::breaths(), figures::breaths_line(breaths))),
        dryness.as_ref().map(|dry| (phrase::dry(), phrase::lacks(share(dry.share)).into())),
        skin.as_ref().map(|skin| (phrase::skin(), share(skin.share))),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The ban that is broken while this step is done; else the one that harms soonest.
pub fn never_beside(session: &Session, step: Option<&PlanStep>) -> Option<Target> {
    let bans = || session.plan.never.iter().map(|(target, _)| *target);
    let ban = |target: &Target| session.protocol.action(target.action).forbidden.as_ref();
    let beside = |act: ActionAt| {
        let broken =
            |target: &Target| ban(target).is_some_and(|ban| ban.beside.contains(&act) && ban.broken <= Harm::Hours);
        bans().filter(broken).min_by_key(|target| ban(target).map(|ban| ban.broken))
    };
    let act = step.and_then(PlanStep::act).map(|target| target.action);
    act.and_then(beside).or_else(|| bans().min_by_key(|target| ban(target).map(|ban| ban.broken)))
}

/// A step without the wound it is for: on a narrow screen the wound stands in the plan.
pub fn bare_step(session: &Session, step: &PlanStep) -> Option<Text> {
    match step {
        PlanStep::Act(target, _) if target.wound.is_some() => {
            Some(Text::quoted(session.verdict.fitting.say(session.protocol, *target)))
        }
        PlanStep::Act(..) | PlanStep::Phone(_) => None,
    }
}

/// What to do now. A call "to be safe" stands in the plan; beside every question of a calm bird it would cry wolf.
pub fn now<'m>(session: &'m Session) -> impl Iterator<Item = &'m PlanStep> {
    session.plan.steps.iter().filter(|step| !matches!(step, PlanStep::Phone(Phone::VetToBeSafe)))
}

/// Whether a step was carried out on an instruction that has ended, so that the one line there is room for goes to what is left. What
/// goes by a clock, or presses, stays.
pub fn is_done(session: &Session, step: &PlanStep) -> bool {
    let Some(target) = step.act() else { return false };
    let by_no_clock = |instruction: &Instruction| instruction.timer_s.is_none();
    !session.protocol.action(target.action).presses
        && carried_out(session.protocol, &session.log, target.action, by_no_clock)
}

/// The phone call, where something stands before it: it must not be lost below the one line there is room for.
pub fn phone_after<'m>(session: &'m Session) -> Option<&'m PlanStep> {
    now(session).skip(1).find(|step| matches!(step, PlanStep::Phone(_)))
}

/// The need as it stands: with its band while it is open; without a vet in reach how grave it is, and whom to phone.
pub fn need_words(session: &Session) -> Text {
    let level = session.verdict.need;
    let told = need_of(level.low, session.verdict.no_vet());
    let is_settled = level.low == level.high;
    let needs: Text = if is_settled {
        Text::opening(told)
    } else if level.low == Need::None {
        phrase::need_so_far(Text::opening(told)).into()
    } else if level.low < Need::WithinHours && level.high >= Need::WithinHours {
        // Beside "phone a vet, to be safe" a calm word on its own would be heard as the answer.
        phrase::need_not_settled(told).into()
    } else {
        phrase::need_at_least(Text::opening(told)).into()
    };
    if calls_any(session) {
        return Text::row([terms::ended(needs), terms::ended(Text::opening(terms::no_vet()))]);
    }
    if is_settled { terms::ended(needs).into() } else { needs }
}

/// Whether she needs a vet and none can be reached: whoever else can be phoned is told in the need's own line.
pub fn calls_any(session: &Session) -> bool {
    session.verdict.no_vet() && session.verdict.need.low >= Need::WithinADay
}

/// What has to be said beside the need; also whether there is any.
pub fn alarms(session: &Session) -> impl Iterator<Item = Phrase> {
    [authority_line(session.verdict.authority.low), grave_line(session)].into_iter().flatten()
}

/// The line on a humane end, once it is settled: before that it would stand over every question of a bird it may never come to.
pub fn grave_line(session: &Session) -> Option<Phrase> {
    let humane = session.verdict.humane;
    humane_line(humane.low).filter(|_| humane.low == humane.high)
}

/// The question that would settle most, unless it is the one that stands here.
pub fn telling(session: &Session) -> Option<Phrase> {
    let urgent = matches!(&session.exam.place, Place::List(list) if *list == session.protocol.roles.danger_signs);
    let telling = session.telling.filter(|telling| !urgent && !session.stands_at(*telling))?;
    let topic = match telling {
        Telling::Question(asked) => topic(session.protocol, asked),
        Telling::Wounds => phrase::look_over().into(),
    };
    Some(match named::key(session, Action::Telling) {
        Some(key) => phrase::telling_key(topic, key),
        None => phrase::telling(topic),
    })
}

/// How much could still change it; nothing where the look is over.
pub fn could_change(session: &Session) -> Option<Phrase> {
    if session.verdict.open.is_empty() && !session.verdict.open_wounds {
        return match (&session.exam.place, session.exam.is_look()) {
            (Place::Done, _) => None,
            // What is asked again is asked because it may have changed.
            (_, true) => Some(phrase::look_can_change()),
            (_, false) => Some(phrase::no_change()),
        };
    }
    if session.verdict.need.low == Need::Now {
        return Some(phrase::enough());
    }
    match (session.verdict.open.len(), session.verdict.open_wounds) {
        (0, false) => None,
        (0, true) => Some(phrase::wound_could_change()),
        (MANY.., _) => Some(phrase::many_could_change()),
        (count, false) => Some(phrase::could_change(count)),
        (count, true) => Some(phrase::could_change_or_wound(count)),
    }
}

/// The line on a humane end in the summary, if there is one to show.
const fn humane_line(humane: Humane) -> Option<Phrase> {
    match humane {
        Humane::NotInQuestion => None,
        Humane::MayComeIntoQuestion => Some(phrase::humane_may()),
        Humane::AdvisedUnlessVet => Some(phrase::humane_unless()),
        Humane::Advised => Some(phrase::humane_advised()),
    }
}

/// The line on an authority call in the summary, if there is one to show.
pub const fn authority_line(authority: Authority) -> Option<Phrase> {
    match authority {
        Authority::None => None,
        Authority::Ask => Some(phrase::authority_ask()),
        Authority::CallNow => Some(phrase::authority_call()),
    }
}
