//! What a phrase of the catalogue takes, and where a fault of a file stands: read alike when the program is built and when a
//! translation is loaded.

use fluent_syntax::ast::{Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::ParserError;
use std::collections::BTreeSet;

/// The names of all that a pattern takes, in whatever it chooses.
pub fn takes<'s>(pattern: &Pattern<&'s str>) -> BTreeSet<&'s str> {
    let mut found = BTreeSet::new();
    in_pattern(pattern, &mut found);
    found
}

/// A fault with its line, from 1.
pub fn fault(text: &str, error: &ParserError) -> String {
    let line = 1 + text.get(..error.pos.start).unwrap_or_default().matches('\n').count();
    format!("line {line}: {error}")
}

fn in_pattern<'s>(pattern: &Pattern<&'s str>, found: &mut BTreeSet<&'s str>) {
    for element in &pattern.elements {
        if let PatternElement::Placeable { expression } = element {
            in_expression(expression, found);
        }
    }
}

fn in_expression<'s>(expression: &Expression<&'s str>, found: &mut BTreeSet<&'s str>) {
    match expression {
        Expression::Inline(inline) => in_inline(inline, found),
        Expression::Select { selector, variants } => {
            in_inline(selector, found);
            for variant in variants {
                in_pattern(&variant.value, found);
            }
        }
    }
}

fn in_inline<'s>(inline: &InlineExpression<&'s str>, found: &mut BTreeSet<&'s str>) {
    match inline {
        InlineExpression::VariableReference { id } => {
            found.insert(id.name);
        }
        InlineExpression::Placeable { expression } => in_expression(expression, found),
        InlineExpression::StringLiteral { .. }
        | InlineExpression::NumberLiteral { .. }
        | InlineExpression::FunctionReference { .. }
        | InlineExpression::MessageReference { .. }
        | InlineExpression::TermReference { .. } => {}
    }
}
