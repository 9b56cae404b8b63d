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
    for file in files {
        let _ = write!(
            out,
            "/// The phrases of `{0}.ftl`.\npub mod {1} {{\n    const IN_FILE: &str = \"{0}\";\n",
            file.name,
            snake(&file.name)
        );
        match parser::parse(file.text.as_str()) {
            Ok(resource) => messages(&mut out, &mut faults, file, &resource),
            Err((_, errors)) => {
                let told = |error| format!("{}.ftl, {}", file.name, pattern::fault(&file.text, error));
                faults.extend(errors.iter().map(told));
            }
        }
        out.push_str("}\n");
    }
    if faults.is_empty() { Ok(out) } else { Err(faults.join("\n")) }
}

fn messages(out: &mut String, faults: &mut Vec<String>, file: &File, resource: &Resource<&str>) {
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
            Some(value) if message.attributes.is_empty() => function(out, faults, &place, name, message, value),
            _ => faults.push(format!("{place}: a text was expected after `=`, and nothing below it")),
        }
    }
}

/// One function: `pub fn used(what: impl Into<Text>) -> Phrase`.
fn function(
    out: &mut String,
    faults: &mut Vec<String>,
    place: &str,
    name: &str,
    message: &Message<&str>,
    value: &Pattern<&str>,
) {
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
    let constant = if told.is_empty() { "const " } else { "" };
    let vec = if told.is_empty() { "Vec::new()".to_owned() } else { format!("vec![{made}]") };
    let _ = write!(
        out,
        "    /// `{said}`\n    pub {constant}fn {}({takes}) -> super::Phrase {{\n        super::Phrase::of(&super::Name {{ file: IN_FILE, id: \"{}\" }}, {vec})\n    }}\n",
        snake(name),
        message.id.name
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
