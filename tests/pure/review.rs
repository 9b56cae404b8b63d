//! The packet for a vet: it shows every rung and every rule that can kill, is read in an evening, and a form that comes back is
//! told beside its items only as long as they stay as they were.

#![expect(clippy::panic, reason = "a failing test panics")]

use crate::common::CAUTION;
use crate::common::{PROTOCOL, read_out};
use chrono::{DateTime, NaiveDate};
use coopside::content::booklet::Booklet;
use coopside::content::condition;
use coopside::content::review::form::{self, Form, LONGEST, REMARK, Verdict};
use coopside::content::review::kept::{Kept, MOST, Taken, signed};
use coopside::content::review::{BIRDS, Entry, Packet, Soon, said_of_rules};
use coopside::practice::{self, Script};
use coopside::protocol::Protocol;
use coopside::protocol::question::Reach;
use coopside::protocol::rule::Rule;
use coopside::protocol::scale::{Authority, Humane, Need};
use coopside::prove::judge_bands;
use coopside::render::json::{self, protocol::rule_whole};
use coopside::render::sheet::{booklet_html, booklet_markdown, booklet_pdf, booklet_text};
use coopside::words::{Reader, english};
use coopside::zone::Zone;
use serde_json::Value;
use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::sync::LazyLock;

static SCRIPTS: LazyLock<Vec<Script>> = LazyLock::new(|| {
    let read = |(name, text)| Script::read(&PROTOCOL, name, name, text).unwrap_or_else(|faults| panic!("\n{faults}"));
    practice::shipped().into_iter().map(read).collect()
});

static PACKET: LazyLock<Packet> = LazyLock::new(|| Packet::of(&PROTOCOL, &SCRIPTS, rule_whole));

/// What a bird shows: her rungs, how soon a vet can be reached, whether she has a wound.
type Shown = ((Need, Humane, Authority), Option<Reach>, bool);

fn shown(script: &Script) -> Shown {
    let verdict = judge_bands(&PROTOCOL, &script.findings, DateTime::UNIX_EPOCH);
    ((verdict.need.low, verdict.humane.low, verdict.authority.low), verdict.reach, verdict.wounds > 0)
}

fn chosen() -> Vec<Shown> {
    let script = |entry: &Entry| {
        let name = entry.id.strip_prefix("bird:").unwrap_or_else(|| panic!("{} is no bird", entry.id));
        SCRIPTS.iter().find(|script| script.name == name).unwrap_or_else(|| panic!("no bird is called {name}"))
    };
    PACKET.birds.iter().map(|entry| shown(script(entry))).collect()
}

fn each<T: Ord>(of: &[Shown], what: impl Fn(&Shown) -> T) -> BTreeSet<T> {
    of.iter().map(what).collect()
}

#[test]
fn its_birds_stand_on_every_rung_that_any_shipped_bird_stands_on() {
    let all: Vec<Shown> = SCRIPTS.iter().map(shown).collect();
    let chosen = chosen();
    assert_eq!(chosen.len(), BIRDS);
    assert_eq!(each(&chosen, |(rungs, ..)| rungs.0), each(&all, |(rungs, ..)| rungs.0), "need");
    assert_eq!(each(&chosen, |(rungs, ..)| rungs.1), each(&all, |(rungs, ..)| rungs.1), "humane end");
    assert_eq!(each(&chosen, |(rungs, ..)| rungs.2), each(&all, |(rungs, ..)| rungs.2), "authority");
    assert_eq!(each(&all, |(rungs, ..)| rungs.1), Humane::ALL.into(), "shipped birds show every rung of a humane end");
    assert_eq!(each(&all, |(rungs, ..)| rungs.2), Authority::ALL.into(), "shipped birds show every authority call");
    assert_eq!(
        each(&chosen, |(_, reach, _)| *reach == Some(Reach::Nobody)).len(),
        2,
        "with a vet in reach and without"
    );
    assert_eq!(each(&chosen, |(.., wound)| *wound).len(), 2, "with a wound and without");
    // As many of the combinations of rungs as there is room for.
    let together = each(&all, |(rungs, ..)| *rungs).len();
    assert!(each(&chosen, |(rungs, ..)| *rungs).len() >= together.min(BIRDS / 2), "of {together} combinations");
}

