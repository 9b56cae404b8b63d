//! The form that comes back: who filled it in, as a role, when, for which protocol, and what of each item. Written blank to be
//! filled in, read with every fault at once.

use super::{Entry, Packet};
use crate::finding::doubt::unseen;
use crate::phrase::{Phrase, review as phrase};
use crate::protocol::fault::{Fault, Faults, nearest};
use crate::protocol::notation;
use crate::words::english;
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.review/1";
/// The longest form that is read. Bytes.
pub const LONGEST: usize = 1 << 20;
/// The longest role and the longest remark. Letters.
pub const ROLE: usize = 80;
/// See [`ROLE`].
pub const REMARK: usize = 2_000;
/// The field for what should stand in the packet and does not.
pub const MISSING: &str = "missing";

/// What of an item.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Verdict {
    /// It may stand as it is.
    Agree,
    /// It is right in the main; the remark says what is not.
    Change,
    /// Nobody should be told this.
    Reject,
}

impl Verdict {
    /// Each of them.
    pub const ALL: [Self; 3] = [Self::Agree, Self::Change, Self::Reject];

    /// In a word.
    pub const fn word(self) -> Phrase {
        match self {
            Self::Agree => phrase::agree(),
            Self::Change => phrase::change(),
            Self::Reject => phrase::reject(),
        }
    }
}

/// A form as it was filled in.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Form {
    /// [`SCHEMA`].
    pub schema: String,
    /// The version of the protocol it was printed for.
    pub protocol: String,
    /// What whoever filled it in is, such as "avian vet"; no name.
    pub role: String,
    /// The day of signing, as `2026-05-01`.
    pub date: String,
    /// What should stand in the packet and does not.
    #[serde(default)]
    pub missing: String,
    /// What of each item.
    pub items: Vec<Filled>,
}

/// One item of a form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Filled {
    /// The item's key.
    pub id: String,
    /// The fingerprint of what it said when the form was printed.
    pub content: String,
    /// What of it; nothing where it was left blank.
    #[serde(default)]
    pub verdict: Option<Verdict>,
    /// What was written beside it.
    #[serde(default)]
    pub remark: String,
}

impl Filled {
    /// Whether nothing was said of it.
    fn is_blank(&self) -> bool {
        self.verdict.is_none() && self.remark.is_empty()
    }
}

/// The packet as a form to be filled in: in English, as its fields and marks are, which the program reads back.
pub fn blank(packet: &Packet) -> String {
    let mut out = format!("// {}\n// {}\n(\n", english(phrase::form_copied()), english(phrase::form_alters()));
    let _ = writeln!(out, "    schema: \"{SCHEMA}\",");
    let _ = writeln!(out, "    protocol: {:?},", packet.version);
    let fields = [("role", phrase::form_role()), ("date", phrase::form_date()), ("missing", phrase::form_missing())];
    for (field, says) in fields {
        let _ = writeln!(out, "    {:<37} // {}", format!("{field}: \"\","), english(says));
    }
    let _ = writeln!(out, "    // {}\n    items: [", english(phrase::form_marks()));
    for Entry { id, title, content, leaf } in packet.entries() {
        let _ = writeln!(out, "        // {}: {}", leaf.mark, english(title.clone()));
        let _ = writeln!(out, "        (id: {id:?}, content: {content:?}, verdict: None, remark: \"\"),");
    }
    out.push_str("    ],\n)\n");
    out
}

