//! Every key a text names does at that moment what the text says of it.

use crate::common::walk::{Walk, text};
use crate::common::{count, now};
use chrono::TimeDelta;
use coopside::days::due::Running;
use coopside::exam::Place;
use coopside::finding::log::{Entry, Stamped};
use coopside::phrase::Text;
use coopside::screen::Theme;
use coopside::session::Overlay;
use coopside::session::context::Context;
use coopside::update::Input;
use std::collections::BTreeSet;

/// Up to the first question about a calm hen's head.
const STORY: &str = "aaa1n1 3 4 1 a";

/// Everything that holds the state of a walk, to begin it anew.
#[derive(Clone, Debug)]
struct State {
    keys: String,
    /// Seconds that pass at the end.
    waits: i64,
    /// How long another bird's clock has run out for; below nought, how long it has still to run.
    left: Option<i64>,
    refused: bool,
    then: &'static str,
}

impl State {
    fn walk(&self) -> Walk {
        let mut walk = Walk::new();
        for part in self.keys.split(" to ") {
            match part.split_once('!') {
                Some((asked, rest)) => walk.to(asked).press(rest),
                None => walk.press(part),
            };
        }
        walk.wait(self.waits);
        if let Some(over) = self.left {
            let first = Stamped { at: now(), entry: Entry::Named("Tansy".into()) };
            let ends_at = walk.session.now - TimeDelta::seconds(over);
            walk.session.flock.clocks.push(Running {
                case: None,
                begun: first.at,
                bird: Text::typed("Tansy"),
                what: Text::typed("press"),
                ends_at,
            });
        }
        if self.refused {
            walk.take(Input::NotKept(Text::typed("the disk is full")));
        }
        walk.press(self.then);
        walk
    }
}

fn states() -> Vec<State> {
    let mut states = Vec::new();
    let keys = [
        "",
        "1",
        "1 <enter>",
        "1 <enter> 2",
        "1 <enter> 2 <enter>",
        "1 <enter> 1 aaa",
        "1 d d t",
        "1 <enter> 1 d d",
        "1 o",
        "2",
        "2 <enter> aaa1n1 1 4 1 a",
        "aaa1n1 3 7",
        "aaa1n1 3 7 <enter>",
        &format!("{STORY} to eyelid!"),
        &format!("{STORY} to eyelid!p"),
        &format!("{STORY} to in_hand!2 <enter>"),
        &format!("{STORY} to any wound!1 8 2 4"),
        &format!("{STORY} to any wound!1 8 2 4 <enter>"),
        &format!("{STORY} to any wound!1 8 2 4 <enter> 1"),
        &format!("{STORY} to any wound!1 <space> 3 5 2 <enter>"),
        &format!("{STORY} to weight!"),
        &format!("{STORY} to weight!1"),
        &format!("{STORY} to done!"),
        &format!("2 <enter> {STORY} to done!"),
    ];
    let thens = [
        "",
        "d",
        "d d",
        "d d <down>",
        "d d <down> <down>",
        "d d <down> <down> <down>",
        "d d t",
        "d d <down> t",
        "d d <down> t <down>",
        "v",
        "m",
        "h",
        "w",
        "l",
        "c",
        "i",
        "y",
        "f",
        "e",
        "d d h",
        "v m",
        "<enter>",
    ];
    for keys in keys {
        for then in thens {
            for (waits, left, refused) in [
                (0, None, false),
                (5, Some(10), false),
                (5, Some(-100), false),
                (200, None, false),
                (200, Some(10), false),
                (400, None, false),
                (400, Some(10), false),
                (5, Some(10), true),
            ] {
                states.push(State { keys: keys.into(), waits, left, refused, then });
            }
        }
    }
    states
}

