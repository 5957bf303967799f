//! A published gap with its dwell, and whether two such pairs belong to one lobe.

use super::{BreakerError, Dwell, DwellChange};
use crate::quantity::ContactGap;
use crate::tolerance::known::normal;
use crate::tolerance::{Estimate, ToleranceError};
use serde::Serialize;

/// Whether gaps are held to what contact breakers have.
///
/// ```
/// use lashwork::ignition::breaker::GapSizes;
/// use lashwork::quantity::ContactGap;
/// let wide = ContactGap::from_mm(1.2)?;
/// assert!(GapSizes::Usual.check(wide).is_err() && GapSizes::StatedUnusual.check(wide).is_ok());
/// # Ok::<(), lashwork::quantity::QuantityError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum GapSizes {
    /// 0.1 to 1.0 mm; what is outside is a slip of the unit more often than a gap. Common practice, no
    /// source.
    Usual,
    /// The book is stated to print an unusual gap.
    StatedUnusual,
}

impl GapSizes {
    /// Least usual gap, in millimetres.
    pub const LEAST_MM: f64 = 0.1;
    /// Greatest usual gap, in millimetres.
    pub const MOST_MM: f64 = 1.0;

    /// The gap itself, if it is of this size.
    ///
    /// # Errors
    /// [`BreakerError::GapUnusual`]; also at zero, whatever is stated.
    pub fn check(self, gap: ContactGap) -> Result<ContactGap, BreakerError> {
        let usual = (Self::LEAST_MM..=Self::MOST_MM).contains(&gap.mm());
        if usual || (self == Self::StatedUnusual && gap.mm() > 0.0) {
            Ok(gap)
        } else {
            Err(BreakerError::GapUnusual { gap })
        }
    }
}

/// A gap and the dwell that a book prints for it, each with its uncertainty: its band, its rounding.
///
/// ```
/// use lashwork::ignition::breaker::{Dwell, GapAndDwell};
/// use lashwork::quantity::ContactGap;
/// let book = GapAndDwell::exact(ContactGap::parse("0.015 in")?, Dwell::parse("60 deg")?)?;
/// assert_eq!(book.gap.centre(), Some(ContactGap::from_mm(0.381)?));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GapAndDwell {
    /// The gap.
    pub gap: Estimate<ContactGap>,
    /// The dwell.
    pub dwell: Estimate<Dwell>,
}

impl GapAndDwell {
    /// Both as if there were no doubt about either.
    ///
    /// # Errors
    /// [`ToleranceError`]: never for two quantities that exist.
    pub fn exact(gap: ContactGap, dwell: Dwell) -> Result<Self, ToleranceError> {
        Ok(Self {
            gap: normal(gap.mm(), 0.0)?,
            dwell: normal(dwell.degrees(), 0.0)?,
        })
    }

    /// Both as printed, right to their last digit: within 0.005 mm and half a degree, equally likely
    /// anywhere (JCGM 100:2008, 4.3.7).
    ///
    /// # Errors
    /// [`ToleranceError`]: never for two quantities that exist.
    ///
    /// ```
    /// use lashwork::ignition::breaker::{Dwell, GapAndDwell};
    /// use lashwork::quantity::ContactGap;
    /// let book = GapAndDwell::printed(ContactGap::parse("0.40 mm")?, Dwell::parse("52 deg")?)?;
    /// assert!((book.dwell.standard_uncertainty().unwrap().number() - 0.2887).abs() < 1e-4);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn printed(gap: ContactGap, dwell: Dwell) -> Result<Self, ToleranceError> {
        /// Half widths in millimetres and degrees.
        const RIGHT_TO: (f64, f64) = (0.005, 0.5);
        let root = libm::sqrt(3.0);
        Ok(Self {
            gap: normal(gap.mm(), RIGHT_TO.0 / root)?,
            dwell: normal(dwell.degrees(), RIGHT_TO.1 / root)?,
        })
    }
}

/// How well a second published pair agrees with the lobe through the first.
///
/// ```
/// use lashwork::ignition::breaker::Agreement;
/// assert_ne!(Agreement::Agrees, Agreement::Doubtful);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Agreement {
    /// Within two standard uncertainties.
    Agrees,
    /// Within three.
    Doubtful,
    /// Further off.
    Contradicts,
}

/// The lobe through one published pair, held against another.
///
/// ```
/// use lashwork::ignition::breaker::{Agreement, Dwell, GapAndDwell, GapSizes, LobeModel, Lobes};
/// use lashwork::quantity::ContactGap;
/// let pair = |gap, dwell| {
///     GapAndDwell::exact(ContactGap::parse(gap).unwrap(), Dwell::parse(dwell).unwrap())
/// };
/// let lobe = LobeModel::from_pair(&pair("0.40 mm", "52 deg")?, Lobes::new(4)?, GapSizes::Usual)?;
/// let near = lobe.test(&pair("0.45 mm", "49.6 deg")?)?;
/// assert_eq!(near.agreement, Agreement::Agrees);
/// // The dwell cannot grow with the gap.
/// let far = lobe.test(&pair("0.45 mm", "56 deg")?)?;
/// assert_eq!(far.agreement, Agreement::Contradicts);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SecondPair {
    /// The dwell that the first pair leads to at the second pair's gap.
    pub predicted: Dwell,
    /// The dwell that the second pair prints.
    pub printed: Dwell,
    /// Printed less predicted.
    pub difference: DwellChange,
    /// Standard uncertainty of the difference, in degrees: of both pairs, and of the lobe's shape.
    pub uncertainty: f64,
    /// What follows.
    pub agreement: Agreement,
}

impl SecondPair {
    pub(super) fn new(predicted: Dwell, printed: Dwell, uncertainty: f64) -> Self {
        /// Differences below this are none, in degrees: no book prints finer.
        const NONE: f64 = 0.05;
        let difference = printed - predicted;
        let off = (difference.degrees().abs() - NONE).max(0.0);
        let agreement = if off <= 2.0 * uncertainty {
            Agreement::Agrees
        } else if off <= 3.0 * uncertainty {
            Agreement::Doubtful
        } else {
            Agreement::Contradicts
        };
        Self {
            predicted,
            printed,
            difference,
            uncertainty,
            agreement,
        }
    }
}
