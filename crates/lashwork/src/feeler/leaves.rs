//! What single leaves say, without making stacks of them: for loops over many readings.

use super::leaf::not_negative;
use super::{FeelerError, Felt, Leaf};
use crate::quantity::{Lash, Marked};
use alloc::string::ToString;

/// What one leaf that goes and one that does not say, or either alone; `tolerance` is taken for a leaf
/// that states none. The same bits as [`Reading::felt`](super::Reading::felt) without a hollow.
///
/// # Errors
/// [`FeelerError`]: no leaf at all, a leaf not above zero, a negative tolerance, a leaf that goes and
/// is not thinner than the one that does not.
///
/// ```
/// use lashwork::feeler::{Leaf, felt_by_leaves};
/// use lashwork::quantity::Marked;
/// let mark = |text| Marked::parse(text);
/// let (goes, refuses) = (Leaf::new(mark("0.12 mm")?), Leaf::new(mark("0.15 mm")?));
/// let felt = felt_by_leaves(Some(goes), Some(refuses), mark("0.003 mm")?)?;
/// assert_eq!(felt.low.map(|lash| lash.mm()), Some(0.12));
/// assert!((felt.standard_uncertainty_mm - 0.003 / 3_f64.sqrt()).abs() < 1e-18);
/// assert!(felt_by_leaves(Some(refuses), Some(goes), mark("0.003 mm")?).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn felt_by_leaves(
    goes: Option<Leaf>,
    refuses: Option<Leaf>,
    tolerance: Marked,
) -> Result<Felt, FeelerError> {
    not_negative("the tolerance taken for a leaf", tolerance)?;
    if let (Some(goes), Some(refuses)) = (goes, refuses)
        && goes.nominal() >= refuses.nominal()
    {
        return Err(FeelerError::Contradiction {
            goes: goes.mark.to_string(),
            refuses: refuses.mark.to_string(),
        });
    }
    let mut leaf_u: Option<f64> = None;
    let mut end = |leaf: Option<Leaf>| -> Result<Option<Lash>, FeelerError> {
        let Some(leaf) = leaf else { return Ok(None) };
        leaf.check()?;
        let u = leaf.tolerance.unwrap_or(tolerance).mm() / libm::sqrt(3.0);
        leaf_u = Some(leaf_u.map_or(u, |other| other.max(u)));
        Ok(Some(Lash::from_nominal(leaf.nominal())?))
    };
    let (low, high) = (end(goes)?, end(refuses)?);
    let Some(standard_uncertainty_mm) = leaf_u else {
        return Err(FeelerError::NoLeaves { what: "reading" });
    };
    let unstated = |leaf: Option<Leaf>| leaf.is_some_and(|l| l.tolerance.is_none());
    Ok(Felt {
        low,
        high,
        standard_uncertainty_mm,
        assumed_tolerance: unstated(goes) || unstated(refuses),
    })
}
