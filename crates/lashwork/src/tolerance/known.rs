//! A value with its standard uncertainty, out of an estimate and back into one.

use super::{Estimate, Measurand, ToleranceError, Uncertainty};

/// Centre and standard uncertainty in the base unit; nothing of an estimate with one end.
pub(crate) fn known<Q: Measurand>(estimate: &Estimate<Q>) -> Option<(f64, f64)> {
    Some((
        estimate.centre()?.number(),
        estimate.standard_uncertainty()?.number(),
    ))
}

/// The normal estimate of a computed value and its standard uncertainty, in the base unit.
///
/// # Errors
/// [`ToleranceError::Quantity`], [`ToleranceError::Uncertainty`].
pub(crate) fn normal<Q: Measurand>(value: f64, u: f64) -> Result<Estimate<Q>, ToleranceError> {
    let value = Q::from_number(value)?;
    Estimate::between(value, value, Uncertainty::from_number(u)?)
}

/// The root of the sum of the squares of independent shares (JCGM 100:2008, equation (11a)).
pub(crate) fn together<const N: usize>(shares: [f64; N]) -> f64 {
    shares.into_iter().fold(0.0, libm::hypot)
}
