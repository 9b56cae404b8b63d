//! Whatever a terminal sends: random bytes (letters, figures, escapes whole and cut, pastes, half letters) through the program, drawn at any
//! size and said line by line. Nothing breaks, nothing hangs, and no key is taken by a screen that was not there when it was pressed.
//! No person took part.

#![cfg(unix)]
#![expect(clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::count;
use crate::common::walk::Walk;
use coopside::screen::Theme;
use coopside::session::context::Context;
use coopside::shell::input::Typed;
use coopside::shell::input::parse::Parser;
use coopside::spoken::Teller;
use coopside::update::Input;
use coopside::update::seen::{KeysFor, OnScreen};
use coopside::view::View;
use coopside::view::keys::{Action, Key, resolve};
use std::time::{Duration, Instant};

/// What a terminal sends, often what does something.
fn piece(rng: &mut fastrand::Rng) -> Vec<u8> {
    const KEYS: &[u8] = b"1112223344567890aabbccdddeefghiijklmnnoopqrstuvwy  \r\r\x7f\t";
    const WHOLE: [&[u8]; 12] = [
        b"\x1b[A", b"\x1b[B", b"\x1b[C", b"\x1b[D", b"\x1b[5~", b"\x1b[6~", b"\x1b[H", b"\x1b[F", b"\x1b[3~", b"\x1b",
        b"\x0c", b"\x1b[Z",
    ];
    const CUT: [&[u8]; 8] = [
        b"\x1b[",
        b"\x1b[1;",
        b"\xc3",
        b"\xe2\x82",
        b"\xff\xfe",
        b"\x1b]0;title",
        b"\x1b[<0;10;5M",
        b"\x1b[200~half a paste",
    ];
    match rng.u32(..40) {
        0 => WHOLE[rng.usize(..WHOLE.len())].to_vec(),
        1 => CUT[rng.usize(..CUT.len())].to_vec(),
        2 => [b"\x1b[200~2.1 kg\x1b[201~".as_slice(), b"\x1b[200~Saffron\nand Tansy\x1b[201~"][rng.usize(..2)].to_vec(),
        3 => (0..rng.usize(..6)).map(|_| rng.u8(..)).filter(|byte| *byte != 3 && *byte != 26).collect(),
        4 => "2.1 kg é鳥".bytes().collect(),
        _ => vec![KEYS[rng.usize(..KEYS.len())]],
    }
}

struct Hammered {
    keys: usize,
    taken: usize,
    early: usize,
    screens: usize,
}

/// One sitting under the hammer, until so many keys were heard or it was left.
fn hammer(seed: u64, keys: usize, sum: &mut Hammered) {
    let mut rng = fastrand::Rng::with_seed(seed);
    let (mut walk, mut parser, mut on_screen, mut teller) =
        (Walk::new(), Parser::default(), OnScreen::default(), Teller::default());
    walk.asks_on = false;
    let (mut at, mut heard) = (Duration::ZERO, 0);
    while heard < keys && !walk.left {
        // Drawn at some size, from nothing to more than any; said as well.
        let size = (rng.u16(..160), rng.u16(..50));
        walk.draw(size.0, size.1, Theme { colour: rng.bool() });
        if rng.u32(..4) == 0 {
            let is_other = !on_screen.is_current(&walk.session);
            teller.tell(&View::of(&walk.session), is_other);
        }
        on_screen.shows(KeysFor::of(&walk.session));
        sum.screens += 1;
        for _ in 0..rng.usize(1..4) {
            parser.bytes(&piece(&mut rng));
        }
        parser.silence(Duration::from_millis(rng.u64(..300)));
        for typed in parser.take() {
            heard += 1;
            // Two in one movement now and then.
            at += Duration::from_millis(rng.u64(..1200));
            match typed {
                Typed::Key(key) => {
                    let drawn = on_screen.is_current(&walk.session);
                    let taken = on_screen.takes(&walk.session, key, at).is_ok();
                    let context = walk.session.context();
                    if taken && !drawn {
                        // Only what is typed into a field, and leaving, may be early.
                        let leaves = matches!(resolve(context, key), Some((Action::Leave | Action::Suspend, _)));
                        let typed = matches!(context, Context::Typing | Context::Tapping | Context::Adding);
                        assert!(
                            typed || leaves,
                            "{seed}: {key:?} was taken by a screen that was not there: {context:?}"
                        );
                    }
                    sum.taken += usize::from(taken);
                    sum.early += usize::from(!taken);
                    // Leaving would end it: now and then it is meant.
                    let leaves = matches!(resolve(context, key), Some((Action::Leave, _)));
                    if taken && (!leaves || rng.u32(..50) == 0) {
                        walk.take(Input::Key(key));
                    }
                }
                Typed::Paste(text) => walk.take(Input::Paste(text)),
                Typed::Redraw => {}
            }
        }
        if rng.u32(..8) == 0 {
            walk.wait(rng.i64(1..900));
        }
    }
    sum.keys += heard;
}

#[test]
fn whatever_a_terminal_sends_breaks_nothing_and_no_key_is_early() {
    let all = count(1_000, 1_000_000);
    let mut sum = Hammered { keys: 0, taken: 0, early: 0, screens: 0 };
    let mut seed = 0;
    // In the long form a million, or as many as thirty minutes hold.
    let began = Instant::now();
    while sum.keys < all && began.elapsed() < Duration::from_mins(30) {
        seed += 1;
        hammer(seed, 700, &mut sum);
    }
    println!(
        "{} keys and pastes in {seed} sittings, {} taken, {} refused, {} screens",
        sum.keys, sum.taken, sum.early, sum.screens
    );
    // It was no dead keyboard.
    assert!(sum.taken > sum.keys / 4 && sum.early > 0, "{} of {} taken", sum.taken, sum.keys);
    assert!(resolve(Context::List, Key::Control('c')).is_some());
}
