//! The running summary: need, humane end, do now, never, why, and how much could still change.

use super::{Lines, named};
use crate::care::{Phone, PlanStep, never_line};
use crate::content::document::topic;
use crate::content::enough::carried_out;
use crate::content::terms::need as need_of;
use crate::content::{figures, why};
use crate::exam::Place;
use crate::judge::Target;
use crate::judge::figures::Figures;
use crate::phrase::{Phrase, Quantity, Text, summary as phrase, terms};
use crate::protocol::action::Harm;
use crate::protocol::rule::{ActionAt, Instruction};
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Telling;
use crate::screen::keys::Action;
use crate::screen::model::Model;
use crate::screen::theme::{Theme, need_mark};
use crate::screen::wrap::wrapped;
use crate::unit::{Band, Permille};
use ratatui::text::{Line, Span};
use unicode_width::UnicodeWidthStr;

/// At most this many lines of "do now".
const DO_NOW: usize = 3;
/// From so many open questions on their number only daunts.
const MANY: usize = 16;
/// At most this many lines of "never".
const NEVER: usize = 3;

/// The summary beside the question.
pub fn column(model: &Model, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    let add = |lines: &mut Lines, text: Text, first: &str, style| {
        lines.add(wrapped(&model.say(text), width, first, style));
    };
    let heading = |lines: &mut Lines, text: Phrase| {
        lines.gap();
        add(lines, text.into(), "", theme.heading());
    };
    heading(&mut lines, phrase::so_far());
    let need = model.verdict.need;
    add(&mut lines, need_words(model), &format!("{} ", need_mark(need)), theme.need(need));
    for alarm in alarms(model) {
        add(&mut lines, alarm.into(), "! ", theme.urgent());
    }
    for told in [could_change(model), telling(model)].into_iter().flatten() {
        add(&mut lines, told.into(), "", theme.aside());
    }
    if now(model).next().is_some() {
        heading(&mut lines, phrase::do_now());
        for (number, step) in (1..).zip(now(model).take(DO_NOW)) {
            add(&mut lines, step_text(model, step), &format!("{number} "), theme.question());
        }
        let more = now(model).count().saturating_sub(DO_NOW);
        if more > 0 {
            let key = named::key(model, Action::Plan);
            let told = key.map_or_else(|| phrase::more(more), |key| phrase::more_key(more, key));
            add(&mut lines, told.into(), "  ", theme.aside());
        }
    }
    let figures = figure_lines(model);
    if !figures.is_empty() {
        heading(&mut lines, phrase::figures());
        for (name, figure) in figures {
            add(&mut lines, figure, &format!("{} ", model.say(terms::follows(name))), theme.plain());
        }
    }
    if !model.plan.never.is_empty() {
        heading(&mut lines, phrase::never_heading());
        for (target, _) in model.plan.never.iter().take(NEVER) {
            add(&mut lines, never_text(model, *target), "x ", theme.never());
        }
    }
    if let Some(reason) = model.verdict.reasons.iter().find(|r| model.protocol.rule(r.rule).need.is_some()) {
        heading(&mut lines, phrase::why());
        add(&mut lines, why::headline(model.protocol, *reason), "", theme.plain());
    }
    lines
}

/// A step of the plan as it is told.
fn step_text(model: &Model, step: &PlanStep) -> Text {
    step.say(model.protocol, &model.verdict, &model.plan)
}

/// What is never done, as it is told.
fn never_text(model: &Model, target: Target) -> Text {
    never_line(model.protocol, &model.verdict, target)
}

