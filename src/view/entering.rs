//! Numbers as they are entered: blood added up piece by piece, breaths tapped, a vein timed; each with what it comes to so far.

use super::choices::ChoicesView;
use super::question;
use super::question::TypingView;
use crate::content::{figures, seen};
use crate::finding::figure::{FULLNESS, Fullness};
use crate::phrase::{Phrase, Text, drawing, entering as phrase, question as of_question, terms};
use crate::protocol::cond::Measure;
use crate::session::Session;
use crate::session::draft::{Draft, OVER, Pick, Spill, Taps, Vein};
use crate::unit::{Band, Micrometres};

/// What is entered with keys of its own.
#[derive(Clone, Debug, PartialEq)]
pub enum EnteringView {
    /// Blood, added up.
    Blood(BloodView),
    /// Breaths, tapped.
    Breaths(BreathsView),
    /// The wing vein, timed.
    Vein(VeinView),
}

/// Blood as it is added up.
#[derive(Clone, Debug, PartialEq)]
pub struct BloodView {
    /// What is asked.
    pub ask: String,
    /// How to look.
    pub look: Option<String>,
    /// What is picked now.
    pub pick: PickView,
    /// How much was seen before what is told.
    pub before: Option<String>,
    /// What was seen last.
    pub seen: Vec<String>,
    /// What it comes to, and what stands before that while something is being sized.
    pub sum: Option<(Option<String>, String)>,
}

/// What is picked of blood.
#[derive(Clone, Debug, PartialEq)]
pub enum PickView {
    /// One of some lines.
    Choosing(ChoicesView),
    /// How full a pad is.
    Full(Vec<(Fullness, String)>),
    /// How wide a pool is, beside a coin and a hand.
    Width(ChoicesView, PoolView),
    /// A number, with an example.
    Typing(TypingView, String),
}

/// A pool beside a coin and a hand.
#[derive(Clone, Debug, PartialEq)]
pub struct PoolView {
    /// How wide it is. Centimetres.
    pub width_cm: f64,
    /// How wide all three are, in words.
    pub told: String,
}

/// A coin's width in centimetres: most small coins are within a few millimetres of it.
pub const COIN: f64 = 2.4;
/// A grown person's hand, wrist to fingertip, and across the palm, in centimetres.
pub const HAND: (f64, f64) = (18.0, 8.0);

/// Breaths as they are counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BreathsView {
    /// What is asked.
    pub ask: String,
    /// How to look.
    pub look: String,
    /// How many were counted: in big digits where it is drawn.
    pub counted: Option<String>,
    /// What to do now, or how long the count still runs.
    pub heading: String,
    /// How long a count may run, by key.
    pub over: Option<String>,
    /// That no breath was seen.
    pub no_breath: Option<String>,
    /// Every count.
    pub counts: Vec<String>,
    /// What they come to.
    pub sum: Option<String>,
    /// That she was held meanwhile.
    pub held: Option<String>,
    /// That one count more tells more.
    pub once_more: Option<String>,
}

/// The vein as it is timed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VeinView {
    /// What is asked.
    pub ask: String,
    /// How to look.
    pub look: String,
    /// The seconds: in big digits where they are drawn.
    pub seconds: Option<String>,
    /// The answer they stand for.
    pub meaning: Option<String>,
    /// What to do now.
    pub heading: String,
}

impl EnteringView {
    /// What is being entered.
    pub fn of(session: &Session, draft: &Draft) -> Self {
        match draft {
            Draft::Spill(spill) => Self::Blood(blood(session, spill)),
            Draft::Taps(taps) => Self::Breaths(breaths(session, taps)),
            Draft::Vein(vein) => Self::Vein(timed(session, *vein)),
        }
    }
}

/// What was seen last is told, so many pieces of it.
const SEEN: usize = 3;

