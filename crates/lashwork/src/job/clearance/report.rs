//! What the clearance step answers.

use super::books::answer::SpecificationReport;
use super::crank::answer::CrankCheckReport;
use super::readings::answer::{FirstLeafReport, LockingReport, ValveReport};
use super::shims::answer::ShimPlanReport;
use super::stop_work::answer::StopWorkReport;
use super::stops::answer::StopsReport;
use super::together::answer::DiagnosisReport;
use super::warmth::answer::WarmthReport;
use crate::job::work::Standing;
use crate::mixture::gauge::LashFound;
use crate::tolerance::{FIRM, Verdict};
use alloc::format;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Valve clearances: stops, readings, shims, and what all of it says together.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ClearanceReport {
    /// What must be settled before the valves it names are set; the first thing to read.
    pub stop_work: Vec<StopWorkReport>,
    /// The specifications, applying or not.
    pub specifications: Vec<SpecificationReport>,
    /// Where specifications that may apply disagree.
    pub disagreements: Vec<String>,
    /// What the rockers say about where the crank is, if that was asked.
    pub crank_check: Option<CrankCheckReport>,
    /// Where to stop the crank.
    #[serde(flatten)]
    pub stops: StopsReport,
    /// How warm the metal is and what follows from it.
    #[serde(flatten)]
    pub warmth: WarmthReport,
    /// What was learned of the lock nut.
    pub locking: Option<LockingReport>,
    /// The decision rule.
    pub rule: String,
    /// Valves read, in the order of the request.
    pub valves: Vec<ValveReport>,
    /// Which shim goes where, by each specification that may apply; empty unless the lash is set
    /// with shims.
    pub shim_plans: Vec<ShimPlanReport>,
    /// What all readings say together.
    pub diagnosis: Option<DiagnosisReport>,
    /// The leaf to try first at a valve without a reading, by each specification that may apply.
    pub first_leaves: Vec<FirstLeafReport>,
    /// Valves without a reading.
    pub not_read: Vec<String>,
}

impl ClearanceReport {
    /// Where the valve clearances stand, for the steps that lean on them.
    pub(in crate::job) fn standing(&self) -> (Standing, String) {
        let is_good = |valve: &&ValveReport| {
            !valve.judged.is_empty() && valve.judged.iter().all(|j| j.verdict == Verdict::InBand)
        };
        let good = self.valves.iter().filter(is_good).count();
        let all = self.valves.len() + self.not_read.len();
        if good == all && self.stop_work.is_empty() {
            (Standing::Settled, format!("{all} of {all} in band"))
        } else {
            (
                Standing::NotSettled,
                format!("{good} of {all} found in band"),
            )
        }
    }
    /// Which way they are out, as evidence for what a vacuum gauge shows; none if that is not certain, if
    /// something has to be settled first, or if valves were set since they were read.
    pub(in crate::job) fn lash_found(&self) -> Option<LashFound> {
        let is_set = self.valves.iter().any(|valve| valve.left.is_some());
        if is_set || !self.stop_work.is_empty() {
            return None;
        }
        let judged = || self.valves.iter().flat_map(|valve| &valve.judged);
        let is_small = judged().any(|one| one.probabilities.below.least >= FIRM);
        let is_large = judged().any(|one| one.probabilities.above.least >= FIRM);
        let may_be_small = judged().any(|one| one.probabilities.below.most > 1.0 - FIRM);
        match (is_small, is_large) {
            (true, _) => Some(LashFound::TooSmall),
            (false, true) if !may_be_small && self.not_read.is_empty() => Some(LashFound::TooLarge),
            _ => None,
        }
    }
}
