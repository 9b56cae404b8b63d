//! No name of a protocol stands in code: a protocol in which every name is another one tells of every bird the very same, but for
//! the names.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

pub(crate) mod literals;
mod notation;

use crate::common::walk::text as letters;
use crate::common::{PROTOCOL, count, now};
use chrono::TimeDelta;
use coopside::care::cupboard::Cupboard;
use coopside::care::label::{self, Before, Held};
use coopside::care::plan;
use coopside::content::document::Judged;
use coopside::days::Days;
use coopside::days::due::due;
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{Findings, Id};
use coopside::words::{Reader, Voice, Words};

use coopside::content::review::Packet;
use coopside::content::review::kept::Kept;
use coopside::content::sheet::{self, SheetCase};
use coopside::content::{basis, debrief, hazards, judgement, lessons, phone, sum};
use coopside::practice::{self, Given, Mark, Script, Trial, Wanted, check, draw};
use coopside::protocol::hazard::{self, Hazard};
use coopside::protocol::{File, Protocol};
use coopside::reckon::{Moment, SUMS, reckon};
use coopside::render::{self, json, text};
use coopside::screen::{self, Theme};
use coopside::session::Session;
use coopside::update::{self, Input};
use coopside::view::View;
use coopside::view::keys::Key;
use coopside::zone::Zone;
use coopside::{prove, shipped};
use notation::{Sort, as_before, otherwise, renamed};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use serde_json::Value;
use std::sync::{Arc, LazyLock};

/// A protocol, all that goes by its names, and the words it is told in.
pub(super) struct World {
    pub(super) protocol: Protocol,
    hazards: Vec<Hazard>,
    pub(super) scripts: Vec<Script>,
    pub(super) words: &'static Words,
}

static SHIPPED: LazyLock<World> =
    LazyLock::new(|| World::of(&shipped::files(), &shipped::hazards_file(), shipped::scenarios()));
static RENAMED: LazyLock<World> = LazyLock::new(|| {
    let rename = |sort: Sort, file: File| {
        let (text, count) = renamed(sort, &file.text);
        // Words and drawings alone name nothing.
        assert!(count > 0 || file.name == "words.ron", "{}: nothing was renamed", file.name);
        File { text, ..file }
    };
    let files: Vec<File> = shipped::files().into_iter().map(|file| rename(Sort::Protocol, file)).collect();
    let birds: Vec<File> = shipped::scenarios().iter().map(|file| rename(Sort::Bird, file.clone())).collect();
    let mut world = World::of(&files, &rename(Sort::Hazards, shipped::hazards_file()), &birds);
    // What is told of its files is theirs.
    world.protocol.fingerprint.clone_from(&PROTOCOL.fingerprint);
    world
});

impl World {
    pub(super) fn of(files: &[File], hazards: &File, birds: &[File]) -> Self {
        let protocol = Protocol::load(files).unwrap_or_else(|faults| panic!("\n{faults}"));
        let names: Vec<&str> = birds.iter().map(|bird| bird.name.as_str()).collect();
        let hazards = hazard::load(hazards, &protocol, &names).unwrap_or_else(|faults| panic!("\n{faults}"));
        let read = |bird: &File| {
            check(&protocol, &bird.name, &bird.name, &bird.text).unwrap_or_else(|faults| panic!("\n{faults}"))
        };
        let scripts = birds.iter().map(read).collect();
        Self { protocol, hazards, scripts, words: Words::english() }
    }

    pub(super) fn reader(&self) -> Reader<'_> {
        Reader { zone: Zone::UTC, country: self.protocol.no_country(), words: self.words, voice: Voice::Written }
    }
}

/// What is told, by what tells it.
pub(super) type Telling = Vec<(String, String)>;

fn shown(value: &Value) -> String {
    serde_json::to_string_pretty(value).unwrap_or_else(|error| panic!("{error}"))
}

/// JSON without the list of hazards, which goes by the shipped names and is told beside it.
fn without_hazards(mut value: Value) -> String {
    if let Some(fields) = value.as_object_mut() {
        fields.remove("hazards");
    }
    shown(&value)
}

