//! Notes on one bird, written down outside the program (RON or JSON), and checked name by name against the protocol.

use crate::bird::{Kind, Unlikely};
use crate::finding::doubt::{MOST_WOUNDS, has_control, is_moment};
use crate::finding::figure::Figure;
use crate::finding::particular::Particular;
use crate::finding::{About, Answer, Findings, Statement};
use crate::protocol::fault::{Fault, Faults, nearest};
use crate::protocol::question::Question;
use crate::protocol::{Protocol, notation};
use crate::typed::weight;
use crate::unit::Grams;
use chrono::{DateTime, Utc};
use serde::Deserialize;
use serde::de::{Deserializer, MapAccess, Visitor};
use std::cell::LazyCell;
use std::collections::{BTreeMap, HashMap, HashSet};

/// The word for "looked, and could not tell" in a file.
pub const CANNOT_TELL: &str = "cannot_tell";

/// The most notes on one bird hold. Bytes: a whole examination with every wound there can be comes to a tenth of it.
pub const MOST_BYTES: usize = 1 << 20;

/// What a notes file may say.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Notes {
    /// When the notes were taken; now, where nothing is said.
    #[serde(default)]
    pub at: Option<DateTime<Utc>>,
    /// Answers about the bird.
    pub answers: Pairs,
    /// Answers about each wound, in the order they were found.
    #[serde(default)]
    pub wounds: Vec<Pairs>,
    /// Whether the whole bird has been looked over for wounds.
    #[serde(default)]
    pub looked_over: bool,
    /// Her name, for handing her over.
    #[serde(default)]
    pub name: Option<String>,
    /// What a vet will ask.
    #[serde(default)]
    pub particulars: BTreeMap<Particular, String>,
}

/// What stands beside the findings: her name, and what a vet will ask.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Beside {
    /// Her name.
    pub name: Option<String>,
    /// What a vet will ask.
    pub particulars: BTreeMap<Particular, String>,
}

/// Question and answer, in the order of the file. A map would hide a question answered twice.
#[derive(Clone, Debug, Default)]
pub struct Pairs(pub Vec<(String, String)>);

impl<'de> Deserialize<'de> for Pairs {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct InOrder;
        impl<'de> Visitor<'de> for InOrder {
            type Value = Pairs;
            fn expecting(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
                f.write_str("questions with their answers, like {\"kind\": \"hen\"}")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Pairs, A::Error> {
                let mut pairs = Vec::new();
                while let Some(pair) = map.next_entry()? {
                    pairs.push(pair);
                }
                Ok(Pairs(pairs))
            }
        }
        deserializer.deserialize_map(InOrder)
    }
}

/// Reads a notes file: JSON if it begins with `{`, else RON.
///
/// # Errors
/// Where it is neither, one fault with the line; where names are wrong, every fault at once.
pub fn read(protocol: &Protocol, file: &str, text: &str, now: DateTime<Utc>) -> Result<Findings, Faults> {
    let notes = parse(file, text)?;
    findings(protocol, &notes, &Text { file, text }, now)
}

/// The same, with what stands beside the findings.
///
/// # Errors
/// As [`read`].
pub fn read_whole(
    protocol: &Protocol,
    file: &str,
    text: &str,
    now: DateTime<Utc>,
) -> Result<(Findings, Beside), Faults> {
    let notes = parse(file, text)?;
    let findings = findings(protocol, &notes, &Text { file, text }, now)?;
    Ok((findings, Beside { name: notes.name, particulars: notes.particulars }))
}

fn parse(file: &str, text: &str) -> Result<Notes, Faults> {
    if text.len() > MOST_BYTES {
        let what = format!(
            "these notes hold {} bytes; notes on one bird hold at most {MOST_BYTES}: give each bird a file of her own",
            text.len()
        );
        return Err(Faults(vec![Fault { file: file.into(), line: 0, item: String::new(), what, nearest: None }]));
    }
    let fault = |line, what: String| {
        let what = format!("{what}; notes look like (answers: {{\"kind\": \"hen\"}}, wounds: [], looked_over: true)");
        Faults(vec![Fault { file: file.into(), line, item: String::new(), what, nearest: None }])
    };
    if text.trim_start().starts_with('{') {
        serde_json::from_str(text).map_err(|error| fault(error.line(), error.to_string()))
    } else {
        notation().from_str(text).map_err(|error| fault(error.span.start.line, error.code.to_string()))
    }
}

