//! Walking through the program key by key, without a terminal.

#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(clippy::panic, reason = "a failing test panics")]
#![allow(clippy::allow_attributes, reason = "not every test file meets what is expected here")]

use super::{PROTOCOL, now};
use chrono::{FixedOffset, TimeDelta};
use coopside::content::sheet::SheetCase;
use coopside::exam::Place;
use coopside::finding::log::{Entry, Stamped};
use coopside::finding::{Answer, Findings};
use coopside::ledger::CaseId;
use coopside::practice::lessons;
use coopside::screen::{self, Theme};
use coopside::session::change::Change;
use coopside::session::practice::Practice;
use coopside::session::{Face, Overlay, Session};
use coopside::update::{Effect, Input, update};
use coopside::view::View;
use coopside::view::keys::Key;
use coopside::view::line::{ChosenBy, Row};
use coopside::view::meaning::Meaning;
use coopside::view::rows;
use coopside::zone::Zone;
use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use std::sync::Arc;

#[derive(Clone)]
pub struct Walk {
    pub session: Session<'static>,
    pub kept: Vec<Stamped>,
    pub left: bool,
    pub countries: Vec<String>,
    /// What was asked to be kept of the house, the last time.
    pub cupboard: String,
    pub contacts: String,
    /// How many keys were pressed.
    pub keys: usize,
    /// Whether one goes on asking wherever enough is known to act on.
    pub asks_on: bool,
    /// What else was asked of the shell: lists, cases, titles.
    pub asked_for: Vec<Effect>,
    /// The size of the screen: columns, rows.
    pub size: (u16, u16),
}

impl Walk {
    pub fn new() -> Self {
        let mut session = Session::new(&PROTOCOL, None, now(), zone());
        session.case = Some(CaseId::new());
        Self {
            session,
            kept: Vec::new(),
            left: false,
            countries: Vec::new(),
            cupboard: String::new(),
            contacts: String::new(),
            keys: 0,
            asks_on: true,
            asked_for: Vec::new(),
            size: (100, 30),
        }
    }

    /// A walk at the list of lessons, before any is begun.
    pub fn practising() -> Self {
        let lessons = lessons(&PROTOCOL).unwrap_or_else(|faults| panic!("\n{faults}"));
        let mut walk = Self::new();
        walk.session.practice =
            Some(Practice { lessons: lessons.into_iter().map(Arc::new).collect(), ..Practice::default() });
        walk.session.overlays = vec![Overlay::Lessons];
        walk
    }

    /// A walk that has come to a bird with these findings, whatever was pressed for it.
    pub fn at(known: &Findings) -> Self {
        let mut walk = Self::new();
        let wounds = (0..known.wounds()).map(|_| Entry::FoundWound);
        let said = Entry::Said(known.said().iter().map(|said| said.statement.clone()).collect());
        let entries = wounds.chain([said]).chain(known.looked_over().then_some(Entry::LookedOver));
        walk.session.log = entries.map(|entry| Stamped { at: walk.session.now, entry }).collect();
        // Judged once, when all of it is told.
        walk.session.work_out();
        walk
    }

    /// Presses keys, one a letter; `<enter>` and the like stand for keys without a letter.
    pub fn press(&mut self, script: &str) -> &mut Self {
        let mut rest = script;
        while let Some(c) = rest.chars().next() {
            let (key, after) = match c {
                '<' => {
                    let (name, after) = rest.split_once('>').unwrap_or_else(|| panic!("{script}"));
                    (named(name.trim_start_matches('<')), after)
                }
                ' ' => {
                    rest = &rest[1..];
                    continue;
                }
                c => (Key::Char(c), &rest[c.len_utf8()..]),
            };
            self.key(key);
            rest = after;
        }
        self
    }

    /// Gives the answer that is fine to everything ("none of these", "no wound", no weight) until this is asked.
    #[track_caller]
    pub fn to(&mut self, asked: &str) -> &mut Self {
        for _ in 0..120 {
            if self.stands_at(asked) {
                return self;
            }
            self.fine();
        }
        panic!("{asked} is never asked; at {}", self.asked())
    }

    /// Whether this is what is asked now, by itself or on a list.
    pub fn stands_at(&self, asked: &str) -> bool {
        let on_list = match &self.session.exam.place {
            Place::List(list) => {
                self.session.exam.signs(*list).iter().any(|sign| PROTOCOL.ask(sign.question).id == *asked)
            }
            _ => false,
        };
        on_list || self.asked() == asked
    }

    /// Presses the key of the line that gives this answer to this question.
    #[track_caller]
    pub fn say(&mut self, question: &str, answer: &str) -> &mut Self {
        let means = |row: &Row| match &row.meaning {
            Meaning::Answer(asked, Answer::Choice(id)) | Meaning::Sign(asked, Answer::Choice(id)) => {
                PROTOCOL.ask(asked.question).id == *question && *id == *answer
            }
            _ => false,
        };
        for _ in 0..rows::pages(&self.session) {
            let page = rows::page(&self.session);
            if let Some(at) = page.iter().position(means) {
                let figure = page.iter().take(at + 1).filter(|row| row.by == ChosenBy::Place).count();
                return match page[at].by {
                    ChosenBy::Always => self.press("a"),
                    _ => self.press(&figure.to_string()),
                };
            }
            self.press("<space>");
        }
        panic!("{question} = {answer} is no line here; at {}", self.asked())
    }