/// The log of somebody who says all of it at once.
fn log_of(findings: &Findings) -> Vec<Stamped> {
    let stamp = |entry| Stamped { at: now(), entry };
    let said: Vec<_> = findings.said().iter().map(|said| said.statement.clone()).collect();
    let wounds = (0..findings.wounds()).map(|_| stamp(Entry::FoundWound));
    let over = findings.looked_over().then(|| stamp(Entry::LookedOver));
    wounds.chain([stamp(Entry::Said(said))]).chain(over).collect()
}

/// All that is told of a bird.
pub(super) fn of_bird(world: &World, findings: &Findings) -> Telling {
    let (protocol, reader) = (&world.protocol, world.reader());
    let verdict = prove::judge(protocol, findings, now());
    let explained = prove::explain(protocol, findings, &verdict);
    let cupboard = filled(protocol);
    let plan = plan(protocol, &verdict, &cupboard, coopside::zone::Zone::UTC);
    let log = log_of(findings);
    let days = Days::of(&log);
    let due = due(protocol, &log, &days, &cupboard, coopside::zone::Zone::UTC, now());
    let told = SheetCase {
        log: &log,
        days: &days,
        findings,
        verdict: &verdict,
        plan: &plan,
        due: &due,
        keeper: None,
        practice: false,
    };
    let judged = Judged { findings, verdict: &verdict, explained: Some(&explained) };
    let page = reader.sheet(&sheet::sheet(protocol, told, reader, now()));
    let hazards = hazards::among(&world.hazards, protocol, findings, &verdict);
    vec![
        ("verdict".into(), text::sections(&reader.sections(judgement::sections(protocol, judged, reader.country)))),
        ("plan".into(), text::plan(protocol, findings, &verdict, &plan, reader)),
        ("exact bands".into(), bands(protocol, findings)),
        ("JSON".into(), without_hazards(json::verdict(protocol, findings, &verdict, &plan, reader))),
        ("hazards".into(), shown(&json::hazards::each(hazards, reader))),
        ("phone".into(), reader.say(&phone::script(protocol, findings, &verdict, &|text| reader.say(text)))),
        ("sheet".into(), render::sheet::text(&page)),
        ("sheet as JSON".into(), without_hazards(render::sheet::json(&page))),
        ("due".into(), format!("{due:?}")),
        ("label".into(), of_label(world, Some(Before { findings, verdict: &verdict, plan: &plan }))),
    ]
}

fn bands(protocol: &Protocol, findings: &Findings) -> String {
    let verdict = prove::judge_bands(protocol, findings, now());
    format!("{:?} {:?} {:?}", verdict.need, verdict.humane, verdict.authority)
}

/// Everything that could be in the house.
fn filled(protocol: &Protocol) -> Cupboard {
    let names: Vec<&str> = protocol.supplies.iter().map(|supply| supply.id.as_str()).collect();
    Cupboard::read(protocol, &names.join("; ")).unwrap_or_else(|error| panic!("{error:?}"))
}

fn of_label(world: &World, before: Option<Before>) -> String {
    let (protocol, given) = (&world.protocol, label::Given::default());
    let labels = ["povidone-iodine 10 %", "fusidic acid 2 %, betamethasone 0.1 %", "salt 0.9 %", "chlorhexidine 4 %"];
    let told = protocol.countries.iter().flat_map(|country| {
        let held = Held { country, given: &given, on: None, before };
        labels.map(|printed| {
            shown(&json::label(protocol, &label::rule(protocol, printed, held), Reader { country, ..world.reader() }))
        })
    });
    told.collect::<Vec<_>>().join("\n")
}

/// A go at a bird by somebody who sees everything and does nothing: the debrief, and the mark.
pub(super) fn of_go(world: &World, script: &Script) -> Telling {
    let protocol = &world.protocol;
    let (end, log) = (now() + TimeDelta::seconds(10), log_of(&script.findings));
    let mut trial = Trial::begin(Arc::new(script.clone()), "Ann".into(), now());
    trial.given = Given { need: None, humane: None, authority: None };
    trial.ended = Some(end);
    let told = practice::debrief(protocol, &trial, &log, end);
    let mark = Mark::of(protocol, &trial, &told);
    let offered: Vec<&Id> = trial.offered(protocol, &[]).iter().map(|at| &protocol.action(*at).id).collect();
    vec![
        (
            "debrief".into(),
            text::sections(&world.reader().sections(debrief::sections(
                protocol,
                &trial,
                &told,
                world.reader().country,
            ))),
        ),
        ("mark".into(), format!("{mark:?}")),
        ("offered".into(), format!("{offered:?}")),
    ]
}