fn blood(session: &Session, spill: &Spill) -> BloodView {
    let (ask, look) = spill.words();
    let sizing = matches!(spill.pick, Pick::Width(..));
    let pick = match spill.pick {
        Pick::Typed(number) => {
            let example = of_question::for_example(Text::typed(number.example()));
            PickView::Typing(TypingView::of(session), session.say(example))
        }
        Pick::Full(_) => {
            PickView::Full(FULLNESS.iter().map(|(_, full)| (*full, session.say(seen::full(*full)))).collect())
        }
        Pick::Width(_, pool) => PickView::Width(ChoicesView::of(session), pool_view(session, pool)),
        _ => PickView::Choosing(ChoicesView::of(session)),
    };
    let hidden = spill.seen.len().saturating_sub(SEEN);
    let sum = session.verdict.figures.blood.as_ref().map(|blood| session.say(figures::blood_line(blood)));
    BloodView {
        ask: session.say(ask),
        look: look.map(|look| session.say(look)),
        pick,
        before: (hidden > 0).then(|| session.say(phrase::before(hidden))),
        seen: spill.seen.iter().skip(hidden).map(|one| session.say(seen::spilt(*one))).collect(),
        sum: sum.map(|sum| (sizing.then(|| session.say(phrase::with_this())), sum)),
    }
}

fn pool_view(session: &Session, width: Micrometres) -> PoolView {
    #[expect(clippy::cast_precision_loss, reason = "a pool is far below 2^53 micrometres")]
    let width_cm = width.0 as f64 / 10_000.0;
    let [coin, hand, pool] =
        [format!("{COIN} cm"), format!("{:.0} cm", HAND.0), format!("{width_cm:.0} cm")].map(Text::typed);
    PoolView { width_cm, told: session.say(drawing::pool(coin, hand, pool)) }
}

fn breaths(session: &Session, taps: &Taps) -> BreathsView {
    let say = |told: Phrase| session.say(told);
    let (ask, look) = question::words(session);
    let runs = taps.running.is_some();
    let counted = match taps.running {
        Some((_, breaths)) => Some(breaths),
        None => taps.counts.last().map(|last| last.breaths),
    };
    let key = |(key, over): (u8, u32)| terms::named(Text::typed(key.to_string()), phrase::seconds(over));
    let over = || session.say(Text::list((1..).zip(OVER).map(key)));
    let none = taps.ended.is_some_and(|(_, none)| none);
    let sum = session.verdict.figures.breaths.as_ref();
    let counts = (1_u32..).zip(&taps.counts).map(|(number, count)| {
        if count.held {
            say(phrase::count_held(number, count.breaths, count.seconds))
        } else {
            say(phrase::count(number, count.breaths, count.seconds))
        }
    });
    BreathsView {
        ask: session.say(ask),
        look: session.say(look),
        counted: counted.map(|breaths| breaths.to_string()),
        heading: say(if runs { phrase::to_go(taps.left(session.now).unwrap_or(0)) } else { phrase::begin(taps.over) }),
        over: (!runs).then(over),
        no_breath: (!runs && none).then(|| say(phrase::no_breath())),
        counts: counts.collect(),
        sum: sum.map(|breaths| session.reader().say(&figures::breaths_line(breaths))),
        held: sum.filter(|breaths| breaths.held).map(|_| say(phrase::held())),
        once_more: sum.filter(|_| !runs).map(|_| say(phrase::once_more())),
    }
}

fn timed(session: &Session, vein: Vein) -> VeinView {
    let (ask, look) = question::words(session);
    let (seconds, heading) = match (vein.since, vein.took) {
        (Some(since), _) => (Some((session.now - since).num_seconds().max(0).to_string()), phrase::vein_full()),
        (None, Some(took)) => (Some(format!("{}.{}", took.0 / 10, took.0 % 10)), phrase::vein_took()),
        (None, None) => (None, phrase::vein()),
    };
    let meaning = vein.took.filter(|_| vein.since.is_none()).map(|took| meaning(session, took.0));
    VeinView { ask: session.say(ask), look: session.say(look), seconds, meaning, heading: session.say(heading) }
}

/// The answer a time stands for, in words.
fn meaning(session: &Session, tenths: u32) -> String {
    let at = session.protocol.giving(Measure::Refill, false);
    let question = at.map(|at| session.protocol.ask(at));
    let worth = Band::exactly(u64::from(tenths));
    question
        .and_then(|question| question.choices.get(usize::from(question.stands_for(worth)?.1)))
        .map_or_else(String::new, |choice| choice.say.clone())
}