#[test]
fn the_gravest_bird_stands_first_and_the_choice_is_always_the_same() {
    let rungs: Vec<_> = chosen().into_iter().map(|(rungs, ..)| Reverse(rungs)).collect();
    assert!(rungs.is_sorted(), "{rungs:?}");
    let mut turned = SCRIPTS.clone();
    turned.reverse();
    assert_eq!(Packet::of(&PROTOCOL, &turned, rule_whole), *PACKET, "whatever order the birds are read in");
}

/// What can kill, read from the protocol's JSON alone: need now, a humane end, an authority call now, or what an act left out or a
/// ban broken does within minutes or hours.
fn deadly_by_json() -> BTreeSet<String> {
    let json = json::protocol::protocol(&PROTOCOL, reader(&PROTOCOL));
    let list = |of: &Value, key: &str| of.get(key).and_then(Value::as_array).cloned().unwrap_or_default();
    let actions = list(&json, "actions");
    let text = |of: &Value, at: &str| of.pointer(at).and_then(Value::as_str).unwrap_or_default().to_owned();
    let harms = |ids: Vec<Value>, at: &str| {
        let of = actions.iter().filter(|action| ids.contains(action.get("id").unwrap_or(&Value::Null)));
        of.map(|action| text(action, at)).any(|harm| harm == "minutes" || harm == "hours")
    };
    let kills = |rule: &&Value| {
        text(rule, "/need") == "now"
            || !rule.get("humane_end").is_none_or(Value::is_null)
            || text(rule, "/authority_call") == "call_now"
            || harms(list(rule, "acts"), "/harm_if_left_out")
            || harms(list(rule, "never"), "/never/harm_if_done")
    };
    list(&json, "rules").iter().filter(kills).map(|rule| format!("rule:{}", text(rule, "/id"))).collect()
}

#[test]
fn every_rule_that_can_kill_stands_in_it_once_with_its_source_and_strength() {
    let entries: Vec<&Entry> = PACKET.rules.iter().flat_map(|group| &group.rules).collect();
    let ids: BTreeSet<String> = entries.iter().map(|entry| entry.id.clone()).collect();
    assert_eq!(ids.len(), entries.len(), "a rule stands twice");
    assert_eq!(ids, deadly_by_json());
    assert_eq!(PACKET.others + ids.len(), PROTOCOL.rules.len());
    let strength = |text: &str, rule: &Rule| text.to_lowercase().contains(rule.strength.words());
    for rule in &PROTOCOL.rules {
        let Some(entry) = entries.iter().find(|entry| entry.id == format!("rule:{}", rule.id)) else { continue };
        let text = words_of(entry);
        assert!(text.contains(&rule.reason), "{text}");
        let cite = &PROTOCOL.sources.of(rule.source).cite;
        // A source is named in full, with how well it is known, on this leaf or on an earlier one that this leaf names.
        let whole = |of: &&Entry| words_of(of).contains(cite.as_str()) && strength(&words_of(of), rule);
        let by_mark = entries.iter().filter(|of| text.contains(&format!(" ({}).", of.leaf.mark))).any(whole);
        assert!(strength(&text, rule) || by_mark, "{text}");
        assert!(text.contains("Advice: "), "{text}");
        assert!(rule.borrowed.as_ref().is_none_or(|kind| text.contains(&format!("Borrowed from {kind}"))), "{text}");
        for act in &rule.acts {
            let say = PROTOCOL.action(*act).say.trim_end_matches(['.', '?']);
            assert!(text.contains(say), "{}: {say} is not told\n{text}", rule.id);
        }
    }
    // Those that kill soonest stand first.
    assert!(PACKET.rules.iter().map(|group| group.soon).is_sorted());
}

fn reader(protocol: &Protocol) -> Reader<'_> {
    Reader::english(Zone::UTC, protocol.country("unset"))
}

/// A packet as it is read, with what forms say.
fn booklet(packet: &Packet, kept: &Kept) -> Booklet {
    let reader = reader(&PROTOCOL);
    reader.booklet(&packet.booklet(kept, reader))
}

fn words_of(entry: &Entry) -> String {
    let leaf = reader(&PROTOCOL).leaf(&entry.leaf);
    let items = leaf.sections.iter().flat_map(|section| &section.items);
    let lines = items.flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
    let lines: Vec<&str> = lines.map(String::as_str).collect();
    format!("{}\n{}\n{}", leaf.title(), leaf.rung, lines.join("\n"))
}

