//! The shim a gap asks for.
//!
//! # Source
//! New = old + measured - target, as valve-clearance pages of workshop manuals print it for bucket
//! tappets; with a ratio between shim and gap the difference is divided by it.

use super::AdjustError;
use super::error::check_ratio;
use crate::quantity::{Lash, LashChange, Nominal, ShimThickness};
use serde::Serialize;

/// Where the shim sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ShimSeat {
    /// On or under a bucket tappet, or a tappet chosen by thickness: the gap closes by as much as
    /// the shim grows.
    OnBucket,
    /// Under the pivot of a rocker or finger: the gap closes by the growth times a lever ratio
    /// that depends on the arms and on where the gap is felt.
    UnderRocker,
}

impl ShimSeat {
    /// How much the gap closes for each millimetre the shim grows: 1 on a bucket, the stated
    /// `pivot_ratio` under a rocker.
    ///
    /// # Errors
    /// [`AdjustError::Ratio`] for a pivot ratio outside 0.1 to 5.
    ///
    /// ```
    /// use lashwork::adjust::ShimSeat;
    /// assert_eq!(ShimSeat::OnBucket.ratio(1.6)?, 1.0);
    /// assert_eq!(ShimSeat::UnderRocker.ratio(1.6)?, 1.6);
    /// # Ok::<(), lashwork::adjust::AdjustError>(())
    /// ```
    pub fn ratio(self, pivot_ratio: f64) -> Result<f64, AdjustError> {
        match self {
            Self::OnBucket => Ok(1.0),
            Self::UnderRocker => shim_ratio(pivot_ratio),
        }
    }
}

fn shim_ratio(got: f64) -> Result<f64, AdjustError> {
    check_ratio("ratio from shim to gap", got, 0.1, 5.0)
}

/// How much the gap closes for each millimetre the shim grows, from the factor that books print: with
/// it they multiply the difference of gaps, `new = old + (measured - target) * shim_per_gap`.
///
/// # Errors
/// [`AdjustError::Ratio`] for a factor outside 0.2 to 10.
///
/// ```
/// use lashwork::adjust::gap_per_shim;
/// assert!((gap_per_shim(1.43)? - 0.6993).abs() < 5e-5);
/// assert!(gap_per_shim(0.0).is_err());
/// # Ok::<(), lashwork::adjust::AdjustError>(())
/// ```
pub fn gap_per_shim(shim_per_gap: f64) -> Result<f64, AdjustError> {
    let printed = check_ratio("factor from gap to shim", shim_per_gap, 0.2, 10.0)?;
    shim_ratio(1.0 / printed)
}

/// The shim that brings the measured gap to the target: `old + (measured - target) / ratio`.
///
/// # Errors
/// [`AdjustError::Ratio`] for a ratio outside 0.1 to 5; [`AdjustError::Quantity`] for a thickness
/// no shim can have.
///
/// ```
/// use lashwork::adjust::new_shim;
/// use lashwork::quantity::{Lash, ShimThickness};
/// let old = ShimThickness::parse("2.80 mm")?;
/// let new = new_shim(old, Lash::parse("0.45 mm")?, Lash::parse("0.20 mm")?, 1.0)?;
/// assert!((new.mm() - 3.05).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn new_shim(
    old: ShimThickness,
    measured: Lash,
    target: Lash,
    ratio_from_shim_to_gap: f64,
) -> Result<ShimThickness, AdjustError> {
    let ratio = shim_ratio(ratio_from_shim_to_gap)?;
    let growth = (measured - target).mm() / ratio;
    Ok(ShimThickness::from_mm(old.mm() + growth)?)
}

/// The gap after fitting another shim: `measured + (old - new) * ratio`.
///
/// # Errors
/// [`AdjustError::Ratio`] for a ratio outside 0.1 to 5; [`AdjustError::Quantity`] for a gap out of
/// range.
///
/// ```
/// use lashwork::adjust::predicted_lash;
/// use lashwork::quantity::{Lash, ShimThickness};
/// let (old, new) = (ShimThickness::parse("2.80 mm")?, ShimThickness::parse("3.00 mm")?);
/// let after = predicted_lash(old, new, Lash::parse("0.45 mm")?, 1.0)?;
/// assert!((after.mm() - 0.25).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn predicted_lash(
    old: ShimThickness,
    new: ShimThickness,
    measured: Lash,
    ratio_from_shim_to_gap: f64,
) -> Result<Lash, AdjustError> {
    let ratio = shim_ratio(ratio_from_shim_to_gap)?;
    let opens = LashChange::from_mm((old.mm() - new.mm()) * ratio)?;
    Ok(Lash::from_mm((measured + opens).mm())?)
}

/// One valve's shim and gap, and the gap it should have.
///
/// ```
/// use lashwork::adjust::ShimFit;
/// use lashwork::quantity::{Lash, Nominal, ShimThickness};
/// let fit = ShimFit {
///     old: ShimThickness::parse("2.80 mm")?,
///     measured: Lash::parse("0.45 mm")?,
///     target: Lash::parse("0.30 mm")?,
///     ratio_from_shim_to_gap: 1.0,
/// };
/// // Exact to the nanometre although the binary sum is 2.9499999999999997.
/// assert_eq!(fit.wanted()?, Nominal::from_nanometres(2_950_000)?);
/// assert!((fit.lash_with(Nominal::from_nanometres(2_900_000)?)?.mm() - 0.35).abs() < 1e-12);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ShimFit {
    /// The shim that is fitted now.
    pub old: ShimThickness,
    /// The gap with it.
    pub measured: Lash,
    /// The gap that is wanted.
    pub target: Lash,
    /// How much the gap closes for each millimetre the shim grows; see [`ShimSeat::ratio`].
    pub ratio_from_shim_to_gap: f64,
}

impl ShimFit {
    /// The wanted thickness, rounded to the nearest nanometre, which removes the rounding of the
    /// sum before sizes are compared.
    ///
    /// # Errors
    /// As [`new_shim`].
    pub fn wanted(&self) -> Result<Nominal, AdjustError> {
        let ratio = self.ratio_from_shim_to_gap;
        let new = new_shim(self.old, self.measured, self.target, ratio)?;
        Ok(Nominal::nearest_mm(new.mm())?)
    }

    /// The gap to expect with another shim.
    ///
    /// # Errors
    /// As [`predicted_lash`].
    pub fn lash_with(&self, size: Nominal) -> Result<Lash, AdjustError> {
        let new = ShimThickness::from_nominal(size)?;
        predicted_lash(self.old, new, self.measured, self.ratio_from_shim_to_gap)
    }
}