    /// Gives the answer that is fine to what is asked now.
    pub fn fine(&mut self) -> &mut Self {
        match self.session.exam.place.clone() {
            Place::Done => self,
            Place::List(_) | Place::Wounds => self.press("a"),
            Place::Ask(asked) if PROTOCOL.ask(asked.question).is_weight() => self.press("0"),
            Place::Ask(asked) if PROTOCOL.ask(asked.question).as_always().is_some() => self.press("a"),
            Place::Ask(_) => self.press("1"),
            Place::Instruction(at, _) if at == PROTOCOL.roles.go => self.press("q"),
            Place::Instruction(..) => self.press("<enter>"),
        }
    }

    pub fn key(&mut self, key: Key) {
        self.keys += 1;
        // How far one can move on is known from what was drawn.
        if matches!(key, Key::Up | Key::Down | Key::PageUp | Key::PageDown | Key::Char(' ' | 'j' | 'k')) {
            self.draw(self.size.0, self.size.1, Theme { colour: false });
        }
        self.take(Input::Key(key));
    }

    pub fn take(&mut self, input: Input) {
        let told = self.session.enough_told;
        for effect in update(&mut self.session, input) {
            match effect {
                Effect::Keep(stamped) => self.kept.push(stamped),
                Effect::Leave => self.left = true,
                Effect::Change(change @ Change::Country(_)) => self.countries.push(change.made_to("")),
                Effect::Change(change @ Change::Supply(..)) => self.cupboard = change.made_to(&self.cupboard),
                Effect::Change(change @ Change::Contact(..)) => self.contacts = change.made_to(&self.contacts),
                Effect::NewBird => {
                    self.session.case = Some(CaseId::new());
                    self.kept.clear();
                    self.asked_for.push(effect);
                }
                Effect::Open(_) | Effect::List(_) | Effect::Title(_) | Effect::EndClock(..) => {
                    self.asked_for.push(effect);
                }
                Effect::KeepMark(_) | Effect::WriteSheet(_) | Effect::GoOnWith(..) | Effect::Bell | Effect::Suspend => {
                }
            }
        }
        if self.asks_on && self.session.enough_told && !told && self.session.face == Face::Course {
            self.key(Key::Char('b'));
        }
    }

    /// What was asked for, each title as it is read; anything else as the effect it is.
    pub fn titles(&self) -> Vec<String> {
        let told = |effect: &Effect| match effect {
            Effect::Title(title) => self.session.reader().say(title),
            other => format!("{other:?}"),
        };
        self.asked_for.iter().map(told).collect()
    }

    pub fn wait(&mut self, seconds: i64) -> &mut Self {
        self.session.now += TimeDelta::seconds(seconds);
        self.take(Input::Tick);
        self
    }

    /// The screen as text at a size.
    pub fn frame(&mut self, columns: u16, rows: u16) -> String {
        let (buffer, _) = self.draw(columns, rows, Theme { colour: true });
        text(&buffer)
    }

    pub fn draw(&mut self, columns: u16, rows: u16, theme: Theme) -> (Buffer, Option<Position>) {
        self.size = (columns, rows);
        let area = Rect::new(0, 0, columns, rows);
        let mut buffer = Buffer::empty(area);
        let drawn = screen::draw::render(&View::of(&self.session), theme, area, &mut buffer);
        self.session.learn(drawn.extent);
        (buffer, drawn.cursor)
    }

    /// Her case as a sheet tells it, with nobody's name.
    pub fn sheet_case(&self) -> SheetCase<'_> {
        let session = &self.session;
        SheetCase {
            log: &session.log,
            days: &session.days,
            findings: &session.exam.findings,
            verdict: &session.verdict,
            plan: &session.plan,
            due: &session.due,
            practice: false,
            keeper: None,
        }
    }

    /// The question that is asked now, by its key.
    pub fn asked(&self) -> String {
        match &self.session.exam.place {
            Place::Ask(asked) => PROTOCOL.ask(asked.question).id.to_string(),
            Place::List(list) => format!("list {}", PROTOCOL.sign_list(*list).id),
            Place::Wounds => "any wound".into(),
            Place::Instruction(at, _) => format!("instruction {}", PROTOCOL.instruction(*at).id),
            Place::Done => "done".into(),
        }
    }
}

pub fn zone() -> Zone {
    Zone::Fixed(FixedOffset::east_opt(0).unwrap_or_else(|| panic!("no zone")))
}

pub fn text(buffer: &Buffer) -> String {
    let area = buffer.area;
    let line = |y| (0..area.width).map(|x| buffer[(x, y)].symbol()).collect::<String>().trim_end().to_owned();
    (0..area.height).map(line).collect::<Vec<_>>().join("\n")
}

fn named(name: &str) -> Key {
    match name {
        "enter" => Key::Enter,
        "space" => Key::Char(' '),
        "back" => Key::Backspace,
        "esc" => Key::Escape,
        "up" => Key::Up,
        "down" => Key::Down,
        "left" => Key::Left,
        "right" => Key::Right,
        "pgdn" => Key::PageDown,
        "pgup" => Key::PageUp,
        other => panic!("no key <{other}>"),
    }
}
