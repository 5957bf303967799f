//! In which units a person reads the answer.

use crate::feeler::LeafSet;
use crate::quantity::shown::reckoned;
use crate::quantity::{LengthUnit, TemperatureUnit};
use alloc::format;
use alloc::string::String;
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
    /// Of lengths; if not stated, the lash of a reading is said in the unit of its leaves and every other
    /// length in that of the leaves at hand: inches where all of them are marked so. Leaves, shims and what
    /// a book prints are named as they are marked and printed. In a report: of every length that belongs
    /// to no single reading.
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
    /// Inches.
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

impl Units {
    /// The same with the unit of the leaves at hand where none is stated.
    pub(super) fn or_of(self, leaves: Option<&LeafSet>) -> Self {
        let marks = leaves.map_or(&[][..], LeafSet::leaves);
        let in_inches = !marks.is_empty() && marks.iter().all(|leaf| leaf.mark.unit().is_inch());
        let of_leaves = if in_inches {
            ShownLength::Inch
        } else {
            ShownLength::Millimetre
        };
        Self {
            length: self.length.or(Some(of_leaves)),
            ..self
        }
    }

    /// As texts need them.
    pub(super) fn shown(self) -> Shown {
        Shown {
            inches: self.length == Some(ShownLength::Inch),
            temperature: self.temperature.unit(),
        }
    }
}

/// The units of texts.
#[derive(Clone, Copy)]
pub(super) struct Shown {
    /// Whether lengths are said in inches and not in millimetres.
    pub(super) inches: bool,
    /// What temperatures are said in.
    pub(super) temperature: TemperatureUnit,
}

impl Shown {
    /// A change beside its standard uncertainty, with its sign.
    pub(super) fn signed(self, mm: f64) -> String {
        let text = reckoned(mm, self.inches);
        let sign = if text.starts_with('-') { "" } else { "+" };
        format!("{sign}{text}")
    }

    /// The unit of lengths.
    pub(super) const fn length(self) -> LengthUnit {
        if self.inches {
            LengthUnit::Inch
        } else {
            LengthUnit::Millimetre
        }
    }
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
