//! What bytes of a terminal, and the silences between them, come to.

#![cfg(unix)]

use coopside::shell::input::Typed;
use coopside::shell::input::parse::{ESCAPE, HALF, PASTE, PIECE, Parser};
use coopside::view::keys::Key;
use proptest::prelude::*;
use std::time::Duration;

/// What a terminal does.
enum Does<'a> {
    Sends(&'a [u8]),
    Waits(Duration),
}

use Does::{Sends, Waits};

/// Long enough for anything that still waits.
const LONG: Duration = Duration::from_secs(5);
/// Between two keys of a fast hand.
const HAND: Duration = Duration::from_millis(20);

/// What all of it comes to, in few letters: keys as they are, others by name, texts in quotes.
fn said(does: &[Does]) -> String {
    let mut parser = Parser::default();
    let mut all = Vec::new();
    for does in does {
        match does {
            Sends(bytes) => parser.bytes(bytes),
            Waits(time) => parser.silence(*time),
        }
        all.extend(parser.take().iter().map(name));
    }
    all.join(" ")
}

fn name(typed: &Typed) -> String {
    match typed {
        Typed::Key(Key::Char(letter)) => letter.to_string(),
        Typed::Key(Key::Control(letter)) => format!("^{letter}"),
        Typed::Key(key) => format!("{key:?}"),
        Typed::Paste(text) => format!("{text:?}"),
        Typed::Redraw => "Redraw".into(),
    }
}

#[track_caller]
fn holds(does: &[Does], expected: &str) {
    assert_eq!(said(does), expected);
}

/// What one burst of bytes comes to once nothing follows.
#[track_caller]
fn sends(bytes: &[u8], expected: &str) {
    assert_eq!(said(&[Sends(bytes), Waits(LONG)]), expected, "{:?}", String::from_utf8_lossy(bytes));
}

#[test]
fn keys_are_known() {
    let keys: [(&[u8], &str); 36] = [
        (b"1", "1"),
        (b"A", "A"),
        (b" ", " "),
        ("é".as_bytes(), "é"),
        ("🐔".as_bytes(), "🐔"),
        (b"\r", "Enter"),
        (b"\n", "^j"),
        (b"\t", "Tab"),
        (b"\x7f", "Backspace"),
        (b"\x08", "Backspace"),
        (b"\x03", "^c"),
        (b"\x1a", "^z"),
        (b"\x0c", "Redraw"),
        (b"\x1b", "Escape"),
        (b"\x1b[A", "Up"),
        (b"\x1b[B", "Down"),
        (b"\x1b[C", "Right"),
        (b"\x1b[D", "Left"),
        (b"\x1bOA", "Up"),
        (b"\x1bOB", "Down"),
        (b"\x1bOC", "Right"),
        (b"\x1bOD", "Left"),
        (b"\x1b[1;5A", "Up"),
        (b"\x1b[H", "Home"),
        (b"\x1b[1~", "Home"),
        (b"\x1bOH", "Home"),
        (b"\x1b[F", "End"),
        (b"\x1b[4~", "End"),
        (b"\x1bOF", "End"),
        (b"\x1b[3~", "Delete"),
        (b"\x1b[5~", "PageUp"),
        (b"\x1b[6~", "PageDown"),
        (b"\x1b[6;2~", "PageDown"),
        (b"\x1b[Z", "BackTab"),
        (b"\x1b[B\x1b[B\r", "Down Down Enter"),
        (b"12\x1b[A3", "1 2 Up 3"),
    ];
    for (bytes, expected) in keys {
        sends(bytes, expected);
    }
}

/// Nothing of a sequence counts as a key by itself, and no byte that is no letter becomes one.
#[test]
fn what_is_no_key_comes_to_nothing() {
    let junk: [&[u8]; 40] = [
        b"",
        b"\0\0\0",
        b"\x1b[<0;0;0M",
        b"\x1b[<65535;99999999999999999999;1m",
        b"\x1b[M123",
        b"\x1b[M\xff\xff\xff",
        b"\x1b[32;10;10M",
        b"\x1b[99999999999999999999999999999999~",
        b"\x1b[1;2;3;4;5;6;7;8;9;1;2;3;4;5;6;7;8;9;1;2;3;4;5;6;7;8;9;1;2;3;4;5;6;7;8;9;1;2A",
        b"\x1b[1:2:3A",
        b"\x1b[1;5:3A",
        b"\x1b[[A",
        b"\x1b[[1",
        b"\x1b[15~",
        b"\x1b[2~",
        b"\x1b[I",
        b"\x1b[O",
        b"\x1b[?1;2c",
        b"\x1b[24;80R",
        b"\x1b[99;5u",
        b"\x1b[201~",
        b"\x1b[3$y",
        b"\x1b[1\x001\r~",
        b"\x1ba",
        b"\x1b1",
        b"\x1b\xc3\xa9",
        b"\x1b\r",
        b"\x1b\x7f",
        b"\x1b(1",
        b"\x1bOP",
        b"\x1bOp",
        b"\x1bO1P",
        b"\x1b]11;rgb:1111/1111/1111\x07",
        b"\x1b]11;rgb:1111/1111/1111\x1b\\",
        b"\x1bP1$r1m\x1b\\",
        b"\x1b_1\x1b\\\x1b^1\x1b\\\x1bX1\x1b\\",
        b"\x9b1",
        b"\xc2\x9b1~\x8f1A\x9d1\x07\x8f1\x9b1A\x9d1",
        b"\xff\xfe\xc0\x80\xf8\x88\xed\xa0\x80",
        b"\x1c\x1d\x1e\x1f\x80\x85\xc2\x85",
    ];
    for bytes in junk {
        let said = said(&[Sends(bytes), Waits(LONG)]);
        let moves = said.split_whitespace().all(|key| ["Home", "Up"].contains(&key));
        assert!(moves, "{:?}: {said}", String::from_utf8_lossy(bytes));
        // And the next key counts.
        sends(&[bytes, b"\x03"].concat(), format!("{said} ^c").trim());
        holds(&[Sends(bytes), Waits(LONG), Sends(b"2"), Waits(LONG)], format!("{said} 2").trim());
    }
    assert_eq!(said(&[Sends(b"\x1b[<0;0;0M1\x1b[M1232"), Waits(LONG)]), "1 2");
}