/// The text a name came from, for telling its line.
pub struct Text<'a> {
    /// The file's name.
    pub file: &'a str,
    /// The whole text.
    pub text: &'a str,
}

impl Text<'_> {
    /// The first line that names something.
    pub fn line_of(&self, name: &str) -> usize {
        LineNumbers::of(self.text).of_name(name, 0)
    }
}

/// Where each name between quotes stands, found in one pass: looked for anew for each name, long notes would take the square
/// of their length.
struct LineNumbers<'a>(HashMap<&'a str, Vec<usize>>);

impl<'a> LineNumbers<'a> {
    fn of(text: &'a str) -> Self {
        let mut found: HashMap<&str, Vec<usize>> = HashMap::new();
        let (mut line, mut parts) = (1, text.split('"').peekable());
        while let Some(part) = parts.next() {
            line += part.matches('\n').count();
            // What stands between two quotes, whichever of them opens: an answer may be named as a question is.
            if let Some(name) = parts.peek() {
                found.entry(name).or_default().push(line);
            }
        }
        Self(found)
    }

    /// The line of the `nth` time a name stands between quotes; the first line where it does not.
    fn of_name(&self, name: &str, nth: usize) -> usize {
        self.0.get(name).and_then(|lines| lines.get(nth)).copied().unwrap_or(1)
    }
}

/// Checks every name of the notes and turns them into findings.
///
/// # Errors
/// Every fault at once.
pub fn findings(protocol: &Protocol, notes: &Notes, text: &Text, now: DateTime<Utc>) -> Result<Findings, Faults> {
    let at = notes.at.unwrap_or(now);
    let (mut findings, mut faults) = (Findings::default(), Vec::new());
    let subjects = std::iter::once((About::Bird, &notes.answers))
        .chain(notes.wounds.iter().enumerate().map(|(number, pairs)| (About::Wound(number), pairs)));
    let mut whole = |item: &str, what: String| {
        faults.push(Fault { file: text.file.into(), line: text.line_of(item), item: item.into(), what, nearest: None });
    };
    if !is_moment(at) {
        whole("at", format!("{at} is no moment of an examination"));
    }
    if notes.wounds.len() > MOST_WOUNDS {
        whole("wounds", format!("{} wounds; one bird has {MOST_WOUNDS} at most", notes.wounds.len()));
    }
    if notes.name.iter().chain(notes.particulars.values()).any(|said| has_control(said)) {
        whole("name", "the name and the particulars are one line each, without control characters".into());
    }
    // Only what is wrong is told with its line.
    let lines = LazyCell::new(|| LineNumbers::of(text.text));
    let mut seen: HashMap<&str, usize> = HashMap::new();
    for (about, Pairs(pairs)) in subjects {
        if about != About::Bird {
            findings.find_wound();
        }
        let mut here: HashSet<&str> = HashSet::new();
        for (question, answer) in pairs {
            let times = seen.entry(question).or_default();
            let before = *times;
            *times += 1;
            let mut fault = |what: String, nearest: Option<String>| {
                let item = match about {
                    About::Bird => format!("answers, `{question}`"),
                    About::Wound(number) => format!("wound {}, `{question}`", number + 1),
                };
                let line = lines.of_name(question, before);
                faults.push(Fault { file: text.file.into(), line, item, what, nearest });
            };
            if !here.insert(question) {
                fault("this question is answered twice".into(), None);
                continue;
            }
            match known(protocol, about, question).and_then(|known| read_answer(known, answer)) {
                Ok(answer) => {
                    findings.say(Statement { about, question: question.as_str().into(), answer }, at);
                }
                Err((what, nearest)) => fault(what, nearest),
            }
        }
    }
    if notes.looked_over {
        findings.look_over();
    }
    if let Err(what) = weight_fits(protocol, &findings) {
        let asked =
            protocol.questions.iter().find(|question| question.is_weight()).map_or("", |asked| asked.id.as_str());
        let (line, item) = (lines.of_name(asked, 0), format!("answers, `{asked}`"));
        faults.push(Fault { file: text.file.into(), line, item, what, nearest: None });
    }
    if faults.is_empty() { Ok(findings) } else { Err(Faults(faults)) }
}

