//! No sentence escapes the catalogue: in a language whose every letter bears an accent, whatever is read without one was said by the
//! code itself.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, now, pseudo};
use crate::mistyped;
use crate::renamed::{self, Telling, World};
use coopside::bird::{BUILDS, Build, Kind};
use coopside::care::cupboard::{Cupboard, Kept};
use coopside::care::plan;
use coopside::content::sheet::{SheetCase, card, sheet};
use coopside::content::{kept, lessons, mistyped as told_of, seen, terms};
use coopside::days::Days;
use coopside::days::cover::cover;
use coopside::days::due::Due;
use coopside::finding::doubt::Doubted;
use coopside::finding::figure::{Figure, FigureOf, Fullness, Pad, Spilt};
use coopside::finding::log::{Entry, Spot, Stamped};
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::ledger::{CarryError, CarryFault, Cause, EVENTS_SCHEMA, LedgerError};
use coopside::measure::fluid::Unsafe;
use coopside::phrase::Text;
use coopside::practice::{self, DrawError};
use coopside::protocol::Protocol;
use coopside::protocol::whom::Whom;
use coopside::prove::{self, Scale};
use coopside::reckon::{SUMS, Sum};
use coopside::render::sheet::{cards_html, html, pdf};
use coopside::session::Overlay;
use coopside::session::Session;
use coopside::session::draft::{Draft, Number, Pick, Spill};
use coopside::session::line::{TypedLine, TypingOf};
use coopside::session::practice::Practice;
use coopside::shipped;
use coopside::unit::Grams;
use coopside::update::{self, Input};
use coopside::view::keys::Key;
use coopside::words::translation;
use coopside::zone::Zone;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, LazyLock};

/// The shipped world in that language.
static PSEUDO: LazyLock<World> = LazyLock::new(|| {
    let mut world = World::of(&shipped::files(), &shipped::hazards_file(), shipped::scenarios());
    let words = translation::load("de", &pseudo::files(&PROTOCOL), &mut world.protocol);
    accent_what_is_never_translated(&mut world.protocol);
    world.words = Box::leak(Box::new(words.unwrap_or_else(|faults| panic!("{faults:#?}"))));
    world
});

/// Works, laws and addresses are cited as they are, whatever the language; here they bear accents as well, so that nothing else hides
/// behind them.
fn accent_what_is_never_translated(protocol: &mut Protocol) {
    for source in protocol.sources.iter_mut() {
        (source.cite, source.at) = (pseudo::said(&source.cite), pseudo::said(&source.at));
    }
    for law in protocol.countries.iter_mut().flat_map(|country| &mut country.laws) {
        (law.law, law.dated) = (pseudo::said(&law.law), pseudo::said(&law.dated));
    }
}

/// Words that are the same in every language: units, names of works and laws, forms of files, what is typed at a prompt.
const SAME: &[&str] = &["coopside", "mL", "Coopside"];

/// What the birds of the stories are called, and the names they are known by in forms and at a prompt.
static NAMES: LazyLock<BTreeSet<String>> = LazyLock::new(|| {
    let named = shipped::scenarios().iter().filter_map(|file| file.text.split_once("name: \""));
    let files = shipped::scenarios().iter().flat_map(|file| file.name.split('_')).map(str::to_owned);
    named.filter_map(|(_, rest)| Some(rest.split_once('"')?.0.to_owned())).chain(files).collect()
});

/// A word of plain letters of so many or more is a word of English.
const LONG: usize = 4;

/// What is told without the program's own caution, which no translation replaces.
fn without_caution(told: &str) -> String {
    let caution = "Coopside is no vet, and no vet has reviewed it. Local law and a licensed vet come first.";
    let whole: String = told.split_whitespace().collect::<Vec<_>>().join(" ");
    whole.replace(caution, "").replace("(Nobody has reviewed this translation.)", "")
}

/// The words of English in what is told.
fn escaped(told: &str) -> Vec<String> {
    let whole = without_caution(told);
    let words = whole.split(|letter: char| !letter.is_alphabetic());
    let english = words.filter(|word| {
        word.len() >= LONG
            && word.is_ascii()
            && !SAME.contains(word)
            && !NAMES.contains(*word)
            && !typed(word)
            && !PSEUDO.protocol.fingerprint.contains(word)
    });
    english.map(str::to_owned).collect()
}

