//! The protocol: questions, rules, actions and sources, as data that has been checked once, at load.
//!
//! Files say raw items (`raw`); `read` keeps where each stands; `check` turns them into the types here or
//! reports every problem at once. Nothing downstream ever meets an unknown name.

pub mod action;
pub mod body;
mod check;
pub mod cond;
pub mod evidence;
pub mod fault;
pub mod hazard;
mod item;
pub mod known;
pub mod layout;
pub mod limits;
mod misread;
pub mod order;
pub mod place;
pub mod question;
mod raw;
mod read;
pub mod ready;
mod removal;
pub mod roles;
pub mod rule;
pub mod scale;
pub mod source;
pub mod spelling;
pub mod strength;
pub mod substance;
pub mod sum;
pub mod supply;
pub mod table;
pub mod texts;
mod weighed;
pub mod whom;
pub mod wording;

use crate::finding::{About, Id};
use action::{Action, ActionAt};
use body::{BodyView, Region};
use cond::{Cond, Measure, QuestionAt, Threshold};
use fault::Faults;
use question::{Asked, ListAt, Question, SignList, Step};
use roles::Roles;
use rule::{Conflict, Exclusion, Instruction, InstructionAt, Looks, Rule, RuleAt, RulesOut, Watch, WatchAt};
use scale::{Need, Severity, System};
use serde::{Deserialize, Serialize};
use source::Source;
use std::cmp::Reverse;
use std::collections::BTreeSet;
use std::sync::OnceLock;
use strength::{Family, Use};
use substance::Substance;
use sum::Sum;
use supply::{Round, RoundAt, Supply, SupplyAt, Way, WayAt};
use table::{At, Table};
use texts::{Country, Grades, Paragraph, ParagraphAt, Score, ScoreAt, Term};

pub use read::{File, notation};

/// A checked protocol. Its fields are read, never written.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Protocol {
    /// The protocol's own version.
    pub version: String,
    /// A fingerprint of its files (BLAKE3), kept with every case so that an old verdict still explains itself.
    pub fingerprint: String,
    /// How long a bird may be in the hand before she is put down. Seconds.
    pub hold_s: u32,
    /// Where that comes from.
    pub hold_source: At<Source>,
    /// What is asked again at each look once a humane end has come into question.
    pub each_look: String,
    /// How soon she is looked at again by how soon she needs a vet, whatever that rests on.
    pub looks_by_need: Vec<(Need, Vec<Looks>)>,
    /// When a bird should not be handled more than she must.
    pub spare_when: Cond,
    /// The signs of these that count as seen where they could not be told.
    pub spare_in_doubt: Cond,
    /// What has to be so beyond doubt, beside what `care` works out, before a bird is left in the dark for a night.
    pub stable_when: Cond,
    /// The dark hours in which nobody looks at a stable bird.
    pub night: NightHours,
    /// When a bird has less blood than a sound one: ill, old or fat.
    pub frail_when: Cond,
    /// When she may still bleed: then no figure of blood is told, only to press.
    pub bleeds_when: Cond,
    /// When a wound is known to go no deeper than the skin.
    pub skin_only_when: Cond,
    /// Until when eggs and meat are withheld.
    pub withheld_until: String,
    /// The questions whose answers are said first on the phone, in that order.
    pub said_first: Vec<QuestionAt>,
    /// The questions of a wound whose answers are said there.
    pub said_of_wounds: Vec<QuestionAt>,
    /// What is then said above every look that needs hands.
    pub spare_say: String,
    /// The steps, in head-to-tail order.
    pub steps: Table<Step>,
    /// The lists some questions stand on.
    pub lists: Table<SignList>,
    /// The questions, in the order of asking.
    pub questions: Table<Question>,
    /// Which question, list, action and so on is which.
    pub roles: Roles,
    /// Which question feeds each measure, of wounds or of the bird.
    pub positions: Positions,
    /// The order of weighing for the scales alone.
    #[serde(skip)]
    pub gravity: Gravity,
    /// The rules; their order means nothing.
    pub rules: Table<Rule>,
    /// The actions, in the order of doing.
    pub actions: Table<Action>,
    /// Signs that end home care.
    pub watches: Table<Watch>,
    /// Actions that must not be advised together.
    pub conflicts: Table<Conflict>,
    /// Actions that go where another is forbidden.
    pub rules_out: Table<RulesOut>,
    /// Instructions that fill the screen.
    pub instructions: Table<Instruction>,
    /// Answers that cannot both be true.
    pub exclusions: Table<Exclusion>,
    /// What is told in full, each where its condition is met.
    pub paragraphs: Table<Paragraph>,
    /// Words a keeper may not know.
    pub terms: Table<Term>,
    /// Countries and their laws; the first is the one that stands for none.
    pub countries: Table<Country>,
    /// Sums for seeing change.
    pub scores: Table<Score>,
    /// What the grades of severity mean, by body system.
    pub grades: Table<Grades>,
    /// What a carer may have in the house, in the order it is asked for.
    pub supplies: Table<Supply>,
    /// How actions are done, the best way of an action first.
    pub ways: Table<Way>,
    /// What comes round again once an action is done.
    pub rounds: Table<Round>,
    /// What may stand on a label, and what is ruled of it.
    pub substances: Table<Substance>,
    /// Words on a label that name no substance, as `spelling` spells them.
    pub label_words: BTreeSet<String>,
    /// On what a thing may be put.
    pub uses: Table<Use>,
    /// The table of strengths: families of what is put on a bird.
    pub families: Table<Family>,
    /// What each sum rests on, in the order of [`sum::SumOf::ALL`].
    pub sums: Table<Sum>,
    /// The bird drawn in letters, from each side.
    pub views: Table<BodyView>,
    /// The regions of her body.
    pub regions: Table<Region>,
    /// Where every claim comes from.
    pub sources: Table<Source>,
}

