//! How a protocol is written: conditions in words, texts over several lines, and a layout that changes nothing but blanks.

#![expect(clippy::panic, clippy::indexing_slicing, reason = "a failing test panics")]

use crate::common::{PROTOCOL, now};
use crate::protocol::refused;
use coopside::finding::particular::Particular;
use coopside::finding::{About, Answer, Findings, Statement};
use coopside::judge::{Target, judge};
use coopside::notes;
use coopside::protocol::layout::{WIDEST, laid_out};
use coopside::protocol::scale::Need;
use coopside::protocol::{File, Protocol};
use coopside::shipped;
use proptest::prelude::*;

/// The shipped protocol with one rule more.
fn with(rule: &str) -> Result<Protocol, String> {
    let mut files = shipped::files();
    files.push(File { name: "rules/more.ron".into(), text: rule.to_owned() });
    Protocol::load(&files).map_err(|faults| faults.to_string())
}

fn ruled(when: &str) -> Result<Protocol, String> {
    with(&format!("(rules: [(id: \"extra\", when: {when}, need: Now, reason: \"She needs it.\")])"))
}

/// The same condition in its old spelling and in words.
const SPELLED: [(&str, &str); 9] = [
    ("Always", "always"),
    ("AtLeast(\"posture\", \"down\")", "posture >= down"),
    ("Is(\"happened\", \"raptor\")", "happened = raptor"),
    ("OneOf(\"happened\", [\"raptor\", \"mammal\"])", "happened = raptor | mammal"),
    ("Not(Is(\"fitting\", \"no\"))", "not fitting = no"),
    ("Count(2, [AtLeast(\"keel\", \"sharp\"), AtLeast(\"air\", \"wide\")])", "2 of (keel >= sharp, air >= wide)"),
    (
        "All([AtLeast(\"keel\", \"sharp\"), Any([Is(\"reach\", \"none\"), AtLeast(\"air\", \"wide\")])])",
        "keel >= sharp and (reach = none or air >= wide)",
    ),
    ("SomeWound(MeasureAtLeast(SkinOpen, Percent(5)))", "some wound (skin_open >= 5 %)"),
    (
        "Any([MeasureUnder(Weight, Grams(400)), MeasureAtLeast(BloodOfWeight, Permille(15))])",
        "weight < 400 g or blood_of_weight >= 1.5 %",
    ),
];

/// The old spelling is refused, and the new one is named; what is named loads.
#[test]
fn the_old_spelling_is_refused_with_the_new_one() {
    for (old, new) in SPELLED {
        let told = ruled(old).err().unwrap_or_else(|| panic!("{old} is taken"));
        assert!(told.contains(&format!("this is the old spelling of a condition; write \"{new}\"")), "{told}");
        if let Err(told) = ruled(&format!("\"{new}\"")) {
            assert!(told.contains("worse could look better") || told.contains("some wound"), "{new}: {told}");
        }
    }
    let finding = "finding: (source: \"PRACTICE\", strength: Practice), reason: \"It goes on: nobody can";
    refused(
        "rules/urgent.ron",
        "reason: \"It goes on: nobody can",
        finding,
        "`finding` is the old spelling; write `source:",
    );
    let advice = "advice: Ours, reason: \"It goes on: nobody can";
    refused(
        "rules/urgent.ron",
        "reason: \"It goes on: nobody can",
        advice,
        "`advice` is the old spelling; write `says:",
    );
}

