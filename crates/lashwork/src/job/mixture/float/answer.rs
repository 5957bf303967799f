//! What was found of the fuel level.

use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::{FuelLevel, GaugePressure, Lambda, Length, Vacuum};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// The fuel level, and what to bend.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FloatReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// How deep the float sits in the fuel it was read with, if that was stated or follows from its weight.
    pub depth: Option<Length>,
    /// What the fuel that is burnt does against that the level was read with, if that is another.
    pub fuel: Option<FloatFuelReport>,
    /// The float chambers, as they were read.
    pub chambers: Vec<FloatChamberReport>,
}

/// What the fuel that is burnt does against that the level was read with.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FloatFuelReport {
    /// How much higher it stands, in millimetres; negative if lower.
    pub rises_by: f64,
    /// Standard uncertainty of that, in millimetres.
    pub rises_by_u: f64,
    /// The air-fuel ratio that burns it, over that of the other fuel.
    pub needs: f64,
    /// Mass of it through the same jets, over that of the other fuel; only with the nozzle.
    pub mass_flow: Option<f64>,
    /// Lambda with it through the same jets, over that before; only with the nozzle.
    pub leaner_by: Option<f64>,
    /// Lambda with it, if that before is known.
    pub lambda: Option<Lambda>,
    /// Standard uncertainty of that.
    pub lambda_u: Option<f64>,
    /// The same in words.
    pub text: String,
}

/// The fuel level in a float chamber.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct FloatChamberReport {
    /// Its name.
    pub name: String,
    /// The level as it was read.
    pub read: FuelLevel,
    /// The level with the fuel that is burnt.
    pub level: FuelLevel,
    /// Standard uncertainty of that, in millimetres.
    pub level_u: f64,
    /// That against the book's.
    pub judged: MeasuredReport,
    /// By how much it is to rise to the middle of the book's band; none where the band has one end or it is
    /// left.
    pub rise: Option<FuelLevel>,
    /// How far the tang moves at the needle for it, if the float's leverage is known.
    pub at_needle: Option<Length>,
    /// Pressure of the fuel over the jet.
    pub head: Option<GaugePressure>,
    /// The depression at the nozzle from which fuel comes; none if it runs out by itself.
    pub lifted_from: Option<Vacuum>,
    /// Whether the fuel stands over the nozzle's mouth and runs out by itself, where the nozzle is stated.
    pub runs_over: Option<bool>,
    /// Mass of fuel over that at the middle of the book's band.
    pub flow: Option<f64>,
    /// What the level does at the jet, in words.
    pub at_jet_text: Option<String>,
    /// What to do.
    pub advice: WorkAdvice,
}
