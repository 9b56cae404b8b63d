//! The shipped rules as straight lines of one language or another.

use coopside::protocol::Protocol;
use coopside::protocol::cond::{AnswerSet, Cond, Threshold};
use coopside::protocol::rule::Rule;
use std::fmt::Write as _;

/// How a language says things.
#[derive(Clone, Copy)]
pub struct Tongue {
    and: &'static str,
    or: &'static str,
    not: &'static str,
    yes: &'static str,
    no: &'static str,
    /// From a place to its index: Lua counts from one.
    first: usize,
    one_if: (&'static str, &'static str),
    set: &'static str,
    open: &'static str,
    raise: fn(&str, u8, &str) -> String,
    each_wound: (&'static str, &'static str),
    head: &'static str,
    tail: &'static str,
}

pub const RUST: Tongue = Tongue {
    and: "&&",
    or: "||",
    not: "!",
    yes: "true",
    no: "false",
    first: 0,
    one_if: ("u8::from(", ")"),
    set: "let mut",
    open: ";",
    raise: |scale, rung, cond| format!("if {scale} < {rung} && {cond} {{ {scale} = {rung}; }}\n"),
    each_wound: ("for w in ws {\n", "}\n"),
    head: "#[allow(unused_parens, clippy::all)]\npub fn levels(a: &[u8; 128], m: &[u64; 14], ws: &[([u8; 128], [u64; 2])]) -> [u8; 3] {\nlet (mut need, mut humane, mut authority) = (0u8, 0u8, 0u8);\n",
    tail: "[need, humane, authority]\n}\n",
};

pub const LUA: Tongue = Tongue {
    and: "and",
    or: "or",
    not: "not ",
    yes: "true",
    no: "false",
    first: 1,
    one_if: ("((", ") and 1 or 0)"),
    set: "",
    open: "",
    raise: |scale, rung, cond| format!("if {scale} < {rung} and {cond} then {scale} = {rung} end\n"),
    each_wound: ("for at = 1, #ws do local w = ws[at]\n", "end\n"),
    head: "return function(a, m, ws)\nlocal need, humane, authority = 0, 0, 0\nlocal some = {}\n",
    tail: "return need * 16 + humane * 4 + authority\nend\n",
};

pub const RHAI: Tongue = Tongue {
    and: "&&",
    or: "||",
    not: "!",
    yes: "true",
    no: "false",
    first: 0,
    one_if: ("(if ", " { 1 } else { 0 })"),
    set: "let",
    open: ";",
    raise: |scale, rung, cond| format!("if {scale} < {rung} && {cond} {{ {scale} = {rung}; }}\n"),
    each_wound: ("for w in ws {\n", "}\n"),
    head: "fn levels(a, m, ws) {\nlet need = 0; let humane = 0; let authority = 0;\n",
    tail: "need * 16 + humane * 4 + authority\n}\n",
};

struct Writer<'p> {
    protocol: &'p Protocol,
    tongue: Tongue,
    /// What some wound has to show, worked out before any rule.
    some: Vec<String>,
}

/// All rules that move a scale, in one language.
pub fn written(protocol: &Protocol, tongue: Tongue) -> String {
    let mut writer = Writer { protocol, tongue, some: Vec::new() };
    let (mut of_bird, mut of_wounds) = (String::new(), String::new());
    for grave in (1..=4u8).rev() {
        for rule in &protocol.rules {
            let rungs = [
                ("need", rule.need.map_or(0, |rung| rung as u8), 4),
                ("humane", rule.humane.map_or(0, |rung| rung as u8), 1),
                ("authority", rule.authority.map_or(0, |rung| rung as u8), 1),
            ];
            for (scale, rung, in_doubt) in rungs.into_iter().filter(|(_, rung, _)| *rung == grave) {
                let line = (tongue.raise)(scale, rung, &writer.stands(rule, rung <= in_doubt));
                if rule.per_wound {
                    of_wounds += &line
                } else {
                    of_bird += &line
                }
                if rung > in_doubt {
                    // What could not be told leads as far as doubt may.
                    let line = (tongue.raise)(scale, in_doubt, &writer.stands(rule, true));
                    if rule.per_wound { of_wounds += &line } else { of_bird += &line }
                }
            }
        }
    }
    let (begin, end) = tongue.each_wound;
    let mut out = tongue.head.to_owned();
    for (at, cond) in writer.some.iter().enumerate() {
        let name = if tongue.set.is_empty() { format!("some[{}]", at + 1) } else { format!("some_{at}") };
        let _ = writeln!(out, "{} {name} = {}{}", tongue.set, tongue.no, tongue.open);
        let then = if tongue.set.is_empty() {
            format!("if {cond} then {name} = true end\n")
        } else {
            format!("if {cond} {{ {name} = true; }}\n")
        };
        let _ = write!(out, "{begin}{then}{end}");
    }
    out + &of_bird + begin + &of_wounds + end + tongue.tail
}

