//! The running summary: need, humane end, do now, never, why, and how much could still change.

use super::{Lines, named};
use crate::care::{Phone, PlanStep, never_line};
use crate::content::document::upper_first;
use crate::content::figures;
use crate::content::old::topic;
use crate::exam::Place;
use crate::judge::figures::Figures;
use crate::protocol::scale::{Authority, Humane, NO_VET, Need};
use crate::prove::Telling;
use crate::reckon::{percent, span};
use crate::screen::keys::Action;
use crate::screen::model::Model;
use crate::screen::theme::{Theme, need_mark};
use crate::screen::wrap::{cut, wrapped};
use crate::unit::{Band, Permille};
use ratatui::text::{Line, Span};

/// At most this many lines of "do now".
const DO_NOW: usize = 3;
/// From so many open questions on their number only daunts.
const MANY: usize = 16;
/// At most this many lines of "never".
const NEVER: usize = 3;

/// The summary beside the question.
pub fn column(model: &Model, theme: Theme, width: usize) -> Lines {
    let mut lines = Lines::default();
    let add = |lines: &mut Lines, text: &str, first: &str, style| {
        lines.add(wrapped(text, width, first, style));
    };
    add(&mut lines, "SO FAR", "", theme.heading());
    let need = model.verdict.need;
    add(&mut lines, &need_words(model), &format!("{} ", need_mark(need)), theme.need(need));
    for alarm in alarms(model) {
        add(&mut lines, alarm, "! ", theme.urgent());
    }
    let could = could_change(model);
    if !could.is_empty() {
        add(&mut lines, &could, "", theme.aside());
    }
    if let Some(telling) = telling(model) {
        add(&mut lines, &telling, "", theme.aside());
    }
    if now(model).next().is_some() {
        lines.gap();
        add(&mut lines, "DO NOW", "", theme.heading());
        for (number, step) in (1..).zip(now(model).take(DO_NOW)) {
            add(
                &mut lines,
                &model.reader().say(&step.say(model.protocol, &model.verdict, &model.plan)),
                &format!("{number} "),
                theme.question(),
            );
        }
        let more = now(model).count().saturating_sub(DO_NOW);
        if more > 0 {
            let plan = named::key(model, Action::Plan).map_or_else(String::new, |key| format!(": {key}"));
            add(&mut lines, &format!("and {more} more{plan}"), "  ", theme.aside());
        }
    }
    let figures = figure_lines(model);
    if !figures.is_empty() {
        lines.gap();
        add(&mut lines, "FIGURES", "", theme.heading());
        for (name, figure) in figures {
            add(&mut lines, &figure, &format!("{name}: "), theme.plain());
        }
    }
    if !model.plan.never.is_empty() {
        lines.gap();
        add(&mut lines, "NEVER", "", theme.heading());
        for (target, _) in model.plan.never.iter().take(NEVER) {
            add(
                &mut lines,
                &model.reader().say(&never_line(model.protocol, &model.verdict, *target)),
                "x ",
                theme.never(),
            );
        }
    }
    if let Some(reason) = model.verdict.reasons.iter().find(|r| model.protocol.rule(r.rule).need.is_some()) {
        lines.gap();
        add(&mut lines, "WHY", "", theme.heading());
        add(&mut lines, &crate::content::old::headline(model.protocol, *reason), "", theme.plain());
    }
    lines
}

/// The figures in a line each, the gravest sort first; of blood only "press" while she bleeds.
fn figure_lines(model: &Model) -> Vec<(&'static str, String)> {
    let Figures { blood, breaths, dryness, skin, .. } = &model.verdict.figures;
    let share = |band: Band<Permille>| format!("{}%", span(band, percent, "").value);
    [
        blood
            .as_ref()
            .map(|blood| ("blood", model.reader().say(&figures::blood_told(model.protocol, &model.verdict, blood)))),
        breaths.as_ref().map(|breaths| ("breaths", model.reader().say(&figures::breaths_line(breaths)))),
        dryness.as_ref().map(|dry| ("dry", format!("lacks {} of her weight", share(dry.share)))),
        skin.as_ref().map(|skin| ("open skin", share(skin.share))),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The summary as a band of lines above the question, most important first.
pub fn band(model: &Model, theme: Theme, width: usize, height: usize) -> Vec<Line<'static>> {
    let need = model.verdict.need;
    let mut lines = vec![Line::from(Span::styled(cut(&band_line(model, width), width), theme.need(need)))];
    if let Some(step) = now(model).next() {
        let text = format!("DO: {}", model.reader().say(&step.say(model.protocol, &model.verdict, &model.plan)));
        lines.push(Line::from(Span::styled(cut(&text, width), theme.question())));
    }
    let alarm = |text: &str| Line::from(Span::styled(cut(&format!("! {text}"), width), theme.urgent()));
    // The duty to an authority, then the call to a vet, then the rest: what comes last gives way first. Where the authority is
    // only to be asked, the call to the vet is not pushed out by it.
    let authority = authority_line(model.verdict.authority.low).map(alarm);
    let then = phone_after(model).map(|step| {
        let text = format!("THEN: {}", model.reader().say(&step.say(model.protocol, &model.verdict, &model.plan)));
        Line::from(Span::styled(cut(&text, width), theme.question()))
    });
    if model.verdict.authority.low == Authority::CallNow {
        lines.extend(authority.into_iter().chain(then));
    } else {
        lines.extend(then.into_iter().chain(authority));
    }
    lines.extend(grave_line(model).map(alarm));
    if let Some((target, _)) = model.plan.never.first() {
        let text = format!("NEVER: {}", model.reader().say(&never_line(model.protocol, &model.verdict, *target)));
        lines.push(Line::from(Span::styled(cut(&text, width), theme.never())));
    }
    lines.truncate(height);
    lines
}

/// The need and, where there is room, how much could still change it.
fn band_line(model: &Model, width: usize) -> String {
    let mut need = format!("{} {}", need_mark(model.verdict.need), need_words(model));
    if need.chars().count() > width && calls_any(model) {
        let low = model.verdict.need.low.gravity();
        need = format!("{} {} at least. No vet: phone any.", need_mark(model.verdict.need), upper_first(low));
    }
    let could = could_change(model);
    if could.is_empty() || need.chars().count() + could.chars().count() + 3 > width {
        need
    } else {
        format!("{need} · {could}")
    }
}

/// What to do now. A call "to be safe" stands in the plan; beside every question of a calm bird it would cry wolf.
fn now<'m>(model: &'m Model) -> impl Iterator<Item = &'m PlanStep> {
    model.plan.steps.iter().filter(|step| !matches!(step, PlanStep::Phone(Phone::VetToBeSafe)))
}