/// What cannot be read is told with the place and with what was expected there.
#[test]
fn a_condition_that_cannot_be_read_says_where_and_what_was_expected() {
    for (when, expected) in [
        ("", "cannot be read at its end; expected a question, the name of a condition, `not` or a bracket"),
        ("posture >=", "cannot be read at its end; expected an answer, or a number with its unit"),
        ("posture = ", "cannot be read at its end; expected an answer"),
        ("posture > down", "cannot be read at `> down`; expected `and`, `or` or the end"),
        ("fitting and", "expected a question"),
        (
            "fitting or gasping and calm",
            "`or` stands beside `and`; write \"fitting or (gasping and calm)\" or \"(fitting or gasping) and calm\"",
        ),
        (
            "fitting and gasping or calm",
            "`and` stands beside `or`; write \"(fitting and gasping) or calm\" or \"fitting and (gasping or calm)\"",
        ),
        (
            "2 of (posture >= down, not (fitting or calm) or gasping and keel >= sharp and calm)",
            "write \"not (fitting or calm) or (gasping and keel >= sharp and calm)\" or \"(not (fitting or calm) or gasping) and keel >= sharp and calm\"",
        ),
        ("(fitting or gasping", "expected a closing bracket"),
        ("2 of fitting", "expected an opening bracket"),
        ("weight >= 5 stone", "expected a number with its unit: g, h, % or /min"),
        ("time_since >= 2 d", "expected a number with its unit: g, h, % or /min"),
        (
            "wait >= 5 g",
            "`wait` is no measure, and only a measure is held against a number; there are weight, time_since",
        ),
        ("posture >= lost", "question `posture` has no answer `lost`; it has normal, "),
        ("weight < heavy", "expected a number with its unit: g, h, % or /min"),
        ("weight >= 2.5 g", "expected a whole number: only a share has a decimal"),
        ("some wound gasping", "cannot be read"),
        ("fiting", "question or condition `fiting` is not known; did you mean `fitting`?"),
        ("hardly_awke", "did you mean `hardly_awake`?"),
        ("posture", "`posture` has more answers than no and yes; expected one of them, such as `posture = ..`"),
        ("happened >= raptor", "`>=` needs an ordered question"),
        ("weight = heavy", "is a typed weight; hold it against a value"),
    ] {
        let told = ruled(&format!("\"{when}\"")).err().unwrap_or_else(|| panic!("{when} is taken"));
        assert!(told.contains(expected), "{when}: expected {expected:?} in\n{told}");
    }
    let deep = format!("\"{}fitting{}\"", "(".repeat(30), ")".repeat(30));
    assert!(ruled(&deep).err().is_some_and(|told| told.contains("brackets more than 24 deep")));
    assert!(ruled("5").err().is_some_and(|told| told.contains("expected a condition in quotation marks")));
}

/// A name stands for what it says, is told once, and is no question's; it may use the names above it alone.
#[test]
fn a_named_condition_is_its_own_words() {
    let named = ruled("\"hardly_awake\"").unwrap_or_else(|told| panic!("{told}"));
    let spelled = ruled("\"not_responding or alert >= touch\"").unwrap_or_else(|told| panic!("{told}"));
    let last = |protocol: &Protocol| format!("{:?}", protocol.rules.last().map(|rule| &rule.when));
    assert_eq!(last(&named), last(&spelled));
    let own = |text: &str| with(&format!("(conditions: [{text}])")).err().unwrap_or_default();
    assert!(own("(id: \"fitting\", when: \"gasping\")").contains("`fitting` is a question too"));
    assert!(own("(id: \"calm\", when: \"gasping\")").contains("this `id` is taken in conditions.ron"));
    let ahead = "(id: \"first\", when: \"second\"), (id: \"second\", when: \"fitting\")";
    assert!(own(ahead).contains("condition `second` stands further down"), "{}", own(ahead));
    assert!(own("(id: \"round\", when: \"round\")").contains("condition `round` stands further down"));
}

