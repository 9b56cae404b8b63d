//! The shipped protocol, and how a faulty one is refused: all faults at once, each with file, line and nearest name.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::CAUTION;
use crate::common::caution_text;
use crate::common::{PROTOCOL, now, spliced};
use coopside::content::document::slower;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::protocol::limits::{MOST_ANSWERED, MOST_ASKED, MOST_CALLED, MOST_INSTRUCTED, MOST_REASONED};
use coopside::protocol::order::FILES;
use coopside::protocol::source::Strength;
use coopside::protocol::{File, Protocol, ready};
use coopside::shipped;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// The faults of the shipped protocol with one file changed.
pub fn faults(file: &str, from: &str, to: &str) -> Vec<String> {
    let mut files = shipped::files();
    let changed = files.iter_mut().find(|known| known.name == file);
    let Some(changed) = changed else { panic!("no file {file}") };
    let Some(text) = spliced(&changed.text, from, to) else { panic!("{file} does not hold {from}") };
    changed.text = text;
    Protocol::load(&files).err().map_or_else(Vec::new, |faults| faults.0.iter().map(ToString::to_string).collect())
}

fn line_of(file: &str, text: &str) -> usize {
    let files = shipped::files();
    let found =
        files.iter().find(|known| known.name == file).and_then(|known| known.text.find(text).map(|at| (known, at)));
    let Some((known, at)) = found else { panic!("{file} does not hold {text}") };
    1 + known.text[..at].matches('\n').count()
}

#[track_caller]
pub fn refused(file: &str, from: &str, to: &str, expected: &str) {
    let faults = faults(file, from, to);
    assert!(faults.iter().any(|fault| fault.contains(expected)), "expected {expected:?} among\n{}", faults.join("\n"));
}

/// Times that never come, or come without end.
#[test]
fn a_time_that_never_comes_is_refused() {
    let looks = "looks run from soonest to latest";
    refused("protocol.ron", "(every_min: 15, until_h: 2)", "(every_min: 0, until_h: 2)", looks);
    refused(
        "protocol.ron",
        "(every_min: 240, until_h: 24)",
        "(every_min: 240, until_h: 60000)",
        "until hour 1440 at most",
    );
    refused("protocol.ron", "(every_min: 240, until_h: 24)", "(every_min: 2400, until_h: 24)", looks);
    refused("instructions.ron", "timer_s: 300", "timer_s: 0", "a timer runs for 1 to 3600 s");
    refused("protocol.ron", "hold_s: 180", "hold_s: 0", "expected 1 to 3600");
}

/// What the program starts with is what its files say, to the last byte; and the files are all there are.
#[test]
fn the_ready_made_protocol_is_the_files_checked_anew() {
    let checked = Protocol::load(&shipped::files()).unwrap_or_else(|faults| panic!("\n{faults}"));
    let pack = |protocol| ready::pack(protocol).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(PROTOCOL.fingerprint, checked.fingerprint);
    assert!(pack(&PROTOCOL) == pack(&checked), "the program was built with another protocol than its files");
    let on_disk = below(&Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/protocol"));
    let named: BTreeSet<String> = FILES.iter().map(|name| (*name).to_owned()).collect();
    assert_eq!(on_disk, named, "a file of the protocol is not named in its order");
}

/// Every file below a folder, by its name there.
fn below(folder: &Path) -> BTreeSet<String> {
    let entries = fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display()));
    let names = entries.flatten().flat_map(|entry| {
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = entry.path();
        if path.is_dir() { below(&path).into_iter().map(|file| format!("{name}/{file}")).collect() } else { vec![name] }
    });
    names.collect()
}

/// A ban ends with a test that names its answers, with a vet's word and, where no vet can be reached, otherwise; or it says why it
/// never does.
#[test]
fn a_ban_without_an_end_is_refused() {
    let fit = "until: Test(when: \"fitting = no\", say: \"The fit is over.\")";
    let instead = |end: &str, expected: &str| refused("actions.ron", fit, end, expected);
    refused("actions.ron", &format!(", {fit}"), "", "until");
    instead("until: Test(when: \"fiting = no\", say: \"The fit is over.\")", "did you mean `fitting`");
    instead(
        "until: Test(when: \"always\", say: \"In an hour.\")",
        "`until` names no question, so nothing anybody sees would decide it; expected a question and its answers",
    );
    instead(
        "until: Vet(or: Vet(or: Lives(because: \"So.\")))",
        "where no vet can be reached a vet's word ends nothing",
    );
    instead("until: Lives(because: \"\")", "field `until` is empty");
}

/// A rule keeps a ban of its own on, and says why.
#[test]
fn a_rule_keeps_on_only_what_it_forbids() {
    let stays = "stays: [(\"rinse\", \"What goes in does not come out again.\")]";
    let dirt = |to: &str, expected: &str| refused("rules/wounds.ron", stays, to, expected);
    dirt("stays: [(\"pluck\", \"It tears.\")]", "`pluck` stays forbidden here, but stands not in `never`");
    dirt("stays: [(\"rinse\", \"\")]", "field `stays` is empty");
}

/// Where no vet can be reached, no ban waits for one.
#[test]
fn no_ban_waits_for_a_vet_who_cannot_be_had() {
    for action in &PROTOCOL.actions {
        let Some(forbidden) = &action.forbidden else { continue };
        let end = |no_vet| coopside::words::english(coopside::care::end_of_ban(&forbidden.until, no_vet));
        assert!(!end(true).contains("vet says"), "{}", action.id);
        assert_eq!(forbidden.until.vet, end(false).contains("a vet says so"), "{}", action.id);
    }
}

#[test]
fn bytes_that_are_no_protocol_are_refused() {
    let bytes = ready::pack(&PROTOCOL).unwrap_or_else(|error| panic!("{error}"));
    assert!(ready::unpack(&bytes).is_ok());
    assert!(ready::unpack(&bytes[..bytes.len() - 1]).is_err());
    assert!(ready::unpack(&[bytes.as_slice(), &[0]].concat()).is_err());
    assert!(ready::unpack(&[]).is_err());
}