/// The figures in a line each, the gravest sort first; of blood only "press" while she bleeds.
fn figure_lines(model: &Model) -> Vec<(Phrase, Text)> {
    let Figures { blood, breaths, dryness, skin, .. } = &model.verdict.figures;
    let share = |band: Band<Permille>| Text::from(Quantity::share(band).signed());
    let blood_told = |blood| figures::blood_told(model.protocol, &model.verdict, blood);
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

/// The summary as a band of lines above the question, most important first.
pub fn band(model: &Model, theme: Theme, width: usize, height: usize) -> Vec<Line<'static>> {
    let need = model.verdict.need;
    let mut lines = wrapped(&band_line(model, width), width, "", theme.need(need));
    let line = |told: Vec<Phrase>, style| fitting(model, told, width).map(|told| Line::from(Span::styled(told, style)));
    let act = |step: &PlanStep, says: fn(Text) -> Phrase| {
        let bare = bare_step(model, step);
        [Some(step_text(model, step)), bare].into_iter().flatten().map(says).collect::<Vec<_>>()
    };
    let first = now(model).find(|step| !is_done(model, step));
    if let Some(step) = first {
        let whole = named::key(model, Action::Plan).map(phrase::act_key);
        lines.extend(line(act(step, phrase::act).into_iter().chain(whole).collect(), theme.question()));
    }
    let alarm = |told: Phrase| wrapped(&model.say(told), width, "! ", theme.urgent());
    // What comes last gives way first. Where the authority is only to be asked, the call to the vet is not pushed out by it.
    let authority = authority_line(model.verdict.authority.low).map(alarm).unwrap_or_default();
    let then = phone_after(model).and_then(|step| line(act(step, phrase::then), theme.question()));
    let never = never_beside(model, first).and_then(|target| {
        let bare = Text::quoted(model.verdict.fitting.never(model.protocol, target));
        let told = [never_text(model, target), bare].map(phrase::never).into_iter().collect();
        line(told, theme.never())
    });
    // How soon a vet is needed says already that one is phoned: what the hands must not do stands before it.
    if model.verdict.authority.low == Authority::CallNow {
        lines.extend(authority.into_iter().chain(never).chain(then));
    } else {
        lines.extend(never.into_iter().chain(then).chain(authority));
    }
    lines.truncate(height);
    lines
}

/// The ban that is broken while this step is done; else the one that harms soonest.
fn never_beside(model: &Model, step: Option<&PlanStep>) -> Option<Target> {
    let bans = || model.plan.never.iter().map(|(target, _)| *target);
    let ban = |target: &Target| model.protocol.action(target.action).forbidden.as_ref();
    let beside = |act: ActionAt| {
        let broken =
            |target: &Target| ban(target).is_some_and(|ban| ban.beside.contains(&act) && ban.broken <= Harm::Hours);
        bans().filter(broken).min_by_key(|target| ban(target).map(|ban| ban.broken))
    };
    let act = step.and_then(PlanStep::act).map(|target| target.action);
    act.and_then(beside).or_else(|| bans().min_by_key(|target| ban(target).map(|ban| ban.broken)))
}

/// The first of some lines that is not cut at this width; nothing where each would be: half an instruction can harm.
fn fitting(model: &Model, told: Vec<Phrase>, width: usize) -> Option<String> {
    told.into_iter().map(|told| model.say(told)).find(|told| told.width() <= width)
}

/// A step without the wound it is for: on a narrow screen the wound stands in the plan.
fn bare_step(model: &Model, step: &PlanStep) -> Option<Text> {
    match step {
        PlanStep::Act(target, _) if target.wound.is_some() => {
            Some(Text::quoted(model.verdict.fitting.say(model.protocol, *target)))
        }
        PlanStep::Act(..) | PlanStep::Phone(_) => None,
    }
}

/// The need and, where there is room, how much could still change it.
fn band_line(model: &Model, width: usize) -> String {
    let marked = |told: Text| format!("{} {}", need_mark(model.verdict.need), model.say(told));
    let mut need = marked(need_words(model));
    if need.chars().count() > width && calls_any(model) {
        need = marked(phrase::need_no_vet(Text::opening(need_of(model.verdict.need.low, true))).into());
    }
    match could_change(model).map(|could| model.say(could)) {
        Some(could) if need.chars().count() + could.chars().count() + 3 <= width => format!("{need} · {could}"),
        _ => need,
    }
}