/// What a name brings into an item is told at the name, with the place it is written at; what stands in the item itself, as ever.
#[test]
fn a_fault_that_comes_in_by_a_name_says_where_it_is_written() {
    let line = |of: &str| {
        let files = shipped::files();
        let text = files.iter().find(|file| file.name == "conditions.ron").map(|file| file.text.clone());
        let text = text.unwrap_or_else(|| panic!("no conditions"));
        1 + text[..text.find(of).unwrap_or_else(|| panic!("{of}"))].matches('\n').count()
    };
    let rule = |when: &str, more: &str| {
        let rule = format!("(rules: [(id: \"extra\",\n    when: \"{when}\",\n    {more}, reason: \"She needs it.\")])");
        with(&rule).err().unwrap_or_default()
    };
    let calm = format!("condition `calm`, which stands in conditions.ron, line {}", line("(id: \"calm\""));
    let told = rule("comb >= paler and calm", "need: Now");
    let at = "rules/more.ron:2: rule `extra`, field when: a worse answer to `alert` would switch off this condition";
    assert!(told.contains(at) && told.contains(&format!("`alert` comes in by {calm}")), "{told}");
    assert!(told.contains("in place of `calm` write here what counts, with `>=`"), "{told}");
    // Behind `not` it goes the right way.
    assert_eq!(rule("comb >= paler and not calm", "need: Now"), "");
    let told = rule("alert = alert and not calm", "need: Now");
    assert!(told.contains("worse could look better; write `>=`") && !told.contains("comes in by"), "{told}");
    // A name within a name: both are told.
    let own = "(conditions: [(id: \"at_peace\", when: \"calm and fitting = no\")], rules: [(id: \"extra\", when: \"comb >= paler and at_peace\", need: Now, reason: \"She needs it.\")])";
    let told = with(own).err().unwrap_or_default();
    assert!(told.contains("`alert` comes in by condition `at_peace`, by way of `calm`, which stands in"), "{told}");
    assert!(
        told.contains("`fitting` comes in by condition `at_peace`, which stands in rules/more.ron, line 1"),
        "{told}"
    );
    // In an exception, and where a question applies.
    let told = rule("fitting", "need: Now, unless: [\"gasping\"]");
    assert!(told.contains("field unless: ") && told.contains("comes in by condition `gasping`"), "{told}");
    let asked = |applies: &str| {
        let question = "topic: \"more\", ask: \"Is it so?\", look: \"Look.\", form: YesNo(say: \"it is so\")";
        let own = format!("(questions: [(id: \"more\", step: \"weight\", {question}, applies: \"{applies}\")])");
        with(&own).err().unwrap_or_default()
    };
    assert_eq!(asked("gasping"), "");
    let told = asked("bitten");
    for expected in ["may rest on answers only", "cannot depend on one about a wound"] {
        let here = told.lines().find(|line| line.contains(expected));
        assert!(here.is_none_or(|line| line.contains("comes in by condition `bitten`")), "{told}");
    }
    assert!(told.contains("may rest on answers only, not on measures or wounds; `some wound` comes in by"), "{told}");
}

/// A question asked for one sign needs its words alone.
#[test]
fn a_yes_no_question_needs_its_words_alone() {
    let question = |form: &str| {
        with(&format!(
            "(questions: [(id: \"limps_more\", step: \"weight\", topic: \"limping\", ask: \"Does she limp more?\", look: \"Watch her walk.\", form: {form})])"
        ))
    };
    let protocol =
        question("YesNo(say: \"she limps more\", instruct: \"rest\")").unwrap_or_else(|told| panic!("{told}"));
    let asked = protocol.question("limps_more").unwrap_or_else(|| panic!("it is not asked"));
    let told: Vec<_> =
        asked.choices.iter().map(|choice| (choice.id.as_str(), choice.say.as_str(), choice.often)).collect();
    assert_eq!(told, [("no", "no", 85), ("yes", "she limps more", 15)]);
    assert!(asked.ordered && asked.choices.last().is_some_and(|choice| choice.instruct.is_some()));
    assert!(question("YesNo(no: \"no\")").is_err_and(|told| told.contains("say")));
}

/// A text may go over several lines, and faults behind it still point at their own line.
#[test]
fn a_text_over_several_lines_is_one_sentence() {
    let rule = "(rules: [\n    (id: \"extra\", when: \"fitting or\n            gasping\", need: Now,\n        reason: \"She needs\n            it now.\",\n        acts: [\"pres\"]),\n])";
    let told = with(rule).err().unwrap_or_default();
    assert!(told.contains("rules/more.ron:6: rule `extra`, field acts: action `pres` is not known"), "{told}");
    let protocol = with(&rule.replace("pres", "press")).unwrap_or_else(|told| panic!("{told}"));
    assert_eq!(protocol.rules.last().map(|rule| rule.reason.as_str()), Some("She needs it now."));
    let mut fits = Findings::default();
    let answer = Answer::Choice("yes".into());
    fits.say(Statement { about: About::Bird, question: "fitting".into(), answer }, now());
    let verdict = judge(&protocol, &fits, now());
    assert!(verdict.reasons.iter().any(|reason| protocol.rule(reason.rule).id == *"extra"));
    // What the grammar cannot read inside an item is told with the line it stands on.
    let told = with(&rule.replace("need: Now", "needs: Now")).err().unwrap_or_default();
    assert!(told.contains("rules/more.ron:3"), "{told}");
}

