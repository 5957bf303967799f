//! How much more or less a cylinder shows than its mates because its intake closes earlier or later.
//!
//! # Source
//! `p = p_air r^n` with `r` from the closing: geometry. That lash alone moves the compression is published; the
//! texts are named in the tests of the events.

use super::{CompressionError, Cranking, CylinderReading, Exponent};
use crate::engine::CylinderLabel;
use crate::quantity::{CrankAngle, GaugePressure};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal};
use alloc::vec::Vec;

/// Step for the slope in the closing, in degrees.
const STEP: f64 = 0.5;

/// What each cylinder shows over what it would with the mean closing, with its standard uncertainty.
#[derive(Default)]
pub(super) struct ByLash(Vec<(CylinderLabel, f64, f64)>);

impl ByLash {
    /// By the closings that are known on both sides.
    pub(super) fn of(
        closings: &[(CylinderLabel, Estimate<CrankAngle>)],
        engine: &Cranking,
        exponent: Exponent,
    ) -> Result<Self, CompressionError> {
        let all = closings.iter();
        let all = all.filter_map(|(label, closes)| Some((label, known(closes)?)));
        let all: Vec<(&CylinderLabel, (f64, f64))> = all.collect();
        if all.is_empty() {
            return Ok(Self::default());
        }
        let mean = all.iter().map(|(_, (closes, _))| closes).sum::<f64>() / all.len() as f64;
        let middle = 0.5 * (exponent.low() + exponent.high());
        // What the gauge shows over the air around it.
        let shown = |closes: f64| -> Result<f64, CompressionError> {
            let engine = Cranking {
                intake_closes_abdc: Some(normal(closes, 0.0)?),
                ..*engine
            };
            Ok(libm::pow(engine.effective_ratio()?, middle) - 1.0)
        };
        let usual = shown(mean)?;
        let mut made = Vec::new();
        for (label, (closes, u)) in all {
            let slope = (shown(closes + STEP)? - shown(closes - STEP)?) / (2.0 * STEP);
            made.push((
                label.clone(),
                shown(closes)? / usual,
                (slope * u / usual).abs(),
            ));
        }
        Ok(Self(made))
    }

    /// That of a cylinder; one of which it is not known closes on the mean.
    pub(super) fn of_cylinder(&self, cylinder: &CylinderLabel) -> (f64, f64) {
        let mut all = self.0.iter();
        let own = all.find(|(label, _, _)| label == cylinder);
        own.map_or((1.0, 0.0), |(_, factor, u)| (*factor, *u))
    }

    /// The readings as they would be if all closed alike.
    pub(super) fn alike(
        &self,
        readings: &[CylinderReading],
    ) -> Result<Vec<CylinderReading>, CompressionError> {
        let of = |reading: &CylinderReading| {
            let (factor, _) = self.of_cylinder(&reading.cylinder);
            let over = |shown: GaugePressure| {
                GaugePressure::from_kilopascals(shown.kilopascals() / factor)
            };
            Ok(CylinderReading {
                dry: over(reading.dry)?,
                wet: reading.wet.map(over).transpose()?,
                ..reading.clone()
            })
        };
        readings.iter().map(of).collect()
    }
}
