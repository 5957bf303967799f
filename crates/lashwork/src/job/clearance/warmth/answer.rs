//! What the report says about temperature besides the corrections.

use crate::quantity::{Lash, LashChange, Temperature};
use crate::thermal::Wait;
use crate::valve::ValveKind;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// How warm the metal is and what follows from it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WarmthReport {
    /// How warm the metal is and how the lash follows, one line for each fact.
    pub metal: Vec<String>,
    /// How warm it is, one for each temperature that is stated.
    pub temperatures: Vec<TemperatureReport>,
    /// The two models of lash against temperature compared, where both are given; one for each reference temperature.
    pub comparisons: Vec<ComparisonReport>,
    /// How the metal cools and how long to wait.
    pub cooling: Option<CoolingReport>,
    /// Lash by temperature, intake then exhaust of each specification.
    pub lash_curves: Vec<LashCurve>,
}

/// How warm the metal is.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct TemperatureReport {
    /// The valves it is stated for; nothing if it is one for both kinds.
    pub valves: Option<ValveKind>,
    /// What has it; nothing if it is that of all the metal.
    pub name: Option<String>,
    /// The temperature.
    pub temperature: Temperature,
    /// Its standard uncertainty in kelvin.
    pub uncertainty_k: f64,
    /// The same in words.
    pub text: String,
}

/// How the metal cools and how long to wait.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct CoolingReport {
    /// The temperature it cools towards, by the fit.
    pub surroundings: Temperature,
    /// Its standard uncertainty in kelvin.
    pub surroundings_uncertainty_k: f64,
    /// The temperature at the last reading, by the fit.
    pub now: Temperature,
    /// Why that contradicts the stated temperatures, if it does: they are taken to be those
    /// of the last reading.
    pub at_odds: Option<String>,
    /// Share of the difference that goes each minute (1/min).
    pub per_minute: f64,
    /// Its standard uncertainty (1/min).
    pub per_minute_uncertainty: f64,
    /// Half-time: minutes in which half of the difference goes.
    pub half_minutes: f64,
    /// Scatter of the readings over the thermometer's uncertainty; nothing if none is left over.
    pub scatter: Option<f64>,
    /// Readings more than the fit needs.
    pub degrees_of_freedom: usize,
    /// How long to wait, counted from the last reading.
    pub waits: Vec<WaitReport>,
}

/// How long to wait before a kind of valve can be judged by a specification.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct WaitReport {
    /// The specification.
    pub specification: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// Greatest standard uncertainty of the correction that is wanted, in millimetres; nothing if the
    /// band has one limit only and so no width.
    pub limit_mm: Option<f64>,
    /// What it is now, in millimetres.
    pub now_mm: f64,
    /// The answer; nothing without a limit.
    pub wait: Option<Wait>,
    /// The answer in words.
    pub text: String,
}

/// Two models of lash against temperature, compared.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ComparisonReport {
    /// Temperature that both start from.
    pub reference: Temperature,
    /// The model that corrects the readings: `parts` or `measured`.
    pub used: &'static str,
    /// The thermal change by the model that is used.
    pub by_used: LashChange,
    /// Its standard uncertainty in millimetres.
    pub by_used_uncertainty_mm: f64,
    /// The thermal change by the other model.
    pub by_other: LashChange,
    /// Its standard uncertainty in millimetres.
    pub by_other_uncertainty_mm: f64,
    /// Used minus other.
    pub difference: LashChange,
    /// Its standard uncertainty in millimetres.
    pub difference_uncertainty_mm: f64,
    /// Size of the difference over twice its standard uncertainty; nothing without uncertainty.
    pub normalized_error: Option<f64>,
    /// Chance of a difference at least this large if both models are right.
    pub chance: Option<f64>,
    /// Whether they agree: a normalized error of 1 at most.
    pub agree: bool,
    /// The finding in words.
    pub text: String,
}

/// Lash by temperature for valves that are at the set value when cold.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashCurve {
    /// The specification.
    pub specification: String,
    /// Intake or exhaust.
    pub kind: ValveKind,
    /// The temperature that varies; nothing if the whole engine does.
    pub varies: Option<String>,
    /// The table, in rising temperature.
    pub points: Vec<LashPoint>,
}

/// Lash at a temperature.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LashPoint {
    /// The temperature.
    pub temperature: Temperature,
    /// The thermal change there of any lash at the reference.
    pub change: LashChange,
    /// Its standard uncertainty in millimetres.
    pub uncertainty_mm: f64,
    /// The lash there of a valve at the set value.
    pub lash: Lash,
    /// That of a valve at the lower end of the set band, if it has one.
    pub low: Option<Lash>,
    /// That of a valve at the upper end of the set band, if it has one.
    pub high: Option<Lash>,
}
