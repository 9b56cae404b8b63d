//! How fast a judgement and a key press are: `cargo bench`. Read the medians, and the ratios between them.

use chrono::{DateTime, FixedOffset, Utc};
use coopside::bird::Kind;
use coopside::finding::Findings;
use coopside::finding::figure::{Floor, Fullness, Lines, Pad, Spilt};
use coopside::judge::judge;
use coopside::measure::trend::{self, Weighing};
use coopside::measure::warmth::{self, State};
use coopside::measure::{blood, breath, fluid, healing, skin};
use coopside::practice;
use coopside::protocol::Protocol;
use coopside::screen::{Theme, draw};
use coopside::session::Session;
use coopside::sheet::{Sheet, Subject};
use coopside::spoken::Teller;
use coopside::unit::{Band, Grams, Micrometres, Permille, Reading};
use coopside::update::{Input, update};
use coopside::view::View;
use coopside::view::keys::Key;
use coopside::zone::Zone;
use divan::{Bencher, black_box};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::text::Line;
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

/// What every start does: the ready-made protocol is read.
#[divan::bench]
fn protocol_read_ready_made() -> usize {
    Protocol::shipped().map_or(0, |protocol| protocol.rules.len())
}

/// What every start did before: its files are read and checked.
#[divan::bench]
fn protocol_read_from_its_files(bencher: Bencher) {
    let files = coopside::shipped::files();
    bencher.bench(|| Protocol::load(black_box(&files)).map_or(0, |protocol| protocol.rules.len()));
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

/// Every measure once for a bird with five wounds: weight read, blood, skin, breath, fluids, warmth, healing, trend.
#[divan::bench]
fn all_measures(bencher: Bencher) {
    let kilograms = Band { low: Grams(1900), high: Grams(2100) };
    let seen = [
        Spilt::Drops(40),
        Spilt::Pads(2, Pad::Thin10, Fullness::Full),
        Spilt::Pool { width: Micrometres(100_000), floor: Floor::Smooth },
    ];
    let wounds: Vec<Lines> =
        (1..=5).map(|cm| Lines { length: Micrometres(cm * 10_000), width: Micrometres(cm * 8_000) }).collect();
    let days: Vec<Weighing> = (0..14).map(|day| Weighing { hour: day * 24, weight: Grams(2000 - day * 7) }).collect();
    bencher.bench(|| {
        let (kilograms, seen, wounds, days) = black_box((kilograms, &seen, &wounds, &days));
        let gone = blood::share(blood::spilt(seen), blood::volume(Some(Kind::Hen), kilograms, true));
        let areas = wounds.iter().map(|wound| Some(Band::exactly(wound.square())));
        let open = skin::open_share(areas, true, Reading { band: kilograms, settled: true });
        let advance: f64 =
            wounds.iter().zip(wounds.iter().skip(1)).filter_map(|(one, next)| healing::advance(*next, *one)).sum();
        let fluids = fluid::plans(kilograms.low, Permille(80));
        (gone, open, advance, fluids, breath::rate(15, 30), warmth::air(State::Chilled), trend::slope(days))
    });
}

/// The same as it is done at every key: a bird with five measured wounds, blood added up, breaths counted; her findings laid
/// out, and every measure the rules may ask for worked out once.
#[divan::bench]
fn every_measure_laid_out(bencher: Bencher) {
    let known = findings(include_str!("five_wounds.ron"));
    bencher.bench(|| {
        let sheet = Sheet::lay(&PROTOCOL, black_box(&known), now());
        let blood = (sheet.blood_share(true), sheet.blood_share(false), sheet.blood_of_weight());
        (
            blood,
            sheet.weight(),
            sheet.breath_rate(),
            sheet.dryness(),
            sheet.skin_open(),
            sheet.time_since(Subject::Bird),
        )
    });
}

/// The verdict of the same bird, her figures with it.
#[divan::bench]
fn judge_five_measured_wounds(bencher: Bencher) {
    let known = findings(include_str!("five_wounds.ron"));
    bencher.bench(|| judge(&PROTOCOL, black_box(&known), now()));
}

/// Loading and checking the whole protocol, as at every start.
#[divan::bench]
fn load_the_protocol() -> usize {
    Protocol::shipped().unwrap_or_else(|faults| exit(&faults)).rules.len()
}

/// A screen's worth of letters set by ratatui and nothing else: what every other frame is held against.
#[divan::bench(args = [(100, 30), (60, 24), (40, 20)])]
fn a_bare_frame(bencher: Bencher, size: (u16, u16)) {
    let area = Rect::new(0, 0, size.0, size.1);
    let line = "x".repeat(usize::from(size.0));
    bencher.bench(|| {
        let mut buffer = Buffer::empty(area);
        for y in 0..size.1 {
            buffer.set_line(0, y, &Line::from(black_box(line.as_str())), size.0);
        }
        buffer
    });
}

/// A sitting that begins.
fn begun() -> Session<'static> {
    let Some(zone) = FixedOffset::east_opt(0) else { exit(&"no zone") };
    Session::new(&PROTOCOL, None, now(), Zone::Fixed(zone))
}

/// One in which something is known: at a question, with her need, first aid and bans.
fn asked() -> Session<'static> {
    let mut session = begun();
    for key in "613411".chars() {
        update(&mut session, Input::Key(Key::Char(key)));
    }
    session
}

/// A question as plain data.
#[divan::bench]
fn a_question_as_a_view(bencher: Bencher) {
    let session = asked();
    bencher.bench_local(|| View::of(black_box(&session)));
}

/// The same drawn.
#[divan::bench(args = [(100, 30), (60, 24), (40, 20)])]
fn a_view_drawn(bencher: Bencher, size: (u16, u16)) {
    let session = asked();
    let (view, area) = (View::of(&session), Rect::new(0, 0, size.0, size.1));
    bencher.bench_local(|| {
        let mut buffer = Buffer::empty(area);
        draw::render(black_box(&view), Theme { colour: true }, area, &mut buffer)
    });
}

/// The same said.
#[divan::bench]
fn a_view_said(bencher: Bencher) {
    let session = asked();
    let view = View::of(&session);
    bencher.bench_local(|| Teller::default().tell(black_box(&view), true));
}

/// One key from the terminal to a drawn frame: answer, judge, plan, draw, and taking it back again.
#[divan::bench(args = [(100, 30), (60, 24), (40, 20)])]
fn two_keys_to_two_frames(bencher: Bencher, size: (u16, u16)) {
    let mut session = begun();
    let area = Rect::new(0, 0, size.0, size.1);
    let mut press = move |key: char| {
        let effects = update(&mut session, Input::Key(Key::Char(key)));
        let mut buffer = Buffer::empty(area);
        let drawn = draw::render(&View::of(&session), Theme { colour: true }, area, &mut buffer);
        session.learn(drawn.extent);
        // Undone entries stay in the log; a bench would let it grow without end.
        if session.log.len() > 40 {
            session.log.truncate(20);
            session.work_out();
        }
        (effects.len(), drawn.cursor)
    };
    for key in "613411".chars() {
        press(key);
    }
    bencher.bench_local(move || (press('2'), press('b')));
}