/// The dark hours in which nobody looks at a stable bird, by the clock of her zone. They run over midnight.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NightHours {
    /// The hour at which they begin, 21 to 23: one look last thing.
    pub from_h: u8,
    /// The hour at which they end, 4 to 7: one look at dawn.
    pub until_h: u8,
    /// What brings heat or a wrap: for a day after it was begun she is looked at by night, too.
    pub acts: BTreeSet<ActionAt>,
    /// Where those hours come from.
    pub source: At<Source>,
}

/// Questions that are looked up on every weighing, found once.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub struct Positions {
    feeds: Vec<(Measure, bool, QuestionAt)>,
}

/// The order in which rules are weighed for the scales alone. It is worked out when first asked for, and anew for every copy:
/// so the rules of a copy may be changed before it judges.
#[derive(Debug, Default)]
pub struct Gravity(OnceLock<Vec<RuleAt>>);

impl Clone for Gravity {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Positions {
    /// Finds them among a protocol's questions.
    pub fn of(questions: &[Question]) -> Self {
        let placed = table::placed(questions);
        Self { feeds: placed.filter_map(|(at, question)| Some((question.gives?, question.wound, at))).collect() }
    }
}

impl Protocol {
    /// Checks the files of a protocol.
    ///
    /// # Errors
    /// All faults at once, sorted by file and line.
    pub fn load(files: &[File]) -> Result<Self, Faults> {
        check::check(files)
    }

    /// The position of the question with this key.
    pub fn question_at(&self, id: &str) -> Option<QuestionAt> {
        self.questions.at(id)
    }

    /// The question with this key.
    pub fn question(&self, id: &str) -> Option<&Question> {
        self.questions.named(id)
    }

    /// The instruction at this position.
    pub fn instruction(&self, at: InstructionAt) -> &Instruction {
        self.instructions.of(at)
    }

    /// The source with this key.
    pub fn source(&self, id: &str) -> Option<&Source> {
        self.sources.named(id)
    }

    /// The key of the source at this position.
    pub fn source_id(&self, at: At<Source>) -> &Id {
        &self.sources.of(at).id
    }

