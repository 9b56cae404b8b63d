//! Findings laid out against the protocol's questions: one column for the bird, one a wound, one for a wound not
//! found yet; and what holds of them.

mod course;
mod idle;
mod truth;
mod weigh;

pub use idle::Idle;
pub use truth::Truth;
pub use weigh::{Doubt, Subject, Weigher};

use crate::bird::{BUILDS, Build, Kind};
use crate::finding::figure::{Figure, FigureOf};
use crate::finding::{About, Answer, Findings};
use crate::measure::elapsed::{self, Ago};
use crate::measure::{blood, breath, skin, weight};
use crate::protocol::Protocol;
use crate::protocol::cond::{Cond, Measure, QuestionAt};
use crate::protocol::question::{Asked, Question};
use crate::unit::{Band, Grams, Microlitres, Minutes, Permille, Reading, SquareMillimetres, TenthsPerMinute};
use chrono::{DateTime, Utc};

/// What a bird whose wing vein fills slowly may lack: more than 7 in 100 (a lay page after a clinic text); as far as the next
/// band of signs begins. Unit: thousandths.
pub const SLOW_VEIN: u64 = 90;

/// What stands in one place of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cell {
    /// Not asked, or skipped: any answer is still possible.
    NotAsked,
    /// The answer at this position.
    Given(u8),
    /// A typed weight in grams.
    Amount(u32),
    /// A figure: what it comes to in the base unit of the question's measure, and the first and last answer it may stand for.
    Worked(Band<u64>, u8, u8),
    /// Looked at, and could not tell.
    CannotTell,
}

/// One column: what was said of one subject, and which questions apply to it.
#[derive(Clone, Debug)]
struct Column {
    cells: Vec<Cell>,
    said_at: Vec<Option<DateTime<Utc>>>,
    /// With doubt counted as met, and as unmet.
    applies: Vec<(Truth, Truth)>,
}

/// The findings in the form the rules read.
#[derive(Clone, Debug)]
pub struct Sheet<'p> {
    protocol: &'p Protocol,
    bird: Column,
    wounds: Vec<Column>,
    unfound: Column,
    looked_over: bool,
    now: DateTime<Utc>,
    /// When what is supposed was said.
    supposed_at: DateTime<Utc>,
    /// What was said but this protocol does not know, in words; never dropped in silence.
    pub not_understood: Vec<String>,
}

impl<'p> Sheet<'p> {
    /// A sheet of which nothing is known, not even what two looks at her come to: any bird may fill it.
    pub fn blank(protocol: &'p Protocol, now: DateTime<Utc>) -> Self {
        let mut sheet = Self::ruled(protocol, 0, now);
        sheet.apply();
        sheet
    }

    fn ruled(protocol: &'p Protocol, wounds: usize, now: DateTime<Utc>) -> Self {
        let count = protocol.questions.len();
        let blank = Column {
            cells: vec![Cell::NotAsked; count],
            said_at: vec![None; count],
            applies: vec![(Truth::Yes, Truth::Yes); count],
        };
        Self {
            protocol,
            bird: blank.clone(),
            wounds: vec![blank.clone(); wounds],
            unfound: blank,
            looked_over: false,
            now,
            supposed_at: now,
            not_understood: Vec::new(),
        }
    }

    /// Lays out the findings as they stand at `now`.
    pub fn lay(protocol: &'p Protocol, findings: &Findings, now: DateTime<Utc>) -> Self {
        let mut sheet = Self::ruled(protocol, findings.wounds(), now);
        sheet.looked_over = findings.looked_over();
        for said in findings.said() {
            let statement = &said.statement;
            let Some(at) = protocol.question_at(statement.question.as_str()) else {
                sheet.not_understood.push(format!("question `{}`", statement.question));
                continue;
            };
            let question = protocol.ask(at);
            let cell = match &statement.answer {
                Answer::CannotTell => Cell::CannotTell,
                Answer::Amount(amount) => Cell::Amount(*amount),
                Answer::Figure(figure) => worked(question, figure).unwrap_or_else(|| {
                    sheet.not_understood.push(format!("figure `{}` to `{}`", figure.write(), statement.question));
                    Cell::CannotTell
                }),
                Answer::Choice(id) => question.choice_at(id.as_str()).map_or_else(
                    || {
                        sheet.not_understood.push(format!("answer `{id}` to `{}`", statement.question));
                        Cell::CannotTell
                    },
                    Cell::Given,
                ),
            };
            sheet.put(Asked { about: statement.about, question: at }, cell, said.at);
        }
        sheet.work_out_courses(findings);
        sheet.apply();
        sheet
    }

