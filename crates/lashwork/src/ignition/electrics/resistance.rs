//! A resistance at another temperature.

use super::{ElectricsAssumption, ElectricsError};
use crate::quantity::{Resistance, Temperature, TemperatureDifference};
use crate::tolerance::Estimate;
use crate::tolerance::known::{known, normal};
use serde::Serialize;

/// Degrees Celsius below zero at which the straight line of annealed copper meets no resistance: 1 over
/// 0.00393 less 20. IEC 60228 and many data sheets round it to 234.5, which changes 3 ohm by 0.0001 over
/// 60 K; the two must not be mixed in one comparison of last digits.
const COPPER: f64 = 234.45;
/// The straight line holds about here, in degrees Celsius.
const RANGE: (f64, f64) = (-50.0, 250.0);

/// What a resistance is made of.
///
/// ```
/// use lashwork::ignition::electrics::Conductor;
/// assert_eq!(Conductor::Copper.words(), "copper");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Conductor {
    /// The windings of a coil.
    Copper,
    /// A ballast resistor or a lead of resistance wire: hardly changes, or is meant to change by a law of
    /// its own.
    ResistanceWire,
    /// A lead with a carbon core: no common law.
    Carbon,
}

impl Conductor {
    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Copper => "copper",
            Self::ResistanceWire => "resistance wire",
            Self::Carbon => "a carbon lead",
        }
    }
}

/// A resistance at a temperature, and what was done to get it.
///
/// ```
/// use lashwork::ignition::electrics::{Conductor, resistance_at};
/// use lashwork::quantity::{Resistance, Temperature, TemperatureDifference};
/// use lashwork::tolerance::{Estimate, Uncertainty, Verdict};
/// let read = Resistance::parse("3.71 ohm")?;
/// let read = Estimate::between(read, read, Uncertainty::from_number(0.02)?)?;
/// let hot = Temperature::from_celsius(80.0)?;
/// let within = TemperatureDifference::from_kelvin(5.0)?;
/// let cold = resistance_at(&read, hot, within, Temperature::ISO_1, Conductor::Copper)?;
/// assert!((cold.resistance.centre().unwrap().ohms() - 3.002).abs() < 5e-4);
/// // A coil that looked too high is right.
/// let book = "2.9 ohm to 3.3 ohm".parse()?;
/// assert_eq!(read.judged_by(&book).verdict, Verdict::Above);
/// assert_eq!(cold.resistance.judged_by(&book).verdict, Verdict::InBand);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Corrected {
    /// The resistance there.
    pub resistance: Estimate<Resistance>,
    /// What is taken for granted; something where it could not be corrected.
    pub assumption: Option<ElectricsAssumption>,
}

/// A resistance that was read at one temperature, at another; `within` is the standard uncertainty of the
/// first. What is not copper stays as it was read, and that is listed.
///
/// # Errors
/// [`ElectricsError::OneSided`]; [`ElectricsError::ConductorTemperature`] outside -50 to 250 C.
///
/// # Source
/// `(234.45 + t) / (234.45 + t0)`: 0.00393 a kelvin at 20 C, IEC 60028 (from memory; a data sheet of a
/// resistance meter prints 3930 ppm for annealed copper).
pub fn resistance_at(
    read: &Estimate<Resistance>,
    read_at: Temperature,
    within: TemperatureDifference,
    wanted_at: Temperature,
    conductor: Conductor,
) -> Result<Corrected, ElectricsError> {
    let what = "the resistance";
    let (ohms, u) = known(read).ok_or(ElectricsError::OneSided { what })?;
    if conductor != Conductor::Copper {
        return Ok(Corrected {
            resistance: *read,
            assumption: Some(ElectricsAssumption::NotCorrected { conductor }),
        });
    }
    let (from, to) = (over_zero(read_at)?, over_zero(wanted_at)?);
    let factor = to / from;
    let by_temperature = ohms * factor / from * within.kelvin();
    Ok(Corrected {
        resistance: normal(ohms * factor, libm::hypot(u * factor, by_temperature))?,
        assumption: None,
    })
}

fn over_zero(at: Temperature) -> Result<f64, ElectricsError> {
    let (celsius, (min, max)) = (at.celsius(), RANGE);
    if min <= celsius && celsius <= max {
        Ok(COPPER + celsius)
    } else {
        Err(ElectricsError::ConductorTemperature { celsius, min, max })
    }
}