/// Where a line sends its reader to another leaf, that leaf tells it in full.
#[test]
fn every_mark_in_brackets_names_a_leaf_that_stands_before() {
    let mut before: BTreeSet<String> = BTreeSet::new();
    for entry in PACKET.entries() {
        let text = words_of(entry);
        for part in text.split(" (").skip(1) {
            let mark = part.split(')').next().unwrap_or_default();
            let is_mark = mark.len() > 1
                && (mark.starts_with('B') || mark.starts_with('R'))
                && mark.chars().skip(1).all(|letter| letter.is_ascii_digit());
            assert!(!is_mark || before.contains(mark), "{}: ({mark}) does not stand before\n{text}", entry.leaf.mark);
        }
        before.insert(entry.leaf.mark.clone());
    }
}

/// Three hours for the birds and the deadliest rules, forty minutes more for all the rest, at 200 words a minute and a third of a
/// minute for a decision: both common practice, no source.
#[test]
fn an_evening_is_enough() {
    let booklet = booklet(&PACKET, &Kept::default());
    let first = |soon: &Soon| *soon != Soon::Hours;
    let later = PACKET.rules.iter().filter(|group| !first(&group.soon)).map(|group| group.rules.len()).sum::<usize>();
    let mut gravest = booklet.clone();
    gravest.chapters.truncate(2 + PACKET.rules.iter().filter(|group| first(&group.soon)).count());
    let items = PACKET.entries().count();
    for (of, decisions, most) in [(&gravest, items - later, 180), (&booklet, items, 220)] {
        let words = of.words();
        let minutes = words / 200 + decisions / 3;
        println!("{words} words, {decisions} decisions: {minutes} minutes");
        assert!(minutes <= most, "{words} words, {decisions} decisions: {minutes} minutes of {most}");
    }
    // No leaf by itself takes more than five minutes to read.
    for leaf in booklet.leaves() {
        let text: usize = leaf
            .sections
            .iter()
            .flat_map(|section| &section.items)
            .flat_map(|item| std::iter::once(&item.lead).chain(&item.more))
            .map(|line| line.split_whitespace().count())
            .sum();
        assert!(text <= 5 * 200, "{}: {text} words", leaf.title());
    }
}

#[test]
fn a_condition_tells_every_question_it_reads() {
    for rule in &PROTOCOL.rules {
        let told = english(condition::words(&PROTOCOL, &rule.when));
        for at in rule.when.questions() {
            let question = PROTOCOL.ask(at);
            let named = told.contains(&question.topic);
            assert!(named, "{}: {} is not named in: {told}", rule.id, question.topic);
        }
        assert!(!told.is_empty(), "{}", rule.id);
    }
}

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 2).unwrap_or_else(|| panic!("no such day"))
}

/// The blank form with a role, a date, and marks for items.
fn filled(packet: &Packet, marks: &[(&str, &str, &str)]) -> String {
    let mut text =
        form::blank(packet).replace("role: \"\"", "role: \"avian vet\"").replace("date: \"\"", "date: \"2026-05-01\"");
    for (id, verdict, remark) in marks {
        let at = text.find(&format!("(id: {id:?},")).unwrap_or_else(|| panic!("{id} is not in the form"));
        let (before, after) = text.split_at(at);
        let after = after.replacen("verdict: None", &format!("verdict: {verdict}"), 1);
        text = before.to_owned() + &after.replacen("remark: \"\"", &format!("remark: {remark:?}"), 1);
    }
    text
}

fn taken(packet: &Packet, text: &str) -> Form {
    form::read(packet, "form.ron", text, today()).unwrap_or_else(|faults| panic!("\n{faults}\n{text}"))
}

fn refused(text: &str) -> String {
    match form::read(&PACKET, "form.ron", text, today()) {
        Ok(form) => panic!("{form:?} was taken"),
        Err(faults) => faults.to_string(),
    }
}

/// The first bird's and the first rule's keys.
fn two() -> (&'static str, &'static str) {
    let bird = PACKET.birds.first().map(|entry| entry.id.as_str());
    let rule = PACKET.rules.first().and_then(|group| group.rules.first()).map(|entry| entry.id.as_str());
    bird.zip(rule).unwrap_or_else(|| panic!("the packet is empty"))
}

fn content(packet: &Packet, id: &str) -> String {
    let entry = packet.entries().find(|entry| entry.id == id);
    entry.unwrap_or_else(|| panic!("{id} is not in the packet")).content.clone()
}