    /// The question at this position.
    pub fn ask(&self, at: QuestionAt) -> &Question {
        self.questions.of(at)
    }

    /// Every rule with its position.
    pub fn rules_enumerated(&self) -> impl Iterator<Item = (RuleAt, &Rule)> {
        self.rules.placed()
    }

    /// Every action with its position.
    pub fn actions_enumerated(&self) -> impl Iterator<Item = (ActionAt, &Action)> {
        self.actions.placed()
    }

    /// The action at this position.
    pub fn action(&self, at: ActionAt) -> &Action {
        self.actions.of(at)
    }

    /// The supply at this position.
    pub fn supply(&self, at: SupplyAt) -> &Supply {
        self.supplies.of(at)
    }

    /// Every supply with its position.
    pub fn supplies_enumerated(&self) -> impl Iterator<Item = (SupplyAt, &Supply)> {
        self.supplies.placed()
    }

    /// The way at this position.
    pub fn way(&self, at: WayAt) -> &Way {
        self.ways.of(at)
    }

    /// The ways to do an action, the best first.
    pub fn ways_to(&self, act: ActionAt) -> impl Iterator<Item = (WayAt, &Way)> {
        let act = self.action(act).done_like.unwrap_or(act);
        self.ways.placed().filter(move |(_, way)| way.act == act)
    }

    /// The round at this position.
    pub fn round(&self, at: RoundAt) -> &Round {
        self.rounds.of(at)
    }

    /// The sign at this position.
    pub fn watch(&self, at: WatchAt) -> &Watch {
        self.watches.of(at)
    }

    /// The rule at this position.
    pub fn rule(&self, at: RuleAt) -> &Rule {
        self.rules.of(at)
    }

    /// The paragraph at this position.
    pub fn paragraph(&self, at: ParagraphAt) -> &Paragraph {
        self.paragraphs.of(at)
    }

    /// The score at this position.
    pub fn score(&self, at: ScoreAt) -> &Score {
        self.scores.of(at)
    }

    /// The words in some texts that a keeper may not know.
    pub fn terms_in<'t>(&self, texts: impl Iterator<Item = &'t str>) -> Vec<&Term> {
        let texts: Vec<String> = texts.map(str::to_lowercase).collect();
        self.terms.iter().filter(|term| texts.iter().any(|text| term.is_in(text))).collect()
    }

    /// What a grade of severity means in a body system; nothing where nothing was found.
    pub fn grades_of(&self, system: System, grade: Severity) -> Option<&str> {
        self.grades.iter().find(|grades| grades.system == system)?.of(grade)
    }

    /// The country with this key; for any other key the one that stands for none.
    pub fn country(&self, id: &str) -> &Country {
        self.countries.named(id).unwrap_or_else(|| self.no_country())
    }

    /// The country that stands for none: the strictest law of all that ship.
    pub fn no_country(&self) -> &Country {
        self.countries.of(At::new(0))
    }

    /// Every question with its position, in the order of asking.
    pub fn enumerated(&self) -> impl Iterator<Item = (QuestionAt, &Question)> {
        self.questions.placed()
    }

    /// The list at this position.
    pub fn sign_list(&self, at: ListAt) -> &SignList {
        self.lists.of(at)
    }

    /// The questions that stand on one list, in order.
    pub fn list(&self, list: ListAt) -> Vec<QuestionAt> {
        self.enumerated().filter(|(_, question)| question.list == Some(list)).map(|(at, _)| at).collect()
    }

    /// The question that feeds a measure: of wounds or of the bird.
    pub fn giving(&self, measure: Measure, wound: bool) -> Option<QuestionAt> {
        let feeds = |(fed, of_wound, _): &&(Measure, bool, QuestionAt)| *fed == measure && *of_wound == wound;
        self.positions.feeds.iter().find(feeds).map(|(.., at)| *at)
    }