/// Reads a form that was filled in for a packet; blank items are left out, and texts stand in one line.
///
/// # Errors
/// Every fault at once, each with its line, what was expected and what to do next.
pub fn read(packet: &Packet, file: &str, text: &str, today: NaiveDate) -> Result<Form, Faults> {
    let whole =
        |line, what: String| Faults(vec![Fault { file: file.into(), line, item: String::new(), what, nearest: None }]);
    if text.len() > LONGEST {
        let what =
            format!("a form has at most {LONGEST} bytes, this one {}; print it afresh and copy the marks", text.len());
        return Err(whole(0, what));
    }
    let mut form: Form = notation().from_str(text).map_err(|error| {
        let what = format!("this is no form: {}; begin from what `coopside review --form ron` writes", error.code);
        whole(error.span.start.line, what)
    })?;
    for line in [&mut form.schema, &mut form.protocol, &mut form.role, &mut form.date, &mut form.missing] {
        *line = one_line(line);
    }
    for filled in &mut form.items {
        filled.remark = one_line(&filled.remark);
    }
    let mut desk = FormCheck { file, text, faults: Vec::new() };
    desk.head(packet, &form, today);
    desk.items(packet, &form);
    form.items.retain(|filled| !filled.is_blank());
    if form.items.is_empty() && form.missing.is_empty() {
        desk.fault("items", "items:", "nothing is marked; write Agree, Change or Reject in place of None".into());
    }
    desk.faults.sort();
    if desk.faults.is_empty() { Ok(form) } else { Err(Faults(desk.faults)) }
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

struct FormCheck<'a> {
    file: &'a str,
    text: &'a str,
    faults: Vec<Fault>,
}

impl FormCheck<'_> {
    /// A fault of a thing, at the first place where `sought` stands.
    fn fault(&mut self, item: &str, sought: &str, what: String) {
        self.near(item, sought, 0, what, None);
    }

    /// The same at the place after so many others.
    fn near(&mut self, item: &str, sought: &str, after: usize, what: String, nearest: Option<String>) {
        let at = self.text.match_indices(sought).nth(after).map_or(0, |(at, _)| at);
        let line = 1 + self.text.get(..at).map_or(0, |before| before.matches('\n').count());
        self.faults.push(Fault { file: self.file.into(), line, item: item.into(), what, nearest });
    }

    fn head(&mut self, packet: &Packet, form: &Form, today: NaiveDate) {
        if form.schema != SCHEMA {
            self.fault(
                "schema",
                "schema:",
                format!("this is no form of ours; expected `{SCHEMA}`: print one with --form ron"),
            );
        }
        if form.protocol != packet.version {
            let what = format!(
                "the form is for protocol {}, this program has {}: print the packet afresh, for its rules may say other things",
                clipped(&form.protocol),
                packet.version
            );
            self.fault("protocol", "protocol:", what);
        }
        if form.role.is_empty() {
            let what = "the role is not filled in; write what signed it, for example \"avian vet\", and no name".into();
            self.fault("role", "role:", what);
        }
        self.readable("role", "role:", &form.role, ROLE);
        self.readable("missing", "missing:", &form.missing, REMARK);
        match NaiveDate::parse_from_str(&form.date, "%Y-%m-%d") {
            Err(_) => self.fault(
                "date",
                "date:",
                "the day of signing is not filled in as a date; write it as 2026-05-01".into(),
            ),
            // Somewhere it is tomorrow already.
            Ok(date) if today.succ_opt().is_some_and(|tomorrow| date > tomorrow) => {
                self.fault("date", "date:", format!("{date} has not come yet; write the day of signing"));
            }
            Ok(_) => {}
        }
    }

    fn items(&mut self, packet: &Packet, form: &Form) {
        let known: Vec<&str> = packet.entries().map(|entry| entry.id.as_str()).collect();
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        for filled in &form.items {
            let id = filled.id.as_str();
            let sought = format!("\"{id}\"");
            let named = format!("item `{}`", clipped(id));
            if !known.contains(&id) {
                let what = "the packet has no such item; copy its key from what --form ron writes".to_owned();
                self.near(&named, &sought, 0, what, nearest(id, known.iter().copied()));
            }
            if !seen.insert(id) {
                self.near(&named, &sought, 1, "it stands twice; leave one of the two".into(), None);
            }
            self.readable(&named, &sought, &filled.remark, REMARK);
        }
    }

    /// A text has to be short enough to be listed, and made of letters that show.
    fn readable(&mut self, item: &str, sought: &str, text: &str, most: usize) {
        let letters = text.chars().count();
        if letters > most {
            self.fault(item, sought, format!("the text has {letters} letters, at most {most} are kept; shorten it"));
        }
        if let Some(letter) = text.chars().find(|letter| unseen(*letter)) {
            let code = u32::from(letter);
            self.fault(item, sought, format!("U+{code:04X} drives a terminal or turns text round; take it out"));
        }
    }
}

/// The beginning of a text that somebody else wrote, for a message.
fn clipped(text: &str) -> String {
    text.chars().take(ROLE).collect()
}
