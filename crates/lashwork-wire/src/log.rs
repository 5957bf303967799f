//! What was done in a service, in the order it was done.

use crate::problem::Problem;
use crate::quantity::Q;
use crate::word::W;
use lashwork::ignition::breaker::DwellChange;
use lashwork::job::{WorkDone, WorkStep};
use lashwork::quantity::{CrankAngle, LashChange};

named!(WorkStep as "WorkStepDoc" {
    Head = "head",
    Valves = "valves",
    Compression = "compression",
    Leak = "leak",
    Leads = "leads",
    Contacts = "contacts",
    Timing = "timing",
    Advance = "advance",
    Evenness = "evenness",
    Electrics = "electrics",
    Magneto = "magneto",
    Gauge = "gauge",
    Float = "float",
    Jets = "jets",
    Balance = "balance",
    Idle = "idle",
    Gas = "gas",
});

/// Whether anything was moved.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Did {
    Read,
    Set,
}

named!(Did as "DidDoc" {
    /// It was read, and nothing moved.
    Read = "read",
    /// Something of it was moved.
    Set = "set",
});

parts! {
    /// One thing that was done.
    WorkDoneDoc {
        /// The step of the service.
        step: W<WorkStep>,
        /// Whether anything was moved.
        did: W<Did>,
        /// Of the valves: by how much the lash of the one that was moved most is wider now; negative for narrower.
        lash: Option<Q<LashChange>>,
        /// Of the contacts: by how much the dwell is more now; negative for less.
        dwell: Option<Q<DwellChange>>,
        /// Of the timing: by how many degrees of the crank the spark comes earlier now; negative for later.
        spark: Option<Q<CrankAngle>>,
    }
}

/// The log in typed values.
pub(crate) fn done(log: Vec<WorkDoneDoc>, problems: &mut Vec<Problem>) -> Vec<WorkDone> {
    let mut made = Vec::with_capacity(log.len());
    for (i, doc) in log.into_iter().enumerate() {
        let step = doc.step.0;
        let amounts = [
            doc.lash.map(|change| ("lash", WorkDone::LashSet(change.0))),
            doc.dwell
                .map(|change| ("dwell", WorkDone::DwellSet(change.0))),
            doc.spark
                .map(|change| ("spark", WorkDone::SparkSet(change.0))),
        ];
        let mut one = match doc.did.0 {
            Did::Read => WorkDone::Read(step),
            Did::Set => WorkDone::Set(step),
        };
        for (field, amount) in amounts.into_iter().flatten() {
            if one == WorkDone::Set(amount.step()) {
                one = amount;
            } else {
                problems.push(Problem::new(
                    format!("/log/{i}/{field}"),
                    "log.moves-elsewhere",
                    format!("\"{field}\" is no amount by which this was moved"),
                    "state \"lash\" where the valves were set, \"dwell\" where the contacts were, \"spark\" where the timing was",
                ));
            }
        }
        made.push(one);
    }
    made
}