    /// Every rule that moves a scale, the gravest first.
    pub fn gravest_first(&self) -> &[RuleAt] {
        self.gravity.0.get_or_init(|| {
            let rungs = |rule: &Rule| {
                [rule.need.map(|r| r as u8), rule.humane.map(|r| r as u8), rule.authority.map(|r| r as u8)]
            };
            let placed = self.rules_enumerated();
            let mut moving: Vec<(RuleAt, &Rule)> =
                placed.filter(|(_, rule)| rungs(rule).iter().any(Option::is_some)).collect();
            moving.sort_by_key(|(_, rule)| Reverse(rungs(rule)));
            moving.into_iter().map(|(at, _)| at).collect()
        })
    }

    /// The conditions by which it is told who does what.
    pub fn hands(&self) -> impl Iterator<Item = &Cond> {
        self.actions.iter().flat_map(|action| &action.hands).map(|hands| &hands.when)
    }

    /// Every condition that something besides a rule reads: which questions are asked, what is told, how she is treated.
    pub fn read_beside_rules(&self) -> impl Iterator<Item = &Cond> {
        let asked = self
            .questions
            .iter()
            .flat_map(|question| [&question.applies, &question.moot, &question.asked_if])
            .flatten();
        let told = self.paragraphs.iter().map(|paragraph| &paragraph.when);
        asked.chain(told).chain(self.hands()).chain([
            &self.spare_when,
            &self.spare_in_doubt,
            &self.stable_when,
            &self.frail_when,
            &self.bleeds_when,
        ])
    }

    /// Every question a condition rests on when it is judged about `about`, measures' questions included.
    pub fn rests_on(&self, cond: &Cond, about: About, wounds: usize) -> Vec<Asked> {
        let mut found = Vec::new();
        let mut add = |at: QuestionAt, about: About| {
            let about = if self.ask(at).wound { about } else { About::Bird };
            found.push(Asked { about, question: at });
        };
        match cond {
            Cond::SomeWound(inner) => {
                for wound in 0..wounds {
                    found.extend(self.rests_on(inner, About::Wound(wound), wounds));
                }
            }
            Cond::All(parts) | Cond::Any(parts) | Cond::Count(_, parts) => {
                for part in parts {
                    found.extend(self.rests_on(part, about, wounds));
                }
            }
            Cond::Not(part) => found.extend(self.rests_on(part, about, wounds)),
            Cond::Answer(at, _) => add(*at, about),
            Cond::AtLeast(threshold) | Cond::Under(threshold) => match threshold {
                Threshold::Weight(_) => {
                    self.giving(Measure::Weight, false)
                        .into_iter()
                        .chain([self.roles.kind.question])
                        .for_each(|at| add(at, about));
                }
                Threshold::TimeSince(_) => {
                    let of_wound = matches!(about, About::Wound(_));
                    self.giving(Measure::TimeSince, of_wound).into_iter().for_each(|at| add(at, about));
                }
                Threshold::BloodLost(_) | Threshold::BloodOfWeight(_) => {
                    let given = [Measure::BloodLost, Measure::Weight];
                    let kind = Some(self.roles.kind.question);
                    given.into_iter().filter_map(|m| self.giving(m, false)).chain(kind).for_each(|at| add(at, about));
                    let frail = matches!(threshold, Threshold::BloodLost(_)).then(|| self.frail_when.questions());
                    frail.into_iter().flatten().for_each(|at| add(at, about));
                }
                Threshold::BreathRate(_) => {
                    self.giving(Measure::BreathRate, false).into_iter().for_each(|at| add(at, about));
                }
                Threshold::Dryness(_) => {
                    let given = [Measure::Dryness, Measure::Refill];
                    given.into_iter().filter_map(|m| self.giving(m, false)).for_each(|at| add(at, about));
                }
                Threshold::SkinOpen(_) => {
                    let area = self.giving(Measure::WoundArea, true);
                    for wound in 0..wounds {
                        if let Some(at) = area {
                            add(at, About::Wound(wound));
                        }
                    }
                    self.giving(Measure::Weight, false)
                        .into_iter()
                        .chain([self.roles.kind.question])
                        .for_each(|at| add(at, about));
                }
            },
            Cond::Always => {}
        }
        found
    }
}
