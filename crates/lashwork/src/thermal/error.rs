//! Why a thermal correction could not be made.

use crate::quantity::{QuantityError, Quoted};
use crate::statistics::StatisticsError;
use crate::tolerance::{BudgetError, ToleranceError};
use crate::{LeftOut, Refusal};
use alloc::borrow::Cow;
use alloc::string::String;

/// Why a thermal correction could not be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ThermalError {
    /// Only a whole build does this.
    #[error(transparent)]
    LeftOut(#[from] LeftOut),
    /// A result leaves the range of its quantity.
    #[error(transparent)]
    Quantity(#[from] QuantityError),
    /// The uncertainty budget could not be made.
    #[error(transparent)]
    Budget(#[from] BudgetError),
    /// An uncertainty is out of its range.
    #[error(transparent)]
    Tolerance(#[from] ToleranceError),
    /// The material's coefficient is not known at this temperature.
    #[error("the expansion of {material} is known from {min} to {max} C, not at {celsius} C")]
    OutsideCurve {
        /// Name of the material.
        material: String,
        /// The temperature asked for, in degrees Celsius.
        celsius: f64,
        /// Least temperature in degrees Celsius.
        min: f64,
        /// Greatest temperature in degrees Celsius.
        max: f64,
    },
    /// The coefficients of a material cannot be used.
    #[error("material {material}: {problem}")]
    BadMaterial {
        /// Name of the material.
        material: String,
        /// What is wrong.
        problem: &'static str,
    },
    /// Two different materials bear one name.
    #[error("two different materials are named {material}")]
    TwoMaterials {
        /// The name.
        material: String,
    },
    /// A chain without links.
    #[error("the chain has no links")]
    NoLinks,
    /// The rocker ratio is not usable.
    #[error("rocker ratio {got} is outside {min} to {max}")]
    RockerRatio {
        /// The refused number.
        got: f64,
        /// Least value that is accepted.
        min: f64,
        /// Greatest value that is accepted.
        max: f64,
    },
    /// A fraction between two temperatures is not within 0 to 1.
    #[error("{part}: the fraction {got} between two temperatures is outside 0 to 1")]
    Fraction {
        /// Name of the part.
        part: String,
        /// The refused number.
        got: f64,
    },
    /// A standard uncertainty is negative or not finite, or zero where it is a weight.
    #[error("{of}: the standard uncertainty {got} cannot be used")]
    Uncertainty {
        /// What it belongs to.
        of: String,
        /// The refused number.
        got: f64,
    },
    /// A link follows a temperature that is not given.
    #[error("{part} follows the temperature {}, which is not given", Quoted(.name))]
    NoTemperature {
        /// Name of the part.
        part: String,
        /// Name of the missing temperature.
        name: String,
    },
    /// A temperature that no part follows.
    #[error("no part follows the temperature {}", Quoted(.name))]
    UnusedTemperature {
        /// Its name.
        name: String,
    },
    /// The lengths on one side do not leave a gap of the size of a lash.
    #[error(
        "on the {side} side {opens_mm:.1} mm of parts open the gap and {closes_mm:.1} mm close it"
    )]
    NotClosed {
        /// Cam or valve.
        side: &'static str,
        /// Length of the parts whose growth opens the gap, in millimetres.
        opens_mm: f64,
        /// Length of those whose growth closes it.
        closes_mm: f64,
    },
    /// Too few readings for a line or a law.
    #[error("{got} {} too few: {needed} are needed", if *got == 1 { "reading is" } else { "readings are" })]
    TooFewReadings {
        /// How many there are.
        got: usize,
        /// How many are needed: three where a law of cooling must find the surroundings as well.
        needed: usize,
    },
    /// All readings are at one temperature.
    #[error("all readings are at one temperature")]
    OneTemperature,
    /// Temperatures that do not run towards those of the surroundings.
    #[error("the temperatures do not approach {surroundings} C, that of the surroundings")]
    NotCooling {
        /// Temperature of the surroundings, in degrees Celsius.
        surroundings: f64,
    },
    /// More readings than anyone takes.
    #[error("{got} readings are too many, at most {max}")]
    TooManyReadings {
        /// How many there are.
        got: usize,
        /// Most that are accepted.
        max: usize,
    },
    /// A reading that is not later than the one before it.
    #[error("a reading at {after} min does not come after the one at {before} min")]
    Times {
        /// The place of the one that should be later in the list, from 0.
        reading: usize,
        /// Minutes of the earlier reading.
        before: f64,
        /// Minutes of the one that should be later.
        after: f64,
    },
    /// The readings do not tell a rate of cooling.
    #[error("the readings do not show how fast the metal cools, or towards what temperature")]
    NoBend,
    /// A table's step is not above zero.
    #[error("a step of {got} K does not lead from one temperature to the next")]
    RangeStep {
        /// The refused step in kelvin.
        got: f64,
    },
    /// A table that starts above its end.
    #[error("a table from {from} C to {to} C runs backwards")]
    RangeOrder {
        /// Where it starts, in degrees Celsius.
        from: f64,
        /// Where it ends, in degrees Celsius.
        to: f64,
    },
    /// A table with more temperatures than anyone reads.
    #[error("a table of {got} temperatures is too long, at most {max}")]
    RangePoints {
        /// How many there would be.
        got: f64,
        /// Most that are accepted.
        max: u32,
    },
    /// A share of the band that is no share.
    #[error("a share of {got} of the band is outside 0 to 1")]
    Share {
        /// The refused number.
        got: f64,
    },
    /// The points of a fit cannot be used.
    #[error(transparent)]
    Statistics(StatisticsError),
}

/// In the words of readings where there are any.
impl From<StatisticsError> for ThermalError {
    fn from(error: StatisticsError) -> Self {
        match error {
            StatisticsError::TooFewPoints { got, needed } => Self::TooFewReadings { got, needed },
            StatisticsError::OnePlace => Self::OneTemperature,
            StatisticsError::PointUncertainty { point, got } => Self::Uncertainty {
                of: alloc::format!("point {point}"),
                got,
            },
            other => Self::Statistics(other),
        }
    }
}

impl Refusal for ThermalError {
    fn code(&self) -> &'static str {
        match self {
            Self::LeftOut(inner) => inner.code(),
            Self::Quantity(_) => "thermal.quantity",
            Self::Budget(_) => "thermal.budget",
            Self::OutsideCurve { .. } => "thermal.outside-curve",
            Self::BadMaterial { .. } => "thermal.bad-material",
            Self::TwoMaterials { .. } => "thermal.two-materials",
            Self::NoLinks => "thermal.no-links",
            Self::RockerRatio { .. } => "thermal.rocker-ratio",
            Self::Fraction { .. } => "thermal.fraction",
            Self::Uncertainty { .. } => "thermal.uncertainty",
            Self::NoTemperature { .. } => "thermal.no-temperature",
            Self::UnusedTemperature { .. } => "thermal.unused-temperature",
            Self::NotClosed { .. } => "thermal.not-closed",
            Self::TooFewReadings { .. } => "thermal.too-few-readings",
            Self::OneTemperature => "thermal.one-temperature",
            Self::NotCooling { .. } => "thermal.not-cooling",
            Self::TooManyReadings { .. } => "thermal.too-many-readings",
            Self::Times { .. } => "thermal.times",
            Self::NoBend => "thermal.no-bend",
            Self::RangeStep { .. } => "thermal.range-step",
            Self::RangeOrder { .. } => "thermal.range-order",
            Self::RangePoints { .. } => "thermal.range-points",
            Self::Share { .. } => "thermal.share",
            Self::Statistics(_) => "thermal.statistics",
            Self::Tolerance(inner) => inner.code(),
        }
    }

    fn hint(&self) -> Cow<'static, str> {
        match self {
            Self::LeftOut(inner) => inner.hint(),
            Self::Quantity(inner) => inner.hint(),
            Self::Budget(inner) => inner.hint(),
            Self::OutsideCurve { min, max, .. } => Cow::Owned(alloc::format!(
                "give a temperature from {min} to {max} C, or a material with a longer curve"
            )),
            Self::BadMaterial { .. } => Cow::Borrowed(
                "give finite coefficients per kelvin, such as 11.5e-6, in rising temperature",
            ),
            Self::TwoMaterials { .. } => Cow::Borrowed("give each material a name of its own"),
            Self::NoLinks => Cow::Borrowed("name at least one part whose length sets the gap"),
            Self::RockerRatio { min, max, .. } => Cow::Owned(alloc::format!(
                "give valve lift over cam lift, from {min} to {max}; 1 without a rocker"
            )),
            Self::Fraction { .. } => {
                Cow::Borrowed("give 0 for the cold temperature, 1 for the hot one")
            }
            Self::Uncertainty { .. } => {
                Cow::Borrowed("give a finite standard uncertainty; above zero for a reading")
            }
            Self::NoTemperature { name, .. } => {
                Cow::Owned(alloc::format!("state the temperature {}", Quoted(name)))
            }
            Self::UnusedTemperature { name } => Cow::Owned(alloc::format!(
                "leave {} out, or name it where a part follows it",
                Quoted(name)
            )),
            Self::NotClosed {
                opens_mm,
                closes_mm,
                ..
            } => {
                let (missing, does) = if opens_mm < closes_mm {
                    (closes_mm - opens_mm, "open")
                } else {
                    (opens_mm - closes_mm, "close")
                };
                Cow::Owned(alloc::format!(
                    "the gap is what the lengths leave over, so both must add up: look for a part left \
                     out among those that {does} it, some {missing:.0} mm long, or a wrong length"
                ))
            }
            Self::TooFewReadings { needed: 3, .. } => Cow::Borrowed(
                "measure at least three times while the engine cools, or state the temperature of \
                 the surroundings",
            ),
            Self::TooFewReadings { .. } => Cow::Borrowed("measure at two temperatures or more"),
            Self::OneTemperature => {
                Cow::Borrowed("measure again when the engine is warmer or colder")
            }
            Self::NotCooling { .. } => Cow::Borrowed(
                "measure while the engine still cools, and check the temperature of the air",
            ),
            Self::TooManyReadings { max, .. } => Cow::Owned(alloc::format!("keep at most {max}")),
            Self::Times { .. } => Cow::Borrowed("give the readings in the order they were taken"),
            Self::RangeStep { .. } => Cow::Borrowed("give a step above zero, such as 10 K"),
            Self::RangeOrder { .. } => Cow::Borrowed("give the lower temperature first"),
            Self::RangePoints { .. } => Cow::Borrowed("give a larger step or a shorter range"),
            Self::Share { .. } => {
                Cow::Borrowed("give a share above 0 and at most 1, such as 0.1 for a tenth")
            }
            Self::NoBend => Cow::Borrowed(
                "take readings over a longer time, and give the temperature of the surroundings",
            ),
            Self::Tolerance(inner) => inner.hint(),
            Self::Statistics(inner) => inner.hint(),
        }
    }
}
