//! Line by line as on the screen: every word that is drawn is said, every key can be typed as a line, and a bird examined either
//! way leaves the same log. No person took part.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::walk::Walk;
use crate::common::{PROTOCOL, count};
use coopside::finding::log::Entry;
use coopside::practice::{self, Script};
use coopside::screen::Theme;
use coopside::session::Overlay;
use coopside::session::context::Context;
use coopside::spoken::{Keyed, LineMeaning, SpokenScreen, Teller, clocks, heard};
use coopside::update::Input;
use coopside::view::View;
use coopside::view::keys::{Action, Key, TABLE};
use coopside::words::Voice;
use std::collections::BTreeSet;

/// Wide enough that nothing is cut, and so high that all of it shows.
const WHOLE: (u16, u16) = (83, 400);

/// The words of a text, as far as they are words: a voice reads figures, units and marks otherwise.
fn words(text: &str) -> BTreeSet<String> {
    let word = |word: &str| word.trim_matches(|letter: char| !letter.is_alphanumeric()).to_lowercase();
    let is_word = |word: &String| word.chars().count() > 2 && word.chars().all(char::is_alphabetic);
    text.split(|letter: char| letter.is_whitespace() || "/-".contains(letter)).map(word).filter(is_word).collect()
}

/// What a terminal shows and a voice does not say: that more lines are to come, the hints that stand beside each answer already,
/// a unit in signs, the marks of lines and of drawings.
fn is_only_drawn(walk: &Walk, word: &str) -> bool {
    let always = ["more", "below", "lines", "typed", "answer", "always", "tell", "min", "typing"];
    let marks = match walk.session.overlays.last() {
        Some(Overlay::Help) => MARKS,
        Some(Overlay::Page(_)) => &["day", "noise", "line"],
        None if walk.session.context() == Context::Body => OVER_HER,
        _ => &[],
    };
    always.contains(&word) || marks.contains(&word)
}

/// The words that explain marks.
const MARKS: &[&str] = &[
    "marks", "care", "home", "same", "far", "and", "not", "settled", "vet", "within", "day", "hours", "now", "serious",
    "grave", "gravest", "phone", "any", "head", "where", "are", "done", "left", "open", "your", "answer", "the",
    "line", "you", "stand",
];

/// What is written under the drawing beside the list of places.
const OVER_HER: &[&str] = &[
    "arrow", "keys", "move", "over", "her", "the", "right", "from", "back", "left", "above", "wounds", "where", "lie",
];

#[track_caller]
fn says_all(walk: &mut Walk) {
    let drawn = walk.frame(WHOLE.0, WHOLE.1);
    let view = View::of(&walk.session);
    let told = SpokenScreen::of(&view);
    let lines = [told.notice, told.above, told.scene, told.below].into_iter().flatten();
    let said: String = lines.map(|line| line.text + "\n").collect();
    let said_words = words(&said);
    let lacking: Vec<String> =
        words(&drawn).into_iter().filter(|word| !(said_words.contains(word) || is_only_drawn(walk, word))).collect();
    assert!(lacking.is_empty(), "not said: {lacking:?}\n--- drawn\n{}\n--- said\n{said}", drawn.trim_end());
}

fn birds() -> impl Iterator<Item = Walk> {
    practice::shipped().into_iter().step_by(count(16, 1)).map(|(name, text)| {
        let script = Script::read(&PROTOCOL, name, name, text).unwrap_or_else(|faults| panic!("\n{faults}"));
        let mut walk = Walk::at(&script.findings);
        walk.asks_on = false;
        walk
    })
}

#[test]
fn what_is_drawn_of_every_scripted_bird_is_said() {
    for mut walk in birds() {
        for keys in ["", "v", "<esc>", "d", "w", "<esc>", "h", "<esc>", "d", "w", "<esc>", "<esc>", "o", "<esc>", "s"] {
            walk.press(keys);
            says_all(&mut walk);
        }
    }
}

