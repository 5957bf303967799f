//! How warm the metal is, and how the lash follows.

use super::{
    Chain, Correction, LashCoefficient, PartTemperatures, Reference, TakenWith, ThermalError,
};
use crate::quantity::{Temperature, TemperatureDifference};
use alloc::string::String;
use alloc::vec::Vec;

/// A metal temperature as it was taken.
///
/// ```
/// use lashwork::quantity::{Temperature, TemperatureDifference};
/// use lashwork::thermal::MetalTemperature;
/// let read = MetalTemperature::of(Temperature::parse("60 C")?);
/// assert_eq!(read.standard_uncertainty().kelvin(), 2.0);
/// let known = MetalTemperature { uncertainty: Some(TemperatureDifference::parse("1 K")?), ..read };
/// assert_eq!(known.standard_uncertainty().kelvin(), 1.0);
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MetalTemperature {
    /// What the thermometer showed.
    pub is: Temperature,
    /// Its standard uncertainty; [`TakenWith::usual_uncertainty`] is taken, and to be listed, where it is
    /// not stated.
    pub uncertainty: Option<TemperatureDifference>,
    /// What it was taken with; a probe is assumed, and to be listed, where it is not stated.
    pub taken_with: Option<TakenWith>,
}

impl MetalTemperature {
    /// A temperature and nothing else.
    #[must_use]
    pub const fn of(is: Temperature) -> Self {
        Self {
            is,
            uncertainty: None,
            taken_with: None,
        }
    }

    /// A temperature with its standard uncertainty.
    #[must_use]
    pub const fn known(is: Temperature, uncertainty: TemperatureDifference) -> Self {
        Self {
            is,
            uncertainty: Some(uncertainty),
            taken_with: None,
        }
    }

    /// The standard uncertainty stated, or the one that is taken otherwise; on bare metal an infrared
    /// thermometer has [`TakenWith::least_uncertainty`] whatever is stated.
    #[must_use]
    pub fn standard_uncertainty(&self) -> TemperatureDifference {
        let with = self.taken_with.unwrap_or_default();
        let stated = self.uncertainty.unwrap_or(with.usual_uncertainty());
        let least = with.least_uncertainty();
        if stated.kelvin() < least.kelvin() && stated.kelvin() >= 0.0 {
            least
        } else {
            stated
        }
    }

    /// The same thermometer at another temperature.
    #[must_use]
    pub const fn moved_to(self, is: Temperature) -> Self {
        Self { is, ..self }
    }
}

/// How warm the metal is, and how the lash follows.
///
/// ```
/// use lashwork::quantity::Temperature;
/// use lashwork::thermal::{LashCoefficient, Metal, MetalTemperature};
/// let warm = MetalTemperature::of(Temperature::parse("60 C")?);
/// let coefficient = LashCoefficient::new(0.001, 0.0001, None)?;
/// let cold = Temperature::parse("20 C")?;
/// let found = Metal::Coefficient { coefficient, temperature: warm }.correction(cold)?;
/// assert!((found.ok_or("no rule")?.change.mm() - 0.04).abs() < 1e-12);
/// assert_eq!(Metal::At(warm).correction(cold)?, None);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
#[non_exhaustive]
pub enum Metal {
    /// Not stated: readings are taken to be at the specification's reference temperature.
    #[default]
    Unstated,
    /// Known, but no rule how the lash follows.
    At(MetalTemperature),
    /// A chain of parts with their temperatures.
    Chain {
        /// The parts.
        chain: Chain,
        /// Their temperatures.
        temperatures: PartTemperatures,
    },
    /// A coefficient fitted from readings at several temperatures.
    Coefficient {
        /// Change of lash per kelvin.
        coefficient: LashCoefficient,
        /// Temperature of the metal.
        temperature: MetalTemperature,
    },
}

