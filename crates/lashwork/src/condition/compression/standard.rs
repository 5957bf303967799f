//! The good cylinders of the engine, which the others are compared with.

use super::{CompressionError, CylinderReading};
use crate::engine::CylinderLabel;
use crate::quantity::GaugePressure;
use crate::tolerance::Estimate;
use crate::tolerance::known::normal;
use alloc::vec::Vec;
use serde::Serialize;

/// How far good cylinders lie under the highest of them, as one published rule has it.
const WITHIN: f64 = 0.9;
/// Least that a good cylinder shows, in kilopascals: 20 psi.
const GOOD: f64 = 138.0;
/// Standard deviation of good cylinders, as a part. This library's choice.
pub(super) const NATURAL: f64 = 0.03;

/// The largest group of cylinders within a tenth of its highest; of two as large the higher.
///
/// ```
/// use lashwork::condition::compression::{CylinderReading, Standard};
/// use lashwork::engine::CylinderLabel;
/// use lashwork::quantity::GaugePressure;
/// let read = |n, psi: &str| CylinderReading::dry(CylinderLabel::numbered(n), GaugePressure::parse(psi).unwrap());
/// let readings = [read(1, "150 psi"), read(2, "145 psi"), read(3, "90 psi"), read(4, "152 psi")];
/// let standard = Standard::of(&readings, 15.0)?.unwrap();
/// assert_eq!(standard.members.len(), 3);
/// # Ok::<(), lashwork::condition::compression::CompressionError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Standard {
    /// The cylinders, in the order of the readings.
    pub members: Vec<CylinderLabel>,
    /// Their mean, with what is left of it open by the scatter of readings and of good cylinders.
    pub shown: Estimate<GaugePressure>,
}

/// An exponent that no compression has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum ExponentDoubt {
    /// Under 1: even the best cylinders leak, or ratio, closing or cranking are not as stated.
    UnderIsothermal,
    /// Over 1.41: ratio, closing, air or gauge are not as stated, or carbon fills the head.
    OverAdiabatic,
}

impl Standard {
    /// Finds them; none if no cylinder shows 20 psi. `repeat` is the scatter of a reading in kilopascals.
    ///
    /// # Errors
    /// [`CompressionError::Tolerance`] for a scatter that cannot be.
    pub fn of(readings: &[CylinderReading], repeat: f64) -> Result<Option<Self>, CompressionError> {
        let mut best: Vec<&CylinderReading> = Vec::new();
        let top = |group: &[&CylinderReading]| {
            let all = group.iter().map(|r| r.dry.kilopascals());
            all.fold(0.0, f64::max)
        };
        for head in readings.iter().filter(|r| r.dry.kilopascals() >= GOOD) {
            let highest = head.dry.kilopascals();
            let is_in = |r: &&CylinderReading| {
                let own = r.dry.kilopascals();
                own <= highest && own >= WITHIN * highest && own >= GOOD
            };
            let group: Vec<&CylinderReading> = readings.iter().filter(is_in).collect();
            let is_better =
                group.len() > best.len() || (group.len() == best.len() && highest > top(&best));
            if is_better {
                best = group;
            }
        }
        if best.is_empty() {
            return Ok(None);
        }
        let (mean, u) = of_others(&best, None, repeat).unwrap_or((0.0, 0.0));
        Ok(Some(Self {
            members: best.iter().map(|r| r.cylinder.clone()).collect(),
            shown: normal(mean, u)?,
        }))
    }

    /// What a cylinder should show by the good ones beside it, in kilopascals with its standard uncertainty;
    /// none if it is the only good one.
    pub(super) fn for_cylinder(
        &self,
        readings: &[CylinderReading],
        cylinder: &CylinderLabel,
        repeat: f64,
    ) -> Option<(f64, f64)> {
        let is_member = |r: &&CylinderReading| self.members.contains(&r.cylinder);
        let members: Vec<&CylinderReading> = readings.iter().filter(is_member).collect();
        of_others(&members, Some(cylinder), repeat)
    }
}

/// Mean of a group but for one cylinder, and its standard uncertainty.
fn of_others(
    group: &[&CylinderReading],
    but: Option<&CylinderLabel>,
    repeat: f64,
) -> Option<(f64, f64)> {
    let others = group.iter().filter(|r| Some(&r.cylinder) != but);
    let shown: Vec<f64> = others.map(|r| r.dry.kilopascals()).collect();
    if shown.is_empty() {
        return None;
    }
    let count = shown.len() as f64;
    let mean = shown.iter().sum::<f64>() / count;
    Some((
        mean,
        libm::hypot(repeat, NATURAL * mean) / libm::sqrt(count),
    ))
}
