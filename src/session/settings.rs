//! What is kept of the house, the country and whom to call: taken as it was kept, with what was changed in this sitting.

use super::Session;
use super::change::Change;
use crate::care::contacts::Contacts;
use crate::care::cupboard::Cupboard;
use crate::ledger::Setting;
use crate::phrase::{Text, notice};
use crate::protocol::texts::Country;

impl<'p> Session<'p> {
    /// Takes the country the person chose.
    pub fn choose_country(&mut self, country: &'p Country) -> Change {
        self.country = country;
        self.lay_cards();
        self.changed(Change::Country(country.id.clone()))
    }

    /// Remembers what the person changed of a setting, and gives it back to be kept.
    pub fn changed(&mut self, change: Change) -> Change {
        self.told_here.retain(|before| !before.gives_way_to(&change));
        self.told_here.push(change.clone());
        change
    }

    /// Takes a setting that was kept, with what was changed of it meanwhile.
    pub fn load(&mut self, setting: Setting, kept: &str) {
        let own = self.told_here.iter().filter(|change| change.setting() == setting);
        let kept = &own.fold(kept.to_owned(), |kept, change| change.made_to(&kept));
        match setting {
            Setting::Country => {
                self.country = self.protocol.country(kept);
                if *self.country.id.as_str() != **kept {
                    self.notice = Some(notice::country_unknown(Text::typed(kept)).into());
                }
            }
            Setting::Cupboard => {
                self.cupboard = Cupboard::recall(kept);
                self.judge();
            }
            Setting::Contacts => self.contacts = Contacts::recall(kept),
            Setting::Practice => self.flock.practice = true,
            Setting::Reminded | Setting::Reviews => {}
        }
        self.lay_cards();
    }
}
