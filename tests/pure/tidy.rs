//! The arrows of the house, kept by reading the source: who may import whom, and what stays out of the pure rooms.

#![expect(clippy::panic, reason = "a failing test panics")]

use super::counted::circles;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Each room and the rooms it may know of. Nothing is implied: what is not named is not allowed.
const ARROWS: &[(&str, &[&str])] = &[
    ("unit", &[]),
    ("zone", &["unit"]),
    ("typed", &["unit"]),
    ("bird", &["unit"]),
    ("finding", &["typed", "unit"]),
    ("measure", &["bird", "finding", "unit"]),
    ("protocol", &["bird", "finding", "typed", "unit"]),
    ("sheet", &["bird", "finding", "measure", "protocol", "unit"]),
    ("judge", &["bird", "finding", "measure", "phrase", "protocol", "sheet", "unit"]),
    ("prove", &["bird", "finding", "judge", "measure", "protocol", "sheet", "typed", "unit"]),
    ("exam", &["bird", "finding", "protocol", "sheet"]),
    ("care", &["finding", "judge", "measure", "phrase", "protocol", "prove", "typed", "unit", "zone"]),
    ("notes", &["bird", "finding", "protocol", "typed", "unit"]),
    ("practice", &["finding", "judge", "notes", "protocol", "prove", "sheet", "shipped"]),
    ("ledger", &["finding"]),
    ("days", &["care", "exam", "finding", "judge", "ledger", "measure", "phrase", "protocol", "prove", "unit", "zone"]),
    ("reckon", &["bird", "finding", "measure", "phrase", "protocol", "typed", "unit", "zone"]),
    ("phrase", &["unit"]),
    ("words", &["content", "phrase", "practice", "protocol", "shipped", "typed", "zone"]),
    (
        "content",
        &[
            "bird", "care", "days", "finding", "judge", "ledger", "measure", "phrase", "practice", "protocol", "prove",
            "reckon", "sheet", "shipped", "typed", "unit", "words", "zone",
        ],
    ),
    (
        "render",
        &[
            "bird", "care", "content", "finding", "judge", "measure", "phrase", "practice", "protocol", "prove",
            "reckon", "sheet", "shipped", "typed", "unit", "words",
        ],
    ),
    (
        "session",
        &[
            "care", "content", "days", "exam", "finding", "ledger", "phrase", "practice", "protocol", "prove",
            "reckon", "typed", "unit", "words", "zone",
        ],
    ),
    (
        "view",
        &[
            "care", "content", "days", "exam", "finding", "judge", "ledger", "phrase", "practice", "protocol", "prove",
            "reckon", "session", "typed", "unit", "words", "zone",
        ],
    ),
    (
        "update",
        &[
            "care", "content", "days", "exam", "finding", "judge", "ledger", "phrase", "practice", "protocol", "prove",
            "session", "typed", "unit", "view",
        ],
    ),
    ("screen", &["content", "exam", "finding", "judge", "phrase", "protocol", "session", "view"]),
    ("spoken", &["content", "phrase", "render", "session", "view", "words"]),
    (
        "shell",
        &[
            "care", "content", "days", "finding", "ledger", "notes", "phrase", "practice", "protocol", "prove",
            "reckon", "render", "screen", "session", "shipped", "spoken", "update", "view", "words", "zone",
        ],
    ),
    ("shipped", &["protocol"]),
    // Runs when the program is built; it takes in the rooms it needs as its own.
    ("build", &[]),
];

/// Rooms that touch the world; all others are pure.
const WORLD: &[&str] = &["build", "ledger", "shell"];

struct Source {
    path: PathBuf,
    room: String,
    text: String,
}

fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    collect(&root, &mut found);
    found
        .into_iter()
        .map(|path| {
            let inside = path.strip_prefix(&root).unwrap_or(&path);
            let first = inside.components().next().map_or_else(String::new, |c| c.as_os_str().to_string_lossy().into());
            let name = first.trim_end_matches(".rs").to_owned();
            let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
            Source { path, room: name, text }
        })
        .collect()
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    for entry in entries.flatten() {
        let path = entry.path();
        if path.is_dir() {
            collect(&path, found);
        } else {
            found.push(path);
        }
    }
}

