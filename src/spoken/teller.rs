//! What of a screen was not said yet: a line is said once, another screen is said whole, and a clock speaks at half its time
//! and at its last minute.

use super::line::{HowOften, SpokenLine};
use super::told::{SpokenScreen, also};
use crate::phrase::{Text, spoken as phrase};
use crate::session::Extent;
use crate::view::entering::{EnteringView, PickView};
use crate::view::question::{Answering, QuestionView};
use crate::view::read::DocumentView;
use crate::view::running::ClockView;
use crate::view::sums::{SumView, SumsView, ValuesView};
use crate::view::{Scene, View};
use crate::words::Reader;
use std::collections::BTreeSet;

/// So many lines of what is read are said at once; a key says more.
const AT_ONCE: usize = 14;
/// The last minute of a clock, which is told. Seconds.
const LAST: u64 = 60;

/// Says a sitting, line by line.
#[derive(Clone, Debug, Default)]
pub struct Teller {
    notice: Vec<SpokenLine>,
    above: Vec<SpokenLine>,
    scene: Vec<SpokenLine>,
    below: Vec<SpokenLine>,
    once: BTreeSet<String>,
    focus: Option<usize>,
    clocks: Vec<Clocked>,
}

/// A clock that runs, and what was told of it.
#[derive(Clone, Debug)]
struct Clocked {
    clock: ClockView,
    /// All of its time. Seconds.
    whole_s: u64,
}

impl Teller {
    /// What is new on a screen, and how far one can move on in it; `is_other` where its keys stand for something else than before.
    pub fn tell(&mut self, view: &View, is_other: bool) -> (Vec<String>, Extent) {
        let told = SpokenScreen::of(view);
        let (scene, extent) = window(view, told.scene);
        let mut out = Vec::new();
        if is_other || told.notice != self.notice {
            out.extend(told.notice.clone());
        }
        out.extend(new(&told.above, &self.above));
        out.extend(if is_other { scene.clone() } else { new(&scene, &self.scene) });
        out.extend(new(&told.below, &self.below));
        // What words mean is said once in a sitting, a lesser key once wherever it works.
        let once = |line: &SpokenLine| match line.said {
            HowOften::Once => Some(line.text.clone()),
            HowOften::Key => Some(format!("{:?}: {}", view.context, line.text)),
            HowOften::Always | HowOften::Ticks => None,
        };
        out.retain(|line| !once(line).is_some_and(|line| self.once.contains(&line)));
        self.once.extend(out.iter().filter_map(once));
        let mut out = in_one(out, view.reader);
        out.extend(self.moved(view, is_other));
        out.extend(self.by_the_clock(view));
        (self.notice, self.above, self.scene, self.below) = (told.notice, told.above, scene, told.below);
        (out, extent)
    }

    /// All of the screen once more.
    pub fn again(&self, reader: Reader) -> Vec<String> {
        in_one([&self.notice, &self.above, &self.scene, &self.below].into_iter().flatten().cloned(), reader)
    }

    /// The line one has moved to.
    fn moved(&mut self, view: &View, is_other: bool) -> Option<String> {
        let moved = view.focus != self.focus && !is_other;
        self.focus = view.focus;
        let line = focused(&view.scene, view.focus.filter(|_| moved)?)?;
        Some(view.reader.phrase(&phrase::on_line(Text::typed(line))))
    }

    /// What a clock says at half its time, and at its last minute.
    fn by_the_clock(&mut self, view: &View) -> Vec<String> {
        let mut out = Vec::new();
        let mut heard = Vec::new();
        for clock in &view.clocks {
            let is = |known: &&Clocked| known.clock.ends_at == clock.ends_at && known.clock.what == clock.what;
            let Some(known) = self.clocks.iter().find(is) else {
                heard.push(Clocked { clock: clock.clone(), whole_s: clock.left_s });
                continue;
            };
            let crossed = |at: u64| known.clock.left_s > at && clock.left_s <= at && clock.left_s > 0;
            let half = known.whole_s / 2;
            if known.clock.left_s > 0 && clock.left_s == 0 {
                let (bird, what) = (Text::typed(&clock.bird), Text::typed(&clock.what));
                out.push(view.reader.phrase(&phrase::up(bird, what)));
            }
            if (half > LAST && crossed(half)) || (known.whole_s > LAST && crossed(LAST)) {
                out.push(of_clock(view, clock));
            }
            heard.push(Clocked { clock: clock.clone(), whole_s: known.whole_s });
        }
        self.clocks = heard;
        out
    }
}

