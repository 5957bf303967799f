//! What an answer about air takes for granted.

use core::fmt;
use serde::Serialize;

/// Something an answer about air rests on that nobody stated.
///
/// ```
/// use lashwork::mixture::air::AirAssumption;
/// assert_eq!(AirAssumption::Weather.code(), "mixture.weather");
/// assert!(AirAssumption::AnyHumidity.to_string().contains("humidity"));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum AirAssumption {
    /// Carbon dioxide of the air.
    CarbonDioxide,
    /// Pressure or temperature outside what the formula was published for.
    BeyondPublished,
    /// Humidity was not read.
    AnyHumidity,
    /// Only the height is known.
    Weather,
    /// Height and temperature are known, no barometer was read.
    WeatherPressure,
}

impl AirAssumption {
    /// A short name that never changes.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::CarbonDioxide => "mixture.carbon-dioxide-of-air",
            Self::BeyondPublished => "mixture.beyond-published-air",
            Self::AnyHumidity => "mixture.any-humidity",
            Self::Weather => "mixture.weather",
            Self::WeatherPressure => "mixture.weather-pressure",
        }
    }
}

impl fmt::Display for AirAssumption {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::CarbonDioxide => "the air is taken with 400 ppm of carbon dioxide",
            Self::BeyondPublished => {
                "the formula for moist air was published for 600 to 1100 hPa and 15 to 27 C (from memory); outside it is off by less than a thousandth"
            }
            Self::AnyHumidity => "the humidity was not read; anything from none to 100 % is left open",
            Self::Weather => {
                "weather and season are not known: 15 kelvin and 1 kPa of standard uncertainty are taken (this library's choice)"
            }
            Self::WeatherPressure => {
                "no barometer was read: the pressure is that of the height in the standard atmosphere, with 1 kPa of standard uncertainty for the weather (this library's choice)"
            }
        })
    }
}
