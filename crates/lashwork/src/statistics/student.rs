//! Coverage factors from Student's t and from the normal distribution.

use super::StatisticsError;
use core::f64::consts::{FRAC_1_SQRT_2, PI};
use special::Beta;

/// From here on an expansion about the normal quantile is better than the incomplete beta function.
const LARGE: f64 = 1e4;
/// Newton steps at most; the walk is monotone and far shorter for every accepted input.
const STEPS: usize = 200;

/// The factor `k` such that `-k..=k` holds the fraction `p` of Student's t with `dof` degrees of
/// freedom (two-sided); infinite degrees of freedom mean the normal distribution.
///
/// Degrees of freedom need not be whole. Good to about 1e-12 relative.
///
/// # Units
/// `p` is a fraction between 0 and 1, not a percentage.
///
/// # Errors
/// [`StatisticsError::Confidence`] if `p` is not strictly between 0 and 1;
/// [`StatisticsError::DegreesOfFreedom`] if `dof` is below 1 or not a number.
///
/// # Source
/// JCGM 100:2008 annex G.3, table G.2. Method: regularised incomplete beta function (Applied
/// Statistics AS 63) and Newton steps from the normal quantile, which always lies below, so that the
/// steps only climb; for many degrees of freedom the Cornish-Fisher expansion.
///
/// ```
/// use lashwork::Refusal;
/// use lashwork::statistics::student_t_quantile;
/// let k99 = student_t_quantile(0.99, 16.0)?;
/// assert!((k99 - 2.920_781_622_425_1).abs() < 1e-10);
/// assert!((student_t_quantile(0.95, f64::INFINITY)? - 1.959_963_984_540_054).abs() < 1e-12);
/// assert_eq!(student_t_quantile(95.0, 16.0).unwrap_err().code(), "statistics.confidence");
/// # Ok::<(), lashwork::statistics::StatisticsError>(())
/// ```
pub fn student_t_quantile(p: f64, dof: f64) -> Result<f64, StatisticsError> {
    if !(p > 0.0 && p < 1.0) {
        return Err(StatisticsError::Confidence { got: p });
    }
    if dof.is_nan() || dof < 1.0 {
        return Err(StatisticsError::DegreesOfFreedom { got: dof });
    }
    let tail = 1.0 - p;
    let z = climb(0.0, |z| {
        let density = libm::exp(-0.5 * z * z) * libm::sqrt(2.0 / PI);
        (libm::erfc(z * FRAC_1_SQRT_2) - tail) / density
    });
    if dof.is_infinite() {
        return Ok(z);
    }
    if dof >= LARGE {
        let square = z * z;
        let first = z * (square + 1.0) / 4.0;
        let second = z * ((5.0 * square + 16.0) * square + 3.0) / 96.0;
        let third = z * (((3.0 * square + 19.0) * square + 17.0) * square - 15.0) / 384.0;
        return Ok(z + (first + (second + third / dof) / dof) / dof);
    }
    let half = dof / 2.0;
    let ln_beta = half.ln_beta(0.5);
    Ok(climb(z, |t| {
        let beyond = (dof / (dof + t * t)).inc_beta(half, 0.5, ln_beta);
        let log_density = -ln_beta - 0.5 * libm::log(dof) - (half + 0.5) * libm::log1p(t * t / dof);
        (beyond - tail) / (2.0 * libm::exp(log_density))
    }))
}

/// Newton's walk up a falling convex function from a point left of its root.
fn climb(start: f64, step: impl Fn(f64) -> f64) -> f64 {
    let mut at = start;
    for _ in 0..STEPS {
        let by = step(at);
        if !by.is_finite() {
            break;
        }
        at += by;
        if by <= at * f64::EPSILON {
            break;
        }
    }
    at
}