/// Keys pressed at random, most of them such as do something.
const KEYS: &[u8] = b"1111222233344567890aabbccddeefghiijklmnnoopqrstuvwyy  ??";

fn pressed_at_random(walk: &mut Walk, seed: u64, times: usize, mut look: impl FnMut(&mut Walk)) {
    let mut rng = fastrand::Rng::with_seed(seed);
    for _ in 0..times {
        look(walk);
        match rng.u32(..10) {
            0 => {
                let others = [Key::Enter, Key::Escape, Key::Down, Key::Right, Key::PageDown, Key::End];
                walk.key(*rng.choice(&others).unwrap_or(&Key::Enter));
            }
            1 => {
                walk.wait(rng.i64(1..400));
            }
            _ => walk.key(Key::Char(char::from(*rng.choice(KEYS).unwrap_or(&b'1')))),
        }
        if walk.left {
            return;
        }
    }
}

#[test]
fn what_is_drawn_wherever_keys_lead_is_said() {
    for seed in 0..count(9, 400) {
        let mut walk = match seed % 3 {
            0 => Walk::new(),
            1 => Walk::practising(),
            _ => birds().nth(usize::try_from(seed).unwrap_or(0) % 5).unwrap_or_else(Walk::new),
        };
        pressed_at_random(&mut walk, seed, 40, says_all);
    }
}

#[test]
fn every_key_can_be_typed_as_a_line() {
    let walk = Walk::new();
    for binding in TABLE {
        let lines = binding.contexts.iter().filter(|context| **context != Context::Typing);
        for key in binding.keys.iter().filter(|key| lines.clone().next().is_some() && !matches!(key, Key::Control(_))) {
            let line = walk.session.say(key.show());
            let typed = if *key == Key::Enter { "" } else { line.as_str() };
            assert_eq!(heard(&walk.session, typed), LineMeaning::Keyed(vec![Keyed::Key(*key)]), "{line}");
        }
    }
    // A word does what its key does; what means nothing says so, and does nothing.
    assert_eq!(heard(&walk.session, "leave"), LineMeaning::Keyed(vec![Keyed::Key(Key::Char('x'))]));
    assert_eq!(heard(&walk.session, " Again "), LineMeaning::Again);
    assert_eq!(heard(&walk.session, "clock"), LineMeaning::Clock);
    for nonsense in ["12", "1 2", "bleeding hard", "\u{1b}[A", "\u{fffd}\u{fffd}"] {
        assert!(matches!(heard(&walk.session, nonsense), LineMeaning::Nothing(_)), "{nonsense}");
    }
    assert!(TABLE.iter().any(|binding| binding.action == Action::Leave));
}

/// A sitting that goes by lines alone.
struct Ear {
    walk: Walk,
    teller: Teller,
}

impl Ear {
    fn new() -> Self {
        let mut walk = Walk::new();
        walk.session.voice = Voice::Aloud;
        Self { walk, teller: Teller::default() }
    }

    fn hears(&mut self, is_other: bool) -> Vec<String> {
        let (lines, extent) = self.teller.tell(&View::of(&self.walk.session), is_other);
        self.walk.session.learn(extent);
        lines
    }

    fn line(&mut self, line: &str) -> Vec<String> {
        let LineMeaning::Keyed(typed) = heard(&self.walk.session, line) else { panic!("{line}") };
        for typed in typed {
            self.walk.take(match typed {
                Keyed::Key(key) => Input::Key(key),
                Keyed::Text(text) => Input::Paste(text),
            });
        }
        self.hears(true)
    }
}

