//! A booklet: headed lists on leaves of their own, each with a choice to mark and room to write beside it, where one is asked for.
//! Text, Markdown, HTML and PDF are written from it by the renderers of the sheet.

use super::document::Section;
use crate::phrase::{Text, booklet as phrase, heading, sheet};

/// Leaves under one cover: of texts nobody has said yet, or of what was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Booklet<T = String> {
    /// What it is.
    pub title: T,
    /// By what it was made.
    pub made: T,
    /// What stands on everything that leaves the program.
    pub caution: T,
    /// Its chapters, in the order of reading.
    pub chapters: Vec<Chapter<T>>,
    /// What stands round its pages.
    pub labels: PageLabels<T>,
}

/// What stands round the pages of a booklet, whatever is in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageLabels<T = String> {
    /// The language it is said in, by its standard tag; nothing as long as nobody has said it.
    pub language: T,
    /// Before the caution, within a page and as a heading.
    pub caution: T,
    /// See [`PageLabels::caution`].
    pub caution_heading: T,
    /// A page's number, with marks where the numbers go: they are not known before the pages are set.
    pub page: T,
}

/// What stands for a page's number, and for how many there are.
const PAGE: &str = "{page}";
const PAGES: &str = "{pages}";

impl PageLabels<Text> {
    /// Those of every booklet.
    pub fn every() -> Self {
        Self {
            language: Text::default(),
            caution: sheet::caution().into(),
            caution_heading: heading::caution().into(),
            page: phrase::page(Text::typed(PAGE), Text::typed(PAGES)).into(),
        }
    }
}

impl PageLabels {
    /// A page's number among so many, as they are written there.
    pub fn numbered(&self, page: &str, pages: &str) -> String {
        self.page.replace(PAGES, pages).replace(PAGE, page)
    }
}

/// Leaves that belong together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chapter<T = String> {
    /// Its key, for links.
    pub id: String,
    /// Its heading.
    pub heading: T,
    /// What to know before its leaves.
    pub intro: Vec<T>,
    /// Its leaves.
    pub leaves: Vec<Leaf<T>>,
    /// Where it begins, and whether each of its leaves has a page of its own.
    pub begins: Begins,
}

/// Where on paper a chapter and its leaves begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Begins {
    /// The chapter on a new page, its leaves below each other.
    OnAPage,
    /// The chapter and each of its leaves on a new page.
    EachOnAPage,
    /// Below what stands before it.
    Below,
}

/// One thing to read and, where it asks, to decide.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leaf<T = String> {
    /// Its key; unique in the booklet.
    pub id: String,
    /// Its short name, such as `B3`; empty where it has none.
    pub mark: String,
    /// Its heading.
    pub heading: T,
    /// What stays in view as long as it is read, such as the rung.
    pub rung: T,
    /// Its headed lists; one without a heading stands right below the leaf's own.
    pub sections: Vec<Section<T>>,
    /// What is asked of who reads it.
    pub ask: Option<Ask<T>>,
}

/// What is asked of who reads a leaf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ask<T = String> {
    /// One of these, with room to write, and what that room is for.
    Choice(Vec<T>, T),
    /// These, each on a line of its own.
    Blanks(Vec<T>),
}

impl Ask {
    /// In letters, where nothing can be drawn: boxes to mark, and lines to write on.
    pub fn lines(&self) -> Vec<String> {
        let line = "_".repeat(BLANK);
        match self {
            Self::Choice(of, remark) => {
                let boxes: Vec<String> = of.iter().map(|word| format!("{BOX} {word}")).collect();
                vec![boxes.join("   "), format!("{remark}: {line}")]
            }
            Self::Blanks(of) => of.iter().map(|name| format!("{name}: {line}")).collect(),
        }
    }
}

/// An empty box to mark.
pub const BOX: char = '\u{2610}';

/// How long a line to write on is. Letters.
const BLANK: usize = 40;

impl Leaf {
    /// Its heading with its short name before it.
    pub fn title(&self) -> String {
        if self.mark.is_empty() { self.heading.clone() } else { format!("{}. {}", self.mark, self.heading) }
    }
}

impl Booklet {
    /// Every leaf, in the order of reading.
    pub fn leaves(&self) -> impl Iterator<Item = &Leaf> {
        self.chapters.iter().flat_map(|chapter| &chapter.leaves)
    }

    /// How many words there are to read; choices, lines to write on, and marks such as `(B3)` or `[hours]` left out.
    pub fn words(&self) -> usize {
        let is_mark = |word: &&str| {
            let word = word.trim_end_matches(['.', ',']);
            word.starts_with('[') && word.ends_with(']') || word.starts_with('(') && word.ends_with(')')
        };
        let count = |text: &String| text.split_whitespace().filter(|word| !is_mark(word)).count();
        let section = |section: &Section| {
            let items = section.items.iter().flat_map(|item| std::iter::once(&item.lead).chain(&item.more));
            count(&section.heading) + items.map(count).sum::<usize>()
        };
        let leaf =
            |leaf: &Leaf| count(&leaf.title()) + count(&leaf.rung) + leaf.sections.iter().map(section).sum::<usize>();
        let chapter = |chapter: &Chapter| {
            let intro = chapter.intro.iter().map(count).sum::<usize>();
            count(&chapter.heading) + intro + chapter.leaves.iter().map(leaf).sum::<usize>()
        };
        count(&self.title) + self.chapters.iter().map(chapter).sum::<usize>()
    }
}