#[test]
fn the_shipped_protocol_loads() {
    assert!(PROTOCOL.questions.len() >= 35 && PROTOCOL.rules.len() >= 60);
}

#[test]
fn an_unknown_name_is_told_with_file_line_and_the_nearest_known_one() {
    let line = line_of("rules/urgent.ron", "\"eyelid >= paler\"");
    refused(
        "rules/urgent.ron",
        "\"eyelid >= paler\", need",
        "\"eyeld >= paler\", need",
        &format!(
            "rules/urgent.ron:{line}: rule `lid_pale`, field when: question `eyeld` is not known; did you mean `eyelid`?"
        ),
    );
    refused(
        "rules/urgent.ron",
        ">= paler\", need",
        ">= palr\", need",
        "has no answer `palr`; it has pink, paler, white, blue; did you mean `paler`?",
    );
    refused(
        "rules/urgent.ron",
        "acts: [\"press\"",
        "acts: [\"pres\"",
        "action `pres` is not known; did you mean `press`?",
    );
    refused("questions/watch.ron", "instruct: \"press\"", "instruct: \"pers\"", "instruction `pers` is not known");
    refused(
        "questions/watch.ron",
        "step: \"bird\"",
        "step: \"brid\"",
        "step `brid` is not known; did you mean `bird`?",
    );
}

#[test]
fn every_fault_is_reported_at_once() {
    let mut files = shipped::files();
    for file in files.iter_mut().filter(|file| file.name != "sources.ron") {
        file.text = file.text.replace("\"merck_trauma\"", "\"merk_trauma\"");
    }
    let count = Protocol::load(&files).err().map_or(0, |faults| faults.0.len());
    assert!(count > 5, "only {count} faults");
}

/// Reading, doubled names, lengths of texts and names that are not known: none hides the others, and none is told twice.
#[test]
fn five_mistakes_of_five_sorts_are_told_together() {
    let spoiled = [
        (
            "actions.ron",
            "say: \"Set her down upright, breast free.\"",
            "say: \"Set her down upright now and then keep both hands off.\"",
        ),
        ("rules/urgent.ron", "when: \"alert >= voice\"", "when: \"alert >= voice and fitting or gasping\""),
        ("rules/urgent.ron", "\"eyelid >= paler\", need", "\"eyeld >= paler\", need"),
        ("rules/wounds.ron", "skin_open >= 10 %", "skin_open >= 10 % and bleeds >= ozes"),
        ("strengths.ron", "(id: \"starch\", name", "(id: \"styptic\", name"),
        ("strengths.ron", "(source: \"sanchez_cells\"", "(source: \"sanchez_cell\""),
    ];
    let mut files = shipped::files();
    for (name, from, to) in spoiled {
        let file = files.iter_mut().find(|file| file.name == name).unwrap_or_else(|| panic!("no file {name}"));
        file.text = spliced(&file.text, from, to).unwrap_or_else(|| panic!("{name} does not hold {from}"));
    }
    let faults = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    for told in [
        "at most 8",
        "expected brackets round what belongs together",
        "question `eyeld` is not known; did you mean `eyelid`?",
        "has no answer `ozes`",
        "this `id` is taken in strengths.ron",
        "source `sanchez_cell` is not known; did you mean `sanchez_cells`?",
    ] {
        assert!(faults.contains(told), "expected {told:?} among\n{faults}");
    }
    assert_eq!(faults.lines().filter(|line| !line.contains("action `put_down`: field `say`")).count(), 5, "{faults}");
}

/// A name that stands in what cannot be read, or stands twice, brings no fault wherever it is used; every other name does.
#[test]
fn what_cannot_be_read_hides_its_own_name_alone() {
    let mut files = shipped::files();
    for file in &mut files {
        match file.name.as_str() {
            "actions.ron" => {
                let text = spliced(&file.text, "(id: \"pluck\", verb", "(id: \"pluck\", vreb");
                file.text = text.unwrap_or_else(|| panic!("nobody plucks"));
            }
            "rules/urgent.ron" => file.text = file.text.replacen("\"press\"", "\"pres\"", 1),
            _ => {}
        }
    }
    let faults = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    assert!(faults.contains("no field is called `vreb` here; there are id, verb,"), "{faults}");
    assert!(faults.contains("did you mean `verb`?"), "{faults}");
    assert!(faults.contains("action `pres` is not known; did you mean `press`?"), "{faults}");
    assert_eq!(faults.lines().count(), 2, "{faults}");
    // Two questions of one name: which is meant nobody knows, so nothing is said of what reads them.
    let twice = "(questions: [(id: \"comb\", step: \"weight\", topic: \"comb\", ask: \"Is it cold?\", look: \"Feel it.\", form: YesNo(say: \"it is cold\"))])";
    let mut files = shipped::files();
    files.push(File { name: "questions/more.ron".into(), text: twice.into() });
    let faults = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    assert!(faults.contains("question `comb`: this `id` is taken in questions/"), "{faults}");
    assert!(faults.contains("give one of the two another"), "{faults}");
    assert_eq!(faults.lines().count(), 1, "{faults}");
}

