//! The commands for whoever cares for the bird: the plan with what is in the house, what to have there, and whom to call.

use super::command::{Bird, bird, country_of, write};
use super::covers;
use super::examine::data_folder;
use super::exit::Refusal;
use super::here::here;
use super::prove::proven;
use crate::care;
use crate::care::contacts::Contacts;
use crate::care::cupboard::Cupboard;
use crate::care::label::{Before, Given, Held, day};
use crate::content::document::upper_first;
use crate::content::old::caution_text;
use crate::content::{kit, label};
use crate::ledger::{self, Ledger, Setting};
use crate::protocol::Protocol;
use crate::protocol::strength::UseAt;
use crate::protocol::whom::Whom;
use crate::render::{json, text};
use crate::screen::Change;
use crate::words::Reader;
use anyhow::Result;
use chrono::{DateTime, NaiveDate, Utc};
use clap::Args;
use std::path::{Path, PathBuf};

/// Where it is told what is in the house.
pub struct AtHand {
    /// The folder of the ledger, where one was named.
    pub data: Option<PathBuf>,
    /// A list told with the command; it counts before the ledger.
    pub with: Option<String>,
}

/// Prints the plan for a bird in a file of notes.
pub fn plan(
    own: Option<&Path>,
    file: &Path,
    as_json: bool,
    at: Option<DateTime<Utc>>,
    country: Option<&str>,
    at_hand: &AtHand,
) -> Result<()> {
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let cupboard = cupboard(&protocol, at_hand)?;
    let Bird { findings, verdict } = bird(&protocol, file, at)?;
    let plan = care::plan(&protocol, &verdict, &cupboard);
    if as_json {
        let whole = json::verdict(&protocol, &findings, &verdict, &plan, country);
        return write(&(serde_json::to_string_pretty(&json::plan(&whole))? + "\n"));
    }
    write(&text::plan(&protocol, &findings, &verdict, &plan, Reader::english(here(), country)))
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
    /// Print it as JSON (schema `coopside.label/1`).
    #[arg(long)]
    json: bool,
}

impl Product {
    /// The ingredients, and what is told of the vet: with options, else behind the ingredients.
    fn told(&self, today: NaiveDate) -> Result<(&str, Given)> {
        let (ingredients, behind) = Given::behind(&self.ingredients, today);
        let on = self.given.as_deref().map(|text| {
            let what = format!("`{text}` (from --given) is no day that has come; write it as 2026-05-01");
            day(text, today).ok_or(Refusal::Usage(what))
        });
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
pub fn label(own: Option<&Path>, country: Option<&str>, product: &Product) -> Result<()> {
    let (ingredients, given) = product.told(here().local(Utc::now()).date_naive())?;
    let file = product.bird.as_deref();
    if ingredients.trim().is_empty() {
        return Err(Refusal::Usage("no ingredients; copy them from the label, parted by commas".to_owned()).into());
    }
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let judged = file.map(|file| bird(&protocol, file, None)).transpose()?;
    let planned = judged.as_ref().map(|Bird { verdict, .. }| care::plan(&protocol, verdict, &Cupboard::default()));
    let before = judged.as_ref().zip(planned.as_ref()).map(|(bird, plan)| {
        let Bird { findings, verdict } = bird;
        Before { findings, verdict, plan }
    });
    let (ingredients, behind) = care::label::on_behind(&protocol, ingredients);
    let on = product.on.as_deref().map(|told| use_of(&protocol, told)).transpose()?.or(behind);
    let ruled = care::label::rule(&protocol, ingredients, Held { country, given: &given, on, before });
    if product.json {
        return write(&(serde_json::to_string_pretty(&label::json(&protocol, country, &ruled))? + "\n"));
    }
    let told = label::sections(&protocol, country, &ruled, before.is_some());
    write(&text::sections(&Reader::english(here(), country).sections(told)))
}

/// The use a word tells.
fn use_of(protocol: &Protocol, told: &str) -> Result<UseAt> {
    let known =
        || protocol.uses.iter().map(|one| format!("`{}` ({})", one.id, one.name)).collect::<Vec<_>>().join(", ");
    let wrong = || Refusal::Usage(format!("`{told}` (from --on) is none of: {}", known()));
    Ok(protocol.use_at(told.trim().to_lowercase().as_str()).ok_or_else(wrong)?)
}

/// Prints what to have in the house, and what is there.
pub fn kit(own: Option<&Path>, country: Option<&str>, at_hand: &AtHand, as_json: bool) -> Result<()> {
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let cupboard = cupboard(&protocol, at_hand)?;
    let today = Utc::now().date_naive();
    if as_json {
        let told = kit::json(&protocol, country, &cupboard, today);
        return write(&(serde_json::to_string_pretty(&told)? + "\n"));
    }
    let told = kit::sections(&protocol, country, &cupboard, today);
    let names: Vec<&str> = protocol.supplies.iter().map(|supply| supply.id.as_str()).collect();
    let how = format!("\nNames for --with: {}.\n", names.join(", "));
    write(&(text::sections(&told) + &how))
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
pub fn contacts(own: Option<&Path>, data: Option<PathBuf>, country: Option<&str>, calls: &Calls) -> Result<()> {
    let protocol = proven(own)?;
    let country = country_of(&protocol, country)?;
    let folder = data_folder(data)?;
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
    let line =
        |whom: Whom| format!("{}: {}\n", upper_first(whom.words()), contacts.of(whom).unwrap_or("not written down"));
    let lines: String = Whom::ALL.into_iter().map(line).collect();
    write(&format!("{lines}Kept on this machine only.\n\n{}\n", caution_text(country)))
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
fn cupboard(protocol: &Protocol, at_hand: &AtHand) -> Result<Cupboard> {
    if let Some(list) = &at_hand.with {
        return Cupboard::read(protocol, list).map_err(|error| Refusal::Usage(error.to_string()).into());
    }
    let folder = data_folder(at_hand.data.clone())?;
    // A command that only reads makes no ledger.
    if !ledger::is_there(&folder)? {
        return Ok(Cupboard::default());
    }
    Ok(covers::cupboard(&Ledger::open_or_read(&folder)?)?)
}