    fn put(&mut self, asked: Asked, cell: Cell, at: DateTime<Utc>) {
        let column = match asked.about {
            About::Bird => Some(&mut self.bird),
            About::Wound(number) => self.wounds.get_mut(number),
        };
        let index = asked.question.nth();
        if let Some(column) = column
            && let (Some(into), Some(said_at)) = (column.cells.get_mut(index), column.said_at.get_mut(index))
        {
            *into = cell;
            *said_at = Some(at);
        }
    }

    /// Takes what is supposed from here on as said at another moment than the sheet's own.
    pub fn suppose_at(&mut self, moment: DateTime<Utc>) {
        self.supposed_at = moment;
    }

    /// Supposes an answer, given at the sheet's own moment if no other was named. What it makes of other questions is worked out by
    /// [`Self::suppose_applies`].
    pub fn suppose(&mut self, asked: Asked, cell: Cell) {
        self.put(asked, cell, self.supposed_at);
    }

    /// Supposes that a question applies, whatever else was said.
    pub fn suppose_asked(&mut self, asked: Asked) {
        let column = self.column_mut(asked.about.into());
        if let Some(applies) = column.applies.get_mut(asked.question.nth()) {
            *applies = (Truth::Yes, Truth::Yes);
        }
    }

    /// Supposes one more wound, of which nothing is known yet, and returns its number.
    pub fn suppose_wound(&mut self) -> usize {
        self.wounds.push(self.unfound.clone());
        self.wounds.len() - 1
    }

    /// Supposes that no further wound will be found.
    pub fn suppose_looked_over(&mut self) {
        self.looked_over = true;
    }

    /// Works out again which questions apply, after answers were supposed.
    pub fn suppose_applies(&mut self) {
        self.apply();
    }

    /// Works out which questions apply. A question depends only on earlier ones, so one pass in order is enough.
    fn apply(&mut self) {
        let protocol = self.protocol;
        for (at, question) in protocol.enumerated() {
            let Some(cond) = &question.applies else { continue };
            let (first, rest) = if question.wound { (Subject::Unfound, self.wounds.len()) } else { (Subject::Bird, 0) };
            for subject in std::iter::once(first).chain((0..rest).map(Subject::Wound)) {
                let applies = |doubt| Weigher { sheet: self, doubt }.holds(cond, subject, true);
                let applies = (applies(Doubt::CountsAsMet), applies(Doubt::CountsAsUnmet));
                if let Some(into) = self.column_mut(subject).applies.get_mut(at.nth()) {
                    *into = applies;
                }
            }
        }
    }

    fn column_mut(&mut self, subject: Subject) -> &mut Column {
        match subject {
            Subject::Bird => &mut self.bird,
            Subject::Wound(number) => self.wounds.get_mut(number).unwrap_or(&mut self.unfound),
            Subject::Unfound => &mut self.unfound,
        }
    }

    #[inline]
    fn column(&self, subject: Subject, at: QuestionAt) -> &Column {
        match subject {
            _ if !self.protocol.ask(at).wound => &self.bird,
            Subject::Wound(number) => self.wounds.get(number).unwrap_or(&self.unfound),
            Subject::Bird | Subject::Unfound => &self.unfound,
        }
    }

    /// What was answered, for this subject or (where the question is about the bird) for the bird.
    #[inline]
    pub fn cell(&self, subject: Subject, at: QuestionAt) -> Cell {
        self.column(subject, at).cells.get(at.nth()).copied().unwrap_or(Cell::NotAsked)
    }

    /// Whether the question applies to this subject; what could not be told does not rule it out.
    pub fn applies(&self, subject: Subject, at: QuestionAt) -> Truth {
        self.applies_under(Doubt::CountsAsMet, subject, at)
    }

    /// Whether the question applies, with doubt counted one way or the other.
    #[inline]
    pub fn applies_under(&self, doubt: Doubt, subject: Subject, at: QuestionAt) -> Truth {
        let applies = self.column(subject, at).applies.get(at.nth()).copied();
        let (met, unmet) = applies.unwrap_or((Truth::Yes, Truth::Yes));
        match doubt {
            Doubt::CountsAsMet => met,
            Doubt::CountsAsUnmet => unmet,
        }
    }

