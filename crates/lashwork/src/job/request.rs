//! What a clearance job needs to know, in typed values.

use super::{PlanChoice, WarmQuestions};
use crate::adjust::{LockNut, ScrewSeat, ShimRounding, ShimSeries, ShimStock, Thread};
use crate::diagnosis::Prior;
use crate::engine::{CylinderIndex, Engine, Pulley};
use crate::feeler::{Combination, Hollow, LeafSet, LeafTolerances, Reading};
use crate::quantity::{CrankAngle, ShimThickness, Temperature, TemperatureDifference};
use crate::rockers::CrankCheck;
use crate::thermal::{Chain, LashCoefficient, PartTemperatures};
use crate::tolerance::{DecisionRule, Specification, Uncertainty};
use crate::valve::{CamEvents, ValveId};
use alloc::string::String;
use alloc::vec::Vec;

/// How a valve's lash is adjusted.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Adjuster {
    /// Not stated: advice says how much, not how.
    Unstated,
    /// A screw with a lock nut.
    Screw {
        /// Its thread.
        thread: Thread,
        /// Which end of the rocker it sits in.
        seat: ScrewSeat,
        /// Whether turning it in closes the gap; taken so, and listed, when not stated.
        inward_closes: Option<bool>,
        /// What locking it does to the gap; taken as nothing, and listed, when not known.
        lock_nut: Option<LockNut>,
    },
    /// A shim of fixed thickness.
    Shim {
        /// Change of gap for one unit of shim: 1 on a bucket.
        ratio: f64,
        /// Sizes that can be had.
        series: Option<ShimSeries>,
        /// Shims on hand.
        stock: ShimStock,
        /// How shims may be used.
        rules: ShimRules,
    },
}

/// Whose shims a plan may change or lend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum SwapScope {
    /// Those of valves out of their band: what is good is not touched.
    OnlyOutOfBand,
    /// Any: a valve in its band may get another shim if that saves a purchase or helps another.
    Any,
}

/// How shims may be used; what is not stated is taken as said, and listed.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ShimRules {
    /// Which of two sizes to take; see [`ShimSeries::choose`] if not stated.
    pub rounding: Option<ShimRounding>,
    /// Whose shims may be moved; only those of valves out of band if not stated.
    pub swap: Option<SwapScope>,
    /// Standard uncertainty of a shim that states none of its own; none if not stated.
    pub size_uncertainty: Option<Uncertainty<ShimThickness>>,
}

/// How warm the metal is, and how the lash follows.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Metal {
    /// Not stated: readings are taken to be at the specification's reference temperature.
    Unstated,
    /// Known, but no rule how the lash follows.
    At {
        /// Temperature of the metal.
        temperature: Temperature,
        /// Its standard uncertainty.
        uncertainty: TemperatureDifference,
    },
    /// A chain of parts with their temperatures.
    Chain {
        /// The parts.
        chain: Chain,
        /// Their temperatures.
        temperatures: PartTemperatures,
    },
    /// A coefficient fitted from readings at several temperatures.
    Coefficient {
        /// Change of lash per kelvin.
        coefficient: LashCoefficient,
        /// Temperature of the metal.
        temperature: Temperature,
        /// Its standard uncertainty.
        uncertainty: TemperatureDifference,
    },
}

/// What was felt at one valve.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveReading {
    /// The valve.
    pub valve: ValveId,
    /// What the leaves said.
    pub reading: Reading,
    /// A hollow worn into the pad, if one was found.
    pub hollow: Option<Hollow>,
    /// The shim that sits there, if known.
    pub shim: Option<ShimThickness>,
    /// Standard uncertainty of that thickness, if known.
    pub shim_uncertainty: Option<Uncertainty<ShimThickness>>,
}

/// A whole clearance job.
#[derive(Clone, Debug, PartialEq)]
pub struct Request {
    /// What the engine is called.
    pub title: String,
    /// Anything the writer wants to keep with the job.
    pub note: Option<String>,
    /// The engine.
    pub engine: Engine,
    /// Its number, to tell which specification applies.
    pub engine_number: Option<u64>,
    /// Cam events; assumed wide ones stand in when unknown.
    pub events: Option<CamEvents>,
    /// Guard at both ends of the base circle.
    pub guard: Option<CrankAngle>,
    /// Intake valves per cylinder.
    pub intake_valves: u8,
    /// Exhaust valves per cylinder.
    pub exhaust_valves: u8,
    /// Valve movement over cam movement; 1 without rockers.
    pub rocker_ratio: Option<f64>,
    /// How lash is adjusted.
    pub adjuster: Adjuster,
    /// The pulley that carries the marks.
    pub pulley: Option<Pulley>,
    /// The cylinder to start with; free if not given.
    pub start: Option<CylinderIndex>,
    /// Where the crank can be stopped, and where it stands.
    pub plan: PlanChoice,
    /// Every specification at hand.
    pub specifications: Vec<Specification>,
    /// Identifiers of the specifications that state no reference temperature.
    pub reference_assumed: Vec<String>,
    /// The leaves at hand.
    pub leaves: LeafSet,
    /// How leaf tolerances add in a stack.
    pub combination: Combination,
    /// How warm the metal is.
    pub metal: Metal,
    /// Names of the temperatures that state no uncertainty.
    pub thermometer_assumed: Vec<String>,
    /// What else is asked about warmth.
    pub warm: WarmQuestions,
    /// The readings.
    pub readings: Vec<ValveReading>,
    /// The decision rule; the default is listed as an assumption.
    pub rule: Option<DecisionRule>,
    /// Probability that anything is special; the usual one is listed as an assumption.
    pub diagnosis_prior: Option<Prior>,
    /// A believed crank position and the rockers felt there.
    pub crank_check: Option<CrankCheck>,
}

impl Request {
    /// What is taken for the tolerances of leaves.
    pub(super) fn leaf_tolerances(&self) -> LeafTolerances {
        LeafTolerances {
            combination: self.combination,
            unstated: None,
        }
    }
}
