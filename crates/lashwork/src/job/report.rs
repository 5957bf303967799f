//! The answer to a [`Request`](super::Request), made to be serialised and shown.

mod crank_check;
mod crank_train;
mod plans;

pub use crank_check::{
    CrankCheckReport, CrankHypothesisReport, ExplanationReport, NextRockerReport, RockerReport,
};
pub use crank_train::{CamRingReport, DeadCentreReport};
mod shims;

pub use shims::{NotShimmed, ShimCount, ShimFrom, ShimLeft, ShimMove, ShimPlanReport};
mod locking;
mod warm;

pub use locking::{BeforeLocking, LockingReport};
pub use plans::{
    CheckReport, LastFired, NotOffered, PlanReport, Recommendation, StopReport, UnreachableReport,
};
pub use warm::{ComparisonReport, CoolingReport, LashCurve, LashPoint, WaitReport};
mod diagnosis;

pub use diagnosis::{
    DiagnosisReport, EvidenceReport, HypothesisReport, ModelReport, ThingToLookAt, WayReport,
};

use super::Advice;
use crate::engine::Rotation;
use crate::quantity::{CrankAngle, Cycle, Lash, LashChange, Temperature};
use crate::tolerance::{Applicability, Probabilities, Verdict};
use crate::valve::ValveKind;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Something the kernel had to assume because the request did not say it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Assumption {
    /// A short name that never changes.
    pub code: String,
    /// What was assumed, with values.
    pub text: String,
}

/// The engine as understood.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EngineReport {
    /// Two- or four-stroke.
    pub cycle: Cycle,
    /// Cylinder labels in firing order.
    pub firing_order: Vec<String>,
    /// Crank degrees from each firing to the next.
    pub intervals: Vec<CrankAngle>,
    /// Running direction and the end it is seen from.
    pub rotation: Rotation,
    /// How the cylinders are numbered.
    pub numbering: String,
    /// Where pistons top and turn round; empty if no rods were described.
    pub dead_centres: Vec<DeadCentreReport>,
    /// The cam ring, found to go with the firing order.
    pub cam_ring: Option<CamRingReport>,
}

/// A specification as understood.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SpecificationReport {
    /// Its identifier in the request.
    pub id: String,
    /// The document it stands in, with edition and what it is for.
    pub provenance: String,
    /// Whether it applies to this engine.
    pub applicability: Applicability,
    /// Whether its limits hold for a cold or a hot engine.
    pub condition: crate::tolerance::Condition,
    /// Temperature at which its limits hold.
    pub reference: Temperature,
    /// Intake limits in words.
    pub intake: String,
    /// Exhaust limits in words.
    pub exhaust: String,
}

/// One valve's reading judged against one specification.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The specification.
    pub specification: String,
    /// What the metal's warmth had added to the lash against the reference temperature; nothing if
    /// the reading was not corrected.
    pub warmth: Option<LashChange>,
    /// Standard uncertainty of that, in millimetres.
    pub warmth_uncertainty_mm: f64,
    /// Lower end of the lash at the reference temperature, if the reading has one.
    pub low: Option<Lash>,
    /// Upper end of the lash at the reference temperature, if the reading has one.
    pub high: Option<Lash>,
    /// Standard uncertainty of everything but the bracket itself, in millimetres.
    pub normal_uncertainty_mm: f64,
    /// Standard uncertainty of all together, for a reading with both ends, in millimetres.
    pub standard_uncertainty_mm: Option<f64>,
    /// The limits it was judged against, as printed.
    pub limits: String,
    /// The lower of those limits, if there is one.
    pub limit_low: Option<Lash>,
    /// The upper of those limits, if there is one.
    pub limit_high: Option<Lash>,
    /// What the valve is set to when it is set.
    pub set_to: Option<Lash>,
    /// The verdict.
    pub verdict: Verdict,
    /// How sure it is.
    pub probabilities: Probabilities,
    /// Whether any reading this uncertain could be proved good.
    pub provable: bool,
    /// What to do.
    pub advice: Advice,
}

/// One valve.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ValveReport {
    /// Cylinder label.
    pub cylinder: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Which of its kind, from 1.
    pub number: u8,
    /// The valve by name.
    pub name: String,
    /// The reading in words, as taken.
    pub reading: String,
    /// Whether the leaves are marked in inches, so that a sheet shows inches as well.
    pub leaves_in_inches: bool,
    /// Lower end of the gap as felt.
    pub felt_low: Option<Lash>,
    /// Upper end of the gap as felt.
    pub felt_high: Option<Lash>,
    /// Standard uncertainty from leaves and feel, in millimetres.
    pub felt_uncertainty_mm: f64,
    /// The judgement by each specification that may apply.
    pub judged: Vec<Judged>,
}

/// The whole answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Report {
    /// What the engine is called.
    pub title: String,
    /// The request's note.
    pub note: Option<String>,
    /// The engine as understood.
    pub engine: EngineReport,
    /// The specifications, applying or not.
    pub specifications: Vec<SpecificationReport>,
    /// Where specifications that may apply disagree.
    pub disagreements: Vec<String>,
    /// Where the crank can be stopped, in words.
    pub places: String,
    /// Stop plans, side by side.
    pub plans: Vec<PlanReport>,
    /// What the rockers said about where the crank stands, if that was asked.
    pub crank_check: Option<CrankCheckReport>,
    /// Kinds of plan that cannot be offered, and why.
    pub not_offered: Vec<NotOffered>,
    /// The plan to walk.
    pub recommended: Option<Recommendation>,
    /// How warm the metal is and how the lash follows, one line for each fact.
    pub metal: Vec<String>,
    /// The two rules of warmth held against each other, where both are given; one line for each
    /// reference temperature.
    pub comparisons: Vec<ComparisonReport>,
    /// How the metal cools and how long to wait.
    pub cooling: Option<CoolingReport>,
    /// Lash by temperature, intake then exhaust of each specification.
    pub lash_curves: Vec<LashCurve>,
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
    /// Valves without a reading.
    pub not_read: Vec<String>,
    /// What had to be assumed.
    pub assumptions: Vec<Assumption>,
    /// What can hurt someone.
    pub cautions: Vec<&'static str>,
}

impl Report {
    /// The report as a plain job sheet, the same bytes for the same report.
    #[must_use]
    pub fn sheet(&self) -> String {
        super::sheet::sheet(self)
    }
}