/// Every shipped file is laid out, no line is wider than a screen, and laying out says the same.
#[test]
fn the_shipped_files_are_laid_out() {
    for file in shipped::files() {
        let laid = laid_out(&file.text).unwrap_or_else(|error| panic!("{}: {error}", file.name));
        assert!(laid == file.text, "{}: `coopside format assets/protocol` mends it", file.name);
        let wide = file.text.lines().position(|line| line.chars().count() > WIDEST);
        assert_eq!(wide, None, "{}", file.name);
    }
}

/// However a file was broken into lines, it is laid out alike, and loads as the same protocol.
#[test]
fn laying_out_changes_blanks_alone() {
    let mut files = shipped::files();
    for file in &mut files {
        // Every line that holds no comment is joined to the next.
        let mut joined = String::new();
        let mut lines = file.text.lines().map(str::trim).peekable();
        while let Some(line) = lines.next() {
            joined.push_str(line);
            let apart = |line: &str| line.starts_with("//") || line.is_empty();
            joined.push(if apart(line) || lines.peek().is_some_and(|next| apart(next)) { '\n' } else { ' ' });
        }
        let laid = laid_out(&joined).unwrap_or_else(|error| panic!("{}: {error}", file.name));
        let again = laid_out(&laid).unwrap_or_else(|error| panic!("{}: {error}", file.name));
        assert!(laid == again, "{}: laid out twice it differs", file.name);
        assert!(laid.lines().all(|line| line.chars().count() <= WIDEST), "{}", file.name);
        let bare = |text: &str| text.split_whitespace().collect::<String>();
        assert!(bare(&laid) == bare(&file.text), "{}: it says something else", file.name);
        file.text = laid;
    }
    let protocol = Protocol::load(&files).unwrap_or_else(|faults| panic!("\n{faults}"));
    let told = |protocol: &Protocol| format!("{:?}{:?}{:?}", protocol.rules, protocol.actions, protocol.questions);
    assert!(told(&protocol) == told(&PROTOCOL), "laid out anew it says something else");
}

#[test]
fn what_is_no_file_of_ours_is_not_laid_out() {
    for (text, line, what) in [
        ("(rules: [\n(id: \"a\",\n)", 3, "expected a comma or a closing bracket"),
        ("(rules: [\n(id: \"a\"),\n", 3, "a bracket that is not closed"),
        ("(a: \"b\n)", 1, "a text that does not end"),
        ("(a: r\"b\")", 1, "a text with a letter before it"),
        ("(a: 1 b: 2)", 1, "expected a comma or a closing bracket"),
        ("/* a", 1, "a comment that does not end"),
        ("(a: )", 1, "here no value begins"),
    ] {
        let told = laid_out(text).err().unwrap_or_else(|| panic!("{text} is laid out"));
        assert!(told.what.contains(what) && told.line == line, "{text:?}: {told}");
    }
}

/// A comment stays wherever it stood, in every gap of an item; so do blanks that part no words.
#[test]
fn no_comment_is_lost() {
    let gaps = "/*a*/ ( /*b*/ rules /*c*/ : /*d*/ [ /*e*/ ( /*f*/ id /*g*/ : /*h*/ \"x\" /*i*/ , /*j*/ severity: [ /*k*/ ( /*l*/ Blood /*m*/ , Grave // n\n ) /*o*/ , ] /*p*/ , by: Name /*q*/ ( /*r*/ ) ), /*s*/ ] /*t*/ ) /*u*/";
    let laid = laid_out(gaps).unwrap_or_else(|error| panic!("{error}"));
    for letter in 'a'..='u' {
        let told = if letter == 'n' { "// n".to_owned() } else { format!("/*{letter}*/") };
        assert!(laid.contains(&told), "{told} is gone:\n{laid}");
    }
    assert_eq!(laid_out(&laid), Ok(laid.clone()));
    let text = format!("(a: \"{} 3\u{a0}g  of\u{a0} salt {}\")", "word ".repeat(40), "word ".repeat(20).trim_end());
    let laid = laid_out(&text).unwrap_or_else(|error| panic!("{error}"));
    let joined: Vec<&str> = laid.split('\n').map(|line| line.trim_matches(' ')).collect();
    assert!(joined.join(" ").contains("3\u{a0}g  of\u{a0} salt"), "{laid}");
    // A line left free within a text is one blank, before and after.
    let free = "(rules: [(id: \"extra\", when: \"fitting\", need: Now, reason: \"She needs\n\n   it.\")])";
    for text in [free, &laid_out(free).unwrap_or_else(|error| panic!("{error}"))] {
        let protocol = with(text).unwrap_or_else(|told| panic!("{told}"));
        assert_eq!(protocol.rules.last().map(|rule| rule.reason.as_str()), Some("She needs it."));
    }
}

