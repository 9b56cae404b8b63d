//! What is printed, said whole: the handover sheet, cage cards and a booklet. A page is set from what is said already, so that no
//! renderer knows a language, and nothing on a page is left in another.

use super::Reader;
use crate::content::booklet::{Ask, Booklet, Chapter, Leaf, PageLabels};
use crate::content::hazards::HazardTold;
use crate::content::sheet::card::{Card, CardLabels, Cards};
use crate::content::sheet::{Drawing, Part, Plot, Row, Sheet, SheetLabels, Table};
use crate::phrase::Text;

impl Reader<'_> {
    /// A handover sheet as it is read.
    pub fn sheet(&self, sheet: &Sheet<Text>) -> Sheet {
        let SheetLabels { language: _, title, heading, phone, shift, caution, caution_heading, cut } = &sheet.labels;
        Sheet {
            bird: self.say(&sheet.bird),
            made: self.say(&sheet.made),
            script: self.say(&sheet.script),
            shift: self.say(&sheet.shift),
            parts: sheet.parts.iter().map(|part| self.part(part)).collect(),
            hazards: sheet.hazards.iter().map(|hazard| self.hazard(hazard)).collect(),
            made_at: sheet.made_at,
            rungs: sheet.rungs,
            caution: self.say(&sheet.caution),
            labels: SheetLabels {
                language: self.words.language(),
                title: self.say(title),
                heading: self.say(heading),
                phone: self.say(phone),
                shift: self.say(shift),
                caution: self.say(caution),
                caution_heading: self.say(caution_heading),
                cut: self.say(cut),
            },
        }
    }

    fn part(&self, part: &Part<Text>) -> Part {
        let row = |row: &Row<Text>| Row { name: self.say(&row.name), told: self.say(&row.told) };
        let table = |table: &Table<Text>| Table {
            caption: self.say(&table.caption),
            head: self.each(&table.head),
            rows: table.rows.iter().map(|row| self.each(row)).collect(),
        };
        let drawing =
            |drawing: &Drawing<Text>| Drawing { lines: drawing.lines.clone(), words: self.say(&drawing.words) };
        let plot = |plot: &Plot<Text>| Plot {
            words: self.say(&plot.words),
            unit: plot.unit,
            from: self.say(&plot.from),
            to: self.say(&plot.to),
            ends: plot.ends,
            points: plot.points.clone(),
            floor: plot.floor,
        };
        Part {
            id: part.id,
            heading: self.say(&part.heading),
            rows: part.rows.iter().map(row).collect(),
            table: part.table.as_ref().map(table),
            drawing: part.drawing.as_ref().map(drawing),
            plots: part.plots.iter().map(plot).collect(),
        }
    }

    /// What could go wrong with a bird, as it is read.
    pub fn hazard(&self, hazard: &HazardTold<Text>) -> HazardTold {
        HazardTold {
            id: hazard.id.clone(),
            hazard: self.say(&hazard.hazard),
            doing: self.say(&hazard.doing),
            not_doing: self.say(&hazard.not_doing),
            whom: hazard.whom.clone(),
            worst: hazard.worst,
            source: hazard.source.clone(),
            strength: hazard.strength,
        }
    }

    /// Cage cards as they are read.
    pub fn cards(&self, cards: &Cards<Text>) -> Cards {
        let CardLabels {
            language: _,
            cards: all,
            ended,
            need,
            do_now,
            never,
            next_look,
            caution,
            caution_heading,
            cut,
        } = &cards.labels;
        Cards {
            cards: cards.cards.iter().map(|card| self.card(card)).collect(),
            caution: self.say(&cards.caution),
            labels: CardLabels {
                language: self.words.language(),
                cards: self.say(all),
                ended: self.say(ended),
                need: self.say(need),
                do_now: self.say(do_now),
                never: self.say(never),
                next_look: self.say(next_look),
                caution: self.say(caution),
                caution_heading: self.say(caution_heading),
                cut: self.say(cut),
            },
        }
    }

    fn card(&self, card: &Card<Text>) -> Card {
        Card {
            name: self.say(&card.name),
            title: self.say(&card.title),
            numbered: self.say(&card.numbered),
            intake: self.say(&card.intake),
            need: self.say(&card.need),
            ended: self.say(&card.ended),
            act: self.each(&card.act),
            never: self.each(&card.never),
            look: self.say(&card.look),
            look_at: card.look_at,
            rungs: card.rungs,
        }
    }

    /// A booklet as it is read.
    pub fn booklet(&self, booklet: &Booklet<Text>) -> Booklet {
        let PageLabels { language: _, caution, caution_heading, page } = &booklet.labels;
        Booklet {
            title: self.say(&booklet.title),
            made: self.say(&booklet.made),
            caution: self.say(&booklet.caution),
            chapters: booklet.chapters.iter().map(|chapter| self.chapter(chapter)).collect(),
            labels: PageLabels {
                language: self.words.language(),
                caution: self.say(caution),
                caution_heading: self.say(caution_heading),
                page: self.say(page),
            },
        }
    }

    fn chapter(&self, chapter: &Chapter<Text>) -> Chapter {
        Chapter {
            id: chapter.id.clone(),
            heading: self.say(&chapter.heading),
            intro: self.each(&chapter.intro),
            leaves: chapter.leaves.iter().map(|leaf| self.leaf(leaf)).collect(),
            begins: chapter.begins,
        }
    }

    /// A leaf of one as it is read.
    pub fn leaf(&self, leaf: &Leaf<Text>) -> Leaf {
        let ask = |ask: &Ask<Text>| match ask {
            Ask::Choice(of, remark) => Ask::Choice(self.each(of), self.say(remark)),
            Ask::Blanks(of) => Ask::Blanks(self.each(of)),
        };
        Leaf {
            id: leaf.id.clone(),
            mark: leaf.mark.clone(),
            heading: self.say(&leaf.heading),
            rung: self.say(&leaf.rung),
            sections: leaf.sections.iter().map(|section| self.section(section)).collect(),
            ask: leaf.ask.as_ref().map(ask),
        }
    }

    fn each(&self, texts: &[Text]) -> Vec<String> {
        texts.iter().map(|text| self.say(text)).collect()
    }
}
