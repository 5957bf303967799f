//! Running sums and running means of a series against what it should be.

use super::StatisticsError;
use alloc::vec::Vec;

/// The running sums of a series above and below a target, each never under nought: the tabular CUSUM.
///
/// A sum grows by what a value is beyond the target less a slack, usually half of the shift that is to be found.
///
/// # Units
/// Those of the values.
///
/// # Errors
/// [`StatisticsError::Points`] unless all are finite and the slack is nought or more.
///
/// # Source
/// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
///
/// ```
/// use lashwork::statistics::cusum;
/// assert_eq!(cusum(&[1.0, 2.0, -3.0], 0.0, 0.5)?, [(0.5, 0.0), (2.0, 0.0), (0.0, 2.5)]);
/// assert!(cusum(&[1.0], 0.0, -0.5).is_err());
/// # Ok::<(), lashwork::statistics::StatisticsError>(())
/// ```
pub fn cusum(values: &[f64], target: f64, slack: f64) -> Result<Vec<(f64, f64)>, StatisticsError> {
    let is_finite = values.iter().all(|value| value.is_finite()) && target.is_finite();
    if !(is_finite && slack >= 0.0 && slack.is_finite()) {
        return Err(StatisticsError::Points {
            problem: "a number is not finite, or the slack is below nought",
        });
    }
    let mut sums = (0.0_f64, 0.0_f64);
    let grown = values.iter().map(|value| {
        let above = (sums.0 + value - target - slack).max(0.0);
        let below = (sums.1 + target - value - slack).max(0.0);
        sums = (above, below);
        sums
    });
    Ok(grown.collect())
}
