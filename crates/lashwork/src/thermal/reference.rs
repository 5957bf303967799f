//! The temperature at which a book's figures hold.

use super::material::SQRT_3;
use crate::quantity::{Temperature, TemperatureDifference};

/// How far from 20 C an engine may be that a book calls cold: 10 K either way, taken as equally likely
/// throughout. Using it is an assumption that a job must list.
///
/// # Source
/// Common practice: one maker's page says "approx. 20 C outside", another calls an engine cold below
/// 35 C; the middle is that of ISO 1:2022, which is the reference of drawings and no maker's cold.
///
/// ```
/// use lashwork::thermal::COLD_HALF_WIDTH;
/// assert_eq!(COLD_HALF_WIDTH.kelvin(), 10.0);
/// ```
pub const COLD_HALF_WIDTH: TemperatureDifference = TemperatureDifference::of_kelvin::<10>();

/// The temperature at which the figures of a book hold, as far as it says.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::Reference;
/// let printed = Reference::At(Temperature::parse("80 C")?);
/// assert_eq!(printed.standard_uncertainty_k(), 0.0);
/// assert_eq!(Reference::Cold.temperature(), Some(Temperature::ISO_1));
/// assert!((Reference::Cold.standard_uncertainty_k() - 5.7735).abs() < 1e-4);
/// assert_eq!(Reference::Hot.temperature(), None);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reference {
    /// At a temperature that is printed.
    At(Temperature),
    /// On a cold engine, no temperature printed: 20 C, give or take [`COLD_HALF_WIDTH`].
    Cold,
    /// On a hot engine, no temperature printed: not known.
    Hot,
}

impl Reference {
    /// The temperature, or the middle of what may be meant; nothing for hot, which is no temperature.
    #[must_use]
    pub const fn temperature(self) -> Option<Temperature> {
        match self {
            Self::At(temperature) => Some(temperature),
            Self::Cold => Some(Temperature::ISO_1),
            Self::Hot => None,
        }
    }

    /// Standard uncertainty of that in kelvin; a printed temperature has none.
    ///
    /// # Source
    /// JCGM 100:2008, 4.3.7 (rectangle).
    #[must_use]
    pub fn standard_uncertainty_k(self) -> f64 {
        match self {
            Self::Cold => COLD_HALF_WIDTH.kelvin() / SQRT_3,
            Self::At(_) | Self::Hot => 0.0,
        }
    }
}