/// Nothing a file says makes the reader run out of room: brackets, `not` after `not`, names that stand for names.
#[test]
fn no_condition_grows_without_end() {
    let many = format!("\"{}fitting\"", "not ".repeat(5_000));
    assert!(ruled(&many).is_err_and(|told| told.contains("cannot be read")));
    let mut doubled = vec!["(id: \"d0\", when: \"fitting or gasping\")".to_owned()];
    doubled.extend(
        (1..40).map(|nth| format!("(id: \"d{nth}\", when: \"d{before} or (calm and d{before})\")", before = nth - 1)),
    );
    let told = with(&format!("(conditions: [{}])", doubled.join(", "))).err().unwrap_or_default();
    assert!(told.contains("parts, with what its names stand for; it may have 1000"), "{told}");
    assert!(laid_out(&"(".repeat(5_000)).is_err_and(|error| error.what.contains("brackets deeper")));
}

/// What a protocol has one of is told once; without the roles nothing else is said.
#[test]
fn a_second_of_what_there_is_one_of_is_a_fault() {
    let roles =
        shipped::files().into_iter().find(|file| file.name == "roles.ron").unwrap_or_else(|| panic!("no roles"));
    assert!(with(&roles.text).is_err_and(|told| told.contains("it stands in roles.ron already")));
}

/// What stands in no brackets stays where it is once it was laid out: comments between two values, lines left free at the top.
#[test]
fn what_stands_outside_all_brackets_stays_where_it_is() {
    for text in ["a:''\"\"//", "\n\na", "\n\n// one", "(\n\n// one\n)", "()// one\n\n// two\n()\n// three"] {
        let laid = laid_out(text).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(laid_out(&laid), Ok(laid.clone()), "{text:?}");
    }
}

proptest! {
    /// No text whatever makes it panic, and what it lays out stays as it is.
    #[test]
    fn any_text_is_laid_out_or_refused(text in "[a-z(){}\\[\\]:,\"'/ \n.*\\\\]{0,80}") {
        if let Ok(laid) = laid_out(&text) {
            prop_assert_eq!(laid_out(&laid), Ok(laid.clone()));
        }
    }
}