/// The words on the screen, the summary beside apart; without the keys' own lines at the foot.
fn words(walk: &mut Walk, size: (u16, u16)) -> String {
    let (buffer, _) = walk.draw(size.0, size.1, Theme { colour: false });
    let lines: Vec<String> = text(&buffer).lines().map(str::to_owned).collect();
    let foot = lines.iter().rposition(|line| line.starts_with("───")).unwrap_or(lines.len());
    let (mut left, mut right) = (String::new(), String::new());
    for line in lines.iter().take(foot) {
        let (here, beside) = line.split_once('│').unwrap_or((line, ""));
        left.push_str(here);
        left.push(' ');
        right.push_str(beside);
        right.push(' ');
    }
    format!("{left} | {right}").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// How many clocks run.
fn clocks(walk: &Walk) -> usize {
    usize::from(walk.session.timer().is_some()) + walk.session.flock.clocks.len()
}

/// The words that name a key, the key, and whether what they say has come true.
type Claim = (&'static str, &'static str, fn(&Walk, &Walk) -> bool);

const CLAIMS: &[Claim] = &[
    (" t ends it.", "t", |before, after| clocks(after) + 1 == clocks(before)),
    ("clock has run out. t ends it.", "t", |before, after| ended_one_that_was_up(before, after)),
    ("clock has run out. f finds her. t ends it.", "t", |before, after| {
        before.session.timer() == after.session.timer()
            && after.session.flock.clocks.len() < before.session.flock.clocks.len()
    }),
    ("Press t.", "t", |before, after| {
        before.session.timer().is_none_or(|_| before.session.timer() != after.session.timer())
            && after.session.timer().is_some()
    }),
    ("Let her rest: p", "p", |_, after| after.asked() == "instruction rest"),
    ("f finds her", "f", |_, after| matches!(after.session.overlays.last(), Some(Overlay::Case | Overlay::Flock))),
    ("LOOK NOW: f", "f", |_, after| matches!(after.session.overlays.last(), Some(Overlay::Case | Overlay::Flock))),
    ("more: d", "d", |_, after| after.session.context() == Context::Course),
    (", d what to do", "d", |_, after| after.session.context() == Context::Course),
    ("more: v verdict", "v", |_, after| after.session.context() == Context::Verdict),
    ("(u)", "u", |before, after| {
        before.session.exam.place != after.session.exam.place || after.session.notice.is_some()
    }),
    ("b goes back to it", "b", |_, after| matches!(after.session.exam.place, Place::Instruction(..))),
    ("(n)", "n", |before, after| before.session.exam.place != after.session.exam.place),
    ("n skips it", "n", |before, after| before.session.exam.place != after.session.exam.place),
    // A notice that lies over the last lines goes with the key, and then they are seen without moving.
    ("space: more below", "<space>", |before, after| {
        before.session.scroll != after.session.scroll
            || before.session.notice.is_some() && after.session.notice.is_none()
    }),
    ("space more, ", "<space>", |before, after| before.session.page != after.session.page),
    ("y: write it once", "y", |_, after| after.session.overlays.last() == Some(&Overlay::Contacts)),
    ("Enter goes on", "<enter>", |before, after| before.session.exam.place != after.session.exam.place),
    ("enter takes it", "<enter>", |before, after| before.session.line.is_some() && after.session.line.is_none()),
];

fn ended_one_that_was_up(before: &Walk, after: &Walk) -> bool {
    let up = |walk: &Walk| {
        let own = walk.session.timer().is_some_and(|timer| timer.left(walk.session.now) <= TimeDelta::zero());
        usize::from(own) + walk.session.flock.clocks.iter().filter(|clock| clock.ends_at <= walk.session.now).count()
    };
    up(after) + 1 == up(before)
}

/// Single letters that stand as keys in a text: `x ends`, `(x)`, `: x` and the like.
fn named(words: &str) -> BTreeSet<String> {
    let tokens: Vec<&str> = words.split(' ').collect();
    let mut named = BTreeSet::new();
    for (at, token) in tokens.iter().enumerate() {
        let bare = token.trim_end_matches(['.', ',', ';']);
        let is_letter = |text: &str| text.chars().count() == 1 && text.chars().all(|c| c.is_ascii_lowercase());
        let before = at.checked_sub(1).and_then(|at| tokens.get(at)).copied().unwrap_or_default();
        let next = tokens.get(at + 1).copied().unwrap_or_default();
        let does = ["ends", "goes", "finds", "skips", "opens", "leaves", "shows", "takes"];
        // The letter that is a word as well is a key only where something is said of it.
        let after_colon = before.ends_with(':') && bare != "a";
        if is_letter(bare) && does.contains(&next) {
            named.insert(format!("{bare} {next}"));
        } else if is_letter(bare) && (after_colon || before == "Press") {
            named.insert(format!("{before} {bare}"));
        } else if bare.len() == 3 && bare.starts_with('(') && bare.ends_with(')') && is_letter(&bare[1..2]) {
            named.insert(bare.to_owned());
        }
    }
    named
}

/// Where a text on any screen names a key, the key does what it says: clocks running or not, this bird's or another's.
#[test]
fn a_key_that_is_named_does_what_is_said_of_it() {
    let (mut held, mut wrong) = (BTreeSet::new(), BTreeSet::new());
    // Every one of them in the long form; else one in so many, which meets every beginning and every page.
    let some = states().into_iter().step_by(count(197, 1));
    let nail = format!("{STORY} to any wound!1 <space> 3 5 2 <enter>");
    let always = [
        ("1 <enter> 2 <enter>", 5, None, "dd"),
        ("1 <enter> 2 <enter>", 5, Some(10), "dd"),
        ("1 <enter> 2 <enter>", 5, Some(10), ""),
        ("1 <enter>", 400, None, "d d <down>"),
        ("1 <enter>", 400, Some(10), "m"),
        ("1 <enter>", 5, None, ""),
        ("aaa1n1 3 7 <enter>", 5, None, "dd"),
        (nail.as_str(), 5, None, "d d <down>"),
        ("aaa1n1 3 7 <enter> d d t", 5, None, "<down> <down> <down>"),
    ];
    let always = always.map(|(keys, waits, left, then)| State { keys: keys.into(), waits, left, refused: false, then });
    let held_long = State { keys: format!("{STORY} to eyelid!"), waits: 200, left: Some(10), refused: false, then: "" };
    let in_verdict = State { then: "v", ..held_long.clone() };
    for (nth, state) in always.into_iter().chain([held_long, in_verdict]).chain(some).enumerate() {
        for size in [(100, 40), (40, 20)].into_iter().skip(nth % count(2, 1)).take(count(1, 2)) {
            let start = state.walk();
            let mut before = start.clone();
            // What a page of help says is of the page below it.
            if before.session.overlays.last() == Some(&Overlay::Help) {
                continue;
            }
            let words = words(&mut before, size);
            for (says, key, is_true) in CLAIMS.iter().filter(|(says, ..)| words.contains(says)) {
                let mut after = start.clone();
                after.size = size;
                before.size = size;
                after.press(key);
                held.insert(*says);
                if !is_true(&before, &after) {
                    wrong.insert(format!(
                        "{says}: {state:?}\n  {}",
                        before.session.say(before.session.notice.clone().unwrap_or_default())
                    ));
                }
            }
            for named in named(&words) {
                if !CLAIMS.iter().any(|(says, ..)| says.contains(named.as_str())) {
                    wrong.insert(format!("nobody holds {named:?} against what it does: {state:?}"));
                }
            }
        }
    }
    let some: Vec<_> = wrong.iter().take(12).cloned().collect();
    assert!(wrong.is_empty(), "{} are not true\n{}", wrong.len(), some.join("\n"));
    for says in [
        "Press t.",
        " t ends it.",
        "clock has run out. f finds her. t ends it.",
        "Let her rest: p",
        "(u)",
        "b goes back to it",
        "more: d",
    ] {
        assert!(held.contains(says), "{says:?} was seen nowhere");
    }
}

/// Beside a step whose clock runs stands the time that is left; and the key ends no clock but where a line says so.
#[test]
fn a_step_whose_clock_runs_tells_the_time_left() {
    let mut walk = Walk::new();
    let plan = words(walk.press("1 <enter> 2 <enter> d d"), (100, 60));
    assert!(plan.contains("By the clock: 5:00 to go. t ends it.") && !plan.contains("Press t."), "{plan}");
    // The clock of the card itself.
    let mut card = Walk::new();
    let plan = words(card.press("1").wait(60).press("dd"), (100, 60));
    assert!(plan.contains("By the clock: 4:00 to go. It runs already.") && !plan.contains("Press t."), "{plan}");
    card.press("t");
    assert!(card.session.timer().is_none() && card.frame(100, 60).contains("Its clock runs already"), "nothing ends");
    assert!(card.press("b").frame(60, 24).contains("4:00 to go"));
    // None runs: the key starts it.
    let mut none = Walk::new();
    let plan = words(none.press("1").wait(301).press("<enter> 2").wait(301).press("<enter> d d"), (100, 60));
    assert!(plan.contains("By the clock: 5 min. Press t."), "{plan}");
    // Another bird's has run out: the key ends that one first, and says so before.
    let state = State { keys: "1 <enter> 2 <enter>".into(), waits: 5, left: Some(10), refused: false, then: "dd" };
    let mut both = state.walk();
    let plan = words(&mut both, (100, 60));
    assert!(plan.contains("Time is up for Tansy") && plan.contains("By the clock: 4:55 to go."), "{plan}");
    assert!(!plan.contains("to go. t ends it."), "{plan}");
    both.press("t");
    assert!(both.session.flock.clocks.is_empty() && both.session.timer().is_some());
}
