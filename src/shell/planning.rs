//! The commands for whoever cares for the bird: the plan with what is in the house, what to have there, and whom to call.

use super::command::{Bird, bird, write, write_json};
use super::covers;
use super::exit::Refusal;
use super::here::here;
use super::options::Options;
use crate::care;
use crate::care::contacts::Contacts;
use crate::care::cupboard::Cupboard;
use crate::care::label::{Before, Given, Held, day};
use crate::content::document::caution_text;
use crate::content::terms::whom as whom_called;
use crate::content::{course, document, kit, label, mistyped, whole};
use crate::ledger::{self, Ledger, Setting};
use crate::phrase::{Text, command as phrase, terms};
use crate::protocol::Protocol;
use crate::protocol::strength::UseAt;
use crate::protocol::whom::Whom;
use crate::render::json;
use crate::session::change::Change;
use anyhow::Result;
use chrono::{DateTime, NaiveDate, Utc};
use clap::Args;
use std::path::{Path, PathBuf};

/// What is asked of a plan.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// What is in the house.
    pub with: Option<&'a str>,
    /// Whether only the cards are wanted.
    pub course: bool,
}

/// Prints the plan for a bird in a file of notes.
pub fn plan(options: &Options, file: &Path, at: Option<DateTime<Utc>>, asked: &Asked) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let cupboard = cupboard(protocol, options, asked.with)?;
    let Bird { findings, verdict } = bird(protocol, file, at)?;
    let plan = care::plan(protocol, &verdict, &cupboard, reader.zone);
    let contacts = kept_contacts(&options.folder()?)?;
    if options.json {
        let whole = json::with_calls(protocol, &findings, &verdict, &plan, &contacts, reader);
        return write_json(&json::plan(&whole));
    }
    if asked.course {
        let cards = course::cards(protocol, &verdict, &plan, &contacts, reader);
        let parts = cards.iter().flat_map(course::CourseCard::sections);
        return options.write(&reader.sections(parts.chain(document::caution(reader.country))), reader);
    }
    options.write(&whole::planned(protocol, &findings, &verdict, &plan, reader), reader)
}

/// A product, and what is told of it.
#[derive(Debug, Args)]
pub struct Product {
    /// The ingredients, for example `povidone-iodine 10 %, glycerol, water`.
    ingredients: String,
    /// A bird to hold it against: a file of notes, as for `judge`.
    #[arg(long, value_name = "FILE")]
    bird: Option<PathBuf>,
    /// On what it is to be put: `wound`, `hole`, `burn`, `skin`, `nail`, `feather` or `eye`.
    #[arg(long, value_name = "WHERE")]
    on: Option<String>,
    /// The vet who gave it for this bird. With `--given` and `--for` it is as the vet wrote; else it is a leftover.
    #[arg(long, value_name = "NAME")]
    vet: Option<String>,
    /// The day the vet gave it, for example `2026-05-01`.
    #[arg(long, value_name = "DATE")]
    given: Option<String>,
    /// The bird the vet gave it for, by her name.
    #[arg(long = "for", value_name = "BIRD")]
    whom: Option<String>,
}

impl Product {
    /// The ingredients, and what is told of the vet: with options, else behind the ingredients.
    fn told(&self, today: NaiveDate) -> Result<(&str, Given)> {
        let (ingredients, behind) = Given::behind(&self.ingredients, today);
        let on = self
            .given
            .as_deref()
            .map(|text| day(text, today).ok_or_else(|| Refusal::Usage(phrase::no_day(Text::typed(text)).into())));
        let name = |told: &Option<String>| told.clone().filter(|told| !told.trim().is_empty());
        let given = Given {
            vet: name(&self.vet).or(behind.vet),
            on: on.transpose()?.or(behind.on),
            bird: name(&self.whom).or(behind.bird),
        };
        Ok((ingredients, given))
    }
}

/// Prints what may be used of a product.
pub fn label(options: &Options, product: &Product) -> Result<()> {
    let (ingredients, given) = product.told(here().local(Utc::now()).date_naive())?;
    let file = product.bird.as_deref();
    if ingredients.trim().is_empty() {
        return Err(Refusal::Usage(phrase::no_ingredients().into()).into());
    }
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let country = reader.country;
    let judged = file.map(|file| bird(protocol, file, None)).transpose()?;
    let planned =
        judged.as_ref().map(|Bird { verdict, .. }| care::plan(protocol, verdict, &Cupboard::default(), reader.zone));
    let before = judged.as_ref().zip(planned.as_ref()).map(|(bird, plan)| {
        let Bird { findings, verdict } = bird;
        Before { findings, verdict, plan }
    });
    let (ingredients, behind) = care::label::on_behind(protocol, ingredients);
    let on = product.on.as_deref().map(|told| use_of(protocol, told)).transpose()?.or(behind);
    let ruled = care::label::rule(protocol, ingredients, Held { country, given: &given, on, before });
    if options.json {
        return write_json(&json::label(protocol, &ruled, reader));
    }
    let told = label::sections(protocol, country, &ruled, before.is_some());
    options.write(&reader.sections(told), reader)
}

