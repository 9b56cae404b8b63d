//! Practice from the command line: the lessons, goes marked from a file, how a group does, two looks at one bird compared.

use super::command::{self, shown, write, write_json};
use super::exit::Refusal;
use super::handover::unset;
use super::here::here;
use super::options::{Opened, Options};
use super::{examine, flock};
use crate::content::document::{Section, Tone};
use crate::content::{debrief, group, lessons as lessons_of, pair};
use crate::phrase::{Text, lessons as phrase, terms};
use crate::practice::{self, Drawn, DrawnTexts, Grade, Mark, NoBird, Scored, Script, Wanted, compare, draw, lessons};
use crate::protocol::Protocol;
use crate::protocol::fault::Faults;
use crate::protocol::scale::Need;
use crate::render::{json, marks, text};
use crate::session::practice::Practice;
use crate::words::{Reader, Words, say};
use anyhow::{Result, anyhow};
use chrono::Utc;
use clap::Args;
use std::fmt::Write as _;
use std::fs::{self, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

/// Where the marks of all goes are kept, in the folder of practice.
const MARKS: &str = "marks.jsonl";

/// What is asked of practice.
#[expect(clippy::struct_excessive_bools, reason = "each is a flag of the command line")]
#[derive(Debug, Args)]
pub struct PractiseArguments {
    /// A scripted bird by name (`--list` tells them); without one the list of lessons opens.
    name: Option<String>,
    /// A bird drawn with this number: the same number, the same bird.
    #[arg(long, conflicts_with = "name")]
    seed: Option<u64>,
    /// The need a drawn bird shall have: home, day, hours or now.
    #[arg(long, requires = "seed", value_name = "NEED")]
    need: Option<String>,
    /// Who practises.
    #[arg(long, value_name = "NAME", default_value = "")]
    novice: String,
    /// A mentor reads aloud and takes the answers back.
    #[arg(long)]
    aloud: bool,
    /// List the lessons and leave.
    #[arg(long, conflicts_with_all = ["name", "seed"])]
    list: bool,
    /// Mark the goes written down in a file, for example `(goes: [(novice: "Ann", bird: "bleeding_hard", need: Now)])`.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["name", "seed", "list"])]
    score: Option<PathBuf>,
    /// Keep those marks with the others.
    #[arg(long, requires = "score")]
    keep: bool,
    /// Tell how all goes went that were kept.
    #[arg(long, conflicts_with_all = ["name", "seed", "list", "score"])]
    group: bool,
    /// Compare two files of notes on one bird: the novice's, then the mentor's.
    #[arg(long, num_args = 2, value_names = ["NOVICE", "MENTOR"], conflicts_with_all = ["name", "seed", "list", "score", "group"])]
    pair: Option<Vec<PathBuf>>,
    /// Print marks as values parted by commas.
    #[arg(long)]
    csv: bool,
    /// Open the practice flock instead: four invented birds over twelve days, in a ledger of their own.
    #[arg(long, conflicts_with_all = ["name", "seed", "list", "score", "group", "pair"])]
    flock: bool,
    /// Load the flock once more, as it would stand today.
    #[arg(long, requires = "flock")]
    afresh: bool,
}

/// Practises.
pub fn practise(options: &Options, asked: PractiseArguments) -> Result<ExitCode> {
    if asked.flock {
        return flock::open(options, asked.afresh);
    }
    let folder = options.folder()?.join(flock::FOLDER);
    let marks = Marks { file: folder.join(MARKS) };
    if asked.list || asked.group || asked.score.is_some() || asked.pair.is_some() {
        let opened = options.open()?;
        let desk = LessonPrinter {
            options,
            opened: &opened,
            protocol: &opened.protocol,
            reader: options.reader(&opened)?,
            marks,
        };
        return desk.tell(&asked).map(|()| ExitCode::SUCCESS);
    }
    examine::examine(options, false, Some(Lessons { asked }))
}

/// The lessons that are to be opened on the screen.
pub struct Lessons {
    asked: PractiseArguments,
}

/// What the screen begins with: practice, the bird that was named, and where marks are kept.
type OnScreen = (Practice, Option<Arc<Script>>, Marks);

impl Lessons {
    /// Reads lessons and marks.
    pub fn open(self, protocol: &Protocol, words: &Words, folder: &Path) -> Result<OnScreen> {
        let asked = self.asked;
        let lessons = lessons(protocol).map_err(|faults| anyhow!("{faults}"))?.into_iter().map(Arc::new).collect();
        let first = match (&asked.name, asked.seed) {
            (Some(name), _) => Some(named(protocol, words, name)?),
            (None, Some(seed)) => Some(drawn(protocol, words, seed, asked.need.as_deref())?),
            (None, None) => None,
        };
        let marks = Marks { file: folder.join(flock::FOLDER).join(MARKS) };
        let practice =
            Practice { lessons, novice: asked.novice, aloud: asked.aloud, marks: marks.read()?, ..Practice::default() };
        Ok((practice, first.map(Arc::new), marks))
    }
}

/// A bird by name; a file of one's own where the name ends in `.ron`.
fn named(protocol: &Protocol, words: &Words, name: &str) -> Result<Script> {
    if Path::new(name).extension().is_some_and(|extension| extension == "ron") {
        let text = command::read(Path::new(name))?;
        let stem = Path::new(name).file_stem().unwrap_or_default().to_string_lossy();
        let told = |faults: Faults| Refusal::Data(phrase::unpractised(shown(&faults)).into());
        return Ok(practice::check(protocol, &stem, name, &text).map_err(told)?);
    }
    let tells = |drawn: &Drawn| told(protocol, words, drawn);
    practice::bird(protocol, name, &tells).map_err(|error| {
        let name = Text::typed(name);
        let told = match error {
            NoBird::Unknown(Some(near)) => phrase::no_bird_near(name, phrase::no_such_bird(), Text::typed(near)),
            NoBird::Unknown(None) => phrase::no_bird(name, phrase::no_such_bird()),
            NoBird::Undrawn(error) => phrase::no_bird(name, lessons_of::undrawn(&error)),
            NoBird::Unread(faults) => phrase::no_bird(name, shown(&faults)),
        };
        Refusal::Usage(told.into()).into()
    })
}

/// What is told of a bird that was drawn.
fn told(protocol: &Protocol, words: &Words, drawn: &Drawn) -> DrawnTexts {
    lessons_of::told(protocol, drawn, &|text| say(words, here(), text))
}

fn drawn(protocol: &Protocol, words: &Words, seed: u64, need: Option<&str>) -> Result<Script> {
    let need = need.map(need_of).transpose()?;
    let wanted = Wanted { need, ..Wanted::default() };
    let drawn = draw(protocol, seed, wanted).map_err(|error| Refusal::Usage(lessons_of::undrawn(&error).into()))?;
    let texts = told(protocol, words, &drawn);
    Ok(drawn.said(texts))
}

fn need_of(text: &str) -> Result<Need> {
    match text {
        "home" => Ok(Need::Home),
        "day" => Ok(Need::WithinADay),
        "hours" => Ok(Need::WithinHours),
        "now" => Ok(Need::Now),
        _ => Err(Refusal::Usage(phrase::no_need(Text::typed(text)).into()).into()),
    }
}

/// Where marks are kept.
pub struct Marks {
    file: PathBuf,
}

impl Marks {
    /// Every mark that was kept; none where there is no file yet.
    fn read(&self) -> Result<Vec<Mark>> {
        let text = match fs::read_to_string(&self.file) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(command::unread(&self.file, &error)),
        };
        let told = |faults: Faults| Refusal::Data(phrase::marks_unread(shown(&faults)).into());
        Ok(practice::marks(&self.file.display().to_string(), &text).map_err(told)?)
    }

    /// Adds one mark, on disk before this returns.
    pub fn keep(&self, mark: &Mark) -> io::Result<()> {
        if let Some(folder) = self.file.parent() {
            fs::create_dir_all(folder)?;
        }
        let line = serde_json::to_string(mark)? + "\n";
        let mut file = OpenOptions::new().create(true).append(true).open(&self.file)?;
        file.write_all(line.as_bytes())?;
        file.sync_all()
    }
}

