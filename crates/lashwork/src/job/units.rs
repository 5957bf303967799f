//! In which units a person reads the answer.

use crate::quantity::{LengthUnit, TemperatureUnit};
use serde::Serialize;

/// In which units texts say lengths and temperatures; numbers of the report are in SI units whatever stands
/// here.
///
/// ```
/// use lashwork::engine::Engine;
/// use lashwork::job::{Request, ShownLength, ShownTemperature, Units, run};
/// let engine = Engine::inline_four_stroke(&[1, 3, 4, 2]).map_err(|refused| format!("{refused:?}"))?;
/// let units = Units { length: Some(ShownLength::Inch), temperature: ShownTemperature::Fahrenheit };
/// let report = run(&Request::new(engine).shown_in(units)).map_err(|p| format!("{p:?}"))?;
/// assert_eq!(report.units, units);
/// assert_eq!(Units::default().temperature, ShownTemperature::Celsius);
/// # Ok::<(), String>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Units {
    /// Of the lash; if not stated, that of the leaves of each reading. Leaves and shims are named as they
    /// are marked.
    pub length: Option<ShownLength>,
    /// Of temperatures.
    pub temperature: ShownTemperature,
}

/// A unit of lengths that a person reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ShownLength {
    /// Millimetres.
    #[serde(rename = "mm")]
    Millimetre,
    /// Inches, with the millimetres in brackets.
    #[serde(rename = "in")]
    Inch,
}

/// A unit of temperatures that a person reads.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub enum ShownTemperature {
    /// Degrees Celsius.
    #[default]
    #[serde(rename = "C")]
    Celsius,
    /// Degrees Fahrenheit.
    #[serde(rename = "F")]
    Fahrenheit,
}

impl ShownLength {
    /// The unit.
    ///
    /// ```
    /// use lashwork::{job::ShownLength, quantity::LengthUnit};
    /// assert_eq!(ShownLength::Inch.unit(), LengthUnit::Inch);
    /// ```
    #[must_use]
    pub const fn unit(self) -> LengthUnit {
        match self {
            Self::Millimetre => LengthUnit::Millimetre,
            Self::Inch => LengthUnit::Inch,
        }
    }
}

impl ShownTemperature {
    /// The unit.
    ///
    /// ```
    /// use lashwork::{job::ShownTemperature, quantity::TemperatureUnit};
    /// assert_eq!(ShownTemperature::Fahrenheit.unit(), TemperatureUnit::Fahrenheit);
    /// ```
    #[must_use]
    pub const fn unit(self) -> TemperatureUnit {
        match self {
            Self::Celsius => TemperatureUnit::Celsius,
            Self::Fahrenheit => TemperatureUnit::Fahrenheit,
        }
    }
}
