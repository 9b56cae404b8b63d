//! The key table guards itself: footer, help and behaviour are one and the same thing.

use crate::common::walk::Walk;
use coopside::session::context::Context;
use coopside::session::line::Edit;
use coopside::update::Input;
use coopside::view::keys::{self, Action, Key, Show, TABLE};
use coopside::words::{Words, english};
use std::collections::HashSet;

#[test]
fn no_key_means_two_things_in_one_context() {
    for context in Context::ALL {
        let mut seen = HashSet::new();
        for key in keys::of(context).flat_map(|binding| binding.keys) {
            assert!(seen.insert(*key), "{} twice in {context:?}", english(key.show()));
        }
    }
}

#[test]
fn every_context_has_a_way_back_and_a_way_out() {
    for context in Context::ALL {
        let has = |action: Action| keys::of(context).any(|binding| binding.action == action);
        assert!(has(Action::Leave), "{context:?} cannot be left");
        assert!(has(Action::Back) || has(Action::Close), "{context:?} has no way back");
        if !matches!(context, Context::Typing | Context::Help) {
            assert!(has(Action::Help), "{context:?} has no help");
        }
    }
}

#[test]
fn one_hand_and_no_modifier_does_everything() {
    for binding in TABLE {
        let plain = binding.keys.iter().any(|key| !matches!(key, Key::Control(_)));
        let elsewhere =
            TABLE.iter().any(|other| other.action == binding.action && !matches!(other.keys, [Key::Control(_)]));
        // What erases several letters does what erasing them one by one does.
        let by_one = matches!(binding.action, Action::Edit(Edit::EraseWord | Edit::EraseAll));
        // All of it is drawn again when the window changes its size, too.
        assert!(
            plain || elsewhere || by_one || matches!(binding.action, Action::Suspend | Action::Redraw),
            "{:?} needs two hands",
            binding.action
        );
    }
}

#[test]
fn the_emergency_list_is_one_key_away_everywhere_but_in_typing() {
    for context in Context::ALL.into_iter().filter(|context| *context != Context::Typing) {
        assert_eq!(
            keys::resolve(context, Key::Char('e')).map(|(action, _)| action),
            Some(Action::Emergency),
            "{context:?}"
        );
    }
}

#[test]
fn hints_fit_and_sentences_are_sentences() {
    for binding in TABLE {
        let (hint, about) = (english((binding.hint)()), english((binding.about)()));
        assert!(hint.len() <= 10 && !hint.is_empty(), "{:?}: {hint}", binding.action);
        assert!(about.ends_with('.') && about.starts_with(char::is_uppercase), "{:?}", binding.action);
        let label = english(binding.label());
        let shown =
            binding.keys.iter().any(|key| key.show() == binding.label()) || ["1-9", "1-3"].contains(&label.as_str());
        assert!(shown, "the label {label} is no key of {:?}", binding.action);
    }
}

#[test]
fn digits_are_answers_in_order() {
    for context in [Context::List, Context::Ask, Context::Wounds, Context::Map] {
        for (at, digit) in ('1'..='9').enumerate() {
            assert_eq!(keys::resolve(context, Key::Char(digit)), Some((Action::Answer, at)));
        }
    }
    // A letter means what it says with the shift lock on, too.
    assert_eq!(keys::resolve(Context::Ask, Key::Char('V')), keys::resolve(Context::Ask, Key::Char('v')));
}

#[test]
fn what_must_always_show_is_little_enough_for_a_phone() {
    for context in Context::ALL {
        let always: usize = keys::of(context)
            .filter(|binding| binding.show == Show::Always)
            .map(|binding| english(binding.label()).len() + 1 + english((binding.hint)()).len() + 3)
            .sum();
        assert!(always <= 2 * 40, "{context:?} needs {always} columns in the footer");
    }
}

#[test]
fn the_key_page_names_every_action() {
    let page = keys::page(Words::english());
    for binding in TABLE {
        assert!(page.contains(&english((binding.about)())), "{:?}", binding.action);
    }
}

/// In a line that is typed the arrows move and erase nothing; what stands behind the cursor stays, and is seen.
#[test]
fn arrows_move_in_a_typed_line_and_letters_go_where_it_stands() {
    let mut walk = Walk::new();
    walk.press("aaa").to("weight").press("1 2 4 0 0");
    assert_eq!(walk.session.typed(), Some("2400"));
    walk.press("<left><left><left><left><right>");
    assert!(walk.frame(60, 24).contains("2_400"), "{}", walk.frame(60, 24));
    walk.press("<back>").press("1");
    assert_eq!(walk.session.typed(), Some("1400"));
    for (letter, left) in [('e', "1400"), ('a', "1400"), ('d', "400"), ('e', "400"), ('w', ""), ('u', "")] {
        walk.key(Key::Control(letter));
        assert_eq!(walk.session.typed(), Some(left), "after control {letter}");
    }
    // A letter as it is seen is one, whatever it is made of.
    let mut walk = Walk::new();
    walk.press("aaa").to("weight").press("1");
    walk.take(Input::Paste("e\u{301}x".into()));
    walk.press("<left><back>");
    assert_eq!(walk.session.typed(), Some("x"));
}

/// A key that means nothing says so, and changes nothing; an arrow takes nothing back, escape does.
#[test]
fn a_key_that_means_nothing_says_so_and_no_arrow_takes_anything_back() {
    let mut walk = Walk::new();
    walk.press("aaa1");
    let (asked, log) = (walk.asked(), walk.session.log.clone());
    for key in [Key::Char('q'), Key::Char('/'), Key::Tab, Key::BackTab, Key::Left, Key::Right, Key::Delete] {
        walk.key(key);
        let frame = walk.frame(60, 24);
        assert!(frame.contains("Nothing here goes by") && frame.contains("h tells every key"), "{key:?}\n{frame}");
        assert_eq!((walk.asked(), &walk.session.log), (asked.clone(), &log), "{key:?}");
    }
    walk.press("<esc>");
    assert_ne!(walk.asked(), asked);
    // Help closes by the key that opened it.
    walk.press("h");
    assert!(walk.frame(60, 24).contains("KEYS"));
    walk.press("h");
    assert!(!walk.frame(60, 24).contains("KEYS"));
}
