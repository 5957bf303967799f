//! What leak-down says.

use crate::condition::leak::LeakPath;
use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::{GaugePressure, Length};
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// Leak-down: how large each leak is, whatever tester it was read with, and where it goes.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeakDownReport {
    /// What came out, in words.
    pub verdict_text: String,
    /// Why it holds for now only, if it does.
    pub provisional: Option<String>,
    /// How hard the air turns the crank, in words, if crank and bore are stated.
    pub turning_text: Option<String>,
    /// Each cylinder, in the order of the readings.
    pub cylinders: Vec<LeakCylinderReport>,
    /// The cylinder that leaks most.
    pub worst: String,
    /// Cylinders without a reading.
    pub not_read: Vec<String>,
    /// What to do.
    pub advice: WorkAdvice,
}

/// The leak of a cylinder.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct LeakCylinderReport {
    /// The cylinder.
    pub name: String,
    /// What the tester showed.
    pub shown: GaugePressure,
    /// The area of the leak, in square millimetres: what may be compared, and kept.
    pub area_mm2: f64,
    /// Its standard uncertainty.
    pub area_u_mm2: f64,
    /// The diameter of one round hole as large.
    pub hole: Length,
    /// Part of the supply that this tester shows as lost, in per cent; another shows another.
    pub percent_lost: f64,
    /// By the printed rule, if there is one.
    pub judged: Option<MeasuredReport>,
    /// What leaks, by where it hissed.
    pub paths: Vec<LeakPath>,
    /// All of that in words.
    pub text: String,
}