/// What to do now. A call "to be safe" stands in the plan; beside every question of a calm bird it would cry wolf.
fn now<'m>(model: &'m Model) -> impl Iterator<Item = &'m PlanStep> {
    model.plan.steps.iter().filter(|step| !matches!(step, PlanStep::Phone(Phone::VetToBeSafe)))
}

/// Whether a step was carried out on an instruction that has ended, so that the one line there is room for goes to what is left. What
/// goes by a clock, or presses, stays.
fn is_done(model: &Model, step: &PlanStep) -> bool {
    let Some(target) = step.act() else { return false };
    let by_no_clock = |instruction: &Instruction| instruction.timer_s.is_none();
    !model.protocol.action(target.action).presses && carried_out(model.protocol, &model.log, target.action, by_no_clock)
}

/// The phone call, where something stands before it: it must not be lost below the one line there is room for.
pub fn phone_after<'m>(model: &'m Model) -> Option<&'m PlanStep> {
    now(model).skip(1).find(|step| matches!(step, PlanStep::Phone(_)))
}

/// The need as it stands: with its band while it is open; without a vet in reach how grave it is, and whom to phone.
fn need_words(model: &Model) -> Text {
    let level = model.verdict.need;
    let told = need_of(level.low, model.verdict.no_vet());
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
    if calls_any(model) {
        return Text::row([terms::ended(needs), terms::ended(Text::opening(terms::no_vet()))]);
    }
    if is_settled { terms::ended(needs).into() } else { needs }
}

/// Whether she needs a vet and none can be reached: whoever else can be phoned is told in the need's own line.
fn calls_any(model: &Model) -> bool {
    model.verdict.no_vet() && model.verdict.need.low >= Need::WithinADay
}

/// What has to be said beside the need; also whether there is any.
pub fn alarms(model: &Model) -> impl Iterator<Item = Phrase> {
    [authority_line(model.verdict.authority.low), grave_line(model)].into_iter().flatten()
}

/// The line on a humane end, once it is settled: before that it would stand over every question of a bird it may never come to.
fn grave_line(model: &Model) -> Option<Phrase> {
    let humane = model.verdict.humane;
    humane_line(humane.low).filter(|_| humane.low == humane.high)
}

/// The question that would settle most, unless it is the one that stands here.
fn telling(model: &Model) -> Option<Phrase> {
    let urgent = matches!(&model.exam.place, Place::List(list) if *list == model.protocol.roles.danger_signs);
    let telling = model.telling.filter(|telling| !urgent && !model.stands_at(*telling))?;
    let topic = match telling {
        Telling::Question(asked) => topic(model.protocol, asked),
        Telling::Wounds => phrase::look_over().into(),
    };
    Some(match named::key(model, Action::Telling) {
        Some(key) => phrase::telling_key(topic, key),
        None => phrase::telling(topic),
    })
}

/// How much could still change it; nothing where the look is over.
fn could_change(model: &Model) -> Option<Phrase> {
    if model.verdict.open.is_empty() && !model.verdict.open_wounds {
        return match (&model.exam.place, model.exam.is_look()) {
            (Place::Done, _) => None,
            // What is asked again is asked because it may have changed.
            (_, true) => Some(phrase::look_can_change()),
            (_, false) => Some(phrase::no_change()),
        };
    }
    if model.verdict.need.low == Need::Now {
        return Some(phrase::enough());
    }
    match (model.verdict.open.len(), model.verdict.open_wounds) {
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
const fn authority_line(authority: Authority) -> Option<Phrase> {
    match authority {
        Authority::None => None,
        Authority::Ask => Some(phrase::authority_ask()),
        Authority::CallNow => Some(phrase::authority_call()),
    }
}
