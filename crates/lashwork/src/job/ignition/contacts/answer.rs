//! What was found at the contacts.

use crate::ignition::breaker::Dwell;
use crate::job::work::{MeasuredReport, WorkAdvice};
use crate::quantity::CrankAngle;
use crate::tolerance::Uncertainty;
use alloc::string::String;
use alloc::vec::Vec;
use serde::Serialize;

/// What was found at the contacts, and what to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct ContactsReport {
    /// Lobes of the cam.
    pub lobes: u8,
    /// The dwell against the book.
    pub dwell: Option<MeasuredReport>,
    /// The gap against the book.
    pub gap: Option<MeasuredReport>,
    /// Scales on which the meter may have stood instead; a possibility, never corrected.
    pub other_scales: Vec<OtherScaleReport>,
    /// What leaf and dwell say together.
    pub leaf_against_dwell: Option<String>,
    /// How the dwell keeps with speed.
    pub steady: Option<MeasuredReport>,
    /// What a second printed pair says of the first.
    pub second_pair: Option<String>,
    /// What to do.
    pub advice: WorkAdvice,
    /// How far the spark moves with it.
    pub spark: Option<SparkShiftReport>,
}

/// A scale on which the meter may have stood.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct OtherScaleReport {
    /// Which scale, in words.
    pub scale: String,
    /// What the dwell would be.
    pub dwell: Dwell,
    /// How probable it is that such a dwell lies in the band.
    pub in_band: f64,
    /// The same in words.
    pub text: String,
}

/// How far the spark moves.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[non_exhaustive]
pub struct SparkShiftReport {
    /// How much earlier the spark comes, in crank degrees; negative is later.
    pub earlier: CrankAngle,
    /// Its standard uncertainty, in crank degrees.
    pub uncertainty_deg: f64,
    /// The same in words.
    pub text: String,
}

impl SparkShiftReport {
    /// In words, with what follows for the timing.
    pub(super) fn new(earlier: CrankAngle, u: Uncertainty<crate::quantity::Advance>) -> Self {
        use alloc::format;
        let degrees = earlier.degrees();
        let side = if degrees < 0.0 { "later" } else { "earlier" };
        Self {
            earlier,
            uncertainty_deg: u.number(),
            text: format!(
                "the spark then comes {:.1} crank deg {side}, u {:.1} deg: set the timing after this, not before",
                degrees.abs(),
                u.number()
            ),
        }
    }
}
