//! What an exhaust tester shows.

use super::{Fuel, GasError};
use crate::quantity::VolumeShare;
use serde::Serialize;

/// Most carbon dioxide that is accepted, in per cent: over what petrol can make, with the error of a tester.
const MOST_CARBON_DIOXIDE: f64 = 16.5;
/// Oxygen of the air, in per cent: no exhaust holds more.
pub(super) const OXYGEN_IN_AIR: f64 = 20.95;

/// How many atoms of carbon stand behind a molecule that the tester counts as hydrocarbon.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum HydrocarbonFactor {
    /// 6: shown as hexane, as testers of garages do.
    Hexane,
    /// 12: shown as hexane, and doubled, because such testers see about half of what petrol leaves (Singer
    /// and Harley 1998).
    HexaneOfPetrol,
    /// 3: shown as propane.
    Propane,
    /// 1: shown as atoms of carbon, as flame ionisation does.
    Carbon,
    /// As stated, 1 to 20.
    Stated(f64),
}

impl HydrocarbonFactor {
    /// The factor.
    ///
    /// ```
    /// use lashwork::mixture::gas::HydrocarbonFactor;
    /// assert_eq!(HydrocarbonFactor::Hexane.number(), 6.0);
    /// ```
    #[must_use]
    pub const fn number(self) -> f64 {
        match self {
            Self::Hexane => 6.0,
            Self::HexaneOfPetrol => 12.0,
            Self::Propane => 3.0,
            Self::Carbon => 1.0,
            Self::Stated(number) => number,
        }
    }
}

/// Hydrocarbons as read, with what the number counts.
///
/// ```
/// use lashwork::mixture::gas::{HydrocarbonFactor, Hydrocarbons};
/// use lashwork::quantity::VolumeShare;
/// let read = VolumeShare::parse("250 ppm")?;
/// let hc = Hydrocarbons { read, factor: HydrocarbonFactor::Hexane };
/// assert!((hc.carbon() - 0.15).abs() < 1e-15);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Hydrocarbons {
    /// As shown.
    pub read: VolumeShare,
    /// What was counted.
    pub factor: HydrocarbonFactor,
}

impl Hydrocarbons {
    /// Atoms of carbon in them, in per cent of the gas.
    #[must_use]
    pub fn carbon(&self) -> f64 {
        self.factor.number() * self.read.percent()
    }
}

/// Four gases, or five with nitric oxide, of dry exhaust gas.
///
/// ```
/// use lashwork::mixture::gas::{ExhaustGas, HydrocarbonFactor, Hydrocarbons};
/// use lashwork::quantity::VolumeShare;
/// let share = VolumeShare::from_percent;
/// let hc = Hydrocarbons { read: VolumeShare::parse("250 ppm")?, factor: HydrocarbonFactor::Hexane };
/// let gas = ExhaustGas::new(share(12.5)?, share(3.5)?, share(0.6)?, Some(hc))?;
/// assert_eq!(gas.co().percent(), 3.5);
/// let nothing = ExhaustGas::new(share(0.0)?, share(0.0)?, share(20.9)?, None).unwrap_err();
/// assert_eq!(lashwork::Refusal::code(&nothing), "mixture.no-carbon-dioxide");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ExhaustGas {
    co2: VolumeShare,
    co: VolumeShare,
    o2: VolumeShare,
    hc: Option<Hydrocarbons>,
    no: Option<VolumeShare>,
}

impl ExhaustGas {
    /// Takes carbon dioxide, carbon monoxide, oxygen, and hydrocarbons where they are shown.
    ///
    /// # Errors
    /// [`GasError::NoCarbonDioxide`]; [`GasError::TooMuchCarbonDioxide`] over 16.5 %;
    /// [`GasError::TooMuchOxygen`] over 20.95 %; [`GasError::Factor`].
    pub fn new(
        co2: VolumeShare,
        co: VolumeShare,
        o2: VolumeShare,
        hc: Option<Hydrocarbons>,
    ) -> Result<Self, GasError> {
        if co2.percent() <= 0.0 {
            return Err(GasError::NoCarbonDioxide);
        }
        if co2.percent() > MOST_CARBON_DIOXIDE {
            return Err(GasError::TooMuchCarbonDioxide {
                got: co2.percent(),
                most: MOST_CARBON_DIOXIDE,
            });
        }
        if o2.percent() > OXYGEN_IN_AIR {
            return Err(GasError::TooMuchOxygen {
                got: o2.percent(),
                most: OXYGEN_IN_AIR,
            });
        }
        if let Some(hc) = hc {
            let got = hc.factor.number();
            if !(1.0..=20.0).contains(&got) {
                return Err(GasError::Factor { got });
            }
        }
        Ok(Self {
            co2,
            co,
            o2,
            hc,
            no: None,
        })
    }

    /// With nitric oxide as the fifth gas.
    ///
    /// ```
    /// use lashwork::mixture::gas::ExhaustGas;
    /// use lashwork::quantity::VolumeShare;
    /// let share = VolumeShare::from_percent;
    /// let four = ExhaustGas::new(share(14.0)?, share(0.2)?, share(0.5)?, None)?;
    /// assert_eq!(four.with_no(share(0.1)?).no(), Some(share(0.1)?));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    #[must_use]
    pub const fn with_no(self, no: VolumeShare) -> Self {
        Self {
            no: Some(no),
            ..self
        }
    }

    /// Carbon dioxide.
    #[must_use]
    pub const fn co2(&self) -> VolumeShare {
        self.co2
    }

    /// Carbon monoxide.
    #[must_use]
    pub const fn co(&self) -> VolumeShare {
        self.co
    }

    /// Oxygen.
    #[must_use]
    pub const fn o2(&self) -> VolumeShare {
        self.o2
    }

    /// Hydrocarbons, if they were shown.
    #[must_use]
    pub const fn hc(&self) -> Option<Hydrocarbons> {
        self.hc
    }

    /// Nitric oxide, if it was shown.
    #[must_use]
    pub const fn no(&self) -> Option<VolumeShare> {
        self.no
    }

    /// Oxygen that would have burnt the hydrocarbons, in per cent of the gas: what goes with them through a
    /// cylinder that does not fire.
    #[must_use]
    pub(super) fn oxygen_of_unburnt(&self, fuel: &Fuel) -> f64 {
        fuel.oxygen_needed() * self.hc.map_or(0.0, |hc| hc.carbon())
    }
}