impl Writer<'_> {
    fn stands(&mut self, rule: &Rule, in_doubt: bool) -> String {
        let mut parts = vec![self.cond(&rule.when, rule.per_wound, in_doubt)];
        for cond in &rule.unless {
            parts.push(self.tongue.not.to_owned() + &self.cond(cond, rule.per_wound, !in_doubt));
        }
        self.joined(&parts, self.tongue.and, self.tongue.yes)
    }

    fn joined(&self, parts: &[String], with: &str, none: &str) -> String {
        if parts.is_empty() { none.to_owned() } else { format!("({})", parts.join(&format!(" {with} "))) }
    }

    fn cond(&mut self, cond: &Cond, of_wound: bool, counts: bool) -> String {
        match cond {
            Cond::Always => self.tongue.yes.to_owned(),
            Cond::Answer(at, set) => self.answer(at.nth(), *set, self.protocol.ask(*at).wound),
            Cond::All(parts) => {
                let parts: Vec<String> = parts.iter().map(|part| self.cond(part, of_wound, counts)).collect();
                self.joined(&parts, self.tongue.and, self.tongue.yes)
            }
            Cond::Any(parts) => {
                let parts: Vec<String> = parts.iter().map(|part| self.cond(part, of_wound, counts)).collect();
                self.joined(&parts, self.tongue.or, self.tongue.no)
            }
            Cond::Not(part) => self.tongue.not.to_owned() + &self.cond(part, of_wound, !counts),
            Cond::Count(least, parts) => {
                let (before, after) = self.tongue.one_if;
                let ones: Vec<String> =
                    parts.iter().map(|part| format!("{before}{}{after}", self.cond(part, of_wound, counts))).collect();
                format!("({} >= {least})", ones.join(" + "))
            }
            Cond::SomeWound(part) => {
                let cond = self.cond(part, true, counts);
                self.some.push(cond);
                let at = self.some.len() - 1;
                if self.tongue.set.is_empty() { format!("some[{}]", at + 1) } else { format!("some_{at}") }
            }
            Cond::AtLeast(threshold) => self.reaches(*threshold, of_wound, counts),
            Cond::Under(threshold) => format!("{}{}", self.tongue.not, self.reaches(*threshold, of_wound, !counts)),
        }
    }

    fn answer(&self, at: usize, set: AnswerSet, of_wound: bool) -> String {
        let first = self.tongue.first;
        let place = if of_wound && first == 1 {
            format!("w[1][{}]", at + 1)
        } else if of_wound {
            format!("w_0[{at}]")
        } else {
            format!("a[{}]", at + first)
        };
        let place = place.replace("w_0", if self.tongue.set == "let mut" { "w.0" } else { "w[0]" });
        let answers = (0..32).filter(|answer| set.0 >> answer & 1 == 1);
        let equal: Vec<String> = answers.map(|answer| format!("{place} == {answer}")).collect();
        self.joined(&equal, self.tongue.or, self.tongue.no)
    }

    /// A measure against a value: its high end where doubt counts, else its low end.
    fn reaches(&self, threshold: Threshold, of_wound: bool, counts: bool) -> String {
        let (dial, value) = match threshold {
            Threshold::Weight(value) => (0, value.0),
            Threshold::TimeSince(value) => (1, value.0),
            Threshold::SkinOpen(value) => (2, value.0),
            Threshold::BloodLost(value) => (3, value.0),
            Threshold::BloodOfWeight(value) => (4, value.0),
            Threshold::BreathRate(value) => (5, value.0),
            Threshold::Dryness(value) => (6, value.0),
        };
        let end = usize::from(counts);
        let place = match (of_wound && dial == 1, self.tongue.set) {
            (true, "") => format!("w[2][{}]", end + 1),
            (true, "let mut") => format!("w.1[{end}]"),
            (true, _) => format!("w[1][{end}]"),
            (false, _) => format!("m[{}]", 2 * dial + end + self.tongue.first),
        };
        format!("({place} >= {value})")
    }
}