#[test]
fn a_silence_decides_what_is_half() {
    let (escape, half) = (Waits(ESCAPE), Waits(HALF));
    let soon = || Waits(ESCAPE / 2);
    holds(&[Sends(b"\x1b"), escape], "Escape");
    holds(&[Sends(b"\x1b"), soon()], "");
    holds(&[Sends(b"\x1b"), soon(), Sends(b"[A")], "Up");
    holds(&[Sends(b"\x1b["), half, Sends(b"1"), Waits(LONG)], "1");
    for begun in [
        &b"\x1b["[..],
        b"\x1b[1;",
        b"\x1bO",
        b"\x1b]0;",
        b"\x1bP",
        b"\x1b[M",
        b"\x1b[M1",
        b"\x1b(",
        b"\xc3",
        b"\xf0\x9f",
    ] {
        holds(&[Sends(begun), Waits(HALF), Sends(b"1"), Waits(HAND)], "1");
        holds(&[Sends(begun), Waits(HAND), Sends(b"\x03")], "^c");
        holds(&[Sends(begun), Waits(HAND), Sends(b"\x1b[B")], "Down");
    }
    holds(&[Sends(b"\xc3"), Waits(HAND), Sends(b"\xa9"), Waits(HAND)], "é");
    // A letter that was cut short is none, and takes nothing with it.
    holds(&[Sends(b"\xc3"), Waits(HAND), Sends(b"1"), Waits(HAND)], "1");
    holds(&[Sends(b"\x1b\x1b"), Waits(LONG)], "Escape");
    // The rest of a sequence that comes late is no letter, and so answers nothing; typed, each sign counts as itself.
    holds(&[Sends(b"\x1b"), Waits(HALF), Sends(b"[A"), Waits(LONG)], "Escape Up");
    holds(&[Sends(b"\x1b"), Waits(HALF), Sends(b"OA"), Waits(LONG)], "Escape Up");
    holds(&[Sends(b"\x1b"), Waits(HALF), Sends(b"["), Waits(LONG), Sends(b"1"), Waits(LONG)], "Escape [ 1");
    holds(&[Sends(b"\x1b"), Waits(LONG), Sends(b"O"), Waits(HAND), Sends(b"K"), Waits(HAND)], "Escape O K");
    holds(&[Sends(b"\x1b"), Waits(HALF), Sends(b"1"), Waits(HAND)], "Escape 1");
}

#[test]
fn a_paste_is_a_text_whatever_it_holds() {
    sends(b"\x1b[200~12\r3\x1b[A\x03\x1b[201~4", "\"12\\r3\\u{1b}[A\\u{3}\" 4");
    sends(b"\x1b[200~\x1b[201~", "");
    holds(
        &[Sends(b"\x1b[200~ab"), Waits(HALF), Sends(b"c\x1b[20"), Waits(HALF), Sends(b"1~d"), Waits(HAND)],
        "\"abc\" d",
    );
    // Without an end it is handed over; then keys count again.
    holds(&[Sends(b"\x1b[200~ab"), Waits(HALF)], "");
    holds(&[Sends(b"\x1b[200~ab"), Waits(PASTE), Sends(b"\x03")], "\"ab\" ^c");
    holds(&[Sends(b"\x1b[200~ab\x1b[2"), Waits(PASTE), Sends(b"x"), Waits(HAND)], "\"ab\" x");
    holds(&[Sends(b"\x1b[200~"), Waits(PASTE), Sends(b"x"), Waits(HAND)], "x");
}

