//! A language nobody speaks: every letter of every phrase and of every text of the protocol bears an accent, and every text is 1.4
//! times as long. What is read without accents did not come from the catalogue; what is cut shows where room is short.

use coopside::protocol::{File, Protocol};
use coopside::words::translation::begun;
use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement, Resource};
use fluent_syntax::{parser, serializer};

/// Each small letter's stand-in, a to z; the large ones follow from them.
const LETTERS: &str = "áƀćđéƒǵĥíĵķĺḿńóṕɋŕśţúṽŵẋýź";

/// A letter as it is written in that language.
fn accented(letter: char) -> char {
    let small = letter.to_ascii_lowercase();
    let at = u32::from(small).checked_sub(u32::from('a')).and_then(|at| usize::try_from(at).ok());
    let Some(written) = at.and_then(|at| LETTERS.chars().nth(at)) else { return letter };
    if letter.is_ascii_uppercase() { written.to_uppercase().next().unwrap_or(written) } else { written }
}

/// A text in that language: accents, and every fifth letter twice more.
pub fn said(text: &str) -> String {
    let mut out = String::new();
    for (at, letter) in text.chars().enumerate() {
        let written = accented(letter);
        out.push(written);
        if letter.is_ascii_alphabetic() && at % 5 < 2 {
            out.push(written);
        }
    }
    out
}

/// A file of the catalogue in that language.
fn file(file: &File) -> File {
    let resource = parser::parse(file.text.clone()).unwrap_or_else(|(_, errors)| panic!("{}: {errors:?}", file.name));
    let body = resource.body.into_iter().map(|entry| match entry {
        Entry::Message(mut message) => {
            message.value = message.value.map(pattern);
            Entry::Message(message)
        }
        other => other,
    });
    File { name: file.name.clone(), text: serializer::serialize(&Resource { body: body.collect::<Vec<_>>() }) }
}

fn pattern(of: Pattern<String>) -> Pattern<String> {
    let element = |element: PatternElement<String>| match element {
        PatternElement::TextElement { value } => PatternElement::TextElement { value: said(&value) },
        PatternElement::Placeable { expression } => PatternElement::Placeable { expression: within(expression) },
    };
    Pattern { elements: of.elements.into_iter().map(element).collect() }
}

fn within(of: Expression<String>) -> Expression<String> {
    match of {
        Expression::Select { selector, variants } => {
            let variants = variants.into_iter().map(|mut variant| {
                variant.value = pattern(variant.value);
                variant
            });
            Expression::Select { selector, variants: variants.collect() }
        }
        Expression::Inline(InlineExpression::StringLiteral { value }) => {
            Expression::Inline(InlineExpression::StringLiteral { value: said(&value) })
        }
        inline @ Expression::Inline(_) => inline,
    }
}

/// The whole translation: what one begins with, every text of it in that language.
pub fn files(protocol: &Protocol) -> Vec<File> {
    begun(protocol)
        .iter()
        .map(|begun| {
            let mut whole = file(begun);
            // Which protocol it was made for is no text.
            whole.text = whole.text.replace(&said(&protocol.fingerprint), &protocol.fingerprint);
            whole
        })
        .collect()
}