    /// Everything a question is asked about: the bird, or each wound found.
    pub fn abouts(&self, question: &Question) -> impl Iterator<Item = About> + use<> {
        let (bird, wounds) = if question.wound { (None, self.wounds.len()) } else { (Some(About::Bird), 0) };
        bird.into_iter().chain((0..wounds).map(About::Wound))
    }

    /// How many wounds have been found.
    pub fn wounds(&self) -> usize {
        self.wounds.len()
    }

    /// Whether no further wound will be found.
    pub fn looked_over(&self) -> bool {
        self.looked_over
    }

    /// The moment it was laid out for.
    pub fn now(&self) -> DateTime<Utc> {
        self.now
    }

    /// Whether the question still waits for an answer and may apply.
    pub fn is_open(&self, asked: Asked) -> bool {
        self.waits_for(Subject::from(asked.about), asked.question)
    }

    /// Whether it was looked for and could not be told, as far as it applies to her.
    pub fn could_not_be_told(&self, asked: Asked) -> bool {
        let subject = Subject::from(asked.about);
        self.cell(subject, asked.question) == Cell::CannotTell && self.applies(subject, asked.question) != Truth::No
    }

    /// Whether a question has become pointless, so that nobody asks it any more: a hurt neck is not felt for air under the skin.
    pub fn is_moot(&self, asked: Asked) -> bool {
        let moot = self.protocol.ask(asked.question).moot.as_ref();
        moot.is_some_and(|cond| self.surely(cond, asked.about.into()))
    }

    fn waits_for(&self, subject: Subject, at: QuestionAt) -> bool {
        self.cell(subject, at) == Cell::NotAsked && self.applies(subject, at) != Truth::No
    }

    /// Whether a condition holds of a subject beyond doubt: what could not be told does not count.
    pub fn surely(&self, cond: &Cond, subject: Subject) -> bool {
        Weigher { sheet: self, doubt: Doubt::CountsAsUnmet }.holds(cond, subject, true) == Truth::Yes
    }

    /// Whether a condition holds of a subject, what could not be told counted as met.
    pub fn in_doubt_too(&self, cond: &Cond, subject: Subject) -> bool {
        Weigher { sheet: self, doubt: Doubt::CountsAsMet }.holds(cond, subject, true) == Truth::Yes
    }

    /// Whether a condition surely does not hold of a subject, whatever could not be told.
    pub fn surely_not(&self, cond: &Cond, subject: Subject) -> bool {
        Weigher { sheet: self, doubt: Doubt::CountsAsMet }.holds(cond, subject, true) == Truth::No
    }

    /// The bird's kind, once known.
    pub fn kind(&self) -> Option<Kind> {
        let asked = &self.protocol.roles.kind;
        match self.cell(Subject::Bird, asked.question) {
            Cell::Given(choice) => asked.of(choice),
            Cell::NotAsked | Cell::Amount(_) | Cell::Worked(..) | Cell::CannotTell => None,
        }
    }

    /// The bird's weight: weighed, or by her build, or by her kind.
    pub fn weight(&self) -> Reading<Grams> {
        let at = self.protocol.giving(Measure::Weight, false);
        let cell = at.map(|at| self.cell(Subject::Bird, at));
        let known = match cell {
            Some(Cell::Amount(grams)) => Some(Band::exactly(Grams(grams))),
            Some(Cell::Given(told)) => BUILDS.get(usize::from(told)).map(|build| build.weight),
            Some(Cell::NotAsked | Cell::Worked(..) | Cell::CannotTell) | None => None,
        };
        // What her kind cannot weigh tells nothing of her: she may weigh whatever her kind does. Until her kind is told, any may be.
        let known = known.filter(|_| !self.misweighed() && !self.kind_is_open());
        weight::reading(known, self.kind(), cell == Some(Cell::NotAsked) || self.kind_is_open())
    }

    fn kind_is_open(&self) -> bool {
        self.cell(Subject::Bird, self.protocol.roles.kind.question) == Cell::NotAsked
    }

    /// Whether a weight or build was told that no bird of her kind has. While her kind is open, that is not known.
    pub fn misweighed(&self) -> bool {
        let Some(at) = self.protocol.giving(Measure::Weight, false) else { return false };
        let kind = self.kind();
        let fits = match self.cell(Subject::Bird, at) {
            Cell::Amount(grams) => Kind::taken_of(kind).holds(&Grams(grams)),
            Cell::Given(told) => self.protocol.ask(at).is_offered(told, kind),
            Cell::NotAsked | Cell::Worked(..) | Cell::CannotTell => true,
        };
        !fits && !self.kind_is_open()
    }