/// What is told without some names, which are typed the same in every language; one with a blank or a line in it stands for its words.
fn without<'n>(told: &str, names: impl IntoIterator<Item = &'n str>) -> String {
    let parts = |text: &'n str| text.split(|letter: char| !letter.is_alphanumeric() && letter != '_');
    let names: BTreeSet<&str> = names.into_iter().flat_map(parts).collect();
    let told = without_caution(told);
    let tokens = told.split(|letter: char| !letter.is_alphanumeric() && letter != '_');
    tokens.filter(|token| !names.contains(token)).collect::<Vec<_>>().join(" ")
}

/// How blood, breaths, a wound and a vein are typed.
fn of_figures() -> [&'static str; 6] {
    let [blood, breaths, wound, vein] =
        [FigureOf::Blood, FigureOf::Breaths, FigureOf::Wound, FigureOf::Refill].map(FigureOf::example);
    [blood, breaths, wound, vein, "wet 25 g dry 5 g", "us imperial"]
}

/// What the sums take, as it is typed.
fn of_sums() -> Vec<&'static str> {
    let given = |sum: &'static Sum| sum.example.iter().map(|(_, value)| *value);
    let taken = |sum: &'static Sum| sum.takes.iter().map(|takes| takes.name);
    let states = Unsafe::ALL.map(|(name, _)| name).into_iter().chain(["awake", "trained", "plain", "yes", "no"]);
    let sums = SUMS.iter().flat_map(|sum| [sum.name()].into_iter().chain(given(sum)).chain(taken(sum)));
    let birds = Kind::ALL.map(Kind::id).into_iter().chain(BUILDS.iter().map(Build::id));
    sums.chain(states).chain(birds).chain(of_figures()).collect()
}

/// Whether somebody typed a word: the walks press these letters, also where something is written.
fn typed(word: &str) -> bool {
    word.chars().all(|letter| "vdwstbepian".contains(letter))
}

/// Counts the words of English by where they were told.
fn count(telling: Telling, found: &mut BTreeMap<String, BTreeMap<String, usize>>) {
    for (what, told) in telling {
        for word in escaped(&told) {
            *found.entry(what.clone()).or_default().entry(word).or_default() += 1;
        }
    }
}

#[test]
fn no_sentence_of_a_document_escapes() {
    let mut found = BTreeMap::new();
    let mut read = 0;
    for script in PSEUDO.scripts.iter().step_by(7) {
        let telling = renamed::of_bird(&PSEUDO, &script.findings).into_iter();
        let prose = telling.filter(|(what, _)| matches!(what.as_str(), "verdict" | "plan" | "phone" | "sheet"));
        let telling: Telling = prose.chain(renamed::of_go(&PSEUDO, script).into_iter().take(1)).collect();
        read += telling.iter().map(|(_, told)| told.len()).sum::<usize>();
        count(telling, &mut found);
    }
    let else_told = renamed::all_else(&PSEUDO).into_iter();
    count(
        else_told.filter(|(what, _)| !what.contains("JSON") && what != "kit" && what != "labels").collect(),
        &mut found,
    );
    assert!(read > 100_000, "{read}");
    assert!(found.is_empty(), "{found:?}");
}

/// A page tells the language it is in: a voice reads it by that.
#[test]
fn a_page_says_which_language_it_is_in() {
    let reader = PSEUDO.reader();
    let findings = Findings::default();
    let verdict = prove::judge(&PSEUDO.protocol, &findings, now());
    let plan = plan(&PSEUDO.protocol, &verdict, &Cupboard::default(), Zone::UTC);
    let (days, due) = (Days::default(), Due::default());
    let told = SheetCase {
        log: &[],
        findings: &findings,
        verdict: &verdict,
        plan: &plan,
        due: &due,
        days: &days,
        keeper: None,
        practice: false,
    };
    let language = PSEUDO.words.language();
    assert_ne!(language, "en");
    let sheet = reader.sheet(&sheet(&PSEUDO.protocol, told, reader, now()));
    let cards = reader.cards(&card::cards(&PSEUDO.protocol, &[told], reader));
    let pages = [html(&sheet), cards_html(&cards)].map(|page| page.unwrap_or_else(|error| panic!("{error}")));
    for page in pages {
        assert!(page.contains(&format!("<html lang=\"{language}\">")), "{}", page.get(..200).unwrap_or_default());
    }
    let pdf = pdf(&sheet).unwrap_or_else(|error| panic!("{error}"));
    let held = format!("({language})");
    assert!(pdf.windows(held.len()).any(|bytes| bytes == held.as_bytes()), "the PDF names its language");
}

