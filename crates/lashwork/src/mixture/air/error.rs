//! Why something about air was refused.

use crate::Refusal;
use crate::quantity::QuantityError;
use crate::tolerance::ToleranceError;
use alloc::borrow::Cow;

/// Why something about air was refused.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::mixture::air::Barometer;
/// use lashwork::quantity::AbsolutePressure;
/// let report = Barometer::SetToSeaLevel(AbsolutePressure::parse("1013 hPa")?);
/// let refused = report.station(None).unwrap_err();
/// assert_eq!(refused.code(), "mixture.no-altitude");
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AirError {
    /// A pressure that no engine breathes.
    #[error("{got} kPa of air is outside {min} to {max} kPa")]
    Pressure {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A temperature that no engine breathes.
    #[error("air of {got} C is outside {min} to {max} C")]
    Temperature {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A standard uncertainty of a temperature that is under nought.
    #[error("a standard uncertainty of {got} kelvin is under nought")]
    TemperatureUncertainty {
        /// The refused number.
        got: f64,
    },
    /// Air that is denser or thinner than where engines run.
    #[error("a density altitude of {got:.0} m is outside {min} to {max} m")]
    DensityAltitude {
        /// The refused number.
        got: f64,
        /// Least.
        min: f64,
        /// Greatest.
        max: f64,
    },
    /// A barometer set to sea level says nothing without the height.
    #[error("a barometer set to sea level needs the height of the place")]
    NoAltitude,
    /// More vacuum than there is air.
    #[error("{under} kPa under the air around, which has {ambient} kPa, leaves less than nothing")]
    UnderNothing {
        /// How far under.
        under: f64,
        /// The air around.
        ambient: f64,
    },
    /// A reading with one end where a value is needed.
    #[error("{what} is known on one side only")]
    OneSided {
        /// What.
        what: &'static str,
    },
    /// Columns that do not belong together.
    #[error("columns of {first} and {other} rows")]
    ColumnLengths {
        /// Rows of the first.
        first: usize,
        /// Rows of another.
        other: usize,
    },
    /// A number that a quantity cannot be.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// An uncertainty or an estimate that cannot be.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
}

impl Refusal for AirError {
    fn code(&self) -> &'static str {
        match self {
            Self::Pressure { .. } => "mixture.air-pressure",
            Self::Temperature { .. } => "mixture.air-temperature",
            Self::TemperatureUncertainty { .. } => "mixture.air-temperature-uncertainty",
            Self::DensityAltitude { .. } => "mixture.density-altitude",
            Self::NoAltitude => "mixture.no-altitude",
            Self::UnderNothing { .. } => "mixture.under-nothing",
            Self::OneSided { .. } => "mixture.one-sided",
            Self::ColumnLengths { .. } => "mixture.column-lengths",
            Self::Quantity(inner) => inner.code(),
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        Cow::Borrowed(match self {
            Self::Pressure { .. } => "give the absolute pressure of the place and check its unit",
            Self::Temperature { .. } => "give the temperature of the air at the intake",
            Self::TemperatureUncertainty { .. } => {
                "give by how many kelvin the thermometer may be off, without a sign"
            }
            Self::DensityAltitude { .. } => "check pressure and temperature and their units",
            Self::NoAltitude => "give the height, or read the pressure of the place",
            Self::UnderNothing { .. } => {
                "check the unit of the gauge; a gauge for boost shows over the air around, not under it"
            }
            Self::OneSided { .. } => "give a value with its uncertainty",
            Self::ColumnLengths { .. } => "give every column as many rows",
            Self::Quantity(inner) => return inner.hint(),
            Self::Tolerance(inner) => return inner.hint(),
        })
    }
}