fn kept(forms: &[&Form]) -> Kept {
    Kept::recall(&forms.iter().fold(String::new(), |kept, form| Kept::add(&kept, form).0))
}

#[test]
fn a_form_comes_back_as_it_was_filled_in() {
    let (bird, rule) = two();
    let text = filled(&PACKET, &[(bird, "Change", "say \"now\"\n first"), (rule, "Agree", "")]);
    let form = taken(&PACKET, &text);
    assert_eq!(english(signed(&form)), format!("avian vet, 2026-05-01, protocol {}", PROTOCOL.version));
    let marks: Vec<_> = form.items.iter().map(|item| (item.id.as_str(), item.verdict, item.remark.as_str())).collect();
    assert_eq!(marks, [(bird, Some(Verdict::Change), "say \"now\" first"), (rule, Some(Verdict::Agree), "")]);
    let kept = kept(&[&form]);
    assert_eq!(kept.forms(), std::slice::from_ref(&form));
    let version = &PROTOCOL.version;
    let of = |id: &str, content: &str| kept.of(version, id, content).iter().map(read_out).collect::<Vec<_>>();
    assert_eq!(
        of(bird, &content(&PACKET, bird)),
        [format!("A form says: change (avian vet, 2026-05-01, protocol {version}): say \"now\" first")]
    );
    assert_eq!(
        of(rule, &content(&PACKET, rule)),
        [format!("A form says: agree (avian vet, 2026-05-01, protocol {version})")]
    );
    // What was left blank says nothing.
    let blank = PACKET.birds.get(1).unwrap_or_else(|| panic!("one bird"));
    assert_eq!(of(&blank.id, &blank.content), Vec::<String>::new());
}

#[test]
fn forms_stand_side_by_side_and_none_stands_twice() {
    let (bird, rule) = two();
    let one = taken(&PACKET, &filled(&PACKET, &[(bird, "Agree", "")]));
    let other = taken(&PACKET, &filled(&PACKET, &[(bird, "Reject", "too late"), (rule, "Agree", "")]));
    let (first, became) = Kept::add("", &one);
    assert_eq!(became, Taken::New);
    assert_eq!(Kept::add(&first, &one), (first.clone(), Taken::Before));
    // What another program wrote there stays, and says nothing.
    let (both, became) = Kept::add(&format!("{first}of another time\n"), &other);
    assert_eq!(became, Taken::New);
    assert!(both.contains("of another time"));
    let said = Kept::recall(&both).of(&PROTOCOL.version, bird, &content(&PACKET, bird));
    assert_eq!(said.len(), 2, "{said:?}");
    let many = (0..MOST)
        .fold(String::new(), |kept, number| Kept::add(&kept, &Form { missing: number.to_string(), ..one.clone() }).0);
    assert_eq!(Kept::add(&many, &one), (many.clone(), Taken::Full));
}