impl Metal {
    /// What the metal's temperature adds to the lash against the reference of a book, with the doubt of
    /// a reference that is not printed; nothing where no rule says how the lash follows, or the book says
    /// hot without a temperature.
    ///
    /// # Errors
    /// Those of [`Self::correction`].
    ///
    /// ```
    /// use lashwork::quantity::{Temperature, TemperatureDifference};
    /// use lashwork::thermal::{LashCoefficient, Metal, MetalTemperature, Reference};
    /// let k = TemperatureDifference::parse("0 K")?;
    /// let metal = Metal::Coefficient {
    ///     coefficient: LashCoefficient::new(0.003, 0.0, None)?,
    ///     temperature: MetalTemperature::known(Temperature::parse("40 C")?, k),
    /// };
    /// let printed = metal.correction_from(Reference::At(Temperature::ISO_1))?.ok_or("no rule")?;
    /// let cold = metal.correction_from(Reference::Cold)?.ok_or("no rule")?;
    /// assert_eq!((printed.change, printed.standard_uncertainty_mm()), (cold.change, 0.0));
    /// // 10 K as a rectangle, 0.003 mm each.
    /// assert!((cold.standard_uncertainty_mm() - 0.003 * 10.0 / 3.0_f64.sqrt()).abs() < 1e-12);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn correction_from(
        &self,
        reference: Reference,
    ) -> Result<Option<Correction>, ThermalError> {
        let Some(at) = reference.temperature() else {
            return Ok(None);
        };
        let Some(correction) = self.correction(at)? else {
            return Ok(None);
        };
        let u = reference.standard_uncertainty_k();
        if u <= 0.0 {
            return Ok(Some(correction));
        }
        let by_kelvin = match self {
            Self::Chain { chain, .. } => chain.change_for_a_kelvin(at)?,
            Self::Coefficient { coefficient, .. } => coefficient.mm_per_kelvin,
            Self::Unstated | Self::At(_) => 0.0,
        };
        let source = String::from("temperature meant by cold");
        correction.with_doubt(source, u, -by_kelvin).map(Some)
    }

    /// What the metal's temperature adds to the lash against `reference`; nothing where no rule says
    /// how the lash follows.
    ///
    /// # Errors
    /// Those of [`Chain::correction`] and [`LashCoefficient::correction`].
    pub fn correction(&self, reference: Temperature) -> Result<Option<Correction>, ThermalError> {
        match self {
            Self::Unstated | Self::At(_) => Ok(None),
            Self::Chain {
                chain,
                temperatures,
            } => chain.correction(reference, temperatures).map(Some),
            Self::Coefficient {
                coefficient,
                temperature,
            } => coefficient
                .correction(
                    temperature.is,
                    temperature.standard_uncertainty(),
                    reference,
                )
                .map(Some),
        }
    }

    /// Whether a chain of parts adds up and uses every temperature: [`Chain::check`].
    ///
    /// # Errors
    /// Those of [`Chain::check`].
    pub fn check(&self) -> Result<(), ThermalError> {
        match self {
            Self::Chain {
                chain,
                temperatures,
            } => chain.check(temperatures),
            Self::Unstated | Self::At(_) | Self::Coefficient { .. } => Ok(()),
        }
    }

    /// Whether something says how the lash follows the temperature.
    #[must_use]
    pub const fn has_rule(&self) -> bool {
        matches!(self, Self::Chain { .. } | Self::Coefficient { .. })
    }

    /// The same metal with other temperatures, each found from its name (empty where it has none) and
    /// what it is; their uncertainties stay.
    ///
    /// # Errors
    /// Whatever `other` refuses.
    pub fn at_other_temperatures(
        &self,
        other: impl Fn(&str, Temperature) -> Result<Temperature, ThermalError>,
    ) -> Result<Self, ThermalError> {
        let mut metal = self.clone();
        match &mut metal {
            Self::Unstated => {}
            Self::At(temperature) | Self::Coefficient { temperature, .. } => {
                *temperature = temperature.moved_to(other("", temperature.is)?);
            }
            Self::Chain { temperatures, .. } => {
                for (name, temperature) in temperatures.iter_mut() {
                    *temperature = temperature.moved_to(other(name, temperature.is)?);
                }
            }
        }
        Ok(metal)
    }

    /// Every stated temperature with its name; the name is empty where there is one for the whole
    /// engine.
    #[must_use]
    pub fn temperatures(&self) -> Vec<(&str, MetalTemperature)> {
        match self {
            Self::Unstated => Vec::new(),
            Self::At(temperature) | Self::Coefficient { temperature, .. } => {
                alloc::vec![("", *temperature)]
            }
            Self::Chain { temperatures, .. } => temperatures.iter().collect(),
        }
    }

    /// The least and the greatest temperature that the stated ones leave open, at three standard
    /// uncertainties, in degrees Celsius; nothing if none is stated.
    #[must_use]
    pub fn stated_range(&self) -> Option<(f64, f64)> {
        let stated = self.temperatures();
        let ends = |side: f64| {
            let end = move |(_, t): &(&str, MetalTemperature)| {
                t.is.celsius() + side * 3.0 * t.standard_uncertainty().kelvin()
            };
            stated.iter().map(end)
        };
        Some((ends(-1.0).reduce(f64::min)?, ends(1.0).reduce(f64::max)?))
    }
}
