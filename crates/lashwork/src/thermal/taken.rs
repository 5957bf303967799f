//! What a metal temperature was taken with.

use super::ASSUMED_THERMOMETER;
use crate::quantity::TemperatureDifference;

/// What a metal temperature was taken with.
///
/// ```
/// use lashwork::thermal::TakenWith;
/// assert_eq!(TakenWith::Infrared.least_uncertainty().kelvin(), 20.0);
/// assert_eq!(TakenWith::Probe.usual_uncertainty().kelvin(), 2.0);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub enum TakenWith {
    /// A probe held against the metal, or screwed to it.
    #[default]
    Probe,
    /// An infrared thermometer aimed at tape or paint, or set to the emissivity of the metal.
    InfraredCorrected,
    /// An infrared thermometer aimed at bare metal as it is.
    Infrared,
    /// By hand, by how long ago it ran, or by the temperature of the room.
    Guess,
}

impl TakenWith {
    /// Standard uncertainty taken where none is stated. Using it is an assumption that a job must list.
    ///
    /// # Source
    /// Of a probe [`ASSUMED_THERMOMETER`]; the rest common practice, no source, but for bare metal:
    /// [`Self::least_uncertainty`].
    #[must_use]
    pub const fn usual_uncertainty(self) -> TemperatureDifference {
        match self {
            Self::Probe => ASSUMED_THERMOMETER,
            Self::InfraredCorrected => TemperatureDifference::of_kelvin::<4>(),
            Self::Infrared => self.least_uncertainty(),
            Self::Guess => TemperatureDifference::of_kelvin::<8>(),
        }
    }

    /// Least standard uncertainty, whatever is stated: an infrared thermometer's own does not hold on bare
    /// metal.
    ///
    /// # Source
    /// A thermometer's manual, named in the tests, gives bare aluminium an emissivity of 0.04 to 0.2, where
    /// the instrument is set to 0.95. By the law of Stefan and Boltzmann metal of 0.1 at 70 C
    /// in a room of 20 C is then shown some 40 K too cold; a rectangle from none to that, about its
    /// middle, is 12 K, and the middle is not known either: 20 K.
    #[must_use]
    pub const fn least_uncertainty(self) -> TemperatureDifference {
        match self {
            Self::Infrared => TemperatureDifference::of_kelvin::<20>(),
            _ => TemperatureDifference::of_kelvin::<0>(),
        }
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Probe => "a probe held against the metal",
            Self::InfraredCorrected => "an infrared thermometer on tape or paint",
            Self::Infrared => "an infrared thermometer on bare metal",
            Self::Guess => "a guess",
        }
    }
}
