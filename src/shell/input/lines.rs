//! Lines that are typed, or written by a file or a program, read by a thread of their own.

use super::Arrived;
use std::io::{self, BufRead, Read};
use std::sync::mpsc::{Receiver, Sender, SyncSender, channel};
use std::thread;

/// The longest line that is taken, in bytes; what stands beyond it is thrown away with it.
const LONGEST: u64 = 64 * 1024;

/// Starts to read. Where no person types at a terminal, each line waits until it is asked for.
pub fn start(to: SyncSender<Arrived>, by_person: bool) -> io::Result<Option<Sender<()>>> {
    let (permits, asked) = channel();
    let asked = (!by_person).then_some(asked);
    thread::Builder::new().name("input".into()).spawn(move || read(&to, asked.as_ref()))?;
    Ok((!by_person).then_some(permits))
}

fn read(to: &SyncSender<Arrived>, asked: Option<&Receiver<()>>) {
    let mut stdin = io::stdin().lock();
    loop {
        if asked.is_some_and(|asked| asked.recv().is_err()) {
            return;
        }
        let arrived = match line(&mut stdin) {
            Ok(Some(line)) => Arrived::Line(line),
            Ok(None) => Arrived::End,
            Err(error) => Arrived::Failed(error),
        };
        let is_last = !matches!(arrived, Arrived::Line(_));
        if to.send(arrived).is_err() || is_last {
            return;
        }
    }
}

/// The next line; nothing at the end. Bytes that are no text become marks: what they stood for is not understood, and says so.
fn line(stdin: &mut impl BufRead) -> io::Result<Option<String>> {
    let mut bytes = Vec::new();
    if stdin.by_ref().take(LONGEST).read_until(b'\n', &mut bytes)? == 0 {
        return Ok(None);
    }
    if bytes.len() as u64 == LONGEST && bytes.last() != Some(&b'\n') {
        stdin.skip_until(b'\n')?;
    }
    Ok(Some(String::from_utf8_lossy(&bytes).trim_end_matches(['\r', '\n']).to_owned()))
}