/// The code of a file: without its comments and its docs.
fn code(source: &Source) -> String {
    source.text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

/// The rooms a piece of code names: in `use crate::a::b`, `use crate::{a, b::c}` and in paths.
fn rooms_named(code: &str) -> BTreeSet<String> {
    let mut rooms = BTreeSet::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        let list = rest.strip_prefix('{').map(|inner| inner.split('}').next().unwrap_or_default());
        for part in list.unwrap_or(rest).split(',').take(if list.is_some() { usize::MAX } else { 1 }) {
            let name: String = part.trim().chars().take_while(|c| c.is_ascii_lowercase() || *c == '_').collect();
            if !name.is_empty() {
                rooms.insert(name);
            }
        }
    }
    rooms
}

#[test]
fn rooms_are_read_from_every_form_of_use() {
    let code = "use crate::{care, judge::Verdict};\nfn f(x: crate::bird::Kind) {}\nuse crate::exam::{self, Place};";
    let named: Vec<String> = rooms_named(code).into_iter().collect();
    assert_eq!(named, ["bird", "care", "exam", "judge"]);
}

#[test]
fn nobody_imports_against_the_arrows() {
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|source| !matches!(source.room.as_str(), "lib" | "main")) {
        let allowed = ARROWS.iter().find(|(room, _)| *room == source.room).map(|(_, allowed)| *allowed);
        let Some(allowed) = allowed else { panic!("{} is a room the arrows do not know", source.path.display()) };
        for named in rooms_named(&code(source)) {
            if named != source.room && !allowed.contains(&named.as_str()) {
                wrong.push(format!("{}: {} may not know of {named}", source.path.display(), source.room));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What an arrow alone does not say: items of a room that only the rooms named may use, itself apart. The judge's own verdict
/// and bands are wider than need be; whoever told of a bird from them would contradict whoever told of her from the exact ones.
const INNER: &[(&str, &[&str], &[&str])] =
    &[("judge", &["judge", "of_sheet", "open", "levels", "Verdict", "Open", "Levels"], &["prove"])];

/// What a piece of code takes from a room, by its name there: in `use crate::a::b`, in `use crate::a::{b, c}` and in paths, and
/// in paths from the room's own name.
fn items_named(code: &str, room: &str) -> BTreeSet<String> {
    let mut items = BTreeSet::new();
    let mut take = |text: &str| {
        let name: String = text.trim().chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        items.insert(name);
    };
    let path = format!("{room}::");
    for (at, _) in code.match_indices(&path) {
        let starts = !code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_');
        // A path that only ends in the room's name, such as `prove::judge::..`, is another's.
        let of_another = code[..at].ends_with("::") && !code[..at].ends_with("crate::");
        if !starts || of_another {
            continue;
        }
        let rest = &code[at + path.len()..];
        match rest.strip_prefix('{') {
            Some(list) => list.split('}').next().unwrap_or_default().split(',').for_each(&mut take),
            None => take(rest),
        }
    }
    items
}

#[test]
fn items_are_read_from_every_form_of_use() {
    let code = "use crate::judge::{self, Reason,\n    judge};\nuse crate::judge::Level;\nfn f() { judge::of_sheet(); prove::judge(); }";
    let named: Vec<String> = items_named(code, "judge").into_iter().collect();
    assert_eq!(named, ["Level", "Reason", "judge", "of_sheet", "self"]);
}

#[test]
fn there_is_one_judge_above_the_proofs() {
    let mut wrong = Vec::new();
    for source in sources() {
        for (room, items, known) in INNER {
            if source.room == *room || known.contains(&source.room.as_str()) {
                continue;
            }
            for item in items_named(&code(&source), room).iter().filter(|item| items.contains(&item.as_str())) {
                wrong.push(format!("{}: {room}::{item} is for {known:?} alone", source.path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn no_arrow_is_drawn_that_nobody_uses() {
    let sources = sources();
    for (room, allowed) in ARROWS {
        let named: BTreeSet<String> = sources
            .iter()
            .filter(|source| source.room == *room)
            .flat_map(|source| rooms_named(&code(source)))
            .collect();
        for arrow in *allowed {
            assert!(named.contains(*arrow), "{room} no longer knows of {arrow}: take the arrow away");
        }
    }
}

#[test]
fn pure_rooms_know_no_clock_no_disk_no_terminal() {
    let forbidden = [
        "std::fs",
        "std::io",
        "std::env",
        "std::net",
        "std::process",
        "std::thread",
        "::now(",
        "Instant",
        "println!",
        "crossterm",
    ];
    let mut wrong = Vec::new();
    for source in sources().iter().filter(|source| !WORLD.contains(&source.room.as_str()) && source.room != "main") {
        let code = code(source);
        for word in forbidden.iter().filter(|word| code.contains(**word)) {
            wrong.push(format!("{}: {word}", source.path.display()));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What leaves the program as JSON is written by `render`. Others read and keep data in that notation, and make none of their own.
#[test]
fn json_is_written_by_render_alone() {
    for source in sources().iter().filter(|source| source.room != "render") {
        let code = code(source);
        let found = ["json!", "serde_json::Value", "serde_json::{Value", "serde_json::Map"];
        let found = found.iter().find(|word| code.contains(**word));
        let writes = source.path.ends_with("shell/command.rs") && found == Some(&"serde_json::Value");
        assert!(writes || found.is_none(), "{}: {found:?}", source.path.display());
    }
    for source in sources().iter().filter(|source| ["content", "reckon", "screen"].contains(&source.room.as_str())) {
        let keeps = source.path.ends_with("review/kept.rs");
        assert!(keeps || !code(source).contains("serde_json"), "{}", source.path.display());
    }
}

#[test]
fn terminal_code_stays_in_screen_and_shell() {
    for source in sources() {
        let code = code(&source);
        if code.contains("ratatui") {
            assert!(matches!(source.room.as_str(), "screen" | "shell"), "{}: ratatui", source.path.display());
        }
        if code.contains("crossterm") {
            assert_eq!(source.room, "shell", "{}: crossterm", source.path.display());
        }
    }
}

#[test]
fn nothing_panics_in_the_rooms() {
    let forbidden = [".unwrap()", ".expect(", "panic!(", "unreachable!(", "todo!(", "unimplemented!(", "assert!("];
    let mut wrong = Vec::new();
    for source in sources() {
        let code = code(&source);
        for word in forbidden.iter().filter(|word| code.contains(**word)) {
            wrong.push(format!("{}: {word}", source.path.display()));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn every_file_says_what_it_is_for_and_none_is_a_warehouse() {
    for source in sources() {
        let first = source.text.lines().next().unwrap_or_default();
        assert!(first.starts_with("//! ") && first.len() > 20, "{} does not say what it is for", source.path.display());
        let lines = source.text.lines().count();
        assert!(lines <= 500, "{} has {lines} lines: it is two things", source.path.display());
    }
}

/// The library is built without a test harness: a test that stood in it would never run.
#[test]
fn no_test_stands_where_none_is_run() {
    for source in sources() {
        let code = code(&source);
        let found = ["cfg(test)", "#[test]"].iter().find(|mark| code.contains(**mark));
        assert_eq!(found, None, "{}: its tests belong in tests/", source.path.display());
    }
}

#[test]
fn only_the_theme_names_colours() {
    for source in sources().iter().filter(|source| !source.path.ends_with("theme.rs")) {
        assert!(!code(source).contains("Color::"), "{} names a colour", source.path.display());
    }
}

/// The shapes of the files are for the check alone: no checked type holds one, and no other room can name them.
#[test]
fn no_raw_type_stands_in_a_checked_one() {
    let may = |path: &str| {
        let inner = ["raw", "check", "item", "read", "removal", "hazard"];
        path.strip_prefix("protocol/").is_some_and(|rest| inner.iter().any(|name| rest.starts_with(name)))
    };
    // As a step of a path, whatever it begins with: `raw::Rule`, `super::raw::{..}`, `protocol::{raw, ..}`.
    let step = |code: &str| {
        let is_part = |letter: char| letter.is_alphanumeric() || letter == '_';
        code.match_indices("raw::").any(|(at, _)| !code.get(..at).is_some_and(|before| before.ends_with(is_part)))
    };
    let named = |source: &Source| items_named(&code(source), "protocol").contains("raw") || step(&code(source));
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let place = |source: &Source| source.path.strip_prefix(&root).unwrap_or(&source.path).display().to_string();
    let strangers: Vec<String> = sources()
        .iter()
        .filter(|source| named(source))
        .map(place)
        .filter(|path| !may(path) && path != "protocol.rs")
        .collect();
    assert!(strangers.is_empty(), "{strangers:?}");
    let protocol = sources().into_iter().find(|source| place(source) == "protocol.rs");
    let protocol = protocol.unwrap_or_else(|| panic!("no protocol.rs"));
    assert!(
        code(&protocol).contains("\nmod raw;") && !code(&protocol).contains("pub mod raw"),
        "the files' shapes are shown to other rooms"
    );
}

/// What DEVELOPERS.md says is kept names a test that stands there, or says that the compiler keeps it.
#[test]
fn every_invariant_names_its_test() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let read = |path: &Path| fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let text = read(&root.join("DEVELOPERS.md"));
    let told: Vec<&str> =
        text.split("- **Invariant:**").skip(1).map(|item| item.split("\n\n").next().unwrap_or(item)).collect();
    assert!(told.len() > 10, "{}", told.len());
    for item in told {
        let names: Vec<Vec<&str>> = item
            .split('`')
            .skip(1)
            .step_by(2)
            .map(|name| name.split("::").collect())
            .filter(|parts: &Vec<&str>| {
                parts.len() > 2
                    && parts.first().is_some_and(|binary| ["pure", "screen", "files", "proofs"].contains(binary))
            })
            .collect();
        assert!(!names.is_empty() || item.contains("compiler keeps it"), "{item}");
        for parts in names {
            let Some((name, path)) = parts.split_last() else { continue };
            let path = path.join("/");
            let file = read(&root.join("tests").join(format!("{path}.rs")));
            assert!(file.contains(&format!("fn {name}(")), "{item}: no test {name} in {path}");
        }
    }
}

/// The rooms in which no file may lead back to itself.
const STRAIGHT: [&str; 5] = ["session", "view", "update", "screen", "spoken"];

/// A file's place among the modules: `update/back.rs` is `update::back`.
fn module(source: &Source) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let inside = source.path.strip_prefix(root).unwrap_or(&source.path).with_extension("");
    inside.components().map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("::")
}

/// The paths a `use` names, each whole: `a::{b, c::{d, e}}` is three.
fn spread(tree: &str) -> Vec<String> {
    let tree = tree.trim();
    let Some((stem, rest)) = tree.split_once('{') else {
        return vec![tree.split(" as ").next().unwrap_or_default().trim_end_matches("::self").to_owned()];
    };
    let (mut depth, mut parts) = (0, vec![String::new()]);
    for letter in rest.rsplit_once('}').map_or(rest, |(inside, _)| inside).chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                parts.push(String::new());
                continue;
            }
            _ => {}
        }
        parts.last_mut().unwrap_or_else(|| panic!("{tree}")).push(letter);
    }
    let parts = parts.iter().filter(|part| !part.trim().is_empty());
    parts.flat_map(|part| spread(&format!("{stem}{}", part.trim()))).collect()
}

#[test]
fn a_use_is_spread_into_whole_paths() {
    assert_eq!(spread("a::{self, b, c::{d, e as f}}"), ["a", "a::b", "a::c::d", "a::c::e"]);
}

/// The modules a file's `use` lines lead to.
fn leads_to(at: &str, code: &str, known: &BTreeSet<String>) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let uses = code.split(';').filter_map(|part| part.split_once("use ").map(|(_, tree)| tree.replace('\n', " ")));
    for path in uses.flat_map(|tree| spread(&tree)) {
        let beside = || {
            let parts = at.split("::").collect::<Vec<_>>();
            let ups = path.matches("super::").count();
            let stem = parts.iter().take(parts.len().saturating_sub(ups)).copied().collect::<Vec<_>>().join("::");
            format!("{stem}::{}", path.replace("super::", ""))
        };
        let mut whole = path.strip_prefix("crate::").map_or_else(beside, str::to_owned);
        while !known.contains(&whole) {
            let Some(end) = whole.rfind("::") else { break };
            whole.truncate(end);
        }
        if known.contains(&whole) && whole != at {
            found.insert(whole);
        }
    }
    found
}

#[test]
fn no_file_of_the_upper_rooms_leads_back_to_itself() {
    let upper: Vec<Source> = sources().into_iter().filter(|source| STRAIGHT.contains(&source.room.as_str())).collect();
    let known: BTreeSet<String> = upper.iter().map(module).collect();
    assert!(known.len() > 50, "{known:?}");
    let leads: BTreeMap<String, BTreeSet<String>> =
        upper.iter().map(|source| (module(source), leads_to(&module(source), &code(source), &known))).collect();
    let circles = circles(&leads);
    assert!(circles.is_empty(), "{circles:?} lead back to themselves");
}