/// Whether the weight is one a bird of her kind could have.
fn weight_fits(protocol: &Protocol, findings: &Findings) -> Result<(), String> {
    let answer = |question: &str| findings.answer(About::Bird, question).map(|said| &said.statement.answer);
    let Some(question) = protocol.questions.iter().find(|question| question.is_weight()) else { return Ok(()) };
    let asked = protocol.kind_question().id.as_str();
    let (Some(told), Some(kind)) = (answer(question.id.as_str()), answer(asked)) else { return Ok(()) };
    let kind = protocol.kind_of(kind);
    match (told, kind) {
        (Answer::Amount(grams), Some(kind)) => {
            let what = |what: Unlikely| format!("`{}` {}", weight::show(Grams(*grams)), what.for_author());
            kind.could_weigh(Grams(*grams)).map_err(what)
        }
        (Answer::Choice(build), _) => build_fits(question, build.as_str(), kind, asked),
        (Answer::Amount(_) | Answer::CannotTell | Answer::Figure(_), _) => Ok(()),
    }
}

/// Whether a build is one of her kind's.
fn build_fits(question: &Question, build: &str, kind: Option<Kind>, asked: &str) -> Result<(), String> {
    let placed = (0u8..).zip(&question.choices);
    if placed.clone().any(|(at, choice)| choice.id == *build && question.is_offered(at, kind)) {
        return Ok(());
    }
    let Some(kind) = kind else {
        return Err(format!("the build `{build}` needs her kind: answer `{asked}`, or give a weight such as 950 g"));
    };
    let offered = placed.filter(|(at, _)| question.is_offered(*at, Some(kind)));
    let offered: Vec<String> = offered.map(|(_, choice)| format!("`{}`", choice.id)).collect();
    let offered = if offered.is_empty() { String::new() } else { format!("{}, ", offered.join(", ")) };
    let name = kind.id().replace('_', " ");
    Err(format!(
        "the build `{build}` is not one of a {name}'s; write {offered}`{CANNOT_TELL}`, or a weight such as 950 g"
    ))
}

type Wrong = (String, Option<String>);

fn known<'p>(protocol: &'p Protocol, about: About, name: &str) -> Result<&'p Question, Wrong> {
    let of_wound = about != About::Bird;
    match protocol.question(name) {
        Some(question) if question.wound == of_wound => Ok(question),
        Some(question) if question.wound => {
            Err(("this is asked of a wound: write it inside `wounds: [{..}]`".into(), None))
        }
        Some(_) => Err(("this is asked of the bird: write it inside `answers: {..}`".into(), None)),
        None => {
            let names = protocol.questions.iter().filter(|q| q.wound == of_wound).map(|q| q.id.as_str());
            Err(("there is no such question".into(), nearest(name, names)))
        }
    }
}

fn read_answer(question: &Question, text: &str) -> Result<Answer, Wrong> {
    if text == CANNOT_TELL {
        return Ok(Answer::CannotTell);
    }
    if question.choice_at(text).is_some() {
        return Ok(Answer::Choice(text.into()));
    }
    if question.is_weight() {
        return weight::parse(text).map(|grams| Answer::Amount(grams.0)).map_err(|error| (error.for_author(), None));
    }
    // Letters alone are meant for an answer; a figure holds a number.
    if let Some(of) = question.figure()
        && text.contains(|c: char| c.is_ascii_digit())
    {
        return Figure::read(of, text).map(Answer::Figure).map_err(|error| (error.for_author(), None));
    }
    let names: Vec<&str> = question.choices.iter().map(|choice| choice.id.as_str()).chain([CANNOT_TELL]).collect();
    let what = format!("`{text}` is no answer to it; the answers are {}", names.join(", "));
    Err((what, nearest(text, names)))
}