/// The use a word tells.
fn use_of(protocol: &Protocol, told: &str) -> Result<UseAt> {
    let known = protocol.uses.iter();
    let known = known.map(|one| phrase::known_quoted(Text::typed(one.id.as_str()), Text::quoted(&one.name)));
    let wrong = || Refusal::Usage(phrase::no_use(Text::typed(told), Text::list(known)).into());
    Ok(protocol.use_at(told.trim().to_lowercase().as_str()).ok_or_else(wrong)?)
}

/// Prints what to have in the house, and what is there.
pub fn kit(options: &Options, with: Option<&str>) -> Result<()> {
    let opened = options.open()?;
    let (protocol, reader) = (&opened.protocol, options.reader(&opened)?);
    let country = reader.country;
    let cupboard = cupboard(protocol, options, with)?;
    let today = Utc::now().date_naive();
    if options.json {
        let told = json::kit::kit(protocol, &cupboard, today, reader);
        return write_json(&told);
    }
    let told = reader.sections(kit::sections(protocol, country, &cupboard, today));
    let names = Text::list(protocol.supplies.iter().map(|supply| Text::typed(supply.id.as_str())));
    write(&format!("{}\n{}\n", options.written(&told, reader), reader.phrase(&phrase::names_with(names))))
}

/// What is written down of whom to call, said or changed with a command; nothing said takes somebody out.
#[derive(Debug, Args)]
pub struct Calls {
    /// Your vet: name and number, as you dial it.
    #[arg(long, value_name = "TEXT")]
    vet: Option<String>,
    /// A vet who answers at any hour.
    #[arg(long, value_name = "TEXT")]
    emergency: Option<String>,
    /// The animal-health authority.
    #[arg(long, value_name = "TEXT")]
    authority: Option<String>,
}

/// Writes down whom to call, and prints it.
pub fn contacts(options: &Options, calls: &Calls) -> Result<()> {
    let opened = options.open()?;
    let reader = options.reader(&opened)?;
    let folder = options.folder()?;
    let said = [(Whom::Vet, &calls.vet), (Whom::EmergencyVet, &calls.emergency), (Whom::Authority, &calls.authority)];
    let said: Vec<Change> =
        said.into_iter().filter_map(|(whom, said)| Some(Change::Contact(whom, said.clone()?))).collect();
    if !said.is_empty() {
        let mut ledger = Ledger::open(&folder)?;
        for change in &said {
            ledger.amend(change.setting(), |kept| change.made_to(kept))?;
        }
    }
    let contacts = kept_contacts(&folder)?;
    let line = |whom: Whom| {
        let called = contacts.of(whom).map_or_else(|| phrase::not_written_down().into(), Text::typed);
        terms::named(Text::opening(whom_called(whom)), called).into()
    };
    let mut lines: Vec<Text> = Whom::ALL.into_iter().map(line).collect();
    lines.extend([phrase::on_this_machine().into(), Text::default(), caution_text(reader.country)]);
    options.done(&lines)
}

/// Whom to call, as the ledger keeps it; a command that only reads makes no ledger.
pub fn kept_contacts(folder: &Path) -> Result<Contacts> {
    if !ledger::is_there(folder)? {
        return Ok(Contacts::default());
    }
    let ledger = Ledger::open_or_read(folder)?;
    Ok(ledger.setting(Setting::Contacts)?.map(|kept| Contacts::recall(&kept)).unwrap_or_default())
}

/// What is in the house: what the command says, else what the ledger keeps, else nothing.
fn cupboard(protocol: &Protocol, options: &Options, with: Option<&str>) -> Result<Cupboard> {
    if let Some(list) = with {
        return Cupboard::read(protocol, list).map_err(|error| Refusal::Usage(mistyped::cupboard(&error)).into());
    }
    let folder = options.folder()?;
    // A command that only reads makes no ledger.
    if !ledger::is_there(&folder)? {
        return Ok(Cupboard::default());
    }
    Ok(covers::cupboard(&Ledger::open_or_read(&folder)?)?)
}
