//! A row of columns by itself: as a single reading is judged, or why it is refused.

use super::ClearanceError;
use super::columns::{MetalColumns, ReadingColumns};
use super::reading_rows::ReadingRow;
use crate::quantity::{Lash, LashChange, Nominal, Temperature, TemperatureDifference};
use crate::thermal::{LashCoefficient, Metal, MetalTemperature, Reference};
use crate::tolerance::{BandJudge, Estimate, JudgedRow, ToleranceError, Uncertainty, Verdict};

/// A reading brought to the temperature of its limits, with them.
struct Brought {
    estimate: Estimate<Lash>,
    at_reference: bool,
    lower: Option<f64>,
    upper: Option<f64>,
}

impl ReadingColumns<'_> {
    /// A row by itself.
    pub(super) fn alone(
        &self,
        row: usize,
        band: &mut BandJudge<'_, Lash>,
    ) -> Result<ReadingRow, ClearanceError> {
        self.brought(row).map(|brought| brought.judged(band))
    }

    fn brought(&self, row: usize) -> Result<Brought, ClearanceError> {
        let (low, high, u) = (
            self.low.at(row),
            self.high.at(row),
            self.uncertainty.at(row),
        );
        let read = Estimate::from_numbers(low, high, u)?;
        let [lower, upper] = [self.lower, self.upper].map(|limit| limit.at(row));
        let limits = limits(lower, upper)?;
        let (estimate, at_reference) = match &self.metal {
            None => (read, true),
            Some(metal) => {
                let (change, extra, at_reference) = metal.warmth(row)?;
                (read.shifted(-change, extra), at_reference)
            }
        };
        Ok(Brought {
            estimate,
            at_reference,
            lower: limits.0,
            upper: limits.1,
        })
    }
}

/// The limits of a row, at least one of them.
fn limits(lower: f64, upper: f64) -> Result<(Option<f64>, Option<f64>), ToleranceError> {
    let limit = |mm: f64| -> Result<Option<f64>, ToleranceError> {
        if mm.is_finite() {
            return Ok(Some(Nominal::checked_mm(mm)?));
        }
        Ok(None)
    };
    match (limit(lower)?, limit(upper)?) {
        (None, None) => Err(ToleranceError::NoLimit),
        (Some(low), Some(high)) if low > high => Err(ToleranceError::CrossedLimits {
            low: alloc::format!("{low} mm"),
            high: alloc::format!("{high} mm"),
        }),
        both => Ok(both),
    }
}

impl MetalColumns<'_> {
    /// What the metal's temperature added to the lash, the standard uncertainty of that, and whether the lash
    /// without it is that at the reference.
    fn warmth(&self, row: usize) -> Result<(LashChange, Uncertainty<Lash>, bool), ClearanceError> {
        let reference = Temperature::from_celsius(self.reference.at(row))?;
        let (celsius, coefficient) = (self.celsius.at(row), self.mm_per_kelvin.at(row));
        if celsius.is_nan() {
            return not_followed(&Metal::Unstated, reference);
        }
        let at = Temperature::from_celsius(celsius)?;
        let u_at = TemperatureDifference::from_kelvin(self.uncertainty.at(row))?;
        if coefficient.is_nan() {
            return not_followed(&Metal::At(MetalTemperature::known(at, u_at)), reference);
        }
        let u = self.mm_per_kelvin_uncertainty.at(row);
        let (change, u) = LashCoefficient::new(coefficient, u, None)?.shift(at, u_at, reference)?;
        Ok((change, u, true))
    }
}

/// Metal of which nothing says how the lash follows its temperature.
fn not_followed(
    metal: &Metal,
    reference: Temperature,
) -> Result<(LashChange, Uncertainty<Lash>, bool), ClearanceError> {
    let off = metal.not_at(Reference::At(reference))?;
    let u = Uncertainty::from_mm(off.map_or(0.0, |off| off.uncertainty_mm))?;
    Ok((LashChange::ZERO, u, off.is_none()))
}

impl Brought {
    fn judged(&self, band: &mut BandJudge<'_, Lash>) -> ReadingRow {
        band.turn_to(self.lower, self.upper);
        let mut found = band.judge(&self.estimate);
        if !self.at_reference {
            found.verdict = Verdict::CannotSay;
        }
        ReadingRow {
            low: self.estimate.low().map_or(f64::NEG_INFINITY, Lash::mm),
            high: self.estimate.high().map_or(f64::INFINITY, Lash::mm),
            u: self.estimate.normal_uncertainty().mm(),
            at_reference: self.at_reference,
            judged: JudgedRow::from(&found),
        }
    }
}