/// The frames of a walk: the same keys, one after another; but not the page with the hazards, which go by the shipped names.
pub(super) fn of_walk(world: &'static World, seed: u64) -> Telling {
    of_walk_at(world, seed, (100, 34))
}

/// The same on a screen of some columns and rows.
pub(super) fn of_walk_at(world: &'static World, seed: u64, size: (u16, u16)) -> Telling {
    let mut session = Session::new(&world.protocol, None, now(), Zone::UTC);
    session.words = world.words;
    let mut rng = fastrand::Rng::with_seed(seed);
    let keys = ['1', '2', '3', 'a', 'a', 'v', 'd', 'w', 's', 't', 'b', 'e', '0', 'p', 'i', 'n'];
    let mut frames = Vec::new();
    for step in 0..100 {
        let key = match rng.u8(0..8) {
            0 => Key::Enter,
            1 => Key::Escape,
            2 => Key::Char('1'),
            _ => Key::Char(keys[rng.usize(0..keys.len())]),
        };
        session.now += TimeDelta::seconds(7);
        update::update(&mut session, Input::Key(key));
        frames.push((format!("walk {seed}, key {step} ({key:?})"), frame_at(&mut session, size)));
    }
    frames.push((format!("walk {seed}, kept"), format!("{:?}", session.log)));
    frames
}

pub(super) fn frame(session: &mut Session) -> String {
    frame_at(session, (100, 34))
}

fn frame_at(session: &mut Session, (columns, rows): (u16, u16)) -> String {
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    let drawn = screen::draw::render(&View::of(session), Theme { colour: true }, area, &mut buffer);
    session.learn(drawn.extent);
    letters(&buffer)
}

#[track_caller]
fn same(of: &str, shipped: Telling, renamed: Telling) {
    assert_eq!(shipped.len(), renamed.len(), "{of}");
    for ((what, shipped), (_, renamed)) in shipped.into_iter().zip(renamed) {
        let renamed = as_before(&renamed);
        let lines = shipped.lines().zip(renamed.lines()).find(|(one, other)| one != other);
        assert!(shipped == renamed, "{of}, {what}: {lines:#?}");
    }
}

#[test]
fn a_name_is_written_otherwise_where_a_name_stands_and_nowhere_else() {
    let protocol = "(questions: [(id: \"place\", say: \"place\", // id: \"place\"\n applies: \"what = cut | not or 2 of (weight >= 5 g, always)\")], regions: [(place: \"comb\", letter: 'C')], actions: [(id: \"a\", place: \"her comb\", stays: [(\"rinse\", \"rinse\")])])";
    let (told, count) = renamed(Sort::Protocol, protocol);
    assert_eq!(count, 7, "{told}");
    assert_eq!(as_before(&told), protocol);
    for kept in ["say: \"place\"", "// id: \"place\"", "place: \"her comb\"", "\"rinse\")]", "letter: 'C'"] {
        assert!(told.contains(kept), "{kept} in {told}");
    }
    let bird = "(story: \"kind\", answers: { \"kind\": \"hen\", \"weight\": \"bantam\", \"eyelid\": \"cannot_tell\" }, lesson: (shows: { \"alert\": \"hen\" }))";
    let (told, count) = renamed(Sort::Bird, bird);
    assert_eq!(count, 5, "{told}");
    assert!(
        told.contains("\"bantam\"") && told.contains("\"cannot_tell\"") && told.contains("story: \"kind\""),
        "{told}"
    );
}

