//! What an answer about coil, condenser or plug takes for granted.

use super::{Conductor, FORMULA_DOUBT};
use core::fmt;
use serde::Serialize;

/// Something an answer about coil, condenser or plug rests on that nobody stated.
///
/// ```
/// use lashwork::ignition::electrics::ElectricsAssumption;
/// let taken = ElectricsAssumption::GasCold;
/// assert_eq!(taken.code(), "ignition.gas-cold");
/// assert!(taken.to_string().contains("20 C"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum ElectricsAssumption {
    /// A conductor without a law is left as it was read.
    NotCorrected {
        /// The conductor.
        conductor: Conductor,
    },
    /// The inductance is taken as constant.
    InductanceConstant,
    /// The gas between the electrodes is taken as cold.
    GasCold,
    /// Neither breakdown formula is exact.
    FormulaDoubt,
    /// Nothing of the coil's energy is taken as lost.
    NoLosses,
    /// The compression is taken to begin at bottom dead centre.
    CompressionFromBottom,
    /// The rod is taken as so many crank radii.
    RodRatio {
        /// Rod over crank radius.
        ratio: f64,
    },
}

impl ElectricsAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotCorrected { .. } => "ignition.not-corrected",
            Self::InductanceConstant => "ignition.inductance-constant",
            Self::GasCold => "ignition.gas-cold",
            Self::FormulaDoubt => "ignition.formula-doubt",
            Self::NoLosses => "ignition.no-losses",
            Self::CompressionFromBottom => "ignition.compression-from-bottom",
            Self::RodRatio { .. } => "ignition.rod-ratio",
        }
    }
}

impl fmt::Display for ElectricsAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotCorrected { conductor } => write!(
                f,
                "the resistance of {} is not corrected for temperature",
                conductor.words()
            ),
            Self::InductanceConstant => f.write_str(
                "the inductance is taken as constant; iron that saturates, or a bridge at 1 kHz, shows another one than the running coil has",
            ),
            Self::GasCold => f.write_str(
                "the gas at the plug is taken at 20 C; when it is hot it is thinner at the same pressure and breaks down at less voltage",
            ),
            Self::FormulaDoubt => write!(
                f,
                "the breakdown voltage is taken between {:.0} % below the lower of the two formulas and as much above the higher one; they hold for even fields and new, cold electrodes",
                100.0 * FORMULA_DOUBT
            ),
            Self::NoLosses => f.write_str(
                "all of the coil's energy is taken to go into the condenser; what iron, windings and spark take makes the voltage lower",
            ),
            Self::CompressionFromBottom => f.write_str(
                "the compression is taken to begin at bottom dead centre; a late intake makes the pressure lower",
            ),
            Self::RodRatio { ratio } => write!(
                f,
                "the rod is taken as {ratio} crank radii (common practice, no source)"
            ),
        }
    }
}