/// A form holds for one version, and for items that say what they said.
#[test]
fn what_a_form_says_is_lost_when_its_rule_changes() {
    let group = PACKET.rules.iter().flat_map(|group| &group.rules);
    let ids: Vec<&str> = group.map(|entry| entry.id.as_str()).collect();
    let marks: Vec<(&str, &str, &str)> = ids.iter().map(|id| (*id, "Agree", "")).collect();
    let form = taken(&PACKET, &filled(&PACKET, &marks));
    let kept = kept(&[&form]);
    let count = |protocol: &Protocol| {
        said_of_rules(protocol, &kept, rule_whole).map_or(0, |section| section.items.len().saturating_sub(1))
    };
    assert_eq!(count(&PROTOCOL), ids.len());

    let changed = |change: &dyn Fn(&mut Protocol)| {
        let mut copy = PROTOCOL.clone();
        change(&mut copy);
        copy
    };
    let at = PROTOCOL
        .rules
        .iter()
        .position(|rule| format!("rule:{}", rule.id) == *ids.first().copied().unwrap_or(""))
        .unwrap_or(0);
    let rule = |copy: &mut Protocol, change: &dyn Fn(&mut coopside::protocol::rule::Rule)| {
        copy.rules.get_mut(at).map_or_else(|| panic!("no rule"), change);
    };
    // Its words, its condition, its rung, its source: one rule is lost, and only that one.
    let reason = changed(&|copy| rule(copy, &|rule| rule.reason.push_str(" More.")));
    let when = changed(&|copy| rule(copy, &|rule| rule.when = coopside::protocol::cond::Cond::Always));
    let rung =
        changed(&|copy| rule(copy, &|rule| rule.need = if rule.need.is_none() { Some(Need::Home) } else { None }));
    let own = PROTOCOL.rules.get(at).map(|rule| rule.source);
    let another = PROTOCOL.sources.placed().map(|(other, _)| other).find(|other| Some(*other) != own);
    let another = another.unwrap_or_else(|| panic!("no other source"));
    let source = changed(&|copy| rule(copy, &|rule| rule.source = another));
    for copy in [&reason, &when, &rung, &source] {
        assert_eq!(count(copy), ids.len() - 1);
    }
    // A word of a ban: every rule that brings it is lost, and no other.
    let banned = PROTOCOL
        .rules
        .iter()
        .find(|rule| ids.contains(&format!("rule:{}", rule.id).as_str()) && !rule.never.is_empty());
    let ban = banned.and_then(|rule| rule.never.first()).copied().unwrap_or_else(|| panic!("no ban"));
    let copy = changed(&|copy| {
        let action = copy.actions.get_mut(ban.nth()).and_then(|action| action.forbidden.as_mut());
        action.map_or_else(|| panic!("no ban"), |ban| ban.why.push_str(" Indeed."));
    });
    let with = PROTOCOL.rules.iter().filter(|rule| ids.contains(&format!("rule:{}", rule.id).as_str()));
    let with = with.filter(|rule| rule.never.contains(&ban) || rule.acts.contains(&ban)).count();
    assert!(with > 0);
    assert_eq!(count(&copy), ids.len() - with);
    // Another version: all of it.
    let other = changed(&|copy| copy.version.push_str(".1"));
    assert_eq!(count(&other), 0);
    // The packet of the changed protocol does not show it either.
    let (id, text) = (ids.first().copied().unwrap_or(""), |protocol: &Protocol| {
        let packet = Packet::of(protocol, &[], rule_whole);
        let booklet = booklet(&packet, &kept);
        booklet.leaves().find(|leaf| Some(leaf.id.as_str()) == ids.first().copied()).map(|leaf| format!("{leaf:?}"))
    });
    assert!(text(&PROTOCOL).is_some_and(|text| text.contains("A form says: agree")), "{id}");
    assert!(text(&reason).is_some_and(|text| !text.contains("A form says")), "{id}");
}

#[test]
fn what_is_wrong_with_a_form_is_told_with_place_and_way_out() {
    let (bird, rule) = two();
    let good = filled(&PACKET, &[(bird, "Agree", "")]);
    let named = |of: &str| format!("\"{of}\"");
    let version = PROTOCOL.version.clone();
    let twice = format!("(id: {}, content: \"\", verdict: Reject),\n    ],\n)", named(bird));
    let cases: Vec<(String, Vec<String>)> = vec![
        (
            form::blank(&PACKET),
            ["role: the role is not filled in", "date: the day of signing", "nothing is marked"]
                .map(str::to_owned)
                .into(),
        ),
        (
            good.replace(&format!("protocol: {version:?}"), "protocol: \"0.0.1\""),
            vec![format!("the form is for protocol 0.0.1, this program has {version}: print the packet afresh")],
        ),
        (good.replace("coopside.review/1", "another/1"), vec!["expected `coopside.review/1`".into()]),
        (
            good.replace(&named(rule), "\"rule:no_such_rule_at_all\""),
            vec!["item `rule:no_such_rule_at_all`: the packet has no such item".into()],
        ),
        (good.replace(&named(bird), &named(&format!("{bird}s"))), vec![format!("did you mean `{bird}`?")]),
        (good.replace("    ],\n)", &twice), vec![format!("item `{bird}`: it stands twice; leave one of the two")]),
        (good.replace("2026-05-01\",", "1 May\","), vec!["write it as 2026-05-01".into()]),
        (good.replace("2026-05-01\",", "2026-05-09\","), vec!["2026-05-09 has not come yet".into()]),
        (
            good.replace("verdict: Agree", "verdict: Fine"),
            vec!["this is no form".into(), "begin from what `coopside review --form ron` writes".into()],
        ),
        ("(".into(), vec!["this is no form".into()]),
        (" ".repeat(LONGEST + 1), vec![format!("a form has at most {LONGEST} bytes")]),
        (
            filled(&PACKET, &[(bird, "Agree", &"x".repeat(REMARK + 1))]),
            vec![format!("at most {REMARK} are kept; shorten it")],
        ),
        (good.replace("avian vet", &"vet".repeat(90)), vec!["role: the text has 270 letters".into()]),
    ];
    for (text, wanted) in cases {
        let told = refused(&text);
        for wanted in wanted {
            assert!(told.contains(&wanted), "{wanted:?} is not told:\n{told}");
        }
        assert!(told.lines().all(|line| line.starts_with("form.ron:")), "{told}");
    }
    // The line is that of the item.
    let told = refused(&good.replace(&named(rule), "\"rule:no_such_rule_at_all\""));
    let line = 1 + good.lines().position(|line| line.contains(&named(rule))).unwrap_or_default();
    assert!(told.starts_with(&format!("form.ron:{line}: ")), "{line}: {told}");
}