#[test]
fn no_sentence_of_a_screen_escapes() {
    let mut found = BTreeMap::new();
    for seed in 0..4 {
        let walk = renamed::of_walk(&PSEUDO, seed).into_iter();
        let frames = walk.filter(|(what, _)| !what.ends_with("kept"));
        count(frames.map(|(_, frame)| ("screen".to_owned(), frame)).collect(), &mut found);
    }
    assert!(found.is_empty(), "{found:?}");
}

/// The header alone may shorten a name: everything else is broken between words, however long a language is.
#[test]
fn nothing_is_cut_where_every_text_is_longer() {
    let mut lines = 0;
    let walks = [(0, (100, 30)), (1, (100, 30)), (2, (60, 24)), (3, (60, 24)), (4, (40, 20)), (5, (40, 20))];
    for (seed, size) in walks {
        let frames = renamed::of_walk_at(&PSEUDO, seed, size).into_iter();
        for (what, frame) in frames.filter(|(what, _)| !what.ends_with("kept")) {
            for line in frame.lines().skip(1) {
                lines += 1;
                assert!(!line.contains('~'), "{what}: {line}\n{frame}");
            }
        }
    }
    assert!(lines > 5_000, "{lines}");
}

/// A cover of a case, as a list shows it.
fn of_cover(log: &[Stamped], about: &str) -> (String, String) {
    let say = |text: Text| PSEUDO.reader().say(&text);
    let told = cover(&PSEUDO.protocol, log, &Cupboard::default(), Zone::UTC, now(), &say);
    let clock = told.clock.map_or_else(String::new, |clock| clock.what);
    (format!("cover {about}"), format!("{} {} {clock}", told.kind, told.need))
}

