//! A straight line through points with uncertainties.

use super::StatisticsError;
use serde::Serialize;

/// A straight line through points, each weighted with its uncertainty.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Line {
    /// Change of y for a unit of x.
    pub slope: f64,
    /// y at x = 0.
    pub intercept: f64,
    /// Standard uncertainty of the slope that follows from the stated uncertainties.
    pub slope_u: f64,
    /// The same of the intercept.
    pub intercept_u: f64,
    /// Standard deviation of the weighted residuals, 1 where the stated uncertainties are right
    /// (with all stated as 1, in units of y); `None` for two points.
    pub residual_sd: Option<f64>,
    /// Standard deviation of the slope that follows from the residuals; `None` for two points.
    pub slope_sd: Option<f64>,
    /// The same of the intercept.
    pub intercept_sd: Option<f64>,
    /// Points more than the two a line needs.
    pub degrees_of_freedom: usize,
}

/// The least-squares line through `(x, y)` with standard uncertainties `u` of the `y`.
///
/// # Units
/// Those of the lists.
///
/// # Errors
/// [`StatisticsError::Points`] if the lists differ in length or a number is not finite;
/// [`StatisticsError::PointUncertainty`] if one of `u` is not above zero;
/// [`StatisticsError::TooFewPoints`] below two points; [`StatisticsError::OnePlace`] if all x
/// are equal.
///
/// # Source
/// Weighted least squares, sums about the weighted means. Checked against the certified values of
/// the Norris set of the NIST Statistical Reference Datasets.
///
/// ```
/// use lashwork::statistics::straight_line;
/// let line = straight_line(&[0.0, 1.0, 2.0], &[1.0, 3.0, 5.0], &[0.1, 0.1, 0.1])?;
/// assert!((line.slope - 2.0).abs() < 1e-12 && (line.intercept - 1.0).abs() < 1e-12);
/// assert!(straight_line(&[1.0, 1.0], &[1.0, 3.0], &[0.1, 0.1]).is_err());
/// # Ok::<(), lashwork::statistics::StatisticsError>(())
/// ```
pub fn straight_line(x: &[f64], y: &[f64], u: &[f64]) -> Result<Line, StatisticsError> {
    if x.len() != y.len() || x.len() != u.len() {
        return Err(StatisticsError::Points {
            problem: "the lists differ in length",
        });
    }
    let points = || x.iter().zip(y).zip(u).map(|((x, y), u)| (*x, *y, *u));
    for (at, (x, y, u)) in points().enumerate() {
        if !(x.is_finite() && y.is_finite()) {
            return Err(StatisticsError::Points {
                problem: "a number is not finite",
            });
        }
        if !(u > 0.0 && u.is_finite()) {
            return Err(StatisticsError::PointUncertainty {
                point: at + 1,
                got: u,
            });
        }
    }
    if x.len() < 2 {
        return Err(StatisticsError::TooFewPoints {
            got: x.len(),
            needed: 2,
        });
    }
    // Weights relative to the best point, so that tiny uncertainties do not overflow.
    let best = u.iter().copied().fold(f64::INFINITY, f64::min);
    let weight = |u: f64| (best / u) * (best / u);
    let sum: f64 = points().map(|(_, _, u)| weight(u)).sum();
    let mean_x = points().map(|(x, _, u)| weight(u) * x).sum::<f64>() / sum;
    let mean_y = points().map(|(_, y, u)| weight(u) * y).sum::<f64>() / sum;
    let mut square = 0.0;
    let mut product = 0.0;
    for (x, y, u) in points() {
        square += weight(u) * (x - mean_x) * (x - mean_x);
        product += weight(u) * (x - mean_x) * (y - mean_y);
    }
    let scale = x.iter().fold(0.0_f64, |most, x| most.max(x.abs()));
    let spread = x
        .iter()
        .fold(0.0_f64, |most, x| most.max((x - mean_x).abs()));
    if spread <= 1e-12 * scale || square <= 0.0 {
        return Err(StatisticsError::OnePlace);
    }
    let slope = product / square;
    let intercept = mean_y - slope * mean_x;
    let slope_u = best / libm::sqrt(square);
    let intercept_u = best * libm::sqrt(1.0 / sum + mean_x * mean_x / square);
    let degrees_of_freedom = x.len() - 2;
    let residual_sd = (degrees_of_freedom > 0).then(|| {
        let left: f64 = points()
            .map(|(x, y, u)| libm::pow((y - mean_y - slope * (x - mean_x)) / u, 2.0))
            .sum();
        libm::sqrt(left / degrees_of_freedom as f64)
    });
    if ![slope, intercept, slope_u, intercept_u]
        .iter()
        .all(|v| v.is_finite())
    {
        return Err(StatisticsError::Points {
            problem: "the numbers are too large",
        });
    }
    Ok(Line {
        slope,
        intercept,
        slope_u,
        intercept_u,
        residual_sd,
        slope_sd: residual_sd.map(|sd| sd * slope_u),
        intercept_sd: residual_sd.map(|sd| sd * intercept_u),
        degrees_of_freedom,
    })
}