/// What nobody could read in a fright is refused, and the fault quotes it.
#[test]
fn texts_longer_than_one_reads_in_a_fright_are_refused() {
    let question = |ask: &str, look: &str, say: &str| {
        let text = format!(
            "(questions: [(id: \"extra\", step: \"weight\", topic: \"extra\", ask: \"{ask}\", look: \"{look}\", form: YesNo(say: \"{say}\"))])"
        );
        let mut files = shipped::files();
        files.push(File { name: "questions/more.ron".into(), text });
        Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string())
    };
    let words = |count: usize| vec!["word"; count].join(" ");
    let fits = [words(MOST_ASKED), words(MOST_INSTRUCTED), words(MOST_ANSWERED)];
    assert_eq!(question(&fits[0], &format!("{0}. {0}: {0}.", fits[1]), &fits[2]), "");
    let told = question(&words(MOST_ASKED + 1), &words(MOST_INSTRUCTED + 1), &words(MOST_ANSWERED + 1));
    for expected in [
        "field `ask` has 13 words; a question asks with at most 12",
        "has 13 words; one that instructs has at most 12: make it two",
        "has 8 words; an answer has at most 7",
    ] {
        assert!(told.contains(expected), "expected {expected:?} among\n{told}");
    }
}

/// Why a rule holds and what a question is called are held to a length, too.
#[test]
fn a_reason_and_a_topic_are_held_to_a_length() {
    let words = |count: usize| vec!["word"; count].join(" ");
    let told = |topic: &str, reason: &str| {
        let text = format!(
            "(questions: [(id: \"extra\", step: \"weight\", topic: \"{topic}\", ask: \"Is it so?\", look: \"Look.\", form: YesNo(say: \"it is\"))], rules: [(id: \"extra\", when: \"extra\", need: Home, reason: \"{reason}\")])"
        );
        let mut files = shipped::files();
        files.push(File { name: "questions/more.ron".into(), text });
        Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string())
    };
    assert_eq!(told(&words(MOST_CALLED), &format!("{0}. {0}.", words(MOST_REASONED))), "");
    let both = told(&words(MOST_CALLED + 1), &words(MOST_REASONED + 1));
    for expected in [
        "question `extra`: field `topic` has 7 words; a summary calls a question by at most 6",
        "has 19 words; one that tells why has at most 18: make it two",
    ] {
        assert!(both.contains(expected), "expected {expected:?} among\n{both}");
    }
}

/// A source that is none of ours, and near none: what to do next is told.
#[test]
fn a_source_nobody_knows_says_where_sources_stand() {
    refused(
        "rules/urgent.ron",
        "\"eyelid >= paler\", need",
        "\"eyelid >= paler\", says: \"zzqx\", need",
        "source `zzqx` is not known; expected one of `sources.ron`, or one that is added there; where there is none, leave the field out",
    );
}

/// Of questions in the wrong order those are told that have to be moved, not their neighbours.
#[test]
fn one_question_in_the_wrong_step_brings_one_fault() {
    let told = |file: &str, id: &str, step: &str| {
        let mut files = shipped::files();
        let file = files.iter_mut().find(|known| known.name == file).unwrap_or_else(|| panic!("no {file}"));
        let at = file.text.find(&format!("(id: \"{id}\"")).unwrap_or_else(|| panic!("no {id}"));
        let from = at + file.text[at..].find("step: \"").unwrap_or_else(|| panic!("no step")) + "step: \"".len();
        let to = from + file.text[from..].find('"').unwrap_or_else(|| panic!("no end"));
        file.text.replace_range(from..to, step);
        let faults = Protocol::load(&files).err().map_or_else(Vec::new, |faults| faults.0);
        faults.iter().map(ToString::to_string).filter(|fault| fault.contains("field step")).collect::<Vec<_>>()
    };
    // One in the middle that says a later step, and one that says an earlier.
    for (step, expected) in [("weight", "it would be asked too early"), ("danger", "it would be asked too late")] {
        let faults = told("questions/hands.ron", "eyes_side", step);
        let [fault] = faults.as_slice() else { panic!("{step}: {faults:?}") };
        assert!(fault.contains("question `eyes_side`, field step") && fault.contains(expected), "{fault}");
    }
    // Two that stand the wrong way round with nothing else to tell by: the first.
    let own = |id: &str, step: &str| {
        format!(
            "(id: \"{id}\", step: \"{step}\", topic: \"more\", ask: \"Is it so?\", look: \"Look.\", form: YesNo(say: \"it is so\"))"
        )
    };
    let steps: Vec<&str> = PROTOCOL.steps.iter().map(|step| step.id.as_str()).collect();
    let [.., head, last] = steps.as_slice() else { panic!("no steps") };
    let mut files = shipped::files();
    for file in &mut files {
        if file.name.starts_with("questions/") {
            file.text = String::from("(questions: [])");
        }
    }
    files.push(File {
        name: "questions/more.ron".into(),
        text: format!("(questions: [{}, {}])", own("one", last), own("other", head)),
    });
    let faults = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    let order: Vec<&str> = faults.lines().filter(|line| line.contains("field step")).collect();
    assert!(matches!(order.as_slice(), [one] if one.contains("question `one`, field step")), "{order:?}");
}

/// Questions are asked in the order they stand in: one that stands below a later step would be asked too late.
#[test]
fn a_question_below_a_later_step_is_refused() {
    let text = "(questions: [(id: \"extra\", step: \"legs\", topic: \"extra\", ask: \"Is it so?\", look: \"Look.\", form: YesNo(say: \"it is so\"))])";
    let own = File { name: "questions/more.ron".into(), text: text.into() };
    let mut files = shipped::files();
    files.push(own.clone());
    let told = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    assert!(
        told.starts_with("questions/more.ron:1: question `extra`, field step: step `legs` comes before step `weight`"),
        "{told}"
    );
    assert!(told.contains("expected among the questions of its step"), "{told}");
    files.pop();
    let at = files.iter().position(|file| file.name == "questions/wounds.ron").unwrap_or_else(|| panic!("no wounds"));
    files.insert(at, File { text: own.text.replace("legs", "vent"), ..own });
    assert!(Protocol::load(&files).is_ok());
}

