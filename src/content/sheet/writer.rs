//! What stands on the sheet: worked out from a bird's log, so that the same case and moment give the same sheet.

use super::{Drawing, Part, PartId, Row, RungsTold, Sheet, SheetLabels, Table, brief, card, course};
use crate::care::Plan;
use crate::care::contacts::Contacts;
use crate::content::course::{Ticked, ticked};
use crate::content::document::{caution_text, short, topic};
use crate::content::figures::{self, Which, hurt_ago, weight_told};
use crate::content::particulars;
use crate::content::plan::due_line;
use crate::content::{answers, chart, days, hazards, judgement, phone, terms, unweighed, why};
use crate::days::due::Due;
use crate::days::{Days, known, outcome};
use crate::finding::log::{self, Entry, Stamped};
use crate::finding::particular::Particular;
use crate::finding::{About, Answer, Findings};
use crate::judge::Reason;
use crate::judge::figures::Figures;
use crate::phrase::{Phrase, Text, sheet as phrase, terms as words};
use crate::protocol::Protocol;
use crate::protocol::cond::QuestionAt;
use crate::protocol::question::{Asked, Question};
use crate::protocol::scale::{Authority, Need};
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
pub fn sheet(protocol: &Protocol, told: SheetCase, reader: Reader, now: DateTime<Utc>) -> Sheet<Text> {
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
    let bird = bird(protocol, told);
    let short_bird = brief(&reader.say(&bird), &reader.phrase(&phrase::cut_here()));
    let (version, print) = (Text::typed(&protocol.version), Text::typed(short(&protocol.fingerprint)));
    let say = |text: &Text| reader.say(text);
    Sheet {
        made: phrase::made(Text::date(now), version, print).into(),
        script: if over { desk.told_ended() } else { phone::script(protocol, told.findings, told.verdict, &say) },
        shift: if over { desk.told_ended() } else { desk.shift() },
        parts: desk.end().into_iter().chain(first).chain(course::part(protocol, told)).chain(then).collect(),
        hazards: hazards::of_bird(protocol, told.findings, told.verdict).map(hazards::told).collect(),
        made_at: now,
        rungs: RungsTold::of(told),
        caution: caution_text(reader.country),
        labels: SheetLabels::of(&Text::typed(short_bird)),
        bird,
    }
}

struct SheetWriter<'a> {
    protocol: &'a Protocol,
    told: SheetCase<'a>,
    reader: Reader<'a>,
}

/// The bird in a few words: her name, and what bird she is.
pub(super) fn bird(protocol: &Protocol, told: SheetCase) -> Text {
    let kind = answers::known(protocol, told.findings, About::Bird, protocol.kind_question());
    let kind = kind.unwrap_or_else(|| phrase::kind_not_told().into());
    let name = Text::typed(&told.days.name);
    let bird = if name.is_empty() { Text::opening(kind) } else { Text::list([name, kind]) };
    let ended = told.days.end.as_ref().map(|end| Text::capitals(outcome(end.outcome)));
    let bird = Text::list([bird].into_iter().chain(ended));
    if told.practice { phrase::practice(bird).into() } else { bird }
}

/// A line under a name.
fn row(name: impl Into<Text>, told: impl Into<Text>) -> Row<Text> {
    Row { name: name.into(), told: told.into() }
}

/// A line that stands for itself.
fn line(told: impl Into<Text>) -> Row<Text> {
    row(Text::default(), told)
}

/// A question's topic, as a line's name.
fn name(question: &Question) -> Text {
    Text::opening(Text::quoted(&question.topic))
}

/// A part; one of which nothing is known says so.
fn part(id: PartId, mut rows: Vec<Row<Text>>) -> Part<Text> {
    if rows.is_empty() {
        rows.push(line(phrase::unknown()));
    }
    Part { id, heading: id.heading().into(), rows, table: None, drawing: None, plots: Vec::new() }
}