/// What drives a terminal or turns a text round is refused; what was written into the ledger by another hand shows without it.
#[test]
fn hostile_letters_reach_no_reader() {
    let (bird, _) = two();
    for letter in ['\u{1b}', '\u{9b}', '\u{202e}', '\u{2066}', '\u{200b}', '\u{7}'] {
        let told = refused(&filled(&PACKET, &[(bird, "Agree", &format!("fine{letter}[31m"))]));
        assert!(told.contains("drives a terminal or turns text round"), "{told}");
        assert!(!told.contains(letter), "{told:?}");
        let mut form = taken(&PACKET, &filled(&PACKET, &[(bird, "Agree", "fine")]));
        form.role = format!("vet{letter}<script>alert(1)</script>");
        form.missing = format!("more{letter}");
        for filled in &mut form.items {
            filled.remark = format!("<img src=x>{letter}]0;");
        }
        let booklet = booklet(&PACKET, &kept(&[&form]));
        let html = booklet_html(&booklet).unwrap_or_else(|error| panic!("{error}"));
        for text in [booklet_text(&booklet), booklet_markdown(&booklet), html.clone()] {
            assert!(text.contains("A form says"), "{text}");
            assert!(!text.contains(letter), "U+{:04X}", u32::from(letter));
        }
        assert!(!html.contains("<script>") && !html.contains("<img"));
    }
}

/// A form is no review: the caution stays to the letter, in every form of the packet, and nothing is signed.
#[test]
fn no_form_alters_the_caution_and_we_sign_nothing() {
    let (bird, rule) = two();
    let text = filled(&PACKET, &[(bird, "Agree", "all is well"), (rule, "Agree", "reviewed and approved")]);
    let kept = kept(&[&taken(&PACKET, &text)]);
    let (without, with) = (booklet(&PACKET, &Kept::default()), booklet(&PACKET, &kept));
    assert!(with.caution.starts_with(CAUTION));
    assert_eq!(with.caution, without.caution);
    let count =
        |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").matches("no vet has reviewed it.").count();
    for (one, other) in [
        (booklet_text(&without), booklet_text(&with)),
        (booklet_markdown(&without).replace("> ", ""), booklet_markdown(&with).replace("> ", "")),
        (booklet_html(&without).unwrap_or_default(), booklet_html(&with).unwrap_or_default()),
    ] {
        assert!(count(&one) >= 2, "{one}");
        assert_eq!(count(&one), count(&other));
        assert!(!one.contains("A form says:") && other.contains("A form says: agree"));
    }
    let section = said_of_rules(&PROTOCOL, &kept, rule_whole).unwrap_or_else(|| panic!("nothing is told"));
    assert!(format!("{:?}", reader(&PROTOCOL).section(&section)).contains("It is no review"));
    let blank = form::blank(&PACKET);
    assert!(blank.contains("role: \"\",") && blank.contains("date: \"\","), "{blank}");
    assert_eq!(blank.matches("verdict: None,").count(), PACKET.entries().count(), "every item stands open");
}

#[test]
fn the_same_packet_is_the_same_to_the_byte() {
    let pdf = || {
        let packet = Packet::of(&PROTOCOL, &SCRIPTS, rule_whole);
        booklet_pdf(&booklet(&packet, &Kept::default())).unwrap_or_else(|error| panic!("{error}"))
    };
    let one = pdf();
    assert!(one.starts_with(b"%PDF-"));
    assert_eq!(one, pdf());
}
