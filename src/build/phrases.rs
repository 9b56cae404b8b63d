//! Reads the catalogue and writes one function a phrase, so that a phrase or an argument that is missing does not compile.
//!
//! A file `plan.ftl` holds phrases whose names begin with `plan-`; a phrase `plan-used` becomes `phrase::plan::used`. Over each
//! phrase that takes something stands a comment with one line for each thing: `# $what (text): what was used`. `(text)` is anything
//! that can be said, `(number)` a count the catalogue may choose its words by.

use super::pattern;
use super::protocol::File;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Message, Pattern, PatternElement, Resource};
use fluent_syntax::parser;
use std::collections::BTreeSet;
use std::fmt::Write;

/// The functions of all files; every fault of the catalogue at once, in words.
pub fn written(files: &[File]) -> Result<String, String> {
    let mut faults = Vec::new();
    let mut out = String::new();
    let mut names = Names::default();
    for file in files {
        let _ = write!(out, "/// The phrases of `{}.ftl`.\npub mod {} {{\n", file.name, snake(&file.name));
        match parser::parse(file.text.as_str()) {
            Ok(resource) => messages(&mut out, &mut faults, &mut names, (file, &resource)),
            Err((_, errors)) => {
                let told = |error| format!("{}.ftl, {}", file.name, pattern::fault(&file.text, error));
                faults.extend(errors.iter().map(told));
            }
        }
        out.push_str("}\n");
        names.files.push((names.starts.len(), file.name.clone()));
    }
    names.write(&mut out);
    if faults.is_empty() { Ok(out) } else { Err(faults.join("\n")) }
}

/// The names of all phrases, one after the other: a phrase keeps its place among them, so that two thousand of them cost no address
/// each.
#[derive(Default)]
struct Names {
    text: String,
    /// Where each begins.
    starts: Vec<usize>,
    /// Each file, with how many phrases stand in it and those before.
    files: Vec<(usize, String)>,
}

impl Names {
    /// Takes a name in; its place.
    fn add(&mut self, id: &str) -> usize {
        self.starts.push(self.text.len());
        self.text.push_str(id);
        self.starts.len() - 1
    }

    fn write(&self, out: &mut String) {
        let starts = self.starts.iter().copied().chain([self.text.len()]);
        let starts = starts.map(|start| start.to_string()).collect::<Vec<_>>().join(",");
        let files =
            self.files.iter().map(|(until, name)| format!("({until}, \"{name}\")")).collect::<Vec<_>>().join(",");
        let parts = ["const NAMES:&str=\"", &self.text, "\";\nstatic STARTS:&[u32]=&["];
        let more = [starts.as_str(), "];\nstatic FILES:&[(u16,&str)]=&[", &files, "];\n"];
        out.extend(parts.into_iter().chain(more));
    }
}

fn messages(out: &mut String, faults: &mut Vec<String>, names: &mut Names, of: (&File, &Resource<&str>)) {
    let (file, resource) = of;
    let mut seen = BTreeSet::new();
    for entry in &resource.body {
        let Entry::Message(message) = entry else { continue };
        let id = message.id.name;
        let place = format!("{}.ftl, {id}", file.name);
        let Some(name) = id.strip_prefix(&format!("{}-", file.name)) else {
            faults.push(format!("{place}: its name was expected to begin with `{}-`", file.name));
            continue;
        };
        if !seen.insert(id) {
            faults.push(format!("{place}: there is one of this name above; give it another"));
        }
        match &message.value {
            Some(value) if message.attributes.is_empty() => {
                function(out, faults, Position { told: &place, name, at: names.add(id) }, message, value);
            }
            _ => faults.push(format!("{place}: a text was expected after `=`, and nothing below it")),
        }
    }
}

/// Where a phrase stands: as a fault tells it, its name within its file, and its place among the names.
#[derive(Clone, Copy)]
struct Position<'p> {
    told: &'p str,
    name: &'p str,
    at: usize,
}

/// One function: `pub fn used(what: impl Into<Text>) -> Phrase`.
fn function(
    out: &mut String,
    faults: &mut Vec<String>,
    place: Position,
    message: &Message<&str>,
    value: &Pattern<&str>,
) {
    let Position { told: place, name, at } = place;
    let used = pattern::takes(value);
    let told = declared(message);
    for missing in used.iter().filter(|used| !told.iter().any(|(name, _)| name == *used)) {
        faults.push(format!("{place}: `# ${missing} (text): ...` or `(number)` was expected in the comment over it"));
    }
    for (idle, _) in told.iter().filter(|(name, _)| !used.contains(name)) {
        faults.push(format!("{place}: its comment tells of ${idle}, which it does not take"));
    }
    let takes = told.iter().map(|(name, kind)| format!("{}: impl Into<super::{}>", snake(name), kind.wanted()));
    let made = told.iter().map(|(name, kind)| format!("(\"{name}\", {})", kind.made(&snake(name))));
    let (takes, made) = (takes.collect::<Vec<_>>().join(", "), made.collect::<Vec<_>>().join(", "));
    let said = said(value).replace('`', "'");
    let (constant, made) = if told.is_empty() {
        ("const ", format!("super::Phrase::plain({at})"))
    } else {
        ("", format!("super::Phrase::taking({at}, [{made}])"))
    };
    let _ = write!(
        out,
        "    /// `{said}`\n    pub {constant}fn {}({takes}) -> super::Phrase {{\n        {made}\n    }}\n",
        snake(name),
    );
}

/// What a phrase takes a thing as.
#[derive(Clone, Copy)]
enum Kind {
    Number,
    Text,
}

impl Kind {
    const fn wanted(self) -> &'static str {
        match self {
            Self::Number => "Number",
            Self::Text => "Text",
        }
    }

    fn made(self, name: &str) -> String {
        match self {
            Self::Number => format!("super::Taken::Number({name}.into().0)"),
            Self::Text => format!("super::Taken::Text({name}.into())"),
        }
    }
}

/// What the comment over a phrase says it takes, in that order.
fn declared<'s>(message: &Message<&'s str>) -> Vec<(&'s str, Kind)> {
    let lines = message.comment.iter().flat_map(|comment| &comment.content);
    let read = lines.filter_map(|line| {
        let (name, rest) = line.trim().strip_prefix('$')?.split_once(' ')?;
        match rest.trim_start().strip_prefix('(')?.split_once(')')?.0 {
            "number" => Some((name, Kind::Number)),
            "text" => Some((name, Kind::Text)),
            _ => None,
        }
    });
    read.collect()
}

/// What a phrase says, in a line, for the docs of its function.
fn said(pattern: &Pattern<&str>) -> String {
    let parts = pattern.elements.iter().map(|element| match element {
        PatternElement::TextElement { value } => value.replace('\n', " "),
        PatternElement::Placeable { expression: Expression::Inline(InlineExpression::VariableReference { id }) } => {
            format!("{{{}}}", id.name)
        }
        PatternElement::Placeable { .. } => "{..}".to_owned(),
    });
    parts.collect::<String>().trim().to_owned()
}

fn snake(name: &str) -> String {
    name.replace('-', "_")
}
