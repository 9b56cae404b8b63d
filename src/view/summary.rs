//! How she stands so far: the need, what to do now, what never, and what could still change it.

use super::keys::Action;
use super::{named, rows};
use crate::care::{Phone, PlanStep, never_line};
use crate::content::document::topic;
use crate::content::enough::carried_out;
use crate::content::figures;
use crate::content::terms::need as need_of;
use crate::content::why;
use crate::exam::Place;
use crate::judge::figures::Figures;
use crate::judge::{Level, Target};
use crate::phrase::{Phrase, Quantity, Text, keys, page, summary as phrase, terms};
use crate::protocol::action::Harm;
use crate::protocol::rule::{ActionAt, Instruction};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Telling;
use crate::session::Session;
use crate::session::clocks::by_hand;
use crate::unit::{Band, Permille};

/// How she stands so far.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SummaryView {
    /// What stands over it.
    pub heading: String,
    /// How soon a vet is needed.
    pub need: Level<Need>,
    /// The same in words.
    pub need_words: String,
    /// What has to be said beside it.
    pub alarms: Vec<String>,
    /// How much could still change it.
    pub could_change: Option<String>,
    /// The question that would settle most.
    pub telling: Option<String>,
    /// What to do now.
    pub now: Headed<String>,
    /// How much more of that there is.
    pub more: Option<String>,
    /// The figures, each by its name.
    pub figures: Headed<(String, String)>,
    /// What never.
    pub nevers: Headed<String>,
    /// Why.
    pub why: Headed<String>,
    /// What is said where more of it stands below than shows.
    pub more_below: String,
    /// The same in a few lines.
    pub short: ShortView,
}

/// Some lines and what stands over them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Headed<T> {
    /// What stands over them.
    pub heading: String,
    /// The lines; where there are none, nothing stands over them either.
    pub lines: Vec<T>,
}

/// How she stands in a few lines. Of what is told in several ways the first one that is not cut is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShortView {
    /// How many lines there are to say.
    pub lines: usize,
    /// Whether an instruction fills the screen: what to do stands there.
    pub instructs: bool,
    /// Whether what is asked leaves room for one line more.
    pub few: bool,
    /// The need where it is told with whom to phone, in fewer words.
    pub need: Option<String>,
    /// What to do next.
    pub act: Vec<String>,
    /// What never meanwhile.
    pub never: Vec<String>,
    /// The call that follows.
    pub then: Vec<String>,
    /// What is said of an authority.
    pub authority: Option<String>,
    /// Whether that one is called now.
    pub authority_now: bool,
}

/// At most this many lines of "do now".
const DO_NOW: usize = 3;
/// At most this many lines of "never".
const NEVER: usize = 3;
/// So few rows of a question leave room for one line more on a phone.
const FEW: usize = 5;

impl SummaryView {
    /// As she stands.
    pub fn of(session: &Session) -> Self {
        let say = |told: Text| session.say(told);
        let named = |action, what: Phrase| named::key(session, action).map(|key| Text::row([key, what.into()]));
        let keys = [named(Action::Verdict, keys::hint_verdict()), named(Action::Plan, keys::hint_plan())];
        let keys: Vec<Text> = keys.into_iter().flatten().collect();
        let more_below = if keys.is_empty() { page::more_below() } else { page::more_keys(Text::list(keys)) };
        let more = now(session).count().saturating_sub(DO_NOW);
        let more = (more > 0).then(|| {
            let key = named::key(session, Action::Plan);
            say(key.map_or_else(|| phrase::more(more), |key| phrase::more_key(more, key)).into())
        });
        let reason = session.verdict.reasons.iter().find(|r| session.protocol.rule(r.rule).need.is_some());
        let why = reason.map(|reason| say(why::headline(session.protocol, *reason)));
        let nevers = session.plan.never.iter().take(NEVER).map(|(target, _)| say(never_text(session, *target)));
        let figures =
            figure_lines(session).into_iter().map(|(name, told)| (say(terms::follows(name).into()), say(told)));
        Self {
            heading: session.say(phrase::so_far()),
            need: session.verdict.need,
            need_words: say(need_words(session)),
            alarms: alarms(session).map(|alarm| session.say(alarm)).collect(),
            could_change: could_change(session).map(|told| session.say(told)),
            telling: telling(session).map(|told| session.say(told)),
            now: headed(session, phrase::do_now(), now(session).take(DO_NOW).map(|step| say(step_text(session, step)))),
            more,
            figures: headed(session, phrase::figures(), figures),
            nevers: headed(session, phrase::never_heading(), nevers),
            why: headed(session, phrase::why(), why),
            more_below: session.say(more_below),
            short: ShortView::of(session),
        }
    }
}

fn headed<T>(session: &Session, heading: Phrase, lines: impl IntoIterator<Item = T>) -> Headed<T> {
    Headed { heading: session.say(heading), lines: lines.into_iter().collect() }
}

impl ShortView {
    fn of(session: &Session) -> Self {
        let say = |told: Vec<Phrase>| told.into_iter().map(|told| session.say(told)).collect::<Vec<_>>();
        let act = |step: &PlanStep, says: fn(Text) -> Phrase| {
            let bare = bare_step(session, step);
            [Some(step_text(session, step)), bare].into_iter().flatten().map(says).collect::<Vec<_>>()
        };
        // A hand that presses goes on pressing, whatever comes before it in the plan.
        let pressed = by_hand(session);
        let goes_on = now(session).find(|step| step.act().is_some_and(|act| Some(act.action) == pressed));
        let first = goes_on.or_else(|| now(session).find(|step| !is_done(session, step)));
        let whole = first.and_then(|_| named::key(session, Action::Plan)).map(phrase::act_key);
        let never = never_beside(session, first).map(|target| {
            let bare = Text::quoted(session.verdict.fitting.never(session.protocol, target));
            [never_text(session, target), bare].map(phrase::never).to_vec()
        });
        let then = phone_after(session);
        let need =
            calls_any(session).then(|| phrase::need_no_vet(Text::opening(need_of(session.verdict.need.low, true))));
        Self {
            // Need and first aid, what must not be done, the call that follows, and what has to be said beside them.
            lines: 3 + usize::from(then.is_some()) + alarms(session).count(),
            instructs: matches!(session.exam.place, Place::Instruction(..)),
            few: matches!(session.exam.place, Place::Ask(_)) && rows::rows(session).len() <= FEW,
            need: need.map(|need| session.say(need)),
            act: say(first.map(|step| act(step, phrase::act)).into_iter().flatten().chain(whole).collect()),
            never: say(never.unwrap_or_default()),
            then: say(then.map(|step| act(step, phrase::then)).unwrap_or_default()),
            authority: authority_line(session.verdict.authority.low).map(|told| session.say(told)),
            authority_now: session.verdict.authority.low == Authority::CallNow,
        }
    }
}

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
