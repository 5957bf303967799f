//! How much smaller or larger a jet other air wants, by theory and by the rules of books.

use super::JetError;
use crate::quantity::{Altitude, Temperature};
use serde::Serialize;

/// Feet and degrees Fahrenheit in which books state their steps.
const METRES_OF_STEP: f64 = 304.8;
const KELVIN_OF_STEP: f64 = 50.0 / 9.0;

/// A rule for the flow that other air wants.
///
/// They contradict each other, so each is given by its name and none is merged.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum JetRule {
    /// Flow with the root of the density: a carburettor draws by a depression that falls with the density
    /// itself, so half of the change corrects itself.
    Theory,
    /// Flow with the density: tables for jets often say so.
    Proportional,
    /// The book's steps.
    Steps(StepRule),
}

impl JetRule {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::mixture::jets::JetRule;
    /// assert_eq!(JetRule::Theory.code(), "mixture.jet-theory");
    /// ```
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Theory => "mixture.jet-theory",
            Self::Proportional => "mixture.jet-proportional",
            Self::Steps(_) => "mixture.jet-steps",
        }
    }
}

/// A book's rule: the number of the jet goes down by so much for each 1000 ft up and each 10 F hotter.
///
/// ```
/// use lashwork::mixture::jets::{JetPlace, StepRule};
/// use lashwork::quantity::{Altitude, Temperature};
/// let rule = StepRule::new(6.0, 4.0)?;
/// let sea = JetPlace { altitude: Altitude::parse("0 ft")?, temperature: Temperature::parse("70 F")? };
/// let pass = JetPlace { altitude: Altitude::parse("5000 ft")?, temperature: Temperature::parse("50 F")? };
/// assert!((rule.number(200.0, &sea, &pass) - (200.0 - 30.0 + 8.0)).abs() < 1e-9);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StepRule {
    per_1000_ft: f64,
    per_10_f: f64,
}

/// Where a jet is used.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct JetPlace {
    /// Height.
    pub altitude: Altitude,
    /// Temperature of the air.
    pub temperature: Temperature,
}

impl StepRule {
    /// From the book's steps, in numbers of the jet.
    ///
    /// # Errors
    /// [`JetError::Steps`] if negative or over 100.
    pub fn new(per_1000_ft: f64, per_10_f: f64) -> Result<Self, JetError> {
        for got in [per_1000_ft, per_10_f] {
            if !(0.0..=100.0).contains(&got) {
                return Err(JetError::Steps { got });
            }
        }
        Ok(Self {
            per_1000_ft,
            per_10_f,
        })
    }

    /// The number the rule asks for.
    #[must_use]
    pub fn number(&self, fitted: f64, from: &JetPlace, to: &JetPlace) -> f64 {
        let up = (to.altitude.metres() - from.altitude.metres()) / METRES_OF_STEP;
        let hotter = (to.temperature - from.temperature).kelvin() / KELVIN_OF_STEP;
        fitted - self.per_1000_ft * up - self.per_10_f * hotter
    }
}
