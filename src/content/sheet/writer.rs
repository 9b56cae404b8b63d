//! What stands on the sheet: worked out from a bird's log, so that the same case and moment give the same sheet.

use super::{Drawing, Part, Row, Sheet, Table, card, course};
use crate::care::Plan;
use crate::care::contacts::Contacts;
use crate::content::days::{self, day};
use crate::content::document::{short, upper_first};
use crate::content::old::{caution_text, topic};
use crate::content::plan::due_line;
use crate::content::{chart, figures, hazards, phone};
use crate::days::due::Due;
use crate::days::{Days, known};
use crate::finding::log::{self, Entry, Stamped};
use crate::finding::particular::Particular;
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::protocol::Protocol;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::Asked;
use crate::protocol::scale::{Authority, Humane, Need};
use crate::prove::Whole;
use crate::sheet::{Idle, Sheet as Laid, Truth};
use crate::words::Reader;
use chrono::{DateTime, Utc};

/// At most this many reasons, with their labels.
const REASONS: usize = 6;
/// At most this many signs.
const SIGNS: usize = 14;
/// At most this many things that are not known.
const UNKNOWN: usize = 14;
/// At most this many steps of the plan.
const STEPS: usize = 4;

/// A bird's case, judged.
#[derive(Clone, Copy, Debug)]
pub struct SheetCase<'a> {
    /// What was done.
    pub log: &'a [Stamped],
    /// The same, folded.
    pub days: &'a Days,
    /// What was found.
    pub findings: &'a Findings,
    /// The verdict on it.
    pub verdict: &'a Whole,
    /// The plan.
    pub plan: &'a Plan,
    /// When she is to be looked at.
    pub due: &'a Due,
    /// Whom her keeper calls, where it is told who keeps her and where: only on the keeper's word.
    pub keeper: Option<&'a Contacts>,
    /// Whether she is a bird for practice: nobody is to take her sheet for a real one's.
    pub practice: bool,
}

/// The sheet for a case at a moment.
pub fn sheet(protocol: &Protocol, told: SheetCase, reader: Reader, now: DateTime<Utc>) -> Sheet {
    let desk = SheetWriter { protocol, told, reader };
    let over = told.days.over().is_some();
    let first = [desk.age_and_time(), desk.mechanism(), desk.injuries(), desk.signs()];
    let then = [
        desk.treatment(),
        desk.situation(),
        desk.background(),
        desk.assessment(),
        desk.recommendation(),
        desk.not_known(),
    ];
    let at = reader.zone.local(now).format("%Y-%m-%d %H:%M");
    Sheet {
        bird: bird(protocol, told),
        made: format!("{at}, Coopside, protocol {} ({})", protocol.version, short(&protocol.fingerprint)),
        script: if over { desk.told_ended() } else { phone::script(protocol, told.findings, told.verdict) },
        shift: if over { desk.told_ended() } else { desk.shift() },
        parts: desk
            .end()
            .into_iter()
            .chain(first)
            .chain(course::part(protocol, told, reader.zone))
            .chain(then)
            .collect(),
        hazards: hazards::of_bird(protocol, told.findings, told.verdict).collect(),
        caution: caution_text(reader.country),
    }
}

struct SheetWriter<'a> {
    protocol: &'a Protocol,
    told: SheetCase<'a>,
    reader: Reader<'a>,
}

/// The bird in a few words: her name, and what bird she is.
pub(super) fn bird(protocol: &Protocol, told: SheetCase) -> String {
    let kind = crate::content::old::known(protocol, told.findings, About::Bird, protocol.kind_question());
    let kind = kind.unwrap_or_else(|| "bird, kind not told".into());
    let name = &told.days.name;
    let bird = if name.is_empty() { upper_first(&kind) } else { format!("{name}, {kind}") };
    let ended =
        told.days.end.as_ref().map_or_else(String::new, |end| format!(", {}", end.outcome.words().to_uppercase()));
    let bird = bird + &ended;
    if told.practice { format!("PRACTICE, no real bird: {bird}") } else { bird }
}