struct LessonPrinter<'p> {
    options: &'p Options,
    opened: &'p Opened,
    protocol: &'p Protocol,
    reader: Reader<'p>,
    marks: Marks,
}

impl LessonPrinter<'_> {
    fn tell(&self, asked: &PractiseArguments) -> Result<()> {
        match (&asked.score, &asked.pair) {
            (Some(file), _) => self.score(file, asked),
            (None, Some(files)) => self.pair(files),
            (None, None) if asked.group => self.group(&self.marks.read()?, asked),
            (None, None) => self.list(),
        }
    }

    fn list(&self) -> Result<()> {
        let mut out = String::new();
        let lessons = lessons(self.protocol).map_err(|faults| anyhow!("{faults}"))?;
        if self.options.json {
            return write_json(&json::lessons::lessons(&lessons, self.reader));
        }
        for level in Grade::ALL {
            let _ = writeln!(out, "{}", self.reader.say(&Text::capitals(lessons_of::grade(level))));
            for script in &lessons {
                if let Some(lesson) = script.lesson().filter(|lesson| lesson.level == level) {
                    let told = terms::named(Text::quoted(&lesson.name), Text::quoted(&lesson.trains));
                    let _ = writeln!(out, "  {:<26} {}", script.name, self.reader.phrase(&told));
                }
            }
        }
        write(&out)
    }

    fn score(&self, file: &Path, asked: &PractiseArguments) -> Result<()> {
        let text = command::read(file)?;
        let unmarked = |faults: Faults| Refusal::Data(phrase::unmarked(shown(&faults)).into());
        let tells = |drawn: &Drawn| told(self.protocol, self.reader.words, drawn);
        let name = file.display().to_string();
        let scored = practice::score(self.protocol, &name, &text, Utc::now(), &tells).map_err(unmarked)?;
        let marks: Vec<Mark> = scored.iter().map(|scored| scored.mark.clone()).collect();
        if asked.keep {
            marks.iter().try_for_each(|mark| self.marks.keep(mark)).map_err(unset(phrase::unkept))?;
        }
        if self.options.json || asked.csv {
            return self.group(&marks, asked);
        }
        let mut out = String::new();
        for Scored { trial, debrief: told, .. } in &scored {
            let _ = writeln!(out, "{}, {} ({})\n", trial.novice, trial.script.bird(), trial.script.name);
            out += &text::sections(&self.reader.sections(short(debrief::sections(
                self.protocol,
                trial,
                told,
                self.reader.country,
            ))));
            out.push('\n');
        }
        write(&out)?;
        self.group(&marks, asked)
    }

    fn group(&self, marks: &[Mark], asked: &PractiseArguments) -> Result<()> {
        if asked.csv {
            return write(&marks::csv(marks).map_err(unset(phrase::no_table))?);
        }
        let now = Utc::now();
        if self.options.json {
            return write_json(&json::group::group(self.protocol, marks, now, self.reader));
        }
        self.options.tell(self.opened, "group", &group::sections(self.protocol, marks, now, self.reader.country))
    }

    fn pair(&self, files: &[PathBuf]) -> Result<()> {
        let [novice, mentor] = files else {
            return Err(Refusal::Usage(phrase::pair().into()).into());
        };
        let now = Utc::now();
        let (one, other) =
            (command::findings(self.protocol, novice, now)?, command::findings(self.protocol, mentor, now)?);
        let told = pair::sections(self.protocol, &compare(self.protocol, &one, &other, now), self.reader.country);
        self.options.tell(self.opened, "pair", &told)
    }
}

/// The sections of one of several debriefs: what stands on all of them is said once, at the end.
fn short(sections: Vec<Section<Text>>) -> Vec<Section<Text>> {
    sections.into_iter().filter(|section| section.tone != Tone::Caution).collect()
}
