//! How fast a judgement and a key press are: `cargo bench`. Read the medians, and the ratios between them.

use chrono::{DateTime, FixedOffset, Utc};
use coopside::finding::Findings;
use coopside::judge::judge;
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::screen::keys::Key;
use coopside::screen::{Input, Model, Theme, draw, update};
use divan::{Bencher, black_box};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::sync::LazyLock;

static PROTOCOL: LazyLock<Protocol> = LazyLock::new(|| Protocol::shipped().unwrap_or_else(|faults| exit(&faults)));

fn exit(why: &dyn std::fmt::Display) -> ! {
    eprintln!("{why}");
    std::process::exit(1)
}

fn main() {
    divan::main();
}

fn now() -> DateTime<Utc> {
    DateTime::UNIX_EPOCH
}

fn findings(text: &str) -> Findings {
    practice::read(&PROTOCOL, "scenario", text, now()).unwrap_or_else(|faults| exit(&faults)).1
}

/// A bird of which nothing is known yet: every rule is open.
#[divan::bench]
fn judge_nothing_known(bencher: Bencher) {
    let nothing = Findings::default();
    bencher.bench(|| judge(&PROTOCOL, black_box(&nothing), now()));
}

/// A fully examined bird with a wound.
#[divan::bench]
fn judge_fully_examined(bencher: Bencher) {
    let known = findings(include_str!("../../scenarios/case_turkey_cut_under_wing.ron"));
    bencher.bench(|| judge(&PROTOCOL, black_box(&known), now()));
}

/// Loading and checking the whole protocol, as at every start.
#[divan::bench]
fn load_the_protocol() -> usize {
    Protocol::shipped().unwrap_or_else(|faults| exit(&faults)).rules.len()
}

/// One key from the terminal to a drawn frame: answer, judge, plan, draw, and taking it back again.
#[divan::bench(args = [(100, 30), (60, 24), (40, 20)])]
fn two_keys_to_two_frames(bencher: Bencher, size: (u16, u16)) {
    let Some(zone) = FixedOffset::east_opt(0) else { exit(&"no zone") };
    let mut model = Model::new(&PROTOCOL, None, now(), zone);
    model.size = size;
    let area = Rect::new(0, 0, size.0, size.1);
    let mut press = move |key: char| {
        let effects = update(&mut model, Input::Key(Key::Char(key)));
        let mut buffer = Buffer::empty(area);
        let cursor = draw::render(&model, Theme { colour: true }, area, &mut buffer);
        // Undone entries stay in the log; a bench would let it grow without end.
        if model.log.len() > 40 {
            model.log.truncate(20);
            model.work_out();
        }
        (effects.len(), cursor)
    };
    for key in "613411".chars() {
        press(key);
    }
    bencher.bench_local(move || (press('2'), press('b')));
}
