//! What the sums rest on: every sum of the program once, and no other.

use super::Checker;
use crate::protocol::fault::nearest;
use crate::protocol::item::Items;
use crate::protocol::sum::{Sum, SumOf};

impl Checker {
    pub(super) fn sums(&mut self, items: &Items) -> Vec<Sum> {
        for placed in items.sums.iter().filter(|placed| !is_known(&placed.item.sum)) {
            let near = nearest(&placed.item.sum, SumOf::ALL.map(SumOf::id));
            self.unknown(placed, "sums", "sum", "sum", &placed.item.sum, near);
        }
        let sums: Vec<Option<Sum>> = SumOf::ALL.map(|sum| self.sum(items, sum)).into();
        sums.into_iter().flatten().collect()
    }

    /// What one sum rests on.
    fn sum(&mut self, items: &Items, sum: SumOf) -> Option<Sum> {
        let mut told = items.sums.iter().filter(|placed| placed.item.sum == sum.id());
        let Some(placed) = told.next() else {
            self.untold(items, sum);
            return None;
        };
        let item = format!("sum `{}`", sum.id());
        for again in told {
            let what = "what this sum rests on is told twice; join the two".to_owned();
            self.faults.push(again.fault(item.clone(), "sum", what));
        }
        if placed.item.rests.is_empty() {
            self.faults.push(placed.fault(item.clone(), "rests", "a sum rests on something: name it".to_owned()));
        }
        let rests = placed.item.rests.iter().map(|rest| self.rest(placed, &item, rest)).collect();
        Some(Sum { sum, rests })
    }

    fn untold(&mut self, items: &Items, sum: SumOf) {
        let Some(manifest) = items.manifest.as_ref().filter(|_| !self.lost.some) else { return };
        let what = format!(
            "nothing tells what the sum `{0}` rests on; expected (sum: \"{0}\", rests: [..]) under `sums`",
            sum.id()
        );
        self.faults.push(manifest.fault("sums".to_owned(), "protocol", what));
    }
}

fn is_known(name: &str) -> bool {
    SumOf::ALL.iter().any(|sum| sum.id() == name)
}
