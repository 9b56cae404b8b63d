//! All of a screen as lines, in the order they are said: what stands above, the scene, and what stands below.

use super::line::{Saying, SpokenLine};
use super::scene;
use crate::phrase::{Phrase, Text, spoken as phrase};
use crate::view::View;
use crate::view::header::HeaderView;
use crate::view::hints::Hint;
use crate::view::keys::Action;
use crate::view::summary::{ShortView, SummaryView};
use crate::words::Reader;

/// A screen as lines.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SpokenScreen {
    /// What the last key came to.
    pub notice: Vec<SpokenLine>,
    /// Which bird, her clocks, and what has to be said above everything.
    pub above: Vec<SpokenLine>,
    /// What is asked, told or read.
    pub scene: Vec<SpokenLine>,
    /// How she stands so far, where we are, and the keys.
    pub below: Vec<SpokenLine>,
}

impl SpokenScreen {
    /// All of a screen.
    pub fn of(view: &View) -> Self {
        let View {
            header,
            practice,
            track,
            summary,
            scene,
            notice,
            hints,
            context: _,
            more_below: _,
            focus: _,
            typing: _,
            scroll: _,
            first_act: _,
            clocks: _,
            reader,
        } = view;
        let mut told = Saying::new(*reader);
        told.all(notice);
        let notice = told.done();
        let mut above = Saying::new(*reader);
        of_header(header, &mut above);
        above.all(practice);
        let mut below = Saying::new(*reader);
        if let Some(track) = track {
            below.add(&track.short);
        }
        if let Some(summary) = summary {
            of_summary(summary, &mut below);
        }
        of_hints(hints, *reader, &mut below);
        Self { notice, above: above.done(), scene: scene::lines(scene, *reader), below: below.done() }
    }
}

fn of_header(header: &HeaderView, told: &mut Saying) {
    let HeaderView {
        bird: _,
        in_full,
        with_her,
        clock,
        hand,
        of_another,
        look,
        kept,
        is_refused,
        held_too_long: _,
        warning,
    } = header;
    told.all(warning);
    told.add(in_full);
    for clock in [with_her, clock, hand, of_another, look].into_iter().flatten() {
        told.tick(clock);
    }
    match kept {
        Some(kept) if *is_refused => told.add(kept),
        Some(kept) => told.tick(kept),
        None => {}
    }
}

/// How she stands: what is said of it where room is short; the rest is told with verdict and plan.
fn of_summary(summary: &SummaryView, told: &mut Saying) {
    let SummaryView { need_words, alarms, could_change, telling, short, .. } = summary;
    let ShortView { lines: _, instructs, few: _, need: _, act, never, then, authority: _, authority_now: _ } = short;
    told.say(&phrase::so_far(Text::typed(need_words)));
    told.all(alarms);
    told.all(could_change);
    // While an instruction is told, what to do is told there.
    if !instructs {
        told.all(act.first());
        told.all(never.first());
        told.all(then.first());
        told.all(telling);
    }
}

/// The keys: those that always show with each screen, the others once each. Answers are told by themselves, each with its own.
fn of_hints(hints: &[Hint], reader: Reader, told: &mut Saying) {
    let answers = |action| matches!(action, Action::Answer | Action::AsAlways | Action::CannotTell);
    let key = |hint: &&Hint| reader.phrase(&phrase::key(Text::typed(&hint.key), Text::typed(&hint.says)));
    let told_of = hints.iter().filter(|hint| !answers(hint.action));
    let (lesser, always): (Vec<&Hint>, Vec<&Hint>) = told_of.partition(|hint| hint.may_lack);
    let always: Vec<String> = always.iter().map(key).collect();
    if !always.is_empty() {
        told.whole(&also(&always));
    }
    told.keys(lesser.iter().map(key));
}

/// Some keys in one line.
pub fn also(keys: &[String]) -> Phrase {
    phrase::also(Text::typed(keys.join(". ")))
}
