//! From the text of protocol files to raw items, each with the place it stands at, so that every fault can point.

use super::fault::Fault;
use super::limits::{MOST_BYTES, MOST_IN_ONE, MOST_ITEMS};
use super::raw;
use ron::value::RawValue;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// One file of a protocol.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct File {
    /// Its name, as the person knows it.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// An item and where it stands.
#[derive(Clone, Debug)]
pub struct Placed<T> {
    /// The item.
    pub item: T,
    /// The file's name.
    pub file: String,
    /// The line its text begins on, from 1.
    line: usize,
    /// Its text, for finding the line of a name in it.
    text: String,
}

impl<T> Placed<T> {
    /// The line on which `name` stands within the item; the item's first line if it does not stand there.
    pub fn line_of(&self, name: &str) -> usize {
        let quoted = format!("\"{name}\"");
        let at = self.text.find(&quoted).or_else(|| self.text.find(name)).unwrap_or(0);
        self.line + self.text.get(..at).map_or(0, |before| before.matches('\n').count())
    }

    /// A fault at `name` within this item.
    pub fn fault(&self, item: String, name: &str, what: String) -> Fault {
        Fault { file: self.file.clone(), line: self.line_of(name), item, what, nearest: None }
    }
}

/// All items of a protocol, unchecked.
#[derive(Clone, Debug, Default)]
pub struct Items {
    pub manifest: Option<Placed<raw::Manifest>>,
    pub roles: Option<Placed<raw::Roles>>,
    pub sources: Vec<Placed<raw::Source>>,
    pub questions: Vec<Placed<raw::Question>>,
    pub rules: Vec<Placed<raw::Rule>>,
    pub actions: Vec<Placed<raw::Action>>,
    pub watches: Vec<Placed<raw::Watch>>,
    pub conflicts: Vec<Placed<raw::Conflict>>,
    pub rules_out: Vec<Placed<raw::RulesOut>>,
    pub instructions: Vec<Placed<raw::Instruction>>,
    pub exclusions: Vec<Placed<raw::Exclusion>>,
    pub paragraphs: Vec<Placed<raw::Paragraph>>,
    pub terms: Vec<Placed<raw::Term>>,
    pub countries: Vec<Placed<raw::Country>>,
    pub scores: Vec<Placed<raw::Score>>,
    pub grades: Vec<Placed<raw::Grades>>,
    pub supplies: Vec<Placed<raw::Supply>>,
    pub ways: Vec<Placed<raw::Way>>,
    pub rounds: Vec<Placed<raw::Round>>,
    pub substances: Vec<Placed<raw::Substance>>,
    pub label_words: Vec<Placed<String>>,
    pub uses: Vec<Placed<raw::Use>>,
    pub families: Vec<Placed<raw::Family>>,
    pub sums: Vec<Placed<raw::Sum>>,
    pub views: Vec<Placed<raw::View>>,
    pub regions: Vec<Placed<raw::Region>>,
}

/// The outer shape of a file: lists of items whose text is kept as it stands.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Outer<'a> {
    #[serde(borrow, default)]
    protocol: Option<&'a RawValue>,
    #[serde(borrow, default)]
    roles: Option<&'a RawValue>,
    #[serde(borrow, default)]
    sources: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    questions: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    rules: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    actions: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    watches: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    conflicts: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    rules_out: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    instructions: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    exclusions: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    paragraphs: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    terms: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    countries: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    scores: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    grades: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    supplies: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    ways: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    rounds: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    substances: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    label_words: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    uses: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    families: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    sums: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    views: Vec<&'a RawValue>,
    #[serde(borrow, default)]
    regions: Vec<&'a RawValue>,
}

/// The notation our files are written in: plain RON with `Some(..)` left out.
pub fn notation() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

/// Reads every file, going on after each faulty item so that all faults are found at once.
pub fn read(files: &[File]) -> (Items, Vec<Fault>) {
    let (mut items, mut faults) = (Items::default(), Vec::new());
    let bytes: usize = files.iter().map(|file| file.text.len()).sum();
    if bytes > MOST_BYTES {
        let largest = files.iter().max_by_key(|file| file.text.len()).map_or("", |file| &file.name);
        let what = format!(
            "the files hold {bytes} bytes together, most of them here; a protocol holds at most {MOST_BYTES}: take out what no rule needs"
        );
        faults.push(Fault { file: largest.into(), line: 0, item: String::new(), what, nearest: None });
        return (items, faults);
    }
    for file in files {
        match notation().from_str::<Outer>(&file.text) {
            Ok(outer) => sort(file, &outer, &mut items, &mut faults),
            Err(error) => faults.push(Fault {
                file: file.name.clone(),
                line: error.span.end.line,
                item: String::new(),
                what: format!("this is not a protocol file: {}", error.code),
                nearest: None,
            }),
        }
    }
    (items, faults)
}

