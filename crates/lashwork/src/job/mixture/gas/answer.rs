//! What was found of the exhaust gas.

use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::mixture::gas::{GasCause, GasContradiction};
use crate::mixture::idle::Side;
use crate::quantity::{Lambda, VolumeShare};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What the exhaust gas says, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GasReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// Lambda; none if nothing was read.
    pub lambda: Option<GasLambdaReport>,
    /// What does not fit together; where anything is here, nothing is judged.
    pub contradictions: Vec<GasDoubtReport>,
    /// Carbon monoxide with the air taken off that may have got in behind the cylinders; only beside a
    /// contradiction that such air explains.
    pub co_without_air: Option<VolumeShare>,
    /// Why the gases do not count as read, if they do not.
    pub spoilt: Option<String>,
    /// Whether anything was judged.
    pub is_judged: bool,
    /// What was judged against the book.
    pub judged: GasJudgedReport,
    /// The side to which the mixture is to go; none where it is not to be turned.
    pub turn_toward: Option<Side>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// Lambda by the gases.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GasLambdaReport {
    /// Lambda, or the middle of where it lies; none without an upper end.
    pub value: Option<Lambda>,
    /// Its standard uncertainty.
    pub u: Option<f64>,
    /// From here, with 95 % or more.
    pub from: Option<Lambda>,
    /// To here; none where the gases do not say how lean.
    pub to: Option<Lambda>,
    /// Whether carbon monoxide alone says so.
    pub is_from_co_alone: bool,
    /// With neither oxygen nor hydrocarbons left; only from carbon monoxide alone.
    pub burnt_out: Option<Lambda>,
    /// By Spindt, as a check; none from carbon monoxide alone, or with much oxygen in the fuel.
    pub spindt: Option<Lambda>,
    /// Mass of air for a mass of this fuel.
    pub air_fuel_ratio: Option<f64>,
    /// The same where all just burns.
    pub fuel_air_fuel_ratio: f64,
    /// In words.
    pub text: String,
}

/// Gases that do not fit together.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GasDoubtReport {
    /// What does not fit.
    pub what: GasContradiction,
    /// The same in words.
    pub text: String,
    /// What may be behind it, the likeliest first.
    pub causes: Vec<GasCauseReport>,
}

/// What may be behind it, and what shows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GasCauseReport {
    /// The cause.
    pub cause: GasCause,
    /// The same in words.
    pub text: String,
    /// What to look at.
    pub look: &'static str,
}

/// What was judged; each none without a printed limit or a reading.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct GasJudgedReport {
    /// Lambda.
    pub lambda: Option<MeasuredReport>,
    /// Carbon monoxide.
    pub co: Option<MeasuredReport>,
    /// Hydrocarbons, as shown.
    pub hc: Option<MeasuredReport>,
}