/// The notes that stand in DEVELOPERS.md as an example are read, every field of them; and the same as JSON.
#[test]
fn the_example_of_notes_is_read() {
    let path = format!("{}/DEVELOPERS.md", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let example = text.split("**Notes**").nth(1).and_then(|rest| rest.split("```ron\n").nth(1));
    let example = example.and_then(|rest| rest.split("```").next()).unwrap_or_else(|| panic!("no example"));
    let read =
        |text: &str| notes::read_whole(&PROTOCOL, "notes", text, now()).unwrap_or_else(|faults| panic!("\n{faults}"));
    let (findings, beside) = read(example);
    let said = |about, question: &str| findings.answer(about, question).map(|said| said.statement.answer.clone());
    assert_eq!(said(About::Bird, "weight"), Some(Answer::Amount(1900)));
    assert_eq!(said(About::Bird, "eyelid"), Some(Answer::CannotTell));
    assert!(matches!(said(About::Wound(0), "size"), Some(Answer::Figure(_))) && findings.wounds() == 1);
    assert!(beside.name.as_deref() == Some("Tansy") && beside.particulars.contains_key(&Particular::Laying));
    let at = findings.said().first().map(|said| said.at.to_rfc3339());
    assert_eq!(at.as_deref(), Some("2026-05-01T08:30:00+00:00"));
    let mut json = example.trim().replacen('(', "{", 1).replace("laying:", "\"laying\":");
    json.truncate(json.rfind(",\n)").unwrap_or_else(|| panic!("{json}")));
    for field in ["answers", "wounds", "looked_over", "at", "name", "particulars"] {
        json = json.replace(&format!("    {field}:"), &format!("    \"{field}\":"));
    }
    let (same, _) = read(&format!("{json}\n}}"));
    assert_eq!(format!("{same:?}"), format!("{findings:?}"));
}

/// The worked example of DEVELOPERS.md loads as it stands there, is laid out, and decides what it says it decides.
#[test]
fn the_worked_example_loads_and_decides() {
    let path = format!("{}/DEVELOPERS.md", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let blocks: Vec<&str> = text.split("```ron\n").skip(1).filter_map(|rest| rest.split("```").next()).collect();
    let [question, actions, rules, _] = blocks.as_slice() else { panic!("{} examples", blocks.len()) };
    let mut files = shipped::files();
    // The question stands with those of its step: as a file of its own it would be read too late.
    let legs = files.iter().position(|file| file.name == "questions/hands.ron");
    let legs = legs.unwrap_or_else(|| panic!("no hands"));
    let own = [("questions/more.ron", question), ("more_actions.ron", actions), ("rules/more.ron", rules)];
    for (name, text) in own {
        let laid = laid_out(text).unwrap_or_else(|error| panic!("{error}"));
        assert!(laid == **text, "{name} is laid out so:\n{laid}");
        if name != "questions/more.ron" {
            files.push(File { name: name.to_owned(), text: (*text).to_owned() });
        }
    }
    let items = question.trim().strip_prefix("(questions: [").and_then(|text| text.strip_suffix("])"));
    let items = items.unwrap_or_else(|| panic!("{question}"));
    let last_leg = files[legs].text.rfind("step: \"legs\"").unwrap_or_else(|| panic!("no legs"));
    let before = files[legs].text[..last_leg].rfind("(id:").unwrap_or_else(|| panic!("no question"));
    files[legs].text.insert_str(before, items);
    let protocol = Protocol::load(&files).unwrap_or_else(|faults| panic!("\n{faults}"));
    let judged = |signs: &[(&str, &str)]| {
        let mut findings = Findings::default();
        let well = protocol.questions.iter().filter(|question| !question.wound && question.ordered);
        let fine =
            well.filter_map(|question| Some((question.id.to_string(), question.choices.first()?.id.to_string())));
        let told = [("kind", "hen"), ("comb_kind", "red"), ("reach", "now")].into_iter().chain(signs.iter().copied());
        for (question, answer) in fine.chain(told.map(|(question, answer)| (question.to_owned(), answer.to_owned()))) {
            let answer = Answer::Choice(answer.as_str().into());
            findings.say(Statement { about: About::Bird, question: question.as_str().into(), answer }, now());
        }
        findings.look_over();
        judge(&protocol, &findings, now())
    };
    let need = |signs: &[(&str, &str)]| judged(signs).need.low;
    let (torn, pale) = (("spur_torn", "yes"), ("comb", "paler"));
    assert_eq!(need(&[torn]), Need::WithinADay);
    assert_eq!(need(&[torn, pale]), Need::WithinHours);
    assert!(need(&[pale]) < Need::WithinHours && need(&[]) < Need::WithinADay);
    // One action is advised, the other forbidden until her spur sits fast or a vet has spoken.
    let id = |target: &Target| protocol.action(target.action).id.to_string();
    let verdict = judged(&[torn]);
    assert!(verdict.acts.iter().any(|advised| id(&advised.target) == "soft_floor"));
    let ban = verdict.never.iter().find(|ban| id(&ban.target) == "pull_spur").unwrap_or_else(|| panic!("no ban"));
    let forbidden = protocol.action(ban.target.action).forbidden.as_ref().unwrap_or_else(|| panic!("no end"));
    assert!(
        coopside::words::english(coopside::care::end_of_ban(&forbidden.until, true))
            .contains("no spur is loose any more."),
        "{}",
        coopside::words::english(coopside::care::end_of_ban(&forbidden.until, true))
    );
    let well = judged(&[]);
    assert!(!well.never.iter().any(|ban| id(&ban.target) == "pull_spur"));
}