/// The phone call, where something stands before it: it must not be lost below the one line there is room for.
pub fn phone_after<'m>(model: &'m Model) -> Option<&'m PlanStep> {
    now(model).skip(1).find(|step| matches!(step, PlanStep::Phone(_)))
}

/// The need as it stands: with its band while it is open; without a vet in reach how grave it is, and whom to phone.
fn need_words(model: &Model) -> String {
    let level = model.verdict.need;
    let told = Need::told(model.verdict.no_vet())(level.low);
    let words = upper_first(told);
    let needs = if level.low == level.high {
        format!("{words}.")
    } else if level.low == Need::None {
        format!("{words} so far")
    } else if level.low < Need::WithinHours && level.high >= Need::WithinHours {
        // Beside "phone a vet, to be safe" a calm word on its own would be heard as the answer.
        format!("Not settled: at least {told}")
    } else {
        format!("{words}, at least")
    };
    if calls_any(model) {
        return format!("{}. {}.", needs.trim_end_matches('.'), upper_first(NO_VET));
    }
    needs
}

/// Whether she needs a vet and none can be reached: whoever else can be phoned is told in the need's own line.
fn calls_any(model: &Model) -> bool {
    model.verdict.no_vet() && model.verdict.need.low >= Need::WithinADay
}

/// What has to be said beside the need; also whether there is any.
pub fn alarms(model: &Model) -> impl Iterator<Item = &'static str> {
    [authority_line(model.verdict.authority.low), grave_line(model)].into_iter().flatten()
}

/// The line on a humane end, or that one hangs on this answer.
fn grave_line(model: &Model) -> Option<&'static str> {
    let held = (!model.verdict.held.is_empty()).then_some("This answer weighs most of all");
    humane_line(model.verdict.humane.low).or(held)
}

/// The question that would settle most, unless it is the one that stands here.
fn telling(model: &Model) -> Option<String> {
    let urgent = matches!(&model.exam.place, Place::List(list) if *list == model.protocol.roles.danger_signs);
    let telling = model.telling.filter(|telling| !urgent && !model.stands_at(*telling))?;
    let topic = match telling {
        Telling::Question(asked) => topic(model.protocol, asked),
        Telling::Wounds => "the look-over for wounds".to_owned(),
    };
    let key = named::key(model, Action::Telling).map_or_else(String::new, |key| format!(" ({key})"));
    Some(format!("Most telling now: {topic}{key}"))
}

fn could_change(model: &Model) -> String {
    if model.verdict.open.is_empty() && !model.verdict.open_wounds {
        return match (&model.exam.place, model.exam.is_look()) {
            (Place::Done, _) => String::new(),
            // What is asked again is asked because it may have changed.
            (_, true) => "what is asked now can change this".into(),
            (_, false) => "No answer can change this now".into(),
        };
    }
    if model.verdict.need.low == Need::Now {
        return "Enough to act on. The rest can wait.".into();
    }
    match (model.verdict.open.len(), model.verdict.open_wounds) {
        (0, false) => String::new(),
        (0, true) => "a wound could still change this".into(),
        (MANY.., _) => "many answers could change this".into(),
        (1, false) => "1 question could change this".into(),
        (count, false) => format!("{count} questions could change this"),
        (1, true) => "1 question or a wound could change this".into(),
        (count, true) => format!("{count} questions or a wound could change this"),
    }
}

/// The line on a humane end in the summary, if there is one to show.
const fn humane_line(humane: Humane) -> Option<&'static str> {
    match humane {
        Humane::NotInQuestion => None,
        Humane::MayComeIntoQuestion => Some("Humane end may come into question"),
        Humane::AdvisedUnlessVet => Some("Humane end advised unless a vet can act"),
        Humane::Advised => Some("Humane end advised: phone"),
    }
}

/// The line on an authority call in the summary, if there is one to show.
const fn authority_line(authority: Authority) -> Option<&'static str> {
    match authority {
        Authority::None => None,
        Authority::Ask => Some("May be catching: gloves, ask authority"),
        Authority::CallNow => Some("Call the authority now; move no bird"),
    }
}