impl SheetWriter<'_> {
    fn shift(&self) -> Text {
        let SheetCase { verdict, plan, due, .. } = self.told;
        let look = card::look(due);
        let intake = self.noted(Particular::Intake).into_iter().next();
        let bird = bird(self.protocol, self.told);
        let bird = match intake {
            Some(number) => phrase::numbered(bird, number.told).into(),
            None => bird,
        };
        let (findings, vet) = (self.told.findings, self.told.days.heard.last().map(|heard| heard.said.as_str()));
        let shift = phone::Shift { bird: &bird, verdict, plan, findings, vet, look: &look };
        phone::shift(self.protocol, shift, &|text| self.reader.say(text))
    }

    /// How her case ended, before all else.
    fn end(&self) -> Option<Part<Text>> {
        let end = self.told.days.end.as_ref()?;
        let mut rows = vec![line(Text::opening(card::ended(end)))];
        rows.extend((!end.proved.is_empty()).then(|| row(phrase::proved(), Text::typed(&end.proved))));
        if end.outcome.is_over() {
            let others = days::catching(self.told.verdict);
            rows.extend(others.map(|told| row(phrase::other_birds(), told)));
        } else {
            rows.push(line(phrase::as_it_stood()));
        }
        Some(part(PartId::Ended, rows))
    }

    /// What is read out of a bird whose case is over.
    fn told_ended(&self) -> Text {
        let ended = self.told.days.end.as_ref().map(|end| Text::opening(card::ended(end)));
        let told = phrase::told_ended(bird(self.protocol, self.told), ended.unwrap_or_default());
        Text::row([told.into()].into_iter().chain(days::catching(self.told.verdict).map(Text::from)))
    }

    /// An answer in words, where it is known.
    fn answer(&self, about: About, question: &Question) -> Option<Text> {
        answers::known(self.protocol, self.told.findings, about, question)
    }

    /// Whether an answer tells how long ago something was, and is an hour old itself.
    fn is_stale(&self, about: About, question: &str) -> bool {
        let Some((at, _)) = self.protocol.enumerated().find(|(_, known)| known.id == *question) else { return false };
        let asked = Asked { about, question: at };
        phone::is_stale(self.protocol, self.told.findings, asked, self.told.verdict.judged_at)
    }

    fn answered(&self, at: QuestionAt) -> Option<Row<Text>> {
        let question = self.protocol.ask(at);
        Some(row(name(question), self.answer(About::Bird, question)?))
    }

    /// An answer about the bird or, where that is not known, what her wounds tell.
    fn story(&self, at: QuestionAt) -> Option<Row<Text>> {
        let question = self.protocol.ask(at);
        let by_wounds = || {
            let SheetCase { findings, verdict, .. } = self.told;
            let told = phone::told_by_wounds(self.protocol, findings, verdict, question.id.as_str())?;
            Some(row(name(question), phrase::by_wounds(told)))
        };
        self.answered(at).or_else(by_wounds)
    }

    /// What was written down of one thing.
    fn noted(&self, what: Particular) -> Vec<Row<Text>> {
        let hidden = what.is_private() && self.told.keeper.is_none();
        let of = self.told.days.noted.iter().filter(|noted| noted.what == what && !hidden);
        let told = |noted: &crate::days::Noted| {
            let said = Text::typed(&noted.said);
            // When each dose was given is part of what was given.
            let told = if what.adds_up() { words::named(Text::day(noted.at), said).into() } else { said };
            row(Text::opening(particulars::name(what)), told)
        };
        of.map(told).collect()
    }

    fn all_noted(&self, of: &[Particular]) -> Vec<Row<Text>> {
        of.iter().flat_map(|what| self.noted(*what)).collect()
    }

    fn age_and_time(&self) -> Part<Text> {
        use Particular::{Age, Breed, Intake, Keeper, Laying, Sex};
        let mut rows = self.all_noted(&[Intake]);
        rows.extend(self.answered(self.protocol.roles.kind.question));
        rows.extend(self.all_noted(&[Breed, Age, Sex, Laying]));
        let Figures { weight, hurt, .. } = &self.told.verdict.figures;
        let weight = weight.as_ref().map(|weight| row(phrase::weight(), words::ended(weight_told(weight))));
        rows.extend(weight);
        let asked = self.protocol.roles.when;
        let stale = self.is_stale(About::Bird, self.protocol.ask(asked).id.as_str());
        let ago = || hurt.map(|hurt| row(phrase::hurt(), words::ended(hurt_ago(hurt))));
        let when = if stale { ago() } else { self.story(asked) };
        rows.extend(when);
        rows.extend(self.all_noted(&[Keeper]));
        part(PartId::AgeAndTime, rows)
    }

    fn mechanism(&self) -> Part<Text> {
        let mut rows: Vec<Row<Text>> = self.story(self.protocol.roles.happened).into_iter().collect();
        rows.extend(self.noted(Particular::Witness));
        part(PartId::Mechanism, rows)
    }

    fn injuries(&self) -> Part<Text> {
        let wound = |number: usize| {
            let about = About::Wound(number);
            let asked = self.protocol.enumerated().filter(|(_, question)| question.wound && question.adds_to.is_none());
            let told = asked.filter_map(|(_, question)| {
                let told = words::named(Text::quoted(&question.topic), self.answer(about, question)?);
                let said = self.told.findings.answer(about, question.id.as_str()).map(|said| said.at);
                let said = said.filter(|_| self.is_stale(about, question.id.as_str()));
                Some(match said {
                    Some(at) => phrase::told_at(told, Text::day(at)),
                    None => told,
                })
            });
            row(words::wound(number + 1), Text::clauses(told))
        };
        let wounds = self.told.findings.wounds();
        let mut rows: Vec<Row<Text>> = (0..wounds).map(wound).collect();
        if wounds == 0 {
            let over = self.told.findings.looked_over();
            rows.push(line(if over { phrase::no_wound() } else { phrase::no_wound_yet() }));
        }
        let (drawn, drawing) = (wounds > 0).then(|| self.drawing()).unzip();
        rows.extend(drawn.map(|seen| row(phrase::drawn(), phrase::legend(seen))));
        Part { drawing, ..part(PartId::Injuries, rows) }
    }

    /// The bird with her wounds, and from where she is seen.
    fn drawing(&self) -> (Text, Drawing<Text>) {
        let zones = chart::zones(self.protocol, self.told.findings);
        let views: Vec<_> = (0..self.protocol.views.len()).map(|at| chart::read(self.protocol, at, &zones)).collect();
        let names = views.iter().map(|(name, _)| Text::quoted(name));
        let seen = names.reduce(|one, other| phrase::views(one, other).into()).unwrap_or_default();
        let wounds = self.protocol.regions.iter().zip(&zones).filter(|(_, zone)| !zone.wounds.is_empty());
        let wounds = Text::row(wounds.map(|(region, zone)| chart::told(region, zone)));
        let words = phrase::drawing(seen.clone(), wounds).into();
        (seen, Drawing { lines: views.into_iter().flat_map(|(_, lines)| lines).collect(), words })
    }

    /// Every sign that is more than fine, as it was at first and as it is.
    fn signs(&self) -> Part<Text> {
        let days = self.told.days;
        let first = days.sittings.first().map(|first| known(self.told.log, first));
        let several = days.sittings.len() > 1;
        let mut rows = Vec::new();
        for (at, question) in self.protocol.enumerated().filter(|(at, _)| self.protocol.is_sign(*at)) {
            let stands = |findings: &Findings| {
                let said = findings.answer(About::Bird, question.id.as_str())?;
                let fine = question.first_answer();
                let told = answers::known(self.protocol, findings, About::Bird, question);
                let told = told.unwrap_or_else(|| answers::of(question, &said.statement.answer));
                let told = match phone::since(self.protocol, findings, question) {
                    Some(since) => words::named(told, since).into(),
                    None => told,
                };
                Some((told, Some(&said.statement.answer) == fine.as_ref(), said.at))
            };
            let now = stands(self.told.findings);
            let before = first.as_ref().filter(|_| several).and_then(stands);
            let grave = |told: &Option<(Text, bool, DateTime<Utc>)>| told.as_ref().is_some_and(|(_, fine, _)| !fine);
            let Some((told, _, since)) = now.clone() else { continue };
            if !grave(&now) && !grave(&before) {
                continue;
            }
            let mut cells = vec![Text::opening(topic(self.protocol, Asked::of_bird(at)))];
            if several {
                cells.push(before.map_or_else(|| phrase::not_asked().into(), |(told, ..)| told));
            }
            cells.extend([told, Text::day(since)]);
            rows.push(cells);
        }
        let more = rows.len().saturating_sub(SIGNS);
        rows.truncate(SIGNS);
        let first = several.then(phrase::at_first);
        let head = [phrase::sign()].into_iter().chain(first).chain([phrase::as_of_now(), phrase::seen()]);
        let head = head.map(Text::from).collect();
        let table = Table { caption: phrase::signs_caption().into(), head, rows };
        let mut lines = Vec::new();
        if table.rows.is_empty() {
            lines.push(line(phrase::nothing_found()));
        }
        if more > 0 {
            lines.push(line(phrase::more_signs(more)));
        }
        if table.rows.is_empty() {
            return part(PartId::Signs, lines);
        }
        Part { rows: lines, table: Some(table), ..part(PartId::Signs, Vec::new()) }
    }

    fn treatment(&self) -> Part<Text> {
        use Particular::{Done, EggsWithheld, Given, NotDone};
        let standing = log::standing(self.told.log);
        let mut rows: Vec<Row<Text>> = Vec::new();
        for (place, stamped) in standing.iter().enumerate() {
            match &stamped.entry {
                Entry::Began(id) => {
                    let Some(instruction) = self.protocol.instructions.named(id.as_str()) else { continue };
                    let title = Text::quoted(instruction.title.to_lowercase());
                    let ended = |later: &&&Stamped| later.at >= stamped.at && later.entry == Entry::Ended(id.clone());
                    let ended = standing.iter().find(ended).map(|later| (later.at - stamped.at).num_seconds());
                    let told = match ended {
                        Some(seconds) => phrase::shown_for(title, clock(seconds)).into(),
                        None => title,
                    };
                    rows.push(row(phrase::told_to(), words::named(Text::day(stamped.at), told)));
                }
                Entry::Ticked { what, done: true } => {
                    let told = match ticked(what) {
                        Ticked::Act(id) => answers::act(self.protocol, id),
                        Ticked::Phone => phrase::phoned().into(),
                        // Looks and tests are told by what was found at them.
                        Ticked::Other => continue,
                    };
                    rows.push(row(phrase::done(), words::named(Text::day(stamped.at), told)));
                }
                Entry::Timed { action, seconds } => {
                    let ran = ran(stamped, i64::from(*seconds), standing.get(place + 1..).unwrap_or_default());
                    let told = words::named(
                        Text::day(stamped.at),
                        Text::row([answers::act(self.protocol, action.as_str()), ran.into()]),
                    );
                    rows.push(row(phrase::timed(), told));
                }
                _ => {}
            }
        }
        rows.extend(self.all_noted(&[Given, Done, NotDone, EggsWithheld]));
        let heard = self.told.days.heard.iter();
        let said = heard.map(|heard| words::named(Text::day(heard.at), Text::typed(&heard.said)));
        rows.extend(said.map(|said| row(phrase::vet_said(), said)));
        let left = self
            .told
            .plan
            .left_to_vet
            .iter()
            .take(if self.told.days.over().is_some() { 0 } else { STEPS })
            .map(|(target, _)| row(phrase::left_to_vet(), Text::quoted(&self.protocol.action(target.action).say)));
        rows.extend(left);
        if rows.is_empty() {
            rows.push(line(phrase::nothing_done()));
        }
        part(PartId::Treatment, rows)
    }

    fn situation(&self) -> Part<Text> {
        let verdict = self.told.verdict;
        let clocks = [
            row(phrase::need(), judgement::band(verdict.need, |need| terms::need(need, false))),
            row(phrase::humane(), judgement::band(verdict.humane, terms::humane)),
        ];
        // No vet's clock runs for a bird whose case is over; an authority's may.
        let clocks = clocks.into_iter().filter(|_| self.told.days.over().is_none());
        let authority = [row(phrase::authority(), judgement::band(verdict.authority, terms::authority))];
        let mut rows: Vec<Row<Text>> = clocks.chain(authority).collect();
        if verdict.authority.low >= Authority::Ask {
            rows.push(line(phrase::catching()));
        }
        rows.extend(self.answered(self.protocol.roles.reach));
        let calls = self.told.keeper.into_iter().flat_map(Contacts::all);
        rows.extend(calls.map(|(whom, said)| row(Text::opening(terms::whom(whom)), Text::typed(said))));
        part(PartId::Situation, rows)
    }

    fn background(&self) -> Part<Text> {
        use Particular::{Flock, Vaccines};
        let mut rows = self.all_noted(&[Flock, Vaccines]);
        rows.extend(self.protocol.roles.background.iter().filter_map(|at| self.answered(*at)));
        part(PartId::Background, rows)
    }

    fn assessment(&self) -> Part<Text> {
        let moves = |reason: &&Reason| {
            let rule = self.protocol.rule(reason.rule);
            rule.need.is_some_and(|need| need > Need::Home) || rule.humane.is_some() || rule.authority.is_some()
        };
        let all: Vec<&Reason> = self.told.verdict.reasons.iter().filter(moves).collect();
        // What is said of several wounds is said once, with their numbers.
        let first = |(at, reason): &(usize, &&Reason)| !all.iter().take(*at).any(|before| before.rule == reason.rule);
        let told = |reason: &Reason| {
            let of: Vec<Reason> = all.iter().copied().filter(|other| other.rule == reason.rule).copied().collect();
            let headline = Text::opening(why::headline_of(self.protocol, *reason, &of));
            line(Text::row([headline].into_iter().chain(why::labels(self.protocol, *reason))))
        };
        let reasons = all.iter().enumerate().filter(first).take(REASONS);
        let mut rows: Vec<Row<Text>> = reasons.map(|(_, reason)| told(reason)).collect();
        let figures = figures::each(self.protocol, self.told.verdict).into_iter();
        // What she weighs and when she was hurt stands with age and time.
        let apart = |which: &Which| matches!(which, Which::Weight | Which::Hurt);
        rows.extend(figures.filter(|(which, _)| !apart(which)).map(|(_, item)| line(item.lead)));
        rows.push(line(phrase::judged_by()));
        part(PartId::Assessment, rows)
    }

    fn recommendation(&self) -> Part<Text> {
        use Particular::{Photos, Wants};
        if self.told.days.over().is_some() {
            let mut rows = vec![line(phrase::closed())];
            rows.extend(self.all_noted(&[Wants, Photos]));
            return part(PartId::Recommendation, rows);
        }
        let (verdict, plan) = (self.told.verdict, self.told.plan);
        let steps = plan.steps.iter().take(STEPS).map(|step| step.say(self.protocol, verdict, plan));
        let steps = steps.map(|step| row(phrase::until_then(), step));
        let never = plan.never_once().take(STEPS);
        let never = never.map(|of| row(phrase::never(), Text::quoted(verdict.fitting.never(self.protocol, of))));
        let due = plan.due.iter().map(|due| line(due_line(due)));
        let mut rows: Vec<Row<Text>> = due.chain(steps).chain(never).collect();
        rows.extend(self.all_noted(&[Wants, Photos]));
        part(PartId::Recommendation, rows)
    }

    /// What nobody asked, could tell, or wrote down: an unknown is told, too.
    fn not_known(&self) -> Part<Text> {
        let laid = Laid::lay(self.protocol, self.told.findings, self.told.verdict.judged_at);
        let applies = |asked: Asked| laid.applies(asked.about.into(), asked.question) != Truth::No;
        let unclear = self.told.findings.said().iter().filter(|said| said.statement.answer == Answer::CannotTell);
        let unclear: Vec<Text> = unclear
            .filter_map(|said| {
                let question = self.protocol.question_at(said.statement.question.as_str())?;
                let asked = Asked { about: said.statement.about, question };
                let stands = self.told.findings.answer(asked.about, said.statement.question.as_str())?;
                (stands.statement.answer == Answer::CannotTell && applies(asked)).then(|| topic(self.protocol, asked))
            })
            .collect();
        let open: Vec<Text> = self.told.verdict.open.iter().map(|asked| topic(self.protocol, *asked)).collect();
        let missing = Particular::ALL.into_iter().filter(|what| !what.is_private());
        let missing = missing.filter(|what| !self.told.days.noted.iter().any(|noted| noted.what == *what));
        let missing: Vec<Text> = missing.map(|what| particulars::name(what).into()).collect();
        let listed = |name: Phrase, of: Vec<Text>| {
            let more = of.len().saturating_sub(UNKNOWN);
            let shown = Text::list(of.into_iter().take(UNKNOWN));
            let told = if more > 0 { phrase::and_more(shown.clone(), more).into() } else { shown.clone() };
            (!shown.is_empty()).then(|| row(name, told))
        };
        let rows = [
            listed(phrase::could_not_be_told(), unclear),
            listed(phrase::not_asked_of_her(), open),
            listed(phrase::not_written_down(), missing),
        ];
        let strange = self.told.verdict.not_understood.iter();
        let strange = strange.map(|said| row(phrase::not_understood(), Text::typed(said)));
        let idle = self.told.verdict.idle.iter().filter(|(_, why)| *why == Idle::NotAsked);
        let idle = idle
            .map(|(asked, _)| row(phrase::not_weighed(), unweighed::line(self.protocol, self.told.findings, *asked)));
        let rows: Vec<Row<Text>> = strange.chain(idle).chain(rows.into_iter().flatten()).collect();
        let none = || vec![line(phrase::all_known())];
        part(PartId::NotKnown, if rows.is_empty() { none() } else { rows })
    }
}

/// A length of time by the clock. Seconds.
fn clock(seconds: i64) -> Phrase {
    let seconds = u64::try_from(seconds).unwrap_or_default();
    phrase::clock(seconds / 60, seconds % 60)
}

/// How long the clock of a step ran: until it was ended or another began, and no longer than it was set to.
fn ran(began: &Stamped, seconds: i64, after: &[&Stamped]) -> Phrase {
    let ends = |later: &&&Stamped| matches!(later.entry, Entry::ClockEnded | Entry::Timed { .. });
    after.iter().find(ends).map_or_else(
        || phrase::not_ended(clock(seconds)),
        |later| phrase::ran(clock((later.at - began.at).num_seconds().clamp(0, seconds)), clock(seconds)),
    )
}