/// What is wrong is told in words of the files: the field, what may stand there, and the place where a file breaks off.
#[test]
fn faults_speak_of_fields_and_places() {
    refused(
        "rules/urgent.ron",
        "need: Now, severity: [(Blood, Grave)]",
        "need: WithinHour, severity: [(Blood, Grave)]",
        "field `need`: `WithinHour` is not known; there are None, Home, WithinADay, WithinHours, Now; did you mean `WithinHours`?",
    );
    refused(
        "rules/urgent.ron",
        "need: Now, severity: [(Blood, Grave)]",
        "need: Now, severity: [(Blood, Grav)]",
        "field `severity`: `Grav` is not known",
    );
    refused("rules/body.ron", "says: \"fawc\"", "says: \"fwac\"", "field says: source `fwac` is not known");
    let line = line_of("rules/urgent.ron", "need: Now, severity: [(Blood, Grave)]");
    refused(
        "rules/urgent.ron",
        "need: Now, severity: [(Blood, Grave)]",
        "need: Now severity: [(Blood, Grave)]",
        &format!("rules/urgent.ron:{line}: this cannot be read, column "),
    );
    refused(
        "rules/urgent.ron",
        "need: Now, severity: [(Blood, Grave)]",
        "need: Now severity: [(Blood, Grave)]",
        "at `severity: [(Blood, Grave)]",
    );
    refused(
        "actions.ron",
        ", until: Lives(because: \"Grease never helps skin.\")",
        "",
        "no `until`; expected what ends the ban: `Test(when: .., say: ..)`, `Vet(or: ..)`",
    );
}

#[test]
fn a_rule_without_a_source_is_common_practice_and_says_no_more_of_itself() {
    let bare = |more: &str| format!("{more}reason: \"It goes on: nobody can");
    let from = "reason: \"It goes on: nobody can";
    refused("rules/urgent.ron", from, &bare("strength: Read, humane: Advised, "), "ours may at most say");
    refused("rules/urgent.ron", from, &bare("strength: Proposal, "), "strength Proposal goes with source \"OURS\"");
    refused(
        "rules/urgent.ron",
        from,
        &bare("source: \"merck_trauma\", strength: Practice, "),
        "goes with source \"PRACTICE\"",
    );
    let rule = |id: &str| PROTOCOL.rules.iter().find(|rule| rule.id == *id).unwrap_or_else(|| panic!("no {id}"));
    let bare = rule("bleeding_goes_on");
    assert_eq!(
        (PROTOCOL.source_id(bare.source).as_str(), bare.strength, &bare.borrowed),
        ("PRACTICE", Strength::Practice, &None)
    );
    // What a source is about is said of whatever rests on it.
    let borrowed = rule("bleeding_press");
    assert_eq!((borrowed.strength, borrowed.borrowed.as_deref()), (Strength::Read, Some("companion birds")));
}

#[test]
fn no_inference_of_ours_can_advise_a_humane_end() {
    refused(
        "rules/body.ron",
        "says: \"fawc\"), (id: \"open_upper_wing\"",
        "), (id: \"open_upper_wing\"",
        "ours may at most say `MayComeIntoQuestion`",
    );
}

#[test]
fn worse_may_not_look_better() {
    // An exact answer in the middle of an ordered question would be switched off by a worse one.
    refused(
        "rules/urgent.ron",
        "when: \"eyelid >= paler\"",
        "when: \"eyelid = paler\"",
        "would switch off this condition, so worse could look better",
    );
    refused("rules/urgent.ron", "when: \"alert >= voice\"", "when: \"not alert = nothing\"", "worse could look better");
    refused("rules/wounds.ron", "skin_open >= 5 %", "skin_open < 5 %", "worse could look better");
    refused(
        "questions/watch.ron",
        "moot: \"breathing = quiet and fighting_breath = no\"",
        "applies: \"breathing >= fast\"",
        "an exception must rest on questions that always apply",
    );
    refused(
        "questions/hands.ron",
        "applies: \"breathing >= open\"",
        "applies: \"breathing = fast\"",
        "worse could look better",
    );
}

#[test]
fn shapes_and_units_are_checked() {
    refused("rules/wounds.ron", "time_since < 12 h\"", "time_since < 12 %\"", "cannot be held against");
    refused("rules/urgent.ron", "need: Now, severity: [(Blood, Grave)]", "needs: Now", "needs");
    refused(
        "rules/urgent.ron",
        "reason: \"She bled hard.",
        "reason: \"\u{26a0}\u{fe0f} She bleeds.",
        "not every terminal shows",
    );
    refused(
        "actions.ron",
        "say: \"Set her down upright, breast free.\"",
        "say: \"Set her down upright now and then keep both hands off.\"",
        "at most 8",
    );
    refused(
        "actions.ron",
        "forbidden: (why: \"She can choke on what comes up her throat.\", instead: \"Keep her upright.\", broken: Minutes, beside: [\"put_down\", \"lay_on_breast\", \"fresh_air\"], until: Lives(because: \"What comes up chokes a bird at any time.\")),",
        " how: \"By the wings.\", left_out: Slight,",
        "is forbidden here but has no `forbidden: (why: .., instead: ..)`",
    );
    refused(
        "actions.ron",
        "how: \"The first cloth holds the clot. It stays where it is.\",",
        "forbidden: (why: \"No.\", instead: \"Press.\", broken: Slight, until: Lives(because: \"It is so.\")),",
        "is advised here but has no `how`",
    );
    refused(
        "questions/watch.ron",
        "(id: \"hen\", say: \"hen\", often: 50),",
        "",
        "roles, field kind: question `kind` has no answer `hen`",
    );
    refused("questions/wounds.ron", "band: Hours(0, 1)", "band: Hours(1, 0)", "low before high");
    refused(
        "questions/hands.ron",
        "applies: \"kind = hen | cock | bantam\"",
        "applies: \"vent = torn\"",
        "is asked later",
    );
    refused("protocol.ron", "(id: \"danger\", ask", "(id: \"blue\", ask", "danger_signs: list `danger` is not known");
    refused("instructions.ron", "(id: \"rest\"", "(id: \"repose\"", "field rest: instruction `rest` is not known");
}