/// One that never ends comes in pieces, of which none cuts a letter or the end in two.
#[test]
fn an_endless_paste_comes_in_pieces() {
    let text = "aé🐔\x1b[".repeat(PIECE);
    let mut parser = Parser::default();
    parser.bytes(b"\x1b[200~");
    let mut pieces = Vec::new();
    for bytes in text.as_bytes().chunks(1_000) {
        parser.bytes(bytes);
        pieces.extend(parser.take());
    }
    parser.bytes(b"\x1b[201~x");
    parser.silence(HAND);
    pieces.extend(parser.take());
    assert_eq!(pieces.pop(), Some(Typed::Key(Key::Char('x'))));
    assert!(pieces.len() > 5, "{}", pieces.len());
    let whole: String = pieces
        .iter()
        .map(|piece| match piece {
            Typed::Paste(text) => text.as_str(),
            Typed::Key(_) | Typed::Redraw => "a key",
        })
        .collect();
    assert!(whole == text, "what was pasted is not what came");
}

/// Where pastes are not marked, letters and an end of a line that come at once are one all the same; what a hand types is not.
#[test]
fn a_text_that_comes_at_once_is_no_row_of_keys() {
    sends(b"abc\r", "\"abc\\r\"");
    sends(b"1\r2\r", "\"1\\r2\\r\"");
    sends(b"ab\r\nc\r\n", "\"ab\\r\\nc\\r\\n\"");
    sends(b"a name\nand more\n", "\"a name\\nand more\\n\"");
    holds(&[Sends(b"abcd"), Sends(b"\r"), Waits(HAND)], "\"abcd\\r\"");
    holds(&[Sends(b"abcd"), Waits(HAND / 5), Sends(b"\r"), Waits(HAND)], "\"abcd\\r\"");
    holds(&[Sends(b"abc\r\x03"), Waits(HAND)], "\"abc\\r\" ^c");
    // Few bytes, no end of a line, nothing but ends, or a hand's pauses.
    sends(b"12\r", "1 2 Enter");
    sends(b"abcd", "a b c d");
    sends(b"\r\r\r\r", "Enter Enter Enter Enter");
    let hand: Vec<Does> = b"abc\r".chunks(1).flat_map(|byte| [Sends(byte), Waits(HAND)]).collect();
    holds(&hand, "a b c Enter");
}

/// Bytes of every kind, those that begin something oftener than the others.
fn bytes() -> impl Strategy<Value = Vec<u8>> {
    let begins = prop::sample::select(vec![
        &b"\x1b"[..],
        b"\x1b[",
        b"\x1bO",
        b"\x1b]",
        b"\x1b[M",
        b"\x1b[<",
        b"\x1b[200~",
        b"\x1b[201~",
        b"\x9b",
        b"\r",
        b"\x03",
        b"\xc3",
        "é".as_bytes(),
        b";",
        b"1",
        b"~",
        b"A",
        b"M",
        b"\x07",
    ]);
    let piece = prop_oneof![begins.prop_map(<[u8]>::to_vec), prop::collection::vec(any::<u8>(), 1..6)];
    prop::collection::vec(piece, 0..40).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(2_000) })]

    /// However a terminal cuts what it sends, it comes to the same where no pause lies between; and nothing breaks down.
    #[test]
    fn where_bytes_are_cut_changes_nothing(bytes in bytes(), cuts in prop::collection::vec(1..9_usize, 1..40)) {
        let whole = said(&[Sends(&bytes), Waits(LONG)]);
        let (mut rest, mut pieces) = (bytes.as_slice(), Vec::new());
        for cut in cuts.iter().cycle() {
            if rest.is_empty() {
                break;
            }
            let (piece, after) = rest.split_at((*cut).min(rest.len()));
            pieces.push(Sends(piece));
            rest = after;
        }
        pieces.push(Waits(LONG));
        prop_assert_eq!(said(&pieces), whole);
    }

    /// Whatever came, and however it paused: a moment later control with c counts, and so does a key.
    #[test]
    fn whatever_came_the_next_key_counts(pieces in prop::collection::vec((bytes(), 0..400_u64), 0..8)) {
        let mut parser = Parser::default();
        for (bytes, pause) in &pieces {
            parser.bytes(bytes);
            parser.silence(Duration::from_millis(*pause));
            if parser.patience().is_none() {
                parser.take();
                parser.bytes(b"7");
                parser.silence(HAND);
                prop_assert_eq!(parser.take(), [Typed::Key(Key::Char('7'))]);
            }
        }
        while let Some(patience) = parser.patience() {
            parser.silence(patience);
        }
        parser.take();
        parser.bytes(b"\x03");
        prop_assert_eq!(parser.take(), [Typed::Key(Key::Control('c'))]);
    }

    /// A figure or a letter comes only of that very byte: where none stands among the bytes but inside sequences, none is heard.
    #[test]
    fn no_byte_becomes_a_letter_it_is_not(bytes in prop::collection::vec(prop_oneof![0_u8..0x20, 0x7f_u8..=0xff], 0..60)) {
        let mut parser = Parser::default();
        parser.bytes(&bytes);
        parser.silence(LONG);
        let letter = |typed: &Typed| matches!(typed, Typed::Key(Key::Char(letter)) if letter.is_ascii());
        prop_assert!(!parser.take().iter().any(letter));
    }
}
