//! The classes of item a protocol consists of, each declared once: where it stands in a file, what its raw and its checked form are,
//! what it is called in a fault, and which of its fields is its name.

use super::action::Action;
use super::body::{BodyView, Region};
use super::cond::Cond;
use super::misread::{Loses, Misread};
use super::question::Question;
use super::raw;
use super::read::{File, Placed, place};
use super::rule::{Exclusion, Instruction, Rule, Watch};
use super::source::Source;
use super::strength::{Family, Use};
use super::substance::Substance;
use super::supply::{Round, Supply};
use super::table::{self, At};
use super::texts::{Country, Paragraph, Score};
use ron::value::RawValue;
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;

/// The names of a class, each with the position its item will have.
pub type Names<T> = BTreeMap<String, At<T>>;

/// A class whose items have names.
pub trait Class: Sized {
    /// What an item is called in a fault.
    const WORD: &'static str;

    /// The names of the class.
    fn names(known: &Known) -> &Names<Self>;
}

macro_rules! classes {
    (
        named { $($field:ident: $raw:ty, $checked:ty, $word:literal, $key:ident;)* }
        nameless { $($bare:ident: $bare_raw:ty;)* }
    ) => {
        /// All items of a protocol, unchecked, each with the place it stands at.
        #[derive(Clone, Debug, Default)]
        pub struct Items {
            pub manifest: Option<Placed<raw::Manifest>>,
            pub roles: Option<Placed<raw::Roles>>,
            $(pub $field: Vec<Placed<$raw>>,)*
            $(pub $bare: Vec<Placed<$bare_raw>>,)*
        }

        /// The outer shape of a file: lists of items whose text is kept as it stands.
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct Outer<'a> {
            #[serde(borrow, default)]
            protocol: Option<&'a RawValue>,
            #[serde(borrow, default)]
            roles: Option<&'a RawValue>,
            $(#[serde(borrow, default)] $field: Vec<&'a RawValue>,)*
            $(#[serde(borrow, default)] $bare: Vec<&'a RawValue>,)*
        }

        impl Items {
            /// Takes in what one file holds; what cannot be read is told.
            pub(super) fn take(&mut self, file: &File, outer: &Outer, misread: &mut Misread) {
                single(file, outer.protocol, &mut self.manifest, misread);
                single(file, outer.roles, &mut self.roles, misread);
                $(place(file, &outer.$field, &mut self.$field, Loses::Name(stringify!($key)), misread);)*
                $(place(file, &outer.$bare, &mut self.$bare, Loses::Nothing, misread);)*
            }

            /// Every name that stands twice in its class, or is none.
            pub(super) fn twice(&self) -> Misread {
                let mut misread = Misread::default();
                $(unique([$word, stringify!($key)], &self.$field, |item| &item.$key, &mut misread);)*
                misread
            }
        }

        /// Every name the items declare.
        pub struct Known {
            $(pub $field: Names<$checked>,)*
        }

        impl Known {
            pub(super) fn of(items: &Items) -> Self {
                Self { $($field: positions(&items.$field, |item| &item.$key),)* }
            }
        }

        $(impl Class for $checked {
            const WORD: &'static str = $word;

            fn names(known: &Known) -> &Names<Self> {
                &known.$field
            }
        })*
    };
}

classes! {
    named {
        sources: raw::Source, Source, "source", id;
        questions: raw::Question, Question, "question", id;
        conditions: raw::Named, Cond, "condition", id;
        rules: raw::Rule, Rule, "rule", id;
        actions: raw::Action, Action, "action", id;
        watches: raw::Watch, Watch, "watch sign", id;
        instructions: raw::Instruction, Instruction, "instruction", id;
        exclusions: raw::Exclusion, Exclusion, "exclusion", id;
        paragraphs: raw::Paragraph, Paragraph, "paragraph", id;
        countries: raw::Country, Country, "country", id;
        scores: raw::Score, Score, "score", id;
        supplies: raw::Supply, Supply, "supply", id;
        rounds: raw::Round, Round, "round", id;
        substances: raw::Substance, Substance, "substance", id;
        uses: raw::Use, Use, "use", id;
        families: raw::Family, Family, "family", id;
        views: raw::View, BodyView, "view", id;
        regions: raw::Region, Region, "region", place;
    }
    nameless {
        conflicts: raw::Conflict;
        rules_out: raw::RulesOut;
        terms: raw::Term;
        grades: raw::Grades;
        ways: raw::Way;
        label_words: String;
        sums: raw::Sum;
    }
}

/// Reads an item a protocol has one of; a second one is a fault.
fn single<T: DeserializeOwned>(
    file: &File,
    found: Option<&RawValue>,
    into: &mut Option<Placed<T>>,
    misread: &mut Misread,
) {
    let mut read = Vec::new();
    place(file, found.as_slice(), &mut read, Loses::Everything, misread);
    match (read.pop(), &into) {
        (Some(second), Some(first)) => {
            let what = format!("a protocol has one of these, and it stands in {} already", first.file);
            misread.faults.push(second.fault(String::new(), "", what));
        }
        (Some(only), None) => *into = Some(only),
        (None, _) => {}
    }
}

/// Of two items with one name the first bears it: so no name points further down than its author meant.
fn positions<R, T>(items: &[Placed<R>], name: impl Fn(&R) -> &String) -> Names<T> {
    let mut names = Names::new();
    for (at, placed) in table::placed(items) {
        names.entry(name(&placed.item).clone()).or_insert(at);
    }
    names
}

fn unique<T>([class, key]: [&str; 2], items: &[Placed<T>], name: impl Fn(&T) -> &String, misread: &mut Misread) {
    let mut seen = BTreeMap::new();
    for placed in items {
        let name = name(&placed.item);
        if let Some(before) = seen.insert(name, placed) {
            let what = format!(
                "this `{key}` is taken in {}, line {}; give one of the two another",
                before.file,
                before.line_of(name)
            );
            misread.faults.push(placed.fault(format!("{class} `{name}`"), name, what));
            misread.lost.names.insert(name.clone());
        }
        if !is_name(name) {
            let what = format!("expected as `{key}` letters, digits and `_` alone, such as `torn_spur`");
            misread.faults.push(placed.fault(format!("{class} `{name}`"), name, what));
        }
    }
}

/// Whether this can be the name of anything: letters, digits and `_`.
pub(super) fn is_name(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|letter| letter.is_ascii_alphanumeric() || letter == '_')
}