    /// The build that was told, where it is one of her kind.
    pub fn build(&self) -> Option<&'static Build> {
        let at = self.protocol.giving(Measure::Weight, false)?;
        let Cell::Given(told) = self.cell(Subject::Bird, at) else { return None };
        let build = BUILDS.get(usize::from(told))?;
        self.kind().is_some_and(|kind| build.kinds.contains(&kind)).then_some(build)
    }

    /// What one question says of its measure, in its base unit; `most` where it may be anything.
    ///
    /// Where an earlier "cannot tell" leaves in doubt whether it applies, it may say nothing at all and may say what was told:
    /// from nothing to the high end of that.
    fn worth(&self, subject: Subject, at: QuestionAt, most: u64) -> Reading<u64> {
        let cannot_say = Reading { band: Band { low: 0, high: most }, settled: false };
        let under = |doubt| self.applies_under(doubt, subject, at);
        match (under(Doubt::CountsAsMet), under(Doubt::CountsAsUnmet)) {
            // What does not apply is not there: no blood, no wound of that sort, no hurried breath.
            (Truth::No, _) => Reading { band: Band::exactly(0), settled: true },
            // It may turn out not to apply.
            (Truth::Open, _) => cannot_say,
            (Truth::Yes, surely) => self.told_worth(subject, at, most).map_or(cannot_say, |band| match surely {
                Truth::Yes => Reading { band, settled: true },
                // What is asked next may take the doubt away; where nothing can, the band is final.
                Truth::Open | Truth::No => {
                    Reading { band: Band { low: 0, high: band.high }, settled: surely == Truth::No }
                }
            }),
        }
    }

    /// What was told stands for, where anything was told that stands for something.
    fn told_worth(&self, subject: Subject, at: QuestionAt, most: u64) -> Option<Band<u64>> {
        let choices = &self.protocol.ask(at).choices;
        match self.cell(subject, at) {
            Cell::Worked(band, ..) => Some(band),
            Cell::Given(choice) => choices.get(usize::from(choice))?.worth,
            // Could not tell: anything from nothing to the largest answer, and no answer will narrow it.
            Cell::CannotTell => {
                let largest = choices.iter().filter_map(|choice| choice.worth).map(|band| band.high).max();
                Some(Band { low: 0, high: largest.unwrap_or(most) })
            }
            Cell::NotAsked | Cell::Amount(_) => None,
        }
    }

    /// What the question about the bird that feeds a measure says of it.
    fn bird_worth(&self, measure: Measure, most: u64) -> Reading<u64> {
        let anything = Reading { band: Band { low: 0, high: most }, settled: false };
        self.protocol.giving(measure, false).map_or(anything, |at| self.worth(Subject::Bird, at, most))
    }

    /// The blood she has lost, as far as it was told.
    pub fn blood_lost(&self) -> Reading<Microlitres> {
        // Not told yet, it may be all the blood there is.
        let Reading { band, settled } = self.bird_worth(Measure::BloodLost, FigureOf::Blood.most());
        Reading { band: Band { low: Microlitres(band.low), high: Microlitres(band.high) }, settled }
    }

    /// Whether she has less blood than a sound bird of her weight; what could not be told counts.
    pub fn frail(&self) -> Truth {
        Weigher { sheet: self, doubt: Doubt::CountsAsMet }.holds(&self.protocol.frail_when, Subject::Bird, true)
    }

    /// The share of her blood that is gone, for a frail bird or a sound one.
    pub fn blood_share(&self, frail: bool) -> Reading<Permille> {
        let (lost, weight) = (self.blood_lost(), self.weight());
        let all = blood::volume(self.kind(), weight.band, frail);
        let kind_open = self.kind_is_open();
        Reading { band: blood::share(lost.band, all), settled: lost.settled && weight.settled && !kind_open }
    }

    /// The blood lost against her weight.
    pub fn blood_of_weight(&self) -> Reading<Permille> {
        let (lost, weight) = (self.blood_lost(), self.weight());
        Reading { band: blood::share_of_weight(lost.band, weight.band), settled: lost.settled && weight.settled }
    }

    /// Breaths a minute.
    pub fn breath_rate(&self) -> Reading<TenthsPerMinute> {
        let Reading { band, settled } = self.bird_worth(Measure::BreathRate, FigureOf::Breaths.most());
        let rate = |value| TenthsPerMinute(u32::try_from(value).unwrap_or(u32::MAX));
        Reading { band: Band { low: rate(band.low), high: rate(band.high) }, settled }
    }

    /// The share of her weight that she lacks in water: by her signs, and up to what a slow wing vein may mean.
    pub fn dryness(&self) -> Reading<Permille> {
        let Reading { mut band, mut settled } = self.bird_worth(Measure::Dryness, 1000);
        if let Some(vein) = self.protocol.giving(Measure::Refill, false) {
            match (self.applies(Subject::Bird, vein), self.cell(Subject::Bird, vein)) {
                (Truth::Open, _) | (Truth::Yes, Cell::NotAsked) => settled = false,
                (Truth::Yes, Cell::CannotTell) => band.high = band.high.max(SLOW_VEIN),
                (Truth::Yes, _) if self.is_worst(vein) => band.high = band.high.max(SLOW_VEIN),
                (Truth::No, _) | (Truth::Yes, Cell::Given(_) | Cell::Worked(..) | Cell::Amount(_)) => {}
            }
        }
        let share = |value| Permille(u32::try_from(value).unwrap_or(1000));
        Reading { band: Band { low: share(band.low), high: share(band.high) }, settled }
    }

    /// Whether what was said of the bird may be the worst answer.
    fn is_worst(&self, at: QuestionAt) -> bool {
        let last = u8::try_from(self.protocol.ask(at).choices.len()).ok().and_then(|count| count.checked_sub(1));
        match self.cell(Subject::Bird, at) {
            Cell::Given(choice) => Some(choice) == last,
            Cell::Worked(_, _, most) => Some(most) == last,
            Cell::NotAsked | Cell::Amount(_) | Cell::CannotTell => false,
        }
    }

    /// What was said of when a subject was hurt: of the wound by itself, else of the bird.
    pub fn hurt(&self, subject: Subject) -> Option<Ago> {
        let at = self.protocol.giving(Measure::TimeSince, subject != Subject::Bird)?;
        let Cell::Given(choice) = self.cell(subject, at) else {
            return None;
        };
        let worth = self.protocol.ask(at).choices.get(usize::from(choice))?.worth?;
        let minutes = |value| Minutes(u32::try_from(value).unwrap_or(u32::MAX));
        let span = Band { low: minutes(worth.low), high: minutes(worth.high) };
        let said_at = self.column(subject, at).said_at.get(at.nth()).copied().flatten()?;
        Some(Ago { span, said_at })
    }

    /// Time since the subject was hurt.
    pub fn time_since(&self, subject: Subject) -> Reading<Minutes> {
        let open = self
            .protocol
            .giving(Measure::TimeSince, subject != Subject::Bird)
            .is_some_and(|at| self.waits_for(subject, at));
        elapsed::reading(self.hurt(subject), open, self.now)
    }

    /// The open area of one wound, or `None` while it is not known. A wound too small to ask about counts as none.
    fn area(&self, wound: usize) -> Option<Band<SquareMillimetres>> {
        let at = self.protocol.giving(Measure::WoundArea, true)?;
        let Reading { band, settled } = self.worth(Subject::Wound(wound), at, u64::from(u32::MAX));
        let area = |value| SquareMillimetres(u32::try_from(value).unwrap_or(u32::MAX));
        settled.then(|| Band { low: area(band.low), high: area(band.high) })
    }

    /// The share of skin open over all wounds.
    pub fn skin_open(&self) -> Reading<Permille> {
        skin::open_share((0..self.wounds.len()).map(|wound| self.area(wound)), self.looked_over, self.weight())
    }
}

/// What a figure comes to, where it is one this question can be answered with.
fn worked(question: &Question, figure: &Figure) -> Option<Cell> {
    if question.figure() != Some(figure.of()) {
        return None;
    }
    let worth = match figure {
        Figure::Spilt(seen) => {
            let lost = blood::spilt(seen);
            Band { low: lost.low.0, high: lost.high.0 }
        }
        Figure::Breaths(counts) => {
            let rate = breath::repeated(counts)?;
            Band { low: u64::from(rate.low.0), high: u64::from(rate.high.0) }
        }
        Figure::Lines(lines) => {
            let area = lines.area_read();
            Band { low: u64::from(area.low.0), high: u64::from(area.high.0) }
        }
        Figure::Refill(tenths) => Band::exactly(u64::from(tenths.0)),
    };
    // More than any bird could come to is no more than the most.
    let most = figure.of().most();
    let worth = Band { low: worth.low.min(most), high: worth.high.min(most) };
    let (first, last) = question.stands_for(worth)?;
    Some(Cell::Worked(worth, first, last))
}