fn known_answer(protocol: &Protocol, findings: &Findings, about: About, question: &str) -> Option<String> {
    crate::content::old::known(protocol, findings, about, protocol.question(question)?)
}

fn row(name: impl Into<String>, told: impl Into<String>) -> Row {
    Row { name: name.into(), told: told.into() }
}

/// A part; one of which nothing is known says so.
fn part(id: &'static str, heading: &'static str, mut rows: Vec<Row>) -> Part {
    if rows.is_empty() {
        rows.push(row("", "Not known."));
    }
    Part { id, heading, rows, table: None, drawing: None, plots: Vec::new() }
}

impl SheetWriter<'_> {
    fn shift(&self) -> String {
        let SheetCase { verdict, plan, due, .. } = self.told;
        let look = card::look(due, self.reader);
        let intake = self.noted(Particular::Intake).into_iter().next();
        let number = intake.map_or_else(String::new, |row| format!(", number {}", row.told));
        let bird = format!("{}{number}", bird(self.protocol, self.told));
        let (findings, vet) = (self.told.findings, self.told.days.heard.last().map(|heard| heard.said.as_str()));
        phone::shift(self.protocol, phone::Shift { bird: &bird, verdict, plan, findings, vet, look: &look })
    }

    /// How her case ended, before all else.
    fn end(&self) -> Option<Part> {
        let end = self.told.days.end.as_ref()?;
        let mut rows = vec![row("", upper_first(&card::ended(end, self.reader)))];
        rows.extend((!end.proved.is_empty()).then(|| row("What it proved", end.proved.clone())));
        if end.outcome.is_over() {
            rows.extend(days::catching(self.told.verdict).map(|told| row("The other birds", told)));
        } else {
            rows.push(row("", "What follows is as it stood then."));
        }
        Some(part("ended", "HOW IT ENDED", rows))
    }

    /// What is read out of a bird whose case is over.
    fn told_ended(&self) -> String {
        let ended = self.told.days.end.as_ref().map(|end| upper_first(&card::ended(end, self.reader)));
        let others = days::catching(self.told.verdict).map_or_else(String::new, |told| format!(" {told}"));
        format!(
            "This is {}. {}. Nothing more is due of her.{others}",
            bird(self.protocol, self.told),
            ended.unwrap_or_default()
        )
    }

    /// An answer in words, where it is known.
    fn answer(&self, about: About, question: &str) -> Option<String> {
        known_answer(self.protocol, self.told.findings, about, question)
    }

    /// Whether an answer tells how long ago something was, and is an hour old itself.
    fn is_stale(&self, about: About, question: &str) -> bool {
        let Some((at, _)) = self.protocol.enumerated().find(|(_, known)| known.id == *question) else { return false };
        let asked = Asked { about, question: at };
        phone::is_stale(self.protocol, self.told.findings, asked, self.told.verdict.judged_at)
    }

    fn answered(&self, at: QuestionAt) -> Option<Row> {
        let question = self.protocol.ask(at);
        let told = crate::content::old::known(self.protocol, self.told.findings, About::Bird, question)?;
        Some(row(upper_first(&question.topic), told))
    }

    /// An answer about the bird or, where that is not known, what her wounds tell.
    fn story(&self, at: QuestionAt) -> Option<Row> {
        let question = self.protocol.ask(at);
        let by_wounds = || {
            let SheetCase { findings, verdict, .. } = self.told;
            let told = phone::told_by_wounds(self.protocol, findings, verdict, question.id.as_str())?;
            Some(row(upper_first(&question.topic), format!("by her wounds: {told}")))
        };
        self.answered(at).or_else(by_wounds)
    }

    /// What was written down of one thing.
    fn noted(&self, what: Particular) -> Vec<Row> {
        let hidden = what.is_private() && self.told.keeper.is_none();
        let of = self.told.days.noted.iter().filter(|noted| noted.what == what && !hidden);
        let told = |noted: &crate::days::Noted| {
            // When each dose was given is part of what was given.
            let at = if what.adds_up() { format!("{}: ", day(self.reader.zone, noted.at)) } else { String::new() };
            row(upper_first(what.words()), format!("{at}{}", noted.said))
        };
        of.map(told).collect()
    }

    fn all_noted(&self, of: &[Particular]) -> Vec<Row> {
        of.iter().flat_map(|what| self.noted(*what)).collect()
    }

    fn age_and_time(&self) -> Part {
        use Particular::{Age, Breed, Intake, Keeper, Laying, Sex};
        let mut rows = self.all_noted(&[Intake]);
        rows.extend(self.answered(self.protocol.roles.kind.question));
        rows.extend(self.all_noted(&[Breed, Age, Sex, Laying]));
        rows.extend(self.figure("Weight"));
        let asked = self.protocol.roles.when;
        let stale = self.is_stale(About::Bird, self.protocol.ask(asked).id.as_str());
        let when = if stale { self.figure("Hurt") } else { self.story(asked) };
        rows.extend(when);
        rows.extend(self.all_noted(&[Keeper]));
        part("age_and_time", "AGE AND TIME", rows)
    }

    /// A figure of the verdict, by the name its line begins with.
    fn figure(&self, name: &str) -> Option<Row> {
        let items = figures::told(self.protocol, self.told.verdict)?.items;
        let line = items.into_iter().find(|item| item.lead.starts_with(&format!("{name}:")))?.lead;
        let (name, told) = line.split_once(": ")?;
        Some(row(name, told))
    }

    fn mechanism(&self) -> Part {
        let mut rows: Vec<Row> = self.story(self.protocol.roles.happened).into_iter().collect();
        rows.extend(self.noted(Particular::Witness));
        part("mechanism", "MECHANISM", rows)
    }

    fn injuries(&self) -> Part {
        let wound = |number: usize| {
            let about = About::Wound(number);
            let asked = self.protocol.enumerated().filter(|(_, question)| question.wound && question.adds_to.is_none());
            let told = asked.filter_map(|(_, question)| {
                let words = self.answer(about, question.id.as_str())?;
                let said = self.told.findings.answer(about, question.id.as_str()).map(|said| said.at);
                let said = said.filter(|_| self.is_stale(about, question.id.as_str()));
                let when = said.map_or_else(String::new, |at| format!(" (told {})", day(self.reader.zone, at)));
                Some(format!("{}: {words}{when}", question.topic))
            });
            row(format!("Wound {}", number + 1), told.collect::<Vec<_>>().join("; "))
        };
        let wounds = self.told.findings.wounds();
        let mut rows: Vec<Row> = (0..wounds).map(wound).collect();
        if wounds == 0 {
            let over = self.told.findings.looked_over();
            rows.push(row(
                "",
                if over {
                    "No wound; looked over from neck to tail."
                } else {
                    "No wound told of yet: she was not looked over to the end."
                },
            ));
        }
        let (drawn, drawing) = (wounds > 0).then(|| self.drawing()).unzip();
        let legend = |drawn| row("Drawn", format!("{drawn}. (1) is a wound; ! means that no liquid goes in there"));
        rows.extend(drawn.map(legend));
        Part { drawing, ..part("injuries", "INJURIES", rows) }
    }

    /// The bird with her wounds, and from where she is seen.
    fn drawing(&self) -> (String, Drawing) {
        let zones = chart::zones(self.protocol, self.told.findings);
        let views: Vec<_> = (0..self.protocol.views.len()).map(|at| chart::read(self.protocol, at, &zones)).collect();
        let names: Vec<&str> = views.iter().map(|(name, _)| name.as_str()).collect();
        let seen = names.join(", and ");
        let wounds = self.protocol.regions.iter().zip(&zones).filter(|(_, zone)| !zone.wounds.is_empty());
        let words: Vec<String> = wounds.map(|(region, zone)| chart::told(region, zone)).collect();
        let lines = views.into_iter().flat_map(|(_, lines)| lines).collect();
        let words = format!("The bird {seen}. {}", words.join(" "));
        (seen, Drawing { lines, words })
    }

    /// Every sign that is more than fine, as it was at first and as it is.
    fn signs(&self) -> Part {
        let days = self.told.days;
        let first = days.sittings.first().map(|first| known(self.told.log, first));
        let several = days.sittings.len() > 1;
        let mut rows = Vec::new();
        for (at, question) in self.protocol.enumerated().filter(|(at, _)| self.protocol.is_sign(*at)) {
            let words = |findings: &Findings| {
                let said = findings.answer(About::Bird, question.id.as_str())?;
                let fine = question.first_answer();
                let told = crate::content::old::known(self.protocol, findings, About::Bird, question);
                let told = told.unwrap_or_else(|| question.words(&said.statement.answer));
                let since = phone::since(self.protocol, findings, question);
                let told = [told].into_iter().chain(since).collect::<Vec<_>>().join(": ");
                Some((told, Some(&said.statement.answer) == fine.as_ref(), said.at))
            };
            let now = words(self.told.findings);
            let before = first.as_ref().filter(|_| several).and_then(words);
            let grave = |told: &Option<(String, bool, DateTime<Utc>)>| told.as_ref().is_some_and(|(_, fine, _)| !fine);
            let Some((told, _, since)) = now.clone() else { continue };
            if !grave(&now) && !grave(&before) {
                continue;
            }
            let mut cells = vec![upper_first(&topic(self.protocol, Asked::of_bird(at)))];
            if several {
                cells.push(before.map_or_else(|| "not asked".into(), |(told, ..)| told));
            }
            cells.extend([told, day(self.reader.zone, since)]);
            rows.push(cells);
        }
        let more = rows.len().saturating_sub(SIGNS);
        rows.truncate(SIGNS);
        let first = several.then_some("At first");
        let head = ["Sign"].into_iter().chain(first).chain(["Now", "Seen"]).map(str::to_owned).collect();
        let table = Table { caption: "Signs that are not as they should be".into(), head, rows };
        let mut lines = Vec::new();
        if table.rows.is_empty() {
            lines.push(row("", "Nothing found of what was asked."));
        }
        if more > 0 {
            lines.push(row("", format!("And {more} more: in the JSON of the verdict.")));
        }
        if table.rows.is_empty() {
            return part("signs", "SIGNS", lines);
        }
        Part { rows: lines, table: Some(table), ..part("signs", "SIGNS", Vec::new()) }
    }

    fn treatment(&self) -> Part {
        use Particular::{Done, EggsWithheld, Given, NotDone};
        let zone = self.reader.zone;
        let standing = log::standing(self.told.log);
        let mut rows: Vec<Row> = Vec::new();
        for (place, stamped) in standing.iter().enumerate() {
            match &stamped.entry {
                Entry::Began(id) => {
                    let Some(instruction) = self.protocol.instructions.named(id.as_str()) else { continue };
                    let title = instruction.title.to_lowercase();
                    let ended = |later: &&&Stamped| later.at >= stamped.at && later.entry == Entry::Ended(id.clone());
                    let ended = standing.iter().find(ended).map(|later| (later.at - stamped.at).num_seconds());
                    let ended = ended.map_or_else(String::new, |s| format!("; shown for {} min {} s", s / 60, s % 60));
                    rows.push(row("Told to", format!("{}: {title}{ended}", day(zone, stamped.at))));
                }
                Entry::Timed { action, seconds } => {
                    let verb = self.protocol.actions.iter().find(|known| known.id == *action).map(|known| &known.say);
                    let what = verb.map_or_else(|| action.to_string(), Clone::clone);
                    let ran = ran(stamped, i64::from(*seconds), standing.get(place + 1..).unwrap_or_default());
                    rows.push(row("Timed", format!("{}: {what} {ran}", day(zone, stamped.at))));
                }
                _ => {}
            }
        }
        rows.extend(self.all_noted(&[Given, Done, NotDone, EggsWithheld]));
        rows.extend(
            self.told
                .days
                .heard
                .iter()
                .map(|heard| row("A vet said", format!("{}: {}", day(zone, heard.at), heard.said))),
        );
        let left = self
            .told
            .plan
            .left_to_vet
            .iter()
            .take(if self.told.days.over().is_some() { 0 } else { STEPS })
            .map(|(target, _)| row("Left to the vet", self.protocol.action(target.action).say.clone()));
        rows.extend(left);
        if rows.is_empty() {
            rows.push(row("", "Nothing written down of what was done or given."));
        }
        part("treatment", "TREATMENT", rows)
    }

    fn situation(&self) -> Part {
        let verdict = self.told.verdict;
        let clocks = [
            row("Need", crate::content::old::band(verdict.need, Need::words)),
            row("Humane end", crate::content::old::band(verdict.humane, Humane::words)),
        ];
        // No vet's clock runs for a bird whose case is over; an authority's may.
        let clocks = clocks.into_iter().filter(|_| self.told.days.over().is_none());
        let authority =
            [row("Animal-health authority", crate::content::old::band(verdict.authority, Authority::words))];
        let mut rows: Vec<Row> = clocks.chain(authority).collect();
        if verdict.authority.low >= Authority::Ask {
            rows.push(row("", "It may be catching: say so before she comes through the door."));
        }
        rows.extend(self.answered(self.protocol.roles.reach));
        let calls = self.told.keeper.into_iter().flat_map(Contacts::all);
        rows.extend(calls.map(|(whom, said)| row(upper_first(whom.words()), said)));
        part("situation", "SITUATION", rows)
    }

    fn background(&self) -> Part {
        use Particular::{Flock, Vaccines};
        let mut rows = self.all_noted(&[Flock, Vaccines]);
        rows.extend(self.protocol.roles.background.iter().filter_map(|at| self.answered(*at)));
        part("background", "BACKGROUND", rows)
    }

    fn assessment(&self) -> Part {
        let moves = |reason: &&Reason| {
            let rule = self.protocol.rule(reason.rule);
            rule.need.is_some_and(|need| need > Need::Home) || rule.humane.is_some() || rule.authority.is_some()
        };
        let all: Vec<&Reason> = self.told.verdict.reasons.iter().filter(moves).collect();
        // What is said of several wounds is said once, with their numbers.
        let first = |(at, reason): &(usize, &&Reason)| !all.iter().take(*at).any(|before| before.rule == reason.rule);
        let told = |reason: &Reason| {
            let labels = crate::content::old::labels(self.protocol, *reason).join(" ");
            let of: Vec<Reason> = all.iter().copied().filter(|other| other.rule == reason.rule).copied().collect();
            row("", format!("{} {labels}", upper_first(&crate::content::old::headline_of(self.protocol, *reason, &of))))
        };
        let reasons = all.iter().enumerate().filter(first).take(REASONS);
        let mut rows: Vec<Row> = reasons.map(|(_, reason)| told(reason)).collect();
        let figures = figures::told(self.protocol, self.told.verdict);
        let lines = figures.into_iter().flat_map(|section| section.items).map(|item| item.lead);
        rows.extend(
            lines.filter(|line| !line.starts_with("Weight:") && !line.starts_with("Hurt:")).map(|line| row("", line)),
        );
        rows.push(row("", "A keeper's guide judged this, no vet. It tells no odds."));
        part("assessment", "ASSESSMENT", rows)
    }

    fn recommendation(&self) -> Part {
        use Particular::{Photos, Wants};
        if self.told.days.over().is_some() {
            let mut rows = vec![row("", "Nothing more: her case is closed.")];
            rows.extend(self.all_noted(&[Wants, Photos]));
            return part("recommendation", "RECOMMENDATION", rows);
        }
        let (verdict, plan) = (self.told.verdict, self.told.plan);
        let steps = plan.steps.iter().take(STEPS).map(|step| row("Until then", step.say(self.protocol, verdict, plan)));
        let never = plan.never_once().take(STEPS);
        let never = never.map(|action| row("Never", self.protocol.action(action).never().to_owned()));
        let due = plan.due.iter().map(|due| row("", due_line(due, self.reader.zone)));
        let mut rows: Vec<Row> = due.chain(steps).chain(never).collect();
        rows.extend(self.all_noted(&[Wants, Photos]));
        part("recommendation", "RECOMMENDATION", rows)
    }

    /// What nobody asked, could tell, or wrote down: an unknown is told, too.
    fn not_known(&self) -> Part {
        let laid = Laid::lay(self.protocol, self.told.findings, self.told.verdict.judged_at);
        let applies = |asked: Asked| laid.applies(asked.about.into(), asked.question) != Truth::No;
        let unclear = self.told.findings.said().iter().filter(|said| said.statement.answer == Answer::CannotTell);
        let unclear: Vec<String> = unclear
            .filter_map(|said| {
                let question = self.protocol.question_at(said.statement.question.as_str())?;
                let asked = Asked { about: said.statement.about, question };
                let stands = self.told.findings.answer(asked.about, said.statement.question.as_str())?;
                (stands.statement.answer == Answer::CannotTell && applies(asked)).then(|| topic(self.protocol, asked))
            })
            .collect();
        let open: Vec<String> = self.told.verdict.open.iter().map(|asked| topic(self.protocol, *asked)).collect();
        let missing = Particular::ALL.into_iter().filter(|what| !what.is_private());
        let missing = missing.filter(|what| !self.told.days.noted.iter().any(|noted| noted.what == *what));
        let missing: Vec<String> = missing.map(|what| what.words().to_owned()).collect();
        let listed = |name: &str, of: Vec<String>| {
            let more = of.len().saturating_sub(UNKNOWN);
            let shown = of.into_iter().take(UNKNOWN).collect::<Vec<_>>().join(", ");
            let and = if more > 0 { format!(", and {more} more") } else { String::new() };
            (!shown.is_empty()).then(|| row(name, format!("{shown}{and}")))
        };
        let rows =
            [listed("Could not be told", unclear), listed("Not asked", open), listed("Not written down", missing)];
        let strange = self.told.verdict.not_understood.iter();
        let strange =
            strange.map(|said| row("Not understood by this protocol, and counted as cannot tell", said.clone()));
        let idle = self.told.verdict.idle.iter().filter(|(_, why)| *why == Idle::NotAsked);
        let idle = idle.map(|(asked, _)| {
            row("Told, but not weighed", crate::content::old::line(self.protocol, self.told.findings, *asked))
        });
        let rows: Vec<Row> = strange.chain(idle).chain(rows.into_iter().flatten()).collect();
        let none = || vec![row("", "Everything that was asked is known.")];
        part("not_known", "NOT KNOWN", if rows.is_empty() { none() } else { rows })
    }
}

/// How long the clock of a step ran: until it was ended or another began, and no longer than it was set to.
fn ran(began: &Stamped, seconds: i64, after: &[&Stamped]) -> String {
    let ends = |later: &&&Stamped| matches!(later.entry, Entry::ClockEnded | Entry::Timed { .. });
    let clock = |seconds: i64| format!("{} min {} s", seconds / 60, seconds % 60);
    after.iter().find(ends).map_or_else(
        || format!("A clock of {}, not ended.", clock(seconds)),
        |later| format!("For {} of {}.", clock((later.at - began.at).num_seconds().clamp(0, seconds)), clock(seconds)),
    )
}
