//! What a mentor sees of a group's goes, as JSON; the goes themselves stand in it too.

use super::{caution, worded};
use crate::content::group::{Goes, goes, next_goes};
use crate::phrase::debrief;
use crate::practice::{Mark, Share, Table, Weighing};
use crate::protocol::Protocol;
use crate::protocol::scale::Need;
use crate::render::nodes::moment;
use crate::words::Reader;
use chrono::{DateTime, Utc};
use serde_json::{Value, json};

/// The schema's name and version.
pub const SCHEMA: &str = "coopside.group/2";

/// The reports of all goes and of each novice's, and the goes.
pub fn group(protocol: &Protocol, marks: &[Mark], now: DateTime<Utc>, reader: Reader) -> Value {
    json!({
        "schema": SCHEMA,
        "caution": caution(reader),
        "practice": reader.phrase(&debrief::practice()),
        "reviewed_by_a_veterinarian": false,
        "protocol": { "version": protocol.version, "fingerprint": protocol.fingerprint },
        "rungs": Need::ALL,
        "reports": goes(protocol, marks).iter().map(|of| report(marks, of, now)).collect::<Vec<_>>(),
        "marks": marks.iter().map(mark).collect::<Vec<_>>(),
    })
}

fn report(marks: &[Mark], goes: &Goes, now: DateTime<Utc>) -> Value {
    let (table, triage) = (goes.table(), goes.triage());
    let missed = goes.missed().into_iter().map(|(sign, count)| json!({ "sign": sign, "count": count }));
    let next = next_goes(marks, goes.novice).into_iter().map(|next| {
        let due = next.due;
        json!({ "novice": worded(next.novice), "bird": due.bird, "at": moment(due.at), "now": due.at <= now })
    });
    json!({
        "of_all": goes.novice.is_none(),
        "novice": goes.novice.map(worded),
        "goes": goes.marks.len(),
        "under_another_protocol": goes.other,
        "table": table.rows().collect::<Vec<_>>(),
        "kappa": kappa(&table, Weighing::Same),
        "kappa_linear": kappa(&table, Weighing::Linear),
        "kappa_quadratic": kappa(&table, Weighing::Quadratic),
        "sensitivity": share(triage.sensitivity()),
        "specificity": share(triage.specificity()),
        "too_low": { "of_urgent": share(triage.too_low_of_urgent()), "of_given": share(triage.too_low_of_given()) },
        "too_high": { "of_mild": share(triage.too_high_of_mild()), "of_given": share(triage.too_high_of_given()) },
        "harmful": goes.harmful(),
        "missed": missed.collect::<Vec<_>>(),
        "next": next.collect::<Vec<_>>(),
    })
}

fn kappa(table: &Table, weighing: Weighing) -> Option<Value> {
    let kappa = table.kappa(weighing)?;
    let (low, high) = kappa.limits();
    Some(json!({ "value": kappa.value, "standard_error": kappa.error, "low": low, "high": high }))
}

fn share(share: Share) -> Value {
    let ((low, high), (exact_low, exact_high)) = (share.wilson(), share.exact());
    json!({
        "hits": share.hits, "of": share.of, "value": share.value(),
        "wilson": [low, high], "clopper_pearson": [exact_low, exact_high],
    })
}

/// A go. On disk its moment is kept to the last digit; here it stands as every other does.
fn mark(mark: &Mark) -> Value {
    json!({
        "schema": mark.schema, "at": moment(mark.at), "novice": worded(&mark.novice), "bird": mark.bird,
        "protocol": mark.protocol, "fingerprint": mark.fingerprint, "given": mark.given, "reference": mark.reference,
        "missed": mark.missed, "harm": mark.harm, "late": mark.late, "held_s": mark.held_s,
    })
}
