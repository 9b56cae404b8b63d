//! From the start of the program to its first whole frame, against a program that only takes over the terminal with ratatui and
//! draws one line: `cargo bench --bench start`. Both run by turns in a pseudo-terminal of 100 by 30; read the ratio of the medians.

use portable_pty::{CommandBuilder, PtySize, native_pty_system};
use std::error::Error;
use std::io::Read;
use std::path::Path;
use std::time::{Duration, Instant};

type Outcome<T> = Result<T, Box<dyn Error>>;

/// How many starts of each.
const ROUNDS: usize = 60;
const SIZE: PtySize = PtySize { rows: 30, cols: 100, pixel_width: 0, pixel_height: 0 };
/// Said to this program where it is to be the bare one.
const BARE: &str = "--bare";
/// What the last row of each one's first frame says.
const BARE_SHOWS: &str = "A line.";
const SHOWS: &str = "help";

fn main() -> Outcome<()> {
    if std::env::args().any(|word| word == BARE) {
        return bare();
    }
    let data = tempfile::tempdir()?;
    let own = std::env::current_exe()?;
    let (mut bare, mut ours) = (Vec::new(), Vec::new());
    for _ in 0..ROUNDS {
        bare.push(first_frame(&own, &[BARE], data.path(), BARE_SHOWS)?);
        ours.push(first_frame(Path::new(env!("CARGO_BIN_EXE_coopside")), &[], data.path(), SHOWS)?);
    }
    let (bare, ours) = (median(bare), median(ours));
    println!("first frame, median of {ROUNDS}: bare ratatui {bare:.2?}, coopside {ours:.2?}");
    println!("ratio {:.2}", ours.as_secs_f64() / bare.as_secs_f64());
    Ok(())
}

/// Takes over the terminal, draws one line, and waits for a key.
fn bare() -> Outcome<()> {
    let mut terminal = ratatui::try_init()?;
    terminal.draw(|frame| frame.render_widget(BARE_SHOWS, frame.area()))?;
    crossterm::event::read()?;
    ratatui::try_restore()?;
    Ok(())
}

/// How long a program takes from its start to a frame that shows this text.
fn first_frame(program: &Path, words: &[&str], data: &Path, shows: &str) -> Outcome<Duration> {
    let pair = native_pty_system().openpty(SIZE)?;
    let mut command = CommandBuilder::new(program);
    command.args(words);
    command.env("COOPSIDE_DATA", data);
    command.env("TERM", "xterm-256color");
    let mut reader = pair.master.try_clone_reader()?;
    let mut screen = vt100::Parser::new(SIZE.rows.try_into()?, SIZE.cols.try_into()?, 0);
    let since = Instant::now();
    let mut child = pair.slave.spawn_command(command)?;
    drop(pair.slave);
    let mut bytes = [0; 16_384];
    let took = loop {
        let count = reader.read(&mut bytes)?;
        screen.process(bytes.get(..count).unwrap_or_default());
        if screen.screen().contents().contains(shows) {
            break since.elapsed();
        }
        if count == 0 {
            return Err(format!("{} ended without showing {shows:?}", program.display()).into());
        }
    };
    child.kill()?;
    child.wait()?;
    Ok(took)
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort_unstable();
    times.get(times.len() / 2).copied().unwrap_or_default()
}
