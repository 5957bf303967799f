//! Where in a band to aim with what wears in one direction.
//!
//! # Source
//! JCGM 106:2012, 8.3.2: a guard band for 95 % on one side.

use crate::statistics::ONE_SIDED_95;
use crate::tolerance::{HasLimits, Limits};

/// The lowest value, in the base unit, that is below the band with at most 5 % when it is set with
/// standard uncertainty `u`; the middle where the band is too narrow for that. Nothing without both limits.
pub(super) fn low_end<Q: HasLimits>(limits: &Limits<Q>, u: f64) -> Option<f64> {
    let low = Q::printed_number(limits.lower()?);
    Some((low + ONE_SIDED_95 * u).min(middle(limits)?))
}

/// The highest value that is above the band with at most 5 %, for what wears downward; see [`low_end`].
pub(super) fn high_end<Q: HasLimits>(limits: &Limits<Q>, u: f64) -> Option<f64> {
    let high = Q::printed_number(limits.upper()?);
    Some((high - ONE_SIDED_95 * u).max(middle(limits)?))
}

/// The middle of the band, in the base unit. Nothing without both limits.
pub(super) fn middle<Q: HasLimits>(limits: &Limits<Q>) -> Option<f64> {
    let low = Q::printed_number(limits.lower()?);
    let high = Q::printed_number(limits.upper()?);
    Some(low + 0.5 * (high - low))
}
