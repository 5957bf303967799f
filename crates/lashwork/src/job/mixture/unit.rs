//! The unit in which vacuum is said.

use crate::quantity::PressureDifference;
use alloc::format;
use alloc::string::String;

/// The unit in which vacuum is said: that of the gauge.
///
/// ```
/// use lashwork::job::mixture::VacuumUnit;
/// assert_eq!(VacuumUnit::default(), VacuumUnit::Kilopascal);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum VacuumUnit {
    /// Kilopascals.
    #[default]
    Kilopascal,
    /// Millibars.
    Millibar,
    /// Inches of mercury.
    InchOfMercury,
    /// Millimetres of mercury.
    MillimetreOfMercury,
    /// Inches of water.
    InchOfWater,
}

impl VacuumUnit {
    const fn symbol(self) -> &'static str {
        match self {
            Self::Kilopascal => "kPa",
            Self::Millibar => "mbar",
            Self::InchOfMercury => "inHg",
            Self::MillimetreOfMercury => "mmHg",
            Self::InchOfWater => "inH2O",
        }
    }

    /// So many kilopascals in words.
    pub(super) fn say(self, kilopascals: f64) -> String {
        let one = PressureDifference::from_number(1.0, self.symbol());
        // Every unit here is one that a pressure is read in.
        let one = one.map_or(1.0, PressureDifference::kilopascals);
        let value = kilopascals / one;
        match self {
            Self::Kilopascal | Self::InchOfMercury => format!("{value:.2} {}", self.symbol()),
            _ => format!("{value:.1} {}", self.symbol()),
        }
    }
}
