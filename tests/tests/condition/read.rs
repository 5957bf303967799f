//! Typed values from the plain figures of these tests.
#![allow(
    clippy::unwrap_used,
    reason = "a figure written in a test that is refused is a broken test"
)]

use lashwork::condition::compression::CylinderReading;
use lashwork::engine::{CylinderLabel, PinOffset, SliderCrank};
use lashwork::quantity::{AbsolutePressure, GaugePressure, Length};
use lashwork::tolerance::{Estimate, Measurand, Uncertainty};

/// Kilopascals of a pound on a square inch.
pub(crate) const PSI: f64 = 6.894_757_293_168;

pub(crate) fn psi(number: f64) -> GaugePressure {
    GaugePressure::from_number(number, "psi").unwrap()
}

pub(crate) fn kpa(number: f64) -> GaugePressure {
    GaugePressure::from_kilopascals(number).unwrap()
}

pub(crate) fn air(kpa: f64) -> AbsolutePressure {
    AbsolutePressure::from_kilopascals(kpa).unwrap()
}

pub(crate) fn about<Q: Measurand>(number: f64, u: f64) -> Estimate<Q> {
    let value = Q::from_number(number).unwrap();
    Estimate::between(value, value, Uncertainty::from_number(u).unwrap()).unwrap()
}

pub(crate) fn crank(stroke: f64, rod: f64) -> SliderCrank {
    let mm = |mm: f64| Length::from_mm(mm).unwrap();
    SliderCrank::new(mm(stroke / 2.0), mm(rod), PinOffset::ZERO).unwrap()
}

/// Dry readings of cylinders 1 to n in psi.
pub(crate) fn dry(shown: &[f64]) -> Vec<CylinderReading> {
    let numbered = shown.iter().enumerate();
    let read =
        |(i, p): (usize, &f64)| CylinderReading::dry(CylinderLabel::numbered(i + 1), psi(*p));
    numbered.map(read).collect()
}