/// An act without what its kind needs is refused: a line for each part that is not pressed firmly, an end of a state that lasts, what
/// shows success, a question behind what opens it; so are rings in the order of doing, and what a ban bars and nothing drops.
#[test]
fn an_act_says_what_its_kind_needs() {
    let eye = "\"place = eye or bleeds_where = eye\"";
    refused("actions.ron", eye, "\"bleeds_where = eye\"", "no line for `eye`, which is pressed only beside it");
    // A line above that of the place, on another condition, could stand in its stead; one that the place rules out could not.
    let above = "fits: [(when: \"comes_out = food and place = neck | breast and bleeds >= runs\"";
    let firm =
        |when: &str| above.replacen('[', &format!("[(when: {when}, say: \"Press it hard.\", pressing: Firmly), "), 1);
    let vent = "this line could stand for `vent`, which is pressed only beside it; expected `pressing: Beside`";
    refused("actions.ron", above, &firm("\"comes_out = pus\""), vent);
    let leg = "\"comes_out = pus and place = leg\"";
    assert_eq!(faults("actions.ron", above, &firm(leg)), Vec::<String>::new());
    let not_there = "\"comes_out = pus and not place = eye | vent\"";
    let told = faults("actions.ron", above, &firm(not_there)).join("\n");
    assert!(told.contains("could stand for `neck`, which is pressed lightly") && !told.contains("`eye`"), "{told}");
    refused("actions.ron", "presses: true,", "", "no `presses`; expected `presses: true`");
    refused("actions.ron", "pressing: Beside, source: \"eye_guidance\"", "source: \"eye_guidance\"", "no `pressing`");
    let ends = "ends: Test(when: \"breathing = quiet\", say: \"She breathes quietly, beak shut.\"),";
    refused("actions.ron", ends, "", "no `ends`; expected what ends it");
    let open = "opens: (when: \"posture = normal\", say: \"She is on her feet.\")";
    let always = "opens: (when: \"always\", say: \"She is on her feet.\")";
    refused("actions.ron", open, always, "`opens` names no question");
    let near = "opens: (when: \"postur = normal\", say: \"She is on her feet.\")";
    refused("actions.ron", open, near, "did you mean `posture`?");
    let worked =
        "worked: (when: \"bleeds = dry or bleeding_now = stopped\", say: \"No red spreads on the cloth any more.\"),";
    refused("actions.ron", worked, "", "no `worked`");
    refused("actions.ron", "left_out: Minutes,", "", "no `left_out`; expected how soon it kills or maims");
    let first = "before: [\"phone_authority\"]";
    refused("actions.ron", first, "before: [\"phone_autority\"]", "did you mean `phone_authority`?");
    refused("actions.ron", first, "before: [\"move_no_bird\"]", "it would have to come before itself");
    let way = "(id: \"cover_way\", part: Wound,";
    let ring =
        "action `cover_way`, field replaces: it would stand in for itself: cover_way, then cover_dry, then cover_way;";
    let told = format!("actions.ron:{}: {ring}", line_of("actions.ron", way));
    refused("actions.ron", way, &format!("{way} replaces: [\"cover_dry\"],"), &told);
    refused("actions.ron", way, &format!("{way} replaces: [\"cover_way\"],"), "for itself: cover_way, then cover_way");
    let goes = "(never: \"by_mouth\", drop: \"soft_food\",";
    let stays = "(never: \"by_mouth\", drop: \"rinse\",";
    refused("actions.ron", goes, stays, "where `by_mouth` is forbidden `soft_food` would still be told");
    // What one of its lines brings her into counts as well.
    let fits = "say: \"Breast down in a ring of towel.\",";
    let fed = "say: \"Breast down in a ring of towel.\", keeps: [Water],";
    refused("actions.ron", fits, fed, "where `by_mouth` is forbidden `lay_on_breast` would still be told");
    let boxed = "say: \"Breast down in a ring of towel.\", keeps: [ClosedBox],";
    refused("actions.ron", fits, boxed, "action `lay_on_breast`: no `ends`; expected what ends it");
}

/// Whatever is told of an act is looked at, wherever it stands: a fit's `how`, its means, what is done meanwhile and alone.
#[test]
fn every_text_of_an_act_is_plain_and_claims_no_review() {
    let sign = "not every terminal shows";
    refused("actions.ron", "how: \"Still red? Somebody", "how: \"Still\u{2194} red? Somebody", sign);
    refused("actions.ron", "means: \"clean cloth\"", "means: \"clean\u{2194} cloth\"", sign);
    let meanwhile = "meanwhile: \"For now room warmth,";
    refused(
        "actions.ron",
        meanwhile,
        "meanwhile: \"Reviewed by a vet: room warmth,",
        "field `meanwhile` says that a vet",
    );
    refused("actions.ron", "undoable: \"Alone?", "undoable: \"Alone\u{2194}?", "field `undoable` holds");
}

#[test]
fn a_line_to_do_fits_a_phone() {
    refused(
        "actions.ron",
        "say: \"Set her down upright, breast free.\"",
        "say: \"Immediately set her down, breast unrestricted.\"",
        "field `say` is longer than 36 characters",
    );
    refused(
        "actions.ron",
        "say: \"Breast down in a ring of towel.\"",
        "say: \"Set her down in a ring of towel, her breast hanging free.\"",
        "field `fits` has 12 words",
    );
}

#[test]
fn a_worse_size_is_never_a_smaller_area() {
    refused(
        "questions/wounds.ron",
        "band: SquareMillimetres(200, 10000)",
        "band: SquareMillimetres(200, 900)",
        "the bands must grow",
    );
}

