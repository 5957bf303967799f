//! Tier 3: the whole clearance job, from a [`Request`] of typed values to a [`Report`].
//!
//! The walk of one reading: what the leaves said -> an estimate -> corrected to the reference
//! temperature -> judged against each specification that may apply -> advice. No step turns back.
//! This is the only module that carries values from one area to another.
//!
//! # Conventions
//! - Nothing is chosen silently: what the kernel had to assume stands in [`Report::assumptions`].
//! - Several specifications are judged side by side; only those known not to apply are left out.
//! - All problems of a request are reported together.
//!
//! Uses every other module of the crate.

mod advice;
mod assumptions;
mod cautions;
mod comparison;
mod cooling;
mod crank_check;
mod crank_train;
mod describe;
mod diagnosed;
mod judging;
mod lash_curve;
mod locking;
mod plans;
mod problem;
mod readings;
mod report;
mod request;
mod reset;
mod run;
mod sheet;
mod shim_plan;
mod shown;
mod warm;

pub use advice::{Action, Advice};
pub use plans::PlanChoice;
pub use problem::Problem;
pub use readings::{ReadingsReport, judge_readings};
pub use report::{
    Assumption, CamRingReport, CheckReport, CrankCheckReport, CrankHypothesisReport,
    DeadCentreReport, EngineReport, ExplanationReport, Judged, LastFired, NextRockerReport,
    NotOffered, NotShimmed, PlanReport, Recommendation, Report, RockerReport, ShimCount, ShimFrom,
    ShimLeft, ShimMove, ShimPlanReport, SpecificationReport, StopReport, UnreachableReport,
    ValveReport,
};
pub use report::{
    BeforeLocking, ComparisonReport, CoolingReport, LashCurve, LashPoint, LockingReport, WaitReport,
};
pub use report::{
    DiagnosisReport, EvidenceReport, HypothesisReport, ModelReport, ThingToLookAt, WayReport,
};
pub use request::{Adjuster, Metal, Request, ShimRules, SwapScope, ValveReading};
pub use run::run;
pub use warm::{Cooling, LashTable, WarmQuestions};
