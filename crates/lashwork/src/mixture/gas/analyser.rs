//! How far a tester may be off.

use super::{ExhaustGas, GasError};
use crate::quantity::VolumeShare;
use crate::tolerance::Uncertainty;
use serde::Serialize;

/// The accuracy class of an exhaust tester, on its plate.
///
/// # Source
/// Classes: OIML R 99-1 & 2:2008. Limits of error: the same, from memory: the greater of an absolute one and
/// 5 % of the reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[non_exhaustive]
pub enum AnalyserClass {
    /// Class 00: CO 0.02 %, CO2 0.3 %, O2 0.1 %, HC 4 ppm.
    Class00,
    /// Class 0: CO 0.03 %, CO2 0.5 %, O2 0.1 %, HC 10 ppm.
    Class0,
    /// Class I: CO 0.06 %, CO2 0.5 %, O2 0.1 %, HC 12 ppm.
    ClassI,
}

/// Limit of error relative to the reading, of every gas and class.
const RELATIVE: f64 = 0.05;
/// Limit for nitric oxide, in per cent and relative: the recommendation has none; this library's choice.
const NITRIC_OXIDE: (f64, f64) = (0.0025, 0.1);

impl AnalyserClass {
    /// Absolute limits of error in per cent: CO2, CO, O2, HC.
    const fn limits(self) -> [f64; 4] {
        match self {
            Self::Class00 => [0.3, 0.02, 0.1, 0.0004],
            Self::Class0 => [0.5, 0.03, 0.1, 0.001],
            Self::ClassI => [0.5, 0.06, 0.1, 0.0012],
        }
    }

    /// Standard uncertainty of each reading: the limit of error over the root of three, as of an error that
    /// is equally likely anywhere within it (JCGM 100:2008 4.3.7).
    ///
    /// # Errors
    /// [`GasError::Tolerance`] never for a gas of [`ExhaustGas::new`].
    ///
    /// ```
    /// use lashwork::mixture::gas::{AnalyserClass, ExhaustGas};
    /// use lashwork::quantity::VolumeShare;
    /// let share = VolumeShare::from_percent;
    /// let gas = ExhaustGas::new(share(14.0)?, share(1.0)?, share(0.8)?, None)?;
    /// let u = AnalyserClass::Class0.uncertainty(&gas)?;
    /// assert!((u.co2.number() - 0.7 / 3f64.sqrt()).abs() < 1e-15, "5 % of 14 % is over 0.5 %");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn uncertainty(self, gas: &ExhaustGas) -> Result<GasUncertainty, GasError> {
        let [co2, _, o2, _] = self.limits();
        let none = || Ok(Uncertainty::ZERO);
        Ok(GasUncertainty {
            co2: within(gas.co2(), co2, RELATIVE)?,
            co: self.co_uncertainty(gas.co())?,
            o2: within(gas.o2(), o2, RELATIVE)?,
            hc: gas
                .hc()
                .map_or_else(none, |found| self.hc_uncertainty(found.read))?,
            no: gas
                .no()
                .map_or_else(none, |no| within(no, NITRIC_OXIDE.0, NITRIC_OXIDE.1))?,
        })
    }

    /// Standard uncertainty of carbon monoxide alone.
    ///
    /// # Errors
    /// As [`Self::uncertainty`].
    ///
    /// ```
    /// use lashwork::mixture::gas::AnalyserClass;
    /// use lashwork::quantity::VolumeShare;
    /// let u = AnalyserClass::Class0.co_uncertainty(VolumeShare::parse("3 %")?)?;
    /// assert!((u.number() - 0.15 / 3f64.sqrt()).abs() < 1e-15);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn co_uncertainty(self, co: VolumeShare) -> Result<Uncertainty<VolumeShare>, GasError> {
        let [_, least, _, _] = self.limits();
        within(co, least, RELATIVE)
    }

    /// Standard uncertainty of hydrocarbons alone, as shown.
    ///
    /// # Errors
    /// As [`Self::uncertainty`].
    ///
    /// ```
    /// use lashwork::mixture::gas::AnalyserClass;
    /// use lashwork::quantity::VolumeShare;
    /// let u = AnalyserClass::Class0.hc_uncertainty(VolumeShare::parse("100 ppm")?)?;
    /// assert!((u.number() - 0.001 / 3f64.sqrt()).abs() < 1e-15, "10 ppm are over 5 %");
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn hc_uncertainty(self, hc: VolumeShare) -> Result<Uncertainty<VolumeShare>, GasError> {
        let [_, _, _, least] = self.limits();
        within(hc, least, RELATIVE)
    }
}

/// Of a reading that may be off by the greater of two limits.
fn within(
    read: VolumeShare,
    least: f64,
    relative: f64,
) -> Result<Uncertainty<VolumeShare>, GasError> {
    let limit = (relative * read.percent()).max(least);
    Ok(Uncertainty::from_number(limit / libm::sqrt(3.0))?)
}

/// Standard uncertainties of the gases, as read.
///
/// ```
/// use lashwork::mixture::gas::GasUncertainty;
/// use lashwork::tolerance::Uncertainty;
/// let u = GasUncertainty { o2: Uncertainty::from_number(0.05)?, ..GasUncertainty::ZERO };
/// assert_eq!(u.co.number(), 0.0);
/// # Ok::<(), lashwork::tolerance::ToleranceError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasUncertainty {
    /// Of carbon dioxide.
    pub co2: Uncertainty<VolumeShare>,
    /// Of carbon monoxide.
    pub co: Uncertainty<VolumeShare>,
    /// Of oxygen.
    pub o2: Uncertainty<VolumeShare>,
    /// Of the hydrocarbons as read.
    pub hc: Uncertainty<VolumeShare>,
    /// Of nitric oxide.
    pub no: Uncertainty<VolumeShare>,
}

impl GasUncertainty {
    /// None at all.
    pub const ZERO: Self = Self {
        co2: Uncertainty::ZERO,
        co: Uncertainty::ZERO,
        o2: Uncertainty::ZERO,
        hc: Uncertainty::ZERO,
        no: Uncertainty::ZERO,
    };

    /// CO2, CO, O2, HC, NO in per cent.
    pub(super) fn numbers(&self) -> [f64; 5] {
        [self.co2, self.co, self.o2, self.hc, self.no].map(Uncertainty::number)
    }
}
