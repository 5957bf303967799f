//! What a request asks about temperature besides the correction of its readings.

use crate::thermal::{CoolingFit, Metal, TemperatureRange, ThermalError};
use alloc::string::String;

/// Questions about temperature, each open to be left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WarmQuestions {
    /// A second rule how the lash follows temperature, to hold against the one that is used.
    pub compared: Option<Metal>,
    /// How the metal cools.
    pub cooling: Option<Cooling>,
    /// A table of lash by temperature.
    pub curve: Option<LashTable>,
}

/// How the metal cools, and how certain a correction is to be before it is worth reading.
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
    /// use lashwork::job::clearance::Cooling;
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