/// Every name of a protocol by its sort; of the weight's answers none, which are the program's own builds.
fn names(protocol: &Protocol) -> Vec<(&'static str, Vec<String>)> {
    let mut names: Vec<(&'static str, Vec<String>)> = Vec::new();
    macro_rules! of {
            ($($sort:ident),*) => {
                $(names.push((stringify!($sort), protocol.$sort.iter().map(|item| item.id.to_string()).collect()));)*
            };
        }
    of!(questions, lists, steps, rules, actions, instructions, watches, sources, supplies, rounds, substances, uses);
    of!(families, countries, exclusions, paragraphs, scores, views);
    let asked = protocol.questions.iter().filter(|question| !question.is_weight());
    let answers = asked.flat_map(|question| &question.choices).map(|choice| choice.id.to_string());
    names.push(("answers", answers.collect()));
    names.push(("regions", protocol.regions.iter().map(|region| region.place.to_string()).collect()));
    names
}

/// Of every sort of item each one bears another name: else the tests below would pass for a name that stands in code.
#[test]
fn every_name_is_another_one() {
    let (own, other) = (&*PROTOCOL, &RENAMED.protocol);
    for ((sort, own), (_, other)) in names(own).into_iter().zip(names(other)) {
        assert!(!own.is_empty(), "{sort}");
        let expected: Vec<String> = own.iter().map(|name| otherwise(name)).collect();
        assert_eq!(expected, other, "{sort}");
    }
}

#[test]
fn every_scripted_bird_is_told_the_same() {
    assert!(SHIPPED.scripts.len() > 100 && SHIPPED.scripts.len() == RENAMED.scripts.len());
    for (own, other) in SHIPPED.scripts.iter().zip(&RENAMED.scripts).step_by(count(2, 1)) {
        same(&own.name, of_bird(&SHIPPED, &own.findings), of_bird(&RENAMED, &other.findings));
        same(&own.name, of_go(&SHIPPED, own), of_go(&RENAMED, other));
        let twin = |world: &World, script: &Script| {
            let without = practice::without_vet(&world.protocol, &script.scenario, &script.findings, now());
            without.map_or_else(Vec::new, |twin| of_bird(world, &twin))
        };
        same(&format!("{} without a vet", own.name), twin(&SHIPPED, own), twin(&RENAMED, other));
    }
}

/// A bird that was drawn, told in a world's words.
pub(super) fn drawn(world: &World, seed: u64) -> Script {
    let drawn = draw(&world.protocol, seed, Wanted::default()).unwrap_or_else(|error| panic!("{seed}: {error:?}"));
    let told = lessons::told(&world.protocol, &drawn, &|text| world.reader().say(text));
    drawn.said(told)
}

#[test]
fn every_drawn_bird_is_drawn_and_told_the_same() {
    for seed in 0..12 {
        let [own, other] = [&*SHIPPED, &*RENAMED].map(|world| drawn(world, seed));
        let of = format!("drawn {seed}");
        let script = |script: &Script| vec![("script".to_owned(), format!("{:?}", script.scenario))];
        same(&of, script(&own), script(&other));
        same(&of, of_bird(&SHIPPED, &own.findings), of_bird(&RENAMED, &other.findings));
        same(&of, of_go(&SHIPPED, &own), of_go(&RENAMED, &other));
    }
}

#[test]
fn every_walk_shows_the_same() {
    for seed in 0..count(2, 4) {
        same("walk", of_walk(&SHIPPED, seed), of_walk(&RENAMED, seed));
    }
}

/// The sums, the packet for a vet, the kit, and the protocol itself.
pub(super) fn all_else(world: &World) -> Telling {
    let (protocol, reader) = (&world.protocol, world.reader());
    let mut told = vec![
        ("protocol as JSON".to_owned(), shown(&json::protocol::protocol(protocol, reader))),
        ("sources".to_owned(), text::sections(&reader.sections(basis::whole(protocol, reader.country, &[], None)))),
        ("kit".to_owned(), shown(&json::kit::kit(protocol, &filled(protocol), now().date_naive(), reader))),
        ("labels".to_owned(), of_label(world, None)),
    ];
    let booklet = reader
        .booklet(&Packet::of(protocol, &world.scripts, json::protocol::rule_whole).booklet(&Kept::default(), reader));
    told.push(("packet".to_owned(), render::sheet::booklet_text(&booklet)));
    for (asked, country) in SUMS.iter().flat_map(|sum| protocol.countries.iter().map(move |country| (sum, country))) {
        let values: Vec<_> = asked.example.iter().map(|(name, value)| ((*name).into(), (*value).into())).collect();
        let answer = reckon(asked.name(), &values, &Moment::of(protocol, now(), Zone::UTC, country));
        let answer = answer.unwrap_or_else(|error| panic!("{}: {error:?}", asked.name()));
        let page = text::sections(&reader.sections(sum::sections(protocol, country, &answer)));
        told.push((format!("sum {} in {}", asked.name(), country.name), page));
    }
    told
}

#[test]
fn all_else_is_told_the_same() {
    same("all", all_else(&SHIPPED), all_else(&RENAMED));
}
