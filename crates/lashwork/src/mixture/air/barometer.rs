//! What a barometer shows, and whether it shows the air around.

use super::moist::within;
use super::{AirError, sea_level_setting, station_pressure};
use crate::quantity::{AbsolutePressure, Altitude, GaugePressure, Vacuum};
use core::fmt;
use serde::Serialize;

/// Pressures at sea level, in kilopascals, that weather brings but in the rarest storms. Common practice, no
/// source.
const WEATHER: (f64, f64) = (95.0, 105.5);

/// A barometer's reading and what it is of.
///
/// ```
/// use lashwork::mixture::air::{Barometer, BarometerDoubt};
/// use lashwork::quantity::{AbsolutePressure, Altitude};
/// let read = AbsolutePressure::parse("29.92 inHg")?;
/// let high = Altitude::parse("5000 ft")?;
/// let (here, doubt) = Barometer::SetToSeaLevel(read).station(Some(high))?;
/// assert!(here.kilopascals() < 85.0 && doubt.is_none());
/// // The trap: the same number taken for the air around.
/// let (_, doubt) = Barometer::Station(read).station(Some(high))?;
/// assert!(matches!(doubt, Some(BarometerDoubt::LooksSetToSeaLevel { .. })));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Barometer {
    /// The pressure of the place: a mercury column, a tester's own sensor.
    Station(AbsolutePressure),
    /// Set to read as at sea level: a weather report, an airfield (QNH), a barometer in a living room.
    SetToSeaLevel(AbsolutePressure),
}

/// A reading that does not fit the height it was taken at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum BarometerDoubt {
    /// Stated as that of the place, but it is that of sea level.
    LooksSetToSeaLevel {
        /// What the pressure of the place would then be.
        station: AbsolutePressure,
        /// By which part the density is too high if it is used as it stands.
        too_dense_by: f64,
    },
    /// Stated as set to sea level, but it is that of the place.
    LooksLikeStation {
        /// What it would be reduced to.
        reduced: AbsolutePressure,
    },
    /// It fits neither.
    FitsNeither,
}

impl BarometerDoubt {
    /// A short name that never changes.
    ///
    /// ```
    /// use lashwork::mixture::air::BarometerDoubt;
    /// assert_eq!(BarometerDoubt::FitsNeither.code(), "mixture.barometer-fits-neither");
    /// ```
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::LooksSetToSeaLevel { .. } => "mixture.barometer-set-to-sea-level",
            Self::LooksLikeStation { .. } => "mixture.barometer-not-set",
            Self::FitsNeither => "mixture.barometer-fits-neither",
        }
    }
}

impl fmt::Display for BarometerDoubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::LooksSetToSeaLevel {
                station,
                too_dense_by,
            } => write!(
                f,
                "at this height the barometer seems set to sea level; the pressure of the place is then {:.1} kPa, and air reckoned from the reading is {:.0} % too dense",
                station.kilopascals(),
                100.0 * too_dense_by
            ),
            Self::LooksLikeStation { reduced } => write!(
                f,
                "the barometer seems to show the pressure of the place, not that of sea level; taken as stated it makes {:.1} kPa here",
                reduced.kilopascals()
            ),
            Self::FitsNeither => f.write_str(
                "the barometer fits this height neither as the pressure of the place nor as set to sea level",
            ),
        }
    }
}

impl Barometer {
    /// The pressure of the place, and what is doubtful about the reading.
    ///
    /// Without a height a reading of the place is taken as it stands, and one set to sea level is refused.
    ///
    /// # Errors
    /// [`AirError::NoAltitude`]; [`AirError::Quantity`].
    pub fn station(
        self,
        altitude: Option<Altitude>,
    ) -> Result<(AbsolutePressure, Option<BarometerDoubt>), AirError> {
        let Some(altitude) = altitude else {
            return match self {
                Self::Station(read) => Ok((read, None)),
                Self::SetToSeaLevel(_) => Err(AirError::NoAltitude),
            };
        };
        let is_weather = |sea: AbsolutePressure| within(sea.kilopascals(), WEATHER);
        match self {
            Self::Station(read) => {
                if is_weather(sea_level_setting(read, altitude)?) {
                    return Ok((read, None));
                }
                let doubt = if is_weather(read) {
                    let station = station_pressure(read, altitude)?;
                    BarometerDoubt::LooksSetToSeaLevel {
                        station,
                        too_dense_by: read.kilopascals() / station.kilopascals() - 1.0,
                    }
                } else {
                    BarometerDoubt::FitsNeither
                };
                Ok((read, Some(doubt)))
            }
            Self::SetToSeaLevel(read) => {
                let reduced = station_pressure(read, altitude)?;
                if is_weather(read) {
                    return Ok((reduced, None));
                }
                let doubt = if is_weather(sea_level_setting(read, altitude)?) {
                    BarometerDoubt::LooksLikeStation { reduced }
                } else {
                    BarometerDoubt::FitsNeither
                };
                Ok((reduced, Some(doubt)))
            }
        }
    }
}

/// A gauge's pressure above nothing: with the air around it.
///
/// # Errors
/// [`AirError::UnderNothing`] if the gauge shows more under the air around than there is.
///
/// ```
/// use lashwork::mixture::air::absolute;
/// use lashwork::quantity::{AbsolutePressure, GaugePressure};
/// let (air, gauge) = (AbsolutePressure::parse("850 mbar")?, GaugePressure::parse("0.5 bar")?);
/// assert!((absolute(gauge, air)?.kilopascals() - 135.0).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn absolute(
    gauge: GaugePressure,
    ambient: AbsolutePressure,
) -> Result<AbsolutePressure, AirError> {
    let kpa = (ambient.si() + gauge.si()).get::<uom::si::pressure::kilopascal>();
    if kpa < 0.0 {
        return Err(AirError::UnderNothing {
            under: -gauge.kilopascals(),
            ambient: ambient.kilopascals(),
        });
    }
    Ok(AbsolutePressure::from_kilopascals(kpa)?)
}

/// The pressure in a manifold above nothing: the air around less the vacuum.
///
/// # Errors
/// [`AirError::UnderNothing`] if the vacuum is over the pressure of the air around: 29.92 inHg at sea level,
/// 24.90 inHg at 5000 ft.
///
/// ```
/// use lashwork::mixture::air::absolute_under;
/// use lashwork::quantity::{AbsolutePressure, Vacuum};
/// let (here, vacuum) = (AbsolutePressure::parse("24.90 inHg")?, Vacuum::parse("26 inHg")?);
/// assert_eq!(
///     lashwork::Refusal::code(&absolute_under(vacuum, here).unwrap_err()),
///     "mixture.under-nothing"
/// );
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn absolute_under(
    vacuum: Vacuum,
    ambient: AbsolutePressure,
) -> Result<AbsolutePressure, AirError> {
    absolute(
        GaugePressure::from_kilopascals(-vacuum.kilopascals())?,
        ambient,
    )
}
