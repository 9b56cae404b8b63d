//! The grammar of a condition. `not` binds closest; `and` and `or` side by side want brackets, so that nobody has to know which
//! comes first.

use super::brackets::both_ways;
use super::{Amount, Cond};
use winnow::ascii::{dec_uint, multispace0};
use winnow::combinator::{alt, cut_err, delimited, fail, opt, peek, preceded, repeat, separated, terminated};
use winnow::error::{StrContext, StrContextValue};
use winnow::prelude::*;
use winnow::token::{one_of, take_while};

/// What a value is written with.
const UNITS: &str = "a number with its unit: g, h, % or /min";
/// How what is wanted begins where `and` stands beside `or`.
const BRACKETS: &str = "brackets round";
/// How deep brackets may stand in each other: no person reads further, and no file makes us go deeper.
const DEEPEST: usize = 24;

/// Reads a condition; where it cannot be read, in words: up to where, and what was expected there.
pub(super) fn read(text: &str) -> Result<Cond, String> {
    let mut depth = 0usize;
    for letter in text.chars() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth > DEEPEST {
            return Err(format!(
                "the condition has brackets more than {DEEPEST} deep; give a part of it a name under `conditions`"
            ));
        }
    }
    delimited(multispace0, condition, multispace0).parse(text).map_err(|error| {
        let rest = text.get(error.offset()..).unwrap_or_default().trim();
        let place = if rest.is_empty() { "its end".to_owned() } else { format!("`{rest}`") };
        // What was tried innermost is nearest to what was meant.
        let wanted = error.inner().context().find_map(|told| match told {
            StrContext::Expected(value) => Some(value.to_string()),
            _ => None,
        });
        let mut wanted = wanted.unwrap_or_else(|| "`and`, `or` or the end".to_owned());
        if let Some([one, other]) = both_ways(text, error.offset()).filter(|_| wanted.starts_with(BRACKETS)) {
            wanted = format!("{wanted}; write \"{one}\" or \"{other}\"");
        }
        format!("the condition \"{text}\" cannot be read at {place}; expected {wanted}")
    })
}

fn expected(what: &'static str) -> StrContext {
    StrContext::Expected(StrContextValue::Description(what))
}

/// A sign such as `(`, and the blanks after it.
fn sign<'a>(text: &'static str) -> impl ModalParser<&'a str, &'a str, winnow::error::ContextError> {
    terminated(text, multispace0)
}

/// Letters, digits and `_`: a name, or one of our words.
fn letters<'a>(input: &mut &'a str) -> ModalResult<&'a str> {
    terminated(take_while(1.., |c: char| c.is_ascii_alphanumeric() || c == '_'), multispace0).parse_next(input)
}

/// One of our words, and no longer name that begins like it.
fn word<'a>(text: &'static str) -> impl ModalParser<&'a str, &'a str, winnow::error::ContextError> {
    letters.verify(move |found: &str| found == text)
}

/// A name of a question, an answer or a condition: none of our words.
fn name(input: &mut &str) -> ModalResult<String> {
    let ours = |found: &str| matches!(found, "and" | "or" | "not" | "of" | "some" | "wound" | "always");
    letters.verify(move |found: &str| !ours(found)).map(str::to_owned).parse_next(input)
}

/// The name of an answer: whatever joins nothing.
fn answer(input: &mut &str) -> ModalResult<String> {
    letters.verify(|found: &str| !matches!(found, "and" | "or")).map(str::to_owned).parse_next(input)
}

/// Parts joined by one and the same word.
fn condition(input: &mut &str) -> ModalResult<Cond> {
    let first = part(input)?;
    if peek(opt(word("and"))).parse_next(input)?.is_some() {
        let rest = joined(input, "and")?;
        cut_err(peek(opt(word("or"))).verify(Option::is_none))
            .context(expected("brackets round what belongs together: `and` stands beside `or`"))
            .parse_next(input)?;
        return Ok(Cond::All(std::iter::once(first).chain(rest).collect()));
    }
    if peek(opt(word("or"))).parse_next(input)?.is_some() {
        let rest = joined(input, "or")?;
        cut_err(peek(opt(word("and"))).verify(Option::is_none))
            .context(expected("brackets round what belongs together: `or` stands beside `and`"))
            .parse_next(input)?;
        return Ok(Cond::Any(std::iter::once(first).chain(rest).collect()));
    }
    Ok(first)
}

