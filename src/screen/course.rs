//! Which cards there are of the bird at hand, and which one shows.

use super::model::Model;
use crate::content::course::{CourseCard, cards};
use crate::finding::log::ticked;
use crate::view::card::{self, CardView};

impl Model<'_> {
    /// The cards of the course.
    pub fn cards(&self) -> Vec<CourseCard> {
        cards(self.protocol, &self.verdict, &self.plan, self.reader())
    }

    /// Which card shows: the one that was turned to, else the one that lies open.
    pub fn card_at(&self, cards: &[CourseCard]) -> usize {
        let open = || card::current(cards, self.protocol, &ticked(&self.log));
        self.turned_card.filter(|at| *at < cards.len()).unwrap_or_else(open)
    }

    /// The card that shows.
    pub fn card(&self) -> Option<CardView> {
        let cards = self.cards();
        CardView::of(&cards, self.card_at(&cards), self.protocol, &ticked(&self.log), self.reader())
    }
}
