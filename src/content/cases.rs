//! A case of a list, as it is told to a program: what its cover says, and how its bird stands.

use super::answers;
use crate::days::cover::state;
use crate::days::{Days, known};
use crate::finding::About;
use crate::finding::log::Stamped;
use crate::judge::Level;
use crate::ledger::Covered;
use crate::phrase::Text;
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::prove::judge_bands;

/// A case of a list.
#[derive(Clone, Debug)]
pub struct ListedCase<'c> {
    /// What its cover says.
    pub covered: &'c Covered,
    /// What bird she is; nothing where it was not told.
    pub kind: Option<Text>,
    /// How soon she needs a vet, as her last sitting left it; nothing where there was none, or her case cannot be read.
    pub need: Option<Level<Need>>,
    /// How she stands, in a few words; nothing where that was never worked out.
    pub stands: Option<Text>,
}

/// A case with its log judged anew; what its cover says stands in where no log could be read.
pub fn listed<'c>(protocol: &Protocol, covered: &'c Covered, log: Option<&[Stamped]>) -> ListedCase<'c> {
    let days = log.map(Days::of);
    let last = log.zip(days.as_ref()).and_then(|(log, days)| Some((log, days, days.sittings.last()?)));
    let Some((log, days, last)) = last else {
        let told = |words: &str| (!words.is_empty()).then(|| Text::typed(words));
        let (kind, stands) = (told(&covered.cover.kind), told(&covered.cover.need));
        return ListedCase { covered, kind, need: None, stands };
    };
    let verdict = judge_bands(protocol, &known(log, last), last.ended);
    let kind = answers::known(protocol, &known(log, last), About::Bird, protocol.kind_question());
    ListedCase { covered, kind, need: Some(verdict.need), stands: Some(state(protocol, log, days, &verdict)) }
}
