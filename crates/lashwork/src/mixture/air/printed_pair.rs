//! Whether two figures printed for one pressure are one pressure.

use super::AirError;
use crate::quantity::{AbsolutePressure, Written};
use core::fmt;
use serde::Serialize;

/// What two printed figures of one pressure say of each other.
///
/// ```
/// use lashwork::mixture::air::{PrintedPair, printed_pair};
/// assert_eq!(printed_pair("12.7 kgf/cm2", "1245 kPa")?, PrintedPair::Agree);
/// let muddled = printed_pair("12.5 kgf/cm2", "1250 kPa")?;
/// assert_eq!(muddled, PrintedPair::KilogramForceAsBar);
/// # Ok::<(), lashwork::mixture::air::AirError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum PrintedPair {
    /// They agree within the rounding of both.
    Agree,
    /// A kilogram-force on a square centimetre, 98.07 kPa, was taken for 100 kPa, a bar: they differ by 2 %.
    KilogramForceAsBar,
    /// They differ.
    Differ {
        /// The second over the first.
        ratio: f64,
    },
}

impl fmt::Display for PrintedPair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Agree => f.write_str("both figures are one pressure"),
            Self::KilogramForceAsBar => f.write_str(
                "a kgf/cm2 was taken for a bar; one of the figures is 2 % off, and which one was meant is not known",
            ),
            Self::Differ { ratio } => {
                write!(f, "the second figure is {ratio:.3} times the first")
            }
        }
    }
}

/// Compares two printed figures, each a number with its unit, within half a unit of their last digits.
///
/// # Errors
/// [`AirError::Quantity`] for a figure that is no pressure.
pub fn printed_pair(first: &str, second: &str) -> Result<PrintedPair, AirError> {
    let (a, b) = (Figure::read(first)?, Figure::read(second)?);
    let kilogram = a.is_kilogram_force != b.is_kilogram_force;
    let taken_as_bar = |f: Figure| {
        if f.is_kilogram_force {
            f.times(100.0 / 98.066_5)
        } else {
            f
        }
    };
    Ok(if a.overlaps(b) {
        PrintedPair::Agree
    } else if kilogram && taken_as_bar(a).overlaps(taken_as_bar(b)) {
        PrintedPair::KilogramForceAsBar
    } else {
        PrintedPair::Differ {
            ratio: b.kpa / a.kpa,
        }
    })
}

#[derive(Clone, Copy)]
struct Figure {
    kpa: f64,
    half: f64,
    is_kilogram_force: bool,
}

impl Figure {
    fn read(text: &str) -> Result<Self, AirError> {
        let what = "pressure";
        let written = Written::read(what, text, "kPa, bar, psi, inHg, mmHg, inH2O or kgf/cm2")?;
        let pressure = AbsolutePressure::from_number(written.value(), written.unit())?;
        let kpa = pressure.kilopascals();
        // What a unit of the last digit is worth.
        let digits = (written.digits().unsigned_abs() as f64).max(1.0);
        Ok(Self {
            kpa,
            half: 0.5 * kpa / digits,
            is_kilogram_force: matches!(written.unit(), "kgf/cm2" | "kgf/cm²" | "at"),
        })
    }

    fn times(self, by: f64) -> Self {
        Self {
            kpa: self.kpa * by,
            half: self.half * by,
            ..self
        }
    }

    fn overlaps(self, other: Self) -> bool {
        (self.kpa - other.kpa).abs() <= (self.half + other.half) * (1.0 + 1e-9)
    }
}