#[test]
fn a_bird_examined_by_lines_leaves_the_log_that_keys_leave() {
    let mut answers = vec![];
    for seed in 34..count(42, 430) {
        let mut by_keys = Walk::new();
        by_keys.asks_on = false;
        let mut ear = Ear::new();
        ear.walk.asks_on = false;
        ear.walk.session.case = by_keys.session.case.clone();
        let mut rng = fastrand::Rng::with_seed(seed);
        for _ in 0..60 {
            // One bird by keys; the other by what was said of it: the key that stands before an answer, or a word of the keys.
            let said = SpokenScreen::of(&View::of(&ear.walk.session)).scene;
            let offered = said.iter().filter_map(|line| line.text.split_once(". ")).map(|(key, _)| key.to_owned());
            let offered: Vec<String> = offered.filter(|key| key.len() == 1 || key == "space").collect();
            let typing = by_keys.session.context() == Context::Typing;
            let line = match rng.choice(&offered) {
                _ if typing => "2.1 kg".to_owned(),
                None => String::new(),
                Some(key) => key.clone(),
            };
            if typing {
                // What stood there gives way to a whole line.
                by_keys.key(Key::Control('e'));
                by_keys.key(Key::Control('u'));
                by_keys.take(Input::Paste(line.clone()));
                by_keys.press("<enter>");
            } else {
                by_keys.press(&match line.as_str() {
                    "" => "<enter>".to_owned(),
                    "space" => "<space>".to_owned(),
                    key => key.to_owned(),
                });
            }
            ear.line(&line);
            let contexts = (by_keys.session.context(), ear.walk.session.context());
            assert_eq!(contexts.0, contexts.1, "{seed} {line}");
            let (keys, lines) = (&by_keys.session.log, &ear.walk.session.log);
            let parts = keys.iter().zip(lines).position(|(key, line)| key != line);
            assert!(keys == lines, "{seed} {line} {parts:?}\n{:?}\n{:?}", keys.last(), lines.last());
        }
        answers.push(by_keys.session.log.iter().filter(|said| matches!(said.entry, Entry::Said(_))).count());
    }
    // It said something of most birds.
    assert!(answers.iter().filter(|many| **many > 5).count() * 2 > answers.len(), "{answers:?}");
}

#[test]
fn a_line_is_said_once_and_a_clock_speaks_at_half_and_at_its_last_minute() {
    let mut ear = Ear::new();
    let first = ear.hears(true);
    assert!(first.iter().any(|line| line == "1. bleeding hard"), "{first:?}");
    // Nothing new: nothing is said.
    assert_eq!(ear.hears(false), Vec::<String>::new());
    let pressing = ear.line("1");
    assert!(pressing.contains(&"Press and hold.".to_owned()), "{pressing:?}");
    assert!(!pressing.contains(&"danger signs, step 1 of 12".to_owned()), "{pressing:?}");
    let mut heard = Vec::new();
    for second in 1..=300 {
        ear.walk.wait(1);
        let lines = ear.hears(false);
        heard.extend(lines.into_iter().map(|line| format!("{second}: {line}")));
    }
    insta::assert_snapshot!(heard.join("\n"));
    assert_eq!(ear.teller.again(ear.walk.session.reader()).first().map(String::as_str), Some("Coopside"));
    ear.walk.press("<enter>");
    assert!(clocks(&View::of(&ear.walk.session)).iter().all(|line| !line.is_empty()));
}

#[test]
fn nothing_that_is_said_holds_a_sign_that_no_voice_reads() {
    for seed in 0..count(6, 60) {
        let mut walk = if seed % 2 == 0 { Walk::new() } else { Walk::practising() };
        walk.session.voice = Voice::Aloud;
        pressed_at_random(&mut walk, 1000 + seed, 40, |walk| {
            let told = SpokenScreen::of(&View::of(&walk.session));
            for line in [told.notice, told.above, told.scene, told.below].into_iter().flatten() {
                let signs = ['│', '─', '═', '√', '▓', '•', '·'];
                assert!(!line.text.contains(signs) && !line.text.contains('\u{1b}'), "{}", line.text);
                assert!(!line.text.contains('\n'), "{}", line.text);
            }
        });
    }
}

#[test]
fn a_row_that_is_moved_to_is_said() {
    let mut ear = Ear::new();
    ear.hears(true);
    ear.walk.draw(60, 24, Theme { colour: false });
    ear.walk.press("<down><down>");
    let lines = ear.hears(false);
    assert!(lines.iter().any(|line| line.contains("fighting for breath")), "{lines:?}");
}
