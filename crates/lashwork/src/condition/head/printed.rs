//! Whether two figures printed for one torque are one torque.

use super::HeadError;
use crate::quantity::Torque;

/// By how much two printed figures may differ by rounding, in newton metres. This library's choice.
const ROUNDING: f64 = 1.0;

/// Whether two printed torques agree within a newton metre, or one in a hundred if that is more; and the second less
/// the first in newton metres.
///
/// # Errors
/// [`HeadError::NoTorque`] if one is nothing.
///
/// ```
/// use lashwork::condition::head::torques_agree;
/// use lashwork::quantity::Torque;
/// let nm = |text: &str| Torque::parse(text).unwrap();
/// assert!(torques_agree(nm("35 lbf ft"), nm("47 Nm"))?.0);
/// // A figure in kgf m taken for one in tens of newton metres is 2 % off, one in lbf in is far off.
/// assert!(!torques_agree(nm("35 lbf in"), nm("47 Nm"))?.0);
/// # Ok::<(), lashwork::condition::head::HeadError>(())
/// ```
pub fn torques_agree(first: Torque, second: Torque) -> Result<(bool, f64), HeadError> {
    let (a, b) = (first.newton_metres(), second.newton_metres());
    if a <= 0.0 || b <= 0.0 {
        return Err(HeadError::NoTorque);
    }
    let by = b - a;
    Ok((by.abs() <= ROUNDING.max(0.01 * a.max(b)), by))
}
