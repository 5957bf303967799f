//! The lash of each valve as the engine has it now, for the steps that reckon with it.

use super::report::ClearanceReport;
use crate::quantity::Lash;
use crate::tolerance::{Estimate, Uncertainty, Verdict};
use crate::valve::ValveKind;
use alloc::string::String;
use alloc::vec::Vec;

/// The lash of a valve: as it was left, if that was read, else as it was found.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::job) struct LashNow {
    /// Label of its cylinder.
    pub(in crate::job) cylinder: String,
    pub(in crate::job) kind: ValveKind,
    /// At the temperature the book asks for; none of a reading with one end.
    pub(in crate::job) lash: Option<Estimate<Lash>>,
    /// What the book sets it to.
    pub(in crate::job) book: Option<Lash>,
    /// Whether it is out of band, so that it is to be set.
    pub(in crate::job) is_out: bool,
}

impl ClearanceReport {
    /// The lash of each valve that was read, by the first book that may apply.
    pub(in crate::job) fn lash_now(&self) -> Vec<LashNow> {
        let now = self.valves.iter().filter_map(|valve| {
            let judged = match &valve.left {
                Some(left) => left.judged.first()?,
                None => valve.judged.first()?,
            };
            let u = Uncertainty::from_number(judged.normal_uncertainty_mm).ok();
            let ends = judged.low.zip(judged.high).zip(u);
            Some(LashNow {
                cylinder: valve.cylinder.clone(),
                kind: valve.kind,
                lash: ends.and_then(|((low, high), u)| Estimate::between(low, high, u).ok()),
                book: judged.set_to,
                is_out: matches!(judged.verdict, Verdict::Below | Verdict::Above),
            })
        });
        now.collect()
    }
}
