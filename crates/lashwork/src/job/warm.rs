//! What a request asks about warmth besides the correction of its readings.

use super::{Metal, Problem};
use crate::Refusal;
use crate::quantity::{Temperature, TemperatureDifference};
use crate::thermal::{CoolingFit, Correction, TemperatureRange, ThermalError};
use alloc::string::String;
use alloc::vec::Vec;

/// Questions about warmth, each open to be left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WarmQuestions {
    /// A second rule how the lash follows temperature, to hold against the one that is used.
    pub compared: Option<Metal>,
    /// How the metal cools.
    pub cooling: Option<Cooling>,
    /// A table of lash by temperature.
    pub curve: Option<LashTable>,
}

/// How the metal cools, and how sure a correction is to be before it is worth reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    fit: CoolingFit,
    share: f64,
}

impl Cooling {
    /// Takes the fitted law and the greatest share of a band's width that the standard uncertainty
    /// of the correction may be.
    ///
    /// # Errors
    /// [`ThermalError::Share`] if it is not above 0 and at most 1.
    ///
    /// ```
    /// use lashwork::Refusal;
    /// # use lashwork::quantity::{Elapsed, Temperature, TemperatureDifference};
    /// use lashwork::job::Cooling;
    /// # use lashwork::thermal::{CoolingFit, CoolingReading, ThermalError};
    /// # fn fit() -> Result<CoolingFit, ThermalError> {
    /// # let reading = |minutes, celsius| -> Result<_, lashwork::quantity::QuantityError> {
    /// #     let after = Elapsed::from_minutes(minutes)?;
    /// #     Ok(CoolingReading { after, temperature: Temperature::from_celsius(celsius)? })
    /// # };
    /// # let air = Temperature::from_celsius(20.0)?;
    /// # let one = TemperatureDifference::from_kelvin(1.0)?;
    /// # CoolingFit::new(&[reading(0.0, 95.0)?, reading(30.0, 61.0)?], Some(air), one)
    /// # }
    /// assert_eq!(Cooling::new(fit()?, 0.2)?.share(), 0.2);
    /// assert_eq!(Cooling::new(fit()?, 20.0).unwrap_err().code(), "thermal.share");
    /// # Ok::<(), ThermalError>(())
    /// ```
    pub fn new(fit: CoolingFit, share: f64) -> Result<Self, ThermalError> {
        if share > 0.0 && share <= 1.0 {
            Ok(Self { fit, share })
        } else {
            Err(ThermalError::Share { got: share })
        }
    }

    /// The fitted law.
    #[must_use]
    pub const fn fit(&self) -> &CoolingFit {
        &self.fit
    }

    /// Greatest share of a band's width.
    #[must_use]
    pub const fn share(&self) -> f64 {
        self.share
    }
}

/// Which table of lash by temperature is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct LashTable {
    /// The temperatures.
    pub range: TemperatureRange,
    /// The named temperature of a chain that varies while the others stay as stated; without a name
    /// the whole engine is at the temperature of the table.
    pub varies: Option<String>,
}

/// What the metal's temperature adds to the lash against `reference`.
pub(super) fn warmth(
    metal: &Metal,
    reference: Temperature,
) -> Result<Option<Correction>, ThermalError> {
    match metal {
        Metal::Unstated | Metal::At { .. } => Ok(None),
        Metal::Chain {
            chain,
            temperatures,
        } => chain.correction(reference, temperatures).map(Some),
        Metal::Coefficient {
            coefficient,
            temperature,
            uncertainty,
        } => coefficient
            .correction(*temperature, *uncertainty, reference)
            .map(Some),
    }
}

/// The same metal with other temperatures, each found from its name (empty where it has none) and
/// what it is; their uncertainties stay.
pub(super) fn at_other_temperatures(
    metal: &Metal,
    other: impl Fn(&str, Temperature) -> Result<Temperature, ThermalError>,
) -> Result<Metal, ThermalError> {
    let mut metal = metal.clone();
    match &mut metal {
        Metal::Unstated => {}
        Metal::At { temperature, .. } | Metal::Coefficient { temperature, .. } => {
            *temperature = other("", *temperature)?;
        }
        Metal::Chain { temperatures, .. } => {
            for (name, (temperature, _)) in temperatures.iter_mut() {
                *temperature = other(name, *temperature)?;
            }
        }
    }
    Ok(metal)
}

/// The least and the greatest temperature that the stated ones leave open, at three standard
/// uncertainties; nothing if none is stated.
pub(super) fn stated_range(metal: &Metal) -> Option<(f64, f64)> {
    let stated: Vec<(Temperature, TemperatureDifference)> = match metal {
        Metal::Unstated => Vec::new(),
        Metal::At {
            temperature,
            uncertainty,
        }
        | Metal::Coefficient {
            temperature,
            uncertainty,
            ..
        } => alloc::vec![(*temperature, *uncertainty)],
        Metal::Chain { temperatures, .. } => temperatures.iter().map(|(_, known)| known).collect(),
    };
    let low = stated.iter().map(|(t, u)| t.celsius() - 3.0 * u.kelvin());
    let high = stated.iter().map(|(t, u)| t.celsius() + 3.0 * u.kelvin());
    Some((low.reduce(f64::min)?, high.reduce(f64::max)?))
}

/// A refusal of the thermal area at a place of the request.
pub(super) fn refused(place: &str) -> impl Fn(ThermalError) -> Problem + '_ {
    move |e| {
        let message = alloc::string::ToString::to_string(&e);
        Problem::new(place, e.code(), message, e.hint())
    }
}
