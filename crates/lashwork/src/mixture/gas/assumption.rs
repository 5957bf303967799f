//! What an answer about exhaust gas takes for granted.

use crate::quantity::VolumeShare;
use core::fmt;
use serde::Serialize;

/// Something an answer about exhaust gas rests on that nobody stated.
///
/// ```
/// use lashwork::mixture::gas::GasAssumption;
/// let taken = GasAssumption::NoHydrocarbons;
/// assert_eq!(taken.code(), "mixture.no-hydrocarbons");
/// assert!(taken.to_string().contains("leaner"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum GasAssumption {
    /// Hydrogen and water as the water-gas equilibrium leaves them.
    WaterGas,
    /// Hydrocarbons were not read and are taken as none.
    NoHydrocarbons,
    /// Nitric oxide was not read and is taken as none.
    NoNitricOxide,
    /// The factor of the hydrocarbons is taken as exact.
    Factor {
        /// Atoms of carbon for a molecule as shown.
        factor: f64,
    },
    /// What a good burn leaves at most.
    LeftAtMost {
        /// Oxygen.
        oxygen: VolumeShare,
        /// Hydrocarbons, as hexane.
        hexane: VolumeShare,
    },
    /// No air is taken to reach the probe but through the cylinders.
    NoAirAdded,
    /// The readings are taken as dry: the tester cools the gas.
    Dry,
}

impl GasAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::WaterGas => "mixture.water-gas",
            Self::NoHydrocarbons => "mixture.no-hydrocarbons",
            Self::NoNitricOxide => "mixture.no-nitric-oxide",
            Self::Factor { .. } => "mixture.hydrocarbon-factor",
            Self::LeftAtMost { .. } => "mixture.left-at-most",
            Self::NoAirAdded => "mixture.no-air-added",
            Self::Dry => "mixture.dry-gas",
        }
    }
}

impl fmt::Display for GasAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::WaterGas => f.write_str(
                "hydrogen is taken from the water-gas equilibrium with its usual constant of 3.5",
            ),
            Self::NoHydrocarbons => f.write_str(
                "hydrocarbons were not read and are taken as none, which makes the mixture look leaner than it is",
            ),
            Self::NoNitricOxide => f.write_str(
                "nitric oxide was not read and is taken as none; 1000 ppm of it are 0.2 % of lambda",
            ),
            Self::Factor { factor } => write!(
                f,
                "a molecule of hydrocarbon as shown is taken as {factor} atoms of carbon; testers see only a part of what petrol leaves"
            ),
            Self::LeftAtMost { oxygen, hexane } => write!(
                f,
                "a good burn is taken to leave up to {} % of oxygen, or up to {:.0} ppm of hydrocarbons (common practice, no source)",
                oxygen.percent(),
                1e4 * hexane.percent()
            ),
            Self::NoAirAdded => f.write_str(
                "all gas at the probe is taken to come through the cylinders: no leak of the exhaust, no air blown into it, probe deep enough",
            ),
            Self::Dry => f.write_str("what the exhaust tester shows is taken as shares of dry gas"),
        }
    }
}