#[test]
fn a_question_needs_answers_and_is_not_asked_because_of_a_measure() {
    refused(
        "questions/hands.ron",
        "form: Ordered([(id: \"soft\", say: \"soft\"), (id: \"tight\", say: \"belly swollen or tight\", instruct: \"press_nothing\")])",
        "form: Ordered([])",
        "0 answers; a question has 2 to 32",
    );
    refused(
        "questions/hands.ron",
        "applies: \"wing >= broken\"",
        "applies: \"weight >= 5 g\"",
        "may rest on answers only",
    );
}

/// Nobody is led round in a ring, and asked again and again what has come of it.
#[test]
fn an_instruction_that_never_ends_is_refused() {
    let card = "instructions.ron";
    refused(
        card,
        "then: \"bleeding_now\", again: \"fix_go\"",
        "then: \"bleeding_now\", again: \"press\"",
        "`again` leads back",
    );
    refused(card, "again: \"cool_go\"", "again: \"cool\"", "`again` leads back");
    refused(card, "then: \"heat\", again: \"cool_go\"", "then: \"heat\"", "`again` has to say");
    refused(card, "beside: \"bleeds_where\"", "beside: \"bleeds_were\"", "question `bleeds_were` is not known");
    refused(
        "questions/hands.ron",
        "step: \"neck\", touches: true, list: \"neck\", topic: \"air",
        "step: \"neck\", of_seen: true, list: \"neck\", topic: \"air",
        "asked `of_seen`",
    );
}

/// What only tells another answer more fully is asked after that, and decides nothing.
#[test]
fn what_adds_to_an_answer_is_kept_out_of_the_rules() {
    refused(
        "questions/hands.ron",
        "applies: \"leg >= sore\", form: Unordered([(id: \"left\"",
        "form: Unordered([(id: \"left\"",
        "and `applies` by it",
    );
    refused("questions/hands.ron", "adds_to: \"leg\"", "adds_to: \"lge\"", "question `lge` is not known");
    refused("questions/hands.ron", "adds_to: \"leg\", topic", "adds_to: \"place\", topic", "what adds to `place`");
    refused(
        "questions/wounds.ron",
        "(id: \"left\", say: \"left\")",
        "(id: \"l\", say: \"left\")",
        "roles, field side: question `side` has no answer `left`",
    );
    refused(
        "rules/urgent.ron",
        "\"eyelid >= paler\", need",
        "\"leg_side = left\", need",
        "`leg_side` only tells another answer more fully; no rule weighs it",
    );
}

/// The caution is the program's own: a protocol that brings one is refused, with its line and what to do.
#[test]
fn no_protocol_can_replace_the_caution() {
    let with = "caution: \"Reviewed by a vet.\",\n        version:";
    let faults = faults("protocol.ron", "version:", with);
    let line = line_of("protocol.ron", "version:");
    let told = faults.join("\n");
    assert!(told.contains(&format!("protocol.ron:{line}")) && told.contains("delete this line"), "{told}");
    for country in &PROTOCOL.countries {
        assert!(caution_text(country).starts_with(CAUTION), "{}", country.id);
    }
    let whole = coopside::render::json::protocol::protocol(
        &PROTOCOL,
        coopside::words::Reader::english(coopside::zone::Zone::UTC, PROTOCOL.no_country()),
    );
    assert_eq!(
        (whole["caution"].as_str(), whole["reviewed_by_a_veterinarian"].as_bool()),
        (Some(CAUTION), Some(false))
    );
    // Nor may another text say in so many words that a vet stands behind it.
    let law = "Law is told for the United Kingdom;";
    refused("countries.ron", law, "Reviewed by a vet.", "a vet has reviewed or approved");
    refused("protocol.ron", "Only look.", "Approved by veterinarians.", "a vet has reviewed or approved");
}

/// A vet's reach is told by what an answer means: one answer more between the others changes nothing of the rest.
#[test]
fn other_vets_are_phoned_whatever_answers_stand_between() {
    let files = |with: &str| {
        let mut files = shipped::files();
        let before = "(id: \"hours\", say: \"in a few hours\"";
        let changed =
            files.iter_mut().find_map(|file| Some((spliced(&file.text, before, &format!("{with}{before}"))?, file)));
        let Some((text, file)) = changed else { panic!("no question about reach") };
        file.text = text;
        Protocol::load(&files)
    };
    let more = "(id: \"soon\", say: \"in two or three hours\", reach: Hours), ";
    let more = files(more).unwrap_or_else(|faults| panic!("\n{faults}"));
    for protocol in [&*PROTOCOL, &more] {
        let phoned = |reach: &str, sign: (&str, &str)| {
            let mut findings = Findings::default();
            for (question, answer) in [("reach", reach), sign] {
                let answer = Answer::Choice(answer.into());
                findings.say(Statement { about: About::Bird, question: question.into(), answer }, now());
            }
            let verdict = coopside::prove::judge(protocol, &findings, now());
            slower(protocol, &findings, &verdict).is_some()
        };
        let now_needed = ("bleeding_hard", "yes");
        for (reach, told) in [("now", false), ("hours", true), ("day", true), ("none", false)] {
            assert_eq!(phoned(reach, now_needed), told, "{reach}");
        }
    }
    for wrong in ["(id: \"soon\", say: \"in an hour or two\"), ", "(id: \"soon\", say: \"soon\", reach: Nobody), "] {
        let told = files(wrong).err().map(|faults| faults.to_string()).unwrap_or_default();
        assert!(told.contains("the soonest first and the last `Nobody`"), "{told}");
    }
    refused(
        "questions/wounds.ron",
        "(id: \"dry\",",
        "(id: \"dry\", reach: Now,",
        "only `reach` asks how soon a vet can see her",
    );
}