/// The time left on each clock that runs, and how long she has been held.
pub fn clocks(view: &View) -> Vec<String> {
    let told = SpokenScreen::of(view);
    let ticking = told.above.into_iter().chain(told.scene).filter(|line| line.said == HowOften::Ticks);
    let mut lines: Vec<String> = view.clocks.iter().map(|clock| of_clock(view, clock)).collect();
    if lines.is_empty() {
        lines.push(view.reader.phrase(&phrase::no_clock()));
        lines.extend(ticking.map(|line| line.text));
    }
    lines
}

fn of_clock(view: &View, clock: &ClockView) -> String {
    let what = Text::opening(Text::typed(&clock.what));
    view.reader.phrase(&phrase::left(Text::typed(&clock.bird), Text::Left(clock.left_s), what))
}

/// The lines to say, the lesser keys in one.
fn in_one(lines: impl IntoIterator<Item = SpokenLine>, reader: Reader) -> Vec<String> {
    let (keys, lines): (Vec<SpokenLine>, Vec<SpokenLine>) =
        lines.into_iter().partition(|line| line.said == HowOften::Key);
    let keys: Vec<String> = keys.into_iter().map(|line| line.text).collect();
    let keys = (!keys.is_empty()).then(|| reader.phrase(&also(&keys)));
    lines.into_iter().map(|line| line.text).chain(keys).collect()
}

/// Those lines that did not stand there before.
fn new(now: &[SpokenLine], before: &[SpokenLine]) -> Vec<SpokenLine> {
    now.iter().filter(|line| line.said != HowOften::Ticks && !before.contains(line)).cloned().collect()
}

/// So much of what is read as is said at once; what is asked is said whole.
fn window(view: &View, lines: Vec<SpokenLine>) -> (Vec<SpokenLine>, Extent) {
    let all = lines.len();
    if !matches!(view.scene, Scene::Document(_) | Scene::Why(_) | Scene::Help(_)) || all <= AT_ONCE {
        return (lines, Extent { lines: all, height: all.max(1), scroll: 0, too_small: false });
    }
    let scroll = view.scroll.min(all - 1);
    let mut shown: Vec<SpokenLine> = lines.into_iter().skip(scroll).take(AT_ONCE).collect();
    if scroll + AT_ONCE < all {
        shown.push(SpokenLine { text: view.more_below.clone(), said: HowOften::Always });
    }
    (shown, Extent { lines: all, height: AT_ONCE, scroll, too_small: false })
}

/// The line with this place among those the cursor can stand on.
fn focused(scene: &Scene, at: usize) -> Option<String> {
    let choices = match scene {
        Scene::Question(asked) => {
            let QuestionView { answered, .. } = asked.as_ref();
            match answered {
                Answering::Choosing(choices) | Answering::OnHer(choices, _) => choices,
                Answering::Typing(_) => return None,
            }
        }
        Scene::Sums(
            SumsView::List { choices, .. } | SumsView::Sum(SumView { values: ValuesView::Choosing(choices), .. }),
        ) => choices,
        Scene::Entering(EnteringView::Blood(blood)) => match &blood.pick {
            PickView::Choosing(choices) | PickView::Width(choices, _) => choices,
            PickView::Full(full) => return full.get(at).map(|(_, says)| says.clone()),
            PickView::Typing(..) => return None,
        },
        Scene::Document(DocumentView { sections, .. }) => {
            let mut items = sections.iter().flat_map(|section| &section.items);
            return items.nth(at).map(|item| item.lead.clone());
        }
        Scene::Sums(_)
        | Scene::Entering(_)
        | Scene::Instruction(_)
        | Scene::Card(_)
        | Scene::Why(_)
        | Scene::Help(_) => {
            return None;
        }
    };
    choices.lines.get(at).map(|line| line.label.clone())
}