/// What no walk comes by: all that can be wrong with what is typed, kept or carried in; covers; drawn birds; names of kinds.
fn seldom_told() -> Telling {
    let (protocol, reader) = (&PSEUDO.protocol, PSEUDO.reader());
    let say = |text: Text| reader.say(&text);
    let mut told = Telling::new();
    for error in mistyped::errors() {
        let echoed = if error.text.trim().is_empty() { "`" } else { error.text.as_str() };
        told.push((format!("{error:?}"), without(&say(told_of::told(&error)).replace(echoed, ""), of_figures())));
    }
    told.extend(mistyped::odd_weights().map(|odd| (format!("{odd:?}"), say(told_of::unlikely(odd).into()))));
    for list in ["q", "gauz", "gauze until q", "chlorhexidine 101 %", "gauze 5 %"] {
        let error = Cupboard::read(protocol, list).err();
        let error = error.unwrap_or_else(|| panic!("{list} is read"));
        let command = "coopside kit";
        told.push((format!("{error:?}"), without(&say(told_of::cupboard(&error)), ["gauz gauze", command])));
    }
    told.extend(Kind::ALL.map(|kind| (format!("{kind:?}"), say(terms::kind(kind).into()))));
    told.extend(BUILDS.iter().map(|build| (build.id().to_owned(), say(terms::build(build.of).into()))));
    told.extend(Whom::ALL.map(|whom| (format!("{whom:?}"), say(terms::whom(whom).into()))));
    for figure in [
        "1 thin10 spotted; 1 small5 half; 1 thick10 full; 1 any10 dripping; 1 cloth30 full; 1 cloth45 full",
        "pool 5 cm soil; pool 5 cm smooth; 2 pt; 12 drops; 1 drop; wet 9 g dry 5 g; 9 drops in 15 s for 8 min; 5 ml",
    ] {
        let figure = Figure::read(FigureOf::Blood, figure).unwrap_or_else(|error| panic!("{error:?}"));
        told.push((format!("{figure:?}"), say(seen::figure(&figure))));
    }
    let counts =
        Figure::read(FigureOf::Breaths, "15 in 30 s held; 9 in 30 s").unwrap_or_else(|error| panic!("{error:?}"));
    told.push((format!("{counts:?}"), say(seen::figure(&counts))));
    for seed in 0..20 {
        let script = renamed::drawn(&PSEUDO, seed);
        let lesson = script.lesson().unwrap_or_else(|| panic!("no lesson"));
        let all = [&lesson.opens, &lesson.trains, &lesson.truth, &script.scenario.story, &script.scenario.source];
        told.push((format!("drawn {seed}"), all.map(String::as_str).join(" ")));
    }
    let rungs = [Scale::Need, Scale::Humane, Scale::Authority].map(|scale| DrawError::Nobody {
        scale,
        wanted: 0,
        least: 1,
        most: 2,
    });
    told.extend(
        rungs
            .into_iter()
            .chain([DrawError::NotFound])
            .map(|error| (format!("{error:?}"), say(lessons::undrawn(&error).into()))),
    );
    told.extend(ledger_faults().into_iter().map(|error| (format!("{error:?}"), say(kept::fault(&error).into()))));
    let lines = line_faults().into_iter().map(|what| CarryError::Line { line: 1, what });
    let schema = format!("`{EVENTS_SCHEMA}`");
    told.extend(lines.map(|error| (format!("{error:?}"), say(kept::carried(&error)).replace(&schema, ""))));
    let flock = practice::flock(protocol, now()).unwrap_or_else(|faults| panic!("{faults}"));
    told.extend(flock.iter().flat_map(|log| (1..=log.len()).map(|to| of_cover(&log[..to], "of the flock"))));
    told
}

fn ledger_faults() -> Vec<LedgerError> {
    let doubted = [Doubted::NoMoment(now()), Doubted::WoundNumber(100), Doubted::Control, Doubted::Weight(1)];
    let causes =
        doubted.map(Cause::Doubted).into_iter().chain([Cause::OpenElsewhere, Cause::BackupDiffers, Cause::NotOpen]);
    causes.map(|cause| LedgerError::Unreadable { case: "1".to_owned(), seq: 1, cause }).collect()
}

fn line_faults() -> Vec<CarryFault> {
    vec![
        CarryFault::Empty,
        CarryFault::Schema("q".to_owned()),
        CarryFault::Newer(2),
        CarryFault::Gap("1".to_owned()),
        CarryFault::Wounds("1".to_owned(), 100),
        CarryFault::Name,
        CarryFault::Doubted(Doubted::Control),
        CarryFault::TooLong,
        CarryFault::NotText,
        CarryFault::Unread("q".to_owned(), 1),
    ]
}

#[test]
fn no_sentence_that_is_seldom_told_escapes() {
    let (mut found, telling) = (BTreeMap::new(), seldom_told());
    assert!(telling.len() > 150, "{}", telling.len());
    count(telling, &mut found);
    assert!(found.is_empty(), "{found:#?}");
}

/// Types a line where one is typed, takes it, and gives the frame.
fn typed_in(session: &mut Session, of: TypingOf, line: &str) -> String {
    session.line = Some(TypedLine::with(of, line.to_owned()));
    let typing = renamed::frame(session);
    update::update(session, Input::Key(Key::Enter));
    (typing + &renamed::frame(session)).replace(line, "")
}

fn fresh() -> Session<'static> {
    let mut session = Session::new(&PSEUDO.protocol, None, now(), Zone::UTC);
    session.words = PSEUDO.words;
    session
}

