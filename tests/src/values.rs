//! Typed values from the plain figures of a test; a figure that is refused stops the test.
#![allow(
    clippy::unwrap_used,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::quantity::{CrankAngle, Lash, Marked, Temperature, TemperatureDifference};
use lashwork::thermal::{Material, material};
use lashwork::tolerance::{Limits, Uncertainty};

/// Crank degrees.
#[must_use]
pub fn deg(degrees: f64) -> CrankAngle {
    CrankAngle::from_degrees(degrees).unwrap()
}

/// A temperature in degrees Celsius.
#[must_use]
pub fn celsius(c: f64) -> Temperature {
    Temperature::from_celsius(c).unwrap()
}

/// A temperature difference in kelvin.
#[must_use]
pub fn kelvin(k: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvin(k).unwrap()
}

/// A material of the table.
#[must_use]
pub fn table(name: &str) -> Material {
    material(name).unwrap().clone()
}

/// A lash as written.
#[must_use]
pub fn lash(text: &str) -> Lash {
    Lash::parse(text).unwrap()
}

/// An exact length as written.
#[must_use]
pub fn mark(text: &str) -> Marked {
    Marked::parse(text).unwrap()
}

/// A band as written.
#[must_use]
pub fn band(low: &str, high: &str) -> Limits<Lash> {
    Limits::between(mark(low), mark(high)).unwrap()
}

/// A standard uncertainty in millimetres.
#[must_use]
pub fn u(mm: f64) -> Uncertainty<Lash> {
    Uncertainty::from_mm(mm).unwrap()
}