fn joined(input: &mut &str, by: &'static str) -> ModalResult<Vec<Cond>> {
    repeat(1.., preceded(word(by), cut_err(part))).parse_next(input)
}

fn part(input: &mut &str) -> ModalResult<Cond> {
    alt((preceded(word("not"), cut_err(affirmed)).map(|part| Cond::Not(Box::new(part))), affirmed)).parse_next(input)
}

/// A part that does not begin with `not`: of two in a row nobody would know what they mean.
fn affirmed(input: &mut &str) -> ModalResult<Cond> {
    alt((
        bracketed,
        preceded((word("some"), word("wound")), cut_err(bracketed)).map(|part| Cond::SomeWound(Box::new(part))),
        count,
        word("always").value(Cond::Always),
        literal,
    ))
    .context(expected("a question, the name of a condition, `not` or a bracket"))
    .parse_next(input)
}

fn bracketed(input: &mut &str) -> ModalResult<Cond> {
    delimited(sign("("), cut_err(condition), cut_err(sign(")").context(expected("a closing bracket"))))
        .parse_next(input)
}

/// `2 of (a, b, c)`.
fn count(input: &mut &str) -> ModalResult<Cond> {
    let least = terminated(dec_uint::<_, usize, _>, (multispace0, word("of"))).parse_next(input)?;
    let parts = separated(1.., condition, sign(","));
    let parts = delimited(
        cut_err(sign("(").context(expected("an opening bracket"))),
        parts,
        cut_err(sign(")").context(expected("a comma or a closing bracket"))),
    )
    .parse_next(input)?;
    Ok(Cond::Count(least, parts))
}

/// A name alone, a question with its answers, or a measure with a value.
fn literal(input: &mut &str) -> ModalResult<Cond> {
    let name = name(input)?;
    if opt(sign("=")).parse_next(input)?.is_some() {
        let answers = cut_err(separated(1.., answer, sign("|")).context(expected("an answer"))).parse_next(input)?;
        return Ok(Cond::Is(name, answers));
    }
    if opt(sign(">=")).parse_next(input)?.is_some() {
        if peek(opt(one_of('0'..='9'))).parse_next(input)?.is_some() {
            return Ok(Cond::Reaches(name, cut_err(amount).context(expected(UNITS)).parse_next(input)?));
        }
        let answer =
            cut_err(self::answer.context(expected("an answer, or a number with its unit"))).parse_next(input)?;
        return Ok(Cond::AtLeast(name, answer));
    }
    if opt(sign("<")).parse_next(input)?.is_some() {
        return Ok(Cond::Under(name, cut_err(amount).context(expected(UNITS)).parse_next(input)?));
    }
    Ok(Cond::Named(name))
}

/// A number and its unit; a share has one decimal at most.
fn amount(input: &mut &str) -> ModalResult<Amount> {
    let number = dec_uint::<_, u32, _>.parse_next(input)?;
    let tenth = opt(preceded(".", one_of('0'..='9'))).parse_next(input)?.and_then(|digit: char| digit.to_digit(10));
    multispace0.parse_next(input)?;
    let share = number.saturating_mul(10).saturating_add(tenth.unwrap_or(0));
    let unit = terminated(alt(("g", "h", "%", "/min")), multispace0).parse_next(input)?;
    match (unit, tenth) {
        ("%", _) => Ok(Amount::Permille(share)),
        ("g", None) => Ok(Amount::Grams(number)),
        ("h", None) => Ok(Amount::Hours(number)),
        ("/min", None) => Ok(Amount::PerMinute(number)),
        _ => cut_err(fail).context(expected("a whole number: only a share has a decimal")).parse_next(input),
    }
}
