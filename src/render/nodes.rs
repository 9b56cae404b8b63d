//! A document as JSON: every line with the phrase it is, what that takes, and how it is said; the rules behind it by name.

use crate::content::document::{Item, Section, Tone};
use crate::phrase::{Phrase, Quantity, Taken, Text};
use crate::protocol::Protocol;
use crate::unit::Band;
use crate::words::Reader;
use chrono::{DateTime, SecondsFormat, Utc};
use serde_json::{Map, Value, json};

/// The schema of a document.
pub const SCHEMA: &str = "coopside.document/1";

/// A moment as every JSON of ours tells it: RFC 3339, in UTC, to the second.
pub fn moment(at: DateTime<Utc>) -> String {
    at.to_rfc3339_opts(SecondsFormat::Secs, true)
}

/// A document whole: which it is, what stands on everything that leaves the program, and its sections.
pub fn document(protocol: &Protocol, of: &str, sections: &[Section<Text>], reader: Reader) -> Value {
    json!({
        "schema": SCHEMA,
        "document": of,
        "caution": reader.say(&crate::content::document::caution_text(reader.country)),
        "country": reader.country.id,
        "reviewed_by_a_veterinarian": false,
        "protocol": { "version": protocol.version, "fingerprint": protocol.fingerprint },
        "sections": sections.iter().map(|part| section(protocol, part, &|it| reader.say(it))).collect::<Vec<_>>(),
    })
}

fn section(protocol: &Protocol, part: &Section<Text>, say: &dyn Fn(&Text) -> String) -> Value {
    let tone = match part.tone {
        Tone::Plain => "plain",
        Tone::Act => "act",
        Tone::Never => "never",
        Tone::Grave => "humane_end",
        Tone::Caution => "caution",
    };
    json!({
        "heading": text(&part.heading, say),
        "tone": tone,
        "lines": part.items.iter().map(|line| item(protocol, line, say)).collect::<Vec<_>>(),
    })
}

fn item(protocol: &Protocol, line: &Item<Text>, say: &dyn Fn(&Text) -> String) -> Value {
    let each = |texts: &[Text]| texts.iter().map(|it| text(it, say)).collect::<Vec<_>>();
    let rules = line.why.iter().map(|reason| protocol.rule(reason.rule).id.to_string());
    json!({
        "line": text(&line.lead, say),
        "more": each(&line.more),
        "asked": each(&line.asked),
        "rules": rules.collect::<Vec<_>>(),
        "timer_s": line.timed.map(|(_, seconds)| seconds),
    })
}

/// The schema of what a command did.
pub const DONE: &str = "coopside.done/1";

/// What a command did, a line each; one that only parts two others on a page is left out.
pub fn done(lines: &[Text], say: &dyn Fn(&Text) -> String) -> Value {
    let told = lines.iter().filter(|line| !line.is_empty());
    json!({ "schema": DONE, "done": told.map(|line| text(line, say)).collect::<Vec<_>>() })
}

/// A text as it is said; where it is a phrase, which one, and what it takes.
pub fn text(it: &Text, say: &dyn Fn(&Text) -> String) -> Value {
    let said = say(it);
    match within(it) {
        Text::Phrase(phrase) => json!({ "say": said, "phrase": phrase.id(), "takes": takes(phrase, say) }),
        Text::Moment(at, _) => {
            json!({ "say": said, "at": moment(*at) })
        }
        Text::Quantity(figure) => {
            let [low, high, unit] = quantity(figure);
            json!({ "say": said, "low": low, "high": high, "unit": unit })
        }
        Text::Left(seconds) => json!({ "say": said, "left_s": seconds }),
        Text::Quoted(_)
        | Text::Typed(_)
        | Text::Row(_)
        | Text::List(_)
        | Text::Clauses(_)
        | Text::ListEnded(_)
        | Text::Lines(_)
        | Text::Joined(_)
        | Text::Opening(_)
        | Text::GoingOn(_)
        | Text::Capitals(_) => json!({ "say": said }),
    }
}

/// A figure's low and high end, and its unit by the name no language changes.
pub fn quantity(figure: &Quantity) -> [Value; 3] {
    let Band { low, high } = figure.band();
    [json!(low.value()), json!(high.value()), json!(figure.unit().id())]
}

/// What is said, without how its first letter is written.
fn within(it: &Text) -> &Text {
    match it {
        Text::Opening(of) | Text::GoingOn(of) | Text::Capitals(of) => within(of),
        other => other,
    }
}

fn takes(phrase: &Phrase, say: &dyn Fn(&Text) -> String) -> Value {
    let each = phrase.takes().iter().map(|(name, taken)| {
        let value = match taken {
            Taken::Number(count) => json!(count),
            Taken::Text(it) => text(it, say),
        };
        ((*name).to_owned(), value)
    });
    Value::Object(each.collect::<Map<String, Value>>())
}
