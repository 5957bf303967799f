//! The law of Paschen: the voltage that breaks down a gap in a gas.

use super::ElectricsError;
use crate::quantity::{AbsolutePressure, PlugGap, QuantityError, Voltage};
use serde::Serialize;
use uom::si::length::centimeter;

/// Kilopascals of a Torr.
const TORR: f64 = 101.325 / 760.0;
/// No gas breaks down below this, and every usual one below the other, at its minimum; in volts.
const LEAST_VOLTAGE: (f64, f64) = (100.0, 1000.0);

/// The constants of the law for one gas and one metal. Sets from different pages must not be mixed.
///
/// ```
/// use lashwork::ignition::electrics::Paschen;
/// use lashwork::quantity::{AbsolutePressure, PlugGap};
/// let air = Paschen::AIR;
/// let volts = air.breakdown(PlugGap::parse("1 mm")?, AbsolutePressure::parse("1 atm")?)?;
/// assert!((volts.volts() - 5035.0).abs() < 1.0);
/// let (least, product) = air.minimum();
/// assert!((least - 305.27).abs() < 0.005 && (product - 0.8363).abs() < 5e-5);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Paschen {
    a: f64,
    b: f64,
    gamma: f64,
}

impl Paschen {
    /// Air: 15 and 365 V for each cm and Torr, 0.01 electrons for each ion.
    ///
    /// # Source
    /// A physics club's page on the law of Paschen (neasmn.org), which prints the derived constant as 1.18.
    /// Another page's minimum of 327 V at 0.57 cm Torr belongs to another set.
    pub const AIR: Self = Self {
        a: 15.0,
        b: 365.0,
        gamma: 0.01,
    };

    /// Takes the constants: ionisation `a` and volts `b`, each for a centimetre and a Torr, and `gamma`
    /// electrons for each ion that strikes the electrode.
    ///
    /// # Errors
    /// [`ElectricsError::PaschenConstants`] if the least voltage that follows is not from 100 to 1000 V:
    /// a slip of units or of a power of ten.
    ///
    /// ```
    /// use lashwork::ignition::electrics::Paschen;
    /// assert!(Paschen::new(15.0, 365.0, 0.01).is_ok());
    /// assert!(Paschen::new(15.0, 365.0, -0.01).is_err());
    /// ```
    pub fn new(a: f64, b: f64, gamma: f64) -> Result<Self, ElectricsError> {
        let law = Self { a, b, gamma };
        let (least, at) = law.minimum();
        if a > 0.0
            && gamma > 0.0
            && at > 0.0
            && (LEAST_VOLTAGE.0..=LEAST_VOLTAGE.1).contains(&least)
        {
            Ok(law)
        } else {
            Err(ElectricsError::PaschenConstants { a, b, gamma, least })
        }
    }

    /// The least voltage that breaks down any gap, in volts, and the gap times pressure where it does, in
    /// cm Torr.
    ///
    /// # Source
    /// The law's derivative: `pd = e/A ln(1 + 1/gamma)`, `V = B pd`.
    #[must_use]
    pub fn minimum(&self) -> (f64, f64) {
        let at = core::f64::consts::E / self.a * libm::log1p(1.0 / self.gamma);
        (self.b * at, at)
    }

    /// The least voltage that breaks down any gap.
    pub(super) fn least(&self) -> Result<Voltage, QuantityError> {
        Voltage::from_volts(self.minimum().0)
    }

    /// The voltage that breaks down a gap at a pressure, the gas at 20 C.
    ///
    /// # Errors
    /// [`ElectricsError::UnderPaschenMinimum`] where gap times pressure is less than at the minimum.
    ///
    /// # Source
    /// `V = B pd / (ln(A pd) - ln(ln(1 + 1/gamma)))`.
    pub fn breakdown(
        &self,
        gap: PlugGap,
        pressure: AbsolutePressure,
    ) -> Result<Voltage, ElectricsError> {
        self.at(product(gap, pressure.kilopascals()))
            .map(|(v, _)| v)
    }

    /// Voltage at a product of gap and pressure, and by which share it changes for a share of that.
    pub(super) fn at(&self, product: f64) -> Result<(Voltage, f64), ElectricsError> {
        let (_, least) = self.minimum();
        if product.is_nan() || product < least {
            let got = product;
            return Err(ElectricsError::UnderPaschenMinimum { got, least });
        }
        let below = libm::log(self.a * product) - libm::log(libm::log1p(1.0 / self.gamma));
        let volts = Voltage::from_volts(self.b * product / below)?;
        Ok((volts, 1.0 - 1.0 / below))
    }
}

/// Gap times pressure, in cm Torr; the pressure in kilopascals.
pub(super) fn product(gap: PlugGap, kilopascals: f64) -> f64 {
    let gap = uom::si::f64::Length::new::<uom::si::length::millimeter>(gap.mm());
    gap.get::<centimeter>() * kilopascals / TORR
}