/// What cannot be told, and the last answer, stand for all that can be measured.
#[test]
fn the_last_answer_reaches_as_far_as_any_figure() {
    refused(
        "questions/wounds.ron",
        "SquareMillimetres(400, 200000)",
        "SquareMillimetres(400, 20000)",
        "must reach 200000",
    );
    refused("questions/weight.ron", "Microlitres(45000, 3600000)", "Microlitres(45000, 90000)", "must reach 3600000");
    refused("questions/watch.ron", "PerMinute(60, 2000)", "PerMinute(60, 900)", "must reach 20000");
    refused("questions/hands.ron", "TenthsOfSecond(21, 610)", "TenthsOfSecond(21, 600)", "must reach 610");
}

#[test]
fn a_law_that_bars_a_substance_is_some_countrys() {
    let of = "law_of: [\"us\"]";
    refused("substances.ron", of, "law_of: [\"usa\"]", "country `usa` is not known");
    refused("substances.ron", of, "law_of: []", "`elsewhere` goes with `law_of`");
    refused("substances.ron", "elsewhere: (ruling: AskFirst", "elsewhere: (ruling: MayBeUsed", "milder than the law's");
    refused(
        "substances.ron",
        "name: \"zinc\", ruling: NotHere",
        "name: \"zinc\", ruling: AsTheVetWrote",
        "needs a ruling of its own",
    );
}

#[test]
fn an_ordered_question_with_one_answer_is_refused() {
    refused(
        "questions/hands.ron",
        "form: Ordered([(id: \"soft\", say: \"soft\"), (id: \"tight\", say: \"belly swollen or tight\", instruct: \"press_nothing\")])",
        "form: Ordered([(id: \"soft\", say: \"soft\")])",
        "1 answers; a question has 2 to 32",
    );
}

/// Two questions that each wait for the other: one of them is always asked later.
#[test]
fn a_circle_of_questions_is_refused() {
    let circle = faults("questions/hands.ron", "applies: \"kind = hen | cock | bantam\"", "applies: \"vent >= torn\"");
    assert!(circle.iter().any(|fault| fault.contains("is asked later")), "{}", circle.join("\n"));
}

#[test]
fn a_value_no_bird_comes_to_is_refused() {
    for (value, why) in [
        ("skin_open >= 101 %", "at most 100 in 100"),
        ("skin_open >= 4294967295 %", "at most 100 in 100"),
        ("blood_lost >= 0.0 %", "above 0"),
        ("weight >= 5 g", "6 to 30000 grams"),
        ("weight >= 40000 g", "6 to 30000 grams"),
        ("time_since >= 4294967295 h", "up to a year"),
        ("breath_rate >= 0 /min", "up to 2000"),
    ] {
        refused("rules/wounds.ron", "skin_open >= 10 %", value, why);
    }
}

/// A measure that no question feeds would stay open for every bird.
#[test]
fn a_measure_nothing_is_known_of_is_refused() {
    refused("questions/hands.ron", "gives: Dryness,", "", "no question gives Dryness");
    refused("protocol.ron", "frail_when: \"", "frail_when: \"blood_lost >= 10 % or ", "it may rest on answers only");
    refused(
        "questions/watch.ron",
        "gives: TimeSince,",
        "gives: TimeSince, applies: \"kind = hen\",",
        "such a question has no `applies`",
    );
}

/// Nothing hangs, however many rules there are.
#[test]
fn ten_thousand_rules_load() {
    let mut files = shipped::files();
    let (copied, rest): (Vec<String>, usize) = {
        let rule = "(id: \"copy_0\", when: \"bleeding_hard\", need: Now, reason: \"She bled hard.\"),";
        ((0..10_000).map(|nth| rule.replace("copy_0", &format!("copy_{nth}"))).collect(), PROTOCOL.rules.len())
    };
    files.push(File { name: "rules/many.ron".into(), text: format!("(rules: [\n{}\n])", copied.join("\n")) });
    match Protocol::load(&files) {
        Ok(protocol) => assert_eq!(protocol.rules.len(), rest + 10_000),
        Err(faults) => panic!("{}", faults.to_string().lines().take(3).collect::<Vec<_>>().join("\n")),
    }
}

#[test]
fn what_is_told_is_checked_too() {
    // Scores, grades, words, paragraphs, words for kinds.
    refused("words.ron", "of: [\"moves\", \"notices\"", "of: [\"moves\", \"notcies\"", "did you mean `notices`?");
    refused(
        "words.ron",
        "of: [\"moves\", \"notices\", \"eyes_do\"]",
        "of: [\"kind\"]",
        "ordered question about the bird `kind` is not known",
    );
    refused("words.ron", "of: [\"moves\", \"notices\", \"eyes_do\"]", "of: []", "at least one question");
    refused("words.ron", "(system: Belly,", "(system: Skin,", "the grades of Belly must be told once");
    refused("words.ron", "(term: \"crop\",", "(term: \"\",", "field `term` is empty");
    refused(
        "after.ron",
        "when: \"keel >= sharp\"",
        "when: \"depth >= deep\"",
        "put what is about a wound in `some wound (..)`",
    );
    refused(
        "questions/hands.ron",
        "kinds: [\"goose\", \"turkey\"]",
        "kinds: [\"goos\", \"turkey\"]",
        "kind `goos` is not known; did you mean `goose`?",
    );
    refused(
        "questions/hands.ron",
        "(kinds: [\"goose\", \"turkey\"], look:",
        "(kinds: [], look:",
        "other words are for some kinds",
    );
}

