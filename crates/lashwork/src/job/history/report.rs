//! What the history section answers.

use super::drift::QuantityHistoryReport;
use super::growth::{NOT_GROWN, RecordGrowthReport, RecordStanding};
use super::lash::RecessionReport;
use super::leak_testers::LeakTestersReport;
use crate::history::CountedBy;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What past services say.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct HistoryReport {
    /// Which engine it is of, if that was said.
    pub engine: Option<String>,
    /// What time is counted by: hours, kilometres, or days since 1 January 1970.
    pub counted_by: CountedBy,
    /// Whether the record is the one known before with services added; none if no record was known.
    pub record: Option<RecordGrowthReport>,
    /// Which readings of the other sections count as the last service, and why the rest does not.
    pub present: String,
    /// The services, in the order of time, the present one last where it counts.
    pub services: Vec<PastServiceReport>,
    /// The valve clearances over the years, if any service read some.
    pub lash: Option<QuantityHistoryReport>,
    /// The dwell, if any service read it.
    pub dwell: Option<QuantityHistoryReport>,
    /// The ignition point, likewise.
    pub timing: Option<QuantityHistoryReport>,
    /// The compression shown of each cylinder, likewise.
    pub compression: Option<QuantityHistoryReport>,
    /// The area through which each cylinder leaks, likewise.
    pub leak_area: Option<QuantityHistoryReport>,
    /// Which testers the leaks were read with, if a service says so.
    pub leak_testers: Option<LeakTestersReport>,
    /// Whether exhaust seats sink for want of lead: what speaks for it and against, if they close.
    pub recession: Option<RecessionReport>,
}

impl HistoryReport {
    /// Puts before what each quantity says that the record is not the one known before, grown.
    pub(super) fn carry_doubt(&mut self) {
        let is_grown = |record: &RecordGrowthReport| record.standing == RecordStanding::Grown;
        if self.record.as_ref().is_none_or(is_grown) {
            return;
        }
        let all = [
            &mut self.lash,
            &mut self.dwell,
            &mut self.timing,
            &mut self.compression,
            &mut self.leak_area,
        ];
        for one in all.into_iter().flatten() {
            one.sure.insert(0, NOT_GROWN);
        }
    }
}

/// One service.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct PastServiceReport {
    /// When it was, on the count of the history.
    pub at: Option<f64>,
    /// The same in words.
    pub text: String,
}
