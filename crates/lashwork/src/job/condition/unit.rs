//! The unit in which the gauge's pressure is said.

use crate::quantity::GaugePressure;
use alloc::format;
use alloc::string::String;

/// The unit in which compression and leak-down are said: that of the gauge.
///
/// ```
/// use lashwork::job::condition::GaugeUnit;
/// assert_eq!(GaugeUnit::default(), GaugeUnit::Kilopascal);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum GaugeUnit {
    /// Kilopascals.
    #[default]
    Kilopascal,
    /// Bars.
    Bar,
    /// Pounds-force on a square inch.
    Psi,
    /// Kilograms-force on a square centimetre.
    KilogramForce,
}

impl GaugeUnit {
    const fn symbol(self) -> &'static str {
        match self {
            Self::Kilopascal => "kPa",
            Self::Bar => "bar",
            Self::Psi => "psi",
            Self::KilogramForce => "kgf/cm2",
        }
    }

    /// So many kilopascals in words.
    pub(in crate::job) fn say(self, kilopascals: f64) -> String {
        let value = self.number(kilopascals);
        match self {
            Self::Kilopascal | Self::Psi => format!("{value:.0} {}", self.symbol()),
            Self::Bar | Self::KilogramForce => format!("{value:.2} {}", self.symbol()),
        }
    }

    /// A change of so many kilopascals in words: over the years it may be small.
    pub(in crate::job) fn say_change(self, kilopascals: f64) -> String {
        let value = self.number(kilopascals);
        match self {
            Self::Kilopascal => format!("{value:.0} {}", self.symbol()),
            Self::Psi => format!("{value:.1} {}", self.symbol()),
            Self::Bar | Self::KilogramForce => format!("{value:.2} {}", self.symbol()),
        }
    }

    /// How many kilopascals one is, and its symbol.
    pub(in crate::job) fn unit(self) -> (f64, &'static str) {
        let one = GaugePressure::from_number(1.0, self.symbol());
        // Every unit here is one that a pressure is read in.
        let kilopascals = one.map_or(1.0, GaugePressure::kilopascals);
        (kilopascals, self.symbol())
    }

    /// So many kilopascals in this unit.
    fn number(self, kilopascals: f64) -> f64 {
        kilopascals / self.unit().0
    }

    /// What a gauge shows, in words.
    pub(in crate::job) fn shown(self, pressure: GaugePressure) -> String {
        self.say(pressure.kilopascals())
    }
}
