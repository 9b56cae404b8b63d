//! What came of holding a protocol against the shipped one, as text for its author.

use super::differences;
use crate::phrase::{Text, compared as phrase, differences as says};
use crate::protocol::Protocol;
use crate::prove::{Comparison, Difference, MOST_SHOWN, Shown};
use crate::words::english;
use std::fmt::Write as _;

/// How many differences of words are told in the text; the JSON holds all.
const MOST_LINES: usize = 20;

/// Everything that is milder, the birds first. `shipped` is the protocol that comes with the program.
pub fn text(shipped: &Protocol, own: &Protocol, found: &Comparison) -> String {
    let mut out = String::new();
    if !found.shown.is_empty() {
        let _ = writeln!(out, "\n{}", english(phrase::milder()));
    }
    for shown in &found.shown {
        bird(&mut out, shipped, shown);
    }
    if found.ended_early {
        let _ = writeln!(out, "    {}", english(phrase::ended_early(MOST_SHOWN)));
    }
    list(&mut out, &english(phrase::less()), &found.weaker, usize::MAX);
    if !found.undecided.is_empty() {
        let names = Text::list(found.undecided.iter().map(differences::sought));
        let _ = writeln!(out, "\n{}", english(phrase::not_decided(names)));
    }
    list(&mut out, &english(phrase::otherwise()), &found.otherwise, MOST_LINES);
    if found.nothing_milder() {
        let same = shipped.fingerprint == own.fingerprint;
        let told = if same { phrase::the_same(found.cases) } else { phrase::nothing_milder(found.cases) };
        let _ = writeln!(out, "\n{}", english(told));
    }
    out
}

fn bird(out: &mut String, shipped: &Protocol, shown: &Shown) {
    for (nth, loss) in shown.losses.iter().enumerate() {
        let _ = writeln!(out, "    {} {}", if nth == 0 { "x" } else { " " }, english(differences::loss(shipped, loss)));
    }
    if !shown.rules.is_empty() {
        let rules = Text::list(shown.rules.iter().map(|id| Text::typed(format!("`{id}`"))));
        let _ = writeln!(out, "      {}", english(phrase::rules(rules)));
    }
    let signs = Text::clauses(shown.bird.iter().map(Text::quoted));
    let _ = writeln!(out, "      {}", english(phrase::bird(signs)));
    if shown.minutes > 0 {
        let _ = writeln!(out, "      {}", english(phrase::judged_after(shown.minutes / 60, shown.minutes % 60)));
    }
    let _ = writeln!(out, "      shipped: {}", english(differences::rungs(shown.shipped)));
    let _ = writeln!(out, "      yours:   {}", english(differences::rungs(shown.own)));
}

fn list(out: &mut String, title: &str, all: &[Difference], most: usize) {
    if !all.is_empty() {
        let _ = writeln!(out, "\n{title}");
    }
    for Difference { sort, id, what } in all.iter().take(most) {
        let line = says::line(differences::sort(*sort), Text::typed(id), differences::what(what));
        let _ = writeln!(out, "    - {}", english(line));
    }
    if all.len() > most {
        let _ = writeln!(out, "    {}", english(phrase::and_more(all.len() - most)));
    }
}