fn sort(file: &File, outer: &Outer, items: &mut Items, faults: &mut Vec<Fault>) {
    single(file, outer.protocol, &mut items.manifest, faults);
    single(file, outer.roles, &mut items.roles, faults);
    place(file, &outer.sources, &mut items.sources, faults);
    place(file, &outer.questions, &mut items.questions, faults);
    place(file, &outer.rules, &mut items.rules, faults);
    place(file, &outer.actions, &mut items.actions, faults);
    place(file, &outer.watches, &mut items.watches, faults);
    place(file, &outer.conflicts, &mut items.conflicts, faults);
    place(file, &outer.rules_out, &mut items.rules_out, faults);
    place(file, &outer.instructions, &mut items.instructions, faults);
    place(file, &outer.exclusions, &mut items.exclusions, faults);
    place(file, &outer.paragraphs, &mut items.paragraphs, faults);
    place(file, &outer.supplies, &mut items.supplies, faults);
    place(file, &outer.ways, &mut items.ways, faults);
    place(file, &outer.rounds, &mut items.rounds, faults);
    place(file, &outer.substances, &mut items.substances, faults);
    place(file, &outer.label_words, &mut items.label_words, faults);
    place(file, &outer.uses, &mut items.uses, faults);
    place(file, &outer.families, &mut items.families, faults);
    place(file, &outer.sums, &mut items.sums, faults);
    place(file, &outer.views, &mut items.views, faults);
    place(file, &outer.regions, &mut items.regions, faults);
    place(file, &outer.terms, &mut items.terms, faults);
    place(file, &outer.countries, &mut items.countries, faults);
    place(file, &outer.scores, &mut items.scores, faults);
    place(file, &outer.grades, &mut items.grades, faults);
}

/// Reads an item a protocol has one of; of several the last that can be read stands.
fn single<T: DeserializeOwned>(
    file: &File,
    found: Option<&RawValue>,
    into: &mut Option<Placed<T>>,
    faults: &mut Vec<Fault>,
) {
    let mut read = Vec::new();
    place(file, found.as_slice(), &mut read, faults);
    *into = read.pop().or(into.take());
}

/// Reads items one by one, each with its place; what cannot be read is told with its line.
pub fn place<T: DeserializeOwned>(
    file: &File,
    found: &[&RawValue],
    into: &mut Vec<Placed<T>>,
    faults: &mut Vec<Fault>,
) {
    // Counted on from item to item: counted anew for each, a long file would take the square of its length.
    let (mut counted, mut lines) = (0, 1);
    for raw in found {
        let text = raw.get_ron();
        // `text` is a slice of the file's text, so their addresses tell how far in it begins.
        let offset = (text.as_ptr() as usize).saturating_sub(file.text.as_ptr() as usize);
        let lead = text.len() - text.trim_start().len();
        let between = file.text.get(counted..offset + lead);
        lines += between.map_or(0, |between| between.matches('\n').count());
        counted = if between.is_some() { offset + lead } else { counted };
        let line = lines;
        let text = text.trim_start();
        let mut too_large = |what: String| {
            faults.push(Fault { file: file.name.clone(), line, item: name_in(text), what, nearest: None });
        };
        if into.len() == MOST_ITEMS {
            too_large(format!(
                "this is one more than the {MOST_ITEMS} of its sort a protocol holds at most: join some"
            ));
            break;
        }
        if text.len() > MOST_IN_ONE {
            too_large(format!(
                "this item holds {} bytes; one holds at most {MOST_IN_ONE}: make it several",
                text.len()
            ));
            continue;
        }
        match notation().from_str::<T>(text) {
            Ok(item) => into.push(Placed { item, file: file.name.clone(), line, text: text.to_owned() }),
            Err(error) => faults.push(Fault {
                file: file.name.clone(),
                line: line + error.span.start.line - 1,
                item: name_in(text),
                what: error.code.to_string(),
                nearest: None,
            }),
        }
    }
}

/// The `id` an unreadable item gives itself, so that its fault can be found by name.
fn name_in(text: &str) -> String {
    text.split_once("id:").and_then(|(_, rest)| rest.split('"').nth(1)).map_or_else(String::new, |id| format!("`{id}`"))
}