/// The frames of somebody who types what cannot be taken: wherever a number, a weight or a figure is asked.
fn of_typing() -> Telling {
    let (protocol, mut frames) = (&PSEUDO.protocol, Telling::new());
    let wrong = [
        "qq",
        "5",
        "5 qq",
        "1,500 g",
        "5 g 1 kg",
        "0 g",
        "1 g",
        "31 kg",
        "8 x 600 cm",
        "0 in 30 s",
        "9 in 2 s",
        "61 s",
        "7 q",
    ];
    let asked = protocol.questions.iter().filter(|question| question.is_weight() || question.figure().is_some());
    for question in asked {
        for kind in &protocol.kind_question().choices {
            let mut session = fresh();
            let about = if question.wound { About::Wound(0) } else { About::Bird };
            let kind = Statement {
                about: About::Bird,
                question: protocol.kind_question().id.clone(),
                answer: Answer::Choice(kind.id.clone()),
            };
            session.record(Entry::FoundWound);
            session.record(Entry::Said(vec![kind]));
            session.record(Entry::Went(Some(Spot { about, question: question.id.clone() })));
            frames.push((format!("{}, rows", question.id), renamed::frame(&mut session)));
            for line in wrong {
                frames.push((
                    format!("{}, {line}", question.id),
                    without(&typed_in(&mut session, TypingOf::Answer, line), of_figures()),
                ));
            }
        }
    }
    for (at, sum) in SUMS.iter().enumerate() {
        let mut session = fresh();
        session.overlays = vec![Overlay::Sums(Some(at))];
        session.values = vec![String::new(); sum.takes.len()];
        for field in 0..sum.takes.len() {
            for line in ["qq", "5 qq", "1,500 ml", "0 g", "1 pt"] {
                frames.push((
                    format!("sum {}, {line}", sum.name()),
                    without(&typed_in(&mut session, TypingOf::Value(field), line), of_sums()),
                ));
            }
            session.line = None;
        }
    }
    for (at, supply) in protocol.supplies_enumerated() {
        let mut session = fresh();
        session.overlays = vec![Overlay::House];
        session.cupboard.put(supply, Kept::default());
        for line in ["101 %", "2027-13", "5 qq"] {
            session.told_of = Some(at);
            frames.push((
                format!("{}, {line}", supply.id),
                without(&typed_in(&mut session, TypingOf::Supply(at), line), [supply.id.as_str()]),
            ));
        }
    }
    frames
}

/// The frames of blood added up, every step of it, and of a bird that was drawn.
fn of_entering() -> Telling {
    let mut frames = Telling::new();
    let blood = PSEUDO.protocol.questions.iter().find(|question| question.figure() == Some(FigureOf::Blood));
    let blood = blood.unwrap_or_else(|| panic!("no blood is asked"));
    let numbers =
        [Number::Drops, Number::Wet, Number::Dry(Grams(9)), Number::Rate, Number::Minutes(9)].map(Pick::Typed);
    let steps = [Pick::What, Pick::Sort, Pick::Full(Pad::Thin10), Pick::Ground, Pick::Measure];
    for pick in steps.into_iter().chain(numbers) {
        let mut session = fresh();
        session.record(Entry::Went(Some(Spot { about: About::Bird, question: blood.id.clone() })));
        session.draft = Some(Draft::Spill(Spill { seen: vec![Spilt::Pads(2, Pad::Any10, Fullness::Dripping)], pick }));
        frames.push((format!("{pick:?}"), renamed::frame(&mut session)));
        for line in ["0", "qq", "12 g"] {
            frames.push((format!("{pick:?}, {line}"), typed_in(&mut session, TypingOf::Blood, line)));
        }
    }
    for seed in 0..4 {
        let mut session = fresh();
        session.practice = Some(Practice::default());
        let script = renamed::drawn(&PSEUDO, seed);
        let name = script.bird().to_owned();
        update::begin(&mut session, Arc::new(script));
        frames.push((format!("drawn {seed}"), without(&renamed::frame(&mut session), [name.as_str()])));
    }
    frames
}

#[test]
fn no_sentence_about_what_is_typed_escapes() {
    let mut found = BTreeMap::new();
    let frames: Telling = of_typing().into_iter().chain(of_entering()).collect();
    assert!(frames.len() > 500, "{}", frames.len());
    count(frames, &mut found);
    assert!(found.is_empty(), "{found:#?}");
}