/// Ways: everybody can do something, with what is known, in words.
#[test]
fn ways_and_supplies_are_checked() {
    refused(
        "care.ron",
        "needs: [\"gauze\"], lines: [\"Several",
        "needs: [\"gauz\"], lines: [\"Several",
        "did you mean `gauze`?",
    );
    refused(
        "care.ron",
        "(act: \"press\", lines:",
        "(act: \"press\", needs: [\"box\"], lines:",
        "nobody is left without",
    );
    refused("care.ron", "needs: [\"cornflour\"], lines: [\"Press", "lines: [\"Press", "would never be used");
    refused(
        "care.ron",
        "needs: [\"povidone_iodine\"]",
        "needs: [\"gauze\"]",
        "none of what this needs is thinned by the table of strengths",
    );
    refused(
        "care.ron",
        "(act: \"trim\", say: \"Wet the feathers, stroke them aside.\",",
        "(act: \"trim\",",
        "needs a `say` of its own",
    );
    refused(
        "care.ron",
        "with: [\"warm_box\", \"chick_box\", \"dry_her\", \"room_box\"], at_min: [15, 45, 75, 105], every_min: 60",
        "with: [\"warm_box\", \"chick_box\", \"dry_her\", \"room_box\"], at_min: [15, 45, 75, 105], every_min: 0",
        "at least a minute apart",
    );
    refused("care.ron", "with: [\"warm_box\"", "with: [\"warm_bax\"", "did you mean `warm_box`?");
}

/// The table of strengths: every use ruled once, known names, bands within each other, nothing harmful ruled usable.
#[test]
fn the_table_of_strengths_is_checked() {
    let of = "strengths.ron";
    refused(
        of,
        "of: [\"povidone\"]",
        "of: [\"povidon\"]",
        "substance `povidon` is not known; did you mean `povidone`?",
    );
    refused(of, "of: [\"povidone\"]", "of: [\"salt_water\"]", "is of two families");
    refused(of, "of: [\"povidone\"]", "of: [\"peroxide\"]", "is never used, or a law bars it");
    refused(of, "of: [\"povidone\"]", "of: [\"zinc\"]", "what may be used is known by its names only");
    refused(
        of,
        "(on: [\"nail\"], ruling: MayBeUsed, say: \"A little",
        "(on: [\"nails\"], ruling: MayBeUsed, say: \"A little",
        "use `nails` is not known; did you mean `nail`?",
    );
    refused(of, ", (on: [\"eye\"], ruling: NotHere, say: \"Never in an eye.\")", "", "use `eye` is not ruled");
    refused(
        of,
        "(on: [\"nail\", \"feather\"], ruling",
        "(on: [\"nail\", \"feather\", \"eye\"], ruling",
        "use `eye` is twice ruled",
    );
    refused(of, "ruling: NotHere", "ruling: Unknown", "a use is ruled MayBeUsed, AskFirst, NotHere or Never");
    refused(of, "make: MilligramsPerLitre(1000)", "make: MilligramsPerLitre(100)", "`make` lies in `published`");
    refused(
        of,
        "right: (MilligramsPerLitre(450), MilligramsPerLitre(500))",
        "right: (MilligramsPerLitre(501), MilligramsPerLitre(600))",
        "`published` in `right`",
    );
    refused(of, "at: MilligramsPerLitre(40000)", "at: MilligramsPerLitre(400)", "would be right to use");
    refused(
        of,
        "(id: \"salt_water\", name",
        "(id: \"salted\", name",
        "roles, field salt_water: family `salt_water` is not known; did you mean `salted`?",
    );
    refused(of, "(source: \"sanchez_cells\"", "(source: \"sanchez_cell\"", "source `sanchez_cell` is not known");
    refused(
        of,
        "told_by: [(\"place\", [\"eye\"])]",
        "told_by: [(\"place\", [\"ey\"])]",
        "answer `ey` is not known; did you mean `eye`?",
    );
    refused(of, "told_by: [(\"place\", [\"eye\"])]", "told_by: [(\"alert\", [\"voice\"])]", "is not asked of a wound");
    refused(of, "(id: \"starch\", name", "(id: \"styptic\", name", "this `id` is taken in strengths.ron");
}

#[test]
fn a_broken_file_is_told_with_its_line_and_the_others_are_still_checked() {
    let mut files = shipped::files();
    for file in &mut files {
        match file.name.as_str() {
            "actions.ron" => file.text = "(actions: [\n(id: 3)\n".into(),
            "sources.ron" => file.text = file.text.replacen("grade: Manual", "grade: Manul", 1),
            _ => {}
        }
    }
    let faults = Protocol::load(&files).err().map_or_else(String::new, |faults| faults.to_string());
    assert!(faults.contains("actions.ron:3"), "{faults}");
    assert!(faults.contains("Manul"), "{faults}");
}

#[test]
fn an_empty_protocol_says_what_is_missing() {
    let faults = Protocol::load(&[File { name: "a.ron".into(), text: "()".into() }]);
    assert!(faults.err().is_some_and(|faults| faults.to_string().contains("no file holds `protocol:")));
}

#[test]
fn every_action_and_sign_has_its_place() {
    for (at, action) in PROTOCOL.actions.placed() {
        let in_rules = PROTOCOL.rules.iter().any(|rule| rule.acts.contains(&at) || rule.never.contains(&at));
        let in_instructions = PROTOCOL.instructions.iter().any(|i| i.acts.contains(&at) || i.never.contains(&at));
        assert!(in_rules || in_instructions, "no one advises or forbids {}", action.id);
    }
    for (at, watch) in PROTOCOL.watches.placed() {
        assert!(PROTOCOL.rules.iter().any(|rule| rule.watch.contains(&at)), "no one watches for {}", watch.id);
    }
}

/// Where an instruction says to phone, the keeper's own number can stand under it.
#[test]
fn every_instruction_that_says_to_phone_says_whom() {
    for instruction in &PROTOCOL.instructions {
        let acts = instruction.acts.iter().map(|at| PROTOCOL.action(*at));
        let says = acts.map(|action| action.say.as_str()).chain([instruction.after.as_str()]);
        let phones = says.into_iter().any(|text| text.to_lowercase().contains("phone"));
        assert_eq!(instruction.phones.is_some(), phones, "{}", instruction.id);
    }
}
