//! What can kill beside a magneto.

use core::fmt;
use serde::Serialize;

/// What must be said before anybody works at a magneto.
///
/// ```
/// use lashwork::ignition::magneto::MagnetoCaution;
/// assert_eq!(MagnetoCaution::PropellerIsLive.code(), "ignition.propeller-live");
/// assert!(MagnetoCaution::PropellerIsLive.to_string().contains("never"));
/// ```
///
/// # Source
/// Common practice, no source for each line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum MagnetoCaution {
    /// A magneto sparks whenever it is turned and not earthed.
    PropellerIsLive,
    /// No drop at all: a side may not be earthed by the switch.
    SwitchMayNotEarth,
    /// A spark before top dead centre while cranking throws the crank back.
    KicksBack,
    /// High voltage.
    HighVoltage,
}

impl MagnetoCaution {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::PropellerIsLive => "ignition.propeller-live",
            Self::SwitchMayNotEarth => "ignition.switch-may-not-earth",
            Self::KicksBack => "ignition.kicks-back",
            Self::HighVoltage => "ignition.high-voltage",
        }
    }
}

impl fmt::Display for MagnetoCaution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            Self::PropellerIsLive => {
                "a magneto sparks whenever it turns and is not earthed: take one plug out of each cylinder \
                 before turning by hand, and never stand or reach into the arc of the propeller or beside a \
                 flywheel, even with the switch off"
            }
            Self::SwitchMayNotEarth => {
                "the switch may not earth this magneto: the engine may fire with the switch off; earth the \
                 magneto at its own terminal before touching the propeller or the crank"
            }
            Self::KicksBack => {
                "the spark comes before top dead centre while cranking: the crank kicks back; do not start it \
                 by hand"
            }
            Self::HighVoltage => "do not touch leads or plugs while the magneto turns",
        })
    }
}
